//! The ticket: everything a recipe says about one order, as plain data.
//!
//! Quantities, not floats, all the way; per garment unless an entry says once for the whole order.
//! Never here: scripts, how it came about, how it is drawn.

use super::usage::Usage;
use crate::piece::{Exact, Piece};
use crate::quantity::{Length, Quantity, Style, Time, number};
use crate::workshop::Material;
use serde::{Deserialize, Serialize};

/// The version of the ticket's form, checked when it comes from another process.
pub(crate) const VERSION: u32 = 5;

/// A value that an input or a figure has.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum TicketValue {
    /// A measure or a plain number.
    Quantity(Quantity),
    /// A whole number.
    Whole(i64),
    /// Words.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// Several.
    List(Vec<TicketValue>),
}

impl TicketValue {
    /// As a person reads it.
    pub fn show(&self, style: &Style) -> String {
        match self {
            Self::Quantity(quantity) => style.show(*quantity),
            Self::Whole(whole) => whole.to_string(),
            Self::Text(text) => text.clone(),
            Self::Flag(yes) => if *yes { "yes" } else { "no" }.to_owned(),
            Self::List(list) => list.iter().map(|value| value.show(style)).collect::<Vec<_>>().join(", "),
        }
    }

    /// As a step says it: a length on both tapes.
    pub fn show_in_step(&self, style: &Style) -> String {
        match self {
            Self::Quantity(quantity) => style.show_on_both_tapes(*quantity),
            other => other.show(style),
        }
    }

    /// The quantity it is, whole numbers included.
    pub fn quantity(&self) -> Option<Quantity> {
        match self {
            Self::Quantity(quantity) => Some(*quantity),
            Self::Whole(whole) => Some(Quantity::number(number::from_whole(*whole))),
            _ => None,
        }
    }
}

/// Where an input's value came from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum InputSource {
    /// The person gave it.
    Given,
    /// The recipe's usual value.
    Usual,
    /// The same as another input.
    SameAs,
    /// The body measure of the workshop's size of this name.
    Size(String),
}

impl InputSource {
    /// What is said beside the value; nothing where the person gave it.
    pub fn remark(&self) -> Option<String> {
        match self {
            Self::Given => None,
            Self::Usual => Some("usual".to_owned()),
            Self::SameAs => Some("the same again".to_owned()),
            Self::Size(name) => Some(format!("from size {name}")),
        }
    }
}

/// One input as it was answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AnsweredInput {
    /// Its name.
    pub name: String,
    /// The question.
    pub question: String,
    /// Its value.
    pub value: TicketValue,
    /// Where the value came from.
    pub source: InputSource,
}

/// A named value that the recipe publishes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Figure {
    /// Its name, with blanks.
    pub name: String,
    /// Its value.
    pub value: TicketValue,
    /// What it means.
    pub meaning: String,
}

/// A piece to cut for a garment, with exact sizes; its count is that of one garment.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TicketPiece {
    /// What is cut.
    pub piece: Piece<Exact>,
    /// The material it is cut from: its place in the ticket's list.
    pub material: usize,
    /// Once for the whole order, not for each garment.
    pub once: bool,
}

/// Something to have at hand besides cloth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Need {
    /// The notion: its place in the ticket's list of materials.
    pub material: usize,
    /// A length or a count.
    pub amount: Quantity,
    /// What it is for.
    pub why: String,
    /// Once for the whole order.
    pub once: bool,
}

/// A line of stitching.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sewing {
    /// Stitch class of ISO 4915.
    pub class: String,
    /// Length of the line.
    pub length: Length,
    /// What it is for.
    pub why: String,
    /// Once for the whole order.
    pub once: bool,
}

/// Work to be done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Work {
    /// The operation, as the workshop's rates name it.
    pub operation: String,
    /// How many, or what length of it.
    pub amount: Quantity,
    /// The recipe's own estimate for one, where the workshop has no rate.
    pub about: Option<Time>,
    /// Once for the whole order.
    pub once: bool,
}

/// A mark to make on a piece.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mark {
    /// The piece.
    pub piece: String,
    /// What the mark is.
    pub name: String,
    /// How far.
    pub distance: Length,
    /// From where.
    pub from: String,
}

/// What a recipe produced for one order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ticket {
    /// The form's version.
    pub version: u32,
    /// The recipe's file name without ending.
    pub recipe: String,
    /// What it makes, in the recipe's words.
    pub makes: String,
    /// What the recipe says it is for, such as skirt, child.
    pub tags: Vec<String>,
    /// How many garments.
    pub garments: i64,
    /// How old the wearer is, if the order says it.
    pub age: Option<Time>,
    /// What the garment is for, if the order says it.
    pub used_for: Option<Usage>,
    /// The inputs, in the order of the recipe.
    pub inputs: Vec<AnsweredInput>,
    /// The figures.
    pub figures: Vec<Figure>,
    /// The materials that pieces and needs point at.
    pub materials: Vec<TicketMaterial>,
    /// The pieces.
    pub pieces: Vec<TicketPiece>,
    /// The needs.
    pub needs: Vec<Need>,
    /// The stitching.
    pub sewing: Vec<Sewing>,
    /// The work.
    pub work: Vec<Work>,
    /// The marks.
    pub marks: Vec<Mark>,
    /// The steps, with `{figure}` still in them.
    pub steps: Vec<String>,
    /// What is odd about its body measures, in sentences: each wants a second look, and none stops the order.
    pub doubts: Vec<String>,
    /// The keys of the cautions.
    pub cautions: Vec<String>,
}

/// A material of a ticket: one of the workshop's, or one that only this order knows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TicketMaterial {
    /// The input it was given for; none for a plain notion the recipe names itself.
    pub input: Option<String>,
    /// It is in the workshop's list.
    pub listed: bool,
    /// What it is.
    pub material: Material,
}

/// A step put into words, and what it names that the ticket does not have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpokenStep {
    /// The words.
    pub text: String,
    /// Names in braces that are no figure and no input.
    pub unknown: Vec<String>,
}

impl Ticket {
    /// An empty ticket.
    pub fn new(recipe: &str, makes: &str) -> Self {
        Self {
            version: VERSION,
            recipe: recipe.to_owned(),
            makes: makes.to_owned(),
            tags: Vec::new(),
            garments: 1,
            age: None,
            used_for: None,
            inputs: Vec::new(),
            figures: Vec::new(),
            materials: Vec::new(),
            pieces: Vec::new(),
            needs: Vec::new(),
            sewing: Vec::new(),
            work: Vec::new(),
            marks: Vec::new(),
            steps: Vec::new(),
            doubts: Vec::new(),
            cautions: Vec::new(),
        }
    }

    /// How many times an entry counts in the whole order.
    pub fn times(&self, once: bool) -> i64 {
        if once { 1 } else { self.garments }
    }

    /// The usable width of what a piece is cut from, where it is known.
    pub fn width_of(&self, piece: &TicketPiece) -> Option<Length> {
        self.materials.get(piece.material).and_then(|material| material.material.usable_width)
    }

    /// The figure of a name, written with blanks or underscores.
    pub fn figure(&self, name: &str) -> Option<&Figure> {
        let plain = |name: &str| name.replace('_', " ");
        self.figures.iter().find(|figure| plain(&figure.name) == plain(name))
    }

    /// The input of a name.
    pub fn input(&self, name: &str) -> Option<&AnsweredInput> {
        self.inputs.iter().find(|input| input.name == name)
    }

    /// What the order says beside its inputs, each a name and a value: the age of the wearer and the use.
    pub fn besides(&self) -> Vec<(&'static str, TicketValue)> {
        let age = self.age.map(|age| ("age", TicketValue::Quantity(age.into())));
        let usage = self.used_for.map(|usage| ("use", TicketValue::Text(usage.words().to_owned())));
        age.into_iter().chain(usage).collect()
    }

    /// How many pieces of a name one garment has; none if there is no such piece.
    pub fn pieces_of(&self, name: &str) -> Option<i64> {
        let counts =
            self.pieces.iter().map(|entry| &entry.piece).filter(|piece| piece.name == name).map(|piece| piece.count);
        let mut counts = counts.peekable();
        counts.peek()?;
        Some(counts.sum())
    }

    /// A step with its `{figure}` filled in, lengths on both tapes.
    pub fn speak(&self, step: &str, style: &Style) -> SpokenStep {
        let mut spoken = SpokenStep { text: String::new(), unknown: Vec::new() };
        let mut rest = step;
        while let Some((before, after)) = rest.split_once('{') {
            spoken.text.push_str(before);
            let Some((name, after)) = after.split_once('}') else {
                spoken.text.push('{');
                rest = after;
                continue;
            };
            let figure = self.figure(name.trim()).map(|figure| &figure.value);
            match figure.or_else(|| self.input(name.trim()).map(|input| &input.value)) {
                Some(value) => spoken.text.push_str(&value.show_in_step(style)),
                None => spoken.unknown.push(name.trim().to_owned()),
            }
            rest = after;
        }
        spoken.text.push_str(rest);
        spoken
    }

    /// The amount of a need or a work entry for the whole order.
    pub fn order_amount(&self, amount: Quantity, once: bool) -> Quantity {
        let times = number::from_whole(self.times(once));
        Quantity::from_steps(amount.steps() * times, amount.dimension()).liking(amount.liked())
    }
}
