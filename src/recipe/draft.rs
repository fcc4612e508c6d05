//! A new recipe to begin with: a short one that passes its check, or a copy of another.
//!
//! Never here: where it is written.

use crate::quantity::Tape;
use crate::recipe::library::{RecipeText, shipped_helpers};

/// A short recipe of this name, in the measures of a tape: one piece, hemmed.
pub fn draft(name: &str, tape: Tape) -> String {
    // In the sentence of the head a name is read as words.
    let text = include_str!("draft.rhai").replace("{name}", &name.replace('_', " "));
    // A measure is written for both tapes: «4 in|10 cm».
    let mut parts = text.split('«');
    let mut draft = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (both, rest) = part.split_once('»').unwrap_or(("", part));
        let (inches, metric) = both.split_once('|').unwrap_or((both, both));
        draft.extend([if tape == Tape::Metric { metric } else { inches }, rest]);
    }
    draft
}

/// A copy of a recipe, which says in its head what it comes after. Helper files that come with the program stay there;
/// others are in the copy.
pub fn draft_like(recipe: &RecipeText) -> String {
    let header = recipe.header();
    let after = [Some(recipe.name.as_str()), header.version.as_deref()].into_iter().flatten().collect::<Vec<_>>();
    let after = format!("//! after: {}\n", after.join(" "));
    let head: usize = recipe.text.split_inclusive('\n').take_while(|line| line.starts_with("//!")).map(str::len).sum();
    let (above, below) = recipe.text.split_at(head);
    // Of several it was made after, the nearest is told.
    let above: String = above.split_inclusive('\n').filter(|line| !line.starts_with("//! after:")).collect();
    let shipped = shipped_helpers();
    let helpers = recipe.helpers.iter().filter(|(name, text)| shipped.get(*name) != Some(text));
    let copy = RecipeText {
        name: recipe.name.clone(),
        text: format!("{above}{after}{below}"),
        helpers: helpers.map(|(name, text)| (name.clone(), text.clone())).collect(),
    };
    let one = copy.in_one_file();
    format!("{}\n", one.trim_end())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::limits::StopFlag;
    use crate::recipe::run::answer_in;
    use crate::recipe::{Reply, Task, library, one_file};
    use crate::workshop::Workshop;

    fn read(name: &str, text: &str) -> RecipeText {
        let (text, helpers) = one_file::apart(text).unwrap();
        RecipeText { name: name.to_owned(), text, helpers: shipped_helpers().into_iter().chain(helpers).collect() }
    }

    #[test]
    fn a_draft_passes_its_check_without_a_word_on_either_tape() {
        for (tape, own, other) in [(Tape::Inch, " in", " cm"), (Tape::Metric, " cm", "44 in")] {
            let recipe = read("tea_towel", &draft("tea_towel", tape));
            assert!(recipe.header().makes.starts_with("tea towel: a hemmed cloth."), "{}", recipe.header().makes);
            assert!(recipe.text.contains(own) && !recipe.text.contains(other), "{}", recipe.text);
            assert!(!recipe.text.contains(['«', '»']), "{}", recipe.text);
            match answer_in(&recipe, &Workshop::default(), false, &Task::Check, StopFlag::default()) {
                Reply::Checked(report) => {
                    assert!(report.passed() && report.cautions.is_empty() && report.never_ran.is_empty(), "{report:?}");
                    assert_eq!((report.examples, report.unread), (2, 0));
                }
                other => panic!("{other:?}"),
            }
        }
    }

    #[test]
    fn a_copy_says_what_it_comes_after_and_is_the_same_otherwise() {
        let valance = library::shipped("valance").unwrap();
        let text = draft_like(&valance);
        let copy = read("mine", &text);
        let header = copy.header();
        let version = valance.header().version.unwrap();
        assert_eq!(header.after.as_deref(), Some(format!("valance {version}").as_str()));
        assert_eq!((&header.makes, &header.tags), (&valance.header().makes, &valance.header().tags));
        let others =
            |text: &str| text.lines().filter(|line| !line.starts_with("//! after:")).collect::<Vec<_>>().join("\n");
        assert_eq!(others(&copy.text).trim_end(), valance.text.trim_end());
        assert!(!text.contains("helper file:"), "helpers that come with the program stay there");
        // A copy of the copy comes after the copy alone, and takes helpers of its own with it.
        let mut copy = copy;
        let own = "fn wide(x) { 2 * x }\n".to_owned();
        copy.text = format!("{}\nimport \"own\" as own;\n", copy.text);
        copy.helpers.insert("own".to_owned(), own);
        let again = draft_like(&copy);
        assert_eq!(again.matches("//! after: ").count(), 1);
        assert!(
            again.contains(&format!("//! after: mine {version}\n"))
                && again.ends_with("//! helper file: own\nfn wide(x) { 2 * x }\n"),
            "{again}"
        );
    }
}
