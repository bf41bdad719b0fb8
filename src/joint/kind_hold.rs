//! What nails, rivets, bolts and the rest hold, pulled straight out.

use super::{Grain, Hold, Kind, Seat, Timber, Zone, withdrawal};
use crate::tables::Metal;
use crate::units::Length;

/// What a fastening that is no wood screw holds in its seat.
///
/// Nails by [`withdrawal::design`] and [`withdrawal::tested`] over what is in the member; lag
/// screws over their thread there, six tenths of the length (DIN 571, read), less the tip of two
/// diameters. What holds by its ends, and drifts and trunnels, have no figure. The frame is taken as
/// dry when it is driven, so a nail that then serves wet keeps a quarter.
pub fn hold_kind(
    kind: Kind,
    diameter: Length,
    metal: Option<&Metal>,
    seat: &Seat,
    wood: Option<Timber>,
    grain: Grain,
    zone: Zone,
) -> Hold {
    let mut hold = Hold::nothing_in(zone);
    let design = match withdrawal::design(kind, metal) {
        Ok(design) => design,
        Err(why) => {
            hold.notes.push(why.to_owned());
            return hold;
        }
    };
    let Some(wood) = wood else {
        hold.notes
            .push("the frame's wood is not known, so no withdrawal is worked".to_owned());
        return hold;
    };
    if !design.covers(diameter) {
        hold.notes
            .push("no withdrawal value is published for this diameter".to_owned());
        return hold;
    }
    let mut share = withdrawal::wet_factor(kind, false, hold.wet);
    match (kind, grain) {
        (_, Grain::Side) => {}
        (Kind::LagScrew, Grain::End) => {
            share *= 0.75;
            hold.notes.push(
                "end grain: three quarters of side grain (Wood Handbook p. 8-13, read)".to_owned(),
            );
        }
        (_, Grain::End) => {
            share = 0.0;
            hold.notes
                .push("end grain: the building standard allows nails no withdrawal".to_owned());
        }
    }
    let is_nail = matches!(kind, Kind::BoatNail | Kind::AnnularNail);
    if is_nail && hold.wet && grain == Grain::Side {
        hold.notes.push(
            "a nail driven in dry wood that then serves wet keeps a quarter of its design value"
                .to_owned(),
        );
    }
    let inside = seat
        .member
        .map_or(seat.embedment(), |member| seat.embedment().min(member));
    let grips = match kind {
        Kind::LagScrew => inside.min(seat.length.share(6, 10)) - diameter * 2,
        _ => inside,
    };
    let grips = grips.max(Length::ZERO);
    let gravity = wood.oven_dry().value;
    hold.valid = withdrawal::GRAVITIES.contains(&gravity);
    if let Some(gravity) = hold.standard_gravity(gravity) {
        let pounds = design.per_inch(gravity, diameter) * share;
        hold.design = Some(withdrawal::over(pounds, grips));
    }
    if let (Some(tested), true, Grain::Side) = (withdrawal::tested(kind), hold.valid, grain) {
        let pounds = tested.per_inch(wood.at_12_percent().value, diameter);
        hold.ultimate = Some(withdrawal::over(pounds, grips));
    }
    hold
}
