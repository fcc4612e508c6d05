//! Sleeves and their cuffs.

use super::hold;

/// 30 cm between the notches at 1.6 are 48 cm, 18 more; across 22 + 4 + 18 = 44 cm. A parabola as wide and 13 cm high is
/// 52.754 cm long. The cuff is 22 + 2 cm round and 2 cm deep once folded.
#[test]
fn puffs() {
    hold(
        "puff_sleeve",
        "head=30 cm; arm=22 cm; ease=4 cm; sleeve=6 cm; cap=10 cm; cloth=any_cloth(112 cm)",
        &[
            (
                "",
                "piece sleeve: 2
                 piece cuff: 2 of 26 cm by 6 cm
                 lies cuff: across
                 figure each slash: 3.6 cm
                 figure head height: 13 cm
                 seam underarm seams: 16 cm
                 seam both edges of each neatened together: 16 cm
                 seam cuffs into rings: 12 cm
                 seam two gathering rows on each lower edge: 176 cm
                 seam set the cuffs, and their insides: 96 cm
                 work cut a piece: 4
                 work sew a seam: 76 cm
                 work overlock an edge: 16 cm
                 work gather and set a lower edge: 2
                 work gather and set a sleeve head: 2
                 mark sleeve, notches: 24 cm from each side of the head's middle, flat
                 mark armhole, notches: 15 cm from each side of the shoulder
                 mark cuff, fold line: 3 cm from either long edge
                 no piece cuff stiffening
                 step: lower edge in {slashes} places
                 step: Cut two cuffs {cuff cut} by {cuff depth}.
                 step: Join each cuff into a ring.
                 caution: flame
                 caution: nightwear
                 caution: blades
                 no caution: elastic-limb",
            ),
            (
                "stiffening=any_cloth(90 cm)",
                "piece cuff stiffening: 2 of 26 cm by 3 cm
                 lies cuff stiffening: any
                 work cut a piece: 6
                 work fasten an interfacing: 2
                 step: Fasten the stiffening",
            ),
            ("slashes=1", "step: lower edge in one place, open\nfigure each slash: 18 cm"),
            // Elastic of 6 mm in a turning of 6 + 10 mm; 22 cm less 5 % and a lap of 2 cm.
            (
                "end=elastic; elastic=any",
                "figure underarm: 8.6 cm
                 figure lower turning: 1.6 cm
                 figure elastic lap: 2 cm
                 need one for each sleeve: 2 of 22.9 cm
                 seam casings of the lower edges: 88 cm
                 seam elastic to itself, both ends of the lap: 2.4 cm
                 work turn and sew a hem: 88 cm
                 work thread an elastic: 2
                 mark sleeve, casing fold: 1.6 cm from lower edge
                 no piece cuff
                 step: Draw {elastic cut} of elastic through each
                 caution: elastic-limb",
            ),
            ("armhole=30 cm", "refused armhole: 30 cm from notch to notch is no part of an armhole of 30 cm"),
            ("armhole=30.1 cm", "step: Measure again before cutting"),
        ],
    );
}

/// 26 + 5 cm above, (16 + 2) x 2 = 36 cm below, over five slashes a centimetre each; 42 - 4 + 4 cm of sleeve and two
/// seams. Cuffs of 18 + 2 + 2 by 2 x 4 + 2 cm, slits of 7 cm bound with 16.
#[test]
fn bishop_sleeves() {
    hold(
        "bishop_sleeve",
        "arm=26 cm; wrist=16 cm; sleeve=42 cm; cap=14 cm; fullness=2; cloth=any_cloth(140 cm)",
        &[
            (
                "",
                "piece sleeve: 2
                 piece cuff: 2 of 22 cm by 10 cm
                 piece slit binding: 2 of 16 cm by 3 cm
                 lies cuff: across
                 figure lower cut: 38 cm
                 figure each slash: 1 cm
                 figure buttonhole: 1.5 cm
                 seam binding both openings, first and second edge: 56 cm
                 seam both lower edges: two rows pulled up by hand, at the flat length: 144 cm
                 seam set the cuffs, and their insides: 76 cm
                 seam both ends of each cuff: 16 cm
                 seam underarm seams: 88 cm
                 work cut a piece: 6
                 work sew a seam: 144 cm
                 work sew a band: 2
                 work make a buttonhole: 2
                 work gather and set a lower edge: 2
                 no work thread up for gathering
                 need one for each cuff: 2
                 mark sleeve, opening: 9 cm from underarm seam on the back of the arm, along the lower edge
                 mark sleeve, slit: 8 cm from lower edge, at the opening, straight up
                 mark cuff, quarter marks: 4.5 cm from mark to mark, from the underlap
                 mark cuff, fold line: 5 cm from either long edge
                 step: to the head in {slashes} places
                 step: The sleeve is {blouse} longer than the arm
                 step: in the end of each cuff that lies on top
                 no step: Fasten the interfacing
                 caution: flame
                 caution: nightwear
                 caution: small-parts",
            ),
            (
                "interfacing=any_cloth(90 cm); blouse=0 cm; slashes=1",
                "piece cuff interfacing: 2 of 22 cm by 5 cm
                 lies cuff interfacing: any
                 work cut a piece: 8
                 work fasten an interfacing: 2
                 step: Fasten the interfacing to the half of each that shows
                 step: to the head in one place and open
                 no step: longer than the arm",
            ),
            (
                "closure=hook and bar; rows=foot",
                "need one for each cuff: 2
                 work sew on a hook and bar: 2
                 work thread up for gathering: 1
                 seam both lower edges: gathering foot, at the gathered length: 36 cm
                 no work make a buttonhole
                 step: Sew a hook and a bar to the ends of each cuff.",
            ),
            ("arm=31.1 cm", "refused fullness: the lower edge would be 36 cm and the sleeve is 36.1 cm above"),
            ("sleeve=10 cm; cuff=10 cm", "refused cuff: a cuff of 10 cm leaves nothing of 10 cm of sleeve"),
            ("sleeve=10 cm; cuff=9.9 cm; slit=3 cm", "figure underarm: 6.1 cm"),
            (
                "sleeve=12 cm; cuff=5 cm; blouse=0 cm",
                "refused slit: an opening of 7 cm is longer than the 7 cm of sleeve",
            ),
            ("sleeve=12 cm; cuff=5 cm; blouse=0 cm; slit=6.9 cm", "runs:"),
        ],
    );
}

/// 26 + 5 cm above and 20 more below, over four slashes 5 cm each; 42 cm of sleeve, a seam and a hem.
#[test]
fn bell_sleeves() {
    hold(
        "bell_sleeve",
        "arm=26 cm; sleeve=42 cm; cap=14 cm; flare=20 cm; cloth=any_cloth(140 cm)",
        &[
            (
                "",
                "piece sleeve: 2
                 figure each slash: 5 cm
                 figure lower edge: 51 cm
                 figure opens above: 44 cm
                 seam underarm seams: 88 cm
                 seam both edges of each: 176 cm
                 seam hems: 102 cm
                 work overlock an edge: 176 cm
                 work set a sleeve head: 2
                 mark sleeve, hem fold: 1 cm from lower edge
                 mark sleeve, where it opens: 44 cm from lower edge
                 step: from the hem to the head in {slashes} places
                 caution: flame
                 caution: nightwear",
            ),
            (
                "opens=at the elbow; elbow=20 cm; slashes=1",
                "figure opens above: 21 cm
                 mark sleeve, where it opens: 21 cm from lower edge
                 step: up to where it opens in one place and open",
            ),
            ("opens=at the elbow; elbow=42 cm", "refused elbow: 42 cm above the hem is no lower than the armhole"),
            ("opens=at the elbow; elbow=41.9 cm", "figure opens above: 42.9 cm"),
            ("cloth=any_cloth(53 cm)", "runs:"),
            ("cloth=any_cloth(52.9 cm)", "refused flare: the hem is 53 cm across, cut, and the cloth 52.9 cm"),
        ],
    );
}
