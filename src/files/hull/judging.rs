//! The practices she is judged by, the owner's own limits, and findings somebody has accepted.

use super::{Given, Piece, Reader, Text, read};
use crate::audit::{Acceptance, Rule};
use crate::hull::{Places, Practice};
use crate::joint::{Bound, Limits};
use crate::sample;
use crate::tables::{ButtRule, Limit, Quantity};
use crate::text::Fault;
use crate::units::Day;

crate::record! {
    /// Which of several published practices is used.
    struct RawPractice {
        butts: Text = "butts",
    }
}

crate::record! {
    /// The owner's own number for a limit.
    struct RawLimit {
        limit: Text = "limit",
        is: Text = "is",
    }
}

crate::record! {
    /// A finding accepted by somebody.
    struct RawAccepted {
        rule: Text = "rule",
        place: Text = "place",
        why: Text = "why",
        by: Text = "by",
        until: Text = "until",
    }
}

pub(super) fn practice(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Practice {
    let Given::Is(raw) = read::<RawPractice>(piece, faults) else {
        return Practice::default();
    };
    let mut fields = Reader::new(piece.origin, faults);
    let mut fields = fields.inside("practice");
    let butts = fields.look_up("butts", &raw.butts, ButtRule::find);
    Practice {
        butts: butts.unwrap_or(ButtRule::default()),
    }
}

pub(super) fn limit(
    piece: &Piece<'_>,
    faults: &mut Vec<Fault>,
) -> Option<(&'static Limit, Quantity)> {
    let Given::Is(raw) = read::<RawLimit>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    fields.need_text("limit", &raw.limit);
    fields.need_text("is", &raw.is);
    let limit = fields.look_up("limit", &raw.limit, Limit::find)?;
    let is = fields.look_up("is", &raw.is, |text| {
        let is = limit.is.parse_like(text)?;
        // What no sample could be read by is told where it is written.
        sample::confidence(&Limits::with(vec![Bound { limit, is }])).map(|_| is)
    })?;
    Some((limit, is))
}

pub(super) fn accepted(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Acceptance> {
    let Given::Is(raw) = read::<RawAccepted>(piece, faults) else {
        return None;
    };
    let mut fields = Reader::new(piece.origin, faults);
    fields.need_text("rule", &raw.rule);
    let rule = fields.look_up("rule", &raw.rule, Rule::find);
    let place: Option<Places> = fields.need("place", &raw.place);
    let why = fields.need_text("why", &raw.why);
    let by = fields.need_text("by", &raw.by);
    let until: Option<Day> = fields.read("until", &raw.until);
    Some(Acceptance {
        rule: rule?,
        place: place?,
        why: why?,
        by: by?,
        until,
        origin: piece.origin,
    })
}
