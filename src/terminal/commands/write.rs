//! `write`: a table, the page or a ticket as a file.

use super::pages::shown_path;
use super::{Family, after};
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::notebook::verbs::{self, Verb};
use crate::notebook::{TableObject, TicketObject, Tools};
use crate::present::{self, OrderFileError};
use crate::report::{self, Look};
use crate::terminal::app::App;
use crate::terminal::files;
use crate::terminal::session::{After, Session};
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
                    // A file name with the word `lay` or `lays` asks for the picture of the lays.
                    let lays = named.is_some_and(|name| name.split(|c: char| !c.is_alphanumeric()).any(|word| word == "lay" || word == "lays"));
                    let (drawn, whose) = if lays {
                        let lengths = ticket.order().drawn_lengths();
                        let lengths = lengths.map_err(|error| error.diagnostic(&style))?;
                        (present::lays_picture(&ticket.ticket().recipe.replace('_', " "), &lengths, &style), "lays")
                    } else {
                        (present::pieces_picture(ticket.ticket(), &style), "pieces")
                    };
                    let drawn = drawn.map_err(|_| Diagnostic::new(format!("the {whose} cannot be drawn")))?;
                    let path = put(app, &drawn, source, to, over)?;
                    app.output.print(&format!("the {whose} of {source} are drawn in {}", shown_path(app, &path)));
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
                Some(_) => Err(Diagnostic::new(format!("“{source}” is a ticket with many tables"))
                    .hinting(format!("type write {source} to {source}.md for all in one file, write {source} to tables for a folder of them, write {source} to pieces.svg for its pieces, or write {source} to lays.svg for how they lie"))),
                None => {
                    Ok(after(app.export(ticket.order(), Path::new(to))))
                }
            };
        }
        let Some(table) = value.try_cast::<TableObject>() else {
            return Err(Diagnostic::new(format!("“{source}” is no table")).hinting(hint));
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
                return Err(Diagnostic::new(format!("“{to}” does not say what kind of file"))
                    .hinting("end it with .csv, .md or .txt"));
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
