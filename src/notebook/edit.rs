//! Changes to a page other than typed lines: strike, rename, take back and redo.

use super::change::Change;
use super::formula::Formula;
use super::line::{self, Line};
use super::objects::members_of;
use super::order::OrderLine;
use super::page::{LineRole, Page, Place, Step, Tools, check_name};
use super::verbs;
use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::quantity::Reading;
use crate::quantity::nearest::nearest;
use rhai::Dynamic;

/// The result of taking steps back or redoing them.
#[derive(Debug)]
pub struct StepResult {
    /// The lines of the steps: `waist = 60 cm`, or `strike waist` for one that removed a line.
    pub lines: Vec<String>,
    /// The changes to cells.
    pub changes: Vec<Change>,
}

impl StepResult {
    fn or_none(self, none: &str) -> Result<Self, Diagnostic> {
        if self.lines.is_empty() { Err(Diagnostic::new(none)) } else { Ok(self) }
    }
}

impl Page {
    /// Removes a cell from the page; lines that read it then fail.
    pub fn strike(&mut self, tools: &mut Tools<'_>, name: &str) -> Result<Vec<Change>, Diagnostic> {
        let place = self.place_of(name)?;
        self.change(tools, vec![(place, None)])
    }

    /// Renames a cell wherever it is read; returns how many other lines changed.
    pub fn rename(&mut self, tools: &mut Tools<'_>, old: &str, new: &str) -> Result<usize, Diagnostic> {
        let home = self.place_of(old)?;
        check_name(new)?;
        if self.cell(new).is_some() {
            return Err(Diagnostic::new(format!("“{new}” is on the page already"))
                .hinting("strike it first, or take another name"));
        }
        let reading = tools.host.reading();
        let node = self.graph.find(old);
        // Lines that already read the new name, missing so far, will read this cell.
        if let (Some(node), Some(taken)) = (node, self.graph.find(new))
            && let Some(path) = self.graph.find_cycle(taken, self.graph.reads(node))
        {
            return Err(Diagnostic::new(self.circle_in_words(&path)));
        }
        let reads = |role: &LineRole, text: &str| match role {
            LineRole::Fills(other) => node.is_some_and(|node| self.graph.reads(*other).contains(&node)),
            LineRole::Answer => line::words(text, reading).iter().any(|span| text.get(span.clone()) == Some(old)),
            LineRole::Inert | LineRole::Invalid(_) => false,
        };
        let edits: Vec<(Place, Option<String>)> = self
            .entries
            .iter()
            .filter(|(place, entry)| **place == home || reads(&entry.role, &entry.text))
            .map(|(place, entry)| (*place, Some(renamed(&entry.text, old, new, reading))))
            .collect();
        let readers = edits.len() - 1;
        self.apply_rename(tools, edits, format!("rename {old} to {new}"))?;
        Ok(readers)
    }

    /// Makes a rename one step. Its lines skip the checks of [`Page::change`]: they were all on the page
    /// before.
    fn apply_rename(
        &mut self,
        tools: &mut Tools<'_>,
        edits: Vec<(Place, Option<String>)>,
        typed: String,
    ) -> Result<(), Diagnostic> {
        let step = Step { typed: Some(typed), ..self.step_of(edits) };
        self.apply(tools, &step, true)?;
        self.done.push(step);
        self.undone.clear();
        Ok(())
    }

    /// Takes back the last `count` steps.
    pub fn take_back(&mut self, tools: &mut Tools<'_>, count: usize) -> Result<StepResult, Diagnostic> {
        self.move_steps(tools, count, false).and_then(|result| result.or_none("there is nothing to take back"))
    }

    /// Redoes the last `count` steps that were taken back.
    pub fn redo(&mut self, tools: &mut Tools<'_>, count: usize) -> Result<StepResult, Diagnostic> {
        self.move_steps(tools, count, true).and_then(|result| result.or_none("there is nothing to do again"))
    }

    /// Moves through up to `count` steps, forward or back. A step that is stopped stays on its list.
    fn move_steps(&mut self, tools: &mut Tools<'_>, count: usize, forward: bool) -> Result<StepResult, Diagnostic> {
        let mut result = StepResult { lines: Vec::new(), changes: Vec::new() };
        for _ in 0..count {
            let from = if forward { &mut self.undone } else { &mut self.done };
            let Some(step) = from.pop() else { break };
            let taken = self.apply(tools, &step, forward);
            let undone = taken.is_err() == forward;
            let to = if undone { &mut self.undone } else { &mut self.done };
            to.push(step.clone());
            result.changes.extend(taken?);
            result.lines.extend(lines_of(&step));
        }
        Ok(result)
    }

    /// The recipe and the answers, as typed, of a cell that an order fills; `None` for any other cell.
    pub fn order_of(&self, name: &str) -> Option<(String, Vec<(String, String)>)> {
        match self.cell(name)?.formula.as_ref()? {
            Formula::Order(order) => {
                let answers = order.answers().map(|(input, typed)| (input.to_owned(), typed.to_owned()));
                Some((order.recipe.clone(), answers.collect()))
            }
            _ => None,
        }
    }

    /// Runs an order that fills no cell, with the cells of the page in its answers; the page does not change.
    pub fn run_order(
        &self,
        tools: &mut Tools<'_>,
        recipe: &str,
        answers: &[(String, String)],
    ) -> Result<Dynamic, Diagnostic> {
        let order = OrderLine::read(tools.host, recipe, answers)?;
        self.evaluate(tools, &Formula::Order(Box::new(order)))
    }

    /// Returns the line of an order with some answers changed; one that is empty is left out, for the usual answer.
    ///
    /// # Errors
    /// The cell is no order, or no answer is given.
    pub fn order_changed(&self, name: &str, changed: &[(String, String)]) -> Result<String, Diagnostic> {
        if let Some(error) = self.answer_without_sign(name) {
            return Err(error);
        }
        let place = self.place_of(name)?;
        let Some((recipe, mut answers)) = self.order_of(name) else {
            return Err(
                Diagnostic::new(format!("“{name}” is no order")).hinting(format!("type {name} = and its new value"))
            );
        };
        if changed.is_empty() {
            return Err(verbs::incomplete_error("change"));
        }
        for (input, answer) in changed {
            match answers.iter_mut().find(|(known, _)| known == input) {
                Some((_, known)) => answer.clone_into(known),
                None => answers.push((input.clone(), answer.clone())),
            }
        }
        answers.retain(|(_, answer)| !answer.is_empty());
        let note = self.entries.get(&place).map(|entry| line::note_of(&entry.text)).unwrap_or_default();
        let note = if note.is_empty() { note } else { format!("  # {note}") };
        Ok(format!("{}{note}", order_line(&recipe, name, &answers)))
    }

    /// The error of a word that no cell has and an order does: `price` is said to be `first.price`.
    pub fn meant_of_an_order(&self, error: Diagnostic) -> Diagnostic {
        let DiagnosticKind::UnknownName(word) = &error.kind else { return error };
        let meant = self.words_of_orders(word);
        if meant.is_empty() { error } else { error.hinting(format!("type {}", meant.join(" or "))) }
    }

    /// A word with each of the orders that have it, as it is typed; three of them at most.
    pub(super) fn words_of_orders(&self, word: &str) -> Vec<String> {
        let has_it = |name: &&str| {
            let order = self.order_of(name).and_then(|_| self.value(name)?.ok());
            order.is_some_and(|order| members_of(order).iter().any(|member| member == word))
        };
        self.names().filter(has_it).take(3).map(|name| format!("{name}.{word}")).collect()
    }

    /// The error of `first waist 24 in`, where an order and its answer stand side by side.
    fn answer_without_sign(&self, typed: &str) -> Option<Diagnostic> {
        let (order, rest) = typed.split_once(char::is_whitespace)?;
        self.order_of(order)?;
        let (input, answer) = rest.trim().split_once(char::is_whitespace).unwrap_or((rest.trim(), ""));
        let answer = answer.trim().strip_prefix("to ").unwrap_or(answer).trim();
        let error = Diagnostic::new(format!("“{rest}” is no answer"));
        Some(error.hinting(format!("put = between what is asked and its answer: change {order} {input}={answer}")))
    }

    pub(super) fn place_of(&self, name: &str) -> Result<Place, Diagnostic> {
        self.cell(name).and_then(|cell| cell.line).ok_or_else(|| self.no_cell(name))
    }

    pub(super) fn no_cell(&self, name: &str) -> Diagnostic {
        if name.is_empty() {
            return verbs::incomplete_error("strike");
        }
        let error = Diagnostic::new(format!("there is no cell “{name}”"));
        match nearest(name, self.names()) {
            Some(near) => error.hinting(format!("did you mean “{near}”?")),
            None => error.hinting("type show for the page"),
        }
    }
}

/// Describes a step: each line as it is after the step, `strike NAME` for a removed one; for a rename, what was
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

/// Replaces a cell's name in a line, wherever it refers to the cell.
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

/// Formats an order as a line of a page: `run gathered_skirt as first waist=21 in skirt=12 in`.
pub(crate) fn order_line(recipe: &str, cell: &str, answers: &[(String, String)]) -> String {
    let mut text = format!("run {recipe} as {cell}");
    for (input, typed) in answers {
        // Quote an answer that contains a sign that would start another answer or a note.
        let quoted = typed.contains(['=', '#']) && !typed.contains('\'');
        let typed = if quoted { format!("'{typed}'") } else { typed.clone() };
        text.push_str(&format!(" {input}={typed}"));
    }
    text
}
