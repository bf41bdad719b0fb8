//! Bad files and failing disks: never a panic, never a lost or half-written entry.

mod hostile;
mod logging;
mod plans;
mod sheets;
mod writing;
