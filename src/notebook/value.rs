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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::notebook::objects::TableObject;
    use crate::quantity::{Quantity, Unit};
    use crate::table::Table;

    fn table() -> Dynamic {
        Dynamic::from(TableObject::new(Table::new("rows").count("n").ready().unwrap()))
    }

    #[test]
    fn nothing_and_what_has_no_words_are_not_shown() {
        let style = Style::default();
        assert_eq!(shown(&Dynamic::from_int(7), &style), Ok("7".to_owned()));
        assert_eq!(shown(&Dynamic::UNIT, &style).unwrap_err().message, "this gives nothing to show");
        let script = rhai::FnPtr::new("f").unwrap();
        assert!(shown(&Dynamic::from(script), &style).unwrap_err().message.ends_with(" cannot be shown here"));
    }

    #[test]
    fn values_are_the_same_in_every_digit_and_a_table_never_is() {
        let same = |left: i64, right: i64| same(&Dynamic::from_int(left), &Dynamic::from_int(right));
        assert!(same(7, 7) && !same(7, 8));
        assert!(!super::same(&Dynamic::from_int(7), &table()) && !super::same(&table(), &table()));
    }

    #[test]
    fn a_recipe_takes_measures_numbers_words_and_lists_of_them() {
        let inch = value::quantity_to_script(Quantity::of(3.0, Unit::Inch));
        let Some(TicketValue::Quantity(taken)) = for_recipe(&inch) else { panic!("{inch:?}") };
        assert_eq!(Style::default().show(taken), "3 in");
        assert_eq!(for_recipe(&Dynamic::from_int(3)), Some(TicketValue::Whole(3)));
        assert_eq!(for_recipe(&Dynamic::from("net")), Some(TicketValue::Text("net".to_owned())));
        assert_eq!(for_recipe(&Dynamic::from_bool(true)), Some(TicketValue::Flag(true)));
        let list = |items: Vec<Dynamic>| for_recipe(&Dynamic::from_array(items));
        let whole = [6, 5].map(TicketValue::Whole).to_vec();
        assert_eq!(list(vec![Dynamic::from_int(6), Dynamic::from_int(5)]), Some(TicketValue::List(whole)));
        assert_eq!(list(vec![Dynamic::from_int(6), Dynamic::UNIT]), None);
        assert_eq!((for_recipe(&Dynamic::UNIT), for_recipe(&table())), (None, None));
    }
}
