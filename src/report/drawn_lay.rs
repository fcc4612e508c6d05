//! What a picture of a lay is drawn from: lengths with the pieces on them.
//!
//! Never here: drawing; how the lay was found.

use crate::quantity::Length;

/// A length, or several that are cut alike.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnLength {
    /// Its mark, what it is and its lot.
    pub heading: String,
    /// How many are cut alike.
    pub times: i64,
    /// How long each is from mark 0.
    pub length: Length,
    /// How much of it, at most, lies before mark 0, where its pattern first starts as needed.
    pub lead: Length,
    /// From its start to the last cut.
    pub used: Length,
    /// How wide it is when opened.
    pub width: Length,
    /// Whether it is cut straight across, in full widths.
    pub roll: bool,
    /// Whether it is folded lengthwise.
    pub folded: bool,
    /// The pieces, in the order they are cut.
    pub cuts: Vec<DrawnCut>,
    /// What is left.
    pub rests: Vec<DrawnRest>,
    /// What is split or trimmed off the pieces afterwards and kept, along and across.
    pub off_pieces: Vec<(Length, Length)>,
}

/// A piece on the cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnCut {
    /// Its letter; empty if it has none.
    pub letter: String,
    /// What it is called.
    pub name: String,
    /// The order it is cut for.
    pub order: Option<String>,
    /// Its size.
    pub size: String,
    /// Mark along where it starts.
    pub from: Length,
    /// Mark along where it ends.
    pub to: Length,
    /// Mark across where it starts.
    pub across_from: Length,
    /// Mark across where it ends.
    pub across_to: Length,
    /// Its edge in closed lines of points, each along and across the length.
    pub lines: Vec<Vec<(Length, Length)>>,
    /// The direction that the piece's length runs in: along the length of cloth, and across it.
    pub along: (f64, f64),
    /// Its own size along and across; `None` across if it takes the full width.
    pub own_size: (Length, Option<Length>),
    /// Whether it has a way up, of its own or from the nap of the cloth.
    pub one_way: bool,
    /// The layers it is cut through.
    pub layers: DrawnLayers,
}

/// Layers of cloth that a cut goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrawnLayers {
    /// Single cloth, or one of two layers.
    One,
    /// Two layers at once.
    Both,
    /// Two layers, on the fold.
    Fold,
}

/// A rest beside or after the pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnRest {
    /// Mark along where it starts.
    pub from: Length,
    /// Mark along where it ends.
    pub to: Length,
    /// Mark across where it starts.
    pub across_from: Length,
    /// Mark across where it ends.
    pub across_to: Length,
    /// Whether it is worth keeping.
    pub kept: bool,
    /// How long it goes on the shelf.
    pub along: Length,
    /// How wide it goes on the shelf.
    pub across: Length,
    /// Whether it goes there unwashed, at its size before the wash that the pieces get first.
    pub unwashed: bool,
}
