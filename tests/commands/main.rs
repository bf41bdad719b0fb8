//! What each command answers, run as a person would run it.

// A test may stop at once, and means its numbers exactly.
#![allow(clippy::pedantic, clippy::restriction)]

#[path = "../support/console.rs"]
mod console;

mod audit;
mod buy;
mod check;
mod demo;
mod drawing;
mod ends;
mod explain;
mod help;
mod log;
mod map;
mod pages;
mod pick;
mod pictures;
mod plan;
mod report;
mod run;
mod sample;
mod show;
mod spreadsheets;
mod time;
mod todo;
