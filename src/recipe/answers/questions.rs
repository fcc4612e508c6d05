//! The questions of a run, which ask for missing answers one after the other, in recipe order, and last for the washing.
//!
//! An answer is taken, or refused with the message of a run, and can be taken back. Never here: the prompt that reads
//! the lines, and the run itself.

use crate::diagnostic::Diagnostic;
use crate::engine::limits::StopFlag;
use crate::engine::value::quantity_to_script;
use crate::engine::{Host, ScriptError};
use crate::quantity::{Dimension, LiteralValue, Quantity, Reading, Style, literal};
use crate::recipe::answers::answering::{Check, CheckedAnswer, RawAnswer, units_for};
use crate::recipe::answers::evaluate::Evaluate;
use crate::recipe::answers::filling::{self, Filled};
use crate::recipe::answers::possible::WITHOUT_IT;
use crate::recipe::answers::question::{Question, fits};
use crate::recipe::answers::refusal::refusal;
use crate::recipe::answers::{explaining, plausibility, size_row, washing, wearer};
use crate::recipe::contract::input::{AGE, DUE, FOR, Input, ORDER, PIECES, SIZE, USE, WASHING};
use crate::recipe::host::session;
use crate::recipe::protocol::Description;
use crate::ticket::{InputSource, TicketValue};
use crate::workshop::{Size, Washing, Workshop};
use rhai::Dynamic;
use std::collections::{BTreeMap, BTreeSet};

/// The answers of one order while they are asked for. Its script engine keeps it on one thread.
pub(crate) struct Questions {
    description: Description,
    workshop: Workshop,
    style: Style,
    /// The cells of the page, by name.
    cells: BTreeMap<String, TicketValue>,
    /// Evaluates unnamed goods, which the page does not know.
    host: Host,
    taken: BTreeMap<String, Taken>,
    /// The names of what was answered at questions, the latest last.
    steps: Vec<String>,
    /// Whether cloths and notions that may be left out are asked for: wherever anything is asked.
    asks_for_all_goods: bool,
    /// The names of those that are left out.
    left_out: BTreeSet<String>,
}

/// An answer that was taken: its text and its value.
struct Taken {
    typed: String,
    answer: RawAnswer,
}

impl Questions {
    /// Starts the questions for what `answers` leaves open. `evaluate` evaluates expressions that may name cells, here
    /// and at every answer.
    ///
    /// # Errors
    /// Every error in `answers`, with the messages of a run: an unknown name, an answer that does not fit, an unknown
    /// size.
    pub(crate) fn new(
        description: Description,
        workshop: &Workshop,
        style: Style,
        answers: Vec<(String, String)>,
        cells: &BTreeMap<String, TicketValue>,
        evaluate: Evaluate<'_>,
    ) -> Result<Self, Vec<Diagnostic>> {
        let host = session::host(workshop, &BTreeMap::new(), style.plain, StopFlag::default(), None);
        let (workshop, cells) = (workshop.clone(), cells.clone());
        let (taken, steps) = (BTreeMap::new(), Vec::new());
        let (asks_for_all_goods, left_out) = (false, BTreeSet::new());
        let mut questions =
            Self { description, workshop, style, cells, host, taken, steps, asks_for_all_goods, left_out };
        let mut wrong = Vec::new();
        for (name, typed) in answers {
            let typed = typed.trim().to_owned();
            let answer = questions.with_check(evaluate, |check| questions.known(&name, &typed, check));
            if questions.taken.insert(name.clone(), Taken { typed, answer }).is_some() {
                wrong.push(refusal(&name, ScriptError::new("it is given twice")));
            }
        }
        let Filled { refusals, open, .. } = questions.filled(evaluate);
        wrong.extend(refusals.into_iter().filter(|refusal| !open.iter().any(|name| refusal.input() == Some(name))));
        questions.asks_for_all_goods = !open.is_empty();
        if wrong.is_empty() { Ok(questions) } else { Err(wrong) }
    }

    /// Returns the next question; `None` when everything is answered.
    pub(crate) fn next(&self) -> Option<Question> {
        let input = self.open()?;
        let own = |typed: &str| session::evaluate(&self.host, typed);
        let question = self.with_check(&own, |check| {
            let cell = self.cells.get(&input.name).filter(|cell| fits(&input, check, cell));
            let question =
                Question::of(&input, check, self.size(), cell, self.description.goods.get(&input.name).copied());
            let may_be_left_out = self.is_optional(&input);
            Question { may_be_left_out, possible: question.possible.or_left_out(may_be_left_out), ..question }
        });
        Some(question)
    }

    /// Takes an answer to the next question and returns how it was understood: `21 in`.
    ///
    /// An empty answer takes the usual one. A number without a unit is taken in the workshop's unit of length or mass,
    /// in its currency, or in minutes. `size Wren` answers this body measure and every other one still open.
    ///
    /// # Errors
    /// The answer cannot be taken; the same question comes again.
    pub(crate) fn answer(&mut self, typed: &str, evaluate: Evaluate<'_>) -> Result<String, Diagnostic> {
        let Some(input) = self.open() else {
            return Err(refusal("the order", ScriptError::new("everything is answered")));
        };
        let typed = typed.trim();
        if self.is_optional(&input) && ["", WITHOUT_IT, "no", "without"].contains(&typed.to_lowercase().as_str()) {
            self.left_out.insert(input.name.clone());
            self.steps.push(input.name.clone());
            return Ok(format!("without {}", input.name.replace('_', " ")));
        }
        let typed = match self.next().and_then(|question| question.usual) {
            Some(usual) if typed.is_empty() => usual.answer,
            _ => typed.to_owned(),
        };
        if let Some(name) = input.body.as_ref().and_then(|_| size_in(&typed)) {
            return self.take_size(&input, name);
        }
        let typed = with_unit(&input, &typed, self.host.reading(), &self.style).unwrap_or(typed);
        let washing = Washing::named(&typed).filter(|_| input.name == WASHING);
        let typed = washing.map_or(typed, |washing| washing.words().to_owned());
        let checked = self.with_check(evaluate, |check| {
            if typed.is_empty() {
                let problem = ScriptError::new(format!("missing: {}", input.question));
                return Err(problem.hinting(format!("type {}", check.example(&input))));
            }
            check.answer(&input, &RawAnswer::Typed(typed.clone()))
        });
        let answered = checked.map_err(|problem| {
            let size = input.body.as_ref().and_then(|_| self.workshop.sizes.find(&typed));
            let problem = match size {
                Some(size) => problem.hinting(format!("for the measures of that size, type size {}", size.name)),
                None => problem,
            };
            refusal(&input.name, problem)
        })?;
        let echo = self.echo(&answered, &typed);
        self.take(&input.name, typed, RawAnswer::Checked(answered));
        Ok(echo)
    }

    /// Returns the warnings about the body measures that the latest answer filled, and no others.
    pub(crate) fn warnings(&self) -> Vec<String> {
        let own = |typed: &str| session::evaluate(&self.host, typed);
        let Filled { answers, age, .. } = self.filled(&own);
        let Some(last) = self.steps.last() else { return Vec::new() };
        let just_now = answers.into_iter().filter(|(name, (_, source))| {
            if last == SIZE { matches!(source, InputSource::Size(_)) } else { name == last }
        });
        plausibility::of_order(&self.description.inputs, &just_now.collect(), age, &self.style)
    }

    /// Returns the help on the next question; `None` when everything is answered.
    pub(crate) fn help(&self) -> Option<String> {
        let (question, input) = (self.next()?, self.open()?);
        let own = |typed: &str| session::evaluate(&self.host, typed);
        let used = self.description.goods.get(&input.name).copied();
        Some(self.with_check(&own, |check| explaining::help(&question, &input, check, used)))
    }

    /// Returns whether a word answers the next question, as a word of a choice or a name of goods does.
    pub(crate) fn is_answered_by(&self, word: &str) -> bool {
        let own = |typed: &str| session::evaluate(&self.host, typed);
        self.open().is_some_and(|input| {
            input.kind.is_named()
                && self.with_check(&own, |check| check.answer(&input, &RawAnswer::Typed(word.to_owned())).is_ok())
        })
    }

    /// Goes back to the previous question and drops its answer; returns false at the first question.
    pub(crate) fn back(&mut self) -> bool {
        match self.steps.pop() {
            Some(name) => {
                self.taken.remove(&name);
                self.left_out.remove(&name);
                true
            }
            None => false,
        }
    }

    /// Returns the answers as typed, bare numbers with their units: the size, then the inputs in recipe order, then
    /// age, use, washing and the number of garments. Inputs that take their usual value are left out.
    pub(crate) fn answers(&self) -> Vec<(String, String)> {
        let inputs = self.description.inputs.iter().map(|input| input.name.as_str());
        let names = std::iter::once(SIZE).chain(inputs).chain([AGE, USE, WASHING, PIECES, ORDER, FOR, DUE]);
        names.filter_map(|name| Some((name.to_owned(), self.taken.get(name)?.typed.clone()))).collect()
    }

    /// Checks an answer given before the first question, as far as possible.
    fn known(&self, name: &str, typed: &str, check: &Check<'_>) -> RawAnswer {
        let answer = RawAnswer::Typed(typed.to_owned());
        if name == PIECES {
            return check.garments(&answer).map_or(answer, |count| RawAnswer::Script(Dynamic::from_int(count)));
        }
        if name == AGE {
            return wearer::age(&answer, check).map_or(answer, |age| RawAnswer::Script(quantity_to_script(age.into())));
        }
        let input = self.description.inputs.iter().find(|input| input.name == name);
        // An answer that does not fit is refused when the order asks for it, and only then.
        match input.map(|input| check.answer(input, &answer)) {
            Some(Ok(answered)) => RawAnswer::Checked(answered),
            _ => answer,
        }
    }

    fn with_check<T>(&self, evaluate: Evaluate<'_>, body: impl FnOnce(&Check<'_>) -> T) -> T {
        let goods = |typed: &str| session::evaluate(&self.host, typed);
        body(&Check { workshop: &self.workshop, evaluate, evaluate_goods: &goods, style: &self.style })
    }

    fn filled(&self, evaluate: Evaluate<'_>) -> Filled {
        let answers = self.taken.iter().map(|(name, taken)| (name.clone(), taken.answer.clone())).collect();
        self.with_check(evaluate, |check| filling::filled(&self.description.inputs, answers, *check))
    }

    /// Returns whether an input is goods that the order may do without, and that nothing has answered.
    fn is_optional(&self, input: &Input) -> bool {
        let own = |typed: &str| session::evaluate(&self.host, typed);
        input.optional && self.filled(&own).without.contains(&input.name)
    }

    /// Returns the first input that must still be answered, then the first goods that may be left out.
    fn open(&self) -> Option<Input> {
        let own = |typed: &str| session::evaluate(&self.host, typed);
        let Filled { open, answers, washing, without, .. } = self.filled(&own);
        let is_asked = |name: &&String| self.asks_for_all_goods && !self.left_out.contains(*name);
        // The washing is asked last, for it goes by the goods.
        let (inputs, washing_alone): (Vec<&String>, Vec<&String>) = open.iter().partition(|name| *name != WASHING);
        let optional = without.iter().filter(is_asked);
        let first = inputs.into_iter().chain(optional).chain(washing_alone).next()?;
        let input = self.description.inputs.iter().find(|input| input.name == *first).cloned();
        input.or_else(|| washing::question(&answers, washing, &self.style))
    }

    /// Returns the size that was given or taken.
    fn size(&self) -> Option<&Size> {
        self.workshop.sizes.find(&self.taken.get(SIZE)?.typed)
    }

    fn take(&mut self, name: &str, typed: String, answer: RawAnswer) {
        self.taken.insert(name.to_owned(), Taken { typed, answer });
        self.steps.push(name.to_owned());
    }

    /// Takes the row of a size for this input and all others still open.
    fn take_size(&mut self, input: &Input, name: &str) -> Result<String, Diagnostic> {
        if let Some(size) = self.size() {
            let problem = ScriptError::new(format!("size {} is taken already, and an order has one size", size.name));
            return Err(refusal(SIZE, problem.hinting("type the measure itself")));
        }
        let own = |typed: &str| session::evaluate(&self.host, typed);
        let typed = RawAnswer::Typed(name.to_owned());
        let named = self.with_check(&own, |check| {
            let size = size_row::named(&typed, &self.description.inputs, check)?;
            let measure = input.body.as_deref().unwrap_or_default();
            let Some(length) = size.measure(measure) else {
                let problem = ScriptError::new(format!("size {} has no “{measure}”", size.name));
                return Err(problem.hinting(format!("type {}", check.example(input))));
            };
            let length = quantity_to_script(length.into());
            check.answer(input, &RawAnswer::Script(length)).map(|_| size.name.clone())
        });
        let name = named.map_err(|problem| refusal(SIZE, problem))?;
        self.take(SIZE, name.clone(), RawAnswer::Typed(name.clone()));
        let own = |typed: &str| session::evaluate(&self.host, typed);
        let filled = self.filled(&own).answers;
        let fills = self.description.inputs.iter().filter_map(|input| match filled.get(&input.name) {
            Some((answer, InputSource::Size(_))) => {
                Some(format!("{} {}", input.name.replace('_', " "), answer.value().show(&self.style)))
            }
            _ => None,
        });
        Ok(format!("size {name}: {}", fills.collect::<Vec<_>>().join(", ")))
    }

    /// Returns how an answer was understood.
    fn echo(&self, answered: &CheckedAnswer, typed: &str) -> String {
        match answered {
            CheckedAnswer::Gathers(gathers) if gathers.source != "typed" => {
                format!("{}: a ratio of {}", gathers.source, self.style.show_number(gathers.ratio()))
            }
            CheckedAnswer::Goods(goods) if !goods.listed => typed.to_owned(),
            answered => answered.value().show(&self.style),
        }
    }
}

/// Returns the name in `size Wren` or `size=Wren`; `None` if an expression begins with a cell of that name.
fn size_in(typed: &str) -> Option<&str> {
    let (word, rest) = typed.split_at_checked(SIZE.len())?;
    let rest = rest.strip_prefix('=').or_else(|| rest.strip_prefix(char::is_whitespace))?.trim();
    let is_name = rest.is_empty() || rest.starts_with(char::is_alphanumeric);
    (word.eq_ignore_ascii_case(SIZE) && is_name).then_some(rest)
}

/// Adds the unit in which a bare number is meant; `None` if it has one or needs none, and for areas, which have too
/// many.
fn with_unit(input: &Input, typed: &str, reading: Reading, style: &Style) -> Option<String> {
    let dimension = input.kind.measured(input.range)?;
    // A dozen and a per cent are numbers too, but nobody means inches by them.
    if dimension == Dimension::AREA || typed.contains(|c: char| c.is_alphabetic() || c == '%') {
        return None;
    }
    let Ok(LiteralValue::Quantity(number)) = literal::read_quantity(typed, reading) else { return None };
    if !number.dimension().is_number() {
        return None;
    }
    let unit = units_for(dimension, style).into_iter().next()?;
    let decimal = typed.starts_with(|c: char| c.is_ascii_digit()) && !typed.contains(['/', ' ']) && typed.is_ascii();
    if dimension == Dimension::MONEY && !decimal {
        // Money is written in decimals, down to the cent.
        let exact = Style { plain: true, ..*style }.show(Quantity::money(number.steps()));
        return Some(exact.trim_start_matches("about ").to_owned());
    }
    Some(unit.replace('#', typed))
}

#[cfg(test)]
mod tests;
