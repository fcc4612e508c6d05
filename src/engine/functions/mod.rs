//! Every built-in function, a file for each topic.

mod numbers;

use super::function::Function;
use super::value::Value;
use crate::textile::elastic::{self, ElasticCaution};

/// The topics, in the order help lists them.
const TOPICS: [&[Function]; 1] = [numbers::FUNCTIONS];

/// Every built-in function, by topic.
pub fn all() -> impl Iterator<Item = &'static Function> {
    TOPICS.into_iter().flatten()
}

/// The function of a name.
pub fn named(name: &str) -> Option<&'static Function> {
    all().find(|function| function.name == name)
}

/// The key of the caution that goes with a call, where one does.
pub(super) fn caution_of(function: &Function, values: &[Value]) -> Option<&'static str> {
    let reduction = match function.name {
        "elastic_worn" | "elastic_length" => values.get(1)?.quantity()?.plain().ok()?,
        _ => return None,
    };
    (elastic::elastic_caution(reduction) != ElasticCaution::None).then_some("elastic-tight")
}
