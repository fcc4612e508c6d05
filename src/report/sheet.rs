//! The sheet for the cutting table: plain characters only, to be printed or pinned up and ticked off by hand.
//!
//! No line is wider than requested (but at least 24 columns), whatever the texts are. Never here: what an order says, and
//! what stands in the lines of its cuts.

use super::grid::{Grid, joined};
use super::plain_text;
use super::records;
use super::wrap;
use crate::quantity::Style;
use crate::table::Table;

/// The default width of a sheet.
pub(crate) const SHEET_WIDTH: usize = 80;
/// The narrowest sheet.
const NARROWEST: usize = 24;
/// A label longer than this, or than half the sheet, has its value directly after it instead of aligned with the
/// others.
const LONGEST_LABEL: usize = 24;
const GAP: &str = "  ";
/// What a line to tick off begins with.
pub(crate) const TICK: &str = "[ ] ";

/// The width of the labels of a page to cut from.
const LABEL: usize = 7;

/// What is on one sheet: pages, each with the same head.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Sheet {
    /// Whose: `order 41  Alder, landing window   due Fri 11 Dec`.
    pub title: String,
    /// What: `pair of curtains, track 200 cm, drop 190 cm`.
    pub what: String,
    /// The tape of every figure without a unit: `inch, to 1/8`.
    pub tape: String,
    /// The pages, in the order they are worked through.
    pub pages: Vec<Page>,
}

/// A page of a sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Page {
    /// What is done by it: `cutting`.
    pub name: String,
    /// Pairs of label and value: `waist`, `56 cm`.
    pub order: Vec<(String, String)>,
    /// The parts, in the order they are worked through.
    pub sections: Vec<Section>,
}

/// One part of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Section {
    /// Its heading: `Cut`, `Mark`, `Sew`.
    pub heading: String,
    /// The content under it.
    pub body: SectionBody,
}

/// A block of the page to cut from: what it is about, and its lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct SheetBlock {
    /// One word, such as `CUT`.
    pub label: &'static str,
    /// Its lines; one that begins with [`TICK`] is ticked off.
    pub lines: Vec<String>,
}

/// The content under a heading.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum SectionBody {
    /// Blocks of lines, each with its label at the side. The section has no heading.
    Blocks(Vec<SheetBlock>),
    /// Rows to be ticked off: cuts.
    Ticked(Table),
    /// Rows to be looked at: marks, needs.
    Listed(Table),
    /// Numbered steps to be ticked off.
    Steps(Vec<String>),
    /// Cautions, in a block that cannot be overlooked.
    Cautions(Vec<String>),
    /// Notes, one paragraph each.
    Notes(Vec<String>),
}

impl Section {
    pub(crate) fn new(heading: &str, body: SectionBody) -> Self {
        Self { heading: heading.to_owned(), body }
    }

    /// Whether there is nothing under its heading.
    pub(crate) fn is_empty(&self) -> bool {
        match &self.body {
            SectionBody::Blocks(blocks) => blocks.is_empty(),
            SectionBody::Ticked(table) | SectionBody::Listed(table) => table.is_empty(),
            SectionBody::Steps(texts) | SectionBody::Cautions(texts) | SectionBody::Notes(texts) => texts.is_empty(),
        }
    }
}

impl Sheet {
    /// The lines of the sheet. An empty section is left out with its heading.
    pub(crate) fn lines(&self, style: &Style, width: usize) -> Vec<String> {
        let width = width.max(NARROWEST);
        let style = Style { plain: true, ..*style };
        let mut lines = Vec::new();
        if self.pages.is_empty() {
            lines.extend(self.head(None, width));
        }
        for (place, page) in self.pages.iter().enumerate() {
            if place > 0 {
                lines.push(String::new());
            }
            lines.extend(self.head(Some((page, place)), width));
            if !page.order.is_empty() {
                lines.extend(order_lines(&page.order, width));
                lines.push(String::new());
            }
            let mut sections = page.sections.iter().filter(|section| !section.is_empty()).peekable();
            while let Some(section) = sections.next() {
                lines.extend(section_lines(section, &style, width));
                if sections.peek().is_some() {
                    lines.push(String::new());
                }
            }
        }
        lines
    }

    /// The head of a page: whose and what, which page, which tape, and a rule.
    fn head(&self, page: Option<(&Page, usize)>, width: usize) -> Vec<String> {
        let number = page.map(|(page, place)| format!("page {} of {}: {}", place + 1, self.pages.len(), page.name));
        let number = number.unwrap_or_default();
        let mut lines = apart(&format!("SHEET  {}", sheet_text(&self.title)), &number, width);
        let tape = if self.tape.is_empty() || page.is_none() { String::new() } else { format!("tape: {}", self.tape) };
        let answers = apart(&sheet_text(&self.what), &tape, width);
        lines.extend(answers.into_iter().filter(|line| !line.is_empty()));
        lines.push("-".repeat(width));
        lines
    }
}

/// Two texts at the ends of a line, or on lines of their own if they do not fit on one.
fn apart(left: &str, right: &str, width: usize) -> Vec<String> {
    let gap = width.saturating_sub(wrap::width(left) + wrap::width(right));
    if wrap::width(left) <= width && right.is_empty() {
        return vec![left.to_owned()];
    }
    if left.is_empty() || gap < GAP.len() {
        // What fits keeps its blanks.
        let lines =
            |text: &str| if wrap::width(text) <= width { vec![text.to_owned()] } else { wrap::wrap(text, width) };
        return [left, right].into_iter().filter(|text| !text.is_empty()).flat_map(lines).collect();
    }
    vec![format!("{left}{}{right}", " ".repeat(gap))]
}

/// Blocks of lines with their labels; a line too long is wrapped behind its tick.
fn block_lines(blocks: &[SheetBlock], width: usize) -> Vec<String> {
    let mut drawn = Vec::new();
    for SheetBlock { label, lines } in blocks {
        for (place, line) in lines.iter().enumerate() {
            let label = if place == 0 { *label } else { "" };
            let label = wrap::pad(label, LABEL, false);
            let text = sheet_text(line);
            let whole = format!("{label}{text}");
            if wrap::width(&whole) <= width {
                drawn.push(whole.trim_end().to_owned());
                continue;
            }
            // Columns stay as they are; what stands behind the last of them goes on a line of its own.
            if let Some((columns, last)) = text.rsplit_once(GAP).filter(|(columns, _)| {
                columns.contains(GAP) && wrap::width(&label) + wrap::width(columns.trim_end()) <= width
            }) {
                drawn.push(format!("{label}{}", columns.trim_end()));
                drawn.extend(wrap::hang(&" ".repeat(LABEL + 2 * TICK.len()), last, width));
                continue;
            }
            let (tick, rest) = text.split_at(if text.starts_with(TICK) { TICK.len() } else { 0 });
            drawn.extend(wrap::hang(&format!("{label}{tick}"), rest, width));
        }
    }
    drawn
}

fn section_lines(section: &Section, style: &Style, width: usize) -> Vec<String> {
    let heading = || underlined(&section.heading, '-', width);
    let under = match &section.body {
        SectionBody::Blocks(blocks) => return block_lines(blocks, width),
        SectionBody::Ticked(table) => table_lines(&Grid::of(table, style), TICK, width),
        SectionBody::Listed(table) => table_lines(&Grid::of(table, style), "", width),
        SectionBody::Steps(steps) => step_lines(steps, width),
        SectionBody::Notes(notes) => notes.iter().flat_map(|note| wrap::wrap(&sheet_text(note), width)).collect(),
        SectionBody::Cautions(cautions) => return caution_block(&section.heading, cautions, width),
    };
    heading().into_iter().chain(under).collect()
}

/// A heading and a rule as long as its longest line.
fn underlined(heading: &str, rule: char, width: usize) -> Vec<String> {
    let mut lines = wrap::wrap(&sheet_text(heading), width);
    let longest = lines.iter().map(|line| wrap::width(line)).max().unwrap_or(0);
    lines.push(rule.to_string().repeat(longest));
    lines
}

fn order_lines(order: &[(String, String)], width: usize) -> Vec<String> {
    let pairs: Vec<(String, String)> =
        order.iter().map(|(label, value)| (format!("{}:", sheet_text(label)), sheet_text(value))).collect();
    let labels = pairs.iter().map(|(label, _)| wrap::width(label));
    let column = labels.filter(|label| *label <= LONGEST_LABEL.min(width / 2)).max().unwrap_or(0);
    let line = |(label, value): &(String, String)| {
        if wrap::width(label) <= column {
            wrap::hang(&format!("{} ", wrap::pad(label, column, false)), value, width)
        } else {
            let wrapped = wrap::wrap(&format!("{label} {value}"), width.saturating_sub(GAP.len()));
            let lines = wrapped.iter().enumerate();
            lines.map(|(at, line)| if at == 0 { line.clone() } else { format!("{GAP}{line}") }).collect()
        }
    };
    pairs.iter().flat_map(line).collect()
}

/// A table with a mark before each row, wrapped inside its columns; row by row if they do not fit.
fn table_lines(grid: &Grid, mark: &str, width: usize) -> Vec<String> {
    let gaps = GAP.len() * grid.columns().saturating_sub(1);
    let available = width.checked_sub(mark.len() + gaps);
    let Some(widths) = available.and_then(|available| grid.widths_within(available)) else {
        return records::record_lines(grid, mark, width);
    };
    let margin = " ".repeat(mark.len());
    let behind = |before: &str, line: &[String]| format!("{before}{}", joined(line, GAP)).trim_end().to_owned();
    let headings = grid.heading_lines(&widths);
    let rule: Vec<String> = widths.iter().map(|width| "-".repeat(*width)).collect();
    let mut lines: Vec<String> = headings.iter().map(|line| behind(&margin, line)).collect();
    lines.push(behind(&margin, &rule));
    for row in grid.row_lines(&widths) {
        let row = row.iter().enumerate();
        lines.extend(row.map(|(at, line)| behind(if at == 0 { mark } else { &margin }, line)));
    }
    lines
}

/// Numbered steps, with the numbers right-aligned.
fn step_lines(steps: &[String], width: usize) -> Vec<String> {
    let digits = steps.len().to_string().len();
    let step = |(at, step): (usize, &String)| {
        let prefix = format!("{TICK}{:>digits$}. ", at + 1);
        wrap::hang(&prefix, &sheet_text(step), width)
    };
    steps.iter().enumerate().flat_map(step).collect()
}

fn caution_block(heading: &str, cautions: &[String], width: usize) -> Vec<String> {
    let rule = "!".repeat(width);
    let heading = wrap::wrap(&sheet_text(heading).to_uppercase(), width.saturating_sub(2));
    let mut lines = vec![rule.clone()];
    lines.extend(heading.iter().map(|line| format!("! {line}")));
    for caution in cautions {
        let wrapped = wrap::hang("- ", &sheet_text(caution), width.saturating_sub(2));
        lines.extend(wrapped.iter().map(|line| format!("! {line}").trim_end().to_owned()));
    }
    lines.push(rule);
    lines
}

/// A text for a sheet: harmless, on one line, and without `≈`, which not every printer has.
fn sheet_text(text: &str) -> String {
    plain_text::one_line(text).replace("≈", "about")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, Quantity};
    use crate::table::Cell;
    use proptest::prelude::*;

    fn sheet() -> Sheet {
        let columns = Table::new("cut_list").text("piece").count("count").length("along", "in").length("across", "in");
        let mut cuts = columns.text("note").ready().unwrap();
        let rows = [
            ("skirt panel", 2, 24.5, 54.0, "grain along; keep the selvedges, they are the side seams"),
            ("band", 1, 23.4, 3.0, ""),
        ];
        for (piece, count, along, across, note) in rows {
            let [along, across] = [along, across].map(|inches| Length::inches(inches).into());
            cuts.push(vec![piece.into(), count.into(), along, across, note.into()]).unwrap();
        }
        let mut marks = Table::new("marks").text("piece").text("mark").length("at", "in").ready().unwrap();
        let at = Cell::from(Quantity::from(Length::inches(26.5)));
        marks.push(vec!["skirt panel".into(), "middle".into(), at]).unwrap();
        let steps = [
            "Join the panels at the selvedges.",
            "Gather 106 in of the upper edge down to ≈ 23 3/8 in with two rows at 3/8 in and 5/8 in from the edge.",
        ];
        Sheet {
            title: "order 17".to_owned(),
            what: "gathered skirt, waist 21 in".to_owned(),
            tape: "inch, to 1/8".to_owned(),
            pages: vec![Page {
                name: "sewing".to_owned(),
                order: [("waist", "21 in"), ("waist seam to hem", "22 in"), ("cloth", "any 56 in")]
                    .map(|(label, value)| (label.to_owned(), value.to_owned()))
                    .to_vec(),
                sections: vec![
                    Section::new("Cut", SectionBody::Ticked(cuts)),
                    Section::new("Mark", SectionBody::Listed(marks)),
                    Section::new("Sew", SectionBody::Steps(steps.map(str::to_owned).to_vec())),
                    Section::new("Needs", SectionBody::Notes(Vec::new())),
                    Section::new(
                        "Cautions",
                        SectionBody::Cautions(vec![
                            "Keep away from fire. Local law may ask for a test; ask a licensed laboratory.".to_owned(),
                            "Elastic: measure on the body.".to_owned(),
                        ]),
                    ),
                ],
            }],
        }
    }

    #[track_caller]
    fn check(width: usize, drawn: &str) {
        let found = sheet().lines(&Style::default(), width).join("\n") + "\n";
        assert_eq!(found, drawn.trim_start_matches('\n'), "found:\n{found}");
    }

    #[test]
    fn eighty_columns() {
        check(
            SHEET_WIDTH,
            "
SHEET  order 17                                              page 1 of 1: sewing
gathered skirt, waist 21 in                                   tape: inch, to 1/8
--------------------------------------------------------------------------------
waist:             21 in
waist seam to hem: 22 in
cloth:             any 56 in

Cut
---
    piece        count            along  across  note
    -----------  -----  ---------------  ------  -------------------------------
[ ] skirt panel      2        24 1/2 in   54 in  grain along; keep the
                                                 selvedges, they are the side
                                                 seams
[ ] band             1  about 23 3/8 in    3 in

Mark
----
piece        mark           at
-----------  ------  ---------
skirt panel  middle  26 1/2 in

Sew
---
[ ] 1. Join the panels at the selvedges.
[ ] 2. Gather 106 in of the upper edge down to about 23 3/8 in with two rows at
       3/8 in and 5/8 in from the edge.

!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!
! CAUTIONS
! - Keep away from fire. Local law may ask for a test; ask a licensed
!   laboratory.
! - Elastic: measure on the body.
!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!
",
        );
    }

    #[test]
    fn forty_columns() {
        check(
            40,
            "
SHEET  order 17      page 1 of 1: sewing
gathered skirt, waist 21 in
tape: inch, to 1/8
----------------------------------------
waist:             21 in
waist seam to hem: 22 in
cloth:             any 56 in

Cut
---
[ ] piece: skirt panel
    count: 2
    along: 24 1/2 in
    across: 54 in
    note: grain along; keep the
      selvedges, they are the side seams

[ ] piece: band
    count: 1
    along: about 23 3/8 in
    across: 3 in

Mark
----
piece        mark           at
-----------  ------  ---------
skirt panel  middle  26 1/2 in

Sew
---
[ ] 1. Join the panels at the selvedges.
[ ] 2. Gather 106 in of the upper edge
       down to about 23 3/8 in with two
       rows at 3/8 in and 5/8 in from
       the edge.

!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!
! CAUTIONS
! - Keep away from fire. Local law may
!   ask for a test; ask a licensed
!   laboratory.
! - Elastic: measure on the body.
!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!
",
        );
    }

    #[test]
    fn ten_steps_have_their_numbers_in_line() {
        let steps = vec!["Sew.".to_owned(); 10];
        let lines = step_lines(&steps, 40);
        assert_eq!((lines[8].as_str(), lines[9].as_str()), ("[ ]  9. Sew.", "[ ] 10. Sew."));
    }

    fn any_text() -> impl Strategy<Value = String> {
        prop_oneof![any::<String>(), "([a-z]{1,9} ){0,30}", "[絹ñé👩\u{200d}0-9/ ]{0,60}"]
    }

    fn any_table() -> impl Strategy<Value = Table> {
        let row = (any_text(), any::<i64>(), -1e7..1e7, any_text());
        prop::collection::vec(row, 0..4).prop_map(|rows| {
            let columns = Table::new("cut_list").text("piece").count("count").length("along", "yd");
            let mut table = columns.mixed("a heading of several words", "unit").ready().unwrap();
            for (piece, count, inches, note) in rows {
                table.push(vec![piece.into(), count.into(), Length::inches(inches).into(), note.into()]).unwrap();
            }
            table
        })
    }

    /// A line of cuts: with or without its tick, in columns or not.
    fn block_line() -> impl Strategy<Value = String> {
        (any::<bool>(), prop::collection::vec(any_text(), 1..5), prop::sample::select(vec![" ", "  "]))
            .prop_map(|(ticked, parts, gap)| format!("{}{}", if ticked { TICK } else { "" }, parts.join(gap)))
    }

    fn any_section() -> impl Strategy<Value = Section> {
        let texts = || prop::collection::vec(any_text(), 0..12);
        let block = (prop::sample::select(vec!["CUT", "CLOTH"]), prop::collection::vec(block_line(), 0..6));
        let block = block.prop_map(|(label, lines)| SheetBlock { label, lines });
        let body = prop_oneof![
            prop::collection::vec(block, 0..4).prop_map(SectionBody::Blocks),
            any_table().prop_map(SectionBody::Ticked),
            any_table().prop_map(SectionBody::Listed),
            texts().prop_map(SectionBody::Steps),
            texts().prop_map(SectionBody::Cautions),
            texts().prop_map(SectionBody::Notes),
        ];
        (any_text(), body).prop_map(|(heading, body)| Section { heading, body })
    }

    proptest! {
        #[test]
        fn no_line_is_wider_than_the_sheet(
            title in any_text(),
            order in prop::collection::vec((any_text(), any_text()), 0..4),
            sections in prop::collection::vec(any_section(), 0..5),
            width in 40_usize..=100,
        ) {
            let pages = vec![Page { name: "sewing".to_owned(), order, sections }];
            let sheet = Sheet { title: title.clone(), what: title, tape: String::new(), pages };
            for line in sheet.lines(&Style::default(), width) {
                prop_assert!(wrap::width(&line) <= width, "{} > {width}: {line:?}", wrap::width(&line));
                prop_assert!(!line.chars().any(char::is_control), "{line:?}");
                prop_assert!(!line.contains('≈'));
            }
        }
    }
}
