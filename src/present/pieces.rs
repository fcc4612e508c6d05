//! The pieces of a ticket, prepared for drawing: each once, with its letter, its count and its marks.
//!
//! Never here: drawing itself, and the place of pieces on their cloth.

use crate::piece::{Grain, OutlinePoint, Shape};
use crate::plans::Letters;
use crate::quantity::{Length, Style, number};
use crate::report::{DrawnMark, DrawnPiece, DrawnShape, MarkPlace, PictureHead};
use crate::ticket::{InputSource, Mark, Ticket, TicketPiece};

/// The pieces of a ticket to draw, and its marks on what is no piece, in words.
pub(super) struct Drawable {
    pub(super) pieces: Vec<DrawnPiece>,
    pub(super) other_marks: Vec<String>,
}

/// Returns the pieces to draw, in ticket order. A piece without a shape, or of an unknown full width, is left out.
pub(super) fn drawable(ticket: &Ticket, letters: &mut Letters, style: &Style) -> Drawable {
    let pieces = ticket.pieces.iter().filter_map(|entry| drawn(ticket, entry, letters, style)).collect();
    let others = ticket.marks.iter().filter(|mark| !ticket.pieces.iter().any(|entry| mark.is_on(&entry.piece.name)));
    let told = |mark: &Mark| format!("{}, {} {}: {}", mark.piece, mark.name, say(style, mark.distance), mark.from);
    Drawable { pieces, other_marks: others.map(told).collect() }
}

/// Returns what is told above the pictures of an order: its name if it has one, what it makes, and its answers.
pub(super) fn picture_head(ticket: &Ticket, order: Option<&str>, date: Option<&str>, style: &Style) -> PictureHead {
    let recipe = ticket.recipe.replace('_', " ");
    let many = if ticket.garments == 1 { String::new() } else { format!(", {} of them", ticket.garments) };
    let title = match order {
        _ if !ticket.mark.is_empty() => format!("{}: {recipe}{many}", ticket.mark.head("order")),
        Some(order) => format!("order {order}: {recipe}{many}"),
        None => format!("{recipe}{many}"),
    };
    let given = ticket.inputs.iter().filter(|input| input.source == InputSource::Given);
    let answers: Vec<String> =
        given.map(|input| format!("{} {}", input.name.replace('_', " "), input.value.show_in_step(style))).collect();
    PictureHead { title, answers: answers.join(", "), date: date.map(str::to_owned) }
}

fn drawn(ticket: &Ticket, entry: &TicketPiece, letters: &mut Letters, style: &Style) -> Option<DrawnPiece> {
    let piece = &entry.piece;
    let cut = ticket.cut_piece(entry, style);
    let material = ticket.materials.get(entry.material);
    let (shape, size) = match &*cut.shape {
        Shape::Rectangle { along, across } => {
            let size = format!("{} along, {} across", say(style, *along), say(style, *across));
            (DrawnShape::Rectangle { along: *along, across: *across }, size)
        }
        Shape::FullWidth { along } => {
            let (along, width) = (*along, ticket.cut_width_of(entry)?);
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
            // The size of the edge itself, as its dimension lines have it, and not that of the room it lies in.
            let shape = DrawnShape::Corners(points.clone());
            let (along, across, _) = extent(&shape);
            let size = format!("{} along, {} across at most", say(style, along), say(style, across));
            (shape, size)
        }
    };
    let count = number::from_whole(piece.count) * number::from_whole(ticket.times(entry.once));
    let mut notes = vec![
        format!("cut {}{}", style.show_number(count), if piece.mirrored { ", in pairs, left and right" } else { "" }),
        size,
    ];
    if let Some(material) = material {
        notes.push(material.material.name.clone());
    }
    if piece.grain == Grain::Bias {
        notes.push("on the bias".to_owned());
    }
    if piece.on_fold.is_some() {
        notes.push("drawn open; the line with long and short dashes may lie on a fold".to_owned());
    }
    let napped = material.is_some_and(|material| material.material.nap);
    if napped {
        notes.push("napped: all heads of the grain arrows lie one way".to_owned());
    }
    let marks = ticket.marks_as_cut();
    let on_it: Vec<&Mark> = marks.iter().filter(|mark| mark.is_on(&piece.name)).collect();
    let marks = on_it.iter().map(|mark| DrawnMark {
        name: mark.name.clone(),
        distance: mark.distance,
        from: mark.from.clone(),
        place: mark_place(mark, &on_it, &shape),
    });
    Some(DrawnPiece {
        letters: letters.of_piece(&cut),
        name: piece.name.clone(),
        notes,
        marks: marks.collect(),
        shape,
        grain: piece.grain,
        one_way: napped || piece.one_way,
        fold: piece.on_fold,
    })
}

/// Lines at such distances.
type Lines = fn(Vec<Length>) -> MarkPlace;

/// Where a mark is drawn, by the words for where it is measured from. What these words do not settle is only told.
fn mark_place(mark: &Mark, all: &[&Mark], shape: &DrawnShape) -> MarkPlace {
    let far = mark.distance;
    let from = mark.from.as_str();
    if mark.piece.contains(',') {
        return MarkPlace::Told;
    }
    if let DrawnShape::Sector { inner, .. } = shape {
        return match from {
            "inner edge" => MarkPlace::Ring(*inner + far),
            "waist edge, straight down" => MarkPlace::Slit(far),
            _ => MarkPlace::Told,
        };
    }
    let (along, across, top) = extent(shape);
    match from {
        "lower edge" => return MarkPlace::Levels(vec![far]),
        "upper edge" => return MarkPlace::Levels(vec![along - far]),
        "upper edge, down the middle" => return MarkPlace::Levels(vec![top - far]),
        "each side of the head's middle, flat" => return MarkPlace::HeadNotches(far),
        _ => {}
    }
    if matches!(shape, DrawnShape::Corners(_)) {
        return MarkPlace::Told;
    }
    let is_upright = along >= across;
    let (long, short) = if is_upright { (along, across) } else { (across, along) };
    let both = |size: Length| if is_same(far * 2.0, size) { vec![far] } else { vec![far, size - far] };
    // Lines along the piece's long sides, and lines from one long side to the other.
    let (lengthwise, crosswise): (Lines, Lines) =
        if is_upright { (MarkPlace::Columns, MarkPlace::Levels) } else { (MarkPlace::Levels, MarkPlace::Columns) };
    match from {
        "either long edge" | "either raw edge" => lengthwise(vec![far]),
        "both raw edges" | "each raw edge" => lengthwise(both(short)),
        "one end" | "either end" => crosswise(vec![far]),
        "each end" => crosswise(both(long)),
        "either raw top" | "each raw top" => MarkPlace::Levels(both(along)),
        "mark to mark, from the underlap" => {
            let start = all.iter().find(|other| other.name == "underlap" && other.from == "one end");
            start.map_or(MarkPlace::Told, |start| MarkPlace::Notches(steps(start.distance, far, long)))
        }
        _ => MarkPlace::Told,
    }
}

/// The most notches drawn on one edge.
const MOST_NOTCHES: usize = 24;

/// Places from a start on, a step apart, as long as they are inside a length.
fn steps(start: Length, step: Length, length: Length) -> Vec<Length> {
    if !step.is_positive() {
        return Vec::new();
    }
    let places = (0..MOST_NOTCHES).map(|count| start + step * number::from_count(count));
    places.take_while(|place| *place < length).collect()
}

/// Along, across, and how far up the upper edge is in the middle.
fn extent(shape: &DrawnShape) -> (Length, Length, Length) {
    match shape {
        DrawnShape::Rectangle { along, across } => (*along, *across, *along),
        DrawnShape::FullWidth { along, width } => (*along, *width, *along),
        DrawnShape::Sector { outer, .. } => (*outer, *outer, *outer),
        DrawnShape::Corners(points) => {
            let reach = |pick: fn(&OutlinePoint) -> Length| {
                ends(points, pick).map_or(Length::ZERO, |(least, most)| most - least)
            };
            let along = reach(|point| point.along);
            (along, reach(|point| point.across), top_in_the_middle(points).unwrap_or(along))
        }
    }
}

/// The least and the most of the corners' places.
fn ends(points: &[OutlinePoint], pick: fn(&OutlinePoint) -> Length) -> Option<(Length, Length)> {
    let least = points.iter().map(pick).reduce(Length::least)?;
    Some((least, points.iter().map(pick).reduce(Length::most)?))
}

/// How far above its lowest point an outline reaches in the middle of its width.
fn top_in_the_middle(points: &[OutlinePoint]) -> Option<Length> {
    let (left, right) = ends(points, |point| point.across)?;
    let (foot, _) = ends(points, |point| point.along)?;
    let middle = (left + right) * 0.5;
    let next = points.iter().cycle().skip(1);
    let heights = points.iter().zip(next).filter(|(from, to)| (from.across < middle) != (to.across < middle));
    let heights = heights.map(|(from, to)| {
        let share = (middle - from.across).steps() / (to.across - from.across).steps();
        from.along + (to.along - from.along) * share - foot
    });
    heights.reduce(Length::most)
}

fn is_same(left: Length, right: Length) -> bool {
    (left - right).steps().abs() < Length::centimetres(0.01).steps()
}

fn part_of_a_circle(turn: f64, style: &Style) -> String {
    let known = [(1.0, "a full circle"), (0.75, "three quarters of a circle"), (0.5, "half a circle")];
    let known = known.into_iter().chain([(0.25, "a quarter of a circle")]);
    let named = known.into_iter().find(|(part, _)| number::is_near(turn, *part));
    named.map_or_else(|| format!("{} of a circle", style.show_number(turn)), |(_, words)| words.to_owned())
}

/// A length on the picture's one tape. The head of the picture says that all measures are rounded.
fn say(style: &Style, length: Length) -> String {
    format!("{} {}", style.show_bare(length.into()), style.tape.unit().symbol())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    fn mark(piece: &str, name: &str, distance: f64, from: &str) -> Mark {
        Mark { piece: piece.to_owned(), name: name.to_owned(), distance: inches(distance), from: from.to_owned() }
    }

    /// By pencil: a band of 24 by 3 in, its underlap 1 1/2 in from one end and quarters of 5 in from there.
    #[test]
    fn marks_of_a_band_are_where_its_words_say() {
        let band = DrawnShape::Rectangle { along: inches(24.0), across: inches(3.0) };
        let marks = [
            mark("band", "fold line", 1.5, "either long edge"),
            mark("band", "underlap", 1.5, "one end"),
            mark("band", "quarter marks", 5.0, "mark to mark, from the underlap"),
            mark("band", "seam", 0.5, "both raw edges"),
            mark("band", "turning", 1.0, "each end"),
            mark("band", "quarter marks", 5.0, "mark to mark"),
        ];
        let all: Vec<&Mark> = marks.iter().collect();
        let found: Vec<MarkPlace> = marks.iter().map(|mark| mark_place(mark, &all, &band)).collect();
        let places = |places: &[f64]| places.iter().map(|place| inches(*place)).collect::<Vec<Length>>();
        let wanted = [
            MarkPlace::Columns(places(&[1.5])),
            MarkPlace::Levels(places(&[1.5])),
            MarkPlace::Notches(places(&[1.5, 6.5, 11.5, 16.5, 21.5])),
            MarkPlace::Columns(places(&[0.5, 2.5])),
            MarkPlace::Levels(places(&[1.0, 23.0])),
            MarkPlace::Told,
        ];
        assert_eq!(found, wanted);
    }

    /// By pencil: a front gore 30 in high at its corners and 29 1/2 in in the middle has its hip line, 7 in below the
    /// middle, 22 1/2 in up.
    #[test]
    fn a_mark_down_the_middle_starts_at_the_middle_of_the_upper_edge() {
        let corner = |across, along| OutlinePoint { across: inches(across), along: inches(along) };
        let points = [(0.0, 0.0), (18.0, 0.0), (12.0, 30.0), (9.0, 29.5), (6.0, 30.0)];
        let gore = DrawnShape::Corners(points.map(|(across, along)| corner(across, along)).to_vec());
        let hip = mark("gore", "hip line", 7.0, "upper edge, down the middle");
        assert_eq!(mark_place(&hip, &[&hip], &gore), MarkPlace::Levels(vec![inches(22.5)]));
    }

    #[test]
    fn a_mark_is_on_the_pieces_whose_name_ends_in_its_own() {
        let hip = mark("gore", "hip line", 7.0, "upper edge");
        assert!(hip.is_on("gore") && hip.is_on("front gore") && !hip.is_on("gorebag") && !hip.is_on("agore"));
        assert!(mark("sleeve, lower edge", "quarters", 5.0, "mark to mark").is_on("sleeve"));
    }
}
