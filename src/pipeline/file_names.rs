//! Names of the files that papers are written to.
//!
//! In: what papers are made from; the name of a file. Out: names that two papers would share; the paper of a name. May not know: the
//! disk.

use std::collections::BTreeMap;

use super::codes::ONE_FILE;
use crate::catalog::Catalog;
use crate::documents::{self, Sources};
use crate::findings::{Finding, Findings, Paper, Papers, Place, Subject};
use crate::review::ReviewedJob;
use crate::takeoff::Takeoff;

/// Finds papers that would be written to one file. Only those can be that are made several of a kind: a packet a site, a package a
/// transmittal.
pub(super) fn check((reviewed, catalog, takeoff): (&ReviewedJob, &Catalog, &Takeoff), findings: &mut Findings) {
    let nothing = (Findings::default(), BTreeMap::new());
    let sources = Sources {
        reviewed,
        catalog,
        takeoff,
        findings: &nothing.0,
        accepted: &[],
        fingerprint: "",
        revisions: &[],
        enclosures: &nothing.1,
    };
    let job = reviewed.job();
    let mut first: BTreeMap<String, Option<&Place>> = BTreeMap::new();
    let packages = job
        .transmittals
        .iter()
        .enumerate()
        .map(|(at, it)| (Paper::Submittal, documents::package_stem(&sources, at), Subject::Job, Some(&it.place)));
    let sites = job
        .sites
        .values()
        .map(|site| (Paper::Packet, format!("packet-{}", site.id), Subject::Site(site.id.clone()), None));
    for (paper, stem, subject, place) in packages.chain(sites) {
        let Some(other) = first.insert(stem.to_ascii_lowercase(), place) else { continue };
        let finding = Finding::new(&ONE_FILE, subject).found(format!("{stem}.pdf")).blocking(Papers::of(&[paper]));
        let finding = place.cloned().into_iter().fold(finding, Finding::at);
        let finding = other.cloned().into_iter().fold(finding, |it, at| it.near(at, "the other one"));
        findings.push(finding.advise("write the same section in one way, and give each a number or an id of its own"));
    }
}

/// The paper that a file of this name belongs to; none where it is no name that this program gives.
pub fn paper_of_file(name: &str) -> Option<Paper> {
    let (stem, ending) = name.rsplit_once('.')?;
    let plain = |text: &str| {
        !text.is_empty() && text.chars().all(|it| it.is_alphanumeric() || matches!(it, '-' | '_' | '.')) && text != ".."
    };
    Paper::ALL.into_iter().find(|paper| {
        let several = matches!(paper, Paper::Packet | Paper::Submittal);
        let own = match paper {
            Paper::Recap => stem == "recap-internal",
            paper if several => {
                stem.strip_prefix(paper.word()).and_then(|rest| rest.strip_prefix('-')).is_some_and(plain)
            }
            paper => stem == paper.word(),
        };
        let forms = match paper {
            Paper::Packet | Paper::Drawings => ["pdf", "html"],
            Paper::Orders => ["pdf", "csv"],
            _ => ["pdf", "pdf"],
        };
        own && forms.contains(&ending)
    })
}

#[cfg(test)]
mod tests {
    use super::paper_of_file;
    use crate::findings::Paper;

    #[test]
    fn a_name_is_one_of_ours_or_none() {
        let ours = [
            ("bid.pdf", Paper::Bid),
            ("recap-internal.pdf", Paper::Recap),
            ("packet-hall.html", Paper::Packet),
            ("orders.csv", Paper::Orders),
            ("submittal-087113-1.pdf", Paper::Submittal),
        ];
        for (name, paper) in ours {
            assert_eq!(paper_of_file(name), Some(paper), "{name}");
        }
        let others = [
            "bid",
            "bid.html",
            "bids.pdf",
            "recap.pdf",
            "packet-.pdf",
            "packet-of-mine.txt",
            "notes.txt",
            "issued.txt",
            "bid/../../victim",
            "packet-../../../victim.pdf",
            "packet-a/b.pdf",
            "packet-a\\b.pdf",
            "..",
            "",
        ];
        for name in others {
            assert_eq!(paper_of_file(name), None, "{name}");
        }
    }
}
