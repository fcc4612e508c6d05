//! The labels: fibre content of the cloth cut, prompts for care, and blanks for what only the maker knows. What cannot
//! be known is a blank with its reason, never a guess.
//!
//! Never here: how pieces are weighed, how fibres are mixed, which care a fibre needs.

use crate::table::{Cell, Table, TableError};
use crate::textile::fibres::{self, FibreGroup, Part};
use crate::ticket::care::CARE;
use crate::ticket::concern::{Condition, Facts, When, has_elastic};
use crate::ticket::job::Job;
use crate::ticket::wash_words;
use crate::ticket::weights::{CutCloth, cut_cloths};
use crate::workshop::Market;

const US: &[Market] = &[Market::Us];

/// A line that the maker fills in.
struct Blank {
    line: &'static str,
    note: &'static str,
    source: &'static str,
    markets: &'static [Market],
    when: When,
}

const ALWAYS: When = &[&[]];
/// The care rule is for clothing (16 CFR 423.3): no duty is claimed for curtains, bunting, cushions, bags.
const APPAREL: When = &[&[Condition::Apparel]];
/// Children to twelve years, that is, younger than thirteen.
const CHILDREN: When = &[&[Condition::Child(13 * 12)]];

const BLANKS: [Blank; 5] = [
    Blank {
        line: "size",
        note: "the size designation, as this workshop marks its sizes",
        source: "common practice, no source",
        markets: &[],
        when: APPAREL,
    },
    Blank {
        line: "made in",
        note: "the country or countries where cloth and garment were made (from memory; look the rule up)",
        source: "16 CFR 303 (2015 edition) [51], from memory",
        markets: US,
        when: ALWAYS,
    },
    Blank {
        line: "maker",
        note: "the maker's name, or the number registered for it (from memory; look the rule up)",
        source: "16 CFR 303 (2015 edition) [51], from memory",
        markets: US,
        when: ALWAYS,
    },
    Blank {
        line: "tracking label",
        note: "for children to 12 years, permanent, on the thing and its packing: maker, place and date of making, \
               batch or run",
        source: "CPSC tracking label guidance [62]",
        markets: US,
        when: CHILDREN,
    },
    Blank {
        line: "certificate",
        note: "a children's product is sold with a certificate from its maker; look up which tests and which relief for \
               small makers hold now",
        source: "CPSC guidance for small batch manufacturers [63]",
        markets: US,
        when: CHILDREN,
    },
];

/// Appended to a note that follows the rule of another market than the workshop's.
const ELSEWHERE: &str = "; by the US rule, look up your own";

const CONTENT_SOURCE: &str = "16 CFR 303 (2015 edition) [51], 303.3, 303.6 and 303.26";
const CARE_SOURCE: &str = "16 CFR 423 (2015 edition) [52], 423.3 and 423.6, for what a label of clothing speaks of; what is tried first \
                           is common practice, no source";

/// Builds the table of label lines; empty for an order in which nothing is cut.
pub(super) fn table(job: &Job<'_>) -> Result<Table, TableError> {
    let columns = Table::new("labels").text("line").text("label").text("note").text("market").text("source");
    let mut table = columns.ready()?;
    let cloths = cut_cloths(job);
    if cloths.is_empty() {
        return Ok(table);
    }
    let market = job.workshop.settings.market;
    let facts = Facts::from_ticket(job.ticket);
    let elsewhere = if market.shows(US) { "" } else { ELSEWHERE };
    let (label, note) = content_line(&cloths);
    let note = format!("{note}{elsewhere}");
    table.push(vec!["fibre content".into(), label.into(), note.into(), "US".into(), CONTENT_SOURCE.into()])?;
    if facts.satisfy(APPAREL) {
        let parts = CareParts::of(job, &cloths);
        for line in CARE {
            let (label, note) = match &parts {
                Ok(parts) => (line.first_try(&parts.groups), parts.note()),
                Err(why) => ("", format!("check on a scrap; {why}")),
            };
            let note = format!("{note}{elsewhere}");
            let (about, source) = (format!("care, {}", line.about), CARE_SOURCE);
            table.push(vec![about.into(), label.into(), note.into(), "US".into(), source.into()])?;
        }
    }
    for blank in BLANKS.iter().filter(|blank| market.shows(blank.markets) && facts.satisfy(blank.when)) {
        let say_the_age =
            if facts.depends_on_unknown_age(blank.when) { "; add age='5 years' to settle this" } else { "" };
        let note = format!("fill in: {}{say_the_age}", blank.note);
        let market = Market::listed(blank.markets);
        table.push(vec![blank.line.into(), "".into(), note.into(), market.into(), blank.source.into()])?;
    }
    for (label, note) in wash_words::label_lines(job, cloths.iter().map(|cloth| cloth.material)) {
        let source = "common practice, no source";
        table.push(vec!["first wash".into(), label.into(), note.into(), "".into(), source.into()])?;
    }
    Ok(table)
}

/// Returns the rows as sentences for a screen or a sheet: `made in (US): ____; fill in: ...`.
pub(super) fn sentences(table: &Table) -> Vec<String> {
    let text = |cell: Option<&Cell>| match cell {
        Some(Cell::Text(text)) => text.clone(),
        _ => String::new(),
    };
    let mut lines: Vec<[String; 4]> = Vec::new();
    for row in table.rows() {
        let [line, label, note, market] = [0, 1, 2, 3].map(|at| text(row.get(at)));
        // All lines of care make one sentence.
        let about = line.split(',').next().unwrap_or_default().to_owned();
        match lines.last_mut() {
            Some([before, labels, ..]) if *before == about => {
                if !label.is_empty() {
                    labels.push_str("; ");
                    labels.push_str(&label);
                }
            }
            _ => lines.push([about, label, note, market]),
        }
    }
    let sentence = |[line, label, note, market]: [String; 4]| {
        let market = if market.is_empty() { String::new() } else { format!(" ({market})") };
        let label = if label.is_empty() { "________".to_owned() } else { label };
        format!("{line}{market}: {label}; {note}")
    };
    lines.into_iter().map(sentence).collect()
}

/// Returns the fibre content and a note on it; if it is unknown, an empty text and the reason.
fn content_line(cloths: &[CutCloth<'_>]) -> (String, String) {
    let goods = match weighed(cloths) {
        Ok(goods) => goods,
        Err(why) => return (String::new(), why),
    };
    let Some(content) = fibres::mixed(&goods) else {
        return (String::new(), "nothing in it weighs anything".to_owned());
    };
    let lines = fibres::label_lines(&content);
    let label: Vec<String> = lines.iter().map(|line| format!("{} % {}", line.per_cent, line.fibre)).collect();
    let rounding = if is_rounded(&content) { ", to whole per cent" } else { "" };
    let note = format!(
        "by weight of the cloth cut{rounding}; trimmings such as elastic, tape and thread are not in it; ornament to \
         5 % may be left out if the label says \"exclusive of ornamentation\""
    );
    (label.join(", "), note)
}

fn is_rounded(content: &[Part]) -> bool {
    content.iter().any(|part| crate::quantity::number::whole(part.share * 100.0).is_none())
}

/// Returns each cloth's weight and content. If all cloths have the same content, weights do not matter, and one entry
/// stands for all.
fn weighed(cloths: &[CutCloth<'_>]) -> Result<Vec<(f64, Vec<Part>)>, String> {
    let mut goods = Vec::with_capacity(cloths.len());
    for cloth in cloths {
        goods.push((cloth, content_of(cloth)?));
    }
    if let Some((_, first)) = goods.first()
        && goods.iter().all(|(_, content)| content == first)
    {
        return Ok(vec![(1.0, first.clone())]);
    }
    let weigh = |(cloth, content): (&CutCloth<'_>, Vec<Part>)| {
        let weight = cloth.weight().ok_or_else(|| {
            let name = &cloth.material.name;
            format!("the weight of {name} is not known; write it in materials.csv, such as 3 oz/yd^2 or 100 g/m^2")
        })?;
        Ok((weight.steps(), content))
    };
    goods.into_iter().map(weigh).collect()
}

fn content_of(cloth: &CutCloth<'_>) -> Result<Vec<Part>, String> {
    let content = fibres::read_content(cloth.material.fibre.as_deref().unwrap_or_default());
    content.map_err(|why| {
        format!("{}: {why}; write it in materials.csv, such as 55 % linen, 45 % cotton", cloth.material.name)
    })
}

/// What care must suit: the fibres of all parts of an order, its notions too.
struct CareParts {
    groups: Vec<FibreGroup>,
    has_notions: bool,
    /// The notions whose fibre is not known.
    unknown: Vec<String>,
}

impl CareParts {
    /// # Errors
    /// The fibre of a cloth is not known, and why.
    fn of(job: &Job<'_>, cloths: &[CutCloth<'_>]) -> Result<Self, String> {
        let mut parts = Self { groups: Vec::new(), has_notions: false, unknown: Vec::new() };
        for cloth in cloths {
            parts.add(&content_of(cloth)?);
        }
        for need in &job.ticket.needs {
            let Some((material, _)) = job.material(need.material) else { continue };
            parts.has_notions = true;
            match fibres::read_content(material.fibre.as_deref().unwrap_or_default()) {
                Ok(content) => parts.add(&content),
                Err(_) if parts.unknown.contains(&material.name) => {}
                Err(_) => parts.unknown.push(material.name.clone()),
            }
            // Whatever it is covered with, it has rubber or elastane in it.
            if has_elastic(material) {
                parts.groups.push(FibreGroup::Elastic);
            }
        }
        Ok(parts)
    }

    fn add(&mut self, content: &[Part]) {
        self.groups.extend(content.iter().filter_map(|part| fibres::group_of(&part.fibre)));
    }

    fn note(&self) -> String {
        let by = if self.has_notions { "the fibres of cloth and notions" } else { "fibre" };
        let unknown = match self.unknown.as_slice() {
            [] => String::new(),
            names => format!("; the fibre is not known of {}, so try that too", names.join(", ")),
        };
        format!("a first try by {by}; check on a scrap{unknown}")
    }
}
