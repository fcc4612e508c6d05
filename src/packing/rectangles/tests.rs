//! The solver against plans found by trying every position, and against hostile problems.

use std::sync::atomic::AtomicBool;

use super::*;
use crate::effort::Watch;
use crate::problem::{Rectangle, Starts, Stretch};

fn solved(problem: &RectangleProblem, steps: u64) -> Result<StripSolution, Unsolved> {
    let stop = AtomicBool::new(false);
    solve(problem, 1, &mut Steps::new(steps, Watch::silent(&stop)))
}

fn piece(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle::new(along, across, count)
}

fn strip(width: i64) -> Stretch {
    Stretch::endless(width)
}

/// Tries every position on a grid of unit cells, stretch by stretch: the least area left out, then the least length.
struct Grid<'a> {
    problem: &'a RectangleProblem,
    sizes: Vec<i64>,
    left: Vec<i64>,
    best: (i64, i64),
}

impl Grid<'_> {
    fn best(problem: &RectangleProblem, longest: i64) -> (i64, i64) {
        let sizes: Vec<i64> = problem.rectangles.iter().map(|piece| piece.along * piece.across).collect();
        let left = problem.rectangles.iter().map(|piece| piece.count).collect();
        let mut grid = Grid { problem, sizes, left, best: (i64::MAX, i64::MAX) };
        // Find the least area left out for each length of the endless stretch; the first length with the least is the
        // answer.
        let endless = problem.stretches.last().is_some_and(|stretch| stretch.length.is_none());
        if !endless {
            grid.fill(0, 0, &mut Vec::new(), 0);
            return (grid.best.0, 0);
        }
        // Every piece that fits on the endless stretch is placed if it is long enough, which leaves the least out.
        let mut least = (i64::MAX, i64::MAX);
        for length in 0..=longest {
            grid.best = (i64::MAX, i64::MAX);
            grid.fill(0, length, &mut Vec::new(), 0);
            if grid.best.0 < least.0 {
                least = (grid.best.0, length);
            }
        }
        least
    }

    fn fill(&mut self, stretch: usize, endless: i64, cells: &mut Vec<bool>, from: usize) {
        let out: i64 = self.left.iter().zip(&self.sizes).map(|(left, size)| left * size).sum();
        self.best.0 = self.best.0.min(out);
        if self.best.0 == 0 || stretch == self.problem.stretches.len() {
            return;
        }
        let room = self.problem.stretches[stretch];
        let (width, length) = (usize::try_from(room.width).unwrap(), room.length.unwrap_or(endless));
        let total = width * usize::try_from(length).unwrap();
        if from == 0 {
            *cells = vec![false; total];
        }
        // Prune: the cells still free are not enough to beat the best.
        let behind: i64 =
            self.problem.stretches[stretch + 1..].iter().map(|room| room.width * room.length.unwrap_or(endless)).sum();
        let free: i64 = cells[from.min(total)..].iter().map(|&cell| i64::from(!cell)).sum();
        if out - free - behind >= self.best.0 {
            return;
        }
        let Some(at) = (from..total).find(|&at| !cells[at]) else {
            return self.fill(stretch + 1, endless, &mut Vec::new(), 0);
        };
        let (along, across) = (at / width, at % width);
        for entry in 0..self.left.len() {
            let piece = self.problem.rectangles[entry].clone();
            let start = i64::try_from(along).unwrap();
            if self.left[entry] == 0
                || (piece.at_edge && across > 0)
                || piece.starts.is_some_and(|s| start < s.first || (start - s.first) % s.every != 0)
            {
                continue;
            }
            let mut orientations = vec![(piece.along, piece.across)];
            if piece.quarter && !piece.at_edge && piece.along != piece.across {
                orientations.push((piece.across, piece.along));
            }
            for (long, wide) in orientations {
                let (long, wide) = (usize::try_from(long).unwrap(), usize::try_from(wide).unwrap());
                let covered: Vec<usize> = (along..along + long)
                    .flat_map(|row| (across..across + wide).map(move |column| row * width + column))
                    .collect();
                if across + wide > width || covered.iter().any(|&cell| cell >= total || cells[cell]) {
                    continue;
                }
                for &cell in &covered {
                    cells[cell] = true;
                }
                self.left[entry] -= 1;
                self.fill(stretch, endless, cells, at + 1);
                self.left[entry] += 1;
                for &cell in &covered {
                    cells[cell] = false;
                }
            }
        }
        cells[at] = true;
        self.fill(stretch, endless, cells, at + 1);
        cells[at] = false;
    }
}

/// A small random problem.
fn small(rng: &mut fastrand::Rng, pieces: i64) -> RectangleProblem {
    let mut stretches = Vec::new();
    for _ in 0..rng.usize(0..3) {
        stretches.push(Stretch { width: rng.i64(1..5), length: Some(rng.i64(1..4)) });
    }
    if stretches.is_empty() || rng.u8(0..3) > 0 {
        stretches.push(strip(rng.i64(2..6)));
    }
    let mut left = pieces;
    let mut rectangles = Vec::new();
    while left > 0 {
        let count = rng.i64(1..=left.min(3));
        left -= count;
        let mut piece = piece(rng.i64(1..4), rng.i64(1..5), count);
        piece.quarter = rng.bool();
        piece.at_edge = rng.u8(0..5) == 0;
        if rng.u8(0..3) == 0 {
            piece.starts = Some(Starts { first: rng.i64(0..3), every: rng.i64(1..4) });
        }
        rectangles.push(piece);
    }
    RectangleProblem { stretches, rectangles, loss: 0 }
}

#[test]
fn a_few_pieces_lie_as_well_as_trying_every_place() {
    let mut rng = fastrand::Rng::with_seed(7);
    for round in 0..700 {
        let problem = small(&mut rng, 1 + round % if round < 600 { 5 } else { 7 });
        let answer = solved(&problem, 10_000_000).expect("a sound problem");
        assert_eq!(soundness::rectangles(&problem, &answer), Ok(()), "{problem:?}");
        let out: i64 = answer
            .unplaced
            .iter()
            .map(|&(entry, count)| count * problem.rectangles[entry].along * problem.rectangles[entry].across)
            .sum();
        let expected = Grid::best(&problem, answer.length);
        assert_eq!((out, answer.length), expected, "{problem:?}");
        assert!(answer.proved, "{problem:?}");
        let prepared = Prepared::new(&problem).expect("a sound problem");
        let bound = bound::bound(&prepared);
        assert!(prepared.real_length(bound) <= answer.length, "{bound} {problem:?}");
    }
}

#[test]
fn more_pieces_lie_where_they_may_and_within_the_bound() {
    let mut rng = fastrand::Rng::with_seed(11);
    for round in 0..60 {
        let mut problem = small(&mut rng, 10 + round);
        for piece in &mut problem.rectangles {
            piece.along *= rng.i64(1..20);
            piece.count *= rng.i64(1..4);
        }
        let answer = solved(&problem, if round % 10 == 0 { 80_000 } else { 10_000 }).expect("a sound problem");
        assert_eq!(soundness::rectangles(&problem, &answer), Ok(()), "{problem:?}");
    }
}

#[test]
fn the_same_problem_has_the_same_answer() {
    let mut rng = fastrand::Rng::with_seed(3);
    for steps in [500, 20_000, 200_000] {
        let mut problem = small(&mut rng, 40);
        problem.stretches = vec![strip(7)];
        assert_eq!(solved(&problem, steps), solved(&problem, steps));
    }
}

#[test]
fn what_is_no_problem_is_refused_and_nothing_is_a_plan_of_nothing() {
    let sound = RectangleProblem { stretches: vec![strip(10)], rectangles: vec![piece(3, 4, 2)], loss: 0 };
    assert_eq!(solved(&sound, 1000).map(|answer| (answer.length, answer.proved)), Ok((3, true)));
    let with = |stretches: Vec<Stretch>, rectangles: Vec<Rectangle>| {
        solved(&RectangleProblem { stretches, rectangles, loss: 0 }, 1000)
    };
    assert_eq!(with(vec![], vec![piece(3, 4, 2)]), Err(Unsolved::Malformed));
    assert_eq!(with(vec![strip(0)], vec![piece(3, 4, 2)]), Err(Unsolved::Malformed));
    assert_eq!(with(vec![strip(10), strip(10)], vec![piece(3, 4, 2)]), Err(Unsolved::Malformed));
    assert_eq!(with(vec![strip(10), Stretch { width: 10, length: Some(5) }], vec![]), Err(Unsolved::Malformed));
    for bad in [piece(0, 4, 1), piece(4, 0, 1), piece(4, 4, -1), piece(4, 4, 5_000_000), piece(i64::MAX, 4, 9)] {
        assert_eq!(with(vec![strip(10)], vec![bad]), Err(Unsolved::Malformed));
    }
    let mut piece_of_pattern = piece(3, 3, 1);
    piece_of_pattern.starts = Some(Starts { first: 2, every: 0 });
    assert_eq!(with(vec![strip(10)], vec![piece_of_pattern]), Err(Unsolved::Malformed));
    let empty = with(vec![strip(10)], vec![piece(3, 4, 0)]).expect("nothing to do");
    assert!(empty.placements.is_empty() && empty.length == 0 && empty.proved);
    let wide = with(vec![strip(10)], vec![piece(3, 14, 2), piece(3, 4, 1)]).expect("one too wide");
    assert_eq!((wide.unplaced, wide.length, wide.placements.len()), (vec![(0, 2)], 3, 1));
}

#[test]
fn a_million_pieces_and_ten_thousand_kinds_come_back() {
    let many = RectangleProblem {
        stretches: vec![strip(1_500_000_000)],
        rectangles: vec![piece(120_000_000, 70_000_001, 1_000_000)],
        loss: 0,
    };
    let answer = solved(&many, 10_000).expect("a sound problem");
    assert_eq!((answer.placements.len(), answer.length), (1_000_000, 120_000_000 * 47_620));
    let mut rng = fastrand::Rng::with_seed(5);
    let mut size = || rng.i64(1..10_000_000_000_000);
    let rectangles = (0..10_000).map(|item| piece(size(), size(), 1 + item % 3)).collect();
    let problem = RectangleProblem { stretches: vec![strip(20_000_000_000_000)], rectangles, loss: 0 };
    let answer = solved(&problem, 10_000).expect("a sound problem");
    assert_eq!(soundness::rectangles(&problem, &answer), Ok(()));
    let huge = RectangleProblem {
        stretches: vec![Stretch { width: i64::MAX, length: Some(i64::MAX) }, strip(i64::MAX)],
        rectangles: vec![piece(1 << 50, 3, 7), piece(5, 1 << 50, 90)],
        loss: 0,
    };
    assert_eq!(solved(&huge, 10_000).map(|answer| answer.length), Ok(0));
}

#[test]
fn pieces_cut_from_a_sheet_are_put_together_again() {
    // A sheet of 20 by 20 cut into sixteen pieces: Hopper and Turton's C1, problem 1 (2001), width and length.
    let cut = [
        (2, 12),
        (7, 12),
        (8, 6),
        (3, 6),
        (3, 5),
        (5, 5),
        (3, 12),
        (3, 7),
        (5, 7),
        (2, 6),
        (3, 2),
        (4, 2),
        (3, 4),
        (4, 4),
        (9, 2),
        (11, 2),
    ];
    let rectangles = cut.iter().map(|&(across, along)| piece(along * 3_175_000, across * 3_175_000, 1)).collect();
    let problem = RectangleProblem { stretches: vec![strip(20 * 3_175_000)], rectangles, loss: 0 };
    let answer = solved(&problem, 1_000_000).expect("a sound problem");
    assert_eq!(soundness::rectangles(&problem, &answer), Ok(()));
    assert_eq!((answer.length, answer.proved), (20 * 3_175_000, true));
}

#[test]
fn rows_of_one_pattern_are_told_from_the_repeat() {
    // Three side by side; rows begin 10 apart and the last ends after 7, from the shape alone.
    let mut panel = piece(7, 3, 8);
    panel.starts = Some(Starts { first: 2, every: 10 });
    let problem = RectangleProblem { stretches: vec![strip(10)], rectangles: vec![panel], loss: 0 };
    let answer = solved(&problem, 10_000).expect("a sound problem");
    assert_eq!((answer.length, answer.bound, answer.proved), (2 + 10 + 10 + 7, 29, true));
}

#[test]
fn the_fewest_steps_still_give_a_plan_and_more_a_shorter_one() {
    let mut rng = fastrand::Rng::with_seed(19);
    let rectangles: Vec<Rectangle> = (0..9).map(|_| piece(rng.i64(50..400), rng.i64(50..400), rng.i64(1..9))).collect();
    let problem = RectangleProblem { stretches: vec![strip(1100)], rectangles, loss: 0 };
    let lengths: Vec<i64> =
        [1, 300, 3_000, 30_000].map(|steps| solved(&problem, steps).map_or(0, |a| a.length)).to_vec();
    assert!(lengths.is_sorted_by(|before, after| before >= after) && lengths[3] > 0, "{lengths:?}");
}

#[test]
fn few_pieces_on_few_stretches_are_proved_and_more_are_not() {
    // Four of 5 by 4 lie on 10 x 8; the rest stays out whatever is tried.
    let proved = |count: i64, stretches: Vec<Stretch>| {
        let problem = RectangleProblem { stretches, rectangles: vec![piece(5, 4, count)], loss: 0 };
        let answer = solved(&problem, 2_000).expect("a sound problem");
        assert_eq!((answer.unplaced, answer.length), (vec![(0, count - 4)], 0));
        answer.proved
    };
    let sheet = Stretch { width: 8, length: Some(10) };
    let scrap = Stretch { width: 1, length: Some(1) };
    assert!(proved(9, vec![sheet]) && !proved(10, vec![sheet]));
    let with_scraps = |scraps: usize| [vec![sheet], vec![scrap; scraps]].concat();
    assert!(proved(9, with_scraps(8)) && !proved(9, with_scraps(9)));
}

#[test]
fn the_bound_of_a_proved_plan_of_all_pieces_is_its_length() {
    let mut rng = fastrand::Rng::with_seed(23);
    for round in 0..150 {
        let mut problem = small(&mut rng, 2 + round % 4);
        problem.stretches = vec![strip(5)];
        let answer = solved(&problem, 200_000).expect("a sound problem");
        assert!(answer.proved && answer.bound == answer.length, "{problem:?}");
    }
}

#[test]
fn with_a_loss_and_pieces_that_could_be_turned_nothing_is_proved() {
    let answer = |quarter: bool, loss: i64| {
        let wanted = Rectangle { quarter, ..piece(7, 3, 2) };
        let problem = RectangleProblem { stretches: vec![strip(5)], rectangles: vec![wanted], loss };
        let answer = solved(&problem, 2_000).expect("a sound problem");
        (answer.length, answer.bound, answer.proved)
    };
    // End to end 7 and 7, with one lost between them.
    assert_eq!((answer(false, 0), answer(false, 1)), ((14, 14, true), (15, 15, true)));
    assert_eq!((answer(true, 0), answer(true, 1)), ((14, 14, true), (15, 0, false)));
}

#[test]
fn each_round_takes_twice_the_steps_of_the_one_before_until_two_share_the_rest() {
    // 2 · 11 leave room for more; of 21 the threads take 11 and 10, of 20 as many, and of one step it.
    let shares =
        [(10, 1000), (11, 43), (11, 42), (11, 21), (11, 20), (11, 1)].map(|(share, left)| next_share(share, left));
    assert_eq!(shares, [20, 22, 22, 11, 11, 1]);
}

#[test]
fn progress_is_told_from_the_first_plan_to_the_last() {
    let mut rng = fastrand::Rng::with_seed(29);
    let rectangles: Vec<Rectangle> = (0..12).map(|_| piece(rng.i64(50..400), rng.i64(50..400), 2)).collect();
    let problem = RectangleProblem { stretches: vec![strip(1100)], rectangles, loss: 0 };
    // On one thread, and on two.
    for work in [20_000, 100_000] {
        let told = std::sync::Mutex::new(Vec::new());
        let stop = AtomicBool::new(false);
        let progress = |progress: Progress| told.lock().expect("no thread panics").push(progress);
        let mut steps = Steps::new(work, Watch { stop: &stop, progress: &progress });
        let answer = solve(&problem, 1, &mut steps).expect("a sound problem");
        assert!(answer.proved || steps.left() == 0);
        let told = told.into_inner().expect("no thread panics");
        assert!(told.len() > 1 && told.is_sorted_by(|before, after| before.best > after.best), "{told:?}");
        assert!(told.iter().all(|progress| progress.bound == answer.bound && progress.best >= progress.bound));
        assert_eq!(told.last().map(|progress| progress.best), Some(answer.length));
        let plain = plain::construct(&Prepared::new(&problem).expect("a sound problem"));
        assert_eq!(told[0].best, plain.length);
    }
}
