//! What is different in a recipe since it was accepted: its head, what it asks, what its examples come to, its lines.
//!
//! Never here: running either text, and saying whether a change is for the better.

use crate::quantity::Style;
use crate::recipe::contract::header::Header;
use crate::recipe::contract::input::Input;
use crate::recipe::library::RecipeText;
use crate::recipe::proof::examples::WorkedExample;
use crate::recipe::protocol::Description;
use crate::ticket::Ticket;
use std::collections::BTreeMap;

/// A text of a recipe with what it asks and what its examples come to.
#[derive(Clone, Copy, Debug)]
pub(crate) struct RecipeVersion<'r> {
    pub(crate) text: &'r RecipeText,
    pub(crate) description: &'r Description,
    pub(crate) examples: &'r [WorkedExample],
}

/// The most lines that are told of one example.
const MOST_TOLD: usize = 12;

/// Tells what is different between two texts of a recipe, a line each; at least the count of lines.
pub(crate) fn what_changed(before: RecipeVersion<'_>, now: RecipeVersion<'_>, style: &Style) -> Vec<String> {
    let mut told = heads(&before.description.header, &now.description.header);
    told.extend(inputs(&before.description.inputs, &now.description.inputs, style));
    for (place, example) in now.examples.iter().enumerate() {
        let given = answers(&example.ticket, style);
        let same = before.examples.iter().find(|old| answers(&old.ticket, style) == given);
        let Some(same) = same else {
            told.push(format!("example {} is new or has other answers", place + 1));
            continue;
        };
        let mut differences = differences(&results(&same.ticket, style), &results(&example.ticket, style));
        let more = differences.len().saturating_sub(MOST_TOLD);
        differences.truncate(MOST_TOLD);
        told.extend(differences.iter().map(|difference| format!("example {}: {difference}", place + 1)));
        if more > 0 {
            told.push(format!("example {}: {more} more", place + 1));
        }
    }
    for (place, example) in before.examples.iter().enumerate() {
        let given = answers(&example.ticket, style);
        if !now.examples.iter().any(|new| answers(&new.ticket, style) == given) {
            told.push(format!("example {} of before is gone or has other answers", place + 1));
        }
    }
    told.push(lines_changed(before.text, now.text));
    told
}

/// What the head says otherwise.
fn heads(before: &Header, now: &Header) -> Vec<String> {
    let said = |header: &Header| {
        let Header { makes, contract: _, version, licence, tags, by, after } = header;
        let said = [
            ("it makes", Some(makes.clone())),
            ("version", version.clone()),
            ("licence", licence.clone()),
            ("for", Some(tags.join(", "))),
            ("by", by.clone()),
            ("after", after.clone()),
        ];
        said.into_iter().filter_map(|(name, said)| Some((name.to_owned(), said?))).collect::<BTreeMap<String, String>>()
    };
    differences(&said(before), &said(now))
}

/// What is asked otherwise.
fn inputs(before: &[Input], now: &[Input], style: &Style) -> Vec<String> {
    let asks = |inputs: &[Input]| {
        let asked = inputs.iter().map(|input| (input.name.clone(), input.terms(style)));
        asked.collect::<BTreeMap<String, String>>()
    };
    let told = differences(&asks(before), &asks(now));
    told.into_iter().map(|difference| format!("it asks otherwise: {difference}")).collect()
}

/// The answers of an example that it gives itself.
fn answers(ticket: &Ticket, style: &Style) -> Vec<(String, String)> {
    let given = ticket.inputs.iter().filter(|input| input.source.remark().is_none());
    given.map(|input| (input.name.clone(), input.value.show(style))).collect()
}

/// What an example comes to, each thing by its name.
fn results(ticket: &Ticket, style: &Style) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let mut add = |name: String, shown: String| {
        let told: &mut String = found.entry(name).or_default();
        if !told.is_empty() {
            told.push_str(" and ");
        }
        told.push_str(&shown);
    };
    for figure in &ticket.figures {
        add(figure.name.clone(), figure.value.show(style));
    }
    for piece in &ticket.pieces {
        let room = piece.piece.shape.rectangle_round();
        let along = style.show(room.along.into());
        let size = if piece.piece.shape.is_full_width() {
            along
        } else {
            format!("{along} × {}", style.show(room.across.into()))
        };
        add(format!("piece {}", piece.piece.name), format!("{} of {size}", piece.piece.count));
    }
    for need in &ticket.needs {
        add(format!("need {}", need.why), format!("{} × {}", need.count, style.show(need.amount)));
    }
    for sewing in &ticket.sewing {
        add(format!("stitching {}", sewing.why), style.show(sewing.length.into()));
    }
    for work in &ticket.work {
        add(format!("work {}", work.operation), style.show(work.amount));
    }
    for mark in &ticket.marks {
        add(format!("mark {} on {}", mark.name, mark.piece), style.show(mark.distance.into()));
    }
    for caution in &ticket.cautions {
        add(format!("caution {caution}"), "shown".to_owned());
    }
    found
}

/// What is in one list and not, or otherwise, in the other, in the order of names.
fn differences(before: &BTreeMap<String, String>, now: &BTreeMap<String, String>) -> Vec<String> {
    let mut names: Vec<&String> = before.keys().chain(now.keys()).collect();
    names.sort();
    names.dedup();
    let told = names.into_iter().filter_map(|name| match (before.get(name), now.get(name)) {
        (Some(before), Some(now)) if before != now => Some(format!("{name}: {now}; was {before}")),
        (None, Some(now)) => Some(format!("{name}: {now}; is new")),
        (Some(before), None) => Some(format!("{name}: was {before}; is gone")),
        _ => None,
    });
    told.collect()
}

/// How many lines of the recipe and the helper files it imports are new, and how many are gone.
pub(crate) fn lines_changed(before: &RecipeText, now: &RecipeText) -> String {
    let (before, now) = (before.in_one_file(), now.in_one_file());
    let mut counts: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    before.lines().for_each(|line| counts.entry(line.trim()).or_default().0 += 1);
    now.lines().for_each(|line| counts.entry(line.trim()).or_default().1 += 1);
    let told = counts.iter().filter(|(line, _)| !line.is_empty()).map(|(_, counts)| counts);
    let (gone, new) = told.fold((0, 0), |(gone, new), (before, now)| {
        (gone + before.saturating_sub(*now), new + now.saturating_sub(*before))
    });
    match (new, gone) {
        (0, 0) => "only blank lines or the order of lines changed".to_owned(),
        (new, gone) => format!("lines: {new} new or changed, {gone} gone or changed, helper files with them"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::limits::StopFlag;
    use crate::recipe::run::answer_in;
    use crate::recipe::{Reply, Task};
    use crate::workshop::Workshop;

    const BEFORE: &str = "//! A band.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: skirt
fn inputs() { [
    length(\"round\", \"finished\").between(10 in, 40 in).usual(20 in),
    length(\"seam\", \"allowance\").between(1/4 in, 1 in).usual(1/2 in),
    cloth(\"cloth\", \"cloth\"),
] }
fn make(order, ticket) {
    let long = order.round + 2 * order.seam;
    ticket.figure(\"cut\", long, \"with two seams\");
    ticket.piece(\"band\", order.cloth).rectangle(long, 3 in);
    ticket.sew(\"301\", 3 in, \"ends\");
}
fn examples() { [
    #{ given: #{ round: 24 in, cloth: any_cloth(44 in) }, expect: #{ cut: 25 in }, source: \"own arithmetic\" },
] }
";

    fn told(before: &str, now: &str) -> Vec<String> {
        let text = |text: &str| RecipeText { name: "band".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() };
        let ask = |text: &RecipeText, task| answer_in(text, &Workshop::default(), false, &task, StopFlag::default());
        let texts = [text(before), text(now)];
        let asked: Vec<(Description, Vec<WorkedExample>)> = texts
            .iter()
            .map(|text| match (ask(text, Task::Describe), ask(text, Task::Examples)) {
                (Reply::Described(description), Reply::Worked(examples)) => (description, examples),
                other => panic!("{other:?}"),
            })
            .collect();
        let version = |at: usize| RecipeVersion { text: &texts[at], description: &asked[at].0, examples: &asked[at].1 };
        what_changed(version(0), version(1), &Style::default())
    }

    #[test]
    fn a_wider_usual_seam_is_told_with_what_it_does() {
        let now = BEFORE.replace("1 in).usual(1/2 in)", "1 in).usual(3/4 in)");
        // 24 in and two seams: of 1/2 in 25 in, of 3/4 in 25 1/2 in.
        assert_eq!(
            told(BEFORE, &now),
            [
                "it asks otherwise: seam: a length; 1/4 in to 1 in; usually 3/4 in; was a length; 1/4 in to 1 in; usually 1/2 in",
                "example 1: cut: 25 1/2 in; was 25 in",
                "example 1: piece band: 1 of 25 1/2 in × 3 in; was 1 of 25 in × 3 in",
                "lines: 1 new or changed, 1 gone or changed, helper files with them",
            ]
        );
    }

    #[test]
    fn what_is_new_and_what_is_gone_are_told() {
        let now = BEFORE
            .replace("    ticket.sew(\"301\", 3 in, \"ends\");\n", "    ticket.caution(\"pins\");\n")
            .replace(
                "    cloth(\"cloth\"",
                "    number(\"full\", \"how full\").between(1, 3).usual(2),\n    cloth(\"cloth\"",
            )
            .replace("rectangle(long", "rectangle(order.full * long");
        assert_eq!(
            told(BEFORE, &now),
            [
                "it asks otherwise: full: a plain number; 1 to 3; usually 2; is new",
                "example 1: caution pins: shown; is new",
                "example 1: piece band: 1 of 50 in × 3 in; was 1 of 25 in × 3 in",
                "example 1: stitching ends: was 3 in; is gone",
                "lines: 3 new or changed, 2 gone or changed, helper files with them",
            ]
        );
        let other = BEFORE.replace("round: 24 in", "round: 22 in").replace("cut: 25 in", "cut: 23 in");
        assert_eq!(
            told(BEFORE, &other)[..2],
            ["example 1 is new or has other answers", "example 1 of before is gone or has other answers"]
        );
        let other = BEFORE.replace("version: 1.0", "version: 1.1   by: a pen name").replace("CC0-1.0", "MIT");
        assert_eq!(
            told(BEFORE, &other)[..3],
            ["by: a pen name; is new", "licence: MIT; was CC0-1.0", "version: 1.1; was 1.0"]
        );
        assert_eq!(
            told(BEFORE, &BEFORE.replace("] }\n", "] }\n\n")),
            ["only blank lines or the order of lines changed"]
        );
    }
}
