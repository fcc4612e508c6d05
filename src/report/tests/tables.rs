//! Tables and sheets at the limits of their width, counted out by hand.

use super::super::grid::Grid;
use super::super::records::record_lines;
use super::super::sheet::{Page, Section, SectionBody, Sheet, SheetBlock};
use super::super::text_table::{Look, text_table};
use crate::quantity::Style;
use crate::table::{Cell, Table};

fn cuts() -> Table {
    let mut table = Table::new("cut_list").text("piece").count("count").text("note").ready().unwrap();
    table.push(vec!["skirt panel".into(), 2.into(), "grain along".into()]).unwrap();
    table
}

#[track_caller]
fn assert_table(look: Look, width: usize, lines: &[&str]) {
    let found = text_table(&cuts(), &Style::default(), look, width);
    assert_eq!(found.lines().collect::<Vec<_>>(), lines);
}

/// 11, 5 and 11 columns with two gaps of two are 31. In 30 the note has one column less, for the narrowest grows first
/// and the piece comes first. With 10 signs for the box they are 37.
#[test]
fn columns_are_wrapped_where_one_is_missing() {
    assert_table(Look::Columns, 31, &["piece        count  note", "", "skirt panel      2  grain along"]);
    assert_table(
        Look::Columns,
        30,
        &["piece        count  note", "", "skirt panel      2  grain", "                    along"],
    );
    assert_table(
        Look::Boxed,
        37,
        &[
            "┌─────────────┬───────┬─────────────┐",
            "│ piece       │ count │ note        │",
            "├─────────────┼───────┼─────────────┤",
            "│ skirt panel │     2 │ grain along │",
            "└─────────────┴───────┴─────────────┘",
        ],
    );
    assert_table(
        Look::Boxed,
        36,
        &[
            "┌─────────────┬───────┬────────────┐",
            "│ piece       │ count │ note       │",
            "├─────────────┼───────┼────────────┤",
            "│ skirt panel │     2 │ grain      │",
            "│             │       │ along      │",
            "└─────────────┴───────┴────────────┘",
        ],
    );
    // 15 columns and 10 signs are the narrowest box; one less, and the columns go without it. 19 would do for these, but
    // no table is narrower than 20.
    assert_eq!(
        text_table(&cuts(), &Style::default(), Look::Boxed, 25).lines().next(),
        Some("┌───────┬───────┬───────┐")
    );
    assert_table(Look::Boxed, 24, &["piece     count  note", "", "skirt         2  grain", "panel            along"]);
    assert_eq!(
        text_table(&cuts(), &Style::default(), Look::Columns, 3),
        text_table(&cuts(), &Style::default(), Look::Columns, 20)
    );
}

/// `piece: skirt panel;` has 19 columns, `count: 2;` 9 and the note 18: with blanks between them 29 and 48.
#[test]
fn a_sentence_goes_on_in_the_next_line_where_a_column_is_missing() {
    assert_table(Look::Aloud, 48, &["piece: skirt panel; count: 2; note: grain along."]);
    assert_table(Look::Aloud, 47, &["piece: skirt panel; count: 2;", "  note: grain along."]);
    assert_table(Look::Aloud, 29, &["piece: skirt panel; count: 2;", "  note: grain along."]);
    assert_table(Look::Aloud, 28, &["piece: skirt panel;", "  count: 2;", "  note: grain along."]);
    // Behind an indent of 2 there are 9, a blank and 18.
    assert_table(Look::Aloud, 30, &["piece: skirt panel; count: 2;", "  note: grain along."]);
    let mut long = Table::new("cut_list").text("piece").text("note").ready().unwrap();
    long.push(vec!["a skirt panel of cloth".into(), "x".into()]).unwrap();
    long.push(vec![Cell::Blank, Cell::Blank]).unwrap();
    let aloud = text_table(&long, &Style::default(), Look::Aloud, 22);
    assert_eq!(aloud.lines().collect::<Vec<_>>(), ["piece: a skirt panel", "  of cloth; note: x.", "nothing."]);
}

/// `piece: skirt panel` has 18 columns; with a tick before it 22. Further lines stand two columns in, and so have two
/// less.
#[test]
fn a_record_goes_on_in_the_next_line_where_a_column_is_missing() {
    let mut table = Table::new("cut_list").text("piece").text("note").ready().unwrap();
    table.push(vec!["skirt panel".into(), "n".into()]).unwrap();
    table.push(vec![Cell::Blank, Cell::Blank]).unwrap();
    let grid = Grid::of(&table, &Style::default());
    assert_eq!(record_lines(&grid, "[ ] ", 22), ["[ ] piece: skirt panel", "    note: n", "", "[ ]"]);
    assert_eq!(record_lines(&grid, "[ ] ", 21), ["[ ] piece: skirt", "      panel", "    note: n", "", "[ ]"]);
    assert_eq!(record_lines(&grid, "", 18)[..2], ["piece: skirt panel", "note: n"]);
    assert_eq!(record_lines(&grid, "", 17)[..2], ["piece: skirt", "  panel"]);
}

fn sheet(title: &str, what: &str, page: Page) -> Sheet {
    Sheet { title: title.to_owned(), what: what.to_owned(), tape: "inch".to_owned(), pages: vec![page] }
}

fn lines(sheet: &Sheet, width: usize) -> Vec<String> {
    sheet.lines(&Style::default(), width)
}

/// `page 1 of 1: cut` has 16 columns, and `SHEET` with its gap 7. In 40 there are two between them with a title of 15; with
/// one of 16 the page stands on a line of its own.
#[test]
fn the_head_of_a_sheet_is_at_both_ends_of_its_line() {
    let page = || Page { name: "cut".to_owned(), ..Page::default() };
    let rule = "-".repeat(40);
    let title = "t".repeat(15);
    let what = "w".repeat(28);
    assert_eq!(
        lines(&sheet(&title, &what, page()), 40),
        [format!("SHEET  {title}  page 1 of 1: cut"), format!("{what}  tape: inch"), rule.clone()]
    );
    let (title, what) = ("t".repeat(16), "w".repeat(29));
    assert_eq!(
        lines(&sheet(&title, &what, page()), 40),
        [format!("SHEET  {title}"), "page 1 of 1: cut".to_owned(), what, "tape: inch".to_owned(), rule.clone()]
    );
    assert_eq!(
        lines(&sheet("t", "", page()), 40),
        [format!("SHEET  t{}page 1 of 1: cut", " ".repeat(16)), "tape: inch".to_owned(), rule.clone()]
    );
    // Without a page it has its title, and no tape.
    let bare = Sheet { pages: Vec::new(), ..sheet("t", "w", page()) };
    assert_eq!(lines(&bare, 40), ["SHEET  t".to_owned(), "w".to_owned(), rule]);
    // Exactly as wide as the sheet.
    let full = Sheet { title: "t".repeat(33), ..bare.clone() };
    assert_eq!(lines(&full, 40)[..2], [format!("SHEET  {}", "t".repeat(33)), "w".to_owned()]);
    assert_eq!(lines(&bare, 10)[2], "-".repeat(24), "no narrower");
    let no_tape = Sheet { tape: String::new(), ..sheet("t", "w", page()) };
    assert_eq!(lines(&no_tape, 40)[1], "w");
    let two = Sheet { pages: vec![page(), page()], ..sheet("t", "w", page()) };
    let lines = lines(&two, 40);
    assert!(lines[0].ends_with("page 1 of 2: cut") && lines[3].is_empty() && lines[4].ends_with("page 2 of 2: cut"));
}

/// Of 40 columns a label may take half with its colon.
#[test]
fn a_label_wider_than_half_the_sheet_has_its_value_behind_it() {
    let pairs = |pairs: &[(&str, &str)]| {
        let order = pairs.iter().map(|(label, value)| ((*label).to_owned(), (*value).to_owned())).collect();
        let lines = lines(&sheet("t", "", Page { name: "cut".to_owned(), order, ..Page::default() }), 40);
        lines[3..].to_vec()
    };
    let (half, more) = ("a".repeat(19), "c".repeat(20));
    assert_eq!(
        pairs(&[(&half, "v"), ("b", "w"), (&more, "x")]),
        [format!("{half}: v"), format!("b:{}w", " ".repeat(19)), format!("{more}: x"), String::new()]
    );
    let value = format!("{} {}", "v".repeat(10), "w".repeat(9));
    assert_eq!(
        pairs(&[("b", "x"), (&more, &value)])[1..3],
        [format!("{more}: {}", "v".repeat(10)), format!("  {}", "w".repeat(9))]
    );
    // Beyond 100 columns no label takes more than 24.
    let order = vec![("a".repeat(23), "v".to_owned()), ("b".repeat(24), "w".to_owned())];
    let wide = lines(&sheet("t", "", Page { name: "cut".to_owned(), order, ..Page::default() }), 100);
    assert_eq!(wide[3..5], [format!("{}: v", "a".repeat(23)), format!("{}: w", "b".repeat(24))]);
}

/// Labels take 7 columns, a tick 4. Of what does not go into 40, the last column goes 15 in on a line of its own; what has
/// no columns goes on behind its tick.
#[test]
fn lines_of_cuts_keep_their_columns() {
    let block = |line: &str| {
        let block = SheetBlock { label: "CUT", lines: vec![line.to_owned(), "next".to_owned()] };
        let sections = vec![Section::new("", SectionBody::Blocks(vec![block]))];
        lines(&sheet("t", "", Page { name: "cut".to_owned(), sections, ..Page::default() }), 40)[3..].to_vec()
    };
    let next = "       next".to_owned();
    let full = format!("[ ] {}", "a".repeat(29));
    assert_eq!(block(&full), [format!("CUT    {full}"), next.clone()]);
    let (a, b) = ("a".repeat(14), "b".repeat(15));
    assert_eq!(block(&format!("[ ] {a} {b}")), [format!("CUT    [ ] {a}"), format!("           {b}"), next.clone()]);
    assert_eq!(block(&format!("no {a}{a} {b}")), [format!("CUT    no {a}{a}"), format!("       {b}"), next.clone()]);
    assert_eq!(
        block("[ ] A  band  the note of it that is long"),
        ["CUT    [ ] A  band", "               the note of it that is", "               long", "       next"]
    );
    // A single gap is no column: the line is wrapped.
    assert_eq!(
        block("[ ] A  the note of it that is so long"),
        ["CUT    [ ] A the note of it that is so", "           long", "       next"]
    );
    // Columns of 33 go into 40; of 35 they are wrapped, in the 29 behind the tick.
    let columns = |wide: usize| block(&format!("[ ] A  {}  note", "c".repeat(wide)));
    assert_eq!(columns(26)[..2], [format!("CUT    [ ] A  {}", "c".repeat(26)), format!("{}note", " ".repeat(15))]);
    assert_eq!(columns(28)[..2], ["CUT    [ ] A".to_owned(), format!("           {}", "c".repeat(28))]);
    // A line of columns that just goes in stays whole.
    assert_eq!(block(&format!("[ ] A  {}  note", "c".repeat(20)))[0].chars().count(), 40);
    let empty = |body: SectionBody| {
        let sections = vec![Section::new("heading", body)];
        lines(&sheet("t", "", Page { name: "cut".to_owned(), sections, ..Page::default() }), 40).len()
    };
    for body in [
        SectionBody::Blocks(Vec::new()),
        SectionBody::Steps(Vec::new()),
        SectionBody::Cautions(Vec::new()),
        SectionBody::Notes(Vec::new()),
        SectionBody::Ticked(Table::new("cut_list").text("piece").ready().unwrap()),
    ] {
        assert_eq!(empty(body), 3);
    }
    assert_eq!(empty(SectionBody::Notes(vec!["note".to_owned()])), 3 + 3);
}

/// Two columns of 11 and 5 with a gap of 2 and a tick of 4 are 22 columns at most, and 5, 5, 2 and 4 at least.
#[test]
fn rows_to_tick_off_have_their_columns_as_long_as_they_fit() {
    let mut table = Table::new("cut_list").text("piece").count("count").ready().unwrap();
    table.push(vec!["skirt panel".into(), 2.into()]).unwrap();
    let body = |table: &Table, width: usize| {
        let sections = vec![Section::new("Cut", SectionBody::Ticked(table.clone()))];
        lines(&sheet("t", "", Page { name: "c".to_owned(), sections, ..Page::default() }), width)[5..].to_vec()
    };
    assert_eq!(body(&table, 24), ["    piece        count", "    -----------  -----", "[ ] skirt panel      2"]);
    let mut wide = Table::new("cut_list").text("piece").count("count").text("note").ready().unwrap();
    wide.push(vec!["twelve letters panel".into(), 123_456_789.into(), "n".into()]).unwrap();
    // The narrowest: 7, 9 and 4 with two gaps and the tick are 28.
    assert_eq!(
        body(&wide, 28),
        [
            "    piece        count  note",
            "    -------  ---------  ----",
            "[ ] twelve   123456789  n",
            "    letters",
            "    panel"
        ]
    );
    assert_eq!(body(&wide, 27), ["[ ] piece: twelve letters", "      panel", "    count: 123456789", "    note: n"]);
}

/// A word of 12 letters is never broken for a column, one of 13 is: two columns of 12 and the gap are 26.
#[test]
fn a_word_of_thirteen_letters_may_be_broken() {
    let mut table = Table::new("cut_list").text("a").text("b").ready().unwrap();
    table.push(vec!["abcdefghijklm".into(), "abcdefghijklm".into()]).unwrap();
    let found = text_table(&table, &Style::default(), Look::Columns, 26);
    let wanted = ["a             b", "", "abcdefghijkl  abcdefghijkl", "m             m"];
    assert_eq!(found.lines().collect::<Vec<_>>(), wanted);
    assert!(text_table(&table, &Style::default(), Look::Columns, 25).starts_with("a: abcdefghijklm\n"));
}

/// Two columns of 12 and their gap have no room in 20; the one that gives way is named below the other.
#[test]
fn a_column_that_gives_way_is_named_below() {
    let mut table = Table::new("cut_list").text("piece").text("note").giving_way().ready().unwrap();
    table.push(vec!["abcdefghijkl".into(), "mnopqrstuvwx".into()]).unwrap();
    let found = text_table(&table, &Style::default(), Look::Columns, 20);
    assert_eq!(found.lines().collect::<Vec<_>>(), ["piece", "", "abcdefghijkl", "no room here for", "note"]);
    let found = text_table(&table, &Style::default(), Look::Columns, 26);
    assert_eq!(found.lines().collect::<Vec<_>>(), ["piece         note", "", "abcdefghijkl  mnopqrstuvwx"]);
}

/// Behind the sign and its blank a caution has all of the line: of 30, 28 for the heading and 26 behind its dash.
#[test]
fn a_caution_is_framed_and_fills_its_lines() {
    let sections = vec![Section::new(&"h".repeat(28), SectionBody::Cautions(vec!["c".repeat(26), "d".repeat(27)]))];
    let found = lines(&sheet("t", "", Page { name: "c".to_owned(), sections, ..Page::default() }), 30);
    let framed: Vec<&String> = found.iter().filter(|line| line.starts_with('!')).collect();
    let (rule, rest) = ("!".repeat(30), "d".repeat(26));
    let wanted = [
        rule.clone(),
        format!("! {}", "H".repeat(28)),
        format!("! - {}", "c".repeat(26)),
        format!("! - {rest}"),
        "!   d".to_owned(),
        rule,
    ];
    assert_eq!(framed, wanted.iter().collect::<Vec<_>>());
}
