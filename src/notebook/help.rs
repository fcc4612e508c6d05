//! The help texts: verbs, functions, units, topics and the words of recipes.
//!
//! The texts on verbs, functions and recipe words come from their tables; those on units and pages are written
//! here, and a test parses the examples of the units. Never here: explanations of trade words, which come from
//! the glossary.

use super::objects::WORDS as MEMBERS;
use super::verbs::{self, Verb};
use crate::engine::{functions, help};
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

/// Words that people may use instead of the program's own.
const OTHER_WORDS: [(&str, &str); 8] = [
    ("undo", "take back"),
    ("delete", "strike"),
    ("remove", "strike"),
    ("what if", "vary"),
    ("filter", "pages"),
    ("load", "open"),
    ("quit", "leave"),
    ("exit", "leave"),
];

/// Returns the help on a verb, function or topic, or on everything that contains the word. An empty word lists
/// the topics.
///
/// # Errors
/// The word is unknown; the message suggests the nearest known one.
pub(crate) fn about(word: &str, style: &Style) -> Result<String, String> {
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
        return Ok(help::help(function, style));
    }
    match lower.as_str() {
        "verbs" => return Ok(format!("verbs\n{}", verb_lines(verbs::VERBS.iter()).join("\n"))),
        "units" | "unit" => return Ok(units(style)),
        "page" | "cells" | "cell" => return Ok(pages(style)),
        "recipe words" => return Ok(format!("recipe words\n{}", word_lines("").join("\n"))),
        _ => {}
    }
    if let Some((_, line)) = OTHER_WORDS.iter().find(|(other, _)| *other == lower) {
        return about(line, style);
    }
    let mut sections: Vec<String> = glossary::explained(word).map(|term| help::of_term(term, style)).collect();
    if let Some(topic) = help::topics().find(|topic| topic.name.to_lowercase() == lower) {
        sections.push(help::of_topic(&topic));
        return Ok(sections.join("\n"));
    }
    let holds = |text: &str| text.to_lowercase().contains(&lower);
    let mut found = verb_lines(verbs::VERBS.iter().filter(|verb| holds(verb.name) || holds(verb.summary)));
    // Functions that the glossary has named already are not listed again.
    let listed: Vec<&str> = glossary::explained(word).flat_map(|term| term.functions).copied().collect();
    let functions = functions::all()
        .filter(|function| !listed.contains(&function.name))
        .filter(|function| holds(function.name) || holds(&function.name.replace('_', " ")) || holds(function.summary));
    found.extend(
        functions.flat_map(|function| [format!("  {}", function.signature()), format!("    {}", function.summary)]),
    );
    found.extend(word_lines(&lower));
    if !found.is_empty() {
        sections.push(format!("about “{word}”\n{}", found.join("\n")));
    }
    if !sections.is_empty() {
        return Ok(sections.join("\n"));
    }
    let names = functions::all().map(|function| function.name).chain(verbs::names());
    let names = names.chain(glossary::TERMS.iter().map(|term| term.word));
    let names = names.chain(help::topics().map(|topic| topic.name)).chain(TOPICS.map(|(name, _)| name));
    let hint = nearest(word, names)
        .map_or_else(|| "type help for the topics".to_owned(), |near| format!("did you mean “{near}”?"));
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
        "Verbs: help and a verb tells more".to_owned(),
        format!("  {}", verbs::names().collect::<Vec<_>>().join(", ")),
        "Topics: help and a topic, a function, or a part of a word".to_owned(),
    ];
    let topics = TOPICS.map(|(name, says)| (name.to_owned(), says.to_owned()));
    let functions = help::topics().map(|topic| {
        let names: Vec<&str> = topic.functions.iter().map(|function| function.name).collect();
        (topic.name.to_owned(), names.join(", "))
    });
    lines.extend(columns(&topics.into_iter().chain(functions).collect::<Vec<_>>()));
    lines.join("\n")
}

fn verb_lines<'v>(verbs: impl Iterator<Item = &'v Verb>) -> Vec<String> {
    verbs.flat_map(|verb| [format!("  {}", verb.form()), format!("    {}", verb.summary)]).collect()
}

fn word_lines(part: &str) -> Vec<String> {
    let holds = |text: &str| text.to_lowercase().contains(part);
    let members = MEMBERS.iter().map(|word| (word, format!("of a {}", word.of)));
    let words = WORDS.iter().map(|word| (word, format!("in a recipe: {}", word.of)));
    members
        .chain(words)
        .filter(|(word, _)| part.is_empty() || holds(word.name) || holds(word.summary))
        .flat_map(|(word, of)| [format!("  {}  ({of})", word.form), format!("    {}", word.summary)])
        .collect()
}

fn of_verb(verb: &Verb, style: &Style) -> String {
    let mut lines = vec![verb.form(), format!("  {}", verb.summary), "for example".to_owned()];
    let currency = style.currency.to_string();
    lines.extend(verb.example.iter().map(|line| format!("  > {}", line.replace('$', &currency))));
    lines.extend(verb.shown.lines().map(|line| format!("  {line}")));
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
    lines.extend(columns(&rows));
    lines.push(
        "A sum is shown in the unit of its first measure; to see another, end the line with it: band as yd".to_owned(),
    );
    lines.push("What was rounded to be shown has ≈ before it; it is reckoned with unrounded.".to_owned());
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
fn columns(rows: &[(String, String)]) -> Vec<String> {
    let wide = rows.iter().map(|(left, _)| left.width()).max().unwrap_or(0);
    rows.iter().map(|(left, right)| format!("  {left}{}  {right}", " ".repeat(wide - left.width()))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_verb_function_topic_and_part_of_a_word_is_known() {
        let style = Style::default();
        for verb in verbs::VERBS {
            let text = about(verb.name, &style).unwrap();
            assert!(text.starts_with(&verb.form()), "{text}");
            assert!(verb.form().starts_with(verb.name), "{}", verb.form());
            let last = verb.example.last().unwrap();
            assert!(last.starts_with(verb.name), "{last}");
        }
        for function in functions::all() {
            assert!(about(function.name, &style).unwrap().starts_with(&function.signature()));
        }
        for (topic, _) in TOPICS {
            assert!(about(topic, &style).unwrap().starts_with(topic), "{topic}");
        }
        assert!(about("take back", &style).unwrap().contains("take back 3"));
        assert!(about("selvedge", &style).unwrap().contains("usable_width"));
        assert_eq!(about("tuor", &style).unwrap_err(), "nothing is known about “tuor”\n  did you mean “tour”?");
        assert_eq!(
            about("wasteband", &style).unwrap_err(),
            "nothing is known about “wasteband”\n  did you mean “waistband”?"
        );
    }

    #[test]
    fn the_units_named_are_units() {
        let reading = crate::quantity::Reading::default();
        for typed in units(&Style::default()).lines().skip(1).take(9) {
            let examples = typed.split_once("  ").unwrap().1.trim();
            let measures = examples
                .split([',', ';'])
                .map(str::trim)
                .filter(|typed| typed.starts_with(|c: char| c.is_ascii_digit() || c == '$'));
            for measure in measures {
                let measure = measure.split(':').next().unwrap();
                let read = crate::engine::text::tokens::Tokens::read(measure, reading).unwrap();
                assert_eq!(read.list.len(), 1, "{measure}");
            }
        }
    }
}
