//! Faults at every write: each operation on the disk is made to fail, and the program is ended at each, one after the
//! other; and every state is laid down that a power cut could leave between them, when what was not synced is lost.
//!
//! What is held: a file is the old one or the new one, whole; nothing that was there or was told to be written is
//! missing; a failure leaves no hidden file, says what could not be written, and its exit code is not 0; and the program
//! opens what is there without complaint.
//!
//! What a power cut may take is by the rules of the system call, not of one file system: what was written to a file may be
//! lost until the file is synced, and what was made, renamed or removed in a folder until the folder is synced, each by
//! itself and in any order (POSIX.1-2017, fsync, rationale, and the manual page fsync(2): from memory).
#![cfg(unix)]

mod disk;
mod words;

use crate::sessions::transcript_folder;
use disk::Disk;
use rexpect::session::{PtySession, spawn_command};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

/// The exit code of a process that was ended by plan.
const ENDED: i32 = 99;

/// Files by their path in the folder of a scenario; a folder ends with `/`.
type Tree = BTreeMap<String, Vec<u8>>;

/// What a person does, and how what it leaves is opened.
struct Scenario {
    /// The folder with what is there before.
    before: tempfile::TempDir,
    /// The folder that it is done in.
    here: tempfile::TempDir,
    command: Vec<&'static str>,
    /// What is piped in, line by line; each but the answers of a set-up says something when it is done.
    lines: Vec<&'static str>,
    /// How files are opened, each as a command and the lines piped into it, if the file of this path is there.
    opens: Vec<(&'static str, Vec<&'static str>, Vec<&'static str>)>,
    /// Whether the same is done over again after each end.
    again: bool,
    /// Whether a failure leaves nothing of it.
    all_or_none: bool,
}

/// What a run did and left.
struct Run {
    code: Option<i32>,
    stdout: String,
    stderr: String,
    tree: Tree,
}

/// An operation of a run: its kind, its path and the path it leads to.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Operation {
    kind: String,
    path: String,
    other: String,
}

impl Scenario {
    fn new(
        before: tempfile::TempDir,
        command: &[&'static str],
        lines: &[&'static str],
        opens: &[(&'static str, &[&'static str], &[&'static str])],
    ) -> Self {
        let opens = opens.iter().map(|(file, command, lines)| (*file, command.to_vec(), lines.to_vec()));
        Self {
            before,
            here: tempfile::tempdir().unwrap(),
            command: command.to_vec(),
            lines: lines.to_vec(),
            opens: opens.collect(),
            again: lines.is_empty(),
            all_or_none: false,
        }
    }

    fn here(&self) -> &Path {
        self.here.path()
    }

    /// Lays down what is there before.
    fn lay_down(&self) {
        lay_down(&tree(self.before.path()), self.here());
    }

    /// Does it with the first of the lines.
    fn run(&self, lines: usize, variables: &[(&str, &str)]) -> Run {
        run(self.here(), &self.command, &self.lines[..lines], variables)
    }

    /// Opens what is in the folder; it must be opened without complaint.
    fn open(&self, when: &str) {
        for (file, command, lines) in &self.opens {
            if self.here().join(file).exists() {
                let opened = run(self.here(), command, lines, &[]);
                assert_eq!((opened.code, opened.stderr.as_str()), (Some(0), ""), "{when}: {command:?} {lines:?}");
            }
        }
    }

    /// The operations of a run without faults, which is the last of `steps`.
    fn operations(&self) -> Vec<Operation> {
        self.lay_down();
        let log = tempfile::NamedTempFile::new().unwrap();
        self.run(self.lines.len(), &[("SHIRR_FAULT_LOG", &log.path().to_string_lossy())]);
        let text = fs::read_to_string(log.path()).unwrap();
        let inside = format!("{}/", self.here().display());
        let operations = text.lines().map(|line| {
            let mut parts = line.split('\t').map(|part| part.strip_prefix(&inside).unwrap_or(part).to_owned());
            let mut part = || parts.next().unwrap();
            Operation { kind: part(), path: part(), other: part() }
        });
        operations.collect()
    }

    /// What is there after each line, without faults: before the first, after the first, and so on. A command without
    /// lines is one step.
    fn steps(&self) -> Vec<Run> {
        let before =
            Run { code: None, stdout: String::new(), stderr: String::new(), tree: kept(&tree(self.before.path())) };
        let from = usize::from(!self.lines.is_empty());
        let after = (from..=self.lines.len()).map(|lines| {
            self.lay_down();
            let mut run = self.run(lines, &[]);
            run.tree = kept(&run.tree);
            run
        });
        let steps: Vec<Run> = std::iter::once(before).chain(after).collect();
        let last = steps.last().unwrap();
        assert_eq!((last.code, last.stderr.contains("cannot")), (Some(0), false), "{}", last.stderr);
        assert_ne!(steps[0].tree, last.tree, "it writes nothing");
        steps
    }

    /// Holds it against everything that can go wrong; returns the number of operations.
    fn hold(&self) -> usize {
        let steps = self.steps();
        let operations = self.operations();
        assert!(operations.len() > 4, "{operations:?}");
        for (at, operation) in operations.iter().enumerate() {
            self.fail(&steps, at, operation);
        }
        let mut seen: Vec<Tree> = Vec::new();
        for (at, operation) in operations.iter().enumerate() {
            seen.push(self.end(&steps, at, operation));
        }
        seen.push(steps.last().unwrap().tree.clone());
        self.cut_power(&operations, &seen);
        operations.len()
    }

    /// The disk is full at one operation.
    fn fail(&self, steps: &[Run], at: usize, operation: &Operation) {
        let when = format!("the disk is full at {}: {operation:?}", at + 1);
        self.lay_down();
        let before = tree(self.here());
        let run = self.run(self.lines.len(), &[("SHIRR_FAULT", &format!("fail {}", at + 1))]);
        let said = run.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
        let last = steps.last().unwrap();
        if run.code == Some(0) {
            // What could not be done is nothing that a person asked for, such as a lock.
            assert!(files(&run.tree) == files(&last.tree), "{when}: not all is done\n{said}");
        } else {
            assert_eq!(run.code, Some(1), "{when}\n{said}");
            let name = told_name(operation);
            assert!(said.contains("the disk is full") && said.contains(&name), "{when}: {name}\n{said}");
        }
        if self.all_or_none {
            assert!(kept(&run.tree) == steps[0].tree, "{when}: something is left of it");
        }
        let hidden: Vec<&String> =
            run.tree.keys().filter(|path| is_hidden(path) && !before.contains_key(*path)).collect();
        assert!(hidden.is_empty(), "{when}: {hidden:?} is left");
        let left = kept(&run.tree);
        if !is_of(steps, &left) {
            // The lines after the one that failed are done: it is as if that one had not been typed.
            let without: Vec<Run> = (0..self.lines.len()).map(|at| self.run_without(at)).collect();
            old_or_new(&without.iter().chain(steps).collect::<Vec<_>>(), &left, &when);
            lay_down(&run.tree, self.here());
        }
        self.open(&when);
    }

    /// Does it with all lines but one.
    fn run_without(&self, left_out: usize) -> Run {
        self.lay_down();
        let lines: Vec<&str> = [&self.lines[..left_out], &self.lines[left_out + 1..]].concat();
        let mut run = run(self.here(), &self.command, &lines, &[]);
        run.tree = kept(&run.tree);
        run
    }

    /// The process ends at one operation; returns what it leaves.
    fn end(&self, steps: &[Run], at: usize, operation: &Operation) -> Tree {
        let when = format!("it ends at {}: {operation:?}", at + 1);
        self.lay_down();
        let run = self.run(self.lines.len(), &[("SHIRR_FAULT", &format!("end {}", at + 1))]);
        assert_eq!(run.code, Some(ENDED), "{when}");
        // What was told to be done is done.
        let told = steps.iter().rposition(|step| {
            run.stdout.starts_with(&step.stdout) && run.stderr.starts_with(&step.stderr) && step.code != Some(1)
        });
        let left = kept(&run.tree);
        old_or_new(&steps[told.unwrap()..].iter().collect::<Vec<_>>(), &left, &when);
        self.open(&when);
        if self.again {
            // What lies about of the run that was ended does not stop the next.
            let again = self.run(self.lines.len(), &[]);
            assert_eq!(again.code, Some(0), "{when}, again: {}", again.stderr);
            old_or_new(&[steps.last().unwrap()], &kept(&again.tree), &format!("{when}, again"));
        }
        left
    }

    /// The power is cut before each operation and after the last. `seen` is what was in the folder at these moments.
    #[expect(clippy::needless_range_loop, reason = "the count of operations is used as well")]
    fn cut_power(&self, operations: &[Operation], seen: &[Tree]) {
        let mut disk = Disk::holding(&kept(&tree(self.before.path())));
        let mut laid_down: BTreeSet<Tree> = BTreeSet::new();
        for done in 0..=operations.len() {
            if let Some(at) = done.checked_sub(1) {
                let kind_of = |at: usize| operations[at].kind.as_str();
                let is_more = at > 0 && kind_of(at) == "remove" && kind_of(at - 1) == "remove";
                // The program goes on to something else, so it holds what it renamed and removed before to be done.
                if !["rename", "sync folder"].contains(&kind_of(at)) && !is_more {
                    disk.told();
                }
                disk.take(&operations[at], &seen[done]);
            }
            if done == operations.len() {
                disk.told();
            }
            for state in disk.states() {
                let when = format!("the power is cut after {done} of {operations:#?}");
                disk.old_or_new(&state, &when);
                if laid_down.insert(state.clone()) {
                    lay_down(&state, self.here());
                    self.open(&when);
                }
            }
        }
        assert!(disk.last() == *seen.last().unwrap(), "the operations do not lead to what is there");
        assert!(laid_down.len() > 1);
    }
}

/// The paths that are as they were after none of the steps.
fn odd_paths<'t>(steps: &[&'t Run], left: &'t Tree) -> Vec<&'t String> {
    let paths: BTreeSet<&String> = steps.iter().flat_map(|step| step.tree.keys()).chain(left.keys()).collect();
    let is_odd = |path: &&String| !steps.iter().any(|step| step.tree.get(*path) == left.get(*path));
    paths.into_iter().filter(is_odd).collect()
}

fn is_of(steps: &[Run], left: &Tree) -> bool {
    odd_paths(&steps.iter().collect::<Vec<_>>(), left).is_empty()
}

/// Each file is as it was after one of the steps, whole.
fn old_or_new(steps: &[&Run], left: &Tree, when: &str) {
    if let Some(path) = odd_paths(steps, left).first() {
        let is = left.get(*path).map_or_else(|| "missing".into(), |bytes| String::from_utf8_lossy(bytes));
        panic!("{when}: {path} is neither the old nor the new:\n{is}");
    }
}

/// The name that a message about an operation must say.
fn told_name(operation: &Operation) -> String {
    let path = if operation.other.is_empty() { &operation.path } else { &operation.other };
    let name = path.rsplit('/').next().unwrap();
    if operation.kind.ends_with("folder") {
        return name.to_owned();
    }
    match name.strip_prefix('.') {
        // Whether there is room in a folder is tried out with a file of no name.
        Some(room) if room.starts_with("room.") => path.rsplit('/').nth(1).unwrap_or_default().to_owned(),
        // Hidden files are called like the file they become, and a few letters by chance.
        Some(hidden) => hidden.rsplit_once('.').unwrap().0.to_owned(),
        None => name.to_owned(),
    }
}

fn is_hidden(path: &str) -> bool {
    path.trim_end_matches('/').rsplit('/').next().is_some_and(|name| name.starts_with('.'))
}

/// Whether a path is of something that a person saved: not of locks and pages without a name, and not hidden.
fn kept_path(path: &str) -> bool {
    !path.starts_with("state/pages")
}

/// The files that a person saved, without the folders.
fn files(tree: &Tree) -> Tree {
    kept(tree).into_iter().filter(|(path, _)| !path.ends_with('/')).collect()
}

/// Of a folder what a person saved.
fn kept(tree: &Tree) -> Tree {
    let kept = tree.iter().filter(|(path, _)| kept_path(path.trim_end_matches('/')) && !is_hidden(path));
    kept.map(|(path, bytes)| (path.clone(), bytes.clone())).collect()
}

/// Everything in a folder.
fn tree(folder: &Path) -> Tree {
    fn read(folder: &Path, inside: &str, found: &mut Tree) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = format!("{inside}{}", path.file_name().unwrap().to_string_lossy());
            if path.is_dir() {
                read(&path, &format!("{name}/"), found);
                found.insert(format!("{name}/"), Vec::new());
            } else {
                found.insert(name, fs::read(&path).unwrap());
            }
        }
    }
    let mut found = Tree::new();
    read(folder, "", &mut found);
    found
}

/// Makes a folder hold this and nothing else. What is there already is not written again.
fn lay_down(wanted: &Tree, folder: &Path) {
    let there = tree(folder);
    for path in there.keys().rev().filter(|path| !wanted.contains_key(*path)) {
        let path_there = folder.join(path);
        if path.ends_with('/') { fs::remove_dir_all(path_there) } else { fs::remove_file(path_there) }.unwrap();
    }
    for (path, bytes) in wanted.iter().filter(|(path, bytes)| there.get(*path) != Some(bytes)) {
        let path_there = folder.join(path);
        if path.ends_with('/') {
            fs::create_dir_all(path_there).unwrap();
        } else {
            fs::create_dir_all(path_there.parent().unwrap()).unwrap();
            fs::write(path_there, bytes).unwrap();
        }
    }
}

fn run(here: &Path, command: &[&str], lines: &[&str], variables: &[(&str, &str)]) -> Run {
    let mut child = Command::new(env!("CARGO_BIN_EXE_shirr"))
        .current_dir(here)
        .args(command)
        .env("SHIRR_STATE", here.join("state"))
        .env("SHIRR_DATA", here.join("data"))
        .env_remove("COLUMNS")
        .envs(variables.iter().copied())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let typed: String = lines.iter().map(|line| format!("{line}\n")).collect();
    // A process that was ended does not read to the end. The lines are few: the pipe holds them all.
    let _taken = child.stdin.take().unwrap().write_all(typed.as_bytes());
    let done = child.wait_with_output().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    Run { code: done.status.code(), stdout: text(done.stdout), stderr: text(done.stderr), tree: tree(here) }
}

/// A folder with these files.
fn folder_with(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    lay_down(&files.iter().map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec())).collect(), folder.path());
    folder
}

#[test]
fn a_page_that_is_saved() {
    let scenario = Scenario::new(
        folder_with(&[("may.txt", "waist = 60 cm\n")]),
        &[],
        &["waist = 56 cm", "save fair.txt", "band = waist + 10 in", "hem = 3 cm", "strike band", "redo = 2 in"],
        &[("fair.txt", &["page", "fair.txt"], &[]), ("may.txt", &[], &["open may.txt", "waist = 61 cm"])],
    );
    scenario.hold();
}

#[test]
fn a_page_in_a_new_folder() {
    let scenario = Scenario::new(
        folder_with(&[]),
        &[],
        &["waist = 56 cm", "save orders/may/fair.txt", "hem = 3 cm"],
        &[("orders/may/fair.txt", &["page", "orders/may/fair.txt"], &[])],
    );
    scenario.hold();
}

#[test]
fn lines_on_a_page_that_was_saved_and_its_new_name() {
    let scenario = Scenario::new(
        folder_with(&[("fair.txt", "# a skirt for the fair\nwaist = 56 cm\n")]),
        &[],
        &["open fair.txt", "band = waist + 10 in", "waist = 60 cm", "rename page to may.txt", "hem = 3 cm", "leave"],
        &[("fair.txt", &["page", "fair.txt"], &[]), ("may.txt", &["page", "may.txt"], &[])],
    );
    scenario.hold();
}

#[test]
fn tables_that_are_written_and_written_over() {
    let scenario = Scenario::new(
        folder_with(&[("old.csv", "name,value\nhem,3 cm\n")]),
        &[],
        &["waist = 56 cm", "write page to x.csv", "hem = 3 cm", "write page over x.csv", "write page over old.csv"],
        &[("x.csv", &[], &["read x.csv as t", "t"]), ("old.csv", &[], &["read old.csv as t", "t"])],
    );
    scenario.hold();
}

const ORDER: [&str; 9] =
    ["run", "gathered_trim", "--workshop", "demo", "edge=1 m", "depth=6 cm", "cloth=wide ivory tulle", "--csv", "out"];

#[test]
fn the_folder_of_an_order() {
    let before = transcript_folder("faults");
    fs::create_dir(before.path().join("out")).unwrap();
    // Of an earlier order: two tables, and a page of pictures that this one has not.
    for name in ["cut_list.csv", "cost.csv", "lays.svg", "pieces_2.svg", "notes.txt"] {
        fs::write(before.path().join("out").join(name), "earlier\n").unwrap();
    }
    let mut scenario =
        Scenario::new(before, &ORDER, &[], &[("out/cut_list.csv", &[], &["read out/cut_list.csv as t"])]);
    // It is the one with the most files, and the plan below is done over again.
    scenario.again = false;
    scenario.hold();
}

#[test]
fn a_plan_with_fewer_pages_than_before() {
    let before = transcript_folder("faults");
    fs::create_dir(before.path().join("out")).unwrap();
    for name in ["leftovers.csv", "lay.svg", "lay_2.svg", "lay_3.svg", "notes.txt"] {
        fs::write(before.path().join("out").join(name), "earlier\n").unwrap();
    }
    let scenario = Scenario::new(
        before,
        &["cut", "demo/strips.csv", "--from", "demo/rolls.csv", "--csv", "out"],
        &[],
        &[("out/leftovers.csv", &[], &["read out/leftovers.csv as t"])],
    );
    scenario.hold();
}

#[test]
fn the_folder_of_a_plan_that_is_new() {
    let scenario = Scenario::new(
        transcript_folder("faults"),
        &["cut", "demo/strips.csv", "--from", "demo/rolls.csv", "--csv", "plans/may"],
        &[],
        &[("plans/may/leftovers.csv", &[], &["read plans/may/leftovers.csv as t"])],
    );
    scenario.hold();
}

#[test]
fn the_invented_workshop() {
    let mut scenario = Scenario::new(
        folder_with(&[]),
        &[],
        &["demo workshop in mine"],
        // Stock names materials: it cannot be read without them.
        &["mine/settings.csv", "mine/stock.csv"].map(|file| (file, &["--workshop", "mine"][..], &["workshop"][..])),
    );
    scenario.all_or_none = true;
    scenario.hold();
}

#[test]
fn a_workshop_of_ones_own_and_what_is_added() {
    let answers = ["own workshop", "", "", "21", "5.50", "45", "6.5", "55", "white lawn", "43 1/2", "9.25/yd", "yes"];
    let more = ["4 2", "soft 1 in", "0.95/yd", "4.40 for 3000 yd", "none"];
    let added =
        ["add cloth net, 54 in wide, loses nothing", "add price net, $2/yd", "add remnant N1, net, 2 yd, lot 7"];
    let scenario = Scenario::new(
        folder_with(&[]),
        &[],
        &[&answers[..], &more, &added].concat(),
        &[("settings.csv", &[], &["workshop"])],
    );
    scenario.hold();
}

#[test]
fn a_recipe_that_is_accepted() {
    let recipe = "//! Slow.\n//! contract: 1   version: 1   licence: CC0-1.0   for: test\nfn inputs() { [] }\n\
         fn make(order, ticket) { ticket.figure(\"sum\", 1, \"a sum\"); }\n\
         fn examples() { [#{ given: #{}, expect: #{ sum: 1 }, source: \"own arithmetic\" }] }";
    let scenario = Scenario::new(
        folder_with(&[("own.rhai", recipe), ("state/accepted-recipes.txt", "0f0f earlier\n")]),
        &["check", "own.rhai"],
        &[],
        &[("own.rhai", &["run", "--anyway", "own.rhai"], &[])],
    );
    scenario.hold();
}

/// What would be lost without the syncs, and that it is found: a file that is renamed before it is synced may be empty, a
/// rename may not have happened, and a new folder may be gone with what is in it.
#[test]
fn the_disk_loses_what_is_not_synced() {
    let operation = |kind: &str, path: &str, other: &str| Operation {
        kind: kind.to_owned(),
        path: path.to_owned(),
        other: other.to_owned(),
    };
    let write = operation("write", "a/.x.1", "");
    let (make, sync) = (operation("make folder", "a", ""), operation("sync", "a/.x.1", ""));
    let rename = operation("rename", "a/.x.1", "a/x");
    let (above, inside) = (operation("sync folder", "/here", ""), operation("sync folder", "a", ""));
    let seen = Tree::from([("a/".to_owned(), Vec::new()), ("a/x".to_owned(), b"new".to_vec())]);
    let left = |operations: &[&Operation]| -> BTreeSet<Option<String>> {
        let mut disk = Disk::holding(&Tree::new());
        for operation in operations {
            disk.take(operation, &seen);
        }
        let text = |state: Tree| state.get("a/x").map(|bytes| String::from_utf8(bytes.clone()).unwrap());
        disk.states().into_iter().map(text).collect()
    };
    let set = |texts: &[Option<&str>]| texts.iter().map(|text| text.map(str::to_owned)).collect::<BTreeSet<_>>();
    assert_eq!(left(&[&make, &above, &write, &sync, &rename, &inside]), set(&[Some("new")]));
    assert_eq!(left(&[&make, &above, &write, &rename, &inside]), set(&[Some(""), Some("new")]));
    assert_eq!(left(&[&make, &above, &write, &sync, &rename]), set(&[None, Some("new")]));
    assert_eq!(left(&[&make, &write, &sync, &rename, &inside]), set(&[None, Some("new")]));
    // Synced too soon.
    assert_eq!(left(&[&make, &above, &write, &sync, &inside, &rename]), set(&[None, Some("new")]));
}

#[test]
fn a_fault_that_is_none_is_refused() {
    let here = folder_with(&[]);
    for fault in ["fail", "stop 3", "end -1", "end 1 2"] {
        let run = run(here.path(), &["reckon", "1"], &[], &[("SHIRR_FAULT", fault)]);
        assert_eq!((run.code, run.stdout.as_str()), (Some(2), ""), "{fault}");
        assert!(run.stderr.contains("it may be fail 7, refuse 7 or end 7"), "{}", run.stderr);
    }
}

/// What is typed at a prompt onto a page without a name, and its answers.
const TYPED: [(&str, &str); 2] = [("waist = 56 cm", "waist  56 cm"), ("twice = waist * 2", "112 cm")];

/// Types at a prompt; returns how many lines were answered and followed by a new prompt.
fn typed_at_a_prompt(here: &Path, variables: &[(&str, &str)]) -> usize {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command.current_dir(here).env("SHIRR_STATE", here.join("state")).env("SHIRR_DATA", here.join("data"));
    command.env("TERM", "xterm").env("COLUMNS", "80").envs(variables.iter().copied());
    let mut session = spawn_command(command, Some(60_000)).unwrap();
    let mut done = 0;
    let answered = |session: &mut PtySession, answer: &str| {
        session.exp_string(answer).and_then(|_| session.exp_string("> ")).is_ok()
    };
    if answered(&mut session, "Ctrl-D leaves") {
        for (line, answer) in TYPED {
            if session.send_line(line).is_err() || !answered(&mut session, answer) {
                break;
            }
            done += 1;
        }
    }
    if done == TYPED.len() {
        session.send_control('d').unwrap();
    }
    session.exp_eof().unwrap();
    done
}

#[test]
fn lines_on_a_page_without_a_name() {
    let left = |here: &Path| -> Vec<String> {
        let pages = tree(here).into_iter().filter(|(path, _)| {
            path.starts_with("state/pages/left-") && path.rsplit_once('.').is_some_and(|(_, end)| end == "txt")
        });
        pages.map(|(_, bytes)| String::from_utf8(bytes).unwrap()).collect()
    };
    let first = format!("{}\n", TYPED[0].0);
    let both = format!("{first}{}\n", TYPED[1].0);
    let here = folder_with(&[]);
    let log = tempfile::NamedTempFile::new().unwrap();
    assert_eq!(typed_at_a_prompt(here.path(), &[("SHIRR_FAULT_LOG", &log.path().to_string_lossy())]), TYPED.len());
    assert_eq!(left(here.path()), std::slice::from_ref(&both));
    let count = fs::read_to_string(log.path()).unwrap().lines().count();
    assert!(count > 10, "{count}");
    for at in 1..=count {
        let here = folder_with(&[]);
        // Whatever fails is done again after the next line, or at the end.
        let done = typed_at_a_prompt(here.path(), &[("SHIRR_FAULT", &format!("fail {at}"))]);
        assert_eq!((done, left(here.path())), (TYPED.len(), vec![both.clone()]), "fail {at}");
        let here = folder_with(&[]);
        let done = typed_at_a_prompt(here.path(), &[("SHIRR_FAULT", &format!("end {at}"))]);
        let kept = left(here.path());
        let allowed = [Vec::new(), vec![first.clone()], vec![both.clone()]];
        assert!(allowed[done..].contains(&kept), "end {at}: after {done} lines {kept:?} is kept");
        // Nor does what lies about stop the next.
        if at % 4 == 0 {
            typed_at_a_prompt(here.path(), &[]);
            assert_eq!(left(here.path()).len(), kept.len() + 1, "end {at}");
        }
    }
}
