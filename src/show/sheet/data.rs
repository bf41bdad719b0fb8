//! What the script works with: the crossings with all their holes, and the table of deeds that
//! the log is checked by.

use std::collections::BTreeSet;

use serde_json::{Map, Value, json};

use super::fastenings::{Fastenings, letter};
use super::{Sheet, codes};
use crate::hull::{CrossingId, End, Holes, Member, MemberKind};
use crate::joint::Kind;
use crate::record::{
    Content, Found, FoundSet, HoleState, Mouth, Refusal, Row, Sample, Stub, Told, table,
};
use crate::show::inventory::describe;
use crate::show::marks::Mark;
use crate::tables::Metal;
use crate::units::{Length, count};

pub(super) fn json(sheet: &Sheet<'_>, fastenings: &Fastenings<'_>) -> Value {
    let refusals = Refusals::of(&table());
    json!({
        "boat": sheet.hull.boat,
        "made": sheet.day.to_string(),
        "after": sheet.after(),
        "place": sheet.place(),
        "sheet": sheet.made_from(),
        "most_holes": Holes::MOST,
        "contents": Content::every().into_iter().map(content).collect::<Vec<_>>(),
        "refusals": refusals.0.iter().map(|refusal| refusal.says()).collect::<Vec<_>>(),
        "deeds": deeds(&refusals),
        "found": codes::found().iter().map(found).collect::<Vec<_>>(),
        "stubs": Stub::ALL.iter().map(|stub| stub.word()).collect::<Vec<_>>(),
        "samples": Sample::ALL.iter().map(|sample| sample.word()).collect::<Vec<_>>(),
        "kinds": Kind::ALL.map(Kind::name),
        "metals": Metal::all().iter().map(|metal| metal.name).collect::<Vec<_>>(),
        "marks": marks(),
        "fastenings": kinds(sheet, fastenings),
        "offered": offered(sheet, fastenings),
        "strakes": sheet.strakes().map(|ids| strake(sheet, fastenings, ids)).collect::<Vec<_>>(),
    })
}

/// One of everything that can be in a hole.
fn content(content: Content) -> Value {
    json!({
        "state": content.state().word(),
        "plank": content.plank_side().word(),
        "frame": content.frame_side().word(),
        "bare": content.mouth() == Some(Mouth::Open),
    })
}

/// Every reason there is to refuse a deed.
struct Refusals(Vec<Refusal>);

impl Refusals {
    fn of(table: &[Row]) -> Self {
        let becomes = table.iter().flat_map(|row| &row.becomes);
        let mut refusals: Vec<Refusal> = becomes.filter_map(|becomes| becomes.err()).collect();
        refusals.sort_unstable();
        refusals.dedup();
        Self(refusals)
    }

    /// A cell of the table: the place of what becomes of the hole among all that can be in one, or
    /// the refusal's place counted down from -1.
    fn cell(&self, becomes: Result<Content, Refusal>) -> i64 {
        let place = |at: Option<usize>| at.map_or(0, |at| i64::from(count(at)));
        match becomes {
            Ok(content) => place(Content::every().iter().position(|known| *known == content)),
            Err(refusal) => -1 - place(self.0.iter().position(|known| *known == refusal)),
        }
    }
}

/// Every deed with what it makes of a hole, by what else is told of it.
fn deeds(refusals: &Refusals) -> Vec<Value> {
    let table = table();
    let deeds = codes::deeds().into_iter().map(|(did, code)| {
        let mut becomes = Map::new();
        for row in table.iter().filter(|row| row.did == did) {
            let cells = row.becomes.iter().map(|cell| refusals.cell(*cell));
            becomes.insert(told(row.told).to_owned(), cells.collect());
        }
        json!({ "did": did.word(), "code": code, "keys": did.keys(), "becomes": becomes })
    });
    deeds.collect()
}

const fn told(told: Told) -> &'static str {
    match told {
        Told::Nothing => "",
        Told::Missing => "missing",
        Told::Stub(stub) => stub.word(),
        Told::Covered => "covered",
    }
}

fn found((found, code): &(Found, String)) -> Value {
    let unsound = FoundSet::NONE.with(*found).is_unsound();
    json!({ "word": found.word(), "code": code, "unsound": unsound })
}

/// The mark of each state, as a path about the middle of a box from -1 to 1.
fn marks() -> Vec<Value> {
    let marks = HoleState::ALL.iter().map(|state| {
        let mut path = String::new();
        Mark::of_state(*state)
            .shape
            .write(&mut path, [0.0, 0.0], 1.0);
        json!([state.word(), path])
    });
    marks.collect()
}

fn kinds(sheet: &Sheet<'_>, fastenings: &Fastenings<'_>) -> Vec<Value> {
    let kinds = fastenings.kinds.iter().enumerate().map(|(at, fastening)| {
        json!({
            "letter": letter(at),
            "set": sheet.book.set_name(fastening.set),
            "is": describe(fastening, sheet.hull, sheet.units),
            "not_before": fastening.driven.earliest().map(|day| day.to_string()),
            "thickest_mm": fastening.thickest().map(Length::mm),
        })
    });
    kinds.collect()
}

fn offered(sheet: &Sheet<'_>, fastenings: &Fastenings<'_>) -> Vec<Value> {
    let offered = fastenings.offered.iter().map(|offer| {
        json!({
            "told": offer.told,
            "plan": offer.plan.as_ref().map(|(plan, _)| plan),
            "at": offer.plan.as_ref().map(|(_, at)| names(sheet, at)),
            "set": offer.set,
            "kind": offer.kind,
            "metal": offer.metal.unwrap_or("unknown"),
            "size": offer.size,
            "bung": offer.bung,
            "covered": offer.covered,
        })
    });
    offered.collect()
}

/// Crossings by the names that the script has for them.
fn names(sheet: &Sheet<'_>, ids: &BTreeSet<CrossingId>) -> Vec<String> {
    let crossings = ids.iter().map(|id| sheet.hull.crossing(*id));
    crossings
        .map(|crossing| format!("{} {}", crossing.strake.id, crossing.member))
        .collect()
}

fn strake(sheet: &Sheet<'_>, fastenings: &Fastenings<'_>, ids: &[CrossingId]) -> Value {
    let name = ids.first().map(|id| sheet.hull.crossing(*id).strake.id);
    let crossings: Vec<Value> = ids
        .iter()
        .map(|id| crossing(sheet, fastenings, *id))
        .collect();
    json!({ "strake": name.map(|name| name.to_string()), "crossings": crossings })
}

/// A crossing; each hole as the place of what is in it, the kind of its fastening, and the places
/// of what was found.
fn crossing(sheet: &Sheet<'_>, fastenings: &Fastenings<'_>, id: CrossingId) -> Value {
    let every = Content::every();
    let crossing = sheet.hull.crossing(id);
    let holes: Vec<Value> = sheet
        .state
        .holes(id)
        .iter()
        .map(|hole| {
            let content = every.iter().position(|content| *content == hole.content);
            let found: Vec<usize> = hole.found.each().map(|found| found as usize).collect();
            json!([content, fastenings.kind(hole.fastening), found])
        })
        .collect();
    // The number of a hole stands before the end of a butt block: `J14.1 fwd`.
    let (member, end) = match crossing.member {
        Member::Butt(number, end) => (
            MemberKind::Butt
                .letter()
                .map_or_else(String::new, |j| format!("{j}{number}")),
            match end {
                End::Fwd => " fwd",
                End::Aft => " aft",
            },
        ),
        member => (member.to_string(), ""),
    };
    json!({
        "member": member,
        "end": end,
        "zone": crossing.zone.to_string(),
        "off": sheet.state.is_off(id),
        "holes": holes,
    })
}
