//! The fastenings that holes have had, one after another, alike holes together.

use std::collections::{BTreeMap, HashMap};
use std::io;

use serde_json::{Value, json};

use super::inventory::describe;
use super::page::Page;
use super::places::in_short_words;
use crate::hull::{CrossingId, HoleNumber, Hull, Places, fold_holes};
use crate::joint::Size;
use crate::record::{Book, End, Fastening, Found, Generation, HoleState, State};
use crate::units::{Ages, Day, Length, Units};

/// Holes of a boat on a day with all that they have had.
#[derive(Debug)]
pub struct Holes<'b> {
    /// The hull.
    pub hull: &'b Hull,
    /// Her sets and entries.
    pub book: &'b Book,
    /// Every hole on the day.
    pub state: &'b State,
    /// The day.
    pub day: Day,
    /// Of each hole asked about the fastenings it has had, the oldest first.
    pub had: &'b BTreeMap<(CrossingId, HoleNumber), Vec<Generation>>,
}

/// Holes of which the same is to be told.
struct Alike<T> {
    holes: Vec<(CrossingId, HoleNumber)>,
    state: HoleState,
    told: T,
}

impl Holes<'_> {
    /// Holes together of which `tell` says the same, in the order of the first of each.
    fn alike<T: Clone + Eq + std::hash::Hash>(
        &self,
        tell: impl Fn(&[Generation], HoleState) -> T,
    ) -> Vec<Alike<T>> {
        let mut groups: Vec<Alike<T>> = Vec::new();
        let mut known: HashMap<(T, HoleState), usize> = HashMap::new();
        for (at, generations) in self.had {
            let Some(hole) = self.state.holes(at.0).get(at.1.index()) else {
                continue;
            };
            let state = hole.state();
            let told = tell(generations, state);
            let group = *known.entry((told.clone(), state)).or_insert_with(|| {
                groups.push(Alike {
                    holes: Vec::new(),
                    state,
                    told,
                });
                groups.len() - 1
            });
            if let Some(group) = groups.get_mut(group) {
                group.holes.push(*at);
            }
        }
        groups
    }

    fn place(&self, holes: &[(CrossingId, HoleNumber)]) -> Places {
        in_short_words(&fold_holes(self.hull, holes.iter().copied()))
    }

    /// How old a fastening is on the day, or was when it came out.
    fn ages(&self, one: &Generation) -> Option<Ages> {
        let on = match one.end {
            Some(End::Done(number)) => self.book.numbered(number)?.date,
            Some(End::Replaced(_)) => return None,
            None => self.day,
        };
        let launched = self.hull.particulars.launched.earliest();
        Ages::of(self.book.fastening(one.fastening).driven, launched, on)
    }

    /// A fastening, in a line after the date it was driven.
    fn line(
        &self,
        before: &[Generation],
        one: &Generation,
        state: HoleState,
        units: Units,
    ) -> String {
        let fastening = self.book.fastening(one.fastening);
        let what = describe(fastening, self.hull, units);
        let mut line = format!("{what} (`{}`)", self.book.set_name(fastening.set));
        if one.doweled {
            line += ", into a doweled hole";
        } else if let (Some(from), Some(to)) =
            (one.enlarged_from(self.book, before), diameter(fastening))
        {
            let (from, to) = (from.shown(units), to.shown(units));
            line += &format!(", in a hole enlarged from {from} to {to}");
        }
        let found: Vec<&str> = one.found.each().map(Found::word).collect();
        if !found.is_empty() {
            line += &format!("; found {}", found.join(", "));
        }
        if let Some(measured) = one.measured {
            line += &format!("; measured {}", measured.shown(units));
        }
        let age = self
            .ages(one)
            .map_or_else(String::new, |ages| format!(", {ages} old"));
        match one.end {
            Some(End::Replaced(set)) => {
                line += &format!("; `{}` came in its place", self.book.set_name(set));
            }
            Some(End::Done(number)) => {
                if let Some(entry) = self.book.numbered(number) {
                    let did = entry.did();
                    line += &format!("; {did} {}{age}", entry.date);
                }
            }
            None => line += &format!("; {state}{age}"),
        }
        line
    }

    /// Prints what each has had.
    pub(super) fn text(&self, page: &mut Page<'_>, units: Units) -> io::Result<()> {
        let groups = self.alike(|generations, state| {
            let lines = generations.iter().enumerate().map(|(at, one)| {
                let driven = self.book.fastening(one.fastening).driven.to_string();
                let before = generations.get(..at).unwrap_or_default();
                (driven, self.line(before, one, state, units))
            });
            lines.collect::<Vec<_>>()
        });
        if groups.is_empty() {
            return Ok(());
        }
        page.gap()?;
        page.line("What each hole has had")?;
        for group in groups {
            page.line(&format!(
                "{}: {} now",
                self.place(&group.holes),
                group.state
            ))?;
            for (driven, line) in &group.told {
                page.hung(&format!("  {driven:<11}  "), "    ", line)?;
            }
        }
        Ok(())
    }

    /// The same for other programs.
    pub(super) fn json(&self) -> Vec<Value> {
        let groups = self.alike(|generations, _| generations.to_vec());
        let groups = groups.iter().map(|group| {
            let told = &group.told;
            let had = told.iter().enumerate().map(|(at, one)| {
                let fastening = self.book.fastening(one.fastening);
                let before = told.get(..at).unwrap_or_default();
                let ages = self.ages(one);
                json!({
                    "set": self.book.set_name(fastening.set),
                    "kind": fastening.kind.name(),
                    "metal": fastening.metal.map(|metal| metal.name),
                    "size": fastening.size.map(|size| size.written(self.hull.gauges, self.hull.units)),
                    "diameter_mm": diameter(fastening).map(Length::mm),
                    "driven": fastening.driven.to_string(),
                    "doweled_before": one.doweled,
                    "enlarged_from_mm": one.enlarged_from(self.book, before).map(Length::mm),
                    "found": one.found.each().map(Found::word).collect::<Vec<_>>(),
                    "measured_mm": one.measured.map(Length::mm),
                    "age_least_years": ages.map(|ages| ages.least),
                    "age_most_years": ages.and_then(|ages| ages.most),
                    "end": self.end(one),
                })
            });
            json!({
                "place": self.place(&group.holes).to_string(),
                "holes": group.holes.len(),
                "state": group.state.word(),
                "had": had.collect::<Vec<_>>(),
            })
        });
        groups.collect()
    }

    fn end(&self, one: &Generation) -> Value {
        match one.end {
            None => Value::Null,
            Some(End::Replaced(set)) => json!({
                "did": "replaced", "set": self.book.set_name(set), "date": null, "entry": null,
            }),
            Some(End::Done(number)) => {
                let entry = self.book.numbered(number);
                json!({
                    "did": entry.map(|entry| entry.did().word()),
                    "set": null,
                    "date": entry.map(|entry| entry.date.to_string()),
                    "entry": number,
                })
            }
        }
    }
}

fn diameter(fastening: &Fastening) -> Option<Length> {
    fastening.size.and_then(Size::diameter)
}
