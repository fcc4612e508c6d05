//! Checks the messages for sums that cannot be worked out, with the place marked, and that no code inspects the text of
//! a message.

use super::common::rust_files;
use rhai::Scope;
use shirr::engine::limits::{Limits, StopFlag};
use shirr::engine::{Host, value};
use shirr::quantity::{Reading, Style};
use shirr::report::excerpt;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

fn answer(typed: &str) -> String {
    let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    let result = host.compile_expression(typed).and_then(|script| host.evaluate(&script, &mut Scope::new()));
    match result {
        Ok(value) => value::show(&value, &Style::default()).unwrap_or_else(|| "no plain value".to_owned()),
        Err(diagnostic) => excerpt::text(&diagnostic),
    }
}

#[track_caller]
fn check(typed: &str, shown: &str) {
    assert_eq!(answer(typed), shown, "{typed}");
}

#[test]
fn faults_mark_the_place_and_say_what_to_type() {
    check(
        "14 in + 3 min",
        "a length and a time cannot be added\n  14 in + 3 min\n  ~~~~~   ~~~~~\n  type a length on both sides, or a time on both",
    );
    check("14 in 3 cm", "“14 in 3 cm” mixes two tapes in one length\n  14 in 3 cm\n  ~~~~~~~~~~\n  type 14 in + 3 cm");
    check("5 inn", "“inn” is not a unit\n  5 inn\n    ~~~\n  did you mean “in”?");
    check(
        "1 in / 0",
        "nothing can be divided by zero\n  1 in / 0\n  ~~~~   ~\n  type a number other than 0 below the line",
    );
    check(
        "14 in > 80",
        "a length and a plain number cannot be compared\n  14 in > 80\n  ~~~~~   ~~\n  give the plain number a unit, such as in or cm",
    );
    check("14 in == \"x\"", "a length and a text cannot be compared\n  14 in == \"x\"\n  ~~~~~    ~~~");
    check("(1 + 2", "“)” is missing here\n  (1 + 2\n        ~");
    check("squrt(4)", "there is no function “squrt”\n  squrt(4)\n  ~~~~~\n  did you mean sqrt(area)?");
    check("waist + 1", "I don't know the word waist\n  waist + 1\n  ~~~~~");
    check("up(3 in)", "number in up must be a plain number, not a length\n  up(3 in)\n     ~~~~\n  type up(number)");
    check(
        "up(1, 2)",
        "up takes 1 thing, not 2\n  up(1, 2)\n  ~~\n  type up(number); for whole steps, rounded_up(amount, step)",
    );
    check(
        "7 % 3",
        "“%” after a number means per cent, and a sign is missing behind it\n  7 % 3\n  ~~~\n  for a part of something, type 8 % of 20 in; for what is left over, remainder(7, 3)",
    );
    check(
        "up(7) % 3",
        "“%” cannot be here\n  up(7) % 3\n        ~\n  “%” after a number is per cent; for what is left over, type remainder(7, 3)",
    );
    check("thr:;x", "“:;” cannot be here\n  thr:;x\n     ~");
    check("10 h || 2 in", "a yes or no is needed here, not a measure\n  10 h || 2 in\n  ~~~~");
    check("2 ** 3", "“**” cannot be here\n  2 ** 3\n    ~~\n  for a power, type 2 ^ 3");
    check(
        "let x = 3",
        "“let” has a meaning of its own and cannot be a name\n  let x = 3\n  ~~~\n  give a name its value without it: waist = 56 cm",
    );
}

/// Names of variables and functions that hold the text of an error.
const MESSAGE_NAMES: [&str; 9] =
    ["message", "hint", "error", "error_text", "problem", "diagnostic", "refusal", "finding", "warning"];

/// Methods that inspect a text.
const TEXT_METHODS: [&str; 14] = [
    "contains",
    "starts_with",
    "ends_with",
    "strip_prefix",
    "strip_suffix",
    "split",
    "split_once",
    "rsplit_once",
    "split_at",
    "lines",
    "find",
    "matches",
    "replace",
    "eq",
];

/// Allowed exceptions: file, call and reason.
const EXCEPTIONS: [(&str, &str, &str); 4] = [
    ("engine/translate.rs", "message.split", "the script engine names a member and its type in its text alone"),
    ("engine/translate.rs", "hint.replace", "a hint of ours with a place for the argument as it was typed"),
    ("terminal/files.rs", "message.split", "the operating system's own words, without its number"),
    ("table/table_file_error.rs", "hint.ends_with", "two hints of ours are joined into one sentence"),
];

/// The code of a file without comments and its own tests; blanks are kept only between two words.
fn code(text: &str) -> String {
    let text = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    let mut code = String::new();
    for part in text.lines().map(|line| line.split("//").next().unwrap_or_default()).flat_map(str::split_whitespace) {
        if code.ends_with(is_word) && part.starts_with(is_word) {
            code.push(' ');
        }
        code.push_str(part);
    }
    code
}

/// The name that a chain of calls such as `error.message(&style).as_str()` ends with, before `as_str`.
fn receiver(mut chain: &str) -> &str {
    loop {
        if let Some(inner) = chain.strip_suffix(')') {
            let mut depth = 1;
            let opened = inner.rfind(|c| {
                depth += i32::from(c == ')') - i32::from(c == '(');
                depth == 0
            });
            chain = opened.map_or("", |at| &inner[..at]);
            continue;
        }
        let from = chain.rfind(|c: char| !(c.is_alphanumeric() || c == '_')).map_or(0, |at| at + 1);
        let name = &chain[from..];
        match chain[..from].strip_suffix('.') {
            Some(before) if ["as_str", "as_deref", "to_string", "clone", "trim", "as_ref"].contains(&name) => {
                chain = before;
            }
            _ => return name,
        }
    }
}

/// Whether a file of the source tree holds nothing but tests.
fn is_of_tests(inside: &Path) -> bool {
    inside.iter().any(|part| part == "tests" || part == "tests.rs")
}

#[test]
fn no_code_asks_what_a_message_contains() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let (mut wrong, mut met) = (Vec::new(), BTreeSet::new());
    for path in rust_files(&src) {
        let inside = path.strip_prefix(&src).unwrap();
        if is_of_tests(inside) {
            continue;
        }
        let name = inside.to_string_lossy().replace('\\', "/");
        let code = code(&fs::read_to_string(&path).unwrap());
        let mut found = Vec::new();
        for method in TEXT_METHODS {
            let call = format!(".{method}(");
            let calls = code.match_indices(&call).map(|(at, _)| receiver(&code[..at]));
            found.extend(calls.filter(|name| MESSAGE_NAMES.contains(name)).map(|name| format!("{name}.{method}")));
        }
        for same in ["==\"", "!=\""] {
            let compared = code.match_indices(same).map(|(at, _)| receiver(&code[..at]));
            found.extend(compared.filter(|name| MESSAGE_NAMES.contains(name)).map(|name| format!("{name} {same}")));
        }
        for call in found {
            match EXCEPTIONS.iter().find(|(file, known, _)| *file == name && *known == call) {
                Some((_, _, why)) => drop(met.insert(why)),
                None => wrong.push(format!("{name}: {call}")),
            }
        }
    }
    assert!(wrong.is_empty(), "branch on the kind of a diagnostic, not on its words:\n{}", wrong.join("\n"));
    assert_eq!(met.len(), EXCEPTIONS.len(), "an exception that is no longer one");
}

#[test]
fn questions_to_messages_are_found() {
    for (chain, name) in [
        ("error.message", "message"),
        ("error.to_string()", "error"),
        ("error.message(&style(1)).as_str()", "message"),
        ("names.iter().map(f)", "map"),
        ("hint", "hint"),
    ] {
        assert_eq!(receiver(chain), name, "{chain}");
    }
    assert_eq!(code("a // b\n  .c()\n#[cfg(test)]\nmod tests {"), "a.c()");
    assert_eq!(code("if a\n    .b() {"), "if a.b(){");
}
