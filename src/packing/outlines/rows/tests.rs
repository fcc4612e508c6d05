//! Rows worked by hand: how many, how long, and which pattern nests.

use super::*;
use crate::outlines::tests::{Made, fixed, polygon};
use crate::problem::{Polygon, Starts};

fn places(placements: &[PosePlacement]) -> Vec<(i64, i64, bool)> {
    placements.iter().map(|placed| (placed.along, placed.across, placed.mirrored)).collect()
}

#[test]
fn a_piece_is_cleared_to_the_first_place_free_of_its_row() {
    let mut rng = fastrand::Rng::with_seed(6);
    let sizes = [(9, 4), (3, 7), (5, 2)];
    let made = Made::new(20, 1, &sizes.map(|(long, high)| fixed(long, high, 1)));
    for _ in 0..1500 {
        let row: Vec<PosePlacement> = (0..rng.usize(0..6))
            .map(|_| {
                let item = rng.usize(..3);
                made.placed(item, rng.i64(0..40), rng.i64(0..=20 - sizes[item].1))
            })
            .collect();
        let (item, least, every) = (rng.usize(..3), rng.i64(0..30), rng.i64(1..4));
        let across = rng.i64(0..=20 - sizes[item].1);
        let pose = made.prepared.items[item].plain[0];
        let free = |along: &i64| {
            along % every == 0
                && row.iter().all(|other| {
                    let (size, own) = (sizes[other.item], sizes[item]);
                    other.along + size.0 < *along
                        || along + own.0 < other.along
                        || other.across + size.1 < across
                        || across + own.1 < other.across
                })
        };
        let begin = |along: i64| (along + every - 1) / every * every;
        assert_eq!(clear(&made.table(), &row, pose, across, least, begin), (least..500).find(free), "{row:?}");
    }
}

#[test]
fn patterns_are_the_poses_at_the_shifts_where_they_touch() {
    let told = |made: &Made, item: usize| -> Vec<(i64, i64, i64)> {
        patterns(&made.table(), item, false)
            .iter()
            .map(|pattern| (pattern.beats[0].1, pattern.beats[1].1, pattern.high))
            .collect()
    };
    // 10 high: the second lies 10 lower, level, or 10 higher.
    let made = Made::new(20, 0, &[fixed(30, 10, 1)]);
    assert_eq!(told(&made, 0), vec![(10, 0, 20), (0, 0, 10), (0, 10, 20)]);
    let made = Made::new(19, 0, &[fixed(30, 10, 1), Polygon { at_edge: true, ..fixed(30, 9, 1) }]);
    assert_eq!((told(&made, 0), told(&made, 1)), (vec![(0, 0, 10)], vec![(0, 0, 9)]));
    let made = Made::new(40, 0, &[Polygon { at_edge: true, ..fixed(30, 10, 1) }]);
    assert_eq!(told(&made, 0), vec![(0, 0, 10)]);
    // Turned by a quarter, 30 high: both level at the low and at the high end, and past each other.
    let made = Made::new(40, 0, &[Polygon { quarter: true, ..fixed(30, 10, 1) }]);
    let all = told(&made, 0);
    assert_eq!(all[..3], [(10, 0, 20), (0, 0, 10), (0, 10, 20)]);
    assert_eq!(all[3..7], [(30, 0, 40), (20, 0, 30), (0, 0, 30), (0, 10, 40)]);
    assert_eq!(all[7..], [(10, 0, 40), (0, 0, 30), (0, 20, 30), (0, 30, 40), (0, 0, 30)]);
    // Of many shifts a sample of up to 24, and level at the low and the high end.
    let bowl: Vec<(i64, i64)> = (0..30).map(|i| (40 * i, 10 * i * i)).collect();
    let made = Made::new(20_000, 0, &[polygon(&bowl, 1)]);
    let levels = {
        let pose = made.prepared.items[0].plain[0].outline;
        let forbidden = made.pairs.get(pose, pose).unwrap();
        let mut levels: Vec<i64> =
            forbidden.parts.iter().flat_map(|part| part.corners.iter().map(|corner| corner.1)).collect();
        levels.sort_unstable();
        levels.dedup();
        levels
    };
    assert!(levels.len() > 24 && levels.len() <= 72, "{}", levels.len());
    let step = if levels.len() > 48 { 3 } else { 2 };
    let mut expected: Vec<i64> = levels.into_iter().step_by(step).chain([0]).collect();
    expected.sort_unstable();
    expected.dedup();
    let found: Vec<i64> = told(&made, 0).iter().map(|pattern| pattern.1 - pattern.0).collect();
    assert_eq!(found, expected);
}

#[test]
fn as_many_rows_as_fit_take_equal_shares() {
    let laid = |width: i64, changed: &dyn Fn(&mut Polygon), pairs: bool, count: usize, start: i64| {
        let mut kind = Polygon { mirror: true, ..fixed(30, 10, 2) };
        changed(&mut kind);
        let made = Made::new(width, 2, &[kind]);
        let pose = made.prepared.items[0].plain[0];
        let pattern = Pattern { beats: vec![(pose, 0), (pose, 0)], high: 10 };
        places(&lay(&made.table(), 0, pairs, &pattern, count, start).unwrap())
    };
    let plain = |places: &[(i64, i64)]| -> Vec<(i64, i64, bool)> {
        places.iter().map(|&(along, across)| (along, across, false)).collect()
    };
    // 22 is exactly two rows with their gap.
    let two = plain(&[(7, 0), (39, 0), (71, 0), (7, 12), (39, 12)]);
    assert_eq!(laid(22, &|_| (), false, 5, 7), two);
    assert_eq!(laid(33, &|_| (), false, 5, 7), two);
    let three = plain(&[(7, 0), (39, 0), (7, 12), (39, 12), (7, 24)]);
    assert_eq!(laid(34, &|_| (), false, 5, 7), three);
    let one = plain(&[(7, 0), (39, 0), (71, 0), (103, 0), (135, 0)]);
    assert_eq!(laid(21, &|_| (), false, 5, 7), one);
    assert_eq!(laid(22, &|kind| kind.at_edge = true, false, 5, 7), one);
    // Pairs stay together: four and two, every other mirrored.
    let pairs = laid(22, &|_| (), true, 6, 0);
    let row = [(0, 0, false), (32, 0, true), (64, 0, false), (96, 0, true)];
    assert_eq!(pairs, [&row[..], &[(0, 12, false), (32, 12, true)]].concat());
    let starting = |kind: &mut Polygon| kind.starts = Some(Starts { first: 5, every: 20 });
    assert_eq!(laid(21, &starting, false, 3, 0), plain(&[(5, 0), (45, 0), (85, 0)]));
}

#[test]
fn the_beats_of_a_row_lie_at_their_shifts() {
    let made = Made::new(47, 2, &[fixed(30, 10, 1)]);
    let pose = made.prepared.items[0].plain[0];
    let pattern = Pattern { beats: vec![(pose, 0), (pose, 12)], high: 22 };
    // 46 across for two rows of pairs, one above the other, at 0 and 24.
    let found = places(&lay(&made.table(), 0, false, &pattern, 5, 0).unwrap());
    let expected = [(0, 0), (0, 12), (32, 0), (0, 24), (0, 36)].map(|(along, across)| (along, across, false));
    assert_eq!(found, expected);
}

#[test]
fn gores_lie_head_to_foot_kind_after_kind() {
    // Each leans 85 along on 500: 260, and 175 for each further one. Half as high: 42 and 130, and 88 more.
    let gore = Polygon { half: true, ..polygon(&[(85, 0), (175, 0), (260, 500), (0, 500)], 1) };
    let small = Polygon { half: true, ..polygon(&[(40, 0), (90, 0), (130, 250), (0, 250)], 1) };
    for (width, gap, counts, length) in [
        (500, 0, (1, 0), 260),
        (500, 0, (6, 0), 260 + 5 * 175),
        (999, 0, (6, 0), 260 + 5 * 175),
        // Two rows of three.
        (1000, 0, (6, 0), 260 + 2 * 175),
        (1000, 0, (5, 0), 260 + 2 * 175),
        // The others after them: two rows of two, each leaning 40, or at 1000 across four rows of one.
        (500, 0, (2, 4), 260 + 175 + 130 + 90),
        (1000, 0, (2, 4), 260 + 130),
    ] {
        let made = Made::new(width, gap, &[gore.clone(), small.clone()]);
        // In any order.
        let mut pieces = vec![(1, false); counts.1];
        pieces.extend(vec![(0, false); counts.0]);
        let placements = fill(&made.table(), &pieces).unwrap();
        assert_eq!((placements.len(), made.table().length(&placements)), (pieces.len(), length), "{width}, {counts:?}");
        assert!(made.table().is_valid(&placements));
    }
    // One of two is the mirror image of the other.
    let made = Made::new(10, 0, &[Polygon { mirror: true, ..fixed(30, 10, 2) }]);
    let pair = places(&fill(&made.table(), &[(0, true), (0, false)]).unwrap());
    assert_eq!(pair, vec![(0, 0, false), (30, 0, true)]);
    let made = Made::new(499, 0, &[gore]);
    assert!(fill(&made.table(), &[(0, false)]).is_none());
    // A gap also between kinds: 30 + 3 + 20.
    let made = Made::new(10, 3, &[fixed(30, 10, 1), fixed(20, 10, 1)]);
    assert_eq!(places(&fill(&made.table(), &[(0, false), (1, false)]).unwrap()), vec![(0, 0, false), (33, 0, false)]);
}
