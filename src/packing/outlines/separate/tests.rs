//! Separating a few pieces: how far they are pushed, how weights grow, and when it ends.

use super::*;
use crate::outlines::depths::Depths;
use crate::outlines::tests::{Made, fixed, many_steps, steps};

fn with(made: &Made, places: &[(usize, i64, i64)], threads: u64, work: impl FnOnce(&mut Crowd<'_>)) {
    let table = made.table();
    let depths = Depths::new(&table, &mut many_steps());
    let placements: Vec<_> = places.iter().map(|&(item, along, across)| made.placed(item, along, across)).collect();
    work(&mut Crowd::new(&table, &depths, &placements, threads).unwrap());
}

fn alongs(crowd: &Crowd<'_>) -> Vec<f64> {
    crowd.positions.iter().map(|position| position.along).collect()
}

#[test]
fn a_pair_is_pushed_apart_by_half_its_depth_each_and_a_little_more() {
    let made = Made::new(60, 0, &[fixed(80, 60, 1), fixed(50, 40, 1)]);
    with(&made, &[(0, 100, 0), (0, 174, 0), (1, 400, 20)], 1, |crowd| {
        assert!(crowd.push_apart());
        // By 6, and four times the noise each.
        let beyond = 4.0 * crowd.noise;
        for (along, expected) in alongs(crowd).into_iter().zip([97.0 - beyond, 177.0 + beyond, 400.0]) {
            assert!((along - expected).abs() < 1e-9, "{along} for {expected}");
        }
        // Two sweeps over three pieces, half of nine looks each; in the first one depth of eight.
        assert_eq!(crowd.looks, 2 * 4 + 8);
        // At the beginning of the strip only the other one moves, half by half.
        crowd.set_position(0, Position { pose: 0, along: 0.0, across: 0.0 });
        crowd.set_position(1, Position { pose: 0, along: 74.0, across: 0.0 });
        assert!(crowd.push_apart());
        let found = alongs(crowd);
        assert!(found[0].abs() < 1e-9 && found[1] > 80.0 - crowd.noise && found[1] < 80.1, "{found:?}");
    });
    // Across likewise: 40 by 2.
    let made = Made::new(200, 0, &[fixed(80, 60, 1)]);
    with(&made, &[(0, 100, 70), (0, 100, 128)], 1, |crowd| {
        assert!(crowd.push_apart());
        let beyond = 4.0 * crowd.noise;
        let found: Vec<f64> = crowd.positions.iter().map(|position| position.across).collect();
        assert!((found[0] - (69.0 - beyond)).abs() < 1e-9 && (found[1] - (129.0 + beyond)).abs() < 1e-9, "{found:?}");
    });
}

#[test]
fn pushing_ends_after_thirty_two_sweeps_that_gain_less_than_a_fifth() {
    // Two that each fill the strip: nothing moves.
    let made = Made::new(60, 0, &[fixed(80, 60, 1)]);
    with(&made, &[(0, 0, 0), (0, 0, 0)], 1, |crowd| {
        assert!(!crowd.push_apart());
        assert_eq!(crowd.looks, 32 * (2 + 8));
    });
    // Of three each pair is looked at: eight for each, and half of nine for going through them.
    with(&made, &[(0, 0, 0), (0, 0, 0), (0, 0, 0)], 1, |crowd| {
        assert!(!crowd.push_apart());
        assert_eq!(crowd.looks, 32 * (4 + 3 * 8));
    });
}

#[test]
fn a_move_off_the_strip_ends_at_its_border() {
    let made = Made::new(100, 0, &[fixed(80, 60, 1)]);
    with(&made, &[(0, 10, 5), (0, 100, 0)], 1, |crowd| {
        crowd.shift(0, (-4.0, 7.0));
        assert_eq!((crowd.positions[0].along, crowd.positions[0].across), (6.0, 12.0));
        assert_eq!(crowd.boxes[0].to_vec(), vec![6.0, 86.0, 12.0, 72.0]);
        crowd.shift(0, (-7.0, 70.0));
        assert_eq!((crowd.positions[0].along, crowd.positions[0].across), (0.0, 40.0));
    });
}

#[test]
fn separating_begins_with_equal_weights() {
    let made = Made::new(60, 0, &[fixed(80, 60, 1)]);
    with(&made, &[(0, 0, 0), (0, 120, 0)], 1, |crowd| {
        crowd.weights.fill(7.0);
        assert!(crowd.separate(&mut Rng::with_seed(1), &mut steps(100)));
        assert!(crowd.weights.iter().all(|weight| (weight - 1.0).abs() < 1e-12), "{:?}", crowd.weights);
    });
}

#[test]
fn only_better_positions_are_kept() {
    let made = Made::new(60, 0, &[fixed(80, 60, 1)]);
    with(&made, &[(0, 0, 0), (0, 70, 0)], 1, |crowd| {
        // They overlap by 10.
        for (best, kept) in [(10.5, true), (10.0, false), (9.5, false)] {
            let mut best = (best, Vec::new());
            crowd.keep(&mut best);
            assert_eq!((best.1.len(), (best.0 - 10.0).abs() < 1e-9 && kept), (if kept { 2 } else { 0 }, kept));
        }
    });
}

#[test]
fn weights_grow_with_the_depth_and_fall_again() {
    // On 10 by 10 two squares lie on each other, 10 deep, and a lower oblong in both, 6 deep.
    let made = Made::new(10, 0, &[fixed(10, 10, 1), fixed(10, 6, 1)]);
    with(&made, &[(0, 0, 0), (0, 0, 0), (1, 0, 0)], 1, |crowd| {
        let (sum, pairs) = crowd.round(&mut Rng::with_seed(1));
        assert!((sum - 22.0).abs() < 1e-9 && pairs == 3, "{sum}");
        // The deepest doubles, the others grow by 1.2 + 0.8 · 0.6, each over the decay.
        let (most, less) = (2.0 / 0.95, 1.68 / 0.95);
        let expected = [1.0, most, less, most, 1.0, less, less, less, 1.0];
        let near = |weights: &[f64], expected: &[f64]| {
            weights.iter().zip(expected).all(|(one, other)| (one - other).abs() < 1e-9 * other)
        };
        assert!(near(&crowd.weights, &expected), "{:?}", crowd.weights);
        crowd.round(&mut Rng::with_seed(2));
        let again = [1.0, most * 2.0, less * 1.68, most * 2.0, 1.0, less * 1.68, less * 1.68, less * 1.68, 1.0];
        assert!(near(&crowd.weights, &again), "{:?}", crowd.weights);
        // They never grow beyond 10^9.
        for seed in 0..40 {
            crowd.round(&mut Rng::with_seed(seed));
        }
        assert!(near(&crowd.weights[1..2], &[1e9]), "{:?}", crowd.weights);
    });
    // Those that lie apart lose a twentieth, down to one.
    with(&made, &[(0, 0, 0), (0, 10, 0)], 1, |crowd| {
        crowd.weights = vec![1.0, 3.0, 1.02, 1.0];
        assert_eq!(crowd.round(&mut Rng::with_seed(1)), (0.0, 0));
        assert!((crowd.weights[1] - 2.85).abs() < 1e-9 && crowd.weights[2] <= 1.0, "{:?}", crowd.weights);
    });
}

#[test]
fn what_cannot_be_separated_is_given_up_after_forty_rounds() {
    let made = Made::new(60, 0, &[fixed(80, 60, 1)]);
    // So many threads share the steps that a round takes the least of one.
    with(&made, &[(0, 0, 0), (0, 0, 0)], 1_000_000, |crowd| {
        crowd.weights.fill(7.0);
        let mut budget = steps(1000);
        assert!(!crowd.separate(&mut Rng::with_seed(1), &mut budget));
        assert_eq!(budget.left(), 960);
        // From one, each round doubled them over the decay.
        assert!(crowd.weights[1] > 1e9 - 1.0 && crowd.weights[0] <= 1.0);
        assert_eq!(alongs(crowd), vec![0.0, 0.0]);
    });
}

#[test]
fn a_round_takes_a_step_for_so_many_looks() {
    let made = Made::new(60, 0, &[fixed(80, 60, 1)]);
    for threads in [1, 2] {
        with(&made, &[(0, 0, 0); 9], threads, |crowd| {
            let mut by_hand = crowd.clone();
            let mut rng = Rng::with_seed(5);
            // As it begins: the sum, a push of all, the sum again, a round.
            by_hand.overlaps();
            by_hand.push_apart();
            by_hand.overlaps();
            by_hand.round(&mut rng);
            let took = by_hand.looks / (280 * threads) + 1;
            assert!(took > 20, "{took}");
            // With no step left after the first round it ends; with one left there is a second.
            for (more, ends) in [(0, true), (1, false)] {
                let mut tried = crowd.clone();
                let mut tried_rng = Rng::with_seed(5);
                assert!(!tried.separate(&mut tried_rng, &mut steps(took + more)));
                assert_eq!(tried_rng.get_seed() == rng.get_seed(), ends, "{threads}");
            }
        });
    }
}

#[test]
fn a_vain_search_takes_forty_rounds_and_a_push_of_all_after_the_tenth() {
    let made = Made::new(60, 0, &[fixed(80, 60, 1)]);
    with(&made, &[(0, 0, 0); 5], 1, |crowd| {
        let mut by_hand = crowd.clone();
        let mut rng = Rng::with_seed(5);
        by_hand.overlaps();
        by_hand.push_apart();
        by_hand.overlaps();
        let mut took = 0;
        for round in 1..=40 {
            by_hand.round(&mut rng);
            if round == 10 {
                by_hand.push_apart();
                by_hand.overlaps();
            }
            took += std::mem::take(&mut by_hand.looks) / 280 + 1;
        }
        let mut budget = steps(1_000_000);
        let mut tried = Rng::with_seed(5);
        assert!(!crowd.separate(&mut tried, &mut budget));
        assert_eq!((1_000_000 - budget.left(), tried.get_seed()), (took, rng.get_seed()));
    });
}

#[test]
fn any_piece_that_collides_is_moved() {
    // On 300 by 60 the long one has one place only, from 80 on; the other has to go before it.
    let made = Made::new(60, 0, &[fixed(80, 60, 1), fixed(220, 60, 1)]);
    for places in [[(0, 20, 0), (1, 80, 0)], [(1, 80, 0), (0, 20, 0)]] {
        with(&made, &places, 1, |crowd| {
            let weights = crowd.weights.clone();
            assert_eq!(crowd.round(&mut Rng::with_seed(1)), (0.0, 0));
            assert_eq!(crowd.weights, weights);
        });
    }
}

#[test]
fn pieces_with_room_are_separated() {
    let made = Made::new(60, 0, &[fixed(80, 60, 1), fixed(80, 30, 1)]);
    with(&made, &[(0, 0, 0), (0, 80, 0), (1, 160, 0), (1, 160, 30)], 1, |crowd| {
        // Nothing overlaps: no round is needed.
        let mut budget = steps(1000);
        assert!(crowd.separate(&mut Rng::with_seed(1), &mut budget));
        assert_eq!(budget.left(), 1000);
    });
    // On 300 by 60 there is room beside the last, 240 of which are needed, but the way leads past the others.
    with(&made, &[(0, 0, 0), (1, 0, 0), (1, 0, 30), (0, 220, 0)], 1, |crowd| {
        for seed in 0..10 {
            let mut tried = crowd.clone();
            assert!(tried.separate(&mut Rng::with_seed(seed), &mut steps(20_000)), "{seed}");
            assert!(tried.overlaps().1.is_empty());
        }
    });
}

#[test]
fn of_all_positions_seen_the_best_are_left() {
    let mut rng = Rng::with_seed(7);
    let mut tried = 0;
    for seed in 0..60 {
        let sizes: Vec<(i64, i64)> = (0..4).map(|_| (rng.i64(20..90), rng.i64(15..60))).collect();
        let kinds: Vec<_> = sizes.iter().map(|&(long, high)| fixed(long, high, 1)).collect();
        let made = Made::new(70, 0, &kinds);
        let places: Vec<_> = (0..4).map(|item| (item, rng.i64(0..60), rng.i64(0..=70 - sizes[item].1))).collect();
        with(&made, &places, 1, |crowd| {
            // Shorter than the area alone asks for.
            let area: i64 = sizes.iter().map(|size| size.0 * size.1).sum();
            let longest = sizes.iter().map(|size| size.0).max().unwrap();
            if !crowd.set_length(number::from_whole((area / 80).max(longest))) || area / 70 <= longest {
                return;
            }
            let mut by_hand = crowd.clone();
            let first = by_hand.overlaps().0;
            by_hand.push_apart();
            let pushed = by_hand.overlaps().0;
            let (round, _) = by_hand.round(&mut Rng::with_seed(seed));
            // One step: it ends after the first round.
            assert!(!crowd.separate(&mut Rng::with_seed(seed), &mut steps(1)));
            let least = first.min(pushed).min(round);
            assert!((crowd.overlaps().0 - least).abs() < 1e-9);
            tried += usize::from(round < first.min(pushed));
        });
    }
    assert!(tried > 20, "{tried}");
}

#[test]
fn two_hundredths_less_are_a_gain() {
    assert!(is_gain(48.9, 50.0) && !is_gain(49.1, 50.0) && !is_gain(50.0, 50.0));
}
