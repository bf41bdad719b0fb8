//! What each command answers, run as a person would run it.

mod pick;
mod run;
