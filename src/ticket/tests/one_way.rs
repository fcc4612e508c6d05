//! What a nap costs, and thread from an overlock's own cones; every sum worked by hand.

use super::*;

#[test]
fn what_a_nap_costs_is_told() {
    let inches = Length::inches;
    let shop = workshop(&[(
        "materials.csv",
        "material,kind,usable width,put-up,price,price for,sold by,repeat,half drop,nap,shrink along,shrink across,weight,fibre\n\
         velvet,cloth,28 in,15 yd,$9.00,yd,1/8 yd,,no,yes,0 %,0 %,,\n\
         cotton,cloth,28 in,15 yd,$9.00,yd,1/8 yd,,no,no,0 %,0 %,,\n",
    )]);
    // Gores 16 in wide below, 8 in above and 20 in long: of 28 in cloth two lie side by side if one is turned.
    let corner = |across: f64, along: f64| OutlinePoint { across: inches(across), along: inches(along) };
    let gore = Shape::Outline(vec![corner(0.0, 0.0), corner(16.0, 0.0), corner(12.0, 20.0), corner(4.0, 20.0)]);
    let notes = |cloth: &str, shape: &Shape| -> Vec<String> {
        let mut ticket = Ticket::new("skirt", "A skirt.");
        ticket.materials = vec![listed(&shop, cloth)];
        ticket.pieces = vec![piece("gore", 0, shape.clone(), 2)];
        made(&ticket, &shop).plan_notes.into_iter().filter(|note| note.contains("nap")).collect()
    };
    assert_eq!(
        notes("velvet", &gore),
        [
            "velvet has a nap: all pieces lie the same way, so mark that way on each; they take 1 yd 4 in, and would take \
             20 in if some were turned"
        ]
    );
    // Straight pieces take as much either way.
    assert_eq!(
        notes("velvet", &Shape::Rectangle { along: inches(10.0), across: inches(20.0) }),
        [
            "velvet has a nap: all pieces lie the same way, so mark that way on each; they take 20 in, and would take no less \
             if some were turned"
        ]
    );
    // Whole widths are never turned by a plan.
    assert_eq!(
        notes("velvet", &Shape::FullWidth { along: inches(10.0) }),
        ["velvet has a nap: all pieces lie the same way, so mark that way on each"]
    );
    assert_eq!(notes("cotton", &gore), Vec::<String>::new());
}

#[test]
fn an_overlock_takes_its_thread_from_its_cones() {
    let list = |threads: &str| {
        let head = "material,kind,usable width,put-up,price,price for,sold by,repeat,half drop,nap,shrink along,shrink across,weight,fibre\n";
        workshop(&[("materials.csv", &format!("{head}{threads}"))])
    };
    let cones = "grey overlock cone,thread,,5000 yd,$6.00,put-up,put-up,,no,no,0 %,0 %,,\n";
    let reels = "grey thread,thread,,1000 yd,$5.00,put-up,put-up,,no,no,0 %,0 %,,\n";
    let needed = |shop: &Workshop| {
        let mut ticket = Ticket::new("skirt", "A skirt.");
        ticket.sewing = vec![sew("301", Length::yards(1.0), "a seam"), sew("504", Length::yards(1.0), "its edges")];
        let made = made(&ticket, shop);
        let named = drawn(&made.buy_list);
        named.lines().skip(1).map(|line| line.split(" | ").take(2).collect::<Vec<_>>().join(" ")).collect::<Vec<_>>()
    };
    // 2.5 and 14 times the yard, and 15 % for ends: 2 7/8 and 16.1 yd, which is 3.6 in over 16; 18.975 yd in all.
    let both = list(&format!("{cones}{reels}"));
    assert_eq!(needed(&both), ["grey thread 2 7/8 yd", "grey overlock cone ≈ 16 yd 3 5/8 in"]);
    assert_eq!(needed(&list(reels)), ["grey thread ≈ 18 yd 35 1/8 in"]);
    assert_eq!(needed(&list(cones)), ["grey overlock cone ≈ 18 yd 35 1/8 in"]);
    assert_eq!(needed(&list("")), ["thread ≈ 18 yd 35 1/8 in"]);
}
