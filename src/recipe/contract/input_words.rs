//! The words that declare inputs, such as `length("waist", "waist, tape snug").between(…)`.
#![allow(clippy::needless_pass_by_value, reason = "the script engine hands arguments over by value")]

use crate::engine::{ScriptError, Value, value};
use crate::recipe::contract::arguments::{ScriptResult, argument};
use crate::recipe::contract::input::{Input, RESERVED};
use crate::recipe::contract::input_kind::InputKind;
use crate::recipe::contract::range::Range;
use crate::ticket::TicketValue;
use rhai::{Array, Dynamic, Engine};

/// Registers the words with an engine.
pub(in crate::recipe) fn register(engine: &mut Engine) {
    engine.register_type_with_name::<Input>("input");
    for (word, kind, _) in InputKind::DECLARED {
        engine.register_fn(word, move |name: Dynamic, question: Dynamic| -> ScriptResult<Input> {
            Ok(declared(word, &name, &question, kind.clone())?)
        });
    }
    engine
        .register_fn("choice", choice)
        .register_fn("usual", usual)
        .register_fn("between", between)
        .register_fn("optional", |input: Input| Input { optional: true, ..input })
        .register_fn("only_if", only_if)
        .register_fn("same_as", same_as)
        .register_fn("body", body);
}

fn declared(word: &str, name: &Dynamic, question: &Dynamic, kind: InputKind) -> Result<Input, ScriptError> {
    let (name, question) = (argument(word, "name", 0, name), argument(word, "question", 1, question));
    let (written, question) = (name.text()?, question.text()?);
    let fits =
        written.starts_with(|c: char| c.is_alphabetic()) && written.chars().all(|c| c.is_alphanumeric() || c == '_');
    if !fits {
        let problem = name.problem(format!("“{written}” cannot be the name of an input"));
        return Err(problem.hinting("use letters and underscores: skirt_length"));
    }
    if let Some((reserved, meaning)) = RESERVED.iter().find(|(reserved, _)| *reserved == written) {
        return Err(name.problem(format!("“{reserved}” is {meaning}")).hinting("give the input another name"));
    }
    Ok(Input::new(&written, &question, kind))
}

fn choice(name: Dynamic, question: Dynamic, words: Dynamic) -> ScriptResult<Input> {
    let list = argument("choice", "words", 2, &words);
    let Some(Value::List(items)) = Value::from_script(&words) else {
        return Err(list.must_be("a list of texts").into());
    };
    let texts = items.into_iter().map(|item| match item {
        Value::Text(text) => Ok(text),
        other => Err(list.problem(format!("a choice must be a text, not {}", other.noun()))),
    });
    let texts = texts.collect::<Result<Vec<_>, _>>()?;
    if texts.len() < 2 {
        return Err(list.problem("a choice needs at least two words").into());
    }
    Ok(declared("choice", &name, &question, InputKind::Choice(texts))?)
}

/// Converts a script value to plain ticket data.
pub(in crate::recipe) fn plain(arg: &Dynamic) -> Option<TicketValue> {
    Value::from_script(arg).and_then(ticket_value)
}

/// `None` for a blank, in a list too.
fn ticket_value(value: Value) -> Option<TicketValue> {
    Some(match value {
        Value::Quantity(quantity) => TicketValue::Quantity(quantity),
        Value::Whole(whole) => TicketValue::Whole(whole),
        Value::Text(text) => TicketValue::Text(text),
        Value::Flag(flag) => TicketValue::Flag(flag),
        Value::List(list) => TicketValue::List(list.into_iter().map(ticket_value).collect::<Option<_>>()?),
        Value::Blank => return None,
    })
}

/// Converts a ticket value to a script value.
pub(in crate::recipe) fn scripted(value: &TicketValue) -> Dynamic {
    match value {
        TicketValue::Quantity(quantity) => value::quantity_to_script(*quantity),
        TicketValue::Whole(whole) => Dynamic::from_int(*whole),
        TicketValue::Text(text) => Dynamic::from(text.clone()),
        TicketValue::Flag(flag) => Dynamic::from_bool(*flag),
        TicketValue::List(list) => Dynamic::from_array(list.iter().map(scripted).collect::<Array>()),
    }
}

fn usual(input: Input, arg: Dynamic) -> ScriptResult<Input> {
    let usual = argument("usual", "the usual value", 0, &arg);
    if input.body.is_some() {
        return Err(usual.problem("a body measure has no usual value; it is measured").into());
    }
    let value = plain(&arg).ok_or_else(|| usual.must_be(&input.kind.noun()))?;
    if !input.kind.may_be(&value) {
        return Err(usual.must_be(&input.kind.noun()).into());
    }
    Ok(Input { usual: Some(value), ..input })
}

fn between(input: Input, least: Dynamic, most: Dynamic) -> ScriptResult<Input> {
    let ends = [argument("between", "the least", 0, &least), argument("between", "the most", 1, &most)];
    let [least, most] = ends;
    let mut wrong = None;
    let first = || match least.quantity() {
        Ok(least) => Some(least.dimension()),
        Err(error) => {
            wrong = Some(error);
            None
        }
    };
    let dimension = input.kind.range_dimension(first);
    if let Some(error) = wrong {
        return Err(error.into());
    }
    let Some(dimension) = dimension else {
        return Err(ScriptError::new(format!("{} has no ends to lie between", input.kind.noun())).into());
    };
    let range = Range { least: least.of(dimension)?, most: most.of(dimension)? };
    if !range.holds(range.least) || range.least.compared(range.most).is_ok_and(std::cmp::Ordering::is_gt) {
        return Err(most.problem("the most must not be less than the least").into());
    }
    Ok(Input { range: Some(range), ..input })
}

fn only_if(input: Input, other: Dynamic, wanted: Dynamic) -> ScriptResult<Input> {
    let name = argument("only_if", "the input", 0, &other).text()?;
    let value = argument("only_if", "its value", 1, &wanted);
    let wanted = plain(&wanted).ok_or_else(|| value.must_be("a value that input may have"))?;
    Ok(Input { only_if: Some((name, wanted)), ..input })
}

fn same_as(input: Input, other: Dynamic) -> ScriptResult<Input> {
    let name = argument("same_as", "the input", 0, &other).text()?;
    Ok(Input { same_as: Some(name), ..input })
}

fn body(input: Input, measure: Dynamic) -> ScriptResult<Input> {
    let arg = argument("body", "the body measure", 0, &measure);
    if input.usual.is_some() {
        return Err(arg.problem("a body measure has no usual value; it is measured").into());
    }
    Ok(Input { body: Some(arg.text()?), ..input })
}
