//! One line more in a file: which row it becomes, what is refused, and that the rest of the file stays as it is.

use super::*;
use crate::workshop::adding::add;
use crate::workshop::{DEMO_FILES, Workshop};

/// The demo's files, and those of a workshop that writes a decimal comma.
fn demo_texts() -> Vec<(String, String)> {
    let own = DEMO_FILES.iter().filter(|(name, _)| WorkshopFile::named(name).is_some());
    own.map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
}

fn workshop(texts: &[(String, String)]) -> Workshop {
    let texts: Vec<(&str, &str)> = texts.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    read(&texts)
}

/// The line that is new in the file, and the name of the file.
#[track_caller]
fn line(kind: &str, typed: &str, texts: &[(String, String)]) -> (String, &'static str) {
    let added = add(kind, typed, &workshop(texts), texts).unwrap_or_else(|error| panic!("{typed}: {error:?}"));
    let before = texts.iter().find(|(name, _)| name == added.file.name()).map_or("", |(_, text)| text.as_str());
    let new = added.text.strip_prefix(before).unwrap_or_else(|| panic!("{typed} changed what was there"));
    (new.trim_end().to_owned(), added.file.name())
}

#[track_caller]
fn refused(kind: &str, typed: &str) -> String {
    let texts = demo_texts();
    let error = add(kind, typed, &workshop(&texts), &texts).expect_err(typed);
    format!("{}\n  {}", error.message, error.hint.unwrap_or_default())
}

#[test]
fn a_line_becomes_a_row_of_its_file() {
    let texts = demo_texts();
    for (kind, typed, file, row) in [
        (
            "cloth",
            "white lawn, 43 1/2 in wide, $9.25/yd, washed first, loses 4 % and 2 %",
            "materials.csv",
            "white lawn,cloth,43 1/2 in,,$9.25/yd,,1/8 yd,,,,4 %,2 %,washed first,,,",
        ),
        // As a cloth by phone is told.
        (
            "cloth",
            "print, 140 cm at $14/m, repeat 32 cm half drop, repeat across 8 cm, shrinks 3, nap",
            "materials.csv",
            "print,cloth,140 cm,,$14.00/m,,0.1 m,32 cm,yes,yes,3 %,,,,,8 cm",
        ),
        ("roll", "net, 6 wide, 6.50 for 25 yd", "materials.csv", "net,roll,6 in,25 yd,$6.50,put-up,put-up,,,,,,,,,"),
        ("notion", "press stud, 0.12 each", "materials.csv", "press stud,notion,,,$0.12,each,each,,,,,,,,,"),
        (
            "thread",
            "white thread, $4.40 for 3000 yd, weighs 27 tex, fibre 100 % cotton",
            "materials.csv",
            "white thread,thread,,3000 yd,$4.40,put-up,put-up,,,,,,,27 tex,100 % cotton,",
        ),
        ("rate", "bind an edge, 1.6 min/yd, set-up 2 min", "rates.csv", "bind an edge,yd,1.6 min,2 min,"),
        ("rate", "pin, turn and press a dart, 4 min each", "rates.csv", "\"pin, turn and press a dart\",each,4 min,,"),
        ("rate", "notch a piece, 0.5 min/piece", "rates.csv", "notch a piece,piece,0.5 min,,"),
        (
            "trial",
            "lawn twice, white cotton lawn, 20 to 5 in, pass 1, lot C3, foot gathering foot, stitch 4 mm",
            "trials.csv",
            "lawn twice,,,gathering foot,,4 mm,white cotton lawn,C3,1,,,,20 in,5 in",
        ),
        // Another strip of a trial that is there.
        (
            "trial",
            "lawn once, white cotton lawn, 50 in to 28 in",
            "trials.csv",
            "lawn once,,,,,,white cotton lawn,,,,,,50 in,28 in",
        ),
        (
            "trial",
            "net lapped, ivory tulle, 10 of 6 in lapped 1/2 in to 10 in",
            "trials.csv",
            "net lapped,,,,,,ivory tulle,,,6 in,1/2 in,10,,10 in",
        ),
        (
            "remnant",
            "C1-3, white cotton lawn, 31 in by 42 1/2 in, lot C2, washed, in remnant box, paid 3, held for order 7",
            "stock.csv",
            "C1-3,white cotton lawn,C2,,31 in,42 1/2 in,yes,$3.00,remnant box,order 7",
        ),
        ("remnant", "B9, ivory tulle, 2 of 25 yd", "stock.csv", "B9,ivory tulle,,2,25 yd,,,,,"),
        ("remnant", "K9, curtain hook, 40", "stock.csv", "K9,curtain hook,,40,,,,,,"),
    ] {
        assert_eq!(line(kind, typed, &texts), (row.to_owned(), file), "{typed}");
    }
}

#[test]
fn a_file_that_is_not_there_begins_with_its_headings() {
    let none = Vec::new();
    let (text, file) = line("rate", "wage, 21", &none);
    assert_eq!((text.as_str(), file), ("operation,per,minutes,set-up,value\r\nwage,,,,$21.00/h", "rates.csv"));
    assert_eq!(line("rate", "built-in minutes, 120", &none).0.lines().last(), Some("built-in minutes,,,,120 %"));
    assert_eq!(line("rate", "minimum, 18", &none).0.lines().last(), Some("minimum,,,,$18.00"));
}

#[test]
fn a_file_keeps_its_dialect_its_remarks_and_its_line_ends() {
    let text = "# hers\nmaterial;kind;usable width (cm);price\nlawn;cloth;110,5;\n";
    let texts = vec![("materials.csv".to_owned(), text.to_owned())];
    let added = add("cloth", "linen, 140.5 cm wide", &workshop(&texts), &texts).unwrap();
    assert_eq!(added.text, format!("{text}linen;cloth;140,5 cm;\n"));
    // The last line has no end: the new one does not run on from it.
    let texts = vec![("materials.csv".to_owned(), text.trim_end().to_owned())];
    let added = add("cloth", "linen, 140.5 cm wide", &workshop(&texts), &texts).unwrap();
    assert_eq!(added.text, format!("{text}linen;cloth;140,5 cm;\n"));
    let error = add("cloth", "linen, 140 cm wide, nap", &workshop(&texts), &texts).unwrap_err();
    assert_eq!(error.message, "materials.csv has no column “nap”, which this line needs");
}

#[test]
fn a_price_that_is_missing_is_filled_in_and_one_that_is_there_stays() {
    let text = "# hers\r\nmaterial,kind,usable width,put-up,price,price for,sold by\r\nlawn,cloth,44 in,,,,\r\nnet,roll,6 in,25 yd,,,\r\n";
    let texts = vec![("materials.csv".to_owned(), text.to_owned())];
    let filled = |typed: &str| add("price", typed, &workshop(&texts), &texts).map(|added| added.text);
    assert_eq!(filled("Lawn, $8/yd").unwrap(), text.replace("44 in,,,,", "44 in,,$8.00/yd,,1/8 yd"));
    assert_eq!(filled("net, 6.50 for 25 yd").unwrap(), text.replace("25 yd,,,", "25 yd,$6.50,put-up,put-up"));
    // Not the put-up that is there.
    assert_eq!(filled("net, 6.50 for 30 yd").unwrap_err().message, "its put-up is 25 yd already");
    assert_eq!(filled("nett, $8/yd").unwrap_err().hint.as_deref(), Some("did you mean “net”?"));
    assert_eq!(
        refused("price", "white cotton lawn, $8/yd"),
        "its price is $9.25 already\n  change it in materials.csv: nothing that is there is written over"
    );
}

#[test]
fn what_is_there_or_cannot_be_is_refused() {
    let there = |file: &str, name: &str| {
        format!(
            "“{name}” is in {file} already\n  give it another name, or change that line in the file: nothing there is written over"
        )
    };
    assert_eq!(refused("cloth", "Ivory  satin, 44 in wide"), there("materials.csv", "Ivory  satin"));
    assert_eq!(refused("rate", "wage, $20/h"), there("rates.csv", "wage"));
    assert_eq!(refused("rate", "sew a seam, 2 min/yd"), there("rates.csv", "sew a seam"));
    assert_eq!(refused("remnant", "c1-1, white cotton lawn, 1 yd"), there("stock.csv", "c1-1"));
    for (kind, typed, message) in [
        ("cloth", "plain net", "a cloth is cut across its width"),
        ("cloth", "plain net, 54 in wide, blue", "“blue” is not understood"),
        ("cloth", "plain net, 54 in wide, $8", "“$8” does not say what it buys"),
        ("cloth", "plain net, 54 in wide, loses 100 %", "“100 %” is too much; it must be less than 100 %"),
        ("cloth", "", "something is missing"),
        ("notion", "tape, 1 in wide, sold by a handful", "“a handful” is not one of"),
        ("rate", "bind an edge, 2 min", "“2 min” is not understood"),
        ("rate", "bind an edge, 2 yd/yd", ""),
        ("rate", "bind an edge", "something is missing"),
        ("trial", "t, no such cloth, 20 in to 5 in", "there is no material “no such cloth” in materials.csv"),
        ("trial", "t, ivory tulle, 20 in", "“20 in” is not understood"),
        // The same trial on another cloth.
        ("trial", "lawn once, ivory tulle, 20 in to 5 in", "“ivory tulle” stands here, but “white cotton lawn”"),
        ("remnant", "Z1, no such cloth, 20 in", "there is no material “no such cloth”"),
        ("remnant", "Z1, ivory tulle, 20 in, somewhere", "“somewhere” is not understood"),
        ("remnant", "Z1, ivory tulle, 20", "is measured by the length"),
    ] {
        let said = refused(kind, typed);
        assert!(said.contains(message) && !said.ends_with("\n  "), "{kind} {typed}: {said}");
    }
}
