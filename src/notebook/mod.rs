//! A page of named cells: what a typed line means, and what follows when one changes.
//!
//! Never here: files, the terminal, how an answer is drawn.

mod change;
mod compare;
mod condition;
mod edit;
mod filter;
mod formula;
mod graph;
pub mod help;
mod line;
mod listing;
mod objects;
mod order;
mod page;
pub mod tour;
mod value;
mod vary;
pub mod verbs;
mod working;
mod world;

pub use change::{CellChangeText, Change};
pub use compare::compare;
pub use edit::{Moved, order_line};
pub use filter::Filter;
pub use line::{Line, is_open, note_of, read as read_line, split_answers, statements, unquoted};
pub use objects::{TableObject, TicketObject, WORDS as MEMBERS, member, members_of, order_error, register};
pub use page::{Entered, Page, Tools};
pub use value::{for_recipe, shown as one_line};
pub use world::{NoWorld, Source, World};
