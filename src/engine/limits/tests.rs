//! Each limit on both of its sides.

use super::*;
use crate::engine::host::Host;
use crate::quantity::{Reading, Style};
use rhai::Scope;
use std::fmt::Write as _;

fn host(limits: Limits) -> Host {
    Host::new(Reading::default(), Style::default(), limits, StopFlag::default())
}

/// What calling `f` of a script comes to: nothing, or the message.
fn ends(script: &str) -> Result<(), String> {
    let host = host(Limits::RECIPE);
    let script = host.compile("a.rhai", script).map_err(|error| error.message)?;
    host.call(&script, "f", ()).map(|_| ()).map_err(|error| error.message)
}

#[test]
fn a_meter_counts_to_its_limit_and_no_further() {
    let meter = Meter::default();
    meter.begin();
    let limits = Limits { operations: 3, memory: usize::MAX };
    assert_eq!([meter.step(limits), meter.step(limits), meter.step(limits)], [None; 3]);
    assert_eq!(meter.step(limits), Some(Stopped::Operations));
    meter.begin();
    assert_eq!(meter.charge(2), 2);
    assert_eq!(meter.charge(0), 2);
    assert_eq!([meter.step(limits), meter.step(limits)], [None, Some(Stopped::Operations)]);
    meter.begin();
    assert_eq!(meter.charge(0), 0);
}

#[test]
fn what_a_run_allocates_is_seen() {
    let meter = Meter::default();
    meter.begin();
    let kept = vec![1_u8; 256 << 20];
    let limits = |memory| Limits { operations: u64::MAX, memory };
    assert_eq!(meter.step(limits(64 << 20)), Some(Stopped::Memory));
    assert_eq!(meter.step(limits(1 << 40)), None);
    assert!(memory_in_use() >= kept.len());
}

#[test]
fn a_run_is_stopped_from_outside_and_a_loop_by_its_count() {
    let stop = StopFlag::default();
    let host = Host::new(Reading::default(), Style::default(), Limits::CELL, Arc::clone(&stop));
    let script = host.compile_expression("1 + up(2)").unwrap();
    assert!(host.evaluate(&script, &mut Scope::new()).is_ok());
    stop.store(true, Ordering::Relaxed);
    assert_eq!(host.evaluate(&script, &mut Scope::new()).unwrap_err().message, "stopped");
    assert_eq!(ends("fn f() { loop { } }"), Err("this goes on for too long and was stopped".to_owned()));
    // Each run has the whole count to itself.
    let few = Limits { operations: 100, ..Limits::CELL };
    let host = Host::new(Reading::default(), Style::default(), few, StopFlag::default());
    let script = host.compile_expression("up(1) + up(2) + up(3)").unwrap();
    for _ in 0..100 {
        assert!(host.evaluate(&script, &mut Scope::new()).is_ok());
    }
}

#[test]
fn a_recipe_has_room_for_what_it_makes_and_no_more() {
    let grown = |begin: &str, step: &str, count: usize| {
        ends(&format!("fn f() {{ let kept = {begin}; for i in 0..{count} {{ {step} }} kept.len() }}"))
    };
    let too_large = |noun: &str| Err(format!("{noun} becomes too large here"));
    assert_eq!(grown("[]", "kept.push(i);", 5_000), Ok(()));
    assert_eq!(grown("[]", "kept.push(i);", 5_001), too_large("a list"));
    assert_eq!(grown("#{}", "kept[`k${i}`] = i;", 2_000), Ok(()));
    assert_eq!(grown("#{}", "kept[`k${i}`] = i;", 2_001), too_large("a #{ … } group"));
    assert_eq!(grown("\"\"", "kept += \"0123456789012345678901234567890123456789\";", 2_500), Ok(()));
    assert_eq!(grown("\"a\"", "kept += \"0123456789012345678901234567890123456789\";", 2_500), too_large("a text"));
}

#[test]
fn calls_names_and_functions_are_counted() {
    let down =
        |levels: usize| ends(&format!("fn g(n) {{ if n > 1 {{ g(n - 1) }} else {{ 1 }} }} fn f() {{ g({levels}) }}"));
    // So many stand below the call from outside.
    assert_eq!(down(32), Ok(()));
    assert_eq!(down(33), Err("functions call each other too deeply".to_owned()));
    let functions = |count: usize| {
        let mut script = "fn f() { 1 }".to_owned();
        for i in 1..count {
            write!(script, "fn g{i}() {{ 1 }}").unwrap();
        }
        ends(&script)
    };
    assert_eq!(functions(200), Ok(()));
    assert_eq!(functions(201), Err("there are too many functions".to_owned()));
    let names = |count: usize| {
        let mut script = "fn f() {".to_owned();
        for i in 0..count {
            write!(script, "let n{i} = {i};").unwrap();
        }
        ends(&(script + "}"))
    };
    assert_eq!(names(500), Ok(()));
    assert_eq!(names(501), Err("there are too many names here".to_owned()));
}
