//! Cloths and notions as recipes see them: what the workshop lists, and unnamed ones.
#![allow(clippy::needless_pass_by_value, reason = "the script engine hands arguments over by value")]

use crate::engine::{ScriptError, value};
use crate::piece::{MaterialKind, Repeat};
use crate::quantity::{Dimension, Length, Money, Quantity};
use crate::recipe::contract::arguments::{ScriptResult, argument};
use crate::recipe::host::gathers::formula_error;
use crate::textile::curtains;
use crate::ticket::FirstWash;
use crate::workshop::{Material, PriceFor, SoldBy, Washing};
use rhai::{Dynamic, Engine};
use std::rc::Rc;

/// A cloth or a notion in a script.
#[derive(Clone, Debug)]
pub(in crate::recipe) struct Goods {
    pub(in crate::recipe) material: Rc<Material>,
    /// Whether it is in the workshop's list.
    pub(in crate::recipe) listed: bool,
    /// The input it answers.
    pub(in crate::recipe) input: Option<String>,
    /// Whether it is a notion, from which nothing is cut.
    pub(in crate::recipe) notion: bool,
    /// How the order says that its goods are cut that lose in the first wash.
    pub(in crate::recipe) washing: Option<Washing>,
}

impl Goods {
    /// Creates goods that the workshop does not list.
    fn unlisted(material: Material) -> Self {
        let notion = !material.kind.is_cut();
        Self { material: Rc::new(material), listed: false, input: None, notion, washing: None }
    }

    /// Creates goods of the workshop's list.
    pub(in crate::recipe) fn listed(material: &Material) -> Self {
        Self { listed: true, ..Self::unlisted(material.clone()) }
    }

    /// Returns how they meet their first wash. Scripts see their sizes after it, where the order allows for it.
    fn first_wash(&self) -> FirstWash {
        FirstWash::of(&self.material, self.washing)
    }

    /// Returns cloth of which more is known.
    pub(in crate::recipe) fn with_facts(self, facts: Vec<ClothFact>) -> Result<Self, ScriptError> {
        facts.into_iter().try_fold(self, |cloth, fact| match fact {
            ClothFact::Repeat(length, kind) => repeating(&cloth, "", &length, &Dynamic::from(kind.to_owned())),
            ClothFact::RepeatAcross(length) => {
                let across = argument("", "repeat", 0, &length).positive_length()?;
                Ok(cloth.changed(|material| material.repeat_across = Some(across)))
            }
            ClothFact::Shrinks(along, across) => {
                let share = |written: &Dynamic| argument("", "shrinks", 0, written).share();
                let along = share(&along)?;
                let across = across.as_ref().map(share).transpose()?;
                Ok(cloth.changed(|material| (material.shrink_along, material.shrink_across) = (Some(along), across)))
            }
            ClothFact::Nap => Ok(cloth.changed(|material| material.nap = true)),
        })
    }

    fn usable_width(&self) -> Option<Length> {
        self.material.usable_width.map(|width| self.first_wash().sewn_across(width))
    }

    /// Length of one repeat of the pattern.
    fn repeat(&self) -> Option<Length> {
        self.along(self.material.repeat.map(|repeat| repeat.along))
    }

    fn along(&self, length: Option<Length>) -> Option<Length> {
        length.map(|length| self.first_wash().sewn_along(length))
    }

    fn changed(&self, change: impl FnOnce(&mut Material)) -> Self {
        let mut material = Material::clone(&self.material);
        change(&mut material);
        Self { material: Rc::new(material), ..self.clone() }
    }

    /// Returns the goods as the answer to an input; unnamed goods take their name from the question.
    pub(in crate::recipe) fn answering(self, input: &str, question: &str) -> Self {
        let named = if self.material.name.is_empty() {
            self.changed(|material| material.name = format!("any {question}"))
        } else {
            self
        };
        Self { input: Some(input.to_owned()), ..named }
    }

    /// Returns an error about these goods, which refuses the order if they answer an input.
    pub(in crate::recipe) fn problem(&self, message: String) -> ScriptError {
        let problem = ScriptError::new(message);
        match &self.input {
            Some(input) => problem.refusing(input),
            None => problem,
        }
    }

    /// Checks that the goods can be had in this amount: goods sold one by one have no length, and goods sold by the
    /// length are not counted. Unlisted goods always pass.
    pub(in crate::recipe) fn can_be_had_in(&self, amount: Quantity) -> Result<(), ScriptError> {
        let name = &self.material.name;
        let by_the_piece = self.material.sold_by == SoldBy::Each || self.material.price_for == PriceFor::Each;
        match amount.dimension() {
            _ if !self.listed => Ok(()),
            Dimension::LENGTH if by_the_piece => {
                let problem = self.problem(format!("“{name}” is counted one by one; a length is needed here"));
                Err(problem.hinting("name something that is sold by the length, or type any"))
            }
            Dimension::NUMBER if matches!(self.material.sold_by, SoldBy::Step(_)) => {
                let problem = self.problem(format!("“{name}” is sold by the length; things to count are needed here"));
                Err(problem.hinting("name something that is counted one by one, or type any"))
            }
            _ => Ok(()),
        }
    }

    fn known<T>(&self, property: &str, value: Option<T>) -> Result<T, ScriptError> {
        value.ok_or_else(|| {
            let name = match self.material.name.as_str() {
                "" if self.notion => "this notion".to_owned(),
                "" => "this cloth".to_owned(),
                name => format!("“{name}”"),
            };
            self.problem(format!("the {property} of {name} is not known"))
        })
    }
}

/// Something that an order says of a cloth without a name.
pub(in crate::recipe) enum ClothFact {
    /// Its pattern repeats along it: the length, and `straight` or `half drop`.
    Repeat(Dynamic, &'static str),
    /// Its pattern repeats across it.
    RepeatAcross(Dynamic),
    /// What it loses in the first wash, along and, if known, across.
    Shrinks(Dynamic, Option<Dynamic>),
    /// All pieces lie one way.
    Nap,
}

impl ClothFact {
    pub(in crate::recipe) const REPEAT: &'static str = "repeat";
    pub(in crate::recipe) const SHRINKS: &'static str = "shrinks";
    pub(in crate::recipe) const NAP: &'static str = "nap";

    /// Whether the first word of a text says such a thing.
    pub(in crate::recipe) fn leads(written: &str) -> bool {
        let word = written.split_whitespace().next().unwrap_or_default();
        [Self::REPEAT, Self::SHRINKS, Self::NAP].contains(&word)
    }
}

/// Returns a material that is known to one order only.
fn material(name: &str, kind: MaterialKind) -> Material {
    Material {
        name: name.to_owned(),
        kind,
        usable_width: None,
        put_up: None,
        price: None,
        price_for: PriceFor::Each,
        sold_by: SoldBy::Each,
        repeat: None,
        repeat_across: None,
        nap: false,
        shrink_along: None,
        shrink_across: None,
        washing: None,
        weight: None,
        fibre: None,
    }
}

/// Registers the words with an engine.
pub(in crate::recipe) fn register(engine: &mut Engine) {
    engine
        .register_type_with_name::<Goods>("cloth or notion")
        .register_fn("any_cloth", |width: Dynamic| -> ScriptResult<Goods> { Ok(any_cloth("any_cloth", &width, None)?) })
        .register_fn("any_cloth", |width: Dynamic, price: Dynamic| -> ScriptResult<Goods> {
            Ok(any_cloth("any_cloth", &width, Some(&price))?)
        })
        .register_fn("any_roll", |width: Dynamic, put_up: Dynamic| any_roll(&width, &put_up, None))
        .register_fn("any_roll", |width: Dynamic, put_up: Dynamic, price: Dynamic| {
            any_roll(&width, &put_up, Some(&price))
        })
        .register_fn("any_notion", || -> ScriptResult<Goods> { Ok(any_notion("any_notion", None)?) })
        .register_fn("any_notion", |price: Dynamic| -> ScriptResult<Goods> {
            Ok(any_notion("any_notion", Some(&price))?)
        })
        .register_fn("plain_notion", plain_notion)
        .register_fn("repeats", repeats)
        .register_fn("repeats_across", repeats_across)
        .register_fn("napped", |goods: Goods| goods.changed(|material| material.nap = true))
        .register_fn("weighs", weighs)
        .register_fn("cut_drop", cut_drop)
        .register_get("name", |goods: &mut Goods| goods.material.name.clone())
        .register_get("usable_width", |goods: &mut Goods| -> ScriptResult<Dynamic> {
            Ok(script(goods.known("usable width", goods.usable_width())?))
        })
        .register_fn("width_or", width_or)
        .register_get("put_up", |goods: &mut Goods| -> ScriptResult<Dynamic> {
            Ok(script(goods.known("put-up", goods.along(goods.material.put_up))?))
        })
        .register_get("repeat", |goods: &mut Goods| script(goods.repeat().unwrap_or(Length::ZERO)))
        .register_get("repeat_across", |goods: &mut Goods| {
            let across = goods.material.repeat_across;
            script(across.map_or(Length::ZERO, |across| goods.first_wash().sewn_across(across)))
        })
        .register_fn("put_up_or", put_up_or)
        .register_get("nap", |goods: &mut Goods| goods.material.nap)
        .register_get("weight", |goods: &mut Goods| -> ScriptResult<Dynamic> {
            Ok(value::quantity_to_script(goods.known("weight", goods.material.weight)?))
        })
        .register_get("shrink_along", |goods: &mut Goods| goods.material.shrink_along.unwrap_or(0.0))
        .register_get("shrink_across", |goods: &mut Goods| goods.material.shrink_across.unwrap_or(0.0));
}

fn script(length: Length) -> Dynamic {
    value::quantity_to_script(length.into())
}

/// Sets a price by the length, for a put-up, or for one.
fn priced(material: &mut Material, word: &str, index: usize, price: Option<&Dynamic>) -> Result<(), ScriptError> {
    let Some(price) = price else { return Ok(()) };
    let arg = argument(word, "price", index, price);
    let quantity = arg.quantity()?;
    match quantity.dimension() {
        Dimension::MONEY => {
            material.price = Some(Money::try_from(quantity)?);
            material.price_for = if material.put_up.is_some() { PriceFor::PutUp } else { PriceFor::Each };
        }
        Dimension::MONEY_BY_LENGTH => {
            let unit = quantity.liked().length.unwrap_or(crate::quantity::Unit::Yard);
            let for_length = Quantity::of(1.0, unit);
            material.price = Some(Money::try_from(quantity.times(for_length)?)?);
            material.price_for = PriceFor::Length(Length::try_from(for_length)?);
        }
        _ => return Err(arg.must_be("a price such as $6/yd")),
    }
    if material.price.is_some_and(|price| price.steps() < 0.0) {
        return Err(arg.problem("a price cannot be less than nothing"));
    }
    Ok(())
}

/// Sets goods as sold by the exact length, because the selling step of unlisted goods is unknown.
fn sold_exactly(material: &mut Material) {
    material.sold_by = SoldBy::Step(Length::from_steps(crate::quantity::Unit::Millimetre.steps()));
}

/// Returns unlisted cloth. Errors name `word`, which is empty if an order wrote the cloth without a word.
pub(in crate::recipe) fn any_cloth(word: &str, width: &Dynamic, price: Option<&Dynamic>) -> Result<Goods, ScriptError> {
    let mut cloth = material("", MaterialKind::Cloth);
    cloth.usable_width = Some(argument(word, "width", 0, width).positive_length()?);
    priced(&mut cloth, word, 1, price)?;
    if cloth.price.is_some() && cloth.price_for == PriceFor::Each {
        let problem = ScriptError::new("the price of a cloth is by the length");
        return Err(problem.hinting("type any_cloth(45 in, $6/yd)"));
    }
    sold_exactly(&mut cloth);
    Ok(Goods::unlisted(cloth))
}

fn any_roll(width: &Dynamic, put_up: &Dynamic, price: Option<&Dynamic>) -> ScriptResult<Goods> {
    let mut roll = material("", MaterialKind::Roll);
    roll.usable_width = Some(argument("any_roll", "width", 0, width).positive_length()?);
    roll.put_up = Some(argument("any_roll", "put_up", 1, put_up).positive_length()?);
    priced(&mut roll, "any_roll", 2, price)?;
    roll.sold_by = SoldBy::PutUp;
    Ok(Goods::unlisted(roll))
}

/// Returns an unlisted notion. Errors name `word`, which is empty if an order wrote the notion without a word.
pub(in crate::recipe) fn any_notion(word: &str, price: Option<&Dynamic>) -> Result<Goods, ScriptError> {
    let mut notion = material("", MaterialKind::Notion);
    priced(&mut notion, word, 0, price)?;
    if notion.price_for != PriceFor::Each {
        sold_exactly(&mut notion);
    }
    Ok(Goods::unlisted(notion))
}

fn plain_notion(name: Dynamic) -> ScriptResult<Goods> {
    let name = argument("plain_notion", "name", 0, &name).name()?;
    Ok(Goods::unlisted(material(&name, MaterialKind::Notion)))
}

/// Returns the width of the goods, or another if it is unknown, as with an unnamed elastic.
fn width_or(goods: &mut Goods, other: Dynamic) -> ScriptResult<Dynamic> {
    let other = argument("width_or", "width", 0, &other).positive_length()?;
    Ok(script(goods.usable_width().unwrap_or(other)))
}

/// Returns the put-up of the goods, or another length if it is unknown.
fn put_up_or(goods: &mut Goods, other: Dynamic) -> ScriptResult<Dynamic> {
    let other = argument("put_up_or", "length", 0, &other).positive_length()?;
    Ok(script(goods.along(goods.material.put_up).unwrap_or(other)))
}

/// Handles `repeats(64 cm, "half drop")`; in place of the word, how much later the pattern starts on the next width.
fn repeats(goods: Goods, length: Dynamic, kind: Dynamic) -> ScriptResult<Goods> {
    Ok(repeating(&goods, "repeats", &length, &kind)?)
}

/// Sets the repeat along; errors name `word`, which is empty if an order wrote it without a word.
fn repeating(goods: &Goods, word: &str, length: &Dynamic, kind: &Dynamic) -> Result<Goods, ScriptError> {
    let along = argument(word, "length", 0, length).positive_length()?;
    let arg = argument(word, "kind", 1, kind);
    let repeat = if kind.is_string() {
        arg.one_of(&[("straight", Repeat::straight(along)), ("half drop", Repeat::half_drop(along))])?
    } else {
        let shift = arg.length()?;
        if shift.steps() < 0.0 || shift >= along {
            return Err(arg.problem("the shift to the next width is less than one repeat"));
        }
        Repeat { along, shift }
    };
    Ok(goods.changed(|material| material.repeat = Some(repeat)))
}

fn repeats_across(goods: Goods, length: Dynamic) -> ScriptResult<Goods> {
    let across = argument("repeats_across", "length", 0, &length).positive_length()?;
    Ok(goods.changed(|material| material.repeat_across = Some(across)))
}

fn weighs(goods: Goods, weight: Dynamic) -> ScriptResult<Goods> {
    let weight = argument("weighs", "weight", 0, &weight).of(Dimension::MASS_BY_AREA)?;
    Ok(goods.changed(|material| material.weight = Some(weight)))
}

/// Returns one drop, rounded up to a whole repeat if the cloth has one.
fn cut_drop(goods: &mut Goods, length: Dynamic) -> ScriptResult<Dynamic> {
    let length = argument("cut_drop", "length", 0, &length).positive_length()?;
    match goods.repeat() {
        None => Ok(script(length)),
        Some(repeat) => {
            let drop = curtains::cut_drop(length, repeat);
            Ok(script(drop.map_err(|error| formula_error(&error, goods.input.as_deref()))?))
        }
    }
}
