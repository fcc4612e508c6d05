//! The page to cut from, row by row. Sizes in inches on a tape of eighths; a row has its name in three columns, then marks
//! in eight columns each.

use super::*;
use crate::piece::{Edge, MatchLine};

fn strip(name: &str, along: f64) -> CutPiece {
    CutPiece::new(name, 1, Shape::FullWidth { along: inches(along) })
}

/// Cuts of one entry over the full width of 45 in, from these marks to those.
fn full(pieces: &[CutPiece], entry: usize, marks: &[(f64, f64)]) -> Vec<Cut> {
    marks.iter().map(|(from, to)| cut(pieces, entry, (*from, 0.0), (to - from, 45.0))).collect()
}

/// The blocks of a sheet with their labels.
fn blocks(report: &PlanReport<'_>) -> Vec<(&'static str, Vec<String>)> {
    let blocks = cut_sheet(report, &letters(&[*report]), &words());
    blocks.into_iter().map(|block| (block.label, block.lines)).collect()
}

fn block(report: &PlanReport<'_>, label: &str) -> Vec<String> {
    blocks(report).into_iter().filter(|(known, _)| *known == label).flat_map(|(_, lines)| lines).collect()
}

/// The lines of the cuts of these lengths, on plain cloth.
fn cut_lines(pieces: &[CutPiece], uses: Vec<StockUse>) -> Vec<String> {
    let (plan, goods) = (plan_of(uses), Goods::cloth(inches(45.0)));
    block(&report(pieces, &goods, &plan), "CUT")
}

#[test]
fn the_goods_stand_first() {
    let pieces = [CutPiece { matching: Some(Matching::Level), ..strip("drop", 30.0) }];
    let plan = plan_of(vec![shelf("A", 70.0, 30.0, full(&pieces, 0, &[(0.0, 30.0)]))]);
    let repeat = |shift: f64| Some(Repeat { along: inches(24.0), shift: inches(shift) });
    let cloth = Goods::cloth(inches(45.0));
    let cases = [
        (Goods { repeat: repeat(0.0), ..cloth.clone() }, "Repeat 24, straight."),
        (Goods { repeat: repeat(12.0), ..cloth.clone() }, "Repeat 24, half drop."),
        (Goods { repeat: repeat(8.0), ..cloth.clone() }, "Repeat 24, 8 later on the next width."),
        (Goods { repeat: repeat(8.03), ..cloth.clone() }, "Repeat 24, about 8 later on the next width."),
        (Goods { napped: true, ..cloth.clone() }, "Nap: every top towards the uncut end; nothing is turned."),
    ];
    for (goods, line) in cases {
        let named = PlanReport { name: Some("lawn"), ..report(&pieces, &goods, &plan) };
        assert_eq!(blocks(&named)[0], ("CLOTH", vec!["lawn, 45 wide".to_owned(), line.to_owned()]));
    }
    let roll = Goods::roll(inches(6.0), inches(900.0));
    assert_eq!(blocks(&report(&pieces, &roll, &plan))[0], ("ROLL", vec!["goods, 6 wide".to_owned()]));
    // The pattern is not told if nothing that is cut is laid on it.
    let striped = Goods { repeat: repeat(0.0), ..cloth };
    for other in [strip("drop", 30.0), CutPiece { count: 0, ..pieces[0].clone() }] {
        let others = [other];
        let report = report(&others, &striped, &plan);
        assert_eq!((block(&report, "CLOTH").len(), block(&report, "START").len()), (1, 0));
    }
}

/// Five repeats of 24 in are 120 in; one repeat that is 3/100 in longer than a mark has them about there.
#[test]
fn matched_pieces_start_from_a_place_of_the_pattern() {
    let start = |line: Option<MatchLine>, along: f64| {
        let line_of_plain = Some(MatchLine { distance: inches(9.0), edge: Edge::Upper });
        let plain = CutPiece { line: line_of_plain, ..strip("band", 5.0) };
        let pieces = [plain, CutPiece { matching: Some(Matching::Level), line, ..strip("drop", 30.0) }];
        let plan = plan_of(vec![shelf("A", 70.0, 30.0, full(&pieces, 1, &[(0.0, 30.0)]))]);
        let goods = Goods { repeat: Some(Repeat::straight(inches(along))), ..Goods::cloth(inches(45.0)) };
        block(&report(&pieces, &goods, &plan), "START")
    };
    let at = |distance: f64, edge| Some(MatchLine { distance: inches(distance), edge });
    assert_eq!(
        start(None, 24.0),
        [
            "[ ] Measure 5 repeats: 120? If not, cut by the pattern, not by the tape.",
            "[ ] Choose where the pattern begins at the lower edge: that is 0, square across.",
            "Up to one repeat lies before 0 on each length.",
        ]
    );
    assert_eq!(
        start(at(7.0, Edge::Lower), 24.0)[1],
        "[ ] Choose the place of the pattern for the line 7 above the lower edge. 0 is 7 below it, square across."
    );
    assert_eq!(
        start(at(4.0, Edge::Upper), 24.0)[1],
        "[ ] Choose the place of the pattern for the line 4 below the upper edge; 0 is the lower edge, square across."
    );
    assert!(start(None, 24.01)[0].contains("repeats: about 120? "));
}

#[test]
fn the_head_of_a_length_tells_its_lot_and_fold() {
    let pieces = [rectangle("panel", 20.0, 15.0)];
    let used = shelf("A", 70.0, 20.0, vec![cut(&pieces, 0, (0.0, 3.0), (20.0, 15.0))]);
    let lot = StockUse { lot: Some("7".to_owned()), folded: true, ..used.clone() };
    // Only strips are counted.
    let (plan, goods) = (plan_of(vec![used.clone()]), Goods::cloth(inches(45.0)));
    assert_eq!(block(&report(&pieces, &goods, &plan), "COUNT"), [""; 0]);
    assert_eq!(
        cut_lines(&pieces, vec![used]),
        [
            "A: 70 long",
            "            from       to   across       to",
            "[ ] A          0       20        3       18  panel",
            "to 20; 50 left of 70",
        ]
    );
    assert_eq!(cut_lines(&pieces, vec![lot])[0], "A, lot 7: 70 long, folded lengthwise, selvedges together");
}

/// Each piece with its order and how it lies.
#[test]
fn a_row_tells_whose_the_piece_is_and_how_it_lies() {
    let pieces = [rectangle("panel", 20.0, 15.0)];
    let plain = cut(&pieces, 0, (0.0, 0.0), (20.0, 15.0));
    let rows = [
        (Cut { order: Some("32".into()), ..plain.clone() }, "panel for 32"),
        (Cut { reversed: true, ..plain.clone() }, "panel, turned head to foot"),
        (Cut { order: Some("32".into()), mirrored: true, ..plain.clone() }, "panel for 32, mirrored"),
        (plain, "panel"),
    ];
    for (cut, told) in rows {
        let lines = cut_lines(&pieces, vec![shelf("A", 70.0, 20.0, vec![cut])]);
        assert_eq!(lines[2], format!("[ ] A          0       20        0       15  {told}"));
    }
}

/// What a piece on the pattern that lies beside others has its place in: 36 in are one and a half repeats of 24.
#[test]
fn the_place_on_the_pattern_is_counted_in_repeats() {
    let pieces =
        [CutPiece { matching: Some(Matching::Level), ..rectangle("panel", 20.0, 15.0) }, rectangle("cuff", 20.0, 9.0)];
    let goods = Goods { repeat: Some(Repeat::straight(inches(24.0))), ..Goods::cloth(inches(45.0)) };
    let told = |from: f64| {
        let cuts = vec![cut(&pieces, 0, (from, 0.0), (20.0, 15.0)), cut(&pieces, 1, (from, 15.0), (20.0, 9.0))];
        let plan = plan_of(vec![shelf("A", 170.0, from + 20.0, cuts)]);
        let lines = block(&report(&pieces, &goods, &plan), "CUT");
        assert!(lines[3].ends_with("  cuff"), "{lines:?}");
        lines[2].rsplit_once("panel, ").unwrap().1.to_owned()
    };
    let cases = [(0.0, "0"), (12.0, "1/2"), (24.0, "1"), (36.0, "1 1/2"), (72.0, "3"), (8.0, "0.33"), (40.0, "1.67")];
    for (from, repeats) in cases {
        assert_eq!(told(from), format!("{repeats} repeats from 0"));
    }
}

/// By pencil: drops of 20 in from 0 and 24, so that 4 are cut off between them; 44 in are used.
#[test]
fn what_is_cut_off_between_matched_drops_has_a_row() {
    let pieces = [CutPiece { matching: Some(Matching::Level), ..strip("drop", 20.0) }];
    let goods = Goods { repeat: Some(Repeat::straight(inches(24.0))), ..Goods::cloth(inches(45.0)) };
    let plan = plan_of(vec![shelf("A", 70.0, 44.0, full(&pieces, 0, &[(0.0, 20.0), (24.0, 44.0)]))]);
    assert_eq!(
        block(&report(&pieces, &goods, &plan), "CUT"),
        [
            "A: 70 long",
            "            from       to     long  repeats",
            "[ ] A          0       20       20  0        drop",
            "    off       20       24        4",
            "[ ] A         24       44       20  1        drop",
            "2 x 20 + 1 x 4 = 44; 26 left of 70",
        ]
    );
    // One nanometre is nothing; two are cut off.
    let rows = |nanometres: f64| {
        let mut cuts = full(&pieces, 0, &[(0.0, 20.0), (20.0, 40.0)]);
        cuts[1].from = cuts[0].to + Length::from_steps(nanometres);
        let plan = plan_of(vec![shelf("A", 70.0, 40.0, cuts)]);
        let lines = block(&report(&pieces, &goods, &plan), "CUT");
        (lines.len(), lines.last().unwrap().split(" = ").next().unwrap().to_owned())
    };
    assert_eq!([0.0, 1.0].map(rows), [0.0, 1.0].map(|_| (5, "2 x 20".to_owned())));
    assert_eq!(rows(2.0), (6, "2 x 20 + 1 x 0".to_owned()));
}

/// A plain strip among matched drops has no place on the pattern; without matched ones there is no such column.
#[test]
fn a_strip_among_matched_drops_has_no_repeats() {
    let pieces = [CutPiece { matching: Some(Matching::Level), ..strip("drop", 20.0) }, strip("band", 5.0)];
    let goods = Goods { repeat: Some(Repeat::straight(inches(24.0))), ..Goods::cloth(inches(45.0)) };
    let cuts = [full(&pieces, 0, &[(0.0, 20.0)]), full(&pieces, 1, &[(20.0, 25.0)])].concat();
    let plan = plan_of(vec![shelf("A", 70.0, 25.0, cuts)]);
    let lines = block(&report(&pieces, &goods, &plan), "CUT");
    assert_eq!(
        lines[2..],
        [
            "[ ] A          0       20       20  0        drop",
            "[ ] B         20       25        5           band",
            "1 x 20 + 1 x 5 = 25; 45 left of 70",
        ]
    );
}

/// On plain cloth matched drops are strips like any other.
#[test]
fn without_a_pattern_nothing_is_matched() {
    let pieces = [CutPiece { matching: Some(Matching::Level), ..strip("drop", 20.0) }];
    let lines = cut_lines(&pieces, vec![shelf("A", 70.0, 20.0, full(&pieces, 0, &[(0.0, 20.0)]))]);
    assert_eq!(lines, ["A: 70 long", "[ ] 0 to 20: 1 drop", "50 left"]);
    let plan = plan_of(vec![shelf("A", 70.0, 20.0, full(&pieces, 0, &[(0.0, 20.0)]))]);
    assert_eq!(block(&report(&pieces, &Goods::cloth(inches(45.0)), &plan), "COUNT"), ["[ ] 1"]);
}

/// What lies before 0, and what is left: nothing is left of cloth bought as needed.
#[test]
fn the_sum_ends_with_what_is_left() {
    let pieces = [CutPiece { matching: Some(Matching::Level), ..strip("drop", 20.0) }];
    let goods = Goods { repeat: Some(Repeat::straight(inches(24.0))), ..Goods::cloth(inches(45.0)) };
    let sum = |length: f64, lead: f64, is_new: bool| {
        let source =
            if is_new { StockSource::New { offer: 0, number: 1 } } else { StockSource::Shelf { entry: 0, number: 1 } };
        let used =
            StockUse { source, lead: inches(lead), ..shelf("A", length, 20.0, full(&pieces, 0, &[(0.0, 20.0)])) };
        let used = StockUse { left_over: inches(length - lead - 20.0), ..used };
        let plan = plan_of(vec![used]);
        block(&report(&pieces, &goods, &plan), "CUT").pop().unwrap()
    };
    assert_eq!(sum(70.0, 0.0, false), "1 x 20 = 20; 50 left of 70");
    assert_eq!(sum(70.0, 24.0, false), "1 x 20 = 20; up to 24 of 70 lies before 0; 26 left");
    assert_eq!(sum(44.0, 24.0, true), "1 x 20 = 20; up to 24 of 44 lies before 0");
    assert_eq!(sum(20.0, 0.0, true), "1 x 20 = 20");
    assert_eq!(sum(70.0, 24.03, true), "1 x 20 = 20; up to about 24 of 70 lies before 0; 26 left");
}

/// Twelve strips of 5 in end at 60; the tenth at 50. Then one by itself, and the count runs on over two lengths.
#[test]
fn strips_have_a_mark_for_every_ten() {
    let pieces = [strip("strip", 5.0)];
    let marks =
        |count: i32| (0..count).map(|place| (5.0 * f64::from(place), 5.0 * f64::from(place + 1))).collect::<Vec<_>>();
    let mut first = full(&pieces, 0, &marks(12));
    first.extend(full(&pieces, 0, &[(61.0, 66.0)]));
    let second = full(&pieces, 0, &marks(9));
    let plan = plan_of(vec![shelf("A", 90.0, 66.0, first), shelf("B", 90.0, 45.0, second)]);
    let goods = Goods::cloth(inches(45.0));
    let found = blocks(&PlanReport { keep_from: Some(inches(60.0)), ..report(&pieces, &goods, &plan) });
    assert_eq!(
        found,
        [
            ("CLOTH", vec!["goods, 45 wide"]),
            (
                "CUT",
                vec![
                    "A: 90 long",
                    "0 to 60, a mark every 5: strip 1 to 12",
                    "[ ] 10 at 50    [ ] 12 at 60",
                    "[ ] 61 to 66: 1 strip",
                    "24 left",
                ]
            ),
            (
                "CUT",
                vec![
                    "B: 90 long",
                    "0 to 45, a mark every 5: strip 14 to 22",
                    "[ ] 20 at 35    [ ] 22 at 45",
                    "45 left"
                ]
            ),
            ("COUNT", vec!["[ ] 2 tens and 2"]),
        ]
        .map(|(label, lines)| (label, lines.into_iter().map(str::to_owned).collect::<Vec<_>>()))
    );
    // Four ticks to a line.
    let lines = cut_lines(&pieces, vec![shelf("A", 225.0, 225.0, full(&pieces, 0, &marks(45)))]);
    assert_eq!(lines[2..4], ["[ ] 10 at 50    [ ] 20 at 100   [ ] 30 at 150   [ ] 40 at 200", "[ ] 45 at 225"]);
    assert_eq!(lines[4..], ["0 left"]);
}

/// Strips are told one by one where the next differs in name, order or size, or does not touch.
#[test]
fn only_strips_alike_that_touch_are_told_together() {
    let pieces = [strip("strip", 5.0), strip("band", 5.0)];
    let lines = |change: &dyn Fn(&mut Cut)| {
        let mut cuts = full(&pieces, 0, &[(0.0, 5.0), (5.0, 10.0)]);
        change(&mut cuts[1]);
        cut_lines(&pieces, vec![shelf("A", 90.0, 12.0, cuts)])[1..].to_vec()
    };
    assert_eq!(lines(&|_| {}), ["0 to 10, a mark every 5: strip 1 to 2", "[ ] 2 at 10", "78 left"]);
    let single = "[ ] 0 to 5: 1 strip";
    assert_eq!(lines(&|cut| cut.piece = "band".into())[..2], [single, "[ ] 5 to 10: 1 band"]);
    assert_eq!(lines(&|cut| cut.order = Some("32".into()))[..2], [single, "[ ] 5 to 10: 1 strip for 32"]);
    assert_eq!(lines(&|cut| cut.to = inches(12.0))[..2], [single, "[ ] 5 to 12: 1 strip"]);
    let apart = lines(&|cut| (cut.from, cut.to) = (inches(6.0), inches(11.0)));
    assert_eq!(apart[..2], [single, "[ ] 6 to 11: 1 strip"]);
    let ordered: Vec<Cut> = full(&pieces, 0, &[(0.0, 5.0), (5.0, 10.0)])
        .into_iter()
        .map(|cut| Cut { order: Some("32".into()), ..cut })
        .collect();
    let lines = cut_lines(&pieces, vec![shelf("A", 90.0, 10.0, ordered)]);
    assert_eq!(lines[1], "0 to 10, a mark every 5: strip 1 to 2 for 32");
    // Cloth bought as needed leaves nothing to tell.
    let bought = StockUse {
        source: StockSource::New { offer: 0, number: 1 },
        ..shelf("new cloth", 10.0, 10.0, full(&pieces, 0, &[(0.0, 5.0), (5.0, 10.0)]))
    };
    assert_eq!(cut_lines(&pieces, vec![bought]).last().unwrap(), "[ ] 2 at 10");
}

#[test]
fn counts_in_tens() {
    for (count, words) in
        [(3, "3"), (9, "9"), (10, "1 tens"), (11, "1 tens and 1"), (40, "4 tens"), (111, "11 tens and 1")]
    {
        assert_eq!(cut_sheet::tens(count), words);
    }
}

/// A strip beside a piece that takes less than the width is a row like any other.
#[test]
fn strips_beside_other_pieces_have_rows() {
    let pieces = [strip("strip", 5.0), rectangle("panel", 20.0, 15.0)];
    let cuts = [full(&pieces, 0, &[(0.0, 5.0)]), vec![cut(&pieces, 1, (9.0, 3.0), (20.0, 15.0))]].concat();
    let lines = cut_lines(&pieces, vec![shelf("A", 70.0, 29.0, cuts)]);
    assert_eq!(
        lines[2..],
        [
            "[ ] A          0        5        0       45  strip",
            "[ ] B          9       29        3       18  panel",
            "to 29; 41 left of 70",
        ]
    );
}

/// What is kept, narrow and short ones first, equal ones counted; 4 in wide is too narrow to keep from 5 in on.
#[test]
fn what_is_kept_is_counted_by_size() {
    let pieces = [rectangle("panel", 20.0, 40.0)];
    let offcut = |from: f64, long: f64, width: f64| Offcut {
        from: inches(from),
        to: inches(from + long),
        across_from: inches(45.0 - width),
        across_to: inches(45.0),
    };
    let used = |offcuts: Vec<Offcut>| {
        let cuts = vec![cut(&pieces, 0, (0.0, 0.0), (20.0, 40.0))];
        StockUse { offcuts, ..shelf("A", 31.0, 20.0, cuts) }
    };
    let keep = |uses: Vec<StockUse>| {
        let (plan, goods) = (plan_of(uses), Goods::cloth(inches(45.0)));
        block(&report(&pieces, &goods, &plan), "KEEP")
    };
    let both = vec![
        used(vec![offcut(0.0, 20.0, 5.0), offcut(0.0, 18.0, 5.0)]),
        used(vec![offcut(0.0, 20.0, 5.0), offcut(0.0, 9.0, 4.0)]),
    ];
    assert_eq!(keep(both), ["1 of 5 x 18; 2 of 5 x 20; 2 of 45 x 11"]);
    let nothing = StockUse { left_over: inches(4.0), length: inches(24.0), ..used(Vec::new()) };
    assert_eq!(keep(vec![nothing]), [""; 0]);
}
