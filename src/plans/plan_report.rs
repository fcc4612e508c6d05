//! A plan with the pieces and the goods it was made from, and how its amounts are shown.
//!
//! Never here: sentences and tables.

use crate::cutting::CuttingPlan;
use crate::piece::{CutPiece, Goods, PanelLayout};
use crate::quantity::{Length, Liked, Quantity, Style, Tape, Unit, number};
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
}

impl PlanReport<'_> {
    /// Whether the goods are cut straight across, in full widths.
    pub fn is_roll(&self) -> bool {
        self.goods.kind.takes_full_width()
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

    /// A length on the tape of the plan without its unit, to the nearest mark.
    pub(crate) fn bare(&self, length: Length) -> String {
        let unit = match self.tape {
            Tape::Inch => Unit::Inch,
            Tape::Metric => Unit::Centimetre,
        };
        let shown = self.words.show(length.liking(Liked::unit(unit)).into());
        let shown = shown.trim_start_matches("about ").trim_start_matches("≈ ");
        shown.strip_suffix(self.small()).map_or(shown, str::trim_end).to_owned()
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
        let (small, large) = match self.tape {
            Tape::Inch => (Unit::Inch, Unit::Yard),
            Tape::Metric => (Unit::Centimetre, Unit::Metre),
        };
        let long = Length::try_from(Quantity::of(2.0, large)).is_ok_and(|long| length >= long);
        self.say(length.liking(Liked::unit(if long { large } else { small })))
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
