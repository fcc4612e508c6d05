//! Places found by bottom-left fill against every place tried, and the steps that takes.

use super::*;
use crate::outlines::tests::{Made, fixed, steps};
use crate::problem::{Polygon, Starts};

fn ends(table: &Table<'_>, placements: &[PosePlacement]) -> Vec<(usize, i64, i64)> {
    placements.iter().map(|placed| (placed.item, placed.along + table.size(placed.pose).0, placed.across)).collect()
}

/// Whether two oblongs, each as its low corner and its size, are the gap apart.
fn apart(one: ((i64, i64), (i64, i64)), other: ((i64, i64), (i64, i64)), gap: i64) -> bool {
    let beside = |from: i64, size: i64, to: i64| from + size + gap <= to;
    let ((low, size), (other_low, other_size)) = (one, other);
    beside(low.0, size.0, other_low.0)
        || beside(other_low.0, other_size.0, low.0)
        || beside(low.1, size.1, other_low.1)
        || beside(other_low.1, other_size.1, low.1)
}

#[test]
fn a_piece_ends_first_of_all_places_and_then_lies_lowest() {
    let mut rng = fastrand::Rng::with_seed(9);
    let mut placed = 0;
    for round in 0..300 {
        let (width, gap) = (rng.i64(8..18), rng.i64(0..2));
        let mut sizes: Vec<(i64, i64)> = (0..4).map(|_| (rng.i64(1..9), rng.i64(1..8))).collect();
        sizes[0] = (rng.i64(1..9), rng.i64(1..8));
        let mut kinds: Vec<Polygon> = sizes.iter().map(|&(long, high)| fixed(long, high, 1)).collect();
        let starts = (round % 3 == 0).then(|| Starts { first: rng.i64(0..4), every: rng.i64(1..7) });
        (kinds[0].quarter, kinds[0].at_edge, kinds[0].starts) = (round % 2 == 0, round % 5 == 0, starts);
        let made = Made::new(width, gap, &kinds);
        let table = made.table();
        let others: Vec<PosePlacement> = (0..rng.usize(0..7))
            .map(|_| {
                let item = rng.usize(1..4);
                made.placed(item, rng.i64(0..20), rng.i64(0..=width - sizes[item].1))
            })
            .collect();
        let limit = (round % 4 == 0).then(|| rng.i64(4..25));
        let poses = if kinds[0].quarter { vec![sizes[0], (sizes[0].1, sizes[0].0)] } else { vec![sizes[0]] };
        let mut least: Option<(i64, i64)> = None;
        for size in poses.into_iter().filter(|size| size.1 <= width) {
            for across in 0..=if kinds[0].at_edge { 0 } else { width - size.1 } {
                let free = |along: &i64| {
                    starts.is_none_or(|starts| *along >= starts.first && (*along - starts.first) % starts.every == 0)
                        && others.iter().all(|other| {
                            apart(((*along, across), size), ((other.along, other.across), sizes[other.item]), gap)
                        })
                };
                let Some(along) = (0..200).find(free) else { continue };
                if limit.is_none_or(|limit| along + size.0 <= limit) {
                    least = Some(least.map_or((along + size.0, across), |least| least.min((along + size.0, across))));
                }
            }
        }
        let found = place(&table, &others, (0, false), limit, &mut steps(100_000));
        assert_eq!(found.map(|one| (one.along + table.size(one.pose).0, one.across)), least, "{round}");
        placed += usize::from(found.is_some());
    }
    assert!(placed > 200);
}

#[test]
fn pieces_go_one_by_one_where_there_is_room() {
    let made = Made::new(100, 4, &[fixed(60, 50, 1), fixed(30, 40, 1), fixed(20, 30, 1)]);
    let table = made.table();
    let pieces = [(0, false), (1, false), (2, false), (2, false)];
    let (placed, left) = fill(&table, &pieces, None, &mut steps(1000));
    // The second beside the first; behind it, at 34, there is room for the third; the fourth beside both at 64.
    assert_eq!(ends(&table, &placed), vec![(0, 60, 0), (1, 30, 54), (2, 54, 54), (2, 78, 54)]);
    assert!(left.is_empty());
    // Up to 60: the last stays over.
    let (placed, left) = fill(&table, &pieces, Some(60), &mut steps(1000));
    assert_eq!((placed.len(), left), (3, vec![(2, false)]));
}

#[test]
fn what_did_not_fit_is_not_tried_again() {
    let made = Made::new(100, 0, &[fixed(60, 50, 1), fixed(30, 40, 1)]);
    let pieces = [(0, false), (0, false), (0, false), (1, false)];
    let mut budget = steps(1000);
    let (placed, left) = fill(&made.table(), &pieces, Some(59), &mut budget);
    assert_eq!((placed.len(), left), (1, vec![(0, false); 3]));
    // A step for each of two places on an empty strip, for the one that does not fit and the one that does.
    assert_eq!(budget.left(), 1000 - 2 - 2);
}

#[test]
fn without_steps_pieces_go_end_to_end() {
    let starting = Polygon { starts: Some(Starts { first: 7, every: 10 }), ..fixed(25, 30, 1) };
    let made = Made::new(100, 4, &[fixed(60, 50, 1), starting]);
    let table = made.table();
    let pieces = [(0, false), (0, false), (1, false), (1, false)];
    // 60, and 64 + 60; then from 128 on, at 137, and from 166 on, at 167.
    let expected = vec![(0, 60, 0), (0, 124, 0), (1, 162, 0), (1, 192, 0)];
    assert_eq!(ends(&table, &fill(&table, &pieces, None, &mut steps(0)).0), expected);
    let up_to = |limit: i64| fill(&table, &pieces, Some(limit), &mut steps(0));
    assert_eq!((up_to(192).0.len(), up_to(191).0.len(), up_to(191).1), (4, 3, vec![(1, false)]));
    // The step that is the last is no more than one: the first is placed, all others follow end to end.
    let few = fill(&table, &pieces, None, &mut steps(1)).0;
    assert_eq!(ends(&table, &few), expected);
}

#[test]
fn twenty_four_parts_looked_at_are_a_step() {
    let at_edge = Polygon { at_edge: true, ..fixed(3, 2, 1) };
    let made = Made::new(100, 0, &[at_edge, fixed(5, 2, 1)]);
    let took = |count: i64| {
        let others: Vec<PosePlacement> = (0..count).map(|at| made.placed(1, at * 5, 0)).collect();
        let mut budget = steps(100);
        let placed = place(&made.table(), &others, (0, false), None, &mut budget).unwrap();
        assert_eq!((placed.along, placed.across), (count * 5, 0));
        100 - budget.left()
    };
    assert_eq!([0, 23, 24, 47, 48].map(took), [1, 1, 2, 2, 3]);
}

#[test]
fn levels_are_the_edges_and_touching_corners_and_not_too_many() {
    // Pieces one high at 0, 2, 4, …: between them 1, 3, 5, …; the last level is the edge.
    let levels_of = |count: i64| {
        let made = Made::new(2 * count + 1, 0, &[fixed(3, 1, 1)]);
        let others: Vec<PosePlacement> = (0..count).map(|at| made.placed(0, 7 * at, 2 * at)).collect();
        let pose = made.prepared.items[0].plain[0];
        levels(&made.table(), &others, pose, 2 * count)
    };
    assert_eq!(levels_of(3), vec![0, 1, 3, 5, 6]);
    assert_eq!(levels_of(0), vec![0]);
    let all = |count: i64| -> Vec<i64> {
        [0].into_iter().chain((0..count).map(|at| 2 * at + 1)).chain([2 * count]).collect()
    };
    assert_eq!(levels_of(158), all(158));
    // 161 and 162 are too many: every other, and the last.
    for count in [159, 160] {
        let mut expected: Vec<i64> = all(count).into_iter().step_by(2).chain([2 * count]).collect();
        expected.dedup();
        let mut found = levels_of(count);
        found.dedup();
        assert_eq!(found, expected);
    }
}

#[test]
fn the_first_free_position_is_the_least_that_no_span_holds() {
    let mut rng = fastrand::Rng::with_seed(4);
    let mut none = 0;
    for _ in 0..4000 {
        let mut spans: Vec<(i64, i64)> = (0..rng.usize(0..6))
            .map(|_| {
                let low = rng.i64(-6..20);
                (low, low + rng.i64(1..9))
            })
            .collect();
        spans.sort_unstable();
        let most = rng.i64(0..25);
        let every = rng.i64(1..4);
        let begin = |along: i64| (along + every - 1) / every * every;
        let free = |along: &i64| along % every == 0 && spans.iter().all(|&(low, high)| *along <= low || high <= *along);
        let expected = (0..=most).find(free);
        assert_eq!(first_free(&spans, most, begin), expected, "{spans:?} up to {most}");
        none += usize::from(expected.is_none());
    }
    assert!((200..3800).contains(&none));
}
