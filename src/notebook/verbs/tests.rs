//! The table itself: every form and example is parsed, and every beginning of one can be continued.

use super::*;
use crate::notebook::line::{Line, read};
use crate::quantity::Reading;
use crate::report::excerpt;

/// The text after the verb in each of its forms that has a text, and in the last line of its example.
fn rests(verb: &Verb) -> Vec<String> {
    let shown = |form: &&Form| form.listed || form.parts.iter().all(|part| !part.shown.is_empty());
    let forms = verb.forms.iter().filter(shown).map(|form| form.shown(verb.name));
    let example = verb.example.last().map(|line| (*line).to_owned());
    forms.chain(example).map(|line| line[verb.name.len()..].to_owned()).collect()
}

#[test]
fn every_form_and_example_is_read_as_its_verb() {
    for verb in VERBS {
        for rest in rests(verb) {
            verb.read(&rest).unwrap_or_else(|error| panic!("{}{rest}: {}", verb.name, excerpt::text(&error)));
            let named = match read(&format!("{}{rest}", verb.name), Reading::default()) {
                Line::Verb { verb, .. } => verb,
                Line::Order { .. } => "run",
                Line::File { .. } => "read",
                Line::Must(_) => "must",
                other => panic!("{}{rest} is {other:?}", verb.name),
            };
            assert_eq!(named, verb.name, "{rest}");
        }
    }
}

#[test]
fn every_beginning_of_a_form_or_an_example_may_go_on() {
    for verb in VERBS {
        for rest in rests(verb) {
            for (at, _) in rest.char_indices() {
                assert!(verb.may_begin(&rest[..at]), "{}{}", verb.name, &rest[..at]);
            }
        }
    }
}

#[test]
fn a_verb_that_takes_nothing_less_says_what_it_lacks() {
    for verb in VERBS {
        if let Err(error) = verb.read("") {
            assert!(verb.incomplete.is_some() && error.hint.is_some(), "{}: {}", verb.name, excerpt::text(&error));
        }
    }
}

#[track_caller]
fn arguments<'t>(verb: &str, rest: &'t str) -> Arguments<'t> {
    named(verb).unwrap().read(rest).unwrap()
}

#[test]
fn the_form_with_most_keywords_counts_and_texts_hide_them() {
    let compared = arguments("compare", "\"one with two.txt\" with other.txt");
    assert_eq!((compared.value(0), compared.value(1)), ("one with two.txt", "other.txt"));
    assert_eq!(arguments("compare", "with x").value(0), "with x");
    let written = arguments("write", "orders where cloth = \"a to b\" to my file.csv");
    assert_eq!((written.value(0), written.value(1)), ("orders where cloth = \"a to b\"", "my file.csv"));
    assert!(!arguments("write", "a over b to c").has("over") && arguments("write", "a over b").has("over"));
    assert_eq!(arguments("write", "a to b to c.csv").value(0), "a to b");
    assert_eq!(arguments("rename", "a to b to c").value(1), "b to c");
    assert!(arguments("rename", "page to fair.txt").has("page"));
    assert!(arguments("open", "left").has("left") && !arguments("open", "left.txt").has("left"));
    assert_eq!(arguments("take", "back 3").count(), 3);
    assert_eq!(arguments("take", "back").count(), 1);
    assert_eq!(arguments("describe", "skirt waist=3 in").value(0), "skirt");
    assert_eq!(arguments("read", "my file as x.csv as x").value(0), "my file as x.csv");
}

#[test]
fn what_cannot_be_read_is_said_with_what_to_type() {
    let error = |verb: &str, rest: &str| excerpt::text(&named(verb).unwrap().read(rest).unwrap_err());
    assert_eq!(error("take", "3"), "take what?\n  type take back, or take back 3");
    assert_eq!(error("take", "back three"), "“three” is no number of lines\n  type take back 3");
    assert_eq!(error("redo", "0"), "“0” is no number of lines\n  type redo 3");
    assert_eq!(error("rename", "a"), "rename what to what?\n  type rename waist to snug, or rename page to fair.txt");
    assert_eq!(error("write", "a"), format!("write what to which file?\n  {}", named("write").unwrap().hint()));
    assert_eq!(error("sheet", "waist=3 in"), "which recipe?\n  type recipes for the list");
}
