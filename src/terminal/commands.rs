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
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::{Expression, Host, help, value};
use crate::quantity::Style;
use crate::recipe::run::PROTOCOL;
use crate::recipe::{CheckReport, Description, RecipeText, Reply, Request, Task, library, run, work_sheet};
use crate::report::{self, CsvDialect, wrap};
use crate::table::{Cell, Table};
use crate::ticket::{self, OrderTables, Ticket, cautions};
use crate::workshop::Dialect;
use rhai::Scope;
use std::io::Read;
use std::path::{Path, PathBuf};
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
    if matches!(arguments.command, Some(Command::AnswerRequest)) {
        return answer_request(input, &mut output);
    }
    let opened = match workshop_folder::open(arguments.workshop.as_deref(), &folder, data_folder.as_deref()) {
        Ok(opened) => opened,
        Err(said) => {
            output.tell(&said);
            return FAILED;
        }
    };
    // Listening costs a thread; a sum is worked out before a key could be pressed.
    let sum = matches!(arguments.command, Some(Command::Reckon { .. }));
    let stop = if sum { StopFlag::default() } else { interrupt::listen() };
    let mut desk = Desk { output, opened, stop, folder, state_folder, program };
    let code = match arguments.command {
        None if surroundings.at_terminal => prompt::talk(&mut desk),
        None => desk.page_from(input, "the lines that were piped in", false),
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
            Command::Check { recipes } => self.check(&recipes),
            Command::Recipes => self.list_recipes(),
            Command::Describe { recipe } => self.describe(&recipe),
            Command::Page { file, echo } if file == Path::new("-") => {
                self.page_from(input, "the lines that were piped in", echo)
            }
            Command::Page { file, echo } => match files::read(&self.folder.join(&file)) {
                Ok(text) => lines::work_through(self, &text, echo),
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
        Host::new(reading, self.style(), Limits::CELL, Arc::clone(&self.stop))
    }

    pub(super) fn failed(&mut self, said: &str) -> u8 {
        self.output.tell(said);
        if self.stop.load(Ordering::SeqCst) { INTERRUPTED } else { FAILED }
    }

    fn wrong(&mut self, said: &str) -> u8 {
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

    fn reckon(&mut self, expressions: &[String]) -> u8 {
        let host = self.host();
        let style = self.style();
        let mut code = DONE;
        for typed in expressions {
            let answer = Expression::compile(&host, typed).and_then(|e| e.evaluate(&host, &mut Scope::new()));
            let shown = answer.and_then(|answer| {
                value::show(&answer, &style)
                    .ok_or_else(|| crate::engine::Fault::new(format!("{} cannot be shown here", value::noun(&answer))))
            });
            match shown {
                Ok(shown) => self.output.say(&shown),
                Err(fault) => code = self.failed(&fault.to_string()),
            }
            self.tell_notices(&host);
        }
        code
    }

    fn page_from(&mut self, input: &mut dyn Read, what: &str, echo: bool) -> u8 {
        let mut bytes = Vec::new();
        let limit = files::MOST_BYTES;
        if input.take(limit + 1).read_to_end(&mut bytes).is_err() {
            return self.failed(&format!("{what} cannot be read"));
        }
        if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > limit {
            return self.failed(&format!("{what} are too long; a page may hold {} MB", limit >> 20));
        }
        match String::from_utf8(bytes) {
            Ok(text) => lines::work_through(self, &text, echo),
            Err(_) => self.failed(&format!("{what} are not plain text (UTF-8)")),
        }
    }

    /// Asks a recipe: in this process if it was accepted as it stands, else in a child.
    fn ask(&self, recipe: &RecipeText, task: Task) -> Reply {
        let plain = self.output.plain;
        if Accepted::in_folder(self.state_folder.as_deref()).holds(recipe) {
            return run::answer_in(recipe, &self.opened.workshop, plain, &task, Arc::clone(&self.stop));
        }
        let workshop = self.opened.texts.clone();
        let request = Request { protocol: PROTOCOL, recipe: recipe.clone(), workshop, plain, task };
        child::ask(&self.program, &request, &self.stop)
    }

    /// Checks a recipe that was never accepted, and accepts it if there is nothing to mend.
    fn accept(&mut self, recipe: &RecipeText, anyway: bool) -> Result<(), u8> {
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
                self.tell_findings(recipe, &report);
                Err(self.failed("mend it, or run it all the same with --anyway"))
            }
            reply => Err(self.unexpected(&reply)),
        }
    }

    fn unexpected(&mut self, reply: &Reply) -> u8 {
        match reply {
            Reply::Failed(fault) => self.failed(&fault.to_string()),
            Reply::Refused(refusals) => {
                let said: Vec<String> = refusals.iter().map(ToString::to_string).collect();
                self.failed(&format!("the order cannot be made as it is:\n{}", said.join("\n")))
            }
            _ => self.failed("the recipe gave an answer that was not asked for"),
        }
    }

    fn ticket(&mut self, recipe: &str, answers: Vec<(String, String)>, anyway: bool) -> Result<Ticket, u8> {
        let recipe = recipes::find(recipe, &self.folder).map_err(|said| self.failed(&said))?;
        self.accept(&recipe, anyway)?;
        match self.ask(&recipe, Task::run(answers)) {
            Reply::Ran(ticket) if ticket.version == ticket::VERSION => Ok(*ticket),
            reply => Err(self.unexpected(&reply)),
        }
    }

    /// The ticket of an order and everything that follows from it.
    fn order(
        &mut self,
        recipe: &str,
        answers: Vec<(String, String)>,
        anyway: bool,
    ) -> Result<(Ticket, OrderTables), u8> {
        let ticket = self.ticket(recipe, answers, anyway)?;
        let style = self.style();
        match ticket::tables_in(&ticket, &self.opened.workshop, &style, &self.stop) {
            Ok(tables) => Ok((ticket, tables)),
            Err(fault) => {
                let hint = fault.hint().map(|hint| format!("\n  {hint}")).unwrap_or_default();
                Err(self.failed(&format!("{}{hint}", fault.message(&style))))
            }
        }
    }

    /// Runs a recipe for one order and shows its tables.
    pub(super) fn run_recipe(
        &mut self,
        recipe: &str,
        answers: Vec<(String, String)>,
        csv: Option<&Path>,
        anyway: bool,
    ) -> u8 {
        let (ticket, tables) = match self.order(recipe, answers, anyway) {
            Ok(order) => order,
            Err(code) => return code,
        };
        self.show_order(&ticket, &tables);
        match csv {
            Some(folder) => self.export(&tables, folder),
            None => DONE,
        }
    }

    /// Sentences first, then the tables, then what is read and not looked up: steps and cautions.
    fn show_order(&mut self, ticket: &Ticket, tables: &OrderTables) {
        let style = self.style();
        let (width, look) = (self.output.width, self.output.look);
        let mut said = vec![ticket.makes.clone(), tables.summary(&style)];
        said.extend(tables.plan_sentences.iter().chain(&tables.plan_notes).cloned());
        for sentence in said {
            self.output.say(&wrap::hang("", &sentence, width).join("\n"));
        }
        let read = [tables.steps.name(), tables.cautions.name()];
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
        for (number, caution) in texts(&tables.cautions, "caution").enumerate() {
            if number == 0 {
                self.output.say("\ncautions");
            }
            self.output.say(&wrap::hang(" !  ", caution, width).join("\n"));
        }
    }

    fn export(&mut self, tables: &OrderTables, folder: &Path) -> u8 {
        let settings = &self.opened.workshop.settings;
        let dialect = match settings.dialect {
            Dialect::CommaAndPoint => CsvDialect::Comma,
            Dialect::SemicolonAndComma => CsvDialect::Semicolon,
        };
        let folder = self.folder.join(folder);
        match export::write(tables.all(), dialect, &settings.file_style(), &folder) {
            Ok(count) => {
                self.output.tell(&format!("{count} tables are in {}", folder.display()));
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
        let (ticket, tables) = match self.order(recipe, answers, anyway) {
            Ok(order) => order,
            Err(code) => return code,
        };
        let style = self.style();
        let sheet = work_sheet(&ticket, &tables, &style);
        let width = self.output.width.min(report::SHEET_WIDTH);
        self.output.say(&sheet.lines(&style, width).join("\n"));
        DONE
    }

    fn tell_findings(&mut self, recipe: &RecipeText, report: &CheckReport) {
        self.output.tell(&format!("{}: {} to mend", recipe.name, report.findings.len()));
        for finding in &report.findings {
            self.output.tell(&format!("- {finding}"));
        }
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
                    self.tell_findings(&recipe, &report);
                    code = FAILED;
                }
                reply => code = self.unexpected(&reply),
            }
        }
        code
    }

    /// Lists the shipped recipes and those in this folder.
    pub(super) fn list_recipes(&mut self) -> u8 {
        let mut names: Vec<String> = library::shipped_names().map(str::to_owned).collect();
        names.extend(recipes::in_folder(&self.folder));
        names.sort();
        names.dedup();
        let widest = names.iter().map(|name| name.chars().count()).max().unwrap_or(0);
        for name in names {
            let makes = recipes::find(&name, &self.folder).map(|recipe| recipe.makes()).unwrap_or_default();
            self.output.say_wrapped(&format!("{name:widest$}  {makes}"));
        }
        DONE
    }

    /// Tells what a recipe makes and asks.
    pub(super) fn describe(&mut self, name: &str) -> u8 {
        let recipe = match recipes::find(name, &self.folder) {
            Ok(recipe) => recipe,
            Err(said) => return self.failed(&said),
        };
        match self.ask(&recipe, Task::Describe) {
            Reply::Described(description) => {
                self.show_description(&recipe, &description);
                DONE
            }
            reply => self.unexpected(&reply),
        }
    }

    fn show_description(&mut self, recipe: &RecipeText, description: &Description) {
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
        self.output.say_wrapped(&format!("shirr run {} {}", recipe.name, needed.join(" ")));
    }

    /// Explains a function or a topic.
    pub(super) fn explain(&mut self, word: &str) -> u8 {
        let style = self.style();
        match help::about(word, &style) {
            Ok(text) => {
                self.output.say_wrapped(&text);
                DONE
            }
            Err(said) => self.failed(&said),
        }
    }
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
