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
mod order;
mod pieces_picture;
mod plan_words;
mod question;
pub mod questions;
pub mod reference;
mod refusal;
pub mod run;
mod session;
mod size_row;
mod ticket_words;
mod unnamed_goods;
mod wearer;
pub mod words;
mod work_sheet;

pub use answer::{Answer, reads_expression};
pub use check::CheckReport;
pub use evaluate::Evaluate;
pub use examples::WorkedExample;
pub use header::Header;
pub use input::{Input, InputKind, Range};
pub use library::RecipeText;
pub use pieces_picture::drawn_pieces;
pub use question::{Question, Usual};
pub use questions::Questions;
pub use run::{Description, Reply, Request, Task};
pub use work_sheet::work_sheet;
