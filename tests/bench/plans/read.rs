//! Reads the files of `tests/instances` as instances.

use super::instance::{Instance, Measure, millimetres};
use shirr::cutting::CutsRun;
use shirr::piece::{CutPiece, Goods, Grain, OutlinePoint, PutUp, Shape, StockLength, Supply};
use shirr::quantity::{Length, Money, number};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The folder of the instances.
pub(crate) fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/instances")
}

/// A row of `references.csv`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Reference {
    pub(crate) pieces: i64,
    pub(crate) value: Option<f64>,
    pub(crate) kind: String,
}

/// The references of a set, by name of the instance.
pub(crate) fn references(set: &str) -> BTreeMap<String, Reference> {
    let mut rows = csv::Reader::from_path(folder().join("references.csv")).unwrap();
    let rows: Vec<csv::StringRecord> = rows.records().map(Result::unwrap).collect();
    let of_set = rows.iter().filter(|row| &row[0] == set);
    of_set
        .map(|row| {
            let value = (!row[3].is_empty()).then(|| row[3].parse().unwrap());
            (row[1].to_owned(), Reference { pieces: row[2].parse().unwrap(), value, kind: row[5].to_owned() })
        })
        .collect()
}

/// The values that a long run left in a file, by name; empty if there is no file.
pub(crate) fn long_run(file: &str) -> BTreeMap<String, f64> {
    let Ok(mut rows) = csv::Reader::from_path(folder().join(file)) else { return BTreeMap::new() };
    let heads = rows.headers().unwrap().clone();
    let place = |name: &str| heads.iter().position(|head| head == name).unwrap();
    let (name, value) = (place("instance"), place("reference"));
    rows.records()
        .map(Result::unwrap)
        .filter_map(|row| Some((row[name].to_owned(), row[value].parse().ok()?)))
        .collect()
}

/// The names and texts of a set's files, sorted by path.
fn texts(set: &str) -> Vec<(String, String)> {
    let mut paths: Vec<PathBuf> =
        fs::read_dir(folder().join(set)).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    let name = |path: &Path| path.file_stem().unwrap().to_string_lossy().into_owned();
    paths.iter().map(|path| (name(path), fs::read_to_string(path).unwrap())).collect()
}

fn numbers(line: &str) -> Vec<i64> {
    line.split_whitespace().map(|word| word.parse().unwrap()).collect()
}

fn of_millimetres(whole: i64) -> Length {
    millimetres(number::from_whole(whole))
}

/// Full-width pieces; the width of the goods does not matter.
fn strips(lengths: &[(i64, i64)]) -> Vec<CutPiece> {
    let strip = |(length, count): &(i64, i64)| {
        CutPiece::new(&format!("strip {length}"), *count, Shape::FullWidth { along: of_millimetres(*length) })
    };
    lengths.iter().map(strip).collect()
}

/// Pieces off one stock length: each a length in millimetres and a count.
pub(crate) fn one_length(name: &str, stock: i64, lengths: &[(i64, i64)]) -> Instance {
    let goods = Goods::roll(millimetres(100.0), of_millimetres(stock));
    Instance::new(name, strips(lengths), goods, Measure::PutUps)
}

/// A stock length in millimetres, its price in cents, and how many there are; `None` for as many as needed.
pub(crate) type Kind = (i64, i64, Option<i64>);

/// Pieces off several stock lengths.
pub(crate) fn several_lengths(name: &str, kinds: &[Kind], lengths: &[(i64, i64)]) -> Instance {
    let money = |cents: i64| Some(Money::from_steps(100.0 * number::from_whole(cents)));
    let mut instance = Instance::new(
        name,
        strips(lengths),
        Goods { kind: shirr::piece::GoodsKind::Roll, ..Goods::cloth(millimetres(100.0)) },
        Measure::Cents,
    );
    let mut offers = Vec::new();
    for (length, cents, count) in kinds {
        match count {
            None => offers.push(PutUp {
                name: format!("roll of {length}"),
                along: Some(of_millimetres(*length)),
                across: None,
                price: money(*cents),
                most: None,
            }),
            Some(count) => instance.stock.push(StockLength {
                count: *count,
                price: money(*cents),
                remnant: true,
                ..StockLength::new(&format!("rest of {length}"), of_millimetres(*length))
            }),
        }
    }
    instance.supply = Supply::Offered(offers);
    instance
}

/// Reads the set `stock_lengths`.
pub(crate) fn stock_lengths() -> Vec<Instance> {
    let known = references("stock_lengths");
    let read = |(name, text): &(String, String)| {
        let mut lines = text.lines().map(numbers);
        let (kinds, stock) = (lines.next().unwrap()[0], lines.next().unwrap()[0]);
        let lengths: Vec<(i64, i64)> = lines.filter(|line| !line.is_empty()).map(|line| (line[0], line[1])).collect();
        assert_eq!(number::from_size(lengths.len()), kinds, "{name}");
        Instance { reference: known[name].value, ..one_length(name, stock, &lengths) }
    };
    texts("stock_lengths").iter().map(read).collect()
}

/// Reads the set `stock_mixed`.
pub(crate) fn stock_mixed() -> Vec<Instance> {
    let (known, long) = (references("stock_mixed"), long_run("mixed_references.csv"));
    let read = |(name, text): &(String, String)| {
        let lines: Vec<Vec<i64>> = text.lines().map(numbers).collect();
        let kinds = usize::try_from(lines[0][0]).unwrap();
        let kind = |line: &Vec<i64>| (line[0], line[1], (line[2] >= 0).then_some(line[2]));
        let stock: Vec<Kind> = lines[1..=kinds].iter().map(kind).collect();
        let lengths: Vec<(i64, i64)> = lines[kinds + 1..].iter().map(|line| (line[0], line[1])).collect();
        assert_eq!(number::from_size(lengths.len()), lines[0][1], "{name}");
        let reference = known[name].value.or_else(|| long.get(name).copied());
        Instance { reference, ..several_lengths(name, &stock, &lengths) }
    };
    texts("stock_mixed").iter().map(read).collect()
}

/// Reads the set `strip_rectangles`: `grain` says whether pieces may turn a quarter, `cuts` whether cuts are straight.
pub(crate) fn strip_rectangles(grain: Grain, cuts: CutsRun) -> Vec<Instance> {
    let known = references("strip_rectangles");
    let read = |(name, text): &(String, String)| {
        let mut lines = text.lines().map(numbers);
        let (count, width) = (lines.next().unwrap()[0], lines.next().unwrap()[0]);
        let centimetres = |whole: i64| Length::centimetres(number::from_whole(whole));
        let sizes: Vec<(i64, i64)> = lines.filter(|line| !line.is_empty()).map(|line| (line[0], line[1])).collect();
        assert_eq!(number::from_size(sizes.len()), count, "{name}");
        let piece = |(place, (across, along)): (usize, &(i64, i64))| {
            let shape = Shape::Rectangle { along: centimetres(*along), across: centimetres(*across) };
            CutPiece { grain, ..CutPiece::new(&format!("piece {}", place + 1), 1, shape) }
        };
        let pieces = sizes.iter().enumerate().map(piece).collect();
        let mut instance = Instance::new(name, pieces, Goods::cloth(centimetres(width)), Measure::Laid(0.1));
        instance.area = Some(sizes.iter().map(|(across, along)| number::from_whole(across * along)).sum());
        instance.reference = known[name].value;
        instance.manner.cuts = cuts;
        instance
    };
    texts("strip_rectangles").iter().map(read).collect()
}

/// Reads the set `outlines`.
pub(crate) fn outlines() -> Vec<Instance> {
    let known = references("outlines");
    let read = |(name, text): &(String, String)| {
        let file: serde_json::Value = serde_json::from_str(text).unwrap();
        let width = file["strip_height"].as_f64().unwrap();
        let mut area = 0.0;
        let pieces = file["items"].as_array().unwrap().iter().map(|item| {
            let corners = item["shape"]["data"].as_array().unwrap();
            let corner = |place: &serde_json::Value| (place[0].as_f64().unwrap(), place[1].as_f64().unwrap());
            let mut corners: Vec<(f64, f64)> = corners.iter().map(corner).collect();
            // The file closes an outline by repeating its first corner.
            if corners.first() == corners.last() {
                corners.pop();
            }
            let count = item["demand"].as_i64().unwrap();
            area += number::from_whole(count) * enclosed(&corners);
            let turns: Vec<f64> =
                item["allowed_orientations"].as_array().unwrap().iter().map(|turn| turn.as_f64().unwrap()).collect();
            let turned = |degrees: f64| turns.iter().any(|turn| (turn - degrees).abs() < 1e-9);
            let point = |(along, across): &(f64, f64)| OutlinePoint {
                along: millimetres(*along),
                across: millimetres(*across),
            };
            let shape = Shape::Outline(corners.iter().map(point).collect());
            CutPiece {
                grain: if turned(90.0) { Grain::Any } else { Grain::Along },
                one_way: !turned(180.0),
                ..CutPiece::new(&format!("piece {}", item["id"]), count, shape)
            }
        });
        let pieces: Vec<CutPiece> = pieces.collect();
        let mut instance = Instance::new(name, pieces, Goods::cloth(millimetres(width)), Measure::Laid(1.0));
        instance.area = Some(area);
        instance.reference = known[name].value;
        instance
    };
    texts("outlines").iter().map(read).collect()
}

/// The area inside corners: half the sum of the cross products of neighbours.
fn enclosed(corners: &[(f64, f64)]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    let twice: f64 = corners.iter().zip(next).map(|(here, next)| here.0 * next.1 - next.0 * here.1).sum();
    twice.abs() / 2.0
}
