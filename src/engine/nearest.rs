//! The name nearest to a mistyped one.

/// The known name that is written most nearly like `written`, if any is near enough to be meant.
pub fn nearest<'n>(written: &str, known: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let lower = written.to_lowercase();
    let allowed = match written.chars().count() {
        0..=2 => 0,
        3..=5 => 1,
        6..=9 => 2,
        _ => 3,
    };
    known
        .into_iter()
        .filter(|name| *name != written)
        .map(|name| (distance(&lower, &name.to_lowercase()), name))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, name)| (*distance, name.len().abs_diff(written.len())))
        .map(|(_, name)| name)
}

/// Words left out, or swapped, count as one slip: `flat_gathered` is near `gathered_flat`.
fn distance(written: &str, known: &str) -> usize {
    let straight = strsim::damerau_levenshtein(written, known);
    let sorted = |text: &str| {
        let mut words: Vec<&str> = text.split(['_', ' ']).collect();
        words.sort_unstable();
        words.join("_")
    };
    let shuffled = strsim::damerau_levenshtein(&sorted(written), &sorted(known)) + 1;
    straight.min(shuffled)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn slips_are_recognised_and_other_words_are_not() {
        let known = ["gathered_flat", "waist", "hip", "strips_for"];
        for (written, meant) in [
            ("wasit", Some("waist")),
            ("gatherd_flat", Some("gathered_flat")),
            ("flat_gathered", Some("gathered_flat")),
            ("Waist", Some("waist")),
            ("hem", None),
            ("x", None),
            ("ship", Some("hip")),
        ] {
            assert_eq!(nearest(written, known), meant, "{written}");
        }
    }
}
