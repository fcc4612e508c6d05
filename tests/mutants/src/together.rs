//! All breaks in one copy of the repository, each behind a question whether it is on.

use crate::mutant::{Mutant, SWITCH, Shape};
use crate::places::Constant;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::io;
use std::ops::Range;
use std::path::Path;

/// Where a source file reads constants: their names, the whole paths, and the names in them.
type Uses = Vec<(String, Range<usize>, Range<usize>)>;

/// A source file with what was found in it.
#[derive(Debug)]
pub struct Source {
    /// From the root of the repository.
    pub file: String,
    /// Its text.
    pub text: String,
    /// Its constants.
    pub constants: Vec<Constant>,
    /// Where it reads constants.
    pub uses: Uses,
}

/// The breaks by number, counted from 1.
pub type Numbered = BTreeMap<u32, Mutant>;

/// Where the words of each break lie in the written files: file, bytes, number, and whether these are the broken words.
#[derive(Debug, Default)]
pub struct Written {
    places: BTreeMap<String, Vec<(Range<usize>, u32, bool)>>,
}

/// A piece to be written around a place of a file.
struct Piece {
    outer: Range<usize>,
    number: u32,
    shape: PieceShape,
}

enum PieceShape {
    Either { instead: String, statement: bool },
    Insertion(String),
    Constant(String),
    After(String),
}

fn switch(number: u32) -> String {
    format!("::shirr_packing::mutant::on({number})")
}

impl Written {
    /// The break to which a fault at these bytes of a file belongs: the innermost around them, else one within them.
    pub fn blamed(&self, file: &str, at: &Range<usize>) -> Option<u32> {
        let places = self.places.get(file)?;
        let holds = |place: &Range<usize>| place.start <= at.start && at.end <= place.end;
        let innermost = |broken: bool| {
            let inside = places.iter().filter(|(place, _, is_broken)| *is_broken == broken && holds(place));
            inside.min_by_key(|(place, ..)| place.len()).map(|(_, number, _)| *number)
        };
        let within = || {
            let inside = places.iter().filter(|(place, ..)| at.start <= place.start && place.end <= at.end);
            inside.map(|(_, number, _)| *number).next()
        };
        innermost(true).or_else(|| innermost(false)).or_else(within)
    }

    /// The break that begins nearest to these bytes, where none is to blame for sure.
    pub fn nearest(&self, file: &str, at: &Range<usize>) -> Option<u32> {
        let places = self.places.get(file)?;
        places.iter().min_by_key(|(place, ..)| place.start.abs_diff(at.start)).map(|(_, number, _)| *number)
    }
}

/// Writes the sources with the breaks of `mutants` into `folder`, and each broken script. Gives the breaks of constants
/// that nothing reads where a break can be switched on.
pub fn write(
    folder: &Path,
    sources: &[Source],
    mutants: &Numbered,
    written: &mut Written,
) -> io::Result<BTreeSet<u32>> {
    written.places.clear();
    let mut idle: BTreeSet<u32> = BTreeSet::new();
    let mut pieces: BTreeMap<&str, Vec<Piece>> = BTreeMap::new();
    for (number, mutant) in mutants {
        let mut add = |file: &'_ str, outer: Range<usize>, shape| {
            let source = sources.iter().find(|source| source.file == file);
            if let Some(source) = source {
                pieces.entry(&source.file).or_default().push(Piece { outer, number: *number, shape });
            }
        };
        match &mutant.shape {
            Shape::Expression | Shape::Statement => {
                let statement = mutant.shape == Shape::Statement;
                let shape = PieceShape::Either { instead: mutant.instead.clone(), statement };
                add(&mutant.file, mutant.place.clone(), shape);
            }
            Shape::Insertion => {
                let shape = PieceShape::Insertion(mutant.instead.replace(SWITCH, &switch(*number)));
                add(&mutant.file, mutant.place.clone(), shape);
            }
            Shape::Constant(name) => {
                let Some(source) = sources.iter().find(|source| source.file == mutant.file) else { continue };
                let Some(constant) = source.constants.iter().find(|one| {
                    one.name == *name && one.item.start <= mutant.place.start && mutant.place.end <= one.item.end
                }) else {
                    continue;
                };
                let broken = format!("{name}__{number}");
                let mut used = false;
                let alone =
                    sources.iter().flat_map(|source| &source.constants).filter(|one| one.name == *name).count() == 1;
                for reader in sources {
                    for (read, path, name_in_it) in &reader.uses {
                        let here = reader.file == source.file;
                        let elsewhere = constant.is_public && alone && path != name_in_it;
                        if read == name && (here || elsewhere) {
                            let before = &reader.text[path.start..name_in_it.start];
                            add(&reader.file, path.clone(), PieceShape::Constant(format!("{before}{broken}")));
                            used = true;
                        }
                    }
                }
                if !used {
                    idle.insert(*number);
                    continue;
                }
                let item = &source.text[constant.item.clone()];
                let (from, to) = (mutant.place.start - constant.item.start, mutant.place.end - constant.item.start);
                let copy = format!("{}{}{}", &item[..from], mutant.instead, &item[to..]);
                let named = copy.replacen(name, &broken, 1);
                let end = constant.item.end;
                add(&mutant.file, end..end, PieceShape::After(format!("\n{named}")));
            }
            Shape::Script(_) => {}
        }
    }
    for source in sources {
        let mut list = pieces.remove(source.file.as_str()).unwrap_or_default();
        list.sort_by_key(|piece| (piece.outer.start, std::cmp::Reverse(piece.outer.end)));
        let mut out = String::new();
        let mut places = Vec::new();
        render(&source.text, 0..source.text.len(), &list, &mut out, &mut places);
        written.places.insert(source.file.clone(), places);
        write_if_other(&folder.join(&source.file), &hooked(&source.file, out))?;
    }
    write_if_other(&folder.join("src/packing/mutant.rs"), MODULE)?;
    for (number, mutant) in mutants {
        if let Shape::Script(_) = mutant.shape {
            let text = fs::read_to_string(folder.join(&mutant.file))?;
            let broken = format!("{}{}{}", &text[..mutant.place.start], mutant.instead, &text[mutant.place.end..]);
            write_if_other(&folder.join(format!("target-scripts/{number}.rhai")), &broken)?;
        }
    }
    Ok(idle)
}

/// Leaves the time of a file alone where nothing changes, so that cargo builds no more than it must.
fn write_if_other(path: &Path, text: &str) -> io::Result<()> {
    if fs::read_to_string(path).is_ok_and(|before| before == text) {
        return Ok(());
    }
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    fs::write(path, text)
}

fn render(
    text: &str,
    range: Range<usize>,
    pieces: &[Piece],
    out: &mut String,
    places: &mut Vec<(Range<usize>, u32, bool)>,
) {
    let mut at = range.start;
    let mut rest = pieces;
    while let Some((piece, after)) = rest.split_first() {
        out.push_str(&text[at..piece.outer.start]);
        let inside = after.iter().take_while(|one| one.outer.end <= piece.outer.end && !piece.outer.is_empty()).count();
        let (inner, later) = after.split_at(inside);
        let begins = out.len();
        let on = switch(piece.number);
        let broken = |out: &mut String, words: &str, places: &mut Vec<_>| {
            let start = out.len();
            out.push_str(words);
            places.push((start..out.len(), piece.number, true));
        };
        match &piece.shape {
            PieceShape::Either { instead, statement: false } => {
                let _ = write!(out, "(if {on} {{ ");
                broken(out, instead, places);
                out.push_str(" } else { ");
                render(text, piece.outer.clone(), inner, out, places);
                out.push_str(" })");
            }
            PieceShape::Either { statement: true, .. } => {
                let _ = write!(out, "if {on} {{}} else {{ ");
                render(text, piece.outer.clone(), inner, out, places);
                out.push_str(" }");
            }
            PieceShape::Insertion(words) | PieceShape::After(words) => broken(out, words, places),
            PieceShape::Constant(other) => {
                let _ = write!(out, "(*if {on} {{ &");
                broken(out, other, places);
                out.push_str(" } else { &");
                render(text, piece.outer.clone(), inner, out, places);
                out.push_str(" })");
            }
        }
        places.push((begins..out.len(), piece.number, false));
        at = piece.outer.end;
        rest = later;
    }
    out.push_str(&text[at..range.end]);
}

/// The few places that the copy has beside its breaks: the switch, and where the text of a recipe is fetched and run.
fn hooked(file: &str, text: String) -> String {
    let put = |text: String, from: &str, to: &str| {
        assert!(text.contains(from), "{file} no longer holds “{from}”: tests/mutants/src/together.rs must follow");
        text.replacen(from, to, 1)
    };
    match file {
        "src/packing/lib.rs" => {
            format!("{text}\n/// The break that is on.\npub mod mutant;\nextern crate self as shirr_packing;\n")
        }
        "src/recipe/library.rs" => {
            let text = put(
                text,
                "map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))",
                "map(|(name, text)| ((*name).to_owned(), shirr_packing::mutant::script(name, text)))",
            );
            put(text, "text: (*text).to_owned()", "text: shirr_packing::mutant::script(name, text)")
        }
        "src/engine/host.rs" => put(
            text,
            "Some(name), typed, self.reading)",
            "{ shirr_packing::mutant::ran(name); Some(name) }, typed, self.reading)",
        ),
        // The process of a recipe that is not shipped must know which break is on.
        "src/terminal/worker/mod.rs" => put(text, ".env_clear()", ""),
        "src/engine/modules.rs" => put(
            text,
            "let Some(text) = self.texts.get(name) else {",
            "shirr_packing::mutant::ran(name);\n        let Some(text) = self.texts.get(name) else {",
        ),
        _ => text,
    }
}

/// The switch: one number for the whole run of a program and its children, from their surroundings.
const MODULE: &str = r#"//! The break that is on.
use std::fs;
use std::io::Write as _;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering::Relaxed};

const NOT_READ: u32 = u32::MAX;
const NOTING: u32 = u32::MAX - 1;
static ASKED: AtomicU32 = AtomicU32::new(NOT_READ);
static NOTED: [AtomicBool; 65_536] = [const { AtomicBool::new(false) }; 65_536];

/// Whether the break of this number is on. Where reached ones are noted, notes it.
#[inline]
pub fn on(number: u32) -> bool {
    let asked = ASKED.load(Relaxed);
    asked == number || (asked >= NOTING && first(number))
}

#[cold]
fn first(number: u32) -> bool {
    if ASKED.load(Relaxed) == NOT_READ {
        let asked = match std::env::var("MUTANT") {
            Ok(number) => number.parse().unwrap_or(0),
            Err(_) if std::env::var_os("MUTANTS_REACHED").is_some() => NOTING,
            Err(_) => 0,
        };
        ASKED.store(asked, Relaxed);
        return on(number);
    }
    let known = NOTED.get(number as usize).is_none_or(|noted| noted.swap(true, Relaxed));
    if !known {
        note(&number.to_string());
    }
    false
}

fn note(words: &str) {
    if let Some(path) = std::env::var_os("MUTANTS_REACHED") {
        let file = fs::OpenOptions::new().append(true).open(path);
        let _ = file.and_then(|mut file| file.write_all(format!("{words}\n").as_bytes()));
    }
}

/// The text of a shipped recipe or helper file, broken where its break is on.
pub fn script(name: &str, text: &str) -> String {
    let broken = std::env::var("MUTANT_SCRIPT").ok().filter(|broken| broken == name);
    let path = broken.and_then(|_| std::env::var_os("MUTANT_SCRIPT_FILE"));
    path.and_then(|path| fs::read_to_string(path).ok()).unwrap_or_else(|| text.to_owned())
}

/// A recipe or helper file of this name runs.
pub fn ran(name: &str) {
    if std::env::var_os("MUTANTS_REACHED").is_some() {
        note(name.trim_end_matches(".rhai"));
    }
}
"#;
