//! Sentences: what to cut from what, its marks, how it lies, how good the plan is.

use super::*;
use crate::piece::GoodsKind;

/// The sentence of one length with full widths between these marks, in inches.
fn of_strips(marks: &[(f64, f64)]) -> String {
    let pieces = [CutPiece::new("strip", 9, Shape::FullWidth { along: inches(5.0) })];
    let cuts = marks.iter().map(|(from, to)| cut(&pieces, 0, (*from, 0.0), (to - from, 45.0))).collect();
    let (plan, goods) = (plan_of(vec![shelf("A", 200.0, 190.0, cuts)]), Goods::cloth(inches(45.0)));
    sentences(&report(&pieces, &goods, &plan), &words()).concat()
}

/// Strips of 5 in: a single one at the start needs no mark, touching ones the marks where they end, others both.
#[test]
fn marks_of_full_widths() {
    let touching = |count: i32| (0..count).map(|at| (5.0 * f64::from(at), 5.0 * f64::from(at + 1))).collect::<Vec<_>>();
    let apart = |count: i32| (0..count).map(|at| (7.0 * f64::from(at), 7.0 * f64::from(at) + 5.0)).collect::<Vec<_>>();
    // Where the last one is moved on by 1 in, the marks are not even.
    let moved = |mut marks: Vec<(f64, f64)>| {
        let last = marks.last_mut().unwrap();
        *last = (last.0 + 1.0, last.1 + 1.0);
        marks
    };
    let cases = [
        (touching(1), "1 strip of 5 in"),
        (vec![(3.0, 8.0)], "1 strip of 5 in, marks 3 in to 8 in"),
        (touching(2), "2 strips of 5 in, marks 5 in and 10 in"),
        (touching(3), "3 strips of 5 in, marks 5 in, 10 in and 15 in"),
        (touching(4), "4 strips of 5 in, marks 5 in, 10 in and so on to 20 in"),
        (apart(2), "2 strips of 5 in, marks 0 in to 5 in, 7 in to 12 in"),
        (
            apart(6),
            "6 strips of 5 in, marks 0 in to 5 in, 7 in to 12 in, 14 in to 19 in, 21 in to 26 in, 28 in to 33 in, 35 in to \
             40 in",
        ),
        (apart(7), "7 strips of 5 in, marks 0 in to 5 in, 7 in to 12 in and so on to 47 in"),
        (moved(apart(7)), "7 strips of 5 in, marks 0 in to 48 in, each as the plan table has it"),
        (moved(touching(3)), "3 strips of 5 in, marks 0 in to 5 in, 5 in to 10 in, 11 in to 16 in"),
    ];
    for (marks, told) in cases {
        assert_eq!(of_strips(&marks), format!("From A: {told}; 10 in left."));
    }
}

/// Ends of rows of two pieces each, of which the last may be later.
fn of_rows(ends: &[f64]) -> String {
    let pieces = [rectangle("panel", 20.0, 25.0), rectangle("band", 19.0, 20.0)];
    let row = |end: &f64| {
        [cut(&pieces, 0, (end - 20.0, 0.0), (20.0, 25.0)), cut(&pieces, 1, (end - 20.0, 25.0), (19.0, 20.0))]
    };
    let cuts = ends.iter().flat_map(row).collect();
    let (plan, goods) = (plan_of(vec![shelf("A", 200.0, 190.0, cuts)]), Goods::cloth(inches(45.0)));
    sentences(&report(&pieces, &goods, &plan), &words()).concat()
}

/// Up to three marks, and up to six that are uneven, are listed; of others the first two and the last.
#[test]
fn marks_of_rows() {
    let cases: [(&[f64], &str); 7] = [
        (&[20.0, 40.0], "2 rows alike that end at marks 20 in and 40 in"),
        (&[20.0, 40.0, 60.0], "3 rows alike that end at marks 20 in, 40 in and 60 in"),
        (&[20.0, 40.0, 60.0, 80.0], "4 rows alike that end at marks 20 in, 40 in and so on to 80 in"),
        (&[20.0, 40.0, 60.0, 81.0], "4 rows alike that end at marks 20 in, 40 in, 60 in and 81 in"),
        (
            &[20.0, 40.0, 60.0, 80.0, 100.0, 121.0],
            "6 rows alike that end at marks 20 in, 40 in, 60 in, 80 in, 100 in and 121 in",
        ),
        (
            &[20.0, 40.0, 60.0, 80.0, 100.0, 120.0, 141.0],
            "7 rows alike that end at marks 20 in, 40 in to 141 in as the plan table has it",
        ),
        (&[20.0, 41.0, 61.0], "3 rows alike that end at marks 20 in, 41 in and 61 in"),
    ];
    for (ends, told) in cases {
        let in_each = "in each 1 panel, 20 in long by 25 in wide; 1 band, 19 in long by 20 in wide";
        assert_eq!(of_rows(ends), format!("From A: {told}, {in_each}; 10 in left."));
    }
}

/// Pieces 1, 2, 3 … in long, one behind the other: twelve are told, the rest counted.
#[test]
fn a_sentence_tells_twelve_runs() {
    let sizes: Vec<f64> = (1..=14).map(f64::from).collect();
    let pieces: Vec<CutPiece> = sizes.iter().map(|size| rectangle("bit", *size, 45.0)).collect();
    let tell = |count: usize, rows: usize| {
        let mut at = 0.0;
        let mut cuts = Vec::new();
        for (entry, size) in sizes.iter().enumerate().take(count) {
            cuts.push(cut(&pieces, entry, (at, 0.0), (*size, 45.0)));
            at += size;
        }
        // Rows of two kinds, and one piece behind them.
        for _ in 0..rows {
            cuts.push(cut(&pieces, 12, (at, 0.0), (13.0, 25.0)));
            cuts.push(cut(&pieces, 13, (at, 25.0), (12.5, 20.0)));
            at += 13.0;
        }
        if rows > 0 {
            cuts.push(cut(&pieces, 0, (at, 0.0), (1.0, 45.0)));
        }
        let (plan, goods) = (plan_of(vec![shelf("A", 200.0, 190.0, cuts)]), Goods::cloth(inches(45.0)));
        sentences(&report(&pieces, &goods, &plan), &words()).concat()
    };
    let twelve = tell(12, 0);
    assert!(twelve.ends_with("1 bit, 12 in long by 45 in wide, marks 66 in to 78 in; 10 in left."), "{twelve}");
    let thirteen = tell(13, 0);
    let end = "marks 66 in to 78 in; then 1 more, as the table of cuts has them; 10 in left.";
    assert!(thirteen.ends_with(end), "{thirteen}");
    assert!(tell(14, 0).contains("; then 2 more, "));
    // Twelve are told; of the rows alike both runs and the piece behind them are left out.
    assert!(tell(12, 2).contains("marks 66 in to 78 in; then 3 more, "), "{}", tell(12, 2));
    // Eleven leave room for the rows, which are told whole; not for what follows.
    let rows = "marks 55 in to 66 in; then 2 rows alike that end at marks 79 in and 92 in, in each 1 bit, 13 in long by 25 in \
                wide; 1 bit, 12 1/2 in long by 20 in wide; then 1 more, as the table of cuts has them";
    assert!(tell(11, 2).contains(rows), "{}", tell(11, 2));
    let rows_and_one = "12 1/2 in long by 20 in wide; then 1 bit, 1 in long by 45 in wide, marks ";
    assert!(tell(9, 2).contains(rows_and_one), "{}", tell(9, 2));
}

/// From what, with the goods and the lot, and what is left of it.
#[test]
fn the_length_is_named_with_its_facts() {
    let pieces = [CutPiece::new("strip", 9, Shape::FullWidth { along: inches(5.0) })];
    let plain = || shelf("A", 60.0, 5.0, vec![cut(&pieces, 0, (0.0, 0.0), (5.0, 45.0))]);
    let tell = |uses: Vec<StockUse>, name, is_roll: bool| {
        let goods = Goods::cloth(inches(45.0));
        let goods = if is_roll { Goods { kind: GoodsKind::Roll, ..goods } } else { goods };
        let plan = plan_of(uses);
        sentences(&PlanReport { name, ..report(&pieces, &goods, &plan) }, &words()).concat()
    };
    let lot = || StockUse { lot: Some("7".to_owned()), ..plain() };
    let new = |length: f64| {
        let source = StockSource::New { offer: 0, number: 1 };
        StockUse { source, stock: "new roll 1".to_owned(), length: inches(length), ..plain() }
    };
    assert_eq!(tell(vec![plain()], None, false), "From A: 1 strip of 5 in; 55 in left.");
    assert_eq!(tell(vec![plain()], None, true), "From roll A: 1 strip of 5 in; 55 in left.");
    assert_eq!(tell(vec![plain(), plain()], None, true), "From each of 2 lengths of A: 1 strip of 5 in; 55 in left.");
    assert_eq!(tell(vec![new(60.0)], None, true), "From new roll 1: 1 strip of 5 in; 55 in left.");
    assert_eq!(tell(vec![plain()], Some("tulle"), true), "From roll A (tulle): 1 strip of 5 in; 55 in left.");
    assert_eq!(tell(vec![lot()], None, false), "From A (lot 7): 1 strip of 5 in; 55 in left.");
    assert_eq!(tell(vec![lot()], Some("tulle"), false), "From A (tulle, lot 7): 1 strip of 5 in; 55 in left.");
    let all = StockUse { length: inches(5.0), left_over: Length::ZERO, ..plain() };
    assert_eq!(tell(vec![all], None, false), "From A: 1 strip of 5 in; nothing left.");
    let needed = StockUse { left_over: Length::ZERO, ..new(5.0) };
    assert_eq!(tell(vec![needed], None, false), "From new roll 1: 1 strip of 5 in.");
    // Two yards and more are told in yards.
    let two_yards = StockUse { length: inches(77.0), left_over: inches(72.0), ..plain() };
    assert_eq!(tell(vec![two_yards], None, false), "From A: 1 strip of 5 in; 2 yd left.");
}

/// How pieces lie, from one fact to all of them.
#[test]
fn how_pieces_lie_is_told_in_words() {
    let pieces = [rectangle("panel", 20.0, 15.0)];
    let plain = cut(&pieces, 0, (0.0, 0.0), (20.0, 15.0));
    let part = Some(JoinedPart { number: 2, of: 3 });
    let tell = |cuts: Vec<Cut>| {
        let (plan, goods) = (plan_of(vec![shelf("A", 60.0, 50.0, cuts)]), Goods::cloth(inches(45.0)));
        let told = sentences(&report(&pieces, &goods, &plan), &words()).concat();
        told.split_once("marks 0 in to 20 in").unwrap().1.replace("; 10 in left.", "")
    };
    let singles = [
        (plain.clone(), ""),
        (Cut { lie: Lie::Across, ..plain.clone() }, ", laid crosswise"),
        (Cut { lie: Lie::Bias, ..plain.clone() }, ", on the bias"),
        (Cut { through: Layers::Both, ..plain.clone() }, ", on double cloth"),
        (Cut { through: Layers::Fold, ..plain.clone() }, ", on the fold"),
        (Cut { reversed: true, ..plain.clone() }, ", turned head to foot"),
        (Cut { mirrored: true, ..plain.clone() }, ", mirrored"),
        (Cut { mirrored: true, through: Layers::Both, ..plain.clone() }, ", on double cloth, mirrored"),
        (Cut { part, ..plain.clone() }, ", part 2 of 3"),
        (
            Cut { part, lie: Lie::Bias, through: Layers::Fold, reversed: true, mirrored: true, ..plain.clone() },
            ", part 2 of 3, on the bias, on the fold, turned head to foot, mirrored",
        ),
    ];
    for (cut, told) in singles {
        assert_eq!(tell(vec![cut]), told);
    }
    let beside = |cut: &Cut| Cut { across_from: inches(15.0), across_to: inches(30.0), mirrored: true, ..cut.clone() };
    assert_eq!(tell(vec![plain.clone(), beside(&plain)]), ", every other one mirrored");
    let both = Cut { through: Layers::Both, ..plain.clone() };
    assert_eq!(tell(vec![both.clone(), beside(&both)]), ", on double cloth");
    // Where pieces do not lie in rows, the marks across are told too; an order always is.
    let inside = Cut { across_from: inches(3.0), across_to: inches(18.0), order: Some("32".into()), ..plain };
    assert_eq!(tell(vec![inside.clone()]), ", across 3 in to 18 in");
    let (plan, goods) = (plan_of(vec![shelf("A", 60.0, 50.0, vec![inside])]), Goods::cloth(inches(45.0)));
    let told = sentences(&report(&pieces, &goods, &plan), &words()).concat();
    assert!(told.starts_with("From A: 1 panel for 32, 20 in long by 15 in wide, marks "), "{told}");
}

/// By English usage; what is not a plain word is left as it is.
#[test]
fn plurals() {
    let cases = [
        ("gusset", "gussets"),
        ("dress", "dresses"),
        ("box", "boxes"),
        ("waltz", "waltzes"),
        ("pouch", "pouches"),
        ("sash", "sashes"),
        ("body", "bodies"),
        ("bay", "bays"),
        ("key", "keys"),
        ("toy", "toys"),
        ("strip A", "of strip A"),
        ("panel (left)", "of panel (left)"),
    ];
    for (name, plural) in cases {
        assert_eq!(pluralized(2, name), format!("2 {plural}"));
        assert_eq!(pluralized(0, name), format!("0 {plural}"));
        assert_eq!(pluralized(1, name), format!("1 {name}"));
    }
}

/// By pencil: of 60 x 45 in, a panel takes 20 x 40 and 100 of 2700 square inches beside it are waste, 3.7037 %, which is
/// rounded up to 3.8 %. Without an end of its own the 15 x 45 in behind it are waste too.
#[test]
fn a_sentence_on_leftovers() {
    let pieces = [rectangle("panel", 20.0, 40.0)];
    let goods = Goods::cloth(inches(45.0));
    let used = || shelf("A", 60.0, 20.0, vec![cut(&pieces, 0, (0.0, 0.0), (20.0, 40.0))]);
    let tell = |uses: Vec<StockUse>, keep_from: Option<f64>| {
        let plan = plan_of(uses);
        let report = PlanReport { keep_from: keep_from.map(inches), ..report(&pieces, &goods, &plan) };
        leftover_sentence(&report, &leftovers(&report, &words(), &BTreeSet::new()), &words())
    };
    let says = |text: &str| Some(text.to_owned());
    assert_eq!(tell(Vec::new(), Some(5.0)), None);
    assert_eq!(tell(vec![used()], Some(5.0)), says("1 leftover is worth keeping; 3.8 % of what is taken up is waste."));
    let two = "2 leftovers are worth keeping; 3.8 % of what is taken up is waste.";
    assert_eq!(tell(vec![used(), used()], Some(5.0)), says(two));
    // 1900 of 2700 square inches are 70.37 %.
    let none = "Nothing is left that is worth keeping; 70.4 % of what is taken up is waste.";
    assert_eq!(tell(vec![used()], Some(41.0)), says(none));
    let one = "1 length is left over; 3.8 % of what is taken up is waste beside the pieces.";
    assert_eq!(tell(vec![used()], None), says(one));
    let two = "2 lengths are left over; 3.8 % of what is taken up is waste beside the pieces.";
    assert_eq!(tell(vec![used(), used()], None), says(two));
    // 20 in used whole: 100 of 900 square inches are 11.11 %.
    let whole = StockUse { length: inches(20.0), left_over: Length::ZERO, ..used() };
    let none = "No length is left over; 11.2 % of what is taken up is waste beside the pieces.";
    assert_eq!(tell(vec![whole], None), says(none));
}

/// Plans by their goods: the proved ones together by what they save, each of the others with its bound.
#[test]
fn how_good_several_plans_are() {
    let pieces = [rectangle("panel", 20.0, 20.0)];
    let goods = Goods::cloth(inches(45.0));
    let tell = |plans: &[(Option<&str>, Aim, bool)]| {
        let made: Vec<CuttingPlan> = plans
            .iter()
            .map(|(_, aim, proved)| {
                let mut plan = plan_of(vec![shelf("A", 170.0, 108.0, vec![cut(&pieces, 0, (0.0, 0.0), (20.0, 20.0))])]);
                plan.quality = PlanQuality { aim: *aim, bound_ratio: 0.5, proved: *proved, stopped: false };
                plan
            })
            .collect();
        let reports: Vec<PlanReport<'_>> = plans
            .iter()
            .zip(&made)
            .map(|((name, ..), plan)| PlanReport { name: *name, ..report(&pieces, &goods, plan) })
            .collect();
        quality_sentences(&reports, &words())
    };
    let (lawn, net, felt) = (Some("lawn"), Some("net"), Some("felt"));
    assert_eq!(tell(&[(lawn, Aim::Length, true)]), ["This is the least possible of lawn."]);
    let two = [(lawn, Aim::Cost, true), (net, Aim::Cost, true)];
    assert_eq!(tell(&two), ["This is the cheapest possible for lawn and net."]);
    let three = [(lawn, Aim::Length, true), (net, Aim::Length, true), (felt, Aim::Length, true)];
    assert_eq!(tell(&three), ["This is the least possible of lawn, net and felt."]);
    // 108 in are 3 yd; the lower bound of 54 in is told in the same unit. Half of the cost is 50 %.
    let mixed =
        [(lawn, Aim::Cost, false), (net, Aim::Cost, true), (felt, Aim::Length, false), (None, Aim::Length, true)];
    assert_eq!(
        tell(&mixed),
        [
            "This is the least possible.",
            "This is the cheapest possible for net.",
            "No plan can cost more than 50 % less for lawn.",
            "This takes 3 yd of felt; the least possible is between 1 1/2 yd and that.",
        ]
    );
    assert_eq!(tell(&[]), [""; 0]);
}

/// Nothing is said of a plan without cuts, nor of a bound that is not known; whether a search was stopped is.
#[test]
fn what_is_not_known_of_a_plan() {
    let pieces = [rectangle("panel", 20.0, 20.0)];
    let goods = Goods::cloth(inches(45.0));
    let used = || vec![shelf("A", 70.0, 55.0, vec![cut(&pieces, 0, (0.0, 0.0), (20.0, 20.0))])];
    let with = |uses, bound_ratio: f64, stopped: bool| {
        let mut plan = plan_of(uses);
        plan.quality = PlanQuality { bound_ratio, stopped, ..plan.quality };
        plan
    };
    let tell = |plan: &CuttingPlan, name| {
        let report = PlanReport { name, ..report(&pieces, &goods, plan) };
        (quality_sentences(&[report], &words()), stopped_sentence(&[report]))
    };
    assert_eq!(tell(&with(Vec::new(), 0.9, false), None), (Vec::new(), None));
    for ratio in [0.0, -0.1, f64::INFINITY, f64::NAN] {
        let unknown = "How much less of lawn another plan could take is not known.".to_owned();
        assert_eq!(tell(&with(used(), ratio, false), Some("lawn")), (vec![unknown], None));
    }
    let stopped = "The search was stopped before it was over; this is the best found so far.".to_owned();
    assert_eq!(tell(&with(used(), 0.9, true), None).1, Some(stopped));
    // One of several is enough.
    let (done, broken) = (with(used(), 0.9, false), with(used(), 0.9, true));
    let reports = [&done, &broken].map(|plan| report(&pieces, &goods, plan));
    assert!(stopped_sentence(&reports).is_some());
}
