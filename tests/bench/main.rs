//! How fast boats of any size are read and judged, beside a yardstick timed in the same run.
//!
//! ```text
//! cargo bench                            # the table of DEVELOPERS.md
//! cargo bench -- 1000000                 # one size only
//! cargo bench -- write DIR 1000000       # write such a boat into DIR
//! ```

// A test may stop at once, and means its numbers exactly.
#![allow(clippy::pedantic, clippy::restriction)]

mod dice;
mod jobs;
mod ship;
mod stages;
mod yardstick;

use std::path::Path;

use ship::Ship;

/// Fastenings of the boats that are timed. A tenth of that are the entries of their logs.
const SIZES: [usize; 3] = [10_000, 100_000, 1_000_000];
const SEED: u64 = 1931;

fn main() -> std::io::Result<()> {
    // Cargo adds an option of its own.
    let words: Vec<String> = std::env::args()
        .skip(1)
        .filter(|word| word != "--bench")
        .collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["write", folder, fastenings] => write(Path::new(folder), number(fastenings)),
        [] => stages::table(&SIZES),
        sizes => stages::table(&sizes.iter().map(|size| number(size)).collect::<Vec<_>>()),
    }
}

fn number(word: &str) -> usize {
    word.parse()
        .unwrap_or_else(|_| panic!("`{word}` is not a number of fastenings"))
}

/// Writes a boat of so many fastenings, with a tenth of that in entries, into a folder.
fn write(folder: &Path, fastenings: usize) -> std::io::Result<()> {
    std::fs::create_dir_all(folder)?;
    let ship = Ship::of(fastenings, SEED);
    std::fs::write(folder.join("hull.yaml"), ship.hull())?;
    std::fs::write(
        folder.join("log.yaml"),
        jobs::log(&ship, fastenings / 10, SEED),
    )
}
