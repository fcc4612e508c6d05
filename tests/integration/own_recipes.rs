//! Recipes of one's own: begun, found by name from anywhere, watched, told apart from others, passed on in one file.
#![cfg(unix)]

use crate::sessions::transcript_folder;
use std::fs;
use std::io::Read;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

/// The program as started in the folder `from` of a place of its own, with a home and a memory there.
fn shirr(place: &Path, from: &str) -> Command {
    let here = place.join(from);
    fs::create_dir_all(&here).unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command.current_dir(here).env("SHIRR_STATE", place.join("state")).env("SHIRR_DATA", place.join("data"));
    command.env_remove("COLUMNS").stdin(Stdio::null());
    command
}

/// Exit code, answers, and what else is told.
fn told(place: &Path, from: &str, words: &[&str]) -> (i32, String, String) {
    let Output { status, stdout, stderr } = shirr(place, from).args(words).output().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (status.code().unwrap(), text(stdout), text(stderr))
}

/// The answers of a command that succeeds and tells nothing else.
#[track_caller]
fn answers(place: &Path, from: &str, words: &[&str]) -> String {
    let (code, answers, else_told) = told(place, from, words);
    assert_eq!((code, else_told.as_str()), (0, ""), "{words:?}: {answers}");
    answers
}

const ORDER: [&str; 5] = ["run", "tea_towel", "wide=20 in", "high=30 in", "cloth=any 44 in at $6/yd"];

#[test]
fn a_draft_is_at_home_and_runs_from_anywhere() {
    let place = transcript_folder("a_draft");
    let file = place.path().join("data/recipes/tea_towel.rhai");
    let shown = answers(place.path(), "one", &["draft", "tea_towel"]);
    assert!(shown.starts_with(&format!("{} is your recipe; change it", file.display())), "{shown}");
    assert!(fs::read_to_string(&file).unwrap().contains("fn make(order, ticket)"));
    // Two examples by pencil are in it: 2 x (20 + 30) = 100 in of hem, and a cloth too narrow by its two hems.
    let checked = answers(place.path(), "two", &["check", "tea_towel"]);
    assert!(checked.starts_with("tea_towel: nothing to mend; 2 examples right; "), "{checked}");
    assert!(!checked.contains("worth a look") && !checked.contains("nothing that was tried"), "{checked}");
    let listed = answers(place.path(), "two", &["recipes", "tea"]);
    assert_eq!(listed, "tea_towel  your own: tea towel: a hemmed cloth. Say here in one sentence what yours makes.\n");
    // 22 in wide, 32 in long with its hems of 1 in.
    let made = answers(place.path(), "two", &[&ORDER[..], &["--all"]].concat());
    assert!(made.contains("32 in") && made.contains("22 in") && made.contains("100 in"), "{made}");
    let before = fs::read(&file).unwrap();
    let (code, _, problem) = told(place.path(), "one", &["draft", "tea_towel"]);
    assert_eq!((code, problem.as_str()), (1, "there is a recipe tea_towel already\n  give yours another name\n"));
    assert_eq!(fs::read(&file).unwrap(), before);
    assert_eq!(told(place.path(), "one", &["draft", "bunting"]).0, 1);
    for name in ["tea towel", "../tea", "1st", "", "tea\u{1b}"] {
        assert_eq!(told(place.path(), "one", &["draft", name]).0, 2, "{name:?}");
    }
    assert_eq!(told(place.path(), "one", &["draft", "mine", "--like", "buntign"]).0, 1);
}

#[test]
fn a_draft_like_another_is_that_recipe_and_says_so() {
    let place = transcript_folder("a_copy");
    fs::create_dir_all(place.path().join("shop")).unwrap();
    fs::write(place.path().join("shop/settings.csv"), "setting,value\ntape,inch\n").unwrap();
    answers(place.path(), "shop", &["draft", "my_bunting", "--like", "bunting"]);
    assert!(place.path().join("shop/recipes/my_bunting.rhai").is_file(), "a workshop has its own recipes");
    let checked = answers(place.path(), "shop", &["check", "my_bunting"]);
    let shipped = answers(place.path(), "shop", &["check", "bunting"]);
    // The line in its head moves those that nothing came to, which stand on the second line.
    assert_eq!(checked.replace("my_bunting", "bunting").lines().next(), shipped.lines().next());
    let described = answers(place.path(), "shop", &["describe", "my_bunting"]);
    let version = answers(place.path(), "shop", &["describe", "bunting"]);
    let version = version.split("version ").nth(1).unwrap().split_whitespace().next().unwrap().to_owned();
    assert!(described.contains(&format!("after bunting {version}")), "{described}");
    // From elsewhere it is found where the workshop is named.
    assert_eq!(told(place.path(), "far", &["check", "my_bunting"]).0, 1);
    assert_eq!(told(place.path(), "far", &["--workshop", "../shop", "check", "my_bunting"]).0, 0);
}

#[test]
fn describe_tells_where_a_recipe_is_from_and_whether_it_was_checked() {
    let place = transcript_folder("described");
    answers(place.path(), "here", &["draft", "tea_towel"]);
    let before = answers(place.path(), "here", &["describe", "tea_towel"]);
    let file = place.path().join("data/recipes/tea_towel.rhai");
    assert!(before.contains(&format!("file {}", file.display())), "{before}");
    assert!(before.contains("not checked yet; that is done before it runs the first time"), "{before}");
    let fingerprint = |described: &str| {
        let line = described.lines().find_map(|line| line.strip_prefix("fingerprint ")).unwrap();
        line.split("   ").next().unwrap().to_owned()
    };
    assert_eq!(fingerprint(&before).split(' ').map(str::len).collect::<Vec<_>>(), [4, 4, 4, 4]);
    answers(place.path(), "here", &["check", "tea_towel"]);
    let after = answers(place.path(), "here", &["describe", "tea_towel"]);
    assert!(after.contains("checked and accepted on 20") && fingerprint(&after) == fingerprint(&before), "{after}");
    fs::write(&file, fs::read_to_string(&file).unwrap().replace("usual(1 in)", "usual(2 in)")).unwrap();
    let changed = answers(place.path(), "here", &["describe", "tea_towel"]);
    assert!(changed.contains("not checked yet") && fingerprint(&changed) != fingerprint(&before), "{changed}");
    let shipped = answers(place.path(), "here", &["describe", "bunting"]);
    assert!(!shipped.contains("fingerprint"), "{shipped}");
}

#[test]
fn what_changed_in_a_recipe_is_told_before_it_runs_again() {
    let place = transcript_folder("changed");
    answers(place.path(), "here", &["draft", "tea_towel"]);
    let file = place.path().join("data/recipes/tea_towel.rhai");
    let (code, _, first) = told(place.path(), "here", &ORDER);
    assert_eq!((code, first.as_str()), (0, "checking tea_towel before it is run for the first time\n"));
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&file, text.replace("between(1/4 in, 4 in).usual(1 in)", "between(1/4 in, 4 in).usual(2 in)")).unwrap();
    let (code, _, second) = told(place.path(), "here", &ORDER);
    assert_eq!(code, 0);
    let lines: Vec<&str> = second.lines().skip(1).collect();
    assert_eq!(
        lines,
        [
            "tea_towel is not the text that you accepted:",
            "- it asks otherwise: hem: a length; 1/4 in to 4 in; usually 2 in; was a length; 1/4 in to 4 in; usually 1 in",
            "- lines: 1 new or changed, 1 gone or changed, helper files with them",
        ]
    );
    // Accepted, it is told no more.
    assert_eq!(told(place.path(), "here", &ORDER).2, "");
}

#[test]
fn a_name_that_hides_another_is_said_once() {
    let place = transcript_folder("hidden");
    answers(place.path(), "here", &["draft", "mine", "--like", "bunting"]);
    let home = place.path().join("data/recipes");
    fs::rename(home.join("mine.rhai"), home.join("bunting.rhai")).unwrap();
    let (code, answered, problem) = told(place.path(), "here", &["check", "bunting"]);
    assert_eq!(code, 0, "{problem}");
    let own = home.join("bunting.rhai");
    assert_eq!(problem, format!("bunting is {}, not the one that comes with the program\n", own.display()));
    assert!(answered.starts_with("bunting: nothing to mend"), "{answered}");
    // A file of a shipped name in the folder one stands in hides nothing, and is named with its ending.
    fs::write(place.path().join("here/valance.rhai"), "fn inputs() { [] }\nfn make(order, ticket) {}\n").unwrap();
    let (_, described, problem) = told(place.path(), "here", &["describe", "valance"]);
    let left = "not valance.rhai: for that, type the name of the file";
    assert_eq!(problem, format!("valance is the one that comes with the program, {left}\n"));
    assert!(described.contains("CC0-1.0"), "{described}");
}

#[test]
fn a_recipe_is_passed_on_in_one_file_with_its_helpers() {
    let place = transcript_folder("parcel");
    let at = |name: &str| place.path().join(name);
    answers(place.path(), "here", &["draft", "towel"]);
    fs::create_dir_all(at("writer")).unwrap();
    let text = fs::read_to_string(at("data/recipes/towel.rhai")).unwrap();
    let text = text.replacen("// What is asked", "import \"hems\" as hems;\n\n// What is asked", 1);
    let text = text.replace("2 * (order.wide + order.high)", "hems::round(order.wide, order.high)");
    fs::write(at("writer/towel.rhai"), &text).unwrap();
    fs::write(at("writer/hems.rhai"), "// Round a rectangle.\nfn round(wide, high) { 2 * (wide + high) }\n").unwrap();
    fs::remove_file(at("data/recipes/towel.rhai")).unwrap();
    let (code, _, said) = told(place.path(), "writer", &["parcel", "towel", "../towel.rhai"]);
    assert_eq!((code, said.contains("is one file to pass on; 1 helper file is in it")), (0, true), "{said}");
    fs::create_dir_all(at("reader")).unwrap();
    fs::rename(at("towel.rhai"), at("reader/towel.rhai")).unwrap();
    let checked = answers(place.path(), "reader", &["check", "towel"]);
    assert!(checked.starts_with("towel: nothing to mend; 2 examples right"), "{checked}");
    let described = answers(place.path(), "reader", &["describe", "towel"]);
    assert!(described.contains("helper files hems (in the same file)"), "{described}");
    // It is the recipe that the writer has, and both can tell by its fingerprint.
    let fingerprint = |described: &str| described.split("fingerprint ").nth(1).unwrap()[..19].to_owned();
    let writers = answers(place.path(), "writer", &["describe", "towel"]);
    assert!(writers.contains("helper files hems (beside it)"), "{writers}");
    assert_eq!(fingerprint(&described), fingerprint(&writers));
    // A fault in the helper is told on its line of the one file.
    let one = fs::read_to_string(at("reader/towel.rhai")).unwrap();
    let line = one.lines().position(|line| line.starts_with("fn round")).unwrap() + 1;
    fs::write(at("reader/towel.rhai"), one.replace("(wide + high)", "(wide + 3 min)")).unwrap();
    let (code, _, faults) = told(place.path(), "reader", &["check", "towel"]);
    assert_eq!(code, 1);
    assert!(faults.contains(&format!("hems.rhai, line {line}")), "line {line}: {faults}");
    // No file is written over, and a recipe's file has its ending.
    assert_eq!(told(place.path(), "writer", &["parcel", "towel", "hems.rhai"]).0, 1);
    assert_eq!(told(place.path(), "writer", &["parcel", "towel", "towel.txt"]).0, 2);
    assert_eq!(told(place.path(), "writer", &["parcel", "towle", "x.rhai"]).0, 1);
    // 200 kB and 100 kB are two files that can be read, and one that cannot.
    let filled = |text: &str, kilobytes: usize| format!("{text}{}", "// 4567890\n".repeat(kilobytes * 1024 / 11));
    fs::write(at("writer/towel.rhai"), filled(&text, 200)).unwrap();
    let helper = fs::read_to_string(at("writer/hems.rhai")).unwrap();
    fs::write(at("writer/hems.rhai"), filled(&helper, 100)).unwrap();
    let (code, _, said) = told(place.path(), "writer", &["parcel", "towel", "large.rhai"]);
    assert!(code == 1 && said.contains("more than 256 kB") && !at("writer/large.rhai").exists(), "{said}");
}

#[test]
fn a_watched_recipe_is_checked_again_when_it_is_saved() {
    let place = transcript_folder("watched");
    answers(place.path(), "here", &["draft", "tea_towel"]);
    let file = place.path().join("data/recipes/tea_towel.rhai");
    let mut child = shirr(place.path(), "here")
        .args(["check", "tea_towel", "--watch"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let (mut out, mut err) = (child.stdout.take().unwrap(), child.stderr.take().unwrap());
    let mut seen = String::new();
    let mut read_to = |stream: &mut dyn Read, end: &str| {
        let begun = Instant::now();
        while !seen.ends_with(end) && begun.elapsed() < Duration::from_mins(2) {
            let mut byte = [0];
            assert_eq!(stream.read(&mut byte).unwrap(), 1, "it ended: {seen}");
            seen.push(char::from(byte[0]));
        }
        std::mem::take(&mut seen)
    };
    let end = "it is checked again; Ctrl-C ends this\n";
    assert!(read_to(&mut out, end).contains("nothing to mend"));
    // Whole at once, as an editor does that is careful; one check follows.
    let save = |text: &str| {
        let aside = file.with_extension("aside");
        fs::write(&aside, text).unwrap();
        fs::rename(&aside, &file).unwrap();
    };
    let text = fs::read_to_string(&file).unwrap();
    save(&text.replace("2 * (order.wide + order.high)", "2 * (order.wide + 3 min)"));
    read_to(&mut out, end);
    let told = read_to(&mut err, "to mend");
    assert!(told.contains("tea_towel: ") && !told.contains("nothing"), "{told}");
    save(&text.replace("20 in", "21 in").replace("100 in", "102 in").replace("2 × (20", "2 × (21"));
    assert!(read_to(&mut out, end).contains("nothing to mend"));
    let interrupted = Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
    assert!(interrupted.success());
    assert_eq!(child.wait().unwrap().code(), Some(0), "that is how watching ends");
    // What is being written is checked, and not accepted each time.
    assert!(answers(place.path(), "here", &["describe", "tea_towel"]).contains("not checked yet"));
}
