//! What fuzzing thought of: every input that was kept, through the same functions, so that none of
//! it breaks anything again.

use std::fs;
use std::path::Path;

use super::fuzz;

fn replay(target: &str, body: fn(&[u8])) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus");
    let mut inputs: Vec<_> = fs::read_dir(folder.join(target))
        .unwrap()
        .map(|file| file.unwrap().path())
        .collect();
    inputs.sort();
    assert!(inputs.len() >= 10, "{target}");
    for input in inputs {
        let bytes = fs::read(&input).unwrap();
        // Told where the test fails.
        println!("{}", input.display());
        body(&bytes);
    }
}

#[test]
fn lengths_areas_sizes_and_cells() {
    replay("lengths", fuzz::lengths);
}

#[test]
fn dates_and_seasons() {
    replay("dates", fuzz::dates);
}

#[test]
fn places_written_and_folded() {
    replay("places", fuzz::places);
}

#[test]
fn lines_read_quickly_and_slowly() {
    replay("line", fuzz::line);
}

#[test]
fn files_of_hulls() {
    replay("hull", fuzz::hull);
}

#[test]
fn logs_written_again() {
    replay("log", fuzz::log);
}

#[test]
fn spreadsheets_there_and_back() {
    replay("csv", fuzz::csv);
}

#[test]
fn boats_judged_and_printed() {
    replay("boat", fuzz::boat);
}
