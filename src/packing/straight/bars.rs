//! The bound of the bar relaxation: every line across a strip meets pieces that fit side by side.
//!
//! So if every shape has a value for each unit of its length, and no choice of shapes that fits side by side has a
//! value above `K`, the strip is at least as long as the value of all pieces divided by `K`. The best values are the
//! prices of a linear program over such choices, generated as they are needed (Gilmore and Gomory 1961; the
//! relaxation is Scheithauer's; from memory). Rounded to whole numbers they are checked by a whole-number knapsack
//! that errs to the safe side only, so the bound is proven whatever the program answered.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use crate::front::{Front, FrontItem, Thinning};
use crate::number;
use crate::simplex::{Basis, Columns, Upkeep};

/// What a price of the program is counted in.
const UNIT: i64 = 1 << 30;
/// The most widths for which the program is tried.
const MOST_WIDTHS: usize = 150;
/// The most rows of the program.
const MOST_ROWS: usize = 2 * MOST_WIDTHS;
/// How many choices of a knapsack are looked at in a step.
const LOOKS_A_STEP: usize = 160;
/// Cost of leaving a demand unmet; no demand has such a high value.
const DETERRING: f64 = 10.0;

/// An item in one of its orientations.
#[derive(Clone, Copy, Debug)]
pub(super) struct BarShape {
    pub(super) item: usize,
    pub(super) across: i64,
    pub(super) along: i64,
}

/// The input of the relaxation.
#[derive(Clone, Copy, Debug)]
pub(super) struct BarProblem<'a> {
    /// Sorted by rising width.
    pub(super) shapes: &'a [BarShape],
    /// Count of each item; every item with a count has one shape or two.
    pub(super) counts: &'a [i64],
    /// Width of each stretch, the endless one last.
    pub(super) widths: &'a [i64],
}

/// What the relaxation proved, and what it took.
#[derive(Clone, Debug, Default)]
pub(super) struct BarBound {
    pub(super) bound: i64,
    /// Length for which each choice of widths is used in the best solution of the relaxation.
    pub(super) lasting: Vec<i64>,
    pub(super) steps: u64,
}

/// The best bound within `allowed` steps. `proven(values, caps)` returns the bound that a value for each shape
/// proves, where `caps` holds the most that these values come to across each stretch.
pub(super) fn bound(problem: BarProblem<'_>, allowed: u64, proven: impl Fn(&[i64], &[i64]) -> i64) -> BarBound {
    let Some(mut program) = Program::new(problem) else { return BarBound::default() };
    let mut left = allowed;
    let mut best = 0;
    for _ in 0..program.widths.len() * 20 + 50 {
        let (bound, is_over) = program.turn(&proven);
        best = best.max(bound);
        let rows = program.columns.rows;
        let looked = std::mem::take(&mut program.front.looked) + rows * rows;
        let Some(rest) = left.checked_sub(u64::try_from(looked / LOOKS_A_STEP + 1).unwrap_or(u64::MAX)) else { break };
        left = rest;
        if is_over {
            break;
        }
    }
    // Apart from choices, only columns that leave a demand unmet cost anything.
    let is_choice = |column: usize| column >= program.columns.own() && program.columns.cost[column] > 0.0;
    let levels = program.basis.basic.iter().zip(&program.basis.level).filter(|(column, _)| is_choice(**column));
    let lasting = levels.filter_map(|(_, level)| number::nearest_whole(level * program.total));
    BarBound { bound: best, lasting: lasting.filter(|&length| length > 0).collect(), steps: allowed - left }
}

/// The linear program: a row for each width, then a row for each item with two orientations, which divides the item
/// between them.
struct Program<'a> {
    problem: BarProblem<'a>,
    /// The widths of shapes, and how many pieces have each.
    widths: Vec<(i64, i64)>,
    /// Index into `widths` for each shape.
    width_of: Vec<usize>,
    /// The items with two orientations, with their shapes.
    turning: Vec<(usize, [usize; 2])>,
    /// All lengths of pieces together; lengths in the program are shares of it.
    total: f64,
    columns: Columns,
    basis: Basis,
    front: Front,
}

impl<'a> Program<'a> {
    fn new(problem: BarProblem<'a>) -> Option<Self> {
        let BarProblem { shapes, counts, .. } = problem;
        let mut widths: Vec<(i64, i64)> = shapes.iter().map(|shape| (shape.across, 0)).collect();
        widths.dedup();
        if widths.is_empty() || widths.len() > MOST_WIDTHS {
            return None;
        }
        let place = |shape: &BarShape| widths.partition_point(|&(across, _)| across < shape.across);
        let width_of: Vec<usize> = shapes.iter().map(place).collect();
        let length = |shape: &BarShape| number::from_whole(shape.along) * number::from_whole(counts[shape.item]);
        let total: f64 = shapes.iter().map(length).sum();
        let mut shapes_of: Vec<Vec<usize>> = vec![Vec::new(); counts.len()];
        for (at, shape) in shapes.iter().enumerate() {
            shapes_of[shape.item].push(at);
        }
        let mut rhs = vec![0.0; widths.len()];
        let mut turning = Vec::new();
        for (item, &count) in counts.iter().enumerate().filter(|(_, count)| **count > 0) {
            for &shape in &shapes_of[item] {
                widths[width_of[shape]].1 += count;
            }
            match shapes_of[item][..] {
                [] => {}
                [shape] => rhs[width_of[shape]] += length(&shapes[shape]) / total,
                [first, second, ..] => {
                    turning.push((item, [first, second]));
                    rhs.push(1.0);
                }
            }
        }
        if rhs.len() > MOST_ROWS {
            return None;
        }
        let columns = Columns::new(rhs.len(), 0, DETERRING);
        let basis = Basis::new(&columns, rhs, Upkeep::Computed);
        let front = Front::new(3000, Thinning::Promising);
        Some(Self { problem, widths, width_of, turning, total, columns, basis, front })
    }

    /// Returns the bound that the prices prove, and whether the program is solved; enters a column that the prices
    /// call for.
    fn turn(&mut self, proven: impl Fn(&[i64], &[i64]) -> i64) -> (i64, bool) {
        let prices = self.basis.price.clone();
        let whole = |price: f64| number::nearest_whole(price.max(0.0) * number::from_whole(UNIT)).unwrap_or_default();
        let values: Vec<i64> = prices[..self.widths.len()].iter().map(|&price| whole(price)).collect();
        let mut caps = Vec::with_capacity(self.problem.widths.len());
        for &width in self.problem.widths {
            self.front.clear(width);
            for (name, (&(size, most), &value)) in self.widths.iter().zip(&values).enumerate() {
                self.front.add(FrontItem { name, size, value, most });
            }
            caps.push(self.front.last().value);
        }
        let of_shapes: Vec<i64> = self.width_of.iter().map(|&width| values[width]).collect();
        let bound = proven(&of_shapes, &caps);
        // Choose the orientation of an item at these prices.
        let shapes = self.problem.shapes;
        let mut is_over = true;
        for (at, &(item, pair)) in self.turning.iter().enumerate() {
            let row = self.widths.len() + at;
            let count = number::from_whole(self.problem.counts[item]);
            for shape in pair {
                let width = self.width_of[shape];
                let share = number::from_whole(shapes[shape].along) * count / self.total;
                if prices[row] > share * prices[width] + 1e-9 {
                    let column = self.columns.add(0.0, [(row, 1.0), (width, -share)]);
                    is_over &= !self.basis.enter(&self.columns, column);
                    break;
                }
            }
            if !is_over {
                return (bound, false);
            }
        }
        if let Some(row) = prices[..self.widths.len()].iter().position(|&price| price < -1e-9) {
            return (bound, !self.basis.enter(&self.columns, Columns::surplus(row)));
        }
        let choice = self.front.last();
        if choice.value > UNIT + UNIT / 1_000_000 {
            let mut chosen = Vec::new();
            self.front.add_chosen(choice, &mut chosen);
            let entries = chosen.iter().map(|&(width, times)| (width, number::from_whole(times)));
            let column = self.columns.add(1.0, entries);
            is_over = !self.basis.enter(&self.columns, column);
        }
        (bound, is_over)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The length of one endless stretch that a value for each shape proves, if no line across has a value above `cap`.
    fn proven_on_one(shapes: &[BarShape], counts: &[i64], values: &[i64], cap: i64) -> i64 {
        if cap <= 0 || cap == i64::MAX {
            return 0;
        }
        let mut least: Vec<Option<i64>> = vec![None; counts.len()];
        for (shape, &value) in shapes.iter().zip(values) {
            let each = shape.along * value;
            least[shape.item] = Some(least[shape.item].map_or(each, |known| known.min(each)));
        }
        let total: i64 = least.iter().zip(counts).map(|(least, &count)| least.unwrap_or(0) * count).sum();
        total.div_euclid(cap) + i64::from(total % cap > 0)
    }

    /// The bound of shapes, each as item, across and along, on one endless stretch.
    fn bounded(shapes: &[(usize, i64, i64)], counts: &[i64], width: i64) -> i64 {
        let mut shapes: Vec<BarShape> =
            shapes.iter().map(|&(item, across, along)| BarShape { item, across, along }).collect();
        shapes.sort_by_key(|shape| shape.across);
        let proven = |values: &[i64], caps: &[i64]| proven_on_one(&shapes, counts, values, caps[0]);
        bound(BarProblem { shapes: &shapes, counts, widths: &[width] }, 1_000_000, proven).bound
    }

    #[test]
    fn a_width_that_cannot_be_filled_counts() {
        // Two pieces of width 5 fit side by side in 12: fifteen rows for thirty.
        assert_eq!(bounded(&[(0, 5, 3)], &[30], 12), 45);
        // 7 and 5 fill the line together, and the fives left over lie two by two.
        assert_eq!(bounded(&[(0, 5, 3), (1, 7, 3)], &[30, 10], 12), 60);
        // Turned they are 3 wide: four side by side in 12, each 5 long.
        assert_eq!(bounded(&[(0, 5, 3), (0, 3, 5)], &[30], 12), 38);
    }

    /// The bound of kinds so wide that none lie side by side, with the steps taken of those allowed.
    fn wide(kinds: usize, allowed: u64) -> BarBound {
        let across = |item: usize| 1_000 + number::from_size(item);
        let shapes: Vec<BarShape> = (0..kinds).map(|item| BarShape { item, across: across(item), along: 3 }).collect();
        let counts = vec![2; kinds];
        let proven = |values: &[i64], caps: &[i64]| proven_on_one(&shapes, &counts, values, caps[0]);
        bound(BarProblem { shapes: &shapes, counts: &counts, widths: &[1_999] }, allowed, proven)
    }

    #[test]
    fn a_hundred_and_sixty_choices_and_fields_of_the_program_take_a_step() {
        // At first all values are equal. The first width is looked at with nothing beside, the others with nothing and
        // with the first: 2 + 38 * 3 = 116, and the program has 39 * 39 = 1521 fields: ten steps, and one to begin.
        assert_eq!((wide(39, 10).steps, wide(39, 11).steps, wide(39, 21).steps), (0, 11, 11));
        // One width that lies twice: 2 + 4 choices, and again with the second prices; it lasts for 45.
        let shapes = [BarShape { item: 0, across: 5, along: 3 }];
        let proven = |values: &[i64], caps: &[i64]| proven_on_one(&shapes, &[30], values, caps[0]);
        let problem = BarProblem { shapes: &shapes, counts: &[30], widths: &[12] };
        let told = |found: BarBound| (found.bound, found.lasting, found.steps);
        assert_eq!(told(bound(problem, 100, proven)), (45, vec![45], 2));
        assert_eq!(told(bound(problem, 1, proven)), (45, vec![45], 1));
    }

    #[test]
    fn a_hundred_and_fifty_widths_and_three_hundred_rows_are_tried() {
        // None lie side by side: all in a line.
        assert_eq!([wide(150, 0).bound, wide(151, 0).bound, wide(0, 0).bound], [150 * 2 * 3, 0, 0]);
        let turning = |kinds: usize| {
            let lying = (0..kinds).map(|item| BarShape { item, across: 6, along: 7 });
            let shapes: Vec<BarShape> =
                lying.chain((0..kinds).map(|item| BarShape { item, across: 7, along: 6 })).collect();
            let counts = vec![1; kinds];
            let proven = |values: &[i64], caps: &[i64]| proven_on_one(&shapes, &counts, values, caps[0]);
            bound(BarProblem { shapes: &shapes, counts: &counts, widths: &[10] }, 2_000, proven).steps
        };
        // Two widths, and a row for each kind that turns: with 300 rows 562 steps at the least.
        assert!(turning(298) > 562 && turning(299) == 0);
    }

    #[test]
    fn turning_pieces_are_divided_between_their_sides() {
        // Two lie side by side in 12, 3 long, and four turned, 5 long. Beside each of ten sevens lies one: 30. The six
        // left take one and a half times 5 turned: 37.5.
        assert_eq!(bounded(&[(0, 7, 3), (1, 5, 3), (1, 3, 5)], &[10, 16], 12), 38);
        // Three of 4 wide lie side by side, 5 long: 50. Two turned, 4 long, would be 60. Beside 9 none lies.
        assert_eq!(bounded(&[(0, 4, 5), (0, 5, 4)], &[30], 12), 50);
        assert_eq!(bounded(&[(0, 4, 5), (0, 5, 4), (1, 9, 2)], &[30, 7], 12), 64);
    }
}
