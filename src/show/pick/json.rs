//! The answer of `pick` as JSON, format 1.

use std::io::{self, Write};

use serde::Serialize;
use serde_json::Value;

use super::bit_name;
use super::planned::{self as in_plan, Planned};
use super::positions::{self, Place, Spacing};
use crate::joint::yield_limit::{Mode, Modes};
use crate::joint::{Bit, Hole, Kind, Plug, Size};
use crate::pick::{Alternative, Answer, Ask, Check, Way};
use crate::show::{AID, WORK};
use crate::tables::WireSystem;
use crate::units::{Force, Length};

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    fastening: Fastening<'a>,
    bung: Option<Bung>,
    holes: Holes<'a>,
    fit: Fit,
    hold: Hold<'a>,
    checks: Vec<Checked<'a>>,
    alternatives: Vec<Other<'a>>,
    positions: Option<Vec<Place>>,
    spacing: Option<Spacing>,
    remarks: &'a [String],
    cautions: Vec<&'static str>,
    sources: &'a [String],
    planned: Option<Value>,
}

#[derive(Serialize)]
struct Fastening<'a> {
    kind: &'static str,
    metal: Option<&'a str>,
    gauge: Option<u8>,
    gauge_system: Option<String>,
    diameter_mm: f64,
    length_mm: f64,
    head: Option<&'static str>,
    label: &'a str,
    stock: Option<bool>,
}

#[derive(Serialize)]
struct Bung {
    diameter_mm: f64,
    depth_mm: Option<f64>,
}

#[derive(Serialize)]
struct Holes<'a> {
    counterbore: Option<Bored>,
    shank: Option<Bored>,
    pilot: Option<Bored>,
    choices: &'a [String],
}

#[derive(Serialize)]
struct Bored {
    exact_mm: f64,
    bit: Option<String>,
    bit_mm: Option<f64>,
    depth_mm: f64,
}

#[derive(Serialize)]
struct Fit {
    head_depth_mm: f64,
    embedment_mm: f64,
    wood_under_head_mm: f64,
    thread_in_frame_mm: f64,
    thread_in_plank_mm: f64,
    point_cover_mm: Option<f64>,
}

#[derive(Serialize)]
struct Hold<'a> {
    withdrawal_design_n: Option<f64>,
    withdrawal_ultimate_n: Option<f64>,
    lateral_design_n: Option<f64>,
    lateral_mode: Option<&'static str>,
    modes_n: Option<ModesN>,
    wet_service: bool,
    valid_withdrawal: bool,
    valid_lateral: bool,
    notes: Vec<&'a str>,
}

/// Keys are the standard's names of the modes.
#[derive(Serialize)]
#[serde(rename_all = "PascalCase")]
struct ModesN {
    im: f64,
    is: f64,
    #[serde(rename = "II")]
    ii: f64,
    #[serde(rename = "IIIm")]
    iii_m: f64,
    #[serde(rename = "IIIs")]
    iii_s: f64,
    #[serde(rename = "IV")]
    iv: f64,
}

impl ModesN {
    fn of(modes: &Modes) -> Self {
        let newtons = |mode| modes.of(mode).newtons();
        Self {
            im: newtons(Mode::Im),
            is: newtons(Mode::Is),
            ii: newtons(Mode::II),
            iii_m: newtons(Mode::IIIm),
            iii_s: newtons(Mode::IIIs),
            iv: newtons(Mode::IV),
        }
    }
}

#[derive(Serialize)]
struct Checked<'a> {
    check: &'a str,
    verdict: &'static str,
    says: &'a str,
    limit: Option<&'a str>,
    basis: &'a str,
}

#[derive(Serialize)]
struct Other<'a> {
    way: &'static str,
    label: &'a str,
    gauge: Option<u8>,
    gauge_system: Option<String>,
    diameter_mm: Option<f64>,
    length_mm: f64,
    stock: Option<bool>,
    embedment_mm: f64,
    withdrawal_design_n: Option<f64>,
    fits: bool,
    fails: Vec<Checked<'a>>,
}

/// Prints an answer as JSON.
///
/// # Errors
/// When `out` fails.
pub fn json(
    out: &mut dyn Write,
    ask: &Ask,
    answer: &Answer,
    planned: Option<&Planned<'_>>,
) -> io::Result<()> {
    let (gauge, gauge_system) = gauge(answer.size);
    let bored = |hole: Hole| Bored {
        exact_mm: hole.exact.mm(),
        bit: hole.bit.map(|bit| bit_name(bit, ask.units)),
        bit_mm: hole.bit.and_then(Bit::diameter).map(Length::mm),
        depth_mm: hole.depth.mm(),
    };
    let (seat, hold, holes) = (&answer.seat, &answer.hold, &answer.holes);
    let lateral = &answer.lateral;
    let governing = lateral.governing();
    let report = Report {
        format: 1,
        fastening: Fastening {
            kind: ask.kind.name(),
            metal: ask.metal.map(|metal| metal.name),
            gauge,
            gauge_system,
            diameter_mm: answer.diameter.mm(),
            length_mm: seat.length.mm(),
            head: (ask.kind == Kind::WoodScrew).then_some("flat"),
            label: &answer.label,
            stock: answer.stock,
        },
        bung: match &answer.plug {
            Plug::Bung(bung) => Some(Bung {
                diameter_mm: bung.diameter.mm(),
                depth_mm: bung.depth.map(Length::mm),
            }),
            Plug::Unknown | Plug::None | Plug::Stopping => None,
        },
        holes: Holes {
            counterbore: holes.counterbore.map(bored),
            shank: holes.shank.map(bored),
            pilot: holes.pilot.map(bored),
            choices: &holes.choices,
        },
        fit: Fit {
            head_depth_mm: seat.head_depth.mm(),
            embedment_mm: seat.embedment().mm(),
            wood_under_head_mm: seat.wood_under_head().mm(),
            thread_in_frame_mm: seat.thread_in_member().mm(),
            thread_in_plank_mm: seat.thread_in_plank().mm(),
            point_cover_mm: seat.point_cover().map(Length::mm),
        },
        hold: Hold {
            withdrawal_design_n: hold.design.map(Force::newtons),
            withdrawal_ultimate_n: hold.ultimate.map(Force::newtons),
            lateral_design_n: governing.map(|(_, force)| force.newtons()),
            lateral_mode: governing.map(|(mode, _)| mode.name()),
            modes_n: lateral.modes.as_ref().map(ModesN::of),
            wet_service: hold.wet,
            valid_withdrawal: hold.valid,
            valid_lateral: lateral.valid,
            notes: hold
                .notes
                .iter()
                .chain(&lateral.notes)
                .map(String::as_str)
                .collect(),
        },
        checks: answer.checks.iter().map(checked).collect(),
        alternatives: answer.alternatives.iter().map(other).collect(),
        positions: positions::places(answer),
        spacing: positions::spacing(ask, answer),
        remarks: &answer.remarks,
        cautions: WORK.into_iter().chain([AID]).collect(),
        sources: &answer.sources,
        planned: planned.map(in_plan::json),
    };
    serde_json::to_writer_pretty(&mut *out, &report)?;
    writeln!(out)
}

/// The gauge number and its system, where it has them.
fn gauge(size: Size) -> (Option<u8>, Option<String>) {
    match size {
        Size::Screw { screw, .. } => (screw.gauge, Some(screw.system.to_string())),
        Size::Wire { system, number, .. } => {
            let system = match system {
                WireSystem::Swg => "swg",
                WireSystem::Bwg => "bwg",
            };
            (Some(number), Some(system.to_owned()))
        }
        Size::Plain { .. } => (None, None),
    }
}

fn checked(check: &Check) -> Checked<'_> {
    Checked {
        check: check.check,
        verdict: check.verdict.name(),
        says: &check.says,
        limit: check.limit.as_deref(),
        basis: &check.basis,
    }
}

fn other(alternative: &Alternative) -> Other<'_> {
    let (gauge, gauge_system) = gauge(alternative.size);
    Other {
        way: match alternative.way {
            Way::Thinner => "a gauge smaller",
            Way::Thicker => "a gauge larger",
            Way::Shorter => "the next shorter",
            Way::Longer => "the next longer",
            Way::Further => "what fits",
        },
        label: &alternative.label,
        gauge,
        gauge_system,
        diameter_mm: alternative.size.diameter().map(Length::mm),
        length_mm: alternative.size.length().mm(),
        stock: alternative.stock,
        embedment_mm: alternative.embedment.mm(),
        withdrawal_design_n: alternative.design.map(Force::newtons),
        fits: alternative.fits(),
        fails: alternative.fails.iter().map(checked).collect(),
    }
}
