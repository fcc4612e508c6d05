//! The script engine's errors, translated into diagnostics.
//!
//! None of the script engine's own wording reaches a user: type names, signatures and error names stop here.

use super::common_mistakes;
use super::function_literals;
use super::functions;
use super::limits::Stopped;
use super::member::Member;
use super::script_error::{Marked, ScriptError};
use super::sources::Sources;
use super::text::rewrite::Source;
use super::text::tokens::TokenKind;
use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::quantity::Unit;
use crate::quantity::nearest::nearest;
use rhai::{EvalAltResult, ImmutableString, LexError, ParseError, ParseErrorType, Position};

/// The help topic on how measures are typed.
const UNITS: &str = "units";

/// The context needed to translate an error of the script engine.
pub(super) struct Translation<'h> {
    /// The script that was run.
    pub(super) source: &'h Source,
    /// All scripts by name, for errors inside helper files.
    pub(super) sources: &'h Sources,
    /// Names that may be suggested for a mistyped one.
    pub(super) names: &'h [String],
    /// The members of host objects.
    pub(super) members: &'static [Member],
}

impl Translation<'_> {
    /// An error found while reading a script.
    pub(super) fn parse_error(&self, error: &ParseError) -> Diagnostic {
        let problem = parse_problem(error.err_type());
        let byte = error
            .position()
            .line()
            .and_then(|line| self.source.byte_at(line, error.position().position().unwrap_or(1)));
        let literal = byte.and_then(|byte| self.source.token_at(byte)).filter(|token| {
            self.source.tokens().get(*token).is_some_and(|token| matches!(token.kind, TokenKind::Literal(_)))
        });
        let comma = byte.and_then(|byte| self.source.token_at(byte));
        let unlike = byte.and_then(|byte| common_mistakes::unlike(self.source, byte));
        let comma = comma.and_then(|comma| common_mistakes::decimal_comma(self.source, comma)).or(unlike);
        let problem = match (literal, comma) {
            // The engine's message is about the literal's replacement.
            (Some(token), _) => self.misplaced_literal(token),
            (None, Some(hint)) => problem.hinting(hint),
            (None, None) => problem,
        };
        Self::placed(problem, error.position(), self.source)
    }

    /// The error of a function that is written where nothing calls it at once.
    pub(super) fn misplaced_function(&self, at: Position) -> Diagnostic {
        Self::placed(misplaced_function(), at, self.source)
    }

    /// The error of a measure that follows a complete sum.
    fn misplaced_literal(&self, token: usize) -> ScriptError {
        let text = |token: Option<usize>| {
            let span = token.and_then(|token| self.source.tokens().get(token)).map(|token| token.span.clone());
            span.and_then(|span| self.source.typed.get(span)).unwrap_or_default()
        };
        let problem = ScriptError::new(format!("put = or + before {}", text(Some(token))));
        let problem = problem.of_kind(DiagnosticKind::Syntax);
        let before = text(token.checked_sub(1));
        let names = token == 1 && before.starts_with(|c: char| c.is_alphabetic() || c == '_');
        if names { problem.hinting(format!("to name it, type {before} = {}", text(Some(token)))) } else { problem }
    }

    /// An error met while running a script.
    pub(super) fn eval_error(&self, error: &EvalAltResult) -> Diagnostic {
        let mut trace = Vec::new();
        let mut error = error;
        let mut source = self.source.clone();
        let mut outer = Position::NONE;
        // The innermost error has the position; the enclosing ones give the trace.
        loop {
            match error {
                EvalAltResult::ErrorInFunctionCall(_, file, inner, at) => {
                    trace.extend(assigned_name_at(&source, *at));
                    if let Some(other) = self.sources.borrow().get(file.as_str()) {
                        source = other.clone();
                    }
                    outer = Position::NONE;
                    error = inner;
                }
                EvalAltResult::ErrorInModule(file, inner, at) => {
                    trace.extend(assigned_name_at(&source, *at));
                    if let Some(other) = self.sources.borrow().get(file.as_str()) {
                        source = other.clone();
                    }
                    error = inner;
                }
                _ => break,
            }
            if outer.is_none() {
                outer = error.position();
            }
        }
        let at = if error.position().is_none() { outer } else { error.position() };
        let mut diagnostic = Self::placed(self.eval_problem(error), at, &source);
        let mut steps: Vec<String> = assigned_name_at(&source, at).into_iter().collect();
        steps.extend(trace.into_iter().rev());
        steps.dedup();
        diagnostic.trace = steps;
        diagnostic
    }

    fn placed(problem: ScriptError, at: Position, source: &Source) -> Diagnostic {
        placed_at(problem, at.line().and_then(|line| source.byte_at(line, at.position().unwrap_or(1))), source)
    }

    fn eval_problem(&self, error: &EvalAltResult) -> ScriptError {
        match error {
            EvalAltResult::ErrorRuntime(token, _) => {
                if let Some(problem) = token.clone().try_cast::<ScriptError>() {
                    return problem;
                }
                let text = token.clone().try_cast::<ImmutableString>();
                ScriptError::new(text.map_or_else(|| "the recipe gave up here".to_owned(), |text| text.to_string()))
            }
            EvalAltResult::ErrorParsing(kind, _) => parse_problem(kind),
            EvalAltResult::ErrorVariableNotFound(name, _) => self.unknown_name(name),
            EvalAltResult::ErrorFunctionNotFound(signature, _) => self.no_function(signature),
            EvalAltResult::ErrorMismatchDataType(needed, given, _)
            | EvalAltResult::ErrorMismatchOutputType(needed, given, _) => {
                ScriptError::new(format!("{} is needed here, not {}", type_noun(needed), type_noun(given)))
                    .of_kind(DiagnosticKind::Unlike)
            }
            EvalAltResult::ErrorPropertyNotFound(name, _) => ScriptError::new(format!("there is no “{name}” in it")),
            EvalAltResult::ErrorDotExpr(message, _) => self.no_member(message),
            EvalAltResult::ErrorIndexingType(kind, _) => {
                let kind = kind.split(" [").next().unwrap_or_default();
                ScriptError::new(format!("{} has no items to pick from", type_noun(kind)))
            }
            EvalAltResult::ErrorIndexNotFound(..) => ScriptError::new("there is no such item"),
            EvalAltResult::ErrorArrayBounds(length, index, _) => {
                ScriptError::new(format!("there is no item {index}: the list has {length}, counted from 0"))
            }
            EvalAltResult::ErrorStringBounds(length, index, _) => {
                ScriptError::new(format!("there is no letter {index}: the text has {length}, counted from 0"))
            }
            EvalAltResult::ErrorArithmetic(..) => {
                ScriptError::new("the result is too large to reckon with").of_kind(DiagnosticKind::OutOfRange)
            }
            EvalAltResult::ErrorFor(_) => {
                ScriptError::new("only a list or a range can be gone through").hinting("type for i in 0..3 { … }")
            }
            EvalAltResult::ErrorAssignmentToConstant(name, _) => {
                ScriptError::new(format!("“{name}” is fixed and cannot be changed"))
            }
            EvalAltResult::ErrorNonPureMethodCallOnConstant(name, _) => {
                ScriptError::new(format!("“{name}” would change something that is fixed"))
            }
            EvalAltResult::ErrorModuleNotFound(name, _) => {
                ScriptError::new(format!("there is no helper file “{name}”"))
            }
            EvalAltResult::ErrorUnboundThis(_) => ScriptError::new("“this” means nothing here"),
            _ => limit_problem(error),
        }
    }

    fn unknown_name(&self, name: &str) -> ScriptError {
        let problem = ScriptError::new(format!("I don't know the word {name}"))
            .of_kind(DiagnosticKind::UnknownName(name.to_owned()));
        if Unit::named(name).is_some() {
            return problem.hinting(format!(
                "a unit needs a number before it: 3 {name}; to see a length in it, type waist as {name}"
            ));
        }
        if let Some(function) = functions::named(name) {
            return problem.hinting(format!("it is a function: type {}", function.signature()));
        }
        if name == "π" {
            return problem.hinting("type pi()");
        }
        // `waist` must not suggest `survey_waist`.
        let end = format!("_{name}");
        let functions = functions::all().map(|function| function.name).filter(|function| !function.ends_with(&end));
        let near = nearest(name, self.names.iter().map(String::as_str).chain(functions));
        problem.with_hint(near.map(|near| format!("did you mean “{near}”?")))
    }

    /// No function of that name takes these arguments; the engine writes the signature as `name (A, B)`.
    fn no_function(&self, signature: &str) -> ScriptError {
        let (name, types) = signature.split_once(" (").unwrap_or((signature, ""));
        let name = name.rsplit("::").next().unwrap_or(name).trim();
        let nouns: Vec<String> = split_types(types.trim_end_matches(')')).map(type_noun).collect();
        let listed = nouns.join(" and ");
        let joined = match name {
            "+" => Some("added"),
            "-" if nouns.len() == 2 => Some("taken from each other"),
            "*" => Some("multiplied"),
            "/" => Some("divided"),
            "^" => Some("raised to a power"),
            "==" | "!=" | "<" | "<=" | ">" | ">=" => Some("compared"),
            _ => None,
        };
        if let Some(done) = joined {
            return ScriptError::new(format!("{listed} cannot be {done}"))
                .of_kind(DiagnosticKind::Unlike)
                .marking(Marked::Sides);
        }
        if name.starts_with("..") {
            return ScriptError::new("a range runs between whole numbers").hinting("round with up(…) or down(…)");
        }
        if name == "-" || name == "!" {
            if name == "!" {
                let problem = ScriptError::new(format!("only a yes or no can be turned round, not {listed}"));
                return problem.hinting("put what is compared in brackets: not (days > 3)");
            }
            return ScriptError::new(format!("{listed} cannot have “{name}” before it"));
        }
        if let Some(function) = functions::named(name) {
            let most = function.parameters.len();
            let least = function.parameters.iter().filter(|parameter| parameter.default.is_none()).count();
            let takes = if least == most { most.to_string() } else { format!("{least} to {most}") };
            let message = format!("{name} takes {takes} {}, not {}", things(most), nouns.len());
            let to_steps = ["up", "down", "nearest"].contains(&name) && nouns.len() == 2;
            let steps =
                if to_steps { format!("; for whole steps, rounded_{name}(amount, step)") } else { String::new() };
            return ScriptError::new(message).hinting(format!("type {}{steps}", function.signature()));
        }
        if let Some(problem) = self.no_member_function(name, types) {
            return problem;
        }
        let own: Vec<&str> = self.source.function_names().collect();
        let near = nearest(name, functions::all().map(|function| function.name).chain(own.iter().copied()));
        let known_elsewhere = own.contains(&name);
        let problem = if known_elsewhere {
            ScriptError::new(format!("“{name}” is not written for {listed}"))
        } else {
            ScriptError::new(format!("there is no function “{name}”"))
                .of_kind(DiagnosticKind::UnknownName(name.to_owned()))
        };
        match near {
            Some(near) if !known_elsewhere => {
                let signature =
                    functions::named(near).map_or_else(|| format!("{near}(…)"), super::function::Function::signature);
                problem.hinting(format!("did you mean {signature}?"))
            }
            _ => problem,
        }
    }
}

impl Translation<'_> {
    /// Parses the engine's message: Unknown property 'x' - a getter is not registered for type 'T'.
    fn no_member(&self, message: &str) -> ScriptError {
        let mut quoted = message.split('\'').skip(1).step_by(2);
        match (quoted.next(), quoted.next()) {
            (Some(member), Some(kind)) => {
                let of_kind = self.members.iter().filter(|known| known.of == kind).map(|known| known.name);
                let problem = ScriptError::new(format!("{} has no “{member}”", type_noun(kind)));
                problem.with_hint(nearest(member, of_kind).map(|near| format!("did you mean “{near}”?")))
            }
            (Some(member), None) => ScriptError::new(format!("there is no “{member}” in it")),
            _ => ScriptError::new("it has no such part"),
        }
    }

    /// The error of a member function that is mistyped or has the wrong arguments; `None` if no member is near.
    fn no_member_function(&self, name: &str, types: &str) -> Option<ScriptError> {
        let kind = split_types(types.trim_end_matches(')')).next().unwrap_or_default();
        let of_kind = || self.members.iter().filter(|member| member.of == kind);
        if let Some(member) = of_kind().find(|member| member.name == name) {
            let message = format!("“{name}” is not written for these things");
            return Some(ScriptError::new(message).hinting(format!("type {}", member.form)));
        }
        if of_kind().next().is_some() {
            let near = nearest(name, of_kind().map(|member| member.name));
            let problem = ScriptError::new(format!("{} has no “{name}”", type_noun(kind)));
            return Some(problem.with_hint(near.map(|near| format!("did you mean “{near}”?"))));
        }
        let inputs = || self.members.iter().filter(|member| member.is_free());
        if let Some(member) = inputs().find(|member| member.name == name) {
            let message = format!("“{name}” is not written for these things");
            return Some(ScriptError::new(message).hinting(format!("type {}", member.form)));
        }
        let near = nearest(name, inputs().map(|member| member.name))?;
        let problem = ScriptError::new(format!("there is no function “{name}”"));
        let problem = problem.of_kind(DiagnosticKind::UnknownName(name.to_owned()));
        Some(problem.hinting(format!("did you mean “{near}”?")))
    }
}

impl Source {
    /// Functions the script defines.
    fn function_names(&self) -> impl Iterator<Item = &str> {
        let text = |index: usize| self.tokens().get(index).and_then(|token| self.typed.get(token.span.clone()));
        (1..self.tokens().len()).filter(move |index| text(index - 1) == Some("fn")).filter_map(text)
    }
}

/// The error of a function that is written where nothing calls it at once.
pub(super) fn misplaced_function() -> ScriptError {
    ScriptError::new("a function can only be handed over at once, not kept").of_kind(DiagnosticKind::Syntax).hinting(
        format!("write |x| … inside the brackets of {}; or give it a name with fn", function_literals::takers()),
    )
}

fn things(count: usize) -> &'static str {
    if count == 1 { "thing" } else { "things" }
}

fn assigned_name_at(source: &Source, at: Position) -> Option<String> {
    let byte = source.byte_at(at.line()?, at.position().unwrap_or(1))?;
    source.assigned_name(byte).map(str::to_owned)
}

/// Splits the types of a signature; the type name of a text contains ` | `, which does not separate types.
fn split_types(types: &str) -> impl Iterator<Item = &str> {
    types.split(", ").filter(|name| !name.is_empty())
}

pub(super) fn type_noun(name: &str) -> String {
    // The engine's parser has names of its own, with an article.
    match name.trim() {
        "i64" | "f64" | "a number" | "a floating-point number" => "a plain number".to_owned(),
        "bool" | "a boolean" | "a boolean expression" => "a yes or no".to_owned(),
        "string" | "&str | ImmutableString | String" | "a string" => "a text".to_owned(),
        "array" | "an array" => "a list".to_owned(),
        "map" | "an object map" => "a #{ … } group".to_owned(),
        "()" => "nothing".to_owned(),
        "char" | "a character" => "a letter".to_owned(),
        "Fn" => "a function".to_owned(),
        "measure" => "a measure".to_owned(),
        "an iterable value" => "a list or a range".to_owned(),
        other if other.contains("range") || other.contains("Range") => "a range".to_owned(),
        // Singular, although its name is a plural.
        "gathers" => "a way to gather".to_owned(),
        // A type name with a path is internal and is not shown.
        other => match other.rsplit_once("::").map(|(_, last)| last) {
            Some("Measured") => "a measure".to_owned(),
            Some("Spread") => "a measure with ±".to_owned(),
            Some("Blank") => "a blank".to_owned(),
            Some(_) => "something of another kind".to_owned(),
            None => format!("{} {other}", if other.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }),
        },
    }
}

fn limit_problem(error: &EvalAltResult) -> ScriptError {
    let problem =
        match error {
            EvalAltResult::ErrorTerminated(token, _) => match token.clone().try_cast::<Stopped>() {
                Some(Stopped::Operations) => ScriptError::new("this goes on for too long and was stopped")
                    .hinting("look for a loop that never ends"),
                Some(Stopped::Memory) => ScriptError::new("this needs more memory than a recipe may use"),
                _ => return ScriptError::new("stopped").of_kind(DiagnosticKind::Stopped),
            },
            EvalAltResult::ErrorStackOverflow(_) => ScriptError::new("functions call each other too deeply")
                .hinting("look for a function that calls itself"),
            EvalAltResult::ErrorDataTooLarge(what, _) => {
                // The engine says "Length of string", "Size of array/BLOB" or "Size of object map".
                let noun = match what.as_str() {
                    what if what.contains("string") => "a text",
                    what if what.contains("map") => "a #{ … } group",
                    _ => "a list",
                };
                ScriptError::new(format!("{noun} becomes too large here"))
            }
            EvalAltResult::ErrorTooManyVariables(_) => ScriptError::new("there are too many names here"),
            EvalAltResult::ErrorTooManyModules(_) => ScriptError::new("too many helper files are imported"),
            _ => return ScriptError::new("this cannot be worked out"),
        };
    problem.of_kind(DiagnosticKind::Limit)
}

fn parse_problem(kind: &ParseErrorType) -> ScriptError {
    let problem = parse_words(kind);
    match problem.kind {
        DiagnosticKind::Error => problem.of_kind(DiagnosticKind::Syntax),
        _ => problem,
    }
}

fn parse_words(kind: &ParseErrorType) -> ScriptError {
    match kind {
        ParseErrorType::UnexpectedEOF => ScriptError::new("something is missing at the end"),
        ParseErrorType::BadInput(error) => lex_problem(error),
        ParseErrorType::MissingToken(token, _) if token == ";" => {
            ScriptError::new("“;” is missing before this").hinting("end the statement before it with ;")
        }
        ParseErrorType::MissingToken(token, _) => ScriptError::new(format!("“{token}” is missing here")),
        ParseErrorType::ExprExpected(_) | ParseErrorType::MissingSymbol(_) => {
            ScriptError::new("a number, a measure or a name is missing here")
        }
        ParseErrorType::UnknownOperator(word) if word.chars().all(|c| c.is_alphanumeric() || c == '_') => {
            ScriptError::new(format!("put = or + before {word}")).hinting("a function takes brackets: up(12.2)")
        }
        ParseErrorType::UnknownOperator(symbol) | ParseErrorType::Reserved(symbol) => symbol_problem(symbol),
        ParseErrorType::VariableExpected | ParseErrorType::PropertyExpected => {
            ScriptError::new("a name is missing here")
        }
        ParseErrorType::ForbiddenVariable(name) => ScriptError::new(format!("“{name}” cannot be used as a name")),
        ParseErrorType::VariableUndefined(name) => {
            ScriptError::new(format!("I don't know the word {name}")).of_kind(DiagnosticKind::UnknownName(name.clone()))
        }
        ParseErrorType::VariableExists(name) | ParseErrorType::DuplicatedVariable(name) => {
            ScriptError::new(format!("“{name}” is named twice"))
        }
        ParseErrorType::DuplicatedProperty(name) => ScriptError::new(format!("“{name}” stands twice in the group")),
        ParseErrorType::MismatchedType(needed, given) => {
            ScriptError::new(format!("{} is needed here, not {}", type_noun(needed), type_noun(given)))
        }
        ParseErrorType::FnDuplicatedDefinition(name, _) => {
            ScriptError::new(format!("the function “{name}” is written twice"))
        }
        ParseErrorType::FnDuplicatedParam(name, argument) => {
            ScriptError::new(format!("“{argument}” stands twice among the arguments of “{name}”"))
        }
        ParseErrorType::FnMissingName | ParseErrorType::FnMissingParams(_) | ParseErrorType::FnMissingBody(_) => {
            ScriptError::new("the function is not finished").hinting("type fn name(a, b) { … }")
        }
        ParseErrorType::WrongFnDefinition => ScriptError::new("a function cannot be written inside another"),
        ParseErrorType::AssignmentToConstant(name) => {
            ScriptError::new(format!("“{name}” is fixed and cannot be changed"))
        }
        ParseErrorType::AssignmentToInvalidLHS(_) => {
            ScriptError::new("only a name can be given a value").hinting("to compare, type ==")
        }
        ParseErrorType::LiteralTooLarge(..) => ScriptError::new("this is too long"),
        ParseErrorType::ExprTooDeep => ScriptError::new("this has too many brackets inside each other"),
        ParseErrorType::TooManyFunctions => ScriptError::new("there are too many functions"),
        ParseErrorType::LoopBreak => ScriptError::new("there is no loop to break out of here"),
        _ => ScriptError::new("this cannot be understood here"),
    }
}

fn lex_problem(error: &LexError) -> ScriptError {
    match error {
        LexError::UnterminatedString => {
            ScriptError::new("a text is begun here and not ended").hinting("end it with \"")
        }
        LexError::UnexpectedInput(text) => unexpected(text),
        LexError::ImproperSymbol(symbol, _) => symbol_problem(symbol),
        LexError::MalformedNumber(text) => ScriptError::new(format!("“{text}” is not a number")),
        LexError::MalformedIdentifier(text) => ScriptError::new(format!("“{text}” cannot be a name")),
        LexError::StringTooLong(_) => ScriptError::new("this is too long"),
        LexError::MalformedEscapeSequence(text) => ScriptError::new(format!("“{text}” means nothing inside a text")),
        LexError::MalformedChar(_) => ScriptError::new("a text is written between two marks like these: \"…\"")
            .hinting("a foot is written 5' or 5 ft"),
        _ => ScriptError::new("this cannot be understood here"),
    }
}

/// The error of an unexpected token after a complete sum.
fn unexpected(text: &str) -> ScriptError {
    // The engine's lexer puts it in its own words: Unexpected '²', or ':;' is not a valid symbol.
    let quoted = text.strip_prefix("Unexpected '").and_then(|text| text.strip_suffix('\''));
    let symbol = || text.strip_prefix('\'')?.split_once("' is not a valid ").map(|(symbol, _)| symbol);
    let text = quoted.or_else(symbol).unwrap_or(text);
    let hint = match text {
        "x" | "X" => Some("for times, type *"),
        "mod" => Some("for what is left over, type remainder(7, 3)"),
        "²" | "³" => Some("for a power, type 2 ^ 3"),
        "," => Some("for a decimal, type a point: 2.5"),
        "as" => Some("behind “as” stands the unit to show it in, at the end of the line: waist as cm"),
        "at" | "a" | "an" | "per" => {
            Some("for a price, type $4.50/yd or $18/h; for what that comes to, 3 yd * $4.50/yd")
        }
        "of" => Some("for a part of something, type 8 % of 20 in; with a name for the share, share * 20 in"),
        _ => None,
    };
    if ["let", "const", "fn", "import", "return", "if", "for", "while", ":=", "===", "!==", "++", "--"].contains(&text)
    {
        return symbol_problem(text);
    }
    let word = text.starts_with(char::is_alphabetic);
    let problem = ScriptError::new(if word { format!("put = or + before {text}") } else { cannot_be_here(text) });
    let names = word.then(|| "a name of two words is written with _: gathered_flat".to_owned());
    problem.with_hint(hint.map(str::to_owned).or(names))
}

fn cannot_be_here(text: &str) -> String {
    if text == "," { "a comma cannot be here".to_owned() } else { format!("“{text}” cannot be here") }
}

fn symbol_problem(symbol: &str) -> ScriptError {
    let hint = match symbol {
        "%" | "%=" => Some("“%” after a number is per cent; for what is left over, type remainder(7, 3)"),
        "/=" => Some("type x = x / 2"),
        "+=" | "-=" | "*=" => Some("a cell is given its value anew: band = waist + 10 in"),
        "**" => Some("for a power, type 2 ^ 3"),
        "&" => Some("to join two conditions, type and"),
        "|" => Some("to join two conditions, type or"),
        "=" | "===" => Some("to compare, type =="),
        ":=" => Some("to give a name its value, type = alone: waist = 56 cm"),
        "!==" | "=/=" => Some("for not the same, type !="),
        "++" | "--" => Some("a cell is given its value anew: count = count + 1"),
        "try" | "catch" | "throw" => {
            Some("for a name, take another; a recipe turns an order away with order.refuse(\"waist\", \"why\")")
        }
        "let" | "const" => Some("give a name its value without it: waist = 56 cm"),
        _ => None,
    };
    let word = symbol.chars().all(|c| c.is_alphanumeric() || c == '_') && !symbol.starts_with(|c: char| c.is_numeric());
    let message = if word {
        format!("“{symbol}” has a meaning of its own and cannot be a name")
    } else {
        cannot_be_here(symbol)
    };
    ScriptError::new(message).with_hint(hint.map(str::to_owned))
}

/// An error found while reading a script.
pub(super) fn read_error(error: &ParseError, source: &Source) -> Diagnostic {
    Translation { source, sources: &Sources::default(), names: &[], members: &[] }.parse_error(error)
}

/// An error at a byte of a script as typed.
pub(super) fn placed_at(problem: ScriptError, byte: Option<usize>, source: &Source) -> Diagnostic {
    let mut problem = problem;
    // A hint may hold `(…)` as a placeholder for the typed argument.
    if let (Marked::Argument(index), Some(byte), Some(hint)) = (problem.marked, byte, &problem.hint)
        && let Some(typed) = source.argument(byte, index).and_then(|span| source.typed.get(span))
    {
        problem.hint = Some(hint.replace("(…)", &format!("({typed})")));
    }
    let span = byte.map(|byte| {
        let whole = || vec![source.token_span(byte).unwrap_or(byte..byte)];
        let marks = match problem.marked {
            Marked::Whole => whole(),
            Marked::Sides => source.sides(byte).map_or_else(whole, |sides| sides.to_vec()),
            Marked::Argument(index) => source.argument(byte, index).map_or_else(whole, |argument| vec![argument]),
        };
        source.marked(marks)
    });
    let word = byte.and_then(|byte| source.token_span(byte)).and_then(|span| source.typed.get(span));
    let topic = match problem.marked {
        // The two sides do not go together.
        Marked::Sides => Some(UNITS),
        _ => word.and_then(functions::named).map(|function| function.name),
    };
    let diagnostic = Diagnostic::from(problem);
    match span {
        Some(span) => Diagnostic { topic: topic.map(str::to_owned), ..diagnostic.at(span) },
        None => diagnostic,
    }
}

#[cfg(test)]
mod tests;
