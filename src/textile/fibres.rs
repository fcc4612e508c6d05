//! Fibre content: parsed from a material's words, mixed by weight, and listed as on a label.
//!
//! Never here: the weight of pieces; how a material is washed.

use super::rules::fibre_is_named;
use crate::quantity::number;
use std::collections::BTreeMap;

/// The group of a fibre, which care and burning depend on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum FibreGroup {
    /// Wool, silk, hair.
    Animal,
    /// Cotton, linen and the like.
    Plant,
    /// Viscose, modal and the like, made from wood.
    Regenerated,
    /// Acetate, which solvents and heat dissolve.
    Acetate,
    /// Polyester, nylon and the like.
    Synthetic,
    /// Rubber and elastane.
    Elastic,
    /// Metal and metal film.
    Metal,
}

struct Fibre {
    /// Generic names for one fibre.
    names: &'static [&'static str],
    group: FibreGroup,
    /// Cloth made only of such fibres is exempt from testing, 16 CFR 1610.1(d)(2).
    exempt: bool,
}

const fn fibre(names: &'static [&'static str], group: FibreGroup, exempt: bool) -> Fibre {
    Fibre { names, group, exempt }
}

/// Generic names in use in English, from memory; the list of exempt ones was read.
const FIBRES: [Fibre; 23] = [
    fibre(&["wool"], FibreGroup::Animal, true),
    fibre(&["silk"], FibreGroup::Animal, false),
    fibre(&["cashmere"], FibreGroup::Animal, false),
    fibre(&["mohair"], FibreGroup::Animal, false),
    fibre(&["alpaca"], FibreGroup::Animal, false),
    fibre(&["cotton"], FibreGroup::Plant, false),
    fibre(&["linen", "flax"], FibreGroup::Plant, false),
    fibre(&["hemp"], FibreGroup::Plant, false),
    fibre(&["ramie"], FibreGroup::Plant, false),
    fibre(&["jute"], FibreGroup::Plant, false),
    fibre(&["viscose", "rayon"], FibreGroup::Regenerated, false),
    fibre(&["modal"], FibreGroup::Regenerated, false),
    fibre(&["lyocell"], FibreGroup::Regenerated, false),
    fibre(&["cupro"], FibreGroup::Regenerated, false),
    fibre(&["acetate"], FibreGroup::Acetate, false),
    fibre(&["triacetate"], FibreGroup::Acetate, false),
    fibre(&["polyester"], FibreGroup::Synthetic, true),
    fibre(&["nylon", "polyamide"], FibreGroup::Synthetic, true),
    fibre(&["acrylic"], FibreGroup::Synthetic, true),
    fibre(&["modacrylic"], FibreGroup::Synthetic, true),
    fibre(&["olefin", "polypropylene"], FibreGroup::Synthetic, true),
    fibre(&["elastane", "spandex", "rubber"], FibreGroup::Elastic, false),
    fibre(&["metallic", "metal"], FibreGroup::Metal, false),
];

fn known(name: &str) -> Option<&'static Fibre> {
    FIBRES.iter().find(|fibre| fibre.names.contains(&name))
}

/// The group of a fibre by its generic name.
pub(crate) fn group_of(name: &str) -> Option<FibreGroup> {
    known(name).map(|fibre| fibre.group)
}

/// Whether it consists only of fibres that 16 CFR 1610.1(d)(2) lists, whatever the weight.
pub(crate) fn is_wholly_exempt(content: &[Part]) -> bool {
    !content.is_empty() && content.iter().all(|part| known(&part.fibre).is_some_and(|fibre| fibre.exempt))
}

/// Whether a fibre in it melts under heat, which cotton, wool and viscose do not: what is synthetic, acetate, elastane,
/// and metal, which is mostly a film.
pub(crate) fn melts(content: &[Part]) -> bool {
    use FibreGroup::{Acetate, Elastic, Metal, Synthetic};
    content.iter().any(|part| matches!(group_of(&part.fibre), Some(Synthetic | Acetate | Elastic | Metal)))
}

/// A fibre and its share of the weight, 0 to 1.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Part {
    /// Its generic name as written, in lower case.
    pub fibre: String,
    /// Its share.
    pub share: f64,
}

/// Parses `55 % linen, 45 % cotton` or `cotton`.
///
/// # Errors
/// Why it cannot be on a label, in words that follow the material's name.
pub(crate) fn read_content(written: &str) -> Result<Vec<Part>, String> {
    let mut content: Vec<Part> = Vec::new();
    let parts: Vec<&str> = written.split([',', ';', '/']).map(str::trim).filter(|part| !part.is_empty()).collect();
    for part in &parts {
        let (share, name) = match part.split_once('%') {
            Some((share, name)) => {
                let share: f64 = share.trim().parse().map_err(|_| format!("“{part}” has no share such as 55 %"))?;
                (share / 100.0, name)
            }
            None if parts.len() == 1 => (1.0, *part),
            None => return Err(format!("“{part}” has no share such as 55 %")),
        };
        let fibre = name.trim().to_lowercase();
        if known(&fibre).is_none() {
            return Err(format!("“{}” is not a generic fibre name that is known here", name.trim()));
        }
        if !(share > 0.0 && share <= 1.0) {
            return Err(format!("“{part}” is no share of a whole"));
        }
        if content.iter().any(|earlier| earlier.fibre == fibre) {
            return Err(format!("“{fibre}” is named twice"));
        }
        content.push(Part { fibre, share });
    }
    let whole: f64 = content.iter().map(|part| part.share).sum();
    if content.is_empty() {
        return Err("its fibre is not written down".to_owned());
    }
    if !number::is_near(whole, 1.0) {
        return Err("its shares do not come to 100 %".to_owned());
    }
    Ok(content)
}

/// The content of several goods together, each with its weight in any one unit; the heaviest fibre first, then by
/// name. `None` if nothing weighs anything.
pub(crate) fn mixed(goods: &[(f64, Vec<Part>)]) -> Option<Vec<Part>> {
    let mut weights: BTreeMap<&str, f64> = BTreeMap::new();
    for (weight, content) in goods {
        for part in content {
            *weights.entry(&part.fibre).or_default() += weight * part.share;
        }
    }
    let whole: f64 = weights.values().sum();
    if !(whole > 0.0 && whole.is_finite()) {
        return None;
    }
    let parts = weights.into_iter().filter(|(_, weight)| *weight > 0.0);
    let mut parts: Vec<Part> =
        parts.map(|(fibre, weight)| Part { fibre: fibre.to_owned(), share: weight / whole }).collect();
    parts.sort_by(|left, right| right.share.total_cmp(&left.share));
    Some(parts)
}

/// A line of a fibre label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct LabelLine {
    /// Whole per cent.
    pub per_cent: i64,
    /// A generic name, or “other fibre”.
    pub fibre: String,
}

/// Lists a content as on a label, in whole per cent that add up to 100: named fibres by weight, then the small rest
/// without a function of its own as other fibre.
pub(crate) fn label_lines(content: &[Part]) -> Vec<LabelLine> {
    let functional = |part: &Part| group_of(&part.fibre) == Some(FibreGroup::Elastic);
    let is_named = |part: &Part| fibre_is_named(part.share, functional(part)).unwrap_or(true);
    let (named, rest): (Vec<&Part>, Vec<&Part>) = content.iter().partition(|part| is_named(part));
    let mut shares: Vec<(String, f64)> = named.iter().map(|part| (part.fibre.clone(), part.share)).collect();
    if !rest.is_empty() {
        let words = if rest.len() == 1 { "other fibre" } else { "other fibres" };
        shares.push((words.to_owned(), rest.iter().map(|part| part.share).sum()));
    }
    // Round each down to a whole per cent, then add what is missing to 100 where the most was cut off.
    let whole = |share: f64| number::nearest_whole(number::snapped(share * 100.0).floor()).unwrap_or(0);
    let mut lines: Vec<(LabelLine, f64)> = Vec::with_capacity(shares.len());
    for (fibre, share) in shares {
        let per_cent = whole(share);
        lines.push((LabelLine { per_cent, fibre }, share * 100.0 - number::from_whole(per_cent)));
    }
    let missing = 100 - lines.iter().map(|(line, _)| line.per_cent).sum::<i64>();
    let mut by_loss: Vec<usize> = (0..lines.len()).collect();
    let loss = |at: &usize| lines.get(*at).map_or(0.0, |(_, loss)| *loss);
    by_loss.sort_by(|left, right| loss(right).total_cmp(&loss(left)));
    for at in by_loss.into_iter().take(usize::try_from(missing).unwrap_or(0)) {
        if let Some((line, _)) = lines.get_mut(at) {
            line.per_cent += 1;
        }
    }
    lines.into_iter().map(|(line, _)| line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn label(goods: &[(f64, &str)]) -> String {
        let goods: Vec<_> = goods.iter().map(|(weight, words)| (*weight, read_content(words).unwrap())).collect();
        let lines = label_lines(&mixed(&goods).unwrap());
        lines.iter().map(|line| format!("{} % {}", line.per_cent, line.fibre)).collect::<Vec<_>>().join(", ")
    }

    /// The 96 to 4 of acetate and spandex is the example of 16 CFR 303.3 (2015 edition, read).
    #[test]
    fn a_label_names_by_weight_and_gathers_the_small_rest() {
        assert_eq!(label(&[(1.0, "4 % spandex, 96 % acetate")]), "96 % acetate, 4 % spandex");
        assert_eq!(label(&[(1.0, "96 % cotton, 4 % silk")]), "96 % cotton, 4 % other fibre");
        assert_eq!(label(&[(1.0, "95 % cotton, 5 % silk")]), "95 % cotton, 5 % silk");
        assert_eq!(label(&[(1.0, "90 % cotton, 4 % silk, 6 % wool")]), "90 % cotton, 6 % wool, 4 % other fibre");
        assert_eq!(label(&[(1.0, "92 % cotton, 4 % silk, 4 % wool")]), "92 % cotton, 8 % other fibres");
        // Own arithmetic: 3 parts cotton and 1 part of equal linen and cotton is 7/8 and 1/8.
        assert_eq!(label(&[(3.0, "cotton"), (1.0, "50 % linen, 50 % cotton")]), "88 % cotton, 12 % linen");
        assert_eq!(label(&[(1.0, "cotton"), (1.0, "silk"), (1.0, "wool")]), "34 % cotton, 33 % silk, 33 % wool");
        assert_eq!(label(&[(1.0, "cotton"), (0.0, "silk")]), "100 % cotton");
        // What is missing goes where the most was cut off: 0.7, then 0.55 of a per cent.
        assert_eq!(label(&[(1.0, "50.2 % cotton, 30.7 % silk, 19.1 % wool")]), "50 % cotton, 31 % silk, 19 % wool");
        assert_eq!(label(&[(1.0, "80.45 % cotton, 19.55 % silk")]), "80 % cotton, 20 % silk");
    }

    #[test]
    fn what_cannot_stand_on_a_label_is_said() {
        for (written, error) in [
            ("", "its fibre is not written down"),
            ("satin", "“satin” is not a generic fibre name that is known here"),
            ("50 % cotton", "its shares do not come to 100 %"),
            ("50 % cotton, linen", "“linen” has no share such as 55 %"),
            ("half % cotton", "“half % cotton” has no share such as 55 %"),
            ("120 % cotton", "“120 % cotton” is no share of a whole"),
            ("100 % cotton, 0 % silk", "“0 % silk” is no share of a whole"),
            ("50 % cotton, 50 % Cotton", "“cotton” is named twice"),
        ] {
            assert_eq!(read_content(written).unwrap_err(), error);
        }
    }

    #[test]
    fn lines_come_to_a_hundred_whatever_the_weights() {
        for first in 1..40i32 {
            for second in 1..40i32 {
                let goods = [(f64::from(first), "cotton"), (f64::from(second), "70 % silk, 30 % wool"), (7.0, "nylon")];
                let goods: Vec<_> = goods.map(|(weight, words)| (weight, read_content(words).unwrap())).to_vec();
                let lines = label_lines(&mixed(&goods).unwrap());
                assert_eq!(lines.iter().map(|line| line.per_cent).sum::<i64>(), 100);
            }
        }
        assert_eq!(mixed(&[]), None);
    }

    #[test]
    fn only_what_is_wholly_of_fibres_that_do_not_melt_does_not() {
        let melts = |words: &str| melts(&read_content(words).unwrap());
        assert!(!melts("cotton") && !melts("55 % linen, 45 % viscose") && !melts("60 % silk, 40 % wool"));
        assert!(melts("polyester") && melts("95 % cotton, 5 % elastane") && melts("acetate") && melts("polyamide"));
    }

    #[test]
    fn only_listed_fibres_are_exempt_whatever_the_weight() {
        let exempt = |words: &str| is_wholly_exempt(&read_content(words).unwrap());
        assert!(exempt("100 % polyester") && exempt("60 % nylon, 40 % wool"));
        assert!(!exempt("98 % nylon, 2 % spandex") && !exempt("silk") && !is_wholly_exempt(&[]));
        // 16 CFR 1610.1(d)(2), 2015 edition, read; polyamide and polypropylene are the other names of two of them.
        let listed = ["acrylic", "modacrylic", "nylon", "olefin", "polyester", "wool", "polyamide", "polypropylene"];
        for name in FIBRES.iter().flat_map(|fibre| fibre.names) {
            assert_eq!(exempt(name), listed.contains(name), "{name}");
        }
    }
}
