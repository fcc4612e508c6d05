//! The program as its layers meet in it, checked from outside, in one binary.

mod functions;
