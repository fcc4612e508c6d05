//! The words for a running script: the order, the ticket, materials, the plan.

pub(in crate::recipe) mod gathers;
pub(in crate::recipe) mod material_words;
pub(in crate::recipe) mod order;
pub(in crate::recipe) mod plan_words;
pub(in crate::recipe) mod session;
pub(in crate::recipe) mod ticket_words;
