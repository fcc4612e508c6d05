//! Fillings against trying everything, and by pencil.

use super::*;

fn every_filling(pieces: Pieces<'_>, item: usize, capacity: i64) -> i64 {
    if item == pieces.lengths.len() {
        return 0;
    }
    let most = pieces.counts[item].min(capacity / pieces.lengths[item]);
    (0..=most)
        .map(|n| n * pieces.values[item] + every_filling(pieces, item + 1, capacity - n * pieces.lengths[item]))
        .max()
        .unwrap_or(0)
}

#[test]
fn both_ways_agree_with_trying_everything() {
    let mut rng = fastrand::Rng::with_seed(7);
    let mut knapsack = Knapsack::default();
    for _ in 0..500 {
        let items = rng.usize(1..6);
        let lengths: Vec<i64> = (0..items).map(|_| rng.i64(1..20)).collect();
        let counts: Vec<i64> = (0..items).map(|_| rng.i64(0..4)).collect();
        let values: Vec<i64> = (0..items).map(|_| rng.i64(-3..30)).collect();
        let pieces = Pieces { lengths: &lengths, counts: &counts, values: &values };
        let capacity = rng.i64(0..60);
        let most = every_filling(pieces, 0, capacity);
        for failed in [0, 3] {
            knapsack.failed = failed;
            let found = &knapsack.best(pieces, &[(capacity, 0), (capacity / 2, 0)])[0];
            assert_eq!((found.value, found.bound), (most, most));
            let value: i64 = found.cuts.iter().map(|&(item, n)| n * values[item]).sum();
            let length: i64 = found.cuts.iter().map(|&(item, n)| n * lengths[item]).sum();
            assert!(value == most && length <= capacity && found.cuts.iter().all(|&(item, n)| n <= counts[item]));
        }
    }
}

#[test]
fn a_search_that_is_broken_off_still_answers_a_bound() {
    let lengths: Vec<i64> = (0..60).map(|n| 1_000_000_007 + 7919 * n * n).collect();
    let values: Vec<i64> = lengths.iter().map(|length| length + 3).collect();
    let counts = vec![1; 60];
    let pieces = Pieces { lengths: &lengths, counts: &counts, values: &values };
    let found = &Knapsack::default().best(pieces, &[(30_000_000_000, 0)])[0];
    assert!(found.bound >= found.value && found.value > 0);
}

fn cuts(found: &Filled) -> &[(usize, i64)] {
    &found.cuts
}

#[test]
fn items_are_sorted_by_value_for_their_length() {
    let mut knapsack = Knapsack::default();
    // 2, 3, none wanted, worth nothing, 3: of equals the first.
    let (lengths, counts) = ([10, 4, 6, 5, 2], [1, 2, 0, 3, 7]);
    knapsack.sort(Pieces { lengths: &lengths, counts: &counts, values: &[20, 12, 12, 0, 6] });
    assert_eq!(knapsack.order, [1, 4, 0]);
    assert_eq!((&knapsack.length[..], &knapsack.count[..]), (&[4, 2, 10][..], &[2, 7, 1][..]));
    assert_eq!((&knapsack.value[..], &knapsack.shortest[..]), (&[12, 6, 20][..], &[2, 2, 10, i64::MAX][..]));
    // Rounded up by a hair, so that no bound is too low.
    assert!(knapsack.rate.iter().zip([3.0, 3.0, 2.0]).all(|(&rate, exact)| rate > exact && rate < exact + 1e-14));
    assert!(knapsack.rate.len() == 4 && knapsack.rate[3].abs() < 1e-300);
}

#[test]
fn only_what_is_worth_more_than_the_floor_is_found() {
    let pieces = Pieces { lengths: &[5, 4], counts: &[2, 2], values: &[7, 5] };
    for failed in [0, 3] {
        let mut knapsack = Knapsack { failed, ..Knapsack::default() };
        // 7 + 5 in nine, 7 + 7 in ten.
        let found = knapsack.best(pieces, &[(9, 11), (9, 12), (10, 13), (4, 0), (3, 0), (0, 0)]);
        let values: Vec<(i64, i64)> = found.iter().map(|filled| (filled.value, filled.bound)).collect();
        assert_eq!(values, [(12, 12), (12, 12), (14, 14), (5, 5), (0, 0), (0, 0)]);
        let found: Vec<&[(usize, i64)]> = found.iter().map(cuts).collect();
        assert_eq!(found, [&[(0, 1), (1, 1)][..], &[], &[(0, 2)], &[(1, 1)], &[], &[]]);
    }
}

/// Of 5, 5, 4, 4, 3, 3, worth their lengths, 5 + 5 fill ten; of the rest 4 + 3 + 3 do, then 4 is left.
#[test]
fn other_fillings_are_of_the_pieces_that_are_left() {
    let pieces = Pieces { lengths: &[5, 4, 3], counts: &[2, 2, 2], values: &[5, 4, 3] };
    let found = &Knapsack::default().best(pieces, &[(10, 0)])[0];
    assert_eq!((cuts(found), &found.others[..]), (&[(0, 2)][..], &[(10, vec![(1, 1), (2, 2)])][..]));
    // Where several are asked for each has one other, of all pieces.
    for found in Knapsack::default().best(pieces, &[(10, 0), (10, 0)]) {
        assert_eq!((cuts(&found), found.others.len()), (&[(0, 2)][..], 1));
    }
    // One more for every sixteen items; none worth less than the floor.
    let (lengths, counts): (Vec<i64>, Vec<i64>) = ((100..116).collect(), vec![1; 16]);
    let many = |count: usize, floor| {
        let pieces = Pieces { lengths: &lengths[..count], counts: &counts[..count], values: &lengths[..count] };
        Knapsack::default().best(pieces, &[(115, floor)]).remove(0).others
    };
    // A length of 115 holds the longest piece there is, again and again.
    assert_eq!(many(15, 0), [(113, vec![(13, 1)])]);
    assert_eq!(many(16, 0), [(114, vec![(14, 1)]), (113, vec![(13, 1)])]);
    assert_eq!(many(16, 113), [(114, vec![(14, 1)])]);
    assert_eq!(many(16, 114), []);
    let pieces = Pieces { lengths: &lengths, counts: &counts, values: &lengths };
    assert_eq!(Knapsack::default().best(pieces, &[(115, 0), (115, 0)])[0].others, [(114, vec![(14, 1)])]);
}

/// 4 + 4 first, then 4 + 3 + 3 fills ten: a node for each choice and each taking back, the third of which fills it.
#[test]
fn a_search_without_enough_nodes_has_a_bound_above_its_value() {
    let mut knapsack = Knapsack::default();
    knapsack.sort(Pieces { lengths: &[4, 3], counts: &[2, 2], values: &[4, 3] });
    let mut found = |floor, nodes| {
        let Filled { value, bound, cuts, .. } =
            knapsack.branch(10, floor, nodes, true, |at, left| if at < 2 { number::from_whole(left) } else { 0.0 });
        (value, bound, cuts)
    };
    assert_eq!(found(0, 3), (10, 10, vec![(0, 1), (1, 2)]));
    // Nobody has seen that ten is the most.
    assert_eq!(found(0, 2), (10, 11, vec![(0, 1), (1, 2)]));
    assert_eq!(found(0, 0), (8, 10, vec![(0, 2)]));
    assert_eq!(found(9, 3), (10, 10, vec![(0, 1), (1, 2)]));
    assert_eq!(found(10, 0), (10, 10, vec![]));
}

/// A hundred and fifty pieces are taken one by one and given back one by one: 300 / 100 and 150 / 50.
#[test]
fn work_is_a_hundredth_of_the_nodes_and_a_fiftieth_of_the_items() {
    let (lengths, counts) = (vec![1; 150], vec![1; 150]);
    let mut knapsack = Knapsack::default();
    knapsack.sort(Pieces { lengths: &lengths, counts: &counts, values: &lengths });
    let found = knapsack.branch(150, 0, 1000, true, |at, left| if at < 150 { number::from_whole(left) } else { 0.0 });
    assert_eq!((found.value, found.bound, knapsack.work), (150, 150, 6));
}

/// Twenty even lengths from 100 to 138 in 1001: nine of them come to 1000 (900 and twice 0 + 1 + 2 + 3 + 4 + 5 + 6 +
/// 10 + 19), and nothing comes to 1001; by value for length alone that takes too long to see.
#[test]
fn after_three_failures_the_quick_search_is_left_out_for_a_while() {
    let lengths: Vec<i64> = (0..20).map(|index| 100 + 2 * index).collect();
    let hard = Pieces { lengths: &lengths, counts: &[1; 20], values: &lengths };
    let easy = Pieces { lengths: &[5, 4], counts: &[2, 2], values: &[7, 5] };
    let after = |failed, pieces: Pieces<'_>, capacity, best| {
        let mut knapsack = Knapsack { failed, ..Knapsack::default() };
        let found = knapsack.best(pieces, &[(capacity, 0)]);
        assert_eq!((found[0].value, found[0].bound), (best, best));
        knapsack.failed
    };
    for (failed, hard_after, easy_after) in [(0, 1, 0), (1, 2, 0), (2, 3, 0), (3, 4, 4), (18, 19, 19), (19, 0, 0)] {
        assert_eq!(after(failed, hard, 1001, 1000), hard_after, "{failed}");
        assert_eq!(after(failed, easy, 9, 12), easy_after, "{failed}");
    }
}
