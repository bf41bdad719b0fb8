//! The waterline, zones, joints, and other metal in the planking.

use std::str::FromStr;

use super::{Given, PerCrossing, Piece, Reader, Text, read};
use crate::hull::{Block, GravingParts, HardwareParts, JointKind, Mark, Placed, Places, ZoneRule};
use crate::joint::Zone;
use crate::tables::Family;
use crate::text::{Fault, Misread, words};
use crate::units::Area;

crate::record! {
    /// A zone the waterline does not tell.
    struct RawZone {
        zone: Text = "zone",
        place: Text = "place",
    }
}

crate::record! {
    /// A butt block.
    struct RawBlock {
        thickness: Text = "thickness",
        wood: Text = "wood",
    }
}

crate::record! {
    /// A joint in a strake.
    struct RawJoint {
        at: Text = "at",
        kind: Text = "kind",
        block: RawBlock = "block",
        per_end: Text = "per end",
        slope: Text = "slope",
        glued: Text = "glued",
    }
}

crate::record! {
    /// A piece let into the face of a plank.
    struct RawGraving {
        place: Text = "place",
        width: Text = "width",
        wood: Text = "wood",
        glued: Text = "glued",
    }
}

crate::record! {
    /// Other metal.
    struct RawHardware {
        what: Text = "what",
        metal: Text = "metal",
        place: Text = "place",
        area: Text = "area",
        anode: Text = "anode",
    }
}

words! {
    /// The kinds of joint.
    Jointing, "a kind of joint" {
        /// End to end.
        Butt = "butt",
        /// On a slant.
        Scarf = "scarf" | "scarph",
    }
}

words! {
    /// A plain yes or no.
    YesNo, "an answer here" {
        /// Yes.
        Yes = "yes" | "true",
        /// No.
        No = "no" | "false",
    }
}

pub(super) fn mark(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Placed<Mark>> {
    let Given::Is(text) = read::<Text>(piece, faults) else {
        return None;
    };
    let mark = text.as_str().parse();
    let is = mark
        .map_err(|misread| faults.push(Fault::misread(Some(piece.origin), Vec::new(), misread)))
        .ok()?;
    Some(Placed {
        origin: piece.origin,
        is,
    })
}

pub(super) fn zone(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Placed<ZoneRule>> {
    let Given::Is(raw) = read::<RawZone>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    let zone: Option<Zone> = fields.need("zone", &raw.zone);
    let place: Option<Places> = fields.need("place", &raw.place);
    Some(Placed {
        origin: piece.origin,
        is: ZoneRule {
            zone: zone?,
            place: place?,
        },
    })
}

pub(super) fn joint(
    piece: &Piece<'_>,
    faults: &mut Vec<Fault>,
) -> Option<Placed<(Places, JointKind)>> {
    let Given::Is(raw) = read::<RawJoint>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    let at: Option<Places> = fields.need("at", &raw.at);
    let graving = raw
        .kind
        .as_ref()
        .is_some_and(|kind| kind.as_str().contains("graving"));
    if graving {
        let misread = Misread::new("a graving piece ends no plank, so it is no joint");
        fields.fault("kind", misread.help("list it under `graving pieces`"));
        return None;
    }
    let kind: Option<Jointing> = fields.need("kind", &raw.kind);
    let block = raw.block.as_ref().map(|block| {
        let mut inside = fields.inside("block");
        Block {
            thickness: inside.maybe_size("thickness", &block.thickness),
            wood: inside.wood(&block.wood),
        }
    });
    let per_end = fields
        .maybe::<PerCrossing>("per end", &raw.per_end)
        .map(|n| n.0);
    let slope = fields
        .maybe::<Slope>("slope", &raw.slope)
        .map(|slope| slope.0);
    let glued = fields
        .maybe::<YesNo>("glued", &raw.glued)
        .map(|glued| glued == YesNo::Yes);
    let mut refuse = |key: &'static str, given: bool, kind: &str| {
        if given {
            fields.misplaced(
                key,
                Misread::new(format!("`{key}` does not go with a {kind}")).help("leave it out"),
            );
        }
    };
    let is = match kind? {
        Jointing::Butt => {
            refuse("slope", !matches!(raw.slope, Given::Missing), "butt");
            refuse("glued", !matches!(raw.glued, Given::Missing), "butt");
            JointKind::Butt { block, per_end }
        }
        Jointing::Scarf => {
            refuse("block", !matches!(raw.block, Given::Missing), "scarf");
            refuse("per end", !matches!(raw.per_end, Given::Missing), "scarf");
            JointKind::Scarf { slope, glued }
        }
    };
    Some(Placed {
        origin: piece.origin,
        is: (at?, is),
    })
}

/// Length over thickness of a scarf: `10`, `10:1`.
struct Slope(f64);

impl FromStr for Slope {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let text = text.trim();
        let number = text
            .strip_suffix(":1")
            .or_else(|| text.strip_prefix("1:"))
            .unwrap_or(text);
        let slope = number
            .parse()
            .ok()
            .filter(|slope| (1.0..=100.0).contains(slope));
        slope.map(Self).ok_or_else(|| {
            Misread::new(format!("`{text}` is not the slope of a scarf"))
                .help("how many times its thickness it is long: 10")
        })
    }
}

pub(super) fn graving(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Placed<GravingParts>> {
    let Given::Is(raw) = read::<RawGraving>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    let place: Option<Places> = fields.need("place", &raw.place);
    let width = fields.maybe_size("width", &raw.width);
    let wood = fields.wood(&raw.wood);
    let glued = fields
        .maybe::<YesNo>("glued", &raw.glued)
        .map(|glued| glued == YesNo::Yes);
    Some(Placed {
        origin: piece.origin,
        is: GravingParts {
            place: place?,
            width,
            wood,
            glued,
        },
    })
}

pub(super) fn hardware(
    piece: &Piece<'_>,
    faults: &mut Vec<Fault>,
) -> Option<Placed<HardwareParts>> {
    let Given::Is(raw) = read::<RawHardware>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    let what = fields.need_text("what", &raw.what);
    let place: Option<Places> = fields.need("place", &raw.place);
    let metal = fields.metal(&raw.metal);
    let area: Option<Area> = fields.maybe("area", &raw.area);
    if area.is_some_and(|area| area.mm2() <= 0.0) {
        let misread = Misread::new("the area is nothing");
        fields.fault(
            "area",
            misread.help("its face to the water or the wood, like 24 in2; or leave `area` out"),
        );
    }
    // Zinc lies on planking for nothing else.
    let is_anode = match fields.maybe::<YesNo>("anode", &raw.anode) {
        Some(anode) => anode == YesNo::Yes,
        None => metal.is_some_and(|metal| metal.family == Family::Zinc),
    };
    Some(Placed {
        origin: piece.origin,
        is: HardwareParts {
            what: what?,
            metal,
            place: place?,
            area,
            is_anode,
        },
    })
}
