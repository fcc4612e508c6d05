//! Files on disk: read whole up to a limit, replaced whole or not at all.

use super::disk::{self, NewFile, Readers};
use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::report::plain_text::is_unseen;
use std::fmt;
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// Maximum size in bytes of a page or workshop file.
pub(super) const MOST_BYTES: u64 = 4 << 20;

/// Maximum size in bytes of a recipe or helper file: ten times the longest that is shipped.
pub(super) const MOST_RECIPE_BYTES: u64 = 256 << 10;

/// The time of a file's last change and its length in bytes; `None` if there is no file.
pub(super) type Stamp = Option<(SystemTime, u64)>;

/// The current stamp of a file.
pub(super) fn stamp(path: &Path) -> Stamp {
    let metadata = fs::metadata(path).ok()?;
    Some((metadata.modified().ok()?, metadata.len()))
}

/// Why a file cannot be read or written.
#[derive(Debug)]
pub(super) enum FileProblem {
    Missing(PathBuf),
    Folder(PathBuf),
    NotPlain(PathBuf),
    /// A file holds so many bytes; so many it may hold.
    TooLarge(PathBuf, u64, u64),
    Taken(PathBuf),
    NotText(PathBuf),
    Read(PathBuf, io::Error),
    Write(PathBuf, io::Error),
    /// A file of several cannot be written, after some were replaced: how many of how many.
    Partly(PathBuf, usize, usize, io::Error),
    /// Everything is in its place in this folder, but may not outlast a power cut.
    Unsure(PathBuf, io::Error),
    /// A file of an earlier run cannot be removed.
    Left(PathBuf, io::Error),
    /// The file under the old name of a page cannot be removed.
    OldName(PathBuf, io::Error),
    /// Another window or program changed the file of a page.
    Changed(PathBuf),
}

impl fmt::Display for FileProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing(path) => write!(f, "there is no file {}", path.display()),
            Self::Folder(path) => write!(f, "{} is a folder, not a file", path.display()),
            Self::Taken(path) => {
                write!(
                    f,
                    "there is a file {} already\n  give another name; a file is never written over",
                    path.display()
                )
            }
            Self::NotPlain(path) => write!(f, "{} is not an ordinary file", path.display()),
            Self::TooLarge(path, bytes, most) => {
                let told = |bytes: u64| {
                    if bytes < 1 << 20 {
                        format!("{} kB", bytes.div_ceil(1 << 10))
                    } else {
                        format!("{} MB", bytes.div_ceil(1 << 20))
                    }
                };
                let (path, bytes, most) = (path.display(), told(*bytes), told(*most));
                write!(f, "{path} holds {bytes}; a file that is read here may hold {most}")
            }
            Self::NotText(path) => {
                write!(f, "{} is not plain text (UTF-8); save it as plain text, not as a document", path.display())
            }
            Self::Read(path, error) => write!(f, "{} cannot be read: {}", path.display(), reason(error)),
            Self::Write(path, error) => write!(f, "{} cannot be written: {}", path.display(), reason(error)),
            Self::Partly(path, done, all, error) => write!(
                f,
                "{} cannot be written: {}\n  {done} of {all} files are new, the others are as they were; write them again before you use any",
                path.display(),
                reason(error)
            ),
            Self::Unsure(folder, error) => write!(
                f,
                "what is new in {} may be lost in a power cut: {}\n  it is written; write it again once that is mended",
                folder.display(),
                reason(error)
            ),
            Self::OldName(path, error) => write!(
                f,
                "the page has its new name, but {} cannot be removed: {}\n  remove it by hand",
                path.display(),
                reason(error)
            ),
            Self::Changed(path) => write!(
                f,
                "{} was changed by another window or program and was left alone\n  open it to go on with theirs, or save this page under another name; until then it is kept aside",
                path.display()
            ),
            Self::Left(path, error) => write!(
                f,
                "{} is of an earlier run and cannot be removed: {}\n  everything else there is new; remove it by hand",
                path.display(),
                reason(error)
            ),
        }
    }
}

impl From<FileProblem> for Diagnostic {
    fn from(problem: FileProblem) -> Self {
        Self::new(problem.to_string()).of_kind(DiagnosticKind::System)
    }
}

/// The system's error in plain words.
pub(super) fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "it is not there".to_owned(),
        io::ErrorKind::PermissionDenied => "it is not allowed".to_owned(),
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => "the disk is full".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "the folder is read-only".to_owned(),
        io::ErrorKind::NotADirectory => "a file stands where its folder should be".to_owned(),
        io::ErrorKind::AlreadyExists => "something of that name is there already".to_owned(),
        _ => {
            let message = error.to_string();
            message.split(" (os error").next().unwrap_or(&message).to_lowercase()
        }
    }
}

/// Reads a text file.
pub(super) fn read(path: &Path) -> Result<String, FileProblem> {
    read_up_to(path, MOST_BYTES)
}

/// Reads the file of a recipe.
pub(super) fn read_recipe(path: &Path) -> Result<String, FileProblem> {
    read_up_to(path, MOST_RECIPE_BYTES)
}

fn read_up_to(path: &Path, most: u64) -> Result<String, FileProblem> {
    let owned = || path.to_path_buf();
    let metadata = fs::metadata(path).map_err(|error| match error.kind() {
        io::ErrorKind::NotFound => FileProblem::Missing(owned()),
        _ => FileProblem::Read(owned(), error),
    })?;
    if metadata.is_dir() {
        return Err(FileProblem::Folder(owned()));
    }
    if !metadata.is_file() {
        return Err(FileProblem::NotPlain(owned()));
    }
    if metadata.len() > most {
        return Err(FileProblem::TooLarge(owned(), metadata.len(), most));
    }
    let mut bytes = Vec::new();
    let file = fs::File::open(path).map_err(|error| FileProblem::Read(owned(), error))?;
    // The file may grow after its size was checked.
    file.take(most + 1).read_to_end(&mut bytes).map_err(|error| FileProblem::Read(owned(), error))?;
    if bytes.len() > usize::try_from(most).unwrap_or(usize::MAX) {
        return Err(FileProblem::TooLarge(owned(), most + 1, most));
    }
    String::from_utf8(bytes).map_err(|_| FileProblem::NotText(owned()))
}

/// The names in a folder that begin with `typed`, sorted, at most `most`; a folder ends with `/`. Hidden files
/// are listed only if the dot was typed, and those with characters that a terminal would act on never. A folder that cannot
/// be read has no names.
pub(super) fn names_from(here: &Path, typed: &str, most: usize) -> Vec<String> {
    let (folder, begins) = typed.split_at(typed.rfind('/').map_or(0, |at| at + 1));
    let Ok(entries) = fs::read_dir(here.join(folder)) else { return Vec::new() };
    let mut names: Vec<String> = entries
        .filter_map(|entry| {
            let entry = entry.ok()?;
            let name = entry.file_name().into_string().ok()?;
            let is_listed = begins.starts_with('.') || !name.starts_with('.');
            let shown = name.starts_with(begins) && is_listed && !name.chars().any(is_unseen);
            let end = if shown && entry.path().is_dir() { "/" } else { "" };
            shown.then(|| format!("{folder}{name}{end}"))
        })
        .collect();
    names.sort();
    names.truncate(most);
    names
}

/// Replaces several files of one folder: all new texts are on the disk before the first old one is replaced.
pub(super) fn replace_all(folder: &Path, files: &[(String, Vec<u8>)]) -> Result<(), FileProblem> {
    put(folder, &in_folder(folder, files), Readers::Usual, Over::Earlier)
}

/// Makes several files of one folder: all texts are on the disk before the first is there under its name. If a file of
/// one of the names is there, or one cannot be made, none is made.
pub(super) fn create_all(folder: &Path, files: &[(String, Vec<u8>)]) -> Result<(), FileProblem> {
    put(folder, &in_folder(folder, files), Readers::Usual, Over::Nothing)
}

fn in_folder<'b>(folder: &Path, files: &'b [(String, Vec<u8>)]) -> Vec<(PathBuf, &'b [u8])> {
    files.iter().map(|(name, bytes)| (folder.join(name), bytes.as_slice())).collect()
}

/// Checks that files can be made in a folder; of one that is not there, in the nearest above it that is.
pub(super) fn check_room(folder: &Path) -> Result<(), FileProblem> {
    let there = folder.ancestors().find(|folder| folder.exists()).unwrap_or(folder);
    NewFile::create(there, ".room.", Readers::OwnerAlone)
        .and_then(NewFile::remove)
        .map_err(|error| FileProblem::Write(folder.to_path_buf(), error))
}

/// Removes files of a folder, the last first; those that are not there are gone already. Each is gone for good before the
/// next, so that of pages that are counted the first ones are there at any time, and the next run finds them.
pub(super) fn remove_all(folder: &Path, names: &[String]) -> Result<(), FileProblem> {
    for path in names.iter().rev().map(|name| folder.join(name)) {
        match disk::remove(&path) {
            Ok(()) => sync_folder(folder)?,
            Err(error) if error.kind() == io::ErrorKind::NotFound => {}
            Err(error) => return Err(FileProblem::Left(path, error)),
        }
    }
    Ok(())
}

/// How long after its last change a hidden file beside a place counts as left by a run that was ended: no write takes
/// as long.
const ABANDONED: Duration = Duration::from_mins(10);

/// The letters behind the name of a file in the name of the hidden file that is written beside it.
const RANDOM_LETTERS: usize = 6;

/// Removes the hidden files that earlier runs left beside a file when they were ended while they wrote it.
pub(super) fn sweep(path: &Path) {
    let Some(name) = path.file_name().map(|name| name.to_string_lossy().into_owned()) else { return };
    let prefix = hidden_prefix(&name);
    let folder = folder_of(path);
    for hidden in names_from(folder, &prefix, usize::MAX) {
        let random = hidden.strip_prefix(&prefix).unwrap_or_default();
        let is_random = random.len() == RANDOM_LETTERS && random.chars().all(|c| c.is_ascii_alphanumeric());
        let hidden = folder.join(&hidden);
        let changed = fs::metadata(&hidden).and_then(|metadata| metadata.modified()).ok();
        let is_old = changed.and_then(|changed| changed.elapsed().ok()).is_some_and(|since| since > ABANDONED);
        if is_random && is_old {
            // It is in nobody's way.
            let _removed = disk::remove(&hidden);
        }
    }
}

/// What the name of the hidden file begins with that is written beside a file.
fn hidden_prefix(name: &str) -> String {
    format!(".{name}.")
}

/// Removes the file under the old name of a page that has a new one.
pub(super) fn remove_old_name(path: &Path) -> Result<(), FileProblem> {
    match disk::remove(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(FileProblem::OldName(path.to_path_buf(), error)),
        _ => sync_folder(folder_of(path)),
    }
}

/// Makes a folder and those above it that are not there.
pub(super) fn make_folders(folder: &Path) -> Result<(), FileProblem> {
    make_folders_noting(folder, &mut Vec::new())
}

/// Replaces one file; for a link, the file it leads to.
pub(super) fn replace(path: &Path, bytes: &[u8]) -> Result<(), FileProblem> {
    replace_one(path, bytes, Readers::Usual)
}

/// Replaces one file of the state folder, which only the user may read.
pub(super) fn replace_private(path: &Path, bytes: &[u8]) -> Result<(), FileProblem> {
    replace_one(path, bytes, Readers::OwnerAlone)
}

fn replace_one(path: &Path, bytes: &[u8], readers: Readers) -> Result<(), FileProblem> {
    let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    put(folder_of(&path), &[(path.clone(), bytes)], readers, Over::Earlier)
}

/// The folder that a file is in.
fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// What a new file may take the place of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Over {
    /// An earlier file of the name.
    Earlier,
    /// Nothing: a file of the name is an error.
    Nothing,
}

/// Puts files in their places. If none could be put there, the folders that were made for them are removed again.
fn put(folder: &Path, files: &[(PathBuf, &[u8])], readers: Readers, over: Over) -> Result<(), FileProblem> {
    let mut made = Vec::new();
    let put = files
        .iter()
        .map(|(path, _)| folder_of(path))
        .chain([folder])
        .try_for_each(|inside| make_folders_noting(inside, &mut made))
        .and_then(|()| write_aside(files, readers, over))
        .and_then(|written| match over {
            Over::Earlier => rename_over(written),
            Over::Nothing => rename_to_free(written),
        });
    if put.is_err() {
        for folder in made.iter().rev() {
            // One that something was put into stays.
            let _removed = disk::remove_folder(folder);
        }
    }
    put
}

/// Makes a folder and those above it that are not there, and notes which it made.
fn make_folders_noting(folder: &Path, made: &mut Vec<PathBuf>) -> Result<(), FileProblem> {
    let problem = |error| FileProblem::Write(folder.to_path_buf(), error);
    let above = folder.ancestors().take_while(|above| !above.as_os_str().is_empty() && !above.is_dir());
    let mut missing: Vec<&Path> = above.collect();
    // Where a file stands in the way, the folder below it says so.
    if missing.len() > 1 && missing.last().is_some_and(|top| top.exists()) {
        missing.pop();
    }
    for path in missing.into_iter().rev() {
        match disk::make_folder(path) {
            Ok(()) => made.push(path.to_path_buf()),
            // Another window made it just now.
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists && path.is_dir() => {}
            Err(error) => return Err(problem(error)),
        }
        // Without this a power cut may take the folder, and with it all that is saved in it.
        try_sync_folder(folder_of(path)).map_err(problem)?;
    }
    Ok(())
}

/// Writes each text to a hidden file beside its place. On an error, those written before remove themselves.
fn write_aside<'f>(
    files: &'f [(PathBuf, &[u8])],
    readers: Readers,
    over: Over,
) -> Result<Vec<(&'f Path, NewFile)>, FileProblem> {
    let mut written = Vec::with_capacity(files.len());
    for (path, bytes) in files {
        if path.is_dir() {
            return Err(FileProblem::Folder(path.clone()));
        }
        if over == Over::Nothing && path.exists() {
            return Err(FileProblem::Taken(path.clone()));
        }
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let file = NewFile::create(folder_of(path), &hidden_prefix(&name), readers).and_then(|mut file| {
            // A file that is replaced keeps its readers.
            if let (Readers::Usual, Ok(metadata)) = (readers, fs::metadata(path)) {
                file.permit(metadata.permissions())?;
            }
            file.write(bytes)?;
            file.sync()?;
            Ok(file)
        });
        written.push((path.as_path(), file.map_err(|error| FileProblem::Write(path.clone(), error))?));
    }
    Ok(written)
}

fn rename_over(written: Vec<(&Path, NewFile)>) -> Result<(), FileProblem> {
    let all = written.len();
    let mut folders: Vec<&Path> = Vec::new();
    for (done, (path, file)) in written.into_iter().enumerate() {
        if let Err(error) = file.rename_over(path) {
            return Err(match done {
                0 => FileProblem::Write(path.to_path_buf(), error),
                _ => FileProblem::Partly(path.to_path_buf(), done, all, error),
            });
        }
        if !folders.contains(&folder_of(path)) {
            folders.push(folder_of(path));
        }
    }
    folders.into_iter().try_for_each(sync_folder)
}

/// Gives each file its name, which must be free. Each is synced before the next, so that after a power cut no file is
/// there without those that come before it: a list of stock without the materials it names could not be read.
fn rename_to_free(written: Vec<(&Path, NewFile)>) -> Result<(), FileProblem> {
    let mut made: Vec<&Path> = Vec::new();
    for (path, file) in written {
        let renamed = file.rename_to_free(path).inspect(|()| made.push(path));
        if let Err(error) = renamed.and_then(|()| try_sync_folder(folder_of(path))) {
            // Those made before it are taken away again, the last first, for the same reason.
            for made in made.iter().rev() {
                let _removed = disk::remove(made);
            }
            let _synced = try_sync_folder(folder_of(path));
            return Err(match error.kind() {
                // Somebody else made it just now.
                io::ErrorKind::AlreadyExists => FileProblem::Taken(path.to_path_buf()),
                _ => FileProblem::Write(path.to_path_buf(), error),
            });
        }
    }
    Ok(())
}

fn sync_folder(folder: &Path) -> Result<(), FileProblem> {
    try_sync_folder(folder).map_err(|error| FileProblem::Unsure(folder.to_path_buf(), error))
}

/// Syncs a folder, without which a rename in it may be lost. Where the system cannot do this, or the folder may not be
/// read, there is nothing more to be done.
fn try_sync_folder(folder: &Path) -> io::Result<()> {
    use io::ErrorKind::{InvalidInput, PermissionDenied, Unsupported};
    match disk::sync_folder(folder) {
        Err(error) if !matches!(error.kind(), InvalidInput | PermissionDenied | Unsupported) => Err(error),
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests;
