//! The usual cautions, by key: shown with any ticket they concern.
//!
//! They are worded as cautions and defer to local law and licensed practice. Nothing here says that a
//! thing is safe, or that it meets a rule.

use super::ticket::Ticket;
use crate::table::{Table, TableFault};

/// A caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// The key a recipe names it by.
    pub key: &'static str,
    /// The words shown.
    pub text: &'static str,
    /// Where it comes from.
    pub source: &'static str,
}

const PRACTICE: &str = "common practice, no source";

/// Every caution.
pub const CAUTIONS: [Caution; 11] = [
    Caution {
        key: "flame",
        text: "Keep away from fire, candles, heaters and stage pyrotechnics. Light, sheer and gathered cloth can catch \
               and burn fast, tulle and net in many layers above all; synthetic fibres melt and stick to skin. No claim about how \
               this cloth burns is made here; local law on clothing and costume cloth decides what may be sold.",
        source: "16 CFR 1610 (2015 edition); North Central Regional Extension 174",
    },
    Caution {
        key: "nightwear",
        text: "Not for sleeping in. Children's nightwear falls under much stricter flame rules in many countries; do \
               not sell or show a ruffled garment as nightwear.",
        source: "16 CFR 1615 and 1616 (2015 edition)",
    },
    Caution {
        key: "elastic-tight",
        text: "The elastic is more than a tenth shorter than the body. Tight elastic presses, marks the skin and \
               hinders breathing; try it on the wearer, seated and standing, before it is closed.",
        source: PRACTICE,
    },
    Caution {
        key: "elastic-stretch",
        text: "The elastic must stretch by more than 60 % to pass the widest place it is pulled over. Many elastics do \
               not reach so far, or do not come back: mark a piece of this one, pull it out and measure before anything is \
               cut, or leave an opening.",
        source: PRACTICE,
    },
    Caution {
        key: "elastic-limb",
        text: "Elastic round an arm or leg must not mark the skin or hinder the blood: two fingers should slip under \
               it. Check again as the child grows.",
        source: PRACTICE,
    },
    Caution {
        key: "child-cords",
        text: "Cords, sashes, ribbons and loops on children's wear can catch and strangle. Keep them short and sewn \
               down, none at the neck; look up the rules where the garment is sold.",
        source: "CPSC questions and answers on 16 CFR 1120; EN 14682 (scope)",
    },
    Caution {
        key: "small-parts",
        text: "Buttons, bows, pearls and hooks can come off and be swallowed by a child under three. Sew them through \
               and pull hard on each before it leaves the house.",
        source: "16 CFR 1501 (2015 edition)",
    },
    Caution {
        key: "curtain-cord",
        text: "Cords, chains and draw tapes of curtains can strangle a child. Tie or cut drawn-up tape ends out of \
               reach, fit cordless tracks where children are, and look up the rules that hold locally.",
        source: "CPSC, substantial hazard rule for window coverings (summary read)",
    },
    Caution {
        key: "curtain-heat",
        text: "Keep curtains clear of heaters, cookers and lamps, and out of the way of doors and escape routes.",
        source: PRACTICE,
    },
    Caution {
        key: "blades",
        text: "Rotary cutters, shears and the overlock's knife cut fingers: close the blade after each cut, keep the \
               hand behind the ruler, switch off before threading.",
        source: PRACTICE,
    },
    Caution {
        key: "iron",
        text: "Tulle and satin of synthetic fibre melt under a hot iron: press on the lowest setting through a cloth, \
               and try on a scrap first. Never leave a hot iron.",
        source: PRACTICE,
    },
];

/// The caution of a key.
pub fn caution(key: &str) -> Option<&'static Caution> {
    CAUTIONS.iter().find(|caution| caution.key == key)
}

/// Every key.
pub fn keys() -> impl Iterator<Item = &'static str> {
    CAUTIONS.iter().map(|caution| caution.key)
}

/// The keys that concern a ticket: its own in their order, then those of the work itself. Where something is
/// cut there are blades, and where something is cut and sewn it is pressed.
pub fn concerning(ticket: &Ticket) -> Vec<&str> {
    let mut keys: Vec<&str> = Vec::new();
    let cut = !ticket.pieces.is_empty();
    let of_the_work = [("blades", cut), ("iron", cut && !ticket.sewing.is_empty())];
    let of_the_work = of_the_work.into_iter().filter(|(_, concerns)| *concerns).map(|(key, _)| key);
    for key in ticket.cautions.iter().map(String::as_str).chain(of_the_work) {
        if !keys.contains(&key) {
            keys.push(key);
        }
    }
    keys
}

/// The cautions that concern a ticket, with their sources.
pub(super) fn table(ticket: &Ticket) -> Result<Table, TableFault> {
    let mut table = Table::new("cautions").text("caution").text("source").text("key").ready()?;
    for key in concerning(ticket) {
        let known = caution(key);
        let (text, source) = known.map_or((key, ""), |known| (known.text, known.source));
        table.push(vec![text.into(), source.into(), key.into()])?;
    }
    Ok(table)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_called_safe() {
        for caution in CAUTIONS {
            let text = caution.text.to_lowercase();
            for claim in ["flame resistant", "flame retardant", "is safe", "compliant", "approved"] {
                assert!(!text.contains(claim), "{}: {claim}", caution.key);
            }
            assert!(!caution.source.is_empty());
        }
    }

    #[test]
    fn keys_are_used_once() {
        let mut sorted: Vec<&str> = keys().collect();
        sorted.sort_unstable();
        sorted.dedup();
        assert_eq!(sorted.len(), CAUTIONS.len());
    }
}
