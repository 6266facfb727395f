//! One view model per paper: finished strings and keys of drawings.
//!
//! In: job, takeoff, estimate, findings.
//! Out: views ready for a template.
//! May not know: pages, templates, files.
//!
//! Every paper is a function from [`Sources`] to a [`Draft`]. A view holds finished text only: a template does no
//! arithmetic, and nothing in a view needs a second look at the job.

#![cfg_attr(not(test), deny(clippy::indexing_slicing, clippy::string_slice, clippy::unwrap_used, clippy::expect_used))]

mod approval_status;
mod bid;
mod clause_marks;
mod codes;
mod conditions;
mod counts;
mod devices;
mod drawing_set;
mod finding_groups;
mod heading;
mod letterhead;
mod needs;
mod orders;
mod packet;
mod printing;
mod question_list;
mod recap;
mod register;
mod review_sheet;
mod schedule;
mod submittal;
mod survey_form;

pub use approval_status::PacketApproval;
pub use bid::{BidView, Offer, bid};
pub use codes::CODES;
pub use conditions::{ConditionEvaluator, OperationRow, Unknown};
pub use counts::{COUNTED, Count, counts};
pub use devices::DeviceRow;
pub use drawing_set::{DrawingsView, drawing_set};
pub use heading::{Heading, heading};
pub use letterhead::{Letterhead, letterhead};
pub use needs::{NeedsView, needs};
pub use orders::{OrdersView, orders};
pub use packet::{MOVES, Moved, PacketView, mark_of_sheet, moved_finding, packet, packet_of, pages_allowed};
pub use printing::Printing;
pub use question_list::{
    Answer, PricedAnswer, QuestionCost, QuestionsView, Topic, answers, price_absences, question_costs, question_list,
};
pub use recap::{RecapView, recap};
pub use register::{RegisterView, register};
pub use review_sheet::{ReviewView, review_sheet};
pub use schedule::{ScheduleView, schedule};
pub use submittal::{PackageDraft, SubmittalView, package_stem, packages, submittal};
pub use survey_form::{SurveyView, survey};

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::catalog::Catalog;
use crate::findings::Findings;
use crate::pdf_import::Enclosure;
use crate::review::{AcceptedFinding, ReviewedJob};
use crate::shapes::Drawing;
use crate::spreadsheet::Table;
use crate::takeoff::Takeoff;

/// A revision, as a cover tells it.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Revision {
    /// Its letter.
    pub name: String,
    /// Date of its papers.
    pub date: String,
    /// What it changed, in short lines.
    pub changes: Vec<String>,
}

/// What papers are made from.
#[derive(Clone, Copy)]
pub struct Sources<'a> {
    /// The reviewed job.
    pub reviewed: &'a ReviewedJob,
    /// The catalog.
    pub catalog: &'a Catalog,
    /// Quantities and hours.
    pub takeoff: &'a Takeoff<'a>,
    /// Everything found so far.
    pub findings: &'a Findings,
    /// Warnings that were accepted, with their reasons.
    pub accepted: &'a [AcceptedFinding],
    /// Fingerprint of the checked values, printed in the foot; empty where there is none.
    pub fingerprint: &'a str,
    /// Revisions, the oldest first, the job's own last; none where no earlier issue was recorded.
    pub revisions: &'a [Revision],
    /// Makers' own sheets of the items taken off, by their paths in the catalog; one that cannot be enclosed is not there.
    pub enclosures: &'a BTreeMap<String, Arc<Enclosure>>,
}

/// A paper before it is set: its view, the drawings that the view names by key, and its lines as a plain table where somebody goes
/// on with them in a spreadsheet.
#[derive(Clone, Debug)]
pub struct Draft<View> {
    /// What the template is filled with.
    pub view: View,
    /// Drawings by the keys that the view holds.
    pub drawings: BTreeMap<String, Arc<Drawing>>,
    /// Its lines as a table.
    pub table: Option<Table>,
}

impl<View> Draft<View> {
    /// A paper without drawings.
    pub fn plain(view: View) -> Self {
        Draft::drawn(view, BTreeMap::new())
    }

    /// A paper with drawings.
    pub fn drawn(view: View, drawings: BTreeMap<String, Drawing>) -> Self {
        let drawings = drawings.into_iter().map(|(key, drawing)| (key, Arc::new(drawing))).collect();
        Draft { view, drawings, table: None }
    }
}
