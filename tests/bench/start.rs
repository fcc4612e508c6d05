//! Measures from the start of the process to the first answer, beside the shortest process there is.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs, reason = "a benchmark that cannot run should stop")]

use criterion::{Criterion, criterion_group, criterion_main};
use std::process::{Command, Stdio};

const SUM: &str = "23 in / 2 in * 10";

fn run(program: &str, arguments: &[&str]) {
    let status = Command::new(program).args(arguments).stdout(Stdio::null()).stderr(Stdio::null()).status();
    assert!(status.unwrap().success());
}

fn start(criterion: &mut Criterion) {
    let answer = Command::new(env!("CARGO_BIN_EXE_shirr")).args(["reckon", SUM]).output().unwrap();
    // 23 / 2 x 10.
    assert_eq!(String::from_utf8_lossy(&answer.stdout).trim(), "115");
    let mut group = criterion.benchmark_group("start");
    group.bench_function("baseline: /bin/true", |bench| bench.iter(|| run("/bin/true", &[])));
    group.bench_function("reckon a sum", |bench| {
        bench.iter(|| run(env!("CARGO_BIN_EXE_shirr"), &["reckon", SUM]));
    });
    group.finish();
}

criterion_group!(benches, start);
criterion_main!(benches);
