//! Which of several layouts is taken, and what stays over.

use super::*;
use crate::outlines::tests::{Made, fixed, many_steps, polygon, steps};
use crate::problem::Polygon;

/// On a width of 10: 5 by 6, with 3 by 4 and 2 by 4 one behind the other beside it, fill a length of 5. As shelves or
/// rows the last begins a shelf of its own.
fn puzzle() -> Made {
    Made::new(10, 0, &[fixed(2, 4, 1), fixed(5, 6, 1), fixed(3, 4, 1), fixed(1, 11, 1)])
}

#[test]
fn an_order_by_area_finds_what_shelves_and_rows_do_not() {
    let made = puzzle();
    let table = made.table();
    let pieces = [(0, false), (1, false), (2, false)];
    assert_eq!(table.length(&plain(&table, &pieces)), 7);
    let best = plain(&table, &pieces);
    assert_eq!(table.length(&filled(&table, &pieces, best.clone(), &mut many_steps())), 5);
    // Where the steps are used up nothing is tried.
    let mut none = steps(1);
    assert_eq!(filled(&table, &pieces, best, &mut none).len(), 3);
    assert_eq!(table.length(&filled(&table, &pieces, plain(&table, &pieces), &mut steps(1))), 7);
    assert_eq!(table.length(&searched(&table, &pieces, plain(&table, &pieces), 1, &mut many_steps())), 5);
}

#[test]
fn what_is_too_wide_stays_over_in_order() {
    let made = puzzle();
    let table = made.table();
    let pieces = [(3, false), (2, false), (0, false), (3, false), (1, false)];
    let (placed, left) = lay(&table, &pieces, 1, &mut many_steps());
    assert_eq!((placed.len(), table.length(&placed), left), (3, 5, vec![(3, false); 2]));
    let (placed, left) = lay(&table, &[(3, false)], 1, &mut many_steps());
    assert_eq!((placed, left), (Vec::new(), vec![(3, false)]));
    assert_eq!(lay(&table, &[], 1, &mut many_steps()), (Vec::new(), Vec::new()));
}

#[test]
fn a_layout_is_better_if_it_is_whole_shorter_and_valid() {
    let made = puzzle();
    let table = made.table();
    let row = |alongs: &[i64]| alongs.iter().map(|&along| made.placed(1, along, 0)).collect::<Vec<_>>();
    let best = row(&[0, 6]);
    for (other, taken) in [
        (row(&[0, 5]), true),
        (row(&[0, 6]), false),
        (row(&[6, 0]), false),
        (row(&[0, 7]), false),
        (row(&[0, 4]), false),
        (row(&[0]), false),
    ] {
        let expected = if taken { other.clone() } else { best.clone() };
        assert_eq!(better(&table, best.clone(), other), expected);
    }
}

#[test]
fn rows_are_taken_where_they_are_shorter_than_shelves() {
    let gore = Polygon { half: true, ..polygon(&[(85, 0), (175, 0), (260, 500), (0, 500)], 1) };
    let made = Made::new(500, 0, &[gore, fixed(7, 250, 1), fixed(9, 250, 1)]);
    let table = made.table();
    assert_eq!(table.length(&plain(&table, &[(0, false); 4])), 260 + 3 * 175);
    // Of two kinds that lie beside each other shelves are: 9, not 7 and 9.
    assert_eq!(table.length(&plain(&table, &[(1, false), (2, false)])), 9);
}

#[test]
fn many_pieces_are_laid_in_blocks_that_repeat() {
    // 63 times the three that fill 5: shelves and rows waste some of each, a block of 16 of them nothing.
    let made = puzzle();
    let table = made.table();
    let pieces: Vec<Piece> = (0..189).map(|at| (at % 3, false)).collect();
    let (placed, left) = lay(&table, &pieces, 1, &mut steps(300_000));
    assert!(left.is_empty() && placed.len() == 189 && table.is_valid(&placed));
    let plain = table.length(&plain(&table, &pieces));
    assert!(table.length(&placed) <= plain.min(63 * 5 * 11 / 10), "{} of {plain}", table.length(&placed));
}
