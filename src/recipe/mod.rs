//! Recipes: small scripts that state one garment's geometry and work, and the host they run in.
//!
//! A recipe is untrusted: it reaches its inputs, the function table and the workshop values it was
//! given, and nothing else. Never here: files, the terminal, formatting of tables, prices.

mod answer;
mod answering;
mod arguments;
pub mod check;
mod corners;
mod doubts;
mod evaluate;
pub mod examples;
mod explaining;
mod filling;
mod gathers;
mod goods_used;
mod header;
mod input;
mod input_words;
pub mod library;
mod material_words;
mod open_recipes;
mod opened;
mod order;
mod plan_words;
mod protocol;
mod question;
pub mod questions;
mod refusal;
pub mod run;
mod session;
mod size_row;
mod ticket_words;
mod unnamed_goods;
mod wearer;
pub mod words;

pub use answer::{Answer, reads_expression};
pub use check::CheckReport;
pub use evaluate::Evaluate;
pub use examples::WorkedExample;
pub use header::Header;
pub use input::{Input, InputKind, Range};
pub use library::{LoadedRecipe, RecipeText};
pub use open_recipes::OpenRecipes;
pub use protocol::{Description, PROTOCOL, Reply, Request, Task};
pub use question::{Question, Usual};
pub use questions::Questions;
