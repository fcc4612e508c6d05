//! Keeps a page on disk: in its own file, or, while it has no name, among the left pages in the state folder.
//! The whole page is written after each line that changes it.
//!
//! A file that another window or program changed in the meantime is never overwritten: the page is then kept
//! among the left pages until the person chooses one of the two.

use crate::terminal::disk::{self, Lock};
use crate::terminal::files::{self, FileProblem};
use sha2::{Digest, Sha256};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// The file of the page that is being worked on.
#[derive(Debug)]
pub(crate) struct PageFile {
    /// The folder for pages without a name; `None` if nothing can be remembered.
    left_folder: Option<PathBuf>,
    /// The file of a page without a name, or of a conflicting one, once it has been written.
    left: Option<LockedFile>,
    named: Option<Named>,
    /// The text of the page as the person last opened or saved it.
    pub(crate) saved: String,
}

#[derive(Debug)]
struct Named {
    path: PathBuf,
    /// The hash of the file as this window last read or wrote it.
    known: [u8; 32],
    /// Other windows that open the page find this lock.
    _lock: Option<Lock>,
    /// Whether another window or program changed the file.
    conflicting: bool,
}

/// A file in the state folder, locked while this window runs.
#[derive(Debug)]
struct LockedFile {
    path: PathBuf,
    _lock: Option<Lock>,
}

/// A page that was left without a name.
#[derive(Debug)]
pub(crate) struct LeftPage {
    path: PathBuf,
    lock: PathBuf,
    when: SystemTime,
}

/// The outcome of writing a page.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Written {
    /// The page is on the disk.
    Kept,
    /// There is no place to keep it.
    Nowhere,
    /// Another window or program changed the file: it was left alone, and the page is kept aside.
    Conflict(PathBuf),
}

fn hash_of(bytes: &[u8]) -> [u8; 32] {
    Sha256::digest(bytes).into()
}

impl PageFile {
    /// A page without a name.
    pub(crate) fn unnamed(state_folder: Option<&Path>) -> Self {
        Self {
            left_folder: state_folder.map(|folder| folder.join("pages")),
            left: None,
            named: None,
            saved: String::new(),
        }
    }

    /// The path of the page's own file, if it has a name.
    pub(crate) fn path(&self) -> Option<&Path> {
        self.named.as_ref().map(|named| named.path.as_path())
    }

    /// Reads a page and makes its file this page's own. Returns its text, and whether another window has it
    /// open.
    pub(crate) fn open(&mut self, path: &Path) -> Result<(String, bool), FileProblem> {
        let text = files::read(path)?;
        files::sweep(path);
        // Release this window's lock, so that a page that is opened again is not found locked.
        self.named = None;
        let lock = self.lock_of(path);
        let elsewhere = matches!(lock, Err(Busy));
        self.set_aside();
        let known = hash_of(text.as_bytes());
        self.named =
            Some(Named { path: path.to_path_buf(), known, _lock: lock.unwrap_or_default(), conflicting: false });
        self.saved.clone_from(&text);
        Ok((text, elsewhere))
    }

    /// Saves a page under a name, which must be free or its own.
    pub(crate) fn save_as(&mut self, path: &Path, text: &str) -> Result<(), FileProblem> {
        if self.path() != Some(path) || self.named.as_ref().is_some_and(|named| named.conflicting) {
            if path.exists() {
                return Err(FileProblem::Taken(path.to_path_buf()));
            }
            let lock = self.lock_of(path).unwrap_or_default();
            let written = files::replace(path, text.as_bytes());
            if is_in_place(&written) {
                let known = hash_of(text.as_bytes());
                self.named = Some(Named { path: path.to_path_buf(), known, _lock: lock, conflicting: false });
            }
            written?;
            self.forget_left();
        } else if let Written::Conflict(path) = self.keep(text)? {
            return Err(FileProblem::Changed(path));
        }
        text.clone_into(&mut self.saved);
        Ok(())
    }

    /// Gives the page's file another name, which must be free; returns the old path. A file that another window or
    /// program changed stays under the old name, and no path is returned.
    pub(crate) fn rename(&mut self, path: &Path, text: &str) -> Result<Option<PathBuf>, FileProblem> {
        let ours = self.named.as_ref().filter(|named| named.is_ours());
        let old = ours.map(|named| named.path.clone());
        self.save_as(path, text)?;
        if let Some(old) = old.as_ref().filter(|old| old.as_path() != path) {
            files::remove_old_name(old)?;
        }
        Ok(old)
    }

    /// Writes the page; keeps it aside if another window or program changed its file.
    pub(crate) fn keep(&mut self, text: &str) -> Result<Written, FileProblem> {
        let Some(named) = self.named.as_mut().filter(|named| !named.conflicting) else {
            return self.keep_left(text);
        };
        if !named.is_ours() {
            let path = named.path.clone();
            self.keep_left(text)?;
            // Only now: if it cannot be kept aside, the next line finds the conflict again and tells of it.
            if let Some(named) = &mut self.named {
                named.conflicting = true;
            }
            return Ok(Written::Conflict(path));
        }
        let written = files::replace(&named.path, text.as_bytes());
        if is_in_place(&written) {
            named.known = hash_of(text.as_bytes());
        }
        written.map(|()| Written::Kept)
    }

    fn keep_left(&mut self, text: &str) -> Result<Written, FileProblem> {
        let Some(folder) = &self.left_folder else { return Ok(Written::Nowhere) };
        if self.left.is_none() {
            self.left = Some(new_left(folder)?);
        }
        let Some(left) = &self.left else { return Ok(Written::Nowhere) };
        files::replace_private(&left.path, text.as_bytes())?;
        Ok(Written::Kept)
    }

    /// Releases the page without a name: it stays among the left ones.
    fn set_aside(&mut self) {
        self.left = None;
    }

    /// Deletes the page's copy among the left ones: it has a name now.
    fn forget_left(&mut self) {
        if let Some(left) = self.left.take() {
            // It may never have been written.
            let _gone = disk::remove(&left.path);
            let _unlocked = disk::remove(&left.path.with_extension("lock"));
        }
    }

    /// Makes a left page this window's page without a name; returns its text.
    pub(crate) fn take_up(&mut self, left: &LeftPage) -> Result<String, FileProblem> {
        let text = files::read(&left.path)?;
        self.named = None;
        self.set_aside();
        // Write the new file before the old one is deleted.
        self.keep_left(&text)?;
        let _gone = disk::remove(&left.path);
        let _unlocked = disk::remove(&left.lock);
        self.saved.clone_from(&text);
        Ok(text)
    }

    /// Returns the left pages that no window holds, the latest first.
    pub(crate) fn left_pages(&self) -> Vec<LeftPage> {
        let Some(folder) = &self.left_folder else { return Vec::new() };
        let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
        let mut left: Vec<LeftPage> = entries
            .filter_map(|entry| {
                let path = entry.ok()?.path();
                let is_page = path.extension().is_some_and(|end| end == "txt")
                    && path.file_name().is_some_and(|name| name.to_string_lossy().starts_with("left-"));
                let lock = path.with_extension("lock");
                let when = fs::metadata(&path).and_then(|metadata| metadata.modified()).ok()?;
                let own = self.left.as_ref().is_some_and(|left| left.path == path);
                (is_page && !own && locked(&lock).is_ok()).then_some(LeftPage { path, lock, when })
            })
            .collect();
        left.sort_by_key(|left| std::cmp::Reverse(left.when));
        left
    }

    /// Locks a page's file with a lock file in the state folder, so that nothing is put beside the page itself.
    fn lock_of(&self, path: &Path) -> Result<Option<Lock>, Busy> {
        let Some(folder) = &self.left_folder else { return Ok(None) };
        let whole = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
        let hash = hash_of(whole.to_string_lossy().as_bytes());
        let name: String = hash.iter().take(8).map(|byte| format!("{byte:02x}")).collect();
        if files::make_folders(folder).is_err() {
            return Ok(None);
        }
        locked(&folder.join(format!("open-{name}.lock")))
    }
}

impl Named {
    /// Whether the file is as this window last read or wrote it.
    fn is_ours(&self) -> bool {
        match files::read(&self.path) {
            Ok(on_disk) => !self.conflicting && hash_of(on_disk.as_bytes()) == self.known,
            // A file that is gone is written again: nothing is lost.
            Err(FileProblem::Missing(_)) => true,
            Err(_) => false,
        }
    }
}

impl LeftPage {
    /// The number of lines that are not blank.
    pub(crate) fn lines(&self) -> usize {
        let text = files::read(&self.path).unwrap_or_default();
        text.lines().filter(|line| !line.trim().is_empty()).count()
    }
}

/// Another process holds the lock.
struct Busy;

/// Locks a file until this process ends, however it ends; `None` if the system cannot lock it.
fn locked(path: &Path) -> Result<Option<Lock>, Busy> {
    match disk::lock(path) {
        Ok(Some(lock)) => Ok(Some(lock)),
        Ok(None) => Err(Busy),
        Err(_) => Ok(None),
    }
}

/// Whether a file has its new text, even if it may not outlast a power cut.
fn is_in_place(written: &Result<(), FileProblem>) -> bool {
    matches!(written, Ok(()) | Err(FileProblem::Unsure(..)))
}

fn new_left(folder: &Path) -> Result<LockedFile, FileProblem> {
    files::make_folders(folder)?;
    let process = std::process::id();
    for number in 1..1_000 {
        let path = folder.join(format!("left-{process}-{number}.txt"));
        if path.exists() {
            continue;
        }
        if let Ok(lock) = locked(&path.with_extension("lock")) {
            return Ok(LockedFile { path, _lock: lock });
        }
    }
    Err(FileProblem::Taken(folder.to_path_buf()))
}

#[cfg(test)]
mod tests;
