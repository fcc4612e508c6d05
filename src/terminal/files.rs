//! Files on disk: read whole up to a limit, replaced whole or not at all.

use crate::diagnostic::{Diagnostic, DiagnosticKind};
use std::fmt;
use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Maximum size in bytes of a recipe, page or workshop file.
pub(super) const MOST_BYTES: u64 = 4 << 20;

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
    TooLarge(PathBuf, u64),
    Taken(PathBuf),
    NotText(PathBuf),
    Read(PathBuf, io::Error),
    Write(PathBuf, io::Error),
    Left(PathBuf, io::Error),
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
            Self::TooLarge(path, bytes) => write!(
                f,
                "{} holds {} MB; a file that is read here may hold {} MB",
                path.display(),
                bytes.div_ceil(1 << 20),
                MOST_BYTES >> 20
            ),
            Self::NotText(path) => {
                write!(f, "{} is not plain text (UTF-8); save it as plain text, not as a document", path.display())
            }
            Self::Read(path, error) => write!(f, "{} cannot be read: {}", path.display(), reason(error)),
            Self::Write(path, error) => write!(f, "{} cannot be written: {}", path.display(), reason(error)),
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
fn reason(error: &io::Error) -> String {
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
    if metadata.len() > MOST_BYTES {
        return Err(FileProblem::TooLarge(owned(), metadata.len()));
    }
    let mut bytes = Vec::new();
    let file = fs::File::open(path).map_err(|error| FileProblem::Read(owned(), error))?;
    // The file may grow after its size was checked.
    file.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(|error| FileProblem::Read(owned(), error))?;
    String::from_utf8(bytes).map_err(|_| FileProblem::NotText(owned()))
}

/// The names in a folder that begin with `typed`, sorted, at most `most`; a folder ends with `/`. Hidden files
/// are listed only if the dot was typed. A folder that cannot be read has no names.
pub(super) fn names_from(here: &Path, typed: &str, most: usize) -> Vec<String> {
    let (folder, begins) = typed.split_at(typed.rfind('/').map_or(0, |at| at + 1));
    let Ok(entries) = fs::read_dir(here.join(folder)) else { return Vec::new() };
    let mut names: Vec<String> = entries
        .filter_map(|entry| {
            let entry = entry.ok()?;
            let name = entry.file_name().into_string().ok()?;
            let shown = name.starts_with(begins) && (begins.starts_with('.') || !name.starts_with('.'));
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
    let files: Vec<(PathBuf, &[u8])> =
        files.iter().map(|(name, bytes)| (folder.join(name), bytes.as_slice())).collect();
    replace_in(folder, &files, Readers::AsBefore, Over::Earlier)
}

/// Makes several files of one folder: all texts are on the disk before the first is there under its name. If a file of
/// one of the names is there, none is made.
pub(super) fn create_all(folder: &Path, files: &[(String, Vec<u8>)]) -> Result<(), FileProblem> {
    let files: Vec<(PathBuf, &[u8])> =
        files.iter().map(|(name, bytes)| (folder.join(name), bytes.as_slice())).collect();
    replace_in(folder, &files, Readers::AsBefore, Over::Nothing)
}

/// Checks that files can be made in a folder; of one that is not there, in the nearest above it that is.
pub(super) fn check_room(folder: &Path) -> Result<(), FileProblem> {
    let there = folder.ancestors().find(|folder| folder.exists()).unwrap_or(folder);
    // Dropped at once, and removes itself.
    match tempfile::Builder::new().prefix(".room.").tempfile_in(there) {
        Ok(_) => Ok(()),
        Err(error) => Err(FileProblem::Write(folder.to_path_buf(), error)),
    }
}

/// Removes files of a folder; those that are not there are gone already.
pub(super) fn remove_all(folder: &Path, names: &[String]) -> Result<(), FileProblem> {
    for path in names.iter().map(|name| folder.join(name)) {
        match fs::remove_file(&path) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(FileProblem::Left(path, error)),
            _ => {}
        }
    }
    if !names.is_empty() {
        sync_folder(folder);
    }
    Ok(())
}

/// Replaces one file; for a link, the file it leads to.
pub(super) fn replace(path: &Path, bytes: &[u8]) -> Result<(), FileProblem> {
    replace_one(path, bytes, Readers::AsBefore)
}

/// Replaces one file of the state folder, which only the user may read.
pub(super) fn replace_private(path: &Path, bytes: &[u8]) -> Result<(), FileProblem> {
    replace_one(path, bytes, Readers::OwnerAlone)
}

fn replace_one(path: &Path, bytes: &[u8], readers: Readers) -> Result<(), FileProblem> {
    let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    replace_in(folder, &[(path.clone(), bytes)], readers, Over::Earlier)
}

/// Who may read a new file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Readers {
    /// The readers of the old file; for a new one, the readers of any new file of this user.
    AsBefore,
    /// The user alone.
    OwnerAlone,
}

/// What a new file may take the place of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Over {
    /// An earlier file of the name.
    Earlier,
    /// Nothing: a file of the name is an error.
    Nothing,
}

fn replace_in(folder: &Path, files: &[(PathBuf, &[u8])], readers: Readers, over: Over) -> Result<(), FileProblem> {
    let problem = |path: PathBuf| move |error| FileProblem::Write(path, error);
    for inside in files.iter().filter_map(|(path, _)| path.parent()).chain([folder]) {
        fs::create_dir_all(inside).map_err(problem(inside.to_path_buf()))?;
    }
    let mut written = Vec::with_capacity(files.len());
    for (path, bytes) in files {
        if path.is_dir() {
            return Err(FileProblem::Folder(path.clone()));
        }
        if over == Over::Nothing && path.exists() {
            return Err(FileProblem::Taken(path.clone()));
        }
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let prefix = format!(".{name}.");
        let mut builder = tempfile::Builder::new();
        builder.prefix(&prefix);
        #[cfg(unix)]
        if readers == Readers::AsBefore {
            use std::os::unix::fs::PermissionsExt;
            // The user's umask still applies.
            builder.permissions(fs::Permissions::from_mode(0o666));
        }
        // On any error below, a temporary file is dropped and removes itself.
        let mut file = builder.tempfile_in(folder).map_err(problem(path.clone()))?;
        if let (Readers::AsBefore, Ok(metadata)) = (readers, fs::metadata(path)) {
            file.as_file().set_permissions(metadata.permissions()).map_err(problem(path.clone()))?;
        }
        file.write_all(bytes).and_then(|()| file.as_file().sync_all()).map_err(problem(path.clone()))?;
        written.push((path, file));
    }
    let mut made: Vec<&PathBuf> = Vec::new();
    for (path, file) in written {
        match over {
            Over::Earlier => file.persist(path).map_err(|error| FileProblem::Write(path.clone(), error.error))?,
            Over::Nothing => file.persist_noclobber(path).map_err(|error| {
                // Somebody else made it just now: those made before it are taken away again.
                for made in &made {
                    let _removed = fs::remove_file(made);
                }
                match error.error.kind() {
                    io::ErrorKind::AlreadyExists => FileProblem::Taken(path.clone()),
                    _ => FileProblem::Write(path.clone(), error.error),
                }
            })?,
        };
        made.push(path);
    }
    sync_folder(folder);
    Ok(())
}

/// Syncs a folder, without which a rename in it may be lost. Systems that cannot do this do not need it.
fn sync_folder(folder: &Path) {
    let _synced = fs::File::open(folder).and_then(|folder| folder.sync_all());
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_in_a_folder_are_those_that_begin_so() {
        let here = tempfile::tempdir().unwrap();
        fs::create_dir(here.path().join("orders")).unwrap();
        for name in ["orders.csv", "order 2.csv", ".ordered", "may.txt", "orders/june.csv"] {
            fs::write(here.path().join(name), "").unwrap();
        }
        assert_eq!(names_from(here.path(), "order", 9), ["order 2.csv", "orders.csv", "orders/"]);
        assert_eq!(names_from(here.path(), "order", 1), ["order 2.csv"]);
        assert_eq!(names_from(here.path(), "orders/", 9), ["orders/june.csv"]);
        assert_eq!(names_from(here.path(), ".", 9), [".ordered"]);
        assert_eq!(names_from(here.path(), "", 9), ["may.txt", "order 2.csv", "orders.csv", "orders/"]);
        assert!(names_from(here.path(), "none/", 9).is_empty());
    }
}
