//! The questions of a set-up: what is asked, what is taken, what is refused, and the files that come of it.

use super::*;
use crate::workshop::set_up::{PlainSkirt, SetUp};

fn minutes(count: f64) -> Time {
    Time::try_from(Quantity::of(count, Unit::Minute)).unwrap()
}

/// Made-up minutes: 40 for the skirt on the inch tape, 50 for the one on the metric tape.
fn begun() -> SetUp {
    let skirt = |sizes: &str, count| PlainSkirt { sizes: sizes.to_owned(), minutes: minutes(count) };
    SetUp::new([skirt("in inches", 40.0), skirt("in centimetres", 50.0)])
}

fn answered(answers: &[&str]) -> SetUp {
    let mut set_up = begun();
    for answer in answers {
        set_up.answer(answer).unwrap_or_else(|error| panic!("{answer}: {}", error.message));
    }
    set_up
}

/// Up to the cloth's name, on the inch tape, in the minutes that are built in.
const TO_CLOTH: [&str; 7] = ["", "", "20", "", "", "", ""];

fn files(set_up: &SetUp) -> Vec<(String, String)> {
    let files = set_up.files().unwrap().into_iter();
    files.map(|(name, text)| (name, String::from_utf8(text).unwrap())).collect()
}

/// The lines of a file without its remarks.
fn lines(set_up: &SetUp, file: &str) -> Vec<String> {
    let (_, text) = files(set_up).into_iter().find(|(name, _)| name == file).unwrap();
    text.lines().filter(|line| !line.starts_with("# ")).map(str::to_owned).collect()
}

#[test]
fn what_is_not_there_is_not_asked() {
    // Washed and with an elastic: all fifteen.
    let rest = ["lawn", "44", "8/yd", "yes", "3 2", "soft 1 in", "1/yd", "5 for 1000 yd"];
    let mut all = begun();
    for (at, answer) in TO_CLOTH.iter().chain(&rest).enumerate() {
        assert_eq!(all.next().map(|question| question.number), Some(at + 1));
        all.answer(answer).unwrap();
    }
    assert_eq!((all.next(), all.answered()), (None, 15));
    // Neither: no loss, no price of an elastic.
    let few = answered(&[&TO_CLOTH[..], &["lawn", "44", "8/yd", "", "", ""]].concat());
    assert_eq!((few.next(), few.answered()), (None, 13));
    assert_eq!(few.goods(), [Some("lawn"), None]);
}

#[test]
fn what_is_offered_is_taken() {
    // Washed and with an elastic, so that every question comes.
    let mut set_up = begun();
    let mut offered = Vec::new();
    for answer in TO_CLOTH.iter().chain(&["lawn", "44", "8/yd", "yes", "3 2", "soft 1 in", "1/yd", "5 for 1000 yd"]) {
        for offer in set_up.next().unwrap().offers {
            set_up.clone().answer(offer).unwrap_or_else(|error| panic!("{offer}: {}", error.message));
            offered.push(*offer);
        }
        set_up.answer(answer).unwrap();
    }
    assert_eq!(offered, ["inch", "cm", "$", "£", "€", "yes", "no", "not measured", "none", "none"]);
}

#[test]
fn the_files_hold_what_was_answered_and_read_back_as_the_workshop() {
    let answers = [
        "cm",
        "€",
        "18,50",
        "20 %",
        "60",
        "",
        "1 h 15 min",
        "Leinen, natur",
        "140",
        "14.80/m",
        "no",
        "weich 25 mm",
        "0.90/m",
    ];
    let set_up = answered(&[&answers[..], &["6 for 1000 m"]].concat());
    assert_eq!(
        lines(&set_up, "rates.csv"),
        [
            "operation,per,minutes,set-up,value",
            "wage,,,,€18.50/h",
            "overhead,,,,20 %",
            "mark-up,,,,60 %",
            "waste,,,,5 %",
            // 75 of 50 minutes.
            "built-in minutes,,,,150 %",
        ]
    );
    assert_eq!(
        lines(&set_up, "materials.csv")[1..],
        [
            "\"Leinen, natur\",cloth,140 cm,,€14.80,m,0.1 m,,no,no,,,,,,",
            "weich 25 mm,notion,25 mm,,€0.90,m,0.1 m,,no,no,,,,,,",
            "sewing thread,thread,,1000 m,€6.00,put-up,put-up,,no,no,,,,,,",
        ]
    );
    let settings = lines(&set_up, "settings.csv");
    assert!(
        settings.contains(&"tape,metric".to_owned()) && settings.contains(&"currency,€".to_owned()),
        "{settings:?}"
    );
    let texts = files(&set_up);
    let texts: Vec<(&str, &str)> = texts.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    assert_eq!(read(&texts), set_up.workshop());
    // A remark is one field in either dialect, so that no spreadsheet splits it.
    for (name, text) in texts {
        let remarks: Vec<&str> = text.lines().take_while(|line| line.starts_with("# ")).collect();
        assert!(
            !remarks.is_empty() && remarks.iter().all(|line| !line.contains([',', ';', '"'])),
            "{name}: {remarks:?}"
        );
    }
}

#[test]
fn a_number_alone_is_taken_as_it_is_meant() {
    let mut set_up = answered(&["inches", "pounds", "21 an hour", "£2", "45 %", "6.5", "60"]);
    let rates = set_up.workshop().rates;
    let hour = |money: f64| Some(Quantity::money(money).per(Quantity::of(1.0, Unit::Hour)).unwrap().steps());
    assert_eq!(rates.wage.map(Quantity::steps), hour(21.0));
    assert!(matches!(rates.overhead, Some(Overhead::ByTime(by_time)) if Some(by_time.steps()) == hour(2.0)));
    assert_eq!((rates.mark_up, rates.fee, rates.built_in_times), (Some(0.45), Some(0.065), Some(1.5)));
    set_up.answer("lawn").unwrap();
    for (typed, echo) in [("43 1/2", "43 1/2 in"), ("110 cm", "110 cm")] {
        assert_eq!(set_up.answer(typed).unwrap(), echo);
        assert!(set_up.back());
    }
    set_up.answer("44").unwrap();
    let prices = [
        ("9.25/yd", "£9.25/yd, sold by 1/8 yd"),
        ("£9.25/m", "£9.25/m, sold by 0.1 m"),
        ("20 for 3 yd", "£20.00 for 3 yd"),
        ("3 each", "£3.00 each"),
    ];
    for (typed, echo) in prices {
        assert_eq!(set_up.answer(typed).unwrap(), echo, "{typed}");
        assert!(set_up.back());
    }
    set_up.answer("9/yd").unwrap();
    set_up.answer("y").unwrap();
    for (typed, loss) in [("4 2", (0.04, 0.02)), ("4 % and 2 %", (0.04, 0.02)), ("3.5 %, 1", (0.035, 0.01))] {
        set_up.answer(typed).unwrap();
        let workshop = set_up.workshop();
        let lawn = workshop.materials.find("lawn").unwrap();
        assert_eq!((lawn.shrink_along, lawn.shrink_across), (Some(loss.0), Some(loss.1)), "{typed}");
        assert!(set_up.back());
    }
}

#[test]
fn what_cannot_be_is_refused_and_asked_again() {
    let mut set_up = begun();
    // At each question, what it refuses and how that is said; then an answer that goes on.
    let questions: [(&[(&str, &str)], &str); 15] = [
        (&[("yards", "“yards” is no tape")], "inch"),
        (&[("krone", "“krone” is no money that is known")], "$"),
        (&[("", "nothing was typed"), ("-3", ""), ("much", "")], "20"),
        (&[("-1", ""), ("3 yd", "")], "0"),
        (&[("-5", "less than zero"), ("$3", "")], "0"),
        (&[("100", "“100 %” is too much; it must be less than 100 %")], "0"),
        (
            &[
                ("soon", "“soon” is no time that a skirt takes"),
                ("1", "“1” is far from the 40 min that are usual"),
                ("0", "“0” is no time that a skirt takes"),
                ("3 yd", "“3 yd” is no time that a skirt takes"),
            ],
            "45",
        ),
        (&[("", "nothing was typed")], "lawn"),
        (&[("0", "not more than zero"), ("wide", ""), ("3 min", "")], "44"),
        (&[("9.25", "“9.25” does not say what it buys"), ("cheap", ""), ("9/kilo", "")], "9.25/yd"),
        (&[("perhaps", "“perhaps” is neither yes nor no")], "yes"),
        (&[("100 2", "too much"), ("4 2 1", ""), ("a bit", "")], "4 2"),
        (&[("soft", "“soft” does not end in a width"), ("soft 3 min", "does not end in a width")], "soft 1 in"),
        (&[("0.95", "does not say what it buys")], "0.95/yd"),
        (&[("4.40", "does not say what it buys"), ("4.40 for a cone", "")], "4.40 for 3000 yd"),
    ];
    for (refused, taken) in questions {
        let question = set_up.next().unwrap();
        for (typed, message) in refused {
            let error = set_up.answer(typed).expect_err(typed);
            assert!(error.message.contains(message), "{typed}: {}", error.message);
            assert!(error.hint.is_some(), "{typed}: {}", error.message);
            assert_eq!(set_up.next().as_ref(), Some(&question), "{typed}");
        }
        set_up.answer(taken).unwrap();
    }
    assert_eq!(set_up.next(), None);
}

#[test]
fn going_back_drops_the_answer_and_what_followed_from_it() {
    let mut set_up = begun();
    assert!(!set_up.back());
    set_up.answer("cm").unwrap();
    set_up.answer("").unwrap();
    assert!(set_up.back() && set_up.back());
    assert_eq!(set_up.next().unwrap().number, 1);
    set_up.answer("").unwrap();
    assert_eq!(set_up.workshop().settings.tape, Tape::Inch);
    let mut washed = answered(&[&TO_CLOTH[..], &["lawn", "44", "8/yd", "yes"]].concat());
    assert!(washed.next().unwrap().asks.contains("takes of it"));
    assert!(washed.back());
    washed.answer("no").unwrap();
    assert!(washed.next().unwrap().asks.contains("elastic"));
    assert_eq!(washed.workshop().materials.find("lawn").unwrap().washing, None);
}
