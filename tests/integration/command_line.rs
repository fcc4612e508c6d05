//! The built program as a shell sees it: streams, exit codes, pipes, disks that fail, kills.
#![cfg(unix)]

use crate::sessions::transcript_folder;
use std::collections::BTreeMap;
use std::fs;
use std::io::{Read, Write};
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::Duration;

const ORDER: [&str; 8] = [
    "run",
    "strips_on_band",
    "--workshop",
    "demo",
    "waist=14 in",
    "strip=10 in",
    "gathers=tulle overlapped",
    "tulle=ivory tulle",
];
const REST: [&str; 2] = ["satin=ivory satin strip", "elastic=elastic 1 in"];

fn shirr(here: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command
        .current_dir(here)
        .env("SHIRR_STATE", here.join("state"))
        .env("SHIRR_DATA", here.join("data"))
        .env_remove("COLUMNS");
    command
}

fn output(command: &mut Command) -> Output {
    command.stdin(Stdio::null()).output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

/// The files of a folder, by name.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let files = entries.filter(|path| path.is_file());
    files.map(|path| (path.file_name().unwrap().to_string_lossy().into_owned(), fs::read(&path).unwrap())).collect()
}

#[test]
fn answers_and_problems_go_to_their_own_streams() {
    let here = transcript_folder("streams");
    let done = output(shirr(here.path()).args(["reckon", "14 in + 2 in", "14 in + 2 min"]));
    assert_eq!(done.status.code(), Some(1));
    assert_eq!(text(&done.stdout), "16 in\n");
    assert!(text(&done.stderr).starts_with("a length and a time cannot be added"));
    assert_eq!(output(shirr(here.path()).args(["reckon"])).status.code(), Some(2));
    assert_eq!(output(shirr(here.path()).args(["reckon", "1"])).status.code(), Some(0));
    let help = output(shirr(here.path()).args(["--help"]));
    assert_eq!(help.status.code(), Some(0));
    assert!(text(&help.stdout).contains("shirr reckon") && help.stderr.is_empty());
    let word = output(shirr(here.path()).args(["help"]));
    assert_eq!((word.status.code(), text(&word.stdout)), (Some(0), text(&help.stdout)));
}

#[test]
fn lines_from_a_pipe_are_worked_through_without_a_prompt() {
    let here = transcript_folder("pipe");
    let mut child =
        shirr(here.path()).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    child.stdin.take().unwrap().write_all("waist = 56 cm\nwaist + 4 cm\n(1 +\n 2)\n5 inn\n1 / 4".as_bytes()).unwrap();
    let done = child.wait_with_output().unwrap();
    assert_eq!(text(&done.stdout), "waist  56 cm\n60 cm\n3\n0.25\n");
    assert!(text(&done.stderr).starts_with("“inn” is not a unit"));
    assert_eq!(done.status.code(), Some(1));
}

#[test]
fn a_pipe_that_closes_early_is_nobodys_fault() {
    let here = transcript_folder("closed");
    let mut child = shirr(here.path())
        .args(ORDER)
        .args(REST)
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut first = [0u8; 1];
    let mut out = child.stdout.take().unwrap();
    out.read_exact(&mut first).unwrap();
    drop(out);
    let mut stderr = String::new();
    child.stderr.take().unwrap().read_to_string(&mut stderr).unwrap();
    assert_eq!((child.wait().unwrap().code(), stderr.as_str()), (Some(0), ""));
}

#[test]
fn nothing_but_text_goes_into_a_pipe() {
    let here = transcript_folder("plain");
    for (variable, value) in [("NO_COLOR", "1"), ("TERM", "dumb"), ("TERM", "xterm-256color")] {
        let done = output(shirr(here.path()).args(ORDER).args(REST).env(variable, value));
        let shown = text(&done.stdout);
        assert!(!shown.contains('\u{1b}') && !shown.contains('│'), "{shown}");
    }
    let aloud = text(&output(shirr(here.path()).args(ORDER).args(REST).arg("--plain")).stdout);
    assert!(!aloud.contains('≈') && aloud.contains("about"), "{aloud}");
}

#[test]
fn a_narrow_window_is_kept_to() {
    let here = transcript_folder("narrow");
    for columns in [40usize, 80] {
        let done = output(shirr(here.path()).args(ORDER).args(REST).env("COLUMNS", columns.to_string()));
        for line in text(&done.stdout).lines() {
            assert!(line.chars().count() <= columns, "{columns}: {line}");
        }
    }
}

#[test]
fn tables_are_left_as_csv_and_replaced_whole() {
    let here = transcript_folder("csv");
    let done = output(shirr(here.path()).args(ORDER).args(REST).args(["--csv", "out"]));
    assert_eq!(done.status.code(), Some(0), "{}", text(&done.stderr));
    let first = files(&here.path().join("out"));
    for name in [
        "cut_list",
        "buy_list",
        "stitching",
        "minutes",
        "cost",
        "price_lines",
        "not_in_price",
        "totals",
        "marks",
        "steps",
        "cautions",
        "labels",
    ] {
        let bytes = &first[&format!("{name}.csv")];
        let lines = text(bytes);
        assert!(lines.ends_with("\r\n") && lines.matches('\n').count() == lines.matches("\r\n").count(), "{name}");
    }
    let cut_list = text(&first["cut_list.csv"]);
    assert!(cut_list.starts_with("piece,material,count,shape,along (in),along (tape),"), "{cut_list}");
    assert!(cut_list.contains("strip,ivory tulle,111,full width,10,10,"), "{cut_list}");
    output(shirr(here.path()).args(ORDER).args(REST).args(["pieces=2", "--csv", "out"]));
    let second = files(&here.path().join("out"));
    assert!(text(&second["cut_list.csv"]).contains("strip,ivory tulle,222,"));
    assert_eq!(first.keys().collect::<Vec<_>>(), second.keys().collect::<Vec<_>>());
}

/// A list measured in inches in a metric workshop, and the other way round: sentences, lay, tables and the picture are
/// on the tape of the list.
#[test]
fn a_list_of_pieces_is_told_on_one_tape() {
    let here = transcript_folder("one_tape");
    let cases = [("metric", "in", "31", "22", "126", "44"), ("inch", "cm", "78", "56", "320", "112")];
    for (tape, unit, along, across, long, wide) in cases {
        let folder = here.path().join(tape);
        fs::create_dir(&folder).unwrap();
        fs::write(folder.join("settings.csv"), format!("setting,value\ntape,{tape}\n")).unwrap();
        let pieces = format!("piece,count,along,across\npanel,3,{along} {unit},{across} {unit}\n");
        fs::write(here.path().join("list.csv"), pieces).unwrap();
        let lengths = format!("stock,count,along,across\nC1,1,{long} {unit},{wide} {unit}\n");
        fs::write(here.path().join("lengths.csv"), lengths).unwrap();
        let arguments = ["cut", "list.csv", "--from", "lengths.csv", "--workshop", tape, "--csv", "out"];
        let done = output(shirr(here.path()).args(arguments));
        assert_eq!(done.status.code(), Some(0), "{}", text(&done.stderr));
        let told = text(&done.stdout);
        let words: Vec<&str> = told.split(|c: char| !c.is_alphanumeric()).collect();
        let others = if unit == "in" { ["cm", "m"] } else { ["in", "yd"] };
        for two in words.windows(2) {
            let is_length = two[0].ends_with(|c: char| c.is_ascii_digit()) && others.contains(&two[1]);
            assert!(!is_length, "{two:?}: {told}");
        }
        assert!(told.contains(&format!("{long} {unit}")), "{told}");
        let picture = text(&files(&here.path().join("out"))["lay.svg"]);
        let head = if unit == "in" { "all measures in inches" } else { "all measures in centimetres" };
        assert!(picture.contains(head), "{picture}");
    }
}

/// What an earlier run drew on further pages is not of this run: those pages go, and nothing else does.
#[test]
fn pages_of_an_earlier_run_go() {
    let here = transcript_folder("pages");
    let out = here.path().join("out");
    fs::create_dir(&out).unwrap();
    for name in ["lays.svg", "lays_2.svg", "lays_3.svg", "lays_5.svg", "pieces_2.svg", "lay_2.svg", "notes.txt"] {
        fs::write(out.join(name), "earlier").unwrap();
    }
    let done = output(shirr(here.path()).args(ORDER).args(REST).args(["--csv", "out"]));
    assert_eq!(done.status.code(), Some(0), "{}", text(&done.stderr));
    let left = files(&out);
    assert!(text(&left["lays.svg"]).starts_with("<svg"));
    let of_this_run = |name: &str| left.get(name).is_none_or(|bytes| text(bytes) != "earlier");
    assert!(["lays_2.svg", "lays_3.svg", "pieces_2.svg"].into_iter().all(of_this_run), "{:?}", left.keys());
    // No page stands between it and the last one, so it is not of this picture.
    assert!(["lays_5.svg", "lay_2.svg", "notes.txt"].iter().all(|name| left[*name] == b"earlier"));
}

#[test]
fn a_file_of_a_hundred_megabytes_is_refused_at_once() {
    let here = transcript_folder("large");
    fs::File::create(here.path().join("large.rhai")).unwrap().set_len(100_000_000).unwrap();
    let done = output(shirr(here.path()).args(["run", "large.rhai"]));
    assert_eq!(done.status.code(), Some(1));
    let expected = "large.rhai holds 96 MB; a file that is read here may hold 256 kB\n";
    assert!(text(&done.stderr).ends_with(expected), "{}", text(&done.stderr));
}

/// A folder that gets full or read-only: a small disk of its own while this value lives, or, where mounting is not
/// allowed, as for anyone but root, a plain folder whose trouble the program plans.
pub(crate) struct Disk {
    folder: std::path::PathBuf,
    is_mounted: bool,
}

impl Disk {
    pub(crate) fn at(folder: &Path, size: &str) -> Self {
        fs::create_dir_all(folder).unwrap();
        let mut mount = Command::new("mount");
        mount.args(["-t", "tmpfs", "-o", &format!("size={size}"), "tmpfs"]).arg(folder).stderr(Stdio::null());
        let is_mounted = mount.status().is_ok_and(|status| status.success());
        Self { folder: folder.to_path_buf(), is_mounted }
    }

    /// Fills it to its last block. Gives the variable that a program needs to meet the full disk.
    #[must_use]
    fn fill(&self) -> Option<(&'static str, &'static str)> {
        if !self.is_mounted {
            return Some(("SHIRR_FAULT", "fail 9"));
        }
        let mut filler = fs::File::create(self.folder.join("filler")).unwrap();
        while filler.write_all(&[0u8; 1024]).is_ok() {}
        None
    }

    /// Makes it read-only. Gives the variable that a program needs to meet that.
    #[must_use]
    pub(crate) fn refuse(&self) -> Option<(&'static str, &'static str)> {
        if !self.is_mounted {
            return Some(("SHIRR_FAULT", "refuse 1"));
        }
        let status = Command::new("mount").args(["-o", "remount,ro"]).arg(&self.folder).status().unwrap();
        assert!(status.success());
        None
    }
}

impl Drop for Disk {
    fn drop(&mut self) {
        if self.is_mounted {
            let _unmounted = Command::new("umount").arg("-l").arg(&self.folder).status();
        }
    }
}

#[test]
fn a_full_disk_leaves_what_was_there() {
    let here = transcript_folder("full");
    let disk = Disk::at(&here.path().join("disk"), "512k");
    let first = output(shirr(here.path()).args(ORDER).args(REST).args(["--csv", "disk"]));
    assert_eq!(first.status.code(), Some(0), "{}", text(&first.stderr));
    let before = files(&disk.folder);
    let full = disk.fill();
    let second = output(shirr(here.path()).args(ORDER).args(REST).args(["pieces=9", "--csv", "disk"]).envs(full));
    assert_eq!(second.status.code(), Some(1));
    let stderr = text(&second.stderr);
    assert!(
        stderr.contains("the disk is full") && stderr.contains("nothing that was there before has changed"),
        "{stderr}"
    );
    let mut after = files(&disk.folder);
    after.remove("filler");
    assert_eq!(before, after);
}

#[test]
fn a_read_only_folder_is_told_and_left_alone() {
    let here = transcript_folder("read_only");
    let disk = Disk::at(&here.path().join("disk"), "1m");
    fs::write(disk.folder.join("cut_list.csv"), "mine").unwrap();
    let refused = disk.refuse();
    let done = output(shirr(here.path()).args(ORDER).args(REST).args(["--csv", "disk"]).envs(refused));
    assert_eq!(done.status.code(), Some(1));
    assert!(text(&done.stderr).contains("the folder is read-only"), "{}", text(&done.stderr));
    assert_eq!(files(&disk.folder).into_iter().collect::<Vec<_>>(), [("cut_list.csv".to_owned(), b"mine".to_vec())]);
}

#[test]
fn a_kill_at_any_moment_leaves_each_file_old_or_new() {
    let here = transcript_folder("kill");
    let out = here.path().join("out");
    let written = |pieces: &str| {
        let done = output(shirr(here.path()).args(ORDER).args(REST).args([pieces, "--csv", "out"]));
        assert_eq!(done.status.code(), Some(0), "{}", text(&done.stderr));
        files(&out)
    };
    let (many, one) = (written("pieces=40"), written("pieces=1"));
    let mut draw = 0x2545_F491_4F6C_DD1D_u64;
    let mut killed = 0;
    for _ in 0..40 {
        let mut child = shirr(here.path())
            .args(ORDER)
            .args(REST)
            .args(["pieces=40", "--csv", "out"])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        draw = draw.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        std::thread::sleep(Duration::from_micros((draw >> 33) % 90_000));
        killed += usize::from(child.try_wait().unwrap().is_none());
        child.kill().unwrap();
        child.wait().unwrap();
        for (name, bytes) in files(&out).into_iter().filter(|(name, _)| !name.starts_with('.')) {
            assert!(bytes == one[&name] || bytes == many[&name], "{name} is neither the old nor the new");
        }
    }
    assert!(killed > 0, "nothing was killed in time");
}
