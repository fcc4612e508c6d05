//! An order in its workshop: the common source of all its tables.
//!
//! Never here: any particular table.

use super::ticket::{Need, Ticket};
use super::washing::FirstWash;
use crate::piece::Shape;
use crate::plans::PlanWords;
use crate::quantity::{Length, Liked, Money, Quantity, Style, System, Tape, Unit, number, rounding};
use crate::workshop::{Material, PriceFor, SoldBy, Workshop};

/// An order, its workshop, and the styles its amounts are shown in.
pub(super) struct Job<'a> {
    pub(super) ticket: &'a Ticket,
    pub(super) workshop: &'a Workshop,
    /// For amounts inside a sentence: "about" instead of a sign.
    pub(super) sentence_style: Style,
    /// For amounts in steps, and for the tape marks that cut sizes are rounded to.
    pub(super) style: Style,
    /// The tape of every column of lengths.
    pub(super) tape: Tape,
}

impl<'a> Job<'a> {
    pub(super) fn new(ticket: &'a Ticket, workshop: &'a Workshop, style: &Style) -> Self {
        let tape = tape_of(ticket, workshop.settings.tape);
        Self { ticket, workshop, sentence_style: Style { plain: true, ..*style }, style: *style, tape }
    }

    /// Returns how the order's plans are reported.
    pub(super) fn plan_words(&self) -> PlanWords {
        PlanWords { words: Style { tape: self.tape, ..self.sentence_style }, tape: self.tape }
    }

    /// Returns the style of lengths in steps: on the tape of the order.
    pub(super) fn step_style(&self) -> Style {
        Style { tape: self.tape, ..self.style }
    }

    /// Returns the unit of columns of cut sizes and marks.
    pub(super) fn small(&self) -> &'static str {
        match self.tape {
            Tape::Inch => "in",
            Tape::Metric => "cm",
        }
    }

    /// Returns the unit of columns of seams, thread and lengths of goods.
    pub(super) fn large(&self) -> &'static str {
        match self.tape {
            Tape::Inch => "yd",
            Tape::Metric => "m",
        }
    }

    /// Returns the same as a unit.
    pub(super) fn large_unit(&self) -> Unit {
        match self.tape {
            Tape::Inch => Unit::Yard,
            Tape::Metric => Unit::Metre,
        }
    }

    /// Returns a length up to the next whole yard or metre; another amount as it is.
    pub(super) fn in_whole_units(&self, length: Quantity) -> Quantity {
        let unit = self.large_unit();
        let exact = length.liking(Liked::unit(unit));
        rounding::bought(exact, Quantity::of(1.0, unit)).unwrap_or(length)
    }

    /// Returns how often an entry counts in the order, at least 0.
    pub(super) fn times(&self, once: bool) -> i64 {
        self.ticket.times(once).max(0)
    }

    /// Returns the number of pieces in the order, at most `i64::MAX`.
    pub(super) fn piece_count(&self) -> i64 {
        let counts = self.ticket.pieces.iter().map(|entry| entry.piece.count.saturating_mul(self.times(entry.once)));
        counts.fold(0, i64::saturating_add)
    }

    /// Returns a length for the whole order.
    pub(super) fn length(&self, per_garment: Length, once: bool) -> Length {
        per_garment * number::from_whole(self.times(once))
    }

    /// Returns an amount for the whole order; a count is first rounded up to a whole number in each garment.
    pub(super) fn amount(&self, per_garment: Quantity, once: bool) -> Quantity {
        let counted = per_garment.to_number().ok().and_then(rounding::counted).map(number::from_whole);
        let steps = counted.unwrap_or(per_garment.steps()) * number::from_whole(self.times(once));
        Quantity::from_steps(steps, per_garment.dimension()).liking(per_garment.liked())
    }

    /// Returns a material of the ticket, and whether the workshop lists it. A plain notion that the recipe names itself
    /// is the workshop's notion of that name, if there is one.
    pub(super) fn material(&self, index: usize) -> Option<(&'a Material, bool)> {
        let entry = self.ticket.materials.get(index)?;
        if entry.listed || entry.input.is_some() {
            return Some((&entry.material, entry.listed));
        }
        let named = self.workshop.materials.find(&entry.material.name);
        let named = named.filter(|named| !named.kind.is_cut());
        Some(named.map_or((&entry.material, false), |named| (named, true)))
    }

    /// Returns the amount of each piece of a need, before the first wash if the order allows for that.
    pub(super) fn amount_needed(&self, need: &Need, material: &Material) -> Quantity {
        FirstWash::of(material, self.ticket.washing).needed(need.amount)
    }

    /// Formats a length for a sentence.
    pub(super) fn format_length(&self, length: Length) -> String {
        self.sentence_style.show(length.into())
    }

    /// Formats a share for a sentence: 0.05 as `5 %`.
    pub(super) fn format_share(&self, share: f64) -> String {
        format!("{} %", self.sentence_style.show_number(share * 100.0))
    }

    /// Formats an amount of money for a sentence.
    pub(super) fn format_money(&self, money: Money) -> String {
        self.sentence_style.show(money.into())
    }
}

/// Returns the workshop's tape, or the other one if all lengths that are cut or marked are on that. A seam may be as long
/// as the goods of the list are wide, and nothing is nothing on either tape: neither tells.
pub(crate) fn tape_of(ticket: &Ticket, usual: Tape) -> Tape {
    let shapes = ticket.pieces.iter().flat_map(|entry| match &*entry.piece.shape {
        Shape::Rectangle { along, across } => vec![*along, *across],
        Shape::FullWidth { along } => vec![*along],
        Shape::Sector { inner, outer, .. } => vec![*inner, *outer],
        Shape::Outline(points) => points.iter().flat_map(|point| [point.across, point.along]).collect(),
    });
    let marks = ticket.marks.iter().map(|mark| mark.distance);
    let cut = shapes.chain(marks).filter(|length| length.steps() > 0.0);
    let systems = cut.filter_map(|length| {
        let unit = Quantity::from(length).liked().length?;
        Some(if unit.system() == System::Inch { Tape::Inch } else { Tape::Metric })
    });
    let mut systems = systems.peekable();
    if systems.peek().is_some() && systems.all(|tape| tape != usual) { usual.other() } else { usual }
}

/// Returns the unit in which lengths of a material are bought and shown.
pub(super) fn preferred_unit(material: &Material) -> Liked {
    let priced = match material.price_for {
        PriceFor::Length(length) => Some(length),
        PriceFor::Each | PriceFor::PutUp => None,
    };
    let sold = match material.sold_by {
        SoldBy::Step(step) => Some(step),
        SoldBy::Each | SoldBy::PutUp => None,
    };
    let lengths = [priced, material.put_up, sold, material.usable_width];
    let liked = lengths.into_iter().flatten().map(|length| Quantity::from(length).liked());
    liked.into_iter().find(|liked| liked.length.is_some()).unwrap_or_default()
}

/// Rounds to the cent, for a price line or a total.
pub(super) fn to_the_cent(money: Money) -> Money {
    rounding::to_the_cent(money.into()).ok().and_then(|cents| Money::try_from(cents).ok()).unwrap_or(money)
}
