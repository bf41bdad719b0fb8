//! Which fastenings there are of a set, and how old they are.

use std::collections::{BTreeMap, BTreeSet};

use super::inventory::Stock;
use crate::record::{Fastening, FasteningId, SetId};
use crate::units::Ages;

/// The fastenings that are, or were last, in the holes of a stock.
pub(super) struct Made<'s, 'b> {
    stock: &'s Stock<'b>,
    by_set: BTreeMap<SetId, BTreeSet<FasteningId>>,
}

impl<'s, 'b> Made<'s, 'b> {
    pub(super) fn of(stock: &'s Stock<'b>) -> Self {
        let holes = stock.crossings.iter().flat_map(|id| stock.state.holes(*id));
        let each: BTreeSet<FasteningId> = holes.map(|hole| hole.fastening).collect();
        let mut by_set: BTreeMap<SetId, BTreeSet<FasteningId>> = BTreeMap::new();
        for id in each {
            let set = stock.book.fastening(id).set;
            by_set.entry(set).or_default().insert(id);
        }
        Self { stock, by_set }
    }

    /// Those of a set.
    pub(super) fn each(&self, set: SetId) -> impl Iterator<Item = &'b Fastening> {
        let each = self.by_set.get(&set).into_iter().flatten();
        each.map(|id| self.stock.book.fastening(*id))
    }

    /// How old those of a set are on the day; `None` where nothing says.
    pub(super) fn ages(&self, set: SetId) -> Option<Ages> {
        let each: Vec<&Fastening> = self.each(set).collect();
        self.together(&each)
    }

    /// How old some are together; `None` where nothing says so of one of them.
    pub(super) fn together(&self, each: &[&Fastening]) -> Option<Ages> {
        let launched = self.stock.hull.particulars.launched.earliest();
        let mut ages = each
            .iter()
            .map(|fastening| Ages::of(fastening.driven, launched, self.stock.day));
        let first = ages.next()?;
        ages.try_fold(first?, |ages, one| Some(ages.with(one?)))
    }
}

/// What the sets are of which there is any, those of each kind and size together.
pub(super) fn sets<'s>(stock: &Stock<'s>) -> Vec<(&'s str, String)> {
    let made = Made::of(stock);
    let mut sets = Vec::new();
    for (id, name) in stock.book.set_names() {
        let mut alike: BTreeMap<String, Vec<&Fastening>> = BTreeMap::new();
        for fastening in made.each(id) {
            alike
                .entry(stock.describe(fastening))
                .or_default()
                .push(fastening);
        }
        sets.extend(alike.iter().map(|(what, each)| {
            let ages = made.together(each);
            let ages = ages.map_or_else(String::new, |ages| format!(", {ages}"));
            (name, format!("{what}, driven {}{ages}", driven(each)))
        }));
    }
    sets
}

/// When some of a set were driven: one date, or the first and the last.
fn driven(each: &[&Fastening]) -> String {
    let dates = each.iter().map(|fastening| fastening.driven);
    let first = dates.clone().min_by_key(|date| date.earliest());
    let last = dates.max_by_key(|date| date.latest());
    match (first, last) {
        (Some(first), Some(last)) if first != last => format!("{first} to {last}"),
        (Some(first), _) => first.to_string(),
        _ => String::new(),
    }
}
