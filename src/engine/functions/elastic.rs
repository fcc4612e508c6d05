//! Elastic: how long to cut it, and when it would press too hard.

use super::answer::{measure, per_cent, share};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::engine::value::Value;
use crate::textile::elastic::{self, ElasticCaution};

const TOPIC: &str = "elastic";

const SOURCE: &str = "common practice, no source; the limits are a caution of our own, no promise of comfort";

const BODY: Parameter = Parameter::new("body", LENGTH);
const REDUCTION: Parameter = Parameter::new("reduction", ParameterKind::Share);
const RELAXED: Parameter = Parameter::new("relaxed", LENGTH);

const NO_CAUTION: &str = "none";
const TIGHT: &str = "tight";
const TOO_TIGHT: &str = "too tight";

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "elastic_worn",
        topic: TOPIC,
        parameters: &[BODY, REDUCTION],
        result: LENGTH,
        formula: Formula::Sum("body * (1 - reduction)"),
        summary: "Length of the joined elastic lying relaxed, shorter than the body by a share.",
        examples: &[
            Example { typed: "elastic_worn(20 in, 5 %)", shown: "19 in" },
            Example { typed: "elastic_worn(60 cm, 5 %)", shown: "57 cm" },
        ],
        source: SOURCE,
        code: |a, s| measure(a, s, elastic::elastic_worn(a.length(0)?, share(a, 1, s)?)),
    },
    Function {
        name: "elastic_length",
        topic: TOPIC,
        parameters: &[BODY, REDUCTION, Parameter::new("overlap", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("body * (1 - reduction) + overlap"),
        summary: "Length to cut of elastic, shorter than the body by a share and longer by its overlap.",
        examples: &[
            Example { typed: "elastic_length(14 in, 0 %, 1 in)", shown: "15 in" },
            Example { typed: "elastic_length(21 in, 8 %, 1 in)", shown: "≈ 20 3/8 in" },
            Example { typed: "elastic_length(60 cm, 5 %, 2.5 cm)", shown: "59.5 cm" },
        ],
        source: SOURCE,
        code: |a, s| measure(a, s, elastic::elastic_length(a.length(0)?, share(a, 1, s)?, a.length(2)?)),
    },
    Function {
        name: "elastic_shorter_by",
        topic: TOPIC,
        parameters: &[BODY, Parameter::new("shorter", LENGTH), Parameter::new("overlap", LENGTH)],
        result: LENGTH,
        formula: Formula::Sum("body - shorter + overlap"),
        summary: "Length to cut of elastic, shorter than the body by a length and longer by its overlap.",
        examples: &[
            Example { typed: "elastic_shorter_by(24 in, 1 in, 1 in)", shown: "24 in" },
            Example { typed: "elastic_shorter_by(60 cm, 3 cm, 2.5 cm)", shown: "59.5 cm" },
        ],
        source: SOURCE,
        code: |a, s| measure(a, s, elastic::elastic_shorter_by(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "elastic_reduction",
        topic: TOPIC,
        parameters: &[BODY, RELAXED],
        result: ParameterKind::Share,
        formula: Formula::Sum("1 - relaxed / body"),
        summary: "Share by which a relaxed elastic is shorter than the body.",
        examples: &[
            Example { typed: "elastic_reduction(20 in, 18 in)", shown: "10 %" },
            Example { typed: "elastic_reduction(60 cm, 57 cm)", shown: "5 %" },
        ],
        source: SOURCE,
        code: |a, s| per_cent(a, s, elastic::elastic_reduction(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "elastic_stretch",
        topic: TOPIC,
        parameters: &[RELAXED, Parameter::new("over", LENGTH)],
        result: ParameterKind::Share,
        formula: Formula::Sum("over / relaxed - 1"),
        summary: "Share by which elastic must stretch to go over something, such as the hips.",
        examples: &[
            Example { typed: "elastic_stretch(20 in, 23 in)", shown: "15 %" },
            Example { typed: "elastic_stretch(50 cm, 60 cm)", shown: "20 %" },
        ],
        source: SOURCE,
        code: |a, s| per_cent(a, s, elastic::elastic_stretch(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "elastic_caution",
        topic: TOPIC,
        parameters: &[REDUCTION],
        result: ParameterKind::OneOf(&[NO_CAUTION, TIGHT, TOO_TIGHT]),
        formula: Formula::Words("tight above 10 %, too tight above 25 %"),
        summary: "Care that a reduction asks for: none, tight above 10 %, too tight above 25 %.",
        examples: &[
            Example { typed: "elastic_caution(8 %)", shown: "none" },
            Example { typed: "elastic_caution(14 %)", shown: "tight" },
            Example { typed: "elastic_caution(30 %)", shown: "too tight" },
        ],
        source: "a caution of our own, after studies of adults; no figures for children were found",
        code: |a, s| {
            let word = match elastic::elastic_caution(share(a, 0, s)?) {
                ElasticCaution::None => NO_CAUTION,
                ElasticCaution::Tight => TIGHT,
                ElasticCaution::TooTight => TOO_TIGHT,
            };
            Ok(Value::Text(word.to_owned()))
        },
    },
];
