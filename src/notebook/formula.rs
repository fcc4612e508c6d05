//! The formula of a line: a sum, a filter, an order, a file or a condition.

use super::condition::Condition;
use super::filter::Filter;
use super::line::Line;
use super::objects::MaterialObject;
use super::order::OrderLine;
use super::world::{EvalContext, Source};
use crate::diagnostic::Diagnostic;
use crate::engine::{Expression, Host};
use rhai::Dynamic;

/// How the value of a line is computed.
#[derive(Debug)]
pub(super) enum Formula {
    Sum(Expression),
    /// `TABLE where CONDITION`.
    Filter(Box<Filter>),
    Order(Box<OrderLine>),
    /// The path of a table's file.
    File(String),
    Must(Box<Condition>),
    /// A line that could not be compiled, and why.
    Unreadable(Box<Diagnostic>),
}

impl Formula {
    /// Compiles the formula of a line; `None` for a note or a verb.
    pub(super) fn compile(host: &Host, line: &Line) -> Option<Result<Self, Diagnostic>> {
        Some(match line {
            Line::Cell { expression, .. } | Line::Expression(expression) => {
                // Most sums have no filter; skip the extra parse for them.
                let filters = expression.contains("where") && Filter::split(expression, host.reading()).is_some();
                if filters {
                    Filter::compile(host, expression).map(|filter| Self::Filter(Box::new(filter)))
                } else {
                    Expression::compile(host, expression).map(Self::Sum)
                }
            }
            Line::Order { recipe, answers, .. } => {
                OrderLine::read(host, recipe, answers).map(|order| Self::Order(Box::new(order)))
            }
            Line::File { file, .. } => Ok(Self::File(file.clone())),
            Line::Must(condition) => {
                Condition::compile(host, condition).map(|condition| Self::Must(Box::new(condition)))
            }
            Line::Note | Line::Verb { .. } => return None,
        })
    }

    /// The names it may read.
    pub(super) fn names(&self) -> Vec<&str> {
        match self {
            Self::Sum(sum) => sum.names().collect(),
            Self::Filter(filter) => filter.names().into_iter().collect(),
            Self::Order(order) => order.names(),
            Self::Must(condition) => condition.names(),
            Self::File(_) | Self::Unreadable(_) => Vec::new(),
        }
    }

    /// The members it reads of a cell, such as `gores` of `first`; `None` if it may read the cell itself.
    pub(super) fn members_of(&self, cell: &str) -> Option<Vec<&str>> {
        match self {
            Self::Sum(sum) => sum.members_of(cell),
            Self::Order(order) => order.members_of(cell),
            Self::Filter(_) | Self::Must(_) if self.names().contains(&cell) => None,
            Self::Filter(_) | Self::Must(_) | Self::File(_) | Self::Unreadable(_) => Some(Vec::new()),
        }
    }

    /// Whether a name in it may mean this value of the workshop. In an answer of an order, a material alone is meant as
    /// the words of its name.
    pub(super) fn takes_from_workshop(&self, name: &str, value: &Dynamic) -> bool {
        let is_material = value.read_lock::<MaterialObject>().is_some();
        !(is_material && matches!(self, Self::Order(_)) && self.members_of(name).is_none())
    }

    /// What it depends on outside the page, besides values of the workshop that it reads by name.
    pub(super) fn sources(&self) -> Vec<Source> {
        match self {
            Self::Order(order) => vec![Source::Workshop, Source::Recipe(order.recipe.clone())],
            Self::File(file) => vec![Source::File(file.clone())],
            Self::Sum(_) | Self::Filter(_) | Self::Must(_) | Self::Unreadable(_) => Vec::new(),
        }
    }

    /// Evaluates the formula; the scope holds the cells it reads.
    pub(super) fn evaluate(&self, with: &mut EvalContext<'_>) -> Result<Dynamic, Diagnostic> {
        match self {
            Self::Sum(sum) => sum.evaluate_suggesting(with.host, with.scope, with.names),
            Self::Filter(filter) => filter.evaluate(with.host, with.scope),
            Self::Order(order) => order.run(with),
            Self::File(file) => with.world.read(file),
            Self::Must(condition) => condition.evaluate(with).map(Dynamic::from_bool),
            Self::Unreadable(error) => Err((**error).clone()),
        }
    }
}
