//! What a cell is worth, as the page handles it: shown in one line, compared, handed to a recipe.

use crate::diagnostic::Diagnostic;
use crate::engine::{Value, value};
use crate::quantity::Style;
use crate::ticket::TicketValue;
use rhai::Dynamic;

/// A value in one line, as a person reads it.
///
/// # Errors
/// For what has no value to show.
pub fn shown(value: &Dynamic, style: &Style) -> Result<String, Diagnostic> {
    if value.is_unit() {
        return Err(Diagnostic::new("this gives nothing to show"));
    }
    value::show(value, style).ok_or_else(|| Diagnostic::new(format!("{} cannot be shown here", value::noun(value))))
}

/// Whether two values are the same in every digit and in how they are shown, so that who reads them need
/// not be worked out again.
pub(super) fn same(left: &Dynamic, right: &Dynamic) -> bool {
    match (Value::from_script(left), Value::from_script(right)) {
        (Some(left), Some(right)) => left == right,
        _ => false,
    }
}

/// A value as an answer to a recipe; none for what no input takes.
pub(crate) fn for_recipe(value: &Dynamic) -> Option<TicketValue> {
    fn plain(value: Value) -> Option<TicketValue> {
        Some(match value {
            Value::Quantity(quantity) => TicketValue::Quantity(quantity),
            Value::Whole(whole) => TicketValue::Whole(whole),
            Value::Text(text) => TicketValue::Text(text),
            Value::Flag(flag) => TicketValue::Flag(flag),
            Value::List(list) => TicketValue::List(list.into_iter().map(plain).collect::<Option<_>>()?),
            Value::Blank => return None,
        })
    }
    Value::from_script(value).and_then(plain)
}
