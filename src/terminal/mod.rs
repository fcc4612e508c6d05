//! The terminal: arguments, lines, files on disk, child processes, output. The only place with input
//! and output.

mod app;
mod arguments;
pub mod bench_hooks;
mod child;
mod commands;
mod dispatch;
mod export;
mod files;
mod interrupt;
pub mod manual;
mod output;
mod progress;
mod recipes;
mod session;
mod trust_store;
mod typing;
mod workshop_folder;

use std::collections::BTreeMap;
use std::io::{Read, Write};
use std::path::PathBuf;

/// All that the program takes from its surroundings, so that a test can give it others.
pub struct Environment<'s> {
    /// The folder that relative paths start from.
    pub folder: PathBuf,
    /// Where the user's own files lie; none where there is no such place.
    pub data_folder: Option<PathBuf>,
    /// Where the program keeps what it remembers between runs.
    pub state_folder: Option<PathBuf>,
    /// The program itself, to start a child of.
    pub program: PathBuf,
    /// What was typed or piped in.
    pub input: &'s mut dyn Read,
    /// Answers go here.
    pub out: &'s mut dyn Write,
    /// Problems and progress go here.
    pub err: &'s mut dyn Write,
    /// A person sits at both ends: the input and the output are terminals.
    pub at_terminal: bool,
    /// The output is a terminal.
    pub out_is_terminal: bool,
    /// Problems and progress go to a terminal.
    pub err_is_terminal: bool,
    /// Columns of the terminal.
    pub width: Option<usize>,
    /// Asks the terminal again how wide it is: a window may be made narrower at any time. None where the
    /// width was given.
    pub measure: Option<fn() -> Option<usize>>,
    /// Environment variables that matter.
    pub variables: BTreeMap<String, String>,
}

/// Runs the program with its arguments, the first of which is its own name; the answer is the exit code.
pub fn run(arguments: &[String], mut environment: Environment<'_>) -> u8 {
    match arguments::Arguments::read(arguments) {
        Ok(parsed) => dispatch::run(parsed, environment),
        Err(error) => {
            let help = !error.use_stderr();
            let text = error.render().to_string();
            let stream = if help { &mut environment.out } else { &mut environment.err };
            // A closed pipe is nobody's fault, and nothing else can be done about it here.
            let _written = stream.write_all(text.as_bytes()).and_then(|()| stream.flush());
            if help { 0 } else { 2 }
        }
    }
}

/// The surroundings of the running process, handed to `body`.
pub fn with_process_environment(body: impl FnOnce(Environment<'_>) -> u8) -> u8 {
    use std::io::IsTerminal;
    let (stdin, stdout, stderr) = (std::io::stdin(), std::io::stdout(), std::io::stderr());
    let out_is_terminal = stdout.is_terminal();
    let at_terminal = stdin.is_terminal() && out_is_terminal;
    let err_is_terminal = stderr.is_terminal();
    let folders = directories::ProjectDirs::from("", "", "shirr");
    let names = ["COLUMNS", "NO_COLOR", "TERM", "SHIRR_STATE", "SHIRR_DATA"];
    let variables: BTreeMap<String, String> =
        names.iter().filter_map(|name| Some(((*name).to_owned(), std::env::var(name).ok()?))).collect();
    let given = |name: &str| variables.get(name).map(PathBuf::from);
    let state = folders.as_ref().map(|f| f.state_dir().unwrap_or_else(|| f.data_local_dir()).to_path_buf());
    let given_width = variables.get("COLUMNS").and_then(|columns| columns.parse().ok());
    body(Environment {
        folder: std::env::current_dir().unwrap_or_default(),
        data_folder: given("SHIRR_DATA").or_else(|| folders.as_ref().map(|f| f.data_dir().to_path_buf())),
        state_folder: given("SHIRR_STATE").or(state),
        program: std::env::current_exe().unwrap_or_else(|_| PathBuf::from("shirr")),
        input: &mut stdin.lock(),
        out: &mut std::io::BufWriter::new(stdout.lock()),
        err: &mut stderr.lock(),
        at_terminal,
        out_is_terminal,
        err_is_terminal,
        width: given_width.or_else(window_width),
        measure: given_width.is_none().then_some(window_width),
        variables,
    })
}

/// Columns of the window as it is now.
fn window_width() -> Option<usize> {
    terminal_size::terminal_size().map(|(width, _)| usize::from(width.0))
}
