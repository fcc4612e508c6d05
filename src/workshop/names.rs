//! Names as a person writes them: compared ignoring case and extra blanks.
//!
//! Never here: what a name refers to.

pub(crate) use crate::quantity::nearest::nearest;

/// A key that all spellings of a name share: lowercase, single blanks.
pub(crate) fn key(name: &str) -> String {
    name.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The same for headings and fixed words, where a hyphen or an underscore counts as a blank.
pub(super) fn word_key(word: &str) -> String {
    key(&word.replace(['-', '_', '\u{2011}'], " "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn capitals_and_blanks_do_not_part_two_spellings() {
        assert_eq!(key("  Ivory   Tulle "), key("ivory tulle"));
        assert_ne!(key("put-up"), key("put up"));
        assert_eq!(word_key("Put-Up"), word_key("put up"));
    }
}
