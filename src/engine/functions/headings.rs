//! Headings: pinch pleats, pockets for a rod, how full a valance is.

use super::answer::{COMMON, count, measure, ratio, share_on_top_or};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::headings;

const TOPIC: &str = "headings";

/// Default ease round a rod.
const USUAL_EASE: f64 = 0.2;

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "pinch_pleat_count",
        topic: TOPIC,
        parameters: &[Parameter::new("section", LENGTH), Parameter::new("space", LENGTH)],
        result: ParameterKind::Count,
        formula: Formula::Sum("up(section / space) + 1"),
        summary: "Pinch pleats along a heading less its return and overlap, with no space wider than asked.",
        examples: &[
            Example { typed: "pinch_pleat_count(90 cm, 15 cm)", shown: "7" },
            Example { typed: "pinch_pleat_count(40 in, 5 in)", shown: "9" },
        ],
        source: COMMON,
        code: |a, s| count(a, s, headings::pinch_pleat_count(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "rod_pocket_depth",
        topic: TOPIC,
        parameters: &[Parameter::new("diameter", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("2 * diameter"),
        summary: "Depth of a rod's pocket between its two stitching lines: twice the diameter, where others reckon from round it.",
        examples: &[
            Example { typed: "rod_pocket_depth(1 in)", shown: "2 in" },
            Example { typed: "rod_pocket_depth(28 mm)", shown: "56 mm" },
        ],
        source: "A Manual of Home-Making [9]; it disagrees with rod_pocket_for_round",
        code: |a, s| measure(a, s, headings::rod_pocket_depth(a.length(0)?)),
    },
    Function {
        name: "rod_pocket_for_round",
        topic: TOPIC,
        parameters: &[Parameter::new("round", LENGTH), Parameter::with_default("ease", ParameterKind::Share, "20 %")],
        result: LENGTH,
        formula: Formula::Sum("round * (1 + ease) / 2"),
        summary: "Depth of a rod's pocket between its stitching lines, from the length round the rod and its ease.",
        examples: &[
            Example { typed: "rod_pocket_for_round(3 1/8 in)", shown: "1 7/8 in" },
            Example { typed: "rod_pocket_for_round(10 cm, 0 %)", shown: "5 cm" },
        ],
        source: "Cutting and Draping (1905) [1]: a pocket of 3 3/4 in in all on a pole 3 1/8 in round",
        code: |a, s| {
            let ease = share_on_top_or(a, 1, s, USUAL_EASE)?;
            measure(a, s, headings::rod_pocket_for_round(a.length(0)?, ease))
        },
    },
    Function {
        name: "valance_fullness",
        topic: TOPIC,
        parameters: &[Parameter::new("kind", ParameterKind::OneOf(&headings::VALANCE_WORDS))],
        result: ParameterKind::Number,
        formula: Formula::Words("2 in light cloth, 1 1/2 in medium, 3 in touching box pleats"),
        summary: "How full a valance is, flat over finished: gathered of light or of medium cloth, or in box pleats that touch.",
        examples: &[
            Example { typed: "valance_fullness(\"gathered light cloth\")", shown: "2" },
            Example { typed: "valance_fullness(\"gathered medium cloth\")", shown: "1.5" },
            Example { typed: "valance_fullness(\"box pleats\")", shown: "3" },
        ],
        source: "Cutting and Draping (1905) [1]",
        code: |a, s| ratio(a, s, headings::valance_fullness(a.text(0)?)),
    },
];
