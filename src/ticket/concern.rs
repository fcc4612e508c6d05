//! Decides which cautions and label lines apply to a ticket: conditions as data, and the ticket facts they test.
//!
//! Never here: the text of cautions and labels.

use super::ticket::{Need, Ticket};
use super::usage::Usage;
use crate::quantity::{Dimension, Time, Unit, number};
use crate::textile::fibres::{self, FibreGroup, Part};
use crate::textile::rules;
use crate::workshop::Material;

/// A condition on a ticket.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Condition {
    /// The recipe has this tag.
    For(&'static str),
    /// The wearer is younger than this many months; false if the age is unknown.
    Younger(i64),
    /// The wearer is younger than this many months, or the age is unknown and the recipe has the tag `child`.
    Child(i64),
    /// The order states one of these uses.
    Used(&'static [Usage]),
    /// The order is for clothing.
    Worn,
    /// The order is for clothing, and the recipe makes no curtain, bag or other thing of the house.
    Apparel,
    /// The wearer's age is known, and is at least this many months.
    OfAge(i64),
    /// A cloth is lighter than 2.6 oz/yd², or its weight is unknown and its name is that of a thin cloth such as net.
    Thin,
    /// A thin cloth is not known to be wholly of fibres that are exempt at any weight.
    ThinNotExempt,
    /// The name of a notion or piece, or the purpose of a notion, contains one of these words.
    Has(&'static [&'static str]),
    /// A cloth is known to have a fibre that melts.
    Melts,
    /// The fibre of a cloth is not known, so it may melt.
    MayMelt,
    /// Elastic goes where one of these words says, by the purpose of the need.
    ElasticAt(&'static [&'static str]),
    /// Something is cut.
    Cut,
    /// Something is sewn.
    Sewn,
}

/// Rows of conditions: at least one row must hold completely. Without rows it never holds.
pub(super) type When = &'static [&'static [Condition]];

/// The facts of a ticket that conditions test.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Facts {
    tags: Vec<String>,
    age: Option<Time>,
    used_for: Option<Usage>,
    /// Lower-case words from the names of notions and pieces and from the purposes of notions.
    words: Vec<String>,
    /// Lower-case words from the purposes of elastics.
    elastic_words: Vec<String>,
    thin: bool,
    thin_not_exempt: bool,
    melts: bool,
    may_melt: bool,
    cut: bool,
    sewn: bool,
}

/// Words in a cloth's name that mean it is thin.
const THIN: [&str; 8] = ["tulle", "net", "netting", "organza", "chiffon", "georgette", "voile", "gauze"];

impl Facts {
    /// Collects the facts of a ticket.
    pub(super) fn from_ticket(ticket: &Ticket) -> Self {
        let goods: Vec<&Material> = cloths(ticket).collect();
        let contents: Vec<_> = goods.iter().map(|goods| content_of(goods)).collect();
        let needs = ticket.needs.iter();
        let is_elastic = |need: &&Need| {
            let material = ticket.materials.get(need.material);
            material.is_some_and(|material| has_elastic(&material.material))
        };
        let elastics = needs.clone().filter(is_elastic);
        let needed = needs.clone().filter_map(|need| ticket.materials.get(need.material));
        let names = needed.map(|material| material.material.name.as_str());
        let names = names.chain(needs.map(|need| need.why.as_str()));
        let names = names.chain(ticket.pieces.iter().map(|entry| entry.piece.name.as_str()));
        Self {
            tags: ticket.tags.clone(),
            age: ticket.age,
            used_for: ticket.used_for,
            elastic_words: elastics.flat_map(|need| words(&need.why)).collect(),
            words: names.flat_map(words).collect(),
            thin: goods.iter().any(|goods| is_thin(goods)),
            thin_not_exempt: goods.iter().any(|goods| is_thin(goods) && !is_exempt(goods)),
            melts: contents.iter().flatten().any(|content| fibres::melts(content)),
            may_melt: contents.iter().any(Option::is_none),
            cut: !ticket.pieces.is_empty(),
            sewn: !ticket.sewing.is_empty(),
        }
    }

    /// Returns whether any of the rows holds.
    pub(super) fn satisfy(&self, when: When) -> bool {
        when.iter().any(|row| row.iter().all(|condition| self.holds(*condition)))
    }

    /// Returns whether the rows hold only because the age is unknown, and would not hold for an adult.
    pub(super) fn depends_on_unknown_age(&self, when: When) -> bool {
        self.age.is_none() && self.satisfy(when) && !self.of_an_adult().satisfy(when)
    }

    /// Returns whether the rows do not hold only because the age is unknown, and would hold for an adult.
    pub(super) fn would_hold_for_an_adult(&self, when: When) -> bool {
        self.age.is_none() && !self.satisfy(when) && self.of_an_adult().satisfy(when)
    }

    fn of_an_adult(&self) -> Self {
        Self { age: Some(months(ADULT_MONTHS)), ..self.clone() }
    }

    /// Returns whether a single condition holds.
    pub(super) fn holds(&self, condition: Condition) -> bool {
        let younger = |than: i64| self.age.map(|age| age < months(than));
        match condition {
            Condition::For(tag) => self.is_for(tag),
            Condition::Younger(than) => younger(than).unwrap_or(false),
            Condition::Child(than) => younger(than).unwrap_or(self.is_for("child")),
            Condition::Used(uses) => self.used_for.is_some_and(|usage| uses.contains(&usage)),
            Condition::Worn => self.is_worn(),
            Condition::Apparel => self.is_worn() && !HOUSE.iter().any(|tag| self.is_for(tag)),
            Condition::OfAge(least) => self.age.is_some_and(|age| age >= months(least)),
            Condition::Thin => self.thin,
            Condition::ThinNotExempt => self.thin_not_exempt,
            Condition::Melts => self.melts,
            Condition::MayMelt => self.may_melt,
            Condition::Has(called) => has(&self.words, called),
            Condition::ElasticAt(places) => has(&self.elastic_words, places),
            Condition::Cut => self.cut,
            Condition::Sewn => self.sewn,
        }
    }

    fn is_for(&self, tag: &str) -> bool {
        self.tags.iter().any(|known| known == tag)
    }

    fn is_worn(&self) -> bool {
        match self.used_for {
            Some(usage) => usage != Usage::Household,
            None => !HOUSE.iter().any(|tag| self.is_for(tag)),
        }
    }
}

/// Tags of recipes for things of the house, which nobody wears.
const HOUSE: [&str; 4] = ["curtain", "household", "bag", "decoration"];

/// In months; older than any age a condition tests.
const ADULT_MONTHS: i64 = 60 * 12;

fn months(count: i64) -> Time {
    Time::from_steps(Unit::Month.steps() * number::from_whole(count))
}

/// Returns the cloths and rolls that pieces are cut from.
pub(super) fn cloths(ticket: &Ticket) -> impl Iterator<Item = &Material> {
    let cut = |index: usize| ticket.pieces.iter().any(|piece| piece.material == index);
    let goods = ticket.materials.iter().enumerate().filter(move |(index, _)| cut(*index));
    let goods = goods.map(|(_, known)| &known.material);
    goods.filter(|material| material.kind.is_cut())
}

fn words(name: &str) -> Vec<String> {
    name.to_lowercase().split(|c: char| !c.is_alphanumeric()).map(str::to_owned).collect()
}

fn has(words: &[String], called: &[&str]) -> bool {
    called.iter().any(|called| words.iter().any(|word| is_called(word, called)))
}

/// Matches singular and plural: `bow`, `bows`.
fn is_called(word: &str, called: &str) -> bool {
    word.strip_prefix(called).is_some_and(|rest| ["", "s", "es"].contains(&rest))
}

fn is_thin(goods: &Material) -> bool {
    match goods.weight.filter(|weight| weight.dimension() == Dimension::MASS_BY_AREA) {
        Some(weight) => rules::reaches_exempt_weight(weight) == Ok(false),
        None => words(&goods.name).iter().any(|word| THIN.contains(&word.as_str())),
    }
}

fn is_exempt(goods: &Material) -> bool {
    content_of(goods).is_some_and(|content| fibres::is_wholly_exempt(&content))
}

/// Returns the fibre content of a material; `None` if it is not written down, or cannot be read.
fn content_of(goods: &Material) -> Option<Vec<Part>> {
    fibres::read_content(goods.fibre.as_deref()?).ok()
}

/// Returns whether a material is an elastic, by its name or its fibres.
pub(super) fn has_elastic(goods: &Material) -> bool {
    let named = words(&goods.name).iter().any(|word| is_called(word, "elastic"));
    let of_it =
        |content: Vec<Part>| content.iter().any(|part| fibres::group_of(&part.fibre) == Some(FibreGroup::Elastic));
    named || content_of(goods).is_some_and(of_it)
}

#[cfg(test)]
mod tests {
    use super::*;

    const UNDER_THREE: When = &[
        &[Condition::Worn, Condition::Younger(36)],
        &[Condition::Worn, Condition::Child(36), Condition::Has(&["bow", "button"])],
    ];

    fn facts(tags: &[&str], age: Option<i64>, words: &[&str]) -> Facts {
        let owned = |list: &[&str]| list.iter().map(|word| (*word).to_owned()).collect();
        Facts { tags: owned(tags), age: age.map(months), words: owned(words), ..Facts::default() }
    }

    #[test]
    fn thirty_six_months_are_not_under_three() {
        assert!(facts(&[], Some(35), &[]).satisfy(UNDER_THREE));
        assert!(!facts(&["child"], Some(36), &["bows"]).satisfy(UNDER_THREE));
        assert!(!facts(&["curtain"], Some(35), &[]).satisfy(UNDER_THREE));
        let three_years = Time::from_steps(Unit::Year.steps() * 3.0);
        assert!(!Facts { age: Some(three_years), ..Facts::default() }.satisfy(UNDER_THREE));
    }

    #[test]
    fn an_age_tells_only_where_its_absence_brought_the_caution() {
        let unsaid = facts(&["child"], None, &["bows"]);
        assert!(unsaid.satisfy(UNDER_THREE) && unsaid.depends_on_unknown_age(UNDER_THREE));
        assert!(!facts(&["child"], None, &["elbow"]).satisfy(UNDER_THREE));
        assert!(!facts(&["child"], Some(12), &["bows"]).depends_on_unknown_age(UNDER_THREE));
        assert!(!facts(&[], None, &["bows"]).satisfy(UNDER_THREE));
        assert!(!facts(&[], None, &["bows"]).satisfy(&[]));
    }

    #[test]
    fn an_age_tells_too_where_it_would_take_a_caution_away() {
        const GROWN: When = &[&[Condition::OfAge(168)]];
        assert!(facts(&[], Some(168), &[]).satisfy(GROWN) && !facts(&[], Some(167), &[]).satisfy(GROWN));
        assert!(!facts(&[], None, &[]).satisfy(GROWN) && facts(&[], None, &[]).would_hold_for_an_adult(GROWN));
        assert!(!facts(&[], Some(167), &[]).would_hold_for_an_adult(GROWN));
        assert!(!facts(&[], None, &[]).would_hold_for_an_adult(&[]));
    }

    #[test]
    fn an_age_tells_nothing_of_what_holds_at_any_age_or_at_none() {
        const WORN: When = &[&[Condition::Worn]];
        for tags in [&["skirt"][..], &["curtain"]] {
            let unsaid = facts(tags, None, &[]);
            assert_eq!(unsaid.satisfy(WORN), tags == ["skirt"]);
            assert!(!unsaid.depends_on_unknown_age(WORN) && !unsaid.would_hold_for_an_adult(WORN), "{tags:?}");
        }
    }

    /// By its name, or by a fibre that springs back, in whatever share.
    #[test]
    fn an_elastic_is_known_by_its_name_or_its_fibres() {
        let list = "material,kind,usable width,fibre\nsoft elastic of 1 in,notion,1 in,\nknicker elastics,notion,1 in,\n\
                    round braid,notion,1 in,\nwoven braid,notion,1 in,100 % cotton\n\
                    stretch braid,notion,1 in,\"90 % cotton, 10 % elastane\"\n";
        let shop = crate::workshop::Workshop::read(&[("materials.csv", list)]).unwrap();
        let is_elastic = |name: &str| has_elastic(shop.materials.find(name).unwrap());
        for name in ["soft elastic of 1 in", "knicker elastics", "stretch braid"] {
            assert!(is_elastic(name), "{name}");
        }
        for name in ["round braid", "woven braid"] {
            assert!(!is_elastic(name), "{name}");
        }
    }

    #[test]
    fn a_use_wins_over_the_tags() {
        let home = Facts { used_for: Some(Usage::Household), ..facts(&["skirt"], None, &[]) };
        let worn = Facts { used_for: Some(Usage::Stage), ..facts(&["curtain"], None, &[]) };
        assert!(!home.satisfy(&[&[Condition::Worn]]) && worn.satisfy(&[&[Condition::Worn]]));
        // A curtain on a stage burns near people, but is no clothing all the same.
        assert!(!home.satisfy(&[&[Condition::Apparel]]) && !worn.satisfy(&[&[Condition::Apparel]]));
        assert!(facts(&["skirt"], None, &[]).satisfy(&[&[Condition::Apparel]]));
    }
}
