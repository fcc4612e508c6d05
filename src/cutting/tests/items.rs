//! Which rectangles are placed for a list of pieces: whole, in parts, and on folded cloth; all by hand.

use super::scene::{cloth, full, new, nm, oblong, prepared};
use super::*;
use crate::cutting::place::extent::Extent;
use crate::cutting::place::item::{Folding, Item, Want, items};
use crate::cutting::place::layout::{CutLength, Placed};
use crate::cutting::task::demand::Start;
use crate::cutting::task::source::Source;
use shirr_packing::{Placement, Turn};

/// What of an item matters: lie, the lie if turned, room on the table, room on opened cloth, layers, and for each of its
/// places the piece, and its twin or part.
type Told =
    (Lie, Option<Lie>, (i64, i64), (i64, i64), Layers, Vec<(usize, i64, Option<(usize, i64)>, Option<(i64, i64)>)>);

fn told(pieces: &[CutPiece], goods: &Goods, sources: &[Source], folding: Folding) -> Option<Vec<Told>> {
    let task = task(pieces, goods, &[], &Supply::Endless);
    let prepared = prepared(&task);
    let sources: Vec<&Source> = sources.iter().collect();
    let items = items(&prepared.groups, &sources, folding)?;
    let size = |extent: Extent| (extent.along, extent.across);
    let want = |want: &Want| (want.entry, want.number, want.twin, want.part.map(|part| (part.number, part.of)));
    let one = |item: &Item| {
        let wants = item.wants.iter().map(want).collect();
        (item.lie, item.turned, size(item.extent), size(item.opened), item.through, wants)
    };
    Some(items.iter().map(one).collect())
}

fn grained(grain: Grain, piece: CutPiece) -> CutPiece {
    CutPiece { grain, ..piece }
}

fn joined(most: i64, piece: CutPiece) -> CutPiece {
    CutPiece { may_join: Some(JoinRule::new(most, nm(10), nm(2))), ..piece }
}

#[test]
fn open_cloth_gives_one_piece_to_a_place() {
    let pieces = [
        grained(Grain::Any, oblong("panel", 2, 40, 30)),
        grained(Grain::Across, oblong("band", 1, 20, 35)),
        full("strip", 1, 10),
    ];
    let wanted: Vec<Told> = vec![
        (Lie::Along, Some(Lie::Across), (40, 30), (40, 30), Layers::One, vec![(0, 1, None, None), (0, 2, None, None)]),
        (Lie::Across, None, (35, 20), (35, 20), Layers::One, vec![(1, 1, None, None)]),
        (Lie::Along, None, (10, 100), (10, 100), Layers::One, vec![(2, 1, None, None)]),
    ];
    let mut found = told(&pieces, &cloth(100), &[new(0, 700, 100)], Folding::Open).unwrap();
    found.sort_by_key(|told| told.5[0].0);
    assert_eq!(found, wanted);
}

/// A piece of 40 by 250, with 2 for each allowance, on widths and lengths that just hold it or its parts.
#[test]
fn a_piece_is_divided_only_where_no_length_holds_it() {
    let parts = |piece: CutPiece, sources: &[Source]| {
        told(&[piece], &cloth(100), sources, Folding::Open).map(|items| {
            let sizes = items.iter().map(|item| (item.2, item.5.iter().map(|want| want.3).collect::<Vec<_>>()));
            sizes.collect::<Vec<_>>()
        })
    };
    let whole = |along, across| Some(vec![((along, across), vec![None])]);
    let panel = |most| joined(most, oblong("panel", 1, 40, 90));
    assert_eq!(parts(panel(3), &[new(0, 40, 90)]), whole(40, 90));
    assert_eq!(parts(panel(3), &[new(0, 39, 90), new(1, 40, 90), new(2, 40, 89)]), whole(40, 90));
    // Across the width of 60, which is the widest that is long enough: 90 + 4 = 60 + 34.
    let across = Some(vec![((40, 34), vec![Some((2, 2))]), ((40, 60), vec![Some((1, 2))])]);
    assert_eq!(parts(panel(3), &[new(0, 40, 60), new(1, 39, 80)]), across);
    assert_eq!(parts(panel(1), &[new(0, 700, 60), new(1, 700, 50)]), across);
    assert_eq!(parts(panel(0), &[new(0, 700, 60)]), None);
    // Along the length of 30 of what is wide enough: 40 + 4 = 30 + 14.
    let along = Some(vec![((14, 90), vec![Some((2, 2))]), ((30, 90), vec![Some((1, 2))])]);
    assert_eq!(parts(panel(3), &[new(0, 30, 90), new(1, 39, 80)]), along);
    // Two parts along are fewer than the three across that 40 by 40 would take: 90 + 8 = 40 + 40 + 18.
    let three = Some(vec![((40, 18), vec![Some((3, 3))]), ((40, 40), vec![Some((1, 3)), Some((2, 3))])]);
    assert_eq!(parts(panel(3), &[new(0, 40, 40)]), three);
    assert_eq!(parts(panel(3), &[new(0, 40, 40), new(1, 30, 90)]), along);
    // What may not be joined, and what has no straight edges, is not divided.
    assert_eq!(parts(oblong("panel", 1, 40, 90), &[new(0, 40, 60)]), None);
    assert_eq!(parts(grained(Grain::Bias, panel(3)), &[new(0, 700, 60)]), None);
    // A full width has both selvedges, so it is divided along or not at all.
    let strip = |most| joined(most, full("strip", 1, 40));
    let strips = Some(vec![((14, 100), vec![Some((2, 2))]), ((30, 100), vec![Some((1, 2))])]);
    assert_eq!(parts(strip(3), &[new(0, 30, 100), new(1, 700, 90)]), strips);
    assert_eq!(parts(strip(3), &[new(1, 700, 90)]), None);
}

/// A matched piece of 40 by 90 starts 8 behind mark 0 if it is a shift on: then 48 hold it, and 47 not, and of 38 only 30 are
/// for its first part.
#[test]
fn a_pattern_that_starts_later_takes_room() {
    let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), ..cloth(100) };
    let strip = |most| {
        let matching = Some(Matching::Shifts(vec![1]));
        CutPiece { matching, ..joined(most, full("strip", 1, 40)) }
    };
    let of = |most, length| {
        let found = told(&[strip(most)], &goods, &[new(0, length, 100)], Folding::Open);
        found.map(|items| items.iter().map(|item| item.2.0).collect::<Vec<_>>())
    };
    assert_eq!(of(0, 48), Some(vec![40]));
    assert_eq!(of(0, 47), None);
    assert_eq!(of(1, 38), Some(vec![14, 30]));
    assert_eq!(of(1, 8), None);
    let task_pieces = [strip(0)];
    let task = task(&task_pieces, &goods, &[], &Supply::Endless);
    assert_eq!(prepared(&task).groups[0].start, Start::Pattern { first: 8, repeat: 16 });
}

/// On folded cloth 101 wide the half is 50. Pairs go through both layers, an odd piece through one; what lies on the fold is
/// half as wide on the table, rounded up.
#[test]
fn folded_cloth_gives_two_pieces_to_a_place() {
    let sources = [new(0, 700, 101)];
    let of = |pieces: &[CutPiece], folding| told(pieces, &cloth(101), &sources, folding).unwrap();
    let of_one = |piece: CutPiece, folding| of(&[piece], folding);
    let panel = || oblong("panel", 3, 40, 30);
    let pairs = vec![(0, 1, Some((0, 2)), None)];
    assert_eq!(
        of_one(panel(), Folding::OnFold),
        [
            (Lie::Along, None, (40, 30), (40, 30), Layers::Both, pairs.clone()),
            (Lie::Along, None, (40, 30), (40, 30), Layers::One, vec![(0, 3, None, None)]),
        ]
    );
    // A full width lies on the fold, with its half to the nearest nanometre up.
    let strip = [(Lie::Along, None, (10, 51), (10, 101), Layers::Fold, vec![(0, 1, None, None)])];
    for folding in [Folding::OnFold, Folding::AwayFromFold] {
        assert_eq!(of_one(full("strip", 1, 10), folding), strip);
    }
    let on_fold = |fold, piece| CutPiece { on_fold: Some(fold), ..piece };
    let two_on_fold = |lie, extent, opened| {
        vec![(
            lie,
            None,
            extent,
            opened,
            Layers::Fold,
            vec![(0, 1, None, None), (0, 2, None, None), (0, 3, None, None)],
        )]
    };
    let front = on_fold(Fold::Along, panel());
    assert_eq!(of_one(front.clone(), Folding::OnFold), two_on_fold(Lie::Along, (40, 15), (40, 30)));
    assert_eq!(of_one(front.clone(), Folding::AwayFromFold)[0].4, Layers::Both);
    // Too wide for one half, so on the fold whatever is asked.
    let wide = |across| on_fold(Fold::Along, oblong("front", 3, 40, across));
    assert_eq!(of_one(wide(51), Folding::AwayFromFold), two_on_fold(Lie::Along, (40, 26), (40, 51)));
    assert_eq!(of_one(wide(50), Folding::AwayFromFold)[0].4, Layers::Both);
    // Its fold lies along the cloth only if its grain turns it that way; free to be turned, it stays as drawn.
    let any = of_one(grained(Grain::Any, front.clone()), Folding::OnFold);
    assert_eq!(any, two_on_fold(Lie::Along, (40, 15), (40, 30)));
    for (grain, fold, wanted) in [
        (Grain::Across, Fold::Along, Layers::Both),
        (Grain::Across, Fold::Across, Layers::Fold),
        (Grain::Along, Fold::Across, Layers::Both),
        (Grain::Any, Fold::Across, Layers::Both),
        (Grain::Bias, Fold::Along, Layers::One),
        (Grain::Bias, Fold::Across, Layers::One),
    ] {
        let piece = grained(grain, on_fold(fold, panel()));
        assert_eq!(of_one(piece, Folding::OnFold)[0].4, wanted, "{grain:?} {fold:?}");
    }
    assert_eq!(
        of_one(grained(Grain::Across, on_fold(Fold::Across, panel())), Folding::OnFold),
        two_on_fold(Lie::Across, (30, 20), (30, 40))
    );
}

/// What is its own mirror image as it lies is cut twice at once; anything else only if it is wanted in mirrored pairs.
#[test]
fn only_what_is_even_is_cut_twice_at_once() {
    let corner = |along, across| OutlinePoint { along: nm(along), across: nm(across) };
    let drawn = |corners: &[(i64, i64)]| {
        Shape::Outline(corners.iter().map(|(along, across)| corner(*along, *across)).collect())
    };
    let sector = |turn| Shape::Sector { inner: nm(5), outer: nm(20), turn };
    // As wide at one side as at the other; as long at one end as at the other; both; neither.
    let gore = drawn(&[(0, 0), (40, 5), (40, 15), (0, 20)]);
    let boat = drawn(&[(0, 0), (40, 0), (30, 20), (10, 20)]);
    let lozenge = drawn(&[(0, 10), (20, 0), (40, 10), (20, 20)]);
    let sail = drawn(&[(0, 0), (40, 0), (0, 20)]);
    let askew = drawn(&[(0, 0), (30, 0), (40, 20), (10, 20)]);
    for (shape, grain, even) in [
        (gore.clone(), Grain::Along, true),
        (gore.clone(), Grain::Across, false),
        (gore, Grain::Any, false),
        (boat.clone(), Grain::Along, false),
        (boat, Grain::Across, true),
        (lozenge.clone(), Grain::Along, true),
        (lozenge.clone(), Grain::Across, true),
        (lozenge.clone(), Grain::Any, true),
        (lozenge, Grain::Bias, false),
        (sail, Grain::Along, false),
        (askew.clone(), Grain::Along, false),
        (askew, Grain::Across, false),
        (sector(1.0), Grain::Along, true),
        (sector(1.0), Grain::Bias, true),
        (sector(0.5), Grain::Along, false),
        (sector(0.5), Grain::Across, true),
        (sector(0.5), Grain::Any, false),
        (sector(0.25), Grain::Across, false),
        (sector(0.75), Grain::Across, false),
        (Shape::Rectangle { along: nm(20), across: nm(30) }, Grain::Bias, false),
        (Shape::Rectangle { along: nm(30), across: nm(30) }, Grain::Bias, true),
        (Shape::Rectangle { along: nm(20), across: nm(30) }, Grain::Any, true),
    ] {
        for mirrored in [false, true] {
            let piece = CutPiece { grain, mirrored, ..CutPiece::new("piece", 2, shape.clone()) };
            let found = told(&[piece], &cloth(200), &[new(0, 700, 200)], Folding::OnFold).unwrap();
            // Two that are cut singly have a place on either layer all the same.
            let wanted = if even || mirrored { Layers::Both } else { Layers::One };
            let places: Vec<_> = found.iter().map(|item| (item.4, item.5.clone())).collect();
            assert_eq!(places, [(wanted, vec![(0, 1, Some((0, 2)), None)])], "{shape:?} {grain:?} {mirrored}");
        }
    }
}

/// Single pieces of one size and lie share the two layers of a place, whatever entry they are of; the last may be alone.
#[test]
fn single_pieces_share_the_layers() {
    let pieces = [
        oblong("a", 1, 40, 30),
        oblong("b", 3, 40, 30),
        oblong("c", 1, 40, 31),
        oblong("d", 1, 41, 30),
        grained(Grain::Across, oblong("e", 1, 30, 40)),
        grained(Grain::Any, oblong("f", 1, 40, 30)),
    ];
    let mut found = told(&pieces, &cloth(100), &[new(0, 700, 100)], Folding::OnFold).unwrap();
    found.sort_by_key(|item| (item.4 == Layers::One, item.5[0].0));
    let wants: Vec<_> = found.into_iter().map(|item| (item.4, item.5)).collect();
    let alone = |entry| (Layers::One, vec![(entry, 1, None, None)]);
    assert_eq!(
        wants,
        [
            (Layers::Both, vec![(1, 1, Some((1, 2)), None)]),
            (Layers::One, vec![(0, 1, Some((1, 3)), None)]),
            alone(2),
            alone(3),
            alone(4),
            alone(5),
        ]
    );
}

/// Cloth 101 wide, folded: the fold is at 50, the nearer layer from 51 up counted from the fold, the farther one mirrored.
#[test]
fn where_a_place_on_the_table_is_on_opened_cloth() {
    let item = |through, turned, opened: (i64, i64)| {
        let opened = Extent { along: opened.0, across: opened.1 };
        let start = Start::Anywhere;
        Item { lie: Lie::Along, turned, extent: opened, opened, start, through, wants: Vec::new() }
    };
    let want = |twin| Want { entry: 3, number: 7, twin, part: None };
    let placement = |turn| Placement { item: 0, stretch: 0, along: 11, across: 6, turn, mirrored: false };
    let on = |item: &Item, want, turn, folded, end| {
        let mut on = CutLength { end, folded, ..CutLength::of(0) };
        item.place(want, placement(turn), &mut on, 101);
        let told = |placed: &Placed| {
            let patch = placed.patch();
            (placed.entry, placed.number, placed.lie, [patch.from, patch.to, patch.across_from, patch.across_to])
        };
        assert!(on.placed.iter().all(|placed| placed.through == item.through && !placed.reversed));
        (on.placed.iter().map(told).collect::<Vec<_>>(), on.end)
    };
    let single = item(Layers::One, Some(Lie::Across), (40, 30));
    assert_eq!(on(&single, want(None), Turn::None, false, 0), (vec![(3, 7, Lie::Along, [11, 51, 6, 36])], 51));
    assert_eq!(on(&single, want(None), Turn::Quarter, false, 60), (vec![(3, 7, Lie::Across, [11, 41, 6, 46])], 60));
    assert_eq!(on(&single, want(None), Turn::None, true, 50), (vec![(3, 7, Lie::Along, [11, 51, 57, 87])], 51));
    let pair = item(Layers::Both, None, (40, 30));
    assert_eq!(
        on(&pair, want(Some((3, 8))), Turn::None, true, 0),
        (vec![(3, 7, Lie::Along, [11, 51, 57, 87]), (3, 8, Lie::Along, [11, 51, 14, 44])], 51)
    );
    let fold = item(Layers::Fold, None, (40, 31));
    assert_eq!(on(&fold, want(None), Turn::None, true, 0), (vec![(3, 7, Lie::Along, [11, 51, 35, 66])], 51));
}
