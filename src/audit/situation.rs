//! What a rule about single fastenings looks at: each way in which they stand, once.

use std::collections::BTreeMap;

use super::{Hits, Saying, Survey};
use crate::hull::MemberKind;
use crate::joint::{Kind, Plug, Seat, Size, Zone, bung};
use crate::record::{Fastening, FasteningId, HoleState};
use crate::tables::{PlankRow, PlankRule, Screw};
use crate::units::Length;

/// One way in which whole fastenings stand: what they are, how they hold, and what they are in.
/// A boat has few of them and many holes, so each is judged once.
#[derive(Clone, Copy, Debug)]
pub struct Situation<'s> {
    /// The boat.
    pub survey: &'s Survey<'s>,
    /// The fastening.
    pub fastening: &'s Fastening,
    /// Whether it is relied on, unsound or left in.
    pub state: HoleState,
    /// How wet it is there.
    pub zone: Zone,
    /// Thickness of the plank.
    pub plank: Option<Length>,
    /// Depth of the member; at a butt, thickness of the block.
    pub member: Option<Length>,
    /// By how much the planking was planed thinner since it was driven.
    pub planed: Length,
    /// Whether there is a far side to come out of: of a frame, a beam or a butt block. The depth
    /// of an end or of the keel is only that of the landing.
    pub comes_through: bool,
}

/// The ways in which whole fastenings stand in the boat, in the order of the first of each: for each
/// the kinds of crossings it is at, by their number, and how many stand so at every one of the kind.
#[derive(Debug, Default)]
pub(super) struct Situations(Vec<(Way, Vec<(usize, u8)>)>);

/// What a situation is told from another by, and a fastening that stands so.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Way {
    /// The first fastening of the book that is made as this one.
    made: FasteningId,
    state: HoleState,
    zone: Zone,
    plank: Option<Length>,
    member: Option<Length>,
    comes_through: bool,
    planed: Length,
}

impl Situations {
    pub(super) fn of(survey: &Survey<'_>) -> Self {
        let makes = survey.book.makes();
        let mut ways: Vec<(Way, Vec<(usize, u8)>)> = Vec::new();
        let mut known: BTreeMap<Way, usize> = BTreeMap::new();
        for (at, _) in survey.alike() {
            let (id, zone) = (at.crossing.id, at.crossing.zone);
            let plank = survey.state.thickness(survey.hull, id);
            let member = survey.state.scantlings(survey.hull, id).depth;
            let comes_through = matches!(
                at.crossing.member.kind(),
                MemberKind::Frame | MemberKind::Beam | MemberKind::Butt
            );
            // Of two that stand alike beside each other the second is only counted.
            let mut here: Vec<(usize, u8)> = Vec::new();
            for (number, hole) in survey.state.numbered(id) {
                if !hole.is_whole() {
                    continue;
                }
                let way = Way {
                    made: makes
                        .get(hole.fastening.index())
                        .copied()
                        .unwrap_or(hole.fastening),
                    state: hole.state(),
                    zone,
                    plank,
                    member,
                    comes_through,
                    planed: survey.state.planed(id, number),
                };
                let at = *known.entry(way).or_insert_with(|| {
                    ways.push((way, Vec::new()));
                    ways.len() - 1
                });
                match here.iter_mut().find(|(known, _)| *known == at) {
                    Some((_, count)) => *count += 1,
                    None => here.push((at, 1)),
                }
            }
            for (at, count) in here {
                if let Some((_, places)) = ways.get_mut(at) {
                    places.push((survey.kinds().number(id), count));
                }
            }
        }
        Self(ways)
    }
}

/// Looks at every whole fastening that is asked about; stubs are passed over. What is said of a
/// situation is said of each fastening in it.
pub(super) fn each(
    survey: &Survey<'_>,
    hits: &mut Hits<'_>,
    judge: impl Fn(&Situation<'_>) -> Option<Saying>,
) {
    for (way, places) in &survey.situations().0 {
        let said = judge(&Situation {
            survey,
            fastening: survey.book.fastening(way.made),
            state: way.state,
            zone: way.zone,
            plank: way.plank,
            member: way.member,
            planed: way.planed,
            comes_through: way.comes_through,
        });
        if let Some(saying) = said {
            let places = places.iter().flat_map(|(kind, count)| {
                let all = survey.kinds().all(*kind).iter();
                all.map(|id| (*id, usize::from(*count)))
            });
            hits.say(saying, places);
        }
    }
}

impl Situation<'_> {
    /// Whether the fastening is counted on to hold.
    pub fn is_relied_on(&self) -> bool {
        self.state == HoleState::ReliedOn
    }

    /// What to add to a saying where it is not counted on: that it only stands there.
    pub fn standing(&self) -> &'static str {
        if self.is_relied_on() {
            ""
        } else {
            ", not relied on"
        }
    }

    /// A length as it is shown.
    pub fn shown(&self, length: Length) -> String {
        self.survey.shown(length)
    }

    /// The planking rule's row for the plank; `None` where its thickness is not known or outside
    /// the table.
    pub fn row(&self) -> Option<&'static PlankRow> {
        PlankRule::default()
            .row(self.plank?)
            .map(|nearest| nearest.row)
    }

    /// The row of the screw table; `None` for other kinds, and where the size is not known.
    pub fn screw(&self) -> Option<&'static Screw> {
        match (self.fastening.kind, self.fastening.size) {
            (Kind::WoodScrew, Some(Size::Screw { screw, .. })) => Some(screw),
            _ => None,
        }
    }

    /// How far below the plank's face the top of the head lies; `None` where it is not known.
    pub fn head_depth(&self) -> Option<Length> {
        match self.fastening.plug {
            Plug::Unknown => None,
            Plug::None => Some(Length::ZERO),
            Plug::Stopping => Some(bung::stopping_depth(self.survey.limits)),
            Plug::Bung(bung) => Some(self.left_of(bung.depth?)),
        }
    }

    /// What is left of a depth below the plank's face after the planking was planed.
    fn left_of(&self, depth: Length) -> Length {
        (depth - self.planed).max(Length::ZERO)
    }

    /// How deep the bung over it is; `None` where there is none, or its depth is not known.
    pub fn bung_depth(&self) -> Option<Length> {
        match self.fastening.plug {
            Plug::Bung(bung) => Some(self.left_of(bung.depth?)),
            _ => None,
        }
    }

    /// How it sits; `None` where its size, its head's depth or the plank's thickness is not known.
    pub fn seat(&self) -> Option<Seat> {
        self.seat_under(self.head_depth()?)
    }

    /// How it would sit with its head so deep.
    pub fn seat_under(&self, head_depth: Length) -> Option<Seat> {
        let length = self.fastening.size?.length();
        let screw = self.screw();
        Some(Seat {
            plank: self.plank?,
            head_depth,
            length,
            member: self.member,
            head_height: screw.and_then(|screw| screw.head.as_ref()?.height),
            thread: screw.map_or(Length::ZERO, |screw| screw.thread_length(length)),
        })
    }
}
