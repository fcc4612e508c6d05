//! Panels made of widths of goods joined side by side: the curtains of a window, the panels of a skirt.
//!
//! A panel is seen from the room, its widths in order from left to right. The right one of a pair begins at the middle
//! with its leading edge, and its widths follow to the wall; the left one is its mirror image. A half width stands at
//! the wall, its selvedge at the join, so the left panel takes the right-hand part of a width and the right panel the
//! left-hand part.
//!
//! Never here: how many widths a panel takes, where they lie on the goods.

use super::goods::Repeat;
use super::matching::Matching;
use crate::quantity::{Length, number};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// How panels are made of widths.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Panels {
    /// Size across one panel to its raw edges, after it is trimmed.
    pub across: Length,
    /// Seam allowance at each side of a join.
    pub allowance: Length,
    /// Whether a panel may hold a half width.
    pub halves: bool,
    /// Panels in one garment.
    pub count: i64,
    /// Whether they come in pairs, left and right.
    pub paired: bool,
    /// What happens to the pattern where the panels of a pair meet.
    pub middle: Middle,
    /// Half widths in one panel; zero until the goods are known.
    pub half_widths: i64,
    /// What each width joined at its side adds; zero until the goods are known.
    pub gained: Length,
}

/// What happens to the pattern where the two panels of a pair meet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Middle {
    /// The two leading widths stand level.
    #[default]
    Level,
    /// The pattern runs on from one panel into the other.
    RunsOn,
}

impl Middle {
    /// The words in recipes.
    pub(crate) const WORDS: [(&'static str, Self); 2] = [("level", Self::Level), ("run on", Self::RunsOn)];
}

/// A line across a panel.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct MatchLine {
    /// How far it lies from the edge.
    pub distance: Length,
    /// The edge it is measured from.
    pub edge: Edge,
}

/// An edge of a piece as it hangs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Edge {
    /// The lower one, where a length of goods is begun.
    Lower,
    /// The upper one.
    Upper,
}

impl Edge {
    /// The words in recipes.
    pub(crate) const WORDS: [(&'static str, Self); 2] = [("lower edge", Self::Lower), ("upper edge", Self::Upper)];
}

/// The widths of all panels of an order, and the lengths of goods, called drops, that they are cut as.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PanelLayout {
    /// Panel by panel.
    pub(crate) panels: Vec<Panel>,
    /// How many shifts of the pattern each drop starts on, by its number less one.
    pub(crate) drops: Vec<i64>,
    /// How many drops each garment takes; `None` if a drop serves two garments, or if not all start their drops alike.
    pub(crate) per_garment: Option<i64>,
}

impl PanelLayout {
    /// How many drops are cut for each garment, or for all of them where garments differ.
    pub(crate) fn count(&self) -> i64 {
        self.per_garment.unwrap_or(number::from_size(self.drops.len()))
    }

    /// Where on the pattern these drops start.
    pub(crate) fn matching(&self) -> Matching {
        Matching::Shifts(self.drops.iter().copied().take(number::count(self.count()).unwrap_or(0)).collect())
    }
}

/// One panel.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Panel {
    /// The garment it belongs to, from one.
    pub(crate) garment: i64,
    /// Which one of its garment it is.
    pub(crate) side: PanelSide,
    /// Its widths from left to right, seen from the room.
    pub(crate) widths: Vec<PanelWidth>,
}

/// Which panel of a garment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PanelSide {
    /// The left one of a pair.
    Left,
    /// The right one of a pair.
    Right,
    /// One that is not in a pair, by its number from one; zero if it is the only one.
    Single(i64),
}

/// A width, or half of one, in a panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct PanelWidth {
    /// The number of the drop it is, from one.
    pub(crate) drop: i64,
    /// How much of the drop.
    pub(crate) part: WidthPart,
}

/// How much of a drop a panel takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum WidthPart {
    /// All of it.
    Whole,
    /// The part at its left selvedge, right side up and its top away.
    LeftHand,
    /// The part at its right selvedge.
    RightHand,
}

impl WidthPart {
    /// The number of a part in the order across its drop.
    pub(crate) fn number(self) -> i64 {
        match self {
            Self::Whole | Self::LeftHand => 1,
            Self::RightHand => 2,
        }
    }
}

impl Panels {
    /// One panel of this size, whole widths, unpaired.
    pub(crate) fn new(across: Length) -> Self {
        Self {
            across,
            allowance: Length::ZERO,
            halves: false,
            count: 1,
            paired: false,
            middle: Middle::default(),
            half_widths: 0,
            gained: Length::ZERO,
        }
    }

    /// Size across a panel before it is trimmed, made of widths of this size.
    pub(crate) fn reach(&self, width: Length) -> Length {
        let joins = i32::try_from(self.half_widths.saturating_add(1) / 2 - 1).unwrap_or(i32::MAX);
        let last = if self.half_widths % 2 == 0 { width } else { width / 2.0 };
        self.gained * f64::from(joins.max(0)) + last
    }

    /// The widths of every panel. On a `repeat` only halves that start alike share a drop.
    pub(crate) fn layout(&self, garments: i64, repeat: Option<Repeat>) -> PanelLayout {
        let half_widths = self.half_widths;
        let mut drops = Drops { repeat, shifts: Vec::new(), open: BTreeMap::new(), shared: false };
        let mut panels = Vec::new();
        let mut running = 0;
        for garment in 1..=garments {
            for place in 0..self.count {
                let side = match (self.paired, place % 2) {
                    (true, 0) => PanelSide::Left,
                    (true, _) => PanelSide::Right,
                    (false, _) if self.count > 1 => PanelSide::Single(place + 1),
                    (false, _) => PanelSide::Single(0),
                };
                // Of panels without a left and a right, every other one has its half at the left, so that two share.
                let to_left = match side {
                    PanelSide::Left => true,
                    PanelSide::Right => false,
                    PanelSide::Single(_) => half_widths % 2 != 0 && running % 2 == 0,
                };
                running += 1;
                panels.push(Panel { garment, side, widths: self.widths(side, to_left, garment, &mut drops) });
            }
        }
        let per_garment = drops.per_garment(garments);
        PanelLayout { panels, drops: drops.shifts, per_garment }
    }

    /// The widths of one panel, whose half, if it has one, stands at its left or right end.
    fn widths(&self, side: PanelSide, to_left: bool, garment: i64, drops: &mut Drops) -> Vec<PanelWidth> {
        let whole = self.half_widths / 2;
        // In a pair whose pattern runs on, the left panel ends one width before the right one begins. A single half
        // width is cut from the same drop as its other half, so there it runs on by itself.
        let before = side == PanelSide::Left && self.middle == Middle::RunsOn && whole > 0;
        let shifts = |place: i64| if to_left { -place - i64::from(before) } else { place };
        // From the leading edge on, which a single panel has where its half does not stand.
        let whole_width = |place| PanelWidth { drop: drops.whole(shifts(place)), part: WidthPart::Whole };
        let mut widths: Vec<PanelWidth> = (0..whole).map(whole_width).collect();
        if self.half_widths % 2 != 0 {
            // One half beside nothing: its selvedge may stand at either side.
            let lone_run_on = whole == 0 && self.paired && self.middle == Middle::RunsOn;
            let part = if to_left == lone_run_on { WidthPart::LeftHand } else { WidthPart::RightHand };
            widths.push(PanelWidth { drop: drops.half(shifts(whole), part, garment), part });
        }
        if to_left {
            widths.reverse();
        }
        widths
    }
}

/// The drops so far.
struct Drops {
    repeat: Option<Repeat>,
    shifts: Vec<i64>,
    /// Drops with one part taken, by the part that is left and where they start on the pattern, with their garments.
    open: BTreeMap<(WidthPart, i64), Vec<(i64, i64)>>,
    /// Whether a drop serves two garments.
    shared: bool,
}

impl Drops {
    /// How many drops each garment takes, if all take as many that start alike.
    fn per_garment(&self, garments: i64) -> Option<i64> {
        let each = self.shifts.len() / number::count(garments).filter(|garments| *garments > 0)?;
        let starts: Vec<i64> = self.shifts.iter().map(|shifts| self.start(*shifts)).collect();
        let is_alike = starts.iter().zip(starts.iter().skip(each)).all(|(one, next)| one == next);
        (!self.shared && is_alike).then(|| number::from_size(each))
    }

    fn whole(&mut self, shifts: i64) -> i64 {
        self.shifts.push(shifts);
        i64::try_from(self.shifts.len()).unwrap_or(i64::MAX)
    }

    fn half(&mut self, shifts: i64, part: WidthPart, garment: i64) -> i64 {
        let other = if part == WidthPart::LeftHand { WidthPart::RightHand } else { WidthPart::LeftHand };
        let start = self.start(shifts);
        if let Some((drop, from)) = self.open.get_mut(&(part, start)).and_then(Vec::pop) {
            self.shared |= from != garment;
            return drop;
        }
        let drop = self.whole(shifts);
        self.open.entry((other, start)).or_default().push((drop, garment));
        drop
    }

    /// Where on the pattern a drop starts, in nanometres: the same for all on plain goods.
    fn start(&self, shifts: i64) -> i64 {
        let phase = self.repeat.map_or(0.0, |repeat| repeat.phase(shifts).steps());
        number::nearest_whole(phase).unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use WidthPart::{LeftHand, RightHand, Whole};

    fn pair(middle: Middle, half_widths: i64) -> Panels {
        Panels { count: 2, paired: true, middle, half_widths, ..Panels::new(Length::centimetres(229.0)) }
    }

    fn half_drop() -> Repeat {
        Repeat::half_drop(Length::centimetres(64.0))
    }

    fn widths(layout: &PanelLayout) -> Vec<Vec<(i64, WidthPart)>> {
        let panel = |panel: &Panel| panel.widths.iter().map(|width| (width.drop, width.part)).collect();
        layout.panels.iter().map(panel).collect()
    }

    /// Own drawing: the outer width of each curtain is half a repeat from its leading one, and the leading ones are
    /// level.
    #[test]
    fn a_pair_of_two_widths() {
        let level = pair(Middle::Level, 4).layout(1, Some(half_drop()));
        assert_eq!(widths(&level), [[(2, Whole), (1, Whole)], [(3, Whole), (4, Whole)]]);
        assert_eq!((level.drops.as_slice(), level.per_garment), ([0, -1, 0, 1].as_slice(), Some(4)));
        // Through the pair, from the left wall: -2, -1 | 0, 1.
        assert_eq!(pair(Middle::RunsOn, 4).layout(1, Some(half_drop())).drops, [-1, -2, 0, 1]);
    }

    /// One and a half widths: the outer halves are alike and share a drop, whose right-hand part goes to the left
    /// curtain. Running on, they are half a repeat apart and do not share.
    #[test]
    fn halves_share_a_drop_only_if_they_start_alike() {
        let level = pair(Middle::Level, 3).layout(1, Some(half_drop()));
        assert_eq!(widths(&level), [[(2, RightHand), (1, Whole)], [(3, Whole), (2, LeftHand)]]);
        assert_eq!(level.drops, [0, -1, 0]);
        let runs_on = pair(Middle::RunsOn, 3).layout(1, Some(half_drop()));
        assert_eq!(widths(&runs_on), [[(2, RightHand), (1, Whole)], [(3, Whole), (4, LeftHand)]]);
        assert_eq!(runs_on.drops, [-1, -2, 0, 1]);
        // On a shift of a third, the one to the left of the left curtain and to the right of the right one differ.
        let third = Repeat { along: Length::centimetres(60.0), shift: Length::centimetres(20.0) };
        assert_eq!(pair(Middle::Level, 3).layout(1, Some(third)).drops.len(), 4);
        // Plain cloth and a straight repeat share whatever runs on.
        assert_eq!(pair(Middle::RunsOn, 3).layout(1, None).drops.len(), 3);
        assert_eq!(pair(Middle::RunsOn, 3).layout(2, Some(Repeat::straight(Length::centimetres(9.0)))).drops.len(), 6);
    }

    #[test]
    fn two_and_a_half_widths_and_a_half_alone() {
        let level = pair(Middle::Level, 5).layout(1, Some(half_drop()));
        assert_eq!(level.drops, [0, -1, -2, 0, 1]);
        assert_eq!(widths(&level)[0], [(3, RightHand), (2, Whole), (1, Whole)]);
        assert_eq!(widths(&level)[1], [(4, Whole), (5, Whole), (3, LeftHand)]);
        let alone = pair(Middle::RunsOn, 1).layout(1, Some(half_drop()));
        assert_eq!(widths(&alone), [[(1, LeftHand)], [(1, RightHand)]]);
        let level = pair(Middle::Level, 1).layout(1, Some(half_drop()));
        assert_eq!(widths(&level), [[(1, RightHand)], [(1, LeftHand)]]);
    }

    /// Two single panels of one and a half: one has its half at the left, the other at the right, from one drop.
    #[test]
    fn single_panels_share_across_garments() {
        let single = Panels { half_widths: 3, ..Panels::new(Length::centimetres(150.0)) }.layout(2, Some(half_drop()));
        assert_eq!(widths(&single), [[(2, RightHand), (1, Whole)], [(3, Whole), (2, LeftHand)]]);
        assert_eq!((single.drops.len(), single.per_garment), (3, None));
        let skirt = Panels { half_widths: 6, ..Panels::new(Length::inches(82.0)) }.layout(2, Some(half_drop()));
        assert_eq!(skirt.drops, [0, 1, 2, 0, 1, 2]);
        assert_eq!(skirt.per_garment, Some(3));
    }

    /// On a shift of a third the half at the left of one panel and at the right of the next start differently, so the
    /// garments are not cut alike.
    #[test]
    fn garments_that_start_differently_are_listed_each() {
        let third = Repeat { along: Length::centimetres(60.0), shift: Length::centimetres(20.0) };
        let single = Panels { half_widths: 3, ..Panels::new(Length::centimetres(150.0)) }.layout(2, Some(third));
        assert_eq!((&single.drops[..], single.per_garment), (&[0, -1, 0, 1][..], None));
        assert_eq!(single.matching(), Matching::Shifts(vec![0, -1, 0, 1]));
    }

    /// Neighbours differ by one shift in every panel of every garment, as the drops are cut.
    #[test]
    fn neighbours_match() {
        for share in [2.0, 3.0, 4.0] {
            let repeat = Repeat { along: Length::centimetres(60.0), shift: Length::centimetres(60.0 / share) };
            for middle in [Middle::Level, Middle::RunsOn] {
                for (paired, count) in [(true, 2), (true, 4), (false, 1), (false, 3)] {
                    for half_widths in 1..9 {
                        let panels =
                            Panels { count, paired, middle, half_widths, ..Panels::new(Length::centimetres(229.0)) };
                        let layout = panels.layout(3, Some(repeat));
                        let cut = layout.matching();
                        let start = |width: &PanelWidth, on: i64| {
                            number::nearest_whole(repeat.phase(cut.shifts(width.drop) + on).steps())
                        };
                        for panel in &layout.panels {
                            for two in panel.widths.windows(2) {
                                assert_eq!(start(&two[0], 1), start(&two[1], 0), "{panels:?}: {layout:?}");
                            }
                        }
                    }
                }
            }
        }
    }
}
