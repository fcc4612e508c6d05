//! The search on pieces cut from a sheet without waste, so that the best answer is known from how they were made.

use super::*;

/// How a sheet is cut up.
#[derive(Clone, Copy, Debug)]
struct Cuts {
    /// How many different rows there are, and how often each at the most.
    rows: i64,
    times: i64,
    loss: i64,
    /// Whether pieces may be turned, which hides how they lay.
    turned: bool,
    /// Whether some first columns are bound to the edge.
    edge: bool,
    /// The distances of the marks at which some columns begin; rows then have a length that is a multiple of both.
    marks: Option<[i64; 2]>,
    /// Whether pieces without marks fill the way from the end of a piece to the next mark.
    gaps: bool,
    /// The length of the stretches is known, of all or of the first of two.
    ends: Ends,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ends {
    /// One endless stretch.
    None,
    /// One that ends where the sheet does.
    One,
    /// A narrower one that ends where another sheet does, then an endless one.
    First,
}

const PLAIN: Cuts =
    Cuts { rows: 6, times: 2, loss: 0, turned: false, edge: false, marks: None, gaps: false, ends: Ends::None };

/// Splits `size` at random into up to `most` parts, each a multiple of `unit` and at least `least`.
fn split(rng: &mut fastrand::Rng, size: i64, most: i64, least: i64, unit: i64) -> Vec<i64> {
    let mut parts = Vec::new();
    let mut rest = size;
    for _ in 1..rng.i64(1..=most) {
        if rest < 2 * least.max(unit) {
            break;
        }
        let part = (rng.i64(least..=rest - least) / unit).max(1) * unit;
        if part < least || rest - part < least {
            break;
        }
        parts.push(part);
        rest -= part;
    }
    parts.push(rest);
    parts
}

/// Pieces cut from a sheet of this width, and the length of the sheet.
fn cut_up(rng: &mut fastrand::Rng, cuts: Cuts, width: i64, pieces: &mut Vec<Rectangle>) -> i64 {
    let mut length = 0;
    let unit = cuts.marks.map(|[one, other]| one * other / crate::number::gcd(one, other));
    for row in 0..cuts.rows {
        let along = if let Some(unit) = unit { unit * rng.i64(1..=3) } else { rng.i64(9..=30) };
        let times = rng.i64(1..=cuts.times);
        length += along * times;
        for (column, across) in split(rng, width, 4, 5, 1).into_iter().enumerate() {
            let every = cuts.marks.filter(|_| rng.bool()).map(|marks| marks[rng.usize(0..2)]);
            let at_edge = cuts.edge && column == 0 && rng.bool();
            // What lies behind the first row may have its first mark behind it, too.
            let first = if row > 0 && rng.bool() { unit.unwrap_or(0) } else { 0 };
            for part in split(rng, along, 2, 4, every.unwrap_or(1)) {
                let gap = if every.is_some() && cuts.gaps && rng.bool() { rng.i64(1..=3) } else { 0 };
                let starts = every.map(|every| Starts { first, every });
                let mut piece = Rectangle { at_edge, starts, ..rectangle(part - gap - cuts.loss, across, times) };
                if cuts.turned && every.is_none() && rng.bool() {
                    (piece.along, piece.across, piece.quarter) = (piece.across, piece.along, true);
                }
                let filler = (gap > 0).then(|| rectangle(gap, across, times));
                for piece in [Some(piece), filler].into_iter().flatten() {
                    let is_like =
                        |other: &&mut Rectangle| Rectangle { count: piece.count, ..(*other).clone() } == piece;
                    match pieces.iter_mut().find(is_like) {
                        Some(other) => other.count += piece.count,
                        None => pieces.push(piece),
                    }
                }
            }
        }
    }
    length - cuts.loss
}

/// Whether the search finds the sheet again within so many steps, from a plan that is not it.
fn finds(cuts: Cuts, sheet: u64, seed: u64, allowed: u64) -> bool {
    let mut rng = fastrand::Rng::with_seed(sheet);
    let mut rectangles = Vec::new();
    let length = cut_up(&mut rng, cuts, 40, &mut rectangles);
    let mut stretches = vec![Stretch { width: 40, length: (cuts.ends == Ends::One).then_some(length) }];
    if cuts.ends == Ends::First {
        let first = cut_up(&mut rng, cuts, 30, &mut rectangles);
        stretches.insert(0, Stretch { width: 30, length: Some(first) });
    }
    let problem = RectangleProblem { loss: cuts.loss, stretches, rectangles };
    let prepared = Prepared::new(&problem);
    let stop = AtomicBool::new(false);
    let (_, lasting) = bound::strong(&prepared, &mut Steps::new(100_000, Watch::silent(&stop)));
    let mut steps = Steps::new(allowed, Watch::silent(&stop));
    let first = level::best(&prepared);
    let is_found = |plan: &Plan| plan.missing.iter().all(|&count| count == 0) && plan.length(&prepared) == length;
    assert!(!is_found(&first), "nothing is left to search for");
    let plan = improve::improve(&prepared, first, length, lasting, seed, &mut steps);
    let solution = layout::solution(&prepared, &plan, length, false).expect("a sound plan");
    assert_eq!(soundness::rows(&problem, &solution), Ok(()));
    is_found(&plan)
}

/// Each case: the seed of the sheet, that of the search, and the steps. With these steps three seeds of ten at the most
/// find the sheet, so that a search which chooses worse misses some of them. Where the search is changed on purpose,
/// draw other cases.
fn all_found(cuts: Cuts, cases: &[(u64, u64, u64)]) {
    let missed: Vec<_> = cases.iter().filter(|&&(sheet, seed, steps)| !finds(cuts, sheet, seed, steps)).collect();
    assert!(missed.is_empty(), "not found: {missed:?} {cuts:?}");
}

#[test]
fn a_sheet_cut_into_single_rows_is_found_again() {
    let cuts = PLAIN;
    all_found(
        cuts,
        &[
            (12, 9, 300),
            (13, 4, 300),
            (19, 0, 300),
            (20, 3, 300),
            (4, 3, 1_000),
            (11, 3, 1_000),
            (14, 4, 1_000),
            (9, 5, 3_000),
            (24, 6, 3_000),
        ],
    );
}

#[test]
fn a_sheet_of_equal_rows_is_found_again() {
    let cuts = Cuts { rows: 4, times: 12, ..PLAIN };
    all_found(
        cuts,
        &[
            (23, 2, 300),
            (27, 3, 300),
            (3, 2, 1_000),
            (4, 2, 1_000),
            (6, 2, 1_000),
            (9, 3, 1_000),
            (18, 0, 1_000),
            (20, 8, 1_000),
            (23, 0, 1_000),
            (24, 4, 1_000),
        ],
    );
}

#[test]
fn a_sheet_is_found_again_from_turned_pieces() {
    let cuts = Cuts { rows: 5, turned: true, ..PLAIN };
    all_found(
        cuts,
        &[
            (2, 3, 300),
            (7, 4, 300),
            (12, 3, 300),
            (13, 1, 300),
            (14, 9, 300),
            (18, 9, 300),
            (19, 8, 300),
            (8, 3, 1_000),
            (14, 1, 1_000),
            (18, 3, 1_000),
            (20, 9, 1_000),
        ],
    );
}

#[test]
fn a_sheet_with_pieces_for_the_edge_is_found_again() {
    let cuts = Cuts { edge: true, loss: 1, ..PLAIN };
    all_found(
        cuts,
        &[(6, 7, 300), (29, 2, 300), (1, 3, 1_000), (6, 2, 1_000), (9, 2, 1_000), (0, 7, 3_000), (11, 1, 3_000)],
    );
}

#[test]
fn a_sheet_with_marks_is_found_again() {
    let cuts = Cuts { rows: 5, marks: Some([10, 10]), ..PLAIN };
    all_found(cuts, &[(14, 9, 300), (14, 9, 1_000), (14, 9, 3_000)]);
}

#[test]
fn a_sheet_with_marks_of_two_kinds_is_found_again() {
    let cuts = Cuts { rows: 5, times: 4, marks: Some([4, 6]), ..PLAIN };
    all_found(cuts, &[(12, 0, 300), (4, 2, 1_000), (18, 3, 1_000), (10, 2, 3_000), (11, 0, 3_000), (6, 5, 3_000)]);
}

#[test]
fn pieces_without_marks_are_found_between_the_marks() {
    let cuts = Cuts { rows: 4, marks: Some([10, 10]), gaps: true, ..PLAIN };
    all_found(cuts, &[(0, 5, 300), (52, 4, 300), (8, 1, 1_000), (10, 1, 1_000), (59, 0, 1_000), (7, 1, 3_000)]);
}

#[test]
fn a_sheet_is_found_again_where_the_cloth_ends_with_it() {
    let cuts = Cuts { rows: 5, ends: Ends::One, ..PLAIN };
    all_found(
        cuts,
        &[(9, 9, 300), (11, 0, 300), (24, 6, 300), (29, 1, 300), (9, 1, 1_000), (20, 4, 1_000), (22, 9, 1_000)],
    );
}

#[test]
fn a_sheet_with_marks_is_found_again_where_the_cloth_ends_with_it() {
    let cuts = Cuts { rows: 4, times: 4, ends: Ends::One, marks: Some([10, 10]), edge: true, gaps: true, ..PLAIN };
    all_found(
        cuts,
        &[
            (0, 1, 300),
            (41, 1, 300),
            (46, 8, 300),
            (53, 0, 300),
            (56, 8, 300),
            (6, 2, 1_000),
            (9, 4, 1_000),
            (26, 8, 1_000),
        ],
    );
}

#[test]
fn two_sheets_are_found_again_on_a_remnant_and_a_roll() {
    let cuts = Cuts { rows: 3, times: 3, ends: Ends::First, ..PLAIN };
    all_found(
        cuts,
        &[
            (1, 7, 300),
            (2, 0, 300),
            (6, 2, 300),
            (15, 8, 300),
            (20, 1, 300),
            (27, 5, 300),
            (0, 1, 1_000),
            (12, 1, 1_000),
            (17, 6, 1_000),
            (26, 0, 1_000),
        ],
    );
}

#[test]
fn two_sheets_with_marks_are_found_again_on_a_remnant_and_a_roll() {
    let cuts = Cuts { rows: 2, times: 3, ends: Ends::First, marks: Some([8, 8]), ..PLAIN };
    all_found(
        cuts,
        &[(3, 6, 300), (5, 1, 300), (10, 0, 300), (13, 2, 300), (21, 1, 300), (15, 2, 3_000), (29, 3, 3_000)],
    );
}

#[test]
fn what_is_found_on_the_way_is_told_with_the_bound_that_the_sheet_meets() {
    for (sheet, seed) in [(12, 9), (13, 4), (19, 0), (20, 3)] {
        let mut rectangles = Vec::new();
        let length = cut_up(&mut fastrand::Rng::with_seed(sheet), PLAIN, 40, &mut rectangles);
        let (answer, progress, _) = told(&endless(40, rectangles), seed, 10_000);
        assert_eq!((answer.length, answer.bound, answer.proved), (length, length, true));
        // First by the greedy rule, again with the strong bound, then ever shorter.
        assert!(progress.len() > 2 && progress[0] == progress[1] && progress[1..].is_sorted_by(|one, next| one > next));
        assert!(progress.iter().all(|&(_, bound)| bound == length));
        assert_eq!(progress.last(), Some(&(length, length)));
    }
}
