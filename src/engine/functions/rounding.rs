//! Rounding to a given step.

use super::answer::{ARITHMETIC, formula_error};
use crate::engine::function::{Arguments, Example, Formula, Function, Parameter, ParameterKind};
use crate::engine::script_error::{Marked, ScriptError};
use crate::engine::value::Value;
use crate::quantity::{Quantity, Style, number};
use crate::textile::{TextileError, rounded};

const TOPIC: &str = "rounding";

const TO_A_STEP: &[Parameter] =
    &[Parameter::new("amount", ParameterKind::Any), Parameter::new("step", ParameterKind::Any)];

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "rounded_up",
        topic: TOPIC,
        parameters: TO_A_STEP,
        result: ParameterKind::Any,
        formula: Formula::Sum("up(amount / step) * step"),
        summary: "Up to whole steps, such as the eighth of an inch of a tape or the half yard of a shop.",
        examples: &[
            Example { typed: "rounded_up(13.88 in, 1/8 in)", shown: "14 in" },
            Example { typed: "rounded_up(88 in, 1/2 yd)", shown: "90 in" },
            Example { typed: "rounded_up(244 cm, 10 cm)", shown: "250 cm" },
            Example { typed: "rounded_up($23.40, $0.50)", shown: "$23.50" },
        ],
        source: ARITHMETIC,
        code: |a, s| stepped(a, s, rounded::rounded_up),
    },
    Function {
        name: "rounded_down",
        topic: TOPIC,
        parameters: TO_A_STEP,
        result: ParameterKind::Any,
        formula: Formula::Sum("down(amount / step) * step"),
        summary: "Down to whole steps.",
        examples: &[
            Example { typed: "rounded_down(13.88 in, 1/8 in)", shown: "13 7/8 in" },
            Example { typed: "rounded_down(244 cm, 10 cm)", shown: "240 cm" },
        ],
        source: ARITHMETIC,
        code: |a, s| stepped(a, s, rounded::rounded_down),
    },
    Function {
        name: "rounded_nearest",
        topic: TOPIC,
        parameters: TO_A_STEP,
        result: ParameterKind::Any,
        formula: Formula::Sum("nearest(amount / step) * step"),
        summary: "To the nearest whole step, halves away from zero.",
        examples: &[
            Example { typed: "rounded_nearest(13.88 in, 1/8 in)", shown: "13 7/8 in" },
            Example { typed: "rounded_nearest(245 cm, 10 cm)", shown: "250 cm" },
        ],
        source: ARITHMETIC,
        code: |a, s| stepped(a, s, rounded::rounded_nearest),
    },
];

type Rounding = fn(Quantity, Quantity) -> Result<Quantity, TextileError>;

/// Rounds to a step; a plain result that is whole becomes a count.
fn stepped(a: &Arguments<'_>, style: &Style, rounding: Rounding) -> Result<Value, ScriptError> {
    let rounded = rounding(a.quantity(0)?, a.quantity(1)?).map_err(|error| {
        let script_error = formula_error(a, style, &error);
        // The step is the argument that does not fit the amount.
        if matches!(error, TextileError::Sum(_)) { script_error.marking(Marked::Argument(1)) } else { script_error }
    })?;
    let plain = rounded.to_number().ok().filter(|_| rounded.liked().named.is_none());
    Ok(plain.and_then(number::whole).map_or_else(|| rounded.into(), Value::Whole))
}
