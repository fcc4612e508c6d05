//! One expression as a person types it: a sum, and after it the unit to show it in.

use super::fault::{Fault, Place};
use super::host::{Host, Script};
use super::rewrite::Source;
use super::tokens::{TokenKind, Tokens};
use super::value;
use crate::quantity::{Dimension, UnitExpression, literal};
use rhai::{Dynamic, Scope};
use std::collections::BTreeSet;

/// A compiled expression.
#[derive(Clone, Debug)]
pub struct Expression {
    script: Script,
    unit: Option<UnitExpression>,
    typed: String,
    unit_at: usize,
}

impl Expression {
    /// Compiles `2 * waist as yd`.
    pub fn compile(host: &Host, typed: &str) -> Result<Self, Fault> {
        let (sum, unit_at) = match unit_start(host, typed) {
            Some((as_at, unit_at)) => (typed.get(..as_at).unwrap_or(typed), Some(unit_at)),
            None => (typed, None),
        };
        let unit = unit_at.map(|at| {
            let written = typed.get(at..).unwrap_or_default();
            literal::read_unit(written, host.reading()).map_err(|mut fault| {
                fault.span = at + fault.span.start..at + fault.span.end;
                Fault::from_literal(None, typed, &fault)
            })
        });
        if sum.trim().is_empty() {
            return Err(Fault::new("nothing is written here").hinting("type a sum such as 56 cm + 10 in"));
        }
        let script = host.compile_expression(sum)?;
        let unit = unit.transpose()?;
        Ok(Self { script, unit, typed: typed.to_owned(), unit_at: unit_at.unwrap_or(typed.len()) })
    }

    /// Works it out.
    pub fn evaluate(&self, host: &Host, scope: &mut Scope<'static>) -> Result<Dynamic, Fault> {
        let value = host.evaluate(&self.script, scope)?;
        let Some(unit) = self.unit else { return Ok(value) };
        let wrong = |message: String| {
            let source = Source::plain(None, &self.typed);
            let place = Place::of(&source, std::iter::once(self.unit_at..self.typed.trim_end().len()).collect());
            Fault { place: Some(Box::new(place)), ..Fault::new(message) }
        };
        let Some(quantity) = value::quantity_from_script(&value) else {
            return Err(wrong(format!("{} cannot be shown in a unit", value::noun(&value))));
        };
        if quantity.dimension() != unit.dimension {
            let (given, asked) = (quantity.dimension(), unit.dimension);
            let asked =
                if asked == Dimension::NUMBER { "as a share".to_owned() } else { format!("as {}", asked.noun()) };
            return Err(wrong(format!("{} cannot be shown {asked}", given.noun())));
        }
        Ok(value::quantity_to_script(quantity.liking(unit.liked)))
    }

    /// The names it may read: every word of it that is no member of something else.
    pub fn names(&self) -> BTreeSet<&str> {
        names(self.script.source())
    }

    /// The names it does read from outside, functions and members not among them.
    pub fn variables(&self) -> BTreeSet<String> {
        self.script.variables()
    }

    /// The text as typed, with its tokens.
    pub fn source(&self) -> &Source {
        self.script.source()
    }
}

fn names(source: &Source) -> BTreeSet<&str> {
    let text = |index: usize| {
        source.tokens.get(index).and_then(|token| source.typed.get(token.span.clone())).unwrap_or_default()
    };
    let words = source.tokens.iter().enumerate().filter(|(_, token)| token.kind == TokenKind::Word);
    words
        .filter(|(index, _)| index.checked_sub(1).is_none_or(|before| text(before) != "."))
        .map(|(index, _)| text(index))
        .collect()
}

/// Where `as` stands and where the unit after it begins, if the expression ends so.
fn unit_start(host: &Host, typed: &str) -> Option<(usize, usize)> {
    let tokens = Tokens::read(typed, host.reading()).ok()?.list;
    let at = tokens
        .iter()
        .rposition(|token| token.kind == TokenKind::Word && typed.get(token.span.clone()) == Some("as"))?;
    let first = tokens.get(at)?;
    let unit = tokens.get(at + 1)?;
    Some((first.span.start, unit.span.start))
}
