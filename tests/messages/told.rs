//! The faults that a page shows, read back from what its commands print.

/// One fault as a page shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// What is wrong.
    pub says: String,
    /// File, line and column; `None` where it is of the command line or the machine.
    pub at: Option<String>,
    /// What would be right.
    pub help: Option<String>,
    /// The heading of the page that it stands under.
    pub heading: String,
}

/// Every fault of a page, and the lines of its answers that are of none.
pub fn of_page(page: &str) -> (Vec<Told>, String) {
    let (mut told, mut answers) = (Vec::new(), String::new());
    let (mut heading, mut fence) = ("", None);
    let mut lines = page.lines().peekable();
    while let Some(line) = lines.next() {
        match (line.strip_prefix("```"), fence) {
            (Some(_), Some(_)) => fence = None,
            (Some(mark), None) => fence = Some(mark),
            (None, None) => heading = line.strip_prefix("#").map_or(heading, |_| line),
            (None, Some("console")) => match line.strip_prefix("error: ") {
                Some(says) => {
                    let mut fault = vec![says];
                    while let Some(line) = lines.next_if(|line| belongs(line)) {
                        fault.push(line);
                    }
                    told.push(read(&fault, heading));
                }
                None => line.split_whitespace().for_each(|word| {
                    answers.push_str(word);
                    answers.push(' ');
                }),
            },
            (None, Some(_)) => {}
        }
    }
    (told, answers)
}

/// Whether a line goes on with a fault that began above it.
fn belongs(line: &str) -> bool {
    let ends = ["error: ", "$ ", "[exit ", "```"];
    !line.is_empty() && !ends.iter().any(|end| line.starts_with(end))
}

fn read(lines: &[&str], heading: &str) -> Told {
    let mut told = Told {
        says: String::new(),
        at: None,
        help: None,
        heading: heading.trim_start_matches('#').trim().to_owned(),
    };
    for line in lines {
        let words = line.trim();
        if let Some(at) = words.strip_prefix("--> ").or(words.strip_prefix("at: ")) {
            told.at = Some(at.to_owned());
        } else if let Some(help) = words.strip_prefix("= help: ") {
            join(told.help.get_or_insert_default(), help);
        } else if let Some(help) = line.strip_prefix("help: ") {
            join(told.help.get_or_insert_default(), help);
        } else if let Some(help) = &mut told.help {
            join(help, words);
        } else if told.at.is_none() {
            join(&mut told.says, words);
        }
    }
    told
}

/// Adds the next line of a sentence that was broken between words.
fn join(sentence: &mut String, words: &str) {
    if !sentence.is_empty() {
        sentence.push(' ');
    }
    let words: Vec<&str> = words.split_whitespace().collect();
    sentence.push_str(&words.join(" "));
}

mod tests {
    use super::of_page;

    #[test]
    fn sentences_that_were_broken_are_put_together() {
        let page = "# Lengths\n\n```console\n$ refasten check\nerror: one that is\n       long\n --> \
            hull.yaml:4:6\n  |\n4 | a: b\n  |    ^\n  |\n  = help: do\n          so\n\nerror: two\nhelp: or\n      \
            so\n\n2 faults in 1 file\n[exit 2]\n```\n";
        let (told, answers) = of_page(page);
        let told: Vec<_> = told
            .iter()
            .map(|told| (told.says.as_str(), told.at.as_deref(), told.help.as_deref()))
            .collect();
        assert_eq!(
            told,
            [
                ("one that is long", Some("hull.yaml:4:6"), Some("do so")),
                ("two", None, Some("or so")),
            ]
        );
        assert_eq!(answers, "$ refasten check 2 faults in 1 file [exit 2] ");
    }
}
