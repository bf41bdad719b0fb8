//! Frames, beams, ends, and the strakes across them.

use super::super::slips;
use super::{Given, Piece, Reader, Text, read};
use crate::hull::{
    End, Laid, LaidNames, Member, MemberKind, MemberPick, MemberPicks, Placed, Runs, Scantlings,
    StrakeName, Strakes,
};
use crate::joint::Grain;
use crate::text::{Fault, Misread};

crate::record! {
    /// What strakes are called.
    struct RawNames {
        planks: Text = "planks",
        name: Text = "name",
    }
}

crate::record! {
    /// Frames or beams of one size.
    struct RawMembers {
        number: Text = "number",
        spacing: Text = "spacing",
        siding: Text = "siding",
        moulding: Text = "moulding",
        wood: Text = "wood",
        grain: Text = "grain",
    }
}

crate::record! {
    /// A stem, sternpost, horn timber, transom or keel.
    struct RawEnd {
        member: Text = "member",
        siding: Text = "siding",
        landing_depth: Text = "landing depth",
        wood: Text = "wood",
        grain: Text = "grain",
    }
}

crate::record! {
    /// Strakes of one size.
    struct RawStrakes {
        planks: Text = "planks",
        across: Text = "across",
        thickness: Text = "thickness",
        width: Text = "width",
        wood: Text = "wood",
    }
}

type Members = Placed<(Vec<Member>, Scantlings)>;

pub(super) fn frames(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Members> {
    numbered(piece, MemberKind::Frame, faults)
}

pub(super) fn beams(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Members> {
    numbered(piece, MemberKind::Beam, faults)
}

fn numbered(piece: &Piece<'_>, kind: MemberKind, faults: &mut Vec<Fault>) -> Option<Members> {
    let Given::Is(raw) = read::<RawMembers>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    let numbers: Option<Runs> = fields.need("number", &raw.number);
    let scantlings = Scantlings {
        siding: fields.maybe_size("siding", &raw.siding),
        depth: fields.maybe_size("moulding", &raw.moulding),
        spacing: fields.maybe_size("spacing", &raw.spacing),
        wood: fields.wood(&raw.wood),
        grain: fields.read("grain", &raw.grain).unwrap_or(Grain::Side),
    };
    let members = numbers?
        .0
        .iter()
        .flat_map(|run| run.numbers())
        .map(|n| kind.member(n, End::Fwd))
        .collect();
    Some(Placed {
        origin: piece.origin,
        is: (members, scantlings),
    })
}

pub(super) fn end(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Members> {
    let Given::Is(raw) = read::<RawEnd>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    let picks: Option<MemberPicks> = fields.need("member", &raw.member);
    let scantlings = Scantlings {
        siding: fields.maybe_size("siding", &raw.siding),
        depth: fields.maybe_size("landing depth", &raw.landing_depth),
        spacing: None,
        wood: fields.wood(&raw.wood),
        grain: fields.read("grain", &raw.grain).unwrap_or(Grain::Side),
    };
    let picks = picks?;
    let is_end = |kind| {
        !matches!(
            kind,
            None | Some(MemberKind::Frame | MemberKind::Beam | MemberKind::Butt)
        )
    };
    if !picks
        .0
        .iter()
        .all(|pick| is_end(pick.kind) && pick.holes.is_any())
    {
        let written = raw.member.as_ref().map_or("", Text::as_str);
        let misread = Misread::new(format!("`{}` is not an end", written.trim()));
        fields.fault(
            "member",
            misread
                .help("one of stem, sternpost, horn timber, transom, or the keel rabbet as K1-44"),
        );
        return None;
    }
    let members = picks.0.iter().flat_map(MemberPick::members).collect();
    Some(Placed {
        origin: piece.origin,
        is: (members, scantlings),
    })
}

pub(super) fn names(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<LaidNames> {
    let Given::Is(raw) = read::<RawNames>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    let planks: Option<Strakes> = fields.need("planks", &raw.planks);
    let name: Option<StrakeName> = fields.need("name", &raw.name);
    Some(LaidNames {
        planks: planks?,
        name: name?,
        origin: piece.origin,
    })
}

pub(super) fn strakes(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Placed<Laid>> {
    let told = faults.len();
    let Given::Is(raw) = read::<RawStrakes>(piece, faults) else {
        return None;
    };
    let cut = slips::place_was_cut(faults.get(told..).unwrap_or_default());
    let mut fields = Reader::new(piece.origin, faults);
    let planks: Option<Strakes> = fields.need("planks", &raw.planks);
    let across: Option<MemberPicks> = fields.need("across", &raw.across);
    if matches!(raw.thickness, Given::Missing) {
        let misread = Misread::new("`thickness` is missing");
        fields.whole(
            misread.help("like 7/8in; `unknown` will do, but little can be judged without it"),
        );
    }
    let thickness = fields.maybe_size("thickness", &raw.thickness);
    let width = fields.maybe_size("width", &raw.width);
    let wood = fields.wood(&raw.wood);
    let planks = planks.filter(|_| !cut);
    Some(Placed {
        origin: piece.origin,
        is: Laid {
            planks: planks?,
            across: across?,
            thickness,
            width,
            wood,
        },
    })
}
