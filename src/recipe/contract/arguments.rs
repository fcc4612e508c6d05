//! Reads the arguments of a recipe's words, with errors that name the word and the argument.

use crate::engine::script_error::Marked;
use crate::engine::{ScriptError, Value, value};
use crate::quantity::{Dimension, Length, Quantity, number};
use crate::report::plain_text::is_unseen;
use rhai::{Dynamic, EvalAltResult};

/// Most letters of a name.
pub(in crate::recipe) const MOST_NAME: usize = 80;

/// Most letters of a text.
pub(in crate::recipe) const MOST_TEXT: usize = 1_000;

/// The result of a word that a script calls.
pub(in crate::recipe) type ScriptResult<T> = Result<T, Box<EvalAltResult>>;

/// One argument of a word.
#[derive(Clone, Copy)]
pub(in crate::recipe) struct Argument<'a> {
    /// The word, such as `rectangle`; empty if no word was written.
    pub(in crate::recipe) word: &'a str,
    /// The argument's name.
    pub(in crate::recipe) name: &'a str,
    /// Its index in the call, from zero.
    pub(in crate::recipe) index: usize,
    /// The value given.
    pub(in crate::recipe) value: &'a Dynamic,
}

/// Makes an argument of a word.
pub(in crate::recipe) fn argument<'a>(word: &'a str, name: &'a str, index: usize, value: &'a Dynamic) -> Argument<'a> {
    Argument { word, name, index, value }
}

impl Argument<'_> {
    /// Returns an error that marks this argument.
    pub(in crate::recipe) fn problem(&self, message: impl Into<String>) -> ScriptError {
        ScriptError::new(message).marking(Marked::Argument(self.index))
    }

    /// Names the argument for a message: `width in any_roll`.
    fn described(&self) -> String {
        if self.word.is_empty() { self.name.to_owned() } else { format!("{} in {}", self.name, self.word) }
    }

    /// Returns the error of an argument that is of another kind than needed.
    pub(in crate::recipe) fn must_be(&self, needed: &str) -> ScriptError {
        self.problem(format!("{} must be {needed}, not {}", self.described(), value::noun(self.value)))
    }

    /// Reads a quantity of one dimension.
    pub(in crate::recipe) fn of(&self, dimension: Dimension) -> Result<Quantity, ScriptError> {
        value::quantity_from_script(self.value)
            .filter(|quantity| quantity.dimension() == dimension)
            .ok_or_else(|| self.must_be(&dimension.noun()))
    }

    /// Reads a quantity of any dimension, or a plain number.
    pub(in crate::recipe) fn quantity(&self) -> Result<Quantity, ScriptError> {
        value::quantity_from_script(self.value).ok_or_else(|| self.must_be("a number or a measure"))
    }

    /// Reads a length.
    pub(in crate::recipe) fn length(&self) -> Result<Length, ScriptError> {
        Ok(self.of(Dimension::LENGTH)?.try_into()?)
    }

    /// Reads a finite length above zero.
    pub(in crate::recipe) fn positive_length(&self) -> Result<Length, ScriptError> {
        let length = self.length()?;
        if length.is_positive() && length.steps().is_finite() {
            return Ok(length);
        }
        let shown = crate::quantity::Style::default().show(length.into());
        Err(self.problem(format!("{} is {shown}; it must be more than zero", self.described())))
    }

    /// Reads a whole number of at least `least`.
    pub(in crate::recipe) fn count(&self, least: i64) -> Result<i64, ScriptError> {
        let plain = self.of(Dimension::NUMBER)?.to_number()?;
        let Some(whole) = number::whole(plain) else {
            let shown = crate::quantity::Style::default().show_number(plain);
            let problem = self.problem(format!("{} must be a whole number, not {shown}", self.described()));
            return Err(problem.hinting("round it with up(…)"));
        };
        if whole < least {
            return Err(self.problem(format!("{} is {whole}; the least is {least}", self.described())));
        }
        Ok(whole)
    }

    /// Reads a share from nothing to less than all.
    pub(in crate::recipe) fn share(&self) -> Result<f64, ScriptError> {
        let share = self.of(Dimension::NUMBER)?.to_number()?;
        if (0.0..1.0).contains(&share) {
            return Ok(share);
        }
        Err(self.problem(format!("{} must be from 0 % to less than 100 %, as in 3 %", self.described())))
    }

    /// Reads a text that is not empty, of at most [`MOST_TEXT`] letters.
    pub(in crate::recipe) fn text(&self) -> Result<String, ScriptError> {
        self.text_of(MOST_TEXT)
    }

    /// Reads a text that is not empty, of at most so many letters.
    pub(in crate::recipe) fn text_of(&self, most: usize) -> Result<String, ScriptError> {
        match Value::from_script(self.value) {
            Some(Value::Text(text)) if text.chars().nth(most).is_some() => {
                let given = text.chars().count();
                Err(self.problem(format!("{} has {given} letters; {most} are the most", self.described())))
            }
            Some(Value::Text(text)) if !text.trim().is_empty() => Ok(text),
            Some(Value::Text(_)) => Err(self.problem(format!("{} is an empty text", self.described()))),
            _ => Err(self.must_be("a text")),
        }
    }

    /// Reads a name: a text of at most [`MOST_NAME`] letters, all of which can be seen, without a blank at either end.
    pub(in crate::recipe) fn name(&self) -> Result<String, ScriptError> {
        let name = self.text_of(MOST_NAME)?;
        if name.trim() != name {
            return Err(self.problem(format!("{} has a blank at an end, which nobody sees", self.described())));
        }
        if name.chars().any(is_unseen) {
            return Err(self.problem(format!("{} has a character that cannot be seen", self.described())));
        }
        Ok(name)
    }

    /// Reads one of these words and returns its meaning.
    pub(in crate::recipe) fn one_of<T: Copy>(&self, words: &[(&str, T)]) -> Result<T, ScriptError> {
        let text = self.text()?;
        words.iter().find(|(word, _)| *word == text).map(|(_, meaning)| *meaning).ok_or_else(|| {
            let known: Vec<String> = words.iter().map(|(word, _)| format!("\"{word}\"")).collect();
            self.problem(format!("{} must be {}, not \"{text}\"", self.described(), known.join(" or ")))
        })
    }
}

#[cfg(test)]
mod tests;
