//! Every entry of the function table: its examples, its refusals, its words, and that it always answers.

use rhai::Scope;
use shirr::engine::function::{Function, Kind};
use shirr::engine::functions;
use shirr::engine::limits::{Limits, StopFlag};
use shirr::engine::{Fault, Host, value};
use shirr::quantity::{Dimension, Reading, Style, Unit};
use std::collections::BTreeSet;

fn host(operations: u64) -> Host {
    let limits = Limits { operations, ..Limits::CELL };
    Host::new(Reading::default(), Style::default(), limits, StopFlag::default())
}

fn answer(host: &Host, typed: &str) -> Result<String, Fault> {
    let script = host.compile_expression(typed)?;
    let answer = host.evaluate(&script, &mut Scope::new())?;
    Ok(value::show(&answer, &host.style()).expect("a plain value"))
}

/// The arguments as typed in a call of `name`; none where the text is more than that call.
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

/// All arguments of the first example, those it leaves out with their usual values.
fn full_arguments(function: &Function) -> Vec<String> {
    let example = function.examples.first().unwrap_or_else(|| panic!("{} has no example", function.name));
    let mut arguments = arguments_of(example.typed, function.name)
        .unwrap_or_else(|| panic!("{} is not one call of {}", example.typed, function.name));
    let usual = function.parameters.iter().skip(arguments.len()).map(|parameter| parameter.usual.expect("a usual one"));
    arguments.extend(usual.map(str::to_owned));
    arguments
}

fn call(name: &str, arguments: &[String]) -> String {
    format!("{name}({})", arguments.join(", "))
}

/// Words that belong to the program's insides and never to a person.
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
                Err(fault) => panic!("{}: {fault}", example.typed),
            }
        }
    }
}

#[test]
fn functions_of_lengths_have_examples_on_both_tapes() {
    for function in functions::all() {
        let takes_length = function.parameters.iter().any(|p| p.kind == Kind::Of(Dimension::LENGTH));
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
                Kind::Of(dimension) if dimension == Dimension::TIME => &["3 in", "3", "\"x\"", "true", "[3 min]"],
                Kind::Of(_) => &["3 min", "3", "\"x\"", "true", "[3 in]"],
                Kind::Number | Kind::Share => &["3 in", "$3", "\"x\"", "false", "[3]"],
                Kind::Count => &["3 in", "2.5", "-1", "\"x\"", "[3]"],
                Kind::Any => &["\"x\"", "true", "[3 in]"],
                Kind::OneOf(_) => &["3 in", "3", "\"no such word\"", "[\"x\"]"],
                Kind::Numbers => &["3", "3 in", "[3 in]", "[]", "\"x\"", "[\"x\"]"],
            };
            for bad in bad {
                let mut arguments = good.clone();
                arguments[index] = (*bad).to_owned();
                let typed = call(function.name, &arguments);
                let fault = answer(&host, &typed).expect_err(&typed);
                assert!(fault.message.contains(parameter.name), "{typed}: {fault}");
                assert!(fault.message.contains(function.name), "{typed}: {fault}");
                assert!(!has_jargon(&fault.to_string()), "{typed}: {fault}");
                let place = fault.place.expect("a place");
                let marked: Vec<&str> = place.marks.iter().map(|mark| &place.text[mark.clone()]).collect();
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
        let least = function.parameters.iter().filter(|parameter| parameter.usual.is_none()).count();
        for given in 0..=good.len() + 2 {
            let arguments: Vec<String> = good.iter().cycle().take(given).cloned().collect();
            let typed = call(function.name, &arguments);
            let result = answer(&host, &typed);
            if (least..=good.len()).contains(&given) {
                assert!(result.is_ok(), "{typed}: {result:?}");
                continue;
            }
            let fault = result.expect_err(&typed);
            let shown = fault.to_string();
            assert!(shown.contains(&function.form()), "{typed}: {shown}");
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
            let Some(usual) = parameter.usual else { continue };
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
            let last = function.parameters.iter().skip(index).all(|parameter| parameter.usual.is_some());
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
