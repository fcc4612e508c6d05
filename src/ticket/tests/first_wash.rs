//! The first wash on the first screen, in a few words; every length and share from a pencil.

use super::*;

const HEADINGS: &str = "material,kind,usable width,put-up,price,price for,sold by,shrink along,shrink across,washing\n";

/// The row about the wash of a panel of 96 in, and what it needs of elastic and of rings.
fn row(cotton: &str, elastic: &str, stock: &str, lengths: &[f64], hem: bool) -> Vec<String> {
    let materials = format!(
        "{HEADINGS}cotton,cloth,45 in,20 yd,$7.20,yd,1/8 yd,{cotton}\n\
         elastic,notion,1 in,50 yd,$0.90,yd,1 in,{elastic}\nring,notion,,,$0.10,each,each,5 %,,washed first\n"
    );
    let stock = format!("stock,material,count,along,washed,held for\n{stock}");
    let shop = workshop(&[("materials.csv", &materials), ("stock.csv", &stock)]);
    let mut ticket = Ticket::new("panel", "A panel.");
    ticket.materials = ["cotton", "elastic", "ring"].iter().map(|name| listed(&shop, name)).collect();
    let shape = Shape::Rectangle { along: Length::inches(96.0), across: Length::inches(40.0) };
    ticket.pieces = vec![piece("panel", 0, shape, 1)];
    ticket.needs = lengths.iter().map(|length| need(1, Length::inches(*length).into(), "edge")).collect();
    ticket.needs.push(need(2, Quantity::number(4.0), "corners"));
    if hem {
        ticket.marks = vec![mark("panel", "hem fold", Length::inches(1.0), "lower edge")];
    }
    let made = made(&ticket, &shop);
    let rows = crate::ticket::overview::overview(&made.order, "panel")
        .unwrap_or_else(|error| panic!("{}", error.message(&Style::default())));
    rows.iter().filter(|row| row.label == "WASH").flat_map(|row| &row.lines).map(|line| line.concat()).collect()
}

/// 96 in are left of 100. What both ways are alike, and what only the length loses, is said in one figure.
#[test]
fn cloth_says_what_is_done_with_it() {
    let of = |cotton: &str, stock: &str| row(cotton, ",,", stock, &[], true);
    let washed = "A,cotton,1,5 yd,yes,\n";
    for (loss, words) in [
        ("4 %,2 %", "4 % along, 2 % across"),
        ("4 %,4 %", "4 %"),
        ("4 %,0 %", "4 %"),
        ("4 %,1 %", "4 % along, 1 % across"),
        ("4 %,", "4 %"),
    ] {
        let first = of(&format!("{loss},washed first"), "");
        let wash = first[0].strip_prefix("wash ").unwrap_or_else(|| panic!("{first:?}"));
        let end = format!(" of cotton (new cloth) before it is cut: it loses {words}");
        assert!(first.len() == 1 && wash.ends_with(&end), "{first:?}, not {end}");
        let comes = format!("cotton loses {words}: cut as it comes; washing='washed first' allows for it");
        assert_eq!(of(&format!("{loss},as it comes"), ""), [comes]);
    }
    assert_eq!(of("4 %,2 %,washed first", washed), ["cotton is washed already"]);
    assert_eq!(of("4 %,2 %,as it comes", washed), ["cotton is washed already"]);
    // 4 in longer, all of it in the hem. What is washed stays on the shelf, unless another order has it.
    let longer = "cotton loses 4 % along, 2 % across: cut longer, by the sheet. Turn up 5 in, not 1 in, at the hem of panel; \
                  let it down after the first wash.";
    assert_eq!(of("4 %,2 %,cut longer", ""), [longer]);
    let left = |names: &str| {
        format!("{names} washed already and left on the shelf; washing='washed first' uses what is washed.")
    };
    assert_eq!(of("4 %,2 %,cut longer", washed), [longer.to_owned(), left("A of cotton is")]);
    let two = format!("{washed}B,cotton,2,4 yd,yes,\nC,cotton,1,4 yd,no,\nD,cotton,1,4 yd,yes,order 9\n");
    assert_eq!(of("4 %,2 %,cut longer", &two), [longer.to_owned(), left("A and B of cotton are")]);
    // Nothing is lost, and nothing is said.
    assert_eq!(of("0 %,0 %,washed first", washed), [""; 0]);
    let unknown = of(",,washed first", "");
    assert!(unknown.len() == 1 && unknown[0].starts_with("What cotton loses in the first wash is not known"));
    assert_eq!(of(",,as it comes", ""), [""; 0]);
}

/// Elastic says so once, however often it is needed; rings have no length to lose.
#[test]
fn notions_by_the_length_say_what_is_done_with_them() {
    let of = |elastic: &str, stock: &str, lengths: &[f64]| row("0 %,0 %,as it comes", elastic, stock, lengths, false);
    let two = [19.0, 9.5];
    assert_eq!(of("5 %,0 %,washed first", "", &two), ["elastic loses 5 %: taken longer, wash it before it is sewn in"]);
    assert_eq!(of("5 %,0 %,cut longer", "", &two), ["elastic loses 5 %: taken longer, sew the extra in evenly"]);
    let as_it_comes = "elastic loses 5 %: cut as it comes; washing='washed first' allows for it";
    assert_eq!(of("5 %,0 %,as it comes", "", &two), [as_it_comes]);
    // A washed length of 40 in holds both, one of 19 in only the longer.
    let washed = |along: &str| format!("E1,elastic,1,{along},yes,\n");
    assert_eq!(of("5 %,0 %,washed first", &washed("40 in"), &two), ["elastic is washed already"]);
    let partly = of("5 %,0 %,washed first", &washed("19 in"), &two);
    assert_eq!(partly, ["elastic loses 5 %: taken longer, wash it before it is sewn in"]);
    assert_eq!(of("0 %,0 %,washed first", "", &two), [""; 0]);
    assert_eq!(of("5 %,0 %,washed first", "", &[]), [""; 0]);
    // Cloth and elastic that are cut as they come are told together.
    let both = row("4 %,2 %,as it comes", "5 %,0 %,as it comes", "", &two, false);
    let words = "cotton loses 4 % along, 2 % across and elastic loses 5 %: cut as they come; \
                 washing='washed first' allows for it";
    assert_eq!(both, [words]);
}
