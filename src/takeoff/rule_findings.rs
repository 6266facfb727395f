//! What the takeoff has to say: facts that are not known, rules without a result.
//!
//! In: rules, entities and what is missing or wrong. Out: findings. May not know: how lines are made.

use super::codes;
use super::entity::EntityRef;
use super::fact_sources::{has_bad_source, is_bad_of};
use super::lines::{Asking, LineBuilder};
use crate::catalog::Rule;
use crate::findings::{Finding, Subject, some_listed};
use crate::ledger::FigureFault;
use crate::rules::{FactName, Fault, Missing};

/// Facts that a rule asks for and that are not known.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct UnknownNames {
    /// What they are and why they are not known, in plain words.
    in_words: String,
    /// Their names in rules.
    names: String,
}

impl LineBuilder<'_, '_> {
    pub(super) fn name(&self, of: EntityRef) -> String {
        match self.library.facts(of).about() {
            "" => "the job".to_owned(),
            about => about.to_owned(),
        }
    }

    pub(super) fn subject(&self, of: EntityRef) -> Subject {
        match (of.opening(), self.site_of(of)) {
            (Some(at), _) => Subject::Opening(self.all.openings[at].opening.mark.clone()),
            (None, Some(site)) => Subject::Site(self.all.sites[site].id.clone()),
            _ => Subject::Job,
        }
    }

    pub(super) fn undecided(&mut self, rule: &Rule, of: EntityRef, missing: &[Missing]) {
        if self.has_bad_source(of, missing) {
            return;
        }
        let facts = self.library.facts(of);
        let in_words = |it: &Missing| format!("{} ({})", facts.help(&FactName::new(&it.fact)), it.why);
        let unknown = UnknownNames {
            in_words: missing.iter().map(in_words).collect::<Vec<_>>().join("; "),
            names: missing.iter().map(|it| format!("`{}`", it.fact)).collect::<Vec<_>>().join(", "),
        };
        let place = match of.opening() {
            Some(at) => Some(self.all.openings[at].opening.place.clone()),
            None => self.site_of(of).and_then(|at| self.all.sites[at].entry.written_at.clone()),
        };
        let place = place.unwrap_or_else(|| rule.place.clone());
        let asks = Asking { rule: rule.id.clone(), place: rule.place.clone(), target: self.target_name(rule) };
        let reported = self.unknown.entry((place, self.subject(of), unknown)).or_default();
        if !reported.contains(&asks) {
            reported.push(asks);
        }
    }

    /// Whether any of the facts is unknown because of a bad value, which was reported where it was read.
    fn has_bad_source(&self, of: EntityRef, missing: &[Missing]) -> bool {
        let Some(work) = of.opening().map(|at| &self.all.openings[at]) else {
            let of_site = |fact: &str| {
                let site = self.site_of(of).map(|at| &self.all.sites[at].entry);
                fact.starts_with("site.") && site.is_some_and(|it| is_bad_of(it, fact))
            };
            let of_run = |fact: &str| match of {
                EntityRef::Run(run) => fact.starts_with("run.") && is_bad_of(&self.all.runs[run].run.entry, fact),
                _ => false,
            };
            let panel = match of {
                EntityRef::Panel(panel) => Some(panel),
                EntityRef::Circuit(circuit) => Some(self.all.circuits[circuit].panel),
                _ => None,
            };
            let of_panel = panel.is_some_and(|panel| self.all.panels[panel].unread);
            return of_panel || missing.iter().any(|it| of_site(&it.fact) || of_run(&it.fact));
        };
        let leaf = match of {
            EntityRef::Leaf(_, leaf) => Some(leaf),
            EntityRef::Drive(_, drive) => work.drives.get(drive).map(|drive| drive.leaf),
            _ => None,
        };
        missing.iter().any(|it| has_bad_source(work, leaf, &it.fact))
    }

    /// One finding for each fact that is not known of a site or an opening, however many rules ask for it.
    pub(super) fn report_unknown(&mut self) {
        for ((place, subject, unknown), rules) in std::mem::take(&mut self.unknown) {
            let Some(first) = rules.first() else { continue };
            let mut targets: Vec<&str> = rules.iter().map(|asking| asking.target.as_str()).collect();
            targets.dedup();
            let finding = Finding::new(&codes::RULE_UNDECIDED, subject)
                .at(place)
                .near(first.place.clone(), format!("rule `{}` requires{}", first.rule, others(rules.len() - 1)))
                .found(unknown.in_words)
                .asked(some_listed(&targets))
                .price("nothing for it is in the bid")
                .advise(format!("give the fact in the job file, or survey it; rules call it {}", unknown.names));
            self.findings.push(finding);
        }
    }

    pub(super) fn failed(&mut self, rule: &Rule, of: EntityRef, fault: &Fault) {
        let finding = Finding::new(&codes::RULE_NO_RESULT, Subject::Entry("rule", rule.id.clone()))
            .at(rule.place.clone())
            .found(format!("{fault} for {}", self.name(of)))
            .asked("a result that can be kept");
        self.findings.push(finding);
    }

    pub(super) fn beyond(&mut self, rule: &Rule, of: EntityRef, fault: &FigureFault) {
        let finding = Finding::new(&codes::RULE_NO_RESULT, Subject::Entry("rule", rule.id.clone()))
            .at(rule.place.clone())
            .found(format!("{fault} for {}", self.name(of)))
            .asked("a result that can be kept");
        self.findings.push(finding);
    }
}

fn others(count: usize) -> String {
    match count {
        0 => String::new(),
        1 => ", and one more".to_owned(),
        many => format!(", and {many} more"),
    }
}
