//! What a garment is made for: the few uses that rules and cautions tell apart.
//!
//! Never here: which rule concerns which use.

use serde::{Deserialize, Serialize};

/// A use.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Usage {
    /// Everyday clothing.
    DayWear,
    /// Jackets, cloaks and hoods over other clothes.
    Outdoors,
    /// Sleeping, and what is worn to bed and about it.
    Sleep,
    /// Lessons and rehearsals.
    DanceClass,
    /// On a stage, under lights.
    Stage,
    /// A costume to play in, at home or at a party.
    DressingUp,
    /// Curtains, cushions, linen: worn by nobody.
    Household,
}

impl Usage {
    /// The words an order says, in order.
    pub const WORDS: [(&'static str, Self); 7] = [
        ("day wear", Self::DayWear),
        ("outdoors", Self::Outdoors),
        ("sleep", Self::Sleep),
        ("dance class", Self::DanceClass),
        ("stage", Self::Stage),
        ("dressing up", Self::DressingUp),
        ("household", Self::Household),
    ];

    /// The words for it.
    pub fn words(self) -> &'static str {
        Self::WORDS.iter().find(|(_, usage)| *usage == self).map_or("", |(words, _)| words)
    }

    /// The use of these words, whatever their capitals and blanks.
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
