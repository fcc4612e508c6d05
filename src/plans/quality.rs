//! Sentences on how good a plan is: the proven lower bound for any plan.
//!
//! Never here: computing it, which the planner did.

use super::plan_report::{PlanReport, PlanWords, tenths_up};
use crate::cutting::Aim;

/// One sentence for all goods with a proven best plan, by length and by cost, and one for each of the others.
pub(crate) fn quality_sentences(plans: &[PlanReport<'_>], words: &PlanWords) -> Vec<String> {
    let mut sentences = Vec::new();
    for (aim, sentence) in [(Aim::Length, "No plan can use less"), (Aim::Cost, "No plan costs less")] {
        let best: Vec<&PlanReport<'_>> = plans.iter().filter(|report| is_cut(report) && is_best(report, aim)).collect();
        if best.is_empty() {
            continue;
        }
        let names: Vec<&str> = best.iter().filter_map(|report| report.name).collect();
        sentences.push(match (names.split_last(), aim) {
            (None, _) => format!("{sentence}."),
            (Some((last, [])), Aim::Length) => format!("{sentence} of {last}."),
            (Some((last, first)), Aim::Length) => format!("{sentence} of {} or {last}.", first.join(", ")),
            (Some((last, [])), Aim::Cost) => format!("{sentence} for {last}."),
            (Some((last, first)), Aim::Cost) => format!("{sentence} for {} or {last}.", first.join(", ")),
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
    match quality.aim {
        _ if !known => {
            let of = report.name.map(|name| format!(" of {name}")).unwrap_or_default();
            format!("How much less{of} another plan could take is not known.")
        }
        Aim::Length => {
            let of = report.name.map(|name| format!(" of {name}")).unwrap_or_default();
            let least = words.say_long(report.plan.lower_bound);
            format!("No plan can use more than {} less{of}: it takes at least {least}.", words.per_cent(tenths))
        }
        Aim::Cost => {
            let of = report.name.map(|name| format!(" for {name}")).unwrap_or_default();
            format!("No plan can cost more than {} less{of}.", words.per_cent(tenths))
        }
    }
}

/// Says that a search was stopped early; `None` if none was.
pub(crate) fn stopped_sentence(plans: &[PlanReport<'_>]) -> Option<String> {
    let stopped = plans.iter().any(|report| report.plan.quality.stopped);
    stopped.then(|| "The search was stopped before it was over; this is the best found so far.".to_owned())
}
