//! Nothing that leaves the office holds a cost, the job file, the catalog or a path.
//!
//! In: a copy of the demo with odd costs planted in it, issued. Out: every place in a paper where one is found. May not
//! know: how a paper is made; files are searched as bytes, as inflated streams, as strings and names, and as read aloud.

use std::collections::{BTreeSet, HashMap};

use hingewright::findings::Paper;
use hingewright::pipeline::{Form, IssuedPaper};

use crate::demo::{self, JOB, Texts, replace};
use crate::pdf_reader::{Dict, MaybeRef, Object, Pdf};

/// Costs that stand nowhere else: the file, what stands there, what is planted, and the digits to search for. No place on a
/// page of letter or tabloid is as far as 1,224 pt from its corner, so that no coordinate looks like one.
const PLANTED: [(&str, &str, &str, &str); 6] = [
    ("catalog_demo/items-wiring.toml", "price = \"1.38\"", "price = \"7391.47\"", "7391.47"),
    ("catalog_demo/trades.toml", "wage = \"38.75\"", "wage = \"2683.19\"", "2683.19"),
    ("catalog_demo/trades.toml", "amount = \"16.90\"", "amount = \"2097.63\"", "2097.63"),
    ("catalog_demo/terms.toml", "rate = \"13.5 %\"", "rate = \"13.7953 %\"", "13.7953"),
    ("catalog_demo/terms.toml", "rate = \"8 %\"", "rate = \"8.4167 %\"", "8.4167"),
    (JOB, "price = \"1582.00\"", "price = \"5917.83\"", "5917.83"),
];

fn planted() -> Texts {
    let mut texts = demo::texts();
    for (file, from, to, _) in PLANTED {
        replace(&mut texts, file, from, to);
    }
    texts
}

/// The ways in which an office writes a number: `7391.47`, `7,391.47`, `7 391,47`, `739147` and so on.
fn spellings(number: &str) -> BTreeSet<String> {
    let (whole, part) = number.split_once('.').unwrap();
    let mut spellings = BTreeSet::new();
    let (thousands, rest) = whole.split_at(whole.len().saturating_sub(3));
    for between in ["", ",", ".", " ", "\u{a0}", "\u{202f}", "\u{2009}", "'", "’"] {
        for point in [".", ","] {
            let start = if thousands.is_empty() { String::new() } else { format!("{thousands}{between}") };
            spellings.insert(format!("{start}{rest}{point}{part}"));
        }
    }
    if whole.len() > 3 {
        spellings.insert(format!("{whole}{part}"));
    }
    spellings
}

/// Every string and every name inside an object.
fn words(object: &Object<'_>, into: &mut Vec<Vec<u8>>) {
    match object {
        Object::String(bytes) => {
            into.push(bytes.as_bytes().to_vec());
            // A string of odd bytes after the mark of UTF-16 is not text.
            if bytes.len() % 2 == 0 || !bytes.starts_with(b"\xFE\xFF") {
                into.push(Pdf::text_string(bytes).into_bytes());
            }
        }
        Object::Name(name) => into.push(name.as_ref().to_vec()),
        Object::Array(list) => list.raw_iter().for_each(|it| words_inside(&it, into)),
        Object::Dict(dict) => words_of_entries(dict, into),
        Object::Stream(stream) => words_of_entries(stream.dict(), into),
        Object::Number(number) => into.push(number.as_f64().to_string().into_bytes()),
        Object::Null(_) | Object::Boolean(_) => {}
    }
}

fn words_of_entries(dict: &Dict<'_>, into: &mut Vec<Vec<u8>>) {
    for (key, value) in dict.entries() {
        into.push(key.as_ref().to_vec());
        words_inside(&value, into);
    }
}

/// What is referred to is an object of its own, and looked through as one.
fn words_inside(item: &MaybeRef<Object<'_>>, into: &mut Vec<Vec<u8>>) {
    if let MaybeRef::NotRef(object) = item {
        words(object, into);
    }
}

/// What a reader sees of a paper.
fn text(paper: &IssuedPaper) -> String {
    match paper.form {
        Form::Pdf => Pdf::read(&paper.bytes).text(),
        Form::Html => crate::phone::words(paper),
        Form::Csv => String::from_utf8_lossy(&paper.bytes).into_owned(),
    }
}

/// A stretch of a file with what it is.
type Stretch = (String, Vec<u8>);

/// Every stretch of a paper in which something can be hidden.
fn stretches(paper: &IssuedPaper) -> Vec<Stretch> {
    let mut all: Vec<Stretch> =
        vec![("its name".to_owned(), paper.name.clone().into_bytes()), ("its bytes".to_owned(), paper.bytes.clone())];
    match paper.form {
        Form::Pdf => all.extend(stretches_of_pdf(paper)),
        Form::Html | Form::Csv => all.push(("its text".to_owned(), text(paper).into_bytes())),
    }
    all
}

fn stretches_of_pdf(paper: &IssuedPaper) -> Vec<Stretch> {
    let pdf = Pdf::read(&paper.bytes);
    let mut all: Vec<Stretch> = vec![
        ("its text".to_owned(), pdf.text().into_bytes()),
        ("its text, nothing between".to_owned(), pdf.text().split_whitespace().collect::<String>().into_bytes()),
    ];
    all.extend(pdf.streams.iter().map(|(number, data)| (format!("stream {number}"), data.clone())));
    let mut found = Vec::new();
    pdf.objects().for_each(|object| words(&object, &mut found));
    words(&Object::Dict(pdf.trailer()), &mut found);
    all.extend(found.into_iter().map(|word| ("a string or name".to_owned(), word)));
    all
}

/// What is searched for, by its first four bytes, so that many lines are found in one pass.
struct Needles(HashMap<[u8; 4], Vec<(String, &'static str)>>);

impl Needles {
    fn new(needles: impl IntoIterator<Item = (String, &'static str)>) -> Self {
        let mut all: HashMap<[u8; 4], Vec<(String, &'static str)>> = HashMap::new();
        for (needle, what) in needles {
            let start = *needle.as_bytes().first_chunk().expect("four bytes at least");
            all.entry(start).or_default().push((needle, what));
        }
        Needles(all)
    }

    /// The needles that some bytes hold.
    fn held<'n>(&'n self, bytes: &[u8]) -> BTreeSet<&'n (String, &'static str)> {
        let mut held = BTreeSet::new();
        for (at, start) in bytes.windows(4).enumerate() {
            let Some(some) = self.0.get(start) else { continue };
            // The tail of a longer number, such as a coordinate, is another number.
            let inside = start[0].is_ascii_digit() && at > 0 && bytes[at - 1].is_ascii_digit();
            held.extend(some.iter().filter(|(needle, _)| !inside && bytes[at..].starts_with(needle.as_bytes())));
        }
        held
    }
}

/// What a paper holds of what is searched for, and where.
fn found(paper: &IssuedPaper, needles: &Needles) -> Vec<String> {
    let mut found = BTreeSet::new();
    for (place, bytes) in stretches(paper) {
        let here = needles.held(&bytes).into_iter();
        found.extend(here.map(|(needle, what)| format!("{}, {place}: {what} `{needle}`", paper.name)));
    }
    found.into_iter().collect()
}

/// All spellings of all planted costs.
fn costs() -> Needles {
    let all: BTreeSet<String> = PLANTED.iter().flat_map(|(.., number)| spellings(number)).collect();
    Needles::new(all.into_iter().map(|spelling| (spelling, "a planted cost")))
}

#[test]
fn no_cost_leaves_the_office() {
    let issue = demo::issue(&planted());
    assert_eq!(issue.held, []);
    let costs = costs();
    let mut leaving = 0;
    for paper in &issue.papers {
        if paper.paper == Paper::Recap {
            // The recap is made of costs, so the search can find them.
            let text = Pdf::read(&paper.bytes).text();
            for shown in ["7,391.47", "683.19", "97.63", "13.7953", "8.4167", "5,917.83"] {
                assert!(text.contains(shown), "the recap prints {shown}");
            }
            assert!(!found(paper, &costs).is_empty());
        } else {
            leaving += 1;
            assert_eq!(found(paper, &costs), Vec::<String>::new());
        }
    }
    assert!(leaving > 0);
}

/// Lines of the job's files, long enough to be nothing else: values with their keys, heads, comments, rows.
fn lines(texts: &Texts) -> BTreeSet<String> {
    let mut lines = BTreeSet::new();
    for (path, text) in texts {
        for line in text.lines().map(str::trim) {
            let typed = path.ends_with(".csv") || line.contains(" = ") || line.starts_with(['[', '#']);
            if typed && line.len() >= 12 {
                lines.insert(line.to_owned());
            }
        }
    }
    lines
}

#[test]
fn no_input_and_no_path_leaves_the_office() {
    let texts = demo::texts();
    let lines = lines(&texts);
    assert!(lines.len() > 2_000, "{} lines", lines.len());
    let paths = ["catalog_demo", "job.toml", "openings.csv", "survey.csv", env!("CARGO_MANIFEST_DIR"), ".toml", "src/"];
    let lines = lines.into_iter().map(|line| (line, "a line of an input"));
    let needles = Needles::new(lines.chain(paths.map(|path| (path.to_owned(), "a path"))));
    for paper in &demo::demo().issue.papers {
        assert_eq!(found(paper, &needles), Vec::<String>::new());
    }
}

/// The sums behind the bid stay in the office too: no total, no line of the build-up, no rate of an hour and no larger
/// extension stands on a paper that leaves, in the words of a page.
#[test]
fn no_sum_of_costs_leaves_the_office() {
    let demo = demo::demo();
    let (estimate, ledger) = (demo.estimate(), &demo.priced.takeoff.ledger);
    let totals = &estimate.totals;
    let sums = [totals.extensions, totals.freight, totals.tax, totals.material, totals.labor, totals.direct];
    let named = estimate.marks.iter().chain(&estimate.bond).chain(&estimate.freight).map(|named| named.amount);
    let rates = estimate.rates.iter().map(|rate| rate.rate);
    let labor = estimate.labor.iter().map(|labor| labor.amount);
    let items = estimate.items.iter().map(|item| item.extension);
    let figures = sums.into_iter().chain(named).chain(rates).chain(labor).chain(items);
    let hundred = rust_decimal::Decimal::ONE_HUNDRED;
    let costs: BTreeSet<String> = figures
        .filter(|figure| ledger.value(*figure).value() > hundred)
        .map(|figure| ledger.print(figure).trim_start_matches('$').to_owned())
        .collect();
    assert!(costs.len() > 100, "{} costs", costs.len());
    for paper in &demo.issue.papers {
        let text = text(paper);
        let amounts: BTreeSet<&str> =
            text.split(|it: char| !(it.is_ascii_digit() || matches!(it, ',' | '.'))).collect();
        let shown: Vec<&String> = costs.iter().filter(|cost| amounts.contains(cost.as_str())).collect();
        if paper.paper == Paper::Recap {
            assert!(shown.len() > 100, "the recap shows {} of {} costs", shown.len(), costs.len());
        } else {
            assert!(shown.is_empty(), "{} shows {shown:?}", paper.name);
        }
    }
}

#[test]
fn the_search_finds_what_is_there() {
    let all = spellings("7391.47");
    for one in ["7391.47", "7,391.47", "7 391,47", "7.391,47", "739147", "7\u{a0}391.47", "7’391.47"] {
        assert!(all.contains(one), "{one}");
    }
    assert_eq!(spellings("97.63").into_iter().collect::<Vec<_>>(), ["97,63", "97.63"]);
    let needles = costs();
    let held = |bytes: &[u8]| needles.held(bytes).into_iter().map(|(it, _)| it.as_str()).collect::<Vec<_>>();
    assert_eq!(held(b"7 (7391.47) 7391.4"), ["7391.47"]);
    assert_eq!(held(b"7,391,47 7391.4 97.6"), ["7,391,47"]);
    assert_eq!(held(b"Rect[58.79 297.63 66"), Vec::<&str>::new());
    let paper = &demo::demo().issue.papers[0];
    let needles = Needles::new([(demo::demo().catalog.firm.name.clone(), "the author")]);
    assert!(found(paper, &needles).len() >= 2, "the author stands in the dictionary and in the XMP packet");
}
