//! Integration tests in one binary: published sums, brute force, reference libraries, recipes.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    missing_docs,
    reason = "test code: a panic is a failed check, and clippy's exemption covers test functions alone"
)]

mod advice;
mod asked;
mod bill;
mod bodies;
mod circles;
mod command_line;
mod common;
mod complete;
mod corpus;
mod diagnostics;
mod exact_plans;
mod exact_search;
mod faults;
mod formulas;
mod functions;
mod furnishings;
mod hand_sessions;
mod hostile;
mod instances;
mod invariants;
mod kept;
mod keyboard;
mod layers;
mod manual;
mod open_recipes;
mod own_recipes;
mod own_workshop;
mod packed;
mod pages;
mod pictures;
mod proved;
mod recipe_branches;
mod recipe_inputs;
mod recipes;
mod reference;
mod sessions;
mod sewn;
mod sewn_in_order;
mod skirts;
mod sources;
mod strips;
mod strips_on_band;
mod tidy;
mod typed_cuts;
mod typed_lines;
mod typed_orders;
mod typed_pages;
mod typed_tables;
mod unharmed;
mod units;
mod verbs;
mod worked;
mod worked_formulas;
mod worker;
mod workshop_figures;
