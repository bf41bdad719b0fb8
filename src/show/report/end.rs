//! The end of the report: cautions, room for the surveyor's own words, lines to sign.

use std::io;

use super::Report;
use super::cells::list;
use crate::show::html::Html;
use crate::show::{AID, WORK};

/// What those who sign have done, and no more than that.
const SIGNS: [&str; 3] = ["Owner", "Shipwright", "Surveyor"];

pub(super) fn write(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    html.put("h2", &[], "Cautions")?;
    list(html, WORK.iter().map(|caution| (*caution).to_owned()))?;
    html.put("p", &[], AID)?;
    html.within("section", &[("class", "sign")], |html| {
        html.put("h2", &[], "In the surveyor's own words")?;
        html.put("div", &[("class", "blank")], "")?;
        html.put("h2", &[], "Record seen")?;
        html.put(
            "p",
            &[("class", "quiet")],
            "To sign says that this record was seen, and not that it is true or that she is sound.",
        )?;
        html.within("div", &[("class", "lines")], |html| {
            SIGNS.iter().try_for_each(|who| {
                html.within("p", &[], |html| {
                    html.put("span", &[("class", "line")], "")?;
                    html.put("span", &[], &format!("{who}: record seen, name and date"))
                })
            })
        })
    })?;
    let made = format!(
        "Made on {} by refasten {} from hull.yaml and log.yaml.",
        report.season.last.survey.day, report.version
    );
    html.put("footer", &[("class", "quiet")], &made)
}
