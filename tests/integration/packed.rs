//! Checks that both packages can be packed, and that what was packed installs and runs.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Runs cargo offline; panics with its error output if it fails.
fn cargo(arguments: &[&str]) {
    let run = Command::new(env!("CARGO")).arg("--offline").args(arguments).current_dir(root()).output().unwrap();
    assert!(run.status.success(), "cargo {arguments:?}\n{}", String::from_utf8_lossy(&run.stderr));
}

#[test]
fn both_packages_carry_their_licence_and_may_be_published() {
    let licence = fs::read_to_string(root().join("LICENSE")).unwrap();
    assert_eq!(fs::read_to_string(root().join("src/packing/LICENSE")).unwrap(), licence);
    for manifest in ["Cargo.toml", "src/packing/Cargo.toml"] {
        let text = fs::read_to_string(root().join(manifest)).unwrap();
        assert!(text.contains("license.workspace = true") && !text.contains("publish = false"), "{manifest}");
        let by_path = text.lines().filter(|line| line.contains("path = \"src/"));
        assert!(by_path.clone().all(|line| line.contains("version = ")), "{manifest}: a path without a version");
    }
}

/// Runs as its own step of `scripts/check`, because it builds the program once more. The unpacked library replaces the
/// one of the registry; dependencies are those that `cargo test` has built.
#[test]
#[ignore = "takes as long as a build"]
fn what_is_packed_installs_and_runs() {
    let target = root().join("target");
    // Outside this workspace: cargo would count a folder inside it as a member.
    let folder = tempfile::tempdir().unwrap();
    let work = folder.path();
    let packed = work.join("made");
    cargo(&["package", "--workspace", "--no-verify", "--allow-dirty", "--target-dir", packed.to_str().unwrap()]);
    let unpacked = |package: &str| -> PathBuf {
        let name = format!("{package}-{}", env!("CARGO_PKG_VERSION"));
        let archive = packed.join("package").join(format!("{name}.crate"));
        let run = Command::new("tar").arg("-xzf").arg(archive).arg("-C").arg(work).status().unwrap();
        assert!(run.success() && work.join(&name).join("LICENSE").is_file());
        work.join(name)
    };
    let (program, library) = (unpacked("shirr"), unpacked("shirr-packing"));
    let patch = format!("patch.crates-io.shirr-packing.path={:?}", library.to_str().unwrap());
    // The packed lock file names the library of the registry. This updates it to the patch and keeps every other
    // version.
    let manifest = program.join("Cargo.toml");
    cargo(&["--config", &patch, "tree", "--depth", "0", "--manifest-path", manifest.to_str().unwrap()]);
    let installed = work.join("installed");
    cargo(&[
        "install",
        "--locked",
        "--debug",
        "--config",
        &patch,
        "--path",
        program.to_str().unwrap(),
        "--root",
        installed.to_str().unwrap(),
        "--target-dir",
        target.to_str().unwrap(),
    ]);
    let version = Command::new(installed.join("bin/shirr")).arg("--version").output().unwrap();
    assert!(String::from_utf8_lossy(&version.stdout).contains(env!("CARGO_PKG_VERSION")));
}
