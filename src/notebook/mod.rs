//! A page of named cells: parses typed lines, and recomputes what a change affects.
//!
//! Never here: file access, the terminal, the display of results.

mod change;
mod compare;
mod condition;
mod edit;
mod filter;
mod formula;
mod graph;
pub(crate) mod help;
mod help_words;
mod line;
mod listing;
mod objects;
mod order;
mod page;
pub(crate) mod tour;
mod value;
mod vary;
pub mod verbs;
mod working;
mod world;

pub(crate) use change::{CellChangeText, Change};
pub use compare::compare;
pub(crate) use edit::{StepResult, order_line};
pub use line::{Line, is_open, read as read_line, split_answers, statements};
pub(crate) use line::{last_answer, note_of};
pub(crate) use objects::{MaterialObject, TableObject, TicketObject, WORDS as MEMBERS, member, members_of, register};
pub(crate) use page::Entered;
pub use page::{Page, Tools};
pub(crate) use value::for_recipe;
pub use value::shown as one_line;
pub use world::NoWorld;
pub(crate) use world::{Source, World};
