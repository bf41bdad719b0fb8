//! What to buy, for people, for programs, for spreadsheets and for a page of notes.

mod json;
mod sheet;
mod text;

pub use json::json;
pub use sheet::{csv, markdown};
pub use text::text;

use crate::joint::Size;
use crate::refit::buy::{Asked, Boxed, Goods, List, Tool, WhatFor};
use crate::show::numbers::counted;
use crate::tables::{Series, Wood};
use crate::units::{Length, Units};

/// A list of what to buy, and what was asked.
#[derive(Debug)]
pub struct Buying<'a> {
    /// What was asked.
    pub asked: &'a Asked<'a>,
    /// What to buy.
    pub list: &'a List<'a>,
    /// The place that was asked about, as it was typed.
    pub place: Option<&'a str>,
}

impl Buying<'_> {
    /// What some goods are asked for by, over the counter.
    fn name(&self, goods: &Goods) -> String {
        let units = self.asked.units;
        let wood = |wood: &Option<&Wood>| wood.map_or("", |wood| wood.name);
        let of = |what: String, name: &str| match name {
            "" => what,
            name => format!("{what}, {name}"),
        };
        let across = |length: &Option<Length>| {
            length.map_or_else(
                || "of unknown size".to_owned(),
                |length| length.shown(units),
            )
        };
        match goods {
            Goods::Fastening { kind, metal, .. } => {
                let metal = match (kind.is_metal(), metal) {
                    (false, _) => "",
                    (true, None) => "unknown metal",
                    (true, Some(metal)) => metal.name,
                };
                of(format!("{kind} {}", self.size(goods)), metal)
            }
            Goods::Bung { diameter, wood: w } => {
                of(format!("bung {}", diameter.shown(units)), wood(w))
            }
            Goods::Plug { diameter, wood: w } => of(format!("plug {}", across(diameter)), wood(w)),
            Goods::Dowel { over, wood: w } => of(format!("dowel over {}", across(over)), wood(w)),
        }
    }

    /// The size of a fastening as the files carry it; the diameter of anything else.
    fn size(&self, goods: &Goods) -> String {
        let (gauges, units) = (self.asked.hull.gauges, self.asked.units);
        let unknown = || "of unknown size".to_owned();
        match goods {
            Goods::Fastening { size, .. } => {
                size.map_or_else(unknown, |size: Size| size.written(gauges, units))
            }
            Goods::Bung { diameter, .. } => diameter.written(units),
            Goods::Plug { diameter: of, .. } | Goods::Dowel { over: of, .. } => {
                of.map_or_else(unknown, |of| of.written(units))
            }
        }
    }

    /// An amount with what prices are in.
    fn price(&self, boxed: &Boxed) -> Option<String> {
        boxed.price.map(|price| self.money(&price.to_string()))
    }

    fn money(&self, amount: &str) -> String {
        match &self.asked.stores.money {
            Some(money) => format!("{money} {amount}"),
            None => amount.to_owned(),
        }
    }

    /// What it is bought for.
    fn purpose(&self) -> String {
        let counts = &self.list.counts;
        let many = |count: u64, what: &str| {
            let count = u32::try_from(count).unwrap_or(u32::MAX);
            (count > 0).then(|| format!("{} {what}", counted(count, "fastening", "fastenings")))
        };
        let parts: Vec<String> = [
            many(counts.planned, "planned"),
            many(counts.open, "for holes that stand open with no plan"),
            many(counts.given, "given"),
        ]
        .into_iter()
        .flatten()
        .collect();
        match (parts.is_empty(), &self.asked.what_for) {
            (true, _) if !self.list.unchosen.is_empty() => {
                "No fastening is chosen for what stands open.".to_owned()
            }
            (true, WhatFor::All) => "Nothing is planned, and no hole wants a fastening.".to_owned(),
            (true, WhatFor::These(..)) => "Nothing of that waits.".to_owned(),
            (false, _) => format!("For {}.", parts.join(", ")),
        }
    }

    /// What the spares of each kind on the list rest on.
    fn spares(&self) -> Vec<String> {
        let spares = &self.list.spares;
        let mut kinds: Vec<crate::joint::Kind> = Vec::new();
        for line in &self.list.goods {
            if let Goods::Fastening { kind, .. } = line.goods
                && !kinds.contains(&kind)
            {
                kinds.push(kind);
            }
        }
        let mut says: Vec<String> = kinds
            .into_iter()
            .map(|kind| {
                let lost = spares.lost(kind);
                let share = match lost.driven {
                    0 => String::new(),
                    driven => format!(": {}", percent(lost.lost, driven)),
                };
                let told = format!(
                    "{kind}: {} of {} driven in the log were lost within a year{share}",
                    lost.lost, lost.driven
                );
                match spares.goes_by_log(kind) {
                    true => told,
                    false => format!(
                        "{told}; under {} there is too little to go by ({})",
                        spares.to_go_by.is,
                        spares.to_go_by.basis()
                    ),
                }
            })
            .collect();
        if !self.list.goods.is_empty() {
            says.push(format!(
                "no fewer than {} of anything, rounded up ({})",
                spares.floor.is,
                spares.floor.basis()
            ));
        }
        says
    }
}

/// A share to a tenth of a percent: `3.3 %`.
fn percent(part: u32, whole: u32) -> String {
    let tenths = (u64::from(part) * 1000 + u64::from(whole) / 2) / u64::from(whole.max(1));
    match tenths % 10 {
        0 => format!("{} %", tenths / 10),
        tenth => format!("{}.{tenth} %", tenths / 10),
    }
}

/// What a tool is called in the shop.
fn tool(tool: Tool, units: Units) -> String {
    match tool {
        Tool::Drill(drill) if drill.series == Series::Fraction => {
            format!("drill {} in", drill.name)
        }
        Tool::Drill(drill) => format!("drill {}", drill.name),
        Tool::Odd(diameter) => format!("drill of {}, in none of your sets", diameter.shown(units)),
        Tool::Taper(screw) => format!("taper bit {}", screw.name()),
        Tool::Counterbore(diameter) => format!("counterbore {}", diameter.shown(units)),
        Tool::PlugCutter(diameter) => format!("plug cutter {}", diameter.shown(units)),
    }
}

/// How so many are bought: `2 boxes of 100`, or the number.
fn bought(boxed: &Boxed) -> String {
    match (boxed.holds, boxed.boxes) {
        (1, pieces) => pieces.to_string(),
        (holds, 1) => format!("1 box of {holds}"),
        (holds, boxes) => format!("{boxes} boxes of {holds}"),
    }
}
