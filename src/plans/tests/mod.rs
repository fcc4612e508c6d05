//! Descriptions of plans: repeated rows, marks, layers, how good a plan is, and leftovers.

mod cut_sheets;
mod hung;
mod kept;
mod listed;
mod panels;
mod told;
mod typed_lists;

use super::*;
use crate::cutting::{
    self, Aim, Cut, CuttingManner, CuttingPlan, CuttingTask, JoinedPart, Offcut, PinnedCut, PlanQuality, StockSource,
    StockUse, Watch,
};
use crate::piece::{CutPiece, Goods, Layers, Lie, Matching, PutUp, Repeat, Shape, StockLength, Supply};
use crate::quantity::{Length, Style, Tape, number};
use crate::table::Cell;
use crate::textile::washing::Loss;
use crate::workshop::{Settings, Stock};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::atomic::AtomicBool;

fn inches(value: f64) -> Length {
    Length::inches(value)
}

fn words() -> PlanWords {
    PlanWords { words: Style { plain: true, ..Style::default() }, tape: Tape::Inch }
}

fn rectangle(name: &str, along: f64, across: f64) -> CutPiece {
    CutPiece::new(name, 1, Shape::Rectangle { along: inches(along), across: inches(across) })
}

/// A cut of an entry with these start marks and this size, in inches.
fn cut(pieces: &[CutPiece], entry: usize, (from, across_from): (f64, f64), (along, across): (f64, f64)) -> Cut {
    Cut {
        entry,
        number: 1,
        piece: pieces[entry].name.as_str().into(),
        order: None,
        from: inches(from),
        to: inches(from + along),
        across_from: inches(across_from),
        across_to: inches(across_from + across),
        lie: Lie::Along,
        through: Layers::One,
        reversed: false,
        mirrored: false,
        part: None,
    }
}

fn shelf(name: &str, length: f64, used: f64, cuts: Vec<Cut>) -> StockUse {
    StockUse {
        source: StockSource::Shelf { entry: 0, number: 1 },
        stock: name.to_owned(),
        lot: None,
        length: inches(length),
        width: inches(45.0),
        folded: false,
        cuts,
        used: inches(used),
        lead: Length::ZERO,
        left_over: inches(length - used),
        offcuts: Vec::new(),
    }
}

/// A plan of these lengths, no worse than 54 in to 55.
pub(super) fn plan_of(uses: Vec<StockUse>) -> CuttingPlan {
    let used = uses.iter().map(|stock| stock.used).sum();
    CuttingPlan {
        uses,
        bought: Vec::new(),
        length_used: used,
        lower_bound: inches(54.0),
        quality: PlanQuality { aim: Aim::Length, bound_ratio: 0.982, proved: false, stopped: false },
        cost: None,
        pieces: BTreeMap::new(),
        joins: BTreeMap::new(),
        notes: Vec::new(),
    }
}

/// A plan of one order, told on its own.
pub(super) fn report<'a>(pieces: &'a [CutPiece], goods: &'a Goods, plan: &'a CuttingPlan) -> PlanReport<'a> {
    PlanReport {
        name: None,
        pieces,
        panels: &[],
        goods,
        plan,
        keep_from: Some(inches(5.0)),
        washed_first: None,
        shelf: &[],
    }
}

/// Own arithmetic: three rows of 20 in end at 20, 40 and 60 in.
#[test]
fn rows_that_come_again_are_told_once() {
    let pieces = [rectangle("panel", 20.0, 20.0), rectangle("strip", 18.0, 5.0)];
    let row = |from: f64| {
        [
            cut(&pieces, 0, (from, 0.0), (20.0, 20.0)),
            cut(&pieces, 0, (from, 20.0), (20.0, 20.0)),
            cut(&pieces, 1, (from, 40.0), (18.0, 5.0)),
        ]
    };
    let plan = plan_of(vec![shelf("A", 70.0, 60.0, [row(0.0), row(20.0), row(40.0)].concat())]);
    let goods = Goods::cloth(inches(45.0));
    let report = report(&pieces, &goods, &plan);
    assert_eq!(
        sentences(&report, &words()),
        ["From A: 3 rows alike that end at marks 20 in, 40 in and 60 in, in each 2 panels, 20 in long by 20 in wide; \
          1 strip, 18 in long by 5 in wide; 10 in left."]
    );
    let table = cuts(&[report], &words()).unwrap();
    assert_eq!(table.len(), 2);
    assert_eq!(table.cell(1, "from"), Ok(&"A, in each of 3 rows".into()));
    assert_eq!(table.cell(2, "pieces"), Ok(&1.into()));
    assert_eq!(table.cell(2, "mark to"), Ok(&Cell::from(inches(60.0))));
    assert_eq!(plan_rows(&report), 9);
}

fn plan_rows(report: &PlanReport<'_>) -> usize {
    plan(&[*report], &words()).unwrap().len()
}

#[test]
fn layers_and_places_across_are_told_where_they_matter() {
    let pieces = [rectangle("front", 30.0, 20.0), rectangle("sleeve", 12.0, 10.0)];
    let fold = Cut { through: Layers::Fold, ..cut(&pieces, 0, (0.0, 12.5), (30.0, 20.0)) };
    let both = |from: f64| Cut { through: Layers::Both, ..cut(&pieces, 1, (0.0, from), (12.0, 10.0)) };
    let twin = Cut { mirrored: true, ..both(35.0) };
    let used = StockUse { folded: true, ..shelf("A", 40.0, 30.0, vec![fold, both(0.0), twin]) };
    let plan_made = plan_of(vec![used]);
    let goods = Goods::cloth(inches(45.0));
    let report = report(&pieces, &goods, &plan_made);
    assert_eq!(
        sentences(&report, &words()),
        ["From A, folded lengthwise: 1 front, 30 in long by 20 in wide, marks 0 in to 30 in, across 12 1/2 in to \
          32 1/2 in, on the fold; 2 sleeves, 12 in long by 10 in wide, marks 0 in to 12 in, across 0 in to 45 in, on \
          double cloth; 10 in left."]
    );
    let table = plan(&[report], &words()).unwrap();
    let layers: Vec<&Cell> = table.values("layers").unwrap().collect();
    assert_eq!(layers, [&Cell::from("fold"), &"both".into(), &"both".into()]);
    // In the drawing the twin lies under its other half.
    let drawn = drawn_lengths(&report, &words(), &letters(&[report]));
    assert!(drawn[0].folded && drawn[0].cuts.len() == 3);
}

/// By the order of the cuts: the sleeve is cut first and is A; both fronts are B; another order's front is C; what no
/// plan cuts comes last.
#[test]
fn letters_follow_the_cuts_and_are_the_same_in_pieces_and_lays() {
    let mine = rectangle("front", 30.0, 20.0);
    let theirs = CutPiece { order: Some("32".to_owned()), ..mine.clone() };
    let pieces = [mine, rectangle("sleeve", 12.0, 10.0), theirs];
    let cuts = vec![
        cut(&pieces, 1, (0.0, 0.0), (12.0, 10.0)),
        cut(&pieces, 0, (12.0, 0.0), (30.0, 20.0)),
        cut(&pieces, 0, (12.0, 20.0), (30.0, 20.0)),
        cut(&pieces, 2, (42.0, 0.0), (30.0, 20.0)),
    ];
    let plan = plan_of(vec![shelf("A", 90.0, 72.0, cuts)]);
    let goods = Goods::cloth(inches(45.0));
    let report = report(&pieces, &goods, &plan);
    let mut given = letters(&[report]);
    let drawn = drawn_lengths(&report, &words(), &given);
    let found: Vec<&str> = drawn[0].cuts.iter().map(|cut| cut.letter.as_str()).collect();
    assert_eq!(found, ["A", "B", "B", "C"]);
    let of_pieces: Vec<String> = pieces.iter().flat_map(|piece| given.of_piece(piece)).collect();
    assert_eq!(of_pieces, ["B", "A", "C"]);
    assert_eq!(given.of_piece(&rectangle("cuff", 8.0, 4.0)), ["D"]);
}

/// A strip joined from two parts has a letter for each, and the piece has both.
#[test]
fn parts_of_a_joined_piece_have_letters_of_their_own() {
    let pieces = [rectangle("strip", 60.0, 10.0)];
    let part = |number, from: f64, along: f64| Cut {
        part: Some(JoinedPart { number, of: 2 }),
        ..cut(&pieces, 0, (from, 0.0), (along, 10.0))
    };
    let plan = plan_of(vec![shelf("A", 90.0, 61.0, vec![part(1, 0.0, 40.0), part(2, 40.0, 21.0)])]);
    let goods = Goods::cloth(inches(45.0));
    let report = report(&pieces, &goods, &plan);
    assert_eq!(letters(&[report]).of_piece(&pieces[0]), ["A", "B"]);
}

#[test]
fn what_no_plan_can_go_below_is_told_honestly() {
    let pieces = [rectangle("panel", 20.0, 20.0)];
    let goods = Goods::cloth(inches(45.0));
    let with = |aim, bound_ratio, proved| {
        let mut plan = plan_of(vec![shelf("A", 70.0, 55.0, vec![cut(&pieces, 0, (0.0, 0.0), (20.0, 20.0))])]);
        plan.quality = PlanQuality { aim, bound_ratio, proved, stopped: false };
        quality_sentences(&[report(&pieces, &goods, &plan)], &words())
    };
    assert_eq!(with(Aim::Length, 1.0, true), ["This is the least possible."]);
    assert_eq!(with(Aim::Cost, 1.0, true), ["This is the cheapest possible."]);
    assert_eq!(with(Aim::Length, 0.982, false), ["This takes 55 in; the least possible is between 54 in and that."]);
    // A share is rounded up: 1.81 % is shown as 1.9 %.
    assert_eq!(with(Aim::Cost, 0.9819, false), ["No plan can cost more than 1.9 % less."]);
    assert_eq!(with(Aim::Length, f64::NAN, false), ["How much less another plan could take is not known."]);
}

#[test]
fn leftovers_have_marks_of_their_own_and_are_lines_of_stock() {
    let pieces = [rectangle("panel", 20.0, 40.0)];
    let panel = || vec![cut(&pieces, 0, (0.0, 0.0), (20.0, 40.0))];
    let mut first = shelf("A", 60.0, 20.0, panel());
    let offcut = |width: f64| Offcut {
        from: Length::ZERO,
        to: inches(20.0),
        across_from: inches(45.0 - width),
        across_to: inches(45.0),
    };
    first.offcuts = vec![offcut(5.0), offcut(4.0)];
    let alike =
        |number| StockUse { source: StockSource::Shelf { entry: 1, number }, ..shelf("B", 30.0, 20.0, panel()) };
    let new = StockUse { source: StockSource::New { offer: 0, number: 1 }, ..shelf("new bolt 1", 90.0, 20.0, panel()) };
    let plan = plan_of(vec![first, alike(1), alike(2), new]);
    let goods = Goods::cloth(inches(45.0));
    let on_shelf = |name: &str, count| StockLength { count, ..StockLength::new(name, inches(30.0)) };
    let used: BTreeSet<String> = ["Bolt Rest 1".to_owned()].into();
    let on_it = [on_shelf("A", 1), on_shelf("B", 3)];
    let kept = leftovers(&PlanReport { shelf: &on_it, ..report(&pieces, &goods, &plan) }, &words(), &used);
    let found: Vec<(&str, i64, f64)> =
        kept.iter().map(|left| (left.stock.as_str(), left.count, left.along.in_inches().round())).collect();
    assert_eq!(found, [("A", 1, 40.0), ("A rest 1", 1, 20.0), ("B rest 1", 2, 10.0), ("bolt rest 2", 1, 70.0)]);
    let mut named = kept;
    for left in &mut named {
        left.material = Some("lawn".to_owned());
    }
    let mut bytes = Vec::new();
    let stock = leftovers_as_stock(&named);
    stock.write(&Settings::default(), &mut bytes).unwrap();
    assert_eq!(Stock::read("stock.csv", &String::from_utf8(bytes).unwrap(), &Settings::default()), Ok(stock));
}

fn lines_of(report: &PlanReport<'_>) -> Vec<String> {
    let blocks = cut_sheet(report, &letters(&[*report]), &words());
    blocks.into_iter().flat_map(|block| block.lines).collect()
}

#[track_caller]
fn assert_has(lines: &[String], wanted: &str) {
    assert!(lines.iter().any(|line| line.trim() == wanted), "{wanted}: {lines:#?}");
}

/// By pencil, on a tape of eighths: marks 10.06 and 20.12 in stand at 10 and 20 1/8, so that the second length is
/// 10 1/8; 50.3 in, five repeats, stand at 50 1/4; of 30 in up to 10 lie before 0, and the rest comes to nothing.
#[test]
fn marks_are_rounded_once_and_what_is_between_them_adds_up() {
    let full = |along: f64| Shape::FullWidth { along: inches(along) };
    let pieces = [CutPiece { matching: Some(Matching::Level), ..CutPiece::new("drop", 2, full(10.06)) }];
    let goods = Goods { repeat: Some(Repeat::straight(inches(10.06))), ..Goods::cloth(inches(45.0)) };
    let cuts = [0.0, 10.06].map(|from| cut(&pieces, 0, (from, 0.0), (10.06, 45.0)));
    let used = StockUse { lead: inches(10.06), left_over: Length::ZERO, ..shelf("A", 30.18, 20.12, cuts.to_vec()) };
    let plan = plan_of(vec![used]);
    let report = report(&pieces, &goods, &plan);
    // The picture begins at mark 0.
    let [drawn] = &drawn_lengths(&report, &words(), &letters(&[report]))[..] else { panic!() };
    let hundredths = |length: Length| number::nearest_whole(length.in_inches() * 100.0);
    assert_eq!([drawn.length, drawn.lead].map(hundredths), [Some(2012), Some(1006)]);
    let lines = lines_of(&report);
    for wanted in [
        "Repeat about 10, straight.",
        "[ ] Measure 5 repeats: about 50 1/4? If not, cut by the pattern, not by the tape.",
        "[ ] A          0       10       10  0        drop",
        "[ ] A         10   20 1/8   10 1/8  1        drop",
        "1 x 10 + 1 x 10 1/8 = 20 1/8; up to about 10 of 30 1/8 lies before 0; 0 left",
    ] {
        assert_has(&lines, wanted);
    }
}

/// By pencil: 95 in are 100 in before a wash that takes 5 %, and 57 in left of them 60 in; half of them were 45 in wide
/// before and after. A length that was washed before has 57 in left.
#[test]
fn what_is_left_of_an_unwashed_length_goes_back_at_its_size_before_the_wash() {
    let pieces = [rectangle("panel", 38.0, 45.0)];
    let goods = Goods::cloth(inches(45.0));
    let plan = plan_of(vec![shelf("A", 95.0, 38.0, vec![cut(&pieces, 0, (0.0, 0.0), (38.0, 45.0))])]);
    let told = |washed: bool| {
        let on_it = [StockLength { washed, ..StockLength::new("A", inches(95.0)) }];
        let washed_first = Some(Loss::new(0.05, 0.0).unwrap());
        let report = PlanReport { washed_first, shelf: &on_it, ..report(&pieces, &goods, &plan) };
        let kept = leftovers(&report, &words(), &BTreeSet::new());
        let [left] = kept.as_slice() else { panic!("{kept:?}") };
        let sentence = sentences(&report, &words()).concat();
        let [drawn] = &drawn_lengths(&report, &words(), &letters(&[report]))[..] else { panic!() };
        let drawn = (drawn.rests[0].along.in_inches().round(), drawn.rests[0].unwashed);
        (lines_of(&report), (left.along.in_inches().round(), left.washed), sentence, drawn)
    };
    let (lines, left, sentence, drawn) = told(false);
    for wanted in ["A: 100 long, 95 once washed", "to 38; 60 left unwashed", "1 of 45 x 60 unwashed"] {
        assert_has(&lines, wanted);
    }
    assert!(sentence.ends_with("; 60 in left unwashed."), "{sentence}");
    assert_eq!((left, drawn), ((60.0, false), (60.0, true)));
    let (lines, left, sentence, drawn) = told(true);
    for wanted in ["A: 95 long", "to 38; 57 left of 95", "1 of 45 x 57"] {
        assert_has(&lines, wanted);
    }
    assert!(sentence.ends_with("; 57 in left."), "{sentence}");
    assert_eq!((left, drawn), ((57.0, true), (57.0, false)));
}

/// By pencil: 20.04 in stand at 20, so that 40 of 60 in are left; without a tape there would be 39.96.
#[test]
fn a_leftover_is_no_finer_than_the_tape() {
    let pieces = [rectangle("panel", 20.04, 45.0)];
    let goods = Goods::cloth(inches(45.0));
    let plan = plan_of(vec![shelf("A", 60.0, 20.04, vec![cut(&pieces, 0, (0.0, 0.0), (20.04, 45.0))])]);
    let report = report(&pieces, &goods, &plan);
    let kept = leftovers(&report, &words(), &BTreeSet::new());
    assert!((kept[0].along.in_inches() - 40.0).abs() < 1e-9, "{kept:?}");
    assert_has(&lines_of(&report), "to 20; 40 left of 60");
    let table = cuts(&[report], &words()).unwrap();
    assert_eq!(table.cell(1, "left"), Ok(&Cell::from(inches(40.0))));
}

#[test]
fn a_cut_that_is_elsewhere_has_moved() {
    let pieces = [rectangle("panel", 20.0, 20.0)];
    let made = cut(&pieces, 0, (20.0, 0.0), (20.0, 20.0));
    let plan = plan_of(vec![shelf("A", 70.0, 40.0, vec![made.clone()])]);
    let pin = |stock: &str, from: f64| {
        let there = Cut { from: inches(from), to: inches(from + 20.0), ..made.clone() };
        PinnedCut::of(stock, &there)
    };
    let pins = [pin("A", 20.0), pin("A", 0.0), pin("B", 20.0)];
    let found: Vec<usize> = moved(&plan, &pins).iter().filter_map(|pin| pins.iter().position(|p| p == *pin)).collect();
    assert_eq!(found, [1, 2]);
}

/// By hand: four cuts on two lengths, listed in no order. A pin is there only if its length, piece, order and all its
/// marks are those of a cut.
#[test]
fn a_pin_is_there_only_in_every_respect() {
    let pieces = [rectangle("panel", 20.0, 15.0), rectangle("band", 9.0, 30.0)];
    let ordered = |cut: Cut| Cut { order: Some("32".into()), ..cut };
    let on_b = vec![cut(&pieces, 0, (20.0, 4.0), (20.0, 15.0)), ordered(cut(&pieces, 1, (40.0, 0.0), (9.0, 30.0)))];
    let on_a = vec![cut(&pieces, 1, (0.0, 0.0), (9.0, 30.0)), cut(&pieces, 0, (9.0, 3.0), (20.0, 15.0))];
    let plan = plan_of(vec![shelf("B", 70.0, 49.0, on_b), shelf("A", 70.0, 29.0, on_a)]);
    let pins: Vec<PinnedCut> =
        plan.uses.iter().flat_map(|used| used.cuts.iter().map(|cut| PinnedCut::of(&used.stock, cut))).collect();
    assert_eq!((pins.len(), moved(&plan, &pins).len()), (4, 0));
    let elsewhere: [&dyn Fn(&mut PinnedCut); 7] = [
        &|pin| pin.stock.push('2'),
        &|pin| pin.piece.insert(0, 'a'),
        &|pin| pin.order = Some("33".to_owned()),
        &|pin| pin.from = pin.from + inches(1.0),
        &|pin| pin.to = pin.to + inches(1.0),
        &|pin| pin.across_from = pin.across_from + inches(1.0),
        &|pin| pin.across_to = pin.across_to + inches(1.0),
    ];
    for (place, change) in elsewhere.iter().enumerate() {
        for pin in &pins {
            let mut changed = pin.clone();
            change(&mut changed);
            assert_eq!(moved(&plan, &[changed.clone()]), [&changed], "{place}");
        }
    }
    // The other length has such a piece at those marks.
    let other = PinnedCut { stock: "B".to_owned(), ..pins[3].clone() };
    assert_eq!(moved(&plan, &[pins[0].clone(), other.clone()]), [&other]);
}

proptest! {
    /// All goods used are in pieces, kept or waste: nothing is counted twice.
    #[test]
    fn pieces_leftovers_and_waste_are_all_that_is_taken_up(
        sizes in prop::collection::vec((1_i32..40, 1_i32..44, 1_i64..9), 1..6),
        keep in 1_i32..30,
    ) {
        let pieces: Vec<CutPiece> = sizes
            .iter()
            .map(|(along, across, count)| CutPiece {
                count: *count,
                ..rectangle("piece", f64::from(*along), f64::from(*across))
            })
            .collect();
        let goods = Goods::cloth(inches(44.0));
        let bolt = PutUp { name: "bolt".to_owned(), along: Some(inches(180.0)), across: None, price: None, most: None };
        let supply = Supply::Offered(vec![bolt]);
        let stock = [StockLength { count: 2, ..StockLength::new("A", inches(50.0)) }];
        let manner = CuttingManner { keep_from: Some(inches(f64::from(keep))), ..CuttingManner::default() };
        let task = CuttingTask { pieces: &pieces, goods: &goods, stock: &stock, supply: &supply, manner: &manner };
        let plan = cutting::plan(&task, Watch::silent(&AtomicBool::new(false))).unwrap();
        let report = PlanReport { keep_from: manner.keep_from, shelf: &stock, ..report(&pieces, &goods, &plan) };
        let kept = leftovers(&report, &words(), &BTreeSet::new());
        let square = |along: f64, across: f64| along * across;
        let in_pieces: f64 = sizes.iter().map(|(along, across, count)| {
            square(f64::from(*along), f64::from(*across)) * number::from_whole(*count)
        }).sum();
        let in_kept: f64 = kept.iter().map(|left| {
            let across = left.across.unwrap_or(goods.width).in_inches();
            square(left.along.in_inches(), across) * number::from_whole(left.count)
        }).sum();
        let taken: f64 = plan.uses.iter().map(|stock| square(stock.length.in_inches(), stock.width.in_inches())).sum();
        let waste = keeping::waste(&report, &kept);
        prop_assert!((in_pieces + in_kept + waste.share * taken - taken).abs() < 1e-6 * taken);
        let marks: BTreeSet<&str> = kept.iter().map(|left| left.stock.as_str()).collect();
        prop_assert_eq!(marks.len(), kept.len());
    }
}
