//! What a refused order is told to give instead serves when it is typed back: on both tapes, whatever is washed.

use super::strips::Draws;
use shirr::engine::limits::StopFlag;
use shirr::recipe::run::answer_in;
use shirr::recipe::{Reply, Task, library};
use shirr::report::excerpt;
use shirr::workshop::Workshop;

type Answers = Vec<(String, String)>;

fn answers(order: &str) -> Answers {
    let pairs = order.split("; ").map(|pair| pair.split_once('=').unwrap());
    pairs.map(|(name, value)| (name.to_owned(), value.to_owned())).collect()
}

fn reply(recipe: &str, shop: &Workshop, answers: &Answers) -> Reply {
    answer_in(&library::shipped(recipe).unwrap(), shop, false, &Task::run(answers.clone()), StopFlag::default())
}

/// A workshop on a tape, with cloth that loses in the wash.
fn shop(tape: &str) -> Workshop {
    let settings = format!("setting,value\ntape,{tape}\n");
    let materials = "material,kind,usable width,shrink along,shrink across,washing\n\
                     lawn,cloth,45 in,4 %,2 %,washed first\n";
    Workshop::read(&[("settings.csv", settings.as_str()), ("materials.csv", materials)]).unwrap()
}

/// How advice is worded: what stands before and after the answer, and the input that it is for.
const ADVICE: [(&str, &str, &str); 7] = [
    ("a fullness of ", " would do", "fullness"),
    ("an opening of ", " would do", "opening"),
    ("an extra of ", " would do", "extra"),
    ("", " over the waist would do", "over"),
    ("elastic shorter by ", " would do", "shorter"),
    ("a top of ", " would do", "top"),
    ("strips cut ", " wide would do", "strip_width"),
];

/// The input and the answer that a refusal advises; `None` where it advises none.
fn advised(text: &str) -> Option<(&'static str, String)> {
    let line = text.lines().find(|line| line.ends_with("would do"))?.trim();
    let found = ADVICE.iter().find_map(|(before, after, input)| {
        let answer = line.strip_prefix(before)?.strip_suffix(after)?;
        Some((*input, answer.to_owned()))
    });
    Some(found.unwrap_or_else(|| panic!("advice that no test follows: {line}")))
}

fn set(answers: &mut Answers, input: &str, value: &str) {
    answers.retain(|(name, _)| name != input);
    answers.push((input.to_owned(), value.to_owned()));
}

/// Own arithmetic, with what is usual: 41.3 over 24 are 1.7208; a band of 24 1/2 that opens 6.8 below 1 in gives 40.1,
/// one of 61 cm that opens 8.65 below 2 gives 82.3; 60 in of hips want 16 3/4, more than 12 are never open; a band of 21
/// and 10 less two turnings of 1 in closes to 29, 2 short of 31; a tier of 24 wants 6.1 in for 30.1; buckram of 10 cm is
/// 3.94 in; elastic of 40 cm would be 130 at 3 1/4 times its length, one of 50 at 2.6.
#[test]
fn advice_is_rounded_to_what_serves_on_the_tape_of_the_order() {
    let inch = shop("inch");
    let gathered = "gathered_skirt";
    let rolls = "tulle=any_roll(6 in, 25 yd); satin=any_roll(6 in, 10 yd); elastic=any";
    for (recipe, order, input, answer) in [
        (gathered, "waist=24 in; hips=41.3 in; fullness=1.5; cloth=lawn; elastic=any", "fullness", "1.73"),
        (gathered, "waist=24 in; hips=40.1 in; top=band; cloth=lawn", "opening", "6 7/8 in"),
        (
            "gored_skirt",
            "waist=60 cm; hips=82.3 cm; opening=7.7 cm; hem_round=120 cm; ease=1 cm; band=2 cm; cloth=lawn",
            "opening",
            "8.7 cm",
        ),
        ("strips_on_band", &format!("waist=21 in; hips=31 in; strip=12 in; gathers=[6, 5]; {rolls}"), "over", "12 in"),
        ("tiered_skirt", "waist=24 in; hips=30.1 in; first=1; cloth=lawn; elastic=any", "extra", "6 1/8 in"),
        ("pinch_curtains", "track=72 in; drop=84 in; top=3 in; face=lawn; buckram=any", "top", "4 in"),
        ("strips_knotted", "waist=21 in; counted=12; tried=4 in; tulle=lawn; elastic=any", "strip_width", "6 in"),
        ("strips_knotted", "waist=53 cm; counted=12; tried=9 cm; tulle=lawn; elastic=any", "strip_width", "15 cm"),
        (gathered, "waist=50 cm; hips=130 cm; shorter=20 %; fullness=3; cloth=lawn; elastic=any", "shorter", "0 %"),
        (gathered, "waist=24 in; hips=60 in; top=band; fullness=3; cloth=lawn", "", "no opening of this skirt does"),
        (gathered, "waist=12 in; hips=70 in; cloth=lawn; elastic=any", "", "no fullness of this skirt does"),
    ] {
        let skirt = if order.contains("cm") { "50 cm" } else { "20 in" };
        let mut given = answers(order);
        if recipe.contains("skirt") || recipe == "strips_knotted" {
            set(&mut given, "skirt", skirt);
        }
        let Reply::Refused(refusals) = reply(recipe, &inch, &given) else { panic!("{recipe} {order}: not refused") };
        let text = excerpt::texts(&refusals);
        match advised(&text) {
            Some(found) => assert_eq!(found, (input, answer.to_owned()), "{recipe} {order}"),
            None => assert!(input.is_empty() && text.contains(answer), "{recipe} {order}\n{text}"),
        }
    }
}

/// Draws a size between two of whole inches, on one of the tapes.
fn drawn(draws: &mut Draws, least: i64, most: i64, metric: bool) -> String {
    if metric {
        let millimetres = draws.between(least * 26, most * 25);
        format!("{}.{} cm", millimetres / 10, millimetres % 10)
    } else {
        format!("{} {}/8 in", draws.between(least, most - 1), draws.between(1, 7))
    }
}

/// An input with the least and the most it is drawn, in whole inches.
type Drawn = (&'static str, i64, i64);

/// Orders that are turned away for what may be advised.
const ORDERS: [(&str, &str, &[Drawn]); 9] = [
    (
        "gathered_skirt",
        "elastic=any; shorter=20 %; cloth=lawn",
        &[("waist", 12, 40), ("hips", 20, 78), ("skirt", 10, 40)],
    ),
    (
        "gathered_skirt",
        "top=band; cloth=lawn; fullness=3",
        &[("waist", 14, 40), ("hips", 20, 78), ("skirt", 8, 20), ("opening", 3, 7)],
    ),
    (
        "circle_skirt",
        "circle=half; cloth=lawn",
        &[("waist", 14, 40), ("hips", 20, 78), ("skirt", 8, 20), ("opening", 3, 6)],
    ),
    (
        "circle_skirt",
        "circle=half; top=elastic; elastic=any; shorter=25 %; cloth=lawn",
        &[("waist", 12, 40), ("hips", 20, 78), ("skirt", 8, 20)],
    ),
    (
        "gored_skirt",
        "cloth=lawn; gores=8",
        &[("waist", 14, 40), ("hips", 20, 60), ("skirt", 12, 20), ("opening", 3, 6), ("hem_round", 80, 110)],
    ),
    (
        "pleated_skirt",
        "pleats=8; cloth=lawn",
        &[("waist", 14, 40), ("hips", 20, 60), ("skirt", 12, 20), ("opening", 3, 6), ("depth", 1, 2)],
    ),
    (
        "tiered_skirt",
        "first=1.2; elastic=any; cloth=lawn; shorter=15 %",
        &[("waist", 12, 40), ("hips", 20, 78), ("skirt", 12, 40)],
    ),
    (
        "strips_on_band",
        "gathers=3; tulle=lawn; satin=lawn; elastic=any; shorter=15 %",
        &[("waist", 10, 40), ("hips", 20, 78), ("strip", 5, 30)],
    ),
    (
        "pinch_curtains",
        "face=lawn; buckram=any",
        &[("track", 40, 100), ("drop", 40, 100), ("buckram_depth", 3, 9), ("top", 2, 8)],
    ),
];

#[test]
fn advice_typed_back_is_taken() {
    let mut draws = Draws::of(41);
    let shops = ["inch", "metric"].map(shop);
    let mut followed = [0; 2];
    for (recipe, rest, sizes) in ORDERS {
        for washing in ["washed first", "cut longer", "as it comes"] {
            for nth in 0..24 {
                let metric = nth % 2 == 1;
                let mut given = answers(rest);
                set(&mut given, "washing", washing);
                for (name, least, most) in sizes {
                    let size = drawn(&mut draws, *least, *most, metric);
                    set(&mut given, name, &size);
                }
                // One piece of advice may lead to the next; an answer once given on advice is not turned away again.
                let mut advice: Vec<&str> = Vec::new();
                while let Reply::Refused(refusals) = reply(recipe, &shops[nth / 2 % 2], &given) {
                    let text = excerpt::texts(&refusals);
                    for refused in refusals.iter().filter_map(|refusal| refusal.input()) {
                        assert!(!advice.contains(&refused), "{recipe} {given:?}\n{text}");
                    }
                    let Some((input, answer)) = advised(&text) else { break };
                    if answer.contains(|letter: char| letter.is_alphabetic()) {
                        assert!(answer.ends_with(if metric { " cm" } else { " in" }), "{recipe} {given:?}\n{text}");
                    }
                    advice.extend(
                        refusals
                            .iter()
                            .filter_map(|refusal| ADVICE.iter().find(|row| Some(row.2) == refusal.input()))
                            .map(|row| row.2),
                    );
                    advice.push(input);
                    set(&mut given, input, &answer);
                }
                followed[usize::from(metric)] += advice.len();
            }
        }
    }
    assert!(followed.iter().all(|times| *times > 100), "{followed:?}");
}
