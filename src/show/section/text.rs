//! The section drawn in text: the fastening lies on its side, the plank's face to the left, to scale
//! along its axis; its lengths by letter below.

use std::io;

use super::axis::Axis;
use super::body::body;
use super::spans::{Span, columns, spans};
use crate::joint::{Kind, Plug};
use crate::pick::{Answer, Ask};
use crate::show::page::Page;
use crate::units::places;

/// Columns from face to face that a drawing is to have, and that it may have.
const USUAL: f64 = 48.0;
const MOST: f64 = 52.0;
/// Columns of a page that the drawing leaves free: its margin, and what stands out beyond the frame.
const FREE: f64 = 14.0;
const BREAK: f64 = 2.0;
/// Rows of the wood, its faces included, and the one in which the fastening lies.
const ROWS: usize = 7;
const AXIS: usize = 4;

/// Prints a small section, and what its letters stand for.
pub(in crate::show) fn text(page: &mut Page<'_>, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let picture = Picture::of(ask, answer, f64::from(page.width()) - FREE);
    page.line(&format!(
        "Section along the plank, its face to the left{}",
        match picture.axis.breaks().next() {
            Some(_) => ", broken where nothing is",
            None => "",
        }
    ))?;
    for row in picture.rows(ask, answer) {
        page.laid_out(&row)?;
    }
    let mut letter = 'a';
    let mut said = Vec::new();
    for column in columns(spans(ask, answer)) {
        page.laid_out(&picture.ruler(&column, letter))?;
        for span in column {
            said.push(format!("{letter} {} {}", span.name, span.shown(ask.units)));
            letter = char::from_u32(u32::from(letter) + 1).unwrap_or('z');
        }
    }
    // A letter is never parted from what it stands for.
    let mut line = String::new();
    for item in said {
        let wide = line.chars().count() + item.chars().count() + 4;
        if !line.is_empty() && wide > usize::from(page.width()) {
            page.indented("  ", &line)?;
            line.clear();
        }
        let gap = if line.is_empty() { "" } else { "; " };
        line.push_str(gap);
        line.push_str(&item);
    }
    page.indented("  ", &line)
}

/// Where the columns lie.
struct Picture {
    axis: Axis,
    wide: usize,
    far: Option<f64>,
}

impl Picture {
    fn of(ask: &Ask, answer: &Answer, room: f64) -> Self {
        let seat = &answer.seat;
        let (back, point) = (seat.plank.mm(), seat.point().mm());
        let far = seat.member.map(|member| back + member.mm());
        let end = far.map_or(point * 1.2, |far| far.max(point));
        let mut worth = vec![0.0, seat.head_depth.mm(), back, point, end];
        worth.extend(far);
        if ask.kind.is_threaded() {
            worth.extend(body(ask, answer).thread.map(|thread| thread.from));
        }
        let scale = USUAL.min(room) / end.min(1.7 * point);
        let axis = Axis::new(&worth, scale, MOST.min(room), BREAK);
        // A little room for what stands out on the far side.
        let wide = places(axis.end().round()) + 5;
        Self { axis, wide, far }
    }

    /// The column of a depth.
    fn column(&self, depth: f64) -> usize {
        places(self.axis.at(depth).round())
    }

    fn rows(&self, ask: &Ask, answer: &Answer) -> Vec<String> {
        let mut canvas = Canvas::new(self.wide);
        let seat = &answer.seat;
        let (back, point) = (self.column(seat.plank.mm()), self.column(seat.point().mm()));
        let head = self.column(seat.head_depth.mm());
        let far = self.far.map(|far| self.column(far));
        let end = far.unwrap_or_else(|| self.column(self.axis.deepest()));
        for row in [0, ROWS - 1] {
            canvas.run(row, 0, end, '─');
        }
        let uprights = [
            (Some(0), ['┌', '└']),
            (Some(back), ['┬', '┴']),
            (far, ['┐', '┘']),
        ];
        for (column, [top, foot]) in uprights {
            if let Some(column) = column {
                canvas.put(0, column, top);
                (1..ROWS - 1).for_each(|row| canvas.put(row, column, '│'));
                canvas.put(ROWS - 1, column, foot);
            }
        }
        canvas.word(1, 0, back, "plank");
        canvas.word(1, back, end, ask.on);
        canvas.plug(answer, head);
        canvas.fastening(ask, answer, self, [head, point]);
        if let Some(far) = far.filter(|far| point > *far) {
            canvas.far_end(ask.kind, far, point);
        }
        for middle in self.axis.breaks() {
            let at = places(middle.round());
            for row in 0..ROWS {
                canvas.put(row, at.saturating_sub(1), '/');
                canvas.put(row, at, '/');
            }
        }
        canvas.lines()
    }

    /// Lengths of one column as a ruler under the drawing, each with its letter.
    fn ruler(&self, spans: &[Span], first: char) -> String {
        let mut row = vec![' '; self.wide + 1];
        let mut letters = Vec::new();
        let mut put = |at: usize, c: char| {
            if let Some(cell) = row.get_mut(at) {
                *cell = c;
            }
        };
        for (number, span) in (0_u32..).zip(spans) {
            let (from, to) = (self.column(span.from.mm()), self.column(span.to.mm()));
            (from + 1..to).for_each(|at| put(at, '─'));
            put(from, '├');
            put(to, '┤');
            let letter = char::from_u32(u32::from(first) + number).unwrap_or('z');
            letters.push(((from + to) / 2, letter));
        }
        for span in spans {
            if spans.iter().any(|other| other.to == span.from) {
                put(self.column(span.from.mm()), '┼');
            }
        }
        for (at, letter) in letters {
            put(at, letter);
        }
        let row: String = row.into_iter().collect();
        format!("  {row}")
    }
}

/// A small page of letters.
struct Canvas {
    cells: Vec<Vec<char>>,
}

impl Canvas {
    fn new(wide: usize) -> Self {
        Self {
            cells: vec![vec![' '; wide + 1]; ROWS],
        }
    }

    fn put(&mut self, row: usize, column: usize, c: char) {
        if let Some(cell) = self.cells.get_mut(row).and_then(|row| row.get_mut(column)) {
            *cell = c;
        }
    }

    fn run(&mut self, row: usize, from: usize, to: usize, c: char) {
        (from..to).for_each(|column| self.put(row, column, c));
    }

    /// A word between two uprights, where there is room for it.
    fn word(&mut self, row: usize, left: usize, right: usize, word: &str) {
        let letters = word.chars().count();
        if right > left + letters + 2 {
            for (at, letter) in word.chars().enumerate() {
                self.put(row, left + 2 + at, letter);
            }
        }
    }

    /// What is over the head.
    fn plug(&mut self, answer: &Answer, head: usize) {
        let filling = match answer.plug {
            Plug::Bung(_) => '░',
            Plug::Stopping => '·',
            Plug::Unknown => '?',
            Plug::None => return,
        };
        for row in AXIS - 1..=AXIS + 1 {
            self.run(row, 1, head, filling);
        }
    }

    fn fastening(
        &mut self,
        ask: &Ask,
        answer: &Answer,
        picture: &Picture,
        [head, point]: [usize; 2],
    ) {
        let shank = if ask.kind.is_metal() { '═' } else { '▒' };
        self.run(AXIS, head, point, shank);
        if let Some(thread) = body(ask, answer).thread {
            self.run(AXIS, picture.column(thread.from), point, '╪');
        }
        match ask.kind {
            Kind::Trunnel => {
                for row in [AXIS - 1, AXIS + 1] {
                    self.run(row, head + 1, point, '─');
                }
                self.put(AXIS, head, '>');
                if body(ask, answer).wedges.len() > 1 {
                    let far = picture.far.map_or(point, |far| picture.column(far));
                    self.put(AXIS, far, '<');
                }
            }
            Kind::WoodScrew => {
                self.put(AXIS - 1, head, '\\');
                self.put(AXIS, head, '█');
                self.put(AXIS + 1, head, '/');
            }
            _ => (AXIS - 1..=AXIS + 1).for_each(|row| self.put(row, head, '█')),
        }
        match ask.kind {
            Kind::Bolt | Kind::Trunnel => {}
            _ => self.put(AXIS, point.saturating_sub(1), '>'),
        }
    }

    /// What is on the end of a fastening that comes through.
    fn far_end(&mut self, kind: Kind, far: usize, point: usize) {
        match kind {
            Kind::Rivet => {
                self.run(AXIS, far + 1, point + 1, ' ');
                (AXIS - 1..=AXIS + 1).for_each(|row| self.put(row, far + 1, '▌'));
                self.put(AXIS, far + 2, ')');
            }
            Kind::Bolt => (AXIS - 1..=AXIS + 1).for_each(|row| self.put(row, far + 1, '█')),
            Kind::ClenchedNail => {
                self.run(AXIS, far + 1, point + 1, ' ');
                self.put(AXIS, far + 1, '╗');
                self.put(AXIS + 1, far + 1, '╝');
                self.put(AXIS + 1, far, '═');
                self.put(AXIS + 1, far.saturating_sub(1), '<');
            }
            _ => {}
        }
    }

    fn lines(self) -> Vec<String> {
        let rows = self.cells.into_iter();
        rows.map(|row| format!("  {}", row.into_iter().collect::<String>()))
            .collect()
    }
}
