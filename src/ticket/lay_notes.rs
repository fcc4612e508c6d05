//! Notes for the maker before cutting: notes of the plans, stock held for orders, and what a nap costs.
//!
//! Never here: the cuts themselves, which the plan reports; the first wash, which is a section of its own.

use super::job::Job;
use super::lay::Lay;
use crate::cutting::PlanNote;
use crate::piece::Shape;
use crate::workshop::StockPiece;

/// A note, and what it is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct LayNote {
    pub(super) about: About,
    pub(super) text: String,
}

/// What a note is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum About {
    /// Dye lots, kept apart or mixed.
    Lots,
    /// Washed and unwashed cloth, kept apart.
    Washed,
    /// How the pattern is matched.
    Pattern,
    /// How pieces lie.
    Laying,
    /// Stock that is held for another order.
    Held,
    /// What lying one way costs.
    Nap,
    /// Notions that are joined from several lengths.
    Joined,
}

impl About {
    /// Every subject, in the order in which a first screen has them.
    pub(super) const ALL: [Self; 7] =
        [Self::Held, Self::Lots, Self::Washed, Self::Joined, Self::Pattern, Self::Nap, Self::Laying];

    /// Returns the word for it on a first screen.
    pub(super) fn label(self) -> &'static str {
        match self {
            Self::Lots => "LOTS",
            Self::Washed => "WASHED",
            Self::Pattern => "PATTERN",
            Self::Laying => "LAYING",
            Self::Held => "HELD",
            Self::Nap => "NAP",
            Self::Joined => "JOINED",
        }
    }

    fn of(note: &PlanNote) -> Self {
        match note {
            PlanNote::LotsMixed { .. } | PlanNote::LotsApart { .. } => Self::Lots,
            PlanNote::WashedApart { .. } => Self::Washed,
            PlanNote::MarksFromPattern | PlanNote::MatchedAlongOnly { .. } => Self::Pattern,
            PlanNote::RectangleRound { .. } | PlanNote::PlacedOpen { .. } | PlanNote::PinDropped { .. } => Self::Laying,
        }
    }
}

/// Returns the notes on the plans and their cloth, and on stock of listed `notions` that is held, each once; without
/// those of the plans that are `told` elsewhere.
pub(super) fn notes<'a>(
    job: &Job<'_>,
    lays: &[Lay],
    notions: impl Iterator<Item = &'a str>,
    told: &[PlanNote],
) -> Vec<LayNote> {
    let mut notes: Vec<LayNote> = Vec::new();
    let of_the_plans = lays.iter().flat_map(|lay| &lay.plan.notes).filter(|note| !told.contains(note));
    let of_the_plans = of_the_plans.map(|note| LayNote { about: About::of(note), text: note.to_string() });
    let held_of = |lay: &Lay| if lay.material.listed { held(job, &lay.material.material.name) } else { Vec::new() };
    let of_the_cloth = lays.iter().flat_map(held_of);
    let of_the_notions = notions.flat_map(|name| held(job, name));
    let held = of_the_cloth.chain(of_the_notions).map(|text| LayNote { about: About::Held, text });
    for note in of_the_plans.chain(held) {
        if !notes.contains(&note) {
            notes.push(note);
        }
    }
    notes
}

/// Returns a note for each napped cloth: what its pieces take lying one way, and what they would take if they could be
/// turned. Both plans are from endless stock, so that the shelf does not tell in the difference. No handbook has a share
/// to add for a nap.
pub(super) fn nap(job: &Job<'_>, one_way: &[Lay], turned: &[Lay]) -> Vec<LayNote> {
    // On the tape of the cuts, which the sheet has beside it.
    let words = job.plan_words();
    let say = |length| words.say(length);
    let napped = one_way.iter().filter(|lay| lay.goods.napped);
    let notes = napped.filter_map(|lay| {
        let other = turned.iter().find(|other| other.index == lay.index)?;
        let (used, less) = (lay.length_used(), other.length_used());
        let name = &lay.material.material.name;
        let lying = format!("{name} has a nap: all pieces lie the same way, so mark that way on each");
        if lay.pieces.iter().all(|piece| matches!(*piece.shape, Shape::FullWidth { .. })) {
            // What a recipe cuts out of the whole width is its own to turn.
            return Some(lying);
        }
        let instead = if less < used { say(less) } else { "no less".to_owned() };
        Some(format!("{lying}; they take {}, and would take {instead} if some were turned", say(used)))
    });
    notes.map(|text| LayNote { about: About::Nap, text }).collect()
}

/// Returns notes on stock left on the shelf because another order holds it; it may be this one under another name.
fn held(job: &Job<'_>, name: &str) -> Vec<String> {
    let elsewhere = |piece: &&StockPiece| piece.count > 0 && !job.ticket.mark.may_take(piece);
    let pieces = job.workshop.stock.of(name).filter(elsewhere).filter_map(|piece| {
        let order = piece.held_for.as_ref()?;
        let amount = piece.along.map_or_else(|| piece.count.to_string(), |along| job.plan_words().say(along));
        Some(format!("{}, {amount} of {name}, is reserved for {order}, not used", piece.name))
    });
    pieces.collect()
}
