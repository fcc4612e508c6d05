//! Everything of an order on the screen: sentences first, then tables, then steps, labels and cautions.

use crate::quantity::Style;
use crate::report::{Look, text_table, wrap};
use crate::ticket::{Form, LayError, OrderSection, WorkshopOrder};

/// Returns the paragraphs that show an order, with lines no wider than `width` where words can be broken.
///
/// # Errors
/// A section cannot be made.
pub(crate) fn on_screen(
    order: &WorkshopOrder,
    style: &Style,
    look: Look,
    width: usize,
) -> Result<Vec<String>, LayError> {
    let mut paragraphs = vec![hung("", &order.ticket().makes, width), hung("", &order.summary(style)?, width)];
    for (section, form) in OrderSection::on_screen() {
        let heading = section.name.replace('_', " ");
        match form {
            Form::Table | Form::TickList => {
                if let Some(table) = section.table(order)?.filter(|table| !table.is_empty()) {
                    paragraphs.extend([String::new(), heading, text_table(&table, style, look, width)]);
                }
            }
            Form::CutPage => {}
            Form::Sentences => paragraphs.extend(section.texts(order)?.iter().map(|text| hung("", text, width))),
            Form::Steps | Form::Notes | Form::Cautions => {
                let texts = section.texts(order)?;
                paragraphs.extend((!texts.is_empty()).then(|| format!("\n{heading}")));
                paragraphs.extend(texts.iter().zip(1..).map(|(text, number)| hung(&before(form, number), text, width)));
            }
        }
    }
    Ok(paragraphs)
}

fn before(form: Form, number: usize) -> String {
    match form {
        Form::Steps => format!("{number:>2}. "),
        Form::Cautions => " !  ".to_owned(),
        _ => " -  ".to_owned(),
    }
}

fn hung(before: &str, text: &str, width: usize) -> String {
    wrap::hang(before, text, width).join("\n")
}
