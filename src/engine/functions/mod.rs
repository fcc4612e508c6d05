//! Every built-in function, a file for each topic.

mod answer;
mod band;
mod bias;
mod bunting;
mod circle;
mod curtains;
mod elastic;
mod flounce;
mod gathering;
mod gores;
mod hems;
mod joins;
mod labour;
mod lists;
mod numbers;
mod panels;
mod pleats;
mod price;
mod rounding;
mod rules;
mod strips;
mod thread;
mod tiers;
mod tucks;

use super::function::Function;
use super::value::Value;
use crate::textile::elastic::{ElasticCaution, elastic_caution};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The topics, in the order help lists them.
const TOPICS: [&[Function]; 23] = [
    gathering::FUNCTIONS,
    strips::FUNCTIONS,
    joins::FUNCTIONS,
    panels::FUNCTIONS,
    band::FUNCTIONS,
    elastic::FUNCTIONS,
    hems::FUNCTIONS,
    curtains::FUNCTIONS,
    circle::FUNCTIONS,
    pleats::FUNCTIONS,
    tucks::FUNCTIONS,
    tiers::FUNCTIONS,
    bias::FUNCTIONS,
    flounce::FUNCTIONS,
    bunting::FUNCTIONS,
    gores::FUNCTIONS,
    thread::FUNCTIONS,
    labour::FUNCTIONS,
    price::FUNCTIONS,
    rules::FUNCTIONS,
    rounding::FUNCTIONS,
    numbers::FUNCTIONS,
    lists::FUNCTIONS,
];

/// Every built-in function, by topic.
pub fn all() -> impl Iterator<Item = &'static Function> {
    TOPICS.into_iter().flatten()
}

/// The functions of each topic, in the order help lists them; the name of a topic is in its entries.
pub fn topics() -> impl Iterator<Item = &'static [Function]> {
    TOPICS.into_iter()
}

/// The function of a name.
pub fn named(name: &str) -> Option<&'static Function> {
    static BY_NAME: LazyLock<BTreeMap<&str, &'static Function>> =
        LazyLock::new(|| all().map(|function| (function.name, function)).collect());
    BY_NAME.get(name).copied()
}

/// The key of the caution that goes with a call, where one does.
pub(super) fn caution_of(function: &Function, values: &[Value]) -> Option<&'static str> {
    let reduction = match function.name {
        "elastic_worn" | "elastic_length" => values.get(1)?.quantity()?.plain().ok()?,
        _ => return None,
    };
    (elastic_caution(reduction) != ElasticCaution::None).then_some("elastic-tight")
}
