//! Sets and entries, and from them the state of every hole on a day.

mod act;
mod book;
mod changes;
mod dates;
mod deed;
mod dependants;
mod entry;
mod fabric;
mod fit;
mod found;
mod generations;
mod history;
mod hole;
mod known;
mod lay_sets;
mod period;
mod problem;
mod replay;
mod set;
mod state;
mod wood;

pub use act::Refusal;
pub use book::{Book, Set, Unread};
pub use changes::{Changed, Stands, changes};
pub use deed::{Deed, Did, Driving, HoleChoice, NewMember, NewPlank, Sample, Stub};
pub use entry::{Entry, Strike, What};
pub use found::{Found, FoundSet};
pub use generations::{End, Generation, generations};
pub use history::{Asked, Event, history};
pub use hole::{Content, FrameHole, FrameSide, Hole, HoleState, Mouth, PlankHole, PlankSide};
pub use known::Known;
pub use period::{Done, Period, Work, done};
pub use replay::Change;
pub use set::{Fastening, FasteningId, How, Relation, SetId, SetParts};
pub use state::{State, Tally};
