//! Rectangles to place on cloth: each group of pieces with the room it takes, pieces too large for any length in parts,
//! and on folded cloth what one cut through its layers gives.
//!
//! Never here: placing.

use crate::cutting::place::extent::Extent;
use crate::cutting::place::layout::{CutLength, Placed};
use crate::cutting::plan::JoinedPart;
use crate::cutting::task::demand::{Group, Start};
use crate::cutting::task::source::Source;
use crate::piece::{CutPiece, Fold, Grain, OutlinePoint, Shape};
use crate::piece::{Layers, Lie};
use crate::quantity::number;
use shirr_packing::Placement;
use std::collections::BTreeMap;

/// Equal rectangles, and the pieces cut from them.
#[derive(Debug)]
pub(in crate::cutting) struct Item {
    /// How the piece lies when the rectangle is not turned, and (`turned`) when it is turned a quarter, if it may be.
    pub(in crate::cutting) lie: Lie,
    pub(in crate::cutting) turned: Option<Lie>,
    /// The room on the table: half the piece if it lies on the fold.
    pub(in crate::cutting) extent: Extent,
    /// The room on opened cloth.
    pub(in crate::cutting) opened: Extent,
    pub(in crate::cutting) start: Start,
    pub(in crate::cutting) through: Layers,
    /// The pieces, in the order they are placed.
    pub(in crate::cutting) wants: Vec<Want>,
}

/// Whether cloth is folded, and which of the pieces that may lie on its fold do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cutting) enum Folding {
    /// The cloth lies open.
    Open,
    /// Folded; all of them lie on the fold.
    OnFold,
    /// Folded; only those too wide for one half lie on the fold.
    AwayFromFold,
}

/// The piece, or the two pieces, that one rectangle gives.
#[derive(Clone, Copy, Debug)]
pub(in crate::cutting) struct Want {
    pub(in crate::cutting) entry: usize,
    pub(in crate::cutting) number: i64,
    /// Entry and number of the piece that the other layer of folded cloth gives.
    pub(in crate::cutting) twin: Option<(usize, i64)>,
    pub(in crate::cutting) part: Option<JoinedPart>,
}

impl Item {
    /// Takes over the placement of one of its rectangles on a length of this width. On folded cloth marks across count
    /// from the fold.
    pub(in crate::cutting) fn place(&self, want: Want, placement: Placement, on: &mut CutLength, width: i64) {
        let turned = placement.turn.is_sideways();
        let lie = if turned { self.turned.unwrap_or(self.lie) } else { self.lie };
        let extent = if turned { Extent { along: self.opened.across, across: self.opened.along } } else { self.opened };
        let mut place = |(entry, number), across_from| {
            on.placed.push(Placed {
                entry,
                number,
                part: want.part,
                lie,
                reversed: false,
                through: self.through,
                from: placement.along,
                across_from,
                extent,
            });
        };
        let half = width / 2;
        match self.through {
            Layers::Fold => place((want.entry, want.number), (width - extent.across) / 2),
            _ if on.folded => {
                place((want.entry, want.number), width - half + placement.across);
                if let Some(twin) = want.twin {
                    place(twin, half - placement.across - extent.across);
                }
            }
            _ => place((want.entry, want.number), placement.across),
        }
        on.end = on.end.max(placement.along + extent.along);
    }
}

/// Converts the groups to rectangles for these lengths; `None` if a piece fits on none of them, even in parts.
pub(in crate::cutting) fn items(groups: &[Group<'_>], sources: &[&Source], folding: Folding) -> Option<Vec<Item>> {
    let folded = folding != Folding::Open;
    let half = sources.iter().map(|source| source.width / 2).min().unwrap_or(0);
    let mut items = Vec::with_capacity(groups.len());
    for group in groups {
        let lie = group.choices.iter().map(|(lie, _)| *lie).min()?;
        let (_, extent) = *group.choices.iter().find(|(other, _)| *other == lie)?;
        let turned = group.choices.iter().map(|(lie, _)| *lie).find(|other| *other != lie);
        let single = |numbers: &[i64]| {
            let want = |number: &i64| Want { entry: group.entry, number: *number, twin: None, part: None };
            numbers.iter().map(want).collect::<Vec<_>>()
        };
        let plain = Item {
            lie,
            turned,
            extent,
            opened: extent,
            start: group.start,
            through: Layers::One,
            wants: single(&group.numbers),
        };
        if folded {
            let away = folding == Folding::AwayFromFold && plain.extent.across <= half && !group.full_width;
            items.extend(doubled(group, plain, away));
            continue;
        }
        let fits = |extent: Extent| {
            sources
                .iter()
                .any(|source| extent.across <= source.width && group.start.from(0) + extent.along <= source.length)
        };
        if group.choices.iter().any(|(_, extent)| fits(*extent)) {
            items.push(plain);
        } else {
            items.extend(in_parts(group, &plain, sources)?);
        }
    }
    if folded {
        on_both_layers(&mut items);
    }
    Some(items)
}

/// Puts pieces of one size that are cut singly from folded cloth two to a place, one from each layer.
fn on_both_layers(items: &mut Vec<Item>) {
    let (singles, mut others): (Vec<Item>, Vec<Item>) =
        std::mem::take(items).into_iter().partition(|item| item.through == Layers::One);
    let mut sizes: Vec<Item> = Vec::new();
    for item in singles {
        let alike = |other: &&mut Item| {
            (other.lie, other.turned, other.extent, other.start) == (item.lie, item.turned, item.extent, item.start)
        };
        match sizes.iter_mut().find(alike) {
            Some(other) => other.wants.extend(item.wants),
            None => sizes.push(item),
        }
    }
    for item in &mut sizes {
        let two = |two: &[Want]| {
            let (first, second) = (two.first()?, two.get(1));
            Some(Want { twin: second.map(|second| (second.entry, second.number)), ..*first })
        };
        item.wants = item.wants.chunks(2).filter_map(two).collect();
    }
    others.append(&mut sizes);
    *items = others;
}

/// Divides a piece too large for any length into the fewest parts that fit on one of them.
fn in_parts(group: &Group<'_>, whole: &Item, sources: &[&Source]) -> Option<Vec<Item>> {
    let joining = group.joining.filter(|_| group.is_straight())?;
    let mut best: Option<(Lie, Vec<Extent>)> = None;
    for (lie, extent) in &group.choices {
        let width = sources.iter().filter(|source| source.length >= extent.along).map(|source| source.width).max();
        let room = sources.iter().filter(|source| source.width >= extent.across).map(|source| source.length).max();
        let room = room.map(|room| room - group.start.from(0));
        let across = width.filter(|_| !group.full_width).and_then(|width| {
            let parts = joining.parts(extent.across, width, group.piece).ok()?;
            Some(parts.into_iter().map(|across| Extent { across, ..*extent }).collect::<Vec<_>>())
        });
        let along = room.and_then(|room| {
            let parts = joining.parts(extent.along, room, group.piece).ok()?;
            Some(parts.into_iter().map(|along| Extent { along, ..*extent }).collect::<Vec<_>>())
        });
        for parts in across.into_iter().chain(along) {
            if parts.len() > 1 && best.as_ref().is_none_or(|(_, best)| parts.len() < best.len()) {
                best = Some((*lie, parts));
            }
        }
    }
    let (lie, parts) = best?;
    let of = number::from_size(parts.len());
    let mut sizes: BTreeMap<(i64, i64), Vec<Want>> = BTreeMap::new();
    for want in &whole.wants {
        for (number, extent) in (1..).zip(&parts) {
            let part = Some(JoinedPart { number, of });
            sizes.entry((extent.along, extent.across)).or_default().push(Want { part, ..*want });
        }
    }
    let items = sizes.into_iter().map(|((along, across), wants)| {
        let extent = Extent { along, across };
        Item { lie, turned: None, extent, opened: extent, start: whole.start, through: Layers::One, wants }
    });
    Some(items.collect())
}

/// The items of a group on folded cloth: pieces on the fold, or pairs through both layers and any others from one
/// layer.
fn doubled(group: &Group<'_>, plain: Item, away: bool) -> Vec<Item> {
    let piece = group.piece;
    let on_fold = group.full_width
        || match piece.on_fold {
            Some(Fold::Along) => piece.grain != Grain::Across && piece.grain != Grain::Bias,
            Some(Fold::Across) => piece.grain == Grain::Across,
            None => false,
        };
    if on_fold && !away && is_symmetric(piece, plain.lie) {
        let half = Extent { across: plain.opened.across / 2 + plain.opened.across % 2, ..plain.opened };
        return vec![Item { extent: half, turned: None, through: Layers::Fold, ..plain }];
    }
    // To be cut twice at once, a piece without a mirrored twin must be its own mirror image, whichever way it is
    // turned.
    let lies = std::iter::once(plain.lie).chain(plain.turned);
    let alike = piece.mirrored || lies.into_iter().all(|lie| is_symmetric(piece, lie));
    let wants = |numbers: &[i64], twin: Option<i64>| {
        let twin = twin.map(|twin| (group.entry, twin));
        numbers.first().map(|number| Want { entry: group.entry, number: *number, twin, part: None })
    };
    let pairs = if alike { group.numbers.len() / 2 } else { 0 };
    let both = group.numbers.chunks_exact(2).take(pairs).filter_map(|pair| wants(pair, pair.last().copied()));
    let rest = group.numbers.get(2 * pairs..).unwrap_or(&[]);
    let one = rest.chunks(1).filter_map(|number| wants(number, None));
    let item = |through, wants| Item {
        lie: plain.lie,
        turned: plain.turned,
        extent: plain.extent,
        opened: plain.opened,
        start: plain.start,
        through,
        wants,
    };
    let mut items = vec![item(Layers::Both, both.collect()), item(Layers::One, one.collect())];
    items.retain(|item| !item.wants.is_empty());
    items
}

/// Whether a piece as it lies is its own mirror image about a line along the goods.
fn is_symmetric(piece: &CutPiece, lie: Lie) -> bool {
    match &*piece.shape {
        Shape::FullWidth { .. } => true,
        Shape::Rectangle { along, across } => lie != Lie::Bias || along == across,
        // A half circle is symmetric about the line at right angles to its flat side.
        Shape::Sector { turn, .. } => *turn >= 1.0 || (lie == Lie::Across && turn.total_cmp(&0.5).is_eq()),
        Shape::Outline(points) => {
            let place = |point: &OutlinePoint| {
                let (along, across) = (point.along.steps(), point.across.steps());
                match lie {
                    Lie::Along => Some((along, across)),
                    Lie::Across => Some((-across, along)),
                    Lie::Bias => None,
                }
            };
            let Some(places) = points.iter().map(place).collect::<Option<Vec<_>>>() else { return false };
            let (least, most) = places.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), place| {
                (least.min(place.1), most.max(place.1))
            });
            let mut image: Vec<(f64, f64)> = places.iter().map(|place| (place.0, least + most - place.1)).collect();
            image.reverse();
            // The same corners in the same order, starting from any of them.
            (0..image.len()).any(|_| {
                image.rotate_left(1);
                image.iter().zip(&places).all(|(one, other)| {
                    number::is_within(one.0, other.0, 0.01) && number::is_within(one.1, other.1, 0.01)
                })
            })
        }
    }
}
