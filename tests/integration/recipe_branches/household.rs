//! Bags and tablecloths.

use super::hold;

/// A bag 12 in high with an inch of casing and one of heading on both sides, and two turnings: 2 x (12 + 2 + 1/2) in.
#[test]
fn bags() {
    hold(
        "drawstring_bag",
        "wide=9 in; high=12 in; cloth=any_cloth(44 in); cord=any",
        &[
            (
                "",
                "piece bag: 1 of 29 in by 10 in
                 figure cord in all: 56 in
                 figure each cord: 28 in
                 need through both casings, one from each side: 2 of 28 in
                 seam upper rows of the casings: 18 in
                 seam neatening both long edges: 58 in
                 work thread a cord: 2
                 mark bag, foot fold: 14 1/2 in from either raw top
                 mark bag, top fold: 2 1/2 in from each raw top
                 mark bag, side opening begins: 3 1/2 in from each raw top
                 mark bag, side opening ends: 4 1/2 in from each raw top
                 step: leaving the marked opening at each side
                 step: and again {heading} below the top fold
                 step: The second cord, as long
                 caution: cord-neck
                 caution: blades",
            ),
            (
                "cords=1; heading=0 in",
                "piece bag: 1 of 27 in by 10 in
                 need through both casings: 28 in
                 seam side seams, folded at the foot, but for the openings: 26 in
                 seam round the openings for the cord: 2 in
                 no seam upper rows of the casings
                 work sew a seam: 28 in
                 mark bag, side opening begins: 1 1/2 in from each raw top
                 mark bag, side opening ends: 2 1/2 in from each raw top
                 step: leaving the marked opening at one side
                 no step: and again {heading}
                 no step: The second cord",
            ),
            ("cloth=any_cloth(10 in)", "runs:"),
            ("cloth=any_cloth(9 7/8 in)", "refused wide: is wider than the cloth, 9 7/8 in"),
            (
                "high=4 in; casing=2 in; heading=2 in",
                "refused high: casing and heading, 4 in, leave nothing of a bag 4 in high",
            ),
            ("high=4 in; casing=2 in; heading=1 7/8 in", "runs:"),
        ],
    );
}

/// 20 / 2 + 8 = 18 in to the edge, 18 1/2 cut; round it 36 pi = 113.0973355 in.
#[test]
fn round_cloths() {
    hold(
        "round_cloth",
        "table=20 in; hang=8 in; cloth=any_cloth(60 in)",
        &[
            (
                "",
                "piece round: 1
                 figure widths: 1
                 figure round: 113.0973355 in
                 no figure joins
                 no seam joins between widths
                 seam hem, eased round the curve: 113.0973355 in
                 work sew a seam: 113.0973355 in
                 mark round, line to cut: 18 1/2 in from the middle, all round
                 step: Fold the cloth in four.
                 step: Stitch {hem} from the edge
                 caution: flame",
            ),
            ("cloth=any_cloth(37 in)", "figure widths: 1"),
            // Two widths of 24 in, one of them halved and set at both sides: 2 x 23 = 46 in hold 37. 19 1/2 in hold 37 just,
            // 19 in only 36, so that a third width is joined.
            (
                "cloth=any_cloth(24 in)",
                "piece round width: 2 of 37 in
                 figure joins: 2
                 seam joins between widths: 74 in
                 work join widths of cloth: 74 in
                 work cut a piece: 2
                 step: Halve one of them lengthwise",
            ),
            ("cloth=any_cloth(19 1/2 in)", "piece round width: 2 of 37 in\nstep: Halve one of them"),
            (
                "cloth=any_cloth(19 in)",
                "piece round width: 3 of 37 in\nfigure joins: 2\nstep: the middle one lies across the middle of the table",
            ),
            // A flounce of 5 in hangs from a round of 13 in, 26 pi = 81.6814090 in; gathered at twice, in three strips.
            (
                "edge=gathered flounce",
                "figure cut radius: 13 1/2 in
                 piece frill strip: 3 of 6 in
                 seam joins of the frill: 18 in
                 seam hem of the flounce, at its flat length: 163.3628180 in
                 seam flounce to round: 81.6814090 in
                 work gather a strip: 163.3628180 in
                 step: Run two gathering rows along its upper edge
                 step: Cut {strips} strips {frill depth} deep",
            ),
            // One strip serves where it is long enough: 30 pi in of edge at once are 94.2 in.
            (
                "edge=gathered flounce; hang=10 in; fullness=1; cloth=any_cloth(100 in)",
                "piece frill strip: 1 of 6 in\nstep: Cut one strip {frill depth} deep",
            ),
            // Rings of 6 in give 12 pi - 1 = 36.7 in each: three. Outside they are 6 + 5 + 1/2 in.
            (
                "edge=circular flounce",
                "piece flounce ring: 3
                 figure ring inside: 5 1/2 in
                 figure ring outside: 11 1/2 in
                 seam rings to each other: 18 in
                 seam staying the seam line before it is snipped: 81.6814090 in
                 mark flounce ring, seam line: 6 in from the ring's middle, all round
                 no step: Run two gathering rows
                 step: Cut {rings} rings",
            ),
            ("edge=circular flounce; flounce_cloth=any_cloth(23 in)", "piece flounce ring: 3"),
            (
                "edge=circular flounce; flounce_cloth=any_cloth(22 7/8 in)",
                "refused ring: a ring 23 in across does not go on cloth 22 7/8 in wide",
            ),
            (
                "edge=gathered flounce; flounce=18 in",
                "refused flounce: a flounce of 18 in leaves no round of a cloth 18 in from its middle",
            ),
            ("edge=gathered flounce; flounce=17 in", "figure radius: 1 in"),
            ("cloth=any_cloth(1 in)", "refused cloth: joins of 1/2 in at both ends leave nothing of 1 in"),
        ],
    );
}

/// Two sides of 60 in and a foot of 40: 160 in at twice and two end hems, 322 in in seven widths of 54 less six joins of an
/// inch; each 14 + 2 1/2 + 1/2 in long.
#[test]
fn bed_valances() {
    hold(
        "bed_valance",
        "long=60 in; wide=40 in; drop=14 in; face=any_cloth(54 in)",
        &[
            (
                "",
                "figure edge: 160 in
                 figure gathered from: 320 in
                 figure flat: 322 in
                 figure cut drop: 17 in
                 figure widths: 7
                 figure trimmed: 50 in
                 seam joins between widths: 102 in
                 seam side hems and lower hem: 350 in
                 seam two gathering rows pulled up by hand, at the flat length: 640 in
                 seam valance to platform or sheet: 160 in
                 work gather a strip: 320 in
                 mark valance, eighth marks: 40 in from mark to mark, flat, between the end hems
                 mark platform or sheet, eighth marks: 20 in from mark to mark, from head to head round the foot
                 mark face drop, seam line: 1/2 in from upper edge
                 no mark face drop, heading fold
                 no piece platform
                 step: Hem the two ends {end} and the foot {hem}
                 caution: flame",
            ),
            ("end=0 in", "seam lower hem; the sides are not turned: 320 in\nstep: the two ends are not turned."),
            ("spare=leave in", "figure flat: 372 in\nfigure trimmed: 0 in"),
            (
                "platform=any_cloth(41 in)",
                "piece platform: 1 of 63 in by 41 in
                 seam joins of the platform, and its hem at the head: 40 in
                 work join widths of cloth: 102 in
                 work turn and sew a hem: 390 in
                 step: Cut the platform {platform cut} long and {platform across} across.
                 step: Hem the platform {hem} at the head.",
            ),
            (
                "platform=any_cloth(40 7/8 in)",
                "piece platform: 2 of 63 in
                 seam joins of the platform, and its hem at the head: 103 in
                 work join widths of cloth: 165 in
                 step: Cut {platform widths} widths for the platform",
            ),
            ("platform=any_cloth(1 in)", "refused platform: 1 in is too narrow for joins of 1/2 in"),
            ("face=any_cloth(1 in)", "refused face: 1 in is too narrow for joins of 1/2 in"),
        ],
    );
}

/// 14 by 12 in and seams; a back of (14 + 4) / 2 + 1/2 + 1 1/2 in. Round it 52 in, at 2 1/2 times 130 in in three strips
/// that lose an inch to each join.
#[test]
fn cushions() {
    hold(
        "ruffled_cushion",
        "wide=14 in; high=12 in; cloth=any_cloth(45 in)",
        &[
            (
                "",
                "piece front: 1 of 13 in by 15 in
                 piece back panel: 2 of 13 in by 11 in
                 piece frill strip: 3 of 5 in
                 figure frill flat: 130 in
                 seam hems of the back panels: 26 in
                 seam joins of the frill: 15 in
                 seam frill: two rows pulled up by hand, at the flat length: 260 in
                 seam ruffle to front: 52 in
                 work cut a piece: 6
                 work sew a seam: 119 in
                 mark frill strip, fold line: 2 1/2 in from either long edge
                 mark back panel, hem fold: 1 1/2 in from the edge that laps
                 mark frill, quarter marks: 32 1/2 in from mark to mark, flat
                 mark edge, quarter marks: 13 in from mark to mark
                 caution: flame",
            ),
            ("spare=2 in", "figure cover round: 52 in\nfigure edge: 54 in\nfigure frill flat: 135 in"),
            ("wide=6 in; lap=6 in", "refused lap: a lap of 6 in is as wide as the cushion, 6 in"),
            ("wide=6 in; lap=5 7/8 in", "runs:"),
            ("cloth=any_cloth(15 in)", "runs:"),
            ("cloth=any_cloth(14 7/8 in)", "refused cloth: a panel 15 in across is wider than 14 7/8 in"),
            (
                "ruffle_cloth=any_cloth(1 in)",
                "refused ruffle_cloth: joins of 1/2 in at both ends leave nothing of 1 in",
            ),
        ],
    );
}
