//! What lines do to a page: cells in order, the last answer, names, circles, notes, steps back and renames.

use super::*;
use crate::engine::limits::{Limits, StopFlag};
use crate::notebook::{NoWorld, compare, register};
use crate::quantity::Reading;
use crate::report::excerpt;
use crate::table::Cell as Field;

/// A page without recipes and files, and what works it out.
struct Desk {
    host: Host,
    page: Page,
}

impl Desk {
    fn new(text: &str) -> Self {
        let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
        register(&mut host);
        let page = Page::read(&mut Tools { host: &host, world: &mut NoWorld }, text);
        Self { host, page }
    }

    fn with<T>(&mut self, act: impl FnOnce(&mut Page, &mut Tools<'_>) -> T) -> T {
        act(&mut self.page, &mut Tools { host: &self.host, world: &mut NoWorld })
    }

    fn enter(&mut self, line: &str) -> Result<Entered, Diagnostic> {
        self.with(|page, tools| page.enter(tools, line))
    }

    /// What a sum answers, as shown.
    #[track_caller]
    fn answer(&mut self, line: &str) -> String {
        let entered = self.enter(line).unwrap_or_else(|error| panic!("{line}: {}", excerpt::text(&error)));
        value::shown(&entered.answer.unwrap(), &Style::default()).unwrap()
    }

    /// The cells that a line changes, as `name now was`.
    #[track_caller]
    fn changed(&mut self, line: &str) -> Vec<String> {
        let entered = self.enter(line).unwrap_or_else(|error| panic!("{line}: {}", excerpt::text(&error)));
        told(&entered.changes)
    }

    #[track_caller]
    fn refused(&mut self, line: &str) -> (String, String) {
        let (before, version) = (self.page.text(), self.page.version());
        let error = self.enter(line).unwrap_err();
        assert_eq!((self.page.text(), self.page.version()), (before, version), "{line}");
        (error.message, error.hint.unwrap_or_default())
    }

    fn value(&self, name: &str) -> Option<String> {
        self.page.shown(name, &Style::default())
    }

    fn rename(&mut self, old: &str, new: &str) -> Result<usize, Diagnostic> {
        self.with(|page, tools| page.rename(tools, old, new))
    }
}

fn told(changes: &[Change]) -> Vec<String> {
    let words = changes.iter().enumerate().filter_map(|(at, change)| {
        let text = change.describe(&Style::default(), at == 0)?;
        let now = text.now.map_or("gone".to_owned(), |now| now.unwrap_or_else(|_| "fails".to_owned()));
        Some(format!("{} {now} was {}", text.name, text.was.unwrap_or_else(|| "-".to_owned())))
    });
    words.collect()
}

#[test]
fn cells_are_worked_out_whatever_the_order_of_their_lines() {
    let mut desk = Desk::new("\u{feff}three = half * 3\nhalf = waist / 2\nwaist = 56 cm\n");
    // 56, 28 and 84 cm; with 60: 30 and 90.
    assert_eq!([desk.value("half"), desk.value("three")], [Some("28 cm".to_owned()), Some("84 cm".to_owned())]);
    let changed = desk.changed("waist = 60 cm");
    assert_eq!(changed, ["waist 60 cm was 56 cm", "half 30 cm was 28 cm", "three 90 cm was 84 cm"]);
    // The line keeps its place.
    assert_eq!(desk.page.text(), "three = half * 3\nhalf = waist / 2\nwaist = 60 cm\n");
}

#[test]
fn a_cell_that_comes_to_the_same_stops_the_change_there() {
    let mut desk = Desk::new("waist = 56 cm\nwide = largest([waist, 80 cm])\nband = wide + 1 cm\n");
    assert_eq!(desk.changed("waist = 60 cm"), ["waist 60 cm was 56 cm"]);
    assert_eq!(
        desk.changed("waist = 90 cm"),
        ["waist 90 cm was 60 cm", "wide 90 cm was 80 cm", "band 91 cm was 81 cm"]
    );
    // The line that was typed is told even where it stays the same.
    assert_eq!(desk.changed("waist = 90 cm"), ["waist 90 cm was -"]);
    assert_eq!(desk.changed("hips = 61 cm"), ["hips 61 cm was -"]);
}

#[test]
fn a_cell_may_be_read_before_it_is_there() {
    let mut desk = Desk::new("band = waist + 10 cm\n");
    assert_eq!(desk.value("band"), None);
    assert_eq!(desk.changed("waist = 56 cm"), ["waist 56 cm was -", "band 66 cm was -"]);
    let changes = desk.with(|page, tools| page.strike(tools, "waist")).unwrap();
    assert_eq!(told(&changes), ["waist gone was 56 cm", "band fails was 66 cm"]);
    assert_eq!(desk.page.errors().len(), 1);
    assert_eq!(desk.page.names().collect::<Vec<_>>(), ["band"]);
}

#[test]
fn a_name_that_is_on_two_lines_is_that_of_the_first() {
    let desk = Desk::new("waist = 56 cm\nwaist = 60 cm\n");
    assert_eq!(desk.value("waist").as_deref(), Some("56 cm"));
    let errors: Vec<_> = desk.page.errors().into_iter().map(|(name, error)| (name, error.message)).collect();
    assert_eq!(errors, [("waist = 60 cm".to_owned(), "“waist” stands on two lines; the first counts".to_owned())]);
}

#[test]
fn what_has_a_meaning_of_its_own_is_no_name() {
    let mut desk = Desk::new("");
    for (name, message, hint) in [
        ("that", "“that” is the last answer and cannot be given a value", ""),
        ("up", "“up” is the name of a function", "give the cell another name"),
        ("where", "“where” has a meaning of its own and cannot be a name", "take another name, such as my_where"),
        ("and", "“and” has a meaning of its own and cannot be a name", "take another name, such as my_and"),
        ("if", "“if” has a meaning of its own and cannot be a name", "take another name, such as my_if"),
        ("__x", "“__x” cannot be a name", "a name is one word of letters, digits and _: gathered_flat"),
    ] {
        assert_eq!(desk.refused(&format!("{name} = 3 cm")), (message.to_owned(), hint.to_owned()));
    }
    for name in ["_x", "ärmel", "x2", "my_where", "thats", "waist__2"] {
        assert!(check_name(name).is_ok(), "{name}");
    }
    for name in ["2x", "a b", "a-b", "", "as", "or", "not"] {
        assert!(check_name(name).is_err(), "{name}");
    }
}

#[test]
fn that_is_the_last_answer_as_it_was_typed() {
    let mut desk = Desk::new("waist = 56 cm\n");
    assert_eq!(desk.refused("that * 2").0, "there is no answer yet that “that” could mean");
    assert_eq!(desk.answer("3 cm + 4 cm"), "7 cm");
    assert_eq!(desk.answer("that * 2"), "14 cm");
    // In brackets within a sum, without them alone, and both times where it stands twice: 7 and 7 are 14.
    desk.enter("3 cm + 4 cm").unwrap();
    desk.enter("half = that / 2  # of it").unwrap();
    desk.enter("whole = that").unwrap();
    desk.enter("twice = that + that").unwrap();
    desk.enter("must that = 7 cm  # always").unwrap();
    assert_eq!(
        desk.page.text(),
        "waist = 56 cm\nhalf = (3 cm + 4 cm) / 2  # of it\nwhole = 3 cm + 4 cm\n\
         twice = (3 cm + 4 cm) + (3 cm + 4 cm)\nmust (3 cm + 4 cm) = 7 cm  # always\n"
    );
    assert_eq!([desk.value("half"), desk.value("twice")], [Some("3.5 cm".to_owned()), Some("14 cm".to_owned())]);
    // A name needs no brackets, and it stays a name: 56 and 60 by two.
    desk.enter("waist").unwrap();
    desk.enter("w = that / 2").unwrap();
    assert!(desk.page.text().ends_with("\nw = waist / 2\n"));
    assert_eq!(desk.changed("waist = 60 cm"), ["waist 60 cm was 56 cm", "w 30 cm was 28 cm"]);
    assert!(desk.page.last_answer().is_some());
}

#[test]
fn what_was_only_shown_cannot_be_reckoned_with() {
    let mut desk = Desk::new("");
    desk.page.set_last_answer(Dynamic::from_int(7));
    let (message, hint) = desk.refused("that + 1");
    assert_eq!(message, "“that” is a table that was only shown");
    assert!(hint.contains("write that to FILE"), "{hint}");
    assert_eq!(desk.page.last_answer().and_then(|value| value.as_int().ok()), Some(7));
}

/// Two thousand letters are the most that a sum may grow to: quotes and 1,998 letters between them.
#[test]
fn a_sum_grows_no_longer_than_two_thousand_letters() {
    let mut desk = Desk::new("");
    desk.enter(&format!("\"{}\"", "x".repeat(1_998))).unwrap();
    assert!(desk.enter("kept = that").is_ok());
    desk.enter(&format!("\"{}\"", "x".repeat(1_999))).unwrap();
    let (message, hint) = desk.refused("longer = that");
    assert_eq!(
        (message.as_str(), hint.as_str()),
        ("the sum grows too long", "give the last answer a name first: half = that")
    );
}

#[test]
fn a_circle_is_told_with_its_whole_way_and_a_long_one_with_its_ends() {
    let chain = |cells: usize| {
        let lines: Vec<String> = (1..cells).map(|n| format!("c{n} = c{}", n - 1)).collect();
        Desk::new(&format!("c0 = 1 cm\n{}\n", lines.join("\n")))
    };
    let mut three = chain(3);
    assert_eq!(three.refused("c0 = c2").0, "c0 needs c2, c2 needs c1, c1 needs c0");
    assert_eq!(three.refused("c1 = c1 + 1 cm").0, "c1 needs c1");
    assert_eq!(three.value("c2").as_deref(), Some("1 cm"));
    // Ten are told; of eleven the first five and the last five.
    let ten = chain(10).refused("c0 = c9").0;
    assert_eq!((ten.matches(" needs ").count(), ten.contains("and so on")), (10, false), "{ten}");
    let eleven = chain(11).refused("c0 = c10").0;
    assert_eq!(
        eleven,
        "c0 needs c10, c10 needs c9, c9 needs c8, c8 needs c7, c7 needs c6, and so on to \
         c5 needs c4, c4 needs c3, c3 needs c2, c2 needs c1, c1 needs c0"
    );
}

#[test]
fn notes_and_blank_lines_fill_nothing() {
    let mut desk = Desk::new("");
    assert!(desk.page.is_empty());
    desk.enter("   ").unwrap();
    assert_eq!((desk.page.len(), desk.page.version()), (0, 0));
    desk.enter("# bought on Monday").unwrap();
    assert_eq!((desk.page.len(), desk.page.version(), desk.page.is_empty()), (1, 1, false));
    desk.enter("show").unwrap();
    desk.enter("1 cm + 2 cm").unwrap();
    assert_eq!((desk.page.len(), desk.page.version()), (1, 1));
    desk.enter("a = 1 cm").unwrap();
    desk.enter("a = 2 cm").unwrap();
    assert_eq!((desk.page.len(), desk.page.version()), (2, 3));
    assert!(Desk::new("\n  \n").page.is_empty());
    assert!(!Desk::new("\na = 1\n").page.is_empty());
}

#[test]
fn a_condition_that_is_typed_again_stays_one_line() {
    let mut desk = Desk::new("band = 81 cm\n");
    desk.enter("must band > 80 cm").unwrap();
    desk.enter("must band > 80 cm").unwrap();
    desk.enter("must band < 90 cm").unwrap();
    assert_eq!(desk.page.text(), "band = 81 cm\nmust band > 80 cm\nmust band < 90 cm\n");
    // While it holds nothing is told; the one that fails is, and once it holds again.
    assert_eq!(desk.changed("band = 82 cm"), ["band 82 cm was 81 cm"]);
    assert_eq!(desk.changed("band = 79 cm"), ["band 79 cm was 82 cm", "band > 80 cm fails was yes"]);
    let errors: Vec<_> = desk.page.errors().into_iter().map(|(name, error)| (name, error.message)).collect();
    assert_eq!(errors, [("must band > 80 cm".to_owned(), "band is 79 cm".to_owned())]);
    assert_eq!(desk.changed("band = 83 cm"), ["band 83 cm was 79 cm", "band > 80 cm yes was -"]);
    assert_eq!(desk.page.names().collect::<Vec<_>>(), ["band"]);
}

#[test]
fn a_line_of_the_file_has_its_result() {
    let mut desk = Desk::new("# note\na = 3 cm\na + 1 cm\n1 cm + 1 min\nb = \nshow\nmust a = 3 cm\n");
    let at = |desk: &mut Desk, index: usize| desk.with(|page, tools| page.line_at(tools, index));
    let nothing = |entered: Entered| entered.answer.is_none() && entered.changes.is_empty();
    assert!(nothing(at(&mut desk, 0).unwrap()) && nothing(at(&mut desk, 5).unwrap()));
    assert!(nothing(at(&mut desk, 7).unwrap()));
    assert_eq!(told(&at(&mut desk, 1).unwrap().changes), ["a 3 cm was -"]);
    let answer = at(&mut desk, 2).unwrap().answer.unwrap();
    assert_eq!(value::shown(&answer, &Style::default()).unwrap(), "4 cm");
    assert!(at(&mut desk, 3).is_err());
    assert_eq!(told(&at(&mut desk, 6).unwrap().changes), ["a = 3 cm yes was -"]);
}

#[test]
fn steps_are_taken_back_the_last_first_and_done_again() {
    let mut desk = Desk::new("");
    for line in ["a = 1 cm", "a = 2 cm", "b = a + 3 cm", "# note"] {
        desk.enter(line).unwrap();
    }
    let back = desk.with(|page, tools| page.take_back(tools, 3)).unwrap();
    assert_eq!(back.lines, ["# note", "b = a + 3 cm", "a = 2 cm"]);
    assert_eq!(desk.page.text(), "a = 1 cm\n");
    let again = desk.with(|page, tools| page.redo(tools, 2)).unwrap();
    assert_eq!(again.lines, ["a = 2 cm", "b = a + 3 cm"]);
    assert_eq!([desk.value("a"), desk.value("b")], [Some("2 cm".to_owned()), Some("5 cm".to_owned())]);
    // A new line ends what could be done again; a strike is told as one.
    desk.with(|page, tools| page.strike(tools, "b")).unwrap();
    let none = desk.with(|page, tools| page.redo(tools, 1)).unwrap_err();
    assert_eq!(none.message, "there is nothing to do again");
    assert_eq!(desk.with(|page, tools| page.take_back(tools, 1)).unwrap().lines, ["strike b"]);
    assert_eq!(desk.value("b").as_deref(), Some("5 cm"));
    assert_eq!(desk.with(|page, tools| page.take_back(tools, 99)).unwrap().lines.len(), 3);
    assert_eq!(desk.with(|page, tools| page.take_back(tools, 1)).unwrap_err().message, "there is nothing to take back");
    assert_eq!(desk.page.text(), "");
}

#[test]
fn a_cell_is_renamed_wherever_it_is_read() {
    let mut desk = Desk::new(
        "waist = 56 cm  # measured\nband = waist + waist.x * waisted\nmust waist < 60 cm  # snug\nwaist + 1 cm\n\
         # waist\nrun skirt as first waist=waist cloth='waist' # Juno\nread waist.csv as rows\n",
    );
    assert_eq!(desk.rename("waist", "snug").unwrap(), 4);
    assert_eq!(
        desk.page.text(),
        "snug = 56 cm  # measured\nband = snug + snug.x * waisted\nmust snug < 60 cm  # snug\nsnug + 1 cm\n\
         # waist\nrun skirt as first waist=snug cloth=snug  # Juno\nread waist.csv as rows\n"
    );
    assert_eq!(desk.rename("rows", "lines").unwrap(), 0);
    assert!(desk.page.text().ends_with("read waist.csv as lines\n"));
    let back = desk.with(|page, tools| page.take_back(tools, 1)).unwrap();
    assert_eq!(back.lines, ["rename rows to lines"]);
}

#[test]
fn a_cell_is_not_renamed_to_what_is_there_or_cannot_be() {
    let mut desk = Desk::new("waist = 56 cm\nhips = 61 cm\n");
    let says = |desk: &mut Desk, old: &str, new: &str| {
        let error = desk.rename(old, new).unwrap_err();
        (error.message, error.hint.unwrap_or_default())
    };
    let there = says(&mut desk, "waist", "hips");
    assert_eq!(there, ("“hips” is on the page already".to_owned(), "strike it first, or take another name".to_owned()));
    let near = says(&mut desk, "wiast", "snug");
    assert_eq!(near, ("there is no cell “wiast”".to_owned(), "did you mean “waist”?".to_owned()));
    assert_eq!(says(&mut desk, "zzzzzz", "snug").1, "type show for the page");
    assert_eq!(says(&mut desk, "", "snug").0, "which cell?");
    assert_eq!(says(&mut desk, "waist", "up").0, "“up” is the name of a function");
    assert_eq!(desk.page.text(), "waist = 56 cm\nhips = 61 cm\n");
}

#[test]
fn an_order_takes_another_answer_and_keeps_the_others() {
    let desk = Desk::new("run skirt as first waist=21 in cloth='any 45 in' hem=2 in  # for Juno\na = 3 cm\n");
    let changed = |changes: &[(&str, &str)]| {
        let changes: Vec<(String, String)> = changes.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect();
        desk.page.order_changed("first", &changes)
    };
    assert_eq!(
        changed(&[("waist", "24 in"), ("hem", ""), ("for", "Juno #2")]).unwrap(),
        "run skirt as first waist=24 in cloth=any 45 in for='Juno #2'  # for Juno"
    );
    let none = changed(&[]).unwrap_err();
    assert_eq!(none.message, "change which order, and which answer?");
    let answers = [("waist".to_owned(), "3 in".to_owned())];
    let no_order = desk.page.order_changed("a", &answers).unwrap_err();
    assert_eq!(
        (no_order.message.as_str(), no_order.hint.as_deref()),
        ("“a” is no order", Some("type a = and its new value"))
    );
    assert_eq!(desk.page.order_changed("b", &answers).unwrap_err().message, "there is no cell “b”");
    for (typed, hint) in [
        ("first waist 24 in", "change first waist=24 in"),
        ("first waist to 24 in", "change first waist=24 in"),
        ("first waist", "change first waist="),
    ] {
        let error = desk.page.order_changed(typed, &[]).unwrap_err();
        assert!(error.message.ends_with("is no answer") && error.hint.as_deref().unwrap().ends_with(hint), "{typed}");
    }
    let (recipe, answers) = desk.page.order_of("first").unwrap();
    assert_eq!((recipe.as_str(), answers.len(), answers[1].1.as_str()), ("skirt", 3, "any 45 in"));
    assert_eq!(desk.page.order_of("a"), None);
}

#[test]
fn an_answer_is_quoted_where_a_sign_would_end_it() {
    let line = |answer: &str| crate::notebook::order_line("skirt", "first", &[("a".to_owned(), answer.to_owned())]);
    assert_eq!(line("3 in"), "run skirt as first a=3 in");
    assert_eq!(line("b=3"), "run skirt as first a='b=3'");
    assert_eq!(line("Juno #2"), "run skirt as first a='Juno #2'");
    assert_eq!(line("maker's #2"), "run skirt as first a=maker's #2");
}

/// Without its sign an answer is taken for the name of the cell, and only behind an order is that what it is.
#[test]
fn an_answer_without_its_sign_is_one_only_behind_an_order() {
    let desk = Desk::new("run skirt as first waist=21 in\na = 3 cm\n");
    let error = desk.page.order_changed("first  waist   to   24 in ", &[]).unwrap_err();
    assert!(error.hint.as_deref().is_some_and(|hint| hint.ends_with(": change first waist=24 in")), "{error:?}");
    for none in ["a waist 24 in", "none waist 24 in"] {
        let error = desk.page.order_changed(none, &[]).unwrap_err();
        assert_eq!(error.message, format!("there is no cell “{none}”"));
    }
}

/// Of a chain of cells each names the first that failed, and of a circle the one that it reads.
#[test]
fn a_cell_that_waits_names_the_first_that_failed() {
    let mut desk = Desk::new("a = b\nb = a\nc = b + 1\nd = c + 1\n");
    let why = |desk: &Desk, name: &str| desk.page.value(name).unwrap().unwrap_err().message.clone();
    assert_eq!([why(&desk, "a"), why(&desk, "b")], ["this cell needs itself"; 2]);
    assert_eq!([why(&desk, "c"), why(&desk, "d")], ["needs b, and b has an error"; 2]);
    desk.enter("a = 1 cm + 1 min").unwrap();
    assert_eq!([why(&desk, "b"), why(&desk, "c"), why(&desk, "d")], ["needs a, and a has an error"; 3]);
    // The circle is there again, and each is told as before.
    desk.with(|page, tools| page.take_back(tools, 1)).unwrap();
    assert_eq!([why(&desk, "a"), why(&desk, "b")], ["this cell needs itself"; 2]);
    assert_eq!([why(&desk, "c"), why(&desk, "d")], ["needs b, and b has an error"; 2]);
    // Mended, the last is 3 + 1 + 1.
    desk.enter("a = 3").unwrap();
    assert_eq!(desk.value("d").as_deref(), Some("5"));
}

/// A stop while a page is read leaves a page of cells that were stopped; one while a line is typed, the page as it was.
#[test]
fn a_page_that_is_stopped_keeps_its_lines() {
    let stop = StopFlag::default();
    let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::clone(&stop));
    register(&mut host);
    let tools = &mut Tools { host: &host, world: &mut NoWorld };
    let slow = "x = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map(|x| [1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map(|y| x * y).len())";
    stop.store(true, std::sync::atomic::Ordering::SeqCst);
    let stopped = Page::read(tools, &format!("{slow}\ny = x.len()\n"));
    assert_eq!(stopped.errors().iter().filter(|(_, error)| error.is_stop()).count(), 2, "{:?}", stopped.errors());
    assert_eq!(stopped.len(), 2);
    stop.store(false, std::sync::atomic::Ordering::SeqCst);
    let mut page = Page::read(tools, "a = 1\nb = [1].map(|x| x + a)\nc = 3\n");
    let (text, version) = (page.text(), page.version());
    stop.store(true, std::sync::atomic::Ordering::SeqCst);
    assert!(page.enter(tools, "a = [2].map(|x| x + 1)[0]").unwrap_err().is_stop());
    assert_eq!((page.text(), page.version()), (text, version));
    assert_eq!(page.shown("b", &Style::default()).as_deref(), Some("2"));
    stop.store(false, std::sync::atomic::Ordering::SeqCst);
    page.enter(tools, "a = 4").unwrap();
    assert_eq!(page.shown("b", &Style::default()).as_deref(), Some("5"));
}

/// The rows of a table, as words.
fn rows(table: &crate::table::Table) -> Vec<Vec<String>> {
    let word = |cell: &Field| match cell {
        Field::Text(text) => text.clone(),
        _ => "-".to_owned(),
    };
    table.rows().iter().map(|row| row.iter().map(word).collect()).collect()
}

#[test]
fn a_page_is_listed_line_by_line() {
    let mut desk = Desk::new(
        "waist = 56 cm  # measured\n\n# a note\nband = waist  +\t10 cm\nmust band = 66 cm\nband * 2\nshow\nup = 3\n\
         read x.csv as rows\n",
    );
    let table = desk.with(|page, tools| page.listing(tools, &[])).unwrap();
    let found = rows(&table);
    assert_eq!(found[0], ["waist", "56 cm", "56 cm", "measured"]);
    assert_eq!(found[1], ["-", "-", "-", "a note"]);
    assert_eq!(found[2], ["band", "66 cm", "waist + 10 cm", "-"]);
    assert_eq!(found[3], ["-", "holds", "must band = 66 cm", "-"]);
    assert_eq!(found[4], ["-", "132 cm", "band * 2", "-"]);
    assert_eq!(found[6][..3], ["up", "“up” is the name of a function", "3"]);
    assert_eq!(found[7][..3], ["rows", "there is no file x.csv", "read x.csv"]);
    let some = desk.with(|page, tools| page.listing(tools, &["band", "waist"])).unwrap();
    assert_eq!(rows(&some).iter().map(|row| row[0].clone()).collect::<Vec<_>>(), ["waist", "band"]);
    assert_eq!(desk.with(|page, tools| page.listing(tools, &["none"])).unwrap_err().message, "there is no cell “none”");
}

#[test]
fn two_pages_are_compared_by_formula_and_by_value() {
    let mut one = Desk::new(
        "waist = 56 cm\nband = waist + 10 cm\nold = 3 cm\n# both\nmust band > 1 cm\nsame = 4 cm\nbad = 1 cm + 1 min\nmust old = 3 cm\n",
    );
    let other = Desk::new(
        "more = 5 cm\nwaist = 60 cm\nband = waist + 10 cm\n# both\nmust band > 1 cm\nsame = 4 cm\n# here\nbad = 2 cm\nold == 3\n",
    );
    let table = one.with(|page, tools| compare(tools, ("a.txt", page), ("b.txt", &other.page))).unwrap();
    assert_eq!(
        table.columns().iter().map(|column| column.heading.as_str()).collect::<Vec<_>>(),
        ["name", "a.txt", "b.txt", "how"]
    );
    assert_eq!(
        rows(&table),
        [
            ["more", "is not there", "5 cm", "5 cm"],
            ["waist", "56 cm", "60 cm", "56 cm → 60 cm"],
            ["band", "66 cm", "70 cm", "waist + 10 cm"],
            ["# here", "is not there", "is there", ""],
            ["bad", "a length and a time cannot be added", "2 cm", "1 cm + 1 min → 2 cm"],
            ["old == 3", "is not there", "is there", "old == 3"],
            ["old", "3 cm", "is not there", "3 cm"],
            ["must old = 3 cm", "holds", "is not there", "must old = 3 cm"],
        ]
    );
    let again = one.page.text();
    let same = Desk::new(&again);
    assert!(one.with(|page, tools| compare(tools, ("a", page), ("b", &same.page))).unwrap().is_empty());
}

#[test]
fn names_are_found_by_their_beginning() {
    let desk = Desk::new("waist = 1\nwaist_flat = 2\nhips = 3\nmust waist = 1\nband = missing\nwide = waiter\n");
    let from = |prefix: &str| desk.page.names_from(prefix).collect::<Vec<_>>().join(" ");
    assert_eq!([from("wai"), from("hi"), from("x"), from("m")], ["waist waist_flat", "hips", "", ""]);
    assert_eq!(from(""), "band hips waist waist_flat wide");
}

#[test]
fn a_condition_holds_up_to_what_is_allowed() {
    let mut desk = Desk::new("waist = 56 cm\n");
    for holds in [
        "3 cm = 30 mm",
        "0.1 + 0.2 = 0.3",
        "[1, 2] = [1, 2]",
        "[1 cm, 2 cm] = [11 mm, 19 mm] within 1 mm",
        "\"ivory\" = \"ivory\"",
        "(waist == 56 cm)",
        "largest([3 cm, 4 cm]) = 4 cm",
        "waist = 58 cm within 2 cm",
        "waist = 54 cm within 2 cm",
        "waist = 56.1 cm within 1 mm",
        "waist > 50 cm and waist < 60 cm",
    ] {
        let entered = desk.enter(&format!("must {holds}")).unwrap();
        assert!(entered.changes.iter().all(|change| !change.failed()), "{holds}");
    }
    let mut wrong = Vec::new();
    for (fails, message) in [
        ("waist = 57 cm", "waist is 56 cm, not 57 cm"),
        ("waist = 58.1 cm within 2 cm", "waist is 56 cm, not 58.1 cm"),
        ("waist = 53.9 cm within 2 cm", "waist is 56 cm, not 53.9 cm"),
        ("waist > 60 cm", "waist is 56 cm"),
        ("waist * 2 <= 100 cm", "waist * 2 is 112 cm"),
        ("waist > 60 cm and waist < 70 cm", "waist > 60 cm and waist < 70 cm is not true"),
        ("not (waist < 70 cm)", "not (waist < 70 cm) is not true"),
        ("(waist > 60 cm)", "(waist > 60 cm) is not true"),
        ("waist", "waist is 56 cm, which is neither true nor false"),
        ("\"ivory\" = 3", "a text and a plain number cannot be compared"),
        ("3 = \"ivory\"", "a plain number and a text cannot be compared"),
        ("waist = 56 cm within \"x\"", "what is allowed must be a measure"),
    ] {
        let entered = desk.enter(&format!("must {fails}")).unwrap();
        let error = entered.changes[0].describe(&Style::default(), true).unwrap().now.unwrap().unwrap_err();
        if error.message != message {
            wrong.push((fails, error.message));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    for fails in
        ["[1, 2] = [1, 3]", "[1, 2] = [1]", "[1] = [1, 2]", "waist = 56", "waist = 56 cm within 3 min", "1 = [1]"]
    {
        let entered = desk.enter(&format!("must {fails}")).unwrap();
        assert!(entered.changes[0].failed(), "{fails}");
    }
    assert_eq!(desk.refused("must").0, "what must be true?");
}
