//! Help on functions, topics and words of the trade, derived from their tables alone.
//!
//! Never here: printing, wrapping to the screen's width, statements of its own about the trade.

use super::function::{Example, Function, Parameter, ParameterKind};
use super::functions;
use super::host::Host;
use super::limits::{Limits, StopFlag};
use super::value;
use crate::quantity::{Dimension, Reading, Style, Tape};
use crate::textile::glossary::Term;
use rhai::Scope;
use unicode_width::UnicodeWidthStr;

/// A topic and its functions, in the order help lists them.
#[derive(Clone, Copy, Debug)]
pub struct Topic {
    /// The topic's name.
    pub name: &'static str,
    /// The functions listed under it.
    pub functions: &'static [Function],
}

/// Every topic, in the order help lists them.
pub fn topics() -> impl Iterator<Item = Topic> {
    functions::topics().filter_map(|functions| Some(Topic { name: functions.first()?.topic, functions }))
}

/// Returns the help on a function: signature, summary, arguments, examples with results in `style`, formula and source.
/// Several lines, the last without a line break.
pub fn help(function: &Function, style: &Style) -> String {
    let mut lines = vec![function.signature(), format!("  {}", function.summary)];
    let mut arguments: Vec<(String, String)> =
        function.parameters.iter().map(|parameter| (parameter.name.to_owned(), wanted(parameter, style))).collect();
    arguments.push(("answers".to_owned(), answered(function.result)));
    lines.extend(columns(&arguments));
    lines.extend(columns(&examples(function.examples, style)));
    lines.extend(function.formula.text().map(|formula| format!("  formula: {formula}")));
    lines.push(format!("  source: {}", function.source));
    lines.join("\n")
}

/// Returns the help on a word of the trade without its functions: what it is, other words for it, the source.
pub fn of_term(term: &Term) -> Vec<String> {
    let also = if term.also.is_empty() { String::new() } else { format!(" (also {})", term.also.join(", ")) };
    let meaning = format!("  {} ({})", term.meaning, functions::COMMON);
    vec![format!("{}{also}", term.word), meaning]
}

/// Returns a function as help lists it: signature and summary.
pub fn listed(function: &Function) -> Vec<String> {
    vec![format!("  {}", function.signature()), format!("    {}", function.summary)]
}

/// Returns a function as help lists it, with its first example and its formula.
pub fn listed_in_full(function: &Function, style: &Style) -> Vec<String> {
    let mut lines = listed(function);
    let first = function.examples.get(..1).unwrap_or_default();
    lines.extend(columns(&examples(first, style)).iter().map(|line| format!("  {line}")));
    lines.extend(function.formula.text().map(|formula| format!("    formula: {formula}")));
    lines
}

/// What an argument must be, how to type it, and its default.
fn wanted(parameter: &Parameter, style: &Style) -> String {
    let noun = match parameter.kind {
        ParameterKind::Share => "a share".to_owned(),
        kind => kind.noun(),
    };
    let such_as = such_as(parameter.kind, style).map_or_else(String::new, |typed| format!(", such as {typed}"));
    let default = parameter.default.map_or_else(String::new, |default| format!("; {default} where it is left out"));
    format!("{noun}{such_as}{default}")
}

fn answered(kind: ParameterKind) -> String {
    match kind {
        ParameterKind::Share => "a share, in per cent".to_owned(),
        kind => kind.noun(),
    }
}

fn such_as(kind: ParameterKind, style: &Style) -> Option<String> {
    let by_tape = |inch: &str, metric: &str| match style.tape {
        Tape::Inch => format!("{inch} or {metric}"),
        Tape::Metric => format!("{metric} or {inch}"),
    };
    Some(match kind {
        ParameterKind::Of(Dimension::LENGTH) => by_tape("14 1/2 in", "35 cm"),
        ParameterKind::Of(Dimension::AREA) => by_tape("2 yd^2", "1.5 m^2"),
        ParameterKind::Of(Dimension::MASS) => by_tape("8 oz", "200 g"),
        ParameterKind::Of(Dimension::MASS_BY_AREA) => by_tape("2.6 oz/yd^2", "60 g/m^2"),
        ParameterKind::Of(Dimension::TIME) => "12 min or 1 h 20 min".to_owned(),
        ParameterKind::Of(Dimension::MONEY) => format!("{}4.50", style.currency),
        ParameterKind::Of(Dimension::MONEY_BY_TIME) => format!("{}18/h", style.currency),
        ParameterKind::Number => "2.5".to_owned(),
        ParameterKind::Share => "8 % or 0.08".to_owned(),
        ParameterKind::Count => "3".to_owned(),
        ParameterKind::Any => by_tape("2.5, 14 1/2 in", "35 cm"),
        ParameterKind::Numbers => "[6, 5]".to_owned(),
        ParameterKind::List => by_tape("[14 in, 9 in]", "[35 cm, 22 cm]") + ", or a column of a table: orders.cost",
        ParameterKind::Flag => "true".to_owned(),
        ParameterKind::Anything => "a cell of a table".to_owned(),
        ParameterKind::Of(_) | ParameterKind::OneOf(_) => return None,
    })
}

/// Returns the examples as typed and as answered in this style.
pub fn examples(examples: &[Example], style: &Style) -> Vec<(String, String)> {
    let reading = Reading { currency: style.currency, ..Reading::default() };
    let host = Host::new(reading, *style, Limits::CELL, StopFlag::default());
    let in_style = |example: &Example| {
        let typed = example.typed.replace('$', &style.currency.to_string());
        let answer = host.compile_expression(&typed).and_then(|script| host.evaluate(&script, &mut Scope::new()));
        let shown = answer.ok().and_then(|answer| value::show(&answer, style));
        (typed, shown.unwrap_or_else(|| example.shown.to_owned()))
    };
    examples.iter().map(in_style).collect()
}

/// Lays rows out as two aligned columns.
fn columns(rows: &[(String, String)]) -> Vec<String> {
    let wide = rows.iter().map(|(left, _)| left.width()).max().unwrap_or(0);
    rows.iter().map(|(left, right)| format!("  {left}{}  {right}", " ".repeat(wide - left.width()))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::textile::glossary;
    use std::collections::BTreeSet;

    #[track_caller]
    fn check(name: &str, style: Style, wanted: &str) {
        assert_eq!(help(functions::named(name).unwrap(), &style), wanted);
    }

    #[test]
    fn a_function_is_told_from_its_entry() {
        check(
            "strips_for",
            Style::default(),
            "strips_for(flat, width, overlap = 0 in)
  Strips that cover a flat length when each overlaps the next.
  flat     a length, such as 14 1/2 in or 35 cm
  width    a length, such as 14 1/2 in or 35 cm
  overlap  a length, such as 14 1/2 in or 35 cm; 0 in where it is left out
  answers  a whole number, zero or more
  strips_for(610 1/2 in, 6 in, 1/2 in)  111
  strips_for(300 cm, 15 cm, 1 cm)       22
  strips_for(660 in, 54 in)             13
  formula: up((flat - overlap) / (width - overlap))
  source: common practice, no source",
        );
    }

    #[test]
    fn a_workshop_reads_its_own_signs() {
        let style = Style { currency: '£', decimal_comma: true, plain: true, tape: Tape::Metric, ..Style::default() };
        check(
            "grossed_up",
            style,
            "grossed_up(net, fee)
  Price that leaves a net amount once a fee on the price is paid.
  net      an amount of money, such as £4.50
  fee      a share, such as 8 % or 0.08
  answers  an amount of money
  grossed_up(£40, 6.5 %)  about £42,78
  formula: net / (1 - fee)
  source: common practice, no source",
        );
        let text = help(functions::named("widths_for").unwrap(), &style);
        assert!(text.contains("joins          \"whole widths\" or \"half widths\"; \"whole widths\" where"), "{text}");
        assert!(text.contains("flat           a length, such as 35 cm or 14 1/2 in\n"), "{text}");
        assert!(text.contains("\"half widths\")          1,5\n"), "{text}");
    }

    #[test]
    fn a_word_of_the_trade_leads_to_functions_that_are_there() {
        for term in glossary::TERMS {
            for name in term.functions {
                assert!(functions::named(name).is_some(), "{}: {name}", term.word);
            }
        }
        let term = glossary::explained("quarter mark").next().unwrap();
        assert_eq!(
            of_term(term),
            [
                "quarter marks",
                "  four marks round a band and round the strip that goes on it, to be matched (common practice, no source)"
            ]
        );
        assert_eq!(
            listed_in_full(functions::named("even_marks").unwrap(), &Style::default()),
            [
                "  even_marks(length, parts)",
                "    Distance from mark to mark when a length, without its overlap, is divided in equal parts.",
                "    even_marks(25 in, 8)  3 1/8 in",
                "    formula: length / parts",
            ]
        );
    }

    #[test]
    fn topics_hold_every_function_once_under_its_own_name() {
        let listed: Vec<&str> = topics().flat_map(|topic| topic.functions).map(|function| function.name).collect();
        assert_eq!(listed, functions::all().map(|function| function.name).collect::<Vec<_>>());
        let names: Vec<&str> = topics().map(|topic| topic.name).collect();
        assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len(), "{names:?}");
        for topic in topics() {
            assert!(topic.functions.iter().all(|function| function.topic == topic.name), "{}", topic.name);
        }
        assert_eq!(names.first(), Some(&"gathering"));
    }

    #[test]
    fn every_function_says_how_each_argument_is_typed() {
        for function in functions::all() {
            let text = help(function, &Style::default());
            for parameter in function.parameters {
                let begin = format!("  {}  ", parameter.name);
                let line = text.lines().find(|line| line.starts_with(&begin)).unwrap();
                assert!(line.contains(" such as ") || line.contains('"'), "{}: {line}", function.name);
            }
            for example in function.examples {
                assert!(text.lines().any(|line| line.ends_with(&format!("  {}", example.shown))), "{text}");
            }
        }
    }
}
