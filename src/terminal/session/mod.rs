//! A session: runs lines that are typed or piped in, on a page that it keeps on disk.

pub(crate) mod asking;
pub(crate) mod folder_pages;
pub(crate) mod lines;
mod page_file;
pub(crate) mod prompt;
mod world;

use crate::engine::Host;
use crate::notebook::{Page, is_open};
use crate::terminal::app::App;
use crate::ticket::WorkshopOrder;
use asking::Asking;
use page_file::PageFile;
use std::rc::Rc;
use world::Watch;

/// A page being worked on.
pub(crate) struct Session {
    pub(crate) page: Page,
    pub(crate) host: Host,
    pub(crate) file: PageFile,
    pub(crate) asking: Option<Asking>,
    /// The next part of the tour, from 0.
    pub(crate) tour: usize,
    /// The order shown last, which `all`, `sheet` and `show` with a section mean without a name.
    pub(crate) last_order: Option<Rc<WorkshopOrder>>,
    /// The line of the last order that was put on the page, not yet in the history.
    pub(crate) placed: Option<String>,
    /// Minimum width of names in columns, so that the values of a page are aligned.
    least_width: usize,
    watch: Watch,
    /// The version of the page that was last saved.
    kept: u64,
    /// Whether a person sits at the prompt: pages without a name are then kept too.
    at_prompt: bool,
}

/// What the session does next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum After {
    /// Go on; the line succeeded.
    Done,
    /// Go on; the line failed.
    Failed,
    /// End: the person leaves.
    Leave,
}

impl Session {
    /// A session with an empty page.
    pub(crate) fn new(app: &App<'_>, at_prompt: bool) -> Self {
        Self {
            page: Page::default(),
            host: app.host(),
            file: PageFile::unnamed(app.state_folder.as_deref()),
            asking: None,
            tour: 0,
            last_order: None,
            placed: None,
            least_width: 0,
            watch: Watch::of(app),
            kept: 0,
            at_prompt,
        }
    }

    /// Whether a line is incomplete; an answer to a question never is.
    pub(crate) fn is_open(&self, typed: &str) -> bool {
        self.asking.is_none() && is_open(typed, self.host.reading())
    }
}
