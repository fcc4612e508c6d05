//! The supply of an order's notions and thread: the shelf first, then what must be bought.
//!
//! A length of elastic or tape is cut in one piece, so the planner places it whole on the stock, like strips on rolls;
//! only a length longer than any single one there is, is joined. What is wound off or counted comes from one length or
//! box, the smallest that holds it, or from several, the smallest first.
//!
//! Lengths that allow for the first wash are planned at their size before it. A washed length, which loses nothing more,
//! is planned at the size it had before, and its cuts are shortened again. Never here: prices and selling steps.

use super::job::Job;
use super::lay::{is_washed, manner};
use super::lay_error::LayError;
use super::needs::{NeededLength, RequiredMaterial};
use super::small_cuts::{SmallCut, SmallCuts, part_of};
use crate::cutting::{CuttingError, CuttingPlan, CuttingTask, Planner, StockSource};
use crate::piece::{CutPiece, Goods, GoodsKind, Shape, StockLength, Supply};
use crate::quantity::{Dimension, Length, Quantity, number};
use crate::workshop::{Material, SoldBy, StockPiece};

/// How much of a notion comes from the shelf, and how much must be bought.
pub(super) struct NotionSupply {
    /// What the order takes of it in all.
    pub(super) needed: Quantity,
    pub(super) shelf: Quantity,
    /// What must be bought, before rounding up to a selling step.
    pub(super) buy: Quantity,
    /// The names of the stock it is taken from.
    pub(super) taken_from: Vec<String>,
    /// The names of stock that is too short for every length needed.
    pub(super) too_short: Vec<String>,
    /// The lengths that had to be joined, in words.
    pub(super) joined: Vec<String>,
    /// The cuts, length by length; empty for what is counted or wound off.
    pub(super) cuts: Vec<SmallCuts>,
}

/// A shorter rest is not joined to another, unless it is all that is missing. Common practice, no source.
const SHORTEST_PART_CENTIMETRES: f64 = 5.0;
/// The most lengths that are looked at to find the parts of a joined one; beyond it only their sum counts.
const MOST_LOOKS: usize = 10_000_000;

/// Stock of a notion that is held for no other order, and how long each of it is.
struct Free<'a> {
    piece: &'a StockPiece,
    /// Its length; of a washed one, if the order allows for the wash, that before it.
    along: Option<Length>,
    /// What is left of that length.
    share: f64,
}

/// Returns the supply of one notion. The shelf counts only with `use_shelf`, and if the workshop lists the notion.
pub(super) fn supply(
    job: &Job<'_>,
    required: &RequiredMaterial<'_>,
    use_shelf: bool,
    planner: &Planner,
) -> Result<NotionSupply, LayError> {
    let listed = required.material.filter(|_| use_shelf && required.listed);
    let stock = listed.map(|material| free(job, required, material)).unwrap_or_default();
    if required.lengths.is_empty() {
        return Ok(wound_off(required, &stock));
    }
    let put_up = put_up(required);
    let longest = put_up.map(|put_up| stock.iter().filter_map(|free| free.along).fold(put_up, Length::most));
    let is_long = |needed: &&NeededLength| longest.is_some_and(|longest| needed.length > longest);
    let (long, whole): (Vec<_>, Vec<_>) =
        required.lengths.iter().filter(|needed| needed.length.is_positive() && needed.count > 0).partition(is_long);
    let opened = match placed(required, &whole, &stock, put_up, planner) {
        Ok(plan) => opened(&plan, &whole, put_up),
        Err(CuttingError::Stopped) => {
            let (material, error) = (required.name.clone(), CuttingError::Stopped);
            return Err(LayError::Cutting { material, input: None, error });
        }
        // More pieces, or longer ones, than any plan takes.
        Err(_) => return Ok(wound_off(required, &stock)),
    };
    let mut lengths = Lengths::of(&stock, put_up, opened);
    let mut joined = Vec::new();
    for needed in long {
        match lengths.join(needed) {
            Some(parts) => joined.push(joined_words(job, needed, &parts)),
            None => return Ok(wound_off(required, &stock)),
        }
    }
    Ok(lengths.supply(required, joined))
}

/// Returns the stock of it on the shelf that is held for no other order.
fn free<'a>(job: &Job<'a>, required: &RequiredMaterial<'_>, material: &Material) -> Vec<Free<'a>> {
    let may_take = |piece: &&StockPiece| piece.count > 0 && job.ticket.mark.may_take(piece);
    let pieces = job.workshop.stock.of(&required.name).filter(may_take);
    let measured = required.amount.dimension() == Dimension::LENGTH;
    let free = pieces.map(|piece| {
        let share = if is_washed(piece, material) && measured { 1.0 - required.loss.along() } else { 1.0 };
        Free { piece, along: piece.along.map(|along| along / share), share }
    });
    free.filter(|free| free.along.is_some() == measured).collect()
}

/// The length of a new one, if it is sold in whole ones.
fn put_up(required: &RequiredMaterial<'_>) -> Option<Length> {
    let material = required.material.filter(|_| required.listed)?;
    if material.sold_by == SoldBy::PutUp { material.put_up } else { None }
}

/// Plans the lengths, each in one piece.
fn placed(
    required: &RequiredMaterial<'_>,
    whole: &[&NeededLength],
    stock: &[Free<'_>],
    put_up: Option<Length>,
    planner: &Planner,
) -> Result<std::sync::Arc<CuttingPlan>, CuttingError> {
    let width = required.material.and_then(|material| material.usable_width).unwrap_or(Length::inches(1.0));
    let goods = Goods { kind: GoodsKind::Roll, put_up, ..Goods::cloth(width) };
    let pieces: Vec<CutPiece> = whole
        .iter()
        .map(|needed| CutPiece::new(&required.name, needed.count, Shape::FullWidth { along: needed.length }))
        .collect();
    let lengths: Vec<StockLength> = stock
        .iter()
        .filter_map(|free| {
            let along = free.along?;
            let count = number::from_size(free.piece.count);
            Some(StockLength { count, ..StockLength::new(&free.piece.name, along) })
        })
        .collect();
    // Every end of a notion is kept.
    let (supply, manner) = (&Supply::Endless, &manner(Some(Length::ZERO)));
    planner.plan(&CuttingTask { pieces: &pieces, goods: &goods, stock: &lengths, supply, manner })
}

/// A length that is cut.
struct Opened {
    /// Its index in the free stock; `None` if it is bought.
    entry: Option<usize>,
    /// How long it is; `None` if it is bought as long as needed.
    length: Option<Length>,
    used: Length,
    cuts: Vec<SmallCut>,
}

impl Opened {
    fn left(&self) -> Option<Length> {
        Some((self.length? - self.used).most(Length::ZERO))
    }

    fn cut(&mut self, length: Length, why: &str, part: Option<i64>) {
        let from = self.used;
        self.used = from + length;
        self.cuts.push(SmallCut { from, to: self.used, why: why.to_owned(), part });
    }
}

fn opened(plan: &CuttingPlan, whole: &[&NeededLength], put_up: Option<Length>) -> Vec<Opened> {
    let uses = plan.uses.iter().map(|used| {
        let entry = match used.source {
            StockSource::Shelf { entry, .. } => Some(entry),
            StockSource::New { .. } => None,
        };
        let why = |entry: usize| whole.get(entry).map(|needed| needed.why.clone()).unwrap_or_default();
        let cuts = used.cuts.iter().map(|cut| SmallCut { from: cut.from, to: cut.to, why: why(cut.entry), part: None });
        let as_needed = entry.is_none() && put_up.is_none();
        Opened { entry, length: (!as_needed).then_some(used.length), used: used.used, cuts: cuts.collect() }
    });
    uses.collect()
}

/// Where the next part of a joined length comes from.
#[derive(Clone, Copy)]
enum Room {
    /// The rest of a length that is cut already, by its index.
    Rest(usize),
    /// An untouched length of the free stock, by its index.
    Untouched(usize),
}

/// The lengths of one notion: on the shelf, and those that are cut so far.
struct Lengths<'s, 'a> {
    stock: &'s [Free<'a>],
    /// How many of each entry of the stock are cut.
    taken: Vec<usize>,
    /// The length of a new one, if it is sold in whole ones.
    put_up: Option<Length>,
    opened: Vec<Opened>,
    /// How many lengths have been looked at.
    looks: usize,
}

/// The parts of lengths that are joined: how many joins, and from which stock.
#[derive(Default)]
struct Parts {
    joins: usize,
    from: Vec<String>,
}

impl<'s, 'a> Lengths<'s, 'a> {
    fn of(stock: &'s [Free<'a>], put_up: Option<Length>, opened: Vec<Opened>) -> Self {
        let mut taken = vec![0; stock.len()];
        for entry in opened.iter().filter_map(|one| one.entry) {
            if let Some(taken) = taken.get_mut(entry) {
                *taken += 1;
            }
        }
        Self { stock, taken, put_up, opened, looks: 0 }
    }

    /// Joins lengths that none there is holds: the longest rests of the shelf first, so that the joins are few, and
    /// nothing new while the shelf has any. Returns `None` if the parts are too many.
    fn join(&mut self, needed: &NeededLength) -> Option<Parts> {
        let mut parts = Parts::default();
        for _ in 0..needed.count {
            let mut missing = needed.length;
            let mut part = 0;
            while missing.steps() > Dimension::LENGTH.noise_floor() {
                let place = self.open(missing)?;
                let one = self.opened.get_mut(place)?;
                let length = one.left().map_or(missing, |left| left.least(missing));
                part += 1;
                parts.joins += usize::from(part > 1);
                one.cut(length, &needed.why, Some(part));
                missing = missing - length;
                let name = one.entry.and_then(|entry| self.stock.get(entry)).map_or("new", |free| &free.piece.name);
                if !parts.from.iter().any(|known| known == name) {
                    parts.from.push(name.to_owned());
                }
            }
        }
        Some(parts)
    }

    /// Returns the index of the opened length that the next part of a joined length comes from; `None` if there is too
    /// much to look at.
    fn open(&mut self, missing: Length) -> Option<usize> {
        self.looks += self.opened.len() + self.stock.len();
        if self.looks > MOST_LOOKS {
            return None;
        }
        let rest = |(place, one): (usize, &Opened)| Some((one.left()?, one.entry.is_some(), Room::Rest(place)));
        let rests = self.opened.iter().enumerate().filter_map(rest);
        let untouched = self.stock.iter().zip(&self.taken).enumerate().filter_map(|(entry, (free, taken))| {
            (*taken < free.piece.count).then_some((free.along?, true, Room::Untouched(entry)))
        });
        let shortest = Length::centimetres(SHORTEST_PART_CENTIMETRES);
        let rooms: Vec<(Length, bool, Room)> =
            rests.chain(untouched).filter(|(length, ..)| *length >= shortest.least(missing)).collect();
        let steps = |room: &&(Length, bool, Room)| room.0.steps();
        let by_length = |a: &&(Length, bool, Room), b: &&(Length, bool, Room)| steps(a).total_cmp(&steps(b));
        // The shortest that holds all that is missing, else the longest; the shelf before what is bought.
        let of = |shelf: bool| rooms.iter().filter(move |room| room.1 == shelf);
        let chosen = [true, false].into_iter().find_map(|shelf| {
            let holds = of(shelf).filter(|room| room.0 >= missing).min_by(by_length);
            holds.or_else(|| of(shelf).max_by(by_length))
        });
        match chosen.map(|room| room.2) {
            Some(Room::Rest(place)) => return Some(place),
            Some(Room::Untouched(entry)) => {
                let length = self.stock.get(entry)?.along;
                *self.taken.get_mut(entry)? += 1;
                self.opened.push(Opened { entry: Some(entry), length, used: Length::ZERO, cuts: Vec::new() });
            }
            None => {
                let length = self.put_up;
                self.opened.push(Opened { entry: None, length, used: Length::ZERO, cuts: Vec::new() });
            }
        }
        Some(self.opened.len() - 1)
    }

    fn supply(self, required: &RequiredMaterial<'_>, joined: Vec<String>) -> NotionSupply {
        let like = |length: Length| Quantity::from(length).liking(required.amount.liked());
        let (mut shelf, mut new, mut taken_from) = (Length::ZERO, Length::ZERO, Vec::new());
        let (mut cuts, mut saved) = (Vec::new(), Length::ZERO);
        for one in self.opened {
            let free = one.entry.and_then(|entry| self.stock.get(entry));
            let share = free.map_or(1.0, |free| free.share);
            let piece = free.map(|free| free.piece);
            // What is on the shelf is as long as it lies there, washed or not; its cuts are put back to the nanometre.
            let length = piece.and_then(|piece| piece.along).or(one.length);
            let left = length.map(|length| (length - part_of(one.used, share)).most(Length::ZERO));
            match piece {
                Some(piece) => {
                    shelf = shelf + part_of(one.used, share);
                    saved = saved + (one.used - part_of(one.used, share));
                    if !taken_from.contains(&piece.name) {
                        taken_from.push(piece.name.clone());
                    }
                }
                // Every put-up that is opened is bought, even if the sum of the lengths would fit on fewer.
                None => new = new + one.length.unwrap_or(one.used),
            }
            cuts.push(SmallCuts {
                material: required.name.clone(),
                stock: piece.map(|piece| piece.name.clone()),
                left,
                length,
                cuts: one.cuts.into_iter().map(|cut| cut.times(share)).collect(),
            });
        }
        // Only stock that holds none of the lengths is too short, not what is left for another reason.
        let shortest = required.lengths.iter().map(|needed| needed.length).filter(|length| length.is_positive());
        let shortest = shortest.reduce(Length::least).filter(|_| new.is_positive());
        let is_short = |free: &&Free<'_>| shortest.zip(free.along).is_some_and(|(shortest, along)| along < shortest);
        let too_short = self.stock.iter().filter(is_short).map(|free| free.piece.name.clone());
        // What is joined takes rests of any length.
        let too_short = too_short.filter(|name| !taken_from.contains(name)).collect();
        let needed = required.amount.steps() - saved.steps();
        let needed = Quantity::from_steps(needed, required.amount.dimension()).liking(required.amount.liked());
        NotionSupply { needed, shelf: like(shelf), buy: like(new), taken_from, too_short, joined, cuts }
    }
}

fn joined_words(job: &Job<'_>, needed: &NeededLength, parts: &Parts) -> String {
    let names: Vec<&str> = parts.from.iter().map(String::as_str).collect();
    let joins = if parts.joins == 1 { "1 join".to_owned() } else { format!("{} joins", parts.joins) };
    let in_all = if needed.count == 1 { String::new() } else { format!(" in the {}", needed.count) };
    format!(
        "{} is longer than any single length: {joins}{in_all}, from {}; add what the joins take",
        job.format_length(needed.length),
        crate::report::listed(&names)
    )
}

/// Returns the supply of what is wound off or counted: from the smallest length or box that holds all of it, else from
/// several, the smallest first.
fn wound_off(required: &RequiredMaterial<'_>, stock: &[Free<'_>]) -> NotionSupply {
    let steps = required.amount.steps();
    let noise = required.amount.dimension().noise_floor();
    let like = |steps: f64| Quantity::from_steps(steps, required.amount.dimension()).liking(required.amount.liked());
    // One reel, or one box of what is counted.
    let of_one = |free: &Free<'_>| free.along.map_or_else(|| number::from_count(free.piece.count), Length::steps);
    let mut sorted: Vec<&Free<'_>> = stock.iter().collect();
    sorted.sort_by(|one, other| of_one(one).total_cmp(&of_one(other)));
    if let Some(enough) = sorted.iter().position(|free| of_one(free) >= steps - noise) {
        sorted.drain(..enough);
    }
    let (mut held, mut taken) = (0.0, 0.0);
    let mut taken_from = Vec::new();
    for free in sorted {
        if steps - held <= noise {
            break;
        }
        let there = free.along.map_or(1.0, Length::steps) * number::from_count(free.piece.count);
        let from_here = there.min(steps - held);
        held += from_here;
        taken += from_here * free.share;
        taken_from.push(free.piece.name.clone());
    }
    NotionSupply {
        needed: like(steps - (held - taken)),
        shelf: like(taken),
        buy: like((steps - held).max(0.0)),
        taken_from,
        too_short: Vec::new(),
        joined: Vec::new(),
        cuts: Vec::new(),
    }
}

#[cfg(test)]
mod tests;
