//! Typed lines are on the disk: a process killed at any line loses only the line being typed, and two windows on one
//! page never write over each other.
#![cfg(unix)]

use crate::sessions::transcript_folder;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

/// A running program that reads lines from a pipe and whose output is read line by line.
struct Window {
    child: Child,
    input: ChildStdin,
    output: BufReader<ChildStdout>,
}

impl Window {
    fn open(here: &Path) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_shirr"))
            .current_dir(here)
            .args(["--workshop", "demo", "--echo"])
            .env("SHIRR_STATE", here.join("state"))
            .env("SHIRR_DATA", here.join("data"))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let input = child.stdin.take().unwrap();
        let output = BufReader::new(child.stdout.take().unwrap());
        Self { child, input, output }
    }

    fn send(&mut self, text: &str) {
        self.input.write_all(text.as_bytes()).unwrap();
        self.input.flush().unwrap();
    }

    /// Types a line and waits until it is done: a help line follows it, whose answer cannot be mistaken and which is
    /// not kept on a page.
    fn line(&mut self, line: &str) {
        self.send(&format!("{line}\nhelp remainder\n"));
        let mut read = String::new();
        while !read.contains("remainder(7, 3)") {
            read.clear();
            assert!(self.output.read_line(&mut read).unwrap() > 0, "it ended at “{line}”");
        }
    }

    /// Kills the process as a power cut would and returns its error output.
    fn kill(mut self) -> String {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
        std::io::read_to_string(self.child.stderr.take().unwrap()).unwrap()
    }
}

/// The value that a page has for a name, as the page is written to a file.
fn value(window: &mut Window, here: &Path, name: &str) -> String {
    let file = here.join("values.csv");
    window.line("write page to values.csv");
    let written = fs::read_to_string(&file).unwrap();
    fs::remove_file(file).unwrap();
    let rows = written.lines().find_map(|line| line.strip_prefix(&format!("{name},")));
    rows.unwrap_or_else(|| panic!("no {name} in {written}")).split(',').next().unwrap().to_owned()
}

/// Pencil, on the demo workshop's lists. A frill for 1 m, 6 cm deep, by the usual answers: gathered 2 to 1, hem, seam and
/// each turning 1/2 in. How it is sewn is common practice, no source; thread ratios are those that `help thread` names.
///
/// Flat 2 m and two turned ends, 202.54 cm: two strips of 45 in or of 54 in with one join (89 in, 107 in). A strip is
/// 6 + 2 x 1.27 = 8.54 cm deep, cut at the nearest mark, 8.5 cm: 17 cm of cloth, with 5 % 17.85 cm or 0.19521 yd.
/// Thread of 301: join 8.54, hem 202.54, ends 17.08, foot 100 and edge 100 cm are 428.16 cm x 2.5 x 1.15 = 13.462 yd at
/// $4.40 for 3000 yd; of 504: 100 cm x 14 x 1.15 = 17.607 yd at $6.20 for 5000 yd; $0.02 each.
/// Minutes: foot 8; cutting 2 x 1.5 + 4; seams 1.08540 m at 1.6/yd + 2 = 3.89921; gathering 2 m at 1.2/yd + 4 = 6.62467;
/// overlocking 1 m at 0.9/yd + 4 = 4.98425; hems 2.1962 m at 4/m + 3 = 11.7848; in all 42.29293: labour at $21/h $14.80,
/// overhead at $5.50/h $3.88.
///
/// | cloth | a yard | cloth | cost | 45 % | / 0.935 | to the next that ends in $0.50 |
/// |---|---|---|---|---|---|---|
/// | any, 45 in | $6.00 | 1.17 | 19.89 | 8.95 | 30.84 | 31.50 |
/// | wide ivory tulle | $1.90 | 0.37 | 19.09 | 8.59 | 29.60 | 30.50 |
/// | wide ivory tulle | $91.90 | 17.94 | 36.66 | 16.50 | 56.86 | 57.50 |
///
/// Cost and price: the ending of a price hides a slip of some cents.
const FRILL_OF_ANY_CLOTH: [&str; 2] = ["$19.89", "$31.50"];
const FRILL_OF_TULLE: [&str; 2] = ["$19.09", "$30.50"];
const FRILL_OF_DEAR_TULLE: [&str; 2] = ["$36.66", "$57.50"];

const LINES: [&str; 11] = [
    "# a skirt for the fair",
    "waist = 56 cm  # measured twice",
    "band = waist + 10 in",
    "strips = 23 in / 2 in * 10",
    "must band > 80 cm",
    "run gathered_trim as frill edge=1 m depth=6 cm cloth=any 45 in at $6/yd",
    "spent = total(frill.cost.money)",
    "asked = frill.price",
    "list = [waist,\n  band]",
    "ärmel = 22 cm",
    "half = ärmel / 2",
];

#[test]
fn a_page_killed_at_every_line_has_all_lines_but_the_one_being_typed() {
    let here = transcript_folder("kept");
    let page = here.path().join("fair.txt");
    for typed in 0..=LINES.len() {
        let _old = fs::remove_file(&page);
        let mut window = Window::open(here.path());
        window.line("save fair.txt");
        for line in &LINES[..typed] {
            window.line(line);
        }
        // The line being typed has no end yet.
        window.send("waist = 1");
        assert_eq!(window.kill(), "");
        let kept: String = LINES[..typed].iter().map(|line| format!("{line}\n")).collect();
        assert_eq!(fs::read_to_string(&page).unwrap(), kept);
    }
    let mut again = Window::open(here.path());
    again.line("open fair.txt");
    // The order is worked out anew from its line.
    assert_eq!(["spent", "asked"].map(|name| value(&mut again, here.path(), name)), FRILL_OF_ANY_CLOTH);
    again.line("waist = 60 cm");
    assert_eq!(again.kill(), "");
    assert!(fs::read_to_string(&page).unwrap().contains("\nwaist = 60 cm\nband = waist + 10 in\n"));
    let strays: Vec<_> = fs::read_dir(here.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert!(strays.iter().all(|name| !name.to_string_lossy().starts_with('.')), "{strays:?}");
}

#[test]
fn two_windows_on_one_page_do_not_write_over_each_other() {
    let here = transcript_folder("kept");
    let page = here.path().join("fair.txt");
    let mut one = Window::open(here.path());
    one.line("waist = 56 cm");
    one.line("save fair.txt");
    let mut other = Window::open(here.path());
    other.line("open fair.txt");
    other.line("band = waist + 10 in");
    one.line("hem = 3 cm");
    // The second window to write found the page changed and left it alone.
    assert_eq!(fs::read_to_string(&page).unwrap(), "waist = 56 cm\nband = waist + 10 in\n");
    one.line("save mine.txt");
    assert_eq!(fs::read_to_string(here.path().join("mine.txt")).unwrap(), "waist = 56 cm\nhem = 3 cm\n");
    let (stderr_one, stderr_other) = (one.kill(), other.kill());
    assert!(stderr_one.contains("fair.txt was changed by another window"), "{stderr_one}");
    assert!(stderr_other.contains("fair.txt is open in another window too"), "{stderr_other}");
}

#[test]
fn a_new_name_leaves_what_another_window_wrote_under_the_old_one() {
    let here = transcript_folder("kept");
    let page = here.path().join("fair.txt");
    let mut one = Window::open(here.path());
    one.line("waist = 56 cm");
    one.line("save fair.txt");
    fs::write(&page, "theirs = 1 cm\n").unwrap();
    one.line("rename page to may.txt");
    assert_eq!(fs::read_to_string(&page).unwrap(), "theirs = 1 cm\n");
    assert_eq!(fs::read_to_string(here.path().join("may.txt")).unwrap(), "waist = 56 cm\n");
    // Nor is it said to be saved where theirs was left alone.
    fs::write(here.path().join("may.txt"), "theirs = 2 cm\n").unwrap();
    one.line("save may.txt");
    assert_eq!(fs::read_to_string(here.path().join("may.txt")).unwrap(), "theirs = 2 cm\n");
    let stderr = one.kill();
    assert!(stderr.contains("may.txt was changed by another window"), "{stderr}");
}

#[test]
fn a_page_keeps_its_rights_and_a_link_keeps_leading_to_it() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let here = transcript_folder("kept");
    let page = here.path().join("fair.txt");
    fs::write(&page, "waist = 56 cm\n").unwrap();
    fs::set_permissions(&page, fs::Permissions::from_mode(0o640)).unwrap();
    symlink("fair.txt", here.path().join("link.txt")).unwrap();
    let mut window = Window::open(here.path());
    window.line("open link.txt");
    window.line("hem = 3 cm");
    assert_eq!(window.kill(), "");
    assert_eq!(fs::read_to_string(&page).unwrap(), "waist = 56 cm\nhem = 3 cm\n");
    assert_eq!(fs::metadata(&page).unwrap().permissions().mode() & 0o777, 0o640);
    assert!(fs::symlink_metadata(here.path().join("link.txt")).unwrap().is_symlink());
}

#[test]
fn what_changes_on_the_disk_is_worked_out_anew_at_the_next_line() {
    let here = transcript_folder("kept");
    let materials = here.path().join("demo/materials.csv");
    fs::write(here.path().join("orders.csv"), "child,paid\nAda,$10\nBo,$12\n").unwrap();
    let mut window = Window::open(here.path());
    window.line("read orders.csv as orders");
    window.line("paid = total(orders.paid)");
    window.line("run gathered_trim as frill edge=1 m depth=6 cm cloth=wide ivory tulle");
    window.line("spent = total(frill.cost.money)");
    window.line("price = frill.price");
    window.line("save fair.txt");
    let mut values = || {
        let [spent, price, paid] = ["spent", "price", "paid"].map(|name| value(&mut window, here.path(), name));
        ([spent, price], paid)
    };
    let read = |values: [&str; 2], paid: &str| (values.map(str::to_owned), paid.to_owned());
    assert_eq!(values(), read(FRILL_OF_TULLE, "$22.00"));
    let text = fs::read_to_string(&materials).unwrap();
    let (listed, dear) = ("wide ivory tulle,cloth,54 in,40 yd,$1.90", "wide ivory tulle,cloth,54 in,40 yd,$91.90");
    assert!(text.contains(listed));
    fs::write(&materials, text.replace(listed, dear)).unwrap();
    fs::write(here.path().join("orders.csv"), "child,paid\nAda,$10\nBo,$12\nCleo,$9\n").unwrap();
    assert_eq!(values(), read(FRILL_OF_DEAR_TULLE, "$31.00"));
    // An unreadable file is reported, and the values read before still count.
    fs::write(&materials, "no such heading\n").unwrap();
    assert_eq!(values(), read(FRILL_OF_DEAR_TULLE, "$31.00"));
    fs::write(&materials, text).unwrap();
    assert_eq!(values(), read(FRILL_OF_TULLE, "$31.00"));
    let stderr = window.kill();
    assert!(stderr.contains("orders.csv"), "{stderr}");
    assert!(stderr.contains("the workshop's files changed and cannot be read; the old ones count"), "{stderr}");
}
