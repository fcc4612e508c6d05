//! What the scanner of lines is told, and what it tells of the end of a line.

/// Where a quotation mark begins a text. Behind a number it is inches or feet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quotes {
    /// Anywhere: sums and conditions.
    Anywhere,
    /// Behind `=`, inside a bracket, and `"` around words: recipes with answers, names of files. An apostrophe
    /// elsewhere is one, and `//` is no comment.
    InAnswers,
}

/// What the end of a line stands in, where the cursor is while it is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum CursorContext {
    /// Names, numbers, signs.
    Code,
    /// A text.
    Text,
    /// A note, or a comment of a script.
    Comment,
}
