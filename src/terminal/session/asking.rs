//! Asks the questions of a recipe one after the other; meanwhile, typed lines are answers.

use super::{After, Session};
use crate::diagnostic::Diagnostic;
use crate::notebook::{NoWorld, Page, Tools, for_recipe, help};
use crate::quantity::literal::read_quantity;
use crate::quantity::{Reading, Style};
use crate::recipe::{Possible, Questions};
use crate::report::excerpt;
use crate::terminal::app::{App, refused};
use std::collections::BTreeMap;

/// What is said when the questions end without an order.
pub(crate) const STOPPED: &str = "stopped; nothing was made";

/// Questions that are being asked.
pub(crate) struct Asking {
    questions: Questions,
    pub(super) recipe: String,
    /// The cell the order will fill; `None` if it is only shown.
    pub(super) cell: Option<String>,
    pub(super) note: String,
}

/// Whether an order has questions left.
pub(crate) enum Completeness {
    /// Some answers are missing.
    Incomplete(Box<Asking>),
    /// All questions are answered; holds the answers.
    Complete(Vec<(String, String)>),
}

/// Evaluates the sum in an answer with the cells of a page. It cannot use recipes or files.
fn sum(page: &Page, host: &crate::engine::Host, typed: &str) -> Result<rhai::Dynamic, Diagnostic> {
    page.answer(&mut Tools { host, world: &mut NoWorld }, typed)
}

impl Asking {
    /// Checks whether answers are missing.
    pub(crate) fn begin(
        session: &Session,
        app: &mut App<'_>,
        recipe: &str,
        cell: Option<&str>,
        answers: Vec<(String, String)>,
        note: &str,
    ) -> Result<Completeness, Diagnostic> {
        let description = app.description(recipe)?;
        let cells: BTreeMap<_, _> = description
            .inputs
            .iter()
            .filter_map(|input| Some((input.name.clone(), for_recipe(session.page.value(&input.name)?.ok()?)?)))
            .collect();
        let evaluate = |typed: &str| sum(&session.page, &session.host, typed);
        let style = session.host.style();
        let workshop = &app.opened.workshop;
        let questions = Questions::new((*description).clone(), workshop, style, answers.clone(), &cells, &evaluate)
            .map_err(refused)?;
        if questions.next().is_none() {
            return Ok(Completeness::Complete(answers));
        }
        let (recipe, cell) = (recipe.to_owned(), cell.map(str::to_owned));
        Ok(Completeness::Incomplete(Box::new(Self { questions, recipe, cell, note: note.to_owned() })))
    }

    /// What the next question may be answered with.
    pub(super) fn possible(&self) -> Possible {
        self.questions.next().map(|question| question.possible).unwrap_or_default()
    }
}

/// The help on a word, asked for at a question: `help selvedge` or `? selvedge`. `None` if the line is no such thing, or
/// if nothing is known of the word and it may be an answer.
pub(super) fn help_on(app: &App<'_>, typed: &str, possible: &Possible) -> Option<Result<String, String>> {
    let (first, word) = typed.split_once(char::is_whitespace)?;
    if !["help", "?"].contains(&first.to_lowercase().as_str()) {
        return None;
    }
    let help = help::about(word, &app.style(), app.output.width);
    let any_words = possible.answers.is_empty() && !possible.takes_sums;
    (help.is_ok() || !any_words).then_some(help)
}

/// Replaces the decimal comma of an answer by a point, if measures are shown with a comma.
fn with_point(typed: &str, style: Style) -> String {
    let comma = Reading { currency: style.currency, decimal_comma: true };
    if style.decimal_comma && typed.contains(',') && read_quantity(typed, comma).is_ok() {
        typed.replace(',', ".")
    } else {
        typed.to_owned()
    }
}

impl App<'_> {
    /// Tells what help says, or why it says nothing.
    pub(super) fn tell(&mut self, help: Result<String, String>) -> After {
        match help {
            Ok(text) => {
                self.output.print_wrapped(&text);
                After::Done
            }
            Err(message) => {
                self.output.eprint(&message);
                After::Failed
            }
        }
    }
}

impl Session {
    /// Asks the first question.
    pub(crate) fn ask_first(&mut self, app: &mut App<'_>) {
        if self.keeps_unnamed() {
            app.output.print_wrapped(
                "Enter = the usual answer; back = the question before; help explains it; cancel or Ctrl-C stops",
            );
        }
        self.ask(app);
    }

    /// Asks the next question.
    pub(crate) fn ask(&mut self, app: &mut App<'_>) {
        let question = self.asking.as_ref().and_then(|asking| asking.questions.next());
        if let Some(question) = question {
            app.output.print_wrapped(&question.to_string());
        }
    }

    /// Handles a typed answer; after the last one, returns all of them.
    pub(crate) fn answer(&mut self, app: &mut App<'_>, typed: &str) -> (After, Option<Vec<(String, String)>>) {
        let Some(mut asking) = self.asking.take() else { return (After::Done, None) };
        let typed = &with_point(typed.trim(), self.host.style());
        let mut after = After::Done;
        let word = typed.to_lowercase();
        let is_answer = asking.questions.is_answered_by(typed);
        let help = help_on(app, typed, &asking.possible()).filter(|_| !is_answer);
        if let Some(help) = help {
            let after = app.tell(help);
            self.asking = Some(asking);
            self.ask(app);
            return (after, None);
        }
        match word.as_str() {
            "help" | "?" if !is_answer => {
                app.output.print_wrapped(&asking.questions.help().unwrap_or_default());
                self.asking = Some(asking);
                return (After::Done, None);
            }
            "list" if !is_answer => {
                let all = asking.questions.next().map(|question| question.all).unwrap_or_default();
                let shown = if all.is_empty() { "there is nothing to choose from".to_owned() } else { all.join("\n") };
                app.output.print_wrapped(&shown);
                self.asking = Some(asking);
                return (After::Done, None);
            }
            "cancel" | "leave" | "quit" | "exit" if !is_answer => {
                app.output.eprint(STOPPED);
                return (After::Done, None);
            }
            _ => {}
        }
        if typed == "back" {
            if !asking.questions.back() {
                app.output.eprint("this is the first question");
                after = After::Failed;
            }
        } else {
            let evaluate = |typed: &str| sum(&self.page, &self.host, typed);
            match asking.questions.answer(typed, &evaluate) {
                Ok(echo) => {
                    app.output.print_wrapped(&format!("  {echo}"));
                    for warning in asking.questions.warnings() {
                        app.output.print_wrapped(&format!("  measure again? {warning}"));
                    }
                }
                Err(refusal) => {
                    app.output.eprint(&excerpt::text(&refusal));
                    after = After::Failed;
                }
            }
        }
        if asking.questions.next().is_some() {
            self.asking = Some(asking);
            self.ask(app);
            return (after, None);
        }
        (after, Some(asking.questions.answers()))
    }
}
