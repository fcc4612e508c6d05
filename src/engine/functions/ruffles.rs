//! Ruffles with a rule of their own, and lace round a corner.

use super::answer::{measure, number_or};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::ruffles;

const TOPIC: &str = "ruffles";

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "puff_ruffle_depth",
        topic: TOPIC,
        parameters: &[Parameter::new("finished", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("2 * finished + 2 in"),
        summary: "Depth to cut of a puff ruffle, gathered along both edges: twice as it is worn, and 2 in.",
        examples: &[
            Example { typed: "puff_ruffle_depth(3 in)", shown: "8 in" },
            Example { typed: "puff_ruffle_depth(10 cm)", shown: "≈ 25.1 cm" },
        ],
        source: "The New Dressmaker (1921) [4]",
        code: |a, s| measure(a, s, ruffles::puff_ruffle_depth(a.length(0)?)),
    },
    Function {
        name: "french_ruffle_flat",
        topic: TOPIC,
        parameters: &[Parameter::new("edge", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("7 / 3 * edge"),
        summary: "Strip of a French ruffle: two and a third times the edge.",
        examples: &[
            Example { typed: "french_ruffle_flat(72 in)", shown: "168 in" },
            Example { typed: "french_ruffle_flat(90 cm)", shown: "210 cm" },
        ],
        source: "Cutting and Draping (1905) [1]",
        code: |a, s| measure(a, s, ruffles::french_ruffle_flat(a.length(0)?)),
    },
    Function {
        name: "corner_lace",
        topic: TOPIC,
        parameters: &[Parameter::new("width", LENGTH), Parameter::with_default("fullness", ParameterKind::Number, "1")],
        result: LENGTH,
        formula: Formula::Sum("(1 + fullness) * width"),
        summary: "Lace to push together at each side of a corner: twice its width, more where it is gathered.",
        examples: &[
            Example { typed: "corner_lace(1 1/2 in)", shown: "3 in" },
            Example { typed: "corner_lace(4 cm, 1.5)", shown: "10 cm" },
        ],
        source: "Handicraft for Girls (1910) [5], for 1 and 1.5; between and beyond the line is ours",
        code: |a, s| measure(a, s, ruffles::corner_lace(a.length(0)?, number_or(a, 1, 1.0)?)),
    },
];
