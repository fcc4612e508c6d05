//! What the order needs besides cloth, summed by material: notions, and the thread of its stitching.
//!
//! Never here: stock on the shelf, and prices.

use super::job::{Job, told_in};
use super::stitching::Stitching;
use crate::piece::MaterialKind;
use crate::quantity::{Length, Liked, Quantity, Tape, Unit};
use crate::workshop::Material;

/// The amount of one material for the whole order.
pub(super) struct Wanted<'a> {
    pub(super) name: String,
    /// `None` for thread if the workshop lists none.
    pub(super) material: Option<&'a Material>,
    /// Whether the workshop lists it, so that its stock can be looked up.
    pub(super) listed: bool,
    pub(super) amount: Quantity,
    /// Whether the amount includes the stitching's thread, and so the waste added to that.
    pub(super) sews: bool,
    /// The lengths it is cut into and how many of each; empty if it is counted or wound off.
    pub(super) lengths: Vec<(Length, i64)>,
}

/// The name of the thread if the workshop lists none.
pub(super) const PLAIN_THREAD: &str = "thread";

/// Returns the notions in ticket order, then the thread.
pub(super) fn wanted<'a>(job: &Job<'a>, stitching: &Stitching) -> Vec<Wanted<'a>> {
    let mut list: Vec<Wanted<'a>> = Vec::new();
    for need in &job.ticket.needs {
        let Some((material, listed)) = job.material(need.material) else { continue };
        let amount = job.amount(need.amount, need.once);
        let lengths = Length::try_from(need.amount).ok().filter(|_| material.kind != MaterialKind::Thread);
        let lengths = lengths.into_iter().map(|length| (length, job.times(need.once))).collect();
        add(
            &mut list,
            Wanted { name: material.name.clone(), material: Some(material), listed, amount, sews: false, lengths },
        );
    }
    if stitching.thread.is_positive() {
        let thread = sewing_thread(job);
        let liked = thread.map(told_in).unwrap_or_default().or(Liked::unit(large_unit(job)));
        let amount = Quantity::from(stitching.thread).liking(liked);
        let name = thread.map_or(PLAIN_THREAD, |thread| &thread.name).to_owned();
        add(
            &mut list,
            Wanted { name, material: thread, listed: thread.is_some(), amount, sews: true, lengths: Vec::new() },
        );
    }
    list
}

/// Returns the first listed thread with a price, else the first listed thread.
fn sewing_thread<'a>(job: &Job<'a>) -> Option<&'a Material> {
    let threads = || job.workshop.materials.list.iter().filter(|material| material.kind == MaterialKind::Thread);
    threads().find(|thread| thread.price.is_some()).or_else(|| threads().next())
}

fn large_unit(job: &Job<'_>) -> Unit {
    match job.tape {
        Tape::Inch => Unit::Yard,
        Tape::Metric => Unit::Metre,
    }
}

/// Adds to the entry of the same material if both are lengths or both are counts, else makes a new entry.
fn add<'a>(list: &mut Vec<Wanted<'a>>, more: Wanted<'a>) {
    let same = |known: &&mut Wanted<'a>| {
        let one_material = match (known.material, more.material) {
            (Some(known), Some(more)) => std::ptr::eq(known, more),
            _ => false,
        };
        (one_material || known.listed && more.listed && known.name == more.name)
            && known.amount.dimension() == more.amount.dimension()
    };
    match list.iter_mut().find(same) {
        Some(known) => {
            known.amount = Quantity::from_steps(known.amount.steps() + more.amount.steps(), known.amount.dimension())
                .liking(known.amount.liked());
            known.lengths.extend(more.lengths);
            known.sews |= more.sews;
        }
        None => list.push(more),
    }
}
