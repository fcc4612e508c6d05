//! The verbs a line may begin with, as data: the ways to write each, what may stand where, help, an example.
//!
//! Reading a line into its arguments, completion, hints, help, README's list and what is said of a line that
//! misses something are all drawn from [`VERBS`]. Never here: what a verb does.

mod cursor;
mod reading;
mod table;

pub(crate) use cursor::AtCursor;
pub(crate) use reading::{Arguments, leading};
pub use table::VERBS;

use crate::diagnostic::Diagnostic;
use crate::engine::line_tokens::Quotes;

/// A verb.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Verb {
    /// The word a line begins with.
    pub name: &'static str,
    /// The ways to write it.
    pub forms: &'static [Form],
    /// What it does, in one line.
    pub summary: &'static str,
    /// What is said of a line that misses something.
    pub lacks: Option<Lack>,
    /// For the prompt alone: a page may come by mail, and neither writes a file nor changes itself.
    pub only_typed: bool,
    /// The one line of help of the command of this name; none where the command line has none.
    pub command: Option<&'static str>,
    /// Lines that are typed one after the other, the last of them this verb.
    pub example: &'static [&'static str],
    /// What the last line of the example shows, in the demo workshop.
    pub shown: &'static str,
}

/// One way to write a verb: what stands behind it, part by part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Form {
    /// The parts in order.
    pub parts: &'static [Part],
    /// Help, hints and completion show it. Others are read all the same.
    pub listed: bool,
}

/// A part of a form, and how help shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// What may stand there.
    pub slot: Slot,
    /// How help shows it, such as `NAME`.
    pub shown: &'static str,
}

/// What may stand at a part of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// A word that is typed as it is. Where it stands more than once, `Which` says which one counts.
    Keyword(&'static str, Which),
    /// The name of a cell.
    Cell,
    /// The name of a cell that holds an order.
    Order,
    /// A name for a new cell; a line that breaks off before it is read with an empty one.
    NewCell,
    /// Another name for a cell.
    NewName,
    /// Names of cells, or sums of their members.
    Cells,
    /// Sums, apart by commas.
    Sums,
    /// One sum, before a keyword.
    Sum,
    /// Something that is true or false.
    Condition,
    /// What is varied: names, each with its clauses, whose words these are.
    Varied(&'static [&'static str]),
    /// A recipe; answers behind it are none of its name.
    Recipe,
    /// `input=answer …`; there may be none.
    Answers,
    /// A file, in quotes if it holds a word of the form.
    File,
    /// A folder that files are written into.
    Folder,
    /// A number of something: lines.
    Count(&'static str),
    /// A measure with its unit, or a number.
    Measure,
    /// A word, or a few, that help knows.
    Topic,
    /// Any words.
    Words,
    /// Clauses in any order, each behind a comma; there may be none.
    Clauses(&'static [ClauseForm]),
}

/// Which of several equal words divides a line.
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
    /// What follows the word; none where the word says it all.
    pub takes: Option<Slot>,
    /// How what follows is typed, such as `1/8 in`.
    pub shown: &'static str,
    /// The form of the verb shows it. Others are read all the same.
    pub listed: bool,
}

impl ClauseForm {
    /// `loss 1/8 in`
    pub fn form(&self) -> String {
        format!("{} {}", self.word, self.shown).trim_end().to_owned()
    }
}

/// What a line that misses something is asked, and what to type.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lack {
    /// The question.
    pub asks: &'static str,
    /// What to type instead.
    pub hint: &'static str,
}

impl Lack {
    /// The question as a fault.
    pub fn fault(self) -> Diagnostic {
        Diagnostic::new(self.asks).hinting(self.hint)
    }
}

impl Slot {
    /// Sums stand there, in which a text may begin anywhere.
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
    /// How it is written: `open FILE, or open left`.
    pub fn form(&self) -> String {
        let forms: Vec<String> = self.listed().map(|form| form.shown(self.name)).collect();
        match forms.as_slice() {
            [] => String::new(),
            [one] => one.clone(),
            [before @ .., last] => format!("{}, or {last}", before.join(", ")),
        }
    }

    /// What is said of a line that misses something, as a fault.
    pub fn lacking(&self) -> Diagnostic {
        match self.lacks {
            Some(lack) => lack.fault(),
            None => Diagnostic::new(format!("this line is not understood as one of {}", self.name))
                .hinting(format!("type {}", self.form())),
        }
    }

    /// What to type where a line misses something.
    pub fn hint(&self) -> &'static str {
        self.lacks.map_or("", |lack| lack.hint)
    }

    /// Where a text may begin in its line.
    pub fn quotes(&self) -> Quotes {
        let sums = self.parts().any(|part| part.slot.holds_sums());
        if sums { Quotes::Anywhere } else { Quotes::InAnswers }
    }

    /// Whether it takes answers to what a recipe asks.
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

/// The verb of a name.
pub fn named(name: &str) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.name == name)
}

/// The names of the verbs.
pub fn names() -> impl Iterator<Item = &'static str> {
    VERBS.iter().map(|verb| verb.name)
}

/// Whether a line is for the prompt alone: on a page nothing writes a file.
pub fn only_typed(verb: &str, rest: &str) -> bool {
    let folder = |verb: &Verb| verb.read(rest).is_ok_and(|arguments| arguments.fills_folder());
    named(verb).is_some_and(|verb| verb.only_typed || folder(verb))
}

/// What a line of a verb that misses something is asked, and what to type.
pub fn lacking(verb: &str) -> Diagnostic {
    named(verb).map_or_else(|| Diagnostic::new(format!("there is no verb {verb}")), Verb::lacking)
}

#[cfg(test)]
mod tests;
