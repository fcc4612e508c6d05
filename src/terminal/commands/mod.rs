//! The actions of verbs and commands, family by family.
//!
//! Never here: how a line is parsed; the table of verbs says that.

mod change;
mod chart;
mod compare;
mod cut;
mod help;
mod order;
mod pages;
mod price_by_cloth;
mod recipes;
mod reckon;
mod reference;
mod show;
mod vary;
mod workshop;
mod write;

use super::app::App;
use super::session::lines::print_error;
use super::session::{After, Session};
use crate::diagnostic::Diagnostic;
use crate::notebook::verbs::{self, Arguments};
use crate::report;
use crate::table::Table;

/// The action of a verb, given its arguments.
type Action = fn(&mut Session, &mut App<'_>, Arguments<'_>) -> Result<After, Diagnostic>;

/// The verbs of a family, each with its action.
type Family = &'static [(&'static str, Action)];

const FAMILIES: [Family; 12] = [
    change::ACTIONS,
    chart::ACTIONS,
    compare::ACTIONS,
    cut::ACTIONS,
    help::ACTIONS,
    order::ACTIONS,
    pages::ACTIONS,
    recipes::ACTIONS,
    show::ACTIONS,
    vary::ACTIONS,
    workshop::ACTIONS,
    write::ACTIONS,
];

fn action(verb: &str) -> Option<Action> {
    FAMILIES.into_iter().flatten().find(|(name, _)| *name == verb).map(|(_, action)| *action)
}

impl Session {
    /// Runs a verb; `rest` is the line after it.
    pub(crate) fn verb(&mut self, app: &mut App<'_>, verb: &str, rest: &str) -> After {
        let done = match (verbs::named(verb), action(verb)) {
            (Some(verb), Some(action)) => verb.read(rest).and_then(|arguments| action(self, app, arguments)),
            _ => Err(verbs::incomplete_error(verb)),
        };
        done.unwrap_or_else(|error| print_error(app, &error))
    }
}

/// What the session does next, after a command with this exit code.
fn after(code: u8) -> After {
    if code == super::app::DONE { After::Done } else { After::Failed }
}

fn print_table(app: &mut App<'_>, table: &Table) {
    let style = app.style();
    let (width, look) = (app.output.width, app.output.look);
    app.output.print(&report::text_table(table, &style, look, width));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_verb_has_an_action() {
        for verb in verbs::names() {
            // The session itself handles `leave`, and `must` is a line of the page.
            let elsewhere = ["leave", "must"].contains(&verb);
            assert_ne!(action(verb).is_some(), elsewhere, "{verb}");
        }
        for (verb, _) in FAMILIES.into_iter().flatten() {
            assert!(verbs::named(verb).is_some(), "{verb}");
        }
    }
}
