//! The reference: every recipe with a picture of its pieces, every function, the words of the trade and the cautions,
//! as one page of Markdown and the pictures beside it.
//!
//! All of it comes from the recipes, the function table, the glossary and the cautions. Never here: text of its own
//! about the trade, and writing files.

use super::files::as_files;
use super::pieces::{drawable, picture_head};
use crate::engine::help::{self, Topic};
use crate::plans::Letters;
use crate::quantity::Style;
use crate::recipe::{Description, RecipeText, WorkedExample};
use crate::report::{picture_pages, plain_text};
use crate::textile::glossary;
use crate::ticket::{InputSource, cautions, tape_of};
use std::fmt::Write;
use std::io;

/// The file name of the page.
pub const PAGE: &str = "reference.md";

/// A recipe as the reference shows it.
#[derive(Clone, Debug)]
pub struct Presented {
    /// The recipe's text and helper files.
    pub recipe: RecipeText,
    /// What it makes and asks for.
    pub description: Description,
    /// Its examples that produce a ticket.
    pub examples: Vec<WorkedExample>,
}

/// Returns the page and the pictures, each as a file name and its content.
///
/// # Errors
/// A picture cannot be drawn.
pub fn reference(recipes: &[Presented], style: &Style) -> io::Result<Vec<(String, Vec<u8>)>> {
    let mut page = String::from(HEAD);
    let mut pictures = Vec::new();
    for presented in recipes {
        let name = &presented.recipe.name;
        let _infallible = writeln!(page, "- [{name}](#{name}): {}", text(&presented.description.header.makes));
    }
    for presented in recipes {
        let pages = pictures_of(presented, style)?;
        let names: Vec<&str> = pages.iter().map(|(name, _)| name.as_str()).collect();
        page.push_str(&of_recipe(presented, &names, style));
        pictures.extend(pages);
    }
    page.push_str(
        "\n## Functions\n\nThey work in cells, in sums and in recipes. A formula is written as it could be typed.\n",
    );
    for topic in help::topics() {
        page.push_str(&of_topic(&topic, style));
    }
    page.push_str("\n## Words of the trade\n\nCommon practice, no source.\n\n");
    for term in glossary::TERMS {
        let also = if term.also.is_empty() { String::new() } else { format!(" (also {})", term.also.join(", ")) };
        let functions: Vec<String> = term.functions.iter().map(|name| format!("`{name}`")).collect();
        let reckoned =
            if functions.is_empty() { String::new() } else { format!(" Reckoned with {}.", functions.join(", ")) };
        let _infallible = writeln!(page, "- **{}**{also}: {}.{reckoned}", term.word, text(term.meaning));
    }
    page.push_str("\n## Cautions\n\nThey are the usual cautions, no legal advice, and no claim that anything is safe or meets a rule. Which of them stand on a ticket depends on the recipe, the age, the use and the materials.\n\n");
    for caution in cautions::CAUTIONS {
        let _infallible =
            writeln!(page, "- **{}**: {} _{}_", caution.key, text(&caution.whole_text()), text(&caution.origin()));
    }
    Ok(std::iter::once((PAGE.to_owned(), page.into_bytes())).chain(pictures).collect())
}

const HEAD: &str = "# Reference

Every recipe, every function, the words of the trade, the cautions. Drawn by the program from its own tables: `shirr reference FOLDER` writes it anew, with the recipes of your own folder too. Nothing on this page is typed by hand.

Beside it:

- [At the prompt](lines.md): measures, rounding, pages, every verb, tables and tickets in a cell
- [Orders](orders.md): answers, how an order is cut and priced, the CSV files it leaves
- [Cutting a list of pieces](cutting.md): the two files and their columns, every option, what comes out
- [The workshop folder](workshop.md): every file with its columns
- [Writing a recipe](writing.md): a first recipe, every word a recipe may use
- [Where the rules come from](bibliography.md): what stands behind each number in brackets

## Recipes

";

/// The pages with the pieces of a recipe's first example.
fn pictures_of(presented: &Presented, style: &Style) -> io::Result<Vec<(String, Vec<u8>)>> {
    let Some(example) = presented.examples.first() else { return Ok(Vec::new()) };
    let style = Style { tape: tape_of(&example.ticket, style.tape), ..*style };
    let drawable = drawable(&example.ticket, &mut Letters::default(), &style);
    if drawable.pieces.is_empty() {
        return Ok(Vec::new());
    }
    let head = picture_head(&example.ticket, None, None, &style);
    let pages = picture_pages(&head, &drawable.pieces, &drawable.other_marks, &style)?;
    Ok(as_files(&format!("{}.svg", presented.recipe.name), pages))
}

fn of_recipe(presented: &Presented, pictures: &[&str], style: &Style) -> String {
    let (name, header) = (&presented.recipe.name, &presented.description.header);
    let mut part = format!("\n### {name}\n\n{}\n", text(&header.makes));
    for file in pictures {
        let _infallible = writeln!(part, "\n![The pieces of {name}, drawn to one scale]({file})");
    }
    part.push_str("\n| input | asks for | answer |\n|---|---|---|\n");
    for input in &presented.description.inputs {
        let _infallible =
            writeln!(part, "| `{}` | {} | {} |", input.name, text(&input.question), text(&input.terms(style)));
    }
    for example in &presented.examples {
        part.push_str(&of_example(example, style));
    }
    part
}

/// Formats the answers of an example, its expected results, and its source.
fn of_example(example: &WorkedExample, style: &Style) -> String {
    let given = example.ticket.inputs.iter().filter(|input| input.source == InputSource::Given);
    let given: Vec<String> = given.map(|input| format!("{} {}", input.name, input.value.show(style))).collect();
    let expected: Vec<String> = example
        .expected
        .iter()
        .filter_map(|name| {
            let shown = match name.strip_prefix("pieces of ") {
                Some(piece) => example.ticket.pieces_of(piece)?.to_string(),
                None => example.ticket.figure(name)?.value.show(style),
            };
            Some(format!("{name} **{}**", text(&shown)))
        })
        .collect();
    let (given, expected) = (text(&given.join("; ")), expected.join("; "));
    format!("\nFor example, {given}: {expected}. _{}_\n", text(&example.source))
}

fn of_topic(topic: &Topic, style: &Style) -> String {
    let mut part = format!("\n### {}\n", topic.name);
    for function in topic.functions {
        let _infallible = write!(part, "\n**`{}`** {}\n", function.signature(), text(function.summary));
        if let Some(formula) = function.formula.text() {
            let _infallible = writeln!(part, "- formula: `{formula}`");
        }
        for (typed, shown) in help::examples(function.examples, style) {
            let _infallible = writeln!(part, "- `{typed}` is {}", text(&shown));
        }
        let _infallible = writeln!(part, "- source: {}", text(function.source));
    }
    part
}

/// Escapes a text for the page: one line, without control characters, and nothing taken for Markdown.
fn text(given: &str) -> String {
    let mut escaped = String::new();
    for c in plain_text::one_line(given).chars() {
        if matches!(c, '\\' | '`' | '*' | '_' | '<' | '>' | '[' | ']' | '|' | '#' | '&') {
            escaped.push('\\');
        }
        escaped.push(c);
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_strangers_text_makes_no_marks_of_its_own() {
        assert_eq!(text("a|b\n# <b>`x`</b>\u{1b}[2J"), "a\\|b \\# \\<b\\>\\`x\\`\\</b\\>");
    }

    #[test]
    fn every_function_word_and_caution_is_on_the_page() {
        let files = reference(&[], &Style::default()).unwrap();
        let page = String::from_utf8(files[0].1.clone()).unwrap();
        for function in help::topics().flat_map(|topic| topic.functions) {
            assert!(page.contains(&format!("**`{}`**", function.signature())), "{}", function.name);
        }
        for caution in cautions::CAUTIONS {
            assert!(page.contains(&format!("- **{}**: ", caution.key)), "{}", caution.key);
        }
        assert!(glossary::TERMS.iter().all(|term| page.contains(&format!("- **{}**", term.word))));
    }
}
