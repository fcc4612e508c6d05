//! Decides which cautions and label lines apply to a ticket: conditions as data, and the ticket facts they test.
//!
//! Never here: the text of cautions and labels.

use super::ticket::Ticket;
use super::usage::Usage;
use crate::quantity::{Dimension, Time, Unit, number};
use crate::textile::{fibres, rules};
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
    /// A cloth is lighter than 2.6 oz/yd², or its weight is unknown and its name is that of a thin cloth such as net.
    Thin,
    /// A thin cloth is not known to be wholly of fibres that are exempt at any weight.
    ThinNotExempt,
    /// The name of a notion or piece, or the purpose of a notion, contains one of these words.
    Has(&'static [&'static str]),
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
    thin: bool,
    thin_not_exempt: bool,
    cut: bool,
    sewn: bool,
}

/// Words in a cloth's name that mean it is thin.
const THIN: [&str; 8] = ["tulle", "net", "netting", "organza", "chiffon", "georgette", "voile", "gauze"];

impl Facts {
    /// Collects the facts of a ticket.
    pub(super) fn from_ticket(ticket: &Ticket) -> Self {
        let goods: Vec<&Material> = cloths(ticket).collect();
        let needs = ticket.needs.iter();
        let needed = needs.clone().filter_map(|need| ticket.materials.get(need.material));
        let names = needed.map(|material| material.material.name.as_str());
        let names = names.chain(needs.map(|need| need.why.as_str()));
        let names = names.chain(ticket.pieces.iter().map(|entry| entry.piece.name.as_str()));
        Self {
            tags: ticket.tags.clone(),
            age: ticket.age,
            used_for: ticket.used_for,
            words: names.flat_map(words).collect(),
            thin: goods.iter().any(|goods| is_thin(goods)),
            thin_not_exempt: goods.iter().any(|goods| is_thin(goods) && !is_exempt(goods)),
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
        let adult = Self { age: Some(months(ADULT_MONTHS)), ..self.clone() };
        self.age.is_none() && self.satisfy(when) && !adult.satisfy(when)
    }

    fn holds(&self, condition: Condition) -> bool {
        let younger = |than: i64| self.age.map(|age| age < months(than));
        match condition {
            Condition::For(tag) => self.is_for(tag),
            Condition::Younger(than) => younger(than).unwrap_or(false),
            Condition::Child(than) => younger(than).unwrap_or(self.is_for("child")),
            Condition::Used(uses) => self.used_for.is_some_and(|usage| uses.contains(&usage)),
            Condition::Worn => self.is_worn(),
            Condition::Thin => self.thin,
            Condition::ThinNotExempt => self.thin_not_exempt,
            Condition::Has(called) => called.iter().any(|called| self.words.iter().any(|word| is_called(word, called))),
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
            None => !["curtain", "household", "bag", "decoration"].iter().any(|tag| self.is_for(tag)),
        }
    }
}

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
    let content = goods.fibre.as_deref().map(fibres::read_content);
    matches!(content, Some(Ok(content)) if fibres::is_wholly_exempt(&content))
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
    fn a_use_wins_over_the_tags() {
        let home = Facts { used_for: Some(Usage::Household), ..facts(&["skirt"], None, &[]) };
        let worn = Facts { used_for: Some(Usage::Stage), ..facts(&["curtain"], None, &[]) };
        assert!(!home.satisfy(&[&[Condition::Worn]]) && worn.satisfy(&[&[Condition::Worn]]));
    }
}
