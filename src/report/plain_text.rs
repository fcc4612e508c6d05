//! Makes texts of unknown origin harmless to a terminal.
//!
//! A shared recipe or a file from elsewhere may carry escape codes that recolour, move or rewrite what is on the
//! screen, or characters that reverse the reading order. All of them are removed here.
//!
//! Files go through it too: what is written today is read at a terminal tomorrow. Never here: the escapes that a kind of
//! file asks for.

use crate::table::csv_file::is_unprintable;
use std::iter::Peekable;
use std::str::Chars;

/// The text on one line: without control characters, escape sequences and characters that override the reading order.
/// Line breaks and tabs, with the blanks around them, become one blank.
pub fn one_line(text: &str) -> String {
    let cleaned = cleaned(text);
    if !cleaned.contains('\n') {
        return cleaned;
    }
    let parts: Vec<&str> = cleaned.split('\n').map(str::trim).filter(|part| !part.is_empty()).collect();
    parts.join(" ")
}

/// The text line by line, each line cleaned as by [`one_line`].
pub fn lines(text: &str) -> Vec<String> {
    text.lines().map(one_line).collect()
}

/// Whether a character would change the reading order of the text beside it.
fn overrides_reading_order(c: char) -> bool {
    matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{206F}')
}

/// Whether a character may stand in no XML document, and so in no picture (XML 1.0, 2.2, from memory).
fn is_no_character(c: char) -> bool {
    matches!(c, '\u{FFFE}' | '\u{FFFF}')
}

/// Whether a character takes no room, so that two names may look the same, or would act on a terminal.
pub fn is_unseen(c: char) -> bool {
    is_unprintable(c) || is_no_character(c)
}

/// Keeps everything harmless; each line break or tab becomes `\n`.
fn cleaned(text: &str) -> String {
    let mut kept = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        match c {
            '\u{1B}' => skip_escape(&mut rest),
            '\u{9B}' => skip_control_sequence(&mut rest),
            '\u{90}' | '\u{98}' | '\u{9D}'..='\u{9F}' => skip_string(&mut rest),
            '\t'..='\r' | '\u{85}' | '\u{2028}' | '\u{2029}' => kept.push('\n'),
            c if c.is_control() || overrides_reading_order(c) || is_no_character(c) => {}
            c => kept.push(c),
        }
    }
    kept
}

/// Skips the rest of an escape sequence (ECMA-48, 5.4 and 8.3, from memory).
fn skip_escape(rest: &mut Peekable<Chars<'_>>) {
    match rest.peek() {
        Some('[') => {
            rest.next();
            skip_control_sequence(rest);
        }
        Some(']' | 'P' | 'X' | '^' | '_') => {
            rest.next();
            skip_string(rest);
        }
        Some(' '..='/') => {
            while rest.next_if(|c| matches!(c, ' '..='/')).is_some() {}
            rest.next_if(|c| matches!(c, '0'..='~'));
        }
        _ => {
            rest.next_if(|c| matches!(c, '0'..='~'));
        }
    }
}

/// Skips parameters, intermediates and the final letter, as in `31m`.
fn skip_control_sequence(rest: &mut Peekable<Chars<'_>>) {
    while rest.next_if(|c| matches!(c, '0'..='?')).is_some() {}
    while rest.next_if(|c| matches!(c, ' '..='/')).is_some() {}
    rest.next_if(|c| matches!(c, '@'..='~'));
}

/// Skips a command string up to its end; if it has none, the text is kept so that nothing is hidden.
fn skip_string(rest: &mut Peekable<Chars<'_>>) {
    let mut ahead = rest.clone();
    while let Some(c) = ahead.next() {
        let ended = match c {
            '\u{7}' | '\u{9C}' => true,
            '\u{1B}' => ahead.next_if_eq(&'\\').is_some(),
            _ => false,
        };
        if ended {
            *rest = ahead;
            return;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn check(text: &str, cleaned: &str) {
        assert_eq!(one_line(text), cleaned, "{text:?}");
    }

    #[test]
    fn escape_codes_go_with_all_that_belongs_to_them() {
        check("\u{1b}[31mred\u{1b}[0m band", "red band");
        check("\u{1b}[2J\u{1b}[Hgone", "gone");
        check("\u{9b}31mred", "red");
        check("a\u{1b}]0;title\u{7}b", "ab");
        check("a\u{1b}]8;;http://x\u{1b}\\link\u{1b}]8;;\u{1b}\\b", "alinkb");
        check("a\u{1b}(Bb\u{1b}c\u{1b}", "ab");
        check("\u{1b}\u{1b}[31mred", "red");
        check("a\u{1b}]0;no end", "a0;no end");
    }

    #[test]
    fn a_cell_has_one_line() {
        check("first\r\nsecond", "first second");
        check("first \n\n\t second", "first second");
        check("\nfirst\n", "first");
        check("two  blanks", "two  blanks");
        check("page\u{2028}break", "page break");
        assert_eq!(lines("first\u{1b}[1m\nse\tcond"), ["first", "se cond"]);
    }

    #[test]
    fn the_reading_order_is_not_turned_round() {
        check("cut \u{202e}01\u{202c} pieces", "cut 01 pieces");
        check("\u{2066}a\u{2069}", "a");
        check("bell\u{7} null\0 del\u{7f}", "bell null del");
        check("no\u{FFFE} character\u{FFFF}", "no character");
    }

    #[test]
    fn every_script_is_kept() {
        check("Rüsche ½ 絹 עברית 👩‍👧", "Rüsche ½ 絹 עברית 👩‍👧");
    }

    proptest! {
        #[test]
        fn nothing_harmful_is_left(text in any::<String>(), tail in "[\u{0}-\u{9f}\u{202a}-\u{202e}a-z]*") {
            let cleaned = one_line(&format!("{text}{tail}"));
            prop_assert!(!cleaned.chars().any(|c| c.is_control() || overrides_reading_order(c) || is_no_character(c)));
            prop_assert_eq!(&one_line(&cleaned), &cleaned);
        }
    }
}
