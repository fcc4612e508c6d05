//! Festoons and their tails, guesses at the cloth of a drapery, the edge of a bed valance.

use super::answer::{COMMON, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::drapery;

const TOPIC: &str = "draperies";

const DRAPING: &str = "Cutting and Draping (1905) [1]";

const WIDTH: Parameter = Parameter::new("width", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "festoon_cut_depth",
        topic: TOPIC,
        parameters: &[Parameter::new("finished", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("2 * finished"),
        summary: "Depth to cut of a festoon: as much again as it hangs down, and more of thin silk.",
        examples: &[
            Example { typed: "festoon_cut_depth(14 in)", shown: "28 in" },
            Example { typed: "festoon_cut_depth(35 cm)", shown: "70 cm" },
        ],
        source: DRAPING,
        code: |a, s| measure(a, s, drapery::festoon_cut_depth(a.length(0)?)),
    },
    Function {
        name: "festoon_tail",
        topic: TOPIC,
        parameters: &[
            Parameter::new("long", LENGTH),
            Parameter::new("part", ParameterKind::OneOf(&drapery::TAIL_WORDS)),
        ],
        result: LENGTH,
        formula: Formula::Words("the front edge is 1/2 of the long edge, the top 1/6, the widest place 4/3 of the top"),
        summary: "A measure of a festoon's tail by its long edge: its front edge, its top, or its widest place.",
        examples: &[
            Example { typed: "festoon_tail(72 in, \"front edge\")", shown: "36 in" },
            Example { typed: "festoon_tail(72 in, \"widest\")", shown: "16 in" },
            Example { typed: "festoon_tail(180 cm, \"top\")", shown: "30 cm" },
        ],
        source: DRAPING,
        code: |a, s| measure(a, s, drapery::festoon_tail(a.length(0)?, a.text(1)?)),
    },
    Function {
        name: "flat_valance_cloth",
        topic: TOPIC,
        parameters: &[
            Parameter::new("widths", ParameterKind::Count),
            Parameter::new("depth", LENGTH),
            Parameter::new("turning", LENGTH),
            Parameter::new("tails", LENGTH),
        ],
        result: LENGTH,
        formula: Formula::Sum("widths * (depth + turning) + tails"),
        summary: "Cloth of a flat valance of so many widths, with the cloth of both its tails.",
        examples: &[
            Example { typed: "flat_valance_cloth(3, 14 in, 2 in, 40 in)", shown: "88 in" },
            Example { typed: "flat_valance_cloth(2, 35 cm, 5 cm, 120 cm)", shown: "200 cm" },
        ],
        source: DRAPING,
        code: |a, s| {
            let cloth = drapery::flat_valance_cloth(a.count(0)?, a.length(1)?, a.length(2)?, a.length(3)?);
            measure(a, s, cloth)
        },
    },
    Function {
        name: "drapery_guess",
        topic: TOPIC,
        parameters: &[WIDTH],
        result: LENGTH,
        formula: Formula::Sum("3 * width"),
        summary: "A first guess at the cloth of a draped valance: a yard for each foot of width.",
        examples: &[
            Example { typed: "drapery_guess(60 in)", shown: "180 in" },
            Example { typed: "drapery_guess(150 cm)", shown: "450 cm" },
        ],
        source: DRAPING,
        code: |a, s| measure(a, s, drapery::drapery_guess(a.length(0)?)),
    },
    Function {
        name: "fringe_guess",
        topic: TOPIC,
        parameters: &[WIDTH],
        result: LENGTH,
        formula: Formula::Sum("3 * width + 3 yd"),
        summary: "A first guess at the fringe of a draped valance: three yards more than its cloth.",
        examples: &[
            Example { typed: "fringe_guess(60 in)", shown: "288 in" },
            Example { typed: "fringe_guess(150 cm)", shown: "≈ 724.3 cm" },
        ],
        source: DRAPING,
        code: |a, s| measure(a, s, drapery::fringe_guess(a.length(0)?)),
    },
    Function {
        name: "bed_valance_edge",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), WIDTH],
        result: LENGTH,
        formula: Formula::Sum("2 * length + width"),
        summary: "The edge that a bed valance hangs from: both sides of the mattress and its foot.",
        examples: &[
            Example { typed: "bed_valance_edge(80 in, 60 in)", shown: "220 in" },
            Example { typed: "bed_valance_edge(200 cm, 140 cm)", shown: "540 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, drapery::bed_valance_edge(a.length(0)?, a.length(1)?)),
    },
];
