//! What the boat is called and how she is numbered.

use super::{Given, Piece, Reader, Text, read};
use crate::hull::{FramesFrom, Numbering, Particulars, StrakesFrom};
use crate::text::Fault;
use crate::units::When;

crate::record! {
    /// What a surveyor writes at the head of a page.
    struct RawParticulars {
        builder: Text = "builder",
        designer: Text = "designer",
        kind: Text = "type",
        launched: Text = "launched",
        length: Text = "length",
        beam: Text = "beam",
        draught: Text = "draught",
        official_number: Text = "official number",
        owner: Text = "owner",
        home_port: Text = "home port",
        hauled: Text = "hauled",
        at: Text = "at",
    }
}

crate::record! {
    /// How the owner numbers the boat.
    struct RawNumbering {
        frames: Text = "frames",
        strakes: Text = "strakes",
    }
}

pub(super) fn particulars(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Particulars {
    let Given::Is(raw) = read::<RawParticulars>(piece, faults) else {
        return Particulars::default();
    };
    let mut fields = Reader::new(piece.origin, faults);
    let launched = fields
        .inside("particulars")
        .read("launched", &raw.launched)
        .unwrap_or(When::Unknown);
    let rest = [
        ("builder", &raw.builder),
        ("designer", &raw.designer),
        ("type", &raw.kind),
        ("length", &raw.length),
        ("beam", &raw.beam),
        ("draught", &raw.draught),
        ("official number", &raw.official_number),
        ("owner", &raw.owner),
        ("home port", &raw.home_port),
        ("hauled", &raw.hauled),
        ("at", &raw.at),
    ];
    let rest = rest
        .into_iter()
        .filter_map(|(what, text)| Some((what, text.as_ref()?.as_str().to_owned())))
        .collect();
    Particulars { launched, rest }
}

pub(super) fn numbering(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Numbering {
    let Given::Is(raw) = read::<RawNumbering>(piece, faults) else {
        return Numbering::default();
    };
    let mut fields = Reader::new(piece.origin, faults);
    let mut fields = fields.inside("numbering");
    Numbering {
        frames: fields
            .read("frames", &raw.frames)
            .unwrap_or(FramesFrom::Bow),
        strakes: fields
            .read("strakes", &raw.strakes)
            .unwrap_or(StrakesFrom::Keel),
    }
}
