//! What she has stays as it is: no table is taken for a page, no file replaced unasked, no page deleted, and a fault in
//! one file stops only what needs it.
#![cfg(unix)]

use crate::sessions::{replay, transcript_folder};
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn shirr(here: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    let variables = [("SHIRR_STATE", here.join("state")), ("SHIRR_DATA", here.join("data"))];
    command.current_dir(here).envs(variables).env_remove("COLUMNS").stdin(Stdio::null());
    command
}

fn told(output: &Output) -> String {
    String::from_utf8([output.stdout.as_slice(), &output.stderr].concat()).unwrap()
}

#[test]
fn only_pages_are_opened() {
    let here = transcript_folder("opened");
    for (name, words) in [
        ("stock.csv", "stock.csv is a table, not a page\n  type read stock.csv as stock to have it on the page"),
        ("STOCK.CSV", "STOCK.CSV is a table, not a page"),
        (
            "frill.rhai",
            "frill.rhai is a recipe, not a page\n  type describe frill.rhai for what it makes, or run frill.rhai as first",
        ),
        ("all.md", "all.md is a file of tables, not a page\n  a page is a text file: open fair.txt"),
        ("lays.svg", "lays.svg is a picture, not a page"),
    ] {
        let file = here.path().join(name);
        fs::write(&file, "name,count\n").unwrap();
        let answers = replay(&format!("$ shirr\n> open {name}\n> waist = 56 cm\n"), here.path());
        assert!(answers.contains(words), "{answers}");
        assert_eq!(fs::read_to_string(&file).unwrap(), "name,count\n", "{name}");
        fs::remove_file(&file).unwrap();
    }
    fs::write(here.path().join("notes"), "hem = 3 cm\n").unwrap();
    let answers = replay("$ shirr\n> open notes\n> hem * 2\n", here.path());
    assert!(answers.contains("6 cm"), "{answers}");
}

const TRIM: &str = "run pleated_strip as trim edge=30 in deep=2 in cloth='any 45 in'";

#[test]
fn a_folder_of_tables_is_replaced_only_when_it_is_said() {
    let here = transcript_folder("kept-tables");
    let lines = format!("$ shirr\n> {TRIM}\n> write trim to keep\n");
    let first = replay(&lines, here.path());
    assert!(first.contains("tables, pictures of the pieces and of the lays are in"), "{first}");
    let steps = here.path().join("keep/steps.csv");
    fs::write(&steps, "hers\n").unwrap();
    let again = replay(&lines, here.path());
    assert!(again.contains("already\n  to replace it, type write trim over keep"), "{again}");
    assert_eq!(fs::read_to_string(&steps).unwrap(), "hers\n");
    let over = replay(&format!("$ shirr\n> {TRIM}\n> write trim over keep\n"), here.path());
    assert!(!over.contains("already"), "{over}");
    assert_ne!(fs::read_to_string(&steps).unwrap(), "hers\n");
}

#[test]
fn a_fault_in_one_file_stops_what_needs_it_and_no_sum() {
    let here = transcript_folder("one-fault");
    let shop = here.path().join("demo");
    let stock = fs::read_to_string(shop.join("stock.csv")).unwrap();
    fs::write(shop.join("stock.csv"), format!("{stock}A1,ivory tulle,,x,1 yd,,,,,\n")).unwrap();
    let run = |words: &[&str]| shirr(here.path()).args(["--workshop", "demo"]).args(words).output().unwrap();
    let sum = run(&["reckon", "1 + 1"]);
    assert_eq!((sum.status.code(), told(&sum).as_str()), (Some(0), "2\n"));
    // With the settings of the workshop, which tell the tape: 4 + 1/2 in.
    let length = run(&["reckon", "4 in + 1/2 in"]);
    assert_eq!(told(&length), "4 1/2 in\n");
    let order = run(&["run", "pleated_strip", "edge=30 in", "deep=2 in", "cloth=any 45 in"]);
    assert_eq!(order.status.code(), Some(1));
    assert!(told(&order).contains("stock.csv"), "{}", told(&order));
    let answers =
        replay(&format!("$ shirr --workshop demo\n> 2 in * 3\n> {TRIM}\n> add rate wage $30/h\n"), here.path());
    assert!(answers.contains("until that is mended there are sums, and no orders, goods and prices"), "{answers}");
    assert!(answers.contains("> 2 in * 3\n6 in"), "{answers}");
    assert_eq!(answers.matches("stock.csv").count(), 3, "{answers}");
    // And nothing is written over while it is not read.
    let rates = fs::read_to_string(shop.join("rates.csv")).unwrap();
    assert!(!rates.contains("30"), "{rates}");
    // A fault in the settings stops sums too: they would be shown on another tape.
    fs::write(shop.join("settings.csv"), "setting,value\ntape,ell\n").unwrap();
    assert_eq!(run(&["reckon", "1 + 1"]).status.code(), Some(1));
}

#[test]
fn pages_without_a_name_are_all_kept() {
    let here = transcript_folder("all-left");
    let pages = here.path().join("state/pages");
    fs::create_dir_all(&pages).unwrap();
    for number in 0..25 {
        fs::write(pages.join(format!("left-9-{number}.txt")), format!("cell = {number} cm\n")).unwrap();
    }
    let done = Command::new("sh")
        .args(["-c", "echo pages | \"$0\"", env!("CARGO_BIN_EXE_shirr")])
        .current_dir(here.path())
        .env("SHIRR_STATE", here.path().join("state"))
        .output()
        .unwrap();
    assert!(told(&done).contains("25 pages have no name yet"), "{}", told(&done));
    let kept = fs::read_dir(&pages)
        .unwrap()
        .filter(|entry| entry.as_ref().unwrap().path().extension().is_some_and(|end| end == "txt"));
    assert_eq!(kept.count(), 25);
}

#[cfg(target_os = "linux")]
#[test]
fn answers_that_are_lost_are_told() {
    let here = transcript_folder("full");
    let full = fs::File::options().write(true).open("/dev/full").unwrap();
    let done = shirr(here.path()).args(["reckon", "1 + 1"]).stdout(full).stderr(Stdio::piped()).output().unwrap();
    assert_eq!(done.status.code(), Some(1));
    assert_eq!(told(&done), "the answers cannot be written: the disk is full\n");
}

/// Set to nothing, it would be the folder one stands in.
#[test]
fn a_state_folder_of_no_name_is_none() {
    let here = transcript_folder("no-name");
    let before = fs::read_dir(here.path()).unwrap().count();
    let done = shirr(here.path())
        .args(["run", "pleated_strip", "edge=30 in", "deep=2 in", "cloth=any 45 in"])
        .env("SHIRR_STATE", "")
        .env("HOME", here.path().join("home"))
        .output()
        .unwrap();
    assert_eq!(done.status.code(), Some(0), "{}", told(&done));
    assert_eq!(fs::read_dir(here.path()).unwrap().count(), before);
}

#[test]
fn recipes_and_lines_have_a_length() {
    let here = transcript_folder("lengths");
    let long = format!("//! Long.\n{}", "// a line of a comment\n".repeat(12_000));
    fs::write(here.path().join("long.rhai"), &long).unwrap();
    let answers = replay("$ shirr describe long.rhai\n", here.path());
    // 23 bytes a line: 276,010 bytes, of which 262,144 are the most.
    assert!(answers.contains("long.rhai holds 270 kB; a file that is read here may hold 256 kB"), "{answers}");
    let imports: String = (0..100).map(|number| format!("import \"h{number}\" as h{number};\n")).collect();
    fs::write(here.path().join("many.rhai"), format!("{imports}fn inputs() {{ [] }}\n")).unwrap();
    let answers = replay("$ shirr describe many.rhai\n", here.path());
    assert!(answers.contains("many imports more than 16 helper files"), "{answers}");
    let line = format!("a = \"{}\"", "x".repeat(65_536));
    fs::write(here.path().join("wide.txt"), format!("hem = 3 cm\n{line}\n")).unwrap();
    let answers = replay("$ shirr page wide.txt\n", here.path());
    assert!(answers.contains("line 2 is too long; a line may hold 64 kB"), "{answers}");
    let answers = replay("$ shirr\n> open wide.txt\n> hem\n", here.path());
    assert!(answers.contains("line 2 is too long") && answers.contains("I don't know the word hem"), "{answers}");
}
