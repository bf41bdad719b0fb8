//! Spreadsheets: the log as a table, and tables that become entries of it.
//!
//! A sheet is read in steps, so that every fault of it is told in one run: [`Sheet::load`] makes
//! text of its bytes, the grid cuts that into cells that know where they stand, the headings say
//! which column is which key of the log, each cell is made into the value its key would have in
//! the log, and [`import`] reads each row as if it were a line of the log and fits all of them
//! into the story.

mod called;
mod dates;
mod entries;
mod grid;
mod headings;
mod import;
mod known;
mod made_from;
mod numbers;
mod rows;
mod spoiled;
mod tell;
mod text;
mod values;

pub use dates::DateOrder;
pub use entries::{ENTRIES, entries};
pub use headings::Column;
pub use import::{Asked, Imported, import};
pub use text::Sheet;
