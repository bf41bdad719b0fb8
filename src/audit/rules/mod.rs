//! Every rule, one file each. The comment at the head of a file is the page that `explain`
//! prints. A rule is listed once, here.

use super::Rule;

pub(super) mod accepted_expired;
pub(super) mod accepted_unused;
mod bare_steel;
mod brass_in_salt;
mod crossing_bare;
mod metal_unknown;
mod mixed_metals;
mod short_embedment;
mod stainless_underwater;

/// Every rule, in the order their findings are listed within a severity.
pub(super) const ALL: &[&Rule] = &[
    &mixed_metals::RULE,
    &stainless_underwater::RULE,
    &brass_in_salt::RULE,
    &bare_steel::RULE,
    &metal_unknown::RULE,
    &short_embedment::RULE,
    &crossing_bare::RULE,
    &accepted_unused::RULE,
    &accepted_expired::RULE,
];
