//! Plain numbers and plain rounding.

use super::answer::{ARITHMETIC, count};
use crate::engine::function::{Example, Formula, Function, Parameter, ParameterKind};
use crate::engine::script_error::{Marked, ScriptError};
use crate::engine::value::Value;
use crate::quantity::{Quantity, QuantityError, number, rounding};
use crate::textile::rounded;

const TOPIC: &str = "numbers";

const ONE_NUMBER: &[Parameter] = &[Parameter::new("number", ParameterKind::Number)];

const fn plain(
    name: &'static str,
    summary: &'static str,
    example: &'static [Example],
    code: crate::engine::function::Code,
) -> Function {
    Function {
        name,
        topic: TOPIC,
        parameters: ONE_NUMBER,
        result: ParameterKind::Number,
        formula: Formula::None,
        summary,
        examples: example,
        source: ARITHMETIC,
        code,
    }
}

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    plain(
        "up",
        "Up to the next whole number; what lies within a billionth of one is that number.",
        &[Example { typed: "up(12.22)", shown: "13" }],
        |a, s| count(a, s, rounded::up(a.number(0)?)),
    ),
    plain(
        "down",
        "Down to a whole number; what lies within a billionth of one is that number.",
        &[Example { typed: "down(16.67)", shown: "16" }],
        |a, s| count(a, s, rounded::down(a.number(0)?)),
    ),
    plain(
        "nearest",
        "To the nearest whole number, halves away from zero.",
        &[Example { typed: "nearest(2.5)", shown: "3" }],
        |a, s| count(a, s, rounded::nearest(a.number(0)?)),
    ),
    plain(
        "ceil",
        "The same as up: to the next whole number.",
        &[Example { typed: "ceil(1.5 * 2)", shown: "3" }],
        |a, s| count(a, s, rounded::up(a.number(0)?)),
    ),
    plain(
        "floor",
        "The same as down: to the whole number below.",
        &[Example { typed: "floor(2.75)", shown: "2" }],
        |a, s| count(a, s, rounded::down(a.number(0)?)),
    ),
    plain(
        "round",
        "The same as nearest: to the nearest whole number.",
        &[Example { typed: "round(7.4)", shown: "7" }],
        |a, s| count(a, s, rounded::nearest(a.number(0)?)),
    ),
    Function {
        name: "pi",
        topic: TOPIC,
        parameters: &[],
        result: ParameterKind::Number,
        formula: Formula::None,
        summary: "The length round a circle over its width.",
        examples: &[
            Example { typed: "pi()", shown: "≈ 3.1416" },
            Example { typed: "2 * pi() * 10 cm", shown: "≈ 62.8 cm" },
        ],
        source: ARITHMETIC,
        code: |_, _| Ok(Quantity::number(std::f64::consts::PI).into()),
    },
    Function {
        name: "sqrt",
        topic: TOPIC,
        parameters: &[Parameter::new("area", ParameterKind::Any)],
        result: ParameterKind::Any,
        formula: Formula::None,
        summary: "The square root of a number, or the side of a square of this area.",
        examples: &[Example { typed: "sqrt(2.25)", shown: "1.5" }, Example { typed: "sqrt(4 in^2)", shown: "2 in" }],
        source: ARITHMETIC,
        code: |a, _| Ok(a.quantity(0)?.root()?.into()),
    },
    Function {
        name: "size",
        topic: TOPIC,
        parameters: &[Parameter::new("measure", ParameterKind::Any)],
        result: ParameterKind::Any,
        formula: Formula::None,
        summary: "A number or measure without its minus sign.",
        examples: &[Example { typed: "size(3 in - 5 in)", shown: "2 in" }],
        source: ARITHMETIC,
        code: |a, _| Ok(a.quantity(0)?.size().into()),
    },
    Function {
        name: "least",
        topic: TOPIC,
        parameters: &[Parameter::new("one", ParameterKind::Any), Parameter::new("other", ParameterKind::Any)],
        result: ParameterKind::Any,
        formula: Formula::None,
        summary: "The smaller of two.",
        examples: &[Example { typed: "least(14 in, 35 cm)", shown: "35 cm" }],
        source: ARITHMETIC,
        code: |a, _| chosen(a.quantity(0)?, a.quantity(1)?, true),
    },
    Function {
        name: "most",
        topic: TOPIC,
        parameters: &[Parameter::new("one", ParameterKind::Any), Parameter::new("other", ParameterKind::Any)],
        result: ParameterKind::Any,
        formula: Formula::None,
        summary: "The larger of two.",
        examples: &[Example { typed: "most(14 in, 35 cm)", shown: "14 in" }],
        source: ARITHMETIC,
        code: |a, _| chosen(a.quantity(0)?, a.quantity(1)?, false),
    },
    Function {
        name: "remainder",
        topic: TOPIC,
        parameters: &[Parameter::new("amount", ParameterKind::Any), Parameter::new("part", ParameterKind::Any)],
        result: ParameterKind::Any,
        formula: Formula::None,
        summary: "What is left of an amount after taking whole parts from it.",
        examples: &[
            Example { typed: "remainder(7, 3)", shown: "1" },
            Example { typed: "remainder(25 yd, 54 in)", shown: "1 yd" },
        ],
        source: ARITHMETIC,
        code: |a, _| {
            let (amount, part) = (a.quantity(0)?, a.quantity(1)?);
            amount.minus(part).map_err(|error| ScriptError::from(error).marking(Marked::Argument(1)))?;
            if part.steps() <= 0.0 {
                return Err(ScriptError::new("the part must be more than zero").marking(Marked::Argument(1)));
            }
            let parts = rounding::rounded_down(amount.per(part)?.to_number()?).ok_or(QuantityError::OutOfRange)?;
            let left = amount.minus(part.times(Quantity::number(number::from_whole(parts)))?)?;
            // Float noise must not leave a sliver of a part, let alone a negative one.
            let clean = if number::is_near(left.per(part)?.to_number()?, 0.0) {
                Quantity::from_steps(0.0, left.dimension()).liking(left.liked())
            } else {
                left
            };
            Ok(match number::whole(clean.steps()).filter(|_| clean.dimension().is_number()) {
                Some(whole) => Value::Whole(whole),
                None => clean.into(),
            })
        },
    },
];

fn chosen(one: Quantity, other: Quantity, least: bool) -> Result<Value, ScriptError> {
    let order = one.compared(other).map_err(|error| ScriptError::from(error).marking(Marked::Argument(1)))?;
    Ok(if order.is_le() == least { one } else { other }.into())
}
