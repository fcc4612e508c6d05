//! Reading the arguments of a recipe's words, with errors that name the word and the argument.

use crate::engine::script_error::Marked;
use crate::engine::{ScriptError, Value, value};
use crate::quantity::{Dimension, Length, Quantity, number};
use rhai::{Dynamic, EvalAltResult};

/// What a word answers to the script.
pub(in crate::recipe) type ScriptResult<T> = Result<T, Box<EvalAltResult>>;

/// One argument of a word.
#[derive(Clone, Copy)]
pub(in crate::recipe) struct Argument<'a> {
    /// The word, such as `rectangle`; empty where no word was written.
    pub(in crate::recipe) word: &'a str,
    /// The argument's name.
    pub(in crate::recipe) name: &'a str,
    /// Its place in the call, from zero.
    pub(in crate::recipe) index: usize,
    /// What was given.
    pub(in crate::recipe) given: &'a Dynamic,
}

/// An argument of a word.
pub(in crate::recipe) fn argument<'a>(word: &'a str, name: &'a str, index: usize, given: &'a Dynamic) -> Argument<'a> {
    Argument { word, name, index, given }
}

impl Argument<'_> {
    /// A problem with this argument.
    pub(in crate::recipe) fn problem(&self, message: impl Into<String>) -> ScriptError {
        ScriptError::new(message).marking(Marked::Argument(self.index))
    }

    /// `width in any_roll`
    fn called(&self) -> String {
        if self.word.is_empty() { self.name.to_owned() } else { format!("{} in {}", self.name, self.word) }
    }

    /// It is of another kind than needed.
    pub(in crate::recipe) fn must_be(&self, needed: &str) -> ScriptError {
        self.problem(format!("{} must be {needed}, not {}", self.called(), value::noun(self.given)))
    }

    /// A quantity of one dimension.
    pub(in crate::recipe) fn of(&self, dimension: Dimension) -> Result<Quantity, ScriptError> {
        value::quantity_from_script(self.given)
            .filter(|quantity| quantity.dimension() == dimension)
            .ok_or_else(|| self.must_be(&dimension.noun()))
    }

    /// A quantity of any dimension, or a plain number.
    pub(in crate::recipe) fn quantity(&self) -> Result<Quantity, ScriptError> {
        value::quantity_from_script(self.given).ok_or_else(|| self.must_be("a number or a measure"))
    }

    /// A length.
    pub(in crate::recipe) fn length(&self) -> Result<Length, ScriptError> {
        Ok(self.of(Dimension::LENGTH)?.try_into()?)
    }

    /// A length above zero.
    pub(in crate::recipe) fn positive_length(&self) -> Result<Length, ScriptError> {
        let length = self.length()?;
        if length.is_positive() && length.steps().is_finite() {
            return Ok(length);
        }
        let shown = crate::quantity::Style::default().show(length.into());
        Err(self.problem(format!("{} is {shown}; it must be more than zero", self.called())))
    }

    /// A whole number of at least `least`.
    pub(in crate::recipe) fn count(&self, least: i64) -> Result<i64, ScriptError> {
        let plain = self.of(Dimension::NUMBER)?.plain()?;
        let Some(whole) = number::whole(plain) else {
            let shown = crate::quantity::Style::default().show_number(plain);
            let problem = self.problem(format!("{} must be a whole number, not {shown}", self.called()));
            return Err(problem.hinting("round it with up(…)"));
        };
        if whole < least {
            return Err(self.problem(format!("{} is {whole}; the least is {least}", self.called())));
        }
        Ok(whole)
    }

    /// A text that is not empty.
    pub(in crate::recipe) fn text(&self) -> Result<String, ScriptError> {
        match Value::from_script(self.given) {
            Some(Value::Text(text)) if !text.trim().is_empty() => Ok(text),
            Some(Value::Text(_)) => Err(self.problem(format!("{} is an empty text", self.called()))),
            _ => Err(self.must_be("a text")),
        }
    }

    /// One of these words.
    pub(in crate::recipe) fn one_of<T: Copy>(&self, words: &[(&str, T)]) -> Result<T, ScriptError> {
        let text = self.text()?;
        words.iter().find(|(word, _)| *word == text).map(|(_, meaning)| *meaning).ok_or_else(|| {
            let known: Vec<String> = words.iter().map(|(word, _)| format!("\"{word}\"")).collect();
            self.problem(format!("{} must be {}, not \"{text}\"", self.called(), known.join(" or ")))
        })
    }
}
