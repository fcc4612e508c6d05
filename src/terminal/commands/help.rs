//! `help` and `tour`: what the program says about itself.

use super::{Family, after};
use crate::diagnostic::Diagnostic;
use crate::notebook::{help, tour};
use crate::terminal::app::{App, DONE};
use crate::terminal::session::{After, Session};

pub(super) const ACTIONS: Family = &[
    ("help", |_, app, arguments| Ok(after(app.explain(arguments.value(0))))),
    ("tour", |session, app, arguments| session.show_tour(app, arguments.value(0))),
];

impl Session {
    fn show_tour(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Diagnostic> {
        let part = match rest {
            "" => self.tour,
            number => number
                .parse::<usize>()
                .ok()
                .and_then(|number| number.checked_sub(1))
                .filter(|part| *part < tour::PARTS)
                .ok_or_else(|| Diagnostic::new(format!("the tour has parts 1 to {}", tour::PARTS)))?,
        };
        app.output.print_wrapped(&tour::part(part, &self.host));
        self.tour = (part + 1) % tour::PARTS;
        Ok(After::Done)
    }
}

impl App<'_> {
    /// Prints the help on a word.
    pub(crate) fn explain(&mut self, word: &str) -> u8 {
        let style = self.style();
        match help::about(word, &style, self.output.width) {
            Ok(text) => {
                self.output.print_wrapped(&text);
                DONE
            }
            Err(message) => self.failed(&message),
        }
    }
}
