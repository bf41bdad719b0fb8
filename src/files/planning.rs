//! A line that is to be added to a boat's plan.

use super::plan::{self, RawPlan};
use super::{Boat, Folder, Reader};
use crate::record::PlanLine;
use crate::text::{Fault, FileId, Origin};
use crate::units::Day;

impl Folder {
    /// The boat as she would be with a line added to the plan, and the line.
    ///
    /// # Errors
    /// Every fault of the files and of the new line; those of the line have [`FileId::Typed`] for
    /// their file.
    pub fn boat_with_plan(
        &self,
        typed: &RawPlan,
        today: Day,
    ) -> Result<(Boat, PlanLine), Vec<Fault>> {
        let origin = Origin {
            file: FileId::Typed,
            byte: 0,
            line: 1,
        };
        let mut added = None;
        let (boat, faults) = self.read_and_plan(
            today,
            |_, _, _| {},
            |file, lines, faults| {
                let gauges = file.hull.gauges;
                let line = plan::plan_line(typed, &mut Reader::new(origin, faults), gauges);
                if let Some(line) = &line {
                    plan::read_back(line, gauges, file.hull.units, origin, faults);
                    lines.push(line.clone());
                }
                added = line;
            },
        );
        match added {
            Some(line) if faults.is_empty() => Ok((boat, line)),
            _ => Err(faults),
        }
    }
}
