//! Random things to try the laws on.

use std::collections::BTreeSet;

use proptest::prelude::*;
use refasten::hull::{
    CrossingId, End, FramesFrom, HoleNumber, Holes, Hull, HullParts, JointKind, Laid, Member,
    MemberKind, MemberPick, Number, Numbering, Place, Placed, Places, Run, Scantlings, Side, Sides,
    StrakesFrom,
};
use refasten::joint::Grain;
use refasten::text::{FileId, Origin};
use refasten::units::{Day, Length, When};

/// So many cases, and no file of failed ones left behind.
pub fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

pub const ORIGIN: Origin = Origin {
    file: FileId::Hull,
    byte: 0,
    line: 1,
};

/// Lengths that a shop writes, and any other.
pub fn length() -> impl Strategy<Value = Length> {
    prop_oneof![
        (0i64..100 * 64).prop_map(Length::from_64ths),
        (0i64..400_000).prop_map(|tenths| Length::from_nm(tenths * 100_000)),
        (0i64..40_000_000).prop_map(|n| Length::from_nm(n * 254)),
        (0..=Length::LONGEST.nm()).prop_map(Length::from_nm),
    ]
}

pub fn day() -> impl Strategy<Value = Day> {
    (1000i16..=9999, 1i8..=12, 1i8..=31)
        .prop_filter_map("a day of the calendar", |(y, m, d)| Day::new(y, m, d))
}

pub fn when() -> impl Strategy<Value = When> {
    let span = (day(), 0..4usize).prop_map(|(day, of)| {
        let day = day.to_string();
        match of {
            0 => day,
            1 => day[..7].to_owned(),
            2 => day[..4].to_owned(),
            _ => format!("{}0s", &day[..3]),
        }
    });
    (span, 0..5usize).prop_map(|(span, of)| {
        let text = match of {
            0 => "unknown".to_owned(),
            1 => format!("before {span}"),
            _ => span,
        };
        text.parse().unwrap()
    })
}

fn number(highest: u16) -> impl Strategy<Value = Number> {
    let any = prop_oneof![3 => 0..=20.min(highest), 1 => 0..=highest];
    (
        any,
        prop::option::weighted(0.2, prop::char::range('a', 'z')),
    )
        .prop_map(|(n, letter)| {
            letter
                .and_then(|letter| Number::lettered(n, letter))
                .unwrap_or(Number::plain(n))
        })
}

/// Runs as they may be written: in any order, none of a number that another has.
fn runs(highest: u16) -> impl Strategy<Value = Vec<Run>> {
    let run = prop_oneof![
        number(highest).prop_map(Run::one),
        (1..=highest, 1..=8u16).prop_map(move |(first, more)| {
            let last = first.saturating_add(more).min(highest);
            Run::join((first..=last).map(Number::plain))[0]
        }),
    ];
    prop::collection::vec(run, 1..4).prop_map(|runs| {
        let mut seen = BTreeSet::new();
        let mut kept = runs;
        kept.retain(|run| {
            let new = run.numbers().all(|number| !seen.contains(&number));
            seen.extend(run.numbers().filter(|_| new));
            new
        });
        kept
    })
}

pub fn holes() -> impl Strategy<Value = Holes> {
    let hole = prop_oneof![3 => 1..=6usize, 1 => 1..=64usize];
    prop::collection::vec(hole, 1..5)
        .prop_map(|holes| holes.into_iter().filter_map(HoleNumber::new).collect())
}

fn maybe_holes() -> impl Strategy<Value = Holes> {
    prop_oneof![2 => Just(Holes::ANY), 1 => holes()]
}

fn member_pick() -> impl Strategy<Value = MemberPick> {
    let kinds = [
        MemberKind::Frame,
        MemberKind::Butt,
        MemberKind::Keel,
        MemberKind::Beam,
    ];
    let ends = prop::option::of(prop::sample::select(vec![End::Fwd, End::Aft]));
    let numbered = (
        prop::sample::select(kinds.to_vec()),
        runs(Number::HIGHEST_MEMBER),
        ends,
        maybe_holes(),
    )
        .prop_map(|(kind, runs, end, holes)| MemberPick {
            kind: Some(kind),
            runs,
            end: end.filter(|_| kind == MemberKind::Butt),
            holes,
        });
    let named = MemberKind::NAMED.map(|(_, kind)| Some(kind));
    let named: Vec<_> = named.into_iter().chain([None]).collect();
    let named = (prop::sample::select(named), maybe_holes()).prop_map(|(kind, holes)| MemberPick {
        kind,
        runs: Vec::new(),
        end: None,
        holes,
    });
    prop_oneof![2 => numbered, 1 => named]
}

/// Any places that can be written.
pub fn places() -> impl Strategy<Value = Places> {
    let sides = Side::ALL.map(Sides::One);
    let sides: Vec<_> = sides
        .into_iter()
        .chain([Sides::Shell, Sides::DeckHalves])
        .collect();
    let strakes = prop_oneof![4 => runs(Number::HIGHEST_STRAKE), 1 => Just(Vec::new())];
    let name = prop::sample::select(vec!["garboard", "broad-strake", "sheer", "fo", "ober-2"]);
    let name = name.prop_map(|name| name.parse().unwrap());
    let place = (
        prop::sample::select(sides),
        strakes,
        prop::collection::vec(name, 0..3),
        prop::collection::vec(member_pick(), 1..4),
    )
        .prop_map(|(sides, strakes, names, members)| Place {
            sides,
            strakes,
            names,
            members,
        });
    prop::collection::vec(place, 1..4).prop_map(Places)
}

const SCANTLINGS: Scantlings = Scantlings {
    siding: None,
    depth: None,
    spacing: None,
    wood: None,
    grain: Grain::Side,
};

fn placed<T>(is: T) -> Placed<T> {
    Placed { origin: ORIGIN, is }
}

/// What a random hull's shell may cross.
const SHELL: &str = "stem F1-6 F2a F4b K1-4 sternpost horn timber transom";
/// And her deck.
const DECK: &str = "stem B1-5 B3a transom";

fn members(text: &str) -> Vec<Member> {
    let picks: refasten::hull::MemberPicks = text.parse().unwrap();
    picks.0.iter().flat_map(MemberPick::members).collect()
}

/// A hull of a few strakes on any sides, some with letters, each over some of the members, with
/// butts here and there; often the starboard side is like the port side.
pub fn hull() -> impl Strategy<Value = Hull> {
    let strake = (
        prop::sample::select(Side::ALL.to_vec()),
        1..5u16,
        prop::option::weighted(0.2, prop::char::range('a', 'b')),
        prop_oneof![Just(u32::MAX), any::<u32>()],
        prop::collection::vec(1..6u16, 0..3),
        prop::bool::weighted(0.6),
    );
    let strakes = prop::collection::vec(strake, 1..10);
    (strakes, any::<bool>(), any::<bool>()).prop_map(|(strakes, from_stern, from_sheer)| {
        let mut parts = HullParts {
            numbering: Numbering {
                frames: if from_stern {
                    FramesFrom::Stern
                } else {
                    FramesFrom::Bow
                },
                strakes: if from_sheer {
                    StrakesFrom::Sheer
                } else {
                    StrakesFrom::Keel
                },
            },
            ..HullParts::default()
        };
        for all in [SHELL, "B1-5 B3a"] {
            parts.members.push(placed((members(all), SCANTLINGS)));
        }
        let mut seen = BTreeSet::new();
        for (side, n, letter, mask, butts, mirrored) in strakes {
            let number = letter.map_or(n.to_string(), |letter| format!("{n}{letter}"));
            let other = match side {
                Side::Port => Some(Side::Starboard),
                Side::DeckPort => Some(Side::DeckStarboard),
                _ => None,
            };
            for side in [Some(side), other.filter(|_| mirrored)]
                .into_iter()
                .flatten()
            {
                let name = format!("{side}{number}");
                if !seen.insert(name.clone()) {
                    continue;
                }
                let all = members(if side.is_deck() { DECK } else { SHELL });
                let across: Vec<String> = all
                    .iter()
                    .enumerate()
                    .filter(|(at, _)| *at == 1 || mask >> at & 1 == 1)
                    .map(|(_, member)| member.to_string())
                    .collect();
                parts.strakes.push(placed(Laid {
                    planks: name.parse().unwrap(),
                    across: across.join(" ").parse().unwrap(),
                    thickness: None,
                    width: None,
                    wood: None,
                }));
                let letter = if side.is_deck() { 'B' } else { 'F' };
                for butt in butts.iter().collect::<BTreeSet<_>>() {
                    if across.contains(&format!("{letter}{butt}")) {
                        let kind = JointKind::Butt {
                            block: None,
                            per_end: None,
                        };
                        let at = format!("{name} J{butt}").parse().unwrap();
                        parts.joints.push(placed((at, kind)));
                    }
                }
            }
        }
        let mut faults = Vec::new();
        let hull = Hull::build(parts, &mut faults);
        assert!(faults.is_empty(), "{faults:?}");
        hull
    })
}

/// A hull and some of her crossings, in any order and perhaps twice: now and then a regular
/// pattern, so that rows are alike.
pub fn hull_and_crossings() -> impl Strategy<Value = (Hull, Vec<CrossingId>)> {
    (
        hull(),
        prop::collection::vec(any::<bool>(), 1..60),
        any::<u64>(),
    )
        .prop_flat_map(|(hull, chosen, _)| {
            let mut ids: Vec<CrossingId> = hull
                .crossing_ids()
                .zip(chosen.iter().cycle())
                .filter_map(|(id, chosen)| chosen.then_some(id))
                .collect();
            ids.extend_from_within(..ids.len().min(3));
            (Just(hull), Just(ids).prop_shuffle())
        })
}

/// A hull and some holes of hers.
pub fn hull_and_holes() -> impl Strategy<Value = (Hull, Vec<(CrossingId, HoleNumber)>)> {
    let chosen = prop::collection::vec(prop::option::of(holes()), 1..20);
    (hull(), chosen).prop_flat_map(|(hull, chosen)| {
        let ids: Vec<(CrossingId, HoleNumber)> = hull
            .crossing_ids()
            .zip(chosen.iter().cycle())
            .filter_map(|(id, holes)| Some((id, (*holes)?)))
            .flat_map(|(id, holes)| holes.numbers().map(move |number| (id, number)))
            .collect();
        (Just(hull), Just(ids).prop_shuffle())
    })
}
