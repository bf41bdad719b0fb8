//! What is in the hull: counted by frame, strake, metal, set, state or zone, or hole by hole.

use std::collections::BTreeMap;
use std::io::{self, Write};

use comfy_table::{Cell, CellAlignment};
use serde_json::{Value, json};

use super::known;
use super::layout::Layout;
use super::made::{Made, sets};
use super::page::{NONE, Page, quiet};
use crate::hull::{CrossingId, Hull, Member};
use crate::joint::{Kind, Plug, Size};
use crate::record::{Book, Fastening, Hole, HoleState, Mouth, Set, State, Tally};
use crate::tables::Metal;
use crate::text::{Clean, words};
use crate::units::{Day, Units};

words! {
    /// What an inventory is counted by.
    By, "a way to count" {
        /// By member.
        Frame = "frame" | "member",
        /// By strake.
        Strake = "strake",
        /// By metal.
        Metal = "metal",
        /// By set.
        Set = "set",
        /// By the state of the holes.
        State = "state",
        /// By how wet it is.
        Zone = "zone",
    }
}

/// A boat on a day, and the part of her that is asked about.
#[derive(Clone, Copy, Debug)]
pub struct Stock<'b> {
    /// The hull.
    pub hull: &'b Hull,
    /// Her sets and entries.
    pub book: &'b Book,
    /// Every hole on the day.
    pub state: &'b State,
    /// The day.
    pub day: Day,
    /// The crossings asked about, each once, in order.
    pub crossings: &'b [CrossingId],
    /// How sizes are shown.
    pub units: Units,
}

/// One row of a count, in an order of its own.
pub(super) type Group = (Key, Tally);

/// What a row is counted under. The order of the kinds does not matter: one count has one kind.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Key {
    Member((u8, i32), Member),
    Strake(crate::hull::StrakeId),
    Metal(Option<&'static str>),
    Set(crate::record::SetId),
    State(HoleState),
    Zone(crate::joint::Zone),
}

impl Stock<'_> {
    /// Counts every hole once, under exactly one key.
    pub(super) fn count(&self, by: By) -> Vec<Group> {
        let from_stern = self.hull.numbering.frames == crate::hull::FramesFrom::Stern;
        let mut groups: BTreeMap<Key, Tally> = BTreeMap::new();
        for id in self.crossings {
            let crossing = self.hull.crossing(*id);
            for hole in self.state.holes(*id) {
                let fastening = self.book.fastening(hole.fastening);
                let key = match by {
                    By::Frame => Key::Member(crossing.member.along(from_stern), crossing.member),
                    By::Strake => Key::Strake(crossing.strake.id),
                    By::Metal => Key::Metal(fastening.metal.map(|metal| metal.name)),
                    By::Set => Key::Set(fastening.set),
                    By::State => Key::State(hole.state()),
                    By::Zone => Key::Zone(crossing.zone),
                };
                groups.entry(key).or_default().count(hole);
            }
        }
        groups.into_iter().collect()
    }

    /// What a row is called: as its name, and for a strake what the owner calls it beside that.
    fn label(&self, key: &Key) -> String {
        let called = match key {
            Key::Strake(strake) => self.hull.name_of(*strake),
            _ => None,
        };
        match called {
            Some(called) => format!("{} {called}", self.name(key)),
            None => self.name(key),
        }
    }

    pub(super) fn name(&self, key: &Key) -> String {
        match key {
            Key::Member(_, member) => member.to_string(),
            Key::Strake(strake) => strake.to_string(),
            Key::Metal(metal) => metal.unwrap_or("unknown").to_owned(),
            Key::Set(set) => self.book.set_name(*set).to_owned(),
            Key::State(state) => state.to_string(),
            Key::Zone(zone) => zone.to_string(),
        }
    }

    /// What a fastening is, in a line: `silicon bronze wood screw 16 x 2in`.
    pub(super) fn describe(&self, fastening: &Fastening) -> String {
        describe(fastening, self.hull, self.units)
    }

    fn place(&self, id: CrossingId, number: crate::hull::HoleNumber) -> String {
        crate::hull::fold_holes(self.hull, [(id, number)]).to_string()
    }

    /// The sets of what is asked about that may or may not have been there on the day.
    pub(super) fn uncertain(&self) -> impl Iterator<Item = &Set> {
        let asked = |set: &&Set| {
            let mut spots = set.spots.iter();
            spots.any(|spot| self.crossings.binary_search(&spot.crossing).is_ok())
        };
        self.book.uncertain_on(self.hull, self.day).filter(asked)
    }

    pub(super) fn total(&self) -> Tally {
        self.state.tally(self.crossings.iter().copied())
    }
}

/// What a fastening is, in a line: `silicon bronze wood screw 16 x 2in`.
pub fn describe(fastening: &Fastening, hull: &Hull, units: Units) -> String {
    like(fastening.kind, fastening.metal, fastening.size, hull, units)
}

/// The same of a kind, a metal and a size.
pub(super) fn like(
    kind: Kind,
    metal: Option<&Metal>,
    size: Option<Size>,
    hull: &Hull,
    units: Units,
) -> String {
    let metal = metal.map_or("unknown metal", |metal| metal.name);
    let size = size.map_or_else(
        || "of unknown size".to_owned(),
        |size| size.written(hull.gauges, units),
    );
    format!("{metal} {kind} {size}")
}

/// What is over a fastening's head.
pub(super) fn bung(hole: &Hole, plug: Plug) -> Option<&'static str> {
    Some(match (hole.content.mouth()?, plug) {
        (Mouth::Open, _) => "out",
        (Mouth::Flush | Mouth::Closed, Plug::Unknown) => "unknown",
        (Mouth::Flush, _) => "none",
        (Mouth::Closed, Plug::Stopping) => "stopping",
        (Mouth::Closed, _) => "in",
    })
}

/// The head of a table of counts, in words short enough for 80 columns.
pub(super) const COUNTS: [&str; 8] = [
    "holes",
    "relied\non",
    "unsound",
    "left\nin",
    "broken",
    "open",
    "plugged",
    "bungs\nout",
];

pub(super) const fn counts(tally: &Tally) -> [u32; 8] {
    [
        tally.holes,
        tally.relied_on,
        tally.unsound,
        tally.left_in,
        tally.broken,
        tally.open,
        tally.plugged,
        tally.bungs_missing,
    ]
}

/// Prints a count as a table with its total.
///
/// # Errors
/// When the writer fails.
pub fn text(stock: &Stock<'_>, by: By, out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    head(stock, &mut page)?;
    let mut table = quiet(layout.width);
    let row = |name: &str, tally: &Tally| {
        let numbers = counts(tally).map(|n| {
            Cell::new(if n == 0 {
                NONE.to_owned()
            } else {
                n.to_string()
            })
            .set_alignment(CellAlignment::Right)
        });
        std::iter::once(Cell::new(Clean(name)))
            .chain(numbers)
            .collect::<Vec<_>>()
    };
    let heads = COUNTS.map(|head| Cell::new(head).set_alignment(CellAlignment::Right));
    table.set_header(std::iter::once(Cell::new(by.word())).chain(heads));
    let groups = stock.count(by);
    for (key, tally) in &groups {
        table.add_row(row(&stock.label(key), tally));
    }
    table.add_row(row("all", &stock.total()));
    page.drawn(&mut table, |column| column > 0)?;
    if by == By::Set {
        page.gap()?;
        for (name, made) in sets(stock) {
            page.item(&format!("{name}: {made}"))?;
        }
    }
    Ok(())
}

pub(super) fn head(stock: &Stock<'_>, page: &mut Page<'_>) -> io::Result<()> {
    page.line(&format!("{} on {}", stock.hull.boat, stock.day))?;
    known::text(page, stock.book)?;
    for set in stock.uncertain() {
        let driven = stock.book.fastening(set.fastening).driven;
        page.line(&format!(
            "`{}`: its day is not certain ({driven}); it may or may not have been there",
            stock.book.set_name(set.id)
        ))?;
    }
    page.gap()
}

/// Prints one row a hole.
///
/// # Errors
/// When the writer fails.
pub fn each_text(stock: &Stock<'_>, out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    head(stock, &mut page)?;
    let mut table = quiet(layout.width);
    table.set_header(["place", "state", "fastening", "set", "bung", "found"]);
    for id in stock.crossings {
        for (number, hole) in stock.state.numbered(*id) {
            let fastening = stock.book.fastening(hole.fastening);
            table.add_row([
                stock.place(*id, number),
                hole.state().to_string(),
                stock.describe(fastening),
                Clean(stock.book.set_name(fastening.set)).to_string(),
                bung(hole, fastening.plug).unwrap_or("").to_owned(),
                found(hole),
            ]);
        }
    }
    page.drawn(&mut table, |column| column == 0)?;
    Ok(())
}

fn found(hole: &Hole) -> String {
    let words: Vec<&str> = hole.found.each().map(crate::record::Found::word).collect();
    words.join(", ")
}

pub(super) fn tally_json(tally: &Tally) -> Value {
    json!({
        "holes": tally.holes,
        "fastenings": tally.fastenings(),
        "relied_on": tally.relied_on,
        "unsound": tally.unsound,
        "left_in": tally.left_in,
        "broken": tally.broken,
        "open": tally.open,
        "plugged": tally.plugged,
        "bungs_missing": tally.bungs_missing,
    })
}

/// A count for other programs.
pub fn json(stock: &Stock<'_>, by: By) -> Value {
    let made = Made::of(stock);
    let groups: Vec<Value> = stock
        .count(by)
        .iter()
        .map(|(key, tally)| {
            let mut group = tally_json(tally);
            if let Some(group) = group.as_object_mut() {
                group.insert("name".to_owned(), stock.name(key).into());
                if let Key::Strake(strake) = key {
                    let called = stock.hull.name_of(*strake).map(ToString::to_string);
                    group.insert("called".to_owned(), called.into());
                }
                if let Key::Set(set) = key {
                    let ages = made.ages(*set);
                    let most = ages.and_then(|ages| ages.most);
                    group.insert(
                        "age_least_years".to_owned(),
                        ages.map(|ages| ages.least).into(),
                    );
                    group.insert("age_most_years".to_owned(), most.into());
                }
            }
            group
        })
        .collect();
    json!({
        "format": 1,
        "boat": stock.hull.boat,
        "as_of": stock.day.to_string(),
        "as_known": known::json(stock.book),
        "uncertain": uncertain(stock),
        "by": by.word(),
        "groups": groups,
        "all": tally_json(&stock.total()),
    })
}

fn uncertain(stock: &Stock<'_>) -> Vec<String> {
    let names = stock.uncertain().map(|set| stock.book.set_name(set.id));
    names.map(str::to_owned).collect()
}

/// One object a hole, for other programs.
pub fn each_json(stock: &Stock<'_>) -> Value {
    let holes: Vec<Value> = stock
        .crossings
        .iter()
        .flat_map(|id| stock.state.numbered(*id).map(move |(number, hole)| (*id, number, hole)))
        .map(|(id, number, hole)| {
            let fastening = stock.book.fastening(hole.fastening);
            json!({
                "place": stock.place(id, number),
                "set": stock.book.set_name(fastening.set),
                "kind": fastening.kind.name(),
                "metal": fastening.metal.map(|metal| metal.name),
                "size": fastening.size.map(|size| size.written(stock.hull.gauges, stock.hull.units)),
                "driven": fastening.driven.to_string(),
                "state": hole.state().word(),
                "plank_side": hole.content.plank_side().word(),
                "frame_side": hole.content.frame_side().word(),
                "bung": bung(hole, fastening.plug),
                "found": hole.found.each().map(crate::record::Found::word).collect::<Vec<_>>(),
            })
        })
        .collect();
    json!({
        "format": 1,
        "boat": stock.hull.boat,
        "as_of": stock.day.to_string(),
        "as_known": known::json(stock.book),
        "uncertain": uncertain(stock),
        "holes": holes,
    })
}
