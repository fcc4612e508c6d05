//! The terminal: arguments, lines, files on disk, child processes, output. The only module with input and
//! output.

mod app;
mod arguments;
pub mod bench_hooks;
mod commands;
mod disk;
mod dispatch;
mod export;
mod files;
mod interrupt;
pub mod manual;
mod output;
mod progress;
mod recipe_folders;
mod recipes;
mod session;
mod today;
mod trust_store;
mod typing;
mod worker;
mod workshop_folder;

use std::collections::BTreeMap;
use std::io::{Read, Write};
use std::path::PathBuf;

/// Everything the program takes from its environment, so that tests can replace it.
pub struct Environment<'s> {
    /// The folder that relative paths start from.
    pub folder: PathBuf,
    /// The folder of the user's own workshop files; `None` if there is no such place.
    pub data_folder: Option<PathBuf>,
    /// The folder for what the program remembers between runs; `None` if there is no such place.
    pub state_folder: Option<PathBuf>,
    /// The path of the program itself, to start child processes.
    pub program: PathBuf,
    /// What is typed or piped in.
    pub input: &'s mut dyn Read,
    /// Answers go here.
    pub out: &'s mut dyn Write,
    /// Problems and progress go here.
    pub err: &'s mut dyn Write,
    /// Whether input and output are terminals, so that a person sits at both ends.
    pub at_terminal: bool,
    /// Whether the output is a terminal.
    pub out_is_terminal: bool,
    /// Whether problems and progress go to a terminal.
    pub err_is_terminal: bool,
    /// The width of the terminal in columns, if known.
    pub width: Option<usize>,
    /// Measures the terminal again, as a window may be resized at any time. `None` if `COLUMNS` gives the
    /// width.
    pub measure: Option<fn() -> Option<usize>>,
    /// Measures the rows of the terminal. `None` if a screen has no end.
    pub measure_rows: Option<fn() -> Option<usize>>,
    /// The environment variables that the program reads.
    pub variables: BTreeMap<String, String>,
}

/// Runs the program; returns its exit code. The first argument is the program's own name.
pub fn run(arguments: &[String], mut environment: Environment<'_>) -> u8 {
    match arguments::Arguments::read(arguments) {
        Ok(parsed) => dispatch::run(parsed, environment),
        Err(error) => {
            let help = !error.use_stderr();
            let text = error.render().to_string();
            let stream = if help { &mut environment.out } else { &mut environment.err };
            // A closed pipe is no error, and nothing can be done about it here.
            let _written = stream.write_all(text.as_bytes()).and_then(|()| stream.flush());
            if help { 0 } else { 2 }
        }
    }
}

/// Calls `body` with the environment of the running process; returns its exit code.
pub fn with_process_environment(body: impl FnOnce(Environment<'_>) -> u8) -> u8 {
    use std::io::IsTerminal;
    if let Err(message) =
        disk::plan(std::env::var(disk::FAULT).ok().as_deref(), std::env::var_os(disk::LOG).map(PathBuf::from))
    {
        // Nothing can be done about a closed stream here.
        let _told = writeln!(std::io::stderr(), "{message}");
        return 2;
    }
    let (mut stdin, stdout, stderr) = (std::io::stdin(), std::io::stdout(), std::io::stderr());
    let out_is_terminal = stdout.is_terminal();
    let at_terminal = stdin.is_terminal() && out_is_terminal;
    let err_is_terminal = stderr.is_terminal();
    let folders = directories::ProjectDirs::from("", "", "shirr");
    let names = ["COLUMNS", "NO_COLOR", "TERM", "SHIRR_STATE", "SHIRR_DATA"];
    let variables: BTreeMap<String, String> =
        names.iter().filter_map(|name| Some(((*name).to_owned(), std::env::var(name).ok()?))).collect();
    // One that is set to nothing is not set: its files would go into the folder one stands in.
    let path_in = |name: &str| variables.get(name).filter(|path| !path.trim().is_empty()).map(PathBuf::from);
    let state = folders.as_ref().map(|f| f.state_dir().unwrap_or_else(|| f.data_local_dir()).to_path_buf());
    let given_width = variables.get("COLUMNS").and_then(|columns| columns.parse().ok());
    body(Environment {
        folder: std::env::current_dir().unwrap_or_default(),
        data_folder: path_in("SHIRR_DATA").or_else(|| folders.as_ref().map(|f| f.data_dir().to_path_buf())),
        state_folder: path_in("SHIRR_STATE").or(state),
        program: std::env::current_exe().unwrap_or_else(|_| PathBuf::from("shirr")),
        // Not locked: on a terminal without control codes the prompt reads from it by itself.
        input: &mut stdin,
        out: &mut std::io::BufWriter::new(stdout.lock()),
        err: &mut stderr.lock(),
        at_terminal,
        out_is_terminal,
        err_is_terminal,
        width: given_width.or_else(window_width),
        measure: given_width.is_none().then_some(window_width),
        measure_rows: Some(window_rows),
        variables,
    })
}

/// The current width of the window in columns.
fn window_width() -> Option<usize> {
    terminal_size::terminal_size().map(|(width, _)| usize::from(width.0))
}

/// The current height of the window in rows.
fn window_rows() -> Option<usize> {
    terminal_size::terminal_size().map(|(_, height)| usize::from(height.0))
}
