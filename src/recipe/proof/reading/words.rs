//! Words of the contract: what they take, what they give, and the names that they say.

use super::conditions::Condition;
use super::findings::Sure;
use super::kind::{Form, Kind, Place, Texts, Value};
use super::reader::Reader;
use super::state::State;
use super::steps::{self, Said};
use crate::engine::ScriptError;
use crate::engine::script_error::Marked;
use crate::engine::tree::{Node, What};
use crate::quantity::nearest::nearest;
use crate::quantity::{Dimension, number};
use crate::recipe::contract::input::PIECES;
use crate::recipe::contract::signatures::{EntryOf, Gives, Signature, Takes};
use crate::recipe::contract::words::WORDS;
use crate::textile::thread;
use crate::ticket::cautions;
use std::collections::BTreeSet;

impl<'r> Reader<'r> {
    /// A word of the contract.
    pub(super) fn word(
        &mut self,
        signature: &'static Signature,
        on: &Value,
        arguments: &'r [Node],
        at: usize,
        state: &mut State,
    ) -> Value {
        let values: Vec<Value> = arguments.iter().map(|argument| self.node(argument, state)).collect();
        if !state.live {
            return Value::never();
        }
        let name = signature.name;
        let Some(form) = signature.forms.iter().find(|form| form.len() == values.len()) else {
            let told = WORDS.iter().find(|word| (word.of, word.name) == (signature.of, name));
            let form = told.map_or_else(String::new, |word| word.form.to_string());
            let counts: Vec<String> = signature.forms.iter().map(|form| form.len().to_string()).collect();
            let problem =
                ScriptError::new(format!("{name} takes {} things, not {}", counts.join(" or "), values.len()));
            self.add(self.place(at), Sure::Certain, problem.hinting(format!("type {form}")));
            return on.only().map_or_else(Value::unknown, |kind| Self::given_by(signature.gives, kind));
        };
        for (index, ((argument, takes), value)) in form.iter().zip(&values).enumerate() {
            let node = arguments.get(index);
            self.argument(name, argument, index, *takes, value, at, node, state);
        }
        self.entry_word(name, on, at);
        match (signature.of, signature.name, values.first()) {
            ("order", "has", Some(_)) if self.of_any_order => Value::flag(None),
            ("order", "has", Some(value)) => {
                let input = value.texts().filter(|texts| texts.len() == 1).and_then(|texts| texts.first().cloned());
                let condition = input.map(Condition::Given);
                if let Some(condition) = &condition {
                    self.settled(condition, self.place(at), &state.facts);
                }
                Value::flag(condition)
            }
            _ if signature.gives == Gives::Never => {
                state.live = false;
                Value::never()
            }
            _ => on.only().map_or_else(Value::unknown, |kind| Self::given_by(signature.gives, kind)),
        }
    }

    /// Words that only some entries of the ticket have.
    pub(super) fn entry_word(&mut self, name: &str, on: &Value, at: usize) {
        let problem = match (name, on.only()) {
            ("count", Some(Kind::Entry(EntryOf::Sewing | EntryOf::Work))) => "only a need is so many pieces",
            ("about", Some(Kind::Entry(EntryOf::Sewing | EntryOf::Need))) => "only work has minutes",
            _ => return,
        };
        self.add(self.place(at), Sure::Certain, ScriptError::new(problem));
    }

    pub(super) fn given_by(gives: Gives, on: &Kind) -> Value {
        Value::of(match gives {
            Gives::Of(dimension) => Kind::of(dimension),
            Gives::Number => Kind::DECIMAL,
            Gives::Count => Kind::WHOLE,
            Gives::Text => Kind::Text(Texts::ANY),
            Gives::Flag => return Value::flag(None),
            Gives::Nothing => Kind::Nothing,
            Gives::Never => return Value::never(),
            Gives::Numbers => Kind::List(Box::new(Value::of(Kind::DECIMAL))),
            Gives::Piece => Kind::Piece,
            Gives::Entry(of) => Kind::Entry(of),
            Gives::Same => on.clone(),
            Gives::Cloth => Kind::Goods { notion: false },
            Gives::Notion => Kind::Goods { notion: true },
        })
    }

    /// One argument of a word of the contract.
    #[allow(clippy::too_many_arguments, reason = "an argument is known by its word, its name and its place")]
    pub(super) fn argument(
        &mut self,
        word: &str,
        name: &str,
        index: usize,
        takes: Takes,
        value: &Value,
        at: usize,
        node: Option<&'r Node>,
        state: &State,
    ) {
        let place = self.place(at);
        let needed = needed(takes);
        let problem = |kind: &Kind| {
            let problem = match (takes, kind) {
                (Takes::Count, Kind::Number(..)) => {
                    ScriptError::new(format!("{name} in {word} must be a whole number, and this may leave a part"))
                        .hinting("round it with up(…)")
                }
                _ => ScriptError::new(format!("{name} in {word} must be {needed}, not {}", kind.noun())),
            };
            let problem = match (takes, kind) {
                (Takes::Of(Dimension::LENGTH), Kind::Number(_, Some(bare))) => {
                    let bare = crate::quantity::Style::default().show_number(*bare);
                    problem.hinting(format!("give it a unit: {bare} in or {bare} cm"))
                }
                _ => problem,
            };
            problem.marking(Marked::Argument(index))
        };
        if !self.expect(value, place, |kind| fits(takes, kind), problem) {
            return;
        }
        let all = value.only().is_some_and(|kind| matches!(kind, Kind::Text(_)));
        let texts = value.texts();
        match (takes, texts) {
            (Takes::OneOf(words), Some(texts)) => self.one_of(word, name, index, &words(), texts, place),
            (Takes::Shift, Some(texts)) => self.one_of(word, name, index, &["straight", "half drop"], texts, place),
            (Takes::InputName, Some(texts)) => {
                for text in texts {
                    if word == "has" {
                        self.used.insert(text.clone());
                    }
                    if text != PIECES && !self.of_any_order && !self.inputs.iter().any(|input| input.name == *text) {
                        let problem = self.no_input(text).marking(Marked::Argument(index));
                        self.add(place, Sure::Certain, problem);
                    }
                }
            }
            // Any input may be meant.
            (Takes::InputName, None) if all && word == "has" => {
                self.used.extend(self.inputs.iter().map(|input| input.name.clone()));
            }
            (Takes::NewFigure | Takes::NewPiece, _) => {
                let mut said = vec![Said::default()];
                match (texts, node) {
                    (Some(texts), _) => said = texts.iter().map(|text| Said::of(text)).collect(),
                    (None, Some(node)) => self.spoken_texts(node, state, &mut said),
                    (None, None) => said = vec![Said::of(&steps::OPEN.to_string())],
                }
                let names = said.into_iter().map(|said| said.text);
                if matches!(takes, Takes::NewFigure) { &mut self.figures } else { &mut self.pieces }.add(names);
            }
            (Takes::PieceName | Takes::MarkedName, Some(texts)) => {
                let is_written = node.is_some_and(|node| matches!(node.what, What::Text(_)));
                self.speak_of(place, index, texts, is_written, matches!(takes, Takes::MarkedName));
            }
            (Takes::Caution, Some(texts)) => {
                if let Some(stray) = texts.iter().find(|key| cautions::caution(key).is_none()) {
                    let problem = ScriptError::new(format!("there is no caution “{stray}”"));
                    let hint = match nearest(stray, cautions::keys()) {
                        Some(near) => format!("did you mean “{near}”?"),
                        None => format!("the cautions are {}", cautions::keys().collect::<Vec<_>>().join(", ")),
                    };
                    self.add(place, Sure::Certain, problem.hinting(hint).marking(Marked::Argument(index)));
                }
            }
            (Takes::Text, Some(texts)) if word == "work" && index == 0 => {
                let timed = self.is_timed;
                let found = texts.iter().find_map(|operation| self.vocabulary.operation(operation, timed));
                if let Some(problem) = found {
                    self.add(place, Sure::Caution, problem.marking(Marked::Argument(index)));
                }
            }
            (Takes::StitchClass, Some(texts)) => {
                if let Some(error) = texts.iter().find_map(|class| thread::stitch_class(class).err()) {
                    let problem = ScriptError::of(&error, &self.style).marking(Marked::Argument(index));
                    self.add(place, Sure::Certain, problem);
                }
            }
            (Takes::Step, _) => {
                if let Some(node) = node {
                    let mut texts = vec![Said::default()];
                    self.spoken_texts(node, state, &mut texts);
                    for said in texts {
                        self.say(said);
                    }
                }
            }
            _ => {}
        }
    }

    pub(super) fn one_of(
        &mut self,
        word: &str,
        name: &str,
        index: usize,
        words: &[&str],
        texts: &BTreeSet<String>,
        place: Place,
    ) {
        let stray: Vec<&String> = texts.iter().filter(|text| !words.contains(&text.as_str())).collect();
        let Some(first) = stray.first() else { return };
        let listed: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
        let problem = ScriptError::new(format!("{name} in {word} must be {}, not \"{first}\"", listed.join(" or ")));
        let sure = if stray.len() == texts.len() { Sure::Certain } else { Sure::Caution };
        self.add(place, sure, problem.marking(Marked::Argument(index)));
    }

    /// The texts that a step may be, with [`steps::OPEN`] for what is not known; read from what is written rather than
    /// from its value, so that a step with one open value is still looked at.
    pub(super) fn spoken_texts(&mut self, node: &'r Node, state: &State, texts: &mut Vec<Said>) {
        let place = self.place(node.at);
        let append = |texts: &mut Vec<Said>, end: &str| texts.iter_mut().for_each(|said| said.add(end, place));
        let open = steps::OPEN.to_string();
        match &node.what {
            What::Text(text) => append(texts, text),
            What::Joined(parts) => {
                // Its parts have places within the text, which is marked as a whole.
                for part in parts {
                    match &part.what {
                        What::Text(text) => append(texts, text),
                        _ => self.spoken_texts(part, state, texts),
                    }
                }
            }
            What::Call { space: None, name, arguments } if name == "+" && arguments.len() == 2 => {
                for side in arguments {
                    self.spoken_texts(side, state, texts);
                }
            }
            What::If { then, otherwise, .. } => {
                let mut other = texts.clone();
                match (then.as_slice(), otherwise.as_slice()) {
                    ([one], [two]) => {
                        self.spoken_texts(one, state, texts);
                        self.spoken_texts(two, state, &mut other);
                        texts.extend(other);
                    }
                    _ => append(texts, &open),
                }
            }
            What::Name(name) => {
                let value = state.get(name);
                let from = value.and_then(|value| value.kinds.first()).and_then(|kind| kind.from).unwrap_or(place);
                match value.and_then(Value::texts).filter(|known| known.len() <= 4) {
                    Some(known) => {
                        let ends = known.iter().flat_map(|end| {
                            texts.iter().map(move |said| {
                                let mut said = said.clone();
                                said.add(end, from);
                                said
                            })
                        });
                        *texts = ends.collect();
                    }
                    None => append(texts, &open),
                }
            }
            _ => append(texts, &open),
        }
        texts.truncate(16);
    }
}

/// Whether a word of the contract takes a kind.
fn fits(takes: Takes, kind: &Kind) -> bool {
    match (takes, kind) {
        (Takes::Of(dimension), kind) => kind.dimension() == Some(dimension),
        (Takes::Count, Kind::Number(_, Some(figure))) => number::whole(*figure).is_some(),
        (Takes::Count, Kind::Number(form, None)) => *form != Form::Decimal,
        (Takes::Number, Kind::Number(..))
        | (Takes::Amount, Kind::Number(..) | Kind::Measure(Dimension::LENGTH))
        | (Takes::Price, Kind::Measure(Dimension::MONEY | Dimension::MONEY_BY_LENGTH))
        | (Takes::Plain, Kind::Number(..) | Kind::Measure(_) | Kind::Text(_) | Kind::Flag | Kind::List(_))
        | (Takes::Shift, Kind::Text(_) | Kind::Measure(Dimension::LENGTH))
        | (Takes::Cloth, Kind::Goods { notion: false })
        | (Takes::Notion, Kind::Goods { notion: true })
        | (Takes::Corners, Kind::List(_))
        | (
            Takes::Text
            | Takes::OneOf(_)
            | Takes::InputName
            | Takes::NewFigure
            | Takes::NewPiece
            | Takes::PieceName
            | Takes::MarkedName
            | Takes::Caution
            | Takes::StitchClass
            | Takes::Step,
            Kind::Text(_),
        ) => true,
        _ => false,
    }
}

fn needed(takes: Takes) -> String {
    match takes {
        Takes::Of(dimension) => dimension.noun(),
        Takes::Number => "a plain number".to_owned(),
        Takes::Count => "a whole number".to_owned(),
        Takes::Amount => "a length or a number".to_owned(),
        Takes::Price => "a price such as $6/yd".to_owned(),
        Takes::Plain => "a number, a measure or a text".to_owned(),
        Takes::Shift => "a length, \"straight\" or \"half drop\"".to_owned(),
        Takes::Cloth => "a cloth".to_owned(),
        Takes::Notion => "a notion".to_owned(),
        Takes::Corners => "a list of corners".to_owned(),
        _ => "a text".to_owned(),
    }
}
