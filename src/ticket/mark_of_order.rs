//! What an order is called: its mark in the book, whom it is for and the day it is due, as the order says them.
//!
//! Nothing is worked out from them; sheets and pictures show them. Never here: where they are asked.

use crate::workshop::{StockPiece, names};
use serde::{Deserialize, Serialize};

/// What an order is called.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OrderMark {
    /// Its number or mark in the book.
    pub order: Option<String>,
    /// Whom it is for, and which window or wearer.
    pub customer: Option<String>,
    /// The day it is due, in words.
    pub due: Option<String>,
}

impl OrderMark {
    /// Returns the head of a sheet: `order 41  Alder, landing window   due Fri 11 Dec`; `name` stands for an order without
    /// a mark.
    pub(crate) fn head(&self, name: &str) -> String {
        let order = self.called(name);
        let customer = self.customer.as_ref().map(|customer| format!("  {customer}")).unwrap_or_default();
        let due = self.due.as_ref().map(|due| format!("   due {due}")).unwrap_or_default();
        format!("{order}{customer}{due}")
    }

    /// Returns `order 41`; `name` stands for an order without a mark.
    pub(super) fn called(&self, name: &str) -> String {
        self.order.as_ref().map_or_else(|| name.to_owned(), |order| format!("order {}", bare(order)))
    }

    /// Returns whether the order may use a piece of stock: it is held for no order, or for this one.
    pub(crate) fn may_take(&self, piece: &StockPiece) -> bool {
        let is_this = |held_for: &String| {
            self.order.as_ref().is_some_and(|order| names::key(bare(order)) == names::key(bare(held_for)))
        };
        piece.held_for.as_ref().is_none_or(is_this)
    }

    /// Returns whether nothing is said.
    pub(crate) fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// The mark of an order without the word before it: `33` of `order 33`.
fn bare(mark: &str) -> &str {
    let mark = mark.trim();
    let word = mark.get(..5).filter(|word| word.eq_ignore_ascii_case("order"));
    let rest = word.and_then(|_| mark.get(5..)).filter(|rest| rest.starts_with(char::is_whitespace)).map(str::trim);
    rest.filter(|rest| !rest.is_empty()).unwrap_or(mark)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_word_before_a_mark_is_said_once() {
        let head = |order: &str| OrderMark { order: Some(order.to_owned()), ..OrderMark::default() }.head("skirt");
        for order in ["33", "order 33", " Order  33 "] {
            assert_eq!(head(order), "order 33", "{order}");
        }
        assert_eq!((head("orderly"), head("order")), ("order orderly".to_owned(), "order order".to_owned()));
        assert_eq!(head("Ordé 3"), "order Ordé 3");
    }
}
