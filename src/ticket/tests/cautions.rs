//! Each caution at the edge of what calls for it: the last month of a child, every word for a cord or a small part,
//! every market. The ages are those of the rules that the cautions name as their sources.

use super::*;
use crate::quantity::{Length, Time, Unit};
use crate::ticket::TicketMaterial;
use crate::ticket::cautions::{self, Danger, briefly, table};
use crate::ticket::ticket::Sewing;
use crate::ticket::usage::Usage;
use crate::workshop::Market;

/// A garment with these tags, of this age in months, for this use, with a notion of this name for this purpose.
fn garment(tags: &[&str], months: Option<f64>, used_for: Option<Usage>, notion: &str, why: &str) -> Ticket {
    let mut ticket = Ticket::new("garment", "A garment.");
    ticket.tags = tags.iter().map(|tag| (*tag).to_owned()).collect();
    ticket.age = months.map(|months| Time::try_from(Quantity::of(months, Unit::Month)).unwrap());
    ticket.used_for = used_for;
    let list = format!("material,kind,usable width\n{notion},notion,1 in\n");
    let shop = workshop(&[("materials.csv", &list)]);
    let material = shop.materials.find(notion).unwrap().clone();
    ticket.materials = vec![TicketMaterial { input: None, listed: true, material }];
    ticket.needs = vec![need(0, Quantity::of(20.0, Unit::Inch), why)];
    ticket.sewing =
        vec![Sewing { class: "301".to_owned(), length: Length::inches(20.0), why: "seam".to_owned(), once: false }];
    ticket
}

fn keys(ticket: &Ticket, market: Market) -> Vec<String> {
    let table = table(ticket, market).unwrap();
    let cells = table.values("key").unwrap();
    cells.map(|cell| if let Cell::Text(key) = cell { key.clone() } else { String::new() }).collect()
}

fn says(ticket: &Ticket, market: Market, key: &str) -> bool {
    keys(ticket, market).iter().any(|known| known == key)
}

/// A caution for children holds to the last month before its birthday and not from the birthday on.
#[test]
fn a_caution_for_children_ends_at_its_birthday() {
    use Usage::{DressingUp, Outdoors, Sleep};
    let of_age = [
        ("sleepwear", 15, Some(Sleep), Market::Us, "braid"),
        ("sleepwear-europe", 15, Some(Sleep), Market::Eu, "braid"),
        ("sleepwear-europe", 15, Some(Sleep), Market::Uk, "braid"),
        ("dressing-up", 14, Some(DressingUp), Market::Eu, "braid"),
        ("dressing-up", 14, Some(DressingUp), Market::Uk, "braid"),
        ("elastic-child", 14, None, Market::Any, "elastic"),
        ("child-cords", 14, None, Market::Any, "cord"),
        ("cords-outerwear", 17, Some(Outdoors), Market::Us, "braid"),
        ("cords-europe", 14, None, Market::Eu, "cord"),
        ("cords-europe", 14, None, Market::Uk, "cord"),
        ("small-parts", 3, None, Market::Any, "braid"),
        ("small-parts", 3, None, Market::Any, "button"),
        ("pins", 14, None, Market::Any, "braid"),
    ];
    for (key, years, used_for, market, notion) in of_age {
        let at = |months: f64| {
            says(&garment(&["skirt", "child"], Some(months), used_for, notion, "as it falls"), market, key)
        };
        let birthday = f64::from(years) * 12.0;
        assert!(at(birthday - 1.0) && !at(birthday), "{key} at {years}");
        let elsewhere = [Market::Us, Market::Eu, Market::Uk].into_iter().filter(|other| *other != market);
        for other in elsewhere {
            let ticket = garment(&["skirt", "child"], Some(birthday - 1.0), used_for, notion, "as it falls");
            let held =
                of_age.iter().any(|(name, _, _, market, _)| *name == key && [other, Market::Any].contains(market));
            assert_eq!(says(&ticket, other, key), held, "{key}, {other:?}");
        }
    }
}

/// The words that a maker has for what can catch round a neck, come off and be swallowed, or hang in a row.
#[test]
fn every_word_for_a_cord_a_small_part_and_a_row_of_flags_calls_for_its_caution() {
    let child = |notion: &str| garment(&["skirt", "child"], Some(24.0), None, notion, "as it falls");
    for cord in ["cord", "drawstring", "string", "ribbon", "sash", "tie", "bow", "lace", "strap", "loop"] {
        assert!(says(&child(cord), Market::Any, "child-cords"), "{cord}");
        assert!(says(&child(&format!("silk {cord}s")), Market::Any, "child-cords"), "{cord}");
        let bag = garment(&["bag"], None, None, cord, "as it falls");
        assert!(says(&bag, Market::Any, "cord-neck"), "{cord}");
        let curtain = garment(&["curtain"], None, None, cord, "as it falls");
        assert!(says(&curtain, Market::Any, "curtain-cord"), "{cord}");
    }
    let small = ["button", "bow", "bead", "pearl", "hook", "snap", "sequin", "rhinestone", "bell", "pompom", "toggle"];
    for part in small {
        // Of no known age: only what hangs on it tells.
        let unsaid = garment(&["skirt", "child"], None, None, part, "as it falls");
        assert!(says(&unsaid, Market::Any, "small-parts"), "{part}");
    }
    assert!(!says(&garment(&["skirt", "child"], None, None, "braid", "as it falls"), Market::Any, "small-parts"));
    for flag in ["flag", "bunting", "garland", "pennant", "streamer"] {
        assert!(says(&garment(&["decoration"], None, None, flag, "in a row"), Market::Any, "cord-cot"), "{flag}");
    }
    for drawn in ["heading", "chain", "pull"] {
        assert!(says(&garment(&["curtain"], None, None, drawn, "at the top"), Market::Any, "curtain-cord"), "{drawn}");
    }
    for carrier in ["hook", "ring", "glider"] {
        let taped = garment(&["curtain"], None, None, "tape", &format!("holds each {carrier}"));
        assert!(says(&taped, Market::Any, "curtain-cord"), "{carrier}");
    }
}

#[test]
fn elastic_has_the_caution_of_where_it_goes() {
    let at = |why: &str| keys(&garment(&["blouse"], None, None, "elastic", why), Market::Any);
    for place in ["neck", "neckline", "collar"] {
        assert_eq!(at(&format!("round the {place}")), ["elastic-neck"], "{place}");
    }
    for place in ["arm", "sleeve", "wrist", "elbow", "cuff", "leg", "thigh", "knee", "ankle"] {
        assert_eq!(at(&format!("round each {place}")), ["elastic-limb"], "{place}");
    }
    assert_eq!(at("round the waist"), [""; 0]);
    // A thing of the house has neither neck nor limbs.
    let cover = garment(&["household"], None, None, "elastic", "round each leg of the table");
    assert!(!says(&cover, Market::Any, "elastic-limb"));
}

/// A first screen has a sentence for every danger but the cutter's own: blades and irons are known to her.
#[test]
fn every_danger_but_those_of_the_tools_is_on_the_first_screen() {
    for key in cautions::keys() {
        let mut ticket = Ticket::new("garment", "A garment.");
        ticket.cautions = vec![key.to_owned()];
        let shown = briefly(&ticket, Market::Any);
        assert_eq!(shown.is_empty(), ["blades", "iron"].contains(&key), "{key}: {shown:?}");
    }
}

/// What melts is said on the screen too, and what may.
#[test]
fn the_first_screen_says_what_melts() {
    let shop = workshop(&[(
        "materials.csv",
        "material,kind,usable width,weight,fibre\nlawn,cloth,36 in,2 oz/yd^2,cotton\n\
         net,cloth,54 in,1 oz/yd^2,100 % nylon\nmystery,cloth,36 in,2 oz/yd^2,\n",
    )]);
    let fire = |cloth: &str| {
        let mut ticket = Ticket::new("skirt", "A skirt.");
        ticket.tags = vec!["skirt".to_owned()];
        let material = shop.materials.find(cloth).unwrap().clone();
        ticket.materials = vec![TicketMaterial { input: None, listed: true, material }];
        ticket.pieces = vec![piece("panel", 0, Shape::FullWidth { along: Length::inches(36.0) }, 1)];
        let shown = briefly(&ticket, Market::Any);
        shown.into_iter().find(|(danger, _)| *danger == Danger::Fire).unwrap().1
    };
    assert!(fire("net").ends_with("it burns fast. It melts."), "{}", fire("net"));
    assert!(fire("mystery").ends_with("it burns fast. It may melt."), "{}", fire("mystery"));
    assert!(fire("lawn").ends_with("it burns fast."), "{}", fire("lawn"));
}

/// A cloth of which the fibre is not written down may melt, whatever lies beside it.
#[test]
fn one_cloth_of_unknown_fibre_among_known_ones_may_melt() {
    let shop = workshop(&[(
        "materials.csv",
        "material,kind,usable width,weight,fibre\nlawn,cloth,36 in,2 oz/yd^2,cotton\nmystery,cloth,36 in,2 oz/yd^2,\n",
    )]);
    let mut ticket = Ticket::new("skirt", "A skirt.");
    ticket.tags = vec!["skirt".to_owned()];
    for (place, cloth) in ["lawn", "mystery"].into_iter().enumerate() {
        let material = shop.materials.find(cloth).unwrap().clone();
        ticket.materials.push(TicketMaterial { input: None, listed: true, material });
        ticket.pieces.push(piece(cloth, place, Shape::FullWidth { along: Length::inches(36.0) }, 1));
    }
    let shown = briefly(&ticket, Market::Any);
    assert!(shown.iter().any(|(_, sentence)| sentence.ends_with("It may melt.")), "{shown:?}");
}

/// An age would settle one of the two: it is worth asking for, and once it is said nothing is.
#[test]
fn an_age_is_asked_for_where_it_would_settle_one_caution() {
    let asleep = |months| garment(&["skirt", "child"], months, Some(Usage::Sleep), "braid", "as it falls");
    assert!(cautions::depend_on_unknown_age(&asleep(None), Market::Us));
    assert!(!cautions::depend_on_unknown_age(&asleep(Some(60.0)), Market::Us));
    assert!(!cautions::depend_on_unknown_age(&garment(&["curtain"], None, None, "braid", "at the top"), Market::Us));
}

#[test]
fn a_caution_is_told_whole_with_its_source_and_its_market() {
    let flame = cautions::caution("flame").unwrap();
    let whole = flame.whole_text();
    for part in [
        "Keep away from fire, candles, heaters and stage pyrotechnics.",
        "Synthetic fibres melt and stick to skin.",
        "if it is synthetic, it melts and sticks to skin.",
    ] {
        assert!(whole.contains(part), "{part}");
    }
    assert_eq!(flame.origin(), "16 CFR 1610 (2015 edition) [55]; extension leaflet 174 [14]");
    assert!(cautions::caution("flame-test").unwrap().origin().ends_with("1610.61(b); US"));
    assert_eq!(cautions::caution("blades").unwrap().origin(), "common practice, no source");
}
