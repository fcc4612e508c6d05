//! Reading the arguments of a recipe's words, with faults that name the word and the argument.

use crate::engine::problem::Marked;
use crate::engine::{Problem, Value, value};
use crate::quantity::{Dimension, Length, Quantity, number};
use rhai::{Dynamic, EvalAltResult};

/// What a word answers to the script.
pub(super) type Answer<T> = Result<T, Box<EvalAltResult>>;

/// One argument of a word.
#[derive(Clone, Copy)]
pub(super) struct Argument<'a> {
    /// The word, such as `rectangle`.
    pub(super) word: &'a str,
    /// The argument's name.
    pub(super) name: &'a str,
    /// Its place in the call, from zero.
    pub(super) index: usize,
    /// What was given.
    pub(super) given: &'a Dynamic,
}

/// An argument of a word.
pub(super) fn argument<'a>(word: &'a str, name: &'a str, index: usize, given: &'a Dynamic) -> Argument<'a> {
    Argument { word, name, index, given }
}

impl Argument<'_> {
    /// A problem with this argument.
    pub(super) fn problem(&self, message: impl Into<String>) -> Problem {
        Problem::new(message).marking(Marked::Argument(self.index))
    }

    /// It is of another kind than needed.
    pub(super) fn must_be(&self, needed: &str) -> Problem {
        self.problem(format!("{} in {} must be {needed}, not {}", self.name, self.word, value::noun(self.given)))
    }

    /// A quantity of one dimension.
    pub(super) fn of(&self, dimension: Dimension) -> Result<Quantity, Problem> {
        value::quantity_from_script(self.given)
            .filter(|quantity| quantity.dimension() == dimension)
            .ok_or_else(|| self.must_be(&dimension.noun()))
    }

    /// A quantity of any dimension, or a plain number.
    pub(super) fn quantity(&self) -> Result<Quantity, Problem> {
        value::quantity_from_script(self.given).ok_or_else(|| self.must_be("a number or a measure"))
    }

    /// A length.
    pub(super) fn length(&self) -> Result<Length, Problem> {
        Ok(self.of(Dimension::LENGTH)?.try_into()?)
    }

    /// A length above zero.
    pub(super) fn positive_length(&self) -> Result<Length, Problem> {
        let length = self.length()?;
        if length.is_positive() && length.steps().is_finite() {
            return Ok(length);
        }
        let shown = crate::quantity::Style::default().show(length.into());
        Err(self.problem(format!("{} in {} is {shown}; it must be more than zero", self.name, self.word)))
    }

    /// A whole number of at least `least`.
    pub(super) fn count(&self, least: i64) -> Result<i64, Problem> {
        let plain = self.of(Dimension::NUMBER)?.plain()?;
        let Some(whole) = number::whole(plain) else {
            let shown = crate::quantity::Style::default().show_number(plain);
            let problem = self.problem(format!("{} in {} must be a whole number, not {shown}", self.name, self.word));
            return Err(problem.hinting("round it with up(…)"));
        };
        if whole < least {
            return Err(self.problem(format!("{} in {} is {whole}; the least is {least}", self.name, self.word)));
        }
        Ok(whole)
    }

    /// A text that is not empty.
    pub(super) fn text(&self) -> Result<String, Problem> {
        match Value::from_script(self.given) {
            Some(Value::Text(text)) if !text.trim().is_empty() => Ok(text),
            Some(Value::Text(_)) => Err(self.problem(format!("{} in {} is an empty text", self.name, self.word))),
            _ => Err(self.must_be("a text")),
        }
    }

    /// One of these words.
    pub(super) fn one_of<T: Copy>(&self, words: &[(&str, T)]) -> Result<T, Problem> {
        let text = self.text()?;
        words.iter().find(|(word, _)| *word == text).map(|(_, meaning)| *meaning).ok_or_else(|| {
            let known: Vec<String> = words.iter().map(|(word, _)| format!("\"{word}\"")).collect();
            self.problem(format!("{} in {} must be {}, not \"{text}\"", self.name, self.word, known.join(" or ")))
        })
    }
}
