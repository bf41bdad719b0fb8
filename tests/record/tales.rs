//! Random stories of one boat: whatever may be logged, kept where it is legal.

use proptest::prelude::*;
use proptest::sample::Index;
use refasten::hull::Hull;
use refasten::joint::{Bung, Kind, Plug, Size};
use refasten::record::{
    Book, Deed, Did, Driving, Entry, Found, HoleChoice, How, Intent, NewMember, NewPlank, PlanLine,
    Planned, Relation, Sample, SetParts, Stub, Unread, What,
};
use refasten::tables::{GaugeSystem, Metal, Screw, WireSystem, Wood};
use refasten::units::{Day, Length, When};

use super::boat::{HULL, TODAY, day, sound};
use super::make::{ORIGIN, length};

/// Sets of several generations: name, place, how many, bung, and how they stand to which.
const SETS: [(&str, &str, &str, &str, &str); 6] = [
    ("built", "PS all", "2", "none", ""),
    (
        "screws",
        "P1-2 F1-2",
        "1",
        "1/2in x 1/4in",
        "replaces: built",
    ),
    (
        "added",
        "P2 F2-3",
        "1",
        "stopping",
        "adds to: [built, screws]",
    ),
    ("left", "S1 F1-4", "2", "unknown", "leaves in: built"),
    ("hood ends", "PS1-2 stem", "3", "1/2in", "replaces: built"),
    ("deck", "D1 all", "1", "1/2in x unknown", ""),
];

/// The day before any story begins.
pub const EVE: &str = "2026-09-30";

/// The boat of every story, as her hull file.
pub fn hull_file() -> String {
    let set = |(name, place, per, bung, relation): (&str, &str, &str, &str, &str)| {
        let rest = [
            format!("per crossing: {per}, bung: {bung}, driven: 1958"),
            relation.to_owned(),
        ];
        super::boat::set(name, place, rest.join(", ").trim_end_matches(", "))
    };
    super::boat::hull_with(&SETS.map(set))
}

/// Her hull.
pub fn hull() -> Hull {
    sound(HULL, "").hull
}

/// Her sets, as the hull file gives them.
pub fn sets() -> Vec<SetParts> {
    let names = |relation: &str, key: &str| -> Vec<String> {
        let names = relation.strip_prefix(key).unwrap_or_default();
        let names = names.trim_matches(['[', ']']).split(", ");
        names
            .filter(|name| !name.is_empty())
            .map(str::to_owned)
            .collect()
    };
    let parts = |(name, place, per, bung, relation): (&str, &str, &str, &str, &str)| SetParts {
        name: name.to_owned(),
        place: place.parse().unwrap(),
        per_crossing: per.parse().ok(),
        kind: Kind::Rivet,
        metal: Metal::find("copper").ok(),
        size: Size::read(Kind::Rivet, "8 SWG x 3in", GaugeSystem::American).ok(),
        plug: bung.parse().unwrap(),
        driven: "1958".parse::<When>().unwrap(),
        how: How::Unknown,
        relation: Relation {
            replaces: names(relation, "replaces: "),
            leaves_in: names(relation, "leaves in: "),
            adds_to: names(relation, "adds to: "),
        },
        origin: ORIGIN,
    };
    SETS.map(parts).into_iter().collect()
}

/// The book of these sets and entries, where they are without fault.
pub fn book(hull: &Hull, sets: Vec<SetParts>, entries: Vec<Entry>) -> Option<Book> {
    let mut faults = Vec::new();
    let book = Book::build(
        hull,
        sets,
        entries,
        &Unread::default(),
        day(TODAY),
        &mut faults,
    );
    faults.is_empty().then_some(book)
}

/// Words that try every way out of their quotes.
pub fn hostile() -> impl Strategy<Value = String> {
    let signs = "[\"'\\\\{}\\[\\]:,#&*!|>%@`?~<=\n\r\t \u{0}\u{1b}\u{7f}\u{85}\u{a0}\u{2028}\u{2029}\u{feff}\u{fffe}\u{ffff}\u{e000}é日\u{1f6a2}a-c0-1-]{1,16}";
    prop_oneof![
        signs,
        ".{1,16}",
        Just("null".to_owned()),
        Just("</script>".to_owned())
    ]
    .prop_filter("something is said", |text| !text.trim().is_empty())
}

fn found() -> impl Strategy<Value = Option<Found>> {
    prop::option::weighted(0.4, prop::sample::select(Found::ALL.to_vec()))
}

fn sample() -> impl Strategy<Value = Option<Sample>> {
    prop::option::weighted(0.2, prop::sample::select(Sample::ALL.to_vec()))
}

fn some_length() -> impl Strategy<Value = Length> {
    length().prop_filter("some length", |length| *length > Length::ZERO)
}

fn plug() -> impl Strategy<Value = Plug> {
    prop_oneof![
        Just(Plug::None),
        Just(Plug::Unknown),
        Just(Plug::Stopping),
        (some_length(), prop::option::of(length()))
            .prop_map(|(diameter, depth)| Plug::Bung(Bung { diameter, depth })),
    ]
}

fn size(kind: Kind) -> impl Strategy<Value = Size> {
    let systems = [
        GaugeSystem::American,
        GaugeSystem::British,
        GaugeSystem::Metric,
    ];
    let screws: Vec<&'static Screw> = systems.into_iter().flat_map(Screw::all).collect();
    let wires = vec![WireSystem::Swg, WireSystem::Bwg];
    let of_screw = (prop::sample::select(screws), some_length())
        .prop_map(|(screw, length)| Size::Screw { screw, length });
    let of_wire = (prop::sample::select(wires), 0..=40u8, some_length()).prop_map(
        |(system, number, length)| Size::Wire {
            system,
            number,
            length,
        },
    );
    let plain = (some_length(), some_length()).prop_map(|(one, other)| Size::Plain {
        diameter: one.min(other),
        length: one.max(other),
    });
    if kind == Kind::WoodScrew {
        of_screw.boxed()
    } else {
        prop_oneof![of_wire, plain].boxed()
    }
}

fn set_name() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => Just("winter".to_owned()),
        1 => prop::sample::select(SETS.map(|(name, ..)| name.to_owned()).to_vec()),
        1 => hostile().prop_map(|name| name.trim().to_owned()),
    ]
}

fn driving() -> impl Strategy<Value = Driving> {
    let metal = prop::option::of(prop::sample::select(
        Metal::all().iter().collect::<Vec<_>>(),
    ));
    let what = prop::sample::select(Kind::ALL.to_vec())
        .prop_flat_map(|kind| (Just(kind), prop::option::of(size(kind))));
    let hole = prop::sample::select(HoleChoice::ALL.to_vec());
    let temporary = prop::bool::weighted(0.1);
    let plan = hostile().prop_map(|plan| plan.trim().to_owned());
    let plan = prop::option::weighted(0.2, plan);
    // Somebody took it for this; signs that do not show are dropped from a sheet's cell.
    let guess = "[a-zé日][a-z0-9é日\"',:#&*!|>%@`~={}\\[\\]-]{0,12}[a-z]";
    // What only clamps for a time carries out no plan.
    let how = (temporary, plan, prop::option::weighted(0.3, guess))
        .prop_map(|(temporary, plan, guess)| (temporary, plan.filter(|_| !temporary), guess));
    (set_name(), 1..=3u8, hole, what, metal, plug(), how).prop_map(
        |(set, per_crossing, hole, (kind, size), metal, plug, (temporary, plan, guess))| Driving {
            set,
            per_crossing: Some(per_crossing),
            hole,
            kind,
            // A guess stands where the metal is not known.
            guess: guess.filter(|_| metal.is_none()),
            metal: metal.filter(|_| kind.is_metal()),
            size,
            plug,
            temporary,
            plan,
        },
    )
}

fn wood() -> impl Strategy<Value = Option<&'static Wood>> {
    prop::option::of(prop::sample::select(Wood::all().iter().collect::<Vec<_>>()))
}

fn member() -> impl Strategy<Value = NewMember> {
    let size = || prop::option::of(some_length());
    (size(), size(), wood()).prop_map(|(siding, depth, wood)| NewMember {
        siding,
        depth,
        wood,
    })
}

fn plank() -> impl Strategy<Value = NewPlank> {
    (prop::option::of(some_length()), wood()).prop_map(|(thickness, wood)| NewPlank {
        thickness,
        wood,
        joints: None,
    })
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        1 => (found(), sample()).prop_map(|(found, sample)| Deed::Checked(found, sample)),
        1 => (length(), found()).prop_map(|(length, found)| Deed::Measured(length, found)),
        2 => found().prop_map(Deed::Bared),
        1 => Just(Deed::Hardened),
        4 => (found(), sample()).prop_map(|(found, sample)| Deed::Pulled(found, sample)),
        3 => (prop::sample::select(Stub::ALL.to_vec()), found(), sample())
            .prop_map(|(stub, found, sample)| Deed::Broken(stub, found, sample)),
        4 => Just(Deed::Cleared),
        1 => (found(), sample()).prop_map(|(found, sample)| Deed::Left(found, sample)),
        3 => Just(Deed::Plugged),
        4 => Just(Deed::Doweled),
        6 => driving().prop_map(|driving| Deed::Driven(Box::new(driving))),
        4 => Just(Deed::Bunged),
        2 => Just(Deed::Stopped),
        4 => Just(Deed::PlankOff),
        4 => plank().prop_map(|plank| Deed::PlankHung(Box::new(plank))),
        1 => some_length().prop_map(Deed::Faired),
        2 => member().prop_map(Deed::FrameRenewed),
    ]
}

/// A few crossings of each kind, so that one thing follows on another.
fn place() -> impl Strategy<Value = String> {
    let crossing = prop::sample::select(vec![
        "P1 F1", "P1 F1", "P1 F1-2", "P2 F2", "P3 F1", "P3 F1", "S1 F1", "PS1 stem", "D1 B1",
        "D2 B1",
    ]);
    let hole = prop::sample::select(vec!["", "", "", "", ".1", ".2"]);
    (crossing, hole).prop_map(|(crossing, hole)| format!("{crossing}{hole}"))
}

/// What may be logged next: something done, or an earlier entry struck out.
#[derive(Clone, Debug)]
enum Next {
    Done(Option<Day>, Box<Entry>),
    Struck(Index, Option<String>),
}

fn next() -> impl Strategy<Value = Next> {
    let free = (
        prop::option::weighted(0.2, hostile()),
        prop::option::weighted(0.3, hostile()),
        prop::option::weighted(0.1, "[a-z][a-z0-9 é#,'-]{0,5}[a-z](/[a-z]{1,5}\\.jpg)?"),
        prop::option::weighted(0.2, Just(day(TODAY))),
        prop::option::weighted(0.1, hostile()),
    );
    let set = prop::option::weighted(0.2, set_name());
    let count = prop::option::weighted(0.1, 1..4u32);
    // Most is logged as it was done, some late.
    let date = prop_oneof![4 => Just(None), 1 => (1..=20i8).prop_map(Some)];
    let done = (date, deed(), place(), set, count, free).prop_map(
        |(on, mut deed, place, set, count, (by, note, photo, written, from))| {
            let set = set.filter(|_| deed.is_to_standing_metal());
            // Wood is worked on by whole crossings, and nothing of it is counted.
            let (place, count) = match (deed.is_to_wood(), place.split_once('.')) {
                (true, Some((crossing, _))) => (crossing.to_owned(), None),
                (true, None) => (place, None),
                (false, _) => (place, count),
            };
            if let Deed::Driven(driving) = &mut deed
                && place.contains('.')
            {
                driving.per_crossing = None;
                driving.hole = HoleChoice::Same;
            }
            let date = |on| Day::new(2026, 10, on).unwrap();
            Next::Done(
                on.map(date),
                Box::new(Entry {
                    number: 0,
                    date: date(1),
                    what: What::Done {
                        deed,
                        place: place.parse().unwrap(),
                        set,
                        count,
                    },
                    by,
                    note,
                    photo,
                    written,
                    from,
                    origin: ORIGIN,
                }),
            )
        },
    );
    let struck = (any::<Index>(), prop::option::of(hostile()))
        .prop_map(|(which, why)| Next::Struck(which, why));
    prop_oneof![25 => done, 1 => struck]
}

/// Whatever was to be logged, what of it is legal after what came before.
pub fn story() -> impl Strategy<Value = Vec<Entry>> {
    (prop::collection::vec(next(), 20..60)).prop_map(|tried| grown(Vec::new(), tried))
}

/// A story, and two that went on from it without knowing of each other, each with its beginning.
pub fn grown_apart() -> impl Strategy<Value = [Vec<Entry>; 3]> {
    let some = |most| prop::collection::vec(next(), 0..most);
    (some(20), some(20), some(20)).prop_map(|(begin, ours, theirs)| {
        let begin = grown(Vec::new(), begin);
        let [ours, theirs] = [ours, theirs].map(|tried| grown(begin.clone(), tried));
        [begin, ours, theirs]
    })
}

/// A story that goes on with what of this is legal.
fn grown(mut entries: Vec<Entry>, tried: Vec<Next>) -> Vec<Entry> {
    let (hull, sets) = (hull(), sets());
    for (next, at) in tried.into_iter().zip(0..) {
        let on = Day::new(2026, 10, 1 + at / 3).unwrap();
        let number = entries.last().map_or(1, |entry| entry.number + 1);
        let entry = match next {
            Next::Done(late, entry) => Entry {
                number,
                date: late.unwrap_or(on),
                ..*entry
            },
            Next::Struck(which, why) if !entries.is_empty() => {
                strike(which.get(&entries), number, why)
            }
            Next::Struck(..) => continue,
        };
        entries.push(entry);
        if book(&hull, sets.clone(), entries.clone()).is_none() {
            entries.pop();
        }
    }
    entries
}

/// Lines of a plan that all these entries may carry out, none of them in another's way.
pub fn plan(entries: &[Entry]) -> Vec<PlanLine> {
    let mut lines: Vec<PlanLine> = Vec::new();
    for entry in entries {
        let (Some(name), Some(place)) = (entry.carries_out(), entry.place()) else {
            continue;
        };
        let place = place.to_string();
        let crossing = place.split('.').next().unwrap_or_default();
        let mut adds_to: Vec<String> = lines.iter().map(|line| line.plan.clone()).collect();
        adds_to.sort_unstable();
        adds_to.dedup();
        let planned = Planned {
            place: crossing.parse().unwrap(),
            per_crossing: Some(1),
            hole: HoleChoice::New,
            kind: Kind::Rivet,
            metal: None,
            size: None,
            plug: Plug::None,
            relation: Relation {
                adds_to,
                ..Relation::default()
            },
        };
        lines.push(PlanLine {
            plan: name.to_owned(),
            date: day("2026-10-01"),
            intent: Intent::Drive(Box::new(planned)),
            by: entry.by.clone(),
            note: entry.note.clone(),
            origin: ORIGIN,
        });
    }
    lines
}

/// An entry that strikes out another.
pub fn strike(other: &Entry, number: u32, why: Option<String>) -> Entry {
    Entry {
        number,
        date: day("2026-10-31"),
        what: What::Struck {
            strike: other.title(),
            why,
        },
        by: None,
        note: None,
        photo: None,
        written: None,
        from: None,
        origin: ORIGIN,
    }
}

/// A story told plainly: what counts, in the order it happened, all on one day.
pub fn plain(book: &Book) -> Vec<Entry> {
    let done = book.story().filter(|entry| entry.did() != Did::Struck);
    done.zip(1..)
        .map(|(entry, number)| Entry {
            number,
            date: day("2026-10-20"),
            ..entry.clone()
        })
        .collect()
}
