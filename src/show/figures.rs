//! Figures in a column, set so that points and fractions stand in line.

use super::page::NONE;

/// What stands in a column of figures where there is none.
const NO_FIGURE: [&str; 3] = ["", NONE, "-"];

/// Gives the cells of a column blanks so that the points of decimals and the strokes of fractions
/// stand in line when they are set to the right; `false`, and nothing changed, where it is not one of
/// figures alone.
pub(super) fn aligned(cells: &mut [&mut String]) -> bool {
    let figure = |cell: &str| {
        cell.contains(|c: char| c.is_ascii_digit())
            && cell
                .chars()
                .all(|c| c.is_ascii_digit() || ",.-/".contains(c))
            // A day has two dashes.
            && cell.matches('-').count() < 2
    };
    let is_none = |cell: &str| NO_FIGURE.contains(&cell);
    let is_one = |cell: &str| is_none(cell) || figure(cell);
    if !cells.iter().all(|cell| is_one(cell)) || cells.iter().all(|cell| is_none(cell)) {
        return false;
    }
    let figures = || cells.iter().filter(|cell| !is_none(cell));
    let room = figures().map(|cell| tail(cell)).max().unwrap_or(0);
    // A whole number stands before the dash of mixed ones.
    let over = figures().filter_map(|cell| over(cell)).max();
    for cell in cells.iter_mut().filter(|cell| !is_none(cell)) {
        let whole = match over {
            Some(over) if !cell.contains(['/', '.']) => over + 1,
            _ => 0,
        };
        let blanks = room.saturating_sub(tail(cell)) + whole;
        cell.extend(std::iter::repeat_n(' ', blanks));
    }
    true
}

/// How many characters of a figure stand after what is set in line: its point, or the stroke of its
/// fraction.
fn tail(cell: &str) -> usize {
    cell.find(['/', '.']).map_or(0, |at| cell.len() - at)
}

/// How many digits stand over the stroke of a fraction.
fn over(cell: &str) -> Option<usize> {
    let (before, _) = cell.split_once('/')?;
    Some(before.rsplit('-').next().unwrap_or(before).len())
}

#[cfg(test)]
mod tests {
    use super::aligned;

    fn column<const N: usize>(cells: [&str; N]) -> Option<[String; N]> {
        let mut cells = cells.map(str::to_owned);
        let mut column: Vec<&mut String> = cells.iter_mut().collect();
        aligned(&mut column).then_some(cells)
    }

    #[test]
    fn points_and_fractions_stand_in_line() {
        assert_eq!(
            column(["0.635", "1,250", "12.5", "-"]),
            Some(["0.635", "1,250    ", "12.5  ", "-"].map(str::to_owned))
        );
        assert_eq!(
            column(["5/16", "1-1/8", "2-13/16", "3", ""]),
            Some(["5/16", "1-1/8 ", "2-13/16", "3      ", ""].map(str::to_owned))
        );
    }

    #[test]
    fn words_are_left_alone() {
        assert_eq!(column(["1 to 3", "2"]), None);
        assert_eq!(column(["fits", ""]), None);
        assert_eq!(column(["2024-11-23", "2024-11-24"]), None);
        assert_eq!(column(["", "-"]), None);
    }
}
