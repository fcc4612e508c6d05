//! What a picture of a lay is drawn from: lengths with the pieces that lie on them.
//!
//! Never here: drawing; how it came about.

use crate::quantity::Length;

/// A length, or several that are cut alike.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnLength {
    /// Its mark, what it is and its lot.
    pub heading: String,
    /// How many are cut alike.
    pub times: i64,
    /// How long each is.
    pub length: Length,
    /// From its start to the last cut.
    pub used: Length,
    /// How wide it is, opened.
    pub width: Length,
    /// It is cut straight across, in full widths.
    pub roll: bool,
    /// It is folded lengthwise.
    pub folded: bool,
    /// The pieces, in the order they are cut.
    pub cuts: Vec<DrawnCut>,
    /// What is left.
    pub rests: Vec<DrawnRest>,
}

/// A piece as it lies.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnCut {
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
    /// Its edge in closed lines, each place along and across the length.
    pub lines: Vec<Vec<(Length, Length)>>,
    /// Which way along the piece runs: how much along the length, how much across it.
    pub along: (f64, f64),
    /// A place inside it for its name.
    pub middle: (Length, Length),
    /// How much of it lies to each side of that place, along the piece and across it.
    pub room: (Length, Length),
    /// Through which layers it is cut.
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

/// What is left beside or behind the pieces.
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
    /// It is worth keeping.
    pub kept: bool,
    /// Its size.
    pub size: String,
}
