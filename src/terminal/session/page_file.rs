//! Keeps a page on disk: in its own file, or, while it has no name, among the left pages in the state folder.
//! The whole page is written after each line that changes it.
//!
//! A file that another window or program changed in the meantime is never overwritten: the page is then kept
//! among the left pages until the person chooses one of the two.

use crate::terminal::files::{self, FileProblem};
use sha2::{Digest, Sha256};
use std::fs::{self, File, TryLockError};
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
    _lock: Option<File>,
    /// Whether another window or program changed the file.
    conflicting: bool,
}

/// A file in the state folder, locked while this window runs.
#[derive(Debug)]
struct LockedFile {
    path: PathBuf,
    _lock: Option<File>,
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

/// Maximum number of left pages that are kept; older ones are deleted.
const MOST_LEFT: usize = 20;

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
            files::replace(path, text.as_bytes())?;
            let known = hash_of(text.as_bytes());
            self.named = Some(Named { path: path.to_path_buf(), known, _lock: lock, conflicting: false });
            self.forget_left();
        } else {
            self.keep(text)?;
        }
        text.clone_into(&mut self.saved);
        Ok(())
    }

    /// Gives the page's file another name, which must be free; returns the old path.
    pub(crate) fn rename(&mut self, path: &Path, text: &str) -> Result<Option<PathBuf>, FileProblem> {
        let old = self.path().map(Path::to_path_buf);
        self.save_as(path, text)?;
        if let Some(old) = old.as_ref().filter(|old| old.as_path() != path) {
            fs::remove_file(old).map_err(|error| FileProblem::Write(old.clone(), error))?;
        }
        Ok(old)
    }

    /// Writes the page; keeps it aside if another window or program changed its file.
    pub(crate) fn keep(&mut self, text: &str) -> Result<Written, FileProblem> {
        let Some(named) = self.named.as_mut().filter(|named| !named.conflicting) else {
            return self.keep_left(text);
        };
        let on_disk = files::read(&named.path);
        let ours = match &on_disk {
            Ok(on_disk) => hash_of(on_disk.as_bytes()) == named.known,
            // A file that is gone is written again: nothing is lost.
            Err(FileProblem::Missing(_)) => true,
            Err(_) => false,
        };
        if !ours {
            named.conflicting = true;
            let path = named.path.clone();
            self.keep_left(text)?;
            return Ok(Written::Conflict(path));
        }
        files::replace(&named.path, text.as_bytes())?;
        named.known = hash_of(text.as_bytes());
        Ok(Written::Kept)
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
            let _gone = fs::remove_file(&left.path);
            let _unlocked = fs::remove_file(left.path.with_extension("lock"));
        }
    }

    /// Makes a left page this window's page without a name; returns its text.
    pub(crate) fn take_up(&mut self, left: &LeftPage) -> Result<String, FileProblem> {
        let text = files::read(&left.path)?;
        self.named = None;
        self.set_aside();
        // Write the new file before the old one is deleted.
        self.keep_left(&text)?;
        let _gone = fs::remove_file(&left.path);
        let _unlocked = fs::remove_file(&left.lock);
        self.saved.clone_from(&text);
        Ok(text)
    }

    /// Returns the left pages that no window holds, the latest first. Deletes those beyond [`MOST_LEFT`].
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
                (is_page && !own && try_lock(&lock).is_ok()).then_some(LeftPage { path, lock, when })
            })
            .collect();
        left.sort_by_key(|left| std::cmp::Reverse(left.when));
        for old in left.iter().skip(MOST_LEFT) {
            let _gone = fs::remove_file(&old.path);
            let _unlocked = fs::remove_file(&old.lock);
        }
        left.truncate(MOST_LEFT);
        left
    }

    /// Locks a page's file with a lock file in the state folder, so that nothing is put beside the page itself.
    fn lock_of(&self, path: &Path) -> Result<Option<File>, Busy> {
        let Some(folder) = &self.left_folder else { return Ok(None) };
        let whole = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
        let hash = hash_of(whole.to_string_lossy().as_bytes());
        let name: String = hash.iter().take(8).map(|byte| format!("{byte:02x}")).collect();
        if fs::create_dir_all(folder).is_err() {
            return Ok(None);
        }
        try_lock(&folder.join(format!("open-{name}.lock")))
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
fn try_lock(path: &Path) -> Result<Option<File>, Busy> {
    let Ok(file) = File::options().create(true).truncate(false).write(true).open(path) else { return Ok(None) };
    match file.try_lock() {
        Ok(()) => Ok(Some(file)),
        Err(TryLockError::WouldBlock) => Err(Busy),
        Err(TryLockError::Error(_)) => Ok(None),
    }
}

fn new_left(folder: &Path) -> Result<LockedFile, FileProblem> {
    fs::create_dir_all(folder).map_err(|error| FileProblem::Write(folder.to_path_buf(), error))?;
    let process = std::process::id();
    for number in 1..1_000 {
        let path = folder.join(format!("left-{process}-{number}.txt"));
        if path.exists() {
            continue;
        }
        if let Ok(lock) = try_lock(&path.with_extension("lock")) {
            return Ok(LockedFile { path, _lock: lock });
        }
    }
    Err(FileProblem::Taken(folder.to_path_buf()))
}
