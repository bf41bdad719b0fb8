//! The schedule: what is in her, set by set, and how each is known.

use std::collections::BTreeMap;
use std::io;

use super::Report;
use super::cells::table;
use crate::hull::{CrossingId, fold};
use crate::record::{Set, Tally};
use crate::show::html::Html;
use crate::show::inventory::{By, Stock};
use crate::show::made;
use crate::show::numbers::grouped;
use crate::show::places::in_short_words;

pub(super) fn write(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    let survey = report.season.last.survey;
    let crossings: Vec<CrossingId> = survey.crossings().map(|at| at.crossing.id).collect();
    let stock = Stock {
        hull: survey.hull,
        book: survey.book,
        state: &survey.state,
        day: survey.day,
        crossings: &crossings,
        units: survey.units,
    };
    html.put("h2", &[], "Schedule of fastenings")?;
    // A boat may have a set for every job ever done.
    let mut made: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for (set, what) in made::sets(&stock) {
        made.entry(set).or_default().push(what);
    }
    let sets = survey.book.sets().iter();
    let sets = sets.map(|set| (survey.book.set_name(set.id), set));
    let sets: BTreeMap<&str, &Set> = sets.collect();
    let rows = stock.count(By::Set).into_iter().map(|(key, tally)| {
        let name = stock.name(&key);
        let what = made.get(name.as_str()).map_or(&[][..], Vec::as_slice);
        let (place, how) = match sets.get(name.as_str()) {
            Some(set) => {
                let place = fold(survey.hull, set.spots.iter().map(|spot| spot.crossing));
                (in_short_words(&place).to_string(), set.how.to_string())
            }
            None => (String::new(), "logged".to_owned()),
        };
        let Tally { relied_on, .. } = tally;
        [
            name,
            what.join("; "),
            place,
            how,
            grouped(tally.fastenings()),
            grouped(relied_on),
        ]
    });
    table(
        html,
        "Each set, what it is of, where it was driven, and how that is known",
        ["Set", "Of", "Where", "Known by", "Still in", "Relied on"],
        [false, false, false, false, true, true],
        rows,
    )
}
