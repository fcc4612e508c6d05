//! How deep a piece overlaps another: the shortest way out of the no-fit polygon, for the search, in floats.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::forbidden::Forbidden;
use super::geometry::Point;
use crate::number;
use std::ops::Range;

/// From this many sides on, a table of cells is made, each with the sides that matter in it.
const FEW_SIDES: usize = 14;
/// The most cells along and across.
const MOST_CELLS: usize = 32;

/// A directed side of a convex part: the point's distance inside it is `over − along·x − across·y`.
#[derive(Clone, Copy, Debug)]
struct Side {
    along: f64,
    across: f64,
    over: f64,
}

impl Side {
    fn inside(&self, along: f64, across: f64) -> f64 {
        self.over - self.along * along - self.across * across
    }
}

/// A segment of the border of the union.
#[derive(Clone, Copy, Debug)]
struct Segment {
    from: (f64, f64),
    to: (f64, f64),
    /// One over its length squared.
    scale: f64,
}

impl Segment {
    /// Its point nearest to the given one.
    fn nearest(&self, along: f64, across: f64) -> (f64, f64) {
        let run = (self.to.0 - self.from.0, self.to.1 - self.from.1);
        let past = (along - self.from.0, across - self.from.1);
        let part = ((past.0 * run.0 + past.1 * run.1) * self.scale).clamp(0.0, 1.0);
        (self.from.0 + part * run.0, self.from.1 + part * run.1)
    }

    /// The squared distance to it.
    fn away(&self, along: f64, across: f64) -> f64 {
        let nearest = self.nearest(along, across);
        let off = (nearest.0 - along, nearest.1 - across);
        off.0 * off.0 + off.1 * off.1
    }
}

/// A cell of the table, kept small because the search accesses it at random: where its list begins, how many convex
/// parts may contain its points (for a single part: how many sides may be nearest), and how many borders may be
/// nearest.
#[derive(Clone, Copy, Debug, Default)]
struct Cell {
    first: u32,
    parts: u16,
    borders: u16,
}

/// Value of [`Cell::parts`] if one part contains the whole cell.
const WITHIN: u16 = u16::MAX;

/// Where the cells of the table lie.
#[derive(Debug)]
struct Grid {
    low: (f64, f64),
    step: (f64, f64),
    /// From the middle of a cell to its corners.
    reach: f64,
}

impl Grid {
    fn new(low: (f64, f64), step: (f64, f64)) -> Self {
        Self { low, step, reach: step.0.hypot(step.1) / 2.0 * (1.0 + 1e-9) }
    }

    fn middle(&self, block: &Block) -> (f64, f64) {
        let middle = |cells: &Range<usize>| number::from_count(cells.start + cells.end) * 0.5;
        (self.low.0 + middle(&block.columns) * self.step.0, self.low.1 + middle(&block.rows) * self.step.1)
    }

    /// From the middle of a block to the middles of its outermost cells, with a margin for rounding.
    fn off(&self, block: &Block) -> f64 {
        let half = |cells: &Range<usize>| (number::from_count(cells.len()) - 1.0) * 0.5;
        (half(&block.columns) * self.step.0).hypot(half(&block.rows) * self.step.1) * (1.0 + 1e-6)
    }
}

/// A rectangle of cells.
#[derive(Debug)]
struct Block {
    columns: Range<usize>,
    rows: Range<usize>,
}

impl Block {
    fn is_cell(&self) -> bool {
        self.columns.len() == 1 && self.rows.len() == 1
    }

    fn cells(&self) -> impl Iterator<Item = Self> {
        let columns = self.columns.clone();
        let row = move |row: usize| columns.clone().map(move |column| (row, column));
        self.rows.clone().flat_map(row).map(|(row, column)| Self { columns: column..column + 1, rows: row..row + 1 })
    }

    /// Its four quarters, or two halves of a row or column.
    fn quarters(&self) -> impl Iterator<Item = Self> {
        let halves = |cells: &Range<usize>| {
            let middle = cells.start + cells.len().div_ceil(2);
            [cells.start..middle, middle..cells.end]
        };
        let columns = halves(&self.columns);
        halves(&self.rows)
            .into_iter()
            .flat_map(move |rows| columns.clone().map(|columns| Self { columns, rows: rows.clone() }))
            .filter(|block| !block.columns.is_empty() && !block.rows.is_empty())
    }
}

/// What may matter in a block of cells, each list in its own order.
#[derive(Debug, Default)]
struct Candidates {
    parts: Vec<Near>,
    /// The sides of all these parts.
    sides: Vec<usize>,
    borders: Vec<usize>,
    /// One part holds the whole block; the others do not matter then.
    within: bool,
}

/// A part that may hold a point, and where those of its sides that may be the nearest begin and end among all.
#[derive(Clone, Copy, Debug)]
struct Near {
    part: usize,
    first: usize,
    last: usize,
}

impl Candidates {
    fn sides_of(&self, near: Near) -> &[usize] {
        &self.sides[near.first..near.last]
    }

    /// Adds a part with the last sides added.
    fn add(&mut self, part: usize, first: usize) {
        self.parts.push(Near { part, first, last: self.sides.len() });
    }

    /// Whether there are so few that a smaller block would not have noticeably fewer.
    fn is_few(&self) -> bool {
        self.borders.len() + self.sides.len() <= FEW_SIDES
    }
}

/// The depths for one pair of outlines.
#[derive(Debug)]
pub(super) struct Depth {
    sides: Vec<Side>,
    /// Index range of the sides of each part.
    parts: Vec<(usize, usize)>,
    /// Only for unions; in a single convex part the nearest side gives the depth.
    borders: Vec<Segment>,
    low: (f64, f64),
    /// Cells per unit, along and across; zero without a table.
    scale: (f64, f64),
    cells: (usize, usize),
    table: Vec<Cell>,
    lists: Vec<u16>,
    looks: u64,
}

impl Depth {
    pub(super) fn new(forbidden: &Forbidden) -> Self {
        let float = |point: Point| (number::from_whole(point.0), number::from_whole(point.1));
        let mut sides = Vec::new();
        let mut parts = Vec::new();
        for part in &forbidden.parts {
            let first = sides.len();
            let count = part.corners.len();
            for (i, &corner) in part.corners.iter().enumerate() {
                let (from, to) = (float(corner), float(part.corners[(i + 1) % count]));
                let run = (to.0 - from.0, to.1 - from.1);
                let length = run.0.hypot(run.1);
                let (along, across) = (run.1 / length, -run.0 / length);
                sides.push(Side { along, across, over: along * from.0 + across * from.1 });
            }
            parts.push((first, sides.len()));
        }
        let (low, high) = (float(forbidden.low), float(forbidden.high));
        let mut depth = Self {
            sides,
            parts,
            borders: Vec::new(),
            low,
            scale: (0.0, 0.0),
            cells: (1, 1),
            table: Vec::new(),
            lists: Vec::new(),
            looks: 8,
        };
        if forbidden.parts.len() > 1 {
            let polygons: Vec<Vec<(f64, f64)>> =
                forbidden.parts.iter().map(|part| part.corners.iter().map(|&corner| float(corner)).collect()).collect();
            depth.borders = depth.border(&polygons, noise(low, high));
        }
        let many = depth.sides.len() + depth.borders.len();
        if (FEW_SIDES..=usize::from(u16::MAX)).contains(&many) {
            depth.fill_table(high);
        }
        depth
    }

    /// The border of the union, in no order: the sides of each part as far as no other part covers them.
    fn border(&self, polygons: &[Vec<(f64, f64)>], noise: f64) -> Vec<Segment> {
        let mut borders = Vec::new();
        let mut hidden: Vec<(f64, f64)> = Vec::new();
        // Most sides lie in another part with their whole length, often in the one that held the side before.
        let mut holder = 0;
        for (own, polygon) in polygons.iter().enumerate() {
            for (i, &from) in polygon.iter().enumerate() {
                let to = polygon[(i + 1) % polygon.len()];
                let clip = |other: usize| {
                    let (first, last) = self.parts[other];
                    if other == own { None } else { clipped(&self.sides[first..last], from, to, noise) }
                };
                let is_whole = |(start, end): (f64, f64)| start <= 0.0 && end >= 1.0;
                if clip(holder).is_some_and(is_whole) {
                    continue;
                }
                hidden.clear();
                let mut whole = None;
                for other in 0..self.parts.len() {
                    let Some(span) = clip(other) else { continue };
                    if is_whole(span) {
                        whole = Some(other);
                        break;
                    }
                    hidden.push(span);
                }
                if let Some(other) = whole {
                    holder = other;
                    continue;
                }
                hidden.sort_by(|one, other| one.0.total_cmp(&other.0));
                let at = |part: f64| (from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part);
                let mut seen = 0.0;
                for &(start, end) in hidden.iter().chain(&[(1.0, 1.0)]) {
                    if start > seen {
                        let (from, to) = (at(seen), at(start));
                        let length = (to.0 - from.0).hypot(to.1 - from.1);
                        if length > noise {
                            borders.push(Segment { from, to, scale: 1.0 / (length * length) });
                        }
                    }
                    seen = f64::max(seen, end);
                }
            }
        }
        borders
    }

    /// Fills the table by dividing blocks down to single cells. Candidates that cannot matter anywhere in a block are
    /// dropped before its cells are computed.
    fn fill_table(&mut self, high: (f64, f64)) {
        let size = (high.0 - self.low.0, high.1 - self.low.1);
        let wanted = (self.sides.len() + self.borders.len()).min(MOST_CELLS);
        let (columns, rows) = (number::from_count(wanted), number::from_count(wanted));
        self.cells = (wanted, wanted);
        self.scale = (columns / size.0, rows / size.1);
        self.table = vec![Cell::default(); wanted * wanted];
        let (grid, all) = (Grid::new(self.low, (size.0 / columns, size.1 / rows)), self.all());
        self.fill_block(&grid, &Block { columns: 0..wanted, rows: 0..wanted }, &all);
        let used = number::from_size(self.table.iter().filter(|cell| cell.parts > 0).count()).unsigned_abs();
        let listed =
            |cell: &Cell| u64::from(cell.borders) + if cell.parts == WITHIN { 0 } else { 2 * u64::from(cell.parts) };
        self.looks = 4 + self.table.iter().map(listed).sum::<u64>() / used.max(1);
    }

    /// Every part, side and border, in order.
    fn all(&self) -> Candidates {
        let parts = self.parts.iter().enumerate().map(|(part, &(first, last))| Near { part, first, last });
        let (sides, borders) = ((0..self.sides.len()).collect(), (0..self.borders.len()).collect());
        Candidates { parts: parts.collect(), sides, borders, within: false }
    }

    fn fill_block(&mut self, grid: &Grid, block: &Block, above: &Candidates) {
        if block.is_cell() || above.is_few() {
            return block.cells().for_each(|cell| {
                let at = cell.rows.start * self.cells.0 + cell.columns.start;
                self.table[at] = self.cell(grid, &cell, above);
            });
        }
        let near = self.near(grid, block, above);
        // The whole block is outside: its cells keep their default.
        if near.parts.is_empty() && !near.within {
            return;
        }
        for block in block.quarters() {
            self.fill_block(grid, &block, &near);
        }
    }

    /// Returns the candidates for a block. Between two points, the distance from a side or border changes by no more than
    /// the distance between the points, so no candidate is dropped that a cell of the block would list.
    fn near(&self, grid: &Grid, block: &Block, above: &Candidates) -> Candidates {
        let ((along, across), off) = (grid.middle(block), grid.off(block));
        let reach = grid.reach + off;
        let mut near = Candidates { within: above.within, ..Candidates::default() };
        for part in above.parts.iter().filter(|_| !above.within) {
            let sides = above.sides_of(*part);
            let inside = |at: usize| self.sides[at].inside(along, across);
            let least = sides.iter().map(|&at| inside(at)).fold(f64::INFINITY, f64::min);
            if least < -reach {
                continue;
            }
            near.within |= least >= reach && !self.borders.is_empty();
            let first = near.sides.len();
            near.sides.extend(sides.iter().filter(|at| inside(**at) <= least + 2.0 * reach));
            near.add(part.part, first);
        }
        if near.within || !near.parts.is_empty() {
            near.borders = Self::nearest(&self.borders, &above.borders, (along, across), reach).collect();
        }
        near
    }

    /// The borders that are the nearest somewhere within `reach` of a point.
    fn nearest(
        segments: &[Segment],
        among: &[usize],
        (along, across): (f64, f64),
        reach: f64,
    ) -> impl Iterator<Item = usize> {
        let away = move |at: usize| segments[at].away(along, across).sqrt();
        let least = among.iter().map(|&at| away(at)).fold(f64::INFINITY, f64::min);
        among.iter().copied().filter(move |&at| away(at) <= least + 2.0 * reach)
    }

    fn cell(&mut self, grid: &Grid, block: &Block, near: &Candidates) -> Cell {
        let ((along, across), reach) = (grid.middle(block), grid.reach);
        let small = |at: usize| u16::try_from(at).ok();
        let first = self.lists.len();
        let mut within = near.within;
        let mut holding: Vec<(f64, usize)> = Vec::new();
        for part in near.parts.iter().filter(|_| !near.within) {
            let sides = near.sides_of(*part);
            let inside = |at: usize| self.sides[at].inside(along, across);
            let least = sides.iter().map(|&at| inside(at)).fold(f64::INFINITY, f64::min);
            if least < -reach {
                continue;
            }
            within |= least >= reach;
            if self.borders.is_empty() {
                // The sides of the one part that are the nearest somewhere in the cell.
                let near = sides.iter().copied().filter(|&at| inside(at) <= least + 2.0 * reach);
                self.lists.extend(near.filter_map(small));
            } else {
                holding.push((least, part.part));
            }
        }
        let parts = if within && !self.borders.is_empty() {
            usize::from(WITHIN)
        } else {
            // The part most likely to hold a point is asked first.
            holding.sort_by(|one, other| other.0.total_cmp(&one.0));
            self.lists.extend(holding.into_iter().filter_map(|(_, part)| small(part)));
            self.lists.len() - first
        };
        let listed = self.lists.len();
        if parts > 0 && !self.borders.is_empty() {
            let nearest = Self::nearest(&self.borders, &near.borders, (along, across), reach);
            self.lists.extend(nearest.filter_map(small));
        }
        Cell {
            first: u32::try_from(first).unwrap_or_default(),
            parts: small(parts).unwrap_or_default(),
            borders: small(self.lists.len() - listed).unwrap_or_default(),
        }
    }

    /// The cost of a look at it, in looks at a box.
    pub(super) fn looks(&self) -> u64 {
        self.looks
    }

    /// About how many steps it took to make.
    pub(super) fn weight(&self) -> u64 {
        let work = self.table.len() * (self.sides.len() + self.borders.len());
        number::from_size(work / 400).unsigned_abs() + 1
    }

    /// How deep the offset is inside; zero outside and on the border.
    pub(super) fn at(&self, along: f64, across: f64) -> f64 {
        self.look(along, across).map_or(0.0, |(depth, _)| depth)
    }

    /// The shortest way out, for an offset inside.
    pub(super) fn way_out(&self, along: f64, across: f64) -> Option<(f64, f64)> {
        let (depth, nearest) = self.look(along, across)?;
        if self.borders.is_empty() {
            let side = self.sides.get(nearest)?;
            return Some((side.along * depth, side.across * depth));
        }
        let point = self.borders.get(nearest)?.nearest(along, across);
        Some((point.0 - along, point.1 - across))
    }

    /// How deep an offset is inside, and which side or border is nearest.
    fn look(&self, along: f64, across: f64) -> Option<(f64, usize)> {
        if self.table.is_empty() {
            return self.look_at_all(along, across);
        }
        let column = number::whole_part((along - self.low.0) * self.scale.0).min(self.cells.0 - 1);
        let row = number::whole_part((across - self.low.1) * self.scale.1).min(self.cells.1 - 1);
        let cell = self.table[row * self.cells.0 + column];
        let first = usize::try_from(cell.first).ok().filter(|_| cell.parts > 0)?;
        let (mut least, mut nearest) = (f64::INFINITY, 0);
        if self.borders.is_empty() {
            for &side in &self.lists[first..first + usize::from(cell.parts)] {
                let inside = self.sides[usize::from(side)].inside(along, across);
                if inside < least {
                    (least, nearest) = (inside, side);
                }
            }
            return (least > 0.0).then_some((least, usize::from(nearest)));
        }
        let mut next = first;
        if cell.parts != WITHIN {
            next += usize::from(cell.parts);
            if !self.lists[first..next].iter().any(|&part| self.holds(self.parts[usize::from(part)], along, across)) {
                return None;
            }
        }
        for &border in &self.lists[next..next + usize::from(cell.borders)] {
            let away = self.borders[usize::from(border)].away(along, across);
            if away < least {
                (least, nearest) = (away, border);
            }
        }
        Some((least.sqrt(), usize::from(nearest)))
    }

    fn look_at_all(&self, along: f64, across: f64) -> Option<(f64, usize)> {
        let (mut least, mut nearest) = (f64::INFINITY, 0);
        if self.borders.is_empty() {
            for (at, side) in self.sides.iter().enumerate() {
                let inside = side.inside(along, across);
                if inside <= 0.0 {
                    return None;
                }
                if inside < least {
                    (least, nearest) = (inside, at);
                }
            }
            return Some((least, nearest));
        }
        if !self.parts.iter().any(|&part| self.holds(part, along, across)) {
            return None;
        }
        for (at, border) in self.borders.iter().enumerate() {
            let away = border.away(along, across);
            if away < least {
                (least, nearest) = (away, at);
            }
        }
        Some((least.sqrt(), nearest))
    }

    fn holds(&self, (first, last): (usize, usize), along: f64, across: f64) -> bool {
        self.sides[first..last].iter().all(|side| side.inside(along, across) > 0.0)
    }
}

/// What is lost in rounding, for a box of this size.
fn noise(low: (f64, f64), high: (f64, f64)) -> f64 {
    (high.0 - low.0).max(high.1 - low.1) * 1e-9
}

/// The part of the segment between two points that lies inside a convex part, as shares of its length.
fn clipped(sides: &[Side], from: (f64, f64), to: (f64, f64), noise: f64) -> Option<(f64, f64)> {
    let (mut start, mut end) = (0.0f64, 1.0f64);
    for side in sides {
        let (first, last) = (side.inside(from.0, from.1) - noise, side.inside(to.0, to.1) - noise);
        if first <= 0.0 && last <= 0.0 {
            return None;
        }
        if first < 0.0 {
            start = start.max(first / (first - last));
        } else if last < 0.0 {
            end = end.min(first / (first - last));
        }
    }
    (end > start).then_some((start, end))
}

#[cfg(test)]
mod tests;
