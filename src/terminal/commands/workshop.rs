//! `own`, `demo`, `workshop` and `add`: a workshop of one's own, the invented one, what the folder in use holds, and one
//! more line of it.

use super::{Family, print_table};
use crate::diagnostic::Diagnostic;
use crate::quantity::Tape;
use crate::table::Table;
use crate::terminal::app::App;
use crate::terminal::files::{self, FileProblem};
use crate::terminal::session::setting_up::{folder_words, refuse_files_there};
use crate::terminal::session::{After, Session};
use crate::workshop::{self, DEMO_FILES, WorkshopFile};
use std::path::{Path, PathBuf};

pub(super) const ACTIONS: Family = &[
    ("own", |session, app, arguments| {
        let folder = folder_named(app, arguments.value(0));
        session.begin_set_up(app, folder)
    }),
    ("demo", |session, app, arguments| {
        let folder = folder_named(app, arguments.value(0));
        session.lay_down_demo(app, &folder)
    }),
    ("workshop", |_, app, _| app.tell_workshop()),
    ("add", |session, app, arguments| {
        let kind = arguments.keyword();
        session.add_line(app, kind, arguments.value(0))
    }),
];

/// The folder that was typed; without one, the folder in use.
fn folder_named(app: &App<'_>, typed: &str) -> PathBuf {
    if typed.is_empty() { folder_in_use(app) } else { app.folder.join(typed) }
}

/// The workshop's folder, else the one that the program was started in.
pub(super) fn folder_in_use(app: &App<'_>) -> PathBuf {
    app.opened.folder.clone().unwrap_or_else(|| app.folder.clone())
}

impl Session {
    fn lay_down_demo(&mut self, app: &mut App<'_>, folder: &Path) -> Result<After, Diagnostic> {
        let names = DEMO_FILES.map(|(name, _)| name);
        refuse_files_there(app, "demo workshop", folder, &names)?;
        let files = DEMO_FILES.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec()));
        files::create_all(folder, &files)?;
        self.take_up_workshop(app, folder, &names)?;
        app.output.print_wrapped(
            "everything in it is invented: own workshop in mine asks for your own before you quote a price",
        );
        Ok(After::Done)
    }
}

impl Session {
    /// Adds a line to a file of the workshop, and works out anew what reads it.
    fn add_line(&mut self, app: &mut App<'_>, kind: &str, typed: &str) -> Result<After, Diagnostic> {
        app.opened.check()?;
        let folder = folder_in_use(app);
        let mut texts = Vec::new();
        for file in WorkshopFile::ALL {
            match files::read(&folder.join(file.name())) {
                Ok(text) => texts.push((file.name().to_owned(), text)),
                Err(FileProblem::Missing(_)) => {}
                Err(problem) => return Err(problem.into()),
            }
        }
        let added = workshop::add(kind, typed, &app.opened.workshop, &texts)?;
        let name = added.file.name();
        let is_new = !texts.iter().any(|(known, _)| known == name);
        let bytes = added.text.into_bytes();
        if is_new {
            files::create_all(&folder, &[(name.to_owned(), bytes)])?;
        } else {
            files::replace(&folder.join(name), &bytes)?;
        }
        app.output.print_wrapped(&format!("added to {name}: {}", added.fields.join(", ")));
        if app.opened.folder.is_none() {
            self.take_up_workshop(app, &folder, &[name])?;
        } else {
            self.check_sources(app);
        }
        Ok(After::Done)
    }
}

impl App<'_> {
    /// Tells which folder is in use and what its files hold.
    fn tell_workshop(&mut self) -> Result<After, Diagnostic> {
        self.opened.check()?;
        let shown = folder_words(self, &folder_in_use(self));
        let table = self.holdings().map_err(|error| Diagnostic::new(error.to_string()))?;
        self.output.print_wrapped(&format!("folder {shown}"));
        print_table(self, &table);
        Ok(After::Done)
    }

    fn holdings(&self) -> Result<Table, crate::table::TableError> {
        let (folder, workshop) = (folder_in_use(self), &self.opened.workshop);
        let counted = |count: usize, one: &str, more: &str| match count {
            1 => format!("1 {one}"),
            count => format!("{count} {more}"),
        };
        let mut table = Table::new("workshop").text("file").text("holds").ready()?;
        for file in WorkshopFile::ALL {
            let holds = match file {
                _ if !folder.join(file.name()).exists() => "not there yet".to_owned(),
                WorkshopFile::Settings => {
                    let tape = if workshop.settings.tape == Tape::Inch { "inch" } else { "cm" };
                    format!("{tape} tape, money in {}", workshop.settings.currency)
                }
                WorkshopFile::Materials => counted(workshop.materials.list.len(), "material", "materials"),
                WorkshopFile::Stock => counted(workshop.stock.list.len(), "line of stock", "lines of stock"),
                WorkshopFile::Trials => counted(workshop.trials.list.len(), "trial", "trials"),
                WorkshopFile::Rates
                    if workshop.rates.operations.is_empty() && workshop.rates.built_in_times.is_some() =>
                {
                    "all minutes built in".to_owned()
                }
                WorkshopFile::Rates => {
                    let timed = counted(workshop.rates.operations.len(), "operation timed", "operations timed");
                    let built_in = workshop.rates.built_in_times.map_or("", |_| ", the others built in");
                    format!("{timed}{built_in}")
                }
                WorkshopFile::Sizes => counted(workshop.sizes.list.len(), "size", "sizes"),
            };
            table.push(vec![file.name().into(), holds.as_str().into()])?;
        }
        Ok(table)
    }
}
