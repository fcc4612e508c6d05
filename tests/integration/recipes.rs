//! Every shipped recipe: its check passes, and its worked examples come out.

use shirr::engine::limits::StopFlag;
use shirr::recipe::run::answer_in;
use shirr::recipe::{Reply, Task, library};
use shirr::workshop::Workshop;

#[test]
fn every_shipped_recipe_passes_its_check() {
    for name in library::shipped_names() {
        let recipe = library::shipped(name).unwrap();
        match answer_in(&recipe, &Workshop::default(), false, &Task::Check, StopFlag::default()) {
            Reply::Checked(report) => {
                let found: Vec<String> = report.findings.iter().map(ToString::to_string).collect();
                assert!(report.passed(), "{name}:\n{}", found.join("\n"));
                assert!(report.examples >= 2, "{name} has {} examples; a shipped recipe has two", report.examples);
                assert!(report.corners > report.refused, "{name}: no corner ends in a ticket");
            }
            other => panic!("{name}: {other:?}"),
        }
    }
}
