//! What the findings rest on, each source told once and pointed to by its number.

use std::io;

use crate::show::html::Html;
use crate::tables::Basis;

/// Sources in the order they are first pointed to.
#[derive(Debug, Default)]
pub(super) struct Sources {
    told: Vec<String>,
}

impl Sources {
    /// The number that points to a basis, in brackets; common practice has none and says so.
    pub(super) fn cite(&mut self, basis: &Basis) -> String {
        if basis.source.is_none() {
            return basis.to_string();
        }
        let says = basis.to_string();
        let at = self.told.iter().position(|told| *told == says);
        let at = at.unwrap_or_else(|| {
            self.told.push(says);
            self.told.len() - 1
        });
        format!("[{}]", at + 1)
    }

    /// Lists them.
    pub(super) fn write(&self, html: &mut Html<'_>) -> io::Result<()> {
        if self.told.is_empty() {
            return Ok(());
        }
        html.put("h2", &[], "What the findings rest on")?;
        html.within("ol", &[("class", "sources")], |html| {
            self.told
                .iter()
                .try_for_each(|says| html.put("li", &[], says))
        })
    }
}
