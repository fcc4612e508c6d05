//! Sentences on how good a plan is: the proven lower bound for any plan.
//!
//! Never here: computing it, which the planner did.

use super::plan_report::{PlanReport, PlanWords, tenths_up};
use crate::cutting::Aim;

/// One sentence for all goods with a proven best plan, by length and by cost, and one for each of the others.
pub(crate) fn quality_sentences(plans: &[PlanReport<'_>], words: &PlanWords) -> Vec<String> {
    let mut said = Vec::new();
    for (aim, sentence) in [(Aim::Length, "No plan can use less"), (Aim::Cost, "No plan costs less")] {
        let best: Vec<&PlanReport<'_>> = plans.iter().filter(|told| is_cut(told) && is_best(told, aim)).collect();
        if best.is_empty() {
            continue;
        }
        let names: Vec<&str> = best.iter().filter_map(|told| told.name).collect();
        said.push(match (names.split_last(), aim) {
            (None, _) => format!("{sentence}."),
            (Some((last, [])), Aim::Length) => format!("{sentence} of {last}."),
            (Some((last, first)), Aim::Length) => format!("{sentence} of {} or {last}.", first.join(", ")),
            (Some((last, [])), Aim::Cost) => format!("{sentence} for {last}."),
            (Some((last, first)), Aim::Cost) => format!("{sentence} for {} or {last}.", first.join(", ")),
        });
    }
    let others = plans.iter().filter(|told| is_cut(told) && !is_best(told, told.plan.quality.aim));
    said.extend(others.map(|told| at_most(told, words)));
    said
}

fn is_cut(told: &PlanReport<'_>) -> bool {
    !told.plan.uses.is_empty()
}

fn is_best(told: &PlanReport<'_>, aim: Aim) -> bool {
    told.plan.quality.aim == aim && told.plan.quality.proved
}

fn at_most(told: &PlanReport<'_>, words: &PlanWords) -> String {
    let quality = told.plan.quality;
    let known = quality.bound_ratio.is_finite() && quality.bound_ratio > 0.0;
    let tenths = tenths_up(1.0 - quality.bound_ratio);
    match quality.aim {
        _ if !known => {
            let of = told.name.map(|name| format!(" of {name}")).unwrap_or_default();
            format!("How much less{of} another plan could take is not known.")
        }
        Aim::Length => {
            let of = told.name.map(|name| format!(" of {name}")).unwrap_or_default();
            let least = words.say_long(told.plan.lower_bound);
            format!("No plan can use more than {} less{of}: it takes at least {least}.", words.per_cent(tenths))
        }
        Aim::Cost => {
            let of = told.name.map(|name| format!(" for {name}")).unwrap_or_default();
            format!("No plan can cost more than {} less{of}.", words.per_cent(tenths))
        }
    }
}

/// Says that a search was stopped early; `None` if none was.
pub(crate) fn stopped_sentence(plans: &[PlanReport<'_>]) -> Option<String> {
    let stopped = plans.iter().any(|told| told.plan.quality.stopped);
    stopped.then(|| "The search was stopped before it was over; this is the best found so far.".to_owned())
}
