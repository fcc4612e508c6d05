//! Recipes: small scripts that state one garment's geometry and work, and the host they run in.
//!
//! A recipe is untrusted: it can reach its inputs, the function table and the workshop values given to it, and nothing
//! else. Never here: files, the terminal, formatting of tables, prices.

pub(crate) mod answers;
pub mod contract;
pub mod draft;
mod host;
pub mod library;
pub mod one_file;
mod open_recipes;
mod opened;
pub(crate) mod proof;
mod protocol;
pub mod run;

pub(crate) use answers::answer::InputAnswer;
pub(crate) use answers::cloth_range::ClothRange;
pub(crate) use answers::possible::Possible;
pub(crate) use answers::questions::Questions;
pub(crate) use answers::unnamed_goods::sums_in_goods;
pub use contract::input::Input;
pub use contract::input_kind::InputKind;
pub use contract::range::Range;
pub use library::{LoadedRecipe, RecipeText};
pub use open_recipes::OpenRecipes;
pub(crate) use proof::check::CheckReport;
pub(crate) use proof::examples::WorkedExample;
pub(crate) use proof::what_changed::{RecipeVersion, lines_changed, what_changed};
pub(crate) use protocol::Description;
pub use protocol::{PROTOCOL, Reply, Request, Task};
