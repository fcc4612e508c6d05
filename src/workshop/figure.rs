//! Figures of the workshop that a page reads by name, and tries other values of: the rates, and the price of a material.
//!
//! A name is written as a cell's: `wage`, `mark_up`, `white_lawn.price`, with `_` for what is no letter or digit.
//! Never here: what follows from another value, which is reckoned as always.

use super::Workshop;
use super::materials::{Material, PriceFor};
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Dimension, Money, Quantity, Style};
use crate::table::normalized_heading;
use std::fmt;

/// The member of a material that has its price.
pub(crate) const PRICE: &str = "price";

/// Why a figure cannot have a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum FigureError {
    /// The workshop has no such figure.
    NoFigure,
    /// The value measures something else.
    Unlike {
        /// What the value measures.
        given: Dimension,
        /// What it may measure.
        needed: &'static [Dimension],
    },
    /// The value is below zero.
    BelowZero,
    /// A share of the price that is all of it or more.
    WholePrice,
}

impl fmt::Display for FigureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoFigure => write!(f, "the workshop has no such figure"),
            Self::Unlike { given, needed } => {
                let needed: Vec<String> = needed.iter().map(|needed| needed.noun()).collect();
                write!(f, "{} is needed, not {}", needed.join(" or "), given.noun())
            }
            Self::BelowZero => write!(f, "it cannot be below zero"),
            Self::WholePrice => write!(f, "others cannot take the whole price"),
        }
    }
}

impl std::error::Error for FigureError {}

impl Diagnose for FigureError {
    fn message(&self, _: &Style) -> String {
        self.to_string()
    }

    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::NoFigure => DiagnosticKind::Error,
            Self::Unlike { .. } => DiagnosticKind::Unlike,
            Self::BelowZero | Self::WholePrice => DiagnosticKind::OutOfRange,
        }
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::Unlike { needed, .. } => {
                let hint = needed.iter().find_map(|needed| match *needed {
                    Dimension::MONEY_BY_TIME => Some("give money by the hour"),
                    Dimension::MONEY_BY_LENGTH => Some("give money by the yard or metre"),
                    Dimension::NUMBER => Some("give a share, such as 45 %"),
                    _ => None,
                });
                hint.map(str::to_owned)
            }
            Self::WholePrice => Some("give less than 100 %".to_owned()),
            Self::NoFigure | Self::BelowZero => None,
        }
    }
}

/// Returns whether a cell writes a name so: `white_lawn` for `White Lawn`, by the rule of headings.
fn is_written(name: &str, in_cell: &str) -> bool {
    normalized_heading(name) == normalized_heading(in_cell)
}

impl Workshop {
    /// Returns the rate whose name a cell writes so, `mark_up`; `None` if it has no figure.
    pub(crate) fn rate_in_cell(&self, name: &str) -> Option<Quantity> {
        self.rates.figures().find(|(known, _)| is_written(known, name))?.1
    }

    /// Returns the material whose name a cell writes so: `white_lawn`.
    pub(crate) fn material_in_cell(&self, name: &str) -> Option<&Material> {
        self.materials.list.iter().find(|material| is_written(&material.name, name))
    }

    /// Returns the names that a page can read, as a cell writes them.
    pub(crate) fn cell_names(&self) -> impl Iterator<Item = String> {
        let rates = self.rates.figures().map(|(name, _)| name);
        let materials = self.materials.list.iter().map(|material| material.name.as_str());
        rates.chain(materials).map(|name| normalized_heading(name).replace(' ', "_"))
    }

    /// Returns the workshop with another value of a figure.
    ///
    /// # Errors
    /// There is no such figure, or the value does not fit it.
    pub(crate) fn with_figure(&self, name: &str, value: Quantity) -> Result<Self, FigureError> {
        let mut other = self.clone();
        let Some((material, member)) = name.split_once('.') else {
            other.rates.set_figure(name, value)?;
            return Ok(other);
        };
        let known = other.materials.list.iter_mut().find(|known| is_written(&known.name, material));
        let material = known.filter(|_| member == PRICE);
        material.ok_or(FigureError::NoFigure)?.set_price(value)?;
        Ok(other)
    }
}

impl Material {
    /// Returns its list price: by the length, or of one item or put-up; `None` if it has none.
    pub(crate) fn price_figure(&self) -> Option<Quantity> {
        let price: Quantity = self.price?.into();
        match self.price_for {
            PriceFor::Length(length) => price.per(length.into()).ok(),
            PriceFor::Each | PriceFor::PutUp => Some(price),
        }
    }

    fn set_price(&mut self, value: Quantity) -> Result<(), FigureError> {
        if value.steps() < 0.0 {
            return Err(FigureError::BelowZero);
        }
        let (money, needed): (_, &'static [Dimension]) = match self.price_for {
            PriceFor::Length(length) => (value.times(length.into()), &[Dimension::MONEY_BY_LENGTH]),
            PriceFor::Each | PriceFor::PutUp => (Ok(value), &[Dimension::MONEY]),
        };
        let price = money.and_then(Money::try_from);
        self.price = Some(price.map_err(|_| FigureError::Unlike { given: value.dimension(), needed })?);
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, Unit};
    use crate::workshop::{Overhead, PriceFor};

    fn money(value: f64) -> Quantity {
        Quantity::from_steps(value * 10_000.0, Dimension::MONEY)
    }

    fn hourly(value: f64) -> Quantity {
        money(value).per(Quantity::of(1.0, Unit::Hour)).unwrap()
    }

    fn workshop() -> Workshop {
        let materials = "material,kind,usable width,put-up,price,price for,sold by\n\
            White Lawn,cloth,44 in,,$9.25,yd,1/8 yd\nnet roll,roll,6 in,25 yd,$6.50,put-up,put-up\n";
        let rates = "operation,per,minutes,set-up,value\nwage,,,,$21/h\nmark-up,,,,45 %\noverhead,,,,$5.50/h\n";
        Workshop::read(&[("materials.csv", materials), ("rates.csv", rates)]).unwrap()
    }

    #[test]
    fn rates_and_prices_are_read_by_the_names_of_cells() {
        let workshop = workshop();
        let figures: Vec<(&str, Option<Quantity>)> = workshop.rates.figures().collect();
        let rate = |name: &str| figures.iter().find(|(known, _)| *known == name).and_then(|(_, value)| *value);
        assert_eq!(rate("wage"), Some(hourly(21.0)));
        let equal = |one: Option<Quantity>, other: f64| one.unwrap().compared(Quantity::number(other)).unwrap().is_eq();
        assert!(equal(rate("mark-up"), 0.45));
        assert_eq!((rate("overhead"), rate("fee")), (Some(hourly(5.5)), None));
        // 9.25 for 36 in.
        let lawn = workshop.material_in_cell("white_lawn").unwrap().price_figure().unwrap();
        assert_eq!(
            lawn.times(Quantity::of(36.0, Unit::Inch)).unwrap().compared(money(9.25)).unwrap(),
            std::cmp::Ordering::Equal
        );
        assert_eq!(workshop.material_in_cell("net_roll").unwrap().price_figure(), Some(money(6.5)));
        assert!(workshop.material_in_cell("lawn").is_none());
        let names: Vec<String> = workshop.cell_names().collect();
        assert!(
            ["wage", "mark_up", "built_in_minutes", "white_lawn", "net_roll"]
                .iter()
                .all(|name| names.iter().any(|known| known == name)),
            "{names:?}"
        );
    }

    #[test]
    fn another_value_changes_that_figure_alone() {
        let workshop = workshop();
        let with = |name: &str, value| workshop.with_figure(name, value).unwrap();
        assert_eq!(with("wage", hourly(30.0)).rates.wage, Some(hourly(30.0)));
        assert_eq!(with("mark_up", Quantity::number(0.6)).rates.mark_up, Some(0.6));
        assert_eq!(with("overhead", Quantity::number(0.1)).rates.overhead, Some(Overhead::Share(0.1)));
        let cheaper = with("white_lawn.price", money(6.0).per(Quantity::of(36.0, Unit::Inch)).unwrap());
        let lawn = cheaper.materials.find("white lawn").unwrap();
        assert_eq!(
            (lawn.price, lawn.price_for),
            (Some(Money::from_steps(60_000.0)), PriceFor::Length(Length::inches(36.0)))
        );
        let others = |workshop: &Workshop| (workshop.rates.clone(), workshop.materials.find("net roll").cloned());
        assert_eq!(others(&cheaper), others(&workshop));
    }

    #[test]
    fn a_value_that_does_not_fit_is_refused() {
        let workshop = workshop();
        let refused = |name: &str, value| workshop.with_figure(name, value).unwrap_err().to_string();
        assert_eq!(refused("wage", money(20.0)), "a wage is needed, not an amount of money");
        assert_eq!(refused("fee", Quantity::number(1.0)), "others cannot take the whole price");
        assert_eq!(refused("mark_up", Quantity::number(-0.1)), "it cannot be below zero");
        assert_eq!(refused("white_lawn.price", money(6.0)), "a price by the length is needed, not an amount of money");
        assert_eq!(refused("net_roll.price", money(-1.0)), "it cannot be below zero");
        assert_eq!(refused("white_lawn.width", money(6.0)), "the workshop has no such figure");
        assert_eq!(refused("gather", money(6.0)), "the workshop has no such figure");
    }
}
