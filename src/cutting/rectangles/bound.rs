//! Lengths that no plan can go below, in exact whole numbers.
//!
//! Area over the width that can be filled at all, the longest piece, the pieces at the edge one behind another, and
//! dual feasible functions: sizes changed so that whatever fitted before still fits, the area then taken (Fekete and
//! Schepers, New classes of fast lower bounds for bin packing problems, 2001; Carlier, Clautiaux and Moukrim, New
//! reduction procedures and lower bounds for the two-dimensional bin packing problem with fixed orientation, 2007;
//! both from memory).
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::meter::Meter;
use super::parts::{Form, Parts, fits, wide};
use super::{Starts, bars};
use crate::quantity::number;

/// Tables of reachable sums go no further than this many entries, over all pieces.
const TABLE: i64 = 2_000_000;
/// Dual feasible functions are tried on so many pairs of function and form at most.
const TRIED: usize = 400_000;

/// A length of the endless room that no plan goes below, by what takes more work to know than [`bound`].
pub(super) fn harder(parts: &Parts, meter: &mut Meter<'_, '_>) -> i64 {
    let Some(last) = parts.endless() else { return 0 };
    let width = parts.rooms[last].width;
    let must = nowhere_else(parts, last);
    let counts = parts.counts();
    let whole = bars::bound(&must, &counts, width, meter);
    whole.max(in_step(&must, |kinds| bars::bound(kinds, &counts, width, meter)))
}

/// A length of the endless room that no plan goes below; 0 where there is none.
pub(super) fn bound(parts: &Parts) -> i64 {
    let Some(last) = parts.endless() else { return 0 };
    let width = parts.rooms[last].width;
    if width == 0 {
        // Narrower than the unit of the pieces: nothing lies here.
        return 0;
    }
    let limited = &parts.rooms[..last];
    let space: i128 = limited.iter().map(|room| i128::from(room.width) * i128::from(room.limit.unwrap_or(0))).sum();
    let must = fitting(parts, width);
    let counts = parts.counts();
    let reach = reachable_up_to(width, must.iter().flatten().map(|form| (form.across, counts[form.kind])));
    let area: i128 = (0..must.len())
        .filter_map(|kind| must[kind].first().map(|form| form.size() * i128::from(wide(counts[kind]))))
        .sum();
    let mut best = whole_up(area - space, i128::from(reach));
    let must = nowhere_else(parts, last);
    best =
        best.max(must.iter().filter_map(|forms| forms.iter().map(|f| f.start(0) + f.along).min()).max().unwrap_or(0));
    best = best.max(along_edge(&must, &counts));
    best = best.max(in_step(&must, |kinds| narrowed(kinds, &counts, width).max(along_edge(kinds, &counts))));
    best = best.max(narrowed(&must, &counts, width));
    if limited.is_empty() {
        best = shortened(&must, &counts, width, best);
        if parts.forms.iter().all(|form| form.starts.is_none()) {
            best = next_sum(best, parts, &counts);
        }
    }
    best
}

/// The ways in which each kind can lie on a room of that width.
fn fitting(parts: &Parts, width: i64) -> Vec<Vec<&Form>> {
    let mut forms: Vec<Vec<&Form>> = vec![Vec::new(); parts.kinds.len()];
    for form in parts.forms.iter().filter(|form| form.across <= width) {
        forms[form.kind].push(form);
    }
    forms
}

/// The same for the last room, without the kinds that can lie on another.
fn nowhere_else(parts: &Parts, last: usize) -> Vec<Vec<&Form>> {
    let mut forms = fitting(parts, parts.rooms[last].width);
    for form in &parts.forms {
        if parts.rooms[..last].iter().any(|room| fits(form, *room)) {
            forms[form.kind].clear();
        }
    }
    forms
}

/// The quotient, up, and not below zero.
fn whole_up(area: i128, width: i128) -> i64 {
    i64::try_from((area.max(0) + width - 1) / width.max(1)).unwrap_or(0)
}

/// Pieces at the edge lie one behind another.
fn along_edge(must: &[Vec<&Form>], counts: &[usize]) -> i64 {
    let edge = |forms: &Vec<&Form>| forms.first().filter(|form| form.at_edge).map_or(0, |form| form.along);
    must.iter().zip(counts).map(|(forms, &count)| edge(forms) * wide(count)).sum()
}

/// Pieces that follow one pattern take whole repeats of it, but for those that end last.
fn in_step(must: &[Vec<&Form>], mut bound: impl FnMut(&[Vec<&Form>]) -> i64) -> i64 {
    let mut patterns: Vec<Starts> = must.iter().flatten().filter_map(|form| form.starts).collect();
    patterns.sort_unstable_by_key(|starts| (starts.every, starts.first));
    patterns.dedup();
    let mut best = 0;
    for starts in patterns {
        let repeats = |along: i64| (along + starts.every - 1) / starts.every * starts.every;
        let longer = |form: &&Form| Form { along: repeats(form.along), starts: None, ..(*form).clone() };
        let follows = |forms: &&Vec<&Form>| forms.first().is_some_and(|form| form.starts == Some(starts));
        let spare = must.iter().filter(follows).flatten().map(|form| repeats(form.along) - form.along).max();
        let whole: Vec<Vec<Form>> = must
            .iter()
            .map(|forms| if follows(&forms) { forms.iter().map(longer).collect() } else { Vec::new() })
            .collect();
        let whole: Vec<Vec<&Form>> = whole.iter().map(|forms| forms.iter().collect()).collect();
        // A plan of length L becomes one of whole repeats, counted from the first start, no longer than L and the
        // spare; where that one ends is a multiple of the repeat.
        let length = bound(&whole);
        if length == 0 {
            continue;
        }
        best = best.max(repeats(length) - spare.unwrap_or(0) + starts.first);
    }
    best
}

/// Dual feasible functions on the width alone.
fn narrowed(must: &[Vec<&Form>], counts: &[usize], width: i64) -> i64 {
    let sizes = sizes_of(must.iter().flatten().map(|form| form.across), width);
    let mut best = 0;
    for function in functions(&sizes, must.len()) {
        let total: i128 = must
            .iter()
            .zip(counts)
            .map(|(forms, &count)| {
                let least = forms.iter().map(|form| function.of(form.across, width) * i128::from(form.along)).min();
                least.unwrap_or(0).saturating_mul(i128::from(wide(count)))
            })
            .fold(0, i128::saturating_add);
        let full = function.of(width, width);
        if full > 0 && total < i128::MAX / 2 {
            best = best.max(whole_up(total, full));
        }
    }
    best
}

/// Raises the bound as long as dual feasible functions on the length show that no plan of that length is there.
fn shortened(must: &[Vec<&Form>], counts: &[usize], width: i64, mut length: i64) -> i64 {
    if length == 0 {
        return 0;
    }
    let mut tried = 0;
    'longer: loop {
        let sizes = sizes_of(must.iter().flatten().map(|form| form.along), length);
        for function in functions(&sizes, must.len()) {
            tried += must.len() + 1;
            if tried > TRIED {
                return length;
            }
            let full = function.of(length, length).saturating_mul(i128::from(width));
            let mut total = 0i128;
            for (forms, &count) in must.iter().zip(counts) {
                let least = forms.iter().filter(|form| form.along <= length);
                let least = least.map(|form| function.of(form.along, length) * i128::from(form.across)).min();
                total = total.saturating_add(least.unwrap_or(0).saturating_mul(i128::from(wide(count))));
            }
            if full > 0 && full < i128::MAX / 2 && total > full {
                length += 1;
                continue 'longer;
            }
        }
        return length;
    }
}

/// Different sizes up to half the whole, falling, which the functions have as their parameters.
fn sizes_of(all: impl Iterator<Item = i64>, whole: i64) -> Vec<i64> {
    let mut sizes: Vec<i64> = all.flat_map(|size| [size, whole - size]).filter(|&s| s > 0 && s <= whole / 2).collect();
    sizes.sort_unstable();
    sizes.dedup();
    sizes
}

/// A dual feasible function, times a whole number that makes its values whole.
#[derive(Clone, Copy, Debug)]
enum Function {
    /// The size itself.
    Same,
    /// Small ones vanish, their complements take the whole.
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

fn functions(sizes: &[i64], kinds: usize) -> Vec<Function> {
    let most = TRIED / 10 / kinds.max(1);
    let mut functions = vec![Function::Same];
    functions.extend((1..=20).map(Function::Steps));
    for &size in sizes {
        functions.extend([Function::Without(size), Function::Multiples(size)]);
    }
    functions.truncate(most.max(1));
    functions
}

/// The greatest sum of sizes not above `width`; `width` itself where that would cost too much.
fn reachable_up_to(width: i64, sizes: impl Iterator<Item = (i64, usize)>) -> i64 {
    let Some(table) = sums(width, sizes) else { return width };
    let best = (0..table.len()).rev().find(|&sum| table[sum]).unwrap_or(0);
    number::from_size(best).max(1)
}

/// The first sum of lengths not below `length`.
fn next_sum(length: i64, parts: &Parts, counts: &[usize]) -> i64 {
    let longest = parts.forms.iter().map(|form| form.along).max().unwrap_or(0);
    let sizes = parts.forms.iter().map(|form| (form.along, counts[form.kind]));
    let Some(table) = sums(length.saturating_add(longest), sizes) else { return length };
    let from = number::count(length).unwrap_or(0);
    (from..table.len()).find(|&sum| table[sum]).map_or(length, number::from_size)
}

/// Which sums up to `most` there are of the sizes, each so many times at most.
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
