//! How long a nail, rivet, bolt or other driven fastening is to be, by its kind.

use super::{Ask, Refusal};
use crate::joint::{Kind, limits};
use crate::text::Misread;
use crate::units::{Length, Units};

/// The step in which lengths are worked out.
pub(super) fn step(units: Units) -> Length {
    match units {
        Units::Inch => Length::from_64ths(16),
        Units::Metric => Length::from_nm(5_000_000),
    }
}

pub(super) fn up(length: Length, step: Length) -> Length {
    let steps = (length.nm() + step.nm() - 1).div_euclid(step.nm());
    step * steps.max(1)
}

pub(super) fn down(length: Length, step: Length) -> Length {
    step * length.nm().div_euclid(step.nm()).max(1)
}

/// The length that practice asks for, to the step that is usual, and by what.
pub(super) fn worked_length(
    ask: &Ask,
    diameter: Length,
) -> Result<(Length, Option<String>), Refusal> {
    let step = step(ask.units);
    let limits = &ask.limits;
    let to_member = ask.plank - ask.head_depth();
    let (least, why) = match ask.kind {
        Kind::BoatNail | Kind::AnnularNail => {
            let bound = limits.bound(limits::NAIL_LENGTH);
            let least = up(ask.plank * i64::from(bound.count()), step);
            // Half a plank more where the member has room for it.
            let most = down(ask.plank.share(5, 2), step);
            let room = ask.member.map(|member| {
                down(
                    to_member + member - limits.bound(limits::POINT_MARGIN).length(),
                    step,
                )
            });
            let long = room.map_or(most, |room| most.min(room)).max(least);
            let why = format!(
                "length 2 to 2.5 planks, the longer where the {} has room: {}",
                ask.on,
                bound.basis()
            );
            return Ok((long, Some(why)));
        }
        Kind::LagScrew => {
            let bound = limits.bound(limits::LAG_PENETRATION);
            let embedded = diameter.part(bound.diameters()) + diameter * 2;
            (
                to_member + embedded,
                format!(
                    "length for 4 diameters in the {} and a tip of 2: {}",
                    ask.on,
                    bound.basis()
                ),
            )
        }
        Kind::Drift | Kind::WoodScrew => {
            return Err(Refusal {
                option: "length",
                misread: Misread::new("nothing published gives the length of a drift")
                    .help("give it: --length 6in"),
            });
        }
        Kind::ClenchedNail | Kind::Rivet | Kind::Bolt | Kind::Trunnel => {
            let Some(member) = ask.member else {
                return Err(Refusal {
                    option: "frame",
                    misread: Misread::new(format!(
                        "a {} goes right through, and the {}'s depth is not known",
                        ask.kind, ask.on
                    ))
                    .help("measure it and give --frame, or give --length"),
                });
            };
            let (past, why) = match ask.kind {
                Kind::ClenchedNail => {
                    let bound = limits.bound(limits::CLENCH_ALLOWANCE);
                    (
                        bound.length(),
                        format!("and {} to turn back: {}", bound.is, bound.basis()),
                    )
                }
                Kind::Rivet => {
                    let bound = limits.bound(limits::RIVET_ALLOWANCE);
                    (
                        bound.length(),
                        format!(
                            "and {} to stand out before it is snipped: {}",
                            bound.is,
                            bound.basis()
                        ),
                    )
                }
                Kind::Bolt => {
                    let bound = limits.bound(limits::BOLT_ALLOWANCE);
                    (
                        diameter.part(bound.diameters()),
                        format!("and {} for washer and nut: {}", bound.is, bound.basis()),
                    )
                }
                _ => (
                    Length::ZERO,
                    "cut off flush on both sides after it is wedged: common practice, no source"
                        .to_owned(),
                ),
            };
            (
                to_member + member + past,
                format!("length through plank and {}, {why}", ask.on),
            )
        }
    };
    Ok((up(least, step), Some(why)))
}
