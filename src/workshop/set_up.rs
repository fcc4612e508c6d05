//! The questions that a new workshop is set up with, one after the other, and the files that come of the answers.
//!
//! An answer is checked as it is given, by the readers of the files it will stand in. Nothing is written before the last:
//! until then the workshop is only in memory. Never here: the prompt that reads the lines, the first order, files on disk.

use super::file_error::said;
use super::rates::Overhead;
use super::set_up_rows::{Row, SetUpRows};
use super::typed::Typed;
use super::{Workshop, WorkshopFile};
use crate::diagnostic::Diagnostic;
use crate::quantity::{Dimension, Quantity, Style, Tape, Time, Unit};
use std::io;

/// Cloth added at a flat rate until the workshop says its own: a usual start, common practice, no source.
const WASTE: f64 = 0.05;

/// A skirt that a person can say her time for, and the built-in minutes that the program reckons for it.
#[derive(Clone, Debug)]
pub(crate) struct PlainSkirt {
    /// Its sizes: `waist 24 in, 17 1/2 in long`.
    pub(crate) sizes: String,
    /// The built-in minutes of one.
    pub(crate) minutes: Time,
}

/// A question of the set-up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct SetUpQuestion {
    /// How many were answered before it, and one.
    pub(crate) number: usize,
    /// What it asks, with an example where one helps.
    pub(crate) asks: String,
    /// What an empty answer takes; `None` if something must be typed.
    pub(crate) usual: Option<String>,
    /// Answers that are words, where they are few.
    pub(crate) offers: &'static [&'static str],
    /// What helps to answer it.
    pub(crate) help: &'static str,
}

/// The questions, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step {
    Tape,
    Money,
    Wage,
    Overhead,
    MarkUp,
    Fee,
    Minutes,
    Cloth,
    Width,
    Price,
    Washed,
    Loss,
    Elastic,
    ElasticPrice,
    Thread,
}

const STEPS: [Step; 15] = [
    Step::Tape,
    Step::Money,
    Step::Wage,
    Step::Overhead,
    Step::MarkUp,
    Step::Fee,
    Step::Minutes,
    Step::Cloth,
    Step::Width,
    Step::Price,
    Step::Washed,
    Step::Loss,
    Step::Elastic,
    Step::ElasticPrice,
    Step::Thread,
];

const NONE: &str = "none";
const NOT_MEASURED: &str = "not measured";

/// A workshop that is being set up.
#[derive(Clone, Debug)]
pub(crate) struct SetUp {
    /// On the inch tape and on the metric one.
    skirts: [PlainSkirt; 2],
    /// What was answered, the latest last, each with the fields it fills.
    taken: Vec<(Step, SetUpRows)>,
    /// What the answers make together.
    workshop: Workshop,
}

impl SetUp {
    /// Begins with nothing answered. The skirts are the one on the inch tape and the one on the metric tape.
    pub(crate) fn new(skirts: [PlainSkirt; 2]) -> Self {
        Self { skirts, taken: Vec::new(), workshop: Workshop::default() }
    }

    /// The next question; `None` when everything is answered.
    pub(crate) fn next(&self) -> Option<SetUpQuestion> {
        let step = self.step()?;
        let inch = self.is_inch();
        let sign = self.workshop.settings.currency;
        let asks = match step {
            Step::Tape => "your tape: inch or cm?".to_owned(),
            Step::Money => "your money: $, £ or €?".to_owned(),
            Step::Wage => format!("an hour of your work, such as {sign}20?"),
            Step::Overhead => "rent, light and repairs for an hour of work?".to_owned(),
            Step::MarkUp => "mark-up on what an order costs you?".to_owned(),
            Step::Fee => "what a marketplace or a card keeps of the price?".to_owned(),
            Step::Minutes => {
                format!("how long a plain gathered skirt takes you, {}, cutting to packing?", self.skirt().sizes)
            }
            Step::Cloth => "the cloth you use most: its name?".to_owned(),
            Step::Width => "its usable width, without the selvedges?".to_owned(),
            Step::Price => format!("its price, such as {sign}8/{}?", if inch { "yd" } else { "m" }),
            Step::Washed => "do you wash it before you cut it, yes or no?".to_owned(),
            Step::Loss => "what the wash takes of it, along and across, such as 3 % and 2 %?".to_owned(),
            Step::Elastic => {
                format!("an elastic you use: name and width, such as soft {}?", if inch { "1 in" } else { "25 mm" })
            }
            Step::ElasticPrice => format!("its price, such as {sign}1/{}?", if inch { "yd" } else { "m" }),
            Step::Thread => {
                format!(
                    "your sewing thread: its price, such as {sign}5 for {}?",
                    if inch { "1000 yd" } else { "1000 m" }
                )
            }
        };
        let number = self.taken.len() + 1;
        Some(SetUpQuestion { number, asks, usual: self.usual(step), offers: offers(step), help: help(step) })
    }

    /// Takes an answer to the next question and returns how it was understood.
    ///
    /// # Errors
    /// The answer cannot be taken; the same question comes again.
    pub(crate) fn answer(&mut self, typed: &str) -> Result<String, Diagnostic> {
        let Some(step) = self.step() else { return Err(Diagnostic::new("everything is answered")) };
        let typed = match self.usual(step) {
            Some(usual) if typed.trim().is_empty() => usual,
            _ => typed.trim().to_owned(),
        };
        if typed.is_empty() {
            return Err(Diagnostic::new("nothing was typed").hinting(help(step)));
        }
        let rows = self.rows(step, &typed)?;
        let mut taken = self.taken.clone();
        taken.push((step, rows));
        self.workshop = together(&taken)?;
        self.taken = taken;
        Ok(self.echo(step, &typed))
    }

    /// Goes back to the question before and drops its answer; returns false at the first question.
    pub(crate) fn back(&mut self) -> bool {
        let had = self.taken.pop().is_some();
        // What was taken before fitted together before.
        if let Ok(workshop) = together(&self.taken) {
            self.workshop = workshop;
        }
        had
    }

    /// How many questions are answered.
    pub(crate) fn answered(&self) -> usize {
        self.taken.len()
    }

    /// The workshop that the answers make, with what is usual until its files say otherwise.
    pub(crate) fn workshop(&self) -> Workshop {
        let mut workshop = self.workshop.clone();
        workshop.rates.waste = Some(WASTE);
        workshop
    }

    /// The names of the cloth and the elastic, for the first order.
    pub(crate) fn goods(&self) -> [Option<&str>; 2] {
        let named = |row| {
            let filled = self.taken.iter().find_map(|(_, rows)| rows.get(row, "material"));
            self.workshop.materials.find(filled?).map(|material| material.name.as_str())
        };
        [named(Row::Cloth), named(Row::Elastic)]
    }

    /// The files, each its name and its text; what is usual and not hers is said in their remarks.
    ///
    /// # Errors
    /// None in memory.
    pub(crate) fn files(&self) -> io::Result<Vec<(String, Vec<u8>)>> {
        let workshop = self.workshop();
        let mut files = Vec::new();
        for (file, remarks) in REMARKS {
            let mut text = Vec::new();
            for remark in *remarks {
                text.extend_from_slice(format!("# {remark}\r\n").as_bytes());
            }
            workshop.write(*file, &mut text)?;
            files.push((file.name().to_owned(), text));
        }
        Ok(files)
    }

    fn step(&self) -> Option<Step> {
        STEPS.into_iter().find(|step| self.is_asked(*step) && !self.taken.iter().any(|(taken, _)| taken == step))
    }

    fn is_asked(&self, step: Step) -> bool {
        let is_there = |row, column| self.taken.iter().any(|(_, rows)| rows.get(row, column).is_some());
        match step {
            Step::Loss => is_there(Row::Cloth, "washing"),
            Step::ElasticPrice => is_there(Row::Elastic, "material"),
            _ => true,
        }
    }

    fn is_inch(&self) -> bool {
        self.workshop.settings.tape == Tape::Inch
    }

    fn skirt(&self) -> &PlainSkirt {
        let [inch, metric] = &self.skirts;
        if self.is_inch() { inch } else { metric }
    }

    fn usual(&self, step: Step) -> Option<String> {
        let usual = match step {
            Step::Tape => "inch",
            Step::Money => "$",
            Step::Overhead => "0",
            Step::MarkUp | Step::Fee => "0 %",
            Step::Washed => "no",
            Step::Loss => NOT_MEASURED,
            Step::Elastic | Step::Thread => NONE,
            Step::Minutes => return Some(whole_minutes(self.skirt().minutes)),
            Step::Wage | Step::Cloth | Step::Width | Step::Price | Step::ElasticPrice => return None,
        };
        Some(usual.to_owned())
    }

    /// The fields that an answer fills.
    fn rows(&self, step: Step, typed: &str) -> Result<SetUpRows, Diagnostic> {
        let own = Typed { settings: &self.workshop.settings };
        let word = typed.to_lowercase();
        let mut rows = SetUpRows::default();
        match step {
            Step::Tape => {
                let tape = match word.as_str() {
                    "in" | "inch" | "inches" => "inch",
                    "cm" | "mm" | "m" | "metric" => "metric",
                    _ => return Err(Diagnostic::new(format!("“{typed}” is no tape")).hinting(help(step))),
                };
                rows.put(Row::Setting("tape"), "value", tape);
            }
            Step::Money => {
                let sign = match word.trim_end_matches('s') {
                    "dollar" => "$",
                    "pound" => "£",
                    "euro" => "€",
                    "$" | "£" | "€" => typed,
                    _ => {
                        return Err(Diagnostic::new(format!("“{typed}” is no money that is known")).hinting(help(step)));
                    }
                };
                rows.put(Row::Setting("currency"), "value", sign);
            }
            Step::Wage => rows.put(Row::Rate("wage"), "value", &own.by_the_hour(typed)),
            Step::Overhead => rows.put_amount(Row::Rate("overhead"), &own.by_the_hour_or_share(typed), own),
            Step::MarkUp => rows.put_amount(Row::Rate("mark-up"), &own.share(typed), own),
            Step::Fee => rows.put_amount(Row::Rate("fee"), &own.share(typed), own),
            Step::Minutes => rows.put(Row::Rate("built-in minutes"), "value", &self.times(typed)?),
            Step::Cloth => rows.put(Row::Cloth, "material", typed),
            Step::Width => rows.put(Row::Cloth, "usable width", &own.length(typed)),
            Step::Price => rows.put_price(Row::Cloth, own.price(typed)?),
            Step::Washed => match word.as_str() {
                "yes" | "y" => rows.put(Row::Cloth, "washing", "washed first"),
                "no" | "n" => {}
                _ => return Err(Diagnostic::new(format!("“{typed}” is neither yes nor no")).hinting(help(step))),
            },
            Step::Loss if word == NOT_MEASURED => {}
            Step::Loss => {
                let (along, across) = shares(typed);
                rows.put(Row::Cloth, "shrink along", &own.share(&along));
                rows.put(Row::Cloth, "shrink across", &own.share(&across));
            }
            Step::Elastic | Step::Thread if word == NONE => {}
            Step::Elastic => {
                let (name, width) = self.name_and_width(typed, own)?;
                rows.put(Row::Elastic, "material", &name);
                rows.put(Row::Elastic, "usable width", &width);
            }
            Step::ElasticPrice => rows.put_price(Row::Elastic, own.price(typed)?),
            Step::Thread => {
                rows.put(Row::Thread, "material", "sewing thread");
                rows.put_price(Row::Thread, own.price(typed)?);
            }
        }
        Ok(rows)
    }

    /// How many times the built-in minutes a person takes who says this of the plain skirt.
    fn times(&self, typed: &str) -> Result<String, Diagnostic> {
        let own = Typed { settings: &self.workshop.settings };
        let built_in = self.skirt().minutes;
        if typed == whole_minutes(built_in) {
            return Ok("100 %".to_owned());
        }
        let said = own.quantity(&own.minutes(typed)).filter(|said| said.dimension() == Dimension::TIME);
        let Some(said) = said.and_then(|said| Time::try_from(said).ok()).filter(|said| said.is_positive()) else {
            return Err(
                Diagnostic::new(format!("“{typed}” is no time that a skirt takes")).hinting(help(Step::Minutes))
            );
        };
        let times = said / built_in;
        if !(0.1..=10.0).contains(&times) {
            let shown = whole_minutes(built_in);
            return Err(Diagnostic::new(format!("“{typed}” is far from the {shown} that are usual"))
                .hinting("a number alone is in minutes: type 55, or 1 h 10 min"));
        }
        // Two places keep a skirt of an hour within a hundredth of a minute.
        Ok(format!("{} %", format!("{:.2}", times * 100.0).trim_end_matches('0').trim_end_matches('.')))
    }

    /// The elastic's name, which is all that was typed, and its width, with which that ends.
    fn name_and_width(&self, typed: &str, own: Typed<'_>) -> Result<(String, String), Diagnostic> {
        let starts = typed.match_indices(' ').map(|(at, _)| at);
        let found =
            starts.filter_map(|at| Some((typed.get(..at)?.trim(), typed.get(at..)?.trim()))).find(|(_, width)| {
                let width = own.quantity(&own.length(width));
                width.is_some_and(|width| width.dimension() == Dimension::LENGTH)
            });
        if let Some((name, width)) = found {
            let width = own.length(width);
            return Ok((format!("{name} {width}"), width));
        }
        let width = if self.is_inch() { "1 in" } else { "25 mm" };
        Err(Diagnostic::new(format!("“{typed}” does not end in a width"))
            .hinting(format!("type its name and then its width: {typed} {width}")))
    }

    /// How the latest answer was understood.
    fn echo(&self, step: Step, typed: &str) -> String {
        let style = Style { plain: true, ..self.workshop.settings.style() };
        let rates = &self.workshop.rates;
        let share = |share: Option<f64>| {
            style.show(Quantity::number(share.unwrap_or(0.0)).liking(crate::quantity::Liked::unit(Unit::Percent)))
        };
        let goods = |row: Row| {
            let name = self.taken.iter().find_map(|(_, rows)| rows.get(row, "material"));
            name.and_then(|name| self.workshop.materials.find(name))
        };
        let filled = |row: Row, column: &str| {
            let latest = self.taken.last().and_then(|(_, rows)| rows.get(row, column));
            latest.filter(|text| !text.is_empty()).map(str::to_owned)
        };
        let price = |row: Row| {
            let paid = filled(row, "price").unwrap_or_default();
            match (filled(row, "put-up"), filled(row, "sold by")) {
                (Some(put_up), _) => format!("{paid} for {put_up}"),
                (None, Some(step)) if step == "each" => format!("{paid} each"),
                (None, Some(step)) => format!("{paid}, sold by {step}"),
                (None, None) => paid,
            }
        };
        match step {
            Step::Tape => if self.is_inch() { "inch" } else { "cm" }.to_owned(),
            Step::Money => self.workshop.settings.currency.to_string(),
            Step::Wage => rates.wage.map_or_else(String::new, |wage| style.show(wage)),
            Step::Overhead => match rates.overhead {
                Some(Overhead::ByTime(by_time)) => style.show(by_time),
                Some(Overhead::Share(part)) => format!("{} of materials and wages", share(Some(part))),
                None => "nothing".to_owned(),
            },
            Step::MarkUp => share(rates.mark_up),
            Step::Fee => share(rates.fee),
            Step::Minutes => match rates.built_in_times {
                Some(times) if (times - 1.0).abs() > f64::EPSILON => {
                    format!("{} times the built-in minutes", style.show_number(times))
                }
                _ => "the built-in minutes".to_owned(),
            },
            Step::Width => goods(Row::Cloth)
                .and_then(|cloth| cloth.usable_width)
                .map_or_else(String::new, |width| style.show(width.into())),
            Step::Price => price(Row::Cloth),
            Step::Washed if self.is_asked(Step::Loss) => "washed first".to_owned(),
            Step::Washed => "not washed first".to_owned(),
            Step::Loss => match goods(Row::Cloth).map(|cloth| (cloth.shrink_along, cloth.shrink_across)) {
                Some((Some(along), Some(across))) => {
                    format!("{} along, {} across", share(Some(along)), share(Some(across)))
                }
                _ => NOT_MEASURED.to_owned(),
            },
            Step::Elastic => goods(Row::Elastic).map_or_else(|| NONE.to_owned(), |elastic| elastic.name.clone()),
            Step::ElasticPrice => price(Row::Elastic),
            Step::Thread if goods(Row::Thread).is_some() => price(Row::Thread),
            Step::Thread | Step::Cloth => typed.to_owned(),
        }
    }
}

/// The files that are written, each with its remarks: no comma, semicolon or quote, which a spreadsheet would split at.
const REMARKS: &[(WorkshopFile, &[&str])] = &[
    (WorkshopFile::Settings, &["How this workshop measures and pays. A blank value is the usual one."]),
    (
        WorkshopFile::Materials,
        &[
            "What you buy: a line each. A blank loss in the wash is not measured.",
            "Sold by 1/8 yd or 0.1 m is usual and not asked of you: put there what your shop measures off.",
        ],
    ),
    (
        WorkshopFile::Rates,
        &[
            "What an hour and a sale cost. The waste is usual and not asked of you: put your own there.",
            "Minutes are built-in ones as many times as the last line says until an operation has its own line.",
        ],
    ),
];

/// Answers that are words, where they are few.
fn offers(step: Step) -> &'static [&'static str] {
    match step {
        Step::Tape => &["inch", "cm"],
        Step::Money => &["$", "£", "€"],
        Step::Washed => &["yes", "no"],
        Step::Loss => &[NOT_MEASURED],
        Step::Elastic | Step::Thread => &[NONE],
        Step::Wage
        | Step::Overhead
        | Step::MarkUp
        | Step::Fee
        | Step::Minutes
        | Step::Cloth
        | Step::Width
        | Step::Price
        | Step::ElasticPrice => &[],
    }
}

fn help(step: Step) -> &'static str {
    match step {
        Step::Tape => "type inch or cm: a length without a unit is meant on this tape",
        Step::Money => "type $, £ or €",
        Step::Wage => "type what you want for an hour, before rent and mark-up; the sign goes without saying",
        Step::Overhead => "type money for an hour, or a share of materials and wages such as 20 %; 0 if you count none",
        Step::MarkUp => "type a share that is put on the cost, such as 45 %",
        Step::Fee => "type the share of the price that goes to others, such as 6.5 %; the price is raised to cover it",
        Step::Minutes => {
            "type 55, or 1 h 10 min; every built-in operation is taken as many times longer until you time your own"
        }
        Step::Cloth => "type the name you call it by, such as white lawn",
        Step::Width => "type its width between the selvedges as you buy it, before any wash",
        Step::Price => "type the price by the length, or for a put-up: 20 for 3 yd",
        Step::Washed => "type yes if you wash it before cutting; what the wash takes of it is asked next",
        Step::Loss => {
            "type two figures for per cent, measured on a test piece before and after; an empty line leaves it unknown"
        }
        Step::Elastic => "type its name and then its width, or none",
        Step::ElasticPrice => "type the price by the length, or for a put-up: 40 for 50 yd",
        Step::Thread => "type the price of a cone and how long it is, or none",
    }
}

/// `42 min`, to the minute.
fn whole_minutes(time: Time) -> String {
    let minutes = Time::try_from(Quantity::of(1.0, Unit::Minute)).map_or(0.0, |minute| time / minute);
    format!("{minutes:.0} min")
}

/// The shares along and across in `4 2`, `4 % and 2 %` or `4 %, 2 %`; one alone is along, and across is not known.
fn shares(typed: &str) -> (String, String) {
    let spaced = typed.replace('%', " % ").replace(',', " ");
    let mut figures = spaced.split_whitespace().filter(|word| !["%", "and", "along", "across"].contains(word));
    let (along, across) = (figures.next().unwrap_or_default(), figures.next().unwrap_or_default());
    match figures.next() {
        // The reader refuses it with what was typed.
        Some(_) => (typed.to_owned(), String::new()),
        None => (along.to_owned(), across.to_owned()),
    }
}

/// The workshop of all answers together.
fn together(taken: &[(Step, SetUpRows)]) -> Result<Workshop, Diagnostic> {
    let mut all = SetUpRows::default();
    for (_, rows) in taken {
        all.add(rows);
    }
    let failed = || Diagnostic::new("the answers cannot be put together");
    let texts = all.texts().map_err(|_| failed())?;
    let files: Vec<(&str, &str)> = texts.iter().map(|(file, text)| (file.name(), text.as_str())).collect();
    Workshop::read(&files).map_err(|errors| errors.first().map_or_else(failed, said))
}
