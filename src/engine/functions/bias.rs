//! Bias strips and bindings.

use super::answer::{COMMON, GEOMETRY, measure};
use crate::engine::function::{AREA, Example, Function, Kind, LENGTH, Parameter};
use crate::textile::bias;

const TOPIC: &str = "bias";

const CUT_WIDTH: Parameter = Parameter::new("cut_width", LENGTH);

/// Folds of a binding whose edges are turned in on both sides.
const DOUBLE: i64 = 4;

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "bias_length_at_most",
        topic: TOPIC,
        parameters: &[Parameter::new("area", AREA), CUT_WIDTH],
        gives: LENGTH,
        summary: "The most bias strip that a piece of cloth can give, before joins and corners take their 5 to 10 %.",
        examples: &[
            Example { typed: "bias_length_at_most(36 in * 36 in, 2 in)", shown: "648 in" },
            Example { typed: "bias_length_at_most(1 m * 1 m, 4 cm)", shown: "2500 cm" },
        ],
        source: "sew-whats-new, a worked example: 36 in square at 2 in gives 648 in",
        code: |a, s| measure(a, s, bias::bias_length_at_most(a.area(0)?, a.length(1)?)),
    },
    Function {
        name: "bias_square_at_least",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), CUT_WIDTH],
        gives: LENGTH,
        summary: "Side of the smallest square that could give so much bias strip.",
        examples: &[
            Example { typed: "bias_square_at_least(648 in, 2 in)", shown: "36 in" },
            Example { typed: "bias_square_at_least(2500 cm, 4 cm)", shown: "100 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_square_at_least(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "binding_width",
        topic: TOPIC,
        parameters: &[Parameter::new("finished", LENGTH), Parameter::usually("folds", Kind::Count, "4")],
        gives: LENGTH,
        summary: "Width to cut of a binding: four folds where both edges are turned in, two for a single one.",
        examples: &[
            Example { typed: "binding_width(1/2 in)", shown: "2 in" },
            Example { typed: "binding_width(1 cm, 2)", shown: "2 cm" },
        ],
        source: COMMON,
        code: |a, s| {
            let folds = if a.get(1).is_some() { a.count(1)? } else { DOUBLE };
            measure(a, s, bias::binding_width(a.length(0)?, folds))
        },
    },
];
