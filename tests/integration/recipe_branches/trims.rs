//! Bindings, frills, pleated strips, sashes and flags.

use super::hold;

/// A single binding of an inch is cut 2 x 1 + 2 x 1/4 in wide. 20 in and two ends of an inch are 22 in in three strips out
/// of a block; each of the two joins slants over 2 1/2 x sqrt(2) in.
#[test]
fn bias_bindings() {
    hold(
        "bias_binding",
        "edge=20 in; folds=single; finished=1 in; method=whole strips; cloth=any_cloth(44 in)",
        &[
            (
                "",
                "figure cut width: 2 1/2 in
                 figure cut as: whole strips out of a block
                 figure strips: 3
                 seam binding, first and second edge: 40 in
                 seam slanting joins: 7.0710678 in
                 work press a binding: 22 in
                 work sew a seam: 47.0710678 in
                 work cut a piece: 3
                 mark bias strip, seam line: 1/4 in from one raw edge
                 mark bias strip, turned under: 1/4 in from the other raw edge
                 no mark bias strip, fold
                 step: Press {turning} under along one edge
                 step: its ends turned in or lapped {end}
                 step: cut {strips in all} strips {cut width} wide beside it
                 step: Lay two ends right sides together
                 step: No join comes to the middle of the front
                 caution: blades
                 caution: iron",
            ),
            ("end=0 in", "no step: its ends turned in"),
            // Folded double, four times 1/2 in and two turnings: 2 1/2 in, folded in the middle.
            (
                "folds=double; finished=1/2 in",
                "figure cut width: 2 1/2 in
                 mark bias strip, fold: 1 1/4 in from either raw edge
                 mark bias strip, seam line: 1/4 in from both raw edges, lying together
                 no mark bias strip, turned under
                 step: Fold the strip lengthwise, right side out",
            ),
            (
                "edge=8 in; folds=double; finished=1/2 in; shortest=40 in",
                "figure cut as: one strip
                 figure strips: 1
                 no mark bias strip, middle of the front
                 step: cut one strip {cut width} wide beside it
                 no step: Lay two ends right sides together
                 no step: No join comes to the middle",
            ),
            ("cloth=any_cloth(1/2 in)", "refused cloth: joins of 1/4 in at both ends leave nothing of 1/2 in"),
            (
                "cloth=any_cloth(2 3/8 in)",
                "refused finished: a strip 2 1/2 in wide does not go slantwise on cloth 2 3/8 in wide",
            ),
            // 22 + 2 1/2 in wound round a tube whose turns are 6 in: 24 1/2 x 2 1/2 / (6 / sqrt(2)) = 14.4 in, four lines.
            // Of 12 1/2 in only 7.4 in, two lines.
            ("method=tube", "figure cut as: a tube\nfigure strip in all: 24 1/2 in\nwork cut a piece: 1"),
            ("method=tube; edge=8 in", "refused method: holds less than three lines of 2 1/2 in"),
            // 648 in at 2 in are a square of 36 in; it goes on cloth just as wide.
            (
                "edge=648 in; finished=1/2 in; turning=1/2 in; end=0 in; method=square; loss=0; cloth=any_cloth(36 in)",
                "piece square: 1 of 36 in by 36 in
                 figure gives at most: 648 in
                 seam the square's halves together, and the seam of the tube: 72 in
                 work cut a piece: 1
                 step: Cut a square of {square}.",
            ),
            (
                "edge=648 in; finished=1/2 in; turning=1/2 in; end=0 in; method=square; loss=0; cloth=any_cloth(35 7/8 in)",
                "refused method: a square 36 in on each side does not go on cloth 35 7/8 in wide",
            ),
        ],
    );
}

/// 10 in of edge at twice: 20 in and two ends of 1/2 in; 2 + 1/2 + 1/2 in deep.
#[test]
fn gathered_trims() {
    hold(
        "gathered_trim",
        "edge=10 in; depth=2 in; cloth=any_cloth(44 in)",
        &[
            (
                "",
                "piece strip: 1 of 3 in
                 figure strip length: 21 in
                 figure joins: 0
                 seam hem, at the flat length: 21 in
                 seam both ends, turned in: 6 in
                 seam raw edge: gathering foot, at the gathered length: 10 in
                 seam frill to edge: 10 in
                 work turn and sew a hem: 27 in
                 work sew a seam: 10 in
                 work thread up for gathering: 1
                 mark strip, hem fold: 1/2 in from lower edge
                 mark strip, joined, quarter marks: 5 in from mark to mark
                 no mark strip, fold line
                 step: Cut one strip {strip depth} deep
                 step: Trim it to {strip length}.
                 step: Turn {end} in at both ends
                 step: Turn up {hem} along one edge
                 caution: flame
                 caution: nightwear
                 caution: blades",
            ),
            // 6 times: 60 in, sewn at 20 and at 10; what is fed in again is 20 in.
            (
                "fullness=[3, 2]; start=2 in",
                "figure strip length: 63 in
                 seam raw edge: gathering foot, pass 1, at the gathered length: 20 in
                 seam raw edge: gathering foot, pass 2, at the gathered length: 10 in
                 work gather second pass: 20 in",
            ),
            ("end=0 in", "no seam both ends, turned in\nno step: Turn {end} in\nfigure strip length: 20 in"),
            (
                "form=ring",
                "figure strip length: 20 in
                 seam joins: 3 in
                 no seam both ends, turned in
                 no step: Turn {end} in
                 step: Trim it and join its ends into a ring",
            ),
            // 200 in: five strips of 44 in, each losing an inch to its join in a ring; end to end 201 in, four joins.
            (
                "edge=100 in; form=ring",
                "piece strip: 5 of 3 in\nseam joins: 15 in\nstep: Join them into a ring {strip length} round",
            ),
            (
                "edge=100 in",
                "piece strip: 5 of 3 in\nseam joins: 12 in\nstep: Join them end to end\nstep: Cut {strips} strips",
            ),
            (
                "kind=double; rows=by hand",
                "piece strip: 1 of 5 in
                 mark strip, fold line: 2 1/2 in from either long edge
                 no seam hem, at the flat length
                 no work thread up for gathering
                 step: Fold the strip lengthwise",
            ),
            ("join=1 in; cloth=any_cloth(2 in)", "refused cloth: joins of 1 in at both ends leave nothing of 2 in"),
            ("join=1 in; cloth=any_cloth(2 1/8 in)", "runs:"),
        ],
    );
}

/// Ten pleats of an inch on 10 in, each as deep as it is wide: 10 + 2 x 10 = 30 in and two ends of 1/2 in.
#[test]
fn pleated_strips() {
    hold(
        "pleated_strip",
        "edge=10 in; deep=3 in; cloth=any_cloth(44 in)",
        &[
            (
                "",
                "piece strip: 1 of 4 in
                 figure pleats laid: 10
                 figure pleat depth: 1 in
                 figure pleats lie: normal
                 figure taken up: 2 in
                 figure strip length: 31 in
                 seam hem, at the flat length: 31 in
                 seam both ends, turned in: 8 in
                 work turn and sew a hem: 39 in
                 work lay and press a pleat: 10
                 work sew a seam: 20 in
                 mark strip, hem fold: 1/2 in from lower edge
                 mark strip, joined, first fold of each pleat: 3 in from one pleat to the next, on the flat cloth
                 mark strip, joined, first fold of every fifth pleat: 15 in from one to the next; mark these first
                 step: Cut one strip {strip depth} deep across the cloth and trim it
                 step: Lay {pleats laid} pleats in knife pleats
                 step: Hem the lower edge
                 step: Turn {end} in at both ends
                 caution: flame
                 caution: nightwear",
            ),
            // Five have no fifth after the first to be marked before.
            ("pleats=5", "no mark strip, joined, first fold of every fifth pleat\nfigure pleat width: 2 in"),
            ("pleats=1; depth=3 in; style=box", "step: Lay one pleat in box pleats\nfigure flat: 22 in"),
            ("pleated=5 in", "figure pleats laid: 5\nfigure flat: 20 in"),
            ("pleated=10 1/8 in", "refused pleated: 10 1/8 in of pleats is more than the 10 in of edge"),
            ("pleated=10 in", "runs:"),
            (
                "hem=0 in; end=0 in",
                "no seam hem, at the flat length\nno seam both ends, turned in\nno step: Hem the lower edge\nno step: Turn {end}",
            ),
            // 80 pleats of 1/8 in can be folded, 81 not; nor can more by their width.
            ("pleats=80", "figure pleat width: 1/8 in"),
            ("pleats=81", "refused pleats: wide cannot be folded"),
            // Folds 2 in deep on an inch are five layers.
            ("depth=2 in", "figure pleats lie: overlapping\nfigure flat: 50 in"),
            ("depth=2 1/8 in", "refused depth: lie in more than five layers"),
            // 3 x 20 + 1 in: two strips of 44 in.
            ("edge=20 in", "piece strip: 2 of 4 in\nseam joins: 4 in\nstep: let a join come to an inner fold"),
            ("join=1 in; cloth=any_cloth(2 in)", "refused cloth: joins of 1 in at both ends leave nothing of 2 in"),
        ],
    );
}

/// 24 in round, two loops of twice 5 in, two ends of 10 and a knot of 3: 67 in, and two seams; 2 x 3 + 1 in deep.
#[test]
fn sashes() {
    hold(
        "sash_and_bow",
        "round=24 in; cloth=any_cloth(45 in)",
        &[
            (
                "",
                "piece sash strip: 2 of 7 in
                 figure sash: 67 in
                 figure sash strip cut: 68 in
                 seam joins of the sash strip: 7 in
                 seam sash strip: long edge and both ends: 75 in
                 work sew a seam: 82 in
                 work cut a piece: 2
                 mark sash strip, fold line: 3 1/2 in from either long edge
                 mark sash, middle: 33 1/2 in from either end; at the front of the body
                 step: Cut {sash strip strips} strips
                 step: Catch the middle of the sash to the front seam.
                 caution: child-cords
                 caution: flame
                 no caution: small-parts",
            ),
            (
                "cloth=any_cloth(68 in)",
                "piece sash strip: 1 of 7 in by 68 in
                 no seam joins of the sash strip
                 work sew a seam: 75 in
                 step: Cut a strip {strip depth} deep and {sash strip cut} long.",
            ),
            ("cloth=any_cloth(67 7/8 in)", "piece sash strip: 2 of 7 in\nstep: Cut {sash strip strips} strips"),
            // 24 in and a lap of one; the bow is two loops of twice 5 in, two ends of 10 and a knot: 43 in and two seams.
            (
                "kind=bow sewn on",
                "piece sash strip: 1 of 7 in by 26 in
                 piece bow strip: 1 of 7 in by 44 in
                 figure bow: 43 in
                 need one at each edge of the lap: 2
                 work sew on a hook and bar: 2
                 work tie and sew on a bow: 1
                 mark sash, lap: 1 in from the end that lies under
                 no mark sash, middle
                 step: Sew two hooks and bars
                 caution: small-parts",
            ),
            ("wide=12 in; loops=6 in", "runs:"),
            ("wide=12 in; loops=5 7/8 in", "refused loops: a loop of 5 7/8 in cannot stand in a sash 12 in wide"),
            ("cloth=any_cloth(1 in)", "refused cloth: joins of 1/2 in at both ends leave nothing of 1 in"),
        ],
    );
}

/// Nine flags 8 in wide, eight gaps of 1 and two ends of 18 in: 116 in of tape. Head to foot nine lie on 42 in, one way up
/// five.
#[test]
fn flags() {
    hold(
        "bunting",
        "flags=9; wide=8 in; high=8 in; kind=pinked; cloth=any_cloth(42 in); tape=any",
        &[
            (
                "",
                "piece flag strip: 1 of 8 in
                 figure triangles: 9
                 figure in a row: 9
                 seam tape, folded over the flags: 116 in
                 no seam joins of the tape
                 work cut a piece: 9
                 work sew a seam: 116 in
                 need in one length, folded over the tops: 116 in
                 mark flag strip, tops: 8 in from mark to mark along one edge
                 mark tape, first flag: 18 in from the end of the tape
                 mark tape, flag to flag: 9 in from one flag's beginning to the next
                 step: Cut one strip {cut height} deep
                 step: every other one upside down
                 step: Pink the two slanting sides
                 no step: has a nap",
            ),
            (
                "way=one way up",
                "piece flag strip: 2 of 8 in
                 figure in a row: 5
                 no figure rows if turned
                 step: Cut {rows} strips
                 step: wide from a strip, all the same way up",
            ),
            // One way up in any case: the nap costs nothing.
            (
                "way=one way up; cloth=any_cloth(42 in).napped()",
                "step: cut all flags the same way up.\nno figure rows if turned\nno step: Strips it takes",
            ),
            (
                "cloth=any_cloth(42 in).napped()",
                "figure rows: 2\nfigure rows if turned: 1\nstep: Strips it takes: {rows}; turned about",
            ),
            (
                "cloth=any_cloth(8 in)",
                "figure in a row: 1\nfigure rows: 9\nstep: Cut one triangle {cut width} wide from each strip",
            ),
            ("cloth=any_cloth(7 7/8 in)", "refused wide: a flag cut 8 in wide does not go on cloth 7 7/8 in wide"),
            // Two layers; their slanting sides are sqrt(64 + 16) = 8.9442719 in each.
            (
                "kind=lined",
                "figure triangles: 18
                 seam two layers, along the slanting sides: 160.9968944 in
                 work turn out a flag: 9
                 work cut a piece: 18
                 step: Sew the layers in pairs
                 no step: Pink the two slanting sides",
            ),
        ],
    );
}

/// A seam line 3 in from the middle, 6 pi - 1 = 17.8495559 in of each ring, so that 20 in take two; cut from 2 1/2 to
/// 7 1/4 in. Their hem is 2 x 14 pi in less an inch for the join.
#[test]
fn circular_flounces() {
    hold(
        "circular_flounce",
        "edge=20 in; depth=4 in; cloth=any_cloth(45 in)",
        &[
            (
                "",
                "piece ring: 2
                 figure inner radius: 2 1/2 in
                 figure outer radius: 7 1/4 in
                 figure all give: 35.6991118 in
                 seam joins: 4 3/4 in
                 seam staying the seam line before it is snipped: 35.6991118 in
                 seam hem, at its own length: 86.9645943 in
                 work sew a seam: 60.4491118 in
                 mark ring, seam line: 1/2 in from inner edge
                 mark edge, quarter marks: 5 in from mark to mark
                 step: Cut {rings} rings
                 step: Join them end to end
                 caution: flame
                 caution: nightwear",
            ),
            (
                "edge=10 in",
                "piece ring: 1\nseam joins: 0 in\nstep: Cut one ring\nstep: Hem the outer edge, {hem} with all turnings.",
            ),
            // Half a ring gives 3 pi - 1 = 8.4247780 in.
            (
                "cloth=any_cloth(14 in)",
                "piece half ring: 3\nfigure each gives: 8.4247780 in\nstep: Cut {rings} half rings",
            ),
            ("cloth=any_cloth(14 in); edge=8 in", "piece half ring: 1\nstep: Cut one half ring"),
            ("cloth=any_cloth(14 1/2 in)", "piece ring: 2"),
            ("cloth=any_cloth(7 1/4 in)", "piece half ring: 3"),
            ("cloth=any_cloth(7 1/8 in)", "refused depth: even half a ring takes 7 1/4 in of width"),
            (
                "radius=1 in; seam=1 in",
                "refused radius: a seam of 1 in does not fit inside a seam line 1 in from the middle",
            ),
            ("radius=1 1/8 in; seam=1 in", "runs:"),
        ],
    );
}
