//! Skirts and flounces cut from a circle or part of one.

use super::answer::{GEOMETRY, measure, number_or};
use crate::engine::function::{AREA, Example, Function, Kind, LENGTH, Parameter};
use crate::textile::circle;

const TOPIC: &str = "circles";

const TURN: Parameter = Parameter::usually("turn", Kind::Number, "1");

/// A full circle.
const FULL: f64 = 1.0;

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "circle_radius",
        topic: TOPIC,
        parameters: &[Parameter::new("edge", LENGTH), TURN],
        gives: LENGTH,
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
        gives: LENGTH,
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
        gives: AREA,
        summary: "Cloth in a ring, or in part of one, between two radii.",
        examples: &[
            Example { typed: "circle_area(3 cm, 10 cm, 1/2)", shown: "≈ 142.9425 cm^2" },
            Example { typed: "circle_area(4 in, 8 in, 1/2)", shown: "≈ 75.3982 in^2" },
        ],
        source: GEOMETRY,
        code: |a, s| measure(a, s, circle::circle_area(a.length(0)?, a.length(1)?, number_or(a, 2, FULL)?)),
    },
];
