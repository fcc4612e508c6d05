//! Programs solved by pencil and from textbooks, and the rules of choice where several columns or rows would do.

use super::{Basis, Columns, Upkeep};

const BOTH: [Upkeep; 2] = [Upkeep::Updated, Upkeep::Computed];

fn near(found: &[f64], expected: &[f64]) -> bool {
    found.len() == expected.len() && found.iter().zip(expected).all(|(one, other)| (one - other).abs() < 1e-9)
}

#[track_caller]
fn stands(basis: &Basis, basic: &[usize], level: &[f64], price: &[f64]) {
    assert_eq!(basis.basic, basic);
    assert!(near(&basis.level, level), "levels {:?}", basis.level);
    assert!(near(&basis.price, price), "prices {:?}", basis.price);
}

/// Demands of 8 and 9; x gives 2 and 1 for 3, y gives 1 and 3 for 4. By 2x + y = 8 and x + 3y = 9 the best is three
/// of x and two of y for 17, at prices of 1 and 1. Columns 0 and 1 are surpluses, 2 and 3 deterring, 4 is x, 5 is y.
fn diet() -> Columns {
    let mut columns = Columns::new(2, 0, 100.0);
    assert_eq!(columns.add(3.0, [(0, 2.0), (1, 1.0)]), 4);
    assert_eq!(columns.add(4.0, [(0, 1.0), (1, 3.0)]), 5);
    columns
}

fn begun(columns: &Columns, rhs: &[f64], upkeep: Upkeep) -> Basis {
    Basis::new(columns, rhs.to_vec(), upkeep)
}

#[test]
fn every_row_has_two_columns_of_its_own() {
    let mut columns = Columns::new(2, 1, 50.0);
    assert_eq!((columns.rows, columns.own(), columns.len()), (3, 6, 6));
    assert_eq!(columns.add(2.5, [(0, 2.0), (2, -4.0)]), 6);
    assert_eq!((columns.own(), columns.len()), (6, 7));
    let dots: Vec<f64> = (0..7).map(|column| columns.dot(column, &[3.0, 5.0, 7.0])).collect();
    // Surplus, surplus, slack; the opposites; 2 × 3 − 4 × 7.
    assert!(near(&dots, &[-3.0, -5.0, 7.0, 3.0, 5.0, -7.0, -22.0]), "{dots:?}");
    assert!(near(&columns.cost, &[0.0, 0.0, 0.0, 50.0, 50.0, 50.0, 2.5]));
    assert_eq!(Columns::surplus(1), 1);
}

#[test]
fn a_diet_is_solved_step_by_step() {
    for upkeep in BOTH {
        let columns = diet();
        let mut basis = begun(&columns, &[8.0, 9.0], upkeep);
        stands(&basis, &[2, 3], &[8.0, 9.0], &[100.0, 100.0]);
        assert!((basis.objective(&columns) - 1700.0).abs() < 1e-9);
        assert!(basis.is_in(2) && !basis.is_in(4) && !basis.is_in(99));
        // Nothing limits a surplus.
        assert!(!basis.enter(&columns, 0));
        // x meets the first demand with four, since 8 / 2 < 9 / 1; 2p + 100 = 3.
        assert!(basis.enter(&columns, 4));
        stands(&basis, &[4, 3], &[4.0, 5.0], &[-48.5, 100.0]);
        assert!(basis.is_in(4) && basis.is_in(3) && !basis.is_in(2));
        assert!((basis.objective(&columns) - 512.0).abs() < 1e-9);
        assert!(basis.enter(&columns, 5));
        stands(&basis, &[4, 5], &[3.0, 2.0], &[1.0, 1.0]);
        assert!((basis.objective(&columns) - 17.0).abs() < 1e-9);
        // With a surplus of the first instead of y: nine of x, 18 − 8 = 10 too many; q = 3.
        assert!(basis.enter(&columns, Columns::surplus(0)));
        stands(&basis, &[4, 0], &[9.0, 10.0], &[0.0, 3.0]);
        assert!(basis.is_in(0) && !basis.is_in(5));
        // Nine of x are worth 2.5 and 1.5 of other demands.
        basis.rhs = vec![5.0, 4.0];
        basis.revalue(&columns);
        stands(&basis, &[4, 0], &[4.0, 3.0], &[0.0, 3.0]);
    }
}

#[test]
fn the_column_that_gains_most_enters_first() {
    for upkeep in BOTH {
        let mut columns = diet();
        // It costs just what it is worth at the end, and a copy of y.
        columns.add(2.0, [(0, 1.0), (1, 1.0)]);
        columns.add(4.0, [(0, 1.0), (1, 3.0)]);
        let improved = |usable: fn(usize) -> bool, most| {
            let mut basis = begun(&columns, &[8.0, 9.0], upkeep);
            let pivots = basis.improve(&columns, usable, most);
            (pivots, basis)
        };
        assert_eq!(improved(|_| true, 0).0, 0);
        // y saves 396 for each, x 297; three of y meet the second demand; 100 + 3q = 4. Of equals the first enters.
        let (pivots, basis) = improved(|_| true, 1);
        assert_eq!(pivots, 1);
        stands(&basis, &[2, 5], &[5.0, 3.0], &[100.0, -32.0]);
        let (pivots, basis) = improved(|_| true, 2);
        assert_eq!(pivots, 2);
        stands(&basis, &[4, 5], &[3.0, 2.0], &[1.0, 1.0]);
        let (pivots, basis) = improved(|_| true, 50);
        assert_eq!(pivots, 2);
        stands(&basis, &[4, 5], &[3.0, 2.0], &[1.0, 1.0]);
        // Without x and what is like it, eight of y, with 24 − 9 of the second too many.
        let (pivots, basis) = improved(|column| column != 4 && column != 6, 50);
        assert_eq!(pivots, 2);
        stands(&basis, &[1, 5], &[15.0, 8.0], &[4.0, 0.0]);
    }
}

#[test]
fn a_gain_without_limit_ends_the_search() {
    let mut columns = diet();
    columns.add(-1.0, [(0, 0.0)]);
    let mut basis = begun(&columns, &[8.0, 9.0], Upkeep::Updated);
    assert_eq!(basis.improve(&columns, |column| column == 6, 50), 0);
}

/// The first examples of V. Chvátal, "Linear programming" (5x + 4y + 3z, best 13) and of F. Hillier, G. Lieberman,
/// "Introduction to operations research" (3x + 5y, best 36), both from memory; maximised, so that costs and prices are
/// negative here.
#[test]
fn examples_of_textbooks_have_their_answers() {
    type Example<'e> = (&'e [f64], &'e [(f64, &'e [f64])], f64, &'e [f64], &'e [f64]);
    let examples: [Example<'_>; 2] = [
        (
            &[5.0, 11.0, 8.0],
            &[(5.0, &[2.0, 4.0, 3.0]), (4.0, &[3.0, 1.0, 4.0]), (3.0, &[1.0, 2.0, 2.0])],
            13.0,
            &[2.0, 0.0, 1.0],
            &[1.0, 0.0, 1.0],
        ),
        (&[4.0, 12.0, 18.0], &[(3.0, &[1.0, 0.0, 3.0]), (5.0, &[0.0, 2.0, 2.0])], 36.0, &[2.0, 6.0], &[0.0, 1.5, 1.0]),
    ];
    for (stocks, products, best, amounts, prices) in examples {
        for upkeep in BOTH {
            let mut columns = Columns::new(0, 3, 1000.0);
            for (gain, needs) in products {
                columns.add(-gain, needs.iter().copied().enumerate());
            }
            let mut basis = begun(&columns, stocks, upkeep);
            basis.improve(&columns, |_| true, 50);
            assert!((basis.objective(&columns) + best).abs() < 1e-9);
            let amount = |product: usize| {
                let position = basis.basic.iter().position(|&column| column == columns.own() + product);
                position.map_or(0.0, |position| basis.level[position])
            };
            assert!(near(&(0..products.len()).map(amount).collect::<Vec<f64>>(), amounts));
            assert!(near(&basis.price.iter().map(|price| -price).collect::<Vec<f64>>(), prices));
        }
    }
}

/// Duality: if the amounts keep every row, no column gains at the prices, and both come to the same, each is best.
#[test]
fn random_programs_end_with_amounts_and_prices_that_prove_each_other() {
    let mut rng = fastrand::Rng::with_seed(5);
    for round in 0..200 {
        let (demands, stocks) = (rng.usize(1..5), rng.usize(0..4));
        let mut columns = Columns::new(demands, stocks, 1000.0);
        for _ in 0..rng.usize(3..12) {
            let rows: Vec<usize> = (0..demands + stocks).filter(|_| rng.bool()).collect();
            let entries: Vec<(usize, f64)> = rows.into_iter().map(|row| (row, f64::from(rng.u8(1..9)))).collect();
            columns.add(f64::from(rng.u8(1..30)) / 4.0, entries);
        }
        let rhs: Vec<f64> = (0..demands + stocks).map(|_| f64::from(rng.u8(5..60))).collect();
        for upkeep in BOTH {
            let mut basis = begun(&columns, &rhs, upkeep);
            assert!(basis.improve(&columns, |_| true, 200) < 200, "round {round}");
            for (row, &wanted) in rhs.iter().enumerate() {
                let unit: Vec<f64> = (0..demands + stocks).map(|at| if at == row { 1.0 } else { 0.0 }).collect();
                let made: f64 =
                    basis.basic.iter().zip(&basis.level).map(|(&at, level)| level * columns.dot(at, &unit)).sum();
                assert!((made - wanted).abs() < 1e-6, "round {round} row {row}");
            }
            assert!(basis.level.iter().all(|&level| level > -1e-6));
            let gain = |column: usize| columns.cost[column] - columns.dot(column, &basis.price);
            assert!((0..columns.len()).all(|column| gain(column) > -1e-6), "round {round}");
            let worth: f64 = basis.price.iter().zip(&rhs).map(|(price, rhs)| price * rhs).sum();
            assert!((worth - basis.objective(&columns)).abs() < 1e-6, "round {round}");
        }
    }
}

/// Demands of `levels` and a column with `alphas`; the row that leaves, by the column that is gone.
fn left(levels: &[f64], alphas: &[f64], upkeep: Upkeep) -> Option<usize> {
    let mut columns = Columns::new(levels.len(), 0, 100.0);
    let column = columns.add(1.0, alphas.iter().copied().enumerate());
    let mut basis = begun(&columns, levels, upkeep);
    basis.enter(&columns, column).then(|| basis.basic.iter().position(|&at| at == column).unwrap())
}

#[test]
fn the_row_that_limits_most_leaves_and_of_equals_the_one_with_the_largest_pivot() {
    use Upkeep::{Computed, Updated};
    // Levels, pivots, and the row that leaves for each upkeep; ratios are levels over pivots.
    type Case<'c> = (&'c [f64], &'c [f64], [Option<usize>; 2]);
    let cases: [Case<'_>; 12] = [
        (&[8.0, 9.0], &[2.0, 1.0], [Some(0); 2]),
        (&[8.0, 9.0], &[2.0, 3.0], [Some(1); 2]),
        (&[4.0, 6.0], &[2.0, 3.0], [Some(1); 2]),
        (&[6.0, 4.0], &[3.0, 2.0], [Some(0); 2]),
        (&[2e8, 3e8], &[2.0, 3.0], [Some(1); 2]),
        (&[4.0, 6.000_01], &[2.0, 3.0], [Some(0); 2]),
        (&[6.0, 3.999_99], &[3.0, 2.0], [Some(1); 2]),
        // A difference of 2e-10 is noise in a basis that is updated.
        (&[6.0, 4.0 - 4e-10], &[3.0, 2.0], [Some(0), Some(1)]),
        (&[4.0, 6.0 + 6e-10], &[2.0, 3.0], [Some(1), Some(0)]),
        // What noise there is does not add up from row to row.
        (&[2.0, 4.0 + 1.6e-9, 8.0 + 6.4e-9], &[1.0, 2.0, 4.0], [Some(1), Some(0)]),
        // Levels below zero count as zero.
        (&[-4.0, -3.0], &[2.0, 3.0], [Some(1); 2]),
        (&[3.0, 5.0], &[-1.0, 0.0], [None; 2]),
    ];
    for (levels, alphas, expected) in cases {
        assert_eq!([Updated, Computed].map(|upkeep| left(levels, alphas, upkeep)), expected, "{levels:?} {alphas:?}");
    }
    // Pivots of 1e-7 and less, or 1e-9, are too small.
    for (alpha, expected) in
        [(2e-7, [Some(0); 2]), (1e-7, [None, Some(0)]), (2e-9, [None, Some(0)]), (1e-9, [None; 2]), (5e-10, [None; 2])]
    {
        assert_eq!([Updated, Computed].map(|upkeep| left(&[3.0], &[alpha], upkeep)), expected, "{alpha}");
    }
}

#[test]
fn a_level_below_zero_is_kept_where_the_basis_is_updated_and_cut_off_where_it_is_computed() {
    for (upkeep, level) in [(Upkeep::Updated, -2.5), (Upkeep::Computed, 0.0)] {
        let mut columns = Columns::new(1, 0, 100.0);
        columns.add(3.0, [(0, 2.0)]);
        let mut basis = begun(&columns, &[-5.0], upkeep);
        assert!(basis.enter(&columns, 2));
        stands(&basis, &[2], &[level], &[1.5]);
    }
}

/// 1e12 of the column change the other row by 1e12 times its entry, unless that is left out as noise.
#[test]
fn an_updated_basis_leaves_out_entries_below_a_million_millionth() {
    for (entry, updated, computed) in [(1e-13, 5.0, 4.9), (1e-12, 4.0, 4.0), (-1e-12, 6.0, 6.0)] {
        for (upkeep, expected) in [(Upkeep::Updated, updated), (Upkeep::Computed, computed)] {
            let mut columns = Columns::new(2, 0, 100.0);
            let column = columns.add(1.0, [(0, 1.0), (1, entry)]);
            let mut basis = begun(&columns, &[1e12, 5.0], upkeep);
            assert!(basis.enter(&columns, column));
            assert!((basis.level[1] - expected).abs() < 1e-6, "{entry} {upkeep:?}");
        }
    }
}

/// Rows 0 1 2, 2 0 1 and 1 3 0 turn amounts of 2, 3 and 4 into 11, 8 and 11; at prices of 5, 7 and 2 the columns are
/// worth 16, 11 and 17. The first row cannot be the first pivot.
#[test]
fn a_basis_resumes_from_its_columns_alone() {
    let mut columns = Columns::new(3, 0, 100.0);
    columns.add(16.0, [(1, 2.0), (2, 1.0)]);
    columns.add(11.0, [(0, 1.0), (2, 3.0)]);
    columns.add(17.0, [(0, 2.0), (1, 1.0)]);
    let basis = Basis::resume(&columns, vec![11.0, 8.0, 11.0], vec![6, 7, 8]);
    stands(&basis, &[6, 7, 8], &[2.0, 3.0, 4.0], &[5.0, 7.0, 2.0]);
    assert!((basis.objective(&columns) - 133.0).abs() < 1e-9);
    assert!((3..6).all(|column| !basis.is_in(column)) && (6..9).all(|column| basis.is_in(column)));
    let basis = Basis::resume(&columns, vec![11.0, 8.0, 11.0], vec![8, 6, 7]);
    stands(&basis, &[8, 6, 7], &[4.0, 2.0, 3.0], &[5.0, 7.0, 2.0]);
    // Two columns in proportion determine nothing: the inverse stays that of the beginning.
    columns.add(1.0, [(1, 4.0), (2, 2.0)]);
    let basis = Basis::resume(&columns, vec![11.0, 8.0, 11.0], vec![6, 9, 8]);
    assert!(near(&basis.level, &[11.0, 8.0, 11.0]));
}

#[test]
fn a_pivot_below_a_ten_thousand_millionth_is_none() {
    for (value, level) in [(1e-10, 3e10), (9e-11, 3.0)] {
        let mut columns = Columns::new(1, 0, 100.0);
        let column = columns.add(1.0, [(0, value)]);
        let basis = Basis::resume(&columns, vec![3.0], vec![column]);
        assert!((basis.level[0] / level - 1.0).abs() < 1e-9, "{value}");
    }
}

#[test]
fn costs_of_either_sign_and_below_one_make_prices() {
    for cost in [0.5, -0.5, 6.0, -6.0] {
        let mut columns = Columns::new(2, 0, 100.0);
        columns.add(cost, [(0, 4.0)]);
        columns.add(3.0 * cost, [(1, 2.0)]);
        let basis = Basis::resume(&columns, vec![8.0, 8.0], vec![4, 5]);
        stands(&basis, &[4, 5], &[2.0, 4.0], &[cost / 4.0, cost * 1.5]);
    }
}

/// From the best diet, 20 instead of 8 of the first are wanted: −0.4 of y. Its row can be left by the surplus of the
/// second (1 / 0.4) or by the deterring column of the first (99 / 0.2).
#[test]
fn a_program_is_repaired_after_its_demands_have_changed() {
    let repaired = |usable: fn(usize) -> bool, most| {
        let columns = diet();
        let mut basis = begun(&columns, &[8.0, 9.0], Upkeep::Updated);
        basis.improve(&columns, |_| true, 50);
        assert!(basis.repair(&columns, |_| true, 1));
        basis.rhs = vec![20.0, 9.0];
        basis.revalue(&columns);
        assert!(near(&basis.level, if basis.basic[0] == 4 { &[10.2, -0.4] } else { &[-0.4, 10.2] }));
        (basis.repair(&columns, usable, most), basis)
    };
    // Ten of x give 10 of the second, one too many.
    let (is_whole, basis) = repaired(|_| true, 2);
    assert!(is_whole);
    stands(&basis, &[4, 1], &[10.0, 1.0], &[1.5, 0.0]);
    // Nine of x are two short of 20.
    let (is_whole, basis) = repaired(|column| column != 1, 2);
    assert!(is_whole);
    stands(&basis, &[4, 2], &[9.0, 2.0], &[100.0, -197.0]);
    assert!(!repaired(|_| true, 0).0);
    assert!(!repaired(|column| column > 2, 9).0);
}

/// The column that enters for a stock of `rhs`, less than nothing: its slack leaves. At no price the ratio of a column
/// is its cost over its entry; the deterring column has 1000.
fn entered(rhs: f64, offered: &[(f64, f64)]) -> (bool, usize) {
    let mut columns = Columns::new(0, 1, 1000.0);
    let mut basis = begun(&columns, &[rhs], Upkeep::Updated);
    for &(cost, entry) in offered {
        columns.add(cost, [(0, entry)]);
    }
    let is_whole = basis.repair(&columns, |_| true, 2);
    (is_whole, basis.basic[0])
}

#[test]
fn a_repair_takes_the_column_that_costs_least_and_of_equals_the_one_with_the_largest_pivot() {
    let cases: [(&[(f64, f64)], usize); 14] = [
        (&[], 1),
        (&[(4.0, 2.0)], 1),
        (&[(4.0, -2.0)], 2),
        (&[(4.0, -2.0), (1.0, -1.0)], 3),
        (&[(4.0, -2.0), (22.5, -9.0)], 2),
        (&[(4.0, -2.0), (6.0, -3.0)], 3),
        (&[(6.0, -3.0), (4.0, -2.0)], 2),
        (&[(4.0, -2.0), (2.0 - 5e-10, -1.0)], 2),
        (&[(4.0, -2.0), (8.0 + 2e-9, -4.0)], 3),
        (&[(4.0, -2.0), (2.0 - 5e-9, -1.0)], 3),
        (&[(4.0, -2.0), (8.0 + 2e-8, -4.0)], 2),
        // A cost below zero counts as none.
        (&[(-5.0, -2.0), (0.0, -3.0)], 3),
        // A ten millionth is too small.
        (&[(0.0, -1e-7)], 1),
        (&[(0.0, -1.1e-7)], 2),
    ];
    for (offered, expected) in cases {
        assert_eq!(entered(-6.0, offered), (true, expected), "{offered:?}");
    }
    // So near to nothing there is nothing to repair.
    assert_eq!(entered(-1e-9, &[(4.0, -2.0)]), (true, 0));
    assert_eq!(entered(-1.1e-9, &[(4.0, -2.0)]), (true, 2));
}

#[test]
fn the_lowest_level_is_repaired_first() {
    for (rhs, first) in [([-3.0, -6.0], 1), ([-6.0, -3.0], 0)] {
        let mut columns = Columns::new(0, 2, 1000.0);
        let one = columns.add(1.0, [(0, -1.0)]);
        let other = columns.add(1.0, [(1, -1.0)]);
        let mut basis = begun(&columns, &rhs, Upkeep::Updated);
        assert!(!basis.repair(&columns, |_| true, 1));
        assert_eq!(basis.basic[first], [one, other][first]);
        assert_eq!(basis.basic[1 - first], 1 - first);
        assert!(basis.repair(&columns, |_| true, 2));
        assert!(near(&basis.level, &[-rhs[0], -rhs[1]]));
    }
}

mod work {
    //! Thousands of simple operations, by the rule of each: rounded down, and one for each round.

    use super::*;

    /// A hundred rows, the first 60 demands, and eight columns over the first `entries` rows of them.
    fn wide(entries: usize) -> (Columns, Vec<f64>) {
        let mut columns = Columns::new(60, 40, 7.0);
        for _ in 0..8 {
            columns.add(1.0, (0..entries).map(|row| (row, 1.0)));
        }
        let mut rhs = vec![9.0; 100];
        rhs[3] = 5.0;
        (columns, rhs)
    }

    #[test]
    fn values_and_pivots_are_counted_by_the_rows_they_touch() {
        // Values: 100 × 100 / 500 + 1. Expanding: 100 × 80 / 700 = 11, 100 × 79 / 700 = 11. Pivot: 80 rows × 100 /
        // 2000 + 1 = 5, 79 rows one less.
        for (entries, pivot) in [(80, 5), (79, 4)] {
            for upkeep in BOTH {
                let (columns, rhs) = wide(entries);
                let mut basis = begun(&columns, &rhs, upkeep);
                assert_eq!(basis.work, 21);
                assert!(basis.enter(&columns, 200));
                assert_eq!((basis.work, basis.basic[3]), (21 + 11 + pivot, 200));
                basis.revalue(&columns);
                assert_eq!(basis.work, 21 + 11 + pivot + 21);
            }
        }
    }

    #[test]
    fn a_search_counts_the_entries_it_prices() {
        // 200 entries of the rows themselves and 8 × 80: 840 / 700 + 1, and 840 / 500 + 1 where a level is below zero.
        let (columns, mut rhs) = wide(80);
        let mut basis = begun(&columns, &rhs, Upkeep::Updated);
        assert_eq!(basis.improve(&columns, |_| false, 5), 0);
        assert_eq!(basis.work, 21 + 2);
        assert!(basis.repair(&columns, |_| false, 5));
        assert_eq!(basis.work, 21 + 2);
        rhs[70] = -1.0;
        let mut basis = begun(&columns, &rhs, Upkeep::Updated);
        assert!(!basis.repair(&columns, |_| false, 5));
        assert_eq!(basis.work, 21 + 2);
        // 200 and 8 × 65 = 720: twice 1.
        let (columns, _) = wide(65);
        let mut basis = begun(&columns, &rhs, Upkeep::Updated);
        basis.improve(&columns, |_| false, 5);
        basis.repair(&columns, |_| false, 5);
        assert_eq!(basis.work, 21 + 2 + 2);
    }

    #[test]
    fn an_inverse_counts_the_rows_it_changes_in_both_tables() {
        // One column over 80 rows, with its largest entry in its own: 79 others, twice: 158 × 100 / 2000 = 7; then the
        // values. Two and a half meet the demand of five.
        let (mut columns, rhs) = wide(80);
        let column = columns.add(1.0, (0..80).map(|row| (row, if row == 3 { 2.0 } else { 1.0 })));
        let mut basic: Vec<usize> = (0..100).map(|row| if row < 60 { 100 + row } else { row }).collect();
        basic[3] = column;
        let basis = Basis::resume(&columns, rhs, basic);
        assert_eq!(basis.work, 21 + 7 + 21);
        assert!((basis.level[3] - 2.5).abs() < 1e-9 && (basis.level[79] - 6.5).abs() < 1e-9);
    }

    /// Two columns for one demand, in turn: one for each pivot, and one more for the values of each new inverse.
    #[test]
    fn an_updated_inverse_is_computed_anew_every_hundred_and_fifty_pivots() {
        for (upkeep, renewals) in [(Upkeep::Updated, [0, 1, 1, 2]), (Upkeep::Computed, [0; 4])] {
            let mut columns = Columns::new(1, 0, 100.0);
            columns.add(3.0, [(0, 2.0)]);
            columns.add(5.0, [(0, 4.0)]);
            let mut basis = begun(&columns, &[8.0], upkeep);
            let mut counts = Vec::new();
            for pivot in 0..300 {
                assert!(basis.enter(&columns, 2 + pivot % 2));
                counts.push(basis.work);
            }
            let found: Vec<u64> = [149, 150, 299, 300].map(|pivots| counts[pivots - 1] - 1).to_vec();
            let expected: Vec<u64> =
                [149, 150, 299, 300].iter().zip(renewals).map(|(count, more)| count + more).collect();
            assert_eq!(found, expected, "{upkeep:?}");
            stands(&basis, &[3], &[2.0], &[1.25]);
        }
    }

    #[test]
    fn with_more_rows_than_that_it_is_after_as_many_pivots_as_rows() {
        let mut columns = Columns::new(160, 0, 100.0);
        for row in 0..160 {
            columns.add(3.0, [(row, 2.0)]);
        }
        let mut basis = begun(&columns, &[8.0; 160], Upkeep::Updated);
        // 160 × 160 / 500 + 1.
        assert_eq!(basis.work, 52);
        for row in 0..159 {
            basis.enter(&columns, 320 + row);
        }
        assert_eq!(basis.work, 52 + 159);
        basis.enter(&columns, 320 + 159);
        assert_eq!(basis.work, 52 + 160 + 52);
    }
}
