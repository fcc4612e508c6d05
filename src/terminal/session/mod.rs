//! A session: runs lines that are typed or piped in, on a page that it keeps on disk.

pub(crate) mod asking;
pub(crate) mod folder_pages;
pub(crate) mod lines;
mod page_file;
pub(crate) mod prompt;
pub(crate) mod setting_up;
mod world;

use crate::engine::Host;
use crate::notebook::{Page, is_open};
use crate::recipe::Possible;
use crate::terminal::app::App;
use crate::ticket::WorkshopOrder;
use asking::Asking;
use page_file::PageFile;
use setting_up::SettingUp;
use std::rc::Rc;
use world::Watch;

/// A page being worked on.
pub(crate) struct Session {
    pub(crate) page: Page,
    pub(crate) host: Host,
    pub(crate) file: PageFile,
    pub(crate) asking: Option<Asking>,
    pub(crate) setting_up: Option<Box<SettingUp>>,
    /// The next part of the tour, from 0.
    pub(crate) tour: usize,
    /// The order made or shown last, which `all`, `sheet` and `show` with a section mean without a name.
    pub(crate) last_order: Option<Rc<WorkshopOrder>>,
    /// Whether that order came after the last answer, and so is what `chart` means without a name.
    pub(crate) order_is_latest: bool,
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
            setting_up: None,
            tour: 0,
            last_order: None,
            order_is_latest: false,
            placed: None,
            least_width: 0,
            watch: Watch::of(app),
            kept: 0,
            at_prompt,
        }
    }

    /// Whether a line is incomplete; an answer to a question never is.
    pub(crate) fn is_open(&self, typed: &str) -> bool {
        !self.is_asking() && is_open(typed, self.host.reading())
    }

    /// Whether a typed line is an answer to a question.
    pub(crate) fn is_asking(&self) -> bool {
        self.asking.is_some() || self.setting_up.is_some()
    }

    /// What the question may be answered with that is being asked; `None` if none is.
    pub(crate) fn possible(&self) -> Option<Possible> {
        match (&self.asking, &self.setting_up) {
            (Some(asking), _) => Some(asking.possible()),
            (None, Some(set_up)) => Some(set_up.possible()),
            (None, None) => None,
        }
    }

    /// Drops the questions that are being asked, and returns what to say about it.
    pub(crate) fn drop_questions(&mut self) -> &'static str {
        self.asking = None;
        if self.setting_up.take().is_some() { setting_up::SET_UP_DROPPED } else { asking::STOPPED }
    }

    /// Takes the workshop's files as they are now for known.
    fn watch_anew(&mut self, app: &App<'_>) {
        self.watch = Watch::of(app);
    }
}

#[cfg(test)]
mod tests;
