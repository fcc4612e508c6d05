//! Lays drawn with characters for a screen: a bar for each roll, a box for each piece on cloth, letters and a legend.
//!
//! The length runs to the right, so that a lay takes few lines. Never here: the picture to print.

use super::drawn_lay::{DrawnCut, DrawnLength};
use super::lay_labels::whole_name;
use super::plain_text;
use super::wrap;
use crate::quantity::{Length, Style, number};

/// At most this many lengths are drawn on a screen.
pub(crate) const MOST_DRAWN: usize = 3;
/// A character is about twice as high as it is wide.
const TALL: f64 = 2.0;
/// The most lines that a cloth takes, and the fewest before it is broken into further parts.
const MOST_LINES: f64 = 16.0;
const FEWEST_LINES: f64 = 7.0;
const MOST_PARTS: f64 = 4.0;

const LEFT: u8 = 1;
const RIGHT: u8 = 2;
const UP: u8 = 4;
const DOWN: u8 = 8;

/// The pieces in order of appearance, each with its letter and its sign: a cell holds one character, so that pieces
/// after Z are `a`, `b` and so on, and the legend has their letters.
struct Key(Vec<(String, String, char)>);

/// Pieces with more letters than these are all one sign.
const LATER: &str = "abcdefghijklmnopqrstuvwxyz";

impl Key {
    fn sign(&mut self, cut: &DrawnCut) -> char {
        let name = whole_name(cut);
        if let Some((_, _, sign)) = self.0.iter().find(|(_, known, _)| *known == name) {
            return *sign;
        }
        let mut letters = cut.letter.chars();
        let sign = match (letters.next(), letters.next()) {
            (Some(only), None) => only,
            _ => self.next_later(),
        };
        self.0.push((cut.letter.clone(), name, sign));
        sign
    }

    fn next_later(&self) -> char {
        let taken = self.0.iter().filter(|(_, _, sign)| LATER.contains(*sign)).count();
        LATER.chars().nth(taken).unwrap_or('*')
    }

    /// What each sign is, in lines.
    fn legend(&self) -> impl Iterator<Item = String> {
        let known = self.0.iter().filter(|(_, _, sign)| *sign != '*');
        let lines = known.map(|(letter, name, sign)| {
            let name = plain_text::one_line(&name.replace(" × ", " by "));
            if letter.chars().eq([*sign]) { format!("{sign}  {name}") } else { format!("{sign}  {letter}: {name}") }
        });
        let others = self.0.iter().any(|(_, _, sign)| *sign == '*');
        lines.chain(others.then(|| "*  further pieces".to_owned()))
    }
}

/// Draws the first lengths in lines of at most `width` columns, with a legend; with box-drawing characters only if
/// `boxes`.
pub(crate) fn lay_text(lengths: &[DrawnLength], style: &Style, boxes: bool, width: usize) -> Vec<String> {
    let mut key = Key(Vec::new());
    let mut lines = Vec::new();
    let columns = width.saturating_sub(2).clamp(16, 110);
    for length in lengths.iter().take(MOST_DRAWN) {
        let multiplier = match (length.times, boxes) {
            (1, _) => String::new(),
            (times, true) => format!(" × {times}"),
            (times, false) => format!(", {times} alike"),
        };
        let say = |length: Length| style.show_on_tape(length.into());
        let lead = if length.lead.is_positive() {
            format!(", up to {} of it before 0", say(length.lead))
        } else {
            String::new()
        };
        let size = say(length.length + length.lead);
        lines.push(plain_text::one_line(&format!("{}{multiplier}, {size}{lead}", length.heading)));
        if length.roll {
            bar(length, boxes, columns, &mut key, &mut lines);
        } else {
            cloth(length, boxes, columns, &mut key, &mut lines);
        }
    }
    lines.extend(key.legend());
    if lengths.len() > MOST_DRAWN {
        let more = lengths.len() - MOST_DRAWN;
        lines.push(if more == 1 {
            "1 more is not drawn here".to_owned()
        } else {
            format!("{more} more are not drawn here")
        });
    }
    lines
        .into_iter()
        .flat_map(|line| if wrap::width(&line) > width { wrap::hang("", &line, width) } else { vec![line] })
        .collect()
}

fn whole(value: f64) -> usize {
    number::nearest_whole(value).and_then(number::count).unwrap_or(0)
}

fn bar(length: &DrawnLength, boxes: bool, columns: usize, key: &mut Key, lines: &mut Vec<String>) {
    let scale = number::from_count(columns) / length.length.steps();
    let at = |mark: Length| whole(mark.steps() * scale);
    let wall = if boxes { '│' } else { '|' };
    let mut drawn = vec![' '; columns + 1];
    let mut put = |place: usize, sign: char| {
        if let Some(cell) = drawn.get_mut(place) {
            *cell = sign;
        }
    };
    for rest in length.rests.iter().filter(|rest| !rest.kept) {
        (at(rest.from)..at(rest.to)).for_each(|place| put(place, '.'));
    }
    // Pieces narrower than three columns are distinguished by their letters alone.
    let narrow = length.cuts.iter().any(|cut| at(cut.to) < at(cut.from) + 3);
    for cut in &length.cuts {
        let (from, to) = (at(cut.from), at(cut.to));
        let letter = key.sign(cut);
        if narrow {
            (from..to.max(from + 1)).for_each(|place| put(place, letter));
        } else {
            put(from, wall);
            put(to, wall);
            put((from + to).div_ceil(2), letter);
        }
    }
    put(0, wall);
    put(columns, wall);
    put(at(length.used), wall);
    lines.push(drawn.into_iter().collect());
}

/// A grid of lines, with the letters between them.
struct Canvas {
    columns: usize,
    strokes: Vec<u8>,
    signs: Vec<char>,
}

impl Canvas {
    fn new(columns: usize, rows: usize) -> Self {
        let cells = (columns + 1) * (rows + 1);
        Self { columns, strokes: vec![0; cells], signs: vec!['.'; cells] }
    }

    fn place(&self, x: usize, y: usize) -> usize {
        y * (self.columns + 1) + x
    }

    fn stroke(&mut self, x: usize, y: usize, ways: u8) {
        let place = self.place(x, y);
        if let Some(cell) = self.strokes.get_mut(place) {
            *cell |= ways;
        }
    }

    fn sign(&mut self, x: usize, y: usize, sign: char) {
        let place = self.place(x, y);
        if let Some(cell) = self.signs.get_mut(place) {
            *cell = sign;
        }
    }

    fn rectangle(&mut self, (left, right): (usize, usize), (top, bottom): (usize, usize)) {
        for x in left..right {
            for y in [top, bottom] {
                self.stroke(x, y, RIGHT);
                self.stroke(x + 1, y, LEFT);
            }
        }
        for y in top..bottom {
            for x in [left, right] {
                self.stroke(x, y, DOWN);
                self.stroke(x, y + 1, UP);
            }
        }
    }

    fn fill(&mut self, (left, right): (usize, usize), (top, bottom): (usize, usize), sign: char) {
        for y in top..=bottom {
            for x in left..=right {
                self.sign(x, y, sign);
            }
        }
    }

    fn lines(&self, boxes: bool) -> Vec<String> {
        let cells = self
            .strokes
            .iter()
            .zip(&self.signs)
            .map(|(ways, sign)| if *ways == 0 { *sign } else { stroke(*ways, boxes) });
        let cells: Vec<char> = cells.collect();
        cells.chunks(self.columns + 1).map(|line| line.iter().collect::<String>().trim_end().to_owned()).collect()
    }
}

fn stroke(ways: u8, boxes: bool) -> char {
    if !boxes {
        return match ways {
            1..=3 => '-',
            4 | 8 | 12 => '|',
            _ => '+',
        };
    }
    match ways {
        1..=3 => '─',
        4 | 8 | 12 => '│',
        5 => '┘',
        6 => '└',
        7 => '┴',
        9 => '┐',
        10 => '┌',
        11 => '┬',
        13 => '┤',
        14 => '├',
        _ => '┼',
    }
}

fn cloth(length: &DrawnLength, boxes: bool, columns: usize, key: &mut Key, lines: &mut Vec<String>) {
    let (width, used) = (length.width.steps(), length.used.steps());
    // Only the beginning of a long rest is drawn.
    let end = length.length.steps().min(used * 1.1 + width * 0.1);
    let wide = number::from_count(columns);
    let lines_in = |parts: f64| width / (end / parts) * wide / TALL;
    let parts =
        [1.0, 2.0, 3.0, MOST_PARTS].into_iter().find(|parts| lines_in(*parts) >= FEWEST_LINES).unwrap_or(MOST_PARTS);
    let rows = whole(lines_in(parts).clamp(FEWEST_LINES, MOST_LINES));
    let part = end / parts;
    // If the lines are limited to what a screen takes, so are the columns.
    let columns = whole((part * number::from_count(rows) * TALL / width).min(wide)).max(8);
    let mut start = 0.0;
    let mut number = 0.0;
    while number < parts {
        let stop = if number + 1.0 < parts { start + part } else { end };
        let mut canvas = Canvas::new(columns, rows);
        let x = |mark: Length| {
            whole((mark.steps().clamp(start, stop) - start) / (stop - start) * number::from_count(columns))
        };
        let y = |mark: Length| whole(mark.steps() / width * number::from_count(rows));
        let seen = |from: Length, to: Length| from.steps() < stop && to.steps() > start;
        for rest in length.rests.iter().filter(|rest| rest.kept && seen(rest.from, rest.to)) {
            canvas.fill((x(rest.from), x(rest.to)), (y(rest.across_from), y(rest.across_to)), ' ');
        }
        for cut in length.cuts.iter().filter(|cut| seen(cut.from, cut.to)) {
            let (across, down) = ((x(cut.from), x(cut.to)), (y(cut.across_from), y(cut.across_to)));
            canvas.fill(across, down, ' ');
            canvas.rectangle(across, down);
            let letter = key.sign(cut);
            canvas.sign(usize::midpoint(across.0, across.1), usize::midpoint(down.0, down.1), letter);
        }
        canvas.rectangle((0, columns), (0, rows));
        lines.extend(canvas.lines(boxes));
        start = stop;
        number += 1.0;
    }
    if end < length.length.steps() {
        lines.push("the rest of it is not drawn".to_owned());
    }
}

#[cfg(test)]
mod tests {
    use super::super::drawn_lay::{DrawnLayers, DrawnRest};
    use super::*;

    fn strip(name: &str, from: f64, along: f64, across: (f64, f64)) -> DrawnCut {
        let inches = Length::inches;
        DrawnCut {
            letter: name.chars().next().map(|c| c.to_ascii_uppercase().to_string()).unwrap_or_default(),
            name: name.to_owned(),
            order: None,
            size: format!("{along} in"),
            from: inches(from),
            to: inches(from + along),
            across_from: inches(across.0),
            across_to: inches(across.1),
            lines: Vec::new(),
            along: (1.0, 0.0),
            own_size: (inches(along), Some(inches(across.1 - across.0))),
            one_way: false,
            layers: DrawnLayers::One,
        }
    }

    fn length(roll: bool, long: f64, cuts: Vec<DrawnCut>) -> DrawnLength {
        let rest = DrawnRest {
            from: Length::inches(long - 10.0),
            to: Length::inches(long),
            across_from: Length::ZERO,
            across_to: Length::inches(6.0),
            kept: false,
            along: Length::inches(10.0),
            across: Length::inches(6.0),
            unwashed: false,
        };
        DrawnLength {
            heading: "A".to_owned(),
            times: 12,
            length: Length::inches(long),
            lead: Length::ZERO,
            used: Length::inches(long - 10.0),
            width: Length::inches(6.0),
            roll,
            folded: false,
            cuts,
            rests: vec![rest],
            off_pieces: Vec::new(),
        }
    }

    /// Own drawing: 40 in on 20 columns, two inches each.
    #[test]
    fn a_roll_is_a_bar_with_letters() {
        let cuts = vec![strip("long", 0.0, 20.0, (0.0, 6.0)), strip("short", 20.0, 8.0, (0.0, 6.0))];
        let lines = lay_text(&[length(true, 40.0, cuts)], &Style::default(), false, 22);
        assert_eq!(lines, ["A, 12 alike, 40 in", "|    L    | S ||....|", "L  long, 20 in", "S  short, 8 in"]);
    }

    /// By counting: the 27th kind of piece has the letter AA, which does not go into a cell.
    #[test]
    fn a_piece_after_z_has_a_sign_that_the_legend_explains() {
        let named = |letter: &str, name: &str, from| DrawnCut {
            letter: letter.to_owned(),
            ..strip(name, from, 10.0, (0.0, 6.0))
        };
        let cuts = vec![named("Z", "tie", 0.0), named("AA", "loop", 10.0)];
        let lines = lay_text(&[length(true, 40.0, cuts)], &Style::default(), false, 42);
        assert_eq!(lines[2..], ["Z  tie, 10 in", "a  AA: loop, 10 in"]);
        assert!(lines[1].contains('Z') && lines[1].contains('a'), "{lines:?}");
    }

    #[test]
    fn cloth_is_boxes_with_letters_and_no_line_is_too_long() {
        let cuts = vec![strip("left", 0.0, 20.0, (0.0, 3.0)), strip("right", 0.0, 20.0, (3.0, 6.0))];
        for boxes in [false, true] {
            let lines = lay_text(&[length(false, 30.0, cuts.clone())], &Style::default(), boxes, 40);
            assert!(lines.iter().all(|line| wrap::width(line) <= 40), "{lines:#?}");
            let drawn = lines.join("\n");
            assert_eq!(drawn.is_ascii(), !boxes, "{drawn}");
            assert!(drawn.contains(" L ") && drawn.contains(" R ") && drawn.contains(".."), "{drawn}");
        }
    }
}
