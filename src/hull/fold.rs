//! Folding crossings into the shortest places, the way a person would say them.

use std::collections::BTreeMap;

use super::{
    CrossingId, End, HoleNumber, Holes, Hull, Member, MemberKind, MemberPick, Number, Place,
    Places, Run, Side, Sides,
};

/// Folds crossings into places: runs along each strake, equal rows merged over strakes, then over
/// the sides. The places name exactly these crossings, each once, in the same order whatever the
/// order they come in; folding what is unfolded gives the same places again.
pub fn fold(hull: &Hull, crossings: impl IntoIterator<Item = CrossingId>) -> Places {
    fold_rows(
        hull,
        crossings.into_iter().map(|id| (id, Holes::ANY)).collect(),
    )
}

/// Folds single holes into places, holes of like number together.
pub fn fold_holes(
    hull: &Hull,
    holes: impl IntoIterator<Item = (CrossingId, HoleNumber)>,
) -> Places {
    let mut by_crossing: BTreeMap<CrossingId, Holes> = BTreeMap::new();
    for (id, hole) in holes {
        by_crossing.entry(id).or_default().insert(hole);
    }
    fold_rows(hull, by_crossing.into_iter().collect())
}

fn fold_rows(hull: &Hull, mut rows: Vec<(CrossingId, Holes)>) -> Places {
    rows.sort_unstable();
    rows.dedup();
    // One row of members for each strake, equal rows together, side by side …
    let mut by_side: BTreeMap<Side, BTreeMap<Vec<MemberPick>, Vec<Number>>> = BTreeMap::new();
    let mut rest = rows.as_slice();
    while let Some((first, _)) = rest.first() {
        let strake = hull.crossing(*first).strake;
        let (row, others) = rest.split_at(rest.partition_point(|(id, _)| strake.reaches(*id)));
        rest = others;
        let members = row
            .iter()
            .filter_map(|(id, holes)| Some((*holes, strake.member(*id)?)));
        by_side
            .entry(strake.id.side)
            .or_default()
            .entry(picks(members.collect()))
            .or_default()
            .push(strake.id.number);
    }
    // … and both sides together where they are alike.
    let mut places: Vec<Place> = Vec::new();
    for (pair, both) in [
        ((Side::Port, Side::Starboard), Sides::Shell),
        ((Side::DeckPort, Side::DeckStarboard), Sides::DeckHalves),
    ] {
        let mut one = by_side.remove(&pair.0).unwrap_or_default();
        let mut other = by_side.remove(&pair.1).unwrap_or_default();
        one.retain(|members, numbers| {
            let alike = other.get(members) == Some(numbers);
            if alike {
                other.remove(members);
                places.push(place(both, numbers, members));
            }
            !alike
        });
        by_side.insert(pair.0, one);
        by_side.insert(pair.1, other);
    }
    for (side, groups) in by_side {
        places.extend(
            groups
                .iter()
                .map(|(members, numbers)| place(Sides::One(side), numbers, members)),
        );
    }
    places.sort_by(|a, b| order(a).cmp(&order(b)));
    // Thousands may be kept, and most are a single place.
    places.shrink_to_fit();
    Places(places)
}

fn place(sides: Sides, numbers: &[Number], members: &[MemberPick]) -> Place {
    Place {
        sides,
        strakes: Run::join(numbers.iter().copied()),
        names: Vec::new(),
        members: members.to_vec(),
    }
}

fn order(place: &Place) -> (Option<&Side>, &[Run], &[MemberPick]) {
    (place.sides.each().first(), &place.strakes, &place.members)
}

/// The members of one strake as picks, like holes and kinds together.
fn picks(mut members: Vec<(Holes, Member)>) -> Vec<MemberPick> {
    // From the bow they mostly rise already, and a stable sort then takes one look.
    members.sort();
    let both_halves = |holes: Holes, number: Number, other: End| {
        let half = Member::Butt(number, other);
        members.binary_search(&(holes, half)).is_ok()
    };
    let mut groups: BTreeMap<(Holes, MemberKind, Option<End>), Vec<Number>> = BTreeMap::new();
    for alike in members.chunk_by(|(one, a), (other, b)| one == other && a.kind() == b.kind()) {
        let Some((holes, first)) = alike.first().copied() else {
            continue;
        };
        let kind = first.kind();
        if kind != MemberKind::Butt {
            let numbers = alike.iter().filter_map(|(_, member)| member.number());
            groups.insert((holes, kind, None), numbers.collect());
            continue;
        }
        for (_, member) in alike {
            let (number, end) = match *member {
                Member::Butt(n, End::Fwd) if both_halves(holes, n, End::Aft) => (n, None),
                Member::Butt(n, End::Aft) if both_halves(holes, n, End::Fwd) => continue,
                Member::Butt(n, end) => (n, Some(end)),
                _ => continue,
            };
            groups.entry((holes, kind, end)).or_default().push(number);
        }
    }
    let mut picks: Vec<MemberPick> = groups
        .into_iter()
        .map(|((holes, kind, end), numbers)| MemberPick {
            kind: Some(kind),
            runs: Run::join(numbers),
            end,
            holes,
        })
        .collect();
    picks.sort_unstable();
    picks
}

/// The members that a strake crosses, as few words as will do.
pub(super) fn members_of(strake: &super::Strake) -> Vec<MemberPick> {
    picks(
        strake
            .crossings()
            .map(|(_, member)| (Holes::ANY, member))
            .collect(),
    )
}
