//! Measures one order of strips on a band: the script alone, to the ticket, and to the tables.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs, reason = "a benchmark that cannot run should stop")]

use criterion::{Criterion, criterion_group, criterion_main};
use shirr::cutting::Planner;
use shirr::engine::limits::StopFlag;
use shirr::quantity::{Length, Style};
use shirr::recipe::run::{answer_in, with_made};
use shirr::recipe::{Reply, Task, library};
use shirr::textile::{elastic, gathering, strips};
use shirr::ticket::{OrderSection, WorkshopOrder};
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

/// The same figures, straight from the formulas; the rest is the cost of the script language.
fn figures_natively() -> (f64, i64, i64, f64) {
    let covered = Length::inches(black_box(14.0)) + Length::inches(10.0) - Length::inches(2.0);
    let ratio = gathering::passes_together(&[black_box(6.0), 5.0]).unwrap();
    let flat = gathering::gathered_flat(covered, ratio).unwrap();
    let count = strips::strips_for(flat, Length::inches(6.0), Length::ZERO).unwrap();
    let rolls = strips::rolls_for(count, Length::inches(10.0), Length::yards(25.0)).unwrap();
    let worn = elastic::elastic_length(Length::inches(14.0), 0.0, Length::inches(1.0)).unwrap();
    (flat.steps(), count, rolls, worn.steps())
}

fn recipe(criterion: &mut Criterion) {
    let workshop = demo();
    let recipe = library::shipped("strips_on_band").unwrap();
    let given: Vec<(String, String)> = ORDER.map(|(name, value)| (name.to_owned(), value.to_owned())).to_vec();
    let task = Task::run(given.clone());
    let Reply::Ran(made) = answer_in(&recipe, &workshop, false, &task, StopFlag::default()) else {
        panic!("the order was not made")
    };
    let mut group = criterion.benchmark_group("recipe");
    group.bench_function("baseline: the figures natively", |bench| bench.iter(figures_natively));
    with_made(&recipe, &workshop, &given, |make| {
        group.bench_function("the script alone", |bench| bench.iter(&mut *make));
    })
    .unwrap();
    group.bench_function("read, run, ticket", |bench| {
        bench.iter(|| answer_in(&recipe, &workshop, false, &task, StopFlag::default()));
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
