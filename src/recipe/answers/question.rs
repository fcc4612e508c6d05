//! A question of a run: what it asks, what may be answered, and which answers it offers.
//!
//! Never here: which question comes next, and how a terminal shows it.

use crate::recipe::answers::answering::{Check, RawAnswer};
use crate::recipe::answers::possible::{Possible, with_any};
use crate::recipe::answers::size_row::MAX_LISTED;
use crate::recipe::contract::input::Input;
use crate::recipe::contract::input_words::scripted;
use crate::recipe::proof::goods_used::GoodsUsed;
use crate::ticket::TicketValue;
use crate::workshop::Size;
use std::fmt;

/// A question, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Question {
    /// The input it fills.
    pub input: String,
    /// The question, in the recipe's words.
    pub asks: String,
    /// What may be answered: kind, range, body measure.
    pub terms: String,
    /// What an empty answer takes; `None` if something must be typed.
    pub usual: Option<Usual>,
    /// Whether an empty answer leaves it out.
    pub may_be_left_out: bool,
    /// The answers offered, each as it is typed: choices, sizes, materials, trials. What is likely to fit comes first.
    pub offers: Vec<String>,
    /// How many more sizes, materials or trials there are that are not among the offers.
    pub more: usize,
    /// All answers that could be offered; goods with their width and price.
    pub all: Vec<String>,
    /// What may be typed, for the tab key.
    pub possible: Possible,
}

/// What an empty answer takes: a cell of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Usual {
    /// The name of the cell, which becomes the answer, so that the order follows the cell.
    pub answer: String,
    /// The current value of the cell, as shown.
    pub value: String,
}

/// Shows the question, what may be answered and what is offered, a line each.
impl fmt::Display for Question {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}\n  {}", self.input, self.asks, self.terms)?;
        // The terms already have the words of a choice, and how unnamed goods are typed.
        let unsaid = self.offers.iter().map(String::as_str).filter(|offer| !self.terms.contains(offer));
        let unsaid: Vec<&str> = unsaid.collect();
        if !unsaid.is_empty() {
            write!(f, "\n  or {}", unsaid.join(", "))?;
            if self.more > 0 {
                write!(f, "; and {} more, which list shows", self.more)?;
            }
        }
        match &self.usual {
            Some(Usual { answer, value }) => write!(f, "\n  Enter = {value} (from {answer})"),
            None if self.may_be_left_out => write!(f, "\n  Enter = without it"),
            None => Ok(()),
        }
    }
}

impl Question {
    /// Returns the question for an input. `size` is the size the order has already, and `cell` the page's cell of the
    /// input's name.
    pub(in crate::recipe) fn of(
        input: &Input,
        check: &Check<'_>,
        size: Option<&Size>,
        cell: Option<&TicketValue>,
        used: Option<GoodsUsed>,
    ) -> Self {
        let mut terms = input.bounds(check.style);
        if let (Some(size), Some(measure)) = (size, &input.body) {
            terms.push_str(&match size.measure(measure) {
                Some(length) => {
                    format!("; the {} of size {} do not fit", check.style.show(length.into()), size.name)
                }
                None => format!("; size {} does not say it", size.name),
            });
        }
        let (all, unnamed) = check.offers(input, size, used);
        let most = if input.kind.choices().is_some() { all.len() } else { MAX_LISTED };
        let more = all.len().saturating_sub(most);
        let offers = all.iter().take(most).cloned().chain(unnamed.clone()).collect();
        let widest = all.iter().map(|answer| answer.chars().count()).max().unwrap_or(0);
        let with_about = |answer: &String| match check.about_goods(input, answer) {
            Some(about) => format!("{answer:widest$}   {about}"),
            None => answer.clone(),
        };
        let shown = all.iter().map(with_about).chain(unnamed).collect();
        let usual = cell.map(|cell| Usual { answer: input.name.clone(), value: cell.show(check.style) });
        Self {
            input: input.name.clone(),
            asks: input.question.clone(),
            terms,
            usual,
            may_be_left_out: false,
            offers,
            more,
            all: shown,
            possible: with_any(input, all),
        }
    }
}

/// Returns whether a cell's value fits an input.
pub(in crate::recipe) fn fits(input: &Input, check: &Check<'_>, cell: &TicketValue) -> bool {
    input.kind.reads_expression() && check.answer(input, &RawAnswer::Script(scripted(cell))).is_ok()
}
