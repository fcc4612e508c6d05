//! The steps of a work sheet: what stands in braces, and what is written out though the tape decides how it reads.

use super::kind::Place;
use crate::engine::ScriptError;
use crate::quantity::Reading;
use crate::quantity::literal::{LiteralValue, read_quantity};
use crate::quantity::nearest::nearest;

/// Stands in a step for what is not known before the recipe runs.
pub(super) const OPEN: char = '\u{0}';

/// A text that a recipe says, and where its parts are written.
#[derive(Clone, Debug, Default)]
pub(super) struct Said {
    /// The text.
    pub(super) text: String,
    /// Where in it each part begins, and where that is written.
    parts: Vec<(usize, Place)>,
}

impl Said {
    /// A text of which the place is of no interest.
    pub(super) fn of(text: &str) -> Self {
        Self { text: text.to_owned(), parts: Vec::new() }
    }

    /// A text that is written at a place.
    pub(super) fn at(text: &str, place: Place) -> Self {
        Self { text: text.to_owned(), parts: vec![(0, place)] }
    }

    /// Adds a part that is written at a place.
    pub(super) fn add(&mut self, text: &str, place: Place) {
        self.parts.push((self.text.len(), place));
        self.text.push_str(text);
    }

    /// Where a byte of it is written.
    pub(super) fn place_of(&self, at: usize) -> Option<Place> {
        self.parts.iter().rev().find(|(start, _)| *start <= at).map(|(_, place)| *place)
    }
}

/// What is wrong with the text of a step, given the names it may use. `loosely` lets those pass that are like none of
/// the known ones. Each with its byte in the text.
pub(super) fn problems<'n>(
    text: &str,
    may_be: impl Fn(&str) -> bool,
    known: impl Fn() -> Vec<&'n str>,
    loosely: bool,
) -> Vec<(usize, ScriptError)> {
    let mut problems = Vec::new();
    let mut rest = text;
    let mut outside = String::new();
    while let Some((before, after)) = rest.split_once('{') {
        let at = text.len() - rest.len() + before.len();
        let (before, dollar) = before.strip_suffix('$').map_or((before, false), |before| (before, true));
        outside.push_str(before);
        outside.push(OPEN);
        let Some((name, after)) = after.split_once('}') else {
            problems.push((at, unclosed()));
            rest = after;
            continue;
        };
        if name.contains('{') {
            problems.push((at, unclosed()));
            rest = text_after(rest);
            continue;
        }
        rest = after;
        let name = name.trim();
        if dollar {
            let problem =
                ScriptError::new(format!("${{{name}}} stands in a text with “\"”, where it is not worked out"));
            let hint = format!("write {{{name}}} for a figure or an input, or begin and end the text with `");
            problems.push((at, problem.hinting(hint)));
            continue;
        }
        let is_measure = matches!(read_quantity(name, Reading::default()), Ok(LiteralValue::Quantity(_)));
        if may_be(name) || is_measure {
            continue;
        }
        let near = nearest(name, known()).map(shown);
        // Of a name that is worked out nothing is known.
        let is_open = name.chars().all(|c| c == OPEN || c.is_whitespace());
        if is_open || (loosely && near.is_none()) {
            continue;
        }
        let problem = ScriptError::new(format!("{{{}}} is no figure and no input", shown(name)));
        problems.push((at, problem.with_hint(near.map(|near| format!("did you mean {{{near}}}?")))));
    }
    outside.push_str(rest);
    if let Some((found, problem)) = measure_written_out(&outside) {
        problems.push((text.find(&found).unwrap_or(0), problem));
    }
    problems
}

fn unclosed() -> ScriptError {
    ScriptError::new("a brace is opened in this step and not closed").hinting("end it with }")
}

/// What stands behind the first brace.
fn text_after(text: &str) -> &str {
    text.split_once('{').map_or("", |(_, after)| after)
}

/// A name as it is written, with a sign where something is worked out in it.
fn shown(name: &str) -> String {
    name.replace(OPEN, "…")
}

/// A measure outside of braces, which stays as it is on the other tape; first its number as it is written.
fn measure_written_out(outside: &str) -> Option<(String, ScriptError)> {
    let words: Vec<&str> = outside.split_whitespace().collect();
    let clean = |word: &str| word.trim_matches(|c: char| ",;:()".contains(c)).trim_end_matches('.').to_owned();
    let found = words.windows(2).enumerate().find_map(|(at, pair)| {
        let [number, unit] = pair else { return None };
        let (number, unit) = (clean(number), clean(unit));
        let counts = number.chars().any(|c| c.is_ascii_digit())
            && number.chars().all(|c| c.is_ascii_digit() || "./,½¼¾⅛⅜⅝⅞".contains(c));
        // A machine's stitch is set in millimetres whatever the tape.
        let is_stitch = words.iter().take(at).rev().take(3).any(|word| clean(word) == "stitch");
        let is_unit = ["in", "cm", "yd", "ft", "m"].contains(&unit.as_str()) || (unit == "mm" && !is_stitch);
        (counts && is_unit).then_some((number, unit))
    })?;
    let (number, unit) = found;
    let problem = format!("{number} {unit} is written out in this step and stays so on the other tape");
    let problem = ScriptError::new(problem).hinting(format!("write {{{number} {unit}}}"));
    Some((number, problem))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &[&str]) {
        let found =
            problems(text, |name| ["hem", "panel length"].contains(&name), || vec!["hem", "panel length"], false);
        assert_eq!(found.iter().map(|(_, problem)| problem.message.as_str()).collect::<Vec<_>>(), expected, "{text}");
    }

    #[test]
    fn what_stands_in_braces_is_a_figure_an_input_or_a_measure() {
        check("Turn up {hem}, {1/4 in} under; cut {panel length} long.", &[]);
        check("Turn up {hemm}.", &["{hemm} is no figure and no input"]);
        check("Turn up {hem.", &["a brace is opened in this step and not closed"]);
        check("Turn up {hem and {panel length}.", &["a brace is opened in this step and not closed"]);
        check("Turn up ${hem}.", &["${hem} stands in a text with “\"”, where it is not worked out"]);
        check(&format!("Cut {{{OPEN} cut}} long."), &["{… cut} is no figure and no input"]);
    }

    #[test]
    fn a_measure_is_not_written_out() {
        let written = |measure: &str| format!("{measure} is written out in this step and stays so on the other tape");
        check("Turn up 2 cm of {hem}.", &[&written("2 cm")]);
        check("Turn in (1/2 in), then press.", &[&written("1/2 in")]);
        check("Gather 2 rows in the seam, 3 m.", &[&written("3 m")]);
        check("Sew 2 rows in it.", &[]);
        check("Sew it at a stitch of about 3 mm.", &[]);
        check("Turn 5 mm of it under.", &[&written("5 mm")]);
    }
}
