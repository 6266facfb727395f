//! What may vanish from a job without a word, each with its reason.
//!
//! In: texts of a job, one thing that is typed in them. Out: the reason why nothing can miss it; none where something must.
//! May not know: what it is worth.

use toml::{Table, Value};

use crate::one_out::{Step, Texts, Typed, What};

/// Things of a job that may vanish, by the words of where they are, and why, with `*` as [`is_like`] has it.
pub const JOB: &[(&str, &str)] = &[
    ("allowance**", "an allowance is our own offer, and nothing of the job asks for one"),
    (
        "**.existing[*]",
        "a list that is left says what is on the leaf, an empty one that nothing is; only who looked knows",
    ),
    (
        "**.in_the_way**",
        "what hangs there only a survey finds, and its form asks; what is typed of it in part is moved by others, as the help says",
    ),
    ("**.conditions", "a condition is a judgment of the site; a high ceiling alone can be held against it, and is"),
    ("**.conditions[*]", "the same"),
    ("row * conditions", "the same"),
    ("column conditions", "the same"),
    ("job.jurisdictions[*]", "which amendments apply only the authority knows; that none is named is a finding"),
    ("run[*].size", "left out, the owner's least size or what the circuits fill, as the help of the key says"),
    ("run[*].bends[*]", "a list that is left is the way as it was laid out; that it is not stated at all is a finding"),
    (
        "run[*].cores",
        "what a way goes through only who walked it knows; none is what the key says where it is left out",
    ),
    ("run[*].trench", "the same"),
    ("run[*].then**", "the same; a way that goes on as another kind is another way"),
    ("run[*].rated_walls", "the same; at a labeled opening it is asked"),
    ("run[*].wet", "the same; liquid-tight conduit, and what goes to a device outside, is asked about"),
    ("run[*].plenum", "the same; under a ceiling that returns air it is asked"),
    ("**.device[*].heights**", "another height is another device; how many a doorway has is a judgment"),
    ("**.plate_heights**", "the same"),
    ("**.device[*]", "another device starts or guards the leaf from that side; how many a doorway has is a judgment"),
    ("job.surveys", "what is drawn holds then, and each opening without a survey is a finding"),
    ("**.leaf[*]", "how many leaves an opening has only its leaves say; schedule, drawings and counts show it"),
    ("statement**", "a sentence of ours in the bid, which prices nothing"),
    ("adjustment**", "an amount that we take off or add by hand"),
    ("unit_price**", "an offer of ours beside the bid"),
    ("quote**", "without it the catalog's own price stands, which has a day and an age"),
];

/// Why something may vanish without a word.
pub fn reason(texts: &Texts, one: &Typed) -> Option<String> {
    let table =
        if one.file.ends_with("job.toml") || one.file.ends_with(".csv") { JOB } else { super::catalog::CATALOG };
    if let Some((_, why)) = table.iter().find(|(pattern, _)| is_like(&one.words, pattern)) {
        return Some((*why).to_owned());
    }
    inherits(texts, one).then(|| "another value is inherited, which was typed too and is printed".to_owned())
}

/// Whether words are like a pattern, in which `*` is any words within one key or one pair of brackets, and `**` any at all.
pub fn is_like(words: &str, pattern: &str) -> bool {
    let Some((head, rest)) = pattern.split_once('*') else { return words == pattern };
    let Some(after) = words.strip_prefix(head) else { return false };
    let (rest, within) = match rest.strip_prefix('*') {
        Some(rest) => (rest, after.len()),
        None => (rest, after.find(['.', '[', ']']).unwrap_or(after.len())),
    };
    let ends = after.char_indices().map(|(at, _)| at).chain([after.len()]).take_while(|at| *at <= within);
    ends.into_iter().any(|at| is_like(&after[at..], rest))
}

fn parsed(text: &str) -> Table {
    text.parse().expect("a file that can be read")
}

fn at<'v>(root: &'v Value, path: &[Step]) -> Option<&'v Value> {
    path.iter().try_fold(root, |value, step| match step {
        Step::Key(key) => value.get(key),
        Step::Entry(at) => value.get(*at),
    })
}

/// Whether everything under it is typed in a kind that its own kind or opening is like, or is measured over what is drawn.
fn inherits(texts: &Texts, one: &Typed) -> bool {
    let job = texts.iter().find(|(path, _)| path.ends_with("job.toml")).map(|(_, text)| Value::Table(parsed(text)));
    let Some(job) = job else { return false };
    let kinds = |name: &str, keys: &[String]| {
        let mut kind = job.get("kind").and_then(|all| all.get(name));
        let mut seen = 0;
        while let Some(table) = kind.filter(|_| seen < 9) {
            if has(table, keys) {
                return true;
            }
            seen += 1;
            kind = table.get("like").and_then(Value::as_str).and_then(|like| job.get("kind")?.get(like));
        }
        false
    };
    if one.file.ends_with("survey.csv") {
        return true;
    }
    match &one.what {
        What::Node(path) => {
            // A kind is like another one, an opening is of a kind.
            let (like, inner) = match path.as_slice() {
                [Step::Key(first), Step::Key(_), inner @ ..] if first == "kind" => ("like", inner),
                [Step::Key(first), Step::Entry(_), inner @ ..] if first == "opening" => ("kind", inner),
                _ => return false,
            };
            let root = Value::Table(parsed(&texts[&one.file]));
            let like = at(&root, &path[..2]).and_then(|own| own.get(like)).and_then(Value::as_str);
            let (Some(like), Some(value)) = (like, at(&root, path)) else { return false };
            let mut leaves = Vec::new();
            keys_under(value, &mut keys_of(inner), &mut leaves);
            !leaves.is_empty() && leaves.iter().all(|keys| kinds(like, keys))
        }
        What::Cell(row, column) => {
            let (head, cells) = row_of(&texts[&one.file], *row);
            let keys: Vec<String> = head[*column].split('.').filter(|it| !is_number(it)).map(str::to_owned).collect();
            let kind = head.iter().position(|name| name == "kind").map(|at| cells[at].clone());
            kind.is_some_and(|kind| kinds(&kind, &keys))
        }
        What::Column(_) | What::Row(_) => false,
    }
}

fn is_number(text: &str) -> bool {
    text.chars().all(|it| it.is_ascii_digit())
}

fn row_of(text: &str, row: usize) -> (Vec<String>, Vec<String>) {
    let split = |line: &str| line.split(',').map(str::to_owned).collect();
    let mut lines = text.lines();
    (split(lines.next().expect("a head")), split(lines.nth(row).expect("the row")))
}

/// The keys of a path, without the entries of lists: what all leaves share stands in one table.
fn keys_of(path: &[Step]) -> Vec<String> {
    path.iter()
        .filter_map(|step| match step {
            Step::Key(key) => Some(key.clone()),
            Step::Entry(_) => None,
        })
        .collect()
}

/// The keys of every value under a value, each from the root.
fn keys_under(value: &Value, keys: &mut Vec<String>, found: &mut Vec<Vec<String>>) {
    match value {
        Value::Table(table) => {
            for (key, inner) in table {
                keys.push(key.clone());
                keys_under(inner, keys, found);
                keys.pop();
            }
        }
        _ => found.push(keys.clone()),
    }
}

/// Whether a table has a value under some keys, in one of its lists too.
fn has(value: &Value, keys: &[String]) -> bool {
    match (value, keys) {
        (_, []) => true,
        (Value::Table(table), [key, rest @ ..]) => table.get(key).is_some_and(|inner| has(inner, rest)),
        (Value::Array(list), keys) => list.iter().any(|inner| has(inner, keys)),
        _ => false,
    }
}

#[test]
fn a_star_is_any_words_of_one_key() {
    assert!(is_like("run[LP-1>101].size", "run[*].size") && is_like("kind.a.leaf.existing[1]", "**.existing[*]"));
    assert!(!is_like("run[LP-1>101].length", "run[*].size") && !is_like("job.jurisdictions", "job.jurisdictions[*]"));
    assert!(is_like("row C101 conditions", "row * conditions") && is_like("item.a", "item.*"));
    assert!(!is_like("item.a.price", "item.*") && !is_like("kind.a.device[1].side", "**.device[*]"));
    assert!(is_like("allowance", "allowance**") && is_like("allowance[1].amount", "allowance**"));
}
