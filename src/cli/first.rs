//! `refasten` alone: what to do first.

use super::{Desk, Ended, Format, Stopped};
use crate::show::first::{self, Aboard};
use crate::text::Fault;

/// Says which boat is here, how she stands and what to ask next; or how to begin where there is
/// none.
///
/// # Errors
/// When JSON is asked for, which answers questions; when the boat's files are wrong.
pub(super) fn run(desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
    if desk.globals.format == Format::Json {
        let fault = Fault::new(None, "--format: there is no command whose answer to print");
        return Err(fault.help("name one; `refasten --help` lists them").into());
    }
    if desk.globals.boat.is_none() && desk.globals.folder_path().is_err() {
        first::elsewhere(desk.out, desk.layout)?;
        return Ok(Ended::Done);
    }
    let (boat, day) = desk.globals.read_boat()?;
    let aboard = Aboard {
        hull: &boat.hull,
        book: &boat.book,
        state: &boat.book.state(&boat.hull, None),
        day,
    };
    first::aboard(desk.out, desk.layout, &aboard)?;
    Ok(Ended::Done)
}
