//! Helpers with which the code of a function reads its arguments and returns its result.
//!
//! The only place where an error of a trade formula becomes an error of a script call. Never here: formulas.

use crate::body::BodyError;
use crate::engine::function::{Arguments, LENGTH};
use crate::engine::script_error::{Marked, ScriptError};
use crate::engine::value::Value;
use crate::quantity::{Dimension, Length, Liked, Quantity, Style, Unit, number};
use crate::textile::TextileError;

/// Source of common practice for which no published source was found.
pub(in crate::engine) const COMMON: &str = "common practice, no source";

/// Source of functions that follow from geometry alone.
pub(super) const GEOMETRY: &str = "plain geometry, no published source";

/// Source of plain arithmetic.
pub(super) const ARITHMETIC: &str = "arithmetic";

type Formula<T> = Result<T, TextileError>;
type FunctionResult = Result<Value, ScriptError>;

/// Returns a measure; a length is shown in the unit of the first length passed.
pub(super) fn measure(a: &Arguments<'_>, style: &Style, result: Formula<impl Into<Quantity>>) -> FunctionResult {
    let quantity: Quantity = result.map_err(|error| formula_error(a, style, &error))?.into();
    let first = a.first_of(LENGTH).map(Quantity::liked).filter(|liked| liked.length.is_some());
    Ok(match first {
        Some(liked) if quantity.dimension() == Dimension::LENGTH => quantity.liking(liked),
        _ => quantity,
    }
    .into())
}

/// Returns several lengths, each shown in the unit of the first length passed.
pub(super) fn lengths(
    a: &Arguments<'_>,
    style: &Style,
    result: Formula<impl IntoIterator<Item = Length>>,
) -> FunctionResult {
    let found = result.map_err(|error| formula_error(a, style, &error))?;
    let list = found.into_iter().map(|length| measure(a, style, Ok(length)));
    list.collect::<Result<_, _>>().map(Value::List)
}

/// Returns a whole number.
pub(super) fn count(a: &Arguments<'_>, style: &Style, result: Formula<i64>) -> FunctionResult {
    result.map(Value::Whole).map_err(|error| formula_error(a, style, &error))
}

/// Returns a yes or no.
pub(super) fn flag(a: &Arguments<'_>, style: &Style, result: Formula<bool>) -> FunctionResult {
    result.map(Value::Flag).map_err(|error| formula_error(a, style, &error))
}

/// Returns a plain number.
pub(super) fn ratio(a: &Arguments<'_>, style: &Style, result: Formula<f64>) -> FunctionResult {
    result.map(|ratio| Quantity::number(ratio).into()).map_err(|error| formula_error(a, style, &error))
}

/// Returns a share, shown in per cent.
pub(super) fn per_cent(a: &Arguments<'_>, style: &Style, result: Formula<f64>) -> FunctionResult {
    let share = result.map_err(|error| formula_error(a, style, &error))?;
    Ok(Quantity::number(share).liking(Liked::unit(Unit::Percent)).into())
}

/// A length argument; zero if it was left out.
pub(super) fn length_or_none(a: &Arguments<'_>, index: usize) -> Result<Length, ScriptError> {
    if a.get(index).is_some() { a.length(index) } else { Ok(Length::ZERO) }
}

/// A number argument with a default.
pub(super) fn number_or(a: &Arguments<'_>, index: usize, default: f64) -> Result<f64, ScriptError> {
    if a.get(index).is_some() { a.number(index) } else { Ok(default) }
}

/// A share argument below the whole. Without `%`, 1 or more is an error: `8` for `8 %` would mean eight times the
/// cloth.
pub(super) fn share(a: &Arguments<'_>, index: usize, style: &Style) -> Result<f64, ScriptError> {
    match unsigned(a, index)? {
        (share, true) if number::snapped(share) >= 1.0 => Err(missing_percent_sign(a, index, style, share)),
        (share, _) => Ok(share),
    }
}

/// A share argument up to the whole. Without `%`, more than 1 is an error.
pub(super) fn share_or_whole(a: &Arguments<'_>, index: usize, style: &Style) -> Result<f64, ScriptError> {
    match unsigned(a, index)? {
        (share, true) if number::snapped(share) > 1.0 => Err(missing_percent_sign(a, index, style, share)),
        (share, _) => Ok(share),
    }
}

/// A share added to the whole, which may exceed it, but only with `%`: a bare 1 or more is an error.
pub(super) fn share_on_top(a: &Arguments<'_>, index: usize, style: &Style) -> Result<f64, ScriptError> {
    let (share, unsigned) = unsigned(a, index)?;
    if !unsigned || number::snapped(share) < 1.0 {
        return Ok(share);
    }
    let (small, large) = (style.show_number(share), style.show_number(share * 100.0));
    let name = in_words(a.name(index));
    Err(ScriptError::new(format!("{name} is {small}; it is not clear whether {small} % or {large} % is meant"))
        .hinting(format!("type {small} % or {large} %"))
        .marking(Marked::Argument(index)))
}

/// A share added to the whole, with a default.
pub(super) fn share_on_top_or(
    a: &Arguments<'_>,
    index: usize,
    style: &Style,
    default: f64,
) -> Result<f64, ScriptError> {
    if a.get(index).is_some() { share_on_top(a, index, style) } else { Ok(default) }
}

/// A share, and whether it was written without `%`.
fn unsigned(a: &Arguments<'_>, index: usize) -> Result<(f64, bool), ScriptError> {
    let argument = a.quantity(index)?;
    Ok((argument.to_number()?, argument.liked().named != Some(Unit::Percent)))
}

fn missing_percent_sign(a: &Arguments<'_>, index: usize, style: &Style, share: f64) -> ScriptError {
    let (number, per_cent) = (style.show_number(share), style.show_number(share * 100.0));
    let decimal = style.show_number(share / 100.0);
    ScriptError::new(format!("{} is {number}, which is {per_cent} %", in_words(a.name(index))))
        .hinting(format!("type {number} % or {decimal}"))
        .marking(Marked::Argument(index))
}

/// Turns the error of a formula into a script error in the workshop's units, marking the argument it names.
pub(super) fn formula_error(a: &Arguments<'_>, style: &Style, error: &TextileError) -> ScriptError {
    let index = named(error).iter().find_map(|name| a.named(name));
    let argument = index.and_then(|index| a.quantity(index).ok());
    let error = argument.map_or_else(|| error.clone(), |argument| as_typed(error.clone(), argument));
    let marked = index.map_or(Marked::Whole, Marked::Argument);
    ScriptError::of(&error, style).marking(marked)
}

/// Turns the error of a body table into a script error, marking the argument it names.
pub(super) fn body_error(a: &Arguments<'_>, style: &Style, error: &BodyError) -> ScriptError {
    let marked = a.named(error.argument()).map_or(Marked::Whole, Marked::Argument);
    ScriptError::of(error, style).marking(marked)
}

/// The possible names of the argument an error is about.
fn named(error: &TextileError) -> &[&'static str] {
    match error {
        TextileError::NotFinite { argument }
        | TextileError::NotPositive { argument, .. }
        | TextileError::Negative { argument, .. }
        | TextileError::FullnessTooSmall { argument, .. }
        | TextileError::TooLarge { argument, .. }
        | TextileError::NothingLeft { argument, .. }
        | TextileError::TooLong { argument, .. }
        | TextileError::EatsTheStrip { argument, .. }
        | TextileError::Empty { argument }
        | TextileError::UnknownWord { argument, .. } => std::slice::from_ref(argument),
        TextileError::ElasticTooTight { .. } => &["reduction", "relaxed"],
        TextileError::RollTooShort { .. } => &["put_up"],
        TextileError::SpaceNeedsTwo => &["count"],
        TextileError::NotAWage { .. } => &["wage"],
        // Overflow and unlike dimensions come from all the arguments together.
        _ => &[],
    }
}

/// Gives the number in an error back its `%`, which it lost on the way into the formula.
fn as_typed(mut error: TextileError, typed: Quantity) -> TextileError {
    if let TextileError::NotPositive { given, .. }
    | TextileError::Negative { given, .. }
    | TextileError::FullnessTooSmall { given, .. }
    | TextileError::TooLarge { given, .. }
    | TextileError::NothingLeft { given, .. } = &mut error
        && given.dimension().is_number()
    {
        *given = given.liking(typed.liked());
    }
    error
}

/// An argument's name in words: `mark_up` is "mark up".
fn in_words(name: &str) -> String {
    name.replace('_', " ")
}

#[cfg(test)]
mod tests {
    use crate::engine::functions;
    use crate::engine::script_error::Marked;
    use crate::engine::value::Value;
    use crate::quantity::literal::{self, LiteralValue, Reading};
    use crate::quantity::{Quantity, Style, Tape};

    fn read(typed: &str) -> Value {
        if let Ok(number) = typed.parse() {
            return Value::Quantity(Quantity::number(number));
        }
        if let Some(text) = typed.strip_prefix('"') {
            return Value::Text(text.trim_end_matches('"').to_owned());
        }
        match literal::read_quantity(typed, Reading::default()) {
            Ok(LiteralValue::Quantity(quantity)) => quantity.into(),
            other => panic!("{typed}: {other:?}"),
        }
    }

    fn call(name: &str, typed: &[&str], style: &Style) -> Result<String, (String, Option<String>, Marked)> {
        let values: Vec<Value> = typed.iter().map(|typed| read(typed)).collect();
        let answer = functions::named(name).unwrap().call(&values, style);
        answer.map(|value| value.show(style)).map_err(|error| (error.message, error.hint, error.marked))
    }

    #[track_caller]
    fn refuses(name: &str, typed: &[&str], message: &str, hint: &str, marked: Marked) {
        let (actual, actual_hint, actual_marked) = call(name, typed, &Style::default()).unwrap_err();
        assert_eq!((actual.as_str(), actual_hint.unwrap_or_default().as_str()), (message, hint));
        assert_eq!(actual_marked, marked, "{name}");
    }

    #[test]
    fn a_share_without_its_sign_is_questioned() {
        let second = Marked::Argument(1);
        refuses("elastic_worn", &["21 in", "8"], "reduction is 8, which is 800 %", "type 8 % or 0.08", second);
        refuses("before_shrinking", &["2 m", "1"], "shrinkage is 1, which is 100 %", "type 1 % or 0.01", second);
        refuses(
            "marked_up",
            &["$40", "1.5"],
            "mark up is 1.5; it is not clear whether 1.5 % or 150 % is meant",
            "type 1.5 % or 150 %",
            second,
        );
        refuses(
            "thread_for",
            &["\"301\"", "10 yd", "15"],
            "waste is 15; it is not clear whether 15 % or 1500 % is meant",
            "type 15 % or 1500 %",
            Marked::Argument(2),
        );
        let style = Style::default();
        assert_eq!(call("marked_up", &["$40", "150 %"], &style), Ok("$100.00".to_owned()));
        assert_eq!(call("marked_up", &["$40", "0.5"], &style), Ok("$60.00".to_owned()));
        assert_eq!(call("needle_thread_at", &["3", "1", "2 m", "0"], &style), Ok("6 m".to_owned()));
    }

    #[test]
    fn an_error_says_what_was_typed_and_marks_the_argument_it_names() {
        let usual = "measure the body again; 5 % to 8 % shorter is usual for soft elastic";
        refuses(
            "elastic_worn",
            &["21 in", "-5 %"],
            "reduction is -5 %; it must be zero or more",
            "",
            Marked::Argument(1),
        );
        refuses(
            "elastic_reduction",
            &["20 in", "14 in"],
            "reduction is 30 %; elastic cut more than 25 % shorter than the body is not reckoned here",
            usual,
            Marked::Argument(1),
        );
        refuses(
            "panels_for",
            &["132 in", "45 in", "23 in"],
            "seam is 23 in; twice that must be less than usable width, 45 in",
            "use wider cloth, or take less at each join",
            Marked::Argument(2),
        );
        refuses("tier_flat", &["50 in", "2", "9999"], "the result is too large to reckon with", "", Marked::Whole);
        refuses(
            "rounded_up",
            &["13.88 in", "0.125"],
            "a length and a plain number cannot be rounded to each other",
            "give the plain number a unit, such as in or cm",
            Marked::Argument(1),
        );
    }

    #[test]
    fn an_error_speaks_in_the_workshops_own_signs() {
        let style = Style { decimal_comma: true, plain: true, tape: Tape::Metric, ..Style::default() };
        let (message, ..) = call("gathered_flat", &["30.5 cm", "0.5"], &style).unwrap_err();
        assert_eq!(message, "fullness is 0,5; a gathered edge needs 1 or more");
        let (message, ..) = call("circle_area", &["30.5 cm", "1 in"], &style).unwrap_err();
        assert_eq!(message, "inner is 30,5 cm; it cannot be more than outer, 1 in");
    }
}
