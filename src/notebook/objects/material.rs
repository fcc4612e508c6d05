//! A material of the workshop as a value that a cell reads: `white_lawn.price`.

use crate::engine::value::{Shown, quantity_to_script};
use crate::engine::{Member, ScriptError};
use crate::quantity::nearest::nearest;
use crate::quantity::{Liked, Quantity, Style, Unit};
use crate::workshop::{Material, PRICE_FIGURE};
use rhai::{Dynamic, EvalAltResult, ImmutableString};
use std::borrow::Cow;
use std::rc::Rc;

/// A material of the workshop.
#[derive(Clone, Debug)]
pub(crate) struct MaterialObject(Rc<Material>);

/// The members of every material, named as the columns of materials.csv.
pub(super) const WORDS: [Member; 4] = [
    word(PRICE_FIGURE, "white_lawn.price", "the list price of a material of the workshop, by the length if it has one"),
    word("usable_width", "white_lawn.usable_width", "its width without the selvedges"),
    word("put_up", "white_lawn.put_up", "the length on one roll, bolt, card or cone"),
    word("shrink_along", "white_lawn.shrink_along", "the share of its length lost in the first wash"),
];

const fn word(name: &'static str, form: &'static str, summary: &'static str) -> Member {
    Member { of: MaterialObject::TYPE, name, form: Cow::Borrowed(form), summary }
}

impl MaterialObject {
    pub(crate) fn new(material: Material) -> Self {
        Self(Rc::new(material))
    }

    pub(super) fn member(&self, name: &str) -> Result<Dynamic, Box<EvalAltResult>> {
        let material = &*self.0;
        if !WORDS.iter().any(|word| word.name == name) {
            let near = nearest(name, WORDS.iter().map(|word| word.name));
            let hint = near.map(|near| format!("did you mean “{near}”?"));
            let known = || Some(format!("what is known of it: {}", WORDS.map(|word| word.name).join(", ")));
            let problem = ScriptError::new(format!("a material has no “{name}”"));
            return Err(problem.with_hint(hint.or_else(known)).into());
        }
        let value = match name {
            PRICE_FIGURE => material.price_figure(),
            "usable_width" => material.usable_width.map(Quantity::from),
            "put_up" => material.put_up.map(Quantity::from),
            _ => material.shrink_along.map(|share| Quantity::number(share).liking(Liked::unit(Unit::Percent))),
        };
        let none = || {
            let column = name.replace('_', " ").replace("put up", "put-up");
            ScriptError::new(format!("the workshop's list says no {column} of “{}”", material.name))
        };
        Ok(quantity_to_script(value.ok_or_else(none)?))
    }
}

impl Shown for MaterialObject {
    const TYPE: &'static str = "material";

    /// `white lawn, 44 in wide, $9.25/yd`
    fn shown(&self, style: &Style) -> String {
        let width = self.0.usable_width.map(|width| format!("{} wide", style.show(width.into())));
        let price = self.0.price_figure().map(|price| style.show(price));
        let known = [Some(self.0.name.clone()), width, price];
        known.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// Registers materials with an engine.
pub(super) fn register(host: &mut crate::engine::Host) {
    host.register_shown::<MaterialObject>();
    host.engine_mut().register_indexer_get(
        |material: &mut MaterialObject, name: ImmutableString| -> Result<Dynamic, Box<EvalAltResult>> {
            material.member(&name)
        },
    );
}
