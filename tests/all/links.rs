//! Words that lead to another place of the paper: links that are tagged, say where they lead, and lead there.

use std::collections::BTreeMap;

use hingewright::fonts::Faces;
use hingewright::pdf::{Properties, write};

use crate::papers;
use crate::pdf_reader::{Array, Entries, Kid, MaybeRef, Object, Pdf};

const PAPER: &str = r#"<document title="Links" lang="en-US"><sheet><h1>Contents</h1><contents depth="2"/><pagebreak/>
<h2 id="site">Site</h2><p>Go on to <see to="power">the panels of the third floor, their breakers, and everything that is fed by them, room by
room and door by door as the schedule has it</see>, page <pageof to="power"/>.</p><pagebreak/>
<h2 id="power">Power</h2><p>Back to <see to="site">the site</see>.</p></sheet></document>"#;

fn written() -> Pdf {
    let (faces, tree) = (Faces::built_in(), papers::tree(PAPER));
    let pages = papers::set(&tree, &faces);
    Pdf::read(&write(&pages, &tree, &faces, &Properties::default()).unwrap_or_else(|found| panic!("{found:?}")))
}

#[test]
fn links_are_tagged_described_and_lead_where_they_say() {
    let pdf = written();
    let pages: Vec<u32> = pdf.pages().iter().map(|(number, _)| *number).collect();
    let mut links: BTreeMap<u32, (u32, String)> = BTreeMap::new();
    pdf.structure().walk(&mut |element| {
        for kid in &element.kids {
            if let (Kid::Field(annotation), "Link") = (kid, element.role.as_str()) {
                assert_eq!(links.insert(*annotation, (element.number, element.text(&pdf))), None, "one element each");
            }
        }
    });
    let parents = pdf.parent_tree();
    let mut got = Vec::new();
    for (page, entries) in pdf.pages() {
        for link in Pdf::annotations(&entries) {
            let kind = link.name("Subtype");
            assert_eq!((kind.as_deref(), link.int("F")), (Some("Link"), Some(4)), "ISO 19005-2, 6.3.2");
            let (element, words) = &links[&Pdf::number(&link)];
            assert_eq!(parents[&link.int("StructParent").unwrap()], [*element], "ISO 32000-1, 14.7.4.4");
            let to = Pdf::target(&link);
            let position = |page: u32| pages.iter().position(|other| *other == page).expect("a page") + 1;
            let shown: String = words.chars().take(10).collect();
            let says = link.text("Contents").expect("words for who cannot see the link");
            got.push(format!("{} to {}: {shown} | {says}", position(page), position(to)));
            // The place that can be pressed is where the words stand.
            let [left, bottom, right, top] = link.get::<[f64; 4]>("Rect").expect("a place");
            let start =
                pdf.shown(page).iter().find(|it| !it.text.trim().is_empty() && words.starts_with(it.text.trim()));
            let start = start.unwrap_or_else(|| panic!("{words} is shown"));
            assert!(left <= start.x + 0.02 && start.x <= right && bottom < start.y && start.y < top, "{words}");
            // What it leads to stands just below the height that it names: ISO 32000-1, table 151.
            let Some(MaybeRef::NotRef(Object::Number(height))) =
                link.get::<Array<'_>>("Dest").unwrap().raw_iter().nth(3)
            else {
                panic!("no height in {link:?}");
            };
            let height = height.as_f64();
            let heading = says.rsplit_once(", page").expect("a page").0.to_string();
            let there = pdf.shown(to).iter().find(|it| it.text == heading).expect("the heading is there");
            assert!(there.y < height && height - there.y < 40.0, "{heading}: {} below {height}", there.y);
        }
    }
    assert_eq!(links.len(), got.len());
    let asked = [
        "1 to 2: Site 2 | Site, page 2",
        "1 to 3: Power 3 | Power, page 3",
        "2 to 3: the panels | Power, page 3",
        "2 to 3: 3 | Power, page 3",
        "3 to 2: the site | Site, page 2",
    ];
    let of = |line: &str| line.split(' ').filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ");
    assert_eq!(got.iter().map(|line| of(line)).collect::<Vec<_>>(), asked);
    let two_lines = pdf.objects().filter(|it| matches!(it, Object::Dict(it) if it.contains_key("QuadPoints")));
    assert_eq!(two_lines.count(), 1, "the words that take two lines can be pressed on both, and not between");
}
