//! Target `order`: takes a text as what a recipe does with an order, and follows it to its ticket, plan and pictures.

use super::{answered, as_read, assert_all_told};
use shirr::present::reference::{Presented, reference};
use shirr::quantity::Style;
use shirr::recipe::{RecipeText, Reply, Task};
use shirr::report::excerpt;
use shirr::workshop::Workshop;
use std::collections::BTreeMap;

/// What stands before the text: inputs of every kind, with usual answers.
const BEFORE: &str = "//! Something cut and sewn.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: skirt

fn inputs() { [
    length(\"a\", \"one length\").between(1 in, 60 in).usual(24 in),
    length(\"b\", \"another\").between(1 cm, 2 m).usual(30 cm),
    number(\"f\", \"how full\").between(1, 6).usual(2),
    count(\"n\", \"how many\").between(1, 40).usual(3),
    choice(\"c\", \"which\", [\"one\", \"two\"]).usual(\"one\"),
    yes_no(\"g\", \"whether\").usual(true),
    cloth(\"m\", \"cloth\"),
] }

fn make(order, ticket) {
";

/// What stands behind it: an order that gives every input, so that the figures, the plan and the pictures follow.
const BEHIND: &str = "
; ticket.figure(\"ended\", 1, \"the last line\");
}

fn examples() { [
    #{ given: #{ m: any_cloth(44 in) }, expect: #{ ended: 1 }, source: \"own arithmetic\" },
] }
";

/// Words and signs after which a text may leave lines out.
const BRANCHES: [&str; 16] = [
    "if", "switch", "for", "while", "loop", "do", "fn", "return", "break", "continue", "&&", "||", "??", "?.", "?[",
    "|",
];

/// Runs the example of a recipe with this body.
pub fn try_text(text: &str) -> bool {
    let whole = format!("{BEFORE}{text}{BEHIND}");
    let read = as_read(&whole);
    let recipe = RecipeText { name: "tried".to_owned(), text: whole, helpers: BTreeMap::new() };
    let workshop = Workshop::default();
    let looked = match answered(&recipe, &workshop, &Task::Read) {
        None => return true,
        Some(Reply::Checked(report)) => Some(report.findings),
        Some(Reply::Failed(errors)) => {
            assert_all_told(&read, &errors);
            None
        }
        Some(other) => panic!("looking at a text gives {other:?}"),
    };
    assert_all_told(&read, looked.as_deref().unwrap_or_default());
    let examples = match answered(&recipe, &workshop, &Task::Examples) {
        None => return true,
        Some(Reply::Worked(examples)) => examples,
        Some(Reply::Failed(errors) | Reply::Refused(errors)) => {
            assert!(!errors.is_empty(), "it fails without a word");
            assert_all_told(&read, &errors);
            return true;
        }
        Some(other) => panic!("examples give {other:?}"),
    };
    // A word alone is no statement for the engine, which leaves it out.
    let is_word = |part: &str| part.trim().chars().all(|c| c.is_alphanumeric() || c == '_') && !part.trim().is_empty();
    let written = |line: &str| line.split("//").next().unwrap_or_default().to_owned();
    let lines: Vec<String> = text.split('\n').map(written).collect();
    let leaves_out = lines.iter().any(|line| line.split([';', '}']).any(is_word));
    // Every line of such a text has run without a fault, so looking at it must find none.
    if !examples.is_empty() && !leaves_out && !BRANCHES.iter().any(|word| text.contains(word)) {
        let found = looked.expect("what runs can be read");
        let told: Vec<String> = found.iter().map(excerpt::text).collect();
        // A text need not use the inputs that stand before it.
        let wrong = told.iter().find(|told| !told.contains("is asked for and never used"));
        assert_eq!(wrong, None, "it runs, and yet is told so");
    }
    let description = match answered(&recipe, &workshop, &Task::Describe) {
        None => return true,
        Some(Reply::Described(description)) => description,
        Some(other) => panic!("it runs and cannot be described: {other:?}"),
    };
    let presented = Presented { recipe, description, examples };
    let files = reference(&[presented], &Style::default()).expect("it can be drawn");
    for (name, bytes) in files {
        let content = String::from_utf8(bytes).expect("a page is text");
        let steers = |c: char| (c.is_control() && !matches!(c, '\n' | '\t')) || ('\u{202a}'..='\u{202e}').contains(&c);
        assert!(!content.contains(steers), "codes for the terminal in {name}");
    }
    true
}
