//! `must` lines: conditions that stay on the page and report when they no longer hold.

use super::value::shown;
use super::verbs;
use super::world::EvalContext;
use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::engine::text::line_tokens::{LineTokens, Quotes};
use crate::engine::text::tokens::{TokenKind, Tokens};
use crate::engine::{Expression, Host, Value};
use crate::quantity::{QuantityError, Style, number};
use std::cmp::Ordering;

/// A condition: `band = 81.4 cm`, `price = $23.40 within $0.05`, or any sum that yields yes or no.
#[derive(Debug)]
pub(super) struct Condition {
    left: Expression,
    /// The value to equal, and the difference allowed by `within`.
    right: Option<(Expression, Option<Expression>)>,
    /// The sum before a sign such as `<`, whose value is told where the condition is not met.
    compared: Option<Expression>,
    typed: String,
}

impl Condition {
    pub(super) fn compile(host: &Host, typed: &str) -> Result<Self, Diagnostic> {
        if typed.is_empty() {
            return Err(verbs::incomplete_error("must"));
        }
        let Some(equals) = equals_sign(host, typed) else {
            let left = Expression::compile(host, typed)?;
            let before = comparison(host, typed).and_then(|at| typed.get(..at));
            let compared = before.and_then(|before| Expression::compile(host, before.trim()).ok());
            return Ok(Self { left, right: None, compared, typed: typed.to_owned() });
        };
        let left = Expression::compile(host, typed.get(..equals).unwrap_or_default().trim())?;
        let right = typed.get(equals + 1..).unwrap_or_default().trim();
        let within = LineTokens::read(right, Quotes::Anywhere).words("within").next_back();
        let (right, within) = match within {
            Some(within) => {
                let allowed = right.get(within.end..).unwrap_or_default().trim();
                (right.get(..within.start).unwrap_or_default().trim(), Some(Expression::compile(host, allowed)?))
            }
            None => (right, None),
        };
        let right = Expression::compile(host, right)?;
        Ok(Self { left, right: Some((right, within)), compared: None, typed: typed.to_owned() })
    }

    pub(super) fn names(&self) -> Vec<&str> {
        let right = self
            .right
            .iter()
            .flat_map(|(right, within)| right.names().chain(within.iter().flat_map(Expression::names)));
        let mut names: Vec<&str> = self.left.names().chain(right).collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    /// Returns `true`, or an error that shows the actual value.
    pub(super) fn evaluate(&self, with: &mut EvalContext<'_>) -> Result<bool, Diagnostic> {
        let style = with.host.style();
        let left = self.left.evaluate_suggesting(with.host, with.scope, with.names)?;
        let Some((right, within)) = &self.right else {
            return match left.as_bool() {
                Ok(true) => Ok(true),
                Ok(false) => Err(self.not_met(with, &style)?),
                Err(_) => Err(Diagnostic::new(format!(
                    "{} is {}, which is neither true nor false",
                    self.typed,
                    shown(&left, &style)?
                ))
                .hinting("type must band > 80 cm, or must strips = 12")),
            };
        };
        let right = right.evaluate_suggesting(with.host, with.scope, with.names)?;
        let within = match within {
            Some(within) => Some(within.evaluate_suggesting(with.host, with.scope, with.names)?),
            None => None,
        };
        let [left_value, right_value] = [&left, &right].map(Value::from_script);
        let (Some(left_value), Some(right_value)) = (left_value, right_value) else {
            return Err(Diagnostic::new(format!("{} compares what cannot be compared", self.typed)));
        };
        let within = within.as_ref().and_then(Value::from_script);
        if equal(&left_value, &right_value, within.as_ref())? {
            return Ok(true);
        }
        let sum = self.left.sum();
        Err(Diagnostic::new(format!("{sum} is {}, not {}", shown(&left, &style)?, shown(&right, &style)?)))
    }

    /// The error of a condition that is false, with the value that it is about.
    fn not_met(&self, with: &mut EvalContext<'_>, style: &Style) -> Result<Diagnostic, Diagnostic> {
        let Some(compared) = &self.compared else { return Ok(Diagnostic::new(format!("{} is not true", self.typed))) };
        let value = compared.evaluate_suggesting(with.host, with.scope, with.names)?;
        Ok(Diagnostic::new(format!("{} is {}", compared.sum(), shown(&value, style)?)))
    }
}

/// The byte position of the first `=` outside brackets.
fn equals_sign(host: &Host, typed: &str) -> Option<usize> {
    outside_brackets(host, typed, |sign| sign == "=")
}

/// The byte position of the only `<`, `>`, `<=` or `>=` outside brackets, where no word joins several conditions.
fn comparison(host: &Host, typed: &str) -> Option<usize> {
    let is_sign = |sign: &str| ["<", ">", "<=", ">="].contains(&sign);
    let at = outside_brackets(host, typed, is_sign)?;
    let is_only_one = !typed.split_whitespace().any(|word| ["and", "or", "not"].contains(&word))
        && !typed.contains(['&', '|', '!'])
        && typed.matches(['<', '>']).count() == 1;
    is_only_one.then_some(at)
}

/// The byte position of the first such sign outside brackets.
fn outside_brackets(host: &Host, typed: &str, is_wanted: impl Fn(&str) -> bool) -> Option<usize> {
    let tokens = Tokens::read(typed, host.reading()).ok()?.list;
    let mut depth = 0;
    tokens.iter().find_map(|token| match token.kind {
        TokenKind::Open => {
            depth += 1;
            None
        }
        TokenKind::Close => {
            depth -= 1;
            None
        }
        TokenKind::Symbol if depth == 0 && typed.get(token.span.clone()).is_some_and(&is_wanted) => {
            Some(token.span.start)
        }
        _ => None,
    })
}

/// Whether two values are equal, up to float noise or the difference that `within` allows. Lists are compared
/// item by item.
fn equal(left: &Value, right: &Value, within: Option<&Value>) -> Result<bool, Diagnostic> {
    if let (Value::List(left), Value::List(right)) = (left, right) {
        let mut all = left.len() == right.len();
        for (left, right) in left.iter().zip(right) {
            all &= equal(left, right, within)?;
        }
        return Ok(all);
    }
    let (Some(a), Some(b)) = (left.quantity(), right.quantity()) else {
        let alike = std::mem::discriminant(left) == std::mem::discriminant(right);
        let unlike = || {
            Diagnostic::new(format!("{} and {} cannot be compared", left.noun(), right.noun()))
                .of_kind(DiagnosticKind::Unlike)
        };
        return if alike { Ok(left == right) } else { Err(unlike()) };
    };
    let cannot = |error: QuantityError| error.diagnostic(&Style::default());
    let order = a.compared(b).map_err(cannot)?;
    match within.map(|within| within.quantity().ok_or_else(|| Diagnostic::new("what is allowed must be a measure"))) {
        None => Ok(order == Ordering::Equal || number::is_near(a.steps(), b.steps())),
        Some(allowed) => {
            let allowed = allowed?;
            let apart = a.minus(b).map_err(cannot)?;
            let size = if apart.steps() < 0.0 { b.minus(a).map_err(cannot)? } else { apart };
            Ok(size.compared(allowed).map_err(cannot)? != Ordering::Greater
                || number::is_near(size.steps(), allowed.steps()))
        }
    }
}
