//! The order of the work for other programs.

use std::io::{self, Write};

use serde_json::{Value, json};

use super::{Todo, driving, logged, turn, word};
use crate::hull::{CrossingId, fold};
use crate::record::Did;
use crate::refit::Step;
use crate::show::known;

/// Prints the order of the work as JSON.
///
/// # Errors
/// When `out` fails.
pub fn json(out: &mut dyn Write, todo: &Todo<'_>) -> io::Result<()> {
    let (survey, order) = (todo.survey, todo.order);
    let place = |ids: &[CrossingId]| fold(survey.hull, ids.iter().copied()).to_string();
    let pace = order.pace.as_ref().map(|pace| {
        let (least, most) = order.days().unzip();
        json!({
            "days": pace.days,
            "from": pace.from.to_string(),
            "to": pace.to.to_string(),
            "slow_per_day": pace.slow,
            "quick_per_day": pace.quick,
            "drawn": pace.drawn,
            "broken": pace.broken,
            "days_left_least": least,
            "days_left_most": most,
            "will_break": pace.will_break(order.to_draw()),
        })
    });
    let in_the_way = order.in_the_way.iter().map(|finding| {
        json!({
            "rule": finding.rule.name,
            "place": finding.place.to_string(),
            "says": finding.saying.says,
        })
    });
    let rounds = order.rounds.iter().map(|round| {
        json!({
            "turn": turn(round.turn),
            "blocks_relaunch": round.blocks,
            "place": place(&round.crossings),
            "steps": steps(todo, &round.steps),
        })
    });
    let report = json!({
        "format": 1,
        "boat": survey.hull.boat,
        "as_of": survey.day.to_string(),
        "as_known": known::json(survey.book),
        "place": todo.place,
        "open_frames": {
            "limit": order.limit,
            "open": order.open_sites,
            "place": place(&order.open_now),
        },
        "unplanned": place(&order.unplanned),
        "must_wait": place(&order.must_wait),
        "in_the_way": in_the_way.collect::<Vec<_>>(),
        "to_draw": order.to_draw(),
        "to_drive": order.to_drive(),
        "at_once": steps(todo, &order.at_once),
        "rounds": rounds.collect::<Vec<_>>(),
        "pace": pace,
    });
    writeln!(out, "{report:#}")
}

fn steps(todo: &Todo<'_>, steps: &[Step]) -> Vec<Value> {
    steps.iter().map(|step| one(todo, step)).collect()
}

/// A step, with the words that the log takes for it.
fn one(todo: &Todo<'_>, step: &Step) -> Value {
    let survey = todo.survey;
    let driving = driving(todo, step).map(|driving| {
        json!({
            "plan": driving.plan,
            "set": driving.set,
            "per_crossing": driving.per_crossing,
            "hole": driving.hole.word(),
            "kind": driving.kind.name(),
            "metal": driving.metal.map(|metal| metal.name),
            "size": driving.size.map(|size| size.written(survey.hull.gauges, survey.hull.units)),
            "bung": driving.plug.written(survey.hull.units),
        })
    });
    json!({
        "day": step.day,
        "do": word(step.work),
        "did": logged(step.work).map(Did::word),
        "place": step.place.to_string(),
        "count": step.count,
        "driven": driving,
    })
}
