//! The floors of the house: each uses only those above it, and every rule has its page.

use std::fs;
use std::path::{Path, PathBuf};

use refasten::audit::Rule;

/// The floors, from the top down, as `src/lib.rs` lists them.
fn floors() -> Vec<String> {
    let lib = fs::read_to_string(root().join("src/lib.rs")).unwrap();
    lib.lines()
        .filter_map(|line| {
            line.strip_prefix("pub mod ")?
                .strip_suffix(';')
                .map(str::to_owned)
        })
        .collect()
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every Rust file below a folder.
fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(rust_files(&path));
        } else if path.extension().is_some_and(|ext| ext == "rs") {
            files.push(path);
        }
    }
    files
}

/// The floors that a text names as `crate::FLOOR`, comments left out.
fn named(text: &str) -> Vec<&str> {
    let code = text
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    code.flat_map(|line| line.split("crate::").skip(1))
        .map(|rest| {
            rest.split(|c: char| !c.is_alphanumeric() && c != '_')
                .next()
                .unwrap_or_default()
        })
        .collect()
}

#[test]
fn no_floor_looks_downward() {
    let floors = floors();
    assert!(
        floors.len() >= 10,
        "the floors of src/lib.rs were not read: {floors:?}"
    );
    let mut downward = Vec::new();
    for (at, floor) in floors.iter().enumerate() {
        for file in rust_files(&root().join("src").join(floor)) {
            let text = fs::read_to_string(&file).unwrap();
            for name in named(&text) {
                if floors
                    .iter()
                    .position(|f| f == name)
                    .is_some_and(|below| below > at)
                {
                    downward.push(format!("{}: {floor} uses {name}", file.display()));
                }
            }
        }
    }
    assert!(downward.is_empty(), "{}", downward.join("\n"));
}

#[test]
fn the_reader_of_floors_sees_a_look_downward() {
    assert_eq!(
        named("use crate::cli::run;\n// crate::show\nlet x = crate::units::Length::ZERO;"),
        ["cli", "units"]
    );
}

#[test]
fn serde_yaml_is_used_behind_the_files_floor_only() {
    let inside = root().join("src/files");
    for file in rust_files(&root().join("src")) {
        let text = fs::read_to_string(&file).unwrap();
        let code = text
            .lines()
            .filter(|line| !line.trim_start().starts_with("//"));
        let uses = code.into_iter().any(|line| line.contains("serde_yaml"));
        assert!(
            !uses || file.starts_with(&inside),
            "{} uses serde_yaml",
            file.display()
        );
    }
}

#[test]
fn the_library_knows_no_clock_and_no_terminal() {
    for file in rust_files(&root().join("src")) {
        if file.starts_with(root().join("src/cli")) || file.ends_with("src/main.rs") {
            continue;
        }
        let text = fs::read_to_string(&file).unwrap();
        for word in [
            "::now(",
            "stdout(",
            "stderr(",
            "println!",
            "IsTerminal",
            "env::var",
        ] {
            assert!(!text.contains(word), "{} uses {word}", file.display());
        }
    }
}

#[test]
fn every_rule_has_a_page_with_all_its_headings_and_something_to_rest_on() {
    for rule in Rule::all() {
        let page = rule.page();
        assert!(
            page.starts_with(&format!("# {}\n", rule.name)),
            "{}: the page begins with another name",
            rule.name
        );
        for heading in [
            "**Looks for**",
            "**Why.**",
            "**Limits.**",
            "**Severity.**",
            "**Sources.**",
            "**What to do.**",
        ] {
            assert!(
                page.contains(heading),
                "{}: the page has no {heading}",
                rule.name
            );
        }
        assert!(!rule.sources.is_empty(), "{} rests on nothing", rule.name);
    }
    let mut names: Vec<&str> = Rule::all().iter().map(|rule| rule.name).collect();
    let all = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all, "two rules share a name");
}

#[test]
fn every_rule_file_is_listed() {
    let folder = root().join("src/audit/rules");
    for file in rust_files(&folder) {
        let name = file
            .file_stem()
            .unwrap()
            .to_str()
            .unwrap()
            .replace('_', "-");
        let known = Rule::all().iter().any(|rule| rule.name == name);
        let text = fs::read_to_string(&file).unwrap();
        assert!(
            known || !text.contains("Rule {\n    name:"),
            "{} is not listed in mod.rs",
            file.display()
        );
    }
}
