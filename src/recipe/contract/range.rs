//! The range of an answer.

use crate::quantity::{Dimension, Liked, Quantity, Style};
use serde::{Deserialize, Serialize};

/// The least and the most an answer may be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Range {
    /// The least answer allowed.
    pub least: Quantity,
    /// The greatest answer allowed.
    pub most: Quantity,
}

impl Range {
    /// Returns whether a quantity of the same dimension is within the range, ends included.
    pub fn holds(&self, quantity: Quantity) -> bool {
        let within = |order: Result<std::cmp::Ordering, _>, beyond: std::cmp::Ordering| {
            order.is_ok_and(|order: std::cmp::Ordering| order != beyond)
        };
        within(quantity.compared(self.least), std::cmp::Ordering::Less)
            && within(quantity.compared(self.most), std::cmp::Ordering::Greater)
    }

    /// Returns the middle rounded down to a whole unit if that is within the range, else the most: a value to type as
    /// an example.
    pub fn middle(&self) -> Quantity {
        let middle = f64::midpoint(self.least.steps(), self.most.steps());
        let unit = self.least.liked().length.map_or(1.0, crate::quantity::Unit::steps);
        let whole = Quantity::from_steps((middle / unit).floor() * unit, self.least.dimension());
        let whole = whole.liking(self.least.liked());
        if self.holds(whole) { whole } else { self.most }
    }

    /// Formats the range, `30 cm to 600 cm`, followed in brackets by the same on the workshop's tape if that is the
    /// other one.
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

/// Returns a length of the other tape in the unit of the workshop's tape; `None` for any other quantity.
pub(super) fn on_the_tape(quantity: Quantity, style: &Style) -> Option<Quantity> {
    let unit = quantity.liked().length.filter(|_| quantity.dimension() == Dimension::LENGTH)?;
    let tape = style.tape.unit();
    (unit.system() != tape.system()).then(|| quantity.liking(Liked::unit(tape)))
}
