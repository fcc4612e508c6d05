//! What a maker must not overlook: what is short or held, what to measure again, and the cautions, each in a line.
//!
//! Never here: when a caution applies, which the cautions know.

use super::OverviewRow;
use crate::cutting::PlanNote;
use crate::report::listed;
use crate::ticket::cautions;
use crate::ticket::lay_error::LayError;
use crate::ticket::lay_notes::About;
use crate::ticket::wash_words::lining_cautions;
use crate::ticket::workshop_order::WorkshopOrder;

/// What is too short on the shelf, then the notes on the plan by their subject.
pub(super) fn about_the_plan(order: &WorkshopOrder) -> Result<Vec<OverviewRow>, LayError> {
    let too_short = order.bill()?.purchases().iter().filter(|purchase| !purchase.too_short.is_empty());
    let too_short =
        too_short.map(|purchase| format!("{}: too short on the shelf: {}", purchase.name, listed(&purchase.too_short)));
    let mut rows = vec![OverviewRow::of_sentences("SHORT", too_short)];
    // Where the pattern starts is told on the sheet, before the first cut.
    let notes = order.notes_besides(&[PlanNote::MarksFromPattern])?;
    for about in About::ALL {
        let texts = notes.iter().filter(|note| note.about == about).map(|note| note.text.as_str());
        rows.push(OverviewRow::of_sentences(about.label(), said_once(texts)));
    }
    Ok(rows)
}

/// Notes that say the same of several pieces as one: `front gore, second gore: laid as …`.
fn said_once<'n>(notes: impl Iterator<Item = &'n str>) -> Vec<String> {
    let mut said: Vec<(Vec<&str>, &str)> = Vec::new();
    for note in notes {
        let (piece, rest) = note.split_once(": ").unwrap_or(("", note));
        match said.iter_mut().find(|(_, known)| *known == rest) {
            Some((pieces, _)) => pieces.push(piece),
            None => said.push((vec![piece], rest)),
        }
    }
    let words = |(pieces, rest): (Vec<&str>, &str)| match pieces.as_slice() {
        [""] => rest.to_owned(),
        pieces => format!("{}: {rest}", listed(pieces)),
    };
    said.into_iter().map(words).collect()
}

/// Measures that look wrong, and an age that would settle cautions.
pub(super) fn to_mind(order: &WorkshopOrder) -> OverviewRow {
    let ticket = order.ticket();
    let again = ticket.warnings.iter().map(|warning| format!("measure again: {warning}"));
    let age = cautions::depend_on_unknown_age(ticket, order.market());
    let age = age.then(|| "no age given: add age='5 years' to settle cautions and labels".to_owned());
    OverviewRow::of_sentences("MIND", again.chain(age))
}

/// The cautions of the order, each danger with its sentences.
pub(super) fn cautions(order: &WorkshopOrder) -> Vec<OverviewRow> {
    let ticket = order.ticket();
    let mut rows: Vec<OverviewRow> = Vec::new();
    for (danger, sentence) in cautions::briefly(ticket, order.market()) {
        let label = danger.label();
        match rows.iter_mut().find(|row| row.label == label) {
            Some(row) => row.lines.push(vec![sentence]),
            None => rows.push(OverviewRow::of_sentences(label, [sentence])),
        }
    }
    rows.push(OverviewRow::of_sentences("LINING", lining_cautions(ticket)));
    rows
}
