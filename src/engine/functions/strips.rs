//! Strips laid end to end with an overlap, and the rolls they are cut from.

use super::answer::{COMMON, count, length_or_none, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::strips;

const TOPIC: &str = "strips";

const COUNT: Parameter = Parameter::new("count", ParameterKind::Count);
const WIDTH: Parameter = Parameter::new("width", LENGTH);
const OVERLAP: Parameter = Parameter::with_default("overlap", LENGTH, "0 in");
const CUT_LENGTH: Parameter = Parameter::new("cut_length", LENGTH);
const PUT_UP: Parameter = Parameter::new("put_up", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "strips_for",
        topic: TOPIC,
        parameters: &[Parameter::new("flat", LENGTH), WIDTH, OVERLAP],
        result: ParameterKind::Count,
        formula: Formula::Sum("up((flat - overlap) / (width - overlap))"),
        summary: "Strips that cover a flat length when each overlaps the next.",
        examples: &[
            Example { typed: "strips_for(610 1/2 in, 6 in, 1/2 in)", shown: "111" },
            Example { typed: "strips_for(300 cm, 15 cm, 1 cm)", shown: "22" },
            Example { typed: "strips_for(660 in, 54 in)", shown: "13" },
        ],
        source: COMMON,
        code: |a, s| count(a, s, strips::strips_for(a.length(0)?, a.length(1)?, length_or_none(a, 2)?)),
    },
    Function {
        name: "strips_laid",
        topic: TOPIC,
        parameters: &[COUNT, WIDTH, OVERLAP],
        result: LENGTH,
        formula: Formula::Sum("count * width - (count - 1) * overlap"),
        summary: "Flat length that a number of overlapping strips cover.",
        examples: &[
            Example { typed: "strips_laid(10, 6 in, 1/2 in)", shown: "55 1/2 in" },
            Example { typed: "strips_laid(10, 15 cm, 1 cm)", shown: "141 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, strips::strips_laid(a.count(0)?, a.length(1)?, length_or_none(a, 2)?)),
    },
    Function {
        name: "strips_on_roll",
        topic: TOPIC,
        parameters: &[PUT_UP, CUT_LENGTH],
        result: ParameterKind::Count,
        formula: Formula::Sum("down(put_up / cut_length)"),
        summary: "Whole strips of a cut length that one roll holds.",
        examples: &[
            Example { typed: "strips_on_roll(25 yd, 54 in)", shown: "16" },
            Example { typed: "strips_on_roll(25 m, 140 cm)", shown: "17" },
        ],
        source: COMMON,
        code: |a, s| count(a, s, strips::strips_on_roll(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "rolls_for",
        topic: TOPIC,
        parameters: &[COUNT, CUT_LENGTH, PUT_UP],
        result: ParameterKind::Count,
        formula: Formula::Sum("up(count / down(put_up / cut_length))"),
        summary: "Rolls to buy for a number of strips, each cut whole from one roll.",
        examples: &[
            Example { typed: "rolls_for(33, 54 in, 25 yd)", shown: "3" },
            Example { typed: "rolls_for(20, 140 cm, 25 m)", shown: "2" },
        ],
        source: COMMON,
        code: |a, s| count(a, s, strips::rolls_for(a.count(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "left_on_last_roll",
        topic: TOPIC,
        parameters: &[COUNT, CUT_LENGTH, PUT_UP],
        result: LENGTH,
        formula: Formula::Sum(
            "put_up - (count - (up(count / down(put_up / cut_length)) - 1) * down(put_up / cut_length)) * cut_length",
        ),
        summary: "Length that stays on the last roll once all the strips are cut.",
        examples: &[
            Example { typed: "left_on_last_roll(33, 54 in, 25 yd)", shown: "846 in" },
            Example { typed: "left_on_last_roll(20, 140 cm, 25 m)", shown: "2080 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, strips::left_on_last_roll(a.count(0)?, a.length(1)?, a.length(2)?)),
    },
];
