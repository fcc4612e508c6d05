//! What to cut from what, in sentences: lengths that are cut alike together, repeated rows once.
//!
//! Never here: every single cut with its marks, which is the plan table.

use super::grouping::{Batch, Block, Run, batches, has_rest, lies_in_rows, stock_name};
use super::keeping::{Leftover, end_at_marks, waste};
use super::plan_report::{PlanReport, PlanWords, tenths_up};
use crate::cutting::{Cut, StockSource};
use crate::piece::{Layers, Lie};
use crate::quantity::Length;
use std::fmt::Write;

/// Up to this many unevenly spaced marks are listed one by one.
const MOST_LISTED_MARKS: usize = 6;
/// At most this many runs of one length are listed in its sentence.
const MOST_LISTED_RUNS: usize = 12;

/// What to cut from what: a sentence for each length, or for several that are cut alike.
pub(crate) fn sentences(report: &PlanReport<'_>, words: &PlanWords) -> Vec<String> {
    batches(report).iter().map(|batch| sentence(report, words, batch)).collect()
}

fn sentence(report: &PlanReport<'_>, words: &PlanWords, batch: &Batch<'_>) -> String {
    let kind = match (report.is_roll(), batch.first.source, batch.lengths) {
        (true, StockSource::Shelf { .. }, 1) => "roll ",
        _ => "",
    };
    let lot = batch.first.lot.as_ref().map(|lot| format!("lot {lot}"));
    let facts: Vec<String> = report.name.map(str::to_owned).into_iter().chain(lot).collect();
    let facts = if facts.is_empty() { String::new() } else { format!(" ({})", facts.join(", ")) };
    let folded = if batch.first.folded { ", folded lengthwise" } else { "" };
    let in_rows = lies_in_rows(batch.first);
    let blocks = blocks_in_words(words, &batch.blocks, in_rows);
    let rest = match (has_rest(batch.first), batch.first.left_over.is_positive()) {
        (false, _) => String::new(),
        (true, true) => {
            let (along, _, is_unwashed) = end_at_marks(report, words, batch.first);
            format!("; {} left{}", words.say_long(along), if is_unwashed { " unwashed" } else { "" })
        }
        (true, false) => "; nothing left".to_owned(),
    };
    format!("From {kind}{}{facts}{folded}: {blocks}{rest}.", stock_name(batch))
}

/// The blocks of a length in words; only the first ones if they are many, because the sentence would be too long.
fn blocks_in_words(words: &PlanWords, blocks: &[Block<'_>], in_rows: bool) -> String {
    let mut text = String::new();
    let mut left = MOST_LISTED_RUNS;
    let mut omitted = 0;
    for block in blocks {
        if left == 0 {
            omitted += block.runs.len();
            continue;
        }
        let listed = if block.is_repeated() { block.runs.len() } else { block.runs.len().min(left) };
        omitted += block.runs.len() - listed;
        let runs = block.runs.get(..listed).unwrap_or_default();
        if !text.is_empty() {
            text.push_str("; then ");
        }
        text.push_str(&block_words(words, block, runs, in_rows));
        left = left.saturating_sub(listed);
    }
    if omitted > 0 {
        // Writing to a string cannot fail.
        let _ = write!(text, "; then {omitted} more, as the table of cuts has them");
    }
    text
}

fn block_words(words: &PlanWords, block: &Block<'_>, runs: &[Run<'_>], in_rows: bool) -> String {
    if !block.is_repeated() {
        let runs: Vec<String> = runs.iter().map(|run| run_words(words, run, true, in_rows)).collect();
        return runs.join("; ");
    }
    let runs: Vec<String> = runs.iter().map(|run| run_words(words, run, false, in_rows)).collect();
    let ends = marks(words, &block.ends);
    format!("{} rows alike that end at marks {ends}, in each {}", block.ends.len(), runs.join("; "))
}

fn run_words(words: &PlanWords, run: &Run<'_>, with_marks: bool, in_rows: bool) -> String {
    let named = pluralized(run.pieces, run.piece);
    let order = run.order.map(|order| format!(" for {order}")).unwrap_or_default();
    let lie_words = lie_words(run);
    let lie_words = if lie_words.is_empty() { lie_words } else { format!(", {lie_words}") };
    match run.across {
        None => {
            let marks = if with_marks { strip_marks(words, run) } else { String::new() };
            format!("{named} of {}{order}{marks}{lie_words}", words.say(run.along))
        }
        Some(across) => {
            let mut text = format!("{named}{order}, {} long by {} wide", words.say(run.along), words.say(across));
            if with_marks {
                // Writing to a string cannot fail.
                let _ = write!(text, ", marks {} to {}", words.say(run.from()), words.say(run.to));
            }
            if !in_rows {
                let (from, to) = (words.say(run.across_from), words.say(run.across_to));
                let _ = write!(text, ", across {from} to {to}");
            }
            text.push_str(&lie_words);
            text
        }
    }
}

/// Where full widths end, and where they start if they do not touch.
fn strip_marks(words: &PlanWords, run: &Run<'_>) -> String {
    let ends: Vec<Length> = run.starts.iter().map(|start| (*start + run.along).liking(run.to.liked())).collect();
    let touching = run.starts.iter().skip(1).zip(&ends).all(|(start, end)| start == end);
    match (run.starts.as_slice(), touching) {
        ([only], _) if *only == Length::ZERO => String::new(),
        ([only], _) => format!(", marks {} to {}", words.say(*only), words.say(run.to)),
        (_, true) => format!(", marks {}", marks(words, &ends)),
        (starts, false) => {
            let range = |(from, to): (&Length, &Length)| format!("{} to {}", words.say(*from), words.say(*to));
            let ranges = starts.iter().zip(&ends).map(range);
            let last = ends.last().map(|end| words.say(*end)).unwrap_or_default();
            if starts.len() <= MOST_LISTED_MARKS {
                format!(", marks {}", ranges.collect::<Vec<_>>().join(", "))
            } else if are_even(starts) {
                format!(", marks {} and so on to {last}", ranges.take(2).collect::<Vec<_>>().join(", "))
            } else {
                let first = starts.first().map(|start| words.say(*start)).unwrap_or_default();
                format!(", marks {first} to {last}, each as the plan table has it")
            }
        }
    }
}

/// A list of marks: all of a few, the first two and the last of many evenly spaced ones.
fn marks(words: &PlanWords, ends: &[Length]) -> String {
    let texts = |marks: &[Length]| marks.iter().map(|mark| words.say(*mark)).collect::<Vec<_>>();
    match ends {
        [first, second, .., last] if ends.len() > 3 && are_even(ends) => {
            format!("{}, {} and so on to {}", words.say(*first), words.say(*second), words.say(*last))
        }
        [first @ .., last] if !first.is_empty() && ends.len() <= MOST_LISTED_MARKS => {
            format!("{} and {}", texts(first).join(", "), words.say(*last))
        }
        [first, second, .., last] => {
            format!("{}, {} to {} as the plan table has it", words.say(*first), words.say(*second), words.say(*last))
        }
        _ => texts(ends).join(", "),
    }
}

fn are_even(marks: &[Length]) -> bool {
    let mut steps = marks.windows(2).filter_map(|pair| match pair {
        [here, next] => Some(*next - *here),
        _ => None,
    });
    let first = steps.next();
    steps.all(|step| Some(step) == first)
}

/// How one cut lies, in words; empty if it lies as drawn on single cloth.
pub(super) fn lie_words_of(report: &PlanReport<'_>, cut: &Cut) -> String {
    lie_words(&Run::of(report, cut))
}

/// How the pieces of a run lie, in words; empty if they lie as drawn on single cloth.
pub(super) fn lie_words(run: &Run<'_>) -> String {
    let part = run.part.map(|part| format!("part {} of {}", part.number, part.of));
    let lie = match run.lie {
        Lie::Along => None,
        Lie::Across => Some("laid crosswise".to_owned()),
        Lie::Bias => Some("on the bias".to_owned()),
    };
    let through = match run.through {
        Layers::One => None,
        Layers::Both => Some("on double cloth".to_owned()),
        Layers::Fold => Some("on the fold".to_owned()),
    };
    let reversed = run.reversed.then(|| "turned head to foot".to_owned());
    let paired = run.through == Layers::Both;
    let mirrored = match (run.mirrored, run.pieces > 1) {
        // On double cloth every pair is mirrored in itself.
        (true, true) if !paired => Some("every other one mirrored".to_owned()),
        (true, false) => Some("mirrored".to_owned()),
        _ => None,
    };
    [part, lie, through, reversed, mirrored].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// A count of pieces: `16 strips`. A name that is not a plain word stays as it is.
pub(crate) fn pluralized(pieces: i64, name: &str) -> String {
    let plural = || {
        let plain = name.ends_with(|last: char| last.is_ascii_lowercase());
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

/// Says how many leftovers are worth keeping and how much is waste; `None` if nothing is cut.
pub(crate) fn leftover_sentence(report: &PlanReport<'_>, kept: &[Leftover], words: &PlanWords) -> Option<String> {
    if report.plan.uses.is_empty() {
        return None;
    }
    let share = waste(report, kept).share;
    let waste = format!("{} of what is taken up is waste", words.per_cent(tenths_up(share)));
    let lengths: i64 = kept.iter().map(|leftover| leftover.count).sum();
    if report.keep_from.is_none() {
        let left =
            if lengths == 1 { "1 length is left over".to_owned() } else { format!("{lengths} lengths are left over") };
        let left = if lengths == 0 { "No length is left over".to_owned() } else { left };
        return Some(format!("{left}; {waste} beside the pieces."));
    }
    Some(match lengths {
        0 => format!("Nothing is left that is worth keeping; {waste}."),
        1 => format!("1 leftover is worth keeping; {waste}."),
        _ => format!("{lengths} leftovers are worth keeping; {waste}."),
    })
}

#[cfg(test)]
mod tests {
    use super::pluralized;

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
            assert_eq!(pluralized(pieces, name), words);
        }
    }
}
