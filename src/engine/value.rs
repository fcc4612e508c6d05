//! Conversion between script values and quantities, all in one place.

use super::script_error::ScriptError;
use crate::quantity::{Quantity, QuantityError, Style, Unit, number};
use rhai::{Array, Dynamic, ImmutableString};
use std::any::TypeId;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::RwLock;

/// The script value of a quantity. A recipe calculates with this type and plain numbers only.
#[derive(Clone, Copy, Debug)]
pub struct Measured {
    quantity: Quantity,
}

impl Measured {
    /// The script value of a quantity.
    pub fn new(quantity: Quantity) -> Self {
        Self { quantity }
    }

    /// The quantity.
    pub fn quantity(self) -> Quantity {
        self.quantity
    }
}

/// A quantity with a tolerance; operators refuse it for now.
#[derive(Clone, Copy, Debug)]
pub struct Spread {
    /// The middle.
    pub middle: Quantity,
    /// The tolerance to either side.
    pub half: Quantity,
}

/// A blank cell of a table while a condition is evaluated on its row: using it is an error that names the column.
/// Everywhere else a blank is the script's `()`.
#[derive(Clone, Debug)]
pub struct Blank {
    /// Its column, as the condition names it.
    pub name: Rc<str>,
}

/// A host object of a higher layer that can be the value of a cell. The engine knows it only through this trait;
/// [`Host::register_shown`](super::Host::register_shown) registers a type.
pub trait Shown: Clone + 'static {
    /// The engine's name for its type in a signature, such as `table`; with an article it is the noun in errors.
    const TYPE: &'static str;

    /// Describes it in one line.
    fn shown(&self, style: &Style) -> String;
}

/// The noun and the display of one type of host object.
#[derive(Clone, Copy)]
struct ShownType {
    of: &'static str,
    show: fn(&Dynamic, &Style) -> Option<String>,
}

/// By type, shared by all engines; entries are only added, and every engine adds the same ones.
static SHOWN: RwLock<BTreeMap<TypeId, ShownType>> = RwLock::new(BTreeMap::new());

/// Registers how a type of host object is named and shown.
pub(super) fn register_shown_type<T: Shown>() {
    let shown_type =
        ShownType { of: T::TYPE, show: |value, style| value.read_lock::<T>().map(|object| object.shown(style)) };
    if let Ok(mut known) = SHOWN.write() {
        known.insert(TypeId::of::<T>(), shown_type);
    }
}

fn shown_type_of(value: &Dynamic) -> Option<ShownType> {
    SHOWN.read().ok()?.get(&value.type_id()).copied()
}

/// An argument or a result of a built-in function.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A quantity; a plain number that need not be whole has no dimension.
    Quantity(Quantity),
    /// A whole number.
    Whole(i64),
    /// A text.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// Several values.
    List(Vec<Value>),
    /// A blank: an empty cell of a table, or nothing.
    Blank,
}

impl Value {
    /// Reads a script value; `None` if it is no plain value, such as a cloth.
    pub fn from_script(value: &Dynamic) -> Option<Self> {
        if value.is_unit() || value.is::<Blank>() {
            return Some(Self::Blank);
        }
        if let Ok(whole) = value.as_int() {
            return Some(Self::Whole(whole));
        }
        if let Ok(decimal) = value.as_float() {
            return Some(Self::Quantity(Quantity::number(decimal)));
        }
        if let Ok(flag) = value.as_bool() {
            return Some(Self::Flag(flag));
        }
        if let Some(measured) = value.read_lock::<Measured>() {
            return Some(Self::Quantity(measured.quantity));
        }
        if let Some(text) = value.read_lock::<ImmutableString>() {
            return Some(Self::Text(text.to_string()));
        }
        let list = value.read_lock::<Array>()?;
        list.iter().map(Self::from_script).collect::<Option<Vec<_>>>().map(Self::List)
    }

    /// Converts to a script value. A quantity without a dimension becomes a plain number unless it is in per cent,
    /// so that plain sums keep the fast paths of the engine.
    pub fn into_script(self) -> Dynamic {
        match self {
            Self::Quantity(quantity) => quantity_to_script(quantity),
            Self::Whole(whole) => Dynamic::from_int(whole),
            Self::Text(text) => Dynamic::from(text),
            Self::Flag(flag) => Dynamic::from_bool(flag),
            Self::List(list) => Dynamic::from_array(list.into_iter().map(Self::into_script).collect()),
            Self::Blank => Dynamic::UNIT,
        }
    }

    /// Its quantity, whole numbers included.
    pub fn quantity(&self) -> Option<Quantity> {
        match self {
            Self::Quantity(quantity) => Some(*quantity),
            Self::Whole(whole) => Some(Quantity::number(number::from_whole(*whole))),
            _ => None,
        }
    }

    /// The noun for it in errors, with an article.
    pub fn noun(&self) -> String {
        match self {
            Self::Quantity(quantity) => quantity.dimension().noun(),
            Self::Whole(_) => "a plain number".to_owned(),
            Self::Text(_) => "a text".to_owned(),
            Self::Flag(_) => "a yes or no".to_owned(),
            Self::List(_) => "a list".to_owned(),
            Self::Blank => "nothing".to_owned(),
        }
    }

    /// Shows it in a style.
    pub fn show(&self, style: &Style) -> String {
        match self {
            Self::Quantity(quantity) => style.show(*quantity),
            Self::Whole(whole) => whole.to_string(),
            Self::Text(text) => text.clone(),
            Self::Flag(true) => "yes".to_owned(),
            Self::Flag(false) => "no".to_owned(),
            Self::List(list) => list.iter().map(|value| value.show_inside(style)).collect::<Vec<_>>().join(", "),
            Self::Blank => "blank".to_owned(),
        }
    }

    /// Shows it as an item of a list: an inner list keeps its brackets.
    fn show_inside(&self, style: &Style) -> String {
        let shown = self.show(style);
        if matches!(self, Self::List(_)) { format!("[{shown}]") } else { shown }
    }
}

impl From<Quantity> for Value {
    fn from(quantity: Quantity) -> Self {
        Self::Quantity(quantity)
    }
}

/// A quantity as a script value: a plain number if it has no dimension and is not in per cent.
pub fn quantity_to_script(quantity: Quantity) -> Dynamic {
    match quantity.to_number() {
        Ok(plain) if quantity.liked().named != Some(Unit::Percent) => Dynamic::from_float(plain),
        _ => Dynamic::from(Measured::new(quantity)),
    }
}

/// The quantity of a script value, plain numbers included.
pub fn quantity_from_script(value: &Dynamic) -> Option<Quantity> {
    Value::from_script(value).and_then(|value| value.quantity())
}

/// The noun for a script value in errors, with an article.
pub fn noun(value: &Dynamic) -> String {
    if value.is_unit() {
        return "nothing".to_owned();
    }
    if value.is::<Blank>() {
        return "a blank".to_owned();
    }
    if value.is::<Spread>() {
        return "a measure with ±".to_owned();
    }
    if let Some(shown_type) = shown_type_of(value) {
        return format!(
            "{} {}",
            if shown_type.of.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" },
            shown_type.of
        );
    }
    if value.is_char() {
        return "a letter".to_owned();
    }
    if value.is::<std::ops::Range<i64>>() || value.is::<std::ops::RangeInclusive<i64>>() {
        return "a range".to_owned();
    }
    if value.is_map() {
        return "a #{ … } group".to_owned();
    }
    if value.is_fnptr() {
        return "a function".to_owned();
    }
    // Type names of host objects are internal and are not shown.
    Value::from_script(value).map_or_else(|| "something that is no number or text".to_owned(), |value| value.noun())
}

/// Shows a script value; `None` for a blank and for values that cannot be shown.
pub fn show(value: &Dynamic, style: &Style) -> Option<String> {
    if let Some(spread) = value.read_lock::<Spread>() {
        return Some(format!("{} ± {}", style.show(spread.middle), style.show(spread.half)));
    }
    if value.is_unit() || value.is::<Blank>() {
        return None;
    }
    if let Some(shown_type) = shown_type_of(value) {
        return (shown_type.show)(value, style);
    }
    Value::from_script(value).map(|value| value.show(style))
}

/// Refuses a number that is not finite, which the script engine's plain decimals may become.
pub fn checked(value: Dynamic) -> Result<Dynamic, ScriptError> {
    match value.as_float() {
        Ok(decimal) if !decimal.is_finite() => Err(QuantityError::OutOfRange.into()),
        _ => Ok(value),
    }
}

#[cfg(test)]
mod tests;
