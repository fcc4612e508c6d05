//! Answers that name cells of the page.

use super::*;

#[test]
fn cells_of_the_page_answer_by_their_names() {
    let cells = [
        ("waist", inches(21.0)),
        ("strip", inches(300.0)),
        ("gathers", TicketValue::List(vec![TicketValue::Whole(6), TicketValue::Whole(5)])),
        ("hem", inches(2.0)),
        ("tulle", TicketValue::Text("rose tulle".to_owned())),
    ];
    let given = [("tulle", "ivory tulle"), ("satin", "ivory satin"), ("elastic", "any")];
    let mut dialogue = start("strips_on_band", workshop(), &given, &cells).unwrap();
    check(
        &dialogue.typed(&["", "strip", "waist / 2 + hem", "tulle overlaped", "", ""]),
        "
waist: waist, tape snug
  a length; 8 in to 60 in; body measure “waist”
  or size Pip, size Wren, size Juno, size Alder
  Enter = 21 in (from waist)
>{}
21 in
strip: length of a strip, cut off the roll
  a length; 3 in to 60 in
> strip
no: strip: 300 in is outside what the recipe is made for, 3 in to 60 in
strip: length of a strip, cut off the roll
  a length; 3 in to 60 in
> waist / 2 + hem
12 1/2 in
gathers: passes under the foot, or a trial
  a ratio such as 2, passes such as [6, 5], or the name of a trial; 1 to 60
  or tulle edge to edge, tulle overlapped, lawn once
  Enter = 6, 5 (from gathers)
> tulle overlaped
no: gathers: there is no trial “tulle overlaped”
    did you mean “tulle overlapped”?
gathers: passes under the foot, or a trial
  a ratio such as 2, passes such as [6, 5], or the name of a trial; 1 to 60
  or tulle edge to edge, tulle overlapped, lawn once
  Enter = 6, 5 (from gathers)
>{}
6, 5
tape: hem tape for the end turnings
  elastic, tape, hook …: name it, or any
  or elastic 1 in, elastic 1/4 in, heading tape, hem tape
  Enter = without it
>{}
without tape
"
        .replace(">{}", "> ")
        .as_str(),
    );
    assert_eq!(
        dialogue.answers(),
        [
            "waist=waist",
            "strip=waist / 2 + hem",
            "gathers=gathers",
            "tulle=ivory tulle",
            "satin=ivory satin",
            "elastic=any"
        ]
    );
    let ticket = dialogue.run();
    assert_eq!(ticket.input("strip").unwrap().value, inches(12.5));
    assert_eq!(ticket.figure("ratio").unwrap().value.show(&Style::default()), "30");

    // Ten pieces of 6 in lapped 1/2 in are 55 1/2 in, gathered to 10 in and again to 2 in.
    assert!(dialogue.questions.back() && dialogue.questions.back());
    assert!(dialogue.typed(&["tulle overlapped"]).contains("> tulle overlapped\ntulle overlapped: a ratio of 27.75\n"));
}
