//! Running a recipe for one order: inputs filled, work stated, plan made, after-cutting heard.
//!
//! The engine lives and dies on one worker thread; only plain data leaves it. The same requests and
//! replies cross to a child process when a recipe has not been accepted yet.

use super::answer::Answer;
use super::answering::Given;
use super::check::{self, CheckReport};
use super::examples::{self, WorkedExample};
use super::filling;
use super::goods_used::{self, GoodsUsed};
use super::header::Header;
use super::input::{AGE, Input, PIECES, RESERVED, SIZE, USE};
use super::library::RecipeText;
use super::order::Order;
use super::plan_words::PlanView;
use super::refusal::refusal;
use super::session;
use super::size_row;
use super::ticket_words::TicketHandle;
use super::wearer;
use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::engine::limits::StopFlag;
use crate::engine::{Host, Script, ScriptError};
use crate::quantity::Style;
use crate::quantity::nearest::nearest;
use crate::report::excerpt;
use crate::ticket::{Ticket, standard_lays};
use crate::workshop::Workshop;
use rhai::{Array, Dynamic};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

/// The form of requests and replies; both sides must have the same.
pub const PROTOCOL: u32 = 4;

/// Native stack of a script's thread: the engine uses up to 24 kB a call level, and 32 levels are allowed.
const STACK: usize = 8 << 20;

/// What is wanted of a recipe.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Task {
    /// Tell what it makes and asks.
    Describe,
    /// Run it with these answers, each to the input of a name.
    Run(Vec<(String, Answer)>),
    /// Check it.
    Check,
    /// Work out its examples.
    Examples,
}

impl Task {
    /// Run it with these answers, typed or known as values.
    pub fn run(given: impl IntoIterator<Item = (impl Into<String>, impl Into<Answer>)>) -> Self {
        Self::Run(given.into_iter().map(|(name, answer)| (name.into(), answer.into())).collect())
    }
}

/// A recipe, a workshop and what is wanted, as text that can cross to another process.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Request {
    /// The form of this request.
    pub protocol: u32,
    /// The recipe.
    pub recipe: RecipeText,
    /// The workshop's files, each a name and its text.
    pub workshop: Vec<(String, String)>,
    /// Words instead of signs in what is shown.
    pub plain: bool,
    /// What is wanted.
    pub task: Task,
}

/// What a recipe makes and asks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Description {
    /// Its top lines.
    pub header: Header,
    /// Its inputs.
    pub inputs: Vec<Input>,
    /// What its cloths and notions are used as, as far as its examples tell.
    pub goods: BTreeMap<String, GoodsUsed>,
}

impl Description {
    /// What an order may answer besides the inputs, each with its question and its terms: `size`, where body
    /// measures are asked, `age`, `use` and `pieces`.
    pub fn answered_besides(&self, workshop: &Workshop) -> Vec<(&'static str, String, String)> {
        let pieces = (PIECES, "how many garments".to_owned(), "a whole number; usually 1".to_owned());
        let asks = "a row of the workshop's sizes, for each body measure that is not answered itself";
        let size = self.inputs.iter().any(|input| input.body.is_some()).then(|| {
            let known = size_row::listed(&workshop.sizes);
            let known = if known.is_empty() { "none is listed in sizes.csv".to_owned() } else { known };
            (SIZE, asks.to_owned(), format!("{known}; may be left out"))
        });
        let age = "such as 5 years or 18 months; may be left out".to_owned();
        let age = (AGE, "the age of the wearer, for cautions and labels".to_owned(), age);
        let usage = (USE, "what it is for, for cautions".to_owned(), format!("{}; may be left out", wearer::uses()));
        size.into_iter().chain([age, usage, pieces]).collect()
    }
}

/// The answer to a request.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Reply {
    /// What it makes and asks.
    Described(Description),
    /// The ticket of an order.
    Ran(Box<Ticket>),
    /// The order is turned away; every diagnostic names an input.
    Refused(Vec<Diagnostic>),
    /// The recipe failed.
    Failed(Vec<Diagnostic>),
    /// What the check found.
    Checked(CheckReport),
    /// The tickets of its examples.
    Worked(Vec<WorkedExample>),
}

/// Answers a request that came as text.
pub fn answer(request: &Request, stop: StopFlag) -> Reply {
    if request.protocol != PROTOCOL {
        return Reply::Failed(vec![Diagnostic::new("two different versions of the program meet here")]);
    }
    let files: Vec<(&str, &str)> = request.workshop.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    match Workshop::read(&files) {
        Ok(workshop) => answer_in(&request.recipe, &workshop, request.plain, &request.task, stop),
        Err(errors) => Reply::Failed(errors.iter().map(|error| error.diagnostic(&Style::default())).collect()),
    }
}

/// Answers for a workshop that has been read, on a thread of its own.
pub fn answer_in(recipe: &RecipeText, workshop: &Workshop, plain: bool, task: &Task, stop: StopFlag) -> Reply {
    let failed = |message: &str| Reply::Failed(vec![Diagnostic::new(message)]);
    std::thread::scope(|scope| {
        let builder = std::thread::Builder::new().name("recipe".to_owned()).stack_size(STACK);
        let worker = builder.spawn_scoped(scope, move || match Recipe::open(recipe, workshop, plain, stop) {
            Ok(opened) => opened.answer(task),
            // A recipe that cannot be opened has a report all the same.
            Err(error) if *task == Task::Check && !error.is_stop() => Reply::Checked(CheckReport::unreadable(&error)),
            Err(error) => Reply::Failed(vec![error]),
        });
        match worker.map(std::thread::ScopedJoinHandle::join) {
            Ok(Ok(reply)) => reply,
            Ok(Err(_)) => failed("the recipe could not be worked out to its end"),
            Err(_) => failed("there is no room to run a recipe now"),
        }
    })
}

/// Opens a recipe, fills one order, and hands `body` a closure that runs `make` alone once each time it is
/// called: for measuring what the script itself takes.
///
/// # Errors
/// What kept the recipe from being opened or the order from being filled, in words.
pub fn with_made(
    recipe: &RecipeText,
    workshop: &Workshop,
    given: &[(String, String)],
    body: impl FnOnce(&mut dyn FnMut()),
) -> Result<(), String> {
    let opened = Recipe::open(recipe, workshop, false, StopFlag::default()).map_err(|error| excerpt::text(&error))?;
    let given = given.iter().map(|(name, typed)| (name.clone(), Given::Typed(typed.clone()))).collect();
    let evaluate = |typed: &str| session::evaluate(&opened.host, typed);
    let order = filling::fill(&opened.inputs, given, workshop, &evaluate, &opened.host.style())
        .map_err(|refusals| excerpt::texts(&refusals))?;
    let order: Order = Rc::new(order);
    body(&mut || {
        let handle = TicketHandle::new(opened.name, &opened.header.makes, &order);
        let made = opened.host.call(&opened.script, "make", (Rc::clone(&order), handle));
        debug_assert!(made.is_ok());
    });
    Ok(())
}

/// Why a run gave no ticket.
#[derive(Debug)]
pub(super) enum NoTicket {
    /// The order is turned away.
    Refused(Vec<Diagnostic>),
    /// The recipe failed.
    Failed(Diagnostic),
}

impl From<NoTicket> for Reply {
    fn from(none: NoTicket) -> Self {
        match none {
            NoTicket::Refused(refusals) => Self::Refused(refusals),
            NoTicket::Failed(error) => Self::Failed(vec![error]),
        }
    }
}

impl From<Diagnostic> for NoTicket {
    fn from(error: Diagnostic) -> Self {
        match error.kind {
            // Whoever orders sees the input, not the script.
            DiagnosticKind::Refusal { .. } => {
                Self::Refused(vec![Diagnostic { labels: Vec::new(), trace: Vec::new(), topic: None, ..error }])
            }
            _ => Self::Failed(error),
        }
    }
}

/// A recipe that was read, on its engine.
pub(super) struct Recipe<'w> {
    pub(super) name: &'w str,
    pub(super) text: &'w str,
    pub(super) header: Header,
    pub(super) inputs: Vec<Input>,
    pub(super) host: Host,
    pub(super) script: Script,
    pub(super) workshop: &'w Workshop,
    pub(super) stop: StopFlag,
}

impl<'w> Recipe<'w> {
    /// Reads a recipe and its inputs.
    pub(super) fn open(
        recipe: &'w RecipeText,
        workshop: &'w Workshop,
        plain: bool,
        stop: StopFlag,
    ) -> Result<Self, Diagnostic> {
        let host = session::host(workshop, &recipe.helpers, plain, Arc::clone(&stop));
        let file = format!("{}.rhai", recipe.name);
        if recipe.text.trim().is_empty() {
            return Err(Diagnostic::new(format!("{file} is empty")));
        }
        let script = host.compile(&file, &recipe.text)?;
        for (function, arguments, form) in
            [("inputs", 0, "fn inputs() { [ … ] }"), ("make", 2, "fn make(order, ticket) { … }")]
        {
            if !script.has_function(function, arguments) {
                let error = Diagnostic::new(format!("{file} has no {form}"));
                return Err(error.hinting("a recipe has inputs, make and examples; a helper file cannot be run"));
            }
        }
        let header = Header::read(&recipe.text);
        if let Some(contract) = header.contract.filter(|contract| *contract != super::header::CONTRACT) {
            let known = super::header::CONTRACT;
            return Err(Diagnostic::new(format!(
                "{file} is written for contract {contract}; this program knows contract {known}"
            )));
        }
        let inputs = declared_inputs(&host, &script, &file)?;
        Ok(Self { name: &recipe.name, text: &recipe.text, header, inputs, host, script, workshop, stop })
    }

    fn answer(&self, task: &Task) -> Reply {
        match task {
            Task::Describe => {
                let (header, inputs) = (self.header.clone(), self.inputs.clone());
                Reply::Described(Description { header, inputs, goods: goods_used::of(self) })
            }
            Task::Check => Reply::Checked(check::check(self)),
            Task::Examples => examples::worked(self).map_or_else(Reply::from, Reply::Worked),
            Task::Run(given) => {
                let mut answers = BTreeMap::new();
                for (name, answer) in given {
                    if answers.insert(name.clone(), Given::from(answer.clone())).is_some() {
                        return Reply::Refused(vec![refusal(name, ScriptError::new("it is given twice"))]);
                    }
                }
                match self.run(answers) {
                    Ok(ticket) => Reply::Ran(Box::new(ticket)),
                    Err(none) => none.into(),
                }
            }
        }
    }

    /// Runs it for one order.
    pub(super) fn run(&self, given: BTreeMap<String, Given>) -> Result<Ticket, NoTicket> {
        let style = self.host.style();
        let evaluate = |typed: &str| session::evaluate(&self.host, typed);
        self.host.take_notices();
        let order = filling::fill(&self.inputs, given, self.workshop, &evaluate, &style).map_err(NoTicket::Refused)?;
        let order: Order = Rc::new(order);
        let handle = TicketHandle::new(self.name, &self.header.makes, &order);
        handle.0.borrow_mut().ticket.doubts = order.doubts(&style);
        handle.0.borrow_mut().ticket.tags.clone_from(&self.header.tags);
        // What make gives back means nothing; the ticket is what it filled.
        let _unused = self.host.call(&self.script, "make", (Rc::clone(&order), handle.clone()))?;

        // One garment on endless stock, so that its figures and its price depend on this order alone.
        let made = handle.0.borrow().ticket.clone();
        let lays = standard_lays(&made, 1, &style, &self.stop).map_err(|error| {
            let diagnostic = error.diagnostic(&style);
            match error.input() {
                Some(input) => diagnostic.of_kind(DiagnosticKind::Refusal { input: input.to_owned() }),
                None => diagnostic,
            }
        })?;
        if self.script.has_function("after_cutting", 3) {
            handle.0.borrow_mut().cut = true;
            let pieces = made.pieces.iter().map(|piece| piece.name.clone()).collect();
            let view = PlanView { lays: Rc::new(lays), pieces: Rc::new(pieces) };
            let _unused = self.host.call(&self.script, "after_cutting", (order, view, handle.clone()))?;
        }
        for key in self.host.take_notices() {
            handle.add_caution(key);
        }
        let ticket = handle.0.borrow().ticket.clone();
        for step in &ticket.steps {
            if let Some(name) = ticket.speak(step, &style).unknown.first() {
                let known = ticket.figures.iter().map(|figure| figure.name.as_str());
                let known = known.chain(ticket.inputs.iter().map(|input| input.name.as_str()));
                let error =
                    Diagnostic::new(format!("the step “{step}” names {{{name}}}, which is no figure and no input"));
                return Err(NoTicket::Failed(match nearest(name, known) {
                    Some(near) => error.hinting(format!("did you mean {{{near}}}?")),
                    None => error,
                }));
            }
        }
        Ok(ticket)
    }
}

fn declared_inputs(host: &Host, script: &Script, file: &str) -> Result<Vec<Input>, Diagnostic> {
    let list = host.call(script, "inputs", ())?;
    let list =
        list.try_cast::<Array>().ok_or_else(|| Diagnostic::new(format!("inputs() in {file} must give a list")))?;
    let mut inputs: Vec<Input> = Vec::with_capacity(list.len());
    for (index, item) in list.into_iter().enumerate() {
        let wrong = |item: &Dynamic| {
            let noun = crate::engine::value::noun(item);
            Diagnostic::new(format!("item {} of inputs() in {file} is {noun}, not an input", index + 1))
        };
        let input = item.clone().try_cast::<Input>().ok_or_else(|| wrong(&item))?;
        let earlier = |name: &str| inputs.iter().find(|known| known.name == name);
        if earlier(&input.name).is_some() {
            return Err(Diagnostic::new(format!("{file} asks for “{}” twice", input.name)));
        }
        let same = input.same_as.iter();
        for other in same.chain(input.only_if.iter().map(|(other, _)| other)) {
            let Some(known) = earlier(other) else {
                let error = Diagnostic::new(format!(
                    "“{}” in {file} points at “{other}”, which is not asked before it",
                    input.name
                ));
                return Err(error.hinting("put the other input first"));
            };
            if input.same_as.as_ref() == Some(other) && known.kind != input.kind {
                return Err(Diagnostic::new(format!(
                    "“{}” in {file} cannot be the same as “{other}”: they are unlike",
                    input.name
                )));
            }
        }
        inputs.push(input);
    }
    if let Some((name, what)) = RESERVED.iter().find(|(name, _)| inputs.iter().any(|input| input.name == *name)) {
        return Err(Diagnostic::new(format!("{file} asks for “{name}”, {what}")));
    }
    Ok(inputs)
}
