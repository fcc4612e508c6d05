//! What a question means and how it is answered, at more length than the question itself.
//!
//! Never here: the question, and what is offered.

use crate::recipe::answers::answering::{Check, units_for};
use crate::recipe::answers::question::Question;
use crate::recipe::contract::input::{Input, InputKind};
use crate::recipe::proof::goods_used::GoodsUsed;

/// What help says about a question: what may be answered, an answer that would do, what is usual.
pub(in crate::recipe) fn explained(
    question: &Question,
    input: &Input,
    check: &Check<'_>,
    used: Option<GoodsUsed>,
) -> String {
    let mut lines = vec![format!("{}: {}", question.input, question.asks), question.terms.clone()];
    lines.push(how(input, check, used));
    if input.body.is_some() {
        lines.push(
            "a body measure: measured on the wearer, or from a row of sizes.csv with size and its name".to_owned(),
        );
    }
    if let Some(usual) = &question.usual {
        lines.push(format!("an empty line takes {} of this page, {}", usual.answer, usual.value));
    }
    if question.more > 0 {
        lines.push("list shows every name that could be typed".to_owned());
    }
    lines.push("back goes to the question before; cancel or Ctrl-C drops the questions".to_owned());
    lines.join("\n  ")
}

fn how(input: &Input, check: &Check<'_>, used: Option<GoodsUsed>) -> String {
    let example = check.example(input);
    match &input.kind {
        InputKind::Measure(dimension) => {
            let unit = units_for(*dimension, check.style).into_iter().next();
            let bare = unit.map_or_else(String::new, |unit| {
                format!("; a number alone, such as 20, is taken as {}", unit.replace('#', "20"))
            });
            let example = if example == "…" { "a measure".to_owned() } else { format!("type it like {example}") };
            format!("{example}{bare}; a sum with names of the page goes too")
        }
        InputKind::Number | InputKind::Count if example == "…" => "type a number; a sum goes too".to_owned(),
        InputKind::Number | InputKind::Count => format!("type it like {example}; a sum goes too"),
        InputKind::Choice(words) => format!("type one of {}", words.join(", ")),
        InputKind::YesNo => "type yes or no".to_owned(),
        InputKind::Text => "type any words".to_owned(),
        InputKind::Gathers => {
            "2 is twice as much cloth as seam; [6, 5] are two passes under the foot, which multiply; \
            the name of a trial takes what was measured"
                .to_owned()
        }
        InputKind::Cloth => format!(
            "a name of materials.csv, or one that is not listed by its usable width and price: {example}; \
            without the price the order has none for it"
        ),
        InputKind::Notion => {
            let price = if used == Some(GoodsUsed::Counted) { "0.20" } else { "0.50/yd" };
            let sign = check.style.currency;
            format!("a name of materials.csv, or any where it is not listed; with a price, any {sign}{price}")
        }
        InputKind::List => "type several measures between brackets: [10 in, 12 in]".to_owned(),
    }
}
