//! A row of the workshop's sizes named in an order: `size=Wren`.
//!
//! Never here: which inputs the row fills, and whether its measures fit.

use crate::engine::{ScriptError, value};
use crate::recipe::answers::answering::{Check, CheckResult, RawAnswer};
use crate::recipe::contract::input::Input;
use crate::workshop::{Size, Sizes};
use rhai::Dynamic;

/// The most names listed one by one, here and in a question's offers.
pub(in crate::recipe) const MAX_LISTED: usize = 8;

/// Returns the size that an order names.
pub(in crate::recipe) fn named<'w>(answer: &RawAnswer, inputs: &[Input], check: &Check<'w>) -> CheckResult<&'w Size> {
    let sizes = &check.workshop.sizes;
    let name = name_of(answer)?;
    let Some(measured) = inputs.iter().find(|input| input.body.is_some()) else {
        let problem = ScriptError::new("this recipe asks for no body measure, so a size fills nothing");
        return Err(problem.hinting("leave the size out"));
    };
    if sizes.list.is_empty() {
        let problem = ScriptError::new("the workshop lists no sizes");
        let example = check.example(measured);
        return Err(
            problem.hinting(format!("write them into sizes.csv, or give each measure: {}='{example}'", measured.name))
        );
    }
    sizes.find(&name).ok_or_else(|| {
        let hint = match sizes.nearest(&name) {
            Some(near) => format!("did you mean “{near}”?"),
            None => format!("type {}", listed(sizes)),
        };
        ScriptError::new(format!("there is no size “{name}”")).hinting(hint)
    })
}

/// Returns the name of a size, which may be a number.
fn name_of(answer: &RawAnswer) -> CheckResult<String> {
    let number = |value: &Dynamic| value.as_int().map(|whole| whole.to_string()).ok();
    let name = match (answer.words(), answer) {
        (Some(name), _) => Some(name),
        (None, RawAnswer::Script(value)) => number(value),
        (None, _) => None,
    };
    match name {
        Some(name) if name.is_empty() => {
            Err(ScriptError::new("nothing is written here").hinting("type the name of a size"))
        }
        Some(name) => Ok(name),
        None => {
            let noun = if let RawAnswer::Script(value) = answer { value::noun(value) } else { "this".to_owned() };
            Err(ScriptError::new(format!("the name of a size is needed, not {noun}")))
        }
    }
}

/// Lists the sizes: `Pip, Wren, Juno or Alder`, or the first ones and how many more there are.
pub(in crate::recipe) fn listed(sizes: &Sizes) -> String {
    let names: Vec<&str> = sizes.list.iter().map(|size| size.name.as_str()).collect();
    match names.as_slice() {
        [before @ .., last] if names.len() <= MAX_LISTED && !before.is_empty() => {
            format!("{} or {last}", before.join(", "))
        }
        _ if names.len() > MAX_LISTED => {
            let shown: Vec<&str> = names.iter().take(MAX_LISTED).copied().collect();
            format!("{} or one of {} more", shown.join(", "), names.len() - MAX_LISTED)
        }
        _ => names.join(", "),
    }
}
