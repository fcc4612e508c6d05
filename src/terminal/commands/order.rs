//! Recipes: `run`, `change`, `sheet`, `recipes`, `describe` and `check`.

use super::{Family, after};
use crate::notebook::TicketObject;
use crate::notebook::verbs;
use crate::recipe::{Reply, Task, library};
use crate::terminal::app::{App, DONE, FAILED, findings};
use crate::terminal::recipes;
use crate::terminal::session::asking::{Asking, Completeness};
use crate::terminal::session::lines::print_error;
use crate::terminal::session::{After, Session};
use crate::terminal::trust_store::TrustStore;

pub(super) const ACTIONS: Family = &[
    ("run", |session, app, arguments| Ok(session.run(app, arguments.value(0), arguments.answers))),
    ("change", |session, app, arguments| {
        let line = session.page.order_changed(arguments.value(0), &arguments.answers)?;
        Ok(session.run_line(app, &line))
    }),
    ("sheet", |session, app, arguments| Ok(session.sheet(app, arguments.value(0), arguments.answers))),
    ("recipes", |_, app, arguments| Ok(after(app.list_recipes(arguments.value(0))))),
    ("describe", |_, app, arguments| Ok(after(app.describe(arguments.value(0), "run")))),
    ("check", |_, app, arguments| {
        Ok(after(app.check(&arguments.value(0).split_whitespace().map(str::to_owned).collect::<Vec<_>>())))
    }),
    // With its cell it is a line of the page, not a verb.
    ("read", |_, _, _| Err(verbs::incomplete_error("read"))),
];

impl Session {
    /// Runs an order that fills no cell: shows its tables and leaves the page unchanged.
    fn run(&mut self, app: &mut App<'_>, recipe: &str, answers: Vec<(String, String)>) -> After {
        match Asking::begin(self, app, recipe, None, answers, "") {
            Ok(Completeness::Incomplete(asking)) => {
                self.asking = Some(*asking);
                self.ask_first(app);
                After::Done
            }
            Ok(Completeness::Complete(answers)) => after(app.run_recipe(recipe, answers, None, false)),
            Err(error) => print_error(app, &error),
        }
    }

    fn sheet(&mut self, app: &mut App<'_>, name: &str, answers: Vec<(String, String)>) -> After {
        match self.ticket_in(name) {
            Some(ticket) => match app.show_sheet(ticket.order()) {
                Ok(()) => after(DONE),
                Err(error) => print_error(app, &error),
            },
            None => after(app.sheet(name, answers, false)),
        }
    }

    fn ticket_in(&self, name: &str) -> Option<TicketObject> {
        self.page.value(name)?.ok()?.clone().try_cast::<TicketObject>()
    }
}

impl App<'_> {
    /// Checks recipes, and accepts those that pass.
    pub(crate) fn check(&mut self, names: &[String]) -> u8 {
        let mut code = DONE;
        for name in names {
            let recipe = match self.found.find(name, &self.folder) {
                Ok(recipe) => recipe,
                Err(message) => {
                    code = self.failed(&message);
                    continue;
                }
            };
            match self.ask(&recipe, Task::Check) {
                Reply::Checked(report) if report.passed() => {
                    TrustStore::in_folder(self.state_folder.as_deref()).add(&recipe);
                    self.output.print(&format!(
                        "{}: nothing to mend; {} examples come out, {} corners of the ranges tried, {} of them turned away",
                        recipe.text.name, report.examples, report.corners, report.refused
                    ));
                }
                Reply::Checked(report) => {
                    self.output.eprint(&findings(&recipe.text, &report));
                    code = FAILED;
                }
                reply => code = self.unexpected(&reply),
            }
        }
        code
    }

    /// Lists the shipped recipes and those in this folder; with a word, those about it: `skirt`, `curtains`.
    pub(crate) fn list_recipes(&mut self, about: &str) -> u8 {
        let mut names: Vec<String> = library::shipped_names().map(str::to_owned).collect();
        names.extend(recipes::in_folder(&self.folder));
        names.sort();
        names.dedup();
        let listed = names.into_iter().filter_map(|name| {
            let recipe = recipes::find(&name, &self.folder).ok();
            let header = recipe.map(|recipe| recipe.header()).unwrap_or_default();
            (about.is_empty() || header.is_about(&name, about)).then_some((name, header.makes))
        });
        let listed: Vec<(String, String)> = listed.collect();
        if listed.is_empty() {
            return self.failed(&format!("no recipe is about “{about}”\n  type recipes for the whole list"));
        }
        let widest = listed.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
        for (name, makes) in listed {
            self.output.print_wrapped(&format!("{name:widest$}  {makes}"));
        }
        DONE
    }
}
