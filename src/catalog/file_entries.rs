//! What a person types of a catalog: the file that holds it all.
//!
//! In: nothing. Out: a record that `input` fills. May not know: whether references hold, or any job.

use super::edition_entries::EditionEntry;
use super::entries::{ItemEntry, RuleEntry, TaskEntry};
use super::mechanics_entries::FastenerEntry;
use super::operator_entries::{OperatorEntry, SettingEntry};
use super::paper_entries::*;
use super::profile_entries::ProfileEntry;
use super::proof_entries::ProofEntry;
use super::rate_entries::*;
use super::route_entries::AssumedRouteEntry;
use super::terminal_entries::{CableEntry, TerminalEntry, TerminationEntry};
use super::theme_entries::ThemeEntry;
use crate::input::{Named, record};

record! {
    /// A file of a catalog; a catalog is any number of them, in any order.
    pub struct CatalogFileEntry as "catalog file" {
        /// The contractor.
        firm: FirmEntry, "";
        /// The look of papers.
        theme: ThemeEntry, "";
        /// Finishes.
        finish: Named<FinishEntry>, "";
        /// Items.
        item: Named<ItemEntry>, "";
        /// Tasks.
        task: Named<TaskEntry>, "";
        /// Operators.
        operator: Named<OperatorEntry>, "";
        /// Fasteners of headers, with what they may carry.
        fastener: Named<FastenerEntry>, "";
        /// Rules that stand by themselves.
        rule: Vec<RuleEntry>, "";
        /// Rows of the settings sheet.
        setting: Named<SettingEntry>, "";
        /// Routes that are assumed, by id.
        assumed_route: Named<AssumedRouteEntry>, "";
        /// Trades.
        trade: Named<TradeEntry>, "";
        /// Factors on hours.
        factor: Named<FactorEntry>, "";
        /// Suppliers.
        supplier: Named<SupplierEntry>, "";
        /// Owners' profiles.
        profile: Named<ProfileEntry>, "";
        /// Jurisdictions.
        jurisdiction: Named<JurisdictionEntry>, "";
        /// Editions of codes and standards.
        edition: Named<EditionEntry>, "";
        /// Terms of price.
        terms: Named<TermsEntry>, "";
        /// Parties.
        party: Named<PartyEntry>, "";
        /// Rows of the responsibility matrix.
        responsibility: Named<ResponsibilityEntry>, "";
        /// Lines of papers.
        note: Named<NoteEntry>, "";
        /// What others must do before we can, by id.
        need: Named<NeedEntry>, "";
        /// Proofs that go with submittals, by id.
        proof: Named<ProofEntry>, "";
        /// Terminals at headers, by id.
        terminal: Named<TerminalEntry>, "";
        /// How things are terminated, by id.
        termination: Named<TerminationEntry>, "";
        /// Colors of low-voltage cables, by id.
        cable: Named<CableEntry>, "";
        /// Sequences of operation.
        sequence: Named<SequenceEntry>, "";
        /// Faults.
        fault: Named<FaultEntry>, "";
    }
}
