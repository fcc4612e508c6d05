//! Runs tests: once to note what each reaches, then those that reach a break with that break on.

use crate::mutant::{Mutant, Shape};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::{self, BufRead as _, BufReader, Write as _};
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, mpsc};
use std::thread;
use std::time::{Duration, Instant};

/// Tests that compare with what the program itself once wrote, or that read the sources: neither proves a figure.
const LEFT_OUT: &[&str] =
    &["sessions::", "manual::", "reference::", "verbs::", "tidy::", "layers::", "packed::", "complete::"];

/// Kilobytes that a test may take, for a break may ask for more and more; a test may set a limit of its own.
const MEMORY: &str = "6000000";

/// One test and what it took.
#[derive(Clone, Debug)]
pub struct Test {
    program: PathBuf,
    /// Its name.
    pub name: String,
    took: Duration,
}

/// The tests, and for each break, or script by its name, the tests that reach it.
#[derive(Debug)]
pub struct Reach {
    /// The tests that pass where nothing is broken, the quickest first.
    pub tests: Vec<Test>,
    /// Those that fail where nothing is broken, since they read the sources or the folder they stand in.
    pub failing: Vec<String>,
    by_word: BTreeMap<String, Vec<usize>>,
    /// How many breaks of a file each test has caught so far: those come first for the next break of that file.
    catches: Mutex<BTreeMap<String, BTreeMap<String, usize>>>,
}

/// What became of a break.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// A test failed: this one.
    Caught(String),
    /// A test that ends in time where nothing is broken did not.
    RanOn,
    /// No test that reaches it failed; so many do.
    Missed(usize),
    /// No test failed in the time that there is for one break.
    OutOfTime(usize),
}

impl Verdict {
    /// Whether a test tells that something is broken.
    pub fn is_caught(&self) -> bool {
        matches!(self, Self::Caught(_) | Self::RanOn)
    }
}

/// Does `work` for each of `0..count` on `jobs` threads.
pub fn on_each(count: usize, jobs: usize, work: impl Fn(usize) + Sync) {
    let next = AtomicUsize::new(0);
    thread::scope(|scope| {
        for _ in 0..jobs {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    if at >= count {
                        return;
                    }
                    work(at);
                }
            });
        }
    });
}

fn command(program: &Path, folder: &Path) -> Command {
    let mut command = Command::new("bash");
    command.arg("-c").arg(format!("ulimit -S -v {MEMORY} -c 0; exec \"$@\"")).arg("test").arg(program);
    // A test reads its files from where its package stands.
    command.current_dir(folder).env("CARGO_MANIFEST_DIR", folder).env("PROPTEST_CASES", "64");
    command.process_group(0);
    command.env("PROPTEST_RNG_SEED", "20260314").stdin(Stdio::null()).stderr(Stdio::null());
    command
}

fn names(program: &Path, folder: &Path) -> Result<Vec<String>, String> {
    let mut list = command(program, folder);
    let output = list.args(["--list", "--format", "terse"]).output().map_err(|error| error.to_string())?;
    let text = String::from_utf8_lossy(&output.stdout);
    let names = text.lines().filter_map(|line| line.strip_suffix(": test"));
    Ok(names.filter(|name| !LEFT_OUT.iter().any(|part| name.starts_with(part))).map(str::to_owned).collect())
}

/// Does `work` while a pipe of this name is there; gives the lines that were written into it. A pipe, for some tests
/// allow their programs no file.
fn heard(pipe: &Path, work: impl FnOnce() -> bool) -> io::Result<(bool, BTreeSet<String>)> {
    const END: &str = "end";
    let _earlier = fs::remove_file(pipe);
    if !Command::new("mkfifo").arg(pipe).status()?.success() {
        return Err(io::Error::other("mkfifo"));
    }
    // Open for both, so that neither end waits for the other.
    let mut both = fs::OpenOptions::new().read(true).write(true).open(pipe)?;
    let reader = BufReader::new(both.try_clone()?);
    let reading = thread::spawn(move || reader.lines().map_while(Result::ok).take_while(|line| line != END).collect());
    let passed = work();
    writeln!(both, "{END}")?;
    let words = reading.join().map_err(|_| io::Error::other("the reader stopped"))?;
    fs::remove_file(pipe)?;
    Ok((passed, words))
}

/// Runs every test alone and notes what it reaches.
pub fn reach(programs: &[PathBuf], folder: &Path, scratch: &Path, jobs: usize) -> Result<Reach, String> {
    let mut all = Vec::new();
    for program in programs {
        all.extend(names(program, folder)?.into_iter().map(|name| (program.clone(), name)));
    }
    fs::create_dir_all(scratch).map_err(|error| error.to_string())?;
    let done = Mutex::new(Vec::new());
    on_each(all.len(), jobs, |at| {
        let Some((program, name)) = all.get(at) else { return };
        let pipe = scratch.join(format!("{at}.reached"));
        let begun = Instant::now();
        let mut run = command(program, folder);
        run.args(["--exact", name]).env("MUTANTS_REACHED", &pipe).stdout(Stdio::null());
        let heard = heard(&pipe, || run.status().is_ok_and(|status| status.success()));
        let test = Test { program: program.clone(), name: name.clone(), took: begun.elapsed() };
        let (passed, words) = heard.unwrap_or_default();
        if let Ok(mut done) = done.lock() {
            done.push((test, passed, words));
        }
    });
    let mut done = done.into_inner().map_err(|error| error.to_string())?;
    done.sort_by_key(|(test, ..)| test.took);
    let mut reach =
        Reach { tests: Vec::new(), failing: Vec::new(), by_word: BTreeMap::new(), catches: Mutex::default() };
    for (test, passed, words) in done {
        if !passed {
            reach.failing.push(test.name);
            continue;
        }
        for word in words {
            reach.by_word.entry(word).or_default().push(reach.tests.len());
        }
        reach.tests.push(test);
    }
    Ok(reach)
}

impl Reach {
    /// The tests that do not fail, and how long each took, a line each.
    pub fn times(&self) -> String {
        let lines = self.tests.iter().map(|test| format!("{:.3}  {}", test.took.as_secs_f64(), test.name));
        lines.collect::<Vec<_>>().join("\n")
    }

    /// What all tests take, one after another.
    pub fn takes(&self) -> Duration {
        self.tests.iter().map(|test| test.took).sum()
    }

    /// The verdict on a break: the tests that reach it, a few at a time, the quickest first. A break of a script is
    /// tried on the recipes that run it.
    pub fn verdict(&self, number: u32, mutant: &Mutant, recipes: &[String], folder: &Path, most: Duration) -> Verdict {
        let word = match &mutant.shape {
            Shape::Script(name) => name.clone(),
            _ => number.to_string(),
        };
        let none = Vec::new();
        let reaching = self.by_word.get(&word).unwrap_or(&none);
        let mut waiting: Vec<&Test> = reaching.iter().filter_map(|at| self.tests.get(*at)).collect();
        let catches = self.catches.lock().ok().and_then(|all| all.get(&mutant.file).cloned()).unwrap_or_default();
        waiting.sort_by_key(|test| Reverse(catches.get(&test.name)));
        let begun = Instant::now();
        let mut rest = &*waiting;
        while let Some(first) = rest.first() {
            if begun.elapsed() > most {
                return Verdict::OutOfTime(reaching.len());
            }
            let mut expected = Duration::ZERO;
            let mut count = 0;
            for test in rest {
                if test.program != first.program || (count > 0 && expected + test.took > Duration::from_secs(1)) {
                    break;
                }
                expected += test.took;
                count += 1;
            }
            let (batch, later) = rest.split_at(count.max(1));
            rest = later;
            if let Some(verdict) = run(batch, (number, mutant, recipes), folder, expected * 6 + Duration::from_secs(5))
            {
                if let (Verdict::Caught(test), Ok(mut catches)) = (&verdict, self.catches.lock()) {
                    *catches.entry(mutant.file.clone()).or_default().entry(test.clone()).or_default() += 1;
                }
                return verdict;
            }
        }
        Verdict::Missed(reaching.len())
    }
}

/// Runs a few tests of one program with a break on, until the first that fails.
fn run(
    batch: &[&Test],
    (number, mutant, recipes): (u32, &Mutant, &[String]),
    folder: &Path,
    most: Duration,
) -> Option<Verdict> {
    let program = &batch.first()?.program;
    let mut run = command(program, folder);
    run.arg("--exact").args(batch.iter().map(|test| &test.name)).arg("--test-threads=1");
    run.env("MUTANT", number.to_string()).stdout(Stdio::piped());
    if let Shape::Script(name) = &mutant.shape {
        run.env("MUTANT_SCRIPT", name).env("SHIRR_RECIPES", recipes.join(","));
        run.env("MUTANT_SCRIPT_FILE", folder.join(format!("target-scripts/{number}.rhai")));
    }
    let mut child = run.spawn().ok()?;
    let output = child.stdout.take()?;
    let (sender, receiver) = mpsc::channel();
    thread::spawn(move || {
        for line in BufReader::new(output).lines().map_while(Result::ok) {
            if sender.send(line).is_err() {
                return;
            }
        }
    });
    let until = Instant::now() + most;
    loop {
        match receiver.recv_timeout(until.saturating_duration_since(Instant::now())) {
            Ok(line) => {
                // What a child writes may stand between the name and the verdict.
                if let Some(rest) = line.strip_prefix("test ").filter(|line| line.ends_with("FAILED")) {
                    stop(&mut child);
                    return Some(Verdict::Caught(rest.split(' ').next().unwrap_or(rest).to_owned()));
                }
            }
            Err(mpsc::RecvTimeoutError::Timeout) => {
                stop(&mut child);
                return Some(Verdict::RanOn);
            }
            Err(mpsc::RecvTimeoutError::Disconnected) => break,
        }
    }
    let status = child.wait().ok()?;
    // A program that ends by a signal, as on a full stack, has no line for it.
    (!status.success()).then(|| Verdict::Caught(format!("one of {} and {} others", batch[0].name, batch.len() - 1)))
}

/// Ends a test with the programs that it started.
fn stop(child: &mut Child) {
    let group = format!("-{}", child.id());
    let _ = Command::new("kill").args(["-9", "--", &group]).stderr(Stdio::null()).status();
    let _ = child.wait();
}
