//! An input of a recipe: its name, question, kind and range.

use crate::quantity::Style;
use crate::recipe::contract::input_kind::InputKind;
use crate::recipe::contract::range::{Range, on_the_tape};
use crate::ticket::TicketValue;
use serde::{Deserialize, Serialize};

/// The input that every order has: the number of garments.
pub(in crate::recipe) const PIECES: &str = "pieces";

/// The answer that every order may give: a row of the workshop's sizes, for body measures.
pub(in crate::recipe) const SIZE: &str = "size";

/// The answer that every order may give: the age of the wearer.
pub(in crate::recipe) const AGE: &str = "age";

/// The answer that every order may give: the use of the garment.
pub(in crate::recipe) const USE: &str = "use";

/// The answer that every order may give: how its goods are cut that lose in the first wash.
pub(in crate::recipe) const WASHING: &str = "washing";

/// The answer that every order may give: its mark in the book.
pub(in crate::recipe) const ORDER: &str = "order";

/// The answer that every order may give: whom it is for.
pub(in crate::recipe) const FOR: &str = "for";

/// The answer that every order may give: the day it is due.
pub(in crate::recipe) const DUE: &str = "due";

/// Names that an input cannot have, and what they mean.
pub(in crate::recipe) const RESERVED: [(&str, &str); 8] = [
    (ORDER, "the mark of the order, which every order may have"),
    (FOR, "whom the order is for, which every order may say"),
    (DUE, "the day the order is due, which every order may say"),
    (PIECES, "the number of garments, which every order has"),
    (SIZE, "a row of the workshop's sizes, which every order may name"),
    (AGE, "the age of the wearer, which every order may say"),
    (USE, "what the garment is for, which every order may say"),
    (WASHING, "whether its cloth is washed before it is cut, which every order may say"),
];

/// Formats a usual value, followed in brackets by the same on the workshop's tape if that is the other one.
fn usually(value: &TicketValue, style: &Style) -> String {
    let own = value.show(style);
    match value.quantity().and_then(|quantity| on_the_tape(quantity, style)) {
        Some(other) => format!("{own} ({})", style.show(other)),
        None => own,
    }
}

/// An input of a recipe.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Input {
    /// The name, as scripts and command lines write it.
    pub name: String,
    /// The question, in the recipe's words.
    pub question: String,
    /// What kind of answer it takes.
    pub kind: InputKind,
    /// The answer if none is given.
    pub usual: Option<TicketValue>,
    /// The range of its answers.
    pub range: Option<Range>,
    /// Whether it may be left out.
    pub optional: bool,
    /// Another input and the value it must have for this one to be asked.
    pub only_if: Option<(String, TicketValue)>,
    /// The input whose answer it takes if left out.
    pub same_as: Option<String>,
    /// The body measure it is, which a size row may fill.
    pub body: Option<String>,
}

impl Input {
    /// Creates an input of a kind that must be answered.
    pub fn new(name: &str, question: &str, kind: InputKind) -> Self {
        Self {
            name: name.to_owned(),
            question: question.to_owned(),
            kind,
            usual: None,
            range: None,
            optional: false,
            only_if: None,
            same_as: None,
            body: None,
        }
    }

    /// Returns whether it must be answered when it is asked, as far as the declaration alone tells.
    pub fn is_required(&self) -> bool {
        self.usual.is_none() && !self.optional && self.same_as.is_none()
    }

    /// Describes what may be answered: kind, range, usual answer, and when it is asked.
    pub fn terms(&self, style: &Style) -> String {
        let mut terms = vec![self.bounds(style)];
        terms.extend(self.same_as.as_ref().map(|other| format!("else the same as {other}")));
        terms.extend(self.only_if.as_ref().map(|(other, value)| format!("only if {other} is {}", value.show(style))));
        if self.optional {
            terms.push("may be left out".to_owned());
        }
        terms.join("; ")
    }

    /// Describes what may be answered once it is asked: kind, range, body measure, usual answer.
    pub(in crate::recipe) fn bounds(&self, style: &Style) -> String {
        let mut bounds = vec![self.kind.noun_on(style)];
        bounds.extend(self.range.map(|range| range.show(style)));
        bounds.extend(self.body.as_ref().map(|measure| format!("body measure “{measure}”")));
        bounds.extend(self.usual.as_ref().map(|usual| format!("usually {}", usually(usual, style))));
        bounds.join("; ")
    }
}
