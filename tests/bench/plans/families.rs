//! Lists of pieces drawn from a seed, in the manner of published families. They measure the share of lists that the
//! planner proves best, for which the few published lists do not suffice.
//!
//! Each family follows its authors' description; the draws are our own, so the lists are new ones.

use super::draw::Draw;
use super::instance::Instance;
use super::read::{Kind, one_length, several_lengths};
use std::collections::BTreeMap;

/// A kind of list, and how to draw one.
pub(crate) struct Family {
    pub(crate) name: &'static str,
    seed: u64,
    one: fn(&mut Draw) -> (i64, Vec<i64>),
}

/// The families of one stock length.
pub(crate) const FAMILIES: [Family; 7] = [
    Family { name: "uniform", seed: 101, one: uniform },
    Family { name: "triplets", seed: 102, one: triplets },
    Family { name: "few lengths", seed: 103, one: few_lengths },
    Family { name: "round a mean", seed: 104, one: round_a_mean },
    Family { name: "narrow band", seed: 105, one: narrow_band },
    Family { name: "wide range", seed: 106, one: wide_range },
    Family { name: "three to five", seed: 107, one: three_to_five },
];

impl Family {
    /// Its first `count` lists.
    pub(crate) fn lists(&self, count: usize) -> Vec<Instance> {
        let mut draw = Draw::new(self.seed);
        let mut list = |place: usize| {
            let (stock, lengths) = (self.one)(&mut draw);
            let mut counts: BTreeMap<i64, i64> = BTreeMap::new();
            for length in lengths {
                *counts.entry(length).or_default() += 1;
            }
            // The longest first, as a maker would write them down.
            let counts: Vec<(i64, i64)> = counts.into_iter().rev().collect();
            one_length(&format!("{} {}", self.name, place + 1), stock, &counts)
        };
        (0..count).map(&mut list).collect()
    }
}

/// Falkenauer 1996, class u, from memory: 20 to 100 off 150.
fn uniform(draw: &mut Draw) -> (i64, Vec<i64>) {
    (150, (0..120).map(|_| draw.between(20, 100)).collect())
}

/// Falkenauer 1996, class t, from memory: every stock length is three pieces and nothing is left.
fn triplets(draw: &mut Draw) -> (i64, Vec<i64>) {
    let triplet = |draw: &mut Draw| {
        let first = draw.between(380, 490);
        let second = draw.between(250, (1000 - first) / 2);
        [first, second, 1000 - first - second]
    };
    (1000, (0..20).flat_map(|_| triplet(draw)).collect())
}

/// Scholl, Klein and Jürgens 1997, first set, from memory: 100, 120 or 150, pieces from 1, 20 or 30 to 100.
fn few_lengths(draw: &mut Draw) -> (i64, Vec<i64>) {
    let stock = draw.one_of(&[100, 120, 150]);
    let least = draw.one_of(&[1, 20, 30]);
    let count = draw.one_of(&[50, 100, 200]);
    (stock, (0..count).map(|_| draw.between(least, 100)).collect())
}

/// The same authors' second set, from memory: a third to a ninth of 1000, give or take 20 to 90 %.
fn round_a_mean(draw: &mut Draw) -> (i64, Vec<i64>) {
    let mean = 1000 / draw.one_of(&[3, 5, 7, 9]);
    let apart = mean * draw.one_of(&[20, 50, 90]) / 100;
    let count = draw.one_of(&[50, 100, 200]);
    (1000, (0..count).map(|_| draw.between(mean - apart, mean + apart)).collect())
}

/// Schwerin and Wäscher 1997, from memory: 150 to 200 off 1000.
fn narrow_band(draw: &mut Draw) -> (i64, Vec<i64>) {
    let count = draw.one_of(&[100, 120]);
    (1000, (0..count).map(|_| draw.between(150, 200)).collect())
}

/// Few pieces to a length and hardly two alike, like the lists of Wäscher and Gau 1996; the bounds are our own.
fn wide_range(draw: &mut Draw) -> (i64, Vec<i64>) {
    let most = draw.one_of(&[2_500, 5_000, 7_500]);
    let count = draw.between(50, 160);
    (10_000, (0..count).map(|_| draw.between(1, most)).collect())
}

/// Scholl, Klein and Jürgens 1997, third set, from memory: 20,000 to 35,000 off 100,000.
fn three_to_five(draw: &mut Draw) -> (i64, Vec<i64>) {
    (100_000, (0..200).map(|_| draw.between(20_000, 35_000)).collect())
}

/// Order books of a workshop, in the manner of `stock_mixed`: strips off rolls of 25 and 100 yards and off rests of
/// others. Each cut loses 10 mm, which the lengths of stock and pieces already include.
pub(crate) fn books(count: usize) -> Vec<Instance> {
    let mut draw = Draw::new(201);
    (1..=count).map(|place| book(&format!("book {place}"), &mut draw)).collect()
}

fn book(name: &str, draw: &mut Draw) -> Instance {
    let orders = draw.between(3, 50);
    // 25 and 100 yards, plus the loss of the last cut, which is not needed.
    let mut kinds: Vec<Kind> = vec![(22_870, 2_200, None), (91_450, 7_600, None)];
    for _ in 0..orders / 2 {
        let rest = 10 * draw.between(170, 2_200);
        // 60 % of the shorter roll's price by length, in whole cents.
        kinds.push((rest, (rest * 2_200 * 60 / 100 + 22_870 / 2) / 22_870, Some(1)));
    }
    let mut lengths = BTreeMap::new();
    while i64::try_from(lengths.len()).unwrap() < orders {
        lengths.insert(5 * draw.between(100, 1_800), draw.between(10, 45));
    }
    let lengths: Vec<(i64, i64)> = lengths.into_iter().rev().collect();
    several_lengths(name, &kinds, &lengths)
}
