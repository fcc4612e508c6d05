//! What is said where a fault leaves something half done, and that the words are true.

use super::{ORDER, folder_with, run, tree};
use crate::sessions::transcript_folder;
use rexpect::session::spawn_command;
use std::fs;
use std::process::Command;

/// Every rename of an export but the first fails in turn: so many files are new as the words say, and no more.
#[test]
fn an_export_that_is_replaced_in_part_says_how_many_files_are_new() {
    let here = transcript_folder("partly");
    fs::create_dir(here.path().join("out")).unwrap();
    let write = |depth: &str, variables: &[(&str, &str)]| {
        let order: Vec<&str> = ORDER.iter().map(|word| if word.starts_with("depth=") { depth } else { word }).collect();
        run(here.path(), &order, &[], variables)
    };
    let log = tempfile::NamedTempFile::new().unwrap();
    let path = log.path().to_string_lossy().into_owned();
    assert_eq!(write("depth=6 cm", &[]).code, Some(0));
    assert_eq!(write("depth=7 cm", &[("SHIRR_FAULT_LOG", &path)]).code, Some(0));
    let operations = fs::read_to_string(&path).unwrap();
    let renames: Vec<usize> = operations
        .lines()
        .enumerate()
        .filter(|(_, line)| line.starts_with("rename\t") && line.contains("/out/"))
        .map(|(at, _)| at + 1)
        .collect();
    assert!(renames.len() > 8, "{operations}");
    for (done, at) in renames.iter().enumerate().skip(1) {
        for name in tree(here.path()).keys().filter(|name| name.starts_with("out/") && !name.ends_with('/')) {
            fs::write(here.path().join(name), "earlier\n").unwrap();
        }
        let failed = write("depth=7 cm", &[("SHIRR_FAULT", &format!("fail {at}"))]);
        assert_eq!(failed.code, Some(1));
        let said = failed.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
        let words = format!("{done} of {} files are new, the others are as they were", renames.len());
        assert!(said.contains(&words), "{words}\n{said}");
        let new = |(name, bytes): &(&String, &Vec<u8>)| {
            name.starts_with("out/") && !name.ends_with('/') && bytes.as_slice() != b"earlier\n"
        };
        assert_eq!(failed.tree.iter().filter(new).count(), done, "fail {at}");
    }
}

/// The file of a page is changed by another program, and the disk is full when the page is to be kept aside: it is told,
/// nothing is written over, and the next line keeps both lines.
#[test]
fn a_page_that_cannot_be_kept_aside_is_kept_at_the_next_line() {
    let conflict = |variables: &[(&str, &str)]| {
        let here = folder_with(&[("fair.txt", "waist = 56 cm\n")]);
        let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
        command.current_dir(here.path()).env("SHIRR_STATE", here.path().join("state"));
        command.env("SHIRR_DATA", here.path().join("data")).env("TERM", "xterm").env("COLUMNS", "80");
        command.envs(variables.iter().copied());
        let mut session = spawn_command(command, Some(60_000)).unwrap();
        session.exp_string("> ").unwrap();
        session.send_line("open fair.txt").unwrap();
        session.exp_string("1 line, 1 cell").unwrap();
        session.exp_string("> ").unwrap();
        fs::write(here.path().join("fair.txt"), "waist = 99 cm\n").unwrap();
        let mut said = String::new();
        for (line, answer) in [("hem = 3 cm", "3 cm"), ("band = 7 cm", "7 cm")] {
            session.send_line(line).unwrap();
            session.exp_string(answer).unwrap();
            // The message comes after the answer.
            said.push_str(&session.exp_string("> ").unwrap());
        }
        session.send_control('d').unwrap();
        said.push_str(&session.exp_eof().unwrap());
        let theirs = fs::read_to_string(here.path().join("fair.txt")).unwrap();
        assert_eq!(theirs, "waist = 99 cm\n", "{variables:?}");
        let pages = tree(here.path()).into_iter().filter(|(path, _)| {
            path.starts_with("state/pages/left-") && path.rsplit_once('.').is_some_and(|(_, end)| end == "txt")
        });
        (said, pages.map(|(_, bytes)| String::from_utf8(bytes).unwrap()).collect::<Vec<_>>())
    };
    let both = vec!["waist = 56 cm\nhem = 3 cm\nband = 7 cm\n".to_owned()];
    let log = tempfile::NamedTempFile::new().unwrap();
    let path = log.path().to_string_lossy().into_owned();
    let (said, left) = conflict(&[("SHIRR_FAULT_LOG", &path)]);
    assert!(said.contains("changed by another window or program"), "{said}");
    assert_eq!(left, both);
    let operations = fs::read_to_string(&path).unwrap();
    let aside: Vec<usize> = operations
        .lines()
        .enumerate()
        .filter(|(_, line)| line.starts_with("write\t") && line.contains("left-"))
        .map(|(at, _)| at + 1)
        .collect();
    assert!(!aside.is_empty(), "{operations}");
    let (said, left) = conflict(&[("SHIRR_FAULT", &format!("fail {}", aside[0]))]);
    assert!(said.contains("the disk is full"), "{said}");
    assert!(said.contains("changed by another window or program"), "{said}");
    assert_eq!(left, both, "{said}");
}

/// A list of accepted recipes that cannot be read is left as it is, and the order is reckoned all the same.
#[test]
fn a_list_of_accepted_recipes_that_cannot_be_read_is_left_alone() {
    let recipe = "//! Slow.\n//! contract: 1   version: 1   licence: CC0-1.0   for: test\nfn inputs() { [] }\n\
         fn make(order, ticket) { ticket.figure(\"sum\", 7, \"a sum\"); }\n\
         fn examples() { [#{ given: #{}, expect: #{ sum: 7 }, source: \"own arithmetic\" }] }";
    let here = folder_with(&[("own.rhai", recipe)]);
    fs::create_dir_all(here.path().join("state")).unwrap();
    let list = here.path().join("state/accepted-recipes.txt");
    let no_text = b"0f0f earlier\n\xff\xfe";
    fs::write(&list, no_text).unwrap();
    let ran = run(here.path(), &["run", "own.rhai"], &[], &[]);
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    let said = ran.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("accepted-recipes.txt is not plain text"), "{said}");
    assert!(said.contains("the recipe passed, but is checked again the next time it is run"), "{said}");
    assert!(ran.stdout.starts_with("own\n"), "{}", ran.stdout);
    assert_eq!(fs::read(&list).unwrap(), no_text);
}

/// A page with a new name is there under that name alone, and goes on there.
#[test]
fn a_page_that_is_renamed_leaves_its_old_name() {
    let here = folder_with(&[("fair.txt", "waist = 56 cm\n")]);
    let ran = run(here.path(), &[], &["open fair.txt", "rename page to may.txt", "hem = 3 cm"], &[]);
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    assert!(!ran.tree.contains_key("fair.txt"), "the old name is still there");
    assert_eq!(String::from_utf8_lossy(&ran.tree["may.txt"]), "waist = 56 cm\nhem = 3 cm\n");
}
