//! The parts of the search for rows, each with what it is to do worked by hand.

use super::*;
use crate::effort::Watch;
use crate::problem::{Rectangle, RectangleProblem, Stretch};
use std::collections::BTreeSet;
use std::sync::Mutex;
use std::sync::atomic::AtomicBool;

static GOES_ON: AtomicBool = AtomicBool::new(false);

fn steps(count: u64) -> Steps<'static> {
    Steps::new(count, Watch::silent(&GOES_ON))
}

fn on_endless(width: i64, rectangles: Vec<Rectangle>) -> Prepared {
    Prepared::new(&RectangleProblem::endless(width, rectangles))
}

fn on_cloth(width: i64, length: i64, rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = vec![Stretch { width, length: Some(length) }];
    Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 })
}

/// The shape of a kind that has one.
fn shape_of(prepared: &Prepared, item: usize) -> usize {
    prepared.items[item].shapes[0]
}

/// Rows, each with one piece of a kind and as often as is said.
fn rows(prepared: &Prepared, of: &[(usize, i64)], missing: Vec<i64>) -> Plan {
    let band = |&(item, times)| Band::new(prepared, 0, vec![single(prepared, shape_of(prepared, item))], times);
    Plan { bands: of.iter().map(band).collect(), missing }
}

fn search<'a, 's>(
    prepared: &'a Prepared,
    best: Plan,
    seed: u64,
    steps: &'s mut Steps<'static>,
) -> RowSearch<'a, 's, 'static> {
    RowSearch::new(prepared, best, 0, Vec::new(), seed, steps)
}

#[test]
fn a_piece_is_worth_its_area_and_all_pieces_no_more_than_can_be_counted() {
    let small = on_endless(40, vec![Rectangle::new(3, 5, 7), Rectangle::new(11, 13, 2)]);
    let mut left = steps(1);
    assert_eq!(search(&small, rows(&small, &[], small.counts()), 1, &mut left).plain, [15, 143]);
    // 2^28 square are 2^56, and the 3 * 2^55 of all pieces are 1536 times as much as the 2^46 that all may be worth.
    let side = 1 << 28;
    let large = on_endless(
        side,
        vec![Rectangle::new(side, side, 1), Rectangle::new(side, side / 2, 1), Rectangle::new(2, 3, 1)],
    );
    let mut left = steps(1);
    let plain = search(&large, rows(&large, &[], large.counts()), 1, &mut left).plain;
    assert_eq!(plain, [(1 << 56) / 1536, (1 << 55) / 1536, 1]);
}

#[test]
fn the_search_goes_on_while_something_is_missing_or_longer_than_the_bound() {
    let prepared = on_endless(7, vec![Rectangle::new(3, 5, 4)]);
    let ended = on_cloth(7, 50, vec![Rectangle::new(3, 5, 4)]);
    // Four rows are 12 long.
    for (prepared, bound, missing, steps_left, goes_on) in [
        (&prepared, 12, 0, 9, false),
        (&prepared, 13, 0, 9, false),
        (&prepared, 11, 0, 9, true),
        (&prepared, 12, 1, 9, true),
        (&prepared, 11, 0, 0, false),
        (&ended, 12, 0, 9, true),
    ] {
        let mut left = steps(steps_left);
        let mut search = search(prepared, rows(prepared, &[(0, 4)], vec![missing]), 1, &mut left);
        search.bound = bound;
        assert_eq!(search.goes_on(), goes_on, "{bound} {missing} {steps_left}");
    }
}

#[test]
fn a_plan_is_kept_and_told_only_where_it_is_better() {
    let prepared = on_endless(10, vec![Rectangle::new(3, 5, 4)]);
    let told = Mutex::new(Vec::new());
    let progress = |progress: Progress| told.lock().expect("one thread").push((progress.best, progress.bound));
    let mut left = Steps::new(9, Watch { stop: &GOES_ON, progress: &progress });
    let mut search = RowSearch::new(&prepared, rows(&prepared, &[(0, 4)], vec![0]), 5, Vec::new(), 1, &mut left);
    assert!(!search.consider(&rows(&prepared, &[(0, 1), (0, 3)], vec![0])), "as long");
    assert!(!search.consider(&rows(&prepared, &[(0, 3)], vec![1])), "shorter, but without a piece");
    let mut two = rows(&prepared, &[(0, 2)], vec![0]);
    two.bands[0].stacks[0].times = 2;
    assert!(search.consider(&two));
    assert_eq!((search.best.bands.len(), search.best.length(&prepared), search.measure), (1, 6, (0, 0, 6)));
    assert_eq!(*told.lock().expect("one thread"), [(6, 5)]);
}

#[test]
fn sixteen_rows_with_marks_take_a_step_and_rows_without_none() {
    let marked = Rectangle { starts: Some(Starts { first: 0, every: 4 }), ..Rectangle::new(3, 5, 90) };
    let prepared = on_endless(7, vec![marked, Rectangle::new(3, 5, 90)]);
    for (with, without, taken) in [(48, 60, 3), (47, 0, 2), (15, 90, 0)] {
        let mut left = steps(100);
        let plan = rows(&prepared, &[(0, with), (1, without)], vec![0, 0]);
        search(&prepared, plan.clone(), 1, &mut left).spend_for(&plan);
        assert_eq!(left.left(), 100 - taken, "{with} {without}");
    }
}

#[test]
fn a_hundred_and_sixty_choices_take_a_step() {
    let prepared = on_endless(1000, (1..=30).map(|size| Rectangle::new(20 + size, 30 + 7 * size, 50)).collect());
    let request = RowRequest { width: 1000, from: 0, along: 500, overhang: 0, only_whole: true };
    let mut alike = Filler::new(&prepared);
    alike.fill(request, &mut prepared.counts(), &[9; 30]);
    let looked = alike.looked();
    assert!(looked > 1600);
    let mut left = steps(1_000_000);
    let mut search = search(&prepared, rows(&prepared, &[], prepared.counts()), 1, &mut left);
    search.filler.fill(request, &mut prepared.counts(), &[9; 30]);
    assert!(search.spend());
    assert_eq!(search.steps.left(), 1_000_000 - u64::try_from(looked / 160 + 1).expect("few"));
    // Nothing was looked at since.
    assert!(search.spend());
    assert_eq!(left.left(), 1_000_000 - u64::try_from(looked / 160 + 2).expect("few"));
}

#[test]
fn waste_is_told_in_thousandths_of_a_row() {
    let prepared = on_endless(10, vec![Rectangle::new(3, 5, 4), Rectangle::new(7, 10, 4), Rectangle::new(4, 2, 9)]);
    let mut left = steps(1);
    let search = search(&prepared, rows(&prepared, &[], prepared.counts()), 1, &mut left);
    let band = |of: &[(usize, i64)]| {
        let stacks = of.iter().map(|&(item, times)| Stack { times, ..single(&prepared, shape_of(&prepared, item)) });
        Band::new(&prepared, 0, stacks.collect(), 9)
    };
    // Of 30 lie 15, 30; of 70 all 70; of 40 lie 15 + 8 = 23.
    for (of, waste) in [(&[(0, 1)][..], 500), (&[(0, 2)], 0), (&[(1, 1)], 0), (&[(0, 1), (2, 1)], 425)] {
        assert_eq!(search.waste(&band(of)), waste);
    }
}

#[test]
fn values_rise_in_wasteful_rows_by_what_the_row_takes() {
    let kinds = vec![Rectangle::new(3, 5, 9), Rectangle::new(4, 6, 9), Rectangle::new(2, 2, 9)];
    let prepared = on_endless(10, kinds);
    let mut left = steps(1);
    let mut search = search(&prepared, rows(&prepared, &[], prepared.counts()), 1, &mut left);
    search.plain = vec![200, 300, 400];
    // The first kind lies three times in a row that is half used, and twice in a full row of two. A piece pays for
    // what it takes: twice its value in the first, so (3 * 2 + 2 * 1) / 5 = 1.6 of 200, which is 320; the old value
    // counts twice: (2 * 100 + 320) / 3 = 173. The second kind lies in a row of which it fills six tenths and pays
    // 1.666 of 300, cut to whole thousandths 499: (2 * 50 + 499) / 3 = 199. The third lies nowhere.
    let mut plan = rows(&prepared, &[(0, 3), (0, 1), (1, 2)], vec![0, 0, 9]);
    plan.bands[1].stacks[0].times = 2;
    let mut values = [100, 50, 7];
    search.correct(&plan, &mut values);
    assert_eq!(values, [173, 199, 7]);
    // No piece pays more than twenty times its value: of 1000 lie 4.
    let wide = on_endless(500, vec![Rectangle::new(2, 2, 1)]);
    let mut left = steps(1);
    let mut search = self::search(&wide, rows(&wide, &[], vec![1]), 1, &mut left);
    search.plain = vec![60];
    let mut values = [30];
    search.correct(&rows(&wide, &[(0, 1)], vec![0]), &mut values);
    assert_eq!(values, [(2 * 30 + 20 * 60) / 3]);
}

#[test]
fn the_row_with_more_value_for_its_length_is_kept() {
    let prepared = on_endless(10, vec![Rectangle::new(3, 5, 9), Rectangle::new(7, 6, 9)]);
    let stacks = |item: usize| vec![single(&prepared, shape_of(&prepared, item))];
    let mut best = None;
    let mut kept = |free: i64, item: usize, value: i64| {
        keep(&prepared, &mut best, 100..100 + free, value, stacks(item));
        best.as_ref().map(|(value, taken, _)| (*value, *taken))
    };
    assert_eq!(kept(2, 0, 30), None, "too long for the cloth");
    assert_eq!(kept(3, 0, 30), Some((30, 3)), "just as long");
    assert_eq!(kept(9, 1, 70), Some((30, 3)), "70 / 7 is no more than 30 / 3");
    assert_eq!(kept(9, 1, 71), Some((71, 7)));
    assert_eq!(kept(9, 0, 31), Some((31, 3)), "31 / 3 is more than 71 / 7");
}

#[test]
fn the_longest_piece_counts_by_its_shorter_side() {
    let turning = Rectangle { quarter: true, ..Rectangle::new(9, 4, 1) };
    let prepared =
        on_endless(20, vec![Rectangle::new(3, 5, 1), turning, Rectangle::new(6, 2, 1), Rectangle::new(6, 7, 1)]);
    let all: Vec<usize> = (0..prepared.shapes.len()).collect();
    // The turned one need not be longer than 4; of the two of 6 the first is taken.
    assert_eq!(longest(&prepared, &all), Some((6, shape_of(&prepared, 2))));
    let without: Vec<usize> = all.iter().copied().filter(|&shape| prepared.shapes[shape].item < 2).collect();
    let lying = all.iter().copied().find(|&shape| prepared.shapes[shape].turned).expect("one turns");
    assert_eq!(longest(&prepared, &without), Some((4, lying)));
    assert_eq!(longest(&prepared, &[]), None);
}

#[test]
fn all_pieces_in_a_line_take_their_area_over_the_width() {
    let turning = Rectangle { quarter: true, ..Rectangle::new(9, 4, 8) };
    let prepared = on_endless(20, vec![Rectangle::new(3, 5, 8), turning]);
    let all: Vec<usize> = (0..prepared.shapes.len()).collect();
    // 7 * 15 + 5 * 36 = 285, over 20 and 19.
    assert_eq!(line(&prepared, &all, &[7, 5], 20), 14);
    assert_eq!(line(&prepared, &all, &[7, 5], 19), 15);
}

#[test]
fn a_row_is_tried_in_every_length_that_may_do() {
    let prepared = on_cloth(20, 1000, vec![Rectangle::new(5, 3, 90), Rectangle::new(11, 4, 90)]);
    let usable = [0, 1];
    let of = |most: i64, rest: i64, end: Option<i64>, lasting: &[i64]| -> BTreeSet<i64> {
        let mut left = steps(1);
        let mut search = search(&prepared, rows(&prepared, &[], prepared.counts()), 1, &mut left);
        search.lasting = lasting.to_vec();
        (0..4000).map(|_| search.drawn(5, most, rest, end, &usable)).collect()
    };
    // Alone, with a piece of 5 or 11 behind it, and two to four times, even where there are fewer.
    let always = BTreeSet::from([5, 10, 16, 15, 20]);
    let with = |more: &[i64]| always.iter().chain(more).copied().collect::<BTreeSet<i64>>();
    assert_eq!(of(1, 0, None, &[]), always);
    assert_eq!(of(1, 0, Some(777), &[]), with(&[777]), "to the end of the cloth");
    assert_eq!(of(7, 0, None, &[]), with(&[25, 30, 35]), "as often as there are pieces");
    let forty: Vec<i64> = (1..=40).map(|times| 5 * times).collect();
    assert_eq!(of(90, 0, None, &[]), with(&forty), "but no more than forty");
    assert_eq!(of(90, 233, None, &[]), with(&[&forty[..], &[230, 235]].concat()), "as long as all that is left");
    assert_eq!(of(46, 233, None, &[]), with(&[&forty[..], &[230]].concat()));
    assert_eq!(of(90, 0, None, &[304, 2]), with(&[&forty[..], &[300, 305]].concat()), "as long as widths last");
    assert_eq!(of(60, 0, None, &[304]), with(&[&forty[..], &[300]].concat()));
}

#[test]
fn two_to_six_rows_are_taken_out_or_a_quarter_of_them_more() {
    let prepared = on_endless(10, vec![Rectangle::new(3, 5, 40), Rectangle::new(3, 6, 7)]);
    let plan = rows(&prepared, &[(0, 1); 40], vec![0, 5]);
    let mut taken = BTreeSet::new();
    for seed in 0..400 {
        let mut left = steps(1);
        let (bands, left) = search(&prepared, plan.clone(), seed, &mut left).without_some(&plan);
        let out = 40 - number::from_size(bands.len());
        assert_eq!(left, [out, 5]);
        taken.insert(out);
    }
    assert_eq!(taken, [2, 3, 4, 5, 6, 12, 13, 14, 15, 16].into());
    let mut left = steps(1);
    let few = rows(&prepared, &[(0, 1)], vec![0, 0]);
    let (bands, left) = search(&prepared, few.clone(), 1, &mut left).without_some(&few);
    assert_eq!((bands.len(), left), (0, vec![1, 0]));
}

#[test]
fn rows_are_taken_out_with_all_that_lies_in_them_and_wasteful_ones_more_often() {
    let prepared = on_endless(10, vec![Rectangle::new(3, 5, 90), Rectangle::new(4, 10, 90)]);
    // Two of the first kind above each other in a row, half of it wasted; the second fills its row.
    let mut plan = rows(&prepared, &[(0, 6), (1, 6), (0, 6), (1, 6)], vec![0, 0]);
    for band in plan.bands.iter_mut().filter(|band| band.along == 3) {
        band.stacks[0].piles[0].times = 2;
        band.along = 6;
    }
    let (mut wasteful, mut full, mut some, mut whole) = (0, 0, false, false);
    for seed in 0..500 {
        let mut left = steps(1);
        let (bands, left) = search(&prepared, plan.clone(), seed, &mut left).without_some(&plan);
        let kept = |along: i64| bands.iter().filter(|band| band.along == along).map(|band| band.times).sum::<i64>();
        assert_eq!(left, [2 * (12 - kept(6)), 12 - kept(4)]);
        assert!(bands.iter().all(|band| (1..=6).contains(&band.times)));
        wasteful += 12 - kept(6);
        full += 12 - kept(4);
        some |= bands.iter().any(|band| band.times < 6);
        whole |= bands.len() < 4;
    }
    assert!(some && whole && 10 * wasteful > 11 * full, "{wasteful} {full}");
}

#[test]
fn few_pieces_are_laid_exactly_one_time_in_four() {
    let prepared = on_endless(10, vec![Rectangle::new(3, 5, 4), Rectangle::new(8, 10, 2)]);
    // Four rows of 3 with two pieces missing beside them: laid in two, which take 6 of the 12.
    let now = rows(&prepared, &[(1, 2), (0, 4)], vec![0, 0]);
    let kept = rows(&prepared, &[(1, 2)], vec![4, 0]);
    let (mut laid, mut none) = (0, 0);
    for seed in 0..400 {
        let mut left = steps(10_000);
        let mut search = search(&prepared, now.clone(), seed, &mut left);
        match search.laid_exactly(&now, &kept.bands, &kept.missing) {
            Some(plan) => {
                laid += 1;
                assert_eq!((plan.length(&prepared), plan.missing), (16 + 6, vec![0, 0]));
            }
            None => none += 1,
        }
    }
    assert!((70..=130).contains(&laid), "{laid} of {}", laid + none);
    // Not where the cloth ends, nor with marks.
    let marked = Rectangle { starts: Some(Starts { first: 0, every: 3 }), ..Rectangle::new(3, 5, 4) };
    for prepared in [on_cloth(10, 100, vec![Rectangle::new(3, 5, 4)]), on_endless(10, vec![marked])] {
        let now = rows(&prepared, &[(0, 4)], vec![0]);
        for seed in 0..40 {
            let mut left = steps(10_000);
            assert!(search(&prepared, now.clone(), seed, &mut left).laid_exactly(&now, &[], &[4]).is_none());
        }
    }
}

#[test]
fn rows_laid_exactly_may_be_as_long_as_those_taken_out() {
    let prepared = on_endless(10, vec![Rectangle::new(3, 6, 4), Rectangle::new(8, 10, 2)]);
    // No two lie side by side: four rows of 3, in the place of four and of three.
    for (room, fits) in [(4, true), (3, false)] {
        let now = rows(&prepared, &[(1, 2), (0, room)], vec![0, 0]);
        let kept = rows(&prepared, &[(1, 2)], vec![4, 0]);
        let laid = (0..40).any(|seed| {
            let mut left = steps(10_000);
            search(&prepared, now.clone(), seed, &mut left).laid_exactly(&now, &kept.bands, &kept.missing).is_some()
        });
        assert_eq!(laid, fits);
    }
}

#[test]
fn a_row_is_repeated_as_often_as_there_are_pieces_except_for_one_in_so_many() {
    let prepared = on_endless(10, vec![Rectangle::new(3, 10, 30)]);
    let of = |sparing: usize, seed: u64| {
        let mut left = steps(1_000);
        let options = RowOptions { tries: 1, longest_first: false, sparing };
        let mut search = search(&prepared, rows(&prepared, &[], vec![30]), seed, &mut left);
        let plan = search.complete(Vec::new(), vec![30], &[30], options);
        assert_eq!((plan.length(&prepared), &plan.missing), (90, &vec![0]));
        plan.bands.iter().map(|band| band.times).collect::<Vec<_>>()
    };
    let first: BTreeSet<i64> = (0..400).map(|seed| of(1, seed)[0]).collect();
    assert_eq!(first, (1..=30).collect(), "from one to all");
    assert!((0..40).all(|seed| of(usize::MAX, seed) == [30]));
    let sparing = (0..400).filter(|&seed| of(3, seed)[0] < 30).count();
    assert!((90..=170).contains(&sparing), "about a third: {sparing}");
}

#[test]
fn nothing_is_searched_without_steps_or_with_too_many_kinds() {
    let kinds = |count: i64| (0..count).map(|_| Rectangle::new(3, 5, 1)).collect::<Vec<_>>();
    for (count, allowed, is_searched) in [(2_000, 9, true), (2_001, 9, false), (4, 9, true), (4, 0, false)] {
        let prepared = on_endless(10, kinds(count));
        let of: Vec<(usize, i64)> = (0..prepared.items.len()).map(|item| (item, 1)).collect();
        let mut left = steps(allowed);
        let plan = improve(&prepared, rows(&prepared, &of, vec![0; of.len()]), 0, Vec::new(), 1, &mut left);
        assert_eq!(left.left() < allowed, is_searched);
        assert!(plan.length(&prepared) <= 3 * count);
    }
}

#[test]
fn a_row_before_a_mark_ends_with_the_cloth() {
    // Of the first two kinds one ends at 4, the other from there at 7. With a short piece between them the other
    // begins at its next mark and ends at 11, behind the end of the cloth.
    let marked = |first, every, along, across, count| Rectangle {
        starts: Some(Starts { first, every }),
        ..Rectangle::new(along, across, count)
    };
    let kinds = vec![marked(0, 5, 4, 3, 1), marked(0, 4, 3, 4, 1), marked(9, 50, 1, 2, 9), Rectangle::new(1, 4, 1)];
    let prepared = on_cloth(4, 10, kinds);
    for seed in 0..400 {
        let mut left = steps(20);
        let options = RowOptions { tries: 1, longest_first: false, sparing: usize::MAX };
        let mut search = search(&prepared, rows(&prepared, &[], prepared.counts()), seed, &mut left);
        let band = search.row(0, 0, &mut prepared.counts(), &[12, 12, 2, 4], options).expect("all fit");
        assert!(band.end(&prepared, 0) <= 10 && band.times == 1, "{seed} {band:?}");
    }
}
