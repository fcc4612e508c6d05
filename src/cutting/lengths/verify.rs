//! Checks an answer from the problem alone: for tests, which trust nothing else.
#![cfg_attr(not(test), allow(dead_code, reason = "for tests"))]
#![allow(clippy::indexing_slicing, clippy::panic, reason = "for tests")]

use super::{Answer, Problem};

/// Panics with what is wrong.
pub(in crate::cutting) fn check(problem: &Problem, answer: &Answer) {
    let mut cut = vec![0_i128; problem.items.len()];
    let mut taken = vec![0_i128; problem.kinds.len()];
    let mut cost = 0_i128;
    for pattern in &answer.patterns {
        let kind = &problem.kinds[pattern.kind];
        assert!(pattern.times > 0 && !pattern.cuts.is_empty(), "an empty pattern");
        let mut used = 0_i128;
        for &(item, count) in &pattern.cuts {
            assert!(count > 0, "a cut of nothing");
            used += i128::from(problem.items[item].length) * i128::from(count);
            cut[item] += i128::from(count) * i128::from(pattern.times);
        }
        let rest = i128::from(kind.length) - used;
        assert!(rest >= 0, "too much on one length");
        taken[pattern.kind] += i128::from(pattern.times);
        let credit = match kind.rest {
            Some(kept) if rest > 0 && rest >= i128::from(kept.least) => {
                i128::from(kept.worth.min(kind.cost / kind.length)) * rest
            }
            _ => 0,
        };
        cost += (i128::from(kind.cost) - credit) * i128::from(pattern.times);
    }
    for (item, cut) in problem.items.iter().zip(cut) {
        assert_eq!(cut, i128::from(item.count), "not the pieces that were wanted");
    }
    for (kind, taken) in problem.kinds.iter().zip(taken) {
        assert!(kind.most.is_none_or(|most| taken <= i128::from(most)), "more than there are");
    }
    assert_eq!(cost, i128::from(answer.cost), "not the cost it says");
    assert!(answer.bound <= answer.cost && answer.proved == (answer.bound == answer.cost), "a wrong bound");
}
