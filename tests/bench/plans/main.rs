//! Measures how good the plans are: published cutting lists, generated ones and what a workshop really plans, each
//! beside the best known result. `scripts/plans` runs this.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    missing_docs,
    reason = "a benchmark that cannot run should stop, and prints"
)]

mod draw;
mod families;
mod goals;
mod instance;
mod own_work;
mod random;
mod read;
mod table;

use instance::{Instance, Measure};
use own_work::OwnWork;
use random::Manners;
use shirr::cutting::{CutsRun, Effort};
use shirr::piece::Grain;
use std::process::ExitCode;
use table::{Goal, Row};

/// Steps of the two runs: about one second, and about ten.
const RUNS: [u64; 2] = [Effort::SECOND, 10 * Effort::SECOND];
/// Steps where a set has many lists and only the short run.
const SHORT_RUN: [u64; 1] = [Effort::SECOND];
/// Steps of the long runs that make references.
const LONG_MIXED: u64 = 600 * Effort::SECOND;
const LONG_OWN_WORK: u64 = 100 * Effort::SECOND;
/// Number of random lists if none is given, and the steps of each.
const LISTS: u64 = 1_000_000;
const LIST_STEPS: u64 = 2_000;

const SETS: [&str; 9] = [
    "one-length",
    "one-length-families",
    "mixed",
    "mixed-books",
    "rectangles",
    "turned",
    "straight",
    "outlines",
    "own-work",
];

const USAGE: &str = "usage: scripts/plans [SET…] [--steps N] [--reference], or scripts/plans random [N] [--seed N]";

/// The arguments.
#[derive(Default)]
struct Options {
    sets: Vec<String>,
    steps: Option<u64>,
    reference: bool,
    random: Option<u64>,
    seed: Option<u64>,
}

fn main() -> ExitCode {
    // `cargo bench` adds an argument of its own.
    match parse_options(std::env::args().skip(1).filter(|word| word != "--bench")) {
        Ok(options) => match run(&options) {
            0 => ExitCode::SUCCESS,
            missed => {
                println!("\n{missed} missed: goals, and lists without a plan");
                ExitCode::FAILURE
            }
        },
        Err(message) => {
            println!("{message}\n{USAGE}\nsets: {}", SETS.join(", "));
            ExitCode::FAILURE
        }
    }
}

fn parse_options(words: impl Iterator<Item = String>) -> Result<Options, String> {
    let mut options = Options::default();
    let mut words = words.peekable();
    while let Some(word) = words.next() {
        match word.as_str() {
            "--reference" => options.reference = true,
            "--steps" => options.steps = Some(whole(words.next(), "--steps")?),
            "--seed" => options.seed = Some(whole(words.next(), "--seed")?),
            "random" => {
                let count = words.next_if(|word| !word.starts_with('-'));
                options.random = Some(count.map_or(Ok(LISTS), |count| whole(Some(count), "random"))?);
            }
            set if SETS.contains(&set) => options.sets.push(word),
            other => return Err(format!("there is no set “{other}”")),
        }
    }
    if options.sets.is_empty() && options.random.is_none() {
        options.sets = SETS.map(str::to_owned).to_vec();
    }
    Ok(options)
}

fn whole(word: Option<String>, before: &str) -> Result<u64, String> {
    let word = word.unwrap_or_default().replace('_', "");
    word.parse()
        .ok()
        .filter(|count| *count > 0)
        .ok_or_else(|| format!("{before} takes a whole number, such as 1000000"))
}

/// Runs what is asked for; returns how many goals are missed and how many lists have no plan.
fn run(options: &Options) -> usize {
    if let Some(count) = options.random {
        for (manners, words) in [(Manners::Usual, "plain"), (Manners::Every, "in every manner")] {
            let made = random::lists(options.seed.unwrap_or(1), count, options.steps.unwrap_or(LIST_STEPS), manners);
            println!(
                "{count} lists {words}: {} planned, {} of them with joins, {} proved; {} turned away; none wrong",
                made.planned, made.joined, made.proved, made.refused
            );
        }
    }
    if options.reference {
        write_references(options);
        return 0;
    }
    options.sets.iter().map(|set| run_set(set, options.steps)).sum()
}

fn run_set(set: &str, steps: Option<u64>) -> usize {
    let steps = steps.map(|steps| vec![steps]);
    let both = || steps.clone().unwrap_or_else(|| RUNS.to_vec());
    let short = || steps.clone().unwrap_or_else(|| SHORT_RUN.to_vec());
    match set {
        "one-length" => show(set, &read::stock_lengths(), &both(), goals::one_length),
        "one-length-families" => {
            families::FAMILIES.iter().map(|family| share_proved(family.name, &family.lists(100), short()[0])).sum()
        }
        "mixed" => show(set, &read::stock_mixed(), &both(), goals::mixed),
        "mixed-books" => show(set, &books(), &both(), goals::mixed_books),
        "rectangles" => show(set, &read::strip_rectangles(Grain::Along, CutsRun::Free), &both(), goals::rectangles),
        "turned" => show(set, &read::strip_rectangles(Grain::Any, CutsRun::Free), &both(), goals::turned),
        "straight" => {
            let mut torn = read::strip_rectangles(Grain::Along, CutsRun::Straight);
            torn.retain(|instance| instance.name.starts_with('T'));
            show(set, &torn, &both(), goals::none)
        }
        "outlines" => show(set, &read::outlines(), &both(), goals::outlines),
        _ => {
            let shown = |kind: own_work::Kind| {
                let work = own_work::all().into_iter().filter(|work| work.kind == kind);
                let instances: Vec<Instance> = work.map(|work| work.instance).collect();
                show(&format!("{set}: {}s", kind.word()), &instances, &short(), goals::none)
            };
            [own_work::Kind::Lay, own_work::Kind::RollPlan].map(shown).into_iter().sum()
        }
    }
}

/// The generated books, with the results of a long run as references.
fn books() -> Vec<Instance> {
    let long = read::long_run(MIXED_FILE);
    let known = |book: Instance| Instance { reference: long.get(&book.name).copied(), ..book };
    families::books(50).into_iter().map(known).collect()
}

/// Runs the lists and prints their table; returns how many goals are missed and how many lists have no plan.
fn show(title: &str, instances: &[Instance], steps: &[u64], goals: fn(&[Row]) -> Vec<Goal>) -> usize {
    table::print_head(title, steps);
    let mut rows = Vec::new();
    for instance in instances {
        let runs = steps.iter().map(|steps| instance.run(*steps)).collect();
        let row = Row { instance: instance.clone(), runs };
        table::print_row(&row);
        rows.push(row);
    }
    let goals = goals(&rows);
    table::print_foot(&rows, &goals);
    let used = rows.iter().filter_map(|row| Some((&row.instance.name, row.share_used(row.long())?)));
    let used: Vec<String> = used.map(|(name, share)| format!("{name} {share:.2} %")).collect();
    if !used.is_empty() {
        println!("  goods used: {}", used.join(", "));
    }
    let missed = goals.iter().filter(|(_, missed)| missed.is_some()).count();
    missed + rows.iter().filter(|row| row.runs.iter().any(|run| run.error.is_some())).count()
}

/// Prints how many of the lists are proved best; returns how many have no plan.
fn share_proved(name: &str, lists: &[Instance], steps: u64) -> usize {
    let runs: Vec<_> = lists.iter().map(|list| list.run(steps)).collect();
    let proved = runs.iter().filter(|run| run.proved).count();
    let seconds = table::average(runs.iter().map(|run| run.seconds)).unwrap_or(0.0);
    let most = runs.iter().map(|run| run.seconds).fold(0.0, f64::max);
    let lengths: f64 = runs.iter().filter_map(|run| run.result).sum();
    println!(
        "{name:<20} {proved:>4} of {} proved best, {lengths:.0} lengths in all, {seconds:.2} s each, {most:.2} s at most",
        lists.len()
    );
    runs.iter().filter(|run| run.error.is_some()).count()
}

const MIXED_FILE: &str = "mixed_references.csv";

/// Writes the results of long runs for the sets without published references, beside the instances.
fn write_references(options: &Options) {
    let any = |names: &[&str]| options.sets.iter().any(|set| names.contains(&set.as_str()));
    // Building the lists reads the file that is written here, so they come first.
    if any(&["mixed", "mixed-books"]) {
        let steps = options.steps.unwrap_or(LONG_MIXED);
        let listed = read::references("stock_mixed");
        let mut open = read::stock_mixed();
        open.retain(|mixed| listed[&mixed.name].value.is_none());
        let open = open.into_iter().map(|mixed| ("stock_mixed", mixed));
        let all: Vec<(&str, Instance)> = open.chain(books().into_iter().map(|book| ("mixed-books", book))).collect();
        let mut file = csv::Writer::from_path(read::folder().join(MIXED_FILE)).unwrap();
        file.write_record(["set", "instance", "pieces", "reference", "bound", "steps"]).unwrap();
        for (set, instance) in all {
            let [pieces, result, bound] = long_values(&instance, steps);
            file.write_record([set, &instance.name, &pieces, &result, &bound, &steps.to_string()]).unwrap();
            file.flush().unwrap();
        }
    }
    if any(&["own-work"]) {
        let steps = options.steps.unwrap_or(LONG_OWN_WORK);
        let all = own_work::all();
        let mut file = csv::Writer::from_path(read::folder().join(own_work::FILE)).unwrap();
        file.write_record(["instance", "kind", "pieces", "unit", "reference", "bound", "steps", "orders"]).unwrap();
        for OwnWork { kind, instance, orders } in all {
            let [pieces, result, bound] = long_values(&instance, steps);
            let unit = if instance.measure == Measure::Cents { "cents" } else { "metres" };
            let (steps, orders) = (steps.to_string(), orders.join(" / "));
            let row = [&instance.name, kind.word(), &pieces, unit, &result, &bound, &steps, &orders];
            file.write_record(row).unwrap();
            file.flush().unwrap();
        }
    }
}

/// The pieces, the result and the bound of a long run, as they are stored.
fn long_values(instance: &Instance, steps: u64) -> [String; 3] {
    let run = instance.run(steps);
    // To the micrometre, so that a plan has no gap to itself.
    let exact = |value: f64| match instance.measure {
        Measure::PutUps | Measure::Cents => instance.shown(value),
        Measure::Laid(_) | Measure::Taken => format!("{value:.6}"),
    };
    let kept = |value: Option<f64>| value.map_or_else(String::new, exact);
    println!("{:<48} {:>12} {:>12} {:>8.2} s", instance.name, kept(run.result), kept(run.bound), run.seconds);
    [instance.count().to_string(), kept(run.result), kept(run.bound)]
}
