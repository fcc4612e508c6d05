//! The command line. The help of a command that is also a verb of the prompt comes from the table of verbs.

use crate::notebook::verbs::VERBS;
use crate::quantity::literal::CURRENCIES;
use clap::{Args, CommandFactory, FromArgMatches, Parser, Subcommand};
use std::path::PathBuf;
use std::time::Duration;

/// A calculation notebook for people who cut and gather cloth to order.
///
/// Without a command it opens a prompt, or reads lines from a pipe.
#[derive(Debug, Parser)]
#[command(name = "shirr", version, after_help = EXAMPLES, disable_help_subcommand = true)]
pub(super) struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub(super) command: Option<Command>,
    /// Words instead of signs, no box art: to be read aloud
    #[arg(long, global = true)]
    pub(super) plain: bool,
    /// Show each line that comes from a pipe before its answer
    #[arg(long)]
    pub(super) echo: bool,
    /// The workshop's folder [default: this folder if it has workshop files, else the user's own]
    #[arg(long, global = true, value_name = "FOLDER")]
    pub(super) workshop: Option<PathBuf>,
}

const EXAMPLES: &str = "Examples:
  shirr reckon '23 in / (2 in / 10)'
  shirr run puff_sleeve head='30 cm' arm='22 cm' sleeve='6 cm' cap='10 cm' cloth='any 112 cm at $9/m'
  shirr cut pieces.csv --from lengths.csv --csv out

Exit codes: 0 done, 1 a sum, check or cell failed, 2 wrong command line, 130 interrupted.";

impl Arguments {
    /// Parses the command line; the first word is the program's own name.
    pub(super) fn read(words: &[String]) -> Result<Self, clap::Error> {
        let mut command = command();
        let matches = command.try_get_matches_from_mut(with_reckon(words))?;
        Self::from_arg_matches(&matches).map_err(|error| error.format(&mut command))
    }
}

/// The words of a command line, with `reckon` before a sum that no command leads: `shirr '23 in / 2'`.
fn with_reckon(words: &[String]) -> Vec<String> {
    let mut words = words.to_vec();
    let is_sum = |word: &String| {
        let number = word.strip_prefix('.').unwrap_or(word);
        let begins = |c: char| c.is_numeric() || CURRENCIES.contains(&c) || "(≈".contains(c);
        let call = || word.starts_with(char::is_alphabetic) && word.contains('(');
        let joined = || word.split_whitespace().any(|part| ["+", "-", "*", "/", "×", "÷", "^"].contains(&part));
        begins(number.chars().next().unwrap_or_default()) || call() || joined()
    };
    if words.get(1).is_some_and(is_sum) {
        words.insert(1, "reckon".to_owned());
    }
    words
}

/// Builds the command line; a command that is also a verb has the help from the table of verbs.
pub(super) fn command() -> clap::Command {
    VERBS
        .iter()
        .filter_map(|verb| Some((verb.name, verb.command?)))
        .fold(Arguments::command(), |command, (name, help)| command.mut_subcommand(name, |verb| verb.about(help)))
}

/// The text of `--help`.
pub(super) fn help() -> String {
    command().render_long_help().to_string()
}

/// What to do.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Work out expressions: shirr reckon '14 1/2 in + 7/8 in' '100 cm as in'
    Reckon {
        /// Sums with units
        #[arg(required = true, value_name = "EXPRESSION", allow_hyphen_values = true)]
        expressions: Vec<String>,
    },
    Run(Run),
    Sheet(Order),
    Cut(CutOrder),
    Check {
        /// Names of recipes, or recipe files
        #[arg(required = true, value_name = "RECIPE")]
        recipes: Vec<String>,
        /// Check again each time a file of theirs is saved, until Ctrl-C
        #[arg(long)]
        watch: bool,
    },
    /// Write a short recipe to begin with, or a copy of another to change
    Draft {
        /// The name of the new recipe
        name: String,
        /// The recipe to copy
        #[arg(long, value_name = "RECIPE")]
        like: Option<String>,
    },
    /// Put a recipe and its helper files into one file, to pass on
    Parcel {
        /// Name of a recipe, or a recipe file
        recipe: String,
        /// The new file
        file: PathBuf,
    },
    Recipes {
        /// What they are about: skirt, sleeve, curtain …
        about: Option<String>,
    },
    /// Write the reference, recipes with pictures, functions and words, into a folder
    Reference {
        /// The folder
        folder: PathBuf,
    },
    Describe {
        /// Name of a recipe, or a recipe file
        recipe: String,
    },
    /// Work out a page and show what each line is worth
    Page {
        /// The page; - reads from a pipe
        file: PathBuf,
    },
    Help {
        /// A function, a verb, a topic, or a part of one
        #[arg(value_name = "WORD")]
        words: Vec<String>,
    },
    /// Explain a word; without one, list the topics
    #[command(hide = true)]
    Explain {
        /// A function, a verb, a topic, or a part of one
        #[arg(value_name = "WORD")]
        words: Vec<String>,
    },
    /// Answer the requests of a parent process
    #[command(hide = true)]
    AnswerRequests,
}

/// A recipe and the answers to what it asks.
#[derive(Debug, Args)]
pub(super) struct Order {
    /// Name of a recipe, or a recipe file
    pub(super) recipe: String,
    /// Answers, such as waist='21 in' or pieces=3
    #[arg(value_name = "NAME=VALUE")]
    pub(super) answers: Vec<String>,
    /// Run a recipe that its check found fault with
    #[arg(long)]
    pub(super) anyway: bool,
}

/// An order, and how it is shown.
#[derive(Debug, Args)]
pub(super) struct Run {
    #[command(flatten)]
    pub(super) order: Order,
    /// Show every table, step and caution, not the first screen alone
    #[arg(long)]
    pub(super) all: bool,
    /// Leave the tables as CSV files in this folder
    #[arg(long, value_name = "FOLDER")]
    pub(super) csv: Option<PathBuf>,
}

/// A list of pieces, the lengths they are cut from, and how.
#[derive(Debug, Args)]
pub(super) struct CutOrder {
    /// The pieces, as CSV: piece, count, along, and for cloth across, turn
    pub(super) pieces: PathBuf,
    /// The lengths, as CSV: stock, count, along, price, and for cloth across, nap
    #[arg(long, value_name = "FILE")]
    pub(super) from: PathBuf,
    /// Leave the tables as CSV files, and a picture of the lay, in this folder
    #[arg(long, value_name = "FOLDER")]
    pub(super) csv: Option<PathBuf>,
    /// Cut straight from edge to edge only, as cloth is torn
    #[arg(long)]
    pub(super) straight: bool,
    /// Cut on cloth folded lengthwise, selvedge on selvedge
    #[arg(long)]
    pub(super) folded: bool,
    /// What is lost at each cut, such as '1/8 in'
    #[arg(long, value_name = "LENGTH")]
    pub(super) loss: Option<String>,
    /// What squaring takes off each end of a length
    #[arg(long, value_name = "LENGTH")]
    pub(super) squaring: Option<String>,
    /// Leftovers at least so long are kept [default: the workshop's smallest remnant]
    #[arg(long, value_name = "LENGTH")]
    pub(super) keep: Option<String>,
    /// Cuts of this plan.csv, written before, stay where they are
    #[arg(long, value_name = "FILE")]
    pub(super) like: Option<PathBuf>,
    /// How hard to look: a million steps take about a second
    #[arg(long, value_name = "COUNT", value_parser = whole_number)]
    pub(super) steps: Option<u64>,
    /// Look for so many seconds instead, and take the best found by then
    #[arg(long, value_name = "COUNT", value_parser = seconds)]
    pub(super) seconds: Option<Duration>,
    /// Begin the search in another place
    #[arg(long, value_name = "NUMBER", value_parser = whole_number)]
    pub(super) seed: Option<u64>,
    /// How options are named in what is said about them.
    #[arg(skip)]
    pub(super) typed_at: TypedAt,
}

/// Where a command was typed, which decides how its options are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum TypedAt {
    /// `--loss '1/8 in'`
    #[default]
    CommandLine,
    /// `loss 1/8 in`
    Prompt,
}

impl TypedAt {
    /// An option, such as `--loss` or `loss`.
    pub(super) fn option(self, name: &str) -> String {
        match self {
            Self::CommandLine => format!("--{name}"),
            Self::Prompt => name.to_owned(),
        }
    }

    /// An option with its value.
    pub(super) fn with_value(self, name: &str, value: &str) -> String {
        match self {
            Self::CommandLine => format!("--{name} '{value}'"),
            Self::Prompt => format!("{name} {value}"),
        }
    }

    /// How to write the option for the folder of the tables.
    pub(super) fn to_folder(self) -> &'static str {
        match self {
            Self::CommandLine => "--csv FOLDER",
            Self::Prompt => "to FOLDER",
        }
    }
}

pub(super) fn whole_number(written: &str) -> Result<u64, String> {
    let plain = written.replace(['_', ' '], "");
    plain.parse().map_err(|_| "type a whole number such as 2000000".to_owned())
}

pub(super) fn seconds(written: &str) -> Result<Duration, String> {
    let seconds: Option<f64> = written.trim().parse().ok();
    let wanted = seconds.filter(|seconds| *seconds > 0.0 && *seconds <= 86_400.0);
    wanted
        .and_then(|seconds| Duration::try_from_secs_f64(seconds).ok())
        .ok_or_else(|| "type a number of seconds such as 10, at most a day".to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sum_needs_no_command() {
        let read = |words: &[&str]| {
            let words: Vec<String> = std::iter::once("shirr").chain(words.iter().copied()).map(str::to_owned).collect();
            Arguments::read(&words)
        };
        for sum in ["23 in / 2", "$9.25/yd * 3 yd", "(1 + 2) * 3", "½ in", "up(12.2)", "waist + 3"] {
            match read(&[sum, "1 in"]).unwrap().command {
                Some(Command::Reckon { expressions }) => assert_eq!(expressions, [sum, "1 in"]),
                other => panic!("{sum}: {other:?}"),
            }
        }
        assert!(read(&["wiast"]).is_err() && read(&["./pieces.csv"]).is_err());
    }

    #[test]
    fn every_verb_of_the_command_line_is_a_command() {
        let names: Vec<String> = Arguments::command().get_subcommands().map(|it| it.get_name().to_owned()).collect();
        for verb in VERBS {
            assert_eq!(verb.command.is_some(), names.iter().any(|name| name == verb.name), "{}", verb.name);
        }
        command().debug_assert();
    }

    #[test]
    fn numbers_of_steps_and_seconds_are_read_within_a_day() {
        assert_eq!((whole_number("2000000"), whole_number("2_000 000")), (Ok(2_000_000), Ok(2_000_000)));
        assert!(["", "1.5", "-1", "x"].iter().all(|written| whole_number(written).is_err()));
        assert_eq!(seconds(" 0.5 "), Ok(Duration::from_millis(500)));
        assert_eq!(seconds("86400"), Ok(Duration::from_hours(24)));
        assert!(["0", "-1", "86400.5", "nan", "inf", "", "x"].iter().all(|written| seconds(written).is_err()));
    }

    #[test]
    fn an_option_is_written_as_where_it_was_typed() {
        let (line, prompt) = (TypedAt::CommandLine, TypedAt::Prompt);
        assert_eq!((line.option("loss"), prompt.option("loss")), ("--loss".to_owned(), "loss".to_owned()));
        assert_eq!(line.with_value("loss", "6 in"), "--loss '6 in'");
        assert_eq!(prompt.with_value("loss", "6 in"), "loss 6 in");
        assert_eq!((line.to_folder(), prompt.to_folder()), ("--csv FOLDER", "to FOLDER"));
    }
}
