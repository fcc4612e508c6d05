//! Prints the results of a set as a table, with averages and goals.

use super::instance::{Instance, Outcome};
use shirr::quantity::number;

/// An instance and the outcomes of its runs, the shortest run first.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    pub(crate) instance: Instance,
    pub(crate) runs: Vec<Outcome>,
}

/// A goal in words, and by how much it is missed; `None` if it is met.
pub(crate) type Goal = (String, Option<String>);

impl Row {
    pub(crate) fn short(&self) -> &Outcome {
        &self.runs[0]
    }

    pub(crate) fn long(&self) -> &Outcome {
        &self.runs[self.runs.len() - 1]
    }

    /// Per cent by which a run exceeds the reference; infinite if there is no plan, `None` if there is no reference.
    pub(crate) fn gap(&self, run: &Outcome) -> Option<f64> {
        let reference = self.instance.reference?;
        Some(run.result.map_or(f64::INFINITY, |result| 100.0 * (result / reference - 1.0)))
    }

    /// Whether a run reaches the reference or beats it.
    pub(crate) fn reaches(&self, run: &Outcome) -> bool {
        self.gap(run).is_some_and(|gap| gap <= 1e-7)
    }

    /// Per cent by which a run exceeds its plan's own lower bound; infinite if the bound is not positive.
    pub(crate) fn own_gap(run: &Outcome) -> Option<f64> {
        let (result, bound) = (run.result?, run.bound?);
        Some(if bound > 0.0 { 100.0 * (result / bound - 1.0) } else { f64::INFINITY })
    }

    /// The share of the goods used, in per cent; `None` unless the measure is the length laid.
    pub(crate) fn share_used(&self, run: &Outcome) -> Option<f64> {
        let width = match self.instance.measure {
            super::instance::Measure::Laid(scale) => scale * self.instance.goods.width.steps() / 1e6,
            _ => return None,
        };
        Some(100.0 * self.instance.area? / (run.result? * width))
    }
}

/// Prints the head of a table.
pub(crate) fn print_head(set: &str, steps: &[u64]) {
    println!("\n{set}");
    let mut line = format!("  {:<48} {:>7} {:>10}", "", "pieces", "reference");
    for steps in steps {
        line += &format!(
            " | {:>10} {:>8} {:>10} {:>8} {:>6} {:>7}",
            shown_steps(*steps),
            "gap",
            "bound",
            "to it",
            "proved",
            "s"
        );
    }
    println!("{line}");
}

fn shown_steps(steps: u64) -> String {
    match steps {
        steps if steps.is_multiple_of(1_000_000) => format!("{} M steps", steps / 1_000_000),
        steps => format!("{steps} st."),
    }
}

/// Prints a line of a table.
pub(crate) fn print_row(row: &Row) {
    let instance = &row.instance;
    let value = |value: Option<f64>| value.map_or_else(|| "-".to_owned(), |value| instance.shown(value));
    let mut line = format!("  {:<48} {:>7} {:>10}", instance.name, instance.count(), value(instance.reference));
    for run in &row.runs {
        let proved = if run.proved { "yes" } else { "no" };
        line += &format!(
            " | {:>10} {:>8} {:>10} {:>8} {proved:>6} {:>7.2}",
            value(run.result),
            percent(row.gap(run)),
            value(run.bound),
            percent(Row::own_gap(run)),
            run.seconds
        );
        if let Some(error) = &run.error {
            line += &format!("  {error}");
        }
    }
    println!("{line}");
}

fn percent(value: Option<f64>) -> String {
    // A value that rounds to zero has no sign.
    let unsigned = |value: f64| if value.abs() < 0.005 { 0.0 } else { value };
    value.map_or_else(|| "-".to_owned(), |value| format!("{:.2} %", unsigned(value)))
}

/// Prints the averages over a set, and whether it meets its goals.
pub(crate) fn print_foot(rows: &[Row], goals: &[Goal]) {
    let mut line = format!("  {:<48} {:>7} {:>10}", "average", "", "");
    for run in 0..rows.first().map_or(0, |row| row.runs.len()) {
        let gap = average(rows.iter().filter_map(|row| row.gap(&row.runs[run])));
        let own = average(rows.iter().filter_map(|row| Row::own_gap(&row.runs[run])));
        let proved = rows.iter().filter(|row| row.runs[run].proved).count();
        let seconds = average(rows.iter().map(|row| row.runs[run].seconds)).unwrap_or(0.0);
        line += &format!(
            " | {:>10} {:>8} {:>10} {:>8} {:>6} {seconds:>7.2}",
            "",
            percent(gap),
            "",
            percent(own),
            format!("{proved}/{}", rows.len())
        );
    }
    println!("{line}");
    for (goal, missed) in goals {
        match missed {
            None => println!("  goal: {goal}: met"),
            Some(by) => println!("  goal: {goal}: missed by {by}"),
        }
    }
}

/// The average; `None` if there are no values.
pub(crate) fn average(values: impl Iterator<Item = f64>) -> Option<f64> {
    let values: Vec<f64> = values.collect();
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / number::from_count(values.len()))
}
