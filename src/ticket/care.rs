//! The topics of a care label, and what the trade usually tries first for each fibre: prompts for the maker, who
//! decides after a trial on a scrap.
//!
//! Never here: care symbols, and which fibres an order has.

use crate::textile::fibres::FibreGroup;

/// A topic of a care label.
pub(super) struct CareLine {
    /// The topic, such as `washing`.
    pub(super) about: &'static str,
    /// What to try first, the gentlest at the front, each with the fibres it is for.
    tried: &'static [(&'static str, &'static [FibreGroup])],
    /// What to try for all other fibres.
    usual: &'static str,
}

use FibreGroup::{Acetate, Animal, Elastic, Metal, Regenerated, Synthetic};

/// The topics in label order. What to try first is common practice, no source.
pub(super) const CARE: [CareLine; 5] = [
    CareLine {
        about: "washing",
        tried: &[
            ("dry-clean, or hand wash cool", &[Animal, Acetate, Metal]),
            ("hand or machine wash cool, gentle", &[Regenerated, Elastic]),
            ("machine wash warm", &[Synthetic]),
        ],
        usual: "machine wash warm; hot only if every part stands it",
    },
    CareLine {
        about: "bleach",
        tried: &[("no bleach", &[Animal, Acetate, Regenerated, Elastic, Metal])],
        usual: "non-chlorine bleach only, when needed",
    },
    CareLine {
        about: "drying",
        tried: &[
            ("dry flat, away from heat", &[Animal]),
            ("hang to dry", &[Acetate, Regenerated, Elastic, Metal]),
            ("tumble dry low", &[Synthetic]),
        ],
        usual: "tumble dry or hang",
    },
    CareLine {
        about: "ironing",
        tried: &[
            ("do not iron", &[Metal]),
            ("cool iron, through a cloth", &[Acetate, Synthetic, Elastic]),
            ("warm iron, on the wrong side", &[Animal, Regenerated]),
        ],
        usual: "hot iron",
    },
    CareLine { about: "warnings", tried: &[], usual: "wash with like colours; say what else would spoil it" },
];

impl CareLine {
    /// Returns what to try first for these fibres: the gentlest treatment that any of them needs.
    pub(super) fn first_try(&self, groups: &[FibreGroup]) -> &'static str {
        let needed = self.tried.iter().find(|(_, needing)| groups.iter().any(|group| needing.contains(group)));
        needed.map_or(self.usual, |(words, _)| words)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::textile::fibres::FibreGroup::Plant;

    #[test]
    fn the_gentlest_fibre_decides() {
        let first_tries = |groups: &[FibreGroup]| CARE.map(|line| line.first_try(groups));
        let hardy = first_tries(&[Plant]);
        assert_eq!(hardy.map(|words| words.split(' ').next().unwrap_or_default()).get(3), Some(&"hot"));
        assert_eq!(first_tries(&[Plant, Animal]), first_tries(&[Animal, Plant]));
        assert_eq!(first_tries(&[Plant, Animal]).first(), first_tries(&[Animal]).first());
        assert_eq!(first_tries(&[Plant, Synthetic]).get(3), Some(&"cool iron, through a cloth"));
        for group in [Animal, Regenerated, Acetate, Synthetic, Elastic, Metal] {
            assert_ne!(first_tries(&[group]), hardy, "{group:?}");
        }
    }
}
