//! Checks a recipe before it is trusted with an order.
//!
//! The recipe must parse; its header and inputs must be complete; its text must be sound in every branch; its examples
//! must come out; and every order at the corners of its ranges and between them must end in a ticket or in a refusal that names an input.

use crate::diagnostic::Diagnostic;
use crate::engine::{ReadScript, Runs, ScriptError};
use crate::recipe::answers::answering::RawAnswer;
use crate::recipe::contract::input::{Input, PIECES};
use crate::recipe::opened::{NoTicket, Recipe};
use crate::recipe::proof::corners;
use crate::recipe::proof::examples::{self, Failure, FailureAt, is_not_given};
use crate::recipe::proof::reading::{self, Part, Vocabulary, place_of_example, with_examples};
use crate::report::excerpt;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::atomic::Ordering;

/// The result of a check.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CheckReport {
    /// What must be fixed.
    pub findings: Vec<Diagnostic>,
    /// What may be wrong, or is of no use.
    pub cautions: Vec<Diagnostic>,
    /// The number of places in its text that could not be looked at.
    pub unread: usize,
    /// The lines of its own text that nothing which was tried came to.
    pub never_ran: Vec<usize>,
    /// The number of examples run.
    pub examples: usize,
    /// The number of orders tried: at the corners of its ranges, and between them.
    pub orders: usize,
    /// The number of these that ended in a refusal.
    pub refused: usize,
}

impl CheckReport {
    /// Returns the report of a recipe that cannot be opened.
    pub fn unreadable(error: &Diagnostic) -> Self {
        Self { findings: vec![error.clone()], ..Self::default() }
    }

    /// Returns whether there is nothing to fix.
    pub fn passed(&self) -> bool {
        self.findings.is_empty()
    }
}

/// The most kinds of failing orders reported one by one; the rest are counted.
const MAX_LISTED: usize = 3;

/// Checks a recipe: its text, then its examples, then orders at the corners of its ranges and between them.
pub(in crate::recipe) fn check(recipe: &Recipe) -> CheckReport {
    let mut report = CheckReport::default();
    header(recipe, &mut report);
    inputs(recipe, &mut report);
    let text = read_text(recipe, &mut report);
    let runs = Runs::default();
    match recipe.noting(&runs) {
        Ok(noting) => {
            try_examples(&noting, text.as_ref(), &mut report);
            try_orders(&noting, &mut report);
        }
        Err(error) => report.findings.push(error),
    }
    if let Some(Text { files, doubts, script }) = text {
        let never = runs.never(&file_of(&recipe.text.name));
        report.never_ran = never.into_iter().map(|at| script.line(at)).collect();
        report.never_ran.sort_unstable();
        report.never_ran.dedup();
        // What may go wrong and was passed without harm does not go wrong; what did is told already.
        let has_run = |file: usize, at: usize| {
            let file = files.get(file);
            file.and_then(|file| runs.has_run(file, at)).unwrap_or(false)
        };
        report
            .cautions
            .extend(doubts.into_iter().filter(|(file, at, _)| !has_run(*file, *at)).map(|(.., doubt)| doubt));
    }
    let faults: Vec<_> = report.findings.iter().flat_map(places).collect();
    report.cautions.retain(|caution| !places(caution).iter().any(|place| faults.contains(place)));
    report
}

/// Looks at a recipe's header, inputs and text alone: nothing is run for an order.
pub(in crate::recipe) fn read(recipe: &Recipe) -> CheckReport {
    let mut report = CheckReport::default();
    header(recipe, &mut report);
    inputs(recipe, &mut report);
    let doubts = read_text(recipe, &mut report).map(|text| text.doubts);
    report.cautions.extend(doubts.into_iter().flatten().map(|(.., doubt)| doubt));
    report
}

/// The files and lines that a finding marks first, its own and those of what it reports.
fn places(found: &Diagnostic) -> Vec<(Option<String>, usize)> {
    let own = found.labels.first().map(|label| (label.span.file.clone(), label.span.line));
    own.into_iter().chain(found.related.iter().flat_map(places)).collect()
}

/// A recipe's text as it was read.
struct Text {
    script: ReadScript,
    /// The names of its files, by their numbers.
    files: Vec<String>,
    /// What goes wrong on some ways only.
    doubts: Vec<(usize, usize, Diagnostic)>,
}

/// Looks at the text, in every branch.
fn read_text(recipe: &Recipe, report: &mut CheckReport) -> Option<Text> {
    let reads = |name: &str, text: &str| ReadScript::read(&file_of(name), text, recipe.host.reading());
    // A helper file that cannot be read stops every run that needs it, and is told there.
    let helpers = recipe.text.helpers.iter();
    let helpers = helpers.filter_map(|(name, text)| Some((name.clone(), reads(name, &with_examples(text)).ok()?)));
    let helpers: BTreeMap<String, ReadScript> = helpers.collect();
    let script = match reads(&recipe.text.name, &recipe.text.text) {
        Ok(script) => script,
        Err(error) => {
            report.findings.push(error);
            return None;
        }
    };
    let vocabulary = Vocabulary::of(&recipe.workshop);
    let found = reading::read(&script, &helpers, &recipe.inputs, &vocabulary, recipe.host.style());
    report.findings.extend(found.faults);
    report.cautions.extend(found.cautions);
    report.unread = found.unread;
    let files = std::iter::once(&recipe.text.name).chain(helpers.keys()).map(|name| file_of(name)).collect();
    Some(Text { script, files, doubts: found.doubts })
}

fn file_of(name: &str) -> String {
    format!("{name}.rhai")
}

fn try_examples(recipe: &Recipe, text: Option<&Text>, report: &mut CheckReport) {
    let (count, wrong) = match examples::run_all(recipe) {
        Ok(all) => all,
        Err(error) => return report.findings.push(error),
    };
    report.examples = count;
    if count == 0 {
        report.find("it has no examples; at least one order with its expected figures is needed");
    }
    let known: Vec<_> = report.findings.iter().flat_map(places).collect();
    for Failure { example, at, told } in wrong {
        // What the text shows is told already.
        if places(&told).iter().any(|place| known.contains(place)) {
            continue;
        }
        let part = match &at {
            FailureAt::Whole => Part::Whole,
            FailureAt::Source => Part::Source,
            FailureAt::Figure(name) => Part::Figure(name),
            FailureAt::Within => Part::Within,
        };
        let place = text.and_then(|text| Some((text, place_of_example(&text.script, example, &part)?)));
        report.findings.push(match place {
            Some((text, at)) if told.related.is_empty() => {
                let problem = ScriptError::new(told.message).with_hint(told.hint);
                text.script.found(at, problem)
            }
            _ => told,
        });
    }
}

impl CheckReport {
    fn find(&mut self, message: impl Into<String>) {
        self.findings.push(Diagnostic::new(message));
    }
}

fn header(recipe: &Recipe, report: &mut CheckReport) {
    let header = &recipe.header;
    if header.makes.is_empty() {
        report.find("the first line does not say what it makes; begin with //! and a sentence");
    }
    let missing = [
        ("contract", header.contract.is_none()),
        ("version", header.version.is_none()),
        ("licence", header.licence.is_none()),
        ("for", header.tags.is_empty()),
    ];
    for (name, _) in missing.iter().filter(|(_, missing)| *missing) {
        report.find(format!("the header has no “{name}:”; write //! contract: 1   version: 1.0   licence: …   for: …"));
    }
}

fn inputs(recipe: &Recipe, report: &mut CheckReport) {
    for input in &recipe.inputs {
        if input.range.is_none() && input.kind.takes_range() {
            report.find(format!("“{}” has no ends; write .between(least, most)", input.name));
        }
    }
}

/// The answers of an order to try, by input.
type Tried = Vec<(String, String)>;

/// The corners of its ranges, and orders between them.
fn orders(recipe: &Recipe) -> Vec<Tried> {
    let style = recipe.host.style();
    let pieces = (PIECES.to_owned(), vec![Some("1".to_owned()), Some("3".to_owned())]);
    let ends = |input: &Input| corners::choices(input, |input| input.kind.corners(input.range, &style));
    let inputs = recipe.inputs.iter().map(|input| (input.name.clone(), ends(input)));
    let inputs: Vec<(String, Vec<corners::Choice>)> = std::iter::once(pieces).chain(inputs).collect();
    let sizes: Vec<usize> = inputs.iter().map(|(_, choices)| choices.len()).collect();
    let chosen = |row: Vec<usize>| -> Tried {
        let chosen = inputs.iter().zip(row);
        chosen.filter_map(|((name, choices), at)| Some((name.clone(), choices.get(at)?.clone()?))).collect()
    };
    let between = (0..corners::BETWEEN).map(|order| -> Tried {
        let answered = recipe.inputs.iter().enumerate().filter_map(|(number, input)| {
            let part = corners::part(order, number);
            // As in orders that are placed, some answers are the usual ones and some are left out.
            let is_left_out = if input.usual.is_some() { part < 0.3 } else { input.optional && part > 0.8 };
            let answer = (!is_left_out).then(|| input.kind.between(input.range, part, &style)).flatten()?;
            Some((input.name.clone(), answer))
        });
        answered.collect()
    });
    corners::rows(&sizes).into_iter().map(chosen).chain(between).collect()
}

fn try_orders(recipe: &Recipe, report: &mut CheckReport) {
    let mut failed: Vec<(Diagnostic, usize, Tried)> = Vec::new();
    for tried in orders(recipe) {
        if recipe.planner.stop().load(Ordering::Relaxed) {
            report.find("the check was stopped before its end");
            return;
        }
        report.orders += 1;
        let answers = tried.iter().map(|(name, typed)| (name.clone(), RawAnswer::Typed(typed.clone())));
        let error = match recipe.run(answers.collect()) {
            Ok(_) => continue,
            Err(NoTicket::Failed(error)) => error,
            Err(NoTicket::Refused(refusals)) => {
                if let Some(error) = refusals.into_iter().find(is_not_given) {
                    error
                } else {
                    report.refused += 1;
                    continue;
                }
            }
        };
        match failed.iter_mut().find(|(known, ..)| *known == error) {
            Some((_, times, _)) => *times += 1,
            None => failed.push((error, 1, tried)),
        }
    }
    failed.sort_by_cached_key(|(error, ..)| excerpt::text(error));
    // What the text shows is told already.
    let known: Vec<_> = report.findings.iter().flat_map(places).collect();
    failed.retain(|(error, ..)| !places(error).iter().any(|place| known.contains(place)));
    let kinds = failed.len();
    for (error, times, tried) in failed.into_iter().take(MAX_LISTED) {
        let answers: Vec<String> = tried.iter().map(|(name, typed)| format!("{name}={typed}")).collect();
        let message = format!(
            "{times} of {} orders tried end in a fault instead of a ticket or a refusal that names an input, for example {}",
            report.orders,
            answers.join(", ")
        );
        report.findings.push(Diagnostic::several(message, vec![error]));
    }
    if kinds > MAX_LISTED {
        report.find(format!("and {} more kinds of fault in the orders tried", kinds - MAX_LISTED));
    }
    if report.orders > 0 && report.refused == report.orders && recipe.inputs.len() > 1 {
        report.find("every order tried is turned away; the ranges promise more than it makes");
    }
}
