//! Notes for the maker before cutting: notes of the plans, stock held for orders, and what a nap costs.
//!
//! Never here: the cuts themselves, which the plan reports; the first wash, which is a section of its own.

use super::job::Job;
use super::lay::Lay;
use crate::cutting::PlanNote;
use crate::piece::Shape;
use crate::workshop::StockPiece;

/// Returns the notes on the plans and their cloth, and on stock of listed `notions` that is held, each once; without
/// those of the plans that are `told` elsewhere.
pub(super) fn notes<'a>(
    job: &Job<'_>,
    lays: &[Lay],
    notions: impl Iterator<Item = &'a str>,
    told: &[PlanNote],
) -> Vec<String> {
    let mut notes: Vec<String> = Vec::new();
    let of_the_plans = lays.iter().flat_map(|lay| &lay.plan.notes).filter(|note| !told.contains(note));
    let of_the_plans = of_the_plans.map(ToString::to_string);
    let held_of = |lay: &Lay| if lay.material.listed { held(job, &lay.material.material.name) } else { Vec::new() };
    let of_the_cloth = lays.iter().flat_map(held_of);
    let of_the_notions = notions.flat_map(|name| held(job, name));
    for note in of_the_plans.chain(of_the_cloth).chain(of_the_notions) {
        if !notes.contains(&note) {
            notes.push(note);
        }
    }
    notes
}

/// Returns a note for each napped cloth: what its pieces take lying one way, and what they would take if they could be
/// turned. Both plans are from endless stock, so that the shelf does not tell in the difference. No handbook has a share
/// to add for a nap.
pub(super) fn nap(job: &Job<'_>, one_way: &[Lay], turned: &[Lay]) -> Vec<String> {
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
    notes.collect()
}

/// Returns notes on stock left on the shelf because another order holds it; it may be this one under another name.
fn held(job: &Job<'_>, name: &str) -> Vec<String> {
    let elsewhere = |piece: &&StockPiece| piece.count > 0 && !job.ticket.mark.may_take(piece);
    let pieces = job.workshop.stock.of(name).filter(elsewhere).filter_map(|piece| {
        let order = piece.held_for.as_ref()?;
        let amount = piece.along.map_or_else(|| piece.count.to_string(), |along| job.plan_words().say(along));
        Some(format!("{}, {amount} of {name}, is held for {order} and was left on the shelf", piece.name))
    });
    pieces.collect()
}
