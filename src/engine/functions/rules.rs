//! Labels and rules: on which side of a rule's limit a figure from a test report or a garment falls.
//!
//! Answers give the rule's class, never a statement on safety.

use super::answer::{count, flag, formula_error, measure, share_or_whole};
use crate::engine::function::{AREA, Example, Formula, Function, LENGTH, Parameter, ParameterKind, TIME};
use crate::engine::value::Value;
use crate::quantity::Dimension;
use crate::textile::rules::{self, INFANT_GARMENTS, RaisedBurn, Series};

const TOPIC: &str = "labels and rules";

const SURFACES: [&str; 2] = {
    let [(base, _), (flash, _)] = RaisedBurn::WORDS;
    [base, flash]
};

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "reaches_exempt_weight",
        topic: TOPIC,
        parameters: &[Parameter::new("weight", ParameterKind::Of(Dimension::MASS_BY_AREA))],
        result: ParameterKind::Flag,
        formula: Formula::Words("weight is 2.6 oz/yd^2 or more"),
        summary: "Whether plain cloth is heavy enough for the rule's exemption from testing; it says nothing of how the cloth burns.",
        examples: &[
            Example { typed: "reaches_exempt_weight(2.6 oz/yd^2)", shown: "yes" },
            Example { typed: "reaches_exempt_weight(75 g/m^2)", shown: "no" },
        ],
        source: "16 CFR 1610 (2015 edition) [55], 1610.1(d)(1), which prints ounces only",
        code: |a, s| flag(a, s, rules::reaches_exempt_weight(a.quantity(0)?)),
    },
    Function {
        name: "burn_class_plain",
        topic: TOPIC,
        parameters: &[Parameter::new("burn_time", TIME)],
        result: ParameterKind::Count,
        formula: Formula::Words("1 from 3.5 s on, else 3"),
        summary: "The rule's class of plain-surfaced cloth for a burn time of a test report: 1 or 3.",
        examples: &[
            Example { typed: "burn_class_plain(3.5 s)", shown: "1" },
            Example { typed: "burn_class_plain(3.49 s)", shown: "3" },
        ],
        source: "16 CFR 1610 (2015 edition) [55], 1610.4, table 1",
        code: |a, s| count(a, s, rules::burn_class_plain(a.time(0)?)),
    },
    Function {
        name: "burn_class_raised",
        topic: TOPIC,
        parameters: &[Parameter::new("burn_time", TIME), Parameter::new("surface", ParameterKind::OneOf(&SURFACES))],
        result: ParameterKind::Count,
        formula: Formula::Words("1 over 7 s or where the base does not burn, 2 from 4 s to 7 s, 3 below"),
        summary: "The rule's class of raised-surfaced cloth for a burn time of a test report: 1, 2 or 3.",
        examples: &[
            Example { typed: "burn_class_raised(7 s, \"base burns\")", shown: "2" },
            Example { typed: "burn_class_raised(3 s, \"flash only\")", shown: "1" },
        ],
        source: "16 CFR 1610 (2015 edition) [55], 1610.4, table 1",
        code: |a, s| {
            let surface = RaisedBurn::named(a.text(1)?).map_err(|error| formula_error(a, s, &error))?;
            count(a, s, rules::burn_class_raised(a.time(0)?, surface))
        },
    },
    Function {
        name: "burn_series",
        topic: TOPIC,
        parameters: &[
            Parameter::new("tested", ParameterKind::Count),
            Parameter::new("burned", ParameterKind::Count),
            Parameter::new("mean_time", TIME),
        ],
        result: ParameterKind::OneOf(&Series::WORDS),
        formula: Formula::Words(
            "class 1 where none burns, one burns for 3.5 s or more, or the mean of several is 3.5 s or more; else five more",
        ),
        summary: "What 5 or 10 plain specimens of a test report come to, of which so many burned in this mean time.",
        examples: &[
            Example { typed: "burn_series(5, 2, 3.2 s)", shown: "test five more" },
            Example { typed: "burn_series(10, 4, 3.6 s)", shown: "class 1" },
        ],
        source: "16 CFR 1610 (later copy) [56], 1610.7",
        code: |a, s| {
            let series = rules::burn_series(a.count(0)?, a.count(1)?, a.time(2)?);
            series.map(|series| Value::Text(series.words().to_owned())).map_err(|error| formula_error(a, s, &error))
        },
    },
    Function {
        name: "fibre_is_named",
        topic: TOPIC,
        parameters: &[Parameter::new("part", ParameterKind::Share), Parameter::new("functional", ParameterKind::Flag)],
        result: ParameterKind::Flag,
        formula: Formula::Words("part is 5 % or more, or the fibre has a work of its own to do"),
        summary: "Whether a label names a fibre of this share by weight; functional is one that works, such as spandex.",
        examples: &[
            Example { typed: "fibre_is_named(4 %, true)", shown: "yes" },
            Example { typed: "fibre_is_named(4.9 %, false)", shown: "no" },
        ],
        source: "16 CFR 303 (2015 edition) [51], 303.3 and 303.6",
        code: |a, s| flag(a, s, rules::fibre_is_named(share_or_whole(a, 0, s)?, a.flag(1)?)),
    },
    Function {
        name: "within_label_tolerance",
        topic: TOPIC,
        parameters: &[Parameter::new("labelled", ParameterKind::Share), Parameter::new("found", ParameterKind::Share)],
        result: ParameterKind::Flag,
        formula: Formula::Words("found within 3 points of what is labelled; 100 % has no room"),
        summary: "Whether a share that a test found is within the rule's three points of the label; 100 % has none.",
        examples: &[
            Example { typed: "within_label_tolerance(40 %, 37 %)", shown: "yes" },
            Example { typed: "within_label_tolerance(40 %, 36.9 %)", shown: "no" },
        ],
        source: "16 CFR 303 (2015 edition) [51], 303.43",
        code: |a, s| flag(a, s, rules::within_label_tolerance(share_or_whole(a, 0, s)?, share_or_whole(a, 1, s)?)),
    },
    Function {
        name: "ornament_may_be_left_out",
        topic: TOPIC,
        parameters: &[Parameter::new("part", ParameterKind::Share)],
        result: ParameterKind::Flag,
        formula: Formula::Words("part is 5 % or less"),
        summary: "Whether ornament of this share by weight may stay out of the fibre content, where the label says so.",
        examples: &[
            Example { typed: "ornament_may_be_left_out(5 %)", shown: "yes" },
            Example { typed: "ornament_may_be_left_out(5.1 %)", shown: "no" },
        ],
        source: "16 CFR 303 (2015 edition) [51], 303.26",
        code: |a, s| flag(a, s, rules::ornament_may_be_left_out(share_or_whole(a, 0, s)?)),
    },
    Function {
        name: "trim_is_left_out",
        topic: TOPIC,
        parameters: &[Parameter::new("part", ParameterKind::Share)],
        result: ParameterKind::Flag,
        formula: Formula::Words("part is 15 % or less"),
        summary: "Whether decorative trim on this share of the surface counts as a trimming, outside the fibre content.",
        examples: &[
            Example { typed: "trim_is_left_out(15 %)", shown: "yes" },
            Example { typed: "trim_is_left_out(16 %)", shown: "no" },
        ],
        source: "16 CFR 303 (2015 edition) [51], 303.12",
        code: |a, s| flag(a, s, rules::trim_is_left_out(share_or_whole(a, 0, s)?)),
    },
    Function {
        name: "elastic_is_left_out",
        topic: TOPIC,
        parameters: &[Parameter::new("part", ParameterKind::Share)],
        result: ParameterKind::Flag,
        formula: Formula::Words("part is 20 % or less"),
        summary: "Whether elastic of this share in the ground cloth counts as a trimming, outside the fibre content.",
        examples: &[
            Example { typed: "elastic_is_left_out(20 %)", shown: "yes" },
            Example { typed: "elastic_is_left_out(21 %)", shown: "no" },
        ],
        source: "16 CFR 303 (2015 edition) [51], 303.12",
        code: |a, s| flag(a, s, rules::elastic_is_left_out(share_or_whole(a, 0, s)?)),
    },
    Function {
        name: "infant_garment_limit",
        topic: TOPIC,
        parameters: &[Parameter::new("made", ParameterKind::OneOf(&INFANT_GARMENTS))],
        result: LENGTH,
        formula: Formula::Words("the smaller of the two figures printed for one length"),
        summary: "Length up to which the rule for children's sleepwear leaves out an infant garment; the smaller of two printed limits.",
        examples: &[
            Example { typed: "infant_garment_limit(\"one piece\")", shown: "64.8 cm" },
            Example { typed: "infant_garment_limit(\"two piece\")", shown: "40 cm" },
        ],
        source: "16 CFR 1615 (2015 edition) [57], 1615.1(c), whose inches and centimetres disagree",
        code: |a, s| measure(a, s, rules::infant_garment_limit(a.text(0)?)),
    },
    Function {
        name: "sleepwear_trim_is_left_out",
        topic: TOPIC,
        parameters: &[Parameter::new("largest", LENGTH), Parameter::new("together", AREA)],
        result: ParameterKind::Flag,
        formula: Formula::Words("largest under 2 in, and 20 in^2 or less together"),
        summary: "Whether the rule for children's sleepwear leaves trim untested: each under 2 in, together no more than 20 in^2.",
        examples: &[
            Example { typed: "sleepwear_trim_is_left_out(1 7/8 in, 20 in^2)", shown: "yes" },
            Example { typed: "sleepwear_trim_is_left_out(6 cm, 100 cm^2)", shown: "no" },
        ],
        source: "16 CFR 1615 (2015 edition) [57], 1615.1",
        code: |a, s| flag(a, s, rules::sleepwear_trim_is_left_out(a.length(0)?, a.area(1)?)),
    },
    Function {
        name: "ruffle_bars_tight_fit",
        topic: TOPIC,
        parameters: &[Parameter::new("width", LENGTH)],
        result: ParameterKind::Flag,
        formula: Formula::Words("width over 6 mm"),
        summary: "Whether a ruffle is too wide for the rule's tight-fitting sleepwear: more than 6 mm, the smaller of two printed limits.",
        examples: &[
            Example { typed: "ruffle_bars_tight_fit(1/4 in)", shown: "yes" },
            Example { typed: "ruffle_bars_tight_fit(6 mm)", shown: "no" },
        ],
        source: "16 CFR 1616 (2015 edition) [58], 1616.2(m)(2)",
        code: |a, s| flag(a, s, rules::ruffle_bars_tight_fit(a.length(0)?)),
    },
];
