//! `strike`, `rename`, `take back` and `redo`: the verbs that change the page.

use super::Family;
use super::pages::{page_path, shown_path};
use crate::diagnostic::Diagnostic;
use crate::notebook::{Change, StepResult, Tools};
use crate::terminal::app::App;
use crate::terminal::session::{After, Session};

pub(super) const ACTIONS: Family = &[
    ("strike", |session, app, arguments| session.strike(app, arguments.value(0))),
    ("rename", |session, app, arguments| {
        if arguments.has("page") {
            session.rename(app, "page", arguments.value(0))
        } else {
            session.rename(app, arguments.value(0), arguments.value(1))
        }
    }),
    ("take", |session, app, arguments| session.take_back(app, arguments.count())),
    ("redo", |session, app, arguments| session.redo(app, arguments.count())),
];

impl Session {
    fn take_back(&mut self, app: &mut App<'_>, count: usize) -> Result<After, Diagnostic> {
        let result = self.page.take_back(&mut Tools { host: &self.host, world: app }, count)?;
        Ok(self.show_steps(app, result, "taken back"))
    }

    fn redo(&mut self, app: &mut App<'_>, count: usize) -> Result<After, Diagnostic> {
        let result = self.page.redo(&mut Tools { host: &self.host, world: app }, count)?;
        Ok(self.show_steps(app, result, "done again"))
    }

    fn show_steps(&mut self, app: &mut App<'_>, result: StepResult, message: &str) -> After {
        let StepResult { lines, changes } = result;
        for line in lines {
            app.output.print_wrapped(&format!("{message}: {line}"));
        }
        self.show_moved(app, &changes)
    }

    /// Prints the changes of a step that was not typed: a cell that fails is no failure of the step.
    fn show_moved(&mut self, app: &mut App<'_>, changes: &[Change]) -> After {
        self.show_changes(app, changes, false);
        After::Done
    }

    fn strike(&mut self, app: &mut App<'_>, name: &str) -> Result<After, Diagnostic> {
        let changes = self.page.strike(&mut Tools { host: &self.host, world: app }, name)?;
        Ok(self.show_moved(app, &changes))
    }

    fn rename(&mut self, app: &mut App<'_>, old: &str, new: &str) -> Result<After, Diagnostic> {
        if old == "page" && self.page.value("page").is_none() {
            let path = page_path(app, new)?;
            let was =
                self.file.rename(&path, &self.page.text()).map_err(|problem| Diagnostic::new(problem.to_string()))?;
            self.mark_kept();
            let was = was.map_or_else(String::new, |was| format!(", and no longer {}", shown_path(app, &was)));
            app.output.print(&format!("the page is {}{was}", shown_path(app, &path)));
            return Ok(After::Done);
        }
        let readers = self.page.rename(&mut Tools { host: &self.host, world: app }, old, new)?;
        let read = match readers {
            0 => String::new(),
            1 => "; 1 line that reads it says so too".to_owned(),
            many => format!("; {many} lines that read it say so too"),
        };
        app.output.print(&format!("{old} is now {new}{read}"));
        Ok(After::Done)
    }
}
