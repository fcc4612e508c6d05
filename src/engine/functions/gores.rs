//! Gored skirts: how a measure is shared among the gores.

use super::answer::{lengths, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::gores;

const TOPIC: &str = "gores";

const ROUND: Parameter = Parameter::new("round", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "gore_width",
        topic: TOPIC,
        parameters: &[ROUND, Parameter::new("gores", ParameterKind::Count), Parameter::new("allowance", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("round / gores + 2 * allowance"),
        summary: "Width to cut of one of several equal gores at the waist, hip or hem, with an allowance at each side.",
        examples: &[
            Example { typed: "gore_width(40 in, 5, 1/2 in)", shown: "9 in" },
            Example { typed: "gore_width(96 cm, 6, 1.5 cm)", shown: "19 cm" },
        ],
        source: "The Perfect Dressmaking System (1914) [3]; the allowance is common practice, no source",
        code: |a, s| measure(a, s, gores::gore_width(a.length(0)?, a.count(1)?, a.length(2)?)),
    },
    Function {
        name: "gore_width_of_rest",
        topic: TOPIC,
        parameters: &[ROUND, Parameter::new("fixed", LENGTH), Parameter::new("others", ParameterKind::Count)],
        result: LENGTH,
        formula: Formula::Sum("(round - fixed) / others"),
        summary: "Width of each of the other gores where one, such as the front, is fixed.",
        examples: &[
            Example { typed: "gore_width_of_rest(81 in, 10 in, 4)", shown: "17 3/4 in" },
            Example { typed: "gore_width_of_rest(200 cm, 30 cm, 5)", shown: "34 cm" },
        ],
        source: "The Perfect Dressmaking System (1914) [3], which prints 17 1/2 in for 17 3/4 in, a slip",
        code: |a, s| measure(a, s, gores::gore_width_of_rest(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
    Function {
        name: "gore_rise",
        topic: TOPIC,
        parameters: &[
            Parameter::new("front", LENGTH),
            Parameter::new("back", LENGTH),
            Parameter::new("pieces", ParameterKind::Count),
        ],
        result: LENGTH,
        formula: Formula::Sum("(back - front) / pieces"),
        summary: "How far the waist rises across each pattern piece, the skirt being longer at the back.",
        examples: &[
            Example { typed: "gore_rise(38 in, 39 1/2 in, 3)", shown: "1/2 in" },
            Example { typed: "gore_rise(96 cm, 99 cm, 2)", shown: "1.5 cm" },
        ],
        source: "The Perfect Dressmaking System (1914) [3]",
        code: |a, s| measure(a, s, gores::gore_rise(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
    Function {
        name: "five_gore_shares",
        topic: TOPIC,
        parameters: &[Parameter::new("waist", LENGTH)],
        result: ParameterKind::List,
        formula: Formula::Words("of half the waist a quarter, a third, and the rest"),
        summary: "How a waist is shared in half a pattern of five gores: half the front gore, side, back.",
        examples: &[
            Example { typed: "five_gore_shares(24 in)", shown: "3 in, 4 in, 5 in" },
            Example { typed: "five_gore_shares(72 cm)", shown: "9 cm, 12 cm, 15 cm" },
        ],
        source: "Text-Book on Domestic Art (1911) [6], five-gored underskirt",
        code: |a, s| lengths(a, s, gores::five_gore_shares(a.length(0)?)),
    },
];
