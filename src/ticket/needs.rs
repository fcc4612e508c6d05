//! What the order needs besides cloth, summed by material: notions, and the thread of its stitching.
//!
//! Never here: stock on the shelf, and prices.

use super::job::{Job, preferred_unit};
use super::stitching::Stitching;
use super::washing::FirstWash;
use crate::piece::MaterialKind;
use crate::quantity::{Length, Liked, Quantity, number};
use crate::textile::washing::Loss;
use crate::workshop::Material;

/// The amount of one material for the whole order.
pub(super) struct RequiredMaterial<'a> {
    pub(super) name: String,
    /// `None` for thread if the workshop lists none.
    pub(super) material: Option<&'a Material>,
    /// Whether the workshop lists it, so that its stock can be looked up.
    pub(super) listed: bool,
    pub(super) amount: Quantity,
    /// Whether the amount includes the stitching's thread, and so the waste added to that.
    pub(super) includes_thread: bool,
    /// The lengths it is cut into, before the first wash if the order allows for that; empty if it is counted or wound
    /// off.
    pub(super) lengths: Vec<NeededLength>,
    /// What the wash takes of those lengths.
    pub(super) loss: Loss,
}

/// Equal lengths of a notion, each in one piece.
pub(super) struct NeededLength {
    pub(super) length: Length,
    /// How many for the whole order.
    pub(super) count: i64,
    /// What they are for.
    pub(super) why: String,
}

/// The name of the thread if the workshop lists none.
pub(super) const PLAIN_THREAD: &str = "thread";

/// Returns the notions in ticket order, then the thread.
pub(super) fn required_materials<'a>(job: &Job<'a>, stitching: &Stitching) -> Vec<RequiredMaterial<'a>> {
    let mut list: Vec<RequiredMaterial<'a>> = Vec::new();
    for need in &job.ticket.needs {
        let Some((material, listed)) = job.material(need.material) else { continue };
        let piece = job.amount_needed(need, material);
        let each = job.amount(piece, need.once);
        let steps = each.steps() * number::from_whole(need.count.max(0));
        let amount = Quantity::from_steps(steps, each.dimension()).liking(each.liked());
        let length = Length::try_from(piece).ok().filter(|_| material.kind != MaterialKind::Thread);
        let (count, why) = (job.ticket.pieces_needed(need), need.why.clone());
        let lengths = length.into_iter().map(|length| NeededLength { length, count, why: why.clone() }).collect();
        add(
            &mut list,
            RequiredMaterial {
                name: material.name.clone(),
                material: Some(material),
                listed,
                amount,
                includes_thread: false,
                lengths,
                loss: FirstWash::of(material, job.ticket.washing).sewn(),
            },
        );
    }
    // An overlock is threaded from its own cones where the workshop lists any.
    let cones = overlock_thread(job);
    let sewn = if cones.is_some() { stitching.thread - stitching.overedge } else { stitching.thread };
    let overedge = cones.map(|cones| (Some(cones), stitching.overedge));
    let threads = std::iter::once((sewing_thread(job), sewn)).chain(overedge);
    for (thread, length) in threads.filter(|(_, length)| length.is_positive()) {
        let liked = thread.map(preferred_unit).unwrap_or_default().or(Liked::unit(job.large_unit()));
        let amount = Quantity::from(length).liking(liked);
        let name = thread.map_or(PLAIN_THREAD, |thread| &thread.name).to_owned();
        add(
            &mut list,
            RequiredMaterial {
                name,
                material: thread,
                listed: thread.is_some(),
                amount,
                includes_thread: true,
                lengths: Vec::new(),
                loss: Loss::NONE,
            },
        );
    }
    list
}

/// Returns the first listed thread with a price, else the first listed thread; thread on overlock cones only if there is
/// no other.
fn sewing_thread<'a>(job: &Job<'a>) -> Option<&'a Material> {
    let threads = || job.workshop.materials.list.iter().filter(|material| material.kind == MaterialKind::Thread);
    let reels = || threads().filter(|thread| !is_for_overlock(thread));
    reels().find(|thread| thread.price.is_some()).or_else(|| reels().next()).or_else(|| threads().next())
}

/// Returns the first listed thread on overlock cones with a price, else the first.
fn overlock_thread<'a>(job: &Job<'a>) -> Option<&'a Material> {
    let threads = || job.workshop.materials.list.iter().filter(|material| material.kind == MaterialKind::Thread);
    let cones = || threads().filter(|thread| is_for_overlock(thread));
    cones().find(|thread| thread.price.is_some()).or_else(|| cones().next())
}

/// Returns whether a thread's name says that it is for an overlock.
fn is_for_overlock(thread: &Material) -> bool {
    let name = thread.name.to_lowercase();
    let mut words = name.split(|letter: char| !letter.is_alphanumeric());
    words.any(|word| ["overlock", "overedge", "cone", "cones"].contains(&word))
}

/// Adds to the entry of the same material if both are lengths or both are counts, else makes a new entry.
fn add<'a>(list: &mut Vec<RequiredMaterial<'a>>, more: RequiredMaterial<'a>) {
    let same = |existing: &&mut RequiredMaterial<'a>| {
        let one_material = match (existing.material, more.material) {
            (Some(existing), Some(more)) => std::ptr::eq(existing, more),
            _ => false,
        };
        (one_material || existing.listed && more.listed && existing.name == more.name)
            && existing.amount.dimension() == more.amount.dimension()
    };
    match list.iter_mut().find(same) {
        Some(existing) => {
            existing.amount =
                Quantity::from_steps(existing.amount.steps() + more.amount.steps(), existing.amount.dimension())
                    .liking(existing.amount.liked());
            existing.lengths.extend(more.lengths);
            existing.includes_thread |= more.includes_thread;
        }
        None => list.push(more),
    }
}
