//! Help on a question: what it means and how to answer it.
//!
//! Never here: the question itself, and its offers.

use crate::recipe::answers::answering::Check;
use crate::recipe::answers::question::Question;
use crate::recipe::contract::input::Input;
use crate::recipe::proof::goods_used::GoodsUsed;

/// Returns the help on a question: what may be answered, an example, the default.
pub(in crate::recipe) fn help(
    question: &Question,
    input: &Input,
    check: &Check<'_>,
    used: Option<GoodsUsed>,
) -> String {
    let mut lines = vec![format!("{}: {}", question.input, question.asks), question.terms.clone()];
    lines.push(check.instructions(input, used));
    if input.body.is_some() {
        lines.push(
            "a body measure: measured on the wearer, or from a row of sizes.csv with size and its name".to_owned(),
        );
    }
    if let Some(usual) = &question.usual {
        lines.push(format!("Enter takes {} of this page, {}", usual.answer, usual.value));
    }
    if question.more > 0 {
        lines.push("list shows every name that could be typed".to_owned());
    }
    lines.push("back goes to the question before; cancel or Ctrl-C drops the questions".to_owned());
    lines.join("\n  ")
}
