//! `open`, `save` and `pages`: the files that pages are kept in.

use super::{Family, print_table};
use crate::diagnostic::Diagnostic;
use crate::notebook::verbs;
use crate::notebook::{Page, Tools};
use crate::report::excerpt;
use crate::terminal::app::App;
use crate::terminal::files;
use crate::terminal::session::folder_pages;
use crate::terminal::session::lines::check_lines;
use crate::terminal::session::{After, Session};
use std::path::{Path, PathBuf};

pub(super) const ACTIONS: Family = &[
    ("open", |session, app, arguments| {
        if arguments.is_empty() {
            session.list_pages(app)
        } else {
            session.open(app, if arguments.has("left") { "left" } else { arguments.value(0) })
        }
    }),
    ("pages", |session, app, _| session.list_pages(app)),
    ("save", |session, app, arguments| session.save(app, arguments.value(0))),
];

impl Session {
    fn open(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Diagnostic> {
        let problem = |problem: files::FileProblem| Diagnostic::new(problem.to_string());
        let set_aside = self.file.path().is_none() && self.keeps_unnamed() && !self.page.is_empty();
        let (text, name) = if rest == "left" {
            let left = self.file.left_pages();
            let Some(left) = left.first() else { return Err(Diagnostic::new("there is no page without a name")) };
            (self.file.take_up(left).map_err(problem)?, "the page that was left".to_owned())
        } else {
            let path = page_there(app, rest);
            // Each line would be saved into the table or the recipe.
            if let Some(kind) = other_than_page(&path) {
                return Err(
                    Diagnostic::new(format!("{rest} is {}, not a page", kind.noun)).hinting(kind.instead_of(rest))
                );
            }
            check_lines(&files::read(&path).map_err(problem)?)?;
            let (text, elsewhere) = self.file.open(&path).map_err(problem)?;
            if elsewhere {
                app.output.eprint(&format!(
                    "{rest} is open in another window too; what the other window saves will not be written over"
                ));
            }
            (text, rest.to_owned())
        };
        self.page = Page::read(&mut Tools { host: &self.host, world: app }, &text);
        self.mark_kept();
        if set_aside {
            app.output.print("the page without a name is set aside; open left brings it back");
        }
        app.output.print(&format!("{name}: {}", counted(&self.page)));
        let errors = self.page.errors();
        for (name, error) in errors.iter().take(10) {
            app.output.eprint(&format!("{name}: {}", excerpt::text(error)));
        }
        if errors.len() > 10 {
            app.output.eprint(&format!("and {} more; show tells all", errors.len() - 10));
        }
        Ok(if errors.is_empty() { After::Done } else { After::Failed })
    }

    fn list_pages(&mut self, app: &mut App<'_>) -> Result<After, Diagnostic> {
        let pages = folder_pages::listed(&app.folder, self.host.reading());
        let table = folder_pages::table(&pages).map_err(|error| Diagnostic::new(error.to_string()))?;
        let left = self.file.left_pages().len();
        if pages.is_empty() {
            app.output.print("no page is in this folder; save fair.txt keeps this one under a name");
        } else {
            print_table(app, &table);
        }
        match left {
            0 => {}
            1 => app.output.print("your last page has no name yet: open left brings it back"),
            many => {
                app.output.print(&format!("{many} pages have no name yet: open left brings the last one back"));
            }
        }
        Ok(After::Done)
    }

    fn save(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Diagnostic> {
        let path = match (rest, self.file.path()) {
            ("", Some(path)) => path.to_path_buf(),
            ("", None) => return Err(verbs::incomplete_error("save")),
            (name, _) => page_path(app, name)?,
        };
        self.file.save_as(&path, &self.page.text()).map_err(|problem| Diagnostic::new(problem.to_string()))?;
        self.mark_kept();
        app.output.print(&format!("saved as {}; from now on each line is saved at once", shown_path(app, &path)));
        Ok(After::Done)
    }
}

/// The path of an existing page: `open mine` finds `mine.txt`, which `save mine` wrote.
pub(super) fn page_there(app: &App<'_>, name: &str) -> PathBuf {
    let path = app.folder.join(name);
    let with_end = path.with_extension("txt");
    if !path.is_file() && path.extension().is_none() && with_end.is_file() { with_end } else { path }
}

/// The path for a page of this name: `.txt` if it has no ending; a table's or a recipe's ending is rejected.
pub(super) fn page_path(app: &App<'_>, name: &str) -> Result<PathBuf, Diagnostic> {
    let path = app.folder.join(name);
    if other_than_page(&path).is_some() {
        return Err(Diagnostic::new(format!("“{name}” would not be taken for a page"))
            .hinting("a page is a text file: save fair.txt; tables are written with write"));
    }
    Ok(if path.extension().is_none() { path.with_extension("txt") } else { path })
}

/// A kind of file that is no page, by its ending.
struct OtherFile {
    end: &'static str,
    noun: &'static str,
    /// What to type instead, of the name of the file and that name without its ending.
    instead: fn(&str, &str) -> String,
}

const OTHER_FILES: [OtherFile; 4] = [
    OtherFile {
        end: "csv",
        noun: "a table",
        instead: |file, name| format!("type read {file} as {name} to have it on the page"),
    },
    OtherFile {
        end: "rhai",
        noun: "a recipe",
        instead: |file, _| format!("type describe {file} for what it makes, or run {file} as first"),
    },
    OtherFile { end: "md", noun: "a file of tables", instead: |_, _| A_PAGE.to_owned() },
    OtherFile { end: "svg", noun: "a picture", instead: |_, _| A_PAGE.to_owned() },
];

const A_PAGE: &str = "a page is a text file: open fair.txt";

impl OtherFile {
    fn instead_of(&self, file: &str) -> String {
        let name = Path::new(file).file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        (self.instead)(file, &name)
    }
}

fn other_than_page(path: &Path) -> Option<&'static OtherFile> {
    let end = path.extension()?.to_string_lossy().to_lowercase();
    OTHER_FILES.iter().find(|kind| kind.end == end)
}

pub(super) fn shown_path(app: &App<'_>, path: &Path) -> String {
    path.strip_prefix(&app.folder).unwrap_or(path).display().to_string()
}

/// Formats the size of a page: `12 lines, 2 cells`.
fn counted(page: &Page) -> String {
    let cells = page.names().count();
    let lines = page.len();
    let things = |count: usize, one: &str| if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") };
    format!("{}, {}", things(lines, "line"), things(cells, "cell"))
}
