//! Lines as they are typed at the prompt, and answers from a pencil: what a transcript alone would hold.

use crate::sessions::{replay, transcript_folder};
use std::path::Path;

/// What these lines answer at a prompt in a folder.
pub(crate) fn answered(here: &Path, lines: &[&str]) -> String {
    answered_by("shirr --workshop demo", here, lines)
}

/// What these lines answer if they are typed into a command.
pub(crate) fn answered_by(command: &str, here: &Path, lines: &[&str]) -> String {
    let typed: String = lines.iter().map(|line| format!("> {line}\n")).collect();
    replay(&format!("$ {command}\n{typed}"), here)
}

/// The part of the answers that follows a line, up to the next one that was typed and without the exit code.
pub(crate) fn after<'a>(answers: &'a str, line: &str) -> &'a str {
    let rest = answers.rsplit_once(&format!("\n> {line}\n")).unwrap_or_else(|| panic!("{line}: {answers}")).1;
    let answer = rest.split("\n> ").next().unwrap();
    answer.split("\n[exit ").next().unwrap().trim_end_matches('\n')
}

pub(crate) fn cells(line: &str) -> Vec<&str> {
    line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect()
}

#[test]
fn a_page_is_compared_with_what_was_saved_and_with_another() {
    let here = transcript_folder("compared");
    let same = answered(here.path(), &["waist = 56 cm", "save fair.txt", "compare"]);
    assert!(after(&same, "compare").starts_with("no difference"), "{same}");
    let lines = ["open fair.txt", "waist = 60 cm", "hem = 3 cm", "compare", "save more.txt", "compare more.txt"];
    let changed = answered(here.path(), &lines);
    let rows: Vec<Vec<&str>> = after(&changed, "compare").lines().map(cells).collect();
    assert!(rows.iter().any(|row| row.starts_with(&["waist", "56 cm", "60 cm"])), "{changed}");
    assert!(rows.iter().any(|row| row.first() == Some(&"hem") && row.contains(&"3 cm")), "{changed}");
    assert!(after(&changed, "compare more.txt").starts_with("no difference"), "{changed}");
}

/// $6.00 times 3 yd is no price: a price by the length is money over a length.
#[test]
fn money_times_a_length_says_how_a_price_is_typed() {
    let here = transcript_folder("odd");
    let answers = answered(here.path(), &["$6 * 3 yd", "3 yd * 2 min", "$6 * 2 min", "$6/yd * 3 yd"]);
    assert!(!after(&answers, "$6 * 2 min").contains("typed $6/yd"), "{answers}");
    assert!(after(&answers, "$6 * 3 yd").contains("a price by the length is typed $6/yd"), "{answers}");
    let minutes = after(&answers, "3 yd * 2 min");
    assert!(minutes.contains("no measure of the trade") && !minutes.contains("typed $6/yd"), "{answers}");
    let price = after(&answers, "$6/yd * 3 yd");
    assert!(price.contains("$18.00") && !price.contains("no measure"), "{answers}");
}

/// Strips of 4 cm off 12, 24 and 48 cm: 3, 6 and 12, and bars a quarter, half and the whole of the longest.
#[test]
fn bars_are_as_long_as_their_figures() {
    let here = transcript_folder("bars");
    let lines = ["long = 12 cm", "strips = long / 4 cm", "vary long over 12 cm, 24 cm, 48 cm, show strips", "chart"];
    let answers = answered(here.path(), &lines);
    let bars: Vec<(&str, f64)> = after(&answers, "chart")
        .lines()
        .filter(|line| line.contains('#'))
        .map(|line| {
            let bar = line.chars().filter(|letter| *letter == '#').count();
            (cells(line)[1], f64::from(u32::try_from(bar).unwrap()))
        })
        .collect();
    assert_eq!(bars.iter().map(|(figure, _)| *figure).collect::<Vec<_>>(), ["3", "6", "12"], "{answers}");
    let longest = bars[2].1;
    assert!(longest >= 20.0, "{answers}");
    for (bar, share) in bars.iter().zip([0.25, 0.5, 1.0]) {
        assert!((bar.1 - longest * share).abs() <= 0.5, "{answers}");
    }
}

/// A customer's mark with a sign that would begin a note stays whole when the order is changed.
#[test]
fn an_answer_with_a_sign_in_it_is_kept_in_quotes() {
    let here = transcript_folder("quoted");
    let run = "run pleated_strip as trim edge=30 in deep=2 in cloth='any 45 in' for='Juno #2'";
    answered(here.path(), &[run, "change trim edge=40 in", "save quoted.txt"]);
    let page = std::fs::read_to_string(here.path().join("quoted.txt")).unwrap();
    assert!(page.contains("edge=40 in") && page.contains("for='Juno #2'"), "{page}");
    assert!(page.contains("deep=2 in") && !page.contains("edge=30 in"), "{page}");
    // And it is the same order when the page is opened.
    let again = answered(here.path(), &["open quoted.txt", "sheet trim"]);
    assert!(after(&again, "sheet trim").contains("Juno #2"), "{again}");
}
