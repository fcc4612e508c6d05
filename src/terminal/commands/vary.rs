//! `vary`: the results when a cell takes other values.

use super::chart::print_charts;
use super::{Family, print_table};
use crate::diagnostic::Diagnostic;
use crate::notebook::{TableObject, Tools};
use crate::present;
use crate::report::Look;
use crate::terminal::app::App;
use crate::terminal::session::{After, Session};
use rhai::Dynamic;

// The page parses the clauses of `vary` itself.
pub(super) const ACTIONS: Family = &[("vary", |session, app, arguments| session.vary(app, arguments.typed()))];

impl Session {
    fn vary(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Diagnostic> {
        let table = self.page.vary(&mut Tools { host: &self.host, world: app }, rest)?;
        // One result over one cell is a chart as well: the bars stand beside the figures.
        let charts = (table.columns().len() == 3).then(|| present::charts_of_table(&table, &app.style())).flatten();
        match charts {
            Some(charts) if app.output.look != Look::Aloud => print_charts(app, &charts),
            _ => print_table(app, &table),
        }
        self.order_is_latest = false;
        self.page.set_last_answer(Dynamic::from(TableObject::new(table)));
        Ok(After::Done)
    }
}
