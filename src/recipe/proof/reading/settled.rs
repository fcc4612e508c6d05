//! Questions whose answer is settled by how they are written: two comparisons of one thing that cannot both hold, or one
//! of which always does, and a question that was asked before.

use crate::engine::tree::{Link, Node, What};
use crate::quantity::literal::{LiteralValue, read_quantity};
use crate::quantity::{Quantity, Reading, number};

/// The quantity that is written out in a node.
pub(super) fn written(node: &Node) -> Option<Quantity> {
    match &node.what {
        What::Measure(typed) => match read_quantity(typed, Reading::default()) {
            Ok(LiteralValue::Quantity(quantity)) => Some(quantity),
            _ => None,
        },
        What::Whole(whole) => Some(Quantity::number(number::from_whole(*whole))),
        What::Decimal(decimal) => Some(Quantity::number(*decimal)),
        _ => None,
    }
}

/// The sign of a comparison with its sides changed.
pub(super) fn turned(sign: &str) -> &str {
    match sign {
        "<" => ">",
        "<=" => ">=",
        ">" => "<",
        ">=" => "<=",
        same => same,
    }
}

/// A comparison of something with a quantity that is written out.
struct Bound<'n> {
    of: &'n Node,
    sign: &'n str,
    figure: Quantity,
}

fn bound(node: &Node) -> Option<Bound<'_>> {
    let What::Call { space: None, name, arguments } = &node.what else { return None };
    let ([left, right], "<" | "<=" | ">" | ">=") = (arguments.as_slice(), name.as_str()) else { return None };
    if let Some(figure) = written(right) {
        return Some(Bound { of: left, sign: name, figure });
    }
    Some(Bound { of: right, sign: turned(name), figure: written(left)? })
}

fn opposite(sign: &str) -> &str {
    match sign {
        "<" => ">=",
        "<=" => ">",
        ">" => "<=",
        _ => "<",
    }
}

/// Whether nothing lies within both.
fn exclude(one: (&str, Quantity), other: (&str, Quantity)) -> bool {
    let ((least, most), (sign_least, sign_most)) = match (one.0, other.0) {
        (">" | ">=", "<" | "<=") => ((one.1, other.1), (one.0, other.0)),
        ("<" | "<=", ">" | ">=") => ((other.1, one.1), (other.0, one.0)),
        _ => return false,
    };
    let both_hold = sign_least == ">=" && sign_most == "<=";
    least.compared(most).is_ok_and(|order| order.is_gt() || (order.is_eq() && !both_hold))
}

/// The side of an `&&` that can never hold beside one before it, or of an `||` that holds wherever one before it does
/// not.
pub(super) fn odd_side(sides: &[Node], all: bool) -> Option<&Node> {
    sides.iter().enumerate().find_map(|(index, side)| {
        let later = bound(side)?;
        let of_later = |sign| if all { sign } else { opposite(sign) };
        let odd = sides.iter().take(index).filter_map(bound).any(|earlier| {
            same(earlier.of, later.of)
                && exclude((of_later(earlier.sign), earlier.figure), (of_later(later.sign), later.figure))
        });
        odd.then_some(side)
    })
}

/// Whether two parts of a script are written alike.
pub(super) fn same(one: &Node, other: &Node) -> bool {
    let all = |ones: &[Node], others: &[Node]| {
        ones.len() == others.len() && ones.iter().zip(others).all(|(one, other)| same(one, other))
    };
    match (&one.what, &other.what) {
        (What::Nothing, What::Nothing) => true,
        (What::Flag(one), What::Flag(other)) => one == other,
        (What::Whole(one), What::Whole(other)) => one == other,
        (What::Decimal(one), What::Decimal(other)) => one.total_cmp(other).is_eq(),
        (What::Text(one), What::Text(other))
        | (What::Measure(one), What::Measure(other))
        | (What::Name(one), What::Name(other)) => one == other,
        (What::And(one), What::And(other))
        | (What::Or(one), What::Or(other))
        | (What::List(one), What::List(other)) => all(one, other),
        (
            What::Call { space, name, arguments },
            What::Call { space: other_space, name: other_name, arguments: others },
        ) => space == other_space && name == other_name && all(arguments, others),
        (What::Chain(one, link, _), What::Chain(other, other_link, _)) => {
            same(one, other)
                && match (link, other_link) {
                    (Link::Member(one), Link::Member(other)) => one == other,
                    (Link::Method(one, arguments), Link::Method(other, others)) => {
                        one == other && all(arguments, others)
                    }
                    (Link::Item(one), Link::Item(other)) => same(one, other),
                    _ => false,
                }
        }
        _ => false,
    }
}

/// The later questions of a chain of `else if` that were asked before in it.
pub(super) fn asked_before<'n>(when: &'n Node, otherwise: &'n [Node]) -> Vec<&'n Node> {
    let mut asked = vec![when];
    let mut found = Vec::new();
    let mut rest = otherwise;
    while let [Node { what: What::If { when, otherwise, .. }, .. }] = rest {
        if asked.iter().any(|earlier| same(earlier, when)) {
            found.push(&**when);
        }
        asked.push(when);
        rest = otherwise;
    }
    found
}
