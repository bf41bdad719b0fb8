//! Tables of the report: on a narrow screen their rows stand one under another.

use std::io;

use crate::show::html::Html;

/// Writes a table. `numbers` says which columns are counts.
pub(super) fn table<const N: usize>(
    html: &mut Html<'_>,
    caption: &str,
    heads: [&str; N],
    numbers: [bool; N],
    rows: impl IntoIterator<Item = [String; N]>,
) -> io::Result<()> {
    let class = |number: bool| if number { "number" } else { "" };
    html.within("table", &[("class", "stacks")], |html| {
        html.put("caption", &[], caption)?;
        html.within("thead", &[], |html| {
            html.within("tr", &[], |html| {
                heads.iter().zip(numbers).try_for_each(|(head, number)| {
                    html.put("th", &[("scope", "col"), ("class", class(number))], head)
                })
            })
        })?;
        html.within("tbody", &[], |html| {
            rows.into_iter().try_for_each(|row| {
                html.within("tr", &[], |html| {
                    let cells = row.iter().zip(heads).zip(numbers);
                    cells
                        .enumerate()
                        .try_for_each(|(at, ((cell, head), number))| {
                            if at == 0 {
                                return html.put("th", &[("scope", "row")], cell);
                            }
                            let attributes = [("class", class(number)), ("data-head", head)];
                            html.put("td", &attributes, cell)
                        })
                })
            })
        })
    })
}

/// Names and what they are, in pairs.
pub(super) fn pairs<'t>(
    html: &mut Html<'_>,
    pairs: impl IntoIterator<Item = (&'t str, String)>,
) -> io::Result<()> {
    html.within("dl", &[], |html| {
        pairs.into_iter().try_for_each(|(name, is)| {
            html.within("div", &[], |html| {
                html.put("dt", &[], name)?;
                html.put("dd", &[], &is)
            })
        })
    })
}

/// A list, if there is anything to list.
pub(super) fn list(html: &mut Html<'_>, items: impl IntoIterator<Item = String>) -> io::Result<()> {
    let mut items = items.into_iter().peekable();
    if items.peek().is_none() {
        return Ok(());
    }
    html.within("ul", &[], |html| {
        items.try_for_each(|item| html.put("li", &[], &item))
    })
}
