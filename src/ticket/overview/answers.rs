//! The answers of an order: those given in its head, and those it has without having been asked.
//!
//! Never here: what the recipe makes of them.

use super::OverviewRow;
use crate::quantity::Style;
use crate::ticket::ticket::{AnsweredInput, InputSource, Ticket, TicketValue};
use crate::ticket::workshop_order::WorkshopOrder;

/// What is made, for whom, the measures given, and when it is due: `order 32   Pip   strips on band   waist 14 in`.
pub(super) fn head(order: &WorkshopOrder, name: &str) -> OverviewRow {
    let ticket = order.ticket();
    let mut parts = vec![ticket.mark.called(name)];
    parts.extend(ticket.mark.customer.clone());
    parts.push(ticket.recipe.replace('_', " "));
    if ticket.garments > 1 {
        parts.push(format!("{} alike", ticket.garments));
    }
    let given = ticket.inputs.iter().filter(|input| !matches!(input.source, InputSource::Usual | InputSource::SameAs));
    parts.extend(given.filter(|input| !is_goods(ticket, input)).map(|input| words(input, order.style())));
    parts.extend(ticket.mark.due.as_ref().map(|due| format!("due {due}")));
    parts.retain(|part| !part.is_empty());
    OverviewRow::of("", parts)
}

/// The answers that nobody gave, and the cloths and notions that it does without.
pub(super) fn usual(order: &WorkshopOrder) -> OverviewRow {
    let ticket = order.ticket();
    let unasked = ticket.inputs.iter().filter(|input| matches!(input.source, InputSource::Usual | InputSource::SameAs));
    let mut parts: Vec<String> = unasked.map(|input| words(input, order.style())).collect();
    parts.extend(ticket.without.iter().map(|name| format!("no {}", name.replace('_', " "))));
    OverviewRow::of("USUAL", parts)
}

/// How the trials that it names have gathered: `5.55, then 5: trial tulle overlapped of 2026-02-18`. It gives way, because
/// the head names the trial.
pub(super) fn gathers(order: &WorkshopOrder) -> OverviewRow {
    let job = order.job();
    let trials = order.ticket().inputs.iter().filter_map(|input| match (&input.source, &input.value) {
        (InputSource::Given, TicketValue::Text(name)) => job.workshop.trials.find(name),
        _ => None,
    });
    let words = trials.map(|trial| {
        let ratios: Vec<String> = trial.passes.iter().map(|pass| order.style().show_number(pass.ratio())).collect();
        let mut strips = trial.passes.iter().rev().flat_map(|pass| pass.strips.iter().rev());
        let day = strips.find_map(|strip| strip.date.as_deref());
        let day = day.map_or_else(String::new, |day| format!(" of {day}"));
        format!("{}: trial {}{day}", ratios.join(", then "), trial.name)
    });
    OverviewRow { shorter: vec![Vec::new()], ..OverviewRow::of_sentences("GATHERS", words) }
}

fn words(input: &AnsweredInput, style: &Style) -> String {
    let value = input.value.show(style);
    let name = input.name.replace('_', " ");
    match &input.source {
        InputSource::Size(size) => format!("{name} {value} ({size})"),
        _ => format!("{name} {value}"),
    }
}

/// Whether it is cloth or a notion, which the cuts name already.
fn is_goods(ticket: &Ticket, input: &AnsweredInput) -> bool {
    ticket.materials.iter().any(|material| material.input.as_ref() == Some(&input.name))
}
