//! The pages in Markdown: texts with places for generated lists.

use super::super::arguments;
use crate::engine::Member;
use crate::notebook::MEMBERS;
use crate::notebook::verbs::VERBS;
use crate::recipe::contract::words::WORDS;
use clap::Arg;

/// The name and text of each page. The list NAME replaces the line `<!-- NAME -->`.
const TEXTS: [(&str, &str); 6] = [
    ("lines.md", include_str!("lines.md")),
    ("orders.md", include_str!("orders.md")),
    ("cutting.md", include_str!("cutting.md")),
    ("workshop.md", include_str!("workshop.md")),
    ("writing.md", include_str!("writing.md")),
    ("bibliography.md", include_str!("bibliography.md")),
];

/// The pages with their lists filled in.
pub(super) fn all() -> impl Iterator<Item = (String, String)> {
    let lists = [("verbs", verbs()), ("members", members()), ("cut options", cut_options()), ("words", words())];
    TEXTS.into_iter().map(move |(name, text)| {
        let page = lists
            .iter()
            .fold(text.to_owned(), |page, (list, lines)| page.replace(&format!("<!-- {list} -->\n"), lines));
        (name.to_owned(), page)
    })
}

/// A Markdown table of two columns, the left one as code.
fn table(left: &str, right: &str, rows: impl Iterator<Item = (String, String)>) -> String {
    let rows: String = rows.map(|(left, right)| format!("| `{left}` | {right} |\n")).collect();
    format!("| {left} | {right} |\n|---|---|\n{rows}")
}

/// The table of verbs, then an example of each with what it shows.
fn verbs() -> String {
    let rows = VERBS.iter().map(|verb| (verb.form(), verb.summary.to_owned()));
    let mut list = table("line", "what it does", rows);
    list.push_str("\nAn example of each, in the demo workshop; a long answer is cut short with `…`.\n");
    for verb in VERBS {
        let typed: String = verb.example.iter().map(|line| format!("> {line}\n")).collect();
        let shown = if verb.shown.is_empty() { String::new() } else { format!("{}\n", verb.shown) };
        list.push_str(&format!("\n### {}\n\n```\n{typed}{shown}```\n", verb.name));
    }
    list
}

/// A table of the words of one kind: form and meaning.
fn of_kind(words: &'static [Member], kind: &str) -> String {
    let words = words.iter().filter(|word| word.of == kind);
    table("word", "what it is", words.map(|word| (word.form.to_string(), word.summary.to_owned())))
}

/// The kinds of cell values that have members.
const MEMBER_KINDS: [&str; 3] = ["table", "ticket", "material"];

/// The members that every table, ticket and material has.
fn members() -> String {
    MEMBER_KINDS.map(|kind| of_kind(&MEMBERS, kind)).join("\n")
}

/// The kinds of words in the contract, each with its heading.
const KINDS: [(&str, &str); 10] = [
    ("inputs", "Inputs, in `fn inputs()`"),
    ("input", "After an input"),
    ("unnamed", "Goods that the workshop does not list"),
    ("order", "`order`"),
    ("gathers", "How something gathers"),
    ("cloth or notion", "A cloth or a notion"),
    ("ticket", "`ticket`"),
    ("piece", "After `ticket.piece(…)`"),
    ("entry of the ticket", "After `ticket.need(…)`, `ticket.sew(…)`, `ticket.work(…)`"),
    ("plan", "`plan`, in `after_cutting`"),
];

fn words() -> String {
    let parts = KINDS.map(|(kind, heading)| format!("### {heading}\n\n{}", of_kind(&WORDS, kind)));
    parts.join("\n")
}

/// The options of `shirr cut`, with the text of its help.
fn cut_options() -> String {
    let program = arguments::command();
    let options = program.find_subcommand("cut").into_iter().flat_map(clap::Command::get_opts);
    let row = |option: &Arg| {
        let value = option.get_value_names().filter(|_| option.get_action().takes_values());
        let value = value.map_or_else(String::new, |names| format!(" {}", names.join(" ")));
        let help = option.get_help().map_or_else(String::new, ToString::to_string);
        Some((format!("--{}{value}", option.get_long()?), help))
    };
    table("option", "what it does", options.filter_map(row))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_word_has_its_heading() {
        for (words, kinds) in
            [(MEMBERS.as_slice(), MEMBER_KINDS.to_vec()), (WORDS.as_slice(), KINDS.map(|(kind, _)| kind).to_vec())]
        {
            let lost = words.iter().find(|word| !kinds.contains(&word.of));
            assert!(lost.is_none(), "{lost:?} is on no page");
        }
    }

    #[test]
    fn every_list_has_its_place_on_one_page() {
        for list in ["verbs", "members", "cut options", "words"] {
            let mark = format!("<!-- {list} -->\n");
            let places: usize = TEXTS.iter().map(|(_, text)| text.matches(&mark).count()).sum();
            assert_eq!(places, 1, "{list}");
            assert!(all().all(|(_, page)| !page.contains(&mark)), "{list}");
        }
    }

    #[test]
    fn every_verb_and_word_is_on_a_page() {
        let pages: Vec<(String, String)> = all().collect();
        let page = |wanted: &str| &pages.iter().find(|(name, _)| name == wanted).unwrap().1;
        for verb in VERBS {
            assert!(page("lines.md").contains(&format!("| `{}` | {} |\n", verb.form(), verb.summary)), "{}", verb.name);
        }
        for word in MEMBERS.iter() {
            assert!(page("lines.md").contains(&format!("| `{}` | {} |\n", word.form, word.summary)), "{}", word.form);
        }
        for word in WORDS.iter() {
            assert!(page("writing.md").contains(&format!("| `{}` | {} |\n", word.form, word.summary)), "{}", word.form);
        }
    }
}
