//! The price of an amount of a material: at list price, and as it is sold.
//!
//! An amount is a length, or a plain number of items. Never here: rounding to the cent, which is done at a price line;
//! and placing whole pieces on whole rolls, which only a cutting plan can do.

use super::materials::{Material, PriceFor, SoldBy};
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Dimension, Length, Money, Quantity, QuantityError, Style, rounding};
use std::fmt;

/// Why an amount has no price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PriceError {
    /// The material has no price.
    NoPrice {
        /// The material.
        material: String,
    },
    /// It is priced or sold by the put-up, and the length of a put-up is not known.
    NoPutUp {
        /// The material.
        material: String,
    },
    /// The amount measures something else than the material is sold by.
    Unlike {
        /// The material.
        material: String,
        /// What the amount measures.
        given: Dimension,
        /// What it must measure.
        needed: Dimension,
    },
    /// The calculation itself fails.
    Sum(QuantityError),
}

impl fmt::Display for PriceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPrice { material } => write!(f, "“{material}” has no price"),
            Self::NoPutUp { material } => write!(f, "“{material}” is sold by the put-up, but its put-up is not known"),
            Self::Unlike { material, given, needed } => {
                write!(f, "“{material}” is sold by {}; {} was asked for", sold(*needed), given.noun())
            }
            Self::Sum(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for PriceError {}

impl Diagnose for PriceError {
    fn message(&self, _: &Style) -> String {
        self.to_string()
    }

    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::NoPrice { .. } | Self::NoPutUp { .. } => DiagnosticKind::Error,
            Self::Unlike { .. } => DiagnosticKind::Unlike,
            Self::Sum(error) => Diagnose::kind(error),
        }
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::NoPrice { material } => Some(format!("type add price {material}, and its price")),
            Self::NoPutUp { .. } => Some("fill in “put-up” in materials.csv, such as 25 yd".to_owned()),
            Self::Unlike { needed, .. } if needed.is_number() => Some("ask for so many of it".to_owned()),
            Self::Unlike { .. } => Some("ask for a length of it, such as 3 yd".to_owned()),
            Self::Sum(error) => error.hint(),
        }
    }
}

impl From<QuantityError> for PriceError {
    fn from(error: QuantityError) -> Self {
        Self::Sum(error)
    }
}

fn sold(needed: Dimension) -> &'static str {
    if needed.is_number() { "the piece" } else { "the length" }
}

impl Material {
    /// The amount at list price, as if any amount could be bought: for a length, the price of that length; for a plain
    /// number, that many times the price of one, or of one put-up.
    pub fn list_price(&self, amount: Quantity) -> Result<Money, PriceError> {
        let price = self.price.ok_or_else(|| PriceError::NoPrice { material: self.name.clone() })?;
        let times = match self.price_for {
            PriceFor::Length(length) => self.length(amount)? / length,
            PriceFor::Each => self.number(amount)?,
            PriceFor::PutUp => self.put_ups(amount)?,
        };
        Ok(price * times)
    }

    /// The amount that must be bought to have this much: rounded up to a whole selling step, put-up or item. For a
    /// material sold by the put-up, a plain number is a number of put-ups, both here and in the result; a length gives
    /// a length.
    ///
    /// This is right for what may be pieced or measured off. What is cut in whole pieces must be bought by placing the
    /// pieces, because the end of a roll that is too short for a piece is useless.
    pub fn as_sold(&self, amount: Quantity) -> Result<Quantity, PriceError> {
        let each = Quantity::number(1.0);
        match self.sold_by {
            SoldBy::Step(step) => {
                self.length(amount)?;
                Ok(rounding::bought(amount, step.into())?)
            }
            SoldBy::PutUp if amount.dimension() == Dimension::LENGTH => {
                Ok(rounding::bought(amount, self.put_up_length()?.into())?)
            }
            SoldBy::Each | SoldBy::PutUp => {
                self.number(amount)?;
                Ok(rounding::bought(amount, each)?)
            }
        }
    }

    /// The price of what must be bought to have this much: the list price of the amount [as it is sold](Self::as_sold).
    pub fn bought_price(&self, amount: Quantity) -> Result<Money, PriceError> {
        self.list_price(self.as_sold(amount)?)
    }

    fn length(&self, amount: Quantity) -> Result<Length, PriceError> {
        Length::try_from(amount).map_err(|_| self.unlike(amount, Dimension::LENGTH))
    }

    fn number(&self, amount: Quantity) -> Result<f64, PriceError> {
        amount.to_number().map_err(|_| self.unlike(amount, Dimension::NUMBER))
    }

    fn put_ups(&self, amount: Quantity) -> Result<f64, PriceError> {
        match amount.to_number() {
            Ok(put_ups) => Ok(put_ups),
            Err(_) => Ok(self.length(amount)? / self.put_up_length()?),
        }
    }

    fn put_up_length(&self) -> Result<Length, PriceError> {
        self.put_up.ok_or_else(|| PriceError::NoPutUp { material: self.name.clone() })
    }

    fn unlike(&self, amount: Quantity, needed: Dimension) -> PriceError {
        PriceError::Unlike { material: self.name.clone(), given: amount.dimension(), needed }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::Workshop;

    const LIST: &str = "material,kind,usable width,put-up,price,price for,sold by\n\
                        lawn,cloth,36 in,,$9.00,yd,yd\nhook,notion,,,$0.25,each,each\nnet,cloth,54 in,,,,\n";

    fn refused(material: &str, amount: Quantity) -> (String, Option<String>, DiagnosticKind) {
        let shop = Workshop::read(&[("materials.csv", LIST)]).unwrap();
        let error = shop.materials.find(material).unwrap().bought_price(amount).unwrap_err();
        (error.message(&Style::default()), error.hint(), Diagnose::kind(&error))
    }

    /// What has no price says how it gets one; what is asked for otherwise than it is sold, how to ask.
    #[test]
    fn an_amount_without_a_price_says_what_to_do() {
        let told = |message: &str, hint: &str, kind| (message.to_owned(), Some(hint.to_owned()), kind);
        assert_eq!(
            refused("net", Length::inches(36.0).into()),
            told("“net” has no price", "type add price net, and its price", DiagnosticKind::Error)
        );
        let unlike = refused("lawn", Quantity::number(3.0));
        assert!(unlike.0.starts_with("“lawn” is sold by the length; "), "{unlike:?}");
        assert_eq!(unlike.1.as_deref(), Some("ask for a length of it, such as 3 yd"));
        let unlike = refused("hook", Length::inches(36.0).into());
        assert!(unlike.0.starts_with("“hook” is sold by the piece; "), "{unlike:?}");
        assert_eq!(unlike.1.as_deref(), Some("ask for so many of it"));
        let no_put_up = PriceError::NoPutUp { material: "tape".to_owned() };
        assert_eq!(no_put_up.message(&Style::default()), "“tape” is sold by the put-up, but its put-up is not known");
        assert_eq!(no_put_up.hint().as_deref(), Some("fill in “put-up” in materials.csv, such as 25 yd"));
    }
}
