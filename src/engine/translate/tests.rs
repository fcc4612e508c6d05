//! What a person is told of a sum that cannot be read or worked out: what is wrong, where, and what to type instead.

use super::*;
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::{Expression, Host};
use crate::quantity::{Reading, Style};
use rhai::{Dynamic, Scope};
use std::borrow::Cow;

/// The message, the hint and what is marked in a sum that goes wrong.
fn told(typed: &str) -> (String, String, Vec<String>) {
    let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    let mut scope = Scope::new();
    scope.push_constant_dynamic("waist", Dynamic::from_int(7));
    scope.push_constant_dynamic("list", Dynamic::from_array(vec![Dynamic::from_int(4), Dynamic::from_int(5)]));
    let names = || vec!["waist".to_owned(), "list".to_owned()];
    let expression = Expression::compile(&host, typed);
    let error = match expression.and_then(|sum| sum.evaluate_suggesting(&host, &mut scope, &names)) {
        Ok(value) => return (format!("{value:?}"), String::new(), Vec::new()),
        Err(error) => error,
    };
    let marked = error.labels.iter().flat_map(|label| {
        let text = label.span.text.clone();
        label.span.bytes.iter().map(move |bytes| text[bytes.start..bytes.end].to_owned()).collect::<Vec<_>>()
    });
    let marked = marked.collect();
    (error.message, error.hint.unwrap_or_default(), marked)
}

#[test]
fn a_sum_that_goes_wrong_says_what_and_where() {
    let mut wrong = Vec::new();
    for (typed, message, hint, marked) in [
        ("3 cm + 2 min", "a length and a time cannot be added", "type a length on both sides", &["3 cm", "2 min"][..]),
        ("3 cm - 2 min", "a time cannot be taken from a length", "type a length", &["3 cm", "2 min"]),
        ("3 cm < 2 min", "a length and a time cannot be compared", "", &["3 cm", "2 min"]),
        ("1 + wiast", "I don't know the word wiast", "did you mean “waist”?", &["wiast"]),
        ("1 + yd", "I don't know the word yd", "a unit needs a number before it: 3 yd", &["yd"]),
        ("1 + up", "I don't know the word up", "it is a function: type up(", &["up"]),
        ("2 * π", "I don't know the word π", "type pi()", &["π"]),
        ("upp(3)", "there is no function “upp”", "did you mean up(", &["upp"]),
        ("list[7]", "there is no item 7: the list has 2, counted from 0", "", &[]),
        ("1 + \"a\" * 2", "a text and a plain number cannot be multiplied", "", &["\"a\"", "2"]),
        ("waist waist", "put = or + before waist", "a name of two words is written with _", &["waist"]),
        ("waist 3 cm", "put = or + before 3 cm", "to name it, type waist = 3 cm", &["3 cm"]),
        ("2 + waist 3 cm", "put = or + before 3 cm", "", &["3 cm"]),
        ("waist +", "something is missing at the end", "", &[]),
        ("waist ** 2", "“**” cannot be here", "for a power, type 2 ^ 3", &["**"]),
        ("waist /= 2", "“/=” cannot be here", "type x = x / 2", &["/="]),
        (
            "let x = 3",
            "“let” has a meaning of its own and cannot be a name",
            "give a name its value without it",
            &["let"],
        ),
        ("waist !== 3", "“!==” cannot be here", "for not the same, type !=", &["!=="]),
        ("waist x 3", "put = or + before x", "for times, type *", &["x"]),
        ("waist mod 3", "put = or + before mod", "for what is left over, type remainder(7, 3)", &["mod"]),
        ("!waist", "only a yes or no can be turned round, not a plain number", "put what is compared in brackets", &[]),
    ] {
        let (said, hinted, shown) = told(typed);
        let is_right = said == message
            && hinted.starts_with(hint)
            && hint.is_empty() == hinted.is_empty()
            && (marked.is_empty() || shown == marked);
        if !is_right {
            wrong.push((typed, said, hinted, shown));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn a_function_says_how_many_things_it_takes() {
    for (typed, message, hint) in [
        ("up(1, 2)", "up takes 1 thing, not 2", "; for whole steps, rounded_up(amount, step)"),
        ("down(1, 2)", "down takes 1 thing, not 2", "; for whole steps, rounded_down(amount, step)"),
        ("up(1, 2, 3)", "up takes 1 thing, not 3", ")"),
        ("strips_for(3 in)", "strips_for takes 2 to 3 things, not 1", ")"),
        ("remainder(7)", "remainder takes 2 things, not 1", "remainder(amount, part)"),
    ] {
        let (said, hinted, _) = told(typed);
        assert_eq!(said, message, "{typed}");
        assert!(hinted.starts_with("type ") && hinted.ends_with(hint), "{typed}: {hinted}");
        assert_eq!(hinted.contains("whole steps"), hint.starts_with(';'), "{typed}: {hinted}");
    }
}

#[test]
fn kinds_of_values_are_told_in_words() {
    for (name, noun) in [
        ("i64", "a plain number"),
        (" f64 ", "a plain number"),
        ("bool", "a yes or no"),
        ("string", "a text"),
        ("&str | ImmutableString | String", "a text"),
        ("array", "a list"),
        ("map", "a #{ … } group"),
        ("()", "nothing"),
        ("char", "a letter"),
        ("Fn", "a function"),
        ("measure", "a measure"),
        ("range", "a range"),
        ("core::ops::Range<i64>", "a range"),
        ("gathers", "a way to gather"),
        ("x::Measured", "a measure"),
        ("x::Spread", "a measure with ±"),
        ("x::Blank", "a blank"),
        ("x::Other", "something of another kind"),
        ("ticket", "a ticket"),
        ("order", "an order"),
        ("input", "an input"),
    ] {
        assert_eq!(type_noun(name), noun, "{name}");
    }
    assert_eq!(split_types("i64, &str | ImmutableString | String, bool").count(), 3);
    assert_eq!(split_types("").count(), 0);
    assert_eq!([things(0), things(1), things(2)], ["things", "thing", "things"]);
}

#[test]
fn a_limit_says_which_one_it_is() {
    let none = Position::NONE;
    let too_large = |what: &str| EvalAltResult::ErrorDataTooLarge(what.to_owned(), none);
    for (error, message) in [
        (
            EvalAltResult::ErrorTerminated(Dynamic::from(Stopped::Operations), none),
            "this goes on for too long and was stopped",
        ),
        (EvalAltResult::ErrorStackOverflow(none), "functions call each other too deeply"),
        (too_large("Length of string"), "a text becomes too large here"),
        (too_large("Size of object map"), "a #{ … } group becomes too large here"),
        (too_large("Size of array/BLOB"), "a list becomes too large here"),
        (EvalAltResult::ErrorTooManyVariables(none), "there are too many names here"),
        (EvalAltResult::ErrorTooManyModules(none), "too many helper files are imported"),
        (
            EvalAltResult::ErrorTerminated(Dynamic::from(Stopped::Memory), none),
            "this needs more memory than a recipe may use",
        ),
    ] {
        let problem = limit_problem(&error);
        assert_eq!((problem.message.as_str(), &problem.kind), (message, &DiagnosticKind::Limit));
    }
    for token in [Dynamic::UNIT, Dynamic::from(Stopped::ByUser)] {
        let stopped = limit_problem(&EvalAltResult::ErrorTerminated(token, none));
        assert_eq!((stopped.message.as_str(), &stopped.kind), ("stopped", &DiagnosticKind::Stopped));
    }
    let other = limit_problem(&EvalAltResult::ErrorCustomSyntax(String::new(), Vec::new(), none));
    assert_eq!((other.message.as_str(), &other.kind), ("this cannot be worked out", &DiagnosticKind::Error));
}

#[test]
fn what_cannot_be_read_is_told_in_our_words() {
    let name = || "x".to_owned();
    for (kind, message) in [
        (ParseErrorType::UnexpectedEOF, "something is missing at the end"),
        (ParseErrorType::MissingToken(";".to_owned(), name()), "“;” is missing before this"),
        (ParseErrorType::MissingToken(")".to_owned(), name()), "“)” is missing here"),
        (ParseErrorType::ExprExpected(name()), "a number, a measure or a name is missing here"),
        (ParseErrorType::UnknownOperator("wide_2".to_owned()), "put = or + before wide_2"),
        (ParseErrorType::UnknownOperator("+-".to_owned()), "“+-” cannot be here"),
        (ParseErrorType::Reserved("**".to_owned()), "“**” cannot be here"),
        (ParseErrorType::VariableExpected, "a name is missing here"),
        (ParseErrorType::PropertyExpected, "a name is missing here"),
        (ParseErrorType::ForbiddenVariable(name()), "“x” cannot be used as a name"),
        (ParseErrorType::VariableExists(name()), "“x” is named twice"),
        (ParseErrorType::DuplicatedProperty(name()), "“x” stands twice in the group"),
        (
            ParseErrorType::MismatchedType("bool".to_owned(), "i64".to_owned()),
            "a yes or no is needed here, not a plain number",
        ),
        (ParseErrorType::FnDuplicatedDefinition(name(), 2), "the function “x” is written twice"),
        (ParseErrorType::FnDuplicatedParam(name(), "a".to_owned()), "“a” stands twice among the arguments of “x”"),
        (ParseErrorType::FnMissingName, "the function is not finished"),
        (ParseErrorType::WrongFnDefinition, "a function cannot be written inside another"),
        (ParseErrorType::AssignmentToConstant(name()), "“x” is fixed and cannot be changed"),
        (ParseErrorType::AssignmentToInvalidLHS(name()), "only a name can be given a value"),
        (ParseErrorType::LiteralTooLarge(name(), 3), "this is too long"),
        (ParseErrorType::ExprTooDeep, "this has too many brackets inside each other"),
        (ParseErrorType::TooManyFunctions, "there are too many functions"),
        (ParseErrorType::LoopBreak, "there is no loop to break out of here"),
        (ParseErrorType::BadInput(LexError::UnterminatedString), "a text is begun here and not ended"),
        (ParseErrorType::BadInput(LexError::MalformedNumber(name())), "“x” is not a number"),
        (ParseErrorType::BadInput(LexError::MalformedIdentifier(name())), "“x” cannot be a name"),
        (ParseErrorType::BadInput(LexError::StringTooLong(3)), "this is too long"),
        (ParseErrorType::BadInput(LexError::MalformedEscapeSequence(name())), "“x” means nothing inside a text"),
        (
            ParseErrorType::BadInput(LexError::MalformedChar(name())),
            "a text is written between two marks like these: \"…\"",
        ),
    ] {
        let problem = parse_problem(&kind);
        assert_eq!((problem.message.as_str(), &problem.kind), (message, &DiagnosticKind::Syntax), "{kind:?}");
    }
    let unknown = parse_problem(&ParseErrorType::VariableUndefined(name()));
    assert_eq!(unknown.kind, DiagnosticKind::UnknownName(name()));
    assert_eq!(unknown.message, "I don't know the word x");
}

#[test]
fn what_is_typed_for_a_sum_is_told_how_it_is_meant() {
    for (sign, hint) in [
        ("x", "for times, type *"),
        ("X", "for times, type *"),
        ("²", "for a power, type 2 ^ 3"),
        ("³", "for a power, type 2 ^ 3"),
        (",", "for a decimal, type a point: 2.5"),
        ("per", "for a price, type $4.50/yd"),
        ("a", "for a price, type $4.50/yd"),
        ("as", "behind “as” stands the unit"),
        ("of", "for a part of something, type 8 % of 20 in"),
        ("wide", "a name of two words is written with _"),
        (":=", "to give a name its value, type = alone"),
        ("===", "to compare, type =="),
        ("++", "a cell is given its value anew"),
        ("const", "give a name its value without it"),
    ] {
        let quoted = format!("Unexpected '{sign}'");
        for text in [sign, &quoted] {
            let problem = unexpected(text);
            assert!(problem.hint.as_deref().is_some_and(|given| given.starts_with(hint)), "{text}: {problem:?}");
        }
    }
    for (sign, hint) in [
        ("%", "“%” after a number is per cent"),
        ("%=", "“%” after a number is per cent"),
        ("+=", "a cell is given its value anew"),
        ("-=", "a cell is given its value anew"),
        ("*=", "a cell is given its value anew"),
        ("=", "to compare, type =="),
        ("&", "to join two conditions, type and"),
        ("|", "to join two conditions, type or"),
        ("=/=", "for not the same, type !="),
        ("--", "a cell is given its value anew"),
    ] {
        assert!(symbol_problem(sign).hint.is_some_and(|given| given.starts_with(hint)), "{sign}");
    }
    assert_eq!(unexpected(",").message, "a comma cannot be here");
    assert_eq!(unexpected(";").message, "“;” cannot be here");
    assert_eq!(unexpected(";").hint, None);
    assert_eq!(unexpected("':;' is not a valid symbol").message, "“:;” cannot be here");
    assert_eq!(symbol_problem("wide").message, "“wide” has a meaning of its own and cannot be a name");
    assert_eq!(symbol_problem("2x").message, "“2x” cannot be here");
}

/// The words of a host object and two of a recipe's inputs.
static MEMBERS: [Member; 4] = [
    Member { of: "order", name: "refuse", form: Cow::Borrowed("order.refuse(\"waist\", \"why\")"), summary: "" },
    Member { of: "order", name: "at_least", form: Cow::Borrowed("order.at_least(…)"), summary: "" },
    Member { of: "inputs", name: "measure", form: Cow::Borrowed("measure(\"waist\")"), summary: "" },
    Member { of: "unnamed", name: "choice", form: Cow::Borrowed("choice(\"joins\")"), summary: "" },
];

/// What a translation of a script with two functions of its own makes of something.
fn translated<T>(translate: impl FnOnce(&Translation<'_>) -> T) -> T {
    let typed = "fn flounce(x) { x } fn hem() { 1 }";
    let source = crate::engine::text::rewrite::rewrite(None, typed, Reading::default()).unwrap().source;
    let names = ["waist".to_owned(), "hips".to_owned()];
    translate(&Translation { source: &source, sources: &Sources::default(), names: &names, members: &MEMBERS })
}

/// A message and a hint.
fn said(problem: &ScriptError) -> (&str, &str) {
    (&problem.message, problem.hint.as_deref().unwrap_or_default())
}

#[test]
fn a_call_that_no_function_takes_is_told() {
    for (signature, message, hint) in [
        ("+ (x::Measured, bool)", "a measure and a yes or no cannot be added", ""),
        ("- (array, i64)", "a list and a plain number cannot be taken from each other", ""),
        ("* (array, i64)", "a list and a plain number cannot be multiplied", ""),
        ("/ (string, i64)", "a text and a plain number cannot be divided", ""),
        ("^ (string, i64)", "a text and a plain number cannot be raised to a power", ""),
        ("== (map, i64)", "a #{ … } group and a plain number cannot be compared", ""),
        ("!= (map, i64)", "a #{ … } group and a plain number cannot be compared", ""),
        ("< (map, i64)", "a #{ … } group and a plain number cannot be compared", ""),
        ("<= (map, i64)", "a #{ … } group and a plain number cannot be compared", ""),
        ("> (map, i64)", "a #{ … } group and a plain number cannot be compared", ""),
        (">= (map, i64)", "a #{ … } group and a plain number cannot be compared", ""),
        ("- (array)", "a list cannot have “-” before it", ""),
        (
            "! (array)",
            "only a yes or no can be turned round, not a list",
            "put what is compared in brackets: not (days > 3)",
        ),
        (".. (f64, i64)", "a range runs between whole numbers", "round with up(…) or down(…)"),
        ("..= (f64, i64)", "a range runs between whole numbers", "round with up(…) or down(…)"),
        ("up (i64, i64)", "up takes 1 thing, not 2", "type up(number); for whole steps, rounded_up(amount, step)"),
        ("up ()", "up takes 1 thing, not 0", "type up(number)"),
        ("round (i64, i64)", "round takes 1 thing, not 2", "type round(number)"),
        ("sleeves::up (i64, i64, i64)", "up takes 1 thing, not 3", "type up(number)"),
        ("strips_for (i64)", "strips_for takes 2 to 3 things, not 1", "type strips_for(flat, width, overlap = 0 in)"),
        ("flounce (i64, i64)", "“flounce” is not written for a plain number and a plain number", ""),
        ("flounse (i64)", "there is no function “flounse”", "did you mean flounce(…)?"),
        (
            "gathered_falt (i64)",
            "there is no function “gathered_falt”",
            "did you mean gathered_flat(finished, fullness)?",
        ),
        ("zzzzzz (i64)", "there is no function “zzzzzz”", ""),
        ("zzzzzz", "there is no function “zzzzzz”", ""),
        ("refuse (order)", "“refuse” is not written for these things", "type order.refuse(\"waist\", \"why\")"),
        ("refsue (order, i64)", "an order has no “refsue”", "did you mean “refuse”?"),
        ("zzzzzz (order, i64)", "an order has no “zzzzzz”", ""),
        ("measure (i64)", "“measure” is not written for these things", "type measure(\"waist\")"),
        ("choice ()", "“choice” is not written for these things", "type choice(\"joins\")"),
        ("mesaure (i64)", "there is no function “mesaure”", "did you mean “measure”?"),
        // A member of an object is no function.
        ("at_least (i64)", "there is no function “at_least”", "did you mean least(one, other)?"),
    ] {
        let problem = translated(|translation| translation.no_function(signature));
        assert_eq!(said(&problem), (message, hint), "{signature}");
        let sides = message.contains(" and ") && message.contains(" cannot be ");
        assert_eq!(problem.marked, if sides { Marked::Sides } else { Marked::Whole }, "{signature}");
        let name = message.strip_prefix("there is no function “").map(|name| name.trim_end_matches('”').to_owned());
        let kind = match name {
            Some(name) => DiagnosticKind::UnknownName(name),
            None if sides => DiagnosticKind::Unlike,
            None => DiagnosticKind::Error,
        };
        assert_eq!(problem.kind, kind, "{signature}");
    }
}

#[test]
fn a_member_that_is_not_there_is_told() {
    for (engine, message, hint) in [
        (
            "Unknown property 'refsue' - a getter is not registered for type 'order'",
            "an order has no “refsue”",
            "did you mean “refuse”?",
        ),
        ("Unknown property 'zzzzzz' - a getter is not registered for type 'order'", "an order has no “zzzzzz”", ""),
        ("Unknown property 'refsue' - a getter is not registered for type 'array'", "a list has no “refsue”", ""),
        ("Unknown property 'length'", "there is no “length” in it", ""),
        ("nothing quoted", "it has no such part", ""),
    ] {
        let problem = translated(|translation| translation.no_member(engine));
        assert_eq!(said(&problem), (message, hint), "{engine}");
    }
}

#[test]
fn a_word_that_is_not_known_is_told() {
    for (word, hint) in [
        ("wiast", "did you mean “waist”?"),
        ("yd", "a unit needs a number before it: 3 yd; to see a length in it, type waist as yd"),
        ("up", "it is a function: type up(number)"),
        ("π", "type pi()"),
        ("gathered_falt", "did you mean “gathered_flat”?"),
        ("zzzzzz", ""),
    ] {
        let problem = translated(|translation| translation.unknown_name(word));
        let message = format!("I don't know the word {word}");
        assert_eq!(said(&problem), (message.as_str(), hint));
        assert_eq!(problem.kind, DiagnosticKind::UnknownName(word.to_owned()));
    }
    // The end of a function's name is not meant.
    let problem = translated(|translation| translation.unknown_name("flat"));
    assert_ne!(problem.hint.as_deref(), Some("did you mean “gathered_flat”?"));
}

#[test]
fn what_goes_wrong_in_a_run_is_told_in_our_words() {
    use EvalAltResult as Went;
    let none = Position::NONE;
    let name = || "x".to_owned();
    for (error, message, hint, kind) in [
        (Went::ErrorRuntime("too narrow".into(), none), "too narrow", "", DiagnosticKind::Error),
        (Went::ErrorRuntime(Dynamic::from_int(3), none), "the recipe gave up here", "", DiagnosticKind::Error),
        (
            Went::ErrorParsing(ParseErrorType::UnexpectedEOF, none),
            "something is missing at the end",
            "",
            DiagnosticKind::Syntax,
        ),
        (Went::ErrorVariableNotFound(name(), none), "I don't know the word x", "", DiagnosticKind::UnknownName(name())),
        (
            Went::ErrorMismatchDataType("bool".to_owned(), "i64".to_owned(), none),
            "a yes or no is needed here, not a plain number",
            "",
            DiagnosticKind::Unlike,
        ),
        (
            Went::ErrorMismatchOutputType("array".to_owned(), "()".to_owned(), none),
            "a list is needed here, not nothing",
            "",
            DiagnosticKind::Unlike,
        ),
        (Went::ErrorPropertyNotFound(name(), none), "there is no “x” in it", "", DiagnosticKind::Error),
        (
            Went::ErrorDotExpr("Unknown property 'x'".to_owned(), none),
            "there is no “x” in it",
            "",
            DiagnosticKind::Error,
        ),
        (
            Went::ErrorIndexingType("i64 [i64]".to_owned(), none),
            "a plain number has no items to pick from",
            "",
            DiagnosticKind::Error,
        ),
        (Went::ErrorIndexNotFound(Dynamic::UNIT, none), "there is no such item", "", DiagnosticKind::Error),
        (
            Went::ErrorArrayBounds(2, 7, none),
            "there is no item 7: the list has 2, counted from 0",
            "",
            DiagnosticKind::Error,
        ),
        (
            Went::ErrorStringBounds(2, 7, none),
            "there is no letter 7: the text has 2, counted from 0",
            "",
            DiagnosticKind::Error,
        ),
        (Went::ErrorArithmetic(name(), none), "the result is too large to reckon with", "", DiagnosticKind::OutOfRange),
        (
            Went::ErrorFor(none),
            "only a list or a range can be gone through",
            "type for i in 0..3 { … }",
            DiagnosticKind::Error,
        ),
        (
            Went::ErrorAssignmentToConstant(name(), none),
            "“x” is fixed and cannot be changed",
            "",
            DiagnosticKind::Error,
        ),
        (
            Went::ErrorNonPureMethodCallOnConstant(name(), none),
            "“x” would change something that is fixed",
            "",
            DiagnosticKind::Error,
        ),
        (Went::ErrorModuleNotFound(name(), none), "there is no helper file “x”", "", DiagnosticKind::Error),
        (Went::ErrorUnboundThis(none), "“this” means nothing here", "", DiagnosticKind::Error),
        (
            Went::ErrorStackOverflow(none),
            "functions call each other too deeply",
            "look for a function that calls itself",
            DiagnosticKind::Limit,
        ),
        (
            Went::ErrorTerminated(Dynamic::from(Stopped::Operations), none),
            "this goes on for too long and was stopped",
            "look for a loop that never ends",
            DiagnosticKind::Limit,
        ),
    ] {
        let problem = translated(|translation| translation.eval_problem(&error));
        assert_eq!(said(&problem), (message, hint), "{error:?}");
        assert_eq!(problem.kind, kind, "{error:?}");
    }
    let own = ScriptError::new("own words").hinting("own hint").marking(Marked::Argument(1));
    let error = Went::ErrorRuntime(Dynamic::from(own.clone()), none);
    assert_eq!(translated(|translation| translation.eval_problem(&error)), own);
}

/// The whole diagnostic of a sum that goes wrong.
fn diagnostic(typed: &str) -> Diagnostic {
    let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    Expression::compile(&host, typed).and_then(|sum| sum.evaluate(&host, &mut Scope::new())).unwrap_err()
}

#[test]
fn an_error_leads_to_the_help_on_what_it_is_about() {
    for (typed, topic) in [
        ("3 cm + 2 min", Some("units")),
        ("up(1, 2)", Some("up")),
        ("gathered_flat(3 in, 2 in)", Some("gathered_flat")),
        ("1 + up", Some("up")),
        ("wiast", None),
    ] {
        assert_eq!(diagnostic(typed).topic.as_deref(), topic, "{typed}");
    }
}

#[test]
fn an_error_marks_what_it_is_about_and_nothing_else() {
    for (typed, marked) in [
        ("1 + wiast + 2", &["wiast"][..]),
        ("up(1, 2) + 3", &["up"]),
        ("2 * gathered_flat(3 in, 2 in + 1 in)", &["2 in + 1 in"]),
        ("gathered_flat(3, 2)", &["3"]),
        ("1 + (2 in + 3) * 4", &["2 in", "3"]),
        ("[1, 2].len + [3].lenn", &["lenn"]),
        ("2 + waist 3 cm", &["3 cm"]),
        ("3 + 8,5 cm", &[","]),
    ] {
        let (_, _, shown) = told(typed);
        assert_eq!(shown, marked, "{typed}");
    }
    assert_eq!(diagnostic("upp(3)").kind, DiagnosticKind::UnknownName("upp".to_owned()));
    assert_eq!(diagnostic("waist 3 cm").kind, DiagnosticKind::Syntax);
    assert_eq!(diagnostic("_waist 3 cm").hint.as_deref(), Some("to name it, type _waist = 3 cm"));
    assert_eq!(diagnostic("7 3 cm").hint, None);
}

#[test]
fn a_run_is_traced_through_the_names_that_are_worked_out() {
    let host = Host::new(Reading::default(), Style::default(), Limits::RECIPE, StopFlag::default());
    let script = host
        .compile(
            "skirt.rhai",
            "fn hem(x) {\n    let deep = x + 2 min;\n    deep\n}\nfn panel(x) {\n    let long = hem(x);\n    long\n}\nfn f() {\n    let front = panel(3 in);\n    front\n}\nfn g() {\n    let deep = hem(3 in);\n    deep\n}",
        )
        .unwrap();
    let error = host.call(&script, "f", ()).unwrap_err();
    assert_eq!(error.trace, ["deep", "long", "front"]);
    let span = &error.labels[0].span;
    assert_eq!((span.file.as_deref(), span.line), (Some("skirt.rhai"), 2));
    // A name that is worked out from one of the same name is told once.
    assert_eq!(host.call(&script, "g", ()).unwrap_err().trace, ["deep"]);
}

#[test]
fn hints_are_told_in_full() {
    for (text, hint) in [
        ("x", "for times, type *"),
        ("mod", "for what is left over, type remainder(7, 3)"),
        ("at", "for a price, type $4.50/yd or $18/h; for what that comes to, 3 yd * $4.50/yd"),
        ("an", "for a price, type $4.50/yd or $18/h; for what that comes to, 3 yd * $4.50/yd"),
        ("wide", "a name of two words is written with _: gathered_flat"),
        ("for", ""),
        ("if", ""),
        ("while", ""),
        ("return", ""),
        ("import", ""),
        ("fn", ""),
        ("let", "give a name its value without it: waist = 56 cm"),
        ("!==", "for not the same, type !="),
        ("~", ""),
        ("'~' is not a valid symbol", ""),
    ] {
        assert_eq!(unexpected(text).hint.unwrap_or_default(), hint, "{text}");
    }
    for word in ["for", "if", "while", "return", "import", "fn", "let", "const"] {
        assert_eq!(unexpected(word).message, format!("“{word}” has a meaning of its own and cannot be a name"));
    }
    assert_eq!(unexpected("wide").message, "put = or + before wide");
    for word in ["try", "catch", "throw"] {
        assert_eq!(
            symbol_problem(word).hint.as_deref(),
            Some("for a name, take another; a recipe turns an order away with order.refuse(\"waist\", \"why\")")
        );
    }
    assert_eq!(symbol_problem("a_b").message, "“a_b” has a meaning of its own and cannot be a name");
    assert_eq!(symbol_problem("a-b").message, "“a-b” cannot be here");
    assert_eq!(symbol_problem(",").message, "a comma cannot be here");
    assert_eq!(
        misplaced_function().hint.as_deref(),
        Some("write |x| … inside the brackets of map, filter, reduce, sort, all or some; or give it a name with fn")
    );
    for (kind, hint) in [
        (ParseErrorType::MissingToken(";".to_owned(), String::new()), "end the statement before it with ;"),
        (ParseErrorType::UnknownOperator("wide".to_owned()), "a function takes brackets: up(12.2)"),
        (ParseErrorType::FnMissingBody("x".to_owned()), "type fn name(a, b) { … }"),
        (ParseErrorType::FnMissingParams("x".to_owned()), "type fn name(a, b) { … }"),
        (ParseErrorType::AssignmentToInvalidLHS("x".to_owned()), "to compare, type =="),
        (ParseErrorType::BadInput(LexError::UnterminatedString), "end it with \""),
        (ParseErrorType::BadInput(LexError::MalformedChar("x".to_owned())), "a foot is written 5' or 5 ft"),
        (ParseErrorType::BadInput(LexError::ImproperSymbol("**".to_owned(), String::new())), "for a power, type 2 ^ 3"),
        (ParseErrorType::BadInput(LexError::UnexpectedInput("²".to_owned())), "for a power, type 2 ^ 3"),
    ] {
        assert_eq!(parse_problem(&kind).hint.as_deref(), Some(hint), "{kind:?}");
    }
}
