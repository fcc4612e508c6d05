//! Pinned cuts in whole nanometres: which of them can stay, which pieces they are, what is left of their lengths; by hand.

use super::scene::{cloth, cut_length, full, nm, oblong, placed, prepared};
use super::*;
use crate::cutting::nanometre::MOST_LAID;
use crate::cutting::place::layout::{CutLength, Layout, Patch};
use crate::cutting::task::pins::Pins;

fn pin(stock: &str, piece: &str, marks: [i64; 4]) -> PinnedCut {
    let [from, to, across_from, across_to] = marks.map(nm);
    PinnedCut {
        stock: stock.into(),
        piece: piece.into(),
        order: None,
        from,
        to,
        across_from,
        across_to,
        lie: Lie::Along,
        reversed: false,
        mirrored: false,
        through: Layers::One,
    }
}

/// Pieces and pins on cloth 100 wide with a length S of 100 and as much new cloth as needed.
struct Case {
    pieces: Vec<CutPiece>,
    goods: Goods,
    stock: Vec<StockLength>,
    manner: CuttingManner,
}

/// Where each pinned length is: its source, its number, its end, and its pieces by entry, number, from and across from.
type Fixed = (usize, Option<i64>, i64, Vec<(usize, i64, i64, i64)>);

impl Case {
    fn of(pieces: &[CutPiece], pins: &[PinnedCut]) -> Self {
        let manner = CuttingManner { pinned: pins.to_vec(), ..CuttingManner::default() };
        Self { pieces: pieces.to_vec(), goods: cloth(100), stock: vec![StockLength::new("S", nm(100))], manner }
    }

    fn task(&self) -> CuttingTask<'_> {
        let Self { pieces, goods, stock, manner } = self;
        CuttingTask { pieces, goods, stock, supply: &Supply::Endless, manner }
    }

    fn pins(&self) -> Pins {
        let task = self.task();
        let prepared = prepared(&task);
        Pins::of(&task, &prepared.sources, &prepared.groups)
    }

    fn fixed(&self) -> Vec<Fixed> {
        let pins = self.pins();
        let told = |one: &CutLength| {
            let placed = one.placed.iter().map(|one| (one.entry, one.number, one.from, one.across_from));
            (one.source, one.number, one.end, placed.collect())
        };
        pins.fixed.iter().map(told).collect()
    }

    fn dropped(&self) -> Vec<String> {
        self.pins().dropped.into_iter().collect()
    }

    /// Length, free mark and number of each source, and whether the pattern on it is settled.
    fn rest(&self) -> Vec<(i64, i64, Option<i64>, bool)> {
        let task = self.task();
        let prepared = prepared(&task);
        let rest = self.pins().rest_of(&prepared.sources, prepared.measures);
        rest.iter().map(|source| (source.length, source.opened_at, source.most, source.settled)).collect()
    }
}

#[test]
fn pinned_cuts_take_the_first_pieces_of_their_name() {
    let panels = [oblong("panel", 3, 40, 30), oblong("cuff", 1, 20, 15)];
    let pins =
        [pin("S", "panel", [0, 40, 0, 30]), pin("S", "cuff", [0, 20, 30, 45]), pin("S", "panel", [50, 90, 20, 50])];
    let case = Case::of(&panels, &pins);
    assert_eq!(case.fixed(), [(0, Some(1), 90, vec![(0, 1, 0, 0), (1, 1, 0, 30), (0, 2, 50, 20)])]);
    assert!(case.dropped().is_empty());
    let placed: Vec<(usize, Vec<i64>)> =
        case.pins().placed.into_iter().map(|(entry, numbers)| (entry, numbers.into_iter().collect())).collect();
    assert_eq!(placed, [(0, vec![1, 2]), (1, vec![1])]);
    // 10 of the length are free behind 90; there is no other length of the shelf.
    let new = (MOST_LAID, 0, Some(1), false);
    assert_eq!(case.rest(), [(100, 0, Some(0), false), new, (10, 90, Some(1), false)]);
    let lossy = |loss| Case { goods: Goods { loss_per_cut: nm(loss), ..cloth(100) }, ..Case::of(&panels, &pins) };
    assert_eq!(lossy(3).rest()[2], (7, 93, Some(1), false));
    assert_eq!(lossy(13).rest()[2], (0, 103, Some(1), false));
}

#[test]
fn a_pinned_cut_stays_only_where_it_lies_clear_on_its_length() {
    let first = [0, 40, 20, 50];
    // 40 by 30 on a length of 100 by 100, beside or behind another.
    for (marks, stays) in [
        ([40, 80, 20, 50], true),
        ([39, 79, 20, 50], false),
        ([0, 40, 50, 80], true),
        ([0, 40, 49, 79], false),
        ([39, 79, 50, 80], true),
        ([60, 100, 70, 100], true),
        ([61, 101, 70, 100], false),
        ([60, 100, 71, 101], false),
        ([-1, 39, 60, 90], false),
        ([50, 90, -1, 29], false),
        // Another size, and one with its sides the other way round.
        ([50, 91, 0, 30], false),
        ([50, 90, 0, 31], false),
        ([50, 80, 0, 40], false),
    ] {
        for turned in [false, true] {
            let mut pins = vec![pin("S", "panel", first), pin("S", "panel", marks)];
            if turned {
                pins.reverse();
            }
            let case = Case::of(&[oblong("panel", 3, 40, 30)], &pins);
            let held: usize = case.fixed().iter().map(|fixed| fixed.3.len()).sum();
            let is_sound = case.dropped().is_empty() == stays;
            assert!(is_sound && held == 1 + usize::from(stays), "{marks:?}");
        }
    }
    // On a second length of that name it lies clear.
    let mut two = Case::of(&[oblong("panel", 3, 40, 30)], &[pin("S", "panel", first), pin("S", "panel", first)]);
    assert_eq!(two.dropped(), ["panel"]);
    two.stock[0].count = 3;
    assert_eq!(two.rest()[0].2, Some(1));
    two.stock[0].count = 2;
    assert_eq!(two.fixed(), [(0, Some(1), 40, vec![(0, 1, 0, 20)]), (0, Some(2), 40, vec![(0, 2, 0, 20)])]);
    assert_eq!(two.rest()[0].2, Some(0));
    two.stock.push(StockLength::new("S", nm(100)));
    two.manner.pinned.push(pin("S", "panel", first));
    assert_eq!(
        two.fixed().iter().map(|fixed| (fixed.0, fixed.1)).collect::<Vec<_>>(),
        [(0, Some(1)), (0, Some(2)), (1, Some(1))]
    );
}

#[test]
fn a_pinned_cut_is_of_its_piece_or_dropped() {
    let panel = || oblong("panel", 1, 40, 30);
    let whole = || pin("S", "panel", [0, 40, 0, 30]);
    let stays = |piece: CutPiece, pin: PinnedCut| Case::of(&[piece], &[pin]).dropped().is_empty();
    assert!(stays(panel(), whole()));
    assert!(stays(panel(), PinnedCut { reversed: true, ..whole() }));
    assert!(!stays(oblong("cuff", 1, 40, 30), whole()));
    assert!(!stays(oblong("panel", 0, 40, 30), whole()));
    assert!(!stays(panel(), PinnedCut { stock: "T".into(), ..whole() }));
    assert!(!stays(panel(), PinnedCut { order: Some("7".into()), ..whole() }));
    assert!(!stays(CutPiece { order: Some("7".into()), ..panel() }, whole()));
    assert!(!stays(panel(), PinnedCut { lie: Lie::Across, ..whole() }));
    assert!(!stays(panel(), PinnedCut { through: Layers::Both, ..whole() }));
    // Marks are whole nanometres.
    for shift in [0.4, -0.4] {
        let between = |mark: Length| Length::from_steps(mark.steps() + shift);
        let (from, to) = (between(whole().from), between(whole().to));
        assert!(!stays(panel(), PinnedCut { from, to, ..whole() }));
    }
    let any = CutPiece { grain: Grain::Any, ..panel() };
    assert!(stays(any, PinnedCut { lie: Lie::Across, ..pin("S", "panel", [0, 30, 0, 40]) }));
    // Only as many as there are.
    let two = Case::of(&[panel()], &[whole(), pin("S", "panel", [40, 80, 0, 30])]);
    assert_eq!(two.fixed(), [(0, Some(1), 40, vec![(0, 1, 0, 0)])]);
    assert_eq!(two.dropped(), ["panel"]);
    // A mirrored one is an even one.
    let pair = CutPiece { mirrored: true, ..oblong("panel", 4, 40, 30) };
    let mirrored = |marks| PinnedCut { mirrored: true, ..pin("S", "panel", marks) };
    let case = Case::of(&[pair], &[mirrored([0, 40, 0, 30]), whole_at(40), mirrored([0, 40, 30, 60])]);
    assert_eq!(case.fixed()[0].3, [(0, 2, 0, 0), (0, 1, 40, 0), (0, 4, 0, 30)]);
    // Boxes on the bias may overlap, since what lies in them need not: √½ · 70 is 49.
    let bias = CutPiece { grain: Grain::Bias, ..oblong("panel", 2, 40, 30) };
    let at = |from: i64| PinnedCut { lie: Lie::Bias, ..pin("S", "panel", [from, from + 49, 0, 49]) };
    assert_eq!(Case::of(&[bias], &[at(0), at(30)]).fixed()[0].3.len(), 2);
}

fn whole_at(from: i64) -> PinnedCut {
    pin("S", "panel", [from, from + 40, 0, 30])
}

#[test]
fn without_pins_only_pieces_of_the_list_are_told_as_dropped() {
    let case =
        Case::of(&[oblong("panel", 1, 40, 30), full("band", 1, 40)], &[whole_at(0), pin("S", "cuff", [0, 9, 0, 9])]);
    let pins = Pins::none_of(&case.task());
    assert_eq!(pins.dropped.into_iter().collect::<Vec<_>>(), ["panel"]);
    assert!(pins.fixed.is_empty() && pins.placed.is_empty());
}

#[test]
fn pinned_cuts_on_folded_cloth_keep_it_folded() {
    let pair = CutPiece { mirrored: true, ..oblong("panel", 2, 40, 30) };
    let both = PinnedCut { through: Layers::Both, ..whole_at(0) };
    let mut case = Case::of(&[pair], &[both.clone(), PinnedCut { mirrored: true, ..whole_at(40) }]);
    case.manner.laid = Laid::Folded;
    let pins = case.pins();
    assert!(pins.dropped.is_empty() && pins.fixed.iter().all(|fixed| fixed.folded));
    assert_eq!(pins.fixed[0].placed[0].through, Layers::Both);
    case.manner.laid = Laid::Open;
    case.manner.pinned.remove(0);
    assert!(!case.pins().fixed[0].folded);
}

/// The repeat is 16 and a drop 40, two and a half of them. One shift on is 8 later. Of drops with no shift and two with one, cut at
/// 0, 40 and 80, the middle one has none: so where none starts is 8 behind mark 0. Two of them tell nothing, so the first
/// of the list is the first.
#[test]
fn the_pattern_starts_where_the_most_cuts_can_stay() {
    let drops = |shifts: &[i64]| CutPiece {
        matching: Some(Matching::Shifts(shifts.to_vec())),
        ..full("drop", crate::quantity::number::from_size(shifts.len()), 40)
    };
    let at = |from: i64| pin("new cloth", "drop", [from, from + 40, 0, 100]);
    let case = |shifts: &[i64], marks: &[i64], loss| Case {
        goods: Goods { repeat: Some(Repeat::half_drop(nm(16))), loss_per_cut: nm(loss), ..cloth(100) },
        stock: Vec::new(),
        ..Case::of(&[drops(shifts)], &marks.iter().map(|from| at(*from)).collect::<Vec<_>>())
    };
    let three = case(&[0, 1, 1], &[0, 40, 80], 0);
    assert_eq!(three.fixed(), [(0, Some(1), 120, vec![(0, 2, 0, 0), (0, 1, 40, 0), (0, 3, 80, 0)])]);
    assert!(three.dropped().is_empty());
    // Behind 120 a drop without a shift may start at once, 120 being 8 and seven repeats; behind 123 at 136.
    assert_eq!((three.rest()[1].1, three.rest()[1].3), (120, true));
    assert_eq!(case(&[0, 1, 1], &[0, 40, 80], 3).rest()[1].1, 136);
    let two = case(&[0, 1], &[0, 40], 0);
    assert_eq!(two.fixed(), [(0, Some(1), 80, vec![(0, 1, 0, 0), (0, 2, 40, 0)])]);
    assert_eq!(two.rest()[1].1, 80);
    // What agrees with no start of the others is dropped.
    let off = case(&[0, 1, 1], &[0, 40, 81], 0);
    assert_eq!((off.fixed()[0].3.len(), off.dropped()), (2, vec!["drop".to_owned()]));
    // Nothing matched settles no pattern: the length is free right behind the cut.
    let mut plain = case(&[0], &[], 5);
    plain.pieces.push(full("band", 1, 30));
    plain.manner.pinned = vec![pin("new cloth", "band", [0, 30, 0, 100])];
    assert_eq!((plain.rest()[1].1, plain.rest()[1].3), (35, false));
}

/// Cuts up to 90, 3 lost: what is planned on the rest of the length from its mark 0 lies 93 further on.
#[test]
fn the_rest_is_joined_behind_the_pinned_cuts() {
    let mut case = Case::of(&[oblong("panel", 3, 40, 30)], &[pin("S", "panel", [50, 90, 20, 50])]);
    case.stock[0].along = nm(200);
    case.goods.loss_per_cut = nm(3);
    let task = case.task();
    let measures = prepared(&task).measures;
    let mut rest = cut_length(2, vec![placed(0, 2, (0, 5), (40, 30)), placed(0, 3, (41, 6), (40, 30))]);
    rest.offcuts = vec![Patch { from: 1, to: 31, across_from: 60, across_to: 100 }];
    let other = cut_length(1, vec![placed(0, 2, (7, 8), (40, 30))]);
    let layout = Layout { cut_lengths: vec![other, rest], by_outline: true };
    let joined = case.pins().joined_to(layout, 2, measures);
    assert!(joined.by_outline);
    let told = |one: &CutLength| {
        let placed = one.placed.iter().map(|one| (one.number, one.from, one.across_from)).collect::<Vec<_>>();
        (one.source, one.end, placed, one.offcuts.clone())
    };
    let offcut = Patch { from: 94, to: 124, across_from: 60, across_to: 100 };
    assert_eq!(
        joined.cut_lengths.iter().map(told).collect::<Vec<_>>(),
        [(0, 174, vec![(1, 50, 20), (2, 93, 5), (3, 134, 6)], vec![offcut]), (1, 47, vec![(2, 7, 8)], vec![]),]
    );
}
