//! Every built-in function, a file for each topic.

mod answer;
mod band;
mod bias;
mod bunting;
mod circle;
mod curtains;
mod drapery;
mod elastic;
mod flounce;
mod gathering;
mod gores;
mod headings;
mod hems;
mod joins;
mod knots;
mod labour;
mod lists;
mod numbers;
mod panels;
mod pleats;
mod price;
mod rounding;
mod ruffles;
mod rules;
mod sizes;
mod sleeves;
mod strips;
mod thread;
mod tiers;
mod ties;
mod trims;
mod tucks;
mod weight;

use super::function::Function;
pub(super) use answer::COMMON;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The topics, in the order help lists them.
const TOPICS: &[&[Function]] = &[
    gathering::FUNCTIONS,
    strips::FUNCTIONS,
    joins::FUNCTIONS,
    panels::FUNCTIONS,
    band::FUNCTIONS,
    elastic::FUNCTIONS,
    hems::FUNCTIONS,
    curtains::FUNCTIONS,
    headings::FUNCTIONS,
    drapery::FUNCTIONS,
    circle::FUNCTIONS,
    pleats::FUNCTIONS,
    tucks::FUNCTIONS,
    tiers::FUNCTIONS,
    bias::FUNCTIONS,
    flounce::FUNCTIONS,
    ruffles::FUNCTIONS,
    trims::FUNCTIONS,
    ties::FUNCTIONS,
    bunting::FUNCTIONS,
    gores::FUNCTIONS,
    sleeves::FUNCTIONS,
    knots::FUNCTIONS,
    thread::FUNCTIONS,
    weight::FUNCTIONS,
    sizes::FUNCTIONS,
    labour::FUNCTIONS,
    price::FUNCTIONS,
    rules::FUNCTIONS,
    rounding::FUNCTIONS,
    numbers::FUNCTIONS,
    lists::FUNCTIONS,
];

/// Every built-in function, by topic.
pub fn all() -> impl Iterator<Item = &'static Function> {
    TOPICS.iter().copied().flatten()
}

/// The functions of each topic, in the order help lists them; each entry holds the name of its topic.
pub fn topics() -> impl Iterator<Item = &'static [Function]> {
    TOPICS.iter().copied()
}

/// The function called `name`.
pub fn named(name: &str) -> Option<&'static Function> {
    static BY_NAME: LazyLock<BTreeMap<&str, &'static Function>> =
        LazyLock::new(|| all().map(|function| (function.name, function)).collect());
    BY_NAME.get(name).copied()
}
