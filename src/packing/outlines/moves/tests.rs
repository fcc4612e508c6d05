//! Moves of single pieces: where they lead, and how many tries they take where none is better.

use super::*;
use crate::number;
use crate::outlines::depths::Depths;
use crate::outlines::tests::{Made, fixed, many_steps};
use crate::problem::Polygon;

fn with(made: &Made, places: &[(usize, i64, i64)], work: impl FnOnce(&mut Crowd<'_>)) {
    let table = made.table();
    let depths = Depths::new(&table, &mut many_steps());
    let placements: Vec<_> = places.iter().map(|&(item, along, across)| made.placed(item, along, across)).collect();
    work(&mut Crowd::new(&table, &depths, &placements, 1).unwrap());
}

fn place(position: Position) -> (usize, f64, f64) {
    (position.pose, position.along, position.across)
}

/// Rounds of an improvement that never succeeds: steps of 25 shares are halved along an axis, or lose three tenths
/// along a diagonal, until both are down to one share.
fn vain_rounds(rng: &mut Rng) -> u64 {
    let (mut along, mut across, mut rounds) = (25.0, 25.0, 0);
    while along > 1.0 || across > 1.0 {
        let (factor, other) = [(0.5, 1.0), (1.0, 0.5), (0.7, 0.7), (0.7, 0.7)][usize::from(rng.u8(..4))];
        along *= factor;
        across *= other;
        rounds += 1;
    }
    rounds
}

#[test]
fn where_all_places_are_the_same_as_many_are_tried_as_is_stated() {
    // Each of five pieces fills the strip: every place is the one it has. A sixth overlaps them by less than the noise.
    let made = Made::new(60, 0, &[fixed(80, 60, 1)]);
    with(&made, &[(0, 0, 0); 6], |crowd| {
        crowd.set_position(5, Position { pose: 0, along: 79.9995, across: 0.0 });
        for seed in 0..20 {
            let (mut rng, mut hand) = (Rng::with_seed(seed), Rng::with_seed(seed));
            let now = crowd.cost(2, crowd.positions[2], f64::INFINITY);
            // Four others, 60 deep each.
            assert!((now - 240.0).abs() < 1e-9);
            crowd.looks = 0;
            let found = crowd.best_position(2, now, &mut rng);
            assert_eq!(place(found), (0, 0.0, 0.0));
            let mut tries = 0;
            // Twelve anywhere: a pose, along, across.
            for _ in 0..12 {
                hand.usize(..1);
                hand.f64();
                hand.f64();
                tries += 1;
            }
            // Five near: as often in its own pose as in any.
            for _ in 0..5 {
                if !hand.bool() {
                    hand.usize(..1);
                }
                hand.f64();
                hand.f64();
                tries += 1;
            }
            // Twelve that touch another, at one of its four corners, if that is not itself.
            for _ in 0..12 {
                hand.usize(..1);
                if hand.usize(..6) != 2 {
                    hand.usize(..4);
                    tries += 1;
                }
            }
            // The best two are improved, the better of them once more; each round looks both ways.
            let rounds: u64 = (0..3).map(|_| vain_rounds(&mut hand)).sum();
            // A look at a place costs six and eight for each of four that are met. The first, with nothing to be better
            // than, meets the fifth too.
            assert_eq!(crowd.looks, (tries + 2 * rounds) * (6 + 4 * 8) + 8);
            assert_eq!(rng.get_seed(), hand.get_seed());
        }
    });
}

#[test]
fn a_piece_with_room_elsewhere_finds_it() {
    // On 300 by 60, two oblongs of 80 by 60 lie on each other.
    let made = Made::new(60, 0, &[fixed(80, 60, 1), fixed(220, 60, 1)]);
    with(&made, &[(0, 0, 0), (0, 10, 0), (1, 80, 0)], |crowd| {
        assert!(crowd.set_length(300.0));
        crowd.set_position(2, Position { pose: 0, along: 0.0, across: 0.0 });
        for seed in 0..20 {
            // Only the end is free, or next to nothing.
            let mut rng = Rng::with_seed(seed);
            let now = crowd.cost(1, crowd.positions[1], f64::INFINITY);
            let found = crowd.best_position(1, now, &mut rng);
            let cost = crowd.cost(1, found, f64::INFINITY);
            assert!(found.along > 210.0 && cost < 5.0, "{found:?}");
        }
    });
}

#[test]
fn an_improvement_goes_on_while_it_helps_and_its_steps_grow() {
    // The small one is 300 deep in the large one: so much along leads out, and far more across.
    let made = Made::new(5000, 0, &[fixed(1000, 1000, 1), fixed(200, 100, 1)]);
    with(&made, &[(0, 2000, 2000), (1, 2700, 2400)], |crowd| {
        assert!(crowd.set_length(9000.0));
        // At the far end of it the way leads on, at the near end back.
        for (start, sign) in [(2700.0, 1.0), (2100.0, -1.0)] {
            for seed in 0..30 {
                let (mut rng, mut hand) = (Rng::with_seed(seed), Rng::with_seed(seed));
                let position = Position { pose: 0, along: start, across: 2400.0 };
                crowd.set_position(1, position);
                let (cost, found) = crowd.improved(1, position, 300.0, 0.01, &mut rng);
                // Steps of a quarter of its smaller size. Across alone nothing is gained; with a diagonal one of the two
                // ways along is.
                let (mut step, mut left, mut across) = ((25.0, 25.0), 300.0f64, 2400.0);
                while left > crowd.noise && (step.0 > 1.0 || step.1 > 1.0) {
                    let way = hand.u8(..4);
                    if way == 1 {
                        step.1 *= 0.5;
                        continue;
                    }
                    left -= step.0;
                    across += sign * [0.0, 0.0, step.1, -step.1][usize::from(way)];
                    step.0 *= 1.1;
                    if way > 1 {
                        step.1 *= 1.1;
                    }
                }
                assert!((cost - left.max(0.0)).abs() < 1e-6, "{cost} for {left}");
                assert!((found.along - (start + sign * (300.0 - left))).abs() < 1e-6, "{found:?}");
                assert!((found.across - across).abs() < 1e-6, "{found:?}");
                assert_eq!((found.pose, rng.get_seed()), (0, hand.get_seed()));
            }
        }
    });
}

#[test]
fn a_place_between_two_is_found_to_a_small_part_of_the_size() {
    // In a slot of 200 between two, one of 220 touches the one that weighs more: 20 deep in the other.
    let made = Made::new(100, 0, &[fixed(400, 100, 1), fixed(220, 100, 1)]);
    with(&made, &[(0, 0, 0), (1, 390, 0), (0, 600, 0)], |crowd| {
        crowd.weights = vec![3.0; 9];
        crowd.weights[3] = 1.0;
        for seed in 0..20 {
            let start = Position { pose: 0, along: 401.7, across: 0.0 };
            crowd.set_position(1, start);
            let now = crowd.cost(1, start, f64::INFINITY);
            let found = crowd.best_position(1, now, &mut Rng::with_seed(seed));
            let cost = crowd.cost(1, found, f64::INFINITY);
            // A ten thousandth of the smaller size, or two where it weighs three.
            assert!((cost - 20.0).abs() < 0.06, "{cost} at {found:?}");
        }
    });
}

#[test]
fn a_try_nearby_is_up_to_a_quarter_of_the_size_off() {
    let turning = Polygon { quarter: true, ..fixed(80, 40, 1) };
    let made = Made::new(400, 0, &[turning]);
    with(&made, &[(0, 300, 200), (0, 700, 0)], |crowd| {
        let mut rng = Rng::with_seed(1);
        let mut found = [Vec::new(), Vec::new()];
        for _ in 0..4000 {
            let near = crowd.nearby(0, &mut rng).unwrap();
            found[near.pose].push((near.along - 300.0, near.across - 200.0));
        }
        // Its own pose each other time, and half of the others.
        assert!((2900..3100).contains(&found[0].len()), "{}", found[0].len());
        for (offs, (along, across)) in found.into_iter().zip([(20.0, 10.0), (10.0, 20.0)]) {
            for (values, most) in [
                (offs.iter().map(|off| off.0).collect::<Vec<f64>>(), along),
                (offs.iter().map(|off| off.1).collect(), across),
            ] {
                let low = values.iter().copied().fold(f64::INFINITY, f64::min);
                let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                assert!(low >= -most && low < 0.5 - most && high <= most && high > most - 0.5, "{low} to {high}");
            }
        }
    });
}

#[test]
fn a_try_anywhere_is_anywhere_on_the_strip_in_any_pose() {
    let turning = Polygon { quarter: true, ..fixed(30, 10, 1) };
    let made = Made::new(90, 0, &[turning, fixed(50, 20, 1)]);
    with(&made, &[(0, 0, 0), (1, 100, 0)], |crowd| {
        let mut rng = Rng::with_seed(1);
        let mut ends = [[f64::INFINITY, f64::NEG_INFINITY, f64::INFINITY, f64::NEG_INFINITY]; 2];
        for _ in 0..2000 {
            let found = crowd.anywhere(0, &mut rng);
            let end = &mut ends[found.pose];
            *end =
                [end[0].min(found.along), end[1].max(found.along), end[2].min(found.across), end[3].max(found.across)];
        }
        // On 150 by 90: up to 120 and 80 as it is, up to 140 and 60 turned.
        for (end, (along, across)) in ends.into_iter().zip([(120.0, 80.0), (140.0, 60.0)]) {
            assert!(end[0] >= 0.0 && end[0] < 2.0 && end[1] > along - 2.0 && end[1] <= along, "{end:?}");
            assert!(end[2] >= 0.0 && end[2] < 2.0 && end[3] > across - 2.0 && end[3] <= across, "{end:?}");
        }
        // Its values follow each other evenly: half of them lie in each half.
        let found: Vec<Position> = (0..2000).map(|_| crowd.anywhere(1, &mut rng)).collect();
        let early = found.iter().filter(|found| found.along < 50.0).count();
        let low = found.iter().filter(|found| found.across < 35.0).count();
        assert!((900..1100).contains(&early) && (900..1100).contains(&low), "{early} and {low}");
    });
}

#[test]
fn a_touching_place_is_at_a_corner_of_another_piece() {
    let made = Made::new(900, 0, &[fixed(30, 10, 1), fixed(50, 20, 1)]);
    with(&made, &[(0, 400, 300), (1, 100, 500), (1, 800, 0)], |crowd| {
        let mut rng = Rng::with_seed(1);
        let mut found = std::collections::BTreeSet::new();
        let mut none = 0;
        for _ in 0..400 {
            let Some(touch) = crowd.touching(0, &mut rng) else {
                none += 1;
                continue;
            };
            let whole = |value: f64| number::nearest_whole(value).unwrap();
            found.insert((whole(touch.along), whole(touch.across)));
        }
        // 30 or 50 along, 10 or 20 across; the strip ends at 850 and begins at 0 across.
        let second = [(70, 490), (70, 520), (150, 490), (150, 520)];
        let third = [(770, 0), (770, 20), (820, 0), (820, 20)];
        assert_eq!(found.into_iter().collect::<Vec<_>>(), [second, third].concat());
        // One time in three it would be itself.
        assert!((90..180).contains(&none), "{none}");
    });
}

#[test]
fn two_large_pieces_of_different_kinds_exchange_their_middles() {
    let made = Made::new(900, 0, &[fixed(60, 40, 1), fixed(100, 20, 1), fixed(10, 30, 1), fixed(80, 4, 1)]);
    // Sizes 2400, 2000, 300, 320, 300: the larger half are the first two and the last.
    let places = [(2, 500, 500), (0, 100, 200), (1, 400, 600), (2, 700, 700), (3, 20, 800)];
    with(&made, &places, |crowd| {
        let middle = |bounds: [f64; 4]| (f64::midpoint(bounds[0], bounds[1]), f64::midpoint(bounds[2], bounds[3]));
        let before = crowd.boxes.clone();
        let start = crowd.positions.clone();
        let mut swaps = std::collections::BTreeSet::new();
        for seed in 0..60 {
            crowd.restore(&start);
            crowd.perturb(&mut Rng::with_seed(seed));
            let moved: Vec<usize> = (0..5).filter(|&at| crowd.boxes[at].to_vec() != before[at].to_vec()).collect();
            assert_eq!(moved.len(), 2);
            assert_eq!(middle(crowd.boxes[moved[0]]), middle(before[moved[1]]));
            assert_eq!(middle(crowd.boxes[moved[1]]), middle(before[moved[0]]));
            swaps.insert((moved[0], moved[1]));
        }
        assert_eq!(swaps.into_iter().collect::<Vec<_>>(), vec![(1, 2), (1, 4), (2, 4)]);
    });
    // Of one kind, one of the larger half goes anywhere; of two pieces, either.
    for (count, movable) in [(5, 3), (2, 2), (1, 1)] {
        let places: Vec<_> = (0..count).map(|at| (0, 100 * at, 0)).collect();
        with(&made, &places, |crowd| {
            let (before, start) = (crowd.boxes.clone(), crowd.positions.clone());
            let mut all = std::collections::BTreeSet::new();
            for seed in 0..60 {
                crowd.restore(&start);
                crowd.perturb(&mut Rng::with_seed(seed));
                all.extend((0..before.len()).filter(|&at| crowd.boxes[at].to_vec() != before[at].to_vec()));
            }
            assert_eq!(all.len(), movable);
        });
    }
}
