//! What the verbs do.

use super::asking::{Asked, Asking};
use super::folder_pages;
use super::lines::{After, Session, tell};
use crate::engine::Fault;
use crate::notebook::{
    self, Change, Moved, Page, TableObject, TicketObject, Tools, order_fault, split_answers, tour, unquoted,
};
use crate::present::{self, LookError};
use crate::report::{self, Look};
use crate::table::Table;
use crate::terminal::app::{App, DONE};
use crate::terminal::files;
use rhai::Dynamic;
use std::path::Path;

impl Session {
    /// Does what a verb says.
    pub(crate) fn verb(&mut self, app: &mut App<'_>, verb: &str, rest: &str) -> After {
        let done = match verb {
            "show" => self.show(app, rest),
            "vary" => self.vary(app, rest),
            "compare" => self.compare(app, rest),
            "take" | "redo" => self.step(app, verb, rest),
            "strike" => self.strike(app, rest),
            "rename" => self.rename(app, rest),
            "open" if rest.is_empty() => self.list_pages(app),
            "open" => self.open(app, unquoted(rest)),
            "pages" => self.list_pages(app),
            "save" => self.save(app, unquoted(rest)),
            "write" => self.write(app, rest),
            "read" => Err(Fault::new("read which file, as which cell?").hinting("type read pieces.csv as pieces")),
            "tour" => self.show_tour(app, rest),
            _ => return self.of_recipes(app, verb, rest),
        };
        done.unwrap_or_else(|fault| tell(app, &fault))
    }

    fn of_recipes(&mut self, app: &mut App<'_>, verb: &str, rest: &str) -> After {
        let (head, answers) = split_answers(rest);
        let code = match verb {
            "run" | "sheet" | "describe" | "check" if head.is_empty() => {
                app.failed("which recipe?\n  type recipes for the list")
            }
            "run" => return self.run(app, &head, answers),
            "sheet" => match self.ticket_in(&head) {
                Some(ticket) => match app.show_sheet(ticket.order()) {
                    Ok(()) => DONE,
                    Err(fault) => return tell(app, &fault),
                },
                None => app.sheet(&head, answers, false),
            },
            "recipes" => app.list_recipes(rest),
            "describe" => app.describe(&head, "run"),
            "check" => app.check(&head.split_whitespace().map(str::to_owned).collect::<Vec<_>>()),
            _ => app.explain(rest),
        };
        if code == DONE { After::Done } else { After::Failed }
    }

    /// An order that fills no cell: its tables are shown, and nothing stays on the page.
    fn run(&mut self, app: &mut App<'_>, recipe: &str, answers: Vec<(String, String)>) -> After {
        match Asking::begin(self, app, recipe, None, answers, "") {
            Ok(Asked::Question(asking)) => {
                self.asking = Some(*asking);
                self.ask_first(app);
                After::Done
            }
            Ok(Asked::All(answers)) => {
                let code = app.run_recipe(recipe, answers, None, false);
                if code == DONE { After::Done } else { After::Failed }
            }
            Err(fault) => tell(app, &fault),
        }
    }

    fn ticket_in(&self, name: &str) -> Option<TicketObject> {
        self.page.value(name)?.ok()?.clone().try_cast::<TicketObject>()
    }

    fn show(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Fault> {
        let names: Vec<&str> = rest.split([' ', ',']).filter(|name| !name.is_empty()).collect();
        // One table or ticket is shown in full; a sum that gives one too: show first.cut_list
        if let [one] = names.as_slice() {
            let is_cell = self.page.value(one).is_some();
            let value = if is_cell { self.page.value(one).and_then(Result::ok).cloned() } else { None };
            let value = match value {
                Some(value) => Some(value),
                None if one.contains('.') => Some(self.page.answer(&mut Tools { host: &self.host, world: app }, one)?),
                None => None,
            };
            if let Some(value) = value
                && (self.show_in_full(app, &value)? || !is_cell)
            {
                return Ok(After::Done);
            }
        }
        let table = self.page.listing(&mut Tools { host: &self.host, world: app }, &names)?;
        if table.is_empty() {
            app.output.say("the page is empty; type waist = 56 cm, or help");
        } else {
            say_table(app, &table);
        }
        Ok(After::Done)
    }

    /// Shows a value in full; false where its one line says it all.
    fn show_in_full(&mut self, app: &mut App<'_>, value: &Dynamic) -> Result<bool, Fault> {
        if let Some(table) = value.clone().try_cast::<TableObject>() {
            say_table(app, table.table());
            return Ok(true);
        }
        if let Some(ticket) = value.clone().try_cast::<TicketObject>() {
            app.show_order(ticket.order())?;
            return Ok(true);
        }
        if let Ok(shown) = notebook::one_line(value, &self.host.style()) {
            app.output.say(&shown);
        }
        Ok(false)
    }

    fn vary(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Fault> {
        let table = self.page.vary(&mut Tools { host: &self.host, world: app }, rest)?;
        say_table(app, &table);
        self.page.set_that(Dynamic::from(TableObject::new(table)));
        Ok(After::Done)
    }

    fn compare(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Fault> {
        let read = |session: &Self, app: &mut App<'_>, file: &str| -> Result<Page, Fault> {
            let text = files::read(&page_there(app, file)).map_err(|problem| Fault::new(problem.to_string()))?;
            Ok(Page::read(&mut Tools { host: &session.host, world: app }, &text))
        };
        let table = match rest.split_once(" with ") {
            Some((one, other)) => {
                let (one, other) = (unquoted(one), unquoted(other));
                let pages = (read(self, app, one)?, read(self, app, other)?);
                notebook::compare(&mut Tools { host: &self.host, world: app }, (one, &pages.0), (other, &pages.1))?
            }
            None if rest.is_empty() => {
                if self.file.path().is_none() && self.file.saved.is_empty() {
                    return Err(Fault::new("this page was never saved, so there is nothing to compare it with")
                        .hinting("type save fair.txt, or compare one.txt with other.txt"));
                }
                let saved = self.file.saved.clone();
                let saved = Page::read(&mut Tools { host: &self.host, world: app }, &saved);
                notebook::compare(&mut Tools { host: &self.host, world: app }, ("saved", &saved), ("now", &self.page))?
            }
            None => {
                let rest = unquoted(rest);
                let page = read(self, app, rest)?;
                notebook::compare(
                    &mut Tools { host: &self.host, world: app },
                    (rest, &page),
                    ("this page", &self.page),
                )?
            }
        };
        if table.is_empty() {
            app.output.say("no difference");
        } else {
            say_table(app, &table);
        }
        Ok(After::Done)
    }

    fn step(&mut self, app: &mut App<'_>, verb: &str, rest: &str) -> Result<After, Fault> {
        let (form, count) = match (verb, rest.strip_prefix("back")) {
            ("take", None) => return Err(Fault::new("take what?").hinting("type take back, or take back 3")),
            ("take", Some(count)) => ("take back", count.trim()),
            _ => ("redo", rest),
        };
        let count = match count {
            "" => 1,
            count => count.parse::<usize>().ok().filter(|count| *count > 0).ok_or_else(|| {
                Fault::new(format!("“{count}” is no number of lines")).hinting(format!("type {form} 3"))
            })?,
        };
        let mut tools = Tools { host: &self.host, world: app };
        let (moved, said) = if verb == "take" {
            (self.page.take_back(&mut tools, count)?, "taken back")
        } else {
            (self.page.redo(&mut tools, count)?, "done again")
        };
        let Moved { lines, changes } = moved;
        for line in lines {
            app.output.say_wrapped(&format!("{said}: {line}"));
        }
        Ok(self.show_moved(app, &changes))
    }

    /// What a step that was not typed changed: a cell that fails as it did before is no failure of the step.
    fn show_moved(&mut self, app: &mut App<'_>, changes: &[Change]) -> After {
        self.show_changes(app, changes, false);
        After::Done
    }

    fn strike(&mut self, app: &mut App<'_>, name: &str) -> Result<After, Fault> {
        let changes = self.page.strike(&mut Tools { host: &self.host, world: app }, name)?;
        Ok(self.show_moved(app, &changes))
    }

    fn rename(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Fault> {
        let (old, new) = rest.split_once(" to ").map(|(old, new)| (old.trim(), new.trim())).ok_or_else(|| {
            Fault::new("rename what to what?").hinting("type rename waist to snug, or rename page to fair.txt")
        })?;
        if old == "page" && self.page.value("page").is_none() {
            let path = page_path(app, unquoted(new))?;
            let was = self.file.rename(&path, &self.page.text()).map_err(|problem| Fault::new(problem.to_string()))?;
            self.mark_kept();
            let was = was.map_or_else(String::new, |was| format!(", and no longer {}", shown_path(app, &was)));
            app.output.say(&format!("the page is {}{was}", shown_path(app, &path)));
            return Ok(After::Done);
        }
        let readers = self.page.rename(&mut Tools { host: &self.host, world: app }, old, new)?;
        let read = match readers {
            0 => String::new(),
            1 => "; 1 line that reads it says so too".to_owned(),
            many => format!("; {many} lines that read it say so too"),
        };
        app.output.say(&format!("{old} is now {new}{read}"));
        Ok(After::Done)
    }

    fn open(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Fault> {
        let problem = |problem: files::FileProblem| Fault::new(problem.to_string());
        let set_aside = self.file.path().is_none() && self.keeps_unnamed() && !self.page.is_empty();
        let (text, name) = if rest == "left" {
            let left = self.file.left_pages();
            let Some(left) = left.first() else { return Err(Fault::new("no page was left without a name")) };
            (self.file.take_up(left).map_err(problem)?, "the page that was left".to_owned())
        } else {
            let path = page_there(app, rest);
            let (text, elsewhere) = self.file.open(&path).map_err(problem)?;
            if elsewhere {
                app.output.tell(&format!(
                    "{rest} is open in another window too; what the other window saves will not be written over"
                ));
            }
            (text, rest.to_owned())
        };
        self.page = Page::read(&mut Tools { host: &self.host, world: app }, &text);
        self.mark_kept();
        if set_aside {
            app.output.say("the page without a name is set aside; open left brings it back");
        }
        app.output.say(&format!("{name}: {}", counted(&self.page)));
        let faults = self.page.faults();
        for (name, fault) in faults.iter().take(10) {
            app.output.tell(&format!("{name}: {fault}"));
        }
        if faults.len() > 10 {
            app.output.tell(&format!("and {} more; show tells all", faults.len() - 10));
        }
        Ok(if faults.is_empty() { After::Done } else { After::Failed })
    }

    fn list_pages(&mut self, app: &mut App<'_>) -> Result<After, Fault> {
        let pages = folder_pages::listed(&app.folder, self.host.reading());
        let table = folder_pages::table(&pages).map_err(|fault| Fault::new(fault.to_string()))?;
        let left = self.file.left_pages().len();
        if pages.is_empty() {
            app.output.say("no page is in this folder; save fair.txt keeps this one under a name");
        } else {
            say_table(app, &table);
        }
        match left {
            0 => {}
            1 => app.output.say("1 page was left without a name: open left brings it back"),
            many => {
                app.output.say(&format!("{many} pages were left without a name: open left brings the last one back"));
            }
        }
        Ok(After::Done)
    }

    fn save(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Fault> {
        let path = match (rest, self.file.path()) {
            ("", Some(path)) => path.to_path_buf(),
            ("", None) => return Err(Fault::new("under which name?").hinting("type save fair.txt")),
            (name, _) => page_path(app, name)?,
        };
        self.file.save_as(&path, &self.page.text()).map_err(|problem| Fault::new(problem.to_string()))?;
        self.mark_kept();
        app.output.say(&format!("saved as {}; from now on each line is saved at once", shown_path(app, &path)));
        Ok(After::Done)
    }

    fn write(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Fault> {
        const FORM: &str = "type write first.cut_list to cut_list.csv, write first to tables, or write page to page.md";
        let (what, to, over) = match (rest.rsplit_once(" to "), rest.rsplit_once(" over ")) {
            (Some((what, to)), _) => (what.trim(), unquoted(to), false),
            (None, Some((what, to))) => (what.trim(), unquoted(to), true),
            (None, None) => return Err(Fault::new("write what to which file?").hinting(FORM)),
        };
        let value = match what {
            "page" if self.page.value("page").is_none() => {
                let table = self.page.listing(&mut Tools { host: &self.host, world: app }, &[])?;
                Dynamic::from(TableObject::new(table))
            }
            "that" => {
                self.page.that().cloned().ok_or_else(|| Fault::new("there is no answer yet that “that” could mean"))?
            }
            sum => self.page.answer(&mut Tools { host: &self.host, world: app }, sum)?,
        };
        let end = Path::new(to).extension().map(|end| end.to_string_lossy().to_lowercase());
        if let Some(ticket) = value.clone().try_cast::<TicketObject>() {
            return match end.as_deref() {
                Some("svg") => {
                    let style = app.opened.workshop.settings.file_style();
                    let named = Path::new(to).file_stem().map(|name| name.to_string_lossy().to_lowercase());
                    // A picture that is named for the lay is one.
                    let lays = named.is_some_and(|name| name.split(|c: char| !c.is_alphanumeric()).any(|word| word == "lay" || word == "lays"));
                    let (drawn, whose) = if lays {
                        let lengths = ticket.order().drawn_lengths();
                        let lengths = lengths.map_err(|fault| order_fault(&fault, &style))?;
                        (present::lays_picture(&ticket.ticket().recipe.replace('_', " "), &lengths, &style), "lays")
                    } else {
                        (present::pieces_picture(ticket.ticket(), &style), "pieces")
                    };
                    let drawn = drawn.map_err(|_| Fault::new(format!("the {whose} cannot be drawn")))?;
                    let path = put(app, &drawn, what, to, over)?;
                    app.output.say(&format!("the {whose} of {what} are drawn in {}", shown_path(app, &path)));
                    Ok(After::Done)
                }
                Some("md") => {
                    let style = self.host.style();
                    let written = present::markdown(ticket.order(), &style).map_err(|error| match error {
                        LookError::Order(fault) => order_fault(&fault, &style),
                        LookError::Write(..) => Fault::new("the tables cannot be written"),
                    })?;
                    let path = put(app, &written, what, to, over)?;
                    app.output.say(&format!("the tables of {what} are in {}", shown_path(app, &path)));
                    Ok(After::Done)
                }
                Some(_) => Err(Fault::new(format!("“{what}” is a ticket with many tables"))
                    .hinting(format!("type write {what} to {what}.md for all in one file, write {what} to tables for a folder of them, write {what} to pieces.svg for its pieces, or write {what} to lays.svg for how they lie"))),
                None => {
                    let code = app.export(ticket.order(), Path::new(to));
                    Ok(if code == DONE { After::Done } else { After::Failed })
                }
            };
        }
        let Some(table) = value.try_cast::<TableObject>() else {
            return Err(Fault::new(format!("“{what}” is no table")).hinting(FORM));
        };
        let style = app.opened.workshop.settings.file_style();
        let mut bytes = Vec::new();
        let table = table.table();
        let written = match end.as_deref() {
            Some("csv") => report::write_csv(table, app.csv_dialect(), &style, &mut bytes),
            Some("md") => report::write_markdown(table, &self.host.style(), &mut bytes),
            Some("txt") => {
                bytes.extend(report::text_table(table, &self.host.style(), Look::Columns, TEXT_WIDTH).into_bytes());
                bytes.push(b'\n');
                Ok(())
            }
            _ => {
                return Err(Fault::new(format!("“{to}” does not say what kind of file"))
                    .hinting("end it with .csv, .md or .txt"));
            }
        };
        written.map_err(|_| Fault::new("the table cannot be written"))?;
        let path = put(app, &bytes, what, to, over)?;
        let rows = if table.len() == 1 { "1 row is".to_owned() } else { format!("{} rows are", table.len()) };
        app.output.say(&format!("{rows} in {}", shown_path(app, &path)));
        Ok(After::Done)
    }

    fn show_tour(&mut self, app: &mut App<'_>, rest: &str) -> Result<After, Fault> {
        let part = match rest {
            "" => self.tour,
            number => number
                .parse::<usize>()
                .ok()
                .and_then(|number| number.checked_sub(1))
                .filter(|part| *part < tour::PARTS)
                .ok_or_else(|| Fault::new(format!("the tour has parts 1 to {}", tour::PARTS)))?,
        };
        app.output.say_wrapped(&tour::part(part, &self.host));
        self.tour = (part + 1) % tour::PARTS;
        Ok(After::Done)
    }
}

/// Columns of a table in a text file.
const TEXT_WIDTH: usize = 120;

fn say_table(app: &mut App<'_>, table: &Table) {
    let style = app.style();
    let (width, look) = (app.output.width, app.output.look);
    app.output.say(&report::text_table(table, &style, look, width));
}

/// Writes a file whole; one that is there is replaced only where that was asked for.
fn put(app: &App<'_>, bytes: &[u8], what: &str, to: &str, over: bool) -> Result<std::path::PathBuf, Fault> {
    let path = app.folder.join(to);
    if path.exists() && !over {
        return Err(Fault::new(format!("there is a file {to} already"))
            .hinting(format!("to replace it, type write {what} over {to}")));
    }
    files::replace(&path, bytes).map_err(|problem| Fault::new(problem.to_string()))?;
    Ok(path)
}

/// Where a page that is there lies: `open mine` finds `mine.txt`, as `save mine` made it.
fn page_there(app: &App<'_>, name: &str) -> std::path::PathBuf {
    let path = app.folder.join(name);
    let with_end = path.with_extension("txt");
    if !path.is_file() && path.extension().is_none() && with_end.is_file() { with_end } else { path }
}

/// Where a page of this name lies; a page is a text file and says so.
fn page_path(app: &App<'_>, name: &str) -> Result<std::path::PathBuf, Fault> {
    let path = app.folder.join(name);
    let end = path.extension().map(|end| end.to_string_lossy().to_lowercase());
    match end.as_deref() {
        None => Ok(path.with_extension("txt")),
        Some("csv" | "md" | "rhai") => Err(Fault::new(format!("“{name}” would not be taken for a page"))
            .hinting("a page is a text file: save fair.txt; tables are written with write")),
        Some(_) => Ok(path),
    }
}

fn shown_path(app: &App<'_>, path: &Path) -> String {
    path.strip_prefix(&app.folder).unwrap_or(path).display().to_string()
}

/// `12 cells, 2 conditions`
fn counted(page: &Page) -> String {
    let cells = page.names().count();
    let lines = page.len();
    let things = |count: usize, one: &str| if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") };
    format!("{}, {}", things(lines, "line"), things(cells, "cell"))
}
