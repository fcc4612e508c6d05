//! What a person is told of a sum that cannot be read or worked out: what is wrong, where, and what to type instead.

use super::*;
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::{Expression, Host};
use crate::quantity::{Reading, Style};
use rhai::{Dynamic, Scope};

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
