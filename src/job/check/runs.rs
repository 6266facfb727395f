//! Runs: their ends followed, their sites found.
//!
//! In: run records, openings, panels. Out: checked runs in file order. May not know: what they carry.

use std::collections::BTreeMap;

use rustc_hash::{FxHashMap, FxHashSet};

use super::Check;
use crate::findings::{Finding, Place, Subject};
use crate::input::{Count, Given, Slot, Standing, Text};
use crate::job::codes;
use crate::job::entries::OpeningEntry;
use crate::job::model::{Opening, Panel, Run, RunEnd, RunPart, Site};
use crate::job::site_entries::{RunEntry, RunKind, RunPartEntry};

/// What ends of runs can name besides panels.
struct KnownEnds<'j> {
    /// Marks of openings, in file order.
    marks: Vec<&'j str>,
    openings: FxHashMap<&'j str, &'j Opening>,
    /// Marks as typed, of openings that could not be read too.
    typed: FxHashSet<&'j str>,
    /// How often a text is named as an end of a run.
    ends: FxHashMap<&'j str, usize>,
    /// Whether an end of some run cannot be read, so that it may be any.
    unread: bool,
}

impl<'j> KnownEnds<'j> {
    /// Whether a text names an opening that was typed, or a device of it.
    fn is_of_typed_opening(&self, text: &str) -> bool {
        let before_slash = text.match_indices('/').map(|(at, _)| &text[..at]);
        before_slash.chain([text]).any(|mark| self.typed.contains(mark))
    }

    fn of(openings: &'j [Opening], typed: &'j [OpeningEntry], runs: &'j [RunEntry]) -> Self {
        let mut known = KnownEnds {
            marks: openings.iter().map(|it| it.mark.as_str()).collect(),
            openings: FxHashMap::default(),
            typed: typed.iter().filter_map(|it| it.mark.get()).map(|mark| mark.as_str()).collect(),
            ends: FxHashMap::default(),
            unread: runs.iter().any(|run| run.from.is_bad() || run.to.is_bad()),
        };
        for opening in openings {
            known.openings.entry(opening.mark.as_str()).or_insert(opening);
        }
        for end in runs.iter().flat_map(|run| [&run.from, &run.to]).filter_map(Slot::get) {
            *known.ends.entry(end.as_str()).or_default() += 1;
        }
        known
    }
}

impl Check<'_, '_, '_> {
    pub(super) fn runs(
        &mut self,
        openings: &[Opening],
        panels: &BTreeMap<String, Panel>,
        sites: &BTreeMap<String, Site>,
    ) -> Vec<Run> {
        let typed = self.typed;
        let known = KnownEnds::of(openings, &typed.openings, typed.entry.run.list());
        let mut runs = Vec::new();
        for (at, entry) in typed.entry.run.list().iter().enumerate() {
            let ends = (self.end(&entry.from, &known, panels), self.end(&entry.to, &known, panels));
            let (Some(from), Some(to)) = ends else { continue };
            let Some(site) = self.run_site(entry, [&from, &to], &known, panels, sites) else { continue };
            let (Some(kind), Some(class), Some(length), Some(place)) =
                (entry.kind.cloned(), entry.class.cloned(), entry.length.cloned(), entry.written_at.clone())
            else {
                continue;
            };
            let bends = entry.bends.list().iter().map(|bend| bend.get()).collect();
            let size = entry.size.cloned();
            let number = at + 1;
            let entry = entry.clone();
            let (part, assumed) = (None, None);
            parts(
                Run { number, from, to, site, kind, class, size, length, bends, entry, place, part, assumed },
                &mut runs,
            );
        }
        runs
    }

    /// What a text names: a panel, an opening, a device, else a box, if another run ends there too.
    fn end(&mut self, slot: &Slot<Text>, all: &KnownEnds, panels: &BTreeMap<String, Panel>) -> Option<RunEnd> {
        let given = slot.given()?;
        let text = given.value.as_str();
        if panels.contains_key(text) {
            return Some(RunEnd::Panel(text.to_owned()));
        }
        if all.openings.contains_key(text) {
            return Some(RunEnd::Opening(text.to_owned()));
        }
        if let Some((mark, device)) = text.rsplit_once('/')
            && let Some(opening) = all.openings.get(mark)
        {
            let devices = &opening.entry.device;
            let ids = device_ids(opening);
            let unread = devices.is_bad() || devices.list().iter().any(|it| it.id.is_bad());
            if unread && !ids.iter().any(|id| id == device) {
                return None;
            }
            if ids.iter().any(|id| id == device) {
                return Some(RunEnd::Device(mark.to_owned(), device.to_owned()));
            }
            let known: Vec<String> = ids.iter().map(|id| format!("{mark}/{id}")).collect();
            self.end_unknown(text, &given.place, known.iter().map(String::as_str).collect());
            return None;
        }
        let typed = self.typed;
        let panels_unread = typed.entry.panel.is_bad();
        let is_unread_panel = || typed.entry.panel.get().is_some_and(|it| it.get(text).is_some() || it.is_unread(text));
        // Where openings, panels or ends could not be read, it may be one of them; that was reported.
        if panels_unread || !self.marks_whole() || is_unread_panel() || all.is_of_typed_opening(text) {
            return None;
        }
        if all.ends.get(text).is_some_and(|count| *count > 1) {
            return Some(RunEnd::Box(text.to_owned()));
        }
        if !all.unread {
            let known = panels.keys().map(String::as_str).chain(all.marks.iter().copied()).collect();
            self.end_unknown(text, &given.place, known);
        }
        None
    }

    fn end_unknown(&mut self, text: &str, place: &Place, known: Vec<&str>) {
        self.unknown(&codes::RUN_END_UNKNOWN, Subject::Job, text, place, known);
    }

    fn run_site(
        &mut self,
        entry: &RunEntry,
        ends: [&RunEnd; 2],
        all: &KnownEnds,
        panels: &BTreeMap<String, Panel>,
        sites: &BTreeMap<String, Site>,
    ) -> Option<String> {
        if let Some(given) = entry.site.given() {
            return Some(given.value.as_str().to_owned()).filter(|id| sites.contains_key(id));
        }
        if entry.site.is_bad() {
            return None;
        }
        let reported = ends.into_iter().find_map(|end| match end {
            RunEnd::Panel(id) => panels.get(id).map(|panel| panel.site.clone()),
            RunEnd::Opening(mark) | RunEnd::Device(mark, _) => {
                all.openings.get(mark.as_str()).map(|opening| opening.site.clone())
            }
            RunEnd::Box(_) | RunEnd::Joint(..) => None,
        });
        let only = || if sites.len() == 1 { sites.keys().next().cloned() } else { None };
        let site = reported.or_else(only);
        // Where a table could not be read, the opening that would tell the site may stand in it.
        if let (None, Some(place)) = (&site, &entry.written_at)
            && self.marks_whole()
        {
            let names = ends.map(|end| end.to_string()).join("` nor `");
            let finding = Finding::new(&codes::RUN_SITE, Subject::Job).at(place.clone()).found(names);
            self.reader.push(finding.asked("a site").advise("write site = \"…\""));
        }
        site
    }
}

/// A run part by part; one of a single kind as it is. What is counted once for a run, such as walls, is with its first part.
fn parts(run: Run, runs: &mut Vec<Run>) {
    let further = run.entry.then.list().to_vec();
    // A run is whole or not there: one without a part in its middle would lead nowhere.
    let is_read = |part: &RunPartEntry| part.kind.given().is_some() && part.length.given().is_some();
    if run.entry.then.is_bad() || !further.iter().all(is_read) {
        return;
    }
    if further.is_empty() {
        runs.push(run);
        return;
    }
    let (whole, count) = ((run.from.clone(), run.to.clone()), further.len());
    let part = |number: usize| Some(RunPart { number, whole: whole.clone() });
    let joint = |number: usize| RunEnd::Joint(run.number, number);
    runs.push(Run { to: joint(1), part: part(1), ..run.clone() });
    for (at, typed) in further.into_iter().enumerate() {
        let (Some(kind), Some(length)) = (typed.kind.cloned(), typed.length.cloned()) else { continue };
        let place = typed.written_at.clone().unwrap_or_else(|| run.place.clone());
        let stated = |value: u32| {
            Slot::Given(Given {
                value: Count::from(value),
                place: place.clone(),
                standing: Standing::Stated,
                through: None,
            })
        };
        let bends = match (kind, &typed.bends) {
            (RunKind::Flexible | RunKind::LiquidTight, Slot::Absent) => Slot::Given(Given {
                value: Vec::new(),
                place: place.clone(),
                standing: Standing::Stated,
                through: None,
            }),
            _ => typed.bends.clone(),
        };
        runs.push(Run {
            from: joint(at + 1),
            to: if at + 1 == count { run.to.clone() } else { joint(at + 2) },
            kind,
            size: typed.size.cloned(),
            length,
            bends: bends.list().iter().map(|bend| bend.get()).collect(),
            entry: RunEntry {
                kind: typed.kind,
                size: typed.size,
                length: typed.length,
                bends,
                wet: if typed.wet.is_absent() { run.entry.wet.clone() } else { typed.wet },
                trench: typed.trench,
                rated_walls: stated(0),
                cores: stated(0),
                ..run.entry.clone()
            },
            part: part(at + 2),
            place,
            ..run.clone()
        });
    }
}

/// The ids of an opening's devices as the takeoff numbers them.
pub(super) fn device_ids(opening: &Opening) -> Vec<String> {
    let devices = opening.entry.device.list().iter().enumerate();
    devices.map(|(at, it)| it.id.get().map_or_else(|| format!("D{}", at + 1), |id| id.as_str().to_owned())).collect()
}
