//! One order: a recipe's inputs with their answers, checked against kind and ends.
//!
//! All faults of an order are found at once. In a script the order is a host object: a member that is
//! not an input is a fault, never quietly nothing.
#![allow(clippy::needless_pass_by_value, reason = "the script engine hands arguments over by value")]

use super::arguments::{Answer, argument};
use super::gathers::Gathers;
use super::input::{Input, InputKind, PIECES};
use super::input_words::{plain, scripted};
use super::material_words::Goods;
use crate::engine::{Fault, Problem, value};
use crate::quantity::nearest::nearest;
use crate::quantity::{Quantity, Style, number};
use crate::ticket::{AnsweredInput, InputSource, TicketValue};
use crate::workshop::{MaterialKind, Pass, Workshop};
use rhai::{Dynamic, Engine, ImmutableString};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fmt;
use std::rc::Rc;

/// Why an order cannot be made as it was given.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Refusal {
    /// The input that is to blame.
    pub input: String,
    /// What is wrong with it.
    pub message: String,
    /// What to give instead.
    pub hint: Option<String>,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.input, self.message)?;
        match &self.hint {
            Some(hint) => write!(f, "\n  {hint}"),
            None => Ok(()),
        }
    }
}

/// An answer as it was given.
#[derive(Clone, Debug)]
pub(super) enum Given {
    /// Typed: on a command line, at a question, in a file.
    Typed(String),
    /// A value of a script, in an example.
    Script(Dynamic),
}

/// An answer as scripts read it.
#[derive(Clone, Debug)]
pub(super) enum Answered {
    Plain(TicketValue),
    Gathers(Gathers),
    Goods(Goods),
}

/// The answers of one order.
#[derive(Debug)]
pub(super) struct OrderData {
    inputs: Vec<Input>,
    answers: BTreeMap<String, (Answered, InputSource)>,
    garments: i64,
}

/// An order in a script.
pub(super) type Order = Rc<OrderData>;

/// Works out what was typed, as one expression.
pub(super) type Evaluate<'e> = &'e dyn Fn(&str) -> Result<Dynamic, Fault>;

/// Fills a recipe's inputs, or tells everything that is wrong with the answers.
pub(super) fn fill(
    inputs: &[Input],
    mut given: BTreeMap<String, Given>,
    workshop: &Workshop,
    evaluate: Evaluate<'_>,
    style: &Style,
) -> Result<OrderData, Vec<Refusal>> {
    let mut filler = Filler { workshop, evaluate, style, answers: BTreeMap::new(), refusals: Vec::new() };
    let garments = filler.garments(given.remove(PIECES));
    for input in inputs {
        let answer = given.remove(&input.name);
        filler.fill_one(input, answer);
    }
    for name in given.keys() {
        let near = nearest(name, inputs.iter().map(|input| input.name.as_str()));
        filler.refusals.push(Refusal {
            input: name.clone(),
            message: "this recipe does not ask for it".to_owned(),
            hint: near.map(|near| format!("did you mean “{near}”?")),
        });
    }
    if filler.refusals.is_empty() {
        Ok(OrderData { inputs: inputs.to_vec(), answers: filler.answers, garments })
    } else {
        Err(filler.refusals)
    }
}

struct Filler<'f> {
    workshop: &'f Workshop,
    evaluate: Evaluate<'f>,
    style: &'f Style,
    answers: BTreeMap<String, (Answered, InputSource)>,
    refusals: Vec<Refusal>,
}

type Filled<T> = Result<T, Problem>;

impl Filler<'_> {
    fn garments(&mut self, given: Option<Given>) -> i64 {
        let Some(given) = given else { return 1 };
        let count = self
            .script_value(&given)
            .and_then(|value| argument("the order", "the number of garments", 0, &value).count(1));
        let count = count.and_then(|count| {
            if count <= 10_000 { Ok(count) } else { Err(Problem::new("more than 10000 garments in one order")) }
        });
        count.unwrap_or_else(|problem| {
            self.refuse(PIECES, problem);
            1
        })
    }

    fn refuse(&mut self, input: &str, problem: Problem) {
        self.refusals.push(Refusal { input: input.to_owned(), message: problem.message, hint: problem.hint });
    }

    fn fill_one(&mut self, input: &Input, given: Option<Given>) {
        if !self.is_asked(input) {
            return;
        }
        let (answer, source) = match (given, &input.usual, &input.same_as) {
            (Some(given), ..) => (self.answer(input, &given), InputSource::Given),
            (None, Some(usual), _) => (self.answer(input, &Given::Script(scripted(usual))), InputSource::Usual),
            (None, None, Some(other)) => {
                if let Some((answer, _)) = self.answers.get(other) {
                    self.answers.insert(input.name.clone(), (answer.clone(), InputSource::SameAs));
                }
                return;
            }
            (None, None, None) if input.optional => return,
            (None, None, None) => {
                let problem = Problem::new(format!("it is not given: {}", input.question));
                let example = self.example(input);
                return self.refuse(&input.name, problem.hinting(format!("type {}={example}", input.name)));
            }
        };
        match answer {
            Ok(answer) => {
                self.answers.insert(input.name.clone(), (answer, source));
            }
            Err(problem) => self.refuse(&input.name, problem),
        }
    }

    /// Something that could be typed for an input.
    fn example(&self, input: &Input) -> String {
        let quoted = |text: String| if text.contains([' ', '$']) { format!("'{text}'") } else { text };
        match (&input.kind, &input.range) {
            (InputKind::Measure(_) | InputKind::Number | InputKind::Count, Some(range)) => {
                quoted(self.style.show(range.middle()))
            }
            (InputKind::Choice(words), _) => quoted(words.first().cloned().unwrap_or_default()),
            (InputKind::YesNo, _) => "yes".to_owned(),
            (InputKind::Gathers, _) => "2".to_owned(),
            (InputKind::Cloth, _) => quoted(format!("any 45 in at {}6/yd", self.style.currency)),
            (InputKind::Notion, _) => "any".to_owned(),
            _ => "…".to_owned(),
        }
    }

    fn is_asked(&self, input: &Input) -> bool {
        let Some((other, wanted)) = &input.only_if else { return true };
        match self.answers.get(other) {
            Some((Answered::Plain(answer), _)) => same(answer, wanted),
            _ => false,
        }
    }

    fn script_value(&self, given: &Given) -> Filled<Dynamic> {
        match given {
            Given::Script(value) => Ok(value.clone()),
            Given::Typed(text) if text.trim().is_empty() => Err(Problem::new("nothing is written here")),
            Given::Typed(text) => (self.evaluate)(text)
                .map_err(|fault| Problem::new(format!("“{}”: {}", text.trim(), fault.message)).with_hint(fault.hint)),
        }
    }

    fn answer(&self, input: &Input, given: &Given) -> Filled<Answered> {
        match &input.kind {
            InputKind::Gathers => self.gathers(input, given).map(Answered::Gathers),
            InputKind::Cloth => self.goods(input, given, false).map(Answered::Goods),
            InputKind::Notion => self.goods(input, given, true).map(Answered::Goods),
            InputKind::Choice(words) => choice(given, words),
            InputKind::YesNo => yes_no(given),
            InputKind::Text => text(given),
            _ => self.measured(input, given),
        }
    }

    fn measured(&self, input: &Input, given: &Given) -> Filled<Answered> {
        let value = self.script_value(given)?;
        let plain = plain(&value).ok_or_else(|| Problem::new(must_be(input, &value)))?;
        let values = match (&input.kind, plain.clone()) {
            (InputKind::List, TicketValue::List(list)) => list,
            (_, one) => vec![one],
        };
        for one in &values {
            let quantity = one.quantity().ok_or_else(|| Problem::new(must_be(input, &value)))?;
            self.within(input, quantity, &value)?;
        }
        match (&input.kind, plain) {
            (InputKind::Count, plain) => {
                let quantity = plain.quantity().map_or(f64::NAN, Quantity::steps);
                let whole = number::whole(quantity).ok_or_else(|| Problem::new(must_be(input, &value)))?;
                Ok(Answered::Plain(TicketValue::Whole(whole)))
            }
            (InputKind::List, TicketValue::List(list)) => Ok(Answered::Plain(TicketValue::List(list))),
            (InputKind::List, one) => Ok(Answered::Plain(TicketValue::List(vec![one]))),
            (_, plain) => Ok(Answered::Plain(plain)),
        }
    }

    /// Kind and ends.
    fn within(&self, input: &Input, quantity: Quantity, value: &Dynamic) -> Filled<()> {
        let dimension = match &input.kind {
            InputKind::Measure(dimension) => *dimension,
            InputKind::List => input.range.map_or(quantity.dimension(), |range| range.least.dimension()),
            _ => crate::quantity::Dimension::NUMBER,
        };
        if quantity.dimension() != dimension {
            let problem = Problem::new(must_be(input, value));
            let bare = quantity.dimension().is_number() && dimension == crate::quantity::Dimension::LENGTH;
            return Err(if bare {
                let shown = self.style.show(quantity);
                problem.hinting(format!("give it a unit: {shown} in or {shown} cm"))
            } else {
                problem
            });
        }
        match input.range {
            Some(range) if !range.holds(quantity) => Err(Problem::new(format!(
                "{} is outside what the recipe is made for, {}",
                self.style.show(quantity).trim_start_matches("≈ "),
                range.show(self.style)
            ))),
            _ => Ok(()),
        }
    }

    fn gathers(&self, input: &Input, given: &Given) -> Filled<Gathers> {
        let name = match given {
            Given::Typed(text) => Some(text.trim().to_owned()),
            Given::Script(value) => value.clone().try_cast::<ImmutableString>().map(|text| text.to_string()),
        };
        if let Some(trial) = name.as_deref().and_then(|name| self.workshop.trials.find(name)) {
            let gathers = Gathers {
                input: input.name.clone(),
                passes: trial.passes.iter().map(Pass::ratio).collect(),
                source: trial.name.clone(),
                piece: trial.piece(),
                overlap: trial.overlap(),
            };
            return self.checked_gathers(input, gathers);
        }
        let looks_like_a_name = name.as_deref().is_some_and(|name| name.starts_with(char::is_alphabetic));
        if looks_like_a_name {
            let name = name.unwrap_or_default();
            let near = self.workshop.trials.nearest(&name);
            let hint = near.map_or_else(
                || "type a ratio such as 2, or passes such as [6, 5]".to_owned(),
                |near| format!("did you mean “{near}”?"),
            );
            return Err(Problem::new(format!("there is no trial “{name}”")).hinting(hint));
        }
        let value = self.script_value(given)?;
        let wrong = || Problem::new(must_be(input, &value));
        let plain = plain(&value).ok_or_else(wrong)?;
        let passes: Option<Vec<f64>> = match &plain {
            TicketValue::List(list) => {
                list.iter().map(|pass| pass.quantity().and_then(|pass| pass.plain().ok())).collect()
            }
            one => one.quantity().and_then(|ratio| ratio.plain().ok()).map(|ratio| vec![ratio]),
        };
        let passes = passes.filter(|passes| !passes.is_empty()).ok_or_else(wrong)?;
        let gathers =
            Gathers { input: input.name.clone(), passes, source: "typed".to_owned(), piece: None, overlap: None };
        self.checked_gathers(input, gathers)
    }

    fn checked_gathers(&self, input: &Input, gathers: Gathers) -> Filled<Gathers> {
        if let Some(pass) = gathers.passes.iter().find(|pass| **pass < 1.0) {
            let pass = self.style.show_number(*pass);
            let problem = Problem::new(format!("a ratio of {pass} is too small; a gathered edge needs 1 or more"));
            return Err(
                problem.hinting("the ratio is flat length over finished length: 2 is twice as much cloth as seam")
            );
        }
        crate::textile::gathering::passes_together(&gathers.passes)
            .map_err(|fault| Problem::new(fault.message(self.style)).with_hint(fault.hint()))?;
        let ratio = Quantity::number(gathers.ratio());
        match input.range {
            Some(range) if !range.holds(ratio) => Err(Problem::new(format!(
                "a ratio of {} is outside what the recipe is made for, {}",
                self.style.show(ratio),
                range.show(self.style)
            ))),
            _ => Ok(gathers),
        }
    }

    fn goods(&self, input: &Input, given: &Given, notion: bool) -> Filled<Goods> {
        let name = match given {
            Given::Typed(text) => Some(text.trim().to_owned()),
            Given::Script(value) => value.clone().try_cast::<ImmutableString>().map(|text| text.to_string()),
        };
        if let Some(material) = name.as_deref().and_then(|name| self.workshop.materials.find(name)) {
            let is_notion = matches!(material.kind, MaterialKind::Notion | MaterialKind::Thread);
            if is_notion != notion {
                let (is, needed) = if notion { ("a cloth", "a notion") } else { ("a notion", "a cloth") };
                return Err(Problem::new(format!("“{}” is {is}; {needed} is needed", material.name)));
            }
            return Ok(Goods::listed(material).answering(&input.name, &input.question));
        }
        let value = match (given, name.as_deref()) {
            (Given::Script(value), None) => value.clone(),
            (_, name) => {
                let name = name.unwrap_or_default();
                match unnamed(name, notion) {
                    Some(expression) => self.script_value(&Given::Typed(expression))?,
                    None if name.contains('(') => self.script_value(given)?,
                    None => return Err(self.no_material(name, notion)),
                }
            }
        };
        match value.clone().try_cast::<Goods>() {
            Some(goods) if goods.notion == notion => Ok(goods.answering(&input.name, &input.question)),
            _ => Err(Problem::new(must_be(input, &value))),
        }
    }

    fn no_material(&self, name: &str, notion: bool) -> Problem {
        let problem = Problem::new(format!("“{name}” is not in the workshop's list of materials"));
        let hint = self.workshop.materials.nearest(name).map_or_else(
            || if notion { "type any, or any $0.50/yd".to_owned() } else { "type any 45 in at $6/yd".to_owned() },
            |near| format!("did you mean “{near}”?"),
        );
        problem.hinting(hint)
    }
}

/// `any 45 in at $6/yd`, `any`, `any $0.50/yd` as the expression they stand for.
fn unnamed(written: &str, notion: bool) -> Option<String> {
    let rest = written.strip_prefix("any")?;
    if !rest.is_empty() && !rest.starts_with(' ') {
        return None;
    }
    let rest = rest.trim();
    if notion {
        let price = rest.strip_prefix("at ").unwrap_or(rest);
        return Some(format!("any_notion({price})"));
    }
    let (width, price) = rest.split_once(" at ").unwrap_or((rest, ""));
    Some(if price.is_empty() { format!("any_cloth({width})") } else { format!("any_cloth({width}, {price})") })
}

fn must_be(input: &Input, given: &Dynamic) -> String {
    format!("{} is needed, not {}", input.kind.noun(), value::noun(given))
}

fn choice(given: &Given, words: &[String]) -> Filled<Answered> {
    let Answered::Plain(TicketValue::Text(answer)) = text(given)? else {
        return Err(Problem::new(format!("{} is needed", words.join(" or "))));
    };
    if words.contains(&answer) {
        return Ok(Answered::Plain(TicketValue::Text(answer)));
    }
    let near = nearest(&answer, words.iter().map(String::as_str));
    let problem = Problem::new(format!("“{answer}” is none of {}", words.join(", ")));
    Err(problem.with_hint(near.map(|near| format!("did you mean “{near}”?"))))
}

fn yes_no(given: &Given) -> Filled<Answered> {
    let flag = match given {
        Given::Script(value) => value.as_bool().ok(),
        Given::Typed(text) => match text.trim().to_lowercase().as_str() {
            "yes" | "y" | "true" => Some(true),
            "no" | "n" | "false" => Some(false),
            _ => None,
        },
    };
    flag.map(|flag| Answered::Plain(TicketValue::Flag(flag))).ok_or_else(|| Problem::new("yes or no is needed"))
}

fn text(given: &Given) -> Filled<Answered> {
    let text = match given {
        Given::Typed(text) => Some(text.trim().to_owned()),
        Given::Script(value) => value.clone().try_cast::<ImmutableString>().map(|text| text.to_string()),
    };
    text.map(|text| Answered::Plain(TicketValue::Text(text))).ok_or_else(|| Problem::new("a text is needed"))
}

fn same(left: &TicketValue, right: &TicketValue) -> bool {
    match (left.quantity(), right.quantity()) {
        (Some(left), Some(right)) => left.compared(right).is_ok_and(std::cmp::Ordering::is_eq),
        _ => left == right,
    }
}

impl OrderData {
    /// How many garments.
    pub(super) fn garments(&self) -> i64 {
        self.garments
    }

    /// The answers as plain data, in the order of the recipe.
    pub(super) fn answered(&self) -> Vec<AnsweredInput> {
        let answered = self.inputs.iter().filter_map(|input| {
            let (answer, source) = self.answers.get(&input.name)?;
            let value = match answer {
                Answered::Plain(value) => value.clone(),
                Answered::Goods(goods) => TicketValue::Text(goods.material.name.clone()),
                Answered::Gathers(gathers) if gathers.source == "typed" => match gathers.passes.as_slice() {
                    [one] => TicketValue::Quantity(Quantity::number(*one)),
                    passes => TicketValue::List(
                        passes.iter().map(|pass| TicketValue::Quantity(Quantity::number(*pass))).collect(),
                    ),
                },
                Answered::Gathers(gathers) => TicketValue::Text(gathers.source.clone()),
            };
            let (name, question) = (input.name.clone(), input.question.clone());
            Some(AnsweredInput { name, question, value, source: *source })
        });
        answered.collect()
    }

    /// Whether an input of this name is declared.
    pub(super) fn declares(&self, name: &str) -> bool {
        self.inputs.iter().any(|input| input.name == name)
    }

    fn unknown(&self, name: &str) -> Problem {
        let near = nearest(name, self.inputs.iter().map(|input| input.name.as_str()));
        Problem::new(format!("the order has no “{name}”")).with_hint(near.map(|near| format!("did you mean “{near}”?")))
    }

    fn refuse(&self, name: &str, why: &str, instead: Option<String>) -> Answer<()> {
        if self.declares(name) || name == PIECES {
            Err(Problem::new(why).with_hint(instead).refusing(name).into())
        } else {
            Err(self.unknown(name).into())
        }
    }

    fn member(&self, name: &str) -> Answer<Dynamic> {
        if name == PIECES {
            return Ok(Dynamic::from_int(self.garments));
        }
        match self.answers.get(name) {
            Some((Answered::Plain(value), _)) => Ok(scripted(value)),
            Some((Answered::Gathers(gathers), _)) => Ok(Dynamic::from(gathers.clone())),
            Some((Answered::Goods(goods), _)) => Ok(Dynamic::from(goods.clone())),
            None if self.declares(name) => {
                let problem = Problem::new(format!("“{name}” was not given, so it cannot be reckoned with"));
                Err(problem.hinting(format!("ask first: if order.has(\"{name}\") {{ … }}")).refusing(name).into())
            }
            None => Err(self.unknown(name).into()),
        }
    }
}

/// Makes the words known to an engine.
pub(super) fn register(engine: &mut Engine) {
    engine
        .register_type_with_name::<Order>("order")
        .register_indexer_get(|order: &mut Order, name: ImmutableString| order.member(&name))
        .register_fn("has", |order: &mut Order, name: ImmutableString| -> Answer<bool> {
            if order.declares(&name) {
                Ok(order.answers.contains_key(name.as_str()))
            } else {
                Err(order.unknown(&name).into())
            }
        })
        .register_fn("refuse", |order: &mut Order, name: ImmutableString, why: ImmutableString| -> Answer<()> {
            order.refuse(&name, &why, None)
        })
        .register_fn(
            "refuse",
            |order: &mut Order, name: ImmutableString, why: ImmutableString, instead: ImmutableString| -> Answer<()> {
                order.refuse(&name, &why, Some(instead.to_string()))
            },
        );
}
