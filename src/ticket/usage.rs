//! The uses of a garment: the few that rules and cautions distinguish.
//!
//! Never here: which rule applies to which use.

use serde::{Deserialize, Serialize};

/// What a garment is made for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Usage {
    /// Everyday clothing.
    DayWear,
    /// Jackets, cloaks and hoods over other clothes.
    Outdoors,
    /// Nightwear, and what is worn before and after bed.
    Sleep,
    /// Lessons and rehearsals.
    DanceClass,
    /// On a stage, under lights.
    Stage,
    /// A costume to play in, at home or at a party.
    DressingUp,
    /// Curtains, cushions, linen: not worn.
    Household,
}

impl Usage {
    /// The words for each use, in the order of the variants.
    pub const WORDS: [(&'static str, Self); 7] = [
        ("day wear", Self::DayWear),
        ("outdoors", Self::Outdoors),
        ("sleep", Self::Sleep),
        ("dance class", Self::DanceClass),
        ("stage", Self::Stage),
        ("dressing up", Self::DressingUp),
        ("household", Self::Household),
    ];

    /// Returns the words for the use.
    pub fn words(self) -> &'static str {
        Self::WORDS.iter().find(|(_, usage)| *usage == self).map_or("", |(words, _)| words)
    }

    /// Parses the words for a use; ignores case, and takes spaces, `_` and `-` as equal.
    pub fn named(written: &str) -> Option<Self> {
        let plain = |words: &str| words.to_lowercase().split([' ', '_', '-']).collect::<Vec<_>>().join(" ");
        let written = plain(written.trim());
        Self::WORDS.iter().find(|(words, _)| *words == written).map(|(_, usage)| *usage)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_use_has_its_words() {
        for (words, usage) in Usage::WORDS {
            assert_eq!(usage.words(), words);
            assert_eq!(Usage::named(&words.to_uppercase().replace(' ', "_")), Some(usage));
        }
        assert_eq!(Usage::named("to bed"), None);
    }
}
