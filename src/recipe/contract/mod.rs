//! What a recipe may say: its header, the inputs it declares, the words of the contract.

pub(in crate::recipe) mod arguments;
pub(in crate::recipe) mod header;
pub(in crate::recipe) mod input;
pub(in crate::recipe) mod input_kind;
pub(in crate::recipe) mod input_words;
pub(in crate::recipe) mod range;
pub(in crate::recipe) mod signatures;
pub mod words;
