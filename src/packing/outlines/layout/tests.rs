//! What makes a layout valid, pair by pair, and when tables of pairs are made.

use super::*;
use crate::outlines::tests::{Made, fixed, many_steps, polygon, steps};
use crate::problem::{Polygon, Starts};
use crate::solution::Turn;

fn outlines(count: usize, corners: usize) -> Vec<Outline> {
    let outline = |_| Outline { parts: vec![vec![(0, 0); corners]], long: 1, high: 1 };
    (0..count).map(outline).collect()
}

#[test]
fn tables_are_made_while_they_are_small_or_there_are_steps_for_them() {
    let made = |outlines: &[Outline], count: u64| {
        let mut steps = steps(count);
        let pairs = Pairs::new(outlines, 0, &mut steps);
        (!pairs.is_empty()).then(|| steps.left())
    };
    // Outlines times corners: 10,000 are few, and half of that is taken if there is so much.
    assert_eq!(made(&outlines(4, 625), 0), Some(0));
    assert_eq!(made(&outlines(4, 625), 7001), Some(2001));
    assert_eq!(made(&outlines(1, 10_001), 4999), None);
    assert_eq!(made(&outlines(1, 10_001), 5003), Some(3));
    // 12 · 25,000 = 300,000 are made, 13 · 23,077 = 300,001 are not.
    let most = |few: usize, corners: usize, more: usize| {
        let mut all = outlines(few, corners);
        all.extend(outlines(1, more));
        made(&all, 160_000)
    };
    assert_eq!(most(11, 2083, 25_000 - 11 * 2083), Some(10_000));
    assert_eq!(most(12, 1775, 23_077 - 12 * 1775), None);
    // Parts times parts, where those are more: 101 · 101 = 10,201.
    let parts = |count: usize| vec![Outline { parts: vec![vec![(0, 0)]; count], long: 1, high: 1 }];
    assert_eq!(made(&parts(101), 5099), None);
    assert_eq!(made(&parts(101), 5107), Some(7));
    assert_eq!(made(&parts(100), 17), Some(0));
}

#[test]
fn a_pair_is_found_by_both_its_outlines() {
    let made = Made::new(100, 0, &[fixed(30, 10, 1), fixed(8, 5, 1), fixed(4, 60, 1)]);
    // Where the second may not lie from the first: from minus its own size to the size of the first.
    for (from, size) in [(30, 10), (8, 5), (4, 60)].into_iter().enumerate() {
        for (to, other) in [(30, 10), (8, 5), (4, 60)].into_iter().enumerate() {
            let forbidden = made.pairs.get(from, to).unwrap();
            assert_eq!((forbidden.low, forbidden.high), ((-other.0, -other.1), size), "{from}, {to}");
        }
    }
    assert!(made.pairs.get(3, 0).is_none());
}

/// An oblong of 30 by 10 that may be turned by a quarter, one of 8 by 5 that lies at the edge, and one of 7 by 4 that
/// begins at 2, 13, 24.
fn ruled(gap: i64) -> Made {
    let turning = Polygon { quarter: true, ..fixed(30, 10, 1) };
    let at_edge = Polygon { at_edge: true, ..fixed(8, 5, 1) };
    let starting = Polygon { starts: Some(Starts { first: 2, every: 11 }), ..fixed(7, 4, 1) };
    Made::new(40, gap, &[turning, at_edge, starting])
}

#[test]
fn a_layout_ends_where_its_last_piece_does() {
    let made = ruled(0);
    let table = made.table();
    assert_eq!(table.length(&[]), 0);
    assert_eq!(table.length(&[made.placed(0, 6, 0), made.placed(1, 30, 0)]), 38);
    assert_eq!(table.length(&[made.placed(0, 9, 0), made.placed(1, 30, 0)]), 39);
    assert_eq!(table.size(made.prepared.items[0].plain[0]), (30, 10));
    assert_eq!(table.size(made.prepared.items[0].plain[1]), (10, 30));
    assert_eq!(table.size(Pose { turn: Turn::None, outline: 9 }), (0, 0));
}

#[test]
fn a_piece_is_valid_where_its_rules_allow() {
    let made = ruled(0);
    let table = made.table();
    for (placed, expected) in [
        (made.placed(0, 0, 0), true),
        (made.placed(0, 3, 30), true),
        (made.placed(0, 3, 31), false),
        (made.placed(0, 3, -1), false),
        (made.placed(0, -1, 0), false),
        (made.placed(1, 5, 0), true),
        (made.placed(1, 5, 1), false),
        (made.placed(1, 5, 3), false),
        (made.placed(2, 2, 9), true),
        (made.placed(2, 13, 9), true),
        (made.placed(2, 12, 9), false),
        (made.placed(2, 0, 9), false),
        // A pose of another kind, a mirrored piece of a kind that is none, and a kind there is not.
        (PosePlacement { item: 2, ..made.placed(1, 2, 0) }, false),
        (PosePlacement { mirrored: true, ..made.placed(0, 0, 0) }, false),
        (PosePlacement { item: 3, ..made.placed(0, 0, 0) }, false),
    ] {
        assert_eq!(table.is_valid(&[placed]), expected, "{placed:?}");
    }
}

#[test]
fn a_layout_is_valid_if_no_two_pieces_are_nearer_than_the_gap() {
    let mut rng = fastrand::Rng::with_seed(2);
    let sizes = [(30, 10), (8, 5), (7, 14)];
    let (mut valid, mut invalid) = (0, 0);
    for gap in [0, 3] {
        let made = Made::new(60, gap, &sizes.map(|(long, high)| fixed(long, high, 1)));
        let (with, without) = (made.table(), Pairs::default());
        let without = Table { pairs: &without, ..with };
        for _ in 0..800 {
            let placements: Vec<PosePlacement> = (0..3)
                .map(|_| {
                    let item = rng.usize(..3);
                    made.placed(item, rng.i64(0..60), rng.i64(0..=60 - sizes[item].1))
                })
                .collect();
            let apart = |one: &PosePlacement, other: &PosePlacement| {
                let (size, other_size) = (sizes[one.item], sizes[other.item]);
                one.along + size.0 + gap <= other.along
                    || other.along + other_size.0 + gap <= one.along
                    || one.across + size.1 + gap <= other.across
                    || other.across + other_size.1 + gap <= one.across
            };
            let all = (0..3).all(|at| (0..at).all(|before| apart(&placements[before], &placements[at])));
            assert_eq!((with.is_valid(&placements), without.is_valid(&placements)), (all, all), "{placements:?}");
            let (one, other) = (&placements[0], &placements[1]);
            assert_eq!(with.overlap(one, other), !apart(one, other));
            assert_eq!(without.overlap(one, other), !apart(one, other));
            if all { valid += 1 } else { invalid += 1 }
        }
    }
    assert!(valid > 200 && invalid > 200, "{valid} and {invalid}");
    // A long piece reaches past one that begins later and ends sooner.
    let made = Made::new(60, 0, &[fixed(50, 10, 1), fixed(8, 5, 1)]);
    let placements = [made.placed(0, 0, 0), made.placed(1, 20, 10), made.placed(1, 42, 5)];
    assert!(!made.table().is_valid(&placements) && made.table().is_valid(&placements[..2]));
}

#[test]
fn pieces_are_sorted_by_rank_then_kind_then_plain_before_mirrored() {
    let mirroring = Polygon { mirror: true, ..polygon(&[(0, 0), (9, 0), (0, 4)], 2) };
    let made =
        Made::new(60, 0, &[Polygon { quarter: true, ..fixed(5, 9, 1) }, mirroring, fixed(30, 2, 1), fixed(9, 7, 1)]);
    let pieces = [(0, false), (3, false), (1, true), (2, false), (1, false), (0, false)];
    let by_length = made.table().sorted(&pieces, |_, outline| outline.long);
    let nine = [(1, false), (1, true), (3, false)];
    assert_eq!(by_length, [&[(2, false)], &nine[..], &[(0, false), (0, false)]].concat());
    let by_kind = made.table().sorted(&pieces, |item, _| item);
    assert_eq!(by_kind, [(3, false), (2, false), (1, false), (1, true), (0, false), (0, false)]);
    assert!(many_steps().left() > 0);
}
