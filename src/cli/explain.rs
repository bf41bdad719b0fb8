//! `explain`: what a rule looks for, and why.

use clap::Args;

use super::{Desk, Ended, Format, Stopped};
use crate::audit::Rule;
use crate::show::explain;
use crate::text::Fault;

/// Explain a rule of the audit: what, why, and what to do
#[derive(Debug, Args)]
#[command(after_help = "refasten explain driven-in-bad-hole")]
pub(super) struct Explain {
    /// Name of the rule, as the audit prints it; else all are listed
    rule: Option<String>,
}

impl Explain {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let units = desk.globals.units().unwrap_or_default();
        let rule = match &self.rule {
            None => None,
            Some(name) => {
                let found = Rule::find(name);
                Some(found.map_err(|misread| Fault::misread(None, Vec::new(), misread))?)
            }
        };
        match (rule, desk.globals.format) {
            (None, Format::Text) => explain::list(desk.out, desk.layout, Rule::all())?,
            (None, Format::Json) => explain::json(desk.out, Rule::all())?,
            (Some(rule), Format::Text) => explain::text(desk.out, desk.layout, units, rule)?,
            (Some(rule), Format::Json) => explain::json(desk.out, &[rule])?,
        }
        Ok(Ended::Done)
    }
}
