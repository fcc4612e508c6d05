//! Words that a maker asks help for and that are neither a verb, a function nor a word of the trade: what the program has
//! for them, and what to type.
//!
//! Never here: explanations of trade words, which come from the glossary.

use crate::textile::glossary;

/// What help says of some words.
#[derive(Clone, Copy, Debug)]
pub(super) struct HelpWord {
    /// The word, and others for the same thing.
    pub(super) words: &'static [&'static str],
    /// The answer; `$` stands for the workshop's currency.
    pub(super) lines: &'static [&'static str],
}

const fn word(words: &'static [&'static str], lines: &'static [&'static str]) -> HelpWord {
    HelpWord { words, lines }
}

/// The words, grouped as they are met: the order, its answers, the workshop, what comes out, the page.
pub(super) const WORDS: &[HelpWord] = &[
    word(
        &["order"],
        &[
            "what a customer asks for, reckoned by a recipe: recipes lists them",
            "run gathered_skirt as first     asks what it needs, one question at a time",
            "run gathered_skirt as first order=33 for=Juno due='Fri 4 Dec'",
            "show first     its first screen;  all first  everything;  sheet first  to cut and sew from",
        ],
    ),
    word(
        &["recipe"],
        &["how one kind of thing is cut and sewn; recipes lists them, describe NAME tells what one asks"],
    ),
    word(
        &["ticket"],
        &["what an order comes to: pieces, goods, steps, cost and price; show first.price, show first.cut_list"],
    ),
    word(&["customer", "name", "for"], &["an answer of every order, for the sheet and the pictures: for=Juno"]),
    word(
        &["due", "day", "date"],
        &["an answer of every order, in your own words: due='Fri 4 Dec'; days are not used in sums yet"],
    ),
    word(&["age", "child"], &["an answer of every order: age='5 years'; it settles cautions and labels"]),
    word(&["use", "used for"], &["an answer of every order: use='dance class'; cautions and labels go by it"]),
    word(&["pieces", "garments", "how many"], &["how many alike an order makes, an answer of every order: pieces=10"]),
    word(
        &["washing", "wash", "washed first", "cut longer", "as it comes"],
        &[
            "how cloth is cut that loses in the first wash: as the list of materials says, or as the order does",
            "washing='washed first'   wash, then cut: every size is that of washed cloth",
            "washing='cut longer'     cut unwashed and larger by what the wash takes",
            "washing='as it comes'    cut as it is; the label says so",
        ],
    ),
    word(
        &["shrink"],
        &["how much cloth loses in the first wash stands in materials.csv; help shrinkage for sums with it"],
    ),
    word(
        &["spare"],
        &["what becomes of width that a curtain need not have: spare='leave in' (fuller) or spare='trim off' (kept)"],
    ),
    word(&["middle"], &["how the pattern meets where a pair of curtains closes: middle=level, or middle='run on'"]),
    word(
        &["any", "cloth by phone"],
        &[
            "cloth that is not in your list, by its width and price: cloth=any 45 in at $6/yd; elastic=any without a price",
        ],
    ),
    word(
        &["size", "measures"],
        &["a row of sizes.csv fills every body measure an order asks: size=Juno; a typed answer counts first"],
    ),
    word(
        &["waist", "hips", "body"],
        &["round the body with the tape snug; the recipe adds the ease. Name it once: waist = 56 cm, then waist=waist"],
    ),
    word(
        &["set-up", "settings"],
        &["a workshop is a folder of small tables: own workshop asks for yours, help files tells which they are"],
    ),
    word(
        &["files", "folder", "csv"],
        &[
            "materials.csv  what you buy, its width and price      stock.csv  what lies on the shelf",
            "trials.csv     how your machine gathers               rates.csv  minutes, wage, mark-up",
            "sizes.csv      customers and standard sizes           settings.csv  tape, currency, price endings",
            "read FILE.csv as NAME reads any table; write first to FOLDER leaves an order's tables there",
        ],
    ),
    word(
        &["materials", "cloth", "fabric"],
        &["what you cut and buy stands in materials.csv of the workshop's folder, a line each"],
    ),
    word(
        &["stock", "shelf", "remnants", "leftovers"],
        &[
            "what lies on the shelf stands in stock.csv of the workshop's folder, a line for each length",
            "an order takes from there first, the shortest length that serves; show first.leftovers for what stays",
        ],
    ),
    word(
        &["roll"],
        &["narrow goods on a roll, such as tulle; rolls_for counts them, stock.csv lists those on the shelf"],
    ),
    word(&["supplier", "shop"], &["not kept by the program yet; what to buy: show first.buy_list"]),
    word(
        &["hook", "button", "ring", "buckram"],
        &["a recipe that needs them asks for one of materials.csv, or any; how many: show first.buy_list"],
    ),
    word(
        &["buy", "shopping", "to buy"],
        &["show first.buy_list: what comes from the shelf, what must be bought, and what it costs"],
    ),
    word(
        &["cost"],
        &["show first.cost: goods, labour and overhead, line by line; it never depends on what the shelf holds"],
    ),
    word(
        &["price", "quote", "how much"],
        &["first.price; show first.price_lines tells how it comes from the cost: mark-up, fee, lowest price, ending"],
    ),
    word(
        &["deposit"],
        &[
            "first.deposit, and in the row PRICE of an order; which share of the price it is, says settings.csv: deposit,40 %",
        ],
    ),
    word(&["paid"], &["who has paid what is not kept by the program yet; first.deposit is what is asked for first"]),
    word(
        &["wage", "labour", "rate", "overhead"],
        &[
            "your hour, and the minutes of each kind of work, stand in rates.csv of the workshop's folder",
            "add rate sew a seam, 1.6 min/yd puts in your own; those without a row may be built-in ones, and are marked",
            "wage and overhead are values in sums; vary wage over $18/h, $24/h, show first.price tries others",
        ],
    ),
    word(
        &["fee", "commission"],
        &["the share of the price that a marketplace keeps, in rates.csv; the price is raised so that it is covered"],
    ),
    word(
        &["minutes", "time", "hours"],
        &["show first.minutes: every piece of work with its set-up and minutes, from rates.csv"],
    ),
    word(&["needle", "pins"], &["show first.cautions: what to count and check before a thing is handed over"]),
    word(
        &["caution", "safety", "fire"],
        &["show first.cautions; they are the usual ones, and local law and tests decide"],
    ),
    word(
        &["label", "care"],
        &["show first.labels: fibre, care, size and what the maker fills in; look up the local rules"],
    ),
    word(&["sew", "steps", "instructions"], &["show first.steps, or sheet first, page 2: what to do, in order"]),
    word(
        &["picture", "drawing", "print"],
        &["write first to pieces.svg, or lays.svg; write first to sheet.txt is a sheet to print"],
    ),
    word(&["what if", "compare sizes"], &["vary waist from 20 in to 24 in by 1/2 in, show first.price"]),
    word(
        &["fraction", "inch", "inches"],
        &["type 14 3/8 in, 14⅜ in or 14 3/8\"; a result is shown at the nearest mark, ≈ if it was rounded"],
    ),
    word(
        &["cm", "metric", "metre", "yard"],
        &["type a unit with each figure: 35 cm, 1.5 m, 2 yd; to see another, end the line with it: waist as in"],
    ),
    word(&["money", "currency"], &["type $4.50; by the yard $4.50/yd, by the metre $4.50/m, by the hour $18/h"]),
    word(&["percent", "per cent", "share"], &["8 % of 20 in; $80 + 15 % of $80"]),
    word(
        &["round", "rounding"],
        &["counts are rounded up; lengths keep their full value: up, down and nearest round when you ask"],
    ),
    word(
        &["mistake", "wrong"],
        &["take back takes back the last line, redo does it again; waist = 60 cm gives waist another value"],
    ),
    word(&["note", "comment"], &["what follows # is a note: waist = 56 cm  # measured twice"]),
];

/// The answers on a word, looked up as the glossary does.
pub(super) fn explained(word: &str) -> impl Iterator<Item = &'static HelpWord> {
    let wanted = glossary::key(word);
    WORDS.iter().filter(move |known| known.words.iter().any(|word| glossary::key(word) == wanted))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::notebook::objects::WORDS as MEMBERS;
    use crate::notebook::verbs;
    use crate::workshop::WorkshopFile;
    use std::collections::BTreeSet;

    #[test]
    fn no_word_is_answered_twice() {
        let words: Vec<String> = WORDS.iter().flat_map(|word| word.words).map(|word| glossary::key(word)).collect();
        assert_eq!(words.iter().collect::<BTreeSet<_>>().len(), words.len());
    }

    #[test]
    fn what_is_named_is_there() {
        let text: Vec<&str> = WORDS.iter().flat_map(|word| word.lines).copied().collect();
        let text = text.join(" ");
        let parts = |sign: fn(char) -> bool| text.split(move |c: char| sign(c)).collect::<BTreeSet<_>>();
        for part in parts(|c| !(c.is_alphanumeric() || c == '_' || c == '.')) {
            let part = part.trim_end_matches('.');
            if let Some(member) = part.strip_prefix("first.") {
                assert!(MEMBERS.iter().any(|known| known.name == member), "{part}");
            }
            if part.strip_suffix(".csv").is_some_and(|name| name != "FILE") {
                assert!(WorkshopFile::named(part).is_some(), "{part}");
            }
        }
        for verb in ["run", "show", "sheet", "recipes", "describe", "read", "write", "vary", "take", "redo"] {
            assert!(verbs::named(verb).is_some() && text.contains(verb), "{verb}");
        }
    }
}
