//! The pieces of a ticket, prepared for drawing: each once, with its count.
//!
//! Never here: drawing itself, and the place of pieces on their cloth.

use crate::piece::{Grain, OutlinePoint, Room, Shape};
use crate::quantity::{Length, Style, number};
use crate::report::{DrawnPiece, DrawnShape};
use crate::ticket::{Ticket, TicketPiece};

/// Returns the pieces to draw, in ticket order. A piece without a shape, or of an unknown full width, is left out.
pub(super) fn drawn_pieces(ticket: &Ticket, style: &Style) -> Vec<DrawnPiece> {
    ticket.pieces.iter().filter_map(|entry| drawn(ticket, entry, style)).collect()
}

fn drawn(ticket: &Ticket, entry: &TicketPiece, style: &Style) -> Option<DrawnPiece> {
    let piece = &entry.piece;
    let cut = piece.at_marks(ticket.width_of(entry), style);
    let material = ticket.materials.get(entry.material);
    let (shape, size) = match &*cut.shape {
        Shape::Rectangle { along, across } => {
            let (along, across) = (*along, *across);
            let corner = |across, along| OutlinePoint { along, across };
            let zero = Length::ZERO;
            let corners = [corner(zero, zero), corner(across, zero), corner(across, along), corner(zero, along)];
            (
                DrawnShape::Corners(corners.to_vec()),
                format!("{} along, {} across", say(style, along), say(style, across)),
            )
        }
        Shape::FullWidth { along } => {
            let (along, width) = (*along, material?.material.usable_width?);
            (DrawnShape::FullWidth { along, width }, format!("{} along, the full width", say(style, along)))
        }
        Shape::Sector { inner, outer, turn } => {
            let radii = if inner.is_positive() {
                format!("radii {} and {}", say(style, *inner), say(style, *outer))
            } else {
                format!("radius {}", say(style, *outer))
            };
            let shape = DrawnShape::Sector { inner: *inner, outer: *outer, turn: *turn };
            (shape, format!("{radii}, {}", part_of_a_circle(*turn, style)))
        }
        Shape::Outline(points) if points.is_empty() => return None,
        Shape::Outline(points) => {
            let Room { along, across } = cut.shape.room();
            let size = format!("{} along, {} across at most", say(style, along), say(style, across));
            (DrawnShape::Corners(points.clone()), size)
        }
    };
    let count = number::from_whole(piece.count) * number::from_whole(ticket.times(entry.once));
    let mut notes = vec![
        format!("cut {}{}", style.show_number(count), if piece.mirrored { ", half of them mirrored" } else { "" }),
        size,
    ];
    if let Some(material) = material {
        notes.push(material.material.name.clone());
    }
    if piece.grain == Grain::Bias {
        notes.push("on the bias".to_owned());
    }
    if piece.on_fold.is_some() {
        notes.push("drawn open; the dashed line may lie on a fold".to_owned());
    }
    Some(DrawnPiece { name: piece.name.clone(), notes, shape, grain: piece.grain, fold: piece.on_fold })
}

fn part_of_a_circle(turn: f64, style: &Style) -> String {
    let known = [(1.0, "a full circle"), (0.75, "three quarters of a circle"), (0.5, "half a circle")];
    let known = known.into_iter().chain([(0.25, "a quarter of a circle")]);
    let named = known.into_iter().find(|(part, _)| number::is_near(turn, *part));
    named.map_or_else(|| format!("{} of a circle", style.show_number(turn)), |(_, words)| words.to_owned())
}

fn say(style: &Style, length: Length) -> String {
    style.show(length.into())
}
