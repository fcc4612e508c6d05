//! Parses goods without a name, as an order writes them: `any 45 in at $6/yd`, `any`, `any $0.50/yd`.
//!
//! Never here: `any_cloth(45 in)`, which is a word of scripts.

use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::ScriptError;
use crate::engine::text::tokens::{Token, TokenKind, Tokens};
use crate::engine::value::quantity_to_script;
use crate::quantity::literal::LiteralValue;
use crate::quantity::{Reading, Style};
use crate::recipe::answers::evaluate::Evaluate;
use crate::recipe::host::material_words::{Goods, any_cloth, any_notion};
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

/// Parses goods after the word `any`.
pub(in crate::recipe) struct UnnamedReader<'r> {
    pub(in crate::recipe) reading: Reading,
    /// Evaluates a width or a price that is an expression.
    pub(in crate::recipe) evaluate: Evaluate<'r>,
}

impl UnnamedReader<'_> {
    /// Parses the goods; `None` if the text does not begin with the word `any`.
    pub(in crate::recipe) fn read(&self, written: &str, notion: bool) -> Option<Result<Goods, UnnamedError>> {
        let rest = written.strip_prefix("any")?;
        if !rest.is_empty() && !rest.starts_with(' ') {
            return None;
        }
        let rest = rest.trim();
        Some(if notion { self.notion(rest.strip_prefix("at ").unwrap_or(rest)) } else { self.cloth(rest) })
    }

    fn cloth(&self, rest: &str) -> Result<Goods, UnnamedError> {
        let (width, price) = match rest.split_once(" at ") {
            Some(parts) => parts,
            None => self.at_comma(rest)?.unwrap_or((rest, "")),
        };
        let width = self.part(width)?.ok_or(UnnamedError::Unreadable)?;
        let price = self.part(price)?;
        any_cloth("", &width, price.as_ref()).map_err(UnnamedError::Wrong)
    }

    fn notion(&self, price: &str) -> Result<Goods, UnnamedError> {
        let price = self.part(price)?;
        any_notion("", price.as_ref()).map_err(UnnamedError::Wrong)
    }

    /// Splits `45 in, $6/yd` at the comma.
    fn at_comma<'t>(&self, rest: &'t str) -> Result<Option<(&'t str, &'t str)>, UnnamedError> {
        let tokens = self.tokens(rest)?;
        let comma = tokens.iter().find(|token| rest.get(token.span.clone()) == Some(","));
        Ok(comma.and_then(|comma| Some((rest.get(..comma.span.start)?, rest.get(comma.span.end..)?))))
    }

    /// Parses a width or a price as a script value; `None` if it is empty.
    fn part(&self, written: &str) -> Result<Option<Dynamic>, UnnamedError> {
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
