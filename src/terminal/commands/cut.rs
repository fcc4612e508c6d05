//! `cut`: plans a list of pieces onto the lengths there are; shows, draws and exports the plan.
//!
//! Never here: planning, and the sentences about a plan.

use super::{Family, after};
use crate::cutting::{CuttingError, CuttingPlan, Effort};
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::notebook::verbs::Arguments;
use crate::plans::{self, Choices, CutTask, Leftover, PlanReport, PlanWords};
use crate::quantity::literal::{self, LiteralValue};
use crate::quantity::{Length, Money, Style};
use crate::report::{self, Look, excerpt, wrap};
use crate::table::{Table, TableError};
use crate::terminal::app::{App, DONE, FAILED, INTERRUPTED};
use crate::terminal::arguments::{CutOrder, TypedAt, seconds, whole_number};
use crate::terminal::export;
use crate::terminal::files;
use crate::terminal::progress::ProgressLine;
use crate::terminal::today;
use crate::workshop::{self, WorkshopFileError};
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

/// Maximum number of file errors that are shown; then only how many more there are.
const MAX_SHOWN_ERRORS: usize = 30;
/// Maximum number of lengths that are described; files have all of them.
const MAX_SHOWN_LENGTHS: usize = 24;
/// Maximum number of rows that are shown of a table; files have all of them.
const MAX_SHOWN_ROWS: usize = 60;
/// The steps of a search that only a time limit ends.
const ENDLESS: u64 = 1_000_000_000_000_000;

pub(super) const ACTIONS: Family = &[("cut", |_, app, arguments| Ok(after(app.cut(&typed_order(&arguments)?))))];

/// Converts the arguments typed at the prompt.
fn typed_order(arguments: &Arguments<'_>) -> Result<CutOrder, Diagnostic> {
    fn number<T>(
        arguments: &Arguments<'_>,
        word: &str,
        read: fn(&str) -> Result<T, String>,
    ) -> Result<Option<T>, Diagnostic> {
        let Some(written) = arguments.clause(word) else { return Ok(None) };
        read(written)
            .map(Some)
            .map_err(|hint| Diagnostic::new(format!("{word}: “{written}” is no number")).hinting(hint))
    }
    let text = |word: &str| arguments.clause(word).map(str::to_owned);
    Ok(CutOrder {
        pieces: arguments.value(0).into(),
        from: arguments.value(1).into(),
        csv: arguments.clause("to").map(Into::into),
        straight: arguments.clause("straight").is_some(),
        folded: arguments.clause("folded").is_some(),
        loss: text("loss"),
        squaring: text("squaring"),
        keep: text("keep"),
        like: arguments.clause("like").map(Into::into),
        steps: number(arguments, "steps", whole_number)?,
        seconds: number(arguments, "seconds", seconds)?,
        seed: number(arguments, "seed", whole_number)?,
        typed_at: TypedAt::Prompt,
    })
}

/// The tables of a plan.
struct CutTables {
    plan: Table,
    cuts: Table,
    buy_list: Table,
    leftovers: Table,
    summary: Table,
}

impl CutTables {
    fn of(
        plan_report: &PlanReport<'_>,
        task: &CutTask,
        kept: &[Leftover],
        words: &PlanWords,
    ) -> Result<Self, TableError> {
        let cost = plans::cost(plan_report, &task.prices);
        Ok(Self {
            plan: plans::plan(&[*plan_report], words)?,
            cuts: plans::cuts(&[*plan_report], words)?,
            buy_list: plans::buy_list(plan_report, &task.prices, words)?,
            leftovers: plans::leftovers_table(kept, words)?,
            summary: plans::summary(plan_report, kept, cost, words)?,
        })
    }
}

impl App<'_> {
    /// Plans a list of pieces and shows the plan; returns the exit code.
    pub(crate) fn cut(&mut self, order: &CutOrder) -> u8 {
        if let Err(faults) = self.opened.check() {
            return self.failed_with(&faults);
        }
        let choices = match self.choices(order) {
            Ok(choices) => choices,
            Err(message) => return self.wrong_command(&message),
        };
        let task = match self.cut_task(order, &choices) {
            Ok(task) => task,
            Err(errors) => return self.failed(&excerpt::texts(&errors)),
        };
        // One tape throughout, that of the pieces.
        let style = Style { tape: task.tape, ..self.style() };
        let (planned, interrupted) = self.planned(&task, order.seconds);
        let plan = match planned {
            Ok(plan) => plan,
            Err(CuttingError::Stopped) if !interrupted => {
                let more = format!("{} 30", order.typed_at.option("seconds"));
                return self
                    .failed(&format!("there was no plan yet when the seconds were over\n  give it more: {more}"));
            }
            Err(error) => {
                let code = self.failed_with(&Diagnostic { hint: hint(&error), ..error.diagnostic(&style) });
                return if interrupted { INTERRUPTED } else { code };
            }
        };
        let words = PlanWords { words: Style { plain: true, ..style }, tape: task.tape };
        let plan_report = PlanReport {
            panels: &[],
            name: task.material.as_deref(),
            pieces: &task.pieces,
            goods: &task.goods,
            plan: &plan,
            keep_from: choices.keep_from,
            washed_first: None,
            shelf: &task.stock,
        };
        let on_shelf: BTreeSet<String> = task.held.iter().cloned().collect();
        let kept = plans::leftovers(&plan_report, &words, &on_shelf);
        let tables = match CutTables::of(&plan_report, &task, &kept, &words) {
            Ok(tables) => tables,
            Err(error) => return self.failed(&error.to_string()),
        };
        self.show_plan(&plan_report, &task, (&kept, &words), order.typed_at);
        self.show_tables(&tables, order, &style);
        let code = match &order.csv {
            Some(folder) => self.export_plan(&tables, &kept, &plan_report, &words, folder),
            None => DONE,
        };
        if interrupted && code == DONE { INTERRUPTED } else { code }
    }

    fn choices(&self, order: &CutOrder) -> Result<Choices, String> {
        let length = |option: &str, written: &Option<String>| {
            written.as_ref().map(|written| self.length_of(order.typed_at, option, written)).transpose()
        };
        let usual = Effort::default();
        let steps = order.steps.unwrap_or(if order.seconds.is_some() { ENDLESS } else { usual.steps });
        Ok(Choices {
            straight: order.straight,
            folded: order.folded,
            loss: length("loss", &order.loss)?,
            squaring: length("squaring", &order.squaring)?,
            keep_from: length("keep", &order.keep)?.or(self.opened.workshop.settings.smallest_remnant),
            effort: Effort { steps, seed: order.seed.unwrap_or(usual.seed) },
        })
    }

    fn length_of(&self, typed_at: TypedAt, name: &str, written: &str) -> Result<Length, String> {
        let settings = &self.opened.workshop.settings;
        let read = literal::read_quantity(written, settings.reading());
        let unit = settings.tape.unit().symbol();
        let option = typed_at.option(name);
        let like = |value: &str| typed_at.with_value(name, &format!("{value} {unit}"));
        match read {
            Ok(LiteralValue::Quantity(quantity)) => match Length::try_from(quantity) {
                Ok(length) if length >= Length::ZERO => Ok(length),
                Ok(_) => Err(format!("{option}: “{written}” is less than zero\n  type zero or more")),
                Err(_) if quantity.dimension().is_number() => {
                    let written = written.trim();
                    Err(format!("{option}: “{written}” has no unit\n  type {}", like(written)))
                }
                Err(_) => Err(format!(
                    "{option}: “{written}” is {}; a length is needed\n  type it like {}",
                    quantity.dimension().noun(),
                    like("6")
                )),
            },
            _ => Err(format!("{option}: “{written}” is no length\n  type it like {}", like("6"))),
        }
    }

    /// Reads the files; an error lists all that is wrong with them.
    fn cut_task(&self, order: &CutOrder, choices: &Choices) -> Result<CutTask, Vec<Diagnostic>> {
        let settings = &self.opened.workshop.settings;
        let read = |path: &Path| files::read(&self.folder.join(path)).map_err(Diagnostic::from);
        let name = |path: &Path| path.display().to_string();
        let (pieces, lengths) = (read(&order.pieces), read(&order.from));
        let like = order.like.as_deref().map(read).transpose();
        let unread: Vec<&Diagnostic> =
            [pieces.as_ref().err(), lengths.as_ref().err(), like.as_ref().err()].into_iter().flatten().collect();
        if !unread.is_empty() {
            return Err(unread.into_iter().cloned().collect());
        }
        let (pieces, lengths) = (pieces.unwrap_or_default(), lengths.unwrap_or_default());
        let (pieces_name, lengths_name) = (name(&order.pieces), name(&order.from));
        let rows = workshop::read_cut_files((&pieces_name, &pieces), (&lengths_name, &lengths), settings);
        let like = match (&order.like, like.unwrap_or_default()) {
            (Some(path), Some(text)) => workshop::read_plan(&name(path), &text, settings),
            _ => Ok(Vec::new()),
        };
        match (rows, like) {
            (Ok((pieces, lengths)), Ok(like)) => Ok(plans::cut_task(&pieces, &lengths, &like, choices, settings.tape)),
            (rows, like) => {
                let file_errors = rows.err().into_iter().chain(like.err()).flatten().collect::<Vec<_>>();
                Err(first_errors(&file_errors, &self.style()))
            }
        }
    }

    /// Computes the plan; also returns whether Ctrl-C interrupted it. A time limit sets the same flag, and is
    /// no failure.
    fn planned(&self, task: &CutTask, seconds: Option<Duration>) -> (Result<Arc<CuttingPlan>, CuttingError>, bool) {
        let line = ProgressLine::new(self.shows_progress);
        let over = Arc::new(AtomicBool::new(false));
        let (done, waiting) = mpsc::channel::<()>();
        let timer = seconds.map(|seconds| {
            let (stop, over) = (Arc::clone(&self.stop), Arc::clone(&over));
            thread::spawn(move || {
                if waiting.recv_timeout(seconds) == Err(mpsc::RecvTimeoutError::Timeout)
                    && !stop.swap(true, Ordering::SeqCst)
                {
                    over.store(true, Ordering::SeqCst);
                }
            })
        });
        let planned = self.planner.plan_watched(&task.task(), &|progress| line.show(progress));
        line.clear();
        drop(done);
        // Only the end of the timer matters, not its result.
        let _ended = timer.map(thread::JoinHandle::join);
        let timed = over.load(Ordering::SeqCst);
        let interrupted = self.stop.load(Ordering::SeqCst) && !timed;
        if timed {
            self.stop.store(false, Ordering::SeqCst);
        }
        (planned, interrupted)
    }

    /// Prints the plan: a sentence for each length, then its quality, what to know, and a picture of the first
    /// lengths.
    fn show_plan(
        &mut self,
        plan_report: &PlanReport<'_>,
        task: &CutTask,
        (kept, words): (&[Leftover], &PlanWords),
        typed_at: TypedAt,
    ) {
        let width = self.output.width;
        let mut sentences = plans::sentences(plan_report, words);
        let more = sentences.len().saturating_sub(MAX_SHOWN_LENGTHS);
        sentences.truncate(MAX_SHOWN_LENGTHS);
        if more > 0 {
            let written = typed_at.to_folder();
            sentences.push(format!("{more} more lengths are cut as the plan table has it; {written} writes it."));
        }
        let reports = [*plan_report];
        sentences.push(in_all(plan_report, plans::cost(plan_report, &task.prices), words));
        sentences.extend(plans::stopped_sentence(&reports));
        sentences.extend(plans::quality_sentences(&reports, words));
        sentences.extend(plans::leftover_sentence(plan_report, kept, words));
        sentences.extend(plan_report.plan.notes.iter().map(ToString::to_string));
        sentences.extend(as_asked(plan_report, task));
        for sentence in sentences {
            self.output.print(&wrap::hang("", &sentence, width).join("\n"));
        }
        let lengths = plans::drawn_lengths(plan_report, words, &plans::letters(&[*plan_report]));
        if !lengths.is_empty() {
            let boxes = self.output.look == Look::Boxed;
            self.output.print("");
            self.output.print(&report::lay_text(&lengths, &words.words, boxes, width).join("\n"));
        }
    }

    fn show_tables(&mut self, tables: &CutTables, order: &CutOrder, style: &Style) {
        let (width, look) = (self.output.width, self.output.look);
        for table in [&tables.cuts, &tables.buy_list, &tables.leftovers].into_iter().filter(|table| !table.is_empty()) {
            self.output.print("");
            self.output.print(&table.title());
            let first: Vec<usize> = (0..table.len().min(MAX_SHOWN_ROWS)).collect();
            self.output.print(&report::text_table(&table.with_rows(&first), style, look, width));
            if table.len() > MAX_SHOWN_ROWS {
                let rest_hint = match order.csv {
                    Some(_) => String::new(),
                    None => format!("; {} writes them all", order.typed_at.to_folder()),
                };
                self.output.print(&format!("and {} more rows{rest_hint}", table.len() - MAX_SHOWN_ROWS));
            }
        }
    }

    fn export_plan(
        &mut self,
        tables: &CutTables,
        kept: &[Leftover],
        plan_report: &PlanReport<'_>,
        words: &PlanWords,
        folder: &Path,
    ) -> u8 {
        let folder = self.folder.join(folder);
        let settings = &self.opened.workshop.settings;
        let style = Style { tape: words.tape, ..settings.file_style() };
        let lengths = plans::drawn_lengths(plan_report, words, &plans::letters(&[*plan_report]));
        let all = [&tables.plan, &tables.cuts, &tables.buy_list, &tables.summary];
        let leftovers = plans::leftovers_as_stock(kept);
        let (title, date) = (plan_report.name.unwrap_or("cutting plan"), today::in_words());
        let picture = (title, lengths.as_slice(), date.as_str());
        match export::write_plan(all, (&leftovers, settings), picture, self.csv_dialect(), &style, &folder) {
            Ok(count) => {
                self.output.eprint(&format!("{count} tables and a picture of the lay are in {}", folder.display()));
                DONE
            }
            Err(problem) => {
                self.output.eprint(&export::problem_text(&problem));
                FAILED
            }
        }
    }
}

/// One sentence on the whole plan: pieces, lengths, how much of them is used, and what all of it costs.
fn in_all(plan_report: &PlanReport<'_>, cost: Option<Money>, words: &PlanWords) -> String {
    let plan = plan_report.plan;
    if plan.uses.is_empty() {
        return "There is nothing to cut.".to_owned();
    }
    let counted = |count: i64, one: &str| if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") };
    let lengths = counted(plan.uses.len().try_into().unwrap_or(i64::MAX), "length");
    let pieces = counted(plan.pieces.values().sum(), "piece");
    let whole = plan.uses.iter().map(|stock| stock.length).sum();
    let (used, taken) = (words.say_part(plan.length_used, whole), words.say_long(whole));
    let cost = match (cost, plan.uses.len()) {
        (None, _) => String::new(),
        (Some(cost), 1) => format!("; the length costs {}", words.words.show(cost.into())),
        (Some(cost), _) => format!("; the lengths cost {}", words.words.show(cost.into())),
    };
    if used == taken {
        return format!("In all {pieces} from {lengths}, {used} used{cost}.");
    }
    format!("In all {pieces} from {lengths}, {used} of {taken} used{cost}.")
}

/// What was asked for but not done, and what stays on the shelf.
fn as_asked(plan_report: &PlanReport<'_>, task: &CutTask) -> Vec<String> {
    let mut sentences = Vec::new();
    let moved = plans::moved(plan_report.plan, &task.manner.pinned);
    if let Some(first) = moved.first() {
        sentences.push(format!(
            "{} of {} cuts of the earlier plan could not stay where they were, the first of them {} from {}.",
            moved.len(),
            task.manner.pinned.len(),
            first.piece,
            first.stock
        ));
    }
    let too_short = plans::too_short(plan_report, &task.stock);
    if !too_short.is_empty() {
        sentences.push(format!("Shorter than every piece and left on the shelf: {}.", too_short.join(", ")));
    }
    if !task.held.is_empty() {
        sentences.push(format!("Held for an order and left on the shelf: {}.", task.held.join(", ")));
    }
    sentences
}

/// The hint for an error, in the words of the two files.
fn hint(error: &CuttingError) -> Option<String> {
    let hint = match error {
        CuttingError::NotEnough { .. } | CuttingError::NotOfBoth { .. } => {
            "add lengths, or a row with an empty count: as many of it are bought as it takes"
        }
        CuttingError::TooWide { fits_turned: true, .. } => {
            "let it turn by a quarter, allow it joins, or give a wider cloth"
        }
        other => return other.hint(),
    };
    Some(hint.to_owned())
}

/// The first errors, and how many more there are.
fn first_errors(file_errors: &[WorkshopFileError], style: &Style) -> Vec<Diagnostic> {
    let mut errors: Vec<Diagnostic> =
        file_errors.iter().take(MAX_SHOWN_ERRORS).map(|file_error| file_error.diagnostic(style)).collect();
    if file_errors.len() > MAX_SHOWN_ERRORS {
        errors.push(Diagnostic::new(format!("and {} more", file_errors.len() - MAX_SHOWN_ERRORS)));
    }
    errors
}
