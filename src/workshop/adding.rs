//! One line for a workshop's files, typed at the prompt: `cloth white lawn, 43 1/2 in wide, $9.25/yd, washed first, loses
//! 4 % and 2 %`. It becomes a row of the right file, which the reader of that file then judges.
//!
//! Never here: the prompt, files on disk; figures that are there already, which are never changed.

use super::file_error::said;
use super::row_text::{self, RowError};
use super::settings::Settings;
use super::typed::{PriceFields, Typed};
use super::washing::Washing;
use super::{Workshop, WorkshopFile, names};
use crate::diagnostic::Diagnostic;
use crate::piece::MaterialKind;
use crate::quantity::Dimension;
use crate::quantity::literal::CURRENCIES;

/// What can be added, each with its word, the file it goes into and how it is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Material(MaterialKind),
    Price,
    Rate,
    Trial,
    Remnant,
}

const KINDS: [(&str, Kind, &str); 8] = [
    (
        "cloth",
        Kind::Material(MaterialKind::Cloth),
        "add cloth white lawn, 43 1/2 in wide, $9.25/yd, washed first, loses 4 % and 2 %",
    ),
    ("roll", Kind::Material(MaterialKind::Roll), "add roll ivory net, 6 in wide, $6.50 for 25 yd"),
    (
        "notion",
        Kind::Material(MaterialKind::Notion),
        "add notion soft elastic, 1 in wide, $0.95/yd, or add notion press stud, $0.12 each",
    ),
    ("thread", Kind::Material(MaterialKind::Thread), "add thread white thread, $4.40 for 3000 yd"),
    ("price", Kind::Price, "add price white lawn, $9.25/yd"),
    ("rate", Kind::Rate, "add rate sew a seam, 1.6 min/yd, set-up 2 min, or add rate wage, $21/h"),
    ("trial", Kind::Trial, "add trial lawn twice, white lawn, 20 in to 5 in"),
    ("remnant", Kind::Remnant, "add remnant C1-3, white lawn, 31 in by 42 1/2 in, washed, in the box"),
];

/// A file with one more line, or one more figure.
#[derive(Debug)]
pub(crate) struct Added {
    /// Which file.
    pub(crate) file: WorkshopFile,
    /// Its whole text, the line in it.
    pub(crate) text: String,
    /// What was added, field by field.
    pub(crate) fields: Vec<String>,
}

/// Fields, each by its column.
type Fields = Vec<(&'static str, String)>;

/// Adds what was typed behind the word for its kind to one of the files, each given as its name and its text.
///
/// # Errors
/// The line cannot be read, the name is there already, or the reader of the file refuses the row.
pub(crate) fn add(
    kind: &str,
    typed: &str,
    workshop: &Workshop,
    files: &[(String, String)],
) -> Result<Added, Diagnostic> {
    let Some((_, kind, example)) = KINDS.iter().find(|(word, ..)| *word == kind) else {
        return Err(Diagnostic::new(format!("“{kind}” is nothing that can be added")));
    };
    let file = match kind {
        Kind::Material(_) | Kind::Price => WorkshopFile::Materials,
        Kind::Rate => WorkshopFile::Rates,
        Kind::Trial => WorkshopFile::Trials,
        Kind::Remnant => WorkshopFile::Stock,
    };
    let given = files.iter().find(|(name, _)| WorkshopFile::named(name) == Some(file)).map(|(_, text)| text.as_str());
    // A file keeps the dialect it is written in, whatever the settings say of new ones.
    let mut settings = workshop.settings;
    if let Some(dialect) = given.and_then(|text| row_text::dialect_of(text, &settings)) {
        settings.dialect = dialect;
    }
    let line = Line { parts: typed.split(", ").map(str::trim).collect(), own: Typed { settings: &settings }, example };
    let fields = match kind {
        Kind::Material(kind) => line.material(*kind)?,
        Kind::Price => line.price()?,
        Kind::Rate => line.rate()?,
        Kind::Trial => line.trial()?,
        Kind::Remnant => line.remnant()?,
    };
    let name = fields.first().map(|(_, name)| name.clone()).unwrap_or_default();
    refuse_known(*kind, &name, workshop)?;
    let empty = empty_text(file, &settings)?;
    let before = given.unwrap_or(&empty);
    let text = match kind {
        Kind::Price => row_text::filled(before, &fields, &settings),
        _ => row_text::appended(before, &fields, &settings),
    };
    let text = text.map_err(|error| row_error(file, &error))?;
    let others = files.iter().filter(|(name, _)| WorkshopFile::named(name) != Some(file));
    let all: Vec<(&str, &str)> =
        others.map(|(name, text)| (name.as_str(), text.as_str())).chain([(file.name(), text.as_str())]).collect();
    if let Err(errors) = Workshop::read(&all) {
        let error = errors.first().map_or_else(|| Diagnostic::new("the line does not fit its file"), said);
        let hint = error.hint.clone().unwrap_or_else(|| format!("type it like {example}"));
        return Err(error.hinting(hint));
    }
    let told = fields.iter().skip(1).filter(|(_, text)| !text.is_empty());
    let told = told.map(|(column, text)| format!("{column} {text}"));
    let fields = std::iter::once(name).chain(told).collect();
    Ok(Added { file, text, fields })
}

/// A file that has its headings alone.
fn empty_text(file: WorkshopFile, settings: &Settings) -> Result<String, Diagnostic> {
    let mut text = Vec::new();
    let empty = Workshop { settings: *settings, ..Workshop::default() };
    empty.write(file, &mut text).map_err(|_| Diagnostic::new("the file cannot be put together"))?;
    Ok(String::from_utf8_lossy(&text).into_owned())
}

fn row_error(file: WorkshopFile, error: &RowError) -> Diagnostic {
    let file = file.name();
    match error {
        RowError::Unreadable => Diagnostic::new(format!("{file} cannot be read as it is")),
        RowError::NoColumn(column) => {
            Diagnostic::new(format!("{file} has no column “{column}”, which this line needs"))
                .hinting("add the heading in a spreadsheet, or leave that out")
        }
        RowError::Filled(column, there) => Diagnostic::new(format!("its {column} is {there} already"))
            .hinting(format!("change it in {file}: nothing that is there is written over")),
        RowError::NoRow(name) => Diagnostic::new(format!("there is no material “{name}” in {file}")),
    }
}

/// Refuses a name that is there already. Strips of one trial share its name.
fn refuse_known(kind: Kind, name: &str, workshop: &Workshop) -> Result<(), Diagnostic> {
    let materials = &workshop.materials;
    let (known, file) = match kind {
        Kind::Material(_) => (materials.find(name).is_some(), WorkshopFile::Materials),
        Kind::Rate => (workshop.rates.says(name), WorkshopFile::Rates),
        Kind::Remnant => (workshop.stock.find(name).is_some(), WorkshopFile::Stock),
        Kind::Trial => (false, WorkshopFile::Trials),
        Kind::Price if materials.find(name).is_some() => (false, WorkshopFile::Materials),
        Kind::Price => {
            let unknown = Diagnostic::new(format!("there is no material “{name}” in materials.csv"));
            return Err(match materials.nearest(name) {
                Some(nearest) => unknown.hinting(format!("did you mean “{nearest}”?")),
                None => unknown.hinting("add it with add cloth, add roll, add notion or add thread"),
            });
        }
    };
    if known {
        return Err(Diagnostic::new(format!("“{name}” is in {} already", file.name()))
            .hinting("give it another name, or change that line in the file: nothing there is written over"));
    }
    Ok(())
}

/// A line that was typed, without the word for its kind.
struct Line<'t> {
    parts: Vec<&'t str>,
    own: Typed<'t>,
    example: &'static str,
}

impl Line<'_> {
    fn not_understood(&self, part: &str) -> Diagnostic {
        let said =
            if part.is_empty() { "something is missing".to_owned() } else { format!("“{part}” is not understood") };
        Diagnostic::new(said).hinting(format!("type it like {}", self.example))
    }

    /// The name, which ends before the first part that is a fact, and the facts. A name may hold commas.
    fn name_and_facts(&self, is_fact: impl Fn(&str) -> bool) -> Result<(String, &[&str]), Diagnostic> {
        let at = self.parts.iter().skip(1).position(|part| is_fact(part)).map_or(self.parts.len(), |at| at + 1);
        let (name, facts) = self.parts.split_at_checked(at).unwrap_or((&self.parts, &[]));
        let name = name.join(", ");
        if name.is_empty() { Err(self.not_understood("")) } else { Ok((name, facts)) }
    }

    fn material(&self, kind: MaterialKind) -> Result<Fields, Diagnostic> {
        let Some((name, facts)) = self.parts.split_first().filter(|(name, _)| !name.is_empty()) else {
            return Err(self.not_understood(""));
        };
        let mut fields = vec![("material", (*name).to_owned()), ("kind", kind.word().to_owned())];
        for part in facts {
            fields.extend(self.fact(part)?);
        }
        Ok(fields)
    }

    /// What is known of goods: width, price, washing, loss, repeat, nap, weight, fibre, selling step.
    fn fact(&self, part: &str) -> Result<Fields, Diagnostic> {
        let own = self.own;
        if let Some(washing) = Washing::WORDS.iter().find(|(words, _)| *words == part) {
            return Ok(vec![("washing", washing.0.to_owned())]);
        }
        if part == "nap" {
            return Ok(vec![("nap", "yes".to_owned())]);
        }
        if let Some(across) = part.strip_prefix("repeat across ") {
            return Ok(vec![("repeat across", own.length(across))]);
        }
        if let Some(along) = part.strip_prefix("repeat ") {
            let (along, half) = along.strip_suffix("half drop").map_or((along, "no"), |along| (along.trim(), "yes"));
            return Ok(vec![("repeat", own.length(along)), ("half drop", half.to_owned())]);
        }
        if let Some(loss) = part.strip_prefix("loses ").or_else(|| part.strip_prefix("shrinks ")) {
            let (along, across) = match loss {
                "nothing" => ("0", Some("0")),
                loss => loss.split_once(" and ").map_or((loss, None), |(along, across)| (along, Some(across))),
            };
            let across = across.map(|across| own.share(across)).unwrap_or_default();
            return Ok(vec![("shrink along", own.share(along)), ("shrink across", across)]);
        }
        for (word, column) in [("sold by ", "sold by"), ("weighs ", "weight"), ("fibre ", "fibre")] {
            if let Some(rest) = part.strip_prefix(word) {
                return Ok(vec![(column, rest.to_owned())]);
            }
        }
        // As a cloth by phone is told: 45 in at $6/yd.
        if let Some((width, price)) = part.split_once(" at ") {
            let mut fields = self.width(width)?;
            fields.extend(price_fields(own.price(price)?));
            return Ok(fields);
        }
        match self.width(part) {
            Ok(width) => Ok(width),
            Err(_) if is_figure(part) => own.price(part).map(price_fields),
            Err(error) => Err(error),
        }
    }

    fn width(&self, part: &str) -> Result<Fields, Diagnostic> {
        let width = self.own.length(part.strip_suffix("wide").unwrap_or(part));
        let is_length = self.own.quantity(&width).is_some_and(|width| width.dimension() == Dimension::LENGTH);
        if is_length { Ok(vec![("usable width", width)]) } else { Err(self.not_understood(part)) }
    }

    fn price(&self) -> Result<Fields, Diagnostic> {
        let (name, facts) = self.name_and_facts(is_figure)?;
        let [price] = facts else { return Err(self.not_understood(facts.get(1).copied().unwrap_or_default())) };
        let mut fields = vec![("material", name)];
        fields.extend(price_fields(self.own.price(price)?));
        Ok(fields)
    }

    fn rate(&self) -> Result<Fields, Diagnostic> {
        let own = self.own;
        let (name, facts) = self.name_and_facts(|part| part.starts_with("set-up ") || is_figure(part))?;
        let Some((figure, rest)) = facts.split_first() else { return Err(self.not_understood("")) };
        let value = match names::word_key(&name).as_str() {
            "wage" => Some(own.by_the_hour(figure)),
            "overhead" => Some(own.by_the_hour_or_share(figure)),
            "mark up" | "fee" | "waste" | "built in minutes" => Some(own.share(figure)),
            "minimum" => Some(own.amount(figure)),
            _ => None,
        };
        let mut fields = vec![("operation", name)];
        if let Some(value) = value {
            fields.push(("value", value));
            return match rest.first() {
                Some(part) => Err(self.not_understood(part)),
                None => Ok(fields),
            };
        }
        let (minutes, per) = ["/", " for ", " each "]
            .iter()
            .find_map(|between| figure.split_once(between))
            .or_else(|| Some((figure.strip_suffix("each")?, "each")))
            .ok_or_else(|| self.not_understood(figure))?;
        fields.extend([("per", per.trim().to_owned()), ("minutes", own.minutes(minutes))]);
        match rest {
            [] => {}
            [set_up] => match set_up.strip_prefix("set-up ") {
                Some(set_up) => fields.push(("set-up", own.minutes(set_up))),
                None => return Err(self.not_understood(set_up)),
            },
            [_, more, ..] => return Err(self.not_understood(more)),
        }
        Ok(fields)
    }

    fn trial(&self) -> Result<Fields, Diagnostic> {
        let [name, material, strip, facts @ ..] = self.parts.as_slice() else { return Err(self.not_understood("")) };
        let own = self.own;
        let (flat, gathered) = strip.split_once(" to ").ok_or_else(|| self.not_understood(strip))?;
        let mut fields = vec![("trial", (*name).to_owned()), ("material", (*material).to_owned())];
        match flat.split_once(" of ") {
            Some((pieces, piece)) => {
                let (piece, overlap) =
                    piece.split_once(" lapped ").map_or((piece, None), |(piece, overlap)| (piece, Some(overlap)));
                fields.extend([("pieces", pieces.to_owned()), ("piece", own.length(piece))]);
                fields.extend(overlap.map(|overlap| ("overlap", own.length(overlap))));
            }
            None => fields.push(("flat", own.length(flat))),
        }
        fields.push(("gathered", own.length(gathered)));
        for part in facts {
            let columns = ["pass", "lot", "foot", "machine", "setting", "date", "stitch"];
            let fact = columns.iter().find_map(|column| Some((*column, part.strip_prefix(column)?.strip_prefix(' ')?)));
            match fact {
                Some(("stitch", long)) => fields.push(("stitch", own.length(long))),
                Some((column, said)) => fields.push((column, said.to_owned())),
                None => return Err(self.not_understood(part)),
            }
        }
        Ok(fields)
    }

    fn remnant(&self) -> Result<Fields, Diagnostic> {
        let [mark, material, size, facts @ ..] = self.parts.as_slice() else { return Err(self.not_understood("")) };
        let own = self.own;
        let mut fields = vec![("stock", (*mark).to_owned()), ("material", (*material).to_owned())];
        let (count, size) = size.split_once(" of ").map_or((None, *size), |(count, size)| (Some(count), size));
        fields.extend(count.map(|count| ("count", count.to_owned())));
        let is_count = |size: &str| size.chars().all(|c| c.is_ascii_digit());
        match size.split_once(" by ") {
            Some((along, across)) => fields.extend([("along", own.length(along)), ("across", own.length(across))]),
            None if is_count(size) => fields.push(("count", size.to_owned())),
            None => fields.push(("along", own.length(size))),
        }
        for part in facts {
            let fact = match *part {
                "washed" => Some(("washed", "yes".to_owned())),
                part => part
                    .strip_prefix("lot ")
                    .map(|lot| ("lot", lot.to_owned()))
                    .or_else(|| Some(("held for", part.strip_prefix("held for ")?.to_owned())))
                    .or_else(|| Some(("price", own.amount(part.strip_prefix("paid ")?))))
                    .or_else(|| Some(("place", part.strip_prefix("in ").or(part.strip_prefix("on "))?.to_owned()))),
            };
            fields.push(fact.ok_or_else(|| self.not_understood(part))?);
        }
        Ok(fields)
    }
}

/// Whether a text begins like a figure or money.
fn is_figure(part: &str) -> bool {
    part.starts_with(|c: char| c.is_ascii_digit() || CURRENCIES.contains(&c))
}

fn price_fields(price: PriceFields) -> Fields {
    let PriceFields { price, price_for, sold_by, put_up } = price;
    vec![("put-up", put_up), ("price", price), ("price for", price_for), ("sold by", sold_by)]
}
