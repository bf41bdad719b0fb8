//! The map for other programs.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::Map;
use super::class::Class;
use super::counts::counts;
use super::laid::{Laid, Panel, lay_all};
use crate::hull::{CrossingId, fold};
use crate::show::known;

/// Every mark with how often it is there, and every crossing with what it is marked as and where
/// it lies.
pub fn json(map: &Map<'_>) -> Value {
    let survey = map.survey;
    let laid = lay_all(map);
    let marks: Vec<Value> = counts(map)
        .iter()
        .map(|(class, count)| {
            json!({
                "mark": class.label(),
                "count": count.marks,
                "crossings": count.crossings.len(),
                "place": fold(survey.hull, count.crossings.iter().copied()).to_string(),
            })
        })
        .collect();
    let along = along(&laid);
    let crossings: Vec<Value> = survey
        .crossings()
        .map(|at| {
            let id = at.crossing.id;
            let classes = map.classes(id).into_iter();
            let lies = along.get(&id);
            json!({
                "place": fold(survey.hull, [id]).to_string(),
                "zone": at.crossing.zone.name(),
                "mark": map.class_of(id).label(),
                "marks": classes.map(Class::label).collect::<Vec<_>>(),
                "along_mm": lies.map(|[along, _]| rounded(*along)),
                "across_mm": lies.map(|[_, across]| rounded(*across)),
            })
        })
        .collect();
    json!({
        "format": 1,
        "boat": survey.hull.boat,
        "as_of": survey.day.to_string(),
        "as_known": known::json(survey.book),
        "by": map.by.word(),
        "marks": marks,
        "assumed": laid.assumed(),
        "crossings": crossings,
    })
}

fn rounded(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

fn along(laid: &Laid) -> BTreeMap<CrossingId, [f64; 2]> {
    let halves = laid.panels.iter().flat_map(Panel::halves);
    halves
        .flat_map(|half| {
            let rows = half.rows.iter().enumerate();
            rows.flat_map(move |(at, row)| {
                row.crossings.iter().map(move |lies| {
                    let [lower, upper] = half.stack.across(at, lies.along);
                    (lies.id, [lies.along, (lower + upper) / 2.0])
                })
            })
        })
        .collect()
}
