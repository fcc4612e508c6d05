//! Sentences on how good a plan is: the proven lower bound for any plan.
//!
//! Never here: computing it, which the planner did.

use super::plan_report::{PlanReport, PlanWords, tenths_up};
use crate::cutting::Aim;

/// One sentence for all goods with a proven best plan, by length and by cost, and one for each of the others.
pub(crate) fn quality_sentences(plans: &[PlanReport<'_>], words: &PlanWords) -> Vec<String> {
    let mut sentences = Vec::new();
    for (aim, sentence) in [(Aim::Length, "This is the least possible"), (Aim::Cost, "This is the cheapest possible")] {
        let best: Vec<&PlanReport<'_>> = plans.iter().filter(|report| is_cut(report) && is_best(report, aim)).collect();
        if best.is_empty() {
            continue;
        }
        let names: Vec<&str> = best.iter().filter_map(|report| report.name).collect();
        let between = if aim == Aim::Length { "of" } else { "for" };
        sentences.push(match names.split_last() {
            None => format!("{sentence}."),
            Some((last, [])) => format!("{sentence} {between} {last}."),
            Some((last, first)) => format!("{sentence} {between} {} and {last}.", first.join(", ")),
        });
    }
    let others = plans.iter().filter(|report| is_cut(report) && !is_best(report, report.plan.quality.aim));
    sentences.extend(others.map(|report| bound_sentence(report, words)));
    sentences
}

fn is_cut(report: &PlanReport<'_>) -> bool {
    !report.plan.uses.is_empty()
}

fn is_best(report: &PlanReport<'_>, aim: Aim) -> bool {
    report.plan.quality.aim == aim && report.plan.quality.proved
}

fn bound_sentence(report: &PlanReport<'_>, words: &PlanWords) -> String {
    let quality = report.plan.quality;
    let known = quality.bound_ratio.is_finite() && quality.bound_ratio > 0.0;
    let tenths = tenths_up(1.0 - quality.bound_ratio);
    let of = |before: &str| report.name.map(|name| format!("{before}{name}")).unwrap_or_default();
    match quality.aim {
        _ if !known => format!("How much less{} another plan could take is not known.", of(" of ")),
        Aim::Length => {
            let (taken, least) = (report.plan.length_used, report.plan.lower_bound);
            format!(
                "This takes {}{}; the least possible is between {} and that.",
                words.say_long(taken),
                of(" of "),
                words.say_part(least, taken)
            )
        }
        Aim::Cost => format!("No plan can cost more than {} less{}.", words.per_cent(tenths), of(" for ")),
    }
}

/// Says that a search was stopped early; `None` if none was.
pub(crate) fn stopped_sentence(plans: &[PlanReport<'_>]) -> Option<String> {
    let stopped = plans.iter().any(|report| report.plan.quality.stopped);
    stopped.then(|| "The search was stopped before it was over; this is the best found so far.".to_owned())
}
