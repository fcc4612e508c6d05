//! Strips seamed end to end, each join taking an allowance off both sides.

use super::answer::{GEOMETRY, count, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::joins;

const TOPIC: &str = "joins";

const FLAT: Parameter = Parameter::new("flat", LENGTH);
const STRIP: Parameter = Parameter::new("strip", LENGTH);
const ALLOWANCE: Parameter = Parameter::new("allowance", LENGTH);
const COUNT: Parameter = Parameter::new("count", ParameterKind::Count);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "strips_joined",
        topic: TOPIC,
        parameters: &[FLAT, STRIP, ALLOWANCE],
        result: ParameterKind::Count,
        formula: Formula::Sum("up((flat - 2 * allowance) / (strip - 2 * allowance))"),
        summary: "Strips to seam end to end for a flat length with open ends, measured to its raw ends.",
        examples: &[
            Example { typed: "strips_joined(420 in, 54 in, 1/4 in)", shown: "8" },
            Example { typed: "strips_joined(300 cm, 112 cm, 1 cm)", shown: "3" },
        ],
        source: GEOMETRY,
        code: |a, s| count(a, s, joins::strips_joined(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "joined_length",
        topic: TOPIC,
        parameters: &[COUNT, STRIP, ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("count * strip - 2 * allowance * (count - 1)"),
        summary: "Length of strips seamed end to end with open ends, measured to the raw ends.",
        examples: &[
            Example { typed: "joined_length(8, 54 in, 1/4 in)", shown: "428 1/2 in" },
            Example { typed: "joined_length(3, 112 cm, 1 cm)", shown: "332 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, joins::joined_length(a.count(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "strips_looped",
        topic: TOPIC,
        parameters: &[FLAT, STRIP, ALLOWANCE],
        result: ParameterKind::Count,
        formula: Formula::Sum("up(flat / (strip - 2 * allowance))"),
        summary: "Strips to seam into a closed loop of a length round.",
        examples: &[
            Example { typed: "strips_looped(132 in, 45 in, 1/2 in)", shown: "3" },
            Example { typed: "strips_looped(300 cm, 112 cm, 1 cm)", shown: "3" },
        ],
        source: GEOMETRY,
        code: |a, s| count(a, s, joins::strips_looped(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "looped_length",
        topic: TOPIC,
        parameters: &[COUNT, STRIP, ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("count * (strip - 2 * allowance)"),
        summary: "Length round a closed loop of strips seamed end to end.",
        examples: &[
            Example { typed: "looped_length(3, 45 in, 1/2 in)", shown: "132 in" },
            Example { typed: "looped_length(3, 112 cm, 1 cm)", shown: "330 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, joins::looped_length(a.count(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "strips_cautious",
        topic: TOPIC,
        parameters: &[FLAT, STRIP, ALLOWANCE],
        result: ParameterKind::Count,
        formula: Formula::Sum("up(flat / (strip - 2 * allowance))"),
        summary: "Strips by a handbook's cautious rule for pleats, never short and at times one too many.",
        examples: &[
            Example { typed: "strips_cautious(236 cm, 90 cm, 1 cm)", shown: "3" },
            Example { typed: "strips_cautious(420 in, 54 in, 1/4 in)", shown: "8" },
        ],
        source: "course book, practical, vol. 2 [11], p. 203",
        code: |a, s| count(a, s, joins::strips_cautious(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "strips_for_frill",
        topic: TOPIC,
        parameters: &[FLAT, STRIP],
        result: ParameterKind::Count,
        formula: Formula::Sum("down(flat / strip) + 1"),
        summary: "Strips by a handbook's rule for frills, which adds one where they would come out even.",
        examples: &[
            Example { typed: "strips_for_frill(540 cm, 110 cm)", shown: "5" },
            Example { typed: "strips_for_frill(550 cm, 110 cm)", shown: "6" },
            Example { typed: "strips_for_frill(3 3/4 yd, 36 in)", shown: "4" },
        ],
        source: "course book, practical, vol. 2 [11], p. 212",
        code: |a, s| count(a, s, joins::strips_for_frill(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "cloth_for_strips",
        topic: TOPIC,
        parameters: &[COUNT, Parameter::new("depth", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("count * depth"),
        summary: "Cloth for strips cut across its width, one below the other.",
        examples: &[
            Example { typed: "cloth_for_strips(5, 15 cm)", shown: "75 cm" },
            Example { typed: "cloth_for_strips(13, 23 in)", shown: "299 in" },
        ],
        source: "course book, practical, vol. 2 [11], p. 212",
        code: |a, s| measure(a, s, joins::cloth_for_strips(a.count(0)?, a.length(1)?)),
    },
];
