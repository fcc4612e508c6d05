//! What can be wrong with a sum of quantities, and the words for it.

use super::dimension::Dimension;
use std::fmt;

/// What was being done to two quantities.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Operation {
    /// `a + b`
    Add,
    /// `a - b`
    Subtract,
    /// `a < b` and its kin.
    Compare,
    /// Rounding one to a step of the other.
    Round,
}

/// A sum that means nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum QuantityError {
    /// Unlike dimensions in an operation that needs like ones.
    Unlike {
        /// What was tried.
        operation: Operation,
        /// Dimension on the left.
        left: Dimension,
        /// Dimension on the right.
        right: Dimension,
    },
    /// A quantity of another dimension than the one needed.
    WrongDimension {
        /// What is needed.
        needed: Dimension,
        /// What was given.
        given: Dimension,
    },
    /// Division by zero.
    DividedByZero,
    /// The result is too large to be a number.
    OutOfRange,
    /// A power that is not a whole number, of something with a dimension.
    FractionalPower,
    /// The square root of something that is no square: of a length, of a negative number.
    NoRoot {
        /// What was given.
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
    /// What to do about it, where that can be said without knowing the text.
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
