//! Whole and half widths of cloth seamed side by side.

use super::answer::{COMMON, count, formula_error, length_or_none, measure, ratio};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::panels::{self, Widths};

const TOPIC: &str = "panels";

const FLAT: Parameter = Parameter::new("flat", LENGTH);
const USABLE_WIDTH: Parameter = Parameter::new("usable_width", LENGTH);
const SEAM: Parameter = Parameter::new("seam", LENGTH);

const REPEAT_ACROSS: Parameter = Parameter::with_default("repeat_across", LENGTH, "0 in");

/// The words of [`Widths::WORDS`], without their values.
const JOINS: &[&str] = {
    let [(whole, _), (half, _)] = Widths::WORDS;
    &[whole, half]
};

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "panels_for",
        topic: TOPIC,
        parameters: &[FLAT, USABLE_WIDTH, SEAM],
        result: ParameterKind::Count,
        formula: Formula::Sum("up((flat - 2 * seam) / (usable_width - 2 * seam))"),
        summary: "Whole widths of cloth to seam side by side for a flat width, measured to its raw edges.",
        examples: &[
            Example { typed: "panels_for(132 in, 45 in, 1/2 in)", shown: "3" },
            Example { typed: "panels_for(300 cm, 112 cm, 1.5 cm)", shown: "3" },
        ],
        source: COMMON,
        code: |a, s| count(a, s, panels::panels_for(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "widths_for",
        topic: TOPIC,
        parameters: &[
            FLAT,
            USABLE_WIDTH,
            SEAM,
            Parameter::with_default("joins", ParameterKind::OneOf(JOINS), "\"whole widths\""),
            REPEAT_ACROSS,
        ],
        result: ParameterKind::Number,
        formula: Formula::Words(
            "the least n, in wholes or halves, with n * usable_width - 2 * seam * (up(n) - 1) no less than flat; where the \
             pattern repeats across, each join is moved in to the next whole repeat",
        ),
        summary: "Widths of cloth for a flat width, with a half width at the end where that is allowed and enough.",
        examples: &[
            Example { typed: "widths_for(80 in, 54 in, 1/2 in, \"half widths\")", shown: "1.5" },
            Example { typed: "widths_for(218 cm, 137 cm, 1.5 cm, \"half widths\")", shown: "2" },
            Example { typed: "widths_for(225 in, 54 in, 1/2 in)", shown: "5" },
            Example { typed: "widths_for(130 in, 45 in, 1/2 in, \"whole widths\", 3 in)", shown: "4" },
        ],
        source: COMMON,
        code: |a, s| {
            let joins = match a.get(3) {
                Some(_) => Widths::named(a.text(3)?).map_err(|error| formula_error(a, s, &error))?,
                None => Widths::Whole,
            };
            let across = length_or_none(a, 4)?;
            ratio(a, s, panels::widths_for(a.length(0)?, a.length(1)?, a.length(2)?, joins, across))
        },
    },
    Function {
        name: "widths_reach",
        topic: TOPIC,
        parameters: &[Parameter::new("widths", ParameterKind::Number), USABLE_WIDTH, SEAM, REPEAT_ACROSS],
        result: LENGTH,
        formula: Formula::Words(
            "widths * usable_width - 2 * seam * (up(widths) - 1), each join moved in to the next whole repeat where the \
             pattern repeats across",
        ),
        summary: "Flat width that so many widths of cloth make, joined side by side, measured to its raw edges.",
        examples: &[
            Example { typed: "widths_reach(1.5, 137 cm, 1.5 cm)", shown: "202.5 cm" },
            Example { typed: "widths_reach(3, 45 in, 1/2 in)", shown: "133 in" },
            Example { typed: "widths_reach(3, 45 in, 1/2 in, 3 in)", shown: "129 in" },
        ],
        source: COMMON,
        code: |a, s| {
            let across = length_or_none(a, 3)?;
            measure(a, s, panels::widths_reach(a.number(0)?, a.length(1)?, a.length(2)?, across))
        },
    },
];
