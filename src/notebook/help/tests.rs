//! What help says: the words it knows, what fits a screen, and what comes first.

use super::*;

fn told(word: &str) -> String {
    about(word, &Style::default(), 80).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn every_verb_function_topic_and_part_of_a_word_is_known() {
    let style = Style::default();
    for verb in verbs::VERBS {
        let text = told(verb.name);
        assert!(text.starts_with(&verb.form()), "{text}");
        assert!(verb.form().starts_with(verb.name), "{}", verb.form());
        let last = verb.example.last().unwrap();
        assert!(last.starts_with(verb.name), "{last}");
    }
    for function in functions::all() {
        assert!(told(function.name).starts_with(&function.signature()));
    }
    for (topic, _) in TOPICS {
        assert!(told(topic).starts_with(topic), "{topic}");
    }
    assert!(told("take back").contains("take back 3"));
    assert!(told("selvedge").contains("usable_width"));
    assert_eq!(about("tuor", &style, 80).unwrap_err(), "nothing is known about “tuor”\n  did you mean “tour”?");
    assert_eq!(
        about("wasteband", &style, 80).unwrap_err(),
        "nothing is known about “wasteband”\n  did you mean “waistband”?"
    );
}

/// Words that a maker might ask for, each with a word of the answer.
const ASKED: [(&str, &str); 66] = [
    ("waist", "tape snug"),
    ("hips", "widest"),
    ("fullness", "twice as much cloth"),
    ("gather", "along a row of stitches"),
    ("gathering", "gathered_flat"),
    ("tulle", "meshes"),
    ("elastic", "elastic_length"),
    ("band", "finishes a waist"),
    ("strip", "strips_for"),
    ("price", "first.price"),
    ("quote", "first.price"),
    ("cost", "first.cost"),
    ("wage", "rates.csv"),
    ("rate", "rates.csv"),
    ("mark-up", "share of the cost"),
    ("fee", "marketplace"),
    ("roll", "rolls_for"),
    ("remnant", "leftover"),
    ("stock", "stock.csv"),
    ("shelf", "stock.csv"),
    ("leftovers", "first.leftovers"),
    ("lot", "dyed together"),
    ("nap", "face one way"),
    ("repeat", "pattern"),
    ("half drop", "half its repeat"),
    ("shrink", "first wash"),
    ("washing", "washed first"),
    ("cut longer", "larger"),
    ("spare", "trim off"),
    ("selvedge", "woven edge"),
    ("grain", "along the selvedge"),
    ("bias", "45 degrees"),
    ("hem", "lower edge"),
    ("casing", "tunnel"),
    ("heading", "top of a curtain"),
    ("lining", "second layer"),
    ("curtain", "curtain_flat"),
    ("tape", "measuring tape"),
    ("hook", "first.buy_list"),
    ("thread", "thread_for"),
    ("needle", "cautions"),
    ("minutes", "first.minutes"),
    ("time", "first.minutes"),
    ("label", "first.labels"),
    ("caution", "first.cautions"),
    ("age", "age='5 years'"),
    ("size", "sizes.csv"),
    ("trial", "before the cloth is cut"),
    ("order", "run gathered_skirt"),
    ("customer", "for=Juno"),
    ("due", "due='Fri 4 Dec'"),
    ("deposit", "40 %"),
    ("inch", "14 3/8"),
    ("fraction", "14 3/8"),
    ("cm", "35 cm"),
    ("yard", "2 yd"),
    ("money", "$4.50"),
    ("percent", "8 % of"),
    ("picture", "pieces.svg"),
    ("print", "sheet"),
    ("workshop", "folder"),
    ("csv", "materials.csv"),
    ("undo", "take back"),
    ("what if", "vary waist"),
    ("drop", "cut drop"),
    ("frill", "gathered strip"),
];

#[test]
fn what_a_maker_asks_is_answered_on_the_first_screen() {
    for (word, answer) in ASKED {
        for columns in [80, 120] {
            let text = about(word, &Style::default(), columns).unwrap_or_else(|error| panic!("{error}"));
            let rows: usize = text.lines().map(|line| crate::report::wrap::wrap(line, columns - 12).len()).sum();
            assert!(text.contains(answer), "{word}: no “{answer}” in\n{text}");
            assert!(rows <= 24, "{word}: {rows} rows of {columns}\n{text}");
        }
    }
    let rows: usize = told("").lines().map(|line| crate::report::wrap::wrap(line, 68).len()).sum();
    assert!(rows <= 22, "help: {rows} rows\n{}", told(""));
}

#[test]
fn whole_words_come_before_parts_of_words() {
    assert_eq!(rank("lot", "dye lot", ""), Some(0));
    assert_eq!(rank("lot", "lots_of", ""), Some(0));
    assert_eq!(rank("lot", "x", "of one lot"), Some(1));
    assert_eq!(rank("lot", "plot", ""), Some(2));
    assert_eq!(rank("lot", "x", "a slot"), Some(3));
    assert_eq!(rank("lot", "x", "y"), None);
    // The dye lot is explained, and what merely holds the letters is left out.
    assert!(told("lot").starts_with("dye lot (also lot)") && !told("lot").contains("slot"), "{}", told("lot"));
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

/// An entry of so many rows, and of more in full.
fn entry(name: &'static str, rows: usize, in_full: usize) -> Entry {
    let lines = |count: usize| (0..count).map(|row| format!("{name} {row}")).collect();
    Entry { name, lines: lines(rows), in_full: lines(in_full) }
}

const NAMES: [&str; 11] = ["a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k"];

/// The lines of a screen with two lines of heads and these entries.
fn fitted(entries: impl IntoIterator<Item = Entry>) -> Vec<String> {
    let mut screen = Screen { heads: vec!["head".to_owned(), "more".to_owned()], found: Vec::new() };
    entries.into_iter().for_each(|entry| screen.add(entry));
    screen.fitted(80)
}

/// Two rows of 22 are the heads': 20 are left, or 17 where names must be listed.
#[test]
fn a_screen_holds_what_fits_and_names_the_rest() {
    let ten = fitted(NAMES[..10].iter().map(|name| entry(name, 2, 2)));
    assert_eq!((ten.len(), ten.last().unwrap().as_str()), (22, "j 1"));
    let eleven = fitted(NAMES.iter().map(|name| entry(name, 2, 2)));
    assert_eq!(eleven.len(), 2 + 8 * 2 + 1);
    assert_eq!(eleven.last().unwrap(), "also i, j, k; help and a name tells more");
    // With an example each, as long as all have room for theirs.
    assert_eq!(fitted(NAMES[..4].iter().map(|name| entry(name, 2, 5))).len(), 2 + 4 * 5);
    assert_eq!(fitted(NAMES[..4].iter().map(|name| entry(name, 2, 6))).len(), 2 + 4 * 2);
    // Behind the first that does not fit nothing is shown, however short.
    let long = fitted([entry("a", 10, 10), entry("b", 9, 9), entry("c", 1, 1), entry("d", 7, 7)]);
    assert_eq!((long.len(), long.last().unwrap().as_str()), (2 + 10 + 1, "also b, c, d; help and a name tells more"));
    let exact = fitted([entry("a", 10, 10), entry("b", 7, 7), entry("c", 9, 9)]);
    assert_eq!((exact.len(), exact.last().unwrap().as_str()), (2 + 17 + 1, "also c; help and a name tells more"));
    assert_eq!(fitted([entry("a", 1, 1), entry("a", 3, 3)]).len(), 3);
}

/// Of 80 columns a line that is broken uses 68, and never less than eight.
#[test]
fn a_line_takes_the_rows_that_it_is_broken_into() {
    for (width, columns, rows) in [(80, 80, 1), (81, 80, 2), (136, 80, 2), (137, 80, 3), (17, 16, 3), (16, 16, 1)] {
        assert_eq!(rows_of(&"x".repeat(width), columns), rows, "{width} in {columns}");
    }
}

/// 33 letters are around the names, 11 more where some are left out; ten names of six letters and the commas between
/// take 78. Three rows of 28 are 84: six names, or five of ten.
#[test]
fn the_names_of_the_rest_take_three_rows() {
    let names = ["gather", "sleeve", "fringe", "ruffle", "casing", "drapes", "tucked", "pleats", "hangin", "needle"];
    assert_eq!(names_line(&[], 40), None);
    assert_eq!(names_line(&names[..1], 40).unwrap(), "also gather; help and a name tells more");
    let six = "also gather, sleeve, fringe, ruffle, casing, drapes; help and a name tells more";
    assert_eq!(names_line(&names[..6], 40).unwrap(), six);
    let ten = "also gather, sleeve, fringe, ruffle, casing and 5 more; help and a name tells more";
    assert_eq!(names_line(&names, 40).unwrap(), ten);
    // One is named, however narrow the window.
    assert_eq!(names_line(&names[..2], 8).unwrap(), "also gather and 1 more; help and a name tells more");
}

#[test]
fn a_word_is_whole_between_signs_and_with_an_s_behind_it() {
    for (name, summary, wanted) in [
        ("lot", "", Some(0)),
        ("LOT", "", Some(0)),
        ("the lots", "", Some(0)),
        ("lotss", "", Some(2)),
        ("lot2", "", Some(2)),
        ("a.lot.b", "", Some(0)),
        ("plot lot", "", Some(0)),
        ("x", "Lots of it", Some(1)),
        ("plot", "one lot", Some(1)),
        ("x", "a slot", Some(3)),
    ] {
        assert_eq!(rank("lot", name, summary), wanted, "{name} {summary}");
    }
}

#[test]
fn other_words_lead_to_the_same_help() {
    assert_eq!(told(" "), told(""));
    assert_eq!(told("UNITS"), told("unit"));
    assert!(["page", "cells", "cell"].iter().all(|word| told(word).starts_with("what stands on a page")));
    assert_eq!(told("filter"), told("pages"));
    assert_eq!(told("undo"), told("take"));
    assert_eq!(told("take back"), told("take"));
    assert_eq!(told("calc"), told(""));
    assert!(told("pages").contains("what stands on a page") && told("pages").starts_with("pages"));
    for verb in verbs::names() {
        assert!(told("verbs").contains(&format!("\n  {verb}")), "{verb}");
        assert!(told("").contains(verb), "{verb}");
    }
    assert!(told("recipe words").starts_with("recipe words\n  "));
    assert!(told("recipe words").contains("in a recipe: "));
    let no_near = about("qqqqqqqqqq", &Style::default(), 80).unwrap_err();
    assert_eq!(no_near, "nothing is known about “qqqqqqqqqq”\n  type help for what there is to ask");
}

#[test]
fn measures_and_money_are_those_of_the_workshop() {
    let metric = Style { tape: Tape::Metric, currency: '€', ..Style::default() };
    let units = about("units", &metric, 80).unwrap();
    assert!(units.contains("35 cm, 8 mm, 1.5 m; 14 1/2 in") && units.contains("€4.50/m"), "{units}");
    assert!(told("units").contains("3/8 in; 35 cm") && told("units").contains("$4.50/yd"));
    let run = about("run", &metric, 80).unwrap();
    assert!(run.contains("at €6/yd") && !run.contains('$'), "{run}");
    assert!(!about("pages", &metric, 80).unwrap().contains('$'));
    let rows = in_columns(&[("a".to_owned(), "x".to_owned()), ("abc".to_owned(), "y".to_owned())]);
    assert_eq!(rows, ["  a    x", "  abc  y"]);
}
