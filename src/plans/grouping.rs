//! Groups what is cut alike: runs of equal cuts, rows that repeat, lengths that are cut the same way.
//!
//! Never here: the words for it.

use super::plan_report::PlanReport;
use crate::cutting::{Cut, JoinedPart, StockSource, StockUse};
use crate::piece::{Layers, Lie};
use crate::quantity::Length;

/// Consecutive lengths that are cut alike.
#[derive(Debug)]
pub(super) struct Batch<'a> {
    pub(super) first: &'a StockUse,
    /// Number of lengths.
    pub(super) lengths: i64,
    pub(super) blocks: Vec<Block<'a>>,
}

/// Cuts that are described together, for one or for several equal rows.
#[derive(Debug, PartialEq)]
pub(super) struct Block<'a> {
    /// Where each of the rows ends; one mark if the rows are not repeated.
    pub(super) ends: Vec<Length>,
    pub(super) runs: Vec<Run<'a>>,
}

impl Block<'_> {
    /// Whether it describes several equal rows.
    pub(super) fn is_repeated(&self) -> bool {
        self.ends.len() > 1
    }
}

/// Consecutive equal cuts.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Run<'a> {
    pub(super) piece: &'a str,
    pub(super) order: Option<&'a str>,
    pub(super) pieces: i64,
    pub(super) along: Length,
    /// `None` for the full width.
    pub(super) across: Option<Length>,
    /// Where each cut starts.
    pub(super) starts: Vec<Length>,
    pub(super) to: Length,
    pub(super) across_from: Length,
    pub(super) across_to: Length,
    pub(super) lie: Lie,
    pub(super) through: Layers,
    pub(super) reversed: bool,
    pub(super) mirrored: bool,
    pub(super) part: Option<JoinedPart>,
}

impl<'a> Run<'a> {
    pub(super) fn of(report: &PlanReport<'a>, cut: &'a Cut) -> Self {
        Self {
            piece: &cut.piece,
            order: cut.order.as_deref(),
            pieces: 1,
            along: cut.to - cut.from,
            across: (!report.takes_full_width(cut.entry)).then(|| cut.across_to - cut.across_from),
            starts: vec![cut.from],
            to: cut.to,
            across_from: cut.across_from,
            across_to: cut.across_to,
            lie: cut.lie,
            through: cut.through,
            reversed: cut.reversed,
            mirrored: cut.mirrored,
            part: cut.part,
        }
    }

    pub(super) fn from(&self) -> Length {
        self.starts.iter().copied().reduce(Length::least).unwrap_or(Length::ZERO)
    }

    fn continues_in(&self, next: &Self) -> bool {
        self.piece == next.piece
            && self.order == next.order
            && self.along == next.along
            && self.across == next.across
            && self.lie == next.lie
            && self.through == next.through
            && self.reversed == next.reversed
            && self.part == next.part
    }

    fn take(&mut self, next: Self) {
        self.pieces += next.pieces;
        self.starts.extend(next.starts);
        self.to = self.to.most(next.to);
        self.across_from = self.across_from.least(next.across_from);
        self.across_to = self.across_to.most(next.across_to);
        self.mirrored |= next.mirrored;
    }

    /// Whether a row has the same cuts, wherever along the length it begins.
    fn repeats(&self, other: &Self) -> bool {
        self.continues_in(other)
            && self.pieces == other.pieces
            && self.mirrored == other.mirrored
            && self.across_from == other.across_from
            && self.across_to == other.across_to
    }
}

/// Adds a run, or merges it into the last one if it continues that.
fn add<'a>(runs: &mut Vec<Run<'a>>, next: Run<'a>) {
    match runs.last_mut() {
        Some(last) if last.continues_in(&next) => last.take(next),
        _ => runs.push(next),
    }
}

/// The lengths of a plan, with consecutive equal ones described once.
pub(super) fn batches<'a>(report: &PlanReport<'a>) -> Vec<Batch<'a>> {
    let mut batches: Vec<Batch<'a>> = Vec::new();
    for stock in &report.plan.uses {
        let blocks = blocks(report, stock);
        match batches.last_mut() {
            Some(last) if is_alike(last.first, stock) && last.blocks == blocks => last.lengths += 1,
            _ => batches.push(Batch { first: stock, lengths: 1, blocks }),
        }
    }
    batches
}

fn is_alike(first: &StockUse, second: &StockUse) -> bool {
    let same = match (first.source, second.source) {
        (StockSource::Shelf { entry: first, .. }, StockSource::Shelf { entry: second, .. })
        | (StockSource::New { offer: first, .. }, StockSource::New { offer: second, .. }) => first == second,
        _ => false,
    };
    same && first.length == second.length && first.folded == second.folded
}

/// The cuts of one length in blocks: with repeated rows if that is shorter, otherwise in one block.
fn blocks<'a>(report: &PlanReport<'a>, stock: &'a StockUse) -> Vec<Block<'a>> {
    let mut flat: Vec<Run<'a>> = Vec::new();
    for cut in &stock.cuts {
        add(&mut flat, Run::of(report, cut));
    }
    let once = |runs: Vec<Run<'a>>| {
        let end = runs.iter().map(|run| run.to).reduce(Length::most).unwrap_or(Length::ZERO);
        Block { ends: vec![end], runs }
    };
    let rows = rows(report, stock);
    let mut blocks: Vec<Block<'a>> = Vec::new();
    let mut at = 0;
    while let Some(row) = rows.get(at) {
        let behind = rows.get(at..).unwrap_or_default().iter();
        // Rows of one run are taken into the one before: looking how many are alike at each would take the square of them.
        let again = if row.len() > 1 { behind.take_while(|next| rows_repeat(row, next)).count() } else { 1 };
        if again > 1 {
            let ends = rows.get(at..at + again).unwrap_or_default().iter().map(|row| end_of(row)).collect();
            blocks.push(Block { ends, runs: row.clone() });
            at += again;
            continue;
        }
        match blocks.last_mut().filter(|last| !last.is_repeated()) {
            Some(last) => {
                for run in row.clone() {
                    add(&mut last.runs, run);
                }
                last.ends = vec![last.ends.iter().copied().fold(end_of(row), Length::most)];
            }
            None => blocks.push(once(row.clone())),
        }
        at += 1;
    }
    let runs_in_blocks: usize = blocks.iter().map(|block| block.runs.len()).sum();
    if runs_in_blocks < flat.len() { blocks } else { vec![once(flat)] }
}

fn end_of(row: &[Run<'_>]) -> Length {
    row.iter().map(|run| run.to).reduce(Length::most).unwrap_or(Length::ZERO)
}

fn rows_repeat(first: &[Run<'_>], next: &[Run<'_>]) -> bool {
    first.len() == next.len() && first.iter().zip(next).all(|(run, other)| run.repeats(other))
}

/// The cuts in rows: those that start at the same mark.
fn rows<'a>(report: &PlanReport<'a>, stock: &'a StockUse) -> Vec<Vec<Run<'a>>> {
    let rows = stock.cuts.chunk_by(|cut, next| cut.from == next.from);
    rows.map(|row| {
        let mut runs = Vec::new();
        for cut in row {
            add(&mut runs, Run::of(report, cut));
        }
        runs
    })
    .collect()
}

/// Whether the pieces lie in rows, side by side from one selvedge, so that marks along the length are enough.
pub(super) fn lies_in_rows(stock: &StockUse) -> bool {
    let mut rows = stock.cuts.chunk_by(|cut, next| cut.from == next.from);
    rows.all(|row| {
        row.iter().take(1).all(|first| first.across_from == Length::ZERO)
            && row.iter().zip(row.iter().skip(1)).all(|(left, right)| left.across_to == right.across_from)
    })
}

/// Whether there is a rest to report: cloth bought as needed leaves none.
pub(super) fn has_rest(stock: &StockUse) -> bool {
    let as_needed = matches!(stock.source, StockSource::New { .. }) && stock.length == stock.used + stock.lead;
    !as_needed
}

/// The name of a length, or of several that are cut alike.
pub(super) fn stock_name(batch: &Batch<'_>) -> String {
    let stock = &batch.first.stock;
    match (batch.lengths, batch.first.source) {
        (1, _) => stock.clone(),
        (lengths, StockSource::Shelf { .. }) => format!("each of {lengths} lengths of {stock}"),
        (lengths, StockSource::New { number, .. }) => {
            let name = stock.trim_end_matches(|c: char| c.is_ascii_digit()).trim_end();
            let last = number.saturating_add(lengths - 1);
            if name.ends_with(|c: char| c.is_ascii_lowercase()) {
                format!("each of {name}s {number} to {last}")
            } else {
                format!("each of {name}, numbers {number} to {last}")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::{CutPiece, Goods, Shape};
    use crate::plans::tests::{plan_of, report};

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    /// A cut of the only piece with these marks, in inches.
    fn cut([from, to, across_from, across_to]: [f64; 4]) -> Cut {
        Cut {
            entry: 0,
            number: 1,
            piece: "panel".into(),
            order: None,
            from: inches(from),
            to: inches(to),
            across_from: inches(across_from),
            across_to: inches(across_to),
            lie: Lie::Along,
            through: Layers::One,
            reversed: false,
            mirrored: false,
            part: None,
        }
    }

    fn stock(cuts: Vec<Cut>) -> StockUse {
        StockUse {
            source: StockSource::Shelf { entry: 0, number: 1 },
            stock: "B4".into(),
            lot: None,
            length: inches(90.0),
            lead: Length::ZERO,
            width: inches(45.0),
            folded: false,
            cuts,
            used: inches(60.0),
            left_over: inches(30.0),
            offcuts: Vec::new(),
        }
    }

    fn new(stock_name: &str, offer: usize, number: i64) -> StockUse {
        let source = StockSource::New { offer, number };
        StockUse { source, stock: stock_name.into(), ..stock(Vec::new()) }
    }

    /// How often each batch is cut, and the number of its runs and of its rows' ends, block by block.
    fn told(uses: Vec<StockUse>) -> Vec<(i64, Vec<(usize, usize)>)> {
        let blocks = |batch: &Batch<'_>| batch.blocks.iter().map(|one| (one.runs.len(), one.ends.len())).collect();
        of_batches(uses, |batch| (batch.lengths, blocks(batch)))
    }

    fn of_batches<T>(uses: Vec<StockUse>, of: impl Fn(&Batch<'_>) -> T) -> Vec<T> {
        let pieces = [CutPiece::new("panel", 9, Shape::Rectangle { along: inches(20.0), across: inches(15.0) })];
        let goods = Goods::cloth(inches(45.0));
        let plan = plan_of(uses);
        let report = report(&pieces, &goods, &plan);
        batches(&report).iter().map(of).collect()
    }

    /// By hand: two panels side by side are one run, unless they differ in what a maker must know; which way a pair is
    /// mirrored is not told of each.
    #[test]
    fn cuts_that_differ_are_told_apart() {
        let runs = |change: &dyn Fn(&mut Cut)| {
            let mut cuts = vec![cut([0.0, 20.0, 0.0, 15.0]), cut([0.0, 20.0, 15.0, 30.0])];
            change(&mut cuts[1]);
            told(vec![stock(cuts)])[0].1[0].0
        };
        assert_eq!(runs(&|_| {}), 1);
        assert_eq!(runs(&|cut| cut.mirrored = true), 1);
        assert_eq!(runs(&|cut| cut.number = 2), 1);
        let changes: [fn(&mut Cut); 8] = [
            |cut| cut.piece = "cuff".into(),
            |cut| cut.order = Some("7".into()),
            |cut| cut.to = inches(21.0),
            |cut| cut.across_to = inches(31.0),
            |cut| cut.lie = Lie::Across,
            |cut| cut.through = Layers::Both,
            |cut| cut.reversed = true,
            |cut| cut.part = Some(JoinedPart { number: 1, of: 2 }),
        ];
        for (place, change) in changes.iter().enumerate() {
            assert_eq!(runs(change), 2, "{place}");
        }
    }

    /// Rows of a panel and, beside it, a shorter one: three alike are told once with three ends; a row that differs, or ends
    /// elsewhere, ends the repetition.
    #[test]
    fn rows_alike_are_one_block() {
        let row = |from: f64| [cut([from, from + 20.0, 0.0, 15.0]), cut([from, from + 18.0, 15.0, 30.0])];
        let rows = |change: &dyn Fn(&mut [Cut; 2])| {
            let mut last = row(40.0);
            change(&mut last);
            let all = [row(0.0).to_vec(), row(20.0).to_vec(), last.to_vec()].concat();
            told(vec![stock(all)])[0].1.clone()
        };
        assert_eq!(rows(&|_| {}), [(2, 3)]);
        let changes: [fn(&mut [Cut; 2]); 6] = [
            |row| row[1].to = inches(57.0),
            |row| row[1].across_to = inches(29.0),
            |row| (row[1].across_from, row[1].across_to) = (inches(16.0), inches(31.0)),
            |row| row[0].mirrored = true,
            |row| row[0].order = Some("7".into()),
            |row| row[1].piece = "cuff".into(),
        ];
        for (place, change) in changes.iter().enumerate() {
            assert_eq!(rows(change), [(2, 2), (2, 1)], "{place}");
        }
        // One row alone is told by itself; a row of one run is not parted from the next.
        assert_eq!(told(vec![stock(row(0.0).to_vec())])[0].1, [(2, 1)]);
        let single = |from: f64| cut([from, from + 20.0, 0.0, 15.0]);
        assert_eq!(told(vec![stock(vec![single(0.0), single(20.0), single(40.0)])])[0].1, [(1, 1)]);
    }

    /// Rows whose shorter panels are fewer, or begin or end at other marks across, are no repetition.
    #[test]
    fn rows_alike_have_their_pieces_at_the_same_marks() {
        let row = |from: f64, shorter: &[f64]| {
            let mut row = vec![cut([from, from + 20.0, 0.0, 15.0])];
            row.extend(shorter.iter().map(|across| cut([from, from + 18.0, *across, *across + 5.0])));
            row
        };
        let third = |shorter: &[f64]| {
            let all = [row(0.0, &[15.0, 25.0]), row(20.0, &[15.0, 25.0]), row(40.0, shorter)].concat();
            told(vec![stock(all)])[0].1.clone()
        };
        assert_eq!(third(&[15.0, 25.0]), [(2, 3)]);
        for shorter in [[15.0, 20.0, 25.0].as_slice(), &[16.0, 25.0], &[15.0, 24.0]] {
            assert_eq!(third(shorter), [(2, 2), (2, 1)], "{shorter:?}");
        }
    }

    /// Rows of one panel each before rows alike of two are one run. If telling rows alike takes as many runs as telling
    /// everything once, that is done: of X A | A B | A B | B Y both take six.
    #[test]
    fn rows_are_told_together_only_if_that_is_shorter() {
        let pair = |from: f64, one: f64, other: f64| {
            vec![cut([from, from + one, 0.0, 15.0]), cut([from, from + other, 15.0, 30.0])]
        };
        let single = |from: f64| vec![cut([from, from + 20.0, 0.0, 15.0])];
        let singles = [single(0.0), single(20.0), pair(40.0, 20.0, 18.0), pair(60.0, 20.0, 18.0)].concat();
        assert_eq!(told(vec![stock(singles)])[0].1, [(1, 1), (2, 2)]);
        let (x, a, b, y) = (25.0, 20.0, 18.0, 12.0);
        let even = [pair(0.0, x, a), pair(25.0, a, b), pair(45.0, a, b), pair(65.0, b, y)].concat();
        assert_eq!(told(vec![stock(even)])[0].1, [(6, 1)]);
    }

    /// Two rows that differ end where the farther of them does, alone and before rows alike.
    #[test]
    fn a_block_ends_with_its_last_row() {
        let row =
            |from: f64, long: f64| [cut([from, from + long, 0.0, 15.0]), cut([from, from + long - 2.0, 15.0, 30.0])];
        let ends = |rows: &[(f64, f64)]| {
            let cuts = rows.iter().flat_map(|(from, long)| row(*from, *long)).collect();
            let ends = of_batches(vec![stock(cuts)], |batch| {
                batch.blocks.iter().map(|block| block.ends.clone()).collect::<Vec<_>>()
            });
            ends.concat()
        };
        assert_eq!(ends(&[(0.0, 20.0), (20.0, 17.0)]), [[inches(37.0)]]);
        let alike = vec![inches(52.0), inches(67.0)];
        assert_eq!(ends(&[(0.0, 20.0), (20.0, 17.0), (37.0, 15.0), (52.0, 15.0)]), [vec![inches(37.0)], alike]);
    }

    #[test]
    fn lengths_cut_alike_are_one_batch() {
        let with = |source, change: &dyn Fn(&mut StockUse)| {
            let mut used = StockUse { source, ..stock(vec![cut([0.0, 20.0, 0.0, 15.0])]) };
            change(&mut used);
            used
        };
        let shelf = |entry, number| StockSource::Shelf { entry, number };
        let bought = |offer, number| StockSource::New { offer, number };
        let counts = |one, other, change: &dyn Fn(&mut StockUse)| {
            let all = told(vec![with(one, &|_| {}), with(other, change)]);
            all.into_iter().map(|batch| batch.0).collect::<Vec<_>>()
        };
        assert_eq!(counts(shelf(0, 1), shelf(0, 2), &|_| {}), [2]);
        assert_eq!(counts(bought(1, 1), bought(1, 2), &|_| {}), [2]);
        assert_eq!(counts(shelf(0, 1), shelf(1, 1), &|_| {}), [1, 1]);
        assert_eq!(counts(bought(0, 1), bought(1, 1), &|_| {}), [1, 1]);
        assert_eq!(counts(shelf(0, 1), bought(0, 2), &|_| {}), [1, 1]);
        assert_eq!(counts(shelf(0, 1), shelf(0, 2), &|used| used.length = inches(91.0)), [1, 1]);
        assert_eq!(counts(shelf(0, 1), shelf(0, 2), &|used| used.folded = true), [1, 1]);
        assert_eq!(counts(shelf(0, 1), shelf(0, 2), &|used| used.cuts[0].to = inches(21.0)), [1, 1]);
    }

    #[test]
    fn the_names_of_lengths() {
        let name = |first: &StockUse, lengths| stock_name(&Batch { first, lengths, blocks: Vec::new() });
        assert_eq!(name(&stock(Vec::new()), 1), "B4");
        assert_eq!(name(&stock(Vec::new()), 3), "each of 3 lengths of B4");
        assert_eq!(name(&new("new roll 2", 0, 2), 1), "new roll 2");
        // The second, third and fourth.
        assert_eq!(name(&new("new roll 2", 0, 2), 3), "each of new rolls 2 to 4");
        assert_eq!(name(&new("new Linen X 2", 0, 2), 3), "each of new Linen X, numbers 2 to 4");
    }

    #[test]
    fn only_cloth_bought_as_needed_leaves_nothing_to_tell() {
        let used = |source, length: f64, used: f64, lead: f64| StockUse {
            source,
            length: inches(length),
            used: inches(used),
            lead: inches(lead),
            ..stock(Vec::new())
        };
        let (bought, shelf) = (StockSource::New { offer: 0, number: 1 }, StockSource::Shelf { entry: 0, number: 1 });
        assert!(!has_rest(&used(bought, 60.0, 60.0, 0.0)) && !has_rest(&used(bought, 70.0, 60.0, 10.0)));
        assert!(has_rest(&used(bought, 71.0, 60.0, 10.0)) && has_rest(&used(bought, 60.0, 50.0, 0.0)));
        assert!(has_rest(&used(shelf, 60.0, 60.0, 0.0)));
    }

    #[test]
    fn pieces_side_by_side_from_one_selvedge_lie_in_rows() {
        let lies = |marks: &[[f64; 4]]| lies_in_rows(&stock(marks.iter().map(|marks| cut(*marks)).collect()));
        assert!(lies(&[]));
        assert!(lies(&[[0.0, 20.0, 0.0, 15.0], [0.0, 18.0, 15.0, 31.0], [0.0, 20.0, 31.0, 45.0]]));
        assert!(lies(&[[0.0, 20.0, 0.0, 15.0], [20.0, 40.0, 0.0, 15.0]]));
        // Not from the selvedge, in the first row or in another; with a gap, at the first place or a later one.
        assert!(!lies(&[[0.0, 20.0, 1.0, 16.0]]));
        assert!(!lies(&[[0.0, 20.0, 0.0, 15.0], [20.0, 40.0, 15.0, 30.0]]));
        assert!(!lies(&[[0.0, 20.0, 0.0, 15.0], [0.0, 20.0, 16.0, 31.0]]));
        assert!(!lies(&[[0.0, 20.0, 0.0, 15.0], [0.0, 18.0, 15.0, 31.0], [0.0, 20.0, 32.0, 45.0]]));
    }

    /// Three cuts of one run: it begins with the first and ends with the farthest, and is as broad as all together.
    #[test]
    fn a_run_reaches_as_far_as_its_cuts() {
        let run = |marks: [f64; 4], mirrored: bool| Run {
            piece: "panel",
            order: None,
            pieces: 1,
            along: inches(20.0),
            across: Some(inches(15.0)),
            starts: vec![inches(marks[0])],
            to: inches(marks[1]),
            across_from: inches(marks[2]),
            across_to: inches(marks[3]),
            lie: Lie::Along,
            through: Layers::One,
            reversed: false,
            mirrored,
            part: None,
        };
        let mut runs = Vec::new();
        for (marks, mirrored) in
            [([5.0, 25.0, 15.0, 30.0], false), ([3.0, 23.0, 7.0, 22.0], true), ([9.0, 29.0, 9.0, 33.0], false)]
        {
            add(&mut runs, run(marks, mirrored));
        }
        let [all] = runs.as_slice() else { panic!("{runs:?}") };
        assert_eq!((all.pieces, all.from(), all.to), (3, inches(3.0), inches(29.0)));
        assert_eq!((all.across_from, all.across_to, all.mirrored), (inches(7.0), inches(33.0), true));
    }
}
