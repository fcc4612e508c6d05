//! Where the workshop sells: whose rules its cautions and labels speak of.
//!
//! Never here: what a rule says.

/// A market with rules of its own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Market {
    /// Not said: everybody's rules are shown, each with its market.
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
    /// The words settings.csv says.
    pub const WORDS: [(&'static str, Self); 4] =
        [("any", Self::Any), ("US", Self::Us), ("EU", Self::Eu), ("UK", Self::Uk)];

    /// The word for it.
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, market)| *market == self).map_or("", |(word, _)| word)
    }

    /// Whether what holds in these markets is shown to a workshop that sells here; what holds in none by name
    /// holds everywhere.
    pub fn shows(self, markets: &[Self]) -> bool {
        markets.is_empty() || self == Self::Any || markets.contains(&self)
    }

    /// `EU and UK`; nothing for everywhere.
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
