//! `refasten check`: is everything in the boat's folder as it should be?

use clap::Args;

use super::{Desk, Ended, Stopped};

/// Reads the boat's files and tells everything that is wrong with them.
#[derive(Debug, Args)]
pub struct Check {}

impl Check {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let (boat, _) = desk.globals.read_boat()?;
        let (hull, book) = (&boat.hull, &boat.book);
        writeln!(
            desk.out,
            "{}: no faults; {} strakes, {} crossings, {} sets, {} entries",
            crate::text::Clean(&hull.boat),
            hull.strakes().len(),
            hull.crossing_count(),
            book.sets().len(),
            book.entries().len()
        )?;
        Ok(Ended::Done)
    }
}
