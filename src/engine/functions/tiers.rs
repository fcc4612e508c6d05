//! Tiered skirts: each tier gathered onto the one above.

use super::answer::{COMMON, measure};
use crate::engine::function::{Example, Function, Kind, LENGTH, Parameter};
use crate::textile::tiers;

const TOPIC: &str = "tiers";

const FIRST: Parameter = Parameter::new("first", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "tier_flat",
        topic: TOPIC,
        parameters: &[FIRST, Parameter::new("fullness", Kind::Number), Parameter::new("tier", Kind::Count)],
        gives: LENGTH,
        summary: "Flat width of a tier, the first being 1, with the same fullness from each to the next.",
        examples: &[
            Example { typed: "tier_flat(50 in, 2, 3)", shown: "200 in" },
            Example { typed: "tier_flat(120 cm, 1.5, 2)", shown: "180 cm" },
        ],
        source: "National Instructional Media Institute, CITS Dress Making – Trade Theory (2024), p. 250",
        code: |a, s| measure(a, s, tiers::tier_flat(a.length(0)?, a.number(1)?, a.count(2)?)),
    },
    Function {
        name: "tier_depth",
        topic: TOPIC,
        parameters: &[
            Parameter::new("length", LENGTH),
            Parameter::new("tiers", Kind::Count),
            FIRST,
            Parameter::new("second", LENGTH),
        ],
        gives: LENGTH,
        summary: "Depth to cut of one of several equal tiers, with an allowance at each edge.",
        examples: &[
            Example { typed: "tier_depth(30 in, 3, 1/2 in, 1/2 in)", shown: "11 in" },
            Example { typed: "tier_depth(60 cm, 3, 1 cm, 1.5 cm)", shown: "22.5 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, tiers::tier_depth(a.length(0)?, a.count(1)?, a.length(2)?, a.length(3)?)),
    },
];
