//! Answers of every kind, on both tapes, and inputs that depend on other answers.

use super::*;
use crate::quantity::{InchStep, Tape};
use crate::recipe::InputKind;

#[test]
fn what_depends_on_a_choice_is_asked_where_it_applies() {
    let asked = |end: &str| {
        let given = [
            ("head", "9 in"),
            ("arm", "7 in"),
            ("sleeve", "2 in"),
            ("cap", "4 in"),
            ("cloth", "ivory satin"),
            ("end", end),
        ];
        start("puff_sleeve", workshop(), &given, &[]).unwrap().questions.next().map(|question| question.input)
    };
    assert_eq!(asked("elastic").as_deref(), Some("elastic"));
    assert_eq!(asked("cuff"), None);
}

#[test]
fn a_choice_offers_its_words_and_decides_what_is_asked() {
    let text = "fn inputs() { [
            choice(\"end\", \"lower edge\", [\"cuff\", \"elastic\"]),
            length(\"cuff\", \"depth of the cuff\").between(1 in, 5 in).only_if(\"end\", \"cuff\"),
            notion(\"elastic\", \"elastic\").only_if(\"end\", \"elastic\"),
            yes_no(\"bows\", \"bows\"),
            money(\"gift\", \"a gift\").between($0, $9),
            time(\"wait\", \"waiting\").between(0 min, 2 h),
            mass(\"yarn\", \"yarn\").between(1 g, 2 kg),
            area(\"patch\", \"a patch\").between(1 in^2, 90 in^2),
            list(\"drops\", \"drops\").between(1 in, 20 in),
            count(\"layers\", \"layers\").between(1, 6),
            text(\"note\", \"a note\"),
        ] }
        fn make(order, ticket) {}";
    let typed = [
        "Cuff",
        "cuff",
        "back",
        "elastic",
        "any at $0.50/yd",
        "perhaps",
        "yes",
        "4.5",
        "90",
        "8",
        "4",
        "4 in^2",
        "3",
        "2.5",
        "3",
        "for Saturday",
    ];
    for (workshop, replies) in [
        (
            workshop(),
            [
                "no: end: “Cuff” is none of cuff, elastic\n    did you mean “cuff”?",
                "cuff",
                "going back",
                "elastic",
                "any at $0.50/yd",
                "no: bows: yes or no is needed",
                "yes",
                "$4.50",
                "90 min",
                "8 oz",
                "no: patch: an area is needed, not a plain number\n    give it a unit: 4 in^2 or 4 cm^2",
                "4 in^2",
                "3 in",
                "no: layers: a whole number is needed, not a plain number",
                "3",
                "for Saturday",
            ],
        ),
        (
            Workshop::read(&[("settings.csv", "setting,value\ntape,metric\n")]).unwrap(),
            [
                "no: end: “Cuff” is none of cuff, elastic\n    did you mean “cuff”?",
                "cuff",
                "going back",
                "elastic",
                "any at $0.50/yd",
                "no: bows: yes or no is needed",
                "yes",
                "$4.50",
                "90 min",
                "8 g",
                "no: patch: an area is needed, not a plain number\n    give it a unit: 4 cm^2 or 4 in^2",
                "4 in^2",
                "3 cm",
                "no: layers: a whole number is needed, not a plain number",
                "3",
                "for Saturday",
            ],
        ),
    ] {
        let recipe =
            crate::recipe::RecipeText { name: "kinds".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() };
        let style = workshop.settings.style();
        let described = answer_in(&recipe, &workshop, false, &Task::Describe, StopFlag::default());
        let Reply::Described(description) = described else { panic!("{described:?}") };
        let page = Host::new(workshop.settings.reading(), style, Limits::CELL, StopFlag::default());
        let cells = BTreeMap::new();
        let questions = Questions::new(description, &workshop, style, Vec::new(), &cells, &|typed| {
            page_value(&page, &cells, typed)
        });
        let questions = questions.unwrap_or_else(|refusals| panic!("{refusals:?}"));
        assert_eq!(questions.next().unwrap().to_string(), "end: lower edge\n  cuff or elastic");
        assert_eq!(questions.next().unwrap().offers, ["cuff", "elastic"]);
        let mut dialogue = Dialogue { questions, page, cells, workshop, recipe };
        for (line, reply) in typed.iter().zip(replies) {
            let transcript = dialogue.typed(&[line]);
            assert!(transcript.contains(&format!("> {line}\n{reply}\n")), "{line}: {reply}\n{transcript}");
        }
        assert_eq!(dialogue.questions.next(), None);
        dialogue.run();
    }
}

#[test]
fn money_that_is_no_decimal_goes_to_the_cent() {
    let gift = Input::new("gift", "a gift", InputKind::Measure(Dimension::MONEY));
    let unit = |typed: &str| with_unit(&gift, typed, Reading::default(), &Style::default());
    for (typed, recorded) in [
        ("4", "$4"),
        ("4.505", "$4.505"),
        ("1/2", "$0.50"),
        ("1/3", "$0.33"),
        ("2½", "$2.50"),
        ("-1", "-$1.00"),
        (".5", "$0.50"),
    ] {
        assert_eq!(unit(typed).as_deref(), Some(recorded), "{typed}");
    }
    for typed in ["$4", "4 in", "four", "5 %", "2 dozen", "1/0", ""] {
        assert_eq!(unit(typed), None, "{typed}");
    }
    let waist = Input::new("waist", "waist", InputKind::Measure(Dimension::LENGTH));
    let metric = Style { tape: Tape::Metric, inch_step: InchStep::Eighth, ..Style::default() };
    assert_eq!(with_unit(&waist, "56.5", Reading::default(), &metric).as_deref(), Some("56.5 cm"));
    assert_eq!(with_unit(&waist, "½", Reading::default(), &Style::default()).as_deref(), Some("½ in"));
}
