//! How panels are made of their widths, told from the plan: which drop stands where, how halves are split, which edges
//! are joined and what is trimmed.
//!
//! Never here: where drops lie on the cloth, which is the plan itself; drawing.

use super::letters::Letters;
use super::plan_report::{PlanReport, PlanWords};
use crate::cutting::{Cut, StockUse};
use crate::piece::{Panel, PanelLayout, PanelSide, PanelWidth, Panels, WidthPart};
use crate::quantity::Length;
use crate::report::listed;
use std::collections::BTreeMap;

/// Lists of drops longer than this are not told one by one in a step.
const MOST_LISTED: usize = 8;

/// The panels of one entry of a plan.
pub(super) struct EntryPanels<'a> {
    pub(super) entry: usize,
    pub(super) spec: &'a Panels,
    pub(super) layout: &'a PanelLayout,
    /// The usable width of the goods.
    width: Length,
    /// The drops by their numbers.
    drops: BTreeMap<i64, Drop>,
    report: PlanReport<'a>,
}

/// A length of the goods that panels are made of.
struct Drop {
    letter: String,
    along: Length,
}

/// The parts of a drop that is split along its length, measured from its left edge.
pub(super) struct Split {
    pub(super) drop: i64,
    /// Part, from, to, and the panel it goes to.
    pub(super) parts: Vec<(WidthPart, Length, Length, String)>,
    /// What is left between or beside them, and whether it is worth keeping.
    pub(super) left: Option<(Length, Length, bool)>,
}

impl Split {
    /// Whether another drop is split at the same places.
    fn is_like(&self, other: &Self) -> bool {
        let places =
            |split: &Self| split.parts.iter().map(|(part, from, to, _)| (*part, *from, *to)).collect::<Vec<_>>();
        places(self) == places(other) && self.left == other.left
    }
}

/// A strip that comes off a drop over its whole length, by its marks across the drop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Strip {
    pub(super) entry: usize,
    pub(super) drop: i64,
    pub(super) from: Length,
    pub(super) to: Length,
}

/// What is cut off one side of a width.
pub(super) struct Trim {
    drop: i64,
    pub(super) width: String,
    pub(super) left: bool,
    pub(super) amount: Length,
}

impl<'a> PlanReport<'a> {
    /// The panels that the piece of an entry makes; `None` if it makes none.
    pub(super) fn panels_of(&self, entry: usize) -> Option<(&'a Panels, &'a PanelLayout)> {
        let spec = self.pieces.get(entry)?.panels.as_ref()?;
        Some((spec, self.panels.get(entry)?.as_ref()?))
    }

    /// The panels of every entry that makes some.
    pub(super) fn all_panels(&self, letters: &Letters) -> Vec<EntryPanels<'a>> {
        let of = |entry: usize| {
            let (spec, layout) = self.panels_of(entry)?;
            let cuts = self.plan.uses.iter().flat_map(|used| &used.cuts).filter(|cut| cut.entry == entry);
            let drop = |cut: &Cut| Drop { letter: letters.of_cut(self, cut), along: cut.to - cut.from };
            let drops = cuts.map(|cut| (cut.number, drop(cut))).collect();
            Some(EntryPanels { entry, spec, layout, width: self.goods.width, drops, report: *self })
        };
        (0..self.pieces.len()).filter_map(of).collect()
    }
}

impl EntryPanels<'_> {
    /// The letter of a drop.
    pub(super) fn letter(&self, drop: i64) -> &str {
        self.drops.get(&drop).map_or("?", |drop| drop.letter.as_str())
    }

    /// Whether a drop serves two panels, each with half of it.
    fn is_split(&self, drop: i64) -> bool {
        self.places(drop).any(|(_, _, width)| width.part != WidthPart::Whole)
    }

    /// A width as it is called once drops are split: `A`, or `B1` and `B2` in order across the drop.
    pub(super) fn name(&self, width: PanelWidth) -> String {
        let shared = self.places(width.drop).count() > 1;
        let suffix = if shared { width.part.number().to_string() } else { String::new() };
        format!("{}{suffix}", self.letter(width.drop))
    }

    /// The panels a drop stands in, and its place there from the left.
    fn places(&self, drop: i64) -> impl Iterator<Item = (&Panel, usize, PanelWidth)> {
        self.layout.panels.iter().flat_map(move |panel| {
            let widths = panel.widths.iter().enumerate();
            widths.filter(move |(_, width)| width.drop == drop).map(move |(place, width)| (panel, place, *width))
        })
    }

    /// The name of a panel: `left curtain`, `panel 2`, with its garment if there are several.
    pub(super) fn panel_name(&self, panel: &Panel) -> String {
        let name = match panel.side {
            PanelSide::Left => "left curtain".to_owned(),
            PanelSide::Right => "right curtain".to_owned(),
            PanelSide::Single(0) => "panel".to_owned(),
            PanelSide::Single(number) => format!("panel {number}"),
        };
        let pairs =
            self.layout.panels.iter().filter(|other| (other.garment, other.side) == (panel.garment, panel.side));
        let name = if pairs.count() > 1 { format!("a {name}") } else { name };
        if self.has_garments() { format!("no. {}, {name}", panel.garment) } else { name }
    }

    /// The name of a panel in a sentence: `the left curtain`, `no. 2, left curtain`.
    fn with_article(&self, panel: &Panel) -> String {
        let name = self.panel_name(panel);
        let is_known = self.has_garments() || name.starts_with("a ");
        if is_known { name } else { format!("the {name}") }
    }

    pub(super) fn has_garments(&self) -> bool {
        self.layout.panels.iter().any(|panel| panel.garment > 1)
    }

    /// What a drop becomes: `left curtain, leading`, `both curtains, outer`.
    pub(super) fn becomes(&self, drop: i64) -> String {
        let mut places = self.places(drop);
        let Some((panel, place, _)) = places.next() else { return String::new() };
        let standing = |panel: &Panel, place| {
            let stands = stands(panel, place);
            let name = self.panel_name(panel);
            if stands.is_empty() { name } else { format!("{name}, {stands}") }
        };
        let Some((other, other_place, _)) = places.next() else { return standing(panel, place) };
        let stands = stands(panel, place);
        if stands != self::stands(other, other_place) {
            return format!("{}; {}", standing(panel, place), standing(other, other_place));
        }
        let pair = (panel.side, other.side) == (PanelSide::Left, PanelSide::Right);
        let names = match (panel.garment == other.garment && pair, self.has_garments()) {
            (true, false) => "both curtains".to_owned(),
            (true, true) => format!("no. {}, both curtains", panel.garment),
            (false, _) => format!("{} and {}", self.panel_name(panel), self.panel_name(other)),
        };
        if stands.is_empty() { names } else { format!("{names}, {stands}") }
    }

    /// The size across that the half of a panel is cut to: what its whole widths leave.
    fn half_size(&self) -> Length {
        let whole = i32::try_from(self.spec.half_widths / 2).unwrap_or(i32::MAX);
        self.spec.across - self.spec.gained * f64::from(whole)
    }

    /// The drops that are split along their length, in the order of their letters.
    pub(super) fn splits(&self) -> Vec<Split> {
        let size = self.half_size();
        let split = |drop: i64| {
            let mut parts: Vec<_> = self
                .places(drop)
                .map(|(panel, _, width)| {
                    let (from, to) = match width.part {
                        WidthPart::LeftHand => (Length::ZERO, size),
                        _ => (self.width - size, self.width),
                    };
                    (width.part, from, to, self.with_article(panel))
                })
                .collect();
            parts.sort_by_key(|(part, ..)| *part);
            let from = parts.first().filter(|(part, ..)| *part == WidthPart::LeftHand).map_or(Length::ZERO, |_| size);
            let to = match parts.last() {
                Some((WidthPart::RightHand, from, ..)) => *from,
                _ => self.width,
            };
            let along = self.drops.get(&drop).map_or(Length::ZERO, |drop| drop.along);
            let is_kept = self.report.is_worth_keeping(along, to - from);
            let left = ((to - from).steps() > 1.0).then_some((from, to, is_kept));
            Split { drop, parts, left }
        };
        let mut drops: Vec<i64> = self.drops.keys().copied().filter(|drop| self.is_split(*drop)).collect();
        drops.sort_by_key(|drop| (self.letter(*drop).len(), self.letter(*drop).to_owned()));
        drops.into_iter().map(split).collect()
    }

    /// What is trimmed off whole widths: of a pair at the wall, of other panels half at each side. Halves are cut to
    /// size when they are split.
    pub(super) fn trims(&self) -> Vec<Trim> {
        let spare = self.spec.reach(self.width) - self.spec.across;
        if spare.steps() <= 1.0 || self.spec.half_widths % 2 != 0 {
            return Vec::new();
        }
        let mut trims = Vec::new();
        for panel in &self.layout.panels {
            let (Some(first), Some(last)) = (panel.widths.first(), panel.widths.last()) else { continue };
            let trim =
                |width: &PanelWidth, left, amount| Trim { drop: width.drop, width: self.name(*width), left, amount };
            match panel.side {
                PanelSide::Left => trims.push(trim(first, true, spare)),
                PanelSide::Right => trims.push(trim(last, false, spare)),
                PanelSide::Single(_) => trims.extend([trim(first, true, spare / 2.0), trim(last, false, spare / 2.0)]),
            }
        }
        trims
    }

    /// The strips that splitting and trimming take off the drops.
    pub(super) fn strips(&self) -> Vec<Strip> {
        let strip = |drop, from, to| Strip { entry: self.entry, drop, from, to };
        let between =
            self.splits().into_iter().filter_map(|split| split.left.map(|(from, to, _)| (split.drop, from, to)));
        let off = self.trims().into_iter().map(|trim| {
            let (from, to) =
                if trim.left { (Length::ZERO, trim.amount) } else { (self.width - trim.amount, self.width) };
            (trim.drop, from, to)
        });
        between.chain(off).map(|(drop, from, to)| strip(drop, from, to)).collect()
    }

    /// How far beyond the seam allowance a join is moved in, so that the pattern meets; zero if it is not.
    pub(super) fn moved_in(&self) -> Length {
        self.width - self.spec.allowance * 2.0 - self.spec.gained
    }

    /// The widths of a panel from left to right.
    pub(super) fn row(&self, panel: &Panel) -> Vec<String> {
        panel.widths.iter().map(|width| self.name(*width)).collect()
    }
}

/// Where a width stands in its panel; empty if it is the only one.
fn stands(panel: &Panel, place: usize) -> String {
    let count = panel.widths.len();
    let from_middle = match panel.side {
        PanelSide::Left => count - 1 - place,
        PanelSide::Right | PanelSide::Single(_) => place,
    };
    match (panel.side, from_middle) {
        _ if count == 1 => String::new(),
        (PanelSide::Single(_), place) => format!("{} from the left", ordinal(place + 1)),
        (_, 0) => "leading".to_owned(),
        (_, place) if place + 1 == count => "outer".to_owned(),
        (_, place) => format!("{} from the middle", ordinal(place + 1)),
    }
}

pub(super) fn ordinal(number: usize) -> String {
    let ending = match (number % 10, number % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

/// The steps that cut, split, join and trim a piece, told from its plan; none if the plan has no such piece.
pub(crate) fn cut_steps(report: &PlanReport<'_>, piece: &str, letters: &Letters, words: &PlanWords) -> Vec<String> {
    let is_piece = |entry: usize| report.pieces.get(entry).is_some_and(|known| known.name == piece);
    let cuts: Vec<(&StockUse, &Cut)> = report
        .plan
        .uses
        .iter()
        .flat_map(|used| used.cuts.iter().map(move |cut| (used, cut)))
        .filter(|(_, cut)| is_piece(cut.entry))
        .collect();
    let Some((_, first)) = cuts.first() else { return Vec::new() };
    let panels = report.all_panels(letters).into_iter().find(|panels| panels.entry == first.entry);
    let mut steps = vec![cutting_step(&cuts, piece, panels.as_ref(), words)];
    if let Some(panels) = &panels {
        steps.extend(split_step(panels, words));
        steps.extend(join_step(panels, report, words));
        steps.extend(trim_step(panels, words));
    }
    steps
}

fn cutting_step(
    cuts: &[(&StockUse, &Cut)],
    piece: &str,
    panels: Option<&EntryPanels<'_>>,
    words: &PlanWords,
) -> String {
    let Some((_, first)) = cuts.first() else { return String::new() };
    let count = cuts.len();
    let along = words.say((first.to - first.from).liking(crate::quantity::Quantity::from(first.to).liked()));
    let plural = if count == 1 || piece.ends_with('s') { "" } else { "s" };
    let what = format!("Cut {count} {piece}{plural} of {along}");
    let Some(panels) = panels.filter(|_| count <= MOST_LISTED) else {
        return format!("{what}, as the list of cuts has them.");
    };
    let marks = cuts
        .iter()
        .map(|(_, cut)| format!("{} {} to {}", panels.letter(cut.number), words.say_bare(cut.from), words.say(cut.to)));
    format!("{what}: {}. Chalk letter and way up on the wrong side.", marks.collect::<Vec<_>>().join(", "))
}

fn split_step(panels: &EntryPanels<'_>, words: &PlanWords) -> Option<String> {
    let splits = panels.splits();
    // Drops that are split alike are told together: the last one may serve one panel only.
    let mut alike: Vec<Vec<&Split>> = Vec::new();
    for split in &splits {
        match alike.iter_mut().find(|others| others.first().is_some_and(|other| other.is_like(split))) {
            Some(others) => others.push(split),
            None => alike.push(vec![split]),
        }
    }
    let sentences = alike.iter().enumerate().filter_map(|(place, splits)| {
        let first = splits.first()?;
        let part = |(_, from, to, panel): &(WidthPart, Length, Length, String)| {
            let to_panel = if splits.len() == 1 { format!(" to {panel}") } else { String::new() };
            format!("{} to {}{to_panel}", words.say_bare(*from), words.say(*to))
        };
        let parts: Vec<String> = first.parts.iter().map(part).collect();
        let names: Vec<&str> = splits.iter().map(|split| panels.letter(split.drop)).collect();
        let how = if place == 0 { " along, right side up, top away, measured from the left edge" } else { "" };
        let side = if parts.len() > 1 { "between" } else { "beside" };
        let left = first.left.map(|(from, to, is_kept)| {
            let wide = words.say(words.between(from, to));
            if is_kept { format!("; keep the {wide} {side}") } else { format!("; {wide} is left {side}") }
        });
        Some(format!("Split {}{how}: {}{}.", listed(&names), parts.join(", "), left.unwrap_or_default()))
    });
    let sentences: Vec<String> = sentences.collect();
    (!sentences.is_empty()).then(|| sentences.join(" "))
}

fn join_step(panels: &EntryPanels<'_>, report: &PlanReport<'_>, words: &PlanWords) -> Option<String> {
    if panels.spec.half_widths <= 2 {
        return None;
    }
    let rows: Vec<String> = panels
        .layout
        .panels
        .iter()
        .take(MOST_LISTED)
        .map(|panel| format!("{} {}", panels.panel_name(panel), panels.row(panel).join(" ")))
        .collect();
    let more = panels.layout.panels.len() - rows.len();
    let more = if more > 0 { format!(" and {more} more alike") } else { String::new() };
    let matched = if report.is_on_pattern(panels.entry) { ", pattern to pattern" } else { "" };
    let moved = panels.moved_in();
    let moved = if moved.steps() > 1.0 {
        format!("; the pattern meets {} further in, so turn that much under at one side of each join", words.say(moved))
    } else {
        String::new()
    };
    let rows = rows.join("; ");
    let allowance = words.say(panels.spec.allowance);
    Some(format!(
        "Join, left to right as seen from the room: {rows}{more}. Each side of a join takes {allowance}{matched}{moved}."
    ))
}

fn trim_step(panels: &EntryPanels<'_>, words: &PlanWords) -> Option<String> {
    let trims = panels.trims();
    let first = trims.first()?;
    let across = words.say(panels.spec.across);
    let amount = words.say(first.amount);
    if !panels.spec.paired {
        let of = if panels.layout.panels.len() == 1 { "the" } else { "every" };
        return Some(format!("Trim {amount} off each side of {of} panel, so that it is {across} across."));
    }
    if trims.len() > MOST_LISTED {
        return Some(format!("Trim {amount} off the wall side of every curtain, so that it is {across} across."));
    }
    let each: Vec<String> = trims
        .iter()
        .map(|trim| {
            let side = if trim.left { "left" } else { "right" };
            format!("{} off the {side} of {}", words.say(trim.amount), trim.width)
        })
        .collect();
    Some(format!("Trim {}, so that each is {across} across.", each.join(", ")))
}
