//! Test problems drawn like those of the literature, always the same for a seed.
//!
//! The generators are from memory: E. Falkenauer, "A hybrid grouping genetic algorithm for bin packing", 1996
//! (uniform, triplets); P. Schwerin, G. Wäscher, "The bin-packing problem: a problem generator and some numerical
//! experiments with FFD packing and MTP", 1997; A. Scholl, R. Klein, C. Jürgens, "BISON", 1997; G. Wäscher, T. Gau,
//! "Heuristics for the integer one-dimensional cutting stock problem", 1996; J. Schoenfield, 2002 (narrow).
#![allow(clippy::indexing_slicing, reason = "drawn from lists written out beside it")]

use crate::problem::{KeptRest, LengthProblem, PieceLength, StockLength};

/// A family of problems.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Family {
    /// 250 pieces of 20 to 100 from lengths of 150.
    Uniform,
    /// 120 pieces, three to a length without any waste.
    Triplets,
    /// Some 50 kinds of pieces from lengths of 10 000, many to a length.
    Coarse,
    /// 100 pieces of 150 to 200 from lengths of 1000.
    Narrow,
    /// 50 to 200 pieces about a third to a ninth of a length.
    Scattered,
    /// 160 to 200 pieces of 1 to 800 from lengths of 1000, hardly any waste allowed.
    Tight,
    /// Two lengths that can be bought, several offcuts of one each, 12 to 50 kinds of pieces.
    Book,
    /// A maker's work: few kinds of pieces, many of each, up to six kinds of lengths.
    Maker,
}

impl Family {
    pub(crate) const ALL: [Self; 8] = [
        Self::Uniform,
        Self::Triplets,
        Self::Coarse,
        Self::Narrow,
        Self::Scattered,
        Self::Tight,
        Self::Book,
        Self::Maker,
    ];

    /// The problem of this family with a seed.
    pub(crate) fn problem(self, seed: u64) -> LengthProblem {
        let mut rng = fastrand::Rng::with_seed(seed);
        match self {
            Self::Uniform => one_length(150, (0..250).map(|_| rng.i64(20..=100))),
            Self::Triplets => one_length(1000, (0..40).flat_map(|_| triplet(&mut rng))),
            Self::Coarse => coarse(&mut rng),
            Self::Narrow => one_length(1000, (0..100).map(|_| rng.i64(150..=200))),
            Self::Scattered => scattered(&mut rng),
            Self::Tight => tight(&mut rng),
            Self::Book => book(&mut rng),
            Self::Maker => maker(&mut rng),
        }
    }
}

fn one_length(length: i64, pieces: impl IntoIterator<Item = i64>) -> LengthProblem {
    let stock = vec![StockLength { length, cost: 1, most: None, rest: None }];
    LengthProblem { stock, pieces: pieces.into_iter().map(|length| PieceLength { length, count: 1 }).collect() }
}

fn triplet(rng: &mut fastrand::Rng) -> [i64; 3] {
    let first = rng.i64(380..=490);
    let second = rng.i64(250..=(750 - first));
    [first, second, 1000 - first - second]
}

fn coarse(rng: &mut fastrand::Rng) -> LengthProblem {
    let longest = [2500, 5000][rng.usize(0..2)];
    let items = rng.i64(40..60);
    let mut problem = one_length(10_000, (0..items).map(|_| rng.i64(1..=longest)));
    for item in &mut problem.pieces {
        item.count = rng.i64(1..=4);
    }
    // One more piece leaves hardly any waste.
    let whole: i64 = problem.pieces.iter().map(|item| item.length * item.count).sum();
    let filler = (10_000 - whole % 10_000 - rng.i64(0..80)).rem_euclid(10_000).max(1);
    problem.pieces.push(PieceLength { length: filler, count: 1 });
    problem
}

fn scattered(rng: &mut fastrand::Rng) -> LengthProblem {
    let mean = 1000 / [3, 5, 7, 9][rng.usize(0..4)];
    let spread = mean * [20, 50, 90][rng.usize(0..3)] / 100;
    let pieces = [50, 100, 200][rng.usize(0..3)];
    one_length(1000, (0..pieces).map(|_| rng.i64((mean - spread)..=(mean + spread))))
}

fn tight(rng: &mut fastrand::Rng) -> LengthProblem {
    loop {
        let pieces: Vec<i64> = (0..rng.usize(160..=200)).map(|_| rng.i64(1..=800)).collect();
        let whole: i64 = pieces.iter().sum();
        if (1000 - whole % 1000) % 1000 < 45 {
            return one_length(1000, pieces);
        }
    }
}

fn book(rng: &mut fastrand::Rng) -> LengthProblem {
    let mut stock = vec![
        StockLength { length: 22_870, cost: 2200, most: None, rest: None },
        StockLength { length: 91_450, cost: 7600, most: None, rest: None },
    ];
    for _ in 0..rng.usize(2..28) {
        let length = 10 * rng.i64(180..2100);
        stock.push(StockLength { length, cost: (length * 577 + 5000) / 10_000, most: Some(1), rest: None });
    }
    let longest = 100 * rng.i64(70..92);
    let pieces = (0..rng.usize(12..=50))
        .map(|_| PieceLength { length: 5 * rng.i64(120..=longest / 5), count: rng.i64(20..50) })
        .collect();
    LengthProblem { stock, pieces }
}

fn maker(rng: &mut fastrand::Rng) -> LengthProblem {
    let stock = (0..rng.usize(1..=6))
        .map(|_| {
            let length = 100 * rng.i64(10..60);
            let cost = 5 * (length * rng.i64(90..110) / 2500) + 20;
            let rest = (rng.u8(0..3) == 0).then_some(KeptRest { least: 500, value: 40 });
            StockLength { length, cost: cost * 1000, most: None, rest }
        })
        .collect();
    let pieces =
        (0..rng.usize(1..=8)).map(|_| PieceLength { length: 5 * rng.i64(20..200), count: rng.i64(1..=500) }).collect();
    LengthProblem { stock, pieces }
}
