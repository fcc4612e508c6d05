//! Runs malicious recipes, each in its own process: they end in a plain error, a refusal or a harmless ticket, never in
//! a hang, a crash, a flood of memory, a file, or codes for the terminal.

use shirr::quantity::{LiteralValue, Reading, literal};
use shirr::recipe::{PROTOCOL, RecipeText, Reply, Request, Task, library};
use shirr::report::excerpt;
use std::collections::BTreeMap;
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

/// Bodies of `make`, with what they must end in.
const MAKES: &[(&str, &str, Ends)] = &[
    ("endless loop", "loop {}", Error(LONG)),
    ("endless while", "while true { let a = 1; }", Error(LONG)),
    ("a caught limit", "loop { try { loop {} } catch {} }", Error(LONG)),
    ("a caught limit again", "for i in 0..100000000 { try { throw 1; } catch {} }", Error(LONG)),
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
    ("sort that fails", "[3, 1, 2].sort(|a, b| throw \"no order\");", Error("no order")),
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
    ("a figure that is a function", "ticket.figure(\"f\", |x| x, \"x\");", Error("must be a number")),
    ("an unknown step", "ticket.step(\"{nowhere}\");", Error("which is no figure and no input")),
    ("an unknown caution", "ticket.caution(\"none\");", Error("there is no caution")),
    ("an unknown stitch", "ticket.sew(\"999\", 1 cm, \"x\");", Error("999")),
    ("an unknown member", "order.wasit;", Error("the order has no")),
    ("writing to the order", "order.a = 3 cm;", AnyEnd),
    ("comparing unlike things", "if order.a == 3 { }", Error("cannot be compared")),
    ("comparing with a text", "if order.a == \"3 cm\" { }", Error("cannot be compared")),
    (
        "a switch on a length",
        "switch order.a { 3 => throw \"taken\", _ => throw \"the other arm\" }",
        Error("the other arm"),
    ),
    ("the insides of a literal", "__literal(\"5 inn\");", Error("is not a unit")),
    (
        "a literal of a thousand digits",
        "__literal(\"99999999999999999999999999999999999999 in\");",
        Error("too many digits"),
    ),
    ("what is shown inside a text", "`${ticket}`;", Error("cannot be written into a text")),
    ("an odd throw", "throw #{ a: [1, 2, 3] };", Error("gave up")),
    ("a throw of codes", "throw \"\\x1b[31mred\\x1b[0m\";", Error("red")),
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

fn ask(name: &str, text: &str, given: &[(&str, &str)]) -> Reply {
    let mut helpers = library::shipped_helpers();
    helpers.insert("one".to_owned(), "import \"two\" as two; fn f() { 1 }".to_owned());
    helpers.insert("two".to_owned(), "import \"one\" as one; fn f() { 1 }".to_owned());
    let recipe = RecipeText { name: "hostile".to_owned(), text: text.to_owned(), helpers };
    let task = Task::run(given.iter().copied());
    let request = Request { protocol: PROTOCOL, recipe, workshop: Vec::new(), plain: false, task };
    let mut child = Command::new(env!("CARGO_BIN_EXE_shirr"))
        .arg("answer-request")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(&serde_json::to_vec(&request).unwrap()).unwrap();
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
        if start.elapsed() > Duration::from_secs(120) {
            child.kill().unwrap();
            panic!("{name}: it hangs");
        }
        std::thread::sleep(Duration::from_millis(2));
    }
    let bytes = reader.join().unwrap();
    let mut stderr = String::new();
    std::io::Read::read_to_string(&mut child.stderr.take().unwrap(), &mut stderr).unwrap();
    serde_json::from_slice(&bytes).unwrap_or_else(|_| panic!("{name}: the process broke off: {stderr}"))
}

/// Whether a text is free of internal names, which no person should see.
fn is_plain(text: &str) -> bool {
    !["::", "i64", "f64", "Dynamic", "Measured", "panicked", "rhai::", "ErrorRuntime"]
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
    assert!(MAKES.len() + WHOLES.len() >= 70);
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
