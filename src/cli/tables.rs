//! `refasten tables`: the reference tables, every figure with its source.

use clap::Args;

use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
use crate::show::tables as show;
use crate::tables::Table;

/// Show the reference tables, every figure with its source
#[derive(Debug, Args)]
#[command(after_help = "refasten tables limits")]
pub(super) struct Tables {
    /// Name of a table; else all are listed
    #[arg(value_name = "NAME")]
    name: Option<String>,
}

impl Tables {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let mut reading = Reading::default();
        let table = reading.with("NAME", self.name.as_ref(), Table::find);
        reading.done(Some(())).map_err(Stopped::Wrong)?;
        match (table, desk.globals.format) {
            (None, Format::Text) => show::list(desk.out, desk.layout)?,
            (None, Format::Json) => show::list_json(desk.out)?,
            (Some(table), Format::Text) => show::table(desk.out, table, desk.layout)?,
            (Some(table), Format::Json) => show::table_json(desk.out, table)?,
        }
        Ok(Ended::Done)
    }
}
