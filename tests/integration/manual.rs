//! Tests the manual: README, DEVELOPERS and the pages of the reference. Their sessions come out as printed, their
//! recipe passes its check, their lists and columns are complete, their paths and links exist.

use crate::sessions::{replay, transcript_folder, words};
use shirr::engine::help;
use shirr::engine::limits::StopFlag;
use shirr::notebook::verbs;
use shirr::recipe::contract::words::WORDS;
use shirr::recipe::run::answer_in;
use shirr::recipe::{RecipeText, Reply, Task, library};
use shirr::workshop::Workshop;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// Every page of the manual.
const PAGES: [&str; 9] = [
    "README.md",
    "DEVELOPERS.md",
    "recipes/reference/reference.md",
    "recipes/reference/lines.md",
    "recipes/reference/orders.md",
    "recipes/reference/cutting.md",
    "recipes/reference/workshop.md",
    "recipes/reference/writing.md",
    "recipes/reference/bibliography.md",
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn read(name: &str) -> String {
    fs::read_to_string(root().join(name)).unwrap()
}

/// The fenced blocks marked with a language.
fn blocks(text: &str, language: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut inside: Option<Vec<&str>> = None;
    for line in text.lines() {
        match &mut inside {
            None if line == format!("```{language}") => inside = Some(Vec::new()),
            Some(block) if line == "```" => {
                found.push(block.join("\n") + "\n");
                inside = None;
            }
            Some(block) => block.push(line),
            None => {}
        }
    }
    found
}

/// Whether a session comes out as printed; one that ends with `…` must only begin so.
fn comes_out(printed: &str, shown: &str) -> bool {
    match printed.strip_suffix("…\n") {
        Some(beginning) => shown.len() > beginning.len() && shown.starts_with(beginning),
        None => shown == printed,
    }
}

#[test]
fn every_session_comes_out_as_printed() {
    let mut seen = BTreeMap::new();
    for name in PAGES {
        for block in blocks(&read(name), "text") {
            let here = transcript_folder("manual");
            // A reader's folder has the demo here.
            fs::create_dir(here.path().join("recipes")).unwrap();
            fs::rename(here.path().join("demo"), here.path().join("recipes/demo")).unwrap();
            // A page that ends with an error sets an exit code, which a person at the prompt does not see.
            let shown = replay(&block, here.path());
            let shown = if block.contains("[exit") { shown } else { shown.replace("[exit 1]\n", "") };
            assert!(comes_out(&block, &shown), "{name}, printed:\n{block}\nshown:\n{shown}");
            *seen.entry(name).or_insert(0) += 1;
        }
    }
    assert!(seen["README.md"] >= 5, "{seen:?}");
    for page in ["lines", "orders", "cutting"] {
        assert!(seen[format!("recipes/reference/{page}.md").as_str()] >= 1, "{seen:?}");
    }
    assert!(!comes_out("a\n…\n", "a\n") && comes_out("a\n…\n", "a\nb\n") && !comes_out("a\n", "a\nb\n"));
}

#[test]
fn the_recipe_in_the_manual_passes_its_check() {
    let recipes = blocks(&read("recipes/reference/writing.md"), "rhai");
    assert!(!recipes.is_empty());
    for text in recipes {
        let recipe = RecipeText { name: "pouch".to_owned(), text, helpers: library::shipped_helpers() };
        match answer_in(&recipe, &Workshop::default(), false, &Task::Check, StopFlag::default()) {
            Reply::Checked(report) => assert!(report.passed(), "{:?}", report.findings),
            other => panic!("{other:?}"),
        }
    }
}

/// Own arithmetic: 20 cm wide and 25 cm high, casings of 3 cm, a cord twice the width and 20 cm.
#[test]
fn the_recipe_in_the_manual_needs_and_sews_what_its_steps_say() {
    let text = blocks(&read("src/terminal/manual/writing.md"), "rhai").remove(0);
    let recipe = RecipeText { name: "pouch".to_owned(), text, helpers: library::shipped_helpers() };
    let given = [("wide", "20 cm"), ("high", "25 cm"), ("cloth", "any_cloth(112 cm)"), ("cord", "any")];
    let ticket = match answer_in(&recipe, &Workshop::default(), false, &Task::run(given), StopFlag::default()) {
        Reply::Ran(ticket) => ticket,
        other => panic!("{other:?}"),
    };
    let near = |found: shirr::quantity::Quantity, wanted: f64| {
        let found = found.count_of(shirr::quantity::Unit::Centimetre).unwrap();
        assert!((found - wanted).abs() < 1e-6, "{found}, not {wanted}");
    };
    assert_eq!((ticket.needs.len(), ticket.sewing.len()), (1, 2));
    near(ticket.needs[0].amount, 60.0);
    for (line, wanted) in ticket.sewing.iter().zip([44.0, 40.0]) {
        near(line.length.into(), wanted);
    }
    for (operation, wanted) in [("sew a seam", 44.0), ("turn and sew a hem", 40.0)] {
        near(ticket.work.iter().find(|work| work.operation == operation).unwrap().amount, wanted);
    }
}

#[test]
fn every_verb_word_function_and_recipe_is_in_the_reference() {
    let (lines, writing) = (read("recipes/reference/lines.md"), read("recipes/reference/writing.md"));
    for verb in verbs::VERBS {
        assert!(lines.contains(&format!("\n| `{}` | {} |\n", verb.form(), verb.summary)), "{}", verb.name);
    }
    for word in WORDS.iter() {
        assert!(writing.contains(&format!("\n| `{}` | {} |\n", word.form, word.summary)), "{}", word.form);
    }
    let reference = read("recipes/reference/reference.md");
    for topic in help::topics() {
        assert!(reference.contains(&format!("\n### {}\n", topic.name)), "{}", topic.name);
        for function in topic.functions {
            assert!(reference.contains(&format!("\n**`{}`** ", function.signature())), "{}", function.name);
        }
    }
    for name in library::shipped_names() {
        assert!(reference.contains(&format!("\n- [{name}](#{name}): ")), "{name}");
    }
}

/// The rows of the first table below an HTML comment, each as its fields.
fn table_below(page: &str, mark: &str) -> Vec<Vec<String>> {
    let page = read(page);
    let (_, below) = page.split_once(&format!("<!-- {mark} -->\n")).unwrap_or_else(|| panic!("no {mark}"));
    let rows = below.lines().skip_while(|line| !line.starts_with('|')).take_while(|line| line.starts_with('|'));
    let fields = |row: &str| row.trim_matches('|').split('|').map(|field| field.trim().to_owned()).collect();
    rows.skip(2).map(fields).collect()
}

/// The name in the first field of a row, without its markup.
fn named(row: &[String]) -> String {
    row[0].trim_matches(['*', '`']).to_owned()
}

/// The columns of a file, and those it requires, according to the program's messages.
fn columns_listed(output: &str, file: &str) -> (Vec<String>, BTreeSet<String>) {
    let output = output.replace(",\n  ", ", ").replace("\n  ", " ");
    let listed = output.lines().find_map(|line| {
        let (of, columns) = line.split_once(" is not a column of this file the columns are ")?;
        of.starts_with(file).then(|| columns.split(", ").map(str::to_owned).collect())
    });
    let missing = output.lines().filter(|line| line.starts_with(file)).filter_map(|line| {
        let (_, column) = line.split_once("column “")?;
        Some(column.split_once("”: the column is missing")?.0.to_owned())
    });
    (listed.unwrap_or_default(), missing.collect())
}

#[test]
fn the_columns_of_every_file_that_is_read_are_in_the_reference() {
    let here = transcript_folder("manual");
    let files = ["materials", "stock", "trials", "rates", "sizes", "settings"].map(|name| format!("{name}.csv"));
    fs::create_dir(here.path().join("none")).unwrap();
    for file in &files {
        fs::write(here.path().join("none").join(file), "zzqqzz\n").unwrap();
    }
    let output = replay("$ shirr --workshop none reckon 1\n", here.path());
    for file in &files {
        let (columns, needed) = columns_listed(&output, file);
        let rows = table_below("recipes/reference/workshop.md", &format!("columns of {file}"));
        let written: Vec<String> = rows.iter().map(|row| named(row)).collect();
        // Any further column of sizes is a measure, so none is wrong.
        let columns = if file == "sizes.csv" { vec!["size".to_owned()] } else { columns };
        assert_eq!(written, columns, "{file}: {output}");
        let bold = rows.iter().filter(|row| row[0].starts_with("**")).map(|row| named(row)).collect();
        assert_eq!(needed, bold, "{file}: {output}");
    }
    for file in ["pieces", "lengths"] {
        fs::write(here.path().join(file), "zzqqzz\n").unwrap();
    }
    let output = replay("$ shirr cut pieces --from lengths\n", here.path());
    for (file, needed) in [("pieces", ["along", "count", "piece"]), ("lengths", ["along", "count", "stock"])] {
        let (columns, missing) = columns_listed(&output, file);
        let rows = table_below("recipes/reference/cutting.md", &format!("columns of {file}"));
        let written: BTreeSet<String> = rows.iter().map(|row| named(row)).collect();
        assert_eq!(written, columns.into_iter().collect(), "{file}: {output}");
        assert_eq!(missing, needed.map(str::to_owned).into(), "{file}: {output}");
    }
}

fn on_one_line(output: &str) -> String {
    output.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_setting_and_rate_is_in_the_reference() {
    let listed = |list: &str| -> String {
        let rows = table_below("recipes/reference/workshop.md", list);
        rows.iter().map(|row| named(row)).collect::<Vec<_>>().join(", ")
    };
    let here = transcript_folder("manual");
    fs::write(here.path().join("settings.csv"), "setting,value\nzzqqzz,1\n").unwrap();
    let output = on_one_line(&replay("$ shirr reckon 1\n", here.path()));
    assert!(output.contains(&format!("is not one of {} type ", listed("settings"))), "{output}");
    fs::write(here.path().join("settings.csv"), "setting,value\n").unwrap();
    fs::write(here.path().join("rates.csv"), "operation,per,minutes,value\nzzqqzz,,,1\n").unwrap();
    let output =
        on_one_line(&replay("$ shirr run pleated_strip edge='30 in' deep='2 in' cloth='any 45 in'\n", here.path()));
    assert!(output.contains(&format!("only these have a value: {} ", listed("rates"))), "{output}");
}

/// The headings of a CSV file without their units, each once.
fn headings(file: &Path) -> Vec<String> {
    let text = fs::read_to_string(file).unwrap();
    let mut names: Vec<String> = Vec::new();
    for heading in text.lines().next().unwrap().split(',') {
        let name = heading.split(" (").next().unwrap().to_owned();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// Asserts that the table lists the columns of every file that the commands leave in `out`: in the same order, none
/// missing, and none that is in no file.
fn files_have_the_columns_written(commands: &[&str], page: &str, mark: &str) {
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    let written: BTreeMap<String, Vec<String>> = table_below(page, mark)
        .iter()
        .map(|row| (named(row), row[2].split(", ").map(str::to_owned).collect()))
        .collect();
    for command in commands {
        let here = transcript_folder("manual");
        fs::write(here.path().join("flags.csv"), "piece,count,along,across\nflag,4,10 in,8 in\n").unwrap();
        let shown = replay(&format!("$ shirr {command} --csv out\n"), here.path());
        assert!(!shown.contains("[exit"), "{shown}");
        for entry in fs::read_dir(here.path().join("out")).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if path.extension().is_none_or(|end| end != "csv") {
                assert!(read(page).contains(&format!("`{name}`")), "{name} is not in {page}");
                continue;
            }
            let headings = headings(&path);
            let known = written.get(&name).unwrap_or_else(|| panic!("{name} is not in {page}"));
            let in_order: Vec<&String> = known.iter().filter(|column| headings.contains(column)).collect();
            assert_eq!(in_order, headings.iter().collect::<Vec<_>>(), "{name} in {page}");
            found.entry(name).or_default().extend(headings);
        }
    }
    let written = written.into_iter().map(|(name, columns)| (name, columns.into_iter().collect())).collect();
    assert_eq!(found, written, "{page}");
}

#[test]
fn the_columns_of_every_file_that_is_left_are_in_the_reference() {
    let skirt = "run gathered_skirt --workshop demo waist='21 in' skirt='12 in' cloth='blue check lawn' elastic=any";
    files_have_the_columns_written(&[&main_command(), skirt], "recipes/reference/orders.md", "the files of an order");
    files_have_the_columns_written(
        &[
            "cut demo/strips.csv --from demo/rolls.csv",
            "cut demo/pieces.csv --from demo/lengths.csv",
            "cut flags.csv --from demo/lengths.csv --folded",
        ],
        "recipes/reference/cutting.md",
        "the files of a cut",
    );
}

/// README's first command, typed in a folder that holds the demo, without `--csv out`.
fn main_command() -> String {
    let command = blocks(&read("README.md"), "sh").into_iter().find(|block| block.starts_with("cargo run")).unwrap();
    let (_, arguments) = command.trim().split_once(" -- ").unwrap();
    arguments.strip_suffix(" --csv out").unwrap().replace("recipes/demo", "demo")
}

#[test]
fn the_commands_of_readme_name_what_is_there() {
    let commands = blocks(&read("README.md"), "sh").join("");
    let mut seen = 0;
    for word in words(&commands.replace('\n', " ")) {
        if ["recipes/", "scripts/"].iter().any(|folder| word.starts_with(folder)) {
            assert!(root().join(&word).exists(), "{word}");
            seen += 1;
        }
    }
    assert!(seen >= 4, "{commands}");
}

#[test]
fn the_paths_that_the_manual_names_are_there() {
    let mut seen = 0;
    for name in PAGES {
        for part in read(name).split('`').skip(1).step_by(2) {
            let looks_like_a_path =
                ["src/", "tests/", "scripts/", "recipes/", ".ci/"].iter().any(|root| part.starts_with(root));
            if looks_like_a_path && !part.contains(['*', ' ']) {
                assert!(root().join(part).exists(), "{name} names {part}, which is not there");
                seen += 1;
            }
        }
    }
    assert!(seen > 20, "{seen} paths");
}

#[test]
fn the_links_of_the_manual_lead_somewhere() {
    let mut seen = 0;
    for name in PAGES {
        let folder = root().join(name).parent().unwrap().to_path_buf();
        for link in read(name).split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
            let (file, part) = link.split_once('#').unwrap_or((link, ""));
            if file.starts_with("https://") {
                continue;
            }
            let file = if file.is_empty() { root().join(name) } else { folder.join(file) };
            assert!(file.exists(), "{name} links to {link}");
            let title = |line: &str| line.trim_start_matches('#').trim().to_lowercase().replace(' ', "-");
            let has_part =
                || fs::read_to_string(&file).unwrap().lines().any(|l| l.starts_with('#') && title(l) == part);
            assert!(part.is_empty() || has_part(), "{name} links to {link}");
            seen += 1;
        }
    }
    assert!(seen > 30, "{seen} links");
    let readme = read("README.md");
    for page in PAGES.iter().skip(1) {
        assert!(readme.contains(&format!("]({page})")), "README does not lead to {page}");
    }
}

#[test]
fn the_test_command_of_the_manual_is_what_runs_elsewhere() {
    assert!(read("README.md").contains("```sh\nbash scripts/check\n```"));
    assert!(read(".ci/run").contains("bash scripts/check"));
}

#[test]
fn the_manual_is_short_enough_to_read() {
    let lines = read("README.md").lines().count();
    assert!(lines <= 210, "README.md has {lines} lines; lists belong to the reference");
}
