//! The verbs a line may begin with: form, what each does, an example. Help, completion, hints and tests
//! are drawn from this one list.

/// A verb.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Verb {
    /// The word a line begins with.
    pub name: &'static str,
    /// How it is written.
    pub form: &'static str,
    /// What it does, in one line.
    pub summary: &'static str,
    /// Lines that are typed one after the other, the last of them this verb.
    pub example: &'static [&'static str],
    /// What the last line of the example shows, in the demo workshop.
    pub shown: &'static str,
}

/// The verbs, in the order help lists them.
pub static VERBS: &[Verb] = &[
    Verb {
        name: "show",
        form: "show, or show NAME …",
        summary: "shows the page as a table: each name, its value, how it comes about, its note",
        example: &["waist = 56 cm  # measured twice", "band = waist + 10 in", "show"],
        shown: "\
name   value    how            note

waist  56 cm    56 cm          measured twice
band   81.4 cm  waist + 10 in",
    },
    Verb {
        name: "vary",
        form: "vary NAME from A to B by STEP, show NAME, …",
        summary: "tries one or two cells over a range or a list (vary waist over 50 cm, 56 cm) and shows what follows",
        example: &["waist = 56 cm", "strips = up(waist / 6 cm)", "vary waist from 50 cm to 65 cm by 5 cm, show strips"],
        shown: "\
waist  strips  jump

50 cm       9
55 cm      10  strips 9 → 10
60 cm      10
65 cm      11  strips 10 → 11",
    },
    Verb {
        name: "must",
        form: "must CONDITION",
        summary: "keeps a test on the page: must band > 80 cm, must price = $23.40 within $0.05",
        example: &["waist = 56 cm", "must waist < 60 cm"],
        shown: "holds: waist < 60 cm",
    },
    Verb {
        name: "run",
        form: "run RECIPE as NAME input=answer …",
        summary: "runs a recipe into a cell; what is missing is asked, back goes to the question before, help explains it",
        example: &["run gathered_skirt as first waist=21 in skirt=12 in cloth=any 45 in at $6/yd elastic=any"],
        shown: "first  1 piece to cut, ≈ 36 min, $29.50 without any elastic for the waist",
    },
    Verb {
        name: "recipes",
        form: "recipes WORD",
        summary: "lists the recipes, or those about a word",
        example: &["recipes sleeves"],
        shown: "\
bell_sleeve       Bell sleeve, opening from the head or from the elbow to a wide hem; one pair.
bishop_sleeve     Bishop sleeve: fitted at the head, full below, gathered to a cuff over which it blouses; one pair.
circular_flounce  Circular flounce: rings cut open and joined, smooth at the seam and rippling at the hem.
puff_sleeve       Puff sleeve on a cuff or on elastic: one pair, cut as mirror images.",
    },
    Verb {
        name: "describe",
        form: "describe RECIPE",
        summary: "tells what a recipe makes and asks",
        example: &["describe gathered_skirt"],
        shown: "\
Gathered skirt of straight panels, on elastic in a turned-down casing or on a buttoned band.
version 1.2   licence CC0-1.0   for skirt, child

waist          waist, tape snug
                 a length; 12 in to 60 in; body measure “waist”
hips           hips, where they are widest
…",
    },
    Verb {
        name: "check",
        form: "check RECIPE",
        summary: "checks a recipe: header, inputs, examples, every corner of the ranges",
        example: &["check gathered_skirt"],
        shown: "gathered_skirt: nothing to mend; 5 examples come out, 21 corners of the ranges tried, 13 of them turned away",
    },
    Verb {
        name: "sheet",
        form: "sheet NAME, or sheet RECIPE input=answer …",
        summary: "shows the work sheet of an order",
        example: &["run gathered_trim as frill edge=1 m depth=6 cm cloth=any 45 in at $6/yd", "sheet frill"],
        shown: "\
gathered trim
=============

makes:    Gathered frill or ruffle for an edge, single with a hem or folded
          double, open-ended or joined in a ring.
edge:     1 m
…",
    },
    Verb {
        name: "read",
        form: "read FILE.csv as NAME",
        summary: "reads a table from a file into a cell; the cell follows the file when it changes",
        example: &["read demo/stock.csv as shelf"],
        shown: "shelf  27 rows: stock, material, lot, count, along, across, price, place, held for",
    },
    Verb {
        name: "write",
        form: "write NAME to FILE",
        summary: "writes a table or the page as .csv, .md or .txt; a ticket as one .md, its pieces as .svg, how they lie as lays.svg, its tables into a folder",
        example: &["waist = 56 cm", "write page to waist.md"],
        shown: "1 row is in waist.md",
    },
    Verb {
        name: "strike",
        form: "strike NAME",
        summary: "strikes a cell off the page",
        example: &["waist = 56 cm", "strike waist"],
        shown: "waist  is off the page   was 56 cm",
    },
    Verb {
        name: "rename",
        form: "rename NAME to NAME, or rename page to FILE",
        summary: "gives a cell another name wherever it is read, or the page another file",
        example: &["waist = 56 cm", "band = waist + 25 cm", "rename waist to snug"],
        shown: "waist is now snug; 1 line that reads it says so too",
    },
    Verb {
        name: "take",
        form: "take back, or take back 3",
        summary: "takes back the last line, or the last three",
        example: &["waist = 56 cm", "waist = 60 cm", "take back"],
        shown: "\
taken back: waist = 60 cm
waist  56 cm   was 60 cm",
    },
    Verb {
        name: "redo",
        form: "redo, or redo 3",
        summary: "does again what was taken back",
        example: &["waist = 56 cm", "waist = 60 cm", "take back", "redo"],
        shown: "\
done again: waist = 60 cm
waist  60 cm   was 56 cm",
    },
    Verb {
        name: "compare",
        form: "compare, compare FILE, or compare FILE with FILE",
        summary: "tells what differs between this page and its saved state, or between two pages",
        example: &["waist = 56 cm", "save fair.txt", "waist = 60 cm", "compare"],
        shown: "\
name   saved  now    how

waist  56 cm  60 cm  56 cm → 60 cm",
    },
    Verb {
        name: "pages",
        form: "pages",
        summary: "lists the pages of the folder, and whether one was left without a name",
        example: &["waist = 56 cm", "save fair.txt", "pages"],
        shown: "\
page      lines  cells

fair.txt      1      1",
    },
    Verb {
        name: "open",
        form: "open FILE, or open left",
        summary: "opens a page, or the page that was left without a name; open alone lists them",
        example: &["waist = 56 cm", "save fair.txt", "open fair.txt"],
        shown: "fair.txt: 1 line, 1 cell",
    },
    Verb {
        name: "save",
        form: "save, or save FILE",
        summary: "saves the page under a name; from then on every line is saved at once",
        example: &["waist = 56 cm", "save fair.txt"],
        shown: "saved as fair.txt; from now on each line is saved at once",
    },
    Verb {
        name: "help",
        form: "help, or help WORD",
        summary: "explains a function, a verb, a topic, or whatever holds the word",
        example: &["help remainder"],
        shown: "\
remainder(amount, part)
  What is left of an amount after taking whole parts from it.
  amount   a number or a measure, such as 2.5, 14 1/2 in or 35 cm
  part     a number or a measure, such as 2.5, 14 1/2 in or 35 cm
  answers  a number or a measure
  remainder(7, 3)          1
…",
    },
    Verb {
        name: "tour",
        form: "tour, or tour 2",
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
    },
    Verb { name: "leave", form: "leave", summary: "leaves; the page is kept", example: &["leave"], shown: "" },
];

/// The verb of a name.
pub fn named(name: &str) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.name == name)
}

/// The names of the verbs.
pub fn names() -> impl Iterator<Item = &'static str> {
    VERBS.iter().map(|verb| verb.name)
}
