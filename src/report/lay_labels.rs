//! The orders of a lay's pieces, and what its legend tells of each letter.
//!
//! Never here: where a piece lies; drawing.

use super::drawn_lay::{DrawnCut, DrawnLayers, DrawnLength};
use super::picture_page::measure;
use super::plain_text;
use crate::quantity::{Length, Style};

/// The orders that are hatched, in order of appearance. A single order needs no hatch to be told from others.
pub(super) fn hatched_orders(lengths: &[DrawnLength]) -> Vec<String> {
    let cuts = || lengths.iter().flat_map(|length| &length.cuts);
    let mut orders: Vec<String> = Vec::new();
    for cut in cuts() {
        if let Some(order) = &cut.order
            && !orders.contains(order)
        {
            orders.push(order.clone());
        }
    }
    let plain = cuts().any(|cut| cut.order.is_none());
    if orders.len() == 1 && !plain {
        orders.clear();
    }
    orders
}

/// A line of the legend.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LegendLine {
    pub(super) letter: String,
    pub(super) text: String,
}

/// What each letter is, how many there are, and their size, in the order of the letters' first cuts.
pub(super) fn legend(lengths: &[DrawnLength], style: &Style) -> Vec<LegendLine> {
    let mut found: Vec<(String, String, i64)> = Vec::new();
    for length in lengths {
        for cut in &length.cuts {
            let what = (cut.letter.clone(), described(cut, style));
            let times = length.times.max(1);
            match found.iter_mut().find(|(letter, text, _)| *letter == what.0 && *text == what.1) {
                Some((_, _, count)) => *count += times,
                None => found.push((what.0, what.1, times)),
            }
        }
    }
    let line = |(letter, text, count)| LegendLine { letter, text: format!("{count} × {text}") };
    found.into_iter().map(line).collect()
}

fn described(cut: &DrawnCut, style: &Style) -> String {
    let order = cut.order.as_ref().map(|order| format!(", for {order}")).unwrap_or_default();
    let layers = match cut.layers {
        DrawnLayers::One => "",
        DrawnLayers::Both => ", on double cloth",
        DrawnLayers::Fold => ", on the fold",
    };
    plain_text::one_line(&format!("{}, {}{layers}{order}", cut.name, size(cut, style)))
}

/// The size of a piece in its own frame.
pub(super) fn size(cut: &DrawnCut, style: &Style) -> String {
    match cut.own_size {
        (along, None) => format!("{}, full width", measure(along, style)),
        (along, Some(across)) => format!("{} × {}", measure(along, style), measure(across, style)),
    }
}

/// Name, order, layers and the size as it lies, for a lay on a screen.
pub(super) fn whole_name(cut: &DrawnCut) -> String {
    let order = cut.order.as_ref().map(|order| format!(" [{order}]")).unwrap_or_default();
    let layers = match cut.layers {
        DrawnLayers::One => "",
        DrawnLayers::Both => ", double",
        DrawnLayers::Fold => ", on the fold",
    };
    format!("{}, {}", plain_text::one_line(&format!("{}{order}{layers}", cut.name)), cut.size)
}

/// What stands above a length: which it is, and its size. A roll may be of unknown width, and is only cut along.
pub(super) fn heading(length: &DrawnLength, style: &Style) -> [String; 2] {
    let times = if length.times > 1 { format!(", {} cut alike", length.times) } else { String::new() };
    let long = measure(length.length, style);
    let size = match (length.roll, length.folded) {
        (true, _) => format!("{long} long"),
        (false, false) => format!("{long} long, {} wide", measure(length.width, style)),
        (false, true) => {
            format!("{long} long, {} wide, folded lengthwise, selvedges together", measure(length.width, style))
        }
    };
    [plain_text::one_line(&format!("{}{times}", length.heading)), size]
}

/// Whether a mark is at an edge of cloth so wide.
pub(super) fn is_edge(mark: Length, width: Length) -> bool {
    is_same(mark, Length::ZERO) || is_same(mark, width)
}

/// Whether two marks are less than a tenth of a millimetre apart.
pub(super) fn is_same(left: Length, right: Length) -> bool {
    (left - right).steps().abs() < Length::centimetres(0.01).steps()
}
