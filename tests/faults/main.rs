//! Bad files and failing disks: never a panic, never a lost or half-written entry.

mod boat;
mod full;
mod hostile;
mod killed;
mod logging;
mod odd;
mod plans;
mod sheets;
mod waiting;
mod writing;
