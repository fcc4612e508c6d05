//! Orders and the workshop as they are typed: what is asked, changed, shown and refused; each answer from a pencil.

use crate::sessions::transcript_folder;
use crate::typed_lines::{after, answered, answered_by, cells};
use std::fs;

const SKIRT: &str = "run gathered_skirt as first skirt=12 in cloth='any 45 in at $6/yd' elastic=any";

#[test]
fn what_an_order_lacks_is_asked_until_it_is_right() {
    let here = transcript_folder("asked");
    let with_note = format!("{SKIRT}  # for Juno");
    let lines = [
        with_note.as_str(),
        "back",
        "3 min",
        "help",
        "? selvedge",
        "help qqqqqq",
        "2 * 10.5 in",
        "first.waist",
        "save asked",
    ];
    let answers = answered(here.path(), &lines);
    let question = "waist: waist, tape snug";
    assert!(after(&answers, &with_note).starts_with(question), "{answers}");
    assert!(after(&answers, "back").starts_with("this is the first question\nwaist: "), "{answers}");
    let wrong = after(&answers, "3 min");
    assert!(wrong.starts_with(&format!("waist: a length is needed, not a time\n{question}")), "{wrong}");
    // Help says how it is typed; the question waits without being asked again.
    let help = after(&answers, "help");
    assert!(help.contains("type it like 36 in") && help.matches(question).count() == 1, "{help}");
    // Help on a word, and the question once more.
    let selvedge = after(&answers, "? selvedge");
    assert!(selvedge.starts_with("selvedge") && selvedge.contains(question), "{selvedge}");
    let unknown = after(&answers, "help qqqqqq");
    assert!(unknown.starts_with("nothing is known about “qqqqqq”") && unknown.contains(question), "{unknown}");
    // Twice 10 1/2 in.
    let made = after(&answers, "2 * 10.5 in");
    assert!(made.starts_with("  21 in\nfirst  ") && made.contains("\nfirst   gathered skirt"), "{made}");
    assert_eq!(after(&answers, "first.waist"), "21 in");
    let page = fs::read_to_string(here.path().join("asked.txt")).unwrap();
    assert!(page.starts_with("run gathered_skirt as first ") && page.ends_with("  # for Juno\n"), "{page}");
    assert!(page.contains(" skirt=12 in ") && page.contains(" waist=") && page.lines().count() == 1, "{page}");
}

#[test]
fn questions_that_are_left_make_nothing() {
    let here = transcript_folder("left");
    for word in ["cancel", "leave", "quit", "EXIT"] {
        let answers = answered(here.path(), &[SKIRT, word, "1 cm + 2 cm", "show"]);
        assert!(after(&answers, word).starts_with("stopped; nothing was made"), "{answers}");
        assert_eq!(after(&answers, "1 cm + 2 cm"), "3 cm");
        assert!(after(&answers, "show").starts_with("the page is empty"), "{answers}");
    }
    let ended = answered(here.path(), &[SKIRT]);
    assert!(
        ended.ends_with("the lines ended before all questions were answered; the recipe was not run\n[exit 1]\n"),
        "{ended}"
    );
    let set_up = answered_by("shirr", here.path(), &["own workshop in mine", "inch"]);
    assert!(set_up.contains("before all questions were answered; nothing was written"), "{set_up}");
    assert!(!here.path().join("mine").exists());
    // At a question of few answers they are listed; where any measure serves there are none.
    let lined = answered(
        here.path(),
        &["run gathered_skirt as first waist=21 in skirt=12 in elastic=any", "list", "nosuch cloth", "back"],
    );
    assert!(after(&lined, "list").lines().any(|line| line.starts_with("white cotton lawn")), "{lined}");
    assert!(after(&lined, "nosuch cloth").contains("cloth: "), "{lined}");
}

/// One of 45 in cloth at $6 a yard costs what `first.price` says, whoever asks; the answers come back as typed.
#[test]
fn an_order_is_changed_and_its_words_are_those_of_the_page() {
    let here = transcript_folder("changed");
    let run = format!("{SKIRT} waist=21 in  # for Juno");
    let lines = [
        run.as_str(),
        "change first waist=24 in pieces=3",
        "first.waist",
        "first.pieces",
        "price",
        "must first.waist = 24 in",
        "change first pieces=",
        "first.pieces",
        "save changed",
        "change",
        "a = 3",
        "change a waist=2 in",
        "change first waist 24 in",
    ];
    let answers = answered(here.path(), &lines);
    assert!(after(&answers, lines[1]).contains("was "), "{answers}");
    assert_eq!(after(&answers, "first.waist"), "24 in");
    assert!(after(&answers, "price").contains("type first.price"), "{answers}");
    assert_eq!(after(&answers, lines[5]), "OK: first.waist = 24 in");
    // The later of the two: the usual number again.
    assert_eq!(after(&answers, "first.pieces"), "1");
    let page = fs::read_to_string(here.path().join("changed.txt")).unwrap();
    assert!(page.contains("waist=24 in") && !page.contains("pieces=") && page.contains("  # for Juno\n"), "{page}");
    assert!(after(&answers, "change").starts_with("change which order, and which answer?"), "{answers}");
    assert!(
        after(&answers, "change a waist=2 in").starts_with("“a” is no order\n  type a = and its new value"),
        "{answers}"
    );
    assert!(after(&answers, "change first waist 24 in").contains("change first waist=24 in"), "{answers}");
}

#[test]
fn an_order_in_no_cell_is_shown_and_its_parts_asked_for() {
    let here = transcript_folder("no_cell");
    let run = "run gathered_skirt waist=21 in skirt=12 in cloth='any 45 in at $6/yd' elastic=any";
    let lines = ["all", "sheet", "a = 3", "all a", run, "show minutes", "sheet", "all", "show", "chart"];
    let answers = answered(here.path(), &lines);
    assert!(answers.contains("> all\nno order was made yet\n  type all first"), "{answers}");
    assert!(answers.contains("> sheet\nwhich recipe?\n  type recipes for the list\n"), "{answers}");
    assert!(after(&answers, "all a").starts_with("a is no order"), "{answers}");
    let shown = after(&answers, run);
    assert!(shown.contains("PRICE") && shown.contains("NEXT     sheet   show cost"), "{shown}");
    assert!(
        after(&answers, "show minutes").lines().next().is_some_and(|line| line.starts_with("operation")),
        "{answers}"
    );
    assert!(after(&answers, "sheet").starts_with("SHEET"), "{answers}");
    assert!(after(&answers, "all").contains("cut list"), "{answers}");
    // The page has nothing of it but the cell a.
    assert_eq!(after(&answers, "show").lines().count(), 3, "{answers}");
    assert!(after(&answers, "chart").contains('#'), "{answers}");
    let in_cell = answered(here.path(), &[&format!("{SKIRT} waist=21 in"), "show first", "sheet first", "all first"]);
    assert!(after(&in_cell, "show first").contains("NEXT     sheet first   show first.cost"), "{in_cell}");
    assert!(after(&in_cell, "sheet first").starts_with("SHEET") && after(&in_cell, "all first").contains("cut list"));
}

#[test]
fn an_order_whose_cloth_is_open_fills_no_cell() {
    let here = transcript_folder("open_cloth");
    let rest = "waist=21 in skirt=12 in cloth='any 36-60 in at $6-14/yd' elastic=any";
    let (in_cell, alone) = (format!("run gathered_skirt as first {rest}"), format!("run gathered_skirt {rest}"));
    let answers = answered(here.path(), &[&in_cell, &alone, "show"]);
    assert_eq!(
        after(&answers, &in_cell),
        "an order whose cloth is not chosen fills no cell\n  leave out as first to see its price, or choose: \
         cloth='any 45 in at …'"
    );
    let shown = after(&answers, &alone);
    // Twice the waist and two seams of 1/2 in are 43 in: from there on one panel is enough.
    assert!(shown.contains("42 in or less") && shown.contains("43 in or more"), "{shown}");
    assert!(shown.contains("one cloth: cloth='any 48 in at $10/yd'"), "{shown}");
    assert!(after(&answers, "show").starts_with("the page is empty"), "{answers}");
}

/// No cloth makes a waist of 200 in one that the recipe is for; where no price is given, the cloth is said by its width.
#[test]
fn an_open_cloth_does_not_hide_what_is_wrong() {
    let here = transcript_folder("open_and_wrong");
    let run = |waist: &str| format!("run gathered_skirt waist={waist} skirt=12 in cloth='any 36-60 in' elastic=any");
    let lines = [run("200 in"), run("21 in")];
    let answers = answered(here.path(), &[&lines[0], &lines[1]]);
    let wrong = after(&answers, &lines[0]);
    assert!(wrong.starts_with("I cannot work this out yet:\nwaist: 200 in is outside"), "{wrong}");
    assert!(after(&answers, &lines[1]).ends_with("NEXT     one cloth: cloth='any 48 in'"), "{answers}");
    assert!(answers.ends_with("[exit 1]\n"), "{answers}");
}

#[test]
fn recipes_are_found_by_what_they_are_about() {
    let here = transcript_folder("recipes_about");
    let lines = [
        "recipes sleeves",
        "recipes qqqqqq",
        "describe nosuch",
        "check nosuch",
        "run nosuch as x",
        "run",
        "describe",
        "check gathered_trim",
    ];
    let answers = answered(here.path(), &lines);
    let found: Vec<&str> = after(&answers, lines[0]).lines().filter(|line| !line.starts_with(' ')).collect();
    assert!(found.iter().any(|line| line.starts_with("puff_sleeve       ")), "{answers}");
    assert!(!found.iter().any(|line| line.starts_with("gathered_skirt")), "{answers}");
    assert_eq!(after(&answers, lines[1]), "no recipe is about “qqqqqq”\n  type recipes for the whole list");
    for line in &lines[2..5] {
        assert!(after(&answers, line).starts_with("there is no recipe “nosuch”"), "{answers}");
    }
    for line in ["run", "describe"] {
        assert_eq!(after(&answers, line), "which recipe?\n  type recipes for the list");
    }
    assert!(after(&answers, "check gathered_trim").starts_with("gathered_trim: nothing to mend; "), "{answers}");
}

/// The lines of each file without its head.
#[test]
fn the_workshop_tells_what_its_files_hold() {
    let here = transcript_folder("holds");
    let answers = answered(here.path(), &["workshop"]);
    let rows: Vec<Vec<&str>> = after(&answers, "workshop").lines().map(cells).collect();
    assert_eq!(rows[0], ["folder demo"]);
    for (file, holds) in [("materials.csv", "materials"), ("stock.csv", "lines of stock")] {
        let text = fs::read_to_string(here.path().join("demo").join(file)).unwrap();
        let wanted = format!("{} {holds}", text.lines().count() - 1);
        assert!(rows.contains(&vec![file, &wanted]), "{wanted}: {answers}");
    }
    assert!(rows.contains(&vec!["settings.csv", "inch tape, money in $"]), "{answers}");
    let shop = here.path().join("shop");
    fs::create_dir(&shop).unwrap();
    fs::write(shop.join("settings.csv"), "setting,value\ntape,metric\ncurrency,€\n").unwrap();
    fs::write(shop.join("sizes.csv"), "size,waist\nPip,51 cm\n").unwrap();
    let answers = answered_by("shirr --workshop shop", here.path(), &["workshop", "waist = 56 cm"]);
    let rows: Vec<Vec<&str>> = after(&answers, "workshop").lines().map(cells).collect();
    assert!(rows.contains(&vec!["settings.csv", "cm tape, money in €"]), "{answers}");
    assert!(
        rows.contains(&vec!["sizes.csv", "1 size"]) && rows.contains(&vec!["rates.csv", "not there yet"]),
        "{answers}"
    );
}

#[test]
fn the_invented_workshop_is_laid_down_where_nothing_is() {
    let here = transcript_folder("laid_down");
    let lines = [
        "waist = 56 cm",
        "demo workshop in tryout",
        "demo workshop in tryout",
        "demo workshop",
        "demo",
        "own workshop",
        "own",
    ];
    let answers = answered(here.path(), &lines);
    assert!(
        answers.contains("SCENARIO.md are in the folder tryout; the next time, start there or type shirr --workshop")
    );
    assert!(answers.contains("\nthe page was worked out anew\n"), "{answers}");
    let again = after(&answers, "demo workshop in tryout");
    assert!(
        again.contains("are in tryout already, and no file is written over\n  type demo workshop in mine"),
        "{again}"
    );
    // That folder is the one in use now.
    assert!(again.contains("; add puts one more line into those that are there"), "{again}");
    assert!(after(&answers, "demo workshop").contains("already, and no file is written over"), "{answers}");
    assert!(after(&answers, "demo").starts_with("a demo of what?"), "{answers}");
    assert!(after(&answers, "own workshop").contains("type own workshop in mine for a folder of its own"), "{answers}");
    assert!(after(&answers, "own").starts_with("your own what?"), "{answers}");
    // One file alone is there: it is one.
    let one = here.path().join("one");
    fs::create_dir(&one).unwrap();
    fs::write(one.join("rates.csv"), "operation,per,minutes\n").unwrap();
    let answers = answered(here.path(), &["own workshop in one"]);
    assert!(
        after(&answers, "own workshop in one")
            .starts_with("rates.csv is in one already, and no file is written over\n")
    );
    assert!(!answers.contains("add puts one more line"), "{answers}");
}

/// Five yards at $2.40.
#[test]
fn a_cloth_that_is_added_is_reckoned_with() {
    let here = transcript_folder("added");
    let add = "add cloth plain net, 54 in wide, $2.40/yd, loses nothing";
    let before = fs::read_to_string(here.path().join("demo/materials.csv")).unwrap();
    let answers = answered(here.path(), &["bolt = plain_net.price * 5 yd", add, "bolt", add, "add", "add cloth"]);
    assert!(
        answers.contains(&format!("> {add}\nadded to materials.csv: plain net, kind cloth, usable width 54 in, ")),
        "{answers}"
    );
    assert!(answers.contains("the workshop changed\nbolt  $12.00\n"), "{answers}");
    assert_eq!(after(&answers, "bolt"), "$12.00");
    assert!(after(&answers, add).starts_with("“plain net” is in materials.csv already"), "{answers}");
    assert!(after(&answers, "add").starts_with("add what: cloth, roll"), "{answers}");
    let after_it = fs::read_to_string(here.path().join("demo/materials.csv")).unwrap();
    assert!(after_it.starts_with(before.trim_end()), "the lines that were there stay");
    assert_eq!(after_it.lines().count(), before.lines().count() + 1);
}

#[test]
fn answers_are_typed_with_a_decimal_comma_where_that_is_written() {
    let here = transcript_folder("comma");
    let shop = here.path().join("shop");
    fs::create_dir(&shop).unwrap();
    fs::write(shop.join("settings.csv"), "setting,value\ntape,metric\ncurrency,€\ndecimal mark,comma\n").unwrap();
    let run = "run gathered_skirt as first skirt=30,5 cm cloth='any 112 cm' elastic=any";
    let answers = answered_by("shirr --workshop shop", here.path(), &["a = 3,5 cm * 2", run, "56,5 cm", "first.waist"]);
    // Twice 3,5 is 7.
    assert_eq!(cells(after(&answers, "a = 3,5 cm * 2").trim_end()), ["a", "7 cm"], "{answers}");
    assert!(after(&answers, "56,5 cm").starts_with("  56,5 cm"), "{answers}");
    assert_eq!(after(&answers, "first.waist"), "56,5 cm", "{answers}");
}

#[test]
fn a_ticket_is_written_as_its_file_name_says() {
    let here = transcript_folder("ticket");
    let run = format!("{SKIRT} waist=21 in");
    let lines = [
        run.as_str(),
        "write first to first.md",
        "write first to first.txt",
        "write first to pieces.svg",
        "write first to the-lays.svg",
        "write first to chart.svg",
        "write first to first.csv",
        "write first to first.txt",
        "write first over first.txt",
        "write first to pieces.svg",
        "write first.cut_list to cuts.csv",
        "write first to tables",
    ];
    let answers = answered(here.path(), &lines);
    assert_eq!(after(&answers, lines[1]), "the tables of first are in first.md");
    assert_eq!(after(&answers, lines[3]).lines().next(), Some("there is a file pieces.svg already"), "{answers}");
    for (line, words) in [
        (lines[4], "the lays of first are drawn in the-lays.svg"),
        (lines[5], "the charts of first are drawn in chart.svg"),
    ] {
        assert!(after(&answers, line).starts_with(words), "{answers}");
    }
    assert!(answers.contains("> write first to pieces.svg\nthe pieces of first are drawn in pieces.svg"), "{answers}");
    assert!(
        after(&answers, lines[6]).starts_with("“first” is a ticket with many tables\n  type write first to first.txt")
    );
    assert!(answers.contains("> write first to first.txt\nthe sheet of first is in first.txt\n"), "{answers}");
    let again = after(&answers, "write first to first.txt");
    assert_eq!(again, "there is a file first.txt already\n  to replace it, type write first over first.txt");
    assert_eq!(after(&answers, "write first over first.txt"), "the sheet of first is in first.txt");
    assert!(after(&answers, lines[10]).ends_with("in cuts.csv"), "{answers}");
    let file = |name: &str| fs::read_to_string(here.path().join(name)).unwrap();
    assert!(file("first.txt").starts_with("SHEET") && file("first.md").contains("| "));
    assert!(file("pieces.svg").contains("<svg") && file("pieces.svg") != file("the-lays.svg"));
    assert!(here.path().join("tables").is_dir() && file("tables/cut_list.csv") == file("cuts.csv"));
}

/// What an order of the command line shows, and the codes that a shell reads.
#[test]
fn orders_are_run_from_the_command_line() {
    let here = transcript_folder("from_shell");
    let shell = |line: &str| answered_by(&format!("shirr {line}"), here.path(), &[]);
    let rest = "waist='21 in' skirt='12 in' cloth='any 45 in at $6/yd' elastic=any";
    let first = shell(&format!("run gathered_skirt {rest}"));
    assert!(first.contains("NEXT     --all: everything   --csv FOLDER: files") && !first.contains("[exit"), "{first}");
    assert!(!first.contains("\ncut list\n"), "{first}");
    assert!(shell(&format!("run gathered_skirt {rest} --all")).contains("\ncut list\n"));
    let files = shell(&format!("run gathered_skirt {rest} --csv out"));
    assert!(here.path().join("out/cut_list.csv").is_file() && files.contains("HERE/out"), "{files}");
    assert!(files.contains(" tables, pictures of the pieces and of the lays"), "{files}");
    assert!(shell(&format!("sheet gathered_skirt {rest}")).contains("\nSHEET  gathered skirt"));
    let open = "run gathered_skirt waist='21 in' skirt='12 in' cloth='any 36-60 in' elastic=any";
    assert!(!shell(open).contains("[exit"));
    let unwritten = shell(&format!("{open} --csv none"));
    assert!(unwritten.ends_with("no tables were written: choose the cloth first\n[exit 1]\n"), "{unwritten}");
    assert!(!here.path().join("none").exists());
    for (word, command) in [("waist", "run"), ("=3", "run"), ("waist", "sheet")] {
        let told = shell(&format!("{command} gathered_skirt {word}"));
        assert!(told.contains(&format!("“{word}” is no answer\n  type a name, = and the answer")), "{told}");
        assert!(told.ends_with("[exit 2]\n"), "{told}");
    }
    let missing = shell("run gathered_skirt waist='21 in'");
    assert!(missing.contains("I cannot work this out yet") && missing.ends_with("[exit 1]\n"), "{missing}");
    assert!(shell("run nosuch").ends_with("[exit 1]\n") && shell("nosuch").ends_with("[exit 2]\n"));
    let both = shell("check gathered_trim nosuch");
    assert!(both.contains("gathered_trim: nothing to mend") && both.contains("there is no recipe “nosuch”"), "{both}");
    assert!(both.ends_with("[exit 1]\n") && !shell("check gathered_trim").contains("[exit"));
    assert!(shell("describe gathered_trim").contains("\nversion ") && shell("recipes sleeves").contains("puff_sleeve"));
    assert!(shell("help selvedge").contains("woven edge") && shell("help qqqqqq").ends_with("[exit 1]\n"));
    assert!(shell("help").contains("Exit codes: 0 done") && !shell("--version").contains("[exit"));
}

#[test]
fn answers_to_mend_are_told_together() {
    let here = transcript_folder("to_mend");
    let two = "run gathered_skirt as a waist=200 in skirt=200 in cloth=any 45 in elastic=any";
    let one = "run gathered_skirt as a waist=21 in skirt=200 in cloth=any 45 in elastic=any";
    let answers = answered(here.path(), &[two, one]);
    let told = after(&answers, two);
    assert!(
        told.contains("I cannot work this out yet") && told.contains("waist: ") && told.contains("skirt: "),
        "{told}"
    );
    let told = after(&answers, one);
    assert!(
        told.contains("I cannot work this out yet:\n") && told.contains("skirt: ") && !told.contains("waist: "),
        "{told}"
    );
    assert!(!told.contains("answers to mend"), "{told}");
}

#[test]
fn a_recipe_of_the_folder_is_checked_before_it_is_run() {
    let here = transcript_folder("checked");
    let recipe = "fn inputs() { [ length(\"waist\", \"waist\").between(10 in, 90 in) ] }\n\
                  fn make(order, ticket) { ticket.figure(\"wide\", order.waist * 2, \"width\"); }\n";
    fs::write(here.path().join("mine.rhai"), recipe).unwrap();
    let run = "run mine as first waist=20 in";
    let answers = answered(here.path(), &[run, "first.wide"]);
    let told = after(&answers, run);
    assert!(told.contains("checking mine before it is run for the first time\nfirst: mine: "), "{told}");
    assert!(told.ends_with("mend it, or run it all the same with --anyway"), "{told}");
    // Run all the same, it is not checked; there is nothing to cut in it.
    let anyway = answered_by("shirr run mine waist='20 in' --anyway --all", here.path(), &[]);
    assert!(!anyway.contains("checking") && anyway.contains("0 pieces to cut"), "{anyway}");
}
