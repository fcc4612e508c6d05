//! Rows of the files for cutting a list of pieces: the pieces, the lengths, and an earlier plan.
//!
//! Never here: what a plan makes of them.

use super::checked_file::CheckedFile;
use super::fields::{self, Fields, Least};
use super::file_error::{WorkshopFileError, WorkshopFileErrorKind};
use super::layout::{Column, Layout};
use super::names;
use super::settings::Settings;
use crate::piece::{Fold, JoinRule, Layers, Lie, Turn};
use crate::quantity::{Dimension, Length, Money, Quantity, number};
use crate::table::{CsvErrorKind, Located, NeededBy};

/// A row of the file of pieces.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PieceRow {
    pub name: String,
    /// How many.
    pub count: i64,
    /// How long.
    pub along: Length,
    /// How wide; `None` for the full width.
    pub across: Option<Length>,
    /// How far it may be turned.
    pub turn: Turn,
    /// The order it is for.
    pub order: Option<String>,
    /// Direction of its line that may lie on a fold.
    pub fold: Option<Fold>,
    /// Whether it starts at the same place of the pattern.
    pub matched: bool,
    /// How it may be joined; `None` if it must stay whole.
    pub join: Option<JoinRule>,
}

/// A row of the file of lengths.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct LengthRow {
    /// Its mark.
    pub stock: String,
    /// Name of the material, if given.
    pub material: Option<String>,
    /// The dye lot.
    pub lot: Option<String>,
    /// How many; `None` for as many as needed.
    pub count: Option<i64>,
    /// How long each is; `None` for as long as needed.
    pub along: Option<Length>,
    /// How wide each is.
    pub across: Option<Length>,
    /// Whether it has been washed.
    pub washed: bool,
    /// Price of one, or by length.
    pub price: Option<Quantity>,
    /// Whether it is held for an order and must not be cut.
    pub held: bool,
}

/// All lengths, and what they have in common.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct LengthRows {
    pub list: Vec<LengthRow>,
    /// Whether the surface has a direction.
    pub napped: bool,
    /// The pattern's repeat.
    pub repeat: Option<Length>,
    /// Whether the file has a column for the width.
    pub has_across: bool,
}

/// A row of an earlier plan.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PlanRow {
    /// The length it is cut from.
    pub stock: String,
    /// The piece.
    pub piece: String,
    /// The order it is for.
    pub order: Option<String>,
    /// Marks along: from and to.
    pub along: (Length, Length),
    /// Marks across: from and to.
    pub across: (Length, Length),
    /// How it lies.
    pub lie: Lie,
    /// The layers it is cut through.
    pub layers: Layers,
    /// Whether it is turned half round besides.
    pub reversed: bool,
    /// Whether it is cut as the mirror image.
    pub mirrored: bool,
}

const LENGTH: &[Dimension] = &[Dimension::LENGTH];
const PRICE: &[Dimension] = &[Dimension::MONEY, Dimension::MONEY_BY_LENGTH];

const PIECES: Layout = Layout {
    columns: &[
        Column::words("piece").needed(),
        Column::count("count").filled(),
        Column::measure("along", LENGTH).filled(),
        Column::measure("across", LENGTH),
        Column::words("turn"),
        Column::words("order"),
        Column::words("fold"),
        Column::words("match"),
        Column::count("most joins"),
        Column::measure("shortest part", LENGTH),
        Column::measure("join allowance", LENGTH),
    ],
    others: None,
};

const LENGTHS: Layout = Layout {
    columns: &[
        Column::words("stock").needed(),
        Column::count("count").needed(),
        Column::measure("along", LENGTH).needed(),
        Column::measure("across", LENGTH),
        Column::words("washed"),
        Column::measure("price", PRICE),
        Column::words("nap"),
        Column::words("lot"),
        Column::measure("repeat", LENGTH),
        Column::words("material"),
        Column::words("place"),
        Column::words("held for"),
    ],
    others: None,
};

const PLAN: Layout = Layout {
    columns: &[
        Column::words("stock").needed(),
        Column::count("cut"),
        Column::words("order"),
        Column::words("piece").needed(),
        Column::measure("mark from", LENGTH).filled(),
        Column::words("mark from (tape)"),
        Column::measure("mark to", LENGTH).filled(),
        Column::words("mark to (tape)"),
        Column::measure("across from", LENGTH).filled(),
        Column::words("across from (tape)"),
        Column::measure("across to", LENGTH).filled(),
        Column::words("across to (tape)"),
        Column::words("turned"),
        Column::words("layers"),
        Column::words("material"),
        Column::words("note"),
    ],
    others: None,
};

/// Reads the file of pieces and the file of lengths, each given as its name and its text.
///
/// # Errors
/// All errors of both files.
pub(crate) fn read_cut_files(
    (pieces_file, pieces): (&str, &str),
    (lengths_file, lengths): (&str, &str),
    settings: &Settings,
) -> Result<(Vec<PieceRow>, LengthRows), Vec<WorkshopFileError>> {
    let (mut errors, mut length_errors) = (Vec::new(), Vec::new());
    let (rows, wide) = gather_pieces(pieces_file, pieces, settings, &mut errors);
    let found = gather_lengths(lengths_file, lengths, wide, settings, &mut length_errors);
    errors.append(&mut length_errors);
    if errors.is_empty() { Ok((rows, found)) } else { Err(errors) }
}

/// The pieces, and whether the file has a column for the size across.
fn gather_pieces(
    file: &str,
    text: &str,
    settings: &Settings,
    errors: &mut Vec<WorkshopFileError>,
) -> (Vec<PieceRow>, bool) {
    let Some(text) = CheckedFile::read(file, text, &PIECES, settings.file_reading(), errors) else {
        return (Vec::new(), false);
    };
    let rows = fields::read_rows(&text, errors, piece);
    at_least_one(&text, "pieces", errors);
    let wide = text.has("across");
    (rows.into_iter().map(|(_, row)| row).collect(), wide)
}

fn at_least_one(text: &CheckedFile, noun: &'static str, errors: &mut Vec<WorkshopFileError>) {
    if text.csv.rows.is_empty() && errors.is_empty() {
        let kind = WorkshopFileErrorKind::NoRows { noun };
        errors.push(Located::new(&text.csv.file, kind));
    }
}

fn piece(fields: &mut Fields<'_>) -> Option<PieceRow> {
    let name = fields.needed_words("piece", "a name such as strip");
    let count = fields.count("count", Least::AboveZero).map(number::from_size);
    let along = fields.measure("along", Least::AboveZero);
    let across = fields.measure("across", Least::AboveZero);
    let turn = fields.choice("turn", &Turn::WORDS);
    let [along_it, across_it] = Fold::WORDS.map(|(word, fold)| (word, Some(fold)));
    let folds = [("yes", Some(Fold::Along)), ("no", None), along_it, across_it];
    let fold = fields.choice("fold", &folds).flatten();
    let whole_width = fields.raw("across").is_empty();
    for (column, is_set) in [("turn", turn == Some(Turn::Quarter)), ("fold", fold.is_some())] {
        if is_set && whole_width {
            let written = fields.raw(column).to_owned();
            let because = "the piece has no size across, so it takes the full width".to_owned();
            fields.error(column, WorkshopFileErrorKind::NotNeeded { written, because });
        }
    }
    let matched = fields.yes("match");
    let order = fields.words("order");
    let join = join(fields);
    Some(PieceRow {
        name: name?,
        count: count?,
        along: along?,
        across,
        turn: turn.unwrap_or_default(),
        order,
        fold,
        matched,
        join,
    })
}

fn join(fields: &mut Fields<'_>) -> Option<JoinRule> {
    let most = fields.count("most joins", Least::Zero).map(number::from_size);
    let shortest = fields.measure("shortest part", Least::AboveZero);
    let allowance = fields.measure("join allowance", Least::Zero);
    let most = most.filter(|most| *most > 0)?;
    for column in ["shortest part", "join allowance"] {
        if fields.raw(column).is_empty() && !fields.has_error(column) {
            let example = "a length such as 6 in".to_owned();
            let because = "the piece may be joined".to_owned();
            fields.error(column, WorkshopFileErrorKind::Needed { because, example });
        }
    }
    Some(JoinRule::new(most, shortest?, allowance?))
}

fn gather_lengths(
    file: &str,
    text: &str,
    wide: bool,
    settings: &Settings,
    errors: &mut Vec<WorkshopFileError>,
) -> LengthRows {
    let Some(text) = CheckedFile::read(file, text, &LENGTHS, settings.file_reading(), errors) else {
        return LengthRows::default();
    };
    let has_across = text.has("across");
    if wide && !has_across {
        errors.push(text.error(text.csv.headings.line, Some("across"), WorkshopFileErrorKind::MissingColumn));
    }
    let mut used = fields::UsedNames::default();
    let mut uniform = Uniform::default();
    let mut found = LengthRows { has_across, ..LengthRows::default() };
    let rows = fields::read_rows(&text, errors, |fields| {
        let stock = fields.own_name("stock", "a mark such as B4-2", &mut used);
        let napped = fields.yes("nap");
        uniform.check(fields, "nap", if napped { "yes" } else { "no" });
        let repeat = fields.measure::<Length>("repeat", Least::AboveZero);
        let written = fields.raw("repeat").to_owned();
        uniform.check(fields, "repeat", &written);
        let written = fields.raw("material").to_owned();
        uniform.check(fields, "material", &written);
        found.napped = napped;
        found.repeat = repeat;
        length(fields, stock, has_across)
    });
    at_least_one(&text, "lengths", errors);
    found.list = rows.into_iter().map(|(_, row)| row).collect();
    found
}

/// What must be the same in every row, because a plan has one kind of goods: column, text and line of the first row.
#[derive(Default)]
struct Uniform(Vec<(String, String, u64)>);

impl Uniform {
    fn check(&mut self, fields: &mut Fields<'_>, column: &str, written: &str) {
        let line = fields.line();
        match self.0.iter().find(|(known, ..)| known == column) {
            None => self.0.push((column.to_owned(), written.to_owned(), line)),
            Some((_, first, first_line)) if names::key(first) != names::key(written) => {
                let (first, first_line) = (first.clone(), *first_line);
                fields
                    .error(column, WorkshopFileErrorKind::NotAlike { written: written.to_owned(), first, first_line });
            }
            Some(_) => {}
        }
    }
}

fn length(fields: &mut Fields<'_>, stock: Option<String>, has_across: bool) -> Option<LengthRow> {
    let count = fields.count("count", Least::Zero).map(number::from_size);
    let along = fields.measure::<Length>("along", Least::AboveZero);
    let across = fields.measure::<Length>("across", Least::AboveZero);
    if has_across && fields.raw("across").is_empty() {
        let example = fields.example("across");
        let because = "the width of every length must be known".to_owned();
        fields.error("across", WorkshopFileErrorKind::Needed { because, example });
    }
    let endless = fields.raw("count").is_empty();
    if fields.raw("along").is_empty() && !endless {
        let example = fields.example("along");
        let because = "there is a count; only what is cut off as long as needed has neither".to_owned();
        fields.error("along", WorkshopFileErrorKind::Needed { because, example });
    }
    let price = fields.figure("price", PRICE, Least::Zero);
    let price = match (price, along) {
        // A price by length, of a known length, becomes a price for each.
        (Some(price), Some(along)) if price.dimension() == Dimension::MONEY_BY_LENGTH => {
            price.times(along.into()).ok().and_then(|each| Money::try_from(each).ok()).map(Quantity::from)
        }
        (Some(price), None) if price.dimension() == Dimension::MONEY && fields.raw("along").is_empty() => {
            let (written, given) = (fields.raw("price").to_owned(), price.dimension());
            let example = super::written::example(&[Dimension::MONEY_BY_LENGTH], fields.reading());
            let needed = vec![Dimension::MONEY_BY_LENGTH];
            let error = CsvErrorKind::Unlike { written, given, needed, needed_by: NeededBy::Column };
            fields.error("price", WorkshopFileErrorKind::of_csv(error, example));
            None
        }
        (price, _) => price,
    };
    let (material, lot, held) = (fields.words("material"), fields.words("lot"), fields.words("held for").is_some());
    let washed = fields.yes("washed");
    fields.words("place");
    Some(LengthRow { stock: stock?, material, lot, count, along, across, washed, price, held })
}

/// Reads an earlier plan.
///
/// # Errors
/// All errors of the text.
pub(crate) fn read_plan(file: &str, text: &str, settings: &Settings) -> Result<Vec<PlanRow>, Vec<WorkshopFileError>> {
    let mut errors = Vec::new();
    let Some(text) = CheckedFile::read(file, text, &PLAN, settings.file_reading(), &mut errors) else {
        return Err(errors);
    };
    let rows = fields::read_rows(&text, &mut errors, plan_row);
    if errors.is_empty() { Ok(rows.into_iter().map(|(_, row)| row).collect()) } else { Err(errors) }
}

fn plan_row(fields: &mut Fields<'_>) -> Option<PlanRow> {
    let stock = fields.needed_words("stock", "a mark such as B4-2");
    let piece = fields.needed_words("piece", "a name such as strip");
    let mut mark = |column| {
        // Decimals are written to a billionth; cuts are in whole nanometres.
        let mark = fields.measure::<Length>(column, Least::Zero)?;
        Some(Length::from_steps(mark.steps().round()).liking(mark.liked()))
    };
    let along = (mark("mark from"), mark("mark to"));
    let across = (mark("across from"), mark("across to"));
    let (lie, reversed) = fields.choice("turned", &Lie::WORDS).unwrap_or((Lie::Along, false));
    let layers = fields.choice("layers", &Layers::WORDS).unwrap_or_default();
    let order = fields.words("order");
    let note = fields.words("note").unwrap_or_default();
    let noted = |word: &str| note.split(',').any(|part| names::key(part) == word);
    Some(PlanRow {
        stock: stock?,
        piece: piece?,
        order,
        along: (along.0?, along.1?),
        across: (across.0?, across.1?),
        lie,
        layers,
        reversed: reversed || noted("head to foot"),
        mirrored: noted("mirrored"),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(pieces: &str, lengths: &str) -> Result<(Vec<PieceRow>, LengthRows), Vec<String>> {
        let found = read_cut_files(("p.csv", pieces), ("l.csv", lengths), &Settings::default());
        found.map_err(|errors| errors.iter().map(ToString::to_string).collect())
    }

    const PIECE: &str = "piece,count,along\nstrip,3,10 in\n";

    /// Own arithmetic: 2 yd at $7.40/yd are $14.80.
    #[test]
    fn a_price_by_the_length_is_one_for_each_where_the_length_is_known() {
        let (pieces, lengths) =
            read(PIECE, "stock,count,along,price\nA,2,2 yd,$7.40/yd\nB,,,$6/yd\nC,,25 yd,$6.50\n").unwrap();
        assert_eq!((pieces[0].count, pieces[0].across, pieces[0].turn), (3, None, Turn::Half));
        let prices: Vec<f64> =
            lengths.list.iter().map(|row| row.price.unwrap()).filter_map(|price| price.currency_units().ok()).collect();
        assert_eq!(prices.len(), 2, "{prices:?}");
        assert!((prices[0] - 14.8).abs() < 1e-9 && (prices[1] - 6.5).abs() < 1e-9, "{prices:?}");
        let counts: Vec<Option<i64>> = lengths.list.iter().map(|row| row.count).collect();
        assert_eq!(counts, [Some(2), None, None]);
    }

    #[test]
    fn everything_wrong_with_both_files_is_said_at_once() {
        let errors = read(
            "piece,count,along,across,most joins,shortest part,join allowance\nstrip,0,10 in,5 in,,,\npanel,2,10,5 in,1,,\n",
            "stock,count,along,across,price\nA,1,2 yd,44 in,\na,,,44 in,$6\nB,2,,,\n",
        )
        .unwrap_err();
        let expected = [
            "p.csv, line 2, column “count”: “0” is not more than zero",
            "p.csv, line 3, column “along”: “10” has no unit, and the heading has none either",
            "p.csv, line 3, column “shortest part”: nothing stands here, but the piece may be joined",
            "p.csv, line 3, column “join allowance”: nothing stands here, but the piece may be joined",
            "l.csv, line 3, column “stock”: “a” stands in line 2 already",
            "l.csv, line 3, column “price”: “$6” is an amount of money; a price by the length is needed",
            "l.csv, line 4, column “along”: nothing stands here, but there is a count; only what is cut off as long as \
             needed has neither",
            "l.csv, line 4, column “across”: nothing stands here, but the width of every length must be known",
        ];
        assert_eq!(errors, expected, "{errors:#?}");
    }

    #[test]
    fn a_written_plan_reads_back() {
        let text = "stock,cut,order,piece,mark from (in),mark from (tape),mark to (in),mark to (tape),across from (in),\
                    across from (tape),across to (in),across to (tape),turned,layers,material,note\r\n\
                    A,1,31,strip,0,0,12.5,12 1/2,0,0,44,44,quarter,both,,\"head to foot, mirrored, part 1 of 2\"\r\n";
        let rows = read_plan("plan.csv", text, &Settings::default()).unwrap();
        let row = &rows[0];
        assert_eq!((row.stock.as_str(), row.piece.as_str(), row.order.as_deref()), ("A", "strip", Some("31")));
        assert_eq!(row.along, (Length::ZERO, Length::inches(12.5)));
        assert_eq!((row.lie, row.layers), (Lie::Across, Layers::Both));
        assert!(row.reversed && row.mirrored);
    }
}
