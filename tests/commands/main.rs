//! What each command answers, run as a person would run it.

mod ends;
mod pick;
mod run;
