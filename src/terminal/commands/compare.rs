//! `compare`: what differs between two pages, or between a page and its saved state.

use super::pages::page_there;
use super::{Family, print_table};
use crate::diagnostic::Diagnostic;
use crate::notebook::{self, Page, Tools};
use crate::terminal::app::App;
use crate::terminal::files;
use crate::terminal::session::{After, Session};

pub(super) const ACTIONS: Family = &[("compare", |session, app, arguments| session.compare(app, arguments.values()))];

impl Session {
    fn compare(&mut self, app: &mut App<'_>, files: &[&str]) -> Result<After, Diagnostic> {
        let read = |session: &Self, app: &mut App<'_>, file: &str| -> Result<Page, Diagnostic> {
            let text = files::read(&page_there(app, file)).map_err(|problem| Diagnostic::new(problem.to_string()))?;
            Ok(Page::read(&mut Tools { host: &session.host, world: app }, &text))
        };
        let table = match *files {
            [one, other] => {
                let pages = (read(self, app, one)?, read(self, app, other)?);
                notebook::compare(&mut Tools { host: &self.host, world: app }, (one, &pages.0), (other, &pages.1))?
            }
            [] => {
                if self.file.path().is_none() && self.file.saved.is_empty() {
                    return Err(Diagnostic::new("this page was never saved, so there is nothing to compare it with")
                        .hinting("type save fair.txt, or compare one.txt with other.txt"));
                }
                let saved = self.file.saved.clone();
                let saved = Page::read(&mut Tools { host: &self.host, world: app }, &saved);
                notebook::compare(&mut Tools { host: &self.host, world: app }, ("saved", &saved), ("now", &self.page))?
            }
            [file, ..] => {
                let page = read(self, app, file)?;
                notebook::compare(
                    &mut Tools { host: &self.host, world: app },
                    (file, &page),
                    ("this page", &self.page),
                )?
            }
        };
        if table.is_empty() {
            app.output.print("no difference");
        } else {
            print_table(app, &table);
        }
        Ok(After::Done)
    }
}
