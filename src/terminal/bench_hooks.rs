//! What the benchmarks measure of the terminal: a page saved, a key pressed. The program calls neither.

use super::files;
use super::session::prompt::PageView;
use super::typing::hints::{HintLook, hint};
use crate::notebook::Page;
use crate::quantity::Style;
use std::path::Path;

/// Replaces a page's file, synced, as after each line.
///
/// # Errors
/// What kept it from being written, in words.
pub fn save(path: &Path, text: &str) -> Result<(), String> {
    files::replace(path, text.as_bytes()).map_err(|problem| problem.to_string())
}

/// Hands `body` a closure that tells the hint for a line whose end has the cursor, on a page.
pub fn with_keys(page: Page, style: Style, body: impl FnOnce(&dyn Fn(&str) -> Option<String>)) {
    let seen = PageView::on(page, style);
    body(&|line| hint(line, line.len(), &seen, HintLook::Dim, 60));
}
