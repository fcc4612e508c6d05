//! One answer from several values, such as the cells of a column.
//!
//! A blank is never skipped silently: a total without it would look complete.

use super::answer::COMMON;
use crate::engine::function::{Arguments, Example, Formula, Function, Parameter, ParameterKind};
use crate::engine::script_error::{Marked, ScriptError};
use crate::engine::value::Value;
use crate::quantity::{Dimension, Quantity, QuantityError, number, rounding};

const TOPIC: &str = "lists";

const ONE_LIST: &[Parameter] = &[Parameter::new("list", ParameterKind::List)];

const fn of_a_list(
    name: &'static str,
    summary: &'static str,
    examples: &'static [Example],
    code: crate::engine::function::Code,
) -> Function {
    Function {
        name,
        topic: TOPIC,
        parameters: ONE_LIST,
        result: ParameterKind::Any,
        formula: Formula::None,
        summary,
        examples,
        source: COMMON,
        code,
    }
}

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    of_a_list(
        "total",
        "All items added up; an amount of money to the cent, halves away from zero.",
        &[
            Example { typed: "total([14 in, 35.56 cm])", shown: "28 in" },
            Example { typed: "total([2, 3, 4])", shown: "9" },
            Example { typed: "total([$4.50, $3.25])", shown: "$7.75" },
        ],
        |a, _| total(a, "total"),
    ),
    of_a_list(
        "largest",
        "The largest item.",
        &[
            Example { typed: "largest([14 in, 35 cm, 9 in])", shown: "14 in" },
            Example { typed: "largest([2, 5, 4])", shown: "5" },
        ],
        |a, _| chosen(a, "largest", std::cmp::Ordering::is_gt),
    ),
    of_a_list(
        "smallest",
        "The smallest item.",
        &[
            Example { typed: "smallest([14 in, 35 cm])", shown: "35 cm" },
            Example { typed: "smallest([2, 5, 4])", shown: "2" },
        ],
        |a, _| chosen(a, "smallest", std::cmp::Ordering::is_lt),
    ),
    of_a_list(
        "average",
        "All items added up and shared out evenly.",
        &[
            Example { typed: "average([14 in, 9 in])", shown: "11 1/2 in" },
            Example { typed: "average([2, 5])", shown: "3.5" },
            Example { typed: "average([8 %, 12 %])", shown: "10 %" },
        ],
        |a, _| average(a, "average"),
    ),
    Function {
        name: "known",
        topic: TOPIC,
        parameters: &[Parameter::new("cell", ParameterKind::Anything)],
        result: ParameterKind::Flag,
        formula: Formula::None,
        summary: "Whether something stands in a cell of a table, as in orders where known(cost).",
        examples: &[Example { typed: "known(14 in)", shown: "yes" }, Example { typed: "known(35 cm)", shown: "yes" }],
        source: COMMON,
        code: |a, _| Ok(Value::Flag(a.get(0).is_some_and(|value| *value != Value::Blank))),
    },
    Function {
        name: "without_blanks",
        topic: TOPIC,
        parameters: &[Parameter::new("column", ParameterKind::Anything)],
        result: ParameterKind::Any,
        formula: Formula::None,
        summary: "The cells of a column that are not blank, as in total(without_blanks(orders.cost)).",
        examples: &[
            Example { typed: "without_blanks([14 in, 9 in])", shown: "14 in, 9 in" },
            Example { typed: "without_blanks([9 cm, 35 cm])", shown: "9 cm, 35 cm" },
        ],
        source: COMMON,
        code: |a, _| without_blanks(a),
    },
];

type FunctionResult<T> = Result<T, ScriptError>;

/// Returns the items that are not blank: the only, and explicit, way to skip blanks.
fn without_blanks(a: &Arguments<'_>) -> FunctionResult<Value> {
    let Some(Value::List(items)) = a.get(0) else {
        let problem = ScriptError::new("without_blanks is asked of a column, and this is none");
        return Err(problem.hinting("type without_blanks(orders.cost)").marking(Marked::Argument(0)));
    };
    Ok(Value::List(items.iter().filter(|item| **item != Value::Blank).cloned().collect()))
}

/// Returns the items as quantities of one dimension; errors number them from 1, like rows.
fn quantities(a: &Arguments<'_>, word: &str) -> FunctionResult<Vec<Quantity>> {
    let refused =
        |message: String, hint: &str| Err(ScriptError::new(message).hinting(hint).marking(Marked::Argument(0)));
    let mut found: Vec<Quantity> = Vec::new();
    for (at, item) in a.items(0)?.iter().enumerate() {
        let Some(quantity) = item.quantity() else {
            return refused(
                format!("row {} of the list is blank, and a blank has no part in {word}", at + 1),
                &format!("to leave the blank rows out, type {word}(without_blanks(…))"),
            );
        };
        if let Some(first) = found.first().filter(|first| first.dimension() != quantity.dimension()) {
            let (first, other) = (first.dimension().noun(), quantity.dimension().noun());
            return refused(
                format!("the list mixes {first} and, in row {}, {other}, which {word} cannot put together", at + 1),
                "keep unlike things in lists of their own",
            );
        }
        found.push(quantity);
    }
    Ok(found)
}

fn sum(quantities: &[Quantity]) -> FunctionResult<Quantity> {
    let (first, rest) = quantities.split_first().ok_or_else(|| ScriptError::new("an empty list has no total"))?;
    Ok(rest.iter().try_fold(*first, |sum, item| sum.plus(*item))?)
}

fn total(a: &Arguments<'_>, word: &str) -> FunctionResult<Value> {
    let quantities = quantities(a, word)?;
    let wholes = a.items(0)?.iter().map(|item| if let Value::Whole(whole) = item { Some(*whole) } else { None });
    if let Some(wholes) = wholes.collect::<Option<Vec<i64>>>() {
        let total = wholes.into_iter().try_fold(0_i64, i64::checked_add);
        return total.map(Value::Whole).ok_or_else(|| QuantityError::OutOfRange.into());
    }
    let total = sum(&quantities)?;
    let total = if total.dimension() == Dimension::MONEY { rounding::to_the_cent(total)? } else { total };
    // Counting the largest amounts in cents overflows.
    if total.steps().is_finite() { Ok(total.into()) } else { Err(QuantityError::OutOfRange.into()) }
}

fn average(a: &Arguments<'_>, word: &str) -> FunctionResult<Value> {
    let quantities = quantities(a, word)?;
    let total = sum(&quantities)?;
    let each = total.steps() / number::from_count(quantities.len());
    Ok(Quantity::from_steps(each, total.dimension()).liking(total.liked()).into())
}

/// Returns the first item that is `better` than all others.
fn chosen(a: &Arguments<'_>, word: &str, better: fn(std::cmp::Ordering) -> bool) -> FunctionResult<Value> {
    let quantities = quantities(a, word)?;
    let mut best: Option<(Quantity, &Value)> = None;
    for (quantity, item) in quantities.into_iter().zip(a.items(0)?) {
        let beaten = match best {
            Some((known, _)) => better(quantity.compared(known)?),
            None => true,
        };
        if beaten {
            best = Some((quantity, item));
        }
    }
    best.map(|(_, item)| item.clone()).ok_or_else(|| ScriptError::new("an empty list has none"))
}

#[cfg(test)]
mod tests {
    use crate::engine::functions;
    use crate::engine::value::Value;
    use crate::quantity::{Quantity, Style, Unit};

    fn call(name: &str, list: &[Value]) -> Result<String, String> {
        let style = Style::default();
        let answer = functions::named(name).unwrap().call(&[Value::List(list.to_vec())], &style);
        answer.map(|value| value.show(&style)).map_err(|problem| problem.message)
    }

    fn of(value: f64, unit: Unit) -> Value {
        Quantity::of(value, unit).into()
    }

    #[test]
    fn a_blank_is_told_with_its_row() {
        let list = [of(3.0, Unit::Inch), of(4.0, Unit::Inch), Value::Blank];
        for name in ["total", "largest", "smallest", "average"] {
            assert_eq!(
                call(name, &list),
                Err(format!("row 3 of the list is blank, and a blank has no part in {name}"))
            );
            assert_eq!(
                call(name, &[]),
                Err(format!("list in {name} must be a list of numbers or measures, not an empty list"))
            );
        }
    }

    #[test]
    fn what_is_filled_can_be_asked_for() {
        let list = [of(3.0, Unit::Inch), Value::Blank, of(4.0, Unit::Inch)];
        assert_eq!(call("without_blanks", &list), Ok("3 in, 4 in".to_owned()));
        assert_eq!(call("without_blanks", &[Value::Blank]), Ok(String::new()));
        let style = Style::default();
        let refused = functions::named("without_blanks").unwrap().call(&[of(3.0, Unit::Inch)], &style).unwrap_err();
        assert_eq!(refused.message, "without_blanks is asked of a column, and this is none");
    }

    #[test]
    fn unlike_items_are_not_added() {
        let mixed = [of(3.0, Unit::Inch), of(4.0, Unit::Minute)];
        let message = "the list mixes a length and, in row 2, a time, which total cannot put together";
        assert_eq!(call("total", &mixed), Err(message.to_owned()));
        let texts = [of(3.0, Unit::Inch), Value::Text("x".to_owned())];
        let message = "list in average must be a list of numbers or measures, not a list with a text in it";
        assert_eq!(call("average", &texts), Err(message.to_owned()));
    }

    #[test]
    fn counts_stay_counts_and_money_has_its_cents() {
        assert!(call("total", &[Value::Whole(i64::MAX), Value::Whole(1)]).is_err());
        assert_eq!(call("total", &[Value::Whole(2), Value::Quantity(Quantity::number(0.5))]), Ok("2.5".to_owned()));
        let third: Value = Quantity::money(1.005).into();
        assert_eq!(call("total", &[third.clone(), third]), Ok("$2.01".to_owned()));
        assert_eq!(call("average", &[of(10.0, Unit::Inch), of(25.4, Unit::Centimetre)]), Ok("10 in".to_owned()));
    }
}
