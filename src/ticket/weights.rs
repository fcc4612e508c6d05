//! The weight of an order: its cut pieces, cloth by cloth, and the whole order for the post.
//!
//! Never here: the text of labels.

use super::job::Job;
use super::ticket::TicketPiece;
use super::washing::FirstWash;
use crate::diagnostic::Diagnose;
use crate::piece::Shape;
use crate::quantity::{Area, Dimension, Liked, Mass, Quantity, Style, Tape, Unit, number};
use crate::workshop::Material;
use std::f64::consts::PI;

/// A cloth and the area of all pieces cut from it; `None` if a piece takes the full width and that is unknown.
pub(super) struct CutCloth<'a> {
    pub(super) material: &'a Material,
    pub(super) area: Option<Area>,
}

impl CutCloth<'_> {
    /// Returns the weight of the cut area; `None` if it is unknown, zero or not finite.
    pub(super) fn weight(&self) -> Option<Quantity> {
        let weight = self.material.weight.filter(|weight| weight.dimension() == Dimension::MASS_BY_AREA)?;
        weight.times(self.area?.into()).ok().filter(|weight| weight.steps() > 0.0 && weight.steps().is_finite())
    }
}

/// The reason why an order has no weight.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WeightError {
    /// The weights of these materials are unknown.
    Unknown(Vec<String>),
    /// The sum is not finite.
    TooLarge,
}

impl Diagnose for WeightError {
    fn message(&self, _: &Style) -> String {
        match self {
            Self::Unknown(materials) => format!("the weight of {} is not known", materials.join(", ")),
            Self::TooLarge => "the order weighs more than any number can say".to_owned(),
        }
    }

    fn hint(&self) -> Option<String> {
        Some(match self {
            Self::Unknown(_) => "write it in materials.csv: cloth by the area, such as 3 oz/yd^2; tape by the length, \
                                 such as 14 g/m"
                .to_owned(),
            Self::TooLarge => "give smaller lengths, or correct the weights in materials.csv".to_owned(),
        })
    }
}

/// Returns the cloths of an order, each once, in the order of its pieces.
pub(super) fn cut_cloths<'a>(job: &Job<'a>) -> Vec<CutCloth<'a>> {
    let mut list: Vec<CutCloth<'a>> = Vec::new();
    for TicketPiece { piece, material, once } in &job.ticket.pieces {
        let Some((material, _)) = job.material(*material) else { continue };
        if !material.kind.is_cut() {
            continue;
        }
        let times = number::from_whole(piece.count) * number::from_whole(job.times(*once));
        // The weight in the list is that of the goods as they are bought.
        let first_wash = FirstWash::of(material, job.ticket.washing);
        let area = area_of(&piece.shape, material, first_wash).map(|area| area * (times * first_wash.area_before()));
        match list.iter_mut().find(|known| known.material == material) {
            Some(known) => known.area = known.area.zip(area).map(|(known, more)| known + more),
            None => list.push(CutCloth { material, area }),
        }
    }
    list
}

/// Returns the weight of an order: its cut pieces and the lengths of its notions, without thread and single small
/// items.
///
/// # Errors
/// The weight of a material is unknown, or the sum is not finite.
pub(super) fn order_weight(job: &Job<'_>) -> Result<Mass, WeightError> {
    let mut unknown = Vec::new();
    let mut steps = 0.0;
    for cloth in cut_cloths(job) {
        match cloth.weight() {
            Some(weight) => steps += weight.steps(),
            None => unknown.push(cloth.material.name.clone()),
        }
    }
    for need in &job.ticket.needs {
        let Some((material, _)) = job.material(need.material) else { continue };
        if need.amount.dimension() != Dimension::LENGTH {
            continue;
        }
        let weight = material.weight.filter(|weight| weight.dimension() == Dimension::MASS_BY_LENGTH);
        let amount = job.amount_needed(need, material);
        match weight.and_then(|weight| weight.times(amount).ok()) {
            Some(weight) => steps += weight.steps() * number::from_whole(job.ticket.pieces_needed(need)),
            None if unknown.contains(&material.name) => {}
            None => unknown.push(material.name.clone()),
        }
    }
    let unit = if job.tape == Tape::Inch { Unit::Ounce } else { Unit::Gram };
    let liked = Liked { mass: Some(unit), ..Liked::default() };
    match (unknown.is_empty(), steps.is_finite()) {
        (false, _) => Err(WeightError::Unknown(unknown)),
        (true, false) => Err(WeightError::TooLarge),
        (true, true) => Ok(Mass::from_steps(steps).liking(liked)),
    }
}

/// Returns the area of one piece in the sizes of the recipe, allowances included.
fn area_of(shape: &Shape, material: &Material, first_wash: FirstWash) -> Option<Area> {
    let square = match shape {
        Shape::Rectangle { along, across } => along.steps() * across.steps(),
        Shape::FullWidth { along } => along.steps() * first_wash.sewn_across(material.usable_width?).steps(),
        Shape::Sector { inner, outer, turn } => {
            PI * turn * (outer.steps() * outer.steps() - inner.steps() * inner.steps())
        }
        Shape::Outline(points) => {
            let next = points.iter().cycle().skip(1);
            let twice = points
                .iter()
                .zip(next)
                .map(|(at, next)| at.across.steps() * next.along.steps() - next.across.steps() * at.along.steps());
            twice.sum::<f64>().abs() / 2.0
        }
    };
    Some(Area::from_steps(square))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::OutlinePoint;
    use crate::quantity::Length;
    use crate::ticket::{Ticket, TicketMaterial};
    use crate::workshop::Workshop;

    /// Own arithmetic: a square yard of 3.7 oz/yd² weighs 3.7 oz, a triangle of 36 in by 36 in half of it.
    #[test]
    fn a_square_yard_weighs_what_the_cloth_weighs() {
        let text = "material,kind,usable width,weight,fibre\nsatin,cloth,36 in,3.7 oz/yd^2,polyester\n";
        let workshop = Workshop::read(&[("materials.csv", text)]).unwrap();
        let material = workshop.materials.find("satin").unwrap().clone();
        let yard = Length::inches(36.0);
        let zero = Length::ZERO;
        let weighed = |shape: Shape, count: i64, garments: i64| {
            let mut ticket = Ticket::new("square", "");
            ticket.garments = garments;
            let material = material.clone();
            ticket.materials = vec![TicketMaterial { input: None, listed: true, material }];
            ticket.pieces = vec![crate::ticket::tests::piece("square", 0, shape, count)];
            let job = Job::new(&ticket, &workshop, &Style::default());
            let cloths = cut_cloths(&job);
            cloths.first().unwrap().weight().unwrap().count_of(Unit::Ounce).unwrap()
        };
        let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-9, "{found}, not {wanted}");
        let corners = [(zero, zero), (yard, zero), (zero, yard)];
        let corners = corners.map(|(across, along)| OutlinePoint { along, across });
        near(weighed(Shape::Rectangle { along: yard, across: yard }, 1, 1), 3.7);
        near(weighed(Shape::FullWidth { along: yard }, 2, 3), 6.0 * 3.7);
        near(weighed(Shape::Outline(corners.to_vec()), 1, 1), 3.7 / 2.0);
        let half = Shape::Sector { inner: zero, outer: yard, turn: 0.5 };
        near(weighed(half, 1, 1), 3.7 * PI / 2.0);
    }

    /// Own arithmetic: two garments, each a square yard of 3.7 oz and 2 m of elastic at 14 g/m, 28 g.
    #[test]
    fn an_order_weighs_its_cloth_and_what_goes_by_the_length() {
        let text = "material,kind,usable width,weight\nsatin,cloth,36 in,3.7 oz/yd^2\nelastic,notion,1 in,14 g/m\nnet,cloth,36 in,\n";
        let workshop = Workshop::read(&[("materials.csv", text)]).unwrap();
        let named = |name: &str| {
            let material = workshop.materials.find(name).unwrap().clone();
            TicketMaterial { input: None, listed: true, material }
        };
        let mut ticket = Ticket::new("square", "");
        ticket.garments = 2;
        ticket.materials = vec![named("satin"), named("elastic"), named("net")];
        let yard = Length::yards(1.0);
        ticket.pieces = vec![crate::ticket::tests::piece("square", 0, Shape::FullWidth { along: yard }, 1)];
        ticket.needs = vec![crate::ticket::tests::need(1, Length::centimetres(200.0).into(), "waist")];
        let weight = |ticket: &Ticket| order_weight(&Job::new(ticket, &workshop, &Style::default()));
        let found = weight(&ticket).unwrap().steps() / Unit::Gram.steps();
        assert!((found - 2.0 * (3.7 * 28.349_523_125 + 28.0)).abs() < 1e-9, "{found}");
        ticket.pieces.push(crate::ticket::tests::piece("veil", 2, Shape::FullWidth { along: yard }, 1));
        assert_eq!(weight(&ticket), Err(WeightError::Unknown(vec!["net".to_owned()])));
        ticket.pieces.pop();
        // Each need alone can be weighed; their sum is beyond the largest number.
        let endless = crate::ticket::tests::need(1, Length::from_steps(1e307).into(), "round the world");
        ticket.needs = vec![endless; 40];
        let error = weight(&ticket).unwrap_err();
        assert_eq!(error.message(&Style::default()), "the order weighs more than any number can say");
        assert_eq!(error, WeightError::TooLarge);
    }
}
