//! Writes the tables that the arithmetic uses as rows of their own types.

mod corrosion;
mod drills;
mod fastenings;
mod limits;
mod metals;
mod planking;
mod woods;

use super::Fault;
use super::emit::Bases;
use super::read::{Row, Table};
use super::value::Value;

/// Makes the Rust expression of one row.
type Each = fn(&mut Reader) -> Result<String, Fault>;

/// Which tables are typed: the Rust file, the static in it, the type of its rows, the table, and
/// what makes a row.
const TYPED: [(&str, &str, &str, &str, Each); 24] = [
    ("screws", "AMERICAN", "Screw", "screws", fastenings::screw),
    (
        "screws",
        "BRITISH",
        "Screw",
        "screws-british",
        fastenings::screw,
    ),
    (
        "screws",
        "METRIC",
        "Screw",
        "screws-metric",
        fastenings::screw,
    ),
    ("screws", "STEPS", "Length", "screw-lengths", length),
    (
        "screws",
        "METRIC_STEPS",
        "Length",
        "screw-lengths-metric",
        length,
    ),
    ("nails", "WIRES", "Wire", "wire-gauges", fastenings::wire),
    ("nails", "NAILS", "Nail", "nails", fastenings::nail),
    ("bolts", "BOLTS", "Bolt", "bolts", fastenings::bolt),
    (
        "spacing",
        "SMALL",
        "Spacing",
        "spacing",
        fastenings::spacing,
    ),
    (
        "spacing",
        "LARGE",
        "Spacing",
        "spacing-large",
        fastenings::spacing,
    ),
    ("bungs", "BUNGS", "Bung", "bungs", fastenings::bung),
    (
        "lead_holes",
        "LEAD_HOLES",
        "LeadHole",
        "lead-holes",
        fastenings::lead_hole,
    ),
    (
        "plank_rules",
        "HERRESHOFF",
        "PlankRow",
        "planking-screws",
        planking::plank_row,
    ),
    (
        "plank_rules",
        "RULES",
        "PlankRule",
        "plank-rules",
        planking::plank_rule,
    ),
    ("butts", "BUTTS", "ButtRule", "butts", planking::butts),
    ("woods", "WOODS", "Wood", "woods", woods::wood),
    ("metals", "METALS", "Metal", "metals", metals::metal),
    (
        "strengths",
        "STRENGTHS",
        "Strength",
        "strengths",
        metals::strength,
    ),
    (
        "strengths",
        "STEEL",
        "Band",
        "bending-yield-steel",
        metals::steel_band,
    ),
    (
        "corrosion",
        "IN_THE_SEA",
        "InTheSea",
        "metal-rates",
        corrosion::in_the_sea,
    ),
    (
        "corrosion",
        "RATES",
        "Row",
        "metal-rates-steel",
        corrosion::rate,
    ),
    (
        "corrosion",
        "COATINGS",
        "Coating",
        "coatings",
        corrosion::coating,
    ),
    (
        "couples",
        "COUPLES",
        "MeasuredCouple",
        "metal-couples",
        corrosion::couple,
    ),
    ("limits", "LIMITS", "Limit", "limits", limits::limit),
];

/// The Rust files, by name.
pub fn all(tables: &[Table], bases: &mut Bases) -> Result<Vec<(String, String)>, Fault> {
    let mut made: Vec<(String, String)> = Vec::new();
    let mut add = |file: &str, source: String| {
        let name = format!("{file}.rs");
        match made.iter_mut().find(|(known, _)| *known == name) {
            Some((_, text)) => text.push_str(&source),
            None => made.push((name, source)),
        }
    };
    for (file, name, of, table, each) in TYPED {
        add(file, list(name, of, &rows(tables, bases, table, each)?));
    }
    add("metals", metals::fits(tables, bases)?);
    let mut drills = rows(tables, bases, "drills", drills::drill)?;
    drills.extend(rows(tables, bases, "drill-runs", drills::drill_run)?);
    for (name, series) in [
        ("FRACTIONS", "Fraction"),
        ("NUMBERS", "Number"),
        ("LETTERS", "Letter"),
        ("METRICS", "Metric"),
    ] {
        let first = format!("Drill {{ series: Series::{series},");
        let of_it = drills.iter().filter(|drill| drill.starts_with(&first));
        let of_it: Vec<String> = of_it.cloned().collect();
        add("drills", list(name, "Drill", &of_it));
    }
    Ok(made)
}

fn length(r: &mut Reader) -> Result<String, Fault> {
    r.need("length")
}

fn list(name: &str, of: &str, rows: &[String]) -> String {
    format!("static {name}: &[{of}] = &[\n{}];\n", rows.concat())
}

fn rows(tables: &[Table], bases: &mut Bases, name: &str, each: Each) -> Result<Vec<String>, Fault> {
    let mut made = Vec::new();
    for table in tables.iter().filter(|table| table.name == name) {
        for row in &table.rows {
            let mut reader = Reader { table, row, bases };
            made.push(each(&mut reader)? + ",\n");
        }
    }
    Ok(made)
}

/// Takes the cells of one row as Rust expressions.
struct Reader<'a> {
    table: &'a Table,
    row: &'a Row,
    bases: &'a mut Bases,
}

impl Reader<'_> {
    fn missing(&self, column: &str) -> Fault {
        self.table.fault(
            self.row,
            format!("`{column}` is missing or of another kind"),
        )
    }

    fn optional(&self, column: &str) -> Option<String> {
        Some(match self.table.value(self.row, column)? {
            Value::Text(text) => format!("{text:?}"),
            Value::List(texts) => format!("&{texts:?}"),
            Value::Length(nm) => format!("Length::from_nm({nm})"),
            Value::Lengths(all) => {
                let each = all.iter().map(|nm| format!("Length::from_nm({nm})"));
                format!("&[{}]", each.collect::<Vec<_>>().join(", "))
            }
            Value::Number(n) => format!("{n:?}"),
            Value::Whole(n) => n.to_string(),
            Value::Volts(tenths) => format!("Potential::from_tenths_mv({tenths})"),
            Value::Yes(yes) => yes.to_string(),
        })
    }

    fn some(&self, column: &str) -> String {
        self.optional(column)
            .map_or("None".to_owned(), |it| format!("Some({it})"))
    }

    fn need(&self, column: &str) -> Result<String, Fault> {
        self.optional(column).ok_or_else(|| self.missing(column))
    }

    fn text(&self, column: &str) -> Result<String, Fault> {
        match self.table.value(self.row, column) {
            Some(Value::Text(text)) => Ok(text.clone()),
            _ => Err(self.missing(column)),
        }
    }

    fn basis(&mut self, column: &str) -> Result<String, Fault> {
        let cell = self.table.cell(self.row, column);
        match cell.and_then(|cell| cell.ground.as_ref()) {
            Some(ground) => Ok(self.bases.reference(ground)),
            None => Err(self.missing(column)),
        }
    }

    fn nm(&self, column: &str) -> Result<i64, Fault> {
        match self.table.value(self.row, column) {
            Some(Value::Length(nm)) => Ok(*nm),
            _ => Err(self.missing(column)),
        }
    }

    /// Where only some rows have a figure, what those that have it stand on.
    fn some_basis(&mut self, column: &str) -> String {
        self.basis(column)
            .map_or("None".to_owned(), |it| format!("Some({it})"))
    }
}
