//! Words that a recipe shares with others: operations, body measures, tags. A word that nobody knows is no fault, but one
//! that is nearly a known one is most likely that one mistyped.

use crate::engine::ScriptError;
use crate::quantity::nearest::nearest;
use crate::recipe::contract::header::Header;
use crate::recipe::contract::words::WORDS;
use crate::recipe::library;
use crate::workshop::{Rates, Workshop};
use std::collections::BTreeSet;
use std::sync::LazyLock;

/// What the shipped recipes say.
struct Shipped {
    measures: BTreeSet<String>,
    tags: BTreeSet<String>,
    inputs: BTreeSet<String>,
}

static SHIPPED: LazyLock<Shipped> = LazyLock::new(|| {
    let texts: Vec<String> = library::shipped_names().filter_map(library::shipped).map(|recipe| recipe.text).collect();
    let named = |text: &String, word: &str| -> Vec<String> {
        let opening = format!("{word}(\"");
        let named = text.split(&opening).skip(1).filter_map(|rest| rest.split_once('"'));
        named.map(|(name, _)| name.to_owned()).collect()
    };
    let bodies = |text: &String| named(text, ".body");
    let declaring = || WORDS.iter().filter(|word| word.of == "inputs");
    let inputs = |text: &String| -> Vec<String> { declaring().flat_map(|word| named(text, word.name)).collect() };
    Shipped {
        measures: texts.iter().flat_map(bodies).collect(),
        inputs: texts.iter().flat_map(inputs).collect(),
        tags: texts.iter().flat_map(|text| Header::read(text).tags).collect(),
    }
});

/// The words that are known where a recipe is checked.
#[derive(Debug)]
pub(in crate::recipe::proof) struct Vocabulary {
    operations: BTreeSet<String>,
    measures: BTreeSet<String>,
}

impl Vocabulary {
    /// The words of the shipped recipes and of a workshop.
    pub(in crate::recipe::proof) fn of(workshop: &Workshop) -> Self {
        let own = workshop.rates.operations.iter().map(|operation| operation.name.clone());
        let measures = SHIPPED.measures.iter().chain(&workshop.sizes.measures);
        Self {
            operations: own.chain(Rates::built_in_names().map(str::to_owned)).collect(),
            measures: measures.cloned().collect(),
        }
    }

    /// What is to be said of an operation, and of one that nobody knows unless the recipe says how long it takes.
    pub(super) fn operation(&self, name: &str, is_timed: bool) -> Option<ScriptError> {
        let message = |name: &str| format!("no rate is known for “{name}”");
        slip(name, &self.operations, message).or_else(|| {
            let unknown = !is_timed && !self.operations.contains(name);
            unknown.then(|| ScriptError::new(message(name)).hinting("say how long it takes: .about(3 min)"))
        })
    }

    /// Whether a shipped recipe has an input of this name, of which a helper file may speak.
    pub(super) fn is_input(name: &str) -> bool {
        SHIPPED.inputs.contains(name)
    }

    /// What is to be said of a body measure.
    pub(super) fn body_measure(&self, name: &str) -> Option<ScriptError> {
        slip(name, &self.measures, |name| format!("no other recipe and no size has the body measure “{name}”"))
    }

    /// What is to be said of the tags in the head of a recipe, each with its place.
    pub(super) fn tags(text: &str) -> Vec<(usize, ScriptError)> {
        let told = |tag: &String| {
            let problem = slip(tag, &SHIPPED.tags, |tag| format!("no other recipe is for “{tag}”"))?;
            let line = text.find("for:")?;
            Some((line + text.get(line..)?.find(tag.as_str())?, problem))
        };
        Header::read(text).tags.iter().filter_map(told).collect()
    }
}

/// The hint of a word that is nearly a known one.
fn slip(word: &str, known: &BTreeSet<String>, message: impl Fn(&str) -> String) -> Option<ScriptError> {
    if known.contains(word) {
        return None;
    }
    let near = nearest(word, known.iter().map(String::as_str))?;
    Some(ScriptError::new(message(word)).hinting(format!("did you mean “{near}”?")))
}
