//! Tape, ribbon, lace and binding along a hem.

use super::answer::{COMMON, measure};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::trims;

const TOPIC: &str = "trims";

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[Function {
    name: "trim_length",
    topic: TOPIC,
    parameters: &[
        Parameter::new("flat", LENGTH),
        Parameter::new("joins", ParameterKind::Count),
        Parameter::new("lap", LENGTH),
        Parameter::new("end", LENGTH),
    ],
    result: LENGTH,
    formula: Formula::Sum("flat + joins * lap + 2 * end"),
    summary: "Trim along a hem by its flat length, never the gathered one, with laps at joins and turned ends.",
    examples: &[
        Example { typed: "trim_length(145 in, 1, 1/2 in, 1/4 in)", shown: "146 in" },
        Example { typed: "trim_length(360 cm, 2, 2 cm, 1 cm)", shown: "366 cm" },
    ],
    source: COMMON,
    code: |a, s| {
        let trim = trims::trim_length(a.length(0)?, a.count(1)?, a.length(2)?, a.length(3)?);
        measure(a, s, trim)
    },
}];
