//! What is done about the share that a material loses in its first wash.
//!
//! Never here: sizes before and after the wash.

use super::names;
use serde::{Deserialize, Serialize};

/// How goods are cut that lose in the first wash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Washing {
    /// They are washed before anything is cut.
    WashedFirst,
    /// They are cut unwashed, each piece larger by what the wash takes.
    CutLonger,
    /// They are cut unwashed, and every size is that before washing.
    AsItComes,
}

impl Washing {
    /// The words in a list of materials.
    pub const WORDS: [(&'static str, Self); 3] =
        [("washed first", Self::WashedFirst), ("cut longer", Self::CutLonger), ("as it comes", Self::AsItComes)];

    /// Returns the words for it.
    pub fn words(self) -> &'static str {
        Self::WORDS.iter().find(|(_, washing)| *washing == self).map_or("", |(words, _)| words)
    }

    /// Parses the words, or `first` and `longer` alone; ignores case, and takes spaces, `_` and `-` as equal.
    pub fn named(written: &str) -> Option<Self> {
        let key = names::word_key(written);
        let short = [("first", Self::WashedFirst), ("washed", Self::WashedFirst), ("longer", Self::CutLonger)];
        let found = Self::WORDS.iter().chain(&short).find(|(words, _)| *words == key);
        found.map(|(_, washing)| *washing)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_are_read_however_they_are_joined() {
        for (written, washing) in [
            ("washed first", Washing::WashedFirst),
            ("Washed_First", Washing::WashedFirst),
            ("first", Washing::WashedFirst),
            ("cut-longer", Washing::CutLonger),
            (" longer ", Washing::CutLonger),
            ("as it comes", Washing::AsItComes),
            ("as_it_comes", Washing::AsItComes),
        ] {
            assert_eq!(Washing::named(written), Some(washing), "{written}");
        }
        assert_eq!(Washing::named("shorter"), None);
        for (words, washing) in Washing::WORDS {
            assert_eq!((washing.words(), Washing::named(words)), (words, Some(washing)));
        }
    }
}
