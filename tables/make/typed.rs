//! Writes the tables that the arithmetic uses as rows of their own types.

use super::Fault;
use super::emit::Bases;
use super::read::{Ground, Row, Status, Table};
use super::value::{self, Value};

/// The Rust files, by name.
pub fn all(tables: &[Table], bases: &mut Bases) -> Result<Vec<(String, String)>, Fault> {
    let mut made = Vec::new();
    let mut add = |name: &str, source: String| made.push((format!("{name}.rs"), source));
    let mut screws = String::new();
    for (name, constant) in [
        ("screws", "AMERICAN"),
        ("screws-british", "BRITISH"),
        ("screws-metric", "METRIC"),
    ] {
        screws += &list(constant, "Screw", &rows(tables, bases, name, screw)?);
    }
    screws += &list(
        "STEPS",
        "Length",
        &rows(tables, bases, "screw-lengths", |r| r.length("length"))?,
    );
    screws += &list(
        "METRIC_STEPS",
        "Length",
        &rows(tables, bases, "screw-lengths-metric", |r| {
            r.length("length")
        })?,
    );
    add("screws", screws);
    add(
        "nails",
        list(
            "WIRES",
            "(WireSystem, u8, Length, &Basis)",
            &rows(tables, bases, "wire-gauges", wire)?,
        ),
    );
    add(
        "bungs",
        list("BUNGS", "Bung", &rows(tables, bases, "bungs", bung)?),
    );
    add(
        "lead_holes",
        list(
            "LEAD_HOLES",
            "LeadHole",
            &rows(tables, bases, "lead-holes", lead_hole)?,
        ),
    );
    let herreshoff = list(
        "HERRESHOFF",
        "PlankRow",
        &rows(tables, bases, "planking-screws", plank_row)?,
    );
    add(
        "plank_rules",
        herreshoff
            + &list(
                "RULES",
                "PlankRule",
                &rows(tables, bases, "plank-rules", plank_rule)?,
            ),
    );
    add(
        "woods",
        list("WOODS", "Wood", &rows(tables, bases, "woods", wood)?),
    );
    let fits = fits(tables, bases)?;
    add(
        "metals",
        fits + &list("METALS", "Metal", &rows(tables, bases, "metals", metal)?),
    );
    add(
        "limits",
        list("LIMITS", "Limit", &rows(tables, bases, "limits", limit)?),
    );
    let drills = [
        rows(tables, bases, "drills", drill)?,
        rows(tables, bases, "drill-runs", drill_run)?,
    ];
    let series = [
        ("FRACTIONS", "Fraction"),
        ("NUMBERS", "Number"),
        ("LETTERS", "Letter"),
        ("METRICS", "Metric"),
    ];
    let each = series.map(|(name, series)| {
        let of = format!("Drill {{ series: Series::{series},");
        let drills = drills
            .iter()
            .flatten()
            .filter(|drill| drill.starts_with(&of));
        list(name, "Drill", &drills.cloned().collect::<Vec<_>>())
    });
    add("drills", each.concat());
    Ok(made)
}

fn list(name: &str, of: &str, rows: &[String]) -> String {
    format!("static {name}: &[{of}] = &[\n{}];\n", rows.concat())
}

fn rows(
    tables: &[Table],
    bases: &mut Bases,
    name: &str,
    each: fn(&mut Reader) -> Result<String, Fault>,
) -> Result<Vec<String>, Fault> {
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

    fn length(&self, column: &str) -> Result<String, Fault> {
        self.need(column)
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

fn screw(r: &mut Reader) -> Result<String, Fault> {
    let system = match r.table.name.as_str() {
        "screws-british" => "British",
        "screws-metric" => "Metric",
        _ => "American",
    };
    let head = match r.optional("head largest") {
        Some(largest) => format!(
            "Some(Head {{ largest: {largest}, smallest: {}, height: {}, basis: {} }})",
            r.some("head smallest"),
            r.some("head height"),
            r.basis("head largest")?
        ),
        None => "None".to_owned(),
    };
    Ok(format!(
        "Screw {{ system: GaugeSystem::{system}, gauge: {}, shank: {}, shank_basis: {}, \
         head: {head}, root: {}, root_basis: {}, standard_root: {}, standard_head: {}, \
         threads_per_inch: {}, pitch: {}, shortest: {}, longest: {} }}",
        r.some("gauge"),
        r.need("shank")?,
        r.basis("shank")?,
        r.need("root")?,
        r.basis("root")?,
        r.some("standard root"),
        r.some("standard head"),
        r.some("threads per inch"),
        r.some("pitch"),
        r.some("shortest"),
        r.some("longest"),
    ))
}

fn wire(r: &mut Reader) -> Result<String, Fault> {
    let system = match r.text("system")?.as_str() {
        "SWG" => "Swg",
        "BWG" => "Bwg",
        _ => return Err(r.missing("system")),
    };
    let (number, diameter) = (r.need("number")?, r.need("diameter")?);
    Ok(format!(
        "(WireSystem::{system}, {number}, {diameter}, {})",
        r.basis("diameter")?
    ))
}

fn bung(r: &mut Reader) -> Result<String, Fault> {
    let column = if r.optional("planking table").is_some() {
        "planking table"
    } else {
        "drill chart"
    };
    let diameter = match r.table.value(r.row, column) {
        Some(Value::Lengths(all)) => all.first().copied(),
        Some(Value::Length(nm)) => Some(*nm),
        _ => None,
    };
    let Some(nm) = diameter else {
        return Err(r.missing(column));
    };
    let gauge = r.need("gauge")?;
    let basis = r.basis(column)?;
    Ok(format!(
        "Bung {{ gauge: {gauge}, diameter: Length::from_nm({nm}), basis: {basis} }}"
    ))
}

fn lead_hole(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "LeadHole {{ name: {}, hard_percent: {}, soft_percent: {}, dense_from: {}, basis: {} }}",
        r.need("name")?,
        r.need("hard")?,
        r.need("soft")?,
        r.need("dense from")?,
        r.basis("hard")?
    ))
}

fn plank_row(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "PlankRow {{ plank: {}, screw_diameter: {}, gauge: {}, length: {}, bungs: {}, bung: {} }}",
        r.need("plank")?,
        r.need("screw")?,
        r.need("gauge")?,
        r.need("length")?,
        r.need("bungs")?,
        r.need("bung to use")?
    ))
}

fn plank_rule(r: &mut Reader) -> Result<String, Fault> {
    let rows = match r.optional("rows").as_deref() {
        Some("\"planking-screws\"") => "HERRESHOFF",
        Some(_) => return Err(r.missing("rows")),
        None => "&[]",
    };
    Ok(format!(
        "PlankRule {{ name: {}, aliases: {}, title: {}, rows: {rows}, least_ratio: {}, \
         most_ratio: {}, basis: {} }}",
        r.need("name")?,
        r.optional("aliases").unwrap_or("&[]".to_owned()),
        r.need("title")?,
        ratio(r, "least length")?,
        ratio(r, "most length")?,
        r.basis("says")?
    ))
}

/// A share of the plank as a ratio of whole numbers, in hundredths reduced.
fn ratio(r: &Reader, column: &str) -> Result<String, Fault> {
    match r.table.value(r.row, column) {
        Some(Value::Number(n)) => {
            let hundredths = (n * 100.0).round() as i64;
            let common = (1..=100)
                .rev()
                .find(|d| hundredths % d == 0 && 100 % d == 0)
                .unwrap_or(1);
            Ok(format!("Some(({}, {}))", hundredths / common, 100 / common))
        }
        None => Ok("None".to_owned()),
        Some(_) => Err(r.missing(column)),
    }
}

fn wood(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "Wood {{ name: {}, aliases: {}, hardwood: {}, assigned: {}, assigned_basis: {}, green: {}, \
         green_basis: {}, dry: {}, dry_basis: {}, gravity: {}, note: {} }}",
        r.need("name")?,
        r.optional("aliases").unwrap_or("&[]".to_owned()),
        r.need("hardwood")?,
        r.some("assigned"),
        r.some_basis("assigned"),
        r.some("green"),
        r.some_basis("green"),
        r.some("dry"),
        r.some_basis("dry"),
        gravity(r)?,
        r.optional("note").unwrap_or("\"\"".to_owned()),
    ))
}

/// Oven-dry specific gravity and its ground: the assigned figure, else the green one converted.
fn gravity(r: &mut Reader) -> Result<String, Fault> {
    if let Some(assigned) = r.optional("assigned") {
        return Ok(format!("({assigned}, {})", r.basis("assigned")?));
    }
    let Some(Value::Number(green)) = r.table.value(r.row, "green") else {
        return Err(r.missing("green"));
    };
    let ground = Ground {
        source: Some("WH21".to_owned()),
        status: Status::Derived,
        note: format!(
            "green {green} / (1 - 0.265 x {green}); the formula is from memory (Wood Handbook ch. 4)"
        ),
    };
    Ok(format!(
        "({:?}, {})",
        green / (1.0 - 0.265 * green),
        r.bases.reference(&ground)
    ))
}

/// One static a kind of metal, with its verdict in every zone; refused unless each zone has
/// exactly one.
fn fits(tables: &[Table], bases: &mut Bases) -> Result<String, Fault> {
    const ZONES: [&str; 5] = ["underwater", "wind and water", "topsides", "deck", "inside"];
    let mut kinds: Vec<(String, [Option<String>; 5])> = Vec::new();
    for table in tables.iter().filter(|table| table.name == "metal-fits") {
        for row in &table.rows {
            let mut r = Reader { table, row, bases };
            let (kind, zone, fit) = (r.text("metals")?, r.text("zone")?, fit(&mut r)?);
            let at = ZONES.iter().position(|z| *z == zone);
            let at = at.ok_or_else(|| table.fault(row, format!("`{zone}` is not a zone")))?;
            if kinds.iter().all(|(known, _)| *known != kind) {
                kinds.push((kind.clone(), Default::default()));
            }
            let known = kinds.iter_mut().find(|(known, _)| *known == kind);
            if let Some((_, zones)) = known
                && zones[at].replace(fit).is_some()
            {
                return Err(table.fault(row, format!("a second verdict for `{zone}`")));
            }
        }
        if let Some((kind, _)) = kinds.iter().find(|(_, zones)| zones.contains(&None)) {
            let says = format!("`{kind}` has no verdict for some zone");
            return Err(Fault::new(&table.file, table.line, says));
        }
    }
    let each = kinds.into_iter().map(|(kind, zones)| {
        let fields = ZONES.iter().zip(zones.into_iter().flatten());
        let fields = fields.map(|(zone, fit)| format!("{}: {fit},\n", zone.replace(' ', "_")));
        format!(
            "static {}: Fits = Fits {{ {} }};\n",
            fits_name(&kind),
            fields.collect::<String>()
        )
    });
    Ok(each.collect())
}

fn fits_name(kind: &str) -> String {
    format!("FITS_{}", kind.to_uppercase().replace([' ', '-'], "_"))
}

fn fit(r: &mut Reader) -> Result<String, Fault> {
    let verdict = match r.text("verdict")?.as_str() {
        "usual" => "Usual",
        "doubtful" => "Doubtful",
        "unfit" => "Unfit",
        _ => return Err(r.missing("verdict")),
    };
    Ok(format!(
        "Fit {{ verdict: Verdict::{verdict}, why: {}, basis: {} }}",
        r.need("why")?,
        r.basis("verdict")?
    ))
}

fn metal(r: &mut Reader) -> Result<String, Fault> {
    let range = |r: &mut Reader, active: &str, noble: &str| -> Result<String, Fault> {
        Ok(match (r.optional(active), r.optional(noble)) {
            (Some(a), Some(n)) => format!(
                "Range {{ active: {a}, noble: {n}, basis: {} }}",
                r.basis(active)?
            ),
            _ => return Err(r.missing(noble)),
        })
    };
    let some = |r: &mut Reader, active: &str, noble: &str| match r.optional(active) {
        Some(_) => range(r, active, noble).map(|it| format!("Some({it})")),
        None => Ok("None".to_owned()),
    };
    let family = match r.text("family")?.as_str() {
        "iron" => "Iron",
        "steel" => "Steel",
        "stainless" => "Stainless",
        "aluminium" => "Aluminium",
        "brass" => "Brass",
        "bronze" => "Bronze",
        "copper" => "Copper",
        "nickel-copper" => "NickelCopper",
        "zinc" => "Zinc",
        "lead" => "Lead",
        "other" => "Other",
        _ => return Err(r.missing("family")),
    };
    Ok(format!(
        "Metal {{ name: {}, aliases: {}, family: Family::{family}, potential: {}, passive: {}, \
         coating: {}, dealloys: {}, fits: &{}, note: {} }}",
        r.need("name")?,
        r.optional("aliases").unwrap_or("&[]".to_owned()),
        some(r, "active", "noble")?,
        some(r, "passive active", "passive noble")?,
        some(r, "coating active", "coating noble")?,
        r.need("dealloys")?,
        fits_name(&r.text("fits")?),
        r.optional("note").unwrap_or("\"\"".to_owned()),
    ))
}

fn limit(r: &mut Reader) -> Result<String, Fault> {
    let (of, is) = (r.text("of")?, r.text("is")?);
    let number =
        |unit: &str| value::read(value::Kind::Number, "", is.trim_end_matches(unit).trim());
    let float = |unit: &str| match number(unit) {
        Ok(Value::Number(n)) => Ok(n),
        _ => Err(r.missing("is")),
    };
    let whole = || is.parse::<u32>().map_err(|_| r.missing("is"));
    let quantity = match of.as_str() {
        "length" => {
            let nm = is
                .strip_suffix(" in")
                .and_then(|text| value::length("in", text));
            let nm = nm.ok_or_else(|| r.missing("is"))?;
            format!("Length(Length::from_nm({nm}))")
        }
        "share" => format!("Share({:?})", float("")?),
        "potential" => format!(
            "Volts(Potential::from_tenths_mv({}))",
            (float("V")? * 10_000.0).round() as i64
        ),
        "count" => format!("Count({})", whole()?),
        "gauges" => format!("Gauges({})", whole()?),
        "diameters" => format!("Diameters({:?})", float("")?),
        "years" => format!("Years({})", whole()?),
        _ => return Err(r.missing("of")),
    };
    Ok(format!(
        "Limit {{ name: {}, is: Quantity::{quantity}, basis: {}, says: {} }}",
        r.need("name")?,
        r.basis("is")?,
        r.need("says")?
    ))
}

fn drill(r: &mut Reader) -> Result<String, Fault> {
    let name = r.text("drill")?;
    let series = if name.starts_with("No.") {
        "Number"
    } else {
        "Letter"
    };
    let diameter = r.need("diameter")?;
    Ok(format!(
        "Drill {{ series: Series::{series}, name: {name:?}, diameter: {diameter} }}"
    ))
}

/// The drills of a run of even steps; the first is the row's `from` unless a run before it ended
/// there.
fn drill_run(r: &mut Reader) -> Result<String, Fault> {
    let series = r.text("series")?;
    let column = |end: &str| format!("{end} {}", if series == "metric" { "mm" } else { "in" });
    let (from, to) = (r.nm(&column("from"))?, r.nm(&column("to"))?);
    let step = r.nm(&column("step"))?;
    if step <= 0 || (to - from) % step != 0 {
        return Err(r.missing(&column("step")));
    }
    let mut out = Vec::new();
    let mut at = from;
    while at <= to {
        let (variant, name) = match series.as_str() {
            "metric" => ("Metric", format!("{} mm", at as f64 / 1e6)),
            "fraction" => ("Fraction", fraction(at)),
            _ => return Err(r.missing("series")),
        };
        out.push(format!(
            "Drill {{ series: Series::{variant}, name: {name:?}, diameter: Length::from_nm({at}) }}"
        ));
        at += step;
    }
    Ok(out.join(",\n"))
}

/// Nanometres as an inch fraction in 64ths, like `1-3/4`.
fn fraction(nm: i64) -> String {
    let n = nm / 396_875;
    let (whole, part) = (n / 64, n % 64);
    let common = 1 << part.trailing_zeros().min(6);
    match (whole, part) {
        (whole, 0) => whole.to_string(),
        (0, part) => format!("{}/{}", part / common, 64 / common),
        _ => format!("{whole}-{}/{}", part / common, 64 / common),
    }
}
