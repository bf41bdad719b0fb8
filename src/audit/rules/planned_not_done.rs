//! # planned-not-done
//!
//! **Looks for** what stands in `plan.yaml` and was not driven: no entry of the log carries it out,
//! and it was not given up.
//!
//! **Why.** A plan is made in a warm room, and a boat is launched in a hurry. What was meant and not
//! done is either still to do or no longer meant, and only its owner knows which.
//!
//! **Limits.** None. A line of the plan is done at a crossing when as many were driven there under
//! its name as it says. A later line for the same crossing takes the place of one that waits,
//! unless it `adds to` that plan.
//!
//! **Severity.** Watch. `audit --planned` judges her as if all of it were done, and then says
//! nothing of it here.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Drive it and log it with `log driven … --plan NAME`. What is no longer meant is
//! given up with `refasten drop NAME`, which adds a line to `plan.yaml`.

use crate::audit::{Counted, Hits, Rule, Saying, Severity, Survey};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "planned-not-done",
    file: include_str!("planned_not_done.rs"),
    limits: &[],
    sources: &[Basis::practice("what is meant is done or given up")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    if survey.planned().is_some() {
        return;
    }
    for stage in survey.book.plan_progress(Some(survey.day)) {
        let (left, Some(line)) = (stage.left(), survey.book.plan_line(stage.line)) else {
            continue;
        };
        if left == 0 {
            continue;
        }
        let says = format!("`{}` of {} is planned and not driven", line.plan, line.date);
        let remedy = "drive it and log it with --plan, or give it up with `refasten drop`";
        let saying = Saying::new(Severity::Watch, says, remedy).counting(Counted::Wanted);
        hits.at(stage.spot.crossing, usize::from(left), saying);
    }
}
