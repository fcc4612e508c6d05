//! Entry points for benchmarks of the terminal: saving a page, pressing a key. The program uses neither.

use super::files;
use super::session::prompt::PageView;
use super::typing::hints::{HintLook, hint};
use crate::notebook::Page;
use crate::quantity::Style;
use std::path::Path;

/// Replaces and syncs a page's file, as a session does after each line.
///
/// # Errors
/// The file cannot be written; the message says why.
pub fn save(path: &Path, text: &str) -> Result<(), String> {
    files::replace(path, text.as_bytes()).map_err(|problem| problem.to_string())
}

/// Calls `body` with a closure that returns the hint for a line on a page, with the cursor at the end of the
/// line.
pub fn with_keys(page: Page, style: Style, body: impl FnOnce(&dyn Fn(&str) -> Option<String>)) {
    let seen = PageView::on(page, style);
    body(&|line| hint(line, line.len(), &seen, HintLook::Dim, 60));
}
