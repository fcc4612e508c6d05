//! What the verbs do.

use super::asking::{Asked, Asking};
use super::commands::{DONE, Desk};
use super::lines::{After, Talk, tell};
use super::{export, files, folder_pages};
use crate::diagnostic::Diagnostic;
use crate::notebook::{self, Change, Moved, Page, TableObject, TicketObject, Tools, split_answers, tour, unquoted};
use crate::report::{self, Look, excerpt};
use crate::table::Table;
use rhai::Dynamic;
use std::path::Path;

impl Talk {
    /// Does what a verb says.
    pub(super) fn verb(&mut self, desk: &mut Desk<'_>, verb: &str, rest: &str) -> After {
        let done = match verb {
            "show" => self.show(desk, rest),
            "vary" => self.vary(desk, rest),
            "compare" => self.compare(desk, rest),
            "take" | "redo" => self.step(desk, verb, rest),
            "strike" => self.strike(desk, rest),
            "rename" => self.rename(desk, rest),
            "open" if rest.is_empty() => self.list_pages(desk),
            "open" => self.open(desk, unquoted(rest)),
            "pages" => self.list_pages(desk),
            "save" => self.save(desk, unquoted(rest)),
            "write" => self.write(desk, rest),
            "read" => Err(Diagnostic::new("read which file, as which cell?").hinting("type read pieces.csv as pieces")),
            "tour" => self.show_tour(desk, rest),
            _ => return self.of_recipes(desk, verb, rest),
        };
        done.unwrap_or_else(|fault| tell(desk, &fault))
    }

    fn of_recipes(&mut self, desk: &mut Desk<'_>, verb: &str, rest: &str) -> After {
        let (head, answers) = split_answers(rest);
        let code = match verb {
            "run" | "sheet" | "describe" | "check" if head.is_empty() => {
                desk.failed("which recipe?\n  type recipes for the list")
            }
            "run" => return self.run(desk, &head, answers),
            "sheet" => match self.ticket_in(&head) {
                Some(ticket) => {
                    desk.show_sheet(ticket.ticket(), ticket.tables());
                    DONE
                }
                None => desk.sheet(&head, answers, false),
            },
            "recipes" => desk.list_recipes(rest),
            "describe" => desk.describe(&head, "run"),
            "check" => desk.check(&head.split_whitespace().map(str::to_owned).collect::<Vec<_>>()),
            _ => desk.explain(rest),
        };
        if code == DONE { After::Done } else { After::Failed }
    }

    /// An order that fills no cell: its tables are shown, and nothing stays on the page.
    fn run(&mut self, desk: &mut Desk<'_>, recipe: &str, answers: Vec<(String, String)>) -> After {
        match Asking::begin(self, desk, recipe, None, answers, "") {
            Ok(Asked::Question(asking)) => {
                self.asking = Some(*asking);
                self.ask_first(desk);
                After::Done
            }
            Ok(Asked::All(answers)) => {
                let code = desk.run_recipe(recipe, answers, None, false);
                if code == DONE { After::Done } else { After::Failed }
            }
            Err(fault) => tell(desk, &fault),
        }
    }

    fn ticket_in(&self, name: &str) -> Option<TicketObject> {
        self.page.value(name)?.ok()?.clone().try_cast::<TicketObject>()
    }

    fn show(&mut self, desk: &mut Desk<'_>, rest: &str) -> Result<After, Diagnostic> {
        let names: Vec<&str> = rest.split([' ', ',']).filter(|name| !name.is_empty()).collect();
        // One table or ticket is shown in full; a sum that gives one too: show first.cut_list
        if let [one] = names.as_slice() {
            let is_cell = self.page.value(one).is_some();
            let value = if is_cell { self.page.value(one).and_then(Result::ok).cloned() } else { None };
            let value = match value {
                Some(value) => Some(value),
                None if one.contains('.') => Some(self.page.answer(&mut Tools { host: &self.host, world: desk }, one)?),
                None => None,
            };
            if let Some(value) = value
                && (self.show_in_full(desk, &value) || !is_cell)
            {
                return Ok(After::Done);
            }
        }
        let table = self.page.listing(&mut Tools { host: &self.host, world: desk }, &names)?;
        if table.is_empty() {
            desk.output.say("the page is empty; type waist = 56 cm, or help");
        } else {
            say_table(desk, &table);
        }
        Ok(After::Done)
    }

    /// Shows a value in full; false where its one line says it all.
    fn show_in_full(&mut self, desk: &mut Desk<'_>, value: &Dynamic) -> bool {
        if let Some(table) = value.clone().try_cast::<TableObject>() {
            say_table(desk, table.table());
            return true;
        }
        if let Some(ticket) = value.clone().try_cast::<TicketObject>() {
            desk.show_order(ticket.ticket(), ticket.tables());
            return true;
        }
        if let Ok(shown) = notebook::one_line(value, &self.host.style()) {
            desk.output.say(&shown);
        }
        false
    }

    fn vary(&mut self, desk: &mut Desk<'_>, rest: &str) -> Result<After, Diagnostic> {
        let table = self.page.vary(&mut Tools { host: &self.host, world: desk }, rest)?;
        say_table(desk, &table);
        self.page.set_that(Dynamic::from(TableObject::new(table)));
        Ok(After::Done)
    }

    fn compare(&mut self, desk: &mut Desk<'_>, rest: &str) -> Result<After, Diagnostic> {
        let read = |talk: &Self, desk: &mut Desk<'_>, file: &str| -> Result<Page, Diagnostic> {
            let text = files::read(&page_there(desk, file)).map_err(|problem| Diagnostic::new(problem.to_string()))?;
            Ok(Page::read(&mut Tools { host: &talk.host, world: desk }, &text))
        };
        let table = match rest.split_once(" with ") {
            Some((one, other)) => {
                let (one, other) = (unquoted(one), unquoted(other));
                let pages = (read(self, desk, one)?, read(self, desk, other)?);
                notebook::compare(&mut Tools { host: &self.host, world: desk }, (one, &pages.0), (other, &pages.1))?
            }
            None if rest.is_empty() => {
                if self.file.path().is_none() && self.file.saved.is_empty() {
                    return Err(Diagnostic::new("this page was never saved, so there is nothing to compare it with")
                        .hinting("type save fair.txt, or compare one.txt with other.txt"));
                }
                let saved = self.file.saved.clone();
                let saved = Page::read(&mut Tools { host: &self.host, world: desk }, &saved);
                notebook::compare(&mut Tools { host: &self.host, world: desk }, ("saved", &saved), ("now", &self.page))?
            }
            None => {
                let rest = unquoted(rest);
                let page = read(self, desk, rest)?;
                notebook::compare(
                    &mut Tools { host: &self.host, world: desk },
                    (rest, &page),
                    ("this page", &self.page),
                )?
            }
        };
        if table.is_empty() {
            desk.output.say("no difference");
        } else {
            say_table(desk, &table);
        }
        Ok(After::Done)
    }

    fn step(&mut self, desk: &mut Desk<'_>, verb: &str, rest: &str) -> Result<After, Diagnostic> {
        let (form, count) = match (verb, rest.strip_prefix("back")) {
            ("take", None) => return Err(Diagnostic::new("take what?").hinting("type take back, or take back 3")),
            ("take", Some(count)) => ("take back", count.trim()),
            _ => ("redo", rest),
        };
        let count = match count {
            "" => 1,
            count => count.parse::<usize>().ok().filter(|count| *count > 0).ok_or_else(|| {
                Diagnostic::new(format!("“{count}” is no number of lines")).hinting(format!("type {form} 3"))
            })?,
        };
        let mut tools = Tools { host: &self.host, world: desk };
        let (moved, said) = if verb == "take" {
            (self.page.take_back(&mut tools, count)?, "taken back")
        } else {
            (self.page.redo(&mut tools, count)?, "done again")
        };
        let Moved { lines, changes } = moved;
        for line in lines {
            desk.output.say_wrapped(&format!("{said}: {line}"));
        }
        Ok(self.show_moved(desk, &changes))
    }

    /// What a step that was not typed changed: a cell that fails as it did before is no failure of the step.
    fn show_moved(&mut self, desk: &mut Desk<'_>, changes: &[Change]) -> After {
        self.show_changes(desk, changes, false);
        After::Done
    }

    fn strike(&mut self, desk: &mut Desk<'_>, name: &str) -> Result<After, Diagnostic> {
        let changes = self.page.strike(&mut Tools { host: &self.host, world: desk }, name)?;
        Ok(self.show_moved(desk, &changes))
    }

    fn rename(&mut self, desk: &mut Desk<'_>, rest: &str) -> Result<After, Diagnostic> {
        let (old, new) = rest.split_once(" to ").map(|(old, new)| (old.trim(), new.trim())).ok_or_else(|| {
            Diagnostic::new("rename what to what?").hinting("type rename waist to snug, or rename page to fair.txt")
        })?;
        if old == "page" && self.page.value("page").is_none() {
            let path = page_path(desk, unquoted(new))?;
            let was =
                self.file.rename(&path, &self.page.text()).map_err(|problem| Diagnostic::new(problem.to_string()))?;
            self.mark_kept();
            let was = was.map_or_else(String::new, |was| format!(", and no longer {}", shown_path(desk, &was)));
            desk.output.say(&format!("the page is {}{was}", shown_path(desk, &path)));
            return Ok(After::Done);
        }
        let readers = self.page.rename(&mut Tools { host: &self.host, world: desk }, old, new)?;
        let read = match readers {
            0 => String::new(),
            1 => "; 1 line that reads it says so too".to_owned(),
            many => format!("; {many} lines that read it say so too"),
        };
        desk.output.say(&format!("{old} is now {new}{read}"));
        Ok(After::Done)
    }

    fn open(&mut self, desk: &mut Desk<'_>, rest: &str) -> Result<After, Diagnostic> {
        let problem = |problem: files::FileProblem| Diagnostic::new(problem.to_string());
        let set_aside = self.file.path().is_none() && self.keeps_unnamed() && !self.page.is_empty();
        let (text, name) = if rest == "left" {
            let left = self.file.left_pages();
            let Some(left) = left.first() else { return Err(Diagnostic::new("no page was left without a name")) };
            (self.file.take_up(left).map_err(problem)?, "the page that was left".to_owned())
        } else {
            let path = page_there(desk, rest);
            let (text, elsewhere) = self.file.open(&path).map_err(problem)?;
            if elsewhere {
                desk.output.tell(&format!(
                    "{rest} is open in another window too; what the other window saves will not be written over"
                ));
            }
            (text, rest.to_owned())
        };
        self.page = Page::read(&mut Tools { host: &self.host, world: desk }, &text);
        self.mark_kept();
        if set_aside {
            desk.output.say("the page without a name is set aside; open left brings it back");
        }
        desk.output.say(&format!("{name}: {}", counted(&self.page)));
        let faults = self.page.faults();
        for (name, fault) in faults.iter().take(10) {
            desk.output.tell(&format!("{name}: {}", excerpt::text(fault)));
        }
        if faults.len() > 10 {
            desk.output.tell(&format!("and {} more; show tells all", faults.len() - 10));
        }
        Ok(if faults.is_empty() { After::Done } else { After::Failed })
    }

    fn list_pages(&mut self, desk: &mut Desk<'_>) -> Result<After, Diagnostic> {
        let pages = folder_pages::listed(&desk.folder, self.host.reading());
        let table = folder_pages::table(&pages).map_err(|fault| Diagnostic::new(fault.to_string()))?;
        let left = self.file.left_pages().len();
        if pages.is_empty() {
            desk.output.say("no page is in this folder; save fair.txt keeps this one under a name");
        } else {
            say_table(desk, &table);
        }
        match left {
            0 => {}
            1 => desk.output.say("1 page was left without a name: open left brings it back"),
            many => {
                desk.output.say(&format!("{many} pages were left without a name: open left brings the last one back"));
            }
        }
        Ok(After::Done)
    }

    fn save(&mut self, desk: &mut Desk<'_>, rest: &str) -> Result<After, Diagnostic> {
        let path = match (rest, self.file.path()) {
            ("", Some(path)) => path.to_path_buf(),
            ("", None) => return Err(Diagnostic::new("under which name?").hinting("type save fair.txt")),
            (name, _) => page_path(desk, name)?,
        };
        self.file.save_as(&path, &self.page.text()).map_err(|problem| Diagnostic::new(problem.to_string()))?;
        self.mark_kept();
        desk.output.say(&format!("saved as {}; from now on each line is saved at once", shown_path(desk, &path)));
        Ok(After::Done)
    }

    fn write(&mut self, desk: &mut Desk<'_>, rest: &str) -> Result<After, Diagnostic> {
        const FORM: &str = "type write first.cut_list to cut_list.csv, write first to tables, or write page to page.md";
        let (what, to, over) = match (rest.rsplit_once(" to "), rest.rsplit_once(" over ")) {
            (Some((what, to)), _) => (what.trim(), unquoted(to), false),
            (None, Some((what, to))) => (what.trim(), unquoted(to), true),
            (None, None) => return Err(Diagnostic::new("write what to which file?").hinting(FORM)),
        };
        let value = match what {
            "page" if self.page.value("page").is_none() => {
                let table = self.page.listing(&mut Tools { host: &self.host, world: desk }, &[])?;
                Dynamic::from(TableObject::new(table))
            }
            "that" => self
                .page
                .that()
                .cloned()
                .ok_or_else(|| Diagnostic::new("there is no answer yet that “that” could mean"))?,
            sum => self.page.answer(&mut Tools { host: &self.host, world: desk }, sum)?,
        };
        let end = Path::new(to).extension().map(|end| end.to_string_lossy().to_lowercase());
        if let Some(ticket) = value.clone().try_cast::<TicketObject>() {
            return match end.as_deref() {
                Some("svg") => {
                    let style = desk.opened.workshop.settings.file_style();
                    let named = Path::new(to).file_stem().map(|name| name.to_string_lossy().to_lowercase());
                    // A picture that is named for the lay is one.
                    let lays = named.is_some_and(|name| name.split(|c: char| !c.is_alphanumeric()).any(|word| word == "lay" || word == "lays"));
                    let (drawn, whose) = if lays {
                        let lengths = ticket.tables().drawn_lengths();
                        (export::lay_picture(&ticket.ticket().recipe.replace('_', " "), &lengths, &style), "lays")
                    } else {
                        (export::picture(ticket.ticket(), &style), "pieces")
                    };
                    let drawn = drawn.map_err(|_| Diagnostic::new(format!("the {whose} cannot be drawn")))?;
                    let path = put(desk, &drawn, what, to, over)?;
                    desk.output.say(&format!("the {whose} of {what} are drawn in {}", shown_path(desk, &path)));
                    Ok(After::Done)
                }
                Some("md") => {
                    let written = export::markdown(ticket.ticket(), &ticket.tables().all(), &self.host.style());
                    let written = written.map_err(|_| Diagnostic::new("the tables cannot be written"))?;
                    let path = put(desk, &written, what, to, over)?;
                    desk.output.say(&format!("the tables of {what} are in {}", shown_path(desk, &path)));
                    Ok(After::Done)
                }
                Some(_) => Err(Diagnostic::new(format!("“{what}” is a ticket with many tables"))
                    .hinting(format!("type write {what} to {what}.md for all in one file, write {what} to tables for a folder of them, write {what} to pieces.svg for its pieces, or write {what} to lays.svg for how they lie"))),
                None => {
                    let code = desk.export(ticket.ticket(), ticket.tables(), Path::new(to));
                    Ok(if code == DONE { After::Done } else { After::Failed })
                }
            };
        }
        let Some(table) = value.try_cast::<TableObject>() else {
            return Err(Diagnostic::new(format!("“{what}” is no table")).hinting(FORM));
        };
        let style = desk.opened.workshop.settings.file_style();
        let mut bytes = Vec::new();
        let table = table.table();
        let written = match end.as_deref() {
            Some("csv") => report::write_csv(table, desk.csv_dialect(), &style, &mut bytes),
            Some("md") => report::write_markdown(table, &self.host.style(), &mut bytes),
            Some("txt") => {
                bytes.extend(report::text_table(table, &self.host.style(), Look::Columns, TEXT_WIDTH).into_bytes());
                bytes.push(b'\n');
                Ok(())
            }
            _ => {
                return Err(Diagnostic::new(format!("“{to}” does not say what kind of file"))
                    .hinting("end it with .csv, .md or .txt"));
            }
        };
        written.map_err(|_| Diagnostic::new("the table cannot be written"))?;
        let path = put(desk, &bytes, what, to, over)?;
        let rows = if table.len() == 1 { "1 row is".to_owned() } else { format!("{} rows are", table.len()) };
        desk.output.say(&format!("{rows} in {}", shown_path(desk, &path)));
        Ok(After::Done)
    }

    fn show_tour(&mut self, desk: &mut Desk<'_>, rest: &str) -> Result<After, Diagnostic> {
        let part = match rest {
            "" => self.tour,
            number => number
                .parse::<usize>()
                .ok()
                .and_then(|number| number.checked_sub(1))
                .filter(|part| *part < tour::PARTS)
                .ok_or_else(|| Diagnostic::new(format!("the tour has parts 1 to {}", tour::PARTS)))?,
        };
        desk.output.say_wrapped(&tour::part(part, &self.host));
        self.tour = (part + 1) % tour::PARTS;
        Ok(After::Done)
    }
}

/// Columns of a table in a text file.
const TEXT_WIDTH: usize = 120;

fn say_table(desk: &mut Desk<'_>, table: &Table) {
    let style = desk.style();
    let (width, look) = (desk.output.width, desk.output.look);
    desk.output.say(&report::text_table(table, &style, look, width));
}

/// Writes a file whole; one that is there is replaced only where that was asked for.
fn put(desk: &Desk<'_>, bytes: &[u8], what: &str, to: &str, over: bool) -> Result<std::path::PathBuf, Diagnostic> {
    let path = desk.folder.join(to);
    if path.exists() && !over {
        return Err(Diagnostic::new(format!("there is a file {to} already"))
            .hinting(format!("to replace it, type write {what} over {to}")));
    }
    files::replace(&path, bytes).map_err(|problem| Diagnostic::new(problem.to_string()))?;
    Ok(path)
}

/// Where a page that is there lies: `open mine` finds `mine.txt`, as `save mine` made it.
fn page_there(desk: &Desk<'_>, name: &str) -> std::path::PathBuf {
    let path = desk.folder.join(name);
    let with_end = path.with_extension("txt");
    if !path.is_file() && path.extension().is_none() && with_end.is_file() { with_end } else { path }
}

/// Where a page of this name lies; a page is a text file and says so.
fn page_path(desk: &Desk<'_>, name: &str) -> Result<std::path::PathBuf, Diagnostic> {
    let path = desk.folder.join(name);
    let end = path.extension().map(|end| end.to_string_lossy().to_lowercase());
    match end.as_deref() {
        None => Ok(path.with_extension("txt")),
        Some("csv" | "md" | "rhai") => Err(Diagnostic::new(format!("“{name}” would not be taken for a page"))
            .hinting("a page is a text file: save fair.txt; tables are written with write")),
        Some(_) => Ok(path),
    }
}

fn shown_path(desk: &Desk<'_>, path: &Path) -> String {
    path.strip_prefix(&desk.folder).unwrap_or(path).display().to_string()
}

/// `12 cells, 2 conditions`
fn counted(page: &Page) -> String {
    let cells = page.names().count();
    let lines = page.len();
    let things = |count: usize, one: &str| if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") };
    format!("{}, {}", things(lines, "line"), things(cells, "cell"))
}
