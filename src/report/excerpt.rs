//! Diagnostics as text: the message, the line with its marks below, and what to do.

use crate::diagnostic::{Diagnostic, DiagnosticKind, Label, Span};
use unicode_width::UnicodeWidthStr;

/// The whole diagnostic, in lines.
pub fn text(diagnostic: &Diagnostic) -> String {
    let mut lines = Vec::new();
    if !diagnostic.message.is_empty() {
        lines.push(message(diagnostic));
    }
    lines.extend(diagnostic.labels.iter().map(labelled));
    lines.extend(diagnostic.trace.iter().map(|step| format!("  while working out {step}")));
    lines.extend(diagnostic.hint.iter().map(|hint| format!("  {hint}")));
    lines.extend(diagnostic.related.iter().map(text));
    lines.join("\n")
}

/// What is wrong, without where and what to do, for one field of a table; several errors are each given in full.
pub fn headline(diagnostic: &Diagnostic) -> String {
    let own = Some(message(diagnostic)).filter(|own| !own.is_empty());
    own.into_iter().chain(diagnostic.related.iter().map(text)).collect::<Vec<_>>().join("\n")
}

/// Several diagnostics, one below the other.
pub fn texts<'d>(diagnostics: impl IntoIterator<Item = &'d Diagnostic>) -> String {
    diagnostics.into_iter().map(text).collect::<Vec<_>>().join("\n")
}

fn message(diagnostic: &Diagnostic) -> String {
    match &diagnostic.kind {
        DiagnosticKind::Refusal { input, .. } | DiagnosticKind::NotGiven { input } => {
            format!("{input}: {}", diagnostic.message)
        }
        _ => diagnostic.message.clone(),
    }
}

/// The line and, below it, the marks.
fn labelled(Label { span, words }: &Label) -> String {
    let Span { file, line, text, bytes, .. } = span;
    let shown = text.replace('\t', " ");
    let indent = shown.len() - shown.trim_start().len();
    let mut marks = String::new();
    for range in bytes {
        let start = shown.get(indent..range.start).map_or(0, UnicodeWidthStr::width);
        let width = shown.get(range.clone()).map_or(1, UnicodeWidthStr::width).max(1);
        let gap = start.saturating_sub(marks.width());
        marks.push_str(&" ".repeat(gap));
        marks.push_str(&"~".repeat(width));
    }
    if !words.is_empty() {
        marks.push_str(&format!(" {words}"));
    }
    let file = file.as_ref().map_or_else(String::new, |file| format!("  {file}, line {line}\n"));
    format!("{file}  {}\n  {marks}", shown.trim_start())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_stand_below_what_they_mark() {
        let span = Span::in_text(Some("skirt.rhai"), "let a = 1;\n\tlet é = 3 cm + 2;\n", vec![21..25, 28..29]);
        let diagnostic =
            Diagnostic { trace: vec!["band".to_owned()], ..Diagnostic::new("no sum") }.at(span).hinting("type 5");
        let expected =
            "no sum\n  skirt.rhai, line 2\n  let é = 3 cm + 2;\n          ~~~~   ~\n  while working out band\n  type 5";
        assert_eq!(text(&diagnostic), expected);
        assert_eq!(headline(&diagnostic), "no sum");
    }

    #[test]
    fn a_refusal_names_its_input_and_several_are_told_in_turn() {
        let of = |input: &str| DiagnosticKind::Refusal { input: input.to_owned(), typing: None };
        let waist = Diagnostic::new("it is not given").of_kind(of("waist")).hinting("type waist=3");
        let skirt = Diagnostic::new("too long").of_kind(of("skirt"));
        let diagnostic = Diagnostic::several("no order", vec![waist, skirt]);
        assert_eq!(text(&diagnostic), "no order\nwaist: it is not given\n  type waist=3\nskirt: too long");
        assert_eq!(headline(&diagnostic), text(&diagnostic));
        assert_eq!(text(&Diagnostic::several("", vec![Diagnostic::new("one")])), "one");
    }
}
