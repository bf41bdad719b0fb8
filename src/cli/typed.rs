//! Options as they were typed, turned into values; every slip is kept, not only the first.

use std::str::FromStr;

use crate::text::{Fault, Misread};

/// Reads options one after another and remembers what was wrong with each.
#[derive(Debug, Default)]
pub(super) struct Reading {
    faults: Vec<Fault>,
}

impl Reading {
    /// The value of an option, if it was given and can be read.
    pub(super) fn option<T>(&mut self, name: &str, typed: Option<&String>) -> Option<T>
    where
        T: FromStr<Err = Misread>,
    {
        self.with(name, typed, str::parse)
    }

    /// The value of an option read by `read`, if it was given and can be read.
    pub(super) fn with<T>(
        &mut self,
        name: &str,
        typed: Option<&String>,
        read: impl FnOnce(&str) -> Result<T, Misread>,
    ) -> Option<T> {
        read(typed?)
            .map_err(|misread| self.slip(name, misread))
            .ok()
    }

    /// Remembers that the option of this name is wrong.
    pub(super) fn slip(&mut self, name: &str, misread: Misread) {
        self.faults.push(fault(name, misread));
    }

    /// Everything that was wrong.
    pub(super) fn faults(self) -> Vec<Fault> {
        self.faults
    }

    /// The value, if nothing was wrong; else everything that was.
    pub(super) fn done<T>(self, value: Option<T>) -> Result<T, Vec<Fault>> {
        match value {
            Some(value) if self.faults.is_empty() => Ok(value),
            _ => Err(self.faults),
        }
    }
}

/// The fault of an option whose value could not be read.
pub(super) fn fault(name: &str, misread: Misread) -> Fault {
    let fault = Fault::new(None, format!("{name}: {}", misread.says));
    Fault {
        help: misread.help,
        ..fault
    }
}
