//! Warns about implausible body measures of an order; none is refused.
//!
//! The body layer judges a measure; this module applies it to the inputs that are body measures. An order states no
//! sex, so girls and boys are taken together.

use crate::body::plausibility::{self, Wearer};
use crate::quantity::{Length, Style, Time};
use crate::recipe::answers::answering::CheckedAnswer;
use crate::recipe::contract::input::Input;
use crate::ticket::InputSource;
use std::collections::BTreeMap;

/// Returns the warning about one answer, if any.
pub(in crate::recipe) fn of_answer(
    input: &Input,
    answer: &CheckedAnswer,
    age: Option<Time>,
    style: &Style,
) -> Option<String> {
    let measure = input.body.as_deref()?;
    let length = Length::try_from(answer.value().quantity()?).ok()?;
    let warning = plausibility::warning(measure, length, Wearer { sex: None, age }, style)?;
    Some(format!("{}: {warning}", input.name.replace('_', " ")))
}

/// Returns the warnings about all answers, in recipe order. If a size from the list fills a measure of a child under
/// two, one reminder to measure the child follows.
pub(in crate::recipe) fn of_order(
    inputs: &[Input],
    answers: &BTreeMap<String, (CheckedAnswer, InputSource)>,
    age: Option<Time>,
    style: &Style,
) -> Vec<String> {
    let bodies = || {
        let bodies = inputs.iter().filter(|input| input.body.is_some());
        bodies.filter_map(|input| answers.get(&input.name).map(|(answer, source)| (input, answer, source)))
    };
    let mut warnings: Vec<String> =
        bodies().filter_map(|(input, answer, _)| of_answer(input, answer, age, style)).collect();
    let from_a_list = bodies().any(|(.., source)| matches!(source, InputSource::Size(_)));
    warnings.extend(age.filter(|_| from_a_list).and_then(plausibility::under_two).map(str::to_owned));
    warnings
}

#[cfg(test)]
mod tests {
    use crate::engine::limits::StopFlag;
    use crate::recipe::run::answer_in;
    use crate::recipe::{RecipeText, Reply, Task};
    use crate::workshop::Workshop;
    use std::collections::BTreeMap;

    const RECIPE: &str = r#"//! A band round the waist.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: trim
fn inputs() { [ length("waist", "round").body("waist").between(1 in, 90 in) ] }
fn make(order, ticket) { ticket.figure("band", order.waist + 1 in, "cut"); ticket.step("Cut {band}."); }
fn examples() { [ #{ given: #{ waist: 20 in }, expect: #{ band: 21 in }, source: "own arithmetic" } ] }
"#;

    fn warnings(given: &[(&str, &str)]) -> Vec<String> {
        let workshop = Workshop::read(&[("sizes.csv", "size,waist\nWren,17 in\nAlder,56 in\n")]).unwrap();
        let recipe = RecipeText { name: "band".to_owned(), text: RECIPE.to_owned(), helpers: BTreeMap::new() };
        let task = Task::run(given.iter().copied());
        match answer_in(&recipe, &workshop, false, &task, StopFlag::default()) {
            Reply::Ran(ticket) => ticket.warnings,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_body_measure_is_questioned_and_the_order_still_made() {
        let far = "waist: 56 in is far more than a child of 5 measures (survey: 46 to 68.3 cm, 5th to 95th); did you \
                   mean 56 cm?";
        assert_eq!(warnings(&[("waist", "56 in"), ("age", "5 years")]), [far]);
        assert_eq!(warnings(&[("size", "Alder"), ("age", "5 years")]), [far]);
        // Without an age it is a plausible waist.
        assert_eq!(warnings(&[("waist", "56 in")]), Vec::<String>::new());
        assert_eq!(warnings(&[("waist", "56 cm"), ("age", "5 years")]), Vec::<String>::new());
        assert_eq!(warnings(&[("waist", "2 in")]).len(), 1);
    }

    #[test]
    fn under_two_years_a_size_from_the_list_brings_the_reminder() {
        let found = warnings(&[("size", "Wren"), ("age", "18 months")]);
        assert!(matches!(found.as_slice(), [one] if one.contains("measure the child")), "{found:?}");
        assert_eq!(warnings(&[("waist", "17 in"), ("age", "18 months")]), Vec::<String>::new());
        assert_eq!(warnings(&[("size", "Wren"), ("age", "2 years")]), Vec::<String>::new());
    }
}
