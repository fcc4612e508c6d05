//! Checks that the files which tests walk through are all there: a test that reads what lies in a folder would pass over
//! one that was renamed or lost, and test less.
//!
//! The lists are written by hand. A file that is added, renamed or taken away on purpose is so here too.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// Every file in these folders and the folders in them, by the folder it lies in.
const WALKED: [&str; 9] = [
    "recipes",
    "tests/instances",
    "tests/ledgers",
    "tests/planted_faults",
    "tests/proptest-regressions",
    "tests/published",
    "tests/sessions",
    "tests/sound_recipes",
    "tests/worked",
];

/// Written again from today's recipes, and compared with all of them, by tests of its own.
const COMPARED: &str = "recipes/reference";

const FILES: &[(&str, &str)] = &[
    (
        "recipes",
        "bands.rhai bed_valance.rhai bell_sleeve.rhai bias_binding.rhai bishop_sleeve.rhai bunting.rhai \
         cafe_curtain.rhai circle_skirt.rhai circular_flounce.rhai curtains.rhai drawstring_bag.rhai \
         frills.rhai gathered_skirt.rhai gathered_trim.rhai gored_skirt.rhai hangings.rhai patterns.rhai \
         pencil_curtains.rhai pinch_curtains.rhai pleated_skirt.rhai pleated_strip.rhai pleating.rhai \
         puff_sleeve.rhai round_cloth.rhai ruffled_cushion.rhai sash_and_bow.rhai skirts.rhai sleeves.rhai \
         strips_knotted.rhai strips_on_band.rhai tiered_skirt.rhai valance.rhai",
    ),
    (
        "recipes/demo",
        "SCENARIO.md lengths.csv materials.csv pieces.csv rates.csv rolls.csv settings.csv sizes.csv \
         stock.csv strips.csv trials.csv",
    ),
    ("tests/instances", "README.md mixed_references.csv own_work.csv references.csv"),
    ("tests/instances/outlines", "circle_half.json gores.json shapes1.json shirts.json trousers.json"),
    (
        "tests/instances/stock_lengths",
        "falkenauer_t120_00.csp falkenauer_t249_00.csp falkenauer_t501_00.csp falkenauer_t60_00.csp \
         falkenauer_t60_01.csp falkenauer_u250_00.csp falkenauer_u250_01.csp falkenauer_u500_00.csp \
         hard28_BPP13.csp hard28_BPP14.csp hard28_BPP40.csp scholl_HARD0.csp scholl_N1C1W1_A.csp \
         scholl_N1W1B1R0.csp scholl_N2C2W2_B.csp scholl_N4W4B3R9.csp schwerin1_BPP1.csp schwerin1_BPP2.csp \
         waescher_TEST0005.csp waescher_TEST0014.csp waescher_TEST0022.csp waescher_TEST0044.csp \
         waescher_TEST0049.csp waescher_TEST0054.csp waescher_TEST0097.csp",
    ),
    ("tests/instances/stock_mixed", "ws01.ms ws03.ms ws05.ms ws07.ms ws09.ms ws11.ms"),
    (
        "tests/instances/strip_rectangles",
        "HT_C1_1.txt HT_C2_1.txt HT_C3_1.txt HT_C4_1.txt HT_C5_1.txt HT_C6_1.txt HT_C7_1.txt N01.txt N03.txt \
         N05.txt N07.txt N09.txt N11.txt Nh1a.txt Nh3a.txt T1a.txt T3a.txt T5a.txt T7a.txt",
    ),
    ("tests/ledgers", "README.md inputs.csv"),
    ("tests/ledgers/workshop", "materials.csv rates.csv settings.csv"),
    (
        "tests/planted_faults",
        "README.md bands.txt bed_valance.txt bell_sleeve.txt bias_binding.txt bishop_sleeve.txt \
         bunting.txt cafe_curtain.txt circle_skirt.txt circular_flounce.txt curtains.txt \
         drawstring_bag.txt frills.txt gathered_skirt.txt gathered_trim.txt gored_skirt.txt hangings.txt \
         patterns.txt pencil_curtains.txt pinch_curtains.txt pleated_skirt.txt pleated_strip.txt \
         pleating.txt puff_sleeve.txt round_cloth.txt ruffled_cushion.txt sash_and_bow.txt skirts.txt \
         sleeves.txt strips_knotted.txt strips_on_band.txt tiered_skirt.txt valance.txt",
    ),
    ("tests/proptest-regressions/bill", "oracle.txt"),
    ("tests/published", "cdc_stature.csv garment_limits.csv survey_stature.csv survey_waist.csv who_height.csv"),
    (
        "tests/sessions",
        "bad_files.txt changed_order.txt cloth_not_chosen.txt costed_by_hand.txt cutting.txt first_lines.txt \
         first_session.txt guesses.txt mended.txt mistakes.txt other_tape.txt own_workshop.txt \
         phone_enquiry.txt price_list.txt prompt_cutting.txt read_aloud.txt recipes.txt sheets.txt sums.txt \
         ten_waists.txt traps.txt",
    ),
    (
        "tests/sessions/bad_files",
        "controls.rhai empty.rhai endless.rhai greedy.rhai helper.rhai not_text.rhai syntax.rhai",
    ),
    ("tests/sessions/bad_files/bad_values", "materials.csv"),
    ("tests/sessions/bad_files/empty_file", "materials.csv"),
    ("tests/sessions/bad_files/folder.rhai", ".gitkeep"),
    ("tests/sessions/bad_files/missing_columns", "materials.csv"),
    (
        "tests/sessions/cutting",
        "control.csv empty.csv faults.csv headings.csv mixed.csv roll.csv semicolon.csv too_long.csv \
         too_many.csv turns.csv wrong_column.csv",
    ),
    ("tests/sessions/guesses", "broken.csv orders.csv"),
    ("tests/sessions/other_tape", "settings.csv"),
    ("tests/sessions/prompt_cutting", "mailed.txt"),
    ("tests/sessions/ten_waists", "waists.csv wrong.csv"),
    (
        "tests/sound_recipes",
        "README.md a_list_for_an_answer.rhai a_piece_under_a_name.rhai all_and_some.rhai \
         amounts_of_money.rhai areas_and_their_sides.rhai arguments_that_are_not_used.rhai \
         asked_in_the_right_order.rhai assigned_in_every_branch.rhai below_nothing.rhai \
         blanks_in_braces.rhai chain_of_only_if.rhai choices_from_a_list.rhai early_return.rhai \
         filter_to_nothing.rhai for_with_an_index.rhai functions_that_give_nothing.rhai \
         groups_put_in_order.rhai has_behind_a_flag.rhai has_behind_a_helper.rhai \
         helper_that_calls_itself.rhai helpers_that_call_each_other.rhai ifs_as_operands.rhai \
         in_a_list.rhai list_of_groups.rhai lists_in_lists.rhai lists_taken_apart.rhai \
         loop_that_gives_a_value.rhai map_with_seam.rhai member_by_a_computed_name.rhai \
         names_and_values_of_a_group.rhai nothing_asked_beside_and.rhai nothing_until_it_is_known.rhai \
         only_if_yes.rhai operators_that_assign.rhai optional_after_an_early_return.rhai \
         optional_read_after_and.rhai optional_read_after_or.rhai passed_over_and_broken_off.rhai \
         points_pushed_one_by_one.rhai ranges_of_whole_numbers.rhai reduce_from_a_length.rhai \
         refused_first.rhai same_as_another.rhai shadowed_names.rhai shares.rhai \
         something_else_instead.rhai sort_both_ways.rhai switch_of_several_values.rhai \
         switch_with_guards.rhai switch_with_ranges.rhai texts_taken_apart.rhai texts_with_braces.rhai \
         times.rhai told_after_cutting.rhai two_conditions_that_go_together.rhai values_of_blocks.rhai \
         values_told_by_a_tag.rhai ways_to_gather.rhai weights.rhai while_there_is_some_left.rhai \
         whole_and_decimal_numbers.rhai written_into_lists_and_groups.rhai",
    ),
    (
        "tests/worked",
        "allowances.csv band.csv bias.csv bunting.csv circle.csv curtains.csv drapery.csv elastic.csv \
         gathering.csv gores.csv headings.csv joins.csv knots.csv panels.csv pleats.csv price.csv \
         rounding.csv ruffles.csv rules.csv sizes.csv sleeves.csv strips.csv thread.csv tiers.csv ties.csv \
         trims.csv tucks.csv twice_gathered.csv units.csv washing.csv weight.csv",
    ),
];

/// The ledgers of each recipe. What is in them is compared line by line; which they are is free.
const LEDGERS: &[(&str, usize)] = &[
    ("bed_valance", 3),
    ("bell_sleeve", 2),
    ("bias_binding", 4),
    ("bishop_sleeve", 2),
    ("bunting", 3),
    ("cafe_curtain", 4),
    ("circle_skirt", 5),
    ("circular_flounce", 3),
    ("curtains", 4),
    ("drawstring_bag", 3),
    ("gathered_skirt", 5),
    ("gathered_trim", 4),
    ("gored_skirt", 3),
    ("pencil_curtains", 3),
    ("pinch_curtains", 3),
    ("pleated_skirt", 3),
    ("pleated_strip", 3),
    ("puff_sleeve", 3),
    ("round_cloth", 4),
    ("ruffled_cushion", 2),
    ("sash_and_bow", 3),
    ("strips_knotted", 3),
    ("strips_on_band", 3),
    ("tiered_skirt", 3),
    ("valance", 3),
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn collect(folder: &Path, found: &mut BTreeMap<String, BTreeSet<String>>) {
    for entry in fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display())) {
        let path = entry.unwrap().path();
        if path.strip_prefix(root()).unwrap() == Path::new(COMPARED) {
            continue;
        }
        if path.is_dir() {
            collect(&path, found);
        } else {
            let within = path.strip_prefix(root()).unwrap();
            let parts = |path: &Path| path.iter().map(|part| part.to_string_lossy()).collect::<Vec<_>>().join("/");
            let name = within.file_name().unwrap().to_string_lossy().into_owned();
            found.entry(parts(within.parent().unwrap())).or_default().insert(name);
        }
    }
}

/// The files in the folders, by folder.
fn files() -> BTreeMap<String, BTreeSet<String>> {
    let mut found = BTreeMap::new();
    for folder in WALKED {
        collect(&root().join(folder), &mut found);
    }
    found
}

/// The recipe whose ledgers lie in a folder.
fn recipe_of(folder: &str) -> Option<&str> {
    folder.strip_prefix("tests/ledgers/").filter(|name| *name != "workshop")
}

#[test]
fn no_file_that_tests_read_is_missing_or_unlisted() {
    let mut found = files();
    found.retain(|folder, _| recipe_of(folder).is_none());
    let listed: BTreeMap<String, BTreeSet<String>> = FILES
        .iter()
        .map(|(folder, names)| ((*folder).to_owned(), names.split_whitespace().map(str::to_owned).collect()))
        .collect();
    let paths = |of: &BTreeMap<String, BTreeSet<String>>| -> BTreeSet<String> {
        of.iter().flat_map(|(folder, names)| names.iter().map(move |name| format!("{folder}/{name}"))).collect()
    };
    let (found, listed) = (paths(&found), paths(&listed));
    let missing: Vec<&String> = listed.difference(&found).collect();
    // A property test that fails leaves its case there, and should be heard for that alone.
    let is_case = |path: &String| path.starts_with("tests/proptest-regressions/");
    let unlisted: Vec<&String> = found.difference(&listed).filter(|path| !is_case(path)).collect();
    assert!(
        missing.is_empty() && unlisted.is_empty(),
        "missing: {missing:?}\nnot in the list of this test: {unlisted:?}"
    );
}

#[test]
fn every_recipe_has_as_many_ledgers_as_are_listed() {
    let found = files();
    let found: BTreeMap<&str, usize> =
        found.iter().filter_map(|(folder, names)| Some((recipe_of(folder)?, names.len()))).collect();
    let listed: BTreeMap<&str, usize> = LEDGERS.iter().copied().collect();
    assert_eq!(found, listed, "found, and the list of this test");
}

/// `scripts/check` draws again from each seed that is kept; without the file it would draw from none.
#[test]
fn the_seeds_that_found_something_are_kept() {
    let kept = fs::read_to_string(root().join("tests/draws.kept")).unwrap();
    let seeds: Vec<u64> =
        kept.lines().filter(|line| !line.starts_with('#')).map(|line| line.trim().parse().unwrap()).collect();
    for seed in [1_901_314_584, 7] {
        assert!(seeds.contains(&seed), "{seed} is not among {seeds:?}");
    }
}
