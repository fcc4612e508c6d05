//! Layouts checked by other means than those that make them: whole problems, small, hostile and random.

use super::geometry::{self, Point};
use super::*;
use crate::effort::Watch;
use crate::problem::{Polygon, Starts};
use std::sync::atomic::AtomicBool;

/// What layouts of these polygons on a strip are made with.
pub(super) struct Made {
    pub(super) prepared: outline::Prepared,
    pub(super) pairs: Pairs,
    width: i64,
    gap: i64,
}

impl Made {
    pub(super) fn new(width: i64, gap: i64, polygons: &[Polygon]) -> Self {
        let prepared = outline::prepare(polygons).unwrap();
        let pairs = Pairs::new(&prepared.outlines, gap, &mut many_steps());
        Self { prepared, pairs, width, gap }
    }

    pub(super) fn table(&self) -> Table<'_> {
        Table { prepared: &self.prepared, pairs: &self.pairs, width: self.width, gap: self.gap }
    }

    /// A piece in its first pose.
    pub(super) fn placed(&self, item: usize, along: i64, across: i64) -> PosePlacement {
        PosePlacement { item, mirrored: false, pose: self.prepared.items[item].plain[0], along, across }
    }
}

/// More steps than anything small takes.
pub(super) fn many_steps() -> Steps<'static> {
    steps(1_000_000_000)
}

pub(super) fn steps(steps: u64) -> Steps<'static> {
    static STOP: AtomicBool = AtomicBool::new(false);
    Steps::new(steps, Watch::silent(&STOP))
}

/// A shape that is neither turned nor mirrored.
pub(super) fn polygon(corners: &[Point], count: i64) -> Polygon {
    Polygon::new(corners.to_vec(), count)
}

/// An oblong that is not turned.
pub(super) fn fixed(long: i64, high: i64, count: i64) -> Polygon {
    polygon(&[(0, 0), (long, 0), (long, high), (0, high)], count)
}

fn shape(corners: &[Point], count: i64) -> Polygon {
    Polygon { half: true, ..Polygon::new(corners.to_vec(), count) }
}

fn oblong(long: i64, high: i64, count: i64) -> Polygon {
    shape(&[(0, 0), (long, 0), (long, high), (0, high)], count)
}

fn gore(count: i64) -> Polygon {
    shape(&[(85, 0), (175, 0), (260, 500), (0, 500)], count)
}

fn endless(width: i64, polygons: Vec<Polygon>) -> PolygonProblem {
    PolygonProblem::endless(width, polygons)
}

fn solved(problem: &PolygonProblem, steps: u64) -> StripSolution {
    let stop = AtomicBool::new(false);
    let answer = solve(problem, 1, &mut Steps::new(steps, Watch::silent(&stop))).unwrap();
    assert_eq!(soundness::polygons(problem, &answer), Ok(()), "{problem:?}");
    answer
}

#[test]
fn problems_that_are_none_are_refused() {
    let stop = AtomicBool::new(false);
    let solve = |problem: &PolygonProblem| solve(problem, 1, &mut Steps::new(1000, Watch::silent(&stop)));
    let good = endless(1000, vec![gore(2)]);
    assert!(solve(&good).is_ok());
    let mut odd = gore(3);
    odd.mirror = true;
    let mut still = gore(1);
    still.starts = Some(Starts { first: 0, every: 0 });
    for shape in [odd, still, gore(-1), shape(&[(0, 0), (9, 9)], 1), oblong(i64::MAX, 1, 1), gore(i64::MAX)] {
        assert!(solve(&endless(1000, vec![shape])).is_err());
    }
    assert!(solve(&endless(0, vec![gore(1)])).is_err());
    assert!(solve(&PolygonProblem { stretches: Vec::new(), ..good.clone() }).is_err());
    let ends = vec![Stretch { width: 9, length: None }; 2];
    assert!(solve(&PolygonProblem { stretches: ends, ..good.clone() }).is_err());
    assert!(solve(&PolygonProblem { gap: -1, ..good }).is_err());
}

#[test]
fn nothing_takes_nothing_and_what_is_too_wide_stays_over() {
    assert_eq!(solved(&endless(100, Vec::new()), 1000).length, 0);
    assert_eq!(solved(&endless(100, vec![oblong(5, 5, 0)]), 1000).placements, Vec::new());
    let answer = solved(&endless(100, vec![oblong(5, 101, 3), oblong(5, 100, 2)]), 1000);
    assert_eq!((answer.unplaced, answer.length), (vec![(0, 3)], 10));
}

#[test]
fn two_gores_nest_head_to_foot() {
    // Each slanted side leans 85 along on 500 across: 260 and then 90 + 85 each time.
    assert_eq!(solved(&endless(500, vec![gore(2)]), 1000).length, 260 + 175);
    assert_eq!(solved(&endless(500, vec![gore(7)]), 1000).length, 260 + 6 * 175);
}

#[test]
fn pieces_of_a_pattern_begin_on_it_and_pieces_of_an_edge_lie_on_it() {
    let mut striped = gore(5);
    striped.starts = Some(Starts { first: 30, every: 100 });
    let mut border = oblong(200, 100, 3);
    border.at_edge = true;
    let answer = solved(&endless(1000, vec![striped, border]), 20_000);
    assert!(answer.length >= 600);
}

#[test]
fn mirrored_pairs_come_half_and_half() {
    let mut sleeve = shape(&[(0, 0), (400, 60), (400, 300), (120, 380), (0, 240)], 6);
    sleeve.mirror = true;
    for steps in [1, 100, 50_000] {
        solved(&endless(900, vec![sleeve.clone(), gore(3)]), steps);
    }
}

#[test]
fn remnants_are_filled_first() {
    let stretches = vec![
        Stretch { width: 600, length: Some(450) },
        Stretch { width: 80, length: Some(5000) },
        Stretch { width: 1000, length: None },
    ];
    let problem = PolygonProblem { stretches, polygons: vec![gore(6)], gap: 0 };
    let answer = solved(&problem, 20_000);
    assert_eq!(answer.placements.iter().filter(|placed| placed.stretch == 0).count(), 2);
    let stretches = vec![Stretch { width: 600, length: Some(450) }];
    assert_eq!(solved(&PolygonProblem { stretches, ..problem }, 20_000).unplaced, vec![(0, 4)]);
}

#[test]
fn the_gap_is_kept() {
    let problem = PolygonProblem { gap: 2000, ..endless(100_000, vec![oblong(30_000, 49_000, 4)]) };
    assert_eq!(solved(&problem, 10_000).length, 62_000);
}

#[test]
fn the_same_seed_and_steps_give_the_same_layout() {
    let problem =
        endless(1480, vec![gore(9), oblong(90, 640, 2), shape(&[(45, 0), (295, 0), (340, 420), (0, 420)], 4)]);
    assert_eq!(solved(&problem, 60_000), solved(&problem, 60_000));
}

#[test]
fn random_problems_are_laid_right() {
    let mut rng = fastrand::Rng::with_seed(11);
    for round in 0..60 {
        let shapes = (0..rng.usize(1..5))
            .filter_map(|_| {
                let corners: Vec<Point> = (0..rng.usize(3..8)).map(|_| (rng.i64(0..300), rng.i64(0..300))).collect();
                let corners = geometry::tidied(&corners)?;
                let mut shape = shape(&corners, 2 * rng.i64(0..4));
                (shape.quarter, shape.half, shape.mirror) = (rng.bool(), rng.bool(), rng.bool());
                shape.starts = (rng.u8(0..5) == 0).then(|| Starts { first: rng.i64(0..50), every: rng.i64(1..200) });
                shape.at_edge = rng.u8(0..8) == 0;
                Some(shape)
            })
            .collect();
        let mut problem = endless(rng.i64(100..700), shapes);
        if rng.u8(0..3) == 0 {
            // Scale up until the gap is kept with a circle, not a square.
            let far = |length: i64| length * 10_000;
            problem.gap = 5000 * rng.i64(1..20);
            problem.stretches[0].width = far(problem.stretches[0].width);
            for shape in &mut problem.polygons {
                shape.corners.iter_mut().for_each(|corner| *corner = (far(corner.0), far(corner.1)));
            }
        }
        if rng.u8(0..4) == 0 {
            problem.stretches.insert(0, Stretch { width: rng.i64(100..500), length: Some(rng.i64(100..600)) });
        }
        solved(&problem, if round % 3 == 0 { 20 } else { 4000 });
    }
}

#[test]
fn sectors_of_rings_nest_and_fill_the_width_they_were_made_for() {
    let ring = |inner: f64, outer: f64, turn: f64, count: i64| {
        let corners = sector(inner, outer, turn, 100_000.0).unwrap();
        Polygon { quarter: true, ..shape(&corners, count) }
    };
    // Two half circles of half the width fit beside each other in one radius, or end to end across.
    let halves = ring(110e6, 700e6, 0.5, 2);
    let high = geometry::around(&halves.corners).1.1;
    let answer = solved(&endless(2 * high, vec![halves]), 30_000);
    assert!(answer.length <= 1_400_200_000);
    solved(&endless(1_500_000_000, vec![ring(140e6, 900e6, 0.25, 4), ring(180e6, 420e6, 0.75, 2), gore(3)]), 30_000);
}

#[test]
fn outlines_beyond_all_use_are_laid_as_boxes() {
    let mut rng = fastrand::Rng::with_seed(5);
    let star: Vec<Point> = (0..1300)
        .map(|i| {
            let angle = f64::from(i) / 1300.0 * std::f64::consts::TAU;
            let far = 1e9 * (0.2 + rng.f64());
            let whole = |value: f64| number::nearest_whole(value).unwrap();
            (whole(far * angle.cos()), whole(far * angle.sin()))
        })
        .collect();
    let answer = solved(&endless(3_000_000_000, vec![shape(&star, 4), gore(3)]), 3000);
    assert_eq!(answer.placements.len(), 7);
}

#[test]
fn many_pieces_and_many_kinds_are_laid_at_once() {
    let stop = AtomicBool::new(false);
    let many = endless(
        1_480_000_000,
        vec![shape(&[(85, 0), (175, 0), (260, 500), (0, 500)].map(|(a, b)| (a * 1_000_000, b * 1_000_000)), 1_000_000)],
    );
    let answer = solve(&many, 1, &mut Steps::new(1000, Watch::silent(&stop))).unwrap();
    assert_eq!((answer.placements.len(), answer.unplaced.len()), (1_000_000, 0));
    let items = (1..=10_000).map(|i| oblong(i, 10_000 - i / 2, 1 + i % 2)).collect();
    let answer = solve(&endless(20_000, items), 1, &mut Steps::new(1000, Watch::silent(&stop))).unwrap();
    assert_eq!((answer.placements.len(), answer.unplaced.len()), (15_000, 0));
}

#[test]
fn the_largest_numbers_are_borne() {
    let far = FARTHEST / 2;
    let kite = shape(&[(-far, -far), (far, -far), (far, far), (0, far / 2), (-far, far)], 3);
    solved(&endless(FARTHEST, vec![kite.clone(), oblong(1, far, 2)]), 3000);
    solved(&PolygonProblem { gap: FARTHEST, ..endless(FARTHEST, vec![kite, oblong(1, 1, 2)]) }, 3000);
}

/// Sets one number of a problem.
type Setting = fn(&mut PolygonProblem, i64);

#[test]
fn a_problem_is_checked_at_every_limit() {
    let eighth = i64::MAX / 8;
    let with = |change: &dyn Fn(&mut PolygonProblem)| {
        let mut problem = endless(1000, vec![fixed(3, 2, 4)]);
        change(&mut problem);
        check(&problem).is_some()
    };
    let width: Setting = |problem, value| problem.stretches[0].width = value;
    let first_length: Setting = |problem, value| problem.stretches.insert(0, Stretch { width: 5, length: Some(value) });
    let gap: Setting = |problem, value| problem.gap = value;
    let count: Setting = |problem, value| problem.polygons[0].count = value;
    let along: Setting = |problem, value| problem.polygons[0].corners[1].0 = value;
    let across: Setting = |problem, value| problem.polygons[0].corners[2].1 = value;
    let first: Setting = |problem, value| problem.polygons[0].starts = Some(Starts { first: value, every: 1 });
    let every: Setting = |problem, value| {
        problem.polygons[0].count = 0;
        problem.polygons[0].starts = Some(Starts { first: 0, every: value });
    };
    let pairs: Setting = |problem, value| {
        problem.polygons[0].mirror = true;
        problem.polygons[0].count = value;
    };
    let corners: Setting = |problem, value| problem.polygons[0].corners = vec![(0, 0); number::count(value).unwrap()];
    let all_corners: Setting = |problem, value| {
        problem.polygons = vec![polygon(&[(0, 0); 1000], 1); 99];
        problem.polygons.push(polygon(&vec![(0, 0); number::count(value - 99_000).unwrap()], 1));
    };
    let all_pieces: Setting = |problem, value| {
        problem.polygons = vec![fixed(3, 2, 700_000), fixed(2, 3, value - 700_000)];
    };
    // Two kinds of 4 with a size of 3 and 5, a gap of 6, the first beginning at 6, the second at any place.
    let end_to_end: Setting = |problem, value| {
        let starts = Some(Starts { first: 6, every: value });
        let moved = |kind: Polygon, off: i64| Polygon {
            corners: kind.corners.iter().map(|corner| (corner.0 + off, corner.1 - 2 * off)).collect(),
            ..kind
        };
        problem.polygons = vec![Polygon { starts, ..moved(fixed(3, 2, 4), 100) }, moved(fixed(1, 5, 4), -70)];
        problem.gap = 6;
    };
    // 6 + 4·(3 + e + 6) + 4·(5 + 1 + 6) = 90 + 4·e is below 2^61: 4·e up to 2^61 − 92.
    let most_apart = (1 << 59) - 23;
    // With a last stretch of given length that comes first, then 4·(3 + 1) after it.
    let last_length: Setting = |problem, value| problem.stretches[0].length = Some(value);
    let last = (1 << 61) - 17;
    for (name, setting, low, high) in [
        ("width", width, 1, FARTHEST),
        ("length", first_length, 0, i64::MAX / 4),
        ("gap", gap, 0, FARTHEST),
        ("count", count, 0, MOST_PIECES),
        ("along", along, -FARTHEST / 2, FARTHEST / 2),
        ("across", across, -FARTHEST / 2, FARTHEST / 2),
        ("first", first, 0, eighth),
        ("every", every, 1, eighth),
        ("corners", corners, 0, 1300),
        ("corners in all", all_corners, 99_000, 100_000),
        ("pieces in all", all_pieces, 700_000, 2_000_000),
        ("end to end", end_to_end, 1, most_apart),
        ("last length", last_length, 0, last),
    ] {
        assert!(with(&|problem| setting(problem, low)) && with(&|problem| setting(problem, high)), "{name}");
        assert!(!with(&|problem| setting(problem, high + 1)), "{name}");
        if low <= 1 {
            assert!(low == 0 && name == "corners" || !with(&|problem| setting(problem, low - 1)), "{name}");
        }
    }
    assert_eq!((FARTHEST, MOST_PIECES), (20_000_000_000_000, 2_000_000));
    assert!(with(&|problem| pairs(problem, 6)) && !with(&|problem| pairs(problem, 7)));
    assert!(!with(&|problem| problem.stretches.clear()));
    assert!(!with(&|problem| problem.stretches.insert(0, Stretch::endless(5))));
    assert!(!with(&|problem| problem.stretches.insert(0, Stretch { width: 0, length: Some(5) })));
}

#[test]
fn a_layout_is_at_least_as_long_as_its_area_and_its_longest_piece() {
    // Right triangles of 7 by 5, half of 35 each, on a width of 10.
    let triangle = polygon(&[(0, 0), (7, 0), (0, 5)], 21);
    let made = Made::new(10, 0, &[triangle.clone(), fixed(9, 2, 1)]);
    let laid = |item: usize, count: usize| vec![made.placed(item, 0, 0); count];
    assert_eq!(least_length(&made.table(), &laid(0, 20)), 35);
    assert_eq!(least_length(&made.table(), &laid(0, 21)), 37);
    assert_eq!(least_length(&made.table(), &laid(0, 1)), 7);
    assert_eq!(least_length(&made.table(), &[]), 0);
    // 20·35/2 + 3·18 = 404 on 10.
    assert_eq!(least_length(&made.table(), &[laid(0, 20), laid(1, 3)].concat()), 41);
    assert_eq!(least_length(&made.table(), &[laid(0, 1), laid(1, 1)].concat()), 9);
    // It begins at 4 at the soonest; turned by a quarter it is 5 long, where the strip is wide enough for that.
    let quarter = Polygon { quarter: true, starts: Some(Starts { first: 4, every: 50 }), ..triangle };
    for (width, least) in [(7, 9), (6, 11)] {
        let made = Made::new(width, 0, std::slice::from_ref(&quarter));
        assert_eq!(least_length(&made.table(), &[made.placed(0, 4, 0)]), least);
    }
}

#[test]
fn a_solution_tells_its_bound_and_whether_it_is_proved() {
    // A gore has (90 + 260) / 2 · 500.
    let answer = solved(&endless(500, vec![gore(7)]), 1000);
    assert_eq!((answer.bound, answer.proved), (7 * 175, false));
    let answer = solved(&endless(100, vec![oblong(5, 100, 3)]), 1000);
    assert_eq!((answer.length, answer.bound, answer.proved), (15, 15, true));
    // What stays over proves nothing.
    let answer = solved(&endless(100, vec![oblong(5, 100, 3), oblong(4, 101, 2)]), 1000);
    assert_eq!((answer.bound, answer.proved, answer.unplaced), (15, false, vec![(1, 2)]));
    let counts = [(2, false), (0, true), (2, true), (0, false), (2, false)];
    assert_eq!(counted(&counts), vec![(0, 2), (2, 3)]);
}

#[test]
fn a_stretch_of_given_length_is_nested_while_the_pieces_are_few() {
    // Two gores nest on 435; as boxes one fits beside none.
    let placed = |count: i64, budget: u64| {
        let made = Made::new(600, 0, &[gore(1)]);
        let pieces = vec![(0, false); number::count(count).unwrap()];
        let (placed, left) = limited(&made.table(), &pieces, 450, &mut steps(budget));
        (placed.len(), left.len())
    };
    assert_eq!(placed(6, 1000), (2, 4));
    assert_eq!(placed(400, 1000), (2, 398));
    assert_eq!(placed(401, 1000), (1, 400));
    assert_eq!(placed(6, 0), (1, 5));
    // The larger of two kinds comes first.
    let made = Made::new(100, 0, &[fixed(60, 50, 1), fixed(70, 80, 1), fixed(90, 10, 1)]);
    let pieces = [(0, false), (1, false), (2, false)];
    let (placed, left) = limited(&made.table(), &pieces, 95, &mut many_steps());
    assert_eq!(placed.iter().map(|one| one.item).collect::<Vec<_>>(), vec![1, 2]);
    assert_eq!(left, vec![(0, false)]);
}
