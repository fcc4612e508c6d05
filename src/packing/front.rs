//! Knapsacks as Pareto lists: for each size the most value, kept only where more size gives more.
//!
//! The length of such a list depends on how many sums of sizes matter, not on their unit. A list that grows too long
//! is thinned: pessimistically for a construction, optimistically for a bound.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use crate::number;

/// A choice of items: its size and value, and the node from which its items are looked up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Choice {
    pub(crate) size: i64,
    pub(crate) value: i64,
    node: u32,
}

/// An item that may be chosen several times.
#[derive(Clone, Copy, Debug)]
pub(crate) struct FrontItem {
    pub(crate) name: usize,
    pub(crate) size: i64,
    pub(crate) value: i64,
    pub(crate) most: i64,
}

/// One item added to an older choice.
#[derive(Clone, Copy, Debug)]
struct Node {
    before: u32,
    name: usize,
    times: i64,
}

/// How to thin a list that grows too long.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Thinning {
    /// Drops choices; those kept are feasible.
    Dropping,
    /// Merges two choices into one with the size of the smaller and the value of the greater; no feasible choice is
    /// better.
    Promising,
}

/// The list, and a buffer for building the next.
#[derive(Debug)]
pub(crate) struct Front {
    pub(crate) choices: Vec<Choice>,
    next: Vec<Choice>,
    nodes: Vec<Node>,
    capacity: i64,
    most: usize,
    thinning: Thinning,
    /// Number of choices looked at so far.
    pub(crate) looked: usize,
}

impl Front {
    pub(crate) fn new(most: usize, thinning: Thinning) -> Self {
        Self {
            choices: Vec::new(),
            next: Vec::new(),
            nodes: Vec::new(),
            capacity: 0,
            most: most.max(4),
            thinning,
            looked: 0,
        }
    }

    /// Starts again with nothing chosen.
    pub(crate) fn clear(&mut self, capacity: i64) {
        self.capacity = capacity;
        self.nodes.clear();
        self.choices.clear();
        self.choices.push(Choice { size: 0, value: 0, node: u32::MAX });
    }

    /// Adds an item to choose from.
    pub(crate) fn add(&mut self, item: FrontItem) {
        if item.size <= 0 || item.value <= 0 {
            return;
        }
        let mut left = item.most.min(self.capacity / item.size);
        let mut times = 1;
        while left > 0 {
            let now = times.min(left);
            left -= now;
            times = now.saturating_mul(2);
            self.merge(item, now);
        }
    }

    fn merge(&mut self, item: FrontItem, times: i64) {
        let Some(more) = item.size.checked_mul(times).filter(|&size| size <= self.capacity) else { return };
        let gain = item.value.saturating_mul(times);
        self.next.clear();
        let (mut old, mut new) = (0, 0);
        let mut value = i64::MIN;
        let top = self.capacity - more;
        loop {
            let shifted = self.choices.get(new).filter(|choice| choice.size <= top);
            let kept = match (self.choices.get(old), shifted) {
                (Some(&choice), Some(shift)) if choice.size <= shift.size + more => {
                    old += 1;
                    choice
                }
                (Some(&choice), None) => {
                    old += 1;
                    choice
                }
                (_, Some(&shift)) => {
                    new += 1;
                    let gained = shift.value.saturating_add(gain);
                    if gained <= value {
                        continue;
                    }
                    let Ok(node) = u32::try_from(self.nodes.len()) else { continue };
                    self.nodes.push(Node { before: shift.node, name: item.name, times });
                    Choice { size: shift.size + more, value: gained, node }
                }
                (None, None) => break,
            };
            if kept.value > value {
                value = kept.value;
                // Of two choices of one size the later is the better.
                self.next.pop_if(|last| last.size == kept.size);
                self.next.push(kept);
            }
        }
        self.looked += old + new;
        std::mem::swap(&mut self.choices, &mut self.next);
        if self.choices.len() > self.most {
            self.thin();
        }
    }

    /// Halves the list pair by pair; the empty choice and the most valuable one stay.
    fn thin(&mut self) {
        let last = self.choices.len() - 1;
        self.next.clear();
        self.next.push(self.choices[0]);
        let mut at = 1;
        while at < last {
            let (first, second) = (self.choices[at], self.choices[at + 1]);
            self.next.push(match self.thinning {
                Thinning::Dropping => first,
                Thinning::Promising => Choice { size: first.size, ..second },
            });
            at += 2;
        }
        self.next.push(self.choices[last]);
        std::mem::swap(&mut self.choices, &mut self.next);
    }

    /// The most valuable choice within a size.
    pub(crate) fn within(&self, size: i64) -> Choice {
        let after = self.choices.partition_point(|choice| choice.size <= size);
        self.choices[after.saturating_sub(1)]
    }

    /// The most valuable choice.
    pub(crate) fn last(&self) -> Choice {
        self.choices[self.choices.len() - 1]
    }

    /// Adds what was chosen to `into`: the names of the items and how many.
    pub(crate) fn add_chosen(&self, choice: Choice, into: &mut Vec<(usize, i64)>) {
        let mut at = choice.node;
        while let Some(node) = number::count(i64::from(at)).and_then(|at| self.nodes.get(at)) {
            match into.iter_mut().find(|(name, _)| *name == node.name) {
                Some((_, times)) => *times += node.times,
                None => into.push((node.name, node.times)),
            }
            at = node.before;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The most value within a size, by trying every number of every item.
    fn all(items: &[FrontItem], size: i64) -> i64 {
        let Some((item, rest)) = items.split_first() else { return 0 };
        (0..=item.most)
            .take_while(|times| times * item.size <= size)
            .map(|times| times * item.value + all(rest, size - times * item.size))
            .max()
            .unwrap_or(0)
    }

    fn filled(most: usize, thinning: Thinning, capacity: i64, items: &[(i64, i64, i64)]) -> Front {
        let mut front = Front::new(most, thinning);
        front.clear(capacity);
        for (name, &(size, value, most)) in items.iter().enumerate() {
            front.add(FrontItem { name, size, value, most });
        }
        front
    }

    fn told(front: &Front) -> Vec<(i64, i64)> {
        front.choices.iter().map(|choice| (choice.size, choice.value)).collect()
    }

    #[test]
    fn a_choice_stays_where_more_size_gives_more() {
        let of = |items: &[(i64, i64, i64)]| told(&filled(99, Thinning::Dropping, 10, items));
        assert_eq!(of(&[(3, 7, 2)]), [(0, 0), (3, 7), (6, 14)]);
        assert_eq!(of(&[(3, 7, 9)]), [(0, 0), (3, 7), (6, 14), (9, 21)], "within 10");
        assert_eq!(of(&[(5, 7, 9), (4, 7, 1)]), [(0, 0), (4, 7), (9, 14)], "5 for 7 is too much");
        assert_eq!(of(&[(5, 7, 9), (5, 8, 1)]), [(0, 0), (5, 8), (10, 15)], "the better of one size");
        assert_eq!(of(&[(5, 8, 1), (5, 7, 9)]), [(0, 0), (5, 8), (10, 15)]);
        for nothing in [(0, 7, 2), (-1, 7, 2), (3, 0, 2), (3, -1, 2), (3, 7, 0), (11, 7, 2)] {
            assert_eq!(of(&[nothing]), [(0, 0)], "{nothing:?}");
        }
        assert_eq!(of(&[(10, 1, 1)]), [(0, 0), (10, 1)]);
    }

    #[test]
    fn what_is_looked_at_is_what_was_kept_and_what_was_made() {
        // One kept and one made, then two kept and two made, at last one more of three: three kept, and two made
        // within 10. Only what is better than all that is smaller is remembered: 3, 6, 9.
        let front = filled(99, Thinning::Dropping, 10, &[(3, 7, 1)]);
        assert_eq!((front.looked, front.nodes.len()), (1 + 1, 1));
        let front = filled(99, Thinning::Dropping, 10, &[(3, 7, 2)]);
        assert_eq!((front.looked, front.nodes.len()), (2 + 2 + 2, 2));
        // Behind one for 7 at 4, a second for less at 5 is looked at and not remembered; both are, for 13 at 9.
        let front = filled(99, Thinning::Dropping, 10, &[(4, 7, 1), (5, 6, 1)]);
        assert_eq!((front.looked, front.nodes.len(), told(&front)), (2 + 4, 2, vec![(0, 0), (4, 7), (9, 13)]));
        // Cleared, nothing is remembered, but what was looked at still counts.
        let mut front = front;
        front.clear(5);
        assert_eq!((front.looked, front.nodes.len(), told(&front)), (6, 0, vec![(0, 0)]));
    }

    #[test]
    fn a_list_that_is_too_long_is_halved_and_errs_to_its_side() {
        // 0, 1, 2, 3 and 4 for 10 each: of five choices the first and the last stay, of the rest one of two.
        let items = [(1, 10, 1), (2, 20, 1), (1, 10, 1)];
        let of = |most, thinning| told(&filled(most, thinning, 10, &items));
        assert_eq!(of(5, Thinning::Dropping), [(0, 0), (1, 10), (2, 20), (3, 30), (4, 40)]);
        assert_eq!(of(4, Thinning::Dropping), [(0, 0), (1, 10), (3, 30), (4, 40)]);
        assert_eq!(of(4, Thinning::Promising), [(0, 0), (1, 20), (3, 40), (4, 40)]);
        assert_eq!(of(1, Thinning::Dropping), of(4, Thinning::Dropping), "never under four");
        // An even list: the last but one pair is 3 and 4 themselves, with 5 behind them.
        let items = [(1, 10, 1), (2, 20, 1), (2, 20, 1)];
        let of = |thinning| told(&filled(5, thinning, 10, &items));
        assert_eq!(of(Thinning::Dropping), [(0, 0), (1, 10), (3, 30), (5, 50)]);
        assert_eq!(of(Thinning::Promising), [(0, 0), (1, 20), (3, 40), (5, 50)]);
    }

    #[test]
    fn the_choice_within_a_size_is_the_last_that_is_no_larger() {
        let front = filled(99, Thinning::Dropping, 10, &[(3, 7, 1), (5, 9, 1)]);
        assert_eq!([0, 2, 3, 4, 5, 7, 8, 99].map(|size| front.within(size).value), [0, 0, 7, 7, 9, 9, 16, 16]);
        let mut chosen = vec![(1, 4)];
        front.add_chosen(front.last(), &mut chosen);
        assert_eq!(chosen, [(1, 5), (0, 1)], "added to what was there");
    }

    #[test]
    fn every_size_has_its_most_worth_and_thinning_errs_to_its_side() {
        let mut rng = fastrand::Rng::with_seed(3);
        for _ in 0..300 {
            let items: Vec<FrontItem> = (0..rng.usize(1..5))
                .map(|name| FrontItem { name, size: rng.i64(1..12), value: rng.i64(0..20), most: rng.i64(0..5) })
                .collect();
            let capacity = rng.i64(0..40);
            let fill = |most, thinning| {
                let mut front = Front::new(most, thinning);
                front.clear(capacity);
                for &item in &items {
                    front.add(item);
                }
                front
            };
            let exact = fill(1000, Thinning::Dropping);
            let (worse, better) = (fill(4, Thinning::Dropping), fill(4, Thinning::Promising));
            for size in 0..=capacity {
                let best = all(&items, size);
                let choice = exact.within(size);
                assert_eq!(choice.value, best);
                assert!(worse.within(size).value <= best && better.within(size).value >= best);
                let mut chosen = Vec::new();
                exact.add_chosen(choice, &mut chosen);
                let sum = |each: fn(&FrontItem) -> i64| {
                    chosen.iter().map(|&(at, times)| times * each(&items[at])).sum::<i64>()
                };
                assert_eq!((sum(|item| item.value), sum(|item| item.size)), (choice.value, choice.size));
                assert!(chosen.iter().all(|&(at, times)| times <= items[at].most));
            }
        }
    }
}
