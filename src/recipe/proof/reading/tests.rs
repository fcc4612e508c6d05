//! What reading says of a few lines, worked out by hand: the words that are marked, and what is wrong with them.

use crate::engine::limits::StopFlag;
use crate::recipe::run::answer_in;
use crate::recipe::{CheckReport, RecipeText, Reply, Task};
use crate::workshop::Workshop;
use std::collections::BTreeMap;

/// A recipe whose `make` is this body. It asks for two lengths, one of them optional, a choice, what hangs on it, a
/// yes or no, and cloth.
fn answered(body: &str) -> Reply {
    let text = format!(
        "//! A cloth.\n//! contract: 1   version: 1.0   licence: CC0-1.0   for: household\n\
         fn inputs() {{ [\n\
         length(\"wide\", \"how wide\").between(5 cm, 90 cm),\n\
         length(\"hem\", \"its hem\").between(1 cm, 9 cm).optional(),\n\
         choice(\"edge\", \"its edge\", [\"plain\", \"bound\"]),\n\
         length(\"tape\", \"width of the tape\").between(1 cm, 5 cm).only_if(\"edge\", \"bound\"),\n\
         yes_no(\"washed\", \"whether it is washed\"),\n\
         cloth(\"cloth\", \"its cloth\"),\n] }}\n\
         fn used(order) {{ [order.wide, order.edge, order.washed, order.cloth, order.has(\"hem\"), order.has(\"tape\")] }}\n\
         fn make(order, ticket) {{ used(order);\n{body}\n}}\n\
         fn examples() {{ [] }}\n"
    );
    let recipe = RecipeText { name: "cloth".to_owned(), text, helpers: BTreeMap::new() };
    answer_in(&recipe, &Workshop::default(), false, &Task::Read, StopFlag::default())
}

fn read(body: &str) -> CheckReport {
    match answered(body) {
        Reply::Checked(report) => report,
        other => panic!("{body}: {other:?}"),
    }
}

/// What is said: the words that are marked first, and the message; faults before cautions.
fn said(body: &str) -> Vec<(String, String)> {
    let report = read(body);
    assert_eq!(report.unread, 0, "{body}");
    let told = report.findings.iter().chain(&report.cautions).map(|found| {
        let span = found.labels.first().map(|label| &label.span);
        let marked = span.map(|span| span.bytes.iter().filter_map(|bytes| span.text.get(bytes.clone())));
        (marked.into_iter().flatten().collect::<Vec<_>>().join(" | "), found.message.clone())
    });
    told.collect()
}

#[track_caller]
fn fault(body: &str, marked: &str, message: &str) {
    assert_eq!(said(body), [(marked.to_owned(), message.to_owned())], "{body}");
}

#[track_caller]
fn silent(body: &str) {
    assert_eq!(said(body), [], "{body}");
}

#[test]
fn sums_and_comparisons_are_of_one_kind() {
    fault("let _a = order.wide + 3;", "order.wide | 3", "a length and a plain number cannot be added");
    fault("let _a = order.wide - 3 min;", "order.wide | 3 min", "a time cannot be taken from a length");
    fault("let _a = \"a\" * 2;", "\"a\" | 2", "a text and a plain number cannot be multiplied");
    fault("let _a = order.wide > 3;", "order.wide | 3", "a length and a plain number cannot be compared");
    fault("let _a = order.cloth == \"lawn\";", "order.cloth | \"lawn\"", "a cloth and a text cannot be compared");
    fault(
        "let sum = 0; sum += order.wide; ticket.figure(\"sum\", sum, \"all\");",
        "sum | order.wide",
        "a plain number and a length cannot be added",
    );
    silent("let _a = order.wide + 3 cm;");
    silent("let _a = 2 * order.wide / 3;");
    silent("let _a = order.wide / 2 cm > 3;");
    silent("let _a = \"a\" + order.wide + 2;");
    silent("let _a = order.wide * order.wide + 2 cm^2;");
}

#[test]
fn names_are_there() {
    fault("let _a = wide;", "wide", "I don't know the word wide");
    fault("let _a = order.wied;", "wied", "the order has no “wied”");
    fault("let _a = order.cloth.usable_with;", "usable_with", "a cloth has no “usable_with”");
    fault("let _a = uup(3);", "uup", "there is no function “uup”");
    fault("let _a = bands::close(3);", "close", "no helper file is imported as “bands”");
    fault("ticket.caution(\"flam\");", "\"flam\"", "there is no caution “flam”");
    fault("let g = #{ length: 3 }; let _a = g.lenght;", "lenght", "there is no “lenght” in it");
    silent("let g = #{ length: 3 }; let _a = g.length + g[\"length\"];");
    silent("let g = #{ length: 3 }; let _a = g.other == ();");
}

#[test]
fn what_is_handed_over_is_of_the_kind_that_is_taken() {
    fault("ticket.figure(\"a\", order.wide);", "figure", "figure takes 3 things, not 2");
    fault(
        "ticket.piece(\"a\", order.wide).rectangle(3 cm, 4 cm);",
        "order.wide",
        "cloth in piece must be a cloth, not a length",
    );
    fault(
        "ticket.piece(\"a\", order.cloth).rectangle(3, 4 cm);",
        "3",
        "along in rectangle must be a length, not a plain number",
    );
    fault(
        "ticket.piece(\"a\", order.cloth).grain(\"accross\");",
        "\"accross\"",
        "grain in grain must be \"along\" or \"across\" or \"bias\" or \"any\", not \"accross\"",
    );
    fault(
        "ticket.sew(\"999\", 3 cm, \"a\");",
        "\"999\"",
        "stitch class is “999”; it must be one of 101, 301, 304, 401, 406, 503, 504, 512, 514, 516, 602, 605",
    );
    silent("ticket.piece(\"a\", order.cloth).rectangle(3 cm, 4 cm).grain(\"across\").count(up(2.5));");
}

#[test]
fn an_input_is_read_where_it_is_given() {
    let not_given = |name: &str| format!("“{name}” was not given, so it cannot be reckoned with");
    fault("let _a = order.hem;", "hem", &not_given("hem"));
    fault("let _a = order.tape;", "tape", &not_given("tape"));
    fault("if !order.has(\"hem\") { let _a = order.hem; }", "hem", &not_given("hem"));
    fault("if order.has(\"hem\") || order.washed { let _a = order.hem; }", "hem", &not_given("hem"));
    fault("if order.edge == \"plain\" { let _a = order.tape; }", "tape", &not_given("tape"));
    silent("if order.has(\"hem\") { let _a = order.hem; }");
    silent("let _a = if order.has(\"hem\") && order.hem > 2 cm { 1 } else { 2 };");
    silent("if !order.has(\"hem\") { return; } let _a = order.hem;");
    silent(
        "let given = order.has(\"hem\"); let bound = order.edge == \"bound\"; if given && bound { let _a = order.hem + order.tape; }",
    );
    silent("if order.edge != \"plain\" { let _a = order.tape; }");
    silent("switch order.edge { \"bound\" => { let _a = order.tape; }, _ => {} }");
}

#[test]
fn choices_are_those_that_are_asked_for() {
    let never = "“bond” is not one of the choices of “edge”, so this is never so";
    fault("let _a = order.edge == \"bond\";", "order.edge | \"bond\"", never);
    fault("let _a = switch order.edge { \"plain\" => 1, \"bond\" => 2, _ => 3 };", "\"bond\"", never);
    fault("let _a = order.edge in [\"plain\", \"bond\"];", "in", never);
    fault("let _a = switch order.edge { \"plain\" => 1 };", "switch", "nothing is done here where “edge” is \"bound\"");
    silent("let _a = switch order.edge { \"plain\" => 1, \"bound\" => 2 };");
    silent("let _a = switch order.edge { \"plain\" | \"bound\" => 1 };");
}

#[test]
fn branches_that_are_unlike_are_told_where_they_are_used() {
    fault(
        "let a = if order.washed { 3 cm } else { 4 }; ticket.figure(\"a\", a + 1 cm, \"a\");",
        "4",
        "this gives a plain number, another way a length",
    );
    fault(
        "let a = if order.washed { 3 cm }; ticket.figure(\"a\", a + 1 cm, \"a\");",
        "a | 1 cm",
        "nothing and a length cannot be added",
    );
    silent("let _a = if order.washed { 3 cm } else { 4 };");
    silent("let a = if order.washed { 3 cm }; if a != () { ticket.figure(\"a\", a + 1 cm, \"a\"); }");
    silent("let a = (); if order.washed { a = 1 cm } else { a = 2 cm } ticket.figure(\"a\", a + 1 cm, \"a\");");
}

#[test]
fn loops_show_all_their_kinds() {
    fault(
        "let a = 1; for i in 0..3 { a = a * order.wide; } ticket.figure(\"a\", a + 1, \"a\");",
        "a | 1",
        "a length and a plain number cannot be added",
    );
    fault("for i in order.wide { let _a = i; }", "order", "only a list or a range can be gone through, not a length");
    fault("for i in 0..5 / 2 { let _a = i; }", "5", "a range runs between whole numbers");
    silent("let a = 0 cm; for wide in [1 cm, 2 cm] { a += wide; } ticket.figure(\"a\", a, \"a\");");
    silent("let a = loop { if order.washed { break 3 cm; } break 4 cm; }; ticket.figure(\"a\", a + 1 cm, \"a\");");
    silent(
        "let all = []; while all.len() < 3 { all.push(order.wide); } ticket.figure(\"a\", all[0] + all.sum(), \"a\");",
    );
    silent("let seam = 1 cm; let cut = [3 cm, 4 cm].map(|side| side + seam); ticket.figure(\"a\", cut.sum(), \"a\");");
    fault(
        "let cut = [3 cm, 4 cm].map(|side| side + 1); ticket.figure(\"a\", cut.len(), \"a\");",
        "side | 1",
        "a length and a plain number cannot be added",
    );
}

/// What the engine's own parser finds is told in the same words.
#[test]
fn what_can_be_nothing_else_is_found_before_it_is_read() {
    for (body, message) in [
        ("for i in 2.5 { let _a = i; }", "a list or a range is needed here, not a plain number"),
        ("for i in true { let _a = i; }", "a list or a range is needed here, not a yes or no"),
        ("if 3 { return; }", "a yes or no is needed here, not a plain number"),
        ("if \"a\" { return; }", "a yes or no is needed here, not a text"),
        ("while [1] { return; }", "a yes or no is needed here, not a list"),
    ] {
        match answered(body) {
            Reply::Failed(errors) => assert_eq!(errors[0].message, message, "{body}"),
            other => panic!("{body}: {other:?}"),
        }
    }
}

#[test]
fn what_is_of_no_use_is_told() {
    fault("let seam = 1 cm;", "seam", "“seam” is worked out and never used");
    fault(
        "let seam = 1 cm; seam = 2 cm; ticket.figure(\"a\", seam, \"a\");",
        "seam",
        "“seam” is given a value here and another one before it is used",
    );
    fault(
        "return; ticket.figure(\"a\", 1, \"a\");",
        "ticket",
        "this can never be reached: every way in ends before it",
    );
    fault(
        "order.refuse(\"wide\", \"too wide\"); ticket.figure(\"a\", 1, \"a\");",
        "ticket",
        "this can never be reached: every way in ends before it",
    );
    fault(
        "if order.wide > 95 cm { ticket.figure(\"a\", 1, \"a\"); }",
        "order.wide | 95 cm",
        "this is never so, whatever the input is within its ends",
    );
    fault("let _a = order.wide > 9 cm && order.wide < 8 cm;", "<", "this is never so beside what is asked before it");
    fault(
        "if order.washed { let _a = 1; } else if order.washed { let _b = 2; }",
        "order",
        "this is never so: the same was asked before",
    );
    silent("let seam = 1 cm; seam += 2 cm; ticket.figure(\"a\", seam, \"a\");");
    silent("if order.wide > 50 cm { ticket.figure(\"a\", 1, \"a\"); }");
    silent("if order.washed { return; } ticket.figure(\"a\", 1, \"a\");");
}

#[test]
fn steps_speak_of_figures_inputs_and_measures() {
    silent("ticket.figure(\"side seam\", 1 cm, \"a\"); ticket.step(\"Cut {wide}, {side seam} and {1/4 in}.\");");
    fault("ticket.step(\"Cut it {wiide} wide.\");", "\"Cut it {wiide} wide.\"", "{wiide} is no figure and no input");
    fault(
        "ticket.step(if order.washed { \"Cut it.\" } else { \"Turn up 2 cm.\" });",
        "\"Turn up 2 cm.\"",
        "2 cm is written out in this step and stays so on the other tape",
    );
    silent("for n in 1..3 { ticket.figure(`side ${n}`, 1 cm, \"a\"); ticket.step(`Cut {side ${n}}.`); }");
    fault(
        "for n in 1..3 { ticket.figure(`side ${n}`, 1 cm, \"a\"); ticket.step(`Cut {edge ${n}}.`); }",
        "Cut {edge ",
        "{edge …} is no figure and no input",
    );
}

#[test]
fn functions_are_read_with_what_they_are_called_with() {
    let with = |function: &str, body: &str| format!("{body}\n}}\n{function}\nfn _last() {{");
    fault(
        &with("fn more(a) { a + 1 cm }", "let _a = more(3);"),
        "a | 1 cm",
        "a plain number and a length cannot be added",
    );
    fault(&with("fn more(a) { a + 1 cm }", "let _a = more(3 cm, 4);"), "more", "more takes 1 thing, not 2");
    fault(&with("fn more(a) { a + 1 cm }", ""), "more", "nothing calls “more”");
    fault(
        &with("fn hem(deep) { if deep { return 3 cm } 4 }", "let _a = hem(order.washed);"),
        "4",
        "the function gives a plain number here and a length elsewhere",
    );
    silent(&with("fn fewer(n) { if n < 1 { 0 cm } else { 1 cm + fewer(n - 1) } }", "let _a = fewer(3) + 1 cm;"));
    silent(&with("fn stop(order) { order.refuse(\"wide\", \"too wide\") }", "if order.wide > 50 cm { stop(order) }"));
}
