//! Steps of the shipped recipes: what is cut comes before what is done to it, and every size is on the order's tape.

use super::common::{demo_workshop, recipes};
use shirr::engine::limits::StopFlag;
use shirr::recipe::run::answer_in;
use shirr::recipe::{Reply, Task, library};
use shirr::report::excerpt;
use shirr::ticket::Ticket;
use shirr::workshop::Workshop;

#[track_caller]
fn ticket(recipe: &str, workshop: &Workshop, order: &str) -> Ticket {
    let given = order.split("; ").map(|pair| pair.split_once('=').unwrap());
    match answer_in(&library::shipped(recipe).unwrap(), workshop, false, &Task::run(given), StopFlag::default()) {
        Reply::Ran(ticket) => *ticket,
        Reply::Refused(refusals) => panic!("{recipe} {order}: {}", excerpt::texts(&refusals)),
        other => panic!("{recipe} {order}: {other:?}"),
    }
}

/// The steps as one text.
fn steps(ticket: &Ticket, workshop: &Workshop) -> String {
    let style = workshop.settings.style();
    let words = ticket.steps.iter().filter_map(|step| step.words());
    words.map(|step| ticket.fill_step(step, &style).text).collect::<Vec<_>>().join("\n")
}

/// Common practice, no source: a band is cut, then interfaced, then sewn on.
#[test]
fn a_band_is_cut_before_it_is_interfaced_and_interfaced_before_it_is_sewn_on() {
    let shop = Workshop::default();
    let body = "waist=28 in; hips=38 in; skirt=26 in; cloth=any_cloth(45 in); interfacing=any_cloth(36 in)";
    for (recipe, order, cut, sewn) in [
        ("gathered_skirt", format!("{body}; top=band"), "Cut the band", "Sew the skirt to one long edge"),
        ("gored_skirt", format!("{body}; hem_round=70 in"), "Cut the band", "Sew the skirt to one long edge"),
        ("pleated_skirt", format!("{body}; pleats=20; depth=1 in"), "Cut the band", "Sew the skirt to one long edge"),
        ("circle_skirt", format!("{body}; circle=half"), "Cut the band", "Sew the skirt to one long edge"),
        (
            "bishop_sleeve",
            "arm=26 cm; wrist=16 cm; sleeve=42 cm; cap=14 cm; cloth=any_cloth(140 cm); interfacing=any_cloth(90 cm)"
                .to_owned(),
            "Cut two cuffs",
            "Set the cuffs",
        ),
        (
            "puff_sleeve",
            "head=30 cm; arm=22 cm; sleeve=6 cm; cap=10 cm; cloth=any_cloth(112 cm); stiffening=any_cloth(90 cm)"
                .to_owned(),
            "Cut two cuffs",
            "Join each cuff into a ring",
        ),
    ] {
        let text = steps(&ticket(recipe, &shop, &order), &shop);
        let places =
            [cut, if recipe == "puff_sleeve" { "Fasten the stiffening" } else { "Fasten the interfacing" }, sewn];
        let places = places.map(|words| text.find(words));
        assert!(places.iter().all(Option::is_some) && places.is_sorted(), "{recipe}: {places:?}\n{text}");
    }
}

/// Whether a text names a size with a unit of length, such as `2 in`.
fn names_a_size(text: &str) -> bool {
    let words: Vec<&str> = text.split([' ', ',', '.', ';', ':', '(', ')']).collect();
    let digits = |word: &str| word.ends_with(|letter: char| letter.is_ascii_digit());
    words.windows(2).any(|pair| digits(pair[0]) && ["in", "cm", "mm", "yd", "m"].contains(&pair[1]))
}

/// A size that stands in the words of a recipe is on one tape whatever the order is on; one in braces is put on the
/// order's. The length of a stitch is set on the machine, in millimetres on both.
#[test]
fn sizes_in_the_words_of_a_ticket_are_on_the_tape_of_the_order() {
    assert!(names_a_size("snaps about 2 in (5 cm) apart") && names_a_size("turned in 3 cm."));
    assert!(!names_a_size("3 strips in all") && !names_a_size("cut {2 in} in half"));
    let without_braces = |text: &str| {
        let mut parts = text.split('{');
        let first = parts.next().unwrap_or_default().to_owned();
        parts.fold(first, |kept, part| kept + part.split_once('}').map_or(part, |(_, rest)| rest))
    };
    for name in recipes() {
        let recipe = library::shipped(name).unwrap();
        let Reply::Worked(examples) =
            answer_in(&recipe, &Workshop::default(), false, &Task::Examples, StopFlag::default())
        else {
            panic!("{name} has no examples")
        };
        for ticket in examples.into_iter().map(|example| example.ticket) {
            let steps = ticket.steps.iter().filter_map(|step| step.words().map(without_braces));
            let meanings = ticket.figures.iter().map(|figure| figure.meaning.clone());
            let needs = ticket.needs.iter().map(|need| need.why.clone());
            let marks = ticket.marks.iter().map(|mark| mark.from.clone());
            for words in steps.chain(meanings).chain(needs).chain(marks) {
                let stitch = words.contains("stitch of about");
                assert!(stitch || !names_a_size(&words), "{name}: {words}");
            }
        }
    }
}

/// By hand: 10 in of opening have 5 snaps 2 in apart, 25.4 cm as many 5.08 cm apart.
#[test]
fn snaps_are_set_on_the_tape_of_the_order() {
    let shop = Workshop::default();
    let order =
        "waist=28 in; hips=38 in; skirt=26 in; top=band; placket=underlap; opening=10 in; cloth=any_cloth(45 in)";
    let text = steps(&ticket("gathered_skirt", &shop, order), &shop);
    assert!(text.contains("Sew on 5 snaps, 2 in from one to the next."), "{text}");
    let metric = Workshop::read(&[("settings.csv", "setting,value\ntape,metric\n")]).unwrap();
    let text = steps(&ticket("gathered_skirt", &metric, &order.replace("10 in", "25.4 cm")), &metric);
    assert!(text.contains("Sew on 5 snaps, ≈ 5.1 cm from one to the next."), "{text}");
}

/// By hand: a circle in two is a half each, three quarters in two are 3/8 each, two circles in four a half each.
#[test]
fn sectors_are_said_as_parts_of_a_circle() {
    let shop = Workshop::default();
    for (circle, cloth, words) in [
        ("full", 45, "Cut 2, each 1/2 of a circle"),
        ("three-quarter", 40, "Cut 2, each 3/8 of a circle"),
        ("double", 40, "Cut 4, each 1/2 of a circle"),
        ("half", 60, "Cut one, 1/2 of a circle"),
    ] {
        let order = format!("waist=24 in; skirt=20 in; circle={circle}; cloth=any_cloth({cloth} in)");
        let text = steps(&ticket("circle_skirt", &shop, &order), &shop);
        assert!(text.contains(words), "{circle}\n{text}");
    }
}

/// A pair has 2 × 14 hooks, and each curtain 14: 104 cm at 12 a metre are 12.48, up to 13, and one more.
#[test]
fn hooks_are_said_for_one_curtain() {
    let demo = demo_workshop();
    let order = "track=180 cm; drop=220 cm; face=garden face cloth; tape=heading tape; pieces=3";
    let text = steps(&ticket("curtains", &demo, order), &demo);
    assert!(text.contains("put 14 hooks into it"), "{text}");
}

#[test]
fn sleeves_burn_like_what_they_are_sewn_to_and_pleats_on_buckram_have_no_cord() {
    let shop = Workshop::default();
    let sleeves = "cap=10 cm; cloth=any_cloth(112 cm)";
    for (recipe, order) in [
        ("puff_sleeve", format!("head=30 cm; arm=22 cm; sleeve=6 cm; {sleeves}")),
        ("bell_sleeve", format!("arm=27 cm; sleeve=40 cm; flare=20 cm; {sleeves}")),
        ("bishop_sleeve", format!("arm=26 cm; wrist=16 cm; sleeve=42 cm; {sleeves}")),
    ] {
        assert!(ticket(recipe, &shop, &order).cautions.iter().any(|key| key == "flame"), "{recipe}");
    }
    let pinched = ticket("pinch_curtains", &shop, "track=180 cm; drop=220 cm; face=any_cloth(137 cm); buckram=any");
    assert!(pinched.cautions.iter().all(|key| key != "curtain-cord"), "{:?}", pinched.cautions);
}
