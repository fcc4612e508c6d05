//! A pinned cut stays where an earlier plan had it, if it still can; otherwise the plan has a note of it.

use super::hand::{HandPlan, only, sound, whole};
use super::*;
use crate::cutting::plan::PlanNote;
use crate::cutting::verify::PlanError;

/// Two panels on cloth; the second lies away from the first and is pinned there.
fn scene(stock: &str) -> (HandPlan, Vec<Cut>) {
    let panel = CutPiece { order: Some("7".into()), ..rectangle("panel", 2, cm(40.0), cm(30.0)) };
    let mut hand = HandPlan::cloth(100.0, vec![panel]);
    hand.stock = vec![StockLength::new("B1", cm(100.0))];
    let cuts = vec![hand.cut(0, 1, [0.0, 40.0, 0.0, 30.0]), hand.cut(0, 2, [50.0, 90.0, 20.0, 50.0])];
    hand.manner.pinned = vec![PinnedCut::of(stock, &cuts[1])];
    (hand, cuts)
}

fn moved(error: &PlanError) -> bool {
    matches!(error, PlanError::NotKept { .. })
}

#[test]
fn a_pinned_piece_stays() {
    for stock in ["new cloth", "B1"] {
        let (mut hand, cuts) = scene(stock);
        let judged = |hand: &HandPlan, cuts: Vec<Cut>, note: Option<PlanNote>| {
            let used = if stock == "B1" { hand.off_the_shelf(0, cuts) } else { hand.new_cloth(cuts) };
            let mut plan = hand.plan(vec![used]);
            plan.notes.extend(note);
            hand.errors(&plan)
        };
        sound(&judged(&hand, cuts.clone(), None));
        let changes: [fn(&mut Cut); 3] = [
            |cut| (cut.from, cut.to) = (whole(40.0), whole(80.0)),
            |cut| (cut.across_from, cut.across_to) = (whole(21.0), whole(51.0)),
            |cut| cut.reversed = true,
        ];
        for change in changes {
            let mut other = cuts.clone();
            change(&mut other[1]);
            only(&judged(&hand, other.clone(), None), moved);
            let note = PlanNote::PinDropped { piece: "panel".into() };
            assert_eq!(note.to_string(), "panel no longer lies where the earlier plan had it");
            sound(&judged(&hand, other.clone(), Some(note)));
            let another = PlanNote::PinDropped { piece: "cuff".into() };
            only(&judged(&hand, other, Some(another)), moved);
        }
        // On another length than the pinned one it counts as moved.
        hand.manner.pinned[0].stock = if stock == "B1" { "new cloth".into() } else { "B1".into() };
        only(&judged(&hand, cuts, None), moved);
    }
}

#[test]
fn what_is_no_longer_possible_need_not_stay() {
    let changes: [fn(&mut HandPlan); 8] = [
        |hand| hand.manner.pinned[0].piece = "cuff".into(),
        |hand| hand.manner.pinned[0].order = None,
        |hand| hand.manner.pinned[0].stock = "B9".into(),
        |hand| hand.manner.pinned[0].stock = "new roll 1".into(),
        |hand| hand.manner.pinned[0].to = cm(95.0),
        |hand| hand.manner.pinned[0].lie = Lie::Across,
        |hand| hand.manner.pinned[0].through = Layers::Both,
        |hand| {
            hand.manner.pinned[0].stock = "B1".into();
            hand.stock[0].along = cm(89.0);
        },
    ];
    for (place, change) in changes.iter().enumerate() {
        let (mut hand, mut cuts) = scene("new cloth");
        (cuts[1].from, cuts[1].to) = (cm(40.0), cm(80.0));
        only(&hand.on_cloth(cuts.clone()), moved);
        change(&mut hand);
        assert_eq!(hand.on_cloth(cuts), [], "change {place}");
    }
}

/// Own arithmetic, as for the same drops unpinned: with two of three drops on the second start, one of those comes first, at
/// mark 0, and the others at 224 and 448 cm. Two on the second start alone lie at 0 and 256 cm, and the first start is half
/// a repeat on from theirs: behind 466 cm the next one is at 256 + 224 = 480 cm.
#[test]
fn drops_on_a_pattern_stay_wherever_their_length_begins_on_it() {
    let goods = Goods { repeat: Some(Repeat::half_drop(cm(64.0))), ..Goods::cloth(cm(137.0)) };
    let drops = |shifts: &[i64]| CutPiece {
        matching: Some(Matching::Shifts(shifts.to_vec())),
        ..CutPiece::new("drop", crate::quantity::number::from_size(shifts.len()), Shape::FullWidth { along: cm(210.0) })
    };
    let make_plan = plan;
    let plan = |pieces: &[CutPiece], pinned: Vec<PinnedCut>| {
        let manner = CuttingManner { effort: Effort::of(3_000), pinned, ..CuttingManner::default() };
        let task = CuttingTask { pieces, goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
        make_plan(&task, Watch::silent(&AtomicBool::new(false))).unwrap()
    };
    let all =
        |plan: &CuttingPlan| plan.uses[0].cuts.iter().map(|cut| PinnedCut::of("new cloth", cut)).collect::<Vec<_>>();
    let starts = |plan: &CuttingPlan| plan.uses[0].cuts.iter().map(|cut| cut.from.in_centimetres()).collect::<Vec<_>>();
    let three = [drops(&[0, 1, 1])];
    let first = plan(&three, Vec::new());
    assert_eq!(starts(&first), [0.0, 224.0, 448.0]);
    let again = plan(&three, all(&first));
    assert_eq!((starts(&again), again.notes.as_slice()), (starts(&first), &[PlanNote::MarksFromPattern][..]));
    let two = plan(&[drops(&[1, 1])], Vec::new());
    assert_eq!(starts(&two), [0.0, 256.0]);
    let more = plan(&[drops(&[1, 1, 0])], all(&two));
    assert_eq!((starts(&more), more.notes.as_slice()), (vec![0.0, 256.0, 480.0], &[PlanNote::MarksFromPattern][..]));
    // A drop may start right behind a pinned piece that is on no pattern.
    let band = CutPiece::new("band", 1, Shape::FullWidth { along: cm(100.0) });
    let alone = plan(std::slice::from_ref(&band), Vec::new());
    let both = plan(&[band, drops(&[0])], all(&alone));
    assert_eq!(starts(&both), [0.0, 100.0]);
}

/// Two panels of 40 on a length of 80, just as wide. One that is pinned at 20 leaves room for no other, so it is dropped.
#[test]
fn pins_that_leave_no_room_for_the_rest_are_dropped() {
    let pieces = [rectangle("panel", 2, cm(40.0), cm(30.0))];
    let hand = HandPlan { pieces: pieces.to_vec(), ..HandPlan::cloth(30.0, Vec::new()) };
    let stock = [StockLength::new("B1", cm(80.0))];
    let marks = |from: f64| {
        let pinned = vec![PinnedCut::of("B1", &hand.cut(0, 1, [from, from + 40.0, 0.0, 30.0]))];
        let manner = CuttingManner { effort: Effort::of(3_000), pinned, ..CuttingManner::default() };
        let goods = Goods::cloth(cm(30.0));
        let task =
            CuttingTask { pieces: &pieces, goods: &goods, stock: &stock, supply: &Supply::ShelfOnly, manner: &manner };
        let plan = plan(&task, Watch::silent(&AtomicBool::new(false))).unwrap();
        (plan.uses[0].cuts.iter().map(|cut| cut.from).collect::<Vec<_>>(), plan.notes)
    };
    let both = vec![cm(0.0), cm(40.0)];
    assert_eq!(marks(0.0), (both.clone(), vec![]));
    assert_eq!(marks(20.0), (both, vec![PlanNote::PinDropped { piece: "panel".into() }]));
}
