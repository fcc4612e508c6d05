//! Target `page`: enters lines into a page of cells, one after the other.

use super::assert_told;
use shirr::engine::Host;
use shirr::engine::limits::{Limits, StopFlag};
use shirr::notebook::{NoWorld, Page, Tools, statements};
use shirr::quantity::{Reading, Style};

/// Small, so that any text takes only milliseconds.
const LIMITS: Limits = Limits { operations: 5_000, memory: 16 << 20 };

thread_local! {
    /// Made once: it keeps nothing of a page but the cautions, which are taken from it below.
    static HOST: Host = Host::new(Reading::default(), Style::default(), LIMITS, StopFlag::default());
}

/// Enters every line of a text, takes the steps back, redoes them, and reads the page again.
pub fn try_text(text: &str) -> bool {
    HOST.with(|host| {
        let mut world = NoWorld;
        let tools = &mut Tools { host, world: &mut world };
        let mut page = Page::default();
        for line in statements(text, host.reading()) {
            let before = page.text();
            match page.enter(tools, &line) {
                Ok(entered) => {
                    let changes = entered.changes.iter().filter_map(|change| change.describe(&host.style(), true));
                    changes.filter_map(|change| change.now?.err()).for_each(|error| assert_told(text, &error));
                }
                Err(error) => {
                    assert_told(text, &error);
                    assert_eq!(page.text(), before, "a line that was refused changed the page");
                }
            }
        }
        let (worked_on, values) = (page.text(), state(&page));
        let again = Page::read(tools, &worked_on);
        assert_eq!(again.text(), worked_on, "the page reads as another");
        assert_eq!(state(&again), values, "the page read from nothing has other values: {worked_on}");
        if page.take_back(tools, usize::MAX).is_ok() {
            assert_eq!(page.text(), "", "something is left");
            page.redo(tools, usize::MAX).expect("what was taken back can be done again");
            assert_eq!(page.text(), worked_on);
            assert_eq!(state(&page), values);
        }
        // Any text is a page, whatever is wrong with it.
        let page = Page::read(tools, text);
        page.errors().iter().for_each(|(_, error)| assert_told(text, error));
        page.listing(tools, &[]).expect("any page can be listed");
        let _cautions = host.take_notices();
    });
    true
}

fn state(page: &Page) -> Vec<(String, Option<String>)> {
    page.names().map(|name| (name.to_owned(), page.shown(name, &Style::default()))).collect()
}
