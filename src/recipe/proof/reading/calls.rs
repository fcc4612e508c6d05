//! Calls of functions: built in, of the recipe, of its helper files.

use super::findings::Sure;
use super::kind::{Form, Kind, Texts, Value};
use super::lists;
use super::members::has_member;
use super::operators;
use super::reader::Reader;
use super::state::State;
use crate::diagnostic::DiagnosticKind;
use crate::engine::ScriptError;
use crate::engine::function::{Function, ParameterKind};
use crate::engine::functions;
use crate::engine::script_error::Marked;
use crate::engine::tree::{FunctionTree, Node, What};
use crate::engine::value::Value as ScriptValue;
use crate::quantity::nearest::nearest;
use crate::quantity::{Dimension, Quantity, number};
use crate::recipe::contract::signatures::{self};
use crate::recipe::contract::words::WORDS;

impl<'r> Reader<'r> {
    /// A call by its name, or an operator by its sign.
    pub(super) fn call(
        &mut self,
        space: Option<&str>,
        name: &str,
        arguments: &'r [Node],
        at: usize,
        state: &mut State,
    ) -> Value {
        if let Some(space) = space {
            return self.call_in(space, name, arguments, at, state);
        }
        match (name, arguments) {
            (_, [left, right]) if operators::is_binary(name) => return self.binary(name, left, right, at, state),
            ("-" | "+" | "!", [side]) => return self.unary(name, side, at, state),
            (".." | "..=", [from, to]) => {
                for side in [from, to] {
                    let value = self.node(side, state);
                    let problem = |_: &Kind| {
                        ScriptError::new("a range runs between whole numbers").hinting("round with up(…) or down(…)")
                    };
                    let whole = |kind: &Kind| {
                        !matches!(kind, Kind::Number(Form::Decimal, _)) && kind.dimension() == Some(Dimension::NUMBER)
                    };
                    self.expect(&value, self.place(side.start()), whole, problem);
                }
                return Value::of(Kind::Range);
            }
            // `x in list` is handed over with its sides changed.
            ("contains", [list, _]) => {
                let on = self.node(list, state);
                return self.list_word(
                    "contains",
                    &on,
                    None,
                    arguments.get(1..).unwrap_or_default(),
                    self.place(at),
                    state,
                );
            }
            _ => {}
        }
        let file: Option<&'r crate::engine::ReadScript> = self.files.get(self.file).map(|file| file.script);
        let written: Vec<&'r FunctionTree> =
            file.iter().flat_map(|file| &file.tree.functions).filter(|known| known.name == *name).collect();
        if !written.is_empty() {
            return self.call_one_of(self.file, &written, name, arguments, at, state);
        }
        if let Some(function) = functions::named(name) {
            let values: Vec<Value> = arguments.iter().map(|argument| self.node(argument, state)).collect();
            return self.built_in(function, &values, at);
        }
        if let Some(signature) = signatures::of("unnamed", name) {
            return self.word(signature, &Value::nothing(), arguments, at, state);
        }
        if WORDS.iter().any(|word| word.of == "inputs" && word.name == name) {
            self.each_of(arguments, state);
            return Value::unknown();
        }
        if let Some((first, rest)) = arguments.split_first() {
            let on = self.node(first, state);
            let owner = match &first.what {
                What::Name(name) => Some(name.as_str()),
                _ => None,
            };
            if has_member(&on, name) {
                return self.method(name, &on, owner, rest, at, state);
            }
            self.each_of(rest, state);
            if on.unknown && (lists::takes(name).is_some() || WORDS.iter().any(|word| word.name == name)) {
                return Value::unknown();
            }
        }
        self.no_function(name, at);
        Value::unknown()
    }

    fn no_function(&mut self, name: &str, at: usize) {
        let own = self.files.get(self.file).map(|file| &file.script.tree.functions);
        let own = own.into_iter().flatten().map(|function| function.name.as_str());
        let free = WORDS.iter().filter(|word| ["inputs", "unnamed"].contains(&word.of)).map(|word| word.name);
        let near = nearest(name, functions::all().map(|function| function.name).chain(own).chain(free));
        let problem = ScriptError::new(format!("there is no function “{name}”"));
        let problem = match near {
            Some(near) => {
                let form = functions::named(near).map_or_else(|| format!("{near}(…)"), Function::signature);
                problem.hinting(format!("did you mean {form}?"))
            }
            None => problem,
        };
        self.add(self.place(at), Sure::Certain, problem);
    }

    fn call_in(&mut self, space: &str, name: &str, arguments: &'r [Node], at: usize, state: &mut State) -> Value {
        let imported = self.files.get(self.file).and_then(|file| file.imports.get(space).copied());
        let Some(file) = imported else {
            self.each_of(arguments, state);
            let names = self.files.get(self.file).map(|file| file.imports.keys().cloned().collect::<Vec<_>>());
            let names = names.unwrap_or_default();
            let problem = ScriptError::new(format!("no helper file is imported as “{space}”"));
            let hint = match nearest(space, names.iter().map(String::as_str)) {
                Some(near) => format!("did you mean {near}::?"),
                None => format!("write import \"{space}\" as {space}; at the top"),
            };
            self.add(self.place(at), Sure::Certain, problem.hinting(hint));
            return Value::unknown();
        };
        let Some(file) = file else {
            self.each_of(arguments, state);
            self.unread(at);
            return Value::unknown();
        };
        let script: Option<&'r crate::engine::ReadScript> = self.files.get(file).map(|file| file.script);
        let functions: &'r [FunctionTree] = script.map_or(&[], |script| &script.tree.functions);
        let written: Vec<&'r FunctionTree> = functions.iter().filter(|known| known.name == *name).collect();
        if written.is_empty() {
            self.each_of(arguments, state);
            let problem = ScriptError::new(format!("the helper file “{space}” has no function “{name}”"));
            let near = nearest(name, functions.iter().map(|known| known.name.as_str()));
            self.add(
                self.place(at),
                Sure::Certain,
                match near {
                    Some(near) => problem.hinting(format!("did you mean {space}::{near}?")),
                    None => problem,
                },
            );
            return Value::unknown();
        }
        self.call_one_of(file, &written, name, arguments, at, state)
    }

    /// Calls the function of these that takes as many things as are handed over.
    fn call_one_of(
        &mut self,
        file: usize,
        written: &[&'r FunctionTree],
        name: &str,
        arguments: &'r [Node],
        at: usize,
        state: &mut State,
    ) -> Value {
        let values: Vec<Value> = arguments.iter().map(|argument| self.node(argument, state)).collect();
        if !state.live {
            return Value::never();
        }
        let Some(function) = written.iter().find(|known| known.parameters.len() == values.len()) else {
            let Some(near) = written.first() else { return Value::unknown() };
            let (takes, given) = (near.parameters.len(), values.len());
            let things = if takes == 1 { "thing" } else { "things" };
            let problem = ScriptError::new(format!("{name} takes {takes} {things}, not {given}"));
            let problem = problem.hinting(format!("type {name}({})", near.parameters.join(", ")));
            self.add(self.place(at), Sure::Certain, problem);
            return Value::unknown();
        };
        let given = self.call_written(file, function, &values, at, &state.facts);
        if given.is_never() && !self.is_being_read(file, function) {
            state.live = false;
        }
        given
    }

    /// A built-in function.
    pub(super) fn built_in(&mut self, function: &'static Function, values: &[Value], at: usize) -> Value {
        let most = function.parameters.len();
        let least = function.parameters.iter().filter(|parameter| parameter.default.is_none()).count();
        if !(least..=most).contains(&values.len()) {
            let takes = if least == most { most.to_string() } else { format!("{least} to {most}") };
            let things = if most == 1 { "thing" } else { "things" };
            let problem = ScriptError::new(format!("{} takes {takes} {things}, not {}", function.name, values.len()));
            let problem = problem.hinting(format!("type {}", function.signature()));
            self.add(self.place(at), Sure::Certain, problem);
            return Self::gives(function.result);
        }
        let mut wrong = false;
        for (index, (value, parameter)) in values.iter().zip(function.parameters).enumerate() {
            let problem = |kind: &Kind| match (parameter.kind, kind) {
                (ParameterKind::Count, Kind::Number(_, None)) => {
                    let name = parameter.name;
                    ScriptError::new(format!(
                        "{name} in {} must be a whole number, and this may leave a part",
                        function.name
                    ))
                    .hinting("round it with up(…)")
                    .marking(Marked::Argument(index))
                }
                (ParameterKind::OneOf(words), Kind::Text(Texts { known: Some(known), .. })) => {
                    let stray = known.iter().find(|text| !words.contains(&text.as_str()));
                    let sample = ScriptValue::Text(stray.cloned().unwrap_or_default());
                    function.wrong_argument(index, parameter, &sample)
                }
                _ => {
                    if let Some(sample) = sample(kind) {
                        function.wrong_argument(index, parameter, &sample)
                    } else {
                        let needed = parameter.kind.noun();
                        let message =
                            format!("{} in {} must be {needed}, not {}", parameter.name, function.name, kind.noun());
                        ScriptError::new(message)
                            .hinting(format!("type {}", function.signature()))
                            .marking(Marked::Argument(index))
                    }
                }
            };
            wrong |= !self.expect(value, self.place(at), |kind| accepts(parameter.kind, kind), problem);
        }
        let by_what_it_takes = matches!(
            function.result,
            ParameterKind::Any | ParameterKind::Anything | ParameterKind::Number | ParameterKind::List
        );
        if wrong || !by_what_it_takes {
            return Self::gives(function.result);
        }
        // What such a function gives hangs on what it takes: it is tried with one of each kind.
        let samples: Option<Vec<ScriptValue>> = values.iter().map(|value| sample(value.only()?)).collect();
        let Some(samples) = samples else { return Self::gives(function.result) };
        match function.call(&samples, &self.style) {
            Ok(value) => kind_of(&value).map_or_else(Value::unknown, Value::of),
            Err(_) if !matches!(function.result, ParameterKind::Any | ParameterKind::Anything) => {
                Self::gives(function.result)
            }
            Err(problem) if problem.kind == DiagnosticKind::Unlike => {
                self.add(self.place(at), Sure::Certain, problem);
                Value::unknown()
            }
            Err(_) => {
                let mut dimensions = values.iter().filter_map(|value| value.only()?.dimension());
                match dimensions.next() {
                    Some(first) if dimensions.all(|other| other == first) && !first.is_number() => {
                        Value::of(Kind::of(first))
                    }
                    _ => Self::gives(function.result),
                }
            }
        }
    }

    pub(super) fn gives(kind: ParameterKind) -> Value {
        match kind {
            ParameterKind::Of(dimension) => Value::of(Kind::of(dimension)),
            ParameterKind::Number | ParameterKind::Share => Value::of(Kind::DECIMAL),
            ParameterKind::Count => Value::of(Kind::WHOLE),
            ParameterKind::Numbers => Value::of(Kind::List(Box::new(Value::of(Kind::DECIMAL)))),
            ParameterKind::List => Value::of(Kind::List(Box::new(Value::unknown()))),
            ParameterKind::Flag => Value::flag(None),
            ParameterKind::OneOf(words) => {
                let known = Some(words.iter().map(|word| (*word).to_owned()).collect());
                Value::of(Kind::Text(Texts { known, choice: None }))
            }
            ParameterKind::Any | ParameterKind::Anything => Value::unknown(),
        }
    }
}

/// One value of a kind; `None` for what built-in functions do not take.
fn sample(kind: &Kind) -> Option<ScriptValue> {
    Some(match kind {
        Kind::Number(Form::Whole, figure) => match figure.and_then(number::whole) {
            Some(whole) => ScriptValue::Whole(whole),
            None => ScriptValue::Whole(1),
        },
        Kind::Number(_, figure) => Quantity::number(figure.unwrap_or(2.5)).into(),
        Kind::Measure(dimension) => Quantity::from_steps(1e6, *dimension).into(),
        Kind::Text(texts) => {
            ScriptValue::Text(texts.known.as_ref().and_then(|known| known.first().cloned()).unwrap_or_default())
        }
        Kind::Flag => ScriptValue::Flag(true),
        Kind::Nothing => ScriptValue::Blank,
        Kind::List(items) => ScriptValue::List(vec![sample(items.only()?)?]),
        _ => return None,
    })
}

fn kind_of(value: &ScriptValue) -> Option<Kind> {
    Some(match value {
        ScriptValue::Whole(_) => Kind::WHOLE,
        ScriptValue::Quantity(quantity) => Kind::of(quantity.dimension()),
        ScriptValue::Text(_) => Kind::Text(Texts::ANY),
        ScriptValue::Flag(_) => Kind::Flag,
        ScriptValue::Blank => Kind::Nothing,
        ScriptValue::List(items) => Kind::List(Box::new(Value::of(kind_of(items.first()?)?))),
    })
}

/// Whether a built-in function takes a kind.
fn accepts(parameter: ParameterKind, kind: &Kind) -> bool {
    let quantities =
        |items: &Value| items.kinds.iter().all(|item| item.kind.dimension().is_some() || item.kind == Kind::Nothing);
    if parameter == ParameterKind::Anything {
        return true;
    }
    match (parameter, kind) {
        (ParameterKind::Of(dimension), kind) => kind.dimension() == Some(dimension),
        (ParameterKind::Count, Kind::Number(_, Some(figure))) => number::whole(*figure).is_some_and(|whole| whole >= 0),
        (ParameterKind::Count, Kind::Number(form, None)) => *form != Form::Decimal,
        (ParameterKind::Number | ParameterKind::Share, Kind::Number(..))
        | (ParameterKind::Any, Kind::Number(..) | Kind::Measure(_))
        | (ParameterKind::Flag, Kind::Flag) => true,
        (ParameterKind::OneOf(words), Kind::Text(texts)) => {
            texts.known.as_ref().is_none_or(|known| known.iter().any(|text| words.contains(&text.as_str())))
        }
        (ParameterKind::Numbers, Kind::List(items)) => {
            items.kinds.iter().all(|item| matches!(item.kind, Kind::Number(..)))
        }
        (ParameterKind::List, Kind::List(items)) => quantities(items),
        _ => false,
    }
}
