//! A page of named cells: what a typed line means, and what follows when one changes.
//!
//! Never here: files, the terminal, how an answer is drawn.

mod filter;
mod line;
pub mod objects;
mod page;

pub use filter::Filter;
pub use line::{Line, VERBS, read as read_line, split_answers};
pub use page::{Change, Page};
