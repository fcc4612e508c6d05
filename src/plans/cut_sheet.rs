//! A plan as a page to cut from: every cut with its start and end, what each becomes, how widths are joined, and what to
//! check. Lengths stand without their unit, all on one tape.
//!
//! Never here: drawing the page, what is sewn.

use super::grouping::has_rest;
use super::keeping::{Rest, end_at_marks, kept};
use super::letters::Letters;
use super::panels::{EntryPanels, Split};
use super::plan_report::{PlanReport, PlanWords};
use super::sentences::lie_words_of;
use crate::cutting::{Cut, StockUse};
use crate::piece::{Edge, Middle, PanelSide};
use crate::quantity::{Length, number};
use crate::report::{SheetBlock, TICK};

/// Strips are counted off in tens.
const TENS: usize = 10;
/// Tick marks of strips in one line.
const IN_A_LINE: usize = 4;

/// The blocks of one material.
pub(crate) fn cut_sheet(report: &PlanReport<'_>, letters: &Letters, words: &PlanWords) -> Vec<SheetBlock> {
    let page = Page { report, words, letters, panels: report.all_panels(letters) };
    let goods = if report.is_roll() { "ROLL" } else { "CLOTH" };
    let mut blocks =
        vec![SheetBlock { label: goods, lines: page.goods() }, SheetBlock { label: "START", lines: page.start() }];
    let mut strips = 0;
    for used in &report.plan.uses {
        blocks.push(SheetBlock { label: "CUT", lines: page.cuts(used, &mut strips) });
    }
    if strips > 0 {
        blocks.push(SheetBlock { label: "COUNT", lines: vec![format!("{TICK}{}", tens(strips))] });
    }
    for panels in &page.panels {
        blocks.push(SheetBlock { label: "SPLIT", lines: page.splits(panels) });
        blocks.push(SheetBlock { label: "JOIN", lines: page.joins(panels) });
        blocks.push(SheetBlock { label: "TRIM", lines: page.trims(panels) });
        blocks.push(SheetBlock { label: "CHECK", lines: page.checks(panels) });
    }
    blocks.push(SheetBlock { label: "KEEP", lines: page.keep() });
    blocks.retain(|block| !block.lines.is_empty());
    blocks
}

struct Page<'a> {
    report: &'a PlanReport<'a>,
    words: &'a PlanWords,
    letters: &'a Letters,
    panels: Vec<EntryPanels<'a>>,
}

impl Page<'_> {
    fn bare(&self, length: Length) -> String {
        self.words.bare(length)
    }

    /// From one mark to another, as what stands on the sheet has it.
    fn long(&self, from: Length, to: Length) -> String {
        self.bare(self.words.between(from, to))
    }

    /// What is left at the end of a length.
    fn left(&self, used: &StockUse) -> String {
        let (along, _, is_unwashed) = end_at_marks(self.report, self.words, used);
        format!("{} left{}", self.bare(along), if is_unwashed { " unwashed" } else { "" })
    }

    fn goods(&self) -> Vec<String> {
        let goods = self.report.goods;
        let name = self.report.name.unwrap_or("goods");
        let mut lines = vec![format!("{name}, {} wide", self.bare(goods.width))];
        if let Some(repeat) = goods.repeat.filter(|_| self.is_matched()) {
            let shift = if repeat.is_straight() {
                "straight".to_owned()
            } else if repeat.is_half_drop() {
                "half drop".to_owned()
            } else {
                format!("{} later on the next width", self.words.bare_or_about(repeat.shift))
            };
            lines.push(format!("Repeat {}, {shift}.", self.words.bare_or_about(repeat.along)));
        }
        if goods.napped {
            lines.push("Nap: every top towards the uncut end; nothing is turned.".to_owned());
        }
        lines
    }

    fn is_matched(&self) -> bool {
        let mut entries = self.report.pieces.iter().enumerate().filter(|(_, piece)| piece.count > 0);
        entries.any(|(entry, _)| self.report.is_on_pattern(entry))
    }

    fn start(&self) -> Vec<String> {
        let Some(repeat) = self.report.goods.repeat.filter(|_| self.is_matched()) else { return Vec::new() };
        let five = self.words.bare_or_about(repeat.along * 5.0);
        let mut lines = vec![format!("{TICK}Measure 5 repeats: {five}? If not, cut by the pattern, not by the tape.")];
        let line = self.report.pieces.iter().filter(|piece| piece.matching.is_some()).find_map(|piece| piece.line);
        lines.push(match line {
            Some(line) if line.edge == Edge::Lower => format!(
                "{TICK}Choose the place of the pattern for the line {0} above the lower edge. 0 is {0} below it, square across.",
                self.bare(line.distance)
            ),
            Some(line) => format!(
                "{TICK}Choose the place of the pattern for the line {} below the upper edge; 0 is the lower edge, square across.",
                self.bare(line.distance)
            ),
            None => format!("{TICK}Choose where the pattern begins at the lower edge: that is 0, square across."),
        });
        lines.push("Up to one repeat lies before 0 on each length.".to_owned());
        lines
    }

    /// The cuts of one length, with what is cut off between them.
    fn cuts(&self, used: &StockUse, strips: &mut usize) -> Vec<String> {
        let mut lines = vec![self.length_words(used)];
        let full_widths = used.cuts.iter().all(|cut| self.report.takes_full_width(cut.entry));
        if full_widths
            && used.cuts.iter().all(|cut| self.panels_of(cut).is_none() && !self.report.is_on_pattern(cut.entry))
        {
            lines.extend(self.strips(used, strips));
            return lines;
        }
        lines.push(if full_widths {
            format!("    {:<3} {:>8} {:>8} {:>8}  {}", "", "from", "to", "long", self.pattern_heading())
        } else {
            format!("    {:<3} {:>8} {:>8} {:>8} {:>8}", "", "from", "to", "across", "to")
        });
        let mut end = Length::ZERO;
        for cut in &used.cuts {
            if full_widths && (cut.from - end).steps() > 1.0 {
                lines.push(self.off(end, cut.from));
            }
            end = cut.to;
            lines.push(self.cut(cut, full_widths));
        }
        lines.push(self.sum(used, full_widths));
        lines
    }

    fn length_words(&self, used: &StockUse) -> String {
        let lot = used.lot.as_ref().map(|lot| format!(", lot {lot}")).unwrap_or_default();
        let folded = if used.folded { ", folded lengthwise, selvedges together" } else { "" };
        let loss = self.report.loss_of(used);
        let washed = self.bare(used.length);
        let long = if loss.is_none() {
            format!("{washed} long")
        } else {
            format!("{} long, {washed} once washed", self.bare(loss.before_along(used.length)))
        };
        format!("{}{lot}: {long}{folded}", used.stock)
    }

    fn pattern_heading(&self) -> &'static str {
        if self.is_matched() { "repeats" } else { "" }
    }

    fn panels_of(&self, cut: &Cut) -> Option<&EntryPanels<'_>> {
        self.panels.iter().find(|panels| panels.entry == cut.entry)
    }

    fn cut(&self, cut: &Cut, full_widths: bool) -> String {
        let panels = self.panels_of(cut);
        let name = self.letters.of_cut(self.report, cut);
        let (from, to) = (self.bare(cut.from), self.bare(cut.to));
        let becomes = match panels {
            Some(panels) => panels.becomes(cut.number),
            None => self.piece_words(cut),
        };
        if full_widths {
            let pattern = if self.report.is_on_pattern(cut.entry) { self.repeats_on(cut.from) } else { String::new() };
            let long = self.long(cut.from, cut.to);
            let row = format!("{TICK}{name:<3} {from:>8} {to:>8} {long:>8}");
            let row = if self.is_matched() { format!("{row}  {pattern:<7}") } else { row };
            return format!("{row}  {becomes}").trim_end().to_owned();
        }
        let (across_from, across_to) = (self.bare(cut.across_from), self.bare(cut.across_to));
        let pattern = if self.report.is_on_pattern(cut.entry) {
            format!(", {} repeats from 0", self.repeats_on(cut.from))
        } else {
            String::new()
        };
        format!("{TICK}{name:<3} {from:>8} {to:>8} {across_from:>8} {across_to:>8}  {becomes}{pattern}")
    }

    /// A piece with its order and how it lies.
    fn piece_words(&self, cut: &Cut) -> String {
        let order = cut.order.as_deref().map(|order| format!(" for {order}")).unwrap_or_default();
        let lies = lie_words_of(self.report, cut);
        let lies = if lies.is_empty() { String::new() } else { format!(", {lies}") };
        format!("{}{order}{lies}", cut.piece)
    }

    fn off(&self, from: Length, to: Length) -> String {
        let long = self.long(from, to);
        format!("    {:<3} {:>8} {:>8} {long:>8}", "off", self.bare(from), self.bare(to))
    }

    /// How far a mark is from 0, counted in repeats: `3 1/2`.
    fn repeats_on(&self, mark: Length) -> String {
        let Some(repeat) = self.report.goods.repeat else { return String::new() };
        let repeats = number::snapped(mark / repeat.along);
        let whole = repeats.floor();
        let rest = repeats - whole;
        if number::is_within(rest, 0.5, 1e-6) {
            if whole > 0.0 { format!("{whole} 1/2") } else { "1/2".to_owned() }
        } else {
            // To two decimals: the marks are exact.
            self.words.words.show_number((repeats * 100.0).round() / 100.0)
        }
    }

    /// What the cuts of full widths come to, and what is left.
    fn sum(&self, used: &StockUse, full_widths: bool) -> String {
        let lead = used.lead.is_positive().then(|| {
            format!("; up to {} of {} lies before 0", self.words.bare_or_about(used.lead), self.bare(used.length))
        });
        let rest = match (has_rest(used), lead) {
            (true, None) if self.report.loss_of(used).is_none() => {
                format!("; {} of {}", self.left(used), self.bare(used.length))
            }
            (true, lead) => format!("{}; {}", lead.unwrap_or_default(), self.left(used)),
            (false, lead) => lead.unwrap_or_default(),
        };
        if !full_widths {
            return format!("to {}{rest}", self.bare(used.used));
        }
        let mut terms: Vec<(String, usize)> = Vec::new();
        let mut add = |length: Length| {
            let shown = self.bare(length);
            match terms.iter_mut().find(|(known, _)| *known == shown) {
                Some((_, times)) => *times += 1,
                None => terms.push((shown, 1)),
            }
        };
        let mut end = Length::ZERO;
        for cut in &used.cuts {
            add(self.words.between(cut.from, cut.to));
            end = end.most(cut.to);
        }
        let mut last = Length::ZERO;
        for cut in &used.cuts {
            if (cut.from - last).steps() > 1.0 {
                add(self.words.between(last, cut.from));
            }
            last = cut.to;
        }
        let terms = terms.into_iter().map(|(length, times)| format!("{times} x {length}"));
        format!("{} = {}{rest}", terms.collect::<Vec<_>>().join(" + "), self.bare(end))
    }

    /// Strips that follow one another: a mark for each ten of them.
    fn strips(&self, used: &StockUse, counted: &mut usize) -> Vec<String> {
        let mut lines = Vec::new();
        let runs = used.cuts.chunk_by(|one, next| {
            one.piece == next.piece
                && one.order == next.order
                && one.to - one.from == next.to - next.from
                && one.to == next.from
        });
        for run in runs {
            let (Some(first), Some(last)) = (run.first(), run.last()) else { continue };
            let order = first.order.as_deref().map(|order| format!(" for {order}")).unwrap_or_default();
            let (from, to, each) = (self.bare(first.from), self.bare(last.to), self.long(first.from, first.to));
            if let [_] = run {
                lines.push(format!("{TICK}{from} to {to}: 1 {}{order}", first.piece));
                *counted += 1;
                continue;
            }
            let (start, end) = (*counted + 1, *counted + run.len());
            lines.push(format!("{from} to {to}, a mark every {each}: {} {start} to {end}{order}", first.piece));
            let mut ticks = Vec::new();
            for (place, cut) in run.iter().enumerate() {
                let count = *counted + place + 1;
                if count.is_multiple_of(TENS) || place + 1 == run.len() {
                    ticks.push(format!("{TICK}{count} at {}", self.bare(cut.to)));
                }
            }
            *counted = end;
            lines.extend(
                ticks.chunks(IN_A_LINE).map(|ticks| {
                    ticks.iter().map(|tick| format!("{tick:<16}")).collect::<String>().trim_end().to_owned()
                }),
            );
        }
        if has_rest(used) {
            lines.push(self.left(used));
        }
        lines
    }

    fn splits(&self, panels: &EntryPanels<'_>) -> Vec<String> {
        let mut lines = Vec::new();
        for Split { drop, parts, left } in panels.splits() {
            let letter = panels.letter(drop);
            lines.push(format!("{letter} down its length, right side up, top away, from its LEFT edge:"));
            let crossed = parts.len() > 1;
            for (part, from, to, panel) in &parts {
                let name = if crossed { format!("{letter}{}", part.number()) } else { letter.to_owned() };
                lines.push(format!("{TICK}{name:<3} {:>8} to {:>8}  to {panel}", self.bare(*from), self.bare(*to)));
            }
            if let Some((from, to, is_kept)) = left {
                let what = if is_kept { "keep" } else { "left" };
                lines.push(format!("    {what} {} to {}", self.bare(from), self.bare(to)));
            }
        }
        lines
    }

    fn joins(&self, panels: &EntryPanels<'_>) -> Vec<String> {
        if panels.spec.half_widths <= 2 {
            return Vec::new();
        }
        let pattern = if self.report.is_on_pattern(panels.entry) { ", pattern to pattern" } else { "" };
        let mut lines = vec![format!(
            "right sides up, seen from the room; {} into each side of a join",
            self.bare(panels.spec.allowance)
        )];
        let moved = panels.moved_in();
        if moved.steps() > 1.0 {
            lines.push(format!("the pattern meets {} further in: turn that much under at one side", self.bare(moved)));
        }
        let mut rows = panels.layout.panels.iter().peekable();
        while let Some(panel) = rows.next() {
            let row = panels.row(panel);
            let drawn = format!("[ {} ]", row.join(" | "));
            let pair = panel.side == PanelSide::Left;
            if let Some(right) = rows.peek().filter(|right| pair && right.side == PanelSide::Right) {
                let other = panels.row(right);
                let no = if panels.has_garments() { format!("no. {}: ", panel.garment) } else { String::new() };
                lines.push(format!("{no}wall  {drawn}  middle  [ {} ]  wall", other.join(" | ")));
                lines.extend(join_lines(&row, pattern));
                lines.extend(join_lines(&other, pattern));
                rows.next();
            } else {
                lines.push(format!("{}  {drawn}", panels.panel_name(panel)));
                lines.extend(join_lines(&row, pattern));
            }
        }
        lines
    }

    fn trims(&self, panels: &EntryPanels<'_>) -> Vec<String> {
        let mut lines: Vec<String> = panels
            .trims()
            .iter()
            .map(|trim| {
                let side = if trim.left { "left" } else { "right" };
                format!("{TICK}{} off the {side} of {}", self.bare(trim.amount), trim.width)
            })
            .collect();
        lines = lines.chunks(2).map(|two| two.join("    ")).collect();
        let across = self.bare(panels.spec.across);
        lines.push(if lines.is_empty() {
            format!("nothing: each is {across} across")
        } else {
            format!("each is then {across} across")
        });
        lines
    }

    /// Which widths stand level where the curtains of a pair meet, and how the next ones stand to them.
    fn checks(&self, panels: &EntryPanels<'_>) -> Vec<String> {
        if !self.report.is_on_pattern(panels.entry) {
            return Vec::new();
        }
        let mut lines = Vec::new();
        let mut rows = panels.layout.panels.iter().peekable();
        while let Some(left) = rows.next() {
            let Some(right) = rows.peek().filter(|right| right.side == PanelSide::Right) else { continue };
            let (mut one, other) = (panels.row(left), panels.row(right));
            one.reverse();
            if panels.spec.middle == Middle::RunsOn {
                let (Some(one), Some(other)) = (one.first(), other.first()) else { continue };
                lines.push(format!("{TICK}the pattern runs on from {one} to {other} where the curtains meet"));
                continue;
            }
            for (place, (one, other)) in one.iter().zip(&other).enumerate() {
                let at = if place == 0 { " at the middle" } else { "" };
                lines.push(format!("{TICK}{one} and {other} level{at}"));
            }
        }
        lines
    }

    /// What is worth keeping, equal ones together, the narrow and short ones first.
    fn keep(&self) -> Vec<String> {
        let mut kept: Vec<Rest> = kept(self.report, self.words).into_iter().flatten().collect();
        let place = |rest: &Rest| (rest.across.steps(), rest.along.steps());
        kept.sort_by(|one, next| {
            let (one, next) = (place(one), place(next));
            one.0.total_cmp(&next.0).then(one.1.total_cmp(&next.1))
        });
        let size = |rest: &Rest| {
            let unwashed = if rest.unwashed { " unwashed" } else { "" };
            format!("{} x {}{unwashed}", self.bare(rest.across), self.bare(rest.along))
        };
        let mut counted: Vec<(String, usize)> = Vec::new();
        for size in kept.iter().map(size) {
            match counted.iter_mut().find(|(known, _)| *known == size) {
                Some((_, times)) => *times += 1,
                None => counted.push((size, 1)),
            }
        }
        let each: Vec<String> = counted.into_iter().map(|(size, times)| format!("{times} of {size}")).collect();
        if each.is_empty() { Vec::new() } else { vec![each.join("; ")] }
    }
}

/// The joins of a panel, left to right.
fn join_lines(row: &[String], pattern: &str) -> Vec<String> {
    row.windows(2)
        .filter_map(|two| match two {
            [left, right] => Some(format!("{TICK}right edge of {left} to left edge of {right}{pattern}")),
            _ => None,
        })
        .collect()
}

/// A count in tens: `11 tens and 1`.
pub(super) fn tens(count: usize) -> String {
    match (count / TENS, count % TENS) {
        (0, ones) => ones.to_string(),
        (tens, 0) => format!("{tens} tens"),
        (tens, ones) => format!("{tens} tens and {ones}"),
    }
}
