//! Flags on a tape, and triangles cut from a strip.

use super::answer::{COMMON, GEOMETRY, count, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::bunting;

const TOPIC: &str = "bunting";

const WIDTH: Parameter = Parameter::new("width", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "bunting_tape",
        topic: TOPIC,
        parameters: &[
            Parameter::new("flags", ParameterKind::Count),
            WIDTH,
            Parameter::new("gap", LENGTH),
            Parameter::new("end", LENGTH),
        ],
        result: LENGTH,
        formula: Formula::Sum("flags * width + (flags - 1) * gap + 2 * end"),
        summary: "Tape for a row of flags, with the gaps between them and an end to tie at each side.",
        examples: &[
            Example { typed: "bunting_tape(12, 6 in, 1 in, 18 in)", shown: "119 in" },
            Example { typed: "bunting_tape(10, 15 cm, 3 cm, 40 cm)", shown: "257 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, bunting::bunting_tape(a.count(0)?, a.length(1)?, a.length(2)?, a.length(3)?)),
    },
    Function {
        name: "triangles_from_strip",
        topic: TOPIC,
        parameters: &[Parameter::new("strip", LENGTH), WIDTH],
        result: ParameterKind::Count,
        formula: Formula::Sum("down((strip - width) / (width / 2)) + 1"),
        summary: "Triangles as high as a strip that can be cut from it, every other one upside down.",
        examples: &[
            Example { typed: "triangles_from_strip(42 in, 8 in)", shown: "9" },
            Example { typed: "triangles_from_strip(110 cm, 20 cm)", shown: "10" },
        ],
        source: GEOMETRY,
        code: |a, s| count(a, s, bunting::triangles_from_strip(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "bunting_rows",
        topic: TOPIC,
        parameters: &[Parameter::new("flags", ParameterKind::Count), Parameter::new("usable_width", LENGTH), WIDTH],
        result: ParameterKind::Count,
        formula: Formula::Sum("up(flags / triangles_from_strip(usable_width, width))"),
        summary: "Strips across the cloth, each as high as a flag, for a number of flags cut head to foot.",
        examples: &[
            Example { typed: "bunting_rows(30, 44 in, 8 in)", shown: "3" },
            Example { typed: "bunting_rows(24, 112 cm, 20 cm)", shown: "3" },
        ],
        source: GEOMETRY,
        code: |a, s| count(a, s, bunting::bunting_rows(a.count(0)?, a.length(1)?, a.length(2)?)),
    },
];
