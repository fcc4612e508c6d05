//! The table of values against trying everything, with lengths scaled down by hand.

use super::super::ceiling::Ceiling;

/// The most value of the items from `at` on in `room`.
fn most(lengths: &[i64], counts: &[i64], values: &[i64], at: usize, room: i64) -> i64 {
    if at == lengths.len() {
        return 0;
    }
    (0..=counts[at].max(0))
        .take_while(|times| times * lengths[at] <= room)
        .map(|times| times * values[at].max(0) + most(lengths, counts, values, at + 1, room - times * lengths[at]))
        .max()
        .unwrap_or(0)
}

#[test]
fn every_entry_is_the_most_value_of_scaled_down_pieces() {
    let mut rng = fastrand::Rng::with_seed(17);
    let mut ceiling = Ceiling::default();
    for round in 0..150 {
        let items = rng.usize(1..5);
        let mut draw =
            |range: std::ops::RangeInclusive<i64>| -> Vec<i64> { (0..items).map(|_| rng.i64(range.clone())).collect() };
        let (lengths, counts, values) = (draw(3..=40), draw(0..=7), draw(-2..=30));
        let capacity = rng.i64(1..90);
        for entries in [1, 7, 30, 200] {
            ceiling.build(&lengths, &counts, &values, capacity, entries * (i64::try_from(items).unwrap() + 1));
            // As many steps as entries, at most.
            let step = capacity / entries + 1;
            assert_eq!(ceiling.step, step);
            let scaled: Vec<i64> = lengths.iter().map(|length| length / step).collect();
            // No more of each than the real length holds.
            let counts: Vec<i64> =
                counts.iter().zip(&lengths).map(|(&count, length)| count.min(capacity / length)).collect();
            for left in 0..=capacity {
                for at in 0..=items {
                    let expected = most(&scaled, &counts, &values, at, left / step);
                    let found = ceiling.most(at, left);
                    assert!((found - f64::from(i32::try_from(expected).unwrap())).abs() < 0.5, "{round} {at} {left}");
                }
            }
        }
    }
}

/// A row of 5000 entries is 5 thousand operations and one more for each number of copies: 1, 2, 4 make up seven, and
/// 1, 2, 1 four; pieces without value or room need none.
#[test]
fn work_is_a_row_for_each_number_of_copies() {
    for (length, count, value, work) in [
        (7, 1, 3, 6),
        (7, 2, 3, 12),
        (7, 3, 3, 12),
        (7, 4, 3, 18),
        (7, 7, 3, 18),
        (7, 8, 3, 24),
        (1000, 900, 3, 18),
        (7, 9, 0, 0),
        (7, 0, 3, 0),
        (5000, 1, 3, 0),
        (4999, 1, 3, 6),
    ] {
        let mut ceiling = Ceiling::default();
        assert_eq!(ceiling.build(&[length], &[count], &[value], 4999, 10_000), work, "{length} {count} {value}");
        assert_eq!(ceiling.step, 1);
    }
    // Whatever the size, there is one entry at least: two with that of nothing.
    let mut ceiling = Ceiling::default();
    assert_eq!((ceiling.build(&[7], &[1], &[3], 4999, 1), ceiling.step), (1, 5000));
    // With three hundred entries in place of 5000, steps of 17: 295 entries.
    let mut ceiling = Ceiling::default();
    assert_eq!((ceiling.build(&[7], &[1], &[3], 4999, 600), ceiling.step), (1, 17));
}
