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
