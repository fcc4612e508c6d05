//! Breaks shirr one small place at a time, over all layers, the packing member and the recipes, and tells which breaks
//! the tests miss.
//!
//! All breaks that are drawn are written into one copy of the repository, each behind a question whether its number is
//! asked for, and built once. Every test then runs alone and notes which breaks it reaches. Each break runs the tests
//! that reach it, those nearest to it first, until one fails.

mod building;
mod known;
mod mutant;
mod order;
mod places;
mod scripts;
mod together;
mod trial;

use building::Tests;
use clap::Parser;
use mutant::{Mutant, Shape};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Mutex;
use std::time::{Duration, Instant};
use together::{Numbered, Source};
use trial::Verdict;

/// The share of all breaks that the tests must catch.
const SHARE: f64 = 0.95;

/// The share of the draw above which breaks that change nothing count as missed.
const KNOWN_SHARE: f64 = 0.03;

/// The files in which every break must be caught: what an order costs, takes and needs, and what is said of its dangers.
const BILL: &[&str] = &[
    "src/ticket/cost.rs",
    "src/ticket/minutes.rs",
    "src/ticket/needs.rs",
    "src/ticket/buying.rs",
    "src/ticket/notion_supply.rs",
    "src/ticket/stitching.rs",
    "src/ticket/weights.rs",
    "src/ticket/cautions.rs",
    "src/ticket/concern.rs",
    "src/textile/thread.rs",
    "src/textile/price.rs",
    "src/textile/labour.rs",
    "src/workshop/price.rs",
];

/// Rows of published tables, each of which is tested.
const TABLES: &[&str] = &["src/body/growth_cdc.rs", "src/body/growth_who.rs"];

/// Breaks shirr one small place at a time and tells which breaks no test catches.
///
/// Prints a line for each break that no test caught, then the totals by layer. Those that do not build are not counted.
/// Exit code 1 where under 95 % were caught, or one was missed in what an order costs, takes and needs.
#[derive(Parser)]
#[command(name = "scripts/mutants", after_help = "Linux and bash. The copy and what is built of it: target/mutants.")]
struct Asked {
    /// Keep the breaks of files or names that hold one of these.
    names: Vec<String>,
    /// Print the breaks and test none.
    #[arg(long)]
    list: bool,
    /// Draw so many at random.
    #[arg(long, default_value_t = 1500)]
    sample: usize,
    /// Another draw.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Only the breaks that a file names, a line each, as target/mutants/missed has them.
    #[arg(long)]
    from: Option<PathBuf>,
    /// Only breaks of the packing member, and only its own tests: a look of a minute or two, which is no verdict.
    #[arg(long)]
    member: bool,
    /// How many are tested at a time.
    #[arg(long, default_value_t = 2)]
    jobs: usize,
    /// How many seconds of processor time the tests of one break may take together.
    #[arg(long, default_value_t = 20)]
    seconds: u64,
}

fn main() -> ExitCode {
    match run(&Asked::parse()) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(2)
        }
    }
}

/// The files of `folder` and below that end in `.extension`, from `root`, in order.
fn files(root: &Path, folder: &str, extension: &str) -> Result<Vec<String>, String> {
    let mut found = Vec::new();
    let mut waiting = vec![root.join(folder)];
    while let Some(folder) = waiting.pop() {
        for entry in fs::read_dir(&folder).map_err(|error| format!("{}: {error}", folder.display()))? {
            let path = entry.map_err(|error| error.to_string())?.path();
            if path.is_dir() {
                waiting.push(path);
            } else if path.extension().is_some_and(|one| one == extension)
                && let Ok(inner) = path.strip_prefix(root)
            {
                found.push(inner.to_string_lossy().into_owned());
            }
        }
    }
    found.sort();
    Ok(found)
}

fn is_of_tests(file: &str) -> bool {
    file.contains("/tests/") || file.ends_with("/tests.rs")
}

fn read(root: &Path) -> Result<(Vec<Source>, Vec<Mutant>), String> {
    let (mut sources, mut mutants) = (Vec::new(), Vec::new());
    for file in files(root, "src", "rs")? {
        let text = fs::read_to_string(root.join(&file)).map_err(|error| format!("{file}: {error}"))?;
        let found = places::of(&file, &text).map_err(|error| format!("{file}: {error}"))?;
        if is_of_tests(&file) {
            continue;
        }
        if !TABLES.contains(&file.as_str()) {
            mutants.extend(found.mutants);
        }
        sources.push(Source { file, text, constants: found.constants, uses: found.uses });
    }
    if let Some(gone) = BILL.iter().chain(TABLES).find(|file| sources.iter().all(|source| source.file != **file)) {
        return Err(format!("{gone} is no source file: tests/mutants/src/main.rs must follow"));
    }
    for file in files(root, "recipes", "rhai")? {
        // Those of the demo are examples of writing one; the others are built into the program.
        if file.matches('/').count() == 1 {
            let text = fs::read_to_string(root.join(&file)).map_err(|error| format!("{file}: {error}"))?;
            mutants.extend(scripts::of(&file, &text));
        }
    }
    Ok((sources, mutants))
}

/// What each script imports, by its name.
fn scripts_of(root: &Path) -> Result<BTreeMap<String, Vec<String>>, String> {
    let mut found = BTreeMap::new();
    for file in files(root, "recipes", "rhai")?.into_iter().filter(|file| file.matches('/').count() == 1) {
        let text = fs::read_to_string(root.join(&file)).map_err(|error| format!("{file}: {error}"))?;
        let name = file.trim_start_matches("recipes/").trim_end_matches(".rhai").to_owned();
        found.insert(name, scripts::imports(&text));
    }
    Ok(found)
}

/// The scripts that run a script: itself, and those that import it, directly or through another.
fn recipes_with(scripts: &BTreeMap<String, Vec<String>>, name: &str) -> Vec<String> {
    let mut found = vec![name.to_owned()];
    let mut at = 0;
    while let Some(reached) = found.get(at).cloned() {
        for (script, imports) in scripts {
            if imports.contains(&reached) && !found.contains(script) {
                found.push(script.clone());
            }
        }
        at += 1;
    }
    found
}

/// A copy of what the tests need, without what was built.
fn copy(root: &Path, folder: &Path) -> Result<(), String> {
    for part in [
        "src",
        "tests",
        "recipes",
        "scripts",
        ".ci",
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        ".gitignore",
    ] {
        let from = root.join(part);
        if !from.exists() {
            continue;
        }
        let mut waiting = vec![(from, folder.join(part))];
        while let Some((from, to)) = waiting.pop() {
            if from.is_dir() {
                if from.ends_with("target") {
                    continue;
                }
                fs::create_dir_all(&to).map_err(|error| format!("{}: {error}", to.display()))?;
                for entry in fs::read_dir(&from).map_err(|error| format!("{}: {error}", from.display()))? {
                    let entry = entry.map_err(|error| error.to_string())?;
                    waiting.push((entry.path(), to.join(entry.file_name())));
                }
            } else if !is_source(root, &from) && fs::read(&from).ok() != fs::read(&to).ok() {
                fs::copy(&from, &to).map_err(|error| format!("{}: {error}", to.display()))?;
            }
        }
    }
    Ok(())
}

/// Removes from the copy what is in the repository no more: a test that moved would else be built twice.
fn remove_gone(root: &Path, folder: &Path) -> Result<(), String> {
    for part in ["src", "tests", "recipes"] {
        let mut waiting = vec![folder.join(part)];
        while let Some(path) = waiting.pop() {
            let inner = path.strip_prefix(folder).unwrap_or(&path);
            if path.exists() && !root.join(inner).exists() {
                let removed = if path.is_dir() { fs::remove_dir_all(&path) } else { fs::remove_file(&path) };
                removed.map_err(|error| format!("{}: {error}", path.display()))?;
            } else if path.is_dir() {
                for entry in fs::read_dir(&path).map_err(|error| format!("{}: {error}", path.display()))? {
                    waiting.push(entry.map_err(|error| error.to_string())?.path());
                }
            }
        }
    }
    Ok(())
}

/// Whether it is written with its breaks rather than copied.
fn is_source(root: &Path, path: &Path) -> bool {
    let inner = path.strip_prefix(root).unwrap_or(path).to_string_lossy();
    inner.starts_with("src/") && inner.ends_with(".rs") && !is_of_tests(&inner)
}

fn run(asked: &Asked) -> Result<bool, String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().map_err(|error| error.to_string())?;
    let work = root.join("target/mutants");
    let known_text = fs::read_to_string(root.join("scripts/mutants.known")).map_err(|error| error.to_string())?;
    let known = known::read(&known_text)?;
    let (sources, mut mutants) = read(&root)?;
    let scripts = scripts_of(&root)?;
    let all = mutants.len();
    if let Some(path) = &asked.from {
        let text = fs::read_to_string(path).map_err(|error| format!("{}: {error}", path.display()))?;
        let wanted: Vec<&str> = text.lines().collect();
        mutants.retain(|mutant| wanted.contains(&mutant.name().as_str()));
    }
    if asked.member {
        mutants.retain(|mutant| mutant.file.starts_with("src/packing/"));
    }
    if !asked.names.is_empty() {
        mutants.retain(|mutant| asked.names.iter().any(|name| mutant.to_string().contains(name.as_str())));
    }
    fastrand::Rng::with_seed(asked.seed).shuffle(&mut mutants);
    mutants.truncate(asked.sample);
    mutants.sort_by(|one, other| (&one.file, one.place.start).cmp(&(&other.file, other.place.start)));
    if asked.list {
        for mutant in &mutants {
            println!("{mutant}");
        }
    }
    println!("{} of {all} breaks, seed {}", mutants.len(), asked.seed);
    if asked.list || mutants.is_empty() {
        return Ok(asked.list);
    }
    let mut mutants: Numbered = (1..).zip(mutants).collect();

    let begun = Instant::now();
    let (folder, target) = (work.join("copy"), work.join("target"));
    copy(&root, &folder)?;
    remove_gone(&root, &folder)?;
    let tests = if asked.member { Tests::Member } else { Tests::All };
    let (left_out, unread) = building::settle(&folder, &target, &sources, &mut mutants, tests)?;
    let programs = building::programs(&folder, &target, tests)?;
    let built = begun.elapsed();
    let reach = trial::reach(&programs, &folder, &work.join("reached"), asked.jobs)?;
    println!(
        "built in {} s; {} tests, {} s one after another, their reach noted by {} s",
        built.as_secs(),
        reach.tests.len(),
        reach.takes().as_secs(),
        begun.elapsed().as_secs()
    );
    for name in &reach.failing {
        println!("left out, for it fails where nothing is broken: {name}");
    }

    fs::write(work.join("times"), reach.times()).map_err(|error| error.to_string())?;

    let numbers: Vec<u32> = mutants.keys().copied().collect();
    let verdicts = Mutex::new(BTreeMap::new());
    trial::on_each(numbers.len(), asked.jobs, |at| {
        let Some((number, mutant)) = numbers.get(at).and_then(|number| Some((*number, mutants.get(number)?))) else {
            return;
        };
        let recipes = match &mutant.shape {
            Shape::Script(name) => recipes_with(&scripts, name),
            _ => Vec::new(),
        };
        let verdict = reach.verdict(number, mutant, &recipes, &folder, Duration::from_secs(asked.seconds));
        if !verdict.is_caught() && !known.contains_key(&mutant.name()) {
            let reached = match verdict {
                Verdict::OutOfTime(reached) => format!("{reached} tests reach it, not all ran"),
                Verdict::Missed(reached) => format!("{reached} tests reach it"),
                _ => String::new(),
            };
            println!("missed  {mutant}  ({reached})");
        }
        if let Ok(mut verdicts) = verdicts.lock() {
            verdicts.insert(number, verdict);
            if verdicts.len() % 100 == 0 {
                let caught = verdicts.values().filter(|verdict| verdict.is_caught()).count();
                eprintln!("{caught} of {} caught, {} s", verdicts.len(), begun.elapsed().as_secs());
            }
        }
    });
    let verdicts = verdicts.into_inner().map_err(|error| error.to_string())?;
    let holds = told(&mutants, &verdicts, &known);
    let caught_by: String = verdicts
        .iter()
        .filter_map(|(number, verdict)| Some(format!("{}  {verdict:?}\n", mutants.get(number)?)))
        .collect();
    let missed: String = verdicts
        .iter()
        .filter(|(_, verdict)| !verdict.is_caught())
        .filter_map(|(number, _)| Some(mutants.get(number)?.name()))
        .filter(|name| !known.contains_key(name))
        .map(|name| name + "\n")
        .collect();
    fs::write(work.join("verdicts"), caught_by).map_err(|error| error.to_string())?;
    fs::write(work.join("missed"), missed).map_err(|error| error.to_string())?;
    println!(
        "\n{} do not build, {} are of constants read only by other constants; {} s in all",
        left_out.len(),
        unread.len(),
        begun.elapsed().as_secs()
    );
    Ok(holds)
}

/// What was caught of how many.
#[derive(Default)]
struct Count {
    caught: usize,
    missed: usize,
    known: usize,
    ran_on: usize,
}

impl Count {
    fn share(&self) -> f64 {
        let all = self.caught + self.missed;
        if all == 0 { 1.0 } else { share(self.caught, all) }
    }
}

#[expect(clippy::cast_precision_loss, reason = "a few thousand")]
fn share(part: usize, whole: usize) -> f64 {
    part as f64 / whole as f64
}

/// Prints the totals. Gives whether the goals are met.
fn told(mutants: &Numbered, verdicts: &BTreeMap<u32, Verdict>, known: &BTreeMap<String, String>) -> bool {
    let mut layers: BTreeMap<&str, Count> = BTreeMap::new();
    let (mut whole, mut bill) = (Count::default(), Count::default());
    for (number, verdict) in verdicts {
        let Some(mutant) = mutants.get(number) else { continue };
        let is_known = known.contains_key(&mutant.name());
        let in_bill = BILL.contains(&mutant.file.as_str());
        let layer = layers.entry(mutant.layer()).or_default();
        let groups = [Some(layer), Some(&mut whole), in_bill.then_some(&mut bill)];
        for group in groups.into_iter().flatten() {
            match verdict {
                verdict if verdict.is_caught() => {
                    group.caught += 1;
                    group.ran_on += usize::from(*verdict == Verdict::RanOn);
                }
                _ if is_known => group.known += 1,
                _ => group.missed += 1,
            }
        }
    }
    println!("\n{:<12} {:>7} {:>7} {:>7} {:>7}", "layer", "caught", "missed", "known", "share");
    let row = |name: &str, count: &Count| {
        let Count { caught, missed, known, .. } = count;
        println!("{name:<12} {caught:>7} {missed:>7} {known:>7} {:>6.1}%", count.share() * 100.0);
    };
    for (name, count) in &layers {
        row(name, count);
    }
    row("all", &whole);
    row("the bill", &bill);
    println!("{} of those caught ran on", whole.ran_on);
    let draw = whole.caught + whole.missed + whole.known;
    let too_many = share(whole.known, draw.max(1)) > KNOWN_SHARE;
    if too_many {
        println!("more than 3 % of the draw change nothing: they count as missed");
    }
    let missed = whole.missed + if too_many { whole.known } else { 0 };
    share(whole.caught, (whole.caught + missed).max(1)) >= SHARE && bill.missed == 0
}
