//! A plan with the pieces and the goods it was made from, and how its amounts are shown.
//!
//! Never here: sentences and tables.

use crate::cutting::{CuttingPlan, StockSource, StockUse};
use crate::piece::{CutPiece, Goods, PanelLayout, StockLength};
use crate::quantity::{Length, Liked, Quantity, Style, Tape, Unit, number, rounding};
use crate::textile::washing::Loss;

/// A plan and what it was made from.
#[derive(Clone, Copy, Debug)]
pub struct PlanReport<'a> {
    /// Name of the goods; `None` if there is only one kind.
    pub name: Option<&'a str>,
    /// The pieces, as the plan's entries index them.
    pub pieces: &'a [CutPiece],
    /// The widths of the panels that each of the pieces makes; one without an entry here makes none.
    pub(crate) panels: &'a [Option<PanelLayout>],
    /// The goods.
    pub goods: &'a Goods,
    /// The plan.
    pub plan: &'a CuttingPlan,
    /// A leftover at least this long is worth keeping; if `None`, every leftover over the full width is.
    pub keep_from: Option<Length>,
    /// What unwashed goods lose before they are laid, where they are washed first; the plan has the sizes after it.
    pub washed_first: Option<Loss>,
    /// The lengths on the shelf that the plan was made from.
    pub shelf: &'a [StockLength],
}

impl PlanReport<'_> {
    /// Whether the goods are cut straight across, in full widths.
    pub fn is_roll(&self) -> bool {
        self.goods.kind.takes_full_width()
    }

    /// Whether a length was washed before this order.
    pub(super) fn was_washed(&self, stock: &StockUse) -> bool {
        match stock.source {
            StockSource::Shelf { entry, .. } => self.shelf.get(entry).is_some_and(|length| length.washed),
            StockSource::New { .. } => false,
        }
    }

    /// What a length loses in the wash before it is laid.
    pub(super) fn loss_of(&self, stock: &StockUse) -> Loss {
        self.washed_first.filter(|_| !self.was_washed(stock)).unwrap_or(Loss::NONE)
    }

    /// Whether what is left beside pieces is worth keeping; it must be long enough both ways, because a long sliver is
    /// useless.
    pub(super) fn is_worth_keeping(&self, along: Length, across: Length) -> bool {
        self.keep_from.is_some_and(|least| along >= least && across >= least)
    }

    /// Whether the piece of an entry is laid on the pattern of its goods.
    pub(super) fn is_on_pattern(&self, entry: usize) -> bool {
        self.goods.repeat.is_some() && self.pieces.get(entry).is_some_and(|piece| piece.matching.is_some())
    }

    /// Whether the piece of an entry takes the full width of its goods.
    pub(super) fn takes_full_width(&self, entry: usize) -> bool {
        self.pieces.get(entry).is_some_and(|piece| piece.shape.is_full_width())
    }
}

/// How amounts are shown in sentences and columns.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PlanWords {
    /// For amounts inside a sentence.
    pub words: Style,
    /// The tape of every column of lengths.
    pub tape: Tape,
}

impl PlanWords {
    /// A length as shown in a sentence.
    pub(crate) fn say(&self, length: Length) -> String {
        self.words.show_on_tape(length.into())
    }

    /// A length at the nearest mark of the plan's tape. What lies between two marks is the difference of both at their
    /// marks, so that what stands on a sheet adds up.
    pub(super) fn at_mark(&self, length: Length) -> Length {
        let mark = match self.tape {
            Tape::Inch => self.words.inch_step.length(),
            Tape::Metric => Quantity::of(0.1, Unit::Centimetre),
        };
        let marked = rounding::cut(Quantity::from(length), mark, false).and_then(Length::try_from);
        marked.unwrap_or(length)
    }

    /// From one mark to another.
    pub(super) fn between(&self, from: Length, to: Length) -> Length {
        self.at_mark(to) - self.at_mark(from)
    }

    /// A length on the tape of the plan without its unit, to the nearest mark.
    pub(crate) fn bare(&self, length: Length) -> String {
        Style { tape: self.tape, ..self.words }.show_bare(length.into())
    }

    /// As [`bare`](Self::bare), with a word before a length that is between two marks.
    pub(super) fn bare_or_about(&self, length: Length) -> String {
        let bare = self.bare(length);
        let is_at_mark = number::is_near(self.at_mark(length).steps(), length.steps());
        if is_at_mark { bare } else { format!("about {bare}") }
    }

    /// A length without its unit, as the first of two: `0` in `0 to 35 cm`.
    pub(super) fn say_bare(&self, length: Length) -> String {
        let shown = self.say(length);
        match shown.rsplit_once(' ') {
            Some((figure, unit)) if unit == self.small() => figure.to_owned(),
            _ => shown,
        }
    }

    /// The unit of cut sizes and marks.
    pub(crate) fn small(&self) -> &'static str {
        match self.tape {
            Tape::Inch => "in",
            Tape::Metric => "cm",
        }
    }

    /// Shows short lengths in the small unit of the tape, and lengths of two large units or more in the large one.
    pub(crate) fn say_long(&self, length: Length) -> String {
        self.say_part(length, length)
    }

    /// Shows a part of a length in the unit that the whole is shown in.
    pub(crate) fn say_part(&self, part: Length, whole: Length) -> String {
        let (small, large) = match self.tape {
            Tape::Inch => (Unit::Inch, Unit::Yard),
            Tape::Metric => (Unit::Centimetre, Unit::Metre),
        };
        let long = Length::try_from(Quantity::of(2.0, large)).is_ok_and(|long| whole >= long);
        self.say(part.liking(Liked::unit(if long { large } else { small })))
    }

    /// Shows tenths of a per cent as per cent.
    pub(super) fn per_cent(&self, tenths: f64) -> String {
        format!("{} %", self.words.show_number(tenths / 10.0))
    }
}

/// A share in tenths of a per cent, rounded up so that it is never too small.
pub(super) fn tenths_up(share: f64) -> f64 {
    (number::snapped(share.max(0.0) * 1000.0)).ceil()
}
