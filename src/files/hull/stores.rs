//! What the owner has, and what his dealer sells it by.

use std::str::FromStr;

use super::{Given, Piece, Reader, Text, read};
use crate::joint::{Kind, Size};
use crate::refit::buy::{BoxOf, Money, Owned, Ware};
use crate::tables::{Drill, GaugeSystem, Series};
use crate::text::{Fault, Misread, digits, words};
use crate::units::Length;

crate::record! {
    /// A tool that is owned.
    struct RawOwn {
        tool: Text = "tool",
        set: Text = "set",
        size: Text = "size",
    }
}

crate::record! {
    /// What something is sold by.
    struct RawBox {
        of: Text = "of",
        metal: Text = "metal",
        size: Text = "size",
        wood: Text = "wood",
        holds: Text = "holds",
        price: Text = "price",
    }
}

words! {
    /// A sort of tool.
    Sort, "a tool that is kept account of" {
        /// A set of drills.
        Drills = "drills" | "set of drills",
        /// One drill.
        Drill = "drill",
        /// A counterbore bit.
        Counterbore = "counterbore",
        /// A cutter for bungs and plugs.
        PlugCutter = "plug cutter" | "bung cutter",
    }
}

pub(super) fn own(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Owned> {
    let Given::Is(raw) = read::<RawOwn>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    let sort: Sort = fields.need("tool", &raw.tool)?;
    let (takes, other) = match sort {
        Sort::Drills => (("set", &raw.set), ("size", &raw.size)),
        _ => (("size", &raw.size), ("set", &raw.set)),
    };
    if !matches!(other.1, Given::Missing) {
        let says = format!("`{}` does not go with `{sort}`", other.0);
        fields.misplaced(
            other.0,
            Misread::new(says).help(format!("give its `{}`", takes.0)),
        );
    }
    Some(match sort {
        Sort::Drills => {
            if matches!(raw.set, Given::Missing) {
                let misread = Misread::new("`set` is missing");
                fields.whole(misread.help("one of fraction, number, letter, metric"));
            }
            Owned::Drills(fields.read::<Series>("set", &raw.set)?)
        }
        Sort::Drill => {
            fields.need_text("size", &raw.size)?;
            Owned::Drill(fields.look_up("size", &raw.size, Drill::find)?)
        }
        Sort::Counterbore => Owned::Counterbore(fields.need::<Length>("size", &raw.size)?),
        Sort::PlugCutter => Owned::PlugCutter(fields.need::<Length>("size", &raw.size)?),
    })
}

/// What is in a box: a kind of fastening, or a ware.
enum Of {
    Kind(Kind),
    Ware(Ware),
}

impl FromStr for Of {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        if let Ok(ware) = text.parse() {
            return Ok(Self::Ware(ware));
        }
        let also = "like wood screw; `fastening` for any kind; bung, plug or dowel";
        text.parse()
            .map(Self::Kind)
            .map_err(|misread: Misread| match misread.help {
                Some(ref help) if help.starts_with("did you mean") => misread,
                _ => misread.help(also),
            })
    }
}

pub(super) fn box_of(
    piece: &Piece<'_>,
    gauges: GaugeSystem,
    faults: &mut Vec<Fault>,
) -> Option<BoxOf> {
    let Given::Is(raw) = read::<RawBox>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    let of: Option<Of> = fields.need("of", &raw.of);
    let holds: Option<Holds> = fields.need("holds", &raw.holds);
    let price: Option<Money> = fields.read("price", &raw.price);
    let metal = fields.metal(&raw.metal);
    let wood = fields.wood(&raw.wood);
    let of = of?;
    let (kind, ware) = match of {
        Of::Kind(kind) => (Some(kind), Ware::Fastening),
        Of::Ware(ware) => (None, ware),
    };
    let is_fastening = ware == Ware::Fastening;
    for (key, given, wrong, help) in [
        (
            "metal",
            &raw.metal,
            !is_fastening,
            "bungs, plugs and dowels are of a `wood`",
        ),
        (
            "wood",
            &raw.wood,
            is_fastening,
            "fastenings are of a `metal`",
        ),
    ] {
        if wrong && !matches!(given, Given::Missing) {
            let misread = Misread::new(format!("`{key}` does not go with `{ware}`"));
            fields.misplaced(key, misread.help(help));
        }
    }
    let mut size: Option<Size> = None;
    let mut diameter = None;
    match (kind, is_fastening) {
        (Some(kind), _) => size = fields.size(&raw.size, kind, gauges),
        (None, true) if !matches!(raw.size, Given::Missing) => {
            let misread = Misread::new("the size of a fastening hangs on its kind");
            fields.misplaced(
                "size",
                misread.help("name the kind in `of`: wood screw, rivet …"),
            );
        }
        (None, true) => {}
        (None, false) => diameter = fields.read::<Length>("size", &raw.size),
    }
    Some(BoxOf {
        ware,
        kind,
        metal,
        size,
        diameter,
        wood,
        holds: holds?.0,
        price,
    })
}

/// How many are in a box.
struct Holds(u32);

impl FromStr for Holds {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        const MOST: u32 = 1_000_000;
        let holds = digits(text.trim()).filter(|n| (1..=MOST).contains(n));
        holds.map(Self).ok_or_else(|| {
            Misread::new(format!("`{}` is not a number in a box", text.trim()))
                .help("a whole number, from 1")
        })
    }
}

/// What prices are in: a few letters or a sign.
pub(super) struct Currency(pub(super) String);

impl FromStr for Currency {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        const MOST: usize = 8;
        let text = text.trim();
        let fits = (1..=MOST).contains(&text.chars().count());
        let plain = !text.chars().any(|c| c.is_control() || c.is_ascii_digit());
        match fits && plain {
            true => Ok(Self(text.to_owned())),
            false => Err(Misread::new(format!("`{text}` is not a currency"))
                .help("a few letters or a sign: EUR, £")),
        }
    }
}
