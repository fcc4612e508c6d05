//! The cut list: every piece of the order, with its cut size, its grain and what is allowed with it.
//!
//! Never here: where a piece comes from.

use super::job::Job;
use super::lay::{cut_rectangle, cut_size};
use super::room::room_round;
use super::ticket::{Piece, PieceGrain, Shape};
use crate::quantity::{Length, Quantity, System, Tape, number};
use crate::table::{Cell, Table, TableError};

/// One row for each piece; counts are for the whole order.
pub(super) fn cut_list(job: &Job<'_>) -> Result<Table, TableError> {
    let columns = Table::new("cut_list").text("piece").text("material").count("count").text("shape");
    let columns = columns.length("along", job.small()).length("across", job.small());
    let mut table = columns.text("grain").text("notes").ready()?;
    for piece in &job.ticket.pieces {
        let material = job.material(piece.material).map(|(material, _)| material.name.as_str());
        let size = Size::of(piece, job);
        table.push(vec![
            piece.name.as_str().into(),
            material.into(),
            piece.count.saturating_mul(job.times(piece.once)).into(),
            shape_words(&piece.shape, job).into(),
            size.along.into(),
            size.across.map_or(Cell::Blank, Cell::from),
            piece.grain.word().into(),
            notes(piece, &size, job).join("; ").into(),
        ])?;
    }
    Ok(table)
}

/// All pieces of the order; the largest count there is where they are more.
pub(super) fn piece_count(job: &Job<'_>) -> i64 {
    let counts = job.ticket.pieces.iter().map(|piece| piece.count.saturating_mul(job.times(piece.once)));
    counts.fold(0, i64::saturating_add)
}

/// The size a piece is cut at.
struct Size {
    along: Length,
    /// None for the full width of the goods.
    across: Option<Length>,
    /// It was taken to a mark of the tape.
    rounded: bool,
    /// It is the rectangle round the shape.
    round: bool,
}

impl Size {
    fn of(piece: &Piece, job: &Job<'_>) -> Self {
        let marked = |asked: Length| cut_size(asked, piece.never_smaller, &job.style);
        match &piece.shape {
            Shape::Rectangle { along, across } => {
                let (cut_along, cut_across) = cut_rectangle(job.ticket, piece, *along, *across, &job.style);
                let rounded = cut_along != *along || cut_across != *across;
                Self { along: cut_along, across: Some(cut_across), rounded, round: false }
            }
            Shape::FullWidth { along } => {
                Self { along: marked(*along), across: None, rounded: marked(*along) != *along, round: false }
            }
            shape => {
                let (along, across) = room_round(shape, &job.style);
                Self { along, across: Some(across), rounded: false, round: true }
            }
        }
    }
}

fn shape_words(shape: &Shape, job: &Job<'_>) -> String {
    match shape {
        Shape::Rectangle { .. } => "rectangle".to_owned(),
        Shape::FullWidth { .. } => "full width".to_owned(),
        Shape::Outline(points) => format!("outline of {} points", points.len()),
        Shape::Sector { inner, outer, turn } => {
            let part = [(1.0, "full ring"), (0.75, "three-quarter ring"), (0.5, "half ring"), (0.25, "quarter ring")];
            let named = part.iter().find(|(share, _)| number::is_near(*share, *turn)).map(|(_, name)| *name);
            let named = named.map_or_else(|| format!("{} of a ring", job.say_share(*turn)), str::to_owned);
            if inner.is_positive() {
                format!("{named}, radius {} to {}", job.say(*inner), job.say(*outer))
            } else {
                format!("{}, radius {}", named.replace("ring", "circle"), job.say(*outer))
            }
        }
    }
}

fn notes(piece: &Piece, size: &Size, job: &Job<'_>) -> Vec<String> {
    let mut notes = Vec::new();
    if size.round {
        notes.push("the size is that of the rectangle round it".to_owned());
    }
    match piece.on_fold {
        Some(PieceGrain::Across) => notes.push("on the fold, the fold across the piece".to_owned()),
        Some(_) => notes.push("on the fold, the fold along the piece".to_owned()),
        None => {}
    }
    if piece.mirrored {
        notes.push("half of them mirrored".to_owned());
    }
    if piece.matched {
        notes.push("pattern matched".to_owned());
    }
    if let Some(rule) = piece.may_join {
        notes.push(format!(
            "may be joined ({}, no part under {}, {} at each side of a join)",
            if rule.most == 1 { "one join".to_owned() } else { format!("at most {} joins", rule.most) },
            job.say(rule.shortest),
            job.say(rule.allowance)
        ));
    }
    if piece.never_smaller {
        notes.push("never smaller".to_owned());
    }
    if piece.once {
        notes.push("once for the order".to_owned());
    }
    if size.rounded {
        notes.push(format!(
            "{} mark of the tape",
            if piece.never_smaller { "up to the next" } else { "at the nearest" }
        ));
    }
    if is_on_the_other_tape(size.along, job.tape) {
        let across = size.across.map(|across| format!(" by {}", job.say(across))).unwrap_or_default();
        notes.push(format!("on its own tape {}{across}", job.say(size.along)));
    }
    notes
}

fn is_on_the_other_tape(length: Length, tape: Tape) -> bool {
    let unit = Quantity::from(length).liked().length;
    unit.is_some_and(|unit| (unit.system() == System::Inch) != (tape == Tape::Inch))
}
