//! Striking cells, renaming them, taking steps back and doing them again.

use super::change::Change;
use super::formula::Formula;
use super::line::{self, Line};
use super::page::{Page, Place, Step, Tools, What, check_name};
use super::verbs;
use crate::diagnostic::Diagnostic;
use crate::quantity::Reading;
use crate::quantity::nearest::nearest;

/// What was taken back or done again.
#[derive(Debug)]
pub struct Moved {
    /// The lines as they stood, or stand again: `waist = 60 cm`.
    pub lines: Vec<String>,
    /// What changed by it.
    pub changes: Vec<Change>,
}

impl Moved {
    fn or_none(self, none: &str) -> Result<Self, Diagnostic> {
        if self.lines.is_empty() { Err(Diagnostic::new(none)) } else { Ok(self) }
    }
}

impl Page {
    /// Strikes a cell off the page; its readers say that they miss it.
    pub fn strike(&mut self, tools: &mut Tools<'_>, name: &str) -> Result<Vec<Change>, Diagnostic> {
        let place = self.place_of(name)?;
        self.change(tools, vec![(place, None)])
    }

    /// Gives a cell another name wherever it is read.
    pub fn rename(&mut self, tools: &mut Tools<'_>, old: &str, new: &str) -> Result<usize, Diagnostic> {
        let home = self.place_of(old)?;
        check_name(new)?;
        if self.cell(new).is_some() {
            return Err(Diagnostic::new(format!("“{new}” is on the page already"))
                .hinting("strike it first, or take another name"));
        }
        let reading = tools.host.reading();
        let node = self.graph.find(old);
        // Lines that read the new name already, as one that was missing, will follow the cell.
        if let (Some(node), Some(taken)) = (node, self.graph.find(new))
            && let Some(path) = self.graph.circle(taken, self.graph.reads(node))
        {
            return Err(Diagnostic::new(format!(
                "the cells would go round in a circle: {}",
                self.path_in_words(&path)
            )));
        }
        let reads = |what: &What, text: &str| match what {
            What::Fills(other) => node.is_some_and(|node| self.graph.reads(*other).contains(&node)),
            What::Answer => line::words(text, reading).iter().any(|span| text.get(span.clone()) == Some(old)),
            What::Plain | What::Wrong(_) => false,
        };
        let edits: Vec<(Place, Option<String>)> = self
            .entries
            .iter()
            .filter(|(place, entry)| **place == home || reads(&entry.what, &entry.text))
            .map(|(place, entry)| (*place, Some(renamed(&entry.text, old, new, reading))))
            .collect();
        let readers = edits.len() - 1;
        self.change_checked(tools, edits, format!("rename {old} to {new}"))?;
        Ok(readers)
    }

    /// A step whose lines were all on the page before under other names.
    fn change_checked(
        &mut self,
        tools: &mut Tools<'_>,
        edits: Vec<(Place, Option<String>)>,
        typed: String,
    ) -> Result<(), Diagnostic> {
        let step = Step { typed: Some(typed), ..self.step_of(edits) };
        self.take(tools, &step, true)?;
        self.done.push(step);
        self.undone.clear();
        Ok(())
    }

    /// Takes back the last steps.
    pub fn take_back(&mut self, tools: &mut Tools<'_>, count: usize) -> Result<Moved, Diagnostic> {
        self.walk(tools, count, false).and_then(|moved| moved.or_none("there is nothing to take back"))
    }

    /// Does again what was taken back.
    pub fn redo(&mut self, tools: &mut Tools<'_>, count: usize) -> Result<Moved, Diagnostic> {
        self.walk(tools, count, true).and_then(|moved| moved.or_none("there is nothing to do again"))
    }

    /// Goes through the steps, one way or the other. One that is stopped stays where it was.
    fn walk(&mut self, tools: &mut Tools<'_>, count: usize, forward: bool) -> Result<Moved, Diagnostic> {
        let mut moved = Moved { lines: Vec::new(), changes: Vec::new() };
        for _ in 0..count {
            let from = if forward { &mut self.undone } else { &mut self.done };
            let Some(step) = from.pop() else { break };
            let taken = self.take(tools, &step, forward);
            let undone = taken.is_err() == forward;
            let to = if undone { &mut self.undone } else { &mut self.done };
            to.push(step.clone());
            moved.changes.extend(taken?);
            moved.lines.extend(lines_of(&step));
        }
        Ok(moved)
    }

    /// The order a cell is filled by: its recipe and answers as typed.
    pub fn order_of(&self, name: &str) -> Option<(String, Vec<(String, String)>)> {
        match self.cell(name)?.formula.as_ref()? {
            Formula::Order(order) => {
                let answers = order.answers().map(|(input, typed)| (input.to_owned(), typed.to_owned()));
                Some((order.recipe.clone(), answers.collect()))
            }
            _ => None,
        }
    }

    pub(super) fn place_of(&self, name: &str) -> Result<Place, Diagnostic> {
        self.cell(name).and_then(|cell| cell.line).ok_or_else(|| self.no_cell(name))
    }

    pub(super) fn no_cell(&self, name: &str) -> Diagnostic {
        if name.is_empty() {
            return verbs::lacking("strike");
        }
        let fault = Diagnostic::new(format!("there is no cell “{name}”"));
        match nearest(name, self.names()) {
            Some(near) => fault.hinting(format!("did you mean “{near}”?")),
            None => fault.hinting("type show for the page"),
        }
    }
}

/// The lines a step changed, each as it stood after it, or before it where it struck one; of a new name, what was
/// typed.
fn lines_of(step: &Step) -> Vec<String> {
    if let Some(typed) = &step.typed {
        return vec![typed.clone()];
    }
    let lines = step.edits.iter().filter_map(|edit| match (&edit.after, &edit.before) {
        (Some(after), _) => Some(after.clone()),
        (None, Some(before)) => {
            let name = before.split('=').next().unwrap_or_default().trim();
            Some(format!("strike {name}"))
        }
        (None, None) => None,
    });
    lines.collect()
}

/// A line with one name in place of another, wherever it means the cell.
fn renamed(text: &str, old: &str, new: &str, reading: Reading) -> String {
    let in_sum = |sum: &str| {
        let mut sum = sum.to_owned();
        for span in line::words(&sum, reading).into_iter().rev() {
            if sum.get(span.clone()) == Some(old) {
                sum.replace_range(span, new);
            }
        }
        sum
    };
    let name = |name: &str| if name == old { new.to_owned() } else { name.to_owned() };
    let note = line::note_of(text);
    let note = if note.is_empty() { note } else { format!("  # {note}") };
    match line::read(text, reading) {
        Line::Cell { name: cell, expression } => format!("{} = {}{note}", name(&cell), in_sum(&expression)),
        Line::Must(condition) => format!("must {}{note}", in_sum(&condition)),
        Line::Expression(sum) => format!("{}{note}", in_sum(&sum)),
        Line::File { file, cell } => format!("read {file} as {}{note}", name(&cell)),
        Line::Order { recipe, cell, answers } => {
            let answers: Vec<(String, String)> =
                answers.iter().map(|(input, typed)| (input.clone(), in_sum(typed))).collect();
            format!("{}{note}", order_line(&recipe, &name(&cell), &answers))
        }
        Line::Note | Line::Verb { .. } => text.to_owned(),
    }
}

/// `run gathered_skirt as first waist=21 in skirt=12 in`: an order as it stands on a page.
pub(crate) fn order_line(recipe: &str, cell: &str, answers: &[(String, String)]) -> String {
    let mut text = format!("run {recipe} as {cell}");
    for (input, typed) in answers {
        // An answer with a sign that would begin another one, or a note, is put between marks.
        let quoted = typed.contains(['=', '#']) && !typed.contains('\'');
        let typed = if quoted { format!("'{typed}'") } else { typed.clone() };
        text.push_str(&format!(" {input}={typed}"));
    }
    text
}
