//! A workshop of one's own: set up at the prompt from an empty folder, the invented one laid down, lines added.
#![cfg(unix)]

use crate::command_line::Disk;
use crate::sessions::replay;
use rexpect::session::{PtySession, spawn_command};
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

/// What a maker answers who knows her figures. Pencil, for the order that comes of it:
///
/// A skirt of 24 in waist, twice that round, 17 1/2 in long. 48 in and two seams of 1/2 in are wider than the cloth, so
/// two panels, each 24 + 1 = 25 in across and 17 1/2 + 1 hem + 1 1/2 casing = 20 in along. Two of 25 in do not lie side by
/// side on 43 1/2 in: 40 in of washed cloth, 40 / 0.96 = 41.667 in as it is bought.
///
/// Built-in minutes, from recipes/demo/rates.csv: cutting 2 x 1.5 + 4 = 7; seams 40 in at 1.6 a yard + 2 = 3.778; their
/// edges 80 in at 0.9 a yard + 4 = 6; casing and hem 96 in = 2.4384 m at 4 a metre + 3 = 12.754; elastic 4; pressing
/// 6 + 2 = 8. Together 41.531, asked as 42. She says 55: 132.43 %.
///
/// Work $21 x 55/60 = $19.25, rent $5.50 x 55/60 = $5.04. Cloth 41.667 in and 5 % are 43.75 in, at $9.25/yd $11.24.
/// Elastic 24 x 0.95 + 1 lap = 23.8 in, at $0.95/yd $0.63. Thread: 136 in of lockstitch x 2.5, 80 in of overlock x 14,
/// 2 in of zigzag x 7 (ratios: Coats, and Carr and Latham, as `help thread` names them), and 15 %: 1695 in = 47.1 yd, at
/// $4.40 for 3000 yd $0.07. Cost $36.23. 45 % of it is $16.30, together $52.53; / (1 - 0.065) = $56.18.
///
/// In steps of 1/8 yd (4 1/2 in), 41.667 in are 45 in = 1 1/4 yd, $11.56, and 23.8 in are 27 in = 3/4 yd, $0.71.
const ANSWERS: [&str; 20] = [
    "",
    "",
    "21",
    "5.50",
    "45",
    "6.5",
    "55",
    "white lawn",
    "43 1/2",
    "9.25/yd",
    "yes",
    "4 2",
    "soft 1 in",
    "0.95/yd",
    "4.40 for 3000 yd",
    "",
    "24",
    "17.5",
    "",
    "",
];

/// How the order is told: minutes and price by pencil.
const ORDER: &str = "first  2 pieces to cut, ≈ 55 min, $56.18 with built-in minutes";

const FILES: [&str; 3] = ["settings.csv", "materials.csv", "rates.csv"];

/// The same from a pseudo-terminal, which hands on single bytes: without the sign before the minutes.
const TOLD: &str = "55 min, $56.18 with built-in minutes";

/// The lines as they are typed in a transcript.
fn typed(lines: &[&str]) -> String {
    lines.iter().map(|line| format!("> {line}\n")).collect()
}

/// What is shown when these lines are piped into the program in this folder.
fn shown(here: &Path, lines: &[&str]) -> String {
    replay(&typed(lines), here)
}

/// The files of a folder, by name.
fn files(folder: &Path) -> BTreeMap<String, String> {
    let paths = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_file());
    paths
        .map(|path| (path.file_name().unwrap().to_string_lossy().into_owned(), fs::read_to_string(path).unwrap()))
        .collect()
}

fn set_up() -> Vec<&'static str> {
    std::iter::once("own workshop").chain(ANSWERS).collect()
}

#[test]
fn twenty_answers_make_a_workshop_and_a_priced_order() {
    let here = tempfile::tempdir().unwrap();
    let out = shown(here.path(), &set_up());
    for line in [
        "your workshop, in the folder HERE",
        "7  how long a plain gathered skirt takes you, waist 24 in, 17 1/2 in long, cutting to packing?  [42 min]",
        "19  cloth: skirt cloth  [white lawn]",
        "20  elastic: elastic for the waist  [soft 1 in]",
        "settings.csv, materials.csv and rates.csv are in the folder HERE",
        ORDER,
    ] {
        assert!(out.lines().any(|shown| shown == line), "{line}\n{out}");
    }
    for part in [
        "PRICE    $56.18   work about 55 min   cost $36.23",
        "MINUTES  built-in minutes, 1.3243 times, until you time your own",
        "white lawn 1 1/4 yd $11.56",
        "soft 1 in 3/4 yd $0.71",
        "sewing thread 1 of 3000 yd $4.40",
    ] {
        assert!(out.contains(part), "{part}\n{out}");
    }
    assert!(!out.contains("[exit"), "{out}");
    let files = files(here.path());
    assert_eq!(files.keys().collect::<Vec<_>>(), ["materials.csv", "rates.csv", "settings.csv"]);
    // The remarks stand above the headings; what is usual and was not asked is said there.
    let rows = |file: &str| -> Vec<&str> { files[file].lines().filter(|line| !line.starts_with("# ")).collect() };
    assert_eq!(
        rows("materials.csv"),
        [
            "material,kind,usable width,put-up,price,price for,sold by,repeat,half drop,nap,shrink along,shrink across,\
             washing,weight,fibre,repeat across",
            "white lawn,cloth,43 1/2 in,,$9.25,yd,1/8 yd,,no,no,4 %,2 %,washed first,,,",
            "soft 1 in,notion,1 in,,$0.95,yd,1/8 yd,,no,no,,,,,,",
            "sewing thread,thread,,3000 yd,$4.40,put-up,put-up,,no,no,,,,,,",
        ]
    );
    assert_eq!(
        rows("rates.csv"),
        [
            "operation,per,minutes,set-up,value",
            "wage,,,,$21.00/h",
            "overhead,,,,$5.50/h",
            "mark-up,,,,45 %",
            "fee,,,,6.5 %",
            "waste,,,,5 %",
            "built-in minutes,,,,132.43 %",
        ]
    );
    assert!(files["materials.csv"].contains("1/8 yd or 0.1 m is usual and not asked"));
    assert!(files["rates.csv"].contains("The waste is usual and not asked"));
    // The next start finds it, and the minutes stay marked in every table.
    let next = shown(
        here.path(),
        &["run gathered_skirt as again waist=24 in skirt=17.5 in cloth=white lawn elastic=soft 1 in", "all again"],
    );
    assert!(next.contains("again  2 pieces to cut, ≈ 55 min, $56.18 with built-in minutes"), "{next}");
    assert!(next.contains("built-in minutes, 1.3243 times, until you time: cut a piece, sew a seam"), "{next}");
    assert!(next.contains("at $21.00/h; built-in minutes, 1.3243 times"), "{next}");
}

#[test]
fn one_who_knows_little_ends_with_a_price_and_minutes_too() {
    let here = tempfile::tempdir().unwrap();
    // Only what has no usual answer; the skirt takes the built-in minutes.
    let out = shown(
        here.path(),
        &["own workshop", "", "", "20", "", "", "", "", "lawn", "44", "8/yd", "", "", "", "", "24", "17 1/2", "", ""],
    );
    // Pencil, as above: the panel is 1/4 in shorter with an elastic of 3/4 in, 19 3/4 in: seams 39 1/2 in, 41.484 min, so
    // $13.83. Cloth 39 1/2 in and 5 % at $8/yd $9.22. Cost and price $23.05; elastic and thread have no price.
    assert!(out.contains("first  2 pieces to cut, ≈ 41 min, $23.05; the price leaves out: "), "{out}");
    assert!(out.contains("with built-in minutes"), "{out}");
    assert!(!out.contains("[exit"), "{out}");
}

/// A prompt in a real pseudo-terminal, in a folder without a workshop, asked to set one up.
fn asked(here: &Path, state: &Path, term: &str, arguments: &[&str]) -> PtySession {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command
        .args(arguments)
        .current_dir(here)
        .env("SHIRR_STATE", state)
        .env("SHIRR_DATA", state.join("data"))
        .env("TERM", term)
        .env("COLUMNS", "120");
    let mut session = spawn_command(command, Some(60_000)).unwrap();
    session.exp_string("No workshop is in this folder").unwrap();
    session.exp_string("> ").unwrap();
    session.send_line("own workshop").unwrap();
    session
}

/// Answers the questions in a real pseudo-terminal; returns how many answers were typed before the order was told.
fn at_a_terminal(term: &str, arguments: &[&str], order: &str) -> usize {
    let (here, state) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let mut session = asked(here.path(), state.path(), term, arguments);
    for answer in ANSWERS {
        session.exp_string("  ? ").unwrap();
        assert!(files(here.path()).is_empty(), "written before the last answer");
        session.send_line(answer).unwrap();
    }
    session.exp_string(order).unwrap();
    session.exp_string("> ").unwrap();
    session.send_line("leave").unwrap();
    session.exp_eof().unwrap();
    assert_eq!(files(here.path()).into_keys().collect::<Vec<_>>(), ["materials.csv", "rates.csv", "settings.csv"]);
    ANSWERS.len()
}

#[test]
fn an_interrupt_and_the_end_of_the_input_stop_it_and_nothing_is_written() {
    let (here, state) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let mut session = asked(here.path(), state.path(), "xterm", &[]);
    session.exp_string("  ? ").unwrap();
    session.send_line("").unwrap();
    session.exp_string("your money").unwrap();
    session.exp_string("  ? ").unwrap();
    session.send_control('c').unwrap();
    session.exp_string("stopped; nothing was written").unwrap();
    session.exp_string("> ").unwrap();
    session.send_line("own workshop").unwrap();
    session.exp_string("your tape").unwrap();
    session.exp_string("  ? ").unwrap();
    session.send_control('d').unwrap();
    session.exp_eof().unwrap();
    assert!(files(here.path()).is_empty());
}

/// A file that appears while the questions are asked is not written over, and no answer is lost for it.
#[test]
fn a_file_that_appears_meanwhile_stays_and_so_do_the_answers() {
    let (here, state) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let mut session = asked(here.path(), state.path(), "xterm", &[]);
    for answer in &ANSWERS[..19] {
        session.exp_string("  ? ").unwrap();
        session.send_line(answer).unwrap();
    }
    session.exp_string("20  elastic").unwrap();
    session.exp_string("  ? ").unwrap();
    fs::write(here.path().join("rates.csv"), "mine").unwrap();
    session.send_line("").unwrap();
    session.exp_string("nothing was written: there is a file").unwrap();
    session.exp_string("20  elastic").unwrap();
    session.exp_string("  ? ").unwrap();
    assert_eq!(files(here.path()), BTreeMap::from([("rates.csv".to_owned(), "mine".to_owned())]));
    fs::remove_file(here.path().join("rates.csv")).unwrap();
    session.send_line("").unwrap();
    session.exp_string(TOLD).unwrap();
    session.exp_string("> ").unwrap();
    session.send_line("leave").unwrap();
    session.exp_eof().unwrap();
    assert_eq!(files(here.path()).len(), 3);
}

#[test]
fn a_terminal_asks_at_most_twenty_questions() {
    assert!(at_a_terminal("xterm", &[], TOLD) <= 20);
}

#[test]
fn a_terminal_without_control_codes_asks_the_same() {
    assert!(at_a_terminal("dumb", &[], TOLD) <= 20);
}

#[test]
fn read_aloud_asks_the_same() {
    // Signs are words, and what is usual is said and not bracketed.
    assert!(
        at_a_terminal("dumb", &["--plain"], "first is 2 pieces to cut, about 55 min, $56.18 with built-in minutes")
            <= 20
    );
}

#[test]
fn the_invented_workshop_gives_a_first_result_in_two_lines() {
    let here = tempfile::tempdir().unwrap();
    let lines = [
        "demo workshop",
        "run gathered_skirt as first waist=24 in skirt=17.5 in cloth=white cotton lawn elastic=elastic 1 in",
        "workshop",
    ];
    let out = shown(here.path(), &lines);
    assert!(out.contains("first  2 pieces to cut, ≈ 42 min, $"), "{out}");
    assert!(!out.contains("built-in") && !out.contains("[exit"), "{out}");
    assert!(out.contains("folder HERE\n") && out.contains("materials.csv  19 materials"), "{out}");
    // Byte for byte what lies in the source tree.
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes/demo");
    assert_eq!(files(here.path()), files(&demo));
    // A second time nothing is written over.
    fs::write(here.path().join("stock.csv"), "mine").unwrap();
    fs::remove_file(here.path().join("sizes.csv")).unwrap();
    let again = shown(here.path(), &["demo workshop"]);
    assert!(!here.path().join("sizes.csv").exists() && again.contains("[exit 1]"), "{again}");
    assert_eq!(fs::read_to_string(here.path().join("stock.csv")).unwrap(), "mine");
}

#[test]
fn what_is_dropped_leaves_nothing() {
    let here = tempfile::tempdir().unwrap();
    let out = shown(here.path(), &["own workshop", "", "", "21", "cancel", "20 + 3"]);
    assert!(out.contains("stopped; nothing was written\n> 20 + 3\n23\n"), "{out}");
    // In the order too, at its last question.
    let answers = &set_up()[..20];
    let out = shown(here.path(), &[answers, &["cancel"]].concat());
    assert!(out.contains("stopped; nothing was written"), "{out}");
    let out = shown(here.path(), answers);
    assert!(
        out.ends_with("the lines ended before all questions were answered; nothing was written\n[exit 1]\n"),
        "{out}"
    );
    assert!(files(here.path()).is_empty());
}

#[test]
fn a_wrong_answer_is_told_why_and_asked_again_and_one_can_go_back() {
    let here = tempfile::tempdir().unwrap();
    let mut lines = vec!["own workshop", "back", "yards", "help", "cm", "back"];
    lines.extend(&ANSWERS[..16]);
    // Back out of the order to another recipe and to this one again; a wrong measure; a list.
    lines.extend(["back", "list", "no_such_recipe", "", "24", "back", "24", "3 min", "17.5", "list", ""]);
    lines.push("");
    let out = shown(here.path(), &lines);
    for said in [
        "this is the first question",
        "“yards” is no tape\n  type inch or cm",
        "  type inch or cm: a length without a unit is meant on this tape\n> cm\n  cm\n2  your money",
        "\n> back\n1  your tape: inch or cm?  [inch]\n> \n  inch\n",
        "> back\n16  your first order",
        "gathered_trim\n",
        "there is no recipe “no_such_recipe”",
        "> back\n17  waist",
        "19  cloth: skirt cloth  [white lawn]",
        "white lawn   43 1/2 in, $9.25/yd",
        ORDER,
    ] {
        assert!(out.contains(said), "{said}\n{out}");
    }
    assert_eq!(files(here.path()).len(), 3);
}

#[test]
fn the_first_order_may_wait_and_another_folder_may_be_named() {
    let here = tempfile::tempdir().unwrap();
    let mut lines = vec!["own workshop in mine"];
    lines.extend(&ANSWERS[..15]);
    lines.extend([
        "none",
        "workshop",
        "run gathered_skirt as skirt waist=24 in skirt=17.5 in cloth=white lawn elastic=soft 1 in",
    ]);
    let out = shown(here.path(), &lines);
    assert!(out.contains("are in the folder mine; the next time, start there or type shirr --workshop"), "{out}");
    assert!(out.contains("folder mine\n") && out.contains("all minutes built in"), "{out}");
    assert!(out.contains("skirt  2 pieces to cut, ≈ 55 min, $56.18 with built-in minutes"), "{out}");
    assert!(files(here.path()).is_empty());
    assert_eq!(files(&here.path().join("mine")).len(), 3);
}

#[test]
fn files_that_are_there_are_named_and_left_alone() {
    let here = tempfile::tempdir().unwrap();
    let stock = "stock,material,along\n";
    fs::write(here.path().join("stock.csv"), stock).unwrap();
    let out = shown(here.path(), &["own workshop"]);
    assert!(out.contains("stock.csv is in HERE already, and no file is written over"), "{out}");
    assert!(out.contains("type own workshop in mine for a folder of its own"), "{out}");
    assert_eq!(files(here.path()), BTreeMap::from([("stock.csv".to_owned(), stock.to_owned())]));
}

#[test]
fn a_folder_that_cannot_be_written_to_is_told_before_the_first_question() {
    let here = tempfile::tempdir().unwrap();
    let disk = Disk::at(&here.path().join("disk"), "1m");
    let refused = disk.refuse();
    let state = tempfile::tempdir().unwrap();
    let mut shirr = process(here.path(), state.path());
    let mut child = shirr.envs(refused).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    child.stdin.take().unwrap().write_all(b"own workshop in disk\ndemo workshop in disk/shop\n").unwrap();
    let done = child.wait_with_output().unwrap();
    let out = String::from_utf8([done.stdout, done.stderr].concat()).unwrap();
    assert_eq!(out.matches("the folder is read-only").count(), 2, "{out}");
    assert!(!out.contains("your tape"), "{out}");
}

fn process(here: &Path, state: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command
        .current_dir(here)
        .env("SHIRR_STATE", state)
        .env("SHIRR_DATA", state.join("data"))
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    command
}

#[test]
fn a_kill_at_any_moment_leaves_no_half_file() {
    let state = tempfile::tempdir().unwrap();
    let lines: String = set_up().iter().map(|line| format!("{line}\n")).collect();
    let whole = {
        let here = tempfile::tempdir().unwrap();
        shown(here.path(), &set_up());
        files(here.path())
    };
    for turn in 0..16u64 {
        let here = tempfile::tempdir().unwrap();
        let mut child = process(here.path(), state.path()).spawn().unwrap();
        child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
        std::thread::sleep(Duration::from_millis(turn * turn));
        child.kill().unwrap();
        child.wait().unwrap();
        for (name, text) in files(here.path()) {
            // A text that is still under a name of its own, which begins with a point, is none of the workshop's.
            assert!(name.starts_with('.') || whole.get(&name) == Some(&text), "{name}: {text}");
        }
    }
    assert_eq!(whole.keys().collect::<Vec<_>>(), {
        let mut names = FILES;
        names.sort_unstable();
        names
    });
}

/// Pressing by her own clock: 30 min in place of 8 x 1.3243. 55 - 10.594 + 30 = 74.406 min: work $26.04, rent $6.82,
/// goods as before $11.94. Cost $44.80, 45 % $20.16, together $64.96; / 0.935 = $69.48.
#[test]
fn a_line_that_is_added_is_reckoned_with_at_once() {
    let here = tempfile::tempdir().unwrap();
    shown(here.path(), &set_up());
    let before = files(here.path());
    let order = "run gathered_skirt as first waist=24 in skirt=17.5 in cloth=white lawn elastic=soft 1 in";
    let out = shown(
        here.path(),
        &[
            order,
            "add rate press, check and pack, 30 min each",
            "add rate press, check and pack, 20 min each",
            "add cloth net, 54 in wide, $2/yd, loses nothing",
            "add remnant N1, net, 2 yd, lot 7",
            "add trial net once, net, 20 in to 10 in",
            "run gathered_skirt as second waist=24 in skirt=17.5 in cloth=net elastic=soft 1 in fullness=net once",
        ],
    );
    assert!(out.contains("added to rates.csv: press, check and pack, per each, minutes 30 min"), "{out}");
    assert!(out.contains("first  2 pieces to cut, ≈ 1 h 14 min, $69.48 with built-in minutes"), "{out}");
    assert!(out.contains("“press, check and pack” is in rates.csv already"), "{out}");
    // 54 in hold 49 in across: one panel.
    assert!(out.contains("second  1 piece to cut, "), "{out}");
    let after = files(here.path());
    assert_eq!(after["rates.csv"], format!("{}\"press, check and pack\",each,30 min,,\r\n", before["rates.csv"]));
    assert!(after["materials.csv"].starts_with(&before["materials.csv"]));
    assert_eq!(after["stock.csv"].lines().nth(1), Some("N1,net,7,,2 yd,,,,,"));
    assert_eq!(after["settings.csv"], before["settings.csv"]);
}

#[test]
fn the_first_line_that_is_added_makes_the_workshop() {
    let here = tempfile::tempdir().unwrap();
    let out = shown(here.path(), &["add cloth lawn, 44 in wide, $8/yd", "add rate wage, 20", "workshop"]);
    assert!(out.contains("materials.csv is in the folder HERE"), "{out}");
    assert!(out.contains("materials.csv  1 material\n") && !out.contains("[exit"), "{out}");
    assert_eq!(files(here.path())["rates.csv"], "operation,per,minutes,set-up,value\r\nwage,,,,$20.00/h\r\n");
}
