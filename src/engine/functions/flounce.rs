//! Circular flounces: rings cut open and joined.

use super::answer::{GEOMETRY, count, measure, ratio};
use crate::engine::function::{Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::flounce;

const TOPIC: &str = "flounces";

const RADIUS: Parameter = Parameter::new("radius", LENGTH);
const ALLOWANCE: Parameter = Parameter::new("allowance", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "flounce_rings",
        topic: TOPIC,
        parameters: &[Parameter::new("edge", LENGTH), RADIUS, ALLOWANCE],
        result: ParameterKind::Count,
        formula: Formula::Sum("up(edge / (2 * pi() * radius - 2 * allowance))"),
        summary: "Rings to cut whose inner edges, joined, make up an edge.",
        examples: &[
            Example { typed: "flounce_rings(90 cm, 7 cm, 1 cm)", shown: "3" },
            Example { typed: "flounce_rings(35 in, 3 in, 1/2 in)", shown: "2" },
        ],
        source: GEOMETRY,
        code: |a, s| count(a, s, flounce::flounce_rings(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "flounce_sweep",
        topic: TOPIC,
        parameters: &[RADIUS, Parameter::new("depth", LENGTH)],
        result: ParameterKind::Number,
        formula: Formula::Sum("(radius + depth) / radius"),
        summary: "How many times longer the hem of a flounce is than its seam.",
        examples: &[
            Example { typed: "flounce_sweep(7 cm, 8 cm)", shown: "≈ 2.1429" },
            Example { typed: "flounce_sweep(4 in, 6 in)", shown: "2.5" },
        ],
        source: GEOMETRY,
        code: |a, s| ratio(a, s, flounce::flounce_sweep(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "flounce_cut_radius",
        topic: TOPIC,
        parameters: &[RADIUS, ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("radius - allowance"),
        summary: "Radius to cut the inner edge of a flounce at, its seam allowance lying inside the seam line.",
        examples: &[
            Example { typed: "flounce_cut_radius(7 cm, 1 cm)", shown: "6 cm" },
            Example { typed: "flounce_cut_radius(3 in, 1/2 in)", shown: "2 1/2 in" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, flounce::flounce_cut_radius(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "flounce_seam",
        topic: TOPIC,
        parameters: &[RADIUS, ALLOWANCE],
        result: LENGTH,
        formula: Formula::Sum("2 * pi() * radius - 2 * allowance"),
        summary: "Length of seam that one ring gives once it is cut open and joined, an allowance lost at each end.",
        examples: &[
            Example { typed: "flounce_seam(7 cm, 1 cm)", shown: "≈ 42 cm" },
            Example { typed: "flounce_seam(3 in, 1/2 in)", shown: "≈ 17 7/8 in" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, flounce::flounce_seam(a.length(0)?, a.length(1)?)),
    },
];
