//! `chart`: where the money, time and cloth of an order go, or the figures of a table, as bars.

use super::Family;
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::notebook::{TableObject, TicketObject, Tools};
use crate::present;
use crate::report::{Chart, Look, chart_text};
use crate::terminal::app::App;
use crate::terminal::session::{After, Session};
use crate::ticket::WorkshopOrder;

pub(super) const ACTIONS: Family = &[("chart", |session, app, arguments| session.chart(app, arguments.value(0)))];

impl Session {
    fn chart(&mut self, app: &mut App<'_>, name: &str) -> Result<After, Diagnostic> {
        let charts = self.charts_of(app, name)?;
        print_charts(app, &charts);
        Ok(After::Done)
    }

    /// The charts of an order or table by the name of its cell or a sum; without a name, of the last order or table.
    fn charts_of(&mut self, app: &mut App<'_>, name: &str) -> Result<Vec<Chart>, Diagnostic> {
        let hint = "type chart first, with the name of a cell that holds an order or a table";
        let value = if name.is_empty() {
            match (self.page.last_answer().cloned(), &self.last_order) {
                (Some(value), None) => value,
                (Some(value), Some(_)) if !self.order_is_latest => value,
                (_, Some(order)) => return order_charts(app, order),
                (None, None) => return Err(Diagnostic::new("there is nothing to draw yet").hinting(hint)),
            }
        } else {
            self.page.answer(&mut Tools { host: &self.host, world: app }, name)?
        };
        if let Some(ticket) = value.clone().try_cast::<TicketObject>() {
            return order_charts(app, ticket.order());
        }
        let table = value.try_cast::<TableObject>();
        let charts = table.and_then(|table| present::charts_of_table(table.table(), &app.style()));
        charts.ok_or_else(|| Diagnostic::new("there are no figures to draw in it").hinting(hint))
    }
}

fn order_charts(app: &App<'_>, order: &WorkshopOrder) -> Result<Vec<Chart>, Diagnostic> {
    let style = app.style();
    present::charts_of_order(order, &style).map_err(|error| error.diagnostic(&style))
}

pub(super) fn print_charts(app: &mut App<'_>, charts: &[Chart]) {
    let aloud = app.output.look == Look::Aloud;
    for (at, chart) in charts.iter().enumerate() {
        if at > 0 {
            app.output.print("");
        }
        app.output.print(&chart_text(chart, app.output.width, aloud).join("\n"));
    }
}
