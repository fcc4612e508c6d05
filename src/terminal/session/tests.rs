//! A session without a terminal: several lines at once, what is kept where, and what changes on the disk meanwhile.

use super::prompt::{PageView, each_line, greet, history_file, leave};
use super::*;
use crate::cutting::Planner;
use crate::engine::limits::StopFlag;
use crate::recipe::OpenRecipes;
use crate::report::Look;
use crate::terminal::app::{DONE, FAILED};
use crate::terminal::output::Output;
use crate::terminal::recipes::FoundRecipes;
use crate::terminal::typing::completion_source::CompletionSource;
use crate::terminal::worker::Worker;
use crate::terminal::workshop_folder::{self, Opened};
use crate::workshop::DEMO_FILES;
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Answers and problems in the order in which a person sees them.
#[derive(Clone, Default)]
struct Screen(Rc<RefCell<Vec<u8>>>);

impl Write for Screen {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.borrow_mut().write(bytes)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// A person at a prompt in a folder of her own.
struct Person {
    here: tempfile::TempDir,
    screen: Screen,
    app: App<'static>,
    session: Session,
}

impl Person {
    /// With these files in her folder; the folder of the workshop, and whether anything is remembered.
    fn new(files: &[(&str, &str)], workshop: Option<&str>, remembers: bool) -> Self {
        let here = tempfile::tempdir().unwrap();
        for (name, text) in files {
            let path = here.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
        let screen = Screen::default();
        let (out, err) = (Box::leak(Box::new(screen.clone())), Box::leak(Box::new(screen.clone())));
        let opened = workshop.map_or_else(Opened::default, |folder| {
            workshop_folder::open(Some(Path::new(folder)), here.path(), None).unwrap()
        });
        let planner = Planner::default();
        let app = App {
            output: Output::new(out, err, Some(100), Look::Columns, false),
            opened,
            stop: StopFlag::default(),
            folder: here.path().to_path_buf(),
            data_folder: None,
            state_folder: remembers.then(|| here.path().join("state")),
            recipes: OpenRecipes::new(planner.clone()),
            planner,
            found: FoundRecipes::default(),
            looked_at: BTreeSet::new(),
            descriptions: BTreeMap::new(),
            inputs: BTreeMap::new(),
            variables: BTreeMap::new(),
            shows_progress: false,
            asks: false,
            worker: Worker::new(PathBuf::new()),
        };
        let session = Session::new(&app, true);
        Self { here, screen, app, session }
    }

    /// What is on the screen since the last look.
    fn seen(&self) -> String {
        String::from_utf8(self.screen.0.take()).unwrap()
    }

    fn types(&mut self, line: &str) -> (After, String) {
        let after = self.session.line(&mut self.app, line);
        (after, self.seen())
    }

    fn pastes(&mut self, text: &str) -> (After, String) {
        let after = each_line(&mut self.session, &mut self.app, text);
        (after, self.seen())
    }

    /// Writes a file whose length differs from before, so that it is seen to be another.
    fn writes(&self, name: &str, text: &str) {
        let path = self.here.path().join(name);
        assert_ne!(fs::metadata(&path).unwrap().len(), u64::try_from(text.len()).unwrap());
        fs::write(path, text).unwrap();
    }
}

#[test]
fn lines_that_are_pasted_run_up_to_the_first_that_fails() {
    let mut person = Person::new(&[], None, true);
    let (after, seen) = person.pastes("a = 1 cm\nb = (a\n+ 2 cm)\nb * 2");
    assert_eq!((after, seen.as_str()), (After::Done, "a  1 cm\nb  3 cm\n6 cm\n"));
    let (after, seen) = person.pastes("c = 4 cm\nd = nosuch\ne = 5 cm\nf = 6 cm");
    assert_eq!(after, After::Failed);
    assert!(seen.starts_with("c  4 cm\n") && seen.ends_with("stopped here; 2 more lines were not run\n"), "{seen}");
    assert!(person.session.page.value("e").is_none());
    // After the last line nothing is left to be stopped.
    let (after, seen) = person.pastes("e = 5 cm\nnosuch");
    assert!(after == After::Failed || after == After::Done, "{after:?}");
    assert!(!seen.contains("were not run"), "{seen}");
    assert_eq!(person.pastes("leave\ng = 7 cm").0, After::Leave);
    assert!(person.session.page.value("g").is_none());
    // An empty line says nothing.
    assert_eq!(person.pastes(""), (After::Done, String::new()));
}

#[test]
fn one_who_comes_is_told_how_to_begin() {
    let greeted = |person: &mut Person, was_here: bool| {
        greet(&person.session, &mut person.app, was_here);
        person.seen()
    };
    let mut first = Person::new(&[], None, true);
    let seen = greeted(&mut first, false);
    assert!(seen.starts_with("Type a sum such as ") && seen.contains("New here? tour "), "{seen}");
    assert!(seen.contains("No workshop is in this folder"), "{seen}");
    let again = greeted(&mut first, true);
    assert!(!again.contains("New here?") && !again.contains("Your last page"), "{again}");
    // A page was left: one line, or two.
    for (text, lines) in [("a = 1 cm\n", "(1 line)"), ("a = 1 cm\n\nb = 2 cm\n", "(2 lines)")] {
        let mut person = Person::new(&[("state/pages/left-7-1.txt", text)], None, true);
        let seen = greeted(&mut person, false);
        assert!(
            seen.contains(&format!("Your last page {lines} has no name yet")) && !seen.contains("New here?"),
            "{seen}"
        );
    }
    let mut settled = Person::new(&[("shop/rates.csv", "operation,per,minutes\n")], Some("shop"), true);
    assert!(!greeted(&mut settled, false).contains("No workshop is in this folder"));
}

#[test]
fn one_who_leaves_is_told_where_her_page_is() {
    let left = |person: &mut Person| {
        let code = leave(&mut person.session, &mut person.app);
        (code, person.seen())
    };
    let kept = "The page is kept: open left brings it back.\n".to_owned();
    let mut person = Person::new(&[], None, true);
    assert_eq!(left(&mut person), (DONE, String::new()));
    person.types("a = 1 cm");
    assert_eq!(left(&mut person), (DONE, kept));
    person.types("save fair");
    assert_eq!(left(&mut person), (DONE, String::new()));
    let mut nowhere = Person::new(&[], None, false);
    let (after, seen) = nowhere.types("a = 1 cm");
    assert_eq!(after, After::Done);
    assert!(seen.ends_with("this page cannot be kept: there is no folder for it; save it under a name\n"), "{seen}");
    // Told once, until the page changes again.
    assert_eq!(nowhere.types("a * 2"), (After::Done, "2 cm\n".to_owned()));
    assert!(nowhere.types("a = 2 cm").1.contains("this page cannot be kept"));
    assert_eq!(left(&mut nowhere).1, "");
    assert_eq!(history_file(&nowhere.app), None);
    assert_eq!(history_file(&person.app), Some(person.here.path().join("state/history.txt")));
    assert!(person.here.path().join("state").is_dir());
}

#[test]
fn a_page_that_another_wrote_is_told_of_and_left_alone() {
    let mut person = Person::new(&[], None, true);
    person.types("a = 1 cm");
    person.types("save fair");
    person.writes("fair.txt", "theirs = 3 cm\n");
    let (after, seen) = person.types("a = 2 cm");
    assert_eq!(after, After::Done);
    assert!(seen.contains("fair.txt was changed by another window or program"), "{seen}");
    assert!(!person.types("a = 3 cm").1.contains("was changed"));
    assert_eq!(fs::read_to_string(person.here.path().join("fair.txt")).unwrap(), "theirs = 3 cm\n");
}

/// A table of two rows gets a third.
#[test]
fn a_table_that_changed_is_read_again_before_the_next_line() {
    let mut person = Person::new(&[("orders.csv", "order,days\nPip,2\nWren,5\n")], None, true);
    person.types("read orders.csv as orders");
    assert_eq!(person.types("count = orders.rows").1, "count  2\n");
    assert_eq!(person.types("1 + 1").1, "2\n");
    person.writes("orders.csv", "order,days\nPip,2\nWren,5\nJuno,3\n");
    let (after, seen) = person.types("1 + 2");
    assert_eq!(after, After::Done);
    assert!(seen.starts_with("orders.csv changed\n") && seen.ends_with("\n3\n"), "{seen}");
    let told: Vec<Vec<&str>> =
        seen.lines().map(|line| line.split("  ").filter(|cell| !cell.is_empty()).collect()).collect();
    let count = told.iter().find(|cells| cells[0] == "count").unwrap();
    assert_eq!((count[1].trim(), count[2].trim()), ("3", "was 2"), "{seen}");
    assert_eq!(person.types("1 + 3").1, "4\n");
}

/// Two hours at $18, then at $24.
#[test]
fn a_workshop_that_changed_is_reckoned_with_before_the_next_line() {
    let rates = |wage: &str| format!("operation,per,minutes,set-up,value\nwage,,,,{wage}\n");
    let files = [("shop/rates.csv", rates("$18/h")), ("shop/settings.csv", "setting,value\ntape,inch\n".to_owned())];
    let files = files.each_ref().map(|(name, text)| (*name, text.as_str()));
    let mut person = Person::new(&files, Some("shop"), true);
    assert_eq!(person.types("pay = wage * 2 h").1, "pay  $36.00\n");
    person.types("long = 3");
    person.writes("shop/rates.csv", &rates("$24.00/h"));
    assert_eq!(person.types("1 + 1").1, "the workshop changed\npay  $48.00   was $36.00\n2\n");
    // What cannot be read changes nothing, and is told once.
    person.writes("shop/rates.csv", &rates("plenty of money"));
    let seen = person.types("pay").1;
    assert!(seen.starts_with("the workshop's files changed and cannot be read; the old ones count\n"), "{seen}");
    assert!(seen.ends_with("\n$48.00\n"), "{seen}");
    assert_eq!(person.types("pay").1, "$48.00\n");
    person.writes("shop/rates.csv", &rates("$24/h"));
    person.types("1 + 1");
    // Other settings, and the whole page is read anew.
    person.writes("shop/settings.csv", "setting,value\ntape,metric\n");
    let seen = person.types("pay").1;
    assert_eq!(seen, "the workshop's settings changed; the page was worked out anew\n$48.00\n");
    assert_eq!(person.session.page.names().collect::<Vec<_>>(), ["long", "pay"]);
}

#[test]
fn what_is_typed_is_completed_from_the_page_and_the_workshop() {
    let files: Vec<(String, &str)> = DEMO_FILES.iter().map(|(name, text)| (format!("shop/{name}"), *text)).collect();
    let mut files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), *text)).collect();
    files.push(("orders.csv", "order,days\nPip,2\nWren,5\n"));
    let mut person = Person::new(&files, Some("shop"), true);
    person.pastes("waist = 56 cm\nwaist_flat = waist * 2\nfails = waist + 1 min");
    person.types("read orders.csv as orders");
    person.types("run gathered_skirt as first waist=21 in skirt=12 in cloth=any 45 in elastic=any");
    let view = PageView::default();
    view.take_page(&mut person.session, &person.app);
    assert_eq!(view.names_from("wai", 9), ["waist", "waist_flat"]);
    assert_eq!(view.names_from("wai", 1), ["waist"]);
    let value = |name: &str| view.value_of(name);
    assert_eq!((value("waist").as_deref(), value("fails"), value("none")), (Some("56 cm"), None, None));
    assert_eq!((value("first.waist").as_deref(), value("first.nosuch")), (Some("21 in"), None));
    // The wage of rates.csv; a price and members of a cloth of materials.csv.
    assert_eq!(value("wage").as_deref(), Some("$21.00/h"));
    assert!(value("white_cotton_lawn.price").unwrap().ends_with("/yd"));
    assert!(view.members_of("white_cotton_lawn").contains(&"usable_width".to_owned()));
    assert_eq!(view.members_of("orders"), ["order", "days", "rows"]);
    assert!(view.members_of("first").contains(&"price".to_owned()));
    assert!(view.members_of("first.cut_list").contains(&"piece".to_owned()));
    assert!(view.members_of("fails").is_empty() && view.members_of("none").is_empty());
    assert!(view.workshop_names().contains(&"wage".to_owned()));
    assert_eq!((view.recipe_in("first").as_deref(), view.recipe_in("waist")), (Some("gathered_skirt"), None));
    let inputs = view.inputs_of("gathered_skirt");
    assert_eq!((inputs[0].0.as_str(), inputs[0].1.contains("waist")), ("waist", true));
    assert!(view.inputs_of("nosuch").is_empty() && view.answered_besides("nosuch").is_empty());
    assert!(view.answered_besides("gathered_skirt").contains(&"size".to_owned()));
    let cloths = view.possible("gathered_skirt", "cloth").unwrap().answers;
    assert!(cloths.contains(&"white cotton lawn".to_owned()), "{cloths:?}");
    assert!(view.possible("gathered_skirt", "nosuch").is_none() && view.possible("nosuch", "cloth").is_none());
    assert!(view.question().is_none());
    view.return_page(&mut person.session);
    assert_eq!(person.session.page.names().count(), 5);
    // At a question the answers are those of the question.
    person.types("run gathered_skirt as second skirt=12 in cloth=any 45 in elastic=any");
    view.take_page(&mut person.session, &person.app);
    assert!(view.question().unwrap().takes_sums);
}

#[test]
fn lines_from_a_pipe_may_end_as_any_system_ends_them() {
    let mut person = Person::new(&[], None, true);
    let mut piped = |bytes: &[u8], echo: bool| {
        let code = lines::from_pipe(&mut person.app, &mut &*bytes, echo);
        (code, person.seen())
    };
    let windows = "\u{feff}a = 1 cm\r\na * 2\r\n";
    assert_eq!(piped(windows.as_bytes(), false), (DONE, "a  1 cm\n2 cm\n".to_owned()));
    let echoed = "> a = 1 cm\na  1 cm\n> a * 2\n2 cm\n";
    assert_eq!(piped(b"a = 1 cm\na * 2", true), (DONE, echoed.to_owned()));
    // A line that fails is no end, and is told by the code.
    let (code, seen) = piped(b"nosuch\n1 + 1\n", false);
    assert!(code == FAILED && seen.ends_with("\n2\n"), "{seen}");
    let (code, seen) = piped(b"1 + 1\n\xff\n3 + 3\n", false);
    assert_eq!((code, seen.as_str()), (FAILED, "2\nthe lines that were piped in are not plain text (UTF-8)\n"));
    let long = vec![b'#'; 4 * 1024 * 1024 + 2];
    let told = "the lines that were piped in are too long; 4 MB are the most\n";
    assert_eq!(piped(&long, false), (FAILED, told.to_owned()));
    let code = person.app.page_from(&mut &*long, "it");
    assert_eq!((code, person.seen().as_str()), (FAILED, "it is too long; a page may hold 4 MB\n"));
    let code = person.app.page_from(&mut &b"\xff"[..], "it");
    assert_eq!((code, person.seen().as_str()), (FAILED, "it is not plain text (UTF-8)\n"));
    let code = person.app.page_from(&mut &b"a = 1 cm\n"[..], "it");
    assert_eq!((code, person.seen().as_str()), (DONE, "a  1 cm\n"));
}

#[test]
fn an_error_names_the_help_on_it() {
    let mut person = Person::new(&[], None, true);
    let (after, seen) = person.types("3 cm + 2 min");
    assert_eq!(after, After::Failed);
    assert!(seen.starts_with("a length and a time cannot be added\n") && seen.ends_with("\n  help units tells more\n"));
    assert!(!person.types("nosuch").1.contains("tells more"));
}

/// The answers of a workshop on the inch tape, and of a first order in it.
const SET_UP: [&str; 20] = [
    "inches",
    "$",
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

#[test]
fn the_first_order_of_a_workshop_takes_a_name_that_is_free() {
    let mut person = Person::new(&[], None, true);
    person.pastes("first = 3 cm\nfirst_2 = 4 cm");
    let (_, seen) = person.types("own workshop in mine");
    assert!(
        seen.starts_with("your workshop, in the folder mine\n") && seen.contains("Enter = what stands in [ ]"),
        "{seen}"
    );
    assert!(seen.ends_with("\n1  your tape: inch or cm?  [inch]\n"), "{seen}");
    for answer in &SET_UP[..19] {
        assert_eq!(person.types(answer).0, After::Done, "{answer}");
    }
    let (after, seen) = person.types(SET_UP[19]);
    assert_eq!(after, After::Done);
    assert!(seen.contains("\nthe page was worked out anew\n") && seen.contains("\nfirst_3  2 pieces to cut"), "{seen}");
    assert_eq!(person.session.page.names().collect::<Vec<_>>(), ["first", "first_2", "first_3"]);
    assert!(person.session.setting_up.is_none() && person.app.opened.folder.is_some());
}

#[test]
fn a_set_up_read_aloud_has_no_brackets() {
    let mut person = Person::new(&[], None, true);
    person.app.output.plain = true;
    let (_, seen) = person.types("own workshop");
    assert!(seen.contains("Enter = the usual answer; back = the question before"), "{seen}");
    assert!(seen.ends_with("\n1: your tape: inch or cm?\n  Enter = inch\n"), "{seen}");
    person.types("inch");
    assert!(person.types("$").1.ends_with("\n3: an hour of your work, such as $20?\n"));
    // Nothing can be listed at a question of the workshop's own, and back goes to the one before.
    assert_eq!(person.types("list").1, "there is nothing to choose from\n");
    assert!(person.types("back").1.starts_with("2: your money"));
    assert!(person.types("? selvedge").1.contains("2: your money"));
    assert_eq!(person.session.drop_questions(), "stopped; nothing was written");
    assert!(!person.session.is_asking());
    assert_eq!(person.session.drop_questions(), "stopped; nothing was made");
}
