//! Small pushes and slides whose ends are worked by hand.

use super::*;
use crate::outlines::tests::{Made, fixed, many_steps, steps};
use crate::problem::{Polygon, Starts};

fn places(placements: &[PosePlacement]) -> Vec<(i64, i64)> {
    placements.iter().map(|placed| (placed.along, placed.across)).collect()
}

#[test]
fn the_nearest_free_position_is_the_nearest_of_all() {
    let mut rng = fastrand::Rng::with_seed(8);
    for _ in 0..6000 {
        let mut spans: Vec<(i64, i64)> = (0..rng.usize(0..5))
            .map(|_| {
                let low = rng.i64(-6..20);
                (low, low + rng.i64(1..9))
            })
            .collect();
        spans.sort_unstable();
        let most = rng.i64(0..25);
        let wanted = rng.i64(0..=most);
        let free = |place: &i64| spans.iter().all(|&(low, high)| *place <= low || high <= *place);
        let expected = (0..=most).filter(free).min_by_key(|place| (place - wanted).abs());
        assert_eq!(nearest(&spans, wanted, most), expected, "{spans:?}: {wanted} up to {most}");
    }
}

#[test]
fn a_piece_is_pushed_the_shorter_way_and_no_more_than_a_thousandth_of_the_width_and_four() {
    let plain = fixed(100, 200, 1);
    let at_edge = Polygon { at_edge: true, ..fixed(100, 200, 1) };
    let starting = Polygon { starts: Some(Starts { first: 1, every: 2 }), ..fixed(100, 200, 1) };
    let made = Made::new(1500, 0, &[plain, at_edge, starting]);
    let table = made.table();
    let push = |item: usize, along: i64, across: i64| {
        let placements = [made.placed(0, 300, 0), made.placed(item, along, across)];
        pushed(&table, &placements, 1).map(|(at, placed)| (at, placed.along, placed.across))
    };
    // It overlaps by so much along and across; five is as far as it goes.
    assert_eq!(push(0, 397, 196), Some((1, 400, 196)));
    assert_eq!(push(0, 396, 197), Some((1, 396, 200)));
    assert_eq!(push(0, 395, 100), Some((1, 400, 100)));
    assert_eq!(push(0, 394, 100), None);
    assert_eq!(push(0, 205, 100), Some((1, 200, 100)));
    assert_eq!(push(0, 320, 195), Some((1, 320, 200)));
    assert_eq!(push(0, 320, 194), None);
    // A piece of the edge moves along only, one of a pattern across only.
    assert_eq!(push(1, 397, 0), Some((1, 400, 0)));
    assert_eq!(push(2, 397, 196), Some((1, 397, 200)));
    assert_eq!(push(2, 397, 100), None);
    // The first of the two is pushed as well, back from the other, but not beyond the beginning or the edge.
    let placements = [made.placed(0, 300, 600), made.placed(0, 397, 400)];
    let back = pushed(&table, &placements, 0).map(|(at, placed)| (at, placed.along, placed.across));
    assert_eq!((back, pair(&table, &placements)), (Some((0, 300, 600)), None));
    let placements = [made.placed(0, 300, 600), made.placed(0, 397, 404)];
    let back = pushed(&table, &placements, 0).map(|(at, placed)| (at, placed.along, placed.across));
    assert_eq!((back, pair(&table, &placements)), (Some((0, 297, 600)), Some((1, 0))));
    // With 200 of 1500 across there is room up to 1300.
    let placements = [made.placed(0, 300, 1103), made.placed(0, 320, 1300)];
    assert_eq!(pushed(&table, &placements, 1), None);
    assert_eq!(pushed(&table, &placements, 0).map(|(_, placed)| placed.across), Some(1100));
}

#[test]
fn pieces_that_overlap_by_little_are_pushed_apart_one_after_another() {
    let made = Made::new(1000, 0, &[fixed(100, 200, 1)]);
    let table = made.table();
    let row = |alongs: &[i64]| alongs.iter().map(|&along| made.placed(0, along, 0)).collect::<Vec<_>>();
    let apart = settled(&table, row(&[0, 98, 201, 299])).unwrap();
    assert_eq!(places(&apart), vec![(0, 0), (100, 0), (201, 0), (301, 0)]);
    assert_eq!(settled(&table, row(&[0, 100])), Some(row(&[0, 100])));
    // Where the second cannot move, for a third lies behind it, the first does.
    assert_eq!(settled(&table, row(&[10, 108, 208])).map(|all| places(&all)), Some(vec![(8, 0), (108, 0), (208, 0)]));
    assert_eq!(settled(&table, row(&[0, 90])), None);
    // What breaks another rule is never mended.
    assert_eq!(settled(&table, row(&[-5])), None);
    assert_eq!(pair(&table, &row(&[0, 100, 200, 290])), Some((3, 2)));
    assert_eq!(pair(&table, &row(&[0, 50, 60])), Some((1, 0)));
}

#[test]
fn pieces_slide_to_the_beginning_as_far_as_they_go() {
    let starting = Polygon { starts: Some(Starts { first: 3, every: 7 }), ..fixed(10, 20, 1) };
    let made = Made::new(100, 2, &[fixed(10, 20, 1), starting]);
    let table = made.table();
    // In their order along: 0, then 12, then from 24 on.
    let loose = vec![made.placed(0, 50, 0), made.placed(0, 5, 0), made.placed(1, 31, 0), made.placed(0, 90, 30)];
    let slid = closer(&table, loose.clone(), &mut many_steps());
    assert_eq!(places(&slid), vec![(0, 0), (0, 30), (17, 0), (29, 0)]);
    assert!(table.is_valid(&slid));
    // Without steps all stay, if in their order along.
    let mut sorted = loose;
    sorted.sort_by_key(|placed| placed.along);
    assert_eq!(closer(&table, sorted.clone(), &mut steps(0)), sorted);
    assert_eq!(places(&closer(&table, vec![made.placed(0, 5, 3)], &mut many_steps())), vec![(0, 3)]);
    // One that lies behind another may pass it into a hole.
    let loose = vec![made.placed(0, 0, 30), made.placed(0, 12, 0), made.placed(0, 40, 5), made.placed(0, 60, 60)];
    assert_eq!(places(&closer(&table, loose, &mut many_steps())), vec![(0, 0), (0, 30), (0, 60), (12, 5)]);
}

#[test]
fn sliding_takes_a_step_for_each_twenty_four_looks() {
    // In a row each of 24 looks at 23 others, each of 25 at 24.
    for (count, taken) in [(24, 0), (25, 25), (49, 98)] {
        let made = Made::new(100, 0, &[fixed(10, 20, 1)]);
        let row: Vec<PosePlacement> = (0..count).map(|at| made.placed(0, 10 * at, 0)).collect();
        let mut budget = steps(1000);
        assert_eq!(closer(&made.table(), row.clone(), &mut budget), row);
        assert_eq!(budget.left(), 1000 - taken);
    }
}
