//! Printing: one question and one format a file, all to `&mut dyn Write`.
//!
//! A printer knows how wide the page is and in which units to print, and nothing else of the
//! world.

pub mod audit;
pub mod buy;
mod cautions;
mod changed;
pub mod check;
pub mod csv;
pub mod dropped;
pub mod explain;
pub mod export;
mod figures;
pub mod first;
pub mod generations;
pub mod help;
pub mod history;
mod html;
pub mod imported;
pub mod inventory;
mod known;
pub mod last;
mod layout;
pub mod logged;
mod made;
pub mod map;
pub mod marks;
mod numbers;
mod page;
pub mod pick;
mod places;
mod plans;
pub mod report;
pub mod sample;
pub mod season;
pub mod section;
pub mod sheet;
pub mod since;
mod svg;
pub mod tables;
pub mod todo;
mod work;

pub use cautions::{AID, WORK};
pub use layout::Layout;
