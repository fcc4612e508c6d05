//! Runs lines, whether typed, piped or read from a page's file: one path for all.

use super::asking::{Asking, Completeness};
use super::page_file::Written;
use super::{After, Session};
use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::text::decimal_comma::with_points;
use crate::notebook::{CellChangeText, Change, Entered, Line, Page, TicketObject, Tools, read_line, statements, verbs};
use crate::quantity::nearest::nearest;
use crate::report::{excerpt, wrap};
use crate::terminal::app::{App, DONE, FAILED, INTERRUPTED, open_cloth};
use crate::terminal::files::{self, FileProblem};
use crate::ticket::WorkshopOrder;
use std::io::{BufRead, BufReader, Read};
use std::rc::Rc;
use std::sync::atomic::Ordering;

/// A value of more columns does not widen the column of values.
const WIDE_VALUE: usize = 30;

/// Maximum number of changes that are shown one by one.
const MAX_SHOWN_CHANGES: usize = 40;

/// Most bytes of a line: far more than anybody types, and little enough to be looked through again and again.
const MOST_LINE: usize = 64 << 10;

/// The error for a text of which a line is too long to be worked out.
pub(crate) fn check_lines(text: &str) -> Result<(), Diagnostic> {
    match text.lines().position(|line| line.len() > MOST_LINE) {
        None => Ok(()),
        Some(at) => {
            let most = MOST_LINE >> 10;
            Err(Diagnostic::new(format!("line {} is too long; a line may hold {most} kB", at + 1)))
        }
    }
}

impl Session {
    /// Runs one line, then saves the page if it changed.
    pub(crate) fn line(&mut self, app: &mut App<'_>, typed: &str) -> After {
        if let Err(error) = check_lines(typed) {
            return print_error(app, &error);
        }
        self.check_sources(app);
        let is_line = !self.is_asking();
        let with_points = (is_line && self.host.style().decimal_comma).then(|| with_points(typed));
        let typed = with_points.as_deref().unwrap_or(typed);
        let after = if self.setting_up.is_some() {
            self.take_set_up_answer(app, typed)
        } else if self.asking.is_some() {
            self.take_answer(app, typed)
        } else {
            self.run_line(app, typed)
        };
        app.print_cautions(&self.host);
        // Whoever leaves is told of a page that is not on the disk by what ends the session.
        if after == After::Leave || self.keep(app) { after } else { After::Failed }
    }

    /// Runs one line of the page or the prompt.
    pub(crate) fn run_line(&mut self, app: &mut App<'_>, typed: &str) -> After {
        match read_line(typed, self.host.reading()) {
            Line::Verb { verb: "leave", .. } => After::Leave,
            Line::Verb { verb, rest } => self.verb(app, verb, &rest),
            Line::Order { recipe, cell, answers } => self.order(app, typed, &recipe, &cell, answers),
            line => {
                let is_sum = matches!(line, Line::Expression(_));
                let file = match &line {
                    Line::File { cell, .. } => Some(cell.clone()),
                    _ => None,
                };
                let entered = self.page.enter_line(&mut Tools { host: &self.host, world: app }, typed, line);
                match entered {
                    Ok(entered) => {
                        let after = self.show_entered(app, &entered);
                        if let (After::Failed, Some(cell)) = (after, &file) {
                            app.output.eprint(&format!(
                                "  the line stays on the page and reads the file again once it is saved; strike {cell} takes the line off"
                            ));
                        }
                        after
                    }
                    Err(error) if is_sum => {
                        let error = self.page.meant_of_an_order(error);
                        print_error(app, &meant_otherwise(app, typed, error))
                    }
                    Err(error) => print_error(app, &error),
                }
            }
        }
    }

    /// Puts a line on the page.
    pub(crate) fn enter(&mut self, app: &mut App<'_>, typed: &str) -> Result<Entered, Diagnostic> {
        self.page.enter(&mut Tools { host: &self.host, world: app }, typed)
    }

    pub(crate) fn show_entered(&mut self, app: &mut App<'_>, entered: &Entered) -> After {
        if let Some(value) = &entered.answer {
            self.order_is_latest = false;
            return match crate::notebook::one_line(value, &self.host.style()) {
                Ok(shown) => {
                    app.output.print(&shown);
                    app.warn_odd_product(value);
                    After::Done
                }
                Err(error) => print_error(app, &error),
            };
        }
        let after = self.show_changes(app, &entered.changes, true);
        let typed = entered.changes.first().map(|change| change.name.as_str());
        if let Some(Ok(value)) = typed.and_then(|name| self.page.value(name)) {
            app.warn_odd_product(value);
        }
        after
    }

    /// Asks the questions that an order has left, else puts it on the page.
    fn order(
        &mut self,
        app: &mut App<'_>,
        typed: &str,
        recipe: &str,
        cell: &str,
        answers: Vec<(String, String)>,
    ) -> After {
        if let Some((at, _)) = open_cloth(app, &answers) {
            let input = answers.get(at).map_or("cloth", |(name, _)| name.as_str());
            let error = Diagnostic::new("an order whose cloth is not chosen fills no cell")
                .hinting(format!("leave out as {cell} to see its price, or choose: {input}='any 45 in at …'"));
            return print_error(app, &error);
        }
        let note = crate::notebook::note_of(typed);
        match Asking::begin(self, app, recipe, Some(cell), answers, &note) {
            Ok(Completeness::Incomplete(asking)) => {
                self.asking = Some(*asking);
                self.ask_first(app);
                After::Done
            }
            Ok(Completeness::Complete(answers)) => self.place_order(app, recipe, cell, &answers, &note),
            Err(error) => print_error(app, &error),
        }
    }

    pub(crate) fn place_order(
        &mut self,
        app: &mut App<'_>,
        recipe: &str,
        cell: &str,
        answers: &[(String, String)],
        note: &str,
    ) -> After {
        let mut line = crate::notebook::order_line(recipe, cell, answers);
        if !note.is_empty() {
            line.push_str(&format!("  # {note}"));
        }
        let entered = self.enter(app, &line);
        self.placed = Some(line);
        match entered {
            Ok(entered) => {
                self.order_is_latest = true;
                self.last_order = self.order_in(cell).or(self.last_order.take());
                self.show_entered(app, &entered)
            }
            Err(error) => print_error(app, &error),
        }
    }

    /// The order that a cell holds.
    fn order_in(&self, cell: &str) -> Option<Rc<WorkshopOrder>> {
        Some(self.page.value(cell)?.ok()?.clone().try_cast::<TicketObject>()?.0)
    }

    /// Handles a typed answer; with the last of them the order is made.
    pub(crate) fn take_answer(&mut self, app: &mut App<'_>, typed: &str) -> After {
        let Some(asking) = &self.asking else { return After::Done };
        let (recipe, cell, note) = (asking.recipe.clone(), asking.cell.clone(), asking.note.clone());
        let (after, answers) = self.answer(app, typed);
        let Some(answers) = answers else { return after };
        let Some(cell) = cell else { return self.show_order_of(app, &recipe, &answers) };
        let after = self.place_order(app, &recipe, &cell, &answers, &note);
        self.show_placed(app, &cell).unwrap_or(after)
    }

    /// Shows the first screen of the order that was put into a cell; `None` if there is none.
    pub(super) fn show_placed(&mut self, app: &mut App<'_>, cell: &str) -> Option<After> {
        let order = self.order_in(cell)?;
        let shown = self.show_first(app, &order, cell);
        Some(shown.map_or_else(|error| print_error(app, &error), |()| After::Done))
    }

    /// Prints changes; `typed` means that the first of them is the typed line itself. Returns [`After::Failed`]
    /// if one that is shown failed.
    pub(crate) fn show_changes(&mut self, app: &mut App<'_>, changes: &[Change], typed: bool) -> After {
        let style = self.host.style();
        let texts: Vec<(CellChangeText, bool)> = changes
            .iter()
            .enumerate()
            .filter_map(|(at, change)| Some((change.describe(&style, typed && at == 0)?, change.is_condition)))
            .collect();
        let shown = texts.get(..MAX_SHOWN_CHANGES.min(texts.len())).unwrap_or_default();
        let width_of = |texts: &mut dyn Iterator<Item = usize>| texts.max().unwrap_or(0);
        let names = self
            .least_width
            .max(width_of(&mut shown.iter().filter(|(_, rule)| !rule).map(|(text, _)| wrap::width(&text.name))));
        let values = width_of(&mut shown.iter().filter_map(|(text, rule)| match &text.now {
            // A long value must not push all others aside.
            Some(Ok(now)) if !rule && wrap::width(now) <= WIDE_VALUE => Some(wrap::width(now)),
            _ => None,
        }));
        for change in changes {
            let value = self.page.value(&change.name).and_then(Result::ok).cloned();
            if let Some(order) = value.and_then(rhai::Dynamic::try_cast::<TicketObject>) {
                app.print_warnings(order.ticket());
            }
        }
        let mut after = After::Done;
        for (text, is_condition) in shown {
            let failed = if *is_condition { print_condition(app, text) } else { print_cell(app, text, names, values) };
            if failed {
                after = After::Failed;
            }
        }
        if texts.len() > shown.len() {
            app.output.print(&format!("and {} more; show tells all", texts.len() - shown.len()));
        }
        after
    }

    /// Detects changes outside the page (workshop files, recipes, tables) and recomputes what depends on them.
    pub(crate) fn check_sources(&mut self, app: &mut App<'_>) {
        let sources = self.page.sources();
        let mut changed = self.watch.look(app, &sources);
        if changed.is_empty() {
            return;
        }
        let workshop = changed.contains(&crate::notebook::Source::Workshop);
        if workshop {
            if let Err(errors) = app.read_workshop_again() {
                let error_text = excerpt::texts(&errors);
                app.output.eprint(&format!(
                    "the workshop's files changed and cannot be read; the old ones count\n{error_text}"
                ));
                changed.retain(|source| *source != crate::notebook::Source::Workshop);
            } else if app.host().style() != self.host.style() || app.host().reading() != self.host.reading() {
                self.host = app.host();
                let text = self.page.text();
                self.page = Page::read(&mut Tools { host: &self.host, world: app }, &text);
                app.output.eprint("the workshop's settings changed; the page was worked out anew");
                return;
            }
        }
        let changes = self.page.sources_changed(&mut Tools { host: &self.host, world: app }, &changed);
        if !changes.is_empty() {
            let names: Vec<String> = changed.iter().map(ToString::to_string).collect();
            app.output.eprint(&format!("{} changed", names.join(", ")));
            self.show_changes(app, &changes, false);
        }
    }

    /// Saves the page if it is not on the disk as it is now; returns whether it is, or has no place there. What failed is
    /// tried again after the next line.
    pub(crate) fn keep(&mut self, app: &mut App<'_>) -> bool {
        if self.page.version() == self.kept || !(self.at_prompt || self.file.path().is_some()) {
            return true;
        }
        match self.file.keep(&self.page.text()) {
            Ok(Written::Kept) => {}
            Ok(Written::Nowhere) => {
                app.output.eprint("this page cannot be kept: there is no folder for it; save it under a name");
            }
            Ok(Written::Conflict(path)) => app.output.eprint(&FileProblem::Changed(path).to_string()),
            Err(problem @ FileProblem::Unsure(..)) => {
                app.output.eprint(&problem.to_string());
                return false;
            }
            Err(problem) => {
                app.output.eprint(&format!("{problem}\n  the page is still here, but not on the disk"));
                return false;
            }
        }
        self.kept = self.page.version();
        true
    }

    /// Whether a page without a name is kept.
    pub(crate) fn keeps_unnamed(&self) -> bool {
        self.at_prompt
    }

    /// Records that the current page is on the disk.
    pub(crate) fn mark_kept(&mut self) {
        self.kept = self.page.version();
    }
}

fn print_cell(app: &mut App<'_>, text: &CellChangeText, names: usize, values: usize) -> bool {
    let plain = app.output.plain;
    let was = text.was.as_deref();
    let line = match (&text.now, was, plain) {
        (Some(Err(error)), ..) => {
            app.output.eprint(&format!("{}: {}", text.name, in_full(error)));
            return true;
        }
        (Some(Ok(now)), None, true) => format!("{} is {now}", text.name),
        (Some(Ok(now)), Some(was), true) => format!("{} is {now}, and was {was}", text.name),
        (None, Some(was), true) => format!("removed {}, it was {was}", text.name),
        (None, None, _) => format!("removed {}", text.name),
        (Some(Ok(now)), None, false) => format!("{}  {now}", wrap::pad(&text.name, names, false)),
        (Some(Ok(now)), Some(was), false) => {
            format!("{}  {}   was {was}", wrap::pad(&text.name, names, false), wrap::pad(now, values, false))
        }
        (None, Some(was), false) => format!("removed {}   was {was}", text.name),
    };
    let width = app.output.width;
    match (&text.now, was) {
        // Too wide for one line: the old value goes below the new one.
        (Some(Ok(now)), Some(was)) if !plain && wrap::width(&line) > width => {
            let before = format!("{}  ", wrap::pad(&text.name, names, false));
            let blank = " ".repeat(wrap::width(&before));
            for (before, text) in [(&before, now.clone()), (&blank, format!("was {was}"))] {
                app.output.print(&wrap::hang(before, &text, width).join("\n"));
            }
        }
        _ => app.output.print_wrapped(&line),
    }
    false
}

fn print_condition(app: &mut App<'_>, text: &CellChangeText) -> bool {
    match &text.now {
        Some(Err(error)) => {
            app.output.eprint(&format!("not OK: must {}: {}", text.name, excerpt::text(error)));
            true
        }
        Some(Ok(_)) => {
            app.output.print_wrapped(&format!("OK: {}", text.name));
            false
        }
        None => {
            app.output.print_wrapped(&format!("removed must {}", text.name));
            false
        }
    }
}

/// Adds a hint to an error of a sum, in case the first word is a recipe or a mistyped verb.
fn meant_otherwise(app: &App<'_>, typed: &str, error: Diagnostic) -> Diagnostic {
    let word = typed.split_whitespace().next().unwrap_or_default();
    if app.is_recipe(word) {
        return Diagnostic::new(format!("{word} is a recipe")).of_kind(error.kind).hinting(format!(
            "type run {word} as first to be asked what it needs, or describe {word} for what it makes"
        ));
    }
    let verb = nearest(word, verbs::names());
    let alone = typed.split_whitespace().count() == 1 && typed.chars().all(char::is_alphanumeric);
    match verb {
        None if error.hint.is_none() && alone && matches!(error.kind, DiagnosticKind::UnknownName(_)) => {
            error.hinting(format!("to name a measure, type {word} = 56 cm; for what can be typed, help"))
        }
        Some(verb) if error.hint.is_none() => error.hinting(format!("did you mean “{verb}”?")),
        _ => error,
    }
}

pub(crate) fn print_error(app: &mut App<'_>, error: &Diagnostic) -> After {
    app.output.eprint(&in_full(error));
    After::Failed
}

/// An error in full, and the help topic on it.
fn in_full(error: &Diagnostic) -> String {
    // Where a script was when it was stopped is nothing to her who stopped it.
    let text = if error.is_stop() { excerpt::headline(error) } else { excerpt::text(error) };
    match &error.topic {
        Some(topic) => format!("{text}\n  help {topic} tells more"),
        None => text,
    }
}

/// Runs lines from a pipe, each as it comes; a failed line does not stop the others. Returns the exit code.
pub(crate) fn from_pipe(app: &mut App<'_>, input: &mut dyn Read, echo: bool) -> u8 {
    let mut session = Session::new(app, false);
    let mut code = DONE;
    let mut waiting = String::new();
    let mut input = BufReader::new(input).take(files::MOST_BYTES + 1);
    let mut bytes = Vec::new();
    let mut first = true;
    loop {
        bytes.clear();
        match input.read_until(b'\n', &mut bytes) {
            Ok(0) => break,
            Ok(_) if input.limit() == 0 => {
                let most = files::MOST_BYTES >> 20;
                return app.failed(&format!("the lines that were piped in are too long; {most} MB are the most"));
            }
            Ok(_) => {}
            Err(_) => return app.failed("the lines that were piped in cannot be read"),
        }
        let Ok(line) = str::from_utf8(&bytes) else {
            return app.failed("the lines that were piped in are not plain text (UTF-8)");
        };
        let line = line.strip_suffix('\n').unwrap_or(line);
        let line = line.strip_suffix('\r').unwrap_or(line);
        let line = if std::mem::take(&mut first) { line.strip_prefix('\u{feff}').unwrap_or(line) } else { line };
        if echo {
            app.output.print(&format!("> {line}"));
        }
        if !waiting.is_empty() {
            waiting.push('\n');
        }
        waiting.push_str(line);
        if session.is_open(&waiting) {
            continue;
        }
        let after = session.line(app, &std::mem::take(&mut waiting));
        // The writer of the pipe may wait for the answer before it sends the next line.
        app.output.flush();
        match after {
            After::Done => {}
            After::Failed => code = FAILED,
            After::Leave => return if session.keep(app) { code } else { FAILED },
        }
        if app.stop.load(Ordering::SeqCst) {
            return INTERRUPTED;
        }
    }
    if !waiting.trim().is_empty() && session.line(app, &waiting) == After::Failed {
        code = FAILED;
    }
    if session.is_asking() {
        let undone = if session.setting_up.is_some() { "nothing was written" } else { "the recipe was not run" };
        app.output.eprint(&format!("the lines ended before all questions were answered; {undone}"));
        code = FAILED;
    }
    if session.keep(app) { code } else { FAILED }
}

/// Evaluates a page and prints the result of each line, in the order of the page; returns the exit code.
pub(crate) fn work_out(app: &mut App<'_>, text: &str) -> u8 {
    if let Err(error) = check_lines(text) {
        return app.failed_with(&error);
    }
    let mut session = Session::new(app, false);
    session.page = Page::read(&mut Tools { host: &session.host, world: app }, text);
    if app.stop.load(Ordering::SeqCst) {
        return INTERRUPTED;
    }
    session.least_width = session.page.names().map(wrap::width).max().unwrap_or(0).min(app.output.width / 3);
    let mut code = DONE;
    for (at, statement) in
        statements(text.strip_prefix('\u{feff}').unwrap_or(text), session.host.reading()).iter().enumerate()
    {
        let after = match read_line(statement, session.host.reading()) {
            Line::Note => After::Done,
            Line::Verb { verb: "leave", .. } => break,
            // A page may come by mail, so it must not write anything.
            Line::Verb { verb, rest } if verbs::only_typed(verb, &rest) => {
                app.output.eprint(&format!("“{}” is for the prompt; on a page it does nothing", statement.trim()));
                After::Done
            }
            Line::Verb { verb, rest } => {
                let after = session.verb(app, verb, &rest);
                if session.asking.take().is_some() {
                    app.output.eprint("a page cannot be asked; give every answer on its line");
                    After::Failed
                } else {
                    after
                }
            }
            _ => {
                let changes = session.page.line_at(&mut Tools { host: &session.host, world: app }, at);
                match changes {
                    Ok(entered) => session.show_entered(app, &entered),
                    Err(error) => print_error(app, &error),
                }
            }
        };
        app.print_cautions(&session.host);
        if after == After::Failed {
            code = FAILED;
        }
        if app.stop.load(Ordering::SeqCst) {
            return INTERRUPTED;
        }
    }
    code
}
