//! Runs malicious recipes, each in its own process, and holds each process to these limits from outside:
//!
//! - it ends by itself, with a reply that can be read: a plain error, a refusal or a ticket. A crash has no reply, and
//!   neither has a stack that runs over, with the main thread on 8 MB;
//! - it ends within two minutes, which tells a hang from an end and says nothing of speed;
//! - on Unix, it lives in [`MEMORY`] kilobytes of address space, program and stacks included, and can write to no file;
//!   the system refuses it more;
//! - it leaves no file or folder where it runs, nor in the folders for state, data and temporary files it is given.
//!
//! Codes for the terminal are tried on the program as a person runs it, in what each command shows, draws and writes.

use crate::common::framed;
use shirr::quantity::{LiteralValue, Reading, literal};
use shirr::recipe::{PROTOCOL, RecipeText, Reply, Request, Task, library};
use shirr::report::excerpt;
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// How a script may end.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Ends {
    /// In an error whose message contains this.
    Error(&'static str),
    /// In anything but a crash.
    AnyEnd,
}
use Ends::{AnyEnd, Error};

const LONG: &str = "goes on for too long";
const LARGE: &str = "too large";
const NO_FUNCTION: &str = "there is no function";
const KEPT: &str = "can only be handed over at once";

/// Bodies of `make`, with what they must end in.
const MAKES: &[(&str, &str, Ends)] = &[
    ("endless loop", "loop {}", Error(LONG)),
    ("endless while", "while true { let a = 1; }", Error(LONG)),
    ("a caught limit", "loop { try { loop {} } catch {} }", Error("“try” has a meaning of its own")),
    ("a throw", "throw 1;", Error("“throw” has a meaning of its own")),
    (
        "a caught refusal",
        "try { order.refuse(\"a\", \"no\"); } catch {} ticket.figure(\"n\", 1, \"x\");",
        Error("“try” has a meaning of its own"),
    ),
    ("what a thing is", "let t = type_of(order);", Error("“type_of” has a meaning of its own")),
    // What a function does that is handed over counts with the rest: 6,250,000 steps.
    (
        "loops inside map",
        "let a = []; for i in 0..2500 { a.push(i); } for i in 0..50 { a.map(|x| { for j in 0..50 { x + j; } x }); }",
        Error(LONG),
    ),
    (
        "loops inside sort",
        "let a = []; for i in 0..2500 { a.push(i); } for i in 0..200 { a.sort(|x, y| { for j in 0..9 { j; } x < y }); }",
        Error(LONG),
    ),
    // Copies of a list of 4,900: the engine counts one step for each.
    ("copies of a list", "let a = []; for i in 0..4900 { a.push(i); } for i in 0..300000 { let b = a; }", Error(LONG)),
    (
        "looking through a list",
        "let a = []; for i in 0..4900 { a.push(i); } for i in 0..200000 { a.contains(-1); }",
        Error(LONG),
    ),
    (
        "looking through a text",
        "let t = \"x\"; for i in 0..16 { t += t; } for i in 0..100000 { t.contains(\"y\"); }",
        Error(LONG),
    ),
    // A chain of functions, each holding the one before, overran the stack when it was dropped.
    ("functions in functions", "let a = || 0; for i in 0..300000 { let b = a; a = || b; }", Error(KEPT)),
    ("a function that holds itself", "let a = [0]; a[0] = || a;", Error(KEPT)),
    ("a function that is given back", "fn f() { |x| x } f();", Error(KEPT)),
    ("a function in brackets", "[1].map({ let f = |x| x; f });", Error(KEPT)),
    ("a word of lists anew", "fn len(x) { 3 } len([1]);", Error("cannot be written anew")),
    ("text doubling", "let a = \"x\"; loop { a = a + a; }", Error(LARGE)),
    ("text doubling in place", "let a = \"x\"; loop { a += a; }", Error(LARGE)),
    ("text in text", "let a = \"x\"; loop { a = `${a}${a}`; }", Error(LARGE)),
    ("replace grows", "let a = \"aaaaaaaaaa\"; loop { a.replace(\"a\", \"aaaaaaaaaa\"); }", Error("too long")),
    ("list doubling", "let a = [1]; loop { a = a + a; }", Error(LARGE)),
    ("list push", "let a = []; loop { a.push(\"some text that takes room\"); }", AnyEnd),
    ("list in list", "let a = [1]; loop { a = [a, a]; }", AnyEnd),
    ("list nested deep", "let a = []; for i in 0..100000 { a = [a]; }", AnyEnd),
    (
        "group grows by index",
        "let m = #{}; let t = \"x\"; for i in 0..16 { t += t; } for i in 0..1000000 { m[\"k\" + i] = t + i; }",
        AnyEnd,
    ),
    ("group in group", "let m = #{}; for i in 0..100000 { m = #{ a: m, b: m }; }", AnyEnd),
    (
        "captured by closures",
        "let kept = []; let t = \"x\"; for i in 0..16 { t += t; } for i in 0..100000 { let u = t + i; kept.push(|| u); }",
        AnyEnd,
    ),
    ("calls itself", "fn f(x) { f(x + 1) } f(0);", AnyEnd),
    ("sort that fails", "[3, 1, 2].sort(|a, b| no_order(a));", Error("there is no function")),
    (
        "sort that lies",
        "let a = []; for i in 0..500 { a.push(i); } a.sort(|a, b| 1); ticket.figure(\"n\", a.len(), \"n\");",
        AnyEnd,
    ),
    ("sort of unlike things", "[3 in, 1 min].sort();", Error("cannot be compared")),
    ("eval", "eval(\"loop {}\");", AnyEnd),
    ("timestamp", "timestamp();", Error(NO_FUNCTION)),
    ("sleep", "sleep(1000);", Error(NO_FUNCTION)),
    ("exit", "exit(1);", Error(NO_FUNCTION)),
    ("print", "print(\"\\x1b[2J\");", AnyEnd),
    ("blob", "let b = blob(1000000000);", Error(NO_FUNCTION)),
    ("pad", "let a = [1]; a.pad(1000000000, 1);", Error(NO_FUNCTION)),
    ("open", "open_file(\"/etc/passwd\");", Error(NO_FUNCTION)),
    ("import up", "import \"../sleeves\" as s;", Error("there is no helper file")),
    ("import root", "import \"/etc/passwd\" as s;", Error("there is no helper file")),
    ("import by a made name", "let n = \"..\" + \"/x\"; import n as s;", Error("there is no helper file")),
    ("a loop of imports", "for i in 0..1000 { import \"sleeves\" as s; }", AnyEnd),
    ("whole numbers run over", "let a = 999999999999999; a * a;", Error("too large")),
    ("powers run over", "let a = 10 ^ 400;", Error("too large")),
    ("floats run over into a figure", "let a = 1e308; ticket.figure(\"a\", a * 10.0, \"a\");", Error("too large")),
    (
        "floats run over into a piece",
        "let a = 1e308; let b = a * 10.0; ticket.piece(\"p\", any_cloth(1 m)).rectangle(1 cm * b, 1 cm);",
        Error("too large"),
    ),
    ("divided by nothing", "1 / 0;", Error("divided by zero")),
    (
        "a piece of nothing",
        "ticket.piece(\"p\", any_cloth(1 m)).rectangle(0 cm, 1 cm);",
        Error("must be more than nothing"),
    ),
    (
        "a negative piece",
        "ticket.piece(\"p\", any_cloth(1 m)).rectangle(-1 cm, 1 cm);",
        Error("must be more than nothing"),
    ),
    ("a huge piece", "ticket.piece(\"p\", any_cloth(1 m)).rectangle(1e200 * 1 m, 1 cm);", AnyEnd),
    (
        "a thousand million pieces",
        "ticket.piece(\"p\", any_cloth(1 m)).rectangle(1 cm, 1 cm).count(1000000000);",
        AnyEnd,
    ),
    (
        "half a piece",
        "ticket.piece(\"p\", any_cloth(1 m)).rectangle(1 cm, 1 cm).count(1.5);",
        Error("must be a whole number"),
    ),
    ("a piece without a shape", "ticket.piece(\"p\", any_cloth(1 m));", Error("was given no shape")),
    (
        "a hundred thousand pieces",
        "for i in 0..100000 { ticket.piece(\"p\" + i, any_cloth(1 m)).rectangle(1 cm, 1 cm); }",
        Error("1000 pieces at most"),
    ),
    ("a hundred thousand steps", "for i in 0..100000 { ticket.step(\"again\"); }", Error("1000 steps at most")),
    (
        "a piece named twice",
        "for i in 0..2 { ticket.piece(\"p\", any_cloth(1 m)).rectangle(1 cm, 1 cm); }",
        Error("there is a piece"),
    ),
    ("a figure named as an input", "ticket.figure(\"a\", 1, \"x\");", Error("is the name of an input")),
    ("a figure that is a function", "ticket.figure(\"f\", |x| x, \"x\");", Error(KEPT)),
    ("an unknown step", "ticket.step(\"{nowhere}\");", Error("which is no figure and no input")),
    ("an unknown caution", "ticket.caution(\"none\");", Error("there is no caution")),
    ("an unknown stitch", "ticket.sew(\"999\", 1 cm, \"x\");", Error("999")),
    ("an unknown member", "order.wasit;", Error("the order has no")),
    ("writing to the order", "order.a = 3 cm;", AnyEnd),
    ("comparing unlike things", "if order.a == 3 { }", Error("cannot be compared")),
    ("comparing with a text", "if order.a == \"3 cm\" { }", Error("cannot be compared")),
    (
        "a switch on a length",
        "switch order.a { 3 => order.refuse(\"a\", \"taken\"), _ => order.refuse(\"a\", \"the other arm\") }",
        Error("the other arm"),
    ),
    ("the insides of a literal", "__literal(\"5 inn\");", Error("is not a unit")),
    (
        "a literal of a thousand digits",
        "__literal(\"99999999999999999999999999999999999999 in\");",
        Error("too many digits"),
    ),
    ("what is shown inside a text", "`${ticket}`;", Error("cannot be written into a text")),
    ("a refusal of codes", "order.refuse(\"a\", \"\\x1b[31mred\\x1b[0m\");", Error("red")),
    ("a name of codes", "ticket.work(\"\\x1b[31mred\", 1);", Error("cannot be seen")),
    (
        "a name that looks like another",
        "for n in [\"p\", \"p\\u200b\"] { ticket.piece(n, any_cloth(1 m)).rectangle(1 cm, 1 cm); }",
        Error("cannot be seen"),
    ),
    (
        "a name with a blank behind it",
        "for n in [\"p\", \"p \"] { ticket.piece(n, any_cloth(1 m)).rectangle(1 cm, 1 cm); }",
        Error("has a blank at an end"),
    ),
    (
        "a long name",
        "let n = \"\"; for i in 0..81 { n += \"x\"; } ticket.work(n, 1);",
        Error("has 81 letters; 80 are the most"),
    ),
    (
        "a long text",
        "let n = \"\"; for i in 0..1001 { n += \"x\"; } ticket.sew(\"301\", 1 cm, n);",
        Error("has 1001 letters; 1000 are the most"),
    ),
    (
        "a long step",
        "let n = \"\"; for i in 0..2001 { n += \"x\"; } ticket.step(n);",
        Error("has 2001 letters; 2000 are the most"),
    ),
    // 600 times a figure of 900 letters.
    (
        "a step that grows as it is spoken",
        "let n = \"\"; for i in 0..900 { n += \"x\"; } ticket.figure(\"f\", n, \"x\"); let s = \"\"; \
         for i in 0..600 { s += \"{f}\"; } for i in 0..900 { ticket.step(s); }",
        Error("becomes too long with its figures; 2000 letters are the most"),
    ),
    ("a wide elastic", "elastic_worn(50 cm, 30 %);", Error("more than 25 %")),
    (
        "the ticket kept and used",
        "let keep = ticket; keep.figure(\"n\", 1, \"x\"); ticket.figure(\"n\", 2, \"x\");",
        Error("there is a figure"),
    ),
];

/// Whole recipes, with what they must end in.
const WHOLES: &[(&str, &str, Ends)] = &[
    ("inputs that never end", "fn inputs() { loop {} }\nfn make(o, t) {}", Error(LONG)),
    ("inputs that are no list", "fn inputs() { 3 }\nfn make(o, t) {}", Error("must give a list")),
    ("inputs that are numbers", "fn inputs() { [1, 2] }\nfn make(o, t) {}", Error("not an input")),
    (
        "an input twice",
        "fn inputs() { [number(\"a\", \"a\"), number(\"a\", \"a\")] }\nfn make(o, t) {}",
        Error("twice"),
    ),
    (
        "an input named with codes",
        "fn inputs() { [number(\"\\x1b[31m\", \"a\")] }\nfn make(o, t) {}",
        Error("cannot be the name"),
    ),
    (
        "a word written anew",
        "fn inputs() { [] }\nfn gathered_flat(a, b) { 0 in }\nfn make(o, t) {}",
        Error("cannot be written anew"),
    ),
    ("loop outside functions", "loop {}\nfn inputs() { [] }\nfn make(o, t) {}", Error(LONG)),
    ("no make", "fn inputs() { [] }", Error("has no fn make")),
    (
        "pieces after cutting",
        "fn inputs() { [] }\nfn make(o, t) {}\nfn after_cutting(o, p, t) { t.piece(\"p\", any_cloth(1 m)).rectangle(1 cm, 1 cm); }",
        Error("after cutting"),
    ),
    ("an endless end", "fn inputs() { [] }\nfn make(o, t) {}\nfn after_cutting(o, p, t) { loop {} }", Error(LONG)),
    ("a circle of helpers", "import \"one\" as one;\nfn inputs() { [] }\nfn make(o, t) {}", Error("circle")),
    ("open brackets", "fn inputs() { [ }", AnyEnd),
    (
        "brackets for ever",
        "((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((",
        AnyEnd,
    ),
    (
        "another contract",
        "//! x\n//! contract: 2   version: 1\nfn inputs() { [] }\nfn make(o, t) {}",
        Error("contract 2"),
    ),
];

/// Kilobytes of address space for a process: the test build of the program takes some 40,000 of them, and a script may
/// grow by 65,536.
const MEMORY: u32 = 200_000;

/// The program, told to answer one request, in so many kilobytes, without leave to write to a file.
#[cfg(unix)]
fn limited(memory: u32) -> Command {
    let mut command = Command::new("sh");
    // Not every system can limit a process's memory; where it can, `the_limit_of_memory_bites` holds.
    let limits = format!("ulimit -v {memory} 2>/dev/null; ulimit -s 8192 2>/dev/null; ulimit -f 0; exec \"$0\" \"$@\"");
    command.args(["-c", &limits, env!("CARGO_BIN_EXE_shirr"), "answer-requests"]);
    command
}

#[cfg(not(unix))]
fn limited(_memory: u32) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command.arg("answer-requests");
    command
}

fn ask(name: &str, text: &str, given: &[(&str, &str)]) -> Reply {
    ask_within(MEMORY, name, text, given).unwrap_or_else(|stderr| panic!("{name}: the process broke off: {stderr}"))
}

/// What a process within so many kilobytes replies, or its error output if it broke off.
fn ask_within(memory: u32, name: &str, text: &str, given: &[(&str, &str)]) -> Result<Reply, String> {
    let mut helpers = library::shipped_helpers();
    helpers.insert("one".to_owned(), "import \"two\" as two; fn f() { 1 }".to_owned());
    helpers.insert("two".to_owned(), "import \"one\" as one; fn f() { 1 }".to_owned());
    let recipe = RecipeText { name: "hostile".to_owned(), text: text.to_owned(), helpers };
    let task = Task::run(given.iter().copied());
    let request = Request { protocol: PROTOCOL, recipe: Some(recipe), workshop: Some(Vec::new()), plain: false, task };
    let here = tempfile::tempdir().unwrap();
    let mut child = limited(memory)
        .current_dir(here.path())
        .envs(["SHIRR_STATE", "SHIRR_DATA", "HOME", "TMPDIR"].map(|variable| (variable, here.path())))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A process that could not even start does not read.
    let _handed_over = child.stdin.take().unwrap().write_all(&framed(&request));
    let reader = std::thread::spawn({
        let mut out = child.stdout.take().unwrap();
        move || {
            let mut bytes = Vec::new();
            std::io::Read::read_to_end(&mut out, &mut bytes).unwrap();
            bytes
        }
    });
    // Guards against a hang; far longer than the slowest machine needs.
    let start = Instant::now();
    while child.try_wait().unwrap().is_none() {
        if start.elapsed() > Duration::from_mins(2) {
            child.kill().unwrap();
            panic!("{name}: it hangs");
        }
        std::thread::sleep(Duration::from_millis(2));
    }
    let bytes = reader.join().unwrap();
    let mut stderr = String::new();
    std::io::Read::read_to_string(&mut child.stderr.take().unwrap(), &mut stderr).unwrap();
    let left: Vec<_> = fs::read_dir(here.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert!(left.is_empty(), "{name}: it leaves {left:?}");
    match serde_json::from_slice(bytes.get(4..).unwrap_or_default()) {
        Ok(reply) if child.wait().unwrap().success() => Ok(reply),
        _ => Err(stderr),
    }
}

/// Whether a text is free of internal names, which no person should see.
fn is_plain(text: &str) -> bool {
    !["::", "i64", "f64", "Dynamic", "Measured", "panicked", "rhai::", "ErrorRuntime", "array", "BLOB", "object map"]
        .iter()
        .any(|word| text.contains(word))
}

fn check(name: &str, text: &str, given: &[(&str, &str)], ends: Ends) {
    let reply = ask(name, text, given);
    let shown = match &reply {
        Reply::Failed(errors) => excerpt::texts(errors),
        Reply::Refused(refusals) => refusals.iter().map(excerpt::text).collect(),
        Reply::Ran(_) => String::new(),
        other => panic!("{name}: {other:?}"),
    };
    // A quoted line of the script may hold anything; the message may not.
    let message = match &reply {
        Reply::Failed(errors) => errors.iter().map(|error| error.message.as_str()).collect::<Vec<_>>().join("\n"),
        _ => shown.clone(),
    };
    assert!(is_plain(&message), "{name}: {message}");
    if let Error(part) = ends {
        assert!(!matches!(reply, Reply::Ran(_)), "{name} made a ticket");
        assert!(message.contains(part), "{name}: {shown}");
    }
}

#[test]
fn makes_that_mean_harm_end_in_words() {
    assert!(MAKES.len() + WHOLES.len() >= 90);
    for (name, body, ends) in MAKES {
        let (outside, body) = match body.strip_prefix("fn ") {
            Some(_) => body.split_once("} ").map(|(function, rest)| (format!("{function}}}"), rest)).unwrap(),
            None => (String::new(), *body),
        };
        let text = format!(
            "//! Harm.\n//! contract: 1   version: 1   licence: CC0-1.0   for: test\n{outside}\n\
             fn inputs() {{ [length(\"a\", \"a\").between(1 cm, 9 cm)] }}\nfn make(order, ticket) {{ {body} }}"
        );
        check(name, &text, &[("a", "3 cm")], *ends);
    }
}

#[test]
fn whole_recipes_that_mean_harm_end_in_words() {
    for (name, text, ends) in WHOLES {
        check(name, text, &[], *ends);
    }
    let functions: String = (0..5_000).map(|n| format!("fn f{n}() {{ {n} }}\n")).collect();
    check("thousands of functions", &format!("{functions}fn inputs() {{ [] }}\nfn make(o, t) {{}}"), &[], AnyEnd);
    let deep =
        format!("fn inputs() {{ [] }}\nfn make(o, t) {{ let a = {}1{}; }}", "(".repeat(3_000), ")".repeat(3_000));
    check("an expression three thousand deep", &deep, &[], Error("too many brackets"));
    let long = format!("fn inputs() {{ [] }}\nfn make(o, t) {{ let a = \"{}\"; }}", "x".repeat(3 << 20));
    check("a text of three megabytes", &long, &[], Error("too long"));
    check("a nought byte", "fn inputs() { [] }\u{0}\nfn make(o, t) {}", &[], AnyEnd);
}

#[test]
fn answers_that_mean_harm_end_in_words() {
    let text = "fn inputs() { [length(\"a\", \"a\").between(1 cm, 9 cm), gathers(\"g\", \"g\").between(1, 4).usual(2), cloth(\"c\", \"c\").usual(\"x\")] }\n\
                fn make(order, ticket) { ticket.figure(\"f\", order.a, \"x\"); }";
    for typed in [
        "",
        " ",
        "3",
        "3 min",
        "NaN",
        "inf",
        "-3 cm",
        "1e300 cm",
        "10 cm",
        "loop {}",
        "[1, 2]",
        "\"3 cm\"",
        "3 cm; loop {}",
        "let x = 3 cm",
        "a",
        "order.a",
        "timestamp()",
        "import \"x\" as x",
        "3 cm\n+ 1 cm",
        "\u{1b}[31m",
        "(((((",
        "`${`",
    ] {
        let reply = ask(typed, text, &[("a", typed), ("c", "any 1 m")]);
        let good = typed.contains('\n');
        assert_eq!(matches!(reply, Reply::Ran(_)), good, "{typed:?}: {reply:?}");
        assert_eq!(matches!(reply, Reply::Refused(_)), !good, "{typed:?}: {reply:?}");
    }
    for typed in ["0.5", "[]", "[0, 0]", "1e300", "[1e300, 1e300]", "nobody", "-1"] {
        let reply = ask(typed, text, &[("a", "3 cm"), ("g", typed), ("c", "any 1 m")]);
        assert!(matches!(reply, Reply::Refused(_)), "{typed:?}: {reply:?}");
    }
}

/// A script that grows to its own limit breaks off where the system gives less: else the limit of the others would prove
/// nothing.
#[cfg(target_os = "linux")]
#[test]
fn the_limit_of_memory_bites() {
    let text = "fn inputs() { [] }\nfn make(o, t) { let m = #{}; let t = \"x\"; for i in 0..16 { t += t; } \
                for i in 0..1000000 { m[\"k\" + i] = t + i; } }";
    match ask_within(MEMORY, "greedy", text, &[]) {
        Ok(Reply::Failed(errors)) => assert!(errors[0].message.contains("more memory than a recipe may use")),
        other => panic!("{other:?}"),
    }
    assert!(ask_within(60_000, "greedy", text, &[]).is_err());
}

/// A recipe that has codes in every text it may hand over: colour, clearing, a title, turned reading order, a bell.
const CODED: &str = r#"//! RAWMakesRAW harm.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: RAWtrick

fn inputs() { [
    length("a", "how longRAW").between(1 cm, 9 cm).usual(3 cm),
    choice("b", "whichCODE", ["one", "other"]).usual("one"),
    cloth("c", "clothCODE"),
] }

fn make(order, ticket) {
    if order.b == "other" { order.refuse("a", "noCODE") }
    if order.a > 8 cm { ticket.caution("thrownCODE") }
    ticket.figure("n", 1, "figureCODE");
    ticket.figure("said", "textCODE", "what");
    ticket.piece("piece", order.c).rectangle(10 cm, 10 cm);
    ticket.need(plain_notion("ribbon"), 1 m, "whyCODE");
    ticket.sew("301", 1 m, "seamCODE");
    ticket.work("work", 1 m);
    ticket.mark("piece", "markCODE", 1 cm, "fromCODE");
    ticket.step("stepCODE");
}

fn examples() { [ #{ given: #{ a: 3 cm, b: "one", c: any_cloth(1 m) }, expect: #{ n: 2 }, source: "sourceCODE" } ] }
"#;

/// Codes are what moves, colours or rewrites a terminal, or turns the order in which a text is read.
fn has_codes(text: &str) -> bool {
    text.chars().any(|c| (c.is_control() && c != '\n') || ('\u{202a}'..='\u{202e}').contains(&c))
}

#[test]
fn no_codes_of_a_recipe_are_shown_or_drawn_by_any_command() {
    let here = tempfile::tempdir().unwrap();
    let here = here.path();
    // As they are, and as a script writes them.
    let coded = CODED.replace("RAW", "\u{1b}[2J\u{1b}]0;title\u{7}\u{202e}");
    let coded = coded.replace("CODE", "\\x1b[31m\\x1b[2J\\x1b]0;title\\x07\\u202e");
    fs::write(here.join("harm.rhai"), coded).unwrap();
    let cloth = "c=any 1 m at $3/m";
    let commands: &[(&[&str], &str)] = &[
        (&["run", "harm.rhai", "--anyway", "--all", "--csv", "out", cloth], "step"),
        (&["run", "harm.rhai", "--anyway", "--plain", cloth], "piece"),
        (&["run", "harm.rhai", "--anyway", "b=other", cloth], "no"),
        (&["run", "harm.rhai", "--anyway", "a=9 cm", cloth], "thrown"),
        (&["run", "harm.rhai", "--anyway"], "cloth"),
        (&["sheet", "harm.rhai", "--anyway", cloth], "step"),
        (&["describe", "harm.rhai"], "how long"),
        (&["check", "harm.rhai"], "n"),
    ];
    for (words, shown) in commands {
        let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
        command.current_dir(here).args(*words).stdin(Stdio::null());
        let done = command.envs(["SHIRR_STATE", "SHIRR_DATA"].map(|variable| (variable, here))).output().unwrap();
        let text = String::from_utf8([done.stdout, done.stderr].concat()).unwrap();
        assert!(text.contains(shown), "{words:?} does not come to what is tried: {text}");
        assert!(!has_codes(&text), "{words:?}: {text:?}");
    }
    let mut files = 0;
    for path in fs::read_dir(here.join("out")).unwrap().map(|entry| entry.unwrap().path()) {
        let text = fs::read_to_string(&path).unwrap().replace("\r\n", "\n");
        assert!(!has_codes(&text), "{}: {text:?}", path.display());
        files += usize::from(path.extension().is_some_and(|end| end == "svg"));
    }
    assert_eq!(files, 2, "one picture of the pieces, one of the lay");
}

/// A small repeatable stream of random numbers.
struct Draw(u64);

impl Draw {
    fn below(&mut self, below: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % below
    }
}

#[test]
fn random_text_never_ends_in_a_crash() {
    use shirr::engine::limits::{Limits, StopFlag};
    use shirr::engine::{Expression, Host};
    use shirr::notebook::read_line;
    use shirr::quantity::Style;
    let parts = [
        "14",
        " ",
        "1/2",
        "in",
        "\"",
        "'",
        "½",
        "$",
        "4.50",
        "/",
        "yd",
        "+",
        "-",
        "*",
        "^",
        "%",
        "(",
        ")",
        "[",
        "]",
        "{",
        "}",
        "#",
        "//",
        "/*",
        "*/",
        "`",
        "${",
        "±",
        "€",
        "as",
        "let",
        "fn",
        "if",
        "x",
        "=",
        "==",
        ",",
        ".",
        "..",
        "0x",
        "1e5",
        "é",
        "絹",
        "\u{202e}",
        "\n",
        "\t",
        "\\",
        ";",
        "|",
        "gathered_flat",
        "cm",
        "_",
        "2 yd 6 in",
        "999999999999999999",
    ];
    let limits = Limits { operations: 5_000, memory: usize::MAX };
    let host = Host::new(Reading::default(), Style::default(), limits, StopFlag::default());
    let mut draw = Draw(7);
    for _ in 0..20_000 {
        let text: String = (0..draw.below(12)).map(|_| parts[draw.below(parts.len())]).collect();
        let _line = read_line(&text, Reading::default());
        if let Ok(LiteralValue::Quantity(read)) = literal::read_quantity(&text, Reading::default()) {
            assert!(read.steps().is_finite(), "{text:?}");
        }
        let result = Expression::compile(&host, &text).and_then(|e| e.evaluate(&host, &mut rhai::Scope::new()));
        if let Err(error) = result {
            let shown = excerpt::text(&error);
            assert!(!error.message.is_empty() && is_plain(&error.message), "{text:?}: {shown}");
            for span in error.labels.iter().map(|label| &label.span) {
                let inside = span.bytes.iter().all(|range| range.end <= span.text.len());
                assert!(inside, "{text:?}: the mark lies outside");
            }
        }
    }
    let shipped = library::shipped("curtains").unwrap();
    for _ in 0..500 {
        let mut text = shipped.text.clone();
        let (at, length) = (draw.below(text.len()), draw.below(30));
        if text.is_char_boundary(at) && text.is_char_boundary((at + length).min(text.len())) {
            text.replace_range(at..(at + length).min(text.len()), parts[draw.below(parts.len())]);
        }
        let recipe = RecipeText { name: "damaged".to_owned(), text, helpers: BTreeMap::new() };
        assert_eq!(recipe.fingerprint().len(), 64);
        let _compiled = host.compile("damaged.rhai", &recipe.text);
    }
}
