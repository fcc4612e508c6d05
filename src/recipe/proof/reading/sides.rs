//! Operators where they stand, and what they settle.

use super::conditions::Condition;
use super::findings::Sure;
use super::kind::{Alternative, Kind, Value};
use super::operators;
use super::reader::Reader;
use super::settled::{turned, written};
use super::state::State;
use crate::engine::ScriptError;
use crate::engine::script_error::Marked;
use crate::engine::tree::{Link, Node, What};
use crate::recipe::contract::input_kind::InputKind;
use std::cmp::Ordering;
use std::rc::Rc;

impl<'r> Reader<'r> {
    pub(super) fn binary(
        &mut self,
        name: &str,
        left: &'r Node,
        right: &'r Node,
        at: usize,
        state: &mut State,
    ) -> Value {
        let one = self.node(left, state);
        let other = self.node(right, state);
        let given = self.operate(name, &one, &other, at);
        if let ("==" | "!=", What::Text(text)) = (name, &right.what) {
            self.asks_for(at, text, one.texts().is_none_or(|known| known.contains(text)));
        }
        if !operators::is_comparison(name) || given.only() != Some(&Kind::Flag) {
            return given;
        }
        if let (true, Some(condition)) =
            (["==", "!="].contains(&name), Self::of_sides(name, (left, &one), (right, &other)))
        {
            return Value::flag(Some(condition));
        }
        match (&given.condition, self.of_range(name, left, right)) {
            (Some(condition), _) => {
                let literal = matches!(left.what, What::Text(_)) || matches!(right.what, What::Text(_));
                let never = Condition::Known(false);
                let settled = literal && (**condition == never || **condition == Condition::Not(Rc::new(never)));
                if settled || !matches!(&**condition, Condition::Known(_)) {
                    self.settled(&Rc::clone(condition), self.place(at), &state.facts);
                }
            }
            (None, Some(always)) => {
                let told = if always { "always" } else { "never" };
                let problem = ScriptError::new(format!("this is {told} so, whatever the input is within its ends"));
                let problem = problem.marking(Marked::Sides).hinting("compare with another measure, or take it out");
                self.add(self.place(at), Sure::Caution, problem);
            }
            (None, None) => {}
        }
        given
    }

    /// The condition of a yes or no that is compared with one, and of a variable that is compared with nothing.
    pub(super) fn of_sides(
        name: &str,
        (left, one): (&Node, &Value),
        (right, other): (&Node, &Value),
    ) -> Option<Condition> {
        let turned = |condition: Condition, same: bool| {
            if same == (name == "==") { condition } else { Condition::Not(Rc::new(condition)) }
        };
        let literal = |node: &Node| match &node.what {
            What::Flag(flag) => Some(*flag),
            _ => None,
        };
        if let (Some(flag), Some(condition)) = (literal(right), &one.condition) {
            return Some(turned((**condition).clone(), flag));
        }
        if let (Some(flag), Some(condition)) = (literal(left), &other.condition) {
            return Some(turned((**condition).clone(), flag));
        }
        match (&left.what, &right.what) {
            (What::Name(variable), What::Nothing) | (What::Nothing, What::Name(variable)) => {
                Some(turned(Condition::Filled(variable.clone()), false))
            }
            _ => None,
        }
    }

    /// Whether a comparison of an input with a measure that is written out is settled by the input's ends.
    pub(super) fn of_range(&self, name: &str, left: &Node, right: &Node) -> Option<bool> {
        let range = |node: &Node| {
            let What::Chain(before, link, _) = &node.what else { return None };
            match link {
                Link::Member(name) | Link::Method(name, _) if name == "len" => Some(Ends { least: 0.0, most: None }),
                // Another recipe may call a helper file with other ends.
                Link::Member(input)
                    if self.file == 0 && matches!(&before.what, What::Name(order) if order == "order") =>
                {
                    let input = self.inputs.iter().find(|known| known.name == *input)?;
                    let in_ends = matches!(input.kind, InputKind::Measure(_) | InputKind::Number | InputKind::Count);
                    let range = input.range.filter(|_| in_ends)?;
                    Some(Ends { least: range.least.steps(), most: Some(range.most.steps()) })
                }
                _ => None,
            }
        };
        let (range, figure, name) = match (range(left), written(right), range(right), written(left)) {
            (Some(range), Some(figure), ..) => (range, figure, name),
            (_, _, Some(range), Some(figure)) => (range, figure, turned(name)),
            _ => return None,
        };
        let figure = figure.steps();
        let (least, most) =
            (range.least.total_cmp(&figure), range.most.map_or(Ordering::Greater, |most| most.total_cmp(&figure)));
        match name {
            "<" if most.is_lt() => Some(true),
            "<" if least.is_ge() => Some(false),
            "<=" if most.is_le() => Some(true),
            "<=" if least.is_gt() => Some(false),
            ">" if least.is_gt() => Some(true),
            ">" if most.is_le() => Some(false),
            ">=" if least.is_ge() => Some(true),
            ">=" if most.is_lt() => Some(false),
            "==" if most.is_lt() || least.is_gt() => Some(false),
            "!=" if most.is_lt() || least.is_gt() => Some(true),
            _ => None,
        }
    }

    /// What an operator gives for all kinds on its sides.
    pub(super) fn operate(&mut self, name: &str, left: &Value, right: &Value, at: usize) -> Value {
        let place = self.place(at);
        let mut given = if left.unknown || right.unknown { Value::unknown() } else { Value::never() };
        let mut wrong: Option<(Alternative, Alternative, ScriptError)> = None;
        let mut fits = false;
        let is_open = |value: &Value| value.unknown || value.kinds.len() > 1;
        let several = is_open(left) || is_open(right);
        for one in &left.kinds {
            for other in &right.kinds {
                match operators::given(name, &one.kind, &other.kind, self.file != 0) {
                    Ok(value) => {
                        fits = true;
                        // What comes of one of several keeps saying from where.
                        let from = if several { one.from.or(other.from) } else { None };
                        given = given.join(from.map_or(value.clone(), |from| value.from(from)));
                    }
                    Err(problem) => wrong = wrong.or(Some((one.clone(), other.clone(), problem))),
                }
            }
        }
        if operators::is_comparison(name) && (left.unknown || right.unknown) {
            given = Value::flag(None);
        }
        let Some((one, other, problem)) = wrong else { return given };
        if !fits && !left.unknown && !right.unknown {
            // A text that is none of a choice is wrong where it is written.
            let written = matches!((&one.kind, &other.kind), (Kind::Text(_), Kind::Text(_)));
            let by_itself = written || self.of_any_order;
            self.findings.add(place, Sure::Certain, problem, Vec::new(), &self.trail, by_itself);
            return if operators::is_comparison(name) { Value::flag(None) } else { Value::unknown() };
        }
        if left.kinds.len() > 1 {
            self.possible(left, &one, place, problem);
        } else if right.kinds.len() > 1 {
            self.possible(right, &other, place, problem);
        }
        given
    }

    pub(super) fn unary(&mut self, name: &str, side: &'r Node, at: usize, state: &mut State) -> Value {
        let value = self.node(side, state);
        if name == "!" {
            let problem =
                |kind: &Kind| ScriptError::new(format!("only a yes or no can be turned round, not {}", kind.noun()));
            self.expect(&value, self.place(at), |kind| *kind == Kind::Flag, problem);
            let turned = value.condition.map(Condition::Not);
            return Value::flag(turned);
        }
        let problem = |kind: &Kind| ScriptError::new(format!("{} cannot have “{name}” before it", kind.noun()));
        if !self.expect(&value, self.place(at), |kind| kind.dimension().is_some(), problem) {
            return Value::unknown();
        }
        let mut value = value;
        for alternative in &mut value.kinds {
            if let (Kind::Number(_, Some(figure)), "-") = (&mut alternative.kind, name) {
                *figure = -*figure;
            }
        }
        value
    }
}

/// The ends of what is compared, in base steps.
struct Ends {
    least: f64,
    most: Option<f64>,
}
