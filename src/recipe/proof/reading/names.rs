//! The names that a ticket has in the end: its figures and pieces, and what speaks of them.

use super::kind::Place;
use super::steps::OPEN;
use crate::engine::ScriptError;
use crate::engine::script_error::Marked;
use crate::quantity::nearest::nearest;
use std::collections::BTreeSet;

/// The names of one sort.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// Those that are written out, with [`OPEN`] for what is worked out in them.
    known: BTreeSet<String>,
    /// Whether there are others of which nothing is known.
    others: bool,
}

impl Names {
    /// Adds these names.
    pub(super) fn add(&mut self, names: impl IntoIterator<Item = String>) {
        for name in names {
            if name.chars().all(|c| c == OPEN) {
                self.others = true;
            } else {
                self.known.insert(name);
            }
        }
    }

    /// Whether a name is among them, or may be.
    pub(super) fn may_hold(&self, name: &str) -> bool {
        self.others || self.known.contains(name) || self.known.iter().any(|known| fits(known, name))
    }

    /// The names that are written out.
    pub(super) fn iter(&self) -> impl Iterator<Item = &str> {
        self.known.iter().map(String::as_str)
    }
}

/// Whether a name with something worked out in it may come out as another.
fn fits(open: &str, name: &str) -> bool {
    let Some((start, rest)) = open.split_once(OPEN) else { return false };
    let Some(mut left) = name.strip_prefix(start) else { return false };
    let mut parts: Vec<&str> = rest.split(OPEN).collect();
    let Some(end) = parts.pop() else { return false };
    for part in parts {
        let Some(at) = left.find(part) else { return false };
        left = left.get(at + part.len()..).unwrap_or_default();
    }
    left.len() >= end.len() && left.ends_with(end)
}

/// A name that is looked up once all are known.
#[derive(Debug)]
pub(super) struct Spoken {
    /// The call that speaks of it.
    pub(super) place: Place,
    /// The calls that led there.
    pub(super) trail: Vec<Place>,
    /// Which argument of it says the name.
    pub(super) argument: usize,
    /// The names it may be.
    pub(super) names: BTreeSet<String>,
    /// Whether it is written out in the call.
    pub(super) is_written: bool,
    /// Whether an example of a helper function speaks of it.
    pub(super) of_any_order: bool,
    /// Whether it may be the name of something that is sewn of several pieces.
    pub(super) loosely: bool,
}

impl Spoken {
    /// What is wrong with it, if anything is.
    pub(super) fn problem(&self, pieces: &Names) -> Option<ScriptError> {
        let missing: Vec<&String> = self.names.iter().filter(|name| !pieces.may_hold(name)).collect();
        let (first, all) = (missing.first()?, missing.len() == self.names.len());
        let near = nearest(first, pieces.iter());
        if !all || (self.loosely && near.is_none_or(|near| !is_slip(first, near))) {
            return None;
        }
        let problem = ScriptError::new(format!("there is no piece “{first}”")).marking(Marked::Argument(self.argument));
        Some(match near {
            Some(near) => problem.hinting(format!("did you mean “{near}”?")),
            None => problem,
        })
    }
}

/// Whether a name is another one mistyped, and not that one with more said of it.
fn is_slip(name: &str, near: &str) -> bool {
    let allowed = if name.chars().count() < 12 { 1 } else { 2 };
    strsim::damerau_levenshtein(name, near) <= allowed
}

/// Whether a word is one of these mistyped.
pub(super) fn is_near<'n>(word: &str, words: impl IntoIterator<Item = &'n String>) -> bool {
    nearest(word, words.into_iter().map(String::as_str)).is_some_and(|near| is_slip(word, near))
}
