//! `cut` as it is typed: small lists whose plans are a pencil's, the clauses, and what is refused.

use crate::sessions::transcript_folder;
use crate::typed_lines::{after, answered, answered_by, cells};
use std::fs;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// A folder with a list of strips of 10 in and a list of lengths.
fn with_lists(name: &str, strips: usize, lengths: &str) -> TempDir {
    let here = transcript_folder(name);
    fs::write(here.path().join("strips.csv"), format!("piece,count,along\nstrip,{strips},10 in\n")).unwrap();
    fs::write(here.path().join("lengths.csv"), lengths).unwrap();
    here
}

const CUT: &str = "cut strips.csv from lengths.csv";

/// The first words of the sentence on the whole plan.
fn in_all(answers: &str, line: &str) -> String {
    let told = after(answers, line).replace('\n', " ");
    let start = told.find("In all ").unwrap_or_else(|| panic!("{answers}"));
    told[start..].split_inclusive(". ").next().unwrap().trim().to_owned()
}

/// Three strips of 10 in are 30 in; five are 50 in of two lengths, 60 in, at $3 each.
#[test]
fn a_plan_is_summed_up_in_a_sentence() {
    let three = with_lists("three", 3, "stock,count,along,price\nB1,1,30 in,$3.00\n");
    assert_eq!(
        in_all(&answered(three.path(), &[CUT]), CUT),
        "In all 3 pieces from 1 length, 30 in used; the length costs $3.00."
    );
    let one = with_lists("one", 1, "stock,count,along\nB1,1,30 in\n");
    assert_eq!(in_all(&answered(one.path(), &[CUT]), CUT), "In all 1 piece from 1 length, 10 in of 30 in used.");
    let five = with_lists("five", 5, "stock,count,along,price\nB1,2,30 in,$3.00\n");
    let told = in_all(&answered(five.path(), &[CUT]), CUT);
    assert!(
        told.starts_with("In all 5 pieces from 2 lengths, ") && told.ends_with("; the lengths cost $6.00."),
        "{told}"
    );
    // Four do not come out of three.
    let four = with_lists("four", 4, "stock,count,along\nB1,1,30 in\n");
    let told = answered(four.path(), &[CUT]);
    assert!(
        after(&told, CUT).contains("add lengths, or a row with an empty count: as many of it are bought as it takes")
    );
}

/// Two strips of 10 in leave 10 in of 30; worth keeping from 10 in on, not from 10 1/8.
#[test]
fn what_is_left_is_kept_from_a_length_on() {
    let here = with_lists("kept", 2, "stock,count,along\nB1,1,30 in\n");
    let lines = ["cut strips.csv from lengths.csv, keep 10 in", "cut strips.csv from lengths.csv, keep 10 1/8 in", CUT];
    let answers = answered(here.path(), &lines);
    let left = |line: &str| {
        let rows = after(&answers, line).rsplit_once("\nleftovers\n").map(|(_, rows)| rows.lines().skip(2));
        rows.into_iter().flatten().map(|row| cells(row).join(" ")).collect::<Vec<_>>()
    };
    assert_eq!(left(lines[0]), ["B1 1 10 in"], "{answers}");
    assert_eq!(left(lines[1]), [""; 0], "{answers}");
    // The workshop keeps from 5 in on.
    assert_eq!(left(CUT), ["B1 1 10 in"], "{answers}");
    let shorter = with_lists("not_kept", 2, "stock,count,along\nB1,1,24 7/8 in\n");
    assert!(!answered(shorter.path(), &[CUT]).contains("\nleftovers\n"), "4 7/8 in are not kept");
    assert!(answered_by("shirr", shorter.path(), &[CUT]).contains("\nleftovers\n"), "without a workshop anything is");
}

/// Three strips and two cuts of 1 in are 32 in, and so are three strips and two ends squared by 1 in.
#[test]
fn a_cut_and_a_square_end_take_their_length() {
    for (name, clause, fits, short) in
        [("loss", "loss 1 in", "32 in", "31 7/8 in"), ("squaring", "squaring 1 in", "32 in", "31 7/8 in")]
    {
        let line = format!("{CUT}, {clause}");
        let here = with_lists(name, 3, &format!("stock,count,along\nB1,1,{fits}\n"));
        let told = in_all(&answered(here.path(), &[&line]), &line);
        assert!(told.starts_with("In all 3 pieces from 1 length"), "{told}");
        fs::write(here.path().join("lengths.csv"), format!("stock,count,along\nB1,1,{short}\n")).unwrap();
        let told = answered(here.path(), &[&line, CUT]);
        assert!(after(&told, &line).contains("add lengths") && after(&told, CUT).contains("In all 3 pieces"), "{told}");
    }
}

#[test]
fn a_clause_that_cannot_be_read_says_how_it_is_typed() {
    let here = with_lists("clauses", 3, "stock,count,along\nB1,1,30 in\n");
    for (clause, message, hint) in [
        ("loss x", "loss: “x” is no length", "type it like loss 6 in"),
        ("loss 6", "loss: “6” has no unit", "type loss 6 in"),
        ("keep 3 min", "keep: “3 min” is a time; a length is needed", "type it like keep 6 in"),
        ("squaring -1 in", "squaring: “-1 in” is less than zero", "type zero or more"),
        ("steps x", "steps: “x” is no number", ""),
        ("seed 1.5", "seed: “1.5” is no number", ""),
        ("seconds x", "seconds: “x” is no number", ""),
        ("loss", "a value is missing behind “loss”", "type loss 1/8 in"),
        ("loss 1 in, loss 1 in", "“loss” stands here twice", "leave one of them out"),
        ("straight 3", "“3” is not understood", "what may follow: straight, folded, loss 1/8 in"),
        ("foo", "“foo” is not understood", "what may follow: straight"),
    ] {
        let line = format!("{CUT}, {clause}");
        let told = answered(here.path(), &[&line]);
        let told = after(&told, &line);
        assert_eq!(told.lines().next(), Some(message), "{told}");
        assert!(told.lines().nth(1).unwrap_or_default().trim().starts_with(hint), "{clause}: {told}");
    }
    for right in ["loss 0 in", "keep 0 in", "steps 5000", "seed 7", "seconds 20", "straight", "folded"] {
        let line = format!("{CUT}, {right}");
        let told = answered(here.path(), &[&line]);
        assert!(in_all(&told, &line).starts_with("In all 3 pieces from 1 length, 30 in used"), "{right}: {told}");
    }
    let lines =
        ["cut", "cut strips.csv", "cut none.csv from nothing.csv", "cut strips.csv from lengths.csv, like none.csv"];
    let told = answered(here.path(), &lines);
    for line in &lines[..2] {
        assert!(
            after(&told, line)
                .starts_with("cut which pieces, from which lengths?\n  type cut pieces.csv from lengths.csv")
        );
    }
    let both = after(&told, lines[2]);
    assert!(both.contains("none.csv") && both.contains("nothing.csv"), "{both}");
    assert!(after(&told, lines[3]).starts_with("there is no file "), "{told}");
}

#[test]
fn a_plan_is_written_and_the_next_one_made_like_it() {
    let here = with_lists("like", 3, "stock,count,along\nB1,1,30 in\n");
    let lines = ["cut strips.csv from lengths.csv, to out", "cut strips.csv from lengths.csv, like out/plan.csv"];
    let told = answered(here.path(), &lines);
    assert!(after(&told, lines[0]).contains("tables and a picture of the lay are in HERE/out"), "{told}");
    for name in ["plan.csv", "cuts.csv", "buy_list.csv", "summary.csv", "lay.svg"] {
        assert!(here.path().join("out").join(name).is_file(), "{name}");
    }
    assert!(!after(&told, lines[1]).contains("could not stay"), "{told}");
    // Of three cuts none can stay where its length is gone.
    fs::write(here.path().join("lengths.csv"), "stock,count,along\nB7,1,30 in\n").unwrap();
    let told = answered(here.path(), &[lines[1]]);
    let told = after(&told, lines[1]).replace('\n', " ");
    assert!(
        told.contains(
            "3 of 3 cuts of the earlier plan could not stay where they were, the first of them strip from B1."
        ),
        "{told}"
    );
}

/// Of five strips three come off B1 and two off a new roll; B2 is shorter than any of them.
#[test]
fn a_length_that_is_too_short_is_named_where_something_is_bought() {
    let here = with_lists("short", 5, "stock,count,along\nB1,1,30 in\nB2,1,4 in\nroll,,30 in\n");
    let told = answered(here.path(), &[CUT]);
    assert!(after(&told, CUT).contains("Shorter than every piece and left on the shelf: B2."), "{told}");
    assert!(in_all(&told, CUT).starts_with("In all 5 pieces from 2 lengths, "), "{told}");
}

/// Sixty-two lengths, and a piece as long as each: all of them are used up, and 24 sentences and 60 rows are shown.
#[test]
fn of_a_long_plan_the_first_part_is_shown() {
    let here = transcript_folder("long_plan");
    let rows = |row: fn(usize) -> String| (0..62).map(row).collect::<String>();
    let pieces = format!("piece,count,along\n{}", rows(|n| format!("p{n},1,{} in\n", 100 + n)));
    let lengths = format!("stock,count,along\n{}", rows(|n| format!("L{n},1,{} in\n", 100 + n)));
    fs::write(here.path().join("strips.csv"), pieces).unwrap();
    fs::write(here.path().join("lengths.csv"), lengths).unwrap();
    let told = answered(here.path(), &[CUT, "cut strips.csv from lengths.csv, to out"]);
    let shown = after(&told, CUT);
    let one_line = shown.replace('\n', " ");
    assert_eq!(one_line.matches("From ").count(), 24, "{shown}");
    assert!(one_line.contains("38 more lengths are cut as the plan table has it; to FOLDER writes it."), "{shown}");
    assert!(in_all(&told, CUT).starts_with("In all 62 pieces from 62 lengths, "), "{shown}");
    assert!(shown.contains("and 2 more rows; to FOLDER writes them all"), "{shown}");
    let written = after(&told, "cut strips.csv from lengths.csv, to out");
    assert!(written.contains("and 2 more rows\n") && !written.contains("writes them all"), "{written}");
    let cuts = fs::read_to_string(here.path().join("out/cuts.csv")).unwrap();
    assert_eq!(cuts.lines().count(), 1 + 62);
}

/// Of 32 lines that cannot be read thirty are told.
#[test]
fn of_many_wrong_lines_thirty_are_told() {
    let here = with_lists("wrong_lines", 3, "stock,count,along\nB1,1,30 in\n");
    let wrong = |count: usize| format!("piece,count,along\n{}", "strip,x,10 in\n".repeat(count));
    fs::write(here.path().join("strips.csv"), wrong(32)).unwrap();
    let told = answered(here.path(), &[CUT]);
    assert_eq!(after(&told, CUT).matches("strips.csv, line ").count(), 30, "{told}");
    assert!(after(&told, CUT).ends_with("and 2 more"), "{told}");
    fs::write(here.path().join("strips.csv"), wrong(30)).unwrap();
    assert!(!answered(here.path(), &[CUT]).contains(" more"), "thirty are told whole");
}

#[test]
fn options_of_the_command_line_are_named_as_they_are_typed_there() {
    let here = with_lists("options", 3, "stock,count,along\nB1,1,30 in\n");
    let cut =
        |options: &str| answered_by(&format!("shirr cut strips.csv --from lengths.csv {options}"), here.path(), &[]);
    let wrong = cut("--loss x");
    assert!(wrong.contains("--loss: “x” is no length\n  type it like --loss '6 in'\n[exit 2]"), "{wrong}");
    assert!(cut("--keep 6").contains("--keep: “6” has no unit\n  type --keep '6 in'\n[exit 2]"));
    assert!(cut("--steps x").ends_with("[exit 2]\n") && cut("--seconds 0").ends_with("[exit 2]\n"));
    assert!(cut("--loss '0 in'").contains("In all 3 pieces from 1 length, 30 in used."));
    // Ten inches by three and two cuts of 1 in are longer than 30 in.
    let short = cut("--loss '1 in'");
    assert!(short.contains("add lengths") && short.ends_with("[exit 1]\n"), "{short}");
}

/// Three strips of 10 in are all of 30 in: a sentence each, then the picture, then the table of cuts and no other.
#[test]
fn a_plan_is_told_drawn_and_listed() {
    let here = with_lists("whole", 3, "stock,count,along,price\nB1,1,30 in,$3.00\n");
    let told = answered(here.path(), &[CUT]);
    let lines: Vec<&str> = after(&told, CUT).lines().collect();
    assert_eq!(
        lines[..2],
        [
            "From roll B1: 3 strips of 10 in, marks 10 in, 20 in and 30 in; nothing left.",
            "In all 3 pieces from 1 length, 30 in used; the length costs $3.00."
        ]
    );
    let drawn = lines.iter().position(|line| *line == "B1, 30 in").unwrap_or_else(|| panic!("{told}"));
    assert_eq!(lines[drawn - 1], "");
    let bar: Vec<&str> = lines[drawn + 1].split('|').map(str::trim).collect();
    assert_eq!(bar, ["", "A", "A", "A", ""], "{told}");
    assert_eq!(lines[drawn + 2..drawn + 5], ["A  strip, 10 in", "", "cuts"], "{told}");
    assert_eq!(cells(lines[drawn + 7]), ["B1", "3", "strip", "10 in", "30 in", "0 in"], "{told}");
    assert_eq!(lines.len(), drawn + 8, "{told}");
    // The length on the shelf at $2 and one bought at $2.50 are cheaper than two bought; 10 in of 60 are left.
    let bought = with_lists("bought", 5, "stock,count,along,price\nB1,1,30 in,$2.00\nroll,,30 in,$2.50\n");
    let told = answered(bought.path(), &[CUT]);
    let titles = ["\n\ncuts\n", "\n\nbuy list\n", "\n\nleftovers\n"];
    assert!(titles.iter().all(|title| told.matches(title).count() == 1), "{told}");
    assert!(told.lines().any(|line| cells(line) == ["roll", "1", "30 in", "30 in", "$2.50"]), "{told}");
    assert!(after(&told, CUT).contains("1 leftover is worth keeping"), "{told}");
}

#[test]
fn a_length_that_is_held_stays_on_the_shelf() {
    let here =
        with_lists("held", 3, "stock,count,along,held for\nB1,1,30 in,order 7\nB2,1,30 in,\nB3,1,30 in,order 8\n");
    let told = after(&answered(here.path(), &[CUT]), CUT).to_owned();
    assert!(told.starts_with("From roll B2: 3 strips"), "{told}");
    assert!(told.contains("\nHeld for an order and left on the shelf: B1, B3.\n"), "{told}");
    let free = with_lists("free", 3, "stock,count,along\nB1,1,30 in\n");
    assert!(!answered(free.path(), &[CUT]).contains("left on the shelf"));
}

/// A panel 50 in wide and 10 in long fits a cloth of 45 in if it lies across it; one of 50 by 50 in never does.
#[test]
fn a_piece_too_wide_for_the_cloth_says_what_would_help() {
    let here = transcript_folder("too_wide");
    let told = |row: &str| {
        fs::write(here.path().join("strips.csv"), format!("piece,count,along,across,turn\npanel,1,{row}\n")).unwrap();
        fs::write(here.path().join("lengths.csv"), "stock,count,along,across\nB1,1,90 in,45 in\n").unwrap();
        after(&answered(here.path(), &[CUT]), CUT).to_owned()
    };
    let turned = told("10 in,50 in,half");
    assert!(turned.ends_with("\n  let it turn by a quarter, allow it joins, or give a wider cloth"), "{turned}");
    let never = told("50 in,50 in,half");
    assert!(never.ends_with("\n  allow a join, or choose a wider cloth"), "{never}");
    assert!(told("10 in,50 in,quarter").contains("In all 1 piece from 1 length"));
}

/// Of two kinds the first that is cut is named; the file of an earlier plan that cannot be read is told with the others.
#[test]
fn what_could_not_stay_is_named_by_its_first() {
    let here = transcript_folder("moved");
    let file = |name: &str, text: &str| fs::write(here.path().join(name), text).unwrap();
    file("strips.csv", "piece,count,along\nlong,1,20 in\nshort,1,10 in\n");
    file("lengths.csv", "stock,count,along\nB1,1,30 in\n");
    let lines = ["cut strips.csv from lengths.csv, to out", "cut strips.csv from lengths.csv, like out/plan.csv"];
    answered(here.path(), &lines[..1]);
    file("lengths.csv", "stock,count,along\nB7,1,30 in\n");
    let told = after(&answered(here.path(), &lines[1..]), lines[1]).replace('\n', " ");
    assert!(
        told.contains(
            "2 of 2 cuts of the earlier plan could not stay where they were, the first of them long from B1."
        ),
        "{told}"
    );
    file("strips.csv", "piece,count,along\nlong,x,20 in\n");
    file("out/plan.csv", "nothing\n1\n");
    let told = answered(here.path(), &lines[1..]);
    assert!(told.contains("strips.csv, line 2") && told.contains("plan.csv"), "{told}");
}

/// Sixty kinds of panels, more than any search has done with in a second: what was found by then is the plan, and the
/// lines behind it are answered.
#[test]
fn a_search_ends_with_its_seconds_and_is_no_failure() {
    let here = transcript_folder("seconds");
    let row = |n: usize| format!("p{n},{},{} in,{} in,quarter\n", n % 3 + 1, 7 + n * n * 7 % 53, 5 + n * n * 11 % 31);
    let pieces: String = (1..=60).map(row).collect();
    fs::write(here.path().join("strips.csv"), format!("piece,count,along,across,turn\n{pieces}")).unwrap();
    let lengths = "stock,count,along,across,price\nnarrow,,100 in,45 in,$10\nwide,,140 in,54 in,$13\n";
    fs::write(here.path().join("lengths.csv"), lengths).unwrap();
    let line = format!("{CUT}, seconds 1");
    let begun = Instant::now();
    let told = answered(here.path(), &[&line, "1 cm + 1 cm"]);
    assert!(begun.elapsed() >= Duration::from_millis(900), "{told}");
    // 20 rows each of one, two and three pieces are 120.
    assert!(in_all(&told, &line).starts_with("In all 120 pieces from "), "{told}");
    assert!(
        after(&told, &line)
            .replace('\n', " ")
            .contains("The search was stopped before it was over; this is the best found"),
        "{told}"
    );
    assert_eq!(after(&told, "1 cm + 1 cm"), "2 cm");
    assert!(!told.contains("[exit"), "{told}");
    // So many steps, however long they take: nothing stopped the search.
    let steps = format!("{CUT}, steps 10");
    assert!(!answered(here.path(), &[&steps]).contains("was stopped"));
    // Those of three strips are over at once.
    let three = with_lists("seconds_three", 3, "stock,count,along\nB1,1,30 in\n");
    let begun = Instant::now();
    let line = format!("{CUT}, seconds 60");
    assert!(!answered(three.path(), &[&line]).contains("was stopped"));
    assert!(begun.elapsed() < Duration::from_secs(50));
}

#[test]
fn a_folder_that_cannot_be_written_fails_the_cut() {
    let here = with_lists("unwritten", 3, "stock,count,along\nB1,1,30 in\n");
    fs::write(here.path().join("out"), "a file").unwrap();
    let told = answered_by("shirr cut strips.csv --from lengths.csv --csv out", here.path(), &[]);
    assert!(told.contains("nothing that was there before has changed") && told.ends_with("[exit 1]\n"), "{told}");
    let right = answered_by("shirr cut strips.csv --from lengths.csv --csv tables", here.path(), &[]);
    assert!(right.ends_with("5 tables and a picture of the lay are in HERE/tables\n"), "{right}");
}
