//! The usual cautions, by key: shown with every ticket they apply to.
//!
//! They are worded as cautions and defer to local law and licensed practice. Nothing here claims that anything is safe
//! or meets a rule. Never here: how a condition is tested.

use super::concern::{Condition, Facts, When};
use super::ticket::Ticket;
use super::usage::Usage;
use super::wash_words::lining_cautions;
use crate::table::{Table, TableError};
use crate::workshop::Market;

/// A caution, its source, and when it applies.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Caution {
    /// The key a recipe names it by.
    pub key: &'static str,
    /// The text shown.
    text: &'static str,
    /// The danger and the same in a sentence or two, for a first screen; `None` for what may wait for the whole text.
    brief: Option<(Danger, &'static str)>,
    /// A sentence that follows the brief one: the first whose condition holds.
    brief_added: &'static [(Condition, &'static str)],
    /// Sentences that follow the text: the first whose condition holds.
    added: &'static [(Condition, &'static str)],
    /// Where it comes from, with the number of its row in the bibliography, which says whether it was read.
    source: &'static str,
    /// Where it applies; empty means everywhere.
    markets: &'static [Market],
    /// Which tickets it applies to on its own; others have it if their recipe names it.
    when: When,
    /// Which tickets it never applies to, even if their recipe names it.
    never: When,
}

/// What a caution warns of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Danger {
    Fire,
    Sleep,
    Cords,
    Elastic,
    Swallowing,
    Pins,
}

impl Danger {
    /// Returns the word for it on a first screen.
    pub(super) fn label(self) -> &'static str {
        match self {
            Self::Fire => "FIRE",
            Self::Sleep => "SLEEP",
            Self::Cords => "CORDS",
            Self::Elastic => "ELASTIC",
            Self::Swallowing => "CHOKING",
            Self::Pins => "PINS",
        }
    }
}

/// Defaults for a caution: everywhere, of common practice, on tickets whose recipe names it.
const NAMED: Caution = Caution {
    key: "",
    text: "",
    brief: None,
    brief_added: &[],
    added: &[],
    source: PRACTICE,
    markets: &[],
    when: &[],
    never: &[],
};

const PRACTICE: &str = "common practice, no source";

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

/// Names of pieces that hang in a row from a cord or tape.
const BUNTING: Condition = Condition::Has(&["flag", "bunting", "garland", "pennant", "streamer"]);
/// Purposes of an elastic that goes round the neck.
const NECK: Condition = Condition::ElasticAt(&["neck", "neckline", "collar"]);
/// Purposes of an elastic that goes round an arm or a leg.
const LIMB: Condition =
    Condition::ElasticAt(&["arm", "sleeve", "wrist", "elbow", "cuff", "leg", "thigh", "knee", "ankle"]);

const YEARS: i64 = 12;
/// A known age from which cautions for children do not apply.
const GROWN: When = &[&[Condition::OfAge(14 * YEARS)]];

/// Every caution.
pub(crate) const CAUTIONS: &[Caution] = &[
    Caution {
        key: "flame",
        brief: Some((Danger::Fire, "Keep away from flames, heaters, stage fire: it burns fast.")),
        brief_added: &[(Condition::Melts, " It melts."), (Condition::MayMelt, " It may melt.")],
        text: "Keep away from fire, candles, heaters and stage pyrotechnics. Light, sheer and gathered cloth can catch and burn fast, tulle and net in many layers above all. No claim about how this cloth burns is made here; local law on clothing and costume cloth decides what may be sold.",
        added: &[
            (Condition::Melts, "Synthetic fibres melt and stick to skin."),
            (
                Condition::MayMelt,
                "The fibre of a cloth here is not written down: if it is synthetic, it melts and sticks to skin.",
            ),
        ],
        source: "16 CFR 1610 (2015 edition) [55]; extension leaflet 174 [14]",
        when: &[&[Condition::Thin, Condition::Worn]],
        ..NAMED
    },
    Caution {
        key: "flame-test",
        brief: Some((Danger::Fire, "Under 2.6 oz/yd^2: ask for its flame class in a test report.")),
        text: "Cloth under 2.6 oz/yd^2 that is not known to be wholly of acrylic, modacrylic, nylon, olefin, polyester or wool is outside what the rule leaves untested. Ask the supplier for the class in a test report before it is sold as clothing; sheer silk and rayon and any stretch or metal fibre in net are the usual cases.",
        source: "16 CFR 1610 (2015 edition) [55], 1610.1(d) and 1610.61(b)",
        markets: US,
        when: &[&[Condition::ThinNotExempt, Condition::Worn]],
        ..NAMED
    },
    Caution {
        key: "stage-fire",
        brief: Some((Danger::Fire, "Halls and theatres may want papers for the cloth: ask before cutting.")),
        text: "Halls and theatres have rules of their own for costume and scenery near lamps and flame, and may want papers for the cloth: ask the house before it is cut.",
        when: &[&[Condition::Used(&[Usage::Stage])]],
        ..NAMED
    },
    Caution {
        key: "nightwear",
        brief: Some((Danger::Sleep, "Not for sleeping in: nightwear falls under stricter flame rules.")),
        text: "Not for sleeping in. Children's nightwear falls under much stricter flame rules in many countries; do not sell or show a ruffled garment as nightwear.",
        source: "16 CFR 1615 (2015 edition) [57]; 16 CFR 1616 (2015 edition) [58]",
        never: &[&[Condition::Used(&[Usage::Sleep, Usage::Household])]],
        ..NAMED
    },
    Caution {
        key: "sleepwear",
        brief: Some((Danger::Sleep, "Nightwear to size 14 has a flame test of its own: look it up.")),
        text: "What a child to size 14 sleeps in falls under a flame test of its own, much stricter than that of other clothing; only infant garments up to a printed length and tight-fitting garments are outside it, and a ruffle wider than 6 mm is not tight-fitting. Look the rule up before it is made for sleep.",
        source: "16 CFR 1615 (2015 edition) [57], 1615.1; 16 CFR 1616 (2015 edition) [58], 1616.2",
        markets: US,
        when: &[&[Condition::Used(&[Usage::Sleep]), Condition::Child(15 * YEARS)]],
        ..NAMED
    },
    Caution {
        key: "sleepwear-europe",
        brief: Some((Danger::Sleep, "Children's nightwear has its own standards: look them up.")),
        text: "Children's nightwear has standards of its own there (EN 14878; BS 5722 with the burning behaviour named on a label, as told from memory). Look them up before it is made for sleep.",
        source: "trade paper [50]; what the label says, from memory",
        markets: EU_UK,
        when: &[&[Condition::Used(&[Usage::Sleep]), Condition::Child(15 * YEARS)]],
        ..NAMED
    },
    Caution {
        key: "sleep-fire",
        brief: Some((Danger::Fire, "Loose, gathered nightwear catches fire more easily: look up the rules.")),
        text: "Loose, ruffled or gathered nightwear catches fire more easily than what lies close to the body, and who is asleep notices late. Look up the rules on nightwear that hold where it is sold.",
        when: &[&[Condition::Used(&[Usage::Sleep])]],
        ..NAMED
    },
    Caution {
        key: "dressing-up",
        brief: Some((Danger::Fire, "Counts as a toy: toy rules on flame, small parts, cords.")),
        text: "Dressing-up clothes for children count as toys there, with toy rules on how fast flame spreads, on small parts and on cords (EN 71); retailers ask for more than the rule. Clothing for a dance class is not a toy: write the use on the order.",
        source: "trade paper [49] on EN 71-2",
        markets: EU_UK,
        when: &[&[Condition::Used(&[Usage::DressingUp]), Condition::Child(14 * YEARS)]],
        ..NAMED
    },
    Caution {
        key: "elastic-tight",
        brief: Some((Danger::Elastic, "Over a tenth shorter than the body, it presses: try it on, seated too.")),
        text: "The elastic is more than a tenth shorter than the body. Tight elastic presses, marks the skin and hinders breathing; try it on the wearer, seated and standing, before it is closed.",
        ..NAMED
    },
    Caution {
        key: "elastic-stretch",
        brief: Some((Danger::Elastic, "It must stretch by over 60 %: pull a marked piece and measure first.")),
        text: "The elastic must stretch by more than 60 % to pass the widest place it is pulled over. Many elastics do \
               not reach so far, or do not come back: mark a piece of this one, pull it out and measure before anything is \
               cut, or leave an opening.",
        ..NAMED
    },
    Caution {
        key: "elastic-neck",
        brief: Some((Danger::Elastic, "At the neck it can hinder breath: no force, ends caught, try it on.")),
        text: "Elastic at the neck can hinder breath and blood, and a loose loop of it can strangle. Cut it so that it reaches the body without force, try it on, catch its ends in a seam or backstitch them, and put no loose elastic cord on the smallest. No official least length was found.",
        source: "retailer's standard [48] on elastic at neck, arm and leg, as reported",
        when: &[&[NECK, Condition::Worn]],
        ..NAMED
    },
    Caution {
        key: "elastic-limb",
        brief: Some((Danger::Elastic, "At arm or leg two fingers must slip under it; a child grows.")),
        text: "Elastic round an arm or leg must not mark the skin or hinder the blood: two fingers should slip under it. A child grows: try it again from time to time.",
        when: &[&[LIMB, Condition::Worn]],
        ..NAMED
    },
    Caution {
        key: "elastic-child",
        brief: Some((Danger::Elastic, "For a child at most 5 % to 8 % shorter than the body; try it on.")),
        text: "No published figure says how tight elastic may be on a child. Cut it no more than 5 % to 8 % shorter than the body, try it on seated and standing, and leave enough in the seam to let it out.",
        when: &[&[Condition::Has(&["elastic"]), Condition::Child(14 * YEARS), Condition::Worn]],
        ..NAMED
    },
    Caution {
        key: "child-cords",
        brief: Some((Danger::Cords, "Cords, sashes, loops can strangle: short, sewn down, none at the neck.")),
        text: "Cords, sashes, ribbons and loops on children's wear can catch and strangle. Keep them short and sewn down, none at the neck; look up the rules where the garment is sold.",
        source: "CPSC questions and answers on 16 CFR 1120 [60]; EN 14682 [64] (scope)",
        when: &[&[CORDS, Condition::Child(14 * YEARS), Condition::Worn]],
        never: GROWN,
        ..NAMED
    },
    Caution {
        key: "sash-ends",
        brief: Some((Danger::Cords, "A sash end over 360 mm from the knot: shorten it or sew the bow on.")),
        text: "An end of the sash is longer than 360 mm from the knot, the most that EN 14682 is reported to allow for a sash tied in front of a child; nothing may hang below a low hem or come out at the back. Long ends catch in doors, wheels and play equipment: shorten them or sew the bow on, and look up the rule in force.",
        source: "EN 14682 [64], figures of 2007 as testing notes report them",
        never: GROWN,
        ..NAMED
    },
    Caution {
        key: "cords-outerwear",
        brief: Some((Danger::Cords, "No drawstring at hood, neck (2T-12); waist, hem: 3 in out (2T-16).")),
        text: "Drawstrings on children's upper outerwear: none at hood or neck in sizes 2T to 12; in 2T to 16 at waist or hem no more than 3 in outside the channel when it is spread, no toggles or knots, a single string tacked down.",
        source: "CPSC questions and answers on 16 CFR 1120 [60]",
        markets: US,
        when: &[&[Condition::Used(&[Usage::Outdoors]), Condition::Child(17 * YEARS)]],
        ..NAMED
    },
    Caution {
        key: "cords-europe",
        brief: Some((Danger::Cords, "None at head, neck to 7 years; limits on ends: EN 14682.")),
        text: "The standard on cords covers children's clothing to 14 years, tied belts and sashes with it: none at head or neck to 7 years (134 cm). Dance wear worn for a while under supervision and theatre costume are outside it unless commonly worn by day. As reported, to be looked up: the ends of a sash tied in front to 360 mm from the knot, those of a drawcord at the waist to 140 mm with the garment laid flat, a loop at the neck from 7 years to 150 mm round; nothing below a low hem, nothing out at the back. From memory: other loops to 75 mm.",
        source: "EN 14682 [64] (scope; figures of 2007 as testing notes report them, one from memory)",
        markets: EU_UK,
        when: &[&[CORDS, Condition::Child(14 * YEARS), Condition::Worn]],
        ..NAMED
    },
    Caution {
        key: "small-parts",
        brief: Some((Danger::Swallowing, "Under three, buttons, bows, hooks can be swallowed: pull hard on each.")),
        text: "Buttons, bows, pearls and hooks can come off and be swallowed by a child under three. Sew them through and pull hard on each before it leaves the house.",
        source: "16 CFR 1501 [54], 1501.1 and 1501.3, text of June 2026",
        when: &[
            &[Condition::Younger(3 * YEARS), Condition::Worn],
            &[Condition::Child(3 * YEARS), SMALL, Condition::Worn],
        ],
        never: GROWN,
        ..NAMED
    },
    Caution {
        key: "cord-cot",
        brief: Some((Danger::Cords, "Can wind round a neck: out of reach, never near a cot, bed or pram.")),
        text: "A row of flags or ribbons on a tape can wind round a small child's neck. Hang it out of reach, never across, on or beside a cot, bed, playpen or pram, and take it down before a child can pull itself up to it. A toy that is made to be strung across a cot is reported to be 750 mm long at most; bunting is no such toy and mostly far longer.",
        source: "CPSC on wall decorations with ribbons [61] near cots; EN 71-1:2005+A8 [65], 5.4; both from copies of the text",
        when: &[&[BUNTING]],
        ..NAMED
    },
    Caution {
        key: "cord-neck",
        brief: Some((Danger::Cords, "Can tighten round a neck: short, no loop for a head, not under three.")),
        text: "A drawstring can go round a neck in play and tighten. Keep the cord short, with no loop that a head goes through, and keep the bag from a child under three and out of cot and pram. Of toys for the smallest (under 36 months, from memory) cords are reported to be allowed to 220 mm and loops to 380 mm round; look up what holds.",
        source: "EN 71-1:2005+A8 [65], 5.4, from a copy of the text; the age from memory",
        when: &[&[Condition::For("bag"), CORDS]],
        ..NAMED
    },
    Caution {
        key: "curtain-cord",
        brief: Some((Danger::Cords, "Can strangle a child: knot, wind up out of reach, never cut them off.")),
        text: "Cords, chains and loops of curtains can strangle a child. Once the curtain is drawn up, knot the cords of its tape, wind them up and put them where no child reaches; never cut them off, for the curtain is let out flat to be washed. Where children are, use no track that is drawn by a cord or chain. In the US the substantial hazard list names operating cords of coverings made for stock, and inner cords and a missing maker's label of those made for stock or to order; a curtain hung on hooks has no operating or inner cord, and by our reading the gathering cords of a heading tape are neither. Look up the rules that hold locally.",
        source: "87 FR 72873 [59] and 16 CFR 1120 [53], 1120.3(e) and (f), in force 28 December 2022 (summary; what is said of gathering cords is our reading)",
        when: &[
            &[Condition::For("curtain"), CORDS],
            &[Condition::For("curtain"), Condition::Has(&["heading", "chain", "pull"])],
            // A tape with hooks in it is drawn up by cords; one that is sewn on flat has none.
            &[Condition::For("curtain"), Condition::Has(&["tape"]), Condition::Has(&["hook", "ring", "glider"])],
        ],
        ..NAMED
    },
    Caution {
        key: "curtain-heat",
        brief: Some((Danger::Fire, "Keep clear of heaters, cookers, lamps, doors and escape routes.")),
        text: "Keep curtains clear of heaters, cookers and lamps, and out of the way of doors and escape routes.",
        when: &[&[Condition::For("curtain")]],
        ..NAMED
    },
    Caution {
        key: "pins",
        brief: Some((Danger::Pins, "Count pins out and in; find every piece of a broken needle.")),
        text: "Pins and pieces of a broken needle left in a child's thing prick, and can be swallowed. Count the pins out and in again and note it. Take a new needle only for the old one; when one breaks, find every piece before sewing on, and while a piece is missing set aside all that lay near it and hand none of it over.",
        source: "published policy [47]; counting the pins is common practice",
        when: &[&[Condition::Sewn, Condition::Child(14 * YEARS)]],
        ..NAMED
    },
    Caution {
        key: "blades",
        text: "Rotary cutters, shears and the overlock's knife cut fingers: close the blade after each cut, keep the hand behind the ruler, switch off before threading.",
        when: &[&[Condition::Cut]],
        ..NAMED
    },
    Caution {
        key: "iron",
        text: "A hot iron burns skin and scorches cloth: try the heat on a scrap first, and never leave the iron hot.",
        added: &[
            (Condition::Melts, "Synthetic fibre melts under a hot iron: press on the lowest setting through a cloth."),
            (
                Condition::MayMelt,
                "The fibre of a cloth here is not written down: if it is synthetic, it melts under a hot iron. Press on the lowest setting through a cloth until a scrap shows that it stands more.",
            ),
        ],
        when: &[&[Condition::Cut, Condition::Sewn]],
        ..NAMED
    },
];

impl Caution {
    /// Returns the text with every sentence that may follow it.
    pub(crate) fn whole_text(&self) -> String {
        let sentences = std::iter::once(self.text).chain(self.added.iter().map(|(_, sentence)| *sentence));
        sentences.collect::<Vec<_>>().join(" ")
    }

    /// Returns the text for a ticket with these facts.
    fn text_for(&self, facts: &Facts) -> String {
        let added = self.added.iter().find(|(condition, _)| facts.holds(*condition));
        added.map_or_else(|| self.text.to_owned(), |(_, sentence)| format!("{} {sentence}", self.text))
    }

    /// Returns the source and where the caution applies.
    pub(crate) fn origin(&self) -> String {
        let parts = [self.source.to_owned(), Market::listed(self.markets)];
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
/// conditions hold, in table order. None of them is one that never applies to such a ticket.
fn applicable<'t>(ticket: &'t Ticket, facts: &Facts, market: Market) -> Vec<Concern<'t>> {
    let mut concerns: Vec<Concern<'t>> = Vec::new();
    for key in &ticket.cautions {
        let never = caution(key).map_or(NAMED.never, |caution| caution.never);
        if concerns.iter().all(|known| known.key != key) && !facts.satisfy(never) {
            concerns.push(Concern { key, depends_on_unknown_age: facts.would_hold_for_an_adult(never) });
        }
    }
    let usual = CAUTIONS.iter().filter(|caution| market.shows(caution.markets));
    for caution in usual.filter(|caution| facts.satisfy(caution.when) && !facts.satisfy(caution.never)) {
        if concerns.iter().all(|known| known.key != caution.key) {
            concerns
                .push(Concern { key: caution.key, depends_on_unknown_age: facts.depends_on_unknown_age(caution.when) });
        }
    }
    concerns
}

/// Returns the cautions of a ticket as a first screen has them: each danger with a sentence, and the market it holds in.
pub(super) fn briefly(ticket: &Ticket, market: Market) -> Vec<(Danger, String)> {
    let facts = Facts::from_ticket(ticket);
    let concerns = applicable(ticket, &facts, market).into_iter();
    let briefs = concerns.filter_map(|concern| {
        let found = caution(concern.key)?;
        let (danger, sentence) = found.brief?;
        let added = found.brief_added.iter().find(|(condition, _)| facts.holds(*condition));
        let sentence = format!("{sentence}{}", added.map_or("", |(_, added)| *added));
        let market = Market::listed(found.markets);
        Some((danger, if market.is_empty() { sentence } else { format!("{market}: {sentence}") }))
    });
    briefs.collect()
}

/// Returns whether an age on the order would settle a caution.
pub(super) fn depend_on_unknown_age(ticket: &Ticket, market: Market) -> bool {
    let facts = Facts::from_ticket(ticket);
    applicable(ticket, &facts, market).iter().any(|concern| concern.depends_on_unknown_age)
}

/// Appended to a caution that an age would decide.
const SAY_THE_AGE: &str = "Add age='5 years' to settle this.";

/// Builds the table of the cautions that apply to a ticket, with their sources.
pub(super) fn table(ticket: &Ticket, market: Market) -> Result<Table, TableError> {
    let columns = Table::new("cautions").text("caution").text("market").text("source").text("key");
    let mut table = columns.ready()?;
    let facts = Facts::from_ticket(ticket);
    for Concern { key, depends_on_unknown_age } in applicable(ticket, &facts, market) {
        let Some(found) = caution(key) else {
            table.push(vec![key.into(), "".into(), "".into(), key.into()])?;
            continue;
        };
        let market = Market::listed(found.markets);
        let mut text = found.text_for(&facts);
        if !market.is_empty() {
            text = format!("{market}: {text}");
        }
        if depends_on_unknown_age {
            text = format!("{text} {SAY_THE_AGE}");
        }
        table.push(vec![text.into(), market.into(), found.source.into(), key.into()])?;
    }
    for text in lining_cautions(ticket) {
        table.push(vec![text.into(), "".into(), PRACTICE.into(), "lining-shrinks".into()])?;
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
            let text = caution.whole_text().to_lowercase();
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
            let has_source = caution.source != PRACTICE;
            assert!(has_source || caution.markets.is_empty(), "{}", caution.key);
            // The number of its row in the bibliography.
            assert_eq!(caution.source.contains('['), has_source, "{}", caution.key);
            if caution.source.contains("from memory") {
                assert!(caution.text.to_lowercase().contains("from memory"), "{}", caution.key);
            }
        }
    }

    fn keys_of(ticket: &Ticket, market: Market) -> Vec<&str> {
        let concerns = applicable(ticket, &Facts::from_ticket(ticket), market);
        concerns.into_iter().map(|concern| concern.key).collect()
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
        check(child, Some(5.0), Some(Usage::Sleep), Market::Us, &["sleepwear", "sleep-fire"]);
        check(child, Some(5.0), Some(Usage::Sleep), Market::Uk, &["sleepwear-europe", "sleep-fire"]);
        check(child, Some(15.0), Some(Usage::Sleep), Market::Any, &["sleep-fire"]);
        check(child, Some(5.0), Some(Usage::DressingUp), Market::Eu, &["dressing-up"]);
        check(child, Some(5.0), Some(Usage::DressingUp), Market::Us, &[]);
        check(child, Some(5.0), Some(Usage::Outdoors), Market::Us, &["cords-outerwear"]);
        check(&["skirt"], None, Some(Usage::Stage), Market::Any, &["stage-fire"]);
        check(&["curtain"], None, None, Market::Any, &["curtain-heat"]);
    }

    fn named(tags: &[&str], age: Option<f64>, used_for: Option<Usage>, keys: &[&str]) -> Ticket {
        let cautions = keys.iter().map(|key| (*key).to_owned()).collect();
        Ticket { cautions, ..ticket(tags, age, used_for) }
    }

    #[test]
    fn what_concerns_children_is_not_shown_for_a_grown_wearer() {
        for key in ["small-parts", "child-cords", "sash-ends"] {
            assert_eq!(keys_of(&named(&["skirt"], Some(30.0), None, &[key]), Market::Any), [""; 0], "{key}");
            let of_two = named(&["skirt"], Some(2.0), None, &[key]);
            assert!(keys_of(&of_two, Market::Any).contains(&key), "{key}");
            // Without an age it stays, and says that an age would settle it.
            let unsaid = table(&named(&["skirt"], None, None, &[key]), Market::Any).unwrap();
            assert!(first_text(&unsaid).ends_with(SAY_THE_AGE), "{key}");
        }
    }

    #[test]
    fn not_for_sleeping_in_and_made_for_sleep_are_never_said_together() {
        for market in [Market::Any, Market::Us, Market::Eu, Market::Uk] {
            for age in [None, Some(5.0), Some(15.0), Some(40.0)] {
                for usage in [None, Some(Usage::Sleep), Some(Usage::DayWear), Some(Usage::Household)] {
                    let ticket = named(&["skirt", "child"], age, usage, &["nightwear"]);
                    let texts = texts(&table(&ticket, market).unwrap());
                    let says = |words: &str| texts.iter().any(|text| text.contains(words));
                    let asleep = usage == Some(Usage::Sleep);
                    assert_eq!(says("before it is made for sleep"), asleep && age.is_none_or(|age| age < 15.0));
                    assert_eq!(says("Not for sleeping in"), !asleep && usage != Some(Usage::Household));
                    assert_eq!(says("nightwear catches fire"), asleep);
                }
            }
        }
    }

    fn texts(table: &Table) -> Vec<String> {
        let cells = table.values("caution").unwrap();
        cells.map(|cell| if let crate::table::Cell::Text(text) = cell { text.clone() } else { String::new() }).collect()
    }

    fn first_text(table: &Table) -> String {
        texts(table).swap_remove(0)
    }

    #[test]
    fn melting_is_said_of_what_melts_or_may_melt_only() {
        let shop = "material,kind,usable width,weight,fibre\nlawn,cloth,36 in,2 oz/yd^2,cotton\n\
                    net,cloth,54 in,1 oz/yd^2,100 % nylon\nmystery,cloth,36 in,2 oz/yd^2,\n";
        let shop = crate::workshop::Workshop::read(&[("materials.csv", shop)]).unwrap();
        let told = |cloth: &str, key: &str| {
            let mut ticket = named(&["skirt"], None, None, &[key]);
            let material = shop.materials.find(cloth).unwrap().clone();
            ticket.materials = vec![crate::ticket::TicketMaterial { input: None, listed: true, material }];
            let yard = crate::quantity::Length::inches(36.0);
            let shape = crate::piece::Shape::FullWidth { along: yard };
            ticket.pieces = vec![crate::ticket::tests::piece("panel", 0, shape, 1)];
            first_text(&table(&ticket, Market::Any).unwrap())
        };
        for key in ["flame", "iron"] {
            assert!(!told("lawn", key).contains("melt"), "{key}: {}", told("lawn", key));
            assert!(told("net", key).contains("melt") && !told("net", key).contains("not written down"), "{key}");
            let unknown = told("mystery", key);
            assert!(unknown.contains("fibre of a cloth here is not written down: if it is synthetic"), "{unknown}");
        }
    }

    fn needing(tags: &[&str], age: Option<f64>, notion: &str, why: &str, piece: &str) -> Ticket {
        let mut ticket = ticket(tags, age, None);
        let goods = format!("material,kind,usable width\n{notion},notion,1 in\n");
        let shop = crate::workshop::Workshop::read(&[("materials.csv", &goods)]).unwrap();
        let material = shop.materials.find(notion).unwrap().clone();
        ticket.materials = vec![crate::ticket::TicketMaterial { input: None, listed: true, material }];
        ticket.needs = vec![crate::ticket::tests::need(0, Quantity::of(20.0, Unit::Inch), why)];
        let shape = crate::piece::Shape::FullWidth { along: crate::quantity::Length::inches(4.0) };
        let mut strip = crate::ticket::tests::piece(piece, 9, shape, 1);
        strip.once = true;
        ticket.pieces = vec![strip];
        ticket
    }

    #[test]
    fn a_cord_has_the_caution_of_what_it_hangs_from() {
        let keys = |ticket: &Ticket| -> Vec<String> {
            keys_of(ticket, Market::Any).into_iter().filter(|key| *key != "blades").map(str::to_owned).collect()
        };
        assert_eq!(keys(&needing(&["decoration"], None, "tape", "folded over the tops", "flag strip")), ["cord-cot"]);
        assert_eq!(keys(&needing(&["bag", "household"], None, "cord", "through both casings", "bag")), ["cord-neck"]);
        assert_eq!(keys(&needing(&["decoration"], None, "braid", "round the edge", "cushion front")), [""; 0]);
        let tape = needing(&["curtain"], None, "heading tape", "along the flat heading", "face drop");
        assert_eq!(keys(&tape), ["curtain-cord", "curtain-heat"]);
        // A valance hangs by a tape sewn on flat, pinch pleats on buckram: neither is drawn up by a cord.
        let flat =
            needing(&["curtain", "decoration"], None, "tape", "along the finished top, ends turned in", "face drop");
        assert_eq!(keys(&flat), ["curtain-heat"]);
        let stiff = needing(&["curtain"], None, "buckram", "along the flat top, side hem to side hem", "face drop");
        assert_eq!(keys(&stiff), ["curtain-heat"]);
        let at = |why: &str| keys(&needing(&["blouse"], None, "elastic", why, "front"));
        assert_eq!(at("round the neckline"), ["elastic-neck"]);
        assert_eq!(at("at each wrist"), ["elastic-limb"]);
        assert_eq!(at("round the waist"), [""; 0]);
    }

    /// The rule as it stands in 16 CFR 1120.3(e) and (f); the curtain is washed flat, so its cords stay.
    #[test]
    fn the_cords_of_a_curtain_are_wound_up_and_never_cut() {
        let found = caution("curtain-cord").unwrap();
        assert!(found.text.contains("wind them up") && found.text.contains("never cut them off"), "{}", found.text);
        assert!(found.source.contains("87 FR 72873") && found.source.contains("1120.3(e) and (f)"), "{}", found.source);
        assert!(!found.source.contains("proposal"), "{}", found.source);
        let cuts =
            CAUTIONS.iter().filter(|caution| caution.text.contains("cut drawn-up") || caution.text.contains("or cut"));
        assert_eq!(cuts.count(), 0);
    }

    #[test]
    fn pins_are_counted_in_what_is_sewn_for_a_child() {
        let sewn = |tags: &[&str], age| {
            let mut ticket = ticket(tags, age, None);
            let length = crate::quantity::Length::inches(20.0);
            ticket.sewing = vec![crate::ticket::ticket::Sewing {
                class: "301".to_owned(),
                length,
                why: "seam".to_owned(),
                once: false,
            }];
            keys_of(&ticket, Market::Any).contains(&"pins")
        };
        assert!(sewn(&["skirt"], Some(5.0)) && sewn(&["skirt", "child"], None) && sewn(&["decoration"], Some(1.0)));
        assert!(!sewn(&["skirt", "child"], Some(30.0)) && !sewn(&["skirt"], None));
    }

    #[test]
    fn a_caution_that_an_age_decides_says_so() {
        let table = table(&ticket(&["child"], None, Some(Usage::Sleep)), Market::Us).unwrap();
        let says_so: Vec<bool> = table
            .values("caution")
            .unwrap()
            .map(|cell| matches!(cell, crate::table::Cell::Text(text) if text.ends_with(SAY_THE_AGE)))
            .collect();
        assert_eq!(says_so, [true, false]);
    }
}
