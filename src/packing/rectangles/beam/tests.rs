//! Each part of the search on partial plans drawn by hand, then whole searches whose work is counted by hand.

use std::sync::atomic::AtomicBool;

use super::*;
use crate::effort::{Steps, Watch};
use crate::problem::{Rectangle, RectangleProblem, Starts};
use crate::rectangles::skyline::Step;

const GUIDE: Guide = Guide { power: 1, rough: 0.0, narrowest: false, low_wall: false, expected_waste_share: 0.0 };

fn prepared(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 }).expect("a sound problem")
}

fn piece(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle::new(along, across, count)
}

fn at_edge(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle { at_edge: true, ..piece(along, across, count) }
}

fn follows(along: i64, across: i64, count: i64, first: i64, every: i64) -> Rectangle {
    Rectangle { starts: Some(Starts { first, every }), ..piece(along, across, count) }
}

/// A skyline from the widths and heights of its steps.
fn line(steps: &[(i64, i64)]) -> Skyline {
    let mut from = 0;
    let step = |&(width, top): &(i64, i64)| {
        from += width;
        Step { across: from - width, width, top }
    };
    Skyline { steps: steps.iter().map(step).collect() }
}

fn is_near(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-9 * (1.0 + other.abs())
}

#[test]
fn the_waste_that_a_plan_can_afford_is_the_space_less_the_pieces() {
    // 5 of 3 by 4 and 2 of 7 by 5 are 130; 6 x 8 and 10 x 20 are 248.
    let pieces = vec![piece(3, 4, 5), piece(7, 5, 2)];
    let all_fit = prepared(&[(6, Some(8)), (10, None)], pieces.clone());
    let beam = Beam::new(&all_fit, GUIDE, 3, 20);
    assert!(is_near(beam.budget, 118.0 + 248e-9) && beam.budget > 118.0 + 200e-9, "{}", beam.budget);
    assert!(is_near(beam.total, 130.0) && is_near(beam.mean, 130.0 / 7.0));
    assert_eq!(beam.optional, [false, false]);
    // Wider than the endless stretch by one: it may stay out, and then waste is no measure. Just as wide, it may not.
    let one_too_wide = prepared(&[(6, Some(8)), (4, None)], pieces.clone());
    let beam = Beam::new(&one_too_wide, GUIDE, 3, 20);
    assert!(beam.budget.is_infinite() && beam.optional == [false, true]);
    let limited = prepared(&[(6, Some(8))], pieces);
    let beam = Beam::new(&limited, GUIDE, 3, 20);
    assert!(beam.budget.is_infinite() && beam.optional == [true, true]);
}

#[test]
fn behind_a_piece_on_a_pattern_lies_what_is_left_of_the_repeat() {
    // From 2, 7 long, to 9; the next may begin at 12: 3 long and 5 wide are lost.
    let prepared = prepared(&[(11, None)], vec![piece(4, 3, 6), follows(7, 5, 2, 2, 10)]);
    let beam = Beam::new(&prepared, GUIDE, 1, 40);
    assert!(is_near(beam.waste_behind[0], 0.0) && is_near(beam.waste_behind[1], 15.0));
    assert!(is_near(beam.root().expected_waste, 2.0 * 15.0));
}

#[test]
fn a_search_begins_with_every_piece_on_the_empty_first_stretch() {
    // The piece at the edge that is too wide for the endless stretch asks for no length of it.
    let pieces = vec![piece(4, 3, 6), at_edge(5, 3, 7), at_edge(9, 8, 2)];
    let prepared = prepared(&[(9, Some(13)), (7, None)], pieces);
    let beam = Beam::new(&prepared, GUIDE, 1, 40);
    let root = beam.root();
    assert_eq!((root.left.as_slice(), root.edge, root.last_entry), ([6, 7, 2].as_slice(), 5 * 7, NOWHERE));
    assert_eq!(root.line.steps, line(&[(9, 0)]).steps);
    let keys = &beam.hash_keys;
    let sum = keys[0].wrapping_mul(6).wrapping_add(keys[1].wrapping_mul(7)).wrapping_add(keys[2].wrapping_mul(2));
    assert_eq!(root.hash, sum);
    assert!(keys[0] != keys[1] && keys[1] != keys[2] && keys[0] != keys[2]);
}

/// The three kinds of the tests of extensions on a strip of 20: 161 of area in 10 pieces.
fn three_kinds() -> Prepared {
    prepared(&[(20, None)], vec![piece(3, 4, 5), piece(4, 7, 2), follows(5, 3, 3, 2, 9)])
}

/// A gap 7 wide at 4, between 9 on the left and 8 on the right.
fn gap() -> Node {
    Node {
        left: vec![5, 2, 3],
        line: line(&[(6, 9), (7, 4), (7, 8)]),
        waste: 5.0,
        placed: 30.0,
        expected_waste: 36.0,
        gap: 1,
        narrowest_piece: 4,
        ..Node::default()
    }
}

#[test]
fn a_score_is_waste_and_roughness_over_what_is_placed() {
    let prepared = three_kinds();
    let guide = Guide { power: 2, rough: 0.5, expected_waste_share: 0.25, ..GUIDE };
    let beam = Beam::new(&prepared, guide, 9, 16);
    let mut children = Vec::new();
    assert_eq!(beam.expand(6, &gap(), &mut children), 3);
    // The first kind leaves 3 beside it, too narrow for anything: 3 x 3 wasted; 3 steps remain. The second fills the
    // gap level with the right wall: 2 steps. The third begins at 11, 7 x 3 wasted, and leaves room for another: 4.
    let over = |placed: f64| (placed / 161.0) * (placed / 161.0);
    let expected = [
        (5.0 + 9.0 + 0.25 * 36.0 + 0.5 * 16.1 * 3.0) / over(42.0),
        (5.0 + 0.25 * 36.0 + 0.5 * 16.1 * 2.0) / over(58.0),
        (5.0 + 21.0 + 0.25 * (36.0 - 12.0) + 0.5 * 16.1 * 4.0) / over(45.0),
    ];
    assert_eq!(children.len(), 3);
    for (at, (child, expected)) in children.iter().zip(expected).enumerate() {
        assert!(is_near(child.score, expected), "{at}: {} {expected}", child.score);
        assert_eq!((child.node, child.shape, child.right), (6, at, false));
    }
}

#[test]
fn only_pieces_left_that_fit_the_gap_are_tried() {
    let prepared = three_kinds();
    let tried = |node: &Node, limit: i64, budget: f64| {
        let mut beam = Beam::new(&prepared, GUIDE, 9, limit);
        beam.budget = budget;
        let mut children = Vec::new();
        beam.expand(0, node, &mut children);
        children.iter().map(|child| child.shape).collect::<Vec<_>>()
    };
    let with = |left: [usize; 3]| Node { left: left.to_vec(), ..gap() };
    assert_eq!(tried(&gap(), 16, 1e9), [0, 1, 2]);
    assert_eq!(tried(&with([1, 0, 1]), 16, 1e9), [0, 2]);
    assert_eq!(tried(&with([0, 1, 0]), 16, 1e9), [1]);
    // The third ends at 16.
    assert_eq!(tried(&gap(), 15, 1e9), [0, 1]);
    // A gap of 6 is too narrow for 7.
    assert_eq!(tried(&Node { line: line(&[(7, 9), (6, 4), (7, 8)]), ..gap() }, 16, 1e9), [0, 2]);
    // The first wastes 5 + 9, the third 5 + 21.
    assert_eq!(tried(&gap(), 16, 14.0), [0, 1]);
    assert_eq!(tried(&gap(), 16, 13.9), [1]);
    assert_eq!(tried(&gap(), 16, 26.0), [0, 1, 2]);
}

#[test]
fn what_an_extension_wastes_and_how_many_steps_it_leaves() {
    // One kind, 5 long and 4 wide, so from 4 it ends at 9; the narrowest piece left is 3 wide.
    let prepared = prepared(&[(20, None)], vec![piece(5, 4, 30), piece(3, 3, 9)]);
    let mean = (600.0 + 81.0) / 39.0;
    // Heights left and right of the gap and its width; waste and steps after.
    let cases = [
        ((12, 11, 4), (0, 3)),
        ((12, 9, 4), (0, 2)),
        ((9, 8, 4), (0, 2)),
        ((12, 11, 5), (5, 3)),
        ((12, 6, 6), (2 * 2, 3)),
        ((12, 11, 7), (0, 4)),
        ((9, 8, 7), (0, 3)),
        ((8, 9, 7), (0, 3)),
        ((9, 6, 5), (2, 2)),
    ];
    for ((left, right, width), (waste, after)) in cases {
        let node = Node {
            left: vec![0, 1],
            line: line(&[(6, left), (width, 4), (14 - width, right)]),
            gap: 1,
            narrowest_piece: 3,
            ..Node::default()
        };
        let score = |rough: f64| {
            let beam = Beam::new(&prepared, Guide { power: 0, rough, ..GUIDE }, 9, 100);
            let mut children = Vec::new();
            beam.expand(0, &node, &mut children);
            assert_eq!((children.len(), children[0].right), (1, left < right));
            children[0].score
        };
        assert!(is_near(score(0.0), f64::from(waste)), "{left} {right} {width}");
        assert!(is_near(score(1.0) - f64::from(waste), mean * f64::from(after)), "{left} {right} {width}");
    }
}

#[test]
fn pieces_lie_at_the_higher_wall_or_at_the_lower_if_so_guided() {
    let prepared = prepared(&[(20, None)], vec![at_edge(5, 4, 3), piece(6, 3, 30)]);
    // The steps, the gap, the length that pieces at the edge still need; whether each kind lies right, with either
    // guide. The first kind lies at the edge or nowhere.
    let here = |right: bool| (None, Some(right));
    let edge = |right: bool| (Some(false), Some(right));
    let cases = [
        (vec![(6, 9), (7, 4), (7, 8)], 1, 0, here(false), here(true)),
        (vec![(6, 8), (7, 4), (7, 9)], 1, 0, here(true), here(false)),
        (vec![(6, 8), (7, 4), (7, 8)], 1, 0, here(false), here(false)),
        // Beside the edge, where pieces at the edge are still to come, others keep away from it.
        (vec![(6, 4), (14, 9)], 0, 0, edge(false), edge(true)),
        (vec![(6, 4), (14, 9)], 0, 1, edge(true), edge(true)),
        (vec![(20, 0)], 0, 0, edge(false), edge(false)),
        (vec![(20, 0)], 0, 15, edge(true), edge(true)),
        // One away from the edge is not at it.
        (vec![(1, 9), (12, 4), (7, 8)], 1, 15, here(false), here(true)),
    ];
    for (steps, gap, edge, high, low) in cases {
        for (low_wall, expected) in [(false, high), (true, low)] {
            let beam = Beam::new(&prepared, Guide { low_wall, ..GUIDE }, 9, 100);
            let node = Node { left: vec![1, 1], line: line(&steps), gap, edge, ..Node::default() };
            let mut children = Vec::new();
            beam.expand(0, &node, &mut children);
            let right = |shape: usize| children.iter().find(|child| child.shape == shape).map(|child| child.right);
            assert_eq!((right(0), right(1)), expected, "{steps:?} {edge} {low_wall}");
        }
    }
}

#[test]
fn the_wall_on_whose_side_a_piece_lies_is_the_one_it_may_end_level_with() {
    // At the lower wall, 9 on the right, the piece ends level with it; the 2 left of it are filled to its end.
    let prepared = prepared(&[(20, None)], vec![piece(5, 4, 30), piece(3, 3, 9)]);
    let node = Node {
        left: vec![0, 1],
        line: line(&[(6, 12), (6, 4), (8, 9)]),
        gap: 1,
        narrowest_piece: 3,
        ..Node::default()
    };
    let mean = (600.0 + 81.0) / 39.0;
    for (low_wall, after) in [(false, 3.0), (true, 2.0)] {
        let beam = Beam::new(&prepared, Guide { power: 0, rough: 1.0, low_wall, ..GUIDE }, 9, 100);
        let mut children = Vec::new();
        beam.expand(0, &node, &mut children);
        assert!(is_near(children[0].score, 10.0 + after * mean), "{}", children[0].score);
    }
}

#[test]
fn a_placed_piece_raises_the_edge_and_is_no_longer_left() {
    // Nine kinds in ten orientations.
    let mut pieces: Vec<Rectangle> = (3..10).map(|along| piece(along, 2, 2)).collect();
    pieces.push(follows(11, 5, 4, 3, 13));
    pieces.push(Rectangle { quarter: true, ..piece(12, 4, 2) });
    let prepared = prepared(&[(30, None)], pieces);
    let mut beam = Beam::new(&prepared, GUIDE, 9, 100);
    let before = Node {
        left: beam.prepared.counts(),
        line: line(&[(6, 9), (17, 4), (7, 8)]),
        waste: 5.0,
        placed: 30.0,
        expected_waste: 70.0,
        hash: 1_000,
        edge: 17,
        gap: 1,
        narrowest_piece: 2,
        last_entry: 42,
        ..Node::default()
    };
    let mut made = Node::default();
    let work = beam.make(&before, Child { score: 0.0, node: 0, shape: 7, right: true }, &mut made);
    // From 4 the next start is 16, so 12 x 5 are wasted; it ends at 27, and after it 2 x 5 are lost up to 29.
    assert_eq!(made.line.steps, line(&[(6, 9), (12, 4), (5, 27), (7, 8)]).steps);
    assert_eq!((made.waste, made.placed, made.expected_waste), (5.0 + 60.0, 30.0 + 55.0, 70.0 - 10.0));
    assert_eq!((made.left[7], made.left.iter().sum::<usize>()), (3, 14 + 3 + 2));
    assert_eq!(made.hash, 1_000_u64.wrapping_sub(beam.hash_keys[7]));
    assert_eq!((made.edge, made.narrowest_piece, made.gap, made.stretch), (17, 2, 1, 0));
    let entry = beam.history[made.last_entry];
    assert_eq!(entry.before, 42);
    assert_eq!(entry.placement, ShapePlacement { shape: 7, stretch: 0, along: 16, across: 6 + 12 });
    // Ten orientations, a quarter of the nine kinds, four steps and ten.
    assert_eq!(work, 10 + 2 + 4 + 10);
    beam.make(&before, Child { score: 0.0, node: 0, shape: 2, right: false }, &mut made);
    let entry = beam.history[made.last_entry];
    assert_eq!(entry.placement, ShapePlacement { shape: 2, stretch: 0, along: 4, across: 6 });
    assert_eq!(made.line.steps, line(&[(8, 9), (15, 4), (7, 8)]).steps);
}

#[test]
fn a_piece_at_the_edge_no_longer_needs_its_length_there() {
    let pieces = vec![piece(4, 3, 6), at_edge(5, 3, 7), at_edge(9, 8, 2)];
    let prepared = prepared(&[(9, Some(13)), (7, None)], pieces);
    let mut beam = Beam::new(&prepared, GUIDE, 1, 40);
    let root = beam.root();
    // The last needs none, since it does not fit the endless stretch.
    let after = [0, 1, 2].map(|shape| {
        let mut made = Node::default();
        beam.make(&root, Child { score: 0.0, node: 0, shape, right: false }, &mut made);
        made.edge
    });
    assert_eq!(after, [35, 30, 35]);
}

#[test]
fn what_is_left_of_a_stretch_is_wasted_where_nothing_more_fits() {
    // 4 of 5 wide are filled up to 5, and 1 beside it up to the top of 6; nothing else fits on 5 x 6.
    let prepared = prepared(&[(5, Some(6)), (7, Some(9)), (8, None)], vec![piece(5, 4, 3), piece(8, 7, 2)]);
    let beam = Beam::new(&prepared, GUIDE, 1, 40);
    let mut node = Node { left: vec![2, 1], line: line(&[(4, 5), (1, 0)]), waste: 3.0, ..Node::default() };
    assert_eq!(beam.settle(&mut node), State::Open);
    assert_eq!((node.stretch, node.waste, node.narrowest_piece, node.gap), (1, 3.0 + 5.0 + 5.0, 4, 0));
    assert_eq!(node.line.steps, line(&[(7, 0)]).steps);
    // With all placed it stays where it is.
    let mut node = Node { left: vec![0, 0], line: line(&[(4, 5), (1, 0)]), waste: 3.0, ..Node::default() };
    assert_eq!((beam.settle(&mut node), node.stretch, node.waste), (State::Complete, 0, 3.0));
}

#[test]
fn a_plan_is_complete_without_what_may_stay_out_and_dead_without_what_may_not() {
    // On 8 x 11, filled up to 7, nothing fits: without an endless stretch that is the end of a plan.
    let pieces = vec![piece(5, 4, 3), piece(9, 7, 2)];
    let settled = |stretches: &[(i64, Option<i64>)], left: [usize; 2], stretch: usize| {
        let prepared = prepared(stretches, pieces.clone());
        let beam = Beam::new(&prepared, GUIDE, 1, 11);
        let line = line(&[(stretches[stretch].0, 7)]);
        let mut node = Node { left: left.to_vec(), line, stretch, ..Node::default() };
        beam.settle(&mut node)
    };
    assert_eq!(settled(&[(8, Some(11))], [2, 1], 0), State::Complete);
    assert_eq!(settled(&[(8, None)], [2, 1], 0), State::Dead);
    assert_eq!(settled(&[(8, None)], [0, 1], 0), State::Dead);
    assert_eq!(settled(&[(8, None)], [0, 0], 0), State::Complete);
    // Too wide for an endless stretch of 6, the second kind may stay out, but not the first.
    assert_eq!(settled(&[(8, Some(11)), (6, None)], [0, 1], 1), State::Complete);
    assert_eq!(settled(&[(8, Some(11)), (6, None)], [1, 1], 1), State::Dead);
}

#[test]
fn a_plan_dies_when_it_wastes_more_than_it_can_afford() {
    // Above 7 there is no room for 5 up to 11: 4 x 3 are dead, and 2 have been wasted before. Above 6 there is.
    let prepared = prepared(&[(9, None)], vec![piece(5, 4, 3), piece(6, 3, 2)]);
    let mut beam = Beam::new(&prepared, GUIDE, 1, 11);
    for (budget, state) in [(14.0, State::Open), (13.9, State::Dead)] {
        beam.budget = budget;
        let mut node = Node { left: vec![1, 1], line: line(&[(3, 7), (6, 6)]), waste: 2.0, ..Node::default() };
        assert_eq!(beam.settle(&mut node), state);
    }
}

#[test]
fn a_plan_dies_when_the_pieces_at_the_edge_no_longer_fit_there() {
    let pieces = vec![at_edge(5, 4, 3), piece(4, 3, 9)];
    let settled = |stretches: &[(i64, Option<i64>)], top: i64, edge: i64| {
        let prepared = prepared(stretches, pieces.clone());
        let mut beam = Beam::new(&prepared, GUIDE, 1, 20);
        beam.budget = 1e9;
        let mut node = Node { left: vec![2, 1], line: line(&[(4, top), (5, 3)]), edge, ..Node::default() };
        beam.settle(&mut node)
    };
    assert_eq!(settled(&[(9, None)], 10, 10), State::Open);
    assert_eq!(settled(&[(9, None)], 11, 10), State::Dead);
    assert_eq!(settled(&[(9, None)], 8, 0), State::Open);
    // On a limited stretch they may still come on the endless one.
    assert_eq!(settled(&[(9, Some(20)), (9, None)], 11, 10), State::Open);
}

#[test]
fn valleys_too_narrow_for_any_piece_are_filled_one_into_the_other() {
    let prepared = prepared(&[(18, None)], vec![piece(5, 4, 3), piece(6, 5, 2)]);
    // 2 x 2 up to 6, then 3 x 3 up to 9; the lowest gap, 4 wide at 2, lies beyond. Both ways round.
    for (steps, after, gap) in [
        (vec![(5, 9), (2, 4), (1, 6), (6, 11), (4, 2)], vec![(8, 9), (6, 11), (4, 2)], 2),
        (vec![(4, 2), (6, 11), (1, 6), (2, 4), (5, 9)], vec![(4, 2), (6, 11), (8, 9)], 0),
        // As wide as the narrowest piece is no valley; nor is a step down.
        (vec![(5, 9), (4, 4), (3, 6), (2, 11), (4, 2)], vec![(5, 9), (4, 4), (3, 6), (2, 11), (4, 2)], 4),
    ] {
        let beam = Beam::new(&prepared, GUIDE, 1, 40);
        let mut node = Node { left: vec![3, 2], line: line(&steps), waste: 1.0, ..Node::default() };
        assert!(beam.find_gap(&mut node, 40, 4));
        assert_eq!(node.line.steps, line(&after).steps);
        assert_eq!((node.gap, node.waste), (gap, if after.len() == 3 { 1.0 + 4.0 + 9.0 } else { 1.0 }));
    }
}

#[test]
fn a_gap_that_no_piece_left_may_lie_in_is_filled_up_to_its_lower_wall() {
    // Only at the edge: 4 x 3 up to 5 and 10 x 2 up to 7, where the edge is level; 6 more end at 13.
    let prepared = prepared(&[(15, None)], vec![at_edge(6, 3, 2), piece(5, 4, 3)]);
    let beam = Beam::new(&prepared, GUIDE, 1, 40);
    let found = |limit: i64, left: [usize; 2]| {
        let line = line(&[(5, 7), (4, 2), (6, 5)]);
        let mut node = Node { left: left.to_vec(), line, ..Node::default() };
        (beam.find_gap(&mut node, limit, 3), node.gap, node.waste, node.line.steps.len())
    };
    assert_eq!(prepared.shapes[0].along, 5, "the first is the free one");
    assert_eq!(found(13, [0, 2]), (true, 0, 32.0, 1));
    assert_eq!(found(12, [0, 2]), (false, 0, 32.0, 1));
    assert_eq!(found(40, [1, 2]), (true, 1, 0.0, 3));
    assert_eq!(found(7, [1, 0]), (true, 1, 0.0, 3));
    assert_eq!(found(6, [1, 0]), (false, 0, 32.0, 1));
}

#[test]
fn a_gap_takes_a_piece_as_wide_as_it_is() {
    let prepared = prepared(&[(15, None)], vec![piece(5, 4, 3), at_edge(7, 5, 2)]);
    let beam = Beam::new(&prepared, GUIDE, 1, 40);
    let found = |steps: &[(i64, i64)], left: [usize; 2]| {
        let mut node = Node { left: left.to_vec(), line: line(steps), ..Node::default() };
        beam.find_gap(&mut node, 40, 1).then_some((node.gap, node.waste))
    };
    assert_eq!(found(&[(6, 7), (4, 2), (5, 5)], [1, 0]), Some((1, 0.0)));
    assert_eq!(found(&[(7, 7), (3, 2), (5, 5)], [1, 0]), Some((1, 9.0)));
    assert_eq!(found(&[(5, 2), (10, 7)], [0, 1]), Some((0, 0.0)));
    assert_eq!(found(&[(4, 2), (11, 7)], [0, 1]), Some((0, 20.0)));
    // One away from the edge is not at it: 5 x 2 up to the height of 4, then all of it up to 7.
    assert_eq!(found(&[(1, 7), (5, 2), (9, 4)], [0, 1]), Some((0, 10.0 + 14.0 * 3.0)));
    assert_eq!(found(&[(15, 2)], [0, 0]), None);
}

#[test]
fn the_narrowest_gap_is_lower_than_both_its_neighbours() {
    let cases = [
        (vec![(5, 9), (7, 4), (3, 6)], 1),
        (vec![(5, 9), (7, 2), (3, 6), (4, 5), (6, 8)], 3),
        (vec![(5, 9), (4, 5), (3, 6), (4, 2), (6, 8)], 3),
        (vec![(5, 9), (4, 5), (3, 6), (4, 5), (6, 8)], 1),
        // Narrow, but a step on the way up or down or a hill.
        (vec![(2, 5), (1, 9), (7, 4), (1, 6), (8, 8)], 0),
        (vec![(3, 4), (1, 5), (2, 8), (1, 7)], 3),
        (vec![(12, 0)], 0),
    ];
    for (steps, gap) in cases {
        assert_eq!(narrowest_gap(&line(&steps)), gap, "{steps:?}");
    }
    let prepared = prepared(&[(25, None)], vec![piece(5, 4, 3), piece(6, 3, 3)]);
    for (narrowest, gap) in [(false, 1), (true, 3)] {
        let beam = Beam::new(&prepared, Guide { narrowest, ..GUIDE }, 1, 40);
        let line = line(&[(5, 9), (7, 2), (3, 6), (4, 5), (6, 8)]);
        let mut node = Node { left: vec![1, 1], line, ..Node::default() };
        assert!(beam.find_gap(&mut node, 40, 3));
        assert_eq!(node.gap, gap);
    }
}

#[test]
fn dead_is_what_lies_under_the_limit_where_nothing_is_short_enough() {
    let node = Node { line: line(&[(5, 9), (7, 2), (3, 6), (4, 7)]), ..Node::default() };
    // Up to 10: 5 x 1 and 4 x 3 are too short for 4, 3 x 4 is not.
    for (shortest, dead) in [(4, 5.0 + 12.0), (5, 5.0 + 12.0 + 12.0), (1, 0.0)] {
        assert!(is_near(dead_above(&node, 10, shortest), dead), "{shortest}");
    }
}

#[test]
fn the_best_children_go_first_in_a_fixed_order() {
    let child = |score: f64, node: usize, shape: usize| Child { score, node, shape, right: false };
    let kept = |most: usize| {
        let mut children =
            vec![child(3.0, 0, 0), child(1.0, 2, 1), child(1.0, 1, 2), child(2.0, 0, 5), child(1.0, 1, 0)];
        keep_best(&mut children, most);
        children.iter().map(|child| (child.node, child.shape)).collect::<Vec<_>>()
    };
    let all = [(1, 0), (1, 2), (2, 1), (0, 5), (0, 0)];
    for most in 1..7 {
        assert_eq!(kept(most), all[..most.min(5)]);
    }
}

#[test]
fn states_are_equal_by_the_edge_the_pieces_left_and_the_stretch() {
    let node = |steps: &[(i64, i64)], hash: u64, stretch: usize| {
        state_hash(&Node { line: line(steps), hash, stretch, ..Node::default() })
    };
    let one = node(&[(5, 9), (7, 2)], 17, 0);
    assert_eq!(one, state_hash(&Node { line: line(&[(5, 9), (7, 2)]), hash: 17, waste: 4.0, ..Node::default() }));
    let others = [
        node(&[(6, 9), (6, 2)], 17, 0),
        node(&[(5, 8), (7, 2)], 17, 0),
        node(&[(5, 9), (7, 3)], 17, 0),
        node(&[(5, 2), (7, 9)], 17, 0),
        node(&[(5, 9)], 17, 0),
        node(&[(5, 9), (7, 2)], 18, 0),
        node(&[(5, 9), (7, 2)], 17, 1),
    ];
    for (at, other) in others.iter().enumerate() {
        assert!(one != *other && others[..at].iter().all(|before| before != other), "{at}");
    }
}

/// What a search finds, and the work it takes.
fn run(beam: &mut Beam<'_>, work: u64) -> (Option<Layout>, u64) {
    let stop = AtomicBool::new(false);
    let mut steps = Steps::new(work, Watch::silent(&stop));
    let found = beam.run(&mut Meter::new(&mut steps, 1));
    (found, work - steps.left())
}

#[test]
fn a_search_takes_the_work_of_what_it_makes_and_drops_a_state_it_has_seen() {
    // 3 by 3, 3 by 4 and 5 by 10 within 8 on a width of 10. Each level costs 3 for every plan that goes on, and 13 and
    // the steps of the edge for every plan made:
    // three plans of 2, 2 and 1 steps; then four of 2 steps, of which the first two pieces in either order are one;
    // then three complete ones of 1, 2 and 2 steps.
    let prepared = prepared(&[(10, None)], vec![piece(3, 3, 1), piece(3, 4, 1), piece(5, 10, 1)]);
    let guide = Guide { power: 1, rough: 0.1, low_wall: true, narrowest: true, expected_waste_share: 1.0 };
    let mut beam = Beam::new(&prepared, guide, 5, 8);
    let (found, work) = run(&mut beam, 100_000);
    let found = found.expect("a plan within 8");
    assert_eq!((found.missing, found.length, found.placements.len()), (0, 8, 3));
    let levels = [3 + 15 + 15 + 14, 9 + 4 * 15, 9 + 14 + 15 + 15];
    assert_eq!(work, levels.iter().sum::<u64>());
    assert!(beam.rest.len() >= 6, "plans no longer needed are used again");
    // Out of work after the second level, there is none; at the end of the third there is.
    assert!(run(&mut Beam::new(&prepared, guide, 5, 8), levels[0] + levels[1]).0.is_none());
    assert!(run(&mut Beam::new(&prepared, guide, 5, 8), levels[0] + levels[1] + 1).0.is_some());
    // Of a breadth of one, one goes on from each level.
    let (found, work) = run(&mut Beam::new(&prepared, guide, 1, 8), 100_000);
    assert!(found.is_some() && work < 3 + 15 + 3 + 15 + 3 + 15 + 15, "{work}");
    assert!(run(&mut Beam::new(&prepared, guide, 5, 7), 100_000).0.is_none());
}

#[test]
fn without_an_endless_stretch_the_plan_that_places_most_is_found() {
    // On 10 x 10: one of 9 by 7 leaves room for nothing, two of 8 by 5 lie side by side.
    let best = |one: Rectangle, other: Rectangle| {
        let prepared = prepared(&[(10, Some(10))], vec![one, other]);
        let (found, _) = run(&mut Beam::new(&prepared, GUIDE, 20, 0), 100_000);
        let found = found.expect("a plan");
        (prepared.area() - found.missing, found.placements.len())
    };
    assert_eq!(best(piece(9, 7, 1), piece(8, 5, 2)), (80, 2));
    assert_eq!(best(piece(9, 9, 1), piece(8, 5, 2)), (81, 1));
    // Of two that place as much, the first found, which is of fewer pieces; lengths are in units of 2.
    assert_eq!(best(piece(10, 8, 1), piece(8, 5, 2)), (80 / 2, 1));
}

#[test]
fn a_plan_is_searched_for_over_several_stretches_in_order() {
    // Four of 5 by 4 fill 8 x 10, and the fifth lies alone on the endless stretch of 6.
    let prepared = prepared(&[(8, Some(10)), (6, None)], vec![piece(5, 4, 5), piece(1, 6, 1)]);
    let (found, _) = run(&mut Beam::new(&prepared, GUIDE, 8, 6), 100_000);
    let found = found.expect("a plan within 6");
    assert_eq!((found.missing, found.length), (0, 6));
    assert_eq!(found.placements.iter().filter(|placement| placement.stretch == 0).count(), 4);
    assert!(found.placements.is_sorted_by_key(|placement| placement.stretch));
}
