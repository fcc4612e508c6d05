//! `write`: a table, the page or a ticket as a file.

use super::pages::shown_path;
use super::{Family, after};
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::notebook::verbs::{self, Verb};
use crate::notebook::{TableObject, TicketObject, Tools};
use crate::present::{self, OrderFileError, PictureNote};
use crate::report::{self, Look};
use crate::terminal::app::App;
use crate::terminal::export;
use crate::terminal::files;
use crate::terminal::session::{After, Session};
use crate::terminal::today;
use rhai::Dynamic;
use std::path::{Path, PathBuf};

pub(super) const ACTIONS: Family = &[("write", |session, app, arguments| {
    session.write(app, arguments.value(0), arguments.value(1), arguments.has("over"))
})];

impl Session {
    fn write(&mut self, app: &mut App<'_>, source: &str, to: &str, over: bool) -> Result<After, Diagnostic> {
        let hint = verbs::named("write").map_or("", Verb::hint);
        let value = match source {
            "page" if self.page.value("page").is_none() => {
                let table = self.page.listing(&mut Tools { host: &self.host, world: app }, &[])?;
                Dynamic::from(TableObject::new(table))
            }
            "that" => self
                .page
                .last_answer()
                .cloned()
                .ok_or_else(|| Diagnostic::new("there is no answer yet that “that” could mean"))?,
            sum => self.page.answer(&mut Tools { host: &self.host, world: app }, sum)?,
        };
        let end = Path::new(to).extension().map(|end| end.to_string_lossy().to_lowercase());
        if let Some(ticket) = value.clone().try_cast::<TicketObject>() {
            return match end.as_deref() {
                Some("svg") => {
                    let style = app.opened.workshop.settings.file_style();
                    let named = Path::new(to).file_stem().map(|name| name.to_string_lossy().to_lowercase());
                    // A file name with the word `lays` asks for the picture of the lays, one with `chart` for the bars.
                    let has = |words: [&str; 2]| {
                        let mut parts = named.iter().flat_map(|name| name.split(|c: char| !c.is_alphanumeric()));
                        parts.any(|part| words.contains(&part))
                    };
                    let date = today::in_words();
                    let note = PictureNote { order: order_name(source), date: Some(&date) };
                    let (drawn, whose) = if has(["lay", "lays"]) {
                        (present::lays_picture(ticket.order(), note, &style), "lays")
                    } else if has(["chart", "charts"]) {
                        (present::charts_picture(ticket.order(), note, &style), "charts")
                    } else {
                        (present::pieces_picture(ticket.order(), note, &style), "pieces")
                    };
                    let pages = drawn.map_err(|error| match error {
                        OrderFileError::Order(error) => error.diagnostic(&style),
                        OrderFileError::Write(..) => Diagnostic::new(format!("the {whose} cannot be drawn")),
                    })?;
                    let others = match pages.len() {
                        0 | 1 => String::new(),
                        2 => format!(" and {}", present::page_name(to, 1)),
                        count => format!(" to {}", present::page_name(to, count - 1)),
                    };
                    let path = put_pages(app, pages, source, to, over)?;
                    app.output.print(&format!("the {whose} of {source} are drawn in {}{others}", shown_path(app, &path)));
                    Ok(After::Done)
                }
                Some("md") => {
                    let style = self.host.style();
                    let written = present::markdown(ticket.order(), &style).map_err(|error| match error {
                        OrderFileError::Order(error) => error.diagnostic(&style),
                        OrderFileError::Write(..) => Diagnostic::new("the tables cannot be written"),
                    })?;
                    let path = put(app, &written, source, to, over)?;
                    app.output.print(&format!("the tables of {source} are in {}", shown_path(app, &path)));
                    Ok(After::Done)
                }
                Some("txt") => {
                    let style = self.host.style();
                    let sheet = present::work_sheet(ticket.order(), &style).map_err(|error| error.diagnostic(&style))?;
                    let text = sheet.lines(&style, report::SHEET_WIDTH).join("\n") + "\n";
                    let path = put(app, text.as_bytes(), source, to, over)?;
                    app.output.print(&format!("the sheet of {source} is in {}", shown_path(app, &path)));
                    Ok(After::Done)
                }
                Some(_) => Err(Diagnostic::new(format!("“{source}” is a ticket with many tables"))
                    .hinting(format!("type write {source} to {source}.txt for its sheet, write {source} to {source}.md for all in one file, write {source} to tables for a folder of them, write {source} to pieces.svg for its pieces, or write {source} to lays.svg for how they lie"))),
                None => {
                    let to_replace = (!over).then(|| format!("write {source} over {to}"));
                    Ok(after(app.export(ticket.order(), order_name(source), Path::new(to), to_replace.as_deref())))
                }
            };
        }
        let Some(table) = value.try_cast::<TableObject>() else {
            return Err(Diagnostic::new(format!("“{source}” is no table")).hinting(hint));
        };
        let style = app.opened.workshop.settings.file_style();
        let mut bytes = Vec::new();
        let table = table.table();
        if end.as_deref() == Some("svg") {
            let title = if source == "that" { table.title() } else { source.to_owned() };
            let pages = present::table_picture(table, &title, &today::in_words(), &self.host.style());
            let Some(pages) = pages.transpose().map_err(|_| Diagnostic::new("the chart cannot be drawn"))? else {
                return Err(Diagnostic::new(format!("“{source}” has no figures to draw")));
            };
            let path = put_pages(app, pages, source, to, over)?;
            app.output.print(&format!("the chart of {source} is drawn in {}", shown_path(app, &path)));
            return Ok(After::Done);
        }
        let written = match end.as_deref() {
            Some("csv") => report::write_csv(table, app.csv_dialect(), &style, &mut bytes),
            Some("md") => report::write_markdown(table, &self.host.style(), &mut bytes),
            Some("txt") => {
                bytes.extend(report::text_table(table, &self.host.style(), Look::Columns, TEXT_WIDTH).into_bytes());
                bytes.push(b'\n');
                Ok(())
            }
            _ => {
                return Err(Diagnostic::new(format!("“{to}” does not say what kind of file"))
                    .hinting("end it with .csv, .md, .txt or, for a chart, .svg"));
            }
        };
        written.map_err(|_| Diagnostic::new("the table cannot be written"))?;
        let path = put(app, &bytes, source, to, over)?;
        let rows = if table.len() == 1 { "1 row is".to_owned() } else { format!("{} rows are", table.len()) };
        app.output.print(&format!("{rows} in {}", shown_path(app, &path)));
        Ok(After::Done)
    }
}

/// The width of a table in a text file, in columns.
const TEXT_WIDTH: usize = 120;

/// The name of an order that was asked for by it, not by a sum.
fn order_name(source: &str) -> Option<&str> {
    let is_name = source != "that" && source.chars().all(|c| c.is_alphanumeric() || c == '_');
    is_name.then_some(source)
}

/// Writes the pages of a picture, each to a file of its own: all of them or none. Further pages of an earlier picture of
/// this name go. Returns the path of the first.
fn put_pages(app: &App<'_>, pages: Vec<Vec<u8>>, source: &str, to: &str, over: bool) -> Result<PathBuf, Diagnostic> {
    let path = app.folder.join(to);
    let folder = path.parent().unwrap_or(&app.folder).to_path_buf();
    let first = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    // A page more than there are would look as if it were of this picture.
    let mut names = (0..=pages.len()).map(|place| present::page_name(&first, place));
    if let Some(there) = names.find(|name| !over && folder.join(name).exists()) {
        let there = Path::new(to).with_file_name(there);
        return Err(Diagnostic::new(format!("there is a file {} already", there.display()))
            .hinting(format!("to replace it, type write {source} over {to}")));
    }
    let files = present::as_files(&first, pages);
    files::replace_all(&folder, &files)
        .and_then(|()| export::remove_earlier_pages(&folder, &[&first], &files))
        .map_err(|problem| Diagnostic::new(problem.to_string()))?;
    Ok(path)
}

/// Writes a file; an existing one is replaced only if `over` is set. Returns its path.
fn put(app: &App<'_>, bytes: &[u8], source: &str, to: &str, over: bool) -> Result<PathBuf, Diagnostic> {
    let path = app.folder.join(to);
    if path.exists() && !over {
        return Err(Diagnostic::new(format!("there is a file {to} already"))
            .hinting(format!("to replace it, type write {source} over {to}")));
    }
    files::replace(&path, bytes).map_err(|problem| Diagnostic::new(problem.to_string()))?;
    Ok(path)
}
