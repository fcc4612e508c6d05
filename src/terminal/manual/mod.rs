//! The reference pages about the program itself, its man page and its shell completions.
//!
//! Text that a person wrote is in the `.md` files of this folder; lists are generated from the program's
//! tables. Never here: recipes and functions, which have their own page, and writing files.

mod pages;
mod shell;

use std::io;

/// Returns all files, each with its path in the reference folder.
///
/// # Errors
/// The man page cannot be made.
pub fn files() -> io::Result<Vec<(String, Vec<u8>)>> {
    let mut files: Vec<(String, Vec<u8>)> = pages::all().map(|(name, page)| (name, page.into_bytes())).collect();
    files.push((shell::MAN_PAGE.to_owned(), shell::man_page()?));
    files.extend(shell::completions());
    Ok(files)
}
