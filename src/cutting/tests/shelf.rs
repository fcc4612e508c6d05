//! The shelf before new goods, the shortest length that serves first: held against every way of placing the pieces.

use super::*;
use crate::cutting::plan::{CuttingPlan, PlanNote, StockSource};
use proptest::prelude::*;

/// Pieces by the length, shelf lengths, and what is new: put-ups of a length, or cut off as needed.
#[derive(Clone, Debug)]
struct Scene {
    pieces: Vec<i64>,
    shelf: Vec<(i64, i64)>,
    put_up: Option<i64>,
    keep_from: Option<i64>,
    cloth: bool,
    /// The order in which the shelf is listed.
    shuffled: bool,
}

fn any_scene() -> impl Strategy<Value = Scene> {
    let piece = 1..=40_i64;
    let length = prop_oneof![4 => 1..=60_i64, 1 => 60..=400_i64];
    let shelf = prop::collection::vec((length, 1..=2_i64), 0..=3);
    let put_up = prop_oneof![Just(None), (40..=120_i64).prop_map(Some)];
    let keep_from = prop_oneof![Just(None), Just(Some(0)), Just(Some(5)), Just(Some(30))];
    (prop::collection::vec(piece, 1..=5), shelf, put_up, keep_from, any::<bool>(), any::<bool>()).prop_map(
        |(pieces, shelf, put_up, keep_from, cloth, shuffled)| Scene {
            pieces,
            shelf,
            put_up,
            keep_from,
            cloth,
            shuffled,
        },
    )
}

/// What a choice buys, and how far it fills the shelf, the shortest length first: less is better.
type Choice = (i64, Vec<i64>);

impl Scene {
    /// Every single length of the shelf, the shortest first.
    fn lengths(&self) -> Vec<i64> {
        let mut all: Vec<i64> = self.shelf.iter().flat_map(|(length, count)| (0..*count).map(|_| *length)).collect();
        all.sort_unstable();
        all
    }

    fn put_ups(&self, pieces: &[i64]) -> i64 {
        fn go(pieces: &[i64], room: &mut Vec<i64>, put_up: i64) -> usize {
            let Some((piece, rest)) = pieces.split_first() else { return room.len() };
            let mut least = usize::MAX;
            for place in 0..room.len() {
                if room[place] >= *piece {
                    room[place] -= piece;
                    least = least.min(go(rest, room, put_up));
                    room[place] += piece;
                }
            }
            room.push(put_up - piece);
            least = least.min(go(rest, room, put_up));
            room.pop();
            least
        }
        match self.put_up {
            None => pieces.iter().sum(),
            Some(put_up) => i64::try_from(go(pieces, &mut Vec::new(), put_up)).unwrap(),
        }
    }

    /// The best choice, by trying every piece on every length.
    fn best(&self) -> Choice {
        let lengths = self.lengths();
        let places = lengths.len() + 1;
        let all = places.pow(u32::try_from(self.pieces.len()).unwrap());
        let choice = |mut number: usize| -> Option<Choice> {
            let (mut filled, mut new) = (vec![0; lengths.len()], Vec::new());
            for piece in &self.pieces {
                match filled.get_mut(number % places) {
                    Some(filled) => *filled += piece,
                    None => new.push(*piece),
                }
                number /= places;
            }
            let fits = filled.iter().zip(&lengths).all(|(filled, length)| filled <= length);
            fits.then(|| (self.put_ups(&new), filled.iter().map(|filled| -filled).collect()))
        };
        (0..all).filter_map(choice).min().unwrap()
    }

    fn planned(&self) -> CuttingPlan {
        let whole = |length: i64| inches(number_of(length));
        let pieces: Vec<CutPiece> = self
            .pieces
            .iter()
            .enumerate()
            .map(|(place, along)| CutPiece::new(&format!("p{place}"), 1, Shape::FullWidth { along: whole(*along) }))
            .collect();
        let kind = if self.cloth { GoodsKind::Cloth } else { GoodsKind::Roll };
        let goods = Goods { kind, put_up: self.put_up.map(whole), ..Goods::cloth(inches(6.0)) };
        let mut stock: Vec<StockLength> = self
            .shelf
            .iter()
            .enumerate()
            .map(|(place, (along, count))| StockLength {
                count: *count,
                remnant: self.put_up.is_some_and(|put_up| *along < put_up),
                ..StockLength::new(&format!("S{place}"), whole(*along))
            })
            .collect();
        if self.shuffled {
            stock.reverse();
        }
        let manner = CuttingManner {
            keep_from: self.keep_from.map(whole),
            effort: Effort::of(3_000),
            ..CuttingManner::default()
        };
        let task =
            CuttingTask { pieces: &pieces, goods: &goods, stock: &stock, supply: &Supply::Endless, manner: &manner };
        plan(&task, Watch::silent(&AtomicBool::new(false))).unwrap()
    }

    /// The choice that a plan makes.
    fn choice(&self, plan: &CuttingPlan) -> Choice {
        let inches = |length: Length| crate::quantity::number::nearest_whole(length.in_inches()).unwrap();
        let mut filled: Vec<(i64, i64)> = Vec::new();
        let mut new = 0;
        for used in &plan.uses {
            match (used.source, self.put_up) {
                (StockSource::Shelf { .. }, _) => filled.push((inches(used.length), -inches(used.used))),
                (StockSource::New { .. }, Some(_)) => new += 1,
                (StockSource::New { .. }, None) => new += inches(used.used),
            }
        }
        // What is not cut is not filled.
        for length in self.lengths() {
            let count = |list: &[(i64, i64)]| list.iter().filter(|(one, _)| *one == length).count();
            if count(&filled) < self.lengths().iter().filter(|one| **one == length).count() {
                filled.push((length, 0));
            }
        }
        filled.sort_unstable();
        (new, filled.into_iter().map(|(_, filled)| filled).collect())
    }
}

fn number_of(whole: i64) -> f64 {
    crate::quantity::number::from_whole(whole)
}

/// Fills of equal lengths in the order of what they hold, because it is all the same which of them is cut.
fn sorted(scene: &Scene, (new, fills): Choice) -> Choice {
    let mut all: Vec<(i64, i64)> = scene.lengths().into_iter().zip(fills).collect();
    all.sort_unstable();
    (new, all.into_iter().map(|(_, filled)| filled).collect())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// New goods are bought only as far as no choice of shelf lengths serves, and of all choices that buy as little the
    /// plan fills the shortest length the furthest, then the next, whatever leftovers are worth.
    #[test]
    fn the_shelf_serves_what_it_can_the_shortest_first(scene in any_scene()) {
        let plan = scene.planned();
        let best = sorted(&scene, scene.best());
        let found = scene.choice(&plan);
        let all: i64 = scene.pieces.iter().sum();
        let laid: i64 = plan.uses.iter().map(|used| crate::quantity::number::nearest_whole(used.used.in_inches()).unwrap()).sum();
        prop_assert_eq!(laid, all);
        prop_assert_eq!(found.0, best.0, "{:?}", plan.uses);
        // Where a put-up is opened anyway, what is left of it counts too, as far as leftovers do.
        if found.0 == 0 || scene.put_up.is_none() || scene.keep_from.is_none() {
            prop_assert_eq!(found, best, "{:?}", plan.uses);
        }
    }
}

/// By hand: a strip of 6 in on 12 and 10 in of which leftovers below 5 in are waste: the 10 in is the shortest that
/// serves. Two strips of 6 in on 12, 8 and 7 in: one each from the 7 and the 8. Five on 6 1/2 and 100 in: one from the
/// short one.
#[test]
fn the_shortest_length_that_serves_is_cut_first() {
    let uses = |count: i64, lengths: &[f64], keep_from: Option<f64>| -> Vec<(f64, usize)> {
        let stock: Vec<StockLength> =
            lengths.iter().map(|length| StockLength::new(&format!("E{length}"), inches(*length))).collect();
        let pieces = [strips(count, inches(6.0))];
        let goods = Goods { put_up: None, ..tulle() };
        let manner = CuttingManner { keep_from: keep_from.map(inches), ..CuttingManner::default() };
        let task =
            CuttingTask { pieces: &pieces, goods: &goods, stock: &stock, supply: &Supply::Endless, manner: &manner };
        let plan = plan(&task, Watch::silent(&AtomicBool::new(false))).unwrap();
        plan.uses.iter().map(|used| (used.length.in_inches(), used.cuts.len())).collect()
    };
    for keep_from in [None, Some(0.0), Some(5.0)] {
        assert_eq!(uses(1, &[12.0, 10.0], keep_from), [(10.0, 1)], "{keep_from:?}");
        assert_eq!(uses(2, &[12.0, 8.0, 7.0], keep_from), [(7.0, 1), (8.0, 1)], "{keep_from:?}");
        assert_eq!(uses(5, &[100.0, 6.5], keep_from), [(6.5, 1), (100.0, 4)], "{keep_from:?}");
    }
}

/// By hand: a price on the shelf is what was paid, and no reason to buy. 8 yd from a roll of 25 yd that cost $6.20,
/// although 10 yd are to be had for $3.
#[test]
fn a_dear_length_on_the_shelf_is_cut_before_cheap_new_goods() {
    let money = |cents: f64| Some(crate::quantity::Money::from_steps(cents * 100.0));
    let stock = [StockLength { price: money(620.0), ..StockLength::new("R1", Length::yards(25.0)) }];
    let offer = PutUp {
        name: "short roll".into(),
        along: Some(Length::yards(10.0)),
        across: None,
        price: money(300.0),
        most: None,
    };
    let (pieces, supply) = ([strips(8, Length::yards(1.0))], Supply::Offered(vec![offer]));
    for keep_from in [None, Some(Length::ZERO)] {
        let manner = CuttingManner { keep_from, ..CuttingManner::default() };
        let task = CuttingTask { pieces: &pieces, goods: &tulle(), stock: &stock, supply: &supply, manner: &manner };
        let plan = plan(&task, Watch::silent(&AtomicBool::new(false))).unwrap();
        assert_eq!(plan.uses.iter().map(|used| used.stock.as_str()).collect::<Vec<_>>(), ["R1"], "{keep_from:?}");
    }
}

/// By hand: on cloth of 137 cm two panels of 60 by 67 cm lie side by side, 134 cm across, on 60 cm of length; two backs
/// of 62 by 67 cm take 62. Shelf lengths of 63 and 62 cm hold them all.
#[test]
fn cloth_on_the_shelf_serves_before_new_cloth() {
    let stock = [StockLength::new("C2", cm(63.0)), StockLength::new("C1", cm(62.0))];
    let pieces = [rectangle("panel", 2, cm(60.0), cm(67.0)), rectangle("back", 2, cm(62.0), cm(67.0))];
    let plan = planned(&pieces, &Goods::cloth(cm(137.0)), &stock, &Supply::Endless).unwrap();
    assert!(plan.bought.is_empty(), "{:?}", plan.uses);
}

/// By hand: garments of one, two and two strips of 54 in. L1 holds 110 in, two strips; L2 holds 170 in, three. Filled in
/// the order of the list, L1 takes the first garment and then no other; all three go only if it takes one of the others.
#[test]
fn garments_are_shared_out_so_that_nothing_need_be_bought() {
    let lot = |name: &str, lot: &str, along| StockLength { lot: Some(lot.into()), ..StockLength::new(name, along) };
    let garment = |order: &str, count| CutPiece {
        order: Some(order.into()),
        ..CutPiece::new(&format!("strip of {order}"), count, Shape::FullWidth { along: inches(54.0) })
    };
    let pieces = [garment("a", 1), garment("b", 2), garment("c", 2)];
    let stock = [lot("B1", "L1", inches(110.0)), lot("B2", "L2", inches(170.0))];
    let plan = planned(&pieces, &tulle(), &stock, &Supply::Endless).unwrap();
    assert!(plan.bought.is_empty(), "{:?}", plan.uses);
    assert!(plan.notes.is_empty(), "{:?}", plan.notes);
}

/// By hand: the lot of 60 in holds one strip of the two that a garment takes, so both are bought; the plan says what it
/// left, and nothing of a length that holds no strip.
#[test]
fn what_a_lot_leaves_is_named() {
    let lot = |name: &str, lot: &str, along| StockLength { lot: Some(lot.into()), ..StockLength::new(name, along) };
    let stock = [lot("B1", "L1", inches(60.0)), lot("B2", "L2", inches(20.0)), StockLength::new("B3", inches(55.0))];
    let pieces = [CutPiece { per_garment: Some(2), ..strips(2, inches(54.0)) }];
    let plan = planned(&pieces, &tulle(), &stock, &Supply::Endless).unwrap();
    assert_eq!(plan.notes, [PlanNote::LotsApart { left: vec!["B3".into(), "B1 (lot L1)".into()] }]);
    assert_eq!(
        plan.notes[0].to_string(),
        "not used though more is bought: B3, B1 (lot L1); each garment is cut from one dye lot, and no lot left holds \
         one more"
    );
}

/// By hand: a strip of 100 in could be joined from 60 and 42 in of the shelf, but a new roll holds it whole, so it is bought; the
/// strip of 40 in comes off the shelf all the same. Without new rolls it is joined.
#[test]
fn nothing_is_joined_to_spare_new_goods() {
    let rule = JoinRule::new(1, inches(10.0), inches(1.0));
    let long = CutPiece { may_join: Some(rule), ..CutPiece::new("long", 1, Shape::FullWidth { along: inches(100.0) }) };
    let short = CutPiece::new("short", 1, Shape::FullWidth { along: inches(40.0) });
    let stock = [StockLength { count: 2, ..StockLength::new("S", inches(60.0)) }, StockLength::new("T", inches(45.0))];
    let made = |pieces: &[CutPiece], supply: &Supply| {
        let plan = planned(pieces, &tulle(), &stock, supply).unwrap();
        (plan.joins("long"), plan.put_ups_bought())
    };
    for pieces in [vec![long.clone(), short.clone()], vec![long.clone()]] {
        assert_eq!(made(&pieces, &Supply::Endless), (0, 1));
        assert_eq!(made(&pieces, &Supply::ShelfOnly), (1, 0));
    }
    // New rolls of 90 in do not hold it whole either: then it is joined from the shelf.
    let rolls = Goods { put_up: Some(inches(90.0)), ..tulle() };
    let plan = planned(&[long, short], &rolls, &stock, &Supply::Endless).unwrap();
    assert_eq!((plan.joins("long"), plan.put_ups_bought()), (1, 0));
}

/// By hand, in whole nanometres, without any other planner: the cases above, and one of several lengths. 9, or 5 and 4, fill
/// a length of 9; only if it is the 9 is there a 5 to fill the length of 5, and the 4 comes off the length of 12.
#[test]
fn the_shelf_is_filled_the_shortest_first_by_trying_everything() {
    use super::scene::{cloth, full, new, nm, prepared, shelf};
    use crate::cutting::place::layout::CutLength;
    use crate::cutting::search::cost_model::CostModel;
    use crate::cutting::search::shelf_first;
    use crate::cutting::task::source::Source;
    let planned = |sizes: &[i64], sources: &[Source], loss| {
        let goods = Goods { loss_per_cut: nm(loss), ..cloth(100) };
        let pieces: Vec<CutPiece> = sizes.iter().map(|size| full("strip", 1, *size)).collect();
        let task = task(&pieces, &goods, &[], &Supply::Endless);
        let prepared = prepared(&task);
        let model = CostModel::of(sources, prepared.measures, task.manner);
        let layout = shelf_first::plan(&prepared.groups, sources, prepared.measures, &model)?;
        let one = |one: &CutLength| {
            (one.source, one.placed.iter().map(|one| (one.from, one.extent.along)).collect::<Vec<_>>())
        };
        Some(layout.cut_lengths.iter().map(one).collect::<Vec<_>>())
    };
    let bolts = |length| new(0, length, 100);
    let on = |entry, length| shelf(entry, length, 100);
    assert_eq!(planned(&[6], &[on(0, 12), on(1, 10), bolts(30)], 0), Some(vec![(1, vec![(0, 6)])]));
    let two = [on(0, 12), on(1, 8), on(2, 7), bolts(30)];
    assert_eq!(planned(&[6, 6], &two, 0), Some(vec![(1, vec![(0, 6)]), (2, vec![(0, 6)])]));
    let three = [on(0, 12), on(1, 9), on(2, 5), bolts(30)];
    assert_eq!(planned(&[9, 5, 4], &three, 0), Some(vec![(0, vec![(0, 4)]), (1, vec![(0, 9)]), (2, vec![(0, 5)])]));
    // With 1 lost at a cut 12 hold 6 and 5; 13 hold two of 6 and 12 do not.
    assert_eq!(planned(&[6, 5], &[on(0, 12), bolts(30)], 1), Some(vec![(0, vec![(0, 6), (7, 5)])]));
    assert_eq!(planned(&[6, 6], &[on(0, 13), bolts(30)], 1), Some(vec![(0, vec![(0, 6), (7, 6)])]));
    assert_eq!(planned(&[6, 6], &[on(0, 12), bolts(30)], 1), Some(vec![(0, vec![(0, 6)]), (1, vec![(0, 6)])]));
    // New lengths: as few as there can be, 20 + 10 and 20 + 10 of 30, each full; and as needed all on one.
    let full_ones = planned(&[20, 20, 10, 10], &[on(0, 5), bolts(30)], 0).unwrap();
    assert_eq!(full_ones, [(1, vec![(0, 20), (20, 10)]), (1, vec![(0, 20), (20, 10)])]);
    let needed = Source { as_needed: true, most: Some(1), ..bolts(9_000) };
    assert_eq!(planned(&[20, 10], &[on(0, 15), needed], 0), Some(vec![(0, vec![(0, 10)]), (1, vec![(0, 20)])]));
    // Nothing on the shelf, a price on it, a limit to new goods, or a shelf opened by pinned cuts: others plan that.
    let priced = |source| Source { price: Some(crate::quantity::Money::from_steps(5.0)), ..source };
    let some = Source { most: Some(2), ..bolts(30) };
    for sources in [
        vec![bolts(30)],
        vec![priced(on(0, 12)), bolts(30)],
        vec![on(0, 12), some],
        vec![Source { opened_at: 3, ..on(0, 12) }, bolts(30)],
        // Nothing holds it.
        vec![on(0, 5), bolts(5)],
        vec![shelf(0, 12, 99), bolts(30)],
    ] {
        assert_eq!(planned(&[6], &sources, 0), None, "{sources:?}");
    }
    assert!(planned(&[6], &[on(0, 12), priced(bolts(30))], 0).is_some());
}
