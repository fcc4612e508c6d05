//! What the tab key offers on a fixed page: at the start of a line, behind verbs, in orders and at questions.

use super::*;
use crate::terminal::typing::completion_source::ExamplePage;
use crate::terminal::typing::hints::HintLook;
use std::rc::Rc;

fn words() -> TypingHelper {
    TypingHelper::new(Rc::new(ExamplePage::example()), HintLook::Silent, || 80)
}

/// `|` is the cursor; the offers complete `begins`, the text before it.
#[track_caller]
fn check(line: &str, begins: &str, wanted: &[&str]) {
    check_with(&words(), line, begins, wanted);
}

#[track_caller]
fn check_with(words: &TypingHelper, line: &str, begins: &str, wanted: &[&str]) {
    let cursor = line.find('|').unwrap_or(line.len());
    let line = line.replacen('|', "", 1);
    let (start, offers) = words.offers(&line, cursor);
    assert_eq!(offers, wanted, "{line}");
    if !wanted.is_empty() {
        assert_eq!(&line[start..cursor], begins, "{line}");
    }
}

#[test]
fn cells_functions_verbs_and_the_last_answer() {
    check("2 * wai", "wai", &["waist", "waist_flat"]);
    check("wai", "wai", &["waist", "waist_flat"]);
    check("strips_f", "strips_f", &["strips_for(", "strips_for_frill("]);
    check("strips_fo|(2 in)", "strips_fo", &["strips_for", "strips_for_frill"]);
    check("des", "des", &["describe "]);
    check("  des", "des", &["describe "]);
    check("leav", "leav", &["leave"]);
    check("x + des", "des", &[]);
    check("tha", "tha", &["that"]);
    check("2 * tha", "tha", &["that"]);
    check("take b", "b", &["back "]);
    check("tak", "tak", &["take ", "take_up("]);
    check("take_", "take_", &["take_up("]);
    check("must wai", "wai", &["waist", "waist_flat"]);
    check("a = 1\ndes", "des", &["describe "]);
    check("1 + ", "", &[]);
    check("", "", &[]);
}

#[test]
fn wide_and_accented_letters_count_their_bytes() {
    check("ärmel * take", "take", &["take_up("]);
    check("飾り + är|+ 1", "är", &["ärmel"]);
    check("ärmel + 飾", "飾", &["飾り"]);
    // A cursor inside a letter cannot occur, and does no harm.
    assert_eq!(words().offers("é", 1), (0, Vec::new()));
}

#[test]
fn units_behind_numbers_and_as() {
    check("56 c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
    check("56c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
    check("14 1/2 inc", "inc", &["inch", "inches"]);
    check("waist as y", "y", &["yd", "yard", "yards", "yds", "year", "years"]);
    check("strips_for(3 ye", "ye", &["year", "years"]);
    check("$6/y", "y", &["yd", "yard", "yards", "yds", "year", "years"]);
    let shown: Vec<&str> = Unit::ALL.iter().map(|unit| unit.symbol()).collect();
    check("56 ", "", &shown);
    check("waist as ", "", &shown);
    check("56", "", &[]);
    check("waist2 y", "y", &[]);
}

#[test]
fn recipes_and_what_they_ask() {
    check("run gathered_s", "gathered_s", &["gathered_skirt"]);
    check("run ", "", &["gathered_skirt", "gathered_trim"]);
    check("describe gathered_t", "gathered_t", &["gathered_trim"]);
    check("sheet fir", "fir", &["first"]);
    check("run gathered_skirt ", "", &["waist=", "cloth=", "length=", "as "]);
    check("sheet gathered_skirt ", "", &["waist=", "cloth=", "length="]);
    check("run gathered_skirt a", "a", &["as "]);
    check("run gathered_skirt as ", "", &[]);
    check("run gathered_skirt as fi", "", &[]);
    check("run gathered_skirt as first wa", "wa", &["waist="]);
    check("run gathered_skirt waist=", "", &[]);
    check("run gathered_skirt waist=wai", "wai", &["waist", "waist_flat"]);
    check("run gathered_skirt waist=56 c", "c", &["cloth=", "cm", "centimetre", "centimetres", "centimeters"]);
    check("run gathered_skirt waist=56c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
    check("run gathered_skirt waist=56 cm cl", "cl", &["cloth="]);
    check("run gathered_skirt | cloth=any", "", &["waist=", "length=", "as "]);
    check("run gathered_skirt cloth='any wa", "", &[]);
    check("run = wai", "wai", &["waist", "waist_flat"]);
}

#[test]
fn what_an_answer_may_be_in_the_quotes_that_the_line_needs() {
    let run = |rest: &str| format!("run gathered_skirt {rest}");
    let cloths = ["'ivory net'", "'ivory net wide'", "'Blue check lawn'", "denim", "\"maker's own\"", "any"];
    check(&run("cloth="), "", &cloths);
    check(&run("cloth= "), "", &cloths);
    check(&run("waist=21 in, cloth="), "", &cloths);
    check(&run("as second cloth=de"), "de", &["denim"]);
    check(&run("cloth=iv"), "iv", &["'ivory net'", "'ivory net wide'"]);
    check(&run("cloth=ivory net w"), "ivory net w", &["'ivory net wide'"]);
    check(&run("cloth='ivory net"), "'ivory net", &["'ivory net'", "'ivory net wide'"]);
    check(&run("cloth='ivory net w|'"), "'ivory net w", &["'ivory net wide"]);
    check(&run("cloth='ivory net w|' waist=21 in"), "'ivory net w", &["'ivory net wide"]);
    check(&run("cloth=\"BLUE"), "\"BLUE", &["\"Blue check lawn\""]);
    // An apostrophe in a name would close its quotes.
    check(&run("cloth='maker"), "'maker", &[]);
    check(&run("lined="), "", &["yes", "no"]);
    check(&run("lined=wai"), "", &[]);
    check(&run("size=W"), "W", &["Wren"]);
    check(&run("gathers=law"), "law", &["'lawn once'", "'lawn twice'"]);
    check(&run("washing=wai"), "wai", &["waist", "waist_flat"]);
    check(&run("gathers=wai"), "wai", &["waist", "waist_flat"]);
    check(&run("cloth=any 45 inc"), "inc", &["inch", "inches"]);
    check("change first cloth=de", "de", &["denim"]);
    check("change first cloth='ivory net w", "'ivory net w", &["'ivory net wide'"]);
    check("change first wa", "wa", &["waist="]);
    check("add r", "r", &["roll ", "rate ", "remnant "]);
    check("sheet gathered_skirt cloth=de", "de", &["denim"]);
    check("x = 3 # cloth=de", "", &[]);
}

#[test]
fn behind_a_whole_answer_the_next_input_follows() {
    let run = |rest: &str| format!("run gathered_skirt {rest}");
    check(&run("cloth='ivory net' "), "", &["waist=", "length="]);
    check(&run("cloth='ivory net', "), "", &["waist=", "length="]);
    check(&run("cloth=ivory net "), "", &["waist=", "length="]);
    check(&run("cloth=ivory net le"), "le", &["length="]);
    check(&run("si"), "si", &["size="]);
    check(&run("size=Pip wa"), "wa", &["waist="]);
    check(&run("was"), "was", &["washing="]);
}

#[test]
fn at_a_question_answers_are_offered_without_quotes_and_words_once_they_are_begun() {
    let asked = |input: &str| {
        let mut page = ExamplePage::example();
        page.question = page.possible.get(input).cloned().map(Rc::new);
        TypingHelper::new(Rc::new(page), HintLook::Silent, || 80)
    };
    let cloth = asked("cloth");
    check_with(&cloth, "", "", &["ivory net", "ivory net wide", "Blue check lawn", "denim", "maker's own", "any"]);
    check_with(&cloth, "ivory net w", "ivory net w", &["ivory net wide"]);
    check_with(&cloth, "blue ch", "blue ch", &["Blue check lawn"]);
    check_with(&cloth, "maker's", "maker's", &["maker's own"]);
    check_with(&cloth, "b", "b", &["Blue check lawn", "back"]);
    check_with(&cloth, "ca", "ca", &["cancel"]);
    check_with(&cloth, "wai", "wai", &[]);
    check_with(&cloth, "run ", "", &[]);
    check_with(&cloth, "any 45 inc", "inc", &["inch", "inches"]);
    check_with(&cloth, "help hems a", "hems a", &["hems and shrinkage"]);
    check_with(&cloth, "? hems a", "hems a", &["hems and shrinkage"]);
    let gathers = asked("gathers");
    check_with(&gathers, "", "", &["lawn once", "lawn twice"]);
    check_with(&gathers, "lawn t", "lawn t", &["lawn twice"]);
    check_with(&gathers, "2 * wai", "wai", &["waist", "waist_flat"]);
    check_with(&asked("waist"), "bac", "bac", &["back"]);
    check_with(&asked("waist"), "56 centimetres", "centimetres", &["centimetres"]);
    check_with(&asked("lined"), "", "", &["yes", "no"]);
}

#[test]
fn no_offer_carries_an_escape_code_to_the_terminal() {
    let mut page = ExamplePage::example();
    page.files.push("or\u{1b}[2Jders.csv".to_owned());
    page.recipes.insert("ga\u{202e}thers".to_owned(), Vec::new());
    page.question = page.possible.get("cloth").cloned().map(Rc::new);
    let asked = TypingHelper::new(Rc::new(page), HintLook::Silent, || 80);
    let offered = |words: &TypingHelper, line: &str| words.offers(line, line.len()).1;
    let mut all = offered(&asked, "");
    assert!(all.iter().any(|offer| offer == "denim"), "{all:?}");
    all.extend(offered(&words(), "run gathered_skirt cloth="));
    all.extend(offered(&words(), "run gathered_skirt cloth='50"));
    all.extend(["open o", "run ga"].into_iter().flat_map(|line| offered(&words(), line)));
    assert!(all.iter().all(|offer| !offer.contains(|c: char| c.is_control() || c == '\u{202e}')), "{all:?}");
}

#[test]
fn files_that_a_line_can_be_read_with() {
    check("read or", "or", &["orders.csv"]);
    check("open ", "", &["orders.csv", "may.txt", "sub/"]);
    check("read orders.csv ", "", &["as "]);
    check("read orders.csv as ", "", &[]);
    check("compare may.txt w", "w", &["with "]);
    check("compare may.txt with or", "or", &["orders.csv"]);
    check("write fir", "fir", &["first"]);
    check("write first.pa", "pa", &["panels"]);
    check("write first ", "", &["to "]);
    check("write first to or", "or", &["orders.csv"]);
    check("rename wai", "wai", &["waist", "waist_flat"]);
    check("rename waist to wai", "wai", &[]);
    check("save i", "i", &[]);
    check("open le", "le", &["left "]);
    check("rename pa", "pa", &["page "]);
}

#[test]
fn no_more_than_five_hundred_cells_are_offered_and_none_twice() {
    let mut page = ExamplePage::example();
    page.cells.extend((0..600).map(|number| (format!("zz{number}"), "3 in".to_owned())));
    page.workshop = vec!["wage".to_owned(), "waist".to_owned()];
    let words = TypingHelper::new(Rc::new(page), HintLook::Silent, || 80);
    assert_eq!(words.offers("2 * zz", 6).1.len(), 500);
    // A rate of the workshop is offered as a cell is, and one that a cell hides only once.
    check_with(&words, "2 * wa", "wa", &["wage", "waist", "waist_flat"]);
}

#[test]
fn at_a_question_blanks_before_an_answer_do_not_count() {
    let asked = |input: &str| {
        let mut page = ExamplePage::example();
        page.question = page.possible.get(input).cloned().map(Rc::new);
        TypingHelper::new(Rc::new(page), HintLook::Silent, || 80)
    };
    let (cloth, gathers) = (asked("cloth"), asked("gathers"));
    check_with(&cloth, "  den", "den", &["denim"]);
    check_with(&cloth, "  help hems a", "hems a", &["hems and shrinkage"]);
    check_with(&gathers, "  law", "law", &["lawn once", "lawn twice"]);
    check_with(&gathers, "wai", "wai", &["waist", "waist_flat"]);
    // In a text there are no cells, and behind a word of an answer only what goes on with it.
    check_with(&gathers, "\"wai", "", &[]);
    let with_functions = words().offers("la", 2).1;
    let begun: Vec<&str> = with_functions.iter().map(String::as_str).collect();
    check_with(&gathers, "la", "la", &[&["lawn once", "lawn twice"][..], &begun[..]].concat());
    // No verb begins an answer, and help knows none at a question.
    check_with(&gathers, "leav", "leav", &[]);
    assert!(!gathers.offers("help tak", 8).1.contains(&"take".to_owned()));
}

#[test]
fn an_answer_that_goes_on_behind_a_blank_is_still_that_answer() {
    let run = |rest: &str| format!("run gathered_skirt {rest}");
    check(&run("cloth='ivory net "), "'ivory net ", &["'ivory net wide'"]);
    check(&run("cloth=Blue check "), "Blue check ", &["'Blue check lawn'"]);
    check(&run("gathers=lawn t"), "lawn t", &["'lawn twice'"]);
    check("run first ", "", &["as "]);
}

#[test]
fn behind_an_order_come_its_open_inputs_or_the_rest_of_a_sum() {
    let run = |rest: &str| format!("run gathered_skirt {rest}");
    check(&run("waist=1 in cloth=any length=2 in "), "", &[]);
    check(&run("as first a"), "", &[]);
    check(&run("lined=yes a"), "", &[]);
    for whole in ["length=2 m", "length=up(2)", "length=5 %", "passes=[2]"] {
        check(&run(&format!("{whole} wa")), "wa", &["waist="]);
    }
    check(&run("length=2 * wa"), "wa", &["waist=", "waist", "waist_flat"]);
    // Nothing is known of an input of another name; a cloth takes no sum.
    check(&run("nosuch=2 * wai"), "wai", &["waist=", "waist", "waist_flat"]);
    check(&run("cloth=any + wai"), "wai", &["waist="]);
    // The word at the cursor is being written; those behind it are answered.
    check(&run("|waist=3 in"), "", &["waist=", "cloth=", "length=", "as "]);
    check(&run("c|h=x cloth=any"), "", &[]);
    check(&run("le|n cloth=any"), "le", &["length="]);
}

#[test]
fn behind_a_verb_come_recipes_before_cells_and_words_once_they_are_begun() {
    let cells = ["first", "orders", "waist", "waist_flat", "ärmel", "飾り"];
    check("show ", "", &cells);
    check("rename ", "", &cells);
    check("sheet ", "", &[&["gathered_skirt", "gathered_trim"][..], &cells[..]].concat());
    check("take ", "", &["back "]);
    check("cut orders.csv from may.txt, s", "s", &["straight", "squaring ", "steps ", "seconds ", "seed "]);
    check("cut orders.csv from may.txt, seed 3, s", "s", &["straight", "squaring ", "steps ", "seconds "]);
    let units: Vec<&str> = Unit::ALL.iter().map(|unit| unit.symbol()).collect();
    check("show waist as ", "", &units);
    check("$6/", "", &units);
    check("cut orders.csv from may.txt, loss wai", "wai", &[]);
    check("vary waist ", "", &[]);
    check("vary waist over 50 cm, ", "", &cells);
    check("vary waist over 50 cm, show ", "", &cells);
    check("vary fro", "fro", &[]);
    check("vary waist over 50 cm, sho", "sho", &["show "]);
    check("vary waist over 50 ", "", &units);
    check("late = first.cut_list where piec", "piec", &["piece"]);
    check("f(3).wai", "wai", &[]);
    let topics = words().offers("help ", 5).1;
    assert!(topics.contains(&"take".to_owned()) && topics.contains(&"hems and shrinkage".to_owned()), "{topics:?}");
    assert!(!topics.contains(&"strips_for".to_owned()) && topics.is_sorted(), "{topics:?}");
}

#[test]
fn an_answer_gets_the_quotes_that_keep_it_whole() {
    for (answer, opened, after, wanted) in [
        ("denim", None, "", Some("denim")),
        ("white lawn", None, "", Some("'white lawn'")),
        ("at$6", None, "", Some("'at$6'")),
        ("a,b", None, "", Some("'a,b'")),
        ("a=b", None, "", Some("'a=b'")),
        ("a#b", None, "", Some("'a#b'")),
        ("maker's", None, "", Some("\"maker's\"")),
        ("5\"", None, "", Some("'5\"'")),
        ("maker's 5\"", None, "", None),
        ("denim", Some('"'), "", Some("\"denim\"")),
        ("denim", Some('"'), "\" waist=2 in", Some("\"denim")),
        ("denim", Some('"'), "'", Some("\"denim\"")),
        ("white lawn", None, "'", Some("'white lawn'")),
        ("maker's", Some('\''), "", None),
    ] {
        assert_eq!(quoted(answer, opened, after).as_deref(), wanted, "{answer} {opened:?} {after}");
    }
    let files = ["or-ders_1.csv", "sub/may.txt", "~/a+b,c@d", "or ders.csv", "it's.csv", "a=b.csv", "a#b"];
    assert_eq!(plain(files.map(str::to_owned).to_vec()), files[..3]);
}

#[test]
fn members_columns_and_cells_behind_verbs() {
    check("2 * first.p", "p", &["panels", "price"]);
    check("first.", "", &["panels", "price", "cut_list"]);
    check("first.cut_list.co", "co", &["count"]);
    check("nothing.p", "p", &[]);
    check("2.p", "p", &[]);
    check("late = orders where da", "da", &["days"]);
    check("vary wai", "wai", &["waist", "waist_flat"]);
    check("vary ", "", &["first", "orders", "waist", "waist_flat", "ärmel", "飾り"]);
    check("vary waist fro", "fro", &["from "]);
    check("vary waist from 50 c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
    check("vary waist from 50 cm to 65 cm by 5 cm, show first.pa", "pa", &["panels"]);
    check("show waist fi", "fi", &["first"]);
    check("tour x", "x", &[]);
}

#[test]
fn help_knows_functions_topics_and_verbs() {
    check("help strips_l", "strips_l", &["strips_laid", "strips_looped"]);
    check("help bunting", "bunting", &["bunting", "bunting_rows", "bunting_tape"]);
    check("help hems a", "hems a", &["hems and shrinkage"]);
    check("help take", "take", &["take", "take_up"]);
}

#[test]
fn nothing_inside_a_text_or_a_note() {
    check("\"wai", "wai", &[]);
    check("waist # wai", "wai", &[]);
    check("# wai", "wai", &[]);
    check("14\" + wai", "wai", &["waist", "waist_flat"]);
}

#[test]
fn the_parts_of_a_cut() {
    check("cut or", "or", &["orders.csv"]);
    check("cut orders.csv ", "", &["from "]);
    check("cut orders.csv from ma", "ma", &["may.txt"]);
    check("cut orders.csv from may.txt, st", "st", &["straight", "steps "]);
    check("cut orders.csv from may.txt, straight, st", "st", &["steps "]);
    check("cut orders.csv from may.txt, loss 3 c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
    check("cut orders.csv from may.txt, loss 3 cm, to ", "", &["orders.csv", "may.txt", "sub/"]);
    check("cut orders.csv from may.txt, like o", "o", &["orders.csv"]);
}

/// Every offer, at every position of every example and form, leads to a line that can be completed.
#[test]
fn what_is_offered_is_read_as_far_as_it_goes() {
    let words = words();
    let examples = VERBS.iter().flat_map(|verb| verb.example).map(|line| (*line).to_owned());
    let forms = VERBS.iter().flat_map(|verb| verb.form().split(", or ").map(str::to_owned).collect::<Vec<_>>());
    let others = ["run gathered_skirt as x waist=waist cloth=any", "write first.cut_list to orders.csv", "open sub/x"];
    let mut seen = 0;
    for line in examples.chain(forms).chain(others.map(str::to_owned)) {
        for (cursor, _) in line.char_indices().chain([(line.len(), ' ')]) {
            let before = TypedLine::read(&line, cursor, TypedFor::Page).verb.map(|typed| typed.verb.name);
            let (start, offers) = words.offers(&line, cursor);
            for offer in offers {
                // A name that needs quotes gets them although it was begun without.
                let begun = line[start..cursor].to_lowercase();
                let fits =
                    offer.to_lowercase().trim_start_matches(QUOTES).starts_with(begun.trim_start_matches(QUOTES));
                assert!(fits, "{offer} in {line} at {cursor}");
                let taken = format!("{}{offer}", &line[..start]);
                let typed = TypedLine::read(&taken, taken.len(), TypedFor::Page);
                assert_eq!(typed.context, CursorContext::Code, "{taken}");
                assert!(before.is_none_or(|verb| typed.verb.is_some_and(|typed| typed.verb.name == verb)), "{taken}");
                assert!(typed.verb.is_none_or(|typed| typed.verb.may_begin(typed.rest)), "{taken}");
                seen += 1;
            }
        }
    }
    assert!(seen > 1_000, "{seen} offers");
}
