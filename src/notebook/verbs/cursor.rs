//! The slots at the cursor of a line that is being typed, by the forms of its verb.

use super::reading::{behind_keyword, clause_starts, divided};
use super::{Form, Part, Slot, Verb};

/// A slot that the word at the cursor may belong to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AtCursor {
    /// The slot; for clauses, the word is that of a clause.
    pub slot: Slot,
    /// Whether part of the slot is typed before the word.
    pub begun: bool,
}

impl Verb {
    /// The slots that the word at the end of `rest` may belong to, by the listed forms.
    pub fn at_cursor(&self, rest: &str) -> Vec<AtCursor> {
        self.found(self.forms.iter().filter(|form| form.listed), rest)
    }

    /// Whether `rest` can be continued to a line of one of the verb's forms.
    pub fn may_begin(&self, rest: &str) -> bool {
        let word = last_word(rest);
        let goes_on = |at: &AtCursor| match at.slot {
            Slot::Keyword(keyword, _) => keyword.starts_with(word),
            _ => true,
        };
        self.read(rest).is_ok() || self.found(self.forms.iter(), rest).iter().any(goes_on)
    }

    fn found<'f>(&self, forms: impl Iterator<Item = &'f Form>, rest: &str) -> Vec<AtCursor> {
        let before = rest.get(..rest.len() - last_word(rest).len()).unwrap_or_default();
        let mut found = Vec::new();
        for form in forms {
            self.look(form.parts, before, &mut found);
        }
        let mut slots: Vec<AtCursor> = Vec::with_capacity(found.len());
        for at in found {
            if !slots.contains(&at) {
                slots.push(at);
            }
        }
        slots
    }

    /// Skips the keywords in `before` and adds the slots that may follow.
    fn look(&self, parts: &[Part], before: &str, found: &mut Vec<AtCursor>) {
        let nothing_yet = before.trim().is_empty();
        match (parts, divided(parts)) {
            ([Part { slot, .. }, behind @ ..], Some(([], (word, _), _))) => {
                if nothing_yet {
                    found.push(AtCursor { slot: *slot, begun: false });
                } else if let Some(rest) = behind_keyword(before.trim_start(), word) {
                    self.look(behind, rest, found);
                }
            }
            (_, Some((values, (word, which), behind))) => {
                if let Some((_, rest)) = self.split(before, word, which) {
                    return self.look(behind, rest, found);
                }
                look_at_values(values, before, found);
                if !nothing_yet {
                    found.push(AtCursor { slot: Slot::Keyword(word, which), begun: false });
                }
            }
            (values, None) => look_at_values(values, before, found),
        }
    }
}

/// Adds the slots of values with no keyword between them: the first is one word unless it holds sums or any
/// words, and the second is the rest.
fn look_at_values(values: &[Part], before: &str, found: &mut Vec<AtCursor>) {
    let begun = !before.trim().is_empty();
    let (Some(first), second) = (values.first(), values.get(1)) else { return };
    if !begun || first.slot.holds_sums() || matches!(first.slot, Slot::Words | Slot::Topic) {
        found.push(AtCursor { slot: first.slot, begun });
    }
    match second.map(|part| part.slot) {
        Some(Slot::Clauses(forms)) if begun => {
            let within = clause_starts(before, forms).last().filter(|_| !before.trim_end().ends_with(',')).copied();
            let value = within.and_then(|(form, _, end)| Some((form.takes?, before.get(end..)?.trim())));
            match value {
                Some((takes, "")) => found.push(AtCursor { slot: takes, begun: false }),
                Some((Slot::Measure, _)) => found.push(AtCursor { slot: Slot::Measure, begun: true }),
                _ => {}
            }
            if value.is_none_or(|(_, value)| !value.is_empty()) {
                found.push(AtCursor { slot: Slot::Clauses(forms), begun: true });
            }
        }
        Some(slot) if begun => found.push(AtCursor { slot, begun: true }),
        _ => {}
    }
}

/// The text after the last space.
fn last_word(rest: &str) -> &str {
    rest.rsplit(char::is_whitespace).next().unwrap_or_default()
}
