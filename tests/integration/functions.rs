//! Checks every entry of the function table: its examples, its refusals, its words, and that it always answers.

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use rhai::Scope;
use shirr::diagnostic::Diagnostic;
use shirr::engine::function::{Formula, Function, ParameterKind};
use shirr::engine::functions;
use shirr::engine::limits::{Limits, StopFlag};
use shirr::engine::{Host, Value, value};
use shirr::quantity::{Dimension, Quantity, Reading, Style, Unit, number};
use shirr::report::excerpt;
use std::collections::BTreeSet;
use std::time::{Duration, Instant};

fn host(operations: u64) -> Host {
    let limits = Limits { operations, ..Limits::CELL };
    Host::new(Reading::default(), Style::default(), limits, StopFlag::default())
}

fn answer(host: &Host, typed: &str) -> Result<String, Diagnostic> {
    let script = host.compile_expression(typed)?;
    let answer = host.evaluate(&script, &mut Scope::new())?;
    Ok(value::show(&answer, &host.style()).expect("a plain value"))
}

/// The arguments as typed in a call of `name`; `None` if the text is more than that call.
fn arguments_of(typed: &str, name: &str) -> Option<Vec<String>> {
    let inside = typed.strip_prefix(name)?.strip_prefix('(')?.strip_suffix(')')?;
    let (mut arguments, mut depth, mut quoted) = (vec![String::new()], 0, false);
    for c in inside.chars() {
        match c {
            '"' => quoted = !quoted,
            '(' | '[' if !quoted => depth += 1,
            ')' | ']' if !quoted => depth -= 1,
            ',' if !quoted && depth == 0 => {
                arguments.push(String::new());
                continue;
            }
            _ => {}
        }
        if depth < 0 {
            return None;
        }
        arguments.last_mut()?.push(c);
    }
    Some(arguments.into_iter().map(|argument| argument.trim().to_owned()).collect())
}

/// All arguments of the first example, with the usual values of those it leaves out.
fn full_arguments(function: &Function) -> Vec<String> {
    let example = function.examples.first().unwrap_or_else(|| panic!("{} has no example", function.name));
    let mut arguments = arguments_of(example.typed, function.name)
        .unwrap_or_else(|| panic!("{} is not one call of {}", example.typed, function.name));
    arguments.retain(|argument| !argument.is_empty());
    let usual =
        function.parameters.iter().skip(arguments.len()).map(|parameter| parameter.default.expect("a usual one"));
    arguments.extend(usual.map(str::to_owned));
    arguments
}

fn call(name: &str, arguments: &[String]) -> String {
    format!("{name}({})", arguments.join(", "))
}

/// Whether a text contains internal names that no person should see.
fn has_jargon(text: &str) -> bool {
    let inside = ["f64", "i64", "u32", "NaN", "::", "Option", "Some(", "None", "Ok(", "Err(", "Error", "rhai"];
    let types = ["Dynamic", "ImmutableString", "Quantity", "Measured", "Value", "Array", "panicked", "INT", "FLOAT"];
    inside.into_iter().chain(types).any(|word| text.contains(word))
}

#[test]
fn every_example_shows_what_it_says() {
    // No call of the table may cost more than a handful of the engine's operations.
    let host = host(40);
    for function in functions::all() {
        assert!(!function.examples.is_empty(), "{}", function.name);
        for example in function.examples {
            match answer(&host, example.typed) {
                Ok(shown) => assert_eq!(shown, example.shown, "{}", example.typed),
                Err(error) => panic!("{}: {}", example.typed, excerpt::text(&error)),
            }
        }
    }
}

/// Evaluates a typed text to its value, before any rounding for display.
fn worked_out(host: &Host, typed: &str, scope: &mut Scope<'static>) -> Result<Value, Diagnostic> {
    let answer = host.evaluate(&host.compile_expression(typed)?, scope)?;
    Ok(Value::from_script(&answer).unwrap_or_else(|| panic!("{typed}")))
}

#[test]
fn every_formula_says_what_the_code_does() {
    let host = host(1_000);
    let mut sums = 0;
    for function in functions::all() {
        let Formula::Sum(formula) = function.formula else { continue };
        for example in function.examples {
            let mut arguments = arguments_of(example.typed, function.name).unwrap();
            arguments.retain(|argument| !argument.is_empty());
            let usual = function.parameters.iter().skip(arguments.len()).map(|parameter| parameter.default.unwrap());
            arguments.extend(usual.map(str::to_owned));
            let mut scope = Scope::new();
            for (parameter, argument) in function.parameters.iter().zip(&arguments) {
                let script = host.compile_expression(argument).unwrap();
                scope.push_dynamic(parameter.name, host.evaluate(&script, &mut Scope::new()).unwrap());
            }
            let expected = worked_out(&host, formula, &mut scope)
                .unwrap_or_else(|error| panic!("{}: {formula}: {}", function.name, excerpt::text(&error)));
            let found = worked_out(&host, example.typed, &mut Scope::new()).unwrap();
            let (expected, found) = (expected.quantity().unwrap(), found.quantity().unwrap());
            assert_eq!(expected.dimension(), found.dimension(), "{}", function.name);
            assert!(number::is_near(expected.steps(), found.steps()), "{}: {expected:?}, not {found:?}", example.typed);
            sums += 1;
        }
    }
    assert!(sums >= 200, "{sums} examples");
}

#[test]
fn functions_of_the_trade_say_how_they_reckon() {
    for function in functions::all() {
        let of_the_language = ["numbers", "lists"].contains(&function.topic);
        assert!(of_the_language || function.formula != Formula::None, "{}", function.name);
    }
}

#[test]
fn functions_of_lengths_have_examples_on_both_tapes() {
    for function in functions::all() {
        let takes_length = function.parameters.iter().any(|p| p.kind == ParameterKind::Of(Dimension::LENGTH));
        let on = |units: &[&str]| {
            function
                .examples
                .iter()
                .any(|example| example.typed.split(|c: char| !c.is_alphabetic()).any(|word| units.contains(&word)))
        };
        assert!(!takes_length || (on(&["in", "yd"]) && on(&["mm", "cm", "m"])), "{}", function.name);
    }
}

#[test]
fn an_argument_of_another_dimension_is_refused_by_its_name() {
    let host = host(1_000);
    for function in functions::all() {
        let good = full_arguments(function);
        assert!(answer(&host, &call(function.name, &good)).is_ok(), "{}", function.name);
        for (index, parameter) in function.parameters.iter().enumerate() {
            let bad: &[&str] = match parameter.kind {
                ParameterKind::Of(dimension) if dimension == Dimension::TIME => {
                    &["3 in", "3", "\"x\"", "true", "[3 min]"]
                }
                ParameterKind::Of(_) => &["3 min", "3", "\"x\"", "true", "[3 in]"],
                ParameterKind::Number | ParameterKind::Share => &["3 in", "$3", "\"x\"", "false", "[3]"],
                ParameterKind::Count => &["3 in", "2.5", "-1", "\"x\"", "[3]"],
                ParameterKind::Any => &["\"x\"", "true", "[3 in]"],
                ParameterKind::OneOf(_) => &["3 in", "3", "\"no such word\"", "[\"x\"]"],
                ParameterKind::Numbers => &["3", "3 in", "[3 in]", "[]", "\"x\"", "[\"x\"]"],
                ParameterKind::List => {
                    &["3", "3 in", "[]", "\"x\"", "[\"x\"]", "[3 in, true]", "[3 in, 3 min]", "[3, ()]"]
                }
                ParameterKind::Flag => &["3", "3 in", "\"x\"", "[true]"],
                ParameterKind::Anything => &[],
            };
            for bad in bad {
                let mut arguments = good.clone();
                arguments[index] = (*bad).to_owned();
                let typed = call(function.name, &arguments);
                let error = answer(&host, &typed).expect_err(&typed);
                let shown = excerpt::text(&error);
                assert!(error.message.contains(parameter.name), "{typed}: {shown}");
                assert!(error.message.contains(function.name), "{typed}: {shown}");
                assert!(!has_jargon(&shown), "{typed}: {shown}");
                let span = &error.labels.first().expect("a label").span;
                let marked: Vec<&str> = span.bytes.iter().map(|range| &span.text[range.clone()]).collect();
                assert_eq!(marked, [*bad], "{typed}");
            }
        }
    }
}

#[test]
fn a_wrong_number_of_arguments_is_refused_with_the_form() {
    let host = host(1_000);
    for function in functions::all() {
        let good = full_arguments(function);
        let least = function.parameters.iter().filter(|parameter| parameter.default.is_none()).count();
        for given in 0..=good.len() + 2 {
            let mut arguments: Vec<String> = good.iter().cycle().take(given).cloned().collect();
            // A function without parameters has no good argument to repeat.
            arguments.resize(given, "1".to_owned());
            let typed = call(function.name, &arguments);
            let result = answer(&host, &typed);
            if (least..=good.len()).contains(&given) {
                assert!(result.is_ok(), "{typed}: {result:?}");
                continue;
            }
            let error = result.expect_err(&typed);
            let shown = excerpt::text(&error);
            assert!(shown.contains(&function.signature()), "{typed}: {shown}");
            assert!(!has_jargon(&shown), "{typed}: {shown}");
        }
    }
}

#[test]
fn what_is_left_out_is_what_the_form_says() {
    let host = host(1_000);
    let mut checked = 0;
    for function in functions::all() {
        let good = full_arguments(function);
        for (index, parameter) in function.parameters.iter().enumerate() {
            let Some(usual) = parameter.default else { continue };
            let short = &good[..index];
            let mut full = short.to_vec();
            full.push(usual.to_owned());
            assert_eq!(
                answer(&host, &call(function.name, short)).expect("an answer"),
                answer(&host, &call(function.name, &full)).expect("an answer"),
                "{} without {}",
                function.name,
                parameter.name
            );
            let last = function.parameters.iter().skip(index).all(|parameter| parameter.default.is_some());
            assert!(last, "{}: only the last ones may be left out", function.name);
            checked += 1;
        }
    }
    assert!(checked > 10);
}

#[test]
fn names_and_words_are_fit_for_a_person() {
    let mut names = BTreeSet::new();
    let engine = rhai::Engine::new();
    let snake = |name: &str| {
        name.starts_with(|c: char| c.is_ascii_lowercase())
            && name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
            && !name.ends_with('_')
            && !name.contains("__")
    };
    for function in functions::all() {
        let name = function.name;
        assert!(names.insert(name), "{name} is there twice");
        assert!(snake(name) && Unit::named(name).is_none(), "{name}");
        for word in std::iter::once(name).chain(function.parameters.iter().map(|parameter| parameter.name)) {
            assert!(snake(word), "{name}: {word}");
            assert!(engine.compile(format!("let {word} = 1; {word}")).is_ok(), "{name}: {word} is a reserved word");
        }
        let summary = function.summary;
        assert!(summary.ends_with('.') && !summary.trim_end_matches('.').contains(". "), "{name}: {summary}");
        assert!(summary.starts_with(char::is_uppercase), "{name}: {summary}");
        assert!(!has_jargon(summary) && summary.chars().count() <= 120, "{name}: {summary}");
        assert!(!function.source.trim().is_empty() && !function.topic.trim().is_empty(), "{name}");
        let parameters: BTreeSet<&str> = function.parameters.iter().map(|parameter| parameter.name).collect();
        assert_eq!(parameters.len(), function.parameters.len(), "{name}: two arguments of one name");
    }
    for wanted in [
        "elastic_worn",
        "elastic_length",
        "panels_for",
        "widths_for",
        "up",
        "down",
        "nearest",
        "rounded_up",
        "gathered_flat",
        "strips_for",
        "thread_for",
        "needle_thread",
        "under_thread",
        "labour_cost",
        "cut_drop",
    ] {
        assert!(names.contains(wanted), "{wanted} is a word of recipes");
    }
}

/// Sizes that no cloth has, sizes at the limits of a float, and a few that are nearly sensible.
const SIZES: [f64; 24] = [
    0.0,
    -0.0,
    -1.0,
    5e-324,
    1e-300,
    1e-12,
    0.5,
    1.0 - 1e-12,
    1.0,
    1.0 + 1e-12,
    2.0,
    7.0,
    1e6,
    254e5,
    1e9,
    1e15,
    9_007_199_254_740_993.0,
    1e154,
    1e300,
    f64::MAX,
    f64::MIN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    f64::NAN,
];

const COUNTS: [i64; 10] = [0, 1, 2, 3, 1_000, 10_000_000, 10_000_001, 1 << 53, i64::MAX - 1, i64::MAX];

fn extreme(kind: ParameterKind) -> BoxedStrategy<Value> {
    let size = prop_oneof![prop::sample::select(SIZES.to_vec()), any::<f64>(), 0.0..4.0, 1e6..1e10];
    let plain = |size: f64| Value::Quantity(Quantity::number(size));
    match kind {
        ParameterKind::Of(dimension) => size.prop_map(move |size| Quantity::from_steps(size, dimension).into()).boxed(),
        ParameterKind::Number | ParameterKind::Share => prop_oneof![
            size.clone().prop_map(plain),
            size.prop_map(|size| Quantity::of(size, Unit::Percent).into()),
            prop::sample::select(COUNTS.to_vec()).prop_map(Value::Whole),
        ]
        .boxed(),
        ParameterKind::Count => {
            prop_oneof![prop::sample::select(COUNTS.to_vec()), any::<i64>(), 0..40_i64].prop_map(Value::Whole).boxed()
        }
        ParameterKind::Any => {
            let dimensions = [Dimension::NUMBER, Dimension::LENGTH, Dimension::AREA, Dimension::MONEY_BY_TIME];
            let dimension = prop::sample::select(dimensions.to_vec());
            (size, dimension).prop_map(|(size, dimension)| Quantity::from_steps(size, dimension).into()).boxed()
        }
        ParameterKind::OneOf(words) => {
            prop::sample::select(words).prop_map(|word| Value::Text(word.to_owned())).boxed()
        }
        ParameterKind::Numbers => prop::collection::vec(size.prop_map(plain), 0..200).prop_map(Value::List).boxed(),
        ParameterKind::List => {
            let dimension = prop::sample::select(vec![Dimension::NUMBER, Dimension::LENGTH, Dimension::MONEY]);
            let lengths = |(sizes, dimension): (Vec<f64>, Dimension)| {
                let quantities = sizes.into_iter().map(|size| Quantity::from_steps(size, dimension).into());
                Value::List(quantities.collect())
            };
            prop_oneof![
                (prop::collection::vec(size, 0..200), dimension).prop_map(lengths),
                prop::collection::vec(prop::sample::select(COUNTS.to_vec()).prop_map(Value::Whole), 0..9)
                    .prop_map(Value::List),
                Just(Value::List(vec![Value::Whole(1), Value::Blank])),
            ]
            .boxed()
        }
        ParameterKind::Flag => any::<bool>().prop_map(Value::Flag).boxed(),
        ParameterKind::Anything => prop_oneof![size.prop_map(plain), Just(Value::Blank)].boxed(),
    }
}

fn any_call() -> impl Strategy<Value = (&'static Function, Vec<Value>)> {
    prop::sample::select(functions::all().collect::<Vec<_>>()).prop_flat_map(|function| {
        let arguments: Vec<_> = function.parameters.iter().map(|parameter| extreme(parameter.kind)).collect();
        (Just(function), arguments)
    })
}

fn is_finite(value: &Value) -> bool {
    match value {
        Value::List(list) => list.iter().all(is_finite),
        value => value.quantity().is_none_or(|quantity| quantity.steps().is_finite()),
    }
}

#[test]
fn every_function_answers_whatever_it_is_given() {
    let mut runner = TestRunner::new_with_rng(
        Config { cases: 60_000, failure_persistence: None, ..Config::default() },
        proptest::test_runner::TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha),
    );
    let result = runner.run(&any_call(), |(function, arguments)| {
        let style = Style::default();
        let begun = Instant::now();
        match function.call(&arguments, &style) {
            Ok(value) => prop_assert!(is_finite(&value), "{}: {value:?}", function.name),
            Err(problem) => {
                prop_assert!(!problem.message.is_empty());
                let words = format!("{} {}", problem.message, problem.hint.unwrap_or_default());
                prop_assert!(!has_jargon(&words), "{}: {words}", function.name);
            }
        }
        // Thousands of times what any function needs; a loop over a count would exceed it at once.
        prop_assert!(begun.elapsed() < Duration::from_secs(2), "{} takes too long", function.name);
        Ok(())
    });
    if let Err(failure) = result {
        panic!("{failure}");
    }
}

#[test]
fn a_length_is_shown_in_the_unit_of_the_first_one_given() {
    let host = host(1_000);
    for function in functions::all() {
        let lengths = ParameterKind::Of(Dimension::LENGTH);
        if function.result != lengths || !function.parameters.iter().any(|parameter| parameter.kind == lengths) {
            continue;
        }
        for example in function.examples {
            let arguments = arguments_of(example.typed, function.name).expect("a call");
            let first = function.parameters.iter().position(|parameter| parameter.kind == lengths).expect("a length");
            let unit = arguments[first].rsplit(' ').next().expect("a unit");
            let shown = answer(&host, example.typed).expect("an answer");
            assert!(shown.ends_with(&format!(" {unit}")), "{} shows {shown}", example.typed);
        }
    }
}
