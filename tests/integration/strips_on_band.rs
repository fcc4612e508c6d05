//! Runs the recipe for strips on a band: the usual sums of the trade, and every waist against strips laid and cut one
//! by one.

use super::strips::Draws;
use shirr::cutting::Planner;
use shirr::engine::limits::StopFlag;
use shirr::quantity::Length;
use shirr::recipe::run::answer_in;
use shirr::recipe::{Reply, Task, library};
use shirr::ticket::{Lay, Ticket, standard_lays};
use shirr::workshop::Workshop;

type Given = (&'static str, &'static str);

fn run(given: &[(String, String)]) -> Ticket {
    let recipe = library::shipped("strips_on_band").unwrap();
    let task = Task::run(given.to_vec());
    match answer_in(&recipe, &Workshop::default(), false, &task, StopFlag::default()) {
        Reply::Ran(ticket) => *ticket,
        other => panic!("{given:?}\n{other:?}"),
    }
}

/// The lay of the tulle for `garments` garments.
fn tulle_lay(ticket: &Ticket, garments: i64) -> Lay {
    let style = Workshop::default().settings.style();
    let lays = standard_lays(ticket, garments, &style, &Planner::default()).unwrap();
    lays.into_iter().find(|lay| lay.material.input.as_deref() == Some("tulle")).unwrap()
}

fn stitching(ticket: &Ticket, class: &str, why: &str) -> f64 {
    let line = ticket.sewing.iter().find(|line| line.class == class && line.why.contains(why));
    line.unwrap_or_else(|| panic!("no {class} for {why}")).length.in_inches()
}

/// One row of the table: an order and its expected results. Lengths in inches.
struct Row {
    /// Its numbers in the list of sums, and what it shows.
    name: &'static str,
    given: &'static [Given],
    figures: &'static [(&'static str, f64)],
    strips: i64,
    rolls: i64,
    used: f64,
}

const SMALL_ROLL: Given = ("tulle", "any_roll(6 in, 25 yd)");
const LARGE_ROLL: Given = ("tulle", "any_roll(6 in, 100 yd)");
const WIDE: Given = ("tulle", "any_cloth(54 in)");
const EDGE_TO_EDGE: Given = ("overlap", "0 in");
const HALF_INCH: Given = ("overlap", "1/2 in");
const COVERED: Given = ("ends", "covered");
const FREE: Given = ("ends", "left free");

/// Common practice, no source; the sums are plain arithmetic on it. A cloth sold by the length is one length.
const ROWS: &[Row] = &[
    Row {
        name: "D1: 6 times, then 5 times, 30 times together",
        given: &[
            ("gathers", "[6, 5]"),
            EDGE_TO_EDGE,
            ("over", "1 in"),
            ("waist", "8 in"),
            ("turning", "2 in"),
            FREE,
            SMALL_ROLL,
        ],
        // The smallest band that the recipe makes covers 5 in, where the ten strips of the trial covered 2 in.
        figures: &[("ratio", 30.0), ("covered", 5.0), ("flat", 150.0), ("first pass", 25.0)],
        strips: 25,
        rolls: 1,
        used: 250.0,
    },
    Row {
        name: "D2, D3, D4: 14 in waist, the whole band covered, 25 yd rolls",
        given: &[("gathers", "[6, 5]"), EDGE_TO_EDGE, COVERED, SMALL_ROLL],
        figures: &[("band cut", 24.0), ("band depth", 6.0), ("fold", 3.0), ("covered", 24.0), ("flat", 720.0)],
        strips: 120,
        rolls: 2,
        used: 1200.0,
    },
    Row {
        name: "D4 on one roll of 100 yd",
        given: &[("gathers", "[6, 5]"), EDGE_TO_EDGE, COVERED, LARGE_ROLL],
        figures: &[("flat", 720.0)],
        strips: 120,
        rolls: 1,
        used: 1200.0,
    },
    Row {
        name: "D5, D9: turnings left free",
        given: &[("gathers", "[6, 5]"), EDGE_TO_EDGE, FREE, SMALL_ROLL],
        figures: &[("covered", 22.0), ("flat", 660.0), ("laid", 660.0), ("first pass", 110.0)],
        strips: 110,
        rolls: 2,
        used: 1100.0,
    },
    Row {
        name: "D6: wide tulle, one length of 130 in",
        given: &[("gathers", "[6, 5]"), EDGE_TO_EDGE, FREE, WIDE],
        figures: &[("flat", 660.0)],
        strips: 13,
        rolls: 1,
        used: 130.0,
    },
    Row {
        name: "D8 on D5: the foot's own first ratio with overlaps",
        given: &[("gathers", "[5.55, 5]"), HALF_INCH, FREE, SMALL_ROLL],
        figures: &[("ratio", 27.75), ("flat", 610.5), ("laid", 611.0), ("first pass", 110.0)],
        strips: 111,
        rolls: 2,
        used: 1110.0,
    },
    Row {
        name: "D8 on D4",
        given: &[("gathers", "[5.55, 5]"), HALF_INCH, COVERED, SMALL_ROLL],
        figures: &[("flat", 666.0)],
        strips: 121,
        rolls: 2,
        used: 1210.0,
    },
    Row {
        name: "D8 on D6",
        given: &[("gathers", "[5.55, 5]"), HALF_INCH, FREE, WIDE],
        figures: &[("flat", 610.5)],
        strips: 12,
        rolls: 1,
        used: 120.0,
    },
    Row {
        name: "D12: no reduction",
        given: &[("gathers", "[6, 5]"), EDGE_TO_EDGE, FREE, SMALL_ROLL],
        figures: &[("elastic worn", 14.0), ("elastic cut", 15.0)],
        strips: 110,
        rolls: 2,
        used: 1100.0,
    },
    Row {
        name: "D12: 8 % shorter",
        given: &[("gathers", "[6, 5]"), ("shorter", "8 %"), EDGE_TO_EDGE, FREE, SMALL_ROLL],
        figures: &[("elastic worn", 12.88), ("elastic cut", 13.88)],
        strips: 110,
        rolls: 2,
        used: 1100.0,
    },
    Row {
        name: "D13: 33 strips of 54 in, 16 to a roll",
        given: &[("gathers", "[3, 3]"), ("strip", "54 in"), EDGE_TO_EDGE, FREE, SMALL_ROLL],
        figures: &[("flat", 198.0)],
        strips: 33,
        rolls: 3,
        used: 1782.0,
    },
];

/// An infant's order, overridden by the inputs of a row.
fn order(row: &[Given]) -> Vec<(String, String)> {
    let usual = [
        ("waist", "14 in"),
        ("strip", "10 in"),
        ("satin", "any_roll(6 in, 10 yd)"),
        ("elastic", "any"),
        ("tape", "any"),
    ];
    let kept = usual.iter().filter(|(name, _)| row.iter().all(|(given, _)| given != name));
    kept.chain(row).map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect()
}

#[test]
fn the_usual_sums_come_out() {
    for row in ROWS {
        let ticket = run(&order(row.given));
        for (figure, wanted) in row.figures {
            let found =
                ticket.figure(figure).unwrap_or_else(|| panic!("{}: no {figure}", row.name)).value.quantity().unwrap();
            let found = Length::try_from(found).map_or_else(|_| found.steps(), Length::in_inches);
            assert!((found - wanted).abs() < 1e-9 * wanted, "{}: {figure} is {found}, not {wanted}", row.name);
        }
        assert_eq!(ticket.pieces_of("strip"), Some(row.strips), "{}", row.name);
        let plan = tulle_lay(&ticket, 1).plan;
        assert_eq!(plan.pieces("strip"), row.strips, "{}", row.name);
        assert_eq!(plan.put_ups_bought(), row.rolls, "{}", row.name);
        assert!(
            (plan.length_used.in_inches() - row.used).abs() < 1e-6,
            "{}: {}",
            row.name,
            plan.length_used.in_inches()
        );
    }
}

#[test]
fn the_stitching_marks_and_notions_of_a_small_order() {
    let ticket = run(&order(&[("gathers", "[6, 5]"), EDGE_TO_EDGE, FREE, SMALL_ROLL]));
    // D9, D10, D7: sewn where the seam is measured, at the gathered length.
    for (class, why, inches) in [
        ("301", "pass 1", 110.0),
        ("301", "pass 2", 22.0),
        ("301", "basting", 22.0),
        ("504", "overlocking", 22.0),
        ("304", "elastic", 2.0),
        ("301", "closing", 3.0),
    ] {
        let sewn = stitching(&ticket, class, why);
        assert!((sewn - inches).abs() < 1e-9, "{class} {why}: {sewn}");
    }
    // D11 and D12.
    let need = |input: &str| {
        let needed = |at: usize| ticket.materials[at].input.as_deref() == Some(input);
        let need = ticket.needs.iter().find(|need| needed(need.material)).unwrap();
        (need.count, Length::try_from(need.amount).unwrap().in_inches())
    };
    let near = |(count, inches): (i64, f64), wanted: (i64, f64)| count == wanted.0 && (inches - wanted.1).abs() < 1e-9;
    assert!(near(need("tape"), (2, 6.0)), "{:?}", need("tape"));
    assert!(near(need("elastic"), (1, 15.0)), "{:?}", need("elastic"));
    // D3, and the quarters of 22 in and of 110 in.
    let marks: Vec<(&str, &str, f64)> =
        ticket.marks.iter().map(|mark| (mark.piece.as_str(), mark.name.as_str(), mark.distance.in_inches())).collect();
    for mark in [
        ("band", "fold line", 3.0),
        ("band", "stitching line", 1.0),
        ("band", "first strip", 1.0),
        ("band", "quarter marks", 5.5),
        ("ribbon of strips", "quarter marks", 27.5),
    ] {
        assert!(marks.contains(&mark), "{mark:?} is not among {marks:?}");
    }
    for key in ["flame", "nightwear", "blades", "iron"] {
        assert!(ticket.cautions.iter().any(|caution| caution == key), "{key}");
    }
    assert!(ticket.cautions.iter().all(|caution| caution != "elastic-tight" && caution != "small-parts"));
}

#[test]
fn cautions_follow_the_order() {
    let tight = run(&order(&[("gathers", "[6, 5]"), ("shorter", "12 %"), ("bows", "yes"), SMALL_ROLL]));
    for key in ["elastic-tight", "small-parts"] {
        assert!(tight.cautions.iter().any(|caution| caution == key), "{key}");
    }
}

/// A length in sixteenths of an inch or tenths of a millimetre. Both are whole numbers of half micrometres: 3175 make a
/// sixteenth of an inch, 200 a tenth of a millimetre.
#[derive(Clone, Copy)]
struct Mark {
    metric: bool,
    count: i64,
}

impl Mark {
    fn exact(self) -> i128 {
        i128::from(self.count) * if self.metric { 200 } else { 3175 }
    }

    fn typed(self) -> String {
        if self.metric {
            format!("{}.{:02} cm", self.count / 100, self.count % 100)
        } else {
            format!("{} {}/16 in", self.count / 16, self.count % 16).replace(" 0/16", "")
        }
    }
}

/// Lays strips until `flat` millionths of a half micrometre are covered.
fn laid_one_by_one(flat: i128, width: Mark, overlap: Mark) -> i64 {
    let (mut covered, mut count) = (width.exact() * 1_000_000, 1);
    while covered < flat {
        covered += (width.exact() - overlap.exact()) * 1_000_000;
        count += 1;
    }
    count
}

/// Cuts strips from rolls; opens a roll whenever the rest of the last is too short.
fn cut_one_by_one(count: i64, cut_length: Mark, put_up: i128) -> i64 {
    let (mut rolls, mut rest) = (0, 0);
    for _ in 0..count {
        if rest < cut_length.exact() {
            rolls += 1;
            rest = put_up;
        }
        rest -= cut_length.exact();
    }
    rolls
}

#[test]
fn every_waist_takes_the_strips_and_rolls_of_laying_and_cutting_one_by_one() {
    let mut draws = Draws::of(20_260_314);
    let (mut orders, mut strips_seen) = (0, 0);
    for eighths in 12 * 8..=30 * 8 {
        for _ in 0..6 {
            let metric = draws.between(0, 1) == 1;
            // An inch or 2.5 cm, in marks that the tape has, so that no strip is cut to another length.
            let inch = if metric { 250 } else { 16 };
            let mark = |count| Mark { metric, count };
            let waist = Mark { metric: false, count: eighths * 2 };
            let over = mark(draws.between(4 * inch, 12 * inch));
            let turning = mark(draws.between(inch / 2 + 2, 2 * inch));
            let covered_ends = draws.between(0, 1) == 1;
            let width = mark(draws.between(3 * inch, 60 * inch));
            let overlap = mark(draws.between(0, inch));
            let step = if metric { 10 } else { 2 };
            let strip = mark(draws.between(4 * inch / step + 1, 30 * inch / step) * step);
            let put_up_yards = draws.between(5, 100);
            let ratios = [draws.between(1000, 6000), draws.between(1000, 5000)];
            let layers = draws.between(1, 3);
            let garments = draws.between(1, 2);

            let band = waist.exact() + over.exact();
            let covered = if covered_ends { band } else { band - 2 * turning.exact() };
            let flat = covered * i128::from(ratios[0]) * i128::from(ratios[1]);
            let strips = laid_one_by_one(flat, width, overlap);
            let put_up = i128::from(put_up_yards) * 36 * 16 * 3175;
            let rolls = cut_one_by_one(strips * layers * garments, strip, put_up);

            let thousandths = |ratio: i64| format!("{}.{:03}", ratio / 1000, ratio % 1000);
            let given: Vec<(String, String)> = [
                ("waist", waist.typed()),
                ("over", over.typed()),
                ("turning", turning.typed()),
                ("ends", if covered_ends { "covered" } else { "left free" }.to_owned()),
                ("overlap", overlap.typed()),
                ("strip", strip.typed()),
                ("layers", layers.to_string()),
                ("gathers", format!("[{}, {}]", thousandths(ratios[0]), thousandths(ratios[1]))),
                ("tulle", format!("any_roll({}, {put_up_yards} yd)", width.typed())),
                ("satin", "any_cloth(150 cm)".to_owned()),
                ("elastic", "any".to_owned()),
            ]
            .into_iter()
            .map(|(name, value)| (name.to_owned(), value))
            .collect();
            let ticket = run(&given);
            assert_eq!(ticket.pieces_of("strip"), Some(strips * layers), "strips: {given:?}");
            let plan = tulle_lay(&ticket, garments).plan;
            assert_eq!(plan.pieces("strip"), strips * layers * garments, "planned: {given:?}");
            assert_eq!(plan.put_ups_bought(), rolls, "rolls for {garments}: {given:?}");
            orders += 1;
            strips_seen += strips;
        }
    }
    assert_eq!(orders, 145 * 6);
    assert!(strips_seen > 10_000, "{strips_seen} strips are too few to try anything");
}
