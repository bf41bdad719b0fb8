//! The verdict of an audit, and what it rests on.

use std::io;

use super::text::Sheet;
use super::thin;
use crate::audit::{Severity, Verdict};
use crate::hull::{CrossingId, Spot, fold};
use crate::joint::Zone;
use crate::show::known;
use crate::show::layout::Tint;
use crate::show::numbers::{counted, grouped};

impl Sheet<'_, '_> {
    /// The verdict and what it rests on.
    pub(super) fn head(&mut self) -> io::Result<()> {
        self.verdict()?;
        known::text(&mut self.page, self.audit.survey.book)?;
        self.as_planned()?;
        self.looked_at()?;
        self.asked_about()?;
        self.waterline()?;
        self.uncertain_sets()
    }

    fn verdict(&mut self) -> io::Result<()> {
        let (survey, outcome) = (self.audit.survey, self.audit.outcome);
        let tint = match outcome.verdict {
            Verdict::StopsOpen => Tint::Stop,
            Verdict::TooThin => Tint::Mend,
            Verdict::NoStops => Tint::Bold,
        };
        let headline = format!(
            "{}{} on {}: {}",
            survey.hull.boat,
            if survey.planned().is_some() {
                " as planned"
            } else {
                ""
            },
            survey.day,
            outcome.verdict.words()
        );
        self.page.headline(tint, &headline)?;
        let accepted_a_stop = outcome
            .findings
            .iter()
            .any(|finding| finding.accepted.is_some() && finding.saying.severity == Severity::Stop);
        let but = if accepted_a_stop {
            " but what somebody has accepted"
        } else {
            ""
        };
        let of_what = match (self.audit.is_of_all(), survey.planned().is_some()) {
            (true, false) => "The record shows",
            (true, true) => "The record with the plan carried out shows",
            (false, false) => "Of what was asked, the record shows",
            (false, true) => "Of what was asked, the record with the plan carried out shows",
        };
        self.page.line(&match outcome.verdict {
            Verdict::StopsOpen => {
                "What is under `Not before relaunch` must be put right first.".to_owned()
            }
            Verdict::NoStops => format!(
                "{of_what} nothing that must be put right first{but}. It does not say that she is sound."
            ),
            Verdict::TooThin => {
                "Too little is recorded to say whether anything must be put right first.".to_owned()
            }
        })?;
        for why in &outcome.thin {
            let (says, place) = thin(why);
            let at = place.map_or_else(String::new, |place| format!(" at {}", self.place(place)));
            self.page.item(&format!("Too thin{at}: {says}"))?;
        }
        Ok(())
    }

    /// What is taken as done that is not.
    fn as_planned(&mut self) -> io::Result<()> {
        let survey = self.audit.survey;
        let Some(planned) = survey.planned() else {
            return Ok(());
        };
        if planned.at.is_empty() && planned.not_at.is_empty() {
            return self.page.line("Nothing is planned that is not done.");
        }
        let place =
            |sheet: &Self, ids: &[CrossingId]| sheet.place(&fold(survey.hull, ids.iter().copied()));
        if !planned.at.is_empty() {
            let line = format!(
                "As she will be once the plan is carried out: {} driven and covered at {}, spoiled holes doweled first, old ones drawn or left as it says.",
                counted(planned.fastenings, "fastening", "fastenings"),
                place(self, &planned.at)
            );
            self.page.line(&line)?;
        }
        if !planned.not_at.is_empty() {
            let line = format!(
                "Not taken as carried out at {}: the plank is off, or what it names is not there.",
                place(self, &planned.not_at)
            );
            self.page.line(&line)?;
        }
        Ok(())
    }

    /// How much of her was looked at, and where none of it was.
    fn looked_at(&mut self) -> io::Result<()> {
        let coverage = &self.audit.outcome.coverage;
        let fastenings = counted(coverage.fastenings, "fastening", "fastenings");
        let planned = match coverage.planned {
            0 => String::new(),
            planned => format!(" {} only planned.", grouped(planned)),
        };
        let mut looked = match coverage.since {
            _ if coverage.fastenings == 0 => "No fastening is recorded.".to_owned(),
            Some(since) => {
                format!(
                    "Looked at {} of {fastenings} since {since}; {} only as declared.",
                    grouped(coverage.looked_at),
                    grouped(coverage.as_declared)
                ) + &planned
            }
            None => format!("None of {fastenings} was ever looked at; all are only as declared."),
        };
        if coverage.looked_at > 0 && !coverage.unseen.is_empty() {
            let unseen: Vec<String> = coverage.unseen.iter().map(ToString::to_string).collect();
            looked.push_str(&format!(" Not one looked at: {}.", unseen.join(", ")));
        }
        self.page.line(&looked)
    }

    /// What was asked about, where it was not all of her by every rule.
    fn asked_about(&mut self) -> io::Result<()> {
        if let Some(place) = self.audit.place {
            let place = self.place(place);
            self.page.line(&format!("Asked about {place} only."))?;
        }
        if !self.audit.only.is_empty() {
            let names: Vec<&str> = self.audit.only.iter().map(|rule| rule.name).collect();
            let rules = if names.len() == 1 { "rule" } else { "rules" };
            let names = names.join(", ");
            self.page.line(&format!("By the {rules} {names} only."))?;
        }
        Ok(())
    }

    fn waterline(&mut self) -> io::Result<()> {
        let hull = self.audit.survey.hull;
        if !hull.has_no_waterline() {
            return Ok(());
        }
        let told_apart = hull.crossing_ids().any(|id| {
            let crossing = hull.crossing(id);
            !crossing.strake.id.side.is_deck() && crossing.zone != Zone::Underwater
        });
        self.page.line(if told_apart {
            "No waterline given: the shell is judged as underwater, but where `zones` in hull.yaml says otherwise."
        } else {
            "No waterline given: the whole shell is judged as underwater."
        })
    }

    /// Sets of which it is not certain that they were there on the day. Those of unknown date are
    /// left to the rule `undated`.
    fn uncertain_sets(&mut self) -> io::Result<()> {
        let survey = self.audit.survey;
        for set in survey.book.uncertain_on(survey.hull, survey.day) {
            let driven = survey.book.fastening(set.fastening).driven;
            let asked = |spot: &Spot| survey.asks_about(spot.crossing);
            if driven.latest().is_none() || !set.spots.iter().any(asked) {
                continue;
            }
            let counted = set.spots.iter().any(|spot| {
                let holes = survey.state.holes(spot.crossing);
                holes.iter().any(|hole| hole.fastening == set.fastening)
            });
            self.page.line(&format!(
                "It is not certain that `{}`, driven {driven}, was there on this day; it is counted as {}.",
                survey.book.set_name(set.id),
                if counted { "there" } else { "not yet there" }
            ))?;
        }
        Ok(())
    }
}
