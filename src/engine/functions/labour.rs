//! What working time costs.

use super::answer::{COMMON, measure};
use crate::engine::function::{Example, Formula, Function, MONEY, Parameter, ParameterKind, TIME};
use crate::quantity::Dimension;
use crate::textile::labour;

const TOPIC: &str = "labour";

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "labour_cost",
        topic: TOPIC,
        parameters: &[
            Parameter::new("time", TIME),
            Parameter::new("wage", ParameterKind::Of(Dimension::MONEY_BY_TIME)),
        ],
        result: MONEY,
        formula: Formula::Sum("time * wage"),
        summary: "What working time costs at a wage.",
        examples: &[
            Example { typed: "labour_cost(48 min, $20/h)", shown: "$16.00" },
            Example { typed: "labour_cost(1 h 30 min, $18/h)", shown: "$27.00" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, labour::labour_cost(a.time(0)?, a.quantity(1)?)),
    },
    Function {
        name: "batch_time",
        topic: TOPIC,
        parameters: &[
            Parameter::new("set_up", TIME),
            Parameter::new("each", TIME),
            Parameter::new("count", ParameterKind::Count),
        ],
        result: TIME,
        formula: Formula::Sum("set_up + each * count"),
        summary: "Time for a batch: setting up once, and so much for each.",
        examples: &[Example { typed: "batch_time(10 min, 4 min, 5)", shown: "30 min" }],
        source: COMMON,
        code: |a, s| measure(a, s, labour::batch_time(a.time(0)?, a.time(1)?, a.count(2)?)),
    },
];
