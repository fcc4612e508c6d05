//! The places of a recipe or helper file that can be broken: found in its text, comments and words in quotes apart.

use crate::mutant::{Mutant, Shape};

const SWAPS: &[(&str, &str, &str)] = &[
    (" + ", " - ", "+ to -"),
    (" - ", " + ", "- to +"),
    (" * ", " / ", "* to /"),
    (" / ", " * ", "/ to *"),
    (" < ", " <= ", "< to <="),
    (" <= ", " < ", "<= to <"),
    (" > ", " >= ", "> to >="),
    (" >= ", " > ", ">= to >"),
    (" < ", " > ", "< to >"),
    (" <= ", " > ", "<= to >"),
    (" > ", " < ", "> to <"),
    (" >= ", " < ", ">= to <"),
    (" == ", " != ", "== to !="),
    (" != ", " == ", "!= to =="),
    (" && ", " || ", "and to or"),
    (" || ", " && ", "or to and"),
    ("true", "false", "yes to no"),
    ("false", "true", "no to yes"),
];

/// The breaks of one script.
pub fn of(file: &str, text: &str) -> Vec<Mutant> {
    let name = file.rsplit('/').next().unwrap_or(file).trim_end_matches(".rhai").to_owned();
    let mut code = code_of(text);
    // Its examples are tests themselves.
    if let Some(at) = code.find("fn examples()") {
        let rest: String = code[at..].chars().map(|letter| if letter == '\n' { letter } else { '\u{1}' }).collect();
        code.replace_range(at.., &rest);
    }
    let mut found = Vec::new();
    let mut add = |place: std::ops::Range<usize>, instead: String, kind: &str| {
        found.push(Mutant::new(file, text, place, instead, Shape::Script(name.clone()), kind));
    };
    for (from, to, kind) in SWAPS {
        for (at, _) in code.match_indices(from) {
            // The blank before a sign belongs to the line above where a line begins with it.
            add(at..at + from.len(), (*to).to_owned(), kind);
        }
    }
    for (start, end) in numbers(&code) {
        let shown = &text[start..end];
        let Some(other) = raised(shown) else { continue };
        add(start..end, other.clone(), &format!("{shown} to {other}"));
    }
    let mut begins = 0;
    for line in text.split_inclusive('\n') {
        let code_line = code[begins..begins + line.len()].trim_end();
        let indent = line.len() - line.trim_start().len();
        let whole = code_line.ends_with(';') && depth(code_line) == 0;
        let first = code_line.trim_start();
        if whole && !first.starts_with("let ") && !first.starts_with("import ") && !first.starts_with('}') {
            add(begins + indent..begins + code_line.len(), String::new(), "statement dropped");
        }
        begins += line.len();
    }
    found
}

/// The names of the helper files that a script imports.
pub fn imports(text: &str) -> Vec<String> {
    let lines = text.lines().filter_map(|line| line.trim_start().strip_prefix("import \""));
    lines.filter_map(|rest| rest.split('"').next()).map(str::to_owned).collect()
}

fn depth(line: &str) -> i32 {
    line.chars().map(|letter| i32::from("([{".contains(letter)) - i32::from(")]}".contains(letter))).sum()
}

/// A number one higher, written as it is.
pub fn raised(shown: &str) -> Option<String> {
    let plain = shown.replace('_', "");
    if plain.contains('.') {
        return plain.parse::<f64>().ok().map(|number| format!("{:?}", number + 1.0));
    }
    plain.parse::<i128>().ok().map(|number| (number + 1).to_string())
}

/// The text with every letter of comments and of words in quotes blanked, each place kept.
fn code_of(text: &str) -> String {
    let mut code = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(letter) = rest.chars().next() {
        let hidden = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if letter == '"' || letter == '`' {
            let mut end = rest.len();
            let mut escaped = false;
            for (at, inner) in rest.char_indices().skip(1) {
                if inner == letter && !escaped {
                    end = at + 1;
                    break;
                }
                escaped = inner == '\\' && !escaped;
            }
            end
        } else {
            0
        };
        if hidden == 0 {
            code.push(letter);
            rest = &rest[letter.len_utf8()..];
        } else {
            code.extend(rest[..hidden].bytes().map(|byte| if byte == b'\n' { '\n' } else { '\u{1}' }));
            rest = &rest[hidden..];
        }
    }
    code
}

fn numbers(code: &str) -> Vec<(usize, usize)> {
    let bytes = code.as_bytes();
    let mut found = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        let part_of_word = at > 0 && (bytes[at - 1].is_ascii_alphanumeric() || b"_.\x01".contains(&bytes[at - 1]));
        if !bytes[at].is_ascii_digit() || part_of_word {
            at += 1;
            continue;
        }
        let mut end = at;
        while end < bytes.len()
            && (bytes[end].is_ascii_digit()
                || (bytes[end] == b'.' && bytes.get(end + 1).is_some_and(u8::is_ascii_digit)))
        {
            end += 1;
        }
        found.push((at, end));
        at = end;
    }
    found
}
