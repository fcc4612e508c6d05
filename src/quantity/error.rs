//! Errors in computing with quantities, and their wording.

use super::dimension::Dimension;
use std::fmt;

/// An operation on two quantities.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Operation {
    /// `a + b`
    Add,
    /// `a - b`
    Subtract,
    /// `a < b` and the other comparisons.
    Compare,
    /// Rounding one to a step of the other.
    Round,
}

/// A computation without a meaningful result.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum QuantityError {
    /// Different dimensions in an operation that needs equal ones.
    Unlike {
        /// The operation.
        operation: Operation,
        /// Dimension on the left.
        left: Dimension,
        /// Dimension on the right.
        right: Dimension,
    },
    /// A dimension other than the one needed.
    WrongDimension {
        /// The dimension needed.
        needed: Dimension,
        /// The dimension given.
        given: Dimension,
    },
    /// Division by zero.
    DividedByZero,
    /// The result or one of its exponents is too large.
    OutOfRange,
    /// A fractional power of a quantity with a dimension.
    FractionalPower,
    /// The square root of a negative value, or of a dimension that has none, such as length.
    NoRoot {
        /// The dimension given.
        given: Dimension,
    },
    /// A step of zero or less to round to.
    NoStep,
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unlike { operation: Operation::Subtract, left, right } => {
                write!(f, "{} cannot be taken from {}", right.noun(), left.noun())
            }
            Self::Unlike { operation, left, right } => {
                let done = match operation {
                    Operation::Add => "added",
                    Operation::Round => "rounded to each other",
                    Operation::Subtract | Operation::Compare => "compared",
                };
                write!(f, "{} and {} cannot be {done}", left.noun(), right.noun())
            }
            Self::WrongDimension { needed, given } => write!(f, "{} is needed, not {}", needed.noun(), given.noun()),
            Self::DividedByZero => write!(f, "nothing can be divided by zero"),
            Self::OutOfRange => write!(f, "the result is too large to reckon with"),
            Self::FractionalPower => write!(f, "only a plain number can be raised to a power that is not whole"),
            Self::NoRoot { given } if given.is_number() => write!(f, "a negative number has no square root"),
            Self::NoRoot { given } => write!(f, "{} has no square root; an area has one", given.noun()),
            Self::NoStep => write!(f, "the step to round to must be more than zero"),
        }
    }
}

impl std::error::Error for QuantityError {}

impl QuantityError {
    /// Says what to do about it, if that does not depend on the text.
    pub fn hint(&self) -> Option<String> {
        match self {
            Self::Unlike { left, right, .. } if left.is_number() != right.is_number() => {
                let other = if left.is_number() { right } else { left };
                Some(match *other {
                    Dimension::LENGTH => "give the plain number a unit, such as in or cm".to_owned(),
                    Dimension::TIME => "give the plain number a unit, such as min or h".to_owned(),
                    Dimension::MASS => "give the plain number a unit, such as g or oz".to_owned(),
                    Dimension::MONEY => "give the plain number a currency sign, such as $4.50".to_owned(),
                    _ => "give the plain number a unit".to_owned(),
                })
            }
            Self::Unlike { operation: Operation::Add | Operation::Subtract, left, right } => {
                Some(format!("type {} on both sides, or {} on both", left.noun(), right.noun()))
            }
            Self::DividedByZero => Some("type a number other than 0 below the line".to_owned()),
            _ => None,
        }
    }
}
