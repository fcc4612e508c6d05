//! Answers tasks: describes, runs or checks a recipe, or runs its examples.

use super::library::{LoadedRecipe, RecipeText};
use super::open_recipes::OpenRecipes;
use super::opened::{NoTicket, Recipe};
use super::protocol::{Description, PROTOCOL, Reply, Request, Task};
use crate::cutting::Planner;
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::engine::ScriptError;
use crate::engine::limits::StopFlag;
use crate::quantity::Style;
use crate::recipe::answers::answer::InputAnswer;
use crate::recipe::answers::answering::RawAnswer;
use crate::recipe::answers::refusal::refusal;
use crate::recipe::host::order::{Order, OrderData};
use crate::recipe::host::session;
use crate::recipe::host::ticket_words::TicketHandle;
use crate::recipe::proof::check;
use crate::recipe::proof::examples;
use crate::recipe::proof::goods_used;
use crate::report::excerpt;
use crate::ticket::Ticket;
use crate::workshop::Workshop;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

/// Answers requests, one after another, as the process that runs recipes does.
#[derive(Debug, Default)]
pub struct Answering {
    open: OpenRecipes,
    recipe: Option<LoadedRecipe>,
    workshop: Option<Arc<Workshop>>,
}

impl Answering {
    /// Answers a request. What it does not say is as in the one before.
    pub fn answer(&mut self, request: Request) -> Reply {
        let failed = |message: &str| Reply::Failed(vec![Diagnostic::new(message)]);
        if request.protocol != PROTOCOL {
            return failed("two different versions of the program meet here");
        }
        if let Some(files) = request.workshop {
            let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
            self.workshop = None;
            match Workshop::read(&files) {
                Ok(workshop) => self.workshop = Some(Arc::new(workshop)),
                Err(errors) => {
                    return Reply::Failed(errors.iter().map(|error| error.diagnostic(&Style::default())).collect());
                }
            }
        }
        if let Some(recipe) = request.recipe {
            self.recipe = Some(LoadedRecipe::from(recipe));
        }
        match (&self.recipe, &self.workshop) {
            (Some(recipe), Some(workshop)) => self.open.answer(recipe, workshop, request.plain, request.task),
            _ => failed("a request names neither a recipe nor a workshop, and there was none before it"),
        }
    }
}

/// Answers a task for a workshop already read, on a new thread; nothing is kept for another task.
pub fn answer_in(recipe: &RecipeText, workshop: &Workshop, plain: bool, task: &Task, stop: StopFlag) -> Reply {
    let recipe = LoadedRecipe::from(recipe.clone());
    OpenRecipes::new(Planner::new(stop)).answer(&recipe, &Arc::new(workshop.clone()), plain, task.clone())
}

/// Opens a recipe, fills one order, and passes `body` a closure that runs `make` alone, once a call: for measuring the
/// time of the script itself. The closure answers with an error, in words, where the script fails.
///
/// # Errors
/// The recipe cannot be opened or the order cannot be filled, in words.
pub fn with_made(
    recipe: &RecipeText,
    workshop: &Workshop,
    answers: &[(String, String)],
    body: impl FnOnce(&mut dyn FnMut() -> Result<(), String>),
) -> Result<(), String> {
    let opened = Recipe::open(Arc::new(recipe.clone()), Arc::new(workshop.clone()), false, Planner::default())
        .map_err(|error| excerpt::text(&error))?;
    let answers = answers.iter().map(|(name, typed)| (name.clone(), RawAnswer::Typed(typed.clone()))).collect();
    let evaluate = |typed: &str| session::evaluate(&opened.host, typed);
    let order = OrderData::fill(&opened.inputs, answers, workshop, &evaluate, &opened.host.style())
        .map_err(|refusals| excerpt::texts(&refusals))?;
    let order: Order = Rc::new(order);
    body(&mut || {
        let handle = TicketHandle::new(&opened.text.name, &opened.header.makes, &order);
        let made = opened.host.call(&opened.script, "make", (Rc::clone(&order), handle));
        made.map(drop).map_err(|error| excerpt::text(&error))
    });
    Ok(())
}

fn without_script(refusal: Diagnostic) -> Diagnostic {
    Diagnostic { labels: Vec::new(), trace: Vec::new(), topic: None, ..refusal }
}

impl From<NoTicket> for Reply {
    fn from(none: NoTicket) -> Self {
        match none {
            // A customer sees the input, not the script.
            NoTicket::Refused(refusals) => Self::Refused(refusals.into_iter().map(without_script).collect()),
            NoTicket::Failed(error) => Self::Failed(vec![error]),
        }
    }
}

impl Recipe {
    /// Answers a task. Earlier tasks on the engine do not affect it.
    pub(super) fn answer(&self, task: Task) -> Reply {
        match task {
            Task::Describe => {
                let (header, inputs) = (self.header.clone(), self.inputs.clone());
                Reply::Described(Description { header, inputs, goods: goods_used::of(self) })
            }
            Task::Read => Reply::Checked(check::read(self)),
            Task::Check => Reply::Checked(check::check(self)),
            Task::Examples => examples::worked(self).map_or_else(Reply::from, Reply::Worked),
            Task::Run(answers) => self.reply(answers, Self::run),
            Task::Make(answers) => self.reply(answers, Self::make),
        }
    }

    fn reply(
        &self,
        answers: Vec<(String, InputAnswer)>,
        run: fn(&Self, BTreeMap<String, RawAnswer>) -> Result<Ticket, NoTicket>,
    ) -> Reply {
        let mut by_name = BTreeMap::new();
        for (name, answer) in answers {
            if by_name.contains_key(&name) {
                return Reply::Refused(vec![refusal(&name, ScriptError::new("it is given twice"))]);
            }
            by_name.insert(name, RawAnswer::from(answer));
        }
        run(self, by_name).map_or_else(Reply::from, |ticket| Reply::Ran(Box::new(ticket)))
    }
}
