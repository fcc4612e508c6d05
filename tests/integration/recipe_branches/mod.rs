//! Branches of the shipped recipes that their ledgers do not take: orders at a limit and just beside it, what is refused
//! and with which words, and the words for one of a thing or for several. Every figure is worked by hand beside its order.
//!
//! An order comes with lines of what must come out: `piece NAME: COUNT of ALONG by ACROSS` (without `by` over the full
//! width), `figure NAME: AMOUNT`, `seam WHY: LENGTH`, `work OPERATION: AMOUNT`, `need WHY: COUNT of AMOUNT`,
//! `mark PIECE, NAME: DISTANCE from PLACE`, `step: WORDS`, `caution: KEY`, each of them with `no` before it where
//! there must be none, `lies NAME: GRAIN`, `runs: ` where it is enough that the order is not turned away, and
//! `refused INPUT: WORDS`.

mod curtains;
mod household;
mod skirts;
mod sleeves;
mod strips;
mod trims;

use crate::common::is_tested;
use crate::worked::read;
use shirr::engine::limits::StopFlag;
use shirr::piece::Shape;
use shirr::quantity::{Length, Quantity};
use shirr::recipe::run::answer_in;
use shirr::recipe::{Reply, Task, library};
use shirr::report::excerpt;
use shirr::ticket::{Ticket, TicketValue};
use shirr::workshop::Workshop;

/// A recipe's orders: the answers, and the lines of what must come out.
type Cases<'c> = &'c [(&'c str, &'c str)];

/// Whether two amounts differ by less than a tenth of a micrometre, or by less than any count shows.
fn agrees(found: Quantity, wanted: &str) -> bool {
    let wanted = read(wanted);
    let slack = if wanted.to_number().is_ok() { 1e-6 } else { 100.0 };
    found.dimension() == wanted.dimension() && (found.steps() - wanted.steps()).abs() <= slack
}

fn length_agrees(found: Length, wanted: &str) -> bool {
    agrees(found.into(), wanted)
}

/// The sum of amounts of one kind; `None` of none.
fn sum(amounts: impl Iterator<Item = Quantity>) -> Option<Quantity> {
    amounts.reduce(|one, other| Quantity::from_steps(one.steps() + other.steps(), one.dimension()))
}

fn piece_agrees(ticket: &Ticket, name: &str, wanted: &str) -> bool {
    let (count, size) = wanted.split_once(" of ").unwrap_or((wanted, ""));
    ticket.pieces.iter().any(|entry| {
        let sized = match (&*entry.piece.shape, size.split_once(" by ")) {
            _ if size.is_empty() => true,
            (Shape::Rectangle { along, across }, Some((long, wide))) => {
                length_agrees(*along, long) && length_agrees(*across, wide)
            }
            (Shape::FullWidth { along }, None) => length_agrees(*along, size),
            _ => false,
        };
        entry.piece.name == name && entry.piece.count.to_string() == count && sized
    })
}

fn need_agrees(ticket: &Ticket, why: &str, wanted: &str) -> bool {
    ticket.needs.iter().any(|need| {
        let is_so = match wanted.split_once(" of ") {
            Some((count, each)) => need.count.to_string() == count && agrees(need.amount, each),
            None => need.count == 1 && agrees(need.amount, wanted),
        };
        need.why == why && is_so
    })
}

fn figure_agrees(ticket: &Ticket, name: &str, wanted: &str) -> bool {
    ticket.figure(name).is_some_and(|figure| match (&figure.value, figure.value.quantity()) {
        (TicketValue::Text(text), _) => text == wanted,
        (_, Some(quantity)) => agrees(quantity, wanted),
        _ => false,
    })
}

/// Whether a line of what must come out holds of a ticket.
fn holds(ticket: &Ticket, line: &str) -> bool {
    // What a seam is for may have a colon of its own, and so may the words of a step.
    let parts = if line.contains("step: ") { line.split_once(": ") } else { line.rsplit_once(": ") };
    let (head, wanted) = parts.unwrap_or((line.trim_end_matches(':'), ""));
    let (kind, name) = head.split_once(' ').unwrap_or((head, ""));
    let steps = || ticket.steps.iter().filter_map(|step| step.words());
    match kind {
        "runs" => true,
        "no" => {
            let (kind, name) = name.split_once(' ').unwrap_or((name, ""));
            match kind {
                "step" => steps().all(|step| !step.contains(wanted)),
                "caution" => ticket.cautions.iter().all(|key| key != wanted),
                "piece" => ticket.pieces.iter().all(|entry| entry.piece.name != name),
                "figure" => ticket.figure(name).is_none(),
                "seam" => ticket.sewing.iter().all(|seam| seam.why != name),
                "work" => ticket.work.iter().all(|work| work.operation != name),
                "mark" => ticket.marks.iter().all(|mark| format!("{}, {}", mark.piece, mark.name) != name),
                _ => panic!("{line}"),
            }
        }
        "piece" => piece_agrees(ticket, name, wanted),
        "lies" => ticket
            .pieces
            .iter()
            .any(|entry| entry.piece.name == name && format!("{:?}", entry.piece.grain).to_lowercase() == wanted),
        "figure" => figure_agrees(ticket, name, wanted),
        "seam" => {
            let seams = ticket.sewing.iter().filter(|seam| seam.why == name);
            sum(seams.map(|seam| seam.length.into())).is_some_and(|found| agrees(found, wanted))
        }
        "work" => {
            let work = ticket.work.iter().filter(|work| work.operation == name);
            sum(work.map(|work| work.amount)).is_some_and(|found| agrees(found, wanted))
        }
        "need" => need_agrees(ticket, name, wanted),
        "mark" => {
            let (distance, from) = wanted.split_once(" from ").unwrap();
            ticket.marks.iter().any(|mark| {
                let is_it = format!("{}, {}", mark.piece, mark.name) == name && mark.from == from;
                is_it && length_agrees(mark.distance, distance)
            })
        }
        "step" => steps().any(|step| step.contains(wanted)),
        "caution" => ticket.cautions.iter().any(|key| key == wanted),
        _ => panic!("{line}"),
    }
}

/// What comes out of an order other than it must.
fn slips(recipe: &str, order: &str, wanted: &str) -> Vec<String> {
    let given = order.split("; ").map(|pair| pair.split_once('=').unwrap());
    let text = library::shipped(recipe).unwrap();
    let lines = wanted.lines().map(str::trim).filter(|line| !line.is_empty());
    match answer_in(&text, &Workshop::default(), false, &Task::run(given), StopFlag::default()) {
        Reply::Ran(ticket) => {
            let slips = lines.filter(|line| line.starts_with("refused ") || !holds(&ticket, line));
            slips.map(|line| format!("{recipe} {order}\n  not so: {line}")).collect()
        }
        Reply::Refused(refusals) => {
            let shown = excerpt::texts(&refusals);
            let is_told = |line: &str| {
                line.strip_prefix("refused ").and_then(|rest| rest.split_once(": ")).is_some_and(|(input, words)| {
                    refusals.iter().any(|refusal| refusal.input() == Some(input)) && shown.contains(words)
                })
            };
            lines
                .filter(|line| !is_told(line))
                .map(|line| format!("{recipe} {order}\n  not so: {line}\n{shown}"))
                .collect()
        }
        other => panic!("{recipe} {order}: {other:?}"),
    }
}

/// Holds the orders of a recipe to what must come out, where that recipe is tested. `usual` stands before every order.
#[track_caller]
fn hold(recipe: &str, usual: &str, cases: Cases<'_>) {
    if !is_tested(recipe) {
        return;
    }
    let orders = cases.iter().map(|(order, wanted)| {
        // What an order says itself goes before what is usual.
        let said: Vec<&str> = order.split("; ").filter(|pair| !pair.is_empty()).collect();
        let is_said = |pair: &&str| said.iter().any(|own| own.split('=').next() == pair.split('=').next());
        let usual: Vec<&str> = usual.split("; ").filter(|pair| !is_said(pair)).collect();
        ([usual, said.clone()].concat().join("; "), *wanted)
    });
    let slips: Vec<String> = orders.flat_map(|(order, wanted)| slips(recipe, &order, wanted)).collect();
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}
