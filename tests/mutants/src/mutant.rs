//! One break: where it stands, what stands there instead, and how it is switched on.

use std::fmt;
use std::ops::Range;

/// How a break is written beside what it breaks, so that a number can choose between the two.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shape {
    /// An expression, or another one in its place.
    Expression,
    /// A statement, or none.
    Statement,
    /// Words put in where the place begins, with [`SWITCH`] for the question whether the break is on.
    Insertion,
    /// A constant of this name: its uses read a copy with the break.
    Constant(String),
    /// A line of a recipe or helper file of this name.
    Script(String),
}

/// What stands in an insertion for the question whether its break is on.
pub const SWITCH: &str = "\0";

/// A small place of a file and what stands there when it is broken.
#[derive(Clone, Debug)]
pub struct Mutant {
    /// The file, from the root of the repository.
    pub file: String,
    /// The bytes that give way; for a constant those inside the whole item.
    pub place: Range<usize>,
    /// What stands there instead.
    pub instead: String,
    /// How it is written.
    pub shape: Shape,
    /// What is done, such as “+ to -”.
    pub kind: String,
    /// The line, counted from 1.
    pub line: usize,
    /// The text of that line.
    pub words: String,
}

impl Mutant {
    /// A break of `text` at `place`.
    pub fn new(file: &str, text: &str, place: Range<usize>, instead: String, shape: Shape, kind: &str) -> Self {
        let before = &text[..place.start];
        let line = before.matches('\n').count() + 1;
        let begins = before.rfind('\n').map_or(0, |at| at + 1);
        let ends = text[begins..].find('\n').map_or(text.len(), |at| begins + at);
        let words = text[begins..ends].split_whitespace().collect::<Vec<_>>().join(" ");
        Self { file: file.to_owned(), place, instead, shape, kind: kind.to_owned(), line, words }
    }

    /// What it is called in the list of those known, where lines may move.
    pub fn name(&self) -> String {
        format!("{}  {}  | {}", self.file, self.kind, self.words)
    }

    /// The folder under `src`, or the member or the folder of recipes.
    pub fn layer(&self) -> &str {
        let inner = self.file.strip_prefix("src/").unwrap_or(&self.file);
        inner.split_once('/').map_or("main", |(folder, _)| folder)
    }
}

impl fmt::Display for Mutant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}  {}  | {}", self.file, self.line, self.kind, self.words)
    }
}
