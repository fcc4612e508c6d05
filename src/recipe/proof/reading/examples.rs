//! Where the examples of a recipe are written.

use crate::engine::ReadScript;
use crate::engine::tree::{Node, What};

/// The byte of an example by its number from nought: of one of its figures, or of its last part, where a source is
/// missing; that of its first part for anything else.
pub(in crate::recipe::proof) fn place_of_example(script: &ReadScript, index: usize, part: &Part<'_>) -> Option<usize> {
    let examples = script.tree.functions.iter().find(|function| function.name == "examples")?;
    let What::List(items) = &examples.body.last()?.what else { return None };
    let What::Group(members) = &items.get(index)?.what else { return None };
    let named = |name: &str| members.iter().find(|(known, _)| known == name).map(|(_, value)| value);
    let found = match part {
        Part::Whole => members.first().map(|(_, value)| value),
        Part::Within => named("within"),
        Part::Source => named("source").or_else(|| last(members)),
        Part::Figure(figure) => named("expect").map(|expected| match &expected.what {
            What::Group(figures) => {
                figures.iter().find(|(known, _)| known == figure).map_or(expected, |(_, value)| value)
            }
            _ => expected,
        }),
    };
    found.map(Node::start)
}

/// The part that is written last, down to its own last part.
fn last(members: &[(String, Node)]) -> Option<&Node> {
    let node = members.iter().map(|(_, node)| node).max_by_key(|node| node.at)?;
    match &node.what {
        What::Group(inner) => last(inner).or(Some(node)),
        _ => Some(node),
    }
}

/// What of an example is meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::recipe::proof) enum Part<'n> {
    /// All of it.
    Whole,
    /// Its source.
    Source,
    /// An expected figure.
    Figure(&'n str),
    /// How far its figures may be off.
    Within,
}
