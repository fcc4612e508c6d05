//! What an operator gives for the kinds on its sides, with the errors that the engine itself would give.

use super::conditions::Condition;
use super::kind::{Form, Kind, Texts, Value};
use crate::engine::ScriptError;
use crate::engine::script_error::Marked;
use crate::quantity::nearest::nearest;
use crate::quantity::{Dimension, Quantity, Style, Unit};
use std::collections::BTreeSet;
use std::rc::Rc;

const COMPARISONS: [&str; 6] = ["==", "!=", "<", "<=", ">", ">="];

/// Whether a call is one of an operator with two sides.
pub(super) fn is_binary(name: &str) -> bool {
    ["+", "-", "*", "/", "^"].contains(&name) || is_comparison(name)
}

/// Whether an operator compares.
pub(super) fn is_comparison(name: &str) -> bool {
    COMPARISONS.contains(&name)
}

/// What an operator gives for one kind on each side. A helper file may ask for words that the choice of one recipe does
/// not have; `shared` lets those pass that are no slip.
pub(super) fn given(name: &str, left: &Kind, right: &Kind, shared: bool) -> Result<Value, ScriptError> {
    if is_comparison(name) { compared(name, left, right, shared) } else { reckoned(name, left, right) }
}

fn unlike(left: &Kind, right: &Kind, done: &str) -> ScriptError {
    ScriptError::new(format!("{} and {} cannot be {done}", left.noun(), right.noun())).marking(Marked::Sides)
}

fn reckoned(name: &str, left: &Kind, right: &Kind) -> Result<Value, ScriptError> {
    if let (Some(one), Some(other)) = (left.dimension(), right.dimension()) {
        return of_quantities(name, (left, one), (right, other));
    }
    match (name, left, right) {
        ("+", Kind::Text(one), Kind::Text(other)) => Ok(Value::of(Kind::Text(joined(one, other)))),
        ("+", Kind::Text(_) | Kind::Letter, _) | ("+", _, Kind::Text(_) | Kind::Letter) => Ok(Value::text()),
        ("+", Kind::List(one), Kind::List(other)) => {
            Ok(Value::of(Kind::List(Box::new(one.as_ref().clone().join(other.as_ref().clone())))))
        }
        // Groups may be joined by a sign; what that gives is not followed.
        ("+" | "-", Kind::Group(_), Kind::Group(_)) => Ok(Value::unknown()),
        _ => {
            let done = match name {
                "+" => "added",
                "-" => "taken from each other",
                "*" => "multiplied",
                "/" => "divided",
                _ => "raised to a power",
            };
            Err(unlike(left, right, done))
        }
    }
}

/// The texts that come of joining two.
fn joined(one: &Texts, other: &Texts) -> Texts {
    let (Some(first), Some(second)) = (&one.known, &other.known) else { return Texts::ANY };
    let pairs = first.iter().flat_map(|start| second.iter().map(move |end| format!("{start}{end}")));
    let known: BTreeSet<String> = pairs.take(25).collect();
    Texts { known: (known.len() < 25).then_some(known), choice: None }
}

fn of_quantities(name: &str, left: (&Kind, Dimension), right: (&Kind, Dimension)) -> Result<Value, ScriptError> {
    let ((left, one), (right, other)) = (left, right);
    if let (Kind::Number(form, x), Kind::Number(of_other, y)) = (left, right) {
        return Ok(Value::of(of_numbers(name, (*form, *x), (*of_other, *y))));
    }
    let dimension = match name {
        "+" | "-" => {
            let (a, b) = (Quantity::from_steps(1.0, one), Quantity::from_steps(1.0, other));
            let sum = if name == "+" { a.plus(b) } else { a.minus(b) };
            let sum = sum.map_err(|error| {
                let problem = ScriptError::from(error).marking(Marked::Sides);
                match number_to_begin_with(left, right) {
                    Some(hint) => problem.hinting(hint),
                    None => problem,
                }
            })?;
            Some(sum.dimension())
        }
        "*" => one.times(other),
        "/" => one.per(other),
        _ => match (one.is_number(), right) {
            (true, Kind::Number(..)) => Some(one),
            (false, Kind::Number(_, Some(power))) => {
                let whole =
                    [-3, -2, -1, 0, 1, 2, 3].into_iter().find(|whole| f64::from(*whole).total_cmp(power).is_eq());
                whole.and_then(|whole| one.to_the(whole))
            }
            (_, Kind::Number(..)) => None,
            _ => return Err(unlike(left, right, "raised to a power")),
        },
    };
    Ok(dimension.map_or_else(Value::unknown, |dimension| Value::of(Kind::of(dimension))))
}

/// A sum of measures that begins with a bare nought.
fn number_to_begin_with(left: &Kind, right: &Kind) -> Option<String> {
    let (Kind::Number(_, Some(number)), Kind::Measure(dimension)) = (left, right) else { return None };
    let unit = match *dimension {
        Dimension::LENGTH => Unit::Centimetre,
        Dimension::TIME => Unit::Minute,
        _ => return None,
    };
    let number = Style::default().show_number(*number);
    Some(format!("give the number a unit: {number} {}", unit.symbol()))
}

fn of_numbers(name: &str, (form, x): (Form, Option<f64>), (of_other, y): (Form, Option<f64>)) -> Kind {
    let value = x.zip(y).and_then(|(x, y)| match name {
        "+" => Some(x + y),
        "-" => Some(x - y),
        "*" => Some(x * y),
        "/" => Some(x / y),
        _ => None,
    });
    let form = match (name, form, of_other) {
        ("/", ..) | (_, Form::Decimal, _) | (_, _, Form::Decimal) => Form::Decimal,
        ("^", ..) | (_, Form::Either, _) | (_, _, Form::Either) => Form::Either,
        _ => Form::Whole,
    };
    Kind::Number(form, value.filter(|value| value.is_finite()))
}

fn compared(name: &str, left: &Kind, right: &Kind, shared: bool) -> Result<Value, ScriptError> {
    if let (Some(one), Some(other)) = (left.dimension(), right.dimension()) {
        let compared = Quantity::from_steps(1.0, one).compared(Quantity::from_steps(1.0, other));
        compared.map_err(|error| {
            let problem = ScriptError::from(error).marking(Marked::Sides);
            let hint = number_to_begin_with(left, right).or_else(|| number_to_begin_with(right, left));
            hint.into_iter().fold(problem, ScriptError::hinting)
        })?;
        return Ok(Value::flag(None));
    }
    let is_same_or_not = ["==", "!="].contains(&name);
    match (left, right) {
        (Kind::Text(one), Kind::Text(other)) if is_same_or_not => {
            let condition = one_of_texts(one, other, shared)?;
            let turned = |condition| if name == "==" { condition } else { Condition::Not(Rc::new(condition)) };
            Ok(Value::flag(condition.map(turned)))
        }
        (Kind::Nothing, Kind::Nothing) if is_same_or_not => Ok(Value::flag(None)),
        (Kind::Nothing, _) | (_, Kind::Nothing) if is_same_or_not => {
            Ok(Value::flag(Some(Condition::Known(name == "!="))))
        }
        (Kind::Text(_) | Kind::Letter, Kind::Text(_) | Kind::Letter)
        | (Kind::Flag, Kind::Flag)
        | (Kind::List(_), Kind::List(_))
        | (Kind::Group(_), Kind::Group(_)) => Ok(Value::flag(None)),
        _ => Err(unlike(left, right, "compared")),
    }
}

/// When two texts are the same. An error where a choice is compared with what is none of its words.
fn one_of_texts(one: &Texts, other: &Texts, shared: bool) -> Result<Option<Condition>, ScriptError> {
    let (choice, texts) = match (&one.choice, &other.choice) {
        (Some(choice), None) => (Some(choice), other),
        (None, Some(choice)) => (Some(choice), one),
        _ => (None, other),
    };
    match (choice, &texts.known) {
        (Some((input, words)), Some(known)) => match known.iter().next() {
            Some(word) if known.len() == 1 && !words.contains(word) => {
                if shared && !is_slip(word, words) {
                    return Ok(Some(Condition::Known(false)));
                }
                Err(no_choice(word, input, words))
            }
            Some(_) if known.len() == 1 => Ok(Some(Condition::Is(input.clone(), known.clone()))),
            _ => Ok(None),
        },
        _ => Ok(match (&one.known, &other.known) {
            (Some(one), Some(other)) if one.is_disjoint(other) => Some(Condition::Known(false)),
            (Some(one), Some(other)) if one.len() == 1 && one == other => Some(Condition::Known(true)),
            _ => None,
        }),
    }
}

/// Whether a word that is none of a choice is one of its words mistyped.
pub(super) fn is_slip(word: &str, words: &BTreeSet<String>) -> bool {
    nearest(word, words.iter().map(String::as_str)).is_some()
}

/// The error of a word that is none of a choice.
pub(super) fn no_choice(word: &str, input: &str, words: &BTreeSet<String>) -> ScriptError {
    let problem = ScriptError::new(format!("“{word}” is not one of the choices of “{input}”, so this is never so"));
    let listed = || words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(", ");
    problem.marking(Marked::Sides).hinting(match nearest(word, words.iter().map(String::as_str)) {
        Some(near) => format!("did you mean \"{near}\"?"),
        None => format!("the choices are {}", listed()),
    })
}
