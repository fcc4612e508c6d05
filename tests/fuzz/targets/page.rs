//! Target `page`: lines fed to a page of cells, one after the other.

use super::{assert_plain, assert_span};
use shirr::engine::limits::{Limits, StopFlag};
use shirr::engine::{Expression, Fault, Host};
use shirr::notebook::{Line, Page, read_line};
use shirr::quantity::{Reading, Style};

/// Small, so that one text takes milliseconds whatever it says.
const LIMITS: Limits = Limits { operations: 5_000, memory: 16 << 20 };

thread_local! {
    /// Made once: it keeps nothing of a page but the cautions, which are taken from it below.
    static HOST: Host = Host::new(Reading::default(), Style::default(), LIMITS, StopFlag::default());
}

/// Feeds every line of a text to a page.
pub fn try_text(text: &str) -> bool {
    HOST.with(|host| {
        let mut page = Page::default();
        for line in text.lines() {
            for fault in feed(host, &mut page, line) {
                assert_fault(text, &fault);
            }
        }
        let _cautions = host.take_notices();
    });
    true
}

/// The only place that knows how a page is fed; the answer is what went wrong.
fn feed(host: &Host, page: &mut Page, line: &str) -> Vec<Fault> {
    match read_line(line, host.reading()) {
        Line::Note | Line::Verb { .. } => Vec::new(),
        Line::Expression(expression) => page.answer(host, &expression).err().into_iter().collect(),
        Line::Cell { name, expression } => match page.set(host, &name, &expression) {
            Err(fault) => vec![fault],
            Ok(changes) => {
                let first = changes.first().expect("the cell itself is told first");
                assert_eq!(first.name, name);
                assert!(page.names().any(|known| known == name), "{name:?} is not on the page");
                // A cell may be called by a word that the script language keeps for itself; it cannot be read.
                let told = first.now.as_ref().ok().filter(|_| Expression::compile(host, &name).is_ok());
                if let Some(told) = told {
                    assert_eq!(page.answer(host, &name).as_ref(), Ok(told), "{name:?} answers otherwise than was told");
                }
                changes.into_iter().filter_map(|change| change.now.err()).collect()
            }
        },
    }
}

fn assert_fault(text: &str, fault: &Fault) {
    assert!(!fault.message.is_empty(), "a fault without words");
    if let Some(place) = &fault.place {
        for mark in &place.marks {
            assert_span(&place.text, mark);
        }
    }
    assert_plain(text, &fault.to_string());
}
