//! An order in a script: a host object with the answer to each input.
//!
//! A member that is not an input is an error, never silently blank. Never here: whether an answer fits.
#![allow(clippy::needless_pass_by_value, reason = "the script engine hands arguments over by value")]

use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::ScriptError;
use crate::quantity::nearest::nearest;
use crate::quantity::{Dimension, Liked, Quantity, Style, System, Tape, Time, rounding};
use crate::recipe::answers::answering::{Check, CheckedAnswer, RawAnswer};
use crate::recipe::answers::evaluate::Evaluate;
use crate::recipe::answers::filling::{self, Filled};
use crate::recipe::answers::plausibility;
use crate::recipe::contract::arguments::{ScriptResult, argument};
use crate::recipe::contract::input::{Input, PIECES};
use crate::recipe::contract::input_words::scripted;
use crate::ticket::{AnsweredInput, InputSource, OrderMark, Usage};
use crate::workshop::{Washing, Workshop};
use rhai::{Dynamic, Engine, ImmutableString};
use std::collections::BTreeMap;
use std::rc::Rc;

/// The answers of one order.
#[derive(Debug)]
pub(in crate::recipe) struct OrderData {
    inputs: Vec<Input>,
    answers: BTreeMap<String, (CheckedAnswer, InputSource)>,
    without: Vec<String>,
    garments: i64,
    age: Option<Time>,
    used_for: Option<Usage>,
    washing: Option<Washing>,
    mark: OrderMark,
}

/// An order in a script.
pub(in crate::recipe) type Order = Rc<OrderData>;

impl OrderData {
    /// Fills a recipe's inputs, or returns every refusal of the answers.
    pub(in crate::recipe) fn fill(
        inputs: &[Input],
        answers: BTreeMap<String, RawAnswer>,
        workshop: &Workshop,
        evaluate: Evaluate<'_>,
        style: &Style,
    ) -> Result<Self, Vec<Diagnostic>> {
        let check = Check { workshop, evaluate, evaluate_goods: evaluate, style };
        let filled = filling::filled(inputs, answers, check);
        if filled.refusals.is_empty() { Ok(Self::new(inputs, filled)) } else { Err(filled.refusals) }
    }

    /// Creates an order from checked answers.
    fn new(inputs: &[Input], filled: Filled) -> Self {
        let Filled { mut answers, without, garments, age, used_for, washing, mark, .. } = filled;
        for (answer, _) in answers.values_mut() {
            if let CheckedAnswer::Goods(goods) = answer {
                goods.washing = washing;
            }
        }
        Self { inputs: inputs.to_vec(), answers, without, garments, age, used_for, washing, mark }
    }

    /// Returns the age of the wearer, if the order states it.
    pub(in crate::recipe) fn age(&self) -> Option<Time> {
        self.age
    }

    /// Returns the use of the garment, if the order states it.
    pub(in crate::recipe) fn used_for(&self) -> Option<Usage> {
        self.used_for
    }

    /// Returns what the order is called.
    pub(in crate::recipe) fn mark(&self) -> &OrderMark {
        &self.mark
    }

    /// Returns how its goods are cut that lose in the first wash, if the order states it.
    pub(in crate::recipe) fn washing(&self) -> Option<Washing> {
        self.washing
    }

    /// Returns the number of garments.
    pub(in crate::recipe) fn garments(&self) -> i64 {
        self.garments
    }

    /// Returns the answers as plain data, in recipe order.
    pub(in crate::recipe) fn answered(&self) -> Vec<AnsweredInput> {
        let answered = self.inputs.iter().filter_map(|input| {
            let (answer, source) = self.answers.get(&input.name)?;
            let (name, question) = (input.name.clone(), input.question.clone());
            Some(AnsweredInput { name, question, value: answer.value(), source: source.clone() })
        });
        answered.collect()
    }

    /// Returns the warnings about its body measures.
    pub(in crate::recipe) fn warnings(&self, style: &Style) -> Vec<String> {
        plausibility::of_order(&self.inputs, &self.answers, self.age, style)
    }

    /// Returns the names of cloths and notions that it could take and does not.
    pub(in crate::recipe) fn without(&self) -> &[String] {
        &self.without
    }

    /// Returns whether an input of this name is declared.
    pub(in crate::recipe) fn declares(&self, name: &str) -> bool {
        self.inputs.iter().any(|input| input.name == name)
    }

    fn unknown(&self, name: &str) -> ScriptError {
        let near = nearest(name, self.inputs.iter().map(|input| input.name.as_str()));
        ScriptError::new(format!("the order has no “{name}”"))
            .with_hint(near.map(|near| format!("did you mean “{near}”?")))
    }

    fn refuse(&self, name: &str, why: &str, instead: Option<String>) -> ScriptResult<()> {
        if self.declares(name) || name == PIECES {
            Err(ScriptError::new(why).with_hint(instead).refusing(name).into())
        } else {
            Err(self.unknown(name).into())
        }
    }

    /// Returns the workshop's tape, or the other one if all lengths that the order gives are on that.
    fn tape(&self, usual: Tape) -> Tape {
        let given = self.answers.values().filter(|(_, source)| *source != InputSource::Usual);
        let units = given.filter_map(|(answer, _)| answer.value().quantity()?.liked().length);
        let mut on_other = units.map(|unit| unit.system() != usual.unit().system()).peekable();
        if on_other.peek().is_some() && on_other.all(|other| other) { usual.other() } else { usual }
    }

    /// Returns the least answer to an input that is no less than an amount, as it can be typed: a length up to the next
    /// mark of the order's tape, a number up to the next hundredth. Blank if the range of the input ends below it.
    fn at_least(&self, name: &str, amount: &Dynamic, style: &Style) -> ScriptResult<String> {
        let input = self.inputs.iter().find(|input| input.name == name).ok_or_else(|| self.unknown(name))?;
        let arg = argument("at_least", "amount", 1, amount);
        let amount = arg.quantity()?;
        let amount = match input.range {
            Some(range) if amount.compared(range.least).map_err(ScriptError::from)?.is_lt() => range.least,
            _ => amount,
        };
        let tape = self.tape(style.tape);
        let (step, liked) = match (amount.dimension(), tape.unit().system()) {
            (Dimension::LENGTH, System::Inch) => (style.inch_step.length(), Liked::unit(tape.unit())),
            (Dimension::LENGTH, _) => (Quantity::of(0.1, tape.unit()), Liked::unit(tape.unit())),
            (Dimension::NUMBER, _) => (Quantity::number(0.01), Liked::default()),
            _ => return Err(arg.must_be("a length or a number").into()),
        };
        let answer = rounding::bought(amount, step).map_err(ScriptError::from)?.liking(liked);
        let beyond = input.range.is_some_and(|range| !range.holds(answer));
        Ok(if beyond { String::new() } else { style.show(answer) })
    }

    fn member(&self, name: &str) -> ScriptResult<Dynamic> {
        if name == PIECES {
            return Ok(Dynamic::from_int(self.garments));
        }
        match self.answers.get(name) {
            Some((CheckedAnswer::Plain(value), _)) => Ok(scripted(value)),
            Some((CheckedAnswer::Gathers(gathers), _)) => Ok(Dynamic::from(gathers.clone())),
            Some((CheckedAnswer::Goods(goods), _)) => Ok(Dynamic::from(goods.clone())),
            None if self.declares(name) => {
                let problem = ScriptError::new(format!("“{name}” was not given, so it cannot be reckoned with"));
                let problem = problem.hinting(format!("ask first: if order.has(\"{name}\") {{ … }}"));
                Err(problem.of_kind(DiagnosticKind::NotGiven { input: name.to_owned() }).into())
            }
            None => Err(self.unknown(name).into()),
        }
    }
}

/// Registers the words with an engine.
pub(in crate::recipe) fn register(engine: &mut Engine, style: Style) {
    engine
        .register_type_with_name::<Order>("order")
        .register_fn("at_least", move |order: &mut Order, name: ImmutableString, amount: Dynamic| {
            order.at_least(&name, &amount, &style)
        })
        .register_indexer_get(|order: &mut Order, name: ImmutableString| order.member(&name))
        .register_fn("has", |order: &mut Order, name: ImmutableString| -> ScriptResult<bool> {
            if order.declares(&name) {
                Ok(order.answers.contains_key(name.as_str()))
            } else {
                Err(order.unknown(&name).into())
            }
        })
        .register_fn("refuse", |order: &mut Order, name: ImmutableString, why: ImmutableString| -> ScriptResult<()> {
            order.refuse(&name, &why, None)
        })
        .register_fn(
            "refuse",
            |order: &mut Order,
             name: ImmutableString,
             why: ImmutableString,
             instead: ImmutableString|
             -> ScriptResult<()> { order.refuse(&name, &why, Some(instead.to_string())) },
        );
}
