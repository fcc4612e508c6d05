//! Lists, groups and texts in scripts: the few operations a recipe needs, each bounded.
//!
//! The script engine's own packages contain calls that can allocate gigabytes or swallow errors, so every operation
//! offered is registered here by name.
#![allow(clippy::needless_pass_by_value, reason = "the engine hands over what it passes")]

use super::limits::Meter;
use super::script_error::ScriptError;
use super::value::{Value, noun};
use rhai::{Array, Dynamic, Engine, EvalAltResult, FnPtr, ImmutableString, Map, NativeCallContext};
use std::cmp::Ordering;

type FunctionResult<T> = Result<T, Box<EvalAltResult>>;

/// The names of what is offered. A function of one of these names would take the place of some of its forms only.
pub(super) const WORDS: [&str; 20] = [
    "len",
    "is_empty",
    "push",
    "pop",
    "reverse",
    "contains",
    "map",
    "filter",
    "reduce",
    "all",
    "some",
    "sort",
    "sum",
    "keys",
    "values",
    "starts_with",
    "ends_with",
    "replace",
    "range",
    "to_string",
];

pub(super) fn register(engine: &mut Engine, meter: &Meter) {
    lists(engine, meter);
    groups(engine);
    texts(engine, meter);
}

/// Bytes or items looked through that count as one operation of the script.
const LOOKED_THROUGH: usize = 16;

/// Steps of a script that take as long as one call of an operator.
const A_COMPARISON: u64 = 4;

/// Counts what is looked through as operations: to the engine, a call is one whatever it is called on.
fn looks_through(meter: &Meter, length: usize) {
    meter.charge(u64::try_from(length / LOOKED_THROUGH).unwrap_or(u64::MAX));
}

fn size(length: usize) -> i64 {
    crate::quantity::number::from_size(length)
}

fn size_of(length: usize) -> u64 {
    u64::try_from(length).unwrap_or(u64::MAX)
}

fn lists(engine: &mut Engine, meter: &Meter) {
    let of_run = meter.clone();
    let of_sum = meter.clone();
    engine
        .register_fn("len", |list: &mut Array| size(list.len()))
        .register_get("len", |list: &mut Array| size(list.len()))
        .register_fn("is_empty", |list: &mut Array| list.is_empty())
        .register_fn("push", |list: &mut Array, item: Dynamic| list.push(item))
        .register_fn("pop", |list: &mut Array| list.pop().unwrap_or(Dynamic::UNIT))
        .register_fn("reverse", |list: &mut Array| list.reverse())
        .register_fn("contains", move |context: NativeCallContext, list: &mut Array, wanted: Dynamic| {
            // Each item is compared with, which takes as long as several steps of a script.
            of_run.charge(size_of(list.len()).saturating_mul(A_COMPARISON));
            contains(&context, list, &wanted)
        })
        .register_fn("map", map)
        .register_fn("filter", filter)
        .register_fn("reduce", reduce)
        .register_fn("all", |context: NativeCallContext, list: &mut Array, test: FnPtr| {
            holds(&context, list, &test, false)
        })
        .register_fn("some", |context: NativeCallContext, list: &mut Array, test: FnPtr| {
            holds(&context, list, &test, true)
        })
        .register_fn("sort", sort_plain)
        .register_fn("sort", sort_by)
        .register_fn("sum", move |context: NativeCallContext, list: &mut Array| {
            of_sum.charge(size_of(list.len()).saturating_mul(A_COMPARISON));
            sum(&context, list)
        })
        .register_fn("+", |mut left: Array, right: Array| {
            left.extend(right);
            left
        });
}

fn same(context: &NativeCallContext, left: &Dynamic, right: &Dynamic) -> FunctionResult<bool> {
    context
        .call_native_fn_raw("==", true, &mut [&mut left.clone(), &mut right.clone()])?
        .as_bool()
        .map_err(|_| ScriptError::new(format!("{} and {} cannot be compared", noun(left), noun(right))).into())
}

fn contains(context: &NativeCallContext, list: &Array, wanted: &Dynamic) -> FunctionResult<bool> {
    for item in list {
        if same(context, item, wanted)? {
            return Ok(true);
        }
    }
    Ok(false)
}

fn map(context: NativeCallContext, list: &mut Array, each: FnPtr) -> FunctionResult<Array> {
    list.iter().map(|item| each.call_within_context::<Dynamic>(&context, (item.clone(),))).collect()
}

fn test_result(context: &NativeCallContext, test: &FnPtr, item: &Dynamic) -> FunctionResult<bool> {
    let answer = test.call_within_context::<Dynamic>(context, (item.clone(),))?;
    answer
        .as_bool()
        .map_err(|_| ScriptError::new(format!("a test must answer yes or no, not {}", noun(&answer))).into())
}

fn filter(context: NativeCallContext, list: &mut Array, test: FnPtr) -> FunctionResult<Array> {
    let mut kept = Array::new();
    for item in list.iter() {
        if test_result(&context, &test, item)? {
            kept.push(item.clone());
        }
    }
    Ok(kept)
}

fn holds(context: &NativeCallContext, list: &Array, test: &FnPtr, wanted: bool) -> FunctionResult<bool> {
    for item in list {
        if test_result(context, test, item)? == wanted {
            return Ok(wanted);
        }
    }
    Ok(!wanted)
}

fn reduce(context: NativeCallContext, list: &mut Array, step: FnPtr, first: Dynamic) -> FunctionResult<Dynamic> {
    list.iter().try_fold(first, |sum, item| step.call_within_context(&context, (sum, item.clone())))
}

fn sum(context: &NativeCallContext, list: &Array) -> FunctionResult<Dynamic> {
    let mut items = list.iter();
    let Some(first) = items.next() else {
        return Err(ScriptError::new("an empty list has no sum").into());
    };
    items.try_fold(first.clone(), |sum, item| {
        context.call_native_fn_raw("+", true, &mut [&mut sum.clone(), &mut item.clone()])
    })
}

fn sort_plain(list: &mut Array) -> FunctionResult<()> {
    sort_with(list, |left, right| {
        let (Some(a), Some(b)) = (Value::from_script(left), Value::from_script(right)) else {
            return Err(ScriptError::new("only numbers, measures and texts can be put in order").into());
        };
        if let (Value::Text(a), Value::Text(b)) = (&a, &b) {
            return Ok(a.cmp(b));
        }
        match (a.quantity(), b.quantity()) {
            (Some(a), Some(b)) => a.compared(b).map_err(|error| ScriptError::from(error).into()),
            _ => Err(ScriptError::new(format!("{} and {} cannot be put in order", a.noun(), b.noun())).into()),
        }
    })
}

fn sort_by(context: NativeCallContext, list: &mut Array, order: FnPtr) -> FunctionResult<()> {
    sort_with(list, |left, right| {
        let answer = order.call_within_context::<Dynamic>(&context, (left.clone(), right.clone()))?;
        match (answer.as_int(), answer.as_bool()) {
            (Ok(order), _) => Ok(order.cmp(&0)),
            (_, Ok(first)) => Ok(if first { Ordering::Less } else { Ordering::Greater }),
            _ => Err(ScriptError::new("what puts a list in order must answer a whole number or yes or no").into()),
        }
    })
}

/// Sorts by merging, because the standard sort cannot stop at a comparison that fails.
fn sort_with(list: &mut Array, compare: impl Fn(&Dynamic, &Dynamic) -> FunctionResult<Ordering>) -> FunctionResult<()> {
    let mut runs: Vec<Array> = list.iter().map(|item| vec![item.clone()]).collect();
    while runs.len() > 1 {
        let mut merged = Vec::with_capacity(runs.len().div_ceil(2));
        let mut pairs = runs.into_iter();
        while let Some(left) = pairs.next() {
            merged.push(match pairs.next() {
                Some(right) => merge(left, right, &compare)?,
                None => left,
            });
        }
        runs = merged;
    }
    *list = runs.pop().unwrap_or_default();
    Ok(())
}

fn merge(
    left: Array,
    right: Array,
    compare: &impl Fn(&Dynamic, &Dynamic) -> FunctionResult<Ordering>,
) -> FunctionResult<Array> {
    let mut merged = Array::with_capacity(left.len() + right.len());
    let (mut left, mut right) = (left.into_iter().peekable(), right.into_iter().peekable());
    while let (Some(l), Some(r)) = (left.peek(), right.peek()) {
        let next = if compare(l, r)?.is_le() { left.next() } else { right.next() };
        merged.extend(next);
    }
    merged.extend(left);
    merged.extend(right);
    Ok(merged)
}

fn groups(engine: &mut Engine) {
    engine
        .register_fn("len", |group: &mut Map| size(group.len()))
        .register_fn("is_empty", |group: &mut Map| group.is_empty())
        .register_fn("contains", |group: &mut Map, name: &str| group.contains_key(name))
        .register_fn("keys", |group: &mut Map| {
            group.keys().map(|key| Dynamic::from(key.to_string())).collect::<Array>()
        })
        .register_fn("values", |group: &mut Map| group.values().cloned().collect::<Array>());
}

fn texts(engine: &mut Engine, meter: &Meter) {
    let (of_len, of_member, of_contains, of_replace) = (meter.clone(), meter.clone(), meter.clone(), meter.clone());
    let letters = |meter: &Meter, text: &str| {
        looks_through(meter, text.len());
        size(text.chars().count())
    };
    engine
        .register_fn("len", move |text: &str| letters(&of_len, text))
        .register_get("len", move |text: &mut ImmutableString| letters(&of_member, text))
        .register_fn("is_empty", |text: &str| text.is_empty())
        .register_fn("contains", move |text: &str, part: &str| {
            looks_through(&of_contains, text.len());
            text.contains(part)
        })
        .register_fn("starts_with", |text: &str, part: &str| text.starts_with(part))
        .register_fn("ends_with", |text: &str, part: &str| text.ends_with(part))
        .register_fn("replace", move |text: &mut ImmutableString, part: &str, by: &str| {
            looks_through(&of_replace, text.len());
            replace(text, part, by)
        });
}

/// Replaces in place; fails if the result could exceed 100,000 bytes.
fn replace(text: &mut ImmutableString, part: &str, by: &str) -> FunctionResult<()> {
    let found = if part.is_empty() { 0 } else { text.matches(part).count() };
    if text.len().saturating_add(found.saturating_mul(by.len())) > 100_000 {
        return Err(ScriptError::new("the text would become too long").into());
    }
    if found > 0 {
        *text = text.as_str().replace(part, by).into();
    }
    Ok(())
}

#[cfg(test)]
mod tests;
