//! Sleeves made fuller by slashing a fitted pattern and spreading the slashes.

use super::answer::{COMMON, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::sleeves;

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[Function {
    name: "slash_spread",
    topic: "sleeves",
    parameters: &[
        Parameter::new("edge", LENGTH),
        Parameter::new("fullness", ParameterKind::Number),
        Parameter::new("slashes", ParameterKind::Count),
    ],
    result: LENGTH,
    formula: Formula::Sum("(fullness - 1) * edge / slashes"),
    summary: "How far each slash of a fitted pattern is opened so that its edge gets a fullness.",
    examples: &[
        Example { typed: "slash_spread(30 cm, 1.6, 5)", shown: "3.6 cm" },
        Example { typed: "slash_spread(12 in, 1.5, 4)", shown: "1 1/2 in" },
    ],
    source: COMMON,
    code: |a, s| measure(a, s, sleeves::slash_spread(a.length(0)?, a.number(1)?, a.count(2)?)),
}];
