//! Works out how many widths the panels of a ticket take, and so the drops to cut.
//!
//! Never here: where widths stand in a panel, which is [`Panels::layout`]; laying drops on cloth.

use super::lay_error::LayError;
use super::ticket::{Ticket, TicketPiece};
use crate::cutting::{CuttingError, MOST_PIECES};
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
        panels.count = entry.piece.count.saturating_mul(if panels.paired { 2 } else { 1 });
        let widths = panels
            .count
            .max(0)
            .saturating_mul(garments.max(0))
            .saturating_mul(panels.half_widths.saturating_add(1) / 2);
        if widths > MOST_PIECES {
            let (material, input) = (of.material.name.clone(), of.input.clone());
            return Err(LayError::Cutting {
                material,
                input,
                error: CuttingError::TooManyPieces { most: MOST_PIECES },
            });
        }
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
pub(crate) fn figures(ticket: &Ticket, entry: &TicketPiece, style: &Style) -> Option<PanelFigures> {
    let panels = entry.piece.panels.as_ref()?;
    let widths = number::from_whole(panels.half_widths) / 2.0;
    let joins = number::from_whole(panels.count) * (widths.ceil() - 1.0);
    Some(PanelFigures {
        widths,
        drops: entry.piece.count * ticket.times(entry.once),
        join_length: entry.piece.at_marks(ticket.width_of(entry), style).shape.room().along * joins,
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Diagnose;
    use crate::piece::{Piece, Repeat, Shape};
    use crate::quantity::InchStep;
    use crate::ticket::TicketMaterial;
    use crate::workshop::Workshop;

    fn curtains(widths: i64, garments: i64) -> Ticket {
        let materials = "material,kind,usable width\nlinen,cloth,100 cm\n";
        let workshop = Workshop::read(&[("materials.csv", materials)]).unwrap();
        let mut material = workshop.materials.list[0].clone();
        material.repeat = Some(Repeat::straight(Length::centimetres(64.0)));
        let across = Length::centimetres(100.0) * number::from_whole(widths);
        let shape = Shape::FullWidth { along: Length::inches(60.05) };
        let piece = Piece { panels: Some(Panels::new(across)), ..Piece::<crate::piece::Exact>::new("drop", 1, shape) };
        let mut ticket = Ticket::new("curtains", "");
        ticket.garments = garments;
        ticket.materials = vec![TicketMaterial { material, input: Some("face".to_owned()), listed: true }];
        ticket.pieces = vec![TicketPiece { piece, material: 0, once: false }];
        ticket
    }

    /// Fifty widths have 49 joins of 60.05 in: on a tape of sixteenths the nearest mark is 60 1/16 in, on one of eighths 60 in.
    #[test]
    fn joins_are_as_long_as_the_tape_of_the_order_has_them() {
        let mut ticket = curtains(50, 1000);
        count_drops(&mut ticket).unwrap();
        let found = |inch_step| {
            let figures = figures(&ticket, &ticket.pieces[0], &Style { inch_step, ..Style::default() }).unwrap();
            (figures.drops, figures.join_length.in_inches() / 49.0)
        };
        assert_eq!(found(InchStep::Sixteenth), (50_000, 60.0625));
        assert_eq!(found(InchStep::Eighth), (50_000, 60.0));
    }

    /// 20 001 orders of 50 widths are more than a million drops, and so are any more; each is refused before it is listed.
    #[test]
    fn more_widths_than_a_plan_takes_are_refused() {
        for (widths, garments) in [(50, 20_001), (50, i64::MAX), (1_000_001, 1)] {
            let mut ticket = curtains(widths, garments);
            let error = count_drops(&mut ticket).unwrap_err();
            assert_eq!(error.message(&Style::default()), "“linen”: more than 1000000 pieces in one plan");
            assert_eq!(error.input(), Some("face"));
        }
        assert!(count_drops(&mut curtains(50, 20_000)).is_ok());
    }
}
