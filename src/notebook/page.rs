//! A page: its lines in order, and its cells, each recomputed when something it reads changes.
//!
//! The order of lines does not affect the cells. A change reaches exactly the cells that read what changed,
//! directly or through others. A failed cell does not stop the others; cells that depend on it name the first
//! that failed.

use super::change::{CellResult, Change};
use super::filter::Filter;
use super::formula::Formula;
use super::graph::{Graph, Node};
use super::line::{self, Line};
use super::value;
use super::world::{Source, World};
use crate::diagnostic::Diagnostic;
use crate::engine::Host;
use crate::engine::text::words;
use crate::quantity::Style;
use rhai::Dynamic;
use std::collections::BTreeMap;

/// What a page needs to evaluate its cells.
pub struct Tools<'t> {
    /// The engine that evaluates the cells.
    pub host: &'t Host,
    /// Access to recipes and files.
    pub world: &'t mut dyn World,
}

/// Identifies a line. It stays the same when other lines come and go, and sorts in page order.
pub(super) type Place = u64;

#[derive(Debug)]
pub(super) struct Entry {
    pub(super) text: String,
    pub(super) role: LineRole,
}

/// A line with its formula, parsed and compiled only once.
#[derive(Debug)]
pub(super) struct ReadLine {
    text: String,
    line: Line,
    /// `None` for a note or a verb.
    formula: Option<Result<Formula, Diagnostic>>,
}

impl ReadLine {
    pub(super) fn of(host: &Host, text: String) -> Self {
        let line = line::read(&text, host.reading());
        Self::as_line(host, text, line)
    }

    /// As [`of`](Self::of), for a line that is parsed already.
    fn as_line(host: &Host, text: String, line: Line) -> Self {
        let formula = Formula::compile(host, &line);
        Self { text, line, formula }
    }
}

/// The role of a line on the page.
#[derive(Debug)]
pub(super) enum LineRole {
    /// A note, a blank line, or a verb, which only `shirr page` runs.
    Inert,
    /// It fills a cell or states a condition.
    Fills(Node),
    /// A sum that fills no cell.
    Answer,
    /// It has an error and fills nothing.
    Invalid(Box<Diagnostic>),
}

/// The cell of a node; empty while no line fills it.
#[derive(Debug, Default)]
pub(super) struct Cell {
    pub(super) line: Option<Place>,
    pub(super) formula: Option<Formula>,
    pub(super) result: Option<CellResult>,
    /// The first failed cell that this one depends on.
    pub(super) first_failed: Option<Node>,
    pub(super) condition: Option<String>,
}

/// The last answer.
#[derive(Debug)]
struct LastAnswer {
    /// The sum as typed, if it can be inserted into another one.
    source: Option<String>,
    value: Dynamic,
}

/// A set of line edits that is taken back as a whole.
#[derive(Clone, Debug)]
pub(super) struct Step {
    pub(super) edits: Vec<Edit>,
    /// What was typed, if the edits do not show it (a rename).
    pub(super) typed: Option<String>,
}

#[derive(Clone, Debug)]
pub(super) struct Edit {
    pub(super) place: Place,
    pub(super) before: Option<String>,
    pub(super) after: Option<String>,
}

/// The result of entering a line.
#[derive(Debug)]
pub struct Entered {
    /// The answer, if a sum was typed.
    pub answer: Option<Dynamic>,
    /// What changed, the typed line first.
    pub changes: Vec<Change>,
}

/// The lines and cells of one page.
#[derive(Debug, Default)]
pub struct Page {
    pub(super) graph: Graph,
    pub(super) cells: Vec<Cell>,
    pub(super) entries: BTreeMap<Place, Entry>,
    last_answer: Option<LastAnswer>,
    pub(super) done: Vec<Step>,
    pub(super) undone: Vec<Step>,
    version: u64,
}

/// The name of the last answer.
const THAT: &str = "that";

/// Maximum length in bytes of a sum after `that` is written into it.
const LONGEST_SUM: usize = 2_000;

impl Page {
    /// Parses and evaluates a page. Lines that cannot be read are kept and do not affect the others.
    pub fn read(tools: &mut Tools<'_>, text: &str) -> Self {
        let mut page = Self::default();
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let lines = line::statements(text, tools.host.reading());
        let mut dirty = Vec::with_capacity(lines.len());
        for (place, text) in (1..).zip(lines) {
            dirty.extend(page.set_line(place, Some(ReadLine::of(tools.host, text))));
        }
        // If stopped, the page shows what was reached.
        let _reached = page.recompute(tools, &dirty, false);
        page
    }

    /// The page as text.
    pub fn text(&self) -> String {
        let mut text = String::new();
        for entry in self.entries.values() {
            text.push_str(&entry.text);
            text.push('\n');
        }
        text
    }

    /// A number that grows with each change of its lines.
    pub fn version(&self) -> u64 {
        self.version
    }

    /// Returns the current result of a statement of the file that the page was read from, counted from 0, as if
    /// it had just been typed.
    pub fn line_at(&self, tools: &mut Tools<'_>, index: usize) -> Result<Entered, Diagnostic> {
        let Some(entry) = u64::try_from(index).ok().and_then(|index| self.entries.get(&(index + 1))) else {
            return Ok(Entered { answer: None, changes: Vec::new() });
        };
        match &entry.role {
            LineRole::Inert => Ok(Entered { answer: None, changes: Vec::new() }),
            LineRole::Invalid(error) => Err((**error).clone()),
            LineRole::Fills(node) => {
                let changes = self.change_of(*node, None).into_iter().collect();
                Ok(Entered { answer: None, changes })
            }
            LineRole::Answer => match line::read(&entry.text, tools.host.reading()) {
                Line::Expression(sum) => {
                    let answer = Some(self.answer(tools, &sum)?);
                    Ok(Entered { answer, changes: Vec::new() })
                }
                _ => Ok(Entered { answer: None, changes: Vec::new() }),
            },
        }
    }

    /// Returns the lines that fail, in order: the cell's name or the line itself, and the error.
    pub fn errors(&self) -> Vec<(String, Diagnostic)> {
        let errors = self.entries.values().filter_map(|entry| match &entry.role {
            LineRole::Invalid(error) => Some((entry.text.trim().to_owned(), (**error).clone())),
            LineRole::Fills(node) => {
                let cell = self.at(*node)?;
                let error = cell.result.as_ref()?.as_ref().err()?;
                let name = cell.condition.as_ref().map(|condition| format!("must {condition}"));
                Some((name.unwrap_or_else(|| self.graph.name(*node).to_owned()), (**error).clone()))
            }
            LineRole::Inert | LineRole::Answer => None,
        });
        errors.collect()
    }

    /// Whether all lines are blank.
    pub fn is_empty(&self) -> bool {
        self.entries.values().all(|entry| entry.text.trim().is_empty())
    }

    /// The number of lines, blank ones included; a statement over several lines counts once.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Enters a typed line, if it is of a kind that stays on the page. Does nothing for a verb, which is the
    /// caller's.
    pub fn enter(&mut self, tools: &mut Tools<'_>, typed: &str) -> Result<Entered, Diagnostic> {
        self.enter_line(tools, typed, line::read(typed, tools.host.reading()))
    }

    /// As [`enter`](Self::enter), for a line that is parsed already.
    pub fn enter_line(&mut self, tools: &mut Tools<'_>, typed: &str, line: Line) -> Result<Entered, Diagnostic> {
        let typed = typed.trim_end();
        if let Some(error) = line::open_error(typed, tools.host.reading()) {
            // In the page's file it would swallow the lines after it.
            return Err(error);
        }
        let note = line::note_of(typed);
        let noted = |text: String| if note.is_empty() { text } else { format!("{text}  # {note}") };
        let nothing = Entered { answer: None, changes: Vec::new() };
        match &line {
            Line::Note => {
                if !typed.trim().is_empty() {
                    let place = self.next_place();
                    let read = ReadLine::as_line(tools.host, typed.to_owned(), line);
                    self.change(tools, vec![(place, Some(read))])?;
                }
                Ok(nothing)
            }
            Line::Verb { .. } => Ok(nothing),
            Line::Expression(sum) => {
                // A sum answers and leaves nothing on the page; given a name, it is a cell.
                let line = self.expand_that(tools.host, sum)?.map_or(line, Line::Expression);
                let read = ReadLine::as_line(tools.host, typed.to_owned(), line);
                let value = match &read.formula {
                    Some(Ok(formula)) => self.evaluate(tools, formula)?,
                    Some(Err(error)) => return Err(error.clone()),
                    None => return Err(Diagnostic::new("nothing is written here")),
                };
                self.last_answer = Some(LastAnswer { source: source_of(&read), value: value.clone() });
                Ok(Entered { answer: Some(value), changes: Vec::new() })
            }
            Line::Cell { name, expression } => {
                let full = self.expand_that(tools.host, expression)?;
                let text = full.map(|full| noted(format!("{name} = {full}")));
                let name = name.clone();
                self.fill(tools, &name, typed, line, text)
            }
            Line::Order { cell, .. } | Line::File { cell, .. } => {
                let name = cell.clone();
                self.fill(tools, &name, typed, line, None)
            }
            Line::Must(condition) => {
                let full = self.expand_that(tools.host, condition)?;
                let read = match full {
                    Some(full) => ReadLine::of(tools.host, noted(format!("must {full}"))),
                    None => ReadLine::as_line(tools.host, typed.to_owned(), line),
                };
                let same = self.entries.iter().find(|(_, entry)| entry.text == read.text).map(|(place, _)| *place);
                let place = same.unwrap_or_else(|| self.next_place());
                let changes = self.change(tools, vec![(place, Some(read))])?;
                Ok(Entered { answer: None, changes })
            }
        }
    }

    /// Fills a cell with the typed line, or with the text in `replacement`.
    fn fill(
        &mut self,
        tools: &mut Tools<'_>,
        name: &str,
        typed: &str,
        line: Line,
        replacement: Option<String>,
    ) -> Result<Entered, Diagnostic> {
        check_name(name)?;
        let place = self.cell(name).and_then(|cell| cell.line).unwrap_or_else(|| self.next_place());
        let read = match replacement {
            Some(text) => ReadLine::of(tools.host, text),
            None => ReadLine::as_line(tools.host, typed.to_owned(), line),
        };
        let changes = self.change(tools, vec![(place, Some(read))])?;
        Ok(Entered { answer: None, changes })
    }

    /// Changes lines as one step that can be taken back.
    pub(super) fn change(
        &mut self,
        tools: &mut Tools<'_>,
        edits: Vec<(Place, Option<ReadLine>)>,
    ) -> Result<Vec<Change>, Diagnostic> {
        for (place, read) in &edits {
            if let Some(read) = read {
                self.check_line(*place, read)?;
            }
        }
        let texts = edits.iter().map(|(place, read)| (*place, read.as_ref().map(|read| read.text.clone())));
        let step = self.step_of(texts.collect());
        let read = edits.into_iter().filter_map(|(place, read)| Some((place, read?))).collect();
        let changes = self.apply_read(tools, &step, true, read)?;
        self.done.push(step);
        self.undone.clear();
        Ok(changes)
    }

    pub(super) fn step_of(&self, edits: Vec<(Place, Option<String>)>) -> Step {
        let before = |place: Place| self.entries.get(&place).map(|entry| entry.text.clone());
        let edits = edits.into_iter().map(|(place, after)| Edit { place, before: before(place), after }).collect();
        Step { edits, typed: None }
    }

    /// Applies a step, forward or backward. If stopped on the way, restores the page.
    pub(super) fn apply(
        &mut self,
        tools: &mut Tools<'_>,
        step: &Step,
        forward: bool,
    ) -> Result<Vec<Change>, Diagnostic> {
        self.apply_read(tools, step, forward, BTreeMap::new())
    }

    /// As [`apply`](Self::apply), with lines that are parsed already.
    fn apply_read(
        &mut self,
        tools: &mut Tools<'_>,
        step: &Step,
        forward: bool,
        mut read: BTreeMap<Place, ReadLine>,
    ) -> Result<Vec<Change>, Diagnostic> {
        let mut dirty = Vec::new();
        let mut set_line = |page: &mut Self, edit: &Edit, forward: bool, host: &Host| {
            let text = if forward { &edit.after } else { &edit.before };
            let read = read.remove(&edit.place);
            page.set_line(
                edit.place,
                text.as_ref().map(|text| read.unwrap_or_else(|| ReadLine::of(host, text.clone()))),
            )
        };
        for edit in &step.edits {
            dirty.extend(set_line(self, edit, forward, tools.host));
        }
        match self.recompute(tools, &dirty, true) {
            Ok(changed) => {
                self.version += 1;
                Ok(self.changes_of(changed))
            }
            Err((stopped, changed)) => {
                for edit in step.edits.iter().rev() {
                    set_line(self, edit, !forward, tools.host);
                }
                for (node, result) in changed.into_iter().rev() {
                    if let Some(cell) = self.cell_mut(node) {
                        cell.result = result;
                    }
                }
                Err(*stopped)
            }
        }
    }

    /// Rejects a line whose errors can be found before anything changes.
    fn check_line(&mut self, place: Place, read: &ReadLine) -> Result<(), Diagnostic> {
        let ReadLine { line, formula, .. } = read;
        if let Line::Cell { name, .. } | Line::Order { cell: name, .. } | Line::File { cell: name, .. } = line {
            check_name(name)?;
            let taken = self.cell(name).and_then(|cell| cell.line).is_some_and(|line| line != place);
            if taken {
                return Err(Diagnostic::new(format!("“{name}” is on the page already")));
            }
        }
        let Some(formula) = formula else { return Ok(()) };
        let formula = formula.as_ref().map_err(Clone::clone)?;
        let Some(name) = node_name(line, place) else { return Ok(()) };
        let node = self.node(&name);
        let reads = self.reads_of(formula);
        if let Some(path) = self.graph.find_cycle(node, &reads) {
            return Err(Diagnostic::new(self.circle_in_words(&path)));
        }
        Ok(())
    }

    /// Says how a path of cells leads back to its first: `waist needs band, band needs waist`; a long one is shortened.
    pub(super) fn circle_in_words(&self, path: &[Node]) -> String {
        const ENDS: usize = 5;
        let names: Vec<&str> = path.iter().map(|node| self.graph.name(*node)).collect();
        let needs: Vec<String> = names.windows(2).map(|pair| pair.join(" needs ")).collect();
        match (needs.get(..ENDS), needs.get(needs.len().saturating_sub(ENDS)..)) {
            (Some(first), Some(last)) if needs.len() > 2 * ENDS => {
                format!("{}, and so on to {}", first.join(", "), last.join(", "))
            }
            _ => needs.join(", "),
        }
    }

    /// Sets or removes the line at a place; returns the cells to recompute.
    fn set_line(&mut self, place: Place, read: Option<ReadLine>) -> Vec<Node> {
        let mut dirty = Vec::new();
        if let Some(Entry { role: LineRole::Fills(node), .. }) = self.entries.remove(&place) {
            self.graph.set_reads(node, Vec::new());
            if let Some(cell) = self.cell_mut(node) {
                // `condition` stays: the change that reports the removal needs it.
                (cell.line, cell.formula) = (None, None);
            }
            // Its readers may find its name in the workshop.
            let workshop = self.node(&Source::Workshop.node_name());
            for reader in self.graph.readers(node).collect::<Vec<_>>() {
                let mut reads = self.graph.reads(reader).to_vec();
                if !reads.contains(&workshop) {
                    reads.push(workshop);
                    self.graph.set_reads(reader, reads);
                }
            }
            dirty.push(node);
        }
        let Some(ReadLine { text, line, formula }) = read else { return dirty };
        let role = match (node_name(&line, place), formula) {
            (Some(name), Some(formula)) => self.define(&line, &name, place, formula, &mut dirty),
            (None, Some(Err(error))) => LineRole::Invalid(Box::new(error)),
            (None, Some(Ok(_))) => LineRole::Answer,
            (_, None) => LineRole::Inert,
        };
        self.entries.insert(place, Entry { text, role });
        dirty
    }

    fn define(
        &mut self,
        line: &Line,
        name: &str,
        place: Place,
        formula: Result<Formula, Diagnostic>,
        dirty: &mut Vec<Node>,
    ) -> LineRole {
        let condition = match line {
            Line::Must(condition) => Some(condition.clone()),
            _ => None,
        };
        if condition.is_none()
            && let Err(error) = check_name(name)
        {
            return LineRole::Invalid(Box::new(error));
        }
        let node = self.node(name);
        if self.cells.get(Graph::index(node)).is_some_and(|cell| cell.line.is_some()) {
            return LineRole::Invalid(Box::new(Diagnostic::new(format!(
                "“{name}” stands on two lines; the first counts"
            ))));
        }
        let formula = formula.unwrap_or_else(|error| Formula::Unreadable(Box::new(error)));
        let reads = self.reads_of(&formula);
        self.graph.set_reads(node, reads);
        if let Some(cell) = self.cell_mut(node) {
            (cell.line, cell.formula, cell.condition) = (Some(place), Some(formula), condition);
        }
        dirty.push(node);
        LineRole::Fills(node)
    }

    fn reads_of(&mut self, formula: &Formula) -> Vec<Node> {
        let names: Vec<&str> = formula.names().into_iter().filter(|name| *name != THAT).collect();
        let mut sources = formula.sources();
        // What no cell fills may be a value of the workshop.
        if names.iter().any(|name| self.cell(name).is_none()) && !sources.contains(&Source::Workshop) {
            sources.push(Source::Workshop);
        }
        let nodes = names.into_iter().map(str::to_owned).chain(sources.iter().map(Source::node_name));
        nodes.map(|name| self.node(&name)).collect()
    }

    fn node(&mut self, name: &str) -> Node {
        let node = self.graph.node(name);
        if self.cells.len() < self.graph.len() {
            self.cells.resize_with(self.graph.len(), Cell::default);
        }
        node
    }

    pub(super) fn at(&self, node: Node) -> Option<&Cell> {
        self.cells.get(Graph::index(node))
    }

    fn cell_mut(&mut self, node: Node) -> Option<&mut Cell> {
        self.cells.get_mut(Graph::index(node))
    }

    /// The cell of a name, if a line fills it.
    pub(super) fn cell(&self, name: &str) -> Option<&Cell> {
        self.at(self.graph.find(name)?).filter(|cell| cell.line.is_some() && cell.condition.is_none())
    }

    fn next_place(&self) -> Place {
        self.entries.last_key_value().map_or(1, |(place, _)| place + 1)
    }

    /// Writes the sum of the last answer into a sum that contains `that`; `None` if it does not.
    fn expand_that(&self, host: &Host, sum: &str) -> Result<Option<String>, Diagnostic> {
        let at = line::words(sum, host.reading());
        let at: Vec<_> = at.into_iter().filter(|span| sum.get(span.clone()) == Some(THAT)).collect();
        if at.is_empty() {
            return Ok(None);
        }
        let Some(last_answer) = &self.last_answer else {
            return Err(Diagnostic::new("there is no answer yet that “that” could mean"));
        };
        let Some(source) = &last_answer.source else {
            return Err(Diagnostic::new("“that” is a table that was only shown")
                .hinting("write that to FILE keeps it; a cell is filled by read, run or a sum"));
        };
        let mut full = sum.to_owned();
        for span in at.into_iter().rev() {
            let whole = span == (0..sum.trim_end().len());
            if !whole && Filter::split(source, host.reading()).is_some() {
                return Err(Diagnostic::new(
                    "the last answer is rows of a table, which cannot stand inside another sum",
                )
                .hinting("give it a name first: late = that"));
            }
            let simple = source.chars().all(|c| c.is_alphanumeric() || c == '_' || c == '.');
            let written = if whole || simple { source.clone() } else { format!("({source})") };
            full.replace_range(span, &written);
        }
        if full.len() > LONGEST_SUM {
            return Err(
                Diagnostic::new("the sum grows too long").hinting("give the last answer a name first: half = that")
            );
        }
        Ok(Some(full))
    }

    /// Sets `that` to a value that was shown, not typed. It cannot be used in a sum.
    pub fn set_last_answer(&mut self, value: Dynamic) {
        self.last_answer = Some(LastAnswer { source: None, value });
    }

    /// The last answer.
    pub fn last_answer(&self) -> Option<&Dynamic> {
        self.last_answer.as_ref().map(|last_answer| &last_answer.value)
    }

    /// The names of its cells, in alphabetical order.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.names_from("")
    }

    /// The names of the cells that begin with `prefix`, in alphabetical order.
    pub fn names_from<'p>(&'p self, prefix: &'p str) -> impl Iterator<Item = &'p str> {
        let nodes = self.graph.from(prefix).take_while(move |(name, _)| name.starts_with(prefix));
        let filled =
            move |node: Node| self.at(node).is_some_and(|cell| cell.line.is_some() && cell.condition.is_none());
        nodes.filter(move |(_, node)| filled(*node)).map(|(name, _)| name)
    }

    /// The value of a cell, or its error; `None` if no line fills it.
    pub fn value(&self, name: &str) -> Option<Result<&Dynamic, &Diagnostic>> {
        match self.cell(name)?.result.as_ref()? {
            Ok(value) => Some(Ok(value)),
            Err(error) => Some(Err(error)),
        }
    }

    /// A cell's value as shown; `None` if it has none.
    pub fn shown(&self, name: &str, style: &Style) -> Option<String> {
        value::shown(self.value(name)?.ok()?, style).ok()
    }
}

/// The text that can replace `that`; `None` if the line is neither a sum nor a filter.
fn source_of(read: &ReadLine) -> Option<String> {
    match &read.formula {
        Some(Ok(Formula::Sum(sum))) => Some(sum.sum().to_owned()),
        Some(Ok(Formula::Filter(filter))) => Some(filter.typed().to_owned()),
        _ => None,
    }
}

/// The name in the graph of what a line fills; `None` if it fills nothing.
fn node_name(line: &Line, place: Place) -> Option<String> {
    match line {
        Line::Cell { name, .. } | Line::Order { cell: name, .. } | Line::File { cell: name, .. } => Some(name.clone()),
        // No cell's name contains a space.
        Line::Must(_) => Some(format!("must {place}")),
        _ => None,
    }
}

/// Rejects names that a cell cannot have.
pub(super) fn check_name(name: &str) -> Result<(), Diagnostic> {
    if name == THAT {
        return Err(Diagnostic::new("“that” is the last answer and cannot be given a value"));
    }
    if crate::engine::functions::named(name).is_some() {
        return Err(
            Diagnostic::new(format!("“{name}” is the name of a function")).hinting("give the cell another name")
        );
    }
    if ["as", "where", "and", "or", "not"].contains(&name) || words::is_reserved(name) {
        return Err(Diagnostic::new(format!("“{name}” has a meaning of its own and cannot be a name"))
            .hinting(format!("take another name, such as my_{name}")));
    }
    let plain = name.starts_with(|c: char| c.is_alphabetic() || c == '_')
        && name.chars().all(|c| c.is_alphanumeric() || c == '_')
        && !name.starts_with("__");
    if !plain {
        let error = Diagnostic::new(format!("“{name}” cannot be a name"));
        return Err(error.hinting("a name is one word of letters, digits and _: gathered_flat"));
    }
    Ok(())
}

#[cfg(test)]
mod tests;
