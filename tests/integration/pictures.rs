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

/// The letters of a picture: bold texts of capitals alone.
fn letters<'p>(pages: impl Iterator<Item = &'p Page>) -> BTreeSet<String> {
    let bold = pages.flat_map(|page| &page.texts).filter(|text| text.bold);
    let parts = bold.flat_map(|text| text.words.split([' ', '+', '×'])).filter(|part| !part.is_empty());
    parts.filter(|part| part.len() < 3 && part.chars().all(|c| c.is_ascii_uppercase())).map(str::to_owned).collect()
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
        assert_eq!(letters(pieces.values()), letters(lays.values()), "{order}");
    }
}
