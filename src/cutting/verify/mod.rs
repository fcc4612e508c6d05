//! The verifier: checks that a plan can be cut and that its figures are right.
//!
//! It shares only the data types with the planner: it has its own conversion, its own geometry and its own idea of what
//! is offered, and it judges any plan, however it was made.
//!
//! Never here: making or repairing a plan.

mod demand;
mod error;
mod fold;
mod lots;
mod lying;
mod overlap;
mod pins;
mod place;
mod polygon;
mod shape;
mod shaped;
mod straight;
mod total;

pub(crate) use error::PlanError;
#[cfg(test)]
pub(crate) use error::{JoinedWrong, LayersWrong};

use super::plan::CuttingPlan;
use crate::cutting::task::manner::{CutsRun, CuttingTask, Laid};
use crate::piece::Repeat;
use crate::quantity::{Length, number};
use std::collections::BTreeSet;

/// Checks a plan against everything it was made from.
///
/// - Nothing overlaps or leaves its length. Straight pieces are checked to the nanometre, with the loss at each cut;
///   shaped ones, and rectangles on the bias, by their true outlines: pieces may touch, lie in each other's hollows,
///   and in the hole of a ring. Touching is always accepted; an overlap of ten micrometres is refused.
/// - Sizes, grain, nap, head and pattern are right; [`Lie`](crate::piece::Lie) defines where each point of a piece is.
/// - Every piece is there once and no other, mirrored pieces make pairs, and joined parts obey their rule.
/// - Cloth is folded if the manner asks for it. A cut through both layers has its mirror image at the mirrored place. A
///   piece cut on the fold may be cut there, has equal halves, and its middle on the fold. Nothing else lies across the
///   fold. A full width is cut through both layers, on the fold.
/// - If cuts must be straight, each length comes apart by cuts across the whole width, then along within a row, then
///   across within a column, a piece trimmed at the sides of its column; on folded cloth both layers at once.
/// - Marks keep clear of the squared ends, and of one repeat before the first start on a length with a matched piece.
/// - Pinned cuts stay where they still can, unless the plan has the note [`PinDropped`].
/// - The pieces of one garment, if it is known how many make one, come from one lot, unless the plan has the note
///   [`LotsMixed`]. All new lengths count as one lot, and all of unknown lot as another.
/// - No garment comes from washed and unwashed goods.
/// - No length is used twice; leftovers, offcuts, purchases, the cost and all totals match the cuts. Offcuts keep clear
///   of the bounding rectangles of shaped pieces.
///
/// # Errors
/// Everything that is wrong, up to a hundred errors.
///
/// [`PinDropped`]: super::plan::PlanNote::PinDropped
/// [`LotsMixed`]: super::plan::PlanNote::LotsMixed
pub fn check(plan: &CuttingPlan, task: &CuttingTask<'_>) -> Result<(), Vec<PlanError>> {
    let mut errors = Errors::default();
    let Some(rules) = Rules::of(task) else {
        let what = "the goods, or the end that is squared off,";
        return Err(vec![PlanError::Unreadable { what: what.to_owned() }]);
    };
    for piece in task.pieces.iter().filter(|piece| !shaped::is_valid_outline(&piece.shape)) {
        errors.add(PlanError::NoShape { piece: piece.name.clone() });
    }
    let mut outlines = shaped::Outlines::of(task.pieces);
    let mut lengths = BTreeSet::new();
    for used in &plan.uses {
        if !lengths.insert(used.source) {
            errors.add(PlanError::StockExceeded { stock: used.stock.clone() });
        }
        place::check(used, task, rules, &mut outlines, &mut errors);
    }
    demand::check(plan, task.pieces, rules, &mut errors);
    pins::check(plan, task, rules, &mut errors);
    lots::check(plan, task, &mut errors);
    lots::check_washing(plan, task, &mut errors);
    total::check(plan, task, &mut errors);
    if errors.found.is_empty() { Ok(()) } else { Err(errors.found) }
}

/// The errors found so far.
#[derive(Debug, Default)]
struct Errors {
    found: Vec<PlanError>,
}

impl Errors {
    const MOST: usize = 100;

    fn add(&mut self, error: PlanError) {
        if self.found.len() < Self::MOST {
            self.found.push(error);
        }
    }
}

/// What the goods and the manner require of every cut.
#[derive(Clone, Copy, Debug)]
struct Rules {
    width: Within,
    loss: i64,
    repeat: Option<Repeat>,
    /// Length cut off each end.
    squaring: Within,
    folded: bool,
    straight: bool,
}

impl Rules {
    fn of(task: &CuttingTask<'_>) -> Option<Self> {
        let (goods, manner) = (task.goods, task.manner);
        let is_sound = |repeat: &Repeat| repeat.along.steps() >= 1.0 && repeat.shift.steps() >= 0.0;
        let repeat = match goods.repeat {
            Some(repeat) => Some(Some(repeat).filter(is_sound)?),
            None => None,
        };
        let loss = Within::of(goods.loss_per_cut.steps())?.least;
        Some(Self {
            width: Within::of(goods.width.steps())?,
            loss,
            repeat,
            squaring: Within::of(manner.squaring.steps()).filter(|squaring| squaring.least >= 0)?,
            folded: manner.laid == Laid::Folded && !goods.kind.takes_full_width(),
            straight: manner.cuts == CutsRun::Straight,
        })
    }
}

impl Rules {
    /// What of a length lies before its first mark: one repeat if a piece on it is matched.
    fn lead(&self, is_matched: bool) -> Option<Within> {
        Within::of(self.repeat.filter(|_| is_matched).map_or(0.0, |repeat| repeat.along.steps()))
    }

    /// What a length loses at its ends and before the pattern starts.
    fn lost(&self, lead: Within) -> Within {
        let sum = |squaring: i64, lead: i64| 2 * squaring + lead;
        Within { least: sum(self.squaring.least, lead.least), most: sum(self.squaring.most, lead.most) }
    }
}

/// The whole nanometres that a given length may be rounded to: itself, or its two neighbours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Within {
    least: i64,
    most: i64,
}

impl Within {
    /// A thousandth of a nanometre is float noise.
    const NOISE: f64 = 1e-3;

    fn of(steps: f64) -> Option<Self> {
        let least = number::nearest_whole((steps + Self::NOISE).floor())?;
        let most = number::nearest_whole((steps - Self::NOISE).ceil())?;
        Some(Self { least, most })
    }

    fn holds(self, whole: i64) -> bool {
        (self.least..=self.most).contains(&whole)
    }
}

/// The whole nanometres of a length in a plan; `None` if it is not whole.
fn exact(length: Length) -> Option<i64> {
    let whole = number::nearest_whole(length.steps())?;
    number::from_whole(whole).total_cmp(&(length.steps() + 0.0)).is_eq().then_some(whole)
}

/// The whole nanometres of a length that is known to be whole; 0 if it is not.
fn exact_or_zero(length: Length) -> i64 {
    exact(length).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_whole_length_stands_for_itself_and_another_for_its_neighbours() {
        assert_eq!(Within::of(350_000_000.0), Some(Within { least: 350_000_000, most: 350_000_000 }));
        assert_eq!(Within::of(349_999_999.999_9), Some(Within { least: 350_000_000, most: 350_000_000 }));
        assert_eq!(Within::of(666_666_666.67), Some(Within { least: 666_666_666, most: 666_666_667 }));
        assert_eq!(Within::of(f64::NAN), None);
    }

    #[test]
    fn a_plan_holds_whole_lengths_only() {
        assert_eq!(exact(Length::inches(0.125)), Some(3_175_000));
        assert_eq!(exact(Length::from_steps(0.5)), None);
        assert_eq!(exact(Length::from_steps(-0.0)), Some(0));
    }
}
