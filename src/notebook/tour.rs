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
        let line = line.replace('$', &style.currency.to_string());
        lines.push(format!("  > {}", with_mark(&line, style.decimal_comma)));
        lines.extend(answers(&mut page, &mut Tools { host, world: &mut world }, &line));
    }
    lines.push(part.ends.to_owned());
    if number + 1 < PARTS {
        lines.push("Type tour for the next part.".to_owned());
    }
    lines.join("\n")
}

/// A line as it is typed in a workshop that writes figures with a comma: `36,5 cm`, and still `fair.txt`.
fn with_mark(line: &str, decimal_comma: bool) -> String {
    let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    let mut before = None;
    let mut rest = line.chars();
    let mut marked = String::with_capacity(line.len());
    while let Some(c) = rest.next() {
        let is_mark = decimal_comma && c == '.' && digit(before) && digit(rest.clone().next());
        marked.push(if is_mark { ',' } else { c });
        before = Some(c);
    }
    marked
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::limits::{Limits, StopFlag};
    use crate::quantity::{Reading, Style};

    fn told(number: usize, reading: Reading, style: Style) -> String {
        let mut host = Host::new(reading, style, Limits::CELL, StopFlag::default());
        crate::notebook::register(&mut host);
        part(number, &host)
    }

    fn on(tape: Tape, number: usize) -> String {
        told(number, Reading::default(), Style { tape, ..Style::default() })
    }

    /// The lines that are typed and answered, without what is said around them.
    fn typed(text: &str) -> Vec<&str> {
        let lines: Vec<&str> = text.lines().collect();
        let first = lines.iter().position(|line| line.starts_with("  > ")).unwrap();
        lines[first..].iter().copied().take_while(|line| line.starts_with("  ")).collect()
    }

    /// 23 / 2 * 10 is 115, 14 1/2 and 7/8 are 15 3/8, 3.5 yd at $4.50 are $15.75, and 40 in of 2.54 cm are 101.6 cm.
    #[test]
    fn sums_are_answered_on_the_tape_of_the_workshop() {
        let part = TOUR.first().unwrap();
        assert_eq!(
            on(Tape::Inch, 0).lines().collect::<Vec<_>>(),
            [
                "1 of 5: Sums with units",
                part.says,
                "  > 23 in / 2 in * 10",
                "    115",
                "  > 14 1/2 in + 7/8 in",
                "    15 3/8 in",
                "  > $4.50/yd * 3.5 yd",
                "    $15.75",
                "  > 1 yd 4 in as cm",
                "    101.6 cm",
                part.ends,
                "Type tour for the next part.",
            ]
        );
        // 60 / 5 * 10 is 120, 3.2 m at $4.50 are $14.40.
        let metric = on(Tape::Metric, 0);
        let lines = typed(&metric);
        assert_eq!(
            lines[..6],
            [
                "  > 60 cm / 5 cm * 10",
                "    120",
                "  > 36.5 cm + 8 mm",
                "    37.3 cm",
                "  > $4.50/m * 3.2 m",
                "    $14.40"
            ]
        );
        // 104 / 2.54 is 40.94, on a tape of eighths nearest to 41.
        assert_eq!(lines[6..], ["  > 1 m 4 cm as in", "    ≈ 41 in"]);
    }

    /// A band of 26 in is 13 strips, one of 28 in 14; of 66 and 70 cm 13.2 and 14, which are 14 both.
    #[test]
    fn what_follows_a_name_is_told_with_what_it_was() {
        let inch = on(Tape::Inch, 1);
        assert_eq!(
            typed(&inch),
            [
                "  > waist = 22 in",
                "    waist  22 in",
                "  > band = waist + 4 in",
                "    band  26 in",
                "  > strips = up(band * 3 / 6 in)",
                "    strips  13",
                "  > waist = 24 in",
                "    waist  24 in   was 22 in",
                "    band  28 in   was 26 in",
                "    strips  14   was 13",
            ]
        );
        let metric = on(Tape::Metric, 1);
        assert_eq!(
            typed(&metric)[5..],
            ["    strips  14", "  > waist = 60 cm", "    waist  60 cm   was 56 cm", "    band  70 cm   was 66 cm"]
        );
    }

    /// Three times 20, 22, 24 and 26 in are 10 to 13 strips of 6 in; three times 50 to 65 cm 10 to 13 of 15 cm.
    #[test]
    fn what_is_varied_is_a_table_whose_counts_jump() {
        for (tape, waists) in
            [(Tape::Inch, ["20 in", "22 in", "24 in", "26 in"]), (Tape::Metric, ["50 cm", "55 cm", "60 cm", "65 cm"])]
        {
            let text = on(tape, 2);
            let table: Vec<&str> = typed(&text).into_iter().filter(|line| line.starts_with("    ")).collect();
            let cells = |line: &str| -> Vec<String> {
                line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).map(str::to_owned).collect()
            };
            // Two lines of head, and a row for each size; the two cells above it answer first.
            let rows: Vec<Vec<String>> = table[table.len() - 4..].iter().map(|line| cells(line)).collect();
            for (at, row) in rows.iter().enumerate() {
                assert_eq!((row[0].as_str(), row[1].clone()), (waists[at], (10 + at).to_string()), "{text}");
                let jump = (at > 0).then(|| format!("strips {} → {}", 9 + at, 10 + at));
                assert_eq!(row.get(2), jump.as_ref(), "{text}");
            }
            assert_eq!(table.len(), 2 + 2 + 4, "{text}");
            assert!(table.iter().all(|line| line.chars().count() <= 4 + WIDTH), "{text}");
        }
    }

    #[test]
    fn what_cannot_run_here_stands_without_an_answer_and_the_last_part_is_the_end() {
        for tape in [Tape::Inch, Tape::Metric] {
            let recipes = on(tape, 3);
            assert_eq!(typed(&recipes), ["  > run gathered_skirt as first"]);
            assert!(recipes.starts_with("4 of 5: Recipes\n") && recipes.ends_with("\nType tour for the next part."));
            let keeping = on(tape, 4);
            assert_eq!(typed(&keeping), ["  > save fair.txt", "  > open fair.txt", "  > compare"]);
            assert!(keeping.starts_with("5 of 5: Keeping\n"), "{keeping}");
            assert!(keeping.ends_with("\nCtrl-D leaves. A page without a name is kept too: open left brings it back."));
            assert_eq!(on(tape, PARTS), "");
        }
    }

    /// 3,2 m at €4,50 are €14,40. A line is read with points, and its file keeps the one in its name.
    #[test]
    fn money_and_commas_are_those_of_the_workshop() {
        let style = Style { tape: Tape::Metric, currency: '€', decimal_comma: true, ..Style::default() };
        let euros = Reading { currency: '€', ..Reading::default() };
        let euro = told(0, euros, style);
        assert!(told(4, euros, style).contains("\n  > save fair.txt\n"));
        for (line, wanted) in [("1.5", "1,5"), ("1.x", "1.x"), ("x.1", "x.1"), (".5 1.", ".5 1."), ("a.b", "a.b")] {
            assert_eq!((with_mark(line, true).as_str(), with_mark(line, false).as_str()), (wanted, line));
        }
        assert!(euro.contains("\n  > €4,50/m * 3,2 m\n    €14,40\n"), "{euro}");
        assert!(euro.contains("\n  > 36,5 cm + 8 mm\n    37,3 cm\n") && !euro.contains('$'), "{euro}");
        let pound =
            told(0, Reading { currency: '£', ..Reading::default() }, Style { currency: '£', ..Style::default() });
        assert!(pound.contains("\n  > £4.50/yd * 3.5 yd\n    £15.75\n"), "{pound}");
    }
}
