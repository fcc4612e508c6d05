//! Helps a person answer each kind of input: an example, how to type an answer, what goods cost.
//!
//! Never here: whether an answer fits; what an input may be; what follows from a kind alone.

use crate::quantity::{Length, Quantity, Unit};
use crate::recipe::answers::answering::{Check, units_for};
use crate::recipe::contract::input::Input;
use crate::recipe::contract::input_kind::{InputKind, unnamed_cloth};
use crate::recipe::proof::goods_used::GoodsUsed;
use crate::workshop::{Material, PriceFor};

impl Check<'_> {
    /// Returns an example answer to an input; `…` if there is none.
    pub(in crate::recipe) fn example(&self, input: &Input) -> String {
        match (&input.kind, &input.range) {
            (InputKind::Measure(_) | InputKind::Number | InputKind::Count, Some(range)) => {
                self.style.show(range.middle())
            }
            (InputKind::Choice(words), _) => words.first().cloned().unwrap_or_default(),
            (InputKind::YesNo, _) => "yes".to_owned(),
            (InputKind::Gathers, _) => "2".to_owned(),
            (InputKind::Cloth, _) => unnamed_cloth(self.style),
            (InputKind::Notion, _) => "any".to_owned(),
            _ => "…".to_owned(),
        }
    }

    /// Explains in a sentence how to answer an input.
    pub(in crate::recipe) fn instructions(&self, input: &Input, used: Option<GoodsUsed>) -> String {
        let example = self.example(input);
        match &input.kind {
            InputKind::Measure(dimension) => {
                let unit = units_for(*dimension, self.style).into_iter().next();
                let bare = unit.map_or_else(String::new, |unit| {
                    format!("; a number alone, such as 20, is taken as {}", unit.replace('#', "20"))
                });
                let example = if example == "…" { "a measure".to_owned() } else { format!("type it like {example}") };
                format!("{example}{bare}; a sum with names of the page goes too")
            }
            InputKind::Number | InputKind::Count if example == "…" => "type a number; a sum goes too".to_owned(),
            InputKind::Number | InputKind::Count => format!("type it like {example}; a sum goes too"),
            InputKind::Choice(words) => format!("type one of {}", words.join(", ")),
            InputKind::YesNo => "type yes or no".to_owned(),
            InputKind::Text => "type any words".to_owned(),
            InputKind::Gathers => {
                "2 is twice as much cloth as seam; [6, 5] are two passes under the foot, which multiply; \
            the name of a trial takes what was measured"
                    .to_owned()
            }
            InputKind::Cloth => format!(
                "a name of materials.csv, or one that is not listed by its usable width and price: {example}; \
            without the price the order has none for it"
            ),
            InputKind::Notion => {
                let price = if used == Some(GoodsUsed::Counted) { "0.20" } else { "0.50/yd" };
                let sign = self.style.currency;
                format!("a name of materials.csv, or any where it is not listed; with a price, any {sign}{price}")
            }
            InputKind::List => "type several measures between brackets: [10 in, 12 in]".to_owned(),
        }
    }

    /// Returns the width and the price of goods that are offered: `43 1/2 in, $9.25/yd`; `None` for other answers.
    pub(in crate::recipe) fn about_goods(&self, input: &Input, answer: &str) -> Option<String> {
        let goods = [InputKind::Cloth, InputKind::Notion].contains(&input.kind);
        let material = self.workshop.materials.find(answer).filter(|_| goods)?;
        let width = material.usable_width.map(|width| self.style.show(width.into()));
        let about: Vec<String> = width.into_iter().chain(self.price_of(material)).collect();
        (!about.is_empty()).then(|| about.join(", "))
    }

    /// Returns `$9.25/yd`, `$6.50 for 25 yd` or `$0.20 each`; `None` if no price is known.
    fn price_of(&self, material: &Material) -> Option<String> {
        let price = material.price?;
        let money = self.style.show(price.into());
        let for_length = |length: Length| {
            let by = Quantity::from(price).per(length.into()).ok().map(|by| self.style.show(by));
            let one = [Unit::Yard, Unit::Metre].into_iter().any(|unit| Quantity::of(1.0, unit) == length.into());
            by.filter(|_| one).unwrap_or_else(|| format!("{money} for {}", self.style.show(length.into())))
        };
        Some(match (material.price_for, material.put_up) {
            (PriceFor::Length(length), _) => for_length(length),
            (PriceFor::PutUp, Some(put_up)) => format!("{money} for {}", self.style.show(put_up.into())),
            (PriceFor::PutUp, None) => format!("{money} a put-up"),
            (PriceFor::Each, _) => format!("{money} each"),
        })
    }
}
