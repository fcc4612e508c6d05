//! The words of contract 1: one table of signatures, which is the complete list.
//!
//! The recipe writer's guide and the nearest-name hints come from it.

use crate::engine::Member;
use crate::recipe::contract::input_kind::InputKind;
use std::borrow::Cow;
use std::sync::LazyLock;

const fn word(of: &'static str, name: &'static str, form: &'static str, summary: &'static str) -> Member {
    Member { of, name, form: Cow::Borrowed(form), summary }
}

/// Every word besides the built-in functions, by what it belongs to.
pub static WORDS: LazyLock<Vec<Member>> = LazyLock::new(|| {
    let declared = InputKind::DECLARED.into_iter().map(|(name, _, summary)| {
        let form = Cow::Owned(format!("{name}(name, question)"));
        Member { of: "inputs", name, form, summary }
    });
    let (mut words, after_count) = (declared.collect::<Vec<_>>(), 7);
    words.insert(
        after_count,
        word("inputs", "choice", "choice(name, question, [words])", "asks for one of several words"),
    );
    words.extend(OTHERS.iter().cloned());
    words
});

/// The words that declare no input.
const OTHERS: &[Member] = &[
    word("unnamed", "any_cloth", "any_cloth(width) or any_cloth(width, price)", "cloth the workshop does not list"),
    word(
        "unnamed",
        "any_roll",
        "any_roll(width, put_up) or any_roll(width, put_up, price)",
        "roll goods it does not list",
    ),
    word("unnamed", "any_notion", "any_notion() or any_notion(price)", "a notion it does not list"),
    word("unnamed", "plain_notion", "plain_notion(name)", "a notion the recipe names by itself"),
    word("input", "usual", ".usual(value)", "the answer when none is given"),
    word("input", "between", ".between(least, most)", "the ends an answer must lie between"),
    word("input", "optional", ".optional()", "may be left out; ask order.has first"),
    word("input", "only_if", ".only_if(input, value)", "asked only if another input has this value"),
    word("input", "same_as", ".same_as(input)", "left out, it is the same as another input"),
    word("input", "body", ".body(measure)", "a body measure, which a size row may fill"),
    word("order", "has", "order.has(name)", "whether an input was given"),
    word(
        "order",
        "refuse",
        "order.refuse(input, why) or with what to give instead",
        "turns the order away because of an input",
    ),
    word(
        "order",
        "at_least",
        "order.at_least(input, amount)",
        "the least answer no less than an amount, on the order's tape and as it can be typed; blank where the input ends below it",
    ),
    word("order", "pieces", "order.pieces", "the number of garments"),
    word("gathers", "ratio", ".ratio", "flat over finished, all passes together"),
    word("gathers", "passes", ".passes", "the ratio of each pass"),
    word("gathers", "flat", ".flat(length)", "flat length for a finished one"),
    word("gathers", "finished", ".finished(length)", "finished length of a flat one"),
    word(
        "gathers",
        "strips",
        ".strips(length) or .strips(length, width, overlap)",
        "strips to cover a finished length",
    ),
    word("gathers", "source", ".source", "\"typed\", or the name of the trial"),
    word("gathers", "piece", ".piece", "width of the trial's strips"),
    word("gathers", "overlap", ".overlap", "overlap of the trial's strips"),
    word("cloth or notion", "name", ".name", "its name"),
    word(
        "cloth or notion",
        "usable_width",
        ".usable_width",
        "width less the selvedges; once washed, where the order allows for the wash",
    ),
    word("cloth or notion", "width_or", ".width_or(length)", "its listed width, or another where none is listed"),
    word("cloth or notion", "put_up", ".put_up", "length on one roll or bolt"),
    word("cloth or notion", "put_up_or", ".put_up_or(length)", "its put-up, or another length where none is listed"),
    word("cloth or notion", "nap", ".nap", "whether all pieces must face one way"),
    word("cloth or notion", "repeat", ".repeat", "length of the pattern; zero where there is none"),
    word("cloth or notion", "repeat_across", ".repeat_across", "width of the pattern; zero where it does not matter"),
    word("cloth or notion", "weight", ".weight", "weight by the area"),
    word("cloth or notion", "shrink_along", ".shrink_along", "share of its length lost in the first wash"),
    word("cloth or notion", "shrink_across", ".shrink_across", "share of its width lost in the first wash"),
    word("cloth or notion", "cut_drop", ".cut_drop(length)", "one drop, up to a whole repeat"),
    word(
        "cloth or notion",
        "repeats",
        ".repeats(length, \"straight\" or \"half drop\" or a shift)",
        "an unnamed cloth with a pattern",
    ),
    word("cloth or notion", "repeats_across", ".repeats_across(length)", "an unnamed cloth with checks or stripes"),
    word("cloth or notion", "napped", ".napped()", "an unnamed cloth whose pieces all face one way"),
    word("cloth or notion", "weighs", ".weighs(weight by area)", "an unnamed cloth of a weight"),
    word("ticket", "figure", "ticket.figure(name, value, meaning)", "publishes a named value"),
    word("ticket", "piece", "ticket.piece(name, cloth)", "a piece to cut; a shape must follow"),
    word(
        "ticket",
        "need",
        "ticket.need(notion, amount, why)",
        "a notion the order needs: a length in one piece, or a count",
    ),
    word("ticket", "sew", "ticket.sew(stitch class, length, why)", "a line of stitching"),
    word("ticket", "work", "ticket.work(operation, amount)", "work, at the workshop's rates"),
    word("ticket", "mark", "ticket.mark(piece, name, distance, from)", "a mark to make on a piece"),
    word("ticket", "step", "ticket.step(\"… {figure} …\")", "a step of the work sheet"),
    word(
        "ticket",
        "cut_steps",
        "ticket.cut_steps(piece)",
        "the steps that cut, split, join and trim it, from the plan",
    ),
    word("ticket", "caution", "ticket.caution(key)", "a caution that belongs to the order"),
    word("piece", "rectangle", ".rectangle(along, across)", "cut size of a rectangle"),
    word("piece", "full_width", ".full_width(along)", "over the full width of the cloth or roll"),
    word("piece", "strips", ".strips(total, cut length) or with an overlap", "full-width strips that cover a total"),
    word("piece", "sector", ".sector(inner, outer, turn)", "a part of a ring"),
    word("piece", "outline", ".outline([[across, along], …])", "any outline as the piece hangs; it closes by itself"),
    word("piece", "count", ".count(n)", "so many for one garment"),
    word("piece", "mirrored_pairs", ".mirrored_pairs(n)", "so many pairs, left and right"),
    word("piece", "on_fold", ".on_fold(\"along\" or \"across\")", "that middle line may lie on a fold"),
    word("piece", "grain", ".grain(\"along\", \"across\", \"bias\" or \"any\")", "how it lies on the cloth"),
    word(
        "piece",
        "widths",
        ".widths(across, along)",
        "widths of cloth joined to a panel, across from raw edge to raw edge",
    ),
    word(
        "piece",
        "joined",
        ".joined(allowance, \"whole widths\" or \"half widths\")",
        "how the widths of a panel are joined",
    ),
    word("piece", "left_and_right", ".left_and_right()", "two panels for each one counted, a left and a right"),
    word(
        "piece",
        "matched",
        ".matched(\"level\" or \"run on\") or with a line and its edge",
        "on the pattern: where two panels meet it stands level, or runs on; that line lies on one place of it",
    ),
    word("piece", "allow", ".allow(\"lower edge\" or \"upper edge\", amount)", "what is turned or hidden at an edge"),
    word("piece", "may_join", ".may_join(most, shortest, allowance)", "may be pieced together"),
    word("piece", "never_smaller", ".never_smaller()", "cut up to the next mark, never down"),
    word("piece", "once_per_order", ".once_per_order()", "once, not for each garment"),
    word("entry of the ticket", "count", ".count(n)", "a need by the length: n pieces of that length"),
    word("entry of the ticket", "once_per_order", ".once_per_order()", "once, not for each garment"),
    word(
        "entry of the ticket",
        "about",
        ".about(minutes)",
        "minutes where the workshop has no rate: for one, or for the whole of a length",
    ),
    word("entry of the ticket", "round_body", ".round_body(body, worn)", "elastic: keeps the limits of what may press"),
    word("plan", "pieces", "plan.pieces(name)", "pieces of a name in one garment"),
    word("plan", "joins", "plan.joins(name)", "joins in the pieces of a name"),
    word("plan", "widths", "plan.widths(name)", "widths of cloth in one panel, such as 1.5"),
    word("plan", "drops", "plan.drops(name)", "lengths of cloth cut for the widths of a name, in the whole order"),
    word("plan", "join_length", "plan.join_length(name)", "length of all joins between widths in one garment"),
    word("plan", "trimmed", "plan.trimmed(name)", "what is trimmed off the width of one panel"),
    word("plan", "length_of", "plan.length_of(cloth)", "length of a cloth from its first cut to its last"),
];
