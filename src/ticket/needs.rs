//! What the order needs besides cloth, summed by material: notions, and the thread of its stitching.
//!
//! Never here: what of it lies on the shelf, and prices.

use super::job::{Job, told_in};
use super::stitching::Stitching;
use crate::piece::MaterialKind;
use crate::quantity::{Length, Liked, Quantity, Tape, Unit};
use crate::workshop::Material;

/// So much of one material for the whole order.
pub(super) struct Wanted<'a> {
    /// What it is called.
    pub(super) name: String,
    /// What it is; none of thread that the workshop's list does not have.
    pub(super) material: Option<&'a Material>,
    /// It is in the workshop's list, so its stock may be looked up.
    pub(super) listed: bool,
    /// How much.
    pub(super) amount: Quantity,
    /// The stitching's thread is in it, and so the waste that is put on that.
    pub(super) sews: bool,
    /// The lengths it is cut into, and how many of each; none of what is counted or wound off.
    pub(super) lengths: Vec<(Length, i64)>,
}

/// The thread that a workshop without thread in its list sews with.
pub(super) const PLAIN_THREAD: &str = "thread";

/// The notions in the order of the ticket, then the thread.
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

/// The first thread with a price, else the first thread.
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

/// Adds to what is wanted of the same material, where both are lengths or both are counts.
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
