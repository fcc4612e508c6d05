//! The order in which the tests that reach a break are run: those first that are likeliest to tell, for their time.

use crate::mutant::Mutant;
use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::time::Duration;

/// What the tests that are started together are expected to take: a start is a few milliseconds, and what fails first
/// ends the others.
const TOGETHER: Duration = Duration::from_secs(1);

/// What is known of a test before it runs on a break.
pub trait Candidate {
    /// Its whole name.
    fn name(&self) -> &str;
    /// The modules in which it stands, from `src`; none for one that is outside.
    fn modules(&self) -> Option<&[String]>;
    /// Which of the programs it is in.
    fn program(&self) -> usize;
    /// What it takes where nothing is broken.
    fn took(&self) -> Duration;
    /// How many of the breaks of the draw it reaches.
    fn reaches(&self) -> usize;
}

/// How near a test is to a break, the nearest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Nearness {
    /// It caught so many breaks of the file.
    Caught(Reverse<usize>),
    /// It is one of the file's own.
    File,
    /// It is one of the folder's, and below.
    Folder,
    /// It is one of the layer's.
    Layer,
    /// It is one of another layer's, or of the program as a whole.
    Elsewhere,
}

/// Which tests caught breaks so far: how many, by file and name.
#[derive(Debug, Default)]
pub struct Catches(BTreeMap<String, BTreeMap<String, usize>>);

impl Catches {
    /// Notes that the test of this name caught a break of this file.
    pub fn note(&mut self, file: &str, name: &str) {
        *self.0.entry(file.to_owned()).or_default().entry(name.to_owned()).or_default() += 1;
    }

    /// How many breaks of this file the test caught.
    fn of(&self, file: &str, name: &str) -> usize {
        self.0.get(file).and_then(|all| all.get(name)).copied().unwrap_or(0)
    }
}

/// The modules of a source file from `src`: those of the member begin with its folder. None for other files.
pub fn modules(file: &str) -> Option<Vec<String>> {
    let inner = file.strip_prefix("src/")?.strip_suffix(".rs")?;
    let mut modules: Vec<String> = inner.split('/').map(str::to_owned).collect();
    if modules.last().is_some_and(|last| ["mod", "lib", "main"].contains(&last.as_str())) {
        modules.pop();
    }
    Some(modules)
}

/// The modules of the test of this name, in a program whose modules begin with `home`.
pub fn modules_of_test(home: &[String], name: &str) -> Vec<String> {
    let mut inner: Vec<&str> = name.split("::").collect();
    inner.pop();
    home.iter().cloned().chain(inner.into_iter().map(str::to_owned)).collect()
}

/// How near the test is to the break.
pub fn nearness(test: &impl Candidate, mutant: &Mutant, catches: &Catches) -> Nearness {
    let caught = catches.of(&mutant.file, test.name());
    if caught > 0 {
        return Nearness::Caught(Reverse(caught));
    }
    let (Some(of_test), Some(of_file)) = (test.modules(), modules(&mutant.file)) else { return Nearness::Elsewhere };
    // A file with the name of its folder holds what all files of the folder share.
    let holds_folder = mutant.file.ends_with("/mod.rs") || mutant.file.ends_with("/lib.rs");
    let above = of_file.len().saturating_sub(usize::from(!holds_folder));
    let (Some(folder), Some(layer)) = (of_file.get(..above), of_file.get(..1)) else { return Nearness::Elsewhere };
    let is_own = of_test.strip_prefix(&*of_file).is_some_and(|rest| rest.first().is_some_and(|one| one == "tests"));
    if is_own {
        Nearness::File
    } else if !folder.is_empty() && of_test.starts_with(folder) {
        Nearness::Folder
    } else if of_test.starts_with(layer) {
        Nearness::Layer
    } else {
        Nearness::Elsewhere
    }
}

/// The tests in the order in which they are run, those together that are started together: of one program and equally
/// near. Of those near the break the quickest come first. Of those elsewhere one that reaches few breaks says more of
/// each than one that reaches most of them on the way to its one figure: first comes what takes the least for how much
/// it says.
pub fn batches<'a, T: Candidate>(tests: &[&'a T], mutant: &Mutant, catches: &Catches) -> Vec<Vec<&'a T>> {
    let mut waiting: Vec<(Nearness, u128, &T)> = tests
        .iter()
        .map(|test| {
            let nearness = nearness(*test, mutant, catches);
            let took = test.took().as_micros();
            let weight = if nearness == Nearness::Elsewhere { test.reaches() as u128 } else { 1 };
            (nearness, took * weight, *test)
        })
        .collect();
    waiting.sort_by_key(|(nearness, price, _)| (*nearness, *price));
    let mut batches = Vec::new();
    while let Some((nearness, _, first)) = waiting.first().copied() {
        let mut expected = Duration::ZERO;
        let mut batch = Vec::new();
        waiting.retain(|(other, _, test)| {
            let fits = batch.is_empty() || expected + test.took() <= TOGETHER;
            let taken = *other == nearness && test.program() == first.program() && fits;
            if taken {
                expected += test.took();
                batch.push(*test);
            }
            !taken
        });
        batches.push(batch);
    }
    batches
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mutant::Shape;

    struct One {
        name: &'static str,
        modules: Option<Vec<String>>,
        program: usize,
        milliseconds: u64,
        reaches: usize,
    }

    impl Candidate for One {
        fn name(&self) -> &str {
            self.name
        }

        fn modules(&self) -> Option<&[String]> {
            self.modules.as_deref()
        }

        fn program(&self) -> usize {
            self.program
        }

        fn took(&self) -> Duration {
            Duration::from_millis(self.milliseconds)
        }

        fn reaches(&self) -> usize {
            self.reaches
        }
    }

    /// One of the library (program 0).
    fn of_library(name: &'static str, milliseconds: u64) -> One {
        One { name, modules: Some(modules_of_test(&[], name)), program: 0, milliseconds, reaches: 10 }
    }

    /// One of the member (program 1).
    fn of_member(name: &'static str, milliseconds: u64) -> One {
        let modules = modules_of_test(&["packing".to_owned()], name);
        One { name, modules: Some(modules), program: 1, milliseconds, reaches: 10 }
    }

    /// One of the program as a whole (program 2).
    fn of_whole(name: &'static str, milliseconds: u64, reaches: usize) -> One {
        One { name, modules: None, program: 2, milliseconds, reaches }
    }

    fn break_of(file: &str) -> Mutant {
        Mutant::new(file, "", 0..0, String::new(), Shape::Expression, "+ to -")
    }

    fn names(batches: &[Vec<&One>]) -> Vec<Vec<&'static str>> {
        batches.iter().map(|batch| batch.iter().map(|test| test.name).collect()).collect()
    }

    fn ordered(tests: &[One], file: &str, catches: &Catches) -> Vec<Vec<&'static str>> {
        let tests: Vec<&One> = tests.iter().collect();
        names(&batches(&tests, &break_of(file), catches))
    }

    #[test]
    fn a_file_has_the_modules_of_its_path() {
        assert_eq!(modules("src/ticket/cost.rs").unwrap(), ["ticket", "cost"]);
        assert_eq!(modules("src/packing/lengths/mod.rs").unwrap(), ["packing", "lengths"]);
        assert_eq!(modules("src/packing/lib.rs").unwrap(), ["packing"]);
        assert!(modules("src/main.rs").unwrap().is_empty());
        assert_eq!(modules("recipes/curtains.rhai"), None);
    }

    #[test]
    fn the_nearest_tests_come_first_however_slow() {
        let tests = [
            of_whole("bill::costs", 1, 1),
            of_library("report::canvas::tests::draws", 2),
            of_library("cutting::place::tests::lies", 3),
            of_library("cutting::search::shelf_first::tests::takes", 4),
            of_library("cutting::search::priced::tests::slow", 2_000),
            of_library("cutting::search::priced::tests::quick", 500),
        ];
        assert_eq!(
            ordered(&tests, "src/cutting/search/priced.rs", &Catches::default()),
            [
                vec!["cutting::search::priced::tests::quick"],
                vec!["cutting::search::priced::tests::slow"],
                vec!["cutting::search::shelf_first::tests::takes"],
                vec!["cutting::place::tests::lies"],
                // 1 ms by 1 break, and 2 ms by 10 breaks, each of its own program.
                vec!["bill::costs"],
                vec!["report::canvas::tests::draws"],
            ]
        );
    }

    #[test]
    fn what_caught_a_break_of_the_file_comes_before_its_own_tests_the_most_first() {
        let mut catches = Catches::default();
        catches.note("src/ticket/cost.rs", "bill::once");
        catches.note("src/ticket/cost.rs", "bill::twice");
        catches.note("src/ticket/cost.rs", "bill::twice");
        catches.note("src/ticket/needs.rs", "bill::other_file");
        let tests = [
            of_whole("bill::other_file", 1, 1),
            of_library("ticket::cost::tests::own", 1),
            of_whole("bill::once", 1, 1),
            of_whole("bill::twice", 900, 900),
        ];
        assert_eq!(
            ordered(&tests, "src/ticket/cost.rs", &catches),
            [vec!["bill::twice"], vec!["bill::once"], vec!["ticket::cost::tests::own"], vec!["bill::other_file"]]
        );
    }

    #[test]
    fn the_tests_of_a_folder_s_own_file_are_those_beside_it_and_no_further_module_s() {
        let tests = [
            of_member("lengths::dive::tests::dives", 1),
            of_member("straight::tests::fills", 1),
            of_member("lengths::tests::families::all", 700),
        ];
        assert_eq!(
            ordered(&tests, "src/packing/lengths/mod.rs", &Catches::default()),
            [["lengths::tests::families::all"], ["lengths::dive::tests::dives"], ["straight::tests::fills"]]
        );
        // A module of the same name in another layer is no relation; nor is one that only begins with the same letters.
        let tests = [of_library("lengths::tests::far", 1), of_member("lengths_of_all::tests::near", 2)];
        assert_eq!(
            ordered(&tests, "src/packing/lengths/mod.rs", &Catches::default()),
            [["lengths_of_all::tests::near"], ["lengths::tests::far"]]
        );
    }

    #[test]
    fn elsewhere_the_time_counts_by_the_breaks_reached() {
        // 300 ms by 4 breaks are 1200; 20 ms by 100 are 2000; 2 ms by 1100 are 2200: 322 ms, so one start for all.
        let tests =
            [of_whole("typed::all", 2, 1_100), of_whole("typed::some", 20, 100), of_whole("typed::few", 300, 4)];
        let together = [vec!["typed::few", "typed::some", "typed::all"]];
        assert_eq!(ordered(&tests, "recipes/curtains.rhai", &Catches::default()), together);
        // Near the break it is the time alone.
        let mut quick = of_library("ticket::cost::tests::quick", 10);
        quick.reaches = 1_000;
        let mut slow = of_library("ticket::cost::tests::slow", 11);
        slow.reaches = 1;
        let together = [vec!["ticket::cost::tests::quick", "ticket::cost::tests::slow"]];
        assert_eq!(ordered(&[slow, quick], "src/ticket/cost.rs", &Catches::default()), together);
    }

    #[test]
    fn tests_of_one_program_start_together_up_to_a_second() {
        let tests = [
            of_whole("a", 400, 10),
            of_library("plans::tests::b", 450),
            of_whole("c", 500, 10),
            of_whole("d", 600, 10),
            of_whole("e", 100, 50),
        ];
        // By 10 breaks each: 400, 450, 500, 600, and 100 by 50 are 500 by 10, after the equal one before it. a, c and e
        // are 1000 ms; d is too much with them.
        assert_eq!(
            ordered(&tests, "src/table/mod.rs", &Catches::default()),
            [vec!["a", "c", "e"], vec!["plans::tests::b"], vec!["d"]]
        );
        // A test of more than a second runs alone.
        let tests = [of_whole("long", 1_500, 1), of_whole("longer", 1_600, 1)];
        assert_eq!(ordered(&tests, "src/table/mod.rs", &Catches::default()), [["long"], ["longer"]]);
    }
}
