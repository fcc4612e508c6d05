//! Girls and boys, as the published tables separate them.

/// One of the two halves of a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sex {
    /// Girls.
    Girl,
    /// Boys.
    Boy,
}

impl Sex {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Girl, Self::Boy];

    /// The words, in the same order.
    pub const WORDS: [&'static str; 2] = ["girl", "boy"];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Girl => "girl",
            Self::Boy => "boy",
        }
    }

    /// Parses a word.
    pub fn named(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|sex| sex.word() == word)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_is_read_back() {
        for (sex, word) in Sex::ALL.into_iter().zip(Sex::WORDS) {
            assert_eq!((sex.word(), Sex::named(word)), (word, Some(sex)));
        }
        assert_eq!(Sex::named("child"), None);
    }
}
