//! The tour: a five-minute introduction in parts. Each part has lines to type with their answers, computed with
//! the workshop's own settings.

use super::line::{self, Line};
use super::page::{Page, Tools};
use super::value::shown;
use super::world::NoWorld;
use crate::engine::Host;
use crate::quantity::Tape;
use crate::report::{Look, text_table};

/// Width of a table in the tour, in columns; fits any window.
const WIDTH: usize = 60;

/// The number of parts.
pub(crate) const PARTS: usize = 5;

/// One part: its text, and the lines to type in inches and in centimetres.
struct Part {
    title: &'static str,
    says: &'static str,
    inch: &'static [&'static str],
    metric: &'static [&'static str],
    ends: &'static str,
}

static TOUR: [Part; PARTS] = [
    Part {
        title: "Sums with units",
        says: "Type a sum as you would say it, each measure with its unit. Fractions of an inch, yards and inches \
               together, prices by the yard or metre: all are read and kept apart.",
        inch: &["23 in / 2 in * 10", "14 1/2 in + 7/8 in", "$4.50/yd * 3.5 yd", "1 yd 4 in as cm"],
        metric: &["60 cm / 5 cm * 10", "36.5 cm + 8 mm", "$4.50/m * 3.2 m", "1 m 4 cm as in"],
        ends: "A length and a time cannot be added, and the prompt says so and marks the place.",
    },
    Part {
        title: "Names",
        says: "Give a name to what you measured. What reads the name follows it: change one figure and see what else \
               changed, and from what.",
        inch: &["waist = 22 in", "band = waist + 4 in", "strips = up(band * 3 / 6 in)", "waist = 24 in"],
        metric: &["waist = 56 cm", "band = waist + 10 cm", "strips = up(band * 3 / 15 cm)", "waist = 60 cm"],
        ends: "take back undoes a line; show lists the page; a note stands behind a # sign.",
    },
    Part {
        title: "What if",
        says: "Try a measure over a range, and see where a count jumps to the next.",
        inch: &[
            "waist = 22 in",
            "strips = up(waist * 3 / 6 in)",
            "vary waist from 20 in to 26 in by 2 in, show strips",
        ],
        metric: &[
            "waist = 56 cm",
            "strips = up(waist * 3 / 15 cm)",
            "vary waist from 50 cm to 65 cm by 5 cm, show strips",
        ],
        ends: "help gathering lists the trade's own functions; help strips_for explains one of them.",
    },
    Part {
        title: "Recipes",
        says: "A recipe knows a garment: it asks for the measures, and gives pieces, needs, minutes and price. Type \
               recipes for the list, and then the line below: what is missing is asked, one question after the other.",
        inch: &["run gathered_skirt as first"],
        metric: &["run gathered_skirt as first"],
        ends: "Then show first is its first screen, all first tells everything, first.price is its price, vary waist tries other sizes, and \
               write first to tables leaves CSV files in a folder.",
    },
    Part {
        title: "Keeping",
        says: "Every line is kept as you type it. A page is a text file that you can read, mail and compare.",
        inch: &["save fair.txt", "open fair.txt", "compare"],
        metric: &["save fair.txt", "open fair.txt", "compare"],
        ends: "Ctrl-D leaves. A page without a name is kept too: open left brings it back.",
    },
];

/// Returns the text of one part, counted from 0, with each line and its answer. Empty if there is no such part.
pub(crate) fn part(number: usize, host: &Host) -> String {
    let Some(part) = TOUR.get(number) else { return String::new() };
    let style = host.style();
    let typed = match style.tape {
        Tape::Inch => part.inch,
        Tape::Metric => part.metric,
    };
    let mut lines = vec![format!("{} of {PARTS}: {}", number + 1, part.title), part.says.to_owned()];
    let mut page = Page::default();
    let mut world = NoWorld;
    for line in typed {
        let line = in_workshop(line, host);
        lines.push(format!("  > {line}"));
        lines.extend(answers(&mut page, &mut Tools { host, world: &mut world }, &line));
    }
    lines.push(part.ends.to_owned());
    if number + 1 < PARTS {
        lines.push("Type tour for the next part.".to_owned());
    }
    lines.join("\n")
}

/// Adapts a line to the workshop's currency and decimal mark.
fn in_workshop(line: &str, host: &Host) -> String {
    let line = line.replace('$', &host.style().currency.to_string());
    if host.reading().decimal_comma { line.replace('.', ",") } else { line }
}

/// The answer to a line; empty for lines that cannot run here, such as `run` and `save`.
fn answers(page: &mut Page, tools: &mut Tools<'_>, line: &str) -> Vec<String> {
    let style = tools.host.style();
    if let Line::Verb { verb: "vary", rest } = line::read(line, tools.host.reading()) {
        let table = page.vary(tools, &rest).map(|table| text_table(&table, &style, Look::Columns, WIDTH));
        return table.unwrap_or_default().lines().map(|line| format!("    {line}")).collect();
    }
    let Ok(entered) = page.enter(tools, line) else { return Vec::new() };
    if let Some(answer) = &entered.answer {
        return shown(answer, &style).map(|shown| format!("    {shown}")).into_iter().collect();
    }
    let texts = entered.changes.iter().filter_map(|change| change.describe(&style, true));
    let texts = texts.filter_map(|text| {
        let now = text.now?.ok()?;
        Some(match text.was {
            Some(was) => format!("    {}  {now}   was {was}", text.name),
            None => format!("    {}  {now}", text.name),
        })
    });
    texts.collect()
}
