//! Strips off a roll, on a band or knotted on elastic.

use super::hold;

/// A band of 14 + 10 in closes to 22; thirty times that is laid, 660 in. Strips 6 in wide lap 1/2 in: 659 1/2 / 5 1/2 is
/// not quite 120.
#[test]
fn strips_on_a_band() {
    hold(
        "strips_on_band",
        "waist=14 in; strip=10 in; gathers=[6, 5]; tulle=any_roll(6 in, 25 yd); satin=any_roll(6 in, 10 yd); elastic=any",
        &[
            (
                "",
                "piece strip: 120 of 10 in
                 piece band: 1 of 24 in
                 figure band way: off the roll
                 figure waist to hem: 11 in
                 figure first pass: 110 in
                 figure ratio: 30
                 seam pass 1 under the foot, stitch about 3 mm, at the gathered length: 110 in
                 seam pass 2 under the foot, stitch about 3 mm, at the gathered length: 22 in
                 seam basting the ribbon to the band, stitch about 5 mm: 22 in
                 seam end turnings of the band: 12 in
                 seam closing the band over the elastic: 3 in
                 work overlap and gather: 660 in
                 work gather second pass: 110 in
                 work turn and sew a hem: 12 in
                 mark band, first strip: 1 in from each end
                 mark band, quarter marks: 5.5 in from mark to mark, starting where the strips start
                 mark ribbon of strips, quarter marks: 27.5 in from mark to mark, after the first pass
                 step: Cut {strips} strips
                 step: each lapped {overlap} over the next
                 step: feed it through again, until it measures {covered}
                 step: Lay the ribbon right side up on the band between the turnings
                 caution: flame
                 caution: blades
                 caution: iron
                 no caution: small-parts",
            ),
            (
                "ends=covered; bows=yes; overlap=0 in",
                "figure covered: 24 in
                 no mark band, first strip
                 step: on the band from end to end, turnings and all
                 step: end to end, edge to edge, at a stitch
                 caution: small-parts",
            ),
            ("gathers=5", "step: Mark the ribbon in quarters.\nno work gather second pass"),
            ("gathers=[3, 3, 3]", "step: feed it through 2 times more, until"),
            (
                "gathers=1.2; tulle=any_cloth(54 in)",
                "piece strip: 1 of 10 in
                 step: Cut one strip: {strip} off the roll
                 step: For each layer feed one strip under the foot",
            ),
            (
                "tape=any",
                "need holds the two end turnings: 2 of 6 in
                 figure tape cut: 12 in
                 no seam end turnings of the band",
            ),
            ("satin=any_cloth(24 in)", "figure band way: across\npiece band: 1 of 24 in by 6 in"),
            ("satin=any_cloth(23 7/8 in)", "figure band way: along"),
            ("casing=1 in; elastic_width=1 in", "refused casing: 1 in of elastic needs a deeper casing than 1 in"),
            ("casing=1 in; elastic_width=7/8 in; satin=any_cloth(44 in)", "figure band depth: 4 in"),
            ("tulle=any_roll(1/2 in, 25 yd)", "refused overlap: strips 1/2 in wide cannot lap 1/2 in"),
            ("hips=22 in", "runs:"),
            ("hips=22 1/8 in", "refused over: 10 1/8 in over the waist would do"),
            ("hips=80 in", "refused over: no band that the waist's elastic gathers does: measure again"),
        ],
    );
}

/// Twelve on 4 in, so 57 on 20 in less 5 %; each twice 11 in and the knot.
#[test]
fn strips_knotted() {
    hold(
        "strips_knotted",
        "waist=20 in; skirt=11 in; counted=12; tried=4 in; tulle=any_roll(6 in, 25 yd); elastic=any",
        &[
            (
                "",
                "piece strip: 57 of 24 in
                 figure strip across: 6 in
                 figure elastic worn: 19 in
                 seam elastic to itself, both ends of the lap: 2 in
                 work join an elastic: 1
                 work knot a strip on elastic: 57
                 no work thread an elastic
                 mark strip, middle: 12 in from either end
                 mark elastic, joined, quarter marks: 4 3/4 in from mark to mark, from the join
                 step: Cut {strips} strips {strip cut} long
                 caution: flame
                 caution: nightwear
                 no caution: small-parts
                 no caution: elastic-stretch",
            ),
            ("bows=yes; hips=34 in", "caution: small-parts\ncaution: elastic-stretch"),
            ("counted=1; tried=20 in", "piece strip: 1\nstep: Cut one strip {strip cut} long"),
            ("tulle=any_cloth(54 in); strip_width=6 in", "piece strip: 57 of 24 in by 6 in"),
            ("tulle=any_cloth(54 in); strip_width=12 in", "piece strip: 57 of 24 in by 12 in"),
            ("tulle=any_cloth(54 in)", "refused strip_width: a strip 54 in wide cannot be knotted"),
            ("tulle=any_cloth(5 in); strip_width=6 in", "refused strip_width: is 5 in wide"),
            // Eight to an inch fit, 33 on 4 in are more.
            ("counted=32", "piece strip: 152"),
            ("counted=33", "refused counted: more than 8 strips to an inch do not fit side by side"),
        ],
    );
}
