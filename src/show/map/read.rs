//! What every hole and crossing of a boat is marked as.

use super::Class;
use crate::audit::{Outcome, Survey};
use crate::hull::CrossingId;
use crate::record::Hole;
use crate::show::marks::{Age, Concern, Left};
use crate::text::words;
use crate::units::When;

words! {
    /// What a map shows.
    By, "a thing to map" {
        /// The metal in each hole.
        Metal = "metal",
        /// The state of each hole.
        State = "state",
        /// How long each fastening has been there.
        Age = "age",
        /// What is left at each crossing of what was built there.
        Hold = "hold",
        /// The worst that the audit says of each crossing.
        Findings = "findings" | "finding",
    }
}

/// What a map shows, with what it needs for that.
#[derive(Clone, Copy, Debug)]
pub enum Ask<'a> {
    /// The metal in each hole.
    Metal,
    /// The state of each hole.
    State,
    /// How long each fastening has been there.
    Age,
    /// What is left at each crossing.
    Hold,
    /// The worst that this audit says of each crossing.
    Findings(&'a Outcome),
}

impl Ask<'_> {
    /// The word for it.
    pub const fn by(self) -> By {
        match self {
            Self::Metal => By::Metal,
            Self::State => By::State,
            Self::Age => By::Age,
            Self::Hold => By::Hold,
            Self::Findings(_) => By::Findings,
        }
    }
}

/// A boat on a day, and what is shown of her.
#[derive(Debug)]
pub struct Map<'a> {
    pub(super) survey: &'a Survey<'a>,
    pub(super) by: By,
    /// Of each crossing of the hull; empty where findings are not asked for.
    concerns: Vec<Concern>,
}

impl<'a> Map<'a> {
    /// A map of the crossings that a survey asks about.
    pub fn new(survey: &'a Survey<'a>, ask: Ask<'_>) -> Self {
        let concerns = match ask {
            Ask::Findings(outcome) => concerns(survey, outcome),
            _ => Vec::new(),
        };
        Self {
            survey,
            by: ask.by(),
            concerns,
        }
    }

    /// What each hole of a crossing is marked as, by number; of a crossing without holes, what it
    /// is marked as itself.
    pub(super) fn classes(&self, id: CrossingId) -> Vec<Class> {
        let holes = self.survey.at(id).holes;
        if holes.is_empty() {
            return vec![match self.by {
                By::Findings => self.class_of(id),
                _ => Class::Unrecorded,
            }];
        }
        match self.by {
            By::State => holes.iter().map(|h| Class::State(h.state())).collect(),
            By::Metal => holes.iter().map(|hole| self.metal(hole)).collect(),
            By::Age => holes.iter().map(|hole| self.age(hole)).collect(),
            By::Hold | By::Findings => vec![self.class_of(id); holes.len()],
        }
    }

    /// What a crossing is marked as where one mark stands for all of it: the gravest of its holes'.
    pub(super) fn class_of(&self, id: CrossingId) -> Class {
        match self.by {
            By::Findings => {
                let concern = self.concerns.get(id.index()).copied();
                Class::Concern(concern.unwrap_or(Concern::Nothing))
            }
            By::Hold if self.survey.at(id).holes.is_empty() => Class::Unrecorded,
            By::Hold => Class::Left(self.left(id)),
            By::Metal | By::State | By::Age => {
                let worst = self.classes(id).into_iter().min();
                worst.unwrap_or(Class::Unrecorded)
            }
        }
    }

    fn metal(&self, hole: &Hole) -> Class {
        if !hole.has_metal() {
            return Class::Empty;
        }
        let fastening = self.survey.fastening(hole);
        Class::of_metal(fastening.metal, fastening.kind)
    }

    fn age(&self, hole: &Hole) -> Class {
        if !hole.has_metal() {
            return Class::Empty;
        }
        let (least, most) = self.years(self.survey.fastening(hole).driven);
        let range = least.map_or(Age::Unknown, Age::of);
        Class::Age {
            range,
            maybe_older: most.map(Age::of) != Some(range),
        }
    }

    /// How many whole years something has been there, at the least and at the most; `None` where
    /// nobody says. Nothing is older than the launch.
    pub(super) fn years(&self, driven: When) -> (Option<u32>, Option<u32>) {
        let launched = self.survey.hull.particulars.launched.earliest();
        let since = |day: crate::units::Day| self.survey.day.years_since(day);
        let earliest = driven.earliest().or(launched);
        (driven.latest().map(since), earliest.map(since))
    }

    fn left(&self, id: CrossingId) -> Left {
        let limits = self.survey.weak_shares();
        match self.survey.share_left(id) {
            None => Left::Unknown,
            Some(share) if share >= 1.0 => Left::Whole,
            Some(share) if share >= limits.mend => Left::Most,
            Some(share) if share >= limits.stop => Left::Some,
            Some(share) if share > 0.0 => Left::Little,
            Some(_) => Left::Bare,
        }
    }
}

/// The worst that is said of each crossing.
fn concerns(survey: &Survey<'_>, outcome: &Outcome) -> Vec<Concern> {
    let mut concerns = vec![Concern::Nothing; survey.hull.crossing_count()];
    for finding in &outcome.findings {
        let concern = match finding.accepted {
            Some(_) => Concern::Accepted,
            None => finding.saying.severity.into(),
        };
        // The places of findings were folded from crossings of this hull.
        for spot in survey.hull.resolve(&finding.place).unwrap_or_default() {
            if let Some(worst) = concerns.get_mut(spot.crossing.index()) {
                *worst = concern.min(*worst);
            }
        }
    }
    concerns
}
