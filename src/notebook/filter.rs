//! `orders where days > 3`: the rows of a table for which a condition is true.
//!
//! The condition refers to each column by its name, with `_` for whatever is not a letter or digit; a column
//! takes precedence over a cell of the same name. The condition is evaluated once per row, so the limits of a
//! line apply to each row, not to the table. Computing with a blank cell is an error that names the row;
//! `known` tests for blanks.
//!
//! Never here: the meaning of conditions; which cells a page has.

use super::objects::{TableObject, cell_to_script, member_name};
use crate::diagnostic::{Diagnostic, DiagnosticKind, Label, Span, literal_diagnostic};
use crate::engine::text::tokens::{TokenKind, Tokens};
use crate::engine::value::{self, Blank};
use crate::engine::{Expression, Host};
use crate::quantity::nearest::nearest;
use crate::quantity::{LiteralError, Reading};
use crate::table::{Cell, Column, Table};
use rhai::{Dynamic, Scope};
use std::collections::BTreeSet;
use std::ops::Range;
use std::rc::Rc;

/// The word between a table and its condition.
const WHERE: &str = "where";

/// A table and the condition its rows must meet.
#[derive(Clone, Debug)]
pub(crate) struct Filter {
    table: Expression,
    condition: Expression,
    typed: String,
    /// The byte ranges of the table's expression and of the condition.
    parts: (Range<usize>, Range<usize>),
}

impl Filter {
    /// Splits at the first `where` outside brackets and texts. `None` if there is none, or if a measure in the
    /// line cannot be read.
    pub(crate) fn split(typed: &str, reading: Reading) -> Option<(&str, &str)> {
        let (at, _) = find_where(typed, reading).ok()??;
        Some((typed.get(..at)?.trim(), typed.get(at + WHERE.len()..)?.trim()))
    }

    /// Compiles `orders where days > 3`.
    ///
    /// # Errors
    /// A side is missing or cannot be read, or there is no `where` or a second one.
    pub(crate) fn compile(host: &Host, typed: &str) -> Result<Self, Diagnostic> {
        let found = find_where(typed, host.reading()).map_err(|error| literal_diagnostic(None, typed, &error))?;
        let Some((at, second)) = found else {
            return Err(Diagnostic::new("there is no “where” in it").hinting("type orders where days > 3"));
        };
        let end = at + WHERE.len();
        let marking = |span: Range<usize>, error: Diagnostic| with_span(typed, span, error);
        if let Some(second) = second {
            let error = Diagnostic::new("“where” stands here twice").hinting("join two conditions with and");
            return Err(marking(second..second + WHERE.len(), error));
        }
        let part = |from: usize, to: usize| {
            let text = typed.get(from..to).unwrap_or_default();
            let start = from + text.len() - text.trim_start().len();
            start..start + text.trim().len()
        };
        let parts = (part(0, at), part(end, typed.len()));
        if parts.0.is_empty() {
            let error = Diagnostic::new("a table is missing before “where”").hinting("type orders where days > 3");
            return Err(marking(at..end, error));
        }
        if parts.1.is_empty() {
            let error = Diagnostic::new("a condition is missing behind “where”").hinting("type orders where days > 3");
            return Err(marking(at..end, error));
        }
        // Pad each side to its position in the line, so that errors point into the whole line.
        let side = |span: &Range<usize>| {
            let before: String = typed
                .get(..span.start)
                .unwrap_or_default()
                .bytes()
                .map(|byte| if byte == b'\n' { '\n' } else { ' ' })
                .collect();
            before + typed.get(span.clone()).unwrap_or_default()
        };
        let table = Expression::compile(host, &side(&parts.0)).map_err(|error| quote_whole_line(typed, error))?;
        let condition =
            Expression::compile_condition(host, &side(&parts.1)).map_err(|error| quote_whole_line(typed, error))?;
        Ok(Self { table, condition, typed: typed.to_owned(), parts })
    }

    pub(super) fn typed(&self) -> &str {
        &self.typed
    }

    /// The names it may read, columns included: every word that is not a member of something else.
    pub(crate) fn names(&self) -> BTreeSet<&str> {
        self.table.names().chain(self.condition.names()).collect()
    }

    /// Returns the rows for which the condition is true, as a table of the same columns. `scope` holds the
    /// known cells; it is restored before this returns.
    ///
    /// # Errors
    /// The left side is not a table, a name is neither a column nor in the scope, the condition is not yes or
    /// no, or a row fails. Errors in a row name it.
    pub(crate) fn evaluate(&self, host: &Host, scope: &mut Scope<'static>) -> Result<Dynamic, Diagnostic> {
        let table_value = self.table.evaluate(host, scope).map_err(|error| quote_whole_line(&self.typed, error))?;
        let Some(TableObject(table)) = table_value.clone().try_cast::<TableObject>() else {
            let error =
                Diagnostic::new(format!("“where” picks rows of a table, and this is {}", value::noun(&table_value)));
            return Err(with_span(&self.typed, self.parts.0.clone(), error));
        };
        let columns = self.columns(&table, scope)?;
        let before = scope.len();
        let mut kept = Vec::new();
        let mut error = None;
        for (at, row) in table.rows().iter().enumerate() {
            for column in &columns {
                column.put(row, scope);
            }
            let answer = self.condition.evaluate(host, scope);
            scope.rewind(before);
            match self.as_bool(answer) {
                Ok(true) => kept.push(at),
                Ok(false) => {}
                Err(found) => {
                    error = Some(in_row(at + 1, &table, found));
                    break;
                }
            }
        }
        match error {
            Some(error) => Err(error),
            None => Ok(Dynamic::from(TableObject::from(table.with_rows(&kept)))),
        }
    }

    fn as_bool(&self, answer: Result<Dynamic, Diagnostic>) -> Result<bool, Diagnostic> {
        let answer = answer.map_err(|error| quote_whole_line(&self.typed, error))?;
        answer.as_bool().map_err(|_| {
            let noun = if answer.is::<Blank>() { "blank".to_owned() } else { value::noun(&answer) };
            let error = Diagnostic::new(format!("a condition must be yes or no, and this is {noun}"));
            let error = error.hinting("compare it with something, as in: days > 3");
            with_span(&self.typed, self.parts.1.clone(), error)
        })
    }

    /// The columns that the condition names; an error if a name is neither a column nor in the scope.
    fn columns<'t>(&self, table: &'t Table, scope: &Scope<'static>) -> Result<Vec<Named<'t>>, Diagnostic> {
        let mut named = Vec::new();
        for name in self.condition.names() {
            if let Ok((at, column)) = table.column(name) {
                named.push(Named { name: Rc::from(name), at, column });
            }
        }
        let unknown = |name: &String| !named.iter().any(|column| *column.name == **name) && !scope.contains(name);
        match self.condition.variables().into_iter().find(unknown) {
            Some(name) => Err(self.unknown(&name, table, scope)),
            None => Ok(named),
        }
    }

    fn unknown(&self, name: &str, table: &Table, scope: &Scope<'static>) -> Diagnostic {
        let columns: Vec<String> = table.columns().iter().map(|column| member_name(&column.heading)).collect();
        let near = nearest(name, columns.iter().map(String::as_str).chain(scope.iter().map(|(cell, ..)| cell)));
        let hint = match near {
            Some(near) => format!("did you mean “{near}”?"),
            None => format!("its columns are {}", columns.join(", ")),
        };
        let message = format!("“{name}” is neither a column of “{}” nor a cell", table.title());
        let source = self.condition.source();
        let words = source.tokens().iter().filter(|token| token.kind == TokenKind::Word);
        let mut spans = words.map(|token| token.span.clone());
        let span = spans.find(|span| source.typed.get(span.clone()) == Some(name));
        with_span(
            &self.typed,
            span.unwrap_or(self.parts.1.clone()),
            Diagnostic::new(message).of_kind(DiagnosticKind::UnknownName(name.to_owned())).hinting(hint),
        )
    }
}

/// A column that the condition names, and its name as written there.
struct Named<'t> {
    name: Rc<str>,
    at: usize,
    column: &'t Column,
}

impl Named<'_> {
    fn put(&self, row: &[Cell], scope: &mut Scope<'static>) {
        let value = match row.get(self.at) {
            None | Some(Cell::Blank) => Dynamic::from(Blank { name: Rc::clone(&self.name) }),
            Some(cell) => cell_to_script(cell, self.column),
        };
        scope.push_constant_dynamic(&*self.name, value);
    }
}

/// The byte positions of the first and second `where` outside brackets and texts.
fn find_where(typed: &str, reading: Reading) -> Result<Option<(usize, Option<usize>)>, LiteralError> {
    let tokens = Tokens::read(typed, reading)?.list;
    let mut depth = 0_i32;
    let mut found = Vec::new();
    let mut before = "";
    for token in &tokens {
        let text = typed.get(token.span.clone()).unwrap_or_default();
        match token.kind {
            TokenKind::Open | TokenKind::TextOpen => depth += 1,
            TokenKind::Close | TokenKind::TextClose => depth -= 1,
            TokenKind::Word if depth == 0 && text == WHERE && before != "." => found.push(token.span.start),
            _ => {}
        }
        before = text;
    }
    Ok(found.first().map(|first| (*first, found.get(1).copied())))
}

/// Makes an error found in one side quote the whole line. Its spans fit already: each side was compiled at its
/// position.
fn quote_whole_line(typed: &str, mut error: Diagnostic) -> Diagnostic {
    for Label { span, .. } in error.labels.iter_mut().filter(|label| label.span.file.is_none()) {
        if let Some(line) = typed.lines().nth(span.line.saturating_sub(1)) {
            line.trim_end().clone_into(&mut span.text);
        }
    }
    error
}

fn with_span(typed: &str, span: Range<usize>, error: Diagnostic) -> Diagnostic {
    error.at(Span::in_text(None, typed, vec![span]))
}

fn in_row(row: usize, table: &Table, mut error: Diagnostic) -> Diagnostic {
    if !error.is_stop() {
        error.trace.push(format!("row {row} of “{}”", table.title()));
    }
    error
}

#[cfg(test)]
mod tests;
