//! The task to plan, checked once: pieces, goods, lots, pins, lengths; and its bytes as a key.

pub(in crate::cutting) mod demand;
pub(in crate::cutting) mod join;
pub(in crate::cutting) mod lots;
pub(in crate::cutting) mod manner;
pub(in crate::cutting) mod pins;
pub(in crate::cutting) mod source;
pub(in crate::cutting) mod task_key;
