//! Strips folded in half and knotted on a band, without sewing.

use super::answer::{COMMON, count, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::knots;

const TOPIC: &str = "knotted strips";

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "knotted_strip",
        topic: TOPIC,
        parameters: &[Parameter::new("finished", LENGTH), Parameter::new("knot", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("2 * finished + knot"),
        summary: "Length to cut of a strip that hangs double from its knot.",
        examples: &[
            Example { typed: "knotted_strip(10 in, 2 in)", shown: "22 in" },
            Example { typed: "knotted_strip(30 cm, 5 cm)", shown: "65 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, knots::knotted_strip(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "knotted_strips",
        topic: TOPIC,
        parameters: &[
            Parameter::new("band", LENGTH),
            Parameter::new("counted", ParameterKind::Count),
            Parameter::new("tried", LENGTH),
        ],
        result: ParameterKind::Count,
        formula: Formula::Sum("up(band * counted / tried)"),
        summary: "Strips that fill a band as closely as those counted on a tried length of it.",
        examples: &[
            Example { typed: "knotted_strips(21 in, 12, 4 in)", shown: "63" },
            Example { typed: "knotted_strips(52 cm, 15, 10 cm)", shown: "78" },
        ],
        source: COMMON,
        code: |a, s| count(a, s, knots::knotted_strips(a.length(0)?, a.count(1)?, a.length(2)?)),
    },
];
