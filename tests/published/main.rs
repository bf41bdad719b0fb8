//! Figures against the publications they come from, the source named beside each.

mod withdrawal;
