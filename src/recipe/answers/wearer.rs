//! The wearer's age and the use, `age='5 years'` and `use=stage`, which any order may state.
//!
//! They change no piece and no seam; cautions, labels and warnings about measures depend on them. Never here: what
//! follows from an age or a use.

use crate::engine::{ScriptError, value};
use crate::quantity::nearest::nearest;
use crate::quantity::{Quantity, Time, Unit};
use crate::recipe::answers::answering::{Check, CheckResult, RawAnswer, evaluated};
use crate::recipe::contract::input::{AGE, USE};
use crate::ticket::Usage;

/// The highest age accepted, in years; a larger number is a slip.
const OLDEST: f64 = 120.0;

/// Reads the age an order states, in years or months.
pub(in crate::recipe) fn age(answer: &RawAnswer, check: &Check<'_>) -> CheckResult<Time> {
    let value = evaluated(check.evaluate, answer)?;
    let Some(quantity) = value::quantity_from_script(&value) else {
        let problem = ScriptError::new(format!("an age is needed, not {}", value::noun(&value)));
        return Err(problem.hinting(type_years_or_months("5")));
    };
    if quantity.dimension().is_number() {
        let number = check.style.show(quantity);
        let number = number.trim_start_matches(['≈', ' ']);
        let plural = if number == "1" { "" } else { "s" };
        let problem = ScriptError::new(format!("{number} year{plural} or {number} month{plural}?"));
        return Err(problem.hinting(type_years_or_months(number)));
    }
    let shown = || check.style.show(quantity);
    let in_years_or_months = matches!(quantity.liked().time, Some(Unit::Year | Unit::Month));
    let Some(age) = Time::try_from(quantity).ok().filter(|_| in_years_or_months) else {
        return Err(ScriptError::new(format!("{} is no age", shown())).hinting(type_years_or_months("5")));
    };
    if age.steps() < 0.0 || age.steps() > Quantity::of(OLDEST, Unit::Year).steps() || !age.steps().is_finite() {
        return Err(ScriptError::new(format!("nobody is {} old", shown())).hinting(type_years_or_months("5")));
    }
    Ok(age)
}

fn type_years_or_months(number: &str) -> String {
    let plural = if number == "1" { "" } else { "s" };
    format!("type {AGE}='{number} year{plural}' or {AGE}='{number} month{plural}'")
}

/// Reads the use an order states.
pub(in crate::recipe) fn usage(answer: &RawAnswer) -> CheckResult<Usage> {
    let words = answer.words().ok_or_else(|| ScriptError::new(format!("a use is one of {}", uses())))?;
    Usage::named(&words).ok_or_else(|| {
        let near = nearest(&words, Usage::WORDS.iter().map(|(known, _)| *known));
        let hint = near.map_or_else(|| format!("type {USE}='dance class'"), |near| format!("did you mean “{near}”?"));
        ScriptError::new(format!("“{words}” is none of {}", uses())).hinting(hint)
    })
}

/// Lists the uses: `day wear, outdoors, sleep …`.
pub(in crate::recipe) fn uses() -> String {
    Usage::WORDS.map(|(words, _)| words).join(", ")
}

#[cfg(test)]
mod tests {
    use crate::engine::limits::StopFlag;
    use crate::quantity::Style;
    use crate::recipe::proof::check;
    use crate::recipe::run::answer_in;
    use crate::recipe::{RecipeText, Reply, Task};
    use crate::report::excerpt;
    use crate::ticket::{Ticket, Usage};
    use crate::workshop::Workshop;
    use std::collections::BTreeMap;

    const RECIPE: &str = r#"//! A band of one length.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: trim
fn inputs() { [ length("around", "round").between(10 in, 50 in) ] }
fn make(order, ticket) { ticket.figure("band", order.around + 1 in, "cut"); ticket.step("Cut {band}."); }
fn examples() { [
    #{ given: #{ around: 20 in, age: 18 months, "use": "stage" }, expect: #{ band: 21 in }, source: "own arithmetic" },
    #{ given: #{ around: 20 in, age: 5 }, refuse: "age", source: "own arithmetic" },
] }
"#;

    fn task(task: &Task) -> Reply {
        let recipe = RecipeText { name: "band".to_owned(), text: RECIPE.to_owned(), helpers: BTreeMap::new() };
        answer_in(&recipe, &Workshop::default(), false, task, StopFlag::default())
    }

    fn run(given: &[(&str, &str)]) -> Result<Ticket, String> {
        let all = [&[("around", "20 in")], given].concat();
        match task(&Task::run(all)) {
            Reply::Ran(ticket) => Ok(*ticket),
            Reply::Refused(refusals) => Err(excerpt::texts(&refusals)),
            other => Err(format!("{other:?}")),
        }
    }

    #[test]
    fn an_order_may_say_an_age_and_a_use() {
        let ticket = run(&[("age", "18 months"), ("use", "Dance class")]).unwrap();
        assert_eq!(ticket.used_for, Some(Usage::DanceClass));
        let shown = |ticket: &Ticket| ticket.age.map(|age| Style::default().show(age.into()));
        assert_eq!(shown(&ticket).as_deref(), Some("18 months"));
        assert_eq!(shown(&run(&[("age", "1 year 6 months")]).unwrap()).as_deref(), Some("1 year 6 months"));
        assert_eq!(shown(&run(&[("age", "3 * 12 months")]).unwrap()).as_deref(), Some("36 months"));
        let without = run(&[]).unwrap();
        assert_eq!((without.age, without.used_for), (None, None));
    }

    #[test]
    fn what_is_no_age_and_no_use_is_refused_in_words() {
        for (name, typed, message) in [
            ("age", "5", "age: 5 years or 5 months?\n  type age='5 years' or age='5 months'"),
            ("age", "1", "age: 1 year or 1 month?\n  type age='1 year' or age='1 month'"),
            ("age", "20 min", "age: 20 min is no age\n  type age='5 years' or age='5 months'"),
            ("age", "20 in", "age: 20 in is no age\n  type age='5 years' or age='5 months'"),
            ("age", "500 years", "age: nobody is 500 years old\n  type age='5 years' or age='5 months'"),
            ("age", "-1 year", "age: nobody is -1 year old\n  type age='5 years' or age='5 months'"),
            ("age", "", "age: nothing is written here"),
            (
                "use",
                "stgae",
                "use: “stgae” is none of day wear, outdoors, sleep, dance class, stage, dressing up, household\n  did you mean \
                 “stage”?",
            ),
        ] {
            assert_eq!(run(&[(name, typed)]).unwrap_err(), message, "{name}={typed}");
        }
        assert!(run(&[("age", "tall")]).unwrap_err().starts_with("age: “tall”: "));
    }

    #[test]
    fn examples_may_say_them_too() {
        let Reply::Checked(check::CheckReport { findings, examples, .. }) = task(&Task::Check) else { panic!() };
        assert_eq!((findings.as_slice(), examples), ([].as_slice(), 2), "{findings:?}");
    }
}
