//! Every rule with a solution that breaks only this one, by the least there is, and one that just keeps it.

mod lengths;
mod polygons;
mod rectangles;
mod rows;
