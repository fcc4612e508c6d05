//! Cells as text: shown for people, or as plain decimals for files.

use super::plain_text;
use crate::quantity::{Dimension, Liked, Quantity, Style, Unit, number};
use crate::table::{Cell, Column, ColumnKind, ColumnUnit};

/// The cell as a person reads it, in its column's unit: `10 3/8 in`, `$4.50`, `yes`.
pub(super) fn shown(cell: &Cell, column: &Column, style: &Style) -> String {
    match (cell, &column.kind) {
        (Cell::Blank, _) => String::new(),
        (Cell::Text(text), _) => plain_text::one_line(text),
        (Cell::Count(count), _) => count.to_string(),
        (Cell::Number(value), _) => style.show_number(*value),
        (Cell::Flag(flag), _) => yes_or_no(*flag).to_owned(),
        (Cell::Quantity(quantity), ColumnKind::Quantity(unit)) if !unit.is_as_written() => {
            style.show_in(*quantity, unit.expression())
        }
        (Cell::Quantity(quantity), _) => style.show(*quantity),
    }
}

/// The word for a flag.
pub(super) fn yes_or_no(flag: bool) -> &'static str {
    if flag { "yes" } else { "no" }
}

/// The shortest decimal that equals the value but for float noise: within 1e-9 of its size, and within a millionth if
/// that is less. A whole number has no decimals. Never with an exponent.
pub(super) fn decimal(value: f64) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    if value.fract() == 0.0 {
        return format!("{value}");
    }
    let size = value.abs();
    // For values far larger than any that is cut or paid, a millionth is finer than the noise itself.
    let noise = (size * number::TOLERANCE).min(1e-6).max(size * 1e-13);
    let shortest = (0..=16_usize)
        .filter_map(|digits| format!("{value:.digits$e}").parse::<f64>().ok())
        .find(|short| (short - value).abs() <= noise);
    format!("{}", shortest.unwrap_or(value))
}

/// An amount of money as a decimal with two places, or more if it has more.
pub(super) fn money_decimal(amount: Quantity) -> String {
    let text = decimal(amount.currency_units().unwrap_or_default());
    match text.split_once('.') {
        None => format!("{text}.00"),
        Some((_, cents)) if cents.len() < 2 => format!("{text}0"),
        Some(_) => text,
    }
}

/// A length as read off the inch tape: `10 3/8`, or with its units `2 yd 6 3/8 in`; "about" before one that the tape
/// cannot show. A fraction alone is written `0 3/8`, because a spreadsheet takes `3/8` for a day in March.
pub(super) fn tape_text(length: Quantity, unit: &ColumnUnit, style: &Style) -> String {
    let style = Style { plain: true, ..*style };
    let liked = Liked { whole: false, ..unit.expression().liked };
    let text = style.show(length.liking(liked));
    let Some(inches) = text.strip_suffix(" in").filter(|_| unit.expression().liked.length == Some(Unit::Inch)) else {
        return text;
    };
    let split = inches.find(|c: char| c.is_ascii_digit()).unwrap_or(0);
    match inches.split_at_checked(split) {
        Some((before, digits)) if digits.contains('/') && !digits.contains(' ') => format!("{before}0 {digits}"),
        _ => inches.to_owned(),
    }
}

/// The magnitude of a quantity in its preferred unit, and that unit: 3.5 of `yd`, 4.5 of `$/yd`. A plain number has
/// no unit; a compound counts in its larger unit.
pub(super) fn counted(quantity: Quantity, style: &Style) -> (f64, String) {
    let (dimension, liked) = (quantity.dimension(), quantity.liked());
    if let Some(unit) = liked.named.filter(|unit| unit.dimension() == dimension) {
        return (quantity.steps() / unit.steps(), unit.symbol().to_owned());
    }
    let money = Quantity::money(1.0).steps();
    let bases = [
        (dimension.money, money, style.currency.to_string()),
        (dimension.mass, liked.mass.unwrap_or(Unit::Gram).steps(), symbol(liked.mass, Unit::Gram)),
        (dimension.time, liked.time.unwrap_or(Unit::Minute).steps(), symbol(liked.time, Unit::Minute)),
        (dimension.length, liked.length.unwrap_or(style.tape.unit()).steps(), symbol(liked.length, style.tape.unit())),
    ];
    let mut value = quantity.steps();
    let (mut above, mut below) = (Vec::new(), String::new());
    for (exponent, steps, symbol) in bases {
        value /= steps.powi(i32::from(exponent));
        let power = if exponent.abs() == 1 { String::new() } else { format!("^{}", exponent.abs()) };
        match exponent {
            0 => {}
            1.. => above.push(format!("{symbol}{power}")),
            _ => below.extend(["/", &symbol, &power]),
        }
    }
    let above = if above.is_empty() && !below.is_empty() { "1".to_owned() } else { above.join(" ") };
    (value, format!("{above}{below}"))
}

fn symbol(liked: Option<Unit>, otherwise: Unit) -> String {
    liked.unwrap_or(otherwise).symbol().to_owned()
}

/// Whether a cell is right-aligned and never broken over lines.
pub(super) fn is_number(cell: &Cell) -> bool {
    match cell {
        Cell::Count(_) | Cell::Number(_) | Cell::Quantity(_) => true,
        Cell::Blank | Cell::Text(_) | Cell::Flag(_) => false,
    }
}

/// Whether a quantity is money and not a price per something.
pub(super) fn is_money(quantity: Quantity) -> bool {
    quantity.dimension() == Dimension::MONEY
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn decimals_are_short_and_without_noise() {
        let cases = [
            (10.374_999_999_9, "10.375"),
            (10.374_999_999, "10.375"),
            (0.1 + 0.2, "0.3"),
            (-0.1 - 0.2, "-0.3"),
            (-0.0, "0"),
            (-2.5, "-2.5"),
            (123_456_789_012.300_02, "123456789012.3"),
            (-10.374_999_999_9, "-10.375"),
            (54.0, "54"),
            (99.999_999_999_9, "100"),
            (2.0 / 3.0, "0.666666667"),
            (1e-7, "0.0000001"),
            (1_234_567.891_2, "1234567.8912"),
            (12_345_678_901.0, "12345678901"),
            (9_007_199_254_740_991.0, "9007199254740991"),
            (1e21, "1000000000000000000000"),
        ];
        for (value, text) in cases {
            assert_eq!(decimal(value), text);
        }
    }

    #[test]
    fn money_has_its_cents() {
        let cases = [(23.4, "23.40"), (-0.5, "-0.50"), (6.0, "6.00"), (0.0, "0.00"), (0.0375, "0.0375")];
        for (value, text) in cases {
            assert_eq!(money_decimal(Quantity::money(value)), text);
        }
        assert_eq!(money_decimal(Quantity::money(12_345_678.91)), "12345678.91");
    }

    #[track_caller]
    fn check_tape(inches: f64, unit: &str, text: &str) {
        let unit = ColumnUnit::read("along", unit).unwrap();
        assert_eq!(tape_text(Quantity::of(inches, Unit::Inch), &unit, &Style::default()), text);
    }

    #[test]
    fn tape_texts_are_never_taken_for_a_date() {
        check_tape(10.375, "in", "10 3/8");
        check_tape(54.0, "in", "54");
        check_tape(0.375, "in", "0 3/8");
        check_tape(-0.375, "in", "-0 3/8");
        check_tape(-10.5, "in", "-10 1/2");
        check_tape(10.4, "in", "about 10 3/8");
        check_tape(0.4, "in", "about 0 3/8");
        check_tape(0.0, "in", "0");
        check_tape(126.0, "yd", "3 1/2 yd");
        check_tape(78.375, "yd", "2 yd 6 3/8 in");
        check_tape(30.25, "ft", "2 ft 6 1/4 in");
    }

    #[test]
    fn any_quantity_counts_in_the_unit_it_likes() {
        let style = Style { currency: '£', ..Style::default() };
        let yard = Quantity::of(1.0, Unit::Yard);
        let price = Quantity::money(4.5).per(yard).unwrap();
        let weight = Quantity::of(2.5, Unit::Ounce).per(yard.times(yard).unwrap()).unwrap();
        let per_yard = Quantity::number(12.0).per(yard).unwrap();
        let cases = [
            (Quantity::of(3.5, Unit::Yard), "3.5", "yd"),
            (price, "4.5", "£/yd"),
            (weight, "2.5", "oz/yd^2"),
            (Quantity::of(25.0, Unit::Percent), "25", "%"),
            (Quantity::number(2.5), "2.5", ""),
            (Quantity::money(3.0), "3", "£"),
            (per_yard, "12", "1/yd"),
        ];
        for (quantity, text, unit) in cases {
            let (value, symbol) = counted(quantity, &style);
            assert_eq!((decimal(value).as_str(), symbol.as_str()), (text, unit));
        }
    }

    proptest! {
        #[test]
        fn a_decimal_reads_back_to_its_value(value in prop::num::f64::NORMAL) {
            let read: f64 = decimal(value).parse().unwrap();
            prop_assert!((read - value).abs() <= 1e-9 * value.abs());
        }
    }
}
