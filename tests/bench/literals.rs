//! Measures the literal pass and the compilation of the longest shipped recipe.
//!
//! The baseline compiles the same text, already rewritten, with the same precedence of `/` and `^`, the same depth and
//! without the engine's optimizer, on an engine that has none of our functions; a call is looked up when it runs, not
//! when it is compiled, so this changes nothing in the tree.
#![allow(clippy::unwrap_used, missing_docs, reason = "a benchmark that cannot run should stop")]

use criterion::{Criterion, criterion_group, criterion_main};
use shirr::engine::Host;
use shirr::engine::limits::{Limits, StopFlag};
use shirr::engine::text::rewrite::rewrite;
use shirr::quantity::{Reading, Style};
use shirr::recipe::library;

fn literals(criterion: &mut Criterion) {
    let longest = library::shipped_names().filter_map(library::shipped).max_by_key(|recipe| recipe.text.len()).unwrap();
    let rewritten = rewrite(None, &longest.text, Reading::default()).unwrap().text;
    let host = Host::new(Reading::default(), Style::default(), Limits::RECIPE, StopFlag::default());
    let mut group = criterion.benchmark_group("literals");
    group.bench_function("baseline: the script engine compiles the rewritten text", |bench| {
        let mut bare = rhai::Engine::new_raw();
        // As in src/engine/operators.rs.
        for (symbol, precedence) in [("/", 180), ("^", 190)] {
            bare.disable_symbol(symbol).register_custom_operator(symbol, precedence).unwrap();
        }
        bare.set_max_expr_depths(64, 32).set_optimization_level(rhai::OptimizationLevel::None);
        bench.iter(|| bare.compile(&rewritten).unwrap());
    });
    group.bench_function("literal pass", |bench| {
        bench.iter(|| rewrite(None, &longest.text, Reading::default()).unwrap());
    });
    group.bench_function("literal pass and compile", |bench| {
        bench.iter(|| host.compile("longest.rhai", &longest.text).unwrap());
    });
    group.bench_function("engine with every function", |bench| {
        bench.iter(|| Host::new(Reading::default(), Style::default(), Limits::RECIPE, StopFlag::default()));
    });
    group.finish();
}

criterion_group!(benches, literals);
criterion_main!(benches);
