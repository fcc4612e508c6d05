//! Measures one order of strips on a band: the script alone, to the ticket, and to the tables.
//!
//! The baseline says the same in Rust as the script's `make` does: every figure with its meaning, every piece, need, seam,
//! operation, mark, step and caution, by the same formulas and with the same texts made anew. It is compared with the
//! ticket before anything is timed. What the script has beyond it is its own: to look up names, to check each argument,
//! and to enter all this on a ticket that starts with the order's answers.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs, reason = "a benchmark that cannot run should stop")]

use criterion::{Criterion, criterion_group, criterion_main};
use shirr::cutting::Planner;
use shirr::engine::limits::StopFlag;
use shirr::quantity::{Length, Style, number};
use shirr::recipe::run::{answer_in, with_made};
use shirr::recipe::{Reply, Task, library};
use shirr::textile::{band, elastic, gathering, strips};
use shirr::ticket::{OrderSection, Ticket, TicketValue, WorkshopOrder};
use shirr::workshop::Workshop;
use std::hint::black_box;
use std::path::Path;
use std::sync::Arc;

const ORDER: [(&str, &str); 7] = [
    ("waist", "14 in"),
    ("strip", "10 in"),
    ("gathers", "[6, 5]"),
    ("overlap", "0 in"),
    ("tulle", "ivory tulle"),
    ("satin", "ivory satin strip"),
    ("elastic", "elastic 1 in"),
];

fn demo() -> Workshop {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes/demo");
    let names = ["settings.csv", "materials.csv", "stock.csv", "trials.csv", "rates.csv"];
    let texts = names.map(|name| (name, std::fs::read_to_string(folder.join(name)).unwrap()));
    let files: Vec<(&str, &str)> = texts.iter().map(|(name, text)| (*name, text.as_str())).collect();
    Workshop::read(&files).unwrap()
}

/// What `make` says of an order, in the order it is said.
#[derive(Debug, Default, PartialEq)]
struct Said {
    figures: Vec<(String, Value, String)>,
    pieces: Vec<(String, i64)>,
    needs: Vec<(f64, String)>,
    sewing: Vec<(String, f64, String)>,
    work: Vec<(String, f64)>,
    marks: Vec<(String, String, f64, String)>,
    steps: Vec<String>,
    cautions: Vec<String>,
}

/// A figure's value; sizes in steps of their unit.
#[derive(Debug, PartialEq)]
enum Value {
    Size(f64),
    Word(String),
}

impl Said {
    fn figure(&mut self, name: &str, value: f64, meaning: &str) {
        self.figures.push((name.to_owned(), Value::Size(value), meaning.to_owned()));
    }

    fn sew(&mut self, class: &str, length: Length, why: &str) {
        self.sewing.push((class.to_owned(), length.steps(), why.to_owned()));
    }

    fn work(&mut self, operation: &str, amount: f64) {
        self.work.push((operation.to_owned(), amount));
    }

    fn mark(&mut self, piece: &str, name: &str, distance: Length, from: &str) {
        self.marks.push((piece.to_owned(), name.to_owned(), distance.steps(), from.to_owned()));
    }

    fn step(&mut self, words: &str) {
        self.steps.push(words.to_owned());
    }

    /// The same of a ticket, without what `after_cutting` adds.
    fn of(ticket: &Ticket) -> Self {
        let value = |value: &TicketValue| match value.quantity() {
            Some(quantity) => Value::Size(quantity.steps()),
            None => Value::Word(value.show(&Style::default())),
        };
        let figures = ticket.figures.iter().filter(|figure| figure.name != "tulle used");
        Self {
            figures: figures.map(|one| (one.name.clone(), value(&one.value), one.meaning.clone())).collect(),
            pieces: ticket.pieces.iter().map(|one| (one.piece.name.clone(), one.piece.count)).collect(),
            needs: ticket.needs.iter().map(|one| (one.amount.steps(), one.why.clone())).collect(),
            sewing: ticket.sewing.iter().map(|one| (one.class.clone(), one.length.steps(), one.why.clone())).collect(),
            work: ticket.work.iter().map(|one| (one.operation.clone(), one.amount.steps())).collect(),
            marks: ticket
                .marks
                .iter()
                .map(|one| (one.piece.clone(), one.name.clone(), one.distance.steps(), one.from.clone()))
                .collect(),
            steps: ticket.steps.iter().filter_map(|step| step.words()).map(str::to_owned).collect(),
            cautions: ticket.cautions.clone(),
        }
    }
}

/// What the recipe's `make` says of the order, in Rust.
#[allow(clippy::cognitive_complexity, reason = "as long as the recipe it repeats, line by line")]
fn natively() -> Said {
    let mut said = Said::default();
    let inches = |size: f64| Length::inches(black_box(size));
    let (waist, over, strip, overlap) = (inches(14.0), inches(10.0), inches(10.0), inches(0.0));
    let (turning, casing, seam, wide, lap) = (inches(1.0), inches(2.0), inches(1.0), inches(1.0), inches(1.0));
    let (usable_width, satin_width) = (inches(6.0), inches(6.0));
    let (passes, layers, shorter) = (black_box([6.0, 5.0]), black_box(1_i64), black_box(0.0));
    let (covered_ends, tape, bows) = (black_box(false), black_box(false), black_box(false));
    let steps = |length: Length| length.steps();
    assert!(casing > wide && overlap < usable_width && strip > seam);

    let band = band::band_length(waist, over, Length::ZERO, Length::ZERO).unwrap();
    let depth = band::band_depth(casing, seam).unwrap();
    let closed = band - turning * 2.0;
    let covered = if covered_ends { band } else { closed };
    said.figure("band cut", steps(band), "band, end turnings in it");
    said.figure("band depth", steps(depth), "casing and seam, twice");
    said.figure("fold", steps(depth / 2.0), "fold line from either raw edge");
    said.figure("closed", steps(closed), "band once its ends are closed");
    said.figure("covered", steps(covered), "length of band the strips cover");

    let ratio = gathering::passes_together(&passes).unwrap();
    let flat = gathering::gathered_flat(covered, ratio).unwrap();
    let first = flat / passes[0];
    let each = strips::strips_for(flat, usable_width, overlap).unwrap();
    let all = each * layers;
    let (each_number, all_number) = (number::from_whole(each), number::from_whole(all));
    said.figure("ratio", ratio, "flat over gathered, all passes");
    said.figure("flat", steps(flat), "strips laid out for one layer");
    let laid = strips::strips_laid(each, usable_width, overlap).unwrap();
    said.figure("laid", steps(laid), "what whole strips come to");
    said.figure("first pass", steps(first), "one layer after the first pass");
    said.figure("strips in a layer", each_number, "off the roll, overlaps counted");
    said.figure("strips", all_number, "in all layers");
    said.figure("skirt", steps(strip - seam), "below the stitching line");
    said.figure("waist to hem", steps(casing + strip - seam), "casing and skirt");

    said.pieces.push(("strip".to_owned(), all));
    said.pieces.push(("band".to_owned(), 1));
    let way = if satin_width == depth {
        "off the roll"
    } else if satin_width >= band {
        "across"
    } else {
        "along"
    };
    said.figures.push((
        "band way".to_owned(),
        Value::Word(way.to_owned()),
        "how the band lies on its cloth".to_owned(),
    ));

    let layers_number = number::from_whole(layers);
    let mut fed = flat;
    for (before, pass) in passes.into_iter().enumerate() {
        let sewn = fed / pass;
        let why = format!("pass {} under the foot, stitch about 3 mm, at the gathered length", before + 1);
        said.sew("301", sewn * layers_number, &why);
        let operation = if before == 0 { "overlap and gather" } else { "gather second pass" };
        said.work(operation, steps(fed * layers_number));
        fed = sewn;
    }
    said.sew("301", covered * layers_number, "basting the ribbon to the band, stitch about 5 mm");
    said.sew("504", covered, "overlocking the basted edge");
    said.sew("301", depth / 2.0, "closing the band over the elastic");
    assert!(!tape);
    said.sew("301", depth * 2.0, "end turnings of the band");
    said.work("turn and sew a hem", steps(depth * 2.0));
    said.work("thread an elastic", 1.0);
    let cut = elastic::elastic_length(waist, shorter, lap).unwrap();
    said.figure("elastic cut", steps(cut), "elastic, its lap in it");
    let worn = elastic::elastic_worn(waist, shorter).unwrap();
    said.figure("elastic worn", steps(worn), "elastic once joined, lying relaxed");
    said.needs.push((steps(cut), "round the waist".to_owned()));
    said.sew("304", wide * 2.0, "elastic to itself, both ends of the lap");

    said.work("thread up for gathering", 1.0);
    said.work("cut strips across a roll", all_number);
    said.work("cut a piece", 1.0);
    said.work("baste gathers to a band", steps(covered * layers_number));
    said.work("overlock an edge", steps(covered));
    said.work("sew a band", 1.0);
    said.work("press, check and pack", 1.0);

    said.mark("band", "fold line", depth / 2.0, "either raw edge");
    said.mark("band", "stitching line", seam, "both raw edges");
    if !covered_ends {
        said.mark("band", "first strip", turning, "each end");
    }
    let quarter = band::even_marks(covered, 4).unwrap();
    said.mark("band", "quarter marks", quarter, "mark to mark, starting where the strips start");
    let quarter = band::even_marks(first, 4).unwrap();
    said.mark("ribbon of strips", "quarter marks", quarter, "mark to mark, after the first pass");

    said.step(if all == 1 {
        "Cut one strip: {strip} off the roll or the cloth, over its full width."
    } else {
        "Cut {strips} strips: {strip} off the roll or the cloth each time, over its full width."
    });
    said.step("Thread the needle in a colour that shows: its row tells the right side of the ribbon from the wrong, and is trimmed off later.");
    said.step(if each == 1 {
        "For each layer feed one strip under the foot at a stitch of about 3 mm. {flat} laid flat come to {first pass}; cut off what is over."
    } else {
        "For each layer feed {strips in a layer} strips under the foot end to end, each lapped {overlap} over the next, at a stitch of about 3 mm. {flat} laid flat come to {first pass}; cut off what is over."
    });
    if passes.len() > 1 {
        said.step("Mark the ribbon in quarters and feed it through again, until it measures {covered}.");
    }
    said.step("Lay the ribbon beside the band before going on: it must reach without being pulled.");
    said.step("Cut the band {band cut} by {band depth}. Turn in {turning} at each end and hold the turnings down.");
    said.step("Press the band in half, {fold} deep, through a cloth. Mark the stitching line {seam} from the raw edges, and the quarters.");
    said.step(if covered_ends {
        "Lay the ribbon right side up on the band from end to end, turnings and all, tulle level with the raw edges, quarter to quarter."
    } else {
        "Lay the ribbon right side up on the band between the turnings, tulle level with the raw edges, quarter to quarter."
    });
    said.step("Baste along the stitching line at a stitch of about 5 mm, a layer at a time, {covered} each.");
    said.step("Overlock the same edge through all layers; the knife takes the coloured row with it.");
    said.step("Cut {elastic cut} of elastic, draw it through the casing, lap its ends {lap} and zigzag them together. Close the band over it.");
    said.step("Try the waist on: it measures {elastic worn} relaxed.");

    for key in ["flame", "nightwear", "blades", "iron"] {
        said.cautions.push(key.to_owned());
    }
    assert!(!bows);
    said
}

fn recipe(criterion: &mut Criterion) {
    let workshop = demo();
    let recipe = library::shipped("strips_on_band").unwrap();
    let given: Vec<(String, String)> = ORDER.map(|(name, value)| (name.to_owned(), value.to_owned())).to_vec();
    let task = Task::run(given.clone());
    let Reply::Ran(made) = answer_in(&recipe, &workshop, false, &task, StopFlag::default()) else {
        panic!("the order was not made")
    };
    assert_eq!(natively(), Said::of(&made), "the baseline says another thing than the recipe");
    let mut group = criterion.benchmark_group("recipe");
    group.bench_function("baseline: the same figures and texts in Rust", |bench| bench.iter(natively));
    with_made(&recipe, &workshop, &given, |make| {
        group.bench_function("the script alone", |bench| bench.iter(|| make().unwrap()));
    })
    .unwrap();
    group.bench_function("read, run, ticket", |bench| {
        bench.iter(|| {
            let reply = answer_in(&recipe, &workshop, false, &task, StopFlag::default());
            assert!(matches!(reply, Reply::Ran(_)), "{reply:?}");
            reply
        });
    });
    let (workshop, style) = (Arc::new(workshop), Style::default());
    group.bench_function("plan and tables", |bench| {
        bench.iter(|| {
            let order = WorkshopOrder::new((*made).clone(), Arc::clone(&workshop), &style, Planner::default()).unwrap();
            OrderSection::in_files().map(|(section, _)| section.table(&order).unwrap()).collect::<Vec<_>>()
        });
    });
    group.finish();
}

criterion_group!(benches, recipe);
criterion_main!(benches);
