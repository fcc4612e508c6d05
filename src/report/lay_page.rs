//! What all drawings of a lay share: the width of the page and the fill that marks an order.

/// Widest drawing in pixels (96 to the inch) that fits within the margins of A4 and of letter.
pub(super) const PAGE_WIDE: f64 = 700.0;

/// The fill of an order's pieces, by its place among the orders.
pub(super) fn order_fill(place: usize) -> String {
    format!("url(#order{place})")
}
