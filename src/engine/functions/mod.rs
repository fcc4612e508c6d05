//! Every built-in function, a file for each topic.

mod numbers;

use super::function::Function;

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
