//! What a recipe knows of its order in a branch: which inputs are given, and which words were chosen.

use crate::recipe::contract::input::Input;
use crate::recipe::contract::input_kind::InputKind;
use crate::ticket::TicketValue;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// When a yes or no is a yes.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Condition {
    /// An input is given.
    Given(String),
    /// An input that is given is one of these words; a yes or no is “yes” or “no”.
    Is(String, BTreeSet<String>),
    /// A variable has a value.
    Filled(String),
    /// The other way round.
    Not(Rc<Condition>),
    /// All of them.
    All(Vec<Condition>),
    /// At least one.
    Any(Vec<Condition>),
    /// Always or never.
    Known(bool),
}

/// What is known of one input.
#[derive(Clone, Debug, Default, PartialEq)]
struct Fact {
    given: Option<bool>,
    words: Option<BTreeSet<String>>,
}

/// What is known of an order where the script stands.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Facts {
    inputs: BTreeMap<String, Fact>,
}

/// The word for a yes or no.
pub(super) fn yes_no(flag: bool) -> String {
    if flag { "yes" } else { "no" }.to_owned()
}

/// The words of an input that is answered by one of few.
pub(super) fn words_of(input: &Input) -> Option<BTreeSet<String>> {
    match &input.kind {
        InputKind::Choice(words) => Some(words.iter().cloned().collect()),
        InputKind::YesNo => Some([true, false].map(yes_no).into()),
        _ => None,
    }
}

fn written(value: &TicketValue) -> Option<String> {
    match value {
        TicketValue::Text(text) => Some(text.clone()),
        TicketValue::Flag(flag) => Some(yes_no(*flag)),
        _ => None,
    }
}

impl Facts {
    /// What holds on either of two ways.
    pub(super) fn join(&self, other: &Self) -> Self {
        let shared = self.inputs.iter().filter_map(|(name, fact)| {
            let theirs = other.inputs.get(name)?;
            let words = fact.words.as_ref().zip(theirs.words.as_ref());
            let words = words.map(|(one, two)| one.union(two).cloned().collect());
            let given = fact.given.filter(|given| theirs.given == Some(*given));
            Some((name.clone(), Fact { given, words }))
        });
        Self { inputs: shared.collect() }
    }

    /// The words that an input may be here.
    pub(super) fn words(&self, input: &Input) -> Option<BTreeSet<String>> {
        let known = self.inputs.get(&input.name).and_then(|fact| fact.words.clone());
        known.or_else(|| words_of(input))
    }

    /// Whether an input is given, where that can be told.
    pub(super) fn is_given(&self, name: &str, inputs: &[Input]) -> Option<bool> {
        if let Some(given) = self.inputs.get(name).and_then(|fact| fact.given) {
            return Some(given);
        }
        let input = inputs.iter().find(|input| input.name == name)?;
        if let Some((other, wanted)) = &input.only_if {
            match self.is(other, wanted, inputs) {
                Some(true) => {}
                other => return other,
            }
        }
        if let Some(other) = &input.same_as {
            return self.is_given(other, inputs).filter(|given| *given);
        }
        (!input.optional).then_some(true)
    }

    /// Whether an input has a value, where that can be told.
    fn is(&self, name: &str, wanted: &TicketValue, inputs: &[Input]) -> Option<bool> {
        match self.is_given(name, inputs) {
            Some(true) => {}
            Some(false) => return Some(false),
            None => {
                // Where it is none of the wanted words, it makes no difference whether it is given.
                let words = self.inputs.get(name).and_then(|fact| fact.words.as_ref());
                let none = words.zip(written(wanted)).is_some_and(|(words, wanted)| !words.contains(&wanted));
                return none.then_some(false);
            }
        }
        let input = inputs.iter().find(|input| input.name == name)?;
        let (words, wanted) = (self.words(input)?, written(wanted)?);
        if !words.contains(&wanted) {
            return Some(false);
        }
        (words.len() == 1).then_some(true)
    }

    /// Whether a condition holds here, where that can be told.
    pub(super) fn holds(&self, condition: &Condition, inputs: &[Input]) -> Option<bool> {
        match condition {
            Condition::Known(known) => Some(*known),
            Condition::Given(name) => self.is_given(name, inputs),
            Condition::Filled(_) => None,
            Condition::Is(name, wanted) => {
                let input = inputs.iter().find(|input| input.name == *name)?;
                let words = self.words(input)?;
                if words.is_disjoint(wanted) {
                    return Some(false);
                }
                words.is_subset(wanted).then_some(true)
            }
            Condition::Not(inner) => self.holds(inner, inputs).map(|holds| !holds),
            Condition::All(all) => {
                let each: Vec<_> = all.iter().map(|one| self.holds(one, inputs)).collect();
                if each.contains(&Some(false)) {
                    return Some(false);
                }
                each.iter().all(|one| *one == Some(true)).then_some(true)
            }
            Condition::Any(any) => {
                let each: Vec<_> = any.iter().map(|one| self.holds(one, inputs)).collect();
                if each.contains(&Some(true)) {
                    return Some(true);
                }
                each.iter().all(|one| *one == Some(false)).then_some(false)
            }
        }
    }

    /// What is known where a condition holds, or does not.
    pub(super) fn assuming(&self, condition: &Condition, holds: bool, inputs: &[Input]) -> Self {
        let mut facts = self.clone();
        match condition {
            Condition::Known(_) | Condition::Filled(_) => {}
            Condition::Given(name) => facts.set_given(name, holds, inputs),
            Condition::Is(name, words) => {
                if let Some(input) = inputs.iter().find(|input| input.name == *name) {
                    let known = facts.words(input).unwrap_or_default();
                    let left = known.into_iter().filter(|word| words.contains(word) == holds).collect();
                    facts.inputs.entry(name.clone()).or_default().words = Some(left);
                    if holds {
                        facts.set_given(name, true, inputs);
                    }
                }
            }
            Condition::Not(inner) => return self.assuming(inner, !holds, inputs),
            Condition::All(all) if holds => {
                facts = all.iter().fold(facts, |facts, one| facts.assuming(one, true, inputs));
            }
            Condition::Any(any) if !holds => {
                facts = any.iter().fold(facts, |facts, one| facts.assuming(one, false, inputs));
            }
            // One of them must be the odd one; what all odd ones agree on is known.
            Condition::All(some) | Condition::Any(some) => {
                let ways = some.iter().map(|one| self.assuming(one, holds, inputs));
                facts = ways.reduce(|one, two| one.join(&two)).unwrap_or(facts);
            }
        }
        facts
    }

    /// An input that is given was asked for, so that what it hangs on holds; one that must be answered and is not given
    /// was not asked for.
    fn set_given(&mut self, name: &str, given: bool, inputs: &[Input]) {
        self.inputs.entry(name.to_owned()).or_default().given = Some(given);
        let Some(input) = inputs.iter().find(|input| input.name == name) else { return };
        let Some((other, wanted)) = &input.only_if else { return };
        let Some(wanted) = written(wanted) else { return };
        let Some(asked) = inputs.iter().find(|input| input.name == *other) else { return };
        let known = self.words(asked).unwrap_or_default();
        if given {
            self.set_given(other, true, inputs);
            let left = known.into_iter().filter(|word| *word == wanted).collect();
            self.inputs.entry(other.clone()).or_default().words = Some(left);
        } else if !input.optional && input.same_as.is_none() && self.is_given(other, inputs) == Some(true) {
            let left = known.into_iter().filter(|word| *word != wanted).collect();
            self.inputs.entry(other.clone()).or_default().words = Some(left);
        }
    }
}
