//! From cost to price: mark-up is on the cost, margin and fee are on the price.

use super::answer::{COMMON, measure, per_cent, share, share_on_top};
use crate::engine::function::{Example, Formula, Function, MONEY, Parameter, ParameterKind};
use crate::textile::price;

const TOPIC: &str = "price";

const COST: Parameter = Parameter::new("cost", MONEY);
const MARK_UP: Parameter = Parameter::new("mark_up", ParameterKind::Share);
const MARGIN: Parameter = Parameter::new("margin", ParameterKind::Share);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "marked_up",
        topic: TOPIC,
        parameters: &[COST, MARK_UP],
        result: MONEY,
        formula: Formula::Sum("cost * (1 + mark_up)"),
        summary: "Price that adds a share of the cost to the cost.",
        examples: &[Example { typed: "marked_up($40, 50 %)", shown: "$60.00" }],
        source: COMMON,
        code: |a, s| measure(a, s, price::marked_up(a.money(0)?, share_on_top(a, 1, s)?)),
    },
    Function {
        name: "price_at_margin",
        topic: TOPIC,
        parameters: &[COST, MARGIN],
        result: MONEY,
        formula: Formula::Sum("cost / (1 - margin)"),
        summary: "Price of which a share is kept once the cost is paid.",
        examples: &[Example { typed: "price_at_margin($40, 50 %)", shown: "$80.00" }],
        source: COMMON,
        code: |a, s| measure(a, s, price::price_at_margin(a.money(0)?, share(a, 1, s)?)),
    },
    Function {
        name: "mark_up_of_margin",
        topic: TOPIC,
        parameters: &[MARGIN],
        result: ParameterKind::Share,
        formula: Formula::Sum("margin / (1 - margin)"),
        summary: "The mark-up on the cost that comes to a margin on the price.",
        examples: &[Example { typed: "mark_up_of_margin(50 %)", shown: "100 %" }],
        source: COMMON,
        code: |a, s| per_cent(a, s, price::mark_up_of_margin(share(a, 0, s)?)),
    },
    Function {
        name: "margin_of_mark_up",
        topic: TOPIC,
        parameters: &[MARK_UP],
        result: ParameterKind::Share,
        formula: Formula::Sum("mark_up / (1 + mark_up)"),
        summary: "The margin on the price that a mark-up on the cost comes to.",
        examples: &[Example { typed: "margin_of_mark_up(100 %)", shown: "50 %" }],
        source: COMMON,
        code: |a, s| per_cent(a, s, price::margin_of_mark_up(share_on_top(a, 0, s)?)),
    },
    Function {
        name: "grossed_up",
        topic: TOPIC,
        parameters: &[Parameter::new("net", MONEY), Parameter::new("fee", ParameterKind::Share)],
        result: MONEY,
        formula: Formula::Sum("net / (1 - fee)"),
        summary: "Price that leaves a net amount once a fee on the price is paid.",
        examples: &[Example { typed: "grossed_up($40, 6.5 %)", shown: "≈ $42.78" }],
        source: COMMON,
        code: |a, s| measure(a, s, price::grossed_up(a.money(0)?, share(a, 1, s)?)),
    },
];
