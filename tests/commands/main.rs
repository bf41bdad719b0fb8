//! What each command answers, run as a person would run it.

#[path = "../support/console.rs"]
mod console;

mod ends;
mod pages;
mod pick;
mod run;
