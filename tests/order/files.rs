//! Every file of tests is part of a target, or it would never run.

use std::fs;
use std::path::Path;

fn entries(dir: &Path) -> Vec<std::path::PathBuf> {
    let read = fs::read_dir(dir).unwrap();
    read.map(|entry| entry.unwrap().path()).collect()
}

#[test]
fn every_test_file_belongs_to_a_target() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let manifest = fs::read_to_string(root.join("Cargo.toml")).unwrap();
    for folder in entries(&root.join("tests"))
        .iter()
        .filter(|path| path.is_dir())
    {
        let name = folder.file_name().unwrap().to_str().unwrap();
        let rust = |path: &&std::path::PathBuf| path.extension().is_some_and(|end| end == "rs");
        let files = entries(folder);
        let files: Vec<_> = files.iter().filter(rust).collect();
        if files.is_empty() {
            continue;
        }
        if name == "support" {
            files.iter().for_each(|file| is_borrowed(root, file));
            continue;
        }
        let target = format!("path = \"tests/{name}/main.rs\"");
        assert!(manifest.contains(&target), "no target runs tests/{name}");
        let main = fs::read_to_string(folder.join("main.rs")).unwrap();
        for file in files {
            let stem = file.file_stem().unwrap().to_str().unwrap();
            let named = main.lines().any(|line| line == format!("mod {stem};"));
            assert!(
                stem == "main" || named,
                "{} is in no target",
                file.display()
            );
        }
    }
    for file in entries(&root.join("tests")) {
        assert!(file.is_dir(), "{} is in no folder of tests", file.display());
    }
}

/// A file that several targets share is named with its path in the main file of one at least.
fn is_borrowed(root: &Path, file: &Path) {
    let name = file.file_name().unwrap().to_str().unwrap();
    let path = format!("#[path = \"../support/{name}\"]");
    let borrows = entries(&root.join("tests"))
        .iter()
        .filter_map(|folder| fs::read_to_string(folder.join("main.rs")).ok())
        .any(|main| main.lines().any(|line| line == path));
    assert!(borrows, "{} is in no target", file.display());
}
