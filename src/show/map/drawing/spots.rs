//! Where marks lie: one a hole, one a crossing, or one for several where there are too many.

use std::collections::BTreeMap;

use super::super::laid::{Half, Lies};
use super::super::{By, Class, Map};
use super::paper::MOST_ROOM;
use crate::hull::Member;
use crate::units::places;

/// The most holes that are drawn one by one.
const MOST_HOLES: u32 = 20_000;
/// The most crossings that are.
const MOST_CROSSINGS: usize = 60_000;

/// What one mark stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Grain {
    /// A hole.
    Hole,
    /// A crossing: the gravest of its holes.
    Crossing,
    /// So many strakes by as many members: the gravest of their crossings.
    Block(usize),
}

impl Grain {
    /// The finest that keeps the drawing readable and its file small.
    pub(super) fn of(map: &Map<'_>) -> Self {
        let crossings = map.survey.crossings().count();
        let ids = map.survey.crossings().map(|at| at.crossing.id);
        if map.survey.state.tally(ids).holes <= MOST_HOLES && crossings <= MOST_CROSSINGS {
            return Self::Hole;
        }
        if crossings <= MOST_CROSSINGS {
            return Self::Crossing;
        }
        let side = (crossings as f64 / MOST_CROSSINGS as f64).sqrt().ceil();
        Self::Block(places(side))
    }

    /// What one mark stands for, in a sentence; empty for a hole.
    pub(super) fn says(self) -> String {
        match self {
            Self::Hole => String::new(),
            Self::Crossing => "Each mark is a crossing, the gravest there. ".to_owned(),
            Self::Block(side) => {
                format!("Each mark is {side} strakes by {side} members, the gravest there. ")
            }
        }
    }
}

/// One mark.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spot {
    pub(super) class: Class,
    /// Along the boat and across the planking, as shares of the room it has: 0 to 1 each, from the
    /// bow and from the keel.
    pub(super) at: [f64; 2],
    /// How many holes it stands for; a crossing without one counts as one.
    pub(super) count: u32,
    /// How many marks share the room, along and across.
    pub(super) among: [f64; 2],
}

/// Takes crossings and gives the marks for them.
pub(super) struct Spots<'m> {
    map: &'m Map<'m>,
    grain: Grain,
}

impl<'m> Spots<'m> {
    pub(super) const fn new(map: &'m Map<'m>, grain: Grain) -> Self {
        Self { map, grain }
    }

    /// The marks of a strake's crossings, each with the crossing it is drawn at.
    pub(super) fn of(
        &self,
        half: &Half,
        strake: usize,
        room: impl Fn(&Lies) -> [f64; 2],
    ) -> Vec<(Lies, Spot)> {
        let Some(row) = half.rows.get(strake) else {
            return Vec::new();
        };
        let shown = row.crossings.iter().filter(|lies| lies.shown);
        match self.grain {
            Grain::Hole => shown
                .flat_map(|lies| {
                    let spots = self.holes(lies, room(lies)).into_iter();
                    spots.map(|spot| (*lies, spot))
                })
                .collect(),
            Grain::Crossing => shown
                .map(|lies| {
                    (
                        *lies,
                        Self::one(self.map.class_of(lies.id), self.count(lies)),
                    )
                })
                .collect(),
            Grain::Block(side) if strake.is_multiple_of(side) => self.blocks(half, strake, side),
            Grain::Block(_) => Vec::new(),
        }
    }

    fn count(&self, lies: &Lies) -> u32 {
        let holes = self.map.survey.at(lies.id).holes.len().max(1);
        u32::try_from(holes).unwrap_or(u32::MAX)
    }

    const fn one(class: Class, count: u32) -> Spot {
        Spot {
            class,
            at: [0.5, 0.5],
            count,
            among: [1.0, 1.0],
        }
    }

    /// Strakes by members, each lot of crossings by the gravest of it.
    fn blocks(&self, half: &Half, strake: usize, side: usize) -> Vec<(Lies, Spot)> {
        let mut lots: BTreeMap<usize, (Lies, Class, u32)> = BTreeMap::new();
        for row in half.rows.iter().skip(strake).take(side) {
            let shown = row.crossings.iter().enumerate().filter(|(_, l)| l.shown);
            for (at, lies) in shown {
                let class = self.map.class_of(lies.id);
                let lot = lots.entry(at / side).or_insert((*lies, class, 0));
                lot.1 = lot.1.min(class);
                lot.2 = lot.2.saturating_add(self.count(lies));
            }
        }
        let lots = lots.into_values();
        lots.map(|(lies, class, count)| (lies, Self::one(class, count)))
            .collect()
    }

    /// The holes of a crossing on a diagonal, hole 1 nearest the keel; in the keel rabbet, along it.
    fn holes(&self, lies: &Lies, room: [f64; 2]) -> Vec<Spot> {
        let classes = self.map.classes(lies.id);
        let many = classes.len().max(1);
        let rabbet = matches!(lies.member, Member::Keel(_));
        let columns = if rabbet { many } else { columns(many, room) };
        let rows = many.div_ceil(columns);
        let diagonal = columns == 1 && rows > 1;
        let place = |at: usize| {
            let (row, column) = (at / columns, at % columns);
            let along = match (diagonal, row.is_multiple_of(2)) {
                // On a diagonal, so that no two share a line of grain.
                (true, true) => 0.7,
                (true, false) => 0.3,
                (false, _) => (column as f64 + 0.5) / columns as f64,
            };
            [along, (row as f64 + 0.5) / rows as f64]
        };
        let among = share(columns, rows);
        let spot = |(at, class): (usize, &Class)| Spot {
            class: *class,
            at: place(at),
            count: 1,
            among,
        };
        classes.iter().enumerate().map(spot).collect()
    }
}

/// How many marks share a room, along and across. On a diagonal they want more than the width of
/// one, and less than the height of all.
fn share(columns: usize, rows: usize) -> [f64; 2] {
    match (columns, rows) {
        (1, 2..) => [1.6, 0.8 * rows as f64],
        _ => [columns as f64, rows as f64],
    }
}

/// In how many columns so many marks are largest in a room; in one where it hardly matters.
fn columns(many: usize, room: [f64; 2]) -> usize {
    let size = |columns: usize| {
        let [wide, high] = share(columns, many.div_ceil(columns));
        // Beyond this they grow no more.
        (room[0] / wide).min(room[1] / high).min(MOST_ROOM)
    };
    let better = |best: usize, columns: usize| match size(columns) > 1.15 * size(best) {
        true => columns,
        false => best,
    };
    (1..=many.min(8)).fold(1, better)
}

impl By {
    /// What is counted of each mark.
    pub(super) const fn counted(self) -> &'static str {
        match self {
            Self::Metal | Self::Age | Self::State => "holes",
            Self::Hold | Self::Findings => "crossings",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::columns;

    #[test]
    fn marks_stand_in_as_many_columns_as_keep_them_large() {
        assert_eq!(columns(1, [20.0, 10.0]), 1);
        assert_eq!(columns(2, [12.0, 20.0]), 1);
        assert_eq!(columns(2, [60.0, 40.0]), 1);
        assert_eq!(columns(3, [20.0, 12.0]), 2);
        assert_eq!(columns(8, [8.0, 100.0]), 1);
    }
}
