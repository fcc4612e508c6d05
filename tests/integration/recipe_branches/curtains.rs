//! Curtains.

use super::hold;

/// A pair on 180 cm: (180 + 10) / 2 + 9 = 104 cm each, of which 19 hang flat. 85 cm at 2.25 and what hangs flat are
/// 210.25 cm hung; seven spaces of at most 13 cm have eight pleats of (210.25 - 104) / 8 cm.
#[test]
fn pinch_pleats() {
    hold(
        "pinch_curtains",
        "track=180 cm; drop=220 cm; face=any_cloth(137 cm); buckram=any",
        &[
            (
                "",
                "figure each: 104 cm
                 figure pleats: 8
                 figure space between: 12.142857143 cm
                 figure cloth in a pleat: 13.28125 cm
                 figure proportions: as usual
                 figure hooks: 20
                 need along the flat top, side hem to side hem: 2 of 210.25 cm
                 need one at each pleat and at each end that hangs flat: 20
                 seam lower edge of the buckram, and down each pleat: 580.5 cm
                 work sew a pinch pleat: 16
                 work hang, dress and check a curtain: 2
                 mark heading, overlap, or first return: 10 cm from leading edge, hemmed
                 no step: Look before sewing
                 caution: curtain-heat",
            ),
            // Without returns and overlap 90 cm are pleated, and no end hangs flat.
            ("returns=0 cm; overlap=0 cm", "figure each: 90 cm\nfigure pleats: 8\nfigure hooks: 16"),
            ("returns=0 cm", "figure hooks: 18"),
            ("overlap=0 cm", "figure hooks: 18"),
            // One alone, 180 + 2 x 9 cm: fourteen spaces, fifteen pleats and two returns.
            (
                "curtains=1",
                "figure each: 198 cm
                 figure pleats: 15
                 figure hooks: 17
                 mark heading, overlap, or first return: 9 cm from leading edge, hemmed",
            ),
            ("curtains=1; returns=0 cm", "figure hooks: 15"),
            // 85 cm in five spaces are 17 cm each.
            ("space=20 cm", "figure proportions: outside the usual\nstep: Look before sewing"),
            // Spaces of just 10 and 15 cm, and pleats of just 12 and 18 cm, are usual: 80 cm in eight spaces, 90 in six,
            // 96 cm at 2 and at 2.5 over eight pleats.
            ("track=170 cm; space=10 cm; heading=2.5", "figure space between: 10 cm\nfigure proportions: as usual"),
            ("track=190 cm; space=15 cm", "figure space between: 15 cm\nfigure proportions: as usual"),
            ("track=202 cm; space=14 cm; heading=2", "figure cloth in a pleat: 12 cm\nfigure proportions: as usual"),
            ("track=202 cm; space=14 cm; heading=2.5", "figure cloth in a pleat: 18 cm\nfigure proportions: as usual"),
            // One of the two alone is not enough: 96 cm in eight spaces of 12 cm, and pleats of 10.7.
            (
                "track=202 cm; space=13 cm; heading=2",
                "figure space between: 12 cm\nfigure proportions: outside the usual",
            ),
            // 80 cm in nine spaces of 8.9 cm, and pleats of 160 / 10 cm.
            (
                "track=170 cm; space=9 cm; heading=3",
                "figure cloth in a pleat: 16 cm\nfigure proportions: outside the usual",
            ),
            ("top=10 cm", "runs:"),
            ("top=9.9 cm", "refused top: a top of 10 cm would do"),
            ("drop=20 cm; buckram_depth=20 cm; top=20 cm", "refused buckram_depth: takes the whole drop of 20 cm"),
            // 30 cm of track: 29 cm each less 19 are 10; with an overlap of 11 only 9.5.
            ("track=30 cm", "figure pleats: 2"),
            ("track=30 cm; overlap=11 cm", "refused track: leaves no room for pleats"),
            ("track=30 cm; heading=1.5", "refused space: of cloth in a pleat is too little to pinch"),
        ],
    );
}

/// 40 in at twice and two side hems of an inch: 82 in. At the top 1/2 in under, a heading of 1 and a pocket of twice the
/// rod: 2 1/2 in.
#[test]
fn cafe_curtains() {
    hold(
        "cafe_curtain",
        "rod=40 in; drop=30 in; face=any_cloth(100 in)",
        &[
            (
                "",
                "figure top turn: 2 1/2 in
                 figure pocket: 1 in
                 figure real fullness: 2
                 seam side hems and lower hem: 142 in
                 seam pocket, its lower line and the one under the heading: 160 in
                 work sew a seam: 160 in
                 mark curtain, upper line of the pocket: 1 in from top fold
                 mark curtain, lower line of the pocket: 2 in from top fold
                 mark face drop, hem fold: 4 in from lower edge
                 mark face drop, heading fold: 2 1/2 in from upper edge
                 step: Hem the sides {side}, then the foot {hem}.
                 step: Stitch {heading} below the fold and again {pocket} below that.
                 caution: flame
                 caution: curtain-heat",
            ),
            (
                "heading=0 in; side=0 in",
                "figure top turn: 1 1/2 in
                 seam lower hem; the sides are not turned: 80 in
                 seam lower line of the pocket: 80 in
                 no mark curtain, upper line of the pocket
                 mark curtain, lower line of the pocket: 1 in from top fold
                 step: Hem the foot {hem}; the sides are not turned.
                 step: Stitch {pocket} below the fold.",
            ),
            // 80 in in twenty spaces of 4 in have 21 rings.
            (
                "hang=rings; rings=any",
                "figure top turn: 2 in
                 figure rings each: 21
                 figure ring spacing: 4 in
                 need along the flat top hem: 21
                 seam top hem: 80 in
                 work sew on a ring: 21
                 mark curtain, rings: 4 in from ring to ring, the first and the last at the ends
                 step: Sew {rings each} rings to each curtain",
            ),
            (
                "hang=rings; rings=any; curtains=2",
                "figure rings each: 11\nneed along the flat top hem: 22\nseam top hem: 80 in",
            ),
            // 1/2 + 4 in and twice 1 3/4 in are 8 in.
            ("drop=8 in; heading=4 in; diameter=1 3/4 in", "refused drop: the top alone takes 8 in of a drop of 8 in"),
            ("drop=8 in; heading=4 in; diameter=1 1/2 in", "figure top turn: 7 1/2 in"),
        ],
    );
}

/// (180 + 10) / 2 + 9 = 104 cm each; 95 at twice, 9 cm of return that hang flat and two side hems are 209 cm. 104 cm take
/// 12.48 hooks at twelve a metre, up to 13, and one more.
#[test]
fn curtains_on_tape() {
    hold(
        "curtains",
        "track=180 cm; drop=220 cm; face=any_cloth(137 cm); tape=any",
        &[
            (
                "",
                "figure each: 104 cm
                 figure flat: 209 cm
                 figure fullness: 2
                 figure hooks: 28
                 figure hooks each: 14
                 figure tape for each: 205 cm
                 need along the flat heading, ends turned in: 2 of 205 cm
                 need along the drawn-up heading: 28
                 seam top and bottom of tape: 820 cm
                 seam side hems and lower hem: 1298 cm
                 mark curtain, return: 9 cm from the hemmed edge beside the wall
                 step: {returns} left flat at the hemmed edge beside the wall for the return
                 step: Hem the foot {hem} and the sides {side}
                 caution: curtain-cord
                 caution: curtain-heat",
            ),
            ("curtains=1", "figure each: 198 cm\nmark curtain, return: 9 cm from both hemmed edges"),
            (
                "gather_returns=yes",
                "figure flat: 218 cm\nno mark curtain, return\nstep: until each curtain measures {each} and put {hooks each} hooks",
            ),
            ("returns=0 cm", "no mark curtain, return\nstep: until each curtain measures {each} and put"),
            ("face=any_cloth(3 cm)", "refused face: 3 cm is too narrow for joins of 1.5 cm"),
            // A lining as wide as the curtain without its side hems, 220 + 10 - 3 cm long.
            (
                "lining=any_cloth(137 cm)",
                "figure lining cut: 227 cm
                 figure lining across: 199 cm
                 seam hem of the lining: 398 cm
                 no seam lining to face at both sides
                 step: its sides go under the side hems.",
            ),
            (
                "lining=any_cloth(137 cm); side=0 cm",
                "seam lining to face at both sides: 880 cm
                 seam lower hem; the sides are not turned: 398 cm
                 step: sew both together at the sides.
                 step: the sides are not turned.",
            ),
            ("lining=any_cloth(3 cm)", "refused lining: 3 cm is too narrow for joins of 1.5 cm"),
        ],
    );
}

/// 104 cm at 2.25 are 234, and two side hems; thirteen spaces of 8 cm have fourteen hooks. The tape is sewn along both
/// edges and across both ends.
#[test]
fn pencil_pleats() {
    hold(
        "pencil_curtains",
        "track=180 cm; drop=220 cm; face=any_cloth(137 cm); tape=any",
        &[
            (
                "",
                "figure flat: 244 cm
                 figure fullness: 2.25
                 figure hooks: 28
                 need along the flat heading, ends turned in: 2 of 240 cm
                 seam tape, both edges and both ends: 990 cm
                 work sew on heading tape: 480 cm
                 mark heading, hooks: 8 cm from hook to hook, drawn up
                 step: put them out of reach
                 caution: curtain-cord
                 caution: curtain-heat",
            ),
            ("drop=20 cm; tape_depth=20 cm", "refused tape_depth: covers the whole drop of 20 cm"),
            ("drop=20 cm; tape_depth=19.9 cm", "runs:"),
        ],
    );
}

/// Fifteen box pleats of 10 cm on 150: three times that and two side hems are 456 cm, in four widths.
#[test]
fn valances() {
    hold(
        "valance",
        "front=150 cm; depth=30 cm; kind=box pleats; face=any_cloth(137 cm); tape=any",
        &[
            (
                "",
                "figure finished: 150 cm
                 figure flat: 456 cm
                 figure pleats: 15
                 figure pleat width: 10 cm
                 figure widths: 4
                 figure trimmed: 83 cm
                 seam tacking the pleats along the top: 150 cm
                 seam tape along the top, both edges: 300 cm
                 seam side hems and lower hem: 516 cm
                 seam joins between widths: 114 cm
                 need along the finished top, ends turned in: 154 cm
                 work lay a pleat: 15
                 no work gather a strip
                 step: Lay {pleats} box pleats of {pleat width}
                 step: turn {top} down at the top and press.
                 caution: flame
                 caution: curtain-heat",
            ),
            // What is left in would be gathered; pleats are counted, so that it is trimmed off all the same.
            ("spare=leave in", "figure flat: 456 cm"),
            ("returns=10 cm", "figure finished: 170 cm\nfigure pleats: 17"),
            (
                "kind=gathered light cloth",
                "step: Run two gathering rows along the top\nno work lay a pleat\nno figure pleats",
            ),
            ("front=40 cm; pleat=40 cm", "figure pleats: 1"),
            ("front=39 cm; pleat=40 cm", "refused pleat: a pleat of 40 cm is wider than the valance, 39 cm"),
            ("lining=any_cloth(137 cm)", "figure lining cut: 37 cm\nfigure lining across: 450 cm"),
        ],
    );
}
