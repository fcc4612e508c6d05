//! What is known where the script stands: its variables, and what it knows of the order.

use super::conditions::{Condition, Facts};
use super::kind::{Kind, Value};
use crate::recipe::contract::input::Input;

/// The variables and facts at one place of a script.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct State {
    /// The variables with their values, the innermost last.
    pub(super) scope: Vec<(String, Value)>,
    /// What is known of the order.
    pub(super) facts: Facts,
    /// Whether this place can be reached.
    pub(super) live: bool,
}

impl State {
    /// A state with these variables.
    pub(super) fn new(scope: Vec<(String, Value)>, facts: Facts) -> Self {
        Self { scope, facts, live: true }
    }

    /// The value of a variable.
    pub(super) fn get(&self, name: &str) -> Option<&Value> {
        self.scope.iter().rev().find(|(known, _)| known == name).map(|(_, value)| value)
    }

    /// Gives a variable another value.
    pub(super) fn set(&mut self, name: &str, value: Value) {
        if let Some((_, known)) = self.scope.iter_mut().rev().find(|(known, _)| known == name) {
            *known = value;
        }
    }

    /// The state where one way or the other was taken.
    pub(super) fn join(self, other: Self) -> Self {
        if !self.live {
            return other;
        }
        if !other.live {
            return self;
        }
        let facts = self.facts.join(&other.facts);
        let scope = self.scope.into_iter().zip(other.scope).map(|((name, one), (_, two))| (name, one.join(two)));
        Self { scope: scope.collect(), facts, live: true }
    }

    /// The state where a condition holds, or does not.
    pub(super) fn assuming(&self, condition: &Condition, holds: bool, inputs: &[Input]) -> Self {
        let mut state = self.clone();
        state.facts = self.facts.assuming(condition, holds, inputs);
        state.narrow(condition, holds);
        state
    }

    fn narrow(&mut self, condition: &Condition, holds: bool) {
        match condition {
            Condition::Filled(name) => {
                if let Some((_, value)) = self.scope.iter_mut().rev().find(|(known, _)| known == name) {
                    let narrowed = value.clone().keeping(|kind| (*kind == Kind::Nothing) != holds);
                    if !narrowed.is_never() {
                        *value = narrowed;
                    }
                }
            }
            Condition::Not(inner) => self.narrow(inner, !holds),
            Condition::All(all) if holds => all.iter().for_each(|one| self.narrow(one, true)),
            Condition::Any(any) if !holds => any.iter().for_each(|one| self.narrow(one, false)),
            _ => {}
        }
    }

    /// The same place where nothing is known: for a branch that is never taken, whose names are looked at all the same.
    pub(super) fn unknown(&self) -> Self {
        let scope = self.scope.iter().map(|(name, _)| (name.clone(), Value::unknown())).collect();
        Self { scope, facts: Facts::default(), live: true }
    }
}
