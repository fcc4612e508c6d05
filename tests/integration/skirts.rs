//! Skirts, frills and their elastic over many sizes: panels and rings cover what they must, both tapes agree, and
//! elastic follows what was named.

use super::common::demo_workshop;
use super::strips::Draws;
use shirr::engine::limits::StopFlag;
use shirr::piece::Shape;
use shirr::quantity::{Quantity, Unit, number};
use shirr::recipe::run::answer_in;
use shirr::recipe::{Reply, Task, library};
use shirr::ticket::Ticket;
use shirr::workshop::Workshop;

fn reply_to(name: &str, workshop: &Workshop, order: &str) -> Reply {
    let recipe = library::shipped(name).unwrap();
    let given = order.split("; ").map(|pair| pair.split_once('=').unwrap());
    answer_in(&recipe, workshop, false, &Task::run(given), StopFlag::default())
}

#[track_caller]
fn ticket(name: &str, workshop: &Workshop, order: &str) -> Ticket {
    match reply_to(name, workshop, order) {
        Reply::Ran(ticket) => *ticket,
        other => panic!("{name} {order}: {other:?}"),
    }
}

/// A figure in inches, or as it is if it is a plain number.
fn figure(ticket: &Ticket, name: &str) -> f64 {
    let quantity = ticket.figure(name).unwrap_or_else(|| panic!("no {name}")).value.quantity().unwrap();
    quantity.to_number().unwrap_or_else(|_| quantity.count_of(Unit::Inch).unwrap())
}

fn count(ticket: &Ticket, piece: &str) -> i64 {
    ticket.pieces.iter().find(|known| known.piece.name == piece).unwrap_or_else(|| panic!("no {piece}")).piece.count
}

/// A length in eighths of an inch, written in inches or in centimetres to four decimals.
fn on_tape(eighths: i64, metric: bool) -> String {
    let inches = number::from_whole(eighths) / 8.0;
    if metric { format!("{:.4} cm", inches * 2.54) } else { format!("{inches} in") }
}

#[test]
fn elastic_is_as_wide_as_the_one_that_was_named() {
    let demo = demo_workshop();
    let turned = |elastic: &str| {
        let order = format!("waist=21 in; skirt=12 in; cloth=white cotton lawn; elastic={elastic}");
        figure(&ticket("gathered_skirt", &demo, &order), "top turning")
    };
    // The width of the elastic and half an inch.
    for (elastic, wanted) in [("elastic 1 in", 1.5), ("elastic 1/4 in", 0.75), ("any", 1.25)] {
        assert!(number::is_near(turned(elastic), wanted), "{elastic}: {}", turned(elastic));
    }
    let asked_for = "waist=21 in; skirt=12 in; cloth=white cotton lawn; elastic=elastic 1 in; elastic_width=2 in";
    assert!(number::is_near(figure(&ticket("gathered_skirt", &demo, asked_for), "top turning"), 2.5));
    // A casing of an inch holds the narrow elastic only.
    let band = |elastic: &str| {
        let order = format!(
            "waist=14 in; strip=10 in; gathers=30; casing=1 in; tulle=ivory tulle; satin=ivory satin; elastic={elastic}"
        );
        reply_to("strips_on_band", &demo, &order)
    };
    assert!(matches!(band("elastic 1/4 in"), Reply::Ran(_)));
    match band("elastic 1 in") {
        Reply::Refused(refusals) => assert!(refusals.iter().all(|refusal| refusal.input() == Some("casing"))),
        other => panic!("{other:?}"),
    }
}

#[test]
fn elastic_that_must_stretch_far_is_questioned() {
    let nothing = Workshop::default();
    let order = |hips: &str| {
        format!("waist=20 in; hips={hips}; skirt=12 in; fullness=4; shorter=0 %; cloth=any_cloth(45 in); elastic=any")
    };
    // 32 in is 60 % more than 20 in relaxed.
    for (hips, cautioned) in [("24 in", false), ("32 in", false), ("32.5 in", true), ("60 in", true)] {
        let ticket = ticket("gathered_skirt", &nothing, &order(hips));
        assert_eq!(ticket.cautions.iter().any(|key| key == "elastic-stretch"), cautioned, "{hips}");
    }
    match reply_to("gathered_skirt", &nothing, &order("61 in")) {
        Reply::Refused(refusals) => assert_eq!(refusals[0].input(), Some("hips")),
        other => panic!("{other:?}"),
    }
}

#[test]
fn panels_of_each_tier_cover_its_round_and_one_fewer_does_not() {
    let nothing = Workshop::default();
    let mut draws = Draws::of(5);
    for _ in 0..40 {
        let (waist, width, seam) = (draws.between(120, 320), draws.between(200, 480), draws.between(2, 8));
        let (first, second) = (draws.between(100, 300), draws.between(100, 300));
        let of = |metric: bool, more: i64| {
            let order = format!(
                "waist={}; skirt={}; first=1.5; fullness=[{}, {}]; seam={}; cloth=any_cloth({}); elastic=any",
                on_tape(waist, metric),
                on_tape(240, metric),
                number::from_whole(first) / 100.0,
                number::from_whole((second + more).min(400)) / 100.0,
                on_tape(seam, metric),
                on_tape(width, metric),
            );
            ticket("tiered_skirt", &nothing, &order)
        };
        let (inch, metric, fuller) = (of(false, 0), of(true, 0), of(false, 50));
        for tier in 1..=3 {
            let piece = format!("tier {tier} panel");
            let (panels, round) = (count(&inch, &piece), figure(&inch, &format!("tier {tier} round")));
            let gives = (number::from_whole(width) - 2.0 * number::from_whole(seam)) / 8.0;
            assert!(number::from_whole(panels) * gives >= round - 1e-6, "{piece}: {panels} of {gives} for {round}");
            assert!(panels == 1 || number::from_whole(panels - 1) * gives < round, "{piece}: {panels} for {round}");
            assert_eq!(panels, count(&metric, &piece), "{piece} on the two tapes");
            assert!(count(&fuller, &piece) >= panels, "{piece}: more fullness, fewer panels");
        }
    }
}

#[test]
fn sectors_of_a_circle_skirt_go_round_the_waist_and_lie_on_the_cloth() {
    let nothing = Workshop::default();
    let mut draws = Draws::of(9);
    let mut made = 0;
    for circle in ["quarter", "half", "three-quarter", "full", "double"] {
        for _ in 0..12 {
            let (waist, skirt, width) = (draws.between(120, 320), draws.between(100, 280), draws.between(280, 480));
            let of = |metric: bool| {
                let (waist, skirt, width) = (on_tape(waist, metric), on_tape(skirt, metric), on_tape(width, metric));
                let order = format!(
                    "waist={waist}; skirt={skirt}; circle={circle}; ease=0 in; opening=3 in; cloth=any_cloth({width})"
                );
                ticket("circle_skirt", &nothing, &order)
            };
            let (inch, metric) = (of(false), of(true));
            assert_eq!(count(&inch, "skirt"), count(&metric, "skirt"), "{circle} on the two tapes");
            let piece = &inch.pieces.iter().find(|known| known.piece.name == "skirt").unwrap().piece;
            let Shape::Sector { inner, outer, turn } = &*piece.shape else { panic!("{:?}", piece.shape) };
            let in_inches = |length: shirr::quantity::Length| Quantity::from(length).count_of(Unit::Inch).unwrap();
            let sectors = number::from_whole(piece.count);
            let seams = if circle == "full" && piece.count == 1 { 0.0 } else { sectors };
            // At the seam line, half an inch outside the cut, less two half inches for each side seam.
            let round = std::f64::consts::TAU * turn * sectors * (in_inches(*inner) + 0.5) - seams;
            assert!((round - number::from_whole(waist) / 8.0).abs() < 1e-6, "{circle}: {round} for {waist} eighths");
            let below = number::from_whole(skirt) / 8.0 - 1.25;
            assert!((in_inches(*outer) - in_inches(*inner) - below - 1.0).abs() < 1e-6, "{circle}: hem and seam");
            made += 1;
        }
    }
    assert_eq!(made, 60);
}

/// Own arithmetic beside each order: what closes a skirt is cut, sewn and marked.
#[test]
fn openings_of_skirts_are_finished() {
    let shop = Workshop::default();
    let sewn = |ticket: &Ticket, why: &str| {
        let line = ticket.sewing.iter().find(|line| line.why == why).unwrap_or_else(|| panic!("no {why}"));
        Quantity::from(line.length).count_of(Unit::Inch).unwrap()
    };
    let body = "waist=28 in; hips=38 in; skirt=26 in; cloth=any_cloth(45 in)";
    for (name, order) in [
        ("gathered_skirt", format!("{body}; top=band")),
        ("gored_skirt", format!("{body}; hem_round=70 in")),
        ("pleated_skirt", format!("{body}; pleats=20; depth=1 in")),
        ("circle_skirt", format!("{body}; circle=half")),
    ] {
        let skirt = ticket(name, &shop, &order);
        // 6 in open; a band of 1 in, on the circle skirt of 1 1/4 in.
        assert!(number::is_near(sewn(&skirt, "down both sides of the opening"), 12.0), "{name}");
        let deep = if name == "circle_skirt" { 1.25 } else { 1.0 };
        assert!(number::is_near(sewn(&skirt, "both ends of the band"), 2.0 * deep), "{name}");
        let marked = |mark: &str| skirt.marks.iter().any(|known| known.piece == "band piece" && known.name == mark);
        assert!(["fold line", "underlap", "quarter marks"].into_iter().all(marked), "{name}");
    }
    // A whole circle has no seam to leave open: it is slit, and the slit faced. Two have a seam each.
    let whole = ticket("circle_skirt", &shop, "waist=21 in; skirt=12 in; cloth=any_cloth(45 in)");
    assert_eq!(count(&whole, "slit facing"), 1);
    assert!(number::is_near(figure(&whole, "facing length"), 7.5));
    assert!(whole.sewing.iter().all(|line| line.why != "side seams"));
    let double = ticket("circle_skirt", &shop, "waist=21 in; skirt=12 in; circle=double; cloth=any_cloth(45 in)");
    assert!(double.pieces.iter().all(|known| known.piece.name != "slit facing"));
    assert!(
        double
            .steps
            .iter()
            .any(|step| step.words().is_some_and(|step| step.contains("cut each open along one straight line"))),
        "{:?}",
        double.steps
    );
}
