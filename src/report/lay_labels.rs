//! What is said in words in a picture of a lay: what stands above a length, what its legend tells of each letter, and
//! which orders are hatched.
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

/// What stands above a length: which it is, its size, and what of it lies before its mark 0. A roll may be of unknown
/// width, and is only cut along.
pub(super) fn heading(length: &DrawnLength, style: &Style) -> [String; 2] {
    let times = if length.times > 1 { format!(", {} cut alike", length.times) } else { String::new() };
    let long = format!("{} long", measure(length.length + length.lead, style));
    let wide = (!length.roll).then(|| format!("{} wide", measure(length.width, style)));
    let folded = length.folded.then(|| "folded lengthwise, selvedges together".to_owned());
    let lead = length.lead.is_positive().then(|| format!("up to {} of it before 0", measure(length.lead, style)));
    let size = [Some(long), wide, folded, lead].into_iter().flatten().collect::<Vec<_>>().join(", ");
    [plain_text::one_line(&format!("{}{times}", length.heading)), size]
}

/// What comes off the pieces of a length after it is cut and is kept; `None` if nothing does.
pub(super) fn off_pieces(length: &DrawnLength, style: &Style) -> Option<String> {
    let sizes = length
        .off_pieces
        .iter()
        .map(|(along, across)| format!("{} × {}", measure(*along, style), measure(*across, style)));
    let mut counted: Vec<(String, usize)> = Vec::new();
    for size in sizes {
        match counted.iter_mut().find(|(known, _)| *known == size) {
            Some((_, times)) => *times += 1,
            None => counted.push((size, 1)),
        }
    }
    let each: Vec<String> = counted.into_iter().map(|(size, times)| format!("{times} of {size}")).collect();
    (!each.is_empty()).then(|| format!("split or trimmed off its pieces, keep {}", each.join(", ")))
}

/// Whether a mark is at an edge of cloth so wide.
pub(super) fn is_edge(mark: Length, width: Length) -> bool {
    is_same(mark, Length::ZERO) || is_same(mark, width)
}

/// Whether two marks are less than a tenth of a millimetre apart.
pub(super) fn is_same(left: Length, right: Length) -> bool {
    (left - right).steps().abs() < Length::centimetres(0.01).steps()
}
