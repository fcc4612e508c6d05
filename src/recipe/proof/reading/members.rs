//! What is reached behind a dot or in brackets.

use super::findings::Sure;
use super::kind::{Alternative, Form, Kind, Place, Value};
use super::lists;
use super::reader::Reader;
use super::state::State;
use crate::engine::ScriptError;
use crate::engine::functions;
use crate::engine::tree::{Link, Node, What};
use crate::quantity::nearest::nearest;
use crate::recipe::contract::input::PIECES;
use crate::recipe::contract::signatures::{self, Signature};
use crate::recipe::contract::words::WORDS;

impl<'r> Reader<'r> {
    /// What stands before a dot or a bracket, and what is reached in it.
    pub(super) fn chain(
        &mut self,
        before: &'r Node,
        link: &'r Link,
        optional: bool,
        at: usize,
        state: &mut State,
    ) -> Value {
        let outer = std::mem::replace(&mut self.is_timed, matches!(link, Link::Method(name, _) if name == "about"));
        let mut on = self.node(before, state);
        self.is_timed = outer;
        let may_be_nothing = optional && on.kinds.iter().any(|alternative| alternative.kind == Kind::Nothing);
        if optional {
            on = on.keeping(|kind| *kind != Kind::Nothing);
            if on.is_never() {
                return Value::nothing();
            }
        }
        let value = match link {
            Link::Member(name) => self.member(name, &on, at, state),
            Link::Method(name, arguments) => {
                let owner = match &before.what {
                    What::Name(name) => Some(name.as_str()),
                    _ => None,
                };
                self.method(name, &on, owner, arguments, at, state)
            }
            Link::Item(index) => self.item(&on, index, at, state),
        };
        if may_be_nothing { value.join(Value::nothing()) } else { value }
    }

    pub(super) fn member(&mut self, name: &str, on: &Value, at: usize, state: &mut State) -> Value {
        let place = self.place(at);
        let mut given = if on.unknown { Value::unknown() } else { Value::never() };
        let mut wrong: Option<(Alternative, ScriptError)> = None;
        for alternative in &on.kinds {
            match self.member_of(name, &alternative.kind, place, state) {
                Ok(value) => given = given.join(value),
                Err(problem) => wrong = wrong.or(Some((alternative.clone(), problem))),
            }
        }
        let Some((odd, problem)) = wrong else { return given };
        if given.is_never() {
            self.add(place, Sure::Certain, problem);
            return Value::unknown();
        }
        if !on.unknown {
            self.possible(on, &odd, place, problem);
        }
        given
    }

    pub(super) fn member_of(
        &mut self,
        name: &str,
        kind: &Kind,
        place: Place,
        state: &State,
    ) -> Result<Value, ScriptError> {
        match kind {
            Kind::Order => self.of_order(name, place, state),
            Kind::Group(members) => match members.get(name) {
                Some(value) => Ok(value.clone()),
                None if super::names::is_near(name, members.keys()) => {
                    let near = nearest(name, members.keys().map(String::as_str)).unwrap_or_default();
                    Err(ScriptError::new(format!("there is no “{name}” in it"))
                        .hinting(format!("did you mean “{near}”?")))
                }
                None => Ok(Value::nothing()),
            },
            Kind::Text(_) | Kind::List(_) if name == "len" => Ok(Value::of(Kind::WHOLE)),
            // A range tells its ends.
            Kind::Range => Ok(Value::unknown()),
            kind => {
                let signature = kind.owner().and_then(|owner| signatures::of(owner, name));
                match signature.filter(|signature| signature.forms.is_empty()) {
                    Some(signature) => Ok(Self::given_by(signature.gives, kind)),
                    None => Err(no_member(name, kind)),
                }
            }
        }
    }

    pub(super) fn of_order(&mut self, name: &str, place: Place, state: &State) -> Result<Value, ScriptError> {
        if name == PIECES {
            return Ok(Value::of(Kind::WHOLE));
        }
        if self.of_any_order {
            return Ok(Value::unknown());
        }
        let inputs = self.inputs;
        let Some(input) = inputs.iter().find(|input| input.name == name) else { return Err(self.no_input(name)) };
        self.used.insert(name.to_owned());
        let problem = || {
            ScriptError::new(format!("“{name}” was not given, so it cannot be reckoned with"))
                .hinting(format!("ask first: if order.has(\"{name}\") {{ … }}"))
        };
        match state.facts.is_given(name, inputs) {
            Some(true) => {}
            Some(false) => self.add(place, Sure::Certain, problem()),
            None => self.add(place, Sure::Caution, problem()),
        }
        Ok(Self::input(input, &state.facts))
    }

    pub(super) fn no_input(&self, name: &str) -> ScriptError {
        let near = nearest(name, self.inputs.iter().map(|input| input.name.as_str()));
        let problem = ScriptError::new(format!("the order has no “{name}”"));
        problem.with_hint(near.map(|near| format!("did you mean “{near}”?")))
    }

    pub(super) fn method(
        &mut self,
        name: &str,
        on: &Value,
        owner: Option<&str>,
        arguments: &'r [Node],
        at: usize,
        state: &mut State,
    ) -> Value {
        let place = self.place(at);
        let looks = |kind: &Kind| matches!(kind, Kind::List(_) | Kind::Group(_) | Kind::Text(_) | Kind::Range);
        let on_lists = on.kinds.iter().any(|alternative| looks(&alternative.kind)) || on.unknown;
        if let Some((least, most)) = lists::takes(name).filter(|_| on_lists) {
            if !(least..=most).contains(&arguments.len()) {
                let things = if most == 1 { "thing" } else { "things" };
                let problem = ScriptError::new(format!("{name} takes {most} {things}, not {}", arguments.len()));
                self.add(place, Sure::Certain, problem);
            }
            return self.list_word(name, on, owner, arguments, place, state);
        }
        let words: Vec<(&Alternative, Option<&'static Signature>)> = on
            .kinds
            .iter()
            .map(|alternative| {
                let signature = alternative.kind.owner().and_then(|owner| signatures::of(owner, name));
                (alternative, signature.filter(|signature| !signature.forms.is_empty()))
            })
            .collect();
        if words.is_empty() || words.iter().all(|(_, signature)| signature.is_none()) {
            if let Some(function) = functions::named(name) {
                let mut values = vec![on.clone()];
                values.extend(arguments.iter().map(|argument| self.node(argument, state)));
                return self.built_in(function, &values, at);
            }
            self.each_of(arguments, state);
            if let (Some((alternative, _)), false) = (words.first(), on.unknown) {
                self.add(place, Sure::Certain, no_member(name, &alternative.kind));
            }
            return Value::unknown();
        }
        let mut given = if on.unknown { Value::unknown() } else { Value::never() };
        for (alternative, signature) in words {
            match signature {
                Some(signature) => {
                    let on = Value::of(alternative.kind.clone());
                    given = given.join(self.word(signature, &on, arguments, at, state));
                }
                None => self.possible(on, &alternative.clone(), place, no_member(name, &alternative.kind)),
            }
        }
        given
    }

    pub(super) fn item(&mut self, on: &Value, index: &'r Node, at: usize, state: &mut State) -> Value {
        let key = self.node(index, state);
        let mut given = if on.unknown { Value::unknown() } else { Value::never() };
        for alternative in on.kinds.clone() {
            let value = match &alternative.kind {
                Kind::List(items) => {
                    let problem = |kind: &Kind| {
                        ScriptError::new(format!("an item is picked by a whole number, not {}", kind.noun()))
                    };
                    let whole = |kind: &Kind| matches!(kind, Kind::Number(Form::Whole | Form::Either, _) | Kind::Range);
                    self.expect(&key, self.place(index.start()), whole, problem);
                    if items.is_never() { Value::unknown() } else { items.as_ref().clone() }
                }
                Kind::Text(_) => Value::of(Kind::Letter),
                Kind::Group(members) => match key.texts() {
                    Some(names) => {
                        let of = |name: &String| members.get(name).cloned().unwrap_or_else(Value::nothing);
                        names.iter().map(of).fold(Value::never(), Value::join)
                    }
                    None => members.values().cloned().fold(Value::nothing(), Value::join),
                },
                Kind::Order => {
                    if let Some(names) = key.texts() {
                        let names = names.clone();
                        let of = |name: &String| match self.of_order(name, Place { file: self.file, at }, state) {
                            Ok(value) => value,
                            Err(problem) => {
                                self.add(Place { file: self.file, at }, Sure::Certain, problem);
                                Value::unknown()
                            }
                        };
                        names.iter().map(of).fold(Value::never(), Value::join)
                    } else {
                        self.used.extend(self.inputs.iter().map(|input| input.name.clone()));
                        Value::unknown()
                    }
                }
                kind => {
                    let problem = ScriptError::new(format!("{} has no items to pick from", kind.noun()));
                    self.add(
                        self.place(at),
                        if on.kinds.len() == 1 && !on.unknown { Sure::Certain } else { Sure::Caution },
                        problem,
                    );
                    Value::unknown()
                }
            };
            given = given.join(value);
        }
        given
    }
}

fn no_member(name: &str, kind: &Kind) -> ScriptError {
    let owner = kind.owner();
    let mut problem = ScriptError::new(format!("{} has no “{name}”", kind.noun()));
    let of_kind = WORDS.iter().filter(|word| Some(word.of) == owner);
    if let Some(word) = of_kind.clone().find(|word| word.name == name) {
        problem = ScriptError::new(format!("“{name}” is not written like this"));
        return problem.hinting(format!("type {}", word.form));
    }
    let near = match owner {
        Some(_) => nearest(name, of_kind.map(|word| word.name)),
        None => nearest(name, lists::words()),
    };
    problem.with_hint(near.map(|near| format!("did you mean “{near}”?")))
}

/// Whether a value may have a word of this name.
pub(super) fn has_member(on: &Value, name: &str) -> bool {
    on.kinds.iter().any(|alternative| {
        let kind = &alternative.kind;
        let is_word = kind.owner().is_some_and(|owner| signatures::of(owner, name).is_some());
        let listed = matches!(kind, Kind::List(_) | Kind::Group(_) | Kind::Text(_) | Kind::Range);
        is_word || (listed && lists::takes(name).is_some())
    })
}
