//! Bias strips and bindings.

use super::answer::{COMMON, GEOMETRY, count, length_or_none, measure, share};
use crate::engine::function::{AREA, Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::bias;

const TOPIC: &str = "bias";

const CUT_WIDTH: Parameter = Parameter::new("cut_width", LENGTH);
const USABLE_WIDTH: Parameter = Parameter::new("usable_width", LENGTH);
const ALLOWANCE: Parameter = Parameter::new("allowance", LENGTH);
const LONG: Parameter = Parameter::new("long", LENGTH);
const DEEP: Parameter = Parameter::new("deep", LENGTH);

/// Default share lost in joins and corners.
const USUAL_LOSS: f64 = 0.1;

/// Folds of a binding that is folded double first.
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
        source: "worked example [23]: 36 in square at 2 in gives 648 in",
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
        parameters: &[
            Parameter::new("finished", LENGTH),
            Parameter::with_default("folds", ParameterKind::Count, "4"),
            Parameter::with_default("turning", LENGTH, "0 in"),
        ],
        result: LENGTH,
        formula: Formula::Sum("folds * finished + 2 * turning"),
        summary: "Width to cut of a binding: 2 folds for a single one, 4 for one folded double first, and a turning at each raw edge.",
        examples: &[
            Example { typed: "binding_width(1 in, 2, 1/4 in)", shown: "2 1/2 in" },
            Example { typed: "binding_width(1/8 in, 4, 1/4 in)", shown: "1 in" },
            Example { typed: "binding_width(1 cm, 2, 6 mm)", shown: "3.2 cm" },
        ],
        source: "Clothing and Health (1916) [2]: a single binding of 1 in cut 2 1/2 in; course notes [25] on neckline finishes: 3/4 in single, 1 in double",
        code: |a, s| {
            let folds = if a.get(1).is_some() { a.count(1)? } else { DOUBLE };
            measure(a, s, bias::binding_width(a.length(0)?, folds, length_or_none(a, 2)?))
        },
    },
    Function {
        name: "bias_span",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("length / sqrt(2)"),
        summary: "What a slanting line spans along the selvedge, and as much across it.",
        examples: &[
            Example { typed: "bias_span(46 in)", shown: "≈ 32 1/2 in" },
            Example { typed: "bias_span(100 cm)", shown: "≈ 70.7 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_span(a.length(0)?)),
    },
    Function {
        name: "bias_step",
        topic: TOPIC,
        parameters: &[CUT_WIDTH],
        result: LENGTH,
        formula: Formula::Sum("cut_width * sqrt(2)"),
        summary: "From one slanting strip to the next along the selvedge; a third more than its width, as one book has it, falls short.",
        examples: &[
            Example { typed: "bias_step(3 in)", shown: "≈ 4 1/4 in" },
            Example { typed: "bias_step(2.5 cm)", shown: "≈ 3.5 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_step(a.length(0)?)),
    },
    Function {
        name: "bias_join",
        topic: TOPIC,
        parameters: &[ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("2 * allowance * sqrt(2)"),
        summary: "Strip that one slanting join takes, its two allowances measured along the strip.",
        examples: &[
            Example { typed: "bias_join(1/4 in)", shown: "≈ 3/4 in" },
            Example { typed: "bias_join(6 mm)", shown: "≈ 17 mm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_join(a.length(0)?)),
    },
    Function {
        name: "bias_pieces_in",
        topic: TOPIC,
        parameters: &[LONG, DEEP, CUT_WIDTH],
        result: ParameterKind::Count,
        formula: Formula::Sum("down((long - deep) / (cut_width * sqrt(2)))"),
        summary: "Whole slanting strips in a block of cloth, the ends of all on its two long edges.",
        examples: &[
            Example { typed: "bias_pieces_in(96 cm, 20 cm, 2 cm)", shown: "26" },
            Example { typed: "bias_pieces_in(44 in, 8 in, 1 1/2 in)", shown: "16" },
        ],
        source: GEOMETRY,
        code: |a, s| count(a, s, bias::bias_pieces_in(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "bias_pieces_length",
        topic: TOPIC,
        parameters: &[Parameter::new("count", ParameterKind::Count), DEEP, ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("sqrt(2) * (count * deep - 2 * allowance * (count - 1))"),
        summary: "Length that so many slanting strips of one block give, joined, their ends left slanting.",
        examples: &[
            Example { typed: "bias_pieces_length(26, 20 cm, 6 mm)", shown: "≈ 693 cm" },
            Example { typed: "bias_pieces_length(4, 6 in, 1/4 in)", shown: "≈ 31 7/8 in" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_pieces_length(a.count(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "bias_pieces_for",
        topic: TOPIC,
        parameters: &[
            Parameter::new("length", LENGTH),
            USABLE_WIDTH,
            Parameter::new("step", LENGTH),
            ALLOWANCE,
            Parameter::with_default("shortest", LENGTH, "0 in"),
        ],
        result: ParameterKind::Count,
        formula: Formula::Words(
            "the most strips n whose depth, bias_pieces_depth(n, length, allowance), and n steps go across the cloth, none shorter between its joins than the shortest; 0 where none do",
        ),
        summary: "The most slanting strips side by side across the cloth that make up a length; the more, the less cloth they take.",
        examples: &[
            Example { typed: "bias_pieces_for(500 cm, 86 cm, bias_step(2.5 cm), 6 mm, 6 in)", shown: "18" },
            Example { typed: "bias_pieces_for(26 in, 44 in, bias_step(1 1/2 in), 1/4 in, 6 in)", shown: "4" },
        ],
        source: GEOMETRY,
        code: |a, s| {
            let shortest = length_or_none(a, 4)?;
            count(a, s, bias::bias_pieces_for(a.length(0)?, a.length(1)?, a.length(2)?, a.length(3)?, shortest))
        },
    },
    Function {
        name: "bias_pieces_depth",
        topic: TOPIC,
        parameters: &[Parameter::new("count", ParameterKind::Count), Parameter::new("length", LENGTH), ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("(length / sqrt(2) + 2 * allowance * (count - 1)) / count"),
        summary: "How deep a block of cloth must be for so many slanting strips that make up a length, joined.",
        examples: &[
            Example { typed: "bias_pieces_depth(18, 500 cm, 6 mm)", shown: "≈ 20.8 cm" },
            Example { typed: "bias_pieces_depth(4, 26 in, 1/4 in)", shown: "≈ 5 in" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_pieces_depth(a.count(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "bias_tube_length",
        topic: TOPIC,
        parameters: &[LONG, DEEP, CUT_WIDTH, ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("(long - 2 * allowance) * (deep - 2 * allowance) / cut_width"),
        summary: "Length of one strip cut round and round a block that is sewn into a tube; its two seams are taken off.",
        examples: &[
            Example { typed: "bias_tube_length(26 in, 26 in, 3 in, 1/4 in)", shown: "216 3/4 in" },
            Example { typed: "bias_tube_length(96 cm, 20 cm, 2 cm, 6 mm)", shown: "≈ 891.1 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_tube_length(a.length(0)?, a.length(1)?, a.length(2)?, a.length(3)?)),
    },
    Function {
        name: "bias_tube_depth",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), LONG, CUT_WIDTH, ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("2 * allowance + length * cut_width / (long - 2 * allowance)"),
        summary: "How deep a block so long must be for a tube that gives so much bias strip.",
        examples: &[
            Example { typed: "bias_tube_depth(500 cm, 86 cm, 2.5 cm, 6 mm)", shown: "≈ 15.9 cm" },
            Example { typed: "bias_tube_depth(180 in, 44 in, 2 in, 1/4 in)", shown: "≈ 8 3/4 in" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, bias::bias_tube_depth(a.length(0)?, a.length(1)?, a.length(2)?, a.length(3)?)),
    },
];
