//! The weight of cloth, and the length of cloth by its weight.

use super::answer::{ARITHMETIC, measure};
use crate::engine::function::{AREA, Example, Formula, Function, LENGTH, MASS, Parameter, ParameterKind};
use crate::quantity::{Dimension, Liked, Quantity, System, Unit};
use crate::textile::weight;

const TOPIC: &str = "weights";

const SAMPLE: &str = "mass by the area of a measured sample, as in ISO 3801 [68] (from memory)";

const WEIGHT: Parameter = Parameter::new("weight", ParameterKind::Of(Dimension::MASS_BY_AREA));

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "cloth_weight",
        topic: TOPIC,
        parameters: &[Parameter::new("along", LENGTH), Parameter::new("across", LENGTH), WEIGHT],
        result: MASS,
        formula: Formula::Sum("along * across * weight"),
        summary: "Weight of a piece of cloth, from its two sides and the weight of the cloth.",
        examples: &[
            Example { typed: "cloth_weight(2 yd, 54 in, 4 oz/yd^2)", shown: "12 oz" },
            Example { typed: "cloth_weight(2 m, 150 cm, 140 g/m^2)", shown: "420 g" },
        ],
        source: ARITHMETIC,
        code: |a, s| measure(a, s, weight::cloth_weight(a.length(0)?, a.length(1)?, a.quantity(2)?)),
    },
    Function {
        name: "area_weight",
        topic: TOPIC,
        parameters: &[Parameter::new("area", AREA), WEIGHT],
        result: MASS,
        formula: Formula::Sum("area * weight"),
        summary: "Weight of so much area of cloth, such as a ring.",
        examples: &[
            Example { typed: "area_weight(3 yd^2, 4 oz/yd^2)", shown: "12 oz" },
            Example { typed: "area_weight(0.5 m^2, 140 g/m^2)", shown: "70 g" },
        ],
        source: ARITHMETIC,
        code: |a, s| measure(a, s, weight::area_weight(a.area(0)?, a.quantity(1)?)),
    },
    Function {
        name: "weight_of_sample",
        topic: TOPIC,
        parameters: &[Parameter::new("mass", MASS), Parameter::new("along", LENGTH), Parameter::new("across", LENGTH)],
        result: ParameterKind::Of(Dimension::MASS_BY_AREA),
        formula: Formula::Sum("mass / (along * across)"),
        summary: "Weight of a cloth, from a sample that was measured and weighed.",
        examples: &[
            Example { typed: "weight_of_sample(1.5 g, 10 cm, 10 cm)", shown: "150 g/m^2" },
            Example { typed: "weight_of_sample(1 oz, 18 in, 18 in)", shown: "4 oz/yd^2" },
        ],
        source: SAMPLE,
        code: |a, s| {
            let found = weight::weight_of_sample(a.mass(0)?, a.length(1)?, a.length(2)?);
            measure(a, s, found.map(as_the_trade_writes_it))
        },
    },
    Function {
        name: "length_by_weight",
        topic: TOPIC,
        parameters: &[Parameter::new("mass", MASS), Parameter::new("width", LENGTH), WEIGHT],
        result: LENGTH,
        formula: Formula::Sum("mass / (width * weight)"),
        summary: "Length of a roll or remnant that was put on the scales; take its core off first.",
        examples: &[
            Example { typed: "length_by_weight(12 oz, 54 in, 4 oz/yd^2)", shown: "72 in" },
            Example { typed: "length_by_weight(420 g, 150 cm, 140 g/m^2)", shown: "200 cm" },
        ],
        source: ARITHMETIC,
        code: |a, s| measure(a, s, weight::length_by_weight(a.mass(0)?, a.length(1)?, a.quantity(2)?)),
    },
    Function {
        name: "postage_weight",
        topic: TOPIC,
        parameters: &[Parameter::new("goods", MASS), Parameter::new("packing", MASS), Parameter::new("step", MASS)],
        result: MASS,
        formula: Formula::Sum("up((goods + packing) / step) * step"),
        summary: "Weight of a parcel up to the step that postage is charged by.",
        examples: &[
            Example { typed: "postage_weight(310 g, 60 g, 100 g)", shown: "400 g" },
            Example { typed: "postage_weight(10 oz, 2 oz, 4 oz)", shown: "12 oz" },
        ],
        source: ARITHMETIC,
        code: |a, s| measure(a, s, weight::postage_weight(a.mass(0)?, a.mass(1)?, a.mass(2)?)),
    },
];

/// Shows a weight in ounces per square yard if its mass is in inch-system units, else in grams per square metre.
fn as_the_trade_writes_it(weight: Quantity) -> Quantity {
    let inch = weight.liked().mass.is_some_and(|unit| unit.system() == System::Inch);
    let (length, mass) = if inch { (Unit::Yard, Unit::Ounce) } else { (Unit::Metre, Unit::Gram) };
    weight.liking(Liked { length: Some(length), mass: Some(mass), ..Liked::default() })
}
