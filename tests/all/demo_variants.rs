//! The demo job uses every word that an opening, a leaf, a device, a site or a run can be described with.
//!
//! In: the demo's files. Out: the words that nothing uses; the test wants none, so that every word is seen in papers.
//! Invented data, no source.

use std::path::Path;

use hingewright::catalog;
use hingewright::findings::Files;
use hingewright::input::{Reader, Vocabulary};
use hingewright::job::{
    Approach, CeilingKind, CircuitPolicy, Condition, DeviceEntry, DeviceKind, DeviceMount, Disposition, ExistingKind,
    Exposure, FrameMade, HandLetters, Hanging, HazardReport, HeaderShare, HingeEdge, InTheWay, Job, LatchKind,
    LeafEntry, LeafRole, Link, Live, LockedLine, Opening, PowerKnown, Rating, ReachFrom, Release, RunClass, RunKind,
    Side, StatementKind, StoppedBy, SubmittalPart, Swing, TradeSize, Typed,
};
use hingewright::takeoff;

/// The demo's folder, as its job file names the catalog.
const CATALOG: &str = "catalog_demo";
const JOB: &str = "catalog_demo/job";

fn demo_files() -> Files {
    let mut files = Vec::new();
    for folder in [CATALOG, JOB] {
        for entry in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).unwrap() {
            let path = entry.unwrap().path();
            if path.is_file() {
                let name = path.file_name().unwrap().to_str().unwrap();
                files.push((format!("{folder}/{name}"), std::fs::read(&path).unwrap()));
            }
        }
    }
    Files::new(files)
}

fn demo() -> Job {
    let files = demo_files();
    let mut reader = Reader::new(&files);
    let typed = Typed::read(&mut reader, files.find("catalog_demo/job/job.toml").unwrap());
    let (folder, named_at) = typed.names().catalog_folder().unwrap();
    let catalog = catalog::read(&mut reader, &folder, named_at.as_ref(), &takeoff::sheet);
    let job = typed.check(&mut reader, &catalog).unwrap();
    let found: Vec<String> =
        reader.into_findings().iter().map(|it| format!("{} {:?} {}", it.code.id, it.subject, it.found)).collect();
    assert_eq!(found, Vec::<String>::new(), "the demo reads without a finding");
    job
}

/// What the openings that are priced or asked for as an alternate are made of.
struct Used<'j> {
    openings: Vec<&'j Opening>,
    leaves: Vec<&'j LeafEntry>,
    devices: Vec<&'j DeviceEntry>,
    unused: Vec<String>,
}

impl<'j> Used<'j> {
    fn of(job: &'j Job) -> Self {
        let openings: Vec<&Opening> =
            job.openings.iter().map(|it| &**it).filter(|it| !job.is_set_aside(&it.mark)).collect();
        let leaves = openings.iter().flat_map(|it| &it.leaves).collect();
        let devices = openings.iter().flat_map(|it| it.entry.device.list()).collect();
        Used { openings, leaves, devices, unused: Vec::new() }
    }

    /// Records the words of a vocabulary that are not among those used.
    fn all_of<V: Vocabulary>(&mut self, what: &str, used: Vec<V>) {
        let missing = V::ALL.iter().filter(|word| !used.contains(word));
        self.unused.extend(missing.map(|word| format!("{what}: {}", word.word())));
    }

    fn openings<V: Vocabulary>(&mut self, what: &str, words: impl Fn(&Opening) -> Vec<V>) {
        let used = self.openings.iter().flat_map(|it| words(it)).collect();
        self.all_of(what, used);
    }

    fn leaves<V: Vocabulary>(&mut self, what: &str, word: impl Fn(&LeafEntry) -> Option<V>) {
        let used = self.leaves.iter().filter_map(|it| word(it)).collect();
        self.all_of(what, used);
    }

    fn devices<V: Vocabulary>(&mut self, what: &str, word: impl Fn(&DeviceEntry) -> Option<V>) {
        let used = self.devices.iter().filter_map(|it| word(it)).collect();
        self.all_of(what, used);
    }
}

fn leaf_words(used: &mut Used) {
    used.leaves::<HingeEdge>("hinges", |it| it.hinges.cloned());
    used.leaves::<Swing>("swing", |it| it.swing.cloned());
    used.leaves::<HandLetters>("hand", |it| it.hand.cloned());
    used.leaves::<Hanging>("hangs", |it| it.hangs.cloned());
    used.leaves::<LeafRole>("role", |it| it.role.cloned());
    used.leaves::<StoppedBy>("stopped_by", |it| it.stopped_by.cloned());
    used.leaves::<LatchKind>("latch", |it| it.latch.cloned());
    used.leaves::<Release>("release", |it| it.release.cloned());
    used.leaves::<catalog::LeafMade>("made", |it| it.made.cloned());
    used.leaves::<catalog::Arm>("arm", |it| it.arm.cloned());
    let existing: Vec<_> = used.leaves.iter().flat_map(|it| it.existing.list()).collect();
    let what = existing.iter().filter_map(|it| it.what.cloned()).collect();
    let becomes = existing.iter().filter_map(|it| it.becomes.cloned()).collect();
    used.all_of::<ExistingKind>("existing", what);
    used.all_of::<Disposition>("becomes", becomes);
}

fn opening_words(used: &mut Used) {
    used.openings::<HeaderShare>("headers", |it| it.entry.headers.cloned().into_iter().collect());
    used.openings::<catalog::Mount>("mount", |it| it.entry.mount.cloned().into_iter().collect());
    used.openings::<catalog::EnergyClass>("energy", |it| it.entry.energy.cloned().into_iter().collect());
    used.openings::<Rating>("rating", |it| it.entry.rating.cloned().into_iter().collect());
    used.openings::<Exposure>("exposure", |it| it.entry.exposure.cloned().into_iter().collect());
    used.openings::<Condition>("conditions", |it| it.entry.conditions.list().to_vec());
    let frame = |it: &Opening| it.entry.frame.cloned().unwrap_or_default();
    used.openings::<FrameMade>("frame.made", |it| frame(it).made.cloned().into_iter().collect());
    used.openings::<catalog::Substrate>("frame.fixed_to", |it| frame(it).fixed_to.cloned().into_iter().collect());
    used.openings::<InTheWay>("frame.in_the_way", |it| {
        frame(it).in_the_way.list().iter().filter_map(|it| it.what.cloned()).collect()
    });
    let power = |it: &Opening| it.entry.power.cloned().unwrap_or_default();
    used.openings::<PowerKnown>("power.known", |it| power(it).known.cloned().into_iter().collect());
    used.openings::<CircuitPolicy>("power.policy", |it| power(it).policy.cloned().into_iter().collect());
    let ceiling = |it: &Opening| it.entry.ceiling.cloned().unwrap_or_default();
    used.openings::<CeilingKind>("ceiling.kind", |it| ceiling(it).kind.cloned().into_iter().collect());
    let vestibule = |it: &Opening| it.entry.vestibule.cloned().unwrap_or_default();
    let floors = |it: &Opening| it.entry.access.get().map(|it| it.floor.list().to_vec()).unwrap_or_default();
    used.openings::<Approach>("floor.approach", |it| floors(it).iter().filter_map(|it| it.approach.cloned()).collect());
    used.openings::<LockedLine>("vestibule.locked", |it| vestibule(it).locked.cloned().into_iter().collect());
}

fn device_words(used: &mut Used) {
    used.devices::<DeviceKind>("device.kind", |it| it.kind.cloned());
    used.devices::<Side>("device.side", |it| it.side.cloned());
    // Left out, a device is wired and works at all times.
    used.devices::<Link>("device.link", |it| Some(it.link.or(Link::Wired)));
    used.devices::<DeviceMount>("device.mount", |it| it.mount.cloned());
    used.devices::<ReachFrom>("device.reach_from", |it| it.reach_from.cloned());
    used.devices::<Live>("device.live", |it| Some(it.live.or(Live::Always)));
}

#[test]
fn the_demo_uses_every_word() {
    let job = demo();
    let mut used = Used::of(&job);
    leaf_words(&mut used);
    opening_words(&mut used);
    device_words(&mut used);
    used.all_of::<RunKind>("run.kind", job.runs.iter().map(|it| it.kind).collect());
    used.all_of::<RunClass>("run.class", job.runs.iter().map(|it| it.class).collect());
    used.all_of::<TradeSize>("run.size", job.runs.iter().filter_map(|it| it.size).collect());
    used.all_of::<StatementKind>("statement.kind", job.statements.iter().map(|it| it.kind).collect());
    used.all_of::<SubmittalPart>("submittal.parts", job.submittals.iter().flat_map(|it| it.parts.clone()).collect());
    let hazards = job.sites.values().filter_map(|it| it.entry.hazard.cloned()).collect();
    used.all_of::<HazardReport>("site.hazard", hazards);
    assert_eq!(used.unused, Vec::<String>::new(), "words that no opening, device, site or run of the demo uses");
}

#[test]
fn the_owners_of_the_demo_number_and_answer_in_every_way() {
    let files = demo_files();
    let catalog = catalog::read(&mut Reader::new(&files), CATALOG, None, &takeoff::sheet);
    let job = demo();
    let mut used = Used::of(&job);
    used.all_of::<catalog::Again>("profile.again", catalog.profiles.values().map(|it| it.again).collect());
    let dispositions = catalog.profiles.values().flat_map(|it| &it.dispositions);
    used.all_of::<catalog::Meaning>("profile.disposition.means", dispositions.map(|it| it.means).collect());
    assert_eq!(used.unused, Vec::<String>::new(), "words that no owner of the demo uses");
    // A transmittal that came back approved, one that is out, one that was never sent.
    let rounds: Vec<usize> = job.transmittals.iter().map(|it| it.rounds.len()).collect();
    let answered = job.transmittals.iter().flat_map(|it| &it.rounds).filter(|it| it.answer.is_some()).count();
    assert_eq!((rounds, answered), (vec![1, 1, 0], 1));
}

#[test]
fn the_demo_holds_what_a_job_holds() {
    let job = demo();
    let operators: std::collections::BTreeSet<&str> =
        job.openings.iter().filter_map(|it| it.entry.operator.get()).map(|id| id.as_str()).collect();
    assert!(operators.len() >= 4, "{operators:?}");
    assert!(job.base_openings().count() >= 26);
    assert_eq!((job.sites.len(), job.addenda.len(), job.alternates.len()), (3, 2, 3));
    assert!(!job.unit_prices.is_empty() && !job.allowances.is_empty() && !job.quotes.is_empty());
    assert!(!job.adjustments.is_empty() && !job.set_aside.is_empty() && !job.accepted.is_empty());
    let passes: std::collections::BTreeSet<u32> =
        job.openings.iter().flat_map(|it| &it.surveys).map(|it| it.pass).collect();
    assert_eq!(passes.into_iter().collect::<Vec<_>>(), [1, 2]);
    assert!(job.base_openings().any(|it| it.surveys.is_empty()), "an opening that is not surveyed");
}
