//! What is said with an answer: why it does not fit, what should be known of it, what it rests on.

use super::alternatives::{self, Alternative};
use super::answer::Fitted;
use super::{Ask, Check, Refusal, Wanted};
use crate::joint::{Hold, Holes, Kind, Lateral, Verdict, limits, withdrawal};
use crate::tables::{Screw, Strength, bending_yield};
use crate::text::Misread;
use crate::units::Length;

/// That the rule has nothing for a plank, as a refusal.
pub(super) fn no_row(ask: &Ask) -> Refusal {
    let rows = ask.rule.rows;
    let help = match (rows.first(), rows.last()) {
        (Some(first), Some(last)) => format!(
            "its rows run from {} to {}; follow another --rule, or give --gauge and --length to have them weighed",
            first.plank.shown(ask.units),
            last.plank.shown(ask.units)
        ),
        _ => "give --gauge and --length to have them weighed".to_owned(),
    };
    let says = format!(
        "the {} rule has no row for planking of {}",
        ask.rule.name,
        ask.plank.shown(ask.units)
    );
    Refusal {
        option: "plank",
        misread: Misread::new(says).help(help),
    }
}

/// That the screw does not fit, why, and what does.
pub(super) fn misfit(checks: &[Check], alternatives: &[Alternative]) -> String {
    let bad: Vec<_> = checks
        .iter()
        .filter(|check| check.verdict >= Verdict::Mend)
        .map(|check| check.says.as_str())
        .collect();
    let fit: Vec<_> = alternatives
        .iter()
        .filter(|other| other.fits())
        .map(|other| other.label.as_str())
        .collect();
    let instead = if fit.is_empty() {
        "nothing here fits instead".to_owned()
    } else {
        format!("what fits: {}", fit.join(", "))
    };
    format!("it does not fit: {}; {instead}", bad.join("; "))
}

/// What should be known of how the answer was come by.
pub(super) fn remarks(ask: &Ask, wanted: Option<&Wanted>, fitted: &Fitted) -> Vec<String> {
    let shown = |length: Length| length.shown(ask.units);
    let mut remarks = Vec::new();
    let fixed = ask.fixed.screw.is_some() && ask.fixed.length.is_some();
    match wanted {
        Some(wanted) if !fixed && !wanted.is_exact(ask.plank) => remarks.push(format!(
            "the {} rule has no row for {}: the nearest, {}, is taken",
            ask.rule.name,
            shown(ask.plank),
            shown(wanted.row_plank)
        )),
        Some(_) => {}
        None => remarks.push(format!(
            "the {} rule has no row for {}: nothing is weighed against it",
            ask.rule.name,
            shown(ask.plank)
        )),
    }
    let (screw, length) = (fitted.screw, fitted.seat.length);
    match alternatives::in_stock(screw, length) {
        Some(true) => {}
        Some(false) => {
            let stock = screw.stock_lengths();
            let under = stock.iter().rev().find(|each| **each < length);
            let over = stock.iter().find(|each| **each > length);
            let near: Vec<_> = under
                .into_iter()
                .chain(over)
                .map(|each| shown(*each))
                .collect();
            remarks.push(format!(
                "{} is not a stock length of {}: the nearest in stock {} {}",
                shown(length),
                screw.name(),
                if near.len() == 1 { "is" } else { "are" },
                near.join(" and ")
            ));
        }
        None if screw.head.is_none() => remarks.push(format!(
            "{} has no published head, lengths or strength; its shank is by the gauge formula",
            screw.name()
        )),
        None => remarks.push(format!(
            "no range of lengths is published for {}: ask what it is made in",
            screw.name()
        )),
    }
    if ask.member.is_none() {
        remarks.push(format!(
            "the {}'s depth is not known: measure it, so that the point does not come through",
            ask.on
        ));
    }
    remarks
}

/// What the answer rests on, each once.
pub(super) fn sources(
    ask: &Ask,
    screw: &Screw,
    holes: &Holes,
    hold: &Hold,
    lateral: &Lateral,
) -> Vec<String> {
    let mut sources = vec![
        format!("screw for the plank: {}", ask.rule.basis),
        format!("shank: {}", screw.shank_basis),
    ];
    if let Some(head) = &screw.head {
        sources.push(format!("head: {}", head.basis));
    }
    if let Some(lead) = &holes.lead {
        sources.push(format!("thread root: {}", screw.root_basis));
        sources.push(format!("pilot: {}", ask.lead_hole.basis));
        sources.push(format!("pilot depth: {}", lead.reach.source()));
    }
    sources.extend(strength_sources(
        ask,
        Kind::WoodScrew,
        screw.shank,
        hold,
        lateral,
    ));
    sources
}

/// What the strength of a fastening rests on.
pub(super) fn strength_sources(
    ask: &Ask,
    kind: Kind,
    diameter: Length,
    hold: &Hold,
    lateral: &Lateral,
) -> Vec<String> {
    let mut sources = Vec::new();
    if let Some(wood) = ask.member_wood {
        sources.push(format!("{}: {}", wood.name(), wood.oven_dry().from));
    }
    if let (Some(_), Ok(formula)) = (hold.design, withdrawal::design(kind, ask.metal)) {
        sources.push(format!("design withdrawal: {}", formula.basis));
    }
    if let (Some(_), Some(formula)) = (hold.ultimate, withdrawal::tested(kind)) {
        sources.push(format!("withdrawal to failure: {}", formula.basis));
    }
    if let (true, Some(strength)) = (hold.capped, ask.metal.and_then(Strength::of)) {
        sources.push(format!(
            "tensile strength of {}, {}: {}",
            strength.metal, strength.alloy, strength.tensile_basis
        ));
    }
    if lateral.modes.is_some() {
        sources.push(
            "sideways: yield-limit equations, NDS-2018 Tables 12.3.1A and B (public transcription)"
                .to_owned(),
        );
        match (ask.bending_yield, ask.metal) {
            (Some(own), _) => sources.push(format!("bending yield: {own}, as given")),
            (None, Some(metal)) => {
                if let Some((stress, basis)) = bending_yield(metal, diameter) {
                    sources.push(format!(
                        "bending yield of {}, {stress}: {basis}",
                        metal.name
                    ));
                }
            }
            (None, None) => {}
        }
    }
    sources
}

/// Why nothing fits, in words.
pub(super) fn why_nothing(ask: &Ask, wanted: Option<&Wanted>, answered: &Fitted) -> String {
    let (Some(member), Some(wanted)) = (ask.member, wanted) else {
        return "nothing made fits here".to_owned();
    };
    let cover = ask.limits.bound(limits::POINT_MARGIN).length();
    let most = ask.plank - answered.seat.head_depth + member - cover;
    let by_rule = wanted.length + answered.seat.head_depth - ask.plank;
    let stock = wanted.screw.stock_lengths();
    match stock.iter().rev().find(|length| **length <= most) {
        Some(longest) => {
            let embedment = *longest + answered.seat.head_depth - ask.plank;
            format!(
                "the {} is too shallow for any: the longest {} that stays inside is {}, with {:.0} % of the rule's embedment",
                ask.on,
                wanted.screw.name(),
                longest.shown(ask.units),
                100.0 * embedment.max(Length::ZERO).over(by_rule)
            )
        }
        None => format!(
            "the {} is too shallow for any: no {} is made short enough to stay inside",
            ask.on,
            wanted.screw.name()
        ),
    }
}
