//! The meaning of `+ - * / ^` and the comparisons for quantities, and errors where they have none.

use super::common_mistakes;
use super::script_error::{Marked, ScriptError};
use super::text::rewrite::{LITERAL, SHOWN};
use super::value::{self, Blank, Measured, Spread, Value, quantity_to_script};
use crate::quantity::literal::{LiteralValue, read_quantity};
use crate::quantity::{Quantity, QuantityError, Reading, Style, number};
use rhai::{Array, Dynamic, Engine, EvalAltResult, ImmutableString};
use std::cmp::Ordering;

type ScriptResult = Result<Dynamic, Box<EvalAltResult>>;
type Sum = fn(Quantity, Quantity) -> Result<Quantity, QuantityError>;
type Holds = fn(Ordering) -> bool;

const SUMS: [(&str, Sum); 5] =
    [("+", Quantity::plus), ("-", Quantity::minus), ("*", Quantity::times), ("/", Quantity::per), ("^", power)];

const COMPARISONS: [(&str, Holds); 6] = [
    ("==", Ordering::is_eq),
    ("!=", Ordering::is_ne),
    ("<", Ordering::is_lt),
    ("<=", Ordering::is_le),
    (">", Ordering::is_gt),
    (">=", Ordering::is_ge),
];

/// Registers the operators on quantities, and division of plain numbers that is not whole-number division.
pub(super) fn register(engine: &mut Engine, reading: Reading, style: Style) {
    engine.register_type_with_name::<Measured>("measure").register_type_with_name::<Spread>("measure with ±");

    engine.register_fn(LITERAL, move |text: &str| literal(text, reading));
    for (name, sum) in SUMS {
        register_pairs(engine, name, move |left, right| {
            sum(left, right).map(quantity_to_script).map_err(|error| {
                let problem = sides(error);
                let meant = common_mistakes::share_added(name, left, right, &style);
                let hint = meant.or_else(|| problem.hint.clone());
                problem.with_hint(hint).into()
            })
        });
        register_spread(engine, name);
    }
    for (name, holds) in COMPARISONS {
        register_pairs(engine, name, move |left, right| {
            left.compared(right).map(|order| Dynamic::from_bool(holds(order))).map_err(|error| sides(error).into())
        });
        register_spread(engine, name);
        register_unlike(engine, name);
    }
    register_blanks(engine);
    engine.register_fn("-", |measured: Measured| Measured::new(measured.quantity().negated()));
    engine.register_fn("+", |measured: Measured| measured);
    register_plain(engine);
    register_texts(engine, style);
}

fn literal(text: &str, reading: Reading) -> ScriptResult {
    match read_quantity(text, reading) {
        Ok(value) => Ok(literal_value(&value)),
        Err(error) => Err(ScriptError::of(&error, &Style::default()).into()),
    }
}

/// A literal as a script value.
pub(super) fn literal_value(value: &LiteralValue) -> Dynamic {
    match value {
        LiteralValue::Quantity(quantity) => match quantity.to_number().ok().and_then(number::whole) {
            Some(whole) if quantity.liked().named.is_none() => Dynamic::from_int(whole),
            _ => quantity_to_script(*quantity),
        },
        LiteralValue::Spread { middle, half } => Dynamic::from(Spread { middle: *middle, half: *half }),
    }
}

fn sides(error: QuantityError) -> ScriptError {
    ScriptError::from(error).marking(Marked::Sides)
}

fn power(base: Quantity, exponent: Quantity) -> Result<Quantity, QuantityError> {
    base.to_the(exponent.to_number()?)
}

fn register_pairs<F>(engine: &mut Engine, name: &str, f: F)
where
    F: Fn(Quantity, Quantity) -> ScriptResult + Copy + 'static,
{
    let whole = |n: i64| Quantity::number(number::from_whole(n));
    engine.register_fn(name, move |a: Measured, b: Measured| f(a.quantity(), b.quantity()));
    engine.register_fn(name, move |a: Measured, b: f64| f(a.quantity(), Quantity::number(b)));
    engine.register_fn(name, move |a: Measured, b: i64| f(a.quantity(), whole(b)));
    engine.register_fn(name, move |a: f64, b: Measured| f(Quantity::number(a), b.quantity()));
    engine.register_fn(name, move |a: i64, b: Measured| f(whole(a), b.quantity()));
}

/// Makes operators on a measure with ± an error for now, so that its limits are not lost silently.
fn register_spread(engine: &mut Engine, name: &str) {
    let refuse = || -> ScriptResult {
        Err(ScriptError::new("a measure with ± cannot be used in sums yet")
            .hinting("use the measure alone, without ±")
            .marking(Marked::Sides)
            .into())
    };
    engine.register_fn(name, move |_: Spread, _: Spread| refuse());
    engine.register_fn(name, move |_: Spread, _: Measured| refuse());
    engine.register_fn(name, move |_: Measured, _: Spread| refuse());
    engine.register_fn(name, move |_: Spread, _: f64| refuse());
    engine.register_fn(name, move |_: f64, _: Spread| refuse());
    engine.register_fn(name, move |_: Spread, _: i64| refuse());
    engine.register_fn(name, move |_: i64, _: Spread| refuse());
}

/// Makes comparing unlike values an error; the script engine would silently answer “no”.
fn register_unlike(engine: &mut Engine, name: &str) {
    fn refuse(left: &Value, right: &Value) -> ScriptResult {
        let message = format!("{} and {} cannot be compared", left.noun(), right.noun());
        Err(ScriptError::new(message).marking(Marked::Sides).into())
    }
    let text = |text: ImmutableString| Value::Text(text.to_string());
    let measured = |m: Measured| Value::Quantity(m.quantity());
    engine.register_fn(name, move |a: Measured, b: ImmutableString| refuse(&measured(a), &text(b)));
    engine.register_fn(name, move |a: ImmutableString, b: Measured| refuse(&text(a), &measured(b)));
    engine.register_fn(name, move |a: Measured, b: bool| refuse(&measured(a), &Value::Flag(b)));
    engine.register_fn(name, move |a: bool, b: Measured| refuse(&Value::Flag(a), &measured(b)));
    engine.register_fn(name, move |a: i64, b: ImmutableString| refuse(&Value::Whole(a), &text(b)));
    engine.register_fn(name, move |a: ImmutableString, b: i64| refuse(&text(a), &Value::Whole(b)));
    engine.register_fn(name, move |a: f64, b: ImmutableString| refuse(&Quantity::number(a).into(), &text(b)));
    engine.register_fn(name, move |a: ImmutableString, b: f64| refuse(&text(a), &Quantity::number(b).into()));
    engine.register_fn(name, move |a: i64, b: bool| refuse(&Value::Whole(a), &Value::Flag(b)));
    engine.register_fn(name, move |a: bool, b: i64| refuse(&Value::Flag(a), &Value::Whole(b)));
    engine.register_fn(name, move |a: f64, b: bool| refuse(&Quantity::number(a).into(), &Value::Flag(b)));
    engine.register_fn(name, move |a: bool, b: f64| refuse(&Value::Flag(a), &Quantity::number(b).into()));
    engine.register_fn(name, move |a: ImmutableString, b: bool| refuse(&text(a), &Value::Flag(b)));
    engine.register_fn(name, move |a: bool, b: ImmutableString| refuse(&Value::Flag(a), &text(b)));
}

/// Makes operators on a blank an error that names its column; only `==` and `!=` with `()` test for a blank. The
/// script engine would silently answer that a blank is not more than anything.
fn register_blanks(engine: &mut Engine) {
    fn refuse(blank: &Blank) -> ScriptError {
        let name = &blank.name;
        ScriptError::new(format!("“{name}” is blank here"))
            .hinting(format!("ask first whether it is filled: known({name}) and …"))
            .marking(Marked::Sides)
    }
    fn with<T: Clone + 'static>(engine: &mut Engine) {
        for name in SUMS.map(|(name, _)| name).into_iter().chain(COMPARISONS.map(|(name, _)| name)) {
            engine.register_fn(name, |blank: Blank, _: T| -> ScriptResult { Err(refuse(&blank).into()) });
            engine.register_fn(name, |_: T, blank: Blank| -> ScriptResult { Err(refuse(&blank).into()) });
        }
    }
    engine.register_type_with_name::<Blank>("blank");
    with::<Measured>(engine);
    with::<i64>(engine);
    with::<f64>(engine);
    with::<bool>(engine);
    with::<ImmutableString>(engine);
    with::<Array>(engine);
    with::<Blank>(engine);
    for (name, same) in [("==", true), ("!=", false)] {
        engine.register_fn(name, move |_: Blank, (): ()| same);
        engine.register_fn(name, move |(): (), _: Blank| same);
    }
    for name in ["<", "<=", ">", ">="] {
        let refuse = || -> ScriptResult {
            Err(ScriptError::new("nothing stands on one side, so there is nothing to compare")
                .hinting("ask first whether it is filled: known(…)")
                .marking(Marked::Sides)
                .into())
        };
        engine.register_fn(name, move |_: Measured, (): ()| refuse());
        engine.register_fn(name, move |(): (), _: Measured| refuse());
    }
}

/// Makes comparing a host object with anything an error; the script engine would silently answer “no”.
pub(super) fn refuse_comparisons<T: Clone + 'static>(engine: &mut Engine, object: &'static str) {
    let refuse = move |other: &Dynamic, object_first: bool| -> ScriptResult {
        let (object, other) = (super::translate::type_noun(object), value::noun(other));
        let (left, right) = if object_first { (object, other) } else { (other, object) };
        Err(ScriptError::new(format!("{left} and {right} cannot be compared")).marking(Marked::Sides).into())
    };
    for (name, _) in COMPARISONS {
        engine.register_fn(name, move |_: T, other: Dynamic| refuse(&other, true));
        engine.register_fn(name, move |other: Dynamic, _: T| refuse(&other, false));
    }
}

/// Registers division and powers of plain numbers; the script engine does the rest itself.
fn register_plain(engine: &mut Engine) {
    fn divided(above: f64, below: f64) -> ScriptResult {
        let quotient = Quantity::number(above).per(Quantity::number(below)).map_err(sides)?;
        Ok(Dynamic::from_float(quotient.steps()))
    }
    fn raised(base: f64, exponent: f64) -> ScriptResult {
        let raised = power(Quantity::number(base), Quantity::number(exponent)).map_err(sides)?;
        Ok(Dynamic::from_float(raised.steps()))
    }
    engine.register_fn("/", divided);
    engine.register_fn("/", |a: i64, b: i64| divided(number::from_whole(a), number::from_whole(b)));
    engine.register_fn("/", |a: i64, b: f64| divided(number::from_whole(a), b));
    engine.register_fn("/", |a: f64, b: i64| divided(a, number::from_whole(b)));
    engine.register_fn("^", raised);
    engine.register_fn("^", |a: f64, b: i64| raised(a, number::from_whole(b)));
    engine.register_fn("^", |a: i64, b: f64| raised(number::from_whole(a), b));
    engine.register_fn("^", |a: i64, b: i64| match u32::try_from(b).ok().and_then(|b| a.checked_pow(b)) {
        Some(whole) => Ok(Dynamic::from_int(whole)),
        None => raised(number::from_whole(a), number::from_whole(b)),
    });
}

/// Registers how values are shown inside a text, `${ … }`: as anywhere else, without float noise.
fn register_texts(engine: &mut Engine, style: Style) {
    // Registered raw, because the compiler would fold a text of constants otherwise.
    engine.register_raw_fn(SHOWN, [std::any::TypeId::of::<Dynamic>()], move |_, arguments| {
        let value = arguments.first().map_or(Dynamic::UNIT, |value| (**value).clone());
        let shown = value::show(&value, &style)
            .ok_or_else(|| ScriptError::new(format!("{} cannot be written into a text", value::noun(&value))))?;
        Ok(shown)
    });
    for name in ["to_string", "print", "debug", "to_debug"] {
        engine.register_fn(name, move |value: Measured| style.show(value.quantity()));
        engine.register_fn(name, move |value: f64| style.show_number(value));
    }
    engine.register_fn("+", move |text: ImmutableString, value: Measured| {
        format!("{text}{}", style.show(value.quantity()))
    });
    engine.register_fn("+", move |value: Measured, text: ImmutableString| {
        format!("{}{text}", style.show(value.quantity()))
    });
    engine.register_fn("+", |text: ImmutableString, value: i64| format!("{text}{value}"));
    engine.register_fn("+", |value: i64, text: ImmutableString| format!("{value}{text}"));
    engine.register_fn("+", move |text: ImmutableString, value: f64| format!("{text}{}", style.show_number(value)));
    engine.register_fn("+", move |value: f64, text: ImmutableString| format!("{}{text}", style.show_number(value)));
}

#[cfg(test)]
mod tests;
