//! `shirr cut`: a list of pieces planned onto the lengths there are, told, drawn and left as files.
//!
//! Never here: planning, and how a plan is told.

use super::arguments::CutOrder;
use super::commands::{DONE, Desk, FAILED, INTERRUPTED};
use super::export;
use super::files;
use super::progress::ProgressLine;
use crate::cutting::{self, CuttingError, CuttingPlan, Effort, Watch};
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::plans::{self, Choices, CutTask, Leftover, PlanWords, Told};
use crate::quantity::literal::{self, LiteralValue};
use crate::quantity::{Length, Money, Style};
use crate::report::{self, Look, excerpt, wrap};
use crate::table::{Table, TableError};
use crate::workshop::{self, FileFault};
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

/// So many faults of files are told, then how many there are.
const FAULTS_TOLD: usize = 30;
/// So many lengths are told, and so many rows of a table shown; files have them all.
const LENGTHS_TOLD: usize = 24;
const ROWS_SHOWN: usize = 60;
/// With a clock to end the search, its steps do not.
const ENDLESS: u64 = 1_000_000_000_000_000;

/// The tables of a plan.
struct CutTables {
    plan: Table,
    cuts: Table,
    buy_list: Table,
    leftovers: Table,
    summary: Table,
}

impl CutTables {
    fn of(told: &Told<'_>, task: &CutTask, kept: &[Leftover], words: &PlanWords) -> Result<Self, TableError> {
        let cost = plans::cost(told, &task.prices);
        Ok(Self {
            plan: plans::plan(&[*told], words)?,
            cuts: plans::cuts(&[*told], words)?,
            buy_list: plans::buy_list(told, &task.prices, words)?,
            leftovers: plans::leftovers_table(kept, words)?,
            summary: plans::summary(told, kept, cost, words)?,
        })
    }
}

impl Desk<'_> {
    /// Plans a list of pieces.
    pub(super) fn cut(&mut self, order: &CutOrder) -> u8 {
        let choices = match self.choices(order) {
            Ok(choices) => choices,
            Err(said) => return self.wrong(&said),
        };
        let task = match self.cut_task(order, &choices) {
            Ok(task) => task,
            Err(errors) => return self.failed(&excerpt::texts(&errors)),
        };
        let style = self.style();
        let (planned, interrupted) = self.planned(&task, order.seconds);
        let plan = match planned {
            Ok(plan) => plan,
            Err(CuttingError::Stopped) if !interrupted => {
                return self.failed("there was no plan yet when the seconds were over\n  give it more: --seconds 30");
            }
            Err(error) => {
                let code = self.failed_with(&Diagnostic { hint: hint(&error), ..error.diagnostic(&style) });
                return if interrupted { INTERRUPTED } else { code };
            }
        };
        let words = PlanWords { words: Style { plain: true, ..style }, tape: task.tape };
        let told = Told {
            name: task.material.as_deref(),
            pieces: &task.pieces,
            goods: &task.goods,
            plan: &plan,
            keep_from: choices.keep_from,
        };
        let on_shelf: BTreeSet<String> = task.held.iter().cloned().collect();
        let kept = plans::leftovers(&told, &task.stock, &on_shelf);
        let tables = match CutTables::of(&told, &task, &kept, &words) {
            Ok(tables) => tables,
            Err(fault) => return self.failed(&fault.to_string()),
        };
        self.show_plan(&told, &task, &kept, &words);
        self.show_tables(&tables, order.csv.is_some());
        let code = match &order.csv {
            Some(folder) => self.export_plan(&tables, &kept, &told, &words, folder),
            None => DONE,
        };
        if interrupted && code == DONE { INTERRUPTED } else { code }
    }

    fn choices(&self, order: &CutOrder) -> Result<Choices, String> {
        let length = |option: &str, written: &Option<String>| {
            written.as_ref().map(|written| self.length_of(option, written)).transpose()
        };
        let usual = Effort::default();
        let steps = order.steps.unwrap_or(if order.seconds.is_some() { ENDLESS } else { usual.steps });
        Ok(Choices {
            straight: order.straight,
            folded: order.folded,
            loss: length("--loss", &order.loss)?,
            squaring: length("--squaring", &order.squaring)?,
            keep_from: length("--keep", &order.keep)?.or(self.opened.workshop.settings.smallest_remnant),
            effort: Effort { steps, seed: order.seed.unwrap_or(usual.seed) },
        })
    }

    fn length_of(&self, option: &str, written: &str) -> Result<Length, String> {
        let settings = &self.opened.workshop.settings;
        let read = literal::read_quantity(written, settings.reading());
        let unit = settings.tape.unit().symbol();
        match read {
            Ok(LiteralValue::Quantity(quantity)) => match Length::try_from(quantity) {
                Ok(length) if length >= Length::ZERO => Ok(length),
                Ok(_) => Err(format!("{option}: “{written}” is less than zero\n  type zero or more")),
                Err(_) if quantity.dimension().is_number() => {
                    let written = written.trim();
                    Err(format!("{option}: “{written}” has no unit\n  type {option} '{written} {unit}'"))
                }
                Err(_) => Err(format!(
                    "{option}: “{written}” is {}; a length is needed\n  type it like {option} '6 {unit}'",
                    quantity.dimension().noun()
                )),
            },
            _ => Err(format!("{option}: “{written}” is no length\n  type it like {option} '6 {unit}'")),
        }
    }

    /// Reads the files; all that is wrong with them at once.
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
                let faults = rows.err().into_iter().chain(like.err()).flatten().collect::<Vec<_>>();
                Err(first_errors(&faults, &self.style()))
            }
        }
    }

    /// The plan, and whether it was broken off from the keyboard. A timer raises the same flag, and is no fault.
    fn planned(&self, task: &CutTask, seconds: Option<Duration>) -> (Result<CuttingPlan, CuttingError>, bool) {
        let line = ProgressLine::new(self.watched);
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
        let planned =
            cutting::plan(&task.task(), Watch { stop: &self.stop, progress: &|progress| line.tell(progress) });
        line.clear();
        drop(done);
        // A timer that has ended is a timer that has ended, however it did.
        let _ended = timer.map(thread::JoinHandle::join);
        let timed = over.load(Ordering::SeqCst);
        let interrupted = self.stop.load(Ordering::SeqCst) && !timed;
        if timed {
            self.stop.store(false, Ordering::SeqCst);
        }
        (planned, interrupted)
    }

    /// Sentences first, then how good the plan is, what to know, and how the first lengths lie.
    fn show_plan(&mut self, told: &Told<'_>, task: &CutTask, kept: &[Leftover], words: &PlanWords) {
        let style = self.style();
        let width = self.output.width;
        let mut sentences = plans::sentences(told, words);
        let more = sentences.len().saturating_sub(LENGTHS_TOLD);
        sentences.truncate(LENGTHS_TOLD);
        if more > 0 {
            sentences.push(format!("{more} more lengths are cut as the plan table has it; --csv FOLDER writes it."));
        }
        let plans_told = [*told];
        sentences.push(in_all(told, plans::cost(told, &task.prices), words));
        sentences.extend(plans::stopped_sentence(&plans_told));
        sentences.extend(plans::merit_sentences(&plans_told, words));
        sentences.extend(plans::leftover_sentence(told, kept, words));
        sentences.extend(told.plan.notes.iter().map(ToString::to_string));
        sentences.extend(as_asked(told, task));
        for sentence in sentences {
            self.output.say(&wrap::hang("", &sentence, width).join("\n"));
        }
        let lengths = plans::drawn_lengths(told, words);
        if !lengths.is_empty() {
            let boxes = self.output.look == Look::Boxed;
            self.output.say("");
            self.output.say(&report::lay_text(&lengths, &style, boxes, width).join("\n"));
        }
    }

    fn show_tables(&mut self, tables: &CutTables, written: bool) {
        let style = self.style();
        let (width, look) = (self.output.width, self.output.look);
        for table in [&tables.cuts, &tables.buy_list, &tables.leftovers].into_iter().filter(|table| !table.is_empty()) {
            self.output.say("");
            self.output.say(&table.title());
            let first: Vec<usize> = (0..table.len().min(ROWS_SHOWN)).collect();
            self.output.say(&report::text_table(&table.with_rows(&first), &style, look, width));
            if table.len() > ROWS_SHOWN {
                let how = if written { "" } else { "; --csv FOLDER writes them all" };
                self.output.say(&format!("and {} more rows{how}", table.len() - ROWS_SHOWN));
            }
        }
    }

    fn export_plan(
        &mut self,
        tables: &CutTables,
        kept: &[Leftover],
        told: &Told<'_>,
        words: &PlanWords,
        folder: &Path,
    ) -> u8 {
        let folder = self.folder.join(folder);
        let settings = &self.opened.workshop.settings;
        let style = settings.file_style();
        let lengths = plans::drawn_lengths(told, words);
        let all = [&tables.plan, &tables.cuts, &tables.buy_list, &tables.summary];
        let leftovers = plans::leftovers_as_stock(kept);
        let picture = (told.name.unwrap_or("cutting plan"), lengths.as_slice());
        match export::write_plan(all, (&leftovers, settings), picture, self.csv_dialect(), &style, &folder) {
            Ok(count) => {
                self.output.tell(&format!("{count} tables and a picture of the lay are in {}", folder.display()));
                DONE
            }
            Err(problem) => {
                self.output.tell(&format!(
                    "{problem}\n  the tables were not written; nothing that was there before has changed"
                ));
                FAILED
            }
        }
    }
}

/// All of it in one breath: pieces, lengths, what is laid, what it costs.
fn in_all(told: &Told<'_>, cost: Option<Money>, words: &PlanWords) -> String {
    let plan = told.plan;
    if plan.uses.is_empty() {
        return "There is nothing to cut.".to_owned();
    }
    let counted = |count: i64, one: &str| if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") };
    let lengths = counted(plan.uses.len().try_into().unwrap_or(i64::MAX), "length");
    let cost = cost.map(|cost| format!(", {}", words.words.show(cost.into()))).unwrap_or_default();
    let used = words.say_long(plan.length_used);
    format!("In all {} from {lengths}, {used} laid{cost}.", counted(plan.pieces.values().sum(), "piece"))
}

/// What was asked for and is not so, and what stays on the shelf.
fn as_asked(told: &Told<'_>, task: &CutTask) -> Vec<String> {
    let mut said = Vec::new();
    let moved = plans::moved(told.plan, &task.manner.pinned);
    if let Some(first) = moved.first() {
        said.push(format!(
            "{} of {} cuts of the earlier plan could not stay where they were, the first of them {} from {}.",
            moved.len(),
            task.manner.pinned.len(),
            first.piece,
            first.stock
        ));
    }
    if !task.held.is_empty() {
        said.push(format!("Held for an order and left on the shelf: {}.", task.held.join(", ")));
    }
    said
}

/// What to do about it in the words of the two files.
fn hint(error: &CuttingError) -> Option<String> {
    let hint = match error {
        CuttingError::NotEnough { .. } => {
            "add lengths, or a row with an empty count: as many of it are bought as it takes"
        }
        CuttingError::TooWide { fits_turned: true, .. } => {
            "let it turn by a quarter, allow it joins, or give a wider cloth"
        }
        other => return other.hint(),
    };
    Some(hint.to_owned())
}

/// The errors that are shown, and how many more there are.
fn first_errors(faults: &[FileFault], style: &Style) -> Vec<Diagnostic> {
    let mut errors: Vec<Diagnostic> = faults.iter().take(FAULTS_TOLD).map(|fault| fault.diagnostic(style)).collect();
    if faults.len() > FAULTS_TOLD {
        errors.push(Diagnostic::new(format!("and {} more", faults.len() - FAULTS_TOLD)));
    }
    errors
}
