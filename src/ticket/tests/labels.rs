//! Labels of orders whose cloths are known, partly known and unknown.

use super::{check, listed, made, piece, sew, workshop};
use crate::piece::Shape;
use crate::quantity::{Length, Quantity, Time, Unit};
use crate::table::Cell;
use crate::ticket::{Ticket, Usage};
use crate::workshop::Workshop;

const MATERIALS: &str = "\
material,kind,usable width,weight,fibre
satin,cloth,36 in,3.7 oz/yd^2,100 % polyester
lawn,cloth,36 in,2.2 oz/yd^2,100 % cotton
net,cloth,54 in,,100 % polyester
mystery,cloth,36 in,2 oz/yd^2,
plain,cloth,36 in,,cotton
shiny,cloth,36 in,2 oz/yd^2,satin
";

fn shop(market: &str) -> Workshop {
    let settings = format!("setting,value\nmarket,{market}\n");
    workshop(&[("settings.csv", &settings), ("materials.csv", MATERIALS)])
}

/// A square yard of each.
fn order(shop: &Workshop, cloths: &[&str]) -> Ticket {
    let yard = Length::inches(36.0);
    let mut ticket = Ticket::new("squares", "Squares.");
    ticket.materials = cloths.iter().map(|name| listed(shop, name)).collect();
    let square = |at: usize| piece(cloths[at], at, Shape::Rectangle { along: yard, across: yard }, 1);
    ticket.pieces = (0..cloths.len()).map(square).collect();
    ticket
}

fn cells(shop: &Workshop, ticket: &Ticket, column: &str) -> Vec<String> {
    let made = made(ticket, shop);
    let text = |cell: &Cell| if let Cell::Text(text) = cell { text.clone() } else { String::new() };
    made.labels.values(column).unwrap().map(text).collect()
}

/// Own arithmetic: 3.7 and 2.2 of 5.9 oz are 62.71 % and 37.29 %.
#[test]
fn content_goes_by_the_weight_that_is_cut() {
    let shop = shop("US");
    let mut ticket = order(&shop, &["lawn", "satin"]);
    ticket.sewing = vec![sew("301", Length::inches(36.0), "seam")];
    assert_eq!(cells(&shop, &ticket, "label")[0], "63 % polyester, 37 % cotton");
    assert!(cells(&shop, &ticket, "note")[0].starts_with("by weight of the cloth cut, to whole per cent;"));
    // Twice as much satin: 7.4 and 2.2 of 9.6 oz are 77.08 % and 22.92 %.
    ticket.pieces[1].piece.count = 2;
    assert_eq!(cells(&shop, &ticket, "label")[0], "77 % polyester, 23 % cotton");
    assert_eq!(
        cells(&shop, &ticket, "line"),
        [
            "fibre content",
            "care, washing",
            "care, bleach",
            "care, drying",
            "care, ironing",
            "care, warnings",
            "size",
            "made in",
            "maker",
            "first wash"
        ]
    );
}

#[test]
fn one_content_throughout_needs_no_weight() {
    let shop = shop("any");
    assert_eq!(cells(&shop, &order(&shop, &["satin", "net"]), "label")[0], "100 % polyester");
    assert_eq!(cells(&shop, &order(&shop, &["plain", "lawn"]), "label")[0], "100 % cotton");
}

#[test]
fn what_is_not_known_is_a_blank_with_its_reason() {
    let shop = shop("any");
    let fibre_line = |cloths: &[&str]| {
        let ticket = order(&shop, cloths);
        (cells(&shop, &ticket, "label")[0].clone(), cells(&shop, &ticket, "note")[0].clone())
    };
    let blank = |note: &str| (String::new(), note.to_owned());
    assert_eq!(
        fibre_line(&["satin", "mystery"]),
        blank("mystery: its fibre is not written down; write it in materials.csv, such as 55 % linen, 45 % cotton")
    );
    assert_eq!(
        fibre_line(&["lawn", "net"]),
        blank("the weight of net is not known; write it in materials.csv, such as 3 oz/yd^2 or 100 g/m^2")
    );
    assert_eq!(
        fibre_line(&["shiny"]),
        blank(
            "shiny: “satin” is not a generic fibre name that is known here; write it in materials.csv, such as 55 % linen, \
             45 % cotton"
        )
    );
}

#[test]
fn age_use_and_market_choose_the_lines() {
    let us = shop("US");
    let mut ticket = order(&us, &["lawn"]);
    ticket.tags = vec!["skirt".to_owned(), "child".to_owned()];
    let has =
        |shop: &Workshop, ticket: &Ticket, line: &str| cells(shop, ticket, "line").iter().any(|known| known == line);
    let years = |years: f64| Time::try_from(Quantity::of(years, Unit::Year)).ok();
    assert!(has(&us, &ticket, "tracking label"));
    assert!(cells(&us, &ticket, "note").iter().any(|note| note.ends_with("; add age='5 years' to settle this")));
    ticket.age = years(12.9);
    assert!(has(&us, &ticket, "tracking label"));
    assert!(!cells(&us, &ticket, "note").iter().any(|note| note.ends_with("decides this line")));
    ticket.age = years(13.0);
    assert!(!has(&us, &ticket, "tracking label"));
    ticket.used_for = Some(Usage::Household);
    assert!(!has(&us, &ticket, "care, washing") && !has(&us, &ticket, "size") && has(&us, &ticket, "fibre content"));
    ticket.used_for = None;
    let eu = shop("EU");
    let lines = cells(&eu, &ticket, "line");
    assert!(!lines.contains(&"made in".to_owned()) && lines.contains(&"care, washing".to_owned()), "{lines:?}");
    assert!(cells(&eu, &ticket, "note")[0].ends_with("; by the US rule, look up your own"));
}

/// Cotton alone is washed warm, dried as one likes and ironed hot; the elastic in it wants each of these gentler.
#[test]
fn care_reckons_with_elastic_and_names_what_is_not_known() {
    let shop = shop("US");
    let mut ticket = order(&shop, &["lawn"]);
    ticket.tags = vec!["skirt".to_owned()];
    let care = |ticket: &Ticket| {
        let (labels, notes) = (cells(&shop, ticket, "label"), cells(&shop, ticket, "note"));
        ([1, 2, 3, 4].map(|at| labels[at].clone()), notes[1].clone())
    };
    let (plain, note) = care(&ticket);
    assert_eq!((plain[3].as_str(), note.as_str()), ("hot iron", "a first try by fibre; check on a scrap"));
    let notions =
        "material,kind,usable width,fibre\nelastic,notion,1 in,\nribbon,notion,1 in,acetate\nbutton,notion,,\n";
    let notions = workshop(&[("materials.csv", notions)]);
    let mut with = |names: &[&str]| {
        ticket.materials.truncate(1);
        ticket.materials.extend(names.iter().map(|name| listed(&notions, name)));
        let needs = (0..names.len()).map(|at| super::need(at + 1, Length::inches(20.0).into(), "trim"));
        ticket.needs = needs.collect();
        care(&ticket)
    };
    let (elastic, note) = with(&["elastic"]);
    assert_eq!(
        elastic.each_ref().map(String::as_str),
        ["hand or machine wash cool, gentle", "no bleach", "hang to dry", "cool iron, through a cloth"]
    );
    assert_eq!(
        note,
        "a first try by the fibres of cloth and notions; check on a scrap; the fibre is not known of elastic, so try that \
         too"
    );
    let (ribbon, note) = with(&["ribbon", "button", "button"]);
    assert_eq!(ribbon[0], "dry-clean, or hand wash cool");
    assert!(note.ends_with("the fibre is not known of button, so try that too"), "{note}");
}

#[test]
fn no_care_label_is_claimed_for_what_is_not_clothing() {
    let shop = shop("US");
    for tag in ["curtain", "decoration", "household", "bag"] {
        for usage in [None, Some(Usage::Stage), Some(Usage::Household)] {
            let mut ticket = order(&shop, &["lawn"]);
            (ticket.tags, ticket.used_for) = (vec![tag.to_owned()], usage);
            let lines = cells(&shop, &ticket, "line");
            assert_eq!(lines, ["fibre content", "made in", "maker", "first wash"], "{tag}, {usage:?}");
        }
    }
}

/// The lawn is cotton of 2.2 oz/yd²: thin, and not exempt. The satin is heavy enough. The net is thin only by its name,
/// and its fibre is exempt.
#[test]
fn thin_cloth_brings_its_cautions() {
    let us = shop("US");
    let keys = |cloths: &[&str]| {
        let made = made(&order(&us, cloths), &us);
        super::drawn(&made.cautions)
            .lines()
            .skip(1)
            .filter_map(|line| line.rsplit(" | ").next().map(str::to_owned))
            .collect::<Vec<_>>()
    };
    assert_eq!(keys(&["lawn"]), ["flame", "flame-test", "blades"]);
    assert_eq!(keys(&["satin"]), ["blades"]);
    assert_eq!(keys(&["net"]), ["flame", "blades"]);
}

#[test]
fn the_whole_table_of_a_household_order() {
    let us = shop("US");
    let mut ticket = order(&us, &["satin"]);
    ticket.used_for = Some(Usage::Household);
    let note = "by weight of the cloth cut; trimmings such as elastic, tape and thread are not in it; ornament to 5 % may be \
                left out if the label says \"exclusive of ornamentation\"";
    check(
        &made(&ticket, &us).labels,
        &format!(
            "line | label | note | market | source\n\
             fibre content | 100 % polyester | {note} | US | 16 CFR 303 (2015 edition) [51], 303.3, 303.6 and 303.26\n\
             made in |  | fill in: the country or countries where cloth and garment were made (from memory; look the rule up) | US | 16 CFR 303 (2015 edition) [51], from memory\n\
             maker |  | fill in: the maker's name, or the number registered for it (from memory; look the rule up) | US | 16 CFR 303 (2015 edition) [51], from memory\n\
             first wash |  | what satin loses in the first wash is not known; wash a test piece |  | common practice, no source"
        ),
    );
}
