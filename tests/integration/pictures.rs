//! Tests the pictures of twelve orders of the demo workshop as they are written: A4 pages, letters of at least 2 mm, no
//! text over another or under a line, one scale, and the same letters on pieces and lays.
//!
//! Pages are read with a parser of SVG, and texts are taken narrower than any font draws them, so that what is found is
//! a fault in every font.

use crate::sessions::{replay, transcript_folder};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use svg::node::element::path::{Command, Data};
use svg::parser::Event;

/// The order's words for `shirr run`.
const ORDERS: [&str; 12] = [
    "strips_on_band waist='14 in' strip='10 in' gathers='tulle overlapped' tulle='ivory tulle' satin='ivory satin strip' elastic='elastic 1 in' tape='hem tape'",
    "gathered_skirt waist='21 in' skirt='12 in' cloth='blue check lawn' elastic='elastic 1 in' pieces=10",
    "circle_skirt waist='53 cm' skirt='33 cm' band='3 cm' cloth='white cotton lawn'",
    "circle_skirt waist='21 in' hips='24 in' skirt='12 in' circle='half' top='elastic' cloth='ivory satin' elastic='elastic 1 in'",
    "gored_skirt waist='25 in' hips='40 in' hem_round='81 in' gores=5 opening='7 in' skirt='28 in' longer='1 1/2 in' cloth='ivory satin'",
    "puff_sleeve head='30 cm' arm='22 cm' sleeve='6 cm' cap='10 cm' puff=1.6 end='cuff' cloth='white cotton lawn' cuff_cloth='white cotton lawn'",
    "bishop_sleeve arm='26 cm' wrist='16 cm' sleeve='42 cm' cap='14 cm' fullness=2 cloth='white cotton lawn'",
    "curtains track='180 cm' drop='220 cm' face='garden face cloth' lining='curtain lining' tape='heading tape'",
    "bunting flags=12 wide='6 in' high='8 in' kind='lined' cloth='white cotton lawn' tape='hem tape'",
    "round_cloth table='60 in' hang='10 in' edge='gathered flounce' flounce='6 in' cloth='curtain lining'",
    "tiered_skirt waist='21 in' extra='6 in' first=2 fullness='[2, 2]' skirt='15 in' cloth='white cotton lawn' elastic='elastic 1 in'",
    "strips_knotted waist='52 cm' skirt='30 cm' counted=15 tried='10 cm' strip_width='6 in' tulle='wide ivory tulle' elastic='elastic 1 in'",
];

/// Left, top, right, bottom, in millimetres.
type Frame = [f64; 4];
type Point = (f64, f64);

struct Text {
    words: String,
    size: f64,
    bold: bool,
    frame: Frame,
}

struct Page {
    texts: Vec<Text>,
    strokes: Vec<(Point, Point)>,
}

/// Reads a page; a text is taken as wide as half its size for each character.
fn page(written: &str) -> Page {
    let mut page = Page { texts: Vec::new(), strokes: Vec::new() };
    let mut open: Option<(Text, Point, bool, String)> = None;
    let mut sized = false;
    for event in svg::read(written).unwrap() {
        match event {
            Event::Tag("svg", _, attributes) if attributes.contains_key("width") => {
                assert_eq!((&*attributes["width"], &*attributes["height"]), ("210mm", "297mm"));
                assert_eq!(&*attributes["viewBox"], "0 0 210 297");
                sized = true;
            }
            Event::Tag("text", _, attributes) if attributes.contains_key("x") => {
                let number = |name: &str| attributes[name].parse::<f64>().unwrap();
                let text = Text {
                    words: String::new(),
                    size: number("font-size"),
                    bold: attributes.contains_key("font-weight"),
                    frame: [0.0; 4],
                };
                let upright = attributes.contains_key("transform");
                open = Some((text, (number("x"), number("y")), upright, attributes["text-anchor"].to_string()));
            }
            Event::Text(words) => {
                let Some((mut text, (x, y), upright, anchor)) = open.take() else { continue };
                words.trim().clone_into(&mut text.words);
                let long = text.words.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&").chars().count();
                let wide = f64::from(u32::try_from(long).unwrap()) * text.size * 0.5;
                let start = match anchor.as_str() {
                    "start" => 0.0,
                    "middle" => -wide / 2.0,
                    _ => -wide,
                };
                // Capitals stand on the base line and are 0.7 of the size high.
                text.frame = if upright {
                    let middle = y - text.size * 0.27;
                    [x - 0.4 * text.size, middle - wide / 2.0, x + 0.25 * text.size, middle + wide / 2.0]
                } else {
                    [x + start, y - 0.7 * text.size, x + start + wide, y]
                };
                page.texts.push(text);
            }
            Event::Tag("path", _, attributes) if attributes.contains_key("stroke") => {
                // The hatches of the definitions are no lines of the page.
                if attributes.get("stroke").is_some_and(|stroke| **stroke == *"#8a8a8a") {
                    continue;
                }
                let mut at = (0.0, 0.0);
                for command in Data::parse(&attributes["d"]).unwrap().iter() {
                    match command {
                        Command::Move(_, to) => at = (f64::from(to[0]), f64::from(to[1])),
                        Command::Line(_, to) => {
                            for to in to.chunks(2) {
                                let to = (f64::from(to[0]), f64::from(to[1]));
                                page.strokes.push((at, to));
                                at = to;
                            }
                        }
                        other => panic!("{other:?}"),
                    }
                }
            }
            _ => {}
        }
    }
    assert!(sized && !page.texts.is_empty());
    page
}

/// Whether a straight line has any part in a frame: both ends of it on one side of an edge are outside.
fn is_crossed([left, top, right, bottom]: Frame, (from, to): (Point, Point)) -> bool {
    let beside =
        [from.0.max(to.0) <= left, from.0.min(to.0) >= right, from.1.max(to.1) <= top, from.1.min(to.1) >= bottom];
    if beside.contains(&true) {
        return false;
    }
    let side = |(x, y): Point| (to.0 - from.0) * (y - from.1) - (to.1 - from.1) * (x - from.0);
    let sides = [(left, top), (right, top), (right, bottom), (left, bottom)].map(side);
    sides.iter().any(|side| *side > 0.0) && sides.iter().any(|side| *side < 0.0)
}

fn assert_readable(name: &str, page: &Page) {
    for (place, text) in page.texts.iter().enumerate() {
        let [left, top, right, bottom] = text.frame;
        // Capitals and figures are 0.716 of the size or more in usual fonts (font metrics, from memory).
        assert!(text.size * 0.716 >= 2.0, "{name}: {} is lower than 2 mm", text.words);
        assert!(left > 4.0 && top > 4.0 && right < 206.0 && bottom < 293.0, "{name}: {} leaves the page", text.words);
        for other in &page.texts[place + 1..] {
            let [from, high, to, low] = other.frame;
            let apart = right <= from || to <= left || bottom <= high || low <= top;
            assert!(apart, "{name}: {} is over {}", text.words, other.words);
        }
        let struck = page.strokes.iter().find(|stroke| is_crossed(text.frame, **stroke));
        assert!(struck.is_none(), "{name}: {} is struck through by {struck:?}", text.words);
    }
}

fn pages(folder: &Path, kind: &str) -> BTreeMap<String, Page> {
    let files = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let drawn = files.filter(|path| path.extension().is_some_and(|end| end == "svg"));
    let named = drawn.map(|path| (path.file_name().unwrap().to_string_lossy().into_owned(), path));
    let pictures = named.filter(|(name, _)| name.starts_with(kind));
    pictures.map(|(name, path)| (name, page(&fs::read_to_string(path).unwrap()))).collect()
}

/// A letter as a number: A is 1, Z 26, AA 27.
fn number_of(letter: &str) -> u32 {
    letter.bytes().fold(0, |number, sign| number * 26 + u32::from(sign - b'A') + 1)
}

/// The letters in a text of letters alone, a run such as `B to F` with all it stands for; `None` in any other text.
fn letters_in(words: &str) -> Option<Vec<u32>> {
    let mut found = Vec::new();
    let is_letter = |part: &str| !part.is_empty() && part.len() < 3 && part.chars().all(|c| c.is_ascii_uppercase());
    for part in words.split(" + ") {
        let ends: Vec<&str> = part.split(" to ").collect();
        match ends.as_slice() {
            [one] if is_letter(one) => found.push(number_of(one)),
            [first, last] if is_letter(first) && is_letter(last) => found.extend(number_of(first)..=number_of(last)),
            _ => return None,
        }
    }
    Some(found)
}

/// What the pages say of each letter: of a picture of pieces the name beside it and the count below; of a lay the name
/// and the count in the legend, where one letter may have several lines.
fn told(pages: &BTreeMap<String, Page>, is_lay: bool) -> BTreeMap<u32, (String, u32)> {
    let texts: Vec<&Text> = pages.values().flat_map(|page| &page.texts).collect();
    let mut found: BTreeMap<u32, (String, u32)> = BTreeMap::new();
    for (at, text) in texts.iter().enumerate().filter(|(_, text)| text.bold) {
        let (Some(letters), Some(next)) = (letters_in(&text.words), texts.get(at + 1)) else { continue };
        if is_lay {
            let Some((count, rest)) = next.words.split_once(" × ") else { continue };
            let Ok(count) = count.parse::<u32>() else { continue };
            let name = rest.split(", ").next().unwrap().to_owned();
            found.entry(letters[0]).or_insert((name, 0)).1 += count;
            continue;
        }
        let name: Vec<&str> = texts[at + 1..].iter().take_while(|text| text.bold).map(|text| &*text.words).collect();
        let Some(cut) = texts.get(at + 1 + name.len()).and_then(|text| text.words.strip_prefix("cut ")) else {
            continue;
        };
        let count = cut.split(',').next().unwrap().parse::<u32>().unwrap();
        // The count is that of all letters of a piece, and stands with the first.
        for (place, letter) in letters.into_iter().enumerate() {
            found.insert(letter, (name.join(" "), if place == 0 { count } else { 0 }));
        }
    }
    found
}

#[test]
fn pictures_of_twelve_orders_can_be_read_and_their_letters_agree() {
    for order in ORDERS {
        let here = transcript_folder("pictures");
        let shown = replay(&format!("$ shirr run {order} --workshop demo --csv out\n"), here.path());
        assert!(!shown.contains("[exit"), "{shown}");
        let (pieces, lays) = (pages(&here.path().join("out"), "pieces"), pages(&here.path().join("out"), "lays"));
        assert!(!pieces.is_empty() && !lays.is_empty(), "{order}");
        for (name, page) in pieces.iter().chain(&lays) {
            assert_readable(&format!("{order}: {name}"), page);
        }
        for picture in [&pieces, &lays] {
            let scales: BTreeSet<&str> = picture
                .values()
                .flat_map(|page| &page.texts)
                .filter_map(|text| text.words.strip_prefix("scale 1 : "))
                .collect();
            assert_eq!(scales.len(), 1, "{order}: {scales:?}");
        }
        // The size in words is that of the dimension lines.
        for page in pieces.values() {
            for said in page.texts.iter().filter_map(|text| text.words.strip_suffix(" across at most")) {
                for size in said.split(" along, ") {
                    let bare = size.trim_end_matches(|c: char| c.is_alphabetic()).trim_end();
                    assert!(page.texts.iter().any(|text| text.words == bare), "{order}: {size} is not beside a line");
                }
            }
        }
        let (of_pieces, of_lays) = (told(&pieces, false), told(&lays, true));
        assert!(!of_pieces.is_empty() && of_pieces.keys().eq(of_lays.keys()), "{order}: {of_pieces:?} {of_lays:?}");
        let mut counts: BTreeMap<&str, (u32, u32)> = BTreeMap::new();
        for (letter, (name, count)) in &of_lays {
            let (piece, cut) = &of_pieces[letter];
            assert_eq!(name, piece, "{order}: letter {letter}");
            let sums = counts.entry(name).or_default();
            *sums = (sums.0 + count, sums.1 + cut);
        }
        assert!(counts.values().all(|(laid, cut)| laid == cut), "{order}: {counts:?}");
    }
}
