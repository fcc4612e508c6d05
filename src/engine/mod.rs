//! The script host: literals, the function table, limits, and errors in a maker's words.
//!
//! It knows the trade's formulas through the function table alone, and knows nothing of recipes,
//! pages, files or the terminal. Only this folder and the host objects of `recipe` touch the script
//! engine's own types.

mod collections;
mod common_mistakes;
pub(crate) mod expression;
pub mod function;
mod function_literals;
pub mod functions;
mod grammar;
pub mod help;
mod host;
pub mod limits;
mod lowering;
mod marks;
mod member;
mod modules;
mod notices;
mod operators;
mod read_script;
mod runs;
pub(crate) mod script_error;
mod sources;
pub mod text;
mod translate;
pub(crate) mod tree;
pub mod value;

pub use expression::Expression;
pub use host::Host;
pub(crate) use host::Script;
pub(crate) use member::Member;
pub(crate) use read_script::ReadScript;
pub(crate) use runs::Runs;
pub(crate) use script_error::ScriptError;
pub use value::Value;
