//! shirr: a calculation notebook in the terminal for people who cut and gather cloth to order.
#![allow(rustdoc::private_intra_doc_links, reason = "the docs are for us, and are built with what is private")]

pub mod body;
pub mod cutting;
pub mod diagnostic;
pub mod engine;
pub mod notebook;
pub mod piece;
pub mod plans;
pub mod present;
pub mod quantity;
pub mod recipe;
pub mod report;
pub mod table;
pub mod terminal;
pub mod textile;
pub mod ticket;
pub mod workshop;
