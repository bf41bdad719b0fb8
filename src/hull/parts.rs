//! What an owner wrote about a hull, each value read, none yet fitted to another.

use super::{
    CrossingId, JointKind, Mark, Member, MemberPicks, Numbering, Particulars, Places, Scantlings,
    StrakeName, Strakes, Water,
};
use crate::joint::Zone;
use crate::tables::{ButtRule, GaugeSystem, Metal, Wood};
use crate::text::Origin;
use crate::units::{Area, Length, Units};

/// Something an owner wrote, with where it was written.
#[derive(Clone, Debug)]
pub struct Placed<T> {
    /// Where.
    pub origin: Origin,
    /// What.
    pub is: T,
}

/// Strakes as the owner laid them out in one line.
#[derive(Clone, Debug)]
pub struct Laid {
    /// Which strakes.
    pub planks: Strakes,
    /// The members they cross.
    pub across: MemberPicks,
    /// Thickness of the planking.
    pub thickness: Option<Length>,
    /// Width of a plank.
    pub width: Option<Length>,
    /// Its wood.
    pub wood: Option<&'static Wood>,
}

/// What the owner calls some strakes.
#[derive(Clone, Debug)]
pub struct LaidNames {
    /// Which strakes.
    pub planks: Strakes,
    /// Their name.
    pub name: StrakeName,
    /// Where it was written.
    pub origin: Origin,
}

/// A zone that the waterline does not tell.
#[derive(Clone, Debug)]
pub struct ZoneRule {
    /// How wet.
    pub zone: Zone,
    /// Where.
    pub place: Places,
}

/// Other metal in or on the wood.
#[derive(Clone, Debug)]
pub struct Hardware {
    /// What it is, in the owner's words.
    pub what: String,
    /// Its metal; `None` where it is not known.
    pub metal: Option<&'static Metal>,
    /// The crossings it lies on.
    pub crossings: Vec<CrossingId>,
    /// How much of it faces the water or the wood.
    pub area: Option<Area>,
    /// Whether it is an anode, there to be eaten.
    pub is_anode: bool,
    /// Where it was written.
    pub origin: Origin,
}

/// A piece let into the face of a plank, as the owner wrote it. `None` stands for what is not
/// known.
#[derive(Clone, Debug)]
pub struct GravingParts {
    /// Where.
    pub place: Places,
    /// How wide it is.
    pub width: Option<Length>,
    /// Its wood.
    pub wood: Option<&'static Wood>,
    /// Whether it is glued in.
    pub glued: Option<bool>,
}

/// A piece let into the face of a plank.
#[derive(Clone, Debug)]
pub struct GravingPiece {
    /// The crossings it lies over.
    pub crossings: Vec<CrossingId>,
    /// How wide it is.
    pub width: Option<Length>,
    /// Its wood.
    pub wood: Option<&'static Wood>,
    /// Whether it is glued in.
    pub glued: Option<bool>,
}

/// Which of several published practices she is judged by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Practice {
    /// Of keeping butts apart.
    pub butts: &'static ButtRule,
}

impl Default for Practice {
    fn default() -> Self {
        Self {
            butts: ButtRule::default(),
        }
    }
}

/// Everything the owner wrote about the hull, each value read, none yet fitted to another.
#[derive(Clone, Debug, Default)]
pub struct HullParts {
    /// Her name.
    pub boat: String,
    /// Her particulars.
    pub particulars: Particulars,
    /// Her water.
    pub water: Water,
    /// How she is numbered.
    pub numbering: Numbering,
    /// The screw gauges in use.
    pub gauges: GaugeSystem,
    /// The units to show.
    pub units: Units,
    /// The practices she is judged by.
    pub practice: Practice,
    /// Members and what they are of.
    pub members: Vec<Placed<(Vec<Member>, Scantlings)>>,
    /// Strakes.
    pub strakes: Vec<Placed<Laid>>,
    /// What strakes are called.
    pub names: Vec<LaidNames>,
    /// Marks of the waterline.
    pub waterline: Vec<Placed<Mark>>,
    /// Other zones.
    pub zones: Vec<Placed<ZoneRule>>,
    /// Joints: where, and what.
    pub joints: Vec<Placed<(Places, JointKind)>>,
    /// Other metal.
    pub hardware: Vec<Placed<HardwareParts>>,
    /// Pieces let into planks.
    pub graving_pieces: Vec<Placed<GravingParts>>,
    /// Whether something in it could not be read, so that what is missing proves nothing.
    pub incomplete: bool,
}

/// Other metal as the owner wrote it.
#[derive(Clone, Debug)]
pub struct HardwareParts {
    /// What it is.
    pub what: String,
    /// Its metal; `None` where it is not known.
    pub metal: Option<&'static Metal>,
    /// Where it is.
    pub place: Places,
    /// How much of it there is.
    pub area: Option<Area>,
    /// Whether it is an anode, there to be eaten.
    pub is_anode: bool,
}
