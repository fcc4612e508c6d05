//! Names as a person writes them: compared without regard to case and blanks, and the nearest one to a slip.
//!
//! Never here: what a name stands for.

/// What two spellings of one name have in common: no capitals, single blanks.
pub fn key(name: &str) -> String {
    name.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The same for headings and fixed words, where a hyphen or an underscore is as good as a blank.
pub(super) fn word_key(word: &str) -> String {
    key(&word.replace(['-', '_', '\u{2011}'], " "))
}

/// The name nearest to what was written, if any is near: a few letters off, or one part of the other.
pub fn nearest<'n>(written: &str, names: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let written = word_key(written);
    let length = written.chars().count();
    let slips = (length / 3).clamp(1, 3);
    names
        .into_iter()
        .filter_map(|name| {
            let known = word_key(name);
            let apart = strsim::damerau_levenshtein(&written, &known);
            let part = length >= 4 && known.contains(&written) || known.len() >= 4 && written.contains(&known);
            // Another number is another thing, not a slip: 1/10 in is not nearly 1/16 in.
            let same_digits =
                written.chars().filter(char::is_ascii_digit).eq(known.chars().filter(char::is_ascii_digit));
            (same_digits && (apart <= slips || part)).then_some((apart, name))
        })
        .min_by_key(|(apart, _)| *apart)
        .map(|(_, name)| name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_finds_its_name_and_nonsense_finds_none() {
        let names = ["ivory tulle", "wide tulle", "satin"];
        assert_eq!(nearest("Ivory  tule", names), Some("ivory tulle"));
        assert_eq!(nearest("satn", names), Some("satin"));
        assert_eq!(nearest("wide", names), Some("wide tulle"));
        assert_eq!(nearest("corduroy", names), None);
        assert_eq!(nearest("lot 12", ["lot 13", "lto 12"]), Some("lto 12"));
        assert_eq!(nearest("", names), None);
    }

    #[test]
    fn capitals_and_blanks_do_not_part_two_spellings() {
        assert_eq!(key("  Ivory   Tulle "), key("ivory tulle"));
        assert_ne!(key("put-up"), key("put up"));
        assert_eq!(word_key("Put-Up"), word_key("put up"));
    }
}
