//! Types for the scanner of lines: where texts may begin, and what the end of a line is in.

/// Where a quotation mark begins a text. After a number it means inches or feet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quotes {
    /// Anywhere: sums and conditions.
    Anywhere,
    /// After `=`, inside brackets, and `"` around words: lines with recipe answers or file names. Any other
    /// apostrophe is just an apostrophe, and `//` is no comment.
    InAnswers,
}

/// What the end of a line is in: the place of the cursor while typing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum CursorContext {
    /// Names, numbers, signs.
    Code,
    /// A text.
    Text,
    /// A note, or a comment of a script.
    Comment,
}
