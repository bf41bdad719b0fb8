//! Which fastenings there are of a set, and how old they are.

use std::collections::{BTreeMap, BTreeSet};

use super::inventory::Stock;
use crate::record::{Fastening, FasteningId, SetId};
use crate::units::Ages;

/// The fastenings that are, or were last, in the holes of a stock.
pub(super) struct Made<'s, 'b> {
    stock: &'s Stock<'b>,
    each: BTreeSet<FasteningId>,
}

impl<'s, 'b> Made<'s, 'b> {
    pub(super) fn of(stock: &'s Stock<'b>) -> Self {
        let holes = stock.crossings.iter().flat_map(|id| stock.state.holes(*id));
        let each = holes.map(|hole| hole.fastening).collect();
        Self { stock, each }
    }

    /// Those of a set.
    pub(super) fn each(&self, set: SetId) -> impl Iterator<Item = &'b Fastening> {
        let fastenings = self.each.iter().map(|id| self.stock.book.fastening(*id));
        fastenings.filter(move |fastening| fastening.set == set)
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
