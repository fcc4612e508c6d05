//! What an order is called: its mark in the book, whom it is for and the day it is due, as the order says them.
//!
//! Nothing is worked out from them; sheets and pictures show them. Never here: where they are asked.

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
        let order = self.order.as_ref().map_or_else(|| name.to_owned(), |order| format!("order {order}"));
        let customer = self.customer.as_ref().map(|customer| format!("  {customer}")).unwrap_or_default();
        let due = self.due.as_ref().map(|due| format!("   due {due}")).unwrap_or_default();
        format!("{order}{customer}{due}")
    }

    /// Returns whether nothing is said.
    pub(crate) fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}
