//! Whatever is done to a page line by line, its values are those of the same lines read as a new page; and a step taken
//! back leaves no trace.

use proptest::prelude::*;
use shirr::engine::Host;
use shirr::engine::limits::{Limits, StopFlag};
use shirr::notebook::{NoWorld, Page, Tools, compare};
use shirr::quantity::{Reading, Style};
use shirr::report::excerpt;

fn host() -> Host {
    Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default())
}

/// Each cell with its value or its error.
fn state(page: &Page) -> Vec<(String, String)> {
    let style = Style::default();
    let mut cells: Vec<(String, String)> =
        page.names().map(|name| (name.to_owned(), page.shown(name, &style).unwrap_or_default())).collect();
    cells.extend(page.errors().into_iter().map(|(name, error)| (name, excerpt::text(&error))));
    cells.sort();
    cells
}

const NAMES: [&str; 7] = ["waist", "band", "strips", "ärmel", "hem", "p", "q"];

fn name() -> impl Strategy<Value = &'static str> {
    prop::sample::select(&NAMES[..])
}

fn sum() -> impl Strategy<Value = String> {
    let leaf = prop_oneof![
        4 => name().prop_map(str::to_owned),
        3 => (1..60u32).prop_map(|n| format!("{n} cm")),
        2 => (1..40u32).prop_map(|n| format!("{n}/8 in")),
        1 => (0..9u32).prop_map(|n| n.to_string()),
        1 => Just("\"ivory\"".to_owned()),
        1 => Just("2 min".to_owned()),
        1 => Just("that".to_owned()),
    ];
    leaf.prop_recursive(2, 6, 2, |inner| {
        prop_oneof![
            (inner.clone(), prop::sample::select(vec!["+", "-", "*", "/", "<", "=="]), inner.clone())
                .prop_map(|(left, sign, right)| format!("{left} {sign} ({right})")),
            inner.clone().prop_map(|sum| format!("up({sum} / 5 cm)")),
            inner.prop_map(|sum| format!("[{sum}, 3 cm]")),
        ]
    })
}

#[derive(Clone, Debug)]
enum Action {
    Type(String),
    Strike(&'static str),
    Rename(&'static str, &'static str),
    TakeBack(usize),
    Redo(usize),
}

fn action() -> impl Strategy<Value = Action> {
    prop_oneof![
        12 => (name(), sum()).prop_map(|(name, sum)| Action::Type(format!("{name} = {sum}"))),
        2 => sum().prop_map(Action::Type),
        2 => (sum(), sum()).prop_map(|(left, right)| Action::Type(format!("must {left} = {right} within 1 cm"))),
        1 => Just(Action::Type("# a note".to_owned())),
        2 => name().prop_map(Action::Strike),
        2 => (name(), name()).prop_map(|(old, new)| Action::Rename(old, new)),
        3 => (1..4usize).prop_map(Action::TakeBack),
        2 => (1..4usize).prop_map(Action::Redo),
    ]
}

/// Applies a deed to the page; a refused deed must change nothing.
fn apply(page: &mut Page, host: &Host, action: &Action) {
    let before = (page.text(), state(page));
    let mut world = NoWorld;
    let tools = &mut Tools { host, world: &mut world };
    let result = match action {
        Action::Type(line) => page.enter(tools, line).map(|_| ()),
        Action::Strike(name) => page.strike(tools, name).map(|_| ()),
        Action::Rename(old, new) => page.rename(tools, old, new).map(|_| ()),
        Action::TakeBack(count) => page.take_back(tools, *count).map(|_| ()),
        Action::Redo(count) => page.redo(tools, *count).map(|_| ()),
    };
    if result.is_err() {
        assert_eq!(before, (page.text(), state(page)), "{action:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn a_page_worked_on_is_the_page_read_from_nothing(actions in prop::collection::vec(action(), 1..40)) {
        let host = host();
        let mut page = Page::default();
        for action in &actions {
            apply(&mut page, &host, action);
        }
        let mut world = NoWorld;
        let tools = &mut Tools { host: &host, world: &mut world };
        let again = Page::read(tools, &page.text());
        prop_assert_eq!(state(&page), state(&again), "{}", page.text());
        prop_assert_eq!(page.text(), again.text());
        let differences = compare(tools, ("one", &page), ("other", &again)).unwrap();
        prop_assert!(differences.is_empty(), "{:?}", differences.rows());
    }

    #[test]
    fn all_taken_back_is_an_empty_page_and_all_done_again_is_the_page(actions in prop::collection::vec(action(), 1..25)) {
        let host = host();
        let mut page = Page::default();
        for action in actions.iter().filter(|action| !matches!(action, Action::TakeBack(_) | Action::Redo(_))) {
            apply(&mut page, &host, action);
        }
        let (text, values) = (page.text(), state(&page));
        apply(&mut page, &host, &Action::TakeBack(1_000));
        prop_assert_eq!(page.text(), "");
        prop_assert!(state(&page).is_empty());
        apply(&mut page, &host, &Action::Redo(1_000));
        prop_assert_eq!(page.text(), text);
        prop_assert_eq!(state(&page), values);
    }

    #[test]
    fn any_text_is_a_page(text in "(\\PC|\n){0,300}") {
        let host = host();
        let mut world = NoWorld;
        let tools = &mut Tools { host: &host, world: &mut world };
        let page = Page::read(tools, &text);
        // Only line ends may change.
        let lines = |text: &str| text.strip_prefix('\u{feff}').unwrap_or(text).lines().map(str::to_owned).collect::<Vec<_>>();
        prop_assert_eq!(lines(&page.text()), lines(&text));
        page.listing(tools, &[]).unwrap();
    }
}

#[test]
fn a_stopped_line_leaves_the_page_as_it_was() {
    let stop = StopFlag::default();
    let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::clone(&stop));
    let mut world = NoWorld;
    let tools = &mut Tools { host: &host, world: &mut world };
    let mut page = Page::default();
    page.enter(tools, "waist = 56 cm").unwrap();
    page.enter(tools, "band = waist + 10 in").unwrap();
    let before = (page.text(), state(&page));
    stop.store(true, std::sync::atomic::Ordering::SeqCst);
    let error = page.enter(tools, "waist = [60 cm, 1 cm].map(|x| x * 2).sum()").unwrap_err();
    assert!(error.is_stop(), "{error:?}");
    stop.store(false, std::sync::atomic::Ordering::SeqCst);
    assert_eq!(before, (page.text(), state(&page)));
    page.enter(tools, "waist = 60 cm").unwrap();
    assert_eq!(page.shown("band", &Style::default()).unwrap(), "85.4 cm");
}

#[test]
fn a_chain_of_20000_cells_is_worked_out_without_running_out_of_stack() {
    let host = host();
    let mut world = NoWorld;
    let tools = &mut Tools { host: &host, world: &mut world };
    let mut text = String::from("c0 = 1 cm\n");
    // The last cell comes first: order on the page does not matter.
    for n in (1..20_000).rev() {
        text.push_str(&format!("c{n} = c{} + 1 cm\n", n - 1));
    }
    let mut page = Page::read(tools, &text);
    assert_eq!(page.shown("c19999", &Style::default()).unwrap(), "20000 cm");
    let changes = page.enter(tools, "c0 = 2 cm").unwrap().changes;
    assert_eq!(changes.len(), 20_000);
    let error = page.enter(tools, "c0 = c19999").unwrap_err();
    assert!(error.message.starts_with("c0 needs "), "{}", &error.message[..80]);
}

#[test]
fn a_line_that_would_draw_in_the_next_is_refused() {
    let host = host();
    let mut world = NoWorld;
    let tools = &mut Tools { host: &host, world: &mut world };
    let mut page = Page::default();
    for line in ["a = 1 cm + 1/* i", "b = (1 cm", "must (1 < 2", "`1 cm"] {
        let error = page.enter(tools, line).unwrap_err();
        assert!(
            error.message.ends_with("here and not ended") || error.message.ends_with("here and not closed"),
            "{line}"
        );
        assert!(!error.labels.is_empty(), "{line}");
    }
    assert_eq!(page.text(), "");
}

#[test]
fn a_new_name_that_is_read_already_must_not_close_a_circle() {
    let host = host();
    let mut world = NoWorld;
    let tools = &mut Tools { host: &host, world: &mut world };
    let mut page = Page::default();
    for line in ["p = waist", "strips = up([waist, 3 cm] / 5 cm)", "band = p + 1 cm"] {
        page.enter(tools, line).unwrap();
    }
    let error = page.rename(tools, "strips", "waist").unwrap_err();
    assert_eq!(error.message, "waist needs waist");
    // Renaming a cell to a missing name supplies it.
    page.enter(tools, "wiast = 56 cm").unwrap();
    page.rename(tools, "wiast", "waist").unwrap();
    assert_eq!(page.shown("band", &Style::default()).unwrap(), "57 cm");
}

#[test]
fn a_page_with_a_circle_works_out_everybody_else() {
    let host = host();
    let mut world = NoWorld;
    let tools = &mut Tools { host: &host, world: &mut world };
    let mut page = Page::read(tools, "a = b\nb = a\nc = a + 1 cm\nd = 3 cm\ne = d * 2\n");
    let messages: Vec<String> =
        page.errors().into_iter().map(|(name, error)| format!("{name}: {}", error.message)).collect();
    let circle = "this cell needs itself";
    let expected = [format!("a: {circle}"), format!("b: {circle}"), "c: needs a, and a has an error".to_owned()];
    assert_eq!(messages, expected);
    assert_eq!(page.shown("e", &Style::default()).unwrap(), "6 cm");
    page.enter(tools, "b = 2 cm").unwrap();
    assert_eq!(page.shown("c", &Style::default()).unwrap(), "3 cm");
}
