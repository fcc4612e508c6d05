//! Pages as they are typed: cells that follow one another, steps back, names, files; each answer from a pencil.

use crate::sessions::transcript_folder;
use crate::typed_lines::{after, answered, answered_by, cells};
use std::fs;
use std::path::Path;

fn text(here: &Path, name: &str) -> String {
    fs::read_to_string(here.join(name)).unwrap()
}

/// Half of 56 and of 60 cm, and three times that: the columns of a change stand under one another.
#[test]
fn what_follows_a_cell_is_told_in_columns() {
    let here = transcript_folder("columns");
    let lines = ["waist = 56 cm", "h = waist / 2", "three = h * 3", "waist = 60 cm"];
    let answers = answered(here.path(), &lines);
    let told: Vec<&str> = after(&answers, "waist = 60 cm").lines().collect();
    assert_eq!(told, ["waist  60 cm   was 56 cm", "h      30 cm   was 28 cm", "three  90 cm   was 84 cm"]);
    // A line that is worth what it was is told without what it was.
    assert_eq!(after(&answered(here.path(), &["a = 3 cm", "b = 4 cm", "a = 3 cm"]), "a = 3 cm"), "a  3 cm");
}

/// A text of 33 letters widens no column, and in a window of 40 what it was goes below it.
#[test]
fn a_long_value_pushes_no_other_aside() {
    let here = transcript_folder("long_value");
    let long = "the finest lawn of the whole shop";
    assert_eq!(long.len(), 33);
    let lines = ["a = 1", "t = if a > 1 {\"LONG\"} else {\"net\"}", "w = a * 2", "a = 2"];
    let lines: Vec<String> = lines.iter().map(|line| line.replace("LONG", long)).collect();
    let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    let answers = answered(here.path(), &lines);
    assert_eq!(
        after(&answers, "a = 2").lines().collect::<Vec<_>>(),
        ["a  2   was 1", "t  the finest lawn of the whole shop   was net", "w  4   was 2"]
    );
    let narrow = answered_by("shirr COLUMNS=40 --workshop demo", here.path(), &lines);
    assert_eq!(
        after(&narrow, "a = 2").lines().collect::<Vec<_>>(),
        ["a  2   was 1", "t  the finest lawn of the whole shop", "   was net", "w  4   was 2"]
    );
    // Read aloud, each is a sentence.
    let aloud = answered_by("shirr --plain --workshop demo", here.path(), &["a = 1", "w = a * 2", "a = 2", "strike w"]);
    assert_eq!(after(&aloud, "a = 2"), "a is 2, and was 1\nw is 4, and was 2");
    assert_eq!(after(&aloud, "w = a * 2"), "w is 2");
    assert_eq!(after(&aloud, "strike w"), "removed w, it was 4");
}

/// The cell and 45 that follow it are 46: forty are told.
#[test]
fn of_many_changes_forty_are_told() {
    let here = transcript_folder("many");
    let followers: Vec<String> = (0..45).map(|n| format!("c{n} = a + {n} cm")).collect();
    let mut lines = vec!["a = 1 cm"];
    lines.extend(followers.iter().map(String::as_str));
    lines.push("a = 2 cm");
    let answers = answered(here.path(), &lines);
    let told = after(&answers, "a = 2 cm");
    assert_eq!(told.lines().count(), 41, "{told}");
    assert!(told.ends_with("and 6 more; show tells all"), "{told}");
    lines.truncate(40);
    lines.push("a = 2 cm");
    let forty = answered(here.path(), &lines);
    assert!(!after(&forty, "a = 2 cm").contains("more"), "{forty}");
}

#[test]
fn a_cell_that_fails_says_so_and_those_behind_it_wait() {
    let here = transcript_folder("fails");
    let answers = answered(here.path(), &["a = 0", "b = 12 / a", "c = b + 1", "a = 4"]);
    assert!(after(&answers, "b = 12 / a").starts_with("b: "), "{answers}");
    assert_eq!(after(&answers, "c = b + 1"), "c: needs b, and b has an error");
    // 12 / 4 is 3; one more is 4.
    let mended: Vec<Vec<&str>> = after(&answers, "a = 4").lines().map(cells).collect();
    assert_eq!(mended[..3], [vec!["a", "4", "was 0"], vec!["b", "3"], vec!["c", "4"]], "{answers}");
    // A line that failed is told by the exit code, though later ones were right.
    assert!(answers.ends_with("[exit 1]\n"), "{answers}");
    assert!(!answered(here.path(), &["a = 3", "b = 12 / a"]).contains("[exit"), "all is right");
}

#[test]
fn a_condition_is_told_when_it_is_typed_and_when_it_no_longer_holds() {
    let here = transcript_folder("must");
    let lines = ["a = 3 cm", "must a < 5 cm", "a = 4 cm", "a = 6 cm", "must", "must a = 7 cm within 2 cm"];
    let answers = answered(here.path(), &lines);
    assert_eq!(after(&answers, "must a < 5 cm"), "OK: a < 5 cm");
    assert_eq!(after(&answers, "a = 4 cm"), "a  4 cm   was 3 cm");
    let broken = after(&answers, "a = 6 cm");
    assert!(broken.contains("not OK: must a < 5 cm: a is 6 cm"), "{broken}");
    assert!(after(&answers, "must").contains("what must be true?"), "{answers}");
    assert!(after(&answers, "must a = 7 cm within 2 cm").starts_with("OK: a = 7 cm within 2 cm"), "{answers}");
    let aloud = answered(here.path(), &["a = 3 cm", "must a < 5 cm", "take back"]);
    assert_eq!(after(&aloud, "take back"), "taken back: must a < 5 cm\nremoved must a < 5 cm");
}

#[test]
fn steps_are_taken_back_and_done_again_by_number() {
    let here = transcript_folder("back");
    let lines =
        ["a = 1 cm", "a = 2 cm", "b = a * 3", "take back 2", "redo 2", "take back 9", "take back", "redo three"];
    let answers = answered(here.path(), &lines);
    // The later step first; a is 1 again.
    let back = after(&answers, "take back 2");
    assert_eq!(back.lines().take(2).collect::<Vec<_>>(), ["taken back: b = a * 3", "taken back: a = 2 cm"]);
    assert!(back.contains("removed b   was 6 cm") && back.contains("a  1 cm   was 2 cm"), "{back}");
    let redone = after(&answers, "redo 2");
    assert_eq!(redone.lines().take(2).collect::<Vec<_>>(), ["done again: a = 2 cm", "done again: b = a * 3"]);
    assert!(redone.contains("a  2 cm   was 1 cm") && redone.contains("b  6 cm"), "{redone}");
    assert_eq!(after(&answers, "take back 9").matches("taken back: ").count(), 3);
    assert!(after(&answers, "take back").starts_with("there is nothing to take back"), "{answers}");
    assert!(after(&answers, "redo three").starts_with("“three” is no number of lines"), "{answers}");
    // What goes with a step taken back is no failure of it, be it that others fail.
    let struck = answered(here.path(), &["a = 1 cm", "b = a * 3", "strike a"]);
    assert!(after(&struck, "strike a").starts_with("removed a   was 1 cm\nb: "), "{struck}");
    assert!(!struck.contains("[exit"), "{struck}");
}

#[test]
fn a_renamed_cell_tells_how_many_lines_follow() {
    let here = transcript_folder("renamed");
    let lines =
        ["a = 1 cm", "b = a * 3", "c = a + b", "rename a to waist", "rename b to band", "rename c to d", "rename d"];
    let answers = answered(here.path(), &lines);
    assert_eq!(after(&answers, "rename a to waist"), "a is now waist; 2 lines that read it say so too");
    assert_eq!(after(&answers, "rename b to band"), "b is now band; 1 line that reads it says so too");
    assert_eq!(after(&answers, "rename c to d"), "c is now d");
    assert!(after(&answers, "rename d").starts_with("rename what to what?"), "{answers}");
}

#[test]
fn a_page_is_saved_opened_and_renamed() {
    let here = transcript_folder("pages");
    let lines = ["waist = 56 cm", "save", "save fair", "band = waist * 2", "save fair.csv", "rename page to good"];
    let answers = answered(here.path(), &lines);
    assert!(after(&answers, "save").starts_with("under which name?\n  type save fair.txt"), "{answers}");
    assert_eq!(after(&answers, "save fair"), "saved as fair.txt; from now on each line is saved at once");
    assert!(after(&answers, "save fair.csv").starts_with("“fair.csv” would not be taken for a page"), "{answers}");
    assert_eq!(after(&answers, "rename page to good"), "the page is good.txt, and no longer fair.txt");
    assert_eq!(text(here.path(), "good.txt"), "waist = 56 cm\nband = waist * 2\n");
    assert!(!here.path().join("fair.txt").exists());
    let lines =
        ["open good", "waist = 60 cm", "save", "save good.txt", "pages", "open none", "save demo.txt", "open demo"];
    let answers = answered(here.path(), &lines);
    assert_eq!(after(&answers, "open good"), "good: 2 lines, 2 cells");
    assert_eq!(after(&answers, "save"), "saved as good.txt; from now on each line is saved at once");
    assert_eq!(after(&answers, "save good.txt"), "saved as good.txt; from now on each line is saved at once");
    // The page that was saved under another name is the file of that name from then on.
    assert_eq!(text(here.path(), "good.txt"), "waist = 60 cm\nband = waist * 2\n");
    let listed: Vec<Vec<&str>> = after(&answers, "pages").lines().map(cells).collect();
    assert!(listed.contains(&vec!["good.txt", "2", "2"]), "{answers}");
    assert!(after(&answers, "open none").starts_with("there is no file "), "{answers}");
    assert!(
        after(&answers, "open demo").contains("is a folder, not a file")
            || after(&answers, "open demo").starts_with("demo: ")
    );
    let taken = answered(here.path(), &["a = 1", "save good.txt", "rename page to good.txt"]);
    assert!(after(&taken, "save good.txt").starts_with("there is a file "), "{taken}");
    assert!(after(&taken, "rename page to good.txt").starts_with("there is a file "), "{taken}");
    assert_eq!(text(here.path(), "good.txt"), "waist = 60 cm\nband = waist * 2\n");
}

#[test]
fn a_folder_without_pages_says_how_one_comes_about() {
    let here = transcript_folder("no_pages");
    let answers = answered(here.path(), &["pages", "open", "a = 1", "save one", "pages"]);
    let none = "no page is in this folder; save fair.txt keeps this one under a name";
    assert_eq!(after(&answers, "open"), none);
    assert!(after(&answers, "pages").contains("one.txt"), "{answers}");
    // A page of one line with one cell is told as such.
    assert_eq!(after(&answered(here.path(), &["open one", "leave"]), "open one"), "one: 1 line, 1 cell");
}

/// Twelve lines that cannot be read: ten are told.
#[test]
fn an_opened_page_tells_its_first_ten_errors() {
    let here = transcript_folder("wrong_page");
    let lines = |count: usize| (0..count).map(|n| format!("c{n} = 1 cm + 1 min\n")).collect::<String>();
    fs::write(here.path().join("twelve.txt"), lines(12)).unwrap();
    fs::write(here.path().join("ten.txt"), lines(10)).unwrap();
    let answers = answered(here.path(), &["open twelve", "open ten"]);
    let told = after(&answers, "open twelve");
    assert!(told.starts_with("twelve: 12 lines, 12 cells\nc0: "), "{told}");
    assert!(told.contains("\nc9: ") && !told.contains("\nc10: "), "{told}");
    assert!(told.ends_with("and 2 more; show tells all"), "{told}");
    assert!(
        after(&answers, "open ten").contains("\nc9: ") && !after(&answers, "open ten").contains("more;"),
        "{answers}"
    );
    assert!(answers.ends_with("[exit 1]\n"));
}

#[test]
fn pages_are_compared_by_their_names() {
    let here = transcript_folder("two_pages");
    fs::write(here.path().join("one.txt"), "waist = 56 cm\nhem = 3 cm\n").unwrap();
    fs::write(here.path().join("two.txt"), "waist = 60 cm\nhem = 3 cm\n").unwrap();
    let lines = [
        "compare",
        "compare one with two",
        "compare one with one.txt",
        "compare none with one",
        "waist = 60 cm",
        "compare two",
    ];
    let answers = answered(here.path(), &lines);
    assert!(after(&answers, "compare").starts_with("this page was never saved"), "{answers}");
    let rows: Vec<Vec<&str>> = after(&answers, "compare one with two").lines().map(cells).collect();
    assert_eq!(rows[0], ["name", "one", "two", "how"]);
    assert_eq!(rows[2..], [vec!["waist", "56 cm", "60 cm", "56 cm → 60 cm"]], "{answers}");
    assert_eq!(after(&answers, "compare one with one.txt"), "no difference");
    assert!(after(&answers, "compare none with one").starts_with("there is no file "), "{answers}");
    let rows: Vec<Vec<&str>> = after(&answers, "compare two").lines().map(cells).collect();
    assert_eq!(rows[0], ["name", "two", "this page", "how"]);
    assert_eq!(rows[2..], [vec!["hem", "3 cm", "is not there", "3 cm"]], "{answers}");
}

#[test]
fn a_line_goes_on_until_its_bracket_is_closed() {
    let here = transcript_folder("open_bracket");
    let answers = answered(here.path(), &["\u{feff}a = (1 cm", "+ 2 cm)", "a * 2"]);
    assert!(answers.contains("> + 2 cm)\na  3 cm\n") && answers.ends_with("> a * 2\n6 cm\n"), "{answers}");
    let unended = answered(here.path(), &["a = (1 cm", "+ 2 cm"]);
    assert!(
        unended.contains("a bracket is opened here and not closed") && unended.ends_with("[exit 1]\n"),
        "{unended}"
    );
    // Behind the line that leaves, none is run.
    for leave in ["leave", "quit", "exit", "bye"] {
        let left = answered(here.path(), &["1 cm + 2 cm", leave, "3 cm + 4 cm"]);
        assert!(left.contains("3 cm\n") && !left.contains("7 cm"), "{left}");
    }
}

#[test]
fn a_word_that_is_no_cell_may_be_meant_otherwise() {
    let here = transcript_folder("meant");
    let lines = ["puff_sleeve", "shwo", "qqqqqq", "qqqqqq + zzzzzz", "waist = 56 cm", "wiast"];
    let answers = answered(here.path(), &lines);
    assert_eq!(
        after(&answers, "puff_sleeve"),
        "puff_sleeve is a recipe\n  type run puff_sleeve as first to be asked what it needs, or describe puff_sleeve for \
         what it makes"
    );
    assert!(after(&answers, "shwo").contains("did you mean “show”?"), "{answers}");
    assert!(after(&answers, "qqqqqq").contains("to name a measure, type qqqqqq = 56 cm; for what can be typed, help"));
    assert!(!after(&answers, "qqqqqq + zzzzzz").contains("to name a measure"), "{answers}");
    assert!(after(&answers, "wiast").contains("did you mean “waist”?"), "{answers}");
}

/// `shirr page` works a page out line by line; what only a person types does nothing there.
#[test]
fn a_page_is_worked_out_from_its_file() {
    let here = transcript_folder("page_command");
    let page = "\u{feff}band = waist * 2\nwaist = 56 cm\n# note\nwaist + 1 cm\nsave other.txt\nshow waist\n\
                write page to page.md\nrun gathered_skirt\nmust waist > 60 cm\nleave\nwaist + 2 cm\n";
    fs::write(here.path().join("fair.txt"), page).unwrap();
    let told = answered_by("shirr page fair.txt --workshop demo", here.path(), &[]);
    // Names are as wide as the longest of the page.
    assert!(told.contains("\nband   112 cm\nwaist  56 cm\n57 cm\n"), "{told}");
    assert!(told.contains("“save other.txt” is for the prompt; on a page it does nothing"), "{told}");
    assert!(told.contains("“write page to page.md” is for the prompt"), "{told}");
    assert!(told.contains("a page cannot be asked; give every answer on its line"), "{told}");
    assert!(told.contains("not OK: must waist > 60 cm: waist is 56 cm") && !told.contains("58 cm"), "{told}");
    assert!(told.ends_with("[exit 1]\n"), "{told}");
    assert!(!here.path().join("other.txt").exists() && !here.path().join("page.md").exists());
    fs::write(here.path().join("right.txt"), "waist = 56 cm\nsave x.txt\n").unwrap();
    assert!(!answered_by("shirr page right.txt", here.path(), &[]).contains("[exit"), "nothing failed");
    let none = answered_by("shirr page none.txt", here.path(), &[]);
    assert!(none.contains("there is no file ") && none.ends_with("[exit 1]\n"), "{none}");
}

#[test]
fn sums_on_the_command_line_are_answered_one_by_one() {
    let here = transcript_folder("reckon");
    let told = answered_by("shirr reckon '7 cm + 1 cm' '2 +' '$6 * 3 yd' '9 / 2'", here.path(), &[]);
    let lines: Vec<&str> = told.lines().collect();
    assert_eq!((lines[1], lines.last()), ("8 cm", Some(&"[exit 1]")), "{told}");
    assert!(told.contains("which is no measure of the trade") && told.contains("\n4.5\n"), "{told}");
}

/// A cell of the name page is a cell: it is renamed and written as one.
#[test]
fn a_cell_may_be_called_page() {
    let here = transcript_folder("page_cell");
    let lines = [
        "page = 3 cm",
        "half = page / 2",
        "write page to page.md",
        "rename page to sheet_long",
        "write page to all.md",
    ];
    let answers = answered(here.path(), &lines);
    assert!(after(&answers, lines[2]).starts_with("“page” is no table"), "{answers}");
    assert_eq!(after(&answers, lines[3]), "page is now sheet_long; 1 line that reads it says so too");
    assert_eq!(after(&answers, lines[4]), "2 rows are in all.md");
}
