//! Target `script`: takes a text as a recipe, looks at it, describes it and runs it.

use super::{answered, as_read, assert_all_told};
use shirr::recipe::{RecipeText, Reply, Task};
use shirr::workshop::Workshop;
use std::collections::BTreeMap;

/// Reads, describes and runs a recipe.
pub fn try_text(text: &str) -> bool {
    // Its words may quote the text as it is or as a terminal shows it, and the words of a recipe's frame.
    let read = as_read(text);
    let recipe = RecipeText { name: "tried".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() };
    let workshop = Workshop::default();
    for task in [Task::Read, Task::Describe, Task::Make(Vec::new())] {
        let Some(reply) = answered(&recipe, &workshop, &task) else { continue };
        match reply {
            Reply::Failed(errors) | Reply::Refused(errors) => {
                assert!(!errors.is_empty(), "it fails without a word");
                assert_all_told(&read, &errors);
            }
            Reply::Checked(report) => {
                assert_all_told(&read, &report.findings);
                assert_all_told(&read, &report.cautions);
            }
            Reply::Described(_) | Reply::Ran(_) | Reply::Worked(_) => {}
        }
    }
    true
}
