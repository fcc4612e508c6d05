//! Checks a recipe before it is trusted with an order.
//!
//! The recipe must parse; its header and inputs must be complete; every input must be used; its examples must come out;
//! and every corner of its ranges must end in a ticket or in a refusal that names an input.

use crate::diagnostic::Diagnostic;
use crate::engine::text::tokens::{TokenKind, Tokens};
use crate::recipe::answers::answering::RawAnswer;
use crate::recipe::contract::input::PIECES;
use crate::recipe::opened::{NoTicket, Recipe};
use crate::recipe::proof::corners;
use crate::recipe::proof::examples;
use crate::report::excerpt;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::sync::atomic::Ordering;

/// The result of a check.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CheckReport {
    /// What must be fixed.
    pub findings: Vec<Diagnostic>,
    /// The number of examples run.
    pub examples: usize,
    /// The number of corners tried.
    pub corners: usize,
    /// The number of corners that ended in a refusal.
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

/// The most kinds of failing corners reported one by one; the rest are counted.
const MAX_LISTED: usize = 3;

/// Checks a recipe.
pub(in crate::recipe) fn check(recipe: &Recipe) -> CheckReport {
    let mut report = CheckReport::default();
    header(recipe, &mut report);
    inputs(recipe, &mut report);
    match examples::run_all(recipe) {
        Ok((count, wrong)) => {
            report.examples = count;
            if count == 0 {
                report.find("it has no examples; at least one order with its expected figures is needed");
            }
            for message in wrong {
                report.find(message);
            }
        }
        Err(error) => report.findings.push(error),
    }
    try_corners(recipe, &mut report);
    report
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
    let used = names_used(&recipe.text.text);
    for input in &recipe.inputs {
        if input.range.is_none() && input.kind.takes_range() {
            report.find(format!("“{}” has no ends; write .between(least, most)", input.name));
        }
        if !used.contains(&input.name) {
            report.find(format!("“{}” is asked for and never used", input.name));
        }
    }
}

/// Returns the names that a recipe uses: as members, in `has`, `only_if` or `same_as`, or in braces, as in
/// `order.waist`, `order.has("lining")`, `.only_if("end", …)`, `{waist}`.
fn names_used(text: &str) -> BTreeSet<String> {
    let Ok(tokens) = Tokens::read(text, crate::quantity::Reading::default()) else { return BTreeSet::new() };
    let word = |index: usize| tokens.list.get(index).and_then(|token| text.get(token.span.clone())).unwrap_or_default();
    let mut used = BTreeSet::new();
    for (index, token) in tokens.list.iter().enumerate() {
        let before = |back: usize| index.checked_sub(back).map_or("", word);
        match token.kind {
            TokenKind::Word if before(1) == "." => {
                used.insert(word(index).to_owned());
            }
            TokenKind::Text => {
                let written = word(index).trim_matches(['"', '`']);
                if before(1) == "(" && ["has", "only_if", "same_as"].contains(&before(2)) {
                    used.insert(written.to_owned());
                }
                let braced = written.split('{').skip(1).filter_map(|part| part.split_once('}'));
                used.extend(braced.map(|(name, _)| name.trim().to_owned()));
            }
            _ => {}
        }
    }
    used
}

fn try_corners(recipe: &Recipe, report: &mut CheckReport) {
    let style = recipe.host.style();
    let mut inputs: Vec<(String, Vec<corners::Choice>)> =
        vec![(PIECES.to_owned(), vec![Some("1".to_owned()), Some("3".to_owned())])];
    inputs.extend(
        recipe.inputs.iter().map(|input| {
            (input.name.clone(), corners::choices(input, |input| input.kind.corners(input.range, &style)))
        }),
    );
    let sizes: Vec<usize> = inputs.iter().map(|(_, choices)| choices.len()).collect();
    let mut failed: Vec<(Diagnostic, usize, String)> = Vec::new();
    for row in corners::rows(&sizes) {
        if recipe.planner.stop().load(Ordering::Relaxed) {
            report.find("the check was stopped before its end");
            return;
        }
        let chosen: Vec<(&str, &str)> = inputs
            .iter()
            .zip(&row)
            .filter_map(|((name, choices), choice)| Some((name.as_str(), choices.get(*choice)?.as_deref()?)))
            .collect();
        let answers = chosen.iter().map(|(name, typed)| ((*name).to_owned(), RawAnswer::Typed((*typed).to_owned())));
        report.corners += 1;
        match recipe.run(answers.collect()) {
            Ok(_) => {}
            Err(NoTicket::Refused(_)) => report.refused += 1,
            Err(NoTicket::Failed(error)) => {
                let corner =
                    chosen.iter().map(|(name, typed)| format!("{name}={typed}")).collect::<Vec<_>>().join(", ");
                match failed.iter_mut().find(|(known, ..)| *known == error) {
                    Some((_, times, _)) => *times += 1,
                    None => failed.push((error, 1, corner)),
                }
            }
        }
    }
    let kinds = failed.len();
    failed.sort_by_cached_key(|(error, ..)| excerpt::text(error));
    for (error, times, corner) in failed.into_iter().take(MAX_LISTED) {
        report.find(format!(
            "{times} of {} corners end in a fault instead of a ticket or a refusal that names an input:\n{}\n  for example with {corner}",
            report.corners,
            excerpt::text(&error)
        ));
    }
    if kinds > MAX_LISTED {
        report.find(format!("and {} more kinds of fault at the corners", kinds - MAX_LISTED));
    }
    if report.corners > 0 && report.refused == report.corners && recipe.inputs.len() > 1 {
        report.find("every corner of its ranges is turned away; the ranges promise more than it makes");
    }
}
