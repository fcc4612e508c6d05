//! The trade's words, each explained in a sentence, with the functions that compute with it.
//!
//! Common practice, no source. Never here: how it is shown; the functions' own help.

/// A word of the trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    /// The word.
    pub word: &'static str,
    /// Other words for it, or for something so close that one explanation covers both.
    pub also: &'static [&'static str],
    /// What it is.
    pub meaning: &'static str,
    /// Script names of the functions that compute with it.
    pub functions: &'static [&'static str],
}

const fn term(
    word: &'static str,
    also: &'static [&'static str],
    meaning: &'static str,
    functions: &'static [&'static str],
) -> Term {
    Term { word, also, meaning, functions }
}

/// All words, in alphabetical order.
pub(crate) const TERMS: &[Term] = &[
    term(
        "allowance",
        &[],
        "cloth left outside the finished line for a seam, a hem or a turning",
        &["cut_size", "finished_size"],
    ),
    term("basting", &["tacking"], "long stitches that hold for a while and are taken out again", &[]),
    term(
        "bias",
        &[],
        "the direction at 45 degrees to the grain, in which cloth stretches",
        &["bias_length_at_most", "bias_square_at_least"],
    ),
    term("binding", &[], "a strip folded over an edge and stitched to both sides of it", &["binding_width"]),
    term("bolt", &[], "cloth folded on a board, as a shop keeps it", &[]),
    term("box pleat", &[], "two folds that turn away from each other", &["box_pleats_flat"]),
    term("buckram", &[], "stiff cloth inside a curtain heading or a band", &[]),
    term("casing", &["carrier", "channel"], "a tunnel of cloth for elastic, a cord or a rod", &["cut_size"]),
    term("cuff", &[], "a band round a wrist or an arm, the end of a sleeve", &["band_length"]),
    term("cut length", &["cut size"], "a length before its hems and allowances are turned in", &["cut_size"]),
    term("drape", &["hang"], "how cloth falls by its own weight", &[]),
    term(
        "drop",
        &[],
        "the length of a curtain; a cut drop is one length of cloth for it, hems and pattern in it",
        &["cut_drop"],
    ),
    term("dye lot", &["lot"], "cloth dyed together; two lots of one colour seldom match", &[]),
    term("ease", &[], "the room between body and garment", &["band_length"]),
    term(
        "elastic",
        &[],
        "rubber or elastane that stretches and comes back; cut shorter than the body it goes round",
        &["elastic_length", "elastic_stretch", "elastic_caution"],
    ),
    term("ell", &[], "an old length of cloth, 45 in in England", &[]),
    term("face", &["right side"], "the side of the cloth that is meant to be seen", &[]),
    term("facing", &[], "a shaped piece turned to the inside to finish an edge", &[]),
    term("fent", &[], "a short leftover, often with a flaw", &[]),
    term("flat length", &["flat"], "how long a strip is before it is gathered or pleated", &["gathered_flat"]),
    term(
        "flounce",
        &[],
        "a loose strip held at one edge; a circular one is cut as a ring and hangs full without gathers",
        &["flounce_rings", "flounce_sweep"],
    ),
    term("fold line", &[], "where a band or a piece is folded double", &["band_depth"]),
    term(
        "frill",
        &["ruffle"],
        "a gathered strip set into a seam or on an edge",
        &["gathered_flat", "strips_for_frill"],
    ),
    term(
        "fullness",
        &["gather ratio"],
        "flat length over finished length: 2 is twice as much cloth as seam",
        &["fullness_of", "gathered_flat", "passes_together"],
    ),
    term(
        "gathering",
        &["gathers", "shirring"],
        "drawing cloth together along a row of stitches",
        &["gathered_flat", "gathered_length", "take_up"],
    ),
    term(
        "gathering foot",
        &["tucking foot", "ruffler"],
        "a foot that tucks or puckers cloth while it sews; what it takes is learnt from test strips",
        &["foot_fullness", "fullness_of"],
    ),
    term("gore", &[], "one of the tapered pieces that make up a skirt", &["gore_width", "gore_width_of_rest"]),
    term("grain", &[], "the direction of the threads; along the grain is along the selvedge", &[]),
    term(
        "half drop",
        &[],
        "a pattern that steps down by half its repeat on the next width",
        &["cut_drop", "half_drop_addition"],
    ),
    term("heading", &[], "the finished top of a curtain, above or on the tape that gathers it", &["curtain_flat"]),
    term("hem", &[], "the finished lower edge, turned up and stitched", &["cut_size"]),
    term("hip", &["hips"], "round the body where it is widest below the waist", &["elastic_stretch"]),
    term("inverted pleat", &[], "a box pleat seen from its other side: two folds that meet", &["box_pleats_flat"]),
    term(
        "join",
        &["seam"],
        "where two strips or widths are sewn together; each takes an allowance off both",
        &["strips_joined", "joined_length"],
    ),
    term("kerf", &["trim"], "cloth lost at a cut", &[]),
    term("knife pleat", &[], "one fold, all of them turned the same way", &["knife_pleats_flat", "knife_pleat_depth"]),
    term("lap", &["overlap", "underlap"], "how far one end lies over the other", &["strips_for", "band_length"]),
    term("lawn", &[], "fine plain cotton cloth", &[]),
    term("lay", &[], "pieces placed on a width of cloth for cutting", &[]),
    term("lining", &[], "a second layer of lighter cloth on the inside", &[]),
    term("lockstitch", &["301"], "the straight stitch of a machine with a bobbin", &["thread_for", "lockstitch_ratio"]),
    term(
        "looper",
        &[],
        "the hook of an overlock or chain stitch machine that carries thread without a bobbin",
        &["under_thread"],
    ),
    term(
        "margin",
        &[],
        "the share of the price that is kept; 50 % of the price is a mark-up of 100 %",
        &["price_at_margin", "mark_up_of_margin"],
    ),
    term("mark-up", &[], "what is put on top of the cost, as a share of the cost", &["marked_up", "margin_of_mark_up"]),
    term("mitre", &[], "a corner folded or cut so that two hems or bindings meet at an angle", &[]),
    term("nail", &[], "an old length of cloth, the sixteenth of a yard", &[]),
    term("nap", &["pile"], "a direction in the surface or print: all pieces face one way", &[]),
    term(
        "net",
        &["tulle"],
        "open cloth of fine meshes, soft or stiff, sold wide or on narrow rolls",
        &["strips_for", "rolls_for"],
    ),
    term("notch", &[], "a small mark or snip by which two edges are matched", &["even_marks"]),
    term("notion", &["trimming"], "anything sewn in that is not cloth: elastic, tape, hooks, buttons", &[]),
    term(
        "overlock",
        &["overedge", "504"],
        "a machine that trims and covers an edge in one go",
        &["thread_for", "overedge_ratio", "four_thread_overedge_ratio"],
    ),
    term("panel", &["width"], "one width of cloth in a skirt or curtain", &["panels_for", "widths_for"]),
    term("pelmet", &["valance"], "a short piece across the top of a window", &[]),
    term("placket", &[], "the opening by which a skirt or sleeve is put on", &[]),
    term(
        "pleat",
        &[],
        "cloth folded and held: its width is what is seen, its depth what is folded under",
        &["pleat_count", "pleat_width", "pleat_kind"],
    ),
    term("ply", &[], "one layer of a lay", &[]),
    term("put-up", &[], "the length that a supplier sells on one roll or bolt", &["strips_on_roll", "rolls_for"]),
    term(
        "quarter marks",
        &[],
        "four marks round a band and round the strip that goes on it, to be matched",
        &["even_marks"],
    ),
    term("remnant", &[], "a leftover that is kept because it can be used", &[]),
    term("repeat", &[], "the distance after which a pattern comes again", &["cut_drop"]),
    term("return", &[], "the part of a curtain or valance that goes back to the wall", &["curtain_flat"]),
    term("satin", &[], "smooth, shiny cloth with long floats on the face", &[]),
    term("selvedge", &["selvage"], "the woven edge of the cloth, usually cut off or left in a seam", &[]),
    term(
        "shrinkage",
        &[],
        "the share of its length or width that cloth loses in the first wash",
        &["before_shrinking", "shrinkage_of"],
    ),
    term("stitch class", &[], "the number of a stitch in ISO 4915, such as 301 for the lockstitch", &["thread_for"]),
    term("stitching line", &[], "where the needle goes", &[]),
    term("take-up", &[], "the share of its length that cloth loses in gathering", &["take_up", "fullness_of_take_up"]),
    term(
        "tape",
        &[],
        "on this program's pages the measuring tape, in inches or centimetres; at the machine a woven ribbon",
        &[],
    ),
    term("tex", &[], "the size of a thread: grams in a thousand metres", &[]),
    term(
        "tier",
        &[],
        "one of the horizontal bands of a stepped skirt, gathered onto the one above",
        &["tier_flat", "tier_depth"],
    ),
    term(
        "trial",
        &["test strip"],
        "a strip gathered and measured before the cloth is cut, to learn what the machine does",
        &["fullness_of", "passes_together"],
    ),
    term(
        "tuck",
        &[],
        "a fold stitched down along its length, taking twice its width of cloth",
        &["tucks_taken", "tuck_pitch"],
    ),
    term("turning", &["turn-in"], "cloth folded under an edge", &["cut_size"]),
    term("usable width", &[], "the width of cloth without its selvedges", &["panels_for"]),
    term("waistband", &["band"], "the strip that finishes a waist", &["band_length", "band_depth"]),
    term("warp", &[], "the threads that run along the cloth, with the selvedge", &[]),
    term("weft", &[], "the threads that run across the cloth, from selvedge to selvedge", &[]),
    term("zigzag", &["304"], "a stitch from side to side that stretches with what it holds", &["thread_for"]),
];

/// The terms that are, or are also called, `word`, ignoring capitals, hyphens and a plural s.
pub(crate) fn explained(word: &str) -> impl Iterator<Item = &'static Term> {
    let wanted = key(word);
    let is = move |known: &str| key(known) == wanted;
    TERMS.iter().filter(move |term| is(term.word) || term.also.iter().any(|also| is(also)))
}

/// A word as it is looked up: without capitals, hyphens and a plural s.
pub(crate) fn key(word: &str) -> String {
    let word = word.trim().to_lowercase().replace(['-', '_'], " ");
    // Singular and plural are one word: `gore` and `gores`.
    word.strip_suffix('s').unwrap_or(&word).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_in_order_and_there_once() {
        let words: Vec<&str> = TERMS.iter().map(|term| term.word).collect();
        let mut sorted = words.clone();
        sorted.sort_unstable();
        sorted.dedup();
        assert_eq!(words, sorted);
        assert!(TERMS.iter().all(|term| !term.meaning.ends_with('.') && term.meaning.len() > 10));
    }

    #[test]
    fn a_word_is_found_by_its_other_names() {
        let first = |word: &str| explained(word).next().map(|term| term.word);
        assert_eq!(first("Put-up"), Some("put-up"));
        assert_eq!(first("put up"), Some("put-up"));
        assert_eq!(first("ruffle"), Some("frill"));
        assert_eq!(first("gores"), Some("gore"));
        assert_eq!(first("tulle"), Some("net"));
        assert_eq!(first("pattern maker"), None);
    }
}
