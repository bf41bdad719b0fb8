//! Every sentence that a fault may say is shown on a page.

use std::fs;
use std::path::Path;

use crate::literals::{self, Literal};
use crate::{pages, told};

/// What no file or command of a page makes the program say: the file it is in, how it begins, why.
const NOT_SHOWN: &[(&str, &str, &str)] = &[
    // The machine, shown by tests/faults/.
    (
        "src/cli/answer.rs",
        "the answer could not be printed",
        "it takes a full disk",
    ),
    (
        "src/cli/boats.rs",
        "--boats: … cannot be read",
        "it takes a disk that fails",
    ),
    (
        "src/cli/check.rs",
        "what was mended is in its place",
        "stands before such a fault",
    ),
    (
        "src/cli/folder.rs",
        "the folder that refasten was started in",
        "it takes a folder that is gone",
    ),
    (
        "src/cli/folder.rs",
        "waiting: … is writing",
        "it takes two programs at once",
    ),
    ("src/cli/new.rs", "… is begun", "stands before such a fault"),
    (
        "src/cli/pick.rs",
        "what was picked is in the plan",
        "stands before such a fault",
    ),
    (
        "src/files/append.rs",
        "its last line is torn",
        "it takes a second writer that dies",
    ),
    (
        "src/files/append.rs",
        "another program changed it",
        "it takes two programs at once",
    ),
    (
        "src/files/append.rs",
        "it could not be written",
        "it takes a full disk",
    ),
    (
        "src/files/append.rs",
        "it may hold what was to be written",
        "it takes a disk that fails",
    ),
    (
        "src/files/append.rs",
        "an entry holds a line end",
        "the writer never makes such a line",
    ),
    (
        "src/files/append.rs",
        "another program took it away",
        "it takes two programs at once",
    ),
    (
        "src/files/lock.rs",
        "another program (process …)",
        "it takes two programs at once",
    ),
    (
        "src/files/lock.rs",
        "… cannot be locked: …",
        "it takes a disk that cannot lock",
    ),
    (
        "src/files/lock.rs",
        "… has not let go of",
        "it takes a program that hangs",
    ),
    (
        "src/files/lock.rs",
        "nothing can be written in",
        "it takes a folder that may only be read",
    ),
    (
        "src/files/mending.rs",
        "… is mended, but …",
        "it takes a folder that may only be read",
    ),
    (
        "src/files/replace.rs",
        "… is written, but whether",
        "it takes a disk that fails",
    ),
    (
        "src/files/replace.rs",
        "it may only be read",
        "it takes a file that may only be read",
    ),
    (
        "src/files/replace.rs",
        "it is a link to …",
        "it takes a link",
    ),
    (
        "src/cli/drop.rs",
        "what was left of",
        "stands before such a fault",
    ),
    (
        "src/files/mending.rs",
        "…: another program changed it",
        "it takes two programs at once",
    ),
    (
        "src/files/starter.rs",
        "… cannot be made",
        "it takes a folder that may only be read",
    ),
    (
        "src/files/photo.rs",
        "… leads out of the boat's folder",
        "it takes a link",
    ),
    (
        "src/files/photo.rs",
        "put the picture itself there",
        "the same",
    ),
    (
        "src/cli/globals.rs",
        "the clock of this machine",
        "it takes a clock in the year 999",
    ),
    (
        "src/cli/globals.rs",
        "give the day with --today",
        "the same",
    ),
    (
        "src/cli/log.rs",
        "--from: there is more than",
        "it takes 64 MiB on standard input",
    ),
    // What takes more than a page should show.
    (
        "src/files/split.rs",
        ", and the file is not read further",
        "it takes a hundred faults",
    ),
    (
        "src/record/replay.rs",
        "she would have more than",
        "it takes twenty million holes",
    ),
    (
        "src/cli/refused.rs",
        "`…` is not text in UTF-8",
        "a page holds nothing else",
    ),
    // What nothing leads to, and the compiler asks for.
    (
        "src/files/record.rs",
        "there is no record here",
        "the outline of the record has one",
    ),
    (
        "src/files/record.rs",
        "its keys cannot be told apart",
        "both readers see the same shape",
    ),
    (
        "src/hull/place_words.rs",
        "no member is named",
        "an empty value is told before it is read",
    ),
    (
        "src/pick/ground.rs",
        "no crossing is named",
        "a place that is there names one",
    ),
    (
        "src/cli/refused.rs",
        "`…` is a word too many",
        "the first word is taken for a command",
    ),
    (
        "src/cli/refused.rs",
        "…: `…` cannot be read",
        "every value is read by a reader of ours",
    ),
    // What is no message.
    ("src/cli/man.rs", "Print the help", "tells of an option"),
    (
        "src/cli/new.rs",
        "strakes are counted from the keel",
        "is asked on a terminal",
    ),
    (
        "src/cli/pick.rs",
        "plank, member and old holes",
        "is part of an answer",
    ),
    (
        "src/cli/drawing.rs",
        "Drawing: …, in place of",
        "is part of an answer",
    ),
    (
        "src/files/photo.rs",
        "it is larger than 2 MiB",
        "stands in the report itself",
    ),
    (
        "src/files/sheet/called.rs",
        "where the stub is",
        "is a heading that is known",
    ),
    (
        "src/files/unreadable.rs",
        "did not find expected",
        "is what the reader of YAML says",
    ),
    (
        "src/files/unreadable.rs",
        "mapping values are not",
        "is what the reader of YAML says",
    ),
    (
        "src/files/unreadable.rs",
        "could not find expected",
        "is what the reader of YAML says",
    ),
    (
        "src/files/unreadable.rs",
        "found unknown escape",
        "is what the reader of YAML says",
    ),
    (
        "src/record/hole.rs",
        "a state of the",
        "such a word is only printed",
    ),
    (
        "src/text/draw.rs",
        "at: …, line …",
        "stands between the two lines of a fault",
    ),
];

/// What is said on the pages of messages, and on any other page whose commands are run.
struct Said {
    faults: Vec<String>,
    answers: String,
}

impl Said {
    fn on_all_pages(root: &Path) -> Self {
        let mut said = Self {
            faults: Vec::new(),
            answers: String::new(),
        };
        for path in pages::of_folder(&root.join("tests/messages")) {
            let (faults, answers) = told::of_page(&fs::read_to_string(path).unwrap());
            for told in faults {
                said.faults.push(told.says);
                said.faults.extend(told.help);
            }
            said.answers.push_str(&answers);
        }
        for folder in ["", "demo", "tests/commands"] {
            for path in pages::of_folder(&root.join(folder)) {
                let page = fs::read_to_string(path).unwrap();
                said.answers.push_str(&told::of_page(&page).1);
            }
        }
        said
    }

    /// What is handed to a fault is shown in one; of the rest an answer will do.
    fn shows(&self, literal: &Literal) -> bool {
        let in_fault = self.faults.iter().any(|said| literal.is_in(said));
        in_fault || !literal.in_fault && literal.is_in(&self.answers)
    }
}

#[test]
fn every_message_is_on_a_page() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let said = Said::on_all_pages(root);
    let mut missing: Vec<Literal> = literals::of_the_program(root);
    missing.retain(|literal| !said.shows(literal));
    let mut needless = Vec::new();
    for (file, begins, why) in NOT_SHOWN {
        let before = missing.len();
        missing.retain(|m| m.file != *file || !m.shown().starts_with(begins));
        if missing.len() == before {
            needless.push(format!("{file}: {begins}… ({why})"));
        }
    }
    let list = |literal: &Literal| {
        let (file, line) = (&literal.file, literal.line);
        let sure = if literal.in_fault { "*" } else { " " };
        format!("{sure} {file}:{line}: {}", literal.shown())
    };
    let missing: Vec<String> = missing.iter().map(list).collect();
    assert!(
        missing.is_empty(),
        "{} on no page of tests/messages:\n{}",
        missing.len(),
        missing.join("\n")
    );
    assert!(
        needless.is_empty(),
        "these are shown, or gone:\n{}",
        needless.join("\n")
    );
}
