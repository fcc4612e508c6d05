//! Goes through statements and expressions, and says what each gives.

use super::conditions::{Condition, Facts};
use super::findings::Sure;
use super::kind::{Form, Kind, Place, Texts, Value};
use super::operators;
use super::reader::{Loop, Reader};
use super::state::State;
use crate::engine::ScriptError;
use crate::engine::tree::{Arm, Link, Node, What};
use crate::quantity::Reading;
use crate::quantity::literal::{LiteralValue, read_quantity};
use crate::quantity::number;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// The rounds after which a loop is taken to have shown all its kinds.
const ROUNDS: usize = 5;

impl<'r> Reader<'r> {
    /// Statements in turn; what the last one gives.
    pub(super) fn statements(&mut self, nodes: &'r [Node], state: &mut State) -> Value {
        let mut last = Value::nothing();
        for node in nodes {
            self.reach(node.start(), state.live && !matches!(node.what, What::Nothing));
            if !state.live {
                break;
            }
            last = self.node(node, state);
        }
        if state.live { last } else { Value::never() }
    }

    /// Reads parts whose values are of no interest.
    pub(super) fn each_of(&mut self, nodes: &'r [Node], state: &mut State) {
        for node in nodes {
            let _value = self.node(node, state);
        }
    }

    /// Statements with names of their own.
    fn block(&mut self, nodes: &'r [Node], state: &mut State) -> Value {
        let outer = state.scope.len();
        let value = self.statements(nodes, state);
        state.scope.truncate(outer);
        value
    }

    /// What a part of the script gives.
    pub(super) fn node(&mut self, node: &'r Node, state: &mut State) -> Value {
        if !self.may_look(node.at) {
            return Value::unknown();
        }
        match &node.what {
            What::Nothing | What::Import(..) => Value::nothing(),
            What::Flag(flag) => Value::flag(Some(Condition::Known(*flag))),
            What::Whole(whole) => Value::of(Kind::Number(Form::Whole, Some(number::from_whole(*whole)))),
            What::Decimal(decimal) => Value::of(Kind::Number(Form::Decimal, Some(*decimal))),
            What::Letter => Value::of(Kind::Letter),
            What::Text(text) => Value::of(Kind::Text(Texts::one(text))),
            What::Measure(typed) => Self::measure(typed),
            What::Joined(parts) => self.joined(parts, state),
            What::List(items) => {
                let items = items.iter().map(|item| self.node(item, state));
                let items = items.collect::<Vec<_>>().into_iter().fold(Value::never(), Value::join);
                let items = if items.depth() > 4 { Value::unknown() } else { items };
                Value::of(Kind::List(Box::new(items)))
            }
            What::Group(members) => {
                let members = members.iter().map(|(name, value)| (name.clone(), self.node(value, state)));
                let members: BTreeMap<String, Value> = members.collect();
                let group = Value::of(Kind::Group(members));
                if group.depth() > 4 { Value::unknown() } else { group }
            }
            What::Name(name) => self.name(name, node.at, state),
            What::Call { space, name, arguments } => self.call(space.as_deref(), name, arguments, node.at, state),
            // What is handed over is read where it is called; what a helper file holds besides functions is not known.
            What::Path(_) | What::Function(_) => Value::unknown(),
            What::Chain(before, link, optional) => self.chain(before, link, *optional, node.at, state),
            What::And(sides) => self.all_of(sides, true, state),
            What::Or(sides) => self.all_of(sides, false, state),
            What::Else(sides) => {
                let values: Vec<Value> = sides.iter().map(|side| self.node(side, state)).collect();
                let last = values.len().saturating_sub(1);
                let filled = |(index, value): (usize, Value)| {
                    if index < last { value.keeping(|kind| *kind != Kind::Nothing) } else { value }
                };
                values.into_iter().enumerate().map(filled).fold(Value::never(), Value::join)
            }
            What::Block(nodes) => self.block(nodes, state),
            What::If { when, then, otherwise } => self.branches(when, then, otherwise, state),
            What::Switch { on, arms, otherwise } => self.switch(on, arms, otherwise.as_deref(), node.at, state),
            What::While { when, body, first } => self.rounds(when.as_deref(), body, *first, state),
            What::For { item, counter, over, body } => {
                let over_value = self.node(over, state);
                let problem = |kind: &Kind| {
                    ScriptError::new(format!("only a list or a range can be gone through, not {}", kind.noun()))
                        .hinting("type for i in 0..3 { … }")
                };
                self.expect(
                    &over_value,
                    self.place(over.start()),
                    |kind| super::lists::item_of(kind).is_some(),
                    problem,
                );
                let items = over_value.kinds.iter().filter_map(|kind| super::lists::item_of(&kind.kind));
                let items = items.fold(Value::never(), Value::join);
                let items = if over_value.unknown || items.is_never() { Value::unknown() } else { items };
                let named = std::iter::once((item.clone(), items));
                let counted = counter.iter().map(|counter| (counter.clone(), Value::of(Kind::WHOLE)));
                self.for_each(&named.chain(counted).collect::<Vec<_>>(), body, state)
            }
            What::Let(name, value) => {
                let value = self.node(value, state);
                state.scope.push((name.clone(), value));
                Value::nothing()
            }
            What::Set { to, operator, value } => self.set(to, operator.as_deref(), value, node.at, state),
            What::Break(value) => {
                let value = value.as_ref().map_or_else(Value::nothing, |value| self.node(value, state));
                let state_here = state.clone();
                if let Some(Loop { left, .. }) = self.loops.last_mut() {
                    *left = Some(match left.take() {
                        Some((known, given)) => (trimmed(known, state_here), given.join(value)),
                        None => (state_here, value),
                    });
                }
                state.live = false;
                Value::never()
            }
            What::Continue => {
                let state_here = state.clone();
                if let Some(Loop { again, .. }) = self.loops.last_mut() {
                    *again = Some(match again.take() {
                        Some(known) => trimmed(known, state_here),
                        None => state_here,
                    });
                }
                state.live = false;
                Value::never()
            }
            What::Return(value) => {
                let given = value.as_ref().map_or_else(Value::nothing, |value| self.node(value, state));
                let given = given.from(self.place(value.as_ref().map_or(node.at, |value| value.start())));
                if state.live
                    && let Some(returned) = self.returns.last_mut()
                {
                    *returned = std::mem::replace(returned, Value::never()).join(given);
                }
                state.live = false;
                Value::never()
            }
            What::Unread => {
                self.unread(node.at);
                Value::unknown()
            }
        }
    }

    fn measure(typed: &str) -> Value {
        match read_quantity(typed, Reading::default()) {
            Ok(LiteralValue::Quantity(quantity)) => {
                let whole = quantity.to_number().ok().filter(|_| quantity.liked().named.is_none());
                match whole.and_then(number::whole) {
                    Some(whole) => Value::of(Kind::Number(Form::Whole, Some(number::from_whole(whole)))),
                    None => Value::of(Kind::of(quantity.dimension())),
                }
            }
            _ => Value::unknown(),
        }
    }

    /// A text with values in it: known where each part is one known text.
    fn joined(&mut self, parts: &'r [Node], state: &mut State) -> Value {
        let mut known = Some(BTreeSet::from([String::new()]));
        for part in parts {
            let value = self.node(part, state);
            let problem = |kind: &Kind| ScriptError::new(format!("{} cannot be written into a text", kind.noun()));
            let may_be_shown = |kind: &Kind| {
                matches!(
                    kind,
                    Kind::Number(..) | Kind::Measure(_) | Kind::Text(_) | Kind::Flag | Kind::List(_) | Kind::Letter
                )
            };
            self.expect(&value, self.place(part.start()), may_be_shown, problem);
            known = known.zip(value.texts()).and_then(|(starts, ends)| {
                let pairs = starts.iter().flat_map(|start| ends.iter().map(move |end| format!("{start}{end}")));
                let pairs: BTreeSet<String> = pairs.take(25).collect();
                (pairs.len() < 25).then_some(pairs)
            });
        }
        Value::of(Kind::Text(Texts { known, choice: None }))
    }

    fn name(&mut self, name: &str, at: usize, state: &State) -> Value {
        if let Some(value) = state.get(name) {
            return value.clone();
        }
        let names = state.scope.iter().map(|(name, _)| name.as_str());
        let near = crate::quantity::nearest::nearest(name, names);
        let problem = ScriptError::new(format!("I don't know the word {name}"));
        let problem = match (near, self.inputs.iter().find(|input| input.name == *name)) {
            (_, Some(input)) => problem.hinting(format!("type order.{}", input.name)),
            (Some(near), None) => problem.hinting(format!("did you mean “{near}”?")),
            (None, None) => problem,
        };
        self.add(self.place(at), Sure::Certain, problem);
        Value::unknown()
    }

    /// `&&` or `||`: each side is looked at only where those before it leave it open.
    fn all_of(&mut self, sides: &'r [Node], all: bool, state: &mut State) -> Value {
        if let Some(odd) = super::settled::odd_side(sides, all) {
            let told = if all { "never" } else { "always" };
            let problem = ScriptError::new(format!("this is {told} so beside what is asked before it"));
            self.add(self.place(odd.at), Sure::Caution, problem.hinting("one of the two measures is wrong"));
        }
        let mut conditions = Vec::new();
        let mut inner = state.clone();
        for side in sides {
            let value = self.node(side, &mut inner);
            let sign = if all { "&&" } else { "||" };
            self.wants_flag(&value, side.start(), &format!("a yes or no is needed on each side of {sign}"));
            let condition = value.condition.clone();
            if let Some(condition) = &condition {
                inner = inner.assuming(condition, all, self.inputs);
            }
            conditions.push(condition.map_or(Condition::Any(Vec::new()), |condition| (*condition).clone()));
        }
        // A side without a condition may be either, whatever is known.
        let open = Condition::Filled(String::new());
        let conditions = conditions.into_iter().map(|condition| match condition {
            Condition::Any(none) if none.is_empty() => open.clone(),
            condition => condition,
        });
        let conditions: Vec<Condition> = conditions.collect();
        Value::flag(Some(if all { Condition::All(conditions) } else { Condition::Any(conditions) }))
    }

    fn branches(&mut self, when: &'r Node, then: &'r [Node], otherwise: &'r [Node], state: &mut State) -> Value {
        for again in super::settled::asked_before(when, otherwise) {
            let problem = ScriptError::new("this is never so: the same was asked before");
            self.add(self.place(again.start()), Sure::Caution, problem.hinting("take it out, or ask something else"));
        }
        let asked = self.node(when, state);
        self.wants_flag(&asked, when.start(), "a yes or no is needed here");
        if !state.live {
            return Value::never();
        }
        let condition = asked.condition.as_deref();
        let holds = condition.and_then(|condition| state.facts.holds(condition, self.inputs));
        let whole = self.place(when.at);
        let way = |reader: &mut Self, nodes: &'r [Node], taken: bool| {
            if holds == Some(!taken) {
                let mut unknown = state.unknown();
                let _value = reader.block(nodes, &mut unknown);
                return (Value::never(), State { live: false, ..state.clone() });
            }
            let mut inner = match condition {
                Some(condition) => state.assuming(condition, taken, reader.inputs),
                None => state.clone(),
            };
            let value = reader.block(nodes, &mut inner);
            let from = nodes.last().map_or(whole, |end| reader.place(end.start()));
            (value.from(from), inner)
        };
        let (one, after_one) = way(self, then, true);
        let (other, after_other) = way(self, otherwise, false);
        *state = after_one.join(after_other);
        one.join(other)
    }

    fn switch(
        &mut self,
        on: &'r Node,
        arms: &'r [Arm],
        otherwise: Option<&'r Node>,
        at: usize,
        state: &mut State,
    ) -> Value {
        let value = self.node(on, state);
        let choice = match value.only() {
            Some(Kind::Text(Texts { choice: Some((input, words)), .. })) => Some((input.clone(), Rc::clone(words))),
            _ => None,
        };
        let mut open = value.texts().cloned();
        let mut given = Value::never();
        let mut after: Option<State> = None;
        let begin = state.clone();
        for arm in arms {
            if let (Some((input, words)), Some(texts)) = (&choice, &arm.texts)
                && let Some(stray) = texts.iter().find(|text| !words.contains(*text))
                && (self.file == 0 || operators::is_slip(stray, words))
            {
                let problem = operators::no_choice(stray, input, words);
                let problem = ScriptError { marked: crate::engine::script_error::Marked::Whole, ..problem };
                self.add(self.place(arm.at), Sure::Certain, problem);
            }
            for text in arm.texts.iter().flatten() {
                self.asks_for(arm.at, text, value.texts().is_none_or(|known| known.contains(text)));
            }
            let texts: Option<BTreeSet<String>> = arm.texts.as_ref().map(|texts| texts.iter().cloned().collect());
            let never = open.as_ref().zip(texts.as_ref()).is_some_and(|(open, texts)| open.is_disjoint(texts));
            let mut inner = match (&choice, &texts) {
                _ if never => begin.unknown(),
                (Some((input, _)), Some(texts)) => {
                    begin.assuming(&Condition::Is(input.clone(), texts.clone()), true, self.inputs)
                }
                _ => begin.clone(),
            };
            if let Some(guard) = &arm.guard {
                let guard_value = self.node(guard, &mut inner);
                self.wants_flag(&guard_value, guard.start(), "a yes or no is needed here");
            }
            let value = self.node(&arm.gives, &mut inner);
            inner.scope.truncate(begin.scope.len());
            if never {
                continue;
            }
            given = given.join(value.from(self.place(arm.gives.start())));
            after = Some(match after {
                Some(after) => after.join(inner),
                None => inner,
            });
            if arm.guard.is_none()
                && let (Some(open), Some(texts)) = (&mut open, &texts)
            {
                open.retain(|text| !texts.contains(text));
            }
        }
        let is_left = open.as_ref().is_none_or(|open| !open.is_empty());
        let mut inner = match (&choice, &open) {
            (Some((input, _)), Some(open)) if is_left => {
                begin.assuming(&Condition::Is(input.clone(), open.clone()), true, self.inputs)
            }
            _ if is_left => begin.clone(),
            _ => begin.unknown(),
        };
        let value = otherwise.map_or_else(Value::nothing, |otherwise| self.node(otherwise, &mut inner));
        inner.scope.truncate(begin.scope.len());
        if is_left {
            let place = otherwise.map_or(self.place(at), |otherwise| self.place(otherwise.start()));
            given = given.join(value.from(place));
            after = Some(match after {
                Some(after) => after.join(inner),
                None => inner,
            });
            self.missing_choice(choice, otherwise.is_some(), open.as_ref(), at);
        }
        *state = after.unwrap_or(State { live: false, ..begin });
        given
    }

    /// Words of a choice for which a `switch` has no arm.
    fn missing_choice(
        &mut self,
        choice: Option<(String, Rc<BTreeSet<String>>)>,
        has_rest: bool,
        open: Option<&BTreeSet<String>>,
        at: usize,
    ) {
        let (Some((input, _)), Some(open), false) = (choice, open, has_rest) else { return };
        let words: Vec<String> = open.iter().map(|word| format!("\"{word}\"")).collect();
        let problem = ScriptError::new(format!("nothing is done here where “{input}” is {}", words.join(" or ")));
        self.add(self.place(at), Sure::Caution, problem.hinting("add an arm for it, or _ => … for all others"));
    }

    /// A loop with a condition, or none.
    fn rounds(&mut self, when: Option<&'r Node>, body: &'r [Node], first: bool, state: &mut State) -> Value {
        let mut done_once = false;
        self.repeat(state, |reader, state| {
            let ask = |reader: &mut Self, state: &mut State| -> Option<State> {
                let when = when?;
                let asked = reader.node(when, state);
                reader.wants_flag(&asked, when.start(), "a yes or no is needed here");
                let out = match asked.condition.as_deref() {
                    Some(condition) => {
                        let out = state.assuming(condition, false, reader.inputs);
                        *state = state.assuming(condition, true, reader.inputs);
                        out
                    }
                    None => state.clone(),
                };
                Some(out)
            };
            let skips = first && !std::mem::replace(&mut done_once, true);
            let before = if skips { None } else { ask(reader, state) };
            let _value = reader.block(body, state);
            before
        })
    }

    fn for_each(&mut self, named: &[(String, Value)], body: &'r [Node], state: &mut State) -> Value {
        self.repeat(state, |reader, state| {
            let out = state.clone();
            let outer = state.scope.len();
            state.scope.extend(named.iter().cloned());
            let _value = reader.block(body, state);
            state.scope.truncate(outer);
            Some(out)
        })
    }

    /// Reads a round again and again until it tells nothing new. A round gives the state in which the loop ends before
    /// it, if it may.
    fn repeat(&mut self, state: &mut State, mut round: impl FnMut(&mut Self, &mut State) -> Option<State>) -> Value {
        let begin = state.clone();
        let outer = state.scope.len();
        let mut at_begin = state.clone();
        let mut ends: Option<State> = None;
        let mut given = Value::never();
        for _ in 0..ROUNDS {
            let mut inner = at_begin.clone();
            self.loops.push(Loop::default());
            let out = round(self, &mut inner);
            let Loop { left, again } = self.loops.pop().unwrap_or_default();
            inner.scope.truncate(outer);
            let out_value = out.as_ref().map_or_else(Value::never, |_| Value::nothing());
            given = given.join(out_value);
            for mut end in out.into_iter().chain(left.map(|(left, value)| {
                given = std::mem::replace(&mut given, Value::never()).join(value);
                left
            })) {
                end.scope.truncate(outer);
                ends = Some(match ends {
                    Some(known) => known.join(end),
                    None => end,
                });
            }
            if let Some(mut again) = again {
                again.scope.truncate(outer);
                inner = inner.join(again);
            }
            let next = at_begin.clone().join(inner);
            if next == at_begin {
                break;
            }
            at_begin = next;
        }
        *state = ends.unwrap_or(State { live: false, ..begin });
        given
    }

    fn set(&mut self, to: &'r Node, operator: Option<&str>, value: &'r Node, at: usize, state: &mut State) -> Value {
        let mut new = self.node(value, state);
        if let Some(operator) = operator {
            let old = self.node(to, state);
            new = self.operate(operator, &old, &new, at);
        }
        match &to.what {
            What::Name(name) => {
                if operator.is_none() {
                    // A name that is not there.
                    let _old = self.name(name, to.at, state);
                }
                state.set(name, new);
            }
            What::Chain(before, link, _) => self.set_inside(before, link, new, state),
            _ => self.unread(at),
        }
        Value::nothing()
    }

    /// Gives a member or an item another value.
    fn set_inside(&mut self, before: &'r Node, link: &'r Link, new: Value, state: &mut State) {
        if let Link::Item(index) = link {
            let _index = self.node(index, state);
        }
        let What::Name(owner) = &before.what else {
            // Deeper inside: what the outermost holds is not followed any more.
            let _before = self.node(before, state);
            if let Some(owner) = outermost(before) {
                state.set(owner, Value::unknown());
            }
            return;
        };
        let Some(old) = state.get(owner) else {
            let _old = self.name(owner, before.at, state);
            return;
        };
        let changed = match (old.only(), link) {
            (Some(Kind::List(items)), Link::Item(_)) => {
                Value::of(Kind::List(Box::new(items.as_ref().clone().join(new))))
            }
            (Some(Kind::Group(members)), Link::Member(name)) => {
                let mut members = members.clone();
                members.insert(name.clone(), new);
                Value::of(Kind::Group(members))
            }
            _ => Value::unknown(),
        };
        let changed = if changed.depth() > 4 { Value::unknown() } else { changed };
        state.set(owner, changed);
    }

    /// Whether facts settle a condition of the order: then asking is of no use.
    pub(super) fn settled(&mut self, condition: &Condition, place: Place, facts: &Facts) {
        if !self.is_outermost() || self.file != 0 {
            return;
        }
        let Some(holds) = facts.holds(condition, self.inputs) else { return };
        let always = if holds { "always" } else { "never" };
        let problem = ScriptError::new(format!("this is {always} so where the recipe comes here"));
        self.add(place, Sure::Caution, problem.hinting("take the question out, or what cannot happen"));
    }
}

fn trimmed(one: State, other: State) -> State {
    let length = one.scope.len().min(other.scope.len());
    let cut = |mut state: State| {
        state.scope.truncate(length);
        state
    };
    cut(one).join(cut(other))
}

fn outermost(node: &Node) -> Option<&str> {
    match &node.what {
        What::Name(name) => Some(name),
        What::Chain(before, ..) => outermost(before),
        _ => None,
    }
}
