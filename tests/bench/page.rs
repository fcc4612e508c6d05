//! Measures a page of 10,000 cells: worked out whole, changed in one cell, opened, saved, and a key pressed on it.
//!
//! The baseline is the same engine evaluating the same compiled expressions in order, with the values that each reads
//! supplied by hand: no name lookup, no ordering, no report.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    missing_docs,
    reason = "a benchmark that cannot run should stop"
)]

use criterion::{Criterion, criterion_group, criterion_main};
use rhai::{Dynamic, Scope};
use shirr::engine::limits::{Limits, StopFlag};
use shirr::engine::{Expression, Host};
use shirr::notebook::{NoWorld, Page, Tools};
use shirr::quantity::{Reading, Style};
use shirr::terminal::bench_hooks;
use std::collections::BTreeMap;
use std::hint::black_box;

/// The expression of cell `n`: of ten cells six are sums of quantities, three call a function, one is a text. Cells
/// come in chains of eleven, so that the first of a chain has ten dependents.
fn expression(n: usize) -> String {
    let before = format!("c{}", n.wrapping_sub(1));
    match (n % 11, n % 10) {
        (0, _) => format!("{} in", 20 + n % 40),
        (_, 9) => format!("`{n}: ${{{before}}}`"),
        // A cell after a text reads the cell before the text.
        (_, 0) if n % 11 > 1 => format!("c{} + {} in * 2 - 3/8 in", n - 2, n % 17 + 1),
        (_, 6..=8) => format!("gathered_flat({before}, 1.1) + 1/8 in"),
        _ => format!("{before} + {} in * 2 - 3/8 in", n % 17 + 1),
    }
}

fn text(cells: usize) -> String {
    (0..cells).map(|n| format!("c{n} = {}\n", cell_expression(n))).collect()
}

/// Like [`expression`], but a multiple of ten that is second in its chain reads no cell.
fn cell_expression(n: usize) -> String {
    let reads_text = n.is_multiple_of(10) && n % 11 == 1;
    if reads_text { format!("{} in + 2 in", n % 13 + 1) } else { expression(n) }
}

fn host() -> Host {
    Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default())
}

/// Compiled expressions in order, with the places of the values that each reads.
struct ByHand {
    steps: Vec<(Expression, Vec<(String, usize)>)>,
    values: Vec<Dynamic>,
}

impl ByHand {
    fn new(host: &Host, cells: usize) -> Self {
        let names: BTreeMap<String, usize> = (0..cells).map(|n| (format!("c{n}"), n)).collect();
        let step = |n: usize| {
            let expression = Expression::compile(host, &cell_expression(n)).unwrap();
            let reads = expression.names().filter_map(|name| Some((name.to_owned(), *names.get(name)?))).collect();
            (expression, reads)
        };
        Self { steps: (0..cells).map(step).collect(), values: vec![Dynamic::UNIT; cells] }
    }

    fn work_out(&mut self, host: &Host) {
        let mut scope = Scope::new();
        for (n, (expression, reads)) in self.steps.iter().enumerate() {
            scope.clear();
            for (name, at) in reads {
                scope.push_constant_dynamic(name.as_str(), self.values[*at].clone());
            }
            self.values[n] = expression.evaluate(host, &mut scope).unwrap();
        }
    }
}

fn page(criterion: &mut Criterion) {
    let (host, mut world) = (host(), NoWorld);
    let mut by_hand = ByHand::new(&host, 10_000);
    let whole = text(10_000);
    let mut opened = Page::read(&mut Tools { host: &host, world: &mut world }, &whole);
    by_hand.work_out(&host);
    assert!(opened.errors().is_empty(), "{:?}", opened.errors().first());
    for n in [0, 9, 4_321, 9_999] {
        let shown = opened.shown(&format!("c{n}"), &Style::default());
        assert_eq!(shown, shirr::notebook::one_line(&by_hand.values[n], &Style::default()).ok(), "c{n}");
    }

    let mut group = criterion.benchmark_group("page");
    group.sample_size(20);
    group.bench_function("baseline: 10,000 compiled expressions in order", |bench| {
        bench.iter(|| by_hand.work_out(&host));
    });
    group.bench_function("10,000 cells worked out whole", |bench| {
        bench.iter(|| opened.recompute_all(&mut Tools { host: &host, world: &mut world }));
    });
    assert!(opened.errors().is_empty(), "{:?}", opened.errors().first());
    for (cells, label) in [(10_000, "one cell with ten followers, of 10,000"), (100_000, "the same, of 100,000")] {
        let mut page = Page::read(&mut Tools { host: &host, world: &mut world }, &text(cells));
        let mut turn = 0;
        group.bench_function(label, |bench| {
            bench.iter(|| {
                turn = (turn + 1) % 2;
                let line = format!("c5500 = {} in", 31 + turn);
                let entered = page.enter(&mut Tools { host: &host, world: &mut world }, &line).unwrap();
                assert_eq!(entered.changes.len(), 11);
                entered
            });
        });
    }
    group.bench_function("opening 10,000 cells", |bench| {
        // The time to drop a page does not count.
        bench.iter_with_large_drop(|| Page::read(&mut Tools { host: &host, world: &mut world }, &whole));
    });
    let folder = tempfile::tempdir().unwrap();
    for (cells, label) in [
        (1_000, "saving 1,000 cells, synced"),
        (10_000, "saving 10,000 cells, synced"),
        (100_000, "saving 100,000 cells, synced"),
    ] {
        let page = Page::read(&mut Tools { host: &host, world: &mut world }, &text(cells));
        let path = folder.path().join(format!("{cells}.txt"));
        group.bench_function(label, |bench| bench.iter(|| bench_hooks::save(&path, &page.text()).unwrap()));
    }
    let keyed = Page::read(&mut Tools { host: &host, world: &mut world }, &whole);
    bench_hooks::with_keys(keyed, Style::default(), |press| {
        group.bench_function("a key: hint on 10,000 cells, the value of a name", |bench| {
            bench.iter(|| press(black_box("2 * c5500")).unwrap());
        });
        group.bench_function("a key: hint on 10,000 cells, the form of a call", |bench| {
            bench.iter(|| press(black_box("c1 + strips_for(c5500, 6 in")).unwrap());
        });
    });
    group.finish();
}

criterion_group!(benches, page);
criterion_main!(benches);
