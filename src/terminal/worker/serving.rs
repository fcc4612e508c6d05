//! The process that runs recipes: it answers one request after another until its input ends.

use super::fence::{self, Clock};
use super::frame::{Frame, MOST, read_frame, write_frame};
use crate::diagnostic::Diagnostic;
use crate::recipe::run::Answering;
use crate::recipe::{Reply, Request, Task};
use std::io::{Read, Write};
use std::time::Duration;

/// The processor time of an order: hundreds of times what the longest shipped recipe takes.
const ORDER: Duration = Duration::from_secs(2);

/// The processor time of a check or a description, which run a recipe many times.
const CHECK: Duration = Duration::from_secs(15);

/// Fences this process in and answers requests.
pub(in crate::terminal) fn serve(input: &mut dyn Read, output: &mut dyn Write) {
    answer_all(&fence::close(), input, output);
}

fn answer_all(clock: &Clock, input: &mut dyn Read, output: &mut dyn Write) {
    let mut answering = Answering::default();
    while let Frame::Whole(request) = read_frame(input) {
        let reply = match serde_json::from_slice::<Request>(&request) {
            Ok(request) => {
                let most = if matches!(request.task, Task::Run(_) | Task::Make(_)) { ORDER } else { CHECK };
                let _running = clock.run(most);
                answering.answer(request)
            }
            Err(_) => failed("the request could not be read"),
        };
        let bytes = serde_json::to_vec(&reply).ok().filter(|bytes| bytes.len() <= MOST);
        let bytes = bytes.or_else(|| serde_json::to_vec(&failed("the recipe made more than can be handed over")).ok());
        // Nobody listens any more.
        if bytes.is_none_or(|bytes| write_frame(output, &bytes).is_err()) {
            return;
        }
    }
}

fn failed(why: &str) -> Reply {
    Reply::Failed(vec![Diagnostic::new(why)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Style;
    use crate::recipe::{PROTOCOL, RecipeText};
    use std::collections::BTreeMap;

    /// Twice the length that is asked for.
    const TWICE: &str = "//! Twice.\n//! contract: 1   version: 1   licence: CC0-1.0   for: test\n\
        fn inputs() { [length(\"a\", \"a\").between(1 cm, 9 cm)] }\n\
        fn make(order, ticket) { ticket.figure(\"twice\", order.a * 2, \"twice\"); }";

    fn request(recipe: Option<&str>, workshop: bool, a: &str) -> Request {
        let text =
            |text: &str| RecipeText { name: "twice".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() };
        let workshop = workshop.then(Vec::new);
        Request { protocol: PROTOCOL, recipe: recipe.map(text), workshop, plain: false, task: Task::run([("a", a)]) }
    }

    fn answers(requests: &[Vec<u8>]) -> Vec<Reply> {
        let (mut wire, mut answered) = (Vec::new(), Vec::new());
        for request in requests {
            write_frame(&mut wire, request).unwrap();
        }
        answer_all(&Clock::still(), &mut wire.as_slice(), &mut answered);
        let mut answered = answered.as_slice();
        let mut replies = Vec::new();
        while let Frame::Whole(bytes) = read_frame(&mut answered) {
            replies.push(serde_json::from_slice(&bytes).unwrap());
        }
        replies
    }

    fn bytes(request: &Request) -> Vec<u8> {
        serde_json::to_vec(request).unwrap()
    }

    fn twice(reply: &Reply) -> String {
        match reply {
            Reply::Ran(ticket) => ticket.figures[0].value.show(&Style::default()),
            other => format!("{other:?}"),
        }
    }

    #[test]
    fn what_a_request_leaves_out_is_as_in_the_one_before() {
        let requests = [request(Some(TWICE), true, "3 cm"), request(None, false, "4 cm"), request(None, true, "2 cm")];
        let replies = answers(&requests.map(|request| bytes(&request)));
        let shown: Vec<String> = replies.iter().map(twice).collect();
        assert_eq!(shown, ["6 cm", "8 cm", "4 cm"]);
        let thrice = TWICE.replace("* 2", "* 3");
        let requests = [request(Some(TWICE), true, "3 cm"), request(Some(&thrice), false, "3 cm")];
        let replies = answers(&requests.map(|request| bytes(&request)));
        assert_eq!(replies.iter().map(twice).collect::<Vec<_>>(), ["6 cm", "9 cm"]);
    }

    #[test]
    fn what_is_no_request_is_answered_and_the_next_one_too() {
        let older = Request { protocol: PROTOCOL - 1, ..request(Some(TWICE), true, "3 cm") };
        let broken =
            Request { workshop: Some(vec![("rates.csv".to_owned(), "no,columns\n".to_owned())]), ..older.clone() };
        let broken = Request { protocol: PROTOCOL, ..broken };
        let requests = [
            bytes(&request(None, true, "3 cm")),
            bytes(&older),
            b"{".to_vec(),
            bytes(&request(Some(TWICE), false, "3 cm")),
            bytes(&broken),
            // The workshop before it is not taken for one that could not be read.
            bytes(&request(None, false, "3 cm")),
        ];
        let replies = answers(&requests);
        let failed: Vec<bool> = replies.iter().map(|reply| matches!(reply, Reply::Failed(_))).collect();
        assert_eq!(failed, [true, true, true, false, true, true], "{replies:?}");
        assert_eq!(twice(&replies[3]), "6 cm");
    }

    #[test]
    fn a_reply_of_more_than_four_megabytes_is_one_in_words() {
        let large = TWICE.replace(
            "{ ticket.figure",
            "{ let t = \"x\"; for i in 0..16 { t += t; } for i in 0..900 { ticket.step(t); } ticket.figure",
        );
        let replies = answers(&[bytes(&request(Some(&large), true, "3 cm"))]);
        assert!(matches!(replies.as_slice(), [Reply::Failed(_)]));
    }
}
