//! The pages of messages, run as a test, and the table of all of them.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use crate::console;
use crate::literals::{self, Literal};
use crate::told::{self, Told};

/// What stands above the table of all messages.
const HEAD: &str = "\
# Every message

What the program says when something is wrong, with an example of each: where it points, what it
says would be right, and the file of the source that says so. The pages show the files and commands
that these come from. Made anew by `REFASTEN_BLESS=1 cargo test --test messages`.
";

/// The pages of a folder by name, but for the table of all messages.
pub fn of_folder(folder: &Path) -> Vec<PathBuf> {
    let mut pages: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|end| end == "md"))
        .filter(|path| !path.ends_with("README.md"))
        .collect();
    pages.sort();
    pages
}

/// With `REFASTEN_BLESS=1` a page is given what its commands print now, and the table is made anew.
#[test]
fn every_page_shows_what_is_said_now() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let bless = std::env::var_os("REFASTEN_BLESS").is_some_and(|bless| bless == "1");
    let folder = root.join("tests/messages");
    let literals = literals::of_the_program(root);
    let (mut differences, mut table) = (Vec::new(), HEAD.to_owned());
    for path in of_folder(&folder) {
        let name = path.file_name().unwrap().to_str().unwrap();
        let page = fs::read_to_string(&path).unwrap();
        let told = console::run(name, &page, &root.join("demo"));
        if bless && told.page != page {
            fs::write(&path, &told.page).unwrap();
        } else {
            differences.extend(told.differences);
        }
        rows(&mut table, name, &told.page, &literals);
    }
    let index = folder.join("README.md");
    if bless {
        fs::write(&index, &table).unwrap();
    }
    let many = differences.len();
    assert!(many == 0, "{many} differ:\n{}", differences.join("\n"));
    let was = fs::read_to_string(&index).unwrap();
    let new = table
        .lines()
        .find(|line| !was.lines().any(|was| was == *line));
    assert!(
        was == table,
        "the table of messages is old, beginning with {new:?}"
    );
}

/// The messages of a page, each once.
fn rows(table: &mut String, name: &str, page: &str, literals: &[Literal]) {
    let title = page.lines().next().unwrap_or_default();
    let title = title.trim_start_matches('#').trim();
    let head = "| message | position | what would be right | made in |\n|---|---|---|---|";
    writeln!(table, "\n## [{title}]({name})\n\n{head}").unwrap();
    let mut seen: Vec<Told> = Vec::new();
    for told in told::of_page(page).0 {
        let again = |seen: &Told| seen.says == told.says && seen.help == told.help;
        if seen.iter().any(again) {
            continue;
        }
        let [says, help, at] = [
            told.says.as_str(),
            told.help.as_deref().unwrap_or_default(),
            told.at.as_deref().unwrap_or("in no file"),
        ]
        .map(cell);
        writeln!(
            table,
            "| {says} | {at} | {help} | {} |",
            made_in(&told, literals)
        )
        .unwrap();
        seen.push(told);
    }
}

/// The file of the literal that says the most of it; of several the one that helps the most.
fn made_in(told: &Told, literals: &[Literal]) -> String {
    let help = told.help.as_deref().unwrap_or_default();
    let helps = |file: &str| {
        let own = literals.iter().filter(|literal| literal.file == file);
        let own = own.filter(|literal| literal.is_in(help));
        own.map(Literal::words).max()
    };
    let says = literals.iter().filter(|literal| literal.is_in(&told.says));
    let most = says.max_by_key(|says| (says.words(), says.in_fault, helps(&says.file)));
    most.map_or("the reader of the command line".to_owned(), |literal| {
        format!("`{}`", literal.file)
    })
}

/// A text as it may stand in a cell of a table.
fn cell(text: &str) -> String {
    let text = text.replace('|', "\\|");
    text.replace('<', "&lt;")
}
