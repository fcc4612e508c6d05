//! Sets up a workshop: asks its questions one after the other, then those of a first order, and writes the files after the
//! last answer and never before.
//!
//! Never here: what an answer means to the files, which the workshop's own readers say.

use super::asking::help_on;
use super::{After, Session};
use crate::diagnostic::Diagnostic;
use crate::engine::Host;
use crate::engine::limits::{Limits, StopFlag};
use crate::notebook::{NoWorld, Page, Tools, register};
use crate::quantity::{Liked, Style, Time, Unit};
use crate::recipe::{Possible, Questions, Reply, Task, library, run};
use crate::report::{excerpt, listed};
use crate::terminal::app::{App, refused};
use crate::terminal::files;
use crate::terminal::workshop_folder;
use crate::ticket::WorkshopOrder;
use crate::workshop::{PlainSkirt, SetUp, Workshop, WorkshopFile};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The recipe of the skirt that a person says her time for, and of the usual first order.
const SKIRT: &str = "gathered_skirt";
/// The answer that leaves the first order for later.
const NO_ORDER: &str = "none";

/// A workshop that is being set up.
pub(crate) struct SettingUp {
    answers: SetUp,
    folder: PathBuf,
    /// `None` until the workshop's own questions are answered and a recipe is chosen.
    order: Option<FirstOrder>,
}

/// The first order of the new workshop, while it is asked for.
struct FirstOrder {
    recipe: String,
    questions: Questions,
    /// Reads sums with the new workshop's money and tape.
    host: Host,
    answered: usize,
}

/// What a typed line did.
enum Taken {
    /// It was an answer, understood like this.
    Understood(String),
    /// Something to read; the same question waits.
    Said(String),
    /// It went back a question.
    Back,
}

impl SettingUp {
    /// Begins for a folder.
    ///
    /// # Errors
    /// The folder has a workshop already, or cannot be written to.
    pub(crate) fn begin(app: &mut App<'_>, folder: PathBuf) -> Result<Self, Diagnostic> {
        refuse_files_there(app, "own workshop", &folder, &WorkshopFile::ALL.map(WorkshopFile::name))?;
        files::check_room(&folder)?;
        let inch = plain_skirt(app, "waist 24 in, 17 1/2 in long", ["24 in", "17 1/2 in", "any 44 in", "1 in"])?;
        let metric = plain_skirt(app, "waist 60 cm, 45 cm long", ["60 cm", "45 cm", "any 112 cm", "2.5 cm"])?;
        Ok(Self { answers: SetUp::new([inch, metric]), folder, order: None })
    }

    /// The next question as it is shown; `None` when everything is answered.
    fn question(&self, plain: bool) -> Option<String> {
        let (number, asks, usual) = match (self.answers.next(), &self.order) {
            (Some(question), _) => (question.number, question.asks, question.usual),
            (None, None) => {
                let asks = format!("your first order: which recipe? list shows them, {NO_ORDER} leaves it for later");
                (self.answers.answered() + 1, asks, Some(SKIRT.to_owned()))
            }
            (None, Some(order)) => {
                let question = order.questions.next()?;
                (self.answers.answered() + 2 + order.answered, question.to_string(), self.usual_goods())
            }
        };
        let lines =
            asks.split_once('\n').map_or((asks.as_str(), String::new()), |(first, rest)| (first, format!("\n{rest}")));
        Some(match usual {
            Some(usual) if plain => format!("{number}: {}{}\n  Enter = {usual}", lines.0, lines.1),
            Some(usual) => format!("{number}  {}  [{usual}]{}", lines.0, lines.1),
            None if plain => format!("{number}: {asks}"),
            None => format!("{number}  {asks}"),
        })
    }

    /// The goods of the new workshop that an empty line takes at the next question of the order.
    fn usual_goods(&self) -> Option<String> {
        let questions = &self.order.as_ref()?.questions;
        let input = questions.next()?.input;
        let [cloth, elastic] = self.answers.goods();
        let is_used = |name: &str| questions.answers().iter().any(|(_, answer)| answer == name);
        let usual = [
            cloth.filter(|cloth| !is_used(cloth)),
            elastic.filter(|_| input.contains("elastic")),
            // A cloth must be said; goods that are counted or measured off may stay unnamed and unpriced.
            Some("any"),
        ];
        usual.into_iter().flatten().find(|name| questions.is_answered_by(name)).map(str::to_owned)
    }

    /// Takes a line that is no word of its own.
    fn answer(&mut self, app: &mut App<'_>, typed: &str) -> Result<String, Diagnostic> {
        if self.answers.next().is_some() {
            return self.answers.answer(typed);
        }
        let usual = self.usual_goods().filter(|_| typed.is_empty());
        match &mut self.order {
            None => self.choose(app, typed),
            Some(order) => {
                let page = Page::default();
                let host = &order.host;
                let evaluate = |typed: &str| page.answer(&mut Tools { host, world: &mut NoWorld }, typed);
                let echo = order.questions.answer(usual.as_deref().unwrap_or(typed), &evaluate)?;
                order.answered += 1;
                let warnings = order.questions.warnings().into_iter();
                Ok(warnings.fold(echo, |echo, warning| format!("{echo}\n  measure again? {warning}")))
            }
        }
    }

    /// Chooses the recipe of the first order.
    fn choose(&mut self, app: &mut App<'_>, typed: &str) -> Result<String, Diagnostic> {
        let recipe = if typed.is_empty() { SKIRT } else { typed };
        let description = app.description(recipe)?;
        let workshop = self.answers.workshop();
        let style = app.output.style(workshop.settings.style());
        let mut host = Host::new(workshop.settings.reading(), style, Limits::CELL, Arc::clone(&app.stop));
        register(&mut host);
        let no_sum = |typed: &str| Page::default().answer(&mut Tools { host: &host, world: &mut NoWorld }, typed);
        let questions = Questions::new((*description).clone(), &workshop, style, Vec::new(), &BTreeMap::new(), &no_sum);
        let questions = questions.map_err(refused)?;
        self.order = Some(FirstOrder { recipe: recipe.to_owned(), questions, host, answered: 0 });
        Ok(recipe.to_owned())
    }

    fn back(&mut self) -> bool {
        let Some(order) = &mut self.order else { return self.answers.back() };
        if order.questions.back() {
            order.answered -= 1;
        } else {
            self.order = None;
        }
        true
    }

    fn help(&self) -> String {
        match (self.answers.next(), &self.order) {
            (Some(question), _) => format!("  {}", question.help),
            (None, Some(order)) => order.questions.help().unwrap_or_default(),
            (None, None) => {
                format!(
                    "  type the name of a recipe; describe NAME tells more of one once this is done; {NO_ORDER} ends here"
                )
            }
        }
    }

    /// What can be chosen at the next question, a line each.
    fn list(&self) -> String {
        let all: Vec<String> = match (self.answers.next(), &self.order) {
            (None, None) => library::shipped_names().map(str::to_owned).collect(),
            (None, Some(order)) => order.questions.next().map(|question| question.all).unwrap_or_default(),
            (Some(_), _) => Vec::new(),
        };
        if all.is_empty() { "there is nothing to choose from".to_owned() } else { all.join("\n") }
    }

    /// What the next question may be answered with.
    pub(super) fn possible(&self) -> Possible {
        match (self.answers.next(), &self.order) {
            (Some(question), _) => Possible::words(question.offers.iter().copied()),
            (None, None) => Possible::words(library::shipped_names().chain([NO_ORDER])),
            (None, Some(order)) => order.questions.next().map(|question| question.possible).unwrap_or_default(),
        }
    }

    /// Whether a word answers the next question, although it is a word of the asking too.
    fn is_answered_by(&self, word: &str) -> bool {
        self.order.as_ref().is_some_and(|order| order.questions.is_answered_by(word))
    }

    fn is_done(&self, chose_none: bool) -> bool {
        self.answers.next().is_none()
            && (chose_none || self.order.as_ref().is_some_and(|order| order.questions.next().is_none()))
    }

    fn take(&mut self, app: &mut App<'_>, typed: &str, word: &str) -> Result<Taken, Diagnostic> {
        match word {
            "help" | "?" if !self.is_answered_by(typed) => Ok(Taken::Said(self.help())),
            "list" if !self.is_answered_by(typed) => Ok(Taken::Said(self.list())),
            "back" => {
                if self.back() {
                    Ok(Taken::Back)
                } else {
                    Err(Diagnostic::new("this is the first question"))
                }
            }
            _ => self.answer(app, typed).map(Taken::Understood),
        }
    }
}

impl Session {
    /// Begins to set up a workshop in a folder: says where, and asks the first question.
    pub(crate) fn begin_set_up(&mut self, app: &mut App<'_>, folder: PathBuf) -> Result<After, Diagnostic> {
        let set_up = SettingUp::begin(app, folder)?;
        app.output.print_wrapped(&format!("your workshop, in the folder {}", folder_words(app, &set_up.folder)));
        let usual = if app.output.plain { "Enter = the usual answer" } else { "Enter = what stands in [ ]" };
        app.output.print_wrapped(&format!(
            "{usual}; back = the question before; help explains it; cancel or Ctrl-C stops; nothing is written before the last answer"
        ));
        self.setting_up = Some(Box::new(set_up));
        self.ask_set_up(app);
        Ok(After::Done)
    }

    fn ask_set_up(&mut self, app: &mut App<'_>) {
        let question = self.setting_up.as_ref().and_then(|set_up| set_up.question(app.output.plain));
        if let Some(question) = question {
            app.output.print_wrapped(&question);
        }
    }

    /// Handles a line typed while a workshop is set up.
    pub(crate) fn take_set_up_answer(&mut self, app: &mut App<'_>, typed: &str) -> After {
        let Some(mut set_up) = self.setting_up.take() else { return After::Done };
        let typed = typed.trim();
        let word = typed.to_lowercase();
        if ["cancel", "leave", "quit", "exit"].contains(&word.as_str()) && !set_up.is_answered_by(typed) {
            app.output.eprint(SET_UP_DROPPED);
            return After::Done;
        }
        let help = help_on(app, typed, &set_up.possible()).filter(|_| !set_up.is_answered_by(typed));
        if let Some(help) = help {
            let after = app.tell(help);
            self.setting_up = Some(set_up);
            self.ask_set_up(app);
            return after;
        }
        let chooses = set_up.answers.next().is_none() && set_up.order.is_none();
        let chose_none = chooses && word == NO_ORDER;
        let mut after = After::Done;
        if !chose_none {
            match set_up.take(app, typed, &word) {
                Ok(Taken::Understood(echo)) => app.output.print_wrapped(&format!("  {echo}")),
                Ok(Taken::Said(text)) => {
                    app.output.print_wrapped(&text);
                    self.setting_up = Some(set_up);
                    return After::Done;
                }
                Ok(Taken::Back) => {}
                Err(error) => {
                    app.output.eprint(&excerpt::text(&error));
                    after = After::Failed;
                }
            }
        }
        if !set_up.is_done(chose_none) {
            self.setting_up = Some(set_up);
            self.ask_set_up(app);
            return after;
        }
        match self.finish_set_up(app, &set_up) {
            Ok(after) => after,
            Err(error) => {
                app.output.eprint(&format!("nothing was written: {}", excerpt::text(&error)));
                // The answers stay, so that they are not lost for a full disk.
                set_up.back();
                self.setting_up = Some(set_up);
                self.ask_set_up(app);
                After::Failed
            }
        }
    }

    /// Writes the files, takes up the workshop and places the first order.
    fn finish_set_up(&mut self, app: &mut App<'_>, set_up: &SettingUp) -> Result<After, Diagnostic> {
        let texts = set_up.answers.files().map_err(|_| Diagnostic::new("the files cannot be put together"))?;
        files::create_all(&set_up.folder, &texts)?;
        let names: Vec<&str> = texts.iter().map(|(name, _)| name.as_str()).collect();
        self.take_up_workshop(app, &set_up.folder, &names)?;
        app.output.print_wrapped(
            "usual and not asked: 5 % waste (rates.csv), goods by the length sold by 1/8 yd or 0.1 m (materials.csv)",
        );
        let Some(order) = &set_up.order else { return Ok(After::Done) };
        let cell = self.free_name("first");
        let after = self.place_order(app, &order.recipe, &cell, &order.questions.answers(), "");
        Ok(self.show_placed(app, &cell).unwrap_or(after))
    }

    /// Opens the workshop of a folder whose files were just made, reads the page anew by its settings, and says where it
    /// is.
    pub(crate) fn take_up_workshop(
        &mut self,
        app: &mut App<'_>,
        folder: &Path,
        names: &[&str],
    ) -> Result<(), Diagnostic> {
        app.opened = workshop_folder::open(Some(folder), &app.folder, None)
            .map_err(|errors| Diagnostic::several("the workshop's files cannot be read:", errors))?;
        self.host = app.host();
        let text = self.page.text();
        let is_read_anew = !self.page.is_empty();
        self.page = Page::read(&mut Tools { host: &self.host, world: app }, &text);
        self.watch_anew(app);
        let are = if names.len() == 1 { "is" } else { "are" };
        let names = listed(names);
        let opens = match folder.strip_prefix(&app.folder) {
            Ok(inside) if !inside.as_os_str().is_empty() => {
                format!("; the next time, start there or type shirr --workshop {}", inside.display())
            }
            _ => String::new(),
        };
        app.output.print_wrapped(&format!("{names} {are} in the folder {}{opens}", folder_words(app, folder)));
        if is_read_anew {
            app.output.print_wrapped("the page was worked out anew");
        }
        Ok(())
    }

    /// A name that no cell has: `first`, else `first_2` and so on.
    fn free_name(&self, name: &str) -> String {
        let is_free = |name: &String| self.page.value(name).is_none();
        if is_free(&name.to_owned()) {
            return name.to_owned();
        }
        (2..10_000).map(|number| format!("{name}_{number}")).find(is_free).unwrap_or_default()
    }
}

/// A folder as it is typed here; the one that the program was started in, in full.
pub(crate) fn folder_words(app: &App<'_>, folder: &Path) -> String {
    let inside = folder.strip_prefix(&app.folder).ok().filter(|inside| !inside.as_os_str().is_empty());
    inside.unwrap_or(folder).display().to_string()
}

/// What is said when a set-up is dropped.
pub(crate) const SET_UP_DROPPED: &str = "stopped; nothing was written";

/// Refuses files that are there already: none is ever written over. `typed` is the line, without a folder.
pub(crate) fn refuse_files_there(app: &App<'_>, typed: &str, folder: &Path, names: &[&str]) -> Result<(), Diagnostic> {
    let there: Vec<&str> = names.iter().copied().filter(|name| folder.join(name).exists()).collect();
    if there.is_empty() {
        return Ok(());
    }
    let (names, are) = (listed(&there), if there.len() == 1 { "is" } else { "are" });
    let own = app.opened.folder.as_deref() == Some(folder);
    let add = if own { "; add puts one more line into those that are there" } else { "" };
    Err(Diagnostic::new(format!("{names} {are} in {} already, and no file is written over", folder_words(app, folder)))
        .hinting(format!("type {typed} in mine for a folder of its own{add}")))
}

/// The plain skirt with the built-in minutes that it takes.
fn plain_skirt(
    app: &App<'_>,
    sizes: &str,
    [waist, skirt, cloth, elastic]: [&str; 4],
) -> Result<PlainSkirt, Diagnostic> {
    let answers =
        [("waist", waist), ("skirt", skirt), ("cloth", cloth), ("elastic", "any"), ("elastic_width", elastic)];
    let mut workshop = Workshop::default();
    workshop.rates.built_in_times = Some(1.0);
    let style = Style::default();
    let reply = library::shipped(SKIRT)
        .map(|recipe| run::answer_in(&recipe, &workshop, false, &Task::run(answers), StopFlag::default()));
    let minutes = match reply {
        Some(Reply::Ran(ticket)) => WorkshopOrder::new(*ticket, Arc::new(workshop), &style, app.planner.clone())
            .and_then(|order| order.total_minutes())
            .ok()
            .flatten(),
        _ => None,
    };
    let minutes: Option<Time> = minutes.map(|minutes| minutes.liking(Liked::unit(Unit::Minute)));
    let minutes = minutes.ok_or_else(|| Diagnostic::new("the built-in minutes cannot be worked out"))?;
    Ok(PlainSkirt { sizes: sizes.to_owned(), minutes })
}
