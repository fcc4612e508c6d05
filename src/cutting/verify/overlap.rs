//! Finds rectangles on one length that overlap, by sweeping along it.
//!
//! Never here: what the rectangles are.

use std::collections::BTreeMap;

/// A rectangle on a length, in nanometres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Patch {
    pub(super) from: i64,
    pub(super) to: i64,
    pub(super) across_from: i64,
    pub(super) across_to: i64,
}

/// The running mark of the first place where two of them overlap; edges may touch.
pub(super) fn first_overlap(patches: &[Patch]) -> Option<i64> {
    // Ends come before starts at the same mark, so that touching is no overlap.
    let starts = patches.iter().enumerate().map(|(index, patch)| (patch.from, true, index, *patch));
    let ends = patches.iter().enumerate().map(|(index, patch)| (patch.to, false, index, *patch));
    let mut events: Vec<_> = starts.chain(ends).collect();
    events.sort_by_key(|(mark, start, index, _)| (*mark, *start, *index));
    let mut open: BTreeMap<i64, i64> = BTreeMap::new();
    for (mark, start, _, patch) in events {
        if !start {
            open.remove(&patch.across_from);
            continue;
        }
        let before = open.range(..=patch.across_from).next_back().is_some_and(|(_, end)| *end > patch.across_from);
        let after = open.range(patch.across_from..).next().is_some_and(|(begin, _)| *begin < patch.across_to);
        if before || after {
            return Some(mark);
        }
        open.insert(patch.across_from, patch.across_to);
    }
    None
}

/// The running mark of the first two that overlap and for which `matters` is true; edges may touch.
pub(super) fn first_meeting(patches: &[Patch], mut matters: impl FnMut(usize, usize) -> bool) -> Option<i64> {
    let mut order: Vec<(usize, &Patch)> = patches.iter().enumerate().collect();
    order.sort_by_key(|(index, patch)| (patch.from, *index));
    let mut open: Vec<(usize, &Patch)> = Vec::new();
    for (index, patch) in order {
        open.retain(|(_, earlier)| earlier.to > patch.from);
        let meets = |earlier: &Patch| earlier.across_from < patch.across_to && patch.across_from < earlier.across_to;
        if open.iter().any(|(other, earlier)| meets(earlier) && matters(*other, index)) {
            return Some(patch.from);
        }
        open.push((index, patch));
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_finds_what_comparing_all_pairs_finds() {
        let (mut seed, mut clear) = (1_u64, 0);
        let mut draw = |below: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            i64::try_from((seed >> 33) % below).unwrap()
        };
        for _ in 0..5_000 {
            let patches: Vec<Patch> = (0..5)
                .map(|_| {
                    let (from, across_from) = (draw(12), draw(12));
                    Patch { from, to: from + 1 + draw(4), across_from, across_to: across_from + 1 + draw(4) }
                })
                .collect();
            let meet = |a: &Patch, b: &Patch| {
                a.from < b.to && b.from < a.to && a.across_from < b.across_to && b.across_from < a.across_to
            };
            let slow = (0..5).any(|a| (0..a).any(|b| meet(&patches[a], &patches[b])));
            assert_eq!(first_overlap(&patches).is_some(), slow, "{patches:?}");
            assert_eq!(first_meeting(&patches, |_, _| true).is_some(), slow, "{patches:?}");
            let with_last = (0..4).any(|a| meet(&patches[a], &patches[4]));
            assert_eq!(first_meeting(&patches, |a, b| a.max(b) == 4).is_some(), with_last, "{patches:?}");
            clear += usize::from(!slow);
        }
        assert!((500..4_500).contains(&clear), "{clear} of 5000 are clear");
    }
}
