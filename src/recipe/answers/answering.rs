//! Checks one answer against one input: its kind, its range, its names.
//!
//! Whole orders and single questions both check their answers here, so that they give the same messages. Never here:
//! which inputs are asked, and what replaces a missing answer.

use crate::engine::{ScriptError, value};
use crate::quantity::{Dimension, Quantity, Style, Tape, number};
use crate::recipe::answers::answer::InputAnswer;
use crate::recipe::answers::evaluate::Evaluate;
use crate::recipe::answers::unnamed_goods::{UnnamedError, UnnamedReader};
use crate::recipe::contract::arguments::argument;
use crate::recipe::contract::input::Input;
use crate::recipe::contract::input_kind::{InputKind, unnamed_cloth};
use crate::recipe::contract::input_words::{plain, scripted};
use crate::recipe::host::gathers::Gathers;
use crate::recipe::host::material_words::Goods;
use crate::ticket::TicketValue;
use crate::workshop::{Pass, Trial, Workshop};
use rhai::{Dynamic, ImmutableString};

/// An answer as it was given.
#[derive(Clone, Debug)]
pub(in crate::recipe) enum RawAnswer {
    /// Text typed on a command line, at a question or in a file.
    Typed(String),
    /// Text of goods without a name, with the values of expressions in it.
    Goods(String, Vec<(String, Dynamic)>),
    /// A script value, from an example or a page's cell.
    Script(Dynamic),
    /// An answer already checked.
    Checked(CheckedAnswer),
}

impl From<InputAnswer> for RawAnswer {
    fn from(answer: InputAnswer) -> Self {
        match answer {
            InputAnswer::Typed(typed) => Self::Typed(typed),
            InputAnswer::Goods(typed, known) => {
                Self::Goods(typed, known.into_iter().map(|(sum, value)| (sum, scripted(&value))).collect())
            }
            InputAnswer::Value(value) => Self::Script(scripted(&value)),
        }
    }
}

impl RawAnswer {
    /// Returns the words, typed or as a script's text; `None` for other values.
    pub(in crate::recipe) fn words(&self) -> Option<String> {
        match self {
            Self::Checked(_) => None,
            Self::Typed(text) | Self::Goods(text, _) => Some(text.trim().to_owned()),
            Self::Script(value) => value.read_lock::<ImmutableString>().map(|text| text.trim().to_owned()),
        }
    }
}

/// An answer as scripts read it.
#[derive(Clone, Debug)]
pub(in crate::recipe) enum CheckedAnswer {
    Plain(TicketValue),
    Gathers(Gathers),
    Goods(Goods),
}

impl CheckedAnswer {
    /// Returns the answer as plain data.
    pub(in crate::recipe) fn value(&self) -> TicketValue {
        match self {
            Self::Plain(value) => value.clone(),
            Self::Goods(goods) => TicketValue::Text(goods.material.name.clone()),
            Self::Gathers(gathers) if gathers.source == "typed" => match gathers.passes.as_slice() {
                [one] => TicketValue::Quantity(Quantity::number(*one)),
                passes => TicketValue::List(
                    passes.iter().map(|pass| TicketValue::Quantity(Quantity::number(*pass))).collect(),
                ),
            },
            Self::Gathers(gathers) => TicketValue::Text(gathers.source.clone()),
        }
    }
}

/// The context in which answers are checked.
#[derive(Clone, Copy)]
pub(in crate::recipe) struct Check<'c> {
    pub(in crate::recipe) workshop: &'c Workshop,
    /// Evaluates measures, numbers, lists and ratios.
    pub(in crate::recipe) evaluate: Evaluate<'c>,
    /// Evaluates goods written as in a script, `any_cloth(45 in)`.
    pub(in crate::recipe) evaluate_goods: Evaluate<'c>,
    pub(in crate::recipe) style: &'c Style,
}

/// A checked answer, or the error in it.
pub(in crate::recipe) type CheckResult<T> = Result<T, ScriptError>;

impl Check<'_> {
    /// Checks an answer to an input.
    pub(in crate::recipe) fn answer(&self, input: &Input, answer: &RawAnswer) -> CheckResult<CheckedAnswer> {
        if let RawAnswer::Checked(answered) = answer {
            return Ok(answered.clone());
        }
        match &input.kind {
            InputKind::Gathers => self.gathers(input, answer).map(CheckedAnswer::Gathers),
            InputKind::Cloth => self.cloth_or_notion(input, answer, false).map(CheckedAnswer::Goods),
            InputKind::Notion => self.cloth_or_notion(input, answer, true).map(CheckedAnswer::Goods),
            InputKind::Choice(words) => self.choice(input, answer, words),
            InputKind::YesNo => yes_no(answer),
            InputKind::Text => text(answer),
            _ => self.measured(input, answer),
        }
    }

    /// Checks the number of garments, a whole number from 1 to 10000.
    pub(in crate::recipe) fn garments(&self, answer: &RawAnswer) -> CheckResult<i64> {
        let value = evaluated(self.evaluate, answer)?;
        let count = argument("the order", "the number of garments", 0, &value).count(1)?;
        if count <= 10_000 { Ok(count) } else { Err(ScriptError::new("more than 10000 garments in one order")) }
    }

    fn measured(&self, input: &Input, answer: &RawAnswer) -> CheckResult<CheckedAnswer> {
        let value = evaluated(self.evaluate, answer)?;
        let plain = plain(&value).ok_or_else(|| ScriptError::new(must_be(input, &value)))?;
        let values = match (&input.kind, plain.clone()) {
            (InputKind::List, TicketValue::List(list)) => list,
            (_, one) => vec![one],
        };
        for one in &values {
            let quantity = one.quantity().ok_or_else(|| ScriptError::new(must_be(input, &value)))?;
            self.within(input, quantity, &value)?;
        }
        match (&input.kind, plain) {
            (InputKind::Count, plain) => {
                let quantity = plain.quantity().map_or(f64::NAN, Quantity::steps);
                let whole = number::whole(quantity).ok_or_else(|| ScriptError::new(must_be(input, &value)))?;
                Ok(CheckedAnswer::Plain(TicketValue::Whole(whole)))
            }
            (InputKind::List, TicketValue::List(list)) => Ok(CheckedAnswer::Plain(TicketValue::List(list))),
            (InputKind::List, one) => Ok(CheckedAnswer::Plain(TicketValue::List(vec![one]))),
            (_, plain) => Ok(CheckedAnswer::Plain(plain)),
        }
    }

    /// Checks dimension and range.
    fn within(&self, input: &Input, quantity: Quantity, value: &Dynamic) -> CheckResult<()> {
        let dimension = match &input.kind {
            InputKind::List => input.kind.measured(input.range).unwrap_or(quantity.dimension()),
            kind => kind.measured(None).unwrap_or(Dimension::NUMBER),
        };
        if quantity.dimension() != dimension {
            let problem = ScriptError::new(must_be(input, value));
            let shown = self.style.show(quantity);
            let units = if quantity.dimension().is_number() { units_for(dimension, self.style) } else { Vec::new() };
            let units: Vec<String> = units.iter().map(|unit| unit.replace('#', &shown)).collect();
            let hint = (!units.is_empty()).then(|| format!("give it a unit: {}", units.join(" or ")));
            return Err(problem.with_hint(hint));
        }
        match input.range {
            Some(range) if !range.holds(quantity) => Err(ScriptError::new(format!(
                "{} is outside what the recipe is made for, {}",
                self.style.show(quantity).trim_start_matches("≈ "),
                range.show(self.style)
            ))),
            _ => Ok(()),
        }
    }

    fn gathers(&self, input: &Input, answer: &RawAnswer) -> CheckResult<Gathers> {
        let words = answer.words().unwrap_or_default();
        if let Some(trial) = self.workshop.trials.find(&words) {
            return self.checked_gathers(input, trial_of(input, trial));
        }
        let evaluated = match answer.words() {
            Some(words) => evaluated(self.evaluate, &RawAnswer::Typed(words)),
            None => evaluated(self.evaluate, answer),
        };
        // Text that looks like a name and does not evaluate was meant as a trial.
        let reads_like_a_name = words.starts_with(char::is_alphabetic) && !words.contains(['+', '*', '/', '(', '[']);
        let value = match evaluated {
            Err(_) if reads_like_a_name => return Err(self.no_trial(input, &words)),
            evaluated => evaluated?,
        };
        if let Some(name) = RawAnswer::Script(value.clone()).words() {
            let trial = self.workshop.trials.find(&name).ok_or_else(|| self.no_trial(input, &name))?;
            return self.checked_gathers(input, trial_of(input, trial));
        }
        let wrong = || ScriptError::new(must_be(input, &value));
        let plain = plain(&value).ok_or_else(wrong)?;
        let passes: Option<Vec<f64>> = match &plain {
            TicketValue::List(list) => {
                list.iter().map(|pass| pass.quantity().and_then(|pass| pass.to_number().ok())).collect()
            }
            one => one.quantity().and_then(|ratio| ratio.to_number().ok()).map(|ratio| vec![ratio]),
        };
        let passes = passes.filter(|passes| !passes.is_empty()).ok_or_else(wrong)?;
        let gathers =
            Gathers { input: input.name.clone(), passes, source: "typed".to_owned(), piece: None, overlap: None };
        self.checked_gathers(input, gathers)
    }

    fn choice(&self, input: &Input, answer: &RawAnswer, words: &[String]) -> CheckResult<CheckedAnswer> {
        let answer = answer.words().ok_or_else(|| ScriptError::new("a text is needed"))?;
        if words.contains(&answer) {
            return Ok(CheckedAnswer::Plain(TicketValue::Text(answer)));
        }
        let problem = ScriptError::new(format!("“{answer}” is none of {}", words.join(", ")));
        Err(problem.with_hint(self.near(input, &answer).map(|near| format!("did you mean “{near}”?"))))
    }

    fn no_trial(&self, input: &Input, name: &str) -> ScriptError {
        let near = self.near(input, name);
        let hint = near.map_or_else(
            || "type a ratio such as 2, or passes such as [6, 5]".to_owned(),
            |near| format!("did you mean “{near}”?"),
        );
        ScriptError::new(format!("there is no trial “{name}”")).hinting(hint)
    }

    fn checked_gathers(&self, input: &Input, gathers: Gathers) -> CheckResult<Gathers> {
        if let Some(pass) = gathers.passes.iter().find(|pass| **pass < 1.0) {
            let pass = self.style.show_number(*pass);
            let problem = ScriptError::new(format!("a ratio of {pass} is too small; a gathered edge needs 1 or more"));
            return Err(
                problem.hinting("the ratio is flat length over finished length: 2 is twice as much cloth as seam")
            );
        }
        crate::textile::gathering::passes_together(&gathers.passes)
            .map_err(|error| ScriptError::of(&error, self.style))?;
        let ratio = Quantity::number(gathers.ratio());
        match input.range {
            Some(range) if !range.holds(ratio) => Err(ScriptError::new(format!(
                "a ratio of {} is outside what the recipe is made for, {}",
                self.style.show(ratio),
                range.show(self.style)
            ))),
            _ => Ok(gathers),
        }
    }

    fn cloth_or_notion(&self, input: &Input, answer: &RawAnswer, notion: bool) -> CheckResult<Goods> {
        let words = answer.words();
        if let Some(material) = words.as_deref().and_then(|name| self.workshop.materials.find(name)) {
            let is_notion = !material.kind.is_cut();
            if is_notion != notion {
                let (is, needed) = if notion { ("a cloth", "a notion") } else { ("a notion", "a cloth") };
                return Err(ScriptError::new(format!("“{}” is {is}; {needed} is needed", material.name)));
            }
            return Ok(Goods::listed(material).answering(&input.name, &input.question));
        }
        let value = match words {
            None => evaluated(self.evaluate_goods, answer)?,
            Some(words) if words.is_empty() => return Err(ScriptError::new("nothing is written here")),
            Some(words) => {
                let known: &[(String, Dynamic)] = if let RawAnswer::Goods(_, known) = answer { known } else { &[] };
                let (reading, evaluate) = (self.workshop.settings.reading(), self.evaluate);
                let reader = UnnamedReader { reading, evaluate, known };
                match reader.read(&words, notion) {
                    Some(Ok(goods)) => return Ok(goods.answering(&input.name, &input.question)),
                    Some(Err(error)) => return Err(self.not_as_unnamed(&words, notion, error)),
                    None if words.contains('(') => evaluated(self.evaluate_goods, &RawAnswer::Typed(words))?,
                    None => return Err(self.no_material(input, &words, notion)),
                }
            }
        };
        match value.clone().try_cast::<Goods>() {
            Some(goods) if goods.notion == notion => Ok(goods.answering(&input.name, &input.question)),
            _ => Err(ScriptError::new(must_be(input, &value))),
        }
    }

    /// Returns the error for goods such as `any 45 inn at $6`, in which no width and price follow `any`.
    fn not_as_unnamed(&self, words: &str, notion: bool, error: UnnamedError) -> ScriptError {
        let wrong = match error {
            UnnamedError::Unreadable => format!("“{words}” cannot be read"),
            UnnamedError::Wrong(error) => format!("“{words}”: {}", error.message),
            UnnamedError::Ended(error) => return ScriptError::new(error.message).with_hint(error.hint),
        };
        let like = if notion {
            format!("type any, or with a price any {}0.50/yd", self.style.currency)
        } else {
            format!("type it like {}", unnamed_cloth(self.style))
        };
        ScriptError::new(wrong).hinting(like)
    }

    fn no_material(&self, input: &Input, name: &str, notion: bool) -> ScriptError {
        let problem = ScriptError::new(format!("no {} called {name}", if notion { "notion" } else { "cloth" }));
        let hint = self.near(input, name).map_or_else(
            || {
                if notion {
                    format!("type any, or with a price any {}0.50/yd", self.style.currency)
                } else {
                    format!("give its width and price: {}", unnamed_cloth(self.style))
                }
            },
            |near| format!("did you mean “{near}”?"),
        );
        problem.hinting(hint)
    }
}

/// Returns the value of an answer as a script value.
pub(in crate::recipe) fn evaluated(evaluate: Evaluate<'_>, answer: &RawAnswer) -> CheckResult<Dynamic> {
    match answer {
        RawAnswer::Script(value) => Ok(value.clone()),
        RawAnswer::Checked(answered) => Ok(scripted(&answered.value())),
        RawAnswer::Typed(text) | RawAnswer::Goods(text, _) if text.trim().is_empty() => {
            Err(ScriptError::new("nothing is written here"))
        }
        RawAnswer::Typed(text) | RawAnswer::Goods(text, _) => evaluate(text)
            .map_err(|error| ScriptError::new(format!("“{}”: {}", text.trim(), error.message)).with_hint(error.hint)),
    }
}

/// Returns the usual units of a dimension, each behind a `#` that stands for the number; those of the workshop's own
/// tape come first. Empty if a number needs no unit, or none is usual.
pub(in crate::recipe) fn units_for(dimension: Dimension, style: &Style) -> Vec<String> {
    let [inch, metric] = match dimension {
        Dimension::LENGTH => ["# in", "# cm"],
        Dimension::AREA => ["# in^2", "# cm^2"],
        Dimension::MASS => ["# oz", "# g"],
        Dimension::TIME => return vec!["# min".to_owned(), "# h".to_owned()],
        Dimension::MONEY => return vec![format!("{}#", style.currency)],
        _ => return Vec::new(),
    };
    match style.tape {
        Tape::Inch => vec![inch.to_owned(), metric.to_owned()],
        Tape::Metric => vec![metric.to_owned(), inch.to_owned()],
    }
}

fn trial_of(input: &Input, trial: &Trial) -> Gathers {
    Gathers {
        input: input.name.clone(),
        passes: trial.passes.iter().map(Pass::ratio).collect(),
        source: trial.name.clone(),
        piece: trial.piece(),
        overlap: trial.overlap(),
    }
}

fn must_be(input: &Input, answer: &Dynamic) -> String {
    format!("{} is needed, not {}", input.kind.noun(), value::noun(answer))
}

fn yes_no(answer: &RawAnswer) -> CheckResult<CheckedAnswer> {
    let flag = match (answer, answer.words()) {
        (RawAnswer::Script(value), None) => value.as_bool().ok(),
        (_, words) => match words.unwrap_or_default().to_lowercase().as_str() {
            "yes" | "y" | "true" => Some(true),
            "no" | "n" | "false" => Some(false),
            _ => None,
        },
    };
    flag.map(|flag| CheckedAnswer::Plain(TicketValue::Flag(flag)))
        .ok_or_else(|| ScriptError::new("yes or no is needed"))
}

fn text(answer: &RawAnswer) -> CheckResult<CheckedAnswer> {
    answer
        .words()
        .map(|text| CheckedAnswer::Plain(TicketValue::Text(text)))
        .ok_or_else(|| ScriptError::new("a text is needed"))
}

#[cfg(test)]
mod tests;
