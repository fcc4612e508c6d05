//! The finished plan as `after_cutting` sees it, read-only: one garment, cut from endless stock.
#![allow(clippy::needless_pass_by_value, reason = "the script engine hands arguments over by value")]

use crate::engine::ScriptError;
use crate::engine::value;
use crate::quantity::nearest::nearest;
use crate::recipe::contract::arguments::{ScriptResult, argument};
use crate::recipe::host::material_words::Goods;
use crate::ticket::{Lay, PanelFigures};
use crate::workshop::Material;
use rhai::{Dynamic, Engine};
use std::rc::Rc;

/// The plan in a script.
#[derive(Clone, Debug)]
pub(in crate::recipe) struct PlanView {
    /// One lay for each material that is cut.
    pub(in crate::recipe) lays: Rc<Vec<Lay>>,
    /// The names of all pieces, and the figures of those that are the widths of panels.
    pub(in crate::recipe) pieces: Rc<Vec<(String, Option<PanelFigures>)>>,
}

/// Registers the words with an engine.
pub(in crate::recipe) fn register(engine: &mut Engine) {
    engine
        .register_type_with_name::<PlanView>("plan")
        .register_fn("pieces", |plan: PlanView, name: Dynamic| -> ScriptResult<i64> {
            let name = plan.known("pieces", &name)?;
            Ok(plan.lays.iter().map(|lay| lay.plan.pieces(&name)).sum())
        })
        .register_fn("joins", |plan: PlanView, name: Dynamic| -> ScriptResult<i64> {
            let name = plan.known("joins", &name)?;
            Ok(plan.lays.iter().map(|lay| lay.plan.joins(&name)).sum())
        })
        .register_fn("widths", |plan: PlanView, name: Dynamic| -> ScriptResult<Dynamic> {
            Ok(Dynamic::from_float(plan.panels("widths", &name)?.widths))
        })
        .register_fn("drops", |plan: PlanView, name: Dynamic| -> ScriptResult<i64> {
            Ok(plan.panels("drops", &name)?.drops)
        })
        .register_fn("join_length", |plan: PlanView, name: Dynamic| -> ScriptResult<Dynamic> {
            Ok(value::quantity_to_script(plan.panels("join_length", &name)?.join_length.into()))
        })
        .register_fn("trimmed", |plan: PlanView, name: Dynamic| -> ScriptResult<Dynamic> {
            Ok(value::quantity_to_script(plan.panels("trimmed", &name)?.trimmed.into()))
        })
        .register_fn("length_of", |plan: PlanView, cloth: Dynamic| -> ScriptResult<Dynamic> {
            let arg = argument("length_of", "cloth", 0, &cloth);
            let Some(goods) = cloth.clone().try_cast::<Goods>() else { return Err(arg.must_be("a cloth").into()) };
            let mut lays = plan.lays.iter().filter(|lay| is_cut_from(lay, &goods));
            match (lays.next(), lays.next()) {
                (Some(lay), None) => Ok(value::quantity_to_script(lay.length_used().into())),
                (None, _) if goods.material.name.is_empty() => {
                    Err(arg.problem("nothing is cut from this cloth").into())
                }
                (None, _) => Err(arg.problem(format!("nothing is cut from “{}”", goods.material.name)).into()),
                (Some(_), Some(_)) => Err(arg
                    .problem("two cloths without a name are alike in width and price; which is meant?")
                    .hinting("ask for them in inputs()")
                    .into()),
            }
        });
}

/// Returns whether a lay is of these goods; goods without a name are matched by their properties.
fn is_cut_from(lay: &Lay, goods: &Goods) -> bool {
    let laid = &lay.material;
    if goods.material.name.is_empty() {
        let unnamed = Material { name: String::new(), ..laid.material.clone() };
        return laid.input.is_none() && !laid.listed && unnamed == *goods.material;
    }
    laid.material.name == goods.material.name && (laid.input == goods.input || (laid.listed && goods.listed))
}

impl PlanView {
    fn known(&self, word: &str, name: &Dynamic) -> Result<String, ScriptError> {
        let arg = argument(word, "name", 0, name);
        let name = arg.text()?;
        if self.pieces.iter().any(|(known, _)| *known == name) {
            return Ok(name);
        }
        let near = nearest(&name, self.pieces.iter().map(|(known, _)| known.as_str()));
        let problem = arg.problem(format!("there is no piece “{name}”"));
        Err(problem.with_hint(near.map(|near| format!("did you mean “{near}”?"))))
    }

    fn panels(&self, word: &str, name: &Dynamic) -> Result<PanelFigures, ScriptError> {
        let known = self.known(word, name)?;
        let figures = self.pieces.iter().find(|(name, _)| *name == known).and_then(|(_, figures)| figures.clone());
        figures.ok_or_else(|| {
            let problem = argument(word, "name", 0, name).problem(format!("“{known}” is not made of widths"));
            problem.hinting("give the piece .widths(across, along) in make")
        })
    }
}
