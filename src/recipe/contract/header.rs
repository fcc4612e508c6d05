//! The `//!` lines at the top of a recipe: what it makes, for whom, under which contract and licence.

use serde::{Deserialize, Serialize};

/// The version of the recipe contract that this program knows.
pub(in crate::recipe) const CONTRACT: u32 = 1;

/// The content of the top lines of a recipe.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Header {
    /// What it makes, in one sentence.
    pub makes: String,
    /// The version of the contract it is written for.
    pub contract: Option<u32>,
    /// The recipe's own version.
    pub version: Option<String>,
    /// The licence of the recipe.
    pub licence: Option<String>,
    /// Garment tags.
    pub tags: Vec<String>,
    /// A pen name, if the writer wishes.
    pub by: Option<String>,
    /// The recipe it was made after, and its version.
    pub after: Option<String>,
}

impl Header {
    /// Parses the header; missing fields stay empty, and the check of the recipe reports them.
    pub fn read(text: &str) -> Self {
        let mut header = Self::default();
        let lines = text.lines().map_while(|line| line.trim_start().strip_prefix("//!"));
        for line in lines.map(str::trim) {
            let fields = fields(line);
            if fields.is_empty() {
                if !header.makes.is_empty() && !line.is_empty() {
                    header.makes.push(' ');
                }
                header.makes.push_str(line);
            }
            for (key, value) in fields {
                match key {
                    "contract" => header.contract = value.parse().ok(),
                    "version" => header.version = Some(value.to_owned()),
                    "licence" => header.licence = Some(value.to_owned()),
                    "by" => header.by = Some(value.to_owned()),
                    "after" => header.after = Some(value.to_owned()),
                    _ => header.tags.extend(value.split(',').map(|tag| tag.trim().to_owned())),
                }
            }
        }
        header
    }

    /// Returns whether a recipe of this name and header is about a word, in the singular or the plural.
    pub fn is_about(&self, name: &str, word: &str) -> bool {
        let word = word.trim().to_lowercase();
        let one = word.strip_suffix('s').filter(|one| one.len() > 2).unwrap_or(&word);
        let texts = [name.replace('_', " "), self.makes.to_lowercase(), self.tags.join(" ")];
        texts.iter().any(|text| text.contains(one))
    }
}

const KEYS: [&str; 6] = ["contract", "version", "licence", "for", "by", "after"];

/// Parses `contract: 1   version: 1.0` into pairs; empty if the line is a sentence.
fn fields(line: &str) -> Vec<(&str, &str)> {
    let mut found = Vec::new();
    let starts: Vec<(usize, &str)> = KEYS
        .iter()
        .flat_map(|key| line.match_indices(&format!("{key}:")).map(|(at, _)| (at, *key)).collect::<Vec<_>>())
        .filter(|(at, _)| *at == 0 || line.get(..*at).is_some_and(|before| before.ends_with("  ")))
        .collect();
    let mut starts = starts;
    starts.sort_unstable();
    for (index, (at, key)) in starts.iter().enumerate() {
        let end = starts.get(index + 1).map_or(line.len(), |(next, _)| *next);
        if let Some(value) = line.get(at + key.len() + 1..end) {
            found.push((*key, value.trim()));
        }
    }
    if line.get(..1).is_some() && starts.first().is_some_and(|(at, _)| *at == 0) { found } else { Vec::new() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recipe_is_about_its_name_its_sentence_and_its_tags() {
        let header =
            Header { makes: "Puff sleeve on a cuff.".to_owned(), tags: vec!["child".to_owned()], ..Header::default() };
        for word in ["sleeve", "Sleeves", "puff", "child", "puff sl"] {
            assert!(header.is_about("puff_sleeve", word), "{word}");
        }
        assert!(!header.is_about("puff_sleeve", "curtain"));
    }

    #[test]
    fn sentence_and_fields_are_told_apart() {
        let header = Header::read(
            "//! Puff sleeve on a cuff: one pair,\n//! cut as mirror images.\n\
             //! contract: 1   version: 1.0   licence: CC0-1.0   for: sleeve, child\nfn inputs() {}",
        );
        assert_eq!(header.makes, "Puff sleeve on a cuff: one pair, cut as mirror images.");
        assert_eq!(header.contract, Some(1));
        assert_eq!(header.licence.as_deref(), Some("CC0-1.0"));
        assert_eq!(header.tags, ["sleeve", "child"]);
        assert_eq!(Header::read("fn inputs() {}"), Header::default());
    }
}
