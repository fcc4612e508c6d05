//! Skirts, their bands and their elastic.

use super::hold;

/// A band of 24 1/2 + 1/2 = 25 in, 50 in of skirt gathered to it, and 10 - 1 in below it. Two panels of 50 / 2 + 1 in,
/// 9 + 1 + 1/2 in long; their seams are 2 x 10 1/2 in less 6 1/2 in that stay open.
#[test]
fn gathered_on_a_band() {
    hold(
        "gathered_skirt",
        "waist=24 1/2 in; skirt=10 in; top=band; cloth=any_cloth(45 in)",
        &[
            (
                "",
                "piece panel: 2 of 10 1/2 in by 26 in
                 piece band piece: 1 of 27 in by 3 in
                 lies band piece: across
                 figure round: 50 in
                 figure panels: 2
                 figure top turning: 1/2 in
                 figure gathered to: 25 in
                 seam seams of the panels: 14.5 in
                 seam both edges of each of them: 42 in
                 seam waist edge: two rows pulled up by hand, at the flat length: 100 in
                 seam hem, at its own length: 50 in
                 seam down both sides of the opening: 12 in
                 work baste gathers to a band: 25 in
                 work gather a strip: 50 in
                 work make a buttonhole: 1
                 no work thread up for gathering
                 no piece band interfacing
                 need closes the band: 1
                 mark skirt, waist edge, quarter marks: 12.5 in from mark to mark, from the opening
                 mark panel, hem fold: 1 in from lower edge
                 step: Cut {panels} panels
                 step: Join the panels into a ring, one seam left open
                 step: Make a buttonhole of {buttonhole} in the end that lies on top
                 step: Press the seam allowances of the opening back
                 caution: flame
                 caution: nightwear
                 caution: small-parts",
            ),
            // 25 x 3 = 75 in: the first pass gathers them to 37 1/2, the second to 25.
            (
                "fullness=[2, 1.5]; rows=foot; closure=hook and bar",
                "seam waist edge: gathering foot, pass 1, at the gathered length: 37.5 in
                 seam waist edge: gathering foot, pass 2, at the gathered length: 25 in
                 work gather second pass: 37.5 in
                 work thread up for gathering: 1
                 work sew on a hook and bar: 1
                 no work make a buttonhole
                 no work sew on a button
                 need closes the band: 1
                 step: Sew a hook and a bar to the ends of the band.",
            ),
            (
                "rows=foot",
                "seam waist edge: gathering foot, at the gathered length: 25 in
                 no work gather second pass",
            ),
            // The half of the band that shows, 27 by 3 / 2 in.
            (
                "interfacing=any_cloth(36 in)",
                "piece band interfacing: 1 of 27 in by 1 1/2 in
                 lies band interfacing: any
                 work fasten an interfacing: 1
                 work cut a piece: 4
                 step: Fasten the interfacing to the half of the band",
            ),
            // A lap strip twice as long as the opening, sewn on twice.
            (
                "skirt=16 in; opening=10 in; placket=continuous lap",
                "piece lap strip: 1 of 20 in by 3 3/4 in
                 figure lap strip: 20 in
                 seam lap strip to the opening, first and second edge: 40 in
                 work cut a piece: 4
                 no piece placket underlap
                 step: Cut a lap strip {lap strip} long",
            ),
            // An underlap an inch longer than the opening and its two turnings, 2 x (1 1/2 + 1/2) in wide; snaps 2 in apart.
            (
                "skirt=16 in; opening=10 in; placket=underlap",
                "piece placket underlap: 1 of 12 in by 4 in
                 figure underlap cut: 12 in
                 figure underlap width: 4 in
                 figure snaps: 5
                 figure snap to snap: 2 in
                 seam end of the underlap, and its folded edge: 12.5 in
                 seam underlap to one side, the other side turned back: 20 in
                 need close the opening: 5
                 work sew on a snap: 5
                 work cut a piece: 4
                 no piece lap strip
                 step: Sew on {snaps} snaps, {snap to snap} from one to the next.",
            ),
            // 25 + 2 x (6 + 1) = 39 in pass 39 in of hips and not more; 44 1/4 take (44 1/4 - 25) / 2 - 1 = 8 5/8 in, which end
            // 3/8 in above the hem; 44 1/2 take 8 3/4 in, which do not end more than 1/4 in above it.
            ("hips=39 in", "runs:"),
            ("hips=39 1/8 in", "refused opening: does not pass 39 1/8 in of hips"),
            ("hips=44 1/4 in", "refused opening: an opening of 8 5/8 in would do"),
            ("hips=44 1/2 in", "refused opening: no opening of this skirt does: measure again"),
            ("skirt=7 in", "refused opening: it must be shorter than the 6 in of skirt below the band"),
            ("skirt=7 1/8 in", "runs:"),
            ("cloth=any_cloth(2 in)", "refused cloth: 2 in is too narrow for seams of 1/2 in"),
            // Elastic is not opened: nothing asks how long an opening is.
            ("top=elastic; elastic=any; skirt=5 in", "runs:"),
            // A band of 42 + 2 + 1 = 45 in lies across a cloth as wide, and along one an eighth narrower.
            ("waist=41 1/2 in; underlap=2 in", "lies band piece: across"),
            ("waist=41 1/2 in; underlap=2 in; cloth=any_cloth(44 7/8 in)", "lies band piece: along"),
        ],
    );
}

/// Elastic of 20 in less 5 % and a lap of an inch: 20 in, 19 worn. The casing takes it, 1/4 in turned under and room.
#[test]
fn gathered_on_elastic() {
    hold(
        "gathered_skirt",
        "waist=20 in; skirt=12 in; cloth=any_cloth(45 in); elastic=any",
        &[
            (
                "",
                "figure elastic cut: 20 in
                 figure elastic worn: 19 in
                 figure top turning: 1 1/4 in
                 piece panel: 1 of 14 1/4 in by 41 in
                 seam seams of the panels: 14.25 in
                 seam casing, at the flat width: 40 in
                 seam elastic to itself, both ends of the lap: 1.5 in
                 need round the waist: 20 in
                 work thread an elastic: 1
                 mark panel, casing fold: 1 1/4 in from upper edge
                 step: Cut one panel {panel} across
                 step: Join the ends of the panel and neaten the seams.
                 no caution: elastic-stretch
                 no caution: small-parts",
            ),
            (
                "elastic_width=3/4 in; casing=1 in",
                "refused casing: 3/4 in of elastic and 1/4 in turned under need more than 1 in",
            ),
            ("elastic_width=3/4 in; casing=1 1/8 in", "figure top turning: 1 1/8 in"),
            // 20 x 4 = 80 in. 36 in of hips are 80 % more than the waist: 4 in of elastic must reach 7.2 in.
            (
                "fullness=4; shorter=0 %; hips=36 in",
                "figure stretch: 0.8
                 figure pulled out: 7.2 in
                 caution: elastic-stretch
                 step: Before cutting, mark {4 in} of the elastic",
            ),
            // Shorter by a tenth, 18 in: three times that are 54 in. Of 20 in three times are 60.
            ("fullness=4; shorter=10 %; hips=54 in", "figure stretch: 2"),
            ("fullness=4; shorter=10 %; hips=55 in", "refused shorter: elastic shorter by 0 % would do"),
            ("fullness=4; shorter=10 %; hips=60 in", "refused shorter: elastic shorter by 0 % would do"),
            ("fullness=4; shorter=10 %; hips=60 1/8 in", "refused hips: measure both again"),
            // 20 x 2 = 40 in pass 40 in of hips; 41 need 2.05 times; 80 in over 15 are more than 5 times.
            ("hips=40 in", "runs:"),
            ("hips=41 in", "refused fullness: a fullness of 2.05 would do"),
            ("waist=15 in; hips=80 in", "refused fullness: no fullness of this skirt does: measure again"),
        ],
    );
}

/// Six gores of 25 / 6 + 1, 38 / 6 + 1 and 70 / 6 + 1 in, 1 1/2 + 25 + 1/2 in long; their seams are 6 x 27 in less 6 1/2.
#[test]
fn gored() {
    hold(
        "gored_skirt",
        "waist=25 in; hips=36 in; hem_round=70 in; ease=0 in; skirt=26 in; cloth=any_cloth(45 in)",
        &[
            (
                "",
                "piece gore: 6
                 figure cut length: 27 in
                 figure rise: 0 in
                 seam seams between gores: 155.5 in
                 mark gore, hip line: 7.5 in from upper edge, down the middle
                 mark gore, hem fold: 1 1/2 in from lower edge
                 step: Cut {gores} gores.
                 no step: the waist rise
                 caution: flame",
            ),
            // Behind 1 in longer over 3 pattern pieces: the waist rises 1/3 in across each; the seams 9 x 1/3 in in all.
            (
                "longer=1 in",
                "piece first gore: 2
                 piece third gore: 2
                 no piece front gore
                 no piece gore
                 seam seams between gores: 158.5 in
                 mark second gore, hip line: 8 in from upper edge, down the middle
                 step: the waist rise {rise} across each piece",
            ),
            ("hem_round=38 in", "runs:"),
            ("hem_round=37 7/8 in", "refused hem_round: is narrower than the hips and cannot be walked in"),
            // 66 / 6 + 1 = 12 in.
            ("hem_round=66 in; cloth=any_cloth(12 in); band_cloth=any_cloth(45 in)", "piece gore: 6"),
            (
                "hem_round=66 in; cloth=any_cloth(11 7/8 in); band_cloth=any_cloth(45 in)",
                "refused gores: a gore would be 12 in wide and the cloth is 11 7/8 in",
            ),
            // 25 + 2 x (6 + 1) = 39 in.
            ("hips=39 in", "runs:"),
            ("hips=39 1/8 in", "refused opening: and does not pass 39 1/8 in of hips"),
            ("skirt=10 in; opening=9 in", "refused opening: it must be shorter than the 9 in of skirt"),
            ("skirt=10 in; opening=8 7/8 in", "runs:"),
            ("skirt=10 in; hip_depth=9 in", "refused hip_depth: the hips lie below the hem, 9 in down"),
            ("skirt=10 in; hip_depth=8 7/8 in", "runs:"),
            (
                "interfacing=any_cloth(36 in); closure=hook and bar",
                "piece band interfacing: 1 of 27 in by 1 1/2 in
                 need closes the band: 1
                 step: Sew a hook and a bar to the ends of the band.",
            ),
        ],
    );
}

/// A waist of 21 1/2 in. The sectors are as few as the cloth is wide enough for: a half or less of a circle takes the
/// outer radius down to a quarter, a smaller one that by its sine. With n seams the radius is (21 1/2 + n) / (2 pi turn),
/// and 11 1/4 in more at the hem.
#[test]
fn circles() {
    let folded = "figure on a fold: fits cloth folded along the selvedge";
    hold(
        "circle_skirt",
        "waist=21 in; skirt=12 in; cloth=any_cloth(45 in)",
        &[
            (
                "",
                "figure sectors: 1
                 figure on a fold: fits cloth folded along the selvedge
                 seam staying the waist: 21.5 in
                 no seam side seams
                 step: Cut it out all round.
                 step: slit between the stitches
                 no step: Sew the side seam
                 caution: flame
                 caution: small-parts",
            ),
            ("placket=continuous lap", "piece lap strip: 1 of 12 in by 3 3/4 in\nno piece slit facing"),
            // 22 1/2 / pi + 11 1/4 = 18.41 in.
            (
                "circle=half",
                &format!(
                    "figure sectors: 1
                     {folded}
                     step: Cut one, 1/2 of a circle, its straight edges meeting
                     step: Sew the side seam, open {{opening}} below the waist; neaten it.
                     no piece slit facing"
                ),
            ),
            ("circle=half; cloth=any_cloth(30 in)", "figure on a fold: fits a crosswise fold or flat cloth"),
            // On 18 in two quarters take 18.73 in, three sixths 19.05 x sin 60° = 16.50 in.
            (
                "circle=half; cloth=any_cloth(18 in)",
                "figure sectors: 3
                 figure on a fold: lay it flat
                 step: Cut {sectors}, each 1/6 of a circle
                 step: Sew the straight edges together into one round, one seam open {opening} below the waist; neaten the seams.",
            ),
            ("circle=quarter", "step: Cut one, 1/4 of a circle"),
            ("circle=three-quarter; cloth=any_cloth(60 in)", "step: Cut one, 3/4 of a circle"),
            // A whole circle takes 29.34 in, its halves 14.99.
            ("cloth=any_cloth(28 in)", "figure sectors: 2\nstep: Cut {sectors}, each 1/2 of a circle"),
            ("circle=double", "figure sectors: 2\nstep: Cut {sectors} of them all round, and cut each open"),
            // Of two circles three sectors of 2/3 take 24.6 in, four halves 13.28.
            ("circle=double; cloth=any_cloth(20 in)", "figure sectors: 4\nstep: each 1/2 of a circle"),
            // Ten of a fifth take 13.76 x sin 72° = 13.09 in, eleven of 2/11 13.84 x sin 65.5° = 12.59.
            ("circle=double; cloth=any_cloth(13 in)", "figure sectors: 11\nstep: each 2/11 of a circle"),
            (
                "waist=28 in; skirt=40 in; circle=double; cloth=any_cloth(12 in)",
                "refused cloth: even in 16 sectors the skirt is wider than 12 in",
            ),
            // 12 - 1 1/4 = 10 3/4 in below the band.
            ("skirt=8 in; opening=6 3/4 in", "refused opening: it must be shorter than the 6 3/4 in of skirt"),
            ("skirt=8 in; opening=6 5/8 in", "runs:"),
            // A band of 4 in leaves 2 in, which is enough, or 1 7/8 in, which is not.
            ("top=elastic; elastic=any; band=4 in; skirt=6 in", "runs:"),
            ("top=elastic; elastic=any; band=4 in; skirt=5 7/8 in", "refused band: a band of 4 in leaves 1 7/8 in of skirt"),
            (
                "circle=half; top=elastic; elastic=any; elastic_width=1 1/4 in",
                "refused band: 1 1/4 in of elastic needs a deeper band than 1 1/4 in",
            ),
            (
                "circle=half; top=elastic; elastic=any; elastic_width=1 1/8 in",
                "step: Sew the side seam; neaten the seams.
                 seam elastic to itself, both ends of the lap: 2 1/4 in
                 seam band into a ring: 3 1/2 in
                 no caution: small-parts",
            ),
            ("top=band; closure=hook and bar", "step: Sew a hook and a bar to the ends of the band."),
            ("interfacing=any_cloth(36 in)", "piece band interfacing: 1 of 23 1/2 in by 1 3/4 in"),
        ],
    );
}

/// 36 in round the hips and the hem, and 20 pleats of an inch, folded twice: 36 + 40 = 76 in. At the waist each shows
/// 24 1/2 / 20 in and takes up (76 - 24 1/2) / 20.
#[test]
fn pleated() {
    hold(
        "pleated_skirt",
        "waist=24 in; hips=34 in; skirt=17 in; pleats=20; depth=1 in; cloth=any_cloth(45 in)",
        &[
            (
                "",
                "figure flat: 76 in
                 figure waist take-up: 2.575 in
                 figure hip take-up: 2 in
                 figure hem take-up: 2 in
                 figure waist width: 1.225 in
                 figure hem width: 1.8 in
                 figure to pleat at the waist: 51.5 in
                 figure to pleat at the hem: 40 in
                 piece panel: 2 of 18 1/2 in by 39 in
                 mark hem edge, first fold of each pleat: 3.8 in from one pleat to the next, on the flat cloth
                 mark waist edge, first fold of every fifth pleat: 19 in from one to the next; mark these first
                 mark panel, hip line: 7.5 in from upper edge
                 mark panel, hem fold: 2 in from lower edge
                 seam basting the pleats along the waist: 24.5 in
                 work lay and press a pleat: 20
                 step: Cut {panels} panels
                 step: in knife pleats, all folds turned one way
                 step: Turn up {hem} and stitch the hem before pleating.
                 caution: flame",
            ),
            ("style=box; pleats=10", "figure flat: 76 in\nstep: two folds turned away from each other"),
            ("style=inverted; pleats=10", "figure flat: 76 in\nstep: two folds turned to meet on the face"),
            ("wider=4 in", "figure flat: 80 in\nfigure hip take-up: 2.2 in\nfigure hem width: 2 in"),
            // 24 in of waist, hips and hem: 24 pleats show an inch and are 2 in deep, five layers; of 25 it is more.
            ("ease=0 in; hip_ease=0 in; hips=24 in; pleats=24; depth=2 in", "figure flat: 120 in"),
            ("ease=0 in; hip_ease=0 in; hips=24 in; pleats=25; depth=2 in", "refused depth: more than five layers"),
            (
                "waist=14 in; hips=15 in; skirt=15 in; opening=3 in; pleats=6; depth=1/2 in; cloth=any_cloth(60 in)",
                "figure flat: 23 in\npiece panel: 1 of 16 1/2 in by 24 in\nstep: Cut one panel {panel across} across",
            ),
            ("skirt=10 in; opening=9 in", "refused opening: it must be shorter than the 9 in of skirt"),
            ("skirt=10 in; hip_depth=9 in", "refused hip_depth: the hips lie below the hem, 9 in down"),
            ("skirt=10 in; hip_depth=8 7/8 in", "runs:"),
            (
                "cloth=any_cloth(2 in); band_cloth=any_cloth(45 in)",
                "refused cloth: 2 in is too narrow for seams of 1/2 in",
            ),
            (
                "closure=hook and bar; interfacing=any_cloth(36 in)",
                "piece band interfacing: 1\nneed closes the band: 1",
            ),
        ],
    );
}

/// Three tiers of 15 in on 20 in of waist: 32, 48 and 72 in round, 5 in deep each. The casing of 3/4 + 1/2 in is turned
/// down from the first, 5 + 1 1/4 + 1/2 in; the others take two seams or a seam and the hem.
#[test]
fn tiered() {
    hold(
        "tiered_skirt",
        "waist=20 in; first=1.6; skirt=15 in; cloth=any_cloth(45 in); elastic=any",
        &[
            (
                "",
                "piece tier 1 panel: 1 of 6 3/4 in by 33 in
                 piece tier 2 panel: 2 of 6 in by 25 in
                 piece tier 3 panel: 2 of 6 in by 37 in
                 figure tier 3 across: 37 in
                 figure top turning: 1 1/4 in
                 seam tier 2: two rows pulled up by hand, at the flat length: 96 in
                 seam tier 3 to the one above: 48 in
                 seam neatening that seam: 80 in
                 seam casing, at the flat width: 32 in
                 work gather a strip: 120 in
                 no work thread up for gathering
                 mark tier 1 panel, casing fold: 1 1/4 in from upper edge
                 mark tier 2, both edges, quarter marks: 12 in from mark to mark
                 step: Tier 1: cut 1 panel
                 step: join its ends into a ring {tier 1 round}
                 step: Tier 2: cut 2 panels
                 step: join them into a ring {tier 2 round}
                 caution: nightwear",
            ),
            // The foot sews the length to which it gathers.
            (
                "rows=foot",
                "seam tier 2: gathering foot, at the gathered length: 32 in
                 seam tier 3: gathering foot, at the gathered length: 48 in
                 work thread up for gathering: 1",
            ),
            // The inch of casing that shows lies above the tiers: 14 in are left, 4 2/3 in each.
            ("casing_lies=above the tiers; skirt=16 in", "piece tier 1 panel: 1 of 7 3/4 in by 33 in"),
            // Steps of 1 and 2 in make 1 + 3 in together: 7 in leave an inch for each tier, and an eighth less does not.
            ("steps=[1 in, 2 in]; skirt=8 in", "runs:"),
            ("steps=[5 in, 2 in]; skirt=15 in", "runs:"),
            ("steps=[5 in, 2 in]; skirt=14 7/8 in", "refused skirt: leaves less than 1 in for the top one"),
            ("fullness=[1, 1, 1, 1, 1, 1]; skirt=30 in", "piece tier 7 panel: 1"),
            ("fullness=[1, 1, 1, 1, 1, 1, 1]; skirt=30 in", "refused fullness: 8 tiers are more than a skirt carries"),
            ("steps=[1 in]", "refused steps: 3 tiers have 2 steps between them, and 1 are given"),
            ("cloth=any_cloth(2 in)", "refused cloth: 2 in is too narrow for seams of 1/2 in"),
            (
                "elastic_width=3/4 in; casing=1 in",
                "refused casing: 3/4 in of elastic and 1/4 in turned under need more than 1 in",
            ),
            ("elastic_width=3/4 in; casing=1 1/8 in", "figure top turning: 1 1/8 in"),
            ("hips=32 in", "runs:"),
            ("hips=33 in", "refused first: an extra of 1 in would do"),
            ("waist=15 in; hips=50 in", "refused first: give more fullness, or measure again"),
        ],
    );
}
