//! `hull.yaml` read into a hull, its sets, limits and acceptances.

mod judging;
mod known;
mod members;
mod particulars;
mod planking;
mod sets;
mod stores;

use std::str::FromStr;

use super::record::MOST;
use super::{Body, Given, Part, Piece, Reader, Text, read, split_hull};
use crate::audit::Acceptance;
use crate::hull::HullParts;
use crate::record::{SetParts, Unread};
use crate::refit::buy::Stores;
use crate::tables::{Limit, Quantity};
use crate::text::{Fault, FileId, Misread, Origin, Step, nearest};

pub(super) use planking::YesNo;
use sets::PerCrossing;
pub(super) use sets::{SetName, few_words, names_holes};

/// The version of the files this program reads.
const VERSION: &str = "1";

/// The keys a hull file may have.
const KEYS: [&str; 24] = [
    "refasten",
    "boat",
    "particulars",
    "water",
    "numbering",
    "gauges",
    "show",
    "practice",
    "frames",
    "beams",
    "ends",
    "strakes",
    "names",
    "waterline",
    "zones",
    "joints",
    "graving pieces",
    "hardware",
    "sets",
    "limits",
    "accepted",
    "own",
    "boxes",
    "money",
];

/// Everything in a hull file, each value read.
#[derive(Debug, Default)]
pub(super) struct HullFile {
    pub(super) hull: HullParts,
    pub(super) sets: Vec<SetParts>,
    pub(super) limits: Vec<(&'static Limit, Quantity)>,
    pub(super) accepted: Vec<Acceptance>,
    pub(super) stores: Stores,
    pub(super) unread: Unread,
}

/// Reads the text of a hull file. What cannot be read is told and left out, or taken as unknown
/// where the rest of its record still says something.
pub(super) fn read_hull(text: &str, faults: &mut Vec<Fault>) -> HullFile {
    let mut file = HullFile::default();
    let parts = split_hull(text, faults);
    let top = Origin {
        file: FileId::Hull,
        byte: 0,
        line: 1,
    };
    for (needed, example) in [("refasten", "refasten: 1"), ("boat", "boat: her name")] {
        if !parts.iter().any(|part| part.key == needed) {
            let fault = Fault::new(Some(top), format!("`{needed}` is missing"));
            faults.push(fault.help(format!("begin the file with `{example}`")));
        }
    }
    // The gauge system is what a bare number means in every size, wherever it stands in the file.
    if let Some(part) = parts.iter().find(|part| part.key == "gauges") {
        file.hull.gauges = one(part, faults).unwrap_or_default();
    }
    for part in &parts {
        if faults.len() >= MOST {
            file.hull.incomplete = true;
            break;
        }
        file.take(part, faults);
    }
    file
}

impl HullFile {
    fn take(&mut self, part: &Part<'_>, faults: &mut Vec<Fault>) {
        match part.key {
            "refasten" => check_version(part, faults),
            "boat" => self.hull.boat = text(part, faults).unwrap_or_default(),
            "particulars" => {
                self.hull.particulars = value(part, faults)
                    .map(|piece| particulars::particulars(piece, faults))
                    .unwrap_or_default();
            }
            "water" => self.hull.water = one(part, faults).unwrap_or_default(),
            "numbering" => {
                self.hull.numbering = value(part, faults)
                    .map(|piece| particulars::numbering(piece, faults))
                    .unwrap_or_default();
            }
            "gauges" => {}
            "show" => self.hull.units = one(part, faults).unwrap_or_default(),
            "practice" => {
                self.hull.practice = value(part, faults)
                    .map(|piece| judging::practice(piece, faults))
                    .unwrap_or_default();
            }
            "frames" => self.essential(part, faults, members::frames, |hull| &mut hull.members),
            "beams" => self.essential(part, faults, members::beams, |hull| &mut hull.members),
            "ends" => self.essential(part, faults, members::end, |hull| &mut hull.members),
            "strakes" => self.essential(part, faults, members::strakes, |hull| &mut hull.strakes),
            "names" => self.essential(part, faults, members::names, |hull| &mut hull.names),
            "joints" => self.essential(part, faults, planking::joint, |hull| &mut hull.joints),
            "waterline" => self
                .hull
                .waterline
                .extend(each(part, faults, planking::mark)),
            "zones" => self.hull.zones.extend(each(part, faults, planking::zone)),
            "graving pieces" => {
                let pieces = each(part, faults, planking::graving);
                self.hull.graving_pieces.extend(pieces);
            }
            "hardware" => self
                .hull
                .hardware
                .extend(each(part, faults, planking::hardware)),
            "sets" => {
                for piece in items(part, faults) {
                    let set = sets::set(piece, self.hull.gauges, &mut self.unread, faults);
                    self.sets.extend(set);
                }
            }
            "limits" => self.limits.extend(each(part, faults, judging::limit)),
            "accepted" => self.accepted.extend(each(part, faults, judging::accepted)),
            "own" => self.stores.own.extend(each(part, faults, stores::own)),
            "boxes" => {
                for piece in items(part, faults) {
                    let of = stores::box_of(piece, self.hull.gauges, faults);
                    self.stores.boxes.extend(of);
                }
            }
            "money" => {
                let money: Option<stores::Currency> = one(part, faults);
                self.stores.money = money.map(|money| money.0);
            }
            unknown => {
                let fault = part.fault(format!("`{unknown}` is not a key of hull.yaml"));
                faults.push(match nearest(unknown, KEYS) {
                    Some(near) => fault.help(format!("did you mean `{near}`?")),
                    None => fault.help(format!("the keys are {}", KEYS.join(", "))),
                });
            }
        }
    }

    /// Reads the items of a list that the hull is made of. Where one cannot be read the hull is
    /// not whole, and what is missing in her proves nothing.
    fn essential<T>(
        &mut self,
        part: &Part<'_>,
        faults: &mut Vec<Fault>,
        read: fn(&Piece<'_>, &mut Vec<Fault>) -> Option<T>,
        list: fn(&mut HullParts) -> &mut Vec<T>,
    ) {
        self.hull.incomplete |= matches!(part.body, Body::Faulty);
        for piece in items(part, faults) {
            match read(piece, faults) {
                Some(item) => list(&mut self.hull).push(item),
                None => self.hull.incomplete = true,
            }
        }
    }
}

fn check_version(part: &Part<'_>, faults: &mut Vec<Fault>) {
    if let Some(version) = text(part, faults)
        && version != VERSION
    {
        let fault = part.fault(format!("this file is of version {version}"));
        faults.push(fault.help(format!("this program reads version {VERSION}")));
    }
}

/// The text of a key that takes one.
fn text(part: &Part<'_>, faults: &mut Vec<Fault>) -> Option<String> {
    let piece = value(part, faults)?;
    read::<Text>(piece, faults)
        .as_ref()
        .map(|text| text.as_str().to_owned())
}

/// The value of a key that takes one.
fn one<T: FromStr<Err = Misread>>(part: &Part<'_>, faults: &mut Vec<Fault>) -> Option<T> {
    let text = text(part, faults)?;
    let key = KEYS.iter().find(|key| **key == part.key)?;
    text.parse()
        .map_err(|misread| {
            faults.push(Fault::misread(
                Some(part.origin),
                vec![Step::Key(key)],
                misread,
            ));
        })
        .ok()
}

fn value<'p, 'a>(part: &'p Part<'a>, faults: &mut Vec<Fault>) -> Option<&'p Piece<'a>> {
    let says = match &part.body {
        Body::Value(piece) => return Some(piece),
        Body::Faulty => return None,
        Body::Empty => format!("`{}` is empty", part.key),
        Body::Items(_) => format!("`{}` takes one value, not a list", part.key),
    };
    let help = match part.key {
        "refasten" | "boat" => "give it a value on the same line",
        _ => "give it a value on the same line, or leave the key out",
    };
    faults.push(part.fault(says).help(help));
    None
}

/// The items of a key that takes a list.
fn items<'p, 'a>(part: &'p Part<'a>, faults: &mut Vec<Fault>) -> &'p [Piece<'a>] {
    match &part.body {
        Body::Items(items) => items,
        Body::Empty | Body::Faulty => &[],
        Body::Value(_) => {
            let fault = part.fault(format!("`{}` takes a list", part.key));
            faults.push(fault.help("each item on a line of its own, beginning with `  - `"));
            &[]
        }
    }
}

fn each<T>(
    part: &Part<'_>,
    faults: &mut Vec<Fault>,
    read: fn(&Piece<'_>, &mut Vec<Fault>) -> Option<T>,
) -> Vec<T> {
    let items = items(part, faults);
    items
        .iter()
        .filter_map(|piece| read(piece, faults))
        .collect()
}
