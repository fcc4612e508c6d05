//! Tucks: folds stitched down, each taking twice its width of cloth.

use super::answer::measure;
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::tucks;

const TOPIC: &str = "tucks";

const TWICE: &str = "Clothing and Health (1916) [2], tucks: twice the width of each";

const COUNT: Parameter = Parameter::new("count", ParameterKind::Count);
const WIDTH: Parameter = Parameter::new("width", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "tucks_taken",
        topic: TOPIC,
        parameters: &[COUNT, WIDTH],
        result: LENGTH,
        formula: Formula::Sum("2 * width * count"),
        summary: "Cloth that a number of tucks take up.",
        examples: &[
            Example { typed: "tucks_taken(32, 1/4 in)", shown: "16 in" },
            Example { typed: "tucks_taken(5, 1 cm)", shown: "10 cm" },
        ],
        source: TWICE,
        code: |a, s| measure(a, s, tucks::tucks_taken(a.count(0)?, a.length(1)?)),
    },
    Function {
        name: "tucked_flat",
        topic: TOPIC,
        parameters: &[Parameter::new("finished", LENGTH), COUNT, WIDTH],
        result: LENGTH,
        formula: Formula::Sum("finished + 2 * width * count"),
        summary: "Length to cut so that a finished length is left once the tucks are sewn.",
        examples: &[
            Example { typed: "tucked_flat(6 in, 8, 1/8 in)", shown: "8 in" },
            Example { typed: "tucked_flat(40 cm, 5, 1 cm)", shown: "50 cm" },
        ],
        source: TWICE,
        code: |a, s| measure(a, s, tucks::tucked_flat(a.length(0)?, a.count(1)?, a.length(2)?)),
    },
    Function {
        name: "tuck_pitch",
        topic: TOPIC,
        parameters: &[WIDTH, Parameter::new("gap", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("2 * width + gap"),
        summary: "Distance from the stitching of a tuck to the fold of the next, for a gap that shows between them.",
        examples: &[
            Example { typed: "tuck_pitch(1/2 in, 1/2 in)", shown: "1 1/2 in" },
            Example { typed: "tuck_pitch(1 cm, 0.5 cm)", shown: "2.5 cm" },
        ],
        source: "Handicraft for Girls (1910) [5], tucking",
        code: |a, s| measure(a, s, tucks::tuck_pitch(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "tuck_gap",
        topic: TOPIC,
        parameters: &[Parameter::new("pitch", LENGTH), WIDTH],
        result: LENGTH,
        formula: Formula::Sum("pitch - 2 * width"),
        summary: "Gap that shows between tucks when the stitching of one and the next fold are a pitch apart.",
        examples: &[
            Example { typed: "tuck_gap(1 1/2 in, 1/2 in)", shown: "1/2 in" },
            Example { typed: "tuck_gap(2.5 cm, 1 cm)", shown: "0.5 cm" },
        ],
        source: "Handicraft for Girls (1910) [5], exercise 41",
        code: |a, s| measure(a, s, tucks::tuck_gap(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "hem_tuck_fold",
        topic: TOPIC,
        parameters: &[Parameter::new("hem", LENGTH), Parameter::new("seam", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("2 * hem + seam"),
        summary: "Distance from the raw edge to the fold of a hem-tuck that covers the seam of a frill.",
        examples: &[
            Example { typed: "hem_tuck_fold(1 in, 1/4 in)", shown: "2 1/4 in" },
            Example { typed: "hem_tuck_fold(3 cm, 0.5 cm)", shown: "6.5 cm" },
        ],
        source: "Handicraft for Girls (1910) [5], exercise 41",
        code: |a, s| measure(a, s, tucks::hem_tuck_fold(a.length(0)?, a.length(1)?)),
    },
];
