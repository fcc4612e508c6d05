//! Waistbands and other bands: what to cut, and where the marks go.

use super::answer::{COMMON, length_or_none, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::band;

const TOPIC: &str = "bands";

const PETTICOAT: &str = "Clothing and Health (1916) [2], petticoat, step 8; the ease is common practice";
const SCHOOL_DRESS: &str = "extension leaflet L-87 [13], p. 11";

const TURNING: Parameter = Parameter::new("turning", LENGTH);
const FINISHED: Parameter = Parameter::new("finished", LENGTH);
const LAYERS: Parameter = Parameter::new("layers", ParameterKind::Count);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "band_length",
        topic: TOPIC,
        parameters: &[
            Parameter::new("waist", LENGTH),
            Parameter::new("ease", LENGTH),
            Parameter::new("overlap", LENGTH),
            TURNING,
        ],
        result: LENGTH,
        formula: Formula::Sum("waist + ease + overlap + 2 * turning"),
        summary: "Length to cut of a band, with its ease, its overlap and a turning at each end.",
        examples: &[
            Example { typed: "band_length(24 in, 0 in, 1 in, 1 in)", shown: "27 in" },
            Example { typed: "band_length(60 cm, 1 cm, 3 cm, 1.5 cm)", shown: "67 cm" },
        ],
        source: PETTICOAT,
        code: |a, s| measure(a, s, band::band_length(a.length(0)?, a.length(1)?, a.length(2)?, a.length(3)?)),
    },
    Function {
        name: "band_depth",
        topic: TOPIC,
        parameters: &[FINISHED, TURNING],
        result: LENGTH,
        formula: Formula::Sum("2 * finished + 2 * turning"),
        summary: "Depth to cut of a band folded once, with a turning at each edge.",
        examples: &[
            Example { typed: "band_depth(1 in, 1/4 in)", shown: "2 1/2 in" },
            Example { typed: "band_depth(3 cm, 1 cm)", shown: "8 cm" },
        ],
        source: "Clothing and Health (1916) [2], petticoat, step 8",
        code: |a, s| measure(a, s, band::band_depth(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "band_depth_in_layers",
        topic: TOPIC,
        parameters: &[FINISHED, LAYERS, TURNING],
        result: LENGTH,
        formula: Formula::Sum("layers * finished + 2 * turning"),
        summary: "Depth to cut of a band folded to several layers, with a turning at each edge.",
        examples: &[
            Example { typed: "band_depth_in_layers(2 in, 3, 1/4 in)", shown: "6 1/2 in" },
            Example { typed: "band_depth_in_layers(4 cm, 3, 1 cm)", shown: "14 cm" },
        ],
        source: SCHOOL_DRESS,
        code: |a, s| measure(a, s, band::band_depth_in_layers(a.length(0)?, a.count(1)?, a.length(2)?)),
    },
    Function {
        name: "band_finished",
        topic: TOPIC,
        parameters: &[Parameter::new("cut", LENGTH), LAYERS, TURNING],
        result: LENGTH,
        formula: Formula::Sum("(cut - 2 * turning) / layers"),
        summary: "Finished depth of a band or binding folded to so many layers from a cut depth.",
        examples: &[
            Example { typed: "band_finished(2 1/2 in, 2, 1/4 in)", shown: "1 in" },
            Example { typed: "band_finished(8 cm, 2, 1 cm)", shown: "3 cm" },
        ],
        source: "Clothing and Health (1916) [2], bias band of the nightdress",
        code: |a, s| measure(a, s, band::band_finished(a.length(0)?, a.count(1)?, a.length(2)?)),
    },
    Function {
        name: "even_marks",
        topic: TOPIC,
        parameters: &[Parameter::new("length", LENGTH), Parameter::new("parts", ParameterKind::Count)],
        result: LENGTH,
        formula: Formula::Sum("length / parts"),
        summary: "Distance from mark to mark when a length, without its overlap, is divided in equal parts.",
        examples: &[
            Example { typed: "even_marks(25 in, 8)", shown: "3 1/8 in" },
            Example { typed: "even_marks(60 cm, 8)", shown: "7.5 cm" },
        ],
        source: "extension leaflet L-87 [13]",
        code: |a, s| measure(a, s, band::even_marks(a.length(0)?, a.count(1)?)),
    },
    Function {
        name: "even_spaces",
        topic: TOPIC,
        parameters: &[
            Parameter::new("length", LENGTH),
            Parameter::new("count", ParameterKind::Count),
            Parameter::with_default("width", LENGTH, "0 in"),
        ],
        result: LENGTH,
        formula: Formula::Sum("(length - count * width) / (count - 1)"),
        summary: "Space between things set in a row, such as buttons or pleats, with the first and last at the ends.",
        examples: &[
            Example { typed: "even_spaces(40 in, 5, 4 in)", shown: "5 in" },
            Example { typed: "even_spaces(100 cm, 6)", shown: "20 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, band::even_spaces(a.length(0)?, a.count(1)?, length_or_none(a, 2)?)),
    },
];
