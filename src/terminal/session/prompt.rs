//! The prompt: a person types, the page answers.

use super::asking::{Asking, Completeness, STOPPED};
use super::world::workshop_value;
use super::{After, Session};
use crate::diagnostic::Diagnostic;
use crate::engine::limits::StopFlag;
use crate::notebook::{Page, members_of, one_line};
use crate::quantity::Style;
use crate::recipe::{Description, Possible, Reply, Task, library, run};
use crate::terminal::app::{App, DONE, FAILED};
use crate::terminal::files;
use crate::terminal::recipe_folders::RecipeFolders;
use crate::terminal::recipes;
use crate::terminal::typing::TypingHelper;
use crate::terminal::typing::completion_source::CompletionSource;
use crate::terminal::typing::hints::HintLook;
use crate::ticket::WorkshopOrder;
use crate::workshop::Workshop;
use rustyline::error::ReadlineError;
use rustyline::history::FileHistory;
use rustyline::{CompletionType, Config, Editor};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// Plain ASCII, so that its width is never in doubt.
const PROMPT: &str = "> ";
/// The prompt for more of an unfinished line.
const MORE: &str = "... ";
/// The prompt for an answer to a question.
const ANSWER: &str = "  ? ";

type LineEditor = Editor<TypingHelper, FileHistory>;

/// What completion and hints see while a line is typed. It holds the session's page for that time.
#[derive(Default)]
pub(crate) struct PageView {
    page: RefCell<Page>,
    style: RefCell<Style>,
    /// What the question may be answered with that is being asked.
    question: RefCell<Option<Rc<Possible>>>,
    /// The workshop that is open, whose goods, trials and sizes answers name.
    workshop: RefCell<Arc<Workshop>>,
    recipes: RefCell<BTreeMap<String, Rc<Description>>>,
    folder: PathBuf,
    recipe_folders: RefCell<RecipeFolders>,
}

impl CompletionSource for PageView {
    fn names_from(&self, prefix: &str, most: usize) -> Vec<String> {
        self.page.borrow().names_from(prefix).take(most).map(str::to_owned).collect()
    }

    fn workshop_names(&self) -> Vec<String> {
        self.workshop.borrow().cell_names().collect()
    }

    fn value_of(&self, name: &str) -> Option<String> {
        let page = self.page.borrow();
        let style = *self.style.borrow();
        let (cell, path) = name.split_once('.').unwrap_or((name, ""));
        let value = match page.value(cell) {
            Some(value) => value.ok()?.clone(),
            None => workshop_value(&self.workshop.borrow(), cell)?,
        };
        let value = if path.is_empty() { value } else { crate::notebook::member(&value, path)? };
        one_line(&value, &style).ok()
    }

    fn members_of(&self, name: &str) -> Vec<String> {
        let page = self.page.borrow();
        let (cell, path) = name.split_once('.').unwrap_or((name, ""));
        let value = match page.value(cell) {
            Some(value) => value.ok().cloned(),
            None => workshop_value(&self.workshop.borrow(), cell),
        };
        let Some(value) = value else { return Vec::new() };
        if path.is_empty() {
            return members_of(&value);
        }
        crate::notebook::member(&value, path).map(|value| members_of(&value)).unwrap_or_default()
    }

    fn recipes(&self) -> Vec<String> {
        recipes::names(&self.recipe_folders.borrow()).collect()
    }

    fn inputs_of(&self, recipe: &str) -> Vec<(String, String)> {
        let Some(description) = self.description(recipe) else { return Vec::new() };
        description.inputs.iter().map(|input| (input.name.clone(), input.question.clone())).collect()
    }

    fn files_from(&self, typed: &str) -> Vec<String> {
        files::names_from(&self.folder, typed, 500)
    }

    fn recipe_in(&self, cell: &str) -> Option<String> {
        self.page.borrow().order_of(cell).map(|(recipe, _)| recipe)
    }

    fn answered_besides(&self, recipe: &str) -> Vec<String> {
        let Some(description) = self.description(recipe) else { return Vec::new() };
        let besides = description.answered_besides(&self.workshop.borrow());
        besides.into_iter().map(|(name, ..)| name.to_owned()).collect()
    }

    fn possible(&self, recipe: &str, input: &str) -> Option<Possible> {
        self.description(recipe)?.possible(input, &self.workshop.borrow(), &self.style.borrow())
    }

    fn question(&self) -> Option<Rc<Possible>> {
        self.question.borrow().clone()
    }
}

fn described(recipe: &str) -> Option<Rc<Description>> {
    let recipe = library::shipped(recipe)?;
    match run::answer_in(&recipe, &Workshop::default(), false, &Task::Describe, StopFlag::default()) {
        Reply::Described(description) => Some(Rc::new(description)),
        _ => None,
    }
}

fn editor() -> Option<LineEditor> {
    let config =
        Config::builder().auto_add_history(false).bracketed_paste(true).completion_type(CompletionType::List).build();
    LineEditor::with_config(config).ok()
}

/// Gives an editor the tab key and hints; returns what they see.
fn helped(editor: &mut LineEditor, app: &App<'_>) -> Rc<PageView> {
    let view = Rc::new(PageView { folder: app.folder.clone(), ..PageView::default() });
    let source: Rc<dyn CompletionSource> = view.clone();
    let look = HintLook::choose(app.output.plain, &app.variables);
    editor.set_helper(Some(TypingHelper::new(source, look, || crate::terminal::window_width().unwrap_or(80))));
    view
}

/// Asks what an order lacks, then makes it; `None` if the person stopped.
///
/// # Errors
/// The order is refused, or its recipe cannot be run.
pub(crate) fn ask_order(
    app: &mut App<'_>,
    recipe: &str,
    answers: Vec<(String, String)>,
) -> Result<Option<Rc<WorkshopOrder>>, Diagnostic> {
    let mut session = Session::new(app, true);
    let asking = match Asking::begin(&session, app, recipe, None, answers, "")? {
        Completeness::Complete(answers) => return app.order(recipe, Task::run(answers), false).map(Rc::new).map(Some),
        Completeness::Incomplete(asking) => asking,
    };
    session.asking = Some(*asking);
    let Some(mut editor) = editor() else { return Ok(None) };
    let view = helped(&mut editor, app);
    session.ask_first(app);
    while session.asking.is_some() {
        app.output.flush();
        view.take_page(&mut session, app);
        let typed = editor.readline(ANSWER);
        view.return_page(&mut session);
        let Ok(typed) = typed else {
            app.output.eprint(STOPPED);
            return Ok(None);
        };
        if let Some(answers) = session.answer(app, &typed).1 {
            return app.order(recipe, Task::run(answers), false).map(Rc::new).map(Some);
        }
    }
    Ok(None)
}

/// Runs the prompt until the person leaves; returns the exit code.
pub(crate) fn run(app: &mut App<'_>) -> u8 {
    let Some(mut editor) = editor() else {
        return app.failed("the terminal cannot be used for typing; give lines through a pipe instead");
    };
    let history = history_file(app);
    if let Some(file) = &history {
        // A first session has no history yet.
        let _loaded = editor.load_history(file);
    }
    let mut session = Session::new(app, true);
    greet(&session, app, history.as_deref().is_some_and(Path::exists));
    let view = helped(&mut editor, app);
    let mut waiting = String::new();
    loop {
        app.output.flush();
        let prompt = match (waiting.is_empty(), session.is_asking()) {
            (true, true) => ANSWER,
            (true, false) => PROMPT,
            (false, _) => MORE,
        };
        view.take_page(&mut session, app);
        let typed = editor.readline(prompt);
        view.return_page(&mut session);
        match typed {
            Ok(typed) => {
                // A Ctrl-C that came too late for the last line must not stop this one.
                app.stop.store(false, Ordering::SeqCst);
                app.output.follow_window();
                if !waiting.is_empty() {
                    waiting.push('\n');
                }
                waiting.push_str(&typed);
                if session.is_open(&waiting) {
                    continue;
                }
                let text = std::mem::take(&mut waiting);
                if !session.is_asking() {
                    remember(&mut editor, history.as_deref(), &text);
                }
                if each_line(&mut session, app, &text) == After::Leave {
                    return leave(&mut session, app);
                }
                // Like any line, the order that questions led to can be recalled and edited.
                if let Some(line) = session.placed.take() {
                    remember(&mut editor, history.as_deref(), &line);
                }
            }
            Err(ReadlineError::Interrupted) if session.is_asking() => {
                let dropped = session.drop_questions();
                app.output.eprint(dropped);
            }
            Err(ReadlineError::Interrupted) if waiting.is_empty() => app.output.eprint("Ctrl-D or “leave” leaves"),
            Err(ReadlineError::Interrupted) => {
                waiting.clear();
                app.output.eprint("the unfinished lines are dropped");
            }
            // No message: the page is kept, and the next start says so.
            Err(ReadlineError::Eof) => return if session.keep(app) { DONE } else { FAILED },
            Err(_) => {
                app.output.eprint("the terminal was lost");
                return FAILED;
            }
        }
    }
}

impl PageView {
    /// A view of a page outside a session, for benchmarks.
    pub(crate) fn on(page: Page, style: Style) -> Self {
        Self { page: RefCell::new(page), style: RefCell::new(style), ..Self::default() }
    }

    /// The description of a recipe, if it is known or shipped.
    fn description(&self, recipe: &str) -> Option<Rc<Description>> {
        let known = self.recipes.borrow().get(recipe).cloned();
        // A shipped recipe is run once, which takes a few milliseconds; a key runs no other.
        let description = known.or_else(|| described(recipe))?;
        self.recipes.borrow_mut().insert(recipe.to_owned(), Rc::clone(&description));
        Some(description)
    }

    /// Takes the page of the session while a line is typed, and what the session asks.
    pub(super) fn take_page(&self, session: &mut Session, app: &App<'_>) {
        self.question.replace(session.possible().map(Rc::new));
        self.workshop.replace(Arc::clone(&app.opened.workshop));
        self.recipe_folders.replace(app.recipe_folders());
        self.page.replace(std::mem::take(&mut session.page));
        self.style.replace(session.host.style());
    }

    pub(super) fn return_page(&self, session: &mut Session) {
        session.page = self.page.take();
    }
}

/// Prints the greeting, and whether a page was left without a name.
pub(super) fn greet(session: &Session, app: &mut App<'_>, was_here_before: bool) {
    app.output.print_wrapped("Type a sum such as 23 in / 2 in * 10, or help. Ctrl-D leaves.");
    if let Some(left) = session.file.left_pages().first() {
        let lines = left.lines();
        let lines = if lines == 1 { "1 line".to_owned() } else { format!("{lines} lines") };
        app.output.print_wrapped(&format!("Your last page ({lines}) has no name yet: open left brings it back."));
    } else if !was_here_before {
        app.output.print_wrapped("New here? tour shows you round in five minutes.");
    }
    if app.opened.folder.is_none() {
        app.output.print_wrapped(
            "No workshop is in this folder: own workshop asks for yours, demo workshop lays down an invented one.",
        );
    }
}

/// Says where the page is kept.
pub(super) fn leave(session: &mut Session, app: &mut App<'_>) -> u8 {
    if !session.keep(app) {
        return FAILED;
    }
    if session.file.path().is_none() && !session.page.is_empty() && app.state_folder.is_some() {
        app.output.print_wrapped("The page is kept: open left brings it back.");
    }
    DONE
}

/// Runs the lines of one input one by one, up to the first that fails: a paste may bring several at once.
pub(super) fn each_line(session: &mut Session, app: &mut App<'_>, text: &str) -> After {
    // An empty line is an answer: it takes what is usual.
    if text.is_empty() && session.is_asking() {
        return session.line(app, text);
    }
    let mut lines = text.lines().peekable();
    let mut waiting = String::new();
    while let Some(line) = lines.next() {
        if !waiting.is_empty() {
            waiting.push('\n');
        }
        waiting.push_str(line);
        if lines.peek().is_some() && session.is_open(&waiting) {
            continue;
        }
        let after = session.line(app, &std::mem::take(&mut waiting));
        let stopped = app.stop.swap(false, Ordering::SeqCst);
        let left = lines.clone().count();
        if (after == After::Failed || stopped) && left > 0 {
            app.output.eprint(&format!("stopped here; {left} more lines were not run"));
            return After::Failed;
        }
        if after == After::Leave {
            return After::Leave;
        }
    }
    After::Done
}

pub(super) fn history_file(app: &App<'_>) -> Option<PathBuf> {
    let folder = app.state_folder.as_ref()?;
    files::make_folders(folder).ok()?;
    Some(folder.join("history.txt"))
}

/// Appends to the history at once, so that two windows do not lose each other's lines.
fn remember(editor: &mut LineEditor, file: Option<&Path>, text: &str) {
    if text.trim().is_empty() {
        return;
    }
    // History is a convenience: a full disk must not stop the work.
    let _added = editor.add_history_entry(text);
    if let Some(file) = file {
        let _kept = editor.append_history(file);
    }
}
