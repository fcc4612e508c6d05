//! Runs tests: once to note what each reaches, then those that reach a break with that break on.

use crate::building::Program;
use crate::mutant::{Mutant, Shape};
use crate::order::{self, Candidate, Catches};
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

/// Time is that of the processor, which other work on the machine does not draw out. The clock, which alone stops what
/// sleeps, may show so many times that.
const CLOCK: u32 = 3;

/// How bash tells that a program was ended by signal 24, for it took more processor time than it may.
const OVER_TIME: i32 = 128 + 24;

/// One test and what it took.
#[derive(Clone, Debug)]
pub struct Test {
    /// Which of the programs it is in, and where that is.
    program: (usize, PathBuf),
    modules: Option<Vec<String>>,
    /// Its name.
    pub name: String,
    /// Processor time, or a third of the clock's where it mostly waits.
    took: Duration,
    reaches: usize,
}

impl Candidate for Test {
    fn name(&self) -> &str {
        &self.name
    }

    fn modules(&self) -> Option<&[String]> {
        self.modules.as_deref()
    }

    fn program(&self) -> usize {
        self.program.0
    }

    fn took(&self) -> Duration {
        self.took
    }

    fn reaches(&self) -> usize {
        self.reaches
    }
}

/// The tests, and for each break, or script by its name, the tests that reach it.
#[derive(Debug)]
pub struct Reach {
    /// The tests that pass where nothing is broken, the quickest first.
    pub tests: Vec<Test>,
    /// Those that fail where nothing is broken, since they read the sources or the folder they stand in.
    pub failing: Vec<String>,
    by_word: BTreeMap<String, Vec<usize>>,
    catches: Mutex<Catches>,
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

/// Starts a program of tests under bash, which ends with a line of the processor time it took with all that it started.
fn command(program: &Path, folder: &Path, most: Option<Duration>) -> Command {
    let seconds = most.map_or("unlimited".to_owned(), |most| (most.as_secs() + 1).to_string());
    let script =
        format!("ulimit -S -v {MEMORY} -c 0 -t {seconds}; \"$@\"; code=$?; export LC_ALL=C; times; exit $code");
    let mut command = Command::new("bash");
    command.arg("-c").arg(script).arg("test").arg(program);
    // A test reads its files from where its package stands.
    command.current_dir(folder).env("CARGO_MANIFEST_DIR", folder).env("PROPTEST_CASES", "64");
    command.process_group(0);
    command.env("PROPTEST_RNG_SEED", "20260314").stdin(Stdio::null()).stderr(Stdio::null());
    command
}

/// The processor time in a line such as `0m1.204s 0m0.031s`: what programs took themselves and what was done for them.
fn processor_time(line: &str) -> Option<Duration> {
    let one = |word: &str| {
        let (minutes, seconds) = word.strip_suffix('s')?.split_once('m')?;
        let seconds = Duration::try_from_secs_f64(seconds.parse().ok()?).ok()?;
        Some(Duration::from_secs(minutes.parse::<u64>().ok()? * 60) + seconds)
    };
    let (own, done_for) = line.split_once(' ')?;
    Some(one(own)? + one(done_for)?)
}

fn names(program: &Path, folder: &Path) -> Result<Vec<String>, String> {
    let mut list = command(program, folder, None);
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
pub fn reach(programs: &[Program], folder: &Path, scratch: &Path, jobs: usize) -> Result<Reach, String> {
    let mut all = Vec::new();
    for (at, program) in programs.iter().enumerate() {
        all.extend(names(&program.path, folder)?.into_iter().map(|name| (at, program, name)));
    }
    fs::create_dir_all(scratch).map_err(|error| error.to_string())?;
    let done = Mutex::new(Vec::new());
    on_each(all.len(), jobs, |at| {
        let Some((number, program, name)) = all.get(at) else { return };
        let pipe = scratch.join(format!("{at}.reached"));
        let mut run = command(&program.path, folder, None);
        run.args(["--exact", name]).env("MUTANTS_REACHED", &pipe).stdout(Stdio::piped());
        let begun = Instant::now();
        let mut took = Duration::ZERO;
        let heard = heard(&pipe, || {
            let Ok(output) = run.output() else { return false };
            let told = String::from_utf8_lossy(&output.stdout).lines().last().and_then(processor_time);
            took = told.unwrap_or_default().max(begun.elapsed() / CLOCK);
            output.status.success()
        });
        let (passed, words) = heard.unwrap_or_default();
        let modules = program.home.as_ref().map(|home| order::modules_of_test(home, name));
        let program = (*number, program.path.clone());
        let test = Test { program, modules, name: name.clone(), took, reaches: words.len() };
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

    /// The verdict on a break: the tests that reach it, a few at a time, those that are likeliest to tell first. A break
    /// of a script is tried on the recipes that run it.
    pub fn verdict(&self, number: u32, mutant: &Mutant, recipes: &[String], folder: &Path, most: Duration) -> Verdict {
        let word = match &mutant.shape {
            Shape::Script(name) => name.clone(),
            _ => number.to_string(),
        };
        let none = Vec::new();
        let reaching = self.by_word.get(&word).unwrap_or(&none);
        let tests: Vec<&Test> = reaching.iter().filter_map(|at| self.tests.get(*at)).collect();
        let batches = self.catches.lock().map(|catches| order::batches(&tests, mutant, &catches)).unwrap_or_default();
        let begun = Instant::now();
        let mut took = Duration::ZERO;
        for batch in batches {
            if took > most || begun.elapsed() > most * CLOCK {
                return Verdict::OutOfTime(reaching.len());
            }
            let expected: Duration = batch.iter().map(|test| test.took).sum();
            match run(&batch, (number, mutant, recipes), folder, expected * 6 + Duration::from_secs(5)) {
                Ended::Passed(time) => took += time,
                Ended::With(verdict) => {
                    if let (Verdict::Caught(test), Ok(mut catches)) = (&verdict, self.catches.lock()) {
                        catches.note(&mutant.file, test);
                    }
                    return verdict;
                }
            }
        }
        Verdict::Missed(reaching.len())
    }
}

/// How a few tests ended.
enum Ended {
    /// All passed, in this time.
    Passed(Duration),
    /// With this verdict.
    With(Verdict),
}

/// Runs a few tests of one program with a break on, until the first that fails.
fn run(batch: &[&Test], (number, mutant, recipes): (u32, &Mutant, &[String]), folder: &Path, most: Duration) -> Ended {
    let begun = Instant::now();
    let unknown = || Ended::Passed(begun.elapsed());
    let Some(first) = batch.first() else { return unknown() };
    let mut run = command(&first.program.1, folder, Some(most));
    run.arg("--exact").args(batch.iter().map(|test| &test.name)).arg("--test-threads=1");
    run.env("MUTANT", number.to_string()).stdout(Stdio::piped());
    if let Shape::Script(name) = &mutant.shape {
        run.env("MUTANT_SCRIPT", name).env("SHIRR_RECIPES", recipes.join(","));
        run.env("MUTANT_SCRIPT_FILE", folder.join(format!("target-scripts/{number}.rhai")));
    }
    let Ok(mut child) = run.spawn() else { return unknown() };
    let Some(output) = child.stdout.take() else { return unknown() };
    let (sender, receiver) = mpsc::channel();
    thread::spawn(move || {
        for line in BufReader::new(output).lines().map_while(Result::ok) {
            if sender.send(line).is_err() {
                return;
            }
        }
    });
    let until = begun + most * CLOCK;
    let mut took = None;
    loop {
        match receiver.recv_timeout(until.saturating_duration_since(Instant::now())) {
            Ok(line) => {
                // What a child writes may stand between the name and the verdict.
                if let Some(rest) = line.strip_prefix("test ").filter(|line| line.ends_with("FAILED")) {
                    stop(&mut child);
                    return Ended::With(Verdict::Caught(rest.split(' ').next().unwrap_or(rest).to_owned()));
                }
                took = processor_time(&line);
            }
            Err(mpsc::RecvTimeoutError::Timeout) => {
                stop(&mut child);
                return Ended::With(Verdict::RanOn);
            }
            Err(mpsc::RecvTimeoutError::Disconnected) => break,
        }
    }
    let Ok(status) = child.wait() else { return unknown() };
    match status.code() {
        Some(0) => Ended::Passed(took.unwrap_or_else(|| begun.elapsed())),
        Some(OVER_TIME) => Ended::With(Verdict::RanOn),
        // A program that ends by a signal, as on a full stack, has no line for it.
        _ => Ended::With(Verdict::Caught(format!("one of {} and {} others", first.name, batch.len() - 1))),
    }
}

/// Ends a test with the programs that it started.
fn stop(child: &mut Child) {
    let group = format!("-{}", child.id());
    let _ = Command::new("kill").args(["-9", "--", &group]).stderr(Stdio::null()).status();
    let _ = child.wait();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_bash_tells_of_processor_time_is_both_figures_together() {
        assert_eq!(processor_time("0m1.250s 0m0.250s"), Some(Duration::from_millis(1_500)));
        assert_eq!(processor_time("2m3.000s 1m0.500s"), Some(Duration::from_millis(183_500)));
        assert_eq!(processor_time("test result: ok. 3 passed"), None);
        assert_eq!(processor_time(""), None);
    }

    /// A script in the place of a program of tests, and the test of this name in it.
    fn test_of(folder: &str, script: &str) -> (PathBuf, Test) {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = std::env::temp_dir().join(format!("{folder}-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        let path = folder.join("program");
        fs::write(&path, format!("#!/bin/bash\n{script}\n")).unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
        let test = Test {
            program: (0, path),
            modules: None,
            name: "a::b".to_owned(),
            took: Duration::from_millis(10),
            reaches: 1,
        };
        (folder, test)
    }

    fn ended(name: &str, script: &str, most: Duration) -> Ended {
        let (folder, test) = test_of(name, script);
        let mutant = Mutant::new("src/a.rs", "", 0..0, String::new(), Shape::Expression, "+ to -");
        let ended = run(&[&test], (1, &mutant, &[]), &folder, most);
        fs::remove_dir_all(folder).unwrap();
        ended
    }

    #[test]
    fn what_sleeps_takes_no_processor_time_and_what_fails_is_named() {
        let asleep = ended("mutants-asleep", "sleep 1; echo 'test a::b ... ok'", Duration::from_secs(9));
        assert!(matches!(asleep, Ended::Passed(time) if time < Duration::from_millis(500)));
        let failed = ended("mutants-failed", "echo 'test a::b ... FAILED'; exit 101", Duration::from_secs(9));
        assert!(matches!(failed, Ended::With(Verdict::Caught(name)) if name == "a::b"));
    }

    #[test]
    fn what_runs_or_sleeps_on_is_ended() {
        let ran = ended("mutants-ran", "while :; do :; done", Duration::ZERO);
        assert!(matches!(ran, Ended::With(Verdict::RanOn)));
        let turning = ended("mutants-turning", "while :; do :; done", Duration::from_secs(1));
        assert!(matches!(turning, Ended::With(Verdict::RanOn)));
        let slept = ended("mutants-slept", "sleep 60", Duration::from_millis(500));
        assert!(matches!(slept, Ended::With(Verdict::RanOn)));
    }
}
