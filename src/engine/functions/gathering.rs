//! Gathering: how much flat cloth a gathered edge takes.

use super::answer::{COMMON, measure, per_cent, ratio, share};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::gathering;

const TOPIC: &str = "gathering";

const FULLNESS: Parameter = Parameter::new("fullness", ParameterKind::Number);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "gathered_flat",
        topic: TOPIC,
        parameters: &[Parameter::new("finished", LENGTH), FULLNESS],
        result: LENGTH,
        formula: Formula::Sum("finished * fullness"),
        summary: "Flat length to cut so that it gathers to a finished length.",
        examples: &[
            Example { typed: "gathered_flat(2 1/2 yd, 1.5)", shown: "3 3/4 yd" },
            Example { typed: "gathered_flat(1.8 m, 3)", shown: "5.4 m" },
        ],
        source: "Clothing and Health (1916) [2], lessons 12 and 13: a ruffle 1 1/2 times the edge",
        code: |a, s| measure(a, s, gathering::gathered_flat(a.length(0)?, a.number(1)?)),
    },
    Function {
        name: "gathered_length",
        topic: TOPIC,
        parameters: &[Parameter::new("flat", LENGTH), FULLNESS],
        result: LENGTH,
        formula: Formula::Sum("flat / fullness"),
        summary: "Finished length that a flat length gathers to.",
        examples: &[
            Example { typed: "gathered_length(37 1/2 in, 2.5)", shown: "15 in" },
            Example { typed: "gathered_length(5.4 m, 3)", shown: "1.8 m" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, gathering::gathered_length(a.length(0)?, a.number(1)?)),
    },
    Function {
        name: "fullness_of",
        topic: TOPIC,
        parameters: &[Parameter::new("flat", LENGTH), Parameter::new("finished", LENGTH)],
        result: ParameterKind::Number,
        formula: Formula::Sum("flat / finished"),
        summary: "Fullness of a test strip: its flat length over the length it gathered to.",
        examples: &[
            Example { typed: "fullness_of(37 1/2 in, 15 in)", shown: "2.5" },
            Example { typed: "fullness_of(150 cm, 25 cm)", shown: "6" },
        ],
        source: COMMON,
        code: |a, s| ratio(a, s, gathering::fullness_of(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "passes_together",
        topic: TOPIC,
        parameters: &[Parameter::new("passes", ParameterKind::Numbers)],
        result: ParameterKind::Number,
        formula: Formula::Words("the product of all passes"),
        summary: "Fullness of several passes under the gathering foot, which multiply and do not add.",
        examples: &[
            Example { typed: "passes_together([6, 5])", shown: "30" },
            Example { typed: "passes_together([1.8, 1.4])", shown: "2.52" },
        ],
        source: COMMON,
        code: |a, s| ratio(a, s, gathering::passes_together(&a.numbers(0)?)),
    },
    Function {
        name: "take_up",
        topic: TOPIC,
        parameters: &[FULLNESS],
        result: ParameterKind::Share,
        formula: Formula::Sum("1 - 1 / fullness"),
        summary: "Share of its length that cloth loses when it is gathered.",
        examples: &[Example { typed: "take_up(2.5)", shown: "60 %" }],
        source: COMMON,
        code: |a, s| per_cent(a, s, gathering::take_up(a.number(0)?)),
    },
    Function {
        name: "fullness_of_take_up",
        topic: TOPIC,
        parameters: &[Parameter::new("take_up", ParameterKind::Share)],
        result: ParameterKind::Number,
        formula: Formula::Sum("1 / (1 - take_up)"),
        summary: "Fullness that comes to a share lost in gathering.",
        examples: &[Example { typed: "fullness_of_take_up(60 %)", shown: "2.5" }],
        source: COMMON,
        code: |a, s| ratio(a, s, gathering::fullness_of_take_up(share(a, 0, s)?)),
    },
    Function {
        name: "foot_fullness",
        topic: TOPIC,
        parameters: &[
            Parameter::new("stitch", LENGTH),
            Parameter::new("depth", LENGTH),
            Parameter::new("every", ParameterKind::Count),
        ],
        result: ParameterKind::Number,
        formula: Formula::Sum("(every * stitch + 2 * depth) / (every * stitch)"),
        summary: "Fullness to expect of a foot that tucks every so many stitches, until a test strip tells.",
        examples: &[
            Example { typed: "foot_fullness(2.5 mm, 3 mm, 6)", shown: "1.4" },
            Example { typed: "foot_fullness(1/8 in, 1/4 in, 1)", shown: "5" },
        ],
        source: "a geometric model of our own, no published source",
        code: |a, s| ratio(a, s, gathering::foot_fullness(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
];
