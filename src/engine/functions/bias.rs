//! Bias strips and bindings.

use super::answer::{COMMON, GEOMETRY, count, measure, share};
use crate::engine::function::{AREA, Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::bias;

const TOPIC: &str = "bias";

const CUT_WIDTH: Parameter = Parameter::new("cut_width", LENGTH);
const USABLE_WIDTH: Parameter = Parameter::new("usable_width", LENGTH);
const ALLOWANCE: Parameter = Parameter::new("allowance", LENGTH);

/// Default share lost in joins and corners.
const USUAL_LOSS: f64 = 0.1;

/// Folds of a binding whose edges are turned in on both sides.
const DOUBLE: i64 = 4;

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "bias_length_at_most",
        topic: TOPIC,
        parameters: &[Parameter::new("area", AREA), CUT_WIDTH],
        result: LENGTH,
        formula: Formula::Sum("area / cut_width"),
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
        result: LENGTH,
        formula: Formula::Sum("sqrt(length * cut_width)"),
        summary: "Side of the smallest square that could give so much bias strip.",
        examples: &[
            Example { typed: "bias_square_at_least(648 in, 2 in)", shown: "36 in" },
            Example { typed: "bias_square_at_least(2500 cm, 4 cm)", shown: "100 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_square_at_least(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "bias_square",
        topic: TOPIC,
        parameters: &[
            Parameter::new("length", LENGTH),
            CUT_WIDTH,
            Parameter::with_default("loss", ParameterKind::Share, "10 %"),
        ],
        result: LENGTH,
        formula: Formula::Sum("sqrt(length * cut_width / (1 - loss))"),
        summary: "Side of a square that gives so much bias strip though 5 to 10 % is lost in joins and corners.",
        examples: &[
            Example { typed: "bias_square(583 1/5 in, 2 in)", shown: "36 in" },
            Example { typed: "bias_square(475 cm, 4 cm, 5 %)", shown: "≈ 44.7 cm" },
        ],
        source: COMMON,
        code: |a, s| {
            let loss = if a.get(2).is_some() { share(a, 2, s)? } else { USUAL_LOSS };
            measure(a, s, bias::bias_square(a.length(0)?, a.length(1)?, loss))
        },
    },
    Function {
        name: "bias_strips_for",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), USABLE_WIDTH, CUT_WIDTH, ALLOWANCE],
        result: ParameterKind::Count,
        formula: Formula::Sum("up(((length + cut_width) / sqrt(2) - 2 * allowance) / (usable_width - 2 * allowance))"),
        summary: "Strips to cut slantwise from selvedge to selvedge for a length of binding, joins and squared ends counted.",
        examples: &[
            Example { typed: "bias_strips_for(180 in, 44 in, 2 in, 1/4 in)", shown: "3" },
            Example { typed: "bias_strips_for(5 m, 112 cm, 4 cm, 6 mm)", shown: "4" },
        ],
        source: GEOMETRY,
        code: |a, s| {
            let strips = bias::bias_strips_for(a.length(0)?, a.length(1)?, a.length(2)?, a.length(3)?);
            count(a, s, strips)
        },
    },
    Function {
        name: "bias_strips_length",
        topic: TOPIC,
        parameters: &[Parameter::new("count", ParameterKind::Count), USABLE_WIDTH, CUT_WIDTH, ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("sqrt(2) * (count * usable_width - 2 * allowance * (count - 1)) - cut_width"),
        summary: "Length that so many slanting strips give, joined and squared off at both ends.",
        examples: &[
            Example { typed: "bias_strips_length(3, 44 in, 2 in, 1/4 in)", shown: "≈ 183 1/4 in" },
            Example { typed: "bias_strips_length(4, 112 cm, 4 cm, 6 mm)", shown: "≈ 624.5 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| {
            let length = bias::bias_strips_length(a.count(0)?, a.length(1)?, a.length(2)?, a.length(3)?);
            measure(a, s, length)
        },
    },
    Function {
        name: "bias_strips_cloth",
        topic: TOPIC,
        parameters: &[Parameter::new("count", ParameterKind::Count), USABLE_WIDTH, CUT_WIDTH],
        result: LENGTH,
        formula: Formula::Sum("usable_width + sqrt(2) * count * cut_width"),
        summary: "Cloth, along the selvedge, that so many slanting strips are cut from, with the corners on either side.",
        examples: &[
            Example { typed: "bias_strips_cloth(3, 44 in, 2 in)", shown: "≈ 52 1/2 in" },
            Example { typed: "bias_strips_cloth(4, 112 cm, 4 cm)", shown: "≈ 134.6 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_strips_cloth(a.count(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "binding_width",
        topic: TOPIC,
        parameters: &[Parameter::new("finished", LENGTH), Parameter::with_default("folds", ParameterKind::Count, "4")],
        result: LENGTH,
        formula: Formula::Sum("folds * finished"),
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
