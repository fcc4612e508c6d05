//! Orders: `run`, `change`, `all`, `sheet` and `read`.

use super::{Family, after};
use crate::diagnostic::Diagnostic;
use crate::notebook::verbs;
use crate::notebook::{TicketObject, Tools};
use crate::terminal::app::{App, DONE, open_cloth};
use crate::terminal::session::asking::{Asking, Completeness};
use crate::terminal::session::lines::print_error;
use crate::terminal::session::{After, Session};
use crate::ticket::WorkshopOrder;
use std::rc::Rc;

pub(super) const ACTIONS: Family = &[
    ("run", |session, app, arguments| Ok(session.run(app, arguments.value(0), arguments.answers))),
    ("change", |session, app, arguments| {
        let line = session.page.order_changed(arguments.value(0), &arguments.answers)?;
        Ok(session.run_line(app, &line))
    }),
    ("all", |session, app, arguments| session.all(app, arguments.value(0))),
    ("sheet", |session, app, arguments| Ok(session.sheet(app, arguments.value(0), arguments.answers))),
    // With its cell it is a line of the page, not a verb.
    ("read", |_, _, _| Err(verbs::incomplete_error("read"))),
];

impl Session {
    /// Runs an order that fills no cell: shows its tables and leaves the page unchanged.
    fn run(&mut self, app: &mut App<'_>, recipe: &str, answers: Vec<(String, String)>) -> After {
        if let Some(open) = open_cloth(app, &answers) {
            return match app.show_price_by_cloth(recipe, &answers, open) {
                Ok(()) => After::Done,
                Err(error) => print_error(app, &error),
            };
        }
        match Asking::begin(self, app, recipe, None, answers, "") {
            Ok(Completeness::Incomplete(asking)) => {
                self.asking = Some(*asking);
                self.ask_first(app);
                After::Done
            }
            Ok(Completeness::Complete(answers)) => self.show_order_of(app, recipe, &answers),
            Err(error) => print_error(app, &error),
        }
    }

    /// Runs a recipe and shows the first screen of the order, which fills no cell.
    pub(crate) fn show_order_of(&mut self, app: &mut App<'_>, recipe: &str, answers: &[(String, String)]) -> After {
        let made = self.page.run_order(&mut Tools { host: &self.host, world: app }, recipe, answers);
        let order = made.and_then(|made| {
            let ticket = made.try_cast::<TicketObject>();
            ticket.map(|ticket| ticket.0).ok_or_else(|| Diagnostic::new("the recipe gave no order"))
        });
        match order.and_then(|order| self.show_first(app, &order, "")) {
            Ok(()) => After::Done,
            Err(error) => print_error(app, &error),
        }
    }

    /// Shows the first screen of an order and keeps it as the one shown last; `cell` is empty if it fills none.
    pub(crate) fn show_first(
        &mut self,
        app: &mut App<'_>,
        order: &Rc<WorkshopOrder>,
        cell: &str,
    ) -> Result<(), Diagnostic> {
        self.last_order = Some(Rc::clone(order));
        self.order_is_latest = true;
        app.show_first(order, cell, &next_lines(cell))
    }

    /// Shows everything of the order in a cell, or of the order shown last.
    fn all(&mut self, app: &mut App<'_>, name: &str) -> Result<After, Diagnostic> {
        let order = if name.is_empty() { self.last_order.clone() } else { self.ticket_in(name).map(|ticket| ticket.0) };
        let Some(order) = order else {
            let problem =
                if name.is_empty() { "no order was made yet".to_owned() } else { format!("{name} is no order") };
            return Err(Diagnostic::new(problem).hinting("type all first, with the name of a cell that holds an order"));
        };
        app.show_all(&order)?;
        self.last_order = Some(order);
        self.order_is_latest = true;
        Ok(After::Done)
    }

    fn sheet(&mut self, app: &mut App<'_>, name: &str, answers: Vec<(String, String)>) -> After {
        if name.is_empty() {
            let order = self.last_order.clone().ok_or_else(|| verbs::incomplete_error("sheet"));
            let shown = order.and_then(|order| app.show_sheet(&order));
            return shown.map_or_else(|error| print_error(app, &error), |()| After::Done);
        }
        match self.ticket_in(name) {
            Some(ticket) => match app.show_sheet(ticket.order()) {
                Ok(()) => after(DONE),
                Err(error) => print_error(app, &error),
            },
            None => after(app.sheet(name, answers, false)),
        }
    }

    fn ticket_in(&self, name: &str) -> Option<TicketObject> {
        self.page.value(name)?.ok()?.clone().try_cast::<TicketObject>()
    }
}

/// What can be typed to see the rest of an order.
fn next_lines(cell: &str) -> Vec<String> {
    let sections = ["cost", "minutes", "steps", "cautions"];
    let named = |word: &str| format!("{word} {cell}").trim_end().to_owned();
    let member = |section: &str| {
        if cell.is_empty() { format!("show {section}") } else { format!("show {cell}.{section}") }
    };
    let sections = sections.iter().map(|section| member(section));
    std::iter::once(named("sheet")).chain(sections).chain([named("all")]).collect()
}
