//! Fills all inputs of a recipe for one order: with the answers given, with a size's row or the recipe's defaults for
//! the rest; reports all errors at once.
//!
//! Never here: whether one answer fits one input, and what the recipe does with the answers.

use crate::diagnostic::Diagnostic;
use crate::engine::ScriptError;
use crate::engine::value::quantity_to_script;
use crate::quantity::Time;
use crate::quantity::nearest::nearest;
use crate::recipe::answers::answering::{Check, CheckedAnswer, RawAnswer, units_for};
use crate::recipe::answers::refusal::{refusal, refusal_with};
use crate::recipe::answers::size_row;
use crate::recipe::answers::washing;
use crate::recipe::answers::wearer;
use crate::recipe::contract::input::{AGE, DUE, FOR, Input, ORDER, PIECES, SIZE, USE, WASHING};
use crate::recipe::contract::input_kind::InputKind;
use crate::recipe::contract::input_words::scripted;
use crate::report::plain_text::one_line;
use crate::ticket::{InputSource, OrderMark, TicketValue, Usage};
use crate::workshop::{Size, Washing};
use std::collections::BTreeMap;

/// The filled inputs of an order.
pub(in crate::recipe) struct Filled {
    /// The checked answers and their sources, by input; only of inputs that are asked and have an answer.
    pub(in crate::recipe) answers: BTreeMap<String, (CheckedAnswer, InputSource)>,
    /// The names of cloths and notions that it could take and does not, in recipe order.
    pub(in crate::recipe) without: Vec<String>,
    /// The number of garments.
    pub(in crate::recipe) garments: i64,
    /// The age of the wearer, if the order states it.
    pub(in crate::recipe) age: Option<Time>,
    /// The use of the garment, if the order states it.
    pub(in crate::recipe) used_for: Option<Usage>,
    /// How its goods are cut that lose in the first wash, if the order states it.
    pub(in crate::recipe) washing: Option<Washing>,
    /// What the order is called.
    pub(in crate::recipe) mark: OrderMark,
    /// The refusals: of garments, age, use, washing and size, of the inputs in recipe order, of the washing where it
    /// must be said, and of unknown names.
    pub(in crate::recipe) refusals: Vec<Diagnostic>,
    /// The inputs that must still be answered, in recipe order, then the washing; each has its refusal as well.
    pub(in crate::recipe) open: Vec<String>,
}

/// Fills a recipe's inputs as far as the answers allow.
pub(in crate::recipe) fn filled(
    inputs: &[Input],
    mut answers: BTreeMap<String, RawAnswer>,
    check: Check<'_>,
) -> Filled {
    let filled = Filled {
        answers: BTreeMap::new(),
        without: Vec::new(),
        garments: 1,
        age: None,
        used_for: None,
        washing: None,
        mark: OrderMark::default(),
        refusals: Vec::new(),
        open: Vec::new(),
    };
    let mut filler = Filler { check, row: Row::None, filled };
    filler.garments(answers.remove(PIECES));
    filler.wearer(answers.remove(AGE), answers.remove(USE));
    for name in [ORDER, FOR, DUE] {
        filler.mark(name, answers.remove(name));
    }
    let washing = answers.remove(WASHING);
    let is_washing_said = washing.is_some();
    filler.washing(washing);
    filler.size(answers.remove(SIZE), inputs);
    for input in inputs {
        filler.fill_one(input, answers.remove(&input.name));
    }
    if !is_washing_said {
        filler.ask_for_washing();
    }
    filler.filled.refusals.extend(answers.keys().map(|name| unknown(name, inputs)));
    filler.filled
}

/// Returns the refusal of an answer to an unknown input.
pub(in crate::recipe) fn unknown(name: &str, inputs: &[Input]) -> Diagnostic {
    let near = nearest(name, inputs.iter().map(|input| input.name.as_str()));
    let problem = ScriptError::new("this recipe does not ask for it");
    let hint = near.map_or_else(|| must_have(inputs), |near| Some(format!("did you mean “{near}”?")));
    refusal(name, problem.with_hint(hint))
}

/// Says what a recipe cannot do without.
fn must_have(inputs: &[Input]) -> Option<String> {
    let asked = inputs.iter().filter(|input| input.usual.is_none() && !input.optional && input.same_as.is_none());
    let names: Vec<&str> = asked.map(|input| input.name.as_str()).collect();
    (!names.is_empty()).then(|| format!("it asks for {}; describe tells the rest", names.join(", ")))
}

/// The row of the workshop's sizes that an order names.
#[derive(Clone, Copy)]
enum Row<'f> {
    /// The order names none.
    None,
    /// The order names one that cannot be used; the measures it should fill are not reported as missing too.
    Refused,
    /// The order names this one.
    Size(&'f Size),
}

/// The most letters of what an order is called, so that the head of a sheet has room for it.
const LONGEST_MARK: usize = 40;

struct Filler<'f> {
    check: Check<'f>,
    row: Row<'f>,
    filled: Filled,
}

impl Filler<'_> {
    fn size(&mut self, answer: Option<RawAnswer>, inputs: &[Input]) {
        let Some(answer) = answer else { return };
        match size_row::named(&answer, inputs, &self.check) {
            Ok(size) => self.row = Row::Size(size),
            Err(problem) => {
                self.row = Row::Refused;
                self.refuse(SIZE, problem);
            }
        }
    }

    fn garments(&mut self, answer: Option<RawAnswer>) {
        match answer.map(|answer| self.check.garments(&answer)) {
            Some(Ok(count)) => self.filled.garments = count,
            Some(Err(problem)) => self.refuse(PIECES, problem),
            None => {}
        }
    }

    fn wearer(&mut self, age: Option<RawAnswer>, usage: Option<RawAnswer>) {
        match age.map(|answer| wearer::age(&answer, &self.check)).transpose() {
            Ok(age) => self.filled.age = age,
            Err(problem) => self.refuse(AGE, problem),
        }
        match usage.map(|answer| wearer::usage(&answer)).transpose() {
            Ok(usage) => self.filled.used_for = usage,
            Err(problem) => self.refuse(USE, problem),
        }
    }

    /// Reads what the order is called, or whom it is for, or when it is due: a few words on one line.
    fn mark(&mut self, name: &str, answer: Option<RawAnswer>) {
        let Some(answer) = answer else { return };
        let words = answer.words().map(|words| one_line(&words)).filter(|words| !words.is_empty());
        let Some(words) = words.filter(|words| words.chars().count() <= LONGEST_MARK) else {
            let problem = ScriptError::new(format!("a few words are needed, {LONGEST_MARK} letters at most"));
            return self.refuse(name, problem.hinting(format!("type {name}='…'")));
        };
        let mark = &mut self.filled.mark;
        match name {
            ORDER => mark.order = Some(words),
            FOR => mark.customer = Some(words),
            _ => mark.due = Some(words),
        }
    }

    fn washing(&mut self, answer: Option<RawAnswer>) {
        match answer.map(|answer| washing::washing(&answer)).transpose() {
            Ok(washing) => self.filled.washing = washing,
            Err(problem) => self.refuse(WASHING, problem),
        }
    }

    fn ask_for_washing(&mut self) {
        let Some(input) = washing::question(&self.filled.answers, None, self.check.style) else { return };
        self.filled.open.push(input.name.clone());
        let problem = ScriptError::new(format!("missing: {}", input.question));
        self.refuse(&input.name, problem.hinting(washing::typing()));
    }

    fn refuse(&mut self, input: &str, problem: ScriptError) {
        self.filled.refusals.push(refusal(input, problem));
    }

    fn fill_one(&mut self, input: &Input, answer: Option<RawAnswer>) {
        if !self.is_asked(input) {
            return;
        }
        let (answer, source) = match (answer, self.row_answer(input), &input.usual) {
            (Some(answer), ..) => (answer, InputSource::Given),
            (None, Some(from_row), _) => from_row,
            (None, None, Some(usual)) => (RawAnswer::Script(scripted(usual)), InputSource::Usual),
            (None, None, None) => return self.not_given(input),
        };
        match self.check.answer(input, &answer) {
            Ok(answer) => {
                self.filled.answers.insert(input.name.clone(), (answer, source));
            }
            Err(problem) => match source {
                InputSource::Size(name) => {
                    self.filled.open.push(input.name.clone());
                    let measure = input.body.as_deref().unwrap_or_default();
                    let typing = self.typing(input);
                    let problem = problem.hinting(format!("it is the {measure} of size {name}; {typing}"));
                    self.refuse_input(input, None, problem);
                }
                source => {
                    // A usual answer may name a trial or a material that this workshop does not list.
                    if source == InputSource::Usual {
                        self.filled.open.push(input.name.clone());
                    }
                    self.refuse_input(input, Some(&answer), problem);
                }
            },
        }
    }

    /// Returns the answer of the size's row to an input.
    fn row_answer(&self, input: &Input) -> Option<(RawAnswer, InputSource)> {
        let (Row::Size(size), Some(measure)) = (self.row, &input.body) else { return None };
        let length = size.measure(measure)?;
        Some((RawAnswer::Script(quantity_to_script(length.into())), InputSource::Size(size.name.clone())))
    }

    fn not_given(&mut self, input: &Input) {
        if let Some(other) = &input.same_as {
            if let Some((answer, _)) = self.filled.answers.get(other) {
                self.filled.answers.insert(input.name.clone(), (answer.clone(), InputSource::SameAs));
            }
            return;
        }
        if input.optional {
            if input.kind.is_goods() {
                self.filled.without.push(input.name.clone());
            }
            return;
        }
        let typing = self.typing(input);
        let hint = match (self.row, &input.body) {
            (Row::Refused, Some(_)) => return,
            (Row::Size(size), Some(measure)) => format!("size {} has no “{measure}”; {typing}", size.name),
            _ => typing,
        };
        self.filled.open.push(input.name.clone());
        let problem = ScriptError::new(format!("missing: {}", input.question)).hinting(hint);
        self.refuse_input(input, None, problem);
    }

    /// Refuses the answer to an input, with one to type instead: the figure with a unit, goods of a name near to it, or an
    /// example.
    fn refuse_input(&mut self, input: &Input, given: Option<&RawAnswer>, problem: ScriptError) {
        let words = given.and_then(RawAnswer::words).unwrap_or_default();
        let near = match &input.kind {
            InputKind::Measure(dimension) => {
                let units = units_for(*dimension, self.check.style).into_iter();
                let mut with_units = units.map(|unit| unit.replace('#', &words));
                with_units.find(|answer| self.check.answer(input, &RawAnswer::Typed(answer.clone())).is_ok())
            }
            kind if kind.is_goods() => self.check.near(input, &words),
            _ => None,
        };
        let near = near.filter(|_| !words.is_empty());
        let answer = near.unwrap_or_else(|| self.check.example(input));
        self.filled.refusals.push(refusal_with(&input.name, problem, &answer));
    }

    /// Returns a hint: `type waist='36 in'`.
    fn typing(&self, input: &Input) -> String {
        let example = self.check.example(input);
        let quoted = if example.contains([' ', '$']) { format!("'{example}'") } else { example };
        format!("type {}={quoted}", input.name)
    }

    fn is_asked(&self, input: &Input) -> bool {
        let Some((other, wanted)) = &input.only_if else { return true };
        match self.filled.answers.get(other) {
            Some((CheckedAnswer::Plain(answer), _)) => same(answer, wanted),
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

#[cfg(test)]
mod tests;
