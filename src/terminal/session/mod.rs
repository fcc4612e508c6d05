//! A session: lines typed or piped in, what they do to a page, and where the page is kept.

pub(crate) mod asking;
pub(crate) mod folder_pages;
pub(crate) mod lines;
mod page_file;
pub(crate) mod prompt;
mod world;

use crate::engine::Host;
use crate::notebook::{Page, is_open};
use crate::terminal::app::App;
use asking::Asking;
use page_file::PageFile;
use world::Watch;

/// A page being worked on.
pub(crate) struct Session {
    pub(crate) page: Page,
    pub(crate) host: Host,
    pub(crate) file: PageFile,
    pub(crate) asking: Option<Asking>,
    /// The part of the tour that comes next.
    pub(crate) tour: usize,
    /// The line that questions led to, not yet in the history.
    pub(crate) placed: Option<String>,
    /// Columns that names take at least, so that the cells of a page stand below each other.
    least_width: usize,
    watch: Watch,
    /// The page's text as it was last kept.
    kept: u64,
    /// Pages without a name are kept too: a person sits here.
    at_prompt: bool,
}

/// What the session does next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum After {
    /// It goes on; the line did what it said.
    Done,
    /// It goes on; the line failed.
    Failed,
    /// The person leaves.
    Leave,
}

impl Session {
    /// An empty page.
    pub(crate) fn new(app: &App<'_>, at_prompt: bool) -> Self {
        Self {
            page: Page::default(),
            host: app.host(),
            file: PageFile::unnamed(app.state_folder.as_deref()),
            asking: None,
            tour: 0,
            placed: None,
            least_width: 0,
            watch: Watch::of(app),
            kept: 0,
            at_prompt,
        }
    }

    /// Whether more must follow before a line can be understood.
    pub(crate) fn is_open(&self, typed: &str) -> bool {
        self.asking.is_none() && is_open(typed, self.host.reading())
    }
}
