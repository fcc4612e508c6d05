//! All answers of one order against all inputs of a recipe: what was given, what stands in for the rest,
//! and everything that is wrong at once.
//!
//! Never here: whether one answer fits one input, and what the recipe makes of the answers.

use super::answering::{Answered, Check, Evaluate, Given};
use super::input::{Input, PIECES};
use super::input_words::scripted;
use super::order::OrderData;
use super::refusal::Refusal;
use crate::engine::Problem;
use crate::quantity::Style;
use crate::quantity::nearest::nearest;
use crate::ticket::{InputSource, TicketValue};
use crate::workshop::Workshop;
use std::collections::BTreeMap;

/// What the answers of an order come to.
pub(super) struct Filled {
    /// The answers of the inputs that are asked and have one.
    pub(super) answers: BTreeMap<String, (Answered, InputSource)>,
    /// How many garments.
    pub(super) garments: i64,
    /// What is wrong, in the order of the recipe.
    pub(super) refusals: Vec<Refusal>,
    /// The inputs that must still be answered, in the order of the recipe; each has its refusal as well.
    pub(super) open: Vec<String>,
}

/// Fills a recipe's inputs, or tells everything that is wrong with the answers.
pub(super) fn fill(
    inputs: &[Input],
    given: BTreeMap<String, Given>,
    workshop: &Workshop,
    evaluate: Evaluate<'_>,
    style: &Style,
) -> Result<OrderData, Vec<Refusal>> {
    let check = Check { workshop, sums: evaluate, goods: evaluate, style };
    let filled = filled(inputs, given, check);
    if filled.refusals.is_empty() {
        Ok(OrderData::new(inputs, filled.answers, filled.garments))
    } else {
        Err(filled.refusals)
    }
}

/// Fills a recipe's inputs as far as the answers go.
pub(super) fn filled(inputs: &[Input], mut given: BTreeMap<String, Given>, check: Check<'_>) -> Filled {
    let filled = Filled { answers: BTreeMap::new(), garments: 1, refusals: Vec::new(), open: Vec::new() };
    let mut filler = Filler { check, filled };
    filler.garments(given.remove(PIECES));
    for input in inputs {
        filler.fill_one(input, given.remove(&input.name));
    }
    filler.filled.refusals.extend(given.keys().map(|name| unknown(name, inputs)));
    filler.filled
}

/// An answer to something that is not asked.
pub(super) fn unknown(name: &str, inputs: &[Input]) -> Refusal {
    let near = nearest(name, inputs.iter().map(|input| input.name.as_str()));
    let problem = Problem::new("this recipe does not ask for it");
    Refusal::of(name, problem.with_hint(near.map(|near| format!("did you mean “{near}”?"))))
}

struct Filler<'f> {
    check: Check<'f>,
    filled: Filled,
}

impl Filler<'_> {
    fn garments(&mut self, given: Option<Given>) {
        match given.map(|given| self.check.garments(&given)) {
            Some(Ok(count)) => self.filled.garments = count,
            Some(Err(problem)) => self.refuse(PIECES, problem),
            None => {}
        }
    }

    fn refuse(&mut self, input: &str, problem: Problem) {
        self.filled.refusals.push(Refusal::of(input, problem));
    }

    fn fill_one(&mut self, input: &Input, given: Option<Given>) {
        if !self.is_asked(input) {
            return;
        }
        let (given, source) = match (given, &input.usual, &input.same_as) {
            (Some(given), ..) => (given, InputSource::Given),
            (None, Some(usual), _) => (Given::Script(scripted(usual)), InputSource::Usual),
            (None, None, Some(other)) => {
                if let Some((answer, _)) = self.filled.answers.get(other) {
                    self.filled.answers.insert(input.name.clone(), (answer.clone(), InputSource::SameAs));
                }
                return;
            }
            (None, None, None) if input.optional => return,
            (None, None, None) => return self.lack(input),
        };
        match self.check.answer(input, &given) {
            Ok(answer) => {
                self.filled.answers.insert(input.name.clone(), (answer, source));
            }
            Err(problem) => self.refuse(&input.name, problem),
        }
    }

    fn lack(&mut self, input: &Input) {
        let example = self.check.example(input);
        let quoted = if example.contains([' ', '$']) { format!("'{example}'") } else { example };
        let problem = Problem::new(format!("it is not given: {}", input.question));
        self.filled.open.push(input.name.clone());
        self.refuse(&input.name, problem.hinting(format!("type {}={quoted}", input.name)));
    }

    fn is_asked(&self, input: &Input) -> bool {
        let Some((other, wanted)) = &input.only_if else { return true };
        match self.filled.answers.get(other) {
            Some((Answered::Plain(answer), _)) => same(answer, wanted),
            _ => false,
        }
    }
}

fn same(left: &TicketValue, right: &TicketValue) -> bool {
    match (left.quantity(), right.quantity()) {
        (Some(left), Some(right)) => left.compared(right).is_ok_and(std::cmp::Ordering::is_eq),
        _ => left == right,
    }
}
