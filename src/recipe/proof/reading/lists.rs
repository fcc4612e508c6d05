//! Words on lists, groups and texts, and the functions that are handed to them.

use super::conditions::Condition;
use super::findings::Sure;
use super::kind::{Kind, Place, Texts, Value};
use super::reader::Reader;
use super::state::State;
use crate::engine::ScriptError;
use crate::engine::tree::{FunctionTree, Node, What};
use std::rc::Rc;

/// The words, each with how many things it takes.
const WORDS: [(&str, usize, usize); 20] = [
    ("len", 0, 0),
    ("is_empty", 0, 0),
    ("push", 1, 1),
    ("pop", 0, 0),
    ("reverse", 0, 0),
    ("contains", 1, 1),
    ("map", 1, 1),
    ("filter", 1, 1),
    ("reduce", 2, 2),
    ("all", 1, 1),
    ("some", 1, 1),
    ("sort", 0, 1),
    ("sum", 0, 0),
    ("keys", 0, 0),
    ("values", 0, 0),
    ("starts_with", 1, 1),
    ("ends_with", 1, 1),
    ("replace", 2, 2),
    ("range", 1, 3),
    ("to_string", 0, 0),
];

/// The words on lists, groups and texts, for one that is mistyped.
pub(super) fn words() -> impl Iterator<Item = &'static str> {
    WORDS.iter().map(|(name, ..)| *name)
}

/// Whether there is such a word, and for how many things.
pub(super) fn takes(name: &str) -> Option<(usize, usize)> {
    WORDS.iter().find(|(known, ..)| *known == name).map(|(_, least, most)| (*least, *most))
}

/// The items of a list, a range or a text; `None` for what cannot be gone through.
pub(super) fn item_of(kind: &Kind) -> Option<Value> {
    Some(match kind {
        Kind::List(items) => items.as_ref().clone(),
        Kind::Range => Value::of(Kind::WHOLE),
        Kind::Text(_) => Value::of(Kind::Letter),
        _ => return None,
    })
}

impl<'r> Reader<'r> {
    /// A word on a list, a group or a text. `owner` is the variable that it is called on, which `push` changes.
    pub(super) fn list_word(
        &mut self,
        name: &str,
        on: &Value,
        owner: Option<&str>,
        arguments: &'r [Node],
        place: Place,
        state: &mut State,
    ) -> Value {
        let items = on.kinds.iter().filter_map(|alternative| item_of(&alternative.kind));
        let mut item = items.fold(Value::never(), Value::join);
        if on.unknown || item.is_never() {
            item = item.join(Value::unknown());
        }
        if let (Some(function), true) =
            (arguments.first(), matches!(name, "map" | "filter" | "all" | "some" | "sort" | "reduce"))
        {
            return self.handed_over(name, on, item, function, arguments.get(1), state);
        }
        let values: Vec<Value> = arguments.iter().map(|argument| self.node(argument, state)).collect();
        let texts = on.only().is_some_and(|kind| matches!(kind, Kind::Text(_)));
        match name {
            "len" => Value::of(Kind::WHOLE),
            "is_empty" | "starts_with" | "ends_with" => Value::flag(None),
            "contains" => Value::flag(self.contained(on, values.first(), place)),
            "push" => {
                let added = values.into_iter().next().unwrap_or_else(Value::unknown);
                if let (Some(owner), Some(Kind::List(items))) = (owner, on.only()) {
                    let list = Value::of(Kind::List(Box::new(items.as_ref().clone().join(added))));
                    let list = if list.depth() > 4 { Value::unknown() } else { list };
                    state.set(owner, list);
                } else if let Some(owner) = owner {
                    state.set(owner, Value::unknown());
                }
                Value::nothing()
            }
            "pop" => item.join(Value::nothing()),
            "sum" => item,
            "sort" | "reverse" | "replace" => {
                if texts && let Some(owner) = owner {
                    state.set(owner, Value::text());
                }
                Value::nothing()
            }
            "keys" => Value::of(Kind::List(Box::new(Value::text()))),
            "to_string" => Value::text(),
            "range" => Value::of(Kind::Range),
            _ => Value::unknown(),
        }
    }

    /// When a list of words holds the answer to a choice; finds words that are none of it.
    fn contained(&mut self, on: &Value, wanted: Option<&Value>, place: Place) -> Option<Condition> {
        let (Some(Kind::List(items)), Some(Kind::Text(Texts { choice: Some((input, words)), .. }))) =
            (on.only(), wanted.and_then(Value::only))
        else {
            return None;
        };
        let listed = items.texts()?;
        let (input, words, listed) = (input.clone(), Rc::clone(words), listed.clone());
        if let Some(stray) = listed.iter().find(|word| !words.contains(*word)) {
            let problem = super::operators::no_choice(stray, &input, &words);
            self.add(
                place,
                Sure::Certain,
                ScriptError { marked: crate::engine::script_error::Marked::Whole, ..problem },
            );
        }
        Some(Condition::Is(input, listed))
    }

    /// A function handed to a word: it is called for each item, so its body is read as that of a loop.
    fn handed_over(
        &mut self,
        name: &str,
        on: &Value,
        item: Value,
        function: &'r Node,
        first: Option<&'r Node>,
        state: &mut State,
    ) -> Value {
        let start = first.map(|first| self.node(first, state));
        let What::Function(body) = &function.what else {
            let _value = self.node(function, state);
            return Value::unknown();
        };
        match name {
            "map" => {
                let given = self.each(body, &[item], state);
                Value::of(Kind::List(Box::new(given)))
            }
            "filter" | "all" | "some" => {
                let test = self.each(body, &[item], state);
                self.wants_flag(&test, function.at, "a test must answer yes or no");
                if name == "filter" { on.clone() } else { Value::flag(None) }
            }
            "sort" => {
                let _order = self.each(body, &[item.clone(), item], state);
                Value::nothing()
            }
            _ => {
                let mut sum = start.unwrap_or_else(Value::unknown);
                for _ in 0..3 {
                    let next = sum.clone().join(self.each(body, &[sum.clone(), item.clone()], state));
                    if next == sum {
                        break;
                    }
                    sum = next;
                }
                sum
            }
        }
    }

    fn each(&mut self, body: &'r FunctionTree, items: &[Value], state: &mut State) -> Value {
        let mut given = Value::never();
        for _ in 0..3 {
            let before = state.clone();
            let outer = state.scope.len();
            let named = body.parameters.iter().zip(items).map(|(name, item)| (name.clone(), item.clone()));
            state.scope.extend(named);
            let value = self.function_body(&body.body, state);
            given = given.join(value);
            state.scope.truncate(outer);
            state.live = true;
            let after = std::mem::replace(state, before.clone()).join(before.clone());
            *state = after;
            if *state == before {
                break;
            }
        }
        given
    }
}
