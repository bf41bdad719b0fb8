//! What is done with each input of fuzzing. The targets hand in what the fuzzer thinks of, and
//! `tests/faults/` what it found worth keeping.

mod boat;
mod csv;
mod line;
mod pages;
mod values;

pub use boat::{HULL, boat, folder, hull, log, plan, read};
pub use csv::csv;
pub use line::line;
pub use values::{dates, lengths, places};

/// The day that is taken as today.
fn today() -> refasten::units::Day {
    "2024-11-25".parse().expect("a day")
}
