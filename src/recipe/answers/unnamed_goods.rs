//! Parses goods without a name, as an order writes them: `any 45 in at $6/yd`, `any`, `any $0.50/yd`; of a cloth also what
//! is known of it: `any 140 cm at $14/m, repeat 32 cm half drop, shrinks 3 % and 2 %, nap`.
//!
//! Never here: `any_cloth(45 in)`, which is a word of scripts.

use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::ScriptError;
use crate::engine::text::line_tokens::{LineTokens, Quotes};
use crate::engine::text::tokens::{Token, TokenKind, Tokens};
use crate::engine::value::quantity_to_script;
use crate::quantity::literal::LiteralValue;
use crate::quantity::{Reading, Style};
use crate::recipe::answers::evaluate::Evaluate;
use crate::recipe::host::material_words::{ClothFact, Goods, any_cloth, any_notion};
use rhai::Dynamic;

/// Why a text cannot be read as goods.
pub(in crate::recipe) enum UnnamedError {
    /// It does not have the form of unnamed goods.
    Unreadable,
    /// The width or the price is wrong.
    Wrong(ScriptError),
    /// The evaluation of an expression in it was stopped or refused the order.
    Ended(Diagnostic),
}

/// The text of unnamed goods, taken apart into its expressions.
struct GoodsText<'t> {
    /// Empty for a notion.
    width: &'t str,
    price: &'t str,
    facts: Vec<FactText<'t>>,
}

/// The text of what is known of a cloth besides its width and price.
enum FactText<'t> {
    Nap,
    Repeat(&'t str, &'static str),
    RepeatAcross(&'t str),
    Shrinks(&'t str, Option<&'t str>),
    Unknown(&'t str),
}

impl<'t> GoodsText<'t> {
    /// Takes a text apart; `None` if it does not begin with the word `any`.
    fn read(written: &'t str, notion: bool) -> Option<Self> {
        let rest = written.trim().strip_prefix("any")?;
        if !rest.is_empty() && !rest.starts_with(' ') {
            return None;
        }
        let rest = rest.trim();
        if notion {
            return Some(Self { width: "", price: rest.strip_prefix("at ").unwrap_or(rest), facts: Vec::new() });
        }
        let line = LineTokens::read(rest, Quotes::Anywhere);
        let mut parts = line.at_commas().into_iter().peekable();
        let size = parts.next().unwrap_or_default();
        let (width, price) = match size.split_once(" at ") {
            Some(parts) => parts,
            None => (size, parts.next_if(|part| !ClothFact::leads(part)).unwrap_or_default()),
        };
        Some(Self { width, price, facts: parts.map(FactText::read).collect() })
    }

    fn sums(&self) -> Vec<&'t str> {
        let facts = self.facts.iter().flat_map(|fact| match fact {
            FactText::Nap | FactText::Unknown(_) => [None, None],
            FactText::Repeat(one, _) | FactText::RepeatAcross(one) => [Some(*one), None],
            FactText::Shrinks(along, across) => [Some(*along), *across],
        });
        [self.width, self.price].into_iter().chain(facts.flatten()).map(str::trim).collect()
    }
}

impl<'t> FactText<'t> {
    /// Takes `repeat 32 cm half drop`, `repeat across 8 cm`, `shrinks 3 % and 2 %` or `nap` apart.
    fn read(written: &'t str) -> Self {
        let (word, rest) = written.split_once(' ').unwrap_or((written, ""));
        let rest = rest.trim();
        match (word, rest) {
            (ClothFact::NAP, "") => Self::Nap,
            (ClothFact::REPEAT, rest) => {
                if let Some(across) = rest.strip_prefix("across ") {
                    return Self::RepeatAcross(across);
                }
                let kinds = ["half drop", "straight"];
                let kind = kinds.into_iter().find_map(|kind| Some((rest.strip_suffix(kind)?, kind)));
                let (length, kind) = kind.unwrap_or((rest, "straight"));
                Self::Repeat(length, kind)
            }
            (ClothFact::SHRINKS, rest) => {
                let (along, across) =
                    rest.split_once(" and ").map_or((rest, None), |(along, across)| (along, Some(across)));
                Self::Shrinks(along, across)
            }
            _ => Self::Unknown(written),
        }
    }
}

/// Returns the expressions in a text of unnamed goods, as of a cloth and as of a notion: width, price and what is known
/// besides; empty for any other text.
pub(crate) fn sums_in_goods(written: &str) -> Vec<&str> {
    let mut sums: Vec<&str> = [false, true]
        .into_iter()
        .filter_map(|notion| GoodsText::read(written, notion))
        .flat_map(|goods| goods.sums())
        .collect();
    sums.retain(|sum| !sum.is_empty());
    sums.dedup();
    sums
}

/// Parses goods after the word `any`.
pub(in crate::recipe) struct UnnamedReader<'r> {
    pub(in crate::recipe) reading: Reading,
    /// Evaluates a width or a price that is an expression.
    pub(in crate::recipe) evaluate: Evaluate<'r>,
    /// Expressions that a page has evaluated with its cells, and their values.
    pub(in crate::recipe) known: &'r [(String, Dynamic)],
}

impl UnnamedReader<'_> {
    /// Parses the goods; `None` if the text does not begin with the word `any`.
    pub(in crate::recipe) fn read(&self, written: &str, notion: bool) -> Option<Result<Goods, UnnamedError>> {
        let text = GoodsText::read(written, notion)?;
        Some(if notion { self.notion(&text) } else { self.cloth(&text) })
    }

    fn cloth(&self, text: &GoodsText<'_>) -> Result<Goods, UnnamedError> {
        let width = self.part(text.width)?.ok_or(UnnamedError::Unreadable)?;
        let price = self.part(text.price)?;
        let cloth = any_cloth("", &width, price.as_ref()).map_err(UnnamedError::Wrong)?;
        let facts = text.facts.iter().map(|fact| self.fact(fact)).collect::<Result<Vec<_>, _>>()?;
        cloth.with_facts(facts).map_err(UnnamedError::Wrong)
    }

    fn fact(&self, fact: &FactText<'_>) -> Result<ClothFact, UnnamedError> {
        let value = |written: &str| self.part(written)?.ok_or(UnnamedError::Unreadable);
        match fact {
            FactText::Nap => Ok(ClothFact::Nap),
            FactText::RepeatAcross(across) => Ok(ClothFact::RepeatAcross(value(across)?)),
            FactText::Repeat(length, kind) => Ok(ClothFact::Repeat(value(length)?, kind)),
            FactText::Shrinks(along, across) => Ok(ClothFact::Shrinks(value(along)?, across.map(value).transpose()?)),
            FactText::Unknown(written) => Err(UnnamedError::Wrong(ScriptError::new(format!(
                "“{written}” is not known of a cloth: it may repeat 32 cm half drop, repeat across 8 cm, shrinks 3 %, nap"
            )))),
        }
    }

    fn notion(&self, text: &GoodsText<'_>) -> Result<Goods, UnnamedError> {
        let price = self.part(text.price)?;
        any_notion("", price.as_ref()).map_err(UnnamedError::Wrong)
    }

    /// Parses a width or a price as a script value; `None` if it is empty.
    fn part(&self, written: &str) -> Result<Option<Dynamic>, UnnamedError> {
        if let Some((_, value)) = self.known.iter().find(|(sum, _)| sum == written.trim()) {
            return Ok(Some(value.clone()));
        }
        let tokens = self.tokens(written)?;
        let sign = |token: &Token| token.kind == TokenKind::Symbol && written.get(token.span.clone()) == Some("-");
        match tokens.as_slice() {
            [] => Ok(None),
            [Token { kind: TokenKind::Literal(LiteralValue::Quantity(quantity)), .. }] => {
                Ok(Some(quantity_to_script(*quantity)))
            }
            [minus, Token { kind: TokenKind::Literal(LiteralValue::Quantity(quantity)), .. }] if sign(minus) => {
                Ok(Some(quantity_to_script(quantity.negated())))
            }
            _ => match (self.evaluate)(written.trim()) {
                Ok(value) => Ok(Some(value)),
                Err(error) => Err(match error.kind {
                    DiagnosticKind::Syntax => UnnamedError::Unreadable,
                    DiagnosticKind::Stopped | DiagnosticKind::Refusal { .. } => UnnamedError::Ended(error),
                    _ => UnnamedError::Wrong(ScriptError::new(error.message)),
                }),
            },
        }
    }

    fn tokens(&self, written: &str) -> Result<Vec<Token>, UnnamedError> {
        let tokens = Tokens::read(written, self.reading);
        tokens
            .map(|tokens| tokens.list)
            .map_err(|error| UnnamedError::Wrong(ScriptError::of(&error, &Style::default())))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::Repeat;
    use crate::quantity::{Length, Money};

    fn cloth(written: &str) -> Result<Goods, String> {
        let evaluate = |_: &str| Err(Diagnostic::new("not a sum").of_kind(DiagnosticKind::Syntax));
        let reader = UnnamedReader { reading: Reading::default(), evaluate: &evaluate, known: &[] };
        reader.read(written, false).expect("it begins with any").map_err(|error| match error {
            UnnamedError::Unreadable => "cannot be read".to_owned(),
            UnnamedError::Wrong(error) => error.message,
            UnnamedError::Ended(error) => error.message,
        })
    }

    #[test]
    fn what_is_known_of_a_cloth_by_phone_is_taken() {
        let goods =
            cloth("any 140 cm at $14/m, repeat 32 cm half drop, repeat across 8 cm, shrinks 3 % and 2 %, nap").unwrap();
        let material = &goods.material;
        assert_eq!(material.usable_width, Some(Length::centimetres(140.0)));
        assert_eq!(material.price, Some(Money::from_steps(140_000.0)));
        assert_eq!(material.repeat, Some(Repeat::half_drop(Length::centimetres(32.0))));
        assert_eq!(material.repeat_across, Some(Length::centimetres(8.0)));
        assert_eq!((material.shrink_along, material.shrink_across), (Some(0.03), Some(0.02)));
        assert!(material.nap);
        // Each by itself; a price after a comma; nothing else known.
        let plain = cloth("any 45 in, $6/yd").unwrap();
        assert_eq!((plain.material.repeat, plain.material.nap), (None, false));
        assert_eq!(plain.material.price, Some(Money::from_steps(60_000.0)));
        let unpriced = cloth("any 45 in, repeat 10 in, shrinks 4 %").unwrap();
        assert_eq!(unpriced.material.repeat, Some(Repeat::straight(Length::inches(10.0))));
        assert_eq!((unpriced.material.price, unpriced.material.shrink_across), (None, None));
    }

    #[test]
    fn the_sums_in_goods_are_those_of_a_cloth_and_of_a_notion() {
        assert_eq!(
            sums_in_goods("any wide - 2 in at cp, repeat 2 r half drop, repeat across x, shrinks s and 2 %, nap"),
            [
                "wide - 2 in",
                "cp",
                "2 r",
                "x",
                "s",
                "2 %",
                "wide - 2 in at cp, repeat 2 r half drop, repeat across x, shrinks s and 2 %, nap"
            ]
        );
        assert_eq!(sums_in_goods("any at cp"), ["at cp", "cp"]);
        assert_eq!(sums_in_goods("any"), Vec::<&str>::new());
        assert_eq!(sums_in_goods("anything at all"), Vec::<&str>::new());
    }

    #[test]
    fn what_is_no_fact_of_a_cloth_is_named() {
        assert!(cloth("any 45 in at $6/yd, blue").unwrap_err().starts_with("“blue” is not known of a cloth"));
        assert_eq!(
            cloth("any 45 in at $6/yd, shrinks 300 %").unwrap_err(),
            "shrinks must be from 0 % to less than 100 %, as in 3 %"
        );
        assert_eq!(cloth("any 45 in at $6/yd, repeat 3 min").unwrap_err(), "length must be a length, not a time");
        assert_eq!(cloth("any 45 in at $6/yd, repeat").unwrap_err(), "cannot be read");
    }
}
