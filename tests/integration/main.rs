//! The program as its layers meet in it, checked from outside, in one binary.
#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a check that fails stops where it stands"
)]

mod functions;
