//! The command line.

use clap::{Args, Parser, Subcommand};
use std::path::PathBuf;

/// A calculation notebook for people who cut and gather cloth to order.
///
/// Without a command it opens a prompt, or reads lines from a pipe.
#[derive(Debug, Parser)]
#[command(name = "shirr", version, after_help = EXAMPLES)]
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

Exit codes: 0 done, 1 a sum, check or cell failed, 2 wrong command line, 130 interrupted.";

/// What to do.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Work out expressions: shirr reckon '14 1/2 in + 7/8 in' '100 cm as in'
    Reckon {
        /// Sums with units
        #[arg(required = true, value_name = "EXPRESSION", allow_hyphen_values = true)]
        expressions: Vec<String>,
    },
    /// Run a recipe for one order and show its tables
    Run(Order),
    /// Show the work sheet of an order
    Sheet(Order),
    /// Check recipes: header, inputs, examples, every corner of the ranges
    Check {
        /// Names of recipes, or recipe files
        #[arg(required = true, value_name = "RECIPE")]
        recipes: Vec<String>,
    },
    /// List the recipes, or those about a word
    Recipes {
        /// What they are about: skirt, sleeve, curtain …
        about: Option<String>,
    },
    /// Write the reference, recipes with pictures, functions and words, into a folder
    Reference {
        /// The folder
        folder: PathBuf,
    },
    /// Tell what a recipe makes and asks
    Describe {
        /// Name of a recipe, or a recipe file
        recipe: String,
    },
    /// Work out a page and show what each line is worth
    Page {
        /// The page; - reads from a pipe
        file: PathBuf,
    },
    /// Explain a function, a verb or a topic
    Explain {
        /// A name, or a part of one; left out, the topics are listed
        word: Option<String>,
    },
    /// Answer one request of a parent process
    #[command(hide = true)]
    AnswerRequest,
}

/// A recipe and the answers to what it asks.
#[derive(Debug, Args)]
pub(super) struct Order {
    /// Name of a recipe, or a recipe file
    pub(super) recipe: String,
    /// Answers, such as waist='21 in' or pieces=3
    #[arg(value_name = "NAME=VALUE")]
    pub(super) answers: Vec<String>,
    /// Leave the tables as CSV files in this folder
    #[arg(long, value_name = "FOLDER")]
    pub(super) csv: Option<PathBuf>,
    /// Run a recipe that its check found fault with
    #[arg(long)]
    pub(super) anyway: bool,
}
