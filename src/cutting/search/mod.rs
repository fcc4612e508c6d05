//! Searches for a layout: first fit, then every solver that the pieces allow; and the cost of a layout.

pub(in crate::cutting) mod bound;
pub(in crate::cutting) mod cost_model;
pub(in crate::cutting) mod first_fit;
pub(in crate::cutting) mod lay;
pub(in crate::cutting) mod making;
pub(in crate::cutting) mod planner;
pub(in crate::cutting) mod shelf_first;
