//! A disk at a power cut: what was done on it, what of that is synced, and every state that may be left.

use super::{Operation, Tree, is_hidden, kept_path};
use std::collections::{BTreeMap, BTreeSet};

/// What a path held; `None` if nothing was there.
type Version = Option<Vec<u8>>;

/// A disk that may lose what was not synced.
pub(super) struct Disk {
    /// What each file that was ever made holds, and whether it is synced.
    contents: Vec<(Vec<u8>, bool)>,
    /// The files and folders that are there whatever happens; a folder has no content.
    synced: BTreeMap<String, Option<usize>>,
    /// What was done in folders and is not synced, in order.
    pending: Vec<Pending>,
    /// The hidden files that have no name of their own yet.
    hidden: BTreeMap<String, usize>,
    /// What each path held so far, in order, and the first of these that may be there.
    versions: BTreeMap<String, (Vec<Version>, usize)>,
}

/// What was done in a folder: a path is there now, or is no longer.
#[derive(Clone)]
struct Pending {
    path: String,
    #[expect(clippy::option_option, reason = "there or not, and a folder there has no content")]
    now: Option<Option<usize>>,
}

impl Disk {
    pub(super) fn holding(files: &Tree) -> Self {
        let contents: Vec<(Vec<u8>, bool)> = files.values().map(|bytes| (bytes.clone(), true)).collect();
        let synced = files.keys().enumerate().map(|(at, path)| (path.clone(), (!path.ends_with('/')).then_some(at)));
        let versions = files.iter().map(|(path, bytes)| (path.clone(), (vec![Some(bytes.clone())], 0)));
        Self {
            contents,
            synced: synced.collect(),
            pending: Vec::new(),
            hidden: BTreeMap::new(),
            versions: versions.collect(),
        }
    }

    /// Does an operation, after which `seen` is in the folder.
    pub(super) fn take(&mut self, operation: &Operation, seen: &Tree) {
        let Operation { kind, path, other } = operation;
        match kind.as_str() {
            "make folder" if kept_path(path) => {
                self.pending.push(Pending { path: format!("{path}/"), now: Some(None) });
            }
            "write" => {
                self.contents.push((Vec::new(), false));
                self.hidden.insert(path.clone(), self.contents.len() - 1);
            }
            "sync" => {
                if let Some(at) = self.hidden.get(path) {
                    self.contents[*at].1 = true;
                }
            }
            "rename" => {
                // A file that was never written is empty.
                let at = self.hidden.remove(path).unwrap_or_else(|| {
                    self.contents.push((Vec::new(), false));
                    self.contents.len() - 1
                });
                self.contents[at].0.clone_from(seen.get(other).unwrap_or_else(|| panic!("{other} is not there")));
                self.pending.push(Pending { path: other.clone(), now: Some(Some(at)) });
                self.version(other, Some(self.contents[at].0.clone()));
            }
            "remove" if kept_path(path) && !is_hidden(path) => {
                // What was not there was not removed.
                if self.versions.get(path).is_some_and(|(versions, _)| versions.last().unwrap().is_some()) {
                    self.pending.push(Pending { path: path.clone(), now: None });
                    self.version(path, None);
                }
            }
            "sync folder" => {
                let folder = if path.starts_with('/') { "" } else { path };
                let (now, later) = self.pending.drain(..).partition(|change| folder_of(&change.path) == folder);
                self.pending = later;
                apply(&mut self.synced, now);
            }
            "make folder" | "remove" | "remove folder" | "create" | "permit" | "lock" => {}
            other => panic!("{other} is no operation"),
        }
    }

    fn version(&mut self, path: &str, content: Option<Vec<u8>>) {
        let (versions, _) = self.versions.entry(path.to_owned()).or_insert_with(|| (vec![None], 0));
        versions.push(content);
    }

    /// What is there now is told to be done: nothing earlier may come back.
    pub(super) fn told(&mut self) {
        for (versions, first) in self.versions.values_mut() {
            *first = versions.len() - 1;
        }
    }

    /// What is there if nothing is lost.
    pub(super) fn last(&self) -> Tree {
        self.state(&self.pending, false)
    }

    /// What is there if these of the pending changes happened, and files that are not synced are whole or empty.
    fn state(&self, happened: &[Pending], are_emptied: bool) -> Tree {
        let mut entries = self.synced.clone();
        apply(&mut entries, happened.to_vec());
        let is_in_reach = |path: &str| {
            let path = path.trim_end_matches('/');
            path.match_indices('/').all(|(at, _)| entries.contains_key(&path[..=at]))
        };
        let reached = entries.iter().filter(|(path, _)| is_in_reach(path));
        reached
            .map(|(path, content)| {
                let bytes = match content.map(|at| &self.contents[at]) {
                    Some((_, false)) if are_emptied => Vec::new(),
                    Some((bytes, _)) => bytes.clone(),
                    None => Vec::new(),
                };
                (path.clone(), bytes)
            })
            .collect()
    }

    /// What may be there after a power cut: of few pending changes every choice, of many all, none, each left out, each
    /// alone, and the first so many.
    pub(super) fn states(&self) -> BTreeSet<Tree> {
        let many = self.pending.len();
        let choices: Vec<Vec<bool>> = if many <= 5 {
            (0..1_u32 << many).map(|bits| (0..many).map(|at| bits >> at & 1 == 1).collect()).collect()
        } else {
            let first = (0..=many).map(|count| (0..many).map(|at| at < count).collect());
            let alone = (0..many).map(|only| (0..many).map(|at| at == only).collect());
            let without = (0..many).map(|lost| (0..many).map(|at| at != lost).collect());
            first.chain(alone).chain(without).collect()
        };
        let mut states = BTreeSet::new();
        for choice in choices {
            let happened: Vec<Pending> = self
                .pending
                .iter()
                .zip(choice)
                .filter(|(_, happened)| *happened)
                .map(|(change, _)| change.clone())
                .collect();
            states.extend([false, true].map(|are_emptied| self.state(&happened, are_emptied)));
        }
        states
    }

    /// Each file holds what was told to be there, or something later.
    pub(super) fn old_or_new(&self, state: &Tree, when: &str) {
        for path in self.versions.keys().chain(state.keys()).filter(|path| !path.ends_with('/')) {
            let (versions, first) = &self.versions[path];
            let is = state.get(path);
            assert!(
                versions[*first..].iter().any(|version| version.as_ref() == is),
                "{path} is {:?}, and neither the old nor the new, when {when}",
                is.map(|bytes| String::from_utf8_lossy(bytes))
            );
        }
    }
}

fn apply(entries: &mut BTreeMap<String, Option<usize>>, changes: Vec<Pending>) {
    for Pending { path, now } in changes {
        match now {
            Some(content) => entries.insert(path, content),
            None => entries.remove(&path),
        };
    }
}

/// The folder that a path is in.
fn folder_of(path: &str) -> &str {
    path.trim_end_matches('/').rsplit_once('/').map_or("", |(folder, _)| folder)
}
