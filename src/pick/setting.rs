//! What does not hang on which screw it is: metal, water, wood, the building standard's word.

use super::{Ask, Check};
use crate::joint::{Grain, Kind, Seat, Timber, Verdict, judge, limits, withdrawal};
use crate::tables::{self, Family};
use crate::units::Length;

/// What does not hang on which screw it is: metal, water, wood; and the building standard's word.
pub(super) fn checks(ask: &Ask, diameter: Length, seat: &Seat) -> Vec<Check> {
    let mut checks = Vec::new();
    if ask.kind.is_metal() {
        metal(ask, &mut checks);
    }
    if matches!(
        ask.kind,
        Kind::WoodScrew | Kind::BoatNail | Kind::AnnularNail
    ) {
        checks.push(six_diameters(ask, diameter, seat));
    }
    if ask.grain == Grain::End {
        checks.push(Check {
            check: "end-grain",
            verdict: Verdict::Watch,
            says: "end grain holds far less than side grain".to_owned(),
            limit: None,
            basis: "NDS-2018 12.2.2.3 (public transcription)".to_owned(),
        });
    }
    if let Some(wood) = ask.member_wood {
        let gravity = wood.oven_dry();
        let inside = withdrawal::GRAVITIES.contains(&gravity.value);
        let named = match wood {
            Timber::Wood(wood) => format!("{}: ", wood.name),
            Timber::Gravity(_) => String::new(),
        };
        checks.push(Check {
            check: "gravity-in-range",
            verdict: if inside { Verdict::Ok } else { Verdict::Watch },
            says: format!(
                "{named}specific gravity {:.2} is {} the standard's range",
                gravity.value,
                if inside { "within" } else { "outside" }
            ),
            limit: Some("0.31 to 0.73".to_owned()),
            basis: "NDS-2018 Table 12.2B (public transcription)".to_owned(),
        });
    }
    checks
}

/// The building standard's least penetration of screws and nails.
fn six_diameters(ask: &Ask, diameter: Length, seat: &Seat) -> Check {
    let book = match ask.kind {
        Kind::WoodScrew => "; so is every planking screw of the Herreshoff table",
        _ => "",
    };
    let six = judge::standard_embedment(diameter, &ask.limits);
    let embedment = seat.embedment();
    Check {
        check: "six-diameters",
        // Every planking screw of the book misses it, and holds: it is said, never held against.
        verdict: Verdict::Ok,
        says: if embedment < six {
            format!(
                "{} in the {} is under the building standard's 6 diameters ({}){book}",
                embedment.shown(ask.units),
                ask.on,
                six.shown(ask.units)
            )
        } else {
            format!(
                "{} in the {} is at least the building standard's 6 diameters ({})",
                embedment.shown(ask.units),
                ask.on,
                six.shown(ask.units)
            )
        },
        limit: Some(six.shown(ask.units)),
        basis: ask.limits.bound(limits::SIX_DIAMETERS).basis(),
    }
}

fn metal(ask: &Ask, checks: &mut Vec<Check>) {
    const NVIC: &str = "USCG NVIC 7-95, 3-E (public transcription)";
    let mut say = |check, verdict, says: String, basis: &str| {
        checks.push(Check {
            check,
            verdict,
            says,
            limit: None,
            basis: basis.to_owned(),
        });
    };
    let Some(metal) = ask.metal else {
        say(
            "metal-unknown",
            Verdict::Watch,
            "no metal is given: settle it before anything is bought".to_owned(),
            "common practice, no source",
        );
        return;
    };
    let zone = ask.zone;
    let judged = match metal.family {
        _ if metal.dealloys => Some((
            "brass-in-salt",
            judge::brass_in_salt(metal, zone, ask.salt, true),
            "loses its zinc in salt water and goes pink and weak",
            "keeps its zinc where salt water does not wet it",
        )),
        Family::Stainless => Some((
            "stainless-underwater",
            judge::stainless_underwater(metal, zone, true),
            "corrodes fast in wet wood that shuts it off from oxygen",
            "is not under water here",
        )),
        Family::Steel => Some((
            "bare-steel",
            judge::bare_steel(metal, zone, true),
            "has no zinc on it; ferrous fastenings must be hot-dip galvanised",
            "has zinc on it",
        )),
        _ => None,
    };
    let mut told = false;
    if let Some((check, verdict, bad, good)) = judged {
        told = verdict > Verdict::Ok;
        let says = if told { bad } else { good };
        say(check, verdict, format!("{} {says}", metal.name), NVIC);
    }
    // What the table has against it otherwise, in the sea water that it speaks of.
    let fit = zone.fit(metal);
    let verdict = match fit.verdict {
        _ if told || !ask.salt => return,
        tables::Verdict::Usual => Verdict::Ok,
        tables::Verdict::Doubtful => Verdict::Watch,
        tables::Verdict::Unfit => Verdict::Mend,
    };
    say(
        "metal-in-zone",
        verdict,
        format!("{}, {zone}: {}", metal.name, fit.why),
        &fit.basis.to_string(),
    );
}
