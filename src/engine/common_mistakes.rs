//! Common mistakes in typed sums, and what to type instead.
//!
//! Never here: valid sums.

use super::text::rewrite::{Rewritten, Source};
use super::text::tokens::{Token, TokenKind};
use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::quantity::{Dimension, Quantity, Style, Unit};

/// Recognises `3 yd in cm`, which asks for another unit with `in`, `into` or `to`.
pub(super) fn unit_asked_for(typed: &str, rewritten: &Rewritten) -> Option<Diagnostic> {
    let [.., value, word, unit] = rewritten.tokens.as_slice() else { return None };
    let text = |token: &Token| typed.get(token.span.clone()).unwrap_or_default();
    let asks = word.kind == TokenKind::Word && ["in", "into", "to"].contains(&text(word));
    let value_before = matches!(value.kind, TokenKind::Literal(_) | TokenKind::Word | TokenKind::Close);
    if !(asks && value_before && unit.kind == TokenKind::Word && Unit::named(text(unit)).is_some()) {
        return None;
    }
    let sum = typed.get(..word.span.start).unwrap_or_default().trim();
    let diagnostic = Diagnostic::new(format!("“{}” does not ask for another unit", text(word)))
        .of_kind(DiagnosticKind::Syntax)
        .at(rewritten.source.marked(vec![word.span.clone()]));
    Some(diagnostic.hinting(format!("type {sum} as {}", text(unit))))
}

/// Recognises `a <> b`; returns the hint for its sign.
pub(super) fn unlike(source: &Source, byte: usize) -> Option<String> {
    let (before, behind) = source.typed.split_at_checked(byte)?;
    (before.ends_with('<') && behind.starts_with('>')).then(|| "for not the same, type !=".to_owned())
}

/// Recognises the decimal comma of `8,5 cm`, which may be the comma of thousands, as in `$1,200`; returns the hint what to
/// type.
pub(super) fn decimal_comma(source: &Source, comma: usize) -> Option<String> {
    let tokens = source.tokens();
    let (before, comma, after) = (tokens.get(comma.checked_sub(1)?)?, tokens.get(comma)?, tokens.get(comma + 1)?);
    let text = |token: &Token| source.typed.get(token.span.clone()).unwrap_or_default();
    let close = before.span.end == comma.span.start && comma.span.end == after.span.start;
    let digits =
        text(before).ends_with(|c: char| c.is_ascii_digit()) && text(after).starts_with(|c: char| c.is_ascii_digit());
    if !(text(comma) == "," && close && digits) {
        return None;
    }
    let (whole, more) = (text(before), text(after));
    let decimal = || format!("for a decimal, type a point: {whole}.{more}");
    let figure = more.split(|c: char| !c.is_ascii_digit()).next().unwrap_or_default();
    let thousands = figure.len() == 3 && !more.contains('.');
    let money = !whole.starts_with(|c: char| c.is_ascii_digit());
    Some(match (thousands, money) {
        (true, true) => format!("for thousands, leave the comma out: {whole}{more}"),
        (true, false) => format!("for thousands, leave the comma out: {whole}{more}; {}", decimal()),
        (false, _) => decimal(),
    })
}

/// Recognises `$80 + 15 %`; returns a hint with the two sums it could mean.
pub(super) fn share_added(sign: &str, left: Quantity, right: Quantity, style: &Style) -> Option<String> {
    let is_share = right.liked().named == Some(Unit::Percent) && right.dimension() == Dimension::NUMBER;
    let more = match sign {
        "+" => "more",
        "-" => "less",
        _ => return None,
    };
    let (whole, share) = (style.show(left), style.show(right));
    let exact =
        [&whole, &share].iter().all(|shown| shown.starts_with(|c: char| c.is_ascii_digit() || c == style.currency));
    let whole = if exact { whole } else { "waist".to_owned() };
    let share = if exact { share } else { "15 %".to_owned() };
    (is_share && !left.dimension().is_number()).then(|| {
        format!("for {share} {more}, type {whole} {sign} {share} of {whole}; for that share alone, {share} of {whole}")
    })
}

#[cfg(test)]
mod tests {
    use crate::engine::limits::{Limits, StopFlag};
    use crate::engine::{Expression, Host};
    use crate::quantity::{Reading, Style};
    use rhai::Scope;

    /// The value shown, or else the hint or message of the diagnostic.
    fn shown(typed: &str) -> String {
        let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
        let answer = Expression::compile(&host, typed).and_then(|sum| sum.evaluate(&host, &mut Scope::new()));
        match answer {
            Ok(value) => crate::engine::value::show(&value, &Style::default()).unwrap(),
            Err(diagnostic) => diagnostic.hint.unwrap_or(diagnostic.message),
        }
    }

    #[test]
    fn sums_as_they_are_said() {
        assert_eq!(shown("15% of $80"), "$12.00");
        assert_eq!(shown("$80 + 15 % of $80"), "$92.00");
        assert_eq!(shown("3 in × 4 in"), "12 in^2");
        assert_eq!(shown("6 in ÷ 2"), "3 in");
        assert_eq!(shown("5 in − 2 in"), "3 in");
        assert_eq!(shown("$9.25 / yd * 3 yd"), "$27.75");
        assert_eq!(shown("1 < 2 and not (3 in ≥ 4 in) or 2 > 3"), "yes");
    }

    #[test]
    fn common_mistakes_are_told_what_to_type() {
        assert_eq!(shown("3 yd in cm"), "type 3 yd as cm");
        assert_eq!(shown("2 * (3 yd + 1 in) to cm"), "type 2 * (3 yd + 1 in) as cm");
        assert_eq!(shown("8,5 cm"), "for a decimal, type a point: 8.5 cm");
        assert_eq!(shown("$1,200"), "for thousands, leave the comma out: $1200");
        assert_eq!(
            shown("1,200 cm"),
            "for thousands, leave the comma out: 1200 cm; for a decimal, type a point: 1.200 cm"
        );
        assert_eq!(shown("3 <> 4"), "for not the same, type !=");
        assert_eq!(shown("3 === 4"), "to compare, type ==");
        assert_eq!(shown("2026-12-03"), shown("2026-12-03 + 1"));
        let kept = |day: &str| {
            format!("to keep it, put it in quotes: due = \"{day}\"; for a sum, put blanks between the figures")
        };
        assert_eq!(shown("2026-12-03"), kept("2026-12-03"));
        assert_eq!(shown("2026 - 12 - 3"), "2011");
        assert_eq!(shown("1000-10-5"), "985");
        assert_eq!(shown("3/12/2026"), kept("3/12/2026"));
        assert_eq!(shown("14 \" + 1/2 \""), "14 1/2 in");
        let two = "for 15 % more, type $80.00 + 15 % of $80.00; for that share alone, 15 % of $80.00";
        assert_eq!(shown("$80 + 15 %"), two);
        assert_eq!(shown("10 in - 5 %"), "for 5 % less, type 10 in - 5 % of 10 in; for that share alone, 5 % of 10 in");
        assert_eq!(
            shown("10 in / 3 + 15 %"),
            "for 15 % more, type waist + 15 % of waist; for that share alone, 15 % of waist"
        );
        assert_eq!(
            shown("10 in - 1/3 * 100 %"),
            "for 15 % less, type waist - 15 % of waist; for that share alone, 15 % of waist"
        );
        assert_eq!(shown("10 in + 0.15"), "give the plain number a unit, such as in or cm");
        assert_eq!(shown("10 in * 15 %"), "1 1/2 in");
        assert_eq!(shown("3 yd into cm"), "type 3 yd as cm");
        assert_eq!(shown("[3 yd][0] in cm"), "type [3 yd][0] as cm");
        assert_eq!(shown("length to yd"), "type length as yd");
        assert_eq!(shown("5 to cm"), "a name of two words is written with _: gathered_flat");
        assert_eq!(shown("$1,20"), "for a decimal, type a point: $1.20");
        assert_eq!(shown("1,2000 cm"), "for a decimal, type a point: 1.2000 cm");
        assert_eq!(shown("1,200.5 cm"), "for a decimal, type a point: 1.200.5 cm");
        assert_eq!(shown("8, 5 cm"), "for a decimal, type a point: 2.5");
        assert_eq!(shown("8 ,5 cm"), "for a decimal, type a point: 2.5");
        assert_eq!(shown("waist,5 cm"), "for a decimal, type a point: 2.5");
        assert_eq!(shown("3 x 4 in"), "for times, type *; for an area, both sizes need a unit: 3 in * 4 in");
    }
}
