//! The usual cautions, by key: shown with every ticket they apply to.
//!
//! They are worded as cautions and defer to local law and licensed practice. Nothing here claims that anything is safe
//! or meets a rule. Never here: how a condition is tested.

use super::concern::{Condition, Facts, When};
use super::ticket::Ticket;
use super::usage::Usage;
use crate::table::{Table, TableError};
use crate::workshop::Market;

/// Whether the source of a caution was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SourceStatus {
    /// It was read in this month, `YYYY-MM`.
    Read(&'static str),
    /// It was read; the month was not noted.
    ReadBefore,
    /// The caution is from memory, and says so.
    FromMemory,
    /// The caution is common practice, with no written source.
    Practice,
}

impl SourceStatus {
    /// Returns the words for the status; empty for common practice.
    pub(super) fn words(self) -> String {
        match self {
            Self::Read(month) => format!("read {month}"),
            Self::ReadBefore => "read, month not noted".to_owned(),
            Self::FromMemory => "from memory".to_owned(),
            Self::Practice => String::new(),
        }
    }
}

/// A caution, its source, and when it applies.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Caution {
    /// The key a recipe names it by.
    pub key: &'static str,
    /// The text shown.
    pub text: &'static str,
    pub source: &'static str,
    /// Whether the source was read.
    status: SourceStatus,
    /// Where it applies; empty means everywhere.
    markets: &'static [Market],
    /// Which tickets it applies to on its own; others have it if their recipe names it.
    when: When,
}

const PRACTICE: &str = "common practice, no source";

/// The month in which the sources were last read. Change it only after reading them again.
pub(super) const READ: SourceStatus = SourceStatus::Read("2026-11");

const US: &[Market] = &[Market::Us];
const EU_UK: &[Market] = &[Market::Eu, Market::Uk];

/// Names of pieces and notions that may catch and strangle.
const CORDS: Condition =
    Condition::Has(&["cord", "drawstring", "string", "ribbon", "sash", "tie", "bow", "lace", "strap", "loop"]);
/// Names of pieces and notions that may come off and be swallowed.
const SMALL: Condition = Condition::Has(&[
    "button",
    "bow",
    "bead",
    "pearl",
    "hook",
    "snap",
    "sequin",
    "rhinestone",
    "bell",
    "pompom",
    "toggle",
]);

const YEARS: i64 = 12;

/// Every caution.
pub(crate) const CAUTIONS: &[Caution] = &[
    Caution {
        key: "flame",
        text: "Keep away from fire, candles, heaters and stage pyrotechnics. Light, sheer and gathered cloth can catch and burn fast, tulle and net in many layers above all; synthetic fibres melt and stick to skin. No claim about how this cloth burns is made here; local law on clothing and costume cloth decides what may be sold.",
        source: "16 CFR 1610 (2015 edition); North Central Regional Extension 174",
        status: SourceStatus::ReadBefore,
        markets: &[],
        when: &[&[Condition::Thin, Condition::Worn]],
    },
    Caution {
        key: "flame-test",
        text: "Cloth under 2.6 oz/yd^2 that is not known to be wholly of acrylic, modacrylic, nylon, olefin, polyester or wool is outside what the rule leaves untested. Ask the supplier for the class in a test report before it is sold as clothing; sheer silk and rayon and any stretch or metal fibre in net are the usual cases.",
        source: "16 CFR 1610.1(d) and 1610.61(b) (2015 edition)",
        status: SourceStatus::ReadBefore,
        markets: US,
        when: &[&[Condition::ThinNotExempt, Condition::Worn]],
    },
    Caution {
        key: "stage-fire",
        text: "Halls and theatres have rules of their own for costume and scenery near lamps and flame, and may want papers for the cloth: ask the house before it is cut.",
        source: PRACTICE,
        status: SourceStatus::Practice,
        markets: &[],
        when: &[&[Condition::Used(&[Usage::Stage])]],
    },
    Caution {
        key: "nightwear",
        text: "Not for sleeping in. Children's nightwear falls under much stricter flame rules in many countries; do not sell or show a ruffled garment as nightwear.",
        source: "16 CFR 1615 and 1616 (2015 edition)",
        status: READ,
        markets: &[],
        when: &[&[Condition::Used(&[Usage::Sleep])]],
    },
    Caution {
        key: "sleepwear",
        text: "What a child to size 14 sleeps in falls under a flame test of its own, much stricter than that of other clothing; only infant garments up to a printed length and tight-fitting garments are outside it, and a ruffle wider than 6 mm is not tight-fitting. Look the rule up before it is made for sleep.",
        source: "16 CFR 1615.1 and 1616.2 (2015 edition)",
        status: SourceStatus::ReadBefore,
        markets: US,
        when: &[&[Condition::Used(&[Usage::Sleep]), Condition::Child(15 * YEARS)]],
    },
    Caution {
        key: "sleepwear-europe",
        text: "Children's nightwear has standards of its own there (EN 14878; BS 5722 with the burning behaviour named on a label, as told from memory). Look them up before it is made for sleep.",
        source: "a trade paper's summary, read; what the label says, from memory",
        status: SourceStatus::FromMemory,
        markets: EU_UK,
        when: &[&[Condition::Used(&[Usage::Sleep]), Condition::Child(15 * YEARS)]],
    },
    Caution {
        key: "dressing-up",
        text: "Dressing-up clothes for children count as toys there, with toy rules on how fast flame spreads, on small parts and on cords (EN 71); retailers ask for more than the rule. Clothing for a dance class is not a toy: write the use on the order.",
        source: "a trade paper's summary of EN 71-2",
        status: SourceStatus::ReadBefore,
        markets: EU_UK,
        when: &[&[Condition::Used(&[Usage::DressingUp]), Condition::Child(14 * YEARS)]],
    },
    Caution {
        key: "elastic-tight",
        text: "The elastic is more than a tenth shorter than the body. Tight elastic presses, marks the skin and hinders breathing; try it on the wearer, seated and standing, before it is closed.",
        source: PRACTICE,
        status: SourceStatus::Practice,
        markets: &[],
        when: &[],
    },
    Caution {
        key: "elastic-stretch",
        text: "The elastic must stretch by more than 60 % to pass the widest place it is pulled over. Many elastics do \
               not reach so far, or do not come back: mark a piece of this one, pull it out and measure before anything is \
               cut, or leave an opening.",
        source: PRACTICE,
        status: SourceStatus::Practice,
        markets: &[],
        when: &[],
    },
    Caution {
        key: "elastic-limb",
        text: "Elastic round an arm or leg must not mark the skin or hinder the blood: two fingers should slip under it. Check again as the child grows.",
        source: PRACTICE,
        status: SourceStatus::Practice,
        markets: &[],
        when: &[],
    },
    Caution {
        key: "elastic-child",
        text: "No published figure says how tight elastic may be on a child. Cut it no more than 5 % to 8 % shorter than the body, try it on seated and standing, and leave enough in the seam to let it out.",
        source: PRACTICE,
        status: SourceStatus::Practice,
        markets: &[],
        when: &[&[Condition::Has(&["elastic"]), Condition::Child(14 * YEARS), Condition::Worn]],
    },
    Caution {
        key: "child-cords",
        text: "Cords, sashes, ribbons and loops on children's wear can catch and strangle. Keep them short and sewn down, none at the neck; look up the rules where the garment is sold.",
        source: "CPSC questions and answers on 16 CFR 1120; EN 14682 (scope)",
        status: SourceStatus::ReadBefore,
        markets: &[],
        when: &[&[CORDS, Condition::Child(14 * YEARS), Condition::Worn]],
    },
    Caution {
        key: "cords-outerwear",
        text: "Drawstrings on children's upper outerwear: none at hood or neck in sizes 2T to 12; in 2T to 16 at waist or hem no more than 3 in outside the channel when it is spread, no toggles or knots, a single string tacked down.",
        source: "CPSC questions and answers on 16 CFR 1120",
        status: READ,
        markets: US,
        when: &[&[Condition::Used(&[Usage::Outdoors]), Condition::Child(17 * YEARS)]],
    },
    Caution {
        key: "cords-europe",
        text: "The standard on cords covers children's clothing to 14 years, tied belts and sashes with it: none at head or neck to 7 years (134 cm). Dance wear worn for a while under supervision and theatre costume are outside it unless commonly worn by day. From memory, to be looked up: free ends of a sash to 360 mm, none below the hem; loops to 75 mm.",
        source: "EN 14682 (scope read; the figures from memory)",
        status: SourceStatus::FromMemory,
        markets: EU_UK,
        when: &[&[CORDS, Condition::Child(14 * YEARS), Condition::Worn]],
    },
    Caution {
        key: "small-parts",
        text: "Buttons, bows, pearls and hooks can come off and be swallowed by a child under three. Sew them through and pull hard on each before it leaves the house.",
        source: "16 CFR 1501.1 and 1501.3 (text of June 2026)",
        status: READ,
        markets: &[],
        when: &[
            &[Condition::Younger(3 * YEARS), Condition::Worn],
            &[Condition::Child(3 * YEARS), SMALL, Condition::Worn],
        ],
    },
    Caution {
        key: "curtain-cord",
        text: "Cords, chains and draw tapes of curtains can strangle a child. Tie or cut drawn-up tape ends out of reach, fit cordless tracks where children are, and look up the rules that hold locally.",
        source: "CPSC, substantial hazard list for window covering cords (summary of the proposal of 2022)",
        status: READ,
        markets: &[],
        when: &[
            &[Condition::For("curtain"), CORDS],
            &[Condition::For("curtain"), Condition::Has(&["tape", "chain", "pull"])],
        ],
    },
    Caution {
        key: "curtain-heat",
        text: "Keep curtains clear of heaters, cookers and lamps, and out of the way of doors and escape routes.",
        source: PRACTICE,
        status: SourceStatus::Practice,
        markets: &[],
        when: &[&[Condition::For("curtain")]],
    },
    Caution {
        key: "blades",
        text: "Rotary cutters, shears and the overlock's knife cut fingers: close the blade after each cut, keep the hand behind the ruler, switch off before threading.",
        source: PRACTICE,
        status: SourceStatus::Practice,
        markets: &[],
        when: &[&[Condition::Cut]],
    },
    Caution {
        key: "iron",
        text: "Tulle and satin of synthetic fibre melt under a hot iron: press on the lowest setting through a cloth, and try on a scrap first. Never leave a hot iron.",
        source: PRACTICE,
        status: SourceStatus::Practice,
        markets: &[],
        when: &[&[Condition::Cut, Condition::Sewn]],
    },
];

impl Caution {
    /// Returns the source, whether it was read, and where the caution applies.
    pub(crate) fn origin(&self) -> String {
        let parts = [self.source.to_owned(), self.status.words(), Market::listed(self.markets)];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("; ")
    }
}

/// Returns the caution with this key.
pub(crate) fn caution(key: &str) -> Option<&'static Caution> {
    CAUTIONS.iter().find(|caution| caution.key == key)
}

/// Returns every key.
pub(crate) fn keys() -> impl Iterator<Item = &'static str> {
    CAUTIONS.iter().map(|caution| caution.key)
}

/// A caution that applies to a ticket.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Concern<'t> {
    key: &'t str,
    /// Whether it applies only because the age is unknown.
    depends_on_unknown_age: bool,
}

/// Returns the cautions that apply to a ticket in a market: those the ticket names, in its order, then those whose
/// conditions hold, in table order.
fn applicable(ticket: &Ticket, market: Market) -> Vec<Concern<'_>> {
    let facts = Facts::from_ticket(ticket);
    let mut concerns: Vec<Concern<'_>> = Vec::new();
    for key in &ticket.cautions {
        if concerns.iter().all(|known| known.key != key) {
            concerns.push(Concern { key, depends_on_unknown_age: false });
        }
    }
    for caution in CAUTIONS.iter().filter(|caution| market.shows(caution.markets) && facts.satisfy(caution.when)) {
        if concerns.iter().all(|known| known.key != caution.key) {
            concerns
                .push(Concern { key: caution.key, depends_on_unknown_age: facts.depends_on_unknown_age(caution.when) });
        }
    }
    concerns
}

/// Appended to a caution that an age would decide.
const SAY_THE_AGE: &str = "No age is said: with an age on the order, such as age='5 years', this stays or goes.";

/// Builds the table of the cautions that apply to a ticket, with their sources.
pub(super) fn table(ticket: &Ticket, market: Market) -> Result<Table, TableError> {
    let columns = Table::new("cautions").text("caution").text("market").text("source").text("read").text("key");
    let mut table = columns.ready()?;
    for Concern { key, depends_on_unknown_age } in applicable(ticket, market) {
        let Some(found) = caution(key) else {
            table.push(vec![key.into(), "".into(), "".into(), "".into(), key.into()])?;
            continue;
        };
        let market = Market::listed(found.markets);
        let mut text = if market.is_empty() { found.text.to_owned() } else { format!("{market}: {}", found.text) };
        if depends_on_unknown_age {
            text = format!("{text} {SAY_THE_AGE}");
        }
        let read = found.status.words();
        table.push(vec![text.into(), market.into(), found.source.into(), read.into(), key.into()])?;
    }
    Ok(table)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Quantity, Time, Unit};

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

    #[test]
    fn what_is_from_memory_says_so_and_what_has_no_source_names_no_law() {
        for caution in CAUTIONS {
            match caution.status {
                SourceStatus::FromMemory => {
                    assert!(caution.text.to_lowercase().contains("from memory"), "{}", caution.key);
                }
                SourceStatus::Practice => {
                    assert!(caution.source == PRACTICE && caution.markets.is_empty(), "{}", caution.key);
                }
                SourceStatus::Read(month) => {
                    let dated = month.len() == 7 && month.starts_with("20") && month.get(4..5) == Some("-");
                    assert!(dated && caution.source != PRACTICE, "{}: {month}", caution.key);
                }
                SourceStatus::ReadBefore => assert_ne!(caution.source, PRACTICE, "{}", caution.key),
            }
        }
    }

    fn keys_of(ticket: &Ticket, market: Market) -> Vec<&str> {
        applicable(ticket, market).into_iter().map(|concern| concern.key).collect()
    }

    fn ticket(tags: &[&str], age: Option<f64>, used_for: Option<Usage>) -> Ticket {
        let mut ticket = Ticket::new("skirt", "A skirt.");
        ticket.tags = tags.iter().map(|tag| (*tag).to_owned()).collect();
        ticket.age = age.map(|years| Time::try_from(Quantity::of(years, Unit::Year)).unwrap());
        ticket.used_for = used_for;
        ticket
    }

    #[test]
    fn age_and_use_call_for_cautions() {
        let child = &["skirt", "child"][..];
        let check = |tags: &[&str], age, used_for, market, wanted: &[&str]| {
            assert_eq!(keys_of(&ticket(tags, age, used_for), market), wanted, "{tags:?} {age:?} {used_for:?}");
        };
        check(child, Some(2.9), None, Market::Any, &["small-parts"]);
        check(child, Some(3.0), None, Market::Any, &[]);
        check(child, None, None, Market::Any, &[]);
        check(child, Some(5.0), Some(Usage::Sleep), Market::Us, &["nightwear", "sleepwear"]);
        check(child, Some(5.0), Some(Usage::Sleep), Market::Uk, &["nightwear", "sleepwear-europe"]);
        check(child, Some(15.0), Some(Usage::Sleep), Market::Any, &["nightwear"]);
        check(child, Some(5.0), Some(Usage::DressingUp), Market::Eu, &["dressing-up"]);
        check(child, Some(5.0), Some(Usage::DressingUp), Market::Us, &[]);
        check(child, Some(5.0), Some(Usage::Outdoors), Market::Us, &["cords-outerwear"]);
        check(&["skirt"], None, Some(Usage::Stage), Market::Any, &["stage-fire"]);
        check(&["curtain"], None, None, Market::Any, &["curtain-heat"]);
    }

    #[test]
    fn a_caution_that_an_age_decides_says_so() {
        let table = table(&ticket(&["child"], None, Some(Usage::Sleep)), Market::Us).unwrap();
        let says_so: Vec<bool> = table
            .values("caution")
            .unwrap()
            .map(|cell| matches!(cell, crate::table::Cell::Text(text) if text.ends_with(SAY_THE_AGE)))
            .collect();
        assert_eq!(says_so, [false, true]);
    }
}
