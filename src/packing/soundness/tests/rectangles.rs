//! Rectangles placed anywhere; the first rules are those of every placement.

use crate::problem::{Rectangle, RectangleProblem, Starts, Stretch};
use crate::solution::{Placement, StripSolution, Turn};
use crate::soundness::{is_endless, rectangles};

const OUTSIDE: Result<(), &str> = Err("outside its stretch");
const OVERLAP: Result<(), &str> = Err("two pieces overlap");
const WRONG_COUNT: Result<(), &str> = Err("not as many pieces as wanted");

/// Placements, what is left out, and the verdict.
type Case<'c> = (&'c [Placement], &'c [(usize, i64)], Result<(), &'static str>);

/// A piece of the only rectangle on the only stretch.
fn at(along: i64, across: i64) -> Placement {
    Placement { item: 0, stretch: 0, along, across, turn: Turn::None, mirrored: false }
}

fn turned(along: i64, across: i64, turn: Turn) -> Placement {
    Placement { turn, ..at(along, across) }
}

/// Rectangles on a stretch 30 wide and 40 long, with 3 lost at a cut.
fn sheet(rectangles: Vec<Rectangle>) -> RectangleProblem {
    RectangleProblem { stretches: vec![Stretch { width: 30, length: Some(40) }], rectangles, loss: 3 }
}

/// A rectangle of 8 along and 5 across.
fn small(count: i64) -> Rectangle {
    Rectangle::new(8, 5, count)
}

fn solution(placements: &[Placement]) -> StripSolution {
    StripSolution { placements: placements.to_vec(), length: 0, unplaced: Vec::new(), bound: 0, proved: false }
}

fn verdict(problem: &RectangleProblem, placements: &[Placement]) -> Result<(), &'static str> {
    rectangles(problem, &solution(placements))
}

#[test]
fn a_piece_lies_within_its_stretch_to_the_last_unit() {
    let cases = [
        ((0, 0), Ok(())),
        ((32, 25), Ok(())),
        ((33, 25), OUTSIDE),
        ((32, 26), OUTSIDE),
        ((-1, 0), OUTSIDE),
        ((0, -1), OUTSIDE),
    ];
    for ((along, across), expected) in cases {
        assert_eq!(verdict(&sheet(vec![small(1)]), &[at(along, across)]), expected, "{along} {across}");
    }
}

#[test]
fn a_turned_piece_has_its_sizes_exchanged() {
    let problem = sheet(vec![Rectangle { quarter: true, ..small(1) }]);
    for turn in [Turn::Quarter, Turn::ThreeQuarters] {
        assert_eq!(verdict(&problem, &[turned(35, 22, turn)]), Ok(()));
        assert_eq!(verdict(&problem, &[turned(36, 22, turn)]), OUTSIDE);
        assert_eq!(verdict(&problem, &[turned(35, 23, turn)]), OUTSIDE);
        let fixed = sheet(vec![small(1)]);
        assert_eq!(verdict(&fixed, &[turned(0, 0, turn)]), Err("turned, which it must not be"));
    }
    assert_eq!(verdict(&problem, &[turned(0, 0, Turn::Half)]), Err("turned, which it must not be"));
}

#[test]
fn a_piece_of_the_edge_lies_at_it_and_is_not_turned() {
    let mut problem = sheet(vec![Rectangle { at_edge: true, quarter: true, ..small(2) }]);
    assert_eq!(verdict(&problem, &[at(0, 0), at(11, 0)]), Ok(()));
    assert_eq!(verdict(&problem, &[at(0, 0), at(11, 1)]), Err("off the edge"));
    assert_eq!(verdict(&problem, &[at(0, 0), turned(11, 0, Turn::Quarter)]), Err("turned at the edge"));
    problem.rectangles[0].at_edge = false;
    assert_eq!(verdict(&problem, &[at(0, 0), turned(11, 0, Turn::Quarter)]), Ok(()));
}

#[test]
fn a_piece_with_starts_begins_at_one_of_them() {
    let marked = |first| sheet(vec![Rectangle { starts: Some(Starts { first, every: 7 }), ..small(1) }]);
    for along in [5, 12, 19, 26] {
        assert_eq!(verdict(&marked(5), &[at(along, 0)]), Ok(()), "{along}");
    }
    for along in [-2, 0, 4, 6, 11, 13, 25] {
        assert_eq!(verdict(&marked(5), &[at(along, 0)]), Err("begins where it must not"), "{along}");
    }
    // The first may be before the stretch.
    assert_eq!(verdict(&marked(-2), &[at(5, 0)]), Ok(()));
    let never = sheet(vec![Rectangle { starts: Some(Starts { first: 5, every: 0 }), ..small(1) }]);
    assert_eq!(verdict(&never, &[at(5, 0)]), Err("begins where it must not"));
}

#[test]
fn every_piece_is_placed_or_named_as_left_out() {
    let problem = sheet(vec![small(2), Rectangle::new(4, 6, 1)]);
    let other = |along| Placement { item: 1, ..at(along, 0) };
    let all = [at(0, 0), at(11, 0), other(22)];
    let unknown = Err("an index that the problem does not have");
    let cases: [Case<'_>; 14] = [
        (&all, &[], Ok(())),
        (&all[..2], &[], WRONG_COUNT),
        (&all[1..], &[], WRONG_COUNT),
        (&[at(0, 0), at(11, 0), other(22), at(30, 0)], &[], WRONG_COUNT),
        (&all[1..], &[(0, 1)], Ok(())),
        (&all[2..], &[(0, 2)], Ok(())),
        (&all[2..], &[(0, 1), (0, 1)], Ok(())),
        (&all[..2], &[(1, 1)], Ok(())),
        (&all, &[(1, 1)], WRONG_COUNT),
        (&all, &[(1, 0)], Err("nothing left out")),
        (&all, &[(1, -1)], Err("nothing left out")),
        (&all, &[(2, 1)], Err("an item left out that there is not")),
        (&[Placement { item: 2, ..at(0, 0) }], &[], unknown),
        (&[Placement { stretch: 1, ..at(0, 0) }], &[], unknown),
    ];
    for (case, (placements, unplaced, expected)) in cases.into_iter().enumerate() {
        let solution = StripSolution { unplaced: unplaced.to_vec(), ..solution(placements) };
        assert_eq!(rectangles(&problem, &solution), expected, "case {case}");
    }
}

/// Each piece is 8 along: the next cut begins 11 after it, or lies clear across.
#[test]
fn two_pieces_keep_the_loss_along_and_do_not_overlap_across() {
    let problem = sheet(vec![small(2)]);
    let cases = [
        ((0, 0), (11, 0), Ok(())),
        ((0, 0), (10, 0), OVERLAP),
        ((0, 0), (10, 5), Ok(())),
        ((0, 0), (10, 4), OVERLAP),
        ((0, 5), (10, 0), Ok(())),
        ((0, 4), (10, 0), OVERLAP),
        ((7, 6), (7, 6), OVERLAP),
        ((7, 6), (7, 11), Ok(())),
    ];
    for (one, other, expected) in cases {
        let (one, other) = (at(one.0, one.1), at(other.0, other.1));
        assert_eq!(verdict(&problem, &[one, other]), expected, "{one:?} {other:?}");
        assert_eq!(verdict(&problem, &[other, one]), expected, "{other:?} {one:?}");
    }
}

#[test]
fn a_long_piece_is_compared_with_all_beside_it() {
    let mut problem = sheet(vec![Rectangle::new(30, 4, 1), small(2)]);
    let small = |along, across| Placement { item: 1, ..at(along, across) };
    assert_eq!(verdict(&problem, &[at(0, 0), small(0, 4), small(20, 4)]), Ok(()));
    assert_eq!(verdict(&problem, &[at(0, 0), small(0, 4), small(20, 3)]), OVERLAP);
    // On another stretch nothing is near.
    problem.stretches.push(Stretch { width: 30, length: Some(40) });
    let elsewhere = Placement { stretch: 1, ..small(20, 3) };
    assert_eq!(verdict(&problem, &[at(0, 0), small(0, 4), elsewhere]), Ok(()));
}

#[test]
fn the_length_is_that_of_the_last_stretch_if_it_is_endless() {
    let mut problem = sheet(vec![small(4)]);
    problem.stretches.push(Stretch::endless(25));
    let on = |along, across| Placement { stretch: 1, ..at(along, across) };
    let placements = [at(32, 0), on(0, 10), on(1007, 0), on(11, 0)];
    let told = |problem: &RectangleProblem, length, bound| {
        rectangles(problem, &StripSolution { length, bound, ..solution(&placements) })
    };
    // 1007 and 8.
    assert_eq!(told(&problem, 1015, 1015), Ok(()));
    assert_eq!(told(&problem, 1015, 3), Ok(()));
    assert_eq!(told(&problem, 1015, 1016), Err("a bound above the length"));
    assert_eq!(told(&problem, 1014, 3), Err("not the length it says"));
    assert_eq!(told(&problem, 1016, 3), Err("not the length it says"));
    problem.stretches[1].length = Some(1015);
    assert_eq!(told(&problem, 1015, 3), Err("not the length it says"));
    assert_eq!(told(&problem, 0, 0), Ok(()));
    assert_eq!(told(&problem, 0, 1), Err("a bound above the length"));
    // Nothing on the last stretch is no length.
    problem.stretches[1].length = None;
    problem.rectangles[0].count = 1;
    assert_eq!(verdict(&problem, &[at(32, 0)]), Ok(()));
    assert!(is_endless(&problem.stretches));
    assert!(!is_endless(&problem.stretches[..1]) && !is_endless(&[]));
}
