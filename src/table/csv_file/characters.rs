//! The guard before texts that a spreadsheet would run, and invisible characters.
//!
//! Never here: cleaning texts for a screen.

use std::borrow::Cow;

/// Characters that make a spreadsheet take a text for a formula (OWASP ASVS 5.0, 1.2.10, from memory; the carriage
/// return is common practice, no source).
const FORMULA_SIGNS: [char; 7] = ['=', '+', '-', '@', '\t', '\r', '\0'];

/// Those of them that can be seen, plain and of full width.
const SIGNS: [char; 8] = ['=', '+', '-', '@', '\u{FF1D}', '\u{FF0B}', '\u{FF0D}', '\u{FF20}'];

/// A text as a field that no spreadsheet takes for a formula; see [`unguarded`].
pub(crate) fn guarded(text: &str) -> Cow<'_, str> {
    if is_formula(text) { Cow::Owned(format!("'{text}")) } else { Cow::Borrowed(text) }
}

/// Whether a spreadsheet may take a text for a formula: some skip blanks and what cannot be seen, and take a sign of full
/// width for the plain one (common practice, no source).
fn is_formula(text: &str) -> bool {
    let skipped = |c: char| c == '\'' || c.is_whitespace() || is_unprintable(c);
    let begins = text.trim_start_matches('\'');
    begins.starts_with(FORMULA_SIGNS) || begins.trim_start_matches(skipped).starts_with(|c| SIGNS.contains(&c))
}

/// The text without the guard, if there is one.
pub(crate) fn unguarded(field: &str) -> &str {
    match field.strip_prefix('\'') {
        Some(text) if is_formula(text) => text,
        _ => field,
    }
}

/// Characters that a terminal would act on, or that hide the text around them.
pub(crate) fn is_unprintable(sign: char) -> bool {
    sign.is_control()
        || matches!(sign, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

/// A field without unprintable characters. Line breaks, tabs, the zero-width joiner and non-joiner and the guard stay.
pub(super) fn cleaned(field: &str) -> String {
    let text = unguarded(field);
    let kept = |sign: &char| {
        let joins_letters = matches!(sign, '\u{200c}' | '\u{200d}');
        matches!(sign, '\n' | '\t') || joins_letters || !is_unprintable(*sign)
    };
    let cleaned: String = text.replace("\r\n", "\n").chars().filter(kept).collect();
    if text.len() == field.len() { cleaned.trim().to_owned() } else { guarded(&cleaned).into_owned() }
}
