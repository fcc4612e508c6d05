//! One typed expression: a sum, optionally followed by `as` and the unit to show it in.

use super::common_mistakes;
use super::functions;
use super::host::{Host, Script};
use super::operators;
use super::text::rewrite::{Source, Words, rewrite_expression};
use super::text::tokens::{Token, TokenKind, Tokens};
use super::value;
use crate::diagnostic::{Diagnostic, DiagnosticKind, Span, literal_diagnostic};
use crate::quantity::{Dimension, Quantity, Unit, UnitExpression, literal};
use rhai::{Dynamic, Scope};
use std::collections::BTreeSet;

/// A compiled expression.
#[derive(Clone, Debug)]
pub struct Expression {
    body: Body,
    unit: Option<UnitExpression>,
    names: Box<[Box<str>]>,
    /// Units that the sum divides by without a number, as in `$9.25 / yd`: each is defined as 1 of itself, unless a
    /// cell has that name.
    units: Box<[Unit]>,
    /// The whole text as typed; set if a unit follows the sum.
    with_unit: Option<Box<WithUnit>>,
}

#[derive(Clone, Debug)]
enum Body {
    /// A sum for the script engine.
    Script(Box<Script>),
    /// A single literal, as most measurements are: nothing to evaluate.
    Measure { value: Dynamic, source: Box<Source> },
}

#[derive(Clone, Debug)]
struct WithUnit {
    typed: String,
    unit_at: usize,
}

impl Expression {
    /// Compiles a sum such as `2 * waist as yd`.
    pub fn compile(host: &Host, typed: &str) -> Result<Self, Diagnostic> {
        Self::compile_with(host, typed, Words::Sum)
    }

    /// Compiles a condition on the rows of a table, in which `=` compares: `days > 3 and state = "due"`.
    pub fn compile_condition(host: &Host, typed: &str) -> Result<Self, Diagnostic> {
        Self::compile_with(host, typed, Words::Condition)
    }

    fn compile_with(host: &Host, typed: &str, words: Words) -> Result<Self, Diagnostic> {
        let (sum, unit_at) = match unit_start(host, typed) {
            Some((as_at, unit_at)) => (typed.get(..as_at).unwrap_or(typed), Some(unit_at)),
            None => (typed, None),
        };
        let unit = unit_at.map(|at| {
            let written = typed.get(at..).unwrap_or_default();
            literal::read_unit(written, host.reading()).map_err(|mut error| {
                error.span = at + error.span.start..at + error.span.end;
                literal_diagnostic(None, typed, &error)
            })
        });
        if sum.trim().is_empty() {
            return Err(Diagnostic::new("nothing is written here").hinting("type a sum such as 56 cm + 10 in"));
        }
        let rewritten =
            rewrite_expression(sum, host.reading(), words).map_err(|error| literal_diagnostic(None, sum, &error))?;
        if let Some(diagnostic) = common_mistakes::unit_asked_for(sum, &rewritten) {
            return Err(diagnostic);
        }
        let names = names(sum, &rewritten.tokens);
        let units = units_below(sum, &rewritten.tokens);
        let body = match rewritten.tokens.as_slice() {
            [Token { kind: TokenKind::Literal(value), .. }] => {
                Body::Measure { value: operators::literal_value(value), source: Box::new(rewritten.source) }
            }
            _ => Body::Script(Box::new(host.compile_rewritten(rewritten)?)),
        };
        let unit = unit.transpose()?;
        let with_unit = unit_at.map(|unit_at| Box::new(WithUnit { typed: typed.to_owned(), unit_at }));
        Ok(Self { body, unit, names, units, with_unit })
    }

    /// The sum as typed, without the unit to show it in.
    pub fn sum(&self) -> &str {
        self.source().typed.trim()
    }

    /// Evaluates the sum.
    pub fn evaluate(&self, host: &Host, scope: &mut Scope<'static>) -> Result<Dynamic, Diagnostic> {
        self.evaluate_suggesting(host, scope, &Vec::new)
    }

    /// Evaluates the sum; `extra_names` returns names besides those of the scope that an error may suggest.
    pub fn evaluate_suggesting(
        &self,
        host: &Host,
        scope: &mut Scope<'static>,
        extra_names: &dyn Fn() -> Vec<String>,
    ) -> Result<Dynamic, Diagnostic> {
        let value = match &self.body {
            Body::Script(script) if self.units.is_empty() => host.evaluate_suggesting(script, scope, extra_names)?,
            Body::Script(script) => {
                let before = scope.len();
                for unit in self.units.iter().filter(|unit| !scope.contains(unit.symbol())).collect::<Vec<_>>() {
                    let one = value::quantity_to_script(Quantity::of(1.0, *unit));
                    scope.push_constant_dynamic(unit.symbol(), one);
                }
                let value = host.evaluate_suggesting(script, scope, extra_names);
                scope.rewind(before);
                value?
            }
            Body::Measure { value, .. } => value.clone(),
        };
        let (Some(unit), Some(with_unit)) = (self.unit, &self.with_unit) else { return Ok(value) };
        let wrong = |message: String| {
            let unit = with_unit.unit_at..with_unit.typed.trim_end().len();
            let span = Span::in_text(None, &with_unit.typed, std::iter::once(unit).collect());
            Diagnostic::new(message).of_kind(DiagnosticKind::Unlike).at(span)
        };
        let Some(quantity) = value::quantity_from_script(&value) else {
            return Err(wrong(format!("{} cannot be shown in a unit", value::noun(&value))));
        };
        if quantity.dimension() != unit.dimension {
            let (actual, requested) = (quantity.dimension(), unit.dimension);
            let requested = if requested == Dimension::NUMBER {
                "as a share".to_owned()
            } else {
                format!("as {}", requested.noun())
            };
            return Err(wrong(format!("{} cannot be shown {requested}", actual.noun())));
        }
        Ok(value::quantity_to_script(quantity.liking(unit.liked)))
    }

    /// The names it may read, each once: all words except members, labels, script words, calls of built-in functions
    /// and the parameters of its own closures.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.names.iter().map(|name| &**name)
    }

    /// The names it reads from the scope, without functions, members and units.
    pub fn variables(&self) -> BTreeSet<String> {
        match &self.body {
            Body::Script(script) => {
                let is_unit = |name: &String| self.units.iter().any(|unit| unit.symbol() == name);
                script.variables().into_iter().filter(|name| !is_unit(name)).collect()
            }
            Body::Measure { .. } => BTreeSet::new(),
        }
    }

    /// The members it reads of a name, such as `panels` of `first`; `None` if it may read the value itself.
    pub fn members_of(&self, name: &str) -> Option<Vec<&str>> {
        if !self.names().any(|known| known == name) {
            return Some(Vec::new());
        }
        let source = self.source();
        let tokens = source.tokens();
        let text =
            |index: usize| tokens.get(index).and_then(|token| source.typed.get(token.span.clone())).unwrap_or_default();
        let is_dot = |index: usize| [".", "?."].contains(&text(index));
        let is_read = |index: &usize| text(*index) == name && !index.checked_sub(1).is_some_and(is_dot);
        let members = (0..tokens.len()).filter(is_read).map(|index| {
            // A method takes the value itself.
            (is_dot(index + 1) && text(index + 3) != "(").then(|| text(index + 2))
        });
        members.collect()
    }

    /// The text as typed, with its tokens.
    pub fn source(&self) -> &Source {
        match &self.body {
            Body::Script(script) => script.source(),
            Body::Measure { source, .. } => source,
        }
    }
}

fn names(typed: &str, tokens: &[Token]) -> Box<[Box<str>]> {
    let text = |index: usize| tokens.get(index).and_then(|token| typed.get(token.span.clone())).unwrap_or_default();
    let mut names: Vec<&str> = Vec::new();
    let mut own: Vec<&str> = Vec::new();
    for (index, token) in tokens.iter().enumerate() {
        let word = text(index);
        if token.kind == TokenKind::Symbol && word == "|" {
            own.extend(closure_names(tokens, index, text));
        }
        if token.kind != TokenKind::Word || names.contains(&word) {
            continue;
        }
        let member = index.checked_sub(1).is_some_and(|before| [".", "?."].contains(&text(before)));
        let called = text(index + 1) == "(" && functions::named(word).is_some();
        let label = text(index + 1) == ":";
        if !(member || called || label || is_script_word(word)) {
            names.push(word);
        }
    }
    names.retain(|name| !own.contains(name));
    names.into_iter().map(Box::from).collect()
}

/// The units that directly follow a division sign.
fn units_below(typed: &str, tokens: &[Token]) -> Box<[Unit]> {
    let text = |token: &Token| typed.get(token.span.clone()).unwrap_or_default();
    let behind_lines = tokens.windows(2).filter_map(|pair| match pair {
        [line, word] if word.kind == TokenKind::Word && ["/", "÷"].contains(&text(line)) => {
            Unit::named(text(word)).filter(|unit| unit.symbol() == text(word))
        }
        _ => None,
    });
    behind_lines.collect()
}

/// The names between the bars of `|a, b| a + b`, where `first` is the token of the first bar.
fn closure_names<'t>(tokens: &[Token], first: usize, text: impl Fn(usize) -> &'t str) -> Vec<&'t str> {
    let mut names = Vec::new();
    for (index, token) in tokens.iter().enumerate().skip(first + 1) {
        match (&token.kind, text(index)) {
            (TokenKind::Word, name) => names.push(name),
            (_, ",") => {}
            (_, "|") => return names,
            _ => break,
        }
    }
    Vec::new()
}

fn is_script_word(word: &str) -> bool {
    matches!(word, "if" | "else" | "true" | "false" | "in" | "switch" | "and" | "or" | "not")
}

/// Bytes at which the last `as` and the unit after it begin, if there is one.
fn unit_start(host: &Host, typed: &str) -> Option<(usize, usize)> {
    // Most expressions have none, and need not be read twice.
    if !typed.contains("as") {
        return None;
    }
    let tokens = Tokens::read(typed, host.reading()).ok()?.list;
    let at = tokens
        .iter()
        .rposition(|token| token.kind == TokenKind::Word && typed.get(token.span.clone()) == Some("as"))?;
    let first = tokens.get(at)?;
    let unit = tokens.get(at + 1)?;
    Some((first.span.start, unit.span.start))
}

#[cfg(test)]
mod tests;
