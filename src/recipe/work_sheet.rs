//! The sheet that goes to the cutting table with one order: what was asked, what to have ready, what to
//! cut, mark and sew in that order, and the cautions.
//!
//! Never here: reckoning, and how a sheet is drawn.

use crate::quantity::Style;
use crate::report::{Section, SectionBody, Sheet};
use crate::table::{Cell, Table, TableFault};
use crate::ticket::{AnsweredInput, InputSource, OrderTables, Ticket};

/// The work sheet of one order. Its cuts are those of the real plan, the shelf first.
pub fn work_sheet(ticket: &Ticket, tables: &OrderTables, style: &Style) -> Sheet {
    let style = Style { plain: true, ..*style };
    let name = ticket.recipe.replace('_', " ");
    let title = if ticket.garments == 1 { name } else { format!("{name}, {} of them", ticket.garments) };
    let texts = |table: &Table, column: &str| -> Vec<String> {
        let cells = table.values(column).into_iter().flatten();
        cells.filter_map(|cell| if let Cell::Text(text) = cell { Some(text.clone()) } else { None }).collect()
    };
    let ready = have_ready(ticket).into_iter().map(SectionBody::Ticked);
    let ready = ready.map(|body| Section::new("Have ready", body));
    let work = [
        Section::new("Cut", SectionBody::Ticked(tables.cuts.clone())),
        Section::new("About the cuts", SectionBody::Notes(tables.plan_notes.clone())),
        Section::new("Mark", SectionBody::Listed(tables.marks.clone())),
        Section::new("Sew", SectionBody::Steps(texts(&tables.steps, "what to do"))),
        Section::new("Cautions", SectionBody::Cautions(texts(&tables.cautions, "caution"))),
    ];
    let makes = Some(("makes".to_owned(), ticket.makes.clone())).filter(|(_, makes)| !makes.is_empty());
    let asked = ticket.inputs.iter().map(|input| (input.name.replace('_', " "), answer(input, &style)));
    Sheet { title, order: makes.into_iter().chain(asked).collect(), sections: ready.chain(work).collect() }
}

/// An input as it was answered, and whether anybody answered it.
fn answer(input: &AnsweredInput, style: &Style) -> String {
    let value = input.value.show(style);
    match input.source {
        InputSource::Given => value,
        InputSource::Usual => format!("{value} (usual)"),
        InputSource::SameAs => format!("{value} (the same again)"),
    }
}

/// The notions, for the whole order.
fn have_ready(ticket: &Ticket) -> Result<Table, TableFault> {
    let mut table = Table::new("have_ready").text("what").mixed("amount", "unit").text("for").ready()?;
    for need in &ticket.needs {
        let name = ticket.materials.get(need.material).map(|material| material.material.name.as_str());
        let amount = ticket.order_amount(need.amount, need.once);
        table.push(vec![name.into(), amount.into(), need.why.as_str().into()])?;
    }
    Ok(table)
}
