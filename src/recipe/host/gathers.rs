//! How something is gathered: a typed ratio, passes one after the other, or a trial on the maker's machine.
#![allow(clippy::needless_pass_by_value, reason = "the script engine hands arguments over by value")]

use crate::engine::script_error::{Marked, ScriptError};
use crate::quantity::{Length, Style};
use crate::recipe::contract::arguments::{ScriptResult, argument};
use crate::textile::{TextileError, gathering, strips};
use rhai::{Array, Dynamic, Engine};

/// The answer to a `gathers` input.
#[derive(Clone, Debug)]
pub(in crate::recipe) struct Gathers {
    /// The input it answers.
    pub(in crate::recipe) input: String,
    /// The ratio of each pass.
    pub(in crate::recipe) passes: Vec<f64>,
    /// Where it comes from: "typed", or the trial's name.
    pub(in crate::recipe) source: String,
    /// Width of the trial's strips under the foot.
    pub(in crate::recipe) piece: Option<Length>,
    /// Overlap of the trial's strips.
    pub(in crate::recipe) overlap: Option<Length>,
}

impl Gathers {
    /// Returns flat length over finished length, all passes together.
    pub(in crate::recipe) fn ratio(&self) -> f64 {
        self.passes.iter().product()
    }
}

/// Converts a formula's error; with an input, the error refuses the order because of that input.
pub(in crate::recipe) fn formula_error(error: &TextileError, input: Option<&str>) -> ScriptError {
    let problem = ScriptError::of(error, &Style::default());
    match input {
        Some(input) => problem.refusing(input),
        None => problem,
    }
}

/// Registers the words with an engine.
pub(in crate::recipe) fn register(engine: &mut Engine) {
    engine
        .register_type_with_name::<Gathers>("gathers")
        .register_get("ratio", |gathers: &mut Gathers| gathers.ratio())
        .register_get("source", |gathers: &mut Gathers| gathers.source.clone())
        .register_get("passes", |gathers: &mut Gathers| {
            gathers.passes.iter().map(|pass| Dynamic::from_float(*pass)).collect::<Array>()
        })
        .register_get("piece", |gathers: &mut Gathers| known(gathers, gathers.piece, "strip width"))
        .register_get("overlap", |gathers: &mut Gathers| known(gathers, gathers.overlap, "overlap"))
        .register_fn("flat", flat)
        .register_fn("finished", finished)
        .register_fn("strips", own_strips)
        .register_fn("strips", other_strips);
}

fn known(gathers: &Gathers, length: Option<Length>, property: &str) -> ScriptResult<Dynamic> {
    Ok(script_length(length.ok_or_else(|| unknown(gathers, property))?))
}

fn unknown(gathers: &Gathers, property: &str) -> ScriptError {
    let message = if gathers.source == "typed" {
        format!("{} was typed as a ratio, so its {property} is not known", gathers.input)
    } else {
        format!("the trial “{}” does not say its {property}", gathers.source)
    };
    ScriptError::new(message)
        .hinting("name a trial that says it, or give strips(length, width, overlap)")
        .refusing(&gathers.input)
}

fn script_length(length: Length) -> Dynamic {
    crate::engine::value::quantity_to_script(length.into())
}

fn flat(gathers: &mut Gathers, length: Dynamic) -> ScriptResult<Dynamic> {
    let finished = argument("flat", "length", 0, &length).length()?;
    let flat = gathering::gathered_flat(finished, gathers.ratio());
    Ok(script_length(flat.map_err(|error| formula_error(&error, None).marking(Marked::Argument(0)))?))
}

fn finished(gathers: &mut Gathers, length: Dynamic) -> ScriptResult<Dynamic> {
    let flat = argument("finished", "length", 0, &length).length()?;
    let finished = gathering::gathered_length(flat, gathers.ratio());
    Ok(script_length(finished.map_err(|error| formula_error(&error, None).marking(Marked::Argument(0)))?))
}

fn own_strips(gathers: &mut Gathers, length: Dynamic) -> ScriptResult<i64> {
    let piece = gathers.piece.ok_or_else(|| unknown(gathers, "strip width"))?;
    count(gathers, &length, piece, gathers.overlap.unwrap_or(Length::ZERO))
}

fn other_strips(gathers: &mut Gathers, length: Dynamic, width: Dynamic, overlap: Dynamic) -> ScriptResult<i64> {
    let width = argument("strips", "width", 1, &width).length()?;
    let overlap = argument("strips", "overlap", 2, &overlap).length()?;
    count(gathers, &length, width, overlap)
}

fn count(gathers: &Gathers, length: &Dynamic, width: Length, overlap: Length) -> ScriptResult<i64> {
    let finished = argument("strips", "length", 0, length).length()?;
    let flat = gathering::gathered_flat(finished, gathers.ratio()).map_err(|error| formula_error(&error, None))?;
    Ok(strips::strips_for(flat, width, overlap).map_err(|error| formula_error(&error, Some(&gathers.input)))?)
}
