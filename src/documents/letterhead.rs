//! What stands in the running head, the foot and the title block of every paper.
//!
//! In: sources. Out: finished strings. May not know: which paper it is, but for its title.

use serde::Serialize;

use super::Sources;

/// What stands in head, foot and title block.
#[derive(Clone, Debug, Serialize)]
pub struct Letterhead {
    /// Title of the paper.
    pub paper: String,
    /// The contractor.
    pub firm: String,
    /// Its address.
    pub firm_address: String,
    /// Its telephone and mail.
    pub firm_reach: String,
    /// Its licences, in one line.
    pub licences: String,
    /// Job number.
    pub number: String,
    /// Name of the project.
    pub project: String,
    /// Owner.
    pub owner: String,
    /// Firm the papers go to.
    pub to: String,
    /// Section as the project manual numbers it; a dash where none is known.
    pub section: String,
    /// Revision; a dash where none is set.
    pub revision: String,
    /// Date of the papers.
    pub date: String,
    /// Fingerprint of the checked values; empty where there is none.
    pub fingerprint: String,
    /// What every sheet says instead of the project, such as that it is not approved; empty where there is nothing to say.
    pub stop: String,
    /// Which revision that is of; follows `stop`.
    pub stop_of: String,
    /// What was approved, and when; empty where a paper does not hang on it.
    pub approved: String,
}

/// The letterhead of a paper.
pub fn letterhead(sources: &Sources, paper: &str) -> Letterhead {
    let head = &sources.reviewed.job().head;
    let firm = &sources.catalog.firm;
    let or_dash = |text: &Option<String>| text.clone().unwrap_or_else(|| "–".to_owned());
    let reach: Vec<&str> = [firm.phone.as_str(), firm.mail.as_str()].into_iter().filter(|it| !it.is_empty()).collect();
    Letterhead {
        paper: paper.to_owned(),
        firm: firm.name.clone(),
        firm_address: firm.address.clone(),
        firm_reach: reach.join(" · "),
        licences: firm.licences.join(" · "),
        number: head.number.clone(),
        project: head.name.clone(),
        owner: head.owner.clone(),
        to: head.to.clone(),
        section: or_dash(&head.section),
        revision: or_dash(&head.revision),
        date: head.date.to_string(),
        fingerprint: sources.fingerprint.to_owned(),
        stop: String::new(),
        stop_of: String::new(),
        approved: String::new(),
    }
}
