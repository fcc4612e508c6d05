//! Breaks text into lines of a width in screen columns.
//!
//! A measure that fits on a line is never broken: `10 3/8 in` stays on one line, or moves to the next one whole.

use crate::quantity::Unit;
use unicode_width::UnicodeWidthStr;

/// The screen columns of a text; wide characters count as two.
pub(crate) fn width(text: &str) -> usize {
    text.width()
}

/// Wraps a text into lines of at most `limit` columns, broken at blanks. A word longer than a line is broken where
/// the line ends. An empty text is one empty line.
pub(crate) fn wrap(text: &str, limit: usize) -> Vec<String> {
    let limit = limit.max(2);
    let mut lines = Vec::new();
    let mut line = String::new();
    for unbroken in unbroken_parts(text) {
        if width(&unbroken) <= limit {
            add(&mut line, &unbroken, limit, &mut lines);
            continue;
        }
        for word in unbroken.split(' ') {
            if width(word) <= limit {
                add(&mut line, word, limit, &mut lines);
                continue;
            }
            for piece in pieces(word, limit) {
                add(&mut line, &piece, limit, &mut lines);
            }
        }
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// Wraps a text after a prefix: the prefix before the first line, as many blanks before the rest.
pub(crate) fn hang(prefix: &str, text: &str, limit: usize) -> Vec<String> {
    let indent = width(prefix);
    let blanks = " ".repeat(indent);
    let wrapped = wrap(text, limit.saturating_sub(indent));
    let lines = wrapped.into_iter().enumerate();
    lines.map(|(at, line)| format!("{}{line}", if at == 0 { prefix } else { &blanks }).trim_end().to_owned()).collect()
}

/// Pads a text with blanks to a number of columns, at its left if `right`.
pub(crate) fn pad(text: &str, columns: usize, right: bool) -> String {
    let blanks = " ".repeat(columns.saturating_sub(width(text)));
    if right { format!("{blanks}{text}") } else { format!("{text}{blanks}") }
}

/// The columns of the longest part that [`wrap`] would keep on one line.
pub(crate) fn longest_part(text: &str) -> usize {
    unbroken_parts(text).iter().map(|part| width(part)).max().unwrap_or(0)
}

fn add(line: &mut String, part: &str, limit: usize, lines: &mut Vec<String>) {
    if line.is_empty() {
        part.clone_into(line);
        return;
    }
    let longer = format!("{line} {part}");
    if width(&longer) <= limit {
        *line = longer;
    } else {
        lines.push(std::mem::replace(line, part.to_owned()));
    }
}

/// Splits a long word into pieces of at most `limit` columns, two or more; a combining mark stays with its letter.
fn pieces(word: &str, limit: usize) -> Vec<String> {
    let mut done = Vec::new();
    let mut piece = String::new();
    for c in word.chars() {
        let mut longer = piece.clone();
        longer.push(c);
        if width(&longer) > limit {
            done.push(std::mem::replace(&mut piece, c.to_string()));
        } else {
            piece = longer;
        }
    }
    done.push(piece);
    done
}

/// The words of a text, with those of one measure kept together.
fn unbroken_parts(text: &str) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    let mut before = "";
    let mut measured = false;
    for word in text.split_whitespace() {
        let is_unit = Unit::named(bare(word)).is_some();
        let held = continues_measure(before, word, is_unit, measured);
        match parts.last_mut().filter(|_| held) {
            Some(part) => part.extend([" ", word]),
            None => parts.push(word.to_owned()),
        }
        measured = held && is_unit;
        before = word;
    }
    parts
}

/// Whether a word continues the measure that ends with the word before it.
fn continues_measure(before: &str, word: &str, is_unit: bool, measured: bool) -> bool {
    if matches!(bare(before), "≈" | "about") {
        return begins_a_number(word);
    }
    if measured {
        // 2 yd 6 in, 1 h 20 min
        let goes_on = matches!(before, "yd" | "ft" | "m" | "h" | "lb" | "kg");
        return goes_on && begins_a_number(word);
    }
    ends_a_number(before) && (is_unit || is_fraction(bare(word)))
}

fn bare(word: &str) -> &str {
    word.trim_matches(['(', ')', ',', '.', ';', ':'])
}

fn begins_a_number(word: &str) -> bool {
    let bare = word.trim_start_matches(['(', '-', '$', '£', '€']);
    bare.starts_with(|c: char| c.is_numeric())
}

fn ends_a_number(word: &str) -> bool {
    begins_a_number(word) && word.ends_with(char::is_numeric)
}

fn is_fraction(word: &str) -> bool {
    match word.split_once('/') {
        Some((above, below)) => {
            [above, below].iter().all(|part| !part.is_empty() && part.chars().all(|c| c.is_ascii_digit()))
        }
        None => !word.is_empty() && word.chars().all(|c| c.is_numeric() && !c.is_ascii_digit()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn lines_break_at_blanks() {
        assert_eq!(wrap("gather the upper edge", 10), ["gather the", "upper edge"]);
        assert_eq!(wrap("", 10), [""]);
        assert_eq!(wrap("  a  b  ", 10), ["a b"]);
        assert_eq!(wrap("overlocking", 5), ["overl", "ockin", "g"]);
    }

    #[test]
    fn a_measure_is_never_broken() {
        assert_eq!(wrap("cut it 10 3/8 in long", 12), ["cut it", "10 3/8 in", "long"]);
        assert_eq!(wrap("allow ≈ 36.8 cm here", 10), ["allow", "≈ 36.8 cm", "here"]);
        assert_eq!(wrap("to 14 1/2 in (about 36.8 cm).", 17), ["to 14 1/2 in", "(about 36.8 cm)."]);
        assert_eq!(wrap("buy 2 yd 6 3/8 in of it", 14), ["buy", "2 yd 6 3/8 in", "of it"]);
        assert_eq!(wrap("it takes 1 h 20 min in all", 12), ["it takes", "1 h 20 min", "in all"]);
        assert_eq!(wrap("leave 2 ½ in free", 9), ["leave", "2 ½ in", "free"]);
        // Wider than the line: broken between its words rather than lost.
        assert_eq!(wrap("10 3/8 in", 6), ["10 3/8", "in"]);
    }

    /// By counting, at just the width and one column less.
    #[test]
    fn a_line_is_full_at_its_last_column() {
        assert_eq!(wrap("abc de", 6), ["abc de"]);
        assert_eq!(wrap("abc de", 5), ["abc", "de"]);
        assert_eq!(wrap("abcde", 5), ["abcde"]);
        assert_eq!(wrap("abcde f", 4), ["abcd", "e f"]);
        assert_eq!(wrap("10 3/8 in", 9), ["10 3/8 in"]);
        assert_eq!(wrap("10 3/8 in", 8), ["10 3/8", "in"]);
        assert_eq!(wrap("1234567 in", 7), ["1234567", "in"]);
        assert_eq!(wrap("12345678 in", 7), ["1234567", "8 in"]);
        // A wide character needs two columns, however narrow the line.
        assert_eq!(wrap("絹絹", 0), ["絹", "絹"]);
        assert_eq!(wrap("abc", 1), ["ab", "c"]);
        assert_eq!(wrap("abe\u{301}d", 3), ["abe\u{301}", "d"]);
        assert_eq!(hang("- ", "ab cd", 6), ["- ab", "  cd"]);
        assert_eq!(hang("- ", "ab cd", 7), ["- ab cd"]);
        assert_eq!(hang("- ", "", 7), ["-"]);
        assert_eq!(
            (pad("ab", 4, false), pad("ab", 4, true), pad("abc", 2, true)),
            ("ab  ".into(), "  ab".into(), "abc".into())
        );
    }

    /// By counting: the columns of the longest part that stays whole.
    #[test]
    fn a_part_is_a_word_or_all_of_a_measure() {
        for (text, columns) in [
            ("", 0),
            ("3 in 4 in", 4),
            ("3 in 6", 4),
            ("2 yd 6 3/8 in", 13),
            ("6 yd 2 ft", 9),
            ("2 yd cloth", 5),
            ("yd 6", 2),
            ("≈ wide", 4),
            ("≈ 36.8 cm", 9),
            ("(about 36.8 cm)", 15),
            ("1 h 20 min", 10),
            ("10, in", 3),
            ("-4 in", 5),
            ("$4 3/8", 6),
            ("x4 in", 2),
            ("4x in", 2),
            ("2 3", 1),
            ("2 (3/8)", 7),
            ("2 3/", 2),
            ("2 /8", 2),
            ("2 a/8", 3),
            ("2 3/a", 3),
            ("2 3/8 in.", 9),
            ("2 ½ in", 6),
            ("2 1½", 2),
            ("2 ,", 1),
            ("a 1/2", 3),
        ] {
            assert_eq!(longest_part(text), columns, "{text}");
        }
    }

    #[test]
    fn wide_characters_count_twice() {
        assert_eq!(width("絹 a"), 4);
        assert_eq!(wrap("絹絹絹", 4), ["絹絹", "絹"]);
        assert_eq!(pad("絹", 4, true), "  絹");
        assert_eq!(pad("e\u{301}", 3, false), "e\u{301}  ");
    }

    #[test]
    fn a_hanging_line_stands_behind_its_prefix() {
        assert_eq!(hang("[ ] 1. ", "sew the band on", 16), ["[ ] 1. sew the", "       band on"]);
    }

    proptest! {
        #[test]
        fn no_line_is_too_wide_and_no_letter_is_lost(text in "\\PC{0,60}", limit in 2_usize..30) {
            let lines = wrap(&text, limit);
            prop_assert!(lines.iter().all(|line| width(line) <= limit), "{:?}", lines);
            let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
            prop_assert_eq!(letters(&lines.concat()), letters(&text));
        }
    }
}
