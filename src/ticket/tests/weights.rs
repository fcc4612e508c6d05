//! What an order weighs, for the post: areas and lengths from a pencil.

use super::*;
use crate::quantity::Unit;
use crate::ticket::weights::WeightError;
use std::f64::consts::FRAC_PI_3;

const LIST: &str = "\
material,kind,usable width,weight
lawn,cloth,45 in,3 oz/yd^2
tape,notion,1 in,2 oz/yd
braid,notion,1 in,3 oz/yd^2
";

fn shop() -> Workshop {
    workshop(&[("materials.csv", LIST)])
}

fn ounces(order: &WorkshopOrder) -> f64 {
    let weight = Quantity::from(order.weight().unwrap());
    weight.steps() / Quantity::of(1.0, Unit::Ounce).steps()
}

#[track_caller]
fn weighs(ticket: &Ticket, wanted: f64) {
    let found = ounces(&made(ticket, &shop()).order);
    assert!((found - wanted).abs() < 1e-6, "{found} oz, not {wanted}");
}

/// A square yard is 3 oz: two of them 6, a triangle of half of one 1 1/2 whichever way round it is drawn, half a ring of
/// 6 to 18 in pi / 2 x 288 / 1296 of one, pi / 3 oz; three yards of tape 6.
#[test]
fn an_order_weighs_its_pieces_and_its_tapes() {
    let inch = Length::inches;
    let mut ticket = Ticket::new("cover", "A cover.");
    ticket.materials = vec![listed(&shop(), "lawn"), listed(&shop(), "tape")];
    let square = Shape::Rectangle { along: inch(36.0), across: inch(36.0) };
    ticket.pieces = vec![piece("square", 0, square, 2)];
    weighs(&ticket, 6.0);
    let mut corners = [(0.0, 0.0), (36.0, 0.0), (0.0, 36.0)]
        .map(|(across, along)| OutlinePoint { across: inch(across), along: inch(along) })
        .to_vec();
    for _ in 0..2 {
        ticket.pieces = vec![piece("triangle", 0, Shape::Outline(corners.clone()), 1)];
        weighs(&ticket, 1.5);
        corners.reverse();
    }
    // A corner away from both edges counts as well: 36 x 36 less a notch of 36 x 18 / 2, a quarter of it.
    let notched = [(0.0, 0.0), (36.0, 0.0), (36.0, 36.0), (18.0, 18.0), (0.0, 36.0)]
        .map(|(across, along)| OutlinePoint { across: inch(across), along: inch(along) });
    ticket.pieces = vec![piece("notched", 0, Shape::Outline(notched.to_vec()), 1)];
    weighs(&ticket, 2.25);
    let ring = Shape::Sector { inner: inch(6.0), outer: inch(18.0), turn: 0.5 };
    ticket.pieces = vec![piece("ring", 0, ring, 1), piece("strip", 0, Shape::FullWidth { along: inch(14.4) }, 2)];
    // Two strips of 14.4 in off 45 in are 1,296 square inches.
    weighs(&ticket, FRAC_PI_3 + 3.0);
    let mut three = need(1, inch(36.0).into(), "edge");
    three.count = 3;
    ticket.needs = vec![three, need(1, Quantity::number(2.0), "loops, counted")];
    weighs(&ticket, FRAC_PI_3 + 3.0 + 6.0);
    let weight = made(&ticket, &shop()).order.weight().unwrap();
    assert_eq!(Quantity::from(weight).liked().mass, Some(Unit::Ounce));
}

/// A braid whose weight is by the area cannot be weighed by its length: it is named, once.
#[test]
fn what_cannot_be_weighed_is_named_once() {
    let mut ticket = Ticket::new("cover", "A cover.");
    ticket.materials = vec![listed(&shop(), "braid"), listed(&shop(), "tape")];
    let ten = Quantity::from(Length::inches(10.0));
    ticket.needs = vec![need(0, ten, "edge"), need(1, ten, "loop"), need(0, ten, "other edge")];
    match made(&ticket, &shop()).order.weight() {
        Err(WeightError::Unknown(names)) => assert_eq!(names, ["braid"]),
        other => panic!("{other:?}"),
    }
}
