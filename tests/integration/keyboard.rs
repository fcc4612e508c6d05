//! Tests the prompt in a real pseudo-terminal.
//!
//! Every step waits for output, never for time to pass, and for an answer that the typed line itself does not contain.
#![cfg(unix)]

use crate::sessions::transcript_folder;
use rexpect::process::{Signal, WaitStatus};
use rexpect::session::{PtySession, spawn_command};
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::Command;

/// Milliseconds; longer than a loaded machine needs. A passing test never waits this long.
const PATIENCE: u64 = 60_000;

const UP: &str = "\u{1b}[A";
const LEFT: &str = "\u{1b}[D";
const RIGHT: &str = "\u{1b}[C";
/// What a terminal puts around a paste.
const PASTE: (&str, &str) = ("\u{1b}[200~", "\u{1b}[201~");

fn command(here: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command
        .current_dir(here)
        .args(["--workshop", "demo"])
        .env("SHIRR_STATE", here.join("state"))
        .env("SHIRR_DATA", here.join("data"))
        .env("TERM", "xterm")
        .env_remove("NO_COLOR")
        .env_remove("COLUMNS");
    command
}

fn start(command: Command) -> PtySession {
    let mut session = spawn_command(command, Some(PATIENCE)).unwrap();
    answered(&mut session, "Ctrl-D leaves");
    session
}

fn prompt(here: &Path) -> PtySession {
    let mut command = command(here);
    command.env("COLUMNS", "80");
    start(command)
}

/// Sends keys at once, without a line end.
fn press(session: &mut PtySession, keys: &str) {
    session.send(keys).unwrap();
    session.flush().unwrap();
}

/// Waits for an answer and then for the prompt, which appears once the program reads single keys again. The terminal
/// would take a key sent sooner: an end of input would be lost.
#[track_caller]
fn answered(session: &mut PtySession, answer: &str) -> String {
    session.exp_string(answer).unwrap();
    session.exp_string("> ").unwrap()
}

/// Leaves an idle prompt by the end of the input; returns what the screen showed until then.
fn leave(mut session: PtySession) -> String {
    session.send_control('d').unwrap();
    let rest = session.exp_eof().unwrap();
    assert!(matches!(session.process().wait().unwrap(), WaitStatus::Exited(_, 0)), "{rest}");
    rest
}

/// Resizes the window, as dragging its edge does.
fn resize(session: &PtySession, columns: usize) {
    let terminal = session.process().get_file_handle().unwrap();
    let given = Command::new("stty").args(["rows", "24", "cols", &columns.to_string()]).stdin(terminal).status();
    assert!(given.unwrap().success());
}

/// A recipe that runs a loop of `turns` in every order.
fn slow_recipe(turns: u32, inputs: usize) -> String {
    let declared: String = (0..inputs).map(|n| format!("count(\"n{n}\", \"n\").between(1, 2),")).collect();
    let used: String = (0..inputs).map(|n| format!(" + order.n{n}")).collect();
    format!(
        "//! Slow.\n//! contract: 1   version: 1   licence: CC0-1.0   for: test\nfn inputs() {{ [{declared}] }}\n\
         fn make(order, ticket) {{ let sum = 0{used}; for i in 0..{turns} {{ sum = sum + 1; }} ticket.figure(\"sum\", sum, \"a sum\"); }}\n\
         fn examples() {{ [] }}"
    )
}

#[test]
fn a_sum_a_cell_and_a_quiet_leave() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    session.send_line("23 in / 2 in * 10").unwrap();
    answered(&mut session, "115");
    session.send_line("waist = 56 cm").unwrap();
    session.send_line("band = waist + 10 in").unwrap();
    answered(&mut session, "band  81.4 cm");
    session.send_line("waist = 60 cm").unwrap();
    answered(&mut session, "was 81.4 cm");
    let rest = leave(session);
    assert!(!rest.contains("rror"), "{rest}");
    let history = here.path().join("state/history.txt");
    assert!(fs::read_to_string(&history).unwrap().contains("band = waist + 10 in"));
    assert_eq!(fs::metadata(&history).unwrap().permissions().mode() & 0o777, 0o600);
}

/// Without control codes the prompt reads whole lines, and the terminal shows what is typed.
#[test]
fn a_terminal_without_control_codes_is_served_too() {
    let here = transcript_folder("keyboard");
    let mut command = command(here.path());
    command.env("TERM", "dumb").env("COLUMNS", "80");
    let mut session = start(command);
    session.send_line("23 in / 2 in * 10").unwrap();
    answered(&mut session, "115");
    session.send_line("waist = 56 cm").unwrap();
    answered(&mut session, "waist  56 cm");
    session.send_line("leave").unwrap();
    session.exp_eof().unwrap();
    assert!(matches!(session.process().wait().unwrap(), WaitStatus::Exited(_, 0)));
}

#[test]
fn the_end_of_the_input_leaves_quietly_from_an_empty_line_only() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    press(&mut session, "1 + ");
    session.exp_string("1 + ").unwrap();
    session.send_control('d').unwrap();
    press(&mut session, "41\r");
    answered(&mut session, "42");
    let rest = leave(session);
    // The program says nothing; only terminal codes and line ends remain.
    let parts: Vec<&str> =
        rest.split("\u{1b}[").map(|part| part.trim_start_matches(|c: char| !c.is_alphabetic())).collect();
    assert!(parts.iter().all(|part| part.trim().chars().count() <= 1), "{rest:?}");
}

#[test]
fn an_interrupt_at_rest_tells_how_to_leave_and_while_typing_drops_the_text() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    session.send_control('c').unwrap();
    answered(&mut session, "leaves");
    press(&mut session, "1 + 1 +");
    session.exp_string("1 + 1 +").unwrap();
    session.send_control('c').unwrap();
    // Wait for the message before typing more, as a person would.
    answered(&mut session, "leaves");
    session.send_line("20 + 3").unwrap();
    answered(&mut session, "23");
    session.send_line("(1 +").unwrap();
    session.exp_string("... ").unwrap();
    session.send_control('c').unwrap();
    answered(&mut session, "the unfinished lines are dropped");
    session.send_line("leave").unwrap();
    session.exp_eof().unwrap();
    assert!(matches!(session.process().wait().unwrap(), WaitStatus::Exited(_, 0)));
}

#[test]
fn an_interrupt_stops_a_computation_and_keeps_the_page() {
    let here = transcript_folder("keyboard");
    // Checks every corner of eleven inputs, each with a slow loop: longer than anybody waits.
    fs::write(here.path().join("slow.rhai"), slow_recipe(400_000, 11)).unwrap();
    let mut session = prompt(here.path());
    session.send_line("waist = 56 cm").unwrap();
    answered(&mut session, "waist  56 cm");
    session.send_line("sheet slow n0=1 n1=1 n2=1 n3=1 n4=1 n5=1 n6=1 n7=1 n8=1 n9=1 n10=1").unwrap();
    // Shown when the line is read and before anything is computed; from here on Ctrl-C is a signal.
    session.exp_string("checking slow before").unwrap();
    session.send_control('c').unwrap();
    answered(&mut session, "stopped");
    session.send_line("waist * 2").unwrap();
    answered(&mut session, "112 cm");
    leave(session);
}

#[test]
fn an_interrupt_stops_a_cut_at_its_best_plan_so_far() {
    let here = transcript_folder("keyboard");
    // Rectangles for which no plan is soon proved best.
    let rows: String = (0..60).map(|n| format!("p{n},1,{} in,{} in\n", 7 + n * 37 % 23, 5 + n * 53 % 19)).collect();
    fs::write(here.path().join("pieces.csv"), format!("piece,count,along,across\n{rows}")).unwrap();
    fs::write(here.path().join("cloth.csv"), "stock,count,along,across,price\nlawn,,,44 in,$8/yd\n").unwrap();
    let mut session = prompt(here.path());
    session.send_line("cut pieces.csv from cloth.csv, steps 1000000000000").unwrap();
    session.exp_string("searching").unwrap();
    session.send_control('c').unwrap();
    answered(&mut session, "In all 60 pieces");
    session.send_line("20 + 3").unwrap();
    answered(&mut session, "23");
    leave(session);
}

#[test]
fn lines_typed_ahead_are_all_there() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    press(&mut session, "a = 1 in\rb = 2 in\rc = a + b\rc * 100\r");
    answered(&mut session, "300 in");
    leave(session);
}

#[test]
fn lines_typed_while_a_recipe_computes_all_run_in_order() {
    let here = transcript_folder("keyboard");
    // Checks every corner of four inputs before the first order: long enough to type into.
    fs::write(here.path().join("slow.rhai"), slow_recipe(200_000, 4)).unwrap();
    let mut session = prompt(here.path());
    session.send_line("sheet slow n0=1 n1=1 n2=1 n3=1").unwrap();
    session.exp_string("checking slow before").unwrap();
    let ahead: String = (1..=60).map(|n| format!("cell_{n} = {n} in\r")).collect();
    press(&mut session, &format!("first = 1 in\r{ahead}"));
    session.send_line("(cell_1 + cell_30 + cell_60) * 1000").unwrap();
    for n in 1..=60 {
        session.exp_string(&format!("cell_{n}  {n} in")).unwrap();
    }
    answered(&mut session, "91000 in");
    leave(session);
}

/// 500 cells, each with an answer that differs from its line; the unit of the 250th does not exist.
fn five_hundred_lines(end: &str) -> String {
    (1..=500).map(|n| format!("cell_{n} = {n} in{}{end}", if n == 250 { "n" } else { "" })).collect()
}

#[test]
fn a_paste_runs_line_by_line_and_stops_at_the_first_fault() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    let (begin, end) = PASTE;
    press(&mut session, &format!("{begin}a = 5 in\nb = 5 inn\nc = 7 in\nd = 8 in{end}\r"));
    session.exp_string("is not a unit").unwrap();
    answered(&mut session, "2 more lines were not run");
    session.send_line("a * 3").unwrap();
    answered(&mut session, "15 in");
    leave(session);
}

#[test]
fn a_long_paste_stops_at_its_fault_and_counts_what_was_not_run() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    let (begin, end) = PASTE;
    press(&mut session, &format!("{begin}{}{end}\r", five_hundred_lines("\n").trim_end()));
    session.exp_string("cell_249  249 in").unwrap();
    session.exp_string("is not a unit").unwrap();
    answered(&mut session, "250 more lines were not run");
    session.send_line("cell_249 * 1000").unwrap();
    answered(&mut session, "249000 in");
    session.send_line("cell_251 * 1000").unwrap();
    session.send_line("1000 in / 8").unwrap();
    let refused = session.exp_string("125 in").unwrap();
    assert!(!refused.contains("251000"), "{refused}");
    session.exp_string("> ").unwrap();
    leave(session);
}

#[test]
fn a_burst_of_lines_is_typing_ahead_and_none_is_lost() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    // A terminal that does not mark a paste sends what a fast typist would, line after line. Its end cannot be seen, so
    // the program reports the error and runs the next line.
    press(&mut session, &five_hundred_lines("\r"));
    session.exp_string("cell_249  249 in").unwrap();
    session.exp_string("is not a unit").unwrap();
    for n in 251..=500 {
        session.exp_string(&format!("cell_{n}  {n} in")).unwrap();
    }
    session.send_line("(cell_1 + cell_500) * 1000").unwrap();
    answered(&mut session, "501000 in");
    leave(session);
}

/// The length of the longest line, without terminal codes.
fn widest(shown: &str) -> usize {
    let mut plain = String::new();
    let mut parts = shown.split("\u{1b}[");
    plain.push_str(parts.next().unwrap_or_default());
    for part in parts {
        plain.push_str(part.trim_start_matches(|c: char| !c.is_alphabetic()).get(1..).unwrap_or_default());
    }
    plain.lines().map(|line| line.trim_end().len()).max().unwrap_or(0)
}

#[test]
fn an_answer_fits_the_window_as_it_is_when_it_is_given() {
    let here = transcript_folder("keyboard");
    let mut session = start(command(here.path()));
    // The answer begins with the word and others for it on a line of their own.
    let begins = "\ngathering (also gathers, shirring)\r\n";
    resize(&session, 110);
    session.send_line("help gathering").unwrap();
    let wide = answered(&mut session, begins);
    assert!((70..=110).contains(&widest(&wide)), "{wide}");
    // Resize between two answers.
    resize(&session, 50);
    session.send_line("help gathering").unwrap();
    let narrow = answered(&mut session, begins);
    assert!(widest(&narrow) <= 50, "{narrow}");
    // Resize while typing.
    press(&mut session, "help gath");
    session.exp_string("ath").unwrap();
    resize(&session, 40);
    press(&mut session, "ering\r");
    let narrower = answered(&mut session, begins);
    assert!(widest(&narrower) <= 40, "{narrower}");
    leave(session);
}

#[test]
fn two_windows_keep_each_others_lines() {
    let here = transcript_folder("keyboard");
    let history = here.path().join("state/history.txt");
    let kept = || fs::read_to_string(&history).unwrap();
    let (mut left, mut right) = (prompt(here.path()), prompt(here.path()));
    left.send_line("left_one = 1000 in / 8").unwrap();
    answered(&mut left, "125 in");
    assert!(kept().contains("left_one = 1000 in / 8"), "{}", kept());
    right.send_line("right_one = 1000 in / 4").unwrap();
    answered(&mut right, "250 in");
    left.send_line("left_two = 1000 in / 2").unwrap();
    answered(&mut left, "500 in");
    let lines = kept();
    for line in ["left_one = 1000 in / 8", "right_one = 1000 in / 4", "left_two = 1000 in / 2"] {
        assert!(lines.lines().any(|kept| kept == line), "{lines}");
    }
    assert_eq!(fs::metadata(&history).unwrap().permissions().mode() & 0o777, 0o600);
    leave(left);
    leave(right);
    let mut later = prompt(here.path());
    press(&mut later, UP);
    later.exp_string("left_two = 1000 in / 2").unwrap();
    press(&mut later, UP);
    later.exp_string("right_one = 1000 in / 4").unwrap();
    press(&mut later, "\r");
    answered(&mut later, "250 in");
    leave(later);
}

#[test]
fn the_tab_key_completes_names() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    session.send_line("waistband = 300 cm / 4").unwrap();
    answered(&mut session, "75 cm");
    press(&mut session, "2 * waistb\t");
    session.exp_string("waistband").unwrap();
    press(&mut session, "\r");
    session.exp_string("150 cm").unwrap();
    press(&mut session, "strips_lai\t10, 6 in, 1/2 in)\r");
    answered(&mut session, "55 1/2 in");
    leave(session);
}

#[test]
fn the_tab_key_offers_what_an_answer_may_be() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    // The only cloth that begins so, in the quotes that its blanks need.
    press(&mut session, "run gathered_trim as frill cloth=blue\t");
    session.exp_string("cloth='blue check lawn'").unwrap();
    press(&mut session, " edge=1 m depth=6 cm\r");
    answered(&mut session, "frill  2 pieces to cut");
    // In an order of the page, with the quote opened and in other capitals.
    press(&mut session, "change frill cloth='WHITE C\t");
    session.exp_string("cloth='white cotton lawn'").unwrap();
    press(&mut session, "\r");
    answered(&mut session, "frill  2 pieces to cut");
    leave(session);
}

#[test]
fn the_tab_key_offers_what_a_question_may_be_answered_with() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    session.send_line("run gathered_trim as frill edge=1 m depth=6 cm").unwrap();
    session.exp_string("frill cloth").unwrap();
    session.exp_string("? ").unwrap();
    // All of them at a second stroke, the one that no list has as well.
    press(&mut session, "\t\t");
    session.exp_string("white cotton lawn").unwrap();
    session.exp_string("any").unwrap();
    session.exp_string("? ").unwrap();
    // Help on a word is no answer: the question comes again.
    press(&mut session, "help selvedge\r");
    session.exp_string("the woven edge of the cloth").unwrap();
    session.exp_string("frill cloth").unwrap();
    session.exp_string("? ").unwrap();
    press(&mut session, "blue\t");
    session.exp_string("blue check lawn").unwrap();
    press(&mut session, "\r");
    answered(&mut session, "frill  2 pieces to cut");
    leave(session);
}

#[test]
fn an_answer_with_an_escape_code_does_not_reach_the_terminal() {
    let here = transcript_folder("keyboard");
    // A recipe from elsewhere, one of whose words would set the title of the window.
    let recipe = "//! A bag.\n//! contract: 1   version: 1   licence: CC0-1.0   for: test\n\
        fn inputs() { [choice(\"end\", \"lower end\", [\"round \\x1b]0;gone\\x07\", \"rounded\", \"roundish\"])] }\n\
        fn make(order, ticket) { ticket.figure(\"sum\", 1, \"a sum\"); }\nfn examples() { [] }";
    fs::write(here.path().join("bag.rhai"), recipe).unwrap();
    let mut session = prompt(here.path());
    session.send_line("run bag").unwrap();
    session.exp_string("lower end").unwrap();
    session.exp_string("? ").unwrap();
    press(&mut session, "rou\t\t");
    let listed = session.exp_string("roundish").unwrap();
    assert!(listed.contains("rounded") && !listed.contains("gone"), "{listed:?}");
    session.send_control('c').unwrap();
    answered(&mut session, "stopped; nothing was made");
    leave(session);
}

#[test]
fn the_tab_key_helps_to_answer_an_order_from_the_shell() {
    let here = transcript_folder("keyboard");
    let mut command = command(here.path());
    command.env("COLUMNS", "80").args(["run", "gathered_trim", "edge=1 m", "depth=6 cm"]);
    let mut session = spawn_command(command, Some(PATIENCE)).unwrap();
    session.exp_string("? ").unwrap();
    press(&mut session, "blue\t\r");
    session.exp_string("PRICE    $").unwrap();
    session.exp_eof().unwrap();
}

#[test]
fn the_tab_key_offers_the_few_answers_of_a_set_up() {
    let here = transcript_folder("keyboard");
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command.current_dir(here.path()).env("TERM", "xterm").env("COLUMNS", "80").env_remove("NO_COLOR");
    command.env("SHIRR_STATE", here.path().join("state")).env("SHIRR_DATA", here.path().join("data"));
    let mut session = start(command);
    session.send_line("own workshop in mine").unwrap();
    session.exp_string("inch or cm?").unwrap();
    session.exp_string("? ").unwrap();
    press(&mut session, "c\t\t");
    session.exp_string("cancel").unwrap();
    session.exp_string("? ").unwrap();
    press(&mut session, "m\r");
    session.exp_string("your money").unwrap();
    session.exp_string("? ").unwrap();
    session.send_line("? selvedge").unwrap();
    session.exp_string("the woven edge of the cloth").unwrap();
    session.exp_string("your money").unwrap();
    session.exp_string("? ").unwrap();
    session.send_control('c').unwrap();
    answered(&mut session, "stopped; nothing was written");
    leave(session);
}

#[test]
fn a_hint_is_dim_and_never_becomes_part_of_the_line() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    press(&mut session, "strips_laid(10, ");
    session.exp_string("\u{1b}[2m  count, [width], overlap = 0 in\u{1b}[22m").unwrap();
    press(&mut session, &format!("6 in{RIGHT}{RIGHT}, 1/2 in"));
    session.exp_string("count, width, [overlap = 0 in]").unwrap();
    // Away from the end there is no hint, and only the typed text is entered.
    press(&mut session, &format!(")\u{1b}[D{LEFT}{RIGHT}{RIGHT}\r"));
    answered(&mut session, "55 1/2 in");
    leave(session);
}

#[test]
fn without_colour_a_hint_has_marks_and_read_aloud_there_is_none() {
    let here = transcript_folder("keyboard");
    let mut uncoloured = command(here.path());
    uncoloured.env("NO_COLOR", "1");
    let mut session = start(uncoloured);
    press(&mut session, "strips_laid(");
    // The marks are « and »; the test's reader sees their bytes.
    let before = session.exp_string("[count], width, overlap = 0 in ").unwrap();
    assert!(before.ends_with("  \u{c2}\u{ab} ") && !before.contains("[2m"), "{before:?}");
    press(&mut session, "10, 6 in)\r");
    answered(&mut session, "60 in");
    leave(session);
    let mut aloud = command(here.path());
    aloud.arg("--plain");
    let mut session = start(aloud);
    press(&mut session, "strips_laid(10, 6 in)\r");
    let before = session.exp_string("60 in").unwrap();
    assert!(!before.contains("width"), "{before:?}");
    session.exp_string("> ").unwrap();
    leave(session);
}

#[test]
fn a_page_without_a_name_is_offered_back_after_a_kill() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    session.send_line("waist = 56 cm").unwrap();
    answered(&mut session, "waist  56 cm");
    session.send_line("run gathered_trim as frill").unwrap();
    session.exp_string("edge it is sewn to").unwrap();
    session.exp_string("? ").unwrap();
    press(&mut session, "wai");
    session.exp_string("wai").unwrap();
    session.process_mut().kill(Signal::SIGKILL).unwrap();
    let mut command = command(here.path());
    command.env("COLUMNS", "80");
    let mut later = spawn_command(command, Some(PATIENCE)).unwrap();
    answered(&mut later, "Your last page (1 line) has no name yet: open left");
    later.send_line("open left").unwrap();
    answered(&mut later, "the page that was left: 1 line, 1 cell");
    later.send_line("twice = waist * 2").unwrap();
    answered(&mut later, "112 cm");
    let pages = fs::read_dir(here.path().join("state/pages")).unwrap().map(|entry| entry.unwrap().path());
    let texts: Vec<_> = pages.filter(|path| path.extension().is_some_and(|end| end == "txt")).collect();
    assert_eq!(texts.len(), 1, "{texts:?}");
    assert_eq!(fs::read_to_string(&texts[0]).unwrap(), "waist = 56 cm\ntwice = waist * 2\n");
    assert_eq!(fs::metadata(&texts[0]).unwrap().permissions().mode() & 0o777, 0o600);
    leave(later);
}

#[test]
fn lines_without_a_name_are_set_aside_when_a_page_is_opened() {
    let here = transcript_folder("keyboard");
    fs::write(here.path().join("fair.txt"), "hem = 3 cm\n").unwrap();
    let mut session = prompt(here.path());
    session.send_line("waist = 56 cm").unwrap();
    answered(&mut session, "waist  56 cm");
    session.send_line("open fair.txt").unwrap();
    answered(&mut session, "1 line, 1 cell");
    session.send_line("twice = hem * 2").unwrap();
    answered(&mut session, "6 cm");
    session.send_line("open left").unwrap();
    answered(&mut session, "the page that was left: 1 line, 1 cell");
    session.send_line("waist * 2").unwrap();
    answered(&mut session, "112 cm");
    leave(session);
    assert_eq!(fs::read_to_string(here.path().join("fair.txt")).unwrap(), "hem = 3 cm\ntwice = hem * 2\n");
}

#[test]
fn lines_kept_aside_after_another_window_wrote_are_there_after_opening_again() {
    let here = transcript_folder("keyboard");
    let page = here.path().join("fair.txt");
    fs::write(&page, "waist = 56 cm\n").unwrap();
    let mut session = prompt(here.path());
    session.send_line("open fair.txt").unwrap();
    answered(&mut session, "1 line, 1 cell");
    // Another window, or an editor, writes the page.
    fs::write(&page, "waist = 60 cm\nband = 70 cm\n").unwrap();
    session.send_line("hem = 3 cm").unwrap();
    answered(&mut session, "fair.txt was changed by another window");
    session.send_line("open fair.txt").unwrap();
    answered(&mut session, "2 lines, 2 cells");
    assert_eq!(fs::read_to_string(&page).unwrap(), "waist = 60 cm\nband = 70 cm\n");
    session.send_line("open left").unwrap();
    answered(&mut session, "2 lines, 2 cells");
    session.send_line("hem * 2").unwrap();
    answered(&mut session, "6 cm");
    session.send_line("waist * 2").unwrap();
    answered(&mut session, "112 cm");
    leave(session);
}

#[test]
fn questions_are_asked_answered_dropped_and_called_up_again() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    session.send_line("run gathered_trim as frill").unwrap();
    session.exp_string("Ctrl-C stops").unwrap();
    session.exp_string("edge it is sewn to").unwrap();
    session.exp_string("? ").unwrap();
    session.send_line("leave").unwrap();
    answered(&mut session, "stopped; nothing was made");
    session.send_line("run gathered_trim as frill").unwrap();
    session.exp_string("edge it is sewn to").unwrap();
    session.exp_string("? ").unwrap();
    // An explanation is no answer: the same question waits.
    session.send_line("help").unwrap();
    session.exp_string("a number alone").unwrap();
    session.exp_string("? ").unwrap();
    session.send_line("1 m").unwrap();
    session.exp_string("finished depth").unwrap();
    session.exp_string("? ").unwrap();
    session.send_control('c').unwrap();
    answered(&mut session, "stopped; nothing was made");
    session.send_line("run gathered_trim as frill edge=1 m").unwrap();
    session.exp_string("finished depth").unwrap();
    session.exp_string("? ").unwrap();
    session.send_line("6 cm").unwrap();
    session.exp_string("frill cloth").unwrap();
    session.exp_string("? ").unwrap();
    session.send_line("any 45 in at $6/yd").unwrap();
    answered(&mut session, "frill  2 pieces to cut");
    // The history holds the whole line, with its answers.
    press(&mut session, UP);
    session.exp_string("run gathered_trim as frill edge=1 m depth=6 cm cloth=any 45 in at $6/yd").unwrap();
    press(&mut session, "\r");
    answered(&mut session, "frill  2 pieces to cut");
    leave(session);
}

#[test]
fn an_empty_line_at_a_question_takes_what_is_usual() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    session.send_line("edge = 1 m").unwrap();
    answered(&mut session, "edge  1 m");
    session.send_line("run gathered_trim as frill depth=6 cm cloth=any 45 in at $6/yd").unwrap();
    session.exp_string("(from edge)").unwrap();
    session.exp_string("? ").unwrap();
    session.send_line("").unwrap();
    answered(&mut session, "frill  2 pieces to cut");
    leave(session);
}

/// An order on the command line, at a terminal, without the length of its edge.
fn order_at_a_terminal(here: &Path) -> PtySession {
    let mut command = command(here);
    command.env("COLUMNS", "80").args(["run", "gathered_trim", "depth=6 cm", "cloth=any 45 in at $6/yd"]);
    let mut session = spawn_command(command, Some(PATIENCE)).unwrap();
    session.exp_string("edge it is sewn to").unwrap();
    session.exp_string("? ").unwrap();
    session
}

#[test]
fn an_order_from_the_shell_asks_what_is_missing() {
    let here = transcript_folder("keyboard");
    let mut session = order_at_a_terminal(here.path());
    session.send_line("1 m").unwrap();
    session.exp_string("PRICE    $").unwrap();
    let rest = session.exp_eof().unwrap();
    assert!(rest.contains("NEXT"), "{rest}");
    assert!(matches!(session.process().wait().unwrap(), WaitStatus::Exited(_, 0)), "{rest}");

    let mut session = order_at_a_terminal(here.path());
    session.send_control('c').unwrap();
    session.exp_string("stopped; nothing was made").unwrap();
    let rest = session.exp_eof().unwrap();
    assert!(matches!(session.process().wait().unwrap(), WaitStatus::Exited(_, 1)), "{rest}");
}

#[test]
fn everything_is_shown_a_screen_at_a_time() {
    let here = transcript_folder("keyboard");
    let mut session = prompt(here.path());
    resize(&session, 80);
    session.send_line("run gathered_trim as frill edge=1 m depth=6 cm cloth=any 45 in at $6/yd").unwrap();
    answered(&mut session, "frill  2 pieces to cut");
    session.send_line("all frill").unwrap();
    session.exp_string("-- 23 of").unwrap();
    session.send_line("").unwrap();
    session.exp_string("-- 46 of").unwrap();
    session.send_line("q").unwrap();
    session.exp_string("> ").unwrap();
    session.send_line("20 + 3").unwrap();
    answered(&mut session, "23");
    leave(session);
}
