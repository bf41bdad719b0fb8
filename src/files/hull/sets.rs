//! Sets of fastenings.

use std::str::FromStr;

use super::super::{OneOrMany, slips};
use super::{Given, Piece, Reader, Text, read};
use crate::hull::{Holes, Places};
use crate::joint::{Kind, Plug};
use crate::record::{How, Relation, SetParts, Unread};
use crate::tables::GaugeSystem;
use crate::text::{Fault, Misread, digits};
use crate::units::When;

crate::record! {
    /// A set of fastenings.
    struct RawSet {
        set: Text = "set",
        place: Text = "place",
        per_crossing: Text = "per crossing",
        kind: Text = "kind",
        metal: Text = "metal",
        size: Text = "size",
        bung: Text = "bung",
        driven: Text = "driven",
        how: Text = "how",
        replaces: OneOrMany = "replaces",
        leaves_in: OneOrMany = "leaves in",
        adds_to: OneOrMany = "adds to",
    }
}

/// Reads one set. Where it cannot be taken, `unread` keeps what is known of it, so that the rest
/// of the book is not blamed for its absence.
pub(super) fn set(
    piece: &Piece<'_>,
    gauges: GaugeSystem,
    unread: &mut Unread,
    faults: &mut Vec<Fault>,
) -> Option<SetParts> {
    let told = faults.len();
    let Given::Is(raw) = read::<RawSet>(piece, faults) else {
        return None;
    };
    let shape = faults.get(told..).unwrap_or_default();
    let (shaky, cut) = (!shape.is_empty(), slips::place_was_cut(shape));
    let mut fields = Reader::new(piece.origin, faults);
    let name: Option<SetName> = fields.need("set", &raw.set);
    let place: Option<Places> = fields.need("place", &raw.place);
    let per_crossing = fields.per_crossing(place.as_ref(), &raw.per_crossing);
    let kind: Option<Kind> = fields.need("kind", &raw.kind);
    let metal = fields.metal_of(kind, &raw.metal);
    let size = kind.and_then(|kind| fields.size(&raw.size, kind, gauges));
    let plug = fields.read("bung", &raw.bung).unwrap_or(Plug::Unknown);
    let driven = fields.read("driven", &raw.driven).unwrap_or(When::Unknown);
    let how = fields.read("how", &raw.how).unwrap_or(How::Unknown);
    let mut related = |key, texts| {
        let names: Option<Vec<SetName>> = fields.read_many(key, texts);
        names.map(|names| names.into_iter().map(|name| name.0).collect::<Vec<_>>())
    };
    let (replaces, leaves_in, adds_to) = (
        related("replaces", &raw.replaces),
        related("leaves in", &raw.leaves_in),
        related("adds to", &raw.adds_to),
    );
    let unrelated = replaces.is_none() || leaves_in.is_none() || adds_to.is_none();
    let relation = Relation {
        replaces: replaces.unwrap_or_default(),
        leaves_in: leaves_in.unwrap_or_default(),
        adds_to: adds_to.unwrap_or_default(),
    };
    let place_text = raw.place.as_ref().map(Text::as_str);
    match (name, place.filter(|_| !cut), per_crossing, kind) {
        (Some(name), Some(place), Some(per_crossing), Some(kind)) => {
            if shaky || unrelated {
                // How it stands to the others is not sure, so an overlap proves nothing.
                unread.places.push(place.clone());
            }
            Some(SetParts {
                name: name.0,
                place,
                per_crossing,
                kind,
                metal,
                size,
                plug,
                driven,
                how,
                relation,
                origin: piece.origin,
            })
        }
        (name, place, ..) => {
            unread.sets.extend(name.map(|name| name.0));
            unread
                .places
                .extend(place.or_else(|| slips::whole_planks(place_text?)));
            None
        }
    }
}

impl Reader<'_> {
    /// How many fastenings go into each crossing of a place: `Some(None)` where the place names
    /// its holes and so says it, `None` where the fault is told.
    pub(in crate::files) fn per_crossing(
        &mut self,
        place: Option<&Places>,
        text: &Given<Text>,
    ) -> Option<Option<u8>> {
        const KEY: &str = "per crossing";
        if !place.is_some_and(names_holes) {
            return self.need::<PerCrossing>(KEY, text).map(|n| Some(n.0));
        }
        if !place.is_some_and(names_only_holes) {
            let misread = Misread::new("some crossings here name their holes and some do not");
            self.fault(
                "place",
                misread.help("name holes everywhere or nowhere; two lines can say the rest"),
            );
            return None;
        }
        if !matches!(text, Given::Missing) {
            let misread = Misread::new("a place that names its holes says how many there are");
            self.misplaced(KEY, misread.help("leave `per crossing` out"));
        }
        Some(None)
    }
}

/// Whether a place names holes by number.
pub(in crate::files) fn names_holes(place: &Places) -> bool {
    place
        .0
        .iter()
        .flat_map(|place| &place.members)
        .any(|pick| !pick.holes.is_any())
}

/// Whether a place names holes in every crossing of it.
fn names_only_holes(place: &Places) -> bool {
    let mut picks = place.0.iter().flat_map(|place| &place.members);
    picks.all(|pick| !pick.holes.is_any())
}

/// The name of a set: a few words.
pub(in crate::files) struct SetName(pub(in crate::files) String);

impl FromStr for SetName {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        few_words(text, "set", "collision repair").map(Self)
    }
}

/// A name that an owner gives: at most 60 letters. `of` is what is named, and `like` a name of one.
pub(in crate::files) fn few_words(text: &str, of: &str, like: &str) -> Result<String, Misread> {
    const MOST: usize = 60;
    let name = text.trim();
    if name.chars().count() > MOST {
        let misread = Misread::new(format!("the name of a {of} is at most {MOST} letters long"));
        return Err(misread.help(format!("a few words will do, like `{like}`")));
    }
    Ok(name.to_owned())
}

/// How many fastenings are at each crossing.
pub(in crate::files) struct PerCrossing(pub(in crate::files) u8);

impl FromStr for PerCrossing {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let count = digits(text.trim()).filter(|n| (1..=Holes::MOST).contains(n));
        count.map(Self).ok_or_else(|| {
            Misread::new(format!("`{}` is not a number of fastenings", text.trim()))
                .help(format!("a whole number from 1 to {}", Holes::MOST))
        })
    }
}
