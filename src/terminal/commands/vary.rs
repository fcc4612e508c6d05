//! `vary`: the results when a cell takes other values.

use super::{Family, print_table};
use crate::diagnostic::Diagnostic;
use crate::notebook::{TableObject, Tools};
use crate::terminal::app::App;
use crate::terminal::session::{After, Session};
use rhai::Dynamic;

// The page parses the clauses of `vary` itself.
pub(super) const ACTIONS: Family = &[("vary", |session, app, arguments| session.vary(app, arguments.typed()))];

impl Session {
    fn vary(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Diagnostic> {
        let table = self.page.vary(&mut Tools { host: &self.host, world: app }, rest)?;
        print_table(app, &table);
        self.page.set_last_answer(Dynamic::from(TableObject::new(table)));
        Ok(After::Done)
    }
}
