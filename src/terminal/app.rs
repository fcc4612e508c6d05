//! What every command works with: the output, the workshop, the stop flag; recipes asked, orders made and shown.

use super::accepted::Accepted;
use super::child;
use super::export;
use super::output::Output;
use super::recipes;
use super::workshop_folder::Opened;
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::{Fault, Host, value};
use crate::notebook;
use crate::quantity::Style;
use crate::recipe::run::PROTOCOL;
use crate::recipe::{Answer, CheckReport, Description, RecipeText, Reply, Request, Task, run, work_sheet};
use crate::report::{self, CsvDialect, wrap};
use crate::table::{Cell, Table};
use crate::ticket::{self, OrderTables, Ticket, cautions};
use crate::workshop::Dialect;
use rhai::Dynamic;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// Done.
pub(super) const DONE: u8 = 0;
/// A sum, check or cell failed.
pub(super) const FAILED: u8 = 1;
/// A command line that cannot be meant.
pub(super) const WRONG_COMMAND: u8 = 2;
/// Interrupted.
pub(super) const INTERRUPTED: u8 = 130;

/// Everything a command works with.
pub(super) struct App<'d> {
    pub(super) output: Output<'d>,
    pub(super) opened: Opened,
    pub(super) stop: StopFlag,
    pub(super) folder: PathBuf,
    pub(super) state_folder: Option<PathBuf>,
    /// What recipes ask, by the fingerprint of each.
    pub(super) descriptions: BTreeMap<String, Rc<Description>>,
    /// Environment variables that matter.
    pub(super) variables: BTreeMap<String, String>,
    /// A person may watch how far a search has come.
    pub(super) watched: bool,
    pub(super) program: PathBuf,
}

impl App<'_> {
    pub(super) fn style(&self) -> Style {
        self.output.style(self.opened.workshop.settings.style())
    }

    /// An engine for cells.
    pub(super) fn host(&self) -> Host {
        let reading = self.opened.workshop.settings.reading();
        let mut host = Host::new(reading, self.style(), Limits::CELL, Arc::clone(&self.stop));
        notebook::register(&mut host);
        host
    }

    pub(super) fn failed(&mut self, said: &str) -> u8 {
        self.output.tell(said);
        if self.stop.load(Ordering::SeqCst) { INTERRUPTED } else { FAILED }
    }

    pub(super) fn wrong(&mut self, said: &str) -> u8 {
        self.output.tell(said);
        WRONG_COMMAND
    }

    /// Cautions that functions asked for.
    pub(super) fn tell_notices(&mut self, host: &Host) {
        for key in host.take_notices() {
            if let Some(caution) = cautions::caution(key) {
                let lines = wrap::hang("caution: ", caution.text, self.output.width);
                self.output.tell(&lines.join("\n"));
            }
        }
    }

    /// Body measures that want a second look, before anything is cut by them.
    pub(super) fn tell_doubts(&mut self, ticket: &Ticket) {
        for doubt in &ticket.doubts {
            let lines = wrap::hang("measure again: ", doubt, self.output.width);
            self.output.tell(&lines.join("\n"));
        }
    }

    /// Says of a product that nobody means, such as money times length, that it is one.
    pub(super) fn tell_odd(&mut self, value: &Dynamic) {
        let Some(quantity) = value::quantity_from_script(value) else { return };
        let dimension = quantity.dimension();
        if let Some(product) = dimension.odd_product() {
            let shown = self.style().show(quantity);
            let sign = self.opened.workshop.settings.style().currency;
            let price = if dimension.money > 0 && dimension.length > 0 {
                format!("; a price by the length is typed {sign}6/yd")
            } else {
                String::new()
            };
            self.output.tell(&format!("  {shown} is {product}, which is no measure of the trade{price}"));
        }
    }

    /// Asks a recipe: in this process if it was accepted as it stands, else in a child.
    pub(super) fn ask(&self, recipe: &RecipeText, task: Task) -> Reply {
        let plain = self.output.plain;
        if Accepted::in_folder(self.state_folder.as_deref()).holds(recipe) {
            return run::answer_in(recipe, &self.opened.workshop, plain, &task, Arc::clone(&self.stop));
        }
        let workshop = self.opened.texts.clone();
        let request = Request { protocol: PROTOCOL, recipe: recipe.clone(), workshop, plain, task };
        child::ask(&self.program, &request, &self.stop)
    }

    /// Checks a recipe that was never accepted, and accepts it if there is nothing to mend.
    fn accept(&mut self, recipe: &RecipeText, anyway: bool) -> Result<(), Fault> {
        let accepted = Accepted::in_folder(self.state_folder.as_deref());
        if anyway || accepted.holds(recipe) {
            return Ok(());
        }
        self.output.tell(&format!("checking {} before it is run for the first time", recipe.name));
        match self.ask(recipe, Task::Check) {
            Reply::Checked(report) if report.passed() => {
                accepted.add(recipe);
                Ok(())
            }
            Reply::Checked(report) => {
                let findings = findings(recipe, &report);
                Err(Fault::new(format!("{findings}\nmend it, or run it all the same with --anyway")))
            }
            reply => Err(no_answer(&reply)),
        }
    }

    pub(super) fn unexpected(&mut self, reply: &Reply) -> u8 {
        self.failed(&no_answer(reply).to_string())
    }

    fn ticket(&mut self, recipe: &str, answers: Vec<(String, Answer)>, anyway: bool) -> Result<Ticket, Fault> {
        let recipe = recipes::find(recipe, &self.folder).map_err(Fault::new)?;
        self.accept(&recipe, anyway)?;
        match self.ask(&recipe, Task::Run(answers)) {
            Reply::Ran(ticket) if ticket.version == ticket::VERSION => Ok(*ticket),
            reply => Err(no_answer(&reply)),
        }
    }

    /// The ticket of an order and everything that follows from it.
    pub(super) fn order(
        &mut self,
        recipe: &str,
        answers: Vec<(String, Answer)>,
        anyway: bool,
    ) -> Result<(Ticket, OrderTables), Fault> {
        let ticket = self.ticket(recipe, answers, anyway)?;
        let style = self.style();
        let tables = ticket::tables_in(&ticket, &self.opened.workshop, &style, &self.stop);
        let tables = tables.map_err(|fault| Fault { hint: fault.hint(), ..Fault::new(fault.message(&style)) })?;
        Ok((ticket, tables))
    }

    /// Runs a recipe for one order and shows its tables.
    pub(super) fn run_recipe(
        &mut self,
        recipe: &str,
        answers: Vec<(String, String)>,
        csv: Option<&Path>,
        anyway: bool,
    ) -> u8 {
        let (ticket, tables) = match self.order(recipe, typed(answers), anyway) {
            Ok(order) => order,
            Err(fault) => return self.failed(&fault.to_string()),
        };
        self.show_order(&ticket, &tables);
        match csv {
            Some(folder) => self.export(&ticket, &tables, folder),
            None => DONE,
        }
    }

    /// Sentences first, then the tables, then what is read and not looked up: steps, labels and cautions.
    pub(super) fn show_order(&mut self, ticket: &Ticket, tables: &OrderTables) {
        let style = self.style();
        let (width, look) = (self.output.width, self.output.look);
        self.tell_doubts(ticket);
        let mut said = vec![ticket.makes.clone(), tables.summary(&style)];
        said.extend(tables.plan_sentences.iter().chain(&tables.plan_merit).chain(&tables.plan_notes).cloned());
        for sentence in said {
            self.output.say(&wrap::hang("", &sentence, width).join("\n"));
        }
        let read = [tables.steps.name(), tables.cautions.name(), tables.labels.name()];
        for table in tables.all().into_iter().filter(|table| !table.is_empty() && !read.contains(&table.name())) {
            self.output.say("");
            self.output.say(&table.title());
            self.output.say(&report::text_table(table, &style, look, width));
        }
        for (number, step) in texts(&tables.steps, "what to do").enumerate() {
            if number == 0 {
                self.output.say("\nsteps");
            }
            self.output.say(&wrap::hang(&format!("{:>2}. ", number + 1), step, width).join("\n"));
        }
        for (number, line) in tables.label_sentences.iter().enumerate() {
            if number == 0 {
                self.output.say("\nlabels");
            }
            self.output.say(&wrap::hang(" -  ", line, width).join("\n"));
        }
        for (number, caution) in texts(&tables.cautions, "caution").enumerate() {
            if number == 0 {
                self.output.say("\ncautions");
            }
            self.output.say(&wrap::hang(" !  ", caution, width).join("\n"));
        }
    }

    pub(super) fn csv_dialect(&self) -> CsvDialect {
        match self.opened.workshop.settings.dialect {
            Dialect::CommaAndPoint => CsvDialect::Comma,
            Dialect::SemicolonAndComma => CsvDialect::Semicolon,
        }
    }

    pub(super) fn export(&mut self, ticket: &Ticket, tables: &OrderTables, folder: &Path) -> u8 {
        let folder = self.folder.join(folder);
        let settings = &self.opened.workshop.settings;
        match export::write(ticket, tables, (self.csv_dialect(), settings), &folder) {
            Ok(count) => {
                let drawn = if ticket.pieces.is_empty() { "" } else { ", pictures of the pieces and of the lays" };
                self.output.tell(&format!("{count} tables{drawn} are in {}", folder.display()));
                DONE
            }
            Err(problem) => {
                let said =
                    format!("{problem}\n  the tables were not written; nothing that was there before has changed");
                self.failed(&said)
            }
        }
    }

    /// Shows the work sheet of an order.
    pub(super) fn sheet(&mut self, recipe: &str, answers: Vec<(String, String)>, anyway: bool) -> u8 {
        let (ticket, tables) = match self.order(recipe, typed(answers), anyway) {
            Ok(order) => order,
            Err(fault) => return self.failed(&fault.to_string()),
        };
        self.show_sheet(&ticket, &tables);
        DONE
    }

    pub(super) fn show_sheet(&mut self, ticket: &Ticket, tables: &OrderTables) {
        let style = self.style();
        let sheet = work_sheet(ticket, tables, &style);
        let width = self.output.width.min(report::SHEET_WIDTH);
        self.output.say(&sheet.lines(&style, width).join("\n"));
    }

    /// Tells what a recipe makes and asks, and how it is run from where it was asked.
    pub(super) fn describe(&mut self, name: &str, run: &str) -> u8 {
        let recipe = match recipes::find(name, &self.folder) {
            Ok(recipe) => recipe,
            Err(said) => return self.failed(&said),
        };
        match self.ask(&recipe, Task::Describe) {
            Reply::Described(description) => {
                self.show_description(&recipe, &description, run);
                DONE
            }
            reply => self.unexpected(&reply),
        }
    }

    fn show_description(&mut self, recipe: &RecipeText, description: &Description, run: &str) {
        let style = self.style();
        let header = &description.header;
        self.output.say_wrapped(&header.makes);
        let facts = [
            ("version", header.version.clone()),
            ("licence", header.licence.clone()),
            ("for", (!header.tags.is_empty()).then(|| header.tags.join(", "))),
            ("by", header.by.clone()),
        ];
        let facts: Vec<String> =
            facts.into_iter().filter_map(|(name, fact)| fact.map(|fact| format!("{name} {fact}"))).collect();
        self.output.say_wrapped(&facts.join("   "));
        self.output.say("");
        let widest = description.inputs.iter().map(|input| input.name.chars().count()).max().unwrap_or(0).max(6);
        for input in &description.inputs {
            self.output.say_wrapped(&format!("{:widest$}  {}", input.name, input.question));
            self.output.say_wrapped(&format!("{:widest$}    {}", "", input.terms(&style)));
        }
        for (name, asks, terms) in description.answered_besides(&self.opened.workshop) {
            self.output.say_wrapped(&format!("{name:widest$}  {asks}"));
            self.output.say_wrapped(&format!("{:widest$}    {terms}", ""));
        }
        let needed: Vec<String> = description
            .inputs
            .iter()
            .filter(|input| input.is_required() && input.only_if.is_none())
            .map(|input| format!("{}=…", input.name))
            .collect();
        self.output.say("");
        self.output.say_wrapped(&format!("{run} {} {}", recipe.name, needed.join(" ")));
    }
}

pub(super) fn findings(recipe: &RecipeText, report: &CheckReport) -> String {
    let mut said = format!("{}: {} to mend", recipe.name, report.findings.len());
    for finding in &report.findings {
        said.push_str(&format!("\n- {finding}"));
    }
    said
}

/// Why a recipe gave no answer, or not the one that was asked for.
pub(super) fn no_answer(reply: &Reply) -> Fault {
    match reply {
        Reply::Failed(fault) => (**fault).clone(),
        Reply::Refused(refusals) => {
            let said: Vec<String> = refusals.iter().map(ToString::to_string).collect();
            Fault::new(format!("the order cannot be made as it is:\n{}", said.join("\n")))
        }
        _ => Fault::new("the recipe gave an answer that was not asked for"),
    }
}

/// Answers as they were typed.
fn typed(answers: Vec<(String, String)>) -> Vec<(String, Answer)> {
    answers.into_iter().map(|(input, typed)| (input, Answer::Typed(typed))).collect()
}

/// The texts of a column.
fn texts<'t>(table: &'t Table, column: &str) -> impl Iterator<Item = &'t str> {
    table.values(column).into_iter().flatten().filter_map(|cell| match cell {
        Cell::Text(text) => Some(text.as_str()),
        _ => None,
    })
}
