//! Which ticket a caution or a label line concerns: conditions as data, and the facts of a ticket they read.
//!
//! Never here: the words of cautions and labels.

use super::ticket::Ticket;
use super::usage::Usage;
use crate::quantity::{Dimension, Time, Unit, number};
use crate::textile::{fibres, rules};
use crate::workshop::Material;

/// One thing that must hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Condition {
    /// The recipe says it is for this.
    For(&'static str),
    /// The wearer is younger than so many months; an age that is not said is not young.
    Younger(i64),
    /// The wearer is younger than so many months, or the recipe is for children and no age is said.
    Child(i64),
    /// The order says one of these uses.
    Used(&'static [Usage]),
    /// It is clothing.
    Worn,
    /// A cloth in it is lighter than 2.6 oz/yd², or is net and the like of unknown weight.
    Thin,
    /// A thin cloth in it is not known to be wholly of the fibres that are exempt at any weight.
    ThinNotExempt,
    /// A notion, its purpose or a piece is called one of these.
    Has(&'static [&'static str]),
    /// Something is cut.
    Cut,
    /// Something is sewn.
    Sewn,
}

/// Any of these rows of conditions, of which all hold; no row at all never holds.
pub(super) type When = &'static [&'static [Condition]];

/// What conditions read of a ticket.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Facts {
    tags: Vec<String>,
    age: Option<Time>,
    used_for: Option<Usage>,
    /// Words of the names of notions and pieces, in small letters.
    words: Vec<String>,
    thin: bool,
    thin_not_exempt: bool,
    cut: bool,
    sewn: bool,
}

/// Cloth that is thin by its name.
const THIN: [&str; 8] = ["tulle", "net", "netting", "organza", "chiffon", "georgette", "voile", "gauze"];

impl Facts {
    /// Those of a ticket.
    pub(super) fn of(ticket: &Ticket) -> Self {
        let goods: Vec<&Material> = cloths(ticket).collect();
        let needs = ticket.needs.iter();
        let needed = needs.clone().filter_map(|need| ticket.materials.get(need.material));
        let names = needed.map(|material| material.material.name.as_str());
        let names = names.chain(needs.map(|need| need.why.as_str()));
        let names = names.chain(ticket.pieces.iter().map(|piece| piece.name.as_str()));
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

    /// Whether any of the rows holds.
    pub(super) fn meet(&self, when: When) -> bool {
        when.iter().any(|row| row.iter().all(|condition| self.holds(*condition)))
    }

    /// Whether the rows hold only because no age is said: for a grown wearer none would.
    pub(super) fn age_would_tell(&self, when: When) -> bool {
        let grown = Self { age: Some(months(GROWN)), ..self.clone() };
        self.age.is_none() && self.meet(when) && !grown.meet(when)
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

/// Older than any age a condition asks for.
const GROWN: i64 = 60 * 12;

fn months(count: i64) -> Time {
    Time::from_steps(Unit::Month.steps() * number::from_whole(count))
}

/// The cloths and rolls that pieces are cut from.
pub(super) fn cloths(ticket: &Ticket) -> impl Iterator<Item = &Material> {
    let cut = |index: usize| ticket.pieces.iter().any(|piece| piece.material == index);
    let goods = ticket.materials.iter().enumerate().filter(move |(index, _)| cut(*index));
    let goods = goods.map(|(_, known)| &known.material);
    goods.filter(|material| material.kind.is_cut())
}

fn words(name: &str) -> Vec<String> {
    name.to_lowercase().split(|c: char| !c.is_alphanumeric()).map(str::to_owned).collect()
}

/// One of them or several: `bow`, `bows`.
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
        assert!(facts(&[], Some(35), &[]).meet(UNDER_THREE));
        assert!(!facts(&["child"], Some(36), &["bows"]).meet(UNDER_THREE));
        assert!(!facts(&["curtain"], Some(35), &[]).meet(UNDER_THREE));
        let three_years = Time::from_steps(Unit::Year.steps() * 3.0);
        assert!(!Facts { age: Some(three_years), ..Facts::default() }.meet(UNDER_THREE));
    }

    #[test]
    fn an_age_tells_only_where_its_absence_brought_the_caution() {
        let unsaid = facts(&["child"], None, &["bows"]);
        assert!(unsaid.meet(UNDER_THREE) && unsaid.age_would_tell(UNDER_THREE));
        assert!(!facts(&["child"], None, &["elbow"]).meet(UNDER_THREE));
        assert!(!facts(&["child"], Some(12), &["bows"]).age_would_tell(UNDER_THREE));
        assert!(!facts(&[], None, &["bows"]).meet(UNDER_THREE));
        assert!(!facts(&[], None, &["bows"]).meet(&[]));
    }

    #[test]
    fn a_use_wins_over_the_tags() {
        let home = Facts { used_for: Some(Usage::Household), ..facts(&["skirt"], None, &[]) };
        let worn = Facts { used_for: Some(Usage::Stage), ..facts(&["curtain"], None, &[]) };
        assert!(!home.meet(&[&[Condition::Worn]]) && worn.meet(&[&[Condition::Worn]]));
    }
}
