//! Checks that every verb's example answers as its help says.

use crate::sessions::{replay, transcript_folder};
use shirr::notebook::verbs::{VERBS, Verb};

/// The most lines of an answer that help shows; a longer one is cut there and ends with `…`.
const MOST: usize = 6;

fn shown(verb: &Verb) -> String {
    let here = transcript_folder("verbs");
    let lines: String = verb.example.iter().map(|line| format!("> {line}\n")).collect();
    let out = replay(&format!("$ shirr --workshop demo\n{lines}"), here.path());
    let last = format!("\n> {}\n", verb.example.last().unwrap());
    let (_, answer) = out.split_once(&last).unwrap();
    // What only a pipe is told is not what a person sees.
    let of_pipe = ["[exit", "the lines ended before"];
    let answer: Vec<&str> =
        answer.lines().filter(|line| !of_pipe.iter().any(|begin| line.starts_with(begin))).collect();
    if answer.len() <= MOST { answer.join("\n") } else { format!("{}\n…", answer[..MOST].join("\n")) }
}

#[test]
fn every_example_answers_as_help_says() {
    let wrong: Vec<String> = VERBS
        .iter()
        .filter_map(|verb| {
            let shown = shown(verb);
            (shown != verb.shown).then(|| format!("{}:\n{shown}\n", verb.name))
        })
        .collect();
    assert!(wrong.is_empty(), "the examples of these verbs show something else:\n{}", wrong.join("\n---\n"));
}
