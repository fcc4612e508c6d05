//! Reads a cloth that is not chosen yet: `any 36-60 in at $6-14/yd` stands for every width and price between.
//!
//! Never here: what an order costs with any of them.

use crate::quantity::{Length, LiteralValue, Reading, literal, number};

/// The most widths tried.
const MOST_WIDTHS: f64 = 30.0;

/// A cloth of any width and price between two.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ClothRange {
    /// Widths as they can be typed, rising; at least one.
    pub(crate) widths: Vec<String>,
    /// Prices as they can be typed, rising; empty if none is given.
    pub(crate) prices: Vec<String>,
    /// What is known of the cloth besides, with the comma before it.
    facts: String,
}

impl ClothRange {
    /// Reads an answer; `None` if it has no range of widths or prices, and is thus a cloth like any other.
    pub(crate) fn read(answer: &str, reading: Reading) -> Option<Self> {
        let rest = answer.trim().strip_prefix("any ")?.trim();
        let (size, facts) = rest.find(',').map_or((rest, ""), |at| rest.split_at(at));
        let (width, price) = size.split_once(" at ").unwrap_or((size, ""));
        let (width, price) = (width.trim(), price.trim());
        let widths = range_of(width).and_then(|parts| widths_between(&parts, reading));
        let prices = range_of(price).and_then(|parts| prices_between(&parts, reading));
        if widths.is_none() && prices.is_none() {
            return None;
        }
        let one = |text: &str| if text.is_empty() { Vec::new() } else { vec![text.to_owned()] };
        Some(Self {
            widths: widths.unwrap_or_else(|| one(width)),
            prices: prices.unwrap_or_else(|| one(price)),
            facts: facts.to_owned(),
        })
    }

    /// Returns the answer for one of the widths and, if there are any, one of the prices.
    pub(crate) fn answer(&self, width: &str, price: Option<&str>) -> String {
        let price = price.map(|price| format!(" at {price}")).unwrap_or_default();
        format!("any {width}{price}{}", self.facts)
    }
}

/// What stands before the two figures of a range, the figures, and what stands behind.
struct Parts<'t> {
    before: &'t str,
    from: &'t str,
    to: &'t str,
    behind: &'t str,
}

/// Splits `$6-14/yd` at its figures; `None` without a hyphen between two.
fn range_of(text: &str) -> Option<Parts<'_>> {
    let is_figure = |c: char| c.is_ascii_digit() || " ./,½¼¾⅛⅜⅝⅞".contains(c);
    let (left, right) = text.split_once(['-', '–'])?;
    let start = left.trim_end_matches(is_figure).len();
    let (before, from) = left.split_at(start);
    let figures = right.len() - right.trim_start_matches(is_figure).len();
    let (to, behind) = right.split_at(figures);
    // The stroke before the unit of a price belongs to the unit.
    let to = to.trim_end_matches('/');
    let behind = right.get(to.len()..).unwrap_or(behind);
    let parts = Parts { before: before.trim(), from: from.trim(), to: to.trim(), behind: behind.trim() };
    (!parts.from.is_empty() && !parts.to.is_empty()).then_some(parts)
}

fn figure(text: &str, reading: Reading) -> Option<f64> {
    let LiteralValue::Quantity(quantity) = literal::read_quantity(&format!("{text} in"), reading).ok()? else {
        return None;
    };
    Length::try_from(quantity).ok().map(Length::in_inches)
}

/// The widths between two, in whole steps of their unit, both ends among them.
fn widths_between(parts: &Parts<'_>, reading: Reading) -> Option<Vec<String>> {
    let (from, to) = (figure(parts.from, reading)?, figure(parts.to, reading)?);
    if from >= to || parts.behind.is_empty() {
        return None;
    }
    let step = ((to - from) / MOST_WIDTHS).ceil().max(1.0);
    let mut widths = Vec::new();
    let mut at = from;
    while at < to {
        widths.push(format!("{at} {}", parts.behind));
        at += step;
    }
    widths.push(format!("{to} {}", parts.behind));
    Some(widths)
}

/// The lower price, the middle and the higher.
fn prices_between(parts: &Parts<'_>, reading: Reading) -> Option<Vec<String>> {
    let (from, to) = (figure(parts.from, reading)?, figure(parts.to, reading)?);
    if from >= to || parts.before.is_empty() {
        return None;
    }
    let price = |figure: f64| {
        let cents = number::from_whole(number::nearest_whole((figure * 100.0).round())?) / 100.0;
        Some(format!("{}{cents}{}", parts.before, parts.behind))
    };
    [from, f64::midpoint(from, to), to].into_iter().map(price).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_stands_for_the_widths_and_prices_between() {
        let read = |answer: &str| ClothRange::read(answer, Reading::default());
        let range = read("any 36-40 in at $6-14/yd, nap").unwrap();
        assert_eq!(range.widths, ["36 in", "37 in", "38 in", "39 in", "40 in"]);
        assert_eq!(range.prices, ["$6/yd", "$10/yd", "$14/yd"]);
        assert_eq!(range.answer("37 in", Some("$6/yd")), "any 37 in at $6/yd, nap");
        let range = read("any 90-150 cm at $9.50/m").unwrap();
        assert_eq!((range.widths.len(), range.widths[1].as_str()), (31, "92 cm"));
        assert_eq!(range.prices, ["$9.50/m"]);
        let range = read("any 43 1/2 in at $8.50-9/yd").unwrap();
        assert_eq!(
            (range.widths, range.prices),
            (vec!["43 1/2 in".to_owned()], ["$8.5/yd", "$8.75/yd", "$9/yd"].map(str::to_owned).to_vec())
        );
        assert_eq!(range.facts, "");
    }

    #[test]
    fn a_chosen_cloth_is_no_range() {
        for answer in ["any 45 in at $6/yd", "any", "blue-check lawn", "any 60-36 in", "any 45 in at $6-/yd"] {
            assert_eq!(ClothRange::read(answer, Reading::default()), None, "{answer}");
        }
    }
}
