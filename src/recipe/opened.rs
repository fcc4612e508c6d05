//! A recipe opened on its engine, and its run for one order: fill the inputs, call `make`, plan the cutting, call
//! `after_cutting`.
//!
//! The engine stays on one worker thread; only plain data leaves it.

use super::library::RecipeText;
use crate::cutting::Planner;
use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::engine::{Host, Runs, Script};
use crate::quantity::nearest::nearest;
use crate::recipe::answers::answering::RawAnswer;
use crate::recipe::contract::header::Header;
use crate::recipe::contract::input::{Input, RESERVED};
use crate::recipe::host::order::{Order, OrderData};
use crate::recipe::host::plan_words::PlanView;
use crate::recipe::host::session;
use crate::recipe::host::ticket_words::TicketHandle;
use crate::ticket::{
    LayError, MOST_SPOKEN, Ticket, TicketPiece, check_standard_lays, count_drops, panel_figures, standard_lays,
};
use crate::workshop::Workshop;
use rhai::{Array, Dynamic};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// Why a run produces no ticket.
#[derive(Debug)]
pub(super) enum NoTicket {
    /// The order is refused.
    Refused(Vec<Diagnostic>),
    /// The recipe failed.
    Failed(Diagnostic),
}

impl From<Diagnostic> for NoTicket {
    fn from(error: Diagnostic) -> Self {
        match error.kind {
            DiagnosticKind::Refusal { .. } | DiagnosticKind::NotGiven { .. } => Self::Refused(vec![error]),
            _ => Self::Failed(error),
        }
    }
}

/// A compiled recipe on its engine.
pub(super) struct Recipe {
    pub(super) text: Arc<RecipeText>,
    pub(super) header: Header,
    pub(super) inputs: Vec<Input>,
    pub(super) host: Host,
    pub(super) script: Script,
    pub(super) workshop: Arc<Workshop>,
    /// Its stop flag stops scripts and plans.
    pub(super) planner: Planner,
}

impl Recipe {
    /// Compiles a recipe and reads its inputs.
    pub(super) fn open(
        recipe: Arc<RecipeText>,
        workshop: Arc<Workshop>,
        plain: bool,
        planner: Planner,
    ) -> Result<Self, Diagnostic> {
        Self::open_noting(recipe, workshop, plain, planner, None)
    }

    /// The same recipe opened once more, to note what of it runs.
    pub(super) fn noting(&self, runs: &Runs) -> Result<Self, Diagnostic> {
        let (text, workshop) = (Arc::clone(&self.text), Arc::clone(&self.workshop));
        Self::open_noting(text, workshop, self.host.style().plain, self.planner.clone(), Some(runs))
    }

    fn open_noting(
        recipe: Arc<RecipeText>,
        workshop: Arc<Workshop>,
        plain: bool,
        planner: Planner,
        runs: Option<&Runs>,
    ) -> Result<Self, Diagnostic> {
        let host = session::host(&workshop, &recipe.helpers, plain, Arc::clone(planner.stop()), runs);
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
        if let Some(contract) =
            header.contract.filter(|contract| *contract != crate::recipe::contract::header::CONTRACT)
        {
            let known = crate::recipe::contract::header::CONTRACT;
            return Err(Diagnostic::new(format!(
                "{file} is written for contract {contract}; this program knows contract {known}"
            )));
        }
        let inputs = declared_inputs(&host, &script, &file)?;
        Ok(Self { text: recipe, header, inputs, host, script, workshop, planner })
    }

    /// Runs it for one order.
    pub(super) fn run(&self, answers: BTreeMap<String, RawAnswer>) -> Result<Ticket, NoTicket> {
        let (order, handle) = self.made(answers)?;
        let style = self.host.style();
        // One garment on endless stock, so that its figures and its price depend on this order alone.
        if self.script.has_function("after_cutting", 3) {
            let made = handle.0.borrow().ticket.clone();
            let lays = standard_lays(&made, 1, &style, &self.planner).map_err(|error| self.not_cut(&error))?;
            handle.0.borrow_mut().cut = true;
            let named = |entry: &TicketPiece| (entry.piece.name.clone(), panel_figures(&made, entry, &style));
            let pieces = made.pieces.iter().map(named).collect();
            let view = PlanView { lays: Rc::new(lays), pieces: Rc::new(pieces) };
            let _unused = self.host.call(&self.script, "after_cutting", (order, view, handle.clone()))?;
        } else {
            self.check_lays(&handle)?;
        }
        for key in self.host.take_notices() {
            handle.add_caution(key);
        }
        let ticket = handle.0.borrow().ticket.clone();
        for step in &ticket.steps {
            let Some(step) = step.words() else { continue };
            let filled = ticket.fill_step(step, &style);
            if filled.text.chars().nth(MOST_SPOKEN).is_some() {
                let begins: String = step.chars().take(40).collect();
                return Err(NoTicket::Failed(Diagnostic::new(format!(
                    "the step “{begins}…” becomes too long with its figures; {MOST_SPOKEN} letters are the most"
                ))));
            }
            if let Some(name) = filled.unknown.first() {
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

    /// The ticket as `make` leaves it, once its pieces are known to fit their cloth.
    pub(super) fn make(&self, answers: BTreeMap<String, RawAnswer>) -> Result<Ticket, NoTicket> {
        let (_, handle) = self.made(answers)?;
        self.check_lays(&handle)?;
        let ticket = handle.0.borrow().ticket.clone();
        Ok(ticket)
    }

    fn made(&self, answers: BTreeMap<String, RawAnswer>) -> Result<(Order, TicketHandle), NoTicket> {
        let style = self.host.style();
        let evaluate = |typed: &str| session::evaluate(&self.host, typed);
        self.host.take_notices();
        let order = OrderData::fill(&self.inputs, answers, &self.workshop, &evaluate, &style).map_err(|refusals| {
            // A sum that was stopped is nothing wrong with the answer.
            if self.planner.stop().load(Ordering::Relaxed) {
                NoTicket::Failed(Diagnostic::new("stopped").of_kind(DiagnosticKind::Stopped))
            } else {
                NoTicket::Refused(refusals)
            }
        })?;
        let order: Order = Rc::new(order);
        let handle = TicketHandle::new(&self.text.name, &self.header.makes, &order);
        handle.0.borrow_mut().ticket.warnings = order.warnings(&style);
        handle.0.borrow_mut().ticket.tags.clone_from(&self.header.tags);
        // What make gives back means nothing; the ticket is what it filled.
        let _unused = self.host.call(&self.script, "make", (Rc::clone(&order), handle.clone()))?;
        count_drops(&mut handle.0.borrow_mut().ticket).map_err(|error| self.not_cut(&error))?;
        Ok((order, handle))
    }

    fn check_lays(&self, handle: &TicketHandle) -> Result<(), NoTicket> {
        let style = self.host.style();
        let checked = check_standard_lays(&handle.0.borrow().ticket, 1, &style, &self.planner);
        checked.map_err(|error| self.not_cut(&error))
    }

    /// Turns the order away where an input is why its pieces cannot be cut.
    fn not_cut(&self, error: &LayError) -> NoTicket {
        let diagnostic = error.diagnostic(&self.host.style());
        NoTicket::from(match error.input() {
            Some(input) => diagnostic.of_kind(DiagnosticKind::Refusal { input: input.to_owned(), typing: None }),
            None => diagnostic,
        })
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
    if let Some((name, meaning)) = RESERVED.iter().find(|(name, _)| inputs.iter().any(|input| input.name == *name)) {
        return Err(Diagnostic::new(format!("{file} asks for “{name}”, {meaning}")));
    }
    Ok(inputs)
}
