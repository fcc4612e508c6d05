//! Which lots there are, which pieces make a garment, and how garments are shared out to lots: all by hand.

use super::scene::{cloth, cut_length, new, oblong, placed, prepared, shelf};
use super::*;
use crate::cutting::place::layout::Layout;
use crate::cutting::plan::PlanNote;
use crate::cutting::task::lots::{
    Garment, Lot, are_partly_washed, garments, is_held_whole, kept_apart, lots, share_out, together,
};
use crate::cutting::task::source::Source;

fn of_lot(source: Source, lot: &str) -> Source {
    Source { lot: Some(lot.to_owned()), ..source }
}

fn washed(source: Source) -> Source {
    Source { washed: true, ..source }
}

fn named(mark: &str, washed: bool) -> Lot {
    Lot::Named { mark: mark.to_owned(), washed }
}

#[test]
fn the_lots_of_a_list_of_lengths() {
    let (plain, bought) = (shelf(0, 300, 90), new(0, 700, 90));
    let table: [(&[Source], &[Lot]); 9] = [
        // No lot is known and nothing is washed: nothing to keep apart.
        (&[], &[]),
        (&[plain.clone(), bought.clone()], &[]),
        // New goods last, though listed first; a lot once, however many lengths it has.
        (
            &[bought.clone(), of_lot(plain.clone(), "K"), of_lot(plain.clone(), "L"), of_lot(plain.clone(), "K")],
            &[named("K", false), named("L", false), Lot::New],
        ),
        (
            &[plain.clone(), of_lot(plain.clone(), "K"), bought.clone()],
            &[Lot::Unknown { washed: false }, named("K", false), Lot::New],
        ),
        // One lot, of which some is washed, counts as two.
        (&[of_lot(plain.clone(), "K"), of_lot(washed(plain.clone()), "K")], &[named("K", false), named("K", true)]),
        // No lot is known: what is washed, and all the rest, bought goods among it.
        (&[plain.clone(), washed(plain.clone()), bought.clone()], &[Lot::Unknown { washed: true }, Lot::Unwashed]),
        (&[washed(plain.clone()), bought.clone()], &[Lot::Unknown { washed: true }, Lot::Unwashed]),
        (&[washed(plain.clone())], &[Lot::Unknown { washed: true }]),
        (&[of_lot(plain.clone(), "K"), washed(plain)], &[named("K", false), Lot::Unknown { washed: true }]),
    ];
    for (sources, wanted) in table {
        assert_eq!(lots(sources), wanted, "{sources:?}");
    }
}

#[test]
fn what_a_lot_holds() {
    let plain = shelf(0, 300, 90);
    let lengths = [
        plain.clone(),
        washed(plain.clone()),
        of_lot(plain.clone(), "K"),
        of_lot(washed(plain.clone()), "K"),
        of_lot(plain, "L"),
        new(0, 700, 90),
    ];
    for (lot, wanted) in [
        (Lot::New, [5].as_slice()),
        (Lot::Unwashed, &[0, 2, 4, 5]),
        (Lot::Unknown { washed: false }, &[0]),
        (Lot::Unknown { washed: true }, &[1]),
        (named("K", false), &[2]),
        (named("K", true), &[3]),
        (named("L", false), &[4]),
        (named("L", true), &[]),
    ] {
        let held: Vec<usize> = (0..lengths.len()).filter(|place| lot.holds(&lengths[*place])).collect();
        assert_eq!(held, wanted, "{lot:?}");
        assert_eq!(lot.is_bought(), matches!(lot, Lot::New | Lot::Unwashed));
    }
}

#[test]
fn partly_washed_is_neither_all_nor_nothing() {
    let (plain, wet) = (shelf(0, 300, 90), washed(shelf(1, 300, 90)));
    assert!(!are_partly_washed(&[]));
    assert!(!are_partly_washed(&[plain.clone(), plain.clone()]));
    assert!(!are_partly_washed(&[wet.clone(), wet.clone()]));
    assert!(are_partly_washed(&[plain.clone(), wet.clone()]));
    assert!(are_partly_washed(&[wet.clone(), plain.clone(), wet.clone()]));
    assert!(are_partly_washed(&[plain.clone(), wet, plain]));
}

/// A piece of 40 by 30, and lengths that hold it or are a hair too short or too narrow.
#[test]
fn what_stays_on_the_shelf_is_named_only_if_it_holds_a_piece() {
    let (pieces, goods) = ([oblong("panel", 2, 40, 30)], cloth(90));
    let task = task(&pieces, &goods, &[], &Supply::Endless);
    let groups = prepared(&task).groups;
    let cut = |source: usize| cut_length(source, vec![placed(0, 1, (0, 0), (40, 30))]);
    let notes = |sources: &[Source], taken: &[usize], one_lot: bool| {
        let layout = Layout { cut_lengths: taken.iter().map(|source| cut(*source)).collect(), by_outline: false };
        kept_apart(sources, &groups, &layout, one_lot)
    };
    let apart = |left: &[&str]| PlanNote::LotsApart { left: left.iter().map(|left| (*left).to_owned()).collect() };
    let wet = |left: &[&str]| PlanNote::WashedApart { left: left.iter().map(|left| (*left).to_owned()).collect() };
    let two = |source: Source| Source { most: Some(2), ..source };
    let shelf_of = |entry, length, width| of_lot(shelf(entry, length, width), "K");
    let all = [shelf_of(0, 40, 30), shelf(1, 41, 31), washed(shelf(2, 40, 30)), new(0, 700, 90)];
    // Nothing is bought: nothing to tell, whatever is left.
    assert_eq!(notes(&all, &[0, 1], true), []);
    assert_eq!(notes(&all, &[3], true), [apart(&["S0 (lot K)", "S1"]), wet(&["S2"])]);
    assert_eq!(notes(&all, &[3], false), [wet(&["S2"])]);
    assert_eq!(notes(&all, &[0, 3, 2], true), [apart(&["S1"])]);
    assert_eq!(notes(&all, &[0, 1, 2, 3], true), []);
    // Of two lengths one is left.
    let pair = [two(shelf_of(0, 40, 30)), new(0, 700, 90)];
    assert_eq!(notes(&pair, &[0, 1], true), [apart(&["S0 (lot K)"])]);
    assert_eq!(notes(&pair, &[0, 0, 1], true), []);
    // A hair too short, a hair too narrow.
    for short in [shelf_of(0, 39, 30), shelf_of(0, 40, 29), shelf_of(0, 30, 40)] {
        assert_eq!(notes(&[short, new(0, 700, 90)], &[1], true), []);
    }
    // No lot is known: that a length is left has another reason.
    assert_eq!(notes(&[shelf(0, 40, 30), new(0, 700, 90)], &[1], true), []);
    // Another offer that is not taken buys nothing.
    assert_eq!(notes(&[shelf_of(0, 40, 30), new(0, 700, 90)], &[], true), []);

    assert!(is_held_whole(&[shelf(0, 10, 10), new(0, 40, 30)], &groups[0]));
    assert!(is_held_whole(&[new(0, 10, 10), new(0, 40, 30)], &groups[0]));
    assert!(!is_held_whole(&[shelf(0, 40, 30), new(0, 39, 30)], &groups[0]));
    assert!(!is_held_whole(&[new(0, 40, 29)], &groups[0]));
}

/// Two orders, one of two garments: two panels, a yoke and, counted by no garment, loops; the other has a bag of no
/// counted pieces.
#[test]
fn the_pieces_of_each_garment() {
    let of = |name: &str, count, order: &str, per_garment| CutPiece {
        order: Some(order.into()),
        per_garment,
        ..oblong(name, count, 40, 30)
    };
    let pieces = [
        of("panel", 4, "a", Some(2)),
        of("bag", 1, "b", None),
        of("yoke", 2, "a", Some(1)),
        of("loop", 3, "a", None),
        of("strap", 2, "b", Some(0)),
    ];
    let every = |entry: usize| (1..=pieces[entry].count).collect::<Vec<i64>>();
    let listed = |garments: &[Garment]| -> Vec<Vec<Vec<i64>>> {
        garments.iter().map(|garment| (0..pieces.len()).map(|entry| garment.numbers(entry)).collect()).collect()
    };
    let all = garments(&pieces, &every);
    assert_eq!(
        listed(&all),
        [
            [vec![1, 2], vec![], vec![1], vec![1, 2, 3], vec![]],
            [vec![3, 4], vec![], vec![2], vec![], vec![]],
            [vec![], vec![1], vec![], vec![], vec![1, 2]],
        ]
    );
    assert_eq!(all.iter().map(Garment::pieces).collect::<Vec<_>>(), [6, 3, 3]);
    // What is already cut is left out, and a garment of which all is cut.
    let rest = garments(&pieces, &|entry| match entry {
        0 => vec![3],
        3 => vec![],
        2 => vec![2],
        other => every(other),
    });
    assert_eq!(
        listed(&rest),
        [[vec![3], vec![], vec![2], vec![], vec![]], [vec![], vec![1], vec![], vec![], vec![1, 2]],]
    );
    assert_eq!(
        listed(&[together(&[&all[0], &all[1]])]),
        [[vec![1, 2, 3, 4], vec![], vec![1, 2], vec![1, 2, 3], vec![]]]
    );
}

/// The sizes on a lot.
type Sizes = (Lot, Vec<i64>);

/// Garments of these sizes, each of a list entry of its own, on lots of these sizes, and perhaps new goods.
struct Sharing {
    sizes: Vec<i64>,
    lots: Vec<i64>,
    new: Option<i64>,
}

impl Sharing {
    fn lots(&self) -> Vec<Lot> {
        let mut lots: Vec<Lot> = (0..self.lots.len()).map(|place| named(&place.to_string(), false)).collect();
        lots.extend(self.new.map(|_| Lot::New));
        lots
    }

    fn capacity(&self, lot: &Lot) -> i64 {
        match lot {
            Lot::Named { mark, .. } => self.lots[mark.parse::<usize>().unwrap()],
            _ => self.new.unwrap(),
        }
    }

    /// The sizes on each lot, and how often it is asked whether a lot holds something. With `alike` all garments are of
    /// one entry and of the first size.
    fn shared(&self, alike: bool) -> (Option<Vec<Sizes>>, usize) {
        let pieces: Vec<CutPiece> = if alike {
            let count = crate::quantity::number::from_size(self.sizes.len());
            vec![CutPiece { per_garment: Some(1), ..oblong("piece", count, 40, 30) }]
        } else {
            let of = |place: usize| CutPiece { order: Some(place.to_string()), ..oblong("piece", 1, 40, 30) };
            (0..self.sizes.len()).map(of).collect()
        };
        let garments = garments(&pieces, &|entry| (1..=pieces[entry].count).collect());
        assert_eq!(garments.len(), self.sizes.len());
        let size = |garment: &Garment| {
            let of = |entry: usize| if garment.numbers(entry).is_empty() { 0 } else { self.sizes[entry] };
            (0..self.sizes.len()).map(of).sum::<i64>()
        };
        let mut tries = 0;
        let mut holds = |lot: &Lot, some: &[&Garment]| -> Result<bool, CuttingError> {
            tries += 1;
            Ok(some.iter().map(|garment| size(garment)).sum::<i64>() <= self.capacity(lot))
        };
        let lots = self.lots();
        let shares = share_out(&lots, &garments, &size, &mut holds).unwrap();
        let told = shares.map(|shares| {
            let sized = |garments: Vec<&Garment>| garments.into_iter().map(size).collect();
            shares.into_iter().map(|(lot, garments)| (lot.clone(), sized(garments))).collect()
        });
        (told, tries)
    }
}

#[test]
fn garments_are_shared_out_in_turn_and_what_is_left_is_bought() {
    let shared = |sizes: &[i64], lots: &[i64], new: Option<i64>| {
        Sharing { sizes: sizes.to_vec(), lots: lots.to_vec(), new }.shared(false).0
    };
    let of = |place: usize, sizes: &[i64]| (named(&place.to_string(), false), sizes.to_vec());
    let bought = |sizes: &[i64]| (Lot::New, sizes.to_vec());
    assert_eq!(shared(&[5, 4, 3], &[9], None), None);
    assert_eq!(shared(&[5, 4, 3], &[9], Some(2)), None);
    assert_eq!(shared(&[5, 4, 3], &[9], Some(3)), Some(vec![of(0, &[5, 4]), bought(&[3])]));
    assert_eq!(shared(&[5, 4, 3], &[12], Some(3)), Some(vec![of(0, &[5, 4, 3])]));
    assert_eq!(shared(&[5, 4, 3], &[12], None), Some(vec![of(0, &[5, 4, 3])]));
    assert_eq!(shared(&[5, 4, 3], &[9, 3], None), Some(vec![of(0, &[5, 4]), of(1, &[3])]));
    // Behind one that does not fit any other may; a lot that holds none has no share.
    assert_eq!(shared(&[5, 4, 3], &[8, 4], None), Some(vec![of(0, &[5, 3]), of(1, &[4])]));
    assert_eq!(shared(&[5, 4, 3], &[2, 12], None), Some(vec![of(1, &[5, 4, 3])]));
    assert_eq!(shared(&[5, 4, 3], &[2], Some(12)), Some(vec![bought(&[5, 4, 3])]));
    // In the order of the list 4 would be left, the largest first only 3.
    assert_eq!(shared(&[3, 5, 4], &[9], Some(3)), Some(vec![of(0, &[5, 4]), bought(&[3])]));
}

/// 5 + 3 + 2 and 4 + 3 + 3 fill two lots of 10; whoever fills the first with 5 + 4 fills neither. Six garments on three
/// lots are tried in every way. A seventh of 1 leaves as little as 1 only in those ways, and so do four lots: they are
/// shared out in turn and leave 2.
#[test]
fn a_few_garments_are_shared_out_in_the_best_of_all_ways() {
    let shared =
        |sizes: &[i64], lots: &[i64], new| Sharing { sizes: sizes.to_vec(), lots: lots.to_vec(), new }.shared(false);
    let six = [5, 4, 3, 3, 3, 2];
    for lots in [&[10, 10][..], &[10, 10, 1], &[1, 10, 10], &[10, 1, 10]] {
        let (shares, _) = shared(&six, lots, None);
        let shares = shares.unwrap_or_default();
        let sums: Vec<i64> = shares.iter().map(|(_, sizes)| sizes.iter().sum()).collect();
        assert_eq!(sums, [10, 10], "{lots:?}: {shares:?}");
        let mut all: Vec<i64> = shares.into_iter().flat_map(|(_, sizes)| sizes).collect();
        all.sort_unstable();
        assert_eq!(all, [2, 3, 3, 3, 4, 5]);
    }
    // The first alone on the second lot, 5 + 5 on the first.
    let (shares, _) = shared(&[6, 5, 5], &[10, 6], None);
    assert_eq!(shares, Some(vec![(named("0", false), vec![5, 5]), (named("1", false), vec![6])]));
    // Where all goes on the first lot that is all that is asked: whether two do, and whether three do.
    assert_eq!(shared(&[5, 4, 3], &[12], None).1, 2);
    // 4 + 3 + 3 and 5 + 3 leave 2; in turn 5 + 4 and 3 + 3 + 2 leave 3.
    assert!(shared(&six, &[10, 8], Some(2)).0.is_some());
    assert!(shared(&six, &[10, 8], Some(1)).0.is_none());
    assert!(shared(&six, &[10, 10, 1, 1], Some(1)).0.is_none());
    assert!(shared(&six, &[10, 10, 1, 1], Some(2)).0.is_some());
    let seven = [5, 4, 3, 3, 3, 2, 1];
    let (shares, tries) = shared(&seven, &[10, 10], Some(1));
    assert!(shares.is_none() && tries < 50, "{tries}");
    assert!(shared(&seven, &[10, 10], Some(2)).0.is_some());
}

/// Four garments of 3 on a lot of 7: two fit and three do not, and one behind those two does not; the fourth is like it and is
/// not asked for. Then whether new goods hold the two.
#[test]
fn garments_alike_are_counted_off() {
    let four = |new| Sharing { sizes: vec![3; 4], lots: vec![7], new: Some(new) };
    // A garment is known by its number here: each counts as the first size.
    let (shares, tries) = four(6).shared(true);
    assert_eq!(shares, Some(vec![(named("0", false), vec![3, 3]), (Lot::New, vec![3, 3])]));
    assert_eq!(tries, 4);
    let (shares, tries) = four(5).shared(true);
    assert_eq!((shares, tries), (None, 4));
}

#[test]
fn a_stop_ends_the_sharing() {
    let pieces = [oblong("piece", 1, 40, 30)];
    let garments = garments(&pieces, &|_| vec![1]);
    let mut holds = |_: &Lot, _: &[&Garment]| Err::<bool, CuttingError>(CuttingError::Stopped);
    assert!(share_out(&[Lot::New], &garments, &|_| 1, &mut holds).is_err());
    assert!(share_out(&[named("K", false)], &garments, &|_| 1, &mut holds).is_err());
}
