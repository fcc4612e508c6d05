//! The prepared problem, by hand.

use super::*;
use crate::problem::Rectangle;

fn prepared(stretches: &[(i64, Option<i64>)], loss: i64, rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss })
}

#[test]
fn shapes_rise_by_width_then_length_with_the_loss_on_every_length() {
    let turning = |along, across| Rectangle { quarter: true, ..Rectangle::new(along, across, 5) };
    let kinds = vec![turning(9, 4), Rectangle::new(7, 4, 2), turning(6, 6), Rectangle::new(7, 4, 3)];
    let cloth = prepared(&[(20, Some(30)), (20, None)], 2, kinds);
    let shapes: Vec<_> = cloth.shapes.iter().map(|one| (one.item, one.turned, one.along, one.across)).collect();
    let expected = [(1, false, 9, 4), (3, false, 9, 4), (0, false, 11, 4), (2, false, 8, 6), (0, true, 6, 9)];
    assert_eq!(shapes, expected);
    let of: Vec<_> = cloth.items.iter().map(|item| (item.shapes.clone(), item.area)).collect();
    // The first takes the less turned: 11 * 4 against 6 * 9.
    assert_eq!(of, [(vec![2, 4], 44), (vec![0], 36), (vec![3], 48), (vec![1], 36)]);
    assert_eq!((cloth.counts(), cloth.loss), (vec![5, 2, 5, 3], 2));
    assert_eq!(cloth.stretches.iter().map(|one| one.length).collect::<Vec<_>>(), [Some(32), None]);
}

#[test]
fn what_fits_on_no_stretch_is_left_out() {
    let at = |first, along, across| Rectangle {
        starts: Some(Starts { first, every: 50 }),
        ..Rectangle::new(along, across, 3)
    };
    let turning = |along, across| Rectangle { quarter: true, ..Rectangle::new(along, across, 3) };
    for (piece, shapes) in [
        (Rectangle::new(30, 8, 3), 1),
        (Rectangle::new(31, 8, 3), 0),
        (Rectangle::new(30, 9, 3), 0),
        (Rectangle::new(12, 20, 3), 1),
        (Rectangle::new(13, 20, 3), 0),
        (at(5, 25, 8), 1),
        (at(6, 25, 8), 0),
        (turning(8, 30), 1),
        (turning(7, 8), 2),
        (turning(8, 31), 0),
        (Rectangle::new(7, 8, 0), 0),
    ] {
        // Without loss at the end of a stretch, so that it is no shorter.
        let cloth = prepared(&[(8, Some(30)), (20, Some(12))], 2, vec![piece.clone()]);
        let item = &cloth.items[0];
        assert_eq!(item.shapes.len(), shapes, "{piece:?}");
        let placed = if shapes > 0 { (piece.count, 0) } else { (0, piece.count) };
        assert_eq!((item.count, item.unplaceable), placed, "{piece:?}");
        assert!(shapes > 0 || item.area == 0);
    }
}

#[test]
fn marks_and_the_edge_count_only_where_there_are_pieces() {
    let marked = |every, count| Rectangle { starts: Some(Starts { first: 1, every }), ..Rectangle::new(3, 4, count) };
    let edge = |count| Rectangle { at_edge: true, ..Rectangle::new(3, 4, count) };
    let of = |kinds: Vec<Rectangle>| {
        let cloth = prepared(&[(20, None)], 0, kinds);
        (cloth.is_marked, cloth.is_edged, cloth.repeat)
    };
    assert_eq!(of(vec![marked(5, 0), edge(0), Rectangle::new(3, 4, 1)]), (false, false, None));
    assert_eq!(of(vec![marked(5, 1), edge(1), Rectangle::new(3, 4, 1)]), (true, true, Some(5)));
    assert_eq!(of(vec![marked(5, 2), marked(5, 1), marked(6, 0)]), (true, false, Some(5)));
    assert_eq!(of(vec![marked(5, 2), marked(6, 1)]), (true, false, None));
    assert!(prepared(&[(20, Some(3)), (20, None)], 0, vec![]).is_endless());
    assert!(!prepared(&[(20, None), (20, Some(3))], 0, vec![]).is_endless() && !prepared(&[], 0, vec![]).is_endless());
}

#[test]
fn equal_pieces_with_marks_lie_whole_repeats_apart() {
    let starts = |every| Some(Starts { first: 3, every });
    assert_eq!([apart(None, 7), apart(starts(5), 7), apart(starts(7), 7), apart(starts(9), 7)], [7, 10, 7, 9]);
    assert_eq!([next_multiple(0, 5), next_multiple(1, 5), next_multiple(10, 5), next_multiple(11, 5)], [0, 5, 10, 15]);
    assert_eq!([next_multiple(7, 0), next_multiple(7, -5), next_multiple(7, 1)], [7, 7, 7]);
    // Longer than the longest line of pieces that is accepted.
    assert!(ENDLESS > 1_000_000_000_000_000_000 && ENDLESS.checked_mul(3).is_some());
}
