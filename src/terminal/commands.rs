//! The commands: each takes words, asks the layers below and writes the answer.

use super::Surroundings;
use super::accepted::Accepted;
use super::arguments::{Arguments, Command, Order};
use super::child;
use super::export;
use super::files;
use super::interrupt;
use super::lines;
use super::output::Output;
use super::prompt;
use super::recipes;
use super::workshop_folder::{self, Opened};
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::{Expression, Host, value};
use crate::notebook;
use crate::quantity::Style;
use crate::recipe::run::PROTOCOL;
use crate::recipe::{Answer, CheckReport, Description, RecipeText, Reply, Request, Task, library, run, work_sheet};
use crate::report::{self, CsvDialect, excerpt, wrap};
use crate::table::{Cell, Table};
use crate::ticket::{self, OrderTables, Ticket, cautions};
use crate::workshop::Dialect;
use rhai::{Dynamic, Scope};
use std::collections::BTreeMap;
use std::io::Read;
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
pub(super) struct Desk<'d> {
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
    program: PathBuf,
}

/// Runs the command that was parsed.
pub(super) fn run(arguments: Arguments, surroundings: Surroundings<'_>) -> u8 {
    let Surroundings { folder, data_folder, state_folder, program, input, out, err, .. } = surroundings;
    let look = match (arguments.plain, surroundings.out_is_terminal) {
        (true, _) => report::Look::Aloud,
        (false, true) => report::Look::Boxed,
        (false, false) => report::Look::Columns,
    };
    let width =
        surroundings.width.filter(|_| surroundings.out_is_terminal || surroundings.variables.contains_key("COLUMNS"));
    let mut output = Output::new(out, err, width, look, arguments.plain);
    output.measure = surroundings.measure.filter(|_| surroundings.out_is_terminal);
    if matches!(arguments.command, Some(Command::AnswerRequest)) {
        return answer_request(input, &mut output);
    }
    let opened = match workshop_folder::open(arguments.workshop.as_deref(), &folder, data_folder.as_deref()) {
        Ok(opened) => opened,
        Err(errors) => {
            output.tell(&excerpt::texts(&errors));
            return FAILED;
        }
    };
    // Listening costs a thread; a sum is worked out before a key could be pressed.
    let sum = matches!(arguments.command, Some(Command::Reckon { .. }));
    let stop = if sum { StopFlag::default() } else { interrupt::listen() };
    let mut desk = Desk {
        output,
        opened,
        stop,
        folder,
        state_folder,
        descriptions: BTreeMap::new(),
        variables: surroundings.variables,
        watched: surroundings.err_is_terminal && !arguments.plain,
        program,
    };
    let code = match arguments.command {
        None if surroundings.at_terminal => prompt::talk(&mut desk),
        None => lines::from_pipe(&mut desk, input, arguments.echo),
        Some(command) => desk.command(command, input),
    };
    desk.output.flush();
    code
}

fn answer_request(input: &mut dyn Read, output: &mut Output<'_>) -> u8 {
    let Ok(reply) = child::answer(input) else { return FAILED };
    output.send(&reply);
    output.flush();
    DONE
}

impl Desk<'_> {
    fn command(&mut self, command: Command, input: &mut dyn Read) -> u8 {
        match command {
            Command::Reckon { expressions } => self.reckon(&expressions),
            Command::Run(order) => match split_words(&order.answers) {
                Ok(answers) => self.run_recipe(&order.recipe, answers, order.csv.as_deref(), order.anyway),
                Err(said) => self.wrong(&said),
            },
            Command::Sheet(order) => self.sheet_command(&order),
            Command::Cut(order) => self.cut(&order),
            Command::Check { recipes } => self.check(&recipes),
            Command::Recipes { about } => self.list_recipes(about.as_deref().unwrap_or_default()),
            Command::Reference { folder } => self.reference(&folder),
            Command::Describe { recipe } => self.describe(&recipe, "shirr run"),
            Command::Page { file } if file == Path::new("-") => self.page_from(input, "the page that was piped in"),
            Command::Page { file } => match files::read(&self.folder.join(&file)) {
                Ok(text) => lines::work_out(self, &text),
                Err(problem) => self.failed(&problem.to_string()),
            },
            Command::Explain { word } => self.explain(word.as_deref().unwrap_or_default()),
            Command::AnswerRequest => DONE,
        }
    }

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

    pub(super) fn failed_with(&mut self, error: &Diagnostic) -> u8 {
        self.failed(&excerpt::text(error))
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

    fn reckon(&mut self, expressions: &[String]) -> u8 {
        let host = self.host();
        let style = self.style();
        let mut code = DONE;
        for typed in expressions {
            let answer = Expression::compile(&host, typed).and_then(|e| e.evaluate(&host, &mut Scope::new()));
            let shown = answer.and_then(|answer| {
                let shown = value::show(&answer, &style)
                    .ok_or_else(|| Diagnostic::new(format!("{} cannot be shown here", value::noun(&answer))))?;
                Ok((shown, answer))
            });
            match shown {
                Ok((shown, answer)) => {
                    self.output.say(&shown);
                    self.tell_odd(&answer);
                }
                Err(error) => code = self.failed_with(&error),
            }
            self.tell_notices(&host);
        }
        code
    }

    fn page_from(&mut self, input: &mut dyn Read, what: &str) -> u8 {
        let mut bytes = Vec::new();
        let limit = files::MOST_BYTES;
        if input.take(limit + 1).read_to_end(&mut bytes).is_err() {
            return self.failed(&format!("{what} cannot be read"));
        }
        if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > limit {
            return self.failed(&format!("{what} is too long; a page may hold {} MB", limit >> 20));
        }
        match String::from_utf8(bytes) {
            Ok(text) => lines::work_out(self, &text),
            Err(_) => self.failed(&format!("{what} is not plain text (UTF-8)")),
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
    fn accept(&mut self, recipe: &RecipeText, anyway: bool) -> Result<(), Diagnostic> {
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
                let mend = Diagnostic::new("mend it, or run it all the same with --anyway");
                Err(Diagnostic::several(findings(recipe, &report), vec![mend]))
            }
            reply => Err(no_answer(&reply)),
        }
    }

    fn unexpected(&mut self, reply: &Reply) -> u8 {
        self.failed_with(&no_answer(reply))
    }

    fn ticket(&mut self, recipe: &str, answers: Vec<(String, Answer)>, anyway: bool) -> Result<Ticket, Diagnostic> {
        let recipe = recipes::find(recipe, &self.folder).map_err(Diagnostic::new)?;
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
    ) -> Result<(Ticket, OrderTables), Diagnostic> {
        let ticket = self.ticket(recipe, answers, anyway)?;
        let style = self.style();
        let tables = ticket::tables_in(&ticket, &self.opened.workshop, &style, &self.stop);
        let tables = tables.map_err(|error| error.diagnostic(&style))?;
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
            Err(error) => return self.failed_with(&error),
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

    fn sheet_command(&mut self, order: &Order) -> u8 {
        match split_words(&order.answers) {
            Ok(answers) => self.sheet(&order.recipe, answers, order.anyway),
            Err(said) => self.wrong(&said),
        }
    }

    /// Shows the work sheet of an order.
    pub(super) fn sheet(&mut self, recipe: &str, answers: Vec<(String, String)>, anyway: bool) -> u8 {
        let (ticket, tables) = match self.order(recipe, typed(answers), anyway) {
            Ok(order) => order,
            Err(error) => return self.failed_with(&error),
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

    /// Checks recipes.
    pub(super) fn check(&mut self, names: &[String]) -> u8 {
        let mut code = DONE;
        for name in names {
            let recipe = match recipes::find(name, &self.folder) {
                Ok(recipe) => recipe,
                Err(said) => {
                    code = self.failed(&said);
                    continue;
                }
            };
            match self.ask(&recipe, Task::Check) {
                Reply::Checked(report) if report.passed() => {
                    Accepted::in_folder(self.state_folder.as_deref()).add(&recipe);
                    self.output.say(&format!(
                        "{}: nothing to mend; {} examples come out, {} corners of the ranges tried, {} of them turned away",
                        recipe.name, report.examples, report.corners, report.refused
                    ));
                }
                Reply::Checked(report) => {
                    self.output.tell(&findings(&recipe, &report));
                    code = FAILED;
                }
                reply => code = self.unexpected(&reply),
            }
        }
        code
    }

    /// Lists the shipped recipes and those in this folder.
    /// Lists the recipes; with a word, those about it: `skirt`, `curtains`.
    pub(super) fn list_recipes(&mut self, about: &str) -> u8 {
        let mut names: Vec<String> = library::shipped_names().map(str::to_owned).collect();
        names.extend(recipes::in_folder(&self.folder));
        names.sort();
        names.dedup();
        let listed = names.into_iter().filter_map(|name| {
            let recipe = recipes::find(&name, &self.folder).ok();
            let header = recipe.map(|recipe| recipe.header()).unwrap_or_default();
            (about.is_empty() || header.is_about(&name, about)).then_some((name, header.makes))
        });
        let listed: Vec<(String, String)> = listed.collect();
        if listed.is_empty() {
            return self.failed(&format!("no recipe is about “{about}”\n  type recipes for the whole list"));
        }
        let widest = listed.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
        for (name, makes) in listed {
            self.output.say_wrapped(&format!("{name:widest$}  {makes}"));
        }
        DONE
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

    /// Explains a function or a topic.
    pub(super) fn explain(&mut self, word: &str) -> u8 {
        let style = self.style();
        match notebook::help::about(word, &style) {
            Ok(text) => {
                self.output.say_wrapped(&text);
                DONE
            }
            Err(said) => self.failed(&said),
        }
    }
}

fn findings(recipe: &RecipeText, report: &CheckReport) -> String {
    let mut said = format!("{}: {} to mend", recipe.name, report.findings.len());
    for finding in &report.findings {
        said.push_str(&format!("\n- {}", excerpt::text(finding)));
    }
    said
}

/// Why a recipe gave no answer, or not the one that was asked for.
pub(super) fn no_answer(reply: &Reply) -> Diagnostic {
    match reply {
        Reply::Failed(errors) => match errors.as_slice() {
            [error] => error.clone(),
            errors => Diagnostic::several("", errors.to_vec()),
        },
        Reply::Refused(refusals) => refused(refusals.clone()),
        _ => Diagnostic::new("the recipe gave an answer that was not asked for"),
    }
}

/// An order that is turned away.
pub(super) fn refused(refusals: Vec<Diagnostic>) -> Diagnostic {
    Diagnostic::several("the order cannot be made as it is:", refusals)
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

/// `name=value` words of a command line.
fn split_words(words: &[String]) -> Result<Vec<(String, String)>, String> {
    words
        .iter()
        .map(|word| {
            let split = word.split_once('=').filter(|(name, _)| !name.trim().is_empty());
            split.map(|(name, value)| (name.trim().to_owned(), value.to_owned())).ok_or_else(|| {
                format!(
                    "“{word}” is no answer\n  type a name, = and the answer, in quotes if it has blanks: waist='21 in'"
                )
            })
        })
        .collect()
}
