//! Skirts and flounces cut from a circle or part of one.

use super::answer::{COMMON, GEOMETRY, measure, number_or};
use crate::engine::function::{AREA, Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::textile::circle;

const TOPIC: &str = "circles";

const TURN: Parameter = Parameter::with_default("turn", ParameterKind::Number, "1");

/// A full circle.
const FULL: f64 = 1.0;

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "circle_radius",
        topic: TOPIC,
        parameters: &[Parameter::new("edge", LENGTH), TURN],
        result: LENGTH,
        formula: Formula::Sum("edge / (2 * pi() * turn)"),
        summary: "Radius to cut so that the edge of a full circle, or of part of one, has a length.",
        examples: &[
            Example { typed: "circle_radius(26 in)", shown: "≈ 4 1/8 in" },
            Example { typed: "circle_radius(26 in, 1/2)", shown: "≈ 8 1/4 in" },
            Example { typed: "circle_radius(110 cm, 1)", shown: "≈ 17.5 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, circle::circle_radius(a.length(0)?, number_or(a, 1, FULL)?)),
    },
    Function {
        name: "circle_sweep",
        topic: TOPIC,
        parameters: &[Parameter::new("radius", LENGTH), TURN],
        result: LENGTH,
        formula: Formula::Sum("2 * pi() * turn * radius"),
        summary: "Length of the edge cut at a radius, such as the hem round a skirt.",
        examples: &[
            Example { typed: "circle_sweep(38.4 cm)", shown: "≈ 241.3 cm" },
            Example { typed: "circle_sweep(20 in, 1/2)", shown: "≈ 62 7/8 in" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, circle::circle_sweep(a.length(0)?, number_or(a, 1, FULL)?)),
    },
    Function {
        name: "circle_area",
        topic: TOPIC,
        parameters: &[Parameter::new("inner", LENGTH), Parameter::new("outer", LENGTH), TURN],
        result: AREA,
        formula: Formula::Sum("pi() * turn * (outer^2 - inner^2)"),
        summary: "Cloth in a ring, or in part of one, between two radii.",
        examples: &[
            Example { typed: "circle_area(3 cm, 10 cm, 1/2)", shown: "≈ 142.9425 cm^2" },
            Example { typed: "circle_area(4 in, 8 in, 1/2)", shown: "≈ 75.3982 in^2" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, circle::circle_area(a.length(0)?, a.length(1)?, number_or(a, 2, FULL)?)),
    },
    Function {
        name: "circle_cut_radius",
        topic: TOPIC,
        parameters: &[
            Parameter::new("edge", LENGTH),
            Parameter::new("turn", ParameterKind::Number),
            Parameter::new("allowance", LENGTH),
        ],
        result: LENGTH,
        formula: Formula::Sum("edge / (2 * pi() * turn) - allowance"),
        summary: "Radius to cut the waist of a circle skirt at, with a seam allowance inside the seam line.",
        examples: &[
            Example { typed: "circle_cut_radius(114 cm, 1, 1 cm)", shown: "≈ 17.1 cm" },
            Example { typed: "circle_cut_radius(27 in, 1/2, 1/2 in)", shown: "≈ 8 1/8 in" },
        ],
        source: "worked example [21]",
        code: |a, s| measure(a, s, circle::circle_cut_radius(a.length(0)?, a.number(1)?, a.length(2)?)),
    },
    Function {
        name: "circle_outer_radius",
        topic: TOPIC,
        parameters: &[
            Parameter::new("radius", LENGTH),
            Parameter::new("length", LENGTH),
            Parameter::new("hem", LENGTH),
        ],
        result: LENGTH,
        formula: Formula::Sum("radius + length + hem"),
        summary: "Radius to cut the hem of a circle skirt at, from the radius of its waist seam.",
        examples: &[
            Example { typed: "circle_outer_radius(4 in, 20 in, 1/2 in)", shown: "24 1/2 in" },
            Example { typed: "circle_outer_radius(10 cm, 40 cm, 1.5 cm)", shown: "51.5 cm" },
        ],
        source: COMMON,
        code: |a, s| measure(a, s, circle::circle_outer_radius(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "sector_across",
        topic: TOPIC,
        parameters: &[Parameter::new("outer", LENGTH), TURN],
        result: LENGTH,
        formula: Formula::Words(
            "the outer radius for a half circle down to a quarter, twice that for three quarters and more",
        ),
        summary: "Width of cloth that a circle or part of one takes, one straight edge lying along the selvedge.",
        examples: &[
            Example { typed: "sector_across(24 in, 1/2)", shown: "24 in" },
            Example { typed: "sector_across(60 cm)", shown: "120 cm" },
            Example { typed: "sector_across(60 cm, 1/8)", shown: "≈ 42.4 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, circle::sector_across(a.length(0)?, number_or(a, 1, FULL)?)),
    },
    Function {
        name: "sector_along",
        topic: TOPIC,
        parameters: &[Parameter::new("inner", LENGTH), Parameter::new("outer", LENGTH), TURN],
        result: LENGTH,
        formula: Formula::Words(
            "the outer radius for a quarter, twice that for a half and more, less what a narrow waist leaves",
        ),
        summary: "Length of cloth that a circle or part of one takes, one straight edge lying along the selvedge.",
        examples: &[
            Example { typed: "sector_along(4 in, 24 in, 1/2)", shown: "48 in" },
            Example { typed: "sector_along(10 cm, 60 cm, 1/6)", shown: "55 cm" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, circle::sector_along(a.length(0)?, a.length(1)?, number_or(a, 2, FULL)?)),
    },
];
