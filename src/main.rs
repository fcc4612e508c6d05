//! The program: everything is in the library.

use shirr::terminal;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args_os().map(|argument| argument.to_string_lossy().into_owned()).collect();
    ExitCode::from(terminal::with_process_environment(|environment| terminal::run(&arguments, environment)))
}
