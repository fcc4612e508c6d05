//! What a value of a script can be, as far as its text tells.

use super::conditions::Condition;
use crate::quantity::Dimension;
use crate::recipe::contract::signatures::EntryOf;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// The most kinds that a value is followed in; beyond that it is not known.
const MOST_KINDS: usize = 6;

/// The most texts that are followed one by one.
const MOST_TEXTS: usize = 24;

/// A place in one of the files of a recipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Place {
    /// The number of the file: 0 is the recipe itself.
    pub(super) file: usize,
    /// The byte in its text.
    pub(super) at: usize,
}

/// How a plain number is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Form {
    /// A whole number.
    Whole,
    /// A number with decimals, which may still be whole.
    Decimal,
    /// One or the other.
    Either,
}

/// The texts that a value may be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Texts {
    /// Each of them; `None` if it may be any.
    pub(super) known: Option<BTreeSet<String>>,
    /// The input that it is the answer to, with all words of that choice.
    pub(super) choice: Option<(String, Rc<BTreeSet<String>>)>,
}

impl Texts {
    /// Any text.
    pub(super) const ANY: Self = Self { known: None, choice: None };

    /// One text.
    pub(super) fn one(text: &str) -> Self {
        Self { known: Some(BTreeSet::from([text.to_owned()])), choice: None }
    }

    fn join(self, other: Self) -> Self {
        let known = self.known.zip(other.known).map(|(mut one, two)| {
            one.extend(two);
            one
        });
        let choice = if self.choice == other.choice { self.choice } else { None };
        Self { known: known.filter(|known| known.len() <= MOST_TEXTS), choice }
    }
}

/// One kind of value.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Kind {
    /// A plain number; its value where it is written out.
    Number(Form, Option<f64>),
    /// A measure with a dimension.
    Measure(Dimension),
    /// A text.
    Text(Texts),
    /// Yes or no.
    Flag,
    /// Nothing, `()`.
    Nothing,
    /// A letter.
    Letter,
    /// A range of whole numbers.
    Range,
    /// A list of such items.
    List(Box<Value>),
    /// A group with these members.
    Group(BTreeMap<String, Value>),
    /// Cloth or roll goods, or a notion; what it is called on where that is nobody's input.
    Goods {
        /// Whether it is a notion.
        notion: bool,
    },
    /// A way to gather.
    Gathers,
    /// The order.
    Order,
    /// The ticket.
    Ticket,
    /// The plan.
    Plan,
    /// A piece.
    Piece,
    /// An entry of the ticket.
    Entry(EntryOf),
}

impl Kind {
    /// A whole number of which no more is known.
    pub(super) const WHOLE: Self = Self::Number(Form::Whole, None);

    /// A number with decimals of which no more is known.
    pub(super) const DECIMAL: Self = Self::Number(Form::Decimal, None);

    /// A quantity of a dimension.
    pub(super) fn of(dimension: Dimension) -> Self {
        if dimension.is_number() { Self::DECIMAL } else { Self::Measure(dimension) }
    }

    /// Its dimension, if it is a number or a measure.
    pub(super) fn dimension(&self) -> Option<Dimension> {
        match self {
            Self::Number(..) => Some(Dimension::NUMBER),
            Self::Measure(dimension) => Some(*dimension),
            _ => None,
        }
    }

    /// The noun for it, with an article.
    pub(super) fn noun(&self) -> String {
        let noun = match self {
            Self::Number(..) => "a plain number",
            Self::Measure(dimension) => return dimension.noun(),
            Self::Text(_) => "a text",
            Self::Flag => "a yes or no",
            Self::Nothing => "nothing",
            Self::Letter => "a letter",
            Self::Range => "a range",
            Self::List(_) => "a list",
            Self::Group(_) => "a #{ … } group",
            Self::Goods { notion: true } => "a notion",
            Self::Goods { notion: false } => "a cloth",
            Self::Gathers => "a way to gather",
            Self::Order => "an order",
            Self::Ticket => "a ticket",
            Self::Plan => "a plan",
            Self::Piece => "a piece",
            Self::Entry(_) => "an entry of the ticket",
        };
        noun.to_owned()
    }

    /// What the table of words calls the owner of its members.
    pub(super) fn owner(&self) -> Option<&'static str> {
        Some(match self {
            Self::Goods { .. } => "cloth or notion",
            Self::Gathers => "gathers",
            Self::Order => "order",
            Self::Ticket => "ticket",
            Self::Plan => "plan",
            Self::Piece => "piece",
            Self::Entry(_) => "entry of the ticket",
            _ => return None,
        })
    }

    /// The kind that holds both, if they are of one sort.
    fn join(self, other: Self) -> Result<Self, (Self, Self)> {
        match (self, other) {
            (Self::Number(a, x), Self::Number(b, y)) => {
                let form = if a == b { a } else { Form::Either };
                Ok(Self::Number(form, x.filter(|x| y.is_some_and(|y| x.total_cmp(&y).is_eq()))))
            }
            (Self::Text(a), Self::Text(b)) => Ok(Self::Text(a.join(b))),
            (Self::List(a), Self::List(b)) => Ok(Self::List(Box::new(a.join(*b)))),
            (Self::Group(a), Self::Group(b)) if a.keys().eq(b.keys()) => {
                let joined = a.into_iter().zip(b.into_values()).map(|((name, one), two)| (name, one.join(two)));
                Ok(Self::Group(joined.collect()))
            }
            (a, b) if a == b => Ok(a),
            (a, b) => Err((a, b)),
        }
    }
}

/// One of the kinds a value may have, and where it comes to have it.
#[derive(Clone, Debug)]
pub(super) struct Alternative {
    /// The kind.
    pub(super) kind: Kind,
    /// The end of the branch that gives it, where several meet.
    pub(super) from: Option<Place>,
}

impl PartialEq for Alternative {
    /// Where it comes from makes no difference to what is done with it.
    fn eq(&self, other: &Self) -> bool {
        self.kind == other.kind
    }
}

/// A value: the kinds it may have.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Value {
    /// The kinds; none for a value that never comes about, such as that of a function that ends the order.
    pub(super) kinds: Vec<Alternative>,
    /// Whether it may be anything else.
    pub(super) unknown: bool,
    /// For a yes or no, when it is a yes.
    pub(super) condition: Option<Rc<Condition>>,
}

impl Value {
    /// A value of one kind.
    pub(super) fn of(kind: Kind) -> Self {
        Self { kinds: vec![Alternative { kind, from: None }], unknown: false, condition: None }
    }

    /// A value of which nothing is known.
    pub(super) fn unknown() -> Self {
        Self { kinds: Vec::new(), unknown: true, condition: None }
    }

    /// The value of what never ends.
    pub(super) fn never() -> Self {
        Self { kinds: Vec::new(), unknown: false, condition: None }
    }

    /// Nothing, `()`.
    pub(super) fn nothing() -> Self {
        Self::of(Kind::Nothing)
    }

    /// A text of which no more is known.
    pub(super) fn text() -> Self {
        Self::of(Kind::Text(Texts::ANY))
    }

    /// A yes or no under a condition.
    pub(super) fn flag(condition: Option<Condition>) -> Self {
        Self { condition: condition.map(Rc::new), ..Self::of(Kind::Flag) }
    }

    /// Whether it never comes about.
    pub(super) fn is_never(&self) -> bool {
        self.kinds.is_empty() && !self.unknown
    }

    /// Its only kind, if that is certain.
    pub(super) fn only(&self) -> Option<&Kind> {
        match self.kinds.as_slice() {
            [only] if !self.unknown => Some(&only.kind),
            _ => None,
        }
    }

    /// The texts that it may be, where all are known.
    pub(super) fn texts(&self) -> Option<&BTreeSet<String>> {
        match self.only()? {
            Kind::Text(texts) => texts.known.as_ref(),
            _ => None,
        }
    }

    /// The value of a branch that ends at a place. Where it may be of several kinds, the branches within it say more.
    pub(super) fn from(mut self, place: Place) -> Self {
        match self.kinds.as_mut_slice() {
            [only] => only.from = Some(place),
            several => several.iter_mut().for_each(|alternative| {
                alternative.from.get_or_insert(place);
            }),
        }
        self
    }

    /// A value that is one or the other.
    pub(super) fn join(mut self, other: Self) -> Self {
        if self.is_never() {
            return other;
        }
        if other.is_never() {
            return self;
        }
        self.unknown |= other.unknown;
        if self.condition != other.condition {
            self.condition = None;
        }
        for mut alternative in other.kinds {
            let mut at = 0;
            loop {
                let Some(known) = self.kinds.get_mut(at) else {
                    self.kinds.push(alternative);
                    break;
                };
                match std::mem::replace(&mut known.kind, Kind::Nothing).join(alternative.kind) {
                    Ok(joined) => {
                        known.kind = joined;
                        break;
                    }
                    Err((own, theirs)) => {
                        known.kind = own;
                        alternative.kind = theirs;
                    }
                }
                at += 1;
            }
        }
        if self.kinds.len() > MOST_KINDS {
            return Self::unknown();
        }
        self
    }

    /// Without the kinds for which a test fails.
    pub(super) fn keeping(mut self, test: impl Fn(&Kind) -> bool) -> Self {
        self.kinds.retain(|alternative| test(&alternative.kind));
        self
    }

    /// Whether lists in it are too deep to follow.
    pub(super) fn depth(&self) -> usize {
        let of = |kind: &Kind| match kind {
            Kind::List(items) => 1 + items.depth(),
            Kind::Group(members) => 1 + members.values().map(Self::depth).max().unwrap_or(0),
            _ => 0,
        };
        self.kinds.iter().map(|alternative| of(&alternative.kind)).max().unwrap_or(0)
    }
}
