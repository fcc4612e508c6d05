//! The prompt: a person types, the page answers.

use super::commands::{DONE, Desk, FAILED};
use super::completion::Words;
use super::files;
use super::hints::HintLook;
use super::known::Known;
use super::lines::{After, Talk};
use super::recipes;
use crate::notebook::VERBS;
use crate::recipe::library;
use rustyline::error::ReadlineError;
use rustyline::history::FileHistory;
use rustyline::{CompletionType, Config, Editor};
use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::atomic::Ordering;

/// Plain ASCII, so that its width is never in doubt.
const PROMPT: &str = "> ";
/// More of an unfinished line is wanted.
const MORE: &str = "... ";

/// What the keys see of the page.
struct Seen {
    names: RefCell<Vec<String>>,
    folder: PathBuf,
}

impl Known for Seen {
    fn names_from(&self, prefix: &str, most: usize) -> Vec<String> {
        self.names.borrow().iter().filter(|name| name.starts_with(prefix)).take(most).cloned().collect()
    }

    fn value_of(&self, _: &str) -> Option<String> {
        None
    }

    fn members_of(&self, _: &str) -> Vec<String> {
        Vec::new()
    }

    fn recipes(&self) -> Vec<String> {
        library::shipped_names().map(str::to_owned).chain(recipes::in_folder(&self.folder)).collect()
    }

    fn inputs_of(&self, _: &str) -> Vec<(String, String)> {
        Vec::new()
    }

    fn files_from(&self, typed: &str) -> Vec<String> {
        files::names_from(&self.folder, typed, 500)
    }

    fn verbs(&self) -> Vec<(&'static str, &'static str)> {
        VERBS.iter().map(|verb| (*verb, *verb)).collect()
    }
}

type LineEditor = Editor<Words, FileHistory>;

/// Talks until the person leaves.
pub(super) fn talk(desk: &mut Desk<'_>) -> u8 {
    let config =
        Config::builder().auto_add_history(false).bracketed_paste(true).completion_type(CompletionType::List).build();
    let Ok(mut editor) = LineEditor::with_config(config) else {
        return desk.failed("the terminal cannot be used for typing; give lines through a pipe instead");
    };
    let history = history_file(desk);
    if let Some(file) = &history {
        // A first session has no history yet.
        let _loaded = editor.load_history(file);
    }
    let mut talk = Talk::new(desk);
    desk.output.say("Type a sum such as 23 in / 2 in * 10, or help. Ctrl-D leaves.");
    let seen = Rc::new(Seen { names: RefCell::default(), folder: desk.folder.clone() });
    let known: Rc<dyn Known> = seen.clone();
    let look = HintLook::choose(desk.output.plain, &desk.variables);
    editor.set_helper(Some(Words::new(known, look, || super::window_width().unwrap_or(80))));
    let mut waiting = String::new();
    loop {
        desk.output.flush();
        seen.names.replace(talk.names());
        let asked = if waiting.is_empty() { PROMPT } else { MORE };
        match editor.readline(asked) {
            Ok(typed) => {
                desk.output.follow_window();
                if !waiting.is_empty() {
                    waiting.push('\n');
                }
                waiting.push_str(&typed);
                if talk.is_open(&waiting) {
                    continue;
                }
                let text = std::mem::take(&mut waiting);
                remember(&mut editor, history.as_deref(), &text);
                if each_line(&mut talk, desk, &text) == After::Leave {
                    return DONE;
                }
            }
            Err(ReadlineError::Interrupted) if waiting.is_empty() => desk.output.tell("Ctrl-D or “leave” leaves"),
            Err(ReadlineError::Interrupted) => {
                waiting.clear();
                desk.output.tell("the unfinished lines are dropped");
            }
            Err(ReadlineError::Eof) => return DONE,
            Err(_) => {
                desk.output.tell("the terminal was lost");
                return FAILED;
            }
        }
    }
}

/// A paste may bring several lines at once: they run one by one, and stop at the first that fails.
fn each_line(talk: &mut Talk, desk: &mut Desk<'_>, text: &str) -> After {
    let mut lines = text.lines().peekable();
    let mut waiting = String::new();
    while let Some(line) = lines.next() {
        if !waiting.is_empty() {
            waiting.push('\n');
        }
        waiting.push_str(line);
        if lines.peek().is_some() && talk.is_open(&waiting) {
            continue;
        }
        let after = talk.line(desk, &std::mem::take(&mut waiting));
        let stopped = desk.stop.swap(false, Ordering::SeqCst);
        let left = lines.clone().count();
        if (after == After::Failed || stopped) && left > 0 {
            desk.output.tell(&format!("stopped here; {left} more lines were not run"));
            return After::Failed;
        }
        if after == After::Leave {
            return After::Leave;
        }
    }
    After::Done
}

fn history_file(desk: &Desk<'_>) -> Option<PathBuf> {
    let folder = desk.state_folder.as_ref()?;
    std::fs::create_dir_all(folder).ok()?;
    Some(folder.join("history.txt"))
}

/// Appends to the history at once, so that two windows do not lose each other's lines.
fn remember(editor: &mut LineEditor, file: Option<&Path>, text: &str) {
    if text.trim().is_empty() {
        return;
    }
    // History is a convenience: a full disk must not stop the work.
    let _added = editor.add_history_entry(text);
    if let Some(file) = file {
        let _kept = editor.append_history(file);
    }
}
