//! The solver against every plan there is, for few pieces; against the rules of cutting, for many.

mod built;

use std::sync::Mutex;
use std::sync::atomic::AtomicBool;

use super::*;
use crate::effort::Watch;
use crate::problem::{Rectangle, Starts, Stretch};

/// Solves with so many steps, and checks the answer by the rules.
fn solved(problem: &RectangleProblem, seed: u64, count: u64) -> RowSolution {
    let stop = AtomicBool::new(false);
    let mut steps = Steps::new(count, Watch::silent(&stop));
    let answer = solve(problem, seed, &mut steps).expect("a sound problem");
    assert_eq!(soundness::rows(problem, &answer), Ok(()), "{problem:?}");
    answer
}

fn rectangle(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle::new(along, across, count)
}

fn endless(width: i64, rectangles: Vec<Rectangle>) -> RectangleProblem {
    RectangleProblem::endless(width, rectangles)
}

/// The state of the enumeration of every order of pieces and every place for a cut: where the next piece would go.
#[derive(Clone, Copy)]
struct Now {
    stretch: usize,
    row: i64,
    row_end: i64,
    used: i64,
    width: i64,
    at: i64,
    columns: usize,
}

/// Every plan there is: the least area left out, the last stretch used, and how far it is used.
struct Every<'a> {
    problem: &'a RectangleProblem,
    best: (i64, usize, i64),
}

impl Every<'_> {
    fn best(problem: &RectangleProblem) -> (i64, usize, i64) {
        let mut every = Every { problem, best: (i64::MAX, 0, 0) };
        let mut left: Vec<i64> = problem.rectangles.iter().map(|rectangle| rectangle.count).collect();
        let now = Now { stretch: 0, row: 0, row_end: 0, used: 0, width: 0, at: 0, columns: 0 };
        every.go(now, &mut left);
        every.best
    }

    fn area(&self, left: &[i64]) -> i64 {
        let loss = self.problem.loss;
        let each = |(one, count): (&Rectangle, &i64)| {
            let area = (one.along + loss) * one.across;
            let turned = (one.across + loss) * one.along;
            count * if one.quarter { area.min(turned) } else { area }
        };
        self.problem.rectangles.iter().zip(left).map(each).sum()
    }

    fn go(&mut self, now: Now, left: &mut Vec<i64>) {
        self.best = self.best.min((self.area(left), now.stretch, now.row_end));
        let is_endless = self.problem.stretches[self.problem.stretches.len() - 1].length.is_none();
        if is_endless && self.best.0 == 0 && (now.stretch, now.row_end) >= (self.best.1, self.best.2) {
            return;
        }
        for item in 0..left.len() {
            if left[item] == 0 {
                continue;
            }
            left[item] -= 1;
            let one = &self.problem.rectangles[item];
            for (along, across) in [(one.along, one.across), (one.across, one.along)] {
                let new_column =
                    Now { used: now.used + now.width, width: 0, at: now.row, columns: now.columns + 1, ..now };
                let new_row = |stretch, row| Now { stretch, row, row_end: row, used: 0, width: 0, at: row, columns: 1 };
                let mut next_states = vec![new_row(now.stretch, now.row_end)];
                next_states.extend((now.stretch + 1..self.problem.stretches.len()).map(|stretch| new_row(stretch, 0)));
                if now.columns > 0 {
                    next_states.extend([now, new_column]);
                }
                for next_state in next_states {
                    let mut from = next_state.at;
                    if let Some(starts) = one.starts {
                        while from < starts.first || (from - starts.first) % starts.every != 0 {
                            from += 1;
                        }
                    }
                    let end = from + along + self.problem.loss;
                    let width = next_state.width.max(across);
                    let stretch = self.problem.stretches[next_state.stretch];
                    let is_in = stretch.length.is_none_or(|length| from + along <= length);
                    if is_in && next_state.used + width <= stretch.width && (!one.at_edge || next_state.columns == 1) {
                        self.go(Now { width, at: end, row_end: next_state.row_end.max(end), ..next_state }, left);
                    }
                }
                if !one.quarter {
                    break;
                }
            }
            left[item] += 1;
        }
    }
}

/// A small random problem. Bits of `features` allow: 1 turning, 2 the edge, 4 limited stretches, 8 marks, 16 a loss.
fn random(rng: &mut fastrand::Rng, most: i64, features: u8) -> RectangleProblem {
    let has = |bit: u8, rng: &mut fastrand::Rng| features & bit != 0 && rng.bool();
    let mut rectangles = Vec::new();
    let mut total = 0;
    let every = rng.i64(2..8);
    while total < most && rectangles.len() < 6 {
        let count = rng.i64(1..=3).min(most - total);
        total += count;
        let starts =
            has(8, rng).then(|| Starts { first: rng.i64(-2..6), every: if rng.u8(0..4) > 0 { every } else { 3 } });
        rectangles.push(Rectangle {
            quarter: has(1, rng),
            at_edge: has(2, rng) && rng.bool(),
            starts,
            ..rectangle(rng.i64(1..10), rng.i64(1..10), count)
        });
    }
    let mut stretches = vec![Stretch { width: rng.i64(10..18), length: None }];
    if has(4, rng) {
        stretches.insert(0, Stretch { width: rng.i64(3..18), length: Some(rng.i64(0..15)) });
        if rng.u8(0..4) == 0 {
            stretches.pop();
        }
    }
    RectangleProblem { stretches, rectangles, loss: if has(16, rng) { rng.i64(0..3) } else { 0 } }
}

fn against_every(count: usize, most: i64, features: u8, seed: u64, steps: u64) {
    let mut rng = fastrand::Rng::with_seed(seed);
    for _ in 0..count {
        let problem = random(&mut rng, most, features);
        let answer = solved(&problem, 1, steps);
        let best = Every::best(&problem);
        let is_endless = problem.stretches.last().is_some_and(|stretch| stretch.length.is_none());
        let every = Every { problem: &problem, best };
        let mut left = vec![0; problem.rectangles.len()];
        for &(rectangle, count) in &answer.unplaced {
            left[rectangle] += count;
        }
        if is_endless {
            let on_last = if best.1 + 1 == problem.stretches.len() { (best.2 - problem.loss).max(0) } else { 0 };
            assert!(answer.bound <= on_last, "the bound {} is not one: {on_last} {problem:?}", answer.bound);
            if steps >= 100_000 {
                assert_eq!(answer.length, on_last, "{problem:?}");
            }
        }
        if steps >= 100_000 {
            assert_eq!(every.area(&left), best.0, "{problem:?}");
            assert!(answer.proved, "{problem:?}");
        }
    }
}

#[test]
fn few_pieces_lie_as_well_as_in_any_plan() {
    against_every(12, 6, 31, 9, 1_000_000);
    against_every(150, 5, 0, 1, 1_000_000);
    against_every(100, 5, 1, 2, 1_000_000);
    against_every(100, 5, 2 | 16, 3, 1_000_000);
    against_every(100, 4, 4 | 16, 4, 1_000_000);
    against_every(100, 4, 8 | 16, 5, 1_000_000);
    against_every(150, 4, 31, 6, 1_000_000);
}

#[test]
fn every_bound_is_one() {
    let mut rng = fastrand::Rng::with_seed(13);
    let stop = AtomicBool::new(false);
    for round in 0..400 {
        let mut problem = random(&mut rng, 4, if round % 2 == 0 { 1 | 4 | 16 } else { 1 | 8 | 16 });
        if round % 4 == 1 {
            let starts = Some(Starts { first: rng.i64(-2..6), every: rng.i64(2..8) });
            problem.rectangles.iter_mut().for_each(|rectangle| rectangle.starts = starts);
        }
        let (_, on, end) = Every::best(&problem);
        let is_endless = problem.stretches.last().is_some_and(|stretch| stretch.length.is_none());
        let length = if on + 1 == problem.stretches.len() { (end - problem.loss).max(0) } else { 0 };
        if is_endless {
            let prepared = Prepared::new(&problem);
            let mut steps = Steps::new(1_000_000, Watch::silent(&stop));
            let (plain, (strong, _)) = (bound::plain(&prepared), bound::strong(&prepared, &mut steps));
            assert!(plain <= length && strong <= length, "{plain} {strong} {length} {problem:?}");
        }
    }
}

#[test]
fn the_bound_is_one_whatever_the_steps() {
    against_every(100, 5, 31, 7, 60);
    against_every(60, 4, 8 | 1, 8, 20);
}

#[test]
fn eight_pieces_of_few_kinds_lie_as_well_as_in_any_plan() {
    let mut rng = fastrand::Rng::with_seed(10);
    for round in 0..12 {
        let rectangles = vec![
            Rectangle { quarter: round % 3 == 1, ..rectangle(rng.i64(2..9), rng.i64(2..9), 4) },
            Rectangle { at_edge: round % 4 == 3, ..rectangle(rng.i64(2..9), rng.i64(2..9), 4) },
        ];
        let problem = RectangleProblem { loss: rng.i64(0..2), ..endless(rng.i64(10..15), rectangles) };
        let answer = solved(&problem, 1, 1_000_000);
        assert!(answer.proved);
        assert_eq!(answer.length, Every::best(&problem).2 - problem.loss, "{problem:?}");
    }
}

#[test]
fn many_pieces_lie_by_the_rules_and_the_same_every_time() {
    let mut rng = fastrand::Rng::with_seed(11);
    for round in 0..60 {
        let mut problem = random(&mut rng, 6, 31);
        for rectangle in &mut problem.rectangles {
            rectangle.count *= rng.i64(1..40);
        }
        for stretch in &mut problem.stretches {
            stretch.length = stretch.length.map(|length| length * 4);
        }
        let answer = solved(&problem, round, 3_000);
        assert_eq!(answer, solved(&problem, round, 3_000));
    }
}

#[test]
fn what_is_no_problem_has_no_answer() {
    let stop = AtomicBool::new(false);
    let none = |problem: &RectangleProblem| {
        let refused = solve(problem, 1, &mut Steps::new(1_000, Watch::silent(&stop)));
        assert_eq!(refused, Err(Unsolved::Malformed), "{problem:?}");
    };
    none(&RectangleProblem { stretches: Vec::new(), rectangles: vec![rectangle(1, 1, 1)], loss: 0 });
    for bad in [rectangle(0, 1, 1), rectangle(1, -1, 1), rectangle(1, 1, -1), rectangle(i64::MAX, 1, 1)] {
        none(&endless(10, vec![bad]));
    }
    let marked = |first, every, count| Rectangle { starts: Some(Starts { first, every }), ..rectangle(1, 1, count) };
    none(&endless(10, vec![marked(0, 0, 1)]));
    none(&endless(10, vec![marked(i64::MIN, 1, 1)]));
    none(&endless(10, vec![marked(0, 1, 1_000_000_000)]));
    none(&endless(0, vec![rectangle(1, 1, 1)]));
    none(&endless(10_000_000_000_000, vec![rectangle(10_000_000_000_000, 1, i64::MAX)]));
    none(&RectangleProblem { loss: -1, ..endless(10, vec![rectangle(1, 1, 1)]) });
    let mut backwards = endless(10, vec![rectangle(1, 1, 1)]);
    backwards.stretches.push(Stretch { width: 10, length: Some(5) });
    none(&backwards);
    let short = RectangleProblem { stretches: vec![Stretch { width: 10, length: Some(-1) }], ..endless(1, Vec::new()) };
    none(&short);
}

#[test]
fn nothing_to_cut_and_nothing_that_fits_are_answered() {
    let empty = solved(&endless(10, Vec::new()), 1, 1_000);
    assert!(empty.rows.is_empty() && empty.length == 0 && empty.proved);
    let none = solved(&endless(10, vec![rectangle(3, 3, 0)]), 1, 1_000);
    assert!(none.rows.is_empty() && none.unplaced.is_empty());
    let wide = solved(&endless(10, vec![rectangle(3, 11, 2), rectangle(3, 10, 2)]), 1, 1_000);
    assert_eq!((wide.length, wide.unplaced), (6, vec![(0, 2)]));
    let no_steps = solved(&endless(10, vec![rectangle(3, 4, 7)]), 1, 0);
    assert_eq!(no_steps.length, 12);
    let remnant = RectangleProblem {
        stretches: vec![Stretch { width: 10, length: Some(0) }],
        ..endless(1, vec![rectangle(1, 1, 3)])
    };
    assert_eq!(solved(&remnant, 1, 1_000).unplaced, vec![(0, 3)]);
}

#[test]
fn huge_sizes_and_counts_are_answered_at_once() {
    let large = 10_000_000_000_000;
    let two = endless(large, vec![rectangle(large, large, 3), rectangle(large - 1, large / 2 - 7, 5)]);
    assert_eq!(solved(&two, 1, 10_000).length, 3 * large + 3 * (large - 1));
    let stop = AtomicBool::new(false);
    let answer = |problem: &RectangleProblem, count| solve(problem, 1, &mut Steps::new(count, Watch::silent(&stop)));
    let million =
        endless(1_500_000_000, vec![rectangle(110_000_000, 130_000_000, 600_000), rectangle(70, 9_000, 400_000)]);
    let found = answer(&million, 2_000).expect("a sound problem");
    assert_eq!(found.placements().count(), 1_000_000);
    let mut rng = fastrand::Rng::with_seed(12);
    let items = |rng: &mut fastrand::Rng, count, starts| -> Vec<Rectangle> {
        (0..10_000)
            .map(|_| Rectangle {
                quarter: rng.bool(),
                starts,
                ..rectangle(rng.i64(1..90_000), rng.i64(1..90_000), count)
            })
            .collect()
    };
    let problem = endless(100_000, items(&mut rng, 1_000_000, None));
    let found = answer(&problem, 20_000).expect("a sound problem");
    assert!(found.bound > 0 && found.length < 4 * found.bound);
    let single = endless(100_000, items(&mut rng, 1, None));
    let found = answer(&single, 20_000).expect("a sound problem");
    assert_eq!(soundness::rows(&single, &found), Ok(()));
    let marked = endless(100_000, items(&mut rng, 3, Some(Starts { first: 5, every: 30_000 })));
    let found = answer(&marked, 20_000).expect("a sound problem");
    assert_eq!(soundness::rows(&marked, &found), Ok(()));
    let many = Rectangle { starts: Some(Starts { first: 5, every: 7 }), ..rectangle(11, 3, 500_000) };
    let found = answer(&endless(10, vec![many, rectangle(5, 2, 1_000_000)]), 20_000).expect("a sound problem");
    assert_eq!(found.placements().count(), 1_500_000);
}

#[test]
fn a_search_for_pieces_that_fit_nowhere_ends_with_its_steps() {
    // One piece is too wide, the other too long, so no knapsack is ever asked. The exact search is passed by.
    let stretches = vec![Stretch { width: 4, length: Some(3) }];
    let rectangles = vec![rectangle(2, 9, 2), rectangle(4, 3, 2)];
    let prepared = Prepared::new(&RectangleProblem { stretches, rectangles, loss: 1 });
    let stop = AtomicBool::new(false);
    let mut steps = Steps::new(2_000, Watch::silent(&stop));
    let plan = improve::improve(&prepared, level::best(&prepared), 0, Vec::new(), 1, &mut steps);
    assert_eq!((plan.bands.len(), steps.left()), (0, 0));
}

/// The answer, the best and the bound as they were told, and the steps taken.
fn told(problem: &RectangleProblem, seed: u64, count: u64) -> (RowSolution, Vec<(i64, i64)>, u64) {
    let stop = AtomicBool::new(false);
    let told = Mutex::new(Vec::new());
    let progress = |progress: Progress| told.lock().expect("one thread").push((progress.best, progress.bound));
    let mut steps = Steps::new(count, Watch { stop: &stop, progress: &progress });
    let answer = solve(problem, seed, &mut steps).expect("a sound problem");
    let taken = count - steps.left();
    (answer, told.into_inner().expect("one thread"), taken)
}

#[test]
fn a_search_ends_where_its_plan_meets_its_bound_and_tells_how_it_came_there() {
    // Two side by side: 6 by the greedy rule and by the area.
    let (answer, progress, taken) = told(&endless(10, vec![rectangle(3, 5, 4)]), 1, 1_000);
    assert_eq!((answer.length, answer.bound, answer.proved, progress, taken), (6, 6, true, vec![(6, 6)], 0));
    // Two side by side, in rows 5 and 3: 8. One beside the two others: 7. In halves they are 6.
    let three = endless(10, [3, 4, 5].map(|along| rectangle(along, 4, 1)).to_vec());
    let (answer, progress, _) = told(&three, 1, 1_000);
    assert_eq!((answer.length, answer.bound, answer.proved), (7, 7, true));
    assert_eq!(progress, [(8, 6), (7, 7)]);
    // Six side by side, which only prices prove: twelve rows. Too many sets for so few steps.
    let (answer, progress, taken) = told(&endless(60, vec![rectangle(1, 9, 72)]), 1, 300);
    assert_eq!((answer.length, answer.bound, answer.proved), (12, 12, true));
    assert_eq!(progress, [(12, 11)]);
    assert!(taken > 0);
}

#[test]
fn a_plan_is_the_best_only_with_every_piece_on_endless_cloth_within_the_bound() {
    for (length, missing, bound, met) in [
        (None, [0, 0], 6, true),
        (None, [0, 0], 7, true),
        (None, [0, 0], 5, false),
        (None, [0, 1], 6, false),
        (Some(99), [0, 0], 6, false),
    ] {
        let stretches = vec![Stretch { width: 10, length }];
        let rectangles = vec![rectangle(3, 5, 4), rectangle(9, 9, 1)];
        let prepared = Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 });
        let four = level::best(&Prepared::new(&endless(10, vec![rectangle(3, 5, 4)])));
        let plan = Plan { bands: four.bands, missing: missing.to_vec() };
        assert_eq!(is_met(&prepared, &plan, bound), met, "{length:?} {missing:?} {bound}");
    }
}
