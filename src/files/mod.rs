//! Reading and writing the files of a boat folder, safely.
//!
//! A file is read in four steps, so that every fault of it is told in one run and one bad record
//! hides no other: [`load`] and [`decode`] make text of its bytes, [`split_log`] or [`split_hull`] cuts the
//! text into [`Piece`]s, a guard refuses what a record may not hold, and [`read`] reads each
//! piece alone into a struct declared by [`record!`](crate::record). A [`Reader`] then makes
//! values of its texts:
//!
//! ```
//! use refasten::files::{Given, OneOrMany, Reader, Text, read, split_log};
//! use refasten::units::Length;
//!
//! refasten::record! {
//!     /// The block of a butt.
//!     pub struct RawBlock {
//!         /// How thick it is.
//!         thickness: Text = "thickness",
//!     }
//! }
//! refasten::record! {
//!     /// One entry, as written.
//!     pub struct RawEntry {
//!         /// What was done.
//!         did: Text = "did",
//!         /// Where.
//!         place: Text = "place",
//!         /// How many in a crossing.
//!         per_crossing: Text = "per crossing",
//!         /// The sets it replaces.
//!         replaces: OneOrMany = "replaces",
//!         /// The block behind it.
//!         block: RawBlock = "block",
//!     }
//! }
//!
//! let text = "- {did: pulled, plaice: S4 F14, block: {thickness: 1}}\n";
//! let mut faults = Vec::new();
//! let pieces = split_log(text, &mut faults);
//! let Given::Is(raw) = read::<RawEntry>(&pieces[0], &mut faults) else { panic!() };
//! let mut fields = Reader::new(pieces[0].origin, &mut faults);
//! let did: Option<String> = fields.need_text("did", &raw.did);
//! let place: Option<String> = fields.need_text("place", &raw.place);
//! if let Given::Is(block) = &raw.block {
//!     let thickness: Option<Length> = fields.inside("block").need("thickness", &block.thickness);
//!     assert_eq!(thickness, None);
//! }
//! assert_eq!((did.as_deref(), place), (Some("pulled"), None));
//! let says: Vec<_> = faults.iter().map(|fault| fault.says.as_str()).collect();
//! assert_eq!(says[0], "`plaice` is not a key that is known here");
//! assert_eq!(says[1], "`place` is missing");
//! assert_eq!(says.len(), 3);
//! ```

mod adding;
mod append;
mod decode;
mod folder;
mod given;
mod guard;
mod hull;
mod lock;
mod log;
mod log_line;
mod log_values;
mod mended;
mod mending;
mod merged;
mod one_line;
mod photo;
mod plan;
mod planning;
mod reader;
mod record;
mod repair;
mod replace;
mod seen;
#[cfg(test)]
mod shapes;
pub mod sheet;
mod slips;
mod split;
mod starter;
mod unreadable;
mod wood;

pub use adding::NewEntries;
pub use append::{AppendError, Appending, LOG_HEADER, NotAdded, append, append_to};
pub use decode::{Decoded, LARGEST, decode, load};
pub use folder::{Boat, Folder, HULL_FILE, LOG_FILE, PLAN_FILE};
pub use given::{Given, OneOrMany, Text};
pub use lock::{FolderLock, Holder, LOCK_FILE};
pub use log::RawEntry;
pub use log_line::line;
pub use mended::{Mended, mend};
pub use mending::{MendedFile, Mending};
pub use merged::{Known, Merged, unmerge};
pub use one_line::of_line;
pub use plan::{PLAN_HEADER, RawPlan, written_plan};
pub use reader::Reader;
pub use record::{Here, Keys, Slot, read};
pub use repair::{Torn, torn};
pub use replace::replace;
pub use seen::Seen;
use split::split_lines;
pub use split::{Body, Part, Piece, Wrap, split_hull, split_log, split_plan};
pub use starter::{NewFile, NotBegun, begin, demo, starter};
