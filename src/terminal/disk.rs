//! Every change on the disk, one function an operation: nothing else in the program makes, writes, syncs, renames, locks
//! or removes a file or a folder, so each of these moments can be counted and made to go wrong.
//!
//! [`FAULT`] says which operation goes wrong and [`LOG`] where operations are listed; without them nothing is counted.
//! They are compiled in, because a program built without them would be another than the one that was tested.
//!
//! Never here: what is written where, and what a person is told; `files` says that. One file does not pass through here:
//! the prompt's history, which the prompt library writes by itself. It is a convenience and may be lost.

use std::fs::{self, File, Permissions, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::str::FromStr;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU64, Ordering};
use tempfile::NamedTempFile;

/// The variable that plans a fault: `fail 7` is a full disk at the seventh operation, `refuse 7` a read-only one from
/// the seventh on, `end 7` the end of the process.
pub(super) const FAULT: &str = "SHIRR_FAULT";

/// The variable that names a file to which each operation is appended before it is done: its kind, its path and the
/// path it leads to, a tab between them.
pub(super) const LOG: &str = "SHIRR_FAULT_LOG";

/// The exit code of a process that was ended by plan, which no other end has.
const ENDED: i32 = 99;

/// How an operation goes wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fault {
    Fail,
    Refuse,
    End,
}

impl Fault {
    /// The error of a full or read-only disk; for an end of the process, no return: no destructor runs, as in a power cut.
    fn happen(self) -> io::Error {
        match self {
            Self::Fail => io::ErrorKind::StorageFull.into(),
            Self::Refuse => io::ErrorKind::ReadOnlyFilesystem.into(),
            Self::End => std::process::exit(ENDED),
        }
    }
}

/// What the environment planned for this run.
#[derive(Debug)]
struct Plan {
    /// Which operation goes wrong, counted from 1, and how.
    fault: Option<(u64, Fault)>,
    log: Option<PathBuf>,
    begun: AtomicU64,
}

static PLAN: OnceLock<Plan> = OnceLock::new();

/// Takes up the plan of a run; called once, before anything is written.
///
/// # Errors
/// The fault is none; the message says what one is.
pub(super) fn plan(fault: Option<&str>, log: Option<PathBuf>) -> Result<(), String> {
    if fault.is_none() && log.is_none() {
        return Ok(());
    }
    let read = |text: &str| {
        let (kind, number) = text.split_once(' ')?;
        let fault = match kind {
            "fail" => Fault::Fail,
            "refuse" => Fault::Refuse,
            "end" => Fault::End,
            _ => return None,
        };
        Some((u64::from_str(number).ok()?, fault))
    };
    let fault =
        fault.map(|text| read(text).ok_or_else(|| format!("{FAULT} is “{text}”; it may be fail 7, refuse 7 or end 7")));
    let planned = Plan { fault: fault.transpose()?, log, begun: AtomicU64::new(0) };
    PLAN.set(planned).map_err(|_| format!("{FAULT} is read once"))
}

/// Counts and lists an operation that is about to be done; returns the fault that is planned for it.
fn begin(kind: &str, path: &Path, other: Option<&Path>) -> Option<Fault> {
    let plan = PLAN.get()?;
    if let Some(log) = &plan.log {
        let other = other.map(|other| other.to_string_lossy()).unwrap_or_default();
        let line = format!("{kind}\t{}\t{other}\n", path.display());
        let opened = File::options().create(true).append(true).open(log);
        // A test that reads the list sees that a line is missing.
        let _listed = opened.and_then(|mut file| file.write_all(line.as_bytes()));
    }
    let number = plan.begun.fetch_add(1, Ordering::SeqCst) + 1;
    let happens = |(planned, fault): &(u64, Fault)| {
        if *fault == Fault::Refuse { *planned <= number } else { *planned == number }
    };
    plan.fault.filter(happens).map(|(_, fault)| fault)
}

/// Begins an operation that is not done at all if a fault is planned for it.
fn begin_whole(kind: &str, path: &Path, other: Option<&Path>) -> io::Result<()> {
    begin(kind, path, other).map_or(Ok(()), |fault| Err(fault.happen()))
}

/// Makes one folder, whose parent is there.
pub(super) fn make_folder(path: &Path) -> io::Result<()> {
    begin_whole("make folder", path, None)?;
    fs::create_dir(path)
}

/// Removes a folder if nothing is in it.
pub(super) fn remove_folder(path: &Path) -> io::Result<()> {
    begin_whole("remove folder", path, None)?;
    fs::remove_dir(path)
}

/// Syncs a folder: what was made, renamed and removed in it outlasts a power cut.
pub(super) fn sync_folder(path: &Path) -> io::Result<()> {
    begin_whole("sync folder", path, None)?;
    File::open(path)?.sync_all()
}

/// Removes a file.
pub(super) fn remove(path: &Path) -> io::Result<()> {
    begin_whole("remove", path, None)?;
    fs::remove_file(path)
}

/// A file that is locked while this lives.
#[derive(Debug)]
pub(super) struct Lock(#[expect(dead_code, reason = "it is held, not read")] File);

/// Locks a file, which is made if it is not there, until the lock is dropped or the process ends, however it ends; `None`
/// if another holds it.
pub(super) fn lock(path: &Path) -> io::Result<Option<Lock>> {
    begin_whole("lock", path, None)?;
    let file = File::options().create(true).truncate(false).write(true).open(path)?;
    match file.try_lock() {
        Ok(()) => Ok(Some(Lock(file))),
        Err(TryLockError::WouldBlock) => Ok(None),
        Err(TryLockError::Error(error)) => Err(error),
    }
}

/// Who may read a new file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Readers {
    /// The readers of any new file of this user.
    Usual,
    /// The user alone.
    OwnerAlone,
}

/// A hidden file that has no name of its own yet. Dropped, it removes itself.
#[derive(Debug)]
pub(super) struct NewFile(NamedTempFile);

impl NewFile {
    /// Makes a file in a folder, whose hidden name begins with `prefix`.
    pub(super) fn create(folder: &Path, prefix: &str, readers: Readers) -> io::Result<Self> {
        begin_whole("create", &folder.join(prefix), None)?;
        let mut builder = tempfile::Builder::new();
        builder.prefix(prefix);
        #[cfg(unix)]
        if readers == Readers::Usual {
            use std::os::unix::fs::PermissionsExt;
            // The user's umask still applies.
            builder.permissions(Permissions::from_mode(0o666));
        }
        builder.tempfile_in(folder).map(Self)
    }

    /// Gives it the rights of another file.
    pub(super) fn permit(&self, permissions: Permissions) -> io::Result<()> {
        begin_whole("permit", self.0.path(), None)?;
        self.0.as_file().set_permissions(permissions)
    }

    pub(super) fn write(&mut self, bytes: &[u8]) -> io::Result<()> {
        if let Some(fault) = begin("write", self.0.path(), None) {
            // A full disk and a power cut leave a part of what was to be written.
            self.0.write_all(bytes.get(..bytes.len() / 2).unwrap_or_default())?;
            return Err(fault.happen());
        }
        self.0.write_all(bytes)
    }

    /// Syncs it: what was written outlasts a power cut.
    pub(super) fn sync(&self) -> io::Result<()> {
        begin_whole("sync", self.0.path(), None)?;
        self.0.as_file().sync_all()
    }

    /// Puts it in the place of `path`, whatever is there.
    pub(super) fn rename_over(self, path: &Path) -> io::Result<()> {
        begin_whole("rename", self.0.path(), Some(path))?;
        self.0.persist(path).map(drop).map_err(|error| error.error)
    }

    /// Gives it a name that no file has.
    pub(super) fn rename_to_free(self, path: &Path) -> io::Result<()> {
        begin_whole("rename", self.0.path(), Some(path))?;
        self.0.persist_noclobber(path).map(drop).map_err(|error| error.error)
    }

    pub(super) fn remove(self) -> io::Result<()> {
        begin_whole("remove", self.0.path(), None)?;
        self.0.close()
    }
}
