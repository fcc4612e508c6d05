//! The first wash of an order's goods: the sizes before and after it, as far as the order allows for it.
//!
//! A recipe reckons in the sizes of the finished thing. Washed first, the goods are laid at their washed size and bought
//! before washing; cut longer, they are laid as they come, and each piece is larger by what the wash takes. Both take
//! the same cloth. Never here: planning, prices, what the maker is told of it.

use super::ticket::{Mark, Ticket, TicketMaterial, TicketPiece};
use crate::piece::{CutPiece, Edge, Exact, Grain, MatchLine, OutlinePoint, Panels, Piece, Shape};
use crate::quantity::{Length, Quantity, Style};
use crate::textile::washing::Loss;
use crate::workshop::{Material, Washing};

/// How goods meet their first wash.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FirstWash {
    washing: Washing,
    loss: Loss,
}

impl FirstWash {
    /// Of a material, in an order that says this about all its goods.
    pub(crate) fn of(material: &Material, said: Option<Washing>) -> Self {
        let share = |share: Option<f64>| share.unwrap_or(0.0);
        // The list of materials holds no share that a loss cannot have.
        let loss = Loss::new(share(material.shrink_along), share(material.shrink_across)).unwrap_or(Loss::NONE);
        Self { washing: material.washing_in(said), loss }
    }

    /// Returns how the goods are cut; always as they come if they lose nothing.
    pub(crate) fn washing(self) -> Washing {
        self.washing
    }

    /// Returns what the first wash takes, whether the order allows for it or not.
    pub(crate) fn loss(self) -> Loss {
        self.loss
    }

    /// Returns what the wash takes of the finished thing: nothing if the order allows for it.
    pub(crate) fn still_to_come(self) -> Loss {
        if self.washing == Washing::AsItComes { self.loss } else { Loss::NONE }
    }

    /// The loss that recipes reckon with: their sizes are those after it.
    pub(crate) fn sewn(self) -> Loss {
        if self.washing == Washing::AsItComes { Loss::NONE } else { self.loss }
    }

    /// The loss of the goods before they are laid.
    pub(crate) fn before_laying(self) -> Loss {
        if self.washing == Washing::WashedFirst { self.loss } else { Loss::NONE }
    }

    /// The loss of the pieces after they are cut.
    pub(crate) fn after_cutting(self) -> Loss {
        if self.washing == Washing::CutLonger { self.loss } else { Loss::NONE }
    }

    /// Returns a length of the goods in the sizes of a recipe, such as a repeat.
    pub(crate) fn sewn_along(self, length: Length) -> Length {
        self.sewn().after_along(length)
    }

    /// Returns a width of the goods in the sizes of a recipe.
    pub(crate) fn sewn_across(self, width: Length) -> Length {
        self.sewn().after_across(width)
    }

    /// Returns the length of goods that an amount of a need takes: longer by what the wash takes of a length.
    pub(crate) fn needed(self, amount: Quantity) -> Quantity {
        match Length::try_from(amount) {
            Ok(length) => self.sewn().before_along(length).into(),
            Err(_) => amount,
        }
    }

    /// Returns how many times the area of a recipe's pieces they have before the wash.
    pub(crate) fn area_before(self) -> f64 {
        self.sewn().area_before()
    }
}

impl TicketMaterial {
    /// Returns how it meets its first wash in an order that says this about all its goods.
    pub(crate) fn first_wash(&self, said: Option<Washing>) -> FirstWash {
        FirstWash::of(&self.material, said)
    }
}

impl Ticket {
    /// Returns how the goods of a piece meet their first wash.
    pub(crate) fn first_wash_of(&self, piece: &TicketPiece) -> Option<FirstWash> {
        self.materials.get(piece.material).map(|material| material.first_wash(self.washing))
    }

    /// Returns the piece as it is cut, at marks of the tape: larger than the recipe has it if the wash comes after
    /// cutting.
    pub(crate) fn cut_piece(&self, entry: &TicketPiece, style: &Style) -> CutPiece {
        let after = self.first_wash_of(entry).map_or(Loss::NONE, FirstWash::after_cutting);
        let width = if after.is_none() { self.width_of(entry) } else { self.cut_width_of(entry) };
        self.exact_cut(entry).at_marks(width, style)
    }

    /// Returns the piece as it is cut, with exact sizes.
    pub(crate) fn exact_cut(&self, entry: &TicketPiece) -> Piece<Exact> {
        let after = self.first_wash_of(entry).map_or(Loss::NONE, FirstWash::after_cutting);
        if after.is_none() { entry.piece.clone() } else { longer(&entry.piece, after) }
    }

    /// Returns the marks as they are made on the pieces as cut. Where the wash comes after cutting they lie further apart,
    /// as the edges do, and a hem takes up all that its piece is longer.
    pub(crate) fn marks_as_cut(&self) -> Vec<Mark> {
        let as_cut = |mark: &Mark| {
            let entry = self.pieces.iter().find(|entry| mark.is_on(&entry.piece.name))?;
            let after = self.first_wash_of(entry).map(FirstWash::after_cutting).filter(|loss| !loss.is_none())?;
            let distance = if mark.is_hem() {
                mark.distance + self.longer_by(entry)
            } else {
                further_apart(mark, &entry.piece, after)
            };
            Some(Mark { distance, ..mark.clone() })
        };
        self.marks.iter().map(|mark| as_cut(mark).unwrap_or_else(|| mark.clone())).collect()
    }

    /// Returns the hems that take up what their pieces of a material are cut longer, each as the recipe has it and as it
    /// is turned up.
    pub(crate) fn longer_hems(&self, material: usize) -> Vec<(&Mark, Length)> {
        let hem = |mark: &'_ Mark| {
            let mut pieces = self.pieces.iter().filter(|entry| entry.material == material);
            let longer = self.longer_by(pieces.find(|entry| mark.is_on(&entry.piece.name))?);
            longer.is_positive().then_some(mark.distance + longer)
        };
        let hems = self.marks.iter().filter(|mark| mark.is_hem());
        hems.filter_map(|mark| Some((mark, hem(mark)?))).collect()
    }

    /// How much longer a piece is cut than the recipe has it.
    fn longer_by(&self, entry: &TicketPiece) -> Length {
        self.exact_cut(entry).shape.rectangle_round().along - entry.piece.shape.rectangle_round().along
    }

    /// Returns the usable width at which the material of a piece is laid, if known.
    pub(crate) fn cut_width_of(&self, entry: &TicketPiece) -> Option<Length> {
        let material = self.materials.get(entry.material)?;
        let before = material.first_wash(self.washing).before_laying();
        Some(before.after_across(material.material.usable_width?))
    }
}

/// Returns what a material is known to lose in the first wash: `4 % of its length and 2 % of its width`.
pub(crate) fn loses_words(material: &Material, style: &Style) -> String {
    let words = |share: Option<f64>, of: &str| {
        let share = share.filter(|share| *share > 0.0)?;
        Some(format!("{} % of its {of}", style.show_number(share * 100.0)))
    };
    let losses = [words(material.shrink_along, "length"), words(material.shrink_across, "width")];
    losses.into_iter().flatten().collect::<Vec<_>>().join(" and ")
}

/// Returns a piece that has at least its sizes left after the wash; up to a mark, never down.
fn longer(piece: &Piece<Exact>, loss: Loss) -> Piece<Exact> {
    let least = loss.along().min(loss.across());
    let in_its_frame = in_frame_of(piece.grain, loss);
    let (along, across) = (|size| in_its_frame.before_along(size), |size| in_its_frame.before_across(size));
    let shape = match &*piece.shape {
        Shape::Rectangle { along: long, across: wide } => {
            Shape::Rectangle { along: along(*long), across: across(*wide) }
        }
        Shape::FullWidth { along: long } => Shape::FullWidth { along: loss.before_along(*long) },
        // A ring washes to an oval unless both losses are alike; the ring wanted lies within it.
        Shape::Sector { inner, outer, turn } => Shape::Sector {
            inner: alike(least, loss).before_along(*inner),
            outer: alike(most_of(loss), loss).before_along(*outer),
            turn: *turn,
        },
        Shape::Outline(points) => {
            let moved = |point: &OutlinePoint| OutlinePoint { along: along(point.along), across: across(point.across) };
            Shape::Outline(points.iter().map(moved).collect())
        }
    };
    let panels = piece.panels.as_ref().map(|panels| Panels {
        across: loss.before_across(panels.across),
        allowance: loss.before_across(panels.allowance),
        gained: loss.before_across(panels.gained),
        ..panels.clone()
    });
    // The line lies above the hem, which takes up all the extra length.
    let extra = shape.rectangle_round().along - piece.shape.rectangle_round().along;
    let line = piece.line.map(|line| match line.edge {
        Edge::Lower => MatchLine { distance: line.distance + extra, ..line },
        Edge::Upper => MatchLine { distance: loss.before_along(line.distance), ..line },
    });
    Piece { shape: shape.into(), never_smaller: true, panels, line, ..piece.clone() }
}

/// The loss along and across a piece. Only with a known grain is it known which side of it lies along the goods.
fn in_frame_of(grain: Grain, loss: Loss) -> Loss {
    match grain {
        Grain::Along => loss,
        Grain::Across => Loss::new(loss.across(), loss.along()).unwrap_or(loss),
        Grain::Bias | Grain::Any => alike(most_of(loss), loss),
    }
}

fn most_of(loss: Loss) -> f64 {
    loss.along().max(loss.across())
}

/// The same share along and across.
fn alike(share: f64, loss: Loss) -> Loss {
    Loss::new(share, share).unwrap_or(loss)
}

/// The distance of a mark before the wash: of one from the lower or the upper edge along the piece, of one from a long
/// edge across its longer side, of one from an end along that. Where the words do not tell, as it is.
fn further_apart(mark: &Mark, piece: &Piece<Exact>, loss: Loss) -> Length {
    let (from, distance) = (mark.from.as_str(), mark.distance);
    if let Shape::Sector { .. } = *piece.shape {
        return alike(most_of(loss), loss).before_along(distance);
    }
    let loss = in_frame_of(piece.grain, loss);
    let room = piece.shape.rectangle_round();
    let is_upright = room.along >= room.across;
    let runs_along = if ["lower edge", "upper edge", "raw top"].iter().any(|edge| from.contains(edge)) {
        true
    } else if ["long edge", "raw edge"].iter().any(|edge| from.contains(edge)) {
        !is_upright
    } else if ["one end", "either end", "each end", "mark to mark"].iter().any(|end| from.starts_with(end)) {
        is_upright
    } else {
        return distance;
    };
    if runs_along { loss.before_along(distance) } else { loss.before_across(distance) }
}
