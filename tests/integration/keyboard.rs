//! The prompt against a real pseudo-terminal.
#![cfg(unix)]

use crate::sessions::desk;
use rexpect::session::{PtySession, spawn_command};
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::Command;

fn prompt(here: &Path) -> PtySession {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command
        .current_dir(here)
        .args(["--workshop", "demo"])
        .env("SHIRR_STATE", here.join("state"))
        .env("SHIRR_DATA", here.join("data"))
        .env("TERM", "xterm")
        .env("COLUMNS", "80");
    let mut session = spawn_command(command, Some(20_000)).unwrap();
    session.exp_string("Ctrl-D leaves").unwrap();
    session
}

#[test]
fn a_sum_a_cell_and_a_quiet_leave() {
    let here = desk("keyboard");
    let mut session = prompt(here.path());
    session.send_line("23 in / 2 in * 10").unwrap();
    session.exp_string("115").unwrap();
    session.send_line("waist = 56 cm").unwrap();
    session.send_line("band = waist + 10 in").unwrap();
    session.exp_string("band  81.4 cm").unwrap();
    session.send_line("waist = 60 cm").unwrap();
    session.exp_string("was 81.4 cm").unwrap();
    session.send_control('d').unwrap();
    let rest = session.exp_eof().unwrap();
    assert!(!rest.contains("rror"), "{rest}");
    let history = here.path().join("state/history.txt");
    assert!(fs::read_to_string(&history).unwrap().contains("band = waist + 10 in"));
    assert_eq!(fs::metadata(&history).unwrap().permissions().mode() & 0o777, 0o600);
}

#[test]
fn an_interrupt_at_rest_tells_how_to_leave_and_while_typing_drops_the_text() {
    let here = desk("keyboard");
    let mut session = prompt(here.path());
    session.send_control('c').unwrap();
    session.exp_string("leaves").unwrap();
    session.send("1 + 1 +").unwrap();
    session.flush().unwrap();
    session.exp_string("1 + 1 +").unwrap();
    session.send_control('c').unwrap();
    // The message comes back before more is typed, as with a person.
    session.exp_string("leaves").unwrap();
    session.send_line("20 + 3").unwrap();
    session.exp_string("23").unwrap();
    session.send_line("(1 +").unwrap();
    session.exp_string("... ").unwrap();
    session.send_control('c').unwrap();
    session.exp_string("the unfinished lines are dropped").unwrap();
    session.send_line("leave").unwrap();
    session.exp_eof().unwrap();
}

#[test]
fn an_interrupt_stops_a_computation_and_keeps_the_page() {
    let here = desk("keyboard");
    // Every corner of eleven inputs, each with a slow loop: longer than anybody waits.
    let inputs: String = (0..11).map(|n| format!("count(\"n{n}\", \"n\").between(1, 2),")).collect();
    let used: String = (0..11).map(|n| format!(" + order.n{n}")).collect();
    let slow = format!(
        "//! Slow.\n//! contract: 1   version: 1   licence: CC0-1.0   for: test\nfn inputs() {{ [{inputs}] }}\n\
         fn make(order, ticket) {{ let sum = 0{used}; for i in 0..400000 {{ sum = sum + 1; }} ticket.figure(\"sum\", sum, \"a sum\"); }}\n\
         fn examples() {{ [] }}"
    );
    fs::write(here.path().join("slow.rhai"), slow).unwrap();
    let mut session = prompt(here.path());
    session.send_line("waist = 56 cm").unwrap();
    session.exp_string("waist  56 cm").unwrap();
    session.send_line("check slow").unwrap();
    std::thread::sleep(std::time::Duration::from_millis(400));
    session.send_control('c').unwrap();
    session.exp_string("stopped").unwrap();
    session.send_line("waist * 2").unwrap();
    session.exp_string("112 cm").unwrap();
    session.send_control('d').unwrap();
    session.exp_eof().unwrap();
}

#[test]
fn lines_typed_ahead_are_all_there() {
    let here = desk("keyboard");
    let mut session = prompt(here.path());
    session.send("a = 1 in\rb = 2 in\rc = a + b\rc * 100\r").unwrap();
    session.flush().unwrap();
    session.exp_string("300 in").unwrap();
    session.send_control('d').unwrap();
    session.exp_eof().unwrap();
}

#[test]
fn a_paste_runs_line_by_line_and_stops_at_the_first_fault() {
    let here = desk("keyboard");
    let mut session = prompt(here.path());
    session.send("\u{1b}[200~a = 5 in\nb = 5 inn\nc = 7 in\nd = 8 in\u{1b}[201~\r").unwrap();
    session.flush().unwrap();
    session.exp_string("is not a unit").unwrap();
    session.exp_string("2 more lines were not run").unwrap();
    session.send_line("a * 3").unwrap();
    session.exp_string("15 in").unwrap();
    session.send_control('d').unwrap();
    session.exp_eof().unwrap();
}
