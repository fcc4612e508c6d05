//! One built-in function: its name, arguments, help, examples, source and code, declared together.
//!
//! Registration, help, completion, checks and tests are all derived from this one entry.

use super::notices::{Notices, caution_of};
use super::script_error::{Marked, ScriptError};
use super::value::Value;
use crate::quantity::{Area, Dimension, Length, Mass, Measure, Money, Quantity, Style, Time, number};
use rhai::{Dynamic, Engine};
use std::rc::Rc;

/// What an argument or a result must be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ParameterKind {
    /// A quantity of one dimension.
    Of(Dimension),
    /// A plain number.
    Number,
    /// A plain number, written as a share: `8 %` or `0.08`.
    Share,
    /// A whole number, zero or more.
    Count,
    /// A quantity of any dimension, or a plain number.
    Any,
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// A list of plain numbers, not empty.
    Numbers,
    /// A list of numbers or measures, not empty, such as a column of a table; items may be blank.
    List,
    /// Yes or no.
    Flag,
    /// Anything, a blank included.
    Anything,
}

/// A length.
pub const LENGTH: ParameterKind = ParameterKind::Of(Dimension::LENGTH);
/// An area.
pub const AREA: ParameterKind = ParameterKind::Of(Dimension::AREA);
/// A weight.
pub const MASS: ParameterKind = ParameterKind::Of(Dimension::MASS);
/// A time.
pub const TIME: ParameterKind = ParameterKind::Of(Dimension::TIME);
/// An amount of money.
pub const MONEY: ParameterKind = ParameterKind::Of(Dimension::MONEY);

impl ParameterKind {
    /// The words for it in help and errors, with an article.
    pub fn noun(self) -> String {
        match self {
            Self::Of(dimension) => dimension.noun(),
            Self::Number | Self::Share => "a plain number".to_owned(),
            Self::Count => "a whole number, zero or more".to_owned(),
            Self::Any => "a number or a measure".to_owned(),
            Self::OneOf(words) => words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(" or "),
            Self::Numbers => "a list of plain numbers such as [6, 5]".to_owned(),
            Self::List => "a list of numbers or measures".to_owned(),
            Self::Flag => "a yes or no".to_owned(),
            Self::Anything => "anything".to_owned(),
        }
    }

    fn accepts(self, value: &Value) -> bool {
        let number = |value: &Value| value.quantity().is_some_and(|q| q.dimension().is_number());
        match self {
            Self::Of(dimension) => value.quantity().is_some_and(|q| q.dimension() == dimension),
            Self::Number | Self::Share => number(value),
            Self::Count => count(value).is_some(),
            Self::Any => value.quantity().is_some(),
            Self::OneOf(words) => matches!(value, Value::Text(text) if words.contains(&text.as_str())),
            Self::Numbers => matches!(value, Value::List(list) if !list.is_empty() && list.iter().all(number)),
            Self::List => matches!(value, Value::List(list) if !list.is_empty() && list.iter().all(is_item)),
            Self::Flag => matches!(value, Value::Flag(_)),
            Self::Anything => true,
        }
    }
}

/// Whether a value may be an item of a list of numbers or measures.
fn is_item(value: &Value) -> bool {
    *value == Value::Blank || value.quantity().is_some()
}

/// The script engine does not check plain decimals for overflow, so an infinity can arrive here.
fn is_finite(value: &Value) -> bool {
    match value {
        Value::List(list) => list.iter().all(is_finite),
        value => value.quantity().is_none_or(|quantity| quantity.steps().is_finite()),
    }
}

fn count(value: &Value) -> Option<i64> {
    let plain = value.quantity()?.to_number().ok()?;
    number::whole(plain).filter(|whole| *whole >= 0)
}

/// One parameter of a function.
#[derive(Clone, Copy, Debug)]
pub struct Parameter {
    /// The name, as help and errors show it.
    pub name: &'static str,
    /// The kind of value it accepts.
    pub kind: ParameterKind,
    /// The default, as help shows it; only the last parameters may have one.
    pub default: Option<&'static str>,
}

impl Parameter {
    /// A parameter that must be given.
    pub const fn new(name: &'static str, kind: ParameterKind) -> Self {
        Self { name, kind, default: None }
    }

    /// A parameter that may be left out.
    pub const fn with_default(name: &'static str, kind: ParameterKind, default: &'static str) -> Self {
        Self { name, kind, default: Some(default) }
    }
}

/// An example and its result; tests run it.
#[derive(Clone, Copy, Debug)]
pub struct Example {
    /// The text as typed.
    pub typed: &'static str,
    /// The result as shown.
    pub shown: &'static str,
}

/// The formula of a function, for help.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Formula {
    /// A sum over the parameter names that could be typed on a page.
    Sum(&'static str),
    /// Words, where no sum expresses it: a table, a choice.
    Words(&'static str),
    /// None, because the summary says it all.
    None,
}

impl Formula {
    /// The sum or the words, if any.
    pub fn text(self) -> Option<&'static str> {
        match self {
            Self::Sum(text) | Self::Words(text) => Some(text),
            Self::None => None,
        }
    }
}

/// The arguments of one call, already checked against the entry.
#[derive(Debug)]
pub struct Arguments<'c> {
    values: &'c [Value],
    parameters: &'static [Parameter],
}

impl Arguments<'_> {
    /// The argument as passed; `None` if it was left out.
    pub fn get(&self, index: usize) -> Option<&Value> {
        self.values.get(index)
    }

    /// The name of the parameter at `index`.
    pub fn name(&self, index: usize) -> &'static str {
        self.parameters.get(index).map_or("", |parameter| parameter.name)
    }

    /// The index of the parameter called `name`.
    pub fn named(&self, name: &str) -> Option<usize> {
        self.parameters.iter().position(|parameter| parameter.name == name)
    }

    /// The first quantity passed for a parameter of this kind.
    pub fn first_of(&self, kind: ParameterKind) -> Option<Quantity> {
        let arguments = self.values.iter().zip(self.parameters);
        arguments.filter(|(_, parameter)| parameter.kind == kind).find_map(|(value, _)| value.quantity())
    }

    /// A quantity of any dimension.
    pub fn quantity(&self, index: usize) -> Result<Quantity, ScriptError> {
        self.get(index).and_then(Value::quantity).ok_or_else(|| ScriptError::new("a measure is missing here"))
    }

    fn measure<K>(&self, index: usize) -> Result<Measure<K>, ScriptError>
    where
        Measure<K>: TryFrom<Quantity, Error = crate::quantity::QuantityError>,
    {
        Ok(self.quantity(index)?.try_into()?)
    }

    /// A length.
    pub fn length(&self, index: usize) -> Result<Length, ScriptError> {
        self.measure(index)
    }

    /// An area.
    pub fn area(&self, index: usize) -> Result<Area, ScriptError> {
        self.measure(index)
    }

    /// A mass.
    pub fn mass(&self, index: usize) -> Result<Mass, ScriptError> {
        self.measure(index)
    }

    /// A time.
    pub fn time(&self, index: usize) -> Result<Time, ScriptError> {
        self.measure(index)
    }

    /// An amount of money.
    pub fn money(&self, index: usize) -> Result<Money, ScriptError> {
        self.measure(index)
    }

    /// A plain number.
    pub fn number(&self, index: usize) -> Result<f64, ScriptError> {
        Ok(self.quantity(index)?.to_number()?)
    }

    /// A whole number.
    pub fn count(&self, index: usize) -> Result<i64, ScriptError> {
        self.get(index).and_then(count).ok_or_else(|| ScriptError::new("a whole number is missing here"))
    }

    /// A word.
    pub fn text(&self, index: usize) -> Result<&str, ScriptError> {
        match self.get(index) {
            Some(Value::Text(text)) => Ok(text),
            _ => Err(ScriptError::new("a word in quotes is missing here")),
        }
    }

    /// A yes or no.
    pub fn flag(&self, index: usize) -> Result<bool, ScriptError> {
        match self.get(index) {
            Some(Value::Flag(flag)) => Ok(*flag),
            _ => Err(ScriptError::new("a yes or no is missing here")),
        }
    }

    /// The items of a list.
    pub fn items(&self, index: usize) -> Result<&[Value], ScriptError> {
        match self.get(index) {
            Some(Value::List(list)) => Ok(list),
            _ => Err(ScriptError::new("a list is missing here")),
        }
    }

    /// A list of plain numbers.
    pub fn numbers(&self, index: usize) -> Result<Vec<f64>, ScriptError> {
        let Some(Value::List(list)) = self.get(index) else {
            return Err(ScriptError::new("a list of numbers is missing here"));
        };
        list.iter().map(|value| Ok(value.quantity().unwrap_or(Quantity::number(f64::NAN)).to_number()?)).collect()
    }
}

/// The code of a function: pure, and total over its arguments.
pub type Code = fn(&Arguments<'_>, &Style) -> Result<Value, ScriptError>;

/// A built-in function.
#[derive(Clone, Copy, Debug)]
pub struct Function {
    /// The name it is called by.
    pub name: &'static str,
    /// The topic it is listed under.
    pub topic: &'static str,
    /// Its arguments, in order.
    pub parameters: &'static [Parameter],
    /// The kind of its result.
    pub result: ParameterKind,
    /// Its formula, for help.
    pub formula: Formula,
    /// One line of help.
    pub summary: &'static str,
    /// Examples; tests run them.
    pub examples: &'static [Example],
    /// Where the rule comes from: a published source, or "common practice, no source".
    pub source: &'static str,
    /// Its code, called by [`Self::call`].
    pub code: Code,
}

impl Function {
    /// How a call is written, defaults included: `gathered_flat(finished, fullness)`.
    pub fn signature(&self) -> String {
        let names: Vec<String> = self
            .parameters
            .iter()
            .map(|p| p.default.map_or_else(|| p.name.to_owned(), |default| format!("{} = {default}", p.name)))
            .collect();
        format!("{}({})", self.name, names.join(", "))
    }

    /// Calls it, after checking every argument against its parameter.
    pub fn call(&self, values: &[Value], style: &Style) -> Result<Value, ScriptError> {
        for (index, (value, parameter)) in values.iter().zip(self.parameters).enumerate() {
            if !parameter.kind.accepts(value) {
                return Err(self.wrong_argument(index, parameter, value));
            }
            if !is_finite(value) {
                return Err(ScriptError::new(format!(
                    "{} in {} is too large to reckon with",
                    parameter.name, self.name
                ))
                .marking(Marked::Argument(index)));
            }
        }
        (self.code)(&Arguments { values, parameters: self.parameters }, style)
    }

    /// The error of an argument that is of another kind than its parameter.
    pub(crate) fn wrong_argument(&self, index: usize, parameter: &Parameter, value: &Value) -> ScriptError {
        let given = match (parameter.kind, value) {
            (ParameterKind::OneOf(_), Value::Text(text)) => format!("\"{text}\""),
            (ParameterKind::List, Value::List(list)) => match list.iter().find(|item| !is_item(item)) {
                Some(item) => format!("a list with {} in it", item.noun()),
                None => "an empty list".to_owned(),
            },
            (ParameterKind::Count, value) if ParameterKind::Number.accepts(value) => value.show(&Style::default()),
            _ => value.noun(),
        };
        let needed = parameter.kind.noun();
        let bare = value.quantity().filter(|quantity| quantity.dimension().is_number());
        let hint = match (parameter.kind, bare) {
            (LENGTH, Some(bare)) => {
                let bare = Style::default().show(bare);
                format!("give it a unit: {bare} in or {bare} cm")
            }
            _ => format!("type {}", self.signature()),
        };
        ScriptError::new(format!("{} in {} must be {needed}, not {given}", parameter.name, self.name))
            .hinting(hint)
            .marking(Marked::Argument(index))
    }

    /// Registers it on an engine, once for each number of arguments it accepts.
    pub(super) fn register(&'static self, engine: &mut Engine, style: Style, notices: &Notices) {
        let least = self.parameters.iter().filter(|parameter| parameter.default.is_none()).count();
        for given in least..=self.parameters.len() {
            let types = vec![std::any::TypeId::of::<Dynamic>(); given];
            let notices = Rc::clone(notices);
            engine.register_raw_fn(self.name, types, move |_, arguments| {
                let values = arguments.iter().enumerate().map(|(index, argument)| {
                    Value::from_script(argument).ok_or_else(|| {
                        let noun = super::value::noun(argument);
                        let message = format!("{} cannot reckon with {noun}", self.name);
                        ScriptError::new(message).marking(Marked::Argument(index))
                    })
                });
                let values: Vec<Value> = values.collect::<Result<_, _>>()?;
                let answer = self.call(&values, &style)?;
                notices.borrow_mut().extend(caution_of(self.name, &values));
                Ok(answer.into_script())
            });
        }
    }
}

#[cfg(test)]
mod tests;
