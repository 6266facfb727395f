//! Laws of inheritance, sameness of TOML and CSV, and that no input brings the reader down.

use super::tests::{DoorEntry, DoorFile, Edge, LeafEntry, files, lines, read};
use super::*;
use crate::findings::Files;

#[test]
fn tables_merge_key_by_key_and_lists_replace() {
    let (doors, found, _) = read(
        "[kind.base]\nsite = 'main'\nleaf = { hinges = 'left', count = 3, plate = 'kick' }\nbends = [90, 90]\n\
         [kind.lobby]\nlike = 'base'\nleaf = { count = 4 }\n\
         [[door]]\nkind = 'lobby'\nmark = '1'\nleaf = { hinges = 'right', plate = 'none' }\nbends = [45]\n",
    );
    assert_eq!(found, Vec::<String>::new());
    let door = &doors.door.list()[0];
    let leaf = &door.leaf.members()[0];
    assert_eq!((leaf.hinges.get(), leaf.count.get()), (Some(&Edge::Right), Some(&Count::from(4))));
    assert!(matches!(leaf.plate, Slot::Undone(_)));
    assert_eq!(leaf.count.given().unwrap().through.as_deref(), Some("lobby"));
    assert_eq!(leaf.hinges.given().unwrap().through, None);
    assert_eq!(door.site.given().unwrap().through.as_deref(), Some("base"), "the kind that wrote it");
    assert_eq!(door.bends.list(), [Count::from(45)]);
}

#[test]
fn the_nearest_list_wins_and_takes_from_what_is_shared() {
    let (doors, found, _) = read(
        "[kind.base]\nleaf = { count = 3 }\n[kind.pair]\nlike = 'base'\n[[kind.pair.leaf]]\nhinges = 'left'\n\
         [[kind.pair.leaf]]\nhinges = 'right'\ncount = 4\n\
         [[door]]\nkind = 'pair'\nleaf = { plate = 'kick' }\n[[door]]\nkind = 'base'\n[[door.leaf]]\nhinges = 'right'\n",
    );
    assert_eq!(found, Vec::<String>::new());
    let show = |leaf: LeafEntry| {
        (leaf.hinges.cloned(), leaf.count.cloned().map(Count::get), leaf.plate.cloned().map(String::from))
    };
    let pair: Vec<_> = doors.door.list()[0].leaf.members().into_iter().map(show).collect();
    let kick = Some("kick".to_owned());
    assert_eq!(pair, [(Some(Edge::Left), Some(3), kick.clone()), (Some(Edge::Right), Some(4), kick)]);
    let single: Vec<_> = doors.door.list()[1].leaf.members().into_iter().map(show).collect();
    assert_eq!(single, [(Some(Edge::Right), Some(3), None)]);
}

#[test]
fn a_record_without_inheriting_fields_goes_over_whole_or_not_at_all() {
    let (doors, found, _) = read(
        "[kind.a]\nleaf = { count = 1, lock = { what = 'rim', share = '5%' } }\n\
         [[door]]\nkind = 'a'\n[[door]]\nkind = 'a'\nleaf = { lock = { what = 'bolt' } }\n",
    );
    assert_eq!(found, Vec::<String>::new());
    let locks: Vec<_> = doors.door.list().iter().map(|door| door.leaf.members()[0].lock.cloned().unwrap()).collect();
    assert_eq!(locks[0].share.get().map(|share| share.hundredths()), Some(rust_decimal::Decimal::from(5)));
    assert!(locks[1].share.is_absent());
}

/// (own ← near) ← far = own ← (near ← far), and far once more changes nothing, over every mixture of three states; `shown` is what
/// of a door is compared. Hands on each mixture with the door that came of it.
fn links_join_in_any_order<S: PartialEq + std::fmt::Debug>(
    states: &[&str],
    shown: impl Fn(&DoorEntry) -> S,
    each: impl Fn([&DoorEntry; 3], &DoorEntry),
) {
    let door = |text: &&str| {
        let (doors, found, _) = read(&format!("[[door]]\nmark = 'm'\n{text}"));
        assert_eq!(found, Vec::<String>::new(), "{text}");
        doors.door.list()[0].clone()
    };
    let doors: Vec<DoorEntry> = states.iter().map(door).collect();
    let filled = |own: &DoorEntry, from: &DoorEntry| {
        let mut own = own.clone();
        own.fill_from(from);
        own
    };
    for (own, near, far) in doors.iter().flat_map(|own| {
        let doors = &doors;
        doors.iter().flat_map(move |near| doors.iter().map(move |far| (own, near, far)))
    }) {
        let joined = filled(&filled(own, near), far);
        let says = || format!("{:?} {:?} {:?}", own.values(), near.values(), far.values());
        assert_eq!(shown(&joined), shown(&filled(own, &filled(near, far))), "{}", says());
        assert_eq!(shown(&filled(&joined, far)), shown(&joined), "taking twice changes nothing: {}", says());
        each([own, near, far], &joined);
    }
}

#[test]
fn inheriting_is_the_same_whether_link_by_link_or_from_the_whole() {
    let states = [
        "",
        "leaf = { plate = 'x', count = 1 }\n",
        "leaf = { plate = 'none' }\n",
        "leaf = { count = 2 }\nbends = [1]\n",
        "bends = 'none'\nsite = 's'\n",
    ];
    links_join_in_any_order(&states, DoorEntry::values, |_, _| {});
}

/// What is nearest counts, member by member: its own, what is shared beside it, the kind's member, what the kind shares.
#[test]
fn members_merge_by_position_whatever_the_order_of_links() {
    let states = [
        "",
        "leaf = { count = 1 }\n",
        "leaf = [{ hinges = 'left' }, { hinges = 'right', count = 2 }]\n",
        "leaf.2.count = 3\n",
        "leaf.2.plate = 'none'\nleaf.plate = 'x'\n",
        "leaf = [{ plate = 'kick', count = 5 }]\n",
        "leaf.1.count = 4\nleaf.3.hinges = 'left'\n",
    ];
    let members = |door: &DoorEntry| door.leaf.members().iter().map(LeafEntry::values).collect::<Vec<_>>();
    links_join_in_any_order(&states, members, |links, joined| {
        let most = links.iter().map(|door| members(door).len()).max();
        assert_eq!(Some(members(joined).len()), most, "no member of a kind is lost");
    });
}

/// A cell of one leaf changes that leaf and nothing else, in TOML and in CSV.
#[test]
fn one_leaf_of_a_kind_can_be_changed() {
    let kinds =
        "[kind.pair]\nleaf = [{ hinges = 'left', count = 3, plate = 'kick' }, { hinges = 'right', count = 4 }]\n";
    let toml = "[[door]]\nkind = 'pair'\nleaf.2.count = 5\n[[door]]\nkind = 'pair'\nleaf = [{}, { count = 5 }]\n\
                [[door]]\nkind = 'pair'\nleaf = { count = 1 }\n";
    let (doors, found, _) = read(&format!("{kinds}{toml}"));
    assert_eq!(found, Vec::<String>::new());
    let show = |door: &DoorEntry| -> Vec<_> {
        let leaf = |it: &LeafEntry| {
            (it.hinges.cloned(), it.count.get().map(|it| it.get()), it.plate.get().map(|it| it.as_str().to_owned()))
        };
        door.leaf.members().iter().map(leaf).collect()
    };
    let kick = Some("kick".to_owned());
    let changed = [(Some(Edge::Left), Some(3), kick.clone()), (Some(Edge::Right), Some(5), None)];
    let each = doors.door.list();
    assert_eq!((show(&each[0]), show(&each[1])), (changed.to_vec(), changed.to_vec()));
    assert_eq!(
        show(&each[2]),
        [(Some(Edge::Left), Some(1), kick), (Some(Edge::Right), Some(1), None)],
        "shared beside is nearer"
    );
    let far = read("[[door]]\nmark = 'm'\nleaf.101.count = 1\n").1;
    assert_eq!(far.len(), 1, "{far:?}");
}

#[test]
fn an_overlay_goes_on_top_of_every_member() {
    let (doors, _, _) = read(
        "[[door]]\nmark = '1'\nsite = 'main'\n[[door.leaf]]\nhinges = 'left'\ncount = 3\n[[door.leaf]]\nhinges = 'right'\ncount = 3\n\
         [[door]]\nleaf = { count = 5 }\nsite = 'annex'\n[[door]]\n[[door.leaf]]\n[[door.leaf]]\nhinges = 'left'\n",
    );
    let [base, shared, each] = [0, 1, 2].map(|at| doors.door.list()[at].clone());
    let show = |door: &DoorEntry| -> Vec<_> {
        door.leaf
            .members()
            .iter()
            .map(|leaf| (leaf.hinges.cloned().unwrap(), leaf.count.cloned().unwrap().get()))
            .collect()
    };
    let mut one = base.clone();
    one.overlay_with(&shared);
    assert_eq!(show(&one), [(Edge::Left, 5), (Edge::Right, 5)]);
    assert_eq!((one.mark.get().unwrap().as_str(), one.site.get().unwrap().as_str()), ("1", "annex"));
    let mut two = base;
    two.overlay_with(&each);
    assert_eq!(show(&two), [(Edge::Left, 3), (Edge::Left, 3)]);
}

#[test]
fn rings_and_unknown_kinds_are_one_finding_each() {
    let ring = "[kind.a]\nlike = 'b'\n[kind.b]\nlike = 'c'\n[kind.c]\nlike = 'b'\n[kind.d]\nlike = 'a'\n\
                [[door]]\nkind = 'd'\nleaf = {}\n[[door]]\nkind = 'c'\n";
    assert_eq!(read(ring).1, ["kind-ring 4:8"]);
    let (_, _, findings) = read(ring);
    assert_eq!(findings.iter().next().unwrap().found, "b → c → b");
    assert_eq!(read("[kind.a]\nlike = 'a'\n[[door]]\nkind = 'a'\nleaf = {}").1, ["kind-ring 2:8"]);
    assert_eq!(
        read("[kind.lobby]\nlike = 'bsae'\n[kind.base]\n[[door]]\nkind = 'lobby'\nleaf = {}").1,
        ["unknown-kind 2:8"]
    );
    assert_eq!(read("[kind.lobby]\n[[door]]\nkind = 'loby'\nleaf = {}").1, ["unknown-kind 3:8"]);
    assert_eq!(read("[kind.lobby]\nmark = '101A'\nkind = 'x'\n").1, ["not-shared 2:8", "not-shared 3:8"]);
}

#[test]
fn a_long_chain_is_resolved_whatever_the_order_of_names() {
    for order in [0..40, 1..41] {
        let name = |at: i32| format!("k{}", if order.start == 0 { 100 + at } else { 200 - at });
        let mut text = format!("[kind.{}]\nsite = 'top'\n", name(0));
        for at in 1..40 {
            text.push_str(&format!("[kind.{}]\nlike = '{}'\n", name(at), name(at - 1)));
        }
        text.push_str(&format!("[[door]]\nkind = '{}'\nleaf = {{ count = 1 }}\n", name(39)));
        let (doors, found, _) = read(&text);
        assert_eq!(found, Vec::<String>::new());
        assert_eq!(doors.door.list()[0].site.get().unwrap(), "top");
    }
}

#[test]
fn one_bad_value_used_by_twenty_doors_is_one_finding() {
    let mut text = "[kind.a]\nleaf = { count = 'three', hinges = 'left' }\n".to_owned();
    for at in 0..20 {
        text.push_str(&format!("[[door]]\nmark = '{at}'\nkind = 'a'\n"));
    }
    let (doors, found, _) = read(&text);
    assert_eq!(found, ["wrong-type 2:18"]);
    assert!(doors.door.list().iter().all(|door| door.leaf.members()[0].count.is_bad()));
}

const SAME: [(&str, &str); 3] = [
    (
        "mark,kind,leaf.hinges,leaf.count,leaf.plate,bends,factor,hung_on,outdoors,when,standing,seen\n\
         101A,lobby,left,3,none,90;45,1.25,2026-11-03,yes,a > 2,surveyed,2026-11-02\n",
        "[[door]]\nmark = '101A'\nkind = 'lobby'\nleaf = { hinges = 'left', count = 3, plate = 'none' }\nbends = [90, 45]\n\
         factor = '1.25'\nhung_on = 2026-11-03\noutdoors = true\nwhen = 'a > 2'\nstanding = 'surveyed'\nseen = 2026-11-02\n",
    ),
    (
        "mark,leaf.count,leaf.1.hinges,leaf.2.hinges,bends.1,bends.2,spare.1.what,spare.1.share,bends\n\
         102,2,left,right,45,,rim,5%,\n,,,,,,,,\n",
        "[[door]]\nmark = '102'\nleaf.count = 2\nleaf.1.hinges = 'left'\nleaf.2.hinges = 'right'\nbends = [45]\n\
         [[door.spare]]\nwhat = 'rim'\nshare = '5%'\n",
    ),
    (
        "\u{feff}mark,site\r\n\"a, b \"\"c\"\"\",main\r\n'x', annex \r\n",
        "[[door]]\nmark = 'a, b \"c\"'\nsite = 'main'\n[[door]]\nmark = \"'x'\"\nsite = 'annex'\n",
    ),
];

#[test]
fn a_table_reads_the_same_as_toml() {
    for (table, toml) in SAME {
        let (files, toml, csv) = files(toml, table);
        let mut reader = Reader::new(&files);
        let rows: Vec<DoorEntry> = reader.csv(csv);
        let doors: DoorFile = reader.toml(toml);
        let findings = reader.into_findings();
        assert_eq!(lines(&files, &findings), Vec::<String>::new());
        let values = |doors: &[DoorEntry]| -> Vec<_> { doors.iter().map(Record::values).collect() };
        assert_eq!(values(&rows), values(doors.door.list()));
        let standings = |doors: &[DoorEntry]| -> Vec<_> {
            doors.iter().map(|door| door.mark.given().unwrap().standing.clone()).collect()
        };
        assert_eq!(standings(&rows), standings(doors.door.list()));
    }
}

/// A small generator of numbers with a fixed seed: the same run every time.
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % limit
    }
}

#[test]
fn shuffled_keys_give_the_same_values() {
    let mut dice = Dice(7);
    let whole = starter::<DoorFile>(Live::All);
    let mut keys: Vec<String> = Vec::new();
    for line in whole.lines().skip_while(|line| *line != "[[door]]").skip(1).take_while(|line| !line.starts_with('[')) {
        if !line.starts_with('#') && !line.is_empty() {
            keys.push(line.to_owned());
        }
    }
    assert!(keys.len() > 5, "{keys:?}");
    let doors = |keys: &[String]| read(&format!("[[door]]\n{}\n", keys.join("\n"))).0.values();
    let first = doors(&keys);
    for _ in 0..20 {
        for at in (1..keys.len()).rev() {
            keys.swap(at, dice.below(at + 1));
        }
        assert_eq!(doors(&keys), first);
    }
}

#[test]
fn no_mutation_of_a_valid_file_brings_the_reader_down() {
    let mut dice = Dice(2026);
    let scraps = [
        "\"", "'", "[", "]]", "{", "}", "=", ",", ";", "\n", "\r", "\\", "\\u00", "none", "1e9", "-", "\u{feff}",
        "\u{202e}", "é", ".", "'''", "\0",
    ];
    let sources: Vec<String> = SAME
        .iter()
        .flat_map(|(csv, toml)| [(*csv).to_owned(), (*toml).to_owned()])
        .chain([starter::<DoorFile>(Live::All)])
        .collect();
    for round in 0..3000 {
        let mut bytes = sources[round % sources.len()].clone().into_bytes();
        for _ in 0..=dice.below(4) {
            let at = dice.below(bytes.len() + 1);
            match dice.below(4) {
                0 => bytes.truncate(at.max(1)),
                1 if at < bytes.len() => drop(bytes.remove(at)),
                2 if at < bytes.len() => bytes[at] = dice.below(256) as u8,
                _ => drop(bytes.splice(at..at, scraps[dice.below(scraps.len())].bytes())),
            }
        }
        let files = Files::new([("a.csv".to_owned(), bytes.clone()), ("a.toml".to_owned(), bytes.clone())]);
        let mut reader = Reader::new(&files);
        let _: Vec<DoorEntry> = reader.csv(files.find("a.csv").unwrap());
        let mut doors: DoorFile = reader.toml(files.find("a.toml").unwrap());
        if let Slot::Given(kinds) = &mut doors.kind {
            chain(&mut kinds.value, |door| &door.like, &mut reader);
        }
        let findings = reader.into_findings();
        // Every place can be shown.
        if round % 10 == 0 {
            crate::findings::as_text(&findings, &files, false);
            crate::findings::as_json(&findings, &files);
        }
    }
}
