//! What the job file says outside of its openings, each member of a list by a name that stays when others come before it.
//!
//! In: two sheets with keys such as `run.7.length`, openings that go by other marks now. Out: fields that differ, and which
//! members came, went and changed: `run J-1 to 107.length`. May not know: what a member does to the work.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::renaming::Renaming;
use super::sheet::{Change, Sheet, THERE, differences};

/// Lists of the job file, the fields by which a person knows a member again, and what stands between those.
const LISTS: [(&str, &[&str], &str); 15] = [
    ("accept", &["code", "about"], " "),
    ("addendum", &["number"], ""),
    ("adjustment", &["title"], ""),
    ("allowance", &["number"], ""),
    ("alternate", &["number"], ""),
    ("document", &["number"], ""),
    ("paragraph", &["section", "number"], " "),
    ("quote", &["item", "supplier"], " "),
    ("run", &["from", "to"], " to "),
    ("section", &["number"], ""),
    ("set_aside", &["opening"], ""),
    ("statement", &["says"], ""),
    ("submittal", &["id"], ""),
    ("transmittal", &["section", "number"], " "),
    ("unit_price", &["number"], ""),
];
/// Tables of the job file whose members have ids.
const TABLES: [&str; 2] = ["panel", "site"];

/// What became of a member.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum MemberChange {
    /// It came.
    Added,
    /// It went.
    Removed,
    /// Its fields differ.
    Changed,
}

/// A member of a list or table of the job file that is not the same.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Member {
    /// The list or table, by its key: `run`.
    pub part: &'static str,
    /// What it is called: `J-1 to 107`.
    pub name: String,
    /// What became of it.
    pub became: MemberChange,
}

/// A list or table, and a member of it.
type Of = (&'static str, String);

/// Fields under names that stay, each with the member it belongs to.
#[derive(Default)]
struct Named {
    fields: Sheet,
    members: BTreeMap<String, Of>,
    /// Members in the order of the job file.
    order: Vec<Of>,
}

/// Fields that differ, and what became of members, in the order of the job file.
pub(super) fn compare(before: &Sheet, after: &Sheet, now: &Renaming) -> (Vec<Change>, Vec<Member>) {
    let (was, is) = (named(before, now), named(after, &Renaming::none()));
    let changes = differences(&was.fields, &is.fields);
    let touched: BTreeSet<&Of> =
        changes.iter().filter_map(|it| is.members.get(&it.field).or_else(|| was.members.get(&it.field))).collect();
    let gone = was.order.iter().filter(|it| !is.order.contains(it));
    let members = is.order.iter().chain(gone).filter(|it| touched.contains(it)).map(|of| {
        let became = match (was.order.contains(of), is.order.contains(of)) {
            (false, _) => MemberChange::Added,
            (_, false) => MemberChange::Removed,
            _ => MemberChange::Changed,
        };
        Member { part: of.0, name: of.1.clone(), became }
    });
    let members = members.collect();
    (changes, members)
}

fn named(sheet: &Sheet, now: &Renaming) -> Named {
    let mut named = Named::default();
    // Lists by number, so that of two members with one name the first stays the first.
    let mut lists = BTreeMap::<(&'static str, usize), Vec<(&str, &String)>>::new();
    for (key, value) in sheet {
        match member_of_list(key) {
            Some((list, at, field)) => lists.entry((list, at)).or_default().push((field, value)),
            None => named.put(key.clone(), value.clone(), member_of_table(key)),
        }
    }
    for ((list, _), fields) in lists {
        named.member(list, &fields, now);
    }
    named
}

impl Named {
    fn put(&mut self, key: String, value: String, of: Option<Of>) {
        if let Some(of) = of {
            if !self.order.contains(&of) {
                self.order.push(of.clone());
            }
            self.members.insert(key.clone(), of);
        }
        self.fields.insert(key, value);
    }

    fn member(&mut self, list: &'static str, fields: &[(&str, &String)], now: &Renaming) {
        let (known_by, between) = LISTS.iter().find(|it| it.0 == list).map_or((&[][..], ""), |it| (it.1, it.2));
        let value = |name: &&str| fields.iter().find(|(field, _)| field == name).map(|(_, value)| now.words(value));
        let words: Vec<String> = known_by.iter().filter_map(value).collect();
        let name = words.join(between);
        let twin = |times: &usize| (list, if *times == 1 { name.clone() } else { format!("{name} ({times})") });
        let Some(of) = (1..).map(|times| twin(&times)).find(|of| !self.order.contains(of)) else { return };
        let key = format!("{list} {}", of.1);
        for (field, value) in fields.iter().filter(|(field, _)| !known_by.contains(field)) {
            self.put(format!("{key}.{field}"), (*value).clone(), Some(of.clone()));
        }
        // A member of which nothing but its name is typed is there all the same.
        self.put(key, THERE.to_owned(), Some(of));
    }
}

/// `run.7.length` is field `length` of the seventh member of `run`.
fn member_of_list(key: &str) -> Option<(&'static str, usize, &str)> {
    let (list, rest) = key.split_once('.')?;
    let (at, field) = rest.split_once('.')?;
    let list = LISTS.iter().find(|it| it.0 == list)?.0;
    Some((list, at.parse().ok()?, field))
}

/// `panel.LP-1.free` belongs to `LP-1` of `panel`.
fn member_of_table(key: &str) -> Option<Of> {
    let (table, rest) = key.split_once('.')?;
    let table = TABLES.iter().find(|it| **it == table)?;
    Some((table, rest.split('.').next().unwrap_or(rest).to_owned()))
}

#[cfg(test)]
mod tests {
    use super::{Member, MemberChange, compare};
    use crate::comparison::opening_match::{Altered, Openings};
    use crate::comparison::renaming::Renaming;
    use crate::comparison::sheet::Sheet;

    fn sheet(fields: &[(&str, &str)]) -> Sheet {
        fields.iter().map(|(key, value)| ((*key).to_owned(), (*value).to_owned())).collect()
    }

    fn changed(before: &Sheet, after: &Sheet, now: &Renaming) -> (Vec<String>, Vec<(String, MemberChange)>) {
        let (changes, members) = compare(before, after, now);
        let names = members.into_iter().map(|Member { part, name, became }| (format!("{part} {name}"), became));
        (changes.into_iter().map(|it| it.field).collect(), names.collect())
    }

    /// A run that comes before others leaves them the runs they were; one that only ends at an opening of another mark is
    /// the same; one of two between the same ends goes.
    #[test]
    fn members_are_known_by_name() {
        let ends = |at: usize, from: &str, to: &str| {
            [(format!("run.{at}.from"), from.to_owned()), (format!("run.{at}.to"), to.to_owned())]
        };
        let length = |at: usize, length: &str| (format!("run.{at}.length"), length.to_owned());
        let mut before: Sheet = ends(1, "LP-1", "105").into_iter().chain(ends(2, "105", "105/P1")).collect();
        before.extend(ends(10, "LP-1", "101").into_iter().chain(ends(9, "LP-1", "101")));
        before.extend([length(1, "9 ft"), length(2, "5 ft"), length(9, "1 ft"), length(10, "2 ft")]);
        let mut after: Sheet = ends(1, "LP-1", "107").into_iter().chain(ends(2, "LP-1", "106")).collect();
        after.extend(ends(3, "106", "106/P1").into_iter().chain(ends(4, "LP-1", "101")));
        after.extend([length(1, "8 ft"), length(2, "9 ft"), length(3, "6 ft"), length(4, "1 ft")]);
        let one = Altered { before: "105".to_owned(), after: "106".to_owned(), alike: Some(1000), changes: Vec::new() };
        let now = Renaming::of(&Openings { renumbered: vec![one], ..Openings::default() });
        let (fields, members) = changed(&before, &after, &now);
        let wanted = [
            "run 106 to 106/P1.length",
            "run LP-1 to 101 (2)",
            "run LP-1 to 101 (2).length",
            "run LP-1 to 107",
            "run LP-1 to 107.length",
        ];
        assert_eq!(fields, wanted);
        let wanted = [
            ("run LP-1 to 107".to_owned(), MemberChange::Added),
            ("run 106 to 106/P1".to_owned(), MemberChange::Changed),
            ("run LP-1 to 101 (2)".to_owned(), MemberChange::Removed),
        ];
        assert_eq!(members, wanted);
    }

    #[test]
    fn what_is_no_member_keeps_its_key() {
        let before = sheet(&[("job.due", "a"), ("panel.LP-1.free", "4"), ("enclosed file sheets/run.1.pdf", "x")]);
        let after = sheet(&[("job.due", "b"), ("panel.LP-1.free", "3"), ("enclosed file sheets/run.1.pdf", "y")]);
        let (fields, members) = changed(&before, &after, &Renaming::none());
        assert_eq!(fields, ["enclosed file sheets/run.1.pdf", "job.due", "panel.LP-1.free"]);
        assert_eq!(members, [("panel LP-1".to_owned(), MemberChange::Changed)]);
    }
}
