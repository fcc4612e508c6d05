//! Orders that must agree, for every recipe: three garments and three times one, a larger size and the cloth it takes,
//! an inch tape and a metric one. The orders are those of the ledgers.

use super::ledger::Ledger;
use super::ledgers::{folder, ledgers, reads_all_ledgers};
use super::order::{Ran, Row, Sheet, bill_lines, run};
use super::written::{Amount, Kind};
use std::collections::{BTreeMap, BTreeSet};

type Files = BTreeMap<String, Sheet>;
type Named = Vec<(String, Option<Amount>)>;

pub(super) fn with(given: &[(String, String)], name: &str, value: &str) -> Vec<(String, String)> {
    let rest = given.iter().filter(|(known, _)| known != name).cloned();
    rest.chain([(name.to_owned(), value.to_owned())]).collect()
}

fn ran(ledger: &Ledger, given: &[(String, String)]) -> Ran {
    run(&ledger.recipe, given, &folder().join("workshop"))
}

/// Whether it occurs once in an order, whatever the number of garments: common practice, no source.
fn is_once(ledger: &Ledger, label: &str) -> bool {
    let threading = label == "thread up for gathering";
    // The corners of slanting strips are lost once, one tube is sewn for all, and a halved drop serves two garments.
    let of_the_block = ["cloth for strips", "the two seams of the tube", "sew a seam", "cut a piece"];
    let strips = ledger.recipe == "bias_binding" && of_the_block.contains(&label);
    let halves = ["face drop", "lining drop", "cut a piece"].contains(&label) && has_halves(ledger);
    threading || strips || halves
}

/// Whether the order is a single curtain that may have a half width.
fn has_halves(ledger: &Ledger) -> bool {
    let answer = |name: &str, value: &str| {
        ledger.lines("Order").iter().any(|line| line.text("input") == name && line.text("value").contains(value))
    };
    let may = answer("joins", "half widths") || ledger.recipe == "cafe_curtain";
    may && !answer("curtains", "2")
}

/// One amount of each row of a table, with the text under `heading` as its name.
fn amounts(files: &Files, table: &str, heading: &str, amount: impl Fn(&Row) -> Option<Amount>) -> Named {
    files[table].rows.iter().map(|row| (row.text(heading).to_owned(), amount(row))).collect()
}

/// Asserts that the amounts for one, two and three garments are proportional. What occurs once in an order may grow
/// less than that, but must not shrink.
fn grow(ledger: &Ledger, label: &str, [one, two, three]: [Named; 3]) {
    assert!(one.len() == two.len() && two.len() == three.len(), "{}: rows of {label}", ledger.name);
    for (((name, one), (_, two)), (_, three)) in one.into_iter().zip(two).zip(three) {
        let (Some(one), Some(two), Some(three)) = (one, two, three) else {
            assert!(one.is_none() && two.is_none() && three.is_none(), "{}: {label} of {name}", ledger.name);
            continue;
        };
        let times = |n: f64, more: Amount| (more.value - n * one.value).abs() <= n * one.slack + more.slack + 1e-9;
        let as_many = times(2.0, two) && times(3.0, three);
        if is_once(ledger, &name) {
            let at_most = |n: f64, more: Amount| more.value <= n * (one.value + one.slack) + more.slack + 1e-6;
            let never_more = at_most(2.0, two) && at_most(3.0, three);
            assert!(
                one.value <= two.value && two.value <= three.value && never_more,
                "{}: {label} of {name}",
                ledger.name
            );
        } else {
            assert!(as_many, "{}: {label} of {name}: {one:?}, {two:?}, {three:?}", ledger.name);
        }
    }
}

#[test]
fn several_garments_are_as_many_times_what_is_not_once_in_an_order() {
    for ledger in ledgers() {
        let given = ledger.inputs(&["given"]);
        let runs = ["1", "2", "3"].map(|pieces| ran(&ledger, &with(&given, "pieces", pieces)).unwrap());
        let each = |get: &dyn Fn(&Files) -> Named| [get(&runs[0]), get(&runs[1]), get(&runs[2])];
        let count = |row: &Row| Amount::read(row.text("count"));
        grow(&ledger, "count", each(&|files| amounts(files, "cut_list", "piece", count)));
        let sewn = |row: &Row| row.amount("length");
        grow(&ledger, "stitching", each(&|files| amounts(files, "stitching", "why", sewn)));
        let worked = |row: &Row| row.amount_beside("amount", "unit");
        grow(&ledger, "work", each(&|files| amounts(files, "minutes", "operation", worked)));
        let running = |row: &Row| {
            let (minutes, set_up) = (row.amount("minutes")?, row.amount("set-up")?);
            Some(Amount { value: minutes.value - set_up.value, slack: minutes.slack + set_up.slack, ..minutes })
        };
        grow(&ledger, "minutes", each(&|files| amounts(files, "minutes", "operation", running)));
        // A set-up occurs once in an order, in the first row of its operation.
        let set_ups = each(&|files| amounts(files, "minutes", "operation", |row| row.amount("set-up")));
        let described = |set_ups: &Named| {
            format!(
                "{:?}",
                set_ups
                    .iter()
                    .map(|(name, set_up)| (name.clone(), set_up.map(|set_up| set_up.value)))
                    .collect::<Vec<_>>()
            )
        };
        assert_eq!(described(&set_ups[0]), described(&set_ups[1]), "{}", ledger.name);
        assert_eq!(described(&set_ups[0]), described(&set_ups[2]), "{}", ledger.name);
        let mut seen = BTreeSet::new();
        for (operation, set_up) in &set_ups[0] {
            let first = seen.insert(operation.clone());
            assert!(first || set_up.is_none_or(Amount::is_zero), "{}: {operation} is set up twice", ledger.name);
        }
        let line = |files: &Files, line: &str| {
            let found = bill_lines(files).into_iter().find(|(name, _)| name == line);
            found.and_then(|(_, money)| money).map(|money| money.value)
        };
        for (n, files) in [(2.0, &runs[1]), (3.0, &runs[2])] {
            let (price, each) = (line(files, "price").unwrap(), line(files, "price for one garment").unwrap());
            assert!((each - price / n).abs() <= 0.005 + 1e-9, "{}: {each} of {price}", ledger.name);
            let (cost, alone) = (line(files, "cost").unwrap(), line(&runs[0], "cost").unwrap());
            assert!(cost <= n * alone + 0.05, "{}: {cost} for {n} of {alone}", ledger.name);
        }
        assert!(line(&runs[0], "price for one garment").is_none());
    }
}

/// Layers of strips on a band: the gathered strips are sewn and worked for each layer, the band and its elastic once.
#[test]
fn two_layers_are_twice_the_strips_the_gathering_and_its_thread() {
    let of_the_band = [
        "overlocking the basted edge",
        "closing the band over the elastic",
        "end turnings of the band",
        "elastic to itself, both ends of the lap",
    ];
    let of_a_layer =
        ["cut strips across a roll", "overlap and gather", "gather second pass", "baste gathers to a band"];
    for ledger in ledgers().iter().filter(|ledger| ledger.recipe == "strips_on_band") {
        let given = ledger.inputs(&["given"]);
        let [one, two] = ["1", "2"].map(|layers| ran(ledger, &with(&given, "layers", layers)).unwrap());
        let factor = |name: &str, one: Option<Amount>, two: Option<Amount>, wanted: f64| {
            let (one, two) = (one.unwrap(), two.unwrap());
            let same = (two.value - wanted * one.value).abs() <= 3.0 * (one.slack + two.slack) + 1e-9;
            assert!(same, "{}: {name}: {one:?} in one layer, {two:?} in two", ledger.name);
        };
        for (one, two) in one["cut_list"].rows.iter().zip(&two["cut_list"].rows) {
            let wanted = if one.text("piece") == "strip" { 2.0 } else { 1.0 };
            factor(one.text("piece"), Amount::read(one.text("count")), Amount::read(two.text("count")), wanted);
        }
        for (one, two) in one["stitching"].rows.iter().zip(&two["stitching"].rows) {
            let wanted = if of_the_band.contains(&one.text("why")) { 1.0 } else { 2.0 };
            factor(one.text("why"), one.amount("length"), two.amount("length"), wanted);
            factor(one.text("why"), one.amount("thread"), two.amount("thread"), wanted);
        }
        for (one, two) in one["minutes"].rows.iter().zip(&two["minutes"].rows) {
            let wanted = if of_a_layer.contains(&one.text("operation")) { 2.0 } else { 1.0 };
            let amount = |row: &Row| row.amount_beside("amount", "unit");
            factor(one.text("operation"), amount(one), amount(two), wanted);
        }
    }
}

/// Inputs that enlarge a garment: more of one never takes less cloth. Pleat widths, allowances and laps are not sizes.
pub(super) const SIZES: [(&str, &[&str]); 25] = [
    ("bed_valance", &["long", "wide", "drop"]),
    ("bell_sleeve", &["arm", "sleeve"]),
    ("bias_binding", &["edge"]),
    ("bishop_sleeve", &["sleeve", "arm"]),
    // A wider flag of the same height is blunter, and its seams lengthen it less.
    ("bunting", &["flags", "high"]),
    ("cafe_curtain", &["rod", "drop"]),
    ("circle_skirt", &["waist", "skirt"]),
    ("circular_flounce", &["edge", "depth"]),
    ("curtains", &["track", "drop"]),
    ("drawstring_bag", &["wide", "high"]),
    ("gathered_skirt", &["waist", "skirt"]),
    ("gathered_trim", &["edge", "depth"]),
    ("gored_skirt", &["waist", "hips", "hem_round", "skirt"]),
    ("pencil_curtains", &["track", "drop"]),
    ("pinch_curtains", &["track", "drop"]),
    ("pleated_skirt", &["waist", "hips", "skirt"]),
    ("pleated_strip", &["edge", "deep"]),
    ("puff_sleeve", &["head", "arm", "sleeve"]),
    ("round_cloth", &["table", "hang"]),
    ("ruffled_cushion", &["wide", "high"]),
    ("sash_and_bow", &["round", "wide"]),
    ("strips_knotted", &["waist", "skirt"]),
    ("strips_on_band", &["waist", "strip"]),
    ("tiered_skirt", &["waist", "skirt"]),
    ("valance", &["front", "depth"]),
];

/// The length laid of each material, in millimetres; its width is constant.
fn laid(files: &Files) -> BTreeMap<String, f64> {
    let cut: BTreeSet<&str> = files["cut_list"].rows.iter().map(|row| row.text("material")).collect();
    let rows = files["buy_list"].rows.iter().filter(|row| cut.contains(row.text("material")));
    rows.map(|row| (row.text("material").to_owned(), row.amount_beside("needed", "needed unit").unwrap().value))
        .collect()
}

fn pieces(files: &Files) -> Vec<&str> {
    files["cut_list"].rows.iter().map(|row| row.text("count")).collect()
}

#[test]
fn a_larger_size_never_takes_less_cloth() {
    let mut compared = 0;
    let mut found = Vec::new();
    for ledger in ledgers() {
        let given = ledger.inputs(&["given"]);
        let small = ran(&ledger, &given).unwrap();
        let (_, sizes) = SIZES.iter().find(|(recipe, _)| *recipe == ledger.recipe).expect("a recipe without sizes");
        for (name, value) in given.iter().filter(|(name, _)| sizes.contains(&name.as_str())) {
            let amount = Amount::read(value).unwrap_or_else(|| panic!("{}: {name} {value}", ledger.name));
            // 1/8 in more, a tenth more, and half as much again; orders too large for a cloth are refused and skipped.
            for larger in [amount.value + 3.175, amount.value * 1.1, amount.value * 1.5] {
                let value = match amount.kind {
                    // In the unit of the original value: cut sizes go to the marks of its tape.
                    Kind::Length if value.ends_with('m') => format!("{larger:.3} mm"),
                    Kind::Length => format!("{:.4} in", larger / 25.4),
                    _ => format!("{:.0}", larger.ceil()),
                };
                let Ok(large) = ran(&ledger, &with(&given, name, &value)) else { continue };
                // A larger circle may have to be cut in more sectors, which lie closer.
                if ledger.recipe == "circle_skirt" && pieces(&large) != pieces(&small) {
                    continue;
                }
                compared += 1;
                for (material, before) in laid(&small) {
                    let now = laid(&large).get(&material).copied().unwrap_or(0.0);
                    if now < before - 1e-3 {
                        let less = format!("{name}={value} takes {now} mm of {material}, and {before} before");
                        found.push(format!("{}: {less}", ledger.name));
                    }
                }
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    assert!(!reads_all_ledgers() || compared > 150, "only {compared} orders were compared");
}

/// The tape decides how amounts are shown, and never what is cut, sewn or paid.
#[test]
fn an_inch_and_a_metric_workshop_bill_an_order_alike() {
    let metric = tempfile::tempdir().unwrap();
    for name in ["materials.csv", "rates.csv"] {
        std::fs::copy(folder().join("workshop").join(name), metric.path().join(name)).unwrap();
    }
    let settings = std::fs::read_to_string(folder().join("workshop/settings.csv")).unwrap();
    assert!(settings.contains("tape,inch\n"));
    std::fs::write(metric.path().join("settings.csv"), settings.replace("tape,inch\n", "tape,metric\n")).unwrap();
    for ledger in ledgers() {
        let given = ledger.inputs(&["given"]);
        let [inch, metric] = [folder().join("workshop"), metric.path().to_owned()]
            .map(|workshop| run(&ledger.recipe, &given, &workshop).unwrap());
        let alike = |table: &str, heading: &str, amount: &dyn Fn(&Row) -> Option<Amount>| {
            let (inch, metric) = (amounts(&inch, table, heading, amount), amounts(&metric, table, heading, amount));
            assert_eq!(inch.len(), metric.len(), "{}: {table}", ledger.name);
            for ((name, inch), (_, metric)) in inch.into_iter().zip(metric) {
                let same = inch
                    .zip(metric)
                    .map_or(inch.is_none() && metric.is_none(), |(inch, metric)| inch.agrees_with(metric));
                assert!(same, "{}: {table}, {name}: {inch:?} in inches, {metric:?} metric", ledger.name);
            }
        };
        alike("cut_list", "piece", &|row| row.amount("along"));
        alike("cut_list", "piece", &|row| row.amount("across"));
        alike("stitching", "why", &|row| row.amount("length"));
        alike("minutes", "operation", &|row| row.amount("minutes"));
        alike("buy_list", "material", &|row| row.amount_beside("to buy", "buy unit"));
        alike("cost", "line", &|row| row.money("money"));
    }
}
