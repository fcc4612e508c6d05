//! Pleats: how many go into a section, and the flat cloth they take.

use super::answer::{COMMON, count, measure, problem};
use crate::engine::function::{Example, Function, Kind, LENGTH, Parameter};
use crate::engine::value::Value;
use crate::textile::pleats::{self, PleatKind};

const TOPIC: &str = "pleats";

const KINDS: &str = "National Instructional Media Institute, CITS Dress Making – Trade Practical, vol. 2, p. 202";
const KNIFE: &str = "National Instructional Media Institute, CITS Dress Making – Trade Practical, vol. 2, p. 203";
const BOX: &str = "National Instructional Media Institute, CITS Dress Making – Trade Practical, vol. 2, p. 204";

const FLAT: Parameter = Parameter::new("flat", LENGTH);
const SECTION: Parameter = Parameter::new("section", LENGTH);
const WIDTH: Parameter = Parameter::new("width", LENGTH);
const DEPTH: Parameter = Parameter::new("depth", LENGTH);
const COUNT: Parameter = Parameter::new("count", Kind::Count);

const SHALLOW: &str = "shallow";
const NORMAL: &str = "normal";
const OVERLAPPING: &str = "overlapping";

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "pleat_kind",
        topic: TOPIC,
        parameters: &[WIDTH, DEPTH],
        gives: Kind::OneOf(&[SHALLOW, NORMAL, OVERLAPPING]),
        summary: "Whether pleats are shallow, normal (each just meets the next) or overlapping.",
        examples: &[
            Example { typed: "pleat_kind(2.5 cm, 2.5 cm)", shown: "normal" },
            Example { typed: "pleat_kind(5 cm, 4 cm)", shown: "shallow" },
            Example { typed: "pleat_kind(1 1/2 in, 2 in)", shown: "overlapping" },
        ],
        source: KINDS,
        code: |a, s| {
            let kind = pleats::pleat_kind(a.length(0)?, a.length(1)?).map_err(|fault| problem(a, s, &fault))?;
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
        gives: Kind::Count,
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
        gives: LENGTH,
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
        gives: LENGTH,
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
        gives: LENGTH,
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
        gives: LENGTH,
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
        gives: LENGTH,
        summary: "Cloth that each pleat takes up when a flat length is laid into a section.",
        examples: &[
            Example { typed: "pleat_take_up(236 cm, 92 cm, 18)", shown: "8 cm" },
            Example { typed: "pleat_take_up(60 in, 30 in, 10)", shown: "3 in" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, pleats::pleat_take_up(a.length(0)?, a.length(1)?, a.count(2)?)),
    },
];
