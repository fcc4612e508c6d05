//! Converts cloth to whole numbers for the solvers, and their solutions back to pieces on lengths.

pub(in crate::cutting) mod assemble;
pub(in crate::cutting) mod by_length;
pub(in crate::cutting) mod by_pattern;
pub(in crate::cutting) mod extent;
pub(in crate::cutting) mod item;
pub(in crate::cutting) mod layout;
pub(in crate::cutting) mod nested;
pub(in crate::cutting) mod offcuts;
pub(in crate::cutting) mod on_cloth;
pub(in crate::cutting) mod outline;
