//! `plan.yaml` read into the lines of the plan, and a line written.

use super::hull::{SetName, YesNo, names_holes};
use super::log_line::{Line, told_at};
use super::log_values::PlanName;
use super::{Given, OneOrMany, Piece, Reader, Text, read, slips, split_plan};
use crate::hull::Places;
use crate::joint::{Kind, Plug};
use crate::record::{HoleChoice, Intent, PlanLine, Planned, Relation};
use crate::tables::GaugeSystem;
use crate::text::{Fault, Misread, Origin};
use crate::units::{Day, Units};

/// The first line of a plan.
pub const PLAN_HEADER: &str = "# refasten plan 1";

crate::record! {
    /// One line of the plan as written.
    pub struct RawPlan {
        /// The plan it belongs to.
        plan: Text = "plan",
        /// The day it was planned.
        date: Text = "date",
        /// Where.
        place: Text = "place",
        /// How many at each crossing.
        per_crossing: Text = "per crossing",
        /// Kind of what is to be driven.
        kind: Text = "kind",
        /// Its metal.
        metal: Text = "metal",
        /// Its size.
        size: Text = "size",
        /// What is to close it.
        bung: Text = "bung",
        /// Which holes it goes into.
        hole: Text = "hole",
        /// The sets that go.
        replaces: OneOrMany = "replaces",
        /// The sets that stay as metal.
        leaves_in: OneOrMany = "leaves in",
        /// The sets that stay and hold.
        adds_to: OneOrMany = "adds to",
        /// Whether what remains of the plan is given up.
        dropped: Text = "dropped",
        /// Why it is.
        why: Text = "why",
        /// Who planned it.
        by: Text = "by",
        /// Anything else.
        note: Text = "note",
    }
}

/// Keys of a line that drives, and of one that gives a plan up.
const DRIVES: [&str; 10] = [
    "place",
    "per crossing",
    "kind",
    "metal",
    "size",
    "bung",
    "hole",
    "replaces",
    "leaves in",
    "adds to",
];
const DROPS: [&str; 1] = ["why"];

/// Reads the text of a plan. What cannot be read is told and left out.
pub(super) fn read_plan(text: &str, gauges: GaugeSystem, faults: &mut Vec<Fault>) -> Vec<PlanLine> {
    let pieces = split_plan(text, faults);
    let line = |piece: &Piece<'_>| {
        let told = faults.len();
        let Given::Is(raw) = read::<RawPlan>(piece, faults) else {
            return None;
        };
        let cut = slips::place_was_cut(faults.get(told..).unwrap_or_default());
        plan_line(&raw, &mut Reader::new(piece.origin, faults), gauges).filter(|_| !cut)
    };
    pieces.iter().filter_map(line).collect()
}

/// Makes a line of the plan of what was written, every fault of it told.
pub(super) fn plan_line(
    raw: &RawPlan,
    fields: &mut Reader<'_>,
    gauges: GaugeSystem,
) -> Option<PlanLine> {
    let text = |text: &Given<Text>| text.as_ref().map(|text| text.as_str().to_owned());
    let plan: Option<PlanName> = fields.need("plan", &raw.plan);
    let date: Option<Day> = fields.need("date", &raw.date);
    let drops = match fields.read("dropped", &raw.dropped) {
        Some(YesNo::No) => {
            let misread = Misread::new("`dropped` is `yes`, or it is left out");
            fields.fault(
                "dropped",
                misread.help("leave it out where the plan stands"),
            );
            false
        }
        Some(YesNo::Yes) => true,
        None => false,
    };
    out_of_place(raw, fields, drops);
    let intent = match drops {
        true => Some(Intent::Drop {
            why: text(&raw.why),
        }),
        false => planned(raw, fields, gauges).map(|planned| Intent::Drive(Box::new(planned))),
    };
    Some(PlanLine {
        plan: plan?.0,
        date: date?,
        intent: intent?,
        by: text(&raw.by),
        note: text(&raw.note),
        origin: fields.origin(),
    })
}

/// Tells of keys that do not go with a line of its sort.
fn out_of_place(raw: &RawPlan, fields: &mut Reader<'_>, drops: bool) {
    let text = |given: &Given<Text>| !matches!(given, Given::Missing);
    let list = |given: &Given<OneOrMany>| !matches!(given, Given::Missing);
    let given = [
        ("place", text(&raw.place)),
        ("per crossing", text(&raw.per_crossing)),
        ("kind", text(&raw.kind)),
        ("metal", text(&raw.metal)),
        ("size", text(&raw.size)),
        ("bung", text(&raw.bung)),
        ("hole", text(&raw.hole)),
        ("replaces", list(&raw.replaces)),
        ("leaves in", list(&raw.leaves_in)),
        ("adds to", list(&raw.adds_to)),
        ("why", text(&raw.why)),
    ];
    let wrong: &[&str] = if drops { &DRIVES } else { &DROPS };
    for (key, is_given) in given {
        if is_given && wrong.contains(&key) {
            let (says, help) = match drops {
                true => (
                    format!("`{key}` does not go with `dropped`"),
                    "what remains of the whole plan is given up; with it go plan, date, why, by, note",
                ),
                false => (
                    format!("`{key}` goes with `dropped: yes` alone"),
                    "what else is worth telling is a `note`",
                ),
            };
            fields.misplaced(key, Misread::new(says).help(help));
        }
    }
}

fn planned(raw: &RawPlan, fields: &mut Reader<'_>, gauges: GaugeSystem) -> Option<Planned> {
    let place: Option<Places> = fields.need("place", &raw.place);
    let per_crossing = fields.per_crossing(place.as_ref(), &raw.per_crossing);
    let kind: Option<Kind> = fields.need("kind", &raw.kind);
    let hole = fields.read("hole", &raw.hole).unwrap_or(HoleChoice::Same);
    if place.as_ref().is_some_and(names_holes) && hole == HoleChoice::New {
        let misread = Misread::new("a new hole has no number yet");
        fields.fault("hole", misread.help("name the crossing only"));
    }
    let metal = fields.metal_of(kind, &raw.metal);
    let size = kind.and_then(|kind| fields.size(&raw.size, kind, gauges));
    let plug = fields.read("bung", &raw.bung).unwrap_or(Plug::None);
    let mut related = |key, texts| {
        let names: Option<Vec<SetName>> = fields.read_many(key, texts);
        names.map(|names| names.into_iter().map(|name| name.0).collect::<Vec<_>>())
    };
    let relation = Relation {
        replaces: related("replaces", &raw.replaces).unwrap_or_default(),
        leaves_in: related("leaves in", &raw.leaves_in).unwrap_or_default(),
        adds_to: related("adds to", &raw.adds_to).unwrap_or_default(),
    };
    Some(Planned {
        place: place?,
        per_crossing: per_crossing?,
        hole,
        kind: kind?,
        metal,
        size,
        plug,
        relation,
    })
}

/// The line of the file that a line of the plan is written as, without its line end. Reading it
/// gives the same again.
pub fn written_plan(line: &PlanLine, gauges: GaugeSystem, units: Units) -> String {
    let mut text = Line::default();
    text.quoted("plan", Some(&line.plan));
    text.word("date", Some(line.date));
    match &line.intent {
        Intent::Drop { why } => {
            text.word("dropped", Some(YesNo::Yes));
            text.quoted("why", why.as_deref());
        }
        Intent::Drive(planned) => {
            text.word("place", Some(&planned.place));
            text.word("per crossing", planned.per_crossing);
            text.word("kind", Some(planned.kind));
            let metal = planned.metal.map_or("unknown", |metal| metal.name);
            text.word("metal", Some(metal).filter(|_| planned.kind.is_metal()));
            let size = planned
                .size
                .map_or_else(|| "unknown".to_owned(), |size| size.written(gauges, units));
            text.word("size", Some(size));
            text.word("bung", Some(planned.plug.written(units)));
            text.word("hole", Some(planned.hole));
            text.list("replaces", &planned.relation.replaces);
            text.list("leaves in", &planned.relation.leaves_in);
            text.list("adds to", &planned.relation.adds_to);
        }
    }
    text.quoted("by", line.by.as_deref());
    text.quoted("note", line.note.as_deref());
    text.written()
}

/// Tells, at `origin`, what would be wrong with a line once it is written.
pub(super) fn read_back(
    line: &PlanLine,
    gauges: GaugeSystem,
    units: Units,
    origin: Origin,
    faults: &mut Vec<Fault>,
) {
    let written = written_plan(line, gauges, units) + "\n";
    let mut wrong = Vec::new();
    read_plan(&written, gauges, &mut wrong);
    told_at(wrong, origin, faults);
}
