//! The engine of a recipe: the host with every word of the contract registered.

use crate::diagnostic::Diagnostic;
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::{Host, Runs, Script};
use crate::quantity::Style;
use crate::recipe::contract::{input_words, words};
use crate::recipe::host::{gathers, material_words, order, plan_words, ticket_words};
use crate::workshop::Workshop;
use rhai::{Dynamic, Scope};
use std::collections::BTreeMap;

/// Creates a host that knows the contract, and notes what runs where that is asked for.
pub(in crate::recipe) fn host(
    workshop: &Workshop,
    helpers: &BTreeMap<String, String>,
    plain: bool,
    stop: StopFlag,
    runs: Option<&Runs>,
) -> Host {
    let settings = &workshop.settings;
    let style = Style { plain, ..settings.style() };
    let mut host = Host::new(settings.reading(), style, Limits::RECIPE, stop);
    host.fold_constants();
    if let Some(runs) = runs {
        host.note_runs(runs.clone());
    }
    host.set_library(helpers.clone());
    host.set_members(&words::WORDS);
    let engine = host.engine_mut();
    input_words::register(engine);
    gathers::register(engine);
    material_words::register(engine);
    order::register(engine, style);
    ticket_words::register(engine);
    plan_words::register(engine);
    host
}

/// Evaluates one expression typed for an input.
pub(in crate::recipe) fn evaluate(host: &Host, typed: &str) -> Result<Dynamic, Diagnostic> {
    let script: Script = host.compile_expression(typed)?;
    host.evaluate(&script, &mut Scope::new())
}
