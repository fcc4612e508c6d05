//! The ends that an answer lies between.

use crate::quantity::{Dimension, Liked, Quantity, Style};
use serde::{Deserialize, Serialize};

/// The least and the most an answer may be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Range {
    /// The least.
    pub least: Quantity,
    /// The most.
    pub most: Quantity,
}

impl Range {
    /// Whether a quantity of the same dimension lies within, the ends included.
    pub fn holds(&self, quantity: Quantity) -> bool {
        let within = |order: Result<std::cmp::Ordering, _>, beyond: std::cmp::Ordering| {
            order.is_ok_and(|order: std::cmp::Ordering| order != beyond)
        };
        within(quantity.compared(self.least), std::cmp::Ordering::Less)
            && within(quantity.compared(self.most), std::cmp::Ordering::Greater)
    }

    /// About the middle, on a whole unit where one lies within: something a person might type.
    pub fn middle(&self) -> Quantity {
        let middle = f64::midpoint(self.least.steps(), self.most.steps());
        let unit = self.least.liked().length.map_or(1.0, crate::quantity::Unit::steps);
        let whole = Quantity::from_steps((middle / unit).floor() * unit, self.least.dimension());
        let whole = whole.liking(self.least.liked());
        if self.holds(whole) { whole } else { self.most }
    }

    /// `30 cm to 600 cm`, and in brackets the same on the workshop's tape where that is the other one.
    pub fn show(&self, style: &Style) -> String {
        let own = format!("{} to {}", style.show(self.least), style.show(self.most));
        match (on_the_tape(self.least, style), on_the_tape(self.most, style)) {
            (None, None) => own,
            (least, most) => {
                let (least, most) = (least.unwrap_or(self.least), most.unwrap_or(self.most));
                format!("{own} ({} to {})", style.show(least), style.show(most))
            }
        }
    }
}

/// A length that likes the other tape, liking the workshop's.
pub(super) fn on_the_tape(quantity: Quantity, style: &Style) -> Option<Quantity> {
    let unit = quantity.liked().length.filter(|_| quantity.dimension() == Dimension::LENGTH)?;
    let tape = style.tape.unit();
    (unit.system() != tape.system()).then(|| quantity.liking(Liked::unit(tape)))
}
