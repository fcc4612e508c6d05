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
                    self.output.print(&shown);
                    self.warn_odd_product(&answer);
                }
                Err(error) => code = self.failed_with(&error),
            }
            self.print_cautions(&host);
        }
        code
    }

    /// Evaluates a page that is piped in; `name` names it in errors.
    pub(crate) fn page_from(&mut self, input: &mut dyn Read, name: &str) -> u8 {
        let mut bytes = Vec::new();
        let limit = files::MOST_BYTES;
        if input.take(limit + 1).read_to_end(&mut bytes).is_err() {
            return self.failed(&format!("{name} cannot be read"));
        }
        if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > limit {
            return self.failed(&format!("{name} is too long; a page may hold {} MB", limit >> 20));
        }
        match String::from_utf8(bytes) {
            Ok(text) => lines::work_out(self, &text),
            Err(_) => self.failed(&format!("{name} is not plain text (UTF-8)")),
        }
    }
}
