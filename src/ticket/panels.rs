//! Works out how many widths the panels of a ticket take, and so the drops to cut.
//!
//! Never here: where widths stand in a panel, which is [`Panels::layout`]; laying drops on cloth.

use super::lay_error::LayError;
use super::ticket::{Ticket, TicketPiece};
use crate::piece::{Matching, Middle, PanelLayout, Panels};
use crate::quantity::{Length, Style, number};
use crate::textile::TextileError;
use crate::textile::panels::{Widths, gained_by_width, widths_for};

/// Gives every piece that is the widths of panels its number of drops, and on a pattern the start of each.
///
/// # Errors
/// A cloth of unknown width, joins that leave nothing of it.
pub(crate) fn count_drops(ticket: &mut Ticket) -> Result<(), LayError> {
    let (garments, washing) = (ticket.garments, ticket.washing);
    for entry in &mut ticket.pieces {
        let Some(of) = ticket.materials.get(entry.material) else { continue };
        let Some(mut panels) = entry.piece.panels.clone() else { continue };
        // A recipe reckons in sizes after the wash.
        let wash = of.first_wash(washing);
        let width = of.material.usable_width.map(|width| wash.sewn_across(width));
        let width =
            width.ok_or_else(|| LayError::NoWidth { material: of.material.name.clone(), input: of.input.clone() })?;
        let repeat_across = wash.sewn_across(of.material.repeat_across.unwrap_or(Length::ZERO));
        set_widths(&mut panels, width, repeat_across).map_err(|error| LayError::Panels {
            piece: entry.piece.name.clone(),
            input: of.input.clone(),
            error,
        })?;
        panels.count = entry.piece.count * if panels.paired { 2 } else { 1 };
        let runs_on = entry.piece.matching == Some(Matching::RunOn);
        panels.middle = if runs_on { Middle::RunsOn } else { Middle::Level };
        let repeat = of.material.repeat.filter(|_| entry.piece.matching.is_some());
        let layout = panels.layout(garments, repeat);
        entry.once |= layout.per_garment.is_none();
        entry.piece.count = layout.count();
        entry.piece.matching = entry.piece.matching.as_ref().map(|_| layout.matching());
        entry.piece.panels = Some(panels);
    }
    Ok(())
}

/// Sets how many widths of this size one panel takes, and what each adds.
fn set_widths(panels: &mut Panels, width: Length, repeat_across: Length) -> Result<(), TextileError> {
    let joins = if panels.halves { Widths::Half } else { Widths::Whole };
    let widths = widths_for(panels.across, width, panels.allowance, joins, repeat_across)?;
    panels.half_widths = number::nearest_whole(widths * 2.0).unwrap_or(0);
    panels.gained = gained_by_width(width, panels.allowance, repeat_across)?;
    Ok(())
}

/// What a recipe asks of the panels that a piece makes.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PanelFigures {
    /// Widths in one panel.
    pub(crate) widths: f64,
    /// Drops to cut for the whole order.
    pub(crate) drops: i64,
    /// Length of all joins in one garment.
    pub(crate) join_length: Length,
    /// What is trimmed off the width of one panel.
    pub(crate) trimmed: Length,
}

/// Returns the figures of the panels that a piece makes; `None` if it makes none.
pub(crate) fn figures(ticket: &Ticket, entry: &TicketPiece) -> Option<PanelFigures> {
    let panels = entry.piece.panels.as_ref()?;
    let widths = number::from_whole(panels.half_widths) / 2.0;
    let joins = number::from_whole(panels.count) * (widths.ceil() - 1.0);
    Some(PanelFigures {
        widths,
        drops: entry.piece.count * ticket.times(entry.once),
        join_length: entry.piece.at_marks(ticket.width_of(entry), &Style::default()).shape.room().along * joins,
        trimmed: panels.reach(ticket.width_of(entry)?) - panels.across,
    })
}

/// Returns the widths of all panels that a piece makes for so many garments; `None` if it makes none.
pub(crate) fn layout(ticket: &Ticket, entry: &TicketPiece, garments: i64) -> Option<PanelLayout> {
    let material = &ticket.materials.get(entry.material)?.material;
    let garments = if entry.once { ticket.garments } else { garments };
    let repeat = material.repeat.filter(|_| entry.piece.matching.is_some());
    Some(entry.piece.panels.as_ref()?.layout(garments, repeat))
}
