//! Entries about planks and members, read and written.

use super::log::RawEntry;
use super::log_line::Line;
use super::{Given, Reader};
use crate::hull::Places;
use crate::record::{Deed, Did, NewMember, NewPlank};
use crate::text::Misread;
use crate::units::{Length, Units};

/// Reads what was done to the wood; `None` where its fault is told, and for any other deed.
pub(super) fn deed(
    raw: &RawEntry,
    fields: &mut Reader<'_>,
    did: Did,
    place: Option<&Places>,
) -> Option<Deed> {
    if place.is_some_and(super::hull::names_holes) {
        let misread = Misread::new(format!("`{did}` is done to whole crossings"));
        fields.fault("place", misread.help("leave the holes out of the place"));
    }
    Some(match did {
        Did::PlankOff => Deed::PlankOff,
        Did::PlankHung => {
            for (key, given) in [("thickness", &raw.thickness), ("wood", &raw.wood)] {
                if matches!(given, Given::Missing) {
                    let misread = Misread::new(format!("`{key}` is missing"));
                    fields.whole(misread.help("`unknown` will do, but little can be judged then"));
                }
            }
            Deed::PlankHung(Box::new(NewPlank {
                thickness: fields.maybe_size("thickness", &raw.thickness),
                wood: fields.wood(&raw.wood),
                joints: fields.read("joints", &raw.joints),
            }))
        }
        Did::Faired => {
            let off: Length = fields.need("off", &raw.off)?;
            if off == Length::ZERO {
                let misread = Misread::new("nothing was taken off");
                fields.fault(
                    "off",
                    misread.help("where nothing came off, nothing is logged"),
                );
                return None;
            }
            Deed::Faired(off)
        }
        Did::Sistered => Deed::Sistered(member(raw, fields)),
        Did::FrameRenewed => Deed::FrameRenewed(member(raw, fields)),
        _ => return None,
    })
}

fn member(raw: &RawEntry, fields: &mut Reader<'_>) -> NewMember {
    NewMember {
        siding: fields.maybe_size("siding", &raw.siding),
        depth: fields.maybe_size("moulding", &raw.moulding),
        wood: fields.wood(&raw.wood),
    }
}

/// Adds what only such a deed tells.
pub(super) fn write(line: &mut Line, deed: &Deed, units: Units) {
    match deed {
        Deed::PlankHung(plank) => {
            let thickness = plank.thickness.map(|thickness| thickness.written(units));
            line.word(
                "thickness",
                Some(thickness.unwrap_or_else(|| "unknown".to_owned())),
            );
            line.quoted("wood", Some(plank.wood.map_or("unknown", |wood| wood.name)));
            line.word("joints", plank.joints.as_ref());
        }
        Deed::Faired(off) => line.word("off", Some(off.written(units))),
        Deed::Sistered(member) | Deed::FrameRenewed(member) => {
            line.word("siding", member.siding.map(|siding| siding.written(units)));
            line.word("moulding", member.depth.map(|depth| depth.written(units)));
            line.quoted("wood", member.wood.map(|wood| wood.name));
        }
        _ => {}
    }
}
