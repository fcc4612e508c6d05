//! The goals of each set, and by how much a set misses them.

use super::instance::Outcome;
use super::table::{Goal, Row, average};

/// Picks the run of a row that a goal looks at.
type Which = fn(&Row) -> &Outcome;

const SHORT: Which = Row::short;
const LONG: Which = Row::long;

/// The rows whose names begin with one of these.
fn named<'a>(rows: &'a [Row], starts: &[&str]) -> Vec<&'a Row> {
    rows.iter().filter(|row| starts.iter().any(|start| row.instance.name.starts_with(start))).collect()
}

/// A goal: `holds` for all rows but at most `spared`. Names the rows that fail; missed if there are no rows.
fn all_but(words: &str, rows: &[&Row], spared: usize, holds: impl Fn(&Row) -> bool) -> Goal {
    let failing: Vec<&str> = rows.iter().filter(|row| !holds(row)).map(|row| row.instance.name.as_str()).collect();
    let missed = failing.len() > spared || rows.is_empty();
    let by = format!("{} of {} ({})", failing.len(), rows.len(), failing.join(", "));
    (words.to_owned(), missed.then_some(by))
}

/// A goal: the average gap is at most `most` per cent.
fn average_gap(words: &str, rows: &[&Row], run: Which, most: f64) -> Goal {
    let gap = average(rows.iter().filter_map(|row| row.gap(run(row)))).unwrap_or(f64::INFINITY);
    (words.to_owned(), (gap > most).then(|| format!("{:.2} % points ({gap:.2} %)", gap - most)))
}

/// A goal: each gap is at most `most` per cent.
fn each_gap(words: &str, rows: &[&Row], run: Which, most: f64) -> Goal {
    let gap = |row: &Row| row.gap(run(row)).unwrap_or(f64::INFINITY);
    let worst = rows.iter().map(|row| gap(row)).fold(0.0, f64::max);
    let (words, failing) = all_but(words, rows, 0, |row| gap(row) <= most);
    (words, failing.map(|failing| format!("{failing}, the worst at {worst:.2} %")))
}

pub(crate) fn one_length(rows: &[Row]) -> Vec<Goal> {
    let easy = named(rows, &["scholl_N", "falkenauer_u", "schwerin"]);
    let middle = named(rows, &["falkenauer_t", "waescher"]);
    let hard = named(rows, &["scholl_HARD", "hard28"]);
    let over = |row: &Row| {
        let lengths = row.long().result.unwrap_or(f64::INFINITY) - row.instance.reference.unwrap_or(0.0);
        lengths.round()
    };
    vec![
        all_but(
            "Scholl's first two sets, Falkenauer's u and Schwerin best and proved in the short run",
            &easy,
            0,
            |row| row.reaches(row.short()) && row.short().proved,
        ),
        all_but("Falkenauer's t and Waescher's best in the long run", &middle, 0, |row| row.reaches(row.long())),
        all_but("of these at most one not best in the short run", &middle, 1, |row| row.reaches(row.short())),
        all_but("the hard ones at most one length over in the long run", &hard, 0, |row| over(row) <= 1.0),
        all_but("of these at least two of four best", &hard, 2, |row| row.reaches(row.long())),
    ]
}

pub(crate) fn mixed(rows: &[Row]) -> Vec<Goal> {
    let proved = named(rows, &["ws01", "ws03"]);
    let others = named(rows, &["ws05", "ws07", "ws09", "ws11"]);
    vec![
        all_but("ws01 and ws03 best in the short run", &proved, 0, |row| row.reaches(row.short())),
        each_gap("the others within 0.3 % of a long run", &others, LONG, 0.3),
    ]
}

pub(crate) fn mixed_books(rows: &[Row]) -> Vec<Goal> {
    let all: Vec<&Row> = rows.iter().collect();
    vec![each_gap("each within 0.3 % of a long run", &all, LONG, 0.3)]
}

pub(crate) fn rectangles(rows: &[Row]) -> Vec<Goal> {
    let hopper = named(rows, &["HT_C"]);
    let small = named(rows, &["HT_C1", "HT_C2", "HT_C3"]);
    let burke = named(rows, &["N0", "N1"]);
    vec![
        average_gap("Hopper and Turton's C: average gap at most 0.9 % in the short run", &hopper, SHORT, 0.9),
        average_gap("Hopper and Turton's C: average gap at most 0.6 % in the long run", &hopper, LONG, 0.6),
        all_but("C1 to C3 best in the long run", &small, 0, |row| row.reaches(row.long())),
        average_gap("Burke's N: average gap at most 0.3 % in the short run", &burke, SHORT, 0.3),
    ]
}

pub(crate) fn turned(rows: &[Row]) -> Vec<Goal> {
    let hopper = named(rows, &["HT_C"]);
    vec![average_gap("Hopper and Turton's C: average gap at most 0.5 % in the long run", &hopper, LONG, 0.5)]
}

pub(crate) fn outlines(rows: &[Row]) -> Vec<Goal> {
    let own = named(rows, &["circle_half", "gores"]);
    let mut goals = vec![each_gap("circle_half and gores within 2 % in the long run", &own, LONG, 2.0)];
    for (name, least) in [("shirts", 85.0), ("trousers", 88.0)] {
        for row in named(rows, &[name]) {
            let used = row.share_used(row.long()).unwrap_or(0.0);
            let by = (used < least).then(|| format!("{:.2} % points ({used:.2} %)", least - used));
            goals.push((format!("{name}: {least} % of the goods used in the long run, as far as we dare hope"), by));
        }
    }
    goals
}

/// No goals, for sets whose results are only shown.
pub(crate) fn none(_: &[Row]) -> Vec<Goal> {
    Vec::new()
}
