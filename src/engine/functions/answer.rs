//! How the code of an entry asks for its arguments and gives its answer.
//!
//! The one place where a fault of the trade's formulas becomes a problem with a call. Never here: formulas.

use crate::engine::function::{Arguments, LENGTH};
use crate::engine::problem::{Marked, Problem};
use crate::engine::value::Value;
use crate::quantity::{Dimension, Length, Liked, Quantity, Style, Unit, number};
use crate::textile::TextileFault;

/// For what the trade does and no source was found to state.
pub(super) const COMMON: &str = "common practice, no source";

/// For what follows from the shape of the thing.
pub(super) const GEOMETRY: &str = "plain geometry, no published source";

/// For sums.
pub(super) const ARITHMETIC: &str = "arithmetic";

type Formula<T> = Result<T, TextileFault>;
type Answer = Result<Value, Problem>;

/// A measure. A length is shown in the unit of the first length that was given.
pub(super) fn measure(a: &Arguments<'_>, style: &Style, result: Formula<impl Into<Quantity>>) -> Answer {
    let quantity: Quantity = result.map_err(|fault| problem(a, style, &fault))?.into();
    let first = a.first_of(LENGTH).map(Quantity::liked).filter(|liked| liked.length.is_some());
    Ok(match first {
        Some(liked) if quantity.dimension() == Dimension::LENGTH => quantity.liking(liked),
        _ => quantity,
    }
    .into())
}

/// A whole number of things.
pub(super) fn count(a: &Arguments<'_>, style: &Style, result: Formula<i64>) -> Answer {
    result.map(Value::Whole).map_err(|fault| problem(a, style, &fault))
}

/// A plain number.
pub(super) fn ratio(a: &Arguments<'_>, style: &Style, result: Formula<f64>) -> Answer {
    result.map(|ratio| Quantity::number(ratio).into()).map_err(|fault| problem(a, style, &fault))
}

/// A share of the whole, shown in per cent.
pub(super) fn per_cent(a: &Arguments<'_>, style: &Style, result: Formula<f64>) -> Answer {
    let share = result.map_err(|fault| problem(a, style, &fault))?;
    Ok(Quantity::number(share).liking(Liked::unit(Unit::Percent)).into())
}

/// A length that is none where it was left out.
pub(super) fn length_or_none(a: &Arguments<'_>, index: usize) -> Result<Length, Problem> {
    if a.get(index).is_some() { a.length(index) } else { Ok(Length::ZERO) }
}

/// A number with a usual value.
pub(super) fn number_or(a: &Arguments<'_>, index: usize, usual: f64) -> Result<f64, Problem> {
    if a.get(index).is_some() { a.number(index) } else { Ok(usual) }
}

/// A share. What is written without its sign and comes to the whole or more is asked about: `8` for
/// `8 %` would turn up as eight times the cloth.
pub(super) fn share(a: &Arguments<'_>, index: usize, style: &Style) -> Result<f64, Problem> {
    let given = a.quantity(index)?;
    let share = given.plain()?;
    let signed = given.liked().named == Some(Unit::Percent);
    if signed || !share.is_finite() || number::snapped(share) < 1.0 {
        return Ok(share);
    }
    let (small, large) = (style.show_number(share), style.show_number(share * 100.0));
    let name = spoken(a.name(index));
    Err(Problem::new(format!("{name} is {small}; it is not clear whether {small} % or {large} % is meant"))
        .hinting(format!("type {small} % or {large} %"))
        .marking(Marked::Argument(index)))
}

/// A share with a usual value.
pub(super) fn share_or(a: &Arguments<'_>, index: usize, style: &Style, usual: f64) -> Result<f64, Problem> {
    if a.get(index).is_some() { share(a, index, style) } else { Ok(usual) }
}

/// What a formula could not answer, in the workshop's own units, marking the argument it names.
pub(super) fn problem(a: &Arguments<'_>, style: &Style, fault: &TextileFault) -> Problem {
    let marked = named(fault).and_then(|name| a.named(name)).map_or(Marked::Whole, Marked::Argument);
    Problem::new(fault.message(style)).with_hint(fault.hint()).marking(marked)
}

/// The argument a fault is about.
fn named(fault: &TextileFault) -> Option<&'static str> {
    match fault {
        TextileFault::NoNumber { argument }
        | TextileFault::NotPositive { argument, .. }
        | TextileFault::Negative { argument, .. }
        | TextileFault::FullnessTooSmall { argument, .. }
        | TextileFault::TooLarge { argument, .. }
        | TextileFault::NothingLeft { argument, .. }
        | TextileFault::TooLong { argument, .. }
        | TextileFault::EatsTheStrip { argument, .. }
        | TextileFault::Empty { argument }
        | TextileFault::UnknownWord { argument, .. } => Some(argument),
        TextileFault::ElasticTooTight { .. } => Some("reduction"),
        TextileFault::RollTooShort { .. } => Some("put_up"),
        TextileFault::SpaceNeedsTwo => Some("count"),
        TextileFault::NotAWage { .. } => Some("wage"),
        // What is too large or unlike comes of all the arguments together.
        _ => None,
    }
}

/// An argument's name as it is said: `mark_up` is "mark up".
fn spoken(name: &str) -> String {
    name.replace('_', " ")
}
