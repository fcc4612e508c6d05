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

#[test]
fn a_line_begins_with_a_verb_unless_a_sum_goes_on() {
    let leading = |line: &str| leading(line, Reading::default()).map(|(verb, rest)| format!("{}|{rest}", verb.name));
    for (line, wanted) in [
        ("show", "show|"),
        ("  show waist", "show| waist"),
        ("open ./fair.txt", "open| ./fair.txt"),
        ("open /fair.txt", "open| /fair.txt"),
        ("open ../fair.txt", "open| ../fair.txt"),
        ("open ~/fair.txt", "open| ~/fair.txt"),
        ("must -x < 2 in", "must| -x < 2 in"),
        ("must !x", "must| !x"),
    ] {
        assert_eq!(leading(line).as_deref(), Some(wanted), "{line}");
    }
    for sum in ["run = 3", "run + 1", "run(3)", "runs", "show -x", "show!x", "waist", "", "must * 3", "run.x"] {
        assert_eq!(leading(sum), None, "{sum}");
    }
}

#[test]
fn another_word_for_a_verb_is_read_as_the_programs_own() {
    let own = |line: &str| in_own_words(line, Reading::default()).into_owned();
    for (line, wanted) in [
        ("undo", "take back"),
        ("UNDO 2", "take back 2"),
        ("load fair.txt", "open fair.txt"),
        ("calc 1 + 2", "1 + 2"),
        ("calc", ""),
        ("undo + 1", "undo + 1"),
        ("calc * 3", "calc * 3"),
        ("undone", "undone"),
        ("show", "show"),
    ] {
        assert_eq!(own(line), wanted, "{line}");
    }
}

#[test]
fn the_name_of_an_order_stands_before_or_behind_its_answers() {
    let named = |rest: &str| {
        let order = arguments("run", rest);
        (order.value(0).to_owned(), order.has("as").then(|| order.value(1).to_owned()), order.answers.len())
    };
    let wanted = |name: Option<&str>, answers: usize| ("skirt".to_owned(), name.map(str::to_owned), answers);
    assert_eq!(named("skirt as first waist=3 in cloth=any"), wanted(Some("first"), 2));
    assert_eq!(named("skirt waist=3 in as first"), wanted(Some("first"), 1));
    assert_eq!(named("skirt waist=3 in as second"), wanted(Some("second"), 1));
    // A unit is no name, nor are two words or a number.
    for none in ["skirt waist=3 cm as in", "skirt waist=3 cm as a b", "skirt waist=3 cm as 2x"] {
        assert_eq!(named(none), wanted(None, 1), "{none}");
    }
    assert_eq!(named("skirt as"), wanted(Some(""), 0));
    assert_eq!(arguments("sheet", "skirt waist=3 in").answers.len(), 1);
    assert_eq!(arguments("sheet", "first").value(0), "first");
}

#[test]
fn what_was_typed_is_asked_for_by_its_place_and_its_word() {
    assert!(arguments("open", "").is_empty() && arguments("redo", "").is_empty());
    for (verb, rest) in [("open", "a"), ("take", "back"), ("run", "skirt a=3"), ("cut", "a from b, straight")] {
        assert!(!arguments(verb, rest).is_empty(), "{verb} {rest}");
    }
    let add = arguments("add", "roll B4, tulle");
    assert_eq!((add.keyword(), add.value(0), add.value(1)), ("roll", "B4, tulle", ""));
    assert_eq!(arguments("show", "a").keyword(), "");
    assert_eq!((arguments("take", "back3").count(), arguments("redo", "12").count()), (3, 12));
    assert_eq!(arguments("vary", "  a over 3, show b ").typed(), "a over 3, show b");
    assert_eq!(arguments("compare", "a with b").values(), ["a", "b"]);
    assert!(named("take").unwrap().read("backs").is_err());
}

#[test]
fn clauses_stand_in_any_order_behind_commas() {
    let cut = arguments("cut", "a.csv from b.csv, loss 1/8 in, straight, to 'my out', steps 5");
    assert_eq!((cut.value(0), cut.value(1)), ("a.csv", "b.csv"));
    let clause = |word: &str| cut.clause(word);
    assert_eq!([clause("loss"), clause("straight"), clause("to")], [Some("1/8 in"), Some(""), Some("my out")]);
    assert_eq!((clause("steps"), clause("folded")), (Some("5"), None));
    let other = arguments("cut", "loss.csv from straight.csv straight,loss 3 in");
    assert_eq!((other.value(0), other.value(1)), ("loss.csv", "straight.csv"));
    assert_eq!((other.clause("straight"), other.clause("loss")), (Some(""), Some("3 in")));
    assert_eq!(arguments("cut", "a from b,c.csv").value(1), "b,c.csv");
    let error = |rest: &str| named("cut").unwrap().read(rest).unwrap_err().message;
    assert_eq!(error("a from b, c"), "“c” is not understood");
    assert_eq!(error("a from b, straight c"), "“c” is not understood");
    assert_eq!(error("a from b, to"), "a value is missing behind “to”");
    assert_eq!(error("a from b, straight, straight"), "“straight” stands here twice");
    assert!(only_typed("cut", "a from b, to c") && !only_typed("cut", "a from b"));
    assert!(only_typed("save", "a") && !only_typed("show", "a") && !only_typed("nosuch", ""));
    assert_eq!(incomplete_error("nosuch").message, "there is no verb nosuch");
}
