//! Invariants of the whole program that no single layer can guarantee.

use crate::common::framed;
use crate::sessions::{replay, transcript_folder};
use shirr::engine::limits::StopFlag;
use shirr::quantity::{Quantity, Unit};
use shirr::recipe::run::{Answering, answer_in};
use shirr::recipe::{PROTOCOL, RecipeText, Reply, Request, Task, library};
use shirr::table::Table;
use shirr::workshop::Workshop;
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

const ORDER: &str = "$ shirr run strips_on_band --workshop demo waist='14 in' strip='10 in' gathers='tulle overlapped' \
                     tulle='ivory tulle' satin='ivory satin strip' elastic='elastic 1 in' tape='hem tape' pieces=3 --all --csv";

fn bytes(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let files = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    files.map(|path| (path.file_name().unwrap().to_string_lossy().into_owned(), fs::read(&path).unwrap())).collect()
}

#[test]
fn the_same_recipe_and_workshop_give_the_same_bytes() {
    let here = transcript_folder("same_bytes");
    let shown = ["first-time", "second-time"].map(|folder| {
        let shown = replay(&format!("{ORDER} {folder}\n"), here.path());
        shown.lines().filter(|line| !line.contains(folder)).collect::<Vec<_>>().join("\n")
    });
    assert!(shown[0].contains("pieces to cut"), "{}", shown[0]);
    assert_eq!(shown[0], shown[1]);
    let (one, two) = (bytes(&here.path().join("first-time")), bytes(&here.path().join("second-time")));
    assert!(one.len() >= 8, "{:?}", one.keys());
    assert_eq!(one, two);
}

#[test]
fn a_child_process_gives_the_same_ticket_as_this_one() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes/demo");
    let workshop: Vec<(String, String)> = ["settings", "materials", "stock", "trials", "rates"]
        .map(|name| format!("{name}.csv"))
        .map(|name| (name.clone(), fs::read_to_string(demo.join(name)).unwrap()))
        .to_vec();
    let given = [
        ("waist", "14 in"),
        ("strip", "10 in"),
        ("gathers", "tulle overlapped"),
        ("tulle", "ivory tulle"),
        ("satin", "ivory satin strip"),
        ("elastic", "elastic 1 in"),
    ];
    let given = given.map(|(name, value)| (name.to_owned(), value.to_owned())).to_vec();
    let recipe = library::shipped("strips_on_band").unwrap();
    let task = Task::run(given);
    let request = Request { protocol: PROTOCOL, recipe: Some(recipe), workshop: Some(workshop), plain: false, task };
    let from_process = Answering::default().answer(request.clone());
    assert!(matches!(from_process, Reply::Ran(_)), "{from_process:?}");

    let mut child = Command::new(env!("CARGO_BIN_EXE_shirr"))
        .arg("answer-requests")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(&framed(&request)).unwrap();
    let output = child.wait_with_output().unwrap();
    let from_child: Reply = serde_json::from_slice(&output.stdout[4..]).unwrap();
    assert_eq!(from_process, from_child, "quantities must cross to the last bit");
}

#[test]
fn unlike_things_are_refused_wherever_they_are_written() {
    let here = transcript_folder("unlike");
    let cell = replay("> width = 2 yd + 3 min\n", here.path());
    assert!(cell.contains("a length and a time cannot be added"), "{cell}");

    let text = "//! A trap.\n//! contract: 1   version: 1   licence: CC0-1.0   for: test\n\
                fn inputs() { [length(\"a\", \"a\").between(1 cm, 2 cm)] }\n\
                fn make(order, ticket) { ticket.figure(\"sum\", order.a + 3 min, \"nothing\"); }";
    let recipe = RecipeText { name: "trap".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() };
    let task = Task::run([("a", "1 cm")]);
    match answer_in(&recipe, &Workshop::default(), false, &task, StopFlag::default()) {
        Reply::Failed(errors) => assert_eq!(errors[0].message, "a length and a time cannot be added"),
        other => panic!("{other:?}"),
    }

    let mut column = Table::new("minutes").time("minutes", "min").ready().unwrap();
    assert!(column.push(vec![Quantity::of(2.0, Unit::Yard).into()]).is_err());
    assert!(column.push(vec![Quantity::of(2.0, Unit::Hour).into()]).is_ok());

    let file = Workshop::read(&[("rates.csv", "operation,per,minutes,set-up,value\nsew,yd,2 yd,,\n")]);
    assert!(file.is_err());
}
