//! Bar charts: lines of text for the terminal, pages of SVG for a file.
//!
//! Every bar has its figure beside it, so that a chart reads the same without colour, on paper and aloud. Never here: which
//! figures are drawn.

use super::canvas::{Anchor, Fill, Frame, LINE, Pen, SMALLEST, Sketch, Text, text_width};
use super::picture_page::{Pages, PictureHead, WIDE, height_below, written};
use super::plain_text::one_line;
use super::wrap;
use std::io;

/// One bar.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Bar {
    /// What it stands for.
    pub(crate) label: String,
    /// Its figure as shown.
    pub(crate) figure: String,
    /// Its length, in any unit that all bars of the chart share; below zero counts as zero.
    pub(crate) size: f64,
    /// What else is to be said; may be empty.
    pub(crate) remark: String,
}

/// Bars of one kind.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Chart {
    /// What the bars show.
    pub(crate) heading: String,
    /// The bars, in order.
    pub(crate) bars: Vec<Bar>,
}

impl Chart {
    /// The share of the longest bar that a bar has.
    fn share(&self, bar: &Bar) -> f64 {
        let longest = self.bars.iter().map(|bar| bar.size).filter(|size| size.is_finite()).fold(0.0, f64::max);
        if longest > 0.0 && bar.size.is_finite() { (bar.size / longest).clamp(0.0, 1.0) } else { 0.0 }
    }
}

/// The most signs of a bar.
const LONGEST: usize = 30;
/// A remark has at least this much room beside the bars.
const REMARK: usize = 24;

/// Returns the lines of a chart: label, figure, bar, remark. Aloud the bars are left out, for each has its figure.
pub(crate) fn chart_text(chart: &Chart, width: usize, aloud: bool) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    if !chart.heading.is_empty() {
        lines.push(one_line(&chart.heading));
    }
    let widest =
        |text: fn(&Bar) -> &str| chart.bars.iter().map(|bar| wrap::width(&one_line(text(bar)))).max().unwrap_or(0);
    let (labels, figures) = (widest(|bar| &bar.label).min(width / 3), widest(|bar| &bar.figure));
    let has_remarks = chart.bars.iter().any(|bar| !bar.remark.is_empty());
    let taken = labels + figures + 6 + if has_remarks { REMARK } else { 0 };
    let longest = width.saturating_sub(taken).clamp(4, LONGEST);
    for bar in &chart.bars {
        let (label, figure) = (one_line(&bar.label), one_line(&bar.figure));
        if aloud {
            let remark = if bar.remark.is_empty() { String::new() } else { format!("; {}", one_line(&bar.remark)) };
            lines.extend(wrap::wrap(&format!("{label}: {figure}{remark}"), width));
            continue;
        }
        // The shortest bar that is more than nothing has one sign.
        let signs = signs_of(chart.share(bar), longest);
        let signs = wrap::pad(&"#".repeat(signs), if bar.remark.is_empty() { 0 } else { longest }, false);
        let before = format!("{}  {}  ", wrap::pad(&label, labels, false), wrap::pad(&figure, figures, true));
        let room = width.saturating_sub(wrap::width(&before) + wrap::width(&signs) + 2);
        let line = format!("{before}{signs}");
        match wrap::width(&one_line(&bar.remark)) {
            0 => lines.push(line.trim_end().to_owned()),
            wide if wide <= room => lines.push(format!("{line}  {}", one_line(&bar.remark))),
            _ => {
                lines.push(line.trim_end().to_owned());
                lines.extend(wrap::hang(&" ".repeat(labels + 2), &one_line(&bar.remark), width));
            }
        }
    }
    lines
}

fn signs_of(share: f64, longest: usize) -> usize {
    (1..=longest)
        .rev()
        .find(|signs| share * number(longest) + 0.5 >= number(*signs))
        .unwrap_or(usize::from(share > 0.0))
}

fn number(count: usize) -> f64 {
    crate::quantity::number::from_count(count)
}

/// The height of a bar on paper, in millimetres.
const HIGH: f64 = 4.0;
/// From one bar to the next.
const STEP: f64 = 6.0;

/// Draws charts, one below the other, on as many pages as they take, each the bytes of an SVG file.
///
/// # Errors
/// The bytes cannot be written.
pub(crate) fn chart_pages(charts: &[Chart], head: &PictureHead) -> io::Result<Vec<Vec<u8>>> {
    let mut pages = Pages::new(height_below(head));
    for chart in charts {
        if !chart.heading.is_empty() {
            let mut heading = Sketch::default();
            heading.text(Text::new(&one_line(&chart.heading), (0.0, 0.0), Anchor::Start).bold(SMALLEST + 0.6));
            pages.below(heading);
            pages.space(LINE - SMALLEST);
        }
        let widest = |text: fn(&Bar) -> &str| {
            chart.bars.iter().map(|bar| text_width(&one_line(text(bar)), SMALLEST, false)).fold(0.0, f64::max)
        };
        let labels = widest(|bar| &bar.label).min(WIDE / 3.0);
        let figures = widest(|bar| &bar.figure).min(WIDE / 4.0);
        let remarks = widest(|bar| &bar.remark).min(WIDE / 3.0);
        let start = labels + figures + 6.0;
        let longest = (WIDE - start - remarks - 3.0).max(10.0);
        for bar in &chart.bars {
            let mut row = Sketch::default();
            row.text(Text::new(&one_line(&bar.label), (0.0, HIGH / 2.0), Anchor::Start));
            row.text(Text::new(&one_line(&bar.figure), (labels + 3.0 + figures, HIGH / 2.0), Anchor::End));
            let long = longest * chart.share(bar);
            let frame = Frame { left: start, top: 0.0, right: start + long, bottom: HIGH };
            row.box_of(frame, Fill::Order(2));
            row.closed(&frame.corners(), Pen::Edge);
            if !bar.remark.is_empty() {
                row.text(Text::new(&one_line(&bar.remark), (start + long + 2.0, HIGH / 2.0), Anchor::Start));
            }
            pages.below(row);
            pages.space(STEP - HIGH);
        }
        pages.space(STEP);
    }
    written(&pages.finished_without_scale(head))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chart() -> Chart {
        let bar = |label: &str, figure: &str, size: f64, remark: &str| Bar {
            label: label.to_owned(),
            figure: figure.to_owned(),
            size,
            remark: remark.to_owned(),
        };
        let bars = vec![
            bar("20 in", "$35.50", 35.5, ""),
            bar("21 1/2 in", "$71.00", 71.0, "second panel"),
            bar("22 in", "$0.10", 0.1, ""),
        ];
        Chart { heading: "price".to_owned(), bars }
    }

    #[test]
    fn bars_are_in_proportion_and_the_smallest_is_seen() {
        let lines = chart_text(&chart(), 80, false);
        assert_eq!(
            lines,
            [
                "price",
                "20 in      $35.50  ###############",
                "21 1/2 in  $71.00  ##############################  second panel",
                "22 in       $0.10  #",
            ]
        );
    }

    #[test]
    fn a_narrow_screen_and_a_voice_lose_nothing() {
        let narrow = chart_text(&chart(), 40, false);
        assert!(narrow.iter().all(|line| wrap::width(line) <= 40), "{narrow:?}");
        let narrower = chart_text(&chart(), 28, false);
        assert!(narrower.iter().all(|line| wrap::width(line) <= 28), "{narrower:?}");
        assert!(narrower.iter().any(|line| line.trim() == "second panel"), "{narrower:?}");
        let aloud = chart_text(&chart(), 80, true);
        assert_eq!(aloud, ["price", "20 in: $35.50", "21 1/2 in: $71.00; second panel", "22 in: $0.10"]);
    }

    #[test]
    fn a_picture_has_every_figure_and_a_bar_of_its_length() {
        let head = PictureHead { title: "order 32".to_owned(), ..PictureHead::default() };
        let pages = chart_pages(&[chart()], &head).unwrap();
        let text = String::from_utf8(pages.concat()).unwrap();
        for figure in ["$35.50", "$71.00", "second panel", "order 32"] {
            assert!(text.contains(figure), "{figure}");
        }
        assert!(!text.contains("scale"));
    }
}
