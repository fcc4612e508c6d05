//! What an input may be: the one list that questions offer, the tab key completes, and a refusal takes the nearest name
//! from.
//!
//! Never here: whether an answer fits, and how a line writes it.

use crate::engine::ScriptError;
use crate::engine::value::quantity_to_script;
use crate::quantity::Style;
use crate::quantity::nearest::nearest;
use crate::recipe::answers::answering::{Check, RawAnswer};
use crate::recipe::contract::input::{AGE, Input, PIECES, SIZE, USE, WASHING};
use crate::recipe::contract::input_kind::{InputKind, unnamed_cloth};
use crate::recipe::proof::goods_used::GoodsUsed;
use crate::recipe::protocol::Description;
use crate::ticket::Usage;
use crate::workshop::{Material, Size, Washing, Workshop};

/// The answer that takes goods which are in no list.
const ANY: &str = "any";

/// The answer that does without goods which may be left out.
pub(in crate::recipe) const WITHOUT_IT: &str = "none";

/// What may be typed as the answer to an input.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Possible {
    /// The answers that are known by name, what is likely to fit first.
    pub(crate) answers: Vec<String>,
    /// Whether it takes a sum as well, with names of the page and units.
    pub(crate) takes_sums: bool,
}

impl Possible {
    /// Words and no sums.
    pub(crate) fn words<'w>(words: impl IntoIterator<Item = &'w str>) -> Self {
        Self { answers: words.into_iter().map(str::to_owned).collect(), takes_sums: false }
    }

    /// The same, and the word that leaves it out, if it may be left out.
    pub(in crate::recipe) fn or_left_out(mut self, may_be_left_out: bool) -> Self {
        self.answers.extend(may_be_left_out.then(|| WITHOUT_IT.to_owned()));
        self
    }
}

impl Check<'_> {
    /// Returns the names that answer an input: the words of a choice, trials, goods of the right kind.
    fn names(&self, input: &Input, used: Option<GoodsUsed>) -> Vec<String> {
        let workshop = self.workshop;
        match &input.kind {
            InputKind::Choice(words) => words.clone(),
            InputKind::YesNo => vec!["yes".to_owned(), "no".to_owned()],
            InputKind::Gathers => {
                let trials = workshop.trials.list.iter().map(|trial| trial.name.clone());
                trials.filter(|name| self.answer(input, &RawAnswer::Typed(name.clone())).is_ok()).collect()
            }
            InputKind::Cloth | InputKind::Notion => {
                let notion = input.kind == InputKind::Notion;
                let suits = |material: &&Material| used.is_none_or(|used| used.suits(material));
                let asked_for = |material: &&Material| material.kind.is_asked_for() && material.kind.is_cut() != notion;
                let of_kind = || workshop.materials.list.iter().filter(asked_for);
                // Offer unsuitable cloths last, because a roll may be wide enough for a skirt, but no unsuitable
                // notions, because a counted notion is refused where a length is needed.
                let others = of_kind().filter(|material| !notion && !suits(material));
                of_kind().filter(suits).chain(others).map(|material| material.name.clone()).collect()
            }
            _ => Vec::new(),
        }
    }

    /// Returns the answers to offer, and how to type goods that are not listed.
    pub(in crate::recipe) fn offers(
        &self,
        input: &Input,
        size: Option<&Size>,
        used: Option<GoodsUsed>,
    ) -> (Vec<String>, Option<String>) {
        let unnamed = match input.kind {
            InputKind::Notion => Some(ANY.to_owned()),
            InputKind::Cloth => Some(unnamed_cloth(self.style)),
            _ => None,
        };
        let Some(measure) = input.body.as_ref().filter(|_| size.is_none()) else {
            return (self.names(input, used), unnamed);
        };
        let fitting = self.workshop.sizes.list.iter().filter(|size| {
            let length = size.measure(measure).map(|length| quantity_to_script(length.into()));
            length.is_some_and(|length| self.answer(input, &RawAnswer::Script(length)).is_ok())
        });
        (fitting.map(|size| format!("{SIZE} {}", size.name)).collect(), unnamed)
    }

    /// Returns the name nearest to a mistyped one among those that answer an input.
    pub(in crate::recipe) fn near(&self, input: &Input, typed: &str) -> Option<String> {
        let names = self.names(input, None);
        nearest(typed, names.iter().map(String::as_str)).map(str::to_owned)
    }
}

/// Returns what may be typed for an input: these names, and `any` for goods. A question shows goods that are in no list with
/// a width and a price, which are an example and nobody's answer.
pub(in crate::recipe) fn with_any(input: &Input, answers: Vec<String>) -> Possible {
    let any = input.kind.is_goods().then(|| ANY.to_owned());
    Possible { answers: answers.into_iter().chain(any).collect(), takes_sums: input.kind.reads_expression() }
}

impl Description {
    /// Returns what may follow `name=` on a line; `None` if an order does not answer that.
    pub(crate) fn possible(&self, name: &str, workshop: &Workshop, style: &Style) -> Option<Possible> {
        let besides = self.answered_besides(workshop);
        match (name, besides.iter().any(|(known, ..)| *known == name)) {
            (SIZE, true) => return Some(Possible::words(workshop.sizes.list.iter().map(|size| size.name.as_str()))),
            (USE, true) => return Some(Possible::words(Usage::WORDS.iter().map(|(words, _)| *words))),
            (WASHING, true) => return Some(Possible::words(Washing::WORDS.iter().map(|(words, _)| *words))),
            (AGE | PIECES, true) => return Some(Possible { answers: Vec::new(), takes_sums: true }),
            (_, true) => return Some(Possible::default()),
            (_, false) => {}
        }
        let input = self.inputs.iter().find(|input| input.name == name)?;
        // A key works nothing out: names are looked up, and no answer here is a sum.
        let no_sum = |typed: &str| Err(ScriptError::new(format!("{typed} is no name")).into());
        let check = Check { workshop, evaluate: &no_sum, evaluate_goods: &no_sum, style };
        // Here the size has an answer of its own.
        let names = check.names(input, self.goods.get(name).copied());
        Some(with_any(input, names))
    }
}

#[cfg(test)]
mod tests;
