//! Replays the transcripts in tests/sessions, in this process, without a terminal.
//!
//! A line that begins with `$ shirr` is a command. Lines that begin with `> ` are typed one after the other, into the
//! command before them if there is one. What follows is the expected output, answers and problems in the order a person
//! sees them. `[exit 1]` is an exit code other than 0, and a line that begins with `#` is a remark.
//!
//! Each transcript runs in its own folder, with a copy of the demo workshop as `demo` and of the files in
//! tests/sessions/NAME, if any; `HERE` stands for the path of the folder.
//!
//! `UPDATE_TRANSCRIPTS=1 cargo test sessions` rewrites the transcripts; the run that rewrites still fails, so that a
//! person reads the difference.

use shirr::terminal::{Environment, run};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::rc::Rc;

/// One stream for answers and problems, in order, as on a screen.
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

pub(crate) fn replay(transcript: &str, here: &Path) -> String {
    let mut shown = String::new();
    let mut lines = transcript.lines().peekable();
    while let Some(line) = lines.next() {
        if let Some(command) = line.strip_prefix("$ ") {
            let mut words = words(command);
            let mut typed = String::new();
            while let Some(next) = lines.next_if(|next| !next.starts_with("$ ") && !next.starts_with("# ")) {
                if let Some(next) = next.strip_prefix("> ") {
                    typed.push_str(&format!("{next}\n"));
                }
            }
            if !typed.is_empty() {
                words.push("--echo".to_owned());
            }
            shown.push_str(&format!("{line}\n{}", command_output(&words, &typed, here)));
        } else if let Some(first) = line.strip_prefix("> ") {
            let mut typed = format!("{first}\n");
            while let Some(next) = lines.next_if(|next| !next.starts_with("$ ") && !next.starts_with("# ")) {
                if let Some(next) = next.strip_prefix("> ") {
                    typed.push_str(&format!("{next}\n"));
                }
            }
            let page = ["shirr", "--echo"].map(str::to_owned);
            shown.push_str(&command_output(&page, &typed, here));
        } else if line.starts_with('#') || (line.is_empty() && shown.is_empty()) {
            shown.push_str(&format!("{line}\n"));
        }
    }
    shown
}

fn command_output(words: &[String], input: &str, here: &Path) -> String {
    let screen = Screen::default();
    let (mut out, mut err) = (screen.clone(), screen.clone());
    let columns = words.iter().find_map(|word| word.strip_prefix("COLUMNS=")).map(str::to_owned);
    let words: Vec<String> = words.iter().filter(|word| !word.starts_with("COLUMNS=")).cloned().collect();
    let variables: BTreeMap<String, String> = columns.iter().map(|c| ("COLUMNS".to_owned(), c.clone())).collect();
    let code = run(
        &words,
        Environment {
            folder: here.to_path_buf(),
            data_folder: None,
            state_folder: Some(here.join("state")),
            program: env!("CARGO_BIN_EXE_shirr").into(),
            input: &mut input.as_bytes(),
            out: &mut out,
            err: &mut err,
            at_terminal: false,
            out_is_terminal: false,
            err_is_terminal: false,
            width: columns.and_then(|columns| columns.parse().ok()),
            measure: None,
            measure_rows: None,
            variables,
        },
    );
    let mut shown = String::from_utf8(screen.0.take()).unwrap().replace(&*here.to_string_lossy(), "HERE");
    if code != 0 {
        shown.push_str(&format!("[exit {code}]\n"));
    }
    shown
}

/// Splits a command line into words; single quotes keep blanks.
pub(crate) fn words(command: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut word = None::<String>;
    let mut quoted = false;
    for c in command.chars() {
        match c {
            '\'' => {
                quoted = !quoted;
                word.get_or_insert_default();
            }
            ' ' if !quoted => words.extend(word.take()),
            c => word.get_or_insert_default().push(c),
        }
    }
    words.extend(word);
    words
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let target = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy(&path, &target);
        } else {
            fs::copy(&path, target).unwrap();
        }
    }
}

/// Creates the folder of one transcript.
pub(crate) fn transcript_folder(name: &str) -> tempfile::TempDir {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let here = tempfile::tempdir().unwrap();
    copy(&root.join("recipes/demo"), &here.path().join("demo"));
    let own = root.join("tests/sessions").join(name);
    if own.is_dir() {
        copy(&own, here.path());
    }
    here
}

#[test]
fn every_transcript_comes_out_as_written() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sessions");
    let mut paths: Vec<_> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|end| end == "txt"));
    paths.sort();
    assert!(!paths.is_empty());
    let mut wrong = Vec::new();
    for path in paths {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let written = fs::read_to_string(&path).unwrap();
        let here = transcript_folder(&name);
        let shown = replay(&written, here.path());
        if shown != written {
            if std::env::var_os("UPDATE_TRANSCRIPTS").is_some() {
                fs::write(&path, &shown).unwrap();
            }
            wrong.push(format!("{name}:\n{}", difference(&written, &shown)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

/// Describes where two texts first differ.
fn difference(written: &str, shown: &str) -> String {
    let (mut a, mut b) = (written.lines(), shown.lines());
    let mut number = 0;
    loop {
        number += 1;
        match (a.next(), b.next()) {
            (None, None) => return "they differ in line ends".to_owned(),
            (left, right) if left != right => {
                let rest: Vec<&str> = right.into_iter().chain(b.take(6)).collect();
                return format!(
                    "line {number}\n  written: {}\n  came out: {}",
                    left.unwrap_or("(end)"),
                    rest.join("\n            ")
                );
            }
            _ => {}
        }
    }
}
