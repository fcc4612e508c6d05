//! Tiered skirts: each tier gathered onto the one above.

use super::answer::{COMMON, lengths, measure};
use crate::engine::function::{Arguments, Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::engine::script_error::{Marked, ScriptError};
use crate::engine::value::Value;
use crate::quantity::{Dimension, Length};
use crate::textile::tiers;

const TOPIC: &str = "tiers";

const FIRST: Parameter = Parameter::new("first", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "tier_flat",
        topic: TOPIC,
        parameters: &[
            FIRST,
            Parameter::new("fullness", ParameterKind::Number),
            Parameter::new("tier", ParameterKind::Count),
        ],
        result: LENGTH,
        formula: Formula::Sum("first * fullness^(tier - 1)"),
        summary: "Flat width of a tier, the first being 1, with the same fullness from each to the next.",
        examples: &[
            Example { typed: "tier_flat(50 in, 2, 3)", shown: "200 in" },
            Example { typed: "tier_flat(120 cm, 1.5, 2)", shown: "180 cm" },
        ],
        source: "course book, theory [12], p. 250",
        code: |a, s| measure(a, s, tiers::tier_flat(a.length(0)?, a.number(1)?, a.count(2)?)),
    },
    Function {
        name: "tier_depth",
        topic: TOPIC,
        parameters: &[
            Parameter::new("length", LENGTH),
            Parameter::new("tiers", ParameterKind::Count),
            FIRST,
            Parameter::new("second", LENGTH),
        ],
        result: LENGTH,
        formula: Formula::Sum("length / tiers + first + second"),
        summary: "Depth to cut of one of several equal tiers, with an allowance at each edge.",
        examples: &[
            Example { typed: "tier_depth(30 in, 3, 1/2 in, 1/2 in)", shown: "11 in" },
            Example { typed: "tier_depth(60 cm, 3, 1 cm, 1.5 cm)", shown: "22.5 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, tiers::tier_depth(a.length(0)?, a.count(1)?, a.length(2)?, a.length(3)?)),
    },
    Function {
        name: "tier_widths",
        topic: TOPIC,
        parameters: &[FIRST, Parameter::new("fullness", ParameterKind::Numbers)],
        result: ParameterKind::List,
        formula: Formula::Words("each tier is the one above times its own fullness; the first is as given"),
        summary: "Flat widths of all tiers, the top one first, each next with its own fullness over the one above.",
        examples: &[
            Example { typed: "tier_widths(50 in, [2, 2])", shown: "50 in, 100 in, 200 in" },
            Example { typed: "tier_widths(100 cm, [1.5, 1.2])", shown: "100 cm, 150 cm, 180 cm" },
        ],
        source: COMMON,
        code: |a, s| lengths(a, s, tiers::tier_widths(a.length(0)?, &a.numbers(1)?)),
    },
    Function {
        name: "tier_depths",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), Parameter::new("steps", ParameterKind::List)],
        result: ParameterKind::List,
        formula: Formula::Words("the tiers add up to the length, each deeper than the one above by its step"),
        summary: "Finished depths of tiers that share a length, the top one first, each next deeper by its step.",
        examples: &[
            Example {
                typed: "tier_depths(29 in, [1/2 in, 1/2 in, 1 1/2 in])",
                shown: "6 1/4 in, 6 3/4 in, 7 1/4 in, 8 3/4 in",
            },
            Example { typed: "tier_depths(60 cm, [0 cm, 0 cm])", shown: "20 cm, 20 cm, 20 cm" },
        ],
        source: "course book, theory [12], p. 250",
        code: |a, s| lengths(a, s, tiers::tier_depths(a.length(0)?, &list_of_lengths(a, 1, "tier_depths")?)),
    },
];

/// A list argument whose items must all be lengths.
fn list_of_lengths(a: &Arguments<'_>, index: usize, word: &str) -> Result<Vec<Length>, ScriptError> {
    let length = |value: &Value| value.quantity().filter(|quantity| quantity.dimension() == Dimension::LENGTH);
    let found: Option<Vec<Length>> =
        a.items(index)?.iter().map(|value| Length::try_from(length(value)?).ok()).collect();
    found.ok_or_else(|| {
        ScriptError::new(format!("{} in {word} must be a list of lengths", a.name(index)))
            .hinting("type [1/2 in, 1 in] or [1 cm, 2 cm]")
            .marking(Marked::Argument(index))
    })
}
