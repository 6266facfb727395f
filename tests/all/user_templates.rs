//! Templates and themes of a person's own: one file at a time, their faults told with excerpt and remedy, nothing read by them.
//!
//! In: the demo with templates of a folder. Out: findings as a person reads them, papers read back.

use std::collections::{BTreeMap, BTreeSet};

use hingewright::findings::{Files, Paper, Papers, as_text};
use hingewright::fonts::{Faces, Style};
use hingewright::pipeline::{self, Issue, issue};

use crate::demo::{self, JOB, Texts};
use crate::pdf_reader::Pdf;

/// The folder of a person's own templates.
const OWN: &str = "own";

/// Issues the demo with files besides its own; papers by name, and findings as text.
fn issued(more: &[(&str, &str)], wanted: Papers) -> (BTreeMap<String, Vec<u8>>, Vec<Paper>, String) {
    let mut texts: Texts = demo::texts();
    texts.extend(more.iter().map(|(path, text)| (path.to_string(), text.to_string())));
    let files: Files = demo::snapshot(&texts);
    let (made, findings) = issue(&files, JOB, wanted, Some(OWN));
    let Issue { papers, held, .. } = made.expect("the demo has a job");
    (papers.into_iter().map(|it| (it.name, it.bytes)).collect(), held, as_text(&findings, &files, false))
}

fn both() -> Papers {
    Papers::of(&[Paper::Bid, Paper::Survey])
}

/// The part of a printed report about one code, up to the next empty line.
fn about<'r>(report: &'r str, words: &str) -> &'r str {
    let at = report.find(words).unwrap_or_else(|| panic!("{words} is not in:\n{report}"));
    let end = report[at..].find("\n\n").map_or(report.len(), |length| at + length);
    &report[at..end]
}

/// A whole paper around some blocks.
fn paper(inside: &str) -> String {
    format!("<document title=\"Bid\" lang=\"en-US\">\n<sheet>\n{inside}\n</sheet>\n</document>\n")
}

#[test]
fn one_template_of_a_folder_stands_instead_of_one_that_ships_with_the_tool() {
    let (papers, held, report) = issued(&[("own/bid.xml", &paper("<p>Ours for {{ head.project }}</p>"))], both());
    assert!(held.is_empty(), "{report}");
    let text = |name: &str| Pdf::read(&papers[name]).text();
    assert!(text("bid.pdf").contains("Ours for"), "the bid is made from the folder's template");
    let plain = &demo::demo().issue;
    let survey = plain.papers.iter().find(|it| it.paper == Paper::Survey).expect("the demo has a survey form");
    assert_eq!(papers["survey.pdf"], survey.bytes, "the others stay as they are");
}

#[test]
fn a_fault_of_a_template_is_reported_with_file_line_column_excerpt_and_remedy() {
    // What is typed, where it is told, and what to type instead.
    let cases = [
        ("<p>{{ head.projct }}</p>", "own/bid.xml:3:12", "<p>{{ head.projct }}</p>", "project"),
        ("<p>a</p>\n<tabel/>", "own/bid.xml:4:1", "<tabel/>", "table"),
        ("<box class=\"cuation\"><p>a</p></box>", "own/bid.xml:3:6", "<box class=\"cuation\">", "caution"),
        ("<p>a</p>{% for x in alternates %}<p>b</p>", "own/bid.xml:3:11", "{% for x in alternates %}", "{% endfor %}"),
        (
            "<p>see <pageof to=\"a\"/></p>",
            "own/bid.xml:3:16",
            "<pageof to=\"a\"/>",
            "no block of this paper has the id a",
        ),
        (
            "<table><col w=\"9in\"/><tbody><tr><td>a</td></tr></tbody></table>",
            "own/bid.xml:3:1",
            "<table><col w=\"9in\"/>",
            "landscape",
        ),
    ];
    for (inside, place, excerpt, remedy) in cases {
        let (papers, held, report) = issued(&[("own/bid.xml", &paper(inside))], both());
        assert_eq!(held, [Paper::Bid], "{inside}: {report}");
        assert!(papers.contains_key("survey.pdf"), "the other paper is made");
        let reported = about(&report, place);
        assert!(reported.contains(excerpt), "{excerpt} in:\n{report}");
        assert!(report.contains(remedy), "{remedy} in:\n{report}");
    }
}

#[test]
fn a_template_reads_neither_files_nor_environment() {
    let cases = [
        (
            "{% include \"../../catalog_demo/firm.toml\" %}",
            "there is no template of the name ../../catalog_demo/firm.toml",
        ),
        ("{% include \"/etc/hostname\" %}", "there is no template of the name /etc/hostname"),
        ("<p>{{ get_env(name=\"HOME\") }}</p>", "get_env"),
        ("<p>{{ load(path=\"a\") }}</p>", "load"),
        ("<p>{{ now() }}</p>", "now"),
    ];
    for (inside, says) in cases {
        let (papers, held, report) = issued(&[("own/bid.xml", &paper(inside))], Papers::of(&[Paper::Bid]));
        assert_eq!((papers.len(), held.as_slice()), (0, [Paper::Bid].as_slice()), "{inside}");
        assert!(report.contains(says), "{says} in:\n{report}");
    }
}

/// What was found by force, each of which ended the program or lost words: a finding at its place, before the harm.
#[test]
fn templates_that_would_run_away_are_reported_where_they_do() {
    let doubled = format!("{{% set a = head.project %}}{}<p>{{{{ a }}}}</p>", "{% set a = a ~ a %}".repeat(40));
    let caught = format!("{{% set a %}}x{{% endset %}}{}", "{% set a %}{{ a }}{{ a }}{% endset %}".repeat(40));
    let lists = format!("{}<li>a</li>{}", "<ul><li>".repeat(1_600), "</li></ul>".repeat(1_600));
    let words = |count: usize| format!("<p>{}</p>", "word ".repeat(count));
    let cases = [
        (Paper::Bid, doubled, "own/bid.xml:3:", "a, which is set, as a part of something longer"),
        (Paper::Survey, caught, "own/survey.xml:3:", "a set that holds a part of the paper"),
        (Paper::Review, lists, "own/review.xml:3:", "elements are nested more than 48 deep"),
        (Paper::Questions, words(100_000), "own/questions.xml:3:1", "one text holds 499999 letters; 40000 is the most"),
        (Paper::Needs, words(600_000), "own/needs.xml:3:1", "one text holds 2999999 letters; 40000 is the most"),
    ];
    let own = cases.each_ref().map(|(of, inside, ..)| (format!("own/{}.xml", of.word()), paper(inside)));
    let own: Vec<(&str, &str)> = own.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let wanted = cases.iter().fold(Papers::of(&[Paper::Register]), |all, (of, ..)| all.with(Papers::of(&[*of])));
    let (papers, held, report) = issued(&own, wanted);
    assert_eq!(held, cases.each_ref().map(|(of, ..)| *of));
    assert_eq!(papers.keys().collect::<Vec<_>>(), ["register.pdf"], "the other paper is made");
    for (_, _, place, says) in cases {
        about(&report, place);
        assert!(report.contains(says), "{says} in:\n{}", &report[..report.len().min(2_000)]);
    }
}

/// Each template that includes the next, once or twice: names, texts.
fn including(count: usize, times: usize) -> Vec<(String, String)> {
    let next = |at: usize| format!("{{% include \"t{:03}.xml\" %}}", at + 1).repeat(times);
    let text = |at: usize| if at + 1 < count { next(at) } else { "<p>a</p>".to_owned() };
    (0..count).map(|at| (format!("own/t{at:03}.xml"), text(at))).collect()
}

#[test]
fn templates_that_include_without_end_are_reported_where_they_go_too_far() {
    let named = |stem: &str, files: Vec<(String, String)>| -> Vec<(String, String)> {
        files
            .into_iter()
            .map(|(name, text)| {
                (name.replace("own/t", &format!("own/{stem}")), text.replace("\"t", &format!("\"{stem}")))
            })
            .collect()
    };
    let files = [
        named("chain", including(800, 1)),
        named("twice", including(40, 2)),
        vec![
            ("own/bid.xml".to_owned(), paper("{% include \"chain000.xml\" %}")),
            ("own/survey.xml".to_owned(), paper("{% include \"twice000.xml\" %}")),
        ],
    ]
    .concat();
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let (papers, held, report) = issued(&files, both().with(Papers::of(&[Paper::Register])));
    assert_eq!(held, [Paper::Bid, Paper::Survey]);
    assert_eq!(papers.keys().collect::<Vec<_>>(), ["register.pdf"], "the other paper is made");
    for says in [
        "more than 12 templates that stand in one another",
        "more than 1000 inclusions, counting those of what is included",
    ] {
        assert!(report.contains(says), "{says} in:\n{}", &report[..report.len().min(2_000)]);
    }
    assert!(report.matches("[template-refused]").count() <= 4, "{report}");
}

/// As many words as one text may hold: none is lost.
#[test]
fn the_longest_text_is_printed_whole() {
    let words: String = (10_000..16_600).map(|word| format!("{word} ")).collect();
    let (papers, held, report) =
        issued(&[("own/bid.xml", &paper(&format!("<p>{words}</p>")))], Papers::of(&[Paper::Bid]));
    assert!(held.is_empty(), "{report}");
    let text = Pdf::read(&papers["bid.pdf"]).text();
    let printed: BTreeSet<&str> = text.split_whitespace().collect();
    let lost: Vec<String> =
        (10_000..16_600).map(|word| word.to_string()).filter(|it| !printed.contains(&**it)).collect();
    assert!(lost.is_empty(), "{} words are lost, {:?} first", lost.len(), lost.first());
}

#[test]
fn a_theme_is_read_from_the_catalog_and_its_faults_are_reported() {
    let theme = "[theme]\ndesk_text = \"11pt\"\nslashed_zero = \"yes\"\nmark = \"Quillmere\"\n";
    let (papers, held, report) = issued(&[("catalog_demo/theme.toml", theme)], both());
    assert!(held.is_empty(), "{report}");
    let plain = &demo::demo().issue;
    let bid = plain.papers.iter().find(|it| it.paper == Paper::Bid).expect("the demo has a bid");
    assert_ne!(papers["bid.pdf"], bid.bytes);
    let faulty = "[theme]\ndesk_text = \"5pt\"\nzebra_ink = \"80%\"\ndesk_txt = \"9pt\"\n";
    let (papers, held, report) = issued(&[("catalog_demo/theme.toml", faulty)], both());
    assert!(papers.is_empty() && held.len() == 2, "{report}");
    for (place, says) in [
        ("catalog_demo/theme.toml:2", "an extent from 9pt to 16pt"),
        ("catalog_demo/theme.toml:3", "a percentage from 2% to 15%"),
        ("catalog_demo/theme.toml:4", "desk_text"),
    ] {
        about(&report, place);
        assert!(report.contains(says), "{says} in:\n{report}");
    }
}

#[test]
fn running_totals_end_with_the_total_of_their_table() {
    let inside = "{% for table in items %}{% for row in table.rows %}{% if loop.last %}<p>{% if row.running == table.total %}agrees\
                  {% else %}{{ row.running }} is not {{ table.total }}{% endif %}</p>{% endif %}{% endfor %}{% endfor %}";
    let (papers, held, report) = issued(&[("own/recap.xml", &paper(inside))], Papers::of(&[Paper::Recap]));
    assert!(held.is_empty(), "{report}");
    let text = papers.values().map(|bytes| Pdf::read(bytes).text()).collect::<String>();
    assert!(text.contains("agrees") && !text.contains("is not"), "{text}");
    assert!(pipeline::built_in_templates().any(|(name, text)| {
        name.ends_with("recap.xml") && String::from_utf8_lossy(&text).contains("carry=\"{{ row.running }}\"")
    }));
}

/// A new job with a theme that names four font files, and those of them that are there; its bid and what was found.
fn set_in(theme: &str, fonts: &[(&str, Vec<u8>)]) -> (Option<Vec<u8>>, String) {
    let own = fonts.iter().map(|(name, bytes)| (format!("catalog/faces/{name}"), bytes.clone()));
    let theme = ("catalog/theme.toml".to_owned(), theme.as_bytes().to_vec());
    let templates = pipeline::built_in_templates();
    let files = Files::new(pipeline::starter().into_iter().chain(own).chain([theme]).chain(templates));
    let (made, findings) = issue(&files, "job.toml", Papers::of(&[Paper::Bid]), None);
    let bid = made.and_then(|made| made.papers.into_iter().next());
    (bid.map(|it| it.bytes), as_text(&findings, &files, false))
}

#[test]
fn papers_are_set_in_the_faces_that_a_theme_names() {
    let theme = "[theme]\nface = \"faces/a.ttf\"\nface_bold = \"faces/b.ttf\"\nface_italic = \"faces/c.ttf\"\nface_bold_italic = \"faces/d.ttf\"\n";
    // The faces that ship with the tool in another order: upright text comes out in italic, bold in bold italic.
    let built_in = Faces::built_in();
    let styles = [Style::Italic, Style::BoldItalic, Style::Regular, Style::Bold];
    let fonts =
        || ["a.ttf", "b.ttf", "c.ttf", "d.ttf"].into_iter().zip(styles.map(|style| built_in.bytes(style).to_vec()));
    let names = |bytes: &[u8]| -> BTreeSet<String> {
        let pdf = Pdf::read(bytes);
        let pages = pdf.pages();
        let shown = pages.iter().flat_map(|(page, _)| pdf.shown(*page));
        let own = shown.filter_map(|it| it.font.split_once('+').map(|(_, name)| name.to_owned()));
        own.collect()
    };
    let (bid, report) = set_in("[theme]\n", &[]);
    assert_eq!(names(&bid.expect(&report)), ["SourceSans3-Bold", "SourceSans3-Regular"].map(String::from).into());
    let (bid, report) = set_in(theme, &fonts().collect::<Vec<_>>());
    assert_eq!(names(&bid.expect(&report)), ["SourceSans3-BoldIt", "SourceSans3-It"].map(String::from).into());

    let (bid, report) = set_in(theme, &fonts().filter(|(name, _)| *name != "c.ttf").collect::<Vec<_>>());
    assert!(bid.is_none(), "{report}");
    let reported = about(&report, "face_italic = \"faces/c.ttf\"");
    assert!(reported.contains("catalog/theme.toml:4:15") && reported.contains("there is none"), "{reported}");
    let mut broken: Vec<(&str, Vec<u8>)> = fonts().collect();
    broken[3].1.truncate(2000);
    let reported = set_in(theme, &broken).1;
    assert!(about(&reported, "face_bold_italic").contains("not a font file with TrueType outlines"), "{reported}");
    let reported = set_in("[theme]\nface_bold = \"faces/b.ttf\"\n", &fonts().collect::<Vec<_>>()).1;
    assert!(about(&reported, "face_bold").contains("one of four"), "{reported}");
}
