//! Every rule, one file each. The comment at the head of a file is the page that `explain`
//! prints. A rule is listed once, here.

use super::Rule;

pub(super) mod accepted_expired;
pub(super) mod accepted_unused;
mod crossing_bare;
mod short_embedment;

/// Every rule, in the order their findings are listed within a severity.
pub(super) const ALL: &[&Rule] = &[
    &short_embedment::RULE,
    &crossing_bare::RULE,
    &accepted_unused::RULE,
    &accepted_expired::RULE,
];
