//! Parses the line of a verb into its arguments, by the verb's forms.

use super::{ClauseForm, Form, OTHER_WORDS, Part, Slot, Verb, Which, named};
use crate::diagnostic::Diagnostic;
use crate::engine::text::line_tokens::{LineTokens, Quotes};
use crate::engine::text::tokens::{TokenKind, Tokens};
use crate::notebook::line::{answers_of, unquoted};
use crate::quantity::{Reading, Unit};
use std::borrow::Cow;

/// The arguments after a verb, by the matching form with the most keywords.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Arguments<'t> {
    /// The keywords of the form, in order.
    keywords: Vec<&'static str>,
    /// Names, sums, files and words, in order; files without their quotes.
    values: Vec<&'t str>,
    count: Option<usize>,
    typed: &'t str,
    /// Each input with its answer as typed, without quotes.
    pub answers: Vec<(String, String)>,
    /// The clauses, each at most once.
    pub clauses: Vec<Clause<'t>>,
}

/// A clause and its value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clause<'t> {
    /// The clause in the table of verbs.
    pub form: &'static ClauseForm,
    /// The text after its word; files without their quotes.
    pub value: &'t str,
}

impl<'t> Arguments<'t> {
    fn none(typed: &'t str) -> Self {
        let (keywords, values, answers, clauses) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        Self { keywords, values, count: None, typed, answers, clauses }
    }

    /// The value at a place, counted from 0; empty if there is none.
    pub fn value(&self, place: usize) -> &'t str {
        self.values.get(place).copied().unwrap_or_default()
    }

    /// The values in order.
    pub fn values(&self) -> &[&'t str] {
        &self.values
    }

    /// The text after the verb, as typed.
    pub fn typed(&self) -> &'t str {
        self.typed
    }

    /// Whether nothing follows the verb.
    pub fn is_empty(&self) -> bool {
        self.values.is_empty() && self.keywords.is_empty() && self.answers.is_empty() && self.clauses.is_empty()
    }

    /// Whether the form that was typed has this keyword.
    pub fn has(&self, keyword: &str) -> bool {
        self.keywords.contains(&keyword)
    }

    /// The first keyword of the form that was typed; empty if it has none.
    pub fn keyword(&self) -> &'static str {
        self.keywords.first().copied().unwrap_or_default()
    }

    /// The number that was typed, or 1.
    pub fn count(&self) -> usize {
        self.count.unwrap_or(1)
    }

    /// The value of a clause; `None` if it was not typed.
    pub fn clause(&self, word: &str) -> Option<&'t str> {
        self.clauses.iter().find(|clause| clause.form.word == word).map(|clause| clause.value)
    }

    /// Whether a clause names a folder for files.
    pub fn fills_folder(&self) -> bool {
        self.clauses.iter().any(|clause| clause.form.takes == Some(Slot::Folder))
    }
}

/// Returns the verb that a line begins with, and the text after it. `None` for `run = 3`, which is a cell, and
/// for `run + 1`, a sum with a cell of that name.
pub(crate) fn leading(line: &str, reading: Reading) -> Option<(&'static Verb, &str)> {
    let line = line.trim_start();
    let word = line.split(|c: char| !(c.is_alphanumeric() || c == '_')).next()?;
    let verb = named(word)?;
    let rest = line.get(word.len()..)?;
    let apart = rest.is_empty() || rest.starts_with(char::is_whitespace);
    (apart && !continues_sum(verb, rest, reading)).then_some((verb, rest))
}

/// The line with another word for a verb replaced by the program's own: `undo 2` is `take back 2`.
pub(crate) fn in_own_words(line: &str, reading: Reading) -> Cow<'_, str> {
    let word = line.split(char::is_whitespace).next().unwrap_or_default();
    let lower = word.to_lowercase();
    let Some((_, own)) = OTHER_WORDS.iter().find(|(other, _)| *other == lower) else { return Cow::Borrowed(line) };
    let rest = line.get(word.len()..).unwrap_or_default();
    if begins_with_sign(rest, reading, |_| false) {
        return Cow::Borrowed(line);
    }
    Cow::Owned(format!("{own}{rest}").trim_start().to_owned())
}

fn continues_sum(verb: &Verb, rest: &str, reading: Reading) -> bool {
    // A condition may begin with `-` or `!`.
    let of_condition = verb.parts().any(|part| part.slot == Slot::Condition);
    begins_with_sign(rest, reading, |sign| of_condition && matches!(sign, "-" | "!"))
}

/// Whether a text begins with a sign of a sum, other than some that may begin what follows a verb.
fn begins_with_sign(rest: &str, reading: Reading, except: impl Fn(&str) -> bool) -> bool {
    Tokens::read(rest, reading).is_ok_and(|tokens| {
        tokens.list.first().is_some_and(|token| {
            let sign = rest.get(token.span.clone()).unwrap_or_default();
            let path = matches!(sign, "." | "/" | "~" | ".." | "≈");
            token.kind == TokenKind::Symbol && !path && !except(sign)
        })
    })
}

impl Verb {
    /// Parses the text after the verb. If several forms match, the one with the most keywords counts, then the
    /// first.
    ///
    /// # Errors
    /// The line is incomplete, or a part of it cannot be read.
    pub fn read<'t>(&self, rest: &'t str) -> Result<Arguments<'t>, Diagnostic> {
        let mut best: Option<Arguments<'t>> = None;
        let mut error = None;
        for form in self.forms {
            let mut arguments = Arguments::none(rest.trim());
            match self.fits(form, form.parts, rest.trim(), &mut arguments) {
                Ok(true) if best.as_ref().is_none_or(|best| arguments.keywords.len() > best.keywords.len()) => {
                    best = Some(arguments);
                }
                Ok(_) => {}
                Err(found) => error = error.or(Some(found)),
            }
        }
        best.ok_or_else(|| error.unwrap_or_else(|| self.incomplete_error()))
    }

    /// Whether the parts of a form match a text; writes what they hold into `into`.
    fn fits<'t>(
        &self,
        form: &Form,
        parts: &[Part],
        text: &'t str,
        into: &mut Arguments<'t>,
    ) -> Result<bool, Diagnostic> {
        match parts {
            [] => Ok(text.is_empty()),
            [before @ .., Part { slot: Slot::Answers, .. }] => {
                let (head, answers) = answers_of(text);
                into.answers = answers;
                self.fits(form, before, head, into)
            }
            [Part { slot: Slot::Keyword(word, _), .. }, behind @ ..] => match behind_keyword(text, word) {
                Some(rest) => {
                    into.keywords.push(word);
                    self.fits(form, behind, rest, into)
                }
                None => Ok(false),
            },
            _ => match divided(parts) {
                Some((before, (word, which), behind)) => {
                    let Some((head, rest)) = self.split(text, word, which) else { return Ok(false) };
                    into.keywords.push(word);
                    let fits = self.fits(form, before, head, into)? && self.fits(form, behind, rest, into)?;
                    let behind_answers = before.last().is_some_and(|part| part.slot == Slot::Answers);
                    Ok(fits && (!behind_answers || (!into.answers.is_empty() && may_name(rest))))
                }
                None => self.without_keyword(form, parts, text, into),
            },
        }
    }

    fn without_keyword<'t>(
        &self,
        form: &Form,
        parts: &[Part],
        text: &'t str,
        into: &mut Arguments<'t>,
    ) -> Result<bool, Diagnostic> {
        match parts {
            [before @ .., Part { slot: Slot::Clauses(forms), .. }] => {
                let (head, clauses) = clauses(text, forms)?;
                into.clauses = clauses;
                self.fits(form, before, head, into)
            }
            [Part { slot: Slot::Count(of), .. }] if !text.is_empty() => {
                let count = text.parse::<usize>().ok().filter(|count| *count > 0);
                into.count = Some(count.ok_or_else(|| {
                    Diagnostic::new(format!("“{text}” is no number of {of}"))
                        .hinting(format!("type {}", form.shown(self.name)))
                })?);
                Ok(true)
            }
            [part] => {
                let value = match part.slot {
                    Slot::File | Slot::Folder => unquoted(text),
                    Slot::Recipe => answers_of(text).0,
                    _ => text,
                };
                let is_order = part.slot == Slot::Order && !answers_of(text).1.is_empty();
                into.values.push(value);
                Ok((!value.is_empty() || part.slot == Slot::NewCell) && !is_order)
            }
            _ => Ok(false),
        }
    }

    /// Splits a text at a keyword.
    pub(super) fn split<'t>(&self, text: &'t str, word: &str, which: Which) -> Option<(&'t str, &'t str)> {
        let line = LineTokens::read(text, self.quotes());
        let mut found = line.words(word);
        let span = match which {
            Which::First => found.next()?,
            Which::Last => found.next_back()?,
        };
        Some((text.get(..span.start)?.trim(), text.get(span.end..)?.trim()))
    }
}

/// The parts before the first keyword, the keyword, and the parts after it.
type Divided<'p> = (&'p [Part], (&'static str, Which), &'p [Part]);

pub(super) fn divided(parts: &[Part]) -> Option<Divided<'_>> {
    let at = parts.iter().position(|part| matches!(part.slot, Slot::Keyword(..)))?;
    let (before, behind) = (parts.get(..at)?, parts.get(at + 1..)?);
    match parts.get(at)?.slot {
        Slot::Keyword(word, which) => Some((before, (word, which), behind)),
        _ => None,
    }
}

/// Strips a keyword from the start of a text; `None` if it does not begin with it.
pub(super) fn behind_keyword<'t>(text: &'t str, word: &str) -> Option<&'t str> {
    let rest = text.strip_prefix(word)?;
    (!rest.starts_with(|c: char| c.is_alphabetic() || c == '_')).then(|| rest.trim_start())
}

/// Whether the word after the last `as` names a cell: in `waist=56 cm as in` it is a unit.
fn may_name(word: &str) -> bool {
    word.starts_with(|c: char| c.is_alphabetic() || c == '_')
        && word.chars().all(|c| c.is_alphanumeric() || c == '_')
        // `second` is taken as a name, after `first`: no answer is wanted in seconds.
        && (word == "second" || Unit::named(word).is_none())
}

/// Splits a text into the part before the first clause, and the clauses.
fn clauses<'t>(text: &'t str, forms: &'static [ClauseForm]) -> Result<(&'t str, Vec<Clause<'t>>), Diagnostic> {
    let starts = clause_starts(text, forms);
    let part = |from: usize, to: usize| {
        text.get(from..to).unwrap_or_default().trim_matches(|c: char| c.is_whitespace() || c == ',')
    };
    let end_of = |index: usize| starts.get(index).map_or(text.len(), |(_, start, _)| *start);
    let mut found: Vec<Clause<'t>> = Vec::with_capacity(starts.len());
    for (index, (form, _, end)) in starts.iter().enumerate() {
        let value = part(*end, end_of(index + 1));
        match form.takes {
            None if !value.is_empty() => return Err(no_clause(value, forms)),
            Some(_) if value.is_empty() => {
                return Err(Diagnostic::new(format!("a value is missing behind “{}”", form.word))
                    .hinting(format!("type {}", form.form())));
            }
            _ => {}
        }
        if found.iter().any(|clause| clause.form == *form) {
            return Err(Diagnostic::new(format!("“{}” stands here twice", form.word)).hinting("leave one of them out"));
        }
        let value = if matches!(form.takes, Some(Slot::File | Slot::Folder)) { unquoted(value) } else { value };
        found.push(Clause { form, value });
    }
    let head = part(0, end_of(0));
    let line = LineTokens::read(head, Quotes::InAnswers);
    let commas = line.list.iter().filter(|token| line.text_of(token) == ",");
    let mut behind = commas.filter_map(|comma| head.get(comma.span.end..));
    match behind.find(|rest| rest.starts_with(char::is_whitespace)) {
        Some(rest) => Err(no_clause(rest.trim(), forms)),
        None => Ok((head, found)),
    }
}

fn no_clause(typed: &str, forms: &[ClauseForm]) -> Diagnostic {
    let words: Vec<String> = forms.iter().map(ClauseForm::form).collect();
    Diagnostic::new(format!("“{typed}” is not understood")).hinting(format!("what may follow: {}", words.join(", ")))
}

/// Finds where clauses begin: the form of each, and the start and end of its word in bytes.
pub(super) fn clause_starts(text: &str, forms: &'static [ClauseForm]) -> Vec<(&'static ClauseForm, usize, usize)> {
    let divides = |c: char| c.is_whitespace() || c == ',';
    let line = LineTokens::read(text, Quotes::InAnswers);
    let words = line.list.iter().filter(|token| token.kind == TokenKind::Word);
    words
        .filter_map(|token| {
            let form = forms.iter().find(|form| form.word == line.text_of(token))?;
            let before = text.get(..token.span.start)?.chars().next_back();
            let behind = text.get(token.span.end..)?.chars().next();
            (before.is_some_and(divides) && behind.is_none_or(divides)).then_some((
                form,
                token.span.start,
                token.span.end,
            ))
        })
        .collect()
}
