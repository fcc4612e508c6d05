//! What a maker chalks and what she follows, worked by hand in the ledgers: every mark of an order with its distance, and
//! every step of its recipe in order.

use super::ledgers::{folder, ledgers, reads_all_ledgers};
use super::order::run;
use super::written::Amount;

/// A fragment of a step: the program's words and the hand's without the spaces that a narrow table puts between them.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_marks_worked_by_hand_come_out_and_no_others() {
    let workshop = folder().join("workshop");
    let (mut wrong, mut held) = (Vec::new(), 0);
    for ledger in ledgers() {
        let files = run(&ledger.recipe, &ledger.inputs(&["given"]), &workshop).unwrap();
        let mut left: Vec<(String, Amount)> = files["marks"]
            .rows
            .iter()
            .map(|row| {
                let place = ["piece", "mark", "from"].map(|heading| row.text(heading).to_owned()).join(" | ");
                (place, row.amount("distance").unwrap())
            })
            .collect();
        for line in ledger.lines("Marks") {
            let place = ["piece", "mark", "from"].map(|heading| line.text(heading).to_owned()).join(" | ");
            let distance = line.amount("distance").unwrap();
            held += 1;
            match left.iter().position(|(other, found)| *other == place && found.agrees_with(distance)) {
                Some(at) => {
                    left.remove(at);
                }
                None => wrong.push(format!("{}: by hand {place}: {distance:?}", ledger.name)),
            }
        }
        wrong.extend(left.iter().map(|(place, found)| format!("{}: the program has {place}: {found:?}", ledger.name)));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(held > 150 || !reads_all_ledgers(), "{held}");
}

#[test]
fn the_steps_written_by_hand_are_said_in_their_order() {
    let workshop = folder().join("workshop");
    let (mut wrong, mut held) = (Vec::new(), 0);
    for ledger in ledgers() {
        let files = run(&ledger.recipe, &ledger.inputs(&["given"]), &workshop).unwrap();
        let said: Vec<String> = files["steps"].rows.iter().map(|row| words(row.text("what to do"))).collect();
        let mut rest = said.as_slice();
        for line in ledger.lines("Steps") {
            let says = words(line.text("says"));
            held += 1;
            match rest.iter().position(|step| step.contains(&says)) {
                Some(at) => rest = &rest[at + 1..],
                None => wrong.push(format!("{}: “{says}” is not said after the step before it", ledger.name)),
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(held > 300 || !reads_all_ledgers(), "{held}");
}
