//! Searches whose best end is known, and what they take.

use super::*;
use crate::effort::Watch;
use crate::outlines::tests::{Made, fixed, polygon, steps};
use crate::problem::Polygon;
use std::sync::Mutex;
use std::sync::atomic::AtomicBool;

/// Two gores, the second turned half, so far apart: 175 where they touch.
fn gores(apart: i64) -> (Made, Vec<PosePlacement>) {
    let gore = Polygon { half: true, ..polygon(&[(85, 0), (175, 0), (260, 500), (0, 500)], 2) };
    let made = Made::new(500, 0, &[gore]);
    let other = PosePlacement { pose: made.prepared.items[0].plain[1], ..made.placed(0, apart, 0) };
    let placements = vec![made.placed(0, 0, 0), other];
    (made, placements)
}

#[test]
fn loose_gores_are_drawn_together_if_there_are_two_thousand_steps() {
    let (made, loose) = gores(300);
    let table = made.table();
    for (budget, length) in [(1999, 560), (2000, 435), (49_999, 435), (60_000, 435)] {
        let mut budget = steps(budget);
        let found = shorten(&table, loose.clone(), 1, &mut budget);
        assert_eq!((table.length(&found), table.is_valid(&found)), (length, true));
    }
}

#[test]
fn what_is_hopeless_or_as_short_as_can_be_is_left_alone() {
    // One piece alone.
    let (made, loose) = gores(300);
    let mut budget = steps(5000);
    assert_eq!(shorten(&made.table(), loose[1..].to_vec(), 1, &mut budget), loose[1..]);
    assert_eq!(budget.left(), 5000);
    // Two that fill the strip.
    let made = Made::new(60, 0, &[fixed(80, 60, 2)]);
    let full = vec![made.placed(0, 80, 0), made.placed(0, 0, 0)];
    assert_eq!(shorten(&made.table(), full.clone(), 1, &mut budget), full);
    assert_eq!(budget.left(), 5000);
    // So many outlines that their depths alone would take too long.
    for (outlines, length) in [(80, 3), (81, 60)] {
        let kinds: Vec<Polygon> = (1..=outlines).map(|long| fixed(long, 200, 1)).collect();
        let made = Made::new(200, 0, &kinds);
        let loose = vec![made.placed(0, 0, 0), made.placed(1, 58, 0)];
        let found = shorten(&made.table(), loose, 1, &mut steps(40_000));
        assert_eq!(made.table().length(&found), length, "{outlines}");
    }
}

#[test]
fn a_search_by_two_ends_at_the_bound_or_with_its_steps() {
    // Two right triangles make a rectangle: 60, which is also the bound. The first of the stages takes 0.15 of
    // 100,000, after a step for the depths of each pair of outlines.
    let triangle = Polygon { half: true, ..polygon(&[(0, 0), (60, 0), (0, 30)], 2) };
    let made = Made::new(30, 0, &[triangle]);
    let other = PosePlacement { pose: made.prepared.items[0].plain[1], ..made.placed(0, 70, 0) };
    let loose = vec![made.placed(0, 0, 0), other];
    let mut budget = steps(100_003);
    assert_eq!(made.table().length(&shorten(&made.table(), loose, 1, &mut budget)), 60);
    assert_eq!(budget.left(), 85_000);
    // Gores never meet their bound of 350: all stages are gone through.
    let (made, loose) = gores(300);
    let mut budget = steps(100_003);
    shorten(&made.table(), loose, 1, &mut budget);
    assert_eq!(budget.left(), 0);
}

#[test]
fn each_better_length_is_told_with_the_bound() {
    let (made, loose) = gores(300);
    for budget in [10_000, 60_000] {
        let told = Mutex::new(Vec::new());
        let stop = AtomicBool::new(false);
        let watch = Watch { stop: &stop, progress: &|progress| told.lock().unwrap().push(progress) };
        shorten(&made.table(), loose.clone(), 1, &mut Steps::new(budget, watch));
        let told = told.into_inner().unwrap();
        // 2 · 87,500 on 500 is 350.
        assert!(told.iter().all(|progress| progress.bound == 350 && progress.best < 560));
        assert!(told.windows(2).all(|pair| pair[1].best < pair[0].best) || budget == 60_000, "{told:?}");
        assert!(told.iter().any(|progress| progress.best == 435), "{told:?}");
    }
}

#[test]
fn a_search_that_was_stopped_gives_what_it_had() {
    let (made, loose) = gores(300);
    let stop = AtomicBool::new(true);
    let mut budget = Steps::new(60_000, Watch::silent(&stop));
    assert_eq!(shorten(&made.table(), loose.clone(), 1, &mut budget), loose);
}

#[test]
fn a_cut_is_halved_by_failures_and_grows_by_a_fifth_with_success() {
    let mut cut = Cut { share: 0.01, failed: 0 };
    for expected in [0.005, 0.0025, 0.00125, 0.000_625, 0.0005] {
        assert_eq!(cut.fail(), None);
        assert!((cut.share - expected).abs() < 1e-12, "{}", cut.share);
    }
    // At the least cut each fourth failure in a row leads back.
    let back: Vec<Option<bool>> = (0..8).map(|_| cut.fail()).collect();
    assert_eq!(back, [false, false, false, true, false, false, false, true].map(Some));
    assert!((cut.share - 0.0005).abs() < 1e-12);
    cut.fail();
    cut.succeed();
    assert!((cut.share - 0.0006).abs() < 1e-12);
    assert_eq!(cut.fail(), None);
    let back: Vec<Option<bool>> = (0..4).map(|_| cut.fail()).collect();
    assert_eq!(back, [false, false, false, true].map(Some));
    // Never more than a hundredth.
    for _ in 0..20 {
        cut.succeed();
    }
    assert!((cut.share - 0.01).abs() < 1e-12);
    assert!((cut.shortened(500.0, 350.0) - 495.0).abs() < 1e-9);
    assert!((cut.shortened(500.0, 497.0) - 497.0).abs() < 1e-9);
}
