//! From the YAML of the tables to Rust source: read, check, write.
//!
//! The tests of the repository's order use this module too, to see that a table which breaks a
//! law is refused with its file and line.

mod emit;
mod laws;
mod read;
mod typed;
mod value;
mod written;

use std::fmt;

/// The table files, without `.yaml`, in the order in which their tables are listed.
pub const FILES: [&str; 15] = [
    "sources",
    "screws",
    "nails",
    "rivets",
    "bolts",
    "drills",
    "bungs",
    "lead-holes",
    "spacing",
    "plank-rules",
    "butts",
    "woods",
    "metals",
    "strengths",
    "limits",
];

/// Something wrong in a table file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    file: String,
    line: usize,
    says: String,
}

impl Fault {
    fn new(file: &str, line: usize, says: impl Into<String>) -> Self {
        let (file, says) = (file.to_owned(), says.into());
        Self { file, line, says }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "tables/{}.yaml:{}: {}", self.file, self.line, self.says)
    }
}

/// Reads all tables (file name without `.yaml`, text) and gives the Rust files made of them, or
/// every fault found.
pub fn run(files: &[(&str, &str)]) -> Result<Vec<(String, String)>, Vec<Fault>> {
    let mut faults = Vec::new();
    let mut tables = Vec::new();
    for (name, text) in files {
        tables.extend(read::file(name, text, &mut faults));
    }
    laws::check(&tables, &mut faults);
    if !faults.is_empty() {
        faults.sort();
        return Err(faults);
    }
    let mut bases = emit::Bases::new(&tables);
    let mut made = typed::all(&tables, &mut bases).map_err(|fault| vec![fault])?;
    made.push(("tables.rs".to_owned(), emit::tables(&tables, &mut bases)));
    made.push(("bases.rs".to_owned(), bases.source()));
    Ok(made)
}
