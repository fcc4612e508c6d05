//! What a recipe asks for: named, typed, bounded.

use crate::quantity::{Dimension, Liked, Quantity, Style, Tape};
use crate::ticket::TicketValue;
use serde::{Deserialize, Serialize};

/// The input every order has: how many garments.
pub(in crate::recipe) const PIECES: &str = "pieces";

/// The answer that every order may give: a row of the workshop's sizes, for body measures.
pub(in crate::recipe) const SIZE: &str = "size";

/// The answer that every order may give: how old the wearer is.
pub(in crate::recipe) const AGE: &str = "age";

/// The answer that every order may give: what the garment is for.
pub(in crate::recipe) const USE: &str = "use";

/// What a recipe cannot ask for, and what it is instead.
pub(in crate::recipe) const RESERVED: [(&str, &str); 4] = [
    (PIECES, "the number of garments, which every order has"),
    (SIZE, "a row of the workshop's sizes, which every order may name"),
    (AGE, "the age of the wearer, which every order may say"),
    (USE, "what the garment is for, which every order may say"),
];

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
    /// Any words.
    Text,
    /// How something is gathered: a ratio, passes, or a trial's name.
    Gathers,
    /// Cloth or roll goods.
    Cloth,
    /// Elastic, tape, hooks.
    Notion,
    /// Several measures or numbers.
    List,
}

impl InputKind {
    /// The words for it.
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
            Self::Notion => "a notion by name, or any".to_owned(),
            Self::List => "a list".to_owned(),
        }
    }

    /// Whether an answer lies between two ends.
    pub fn has_range(&self) -> bool {
        matches!(self, Self::Measure(_) | Self::Number | Self::Count | Self::Gathers)
    }
}

/// The least and the most an answer may be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Range {
    /// The least.
    pub least: Quantity,
    /// The most.
    pub most: Quantity,
}

impl Range {
    /// Whether a quantity of the same dimension lies within, the ends included.
    pub fn holds(&self, quantity: Quantity) -> bool {
        let within = |order: Result<std::cmp::Ordering, _>, beyond: std::cmp::Ordering| {
            order.is_ok_and(|order: std::cmp::Ordering| order != beyond)
        };
        within(quantity.compared(self.least), std::cmp::Ordering::Less)
            && within(quantity.compared(self.most), std::cmp::Ordering::Greater)
    }

    /// About the middle, on a whole unit where one lies within: something a person might type.
    pub fn middle(&self) -> Quantity {
        let middle = f64::midpoint(self.least.steps(), self.most.steps());
        let unit = self.least.liked().length.map_or(1.0, crate::quantity::Unit::steps);
        let whole = Quantity::from_steps((middle / unit).floor() * unit, self.least.dimension());
        let whole = whole.liking(self.least.liked());
        if self.holds(whole) { whole } else { self.most }
    }

    /// `30 cm to 600 cm`, and in brackets the same on the workshop's tape where that is the other one.
    pub fn show(&self, style: &Style) -> String {
        let own = format!("{} to {}", style.show(self.least), style.show(self.most));
        match (on_the_tape(self.least, style), on_the_tape(self.most, style)) {
            (None, None) => own,
            (least, most) => {
                let (least, most) = (least.unwrap_or(self.least), most.unwrap_or(self.most));
                format!("{own} ({} to {})", style.show(least), style.show(most))
            }
        }
    }
}

/// A length that likes the other tape, liking the workshop's.
fn on_the_tape(quantity: Quantity, style: &Style) -> Option<Quantity> {
    let unit = quantity.liked().length.filter(|_| quantity.dimension() == Dimension::LENGTH)?;
    let tape = style.tape.unit();
    (unit.system() != tape.system()).then(|| quantity.liking(Liked::unit(tape)))
}

/// A usual value, and in brackets the same on the workshop's tape where that is the other one.
fn usually(value: &TicketValue, style: &Style) -> String {
    let own = value.show(style);
    match value.quantity().and_then(|quantity| on_the_tape(quantity, style)) {
        Some(there) => format!("{own} ({})", style.show(there)),
        None => own,
    }
}

/// A cloth that has no name, as it is typed.
pub(in crate::recipe) fn unnamed_cloth(style: &Style) -> String {
    match style.tape {
        Tape::Inch => format!("any 45 in at {}6/yd", style.currency),
        Tape::Metric => format!("any 112 cm at {}6/m", style.currency),
    }
}

/// One input.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Input {
    /// Its name, as scripts and command lines write it.
    pub name: String,
    /// The question, in the maker's words.
    pub question: String,
    /// What kind of answer it takes.
    pub kind: InputKind,
    /// The usual answer; none where one must be given.
    pub usual: Option<TicketValue>,
    /// Its ends.
    pub range: Option<Range>,
    /// It may be left out.
    pub optional: bool,
    /// It is asked only if another input has this value.
    pub only_if: Option<(String, TicketValue)>,
    /// Left out, it is the same as another input.
    pub same_as: Option<String>,
    /// The body measure it is, which a size row may fill.
    pub body: Option<String>,
}

impl Input {
    /// An input of a kind, to be given by the person.
    pub fn new(name: &str, question: &str, kind: InputKind) -> Self {
        Self {
            name: name.to_owned(),
            question: question.to_owned(),
            kind,
            usual: None,
            range: None,
            optional: false,
            only_if: None,
            same_as: None,
            body: None,
        }
    }

    /// Whether the person must answer it, as far as the declaration alone tells.
    pub fn is_required(&self) -> bool {
        self.usual.is_none() && !self.optional && self.same_as.is_none()
    }

    /// What may be answered, in words: kind, ends, usual answer, and when it is asked.
    pub fn terms(&self, style: &Style) -> String {
        let mut terms = vec![self.bounds(style)];
        terms.extend(self.same_as.as_ref().map(|other| format!("else the same as {other}")));
        terms.extend(self.only_if.as_ref().map(|(other, value)| format!("only if {other} is {}", value.show(style))));
        if self.optional {
            terms.push("may be left out".to_owned());
        }
        terms.join("; ")
    }

    /// What may be answered once it is asked, in words: kind, ends, usual answer.
    pub(in crate::recipe) fn bounds(&self, style: &Style) -> String {
        let mut bounds = vec![match &self.kind {
            InputKind::Cloth => format!("a cloth by name, or one such as {}", unnamed_cloth(style)),
            kind => kind.noun(),
        }];
        bounds.extend(self.range.map(|range| range.show(style)));
        bounds.extend(self.body.as_ref().map(|measure| format!("body measure “{measure}”")));
        bounds.extend(self.usual.as_ref().map(|usual| format!("usually {}", usually(usual, style))));
        bounds.join("; ")
    }
}
