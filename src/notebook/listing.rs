//! A page, or part of it, as a table: each name, its value, its formula as typed, its note.

use super::line::{self, Line};
use super::page::{Entry, LineRole, Page, Tools};
use super::value::shown;
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::quantity::Style;
use crate::report::excerpt;
use crate::table::{Cell as Field, Table, TableError};

impl Page {
    /// Returns the page as a table; if there are `names`, only the lines of those cells.
    pub fn listing(&self, tools: &mut Tools<'_>, names: &[&str]) -> Result<Table, Diagnostic> {
        for name in names {
            self.place_of(name)?;
        }
        let style = tools.host.style();
        let reading = tools.host.reading();
        let mut rows = Vec::new();
        for entry in self.entries.values() {
            let line = line::read(&entry.text, reading);
            let name = name_of(&line);
            if !names.is_empty() && !name.is_some_and(|name| names.contains(&name)) {
                continue;
            }
            let note = line::note_of(&entry.text);
            let formula_text = formula_text(&line);
            if name.is_none() && formula_text.is_empty() && note.is_empty() {
                continue;
            }
            let value = self.value_in_words(tools, entry, &line, &style);
            rows.push([name.unwrap_or_default().to_owned(), value, formula_text, note]);
        }
        table(rows).map_err(|error| Diagnostic::new(error.message(&style)))
    }

    fn value_in_words(&self, tools: &mut Tools<'_>, entry: &Entry, line: &Line, style: &Style) -> String {
        let result = match (&entry.role, line) {
            (LineRole::Invalid(error), _) => return excerpt::headline(error),
            (LineRole::Answer, Line::Expression(sum)) => self.answer(tools, sum).and_then(|value| shown(&value, style)),
            (LineRole::Fills(node), line) => match self.at(*node).and_then(|cell| cell.result.as_ref()) {
                Some(Ok(_)) if matches!(line, Line::Must(_)) => Ok("holds".to_owned()),
                Some(Ok(value)) => shown(value, style),
                Some(Err(error)) => Err((**error).clone()),
                None => Ok(String::new()),
            },
            (LineRole::Inert | LineRole::Answer, _) => return String::new(),
        };
        result.unwrap_or_else(|error| excerpt::headline(&error))
    }
}

fn table(rows: Vec<[String; 4]>) -> Result<Table, TableError> {
    let mut table = Table::new("page").text("name").text("value").text("how").text("note").ready()?;
    for row in rows {
        let fields = row.map(|text| if text.is_empty() { Field::Blank } else { Field::Text(text) });
        table.push(fields.to_vec())?;
    }
    Ok(table)
}

fn name_of(line: &Line) -> Option<&str> {
    match line {
        Line::Cell { name, .. } | Line::Order { cell: name, .. } | Line::File { cell: name, .. } => Some(name),
        _ => None,
    }
}

/// The formula of a line as typed, joined into one line.
pub(super) fn formula_text(line: &Line) -> String {
    let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    match line {
        Line::Cell { expression, .. } | Line::Expression(expression) => one_line(expression),
        Line::Must(condition) => format!("must {}", one_line(condition)),
        Line::File { file, .. } => format!("read {file}"),
        Line::Order { recipe, answers, .. } => {
            let answers: Vec<String> = answers.iter().map(|(input, typed)| format!("{input}={typed}")).collect();
            one_line(&format!("run {recipe} {}", answers.join(" ")))
        }
        Line::Verb { verb, rest } => one_line(&format!("{verb} {rest}")),
        Line::Note => String::new(),
    }
}
