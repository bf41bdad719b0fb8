//! The holes that a fastening wants, each with a drill and a depth stop: here those of a wood
//! screw.

use super::{Plug, Seat, Timber};
use crate::tables::{Drill, Family, GaugeSystem, LeadHole, Metal, Screw, Series, Table};
use crate::units::Length;

/// One hole: how wide it should be, what to bore it with, and where to stop.
#[derive(Clone, Copy, Debug)]
pub struct Hole {
    /// The diameter asked for.
    pub exact: Length,
    /// What to bore it with; `None` where no drill of the sets at hand will do.
    pub bit: Option<Bit>,
    /// Depth stop, from the face of the plank.
    pub depth: Length,
}

/// What a hole is bored with.
#[derive(Clone, Copy, Debug)]
pub enum Bit {
    /// A straight drill.
    Drill(&'static Drill),
    /// A counterbore bit of this diameter.
    Counterbore(Length),
    /// A taper bit made for this screw: shank hole and pilot in one.
    Taper(&'static Screw),
}

impl Bit {
    /// Its diameter, where it has only one.
    pub fn diameter(self) -> Option<Length> {
        match self {
            Self::Drill(drill) => Some(drill.diameter),
            Self::Counterbore(diameter) => Some(diameter),
            Self::Taper(_) => None,
        }
    }
}

/// Everything to be bored for one fastening.
#[derive(Clone, Debug, Default)]
pub struct Holes {
    /// The flat-bottomed hole of the bung; none under stopping or with the head flush.
    pub counterbore: Option<Hole>,
    /// Clearance for the plain shank; of a nail the wider hole in the plank, if it has one.
    pub shank: Option<Hole>,
    /// The lead hole of the thread or the point; none where it hangs on the member's wood and that
    /// is not known.
    pub pilot: Option<Hole>,
    /// The choices behind a screw's lead hole.
    pub lead: Option<Lead>,
    /// The published ways of boring for the other kinds, each with its source; the first is the
    /// one that was taken.
    pub choices: Vec<String>,
}

/// The choices behind the lead hole of a screw.
#[derive(Clone, Copy, Debug)]
pub struct Lead {
    /// Its share of the thread root, in percent.
    pub percent: u8,
    /// Whether the member's wood is in the dense class.
    pub dense: bool,
    /// How deep, and by which source.
    pub reach: Reach,
    /// The drill that Plate 6B prints for the same, where it has the gauge: the published charts
    /// disagree by a drill or two.
    pub chart: Option<&'static str>,
}

/// How deep a lead hole goes. The published rules differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// To the point of the screw: a soft metal in dense wood twists off in a shorter hole.
    ToThePoint,
    /// To half the thread.
    HalfTheThread,
    /// To the point, because one taper bit bores shank hole and pilot together.
    Taper,
}

impl Reach {
    /// Which source says so.
    pub const fn source(self) -> &'static str {
        match self {
            Self::ToThePoint => {
                "Canadian Wood Council, screws: lead holes nearly full depth for bronze and brass (read in the source)"
            }
            Self::HalfTheThread => {
                "Plate 6B wood-screw pilot-hole chart: pilot to half the threaded length (read in the source)"
            }
            Self::Taper => {
                "common practice, no source: a taper bit bores shank hole and pilot in one, to the point"
            }
        }
    }
}

/// What the user owns to bore with, and by which rule.
#[derive(Clone, Copy, Debug)]
pub struct Kit<'a> {
    /// The sets of straight drills.
    pub drills: &'a [Series],
    /// Whether taper bits made for each gauge are at hand.
    pub taper: bool,
    /// The rule for lead holes.
    pub lead_hole: &'static LeadHole,
}

/// The holes for a screw in its seat.
///
/// - Counterbore: as wide as the bung, as deep as the bung; what it must clear is the largest
///   head that the standard allows.
/// - Shank hole: the smallest drill that clears the nominal shank, to max(*t*, *c + L − T*), so
///   that a long plain shank is free in the member too. Plate 6B prints the same or a hair
///   smaller (read).
/// - Pilot: a share of the thread *root* by the member's specific gravity (oven-dry), nearest
///   drill; see [`LeadHole`]. Its depth is [`Reach`]'s.
pub fn bore(
    screw: &'static Screw,
    seat: &Seat,
    plug: &Plug,
    member: Option<Timber>,
    metal: Option<&Metal>,
    kit: Kit<'_>,
) -> Holes {
    let counterbore = match plug {
        Plug::Bung(bung) => Some(Hole {
            exact: screw
                .head
                .as_ref()
                .map_or(bung.diameter, |head| head.largest),
            bit: Some(Bit::Counterbore(bung.diameter)),
            depth: seat.head_depth,
        }),
        Plug::Unknown | Plug::None | Plug::Stopping => None,
    };
    let shank = Hole {
        exact: screw.shank,
        bit: if kit.taper {
            Some(Bit::Taper(screw))
        } else {
            Drill::at_least(kit.drills, screw.shank).map(Bit::Drill)
        },
        depth: if kit.taper {
            seat.point()
        } else {
            seat.plank.max(seat.thread_begins())
        },
    };
    let (pilot, lead) = match member {
        Some(wood) => {
            let (hole, lead) = pilot(screw, seat, wood, metal, kit);
            (Some(hole), Some(lead))
        }
        None => (None, None),
    };
    Holes {
        counterbore,
        shank: Some(shank),
        pilot,
        lead,
        choices: Vec::new(),
    }
}

fn pilot(
    screw: &'static Screw,
    seat: &Seat,
    wood: Timber,
    metal: Option<&Metal>,
    kit: Kit<'_>,
) -> (Hole, Lead) {
    let rule = kit.lead_hole;
    let gravity = wood.oven_dry().value;
    let dense = gravity >= rule.dense_from;
    let percent = rule.percent(gravity);
    let exact = screw.root.share(i64::from(percent), 100);
    // A metal that nobody knows is bored for as if it were soft: the deeper hole harms no other.
    let soft_metal = metal.is_none_or(|metal| {
        matches!(
            metal.family,
            Family::Bronze | Family::Brass | Family::Copper
        )
    });
    let reach = if kit.taper {
        Reach::Taper
    } else if dense && soft_metal {
        Reach::ToThePoint
    } else {
        Reach::HalfTheThread
    };
    let depth = match reach {
        Reach::ToThePoint | Reach::Taper => seat.point(),
        Reach::HalfTheThread => seat.point() - seat.thread.share(1, 2),
    };
    let bit = if kit.taper {
        Some(Bit::Taper(screw))
    } else {
        Drill::nearest(kit.drills, exact).map(Bit::Drill)
    };
    let lead = Lead {
        percent,
        dense,
        reach,
        chart: plate_6b(screw, dense),
    };
    (Hole { exact, bit, depth }, lead)
}

/// The pilot drill that Plate 6B prints (read) for an American gauge.
fn plate_6b(screw: &Screw, dense: bool) -> Option<&'static str> {
    if screw.system != GaugeSystem::American {
        return None;
    }
    let gauge = screw.gauge?.to_string();
    let plate = Table::all()
        .iter()
        .find(|table| table.name == "lead-holes-plate")?;
    let row = plate
        .rows
        .iter()
        .find(|row| row.first().is_some_and(|cell| cell.text == gauge))?;
    let wanted = if dense { "hard drill" } else { "soft drill" };
    let column = plate
        .columns
        .iter()
        .position(|column| column.name == wanted)?;
    row.get(column).map(|cell| cell.text)
}
