//! Curtains: the flat width of one, and the cloth that its drops take.

use super::answer::{COMMON, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::curtains;

const TOPIC: &str = "curtains";

const REPEAT: Parameter = Parameter::new("repeat", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "curtain_flat",
        topic: TOPIC,
        parameters: &[
            Parameter::new("finished", LENGTH),
            Parameter::new("fullness", ParameterKind::Number),
            Parameter::new("returns", LENGTH),
            Parameter::new("side_hem", LENGTH),
        ],
        result: LENGTH,
        formula: Formula::Sum("finished * fullness + returns + 2 * side_hem"),
        summary: "Flat width of one curtain: the gathered part, the returns left flat, and two side hems.",
        examples: &[
            Example { typed: "curtain_flat(84 in, 2.5, 7 in, 4 in)", shown: "225 in" },
            Example { typed: "curtain_flat(95 cm, 2, 9 cm, 5 cm)", shown: "209 cm" },
        ],
        source: "worked example [22], which does not gather the returns; others do",
        code: |a, s| {
            let flat = curtains::curtain_flat(a.length(0)?, a.number(1)?, a.length(2)?, a.length(3)?);
            measure(a, s, flat)
        },
    },
    Function {
        name: "cut_drop",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), REPEAT],
        result: LENGTH,
        formula: Formula::Sum("up(length / repeat) * repeat"),
        summary: "Length to cut for one drop of patterned cloth, up to whole repeats.",
        examples: &[
            Example { typed: "cut_drop(240 cm, 64 cm)", shown: "256 cm" },
            Example { typed: "cut_drop(88 in, 27 in)", shown: "108 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, curtains::cut_drop(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "half_drop_addition",
        topic: TOPIC,
        parameters: &[REPEAT],
        result: LENGTH,
        formula: Formula::Sum("repeat / 2"),
        summary: "Cloth to add once where every other width starts half a repeat lower.",
        examples: &[
            Example { typed: "half_drop_addition(64 cm)", shown: "32 cm" },
            Example { typed: "half_drop_addition(27 in)", shown: "13 1/2 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, curtains::half_drop_addition(a.length(0)?)),
    },
    Function {
        name: "cloth_for_drops",
        topic: TOPIC,
        parameters: &[Parameter::new("drops", ParameterKind::Count), Parameter::new("cut_drop", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("drops * cut_drop"),
        summary: "Cloth for a number of drops, one below the other.",
        examples: &[
            Example { typed: "cloth_for_drops(5, 88 in)", shown: "440 in" },
            Example { typed: "cloth_for_drops(4, 256 cm)", shown: "1024 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, curtains::cloth_for_drops(a.count(0)?, a.length(1)?)),
    },
];
