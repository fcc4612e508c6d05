//! The verbs a line may begin with, as data: forms, slots, help and an example of each.
//!
//! Arguments, completion, hints, help, README's list and the errors for incomplete lines all derive from
//! [`VERBS`]. Never here: what a verb does.

mod cursor;
mod reading;
mod table;

pub(crate) use cursor::AtCursor;
pub(crate) use reading::{Arguments, in_own_words, leading};
pub use table::VERBS;

use crate::diagnostic::Diagnostic;
use crate::engine::text::line_tokens::Quotes;

/// A verb.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Verb {
    /// The word a line begins with.
    pub name: &'static str,
    /// The ways to write it.
    pub forms: &'static [Form],
    /// What it does, in one line.
    pub summary: &'static str,
    /// The error for an incomplete line.
    pub incomplete: Option<IncompleteLine>,
    /// Whether it works only at the prompt: a page may come by mail, so its lines neither write a file nor
    /// change the page.
    pub only_typed: bool,
    /// The one-line help of the command of this name; `None` if the command line has none.
    pub command: Option<&'static str>,
    /// Lines that are typed one after the other; the last one begins with this verb.
    pub example: &'static [&'static str],
    /// What the last line of the example shows in the demo workshop.
    pub shown: &'static str,
}

/// One way to write a verb: the parts after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Form {
    /// The parts in order.
    pub parts: &'static [Part],
    /// Whether help, hints and completion show it. Others are parsed all the same.
    pub listed: bool,
}

/// A part of a form, and how help shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// What the part may be.
    pub slot: Slot,
    /// How help shows it, such as `NAME`.
    pub shown: &'static str,
}

/// What a part of a line may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// A fixed word. If a line contains it more than once, `Which` says which one counts.
    Keyword(&'static str, Which),
    /// The name of a cell.
    Cell,
    /// The name of a cell that holds an order.
    Order,
    /// A name for a new cell; empty if the line ends before it.
    NewCell,
    /// The new name of a cell.
    NewName,
    /// Names of cells, or sums of their members.
    Cells,
    /// Sums separated by commas.
    Sums,
    /// One sum, before a keyword.
    Sum,
    /// A sum that yields yes or no.
    Condition,
    /// Names to vary, each with its clauses; holds the words of the clauses.
    Varied(&'static [&'static str]),
    /// A recipe; answers after it are not part of its name.
    Recipe,
    /// `input=answer …`; may be empty.
    Answers,
    /// A file, in quotes if it contains a word of the form.
    File,
    /// A folder that files are written into.
    Folder,
    /// A whole number of 1 or more; holds the word for what it counts, such as lines.
    Count(&'static str),
    /// A measure with its unit, or a number.
    Measure,
    /// One or more words to look up in help.
    Topic,
    /// Any words.
    Words,
    /// Clauses in any order, each after a comma; may be empty.
    Clauses(&'static [ClauseForm]),
}

/// Which of several equal words splits a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The first.
    First,
    /// The last.
    Last,
}

/// A clause such as `loss 1/8 in`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClauseForm {
    /// The word it begins with.
    pub word: &'static str,
    /// What follows the word; `None` if nothing does.
    pub takes: Option<Slot>,
    /// An example of what follows, such as `1/8 in`.
    pub shown: &'static str,
    /// Whether the form of the verb shows it. Others are parsed all the same.
    pub listed: bool,
}

impl ClauseForm {
    /// How the clause is typed: `loss 1/8 in`.
    pub fn form(&self) -> String {
        format!("{} {}", self.word, self.shown).trim_end().to_owned()
    }
}

/// The error for an incomplete line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct IncompleteLine {
    /// The question, which is the message.
    pub question: &'static str,
    /// What to type instead.
    pub hint: &'static str,
}

impl IncompleteLine {
    /// Converts it to a diagnostic.
    pub fn diagnostic(self) -> Diagnostic {
        Diagnostic::new(self.question).hinting(self.hint)
    }
}

impl Slot {
    /// Whether it holds sums, in which a text may begin anywhere.
    fn holds_sums(self) -> bool {
        matches!(self, Self::Cells | Self::Sums | Self::Condition | Self::Varied(_))
    }
}

impl Form {
    fn shown(&self, name: &str) -> String {
        let mut form = name.to_owned();
        for part in self.parts {
            form.push(' ');
            form.push_str(part.shown);
            if let Slot::Clauses(clauses) = part.slot {
                let listed = clauses.iter().filter(|clause| clause.listed).map(ClauseForm::form);
                form.push_str(&listed.collect::<Vec<_>>().join(", "));
            }
        }
        form
    }
}

impl Verb {
    /// How the verb is written, by its listed forms: `open FILE, or open left`.
    pub fn form(&self) -> String {
        let forms: Vec<String> = self.listed().map(|form| form.shown(self.name)).collect();
        match forms.as_slice() {
            [] => String::new(),
            [one] => one.clone(),
            [before @ .., last] => format!("{}, or {last}", before.join(", ")),
        }
    }

    /// Returns the error for an incomplete line.
    pub fn incomplete_error(&self) -> Diagnostic {
        match self.incomplete {
            Some(incomplete) => incomplete.diagnostic(),
            None => Diagnostic::new(format!("this line is not understood as one of {}", self.name))
                .hinting(format!("type {}", self.form())),
        }
    }

    /// Returns the hint for an incomplete line; may be empty.
    pub fn hint(&self) -> &'static str {
        self.incomplete.map_or("", |incomplete| incomplete.hint)
    }

    /// Where a text may begin in its line.
    pub fn quotes(&self) -> Quotes {
        let sums = self.parts().any(|part| part.slot.holds_sums());
        if sums { Quotes::Anywhere } else { Quotes::InAnswers }
    }

    /// Whether it takes answers to the questions of a recipe.
    pub fn takes_answers(&self) -> bool {
        self.parts().any(|part| part.slot == Slot::Answers)
    }

    fn listed(&self) -> impl Iterator<Item = &'static Form> {
        self.forms.iter().filter(|form| form.listed)
    }

    fn parts(&self) -> impl Iterator<Item = &'static Part> {
        self.forms.iter().flat_map(|form| form.parts)
    }
}

/// Words that a line may begin with instead of the program's own; a sum needs no word before it.
pub(crate) const OTHER_WORDS: &[(&str, &str)] = &[
    ("undo", "take back"),
    ("delete", "strike"),
    ("remove", "strike"),
    ("load", "open"),
    ("quit", "leave"),
    ("exit", "leave"),
    ("bye", "leave"),
    ("calc", ""),
    ("calculate", ""),
];

/// Finds a verb by its name.
pub fn named(name: &str) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.name == name)
}

/// The names of the verbs.
pub fn names() -> impl Iterator<Item = &'static str> {
    VERBS.iter().map(|verb| verb.name)
}

/// Whether a line works only at the prompt: on a page nothing writes a file.
pub fn only_typed(verb: &str, rest: &str) -> bool {
    let folder = |verb: &Verb| verb.read(rest).is_ok_and(|arguments| arguments.fills_folder());
    named(verb).is_some_and(|verb| verb.only_typed || folder(verb))
}

/// Returns the error for an incomplete line of a verb.
pub fn incomplete_error(verb: &str) -> Diagnostic {
    named(verb).map_or_else(|| Diagnostic::new(format!("there is no verb {verb}")), Verb::incomplete_error)
}

#[cfg(test)]
mod tests;
