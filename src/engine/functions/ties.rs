//! Drawstrings, bows and sashes, and the bag that a cord closes.

use super::answer::{COMMON, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::ties;

const TOPIC: &str = "ties";

const LOOP: Parameter = Parameter::new("loops", LENGTH);
const END: Parameter = Parameter::new("end", LENGTH);
const KNOT: Parameter = Parameter::new("knot", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "bag_cut_length",
        topic: TOPIC,
        parameters: &[
            Parameter::new("height", LENGTH),
            Parameter::new("casing", LENGTH),
            Parameter::new("turning", LENGTH),
        ],
        result: LENGTH,
        formula: Formula::Sum("2 * height + 2 * (casing + turning)"),
        summary: "Length to cut of a bag folded at its foot, with casing and turning at both ends.",
        examples: &[
            Example { typed: "bag_cut_length(12 in, 2 in, 1/2 in)", shown: "29 in" },
            Example { typed: "bag_cut_length(25 cm, 3 cm, 1 cm)", shown: "58 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, ties::bag_cut_length(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "drawstring_cord",
        topic: TOPIC,
        parameters: &[
            Parameter::new("flat_width", LENGTH),
            Parameter::new("tails", LENGTH),
            Parameter::with_default("cords", ParameterKind::Count, "1"),
        ],
        result: LENGTH,
        formula: Formula::Sum("cords * (2 * flat_width + tails)"),
        summary: "Cord of a drawstring bag: round it with tails, twice where it is drawn from both sides.",
        examples: &[
            Example { typed: "drawstring_cord(9 in, 8 in, 2)", shown: "52 in" },
            Example { typed: "drawstring_cord(20 cm, 20 cm)", shown: "60 cm" },
        ],
        source: COMMON,
        code: |a, s| {
            let cords = if a.get(2).is_some() { a.count(2)? } else { 1 };
            measure(a, s, ties::drawstring_cord(a.length(0)?, a.length(1)?, cords))
        },
    },
    Function {
        name: "bow_length",
        topic: TOPIC,
        parameters: &[LOOP, END, KNOT],
        result: LENGTH,
        formula: Formula::Sum("4 * loops + 2 * end + knot"),
        summary: "What a bow takes: two loops there and back, two ends, and the knot.",
        examples: &[
            Example { typed: "bow_length(5 in, 12 in, 3 in)", shown: "47 in" },
            Example { typed: "bow_length(12 cm, 30 cm, 6 cm)", shown: "114 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, ties::bow_length(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "sash_length",
        topic: TOPIC,
        parameters: &[Parameter::new("round", LENGTH), LOOP, END, KNOT],
        result: LENGTH,
        formula: Formula::Sum("round + 4 * loops + 2 * end + knot"),
        summary: "A sash round the body and tied in a bow; with no loop it is only knotted.",
        examples: &[
            Example { typed: "sash_length(24 in, 5 in, 12 in, 3 in)", shown: "71 in" },
            Example { typed: "sash_length(60 cm, 0 cm, 30 cm, 6 cm)", shown: "126 cm" },
        ],
        source: COMMON,
        code: |a, s| {
            let sash = ties::sash_length(a.length(0)?, a.length(1)?, a.length(2)?, a.length(3)?);
            measure(a, s, sash)
        },
    },
];
