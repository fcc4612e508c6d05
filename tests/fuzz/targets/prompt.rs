//! Target `prompt`: runs the whole program in this process, with the text piped into it.
//!
//! It works in a temporary folder and cannot leave it: a text that names a file verb is not tried if it contains a sign
//! that leads to other folders.

use super::{assert_plain, assert_steers_nothing};
use shirr::notebook::verbs;
use shirr::report::plain_text;
use shirr::terminal::{Environment, run};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::rc::Rc;

/// More lines take too long: each may use up the whole limit of a cell.
const MOST_LINES: usize = 8;

/// Words that have to do with files, besides the verbs.
const FILE_WORDS: [&str; 8] = ["save", "write", "open", "rename", "read", "compare", "sheet", "import"];

/// Whether a text might lead the program to a file outside its folder. A verb counts anywhere, even inside a word, so
/// that no way of reading a line is missed.
fn leads_outside(text: &str) -> bool {
    let leads = text.contains(['/', '\\']) || text.contains("..");
    leads && verbs::names().chain(FILE_WORDS).any(|word| text.contains(word))
}

/// One stream for answers and problems.
#[derive(Clone, Default)]
struct Screen(Rc<RefCell<Vec<u8>>>);

impl Write for Screen {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.borrow_mut().write(bytes)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// Pipes a text into the program.
pub fn try_text(text: &str) -> bool {
    if leads_outside(text) || text.lines().count() > MOST_LINES {
        return false;
    }
    let outside = tempfile::tempdir().expect("a folder");
    let [here, state] = ["here", "state"].map(|name| outside.path().join(name));
    fs::create_dir(&here).expect("a folder inside it");
    let screen = Screen::default();
    let (mut out, mut err) = (screen.clone(), screen.clone());
    let code = run(
        &["shirr".to_owned()],
        Environment {
            folder: here.clone(),
            data_folder: None,
            state_folder: Some(state),
            // Shipped recipes run in this process; others cannot start.
            program: here.join("no-such-program"),
            input: &mut text.as_bytes(),
            out: &mut out,
            err: &mut err,
            at_terminal: false,
            out_is_terminal: false,
            err_is_terminal: false,
            width: None,
            measure: None,
            measure_rows: None,
            variables: BTreeMap::new(),
        },
    );
    let output = String::from_utf8(screen.0.take()).expect("what is told is text");
    assert!(code <= 1, "the exit code is {code}: {output}");
    // The output drops signs that steer a terminal and joins what was on both sides of them.
    assert_plain(&plain_text::lines(text).join("\n"), &output);
    assert_steers_nothing(&output);
    let entries = fs::read_dir(outside.path()).expect("the folder is still there");
    let names = entries.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned());
    let strangers: Vec<String> = names.filter(|name| name != "here" && name != "state").collect();
    assert!(strangers.is_empty(), "written outside the folder: {strangers:?}");
    true
}
