//! Recipe texts: the shipped set, helper files, and the fingerprint by which a recipe is accepted.

use crate::engine::text::tokens::{TokenKind, Tokens};
use crate::quantity::Reading;
use crate::recipe::contract::header::{CONTRACT, Header};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::sync::Arc;

/// A recipe and the helper files it may import.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecipeText {
    /// The file name without extension.
    pub name: String,
    /// The script.
    pub text: String,
    /// The text of helper files, by file name without extension.
    pub helpers: BTreeMap<String, String>,
}

/// The shipped recipes, built into the program so that they are always available.
const RECIPES: &[(&str, &str)] = &[
    ("bed_valance", include_str!("../../recipes/bed_valance.rhai")),
    ("bell_sleeve", include_str!("../../recipes/bell_sleeve.rhai")),
    ("bias_binding", include_str!("../../recipes/bias_binding.rhai")),
    ("bishop_sleeve", include_str!("../../recipes/bishop_sleeve.rhai")),
    ("bunting", include_str!("../../recipes/bunting.rhai")),
    ("cafe_curtain", include_str!("../../recipes/cafe_curtain.rhai")),
    ("circle_skirt", include_str!("../../recipes/circle_skirt.rhai")),
    ("circular_flounce", include_str!("../../recipes/circular_flounce.rhai")),
    ("curtains", include_str!("../../recipes/curtains.rhai")),
    ("drawstring_bag", include_str!("../../recipes/drawstring_bag.rhai")),
    ("gathered_skirt", include_str!("../../recipes/gathered_skirt.rhai")),
    ("gathered_trim", include_str!("../../recipes/gathered_trim.rhai")),
    ("gored_skirt", include_str!("../../recipes/gored_skirt.rhai")),
    ("pencil_curtains", include_str!("../../recipes/pencil_curtains.rhai")),
    ("pinch_curtains", include_str!("../../recipes/pinch_curtains.rhai")),
    ("pleated_skirt", include_str!("../../recipes/pleated_skirt.rhai")),
    ("pleated_strip", include_str!("../../recipes/pleated_strip.rhai")),
    ("puff_sleeve", include_str!("../../recipes/puff_sleeve.rhai")),
    ("round_cloth", include_str!("../../recipes/round_cloth.rhai")),
    ("ruffled_cushion", include_str!("../../recipes/ruffled_cushion.rhai")),
    ("sash_and_bow", include_str!("../../recipes/sash_and_bow.rhai")),
    ("strips_knotted", include_str!("../../recipes/strips_knotted.rhai")),
    ("strips_on_band", include_str!("../../recipes/strips_on_band.rhai")),
    ("tiered_skirt", include_str!("../../recipes/tiered_skirt.rhai")),
    ("valance", include_str!("../../recipes/valance.rhai")),
];

/// The shipped helper files.
const HELPERS: &[(&str, &str)] = &[
    ("bands", include_str!("../../recipes/bands.rhai")),
    ("frills", include_str!("../../recipes/frills.rhai")),
    ("hangings", include_str!("../../recipes/hangings.rhai")),
    ("patterns", include_str!("../../recipes/patterns.rhai")),
    ("pleating", include_str!("../../recipes/pleating.rhai")),
    ("skirts", include_str!("../../recipes/skirts.rhai")),
    ("sleeves", include_str!("../../recipes/sleeves.rhai")),
];

/// Returns the names of the shipped recipes.
pub fn shipped_names() -> impl Iterator<Item = &'static str> {
    RECIPES.iter().map(|(name, _)| *name)
}

/// Returns the shipped helper files by name.
pub fn shipped_helpers() -> BTreeMap<String, String> {
    HELPERS.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
}

/// Returns the shipped recipe of this name.
pub fn shipped(name: &str) -> Option<RecipeText> {
    let (name, text) = RECIPES.iter().find(|(known, _)| *known == name)?;
    Some(RecipeText { name: (*name).to_owned(), text: (*text).to_owned(), helpers: shipped_helpers() })
}

impl RecipeText {
    /// Returns the helper files it imports, directly or through another; missing ones are left out.
    pub fn reached(&self) -> BTreeMap<&str, &str> {
        let mut reached = BTreeMap::new();
        let mut waiting = imports(&self.text);
        while let Some(name) = waiting.pop() {
            if let Some((name, text)) = self.helpers.get_key_value(&name)
                && reached.insert(name.as_str(), text.as_str()).is_none()
            {
                waiting.extend(imports(text));
            }
        }
        reached
    }

    /// Returns a fingerprint that changes whenever the recipe, a helper it imports, or the contract changes. Blank lines
    /// before and behind a text are none of it, so that a recipe passed on in one file is the same recipe.
    pub fn fingerprint(&self) -> String {
        let mut hash = Sha256::new();
        hash.update(format!("contract {CONTRACT}\n"));
        let parts = std::iter::once(("", self.text.as_str())).chain(self.reached());
        for (name, text) in parts.map(|(name, text)| (name, without_blank_ends(text))) {
            // Without lengths, texts could run together.
            hash.update(format!("{name} {}\n", text.len()));
            hash.update(text);
        }
        hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect::<Vec<_>>().concat()
    }

    /// Parses its header.
    pub fn header(&self) -> Header {
        Header::read(&self.text)
    }

    /// Returns whether it has the fingerprint of the shipped recipe of its name.
    pub fn is_shipped(&self) -> bool {
        shipped(&self.name).is_some_and(|shipped| shipped.fingerprint() == self.fingerprint())
    }
}

/// A recipe with what follows from its text, computed once. Clones share the text.
#[derive(Clone, Debug)]
pub struct LoadedRecipe {
    /// The recipe's text and helper files.
    pub text: Arc<RecipeText>,
    /// The result of [`RecipeText::fingerprint`].
    pub fingerprint: Arc<str>,
    /// The result of [`RecipeText::is_shipped`].
    pub is_shipped: bool,
}

impl From<RecipeText> for LoadedRecipe {
    fn from(text: RecipeText) -> Self {
        let fingerprint = text.fingerprint();
        let is_shipped =
            shipped(&text.name).is_some_and(|shipped| shipped == text || shipped.fingerprint() == fingerprint);
        Self { text: Arc::new(text), fingerprint: fingerprint.into(), is_shipped }
    }
}

/// A text without the line ends before and behind it.
pub(super) fn without_blank_ends(text: &str) -> &str {
    text.trim_matches(['\n', '\r'])
}

/// Returns the names a script imports; empty if the script has no valid tokens.
pub fn imports(text: &str) -> Vec<String> {
    let Ok(tokens) = Tokens::read(text, Reading::default()) else { return Vec::new() };
    let word = |span: std::ops::Range<usize>| text.get(span).unwrap_or_default();
    tokens
        .list
        .windows(2)
        .filter_map(|pair| match pair {
            [first, second] if word(first.span.clone()) == "import" && second.kind == TokenKind::Text => {
                Some(word(second.span.clone()).trim_matches('"').to_owned())
            }
            _ => None,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fingerprint_follows_the_imports_and_nothing_else() {
        let mut recipe = RecipeText {
            name: "a".to_owned(),
            text: "import \"b\" as b;".to_owned(),
            helpers: BTreeMap::from([
                ("b".to_owned(), "import \"c\" as c;".to_owned()),
                ("c".to_owned(), "1".to_owned()),
                ("d".to_owned(), "1".to_owned()),
            ]),
        };
        let first = recipe.fingerprint();
        recipe.helpers.insert("d".to_owned(), "2".to_owned());
        assert_eq!(recipe.fingerprint(), first, "a helper that is not imported does not matter");
        recipe.helpers.insert("c".to_owned(), "2".to_owned());
        assert_ne!(recipe.fingerprint(), first, "a helper's helper does");
        let second = recipe.fingerprint();
        recipe.helpers.insert("c".to_owned(), "\n\n2\n".to_owned());
        recipe.text.push('\n');
        assert_eq!(recipe.fingerprint(), second, "blank lines round a text do not");
        recipe.text.push(' ');
        assert_ne!(recipe.fingerprint(), second, "anything else does");
    }
}
