//! Recipes: small scripts that state one garment's geometry and work, and the host they run in.
//!
//! A recipe is untrusted: it reaches its inputs, the function table and the workshop values it was
//! given, and nothing else. Never here: files, the terminal, formatting of tables, prices.

pub mod answers;
pub mod contract;
mod host;
pub mod library;
mod open_recipes;
mod opened;
pub mod proof;
mod protocol;
pub mod run;

pub use answers::answer::InputAnswer;
pub use answers::evaluate::Evaluate;
pub use answers::question::{Question, Usual};
pub use answers::questions::Questions;
pub use contract::header::Header;
pub use contract::input::Input;
pub use contract::input_kind::InputKind;
pub use contract::range::Range;
pub use library::{LoadedRecipe, RecipeText};
pub use open_recipes::OpenRecipes;
pub use proof::check::CheckReport;
pub use proof::examples::WorkedExample;
pub use protocol::{Description, PROTOCOL, Reply, Request, Task};
