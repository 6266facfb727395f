//! The survey form: one blank per opening, with a figure of every dimension and what is known so far beside the boxes.
//!
//! In: sources. Out: the view of the paper. May not know: pages, prices.

use std::collections::BTreeMap;
use std::iter;

use serde::Serialize;

use super::heading::{Heading, electric_words, heading, leaf_weight};
use super::printing::{DASH, Printing, listed, or_dash, volts, word};
use super::{Count, Draft, Letterhead, Sources, counts, letterhead};
use crate::drawings::{Dimension, Frame, survey_figure};
use crate::input::{Slot, Standing, Text, Vocabulary};
use crate::job::{
    CeilingKind, Disposition, ExistingEntry, ExistingKind, FrameMade, Hanging, HazardReport, InTheWay, LatchKind,
    LeafMade, ObstructionEntry, Site, Substrate,
};
use crate::measure::{Length, Style, Unit};
use crate::takeoff::{LeafWork, OpeningWork, standing_words};

/// The survey forms of a job.
#[derive(Clone, Debug, Serialize)]
pub struct SurveyView {
    /// Head and foot.
    pub head: Letterhead,
    /// The shared counts.
    pub counts: Vec<Count>,
    /// Key of the figure.
    pub figure: &'static str,
    /// The figure in words.
    pub figure_alt: String,
    /// What is photographed.
    pub photos: Vec<&'static str>,
    /// What is done with existing hardware: heads of columns.
    pub dispositions: Vec<&'static str>,
    /// Openings to check off: blocks of two parts that stand side by side.
    pub index: Vec<Vec<Vec<IndexLine>>>,
    /// One form a site.
    pub sites: Vec<SiteForm>,
    /// One form an opening.
    pub forms: Vec<SurveyForm>,
}

/// An opening in the list of all.
#[derive(Clone, Debug, Serialize)]
pub struct IndexLine {
    /// Its mark.
    pub mark: String,
    /// The rooms it stands between.
    pub rooms: String,
    /// The last pass made of it; a dash where nobody has been there.
    pub so_far: String,
}

/// The form of a site: what is asked once, not at every opening.
#[derive(Clone, Debug, Serialize)]
pub struct SiteForm {
    /// Its name.
    pub name: String,
    /// Its address.
    pub address: String,
    /// Questions.
    pub questions: Vec<Question>,
    /// Panels: known values, and room for what is found.
    pub panels: Vec<PanelForm>,
}

/// A panel on the form of a site.
#[derive(Clone, Debug, Serialize)]
pub struct PanelForm {
    /// Its id.
    pub name: String,
    /// Where it stands.
    pub place: String,
    /// Volts.
    pub volts: String,
    /// Spaces free.
    pub free: String,
    /// Rules for shutting it down.
    pub shutdown: String,
}

/// The form of an opening.
#[derive(Clone, Debug, Serialize)]
pub struct SurveyForm {
    /// Heading.
    pub heading: Heading,
    /// Surveys already made, in words.
    pub made: String,
    /// Height of a row of dimensions: lower where two leaves need more rows.
    pub row_height: &'static str,
    /// Dimensions.
    pub dimensions: Vec<MeasuredRow>,
    /// Questions with boxes to check.
    pub questions: Vec<Question>,
    /// Hardware that may be there.
    pub existing: Vec<ExistingRow>,
}

/// A dimension: its letter, what is known, and room for what is found.
#[derive(Clone, Debug, Serialize)]
pub struct MeasuredRow {
    /// The figure's letter.
    pub letter: String,
    /// What it is.
    pub name: String,
    /// What is known.
    pub known: String,
    /// How it is known.
    pub standing: String,
}

/// A question with boxes to check.
#[derive(Clone, Debug, Serialize)]
pub struct Question {
    /// What is asked.
    pub name: String,
    /// What is known.
    pub known: String,
    /// Boxes.
    pub options: Vec<String>,
    /// What is written beside them; empty where nothing is.
    pub write: String,
}

/// A kind of hardware that may be there.
#[derive(Clone, Debug, Serialize)]
pub struct ExistingRow {
    /// What it is.
    pub name: String,
    /// What is known.
    pub known: String,
}

/// What is photographed at every opening.
const PHOTOS: [&str; 10] = [
    "Outside, whole opening",
    "Inside, whole opening",
    "Head, with tape measure",
    "Hinge edge and hinge",
    "Latch edge and strike",
    "Labels of leaf and frame",
    "Obstructions",
    "Above the ceiling",
    "Panel, directory, free spaces",
    "Raceway route",
];

/// The figure's key.
const FIGURE: &str = "survey.figure";

/// Most lines of a part of the list of openings: what a page holds below title and counts, each of two lines.
const INDEX_PART: usize = 16;

/// Makes the survey forms.
pub fn survey(sources: &Sources) -> Draft<SurveyView> {
    let figure = survey_figure(Frame { width: 504.0, height: 150.0, text: 9.5 });
    let openings = &sources.takeoff.arrangement.openings;
    let forms: Vec<SurveyForm> = openings.iter().map(|work| form(sources, work)).collect();
    let lines: Vec<IndexLine> =
        forms.iter().zip(&sources.takeoff.arrangement.openings).map(|(form, work)| index_line(form, work)).collect();
    let halves = |block: &[IndexLine]| block.chunks(block.len().div_ceil(2)).map(<[IndexLine]>::to_vec).collect();
    let view = SurveyView {
        index: lines.chunks(2 * INDEX_PART).map(halves).collect(),
        head: letterhead(sources, "Survey form"),
        counts: counts(sources, None),
        figure: FIGURE,
        figure_alt: figure.alt.clone(),
        photos: PHOTOS.to_vec(),
        dispositions: Disposition::ALL.iter().map(|it| it.word()).collect(),
        sites: sources.takeoff.arrangement.sites.iter().map(|site| site_form(sources, site)).collect(),
        forms,
    };
    Draft::drawn(view, BTreeMap::from([(FIGURE.to_owned(), figure)]))
}

fn index_line(form: &SurveyForm, work: &OpeningWork) -> IndexLine {
    let last = work.opening.surveys.iter().map(|it| it.pass).max();
    IndexLine {
        mark: form.heading.mark.clone(),
        rooms: format!("{}, {}", form.heading.from, form.heading.to),
        so_far: last.map_or_else(|| DASH.to_owned(), |pass| pass_word(pass).to_owned()),
    }
}

fn form(sources: &Sources, work: &OpeningWork) -> SurveyForm {
    SurveyForm {
        heading: heading(sources, work),
        made: surveys_made(work),
        row_height: if work.leaves.len() > 1 { "0.22in" } else { "0.34in" },
        dimensions: dimensions(sources, work),
        questions: questions(sources, work),
        existing: EXISTING_ROWS.iter().map(|(name, kinds)| existing(work, name, kinds)).collect(),
    }
}

/// The surveys made at an opening, in words.
pub(super) fn surveys_made(work: &OpeningWork) -> String {
    let made = work.opening.surveys.iter().map(|it| format!("{} pass {}, {}", pass_word(it.pass), it.seen, it.by));
    let made: Vec<String> = made.collect();
    if made.is_empty() { "not surveyed".to_owned() } else { made.join("; ") }
}

/// How a slot's value is known, a survey by its pass; a dash where there is no value.
pub(super) fn standing<T>(work: &OpeningWork, slot: Option<&Slot<T>>) -> String {
    let Some(given) = slot.and_then(Slot::given) else { return DASH.to_owned() };
    let pass = match &given.standing {
        Standing::Surveyed { date: Some(date), .. } => work.opening.surveys.iter().find(|it| it.seen == *date),
        _ => None,
    };
    match (pass, standing_words(&given.standing)) {
        (Some(made), _) => pass_words(made.pass),
        (None, words) if words.is_empty() => "as given".to_owned(),
        (None, words) => words,
    }
}

/// A pass of the survey, in words.
pub(super) fn pass_words(pass: u32) -> String {
    format!("{} pass", pass_word(pass))
}

fn pass_word(pass: u32) -> &'static str {
    if pass == 1 { "first" } else { "second" }
}

fn dimensions(sources: &Sources, work: &OpeningWork) -> Vec<MeasuredRow> {
    Dimension::ALL.into_iter().flat_map(|dimension| rows_of(sources, work, dimension)).collect()
}

/// The rows of a dimension: one, or one a leaf.
fn rows_of(sources: &Sources, work: &OpeningWork, dimension: Dimension) -> Vec<MeasuredRow> {
    let printing = Printing::of(sources.reviewed.job());
    let entry = &work.opening.entry;
    let frame = entry.frame.get();
    let row = |name: String, known: String, standing: String| MeasuredRow {
        letter: dimension.letter().to_owned(),
        name,
        known,
        standing,
    };
    let short = |slot: Option<&Slot<Length>>| slot.map_or_else(|| DASH.to_owned(), |slot| printing.short_of(slot));
    let of_opening =
        |slot: Option<&Slot<Length>>| vec![row(dimension.words().to_owned(), short(slot), standing(work, slot))];
    let several = work.leaves.len() > 1;
    let of_leaves = |pick: for<'l> fn(&'l LeafWork) -> &'l Slot<Length>, large: bool| {
        let each = work.leaves.iter().map(|leaf| {
            let slot = pick(leaf);
            let name = if several {
                format!("{}, leaf {}", dimension.words(), leaf.number)
            } else {
                dimension.words().to_owned()
            };
            let known = if large { printing.size_of(slot) } else { printing.short_of(slot) };
            row(name, known, standing(work, Some(slot)))
        });
        each.collect()
    };
    match dimension {
        Dimension::LeafWidth => of_leaves(|leaf| &leaf.entry.width, true),
        Dimension::LeafHeight => of_leaves(|leaf| &leaf.entry.height, true),
        Dimension::Thickness => of_leaves(|leaf| &leaf.entry.thickness, false),
        Dimension::Stile => of_leaves(|leaf| &leaf.entry.stile, false),
        Dimension::Face => of_opening(frame.map(|it| &it.face)),
        Dimension::Depth => of_opening(frame.map(|it| &it.depth)),
        Dimension::Reveal => of_opening(frame.map(|it| &it.reveal)),
        Dimension::HeadRoom => of_opening(frame.map(|it| &it.head_room)),
        Dimension::FaceClearance => of_opening(frame.map(|it| &it.face_clearance)),
        Dimension::Ceiling => {
            let slot = entry.ceiling.get().map(|it| &it.height);
            let known = slot.map_or_else(|| DASH.to_owned(), |slot| printing.size_of(slot));
            vec![row(dimension.words().to_owned(), known, standing(work, slot))]
        }
        Dimension::HingeSide | Dimension::LatchSide => of_opening(None),
    }
}

fn options<V: Vocabulary>() -> Vec<String> {
    V::ALL.iter().map(|it| it.word().to_owned()).collect()
}

fn question(name: &str, known: String, options: Vec<String>, write: &str) -> Question {
    Question { name: name.to_owned(), known, options, write: write.to_owned() }
}

fn texts(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| (*word).to_owned()).collect()
}

fn questions(sources: &Sources, work: &OpeningWork) -> Vec<Question> {
    let mut all = leaf_questions(sources, work);
    all.extend(frame_questions(Printing::of(sources.reviewed.job()), work));
    all.push(power_question(sources, work));
    all
}

fn leaf_questions(sources: &Sources, work: &OpeningWork) -> Vec<Question> {
    let printing = Printing::of(sources.reviewed.job());
    let each = |text: &dyn Fn(&LeafWork) -> String| super::heading::each_leaf(work, text);
    vec![
        question("Leaf material", each(&|it| word(&it.entry.made)), options::<LeafMade>(), "gauge, core"),
        question("Leaf weight", each(&|it| leaf_weight(it, printing)), Vec::new(), "weighed or by label"),
        question("Hinge type", each(&|it| word(&it.entry.hangs)), options::<Hanging>(), ""),
        question("Latch", each(&|it| word(&it.entry.latch)), options::<LatchKind>(), ""),
        question(
            "Leaf by hand",
            each(&|it| gaps(it, printing)),
            texts(&["free", "no sag", "latches by itself"]),
            "force to open, gap around, gap under",
        ),
        question(
            "Fire label",
            work.opening.entry.rating.or(crate::job::Rating::None).word().to_owned(),
            texts(&["on leaf", "on frame", "legible", "no label"]),
            "reads",
        ),
    ]
}

/// The gaps of a leaf that are measured already.
fn gaps(leaf: &LeafWork, printing: Printing) -> String {
    let known = |slot: &Slot<Length>, says: &str| slot.get().map(|it| format!("{says} {}", printing.short(*it)));
    let force = leaf.entry.opening_force.get().and_then(|it| it.print(Unit::PoundForce, 1, Style::Page));
    let all = [known(&leaf.entry.gap, "gap"), known(&leaf.entry.undercut, "undercut"), force];
    or_dash(Some(&listed(all.into_iter().flatten(), ", ")))
}

fn frame_questions(printing: Printing, work: &OpeningWork) -> Vec<Question> {
    let frame = work.opening.entry.frame.get();
    let in_the_way = frame.map(|it| it.in_the_way.list()).unwrap_or_default();
    let fixed: Vec<String> =
        Substrate::ALL.iter().filter(|it| **it != Substrate::Unknown).map(|it| it.word().to_owned()).collect();
    let ceiling = work.opening.entry.ceiling.get();
    let returns =
        ceiling.and_then(|it| it.return_air.get()).map(|it| if *it { "return-air plenum" } else { "not a plenum" });
    let known = [ceiling.map(|it| word(&it.kind)), returns.map(str::to_owned)];
    let mut kinds = options::<CeilingKind>();
    kinds.extend(texts(&["return-air plenum", "not a plenum"]));
    vec![
        question(
            "Frame material",
            frame.map_or_else(|| DASH.to_owned(), |it| word(&it.made)),
            options::<FrameMade>(),
            "",
        ),
        question("Header substrate", frame.map_or_else(|| DASH.to_owned(), |it| word(&it.fixed_to)), fixed, "found by"),
        question(
            "Obstruction at header, arm",
            listed(in_the_way.iter().map(|it| obstruction(printing, it)), ", "),
            options::<InTheWay>(),
            "other; underside, from wall",
        ),
        question("Ceiling", listed(known.into_iter().flatten(), ", "), kinds, ""),
    ]
}

/// What hangs in the way, with its measures.
fn obstruction(printing: Printing, it: &ObstructionEntry) -> String {
    let underside = it.underside.get().map(|height| format!(" at {}", printing.size(*height)));
    let distance = it.distance.get().map(|off| format!(", {} from wall", printing.short(*off)));
    format!("{}{}{}", word(&it.what), underside.unwrap_or_default(), distance.unwrap_or_default())
}

fn power_question(sources: &Sources, work: &OpeningWork) -> Question {
    let power = work.opening.entry.power.get();
    let panel = power.and_then(|it| it.panel.get()).and_then(|id| sources.reviewed.job().panels.get(id.as_str()));
    let known = power.and_then(|it| it.known.cloned());
    let known = known.map_or(DASH, super::printing::power_known).to_owned();
    let place = panel.map(|it| {
        let place = it.entry.place.get().map(|place| format!(", {place}")).unwrap_or_default();
        format!("{}{place}", it.id)
    });
    let known = listed([Some(known), place].into_iter().flatten(), ": ");
    question("Power", known, texts(&["field-verified", "on drawings", "none"]), "panel and route")
}

fn text(slot: &Slot<Text>) -> String {
    slot.get().map_or_else(|| DASH.to_owned(), |it| it.as_str().to_owned())
}

fn site_form(sources: &Sources, site: &Site) -> SiteForm {
    let entry = &site.entry;
    let year = entry.year.get().map_or_else(|| DASH.to_owned(), |year| year.get().to_string());
    let asked = |name: &str, known: String| question(name, known, Vec::new(), "");
    let panels = sources.reviewed.job().panels.values().filter(|panel| panel.site == site.id).map(|panel| PanelForm {
        name: panel.id.clone(),
        place: text(&panel.entry.place),
        volts: or_dash(panel.entry.volts.get().map(|it| volts(*it)).as_deref()),
        free: or_dash(panel.entry.free.get().map(|free| free.get().to_string()).as_deref()),
        shutdown: text(&panel.entry.shutdown),
    });
    SiteForm {
        name: site.name.clone(),
        address: site.address.clone(),
        questions: vec![
            asked("Contact", text(&entry.contact)),
            asked("Working hours", text(&entry.hours)),
            asked("Badge and keys", text(&entry.badge)),
            asked("Parking, unloading", text(&entry.parking)),
            asked("Staging", text(&entry.staging)),
            asked("Lift route", text(&entry.lift_path)),
            asked("Emergency", text(&entry.emergency)),
            asked("Year of construction", year),
            question(
                "Hazmat report: material found, where",
                word(&entry.hazard),
                options::<HazardReport>(),
                "date of the report",
            ),
        ],
        panels: panels.collect(),
    }
}

/// Rows of existing hardware, each with the kinds it stands for.
const EXISTING_ROWS: [(&str, &[ExistingKind]); 8] = [
    ("closer", &[ExistingKind::Closer]),
    ("concealed closer", &[ExistingKind::ConcealedCloser]),
    ("holder", &[ExistingKind::OverheadHolder, ExistingKind::MagneticHolder, ExistingKind::KickDown]),
    ("astragal, coordinator, strip", &[ExistingKind::Coordinator, ExistingKind::Astragal, ExistingKind::Weatherstrip]),
    ("position switch", &[ExistingKind::PositionSwitch]),
    (
        "lock, latch, exit device",
        &[
            ExistingKind::Mortise,
            ExistingKind::Cylindrical,
            ExistingKind::RimExit,
            ExistingKind::RodExit,
            ExistingKind::FlushBolts,
        ],
    ),
    (
        "electric release",
        &[ExistingKind::Magnet, ExistingKind::Strike, ExistingKind::Retraction, ExistingKind::ElectrifiedLock],
    ),
    ("power transfer", &[ExistingKind::Transfer]),
];

fn existing(work: &OpeningWork, name: &str, kinds: &[ExistingKind]) -> ExistingRow {
    let words = |it: &ExistingEntry| {
        let what = if kinds.len() > 1 { format!("{}: ", word(&it.what)) } else { String::new() };
        format!("{what}{}", listed(iter::once(word(&it.becomes)).chain(electric_words(it)), ", "))
    };
    let of_leaf = |leaf: &LeafWork| {
        let found = leaf.entry.existing.list().iter().filter(|it| it.what.get().is_some_and(|it| kinds.contains(it)));
        let found: Vec<String> = found.map(words).collect();
        (!found.is_empty()).then(|| (leaf.number, found.join("; ")))
    };
    let found: Vec<(usize, String)> = work.leaves.iter().filter_map(of_leaf).collect();
    let known = match found.as_slice() {
        [(_, one), (_, other)] if one == other => format!("both leaves: {one}"),
        _ if work.leaves.len() == 1 => listed(found.into_iter().map(|(_, words)| words), ", "),
        _ => listed(found.into_iter().map(|(leaf, words)| format!("leaf {leaf}: {words}")), ", "),
    };
    ExistingRow { name: name.to_owned(), known }
}

#[cfg(test)]
mod existing_tests {
    use super::EXISTING_ROWS;
    use crate::job::ExistingKind;

    #[test]
    fn every_kind_of_existing_hardware_has_one_row() {
        for kind in ExistingKind::ALL {
            let rows = EXISTING_ROWS.iter().filter(|(_, kinds)| kinds.contains(kind)).count();
            assert_eq!(rows, 1, "{kind}");
        }
    }
}
