//! Helper files: found by name, loaded once, and told apart in errors.

use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::host::Host;
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::value;
use crate::quantity::{Reading, Style};
use std::collections::BTreeMap;

fn host(helpers: &[(&str, &str)]) -> Host {
    let mut host = Host::new(Reading::default(), Style::default(), Limits::RECIPE, StopFlag::default());
    let texts: BTreeMap<String, String> =
        helpers.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect();
    host.set_library(texts);
    host
}

/// Calls `f` of a script.
fn call(host: &Host, script: &str) -> Result<String, Diagnostic> {
    let script = host.compile("recipe.rhai", script)?;
    let answer = host.call(&script, "f", ())?;
    Ok(value::show(&answer, &Style::default()).unwrap_or_default())
}

/// The file, the line and the marked parts of an error.
fn place(error: &Diagnostic) -> (Option<&str>, usize, Vec<&str>) {
    let span = &error.labels[0].span;
    (span.file.as_deref(), span.line, span.bytes.iter().map(|bytes| &span.text[bytes.clone()]).collect())
}

#[test]
fn a_helper_is_imported_by_its_name() {
    let host = host(&[
        ("bands", "import \"hems\" as hems; fn band(x) { hems::hem() + x * 2 }"),
        ("hems", "fn hem() { 3 in }"),
    ]);
    let script = "import \"bands\" as bands; import \"hems\" as hems; fn f() { bands::band(1 in) + hems::hem() }";
    assert_eq!(call(&host, script).unwrap(), "8 in");
    assert_eq!(call(&host, script).unwrap(), "8 in");
}

#[test]
fn a_helper_that_is_not_there_is_told_with_the_nearest() {
    let host = host(&[("bands", ""), ("hems", "")]);
    let error = call(&host, "import \"bnads\" as b; fn f() { 1 }").unwrap_err();
    assert_eq!(error.message, "there is no helper file “bnads”");
    assert_eq!(error.hint.as_deref(), Some("did you mean \"bands\"?"));
    let error = call(&host, "import \"something\" as b; fn f() { 1 }").unwrap_err();
    assert_eq!(error.hint, None);
}

#[test]
fn a_circle_is_told_each_time_it_is_asked_for() {
    let host = host(&[("one", "import \"two\" as two;"), ("two", "import \"one\" as one;")]);
    for _ in 0..2 {
        let error = call(&host, "import \"one\" as one; fn f() { 1 }").unwrap_err();
        assert_eq!(error.message, "the helper file “one” imports itself in a circle");
    }
}

#[test]
fn an_error_in_a_helper_is_marked_in_its_own_file() {
    for (helper, message, line, marks) in [
        ("fn g() { 1 }\nfn h() { 2 + }", "“}” cannot be here", 2, "}"),
        ("fn g() { 1 }\n\nlet kept = |x| x;", "a function can only be handed over at once, not kept", 3, "|"),
    ] {
        let host = host(&[("helper", helper)]);
        let error = call(&host, "import \"helper\" as h; fn f() { 1 }").unwrap_err();
        assert_eq!((error.message.as_str(), &error.kind), (message, &DiagnosticKind::Syntax));
        assert_eq!(place(&error), (Some("helper.rhai"), line, vec![marks]));
    }
    let host = host(&[("helper", "fn g() { 1 }\nfn h() { 5'3 }")]);
    let error = call(&host, "import \"helper\" as h; fn f() { 1 }").unwrap_err();
    assert!(error.message.starts_with("helper.rhai: "), "{}", error.message);
}

#[test]
fn a_failing_sum_in_a_helper_is_traced_through_the_names_it_is_for() {
    let helper = "fn hem() { 1 }\nfn band(x) {\n    let wide = x + 2 min;\n    wide\n}";
    let host = host(&[("helper", helper)]);
    let script = "import \"helper\" as helper;\nfn f() {\n    let panel = helper::band(3 in);\n    panel\n}";
    let error = call(&host, script).unwrap_err();
    assert_eq!(error.message, "a length and a time cannot be added");
    assert_eq!(place(&error), (Some("helper.rhai"), 3, vec!["x", "2 min"]));
    assert_eq!(error.trace, ["wide", "panel"]);
    assert_eq!(error.topic.as_deref(), Some("units"));
}
