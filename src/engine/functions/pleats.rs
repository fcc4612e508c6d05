//! Pleats: how many go into a section, and the flat cloth they take.

use super::answer::{COMMON, count, formula_error, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::engine::value::Value;
use crate::textile::pleats::{self, PleatKind};

const TOPIC: &str = "pleats";

const KINDS: &str = "course book, practical, vol. 2 [11], p. 202";
const KNIFE: &str = "course book, practical, vol. 2 [11], p. 203";
const BOX: &str = "course book, practical, vol. 2 [11], p. 204";
const LET_IN: &str = "Clothing for Women [8], Outer Garments 4";

const FLAT: Parameter = Parameter::new("flat", LENGTH);
const SECTION: Parameter = Parameter::new("section", LENGTH);
const WIDTH: Parameter = Parameter::new("width", LENGTH);
const DEPTH: Parameter = Parameter::new("depth", LENGTH);
const SEAM: Parameter = Parameter::new("seam", LENGTH);
const COUNT: Parameter = Parameter::new("count", ParameterKind::Count);

const SHALLOW: &str = "shallow";
const NORMAL: &str = "normal";
const OVERLAPPING: &str = "overlapping";

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "pleat_kind",
        topic: TOPIC,
        parameters: &[WIDTH, DEPTH],
        result: ParameterKind::OneOf(&[SHALLOW, NORMAL, OVERLAPPING]),
        formula: Formula::Words("normal where depth is width, shallow below, overlapping above"),
        summary: "Whether pleats are shallow, normal (each just meets the next) or overlapping.",
        examples: &[
            Example { typed: "pleat_kind(2.5 cm, 2.5 cm)", shown: "normal" },
            Example { typed: "pleat_kind(5 cm, 4 cm)", shown: "shallow" },
            Example { typed: "pleat_kind(1 1/2 in, 2 in)", shown: "overlapping" },
        ],
        source: KINDS,
        code: |a, s| {
            let kind = pleats::pleat_kind(a.length(0)?, a.length(1)?).map_err(|error| formula_error(a, s, &error))?;
            let word = match kind {
                PleatKind::Shallow => SHALLOW,
                PleatKind::Normal => NORMAL,
                PleatKind::Overlapping => OVERLAPPING,
            };
            Ok(Value::Text(word.to_owned()))
        },
    },
    Function {
        name: "pleat_count",
        topic: TOPIC,
        parameters: &[SECTION, WIDTH],
        result: ParameterKind::Count,
        formula: Formula::Sum("nearest(section / width)"),
        summary: "Pleats of about a width that fill a section, to the nearest whole one.",
        examples: &[
            Example { typed: "pleat_count(92 cm, 5 cm)", shown: "18" },
            Example { typed: "pleat_count(30 in, 1 1/2 in)", shown: "20" },
        ],
        source: KNIFE,
        code: |a, s| count(a, s, pleats::pleat_count(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "pleat_width",
        topic: TOPIC,
        parameters: &[SECTION, COUNT],
        result: LENGTH,
        formula: Formula::Sum("section / count"),
        summary: "Width of each pleat when so many fill a section.",
        examples: &[
            Example { typed: "pleat_width(92 cm, 18)", shown: "≈ 5.1 cm" },
            Example { typed: "pleat_width(30 in, 20)", shown: "1 1/2 in" },
        ],
        source: KNIFE,
        code: |a, s| measure(a, s, pleats::pleat_width(a.length(0)?, a.count(1)?)),
    },
    Function {
        name: "knife_pleats_flat",
        topic: TOPIC,
        parameters: &[SECTION, DEPTH, COUNT],
        result: LENGTH,
        formula: Formula::Sum("section + 2 * depth * count"),
        summary: "Flat length of a section laid in knife pleats.",
        examples: &[
            Example { typed: "knife_pleats_flat(92 cm, 4 cm, 18)", shown: "236 cm" },
            Example { typed: "knife_pleats_flat(30 in, 3/4 in, 20)", shown: "60 in" },
        ],
        source: KNIFE,
        code: |a, s| measure(a, s, pleats::knife_pleats_flat(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
    Function {
        name: "box_pleats_flat",
        topic: TOPIC,
        parameters: &[SECTION, DEPTH, COUNT],
        result: LENGTH,
        formula: Formula::Sum("section + 4 * depth * count"),
        summary: "Flat length of a section laid in box or inverted pleats, of two folds each.",
        examples: &[
            Example { typed: "box_pleats_flat(60 cm, 12 cm, 1)", shown: "108 cm" },
            Example { typed: "box_pleats_flat(30 in, 1 1/2 in, 10)", shown: "90 in" },
        ],
        source: BOX,
        code: |a, s| measure(a, s, pleats::box_pleats_flat(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
    Function {
        name: "knife_pleat_depth",
        topic: TOPIC,
        parameters: &[FLAT, SECTION, COUNT],
        result: LENGTH,
        formula: Formula::Sum("(flat - section) / (2 * count)"),
        summary: "Depth of each knife pleat when a flat length is laid into a section.",
        examples: &[
            Example { typed: "knife_pleat_depth(236 cm, 92 cm, 18)", shown: "4 cm" },
            Example { typed: "knife_pleat_depth(60 in, 30 in, 20)", shown: "3/4 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, pleats::knife_pleat_depth(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
    Function {
        name: "pleat_take_up",
        topic: TOPIC,
        parameters: &[FLAT, SECTION, COUNT],
        result: LENGTH,
        formula: Formula::Sum("(flat - section) / count"),
        summary: "Cloth that each pleat takes up when a flat length is laid into a section.",
        examples: &[
            Example { typed: "pleat_take_up(236 cm, 92 cm, 18)", shown: "8 cm" },
            Example { typed: "pleat_take_up(60 in, 30 in, 10)", shown: "3 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, pleats::pleat_take_up(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
    Function {
        name: "box_pleat_depth",
        topic: TOPIC,
        parameters: &[FLAT, SECTION, COUNT],
        result: LENGTH,
        formula: Formula::Sum("(flat - section) / (4 * count)"),
        summary: "Depth of each fold of box or inverted pleats when a flat length is laid into a section.",
        examples: &[
            Example { typed: "box_pleat_depth(108 cm, 60 cm, 1)", shown: "12 cm" },
            Example { typed: "box_pleat_depth(90 in, 30 in, 10)", shown: "1 1/2 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, pleats::box_pleat_depth(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
    Function {
        name: "knife_pleated_section",
        topic: TOPIC,
        parameters: &[FLAT, DEPTH, COUNT],
        result: LENGTH,
        formula: Formula::Sum("flat - 2 * depth * count"),
        summary: "Section that a flat length is laid into by so many knife pleats of a depth.",
        examples: &[
            Example { typed: "knife_pleated_section(236 cm, 4 cm, 18)", shown: "92 cm" },
            Example { typed: "knife_pleated_section(60 in, 3/4 in, 20)", shown: "30 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, pleats::knife_pleated_section(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
    Function {
        name: "box_pleated_section",
        topic: TOPIC,
        parameters: &[FLAT, DEPTH, COUNT],
        result: LENGTH,
        formula: Formula::Sum("flat - 4 * depth * count"),
        summary: "Section that a flat length is laid into by so many box or inverted pleats of a depth.",
        examples: &[
            Example { typed: "box_pleated_section(108 cm, 12 cm, 1)", shown: "60 cm" },
            Example { typed: "box_pleated_section(90 in, 1 1/2 in, 10)", shown: "30 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, pleats::box_pleated_section(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
    Function {
        name: "knife_pleats_in",
        topic: TOPIC,
        parameters: &[FLAT, WIDTH, DEPTH],
        result: ParameterKind::Count,
        formula: Formula::Sum("down(flat / (width + 2 * depth))"),
        summary: "Whole knife pleats of a width and depth that a flat length gives.",
        examples: &[
            Example { typed: "knife_pleats_in(150 cm, 2.5 cm, 2.5 cm)", shown: "20" },
            Example { typed: "knife_pleats_in(44 in, 1 in, 1 in)", shown: "14" },
        ],
        source: COMMON,
        code: |a, s| count(a, s, pleats::knife_pleats_in(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "box_pleats_in",
        topic: TOPIC,
        parameters: &[FLAT, WIDTH, DEPTH],
        result: ParameterKind::Count,
        formula: Formula::Sum("down(flat / (width + 4 * depth))"),
        summary: "Whole box or inverted pleats of a width and depth that a flat length gives.",
        examples: &[
            Example { typed: "box_pleats_in(90 in, 3 in, 1 1/2 in)", shown: "10" },
            Example { typed: "box_pleats_in(112 cm, 8 cm, 4 cm)", shown: "4" },
        ],
        source: COMMON,
        code: |a, s| count(a, s, pleats::box_pleats_in(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "pleat_take_up_of_rest",
        topic: TOPIC,
        parameters: &[FLAT, SECTION, Parameter::new("fixed", LENGTH), Parameter::new("others", ParameterKind::Count)],
        result: LENGTH,
        formula: Formula::Sum("(flat - section - fixed) / others"),
        summary: "Cloth that each of the other pleats takes up where what one takes is fixed.",
        examples: &[
            Example { typed: "pleat_take_up_of_rest(44 in, 14 in, 2 in, 7)", shown: "4 in" },
            Example { typed: "pleat_take_up_of_rest(110 cm, 35 cm, 5 cm, 7)", shown: "10 cm" },
        ],
        source: "A Complete Course in Dressmaking, vol. 5 (1921) [7], p. 69",
        code: |a, s| {
            measure(a, s, pleats::pleat_take_up_of_rest(a.length(0)?, a.length(1)?, a.length(2)?, a.count(3)?))
        },
    },
    Function {
        name: "seam_pleat_added",
        topic: TOPIC,
        parameters: &[WIDTH, SEAM],
        result: LENGTH,
        formula: Formula::Sum("4 * width + 2 * seam"),
        summary: "Cloth that an inverted pleat let into a seam adds to the two edges of that seam together.",
        examples: &[
            Example { typed: "seam_pleat_added(2 in, 1/2 in)", shown: "9 in" },
            Example { typed: "seam_pleat_added(5 cm, 1.5 cm)", shown: "23 cm" },
        ],
        source: LET_IN,
        code: |a, s| measure(a, s, pleats::seam_pleat_added(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "pleat_block_strip",
        topic: TOPIC,
        parameters: &[WIDTH, SEAM],
        result: LENGTH,
        formula: Formula::Sum("8 * width + 2 * seam"),
        summary: "Strip to cut for a block of pleats set in between two edges, with a seam at each.",
        examples: &[
            Example { typed: "pleat_block_strip(1 1/2 in, 1/2 in)", shown: "13 in" },
            Example { typed: "pleat_block_strip(4 cm, 1 cm)", shown: "34 cm" },
        ],
        source: LET_IN,
        code: |a, s| measure(a, s, pleats::pleat_block_strip(a.length(0)?, a.length(1)?)),
    },
];
