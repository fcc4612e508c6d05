//! Curtains, household goods and trims over many sizes: the pieces cover what is sewn and one fewer does
//! not, more fullness never needs less, both tapes count alike.

use super::strips::Draws;
use shirr::engine::limits::StopFlag;
use shirr::quantity::{Length, number};
use shirr::recipe::run::answer_in;
use shirr::recipe::{Reply, Task, library};
use shirr::ticket::Ticket;
use shirr::workshop::Workshop;

type Given = Vec<(&'static str, String)>;

/// The ticket of an order, or none where the order is turned away.
fn made(recipe: &str, given: &Given) -> Option<Ticket> {
    let given: Vec<(String, String)> = given.iter().map(|(name, value)| ((*name).to_owned(), value.clone())).collect();
    let text = library::shipped(recipe).unwrap();
    match answer_in(&text, &Workshop::default(), false, &Task::run(given.clone()), StopFlag::default()) {
        Reply::Ran(ticket) => Some(*ticket),
        Reply::Refused(_) => None,
        other => panic!("{recipe} {given:?}: {other:?}"),
    }
}

fn length(ticket: &Ticket, figure: &str) -> Length {
    Length::try_from(ticket.figure(figure).unwrap().value.quantity().unwrap()).unwrap()
}

/// A length of so many eighths of an inch, on either tape.
fn on(metric: bool, eighths: i64) -> String {
    let inches = number::from_whole(eighths) / 8.0;
    if metric { format!("{:.4} cm", inches * 2.54) } else { format!("{inches} in") }
}

/// The recipes that join strips or widths: their piece, and the figure that it must cover.
const JOINED: [(&str, &str, &str, bool); 4] = [
    ("bed_valance", "face drop", "flat", false),
    ("valance", "face drop", "flat", false),
    ("ruffled_cushion", "frill strip", "frill flat", true),
    ("sash_and_bow", "sash strip", "sash strip cut", false),
];

/// An order of a recipe of [`JOINED`]: its sizes, the width of its cloth and the allowance of a join.
fn order(recipe: &str, size: i64, width: i64, join: i64, fullness: &str, metric: bool) -> Given {
    let length = |eighths| on(metric, eighths);
    let cloth = format!("any_cloth({})", length(width));
    let mut given: Given = match recipe {
        "bed_valance" => {
            vec![("long", length(size)), ("wide", length(size / 2)), ("drop", length(112)), ("face", cloth)]
        }
        "valance" => {
            vec![("front", length(size)), ("depth", length(112)), ("face", cloth), ("tape", "any".to_owned())]
        }
        "ruffled_cushion" => vec![("wide", length(size / 3)), ("high", length(size / 4)), ("cloth", cloth)],
        _ => vec![("round", length(size / 2)), ("cloth", cloth)],
    };
    let allowance = if ["bed_valance", "valance"].contains(&recipe) { "join" } else { "seam" };
    given.push((allowance, length(join)));
    if ["bed_valance", "ruffled_cushion"].contains(&recipe) {
        given.push(("fullness", fullness.to_owned()));
    }
    given
}

#[test]
fn pieces_less_their_joins_cover_what_is_sewn_and_one_fewer_does_not() {
    let mut draws = Draws(29);
    for (recipe, piece, figure, ring) in JOINED {
        let mut tickets = 0;
        for _ in 0..60 {
            let (size, width, join) = (draws.between(200, 700), draws.between(160, 480), draws.between(2, 8));
            let Some(ticket) = made(recipe, &order(recipe, size, width, join, "2.5", false)) else { continue };
            tickets += 1;
            let count = ticket.pieces_of(piece).unwrap();
            let covered = |count: i64| {
                let joins = number::from_whole(if ring { count } else { count - 1 });
                let inches = |eighths: i64| Length::inches(number::from_whole(eighths) / 8.0);
                inches(width) * number::from_whole(count) - inches(2 * join) * joins
            };
            let needed = length(&ticket, figure);
            assert!(covered(count) >= needed, "{recipe} {size} {width} {join}: {count}");
            assert!(count == 1 || covered(count - 1) < needed, "{recipe} {size} {width} {join}: {count}");
        }
        assert!(tickets > 20, "{recipe}: {tickets} tickets");
    }
}

#[test]
fn both_tapes_count_alike_and_more_fullness_never_needs_less() {
    let mut draws = Draws(31);
    for (recipe, piece, ..) in JOINED {
        for _ in 0..40 {
            let (size, width, join) = (draws.between(200, 700), draws.between(160, 480), draws.between(2, 8));
            let count = |fullness: &str, metric: bool| {
                let ticket = made(recipe, &order(recipe, size, width, join, fullness, metric));
                ticket.map(|ticket| ticket.pieces_of(piece).unwrap())
            };
            let counts = [count("1.5", false), count("2.25", false), count("3", false)];
            assert_eq!(counts, [count("1.5", true), count("2.25", true), count("3", true)], "{recipe} {size} {width}");
            assert!(counts.is_sorted(), "{recipe} {size} {width} {join}: {counts:?}");
        }
    }
}

/// A frill cut as strips across the cloth and one cut as panels of the same width are one sum.
#[test]
fn a_frill_in_strips_and_in_panels_agree() {
    let mut draws = Draws(37);
    for _ in 0..40 {
        let (edge, width) = (draws.between(240, 800), draws.between(160, 480));
        let fullness = "2.5".to_owned();
        let valance: Given = vec![
            ("long", on(false, edge)),
            ("wide", on(false, edge / 2)),
            ("drop", "14 in".to_owned()),
            ("fullness", fullness.clone()),
            ("end", "0 in".to_owned()),
            ("face", format!("any_cloth({})", on(false, width))),
        ];
        let Some(valance) = made("bed_valance", &valance) else { panic!("{edge} {width}") };
        let trim: Given = vec![
            ("edge", on(false, 2 * edge + edge / 2)),
            ("depth", "14 in".to_owned()),
            ("fullness", fullness),
            ("end", "0 in".to_owned()),
            ("cloth", format!("any_cloth({})", on(false, width))),
        ];
        let Some(trim) = made("gathered_trim", &trim) else { panic!("{edge} {width}") };
        assert_eq!(valance.pieces_of("face drop"), trim.pieces_of("strip"), "{edge} {width}");
    }
}
