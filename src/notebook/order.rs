//! `run RECIPE as NAME …`: an order whose answers may read cells of the page.

use super::value::for_recipe;
use super::verbs;
use super::world::{EvalContext, Stage};
use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::{Expression, Host};
use crate::recipe::{InputAnswer, InputKind};
use crate::ticket::TicketValue;
use rhai::Dynamic;

/// A parsed order of the page. Each answer is an input, the text typed, and its expression if it is one.
#[derive(Debug)]
pub(super) struct OrderLine {
    pub(super) recipe: String,
    answers: Vec<(String, String, Option<Expression>)>,
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
        // An answer that is not a sum is text: a cloth, a choice.
        let compiled = |input: &str, typed: &str| Expression::compile(host, typed).ok().filter(|_| input != WASHING);
        let answers = answers.iter().map(|(input, typed)| (input.clone(), typed.clone(), compiled(input, typed)));
        Ok(Self { recipe: recipe.to_owned(), answers: answers.collect() })
    }

    pub(super) fn names(&self) -> Vec<&str> {
        let mut names: Vec<&str> =
            self.answers.iter().filter_map(|(.., sum)| sum.as_ref()).flat_map(Expression::names).collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    /// The members it reads of a cell; `None` if it reads the cell itself.
    pub(super) fn members_of(&self, cell: &str) -> Option<Vec<&str>> {
        let sums = self.answers.iter().filter_map(|(.., sum)| sum.as_ref());
        Some(sums.map(|sum| sum.members_of(cell)).collect::<Option<Vec<_>>>()?.concat())
    }

    /// The answers as typed.
    pub(super) fn answers(&self) -> impl Iterator<Item = (&str, &str)> {
        self.answers.iter().map(|(input, typed, _)| (input.as_str(), typed.as_str()))
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
        for (input, typed, sum) in &self.answers {
            if replacements.iter().any(|(other, _)| other == input) {
                continue;
            }
            let kind = inputs.iter().find(|known| known.name == *input).map(|known| &known.kind);
            let reads_cells = sum.as_ref().filter(|sum| sum.names().any(|name| with.scope.contains(name)));
            let Some(sum) = reads_cells else {
                answers.push((input.clone(), InputAnswer::Typed(typed.clone())));
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
            let value =
                sum.evaluate_suggesting(with.host, with.scope, with.names).map_err(|error| as_refusal(input, error))?;
            let Some(value) = for_recipe(&value) else {
                let noun = crate::engine::value::noun(&value);
                return Err(as_refusal(input, Diagnostic::new(format!("{noun} is no answer to a recipe"))));
            };
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
