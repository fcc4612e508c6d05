//! The table of verbs, in the order help lists them.

use super::Slot::{
    Answers, Cell, Cells, Clauses, Condition, Count, File, Folder, Keyword, Measure, NewCell, NewName, Order, Recipe,
    Sum, Sums, Topic, Varied, Words,
};
use super::Which::{First, Last};
use super::{ClauseForm, Form, IncompleteLine, Part, Slot, Verb};

/// A form that help shows.
const fn form(parts: &'static [Part]) -> Form {
    Form { parts, listed: true }
}

/// A form that is parsed but not shown.
const fn unlisted(parts: &'static [Part]) -> Form {
    Form { parts, listed: false }
}

const fn part(slot: Slot, shown: &'static str) -> Part {
    Part { slot, shown }
}

const fn word(word: &'static str) -> Part {
    Part { slot: Keyword(word, First), shown: word }
}

/// A word whose last occurrence in a line counts.
const fn last_word(word: &'static str) -> Part {
    Part { slot: Keyword(word, Last), shown: word }
}

const CELL: Part = part(Cell, "NAME");
const NEW_CELL: Part = part(NewCell, "NAME");
const RECIPE: Part = part(Recipe, "RECIPE");
const ANSWERS: Part = part(Answers, "input=answer …");
const FILE: Part = part(File, "FILE");
const SUM: Part = part(Sum, "NAME");
/// Ignored text after a verb that takes nothing.
const IGNORED: Part = part(Words, "");

const fn clause(word: &'static str, takes: Option<Slot>, shown: &'static str) -> ClauseForm {
    ClauseForm { word, takes, shown, listed: true }
}

const fn unlisted_clause(word: &'static str, takes: Option<Slot>, shown: &'static str) -> ClauseForm {
    ClauseForm { word, takes, shown, listed: false }
}

/// The clauses of `cut`.
const CUTTING: &[ClauseForm] = &[
    clause("straight", None, ""),
    clause("folded", None, ""),
    clause("loss", Some(Measure), "1/8 in"),
    unlisted_clause("squaring", Some(Measure), "1 in"),
    clause("keep", Some(Measure), "30 cm"),
    unlisted_clause("like", Some(File), "plan.csv"),
    unlisted_clause("steps", Some(Measure), "2000000"),
    unlisted_clause("seconds", Some(Measure), "30"),
    unlisted_clause("seed", Some(Measure), "2"),
    clause("to", Some(Folder), "FOLDER"),
];

const WHICH_RECIPE: Option<IncompleteLine> =
    Some(IncompleteLine { question: "which recipe?", hint: "type recipes for the list" });

/// The fields that most verbs share.
const PLAIN: Verb = Verb {
    name: "",
    forms: &[],
    summary: "",
    incomplete: None,
    only_typed: false,
    command: None,
    example: &[],
    shown: "",
};

/// The verbs, in the order help lists them.
pub static VERBS: &[Verb] = &[
    Verb {
        name: "show",
        forms: &[form(&[]), form(&[part(Cells, "NAME …")])],
        summary: "shows the page as a table: each name, its value, how it comes about, its note",
        example: &["waist = 56 cm  # measured twice", "band = waist + 10 in", "show"],
        shown: "\
name   value    how            note

waist  56 cm    56 cm          measured twice
band   81.4 cm  waist + 10 in",
        ..PLAIN
    },
    Verb {
        name: "vary",
        forms: &[
            form(&[
                part(Varied(&["from", "to", "by", "over"]), "NAME from A to B by STEP,"),
                word("show"),
                part(Sums, "NAME, …"),
            ]),
            // The parser of `vary` says what such a line lacks.
            unlisted(&[part(Words, "")]),
        ],
        summary: "tries one or two cells, answers, rates or prices over a range or a list and shows what follows",
        incomplete: Some(IncompleteLine {
            question: "vary what, and show what?",
            hint: "type vary waist from 50 cm to 65 cm by 5 cm, show strips, or vary waist over 50 cm, 56 cm, show strips",
        }),
        example: &["waist = 56 cm", "strips = up(waist / 6 cm)", "vary waist from 50 cm to 65 cm by 5 cm, show strips"],
        shown: "\
strips, by waist
50 cm   9  #########################
55 cm  10  ###########################     strips 9 → 10
60 cm  10  ###########################
65 cm  11  ##############################  strips 10 → 11",
        ..PLAIN
    },
    Verb {
        name: "chart",
        forms: &[form(&[]), form(&[part(Sum, "NAME")])],
        summary: "draws where the money, time and cloth of an order go, or the figures of a table, as bars; alone, of the last answer or order",
        example: &[
            "waist = 56 cm",
            "strips = up(waist / 6 cm)",
            "vary waist over 50 cm, 60 cm, 72 cm, show strips",
            "chart",
        ],
        shown: "\
strips, by waist
50 cm   9  #######################
60 cm  10  #########################       strips 9 → 10
72 cm  12  ##############################  strips 10 → 12",
        ..PLAIN
    },
    Verb {
        name: "must",
        forms: &[form(&[part(Condition, "CONDITION")])],
        summary: "keeps a test on the page: must band > 80 cm, must price = $23.40 within $0.05",
        incomplete: Some(IncompleteLine {
            question: "what must be true?",
            hint: "type must band > 80 cm, or must strips = 12",
        }),
        example: &["waist = 56 cm", "must waist < 60 cm"],
        shown: "OK: waist < 60 cm",
        ..PLAIN
    },
    Verb {
        name: "run",
        forms: &[
            form(&[RECIPE, last_word("as"), NEW_CELL, ANSWERS]),
            unlisted(&[RECIPE, ANSWERS, last_word("as"), NEW_CELL]),
            unlisted(&[RECIPE, ANSWERS]),
        ],
        summary: "runs a recipe into a cell; what is missing is asked, back goes to the question before, help explains it",
        incomplete: WHICH_RECIPE,
        command: Some("Run a recipe for one order and show its tables"),
        example: &["run gathered_skirt as first waist=21 in skirt=12 in cloth=any 45 in at $6/yd elastic=any"],
        shown: "first  1 piece to cut, ≈ 36 min, $29.50; the price leaves out: any elastic for the waist",
        ..PLAIN
    },
    Verb {
        name: "change",
        forms: &[form(&[part(Order, "NAME"), ANSWERS])],
        summary: "gives an order of the page another answer, or the usual one where none is typed; the others stay",
        incomplete: Some(IncompleteLine {
            question: "change which order, and which answer?",
            hint: "type change first waist=24 in",
        }),
        only_typed: true,
        example: &[
            "run gathered_skirt as first waist=21 in skirt=12 in cloth=any 45 in at $6/yd elastic=any",
            "change first waist=24 in",
        ],
        shown: "\
first  2 pieces to cut, ≈ 40 min, $36.50; the price leaves out: any elastic for the waist
       was 1 piece to cut, ≈ 36 min, $29.50; the price leaves out: any elastic for the waist",
        ..PLAIN
    },
    Verb {
        name: "recipes",
        forms: &[form(&[part(Words, "WORD")]), unlisted(&[])],
        summary: "lists the recipes, or those about a word",
        command: Some("List the recipes, or those about a word"),
        example: &["recipes sleeves"],
        shown: "\
bell_sleeve       Bell sleeve, opening from the head or from the elbow to a wide hem; one pair.
bishop_sleeve     Bishop sleeve: fitted at the head, full below, gathered to a cuff over which it blouses; one pair.
circular_flounce  Circular flounce: rings cut open and joined, smooth at the seam and rippling at the hem.
puff_sleeve       Puff sleeve on a cuff or on elastic: one pair, cut as mirror images.",
        ..PLAIN
    },
    Verb {
        name: "describe",
        forms: &[form(&[RECIPE])],
        summary: "tells what a recipe makes and asks",
        incomplete: WHICH_RECIPE,
        command: Some("Tell what a recipe makes and asks"),
        example: &["describe gathered_skirt"],
        shown: "\
Gathered skirt of straight panels, on elastic in a turned-down casing or on a buttoned band.
version 1.2   licence CC0-1.0   for skirt, child

waist            waist, tape snug
                   a length; 12 in to 60 in; body measure “waist”
hips             hips, where they are widest
…",
        ..PLAIN
    },
    Verb {
        name: "check",
        forms: &[form(&[RECIPE])],
        summary: "checks a recipe: its text in every branch, its examples, sizes at the ends of its ranges and between",
        incomplete: WHICH_RECIPE,
        command: Some(
            "Check recipes: their text in every branch, their examples, sizes at the ends of their ranges and between",
        ),
        example: &["check gathered_skirt"],
        shown: "gathered_skirt: nothing to mend; 8 examples right; 59 sizes tried, 36 refused with a reason\nnothing that was tried came to line 45",
        ..PLAIN
    },
    Verb {
        name: "all",
        forms: &[form(&[]), form(&[part(Order, "NAME")])],
        summary: "shows every table, step and caution of an order, a screen at a time; alone, of the one shown last",
        example: &["run gathered_trim as frill edge=1 m depth=6 cm cloth=any 45 in at $6/yd", "all frill"],
        shown: "\
Gathered frill or ruffle for an edge, single with a hem or folded double, open-ended or joined in a ring.
2 pieces to cut, ≈ 42 min, $31.50
From new cloth (any frill cloth): 2 strips of about 3 3/8 in, marks about 3 3/8 in and about 6 3/4 in.
This is the least possible of any frill cloth.

cut list
…",
        ..PLAIN
    },
    Verb {
        name: "sheet",
        forms: &[form(&[part(Order, "NAME")]), form(&[RECIPE, ANSWERS]), unlisted(&[])],
        summary: "shows the work sheet of an order; alone, of the one shown last",
        incomplete: WHICH_RECIPE,
        command: Some("Show the work sheet of an order"),
        example: &["run gathered_trim as frill edge=1 m depth=6 cm cloth=any 45 in at $6/yd", "sheet frill"],
        shown: "\
SHEET  gathered trim                                        page 1 of 2: cutting
edge about 39 3/8 in, depth about 2 3/8 in, cloth any frill cloth
tape: inch, to 1/8
--------------------------------------------------------------------------------
CLOTH  any frill cloth, 45 wide
CUT    new cloth: 6 3/4 long
…",
        ..PLAIN
    },
    Verb {
        name: "cut",
        forms: &[form(&[
            part(File, "PIECES.csv"),
            word("from"),
            part(File, "LENGTHS.csv,"),
            part(Clauses(CUTTING), ""),
        ])],
        summary: "plans a list of pieces onto a list of lengths, and tells what is left; also squaring 1 in, like plan.csv, seconds 30",
        incomplete: Some(IncompleteLine {
            question: "cut which pieces, from which lengths?",
            hint: "type cut pieces.csv from lengths.csv",
        }),
        command: Some("Plan a list of pieces onto the lengths there are: shirr cut pieces.csv --from lengths.csv"),
        example: &["cut demo/strips.csv from demo/rolls.csv"],
        shown: "\
From roll B4-2: 6 long strips of 54 in for order 31, marks 54 in, 108 in and so on to 324 in; 7 short strips of 10 in
for order 32, marks 334 in, 344 in and so on to 394 in; 2 in left.
From new tulle roll 1: 11 long strips of 54 in for order 31, marks 54 in, 108 in and so on to 594 in; 2 short strips of
10 in for order 32, marks 604 in and 614 in; 7 yd 34 in left.
From new tulle roll 2: 16 long strips of 54 in for order 31, marks 54 in, 108 in and so on to 864 in; 3 short strips of
10 in for order 32, marks 874 in, 884 in and 894 in; 6 in left.
…",
        ..PLAIN
    },
    Verb {
        name: "read",
        forms: &[form(&[part(File, "FILE.csv"), last_word("as"), NEW_CELL])],
        summary: "reads a table from a file into a cell; the cell follows the file when it changes",
        incomplete: Some(IncompleteLine {
            question: "read which file, as which cell?",
            hint: "type read pieces.csv as pieces",
        }),
        example: &["read demo/stock.csv as shelf"],
        shown: "shelf  27 rows: stock, material, lot, count, along, across, washed, price, place, held for",
        ..PLAIN
    },
    Verb {
        name: "write",
        forms: &[form(&[SUM, last_word("to"), FILE]), unlisted(&[SUM, last_word("over"), FILE])],
        summary: "writes a table or the page as .csv, .md, .txt or, as bars, .svg; a ticket as one .md, its sheet as .txt, its pieces as .svg, how they lie as lays.svg, where its money goes as chart.svg, its tables into a folder",
        incomplete: Some(IncompleteLine {
            question: "write what to which file?",
            hint: "type write first.cut_list to cut_list.csv, write first to tables, or write page to page.md",
        }),
        only_typed: true,
        example: &["waist = 56 cm", "write page to waist.md"],
        shown: "1 row is in waist.md",
        ..PLAIN
    },
    Verb {
        name: "strike",
        forms: &[form(&[CELL])],
        summary: "strikes a cell off the page",
        incomplete: Some(IncompleteLine { question: "which cell?", hint: "type show for the page" }),
        only_typed: true,
        example: &["waist = 56 cm", "strike waist"],
        shown: "removed waist   was 56 cm",
        ..PLAIN
    },
    Verb {
        name: "rename",
        forms: &[form(&[CELL, word("to"), part(NewName, "NAME")]), form(&[word("page"), word("to"), FILE])],
        summary: "gives a cell another name wherever it is read, or the page another file",
        incomplete: Some(IncompleteLine {
            question: "rename what to what?",
            hint: "type rename waist to snug, or rename page to fair.txt",
        }),
        only_typed: true,
        example: &["waist = 56 cm", "band = waist + 25 cm", "rename waist to snug"],
        shown: "waist is now snug; 1 line that reads it says so too",
        ..PLAIN
    },
    Verb {
        name: "take",
        forms: &[form(&[word("back")]), form(&[word("back"), part(Count("lines"), "3")])],
        summary: "takes back the last line, or the last three",
        incomplete: Some(IncompleteLine { question: "take what?", hint: "type take back, or take back 3" }),
        only_typed: true,
        example: &["waist = 56 cm", "waist = 60 cm", "take back"],
        shown: "\
taken back: waist = 60 cm
waist  56 cm   was 60 cm",
        ..PLAIN
    },
    Verb {
        name: "redo",
        forms: &[form(&[]), form(&[part(Count("lines"), "3")])],
        summary: "does again what was taken back",
        only_typed: true,
        example: &["waist = 56 cm", "waist = 60 cm", "take back", "redo"],
        shown: "\
done again: waist = 60 cm
waist  60 cm   was 56 cm",
        ..PLAIN
    },
    Verb {
        name: "compare",
        forms: &[form(&[]), form(&[FILE]), form(&[FILE, word("with"), FILE])],
        summary: "tells what differs between this page and its saved state, or between two pages",
        example: &["waist = 56 cm", "save fair.txt", "waist = 60 cm", "compare"],
        shown: "\
name   saved  now    how

waist  56 cm  60 cm  56 cm → 60 cm",
        ..PLAIN
    },
    Verb {
        name: "pages",
        forms: &[form(&[]), unlisted(&[IGNORED])],
        summary: "lists the pages of the folder, and whether one was left without a name",
        example: &["waist = 56 cm", "save fair.txt", "pages"],
        shown: "\
page      lines  cells

fair.txt      1      1",
        ..PLAIN
    },
    Verb {
        name: "open",
        forms: &[form(&[FILE]), form(&[word("left")]), unlisted(&[])],
        summary: "opens a page, or the page that was left without a name; open alone lists them",
        only_typed: true,
        example: &["waist = 56 cm", "save fair.txt", "open fair.txt"],
        shown: "fair.txt: 1 line, 1 cell",
        ..PLAIN
    },
    Verb {
        name: "save",
        forms: &[form(&[]), form(&[FILE])],
        summary: "saves the page under a name; from then on every line is saved at once",
        incomplete: Some(IncompleteLine { question: "under which name?", hint: "type save fair.txt" }),
        only_typed: true,
        example: &["waist = 56 cm", "save fair.txt"],
        shown: "saved as fair.txt; from now on each line is saved at once",
        ..PLAIN
    },
    Verb {
        name: "own",
        forms: &[form(&[word("workshop")]), form(&[word("workshop"), word("in"), part(Folder, "FOLDER")])],
        summary: "sets up your own workshop: asks for tape, wage, cloth and a first order, and writes the files after the last answer",
        incomplete: Some(IncompleteLine {
            question: "your own what?",
            hint: "type own workshop, or own workshop in mine for a folder of its own",
        }),
        only_typed: true,
        example: &["own workshop in mine"],
        shown: "\
your workshop, in the folder mine
Enter = what stands in [ ]; back = the question before; help explains it; cancel or Ctrl-C stops; nothing is written
before the last answer
1  your tape: inch or cm?  [inch]",
        ..PLAIN
    },
    Verb {
        name: "demo",
        forms: &[form(&[word("workshop")]), form(&[word("workshop"), word("in"), part(Folder, "FOLDER")])],
        summary: "lays down the files of an invented workshop to try things in; no file is written over",
        incomplete: Some(IncompleteLine {
            question: "a demo of what?",
            hint: "type demo workshop, or demo workshop in tryout for a folder of its own",
        }),
        only_typed: true,
        example: &["demo workshop in tryout"],
        shown: "\
settings.csv, materials.csv, stock.csv, trials.csv, rates.csv, sizes.csv, pieces.csv, lengths.csv, strips.csv, rolls.csv
and SCENARIO.md are in the folder tryout; the next time, start there or type shirr --workshop tryout
everything in it is invented: own workshop in mine asks for your own before you quote a price",
        ..PLAIN
    },
    Verb {
        name: "workshop",
        forms: &[form(&[])],
        summary: "tells which folder is in use and what its files hold",
        example: &["workshop"],
        shown: "\
folder demo
file           holds

settings.csv   inch tape, money in $
materials.csv  19 materials
stock.csv      27 lines of stock
…",
        ..PLAIN
    },
    Verb {
        name: "add",
        forms: &[
            form(&[word("cloth"), part(Words, "NAME, 43 1/2 in wide, $9.25/yd, …")]),
            form(&[word("roll"), part(Words, "NAME, …")]),
            form(&[word("notion"), part(Words, "NAME, …")]),
            form(&[word("thread"), part(Words, "NAME, …")]),
            form(&[word("price"), part(Words, "NAME, $9.25/yd")]),
            form(&[word("rate"), part(Words, "NAME, 1.6 min/yd, …")]),
            form(&[word("trial"), part(Words, "NAME, CLOTH, 20 in to 5 in, …")]),
            form(&[word("remnant"), part(Words, "MARK, CLOTH, 31 in by 42 in, …")]),
        ],
        summary: "puts one more line into the workshop's files; a name that is there already is refused",
        incomplete: Some(IncompleteLine {
            question: "add what: cloth, roll, notion, thread, price, rate, trial or remnant?",
            hint: "type add cloth white lawn, 43 1/2 in wide, $9.25/yd, washed first, loses 4 % and 2 %",
        }),
        only_typed: true,
        example: &["add cloth plain net, 54 in wide, $2.40/yd, loses nothing"],
        shown: "\
added to materials.csv: plain net, kind cloth, usable width 54 in, price $2.40/yd, sold by 1/8 yd, shrink along 0 %,
shrink across 0 %",
        ..PLAIN
    },
    Verb {
        name: "help",
        forms: &[form(&[]), form(&[part(Topic, "WORD")])],
        summary: "explains a function, a verb, a topic, or whatever holds the word",
        command: Some("Explain a word as at the prompt; without one, print this message"),
        example: &["help remainder"],
        shown: "\
remainder(amount, part)
  What is left of an amount after taking whole parts from it.
  amount   a number or a measure, such as 2.5, 14 1/2 in or 35 cm
  part     a number or a measure, such as 2.5, 14 1/2 in or 35 cm
  answers  a number or a measure
  remainder(7, 3)          1
…",
        ..PLAIN
    },
    Verb {
        name: "tour",
        forms: &[form(&[]), form(&[part(Words, "2")])],
        summary: "shows the program round in five minutes, on your own tape",
        example: &["tour 1"],
        shown: "\
1 of 5: Sums with units
Type a sum as you would say it, each measure with its unit. Fractions of an inch, yards and inches together, prices by
the yard or metre: all are read and kept apart.
  > 23 in / 2 in * 10
    115
  > 14 1/2 in + 7/8 in
…",
        ..PLAIN
    },
    Verb {
        name: "leave",
        forms: &[form(&[]), unlisted(&[IGNORED])],
        summary: "leaves; the page is kept",
        example: &["leave"],
        ..PLAIN
    },
];
