//! The parts that the planner works with, in whole nanometres, for tests of its single functions.

use super::*;
use crate::cutting::place::extent::Extent;
use crate::cutting::place::layout::{CutLength, Placed};
use crate::cutting::task::demand::{Demand, Group, Measures};
use crate::cutting::task::source::{Origin, Source, sources};

/// One length of a shelf, of no known lot, unwashed and without a price.
pub(in crate::cutting) fn shelf(entry: usize, length: i64, width: i64) -> Source {
    Source {
        origin: Origin::Shelf(entry),
        name: format!("S{entry}"),
        lot: None,
        washed: false,
        price: None,
        length,
        spare: 0,
        as_needed: false,
        width,
        liked: None,
        most: Some(1),
        opened_at: 0,
        settled: false,
    }
}

/// As many new lengths as needed, without a price.
pub(in crate::cutting) fn new(offer: usize, length: i64, width: i64) -> Source {
    Source { origin: Origin::Offer(offer), name: format!("N{offer}"), most: None, ..shelf(0, length, width) }
}

/// A length in nanometres.
pub(in crate::cutting) fn nm(whole: i64) -> Length {
    Length::from_steps(crate::quantity::number::from_whole(whole))
}

/// Plain cloth so many nanometres wide.
pub(in crate::cutting) fn cloth(width: i64) -> Goods {
    Goods::cloth(nm(width))
}

/// A rectangle of nanometres.
pub(in crate::cutting) fn oblong(name: &str, count: i64, along: i64, across: i64) -> CutPiece {
    rectangle(name, count, nm(along), nm(across))
}

/// A full width of nanometres.
pub(in crate::cutting) fn full(name: &str, count: i64, along: i64) -> CutPiece {
    CutPiece::new(name, count, Shape::FullWidth { along: nm(along) })
}

/// A piece in its place: entry, number, and along and across from where and how far.
pub(in crate::cutting) fn placed(entry: usize, number: i64, at: (i64, i64), size: (i64, i64)) -> Placed {
    Placed {
        entry,
        number,
        part: None,
        lie: Lie::Along,
        reversed: false,
        through: Layers::One,
        from: at.0,
        across_from: at.1,
        extent: Extent { along: size.0, across: size.1 },
    }
}

/// A length of a source with these pieces.
pub(in crate::cutting) fn cut_length(source: usize, placed: Vec<Placed>) -> CutLength {
    let end = placed.iter().map(|placed| placed.patch().to).max().unwrap_or(0);
    CutLength { placed, end, ..CutLength::of(source) }
}

/// What the planner makes of a task before it searches.
pub(in crate::cutting) struct Prepared<'a> {
    pub(in crate::cutting) measures: Measures,
    pub(in crate::cutting) sources: Vec<Source>,
    pub(in crate::cutting) groups: Vec<Group<'a>>,
}

pub(in crate::cutting) fn prepared<'a>(task: &CuttingTask<'a>) -> Prepared<'a> {
    let measures = Measures::of(task).unwrap();
    let demand = Demand::of(task, measures).unwrap();
    let sources = sources(task, measures, &demand).unwrap();
    let longest = sources.iter().map(|source| source.length).max().unwrap_or(0);
    let groups = demand.groups(longest, &|entry| (1..=task.pieces[entry].count).collect());
    Prepared { measures, sources, groups }
}
