//! Lower bounds on the length, in exact whole numbers.
//!
//! Area over the width that can be filled at all, the longest piece, the pieces at the edge end to end, and dual
//! feasible functions: sizes changed so that whatever fitted still fits, then the area (Fekete and Schepers, New
//! classes of fast lower bounds for bin packing problems, 2001; Carlier, Clautiaux and Moukrim, New reduction
//! procedures and lower bounds for the two-dimensional bin packing problem with fixed orientation, 2007; both from
//! memory).
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

#[cfg(test)]
mod tests;

use super::prepared::{Prepared, Shape, fits, wide};
use crate::number;
use crate::problem::Starts;

/// The most entries of a table of reachable sums, times the number of sizes.
const TABLE: i64 = 2_000_000;
/// The most pairs of function and shape on which dual feasible functions are tried.
const TRIED: usize = 400_000;

/// A lower bound on the length of the endless stretch; 0 if there is none.
pub(super) fn bound(prepared: &Prepared) -> i64 {
    let Some(last) = prepared.endless() else { return 0 };
    let width = prepared.stretches[last].width;
    if width == 0 {
        // Narrower than the unit of the pieces: nothing fits.
        return 0;
    }
    let limited = &prepared.stretches[..last];
    let spaces = limited.iter().filter_map(|room| Some(i128::from(room.width) * i128::from(room.length?)));
    let space: i128 = spaces.sum();
    let must = fitting(prepared, width);
    let counts = prepared.counts();
    let reach = reachable_up_to(width, must.iter().flatten().map(|shape| (shape.across, counts[shape.item])));
    let area: i128 = (0..must.len())
        .filter_map(|item| must[item].first().map(|shape| shape.size() * i128::from(wide(counts[item]))))
        .sum();
    let mut best = whole_up(area - space, i128::from(reach));
    let must = nowhere_else(prepared, last);
    best =
        best.max(must.iter().filter_map(|shapes| shapes.iter().map(|f| f.start(0) + f.along).min()).max().unwrap_or(0));
    best = best.max(along_edge(&must, &counts));
    best = best.max(in_step(&must, |items| narrowed(items, &counts, width).max(along_edge(items, &counts))));
    best = best.max(narrowed(&must, &counts, width));
    if limited.is_empty() {
        best = shortened(&must, &counts, width, best);
        if prepared.shapes.iter().all(|shape| shape.starts.is_none()) {
            best = next_sum(best, prepared, &counts);
        }
    }
    best
}

/// The orientations of each kind that fit a stretch of that width.
fn fitting(prepared: &Prepared, width: i64) -> Vec<Vec<&Shape>> {
    let mut shapes: Vec<Vec<&Shape>> = vec![Vec::new(); prepared.items.len()];
    for shape in prepared.shapes.iter().filter(|shape| shape.across <= width) {
        shapes[shape.item].push(shape);
    }
    shapes
}

/// The same for the last stretch, without the kinds that fit on another.
fn nowhere_else(prepared: &Prepared, last: usize) -> Vec<Vec<&Shape>> {
    let mut shapes = fitting(prepared, prepared.stretches[last].width);
    for shape in &prepared.shapes {
        if prepared.stretches[..last].iter().any(|stretch| fits(shape, *stretch)) {
            shapes[shape.item].clear();
        }
    }
    shapes
}

/// The quotient, rounded up and at least zero.
fn whole_up(area: i128, width: i128) -> i64 {
    i64::try_from((area.max(0) + width - 1) / width).unwrap_or(0)
}

/// The length of the pieces at the edge, end to end.
fn along_edge(must: &[Vec<&Shape>], counts: &[usize]) -> i64 {
    let edge = |shapes: &Vec<&Shape>| shapes.first().filter(|shape| shape.at_edge).map_or(0, |shape| shape.along);
    must.iter().zip(counts).map(|(shapes, &count)| edge(shapes) * wide(count)).sum()
}

/// The bound from patterns: pieces that follow one take whole repeats of it, except those that end last.
fn in_step(must: &[Vec<&Shape>], mut bound: impl FnMut(&[Vec<&Shape>]) -> i64) -> i64 {
    let mut patterns: Vec<Starts> = must.iter().flatten().filter_map(|shape| shape.starts).collect();
    patterns.sort_unstable_by_key(|starts| (starts.every, starts.first));
    patterns.dedup();
    let mut best = 0;
    for starts in patterns {
        let repeats = |along: i64| (along + starts.every - 1) / starts.every * starts.every;
        let longer = |shape: &&Shape| Shape { along: repeats(shape.along), starts: None, ..(*shape).clone() };
        let follows = |shapes: &&Vec<&Shape>| shapes.first().is_some_and(|shape| shape.starts == Some(starts));
        let spare = must.iter().filter(follows).flatten().map(|shape| repeats(shape.along) - shape.along).max();
        let whole: Vec<Vec<Shape>> = must
            .iter()
            .map(|shapes| if follows(&shapes) { shapes.iter().map(longer).collect() } else { Vec::new() })
            .collect();
        let whole: Vec<Vec<&Shape>> = whole.iter().map(|shapes| shapes.iter().collect()).collect();
        // A plan of length L becomes one of whole repeats, counted from the first start, no longer than L plus the
        // spare; its end is a multiple of the repeat.
        best = best.max(repeats(bound(&whole)) - spare.unwrap_or(0) + starts.first);
    }
    best
}

/// Dual feasible functions on the width alone.
fn narrowed(must: &[Vec<&Shape>], counts: &[usize], width: i64) -> i64 {
    let sizes = sizes_of(must.iter().flatten().map(|shape| shape.across), width);
    let mut best = 0;
    for function in functions(&sizes, must.len()) {
        let total: i128 = must
            .iter()
            .zip(counts)
            .map(|(shapes, &count)| {
                let least = shapes.iter().map(|shape| function.of(shape.across, width) * i128::from(shape.along)).min();
                least.unwrap_or(0) * i128::from(wide(count))
            })
            .sum();
        best = best.max(whole_up(total, function.of(width, width)));
    }
    best
}

/// Raises the bound as long as dual feasible functions on the length show that there is no plan of that length.
fn shortened(must: &[Vec<&Shape>], counts: &[usize], width: i64, mut length: i64) -> i64 {
    if length == 0 {
        return 0;
    }
    let mut tried = 0;
    'longer: loop {
        let sizes = sizes_of(must.iter().flatten().map(|shape| shape.along), length);
        for function in functions(&sizes, must.len()) {
            tried += must.len() + 1;
            if tried > TRIED {
                return length;
            }
            let full = function.of(length, length) * i128::from(width);
            let mut total = 0i128;
            for (shapes, &count) in must.iter().zip(counts) {
                let least = shapes.iter().filter(|shape| shape.along <= length);
                let least = least.map(|shape| function.of(shape.along, length) * i128::from(shape.across)).min();
                total += least.unwrap_or(0) * i128::from(wide(count));
            }
            if total > full {
                length += 1;
                continue 'longer;
            }
        }
        return length;
    }
}

/// The different sizes and complements up to half the whole, ascending: the parameters of the functions.
fn sizes_of(all: impl Iterator<Item = i64>, whole: i64) -> Vec<i64> {
    let mut sizes: Vec<i64> = all.flat_map(|size| [size, whole - size]).filter(|&s| s > 0 && s <= whole / 2).collect();
    sizes.sort_unstable();
    sizes.dedup();
    sizes
}

/// A dual feasible function, times a whole number that makes its values whole: at most 21 times the size, so that
/// areas stay far within their type.
#[derive(Clone, Copy, Debug)]
enum Function {
    /// The size itself.
    Same,
    /// Small sizes become zero, their complements the whole.
    Without(i64),
    /// Rounded down to multiples, symmetric about the half.
    Multiples(i64),
    /// Steps of the whole over k.
    Steps(i64),
}

impl Function {
    fn of(self, size: i64, whole: i64) -> i128 {
        match self {
            Self::Without(small) if size > whole - small => i128::from(whole),
            Self::Without(small) if size < small => 0,
            Self::Same | Self::Without(_) => i128::from(size),
            Self::Multiples(unit) => {
                let doubled = i128::from(size) * 2;
                match doubled.cmp(&i128::from(whole)) {
                    std::cmp::Ordering::Greater => 2 * i128::from(whole / unit - (whole - size) / unit),
                    std::cmp::Ordering::Equal => i128::from(whole / unit),
                    std::cmp::Ordering::Less => 2 * i128::from(size / unit),
                }
            }
            Self::Steps(k) => {
                let (size, whole, k) = (i128::from(size), i128::from(whole), i128::from(k));
                let raised = size * (k + 1);
                if raised % whole == 0 { size * k } else { raised / whole * whole }
            }
        }
    }
}

fn functions(sizes: &[i64], items: usize) -> Vec<Function> {
    let most = TRIED / 10 / items.max(1);
    let mut functions = vec![Function::Same];
    functions.extend((1..=20).map(Function::Steps));
    for &size in sizes {
        functions.extend([Function::Without(size), Function::Multiples(size)]);
    }
    functions.truncate(most.max(1));
    functions
}

/// The greatest sum of sizes not above `width`; `width` itself if that would cost too much.
fn reachable_up_to(width: i64, sizes: impl Iterator<Item = (i64, usize)>) -> i64 {
    let Some(table) = sums(width, sizes) else { return width };
    (1..table.len()).rev().find(|&sum| table[sum]).map_or(1, number::from_size)
}

/// The least sum of lengths not below `length`.
fn next_sum(length: i64, prepared: &Prepared, counts: &[usize]) -> i64 {
    let longest = prepared.shapes.iter().map(|shape| shape.along).max().unwrap_or(0);
    let sizes = prepared.shapes.iter().map(|shape| (shape.along, counts[shape.item]));
    let Some(table) = sums(length.saturating_add(longest), sizes) else { return length };
    let Some(from) = number::count(length) else { return length };
    (from..table.len()).find(|&sum| table[sum]).map_or(length, number::from_size)
}

/// Which sums up to `most` can be reached, each size taken at most as often as its count; `None` if too large.
fn sums(most: i64, sizes: impl Iterator<Item = (i64, usize)>) -> Option<Vec<bool>> {
    let sizes: Vec<(i64, usize)> = sizes.collect();
    if most.checked_mul(number::from_size(sizes.len()).max(1))? > TABLE {
        return None;
    }
    let length = number::count(most)? + 1;
    let mut reached = vec![false; length];
    reached[0] = true;
    let mut used = vec![0usize; length];
    for (size, count) in sizes {
        let size = number::count(size)?;
        used.fill(0);
        for sum in size..length {
            if !reached[sum] && reached[sum - size] && used[sum - size] < count {
                reached[sum] = true;
                used[sum] = used[sum - size] + 1;
            }
        }
    }
    Some(reached)
}
