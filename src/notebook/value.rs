//! Operations on cell values: display in one line, comparison, conversion to a recipe answer.

use crate::diagnostic::Diagnostic;
use crate::engine::{Value, value};
use crate::quantity::Style;
use crate::ticket::TicketValue;
use rhai::Dynamic;

/// Formats a value as one line of text.
///
/// # Errors
/// The value is `()` or of a kind that cannot be shown.
pub fn shown(value: &Dynamic, style: &Style) -> Result<String, Diagnostic> {
    if value.is_unit() {
        return Err(Diagnostic::new("this gives nothing to show"));
    }
    value::show(value, style).ok_or_else(|| Diagnostic::new(format!("{} cannot be shown here", value::noun(value))))
}

/// Whether two values are equal in every digit and in how they are displayed. If so, cells that read them need
/// no recomputation. Tables and tickets never count as equal.
pub(super) fn same(left: &Dynamic, right: &Dynamic) -> bool {
    match (Value::from_script(left), Value::from_script(right)) {
        (Some(left), Some(right)) => left == right,
        _ => false,
    }
}

/// Converts a value to a recipe answer; `None` if no input takes such a value.
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
