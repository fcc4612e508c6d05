//! The kinds of answer an input takes: what follows from a kind alone, without workshop and script.
//!
//! Answers are checked in `answers/answering.rs`; examples and offers are in `answers/by_kind.rs`.

use crate::quantity::{Dimension, Quantity, Style, Tape, Unit, number};
use crate::recipe::contract::range::Range;
use crate::ticket::TicketValue;
use serde::{Deserialize, Serialize};

/// What kind of answer an input takes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum InputKind {
    /// A measure of one dimension.
    Measure(Dimension),
    /// A plain number.
    Number,
    /// A whole number.
    Count,
    /// One of several words.
    Choice(Vec<String>),
    /// Yes or no.
    YesNo,
    /// Any text.
    Text,
    /// How something is gathered: a ratio, passes, or a trial's name.
    Gathers,
    /// Cloth or roll goods.
    Cloth,
    /// A notion, such as elastic, tape or hooks.
    Notion,
    /// Several measures or numbers.
    List,
}

impl InputKind {
    /// Returns the words for the kind.
    pub fn noun(&self) -> String {
        match self {
            Self::Measure(dimension) => dimension.noun(),
            Self::Number => "a plain number".to_owned(),
            Self::Count => "a whole number".to_owned(),
            Self::Choice(words) => words.join(" or "),
            Self::YesNo => "yes or no".to_owned(),
            Self::Text => "a text".to_owned(),
            Self::Gathers => "a ratio such as 2, passes such as [6, 5], or the name of a trial".to_owned(),
            Self::Cloth => "a cloth by name, or one such as any 45 in at $6/yd".to_owned(),
            Self::Notion => "elastic, tape, hook …: name it, or any".to_owned(),
            Self::List => "a list".to_owned(),
        }
    }

    /// Returns the words for the kind, with examples in the workshop's tape and currency.
    pub(super) fn noun_on(&self, style: &Style) -> String {
        match self {
            Self::Cloth => format!("a cloth by name, or one such as {}", unnamed_cloth(style)),
            kind => kind.noun(),
        }
    }

    /// Returns the dimension of the ends of its range; `None` if it has no range. A list takes that of `first`, its
    /// first end.
    pub(super) fn range_dimension(&self, first: impl FnOnce() -> Option<Dimension>) -> Option<Dimension> {
        match self {
            Self::Measure(dimension) => Some(*dimension),
            Self::Number | Self::Count | Self::Gathers => Some(Dimension::NUMBER),
            Self::List => Some(first().unwrap_or(Dimension::NUMBER)),
            Self::Choice(_) | Self::YesNo | Self::Text | Self::Cloth | Self::Notion => None,
        }
    }

    /// Returns whether a recipe should state a range for it.
    pub(in crate::recipe) fn takes_range(&self) -> bool {
        self.range_dimension(|| None).is_some()
    }

    /// Returns the dimension of its measures, in which a number without a unit may be meant.
    pub(in crate::recipe) fn measured(&self, range: Option<Range>) -> Option<Dimension> {
        match self {
            Self::Measure(dimension) => Some(*dimension),
            Self::List => range.map(|range| range.least.dimension()),
            _ => None,
        }
    }

    /// Returns whether it is answered by an expression, which may name cells of a page; other kinds are answered by
    /// words, which are never evaluated.
    pub fn reads_expression(&self) -> bool {
        match self {
            Self::Measure(_) | Self::Number | Self::Count | Self::List | Self::Gathers => true,
            Self::Choice(_) | Self::YesNo | Self::Text | Self::Cloth | Self::Notion => false,
        }
    }

    /// Returns the words of a choice.
    pub fn choices(&self) -> Option<&[String]> {
        match self {
            Self::Choice(words) => Some(words),
            _ => None,
        }
    }

    /// Returns whether it is answered by a name that the recipe or the workshop knows.
    pub(in crate::recipe) fn is_named(&self) -> bool {
        matches!(self, Self::Choice(_) | Self::Cloth | Self::Notion | Self::Gathers)
    }

    /// Returns whether it is answered by goods.
    pub(in crate::recipe) fn is_goods(&self) -> bool {
        matches!(self, Self::Cloth | Self::Notion)
    }

    /// Returns whether a value may be its usual answer.
    pub(super) fn may_be(&self, value: &TicketValue) -> bool {
        let measures = |dimension: Dimension| value.quantity().is_some_and(|given| given.dimension() == dimension);
        match (self, value) {
            (Self::Measure(dimension), _) => measures(*dimension),
            (Self::Choice(words), TicketValue::Text(text)) => words.contains(text),
            (Self::YesNo, TicketValue::Flag(_))
            | (Self::Text | Self::Cloth | Self::Notion, TicketValue::Text(_))
            | (Self::Gathers, TicketValue::Text(_) | TicketValue::List(_))
            | (Self::List, TicketValue::List(_)) => true,
            (Self::Number | Self::Count | Self::Gathers, value) => {
                value.quantity().is_some_and(|given| given.dimension().is_number())
            }
            _ => false,
        }
    }

    /// Returns expressions for its smallest and largest answers, or for each answer if there are few.
    pub(in crate::recipe) fn corners(&self, range: Option<Range>, style: &Style) -> Vec<String> {
        match (self, range) {
            (Self::Choice(words), _) => words.clone(),
            (Self::YesNo, _) => vec!["yes".to_owned(), "no".to_owned()],
            (Self::Text, _) => vec!["a text".to_owned()],
            (Self::Cloth, _) => [
                "any_cloth(90 cm)",
                "any_cloth(150 cm).repeats(64 cm, \"half drop\").napped()",
                "any_roll(6 in, 25 yd)",
            ]
            .map(str::to_owned)
            .to_vec(),
            (Self::Notion, _) => vec!["any_notion()".to_owned()],
            (Self::List, Some(range)) => {
                let (least, most) = (exact(range.least, style), exact(range.most, style));
                vec![format!("[{least}]"), format!("[{most}, {least}]")]
            }
            (_, Some(range)) => vec![exact(range.least, style), exact(range.most, style)],
            _ => Vec::new(),
        }
    }

    /// Returns an expression for an answer that lies a part of the way from its smallest to its largest; of words, one of
    /// them. `None` where there is nothing between.
    pub(in crate::recipe) fn between(&self, range: Option<Range>, part: f64, style: &Style) -> Option<String> {
        match (self, range) {
            (Self::Count, Some(range)) => {
                let (least, most) = (range.least.steps(), range.most.steps());
                Some(exact(Quantity::number((least + part * (most - least)).round()), style))
            }
            (Self::Measure(_) | Self::Number | Self::Gathers, Some(range)) => {
                let (least, most) = (range.least.steps(), range.most.steps());
                // Small sizes are the likelier ones where the largest is many times the smallest.
                let steps = if least > 0.0 { least * (most / least).powf(part) } else { least + part * (most - least) };
                let between = Quantity::from_steps(steps, range.least.dimension()).liking(range.least.liked());
                Some(about(between, style))
            }
            _ => {
                let ends = self.corners(range, style);
                let at = number::nearest_whole((part * number::from_count(ends.len())).floor())?;
                ends.get(number::count(at)?).cloned()
            }
        }
    }

    /// The words that declare an input, each with its kind and a line of help; not `choice`, which also takes its
    /// words.
    pub(super) const DECLARED: [(&'static str, Self, &'static str); 13] = [
        ("length", Self::Measure(Dimension::LENGTH), "asks for a length; likewise area, mass, time, money"),
        ("area", Self::Measure(Dimension::AREA), "asks for an area"),
        ("mass", Self::Measure(Dimension::MASS), "asks for a weight"),
        ("time", Self::Measure(Dimension::TIME), "asks for a time"),
        ("money", Self::Measure(Dimension::MONEY), "asks for an amount of money"),
        ("number", Self::Number, "asks for a plain number"),
        ("count", Self::Count, "asks for a whole number"),
        ("yes_no", Self::YesNo, "asks for yes or no"),
        ("text", Self::Text, "asks for words"),
        ("gathers", Self::Gathers, "asks for a ratio, passes or a trial"),
        ("cloth", Self::Cloth, "asks for cloth or roll goods"),
        ("notion", Self::Notion, "asks for elastic, tape, hooks and the like"),
        ("list", Self::List, "asks for several measures"),
    ];
}

/// Returns an example of a cloth without a name, as typed.
pub(in crate::recipe) fn unnamed_cloth(style: &Style) -> String {
    match style.tape {
        Tape::Inch => format!("any 45 in at {}6/yd", style.currency),
        Tape::Metric => format!("any 112 cm at {}6/m", style.currency),
    }
}

/// Formats a quantity as somebody would type it, with two decimals at most.
fn about(quantity: Quantity, style: &Style) -> String {
    if quantity.dimension() == Unit::Inch.dimension() {
        let unit = quantity.liked().length.unwrap_or(Tape::Metric.unit());
        return format!("{:.2} {}", quantity.count_of(unit).unwrap_or_default(), unit.symbol());
    }
    if quantity.dimension().is_number() {
        return format!("{:.2}", quantity.steps());
    }
    exact(quantity, style)
}

/// Formats a quantity as an expression that evaluates to exactly that quantity.
fn exact(quantity: Quantity, style: &Style) -> String {
    let base = match quantity.dimension() {
        d if d.is_number() => return format!("{}", quantity.steps()),
        d if d == Unit::Inch.dimension() => {
            let unit = quantity.liked().length.unwrap_or(Tape::Metric.unit());
            return format!("{} {}", quantity.count_of(unit).unwrap_or_default(), unit.symbol());
        }
        _ => Style { plain: true, ..*style },
    };
    base.show(quantity).replace("about ", "")
}

#[cfg(test)]
mod tests;
