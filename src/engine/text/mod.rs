//! What a person types, as tokens: a script or sum, and a line of a page, finished or not; and the rewriting of literals.
//!
//! Never here: compiling or evaluating.

pub(crate) mod decimal_comma;
mod line_context;
pub(crate) mod line_tokens;
pub mod rewrite;
pub mod tokens;
pub mod words;
