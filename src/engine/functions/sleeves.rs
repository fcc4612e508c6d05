//! Sleeve heads, cuffs' buttonholes, and sleeves made fuller by slashing a fitted pattern and spreading the slashes.

use super::answer::{COMMON, GEOMETRY, length_or_none, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::sleeves;

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "slash_spread",
        topic: "sleeves",
        parameters: &[
            Parameter::new("edge", LENGTH),
            Parameter::new("fullness", ParameterKind::Number),
            Parameter::new("slashes", ParameterKind::Count),
        ],
        result: LENGTH,
        formula: Formula::Sum("(fullness - 1) * edge / slashes"),
        summary: "How far each slash of a fitted pattern is opened so that its edge gets a fullness.",
        examples: &[
            Example { typed: "slash_spread(30 cm, 1.6, 5)", shown: "3.6 cm" },
            Example { typed: "slash_spread(12 in, 1.5, 4)", shown: "1 1/2 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, sleeves::slash_spread(a.length(0)?, a.number(1)?, a.count(2)?)),
    },
    Function {
        name: "sleeve_head",
        topic: "sleeves",
        parameters: &[Parameter::new("width", LENGTH), Parameter::new("height", LENGTH)],
        result: LENGTH,
        formula: Formula::Words("the arc of a parabola so wide and so high"),
        summary: "Length along the curve of a sleeve head, drawn as a parabola over the sleeve's width.",
        examples: &[
            Example { typed: "sleeve_head(32 cm, 14 cm)", shown: "≈ 44.4 cm" },
            Example { typed: "sleeve_head(12 in, 5 in)", shown: "≈ 16 1/4 in" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, sleeves::sleeve_head(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "buttonhole",
        topic: "sleeves",
        parameters: &[Parameter::new("diameter", LENGTH), Parameter::with_default("more", LENGTH, "0 in")],
        result: LENGTH,
        formula: Formula::Sum("diameter + more"),
        summary: "Length of a buttonhole, the button and what is more: 1/8 in, its thickness, or nothing, as books differ.",
        examples: &[
            Example { typed: "buttonhole(5/8 in, 1/8 in)", shown: "3/4 in" },
            Example { typed: "buttonhole(15 mm, 3 mm)", shown: "18 mm" },
        ],
        source: "sewing manual [26]: 1/8 in (3 mm); school text [27], second-hand: 1/8 in or the thickness; Encyclopedia of Needlework [10]: exactly the diameter",
        code: |a, s| measure(a, s, sleeves::buttonhole(a.length(0)?, length_or_none(a, 1)?)),
    },
];
