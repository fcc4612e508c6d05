//! A session: lines typed or piped in, what they do to a page, and where the page is kept.

pub(crate) mod asking;
pub(crate) mod folder_pages;
pub(crate) mod lines;
mod page_file;
pub(crate) mod prompt;
mod world;
