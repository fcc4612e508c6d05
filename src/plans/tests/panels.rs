//! How panels are told: which drop stands where, what is split, joined and trimmed. Cloth 140 cm wide with 1.5 cm at
//! each side of a join, so that every width joined adds 137 cm.

use super::super::panels::{EntryPanels, Strip};
use super::*;
use crate::piece::{Panel, PanelLayout, PanelSide, PanelWidth, Panels, WidthPart};
use WidthPart::{LeftHand, RightHand, Whole};

pub(super) fn cm(value: f64) -> Length {
    Length::centimetres(value)
}

pub(super) fn metric() -> PlanWords {
    PlanWords { words: Style { plain: true, tape: Tape::Metric, ..Style::default() }, tape: Tape::Metric }
}

/// A plan of curtains, drops of 250 cm one behind the other, in this order.
pub(super) struct Window {
    pub(super) pieces: Vec<CutPiece>,
    pub(super) layouts: Vec<Option<PanelLayout>>,
    pub(super) goods: Goods,
    pub(super) plan: CuttingPlan,
    keep_from: f64,
}

impl Window {
    pub(super) fn new(spec: Panels, garments: i64, order: &[i64]) -> Self {
        let layout = spec.layout(garments, None);
        Self::laid(spec, layout, order)
    }

    pub(super) fn laid(spec: Panels, layout: PanelLayout, order: &[i64]) -> Self {
        let shape = Shape::FullWidth { along: cm(250.0) };
        let curtain = CutPiece { panels: Some(spec), ..CutPiece::new("curtain width", layout.count(), shape) };
        let valance = CutPiece::new("valance", 1, Shape::FullWidth { along: cm(40.0) });
        let goods = Goods::cloth(cm(140.0));
        let cuts: Vec<Cut> = (0_i32..)
            .zip(order)
            .map(|(place, drop)| {
                let from = 250.0 * f64::from(place);
                Cut {
                    number: *drop,
                    from: cm(from),
                    to: cm(from + 250.0),
                    across_from: Length::ZERO,
                    across_to: cm(140.0),
                    ..cut(std::slice::from_ref(&curtain), 0, (0.0, 0.0), (1.0, 1.0))
                }
            })
            .map(|cut| Cut { entry: 1, ..cut })
            .collect();
        let used = cuts.last().map_or(Length::ZERO, |cut| cut.to);
        let stock = StockUse {
            used,
            length: cm(9000.0),
            left_over: cm(9000.0) - used,
            width: cm(140.0),
            ..shelf("K7", 0.0, 0.0, cuts)
        };
        Self {
            pieces: vec![valance, curtain],
            layouts: vec![None, Some(layout)],
            goods,
            plan: plan_of(vec![stock]),
            keep_from: 14.0,
        }
    }

    pub(super) fn report(&self) -> PlanReport<'_> {
        PlanReport {
            panels: &self.layouts,
            keep_from: Some(cm(self.keep_from)),
            ..report(&self.pieces, &self.goods, &self.plan)
        }
    }

    pub(super) fn told<T>(&self, tell: impl Fn(&EntryPanels<'_>) -> T) -> T {
        let report = self.report();
        let all = report.all_panels(&letters(&[report]));
        assert_eq!(all.len(), 1);
        tell(&all[0])
    }

    pub(super) fn strips(&self) -> Vec<Strip> {
        let report = self.report();
        report.all_panels(&letters(&[report])).iter().flat_map(EntryPanels::strips).collect()
    }

    pub(super) fn moved_in(&self) -> Length {
        let report = self.report();
        report.all_panels(&letters(&[report])).iter().map(EntryPanels::moved_in).sum()
    }

    pub(super) fn steps(&self) -> Vec<String> {
        let report = self.report();
        cut_steps(&report, "curtain width", &letters(&[report]), &metric())
    }

    pub(super) fn block(&self, label: &str) -> Vec<String> {
        let report = self.report();
        let blocks = cut_sheet(&report, &letters(&[report]), &metric());
        blocks.into_iter().filter(|block| block.label == label).flat_map(|block| block.lines).collect()
    }

    /// What each drop becomes, by its number.
    pub(super) fn become_of(&self, drops: &[i64]) -> Vec<String> {
        self.told(|panels| drops.iter().map(|drop| panels.becomes(*drop)).collect())
    }
}

pub(super) fn spec(across: f64, half_widths: i64) -> Panels {
    Panels {
        allowance: cm(1.5),
        gained: cm(137.0),
        half_widths,
        halves: half_widths % 2 != 0,
        ..Panels::new(cm(across))
    }
}

pub(super) fn pair(across: f64, half_widths: i64) -> Panels {
    Panels { count: 2, paired: true, ..spec(across, half_widths) }
}

pub(super) fn panel(garment: i64, side: PanelSide, widths: &[(i64, WidthPart)]) -> Panel {
    let widths = widths.iter().map(|(drop, part)| PanelWidth { drop: *drop, part: *part }).collect();
    Panel { garment, side, widths }
}

pub(super) fn layout_of(panels: Vec<Panel>, drops: usize) -> PanelLayout {
    PanelLayout { panels, drops: vec![0; drops], per_garment: None }
}

/// By pencil: 200 cm take one width of 137 and a half of 63 cm. The half of the right curtain is drop 2 from 0 to 63, that
/// of the left one from 140 - 63 = 77 to 140; 14 cm between them are left. Letters follow the cuts: 3, 1, 2.
#[test]
fn a_pair_of_one_and_a_half_widths() {
    let window = Window::new(pair(200.0, 3), 1, &[3, 1, 2]);
    assert_eq!(
        window.become_of(&[1, 2, 3]),
        ["left curtain, leading", "both curtains, outer", "right curtain, leading"]
    );
    assert_eq!(
        window.steps(),
        [
            "Cut 3 curtain widths of 250 cm: A 0 to 250 cm, B 250 to 500 cm, C 500 to 750 cm. Chalk letter and way up \
             on the wrong side.",
            "Split C along, right side up, top away, measured from the left edge: 0 to 63 cm to the right curtain, 77 to \
             140 cm to the left curtain; keep the 14 cm between.",
            "Join, left to right as seen from the room: left curtain C2 B; right curtain A C1. Each side of a join takes \
             1.5 cm.",
        ]
    );
    assert_eq!(
        window.block("SPLIT"),
        [
            "C down its length, right side up, top away, from its LEFT edge:",
            "[ ] C1         0 to       63  to the right curtain",
            "[ ] C2        77 to      140  to the left curtain",
            "    keep 63 to 77",
        ]
    );
    assert_eq!(
        window.block("JOIN"),
        [
            "right sides up, seen from the room; 1.5 into each side of a join",
            "wall  [ C2 | B ]  middle  [ A | C1 ]  wall",
            "[ ] right edge of C2 to left edge of B",
            "[ ] right edge of A to left edge of C1",
        ]
    );
    assert_eq!(window.block("TRIM"), ["nothing: each is 200 across"]);
    assert_eq!(
        window.block("CUT")[2..5],
        [
            "[ ] A          0      250      250  right curtain, leading",
            "[ ] B        250      500      250  left curtain, leading",
            "[ ] C        500      750      250  both curtains, outer",
        ]
    );
    assert_eq!(window.block("CHECK"), [""; 0]);
    let strips = window.strips();
    assert_eq!(strips, [Strip { entry: 1, drop: 2, from: cm(63.0), to: cm(77.0) }]);
}

/// 14 cm between the halves are worth keeping from 14 cm on, and the last drop's other half always.
#[test]
fn what_is_left_of_a_split_is_kept_if_it_is_wide_and_long_enough() {
    let told = |keep_from: f64| {
        let window = Window { keep_from, ..Window::new(pair(200.0, 3), 1, &[1, 2, 3]) };
        (window.block("SPLIT").pop().unwrap(), window.steps()[1].rsplit_once("; ").unwrap().1.to_owned())
    };
    assert_eq!(told(14.0), ("    keep 63 to 77".to_owned(), "keep the 14 cm between.".to_owned()));
    assert_eq!(told(14.1), ("    left 63 to 77".to_owned(), "14 cm is left between.".to_owned()));
}

/// Halves of half the cloth leave nothing, nor does a rest of one nanometre; two are told.
#[test]
fn halves_that_meet_leave_nothing() {
    let left = |nanometres: f64| {
        // Two halves of this size leave so many nanometres of 140 cm.
        let half = (cm(140.0) - Length::from_steps(nanometres)) / 2.0;
        let window = Window::new(Panels { across: half, ..pair(0.0, 1) }, 1, &[1]);
        window.told(|panels| panels.splits().iter().filter_map(|split| split.left).count())
    };
    assert_eq!([0.0, 1.0, 2.0].map(left), [0, 0, 1]);
}

/// Five panels, one to a garment: halves of the first and second share drop 2, of the third and fourth drop 5; the fifth
/// has the right-hand part of drop 8 for itself, and 140 - 63 = 77 cm beside it are left.
#[test]
fn drops_split_alike_are_told_together_and_the_last_one_by_itself() {
    let window = Window::new(spec(200.0, 3), 5, &[1, 2, 3, 4, 5, 6, 7, 8]);
    assert_eq!(
        window.steps(),
        [
            "Cut 8 curtain widths of 250 cm: A 0 to 250 cm, B 250 to 500 cm, C 500 to 750 cm, D 750 to 1000 cm, E 1000 to \
             1250 cm, F 1250 to 1500 cm, G 1500 to 1750 cm, H 1750 to 2000 cm. Chalk letter and way up on the wrong \
             side.",
            "Split B and E along, right side up, top away, measured from the left edge: 0 to 63 cm, 77 to 140 cm; keep \
             the 14 cm between. Split H: 77 to 140 cm to no. 5, panel; keep the 77 cm beside.",
            "Join, left to right as seen from the room: no. 1, panel B2 A; no. 2, panel C B1; no. 3, panel E2 D; no. 4, \
             panel F E1; no. 5, panel H G. Each side of a join takes 1.5 cm.",
        ]
    );
    let lines = window.block("SPLIT");
    assert_eq!(lines.len(), 11);
    assert_eq!(
        lines[8..],
        [
            "H down its length, right side up, top away, from its LEFT edge:",
            "[ ] H         77 to      140  to no. 5, panel",
            "    keep 0 to 77",
        ]
    );
    let lines = window.block("JOIN");
    assert_eq!(lines[1..3], ["no. 1, panel  [ B2 | A ]", "[ ] right edge of B2 to left edge of A"]);
    assert_eq!(lines.len(), 11);
}

/// A drop too short for its strip to be kept is split at the same places, and told apart.
#[test]
fn drops_whose_strips_differ_in_worth_are_told_apart() {
    let mut window = Window::new(pair(200.0, 3), 2, &[1, 2, 3, 4, 5, 6]);
    let steps = window.steps();
    assert!(steps[1].starts_with("Split B and E along, "), "{steps:?}");
    let short = &mut window.plan.uses[0].cuts[4];
    short.to = short.from + cm(13.0);
    let steps = window.steps();
    assert!(steps[1].contains("; keep the 14 cm between. Split E: "), "{steps:?}");
    assert!(steps[1].ends_with("; 14 cm is left between."), "{steps:?}");
}

/// One part taken, the other left beside it: at the left edge of a right-hand part, at the right of a left-hand one.
#[test]
fn one_half_leaves_the_rest_of_its_drop() {
    let left = |part| {
        let layout = layout_of(vec![panel(1, PanelSide::Single(0), &[(1, Whole), (2, part)])], 2);
        Window::laid(spec(200.0, 3), layout, &[1, 2]).block("SPLIT")[1..].to_vec()
    };
    assert_eq!(left(LeftHand), ["[ ] B          0 to       63  to the panel", "    keep 63 to 140"]);
    assert_eq!(left(RightHand), ["[ ] B         77 to      140  to the panel", "    keep 0 to 77"]);
}

/// Two and a half widths of 340 cm: 340 - 2 x 137 = 66 cm are cut for the half.
#[test]
fn a_half_is_what_the_whole_widths_leave() {
    let window = Window::new(pair(340.0, 5), 1, &[1, 2, 3, 4, 5]);
    assert_eq!(
        window.block("SPLIT")[1..3],
        ["[ ] C1         0 to       66  to the right curtain", "[ ] C2        74 to      140  to the left curtain"]
    );
}

/// Single letters come before pairs of them: of 30 drops the second, fifth … are split, B to Z and AC.
#[test]
fn splits_are_told_in_the_order_of_their_letters() {
    let order: Vec<i64> = (1..=30).collect();
    let window = Window::new(spec(200.0, 3), 20, &order);
    let split = window.told(|panels| {
        let splits = panels.splits();
        splits.iter().map(|split| panels.letter(split.drop).to_owned()).collect::<Vec<_>>()
    });
    assert_eq!(split, ["B", "E", "H", "K", "N", "Q", "T", "W", "Z", "AC"]);
    // Cut in the opposite order, drop 29 is B and drop 2 AC.
    let order: Vec<i64> = (1..=30).rev().collect();
    let window = Window::new(spec(200.0, 3), 20, &order);
    let split: Vec<i64> = window.told(|panels| panels.splits().iter().map(|split| split.drop).collect());
    assert_eq!(split, [29, 26, 23, 20, 17, 14, 11, 8, 5, 2]);
}

/// By pencil: of 9000 x 140 cm, three drops take 250 x 140 each, less the strip of 14 x 250 between the halves; 8210 cm
/// behind the valance of 40 cm are left. The valance has the number of the drop that is split, and no strip.
#[test]
fn what_is_split_off_and_kept_is_no_waste() {
    let mut window = Window::new(pair(200.0, 3), 1, &[1, 2, 3]);
    let used = &mut window.plan.uses[0];
    let valance = Cut { entry: 0, piece: "valance".into(), from: cm(750.0), to: cm(790.0), ..used.cuts[1].clone() };
    used.cuts.push(valance);
    (used.used, used.left_over) = (cm(790.0), cm(8210.0));
    assert_eq!(window.block("KEEP"), ["1 of 14 x 250; 1 of 140 x 8210"]);
    let drawn = |window: &Window| {
        let report = window.report();
        drawn_lengths(&report, &metric(), &letters(&[report])).remove(0).off_pieces
    };
    assert_eq!(drawn(&window), [(cm(250.0), cm(14.0))]);
    let shares = |window: &Window| {
        let report = window.report();
        let shares = goods_shares(&report, &leftovers(&report, &metric(), &BTreeSet::new()));
        [shares.in_pieces, shares.kept, shares.wasted].map(|share| number::nearest_whole(share * 9000.0 * 140.0))
    };
    let pieces = 3 * 250 * 140 + 40 * 140;
    assert_eq!(shares(&window), [Some(pieces - 14 * 250), Some(8210 * 140 + 14 * 250), Some(0)]);
    window.keep_from = 15.0;
    assert_eq!(shares(&window), [Some(pieces), Some(8210 * 140), Some(0)]);
    assert_eq!((window.block("KEEP"), drawn(&window)), (vec!["1 of 140 x 8210".to_owned()], Vec::new()));
}

/// Two widths reach 137 + 140 = 277 cm; 27 too many for 250. A pair loses them at the walls: the left curtain at its left,
/// the right one at its right.
#[test]
fn a_pair_is_trimmed_at_the_walls() {
    let window = Window::new(pair(250.0, 4), 1, &[1, 2, 3, 4]);
    assert_eq!(
        window.become_of(&[1, 2, 3, 4]),
        ["left curtain, leading", "left curtain, outer", "right curtain, leading", "right curtain, outer"]
    );
    assert_eq!(
        window.block("TRIM"),
        ["[ ] 27 off the left of B    [ ] 27 off the right of D", "each is then 250 across"]
    );
    assert_eq!(window.block("SPLIT"), [""; 0]);
    // Two trims to a line.
    let four = Window::new(pair(250.0, 4), 2, &[1, 2, 3, 4, 5, 6, 7, 8]).block("TRIM");
    assert_eq!(four[1..], ["[ ] 27 off the left of F    [ ] 27 off the right of H", "each is then 250 across"]);
    assert_eq!(
        window.steps()[1..],
        [
            "Join, left to right as seen from the room: left curtain B A; right curtain C D. Each side of a join takes \
             1.5 cm.",
            "Trim 27 cm off the left of B, 27 cm off the right of D, so that each is 250 cm across.",
        ]
    );
    let strip = |drop, from, to| Strip { entry: 1, drop, from: cm(from), to: cm(to) };
    assert_eq!(window.strips(), [strip(2, 0.0, 27.0), strip(4, 113.0, 140.0)]);
}

/// A panel that is in no pair loses half of 27 cm at each side.
#[test]
fn single_panels_are_trimmed_at_both_sides() {
    let one = Window::new(spec(250.0, 4), 1, &[1, 2]);
    assert_eq!(one.become_of(&[1, 2]), ["panel, 1st from the left", "panel, 2nd from the left"]);
    assert_eq!(
        one.block("TRIM"),
        ["[ ] 13.5 off the left of A    [ ] 13.5 off the right of B", "each is then 250 across"]
    );
    assert_eq!(one.steps()[2], "Trim 13.5 cm off each side of the panel, so that it is 250 cm across.");
    let two = Window::new(Panels { count: 2, ..spec(250.0, 4) }, 1, &[1, 2, 3, 4]);
    assert_eq!(two.become_of(&[2, 3]), ["panel 1, 2nd from the left", "panel 2, 1st from the left"]);
    assert_eq!(two.steps()[2], "Trim 13.5 cm off each side of every panel, so that it is 250 cm across.");
    let strip = |drop, from, to| Strip { entry: 1, drop, from: cm(from), to: cm(to) };
    assert_eq!(one.strips(), [strip(1, 0.0, 13.5), strip(2, 126.5, 140.0)]);
}

/// 277 cm that two widths reach, less one nanometre, are not trimmed; less two they are. Halves are never trimmed: they
/// were cut to size, although one and a half widths reach 137 + 70 = 207 cm.
#[test]
fn nothing_is_trimmed_off_panels_that_are_right() {
    let trims = |short: f64| {
        let across = cm(277.0) - Length::from_steps(short);
        Window::new(Panels { across, ..pair(0.0, 4) }, 1, &[1, 2, 3, 4]).told(|panels| panels.trims().len())
    };
    assert_eq!([0.0, 1.0, 2.0].map(trims), [0, 0, 2]);
    let halves = Window::new(pair(200.0, 3), 1, &[1, 2, 3]);
    assert_eq!((halves.told(|panels| panels.trims().len()), halves.steps().len()), (0, 3));
    // Curtains of two widths that need no trim have two steps: cutting and joining.
    assert_eq!(Window::new(pair(277.0, 4), 1, &[1, 2, 3, 4]).steps().len(), 2);
}

/// Eight trims are told one by one, nine to ten together.
#[test]
fn many_trims_are_told_together() {
    let told = |garments: i64| {
        let order: Vec<i64> = (1..=garments * 2).collect();
        Window::new(pair(130.0, 2), garments, &order).steps().pop().unwrap()
    };
    let four = "Trim 10 cm off the left of A, 10 cm off the right of B, 10 cm off the left of C, 10 cm off the right of D, \
                10 cm off the left of E, 10 cm off the right of F, 10 cm off the left of G, 10 cm off the right of H, so \
                that each is 130 cm across.";
    assert_eq!(told(4), four);
    assert_eq!(told(5), "Trim 10 cm off the wall side of every curtain, so that it is 130 cm across.");
}
