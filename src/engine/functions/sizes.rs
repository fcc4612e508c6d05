//! Body sizes and the limits printed in rules, each labelled as what it is, none as a size chart.

use super::answer::{body_error, share};
use crate::body::garment_limit::{self, Place, SIZES};
use crate::body::growth::{self, Chart};
use crate::body::{BodyError, Sex, designation, survey};
use crate::engine::function::{Arguments, Example, Formula, Function, LENGTH, Parameter, ParameterKind, TIME};
use crate::engine::script_error::ScriptError;
use crate::engine::value::Value;
use crate::quantity::{Liked, Quantity, Style, Unit};

const TOPIC: &str = "sizes";

const SURVEY: &str =
    "Anthropometric Reference Data, 2021 to 2023 [69]; waist at the iliac crest, a check and no size chart";
const CHARTS: &str = "CDC growth charts of 2000 [70], monthly; WHO standards [71] (lying under 2 years, standing after) \
                      and WHO reference of 2007 [72], yearly from 6; straight between their rows; no size chart";
const RULE: &str = "16 CFR 1615 (2015 edition) [57], 1615.1(o), and 16 CFR 1616 (2015 edition) [58], 1616.2(m): an \
                    upper limit for tight sleepwear, no size chart";

const SEX: Parameter = Parameter::new("sex", ParameterKind::OneOf(&Sex::WORDS));
const AGE: Parameter = Parameter::new("age", TIME);
const PERCENTILE: Parameter = Parameter::new("percentile", ParameterKind::Share);
const CHART: Parameter = Parameter::new("chart", ParameterKind::OneOf(&Chart::WORDS));
const PLACE: Parameter = Parameter::new("place", ParameterKind::OneOf(&Place::WORDS));

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "survey_waist",
        topic: TOPIC,
        parameters: &[SEX, AGE, PERCENTILE],
        result: LENGTH,
        formula: Formula::Words("as printed, two years of age together"),
        summary: "Waist that a share of surveyed children of 2 to 13 had at most; a check, no size: measure the child.",
        examples: &[
            Example { typed: "survey_waist(\"girl\", 5 years, 50 %)", shown: "52 cm" },
            Example { typed: "survey_waist(\"boy\", 30 months, 95 %)", shown: "56.6 cm" },
        ],
        source: SURVEY,
        code: |a, s| {
            let percentile = share(a, 2, s)?;
            answer(a, s, survey::survey_waist(sex(a, 0)?, a.time(1)?, percentile))
        },
    },
    Function {
        name: "survey_stature",
        topic: TOPIC,
        parameters: &[SEX, AGE, PERCENTILE],
        result: LENGTH,
        formula: Formula::Words("as printed, two years of age together"),
        summary: "Stature that 5 %, 50 % or 95 % of surveyed children of 2 to 13 had at most.",
        examples: &[
            Example { typed: "survey_stature(\"girl\", 5 years, 50 %)", shown: "108.5 cm" },
            Example { typed: "survey_stature(\"boy\", 9 years, 95 %)", shown: "146.4 cm" },
        ],
        source: SURVEY,
        code: |a, s| {
            let percentile = share(a, 2, s)?;
            answer(a, s, survey::survey_stature(sex(a, 0)?, a.time(1)?, percentile))
        },
    },
    Function {
        name: "growth_stature",
        topic: TOPIC,
        parameters: &[SEX, AGE, PERCENTILE, CHART],
        result: LENGTH,
        formula: Formula::Words(
            "M * (1 + L * S * z)^(1 / L) by the chart, z being the normal deviate of the percentile",
        ),
        summary: "Stature that a share of children has at most, by the CDC chart (2 to 12) or the WHO chart (0 to 12).",
        examples: &[
            Example { typed: "growth_stature(\"girl\", 60.5 months, 50 %, \"CDC\")", shown: "≈ 108 cm" },
            Example { typed: "growth_stature(\"boy\", 2 years, 50 %, \"WHO\")", shown: "≈ 87.1 cm" },
        ],
        source: CHARTS,
        code: |a, s| {
            let percentile = share(a, 2, s)?;
            answer(a, s, growth::growth_stature(sex(a, 0)?, a.time(1)?, percentile, chart(a, 3)?))
        },
    },
    Function {
        name: "growth_share",
        topic: TOPIC,
        parameters: &[SEX, AGE, Parameter::new("stature", LENGTH), CHART],
        result: ParameterKind::Share,
        formula: Formula::Words("the share below z = ((stature / M)^L - 1) / (L * S) by the chart"),
        summary: "Share of children that has a stature at most, by the CDC chart (2 to 12) or the WHO chart (0 to 12).",
        examples: &[
            Example { typed: "growth_share(\"boy\", 24 months, 87.1303 cm, \"WHO\")", shown: "50 %" },
            Example { typed: "growth_share(\"girl\", 5 years, 44 in, \"CDC\")", shown: "≈ 80.0469 %" },
        ],
        source: CHARTS,
        code: |a, s| {
            let found = growth::growth_share(sex(a, 0)?, a.time(1)?, a.length(2)?, chart(a, 3)?);
            let found = found.map_err(|error| body_error(a, s, &error))?;
            Ok(Quantity::number(found).liking(Liked::unit(Unit::Percent)).into())
        },
    },
    Function {
        name: "garment_limit",
        topic: TOPIC,
        parameters: &[PLACE, SEX, AGE],
        result: LENGTH,
        formula: Formula::Words("as printed, for the size whose number is the age"),
        summary: "Most that tight sleepwear may measure, size by age from 9 months to 10 years; a limit, no size chart.",
        examples: &[
            Example { typed: "garment_limit(\"waist\", \"girl\", 5 years)", shown: "21 1/2 in" },
            Example { typed: "garment_limit(\"seat\", \"boy\", 18 months)", shown: "21 in" },
        ],
        source: RULE,
        code: |a, s| answer(a, s, garment_limit::garment_limit(place(a, 0)?, sex(a, 1)?, a.time(2)?)),
    },
    Function {
        name: "garment_limit_of_size",
        topic: TOPIC,
        parameters: &[PLACE, SEX, Parameter::new("size", ParameterKind::OneOf(&SIZES))],
        result: LENGTH,
        formula: Formula::Words("as printed"),
        summary: "Most that tight sleepwear of a size may measure, by the size's name in the rule; no size chart.",
        examples: &[
            Example { typed: "garment_limit_of_size(\"seat\", \"girl\", \"6X\")", shown: "25 3/4 in" },
            Example { typed: "garment_limit_of_size(\"seat\", \"boy\", \"8\")", shown: "26 1/2 in" },
        ],
        source: RULE,
        code: |a, s| answer(a, s, garment_limit::garment_limit_of_size(place(a, 0)?, sex(a, 1)?, a.text(2)?)),
    },
    Function {
        name: "height_designation",
        topic: TOPIC,
        parameters: &[Parameter::new("height", LENGTH)],
        result: ParameterKind::Number,
        formula: Formula::Sum("nearest((height - 50 cm) / 6 cm) * 6 + 50"),
        summary: "Number that children's clothes go by where sizes are body heights: the nearest step of 6 cm.",
        examples: &[
            Example { typed: "height_designation(109 cm)", shown: "110" },
            Example { typed: "height_designation(40 in)", shown: "104" },
        ],
        source: "EN 13402-2 [66] and ISO 8559-2 [67], from memory; makers differ on where a step begins",
        code: |a, s| {
            let found = designation::height_designation(a.length(0)?);
            found.map(Value::Whole).map_err(|error| body_error(a, s, &error))
        },
    },
];

fn answer(
    a: &Arguments<'_>,
    style: &Style,
    found: Result<crate::quantity::Length, BodyError>,
) -> Result<Value, ScriptError> {
    found.map(|length| Quantity::from(length).into()).map_err(|error| body_error(a, style, &error))
}

/// Unwraps a word that was already checked against its parameter; an unknown one, though impossible, is an error.
fn known<T>(found: Option<T>, word: &str) -> Result<T, ScriptError> {
    found.ok_or_else(|| ScriptError::new(format!("I don't know the word {word}")))
}

fn sex(a: &Arguments<'_>, index: usize) -> Result<Sex, ScriptError> {
    known(Sex::named(a.text(index)?), a.text(index)?)
}

fn chart(a: &Arguments<'_>, index: usize) -> Result<Chart, ScriptError> {
    known(Chart::named(a.text(index)?), a.text(index)?)
}

fn place(a: &Arguments<'_>, index: usize) -> Result<Place, ScriptError> {
    known(Place::named(a.text(index)?), a.text(index)?)
}
