//! # butt-near-butt
//!
//! **Looks for** butts in the shell that lie too near each other.
//!
//! **Why.** At a butt only the block and the strakes on either side carry the pull along the
//! planking. Two butts side by side leave a soft spot where she bends, works and leaks.
//!
//! **Limits.** Several practices are published. Choose one in hull.yaml, as
//! `practice: {butts: Great Lakes 1866}`; `refasten tables butts` shows their numbers.
//!
//! `army bulletin`, unless you choose: `butts in neighbouring strakes` 3 frame spaces apart;
//! `strakes between butts` 3 whole ones in one frame bay. On unusual frames, `butts on unusual
//! frames` 60 in apart, and 48 in with one strake between (this last from memory). The bulletin
//! does not say which frames are unusual; taken here are those nearer than `closest usual frames`
//! 6 in or farther apart than `widest usual frames` 24 in. Frames of no given spacing are taken as
//! usual.
//!
//! `Great Lakes 1866`: 60 in apart; 48 in with one strake between; on one timber only with 3
//! strakes between. Rules for heavy ships.
//!
//! `Lloyd's yachts`: about 1.2 m apart; 3 strakes between in one bay. From memory, not checked.
//!
//! Your own limit goes before the practice. Of the butts in a strake the nearest on either side is
//! judged. Two butts on one frame, or on a frame and beside it, are in one bay. Scarfs are not
//! butts. Deck planks are passed over.
//!
//! **Severity.** Mend where one of the planks that meet there was hung in this record; watch as
//! found.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-13; the Great Lakes rules of 1866; Lloyd's Rules for
//! Yachts and Small Craft, 1979, from memory. A boatbuilder's rule of thumb is three planks or
//! three frame spaces.
//!
//! **What to do.** Before a new plank is cut, shift its butt. Of an old pair, shift one when its
//! plank next comes off, and meanwhile look there first for a leak.

use std::collections::BTreeSet;

use crate::audit::lengthwise::{HalfSpaces, Spacing};
use crate::audit::{Hits, Rule, Saying, Severity, Survey, limits};
use crate::hull::{CrossingId, JointKind, Strake};
use crate::tables::{Basis, Limit, Status};
use crate::units::Length;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "butt-near-butt",
    file: include_str!("butt_near_butt.rs"),
    limits: &[
        limits::BUTT_SPACES,
        limits::STRAKES_BETWEEN,
        limits::BUTTS_APART,
        limits::CLOSEST_FRAMES,
        limits::WIDEST_FRAMES,
    ],
    sources: &[
        Basis::on("TB201", Status::Read, "2-13"),
        Basis::on("GL1866", Status::Read, "heavy ships"),
        Basis::on("LR79", Status::Memory, "Pt 2 Ch 4; medium confidence"),
    ],
    check,
};

/// Two butts that are asked about together.
struct Pair<'a> {
    /// Strakes between them.
    between: u32,
    /// Those of them that have no butt in the same bay.
    whole: u32,
    one: HalfSpaces,
    other: HalfSpaces,
    spacing: &'a Spacing,
}

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let strakes = survey.hull.strakes();
    let shell = |at: usize| strakes.get(at).filter(|strake| !strake.id.side.is_deck());
    let mut butts = survey.joints();
    butts.retain(|(at, _), joint| {
        matches!(joint.kind, JointKind::Butt { .. }) && shell(*at).is_some()
    });
    let asked = Asked::of(survey);
    let new = of_new_planks(survey);
    let runs: Vec<_> = strakes.iter().map(|strake| run(survey, strake)).collect();
    let mut spacing: Option<(usize, Spacing)> = None;
    for ((strake, one), butt) in &butts {
        let Some(here) = shell(*strake) else { continue };
        let known = spacing.take().filter(|(of, _)| of == strake);
        let (_, spacing) =
            spacing.insert(known.unwrap_or_else(|| (*strake, Spacing::of(survey, here))));
        let (mut between, mut whole) = (0, 0);
        let same_side = |at: &usize| shell(*at).is_some_and(|s| s.id.side == here.id.side);
        for at in (strake + 1..).take_while(same_side) {
            if between > 1 && whole >= asked.strakes.is {
                break;
            }
            let before = butts.range((at, HalfSpaces(i32::MIN))..=(at, *one));
            let after = butts.range((at, HalfSpaces(one.0 + 1))..=(at, HalfSpaces(i32::MAX)));
            let mut in_bay = false;
            for ((_, other), near) in before.last().into_iter().chain(after.take(1)) {
                in_bay |= one.to(*other).is_in_one_bay();
                let pair = Pair {
                    between,
                    whole,
                    one: *one,
                    other: *other,
                    spacing,
                };
                let Some((says, known)) = asked.says(survey, &pair) else {
                    continue;
                };
                let ids = butt.crossings.iter().chain(&near.crossings);
                let saying = saying(says, known && ids.clone().any(|id| new.contains(id)));
                hits.say(saying, ids.map(|id| (*id, 0)));
            }
            let passes = runs
                .get(at)
                .and_then(|run| run.as_ref())
                .is_some_and(|(from, to)| from <= one && one <= to);
            between += u32::from(passes);
            whole += u32::from(passes && !in_bay);
        }
    }
}

fn saying(says: String, mend: bool) -> Saying {
    let (severity, remedy) = match mend {
        true => (Severity::Mend, "shift the butt of the newer plank"),
        false => (
            Severity::Watch,
            "shift one of them when its plank next comes off",
        ),
    };
    Saying::new(severity, says, remedy)
}

/// From where to where a strake runs.
fn run(survey: &Survey<'_>, strake: &Strake) -> Option<(HalfSpaces, HalfSpaces)> {
    let crossings: Vec<CrossingId> = strake.crossings().map(|(id, _)| id).collect();
    survey.run_of(&crossings)
}

/// The crossings of planks of which any part was hung in this record.
fn of_new_planks(survey: &Survey<'_>) -> BTreeSet<CrossingId> {
    let hung = |id: &CrossingId| survey.state.hung(*id).is_some();
    let strakes = survey.hull.strakes().iter();
    let planks = strakes.flat_map(|strake| survey.planks(strake));
    planks
        .filter(|plank| plank.crossings.iter().any(hung))
        .flat_map(|plank| plank.crossings.iter().copied())
        .collect()
}

/// A number that is asked, and who asks it.
#[derive(Clone, Copy)]
struct Number<T> {
    is: T,
    by: &'static str,
}

/// What the chosen practice asks, the user's own numbers before it.
struct Asked {
    /// Frame spaces between butts in neighbouring strakes.
    spaces: Option<Number<u32>>,
    /// Length between butts in neighbouring strakes, and with one strake between.
    apart: [Option<Number<Length>>; 2],
    /// Whether those lengths are asked of unusual frames only.
    on_unusual: bool,
    /// Strakes between butts in one bay.
    strakes: Number<u32>,
    /// The least and the most of a usual spacing.
    usual: [Length; 2],
}

impl Asked {
    fn of(survey: &Survey<'_>) -> Self {
        let rule = survey.hull.practice.butts;
        let own = |limit: &'static Limit| {
            let bound = survey.limits.bound(limit);
            (bound.is != limit.is).then_some(bound)
        };
        let yours = "your own limit";
        let count = |limit, published: Option<u32>| match (own(limit), published) {
            (Some(own), _) => Some(Number {
                is: own.count(),
                by: yours,
            }),
            (None, published) => published.map(|is| Number { is, by: rule.name }),
        };
        let published = |is| Number { is, by: rule.name };
        let apart = own(limits::BUTTS_APART).map(|own| Number {
            is: own.length(),
            by: yours,
        });
        Self {
            spaces: count(limits::BUTT_SPACES, rule.spaces),
            apart: [
                Some(apart.unwrap_or(published(rule.apart))),
                rule.one_between.map(published),
            ],
            on_unusual: rule.spaces.is_some(),
            strakes: count(limits::STRAKES_BETWEEN, Some(rule.strakes)).unwrap_or(Number {
                is: rule.strakes,
                by: rule.name,
            }),
            usual: [limits::CLOSEST_FRAMES, limits::WIDEST_FRAMES]
                .map(|limit| survey.limits.bound(limit).length()),
        }
    }

    /// What is to be said of a pair, and whether it is known to be so; nothing where the two are
    /// far enough apart.
    fn says(&self, survey: &Survey<'_>, pair: &Pair<'_>) -> Option<(String, bool)> {
        let apart = pair.one.to(pair.other);
        let [least, most] = self.usual;
        let unusual = pair.spacing.is_out_of(least, most, pair.one, pair.other);
        if pair.between == 0
            && let Some(Number { is, by }) = self.spaces
            && !(self.on_unusual && unusual)
            && apart < HalfSpaces::whole(is)
        {
            let says = format!("butts {apart} apart in neighbouring strakes, under {is} ({by})");
            return Some((says, true));
        }
        if let Some(Some(asked)) = self.apart.get(pair.between as usize)
            && (!self.on_unusual || unusual)
            && let Some(said) = self.by_length(survey, pair, *asked)
        {
            return Some(said);
        }
        let Number { is, by } = self.strakes;
        let in_bay = apart.is_in_one_bay() && pair.whole < is;
        in_bay.then(|| {
            let whole = match pair.whole {
                1 => "1 whole strake".to_owned(),
                n => format!("{n} whole strakes"),
            };
            let says = format!("butts in one frame bay with {whole} between, under {is} ({by})");
            (says, true)
        })
    }

    fn by_length(
        &self,
        survey: &Survey<'_>,
        pair: &Pair<'_>,
        Number { is, by }: Number<Length>,
    ) -> Option<(String, bool)> {
        let lie = match pair.between {
            0 => "in neighbouring strakes",
            _ => "with 1 strake between",
        };
        let needed = survey.shown(is);
        let [closest, _] = self.usual;
        let distance = |unknown| pair.spacing.distance(pair.one, pair.other, unknown);
        let Some(distance) = distance(None) else {
            // Far enough even on the closest of usual frames, or nobody can tell.
            let says = format!(
                "butts {lie}, and no frame spacing to tell whether they are {needed} apart ({by})"
            );
            return (distance(Some(closest))? < is).then_some((says, false));
        };
        let says = format!(
            "butts {} apart {lie}, under {needed} ({by})",
            survey.shown(distance)
        );
        (distance < is).then_some((says, true))
    }
}
