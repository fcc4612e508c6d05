//! The process that runs recipes which are not shipped, as the system sees it: one for a session, fenced in, and no loss
//! when it is gone.
#![cfg(target_os = "linux")]

use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// Twice a length; the length of 3.3 cm does harm, which no corner of a check meets.
fn recipe(harm: &str) -> String {
    format!(
        "//! Twice.\n//! contract: 1   version: 1   licence: CC0-1.0   for: test\n\
         fn inputs() {{ [length(\"a\", \"a\").between(1 cm, 9 cm).usual(2 cm)] }}\n\
         fn make(order, ticket) {{\n    if order.a == 3.3 cm {{ {harm} }}\n\
         ticket.figure(\"twice\", order.a * 2, \"twice\");\n}}\n\
         fn examples() {{ [#{{ given: #{{ a: 2 cm }}, expect: #{{ twice: 4 cm }}, source: \"by hand\" }},\n\
         #{{ given: #{{ a: 5 cm }}, expect: #{{ twice: 10 cm }}, source: \"by hand\" }}] }}\n"
    )
}

/// A session whose lines come from a pipe that stays open.
struct Session {
    program: Child,
    typed: ChildStdin,
    answers: Receiver<String>,
}

impl Session {
    fn in_folder(here: &Path) -> Self {
        let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
        command.current_dir(here).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut program = command.envs(["SHIRR_STATE", "SHIRR_DATA"].map(|name| (name, here))).spawn().unwrap();
        let (sender, answers) = channel();
        let streams: [Box<dyn std::io::Read + Send>; 2] =
            [Box::new(program.stdout.take().unwrap()), Box::new(program.stderr.take().unwrap())];
        for stream in streams {
            let sender = sender.clone();
            std::thread::spawn(move || {
                for line in BufReader::new(stream).lines().map_while(Result::ok) {
                    if sender.send(line).is_err() {
                        return;
                    }
                }
            });
        }
        Self { typed: program.stdin.take().unwrap(), program, answers }
    }

    /// Types a line and waits until an answer holds `part`.
    fn answers(&mut self, line: &str, part: &str) {
        writeln!(self.typed, "{line}").unwrap();
        self.typed.flush().unwrap();
        let mut heard = Vec::new();
        // Guards against a hang.
        while let Ok(answer) = self.answers.recv_timeout(Duration::from_mins(2)) {
            heard.push(answer);
            if heard.last().unwrap().contains(part) {
                return;
            }
        }
        panic!("{line}: {heard:?}");
    }

    /// The processes that it has started and that are there.
    fn workers(&self) -> Vec<u32> {
        let parent = self.program.id().to_string();
        let processes =
            fs::read_dir("/proc").unwrap().filter_map(|entry| entry.unwrap().file_name().into_string().ok());
        let numbers = processes.filter_map(|name| name.parse::<u32>().ok());
        let is_child = |number: &u32| {
            let status = fs::read_to_string(format!("/proc/{number}/status")).unwrap_or_default();
            let value = |name: &str| status.lines().find_map(|line| line.strip_prefix(name)).unwrap_or("").trim();
            value("PPid:") == parent && !value("State:").starts_with('Z')
        };
        numbers.filter(is_child).collect()
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        let _ended = self.program.kill().and_then(|()| self.program.wait());
    }
}

fn folder(harm: &str) -> tempfile::TempDir {
    let here = tempfile::tempdir().unwrap();
    fs::write(here.path().join("twice.rhai"), recipe(harm)).unwrap();
    here
}

fn until(what: &str, holds: impl Fn() -> bool) {
    let begun = Instant::now();
    while !holds() {
        assert!(begun.elapsed() < Duration::from_mins(1), "{what}");
        std::thread::sleep(Duration::from_millis(5));
    }
}

#[test]
fn one_process_serves_a_session_and_has_nothing_of_hers() {
    let here = folder("");
    let mut session = Session::in_folder(here.path());
    session.answers("run twice.rhai as one a=2 cm", "one");
    session.answers("one.twice", "4 cm");
    let workers = session.workers();
    assert_eq!(workers.len(), 1, "{workers:?}");
    // Accepted now, it runs there still.
    session.answers("run twice.rhai as two a=4 cm", "two");
    session.answers("two.twice", "8 cm");
    assert_eq!(session.workers(), workers);
    let seen = |name: &str| fs::read_to_string(format!("/proc/{}/{name}", workers[0])).unwrap();
    assert_eq!(seen("environ"), "", "no name of hers and no folder");
    assert_eq!(fs::read_link(format!("/proc/{}/cwd", workers[0])).unwrap(), Path::new("/"));
    let limits = seen("limits");
    let limit = |name: &str| {
        let line = limits.lines().find_map(|line| line.strip_prefix(name)).unwrap_or_else(|| panic!("{name}"));
        line.split_whitespace().take(2).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(limit("Max address space"), ["536870912", "536870912"]);
    assert_eq!(limit("Max core file size"), ["0", "0"]);
    assert_eq!(limit("Max file size"), ["0", "0"]);
}

#[test]
fn harm_at_one_size_costs_nobody_the_page() {
    let here = folder("loop {}");
    let mut session = Session::in_folder(here.path());
    session.answers("waist = 56 cm", "waist");
    session.answers("run twice.rhai as one a=2 cm", "one");
    session.answers("run twice.rhai as harm a=3.3 cm", "goes on for too long");
    session.answers("waist + 1 cm", "57 cm");
    session.answers("one.twice", "4 cm");
    session.answers("run twice.rhai as two a=4 cm", "two");
    session.answers("two.twice", "8 cm");
}

#[test]
fn a_process_that_was_killed_is_started_again() {
    let here = folder("");
    let mut session = Session::in_folder(here.path());
    session.answers("run twice.rhai as one a=2 cm", "one");
    let workers = session.workers();
    let killed = Command::new("kill").args(["-9", &workers[0].to_string()]).status().unwrap();
    assert!(killed.success());
    until("it is gone", || session.workers().is_empty());
    session.answers("run twice.rhai as two a=4 cm", "two");
    session.answers("two.twice", "8 cm");
    assert_ne!(session.workers(), workers);
}

/// Held still, it is asked and does not answer; then it is gone.
#[test]
fn a_process_that_ends_while_it_is_asked_is_asked_again() {
    let here = folder("");
    let mut session = Session::in_folder(here.path());
    session.answers("run twice.rhai as one a=2 cm", "one");
    let worker = session.workers()[0];
    let send = |signal: &str| {
        assert!(Command::new("kill").args([signal, &worker.to_string()]).status().unwrap().success());
    };
    send("-STOP");
    writeln!(session.typed, "run twice.rhai as two a=4 cm").unwrap();
    session.typed.flush().unwrap();
    // Long enough to be asked; too short a wait tests less and does no harm.
    std::thread::sleep(Duration::from_millis(300));
    send("-KILL");
    session.answers("two.twice", "8 cm");
    assert_ne!(session.workers(), [worker]);
}

#[test]
fn no_process_outlives_the_session_however_that_ends() {
    let here = folder("");
    for killed in [false, true] {
        let mut session = Session::in_folder(here.path());
        session.answers("run twice.rhai as one a=2 cm", "one");
        let worker = Path::new("/proc").join(session.workers()[0].to_string());
        if killed {
            session.program.kill().unwrap();
        } else {
            writeln!(session.typed, "leave").unwrap();
        }
        session.program.wait().unwrap();
        let ended = || {
            let state = fs::read_to_string(worker.join("status")).unwrap_or_default();
            state.is_empty() || state.lines().any(|line| line.starts_with("State:") && line.contains('Z'))
        };
        until("the process ends", ended);
    }
}
