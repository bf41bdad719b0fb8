//! Looking a row up by what a person calls it.

use crate::text::{Misread, nearest};

/// Letters and digits only, in lower case: how names are compared. The build folds names the same
/// way to see that each means one row.
pub(super) fn folded(name: &str) -> String {
    name.chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

/// The first row of a table, which is the one used where none is named. To be called in a constant,
/// where a table without rows fails the build.
#[expect(
    clippy::panic,
    reason = "the compiler runs it, and a panic there fails the build"
)]
pub(super) const fn first<T>(rows: &'static [T]) -> &'static T {
    match rows {
        [first, ..] => first,
        [] => panic!("the table has no row"),
    }
}

/// The row that `name` names, by its name or an alias; case, blanks and hyphens do not matter.
/// `what` is the kind of row, with its article: `a wood`. `listed` is what follows `refasten
/// tables` to see them all.
pub(super) fn find<T>(
    what: &str,
    listed: &str,
    name: &str,
    rows: &'static [T],
    names: impl Fn(&'static T) -> (&'static str, &'static [&'static str]),
) -> Result<&'static T, Misread> {
    // As it is written to files, most often.
    if let Some(row) = rows.iter().find(|row| names(row).0 == name) {
        return Ok(row);
    }
    let word = folded(name);
    let known = |row: &&'static T| {
        let (name, aliases) = names(row);
        folded(name) == word || aliases.iter().any(|alias| folded(alias) == word)
    };
    if let Some(row) = rows.iter().find(known) {
        return Ok(row);
    }
    let all = || rows.iter().map(|row| names(row).0);
    let with: Vec<&str> = all()
        .filter(|name| name.split([' ', '-']).any(|part| folded(part) == word))
        .collect();
    if with.len() > 1 {
        let says = format!("`{}` may mean more than one", name.trim());
        return Err(Misread::new(says).help(format!("one of {}", with.join(", "))));
    }
    let misread = Misread::new(format!("`{}` is not {what} of the tables", name.trim()));
    let list = format!("refasten tables {listed}");
    let each = rows.iter().flat_map(|row| {
        let (name, aliases) = names(row);
        std::iter::once(name).chain(aliases.iter().copied())
    });
    Err(match (nearest(name.trim(), each), rows.len()) {
        (Some(near), _) => misread.help(format!("did you mean `{near}`?")),
        (None, ..=12) => misread.help(format!("one of {}", all().collect::<Vec<_>>().join(", "))),
        (None, _) => misread.help(format!("`{}` lists them", list.trim_end())),
    })
}
