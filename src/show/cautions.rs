//! What is said, once and briefly, wherever work is advised.

/// Cautions for anyone about to draw or drive fastenings. Common practice of the trade, but for
/// the notice to class or flag: 46 CFR 115.665 and 176.665.
pub const WORK: [&str; 7] = [
    "Shores and blocks before wood comes out; draw nothing while she hangs in slings.",
    "Few fastenings out at once.",
    "Old paint and antifouling: lead in the dust. Mask, gloves, eye protection.",
    "No flame or hot tool near solvent or bilge vapour; gloves for epoxy.",
    "Trial holes in scrap of the same wood; wax on the thread; last turns by hand.",
    "Tell insurer, class or flag before refastening.",
    "At launch: slings slack but on, pumps rigged, watch her while she takes up.",
];

/// What the output is, and what it is not.
pub const AID: &str = "An aid to a record, not a survey: the surveyor, class or flag rules, local codes and licensed practice decide.";
