//! The market where the workshop sells, which decides whose cautions and labels it sees.
//!
//! Never here: what a rule says.

/// A market with rules of its own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Market {
    /// Not set: the rules of all markets are shown, each with its market.
    #[default]
    Any,
    /// The United States.
    Us,
    /// The European Union.
    Eu,
    /// The United Kingdom.
    Uk,
}

impl Market {
    /// The words in settings.csv.
    pub const WORDS: [(&'static str, Self); 4] =
        [("any", Self::Any), ("US", Self::Us), ("EU", Self::Eu), ("UK", Self::Uk)];

    /// The word in settings.csv.
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, market)| *market == self).map_or("", |(word, _)| word)
    }

    /// Whether a rule of these markets is shown to a workshop that sells here; a rule without markets holds everywhere.
    pub fn shows(self, markets: &[Self]) -> bool {
        markets.is_empty() || self == Self::Any || markets.contains(&self)
    }

    /// Joins markets: `EU and UK`; empty for everywhere.
    pub fn listed(markets: &[Self]) -> String {
        markets.iter().map(|market| market.word()).collect::<Vec<_>>().join(" and ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_market_hears_its_own_rules_and_everybodys() {
        assert!(
            Market::Any.shows(&[Market::Us]) && Market::Us.shows(&[]) && Market::Us.shows(&[Market::Uk, Market::Us])
        );
        assert!(!Market::Us.shows(&[Market::Eu]));
        assert_eq!(Market::listed(&[Market::Eu, Market::Uk]), "EU and UK");
    }
}
