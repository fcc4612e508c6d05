//! The ticket: everything a recipe says about one order, as plain data.
//!
//! Amounts are quantities, not floats, and are per garment unless the entry counts once for the whole order.
//! Never here: scripts, how a ticket is made, how it is drawn.

use super::mark_of_order::OrderMark;
use super::usage::Usage;
use crate::piece::{Exact, Piece};
use crate::quantity::{Length, LiteralValue, Quantity, Reading, Style, Time, literal, number};
use crate::workshop::{Material, Washing, Workshop};
use serde::{Deserialize, Serialize};

/// The version of the ticket format, checked when a ticket comes from another process.
pub(crate) const VERSION: u32 = 8;

/// The value of an input or a figure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum TicketValue {
    /// A measure or a plain number.
    Quantity(Quantity),
    /// A whole number.
    Whole(i64),
    /// Text.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// Several values.
    List(Vec<TicketValue>),
}

/// Most letters of a step, as it is written and as it is spoken.
pub const MOST_SPOKEN: usize = 2_000;

impl TicketValue {
    /// Formats the value for a reader.
    pub fn show(&self, style: &Style) -> String {
        match self {
            Self::Quantity(quantity) => style.show(*quantity),
            Self::Whole(whole) => whole.to_string(),
            Self::Text(text) => text.clone(),
            Self::Flag(yes) => if *yes { "yes" } else { "no" }.to_owned(),
            Self::List(list) => list.iter().map(|value| value.show(style)).collect::<Vec<_>>().join(", "),
        }
    }

    /// The letters of its texts.
    pub fn letters(&self) -> usize {
        match self {
            Self::Text(text) => text.chars().count(),
            Self::List(list) => list.iter().map(Self::letters).sum(),
            Self::Quantity(_) | Self::Whole(_) | Self::Flag(_) => 0,
        }
    }

    /// Formats the value for a step, a length on the tape of the style.
    pub fn show_in_step(&self, style: &Style) -> String {
        match self {
            Self::Quantity(quantity) => style.show_on_tape(*quantity),
            Self::List(list) => list.iter().map(|value| value.show_in_step(style)).collect::<Vec<_>>().join(", "),
            other => other.show(style),
        }
    }

    /// Returns the quantity of a measure, plain number or whole number.
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
    /// The order gives it.
    Given,
    /// It is the recipe's usual value.
    Usual,
    /// It is the same as that of another input.
    SameAs,
    /// It is the body measure of the workshop's size of this name.
    Size(String),
}

impl InputSource {
    /// Returns the remark shown beside the value; `None` if the order gives it.
    pub fn remark(&self) -> Option<String> {
        match self {
            Self::Given => None,
            Self::Usual => Some("usual".to_owned()),
            Self::SameAs => Some("the same again".to_owned()),
            Self::Size(name) => Some(format!("from size {name}")),
        }
    }
}

/// An input and its answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AnsweredInput {
    /// The name the recipe gives it.
    pub name: String,
    /// The question the recipe asks for it.
    pub question: String,
    /// The answer as plain data.
    pub value: TicketValue,
    /// Where the value came from.
    pub source: InputSource,
}

/// A named value that the recipe publishes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Figure {
    /// The name, with spaces between words.
    pub name: String,
    /// The published value.
    pub value: TicketValue,
    /// The meaning in the recipe's words.
    pub meaning: String,
}

/// A piece to cut, with exact sizes; its count is per garment unless `once` is set.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TicketPiece {
    /// The piece to cut.
    pub piece: Piece<Exact>,
    /// The material it is cut from, as an index into [`Ticket::materials`].
    pub material: usize,
    /// Whether it counts once for the whole order, not per garment.
    pub once: bool,
}

/// A notion to have at hand besides cloth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Need {
    /// The notion, as an index into [`Ticket::materials`].
    pub material: usize,
    /// The length of each piece, or a count.
    pub amount: Quantity,
    /// How many pieces of this length; 1 for what is counted.
    pub count: i64,
    /// What it is for.
    pub why: String,
    /// Whether it counts once for the whole order.
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
    /// Whether it counts once for the whole order.
    pub once: bool,
}

/// Work to be done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Work {
    /// The operation, as the workshop's rates name it.
    pub operation: String,
    /// A count or a length.
    pub amount: Quantity,
    /// The recipe's estimate, used if the workshop has no rate: for each one counted, or for the whole length in one
    /// garment.
    pub about: Option<Time>,
    /// Whether it counts once for the whole order.
    pub once: bool,
}

/// A mark to make on a piece.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mark {
    /// The name of the piece.
    pub piece: String,
    /// What the mark is.
    pub name: String,
    /// The distance from `from`.
    pub distance: Length,
    /// Where the distance starts, in the recipe's words.
    pub from: String,
}

impl Mark {
    /// Returns whether it is on a piece: by its name, by a name that several pieces end in, such as “gore”, or by an edge
    /// of it, such as “sleeve, lower edge”.
    pub(crate) fn is_on(&self, piece: &str) -> bool {
        let whose = self.piece.split(',').next().unwrap_or_default().trim();
        !whose.is_empty() && (whose == piece || piece.strip_suffix(whose).is_some_and(|before| before.ends_with(' ')))
    }

    /// Returns whether it is the fold of a hem at the lower edge of a piece.
    pub(crate) fn is_hem(&self) -> bool {
        self.name == "hem fold" && self.from == "lower edge"
    }
}

/// A step of the work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum TicketStep {
    /// In the recipe's words, with `{figure}` placeholders not filled in.
    Words(String),
    /// How the piece of this name is cut, split, joined and trimmed, told from the plan.
    Cut(String),
}

impl TicketStep {
    /// Returns the recipe's words; `None` if the plan tells the step.
    pub fn words(&self) -> Option<&str> {
        match self {
            Self::Words(words) => Some(words),
            Self::Cut(_) => None,
        }
    }
}

/// Everything a recipe produces for one order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ticket {
    /// The version of the ticket format.
    pub version: u32,
    /// The recipe's file name without extension.
    pub recipe: String,
    /// What it makes, in the recipe's words.
    pub makes: String,
    /// The recipe's tags, such as skirt or child.
    pub tags: Vec<String>,
    /// The number of garments.
    pub garments: i64,
    /// The age of the wearer, if the order states it.
    pub age: Option<Time>,
    /// The use of the garment, if the order states it.
    pub used_for: Option<Usage>,
    /// How all its goods are cut that lose in the first wash, if the order states it; otherwise as the list of
    /// materials has it.
    pub washing: Option<Washing>,
    /// What the order is called.
    pub mark: OrderMark,
    /// The answered inputs, in recipe order.
    pub inputs: Vec<AnsweredInput>,
    /// The names of inputs for cloths and notions that the order could take and does not, such as a lining.
    pub without: Vec<String>,
    /// The figures.
    pub figures: Vec<Figure>,
    /// The materials that pieces and needs refer to by index.
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
    /// The steps.
    pub steps: Vec<TicketStep>,
    /// Warnings about implausible body measures, as sentences. None of them stops the order.
    pub warnings: Vec<String>,
    /// The keys of the cautions that the recipe and its formulas ask for.
    pub cautions: Vec<String>,
}

/// A material of a ticket: from the workshop's list, or known to this order only.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TicketMaterial {
    /// The input it answers; `None` for goods the recipe names itself.
    pub input: Option<String>,
    /// Whether it is in the workshop's list.
    pub listed: bool,
    /// The material itself.
    pub material: Material,
}

/// A step with its placeholders filled in, and the names that could not be filled in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FilledStep {
    /// The text; unknown names are left out of it.
    pub text: String,
    /// Names in braces that are neither a figure nor an input.
    pub unknown: Vec<String>,
}

impl Ticket {
    /// Creates an empty ticket for one garment.
    pub fn new(recipe: &str, makes: &str) -> Self {
        Self {
            version: VERSION,
            recipe: recipe.to_owned(),
            makes: makes.to_owned(),
            tags: Vec::new(),
            garments: 1,
            age: None,
            used_for: None,
            washing: None,
            mark: OrderMark::default(),
            inputs: Vec::new(),
            without: Vec::new(),
            figures: Vec::new(),
            materials: Vec::new(),
            pieces: Vec::new(),
            needs: Vec::new(),
            sewing: Vec::new(),
            work: Vec::new(),
            marks: Vec::new(),
            steps: Vec::new(),
            warnings: Vec::new(),
            cautions: Vec::new(),
        }
    }

    /// Takes the list prices of a workshop for the goods that its list has.
    pub(crate) fn take_prices_of(&mut self, workshop: &Workshop) {
        for goods in self.materials.iter_mut().filter(|goods| goods.listed) {
            if let Some(known) = workshop.materials.find(&goods.material.name) {
                goods.material.price = known.price;
            }
        }
    }

    /// Returns how often an entry counts in the whole order: once, or for each garment.
    pub fn times(&self, once: bool) -> i64 {
        if once { 1 } else { self.garments }
    }

    /// Returns how many pieces of a need the whole order takes, at least 0.
    pub fn pieces_needed(&self, need: &Need) -> i64 {
        need.count.saturating_mul(self.times(need.once)).max(0)
    }

    /// Returns the usable width of the material a piece is cut from, if known, in the sizes of the recipe: after
    /// washing, if the order allows for that.
    pub fn width_of(&self, piece: &TicketPiece) -> Option<Length> {
        let material = self.materials.get(piece.material)?;
        Some(material.first_wash(self.washing).sewn_across(material.material.usable_width?))
    }

    /// Returns the figure of this name, written with spaces or underscores.
    pub fn figure(&self, name: &str) -> Option<&Figure> {
        let plain = |name: &str| name.replace(['_', '-'], " ");
        self.figures.iter().find(|figure| plain(&figure.name) == plain(name))
    }

    /// Returns the input of this name.
    pub fn input(&self, name: &str) -> Option<&AnsweredInput> {
        self.inputs.iter().find(|input| input.name == name)
    }

    /// Returns what the order states besides its inputs, as names and values: the wearer's age, the use, the washing.
    pub fn age_and_use(&self) -> Vec<(&'static str, TicketValue)> {
        let age = self.age.map(|age| ("age", TicketValue::Quantity(age.into())));
        let usage = self.used_for.map(|usage| ("use", TicketValue::Text(usage.words().to_owned())));
        let washing = self.washing.map(|washing| ("washing", TicketValue::Text(washing.words().to_owned())));
        age.into_iter().chain(usage).chain(washing).collect()
    }

    /// Returns the count of pieces of this name in one garment; `None` if there is no such piece.
    pub fn pieces_of(&self, name: &str) -> Option<i64> {
        let counts =
            self.pieces.iter().map(|entry| &entry.piece).filter(|piece| piece.name == name).map(|piece| piece.count);
        let mut counts = counts.peekable();
        counts.peek()?;
        Some(counts.sum())
    }

    /// Fills in the figures and inputs that a step names in braces, and sizes that it gives there (`{1/4 in}`), lengths on
    /// the tape of the style.
    pub fn fill_step(&self, step: &str, style: &Style) -> FilledStep {
        let mut filled = FilledStep { text: String::new(), unknown: Vec::new() };
        let mut rest = step;
        // One that is far too long already is not made longer.
        while filled.text.len() <= 4 * MOST_SPOKEN
            && let Some((before, after)) = rest.split_once('{')
        {
            filled.text.push_str(before);
            let Some((name, after)) = after.split_once('}') else {
                filled.text.push('{');
                rest = after;
                continue;
            };
            let figure = self.figure(name.trim()).map(|figure| &figure.value);
            let named = figure.or_else(|| self.input(name.trim()).map(|input| &input.value));
            match (named, literal::read_quantity(name, Reading::default())) {
                (Some(value), _) => filled.text.push_str(&value.show_in_step(style)),
                (None, Ok(LiteralValue::Quantity(size))) => filled.text.push_str(&style.show_on_tape(size)),
                (None, _) => filled.unknown.push(name.trim().to_owned()),
            }
            rest = after;
        }
        filled.text.push_str(rest);
        filled
    }

    /// Returns the amount of a need or a work entry for the whole order.
    pub fn order_amount(&self, amount: Quantity, once: bool) -> Quantity {
        let times = number::from_whole(self.times(once));
        Quantity::from_steps(amount.steps() * times, amount.dimension()).liking(amount.liked())
    }
}
