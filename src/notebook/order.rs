//! `run RECIPE as NAME …`: an order whose answers may read cells of the page.

use super::value::for_recipe;
use super::verbs;
use super::world::{EvalContext, Stage};
use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::{Expression, Host};
use crate::recipe::{InputAnswer, InputKind, sums_in_goods};
use crate::ticket::TicketValue;
use rhai::Dynamic;

/// A parsed order of the page.
#[derive(Debug)]
pub(super) struct OrderLine {
    pub(super) recipe: String,
    answers: Vec<Answer>,
}

#[derive(Debug)]
struct Answer {
    input: String,
    typed: String,
    /// The expression it is, if it is one.
    sum: Option<Expression>,
    /// The expressions in goods without a name, `any wide at cp`.
    in_goods: Vec<Expression>,
}

impl Answer {
    fn read(host: &Host, input: &str, typed: &str) -> Self {
        // An answer that is not a sum is text: a cloth, a choice.
        let sum = Expression::compile(host, typed).ok().filter(|_| input != WASHING);
        let sums = sums_in_goods(typed).into_iter();
        let in_goods = sums.filter_map(|sum| Expression::compile(host, sum).ok()).collect();
        Self { input: input.to_owned(), typed: typed.to_owned(), sum, in_goods }
    }

    fn sums(&self) -> impl Iterator<Item = &Expression> {
        self.sum.iter().chain(&self.in_goods)
    }

    /// Returns the answer as typed, with the values of the expressions in it that read cells.
    fn as_typed(&self, with: &mut EvalContext<'_>) -> Result<InputAnswer, Diagnostic> {
        let mut known = Vec::new();
        for sum in &self.in_goods {
            if sum.names().any(|name| with.scope.contains(name)) {
                known.push((sum.sum().to_owned(), value_of(&self.input, sum, with)?));
            }
        }
        let typed = self.typed.clone();
        Ok(if known.is_empty() { InputAnswer::Typed(typed) } else { InputAnswer::Goods(typed, known) })
    }
}

/// Returns the value of an expression for a recipe; an error refuses the answer to the input.
fn value_of(input: &str, sum: &Expression, with: &mut EvalContext<'_>) -> Result<TicketValue, Diagnostic> {
    let value = sum.evaluate_suggesting(with.host, with.scope, with.names).map_err(|error| as_refusal(input, error))?;
    for_recipe(&value).ok_or_else(|| {
        let noun = crate::engine::value::noun(&value);
        as_refusal(input, Diagnostic::new(format!("{noun} is no answer to a recipe")))
    })
}

/// The input of every order: the number of garments.
pub(super) const PIECES: &str = "pieces";

/// An optional input of every order: the wearer's age.
pub(super) const AGE: &str = "age";

/// An optional answer of every order, in words that never name a cell: `washing=first`.
const WASHING: &str = "washing";

impl OrderLine {
    pub(super) fn read(host: &Host, recipe: &str, answers: &[(String, String)]) -> Result<Self, Diagnostic> {
        if recipe.is_empty() {
            return Err(verbs::incomplete_error("run"));
        }
        let answers = answers.iter().map(|(input, typed)| Answer::read(host, input, typed)).collect();
        Ok(Self { recipe: recipe.to_owned(), answers })
    }

    pub(super) fn names(&self) -> Vec<&str> {
        let mut names: Vec<&str> = self.answers.iter().flat_map(Answer::sums).flat_map(Expression::names).collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    /// The members it reads of a cell; `None` if it reads the cell itself.
    pub(super) fn members_of(&self, cell: &str) -> Option<Vec<&str>> {
        let sums = self.answers.iter().flat_map(Answer::sums);
        Some(sums.map(|sum| sum.members_of(cell)).collect::<Option<Vec<_>>>()?.concat())
    }

    /// The answers as typed.
    pub(super) fn answers(&self) -> impl Iterator<Item = (&str, &str)> {
        self.answers.iter().map(|answer| (answer.input.as_str(), answer.typed.as_str()))
    }

    pub(super) fn run(&self, with: &mut EvalContext<'_>) -> Result<Dynamic, Diagnostic> {
        self.run_with(with, &[])
    }

    /// Runs the order with some of its answers replaced.
    pub(super) fn run_with(
        &self,
        with: &mut EvalContext<'_>,
        replacements: &[(String, TicketValue)],
    ) -> Result<Dynamic, Diagnostic> {
        let inputs = with.world.inputs(&self.recipe)?;
        let mut answers: Vec<(String, InputAnswer)> =
            replacements.iter().map(|(input, value)| (input.clone(), InputAnswer::Value(value.clone()))).collect();
        for answer in &self.answers {
            let Answer { input, typed, sum, .. } = answer;
            if replacements.iter().any(|(other, _)| other == input) {
                continue;
            }
            let kind = inputs.iter().find(|known| known.name == *input).map(|known| &known.kind);
            let reads_cells = sum.as_ref().filter(|sum| sum.names().any(|name| with.scope.contains(name)));
            let Some(sum) = reads_cells else {
                answers.push((input.clone(), answer.as_typed(with)?));
                continue;
            };
            let expression = input == PIECES || input == AGE || kind.is_some_and(InputKind::reads_expression);
            // For an input that takes text, only a cell that holds a text is meant.
            let holds_text = with.scope.get_value::<rhai::ImmutableString>(typed.trim()).is_some();
            let words = kind.is_some_and(|kind| !kind.reads_expression());
            let choice =
                kind.and_then(InputKind::choices).is_some_and(|words| words.iter().any(|word| word == typed.trim()));
            if !(expression || (words && holds_text && !choice)) {
                answers.push((input.clone(), InputAnswer::Typed(typed.clone())));
                continue;
            }
            let value = value_of(input, sum, with)?;
            answers.push((input.clone(), InputAnswer::Value(value)));
        }
        match with.stage {
            Stage::Made => with.world.make(&self.recipe, answers),
            Stage::Planned => with.world.run(&self.recipe, answers),
        }
    }
}

/// Marks an error as a refusal of the answer to an input, except a stop.
fn as_refusal(input: &str, error: Diagnostic) -> Diagnostic {
    let refusal = DiagnosticKind::Refusal { input: input.to_owned(), typing: None };
    if error.is_stop() { error } else { error.of_kind(refusal) }
}

#[cfg(test)]
mod tests;
