//! Hands the parsed command line to the command it names, or to a session.

use super::Environment;
use super::app::{App, DONE, FAILED, open_cloth};
use super::arguments::{self, Arguments, Command, Order, Run};
use super::output::Output;
use super::recipes::FoundRecipes;
use super::session::{lines, prompt};
use super::worker::{self, Worker};
use super::{files, interrupt, workshop_folder};
use crate::cutting::Planner;
use crate::engine::limits::StopFlag;
use crate::recipe::{OpenRecipes, Task};
use crate::report::{self, excerpt};
use std::collections::{BTreeMap, BTreeSet};
use std::io::Read;
use std::path::Path;
use std::rc::Rc;
use std::sync::Arc;

/// Runs the parsed command; returns the exit code.
pub(super) fn run(arguments: Arguments, environment: Environment<'_>) -> u8 {
    let Environment { folder, data_folder, state_folder, program, input, out, err, .. } = environment;
    let look = match (arguments.plain, environment.out_is_terminal) {
        (true, _) => report::Look::Aloud,
        (false, true) => report::Look::Boxed,
        (false, false) => report::Look::Columns,
    };
    let width =
        environment.width.filter(|_| environment.out_is_terminal || environment.variables.contains_key("COLUMNS"));
    let mut output = Output::new(out, err, width, look, arguments.plain);
    output.measure = environment.measure.filter(|_| environment.out_is_terminal);
    output.measure_rows = environment.measure_rows.filter(|_| environment.at_terminal);
    match &arguments.command {
        Some(Command::AnswerRequests) => {
            worker::serve(input, output.stream());
            return DONE;
        }
        Some(Command::Help { words }) if words.is_empty() => {
            output.print(arguments::help().trim_end());
            output.flush();
            return DONE;
        }
        _ => {}
    }
    let opened = match workshop_folder::open(arguments.workshop.as_deref(), &folder, data_folder.as_deref()) {
        Ok(opened) => opened,
        Err(errors) => {
            output.eprint(&excerpt::texts(&errors));
            return FAILED;
        }
    };
    // Listening for Ctrl-C costs a thread; a sum is done before a key could be pressed.
    let sum = matches!(arguments.command, Some(Command::Reckon { .. }));
    let stop = if sum { StopFlag::default() } else { interrupt::listen() };
    let planner = Planner::new(Arc::clone(&stop));
    let mut app = App {
        output,
        opened,
        stop,
        recipes: OpenRecipes::new(planner.clone()),
        planner,
        found: FoundRecipes::default(),
        looked_at: BTreeSet::new(),
        inputs: BTreeMap::new(),
        folder,
        data_folder,
        state_folder,
        descriptions: BTreeMap::new(),
        variables: environment.variables,
        shows_progress: environment.err_is_terminal && !arguments.plain,
        asks: environment.at_terminal,
        worker: Worker::new(program),
    };
    let is_session = matches!(arguments.command, None | Some(Command::Page { .. }));
    if is_session && !app.opened.faults.is_empty() {
        let faults = excerpt::texts(&app.opened.faults);
        app.output.eprint(&format!("{faults}\n  until that is mended there are sums, and no orders, goods and prices"));
    }
    let code = match arguments.command {
        None if environment.at_terminal => prompt::run(&mut app),
        None => lines::from_pipe(&mut app, input, arguments.echo),
        Some(command) => app.command(command, input),
    };
    app.output.flush();
    match app.output.problem() {
        Some(problem) => app.failed(&problem),
        None => code,
    }
}

impl App<'_> {
    fn command(&mut self, command: Command, input: &mut dyn Read) -> u8 {
        match command {
            Command::Reckon { expressions } => self.reckon(&expressions),
            Command::Run(order) => self.run_command(order),
            Command::Sheet(order) => self.sheet_command(&order),
            Command::Cut(order) => self.cut(&order),
            Command::Check { recipes, watch: false } => self.check(&recipes),
            Command::Check { recipes, watch: true } => self.watch(&recipes),
            Command::Draft { name, like } => self.draft(&name, like.as_deref()),
            Command::Parcel { recipe, file } => self.parcel(&recipe, &file),
            Command::Recipes { about } => self.list_recipes(about.as_deref().unwrap_or_default()),
            Command::Reference { folder } => self.reference(&folder),
            Command::Describe { recipe } => self.describe(&recipe, "shirr run"),
            Command::Page { file } if file == Path::new("-") => self.page_from(input, "the page that was piped in"),
            Command::Page { file } => match files::read(&self.folder.join(&file)) {
                Ok(text) => lines::work_out(self, &text),
                Err(problem) => self.failed(&problem.to_string()),
            },
            Command::Help { words } | Command::Explain { words } => self.explain(&words.join(" ")),
            Command::AnswerRequests => DONE,
        }
    }

    /// Runs a recipe for one order; at a terminal, what is missing is asked.
    fn run_command(&mut self, Run { order, all, csv }: Run) -> u8 {
        let answers = match split_words(&order.answers) {
            Ok(answers) => answers,
            Err(message) => return self.wrong_command(&message),
        };
        if let Some(open) = open_cloth(self, &answers) {
            return match self.show_price_by_cloth(&order.recipe, &answers, open) {
                Ok(()) if csv.is_some() => self.failed("no tables were written: choose the cloth first"),
                Ok(()) => DONE,
                Err(error) => self.failed_with(&error),
            };
        }
        let made = if self.asks && !order.anyway {
            prompt::ask_order(self, &order.recipe, answers)
        } else {
            self.order(&order.recipe, Task::run(answers), order.anyway).map(Rc::new).map(Some)
        };
        let made = match made {
            Ok(Some(order)) => order,
            Ok(None) => return FAILED,
            Err(error) => return self.failed_with(&error),
        };
        let shown = if all { self.show_all(&made) } else { self.show_first(&made, "", &NEXT.map(str::to_owned)) };
        match (shown, csv) {
            (Err(error), _) => self.failed_with(&error),
            (Ok(()), Some(folder)) => self.export(&made, None, &folder, None),
            (Ok(()), None) => DONE,
        }
    }

    fn sheet_command(&mut self, order: &Order) -> u8 {
        match split_words(&order.answers) {
            Ok(answers) => self.sheet(&order.recipe, answers, order.anyway),
            Err(message) => self.wrong_command(&message),
        }
    }
}

/// What can be typed to see the rest of an order.
const NEXT: [&str; 3] = ["--all: everything", "--csv FOLDER: files", "shirr sheet …: to work from"];

/// Splits the `name=value` words of a command line.
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
