//! A session: lines typed or piped in, what they do to a page, and where the page is kept.

mod asking;
mod folder_pages;
pub(crate) mod lines;
mod page_file;
mod page_verbs;
pub(crate) mod prompt;
mod world;
