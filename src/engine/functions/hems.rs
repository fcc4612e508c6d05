//! Hems, turnings and shrinkage: what a cut size adds to the finished size.

use super::answer::{COMMON, measure, per_cent, share};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::{allowances, washing};

const TOPIC: &str = "hems and shrinkage";

const FIRST: Parameter = Parameter::new("first", LENGTH);
const SECOND: Parameter = Parameter::new("second", LENGTH);
const SHRINKAGE: Parameter = Parameter::new("shrinkage", ParameterKind::Share);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "cut_size",
        topic: TOPIC,
        parameters: &[Parameter::new("finished", LENGTH), FIRST, SECOND],
        result: LENGTH,
        formula: Formula::Sum("finished + first + second"),
        summary: "Size to cut for a finished size, with an allowance at each end.",
        examples: &[
            Example { typed: "cut_size(20 in, 2 1/2 in, 1/2 in)", shown: "23 in" },
            Example { typed: "cut_size(220 cm, 16 cm, 4 cm)", shown: "240 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, allowances::cut_size(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "finished_size",
        topic: TOPIC,
        parameters: &[Parameter::new("cut", LENGTH), FIRST, SECOND],
        result: LENGTH,
        formula: Formula::Sum("cut - first - second"),
        summary: "Size left of a cut size once the allowances at both ends are taken up.",
        examples: &[
            Example { typed: "finished_size(23 in, 2 1/2 in, 1/2 in)", shown: "20 in" },
            Example { typed: "finished_size(240 cm, 16 cm, 4 cm)", shown: "220 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, allowances::finished_size(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "before_shrinking",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), SHRINKAGE],
        result: LENGTH,
        formula: Formula::Sum("length / (1 - shrinkage)"),
        summary: "Length to cut so that a length is left after washing.",
        examples: &[
            Example { typed: "before_shrinking(96 in, 4 %)", shown: "100 in" },
            Example { typed: "before_shrinking(190 cm, 5 %)", shown: "200 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, allowances::before_shrinking(a.length(0)?, share(a, 1, s)?)),
    },
    Function {
        name: "after_shrinking",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), SHRINKAGE],
        result: LENGTH,
        formula: Formula::Sum("length * (1 - shrinkage)"),
        summary: "Length left of a length after washing.",
        examples: &[
            Example { typed: "after_shrinking(100 in, 4 %)", shown: "96 in" },
            Example { typed: "after_shrinking(200 cm, 5 %)", shown: "190 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, allowances::after_shrinking(a.length(0)?, share(a, 1, s)?)),
    },
    Function {
        name: "shrinkage_of",
        topic: TOPIC,
        parameters: &[Parameter::new("before", LENGTH), Parameter::new("after", LENGTH)],
        result: ParameterKind::Share,
        formula: Formula::Sum("1 - after / before"),
        summary: "Share of its length that a test piece lost in washing.",
        examples: &[
            Example { typed: "shrinkage_of(100 in, 96 in)", shown: "4 %" },
            Example { typed: "shrinkage_of(50 cm, 48.5 cm)", shown: "3 %" },
        ],
        source: COMMON,
        code: |a, s| per_cent(a, s, allowances::shrinkage_of(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "shrinkage_uncertainty",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), Parameter::new("mark", LENGTH)],
        result: ParameterKind::Share,
        formula: Formula::Sum("mark / length / sqrt(6)"),
        summary: "Uncertainty of what a test piece lost, read to one mark before and after the wash.",
        examples: &[
            Example { typed: "shrinkage_uncertainty(20 cm, 1 mm)", shown: "≈ 0.2041 %" },
            Example { typed: "shrinkage_uncertainty(20 in, 1/8 in)", shown: "≈ 0.2552 %" },
        ],
        source: COMMON,
        code: |a, s| per_cent(a, s, washing::shrinkage_uncertainty(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "longest_drop",
        topic: TOPIC,
        parameters: &[Parameter::new("in_hand", LENGTH), SHRINKAGE],
        result: LENGTH,
        formula: Formula::Sum("in_hand / shrinkage"),
        summary: "Longest drop whose shrinkage a length kept in hand, as in a deep hem, gives back.",
        examples: &[
            Example { typed: "longest_drop(6 cm, 3 %)", shown: "200 cm" },
            Example { typed: "longest_drop(2 in, 4 %)", shown: "50 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, washing::longest_drop(a.length(0)?, share(a, 1, s)?)),
    },
];
