//! The only conversion from a piece's exact sizes to its cut sizes.

use super::lie::Grain;
use super::marks::{cut_size, mark_of};
use super::piece::{CutPiece, Piece};
use super::shape::Shape;
use super::sizes::{AtMark, Exact};
use crate::quantity::{Length, Style};

impl Piece<Exact> {
    /// The piece with cut sizes. `width` is the usable width of the goods: a size across the cloth that fits, but
    /// whose mark would be beyond the edge, is not rounded, because there is no more cloth.
    pub fn at_marks(&self, width: Option<Length>, style: &Style) -> CutPiece {
        let cut = |size: Length| cut_size(size, self.never_smaller, style);
        let on_cloth = |size: Length, lies_across: bool| {
            let is_beyond = |width: Length| lies_across && cut(size) > width && size <= width;
            if width.is_some_and(is_beyond) { size } else { cut(size) }
        };
        let shape = match &*self.shape {
            Shape::Rectangle { along, across } => {
                let turned = self.grain == Grain::Across;
                Shape::Rectangle { along: on_cloth(*along, turned), across: on_cloth(*across, !turned) }
            }
            Shape::FullWidth { along } => Shape::FullWidth { along: cut(*along) },
            drawn @ (Shape::Sector { .. } | Shape::Outline(_)) => drawn.clone(),
        };
        let mark = mark_of(self.shape.rectangle_round().along, style);
        self.resized(AtMark::new(shape, Some(mark)))
    }
}

impl CutPiece {
    /// Sets the mark that the room round the shape is rounded up to.
    #[must_use]
    pub fn with_mark(mut self, mark: Option<Length>) -> Self {
        self.shape = AtMark::new(Shape::clone(&self.shape), mark);
        self
    }
}
