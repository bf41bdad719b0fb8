//! The metals that lie together on a crossing, and how much of each there is.

use std::collections::BTreeMap;

use super::{At, Survey};
use crate::hull::{CrossingId, Hardware};
use crate::joint::surface;
use crate::record::{Content, Hole};
use crate::tables::{Family, Metal};
use crate::units::Area;

/// All of one metal that is in a crossing.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lot<'s> {
    pub(super) metal: &'static Metal,
    /// What it is, where it is not fastenings.
    pub(super) hardware: Option<&'s str>,
    /// How many fastenings.
    pub(super) count: usize,
    /// Whether any of them is counted on to hold.
    pub(super) relied_on: bool,
    /// How much of it there is; `None` where a size or an area is not known, or one is broken off.
    pub(super) area: Option<Area>,
}

impl<'s> Lot<'s> {
    /// A piece of hardware where it lies on one crossing: its area is shared out evenly among the
    /// crossings it lies on. `None` for an anode and for a metal that is not known.
    pub(super) fn of_hardware(piece: &'s Hardware) -> Option<Self> {
        let crossings = piece.crossings.len() as f64;
        let share = |area: Area| Area::from_mm2(area.mm2() / crossings);
        Some(Self {
            metal: piece
                .metal
                .filter(|metal| !piece.is_anode && is_judged(metal))?,
            hardware: Some(&piece.what),
            count: 0,
            relied_on: false,
            area: piece.area.map(share),
        })
    }

    pub(super) fn is(&self, metal: &Metal) -> bool {
        std::ptr::eq(self.metal, metal)
    }

    pub(super) fn name(&self) -> String {
        match self.hardware {
            Some(what) => format!("{} ({what})", self.metal.name),
            None => self.metal.name.to_owned(),
        }
    }
}

/// Zinc is there to be eaten.
fn is_judged(metal: &Metal) -> bool {
    metal.family != Family::Zinc
}

/// The other metal that lies on each crossing.
pub(super) fn lying<'s>(survey: &'s Survey<'_>) -> BTreeMap<CrossingId, Vec<&'s Hardware>> {
    let mut lying: BTreeMap<_, Vec<_>> = BTreeMap::new();
    for piece in &survey.hull.hardware {
        for crossing in &piece.crossings {
            lying.entry(*crossing).or_default().push(piece);
        }
    }
    lying
}

/// The metals of a crossing's fastenings.
pub(super) fn lots<'s>(survey: &Survey<'_>, at: &At<'_>) -> Vec<Lot<'s>> {
    let mut lots: Vec<Lot<'s>> = Vec::new();
    for hole in at.holes.iter().filter(|hole| hole.has_metal()) {
        let metal = survey.fastening(hole).metal;
        let Some(metal) = metal.filter(|metal| is_judged(metal)) else {
            continue;
        };
        let (relied_on, area) = (hole.is_relied_on(), area(survey, hole));
        match lots.iter_mut().find(|lot| lot.is(metal)) {
            Some(lot) => {
                lot.count += 1;
                lot.relied_on |= relied_on;
                let both = lot.area.zip(area);
                lot.area = both.map(|(one, other)| Area::from_mm2(one.mm2() + other.mm2()));
            }
            None => lots.push(Lot {
                metal,
                hardware: None,
                count: 1,
                relied_on,
                area,
            }),
        }
    }
    // Mostly one, of many crossings.
    lots.shrink_to_fit();
    lots
}

/// How much of a fastening's metal is in its hole; of a stub nobody knows.
fn area(survey: &Survey<'_>, hole: &Hole) -> Option<Area> {
    let whole = matches!(hole.content, Content::InPlace(_) | Content::LeftIn(_));
    let fastening = survey.fastening(hole);
    surface(fastening.kind, fastening.size.filter(|_| whole)?)
}
