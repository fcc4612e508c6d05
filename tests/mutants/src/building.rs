//! Builds the copy, and leaves out what does not build.

use crate::order;
use crate::together::{self, Numbered, Source, Written};
use serde_json::Value;
use std::collections::BTreeSet;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Rounds of leaving out what does not build; each finds the faults that the ones before it hid.
const ROUNDS: usize = 40;

/// The member that the solvers of cutting plans are in.
const MEMBER: &str = "shirr-packing";

/// Which tests are asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tests {
    /// Those of the whole workspace.
    All,
    /// Those of the packing member, which are built in seconds.
    Member,
}

/// A program of tests.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Program {
    /// Where it is.
    pub path: PathBuf,
    /// The modules from `src` under which its tests stand; none where they are outside.
    pub home: Option<Vec<String>>,
}

/// A fault of the compiler: a file and bytes in it.
type Fault = Vec<(String, Range<usize>)>;

fn cargo(folder: &Path, target: &Path, words: &[&str]) -> Result<(bool, Vec<Value>), String> {
    let mut command = Command::new("cargo");
    command.args(words).arg("--message-format=json").current_dir(folder).env("CARGO_TARGET_DIR", target);
    // A break such as a constant that overflows is one for the tests to find.
    command.env("RUSTFLAGS", "--cap-lints warn");
    command.stderr(Stdio::inherit());
    let output = command.output().map_err(|error| format!("cargo does not start: {error}"))?;
    let said = String::from_utf8_lossy(&output.stdout);
    let said = said.lines().filter_map(|line| serde_json::from_str(line).ok()).collect();
    Ok((output.status.success(), said))
}

fn faults(said: &[Value]) -> Vec<Fault> {
    let errors = said.iter().map(|one| &one["message"]).filter(|message| message["level"] == "error");
    let spans = |message: &Value| message["spans"].as_array().cloned().unwrap_or_default();
    errors
        .map(|message| {
            let mut spans = spans(message);
            spans.sort_by_key(|span| span["is_primary"] != true);
            spans.iter().filter_map(placed).collect()
        })
        .filter(|fault: &Fault| !fault.is_empty())
        .collect()
}

/// Where a span lies in our own files: a macro's is where the macro is called.
fn placed(span: &Value) -> Option<(String, Range<usize>)> {
    let file = span["file_name"].as_str()?;
    if !file.starts_with("src/") && !file.starts_with("tests/") {
        return placed(span.get("expansion")?.get("span")?);
    }
    let byte = |name: &str| usize::try_from(span[name].as_u64()?).ok();
    Some((file.to_owned(), byte("byte_start")?..byte("byte_end")?))
}

/// Writes the copy and checks it until it builds; what does not build leaves `mutants`. Gives those left out, and those
/// of constants that nothing reads where a break can be switched on.
pub fn settle(
    folder: &Path,
    target: &Path,
    sources: &[Source],
    mutants: &mut Numbered,
    tests: Tests,
) -> Result<(Numbered, Numbered), String> {
    let mut written = Written::default();
    let (mut left_out, mut unread) = (Numbered::new(), Numbered::new());
    for round in 1..=ROUNDS {
        let idle = together::write(folder, sources, mutants, &mut written).map_err(|error| error.to_string())?;
        for number in idle {
            unread.extend(mutants.remove_entry(&number));
        }
        let words = match tests {
            Tests::All => ["check", "--workspace", "--lib", "--bins", "--quiet"].as_slice(),
            Tests::Member => &["check", "--package", MEMBER, "--lib", "--quiet"],
        };
        let (built, said) = cargo(folder, target, words)?;
        if built {
            return Ok((left_out, unread));
        }
        let mut blamed = BTreeSet::new();
        let found = faults(&said);
        for fault in &found {
            let mut numbers = fault.iter().filter_map(|(file, at)| written.blamed(file, at));
            let nearest = || fault.iter().find_map(|(file, at)| written.nearest(file, at));
            if let Some(number) = numbers.next() {
                blamed.insert(number);
            } else if found.len() < 20 {
                blamed.extend(nearest());
            }
        }
        eprintln!("round {round}: {} of {} do not build", blamed.len(), mutants.len());
        if blamed.is_empty() {
            return Err(format!("the copy does not build, and no break is to blame: {:?}", found.first()));
        }
        for number in blamed {
            left_out.extend(mutants.remove_entry(&number));
        }
    }
    Err(format!("the copy does not build after {ROUNDS} rounds of leaving out"))
}

/// Builds the tests. Gives their programs.
pub fn programs(folder: &Path, target: &Path, tests: Tests) -> Result<Vec<Program>, String> {
    let words = match tests {
        Tests::All => ["test", "--workspace", "--lib", "--test", "integration", "--no-run", "--quiet"].as_slice(),
        Tests::Member => &["test", "--package", MEMBER, "--lib", "--no-run", "--quiet"],
    };
    let (built, said) = cargo(folder, target, words)?;
    if !built {
        return Err(format!("the tests do not build: {:?}", faults(&said).first()));
    }
    let programs = said.iter().filter(|one| one["profile"]["test"] == true);
    let program = |one: &Value| {
        let path = PathBuf::from(one["executable"].as_str()?);
        let source = Path::new(one["target"]["src_path"].as_str()?).strip_prefix(folder).ok();
        Some(Program { path, home: source.and_then(|source| order::modules(&source.to_string_lossy())) })
    };
    Ok(programs.filter_map(program).collect())
}
