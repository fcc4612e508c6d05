//! Finds the known name closest to a mistyped one. Units have their own search, `Unit::nearest`.

/// Normalizes a name: lower case, single blanks, hyphens and underscores as blanks.
fn normalized(name: &str) -> String {
    name.to_lowercase().replace(['-', '_', '\u{2011}'], " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The known name closest to `written`, if any is close enough: a few letters off, its words in another order, or one
/// contained in the other.
pub(crate) fn nearest<'n>(written: &str, known: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let wanted = normalized(written);
    let length = wanted.chars().count();
    let allowed_edits = match length {
        0..=2 => 0,
        3..=5 => 1,
        6..=9 => 2,
        _ => 3,
    };
    let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    known
        .into_iter()
        .filter_map(|name| {
            let other = normalized(name);
            let is_contained = length >= 4 && other.contains(&wanted) || other.len() >= 4 && wanted.contains(&other);
            let edits = distance(&wanted, &other).min(distance_in_words(&wanted, &other));
            // Different digits mean a different name, not a typo: 1/10 in is not nearly 1/16 in.
            let same_digits = digits(&wanted) == digits(&other);
            (same_digits && (edits <= allowed_edits || is_contained)).then_some((edits, name))
        })
        .min_by_key(|(edits, name)| (*edits, name.len().abs_diff(written.len())))
        .map(|(_, name)| name)
}

/// Words in another order count as one edit: `flat_gathered` is near `gathered_flat`.
fn distance(wanted: &str, other: &str) -> usize {
    let sorted = |text: &str| {
        let mut words: Vec<&str> = text.split(' ').collect();
        words.sort_unstable();
        words.join(" ")
    };
    let straight = strsim::damerau_levenshtein(wanted, other);
    straight.min(strsim::damerau_levenshtein(&sorted(wanted), &sorted(other)) + 1)
}

/// The edits between a part of a longer name and its words: `chek lawn` in `blue check lawn`, and one for what is left
/// out. Too many where a word has no like in the name.
fn distance_in_words(wanted: &str, other: &str) -> usize {
    const TOO_MANY: usize = usize::MAX;
    let words: Vec<&str> = other.split(' ').collect();
    let mut edits = 1;
    for part in wanted.split(' ') {
        let allowed = part.chars().count().div_ceil(4);
        let nearest = words.iter().map(|word| strsim::damerau_levenshtein(part, word)).min();
        match nearest.filter(|nearest| part.len() > 2 && *nearest <= allowed.min(2)) {
            Some(nearest) => edits += nearest,
            None => return TOO_MANY,
        }
    }
    if wanted.contains(' ') { edits } else { TOO_MANY }
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_part_of_a_name_is_recognised_with_its_slips() {
        let known = ["white cotton lawn", "blue check lawn", "ivory satin"];
        assert_eq!(nearest("chek lawn", known), Some("blue check lawn"));
        assert_eq!(nearest("cotton lawm", known), Some("white cotton lawn"));
        assert_eq!(nearest("green velvet", known), None);
    }

    #[test]
    fn slips_are_recognised_and_other_words_are_not() {
        let known = ["gathered_flat", "waist", "hip", "strips_for", "ivory tulle", "wide tulle"];
        for (written, meant) in [
            ("wasit", Some("waist")),
            ("gatherd_flat", Some("gathered_flat")),
            ("flat_gathered", Some("gathered_flat")),
            ("gathered", Some("gathered_flat")),
            ("Waist", Some("waist")),
            ("Ivory  tule", Some("ivory tulle")),
            ("wide", Some("wide tulle")),
            ("hem", None),
            ("x", None),
            ("", None),
            ("ship", Some("hip")),
            ("corduroy", None),
        ] {
            assert_eq!(nearest(written, known), meant, "{written}");
        }
        assert_eq!(nearest("lot 12", ["lot 13", "lto 12"]), Some("lto 12"));
    }
}
