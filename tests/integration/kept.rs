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

const LINES: [&str; 9] = [
    "# a skirt for the fair",
    "waist = 56 cm  # measured twice",
    "band = waist + 10 in",
    "strips = 23 in / 2 in * 10",
    "must band > 80 cm",
    "run gathered_trim as frill edge=1 m depth=6 cm cloth=any 45 in at $6/yd",
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
    window.line("price = frill.price");
    window.line("save fair.txt");
    let price = |window: &mut Window| {
        window.line("write page to prices.csv");
        let written = fs::read_to_string(here.path().join("prices.csv")).unwrap();
        fs::remove_file(here.path().join("prices.csv")).unwrap();
        let row = written.lines().find(|line| line.starts_with("price,")).unwrap().to_owned();
        let paid = written.lines().find(|line| line.starts_with("paid,")).unwrap().to_owned();
        (row, paid)
    };
    let before = price(&mut window);
    assert_eq!(before.1, "paid,$22.00,total(orders.paid),");
    let text = fs::read_to_string(&materials).unwrap();
    fs::write(
        &materials,
        text.replace("wide ivory tulle,cloth,54 in,40 yd,$1.90", "wide ivory tulle,cloth,54 in,40 yd,$91.90"),
    )
    .unwrap();
    fs::write(here.path().join("orders.csv"), "child,paid\nAda,$10\nBo,$12\nCleo,$9\n").unwrap();
    let after = price(&mut window);
    assert_ne!(before.0, after.0);
    assert_eq!(after.1, "paid,$31.00,total(orders.paid),");
    // An unreadable file is reported, and the values read before still count.
    fs::write(&materials, "no such heading\n").unwrap();
    let broken = price(&mut window);
    assert_eq!(broken, after);
    fs::write(&materials, text).unwrap();
    assert_eq!(price(&mut window).0, before.0);
    let stderr = window.kill();
    assert!(stderr.contains("orders.csv"), "{stderr}");
    assert!(stderr.contains("the workshop's files changed and cannot be read; the old ones count"), "{stderr}");
}
