//! Every console block of the project's pages, run as a test.

use std::fs;
use std::path::{Path, PathBuf};

use crate::console;

/// Folders whose Markdown pages are run.
const FOLDERS: [&str; 3] = ["", "demo", "tests/commands"];

fn pages(root: &Path) -> Vec<PathBuf> {
    let mut pages: Vec<PathBuf> = FOLDERS
        .iter()
        .flat_map(|folder| fs::read_dir(root.join(folder)).unwrap())
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|end| end == "md"))
        .collect();
    pages.sort();
    pages
}

/// With `REFASTEN_BLESS=1` a page is given what its commands print now, for a person to read over.
#[test]
fn every_console_block_prints_what_its_page_says() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let bless = std::env::var_os("REFASTEN_BLESS").is_some_and(|bless| bless == "1");
    let mut differences = Vec::new();
    for path in pages(root) {
        let name = path.strip_prefix(root).unwrap().display().to_string();
        let page = fs::read_to_string(&path).unwrap();
        let told = console::run(&name, &page, &root.join("demo"));
        if bless && told.page != page {
            fs::write(&path, &told.page).unwrap();
        } else {
            differences.extend(told.differences);
        }
    }
    let many = differences.len();
    assert!(
        differences.is_empty(),
        "{many} differ:\n{}",
        differences.join("\n")
    );
}
