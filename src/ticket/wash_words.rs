//! What the maker is told of the first wash: what to wash before cutting, what is cut longer, and what is still to come.
//!
//! Never here: sizes before and after the wash, which the plan and the cut list have already.

use super::job::Job;
use super::lay::{Lay, LeavesWashed, is_washed, leaves_washed};
use super::small_cuts::SmallCuts;
use super::ticket::{Ticket, TicketMaterial};
use super::washing::{FirstWash, loses_words};
use crate::cutting::StockUse;
use crate::piece::cut_size;
use crate::quantity::{Length, Quantity, Style};
use crate::report::listed;
use crate::textile::washing::Loss;
use crate::workshop::{Material, Washing};
use std::collections::BTreeSet;

/// Returns a sentence for each material with a loss, and for each that was to be washed though its loss is unknown.
pub(super) fn sentences(job: &Job<'_>, lays: &[Lay], small_cuts: &[SmallCuts]) -> Vec<String> {
    let of_cloths = lays.iter().filter_map(|lay| of_cloth(job, lay));
    let left = lays.iter().filter_map(|lay| left_on_the_shelf(job, lay));
    of_cloths.chain(left).chain(of_notions(job, small_cuts)).collect()
}

/// The same in a few words, for a first screen: what to do before cutting in full, what is cut as it comes together.
pub(super) fn brief(job: &Job<'_>, lays: &[Lay], small_cuts: &[SmallCuts]) -> Vec<String> {
    let loses = |material: &Material| format!("{} loses {}", material.name, brief_loss(material, &job.sentence_style));
    let (mut sentences, mut as_it_comes) = (Vec::new(), Vec::new());
    for lay in lays {
        let material = &lay.material.material;
        sentences.extend(unknown(job, material));
        if !material.loses() {
            continue;
        }
        match lay.first_wash.washing() {
            Washing::WashedFirst => sentences.push(match to_wash(lay, job) {
                Some((length, from)) => format!(
                    "wash {} of {} ({from}) before it is cut: it loses {}",
                    job.plan_words().say(length),
                    material.name,
                    brief_loss(material, &job.sentence_style)
                ),
                None => format!("{} is washed already", material.name),
            }),
            Washing::CutLonger => sentences.push(format!(
                "{}: cut longer, by the sheet.{}",
                loses(material),
                hems_words(job, lay, &job.plan_words().words)
            )),
            Washing::AsItComes if lay.plan.uses.iter().all(|used| lay.is_washed(used)) => {
                sentences.push(format!("{} is washed already", material.name));
            }
            Washing::AsItComes => as_it_comes.push(loses(material)),
        }
    }
    for need in &job.ticket.needs {
        let Some((material, _)) = job.material(need.material) else { continue };
        let first_wash = FirstWash::of(material, job.ticket.washing);
        if first_wash.loss().along() <= 0.0 || Length::try_from(need.amount).is_err() {
            continue;
        }
        let of_it = small_cuts.iter().filter(|length| length.material == material.name);
        let is_all_washed =
            of_it.clone().count() > 0 && of_it.clone().all(|length| is_of_washed(job, material, length));
        let sentence = match first_wash.washing() {
            Washing::AsItComes => {
                if !as_it_comes.contains(&loses(material)) {
                    as_it_comes.push(loses(material));
                }
                continue;
            }
            _ if is_all_washed => format!("{} is washed already", material.name),
            Washing::WashedFirst => format!("{}: taken longer, wash it before it is sewn in", loses(material)),
            Washing::CutLonger => format!("{}: taken longer, sew the extra in evenly", loses(material)),
        };
        if !sentences.contains(&sentence) {
            sentences.push(sentence);
        }
    }
    if !as_it_comes.is_empty() {
        let come = if as_it_comes.len() == 1 { "cut as it comes" } else { "cut as they come" };
        let names = listed(&as_it_comes);
        sentences.push(format!("{names}: {come}; washing='washed first' allows for it"));
    }
    sentences.extend(lays.iter().filter_map(|lay| left_on_the_shelf(job, lay)));
    sentences
}

/// What a material loses: `3 % along, 2 % across`, or `2 %` where only one of them counts or both are alike.
fn brief_loss(material: &Material, style: &Style) -> String {
    let share = |share: Option<f64>| share.unwrap_or(0.0);
    let show = |share: f64| format!("{} %", style.show_number(share * 100.0));
    let (along, across) = (share(material.shrink_along), share(material.shrink_across));
    if across <= 0.0 || along.total_cmp(&across).is_eq() {
        show(along)
    } else {
        format!("{} along, {} across", show(along), show(across))
    }
}

fn of_cloth(job: &Job<'_>, lay: &Lay) -> Option<String> {
    let material = &lay.material.material;
    let name = &material.name;
    if !material.loses() {
        return unknown(job, material);
    }
    let loses = loses_words(material, &job.sentence_style);
    let style = job.plan_words().words;
    let show = |length: Length| style.show_on_tape(length.into());
    Some(match lay.first_wash.washing() {
        Washing::WashedFirst => match to_wash(lay, job) {
            Some((length, from)) => format!(
                "Wash and press {} of {name} ({from}) before it is cut. It loses {loses}; every size and mark is that \
                 of the washed cloth, {} wide.",
                show(length),
                show(lay.width)
            ),
            None => format!("{name} is washed already, and loses nothing more."),
        },
        Washing::CutLonger => format!(
            "{name} is cut unwashed, each piece larger by what the first wash takes of it, {loses}. Cut by the list of \
             cuts and mark by the list of marks: sizes in the steps are those that the wash leaves.{}",
            hems_words(job, lay, &job.plan_words().words)
        ),
        Washing::AsItComes if lay.plan.uses.iter().all(|used| lay.is_washed(used)) => {
            format!("{name} is washed already, and loses nothing more.")
        }
        Washing::AsItComes => format!(
            "{name} loses {loses} in the first wash and is cut as it comes: every size is before washing; an order with \
             washing='washed first' allows for it."
        ),
    })
}

/// A material that was to be washed, or cut longer, and nobody has measured what it loses.
fn unknown(job: &Job<'_>, material: &Material) -> Option<String> {
    let asked = job.ticket.washing.or(material.washing).filter(|washing| *washing != Washing::AsItComes);
    asked.filter(|_| material.loss_is_unknown()).map(|_| {
        format!(
            "What {} loses in the first wash is not known, so nothing allows for it: wash a test piece, 8 in or 20 cm \
             each way, and write what it lost into materials.csv.",
            material.name
        )
    })
}

/// Returns the length to wash before cutting, at its size before, and where it comes from; `None` if all is washed.
fn to_wash(lay: &Lay, job: &Job<'_>) -> Option<(Length, String)> {
    let unwashed: Vec<&StockUse> = lay.plan.uses.iter().filter(|used| lay.is_washed_for(used)).collect();
    let length: Length = unwashed.iter().map(|used| lay.taken(used)).sum();
    let names: BTreeSet<&str> = unwashed.iter().map(|used| used.stock.as_str()).collect();
    let unit = lay.material.material.usable_width.map_or(length.liked(), |width| Quantity::from(width).liked());
    let length = cut_size(length.liking(unit), true, &job.style);
    (!unwashed.is_empty()).then(|| (length, listed(&names.into_iter().collect::<Vec<_>>())))
}

/// How deep the hems are turned that take up the extra length: ` Turn up 5 in, not 1 in, at the hem of panel; …`. Other
/// pieces are sewn at the size they are cut.
fn hems_words(job: &Job<'_>, lay: &Lay, style: &Style) -> String {
    let show = |length: Length| style.show_on_tape(length.into());
    let mut hems: Vec<String> = Vec::new();
    for (mark, turned) in job.ticket.longer_hems(lay.index) {
        let hem = format!("{}, not {}, at the hem of {}", show(turned), show(mark.distance), mark.piece);
        if !hems.contains(&hem) {
            hems.push(hem);
        }
    }
    if hems.is_empty() {
        return String::new();
    }
    format!(" Turn up {}; let it down after the first wash.", hems.join(", and "))
}

/// Washed lengths that an order leaves on the shelf.
fn left_on_the_shelf(job: &Job<'_>, lay: &Lay) -> Option<String> {
    let material = &lay.material.material;
    let why = leaves_washed(job.ticket, lay.index).filter(|_| lay.material.listed)?;
    let free = job.workshop.stock.of(&material.name).filter(|piece| piece.count > 0 && job.ticket.mark.may_take(piece));
    let washed = free.filter(|piece| piece.along.is_some() && is_washed(piece, material));
    let names: Vec<&str> = washed.map(|piece| piece.name.as_str()).collect();
    let because = match why {
        LeavesWashed::CutLonger => "",
        LeavesWashed::SmallerPattern => {
            ": the wash made the pattern smaller, so it does not meet that of unwashed cloth"
        }
    };
    // What is not known to lose anything is never washed for an order.
    let instead = if material.loses() { "; washing='washed first' uses what is washed" } else { "" };
    (!names.is_empty()).then(|| {
        format!(
            "{} of {} {} washed already and left on the shelf{because}{instead}.",
            listed(&names),
            material.name,
            if names.len() == 1 { "is" } else { "are" }
        )
    })
}

fn of_notions(job: &Job<'_>, small_cuts: &[SmallCuts]) -> Vec<String> {
    let mut sentences: Vec<String> = Vec::new();
    for need in &job.ticket.needs {
        let Some((material, _)) = job.material(need.material) else { continue };
        let first_wash = FirstWash::of(material, job.ticket.washing);
        if first_wash.loss().along() <= 0.0 || Length::try_from(need.amount).is_err() {
            continue;
        }
        let (name, loses) = (&material.name, job.format_share(first_wash.loss().along()));
        let of_it = small_cuts.iter().filter(|length| length.material == *name);
        let (washed, unwashed): (Vec<_>, Vec<_>) = of_it.partition(|length| is_of_washed(job, material, length));
        let from: BTreeSet<&str> = washed.iter().map(|length| length.stock_name()).collect();
        let from = listed(&from.into_iter().collect::<Vec<_>>());
        let already = if washed.is_empty() {
            String::new()
        } else {
            format!(" What is cut from {from} is washed already and is cut no longer.")
        };
        let sentence = match first_wash.washing() {
            Washing::WashedFirst | Washing::CutLonger if !washed.is_empty() && unwashed.is_empty() => {
                format!("{name} is cut from {from}, which is washed already and loses nothing more.")
            }
            Washing::WashedFirst => format!(
                "{name} loses {loses} of its length in the first wash: each length is taken longer by that; wash it \
                 before it is sewn in.{already}"
            ),
            Washing::CutLonger => format!(
                "{name} loses {loses} of its length in the first wash: each length is taken longer by that; sew the \
                 extra in evenly.{already}"
            ),
            Washing::AsItComes => {
                format!("{name} loses {loses} of its length in the first wash and is taken as it comes.")
            }
        };
        if !sentences.contains(&sentence) {
            sentences.push(sentence);
        }
    }
    sentences
}

/// Whether a length of a notion is on the shelf and washed already.
fn is_of_washed(job: &Job<'_>, material: &Material, length: &SmallCuts) -> bool {
    let stock = length.stock.as_ref().and_then(|name| job.workshop.stock.find(name));
    stock.is_some_and(|piece| is_washed(piece, material))
}

/// Returns the steps that come before all others.
pub(super) fn steps(job: &Job<'_>, lays: &[Lay]) -> Vec<String> {
    let style = job.step_style();
    let show = |length: Length| style.show_on_tape(length.into());
    let step = |lay: &Lay| {
        let name = &lay.material.material.name;
        match lay.first_wash.washing() {
            Washing::WashedFirst => {
                let (length, _) = to_wash(lay, job)?;
                Some(format!("Wash and press {} of {name}, then cut.", show(length)))
            }
            Washing::CutLonger => Some(format!(
                "Cut {name} unwashed, by the list of cuts and not by the sizes below: those are what the first wash \
                 leaves.{}",
                hems_words(job, lay, &job.step_style())
            )),
            Washing::AsItComes => None,
        }
    };
    lays.iter().filter_map(step).collect()
}

/// Returns a caution for each lining that loses more than a face cloth when the finished thing is washed.
pub(super) fn lining_cautions(ticket: &Ticket) -> Vec<String> {
    let is_cut = |at: usize| ticket.pieces.iter().any(|entry| entry.material == at);
    let cloths: Vec<(&TicketMaterial, Loss)> = (ticket.materials.iter().enumerate())
        .filter(|(at, material)| is_cut(*at) && material.material.kind.is_cut())
        .map(|(_, material)| (material, material.first_wash(ticket.washing).still_to_come()))
        .collect();
    // An interlining is quilted to the face or hangs between; only what hangs free behind it draws it up.
    let named_lining = |input: &String| input.split(|c: char| !c.is_alphabetic()).any(|word| word == "lining");
    let is_lining = |material: &TicketMaterial| material.input.as_ref().is_some_and(named_lining);
    let (linings, faces): (Vec<_>, Vec<_>) = cloths.into_iter().partition(|(material, _)| is_lining(material));
    let mut cautions = Vec::new();
    for (lining, of_lining) in &linings {
        for (face, of_face) in &faces {
            if of_lining.along() <= of_face.along() && of_lining.across() <= of_face.across() {
                continue;
            }
            let shares = |loss: &Loss| {
                let share = |share: f64| Style::default().show_number(share * 100.0);
                format!("{} % of its length and {} % of its width", share(loss.along()), share(loss.across()))
            };
            cautions.push(format!(
                "The lining, {}, loses {} when it is washed, and {} {}: it will draw the face up. Wash the lining \
                 first, cut it longer, or clean the whole dry.",
                lining.material.name,
                shares(of_lining),
                face.material.name,
                if of_face.is_none() { "nothing".to_owned() } else { shares(of_face) },
            ));
        }
    }
    cautions
}

/// Returns the lines of a label about the first wash, each with its note; none where everything is allowed for.
pub(super) fn label_lines<'a>(
    job: &Job<'_>,
    cloths: impl Iterator<Item = &'a Material>,
) -> Vec<(&'static str, String)> {
    let (mut before, mut longer, mut unknown) = (Vec::new(), Vec::new(), Vec::new());
    let has_longer_hem = (0..job.ticket.materials.len()).any(|material| !job.ticket.longer_hems(material).is_empty());
    for cloth in cloths {
        let loses = || format!("{} loses {} in the first wash", cloth.name, loses_words(cloth, &job.sentence_style));
        match FirstWash::of(cloth, job.ticket.washing).washing() {
            Washing::AsItComes if cloth.loses() => before.push(loses()),
            Washing::AsItComes if cloth.loss_is_unknown() => unknown.push(cloth.name.as_str()),
            Washing::CutLonger => longer.push(loses()),
            Washing::AsItComes | Washing::WashedFirst => {}
        }
    }
    let mut lines = Vec::new();
    if !before.is_empty() {
        lines.push(("sizes are before washing", before.join("; ")));
    }
    if !longer.is_empty() {
        let comes = if has_longer_hem {
            "comes to its size in the first wash; let the hem down after it"
        } else {
            "comes to its size in the first wash"
        };
        lines.push((comes, longer.join("; ")));
    }
    if !unknown.is_empty() {
        let lose = if unknown.len() == 1 { "loses" } else { "lose" };
        let note = format!("what {} {lose} in the first wash is not known; wash a test piece", listed(&unknown));
        lines.push(("", note));
    }
    lines
}
