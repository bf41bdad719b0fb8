//! What is left to do at one crossing: what lies between its holes now and as planned.

use std::collections::BTreeMap;

use crate::audit::Survey;
use crate::hull::{CrossingId, HoleNumber};
use crate::record::{Content, FasteningId, FrameSide, Hole, Mouth, PlankSide, State};
use crate::units::count;

/// What is left to do at one crossing.
#[derive(Clone, Debug)]
pub(super) struct Job {
    pub(super) crossing: CrossingId,
    /// Whole fastenings to draw.
    pub(super) draw: Vec<HoleNumber>,
    /// Stubs to get out.
    pub(super) clear: Vec<HoleNumber>,
    /// Fastenings to leave as metal.
    pub(super) leave: Vec<HoleNumber>,
    /// Frame sides to dowel.
    pub(super) dowel: Vec<HoleNumber>,
    /// Plank sides to close for good.
    pub(super) plug: Vec<HoleNumber>,
    /// What to drive.
    pub(super) drive: BTreeMap<FasteningId, Drive>,
    /// Bare heads that stand there now and are to be covered, and what with.
    pub(super) cover: Vec<(FasteningId, HoleNumber)>,
}

/// Fastenings of one kind to drive at a crossing.
#[derive(Clone, Debug, Default)]
pub(super) struct Drive {
    /// Into these holes, which are there.
    pub(super) same: Vec<HoleNumber>,
    /// So many into new ones.
    pub(super) new: u8,
}

impl Job {
    /// What is left to do at a crossing, if anything is.
    pub(super) fn of(survey: &Survey<'_>, planned: &State, id: CrossingId) -> Option<Self> {
        let now = survey.state.holes(id);
        let mut job = Self {
            crossing: id,
            draw: Vec::new(),
            clear: Vec::new(),
            leave: Vec::new(),
            dowel: Vec::new(),
            plug: Vec::new(),
            drive: BTreeMap::new(),
            cover: Vec::new(),
        };
        for (number, then) in planned.numbered(id) {
            match now.get(number.index()) {
                None => job.drive.entry(then.fastening).or_default().new += 1,
                Some(now) => job.take(survey, number, now, then),
            }
        }
        (job.works() || !job.cover.is_empty()).then_some(job)
    }

    /// Whether more is to be done than covering heads.
    pub(super) fn works(&self) -> bool {
        !(self.draw.is_empty()
            && self.leave.is_empty()
            && self.clear.is_empty()
            && self.dowel.is_empty()
            && self.plug.is_empty()
            && self.drive.is_empty())
    }

    /// How many fastenings and holes it touches.
    pub(super) fn size(&self) -> u32 {
        let drive: usize = self
            .drive
            .values()
            .map(|drive| drive.same.len() + usize::from(drive.new))
            .sum();
        count(self.draw.len() + self.clear.len() + self.leave.len() + self.plug.len() + drive)
    }

    fn take(&mut self, survey: &Survey<'_>, number: HoleNumber, now: &Hole, then: &Hole) {
        let is_new = then.is_whole() && !(now.is_whole() && now.fastening == then.fastening);
        if is_new {
            self.take_out(number, now);
            // One that goes right through holds by its ends and wants no new wood to hold in.
            if !survey.fastening(then).kind.goes_through() {
                self.dowel_after(number, now);
            }
            let drive = self.drive.entry(then.fastening).or_default();
            drive.same.push(number);
        } else if then.is_whole() {
            let leaves = matches!(
                (now.content, then.content),
                (Content::InPlace(_), Content::LeftIn(_))
            );
            if leaves {
                self.leave.push(number);
            }
            let temporary = survey.fastening(now).temporary;
            if now.content.mouth() == Some(Mouth::Open) && !temporary {
                self.cover.push((now.fastening, number));
            }
        } else if now.content != then.content {
            self.take_out(number, now);
            self.dowel_after(number, now);
            let was = now.content.plank_side();
            let is = then.content.plank_side();
            if is == PlankSide::Plugged && was != PlankSide::Plugged {
                self.plug.push(number);
            }
        }
    }

    fn take_out(&mut self, number: HoleNumber, hole: &Hole) {
        if hole.is_whole() {
            self.draw.push(number);
        } else if hole.has_metal() {
            self.clear.push(number);
        }
    }

    /// A dowel, where taking out what was there leaves the frame's hole open.
    fn dowel_after(&mut self, number: HoleNumber, before: &Hole) {
        match before.content.frame_side() {
            FrameSide::Filled | FrameSide::Open | FrameSide::Stub => self.dowel.push(number),
            FrameSide::Doweled | FrameSide::Gone => {}
        }
    }
}
