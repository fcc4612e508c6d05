//! The help texts: verbs, functions, units, topics and the words of recipes.
//!
//! The texts on verbs, functions and recipe words come from their tables; those on units and pages are written
//! here, and a test parses the examples of the units. Never here: explanations of trade words, which come from
//! the glossary.

use super::help_words;
use super::objects::WORDS as MEMBERS;
use super::verbs::{self, Verb};
use crate::engine::function::Function;
use crate::engine::{Member, functions, help};
use crate::quantity::nearest::nearest;
use crate::quantity::{Style, Tape};
use crate::recipe::contract::words::WORDS;
use crate::textile::glossary;
use unicode_width::UnicodeWidthStr;

/// Topics in addition to those of the function table.
const TOPICS: [(&str, &str); 4] = [
    ("verbs", "what a line may begin with"),
    ("units", "how measures are typed"),
    ("pages", "cells, members, tables, conditions"),
    ("recipe words", "what a recipe's script may say"),
];

/// Words that people may look up instead of the program's own, besides those that a line may begin with.
const OTHER_WORDS: [(&str, &str); 1] = [("filter", "pages")];

/// Returns the help on a verb, function or topic, or on everything that holds the word: whole words first, and no more than
/// fits one screen of `columns`; the rest by name. An empty word lists what there is to ask.
///
/// # Errors
/// The word is unknown; the message suggests the nearest known one.
pub(crate) fn about(word: &str, style: &Style, columns: usize) -> Result<String, String> {
    let word = word.trim();
    if word.is_empty() {
        return Ok(overview());
    }
    let lower = word.to_lowercase();
    let first = lower.split_whitespace().next().unwrap_or_default();
    if let Some(verb) = verbs::named(&lower).or_else(|| verbs::named(first).filter(|_| lower == "take back")) {
        let more = if verb.name == "pages" { format!("\n{}", pages(style)) } else { String::new() };
        return Ok(format!("{}{more}", of_verb(verb, style)));
    }
    if let Some(function) = functions::named(word) {
        // `size` is a function, and more often a row of sizes.csv.
        let lines = std::iter::once(help::help(function, style)).chain(word_heads(word, style));
        return Ok(lines.collect::<Vec<_>>().join("\n"));
    }
    match lower.as_str() {
        "verbs" => return Ok(format!("verbs\n{}", verb_lines(verbs::VERBS.iter()).join("\n"))),
        "units" | "unit" => return Ok(units(style)),
        "page" | "cells" | "cell" => return Ok(pages(style)),
        "recipe words" => return Ok(format!("recipe words\n{}", word_lines().join("\n"))),
        _ => {}
    }
    if let Some((_, line)) = OTHER_WORDS.iter().chain(verbs::OTHER_WORDS).find(|(other, _)| *other == lower) {
        return if line.is_empty() { Ok(overview()) } else { about(line, style, columns) };
    }
    let screen = Screen::about(word, style);
    if !screen.is_empty() {
        return Ok(screen.fitted(columns).join("\n"));
    }
    let names = functions::all().map(|function| function.name).chain(verbs::names());
    let names = names.chain(glossary::TERMS.iter().map(|term| term.word));
    let names = names.chain(help::topics().map(|topic| topic.name)).chain(TOPICS.map(|(name, _)| name));
    let names = names.chain(help_words::WORDS.iter().flat_map(|word| word.words).copied());
    let hint = nearest(word, names)
        .map_or_else(|| "type help for what there is to ask".to_owned(), |near| format!("did you mean “{near}”?"));
    Err(format!("nothing is known about “{word}”\n  {hint}"))
}

fn overview() -> String {
    let mut lines = vec![
        "Type a sum with units: 23 in / (2 in / 10)".to_owned(),
        "Name what you measured: waist = 56 cm".to_owned(),
        "Ask for another unit: waist as in".to_owned(),
        "Run a recipe, and answer what it asks: run gathered_skirt as first".to_owned(),
        "Try sizes: vary waist from 50 cm to 65 cm by 5 cm, show first.price".to_owned(),
        "Be shown round in five minutes: tour".to_owned(),
        "help and a word tells more, any word: help selvedge, help price, help vary".to_owned(),
    ];
    let topics = help::topics().map(|topic| topic.name).collect::<Vec<_>>();
    let rows = [
        ("verbs", verbs::names().collect::<Vec<_>>()),
        ("topics", TOPICS.iter().map(|(name, _)| *name).collect()),
        ("sums", topics),
    ];
    lines.extend(in_columns(&rows.map(|(name, words)| (name.to_owned(), words.join(", ")))));
    lines.join("\n")
}

/// What the program has for a word that is neither a verb, a function nor a word of the trade.
fn word_heads(word: &str, style: &Style) -> Vec<String> {
    let line = |line: &&str| format!("  {}", line.replace('$', &style.currency.to_string()));
    let lines = |help: &help_words::HelpWord| {
        std::iter::once(help.words.join(", ")).chain(help.lines.iter().map(line)).collect::<Vec<_>>()
    };
    help_words::explained(word).flat_map(lines).collect()
}

/// What one screen tells of a word.
#[derive(Default)]
struct Screen {
    /// What the word is.
    heads: Vec<String>,
    /// What else holds it, the nearest first.
    found: Vec<Entry>,
}

/// Something that help can list.
struct Entry {
    /// How help is asked for it.
    name: &'static str,
    lines: Vec<String>,
    /// With an example, where there is room for all.
    in_full: Vec<String>,
}

/// The rows of a screen, without the line that was typed and the prompt after the answer.
const ROWS: usize = 22;

impl Screen {
    fn about(word: &str, style: &Style) -> Self {
        let lower = word.to_lowercase();
        let mut screen = Self::default();
        screen.heads.extend(word_heads(word, style));
        for term in glossary::explained(word) {
            screen.heads.extend(help::of_term(term));
            for function in term.functions.iter().filter_map(|name| functions::named(name)) {
                let in_full = help::listed_in_full(function, style);
                screen.add(Entry { name: function.name, lines: help::listed(function), in_full });
            }
        }
        for topic in help::topics().filter(|topic| topic.name.to_lowercase() == lower) {
            if screen.heads.is_empty() {
                screen.heads.push(topic.name.to_owned());
            }
            topic.functions.iter().for_each(|function| screen.add(Entry::of_function(function)));
        }
        let mut others: Vec<(usize, Entry)> = Vec::new();
        let mut offer = |name: &str, summary: &str, entry: Entry| {
            if let Some(rank) = rank(&lower, name, summary) {
                others.push((rank, entry));
            }
        };
        for verb in verbs::VERBS {
            offer(verb.name, verb.summary, Entry::plain(verb.name, verb_lines(std::iter::once(verb))));
        }
        for function in functions::all() {
            offer(function.name, function.summary, Entry::of_function(function));
        }
        for (word, of) in recipe_words() {
            offer(word.name, word.summary, Entry::plain(word.name, word_line(word, &of)));
        }
        others.sort_by_key(|(rank, _)| *rank);
        // What the word is has been said: things that merely hold its letters would hide it.
        let known = !screen.heads.is_empty();
        let near = others.into_iter().filter(|(rank, _)| !known || *rank < PART_OF_NAME).map(|(_, entry)| entry);
        near.for_each(|entry| screen.add(entry));
        if screen.heads.is_empty() && !screen.found.is_empty() {
            screen.heads.push(format!("about “{word}”"));
        }
        screen
    }

    fn is_empty(&self) -> bool {
        self.heads.is_empty() && self.found.is_empty()
    }

    fn add(&mut self, entry: Entry) {
        if self.found.iter().all(|known| known.name != entry.name) {
            self.found.push(entry);
        }
    }

    /// The lines, as many as fit; what does not fit is named.
    fn fitted(self, columns: usize) -> Vec<String> {
        let rows = |lines: &[String]| lines.iter().map(|line| rows_of(line, columns)).sum::<usize>();
        let room = ROWS.saturating_sub(rows(&self.heads));
        let all = |lines: fn(&Entry) -> &[String]| self.found.iter().map(|entry| rows(lines(entry))).sum::<usize>();
        let in_full = all(|entry| &entry.in_full) <= room;
        let fits = in_full || all(|entry| &entry.lines) <= room;
        let mut left = if fits { room } else { room.saturating_sub(NAMES_ROWS) };
        let mut lines = self.heads;
        let mut named = Vec::new();
        for entry in self.found {
            let shown = if in_full { entry.in_full } else { entry.lines };
            match left.checked_sub(rows(&shown)).filter(|_| named.is_empty()) {
                Some(rest) => {
                    left = rest;
                    lines.extend(shown);
                }
                None => named.push(entry.name),
            }
        }
        lines.extend(names_line(&named, columns));
        lines
    }
}

/// The rows that the names of what does not fit may take.
const NAMES_ROWS: usize = 3;

/// `also gathered_flat, take_up and 12 more: help and one of them tells more`; `None` without names.
fn names_line(names: &[&str], columns: usize) -> Option<String> {
    let line = |shown: usize| {
        let more = names.len() - shown;
        let listed = names.get(..shown).unwrap_or_default().join(", ");
        let more = if more > 0 { format!(" and {more} more") } else { String::new() };
        format!("also {listed}{more}; help and a name tells more")
    };
    let shown = (1..=names.len()).rev().find(|shown| *shown == 1 || rows_of(&line(*shown), columns) <= NAMES_ROWS)?;
    Some(line(shown))
}

/// The rows that a line takes, at most.
fn rows_of(line: &str, columns: usize) -> usize {
    if line.width() <= columns { 1 } else { line.width().div_ceil(columns.saturating_sub(12).max(8)) }
}

/// From this rank on a word is met only as a part of another.
const PART_OF_NAME: usize = 2;

/// How near a word is to something with a name and a summary, the nearest 0; `None` if neither holds it.
fn rank(lower: &str, name: &str, summary: &str) -> Option<usize> {
    let (name, summary) = (name.replace('_', " ").to_lowercase(), summary.to_lowercase());
    let whole = |text: &str| {
        text.match_indices(lower).any(|(at, found)| {
            let before = text.get(..at).unwrap_or_default().ends_with(char::is_alphanumeric);
            let behind = text.get(at + found.len()..).unwrap_or_default();
            let behind = behind.strip_prefix('s').unwrap_or(behind);
            !before && !behind.starts_with(char::is_alphanumeric)
        })
    };
    if whole(&name) {
        Some(0)
    } else if whole(&summary) {
        Some(1)
    } else if name.contains(lower) {
        Some(PART_OF_NAME)
    } else {
        summary.contains(lower).then_some(PART_OF_NAME + 1)
    }
}

impl Entry {
    fn plain(name: &'static str, lines: Vec<String>) -> Self {
        Self { name, in_full: lines.clone(), lines }
    }

    fn of_function(function: &'static Function) -> Self {
        Self::plain(function.name, help::listed(function))
    }
}

fn verb_lines<'v>(verbs: impl Iterator<Item = &'v Verb>) -> Vec<String> {
    verbs.flat_map(|verb| [format!("  {}", verb.form()), format!("    {}", verb.summary)]).collect()
}

fn word_lines() -> Vec<String> {
    recipe_words().flat_map(|(word, of)| word_line(word, &of)).collect()
}

fn recipe_words() -> impl Iterator<Item = (&'static Member, String)> {
    let members = MEMBERS.iter().map(|word| (word, format!("of a {}", word.of)));
    members.chain(WORDS.iter().map(|word| (word, format!("in a recipe: {}", word.of))))
}

fn word_line(word: &Member, of: &str) -> Vec<String> {
    vec![format!("  {}  ({of})", word.form), format!("    {}", word.summary)]
}

fn of_verb(verb: &Verb, style: &Style) -> String {
    let mut lines = vec![verb.form(), format!("  {}", verb.summary), "for example".to_owned()];
    let currency = style.currency.to_string();
    let in_currency = |line: &str| line.replace('$', &currency);
    lines.extend(verb.example.iter().map(|line| format!("  > {}", in_currency(line))));
    lines.extend(verb.shown.lines().map(|line| format!("  {}", in_currency(line))));
    lines.join("\n")
}

/// How to type each kind of measure.
fn units(style: &Style) -> String {
    let lengths = match style.tape {
        Tape::Inch => ("14 1/2 in, 5' 3\", 2 yd 6 in, 3/8 in", "35 cm, 8 mm, 1.5 m"),
        Tape::Metric => ("35 cm, 8 mm, 1.5 m", "14 1/2 in, 5' 3\", 2 yd 6 in, 3/8 in"),
    };
    let c = style.currency;
    let rows = [
        ("lengths", format!("{}; {}", lengths.0, lengths.1)),
        ("areas", "2 yd^2, 1.5 m^2".to_owned()),
        ("weights", "8 oz, 1.5 lb, 200 g, 1.2 kg".to_owned()),
        ("times", "12 min, 1 h 20 min, 30 s".to_owned()),
        ("money", format!("{c}4.50; by the yard or metre {c}4.50/yd, {c}4.50/m; by the hour {c}18/h")),
        ("shares", "8 %, always per cent: 8 % of 20 in".to_owned()),
        ("counts", "2 dozen".to_owned()),
        ("yarn", "40 tex".to_owned()),
        ("cloth weight", "60 g/m^2, 2.6 oz/yd^2".to_owned()),
    ];
    let rows: Vec<(String, String)> = rows.map(|(name, typed)| (name.to_owned(), typed)).to_vec();
    let mut lines = vec!["units".to_owned()];
    lines.extend(in_columns(&rows));
    lines.push(
        "A sum is shown in the unit of its first measure; to see another, end the line with it: band as yd".to_owned(),
    );
    lines.push("What was rounded to be shown has ≈ before it; the exact value is used.".to_owned());
    lines.join("\n")
}

fn pages(style: &Style) -> String {
    PAGES.replace('$', &style.currency.to_string())
}

const PAGES: &str = "what stands on a page
  waist = 56 cm  # measured twice     a cell, and its note
  band = waist + 10 in                follows waist whenever it changes
  first.price, first.panels           members of a ticket: figures, inputs, tables
  orders.cost, orders.rows            members of a table: its columns, how many rows
  total(orders.cost)                  also largest, smallest, average; without_blanks
  late = orders where days > 3        the rows for which it is true
  orders where due = 3 and not known(cost)
                                      conditions joined with and, or, not
  must band > 80 cm                   a test that stays on the page
  that                                the last answer
  # a note                            a line of words
Order on the page does not matter. A page is a text file; save gives it a name, open brings it back.";

/// Formats rows as two aligned columns.
fn in_columns(rows: &[(String, String)]) -> Vec<String> {
    let wide = rows.iter().map(|(left, _)| left.width()).max().unwrap_or(0);
    rows.iter().map(|(left, right)| format!("  {left}{}  {right}", " ".repeat(wide - left.width()))).collect()
}

#[cfg(test)]
mod tests;
