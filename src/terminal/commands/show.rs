//! `show`: the page as a table, or one table or ticket in full.

use super::{Family, print_table};
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::notebook::{self, TableObject, TicketObject, Tools};
use crate::table::Table;
use crate::terminal::app::App;
use crate::terminal::session::{After, Session};
use crate::ticket::OrderSection;
use rhai::Dynamic;
use std::rc::Rc;

pub(super) const ACTIONS: Family = &[("show", |session, app, arguments| session.show(app, arguments.value(0)))];

impl Session {
    fn show(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Diagnostic> {
        let names: Vec<&str> = rest.split([' ', ',']).filter(|name| !name.is_empty()).collect();
        // A single table or ticket is shown in full, also one from a sum: show first.cut_list
        if let [one] = names.as_slice() {
            let is_cell = self.page.value(one).is_some();
            if !is_cell && let Some(table) = self.section_shown_last(app, one)? {
                print_table(app, &table);
                return Ok(After::Done);
            }
            let value = if is_cell { self.page.value(one).and_then(Result::ok).cloned() } else { None };
            let value = match value {
                Some(value) => Some(value),
                None if one.contains('.') => Some(self.page.answer(&mut Tools { host: &self.host, world: app }, one)?),
                None => None,
            };
            if let Some(value) = value
                && (self.show_in_full(app, &value, if is_cell { one } else { "" })? || !is_cell)
            {
                return Ok(After::Done);
            }
        }
        let table = self.page.listing(&mut Tools { host: &self.host, world: app }, &names)?;
        if table.is_empty() {
            app.output.print("the page is empty; type waist = 56 cm, or help");
        } else {
            print_table(app, &table);
        }
        Ok(After::Done)
    }

    /// The table of the section of this name, of the order shown last.
    fn section_shown_last(&self, app: &App<'_>, name: &str) -> Result<Option<Rc<Table>>, Diagnostic> {
        let Some((order, section)) = self.last_order.as_ref().zip(OrderSection::of_member(name)) else {
            return Ok(None);
        };
        section.table(order).map_err(|error| error.diagnostic(&app.style()))
    }

    /// Shows a value in full; `false` if its one line is all there is to show.
    fn show_in_full(&mut self, app: &mut App<'_>, value: &Dynamic, name: &str) -> Result<bool, Diagnostic> {
        if let Some(table) = value.clone().try_cast::<TableObject>() {
            print_table(app, table.table());
            return Ok(true);
        }
        if let Some(ticket) = value.clone().try_cast::<TicketObject>() {
            self.show_first(app, &ticket.0, name)?;
            return Ok(true);
        }
        if let Ok(shown) = notebook::one_line(value, &self.host.style()) {
            app.output.print(&shown);
        }
        Ok(false)
    }
}
