//! Turns texts and values into a filled order: checks each answer against its input, and asks for what is missing.

pub(in crate::recipe) mod answer;
pub(in crate::recipe) mod answering;
pub(in crate::recipe) mod by_kind;
pub(crate) mod cloth_range;
pub(in crate::recipe) mod evaluate;
pub(in crate::recipe) mod explaining;
pub(in crate::recipe) mod filling;
pub(in crate::recipe) mod plausibility;
pub(crate) mod possible;
pub(in crate::recipe) mod question;
pub(crate) mod questions;
pub(in crate::recipe) mod refusal;
pub(in crate::recipe) mod size_row;
pub(in crate::recipe) mod unnamed_goods;
pub(in crate::recipe) mod washing;
pub(in crate::recipe) mod wearer;
