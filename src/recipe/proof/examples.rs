//! Runs the worked examples of a recipe and compares their results.

use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::value;
use crate::quantity::{Quantity, Style};
use crate::recipe::answers::answering::RawAnswer;
use crate::recipe::contract::input_words::plain;
use crate::recipe::opened::{NoTicket, Recipe};
use crate::report::excerpt;
use crate::ticket::{Ticket, TicketValue};
use rhai::{Array, Dynamic, ImmutableString, Map};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The result an example expects.
enum Expected {
    /// These figures and counts, each with its tolerance.
    Figures(Vec<(String, TicketValue, Option<Quantity>)>),
    /// A refusal of the order because of this input.
    Refusal(String),
}

/// An example that produces a ticket.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WorkedExample {
    /// The ticket it produces.
    pub ticket: Ticket,
    /// The names of the figures it must match, and of the counts as `pieces of NAME`.
    pub expected: Vec<String>,
    /// The source of the expected values.
    pub source: String,
}

/// Runs the examples that produce a ticket; those that expect a refusal are left out.
pub(in crate::recipe) fn worked(recipe: &Recipe) -> Result<Vec<WorkedExample>, NoTicket> {
    let mut found = Vec::new();
    for example in list(recipe)?.into_iter().filter_map(Dynamic::try_cast::<Map>) {
        let group = |key: &str| example.get(key).and_then(|group| group.clone().try_cast::<Map>());
        let (Some(given), Some(expect)) = (group("given"), group("expect")) else { continue };
        let answers = given.into_iter().map(|(name, value)| (name.to_string(), RawAnswer::Script(value))).collect();
        let source = example.get("source").and_then(|source| source.clone().try_cast::<ImmutableString>());
        found.push(WorkedExample {
            ticket: recipe.run(answers)?,
            expected: expect.keys().map(ToString::to_string).collect(),
            source: source.unwrap_or_default().to_string(),
        });
    }
    Ok(found)
}

/// Returns the examples as the recipe writes them; empty if it has none.
pub(in crate::recipe) fn list(recipe: &Recipe) -> Result<Array, Diagnostic> {
    if !recipe.script.has_function("examples", 0) {
        return Ok(Array::new());
    }
    let list = recipe.host.call(&recipe.script, "examples", ())?;
    list.try_cast::<Array>().ok_or_else(|| Diagnostic::new("examples() must give a list"))
}

/// What is wrong with an example.
#[derive(Debug)]
pub(in crate::recipe) struct Failure {
    /// The example's number, from nought.
    pub(in crate::recipe) example: usize,
    /// What of it is wrong.
    pub(in crate::recipe) at: FailureAt,
    /// In words, with the place in the script where one went wrong.
    pub(in crate::recipe) told: Diagnostic,
}

/// The part of an example that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::recipe) enum FailureAt {
    /// All of it.
    Whole,
    /// Its source.
    Source,
    /// An expected figure.
    Figure(String),
    /// How far its figures may be off.
    Within,
}

/// The most that a figure may be off, as a share of it: an example that allows more shows nothing.
const MOST_OFF: f64 = 0.1;

/// Runs all examples, and returns how many there are and every failure. An error means that the recipe's examples
/// cannot be read at all.
pub(in crate::recipe) fn run_all(recipe: &Recipe) -> Result<(usize, Vec<Failure>), Diagnostic> {
    let list = list(recipe)?;
    let count = list.len();
    let mut wrong = Vec::new();
    for (index, example) in list.into_iter().enumerate() {
        let failures = example
            .try_cast::<Map>()
            .ok_or_else(|| {
                vec![whole("an example is written #{ given: #{ … }, expect: #{ … }, source: \"…\" }".to_owned())]
            })
            .and_then(|example| run_one(recipe, &example));
        let named = |(at, told): (FailureAt, Diagnostic)| {
            let told = if told.labels.is_empty() {
                Diagnostic { message: format!("example {}: {}", index + 1, told.message), ..told }
            } else {
                Diagnostic::several(format!("example {} goes wrong", index + 1), vec![told])
            };
            Failure { example: index, at, told }
        };
        wrong.extend(failures.err().into_iter().flatten().map(named));
    }
    Ok((count, wrong))
}

fn whole(message: String) -> (FailureAt, Diagnostic) {
    (FailureAt::Whole, Diagnostic::new(message))
}

fn run_one(recipe: &Recipe, example: &Map) -> Result<(), Vec<(FailureAt, Diagnostic)>> {
    let one = |message: String| vec![whole(message)];
    for key in example.keys() {
        if !["given", "expect", "refuse", "source", "within"].contains(&key.as_str()) {
            return Err(one(format!("“{key}” is not a part of an example")));
        }
    }
    let source = example.get("source").and_then(|source| source.clone().try_cast::<ImmutableString>());
    if source.is_none_or(|source| source.trim().is_empty()) {
        let message = "it names no source; write \"own arithmetic\" where there is none".to_owned();
        return Err(vec![(FailureAt::Source, Diagnostic::new(message))]);
    }
    let given = example.get("given").and_then(|given| given.clone().try_cast::<Map>());
    let given = given.ok_or_else(|| one("it has no given: #{ … }".to_owned()))?;
    let answers: BTreeMap<String, RawAnswer> =
        given.into_iter().map(|(name, value)| (name.to_string(), RawAnswer::Script(value))).collect();
    let expected = expected(example).map_err(one)?;
    let style = recipe.host.style();
    match (recipe.run(answers), expected) {
        (Ok(ticket), Expected::Figures(figures)) => {
            let compared = |(name, value, within): &(String, TicketValue, Option<Quantity>)| {
                let wrong = compare(&ticket, name, value, *within, &style).err()?;
                Some((FailureAt::Figure(name.clone()), Diagnostic::new(wrong)))
            };
            let loose = figures.iter().filter_map(|(name, value, within)| {
                let (value, within) = (value.quantity()?, (*within)?);
                let off = within.steps().abs() > MOST_OFF * value.steps().abs();
                let is_loose = off && value.dimension() == within.dimension() && value.steps() != 0.0;
                let message = || format!("“{name}” may be off by {}, which proves nothing", style.show(within));
                is_loose.then(|| (FailureAt::Within, Diagnostic::new(message())))
            });
            let wrong: Vec<_> = figures.iter().filter_map(compared).chain(loose.take(1)).collect();
            if wrong.is_empty() { Ok(()) } else { Err(wrong) }
        }
        (Ok(_), Expected::Refusal(input)) => {
            Err(one(format!("the order should be turned away for “{input}”, and is not")))
        }
        (Err(NoTicket::Refused(refusals)), _) if refusals.iter().any(is_not_given) => {
            Err(refusals.into_iter().filter(is_not_given).map(|error| (FailureAt::Whole, error)).collect())
        }
        (Err(NoTicket::Refused(refusals)), Expected::Refusal(input)) => {
            let others = refusals.iter().filter(|refusal| refusal.input() != Some(&input));
            let others: Vec<_> = others.map(|refusal| whole(turned_away(refusal))).collect();
            if others.is_empty() { Ok(()) } else { Err(others) }
        }
        (Err(NoTicket::Refused(refusals)), Expected::Figures(_)) => Err(refusals
            .iter()
            .map(|refusal| whole(format!("the order is turned away: {}", turned_away(refusal))))
            .collect()),
        (Err(NoTicket::Failed(error)), _) => Err(vec![(FailureAt::Whole, error)]),
    }
}

/// A refusal without its place in the script.
fn turned_away(refusal: &Diagnostic) -> String {
    excerpt::text(&Diagnostic { labels: Vec::new(), trace: Vec::new(), topic: None, ..refusal.clone() })
}

/// Whether the recipe read an input that the order need not give: its own fault, though it turns the order away.
pub(in crate::recipe) fn is_not_given(refusal: &Diagnostic) -> bool {
    matches!(refusal.kind, DiagnosticKind::NotGiven { .. })
}

fn expected(example: &Map) -> Result<Expected, String> {
    let refuse = example.get("refuse").map(|input| {
        let input = input.clone().try_cast::<ImmutableString>();
        input.map(|input| input.to_string()).ok_or_else(|| "refuse names an input in quotes".to_owned())
    });
    let expect = example.get("expect").and_then(|expect| expect.clone().try_cast::<Map>());
    match (refuse, expect) {
        (Some(input), None) => Ok(Expected::Refusal(input?)),
        (None, Some(expect)) if !expect.is_empty() => {
            let within = example.get("within");
            let figures = expect.into_iter().map(|(name, value)| {
                let tolerance = tolerance(within, &name)?;
                let value = plain(&value).ok_or_else(|| format!("“{name}” cannot be {}", value::noun(&value)))?;
                Ok((name.to_string(), value, tolerance))
            });
            Ok(Expected::Figures(figures.collect::<Result<_, String>>()?))
        }
        _ => Err("it needs either expect: #{ … } or refuse: \"an input\"".to_owned()),
    }
}

/// Returns the tolerance of a figure: `within` is one for all figures, or a group with one for each.
fn tolerance(within: Option<&Dynamic>, name: &str) -> Result<Option<Quantity>, String> {
    let Some(within) = within else { return Ok(None) };
    let own = within.read_lock::<Map>().map(|group| group.get(name).cloned());
    let value = match own {
        Some(None) => return Ok(None),
        Some(Some(value)) => value,
        None => within.clone(),
    };
    value::quantity_from_script(&value).map(Some).ok_or_else(|| "within is a measure or a number".to_owned())
}

fn compare(
    ticket: &Ticket,
    name: &str,
    expected: &TicketValue,
    within: Option<Quantity>,
    style: &Style,
) -> Result<(), String> {
    let found = match name.strip_prefix("pieces of ") {
        Some(piece) => {
            let count = ticket.pieces_of(piece).ok_or_else(|| format!("there is no piece “{piece}”"))?;
            TicketValue::Whole(count)
        }
        None => ticket.figure(name).ok_or_else(|| format!("there is no figure “{name}”"))?.value.clone(),
    };
    let off = || {
        let (expected, found) = (expected.show(style), found.show(style));
        if expected == found {
            format!("“{name}” comes out a little off {expected}, by less than the tape shows")
        } else {
            format!("“{name}” should be {expected} and comes out as {found}")
        }
    };
    match (expected.quantity(), found.quantity()) {
        (Some(expected), Some(found)) if expected.dimension() == found.dimension() => {
            let allowed =
                within.filter(|within| within.dimension() == expected.dimension()).map_or(0.0, Quantity::steps);
            let apart = (expected.steps() - found.steps()).abs();
            if apart <= allowed || expected.compared(found).is_ok_and(std::cmp::Ordering::is_eq) {
                Ok(())
            } else {
                Err(off())
            }
        }
        _ if *expected == found => Ok(()),
        _ => Err(off()),
    }
}
