//! Curtains, household goods and trims over many sizes: the pieces cover what is sewn and one fewer does not, more
//! fullness never needs less, both tapes give the same counts.

use super::strips::Draws;
use shirr::engine::limits::StopFlag;
use shirr::quantity::{Length, Quantity, Unit, number};
use shirr::recipe::run::answer_in;
use shirr::recipe::{Reply, Task, library};
use shirr::ticket::Ticket;
use shirr::workshop::Workshop;

type Given = Vec<(&'static str, String)>;

/// The ticket of an order; `None` if the order is refused.
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

/// A length in eighths of an inch, written in inches or in centimetres.
fn on(metric: bool, eighths: i64) -> String {
    let inches = number::from_whole(eighths) / 8.0;
    if metric { format!("{:.4} cm", inches * 2.54) } else { format!("{inches} in") }
}

/// Recipes that join strips or widths: recipe, piece, the figure it must cover, and whether it is joined into a ring.
const JOINED: [(&str, &str, &str, bool); 4] = [
    ("bed_valance", "face drop", "flat", false),
    ("valance", "face drop", "flat", false),
    ("ruffled_cushion", "frill strip", "frill flat", true),
    ("sash_and_bow", "sash strip", "sash strip cut", false),
];

/// An order of a recipe of [`JOINED`]; `size`, cloth `width` and `join` allowance are in eighths of an inch.
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
    let mut draws = Draws::of(29);
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
    let mut draws = Draws::of(31);
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

/// A frill cut as strips across the cloth needs as many pieces as one cut as panels of the same width.
#[test]
fn a_frill_in_strips_and_in_panels_agree() {
    let mut draws = Draws::of(37);
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

/// Length of the seam described by `why`, in inches.
#[track_caller]
fn sewn(ticket: &Ticket, why: &str) -> f64 {
    let line = ticket.sewing.iter().find(|line| line.why == why).unwrap_or_else(|| panic!("no {why}"));
    Quantity::from(line.length).count_of(Unit::Inch).unwrap()
}

/// Total of an operation in the whole order: a count, or a length in inches.
fn worked(ticket: &Ticket, operation: &str) -> f64 {
    let lines = ticket.work.iter().filter(|line| line.operation == operation);
    lines.map(|line| line.amount.to_number().unwrap_or_else(|_| line.amount.count_of(Unit::Inch).unwrap())).sum()
}

/// Common practice, no source; own arithmetic beside each order.
#[test]
fn seams_that_are_easily_forgotten_are_listed_and_timed() {
    let given = |pairs: &[(&'static str, &str)]| -> Given {
        pairs.iter().map(|(name, value)| (*name, (*value).to_owned())).collect()
    };
    let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-6, "{found}, not {wanted}");

    // A square of 36 in: its halves are joined along a straight edge, and so is the tube.
    let square = [
        ("edge", "648 in"),
        ("folds", "single"),
        ("turning", "1/2 in"),
        ("end", "0 in"),
        ("method", "square"),
        ("loss", "0"),
        ("cloth", "any_cloth(44 in)"),
    ];
    let binding = made("bias_binding", &given(&square)).unwrap();
    near(sewn(&binding, "the square's halves together, and the seam of the tube"), 72.0);
    // Those two seams, and the binding sewn on twice.
    near(worked(&binding, "sew a seam"), 72.0 + 2.0 * 648.0);

    // Two curtains of two widths: one join in each, of face and of lining, cut 240 and 227 cm long.
    let lined = [
        ("track", "180 cm"),
        ("drop", "220 cm"),
        ("gather_returns", "yes"),
        ("face", "any_cloth(137 cm)"),
        ("lining", "any_cloth(137 cm)"),
        ("tape", "any"),
    ];
    let curtains = made("curtains", &given(&lined)).unwrap();
    near(sewn(&curtains, "joins between widths"), 480.0 / 2.54);
    near(sewn(&curtains, "joins of the lining"), 454.0 / 2.54);
    near(worked(&curtains, "join widths of cloth"), 934.0 / 2.54);
    near(worked(&curtains, "cut a piece"), 8.0);

    // A bag 29 in long with two cords has an opening of an inch at both sides, where its side seams are not sewn; both
    // casings have two rows of 9 in.
    let bag = [("wide", "9 in"), ("high", "12 in"), ("cloth", "any_cloth(44 in)"), ("cord", "any")];
    let bag = made("drawstring_bag", &given(&bag)).unwrap();
    near(sewn(&bag, "round the openings for the cord"), 4.0);
    near(sewn(&bag, "side seams, folded at the foot, but for the openings"), 27.0);
    near(worked(&bag, "sew a seam"), 27.0 + 4.0 + 18.0);
    near(worked(&bag, "turn and sew a hem"), 18.0);
    near(worked(&bag, "overlock an edge"), 2.0 * 29.0);

    // Tiers of 32, 48 and 72 in: two seams between them, each sewn and neatened, a casing and a hem.
    let tiers =
        [("waist", "20 in"), ("first", "1.6"), ("skirt", "15 in"), ("cloth", "any_cloth(45 in)"), ("elastic", "any")];
    let tiers = made("tiered_skirt", &given(&tiers)).unwrap();
    near(worked(&tiers, "turn and sew a hem"), 32.0 + 72.0);
    // Each tier is 5 in deep: 5 3/4 and 6 in of panel below 1 1/4 in of casing; one, two and two panels.
    near(worked(&tiers, "sew a seam"), 32.0 + 48.0 + 6.75 + 2.0 * 6.0 + 2.0 * 6.0);
    near(worked(&tiers, "overlock an edge"), 32.0 + 48.0 + 2.0 * (6.75 + 24.0));

    // A puff on elastic of 1/4 in has no gathered lower edge but a casing; on a cuff it is the other way round.
    let puff = |end: &str| {
        let common = [
            ("head", "30 cm"),
            ("arm", "22 cm"),
            ("ease", "4 cm"),
            ("sleeve", "6 cm"),
            ("cap", "10 cm"),
            ("cloth", "any_cloth(112 cm)"),
        ];
        let rest: &[(&'static str, &str)] =
            if end == "cuff" { &[("end", "cuff")] } else { &[("end", "elastic"), ("elastic", "any")] };
        made("puff_sleeve", &given(&[&common[..], rest].concat())).unwrap()
    };
    near(sewn(&puff("elastic"), "casings of the lower edges"), 88.0 / 2.54);
    assert!(puff("elastic").sewing.iter().all(|line| line.why != "two gathering rows on each lower edge"));
    near(sewn(&puff("cuff"), "two gathering rows on each lower edge"), 176.0 / 2.54);
    near(sewn(&puff("cuff"), "cuffs into rings"), 12.0 / 2.54);
}

/// Three widths in each of a pair that runs on are three drops of each kind. 250 of 27 cm, a half drop from a forum's
/// question: 0.26 of a repeat over nine, so the kinds alternate, 5 × 9 1/2 repeats and 250. 116 of 25 in: 0.64 over four,
/// so all of one kind first, 4 × 125, 5 1/2 repeats once, and 116. Own arithmetic.
#[test]
fn drops_on_a_half_drop_take_the_least_there_is() {
    for (track, drop, hem, top, face, used) in [
        (
            "340 cm",
            "230 cm",
            "16 cm",
            "4 cm",
            "any_cloth(137 cm).repeats(27 cm, \"half drop\")",
            Length::centimetres(1532.5),
        ),
        ("140 in", "106 in", "6 in", "4 in", "any_cloth(54 in).repeats(25 in, \"half drop\")", Length::inches(753.5)),
    ] {
        let given = [
            ("track", track),
            ("drop", drop),
            ("hem", hem),
            ("top", top),
            ("face", face),
            ("tape", "any"),
            ("returns", "0 cm"),
            ("overlap", "0 cm"),
            ("side", "0 cm"),
            ("join", "0 cm"),
            ("gather_returns", "yes"),
            ("joins", "whole widths"),
            ("middle", "run on"),
        ];
        let given: Given = given.into_iter().map(|(name, value)| (name, value.to_owned())).collect();
        let ticket = made("curtains", &given).unwrap();
        assert_eq!(length(&ticket, "face used"), used, "{track}");
    }
}
