//! Describes a recipe: what it makes, what it asks for, and how to run it.

use crate::quantity::Style;
use crate::recipe::{Description, RecipeText};
use crate::workshop::Workshop;

/// Returns the lines that describe a recipe; `origin` tells where it is from, and `run` is what a user types before its
/// name. The caller breaks long lines.
pub(crate) fn description(
    recipe: &RecipeText,
    description: &Description,
    origin: &[String],
    workshop: &Workshop,
    style: &Style,
    run: &str,
) -> Vec<String> {
    let header = &description.header;
    let facts = [
        ("version", header.version.clone()),
        ("licence", header.licence.clone()),
        ("for", (!header.tags.is_empty()).then(|| header.tags.join(", "))),
        ("by", header.by.clone()),
        ("after", header.after.clone()),
    ];
    let facts: Vec<String> =
        facts.into_iter().filter_map(|(name, fact)| fact.map(|fact| format!("{name} {fact}"))).collect();
    let heads = [header.makes.clone(), facts.join("   ")];
    let mut lines: Vec<String> = heads.into_iter().filter(|line| !line.is_empty()).collect();
    lines.extend(origin.iter().cloned());
    lines.push(String::new());
    let widest = description.inputs.iter().map(|input| input.name.chars().count()).max().unwrap_or(0).max(6);
    for input in &description.inputs {
        lines.push(format!("{:widest$}  {}", input.name, input.question));
        lines.push(format!("{:widest$}    {}", "", input.terms(style)));
    }
    for (name, asks, terms) in description.answered_besides(workshop) {
        lines.push(format!("{name:widest$}  {asks}"));
        lines.push(format!("{:widest$}    {terms}", ""));
    }
    let needed = description.inputs.iter().filter(|input| input.is_required() && input.only_if.is_none());
    let needed: Vec<String> = needed.map(|input| format!("{}=…", input.name)).collect();
    lines.push(String::new());
    lines.push(format!("{run} {} {}", recipe.name, needed.join(" ")));
    lines
}
