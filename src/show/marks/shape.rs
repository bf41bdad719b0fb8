//! Shapes of marks, as closed outlines that are filled and never stroked, so that one colour and
//! one path draw a mark at any size.

use std::fmt::Write;

use crate::show::svg::Number;

/// What a mark looks like, within the box from -1 to 1 both ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shape {
    /// Its outline.
    pub outline: Outline,
    /// How it is filled. A cross, a plus, a bar, a dot and a query are always solid.
    pub fill: Fill,
}

/// The outline of a mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outline {
    /// Round.
    Disc,
    /// Square.
    Square,
    /// A square on its point.
    Diamond,
    /// A triangle, point up.
    Up,
    /// A triangle, point down.
    Down,
    /// Six sides.
    Hexagon,
    /// Two strokes crossed aslant.
    Cross,
    /// Two strokes crossed upright.
    Plus,
    /// A stroke along the plank.
    Bar,
    /// A small disc.
    Dot,
    /// A question mark.
    Query,
}

/// How an outline is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fill {
    /// All of it.
    Solid,
    /// Its edge only.
    Hollow,
    /// Its edge, and a dot within.
    Dotted,
    /// Its edge, and so many quarters: of a disc by the clock, else from below. At most 4.
    Quarters(u8),
    /// All but a stroke across it.
    Split,
}

type Point = [f64; 2];

const DISC: f64 = 0.8;
/// How far in the edge of a hollow shape reaches.
const INNER: f64 = 0.62;

impl Shape {
    /// Writes its outline as the data of an SVG path, about a point and so large: half its height.
    /// Fill it by the `nonzero` rule.
    pub fn write(self, data: &mut String, at: Point, size: f64) {
        let pen = &mut Pen { data, at, size };
        if let Some(points) = self.outline.stroke() {
            pen.polygon(points);
            if self.outline == Outline::Query {
                pen.disc([0.0, 0.72], 0.22, true);
            }
            return;
        }
        let Some(points) = self.outline.points() else {
            let small = self.outline == Outline::Dot;
            let radius = if small { 0.34 } else { DISC };
            pen.disc([0.0, 0.0], radius, true);
            return match self.fill {
                _ if small => {}
                Fill::Solid => {}
                Fill::Hollow => pen.disc([0.0, 0.0], DISC * INNER, false),
                Fill::Dotted => {
                    pen.disc([0.0, 0.0], DISC * INNER, false);
                    pen.disc([0.0, 0.0], 0.24, true);
                }
                Fill::Quarters(quarters) => {
                    pen.disc([0.0, 0.0], DISC * 0.78, false);
                    pen.sector(DISC * 0.78, quarters);
                }
                Fill::Split => pen.polygon(&SPLIT),
            };
        };
        pen.polygon(points);
        let inner = |share: f64| -> Vec<Point> {
            let middle = middle(points);
            let towards = |p: &Point| {
                [
                    middle[0] + (p[0] - middle[0]) * share,
                    middle[1] + (p[1] - middle[1]) * share,
                ]
            };
            points.iter().rev().map(towards).collect()
        };
        match self.fill {
            Fill::Solid => {}
            Fill::Hollow => pen.polygon(&inner(INNER)),
            Fill::Dotted => {
                pen.polygon(&inner(INNER));
                pen.disc(middle(points), 0.22, true);
            }
            Fill::Quarters(quarters) => {
                let mut inside = inner(0.74);
                pen.polygon(&inside);
                inside.reverse();
                pen.polygon(&lower(&inside, quarters));
            }
            Fill::Split => pen.polygon(&SPLIT),
        }
    }
}

/// A stroke across the middle, turned against the outline so that it is cut out.
const SPLIT: [Point; 4] = [[-0.9, 0.14], [0.9, 0.14], [0.9, -0.14], [-0.9, -0.14]];

impl Outline {
    /// The corners of a shape that can be filled in several ways; `None` of a round one.
    const fn points(self) -> Option<&'static [Point]> {
        Some(match self {
            Self::Square => &[[-0.76, -0.76], [0.76, -0.76], [0.76, 0.76], [-0.76, 0.76]],
            Self::Diamond => &[[0.0, -1.0], [1.0, 0.0], [0.0, 1.0], [-1.0, 0.0]],
            Self::Up => &[[0.0, -0.98], [0.98, 0.72], [-0.98, 0.72]],
            Self::Down => &[[-0.98, -0.72], [0.98, -0.72], [0.0, 0.98]],
            Self::Hexagon => &[
                [-0.48, -0.84],
                [0.48, -0.84],
                [0.96, 0.0],
                [0.48, 0.84],
                [-0.48, 0.84],
                [-0.96, 0.0],
            ],
            _ => return None,
        })
    }

    /// The corners of a shape made of strokes.
    const fn stroke(self) -> Option<&'static [Point]> {
        Some(match self {
            Self::Cross => &[
                [-0.84, -0.56],
                [-0.56, -0.84],
                [0.0, -0.28],
                [0.56, -0.84],
                [0.84, -0.56],
                [0.28, 0.0],
                [0.84, 0.56],
                [0.56, 0.84],
                [0.0, 0.28],
                [-0.56, 0.84],
                [-0.84, 0.56],
                [-0.28, 0.0],
            ],
            Self::Plus => &[
                [-0.16, -0.8],
                [0.16, -0.8],
                [0.16, -0.16],
                [0.8, -0.16],
                [0.8, 0.16],
                [0.16, 0.16],
                [0.16, 0.8],
                [-0.16, 0.8],
                [-0.16, 0.16],
                [-0.8, 0.16],
                [-0.8, -0.16],
                [-0.16, -0.16],
            ],
            Self::Bar => &[[-0.8, -0.2], [0.8, -0.2], [0.8, 0.2], [-0.8, 0.2]],
            // The hook of a question mark, its dot apart.
            Self::Query => &[
                [-0.58, -0.42],
                [-0.46, -0.76],
                [-0.14, -0.97],
                [0.22, -0.96],
                [0.5, -0.76],
                [0.6, -0.44],
                [0.5, -0.14],
                [0.2, 0.12],
                [0.18, 0.36],
                [-0.2, 0.36],
                [-0.18, -0.06],
                [0.12, -0.3],
                [0.2, -0.48],
                [0.06, -0.62],
                [-0.1, -0.6],
                [-0.2, -0.42],
            ],
            _ => return None,
        })
    }
}

fn middle(points: &[Point]) -> Point {
    let count = points.len() as f64;
    let sum = points
        .iter()
        .fold([0.0, 0.0], |sum, p| [sum[0] + p[0], sum[1] + p[1]]);
    [sum[0] / count, sum[1] / count]
}

/// The part of an outline that so many quarters of its height take up from below.
fn lower(points: &[Point], quarters: u8) -> Vec<Point> {
    let heights = || points.iter().map(|p| p[1]);
    let top = heights().fold(f64::INFINITY, f64::min);
    let bottom = heights().fold(f64::NEG_INFINITY, f64::max);
    let cut = bottom - (bottom - top) * f64::from(quarters.min(4)) / 4.0;
    let mut kept = Vec::new();
    for (one, next) in points.iter().zip(points.iter().cycle().skip(1)) {
        if one[1] >= cut {
            kept.push(*one);
        }
        if (one[1] >= cut) != (next[1] >= cut) {
            let share = (cut - one[1]) / (next[1] - one[1]);
            kept.push([one[0] + share * (next[0] - one[0]), cut]);
        }
    }
    kept
}

/// Writes outlines about a point, so large.
struct Pen<'d> {
    data: &'d mut String,
    at: Point,
    size: f64,
}

impl Pen<'_> {
    fn put(&mut self, letter: char, numbers: &[f64]) {
        self.data.push(letter);
        for (at, number) in numbers.iter().enumerate() {
            let number = Number(*number).to_string();
            // A minus sign parts numbers as well as a blank does.
            let gap = if at == 0 || number.starts_with('-') {
                ""
            } else {
                " "
            };
            // Writing to a string cannot fail.
            let _ = write!(self.data, "{gap}{number}");
        }
    }

    fn start(&mut self, [x, y]: Point) {
        self.put(
            'M',
            &[self.at[0] + x * self.size, self.at[1] + y * self.size],
        );
    }

    fn polygon(&mut self, points: &[Point]) {
        let mut points = points.iter();
        let Some(mut last) = points.next() else {
            return;
        };
        self.start(*last);
        for point in points {
            let ([x, y], [from_x, from_y]) = (point, last);
            self.put('l', &[(x - from_x) * self.size, (y - from_y) * self.size]);
            last = point;
        }
        self.data.push('z');
    }

    fn disc(&mut self, [x, y]: Point, radius: f64, clockwise: bool) {
        let (r, sweep) = (radius * self.size, if clockwise { 1.0 } else { 0.0 });
        self.start([x - radius, y]);
        self.put('a', &[r, r, 0.0, 1.0, sweep, 2.0 * r, 0.0]);
        self.put('a', &[r, r, 0.0, 1.0, sweep, -2.0 * r, 0.0]);
        self.data.push('z');
    }

    /// Quarters of a disc by the clock, from the top.
    fn sector(&mut self, radius: f64, quarters: u8) {
        let r = radius * self.size;
        self.start([0.0, 0.0]);
        self.put('l', &[0.0, -r]);
        let turn = [[r, r], [-r, r], [-r, -r], [r, -r]];
        for [x, y] in turn.into_iter().take(usize::from(quarters)) {
            self.put('a', &[r, r, 0.0, 0.0, 1.0, x, y]);
        }
        self.data.push('z');
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shape_is_written_about_its_point_in_its_size() {
        let mut data = String::new();
        let shape = Shape {
            outline: Outline::Diamond,
            fill: Fill::Solid,
        };
        shape.write(&mut data, [10.0, 5.0], 2.0);
        assert_eq!(data, "M10 3l2 2l-2 2l-2-2z");
    }

    #[test]
    fn quarters_are_taken_from_below() {
        let square = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]];
        let low = lower(&square, 1);
        let heights: Vec<f64> = low.iter().map(|p| p[1]).collect();
        assert_eq!(heights, [3.0, 4.0, 4.0, 3.0]);
    }
}
