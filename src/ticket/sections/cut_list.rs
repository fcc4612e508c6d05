//! The cut list: every piece of the order with its cut size, its grain and what is allowed in cutting it.
//!
//! Never here: which stock a piece is cut from.

use crate::piece::{Fold, Room, Shape};
use crate::quantity::{Length, Quantity, System, Tape, number};
use crate::table::{Cell, Table, TableError};
use crate::ticket::job::Job;
use crate::ticket::ticket::TicketPiece;

/// Builds the cut list, one row for each piece; counts are for the whole order.
pub(super) fn cut_list(job: &Job<'_>) -> Result<Table, TableError> {
    let columns = Table::new("cut_list").text("piece").text("material").count("count").text("shape").giving_way();
    let columns = columns.length("along", job.small()).length("across", job.small());
    let mut table = columns.text("grain").text("notes").ready()?;
    for entry in &job.ticket.pieces {
        let TicketPiece { piece, material, once } = entry;
        let material = job.material(*material).map(|(material, _)| material.name.as_str());
        let size = Size::of(entry, job);
        table.push(vec![
            piece.name.as_str().into(),
            material.into(),
            piece.count.saturating_mul(job.times(*once)).into(),
            shape_words(&piece.shape, job).into(),
            size.along.into(),
            size.across.map_or(Cell::Blank, Cell::from),
            piece.grain.word().into(),
            notes(entry, &size, job).join("; ").into(),
        ])?;
    }
    Ok(table)
}

/// The cut size of a piece.
struct Size {
    along: Length,
    /// `None` for the full width of the goods.
    across: Option<Length>,
    /// Whether it is rounded to a mark of the tape.
    rounded: bool,
    /// Whether it is the bounding rectangle of another shape.
    is_bounding_box: bool,
}

impl Size {
    fn of(entry: &TicketPiece, job: &Job<'_>) -> Self {
        let cut = job.ticket.cut_piece(entry, &job.style).shape;
        let rounded = *cut != *entry.piece.shape;
        match *cut {
            Shape::Rectangle { along, across } => Self { along, across: Some(across), rounded, is_bounding_box: false },
            Shape::FullWidth { along } => Self { along, across: None, rounded, is_bounding_box: false },
            Shape::Sector { .. } | Shape::Outline(_) => {
                let Room { along, across } = cut.room();
                Self { along, across: Some(across), rounded: false, is_bounding_box: true }
            }
        }
    }
}

fn shape_words(shape: &Shape, job: &Job<'_>) -> String {
    match shape {
        Shape::Rectangle { .. } => "rectangle".to_owned(),
        Shape::FullWidth { .. } => "full width".to_owned(),
        Shape::Outline(_) => "shaped, see picture".to_owned(),
        Shape::Sector { inner, outer, turn } => {
            let part = [(1.0, "full ring"), (0.75, "three-quarter ring"), (0.5, "half ring"), (0.25, "quarter ring")];
            let named = part.iter().find(|(share, _)| number::is_near(*share, *turn)).map(|(_, name)| *name);
            let named = named.map_or_else(|| format!("{} of a ring", job.format_share(*turn)), str::to_owned);
            if inner.is_positive() {
                format!("{named}, radius {} to {}", job.format_length(*inner), job.format_length(*outer))
            } else {
                format!("{}, radius {}", named.replace("ring", "circle"), job.format_length(*outer))
            }
        }
    }
}

fn notes(entry: &TicketPiece, size: &Size, job: &Job<'_>) -> Vec<String> {
    let piece = &entry.piece;
    let mut notes = Vec::new();
    if size.is_bounding_box {
        notes.push("the size is that of the rectangle round it".to_owned());
    }
    match piece.on_fold {
        Some(Fold::Across) => notes.push("on the fold, the fold across the piece".to_owned()),
        Some(Fold::Along) => notes.push("on the fold, the fold along the piece".to_owned()),
        None => {}
    }
    if piece.mirrored {
        notes.push("in pairs, left and right".to_owned());
    }
    if piece.matching.is_some() {
        notes.push("pattern matched".to_owned());
    }
    if let Some(rule) = piece.may_join {
        notes.push(rule.words(|length| job.format_length(length)));
    }
    if entry.once {
        notes.push("once for the order".to_owned());
    }
    if size.rounded {
        // A piece cut longer goes up whatever the recipe says, so that the wash leaves no less.
        let goes_up = job.ticket.exact_cut(entry).never_smaller;
        notes.push(if goes_up { "rounded up" } else { "to the nearest mark" }.to_owned());
    }
    if is_on_the_other_tape(size.along, job.tape) {
        let across = size.across.map(|across| format!(" by {}", job.format_length(across))).unwrap_or_default();
        notes.push(format!("exactly {}{across}", job.format_length(size.along)));
    }
    notes
}

fn is_on_the_other_tape(length: Length, tape: Tape) -> bool {
    let unit = Quantity::from(length).liked().length;
    unit.is_some_and(|unit| (unit.system() == System::Inch) != (tape == Tape::Inch))
}
