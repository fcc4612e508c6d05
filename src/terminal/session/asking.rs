//! Asks the questions of a recipe one after the other; meanwhile, typed lines are answers.

use super::{After, Session};
use crate::diagnostic::Diagnostic;
use crate::notebook::{NoWorld, Page, TicketObject, Tools, for_recipe};
use crate::quantity::literal::read_quantity;
use crate::quantity::{Reading, Style};
use crate::recipe::Questions;
use crate::report::excerpt;
use crate::terminal::app::{App, DONE, refused};
use crate::ticket::InputSource;
use std::collections::BTreeMap;

/// Questions that are being asked.
pub(crate) struct Asking {
    questions: Questions,
    recipe: String,
    /// The cell the order will fill; `None` if its tables are only shown.
    cell: Option<String>,
    note: String,
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

impl Session {
    /// Asks the first question.
    pub(crate) fn ask_first(&mut self, app: &mut App<'_>) {
        if self.keeps_unnamed() {
            app.output.print_wrapped(
                "an empty line takes what is usual, back goes to the question before, help explains it, cancel or Ctrl-C drops them all",
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

    /// Handles a typed answer.
    pub(crate) fn take_answer(&mut self, app: &mut App<'_>, typed: &str) -> After {
        let Some(mut asking) = self.asking.take() else { return After::Done };
        let typed = &with_point(typed.trim(), self.host.style());
        let mut after = After::Done;
        let word = typed.to_lowercase();
        let is_answer = asking.questions.is_answered_by(typed);
        match word.as_str() {
            "help" | "?" if !is_answer => {
                app.output.print_wrapped(&asking.questions.help().unwrap_or_default());
                self.asking = Some(asking);
                return After::Done;
            }
            "list" if !is_answer => {
                let all = asking.questions.next().map(|question| question.all).unwrap_or_default();
                let shown = if all.is_empty() { "there is nothing to choose from".to_owned() } else { all.join("\n") };
                app.output.print_wrapped(&shown);
                self.asking = Some(asking);
                return After::Done;
            }
            "cancel" | "leave" | "quit" | "exit" if !is_answer => {
                app.output.eprint("the questions are dropped; nothing was run");
                return After::Done;
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
            return after;
        }
        let answers = asking.questions.answers();
        let Some(cell) = &asking.cell else {
            let code = app.run_recipe(&asking.recipe, answers, None, false);
            return if code == DONE { After::Done } else { After::Failed };
        };
        let after = self.place_order(app, &asking.recipe, cell, &answers, &asking.note);
        self.print_usual_values(app, cell);
        after
    }

    /// Prints the inputs that were not asked because they have a usual value.
    pub(super) fn print_usual_values(&mut self, app: &mut App<'_>, cell: &str) {
        let Some(Ok(value)) = self.page.value(cell) else { return };
        let Some(ticket) = value.clone().try_cast::<TicketObject>() else { return };
        let style = self.host.style();
        let usual = ticket.ticket().inputs.iter().filter(|input| input.source == InputSource::Usual);
        let usual: Vec<String> =
            usual.map(|input| format!("{} {}", input.name.replace('_', " "), input.value.show(&style))).collect();
        if !usual.is_empty() {
            app.output.print_wrapped(&format!("as usual: {}", usual.join(", ")));
        }
    }
}
