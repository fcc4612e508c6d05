//! Lines of a page, whether typed, piped or read from a file: one path for all.

use super::commands::{DONE, Desk, FAILED};
use crate::engine::tokens::Tokens;
use crate::engine::{Fault, Host};
use crate::notebook::{Change, Line, Page, VERBS, read_line, split_answers};
use crate::quantity::nearest::nearest;

/// A page being worked on.
pub(super) struct Talk {
    page: Page,
    host: Host,
}

/// What becomes of the talk after a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum After {
    /// It goes on; the line did what it said.
    Done,
    /// It goes on; the line failed.
    Failed,
    /// The person leaves.
    Leave,
}

impl Talk {
    /// An empty page.
    pub(super) fn new(desk: &Desk<'_>) -> Self {
        Self { page: Page::default(), host: desk.host() }
    }

    /// Whether more must follow before a line can be understood.
    pub(super) fn is_open(&self, typed: &str) -> bool {
        Tokens::read(typed, self.host.reading()).is_ok_and(|tokens| tokens.is_open())
    }

    /// The names of the page's cells.
    pub(super) fn names(&self) -> Vec<String> {
        self.page.names().map(str::to_owned).collect()
    }

    /// Does what one line says.
    pub(super) fn line(&mut self, desk: &mut Desk<'_>, typed: &str) -> After {
        let result = match read_line(typed, self.host.reading()) {
            Line::Note => After::Done,
            Line::Cell { name, expression } => self.cell(desk, &name, &expression),
            Line::Expression(expression) => match self.page.answer(&self.host, &expression) {
                Ok(shown) => {
                    desk.output.say(&shown);
                    After::Done
                }
                Err(fault) => tell(desk, &meant_as_verb(&expression, fault)),
            },
            Line::Verb { verb: "leave", .. } => return After::Leave,
            Line::Verb { verb, rest } => verb_line(desk, verb, &rest),
        };
        desk.tell_notices(&self.host);
        result
    }

    fn cell(&mut self, desk: &mut Desk<'_>, name: &str, expression: &str) -> After {
        match self.page.set(&self.host, name, expression) {
            Ok(changes) => show_changes(desk, &changes),
            Err(fault) => tell(desk, &fault),
        }
    }
}

/// A line of one unknown word may be a verb that was mistyped.
fn meant_as_verb(typed: &str, fault: Fault) -> Fault {
    let word = typed.split_whitespace().next().unwrap_or_default();
    let verb = match word {
        "quit" | "exit" | "bye" => Some("leave"),
        _ => nearest(word, VERBS),
    };
    match verb {
        Some(verb) if fault.hint.is_none() => fault.hinting(format!("did you mean “{verb}”?")),
        _ => fault,
    }
}

fn tell(desk: &mut Desk<'_>, fault: &Fault) -> After {
    desk.output.tell(&fault.to_string());
    After::Failed
}

fn show_changes(desk: &mut Desk<'_>, changes: &[Change]) -> After {
    // A new cell that nobody reads says its value only if there is something to see in it.
    let names = changes.iter().map(|change| change.name.chars().count()).max().unwrap_or(0);
    let values = changes.iter().filter_map(|change| change.now.as_ref().ok()).map(|now| now.chars().count()).max();
    let values = values.unwrap_or(0);
    let mut after = After::Done;
    for change in changes {
        match (&change.now, &change.was) {
            (Ok(now), Some(was)) => {
                let now = format!("{now:values$}");
                desk.output.say(&format!("{:names$}  {now}   was {was}", change.name));
            }
            (Ok(now), None) => desk.output.say(&format!("{:names$}  {now}", change.name)),
            (Err(fault), _) => {
                desk.output.tell(&format!("{}: {fault}", change.name));
                after = After::Failed;
            }
        }
    }
    after
}

fn verb_line(desk: &mut Desk<'_>, verb: &str, rest: &str) -> After {
    let (head, answers) = split_answers(rest);
    let code = match verb {
        "run" | "sheet" | "describe" | "check" if head.is_empty() => {
            desk.failed("which recipe?\n  type recipes for the list")
        }
        "run" => desk.run_recipe(&head, answers, None, false),
        "sheet" => desk.sheet(&head, answers, false),
        "recipes" => desk.list_recipes(),
        "describe" => desk.describe(&head),
        "check" => desk.check(&head.split_whitespace().map(str::to_owned).collect::<Vec<_>>()),
        _ => desk.explain(&head),
    };
    if code == DONE { After::Done } else { After::Failed }
}

/// Works through all lines of a text; a line that fails stops nobody else.
pub(super) fn work_through(desk: &mut Desk<'_>, text: &str, echo: bool) -> u8 {
    use std::sync::atomic::Ordering;
    let mut talk = Talk::new(desk);
    let mut code = DONE;
    let mut waiting = String::new();
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    for line in text.lines() {
        if echo {
            desk.output.say(&format!("> {line}"));
        }
        if !waiting.is_empty() {
            waiting.push('\n');
        }
        waiting.push_str(line);
        if talk.is_open(&waiting) {
            continue;
        }
        match talk.line(desk, &std::mem::take(&mut waiting)) {
            After::Done => {}
            After::Failed => code = FAILED,
            After::Leave => return code,
        }
        if desk.stop.load(Ordering::SeqCst) {
            return super::commands::INTERRUPTED;
        }
    }
    if !waiting.trim().is_empty() && talk.line(desk, &waiting) == After::Failed {
        code = FAILED;
    }
    code
}
