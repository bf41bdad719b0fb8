//! What to buy: fastenings, bungs, plugs, dowels and tools for what is planned, for what stands
//! open, or for what is given.

mod choose;
mod gather;
mod goods;
mod money;
mod spares;
mod stores;

pub use goods::{Goods, Tool};
pub use money::Money;
pub use spares::{Lost, Spares};
pub use stores::{BoxOf, Boxed, Owned, Stores, Ware};

use std::collections::BTreeSet;

use crate::hull::{CrossingId, Hull};
use crate::joint::{Kind, Limits, Plug, Size};
use crate::record::{Book, Entry};
use crate::tables::Metal;
use crate::units::{Day, Units};

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked<'a> {
    /// The hull.
    pub hull: &'a Hull,
    /// Her book.
    pub book: &'a Book,
    /// The limits that hold for her.
    pub limits: &'a Limits,
    /// What the owner has, and what his dealer sells it by.
    pub stores: &'a Stores,
    /// The day, at its end.
    pub day: Day,
    /// The crossings asked about; `None` for all of them.
    pub within: Option<BTreeSet<CrossingId>>,
    /// What to buy for.
    pub what_for: WhatFor,
    /// How sizes are shown.
    pub units: Units,
}

/// What to buy for.
#[derive(Clone, Debug, PartialEq)]
pub enum WhatFor {
    /// All that is planned, and what stands open with no plan.
    All,
    /// These plans, by name, and what is given.
    These(Vec<String>, Vec<Given>),
}

/// Fastenings that are given, wherever they go.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// How many.
    pub count: u32,
    /// Their kind.
    pub kind: Kind,
    /// Their metal.
    pub metal: Option<&'static Metal>,
    /// Their size.
    pub size: Size,
    /// What covers them.
    pub plug: Plug,
}

/// A list of what to buy.
#[derive(Debug)]
pub struct List<'b> {
    /// What is used up, in the order it is listed.
    pub goods: Vec<Line>,
    /// Tools that are asked for, and whether each is owned.
    pub tools: Vec<(Tool, bool)>,
    /// How many fastenings are planned, are for holes that stand open, and are given.
    pub counts: Counts,
    /// What was chosen for holes that stand open.
    pub chosen: Vec<Chosen<'b>>,
    /// Open holes for which nothing could be chosen.
    pub unchosen: Vec<Unchosen>,
    /// Fastenings whose holes could not be worked out: which, where, and why.
    pub unbored: Vec<(Goods, Vec<CrossingId>, String)>,
    /// Heads that get stopping.
    pub stopping: u64,
    /// Heads of which it is not known what covers them.
    pub unknown_cover: u64,
    /// Crossings where the plan cannot be carried out as she is.
    pub not_at: Vec<CrossingId>,
    /// What the spares rest on.
    pub spares: Spares,
}

/// What fastenings are bought for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Planned.
    pub planned: u64,
    /// For holes that stand open with no plan.
    pub open: u64,
    /// Given.
    pub given: u64,
}

/// One line of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What.
    pub goods: Goods,
    /// How many are needed.
    pub needed: u64,
    /// How many more.
    pub spares: u64,
    /// What that comes in.
    pub boxed: Boxed,
}

/// What the pick chose for open holes.
#[derive(Clone, Debug)]
pub struct Chosen<'b> {
    /// What.
    pub goods: Goods,
    /// Where.
    pub crossings: Vec<CrossingId>,
    /// How many.
    pub count: u64,
    /// The entry whose kind and metal it took.
    pub after: &'b Entry,
}

/// Open holes for which nothing could be chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unchosen {
    /// Where.
    pub crossings: Vec<CrossingId>,
    /// How many holes.
    pub holes: u64,
    /// Why.
    pub why: String,
}

impl List<'_> {
    /// What all lines with a price cost, and how many have none; `None` beyond all counting.
    pub fn total(&self) -> Option<(Money, usize)> {
        let mut total = Money::default();
        let mut without = 0;
        for line in &self.goods {
            match line.boxed.price {
                Some(price) => total = total.and(price)?,
                None => without += 1,
            }
        }
        Some((total, without))
    }
}

/// Works out what to buy.
pub fn buy<'a>(asked: &Asked<'a>) -> List<'a> {
    let spares = Spares::of(asked.hull, asked.book, asked.limits, asked.day);
    let gathered = gather::gather(asked);
    let mut needs = gathered.needs;
    needs.sort();
    let goods = needs
        .goods
        .iter()
        .map(|(goods, needed)| {
            let more = match goods {
                Goods::Fastening { kind, .. } => spares.fastenings(*kind, *needed),
                Goods::Bung { .. } | Goods::Plug { .. } | Goods::Dowel { .. } => {
                    spares.at_least(*needed)
                }
            };
            Line {
                goods: *goods,
                needed: *needed,
                spares: more,
                boxed: asked.stores.boxed(goods, needed.saturating_add(more)),
            }
        })
        .collect();
    let mut tools = gathered.tools;
    tools.sort_by_key(|tool| tool.order());
    let tools = tools
        .into_iter()
        .map(|tool| (tool, asked.stores.has(tool)))
        .collect();
    List {
        goods,
        tools,
        counts: gathered.counts,
        chosen: gathered.chosen,
        unchosen: gathered.unchosen,
        unbored: gathered.unbored,
        stopping: needs.stopping,
        unknown_cover: needs.unknown,
        not_at: gathered.not_at,
        spares,
    }
}
