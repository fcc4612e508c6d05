//! Reads a recipe: its functions in the order in which the program calls them, with what it knows of their arguments.

use super::conditions::{Condition, Facts, words_of};
use super::findings::{Findings, Reading, Sure};
use super::helper_examples;
use super::kind::{Alternative, Kind, Place, Texts, Value};
use super::names::{Names, Spoken};
use super::state::State;
use super::steps::{self, Said};
use super::unused;
use super::vocabulary::Vocabulary;
use crate::engine::ReadScript;
use crate::engine::script_error::{Marked, ScriptError};
use crate::engine::tree::{FunctionTree, Node, What};
use crate::quantity::{Dimension, Quantity, Style};
use crate::recipe::contract::input::Input;
use crate::recipe::contract::input_kind::InputKind;
use crate::recipe::contract::words::WORDS;
use crate::ticket::TicketValue;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// The most nodes that are looked at; a script for which more are needed is left to its runs.
const MOST_LOOKS: usize = 400_000;

/// The most calls inside each other.
const MOST_CALLS: usize = 24;

/// A file of the recipe.
pub(super) struct File<'r> {
    /// Its text and tree.
    pub(super) script: &'r ReadScript,
    /// The numbers of its helper files by the names they have in it; `None` for one that is not there.
    pub(super) imports: BTreeMap<String, Option<usize>>,
}

/// A call that was read before.
struct Known {
    file: usize,
    name: String,
    of_any_order: bool,
    arguments: Vec<Value>,
    facts: Facts,
    /// What it gives; `None` while it is being read.
    gives: Option<Value>,
}

/// A step with the place where it is said.
struct Step {
    said: Said,
    trail: Vec<Place>,
    of_any_order: bool,
}

/// What is being read, and what was found so far.
pub(super) struct Reader<'r> {
    pub(super) files: Vec<File<'r>>,
    pub(super) inputs: &'r [Input],
    pub(super) style: Style,
    /// The file that is being read.
    pub(super) file: usize,
    /// The calls that led here.
    pub(super) trail: Vec<Place>,
    /// What the functions that are being read may give so far, the innermost last.
    pub(super) returns: Vec<Value>,
    /// The loops that are being read, the innermost last.
    pub(super) loops: Vec<Loop>,
    pub(super) findings: Findings,
    pub(super) figures: Names,
    pub(super) pieces: Names,
    /// The figures that examples of helper functions make: another recipe may have them.
    others_figures: Names,
    others_pieces: Names,
    /// Whether an example of a helper function is being read, which is about no order in particular.
    pub(super) of_any_order: bool,
    pub(super) vocabulary: &'r Vocabulary,
    spoken: Vec<Spoken>,
    steps: Vec<Step>,
    /// The inputs that are read.
    pub(super) used: BTreeSet<String>,
    known: Vec<Known>,
    /// The texts that functions of helper files ask for, and whether something may be that.
    asked: BTreeMap<Place, (String, bool)>,
    /// The statements that were looked at, and whether one way at least leads there.
    reached: BTreeMap<Place, bool>,
    /// Whether the work that is being read says how long it takes.
    pub(super) is_timed: bool,
    looks: usize,
    unread: BTreeSet<Place>,
}

/// A loop that is being read.
#[derive(Default)]
pub(super) struct Loop {
    /// The state where it is left, and what it gives.
    pub(super) left: Option<(State, Value)>,
    /// The state where its next round begins early.
    pub(super) again: Option<State>,
}

/// Reads a recipe with its helper files.
///
/// # Errors
/// A helper file cannot be read, in words.
pub(in crate::recipe::proof) fn read(
    recipe: &ReadScript,
    helpers: &BTreeMap<String, ReadScript>,
    inputs: &[Input],
    vocabulary: &Vocabulary,
    style: Style,
) -> Reading {
    let names: Vec<&String> = helpers.keys().collect();
    let imports = |script: &ReadScript| {
        let mut imports = BTreeMap::new();
        let bodies = script.tree.functions.iter().flat_map(|function| &function.body);
        for node in script.tree.statements.iter().chain(bodies) {
            node.each(&mut |node| {
                if let What::Import(path, name) = &node.what {
                    imports.insert(name.clone(), names.iter().position(|known| *known == path).map(|at| at + 1));
                }
            });
        }
        imports
    };
    let scripts: Vec<&ReadScript> = std::iter::once(recipe).chain(helpers.values()).collect();
    let files = scripts.iter().map(|script| File { script, imports: imports(script) }).collect();
    let mut reader = Reader {
        files,
        inputs,
        style,
        file: 0,
        trail: Vec::new(),
        returns: Vec::new(),
        loops: Vec::new(),
        findings: Findings::default(),
        figures: Names::default(),
        pieces: Names::default(),
        others_figures: Names::default(),
        others_pieces: Names::default(),
        of_any_order: false,
        vocabulary,
        spoken: Vec::new(),
        steps: Vec::new(),
        used: BTreeSet::new(),
        known: Vec::new(),
        asked: BTreeMap::new(),
        reached: BTreeMap::new(),
        is_timed: false,
        looks: 0,
        unread: BTreeSet::new(),
    };
    reader.run();
    let unread = reader.unread.len();
    Reading { unread, ..reader.findings.told(&scripts) }
}

impl<'r> Reader<'r> {
    fn run(&mut self) {
        let script = self.files.first().map(|file| file.script);
        let functions: &'r [FunctionTree] = script.map_or(&[], |script| &script.tree.functions);
        let order = || Value::of(Kind::Order);
        for (name, arguments) in [
            ("make", vec![order(), Value::of(Kind::Ticket)]),
            ("after_cutting", vec![order(), Value::of(Kind::Plan), Value::of(Kind::Ticket)]),
            ("inputs", Vec::new()),
            ("examples", Vec::new()),
        ] {
            let found = functions.iter().find(|known| known.name == name && known.parameters.len() == arguments.len());
            if let Some(function) = found {
                let _given = self.read_function(function, &arguments, &Facts::default());
            }
        }
        // What nothing calls is read with anything at all.
        for function in functions {
            if !self.known.iter().any(|known| known.file == 0 && known.name == function.name) {
                let arguments = vec![Value::unknown(); function.parameters.len()];
                let _given = self.read_function(function, &arguments, &Facts::default());
            }
        }
        self.read_helpers();
        self.look_up_pieces();
        self.look_at_steps();
        self.look_at_inputs();
        self.look_at_tags();
        self.look_at_what_is_not_reached();
        self.look_at_what_nothing_is();
        let read = self.imported();
        for (number, file) in self.files.iter().enumerate().filter(|(number, _)| *number == 0 || read.contains(number))
        {
            unused::add(&mut self.findings, number, &file.script.tree);
        }
    }

    /// The numbers of the helper files that the recipe imports, and those import.
    fn imported(&self) -> BTreeSet<usize> {
        let mut found = BTreeSet::new();
        let mut left = vec![0];
        while let Some(file) = left.pop() {
            let imports = self.files.get(file).into_iter().flat_map(|file| file.imports.values().flatten());
            left.extend(imports.filter(|file| found.insert(**file)));
        }
        found
    }

    /// Reads the functions of helper files as their examples call them, whether this recipe calls them or not.
    fn read_helpers(&mut self) {
        let (figures, pieces) = (std::mem::take(&mut self.figures), std::mem::take(&mut self.pieces));
        self.of_any_order = true;
        for file in self.imported() {
            let Some(script) = self.files.get(file).map(|file| file.script) else { continue };
            self.file = file;
            let functions: &'r [FunctionTree] = &script.tree.functions;
            let (examples, own): (Vec<_>, Vec<_>) =
                functions.iter().partition(|function| function.name.starts_with(helper_examples::NAME));
            for example in examples {
                let arguments = [Kind::Order, Kind::Ticket, Kind::Plan].map(Value::of).to_vec();
                let _given = self.read_function(example, &arguments, &Facts::default());
            }
            for function in own {
                if !self.known.iter().any(|known| known.file == file && known.name == function.name) {
                    let arguments = vec![Value::unknown(); function.parameters.len()];
                    let _given = self.read_function(function, &arguments, &Facts::default());
                }
            }
        }
        // What such a function gives may become a step.
        let given = self.known.iter().filter(|known| known.of_any_order).filter_map(|known| known.gives.as_ref());
        let texts = given
            .filter_map(|gives| gives.texts().map(|texts| (texts, gives.kinds.first().and_then(|kind| kind.from))));
        let said: Vec<Said> = texts
            .filter_map(|(texts, from)| Some((texts, from?)))
            .flat_map(|(texts, from)| {
                texts.iter().filter(|text| text.contains('{')).map(move |text| Said::at(text, from))
            })
            .collect();
        for said in said {
            self.say(said);
        }
        self.file = 0;
        self.of_any_order = false;
        self.others_figures = std::mem::replace(&mut self.figures, figures);
        self.others_pieces = std::mem::replace(&mut self.pieces, pieces);
    }

    /// A place in the file that is being read.
    pub(super) fn place(&self, at: usize) -> Place {
        Place { file: self.file, at }
    }

    /// Adds a finding.
    pub(super) fn add(&mut self, place: Place, sure: Sure, problem: ScriptError) {
        self.findings.add(place, sure, problem, Vec::new(), &self.trail, self.of_any_order);
    }

    /// Notes that a statement was come to, or could not be.
    pub(super) fn reach(&mut self, at: usize, live: bool) {
        *self.reached.entry(self.place(at)).or_default() |= live;
    }

    fn look_at_what_is_not_reached(&mut self) {
        for (place, _) in self.reached.iter().filter(|(_, reached)| !**reached) {
            let problem = ScriptError::new("this can never be reached: every way in ends before it");
            let problem = problem.hinting("take it out or move it up");
            self.findings.add(*place, Sure::Caution, problem, Vec::new(), &[], true);
        }
    }

    /// Notes a place that could not be looked at.
    pub(super) fn unread(&mut self, at: usize) {
        self.unread.insert(self.place(at));
    }

    /// Whether there is time for another look.
    pub(super) fn may_look(&mut self, at: usize) -> bool {
        self.looks += 1;
        if self.looks == MOST_LOOKS {
            self.unread(at);
        }
        self.looks < MOST_LOOKS
    }

    /// Whether the function that is being read is one that the program calls.
    pub(super) fn is_outermost(&self) -> bool {
        self.trail.is_empty()
    }

    /// Complains of the kinds of a value that fail a test: for certain if all do, else as possible.
    pub(super) fn expect(
        &mut self,
        value: &Value,
        place: Place,
        test: impl Fn(&Kind) -> bool,
        problem: impl Fn(&Kind) -> ScriptError,
    ) -> bool {
        let failing: Vec<&Alternative> = value.kinds.iter().filter(|alternative| !test(&alternative.kind)).collect();
        let Some(first) = failing.first() else { return true };
        if failing.len() == value.kinds.len() && !value.unknown {
            self.add(place, Sure::Certain, problem(&first.kind));
            return false;
        }
        self.possible(value, first, place, problem(&first.kind));
        true
    }

    /// Adds what is wrong on some ways only: at the branch that is the odd one where it gives another kind of
    /// quantity, else where the value is used.
    pub(super) fn possible(&mut self, value: &Value, odd: &Alternative, place: Place, problem: ScriptError) {
        let is_something = |alternative: &&Alternative| alternative.kind != Kind::Nothing;
        let other = value.kinds.iter().filter(is_something).find(|alternative| alternative.kind != odd.kind);
        match (odd.from, other.filter(|_| is_something(&odd))) {
            (Some(from), Some(other)) if from != place => {
                let (one, two) = (odd.kind.noun(), other.kind.noun());
                let problem = ScriptError::new(format!("this gives {one}, another way {two}")).with_hint(problem.hint);
                let used = vec![(place, "used here".to_owned())];
                self.findings.add(from, Sure::Doubt, problem, used, &self.trail, self.of_any_order);
            }
            (Some(from), None) if from != place && is_something(&odd) => {
                let problem = ScriptError { marked: Marked::Whole, ..problem };
                let used = vec![(place, "used here".to_owned())];
                self.findings.add(from, Sure::Doubt, problem, used, &self.trail, self.of_any_order);
            }
            (Some(from), _) if from != place => {
                let here = vec![(from, format!("from here comes {}", odd.kind.noun()))];
                self.findings.add(place, Sure::Doubt, problem, here, &self.trail, self.of_any_order);
            }
            _ => self.findings.add(place, Sure::Doubt, problem, Vec::new(), &self.trail, self.of_any_order),
        }
    }

    /// Complains of a value that is no yes or no.
    pub(super) fn wants_flag(&mut self, value: &Value, at: usize, needed: &str) -> bool {
        let needed = needed.to_owned();
        let problem = |kind: &Kind| ScriptError::new(format!("{needed}, not {}", kind.noun()));
        self.expect(value, self.place(at), |kind| *kind == Kind::Flag, problem)
    }

    /// The value of an input where the script stands.
    pub(super) fn input(input: &Input, facts: &Facts) -> Value {
        let kind = match &input.kind {
            InputKind::Measure(dimension) => Kind::Measure(*dimension),
            InputKind::Number => Kind::DECIMAL,
            InputKind::Count => Kind::WHOLE,
            InputKind::Choice(_) => {
                let all = Rc::new(words_of(input).unwrap_or_default());
                Kind::Text(Texts { known: facts.words(input), choice: Some((input.name.clone(), all)) })
            }
            InputKind::YesNo => {
                let yes = BTreeSet::from([super::conditions::yes_no(true)]);
                return Value::flag(Some(Condition::Is(input.name.clone(), yes)));
            }
            InputKind::Text => Kind::Text(Texts::ANY),
            InputKind::Gathers => Kind::Gathers,
            InputKind::Cloth => Kind::Goods { notion: false },
            InputKind::Notion => Kind::Goods { notion: true },
            InputKind::List => {
                let dimension = input.range.map_or(Dimension::NUMBER, |range| range.least.dimension());
                Kind::List(Box::new(Value::of(Kind::of(dimension))))
            }
        };
        Value::of(kind)
    }

    /// Reads a function of the file that is being read.
    fn read_function(&mut self, function: &'r FunctionTree, arguments: &[Value], facts: &Facts) -> Value {
        let known = self.known.iter().position(|known| {
            known.file == self.file
                && known.name == function.name
                && known.of_any_order == self.of_any_order
                && known.arguments == arguments
                && known.facts == *facts
        });
        if let Some(known) = known.and_then(|known| self.known.get(known)) {
            // A function that calls itself: what it gives on the way down is not known yet.
            return known.gives.clone().unwrap_or_else(Value::never);
        }
        if self.trail.len() > MOST_CALLS {
            return Value::unknown();
        }
        let at = self.known.len();
        self.known.push(Known {
            file: self.file,
            name: function.name.clone(),
            of_any_order: self.of_any_order,
            arguments: arguments.to_vec(),
            facts: facts.clone(),
            gives: None,
        });
        let mut gives = Value::never();
        // Once more where it calls itself with what it gave the first time.
        for _ in 0..3 {
            let scope = function.parameters.iter().cloned().zip(arguments.iter().cloned()).collect();
            let mut state = State::new(scope, facts.clone());
            let given = self.function_body(&function.body, &mut state);
            let same = given == gives;
            gives = given;
            if let Some(known) = self.known.get_mut(at) {
                known.gives = Some(gives.clone());
            }
            if same || gives.is_never() {
                break;
            }
        }
        self.unlike_exits(&gives);
        gives
    }

    /// Complains of a function that gives one kind of quantity at one end and another at another.
    fn unlike_exits(&mut self, gives: &Value) {
        let quantities = gives.kinds.iter().filter(|alternative| alternative.kind.dimension().is_some());
        let quantities: Vec<&Alternative> = quantities.collect();
        let [first, second, ..] = quantities.as_slice() else { return };
        // A bare number among measures is most likely the odd one.
        let is_number = |alternative: &Alternative| matches!(alternative.kind, Kind::Number(..));
        let (odd, other) = if is_number(first) { (first, second) } else { (second, first) };
        if let (Some(place), Some(elsewhere)) = (odd.from, other.from) {
            let (one, two) = (odd.kind.noun(), other.kind.noun());
            let problem = ScriptError::new(format!("the function gives {one} here and {two} elsewhere"));
            let also = vec![(elsewhere, format!("here it gives {two}"))];
            self.findings.add(place, Sure::Caution, problem, also, &self.trail, true);
        }
    }

    /// Notes what a function asks of a text that is handed to it, and whether anything ever is that.
    pub(super) fn asks_for(&mut self, at: usize, text: &str, may_be: bool) {
        if self.file != 0 {
            let place = self.place(at);
            let asked = self.asked.entry(place).or_insert_with(|| (text.to_owned(), false));
            asked.1 |= may_be;
        }
    }

    fn look_at_what_nothing_is(&mut self) {
        for (place, (text, _)) in self.asked.iter().filter(|(_, (_, may_be))| !may_be) {
            let problem = ScriptError::new(format!("nothing that is handed over is ever “{text}”"));
            let problem = problem.hinting("mend the word, or add an example with it to the function");
            self.findings.add(*place, Sure::Caution, problem, Vec::new(), &[], true);
        }
    }

    /// Reads the statements of a function, and joins what it gives at each of its ends.
    pub(super) fn function_body(&mut self, body: &'r [Node], state: &mut State) -> Value {
        self.returns.push(Value::never());
        let loops = std::mem::take(&mut self.loops);
        let last = self.statements(body, state);
        self.loops = loops;
        let returned = self.returns.pop().unwrap_or_else(Value::never);
        match body.last() {
            Some(end) if state.live => returned.join(last.from(self.place(end.start()))),
            _ => returned,
        }
    }

    /// Whether a function is being read, so that what it gives is not known yet.
    pub(super) fn is_being_read(&self, file: usize, function: &FunctionTree) -> bool {
        self.known.iter().any(|known| known.file == file && known.name == function.name && known.gives.is_none())
    }

    /// Reads a call of a function that is written in a file of the recipe.
    pub(super) fn call_written(
        &mut self,
        file: usize,
        function: &'r FunctionTree,
        arguments: &[Value],
        at: usize,
        facts: &Facts,
    ) -> Value {
        let caller = self.file;
        self.trail.push(self.place(at));
        self.file = file;
        let given = self.read_function(function, arguments, facts);
        self.file = caller;
        self.trail.pop();
        given
    }

    /// Notes that something speaks of a piece.
    pub(super) fn speak_of(
        &mut self,
        place: Place,
        argument: usize,
        names: &BTreeSet<String>,
        is_written: bool,
        loosely: bool,
    ) {
        let (trail, names) = (self.trail.clone(), names.clone());
        let of_any_order = self.of_any_order;
        let loosely = loosely || of_any_order;
        self.spoken.push(Spoken { place, trail, argument, names, is_written, of_any_order, loosely });
    }

    /// Notes a step, with [`steps::OPEN`] for what is not known.
    pub(super) fn say(&mut self, said: Said) {
        let (trail, of_any_order) = (self.trail.clone(), self.of_any_order);
        self.steps.push(Step { said, trail, of_any_order });
    }

    fn look_up_pieces(&mut self) {
        for spoken in std::mem::take(&mut self.spoken) {
            let pieces = if spoken.of_any_order { &self.others_pieces } else { &self.pieces };
            if let Some(problem) = spoken.problem(pieces) {
                let sure = if spoken.loosely { Sure::Caution } else { Sure::Certain };
                self.findings.add(spoken.place, sure, problem, Vec::new(), &spoken.trail, spoken.is_written);
            }
        }
    }

    fn look_at_steps(&mut self) {
        for step in std::mem::take(&mut self.steps) {
            self.used.extend(braced(&step.said.text));
            let is_input = |name: &str| self.inputs.iter().any(|input| input.name == name);
            let of_others =
                |name: &str| step.of_any_order && (self.others_figures.may_hold(name) || Vocabulary::is_input(name));
            let may_be = |name: &str| self.figures.may_hold(name) || is_input(name) || of_others(name);
            let known = || {
                let figures = self.figures.iter().chain(self.others_figures.iter());
                figures.chain(self.inputs.iter().map(|input| input.name.as_str())).collect()
            };
            for (at, problem) in steps::problems(&step.said.text, may_be, known, step.of_any_order) {
                let Some(place) = step.said.place_of(at) else { continue };
                let sure = if step.of_any_order { Sure::Caution } else { Sure::Certain };
                self.findings.add(place, sure, problem, Vec::new(), &step.trail, true);
            }
        }
    }

    fn look_at_tags(&mut self) {
        let Some(script) = self.files.first().map(|file| file.script) else { return };
        for (at, problem) in Vocabulary::tags(script.typed()) {
            self.findings.add(Place { file: 0, at }, Sure::Caution, problem, Vec::new(), &[], true);
        }
    }

    /// Inputs that are not used, and what their declaration says of others.
    fn look_at_inputs(&mut self) {
        let Some(script) = self.files.first().map(|file| file.script) else { return };
        let hung_on = |name: &str| {
            let mut others = self.inputs.iter();
            others.any(|other| {
                other.same_as.as_deref() == Some(name) || other.only_if.as_ref().is_some_and(|(on, _)| on == name)
            })
        };
        let mut found = Vec::new();
        for input in self.inputs {
            let at = declared_at(script, &input.name).unwrap_or(0);
            found.extend(usual_outside(input).map(|problem| (at, problem)));
            found.extend(input.body.iter().filter_map(|body| Some((at, self.vocabulary.body_measure(body)?))));
            if !self.used.contains(&input.name) && !hung_on(&input.name) {
                let problem = ScriptError::new(format!("“{}” is asked for and never used", input.name));
                let hint = format!("use order.{} or take it out", input.name);
                found.push((at, problem.hinting(hint)));
            }
            if let Some((name, wanted)) = &input.only_if
                && let Some(words) = self.inputs.iter().find(|other| other.name == *name).and_then(words_of)
                && let TicketValue::Text(wanted) = wanted
                && !words.contains(wanted)
            {
                let problem = super::operators::no_choice(wanted, name, &words);
                found.push((at, ScriptError { marked: Marked::Whole, ..problem }));
            }
        }
        for (at, problem) in found {
            self.findings.add(Place { file: 0, at }, Sure::Certain, problem, Vec::new(), &[], true);
        }
    }
}

/// The error of a usual answer beyond the ends of its input.
fn usual_outside(input: &Input) -> Option<ScriptError> {
    let (range, usual) = (input.range?, input.usual.as_ref()?);
    let within = |figure: &TicketValue| figure.quantity().is_none_or(|figure| range.holds(figure));
    // Ways to gather are held to their ends all passes together.
    let all_passes = |passes: &[TicketValue]| {
        let ratios = passes.iter().filter_map(TicketValue::quantity).map(Quantity::steps);
        TicketValue::Quantity(Quantity::number(ratios.product()))
    };
    let holds = match (&input.kind, usual) {
        (InputKind::Gathers, TicketValue::List(passes)) => within(&all_passes(passes)),
        (_, TicketValue::List(items)) => items.iter().all(within),
        (_, figure) => within(figure),
    };
    let problem = || ScriptError::new(format!("the usual answer of “{}” lies beyond its own ends", input.name));
    (!holds).then(|| problem().hinting("change the usual value, or an end of .between"))
}

/// The names in braces of a step.
fn braced(text: &str) -> Vec<String> {
    let parts = text.split('{').skip(1).filter_map(|part| part.split_once('}'));
    parts.map(|(name, _)| name.trim().to_owned()).collect()
}

/// The byte at which an input is declared: that of its name in quotes, the first thing in brackets.
fn declared_at(script: &ReadScript, name: &str) -> Option<usize> {
    let quoted = format!("\"{name}\"");
    let declares = |word: &str| WORDS.iter().any(|known| known.of == "inputs" && known.name == word);
    let (mut word, mut before) = ("", "");
    for token in script.tokens() {
        let written = script.typed().get(token.clone()).unwrap_or_default();
        if written == quoted && before == "(" && declares(word) {
            return Some(token.start);
        }
        (word, before) = (before, written);
    }
    None
}
