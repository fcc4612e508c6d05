//! What is found: each place once, faults apart from what may be one.

use super::kind::Place;
use crate::diagnostic::Diagnostic;
use crate::engine::script_error::Marked;
use crate::engine::{ReadScript, ScriptError};
use std::collections::BTreeMap;

/// What a recipe's text shows.
#[derive(Debug, Default)]
pub(in crate::recipe::proof) struct Reading {
    /// What is wrong whatever the order says.
    pub(in crate::recipe::proof) faults: Vec<Diagnostic>,
    /// What is of no use, or most likely not meant.
    pub(in crate::recipe::proof) cautions: Vec<Diagnostic>,
    /// What goes wrong on some ways only, with its file and byte: a run that passes there shows that it does not.
    pub(in crate::recipe::proof) doubts: Vec<(usize, usize, Diagnostic)>,
    /// How many places could not be looked at.
    pub(in crate::recipe::proof) unread: usize,
}

/// How sure a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sure {
    /// On some ways only, as far as can be told.
    Doubt,
    /// Of no harm to any order, or none that can be told.
    Caution,
    /// On every way that leads there.
    Certain,
}

#[derive(Debug)]
struct Finding {
    sure: Sure,
    problem: ScriptError,
    also: Vec<(Place, String)>,
    /// The calls that led there, the outermost first.
    trail: Vec<Place>,
    /// Whether it is found without what the recipe hands over.
    by_itself: bool,
}

/// What is found so far.
#[derive(Debug, Default)]
pub(super) struct Findings {
    by_place: BTreeMap<Place, Finding>,
}

impl Findings {
    /// Adds a finding. At one place the first that is certain stays, for the others follow from it.
    pub(super) fn add(
        &mut self,
        place: Place,
        sure: Sure,
        problem: ScriptError,
        also: Vec<(Place, String)>,
        trail: &[Place],
        by_itself: bool,
    ) {
        match self.by_place.get_mut(&place) {
            Some(known) if known.sure >= sure => known.by_itself |= by_itself,
            known => {
                let by_itself = by_itself || known.is_some_and(|known| known.by_itself);
                self.by_place.insert(place, Finding { sure, problem, also, trail: trail.to_vec(), by_itself });
            }
        }
    }

    /// The findings in words, by file and place.
    pub(super) fn told(self, files: &[&ReadScript]) -> Reading {
        let mut reading = Reading::default();
        for (place, finding) in self.by_place {
            let label = |place: Place, words: &str| files.get(place.file).map(|file| file.label(place.at, words));
            let caller = finding.trail.iter().rev().find(|caller| caller.file == 0).filter(|_| place.file != 0);
            // A helper file that is right by itself was handed something wrong.
            let (first, second) = match caller {
                Some(caller) if !finding.by_itself => (*caller, Some((place, "in the helper file"))),
                Some(caller) => (place, Some((*caller, "called from here"))),
                None => (place, None),
            };
            let problem =
                if first == place { finding.problem } else { ScriptError { marked: Marked::Whole, ..finding.problem } };
            let Some(mut told) = files.get(first.file).map(|file| file.found(first.at, problem)) else { continue };
            told.labels.extend(finding.also.iter().filter_map(|(place, words)| label(*place, words)));
            told.labels.extend(second.and_then(|(place, words)| label(place, words)));
            match finding.sure {
                Sure::Certain => reading.faults.push(told),
                Sure::Caution => reading.cautions.push(told),
                Sure::Doubt => reading.doubts.push((first.file, first.at, told)),
            }
        }
        reading
    }
}
