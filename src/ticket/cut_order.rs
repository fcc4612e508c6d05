//! The cuts in the order a person makes them, runs of equal ones told once: as sentences, and as rows to
//! tick off.
//!
//! Never here: every single cut with its marks, which is the plan table.

use super::job::Job;
use super::lay::{Lay, cut_size};
use super::ticket::{Piece, Shape};
use crate::cutting::{Cut, JoinedPart, Lie, StockSource, StockUse};
use crate::quantity::{Length, Liked, Quantity, Tape, Unit};
use crate::table::{Cell, Table, TableFault};
use crate::textile::allowances;
use crate::workshop::MaterialKind;

/// Lengths that are cut alike, one after another.
struct Batch<'a> {
    lay: &'a Lay,
    first: &'a StockUse,
    /// How many lengths.
    lengths: i64,
    runs: Vec<Run<'a>>,
}

/// Equal cuts that follow each other.
#[derive(PartialEq)]
struct Run<'a> {
    piece: &'a str,
    pieces: i64,
    along: Length,
    /// None for the full width.
    across: Option<Length>,
    from: Length,
    to: Length,
    lie: Lie,
    reversed: bool,
    mirrored: bool,
    part: Option<JoinedPart>,
}

/// What to cut from what, in sentences.
pub(super) fn sentences(job: &Job<'_>, lays: &[Lay]) -> Vec<String> {
    let of_lay = |lay: &Lay| batches(job, lay).iter().map(|batch| sentence(job, batch)).collect::<Vec<_>>();
    lays.iter().flat_map(of_lay).collect()
}

/// What the maker should know about the plans, each said once.
pub(super) fn notes(job: &Job<'_>, lays: &[Lay]) -> Vec<String> {
    let mut notes: Vec<String> = Vec::new();
    let of_the_plans = lays.iter().flat_map(|lay| &lay.plan.notes).map(ToString::to_string);
    let of_the_cloth = lays.iter().flat_map(|lay| held(job, lay).into_iter().chain(washing(job, lay)));
    for note in of_the_plans.chain(of_the_cloth) {
        if !notes.contains(&note) {
            notes.push(note);
        }
    }
    notes
}

/// What lies on the shelf and was left there, because another order holds it, or this one under its own name.
fn held(job: &Job<'_>, lay: &Lay) -> Vec<String> {
    if !lay.material.listed {
        return Vec::new();
    }
    let name = &lay.material.material.name;
    let pieces = job.workshop.stock.of(name).filter_map(|piece| {
        let (order, along) = (piece.held_for.as_ref()?, piece.along?);
        Some(format!("{}, {} of {name}, is held for {order} and was left on the shelf", piece.name, job.say(along)))
    });
    pieces.collect()
}

/// What the first wash would do to cloth that is cut unwashed, and how much to take so that it is not.
fn washing(job: &Job<'_>, lay: &Lay) -> Option<String> {
    let material = &lay.material.material;
    let (along, across) = (material.shrink_along, material.shrink_across);
    let loses = match (along > 0.0, across > 0.0) {
        (false, false) => return None,
        (true, false) => format!("{} of its length", job.say_share(along)),
        (false, true) => format!("{} of its width", job.say_share(across)),
        (true, true) => format!("{} of its length and {} of its width", job.say_share(along), job.say_share(across)),
    };
    let used = lay.length_used();
    let instead = allowances::before_shrinking(used, along).ok().filter(|_| along > 0.0);
    let longer = instead
        .map(|needed| format!(", from {} instead of {}", job.say(cut_size(needed, true, &job.style)), job.say(used)));
    let width = allowances::after_shrinking(lay.width, across).ok().filter(|_| across > 0.0);
    let narrower = width.map(|width| format!("; it is {} wide then", job.say(width)));
    Some(format!(
        "{} loses {loses} in the first wash, and no size here allows for it: wash it before it is cut{}{}",
        material.name,
        longer.unwrap_or_default(),
        narrower.unwrap_or_default(),
    ))
}

/// One row for each run of equal cuts.
pub(super) fn cuts(job: &Job<'_>, lays: &[Lay]) -> Result<Table, TableFault> {
    let columns = Table::new("cuts").text("from").count("pieces").text("piece").length("along", job.small());
    let columns = columns.length("across", job.small()).length("mark to", job.small());
    let mut table = columns.length("left", job.small()).ready()?;
    for batch in lays.iter().flat_map(|lay| batches(job, lay)) {
        // What is new has no mark of its own on the shelf.
        let from = match batch.first.source {
            StockSource::Shelf { .. } => stock_name(&batch),
            StockSource::New { .. } => format!("{} ({})", stock_name(&batch), batch.lay.material.material.name),
        };
        for (at, run) in batch.runs.iter().enumerate() {
            let last = at + 1 == batch.runs.len();
            let lies = lies(run);
            let piece = if lies.is_empty() { run.piece.to_owned() } else { format!("{} ({lies})", run.piece) };
            table.push(vec![
                from.as_str().into(),
                run.pieces.into(),
                piece.into(),
                run.along.into(),
                run.across.map_or(Cell::Blank, Cell::from),
                run.to.into(),
                if last && has_rest(batch.first) { batch.first.left_over.into() } else { Cell::Blank },
            ])?;
        }
    }
    Ok(table)
}

fn batches<'a>(job: &Job<'a>, lay: &'a Lay) -> Vec<Batch<'a>> {
    let pieces: Vec<&Piece> = job.ticket.pieces.iter().filter(|piece| piece.material == lay.index).collect();
    let mut batches: Vec<Batch<'a>> = Vec::new();
    for stock in &lay.plan.uses {
        let runs = runs(&pieces, stock);
        match batches.last_mut() {
            Some(last) if same_source(last.first, stock) && last.runs == runs => last.lengths += 1,
            _ => batches.push(Batch { lay, first: stock, lengths: 1, runs }),
        }
    }
    batches
}

fn same_source(first: &StockUse, second: &StockUse) -> bool {
    match (first.source, second.source) {
        (StockSource::Shelf { entry: first, .. }, StockSource::Shelf { entry: second, .. })
        | (StockSource::New { offer: first, .. }, StockSource::New { offer: second, .. }) => first == second,
        _ => false,
    }
}

fn runs<'a>(pieces: &[&Piece], stock: &'a StockUse) -> Vec<Run<'a>> {
    let mut runs: Vec<Run<'a>> = Vec::new();
    for cut in &stock.cuts {
        let next = run(pieces, cut);
        match runs.last_mut() {
            Some(last) if last.continues_in(&next) => {
                last.pieces += 1;
                last.from = last.from.least(next.from);
                last.to = last.to.most(next.to);
                last.mirrored |= next.mirrored;
            }
            _ => runs.push(next),
        }
    }
    runs
}

fn run<'a>(pieces: &[&Piece], cut: &'a Cut) -> Run<'a> {
    let full_width = pieces.get(cut.entry).is_some_and(|piece| matches!(piece.shape, Shape::FullWidth { .. }));
    Run {
        piece: &cut.piece,
        pieces: 1,
        along: cut.to - cut.from,
        across: (!full_width).then(|| cut.across_to - cut.across_from),
        from: cut.from,
        to: cut.to,
        lie: cut.lie,
        reversed: cut.reversed,
        mirrored: cut.mirrored,
        part: cut.part,
    }
}

impl Run<'_> {
    fn continues_in(&self, next: &Self) -> bool {
        self.piece == next.piece
            && self.along == next.along
            && self.across == next.across
            && self.lie == next.lie
            && self.reversed == next.reversed
            && self.part == next.part
    }
}

/// How the pieces of a run lie, where they do not lie as drawn.
fn lies(run: &Run<'_>) -> String {
    let part = run.part.map(|part| format!("part {} of {}", part.number, part.of));
    let lie = match run.lie {
        Lie::Along => None,
        Lie::Across => Some("turned a quarter".to_owned()),
        Lie::Bias => Some("on the bias".to_owned()),
    };
    let reversed = run.reversed.then(|| "turned head to foot".to_owned());
    let mirrored =
        run.mirrored.then(|| if run.pieces > 1 { "every other one mirrored" } else { "mirrored" }.to_owned());
    [part, lie, reversed, mirrored].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

fn sentence(job: &Job<'_>, batch: &Batch<'_>) -> String {
    let facts = &batch.lay.material.material;
    let kind = match (facts.kind, batch.first.source, batch.lengths) {
        (MaterialKind::Roll, StockSource::Shelf { .. }, 1) => "roll ",
        _ => "",
    };
    let lot = batch.first.lot.as_ref().map(|lot| format!(", lot {lot}")).unwrap_or_default();
    let runs: Vec<String> = batch.runs.iter().map(|run| run_words(job, run)).collect();
    let rest = match (has_rest(batch.first), batch.first.left_over.is_positive()) {
        (false, _) => String::new(),
        (true, true) => format!("; {} left", job.say(rest_in(job, batch.first.left_over))),
        (true, false) => "; nothing left".to_owned(),
    };
    format!("From {kind}{} ({}{lot}): {}{rest}.", stock_name(batch), facts.name, runs.join("; "))
}

/// Cloth that is bought as long as needed leaves nothing to tell of.
fn has_rest(stock: &StockUse) -> bool {
    let as_needed = matches!(stock.source, StockSource::New { .. }) && stock.length == stock.used;
    !as_needed
}

/// Short rests in the small unit of the tape, long ones in the large.
fn rest_in(job: &Job<'_>, rest: Length) -> Length {
    let (small, large) = match job.tape {
        Tape::Inch => (Unit::Inch, Unit::Yard),
        Tape::Metric => (Unit::Centimetre, Unit::Metre),
    };
    let long = Length::try_from(Quantity::of(2.0, large)).is_ok_and(|long| rest >= long);
    rest.liking(Liked::unit(if long { large } else { small }))
}

fn stock_name(batch: &Batch<'_>) -> String {
    let stock = &batch.first.stock;
    match (batch.lengths, batch.first.source) {
        (1, _) => stock.clone(),
        (lengths, StockSource::Shelf { .. }) => format!("each of {lengths} lengths of {stock}"),
        (lengths, StockSource::New { number, .. }) => {
            let name = stock.trim_end_matches(|c: char| c.is_ascii_digit()).trim_end();
            format!("each of {name}s {number} to {}", number.saturating_add(lengths - 1))
        }
    }
}

fn run_words(job: &Job<'_>, run: &Run<'_>) -> String {
    let named = counted(run.pieces, run.piece);
    let lies = lies(run);
    let lies = if lies.is_empty() { lies } else { format!(", {lies}") };
    match run.across {
        None => format!("{named} of {}{lies}", job.say(run.along)),
        Some(across) => {
            let (along, across) = (job.say(run.along), job.say(across));
            let (from, to) = (job.say(run.from), job.say(run.to));
            format!("{named}, {along} along by {across} across, marks {from} to {to}{lies}")
        }
    }
}

/// So many of a piece: `16 strips`. A name that is no plain word stays as it is.
fn counted(pieces: i64, name: &str) -> String {
    let plural = || {
        let plain = name.chars().next_back().is_some_and(|last| last.is_ascii_lowercase());
        let hissing = ["s", "x", "z", "ch", "sh"].iter().any(|end| name.ends_with(end));
        match name.strip_suffix('y') {
            Some(stem) if stem.ends_with(|c: char| c.is_ascii_lowercase() && !"aeiou".contains(c)) => {
                format!("{stem}ies")
            }
            _ if hissing => format!("{name}es"),
            _ if plain => format!("{name}s"),
            _ => format!("of {name}"),
        }
    };
    if pieces == 1 { format!("1 {name}") } else { format!("{pieces} {}", plural()) }
}

#[cfg(test)]
mod tests {
    use super::counted;

    #[test]
    fn pieces_are_counted_in_words() {
        let cases = [
            ((1, "strip"), "1 strip"),
            ((16, "strip"), "16 strips"),
            ((2, "patch"), "2 patches"),
            ((2, "stay"), "2 stays"),
            ((2, "fly"), "2 flies"),
            ((2, "gore 2"), "2 of gore 2"),
        ];
        for ((pieces, name), words) in cases {
            assert_eq!(counted(pieces, name), words);
        }
    }
}
