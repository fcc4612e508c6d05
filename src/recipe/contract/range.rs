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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Tape, Unit};

    fn of(least: (f64, Unit), most: (f64, Unit)) -> Range {
        Range { least: Quantity::of(least.0, least.1), most: Quantity::of(most.0, most.1) }
    }

    #[test]
    fn the_ends_are_within() {
        let range = of((10.0, Unit::Inch), (20.0, Unit::Inch));
        for (value, held) in [(9.9, false), (10.0, true), (15.0, true), (20.0, true), (20.1, false)] {
            assert_eq!(range.holds(Quantity::of(value, Unit::Inch)), held, "{value}");
        }
        assert!(!range.holds(Quantity::of(15.0, Unit::Minute)));
    }

    #[test]
    fn the_middle_is_a_whole_one_where_there_is_one() {
        let inches = |least, most| of((least, Unit::Inch), (most, Unit::Inch)).middle();
        assert_eq!(inches(10.0, 21.0), Quantity::of(15.0, Unit::Inch));
        assert_eq!(inches(10.2, 10.8), Quantity::of(10.8, Unit::Inch));
        assert_eq!(inches(10.0, 10.8), Quantity::of(10.0, Unit::Inch));
        let numbers = Range { least: Quantity::number(1.0), most: Quantity::number(4.0) };
        assert_eq!(numbers.middle(), Quantity::number(2.0));
    }

    #[test]
    fn a_range_on_the_other_tape_is_told_on_the_workshops_too() {
        let style = Style { tape: Tape::Inch, ..Style::default() };
        let (cm, inch) = (Unit::Centimetre, Unit::Inch);
        assert_eq!(of((10.0, inch), (20.0, inch)).show(&style), "10 in to 20 in");
        assert_eq!(of((25.4, cm), (254.0, cm)).show(&style), "25.4 cm to 254 cm (10 in to 100 in)");
        assert_eq!(of((10.0, inch), (254.0, cm)).show(&style), "10 in to 254 cm (10 in to 100 in)");
        assert_eq!(of((25.4, cm), (100.0, inch)).show(&style), "25.4 cm to 100 in (10 in to 100 in)");
        assert_eq!(of((5.0, Unit::Minute), (9.0, Unit::Minute)).show(&style), "5 min to 9 min");
        let metric = Style { tape: Tape::Metric, ..Style::default() };
        assert_eq!(of((25.4, cm), (254.0, cm)).show(&metric), "25.4 cm to 254 cm");
    }
}
