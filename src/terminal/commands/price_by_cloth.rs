//! An order whose cloth is not chosen: `run gathered_skirt … cloth='any 36-60 in at $6-14/yd'` tells the price from–to.

use crate::diagnostic::{Diagnose, Diagnostic};
use crate::present::{self, TriedWidth};
use crate::recipe::{ClothRange, Task};
use crate::terminal::app::App;
use std::sync::atomic::Ordering;

impl App<'_> {
    /// Shows what an order costs by the width and the price of one of its cloths.
    ///
    /// # Errors
    /// The order is refused whatever the cloth.
    pub(crate) fn show_price_by_cloth(
        &mut self,
        recipe: &str,
        answers: &[(String, String)],
        (at, range): (usize, ClothRange),
    ) -> Result<(), Diagnostic> {
        let prices: Vec<Option<&str>> = match range.prices.as_slice() {
            [] => vec![None],
            prices => prices.iter().map(|price| Some(price.as_str())).collect(),
        };
        let mut tried: Vec<TriedWidth> = Vec::new();
        let mut refused = None;
        for width in &range.widths {
            let mut orders = Vec::new();
            for price in &prices {
                let mut answers = answers.to_vec();
                if let Some((_, answer)) = answers.get_mut(at) {
                    *answer = range.answer(width, *price);
                }
                match self.order(recipe, Task::run(answers), false) {
                    Ok(order) => orders.push(order),
                    Err(error) if self.stop.load(Ordering::SeqCst) => return Err(error),
                    Err(error) => {
                        refused.get_or_insert(error);
                        break;
                    }
                }
            }
            tried.push(TriedWidth { width: width.clone(), orders });
        }
        let input = answers.get(at).map_or("cloth", |(name, _)| name.as_str());
        let middle = range.widths.get(range.widths.len() / 2).map_or("", String::as_str);
        let price = range.prices.get(range.prices.len() / 2).map(String::as_str);
        let next = vec![format!("one cloth: {input}='{}'", range.answer(middle, price))];
        let style = self.style();
        let shown = present::price_by_cloth(&tried, &range.prices, &next, &style, self.output.width);
        match shown.map_err(|error| error.diagnostic(&style))? {
            Some(lines) => self.output.print(&lines.join("\n")),
            None => return Err(refused.unwrap_or_else(|| Diagnostic::new("the cloth has no width"))),
        }
        Ok(())
    }
}
