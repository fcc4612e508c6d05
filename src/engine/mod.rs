//! The script host: literals, the function table, limits, and faults in a maker's words.
//!
//! It knows the trade's formulas through the function table alone, and knows nothing of recipes,
//! pages, files or the terminal. Only this folder and the host objects of `recipe` touch the script
//! engine's own types.

mod collections;
pub mod expression;
pub mod fault;
pub mod function;
pub mod functions;
pub mod help;
mod host;
pub mod limits;
pub mod line_tokens;
mod marks;
mod modules;
mod operators;
pub mod problem;
pub mod rewrite;
mod slips;
pub mod tokens;
pub mod value;

pub use expression::Expression;
pub use fault::Fault;
pub use host::{Host, Member, Script};
pub use problem::Problem;
pub use value::Value;
