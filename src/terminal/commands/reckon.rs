//! `shirr reckon` and `shirr page`: sums, and a page read from a file or a pipe.

use crate::diagnostic::Diagnostic;
use crate::engine::{Expression, value};
use crate::terminal::app::{App, DONE};
use crate::terminal::files;
use crate::terminal::session::lines;
use rhai::Scope;
use std::io::Read;

impl App<'_> {
    /// Evaluates sums and prints each answer; returns the exit code.
    pub(crate) fn reckon(&mut self, expressions: &[String]) -> u8 {
        let host = self.host();
        let style = self.style();
        let mut code = DONE;
        for typed in expressions {
            let answer = Expression::compile(&host, typed).and_then(|e| e.evaluate(&host, &mut Scope::new()));
            let shown = answer.and_then(|answer| {
                let shown = value::show(&answer, &style)
                    .ok_or_else(|| Diagnostic::new(format!("{} cannot be shown here", value::noun(&answer))))?;
                Ok((shown, answer))
            });
            match shown {
                Ok((shown, answer)) => {
                    self.output.say(&shown);
                    self.tell_odd(&answer);
                }
                Err(error) => code = self.failed_with(&error),
            }
            self.tell_notices(&host);
        }
        code
    }

    /// Evaluates a page that is piped in; `what` names it in errors.
    pub(crate) fn page_from(&mut self, input: &mut dyn Read, what: &str) -> u8 {
        let mut bytes = Vec::new();
        let limit = files::MOST_BYTES;
        if input.take(limit + 1).read_to_end(&mut bytes).is_err() {
            return self.failed(&format!("{what} cannot be read"));
        }
        if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > limit {
            return self.failed(&format!("{what} is too long; a page may hold {} MB", limit >> 20));
        }
        match String::from_utf8(bytes) {
            Ok(text) => lines::work_out(self, &text),
            Err(_) => self.failed(&format!("{what} is not plain text (UTF-8)")),
        }
    }
}
