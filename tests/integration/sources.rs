//! Checks that nothing the program shows names a person, a firm or a site, and that each number behind a source leads
//! to its row in the bibliography.

use super::common::rust_files;
use super::sessions::{replay, transcript_folder};
use shirr::engine::help;
use shirr::quantity::Style;
use shirr::recipe::library;
use shirr::textile::thread::STITCH_CLASSES;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// One row of the bibliography.
#[derive(Debug)]
struct Row {
    number: usize,
    /// The words before the number.
    shown: String,
    /// The people, firms and sites that stand on the bibliography alone; none of a law, a standard, a table of the state.
    unnamed: Vec<String>,
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn bibliography() -> Vec<Row> {
    let page = fs::read_to_string(root().join("src/terminal/manual/bibliography.md")).unwrap();
    let mut rows = Vec::new();
    for part in page.split("\n## ") {
        let may_be_named = part.contains("These may be named on a screen.");
        for line in part.lines().filter(|line| line.starts_with("| ")) {
            let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
            let Ok(number) = cells[0].parse() else { continue };
            let [_, shown, author, title, place, _, read] = cells[..] else { panic!("{line}") };
            assert!(!shown.is_empty() && !title.is_empty() && !read.is_empty(), "{line}");
            let names = format!("{author};{place}");
            // A person may stand beside the office that published the table.
            let names = if may_be_named { author.replace(" and others", "") } else { names };
            let unnamed = names.split(';').map(|name| name.trim().to_owned()).filter(|name| !name.is_empty()).collect();
            rows.push(Row { number, shown: shown.to_owned(), unnamed });
        }
    }
    rows
}

/// The files of a folder and its folders.
fn files_in(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries.flat_map(|path| if path.is_dir() { files_in(&path) } else { vec![path] }).collect()
}

/// The texts of the files in a folder, by their paths; those that are no text are left out.
fn texts_in(folder: &Path) -> Vec<(String, String)> {
    let texts = files_in(folder).into_iter().filter_map(|path| Some((path.clone(), fs::read_to_string(path).ok()?)));
    texts.map(|(path, text)| (path.strip_prefix(root()).unwrap_or(&path).display().to_string(), text)).collect()
}

/// A text in one line, with one blank for many; Markdown's escapes are taken off.
fn in_one_line(text: &str) -> String {
    let plain = text.replace('\\', "");
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What the program writes in whole lines: reference, help, the CSV files of orders.
fn unwrapped() -> Vec<(String, String)> {
    let mut texts = texts_in(&root().join("recipes/reference"));
    texts.retain(|(path, _)| !path.ends_with("bibliography.md"));
    for function in help::topics().flat_map(|topic| topic.functions) {
        texts.push((format!("help {}", function.name), help::help(function, &Style::default())));
    }
    for class in STITCH_CLASSES {
        texts.push((format!("stitch class {}", class.number), class.source.to_owned()));
    }
    for (market, more, here) in orders() {
        let files = texts_in(&here.path().join("out"));
        assert!(files.len() > 10, "{market}, {more}: {} files", files.len());
        texts.extend(files);
    }
    texts
}

/// The folders of orders that have labels and cautions of every kind, in each market.
fn orders() -> impl Iterator<Item = (&'static str, &'static str, TempDir)> {
    let answers = ["age='5 years' use=sleep", "age='2 years' use=outdoors", ""];
    let kinds = ["US", "EU", "UK", "any"].into_iter().flat_map(move |market| answers.map(|more| (market, more)));
    kinds.map(|(market, more)| {
        let here = transcript_folder("sources");
        let settings = here.path().join("demo/settings.csv");
        let known = fs::read_to_string(&settings).unwrap();
        let others = known.lines().filter(|line| !line.starts_with("market,"));
        let lines: String = others.map(|line| format!("{line}\n")).collect();
        fs::write(&settings, format!("{lines}market,{market}\n")).unwrap();
        let order = "gathered_skirt --workshop demo waist='21 in' skirt='12 in' cloth='blue check lawn' elastic=any";
        let shown = replay(&format!("$ shirr run {order} {more} --csv out\n"), here.path());
        assert!(!shown.contains("[exit"), "{shown}");
        fs::write(here.path().join("screen.txt"), shown).unwrap();
        (market, more, here)
    })
}

/// Everything the program shows: also what is broken to the width of a screen, and the texts that it is built from.
fn shown() -> Vec<(String, String)> {
    let mut texts = unwrapped();
    texts.extend(texts_in(&root().join("tests/sessions")));
    texts.extend(recipe_texts());
    for (market, more, here) in orders() {
        let screen = fs::read_to_string(here.path().join("screen.txt")).unwrap();
        texts.push((format!("order, {market}, {more}"), screen));
    }
    let here = transcript_folder("sources");
    for name in library::shipped_names() {
        texts.push((format!("describe {name}"), replay(&format!("$ shirr describe {name}\n"), here.path())));
    }
    texts
}

/// The recipes, their helper files and the demo workshop.
fn recipe_texts() -> Vec<(String, String)> {
    let mut texts = texts_in(&root().join("recipes"));
    texts.retain(|(path, _)| !path.starts_with("recipes/reference"));
    texts
}

/// Whether a name stands in a text as a word of its own.
fn names(text: &str, name: &str) -> bool {
    let inside = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    text.match_indices(name)
        .any(|(at, _)| !inside(text[..at].chars().next_back()) && !inside(text[at + name.len()..].chars().next()))
}

#[test]
fn no_screen_names_a_person_a_firm_or_a_site() {
    let rows = bibliography();
    let mut wrong = Vec::new();
    for (place, text) in shown() {
        let text = in_one_line(&text).replace("http://www.w3.org/2000/svg", "");
        let named = rows.iter().flat_map(|row| &row.unnamed).filter(|name| names(&text, name));
        wrong.extend(named.map(|name| format!("{place}: {name}")));
        let words = ["http", "www.", ".com", ".org", ".net", "blog", "month not noted", "read 20"];
        wrong.extend(words.iter().filter(|word| text.contains(**word)).map(|word| format!("{place}: {word}")));
    }
    // What the program is built from, without the solvers, which quote papers on packing.
    for path in rust_files(&root().join("src")) {
        if path.starts_with(root().join("src/packing")) {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        let named = rows.iter().flat_map(|row| &row.unnamed).filter(|name| names(&text, name));
        wrong.extend(named.map(|name| format!("{}: {name}", path.display())));
    }
    wrong.sort();
    wrong.dedup();
    assert!(wrong.is_empty(), "{} places:\n{}", wrong.len(), wrong.join("\n"));
    assert!(rows.iter().flat_map(|row| &row.unnamed).count() > 40);
}

/// The numbers in brackets behind a word, with what stands before each; a list of one number stands behind a sign.
fn numbers(text: &str) -> Vec<(usize, &str)> {
    let number = |at: usize| text[at + 2..].split_once(']').and_then(|(number, _)| number.parse().ok());
    let places = text.match_indices(" [").map(|(at, _)| at);
    let behind_a_word = places.filter(|at| text[..*at].ends_with(|c: char| c.is_alphanumeric() || c == ')'));
    behind_a_word.filter_map(|at| Some((number(at)?, &text[..at]))).collect()
}

#[test]
fn every_number_has_its_row_and_its_words_and_every_row_is_used() {
    let rows: BTreeMap<usize, Row> = bibliography().into_iter().map(|row| (row.number, row)).collect();
    let known: Vec<usize> = rows.keys().copied().collect();
    assert_eq!(known, (1..=rows.len()).collect::<Vec<_>>(), "a number is missing or stands twice");
    let (mut used, mut wrong) = (BTreeSet::new(), Vec::new());
    let mut check = |place: &str, text: &str| {
        let text = in_one_line(text);
        for (number, before) in numbers(&text) {
            used.insert(number);
            if !rows.get(&number).is_some_and(|row| before.ends_with(&row.shown)) {
                let from = before.char_indices().rev().nth(50).map_or(0, |(at, _)| at);
                wrong.push(format!("{place}: {} [{number}]", &before[from..]));
            }
        }
    };
    for (place, text) in unwrapped().into_iter().chain(recipe_texts()) {
        check(&place, &text);
    }
    // What comments say of the rules beside them.
    for path in rust_files(&root().join("src")) {
        let text = fs::read_to_string(&path).unwrap();
        let comments = text.lines().filter_map(|line| line.trim().strip_prefix("//"));
        let comments: Vec<&str> = comments.map(|line| line.trim_start_matches(['/', '!'])).collect();
        check(&path.display().to_string(), &comments.join(" "));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let unused: Vec<usize> = known.into_iter().filter(|number| !used.contains(number)).collect();
    assert!(unused.is_empty(), "no source has the number of these rows: {unused:?}");
}

/// The tables of published values name their sources in full, and have the numbers beside them.
#[test]
fn a_published_value_and_the_screen_mean_the_same_source_by_a_number() {
    let page = fs::read_to_string(root().join("src/terminal/manual/bibliography.md")).unwrap();
    let title = |number: usize| {
        let row = page.lines().find(|line| line.starts_with(&format!("| {number} |")));
        row.unwrap_or_else(|| panic!("no row has the number {number}")).to_lowercase()
    };
    let mut seen = BTreeSet::new();
    for (path, text) in texts_in(&root().join("tests/worked")) {
        for line in text.lines() {
            for (number, before) in numbers(line) {
                // Some long word of its name is in the row.
                let words = before.rsplit(',').take(3).flat_map(|part| part.split([' ', '"', '-']));
                let words: Vec<String> =
                    words.filter(|word| word.chars().count() >= 4).map(str::to_lowercase).collect();
                let row = title(number);
                assert!(words.iter().any(|word| row.contains(word.as_str())), "{path}: {before} [{number}]: {row}");
                seen.insert(number);
            }
        }
    }
    assert!(seen.len() > 40, "{}", seen.len());
}
