//! How an order's goods are cut that lose in the first wash, `washing='washed first'`, which any order may state. It is
//! asked for once, if the order has a cloth that loses something and neither the order nor the list of materials says it.
//!
//! Never here: what follows from it.

use crate::engine::ScriptError;
use crate::quantity::Style;
use crate::quantity::nearest::nearest;
use crate::recipe::answers::answering::{CheckResult, CheckedAnswer, RawAnswer};
use crate::recipe::contract::input::{Input, WASHING};
use crate::recipe::contract::input_kind::InputKind;
use crate::ticket::{InputSource, TicketValue, loses_words};
use crate::workshop::{Material, Washing};
use std::collections::BTreeMap;

/// Reads what an order states.
pub(in crate::recipe) fn washing(answer: &RawAnswer) -> CheckResult<Washing> {
    let words = match answer {
        RawAnswer::Checked(answered) => match answered.value() {
            TicketValue::Text(words) => Some(words),
            _ => None,
        },
        answer => answer.words(),
    };
    let words = words.ok_or_else(|| ScriptError::new(format!("one of {} is needed", all_words())).hinting(typing()))?;
    Washing::named(&words).ok_or_else(|| {
        let near = nearest(&words, Washing::WORDS.iter().map(|(known, _)| *known));
        let hint = near.map_or_else(typing, |near| format!("did you mean “{near}”?"));
        ScriptError::new(format!("“{words}” is none of {}", all_words())).hinting(hint)
    })
}

/// Returns the question, if an order with these answers must say it.
pub(in crate::recipe) fn question(
    answers: &BTreeMap<String, (CheckedAnswer, InputSource)>,
    said: Option<Washing>,
    style: &Style,
) -> Option<Input> {
    let mut cloths: Vec<&Material> = Vec::new();
    for (answer, _) in answers.values() {
        let CheckedAnswer::Goods(goods) = answer else { continue };
        let material = &*goods.material;
        if material.asks_for_washing(said) && cloths.iter().all(|known| known.name != material.name) {
            cloths.push(material);
        }
    }
    let losses: Vec<String> =
        cloths.iter().map(|cloth| format!("{} loses {}", cloth.name, loses_words(cloth, style))).collect();
    let asks = format!("{} in the first wash; how is it cut?", losses.join(", and "));
    let words = Washing::WORDS.map(|(words, _)| words.to_owned()).to_vec();
    (!losses.is_empty()).then(|| Input::new(WASHING, &asks, InputKind::Choice(words)))
}

/// Lists the words: `washed first, cut longer, as it comes`.
pub(in crate::recipe) fn all_words() -> String {
    Washing::WORDS.map(|(words, _)| words).join(", ")
}

/// Returns the hint with every answer.
pub(in crate::recipe) fn typing() -> String {
    format!("type {WASHING}='washed first', {WASHING}='cut longer' or {WASHING}='as it comes'")
}
