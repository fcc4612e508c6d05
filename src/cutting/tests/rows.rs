//! Rows straight across by first fit, in whole nanometres: all by hand.

use super::scene::{cloth, full, new, nm, oblong, prepared, shelf};
use super::*;
use crate::cutting::place::layout::{CutLength, Layout, Patch};
use crate::cutting::search::lay::Lay;
use crate::cutting::task::source::Source;

/// The layout of pieces on sources of goods.
fn laid(pieces: &[CutPiece], goods: &Goods, sources: &[Source]) -> Result<Layout, CuttingError> {
    let stop = AtomicBool::new(false);
    let task = task(pieces, goods, &[], &Supply::Endless);
    let prepared = prepared(&task);
    let mut lay = Lay::new(sources, prepared.measures, &stop);
    for group in &prepared.groups {
        lay.place_all(group)?;
    }
    Ok(lay.finish())
}

/// A length: its source, its end, and its pieces by entry, from and across from.
type Told = (usize, i64, Vec<(usize, i64, i64)>);

fn told(layout: &Layout) -> Vec<Told> {
    let one = |one: &CutLength| {
        let placed = one.placed.iter().map(|placed| (placed.entry, placed.from, placed.across_from));
        (one.source, one.end, placed.collect())
    };
    layout.cut_lengths.iter().map(one).collect()
}

fn grained(grain: Grain, piece: CutPiece) -> CutPiece {
    CutPiece { grain, ..piece }
}

/// Two of 50 by 60 make rows; three of 20 by 30 lie beside each and then in a row of their own.
#[test]
fn rows_are_filled_in_turn() {
    let pieces = [oblong("skirt", 2, 50, 60), oblong("cuff", 3, 20, 30)];
    let of = |loss| {
        let goods = Goods { loss_per_cut: nm(loss), ..cloth(100) };
        let layout = laid(&pieces, &goods, &[new(0, 700, 100)]).unwrap();
        let offcuts: Vec<_> = layout.cut_lengths[0]
            .offcuts
            .iter()
            .map(|Patch { from, to, across_from, across_to }| (*from, *to, *across_from, *across_to))
            .collect();
        (told(&layout), layout.laid(), offcuts)
    };
    let placed = vec![(0, 0, 0), (0, 50, 0), (1, 0, 60), (1, 50, 60), (1, 100, 0)];
    assert_eq!(of(0), (vec![(0, 120, placed)], 120, vec![(0, 50, 90, 100), (50, 100, 90, 100), (100, 120, 30, 100)]));
    // What a cut loses lies between rows, not beside pieces or behind the last row.
    let placed = vec![(0, 0, 0), (0, 53, 0), (1, 0, 60), (1, 53, 60), (1, 106, 0)];
    assert_eq!(of(3), (vec![(0, 126, placed)], 126, vec![(0, 50, 90, 100), (53, 103, 90, 100), (106, 126, 30, 100)]));
    // A row that is full leaves nothing.
    let full_row = laid(&[oblong("a", 2, 50, 50)], &cloth(100), &[new(0, 700, 100)]).unwrap();
    assert_eq!(
        (told(&full_row), full_row.cut_lengths[0].offcuts.len()),
        (vec![(0, 50, vec![(0, 0, 0), (0, 0, 50)])], 0)
    );
}

#[test]
fn a_row_takes_only_what_is_no_longer_and_no_wider() {
    let beside = |along, across| {
        let pieces = [oblong("skirt", 1, 50, 60), oblong("cuff", 1, along, across)];
        told(&laid(&pieces, &cloth(100), &[new(0, 700, 100)]).unwrap())[0].2[1]
    };
    assert_eq!((beside(50, 40), beside(50, 41), beside(1, 40)), ((1, 0, 60), (1, 50, 0), (1, 0, 60)));
    // One that may be turned lies beside the first as it fits; 40 by 50 is longer than no row but wider than 40.
    let pieces = [oblong("skirt", 1, 50, 60), grained(Grain::Any, oblong("cuff", 1, 40, 45))];
    let layout = laid(&pieces, &cloth(100), &[new(0, 700, 100)]).unwrap();
    assert_eq!((told(&layout)[0].2[1], layout.cut_lengths[0].placed[1].lie), ((1, 0, 60), Lie::Across));
}

#[test]
fn the_first_length_with_room_is_cut() {
    // Skirts of 50 by 60 on a length of 60 and on new ones; then a band right behind the first of them, if it is short enough.
    let band = |along| {
        let pieces = [oblong("skirt", 2, 50, 60), full("band", 1, along)];
        told(&laid(&pieces, &cloth(100), &[shelf(0, 60, 100), new(0, 100, 100)]).unwrap())
    };
    assert_eq!(band(10), [(0, 60, vec![(0, 0, 0), (1, 50, 0)]), (1, 50, vec![(0, 0, 0)])]);
    assert_eq!(band(11), [(0, 50, vec![(0, 0, 0)]), (1, 61, vec![(0, 0, 0), (1, 50, 0)])]);
    assert_eq!(band(49), [(0, 50, vec![(0, 0, 0)]), (1, 99, vec![(0, 0, 0), (1, 50, 0)])]);
    // Not on a length that is too narrow; a length in use before another of the same source.
    let pieces = [full("band", 5, 40)];
    let narrow = [shelf(0, 300, 99), Source { most: Some(1), ..new(0, 100, 100) }, new(1, 90, 100)];
    let layout = laid(&pieces, &cloth(100), &narrow).unwrap();
    assert_eq!(
        told(&layout),
        [(1, 80, vec![(0, 0, 0), (0, 40, 0)]), (2, 80, vec![(0, 0, 0), (0, 40, 0)]), (2, 40, vec![(0, 0, 0)])]
    );
}

/// The repeat is 16, one shift 8: drops of 40 start at 0 and, behind 40, at 48 if alike and at 40 if not.
#[test]
fn rows_on_a_pattern_start_where_it_does() {
    let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), ..cloth(100) };
    let drops = |shifts: &[i64]| {
        let count = crate::quantity::number::from_size(shifts.len());
        [CutPiece { matching: Some(Matching::Shifts(shifts.to_vec())), ..full("drop", count, 40) }]
    };
    let starts = |shifts: &[i64], length| {
        let layout = laid(&drops(shifts), &goods, &[new(0, length, 100)]).unwrap();
        told(&layout).into_iter().map(|one| one.2.into_iter().map(|placed| placed.1).collect()).collect::<Vec<Vec<_>>>()
    };
    assert_eq!(starts(&[0, 0, 1], 700), [[0, 48, 88]]);
    assert_eq!(starts(&[1, 0], 700), [[0, 40]]);
    assert_eq!(starts(&[1], 700), [[8]]);
    assert_eq!(starts(&[0, 0], 88), [[0, 48]]);
    assert_eq!(starts(&[0, 0], 87), [[0], [0]]);
    // Beside others in a row only if the row starts on the pattern too.
    let pieces = [full("band", 1, 50), oblong("skirt", 1, 44, 60), oblong("patch", 1, 30, 20)];
    let matched = |first: bool| {
        let mut pieces = pieces.clone();
        pieces[2].matching = Some(Matching::Level);
        pieces[0].count = i64::from(first);
        told(&laid(&pieces, &goods, &[new(0, 700, 100)]).unwrap())[0].2.last().copied()
    };
    // The skirt's row starts at 50 behind the band, which is off the pattern; behind it 94 gives 96.
    assert_eq!((matched(false), matched(true)), (Some((2, 0, 60)), Some((2, 96, 0))));
    // Skirts of 46 make rows at 50 and at 96, which is six repeats: there the patch lies beside.
    let patch = CutPiece { matching: Some(Matching::Level), ..oblong("patch", 1, 30, 20) };
    let pieces = [full("band", 1, 50), oblong("skirt", 2, 46, 60), patch];
    let layout = laid(&pieces, &goods, &[new(0, 700, 100)]).unwrap();
    assert_eq!(told(&layout)[0].2.last(), Some(&(2, 96, 60)));
}

#[test]
fn why_a_piece_finds_no_place() {
    let error = |piece: CutPiece, sources: &[Source]| laid(&[piece], &cloth(100), sources).unwrap_err();
    let too_wide = |across, usable, fits_turned| CuttingError::TooWide {
        piece: "panel".into(),
        across: nm(across),
        usable: nm(usable),
        fits_turned,
    };
    let too_long =
        |along, longest| CuttingError::TooLong { piece: "panel".into(), along: nm(along), longest: nm(longest) };
    let short = |missing| CuttingError::NotEnough { piece: "panel".into(), missing };
    let panel = |count, along, across| oblong("panel", count, along, across);
    let two = [Source { most: Some(2), ..shelf(0, 100, 90) }, shelf(1, 120, 60)];
    assert_eq!(error(panel(2, 40, 91), &two), too_wide(91, 90, true));
    assert_eq!(error(panel(2, 91, 92), &two), too_wide(92, 90, false));
    assert_eq!(error(panel(2, 90, 92), &two), too_wide(92, 90, true));
    assert_eq!(error(grained(Grain::Any, panel(2, 95, 92)), &two), too_wide(92, 90, false));
    assert_eq!(error(panel(2, 121, 20), &two), too_long(121, 120));
    assert_eq!(error(grained(Grain::Any, panel(2, 125, 121)), &two), too_wide(121, 90, false));
    // Each holds two of 40 by 60 and the narrower one three: seven of nine.
    assert_eq!(error(panel(9, 40, 60), &two), short(2));
    assert_eq!(error(panel(8, 40, 60), &two), short(1));
    assert_eq!(error(panel(3, 40, 60), &[]), short(3));
    // Of two ways that are too long the shorter is told.
    let wide = [shelf(0, 100, 200)];
    assert_eq!(error(grained(Grain::Any, panel(1, 150, 120)), &wide), too_long(120, 100));
    assert_eq!(error(grained(Grain::Any, panel(1, 120, 150)), &wide), too_long(120, 100));
    // Wide enough on one and long enough on the other, but on none both.
    assert_eq!(error(panel(3, 110, 80), &two), short(3));
    let endless = Source { as_needed: true, most: Some(1), ..new(0, 9_000, 100) };
    assert_eq!(error(panel(1, 9_001, 20), std::slice::from_ref(&endless)), CuttingError::TooMuchLength);
    assert_eq!(error(panel(9, 9_000, 60), std::slice::from_ref(&endless)), CuttingError::TooMuchLength);
    // On a pattern it may not start at the start of a length: 8 + 40 are more than 47.
    let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), ..cloth(100) };
    let drop = CutPiece { matching: Some(Matching::Shifts(vec![1])), ..full("panel", 1, 40) };
    let on = |length| laid(std::slice::from_ref(&drop), &goods, &[shelf(0, length, 100)]);
    assert!(on(48).is_ok());
    assert_eq!(on(47).unwrap_err(), too_long(40, 47));
}

/// Joined pieces in the fewest parts: across the widest length that is long enough, along the longest that is wide enough.
#[test]
fn parts_of_a_piece_in_rows() {
    let sizes = |piece: CutPiece, sources: &[Source]| {
        let rule = JoinRule::new(9, nm(5), nm(2));
        let layout = laid(&[CutPiece { may_join: Some(rule), ..piece }], &cloth(100), sources).unwrap();
        let placed = layout.cut_lengths.iter().flat_map(|one| {
            one.placed.iter().map(|placed| {
                let part = placed.part.map(|part| (part.number, part.of));
                (one.source, part, placed.extent.along, placed.extent.across)
            })
        });
        placed.collect::<Vec<_>>()
    };
    let whole = oblong("panel", 1, 40, 90);
    assert_eq!(sizes(whole.clone(), &[new(0, 700, 90)]), [(0, None, 40, 90)]);
    // 90 + 4 = 60 + 34.
    let across = [(0, Some((1, 2)), 40, 60), (0, Some((2, 2)), 40, 34)];
    assert_eq!(sizes(whole.clone(), &[new(0, 700, 60), new(1, 39, 80)]), across);
    // 40 + 4 = 30 + 14.
    let along = [(0, Some((1, 2)), 30, 90), (0, Some((2, 2)), 14, 90)];
    assert_eq!(sizes(whole.clone(), &[new(0, 30, 90), new(1, 29, 100)]), along);
    // 90 + 8 = 40 + 40 + 18 is a part more.
    assert_eq!(sizes(whole.clone(), &[new(0, 30, 90), new(1, 700, 40)]), along);
    let three = [(0, Some((1, 3)), 40, 40), (0, Some((2, 3)), 40, 40), (0, Some((3, 3)), 40, 18)];
    assert_eq!(sizes(whole, &[new(0, 700, 40)]), three);
    // What is left of the lengths in use counts, not what they once had: of 60, 20 are left for a band of 15, and 25 + 4 is
    // 20 + 9.
    let pieces =
        [full("long", 1, 40), CutPiece { may_join: Some(JoinRule::new(1, nm(5), nm(2))), ..full("band", 1, 25) }];
    let layout = laid(&pieces, &cloth(100), &[Source { most: Some(1), ..new(0, 60, 100) }, shelf(0, 18, 100)]).unwrap();
    let parts: Vec<_> = layout
        .cut_lengths
        .iter()
        .flat_map(|one| one.placed.iter().map(|placed| (one.source, placed.from, placed.extent.along)))
        .collect();
    assert_eq!(parts, [(0, 0, 40), (0, 40, 20), (1, 0, 9)]);
}

/// One shift of 8 on a repeat of 16: of 38 there are 30 for the first part, and 40 + 4 is 30 + 14.
#[test]
fn parts_on_a_pattern_start_where_it_does() {
    let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), ..cloth(100) };
    let piece = CutPiece {
        matching: Some(Matching::Shifts(vec![1])),
        may_join: Some(JoinRule::new(1, nm(5), nm(2))),
        ..full("strip", 1, 40)
    };
    let layout = laid(&[piece], &goods, &[new(0, 38, 100)]).unwrap();
    let parts: Vec<_> =
        layout.cut_lengths.iter().flat_map(|one| one.placed.iter().map(|one| (one.from, one.extent.along))).collect();
    assert_eq!(parts, [(8, 30), (8, 14)]);
}

/// A plan lays 9 000 km at the most, and a length is 10 km at the most: 900 of them, however many of them lie on one length.
#[test]
fn a_plan_lays_so_much_and_no_more() {
    use crate::cutting::nanometre::{LONGEST, MOST_LAID};
    let laid = |count, source: &Source| {
        laid(&[full("strip", count, LONGEST)], &cloth(100), std::slice::from_ref(source)).map(|layout| layout.laid())
    };
    assert_eq!(LONGEST * 900, MOST_LAID);
    assert_eq!(laid(900, &new(0, LONGEST, 100)), Ok(MOST_LAID));
    assert_eq!(laid(901, &new(0, LONGEST, 100)), Err(CuttingError::TooMuchLength));
    let one = Source { as_needed: true, most: Some(1), ..new(0, MOST_LAID, 100) };
    assert_eq!(laid(900, &one), Ok(MOST_LAID));
    assert_eq!(laid(901, &one), Err(CuttingError::TooMuchLength));
}

#[test]
fn a_stop_ends_the_rows() {
    let (stop, goods, sources) = (AtomicBool::new(true), cloth(100), [new(0, 700, 100)]);
    let pieces = [oblong("panel", 1, 40, 30)];
    let task = task(&pieces, &goods, &[], &Supply::Endless);
    let prepared = prepared(&task);
    let mut lay = Lay::new(&sources, prepared.measures, &stop);
    assert_eq!(lay.place_all(&prepared.groups[0]), Err(CuttingError::Stopped));
}
