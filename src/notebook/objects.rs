//! Tables, tickets and materials as cell values: their members, their one-line display, their words in errors and help.
//!
//! | written | is |
//! |---|---|
//! | `orders.mark_from` | the column `mark from` as a list; a blank is `()`; `_` replaces what is no letter or digit |
//! | `orders.rows` | the number of rows, unless a column has this name |
//! | `first.panels`, `first.waist` | a figure, an input; spaces in a name become `_` |
//! | `first.cut_list` … | a table of the ticket, see [`OrderSection`] |
//! | `first.price`, `first.pieces` … | a figure that every order has |
//! | `white_lawn.price` … | a figure of a material of the workshop |
//!
//! The ticket's own words take precedence over a figure or an input of the same name. Never here: files,
//! running a recipe.

mod material;

pub(crate) use material::MaterialObject;

use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::engine::limits::Stopped;
use crate::engine::text::words::typed_member;
use crate::engine::value::{Shown, quantity_to_script};
use crate::engine::{Host, Member, ScriptError, Value};
use crate::quantity::nearest::nearest;
use crate::quantity::{Liked, Style, Unit};
use crate::report::plain_text;
use crate::table::{Cell, Column, ColumnKind, Table, TableError};
use crate::ticket::{LayError, OrderSection, Ticket, TicketValue, WorkshopOrder};
use rhai::{Array, Dynamic, EvalAltResult, ImmutableString, Position};
use std::borrow::Cow;
use std::rc::Rc;
use std::sync::LazyLock;

/// A table as a cell value.
#[derive(Clone, Debug)]
pub(crate) struct TableObject(pub Rc<Table>);

/// A ticket as a cell value: an order in its workshop. What follows from the order is computed on demand.
#[derive(Clone, Debug)]
pub(crate) struct TicketObject(pub Rc<WorkshopOrder>);

/// The members that every table, ticket and material has; the tables of a ticket are the sections of an order.
pub(crate) static WORDS: LazyLock<Vec<Member>> = LazyLock::new(|| {
    let rows = word(TableObject::TYPE, "rows", "orders.rows", "how many rows it has");
    let sections = OrderSection::in_files().map(|(section, _)| {
        let form = Cow::Owned(format!("first.{}", section.name));
        Member { of: TicketObject::TYPE, name: section.name, form, summary: section.summary }
    });
    let figures = FIGURES.iter().map(|(name, form, summary)| word(TicketObject::TYPE, name, form, summary));
    std::iter::once(rows).chain(sections).chain(figures).chain(material::WORDS).collect()
});

/// The members of every order besides its sections: name, form, help.
const FIGURES: [(&str, &str, &str); 10] = [
    ("price", "first.price", "the price of the order, to the cent"),
    ("price_each", "first.price_each", "the price of one garment, to the cent"),
    ("deposit", "first.deposit", "the part of the price that is paid when it is agreed, where settings.csv says which"),
    ("pieces_to_cut", "first.pieces_to_cut", "all pieces to cut"),
    ("total_minutes", "first.total_minutes", "all minutes; refused while some are not known"),
    ("weight", "first.weight", "what the order weighs, thread and small things not counted"),
    ("pieces", "first.pieces", "the number of garments"),
    ("age", "first.age", "the age of the wearer, where the order says it"),
    ("used_for", "first.used_for", "what it is for, where the order says it"),
    ("washing", "first.washing", "how cloth is cut that loses in the wash, where the order says it"),
];

const fn word(of: &'static str, name: &'static str, form: &'static str, summary: &'static str) -> Member {
    Member { of, name, form: Cow::Borrowed(form), summary }
}

/// Those of them that are known as soon as the recipe has made the ticket.
const KNOWN_WHEN_MADE: [&str; 5] = ["pieces_to_cut", "pieces", "age", "used_for", "washing"];

/// Whether a member may be known as soon as the recipe has made the ticket, before anything is planned.
pub(super) fn may_be_made(member: &str) -> bool {
    KNOWN_WHEN_MADE.contains(&member)
        || !(FIGURES.iter().any(|(name, ..)| *name == member) || OrderSection::of_member(member).is_some())
}

/// Whether a member of a ticket that was made and not planned is known already.
pub(super) fn is_made(ticket: &Dynamic, member: &str) -> bool {
    ticket.read_lock::<TicketObject>().is_some_and(|object| {
        let ticket = object.ticket();
        KNOWN_WHEN_MADE.contains(&member) || ticket.figure(member).is_some() || ticket.input(member).is_some()
    })
}

type ScriptResult = Result<Dynamic, Box<EvalAltResult>>;

/// Registers tables and tickets with an engine: their types, members and words in errors.
pub(crate) fn register(host: &mut Host) {
    host.register_shown::<TableObject>();
    host.register_shown::<TicketObject>();
    material::register(host);
    host.set_members(&WORDS);
    host.engine_mut()
        .register_indexer_get(|table: &mut TableObject, name: ImmutableString| -> ScriptResult {
            table.member(typed_member(&name))
        })
        .register_indexer_get(|ticket: &mut TicketObject, name: ImmutableString| -> ScriptResult {
            ticket.member(typed_member(&name))
        });
}

impl From<Table> for TableObject {
    fn from(table: Table) -> Self {
        Self(Rc::new(table))
    }
}

impl Shown for TableObject {
    const TYPE: &'static str = "table";

    /// `12 rows: piece, count, along`
    fn shown(&self, _: &Style) -> String {
        let rows = match self.0.len() {
            0 => "no rows".to_owned(),
            1 => "1 row".to_owned(),
            rows => format!("{rows} rows"),
        };
        let headings = self.0.columns().iter().map(|column| plain_text::one_line(&column.heading));
        format!("{rows}: {}", headings.collect::<Vec<_>>().join(", "))
    }
}

impl Shown for TicketObject {
    const TYPE: &'static str = "ticket";

    /// `2 pieces to cut, 48 min, $23.40`
    fn shown(&self, style: &Style) -> String {
        // A cell whose order has no plan has failed already, so this is the summary.
        self.0.summary(style).unwrap_or_else(|error| error.message(style))
    }
}

/// Returns the value at a path of members, such as `cut_list.count`; `None` if there is none.
pub(crate) fn member(value: &Dynamic, path: &str) -> Option<Dynamic> {
    path.split('.').try_fold(value.clone(), |value, name| {
        if let Some(table) = value.read_lock::<TableObject>() {
            return table.member(name).ok();
        }
        if let Some(material) = value.read_lock::<MaterialObject>() {
            return material.member(name).ok();
        }
        value.read_lock::<TicketObject>().and_then(|ticket| ticket.member(name).ok())
    })
}

/// The names of a value's members, as they are typed.
pub(crate) fn members_of(value: &Dynamic) -> Vec<String> {
    let words = |of: &'static str| WORDS.iter().filter(move |word| word.of == of).map(|word| word.name.to_owned());
    if let Some(table) = value.read_lock::<TableObject>() {
        let columns = table.0.columns().iter().map(|column| member_name(&column.heading));
        return columns.chain(words(TableObject::TYPE)).collect();
    }
    if value.read_lock::<MaterialObject>().is_some() {
        return words(MaterialObject::TYPE).collect();
    }
    let Some(ticket) = value.read_lock::<TicketObject>() else { return Vec::new() };
    let ticket = ticket.ticket();
    let figures = ticket.figures.iter().map(|figure| member_name(&figure.name));
    let inputs = ticket.inputs.iter().map(|input| input.name.clone());
    figures.chain(inputs).chain(words(TicketObject::TYPE)).collect()
}

impl TableObject {
    pub(crate) fn new(table: Table) -> Self {
        Self(Rc::new(table))
    }

    pub(crate) fn table(&self) -> &Table {
        &self.0
    }

    fn member(&self, name: &str) -> ScriptResult {
        match self.0.column(name) {
            Ok((at, column)) => Ok(self.list(at, column)),
            Err(_) if name == "rows" => Ok(Dynamic::from_int(crate::quantity::number::from_size(self.0.len()))),
            Err(error) => {
                let hint = match &error {
                    TableError::NoColumn { nearest: Some(near), .. } => {
                        Some(format!("did you mean “{}”?", member_name(near)))
                    }
                    TableError::NoColumn { known, .. } => {
                        let known: Vec<String> = known.iter().map(|heading| member_name(heading)).collect();
                        Some(format!("its columns are {}", known.join(", ")))
                    }
                    error => error.hint(),
                };
                Err(ScriptError::of(&error, &Style::default()).with_hint(hint).into())
            }
        }
    }

    fn list(&self, at: usize, column: &Column) -> Dynamic {
        let cells = self.0.rows().iter().filter_map(|row| row.get(at));
        Dynamic::from_array(cells.map(|cell| cell_to_script(cell, column)).collect::<Array>())
    }
}

/// Converts a heading to its name as a member: `mark from` to `mark_from`, `set-up` to `set_up`.
pub(super) fn member_name(heading: &str) -> String {
    let words = heading.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join("_")
}

/// Converts a cell to a script value: a quantity to the unit of its column, a blank to `()`.
pub(super) fn cell_to_script(cell: &Cell, column: &Column) -> Dynamic {
    match cell {
        Cell::Blank => Dynamic::UNIT,
        Cell::Text(text) => Dynamic::from(text.clone()),
        Cell::Count(count) => Dynamic::from_int(*count),
        Cell::Number(value) => Dynamic::from_float(*value),
        Cell::Flag(flag) => Dynamic::from_bool(*flag),
        Cell::Quantity(quantity) => match &column.kind {
            ColumnKind::Quantity(unit) if !unit.is_as_written() => {
                quantity_to_script(quantity.liking(unit.expression().liked))
            }
            _ => quantity_to_script(*quantity),
        },
    }
}

impl TicketObject {
    pub(crate) fn new(order: WorkshopOrder) -> Self {
        Self(Rc::new(order))
    }

    /// The ticket that the recipe produced.
    pub(crate) fn ticket(&self) -> &Ticket {
        self.0.ticket()
    }

    pub(crate) fn order(&self) -> &WorkshopOrder {
        &self.0
    }

    fn member(&self, name: &str) -> ScriptResult {
        let (order, ticket) = (&*self.0, self.0.ticket());
        let failed = |error: LayError| Box::new(member_error(order, &error));
        if let Some(section) = OrderSection::of_member(name)
            && let Some(table) = section.table(order).map_err(failed)?
        {
            return Ok(Dynamic::from(TableObject(table)));
        }
        let price = |price: Option<crate::quantity::Money>| -> ScriptResult {
            let price = price.ok_or_else(|| {
                ScriptError::new("the ticket has no price: nothing in the order has one")
                    .hinting("give the cloth one, as in: any 45 in at $6/yd")
            })?;
            Ok(quantity_to_script(price.into()))
        };
        let clock = Liked { compound: true, ..Liked::unit(Unit::Hour) };
        match name {
            "price" => price(order.price().map_err(failed)?),
            "price_each" => price(order.price_each().map_err(failed)?),
            "deposit" if order.has_deposit() => price(order.deposit().map_err(failed)?),
            "deposit" => {
                let unsaid = ScriptError::new("the workshop asks for no deposit");
                Err(unsaid.hinting("write what it asks for into settings.csv: deposit,40 %").into())
            }
            "pieces_to_cut" => Ok(Dynamic::from_int(order.piece_count())),
            "total_minutes" => {
                let Some(minutes) = order.total_minutes().map_err(failed)? else {
                    let why = order.unknown_minutes().map_err(failed)?;
                    return Err(ScriptError::new(format!("the minutes are not all known: {why}"))
                        .hinting("type add rate and what it is, such as pack, 8 min each; what is known stands in its minutes")
                        .into());
                };
                Ok(quantity_to_script(minutes.liking(clock).into()))
            }
            "weight" => {
                let weight = order.weight().map_err(|error| ScriptError::of(&error, order.style()))?;
                Ok(quantity_to_script(weight.into()))
            }
            "pieces" => Ok(Dynamic::from_int(ticket.garments)),
            "age" => {
                let unsaid = || ScriptError::new("the order says no age").hinting("add age='5 years' to its run");
                Ok(quantity_to_script(ticket.age.ok_or_else(unsaid)?.into()))
            }
            "used_for" => {
                let unsaid = || ScriptError::new("the order says no use").hinting("add use='dance class' to its run");
                Ok(Dynamic::from(ticket.used_for.ok_or_else(unsaid)?.words().to_owned()))
            }
            "washing" => {
                let unsaid =
                    || ScriptError::new("the order says no washing").hinting("add washing='washed first' to its run");
                Ok(Dynamic::from(ticket.washing.ok_or_else(unsaid)?.words().to_owned()))
            }
            _ => {
                let figure = ticket.figure(name).map(|figure| &figure.value);
                let input = || ticket.input(name).map(|input| &input.value);
                let value = figure.or_else(input).ok_or_else(|| self.unknown(name))?;
                Ok(plain(value).into_script())
            }
        }
    }

    fn unknown(&self, name: &str) -> ScriptError {
        let ticket = self.ticket();
        let figures: Vec<String> = ticket.figures.iter().map(|figure| member_name(&figure.name)).collect();
        let words = WORDS.iter().filter(|word| word.of == Self::TYPE).map(|word| word.name);
        let inputs = ticket.inputs.iter().map(|input| input.name.as_str());
        let near = nearest(name, figures.iter().map(String::as_str).chain(inputs).chain(words));
        let hint = match near {
            Some(near) => Some(format!("did you mean “{near}”?")),
            None if figures.is_empty() => None,
            None => Some(format!(
                "its figures are {}; every order has price, deposit, cost and buy_list too",
                figures.join(", ")
            )),
        };
        ScriptError::new(format!("the ticket of {} has no “{name}”", ticket.recipe)).with_hint(hint)
    }
}

/// Computes the summary of a ticket, so that a cell whose order cannot be planned fails at once. Does nothing
/// for other values.
pub(super) fn check_plan(value: &Dynamic) -> Result<(), Diagnostic> {
    let Some(ticket) = value.read_lock::<TicketObject>() else { return Ok(()) };
    let order = ticket.order();
    order.summary(order.style()).map_err(|error| error.diagnostic(order.style())).map(|_| ())
}

/// The error of a sum that reads a member that cannot be made.
fn member_error(order: &WorkshopOrder, error: &LayError) -> EvalAltResult {
    if error.kind() == DiagnosticKind::Stopped {
        return EvalAltResult::ErrorTerminated(Dynamic::from(Stopped::ByUser), Position::NONE);
    }
    let raised: Box<EvalAltResult> = ScriptError::new(error.message(order.style())).with_hint(error.hint()).into();
    *raised
}

fn plain(value: &TicketValue) -> Value {
    match value {
        TicketValue::Quantity(quantity) => Value::Quantity(*quantity),
        TicketValue::Whole(whole) => Value::Whole(*whole),
        TicketValue::Text(text) => Value::Text(text.clone()),
        TicketValue::Flag(flag) => Value::Flag(*flag),
        TicketValue::List(list) => Value::List(list.iter().map(plain).collect()),
    }
}

#[cfg(test)]
mod tests;
